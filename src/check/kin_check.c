// SPDX-License-Identifier: GPL-3.0-or-later
/* Entries of a job that come out alike, and those that are left and right of each other. */
#include "check/check.h"

#include "joint/kin.h"

static int count_alike(const tw_job *job, const tw_kin *kin, int first)
{
    int count = 0;
    for (int i = first; i >= 0; i = kin[i].next) count += (int)job->pieces[i].count.value;
    return count;
}

/* How the second of two is laid to be the first, when it is not as it lies. */
static const char *turned_words(tw_joint_context *c, const tw_kin *kin, int first)
{
    for (int i = kin[first].next; i >= 0; i = kin[i].next) {
        const char *words = tw_symmetry_words(kin[i].how);
        if (*words) return tw_format(c->arena, " (%s %s)", c->job->pieces[i].name, words);
    }
    return "";
}

static void say_alike(tw_joint_context *c, const tw_kin *kin, int first)
{
    const tw_piece *piece = &c->job->pieces[first];
    if (kin[first].entries < 2) return;
    const char *others = tw_kin_alike_words(c->arena, c->job, kin, first);
    tw_find(c->findings, TW_NOTE, piece->place, "pieces-alike", piece->name,
        tw_format(c->arena, "%s and %s come out alike%s: any of them fits in each other's place, and one cut after the other is made in all of them with one setting", piece->name, others,
                  turned_words(c, kin, first)),
        tw_format(c->arena, "where the joints allow it they can be one piece with a count of %d", count_alike(c->job, kin, first)));
}

static void say_mirrored(tw_joint_context *c, const tw_kin *kin, int first)
{
    const tw_piece *piece = &c->job->pieces[first];
    if (kin[first].mirror <= first) return;
    tw_find(c->findings, TW_NOTE, piece->place, "pieces-mirrored", piece->name,
        tw_format(c->arena, "%s and %s are mirror images: left and right, not to be taken for each other", piece->name, tw_kin_mirror_words(c->arena, c->job, kin, first)),
        "mark them left and right before the first cut");
}

void tw_check_kin(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    tw_arena scratch = { .out_of_memory = context->arena->out_of_memory };
    tw_piece_cuts *cuts = tw_piece_cuts_gather(&scratch, context->job, plans, plan_count);
    tw_kin *kin = tw_kin_make(&scratch, context->job, cuts);
    for (int i = 0; i < context->job->piece_count; i++) {
        if (kin[i].like != i) continue;
        say_alike(context, kin, i);
        say_mirrored(context, kin, i);
    }
    tw_arena_finish(&scratch);
}
