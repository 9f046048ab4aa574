// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk: the tusk itself, and where it sits.
 *
 * In its own frame: x from the tip to the head, y across its breadth, z = 0 the straight side that bears. The ramp is
 *     z = k + (x - tip - D/2) tan(alpha)                                                              (1)
 * Seated, that side lies on the outer surface of the mortised piece, and the tip stands out of the tenon by `tip`. */
#include "joint/single_tusk.h"

#include <math.h>

#include "joint/lodge.h"
#include "piece/pose.h"

void tw_single_tusk_cuts(tw_arena *arena, const tw_single *s, tw_part *part)
{
    double slope = tan(s->alpha);
    tw_cut ramp = tw_lodge_ramp(arena, part->finished, s->k - (s->tip + s->D / 2.0) * slope, slope);
    tw_lodge_cuts(arena, part, &ramp, 1);
}

/* In the tenoned piece: the outer surface stands across it, p from its end. */
static tw_pose tusk_in_tenon(const tw_single *s, tw_size tusk, bool right_end)
{
    tw_spot head = tw_face_frame(s->head).out, outward = { right_end ? 1.0 : -1.0, 0, 0 };
    tw_spot middle = { right_end ? s->a.length_mm - s->p : s->p, s->a.width_mm / 2.0, s->a.thickness_mm / 2.0 };
    tw_spot tip = tw_spot_less(middle, tw_spot_times(head, s->D / 2.0 + s->tip));
    return tw_lodge_pose(tusk, tw_spot_plus(tip, tw_spot_times(outward, tusk.thickness_mm / 2.0)), head, outward);
}

void tw_single_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s)
{
    int part = tw_lodge_part(plan, "tusk");
    if (part < 0) return;
    for (size_t i = 0; i < plan->meeting_count; i++) {
        const tw_meeting *meeting = &plan->meetings[i];
        tw_pose in_tenon = tusk_in_tenon(s, plan->parts[part].finished, meeting->end == TW_SIDE_RIGHT_END);
        tw_pose pose = tw_pose_compose(meeting->pose, in_tenon);
        tw_plan_lodging(context, plan, (tw_lodging){ .part = part, .meeting = (int)i, .pose = pose, .leaves = pose.x,
            .travel_mm = s->D + s->tip });
    }
}
