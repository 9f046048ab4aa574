// SPDX-License-Identifier: GPL-3.0-or-later
/* What the wood of a piece says once all its cuts are in it: short grain, and a piece that falls in two. */
#include "check/check.h"

#include <string.h>

#include "check/wood.h"
#include "piece/grain.h"
#include "piece/sections.h"

#define HOLD_HALT 0.5      // below: half of what is called short grain already
#define BESIDE_MIDDLE 0.4871  // of the thickness: the middle itself is often where two cuts meet
#define CUTS_MOST 2000     // of a piece that is looked at: each meets each
#define TOLD_MOST 3        // regions of one piece that are told

/* Where in the piece, as a maker measures it. */
const char *tw_wood_place(const tw_joint_context *context, tw_block box)
{
    return tw_format(context->arena, "%s from the left end, %s from the face edge, %s from the back", tw_say(context, (box.least.x + box.most.x) / 2.0),
                     tw_say(context, (box.least.y + box.most.y) / 2.0), tw_say(context, (box.least.z + box.most.z) / 2.0));
}

/* The later of two joints: the one that was put where it is too near. A bound of -1 is an end. */
const tw_joint *tw_wood_joint(const tw_wood_of *wood, int one, int other)
{
    int a = one < 0 ? -1 : wood->cuts.cuts[one].joint, b = other < 0 ? -1 : wood->cuts.cuts[other].joint;
    return &wood->context->job->joints[a > b ? a : b];
}

/* ---- short grain ---- */

/* Does the joint's own check say it already? Its codes tell of what is too near to something. */
static bool told_of_joint(const tw_findings *findings, const tw_joint *joint)
{
    static const char *const words[] = { "relish", "off-piece", "near", "meet", "short-grain" };
    for (size_t i = 0; i < findings->count; i++) {
        const tw_finding *f = &findings->items[i];
        if (f->level == TW_NOTE || strcmp(f->about, joint->name) != 0) continue;
        for (size_t k = 0; k < sizeof words / sizeof *words; k++)
            if (strstr(f->code, words[k])) return true;
    }
    return false;
}

static const char *remedy_of(const tw_wood_of *wood, const tw_short_grain *r, double more_mm)
{
    const tw_joint_context *c = wood->context;
    const char *by = tw_say(c, more_mm);
    if (r->from_cut < 0 || r->to_cut < 0)
        return tw_format(c->arena, "move %s %s or more away from that end, make the cut less deep, or leave the piece longer and cut it off when all is done",
                         tw_wood_joint(wood, r->from_cut, r->to_cut)->name, by);
    return tw_format(c->arena, "move the two cuts %s or more apart, or make them less deep", by);
}

/* What stands between two cuts of one joint is in its own proportions: of it only what is far too short is told. */
static bool of_one_joint(const tw_wood_of *wood, const tw_short_grain *r)
{
    const tw_cut *cuts = wood->cuts.cuts;
    return r->from_cut >= 0 && r->to_cut >= 0 && cuts[r->from_cut].joint == cuts[r->to_cut].joint;
}

static void say_short_grain(const tw_wood_of *wood, const tw_short_grain *r)
{
    const tw_joint_context *c = wood->context;
    const tw_joint *joint = tw_wood_joint(wood, r->from_cut, r->to_cut);
    if (told_of_joint(c->findings, joint) || (of_one_joint(wood, r) && r->hold >= HOLD_HALT)) return;
    double along = r->volume_mm3 / r->area_mm2, high = along / r->hold;
    tw_find(c->findings, r->hold < HOLD_HALT ? TW_HALT : TW_CARE, joint->place, "short-grain", wood->piece->name,
        tw_format(c->arena, "in %s the wood between %s and %s is short grain: %s along the grain but %s high, so it may split off (about %s)", wood->piece->name,
                  tw_bound_words(c->arena, c->job, wood->cuts.cuts, r->from_cut, true), tw_bound_words(c->arena, c->job, wood->cuts.cuts, r->to_cut, false),
                  tw_say(c, along), tw_say(c, high), tw_wood_place(c, r->box)),
        remedy_of(wood, r, high - along));
}

static void check_short_grain(const tw_wood_of *wood)
{
    tw_arena scratch = { .out_of_memory = wood->context->arena->out_of_memory };
    tw_grain grain = tw_grain_short(&scratch, wood->size, wood->cuts.cuts, wood->cuts.count, TW_GRAIN_STEP_MM);
    for (int i = 0; i < grain.region_count && i < TOLD_MOST; i++) say_short_grain(wood, &grain.regions[i]);
    tw_arena_finish(&scratch);
}

/* ---- a piece that falls in two ---- */

/* Could the cuts at x take the whole section, also its middle? Only then is it reckoned. */
static bool may_be_severed(tw_wood *wood, double x)
{
    int count = 0;
    double taken = 0.0;
    for (int i = 0; i < wood->cut_count; i++) {
        tw_block b = wood->blocks[i];
        if (b.least.x < x && b.most.x > x) taken += (b.most.y - b.least.y) * (b.most.z - b.least.z);
    }
    if (taken < wood->size.width_mm * wood->size.thickness_mm * (1.0 - 1e-9)) return false;
    tw_wood_runs(wood, TW_AXIS_Y, (tw_spot){ x, 0.0, BESIDE_MIDDLE * wood->size.thickness_mm }, &count);
    return count == 0;
}

/* Which cut begins the gap. */
static int cut_at(const tw_wood *wood, double x)
{
    for (int i = wood->cut_count - 1; i >= 0; i--)
        if (wood->blocks[i].least.x < x && wood->blocks[i].most.x > x) return i;
    return -1;
}

static void check_severed(const tw_wood_of *of)
{
    const tw_joint_context *c = of->context;
    tw_arena scratch = { .out_of_memory = c->arena->out_of_memory };
    tw_wood wood = tw_wood_make(&scratch, of->size, of->cuts.cuts, of->cuts.count);
    tw_marks marks = tw_marks_of_wood(&wood, TW_AXIS_X);
    bool wood_before = false;
    double gap = -1.0;
    for (size_t i = 0; i + 1 < marks.count; i++) {
        double x = (marks.at[i] + marks.at[i + 1]) / 2.0;
        bool empty = may_be_severed(&wood, x) && tw_slice_at(&wood, x).area_mm2 == 0.0;
        if (empty && wood_before && gap < 0.0) gap = x;
        if (empty) continue;
        if (gap >= 0.0) {
            int cut = cut_at(&wood, gap);
            const tw_joint *joint = &c->job->joints[of->cuts.cuts[cut].joint];
            tw_find(c->findings, TW_HALT, joint->place, "piece-severed", of->piece->name,
                tw_format(c->arena, "%s is cut in two, %s from its left end: %s leaves nothing there", of->piece->name, tw_say(c, gap),
                          tw_bound_words(c->arena, c->job, of->cuts.cuts, cut, true)),
                "make the cut less deep or narrower, or move it away from the cuts beside it");
            break;
        }
        wood_before = true;
    }
    tw_arena_finish(&scratch);
}

void tw_check_wood(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    tw_piece_cuts *cuts = tw_piece_cuts_gather(context->arena, context->job, plans, plan_count);
    for (int i = 0; i < context->job->piece_count; i++) {
        if (cuts[i].count == 0 || cuts[i].count > CUTS_MOST) continue;
        tw_wood_of wood = { context, &context->job->pieces[i], tw_piece_size(&context->job->pieces[i]), cuts[i] };
        check_severed(&wood);
        check_short_grain(&wood);
    }
}
