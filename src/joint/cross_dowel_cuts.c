// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt: the holes in both pieces, and how the rail stands. The holes of the pegs in the post lie where the
 * rail's own come to with the joint home, so they follow from its pose. In the rail the two holes of the joint cross: the wood
 * taken is what either takes. */
#include "joint/cross_dowel.h"

#include <assert.h>

#include "piece/pose.h"

static tw_pose pose_at(const tw_bolted *j, tw_face end, int place)
{
    tw_end_stand stand = { .end = end, .inset_mm = j->h, .middle_y = j->y, .middle_z = j->z, .from = j->from, .at_mm = j->spec->at.items[place].value, .across_mm = j->across, .along = j->along };
    return tw_end_pose(j->a, j->b, &stand);
}

static bool end_is_joined(const tw_bolted *j, tw_face end)
{
    return j->spec->ends.value == TW_BOLTED_BOTH || (j->spec->ends.value == TW_BOLTED_RIGHT) == (end == TW_SIDE_RIGHT_END);
}

/* A spot of the rail's end, right and up as the end is seen. */
static tw_point on_end(const tw_bolted *j, tw_face end, double y) { return (tw_point){ end == TW_SIDE_RIGHT_END ? y : j->a.width_mm - y, j->z }; }

/* ---- the rail ---- */

static void rail_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j, tw_face end)
{
    tw_arena *arena = context->arena;
    int piece = j->spec->rail.index;
    double off[TW_BOLTED_PEGS_MOST], x = end == TW_SIDE_RIGHT_END ? j->a.length_mm - j->s : j->s;
    tw_spot dowel = tw_face_place(j->a, j->dowel_face, (tw_spot){ x, j->y, j->z });
    tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "hole of the cross dowel", .face = j->dowel_face, .depth_mm = j->dowel_depth, .outline = tw_outline_circle(arena, (tw_point){ dowel.x, dowel.y }, j->dd / 2.0) });
    tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "hole of the bolt", .face = end, .depth_mm = j->b_depth, .outline = tw_outline_circle(arena, on_end(j, end, j->y), j->hole / 2.0) });
    int pegs = tw_bolted_peg_spots(j, off);
    for (int i = 0; i < pegs; i++)
        tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "hole of a peg", .face = end, .depth_mm = j->peg_hole, .outline = tw_outline_circle(arena, on_end(j, end, j->y + off[i]), j->peg / 2.0) });
}

/* ---- the post ---- */

/* The box on the side `from` that the rail's end covers. */
static tw_outline end_outline(tw_arena *arena, const tw_bolted *j, tw_pose pose, tw_face end)
{
    double x = end == TW_SIDE_RIGHT_END ? j->a.length_mm : 0.0;
    tw_spot a = tw_face_place(j->b, j->from, tw_pose_apply(pose, (tw_spot){ x, 0.0, 0.0 }));
    tw_spot b = tw_face_place(j->b, j->from, tw_pose_apply(pose, (tw_spot){ x, j->a.width_mm, j->a.thickness_mm }));
    tw_size side = tw_face_extent(j->b, j->from);
    return tw_outline_rectangle(arena, tw_max(tw_min(a.x, b.x), 0.0), tw_max(tw_min(a.y, b.y), 0.0), tw_min(tw_max(a.x, b.x), side.length_mm), tw_min(tw_max(a.y, b.y), side.width_mm));
}

static void post_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j, tw_face end, int place)
{
    tw_arena *arena = context->arena;
    int piece = j->spec->into.index;
    tw_pose pose = pose_at(j, end, place);
    double off[TW_BOLTED_PEGS_MOST], x = end == TW_SIDE_RIGHT_END ? j->a.length_mm : 0.0;
    tw_spot head = tw_face_place(j->b, j->far_, tw_pose_apply(pose, (tw_spot){ x, j->y, j->z }));
    if (j->k > 0.0)
        tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "counterbore", .face = j->far_, .depth_mm = j->k, .outline = tw_outline_circle(arena, (tw_point){ head.x, head.y }, j->kw / 2.0) });
    tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "hole of the bolt", .face = j->far_, .start_mm = j->k, .depth_mm = j->d - j->h, .through = j->h <= 0.0,
        .outline = tw_outline_circle(arena, (tw_point){ head.x, head.y }, j->hole / 2.0) });
    if (j->h > 0.0) tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "housing of the end", .face = j->from, .depth_mm = j->h, .outline = end_outline(arena, j, pose, end) });
    int pegs = tw_bolted_peg_spots(j, off);
    for (int i = 0; i < pegs; i++) {
        tw_spot spot = tw_face_place(j->b, j->from, tw_pose_apply(pose, (tw_spot){ x, j->y + off[i], j->z }));
        tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "hole of a peg", .face = j->from, .start_mm = j->h, .depth_mm = j->h + j->peg_hole, .outline = tw_outline_circle(arena, (tw_point){ spot.x, spot.y }, j->peg / 2.0) });
    }
}

/* ---- both ---- */

static void meet(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j, tw_face end, int place)
{
    double step = tw_max(j->h, j->pegs > 0 ? j->peg_depth : 0.0);
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = j->spec->rail.index, .base = j->spec->into.index, .end = end, .place = place, .pose = pose_at(j, end, place),
        .leaves = tw_face_frame(j->from).out, .travel_mm = step > 0.0 ? step : 1.0, .held_by = "bolts" });
}

void tw_bolted_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j)
{
    assert(tw_bolted_possible(j));
    tw_face first = j->spec->ends.value == TW_BOLTED_RIGHT ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END;
    for (int place = 0; place < j->spec->at.count; place++) post_cuts(context, plan, j, first, place);
    for (int end = TW_SIDE_LEFT_END; end <= TW_SIDE_RIGHT_END; end++) {
        if (!end_is_joined(j, (tw_face)end)) continue;
        rail_cuts(context, plan, j, (tw_face)end);
        for (int place = 0; place < j->spec->at.count; place++) meet(context, plan, j, (tw_face)end, place);
    }
}
