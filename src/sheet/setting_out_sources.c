// SPDX-License-Identifier: GPL-3.0-or-later
/* Which amount of the job a dimension of a piece's drawing comes from.
 *
 * It is tried out. Each amount of the joints and profiles that cut the piece, and each size of the pieces that meet in them, is
 * made larger by a hair h, the joint is planned again, and the cuts are held against those before:
 *
 *     way of a border    = (where it is then - where it was)/h
 *     way of a dimension = way of its end - way of its beginning                                                 (1)
 *
 * A dimension comes from an amount of its own size that moves it by as much (way 1 or -1); else from the place in the joint's
 * `at` that moves it so; else from what moves it most nearly so, the joint's own amounts before the sizes of pieces, the
 * largest first. So a shoulder that is half of what a tenon leaves leads to the tenon, and a new kind of joint needs nothing said of it.
 *
 * An amount that the job does not give is first given as proposed: what else follows from that is no part of (1). */
#include "sheet/setting_out.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "joint/views.h"
#include "job/path.h"

#define NUDGE 0.0078125      // 2^-7 mm, or radians: a sum of a joint loses nothing of it
#define NUDGE_RAD 0.000244140625
#define SAME_MM 0.01
#define SAME_WAY 1e-3
#define STEADY_WAY 2.0      // a border that moves farther than this has come to a step of a rounding
#define LEAST_WAY 0.2        // an amount that moves a dimension by less is not what it comes from

typedef enum kin { OF_JOINT, OF_PLACE, OF_PIECE } kin;

/* An amount and how it moves what is drawn. */
typedef struct nudge {
    const char *path, *id;
    double      value;       // mm; an angle: NAN
    kin         kin;
    int         plan;        // whose amount; -1: a size of a piece
    tw_block   *ways;        // of each cut's borders
    tw_size     size_ways;   // of the blank
    double     *figure_ways; // of the plan's figures; NULL for the size of a piece
} nudge;

/* What comes of planning again: the cuts of the piece, and the plan that was asked for. */
typedef struct again { tw_drawn_piece piece; const tw_joint_plan *plan; } again;

struct tw_piece_nudges { nudge *items; size_t count, room; };

/* ---- planning again ---- */

/* The cuts of the drawn piece when one plan, or the sizes of the job's pieces, are others. */
static again planned_again(const tw_drawn_piece *of, tw_arena *arena, const tw_job *job, int only, const tw_joint *joint)
{
    tw_findings unheard = { .arena = arena };
    tw_joint_context context = { .arena = arena, .job = job, .shop = of->in->shop, .findings = &unheard };
    tw_paper_input in = *of->in;
    tw_joint_plan *plans = TW_NEW_ARRAY(arena, tw_joint_plan, (size_t)in.plan_count);
    memcpy(plans, in.plans, (size_t)in.plan_count * sizeof *plans);
    for (int i = 0; i < in.plan_count; i++) {
        if (only >= 0 ? i != only : !of->cut_by[i]) continue;
        plans[i] = (tw_joint_plan){ .joint = i == only ? joint : &job->joints[i], .index = i, .profile = i >= job->joint_count,
            .piece = -1 };
        tw_joint_kinds[plans[i].joint->kind]->plan(&context, &plans[i]);
    }
    in.plans = plans;
    in.job = job;
    return (again){ tw_drawn_piece_cuts(arena, &in, of->piece), only >= 0 ? &plans[only] : NULL };
}

static tw_spot ways_of(tw_spot then, tw_spot was, double by)
{
    return (tw_spot){ (then.x - was.x) / by, (then.y - was.y) / by, (then.z - was.z) / by };
}

static double largest(tw_spot a) { return tw_max(fabs(a.x), tw_max(fabs(a.y), fabs(a.z))); }

/* How much each border moves. Returns the largest way; INFINITY when cuts come or go. */
static double hold_against(const tw_drawn_piece *of, nudge *made, const again *before, const again *after, double by)
{
    const tw_drawn_piece *was = &before->piece, *then = &after->piece;
    if (was->cut_count != of->cut_count || then->cut_count != of->cut_count) return INFINITY;
    made->ways = TW_NEW_ARRAY(of->arena, tw_block, (size_t)of->cut_count);
    made->size_ways = (tw_size){ (then->size.length_mm - was->size.length_mm) / by,
        (then->size.width_mm - was->size.width_mm) / by, (then->size.thickness_mm - was->size.thickness_mm) / by };
    double most = largest((tw_spot){ made->size_ways.length_mm, made->size_ways.width_mm, made->size_ways.thickness_mm });
    for (int i = 0; i < of->cut_count; i++) {
        made->ways[i] = (tw_block){ ways_of(then->reaches[i].least, was->reaches[i].least, by),
            ways_of(then->reaches[i].most, was->reaches[i].most, by) };
        most = tw_max(most, tw_max(largest(made->ways[i].least), largest(made->ways[i].most)));
    }
    size_t figures = before->plan ? before->plan->figure_count : 0;
    if (figures > 0 && after->plan->figure_count == figures && figures == of->in->plans[made->plan].figure_count) {
        made->figure_ways = TW_NEW_ARRAY(of->arena, double, figures);
        for (size_t i = 0; i < figures; i++)
            made->figure_ways[i] = (after->plan->figures[i].value - before->plan->figures[i].value) / by;
    }
    return most;
}

/* Makes the amount, which lies in the job or the joint, larger and notes what that moves; where a rounding turns over for it,
 * smaller. An amount that moves nothing, or adds or takes cuts, is not noted. */
static void try_out(const tw_drawn_piece *of, struct tw_piece_nudges *all, nudge made, tw_amount *amount, double by,
    const tw_job *job, const tw_joint *joint, const again *before)
{
    nudge best = made;
    double most = INFINITY, value = amount->value;
    for (int i = 0; i < 2 && most > STEADY_WAY; i++, by = -by) {
        tw_arena scratch = tw_arena_beside(of->arena);
        nudge tried = made;
        amount->value = value + by;
        again after = planned_again(of, &scratch, job, made.plan, joint);
        double way = hold_against(of, &tried, before, &after, by);
        if (way < most) { most = way; best = tried; }
        tw_arena_finish(&scratch);
    }
    amount->value = value;
    if (most < SAME_WAY || isinf(most)) return;
    tw_array_make_room(of->arena, &all->items, all->count, &all->room, sizeof best);
    all->items[all->count++] = best;
}

/* ---- amounts of a joint ---- */

typedef struct spec_copy { tw_joint joint; void *spec; } spec_copy;

static spec_copy copy_of(const tw_drawn_piece *of, const tw_joint *joint)
{
    size_t size = tw_joint_kinds[joint->kind]->format.spec_size;
    spec_copy copy = { *joint, tw_arena_take(of->arena, size, _Alignof(max_align_t)) };
    memcpy(copy.spec, joint->spec, size);
    copy.joint.spec = copy.spec;
    return copy;
}

static void *field(void *spec, const tw_key *row) { return (char *)spec + row->offset; }

static const char *path_of(const tw_drawn_piece *of, const tw_joint_plan *p, const char *key, const char *item)
{
    return tw_path_text(of->arena, (const char *const[]){ p->profile ? "profiles" : "joints", p->joint->name, key, item },
        item ? 4 : 3);
}

static void try_amount(const tw_drawn_piece *of, struct tw_piece_nudges *all, int plan, const tw_key *row)
{
    const tw_joint_plan *p = &of->in->plans[plan];
    const tw_figure *figure = NULL;
    for (size_t i = 0; i < p->figure_count && !figure; i++)
        if (p->figures[i].row == row) figure = &p->figures[i];
    spec_copy copy = copy_of(of, p->joint);
    tw_amount *amount = field(copy.spec, row);
    if (!amount->given && !figure) return;
    bool angle = row->kind == TW_KEY_ANGLE;
    tw_arena scratch = tw_arena_beside(of->arena);
    again before = { *of, p };
    if (!amount->given) {
        *amount = (tw_amount){ .value = figure->value, .given = true };
        before = planned_again(of, &scratch, of->in->job, plan, &copy.joint);
    }
    nudge made = { .path = path_of(of, p, row->name, NULL), .value = angle ? NAN : amount->value, .kin = OF_JOINT, .plan = plan };
    made.id = figure ? path_of(of, p, figure->key, NULL) : made.path;
    try_out(of, all, made, amount, angle ? NUDGE_RAD : NUDGE, of->in->job, &copy.joint, &before);
    tw_arena_finish(&scratch);
}

static void try_places(const tw_drawn_piece *of, struct tw_piece_nudges *all, int plan, const tw_key *row)
{
    const tw_joint_plan *p = &of->in->plans[plan];
    int count = ((const tw_amounts *)field(p->joint->spec, row))->count;
    for (int i = 0; i < count; i++) {
        spec_copy copy = copy_of(of, p->joint);
        tw_amounts *amounts = field(copy.spec, row);
        tw_amount *items = TW_NEW_ARRAY(of->arena, tw_amount, (size_t)count);
        memcpy(items, amounts->items, (size_t)count * sizeof *items);
        amounts->items = items;
        const char *path = path_of(of, p, row->name, tw_format(of->arena, "%d", i + 1));
        try_out(of, all, (nudge){ .path = path, .id = path, .value = items[i].value, .kin = OF_PLACE, .plan = plan }, &items[i],
            NUDGE, of->in->job, &copy.joint, &(again){ *of, p });
    }
}

static void try_joint(const tw_drawn_piece *of, struct tw_piece_nudges *all, int plan)
{
    const tw_joint_format *format = &tw_joint_kinds[of->in->plans[plan].joint->kind]->format;
    for (int i = 0; i < format->key_count; i++) {
        const tw_key *row = &format->keys[i];
        if (row->kind == TW_KEY_LENGTH || row->kind == TW_KEY_ANGLE) try_amount(of, all, plan, row);
        if (row->kind == TW_KEY_LENGTHS) try_places(of, all, plan, row);
    }
}

/* ---- sizes of pieces ---- */

static bool meets(const tw_drawn_piece *of, int piece)
{
    for (int p = 0; p < of->in->plan_count; p++)
        for (size_t i = 0; of->cut_by[p] && i < of->in->plans[p].meeting_count; i++)
            if (of->in->plans[p].meetings[i].mover == piece || of->in->plans[p].meetings[i].base == piece) return true;
    return piece == of->piece;
}

static void try_sizes(const tw_drawn_piece *of, struct tw_piece_nudges *all, int piece)
{
    static const char *const keys[] = { "length", "width", "thickness" };
    tw_job job = *of->in->job;
    job.pieces = TW_NEW_ARRAY(of->arena, tw_piece, (size_t)job.piece_count);
    memcpy(job.pieces, of->in->job->pieces, (size_t)job.piece_count * sizeof *job.pieces);
    tw_piece *nudged = &job.pieces[piece];
    tw_amount *sizes[] = { &nudged->length, &nudged->width, &nudged->thickness };
    for (int i = 0; i < 3; i++) {
        const char *path = tw_path_text(of->arena, (const char *const[]){ "pieces", nudged->name, keys[i] }, 3);
        try_out(of, all, (nudge){ .path = path, .id = path, .value = sizes[i]->value, .kin = OF_PIECE, .plan = -1 }, sizes[i],
            NUDGE, &job, NULL, &(again){ *of, NULL });
    }
}

const struct tw_piece_nudges *tw_piece_nudges_make(tw_drawn_piece *of)
{
    struct tw_piece_nudges *all = TW_NEW(of->arena, struct tw_piece_nudges);
    of->cut_by = TW_NEW_ARRAY(of->arena, bool, (size_t)of->in->plan_count);
    for (int i = 0; i < of->cut_count; i++) of->cut_by[of->cuts[i].joint] = true;
    for (int p = 0; p < of->in->plan_count; p++)
        if (of->cut_by[p]) try_joint(of, all, p);
    for (int i = 0; i < of->in->job->piece_count; i++)
        if (meets(of, i)) try_sizes(of, all, i);
    return all;
}

/* ---- what a dimension comes from ---- */

typedef struct spread { double least, most; bool met; } spread;  // of the ways of all borders at one place

static void take(spread *s, double way)
{
    s->least = s->met ? tw_min(s->least, way) : way;
    s->most = s->met ? tw_max(s->most, way) : way;
    s->met = true;
}

/* How a place along an axis of the piece moves: one way for all borders of the cuts that are met there, or the middle of a hole;
 * NAN when they do not agree or none lies there. */
static double way_of(const tw_drawn_piece *of, const tw_across *met, const nudge *n, tw_axis axis, double at)
{
    if (fabs(at) < SAME_MM) return 0.0;
    if (fabs(at - tw_extent_along(of->size, axis)) < SAME_MM) return tw_extent_along(n->size_ways, axis);
    spread borders = { 0 }, middles = { 0 };
    for (int k = 0; k < (met ? met->count : of->cut_count); k++) {
        int i = met ? met->cuts[k] : k;
        double from = tw_along(of->reaches[i].least, axis), to = tw_along(of->reaches[i].most, axis);
        double from_way = tw_along(n->ways[i].least, axis), to_way = tw_along(n->ways[i].most, axis);
        if (fabs(from - at) < SAME_MM) take(&borders, from_way);
        if (fabs(to - at) < SAME_MM) take(&borders, to_way);
        if (tw_cut_is_hole(&of->cuts[i]) && fabs((from + to) / 2.0 - at) < SAME_MM) take(&middles, (from_way + to_way) / 2.0);
    }
    const spread *s = borders.met ? &borders : &middles;
    return s->met && s->most - s->least < SAME_WAY ? (s->least + s->most) / 2.0 : NAN;
}

/* How well an amount explains a dimension; 0: not at all. */
static double merit(const nudge *n, double way, double length_mm, bool place)
{
    if (!(fabs(way) >= LEAST_WAY)) return 0.0;
    bool same = fabs(fabs(way) - 1.0) < SAME_WAY;
    if (same && fabs(n->value - length_mm) < SAME_MM / 10.0) return n->kin == OF_PIECE ? 900.0 : 1000.0;
    double size = isfinite(n->value) ? 0.9 * n->value / (n->value + 100.0) : 0.0;  // below 1: the larger amount of several
    if (same && n->kin == OF_PLACE) return (place ? 800.0 : 500.0) + size;
    return 100.0 * (n->kin == OF_PIECE ? 1 : 3) + 10.0 * tw_min(fabs(way), 1.0 / fabs(way)) + size;
}

/* A figure of the amount's joint that is just what is shown, and moves with it, for its sum; of several the first. */
static const char *figure_of(const tw_drawn_piece *of, const nudge *n, double way, double length_mm)
{
    const tw_joint_plan *p = n->figure_ways ? &of->in->plans[n->plan] : NULL;
    for (size_t i = 0; p && i < p->figure_count; i++) {
        bool same = p->figures[i].unit == TW_UNIT_MM && fabs(p->figures[i].value - length_mm) < SAME_MM / 10.0;
        if (same && fabs(fabs(n->figure_ways[i]) - fabs(way)) < SAME_WAY)
            return tw_path_text(of->arena, (const char *const[]){ p->profile ? "profiles" : "joints", p->joint->name,
                p->figures[i].key }, 3);
    }
    return NULL;
}

tw_source tw_piece_source(const tw_drawn_piece *of, const tw_across *met, tw_axis axis, double from, double to, bool place)
{
    const nudge *best = NULL;
    double most = 0.0, length = fabs(to - from), best_way = 0.0;
    for (size_t i = 0; of->nudges && i < of->nudges->count; i++) {
        const nudge *n = &of->nudges->items[i];
        double way = way_of(of, met, n, axis, to) - way_of(of, met, n, axis, from), m = merit(n, way, length, place);
        if (m <= most) continue;
        most = m;
        best = n;
        best_way = way;
    }
    if (!best) return (tw_source){ 0 };
    const char *figure = fabs(best->value - length) < SAME_MM / 10.0 ? best->id : figure_of(of, best, best_way, length);
    return (tw_source){ best->path, figure ? figure : best->id };
}
