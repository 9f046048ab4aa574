// SPDX-License-Identifier: GPL-3.0-or-later
/* Taper: a piece that grows thinner towards one end, on one side or several, as a leg below its rails.
 *
 * Each shaped side loses a wedge that is `by` deep at the end and begins `length` from it:
 *     angle    atan(by / length)                                                                  (1)
 *     left     size - by - by of the opposite side, where that is shaped too                      (2)
 * Sides that meet at an arris both take the wood there: a leg tapered on four sides ends as the frustum of a pyramid. */
#include "profile/profile.h"

#include "joint/fix.h"

#include <math.h>

#include "joint/words.h"

#define CARE_SHARE 0.5   // of the size, that should stay at the thin end: common practice, half to two thirds

static const char *const side_words[] = { "face", "back", "face edge", "back edge", "face and back", "both edges",
    "face and face edge", "face and back edge",
    "back and face edge", "back and back edge", "all four", NULL };
static const bool side_sets[][4] = { { 1, 0, 0, 0 }, { 0, 1, 0, 0 }, { 0, 0, 1, 0 }, { 0, 0, 0, 1 }, { 1, 1, 0, 0 }, { 0, 0, 1,
    1 }, { 1, 0, 1, 0 }, { 1, 0, 0, 1 },
    { 0, 1, 1, 0 }, { 0, 1, 0, 1 }, { 1, 1, 1, 1 } };
static const char *const ends[] = { "left", "right", NULL };

#define AT(field) offsetof(tw_taper_spec, field)
static const tw_key keys[] = {
    { .name = "piece", .kind = TW_KEY_PIECE, .offset = AT(piece), .required = true, .meaning = "The piece that is shaped.",
        .example = "leg" },
    { .name = "sides", .kind = TW_KEY_CHOICE, .offset = AT(sides), .choices = side_words, .fallback = 10,
        .meaning = "The sides that slope.", .example = "back and back edge" },
    { .name = "end", .kind = TW_KEY_CHOICE, .offset = AT(end), .choices = ends, .meaning = "The thin end.", .example = "right" },
    { .name = "length", .kind = TW_KEY_LENGTH, .offset = AT(length), .required = true,
        .meaning = "How long the tapered part is, from the thin end.", .example = "420 mm" },
    { .name = "by", .kind = TW_KEY_LENGTH, .offset = AT(by), .required = true,
        .meaning = "How much each of the sides loses at the thin end.", .example = "12 mm" },
};
#undef AT

static const char *say(const tw_joint_context *context, double mm) { return tw_say(context, mm); }

/* ---- shape ---- */

static double thin_x(const tw_taper *t) { return t->spec->end.value == 1 ? t->size.length_mm : 0.0; }
static double begin_x(const tw_taper *t) { return t->spec->end.value == 1 ? t->size.length_mm - t->long_mm : t->long_mm; }

static tw_outline wedge(tw_arena *arena, const tw_taper *t, const tw_profile_side *side)
{
    tw_point begin = tw_profile_point(side, begin_x(t), 0.0), end = tw_profile_point(side, thin_x(t), 0.0),
        in = tw_profile_point(side, thin_x(t), t->by_mm);
    bool turns_left = (end.x - begin.x) * (in.y - begin.y) - (end.y - begin.y) * (in.x - begin.x) > 0.0;
    tw_point second = turns_left ? end : in, third = turns_left ? in : end;
    return tw_outline_of_loop(arena, (tw_vertex[]){ { begin.x, begin.y, 0 }, { second.x, second.y, 0 }, { third.x, third.y,
        0 } }, 3);
}

/* What is left as seen on a face: low and high side shaped or not, counter-clockwise. */
static tw_outline left_of_piece(tw_arena *arena, const tw_taper *t, double wide, bool low, bool high)
{
    double l = t->size.length_mm, x = begin_x(t), left = t->spec->end.value == 0 ? t->by_mm : 0.0,
        right = t->spec->end.value == 1 ? t->by_mm : 0.0;
    tw_vertex v[6];
    int count = 0;
    v[count++] = (tw_vertex){ 0, low ? left : 0.0, 0 };
    if (low && x > 0.0 && x < l) v[count++] = (tw_vertex){ x, 0, 0 };
    v[count++] = (tw_vertex){ l, low ? right : 0.0, 0 };
    v[count++] = (tw_vertex){ l, high ? wide - right : wide, 0 };
    if (high && x > 0.0 && x < l) v[count++] = (tw_vertex){ x, wide, 0 };
    v[count++] = (tw_vertex){ 0, high ? wide - left : wide, 0 };
    return tw_outline_of_loop(arena, v, count);
}

/* ---- figures ---- */

static double left_mm(const tw_taper *t, double size_mm, bool a, bool b) { return size_mm - (a ? t->by_mm : 0.0) - (b ? t->by_mm
    : 0.0); }

static void note_left(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *t, const char *key, const char *label,
    double size_mm, bool a, bool b)
{
    const char *size = tw_bare_fine(context, size_mm), *by = tw_bare_fine(context, t->by_mm);
    tw_note_length(context, plan, key, label, left_mm(t, size_mm, a, b),
        !a && !b ? "not tapered" : tw_format(context->arena, a && b ? "%s - 2 x %s" : "%s - %s", size, by), a || b
            ? "half to two thirds of the size: common practice" : "");
}

static void add_figures(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *t)
{
    tw_plan_figure(context, plan, (tw_figure){ .key = "length", .label = "length of the taper", .value = t->long_mm,
        .unit = TW_UNIT_MM, .sum = "given in the job",
        .rule = tw_format(context->arena, "from the %s end", ends[t->spec->end.value]) });
    tw_plan_figure(context, plan, (tw_figure){ .key = "by", .label = "taken off at the end", .value = t->by_mm,
        .unit = TW_UNIT_MM, .sum = "given in the job",
        .rule = "each side" });
    tw_plan_figure(context, plan, (tw_figure){ .key = "angle", .label = "angle of the taper", .value = t->angle_rad,
        .unit = TW_UNIT_RAD,
        .sum = tw_format(context->arena, "atan(%s / %s)", tw_bare_fine(context, t->by_mm), tw_bare_fine(context, t->long_mm)) });
    note_left(context, plan, t, "left_width", "width at the thin end", t->size.width_mm, t->shaped[TW_SIDE_FACE_EDGE],
        t->shaped[TW_SIDE_BACK_EDGE]);
    note_left(context, plan, t, "left_thickness", "thickness at the thin end", t->size.thickness_mm, t->shaped[TW_SIDE_FACE],
        t->shaped[TW_SIDE_BACK]);
}

/* ---- checks ---- */

static bool end_is_good(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *t, const char *what, double size_mm,
    bool a, bool b)
{
    tw_arena *arena = context->arena;
    double left = left_mm(t, size_mm, a, b), least = tw_profile_least_mm(context), sides = a && b ? 2.0 : 1.0;
    if (!a && !b) return true;
    if (left < least - 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &t->spec->by, "taper-to-nothing", tw_format(arena,
            "the taper leaves %s of the %s of %s at the thin end", say(context, tw_max(0.0, left)), what, t->piece->name),
            size_mm > least ? tw_format(arena, "%s from each side at most leaves %s", say(context, (size_mm - least) / sides),
                say(context, least)) : "a stouter piece");
        tw_plan_fix(context, plan, &t->spec->by, "Take", (size_mm - least) / sides, "from each side", TW_ROUND_DOWN);
        return false;
    }
    if (left < CARE_SHARE * size_mm - 1e-9) {
        tw_plan_finding(context, plan, TW_CARE, &t->spec->by, "taper-thin", tw_format(arena,
            "the %s of %s is %s at the thin end, less than half of its %s", what, t->piece->name, say(context, left),
            say(context, size_mm)),
            tw_format(arena, "%s from each side at most", say(context, (1.0 - CARE_SHARE) * size_mm / sides)));
        tw_plan_fix(context, plan, &t->spec->by, "Take", (1.0 - CARE_SHARE) * size_mm / sides, "from each side", TW_ROUND_DOWN);
    }
    return true;
}

static bool can_be_made(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *t)
{
    if (t->long_mm > t->size.length_mm + 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &t->spec->length, "taper-past-end", tw_format(context->arena,
            "the taper is %s long, and %s is %s", say(context, t->long_mm), t->piece->name, say(context, t->size.length_mm)),
            tw_format(context->arena, "%s at most", say(context, t->size.length_mm)));
        tw_plan_fix(context, plan, &t->spec->length, "Make it", t->size.length_mm, "long", TW_ROUND_DOWN);
        return false;
    }
    bool wide = end_is_good(context, plan, t, "width", t->size.width_mm, t->shaped[TW_SIDE_FACE_EDGE],
        t->shaped[TW_SIDE_BACK_EDGE]);
    bool thick = end_is_good(context, plan, t, "thickness", t->size.thickness_mm, t->shaped[TW_SIDE_FACE],
        t->shaped[TW_SIDE_BACK]);
    return wide && thick;
}

/* ---- the plan ---- */

static void add_shapes(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *t)
{
    for (tw_face side = TW_SIDE_FACE; side <= TW_SIDE_BACK_EDGE; side++) {
        if (!t->shaped[side]) continue;
        tw_profile_side seen = tw_profile_side_of(t->size, side);
        tw_profile_cut(context, plan, tw_format(context->arena, "taper of the %s", tw_face_words[side]), seen.seen,
            wedge(context->arena, t, &seen));
    }
    bool low = t->shaped[TW_SIDE_FACE_EDGE], high = t->shaped[TW_SIDE_BACK_EDGE], back = t->shaped[TW_SIDE_BACK],
        face = t->shaped[TW_SIDE_FACE];
    if (low || high) plan->shapes[plan->shape_count++] = (tw_profile_shape){ TW_SIDE_FACE, left_of_piece(context->arena, t,
        t->size.width_mm, low, high) };
    if (back || face) plan->shapes[plan->shape_count++] = (tw_profile_shape){ TW_SIDE_FACE_EDGE, left_of_piece(context->arena, t,
        t->size.thickness_mm, back, face) };
}

static void plan_taper(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_taper_spec *spec = plan->joint->spec;
    const tw_piece *piece = &context->job->pieces[spec->piece.index];
    tw_taper *t = TW_NEW(context->arena, tw_taper);
    *t = (tw_taper){ .spec = spec, .piece = piece, .size = tw_piece_size(piece), .long_mm = spec->length.value, .by_mm = spec->by.value,
                     .angle_rad = atan(spec->by.value / spec->length.value), .pieces = tw_profile_pieces(context,
                         spec->piece.index) };
    for (int i = 0; i < 4; i++) {
        t->shaped[i] = side_sets[spec->sides.value][i];
        t->sides += t->shaped[i];
    }
    plan->piece = spec->piece.index;
    plan->count = t->pieces;
    if (!can_be_made(context, plan, t)) return;
    plan->own = t;
    add_figures(context, plan, t);
    add_shapes(context, plan, t);
    tw_taper_work(context, plan, t);
}

const tw_joint_kind tw_taper_profile = {
    .format = { .kind = "taper", .meaning = "Sides that slope towards one end, as a leg grows thinner towards the floor.",
        .keys = keys,
                .key_count = sizeof keys / sizeof keys[0], .spec_size = sizeof(tw_taper_spec), .profile = true },
    .plan = plan_taper,
    .draw = tw_taper_draw,
};
