// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/bodies.h"

#include "sheet/body_shelf.h"

/* ---- pieces and parts ---- */

#define LOOK_BACK_MOST 400   // alike pieces are looked for among so many before

static tw_body_key key_of(const tw_bodies *bodies, tw_size size, const tw_cut *cuts, int count)
{
    return (tw_body_key){ size, cuts, count, bodies->chord_mm, bodies->to_look_at };
}

static tw_body_key key_of_piece(const tw_bodies *bodies, int piece)
{
    return key_of(bodies, tw_piece_size(&bodies->job->pieces[piece]), bodies->cuts[piece].cuts, bodies->cuts[piece].count);
}

const tw_solid *tw_body_make(const tw_bodies *bodies, tw_arena *arena, tw_size size, const tw_cut *cuts, int count)
{
    tw_body_key key = key_of(bodies, size, cuts, count);
    const tw_solid *solid = bodies->shelf ? tw_body_shelf_take(bodies->shelf, arena, key) : NULL;
    if (solid) return solid;
    solid = (bodies->to_look_at ? tw_solid_make_to_look_at : tw_solid_make)(arena, size, cuts, count, bodies->chord_mm);
    if (bodies->shelf) tw_body_shelf_put(bodies->shelf, key, solid);
    return solid;
}

const tw_solid *tw_body_of_piece(const tw_bodies *bodies, int piece)
{
    if (bodies->pieces[piece]) return bodies->pieces[piece];
    tw_body_key key = key_of_piece(bodies, piece);
    for (int k = piece - 1; k >= 0 && k >= piece - LOOK_BACK_MOST; k--) {
        tw_body_key other = key_of_piece(bodies, k);
        if (bodies->pieces[k] && tw_same_body(&key, &other)) return bodies->pieces[piece] = bodies->pieces[k];
    }
    return bodies->pieces[piece] = tw_body_make(bodies, bodies->arena, key.size, key.cuts, key.cut_count);
}

const tw_solid *tw_body_of_part(const tw_bodies *bodies, int plan, int part)
{
    const tw_part *of = &bodies->plans[plan].parts[part];
    const tw_solid **solid = &bodies->parts[plan][part];
    if (!*solid) *solid = tw_body_make(bodies, bodies->arena, tw_part_blank(of), of->cuts, of->cut_count);
    return *solid;
}

static tw_bodies *begin(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm,
    bool to_look_at)
{
    tw_bodies *bodies = TW_NEW(arena, tw_bodies);
    *bodies = (tw_bodies){ .arena = arena, .job = job, .plans = plans, .plan_count = plan_count, .chord_mm = chord_mm,
                           .to_look_at = to_look_at };
    bodies->cuts = tw_piece_cuts_gather(arena, job, plans, plan_count);
    bodies->pieces = TW_NEW_ARRAY(arena, const tw_solid *, (size_t)job->piece_count + 1);
    bodies->parts = TW_NEW_ARRAY(arena, const tw_solid **, (size_t)plan_count + 1);
    for (int p = 0; p < plan_count; p++) bodies->parts[p] = TW_NEW_ARRAY(arena, const tw_solid *, plans[p].part_count + 1);
    return bodies;
}

const tw_bodies *tw_bodies_begin(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm)
{
    return begin(arena, job, plans, plan_count, chord_mm, false);
}

const tw_bodies *tw_bodies_to_look_at(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count,
    double chord_mm)
{
    return begin(arena, job, plans, plan_count, chord_mm, true);
}

const tw_bodies *tw_bodies_from_shelf(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count,
    double chord_mm,
                                      tw_body_shelf *shelf)
{
    tw_bodies *bodies = begin(arena, job, plans, plan_count, chord_mm, true);
    bodies->shelf = shelf;
    return bodies;
}

const tw_bodies *tw_bodies_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm)
{
    const tw_bodies *bodies = begin(arena, job, plans, plan_count, chord_mm, false);
    for (int i = 0; i < job->piece_count; i++) tw_body_of_piece(bodies, i);
    for (int p = 0; p < plan_count; p++)
        for (size_t i = 0; i < plans[p].lodging_count; i++) tw_body_of_part(bodies, p, plans[p].lodgings[i].part);
    return bodies;
}
