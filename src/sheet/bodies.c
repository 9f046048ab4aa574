// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/bodies.h"

#include <string.h>

/* ---- alike cuts ---- */

static bool same_loop(tw_loop a, tw_loop b)
{
    return a.count == b.count && memcmp(a.vertices, b.vertices, (size_t)a.count * sizeof *a.vertices) == 0;
}

static bool same_cut(const tw_cut *a, const tw_cut *b)
{
    if (a->face != b->face || a->depth_mm != b->depth_mm || a->start_mm != b->start_mm || a->through != b->through) return false;
    if (a->lean_right != b->lean_right || a->lean_up != b->lean_up || a->outline.count != b->outline.count) return false;
    for (int i = 0; i < a->outline.count; i++)
        if (!same_loop(a->outline.loops[i], b->outline.loops[i])) return false;
    return true;
}

static bool same_size(tw_size a, tw_size b) { return a.length_mm == b.length_mm && a.width_mm == b.width_mm && a.thickness_mm == b.thickness_mm; }

static bool same_piece(tw_size a, const tw_piece_cuts *cuts_a, tw_size b, const tw_piece_cuts *cuts_b)
{
    if (!same_size(a, b) || cuts_a->count != cuts_b->count) return false;
    for (int i = 0; i < cuts_a->count; i++)
        if (!same_cut(&cuts_a->cuts[i], &cuts_b->cuts[i])) return false;
    return true;
}

/* ---- pieces and parts ---- */

#define LOOK_BACK_MOST 400   // alike pieces are looked for among so many before

const tw_solid *tw_body_make(const tw_bodies *bodies, tw_arena *arena, tw_size size, const tw_cut *cuts, int count)
{
    return (bodies->to_look_at ? tw_solid_make_to_look_at : tw_solid_make)(arena, size, cuts, count, bodies->chord_mm);
}

const tw_solid *tw_body_of_piece(const tw_bodies *bodies, int piece)
{
    if (bodies->pieces[piece]) return bodies->pieces[piece];
    const tw_job *job = bodies->job;
    const tw_piece_cuts *cuts = bodies->cuts;
    tw_size size = tw_piece_size(&job->pieces[piece]);
    for (int k = piece - 1; k >= 0 && k >= piece - LOOK_BACK_MOST; k--)
        if (bodies->pieces[k] && same_piece(size, &cuts[piece], tw_piece_size(&job->pieces[k]), &cuts[k])) return bodies->pieces[piece] = bodies->pieces[k];
    return bodies->pieces[piece] = tw_body_make(bodies, bodies->arena, size, cuts[piece].cuts, cuts[piece].count);
}

const tw_solid *tw_body_of_part(const tw_bodies *bodies, int plan, int part)
{
    const tw_part *of = &bodies->plans[plan].parts[part];
    const tw_solid **solid = &bodies->parts[plan][part];
    if (!*solid) *solid = tw_body_make(bodies, bodies->arena, tw_part_blank(of), of->cuts, of->cut_count);
    return *solid;
}

static const tw_bodies *begin(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm, bool to_look_at)
{
    tw_bodies *bodies = TW_NEW(arena, tw_bodies);
    *bodies = (tw_bodies){ .arena = arena, .job = job, .plans = plans, .plan_count = plan_count, .chord_mm = chord_mm, .to_look_at = to_look_at };
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

const tw_bodies *tw_bodies_to_look_at(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm)
{
    return begin(arena, job, plans, plan_count, chord_mm, true);
}

const tw_bodies *tw_bodies_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count, double chord_mm)
{
    const tw_bodies *bodies = begin(arena, job, plans, plan_count, chord_mm, false);
    for (int i = 0; i < job->piece_count; i++) tw_body_of_piece(bodies, i);
    for (int p = 0; p < plan_count; p++)
        for (size_t i = 0; i < plans[p].lodging_count; i++) tw_body_of_part(bodies, p, plans[p].lodgings[i].part);
    return bodies;
}
