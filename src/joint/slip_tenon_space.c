// SPDX-License-Identifier: GPL-3.0-or-later
/* Slip tenon: the loose tenon itself, and where it sits: half in the end, half in the side, its middle on the meeting of both.
 * Where it is taken apart it stays in the end, as it was put there first. */
#include "joint/lodge.h"
#include "joint/slip_tenon.h"
#include "piece/pose.h"

void tw_slip_tenon_cuts(tw_arena *arena, const tw_slip *s, tw_part *part)
{
    if (!s->round) return;   // a plain block
    double radius = tw_min(s->t, s->w) / 2.0;
    tw_outline stays = tw_outline_rounded(arena, -s->w / 2.0, -s->t / 2.0, s->w / 2.0, s->t / 2.0, radius);
    tw_cut edges = tw_lodge_turned(arena, part->finished, TW_SIDE_LEFT_END, part->finished.length_mm, stays);
    tw_lodge_cuts(arena, part, &edges, 1);
}

void tw_slip_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s)
{
    int part = tw_lodge_part(plan, "slip tenon");
    if (part < 0) return;
    for (size_t i = 0; i < plan->meeting_count; i++) {
        const tw_meeting *meeting = &plan->meetings[i];
        tw_spot first = { (meeting->end == TW_SIDE_RIGHT_END ? s->a.length_mm : 0.0) - s->l, s->y, s->z };
        tw_pose in_end = tw_lodge_pose(plan->parts[part].finished, first, (tw_spot){ 1, 0, 0 }, (tw_spot){ 0, 0, 1 });
        tw_plan_lodging(context, plan, (tw_lodging){ .part = part, .meeting = (int)i, .pose = tw_pose_compose(meeting->pose, in_end),
            .leaves = tw_spot_times(meeting->leaves, -1.0), .travel_mm = s->l, .in_mover = true });
    }
}
