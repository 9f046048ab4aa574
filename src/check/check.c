// SPDX-License-Identifier: GPL-3.0-or-later
/* Checks over all joints of a job. Cuts are prisms: two of them meet when their shadows along x overlap and their
 * extents in the piece's frame, as boxes, do. That is safe (a meeting is never missed) and plain to read; true shapes
 * are looked at when the piece is seen as wood. */
#include "check/check.h"

#include <math.h>
#include <stdlib.h>

#include "mech/mech.h"
#include "piece/pose.h"

#define TOUCH_MM 0.01        // cuts that share less than this only touch
#define PAIRS_MOST 20000000  // comparisons; a job that needs more is far over the limits of a shop

static void check_timber(tw_joint_context *context, const tw_piece *piece)
{
    if (!piece->timber.given) return;
    const char *nearest = NULL;
    if (tw_timber_find(context->arena, piece->timber.text, &nearest)) return;
    tw_find(context->findings, TW_CARE, piece->timber.place, "timber-unknown", piece->name,
        tw_format(context->arena, "the handbook's table has no timber named %s: movement and strength cannot be reckoned for it", piece->timber.text),
        nearest ? tw_format(context->arena, "%s is meant?", nearest) : "a name of data/wood.tsv, such as Oak, white");
}

/* ---- cuts that meet ---- */

typedef struct tw_extent { double least[3], most[3]; int piece, joint; const char *name; bool leans; } tw_extent;

static tw_extent extent_of(const tw_job *job, const tw_cut *cut)
{
    tw_size size = tw_piece_size(&job->pieces[cut->piece]);
    tw_extent extent = { .least = { INFINITY, INFINITY, INFINITY }, .most = { -INFINITY, -INFINITY, -INFINITY }, .piece = cut->piece, .joint = cut->joint,
                         .name = cut->name, .leans = cut->lean_right != 0.0 || cut->lean_up != 0.0 };
    for (int loop = 0; loop < cut->outline.count; loop++) {
        tw_block block = tw_cut_block(size, cut, loop);
        const double least[3] = { block.least.x, block.least.y, block.least.z }, most[3] = { block.most.x, block.most.y, block.most.z };
        for (int i = 0; i < 3; i++) {
            extent.least[i] = tw_min(extent.least[i], least[i]);
            extent.most[i] = tw_max(extent.most[i], most[i]);
        }
    }
    return extent;
}

static bool meet(const tw_extent *a, const tw_extent *b)
{
    for (int i = 0; i < 3; i++)
        if (tw_min(a->most[i], b->most[i]) - tw_max(a->least[i], b->least[i]) < TOUCH_MM) return false;
    return true;
}

static int by_piece_then_x(const void *left, const void *right)
{
    const tw_extent *a = left, *b = right;
    if (a->piece != b->piece) return a->piece < b->piece ? -1 : 1;
    if (a->least[0] != b->least[0]) return a->least[0] < b->least[0] ? -1 : 1;
    return (a->joint > b->joint) - (a->joint < b->joint);
}

static void say_meeting(tw_joint_context *context, const tw_extent *a, const tw_extent *b)
{
    const tw_joint *first = &context->job->joints[a->joint < b->joint ? a->joint : b->joint], *second = &context->job->joints[a->joint < b->joint ? b->joint : a->joint];
    const char *piece = context->job->pieces[a->piece].name;
    bool may = a->leans || b->leans;  // a cut that leans takes less than the box around it
    tw_find(context->findings, may ? TW_CARE : TW_HALT, second->place, may ? "cuts-may-meet" : "cuts-meet", piece,
        tw_format(context->arena, "in %s the %s of %s and the %s of %s %smeet, about %s from the left end", piece, a->joint < b->joint ? a->name : b->name, first->name,
                  a->joint < b->joint ? b->name : a->name, second->name, may ? "may " : "", tw_say(context, tw_max(a->least[0], b->least[0]))),
        may ? "lay both out on the rod at full size, or move one of the two joints" : "move one of the two joints, or make their cuts less deep");
}

static void check_meetings(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    size_t most = 0, count = 0;
    for (int i = 0; i < plan_count; i++) most += plans[i].profile ? 0 : plans[i].cut_count;
    tw_extent *extents = TW_NEW_ARRAY(context->arena, tw_extent, most);
    for (int i = 0; i < plan_count; i++)
        for (size_t j = 0; j < plans[i].cut_count && !plans[i].profile; j++) extents[count++] = extent_of(context->job, &plans[i].cuts[j]);
    qsort(extents, count, sizeof *extents, by_piece_then_x);
    long pairs = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count && extents[j].piece == extents[i].piece && extents[j].least[0] < extents[i].most[0]; j++) {
            if (++pairs > PAIRS_MOST) return;
            if (extents[i].joint == extents[j].joint || !meet(&extents[i], &extents[j])) continue;
            say_meeting(context, &extents[i], &extents[j]);
            break;
        }
}

static void check_idle_pieces(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    bool *used = TW_NEW_ARRAY(context->arena, bool, (size_t)context->job->piece_count);
    for (int i = 0; i < plan_count; i++)
        for (size_t j = 0; j < plans[i].cut_count && !plans[i].profile; j++) used[plans[i].cuts[j].piece] = true;
    if (tw_findings_have(context->findings, TW_HALT)) return;  // a joint that was refused has no cuts
    for (int i = 0; i < context->job->piece_count; i++)
        if (!used[i])
            tw_find(context->findings, TW_NOTE, context->job->pieces[i].place, "piece-without-joint", context->job->pieces[i].name,
                tw_format(context->arena, "%s takes part in no joint", context->job->pieces[i].name), "");
}

void tw_check_whole(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    for (int i = 0; i < context->job->piece_count; i++) check_timber(context, &context->job->pieces[i]);
    check_meetings(context, plans, plan_count);
    check_idle_pieces(context, plans, plan_count);
}
