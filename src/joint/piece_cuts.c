// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/piece_cuts.h"

tw_piece_cuts *tw_piece_cuts_gather(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count)
{
    tw_piece_cuts *all = TW_NEW_ARRAY(arena, tw_piece_cuts, (size_t)job->piece_count + 1);
    for (int p = 0; p < plan_count; p++)
        for (size_t i = 0; i < plans[p].cut_count; i++) all[plans[p].cuts[i].piece].count++;
    for (int i = 0; i < job->piece_count; i++) {
        all[i].cuts = TW_NEW_ARRAY(arena, tw_cut, (size_t)all[i].count + 1);
        all[i].count = 0;
    }
    for (int p = 0; p < plan_count; p++)
        for (size_t i = 0; i < plans[p].cut_count; i++) {
            tw_piece_cuts *of = &all[plans[p].cuts[i].piece];
            of->cuts[of->count] = plans[p].cuts[i];
            of->cuts[of->count++].joint = p;
        }
    return all;
}

const char *tw_bound_words(tw_arena *arena, const tw_job *job, const tw_cut *cuts, int cut, bool at_left)
{
    if (cut < 0) return at_left ? "the left end" : "the right end";
    return tw_format(arena, "the %s of %s", cuts[cut].name, job->joints[cuts[cut].joint].name);
}
