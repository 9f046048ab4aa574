// SPDX-License-Identifier: GPL-3.0-or-later
/* A line of the piece, seen from the face of a cut: (right, up, in) are linear in the way t along the line. A cut that leans
 * moves its outline by lean * in; taken off the line instead, the outline stands still and the line is
 *
 *     q(t) = q0 + t v,   v = d - lean * d.in,     in(t) = in0 + t d.in                                   (1)
 *
 * so the gap is where q(t) is inside of the outline and in(t) between start and depth. q(t) crosses a straight edge once
 * when its ends lie on either side of the line. An arc with chord L and bulge b is, in the frame of its chord (edge.h),
 *
 *     b (|q|^2 - L q.x') - L (1 - b^2)/2 q.y' = 0,  on the side b q.y' <= 0 of the chord                 (2)
 *
 * a quadratic in t that stays exact for the flattest arc. How many of its roots lie on the arc follows from the sides of the
 * two ends: one when they differ, none or both when they do not; so the count of crossings is right whatever the rounding. */
#include "piece/fibres.h"

#include <assert.h>
#include <math.h>

#define STANDS_STILL 1e-12  // a way per mm below which the line is a point of the outline

typedef struct tw_crossing { double t; int turn; } tw_crossing;  // turn: +1 when the edge passes from right to left of the line

typedef struct way { tw_point q, v; } way;  // (1)

/* ---- crossings ---- */

static void add_crossing(tw_wood *wood, double t, int turn)
{
    tw_array_make_room(wood->arena, &wood->crossings, wood->crossing_count, &wood->crossing_room, sizeof *wood->crossings);
    size_t i = wood->crossing_count++;
    for (; i > 0 && wood->crossings[i - 1].t > t; i--) wood->crossings[i] = wood->crossings[i - 1];
    wood->crossings[i] = (tw_crossing){ t, turn };
}

/* Which side of the line: over 0 is left. */
static double side_of(const way *w, tw_vertex p) { return w->v.x * (p.y - w->q.y) - w->v.y * (p.x - w->q.x); }

static double way_to(const way *w, double x, double y)
{
    return ((x - w->q.x) * w->v.x + (y - w->q.y) * w->v.y) / (w->v.x * w->v.x + w->v.y * w->v.y);
}

static void cross_line(tw_wood *wood, const way *w, tw_vertex a, tw_vertex b, double side_a, double side_b)
{
    double part = side_a / (side_a - side_b);
    add_crossing(wood, way_to(w, a.x + part * (b.x - a.x), a.y + part * (b.y - a.y)), side_b >= 0.0 ? 1 : -1);
}

/* The roots of (2), smaller first, and where each lies beside the chord: b q.y', at most 0 on the arc. */
typedef struct roots { bool real; double t[2], beside[2]; } roots;

static roots roots_of(const way *w, tw_vertex a, tw_vertex b)
{
    double chord = hypot(b.x - a.x, b.y - a.y), bulge = a.bulge;
    tw_point along = { (b.x - a.x) / chord, (b.y - a.y) / chord };
    double qx = (w->q.x - a.x) * along.x + (w->q.y - a.y) * along.y, qy = (w->q.y - a.y) * along.x - (w->q.x - a.x) * along.y;
    double vx = w->v.x * along.x + w->v.y * along.y, vy = w->v.y * along.x - w->v.x * along.y;
    double flat = chord * (1.0 - bulge * bulge) / 2.0;
    double A = bulge * (vx * vx + vy * vy), B = bulge * (2.0 * (qx * vx + qy * vy) - chord * vx) - flat * vy, C = bulge * (qx * qx + qy * qy - chord * qx) - flat * qy;
    double inside = B * B - 4.0 * A * C;
    if (!(inside > 0.0)) return (roots){ .real = false };
    double half = -(B + copysign(sqrt(inside), B)) / 2.0, one = half / A, two = half != 0.0 ? C / half : one;
    roots r = { true, { tw_min(one, two), tw_max(one, two) }, { 0 } };
    for (int i = 0; i < 2; i++) r.beside[i] = bulge * (qy + r.t[i] * vy);
    return r;
}

static void cross_arc(tw_wood *wood, const way *w, tw_vertex a, tw_vertex b, double side_a, double side_b)
{
    roots r = roots_of(w, a, b);
    bool differ = (side_a >= 0.0) != (side_b >= 0.0);
    if (differ && r.real) add_crossing(wood, r.beside[0] <= r.beside[1] ? r.t[0] : r.t[1], side_b >= 0.0 ? 1 : -1);
    else if (differ) cross_line(wood, w, a, b, side_a, side_b);
    else if (r.real && r.beside[0] + r.beside[1] < 0.0) {
        int turn = a.bulge > 0.0 ? 1 : -1;  // a counter-clockwise arc goes to the right where the line enters its circle
        add_crossing(wood, r.t[0], -turn);
        add_crossing(wood, r.t[1], turn);
    }
}

static void cross_outline(tw_wood *wood, const way *w, tw_outline outline)
{
    wood->crossing_count = 0;
    for (int k = 0; k < outline.count; k++) {
        tw_loop loop = outline.loops[k];
        for (int i = 0; i < loop.count; i++) {
            tw_vertex a = loop.vertices[i], b = loop.vertices[i + 1 < loop.count ? i + 1 : 0];
            if (a.x == b.x && a.y == b.y) continue;
            double side_a = side_of(w, a), side_b = side_of(w, b);
            if (a.bulge != 0.0) cross_arc(wood, w, a, b, side_a, side_b);
            else if ((side_a >= 0.0) != (side_b >= 0.0)) cross_line(wood, w, a, b, side_a, side_b);
        }
    }
}

/* ---- gaps ---- */

static void add_gap(tw_wood *wood, double from, double to, int cut)
{
    if (to - from < TW_RUN_LEAST_MM) return;
    tw_array_make_room(wood->arena, &wood->gaps, wood->gap_count, &wood->gap_room, sizeof *wood->gaps);
    size_t i = wood->gap_count++;
    for (; i > 0 && wood->gaps[i - 1].from_mm > from; i--) wood->gaps[i] = wood->gaps[i - 1];
    wood->gaps[i] = (tw_gap){ from, to, cut };
}

static bool is_inside(tw_wood *wood, tw_point q, tw_outline outline)
{
    int turns = 0;
    cross_outline(wood, &(way){ q, { 1.0, 0.0 } }, outline);
    for (size_t i = 0; i < wood->crossing_count && wood->crossings[i].t < 0.0; i++) turns += wood->crossings[i].turn;
    return turns != 0;
}

/* The part of the line, within the piece, that lies between the beginning and the bottom of the cut. */
static bool within_depth(const tw_wood *wood, const tw_cut *cut, double in, double in_each, double length, double *from, double *to)
{
    double top = cut->start_mm, bottom = tw_cut_depth_mm(wood->size, cut);
    *from = 0.0;
    *to = length;
    if (in_each == 0.0) return in >= top && in < bottom;
    double a = (top - in) / in_each, b = (bottom - in) / in_each;
    *from = tw_max(0.0, tw_min(a, b));
    *to = tw_min(length, tw_max(a, b));
    return *to > *from;
}

static void gaps_of_cut(tw_wood *wood, int index, tw_axis axis, tw_spot at)
{
    const tw_cut *cut = &wood->cuts[index];
    double length = tw_extent_along(wood->size, axis), from, to;
    tw_spot next = at;
    *(axis == TW_AXIS_X ? &at.x : axis == TW_AXIS_Y ? &at.y : &at.z) = 0.0;
    *(axis == TW_AXIS_X ? &next.x : axis == TW_AXIS_Y ? &next.y : &next.z) = 1.0;
    tw_frame frame = tw_face_frame(cut->face);
    tw_spot p = tw_face_place(wood->size, cut->face, at);
    tw_spot d = { tw_along(frame.right, axis), tw_along(frame.up, axis), -tw_along(frame.out, axis) };
    if (!within_depth(wood, cut, p.z, d.z, length, &from, &to)) return;
    way w = { { p.x - cut->lean_right * p.z, p.y - cut->lean_up * p.z }, { d.x - cut->lean_right * d.z, d.y - cut->lean_up * d.z } };
    if (fabs(w.v.x) < STANDS_STILL && fabs(w.v.y) < STANDS_STILL) {
        if (is_inside(wood, w.q, cut->outline)) add_gap(wood, from, to, index);
        return;
    }
    cross_outline(wood, &w, cut->outline);
    int turns = 0;
    for (size_t i = 0; i + 1 < wood->crossing_count; i++) {
        turns += wood->crossings[i].turn;
        if (turns != 0) add_gap(wood, tw_max(from, wood->crossings[i].t), tw_min(to, wood->crossings[i + 1].t), index);
    }
}

static bool passes(tw_block block, tw_axis axis, tw_spot at)
{
    return (axis == TW_AXIS_X || (at.x >= block.least.x && at.x <= block.most.x)) && (axis == TW_AXIS_Y || (at.y >= block.least.y && at.y <= block.most.y)) &&
           (axis == TW_AXIS_Z || (at.z >= block.least.z && at.z <= block.most.z));
}

/* ---- runs ---- */

static void add_run(tw_wood *wood, double from, double to, int from_cut, int to_cut)
{
    if (to - from < TW_RUN_LEAST_MM) return;
    tw_array_make_room(wood->arena, &wood->runs, wood->run_count, &wood->run_room, sizeof *wood->runs);
    wood->runs[wood->run_count++] = (tw_fibre_run){ from, to, from_cut, to_cut };
}

static void runs_between_gaps(tw_wood *wood, double length)
{
    double at = 0.0;
    int last = -1;
    wood->run_count = 0;
    for (size_t i = 0; i < wood->gap_count; i++) {
        const tw_gap *gap = &wood->gaps[i];
        add_run(wood, at, gap->from_mm, last, gap->cut);
        if (gap->to_mm > at) { at = gap->to_mm; last = gap->cut; }
    }
    add_run(wood, at, length, last, -1);
}

static tw_block block_around(tw_size size, const tw_cut *cut)
{
    tw_block all = { { 1.0, 1.0, 1.0 }, { 0.0, 0.0, 0.0 } };
    for (int i = 0; i < cut->outline.count; i++) {
        tw_block b = tw_cut_block(size, cut, i);
        if (i == 0) all = b;
        all.least = (tw_spot){ tw_min(all.least.x, b.least.x), tw_min(all.least.y, b.least.y), tw_min(all.least.z, b.least.z) };
        all.most = (tw_spot){ tw_max(all.most.x, b.most.x), tw_max(all.most.y, b.most.y), tw_max(all.most.z, b.most.z) };
    }
    return all;
}

tw_wood tw_wood_make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count)
{
    assert(size.length_mm > 0.0 && size.width_mm > 0.0 && size.thickness_mm > 0.0 && cut_count >= 0);
    tw_wood wood = { .arena = arena, .size = size, .cuts = cuts, .cut_count = cut_count, .blocks = TW_NEW_ARRAY(arena, tw_block, (size_t)cut_count + 1) };
    for (int i = 0; i < cut_count; i++) wood.blocks[i] = block_around(size, &cuts[i]);
    return wood;
}

const tw_fibre_run *tw_wood_runs(tw_wood *wood, tw_axis axis, tw_spot through, int *count)
{
    wood->gap_count = 0;
    for (int i = 0; i < wood->cut_count; i++)
        if (passes(wood->blocks[i], axis, through)) gaps_of_cut(wood, i, axis, through);
    runs_between_gaps(wood, tw_extent_along(wood->size, axis));
    *count = (int)wood->run_count;
    return wood->runs;
}

const tw_gap *tw_wood_gaps(tw_wood *wood, int cut, tw_axis axis, tw_spot through, int *count)
{
    assert(cut >= 0 && cut < wood->cut_count);
    wood->gap_count = 0;
    if (passes(wood->blocks[cut], axis, through)) gaps_of_cut(wood, cut, axis, through);
    *count = (int)wood->gap_count;
    return wood->gaps;
}

tw_fibre_run *tw_fibre_runs(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double y_mm, double z_mm, int *count)
{
    tw_wood wood = tw_wood_make(arena, size, cuts, cut_count);
    tw_wood_runs(&wood, TW_AXIS_X, (tw_spot){ 0.0, y_mm, z_mm }, count);
    return wood.runs;
}
