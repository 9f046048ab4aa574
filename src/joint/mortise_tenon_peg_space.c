// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: the pegs as they are once home, and where they sit.
 *
 *        head 2 d        e, the mortised piece         taper 2 d
 *     [===========|===============================|============]     the blank: round, d thick
 *
 * Home, its taper is sawn off level; so is the head where the joint is glued, and where it comes apart again the head stays.
 * The middle of a peg is that of the cheeks' holes: the tenon's hole, nearer to the shoulder by the offset, gives way with it. */
#include "joint/lodge.h"
#include "joint/mortise_tenon.h"

void tw_mortise_peg_shape(tw_arena *arena, const tw_mortise *m, tw_part *part)
{
    tw_size blank = part->finished;
    double over = TW_MORTISE_PEG_TAPER * m->peg;
    tw_outline all = tw_outline_rectangle(arena, -1.0, -1.0, m->peg + 1.0, m->peg + 1.0);
    tw_outline round = tw_outline_circle(arena, (tw_point){ 0, 0 }, m->peg / 2.0);
    const tw_cut cuts[] = {
        tw_lodge_turned(arena, blank, TW_SIDE_LEFT_END, blank.length_mm, round),
        { .piece = -1, .joint = -1, .name = "taper sawn off", .face = TW_SIDE_LEFT_END, .outline = all, .depth_mm = over },
        { .piece = -1, .joint = -1, .name = "head sawn off", .face = TW_SIDE_RIGHT_END, .outline = all, .depth_mm = over } };
    tw_lodge_cuts(arena, part, cuts, m->glued ? 3 : 2);
}

/* One peg: it stands in the mortised piece, its axis square to the side that it is driven from. */
static void lodge(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, int part, size_t meeting, double along)
{
    tw_size blank = plan->parts[part].finished;
    tw_face face = tw_mortise_peg_face(m);
    tw_frame frame = tw_face_frame(face);
    double at = m->spec->at.items[plan->meetings[meeting].place].value;
    tw_point hole = tw_mortise_peg_place(m, at, along);
    tw_spot end = tw_face_spot(m->b, face, hole.x, hole.y, m->e + TW_MORTISE_PEG_TAPER * m->peg);
    tw_pose pose = tw_lodge_pose(blank, end, frame.out, frame.up);
    tw_plan_lodging(context, plan, (tw_lodging){ .part = part, .meeting = (int)meeting, .pose = pose, .leaves = frame.out,
        .travel_mm = m->e });
}

void tw_mortise_peg_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    double along[TW_MORTISE_PEGS_MOST];
    int part = tw_lodge_part(plan, "peg"), pegs = part < 0 ? 0 : tw_mortise_peg_spots(m, along);
    for (size_t i = 0; i < plan->meeting_count; i++)
        for (int j = 0; j < pegs; j++) lodge(context, plan, m, part, i, along[j]);
}
