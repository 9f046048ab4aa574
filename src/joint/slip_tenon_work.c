// SPDX-License-Identifier: GPL-3.0-or-later
/* Slip tenon: the cuts on both pieces, how they stand, and the work. Both mortises are one outline, so one template, one
 * cutter and one follower serve both; only stop, height and the side to the cutter change. */
#include "joint/slip_tenon.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"
#include "piece/pose.h"

#define SAME_MM 1e-6
#define LIMIT_SHARE 0.25      // of the clearance, for mortise and tenon each
#define LIMIT_LEAST_MM 0.02
#define END_ROOM_MM 15.0      // left over at a stick's end, sawn off with the snipe: common practice
#define STICK_MM 600.0        // as long as is handy at the bench: common practice

typedef struct builder { tw_joint_context *context; tw_joint_plan *plan; const tw_slip *s; tw_layers layers; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
static double limit_mm(const builder *b) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * b->s->c); }
static bool centred_side(const tw_slip *s) { return fabs(s->across - s->e / 2.0) < SAME_MM; }
static bool centred_end(const tw_slip *s) { return fabs(s->y - s->a.width_mm / 2.0) < SAME_MM; }

/* ---- cuts ---- */

static tw_outline mortise_outline(tw_arena *arena, const tw_slip *s, double x, double y, bool wide_across)
{
    double half_x = (wide_across ? s->wm : s->tm) / 2.0, half_y = (wide_across ? s->tm : s->wm) / 2.0;
    return tw_outline_rounded(arena, x - half_x, y - half_y, x + half_x, y + half_y, s->round ? tw_min(half_x, half_y) : 0.0);
}

static void meet(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s, tw_face end, int at)
{
    tw_end_stand stand = { .end = end, .inset_mm = 0.0, .middle_y = s->y, .middle_z = s->z, .from = s->from, .at_mm = s->spec->at.items[at].value, .across_mm = s->across, .along = s->along };
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = s->spec->piece.index, .base = s->spec->into.index, .end = end, .place = at, .pose = tw_end_pose(s->a, s->b, &stand),
        .leaves = tw_face_frame(s->from).out, .travel_mm = s->l, .held_by = s->glued ? "glue" : "", .for_good = s->glued });
}

void tw_slip_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s)
{
    assert(tw_slip_possible(s));
    double up = tw_face_below(s->from) == s->down ? s->across : s->e - s->across;
    for (int i = 0; i < s->spec->at.count; i++)
        tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->into.index, .name = "mortise", .face = s->from, .depth_mm = s->depth,
            .outline = mortise_outline(context->arena, s, s->spec->at.items[i].value, up, s->along) });
    for (int end = TW_SIDE_LEFT_END; end <= TW_SIDE_RIGHT_END; end++) {
        bool right = end == TW_SIDE_RIGHT_END;
        if (s->spec->ends.value == (right ? TW_SLIP_LEFT : TW_SLIP_RIGHT)) continue;
        tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->piece.index, .name = "mortise in the end", .face = (tw_face)end, .depth_mm = s->depth,
            .outline = mortise_outline(context->arena, s, right ? s->y : s->a.width_mm - s->y, s->z, true) });
        for (int i = 0; i < s->spec->at.count; i++) meet(context, plan, s, (tw_face)end, i);
    }
}

/* ---- marking ---- */

static void mark_layer(builder *b)
{
    const tw_slip *s = b->s;
    tw_layers_add(&b->layers, (tw_work){ .name = "lines across both pieces",
        .what = tw_format(b->context->arena, "Stand %s in its place against %s and strike one line across both at the middle of the tenon; number the pair. Gauge the middle of the thickness on both, from the face.",
            s->piece->name, s->into->name),
        .way = TW_WAY_MARK, .piece = s->spec->into.index, .face = s->from, .down = tw_face_opposite(s->from), .count = s->into_pieces * s->spec->at.count, .pieces = s->into_pieces,
        .places = tw_format(b->context->arena, "%s, every place", tw_face_words[s->from]), .measure = "from the left end to the line of the first place", .measure_mm = s->spec->at.items[0].value,
        .measure_under_mm = -0.3, .measure_over_mm = 0.3, .if_off = "mark the whole batch again from one piece", .state = "planed to finished faces, ends sawn square, to length",
        .marks = "face, face edge, ends, number of the joint", .stage = 20 });
    tw_layers_close(&b->layers);
}

/* ---- mortises ---- */

static bool width_is_cutters(const builder *b)
{
    int cutter = b->s->cutter ? tw_cutter_named(b->context->shop, b->s->cutter) : -1;
    return cutter >= 0 && fabs(b->context->shop->cutters[cutter].d_mm - b->s->tm) < SAME_MM;
}

static tw_answer answer(const builder *b) { return (tw_answer){ width_is_cutters(b) ? TW_BY_CUTTER : TW_BY_WIDTH, 1.0 }; }

static const char *if_off(const builder *b)
{
    return width_is_cutters(b) ? "too narrow or too wide: another cutter, the mortise is as wide as the cutter; or leave it, and plane the tenon to it"
               : tw_format(b->context->arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much", b->context->shop->machine.ratio.value);
}

static tw_copy_want pocket(const builder *b, tw_outline cut)
{
    const tw_slip *s = b->s;
    return (tw_copy_want){ .cut = cut, .inside = true, .depth_mm = s->depth, .cutter = s->cutter, .follower = s->spec->follower.given ? s->spec->follower.text : NULL, .cutter_most_mm = tw_min(s->tm, s->wm),
                           .corner_most_mm = s->round ? tw_min(s->tm, s->wm) / 2.0 : 0.0, .locate = TW_LOCATE_CENTRED, .wall_word = "" };
}

static void add_side(builder *b, const tw_stop_group *groups, int count, int which)
{
    const tw_slip *s = b->s;
    tw_arena *arena = b->context->arena;
    const tw_stop_group *group = &groups[which];
    tw_copy_want want = pocket(b, mortise_outline(arena, s, 0.0, 0.0, s->along));
    want.stop_end = group->end;
    want.stop_to_origin_mm = group->to_end_mm;
    want.stop_word = tw_face_words[group->end];
    want.down_to_origin_mm = s->across;
    const char *turn = group->places == 1 ? "." : group->hand == TW_HAND_NONE ? "; for the other end turn the piece end for end, its other side down: the pieces must be planed true." : "; the same stop serves all places named.";
    tw_layers_add(&b->layers, (tw_work){ .name = tw_group_name(b->context, "mortises in the side", groups, count, which), .what = tw_format(arena, "Cut the mortise %s deep%s", say(b, s->depth), turn),
        .way = TW_WAY_COPY, .piece = s->spec->into.index, .face = s->from, .down = s->down, .hand = group->hand, .count = group->places * s->into_pieces, .pieces = s->into_pieces, .places = group->words,
        .copied = true, .copy = want, .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick", say(b, s->d)), .measure = "width of the mortise, cheek to cheek", .measure_mm = s->tm,
        .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b), .answer = answer(b), .if_off = if_off(b), .state = "planed to its finished faces, to length, lines struck", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
}

static void add_end(builder *b, tw_face end, tw_hand hand, bool both)
{
    const tw_slip *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_copy_want want = pocket(b, mortise_outline(arena, s, 0.0, 0.0, true));
    want.stop_end = TW_SIDE_FACE_EDGE;
    want.stop_to_origin_mm = s->y;
    want.stop_word = "face edge";
    want.down_to_origin_mm = s->z;
    want.zero_word = "end of the piece";
    tw_layers_add(&b->layers, (tw_work){ .name = hand == TW_HAND_NONE ? "mortises in the ends" : hand == TW_HAND_RIGHT ? "mortises in the ends, right hand" : "mortises in the ends, left hand",
        .what = tw_format(arena, "Cut the mortise %s deep into the end: the piece points at the cutter, its back down%s.", say(b, s->depth), both ? "; at the other end the back edge stands at the stop" : ", the face edge at the stop"),
        .way = TW_WAY_COPY, .piece = s->spec->piece.index, .face = end, .down = TW_SIDE_BACK, .hand = hand, .count = both ? s->joints : s->pieces, .pieces = s->pieces,
        .places = both ? tw_format(arena, "left and right end (%d each)", s->pieces) : tw_format(arena, "%s (%d)", tw_face_words[end], s->pieces), .copied = true, .copy = want,
        .test_piece = tw_format(arena, "an offcut of the same planed stock, %s thick, end sawn square", say(b, s->a.thickness_mm)), .measure = "width of the mortise, cheek to cheek", .measure_mm = s->tm,
        .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b), .answer = answer(b), .if_off = if_off(b), .state = "ends sawn square, to length, lines struck", .marks = "face, face edge, number of the joint",
        .cautions = "The piece points at the cutter: clamped at two places, and its far end held up level; hands behind the clamps. Cut end grain in light steps.", .stage = 21 });
}

static void mortise_layers(builder *b)
{
    const tw_slip *s = b->s;
    int count;
    tw_stop_group *groups = tw_stop_groups(b->context, &s->spec->at, s->b.length_mm, s->from, s->down, centred_side(s), s->into_pieces, &count);
    for (int i = 0; i < count; i++) add_side(b, groups, count, i);
    bool left = s->spec->ends.value != TW_SLIP_RIGHT, right = s->spec->ends.value != TW_SLIP_LEFT, both = left && right;
    if (both && centred_end(s)) add_end(b, TW_SIDE_RIGHT_END, TW_HAND_NONE, true);
    else {
        if (right) add_end(b, TW_SIDE_RIGHT_END, both ? TW_HAND_RIGHT : TW_HAND_NONE, false);
        if (left) add_end(b, TW_SIDE_LEFT_END, both ? TW_HAND_LEFT : TW_HAND_NONE, false);
    }
    tw_layers_close(&b->layers);
    if (s->round) return;
    tw_layers_add(&b->layers, (tw_work){ .name = "corners of the mortises", .what = "Chop the round corners of both mortises square, down to their bottoms.", .way = TW_WAY_CHISEL, .piece = s->spec->into.index,
        .face = s->from, .down = tw_face_opposite(s->from), .count = 2 * s->joints, .pieces = s->into_pieces + s->pieces, .places = "every mortise, in sides and ends", .measure = "length of the mortise", .measure_mm = s->wm,
        .measure_under_mm = -0.2, .measure_over_mm = 0.3, .if_off = "pare to a line", .state = "mortised", .marks = "number of the joint", .stage = 22 });
    tw_layers_close(&b->layers);
}

/* ---- the loose tenons ---- */

/* Sticks about as long as a bench is handy, never shorter than what the shop holds safely. */
static tw_part tenon_part(const builder *b)
{
    const tw_slip *s = b->s;
    const tw_shop *shop = b->context->shop;
    double kerf = shop->saw_kerf.given ? shop->saw_kerf.value : 3.0, least = shop->machine.smallest_piece.given ? shop->machine.smallest_piece.value : 300.0, one = s->long_mm + kerf;
    int fit = (int)floor((STICK_MM - END_ROOM_MM) / one);
    int per_stick = fit < 1 ? 1 : fit > s->joints ? s->joints : fit;
    return (tw_part){ .name = "slip tenon", .count = s->joints, .per_stick = per_stick, .finished = { s->long_mm, s->w, s->t },
                      .stick = { tw_max(per_stick * one + END_ROOM_MM, tw_max(least, 300.0)), s->w, s->t }, .timber = s->spec->tenon_timber.given ? s->spec->tenon_timber.text : s->piece->timber.text };
}

static void tenon_layers(builder *b)
{
    const tw_slip *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_part part = tenon_part(b);
    tw_slip_tenon_cuts(arena, s, &part);
    tw_plan_part(b->context, b->plan, part);
    int sticks = (part.count + part.per_stick - 1) / part.per_stick;
    tw_layers_add(&b->layers, (tw_work){ .name = "sticks for the slip tenons",
        .what = tw_format(arena, "Plane sticks %s long to %s wide and %s thick, grain along them, until a corner goes into both test mortises by hand with a push; plane the stuff in one long length if it goes through a planer.",
            say(b, part.stick.length_mm), say(b, s->w), say(b, s->t)),
        .way = TW_WAY_PLANE, .piece = -1, .part = part.name, .count = sticks, .places = "every stick", .measure = "thickness", .measure_mm = s->t, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .if_off = "heavy: a shaving; light: a new stick, never glue alone", .state = "sawn heavy, rested", .cautions = "No stick goes through a planer that is shorter than its maker allows.", .stage = 30 });
    tw_layers_close(&b->layers);
    if (s->round) {
        tw_layers_add(&b->layers, (tw_work){ .name = "edges of the sticks", .what = tw_format(arena, "Round both edges of each stick to %s with a block plane, tried in a test mortise; run one shallow groove along each cheek, so that glue and air can leave.", say(b, s->tm / 2.0)),
            .way = TW_WAY_PLANE, .piece = -1, .part = part.name, .count = sticks, .places = "both edges of every stick", .measure = "width", .measure_mm = s->w, .measure_under_mm = -0.3, .measure_over_mm = 0.1,
            .if_off = "the cheeks hold, not the edges: light does no harm", .state = "planed", .stage = 31 });
        tw_layers_close(&b->layers);
    }
    tw_layers_add(&b->layers, (tw_work){ .name = "slip tenons to length", .what = tw_format(arena, "Crosscut to %s and chamfer all arrises of both ends.", say(b, s->long_mm)), .way = TW_WAY_SAW, .piece = -1, .part = part.name,
        .count = part.count, .places = "each tenon", .measure = "length", .measure_mm = s->long_mm, .measure_under_mm = -1.0, .measure_over_mm = 0.0, .if_off = "too long: shoot an end; it must not meet both bottoms",
        .state = "stick fitted", .cautions = "Short pieces: a bench hook and a hand saw, or a crosscut carriage with a hold-down; no stop beside the blade that could trap the offcut.", .stage = 32 });
    tw_layers_close(&b->layers);
}

/* ---- together ---- */

static void together_layers(builder *b)
{
    const tw_slip *s = b->s;
    tw_layers_add(&b->layers, (tw_work){ .name = "slip tenons in both mortises, dry", .what = "Put each tenon into the end, then the end into its place, until the joint is tight all round. Check that the lines across both pieces meet.", .way = TW_WAY_FIT,
        .piece = s->spec->piece.index, .count = s->joints, .pieces = s->pieces, .places = s->ends == 2 ? "both ends" : "the end", .measure = "gap at the joint, with a feeler", .measure_mm = 0.0, .measure_under_mm = 0.0, .measure_over_mm = 0.1,
        .if_off = "if it stops before it closes, the tenon is too long: shoot an end", .state = "mortised, tenons to length", .marks = "number of the joint on both", .stage = 40 });
    tw_layers_close(&b->layers);
    if (!s->glued) return;
    tw_layers_add(&b->layers, (tw_work){ .name = "glue up", .what = "Glue the tenon into the end first, on walls and cheeks; then glue that into the other piece. Clamp in line with the piece; compare both diagonals; wipe off what comes out.", .way = TW_WAY_GLUE,
        .piece = s->spec->piece.index, .count = s->joints, .pieces = s->pieces, .places = s->ends == 2 ? "both ends" : "the end", .measure = "difference between the two diagonals", .measure_mm = 0.0, .measure_under_mm = -1.0, .measure_over_mm = 1.0,
        .if_off = "set the clamps askew towards the longer diagonal, before the glue takes", .state = "fitted dry, numbered, clean", .marks = "number of the joint on both", .cautions = "Dry run with all clamps first.", .stage = 45 });
    tw_layers_close(&b->layers);
}

static void say_order(builder *b)
{
    const tw_slip *s = b->s;
    tw_plan_advice(b->context, b->plan, "Both mortises first, all with one cutter and one template; then the tenon stock is planed to them, never the other way round.");
    tw_plan_advice(b->context, b->plan, "Always the same face down at the machine: what is out of the middle is then out of it on both pieces alike, and the faces stay level.");
    tw_plan_advice(b->context, b->plan, "Leave a length of the tenon stock over and mark it with the job: it is the gauge for the next one.");
    if (s->glued) tw_plan_advice(b->context, b->plan, "Glue in the end first: there the glue has to hold along the whole depth of the mortise, and is drawn away into the pores. Give the end grain at the rim a first thin coat.");
    else tw_plan_advice(b->context, b->plan, "Without glue nothing here holds the pieces together: a bolt, a band or the weight on it must.");
}

void tw_slip_works(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s)
{
    assert(tw_slip_possible(s));
    builder b = { context, plan, s, tw_layers_begin(context, plan) };
    mark_layer(&b);
    mortise_layers(&b);
    tenon_layers(&b);
    together_layers(&b);
    say_order(&b);
}
