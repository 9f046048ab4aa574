// SPDX-License-Identifier: GPL-3.0-or-later
/* Housed bridle: the cuts on both pieces, and how the pieces stand against each other.
 *
 * Everything about the fork is alike on its two sides, and about the housings too: so a piece turned end for end, or its
 * other end, fits as well, and nothing here has a hand. The slot and what is taken off the prongs' corners never take the
 * same wood: the corners are cut from outside, as deep as a prong is thick. */
#include "joint/bridle.h"

#include <assert.h>
#include <math.h>

#include "joint/trench.h"
#include "piece/pose.h"

static bool by_faces(const tw_bridle *b) { return b->spec->prongs.value == 0; }

/* ---- the piece that the fork rides over ---- */

static void housing_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b, tw_face side, double x)
{
    bool up = tw_face_below(side) == b->from;
    tw_box box = { x - b->w / 2.0, up ? 0.0 : b->E - b->H, x + b->w / 2.0, up ? b->H : b->E };
    tw_plan_cut(context, plan, (tw_cut){ .piece = b->spec->over.index, .name = "housing", .face = side, .depth_mm = b->depth,
        .outline = tw_trench_outline(context->arena, box, up ? 0.0 : b->R, up ? b->R : 0.0) });
}

/* ---- the fork ---- */

tw_outline tw_bridle_slot(tw_arena *arena, const tw_bridle *b, double x, double y, double past_mm, bool to_right)
{
    double end = b->S + past_mm;
    return tw_outline_rectangle(arena, to_right ? x : x - end, y - b->s / 2.0, to_right ? x + end : x, y + b->s / 2.0);
}

static void slot_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b, bool right_end)
{
    tw_plan_cut(context, plan, (tw_cut){ .piece = b->spec->forked.index, .name = "slot",
        .face = by_faces(b) ? TW_SIDE_FACE_EDGE : TW_SIDE_FACE, .depth_mm = b->B, .through = true,
        .outline = tw_bridle_slot(context->arena, b, right_end ? b->a.length_mm - b->S : b->S, b->split / 2.0, 0.0, right_end) });
}

/* What is taken off one corner of a prong's end at x, y; dx, dy point into the prong. */
static tw_outline corner_outline(tw_arena *arena, const tw_bridle *b, double x, double y, double dx, double dy)
{
    double n = b->answer_mm, in_x = x + dx * n, in_y = y + dy * n;
    if (b->answer == TW_ANSWER_NOTCH) return tw_outline_rectangle(arena, tw_min(x, in_x), tw_min(y, in_y), tw_max(x, in_x),
        tw_max(y, in_y));
    const double quarter = tan(TW_PI / 8.0);
    tw_vertex along = { in_x, y, 0.0 }, corner = { x, y, 0.0 }, across = { x, in_y, 0.0 };
    if (dx * dy > 0.0) {  // corner, along, across runs counter-clockwise; the prong's rounding lies hollow in what is taken
        along.bulge = -quarter;
        return tw_outline_of_loop(arena, (const tw_vertex[]){ corner, along, across }, 3);
    }
    across.bulge = -quarter;
    return tw_outline_of_loop(arena, (const tw_vertex[]){ corner, across, along }, 3);
}

static void corner_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b, bool right_end)
{
    double x = right_end ? b->a.length_mm : 0.0, dx = right_end ? -1.0 : 1.0;
    tw_face outside = by_faces(b) ? TW_SIDE_FACE : TW_SIDE_FACE_EDGE;
    for (int prong = 0; prong < 2; prong++)
        for (int corner = 0; corner < 2; corner++)
            tw_plan_cut(context, plan, (tw_cut){ .piece = b->spec->forked.index, .name = b->answer == TW_ANSWER_NOTCH ? "corner "
                "notch" : "rounded corner", .face = prong ? tw_face_opposite(outside) : outside, .depth_mm = b->g,
                .outline = corner_outline(context->arena, b, x, corner ? b->B : 0.0, dx, corner ? -1.0 : 1.0) });
}

/* ---- how they stand ---- */

static void meet(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b, tw_face end, int place)
{
    tw_end_stand stand = { .end = end, .inset_mm = b->S, .middle_y = b->a.width_mm / 2.0, .middle_z = b->a.thickness_mm / 2.0,
        .from = b->from, .at_mm = b->spec->at.items[place].value, .across_mm = b->T / 2.0, .along = by_faces(b) };
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = b->spec->forked.index, .base = b->spec->over.index, .end = end,
        .place = place, .pose = tw_end_pose(b->a, b->b, &stand), .leaves = tw_face_frame(b->from).out, .travel_mm = b->S,
        .held_by = b->glued ? "glue" : "", .for_good = b->glued });
}

void tw_bridle_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b)
{
    assert(tw_bridle_possible(b));
    for (int i = 0; i < b->spec->at.count; i++)
        for (int side = 0; side < 2; side++) housing_cut(context, plan, b, b->sides[side], b->spec->at.items[i].value);
    for (int end = TW_SIDE_LEFT_END; end <= TW_SIDE_RIGHT_END; end++) {
        if (!tw_bridle_has_end(b, (tw_face)end)) continue;
        slot_cut(context, plan, b, end == TW_SIDE_RIGHT_END);
        if (b->answer_mm > 0.0) corner_cuts(context, plan, b, end == TW_SIDE_RIGHT_END);
        for (int i = 0; i < b->spec->at.count; i++) meet(context, plan, b, (tw_face)end, i);
    }
}
