// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: the work at the housing, in the order that makers keep: a straight cutter clears the waste, the dovetail
 * cutter follows along the same path at its full depth; then the tongue, trial by trial, to the housing that is there.
 *
 *   copied    the piece stands on the stopped side, so that the cutter goes in and out at the open edge above. With both
 *             walls slanting one template serves both cutters: their paths are one. With one slanting wall there are two
 *             templates, of the narrow part (straight cutter) and of the wide part at the bottom (dovetail cutter).
 *   guides    by hand between two straight guides, the same bush for both cutters.
 *   depth     an error e in depth makes the housing n e tan(angle) narrower at its side, for the tip runs deeper.   (1)
 *
 * The tongue's work is in sliding_tongue.c. */
#include "joint/sliding_work.h"

#include <assert.h>
#include <math.h>

#define SAME_MM 1e-6
#define LIMIT_SHARE 0.5         // of the clearance: the fit keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.03
#define LEFT_FOR_DOVETAIL_MM 0.3 // of depth, that the straight cutter leaves to the dovetail cutter: common practice

const char *tw_sliding_say(const tw_sliding_builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
void tw_sliding_add(tw_sliding_builder *b, tw_work work) { tw_layers_add(&b->layers, work); }

double tw_sliding_limit_mm(const tw_sliding *s) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * s->c); }
bool tw_sliding_stopped(const tw_sliding *s) { return s->low_stopped || s->high_stopped; }
double tw_sliding_stop_short_mm(const tw_sliding *s) { return s->low_stopped ? s->v0 : s->e - s->v1; }
tw_face tw_sliding_stop_side(const tw_sliding *s) { return s->low_stopped ? s->low : s->high; }
static int housings(const tw_sliding *s) { return s->into_pieces * s->spec->at.count; }
static const tw_cutter *dovetail(const tw_sliding_builder *b) { return &b->context->shop->cutters[b->s->cutter]; }
static const tw_cutter *straight(const tw_sliding_builder *b) { return &b->context->shop->cutters[b->s->clear]; }

/* ---- marks ---- */

static void mark(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_sliding_add(b, (tw_work){ .name = "thickness of the tongued pieces", .what = "Measure each end that is to carry a tongue with a caliper, at both edges; plane them alike before any tongue is cut.",
        .way = TW_WAY_MEASURE, .piece = s->spec->housed.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = s->joints, .pieces = s->housed_pieces, .places = tw_sliding_ends_text(b),
        .measure = "thickness at the ends", .measure_mm = s->t, .measure_under_mm = -0.1, .measure_over_mm = 0.1,
        .if_off = "plane them alike: where a piece is thicker, its tongue comes out thicker by as much", .state = "planed and sanded, to length", .marks = "face, face edge, both ends", .stage = 19 });
    tw_sliding_add(b, (tw_work){ .name = "places of the housings",
        .what = tw_format(arena, "%s the middle of each housing across the %s, and with a knife its two walls, %s apart%s.", s->into_pieces == 1 ? "Square" : "Lay all pieces side by side, left ends level, and square",
            tw_face_words[s->from], tw_sliding_say(b, s->g), tw_sliding_stopped(s) ? tw_format(arena, "; gauge its stop %s from the %s", tw_sliding_say(b, tw_sliding_stop_short_mm(s)), tw_face_words[tw_sliding_stop_side(s)]) : ""),
        .way = TW_WAY_MARK, .piece = s->spec->into.index, .face = s->from, .down = tw_face_opposite(s->from), .count = housings(s), .pieces = s->into_pieces, .places = tw_format(arena, "%s, every place", tw_face_words[s->from]),
        .measure = "from the left end to the middle of the first place", .measure_mm = s->spec->at.items[0].value, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = "mark the whole batch again from one piece", .state = "planed to its finished faces, to length", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
    tw_layers_close(&b->layers);
}

/* ---- copied ---- */

static tw_face down_side(const tw_sliding *s) { return s->high_stopped ? s->high : s->low; }

/* Span of the housing across, z below the side, from its place, as it is seen with down_side() on the table. */
static void span_at(const tw_sliding *s, double z, double *x0, double *x1)
{
    double a = s->q0 - s->c / 2.0 - s->lean0 * z, b = s->q1 + s->c / 2.0 + s->lean1 * z;
    bool same = (tw_sliding_face_way(s, false) > 0) == tw_left_end_is_left(s->from, down_side(s));
    *x0 = same ? a : -b;
    *x1 = same ? b : -a;
}

/* One pass. Its path ends where the dovetail cutter's does, half of that one's tip before the stop, whatever cutter runs. */
static tw_copy_want want_of(const tw_sliding_builder *b, const tw_stop_group *group, double x0, double x1, double cutter_d, double depth)
{
    const tw_sliding *s = b->s;
    bool high_down = down_side(s) == s->high;
    bool stop_low = high_down ? s->high_stopped : s->low_stopped;  // as it stands on the table; a stop is always below
    double shy = (s->cutter_d - cutter_d) / 2.0, from = stop_low ? tw_sliding_stop_short_mm(s) + shy : shy - s->over, to = s->e + s->over - shy, half = (to - from) / 2.0;
    bool chopped = tw_sliding_stopped(s) && s->radius <= 0.0;
    double radius = chopped ? 0.0 : cutter_d / 2.0;  // right through, the round ends lie outside of the wood
    return (tw_copy_want){ .cut = tw_outline_rounded(b->context->arena, x0, -half, x1, half, radius), .inside = true, .depth_mm = depth,
        .follower = s->follower >= 0 ? b->context->shop->followers[s->follower].name : NULL, .cutter_most_mm = x1 - x0, .corner_most_mm = radius, .locate = TW_LOCATE_CENTRED,
        .stop_end = group->end, .stop_to_origin_mm = group->to_end_mm, .stop_word = tw_face_words[group->end], .down_to_origin_mm = (from + to) / 2.0, .overhang_low_mm = stop_low ? -from : s->over, .wall_word = "",
        .corner_word = !chopped ? NULL : "they are chopped square afterwards, on a card of their own" };
}

static tw_copy_want clearing_want(const tw_sliding_builder *b, const tw_stop_group *group)
{
    const tw_sliding *s = b->s;
    double x0, x1, ds = straight(b)->d_mm, depth = s->depth > 1.0 ? s->depth - LEFT_FOR_DOVETAIL_MM : s->depth;
    if (s->cheeks == 2) {
        span_at(s, s->depth, &x0, &x1);
        x0 += (s->cutter_d - ds) / 2.0;  // the same path
        x1 -= (s->cutter_d - ds) / 2.0;
    } else span_at(s, 0.0, &x0, &x1);
    tw_copy_want want = want_of(b, group, x0, x1, ds, depth);
    want.cutter = straight(b)->name;
    want.path_shared = s->cheeks == 2;
    return want;
}

static tw_copy_want dovetail_want(const tw_sliding_builder *b, const tw_stop_group *group)
{
    const tw_sliding *s = b->s;
    double x0, x1;
    span_at(s, s->depth, &x0, &x1);
    tw_copy_want want = want_of(b, group, x0, x1, s->cutter_d, s->depth);
    want.cutter = dovetail(b)->name;
    want.dovetail_rad = s->angle;
    want.path_shared = s->cheeks == 2 && s->clear >= 0;
    return want;
}

static const char *turn_words(const tw_stop_group *group)
{
    return group->places == 1 ? "" : group->hand == TW_HAND_NONE ? " For the other end turn the piece end for end, the same distance at the stop." : " The same stop serves all places named.";
}

const char *tw_sliding_run_words(const tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    return tw_sliding_stopped(s) ? tw_format(b->context->arena, "in from the %s, to %s short of the %s", tw_face_words[tw_face_opposite(tw_sliding_stop_side(s))], tw_sliding_say(b, tw_sliding_stop_short_mm(s)), tw_face_words[tw_sliding_stop_side(s)])
                      : "right through from edge to edge";
}

static void add_clearing(tw_sliding_builder *b, const tw_stop_group *groups, int count, int which)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    const tw_stop_group *group = &groups[which];
    tw_copy_want want = clearing_want(b, group);
    tw_sliding_add(b, (tw_work){ .name = tw_group_name(b->context, s->cheeks == 2 ? "waste of the housings" : "upright walls of the housings", groups, count, which),
        .what = tw_format(arena, "With the straight cutter clear the housing %s, %s.%s", tw_sliding_run_words(b),
            s->cheeks == 2 ? "a shaving less deep than it will be: the dovetail cutter follows along the same template and takes the rest"
                           : "as wide as it is at the side, and a shaving less deep than it will be: this makes its upright wall", turn_words(group)),
        .way = TW_WAY_COPY, .piece = s->spec->into.index, .face = s->from, .down = down_side(s), .hand = group->hand, .count = group->places * s->into_pieces, .pieces = s->into_pieces,
        .places = group->words, .copied = true, .copy = want, .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick, as wide as they are", tw_sliding_say(b, s->d)),
        .answer = { TW_BY_DEPTH, 1.0 }, .measure = "depth", .measure_mm = want.depth_mm, .measure_under_mm = -0.1, .measure_over_mm = 0.1, .if_off = "the depth by the error itself",
        .state = "planed to its finished faces, to length, places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = "A strip is clamped level with the face where the cutter runs out: it takes the splinters.", .stage = 20 });
}

/* (1) in words, for a small error. */
const char *tw_sliding_depth_words(const tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    double step = tw_customary(b->context, 0.1, 0.004);
    return tw_format(b->context->arena, "%s deeper makes it %s narrower at the side", tw_sliding_say(b, step), tw_length_text(b->context->arena, s->cheeks * step * tan(s->angle), tw_sliding_finest(b)));
}

/* The cutter alone makes the width. */
static bool is_one_pass(const tw_sliding *s) { return s->cheeks == 2 && fabs(s->w - s->cutter_d) < 1e-3; }

tw_answer tw_sliding_housing_answer(const tw_sliding_builder *b, bool copied)
{
    return (tw_answer){ is_one_pass(b->s) ? TW_BY_CUTTER : copied ? TW_BY_WIDTH : TW_BY_GUIDES, 1.0 };
}

const char *tw_sliding_housing_if_off(const tw_sliding_builder *b, bool copied)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    const char *width = is_one_pass(s) ? "the cutter alone makes the width: leave it, and cut the tongue to it"
        : copied ? tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much", b->context->shop->machine.ratio.value) : "both spacers by the error";
    return tw_format(arena, "look at the depth first, for %s; then %s", tw_sliding_depth_words(b), width);
}

static void add_dovetailed(tw_sliding_builder *b, const tw_stop_group *groups, int count, int which)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    const tw_stop_group *group = &groups[which];
    tw_sliding_add(b, (tw_work){ .name = tw_group_name(b->context, "dovetailed housings", groups, count, which),
        .what = tw_format(arena, "Cut the housing with the dovetail cutter, %s deep in one pass, %s%s.%s", tw_sliding_say(b, s->depth), tw_sliding_run_words(b),
            tw_sliding_stopped(s) ? "; come back the same way, the motor running" : "", turn_words(group)),
        .way = TW_WAY_COPY, .piece = s->spec->into.index, .face = s->from, .down = down_side(s), .hand = group->hand, .count = group->places * s->into_pieces, .pieces = s->into_pieces,
        .places = group->words, .copied = true, .copy = dovetail_want(b, group), .test_piece = "the offcut in which the straight cutter was tried",
        .measure = "width of the housing at the side", .measure_mm = s->g, .measure_under_mm = -tw_sliding_limit_mm(s), .measure_over_mm = tw_sliding_limit_mm(s),
        .answer = tw_sliding_housing_answer(b, true), .if_off = tw_sliding_housing_if_off(b, true), .state = s->clear >= 0 ? "cleared with the straight cutter" : "places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = "A strip is clamped level with the face where the cutter runs out: it takes the splinters.", .stage = 20 });
}

static void copied_layers(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    bool turns = s->cheeks == 2 && !tw_sliding_stopped(s);
    int count;
    tw_stop_group *groups = tw_stop_groups(b->context, &s->spec->at, s->b.length_mm, s->from, down_side(s), turns, s->into_pieces, &count);
    for (int i = 0; s->clear >= 0 && i < count; i++) add_clearing(b, groups, count, i);
    tw_layers_close(&b->layers);
    for (int i = 0; i < count; i++) add_dovetailed(b, groups, count, i);
    tw_layers_close(&b->layers);
}

/* ---- all of it ---- */

static void corner_layer(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    if (!tw_sliding_stopped(s) || s->radius > 0.0 || s->way == TW_SLIDING_SAW) return;
    tw_sliding_add(b, (tw_work){ .name = "stopped ends of the housings", .what = "Chop the round end at each stop square down to the bottom, the walls undercut as they run.", .way = TW_WAY_CHISEL,
        .piece = s->spec->into.index, .face = s->from, .down = tw_face_opposite(s->from), .count = housings(s), .pieces = s->into_pieces,
        .places = tw_format(b->context->arena, "every housing, at the %s", tw_face_words[tw_sliding_stop_side(s)]), .measure = "from the side to the stop", .measure_mm = tw_sliding_stop_short_mm(s), .measure_under_mm = -0.5,
        .measure_over_mm = 0.5, .if_off = "pare to the line, or cut the tongue back a little more", .state = "housings cut", .marks = "number of the joint", .stage = 21 });
    tw_layers_close(&b->layers);
}

static void say_order(const tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_joint_plan *plan = b->layers.plan;
    tw_arena *arena = b->context->arena;
    tw_plan_advice(b->context, plan, "All housings first, then the tongues to them: a fence moves by hairs, a housing is as wide as it is.");
    if (s->clear >= 0) tw_plan_advice(b->context, plan, s->cheeks == 2 ? "Clear every housing of the batch with the straight cutter before the dovetail cutter goes in: template, follower, table and stop stay set, only the cutter and its depth change."
                                                                       : "Clear every housing of the batch with the straight cutter before the dovetail cutter goes in.");
    tw_plan_advice(b->context, plan, tw_format(arena, "Plane and sand %s and the side that carries the housing first: a shaving off either afterwards opens the joint.", s->housed->name));
    tw_plan_advice(b->context, plan, "Depth stays set for all housings of the batch: an error in depth is an error in fit.");
    if (s->glued) tw_plan_advice(b->context, plan, "Glue swells the tongue and it sticks half way: only on the last third of the way, and no pause while it is driven.");
    else tw_plan_advice(b->context, plan, "Dry it can only slide back the way it came: something must close the open side, or the last of it is driven tight.");
}

void tw_sliding_works(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s)
{
    assert(tw_sliding_possible(s));
    tw_sliding_builder b = { .layers = tw_layers_begin(context, plan), .context = context, .s = s };
    mark(&b);
    if (s->way == TW_SLIDING_COPY) copied_layers(&b);
    else if (s->way == TW_SLIDING_GUIDES) tw_sliding_guides_layers(&b);
    else tw_sliding_sawn_layers(&b);
    corner_layer(&b);
    tw_sliding_tongue_layers(&b);
    tw_sliding_fit_layers(&b);
    say_order(&b);
}
