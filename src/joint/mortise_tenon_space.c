// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: how the tenoned piece stands in the mortised one. It comes in at `from` with its shoulder on that side
 * and goes out again the same way. A haunch looks to the end of the mortised piece where its groove is, so the tenoned
 * piece is turned half a turn where that end is the other one. */
#include "joint/mortise_tenon.h"

#include "piece/pose.h"

static bool is_reversed(const tw_mortise *m, double at_mm)
{
    if (!m->haunched) return false;
    bool haunch_at_face_edge = m->spec->haunch_at.value == 0;
    return tw_mortise_groove(m, at_mm).left != haunch_at_face_edge;  // not reversed, the face edge looks to the left end
}

static void add_meeting(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, tw_face end, int place)
{
    double at = m->spec->at.items[place].value;
    tw_end_stand stand = { .end = end, .inset_mm = m->l, .middle_y = m->y, .middle_z = m->z, .from = m->from, .at_mm = at, .across_mm = m->across,
        .along = m->along, .reversed = is_reversed(m, at) };
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = m->spec->tenon.index, .base = m->spec->into.index, .end = end, .place = place,
        .pose = tw_end_pose(m->a, m->b, &stand), .leaves = tw_face_frame(m->from).out, .travel_mm = m->l,
        .held_by = m->glued ? "glue" : tw_mortise_peg_possible(m) ? "pegs" : "", .for_good = m->glued });
}

void tw_mortise_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    for (int place = 0; place < m->spec->at.count; place++) {
        if (m->spec->ends.value != TW_TENON_RIGHT) add_meeting(context, plan, m, TW_SIDE_LEFT_END, place);
        if (m->spec->ends.value != TW_TENON_LEFT) add_meeting(context, plan, m, TW_SIDE_RIGHT_END, place);
    }
}
