// SPDX-License-Identifier: GPL-3.0-or-later
/* Chamfer and round-over: arrises taken off, at 45 degrees or as a quarter circle.
 *
 * Along an arris of length l a chamfer of width s takes s^2/2 l, a round-over of radius s takes (1 - pi/4) s^2 l. Where two
 * arrises meet at a corner both take the wood there, so that chamfers meet in a mitre.
 *
 * Arrises along the grain may be stopped; those round the ends run through. */
#include "profile/profile.h"

#include "joint/fix.h"

#include <math.h>

#include "joint/words.h"

const tw_arris_at tw_arrises[TW_ARRIS_COUNT] = {  // the left end is seen with y to the left: its lower right corner is back and face edge
    { TW_SIDE_FACE, TW_SIDE_FACE_EDGE, TW_SIDE_LEFT_END, TW_CORNER_HIGH_RIGHT },
    { TW_SIDE_FACE, TW_SIDE_BACK_EDGE, TW_SIDE_LEFT_END, TW_CORNER_HIGH_LEFT },
    { TW_SIDE_BACK, TW_SIDE_FACE_EDGE, TW_SIDE_LEFT_END, TW_CORNER_LOW_RIGHT },
    { TW_SIDE_BACK, TW_SIDE_BACK_EDGE, TW_SIDE_LEFT_END, TW_CORNER_LOW_LEFT },
    { TW_SIDE_LEFT_END, TW_SIDE_FACE_EDGE, TW_SIDE_FACE, TW_CORNER_LOW_LEFT },
    { TW_SIDE_LEFT_END, TW_SIDE_BACK_EDGE, TW_SIDE_FACE, TW_CORNER_HIGH_LEFT },
    { TW_SIDE_RIGHT_END, TW_SIDE_FACE_EDGE, TW_SIDE_FACE, TW_CORNER_LOW_RIGHT },
    { TW_SIDE_RIGHT_END, TW_SIDE_BACK_EDGE, TW_SIDE_FACE, TW_CORNER_HIGH_RIGHT },
    { TW_SIDE_LEFT_END, TW_SIDE_FACE, TW_SIDE_FACE_EDGE, TW_CORNER_HIGH_LEFT },
    { TW_SIDE_LEFT_END, TW_SIDE_BACK, TW_SIDE_FACE_EDGE, TW_CORNER_LOW_LEFT },
    { TW_SIDE_RIGHT_END, TW_SIDE_FACE, TW_SIDE_FACE_EDGE, TW_CORNER_HIGH_RIGHT },
    { TW_SIDE_RIGHT_END, TW_SIDE_BACK, TW_SIDE_FACE_EDGE, TW_CORNER_LOW_RIGHT },
};

static const char *const sets[] = { "long", "all", "ends", "face", "back", "face edge", "back edge", "left end", "right end",
    "face and face edge", "face and back edge",
    "back and face edge", "back and back edge", NULL };
enum { SET_LONG, SET_ALL, SET_ENDS, SET_SIDES, SET_SINGLE = 9 };  // from SET_SIDES on: round one side, as tw_face counts; from SET_SINGLE on: one arris

static const char *const ways[] = { "routed", "by hand", NULL };

static bool belongs(int set, int arris)
{
    if (set == SET_ALL) return true;
    if (set == SET_LONG) return arris < 4;
    if (set == SET_ENDS) return arris >= 4;
    if (set >= SET_SINGLE) return arris == set - SET_SINGLE;
    tw_face side = (tw_face)(set - SET_SIDES);
    return tw_arrises[arris].a == side || tw_arrises[arris].b == side;
}

#define AT(field) offsetof(tw_arris_spec, field)
#define ARRIS_KEYS(size_name, size_meaning, size_example) \
    { .name = "piece", .kind = TW_KEY_PIECE, .offset = AT(piece), .required = true, .meaning = "The piece that is shaped.", .example = "post" }, \
    { .name = "arrises", .kind = TW_KEY_CHOICE, .offset = AT(arrises), .choices = sets, \
      .meaning = "Which arrises: `long` the four along the grain, `ends` the eight round the ends, those round one side, or the one between two sides.", .example = "long" }, \
    { .name = size_name, .kind = TW_KEY_LENGTH, .offset = AT(size), .required = true, .meaning = size_meaning, .example = size_example }, \
    { .name = "from", .kind = TW_KEY_LENGTH, .offset = AT(from), .least = 0.0, .most = TW_LENGTH_MOST_MM, .otherwise = "it runs out at the left end", \
      .meaning = "Where it begins, from the left end: of arrises along the grain.", .example = "60 mm" }, \
    { .name = "to", .kind = TW_KEY_LENGTH, .offset = AT(to), .otherwise = "it runs out at the right end", \
      .meaning = "Where it ends, from the left end: of arrises along the grain.", .example = "580 mm" }, \
    { .name = "made", .kind = TW_KEY_CHOICE, .offset = AT(made), .choices = ways, .fallback = 0, \
      .meaning = "By a hand-held router with a bearing on its cutter, or with planes.", .example = "by hand" }
static const tw_key chamfer_keys[] = { ARRIS_KEYS("width", "How much it takes of each of the two sides; it lies at 45 degrees.",
    "4 mm") };
static const tw_key round_keys[] = { ARRIS_KEYS("radius", "The radius of the rounded arris.", "6 mm") };
#undef AT

static const char *say(const tw_joint_context *context, double mm) { return tw_say_fine(context, mm); }

/* ---- shape ---- */

static void add_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_arris *r, int i)
{
    const tw_arris_at *at = &tw_arrises[i];
    tw_size seen = tw_face_extent(r->size, at->seen);
    tw_cut cut = { .piece = plan->piece, .face = at->seen, .depth_mm = seen.thickness_mm, .through = true,
        .name = tw_format(context->arena, "%s of %s and %s", r->round ? "round-over" : "chamfer", tw_face_words[at->a],
            tw_face_words[at->b]),
        .outline = tw_profile_corner(context->arena, seen.length_mm, seen.width_mm, at->corner, r->size_mm, r->round) };
    if (r->stopped && i < 4) {
        cut.start_mm = r->from_mm;
        cut.depth_mm = r->to_mm;
        cut.through = r->to_mm >= r->size.length_mm;
    }
    tw_plan_cut(context, plan, cut);
}

static void add_shapes(tw_joint_context *context, tw_joint_plan *plan, const tw_arris *r)
{
    static const tw_face seen[] = { TW_SIDE_LEFT_END, TW_SIDE_FACE, TW_SIDE_FACE_EDGE };
    for (int f = 0; f < 3; f++) {
        bool off[4] = { false }, any = false;
        for (int i = 0; i < TW_ARRIS_COUNT; i++)
            if (r->which[i] && tw_arrises[i].seen == seen[f]) off[tw_arrises[i].corner] = any = true;
        tw_size extent = tw_face_extent(r->size, seen[f]);
        if (any) plan->shapes[plan->shape_count++] = (tw_profile_shape){ seen[f], tw_profile_corners_off(context->arena,
            extent.length_mm, extent.width_mm, off, r->size_mm, r->round) };
    }
}

/* ---- checks ---- */

static bool halt(tw_joint_context *context, tw_joint_plan *plan, const tw_amount *at, const char *code, const char *what,
    const char *remedy)
{
    tw_plan_finding(context, plan, TW_HALT, at, code, what, remedy);
    return false;
}

/* The most that goes into the sides: half of a side where both of its arrises are taken. */
static double most_mm(const tw_arris *r)
{
    double most = INFINITY;
    for (int f = 0; f < 3; f++) {
        static const tw_face seen[] = { TW_SIDE_LEFT_END, TW_SIDE_FACE, TW_SIDE_FACE_EDGE };
        bool off[4] = { false };
        for (int i = 0; i < TW_ARRIS_COUNT; i++)
            if (r->which[i] && tw_arrises[i].seen == seen[f]) off[tw_arrises[i].corner] = true;
        tw_size e = tw_face_extent(r->size, seen[f]);
        bool any = off[0] || off[1] || off[2] || off[3];
        bool level = (off[0] && off[1]) || (off[2] && off[3]), upright = (off[1] && off[2]) || (off[3] && off[0]);
        if (any) most = tw_min(most, tw_min(level ? e.length_mm / 2.0 : e.length_mm, upright ? e.width_mm / 2.0 : e.width_mm));
    }
    return most;
}

static bool can_be_made(tw_joint_context *context, tw_joint_plan *plan, const tw_arris *r)
{
    tw_arena *arena = context->arena;
    const char *word = r->round ? "round-over" : "chamfer";
    double most = most_mm(r);
    if (r->round ? r->size_mm > most + 1e-9 : r->size_mm > most - 1e-9) {
        halt(context, plan, &r->spec->size, "arris-too-large", tw_format(arena,
            "a %s of %s does not go into the sides of %s", word, say(context, r->size_mm), r->piece->name),
                    tw_format(arena, "%s %s%s", r->round ? "at most" : "less than", say(context, most), r->round
                        ? ", which makes a half round side" : ""));
        tw_plan_fix(context, plan, &r->spec->size, "Make it", r->round ? most : 0.9 * most, "", TW_ROUND_DOWN);
        return false;
    }
    if (r->stopped && r->to_mm - r->from_mm < r->size_mm) {
        halt(context, plan, &r->spec->to, "arris-stopped-short", tw_format(arena,
            "the %s begins %s and ends %s from the left end: shorter than it is wide", word, say(context, r->from_mm),
            say(context, r->to_mm)),
                    tw_format(arena, "let it end %s from the left end or later", say(context, r->from_mm + r->size_mm)));
        tw_plan_fix(context, plan, &r->spec->to, "Let it end", r->from_mm + r->size_mm, "from the left end", TW_ROUND_UP);
        return false;
    }
    if (r->to_mm > r->size.length_mm + 1e-9)
        return halt(context, plan, &r->spec->to, "arris-past-end", tw_format(arena,
            "the %s ends %s from the left end, and %s is %s long", word, say(context, r->to_mm), r->piece->name, say(context,
            r->size.length_mm)),
                    "leave `to` out, and it runs out at the right end");
    if ((r->spec->from.given || r->spec->to.given) && r->end_count > 0) {
        tw_plan_finding(context, plan, TW_CARE, r->spec->from.given ? &r->spec->from : &r->spec->to, "arris-stop-at-end",
            tw_format(arena,
            "the %s is stopped, and runs round an end too: the stops hold for the arrises along the grain alone", word),
            "`arrises: long`, and a second profile for the end");
        tw_plan_fix_word(context, plan, "arrises", "long", "Take the long arrises alone");
    }
    return true;
}

/* ---- figures ---- */

static void add_figures(tw_joint_context *context, tw_joint_plan *plan, const tw_arris *r)
{
    tw_arena *arena = context->arena;
    const char *s = tw_bare_fine(context, r->size_mm);
    tw_plan_figure(context, plan, (tw_figure){ .key = r->round ? "radius" : "width",
        .label = r->round ? "radius" : "width on each side",
        .symbol = r->round ? "r" : "s", .value = r->size_mm, .unit = TW_UNIT_MM, .sum = "given in the job" });
    if (!r->round) tw_note_length(context, plan, "slope_width", "width over the slope", r->size_mm * sqrt(2.0), tw_format(arena,
        "%s x 1.414", s), "45 degrees");
    tw_plan_figure(context, plan, (tw_figure){ .key = "arrises", .label = "arrises of one piece",
        .value = r->long_count + r->end_count, .unit = TW_UNIT_COUNT,
        .sum = tw_format(arena, "%d along the grain, %d round the ends", r->long_count, r->end_count) });
    if (r->stopped) {
        tw_note_length(context, plan, "from", "begins", r->from_mm, r->spec->from.given ? "given in the job" : "runs out",
            "from the left end");
        tw_note_length(context, plan, "to", "ends", r->to_mm, r->spec->to.given ? "given in the job" : "runs out",
            "from the left end");
    }
}

/* ---- the plan ---- */

static void plan_arrises(tw_joint_context *context, tw_joint_plan *plan, bool round)
{
    const tw_arris_spec *spec = plan->joint->spec;
    const tw_piece *piece = &context->job->pieces[spec->piece.index];
    tw_arris *r = TW_NEW(context->arena, tw_arris);
    bool *which = TW_NEW_ARRAY(context->arena, bool, TW_ARRIS_COUNT);
    *r = (tw_arris){ .spec = spec, .piece = piece, .size = tw_piece_size(piece), .round = round, .which = which, .size_mm = spec->size.value, .made = spec->made.value == 0 ? TW_MADE_ROUTED : TW_MADE_BY_HAND,
                     .pieces = tw_profile_pieces(context, spec->piece.index) };
    for (int i = 0; i < TW_ARRIS_COUNT; i++) {
        which[i] = belongs(spec->arrises.value, i);
        *(i < 4 ? &r->long_count : &r->end_count) += which[i];
    }
    r->from_mm = spec->from.given ? spec->from.value : 0.0;
    r->to_mm = spec->to.given ? spec->to.value : r->size.length_mm;
    r->stopped = r->long_count > 0 && (r->from_mm > 0.0 || r->to_mm < r->size.length_mm);
    plan->piece = spec->piece.index;
    plan->count = r->pieces;
    if (!can_be_made(context, plan, r)) return;
    plan->own = r;
    add_figures(context, plan, r);
    for (int i = 0; i < TW_ARRIS_COUNT; i++)
        if (which[i]) add_cut(context, plan, r, i);
    add_shapes(context, plan, r);
    tw_arris_work(context, plan, r);
}

static void plan_chamfer(tw_joint_context *context, tw_joint_plan *plan) { plan_arrises(context, plan, false); }
static void plan_round_over(tw_joint_context *context, tw_joint_plan *plan) { plan_arrises(context, plan, true); }

const tw_joint_kind tw_chamfer_profile = {
    .format = { .kind = "chamfer", .meaning = "Arrises taken off at 45 degrees, right along or stopped.", .keys = chamfer_keys,
        .key_count = sizeof chamfer_keys / sizeof chamfer_keys[0],
                .spec_size = sizeof(tw_arris_spec), .profile = true },
    .plan = plan_chamfer,
    .draw = tw_arris_draw,
};

const tw_joint_kind tw_round_over_profile = {
    .format = { .kind = "round-over", .meaning = "Arrises rounded to a quarter circle, right along or stopped.",
        .keys = round_keys, .key_count = sizeof round_keys / sizeof round_keys[0],
                .spec_size = sizeof(tw_arris_spec), .profile = true },
    .plan = plan_round_over,
    .draw = tw_arris_draw,
};
