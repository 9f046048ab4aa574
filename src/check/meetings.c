// SPDX-License-Identifier: GPL-3.0-or-later
/* Cuts of different joints in one piece: those that take the same wood, those that touch or leave a thin web between them, and
 * cuts that leave a thin wall to a side of the piece. What blocks around the cuts cannot rule out is reckoned on lines through
 * the true shapes (piece/between.h). What two cuts of one joint do to each other is the joint's own affair, and what profiles do
 * is looked at beside them. */
#include "check/check.h"

#include <stdlib.h>
#include <string.h>

#include "check/wood.h"
#include "piece/between.h"

#define TOUCH_MM 0.01        // blocks that share less than this only touch
#define WEB_GOOD_MM 3.0      // between two cuts, or a cut and a side: common practice for hardwood that nothing presses on
#define WEB_LEAST_MM 1.0     // below, it breaks out while it is cut
#define WALL_AREA_MM2 4.0    // what is thin over less than this is an edge that runs out
#define PAIRS_MOST 2000000   // comparisons for a piece; a piece that needs more is far over the limits of a shop

typedef struct sorted { int cut; double least_x; } sorted;

static int by_x(const void *left, const void *right)
{
    const sorted *a = left, *b = right;
    if (a->least_x != b->least_x) return a->least_x < b->least_x ? -1 : 1;
    return (a->cut > b->cut) - (a->cut < b->cut);
}

static double apart(tw_block a, tw_block b, tw_axis axis)
{
    return tw_max(tw_along(a.least, axis), tw_along(b.least, axis)) - tw_min(tw_along(a.most, axis), tw_along(b.most, axis));
}

/* ---- words ---- */

static const char *both_words(const tw_wood_of *of, int a, int b)
{
    const tw_joint_context *c = of->context;
    bool turned = of->cuts.cuts[a].joint > of->cuts.cuts[b].joint;
    return tw_format(c->arena, "%s and %s", tw_bound_words(c->arena, c->job, of->cuts.cuts, turned ? b : a, true), tw_bound_words(c->arena, c->job, of->cuts.cuts, turned ? a : b, true));
}

static void say_share(const tw_wood_of *of, int a, int b, tw_block box)
{
    const tw_joint_context *c = of->context;
    tw_find(c->findings, TW_HALT, tw_wood_joint(of, a, b)->place, "cuts-meet", of->piece->name,
        tw_format(c->arena, "in %s %s meet, about %s: both take the same %s along, %s across and %s deep", of->piece->name, both_words(of, a, b), tw_wood_place(c, box),
                  tw_say(c, box.most.x - box.least.x), tw_say(c, box.most.y - box.least.y), tw_say(c, box.most.z - box.least.z)),
        "move one of the two joints, or make their cuts less deep");
}

static void say_web(const tw_wood_of *of, int a, int b, const tw_between *web)
{
    const tw_joint_context *c = of->context;
    const char *both = both_words(of, a, b), *where = tw_wood_place(c, web->box);
    const char *what = web->least_mm < TOUCH_MM ? tw_format(c->arena, "in %s %s meet in the middle and break into each other, about %s", of->piece->name, both, where)
                                                : tw_format(c->arena, "in %s only %s of wood stands between %s, about %s", of->piece->name, tw_say(c, web->least_mm), both, where);
    tw_find(c->findings, web->least_mm < WEB_LEAST_MM ? TW_HALT : TW_CARE, tw_wood_joint(of, a, b)->place, "web-thin", of->piece->name, what,
        tw_format(c->arena, "make them %s less deep together, or move one along the piece until it is clear of the other", tw_say(c, WEB_GOOD_MM - web->least_mm)));
}

/* ---- pairs ---- */

/* Blocks that face each other across the grain: the axis along which wood can stand between them, or X for none. */
static tw_axis facing(tw_block a, tw_block b)
{
    if (apart(a, b, TW_AXIS_X) > -TOUCH_MM) return TW_AXIS_X;
    double y = apart(a, b, TW_AXIS_Y), z = apart(a, b, TW_AXIS_Z);
    if (y > -TOUCH_MM && y < WEB_GOOD_MM && z < -TOUCH_MM) return TW_AXIS_Y;
    if (z > -TOUCH_MM && z < WEB_GOOD_MM && y < -TOUCH_MM) return TW_AXIS_Z;
    return TW_AXIS_X;
}

static bool meet(tw_block a, tw_block b)
{
    return apart(a, b, TW_AXIS_X) < -TOUCH_MM && apart(a, b, TW_AXIS_Y) < -TOUCH_MM && apart(a, b, TW_AXIS_Z) < -TOUCH_MM;
}

/* True when something was said of the two. */
static bool look_at_pair(const tw_wood_of *of, tw_wood *wood, int a, int b)
{
    tw_block one = wood->blocks[a], two = wood->blocks[b];
    tw_axis axis = facing(one, two);
    if (meet(one, two)) {
        tw_shared shared = tw_cuts_share(wood, a, b);
        if (shared.volume_mm3 > TW_TOUCH_SHARE_MM3) {
            say_share(of, a, b, shared.box);
            return true;
        }
    }
    for (int k = TW_AXIS_Y; k <= TW_AXIS_Z; k++) {
        if (!meet(one, two) && axis != (tw_axis)k) continue;  // blocks that meet may face each other either way
        tw_between web = tw_cuts_between(wood, a, b, (tw_axis)k, WEB_GOOD_MM - TOUCH_MM);
        if (!web.found || web.area_mm2 < WALL_AREA_MM2) continue;
        say_web(of, a, b, &web);
        return true;
    }
    return false;
}

static void check_pairs(const tw_wood_of *of, tw_wood *wood, const bool *profile)
{
    sorted *order = TW_NEW_ARRAY(wood->arena, sorted, (size_t)wood->cut_count + 1);
    for (int i = 0; i < wood->cut_count; i++) order[i] = (sorted){ i, wood->blocks[i].least.x };
    qsort(order, (size_t)wood->cut_count, sizeof *order, by_x);
    long pairs = 0;
    for (int i = 0; i < wood->cut_count; i++)
        for (int j = i + 1; j < wood->cut_count && order[j].least_x < wood->blocks[order[i].cut].most.x; j++) {
            int a = order[i].cut, b = order[j].cut;
            if (++pairs > PAIRS_MOST) return;
            if (of->cuts.cuts[a].joint == of->cuts.cuts[b].joint || profile[a] || profile[b]) continue;
            if (look_at_pair(of, wood, a, b)) break;  // one finding for each cut: the rest follows from it
        }
}

/* ---- walls to the sides ---- */

/* Does the joint's own check tell of a wall, a floor or a breaking out already? */
static bool told_of_wall(const tw_findings *findings, const tw_joint *joint)
{
    static const char *const words[] = { "wall", "floor", "through", "break", "thin", "deep", "edge", "side", "web", "off-piece" };
    for (size_t i = 0; i < findings->count; i++) {
        const tw_finding *f = &findings->items[i];
        if (f->level == TW_NOTE || strcmp(f->about, joint->name) != 0) continue;
        for (size_t k = 0; k < sizeof words / sizeof *words; k++)
            if (strstr(f->code, words[k])) return true;
    }
    return false;
}

static const char *side_word(tw_axis axis, bool low)
{
    if (axis == TW_AXIS_Y) return low ? "face edge" : "back edge";
    return low ? "back" : "face";
}

static void look_at_side(const tw_wood_of *of, tw_wood *wood, int cut, tw_axis axis, bool low)
{
    const tw_joint_context *c = of->context;
    const tw_joint *joint = &c->job->joints[of->cuts.cuts[cut].joint];
    double room = low ? tw_along(wood->blocks[cut].least, axis) : tw_extent_along(of->size, axis) - tw_along(wood->blocks[cut].most, axis);
    if (room < TOUCH_MM || room > WEB_GOOD_MM - TOUCH_MM || told_of_wall(c->findings, joint)) return;
    tw_between wall = tw_cuts_between(wood, cut, low ? -1 : -2, axis, WEB_GOOD_MM - TOUCH_MM);
    if (!wall.found || wall.area_mm2 < WALL_AREA_MM2) return;
    tw_find(c->findings, wall.least_mm < WEB_LEAST_MM ? TW_HALT : TW_CARE, joint->place, "wall-thin", of->piece->name,
        tw_format(c->arena, "in %s only %s of wood stands between %s and the %s, about %s: it breaks out as it is cut or when it is driven", of->piece->name, tw_say(c, wall.least_mm),
                  tw_bound_words(c->arena, c->job, of->cuts.cuts, cut, true), side_word(axis, low), tw_wood_place(c, wall.box)),
        tw_format(c->arena, "move the cut %s away from the %s or make it that much smaller there, or let it go through", tw_say(c, WEB_GOOD_MM - wall.least_mm), side_word(axis, low)));
}

static void check_sides(const tw_wood_of *of, tw_wood *wood, const bool *profile)
{
    for (int i = 0; i < wood->cut_count; i++)
        for (int k = 0; k < 4 && !profile[i]; k++) look_at_side(of, wood, i, k < 2 ? TW_AXIS_Y : TW_AXIS_Z, k % 2 == 0);
}

void tw_check_meetings(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    tw_arena scratch = { .out_of_memory = context->arena->out_of_memory };
    tw_piece_cuts *cuts = tw_piece_cuts_gather(&scratch, context->job, plans, plan_count);
    for (int i = 0; i < context->job->piece_count; i++) {
        if (cuts[i].count == 0) continue;
        tw_wood_of of = { context, &context->job->pieces[i], tw_piece_size(&context->job->pieces[i]), cuts[i] };
        tw_wood wood = tw_wood_make(&scratch, of.size, of.cuts.cuts, of.cuts.count);
        bool *profile = TW_NEW_ARRAY(&scratch, bool, (size_t)of.cuts.count);
        for (int k = 0; k < of.cuts.count; k++) profile[k] = plans[of.cuts.cuts[k].joint].profile;
        check_pairs(&of, &wood, profile);
        check_sides(&of, &wood, profile);
    }
    tw_arena_finish(&scratch);
}
