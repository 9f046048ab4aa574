// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk: the cuts on both pieces, and how they stand against each other.
 *
 * The tusk's mortise is two prisms: from the head's side the straight part, as wide at every depth as it is at the tip; and
 * between the tenon's cheeks the wedge that the leaning wall adds, a triangle in (u, v):
 *     (k - (D/2) tan a, -D/2), (k + (D/2) tan a, D/2), (k - (D/2) tan a, D/2) */
#include "joint/single_tusk.h"

#include <assert.h>
#include <math.h>

#include "piece/pose.h"

#define NOTHING_MM 1e-9  // a shoulder of no more is none

/* ---- the mortised piece ---- */

static void mortise_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s)
{
    tw_frame frame = tw_face_frame(s->from);
    tw_size extent = tw_face_extent(s->post, s->from);
    double half_x = ((s->along ? s->w : s->t) + s->clearance) / 2.0, half_y = ((s->along ? s->t : s->w) + s->clearance) / 2.0;
    bool up_runs_back = frame.up.y + frame.up.z < 0.0;  // `across` counts against the face's up
    double y = up_runs_back ? extent.width_mm - s->across : s->across;
    for (int i = 0; i < s->spec->at.count; i++) {
        double x = s->spec->at.items[i].value;
        tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->through.index, .name = "mortise", .face = s->from, .depth_mm = s->T, .through = true,
            .outline = tw_outline_rectangle(context->arena, x - half_x, y - half_y, x + half_x, y + half_y) });
    }
}

/* ---- the tenoned piece ---- */

static double along_piece(const tw_single *s, double u, bool right_end) { return right_end ? s->a.length_mm - s->p + u : s->p - u; }

/* A point of a side of the tenoned piece: x along it, across counted from the face edge or from the back. */
static tw_vertex on_side(const tw_single *s, tw_face side, double x, double across)
{
    tw_frame frame = tw_face_frame(side);
    return (tw_vertex){ x, frame.up.y + frame.up.z < 0.0 ? tw_face_extent(s->a, side).width_mm - across : across, 0.0 };
}

static void shoulder_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s, bool right_end)
{
    double long_mm = s->T + s->p, x0 = right_end ? s->a.length_mm - long_mm : 0.0;
    double cheek = (s->a.thickness_mm - s->t) / 2.0, edge = (s->a.width_mm - s->w) / 2.0;
    for (int side = TW_SIDE_FACE; side <= TW_SIDE_BACK_EDGE; side++) {
        bool on_face = side == TW_SIDE_FACE || side == TW_SIDE_BACK;
        double depth = on_face ? cheek : edge, low = on_face ? 0.0 : cheek, high = on_face ? s->a.width_mm : s->a.thickness_mm - cheek;
        if (depth <= NOTHING_MM) continue;
        tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->tenon.index, .name = on_face ? "cheek" : "edge shoulder", .face = (tw_face)side, .depth_mm = depth,
            .outline = tw_outline_rectangle(context->arena, x0, low, x0 + long_mm, high) });
    }
}

static void straight_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s, bool right_end)
{
    double x0 = along_piece(s, -s->c, right_end), x1 = along_piece(s, s->open_low - s->c, right_end), middle = tw_face_extent(s->a, s->head).width_mm / 2.0;
    double shoulder = tw_single_head_shoulder(s);
    tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->tenon.index, .name = "mortise of the tusk", .face = s->head, .start_mm = shoulder, .depth_mm = shoulder + s->D,
        .outline = tw_outline_rectangle(context->arena, tw_min(x0, x1), middle - s->mb / 2.0, tw_max(x0, x1), middle + s->mb / 2.0) });
}

static void leaning_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s, bool right_end)
{
    tw_face side = s->upright ? TW_SIDE_FACE : TW_SIDE_FACE_EDGE;  // on which (u, v) is seen
    bool grows = s->head == TW_SIDE_BACK_EDGE || s->head == TW_SIDE_FACE;
    double middle = tw_face_extent(s->a, side).width_mm / 2.0, head = grows ? s->D / 2.0 : -s->D / 2.0;
    double near_ = s->open_low - s->c, far_ = s->open_high - s->c;
    tw_vertex corners[3] = { on_side(s, side, along_piece(s, near_, right_end), middle - head), on_side(s, side, along_piece(s, far_, right_end), middle + head),
                             on_side(s, side, along_piece(s, near_, right_end), middle + head) };
    tw_loop loop = { corners, 3 };
    if (tw_loop_area_mm2(loop) < 0.0) {
        tw_vertex swapped = corners[0];
        corners[0] = corners[2];
        corners[2] = swapped;
    }
    double deep = tw_face_extent(s->a, side).thickness_mm / 2.0;
    tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->tenon.index, .name = "leaning wall of the tusk's mortise", .face = side, .start_mm = deep - s->mb / 2.0,
        .depth_mm = deep + s->mb / 2.0, .outline = tw_outline_of_loop(context->arena, corners, 3) });
}

/* ---- together ---- */

static void meet(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s, tw_face end, int place)
{
    tw_end_stand stand = { .end = end, .inset_mm = s->T + s->p, .middle_y = s->a.width_mm / 2.0, .middle_z = s->a.thickness_mm / 2.0, .from = s->from,
        .at_mm = s->spec->at.items[place].value, .across_mm = s->across, .along = s->along, .reversed = s->head == TW_SIDE_FACE_EDGE };
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = s->spec->tenon.index, .base = s->spec->through.index, .end = end, .place = place,
        .pose = tw_end_pose(s->a, s->post, &stand), .leaves = tw_face_frame(s->from).out, .travel_mm = stand.inset_mm, .held_by = "tusks" });
}

void tw_single_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s)
{
    assert(tw_single_possible(s));
    mortise_cuts(context, plan, s);
    for (int end = TW_SIDE_LEFT_END; end <= TW_SIDE_RIGHT_END; end++) {
        bool right_end = end == TW_SIDE_RIGHT_END;
        if (s->spec->ends.value == (right_end ? TW_SINGLE_LEFT : TW_SINGLE_RIGHT)) continue;
        shoulder_cuts(context, plan, s, right_end);
        straight_cut(context, plan, s, right_end);
        leaning_cut(context, plan, s, right_end);
        for (int i = 0; i < s->spec->at.count; i++) meet(context, plan, s, (tw_face)end, i);
    }
}
