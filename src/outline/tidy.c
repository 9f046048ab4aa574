// SPDX-License-Identifier: GPL-3.0-or-later
/* Tidy: an outline as a maker writes it is checked and brought to the form that all else asks for.
 *
 * Zero-length edges go; the first loop is turned counter-clockwise, the others clockwise. Then the outline winds once
 * about each point of the region and not at all about others, so on the right of every edge it winds 0 times. If it
 * winds otherwise on the right of the whole of a loop, that loop lies outside the first, or in another hole; if only on
 * the right of parts of it, loops cross. Edges are split where they meet before they are asked; where two run within
 * BESIDE_MM of each other, their middles say nothing, but a stretch in which two lie on each other is a fault. */
#include "outline/net.h"

#define BESIDE_MM 5e-10  // edges nearer than this to each other are not asked: which is left and which right is rounding
#define ASIDE_MM 2e-10  // so far to the right of the middle of an edge it is asked how often the outline winds
#define RUN_MM 1e-6      // edges that lie on each other over more than this in all do not just touch

static bool sound_number(double value) { return isfinite(value) && fabs(value) <= TW_OUTLINE_MOST_MM; }

static tw_outline_fault check_numbers(tw_outline raw, tw_point *where)
{
    int vertices = 0;
    for (int i = 0; i < raw.count; i++) {
        vertices += raw.loops[i].count;
        if (vertices > TW_OUTLINE_MOST_VERTICES) return TW_OUTLINE_TOO_MANY;
        for (int j = 0; j < raw.loops[i].count; j++) {
            tw_vertex v = raw.loops[i].vertices[j];
            if (sound_number(v.x) && sound_number(v.y) && sound_number(v.bulge)) continue;
            *where = (tw_point){ sound_number(v.x) ? v.x : 0.0, sound_number(v.y) ? v.y : 0.0 };
            return TW_OUTLINE_NOT_FINITE;
        }
    }
    return TW_OUTLINE_GOOD;
}

/* A vertex that is the same point as the one kept before it goes; the edge that left it leaves from the kept one. */
static int without_short_edges(const tw_loop *raw, tw_vertex *kept)
{
    int count = 0;
    for (int i = 0; i < raw->count; i++) {
        tw_vertex v = raw->vertices[i];
        if (count > 0 && hypot(v.x - kept[count - 1].x, v.y - kept[count - 1].y) < TW_SAME_POINT_MM) kept[count - 1].bulge = v.bulge;
        else kept[count++] = v;
    }
    while (count > 1 && hypot(kept[0].x - kept[count - 1].x, kept[0].y - kept[count - 1].y) < TW_SAME_POINT_MM) count--;
    return count;
}

/* Read backwards: the edge that left a vertex now arrives there, and bends the other way. */
static void turn_round(tw_loop loop)
{
    for (int i = 0, k = loop.count - 1; i < k; i++, k--) {
        tw_vertex v = loop.vertices[i];
        loop.vertices[i] = loop.vertices[k];
        loop.vertices[k] = v;
    }
    double first = loop.vertices[0].bulge;
    for (int i = 0; i < loop.count; i++) loop.vertices[i].bulge = -(i + 1 < loop.count ? loop.vertices[i + 1].bulge : first);
}

/* ---- crossings ---- */

/* The loop that each curve is part of. */
static int *loops_of_curves(tw_arena *working, tw_outline outline, int curves)
{
    int *loops = TW_NEW_ARRAY(working, int, (size_t)curves), count = 0;
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            tw_curve made[2];
            for (int k = tw_curves_of_edge(outline.loops[i].vertices[j], tw_vertex_after(outline.loops[i], j), made); k > 0; k--) loops[count++] = i;
        }
    return loops;
}

static bool beside_another(const tw_net *net, int strand, tw_point p)
{
    for (int i = 0; i < (int)net->strand_count; i++)
        if (i != strand && tw_curve_holds(&net->strands[i].curve, p, BESIDE_MM)) return true;
    return false;
}

/* How a loop stands in the others: what they all wind on its right, once it is known. */
typedef struct standing { bool known; int winds; tw_point place; } standing;

static tw_outline_fault hear(const tw_net *net, tw_curve_list curves, const tw_net_edge *edge, standing *loop, tw_point *where)
{
    tw_point from = net->nodes[edge->from], to = net->nodes[edge->to];
    double aside = ASIDE_MM / edge->chord;
    tw_point place = { edge->middle.x + (to.y - from.y) * aside, edge->middle.y - (to.x - from.x) * aside };
    int winds = tw_curves_wind(curves.items, curves.count, place);
    if (loop->known && winds == loop->winds) return TW_OUTLINE_GOOD;
    if (winds != 0 && beside_another(net, edge->strand, edge->middle)) return TW_OUTLINE_GOOD;
    if (loop->known || winds > 0 || winds < -1) {
        if (loop->known && winds == 0 && beside_another(net, edge->strand, edge->middle)) return TW_OUTLINE_GOOD;
        *where = winds != 0 ? edge->middle : loop->place;
        return TW_OUTLINE_CROSSES;
    }
    *loop = (standing){ true, winds, edge->middle };
    return TW_OUTLINE_GOOD;
}

static tw_outline_fault check_crossings(tw_arena *working, tw_outline outline, tw_point *where)
{
    tw_net net;
    tw_curve_list curves = tw_curves_of_outline(working, outline);
    tw_net_start(&net, working, curves.count);
    tw_net_add_outline(&net, outline, 0, 0);
    tw_net_tie(&net, false);
    standing *loops = TW_NEW_ARRAY(working, standing, (size_t)outline.count);
    int *loop_of = loops_of_curves(working, outline, curves.count);
    double laid_mm = 0.0;
    for (int e = 0; e < net.edge_count; e++) {
        const tw_net_edge *edge = &net.edges[e];
        laid_mm += edge->gone ? edge->chord : 0.0;
        if (laid_mm > RUN_MM) { *where = edge->middle; return TW_OUTLINE_CROSSES; }
        tw_outline_fault fault = hear(&net, curves, edge, &loops[loop_of[edge->strand]], where);
        if (fault != TW_OUTLINE_GOOD) return fault;
    }
    for (int i = 0; i < outline.count; i++)
        if (loops[i].winds != 0) { *where = loops[i].place; return TW_OUTLINE_HOLE_OUTSIDE; }
    return TW_OUTLINE_GOOD;
}

/* A loop may be without area because it is flat, or because its two halves, run round in opposite senses, are equal. */
static tw_outline_fault why_flat(const tw_arena *arena, tw_loop loop, tw_point *where)
{
    if (loop.count < 3) return TW_OUTLINE_FLAT;
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_net net;
    tw_outline alone = { &loop, 1 };
    tw_net_start(&net, &working, 2 * loop.count);
    tw_net_add_outline(&net, alone, 0, 0);
    tw_net_tie(&net, false);
    int laid = 0;
    for (int e = 0; e < net.edge_count; e++) laid += net.edges[e].gone;
    tw_point place;
    bool crosses = 2 * laid < net.edge_count && check_crossings(&working, alone, &place) == TW_OUTLINE_CROSSES;
    tw_arena_finish(&working);
    if (crosses) *where = place;
    return crosses ? TW_OUTLINE_CROSSES : TW_OUTLINE_FLAT;
}

static tw_outline_fault clean_loop(tw_arena *arena, tw_loop raw, bool outer, tw_loop *loop, tw_point *where)
{
    loop->vertices = TW_NEW_ARRAY(arena, tw_vertex, (size_t)raw.count);
    loop->count = without_short_edges(&raw, loop->vertices);
    if (loop->count > 0) *where = (tw_point){ loop->vertices[0].x, loop->vertices[0].y };
    if (!tw_loop_has_width(*loop)) return why_flat(arena, *loop, where);
    if ((tw_loop_area_mm2(*loop) > 0.0) != outer) turn_round(*loop);
    tw_box box = tw_outline_bounds((tw_outline){ loop, 1 });
    double most = TW_OUTLINE_MOST_MM;
    return box.x0 < -most || box.y0 < -most || box.x1 > most || box.y1 > most ? TW_OUTLINE_NOT_FINITE : TW_OUTLINE_GOOD;
}

tw_outline_fault tw_outline_tidy(tw_arena *arena, tw_outline raw, tw_outline *tidy, tw_point *where)
{
    *tidy = (tw_outline){ NULL, 0 };
    *where = (tw_point){ 0.0, 0.0 };
    if (raw.count == 0) return TW_OUTLINE_EMPTY;
    tw_outline_fault fault = check_numbers(raw, where);
    tw_outline clean = { TW_NEW_ARRAY(arena, tw_loop, (size_t)raw.count), raw.count };
    for (int i = 0; i < raw.count && fault == TW_OUTLINE_GOOD; i++) fault = clean_loop(arena, raw.loops[i], i == 0, &clean.loops[i], where);
    if (fault != TW_OUTLINE_GOOD) return fault;
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    fault = check_crossings(&working, clean, where);
    tw_arena_finish(&working);
    if (fault == TW_OUTLINE_GOOD) *tidy = clean;
    return fault;
}
