// SPDX-License-Identifier: GPL-3.0-or-later
/* explode: where pieces and parts stand in a picture, together or drawn apart. Private to the papers. */
#ifndef TW_EXPLODE_H
#define TW_EXPLODE_H

#include "sheet/bodies.h"
#include "space/space.h"

/// Solids of one net where they stand. step_of: the step of taking apart that moves each, counted from 1, 0 for what stays.
/// lodgings, ties: of a part, where it sits and in which joint; NULL for pieces.
typedef struct tw_standing_list {
    tw_stood          *items;
    int               *step_of;
    const tw_lodging **lodgings;
    const tw_tie     **ties;
    int                count;
} tw_standing_list;

/// The pieces of a net and the parts of its joints. apart: drawn apart in the order of taking apart, each as far as its step
/// goes and a gap beyond; what goes the same way earlier goes farther. Parts of glued joints stay where they are.
tw_standing_list tw_standing_of(tw_arena *arena, const tw_bodies *bodies, const tw_space *space, int net, bool apart);
/// By how much a step of taking apart, counted from 0, moves its pieces in a picture drawn apart; 0, 0, 0 when it only frees
/// them.
tw_spot tw_apart_by(const tw_net *net, size_t step);

#endif
