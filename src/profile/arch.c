// SPDX-License-Identifier: GPL-3.0-or-later
/* Arch: a segment of a circle sawn out of a long side, as under a foot or a rail.
 *
 * chord c, rise h:   r = (c^2/4 + h^2) / (2 h)                                                   (1)
 * half angle         t = 2 atan(2 h / c), the bulge of the outline's arc is tan(t/2) = 2 h / c   (2)
 * area               A = r^2 (t - sin t cos t)                                                    (3)
 * height at x from the middle  y = sqrt(r^2 - x^2) - (r - h)                                      (4)
 *
 * Ways: copied at the machine, where its travel takes the arch; a hand-held router with a bearing along a full-size
 * template, when there are ROUTED_FROM pieces or more (our own rule); else bandsaw and spokeshave to a line. */
#include "profile/profile.h"

#include "joint/fix.h"

#include <math.h>

#include "joint/words.h"

#define ROUTED_FROM 4           // a template is worth its making from so many pieces on: our own rule
#define STATIONS_MOST 12        // from the middle to the end
#define BLADE_RADIUS_MM 16.0    // what a 6 mm (1/4 in) bandsaw blade turns: common practice, 5/8 in
#define CARE_SHARE 0.5          // of the width, that a rise may take without a word: common practice
#define BOARD_WALL_MM 40.0      // of a template's board round its opening, with room for screws: as the template stage has it, and some more

static const char *const edges[] = { "back edge", "face edge", "face", "back", NULL };
static const tw_face edge_faces[] = { TW_SIDE_BACK_EDGE, TW_SIDE_FACE_EDGE, TW_SIDE_FACE, TW_SIDE_BACK };
static const char *const ways[] = { "copied", "routed", "by hand", NULL };

#define AT(field) offsetof(tw_arch_spec, field)
static const tw_key keys[] = {
    { .name = "piece", .kind = TW_KEY_PIECE, .offset = AT(piece), .required = true, .meaning = "The piece that is shaped.",
        .example = "foot" },
    { .name = "edge", .kind = TW_KEY_CHOICE, .offset = AT(edge), .choices = edges,
        .meaning = "The long side that the arch is sawn out of.", .example = "back edge" },
    { .name = "from", .kind = TW_KEY_LENGTH, .offset = AT(from), .required = true, .least = 0.0, .most = TW_LENGTH_MOST_MM,
      .meaning = "Where the arch begins, from the left end.", .example = "90 mm" },
    { .name = "to", .kind = TW_KEY_LENGTH, .offset = AT(to),
        .otherwise = "as far from the right end as it begins from the left end",
      .meaning = "Where the arch ends, from the left end.", .example = "390 mm" },
    { .name = "rise", .kind = TW_KEY_LENGTH, .offset = AT(rise), .required = true,
        .meaning = "How high the arch is in its middle.", .example = "22 mm" },
    { .name = "made", .kind = TW_KEY_CHOICE, .offset = AT(made), .choices = ways,
        .otherwise = "from 4 alike pieces on copied, or routed where the machine does not take it; else by hand",
      .meaning = "How it is made: copied at the machine, by a hand-held router with a bearing along a full-size template, or with bandsaw and spokeshave.",
          .example = "by hand" },
    { .name = "cutter", .kind = TW_KEY_CUTTER, .offset = AT(cutter),
        .otherwise = "the largest that follows the arch and reaches through",
      .meaning = "The cutter for a copied arch.", .example = "spiral 12.7" },
    { .name = "follower", .kind = TW_KEY_FOLLOWER, .offset = AT(follower), .otherwise = "by the rules for templates",
      .meaning = "The follower for a copied arch.", .example = "bush 25.4" },
};
#undef AT

static const char *say(const tw_joint_context *context, double mm) { return tw_say(context, mm); }

/* ---- shape ---- */

/* The piece less the arch, counter-clockwise. */
static tw_outline left_of_piece(tw_arena *arena, const tw_arch *a)
{
    double bulge = tan(a->segment.half_rad / 2.0), l = a->side.long_mm, w = a->side.wide_mm;
    if (a->side.high) {
        const tw_vertex v[] = { { 0, 0, 0 }, { l, 0, 0 }, { l, w, 0 }, { a->to_mm, w, -bulge }, { a->from_mm, w, 0 }, { 0, w,
            0 } };
        return tw_outline_of_loop(arena, v, 6);
    }
    const tw_vertex v[] = { { 0, 0, 0 }, { a->from_mm, 0, -bulge }, { a->to_mm, 0, 0 }, { l, 0, 0 }, { l, w, 0 }, { 0, w, 0 } };
    return tw_outline_of_loop(arena, v, 6);
}

static tw_outline sawn_out(tw_arena *arena, const tw_arch *a)
{
    double bulge = tan(a->segment.half_rad / 2.0);  // (2)
    double first = a->side.high ? a->to_mm : a->from_mm, second = a->side.high ? a->from_mm : a->to_mm;
    tw_point start = tw_profile_point(&a->side, first, 0.0), end = tw_profile_point(&a->side, second, 0.0);
    return tw_outline_of_loop(arena, (tw_vertex[]){ { start.x, start.y, 0.0 }, { end.x, end.y, bulge } }, 2);
}

tw_outline tw_arch_pocket(tw_arena *arena, tw_segment s, double over_mm)
{
    double half = s.chord_mm / 2.0, out = over_mm / tan(s.half_rad);
    const tw_vertex v[] = { { -half - out, over_mm, 0.0 }, { -half, 0.0, tan(s.half_rad / 2.0) }, { half, 0.0, 0.0 },
        { half + out, over_mm, 0.0 } };
    return tw_outline_of_loop(arena, v, 4);
}

/* ---- stations ---- */

static void add_stations(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *a)
{
    static const double mm_steps[] = { 5, 10, 20, 25, 50, 100, 200, 500, 1000 };
    static const double inch_steps[] = { 0.25, 0.5, 1, 2, 4, 8, 16, 32, 48 };
    double half = a->segment.chord_mm / 2.0, step = 0.0;
    for (size_t i = 0; i < sizeof mm_steps / sizeof *mm_steps; i++) {
        step = tw_customary(context, mm_steps[i], inch_steps[i]);
        if (half / step <= STATIONS_MOST) break;
    }
    for (double x = 0.0; x < half - 1e-6; x += step)
        tw_plan_station(context, plan, (tw_station){ x, tw_segment_height_mm(a->segment, x) });
    tw_plan_station(context, plan, (tw_station){ half, 0.0 });
    plan->stations_from = tw_format(context->arena,
        "Along: to both sides of the middle of the arch, which lies %s from the left end. High: from the %s into the wood.",
        say(context, (a->from_mm + a->to_mm) / 2.0), tw_face_words[a->side.side]);
}

/* ---- figures ---- */

static void add_figures(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *a)
{
    tw_arena *arena = context->arena;
    tw_segment s = a->segment;
    const char *c = tw_bare_fine(context, s.chord_mm), *h = tw_bare_fine(context, s.rise_mm);
    tw_plan_figure(context, plan, (tw_figure){ .key = "from", .label = "begins", .value = a->from_mm, .unit = TW_UNIT_MM,
        .sum = "given in the job",
        .rule = "from the left end" });
    tw_plan_figure(context, plan, (tw_figure){ .key = "to", .label = "ends", .value = a->to_mm, .unit = TW_UNIT_MM,
        .sum = a->spec->to.given ? "given in the job"
        : tw_format(arena, "length - where it begins = %s - %s", tw_bare_fine(context, a->to_mm + a->from_mm), tw_bare_fine(context, a->from_mm)), .rule = a->spec->to.given ? "from the left end" : "alike at both ends" });
    tw_plan_figure(context, plan, (tw_figure){ .key = "chord", .label = "chord", .symbol = "c", .value = s.chord_mm,
        .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "%s - %s", tw_bare_fine(context, a->to_mm), tw_bare_fine(context, a->from_mm)) });
    tw_plan_figure(context, plan, (tw_figure){ .key = "rise", .label = "rise", .symbol = "h", .value = s.rise_mm,
        .unit = TW_UNIT_MM, .sum = "given in the job" });
    tw_plan_figure(context, plan, (tw_figure){ .key = "radius", .label = "radius", .symbol = "r", .value = s.radius_mm,
        .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "(c x c/4 + h x h)/(2 x h) = (%s x %s/4 + %s x %s)/(2 x %s)", c, c, h, h, h),
            .rule = "chords that cross: half the chord squared = rise x (2 x radius - rise)" });
    tw_plan_figure(context, plan, (tw_figure){ .key = "half_angle", .label = "half of the arc's angle", .value = s.half_rad,
        .unit = TW_UNIT_RAD,
        .sum = tw_format(arena, "2 atan(2 h / c) = 2 atan(2 x %s / %s)", h, c), .rule = "so steeply it leaves the edge" });
    tw_plan_figure(context, plan, (tw_figure){ .key = "left", .label = "wood over the middle", .value = a->left_mm,
        .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "%s - %s", tw_bare_fine(context, a->side.wide_mm), h) });
}

/* ---- checks ---- */

static bool refuse(tw_joint_context *context, tw_joint_plan *plan, const tw_amount *at, const char *code, const char *what,
    const char *remedy)
{
    tw_plan_finding(context, plan, TW_HALT, at, code, what, remedy);
    return false;
}

static bool lies_on_piece(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *a)
{
    tw_arena *arena = context->arena;
    if (a->to_mm > a->side.long_mm + 1e-9) {
        refuse(context, plan, &a->spec->to, "arch-past-end", tw_format(arena,
            "the arch ends %s from the left end, and %s is %s long", say(context, a->to_mm), a->piece->name, say(context,
            a->side.long_mm)),
                      tw_format(arena, "let it end %s from the left end at most", say(context, a->side.long_mm)));
        tw_plan_fix(context, plan, &a->spec->to, "Let it end", a->side.long_mm, "from the left end", TW_ROUND_DOWN);
        return false;
    }
    if (a->to_mm - a->from_mm < TW_LENGTH_LEAST_MM) {
        refuse(context, plan, &a->spec->from, "arch-without-length", tw_format(arena,
            "the arch begins %s and ends %s from the left end", say(context, a->from_mm), say(context, a->to_mm)),
                      tw_format(arena, "let it begin before %s", say(context, a->spec->to.given ? a->to_mm
                          : a->side.long_mm / 2.0)));
        tw_plan_fix(context, plan, &a->spec->from, "Let it begin", a->to_mm / 2.0, "from the left end", TW_ROUND_DOWN);
        return false;
    }
    return true;
}

static bool rise_is_good(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *a)
{
    tw_arena *arena = context->arena;
    double h = a->spec->rise.value, half = (a->to_mm - a->from_mm) / 2.0, least = tw_profile_least_mm(context),
        left = a->side.wide_mm - h;
    if (left < least - 1e-9) {
        refuse(context, plan, &a->spec->rise, "arch-too-high",
            tw_format(arena, "a rise of %s leaves %s of the %s of %s over the middle of the arch", say(context, h), say(context,
                tw_max(0.0, left)), say(context, a->side.wide_mm), a->piece->name),
            a->side.wide_mm > least ? tw_format(arena, "a rise of %s at most leaves %s", say(context, a->side.wide_mm - least),
                say(context, least)) : "a wider piece");
        tw_plan_fix(context, plan, &a->spec->rise, "Let it rise", a->side.wide_mm - least, "", TW_ROUND_DOWN);
        return false;
    }
    if (h > half + 1e-9) {
        refuse(context, plan, &a->spec->rise, "arch-over-half-circle", tw_format(arena,
            "a rise of %s is more than half of the chord of %s: no arc of at most half a circle has it", say(context, h),
            say(context, 2.0 * half)),
            tw_format(arena, "a rise of %s, which is a half circle, or a longer arch", say(context, half)));
        tw_plan_fix(context, plan, &a->spec->rise, "Let it rise", half, "", TW_ROUND_DOWN);
        return false;
    }
    if (h > CARE_SHARE * a->side.wide_mm + 1e-9) {
        tw_plan_finding(context, plan, TW_CARE, &a->spec->rise, "arch-high", tw_format(arena,
            "the arch takes more than half of the %s of %s: %s stay over its middle", say(context, a->side.wide_mm),
            a->piece->name, say(context, left)),
            tw_format(arena, "a rise of %s at most, or a wider piece", say(context, CARE_SHARE * a->side.wide_mm)));
        tw_plan_fix(context, plan, &a->spec->rise, "Let it rise", CARE_SHARE * a->side.wide_mm, "", TW_ROUND_DOWN);
    }
    return true;
}

static void check_blade(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *a)
{
    if (a->made == TW_MADE_COPIED || a->segment.radius_mm >= BLADE_RADIUS_MM) return;
    tw_plan_finding(context, plan, TW_CARE, &a->spec->rise, "arch-tight", tw_format(context->arena,
        "a radius of %s is tighter than a narrow bandsaw blade turns (%s)", say(context, a->segment.radius_mm), say(context,
        BLADE_RADIUS_MM)),
        "bore it out, or nibble the waste away with relief cuts; a drum or a round file fairs it");
}

/* ---- the way ---- */

int tw_arch_cutter(const tw_joint_context *context, const tw_arch *a)
{
    int best = -1;
    bool best_reaches = false;
    for (int i = 0; i < context->shop->cutter_count; i++) {
        const tw_cutter *c = &context->shop->cutters[i];
        bool reaches = c->cutting_length.value >= a->side.deep_mm + TW_PROFILE_BREAK_MM;  // through from one face
        if (!tw_cutter_is_straight(c) || !c->plunges.value || c->d_mm > 2.0 * a->segment.radius_mm
            || c->cutting_length.value < a->side.deep_mm / 2.0 + TW_PROFILE_BREAK_MM) continue;
        if (best < 0 || (reaches && !best_reaches) || (reaches == best_reaches
            && c->d_mm > context->shop->cutters[best].d_mm)) best = i, best_reaches = reaches;
    }
    return best;
}

bool tw_arch_machine_takes(const tw_joint_context *context, const tw_arch *a, int cutter)
{
    const tw_machine *m = &context->shop->machine;
    double d = context->shop->cutters[cutter].d_mm, r = m->ratio.value;
    double over = d + TW_PROFILE_OVER_MM;
    tw_outline path = tw_outline_offset(context->arena, tw_arch_pocket(context->arena, a->segment, over), -d / 2.0);
    if (path.count != 1) return false;
    tw_box box = tw_outline_bounds(path);
    double across = box.x1 - box.x0, up = box.y1 - box.y0, out = over / tan(a->segment.half_rad);
    double beside = tw_max(a->from_mm, a->side.long_mm - a->to_mm) - out;
    double down = a->side.wide_mm + (over - a->segment.rise_mm) / 2.0, plunge = tw_min(a->side.deep_mm + TW_PROFILE_BREAK_MM,
        context->shop->cutters[cutter].cutting_length.value);
    bool travels = (!m->travel_across.given || across <= m->travel_across.value) && (!m->travel_up.given
        || up <= m->travel_up.value) && (!m->travel_in.given || plunge + 5.0 <= m->travel_in.value);
    bool holds = (!m->holder_across.given || r * (across + d) + 2.0 * BOARD_WALL_MM <= m->holder_across.value) &&
                 (!m->holder_up.given || r * (up + d) + 2.0 * BOARD_WALL_MM <= m->holder_up.value);
    return travels && holds && (!m->table_lowest.given || down <= m->table_lowest.value) && (!m->clamp_zone.given
        || beside >= m->clamp_zone.value);
}

static bool choose_way(tw_joint_context *context, tw_joint_plan *plan, tw_arch *a)
{
    const tw_arch_spec *spec = a->spec;
    tw_arena *arena = context->arena;
    a->cutter = spec->cutter.given ? tw_cutter_named(context->shop, spec->cutter.text) : tw_arch_cutter(context, a);
    bool copying = spec->made.given && spec->made.value == TW_MADE_COPIED;
    if (!spec->made.given) {
        bool takes = a->cutter >= 0 && context->shop->follower_count > 0 && tw_arch_machine_takes(context, a, a->cutter);
        a->made = a->pieces < ROUTED_FROM ? TW_MADE_BY_HAND : takes ? TW_MADE_COPIED : TW_MADE_ROUTED;
    } else a->made = (tw_made)spec->made.value;
    if (!copying) return true;
    if (a->cutter >= 0 && context->shop->cutters[a->cutter].d_mm > 2.0 * a->segment.radius_mm + 1e-9) {
        refuse(context, plan, &spec->rise, "arch-under-cutter",
            tw_format(arena, "the radius of the arch is %s, and cutter \"%s\" cannot go round less than %s", say(context,
                a->segment.radius_mm), spec->cutter.text, say(context, context->shop->cutters[a->cutter].d_mm / 2.0)),
            tw_format(arena, "a cutter of at most %s, or an arch that is longer or less high", say(context,
                2.0 * a->segment.radius_mm)));
        tw_plan_fix_leave(context, plan, "cutter");
        tw_plan_fix_word(context, plan, "made", "by hand", "Make it by hand");
        return false;
    }
    if (a->cutter < 0 && !spec->cutter.given) {
        refuse(context, plan, &spec->rise, "arch-without-cutter", tw_format(arena,
            "no cutter of the shop follows a radius of %s and reaches through %s, even from both faces", say(context,
            a->segment.radius_mm), say(context, a->side.deep_mm)),
            "`made: by hand`, or a cutter that is longer or smaller");
        tw_plan_fix_word(context, plan, "made", "by hand", "Make it by hand");
        return false;
    }
    return true;
}

/* ---- the plan ---- */

static void plan_arch(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_arch_spec *spec = plan->joint->spec;
    tw_arch *a = TW_NEW(context->arena, tw_arch);
    const tw_piece *piece = &context->job->pieces[spec->piece.index];
    *a = (tw_arch){ .spec = spec, .piece = piece, .side = tw_profile_side_of(tw_piece_size(piece), edge_faces[spec->edge.value]), .cutter = -1,
                    .pieces = tw_profile_pieces(context, spec->piece.index) };
    plan->piece = spec->piece.index;
    plan->count = a->pieces;
    a->from_mm = spec->from.value;
    a->to_mm = spec->to.given ? spec->to.value : a->side.long_mm - a->from_mm;
    a->left_mm = a->side.wide_mm - spec->rise.value;
    if (!lies_on_piece(context, plan, a) || !rise_is_good(context, plan, a)) return;
    a->segment = tw_segment_of(a->to_mm - a->from_mm, spec->rise.value);
    add_figures(context, plan, a);
    add_stations(context, plan, a);
    tw_profile_cut(context, plan, "arch", a->side.seen, sawn_out(context->arena, a));
    plan->shapes[plan->shape_count++] = (tw_profile_shape){ a->side.seen, left_of_piece(context->arena, a) };
    plan->own = a;
    if (!choose_way(context, plan, a)) return;
    check_blade(context, plan, a);
    tw_arch_work(context, plan, a);
}

const tw_joint_kind tw_arch_profile = {
    .format = { .kind = "arch",
        .meaning = "A segment of a circle sawn out of a long side, as under a foot, so that it stands on its two ends.",
        .keys = keys,
                .key_count = sizeof keys / sizeof keys[0], .spec_size = sizeof(tw_arch_spec), .profile = true },
    .plan = plan_arch,
    .draw = tw_arch_draw,
};
