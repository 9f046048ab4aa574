// SPDX-License-Identifier: GPL-3.0-or-later
/* Whether the parts of joints (tusks, pegs, bolts) have room where they sit, and a way out.
 *
 * A part is taken as the block of its blank, a piece as its wood less all cuts and the blocks around those with curves, so that
 * what is found is there for sure but for the part's own shape: the corners of a round head and the thin side of a wedge are
 * not there. Up to PART_SPARE of the blank's least side is therefore no meeting. A part that sits in the piece that is brought
 * (a cross dowel) goes with it and is not looked at; nor are the two pieces of its own joint, which have room cut for it.
 * The way out is the block swept along it; a part that stays for good needs none. */
#include <math.h>
#include <stdlib.h>

#include "space/parts.h"

#define PART_SPARE 0.2

/// A part where it sits, in the frame of the results; or a piece (tie < 0).
typedef struct body {
    int      tie, part, instance;
    tw_block blank;
    tw_pose  pose;
    tw_spot  sweep;       // zero: it stays there
    double   spare_mm;
    tw_block reach;       // with its way
} body;

typedef struct bodies { body *items; size_t count, room; } bodies;

static const tw_block no_block = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };

static void add(const tw_placing *p, bodies *all, body b)
{
    tw_array_make_room(p->arena, &all->items, all->count, &all->room, sizeof b);
    all->items[all->count++] = b;
}

static void add_part(const tw_placing *p, bodies *all, int tie_index, const tw_lodging *lodging)
{
    const tw_tie *tie = &p->space->ties[tie_index];
    const tw_part *part = &p->plans[tie->plan].parts[lodging->part];
    tw_size size = part->blank.length_mm > 0.0 ? part->blank : part->finished;
    tw_pose base = p->space->instances[tie->base].pose;
    body b = { .tie = tie_index, .part = lodging->part, .instance = tie->base, .blank = tw_piece_block(size), .pose = tw_pose_compose(base, lodging->pose), .reach = no_block };
    b.spare_mm = tw_max(TW_TOUCH_MM, PART_SPARE * tw_min(size.length_mm, tw_min(size.width_mm, size.thickness_mm)));
    if (!lodging->fast && !tie->meeting->for_good) b.sweep = tw_spot_times(tw_pose_turn(base, lodging->leaves), lodging->travel_mm);
    tw_block_reach(&b.reach, b.pose, b.blank);
    tw_pose out = b.pose;
    out.at = tw_spot_plus(out.at, b.sweep);
    tw_block_reach(&b.reach, out, b.blank);
    add(p, all, b);
}

static void add_parts(const tw_placing *p, bodies *all)
{
    for (size_t i = 0; i < p->space->tie_count; i++) {
        const tw_tie *tie = &p->space->ties[i];
        const tw_joint_plan *plan = &p->plans[tie->plan];
        if (!p->space->nets[p->space->instances[tie->base].net].closed) continue;
        for (size_t k = 0; k < plan->lodging_count; k++)
            if (&plan->meetings[plan->lodgings[k].meeting] == tie->meeting && !plan->lodgings[k].in_mover) add_part(p, all, (int)i, &plan->lodgings[k]);
    }
}

static void note(tw_placing *p, const body *part, const body *other, bool way, double deep)
{
    tw_space *space = p->space;
    tw_hindrance h = { .tie = part->tie, .part = part->part, .other = other->tie < 0 ? other->instance : -1, .other_tie = other->tie, .other_part = other->part, .way = way, .deep_mm = deep };
    tw_array_make_room(p->arena, &space->hindrances, space->hindrance_count, &space->hindrance_room, sizeof h);
    space->hindrances[space->hindrance_count++] = h;
}

static double deep_in_piece(const tw_space *space, const body *part, tw_spot sweep, const body *piece)
{
    const tw_shape *shape = &space->lean[space->instances[piece->instance].piece];
    double most = -INFINITY;
    for (int i = 0; i < shape->block_count && !shape->blank; i++)
        most = tw_max(most, tw_blocks_deep_mm(part->blank, part->pose, sweep, shape->blocks[i], piece->pose));
    return most;
}

static void part_and_piece(tw_placing *p, const body *part, const body *piece)
{
    const tw_tie *tie = &p->space->ties[part->tie];
    if (piece->instance == tie->mover || piece->instance == tie->base) return;
    double deep = deep_in_piece(p->space, part, (tw_spot){ 0, 0, 0 }, piece);
    if (deep > part->spare_mm) {
        note(p, part, piece, false, deep);
    } else if (tw_spot_size(part->sweep) > 0.0) {
        deep = deep_in_piece(p->space, part, part->sweep, piece);
        if (deep > part->spare_mm) note(p, part, piece, true, deep);
    }
}

static void part_and_part(tw_placing *p, const body *a, const body *b)
{
    if (a->tie == b->tie) return;
    double deep = tw_blocks_deep_mm(a->blank, a->pose, (tw_spot){ 0, 0, 0 }, b->blank, b->pose);
    if (deep > a->spare_mm && deep > b->spare_mm) note(p, a, b, false, deep);
}

static int by_left_border(const void *left, const void *right)
{
    const body *a = left, *b = right;
    if (a->reach.least.x != b->reach.least.x) return a->reach.least.x < b->reach.least.x ? -1 : 1;
    if (a->tie != b->tie) return a->tie < b->tie ? -1 : 1;
    if (a->part != b->part) return a->part < b->part ? -1 : 1;
    return (a->instance > b->instance) - (a->instance < b->instance);
}

static void look_at(tw_placing *p, const body *a, const body *b)
{
    if (!tw_boxes_meet(a->reach, b->reach)) return;
    if (a->tie >= 0 && b->tie >= 0) part_and_part(p, a, b);
    else if (a->tie >= 0) part_and_piece(p, a, b);
    else if (b->tie >= 0) part_and_piece(p, b, a);
}

void tw_space_fitted(tw_placing *p)
{
    bodies all = { 0 };
    add_parts(p, &all);
    if (all.count == 0) return;
    for (int i = 0; i < p->space->instance_count; i++)
        if (p->space->nets[p->space->instances[i].net].closed)
            add(p, &all, (body){ .tie = -1, .part = -1, .instance = i, .pose = p->space->instances[i].pose, .reach = tw_instance_block(p->space, i) });
    qsort(all.items, all.count, sizeof *all.items, by_left_border);
    for (size_t i = 0; i < all.count; i++)
        for (size_t j = i + 1; j < all.count && all.items[j].reach.least.x < all.items[i].reach.most.x; j++) look_at(p, &all.items[i], &all.items[j]);
}
