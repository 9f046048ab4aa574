// SPDX-License-Identifier: GPL-3.0-or-later
/* parts: what the files of this stage share. */
#ifndef TW_SPACE_PARTS_H
#define TW_SPACE_PARTS_H

#include "space/space.h"

typedef struct tw_placing {
    tw_arena            *arena;
    const tw_job        *job;
    const tw_joint_plan *plans;
    int                  plan_count;
    tw_space            *space;
    int                 *first_of;   // [pieces + 1]: instances of piece p are first_of[p] to first_of[p + 1] - 1
    int                 *tie_of;     // [instances]: the tie by which it was reached, -1 for the first of a net
    int                 *depth;      // [instances]: ties from the first of its net
    int                **ties_at;    // [instances]: lists of ties, filled when all are placed
    int                 *ties_at_count;
    int                 *by_net, *net_start;  // members of net n are by_net[net_start[n]] and the next, in order; likewise
} tw_placing;

/// Instance at the other side of a tie.
static inline int tw_tie_other(const tw_tie *tie, int instance) { return tie->mover == instance ? tie->base : tie->mover; }
static inline tw_size tw_instance_size(const tw_placing *p, int instance)
{
    return tw_piece_size(&p->job->pieces[p->space->instances[instance].piece]);
}

/// Instances, ties and loops: poses in the frame of each net's first piece (walk.c).
void tw_space_walk(tw_placing *p);
/// The loop that a tie closes (ring.c). reached: the pose that the tie gives its piece `again`, which has another already.
void tw_ring_add(tw_placing *p, int tie, int again, tw_pose reached);
/// Remedies of all loops that are open (ring.c).
void tw_rings_remedy(tw_placing *p);
/// The wood of each piece as blocks (shape.c).
void tw_shapes_make(tw_placing *p);
/// Turns each net so that up is up and puts them beside each other (stand.c).
void tw_space_stand(tw_placing *p);
/// Pieces that stand in each other (clear.c).
void tw_space_clear(tw_placing *p);
/// How far two instances reach into each other, mm; negative when they are apart. sweep: the way that a goes while it is
/// looked at (zero: it stands still). shapes: tw_space.shapes or .lean.
double tw_instances_deep_mm(const tw_space *space, const tw_shape *shapes, int a, int b, tw_spot sweep);
/// The same of two blocks, each along the axes of its own frame; a goes along the sweep.
double tw_blocks_deep_mm(tw_block a, tw_pose at, tw_spot sweep, tw_block b, tw_pose stands);
/// Widens `all` to hold a block that lies at a pose.
void tw_block_reach(tw_block *all, tw_pose pose, tw_block block);
/// Whether two boxes share more than a touch.
bool tw_boxes_meet(tw_block a, tw_block b);
/// Parts of joints that stand in pieces or in each other, or whose way out is barred (fitted.c).
void tw_space_fitted(tw_placing *p);
/// Orders of taking apart and putting together (order.c, told in order_words.c).
void tw_space_order(tw_placing *p);

typedef struct tw_removal { int *moved, moved_count; int *from, from_count; tw_spot way; double travel_mm; int plan; bool glued; } tw_removal;
/// Words of steps: what is freed first, then removals in their order; and back again, glued ones first (order_words.c).
void tw_order_tell(tw_placing *p, tw_net *net, int net_index, const tw_removal *removals, int count, const tw_removal *gluings, int gluing_count);

#endif
