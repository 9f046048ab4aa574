// SPDX-License-Identifier: GPL-3.0-or-later
/* The outline is laid into a net of its own edges. A face belongs to the region if the outline winds about it, which is
 * asked a hair to both sides of the middles of its edges; long edges count for more. */
#include "outline/clean.h"
#include "outline/net.h"

#define ASIDE_MM 5e-9

static bool *inner_faces(const tw_net *net, tw_curve_list curves)
{
    double *votes = TW_NEW_ARRAY(net->arena, double, (size_t)net->face_count);
    for (int e = 0; e < net->edge_count; e++) {
        const tw_net_edge *edge = &net->edges[e];
        if (edge->gone) continue;
        tw_point from = net->nodes[edge->from], to = net->nodes[edge->to];
        for (int right = 0; right < 2; right++) {
            double aside = (right ? ASIDE_MM : -ASIDE_MM) / edge->chord;
            tw_point place = { edge->middle.x + (to.y - from.y) * aside, edge->middle.y - (to.x - from.x) * aside };
            votes[net->face[2 * e + right]] += tw_curves_wind(curves.items, curves.count, place) > 0 ? edge->chord : -edge->chord;
        }
    }
    bool *inside = TW_NEW_ARRAY(net->arena, bool, (size_t)net->face_count);
    for (int f = 0; f < net->face_count; f++) inside[f] = votes[f] > 0.0;
    return inside;
}

tw_outline tw_cleaned(tw_arena *arena, tw_outline outline)
{
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_net net;
    tw_curve_list curves = tw_curves_of_outline(&working, outline);
    tw_net_start(&net, &working, curves.count);
    tw_net_add_outline(&net, outline, 0, 0, 0);
    tw_net_tie(&net, true);
    tw_outline clean = tw_net_outline(&net, arena, inner_faces(&net, curves));
    tw_arena_finish(&working);
    return clean;
}

/* ---- straight runs ---- */

#define RUN_MOST 64  // vertices that are looked at for one line

/* May the line from one vertex go straight to another? All between lie beside it, one after the other. */
static bool is_straight_run(tw_loop loop, int from, int to)
{
    tw_vertex a = loop.vertices[from], b = loop.vertices[to % loop.count];
    tw_point way = { b.x - a.x, b.y - a.y };
    double length = tw_length(way), before = 0.0;
    if (length < TW_SAME_POINT_MM || loop.vertices[from].bulge != 0.0) return false;
    for (int i = from + 1; i < to; i++) {
        tw_point q = { loop.vertices[i].x - a.x, loop.vertices[i].y - a.y };
        double along = tw_dot(way, q) / length;
        if (loop.vertices[i].bulge != 0.0 || along <= before || along >= length) return false;
        if (fabs(tw_cross(way, q)) > 0.5 * TW_NEAR_MM * length) return false;
        before = along;
    }
    return true;
}

tw_outline tw_straightened(tw_arena *arena, tw_outline outline)
{
    tw_outline straight = tw_outline_copy(arena, outline);
    for (int i = 0; i < outline.count; i++) {
        tw_loop loop = outline.loops[i];
        int kept = 0;
        for (int from = 0, to; from < loop.count; from = to) {
            straight.loops[i].vertices[kept++] = loop.vertices[from];
            for (to = from + 1; to < loop.count && to - from < RUN_MOST && is_straight_run(loop, from, to + 1);) to++;
        }
        straight.loops[i].count = kept;
    }
    return straight;
}
