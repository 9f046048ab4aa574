// SPDX-License-Identifier: GPL-3.0-or-later
/* Checks over all joints of a job that need no geometry; meetings.c and wood_check.c look at the cuts. */
#include "check/check.h"

#include "mech/mech.h"

static void check_timber(tw_joint_context *context, const tw_piece *piece)
{
    if (!piece->timber.given) return;
    const char *nearest = NULL;
    if (tw_timber_find(context->arena, piece->timber.text, &nearest)) return;
    tw_find(context->findings, TW_CARE, piece->timber.place, "timber-unknown", piece->name,
        tw_format(context->arena, "the handbook's table has no timber named %s: movement and strength cannot be reckoned for it", piece->timber.text),
        nearest ? tw_format(context->arena, "%s is meant?", nearest) : "a name of data/wood.tsv, such as Oak, white");
    const char *const path[] = { "pieces", piece->name, "timber" };
    if (nearest) tw_find_fix(context->findings, tw_format(context->arena, "Write `timber: %s`", nearest), TW_FILE_JOB, path, 3,
        nearest);
}

static void check_idle_pieces(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    bool *used = TW_NEW_ARRAY(context->arena, bool, (size_t)context->job->piece_count);
    for (int i = 0; i < plan_count; i++)
        for (size_t j = 0; j < plans[i].meeting_count; j++) used[plans[i].meetings[j].mover] = used[plans[i].meetings[j].base] = true;  // what is housed whole has no cut
    if (tw_findings_have(context->findings, TW_HALT)) return;  // a joint that was refused has no cuts
    for (int i = 0; i < context->job->piece_count; i++)
        if (!used[i])
            tw_find(context->findings, TW_NOTE, context->job->pieces[i].place, "piece-without-joint", context->job->pieces[i].name,
                tw_format(context->arena, "%s takes part in no joint", context->job->pieces[i].name), "");
}

void tw_check_whole(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    for (int i = 0; i < context->job->piece_count; i++) check_timber(context, &context->job->pieces[i]);
    tw_check_meetings(context, plans, plan_count);
    check_idle_pieces(context, plans, plan_count);
}
