// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: how the tenoned piece stands in the mortised one. It comes in at `from` with its shoulder on that side
 * and goes out again the same way. A haunch looks to the end of the mortised piece where its groove is, so the tenoned
 * piece is turned half a turn where that end is the other one. With `half turn` every second place is the first one turned
 * round, the piece with it. A tenon that leans comes out along its own axis. */
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
    bool turned = m->lean.half_turn && place % 2 == 1;
    tw_mortise_site site = { .x = at, .up = turned ? m->e - m->across : m->across, .place = place, .turned = turned };
    tw_pose pose = tw_mortise_pose(m, end, site, is_reversed(m, at));
    tw_spot leaves = m->lean.leans ? (end == TW_SIDE_LEFT_END ? pose.x : tw_spot_times(pose.x, -1.0)) : tw_face_frame(m->from).out;
    tw_plan_meeting(context, plan, (tw_meeting){ .mover = m->spec->tenon.index, .base = m->spec->into.index, .end = end, .place = place,
        .pose = pose, .leaves = leaves, .travel_mm = 2.0 * m->l - tw_mortise_shoulder_room(m),
        .held_by = m->glued ? "glue" : tw_mortise_peg_possible(m) ? "pegs" : "", .for_good = m->glued });
}

void tw_mortise_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    for (int place = 0; place < m->spec->at.count; place++) {
        if (m->spec->ends.value != TW_TENON_RIGHT) add_meeting(context, plan, m, TW_SIDE_LEFT_END, place);
        if (m->spec->ends.value != TW_TENON_LEFT) add_meeting(context, plan, m, TW_SIDE_RIGHT_END, place);
    }
}
