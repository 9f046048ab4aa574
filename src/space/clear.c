// SPDX-License-Identifier: GPL-3.0-or-later
/* Whether pieces stand in each other.
 *
 * A block that goes along a way sweeps a body with four directions (its three axes and the way), each with half an extent
 * as a vector g; a block that stands has three. Two such bodies, centres c apart, are apart along n when
 *     |c.n| > sum of |g_i.n| over the directions of both                                                     (1)
 * and for bodies of this kind it is enough to look along the directions n = g_i x g_j: they are parted if one of them
 * parts them (separating axes; the difference of two zonotopes is one, and these are the normals of its faces).
 * The least of (sum - |c.n|) / |n| is how far they reach into each other. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "space/parts.h"

#define FLAT 1e-9   // directions that are parallel have no normal

typedef struct body { tw_spot centre, half[4]; int count; } body;

static body body_of(tw_block block, tw_pose pose, tw_spot sweep)
{
    tw_spot size = tw_spot_times(tw_spot_less(block.most, block.least), 0.5);
    body b = { .centre = tw_pose_apply(pose, tw_spot_plus(block.least, size)), .count = 3 };
    b.half[0] = tw_spot_times(pose.x, size.x);
    b.half[1] = tw_spot_times(pose.y, size.y);
    b.half[2] = tw_spot_times(pose.z, size.z);
    if (tw_spot_product(sweep, sweep) == 0.0) return b;
    b.half[3] = tw_spot_times(sweep, 0.5);
    b.centre = tw_spot_plus(b.centre, b.half[3]);
    b.count = 4;
    return b;
}

static double deep_mm(const body *a, const body *b)
{
    tw_spot all[8], apart = tw_spot_less(b->centre, a->centre);
    int count = 0;
    double least = INFINITY;
    for (int i = 0; i < a->count; i++) all[count++] = a->half[i];
    for (int i = 0; i < b->count; i++) all[count++] = b->half[i];
    for (int i = 0; i < count; i++)
        for (int j = i + 1; j < count; j++) {
            tw_spot n = tw_spot_cross(all[i], all[j]);
            double size = tw_spot_size(n), sum = 0.0;
            if (size <= FLAT * tw_spot_size(all[i]) * tw_spot_size(all[j])) continue;
            for (int k = 0; k < count; k++) sum += fabs(tw_spot_product(all[k], n));
            least = tw_min(least, (sum - fabs(tw_spot_product(apart, n))) / size);
        }
    return least;
}

double tw_blocks_deep_mm(tw_block a, tw_pose at, tw_spot sweep, tw_block b, tw_pose stands)
{
    body moving = body_of(a, at, sweep), standing = body_of(b, stands, (tw_spot){ 0, 0, 0 });
    return deep_mm(&moving, &standing);
}

double tw_instances_deep_mm(const tw_space *space, const tw_shape *shapes, int a, int b, tw_spot sweep)
{
    const tw_instance *one = &space->instances[a], *other = &space->instances[b];
    const tw_shape *mine = &shapes[one->piece], *yours = &shapes[other->piece];
    double most = -INFINITY;
    for (int i = 0; i < mine->block_count; i++) {
        body moving = body_of(mine->blocks[i], one->pose, sweep);
        for (int j = 0; j < yours->block_count; j++) {
            body standing = body_of(yours->blocks[j], other->pose, (tw_spot){ 0, 0, 0 });
            most = tw_max(most, deep_mm(&moving, &standing));
        }
    }
    return most;
}

/* ---- all pairs ---- */

void tw_block_reach(tw_block *all, tw_pose pose, tw_block block)
{
    tw_spot half = tw_spot_times(tw_spot_less(block.most, block.least), 0.5), middle = tw_pose_apply(pose, tw_spot_plus(block.least, half));
    tw_spot by = { fabs(pose.x.x) * half.x + fabs(pose.y.x) * half.y + fabs(pose.z.x) * half.z,
                   fabs(pose.x.y) * half.x + fabs(pose.y.y) * half.y + fabs(pose.z.y) * half.z,
                   fabs(pose.x.z) * half.x + fabs(pose.y.z) * half.y + fabs(pose.z.z) * half.z };
    tw_spot least = tw_spot_less(middle, by), most = tw_spot_plus(middle, by);
    all->least = (tw_spot){ tw_min(all->least.x, least.x), tw_min(all->least.y, least.y), tw_min(all->least.z, least.z) };
    all->most = (tw_spot){ tw_max(all->most.x, most.x), tw_max(all->most.y, most.y), tw_max(all->most.z, most.z) };
}

tw_block tw_instance_block(const tw_space *space, int instance)
{
    const tw_instance *i = &space->instances[instance];
    const tw_shape *shape = &space->shapes[i->piece];
    tw_block all = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };
    for (int k = 0; k < shape->block_count; k++) tw_block_reach(&all, i->pose, shape->blocks[k]);
    return all;
}

typedef struct extent { tw_block block; int instance; } extent;

static int by_left_border(const void *left, const void *right)
{
    const extent *a = left, *b = right;
    if (a->block.least.x != b->block.least.x) return a->block.least.x < b->block.least.x ? -1 : 1;
    return (a->instance > b->instance) - (a->instance < b->instance);
}

bool tw_boxes_meet(tw_block a, tw_block b)
{
    return tw_min(a.most.x, b.most.x) - tw_max(a.least.x, b.least.x) > TW_TOUCH_MM && tw_min(a.most.y, b.most.y) - tw_max(a.least.y, b.least.y) > TW_TOUCH_MM &&
           tw_min(a.most.z, b.most.z) - tw_max(a.least.z, b.least.z) > TW_TOUCH_MM;
}

static bool are_tied(const tw_placing *p, int a, int b)
{
    for (int i = 0; i < p->ties_at_count[a]; i++)
        if (tw_tie_other(&p->space->ties[p->ties_at[a][i]], a) == b) return true;
    return false;
}

static void look_at(tw_placing *p, int a, int b)
{
    tw_space *space = p->space;
    const tw_spot still = { 0, 0, 0 };
    int low = a < b ? a : b, high = a < b ? b : a;
    double deep = tw_instances_deep_mm(space, space->shapes, low, high, still);
    if (deep <= TW_TOUCH_MM) return;
    tw_clash clash = { .a = low, .b = high, .deep_mm = deep };
    bool rough = space->lean[space->instances[a].piece].blank || space->lean[space->instances[b].piece].blank;
    clash.sure = !rough && tw_instances_deep_mm(space, space->lean, low, high, still) > TW_TOUCH_MM;
    if (clash.sure) space->nets[space->instances[a].net].clear = false;
    tw_array_make_room(p->arena, &space->clashes, space->clash_count, &space->clash_room, sizeof clash);
    space->clashes[space->clash_count++] = clash;
}

/* Nets stand beside each other: along x only neighbours can meet. A net that does not close is not looked at. */
void tw_space_clear(tw_placing *p)
{
    tw_space *space = p->space;
    extent *extents = TW_NEW_ARRAY(p->arena, extent, (size_t)space->instance_count);
    size_t count = 0;
    for (int i = 0; i < space->instance_count; i++)
        if (space->nets[space->instances[i].net].closed) extents[count++] = (extent){ tw_instance_block(space, i), i };
    qsort(extents, count, sizeof *extents, by_left_border);
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count && extents[j].block.least.x < extents[i].block.most.x; j++)
            if (tw_boxes_meet(extents[i].block, extents[j].block) && !are_tied(p, extents[i].instance, extents[j].instance))
                look_at(p, extents[i].instance, extents[j].instance);
}
