// SPDX-License-Identifier: GPL-3.0-or-later
/* The border of the chosen faces of a net, as loops in tidy form.
 *
 * A half-edge belongs to the border if the face on its left is chosen and the one on its right is not. Who arrives at a
 * node goes on along the first border half-edge clockwise: the border of one face is followed. A walk that comes to a
 * node for the second time has closed a loop of its own, which is taken off: a hole that touches the outer loop in a
 * point stays a loop by itself. */
#include "outline/net.h"

#include <stdlib.h>

typedef struct walk {
    tw_net     *net;
    tw_arena   *arena;      // of the result
    const bool *inside;
    int        *path;       // half-edges of the walk that are not yet in a loop
    int        *place;      // of node: where the path leaves it, or -1
    int         length;
    tw_vertex  *vertices;   // scratch
    int        *sources;
    tw_loop    *loops;
    size_t      count, room;
} walk;

static bool on_border(const walk *w, int half) { return w->inside[w->net->face[half]] && !w->inside[w->net->face[half ^ 1]]; }

static int start_of(const tw_net *net, int half) { return half & 1 ? net->edges[half >> 1].to : net->edges[half >> 1].from; }

/* ---- one loop ---- */

/* Two parts of one source edge that follow each other: their strand's source, told apart by direction. */
static int source_of(const tw_net *net, int half) { return 2 * net->strands[net->edges[half >> 1].strand].source + (half & 1); }

static bool mends(const tw_vertex *a, const tw_vertex *b, int source_a, int source_b)
{
    return source_a == source_b && (a->bulge > 0.0) == (b->bulge > 0.0) && (a->bulge < 0.0) == (b->bulge < 0.0) && a->bulge * b->bulge < 0.999;
}

/* Two arcs of one circle: quarter turns add, tan(p + q) = (tan p + tan q) / (1 - tan p tan q). */
static double bulge_of_both(double a, double b) { return (a + b) / (1.0 - a * b); }

/* Turns the list so that its first item does not continue its last one. */
static int first_break(const walk *w, int from, int count)
{
    for (int i = 0; i < count; i++)
        if (source_of(w->net, w->path[from + i]) != source_of(w->net, w->path[from + (i + count - 1) % count])) return i;
    return 0;
}

static int vertices_of(walk *w, int from, int count)
{
    int made = 0, first = first_break(w, from, count);
    for (int i = 0; i < count; i++) {
        int half = w->path[from + (first + i) % count];
        const tw_net_edge *edge = &w->net->edges[half >> 1];
        tw_point at = w->net->nodes[start_of(w->net, half)];
        tw_vertex v = { at.x, at.y, half & 1 ? -edge->bulge : edge->bulge };
        int source = source_of(w->net, half);
        if (made > 0 && mends(&w->vertices[made - 1], &v, w->sources[made - 1], source)) {
            w->vertices[made - 1].bulge = bulge_of_both(w->vertices[made - 1].bulge, v.bulge);
            continue;
        }
        w->vertices[made] = v;
        w->sources[made++] = source;
    }
    return made;
}

/* Drops edges shorter than a point; the edge before is drawn to the next vertex. */
static int without_short_edges(tw_vertex *vertices, int count)
{
    int kept = 0;
    for (int i = 0; i < count; i++) {
        tw_vertex next = i + 1 < count ? vertices[i + 1] : kept > 0 ? vertices[0] : vertices[i];
        tw_point here = { vertices[i].x, vertices[i].y }, there = { next.x, next.y };
        if (!tw_near(here, there, 1.01 * TW_SAME_POINT_MM)) vertices[kept++] = vertices[i];
    }
    return kept;
}

/* Begins at the vertex lowest in x, then y; x within a point of the lowest counts as lowest. */
static void copy_from_lowest(tw_loop from, tw_vertex *to)
{
    double least = INFINITY;
    int first = -1;
    for (int i = 0; i < from.count; i++) least = tw_min(least, from.vertices[i].x);
    for (int i = 0; i < from.count; i++)
        if (from.vertices[i].x <= least + TW_SAME_POINT_MM && (first < 0 || from.vertices[i].y < from.vertices[first].y)) first = i;
    for (int i = 0; i < from.count; i++) to[i] = from.vertices[(first + i) % from.count];
}

static void put_loop(walk *w, int from, int count)
{
    tw_loop scratch = { w->vertices, without_short_edges(w->vertices, vertices_of(w, from, count)) };
    if (!tw_loop_has_width(scratch)) return;
    tw_loop loop = { TW_NEW_ARRAY(w->arena, tw_vertex, (size_t)scratch.count), scratch.count };
    copy_from_lowest(scratch, loop.vertices);
    tw_array_make_room(w->net->arena, &w->loops, w->count, &w->room, sizeof *w->loops);
    w->loops[w->count++] = loop;
}

/* ---- the walk ---- */

static void take_off_from(walk *w, int at)
{
    put_loop(w, at, w->length - at);
    for (int i = at; i < w->length; i++) w->place[start_of(w->net, w->path[i])] = -1;
    w->length = at;
}

static void walk_from(walk *w, int first, bool *walked)
{
    int half = first;
    do {
        int node = start_of(w->net, half);
        if (w->place[node] >= 0) take_off_from(w, w->place[node]);
        w->place[node] = w->length;
        w->path[w->length++] = half;
        walked[half] = true;
        half = w->net->next[half];
        while (!on_border(w, half)) half = w->net->next[half ^ 1];
    } while (half != first);
    take_off_from(w, 0);
}

/* ---- the loops in their order ---- */

/* Largest first; loops of equal size (but for rounding) by their first vertex. */
static bool comes_before(tw_loop a, tw_loop b)
{
    double area_a = fabs(tw_loop_area_mm2(a)), area_b = fabs(tw_loop_area_mm2(b));
    if (fabs(area_a - area_b) > 1e-9 * (area_a + area_b)) return area_a > area_b;
    if (fabs(a.vertices[0].x - b.vertices[0].x) > TW_SAME_POINT_MM) return a.vertices[0].x < b.vertices[0].x;
    return a.vertices[0].y < b.vertices[0].y;
}

static tw_outline in_order(tw_arena *arena, tw_loop *loops, size_t count)
{
    tw_outline outline = { TW_NEW_ARRAY(arena, tw_loop, count), (int)count };
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        for (; at > 0 && comes_before(loops[i], outline.loops[at - 1]); at--) outline.loops[at] = outline.loops[at - 1];
        outline.loops[at] = loops[i];
    }
    return outline;
}

tw_outline tw_outline_ordered(tw_arena *arena, tw_outline outline)
{
    tw_outline copy = tw_outline_copy(arena, outline);
    for (int i = 0; i < outline.count; i++) copy_from_lowest(outline.loops[i], copy.loops[i].vertices);
    return in_order(arena, copy.loops, (size_t)copy.count);
}

tw_outline tw_net_outline(tw_net *net, tw_arena *arena, const bool *inside)
{
    size_t halves = 2 * (size_t)net->edge_count;
    walk w = { .net = net, .arena = arena, .inside = inside };
    w.path = TW_NEW_ARRAY(net->arena, int, halves);
    w.place = TW_NEW_ARRAY(net->arena, int, net->node_count);
    w.vertices = TW_NEW_ARRAY(net->arena, tw_vertex, halves);
    w.sources = TW_NEW_ARRAY(net->arena, int, halves);
    for (size_t i = 0; i < net->node_count; i++) w.place[i] = -1;
    bool *walked = TW_NEW_ARRAY(net->arena, bool, halves);
    for (int half = 0; half < (int)halves; half++)
        if (!net->edges[half >> 1].gone && !walked[half] && on_border(&w, half)) walk_from(&w, half, walked);
    return in_order(arena, w.loops, w.count);
}
