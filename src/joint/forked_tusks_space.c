// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks: how the tenoned piece stands in the mortised one. The tenon comes in at `from` with its shoulder on that
 * side and goes out again the same way, once the tusks are out. The heads of the tusks point to the right end of the
 * mortised piece when the tenon lies along it, whichever edge of the tenoned piece they stand at. */
#include "joint/forked_tusks.h"

#include <math.h>

#include "joint/lodge.h"
#include "piece/pose.h"

static void add_meeting(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, tw_face end, int place)
{
    tw_end_stand stand = { .end = end, .inset_mm = f->T + f->p, .middle_y = f->tenon_size.width_mm / 2.0, .middle_z = f->tenon_size.thickness_mm / 2.0,
        .from = (tw_face)f->spec->from.value, .at_mm = f->spec->at.items[place].value, .across_mm = f->across, .along = f->spec->lies.value == 0,
        .reversed = f->spec->heads_to.value == 0 };
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = f->spec->tenon.index, .base = f->spec->through.index, .end = end, .place = place,
        .pose = tw_end_pose(f->tenon_size, f->through_size, &stand), .leaves = tw_face_frame(stand.from).out, .travel_mm = stand.inset_mm, .held_by = "tusks" });
}

void tw_forked_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    for (int place = 0; place < f->spec->at.count; place++) {
        if (f->spec->ends.value != TW_ENDS_RIGHT) add_meeting(context, plan, f, TW_SIDE_LEFT_END, place);
        if (f->spec->ends.value != TW_ENDS_LEFT) add_meeting(context, plan, f, TW_SIDE_RIGHT_END, place);
    }
}

/* ---- the tusk, and where it sits ---- */

/* In its own frame: x from the tip to the head, y across the legs, z = 0 the straight side that bears. The ramp is what the
 * slope leaves: z = k + (x - tip - w/2) tan(alpha). */
void tw_forked_tusk_cuts(tw_arena *arena, const tw_forked *f, tw_part *part)
{
    const double over = 1.0;
    double lean = tan(f->alpha), middle = part->finished.width_mm / 2.0, round = f->slot_length - f->slot / 2.0;
    const tw_vertex slot[] = { { -over, middle - f->slot / 2.0, 0 }, { round, middle - f->slot / 2.0, 1 },
                               { round, middle + f->slot / 2.0, 0 }, { -over, middle + f->slot / 2.0, 0 } };
    const tw_cut cuts[] = {
        tw_lodge_ramp(arena, part->finished, f->k - (f->tip + f->w / 2.0) * lean, lean),
        { .piece = -1, .joint = -1, .name = "slot", .face = TW_SIDE_FACE, .outline = tw_outline_of_loop(arena, slot, 4), .through = true } };
    tw_lodge_cuts(arena, part, cuts, 2);
}

/* In the tenoned piece: u runs out along it, v towards the heads' edge. */
static tw_pose tusk_in_tenon(const tw_forked *f, tw_size tusk, tw_face end)
{
    double su = end == TW_SIDE_RIGHT_END ? 1.0 : -1.0, sv = f->spec->heads_to.value == 1 ? 1.0 : -1.0;
    double outer = su > 0.0 ? f->tenon_size.length_mm - f->p : f->p;
    tw_spot tip = { outer, f->tenon_size.width_mm / 2.0 - sv * (f->w / 2.0 + f->tip), f->tenon_size.thickness_mm / 2.0 };
    tw_pose pose = tw_lodge_pose(tusk, tip, (tw_spot){ 0, sv, 0 }, (tw_spot){ su, 0, 0 });
    pose.at = tw_spot_plus(pose.at, tw_spot_times(pose.z, tusk.thickness_mm / 2.0));   // its straight side lies on the surface
    return pose;
}

void tw_forked_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    if (plan->part_count == 0) return;
    for (size_t i = 0; i < plan->meeting_count; i++) {
        const tw_meeting *meeting = &plan->meetings[i];
        tw_pose pose = tw_pose_compose(meeting->pose, tusk_in_tenon(f, plan->parts[0].finished, meeting->end));
        tw_plan_lodging(context, plan, (tw_lodging){ .part = 0, .meeting = (int)i, .pose = pose, .leaves = pose.x, .travel_mm = f->w + f->tip });
    }
}
