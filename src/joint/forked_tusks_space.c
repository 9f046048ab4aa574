// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks: how the tenoned piece stands in the mortised one. The tenon comes in at `from` with its shoulder on that
 * side and goes out again the same way, once the tusks are out. The heads of the tusks point to the right end of the
 * mortised piece when the tenon lies along it, whichever edge of the tenoned piece they stand at. */
#include "joint/forked_tusks.h"

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
