// SPDX-License-Identifier: GPL-3.0-or-later
/* bodies: the pieces of a job and the parts of its joints as solids, made once for all pictures, or each when it is first asked
 * for. Private to the papers. */
#ifndef TW_BODIES_H
#define TW_BODIES_H

#include "joint/piece_cuts.h"
#include "solid/solid.h"

typedef struct tw_bodies tw_bodies;
struct tw_bodies {
    tw_arena            *arena;
    const tw_job        *job;
    const tw_joint_plan *plans;
    int                  plan_count;
    double               chord_mm;
    bool                 to_look_at;   // solids without triangles
    struct tw_body_shelf *shelf;       // where solids are looked for first; NULL: nowhere
    const tw_piece_cuts *cuts;     // [pieces of the job]
    const tw_solid     **pieces;   // [pieces of the job], alike ones share one; NULL: not asked for yet
    const tw_solid    ***parts;    // [plan][part], likewise
};

/// Nothing is made yet: ask with the two calls below. Arcs come within chord_mm. All lives in the arena; job and plans must live
/// as long.
const tw_bodies *tw_bodies_begin(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm);
const tw_solid *tw_body_of_piece(const tw_bodies *bodies, int piece);
/// A solid like those, in an arena of the caller's.
const tw_solid *tw_body_make(const tw_bodies *bodies, tw_arena *arena, tw_size size, const tw_cut *cuts, int count);
const tw_solid *tw_body_of_part(const tw_bodies *bodies, int plan, int part);

/// The same for pictures alone: solids have no triangles.
const tw_bodies *tw_bodies_to_look_at(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count,
                                      double chord_mm);
/// The same, with solids taken from a shelf (body_shelf.h) and put there.
const tw_bodies *tw_bodies_from_shelf(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count,
                                      double chord_mm,
                                      struct tw_body_shelf *shelf);
/// Like the first, with all of them made, but for parts that lodge nowhere.
const tw_bodies *tw_bodies_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm);

#endif
