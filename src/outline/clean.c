// SPDX-License-Identifier: GPL-3.0-or-later
/* The outline is laid into a net of its own edges. A face belongs to the region if the outline winds about it, which is
 * asked a hair to both sides of the middles of its edges; long edges count for more. */
#include "outline/clean.h"
#include "outline/net.h"

#define ASIDE_MM 5e-9

static bool is_path(tw_loop loop) { return loop.count == 2 && loop.vertices[0].bulge == 0.0 && loop.vertices[1].bulge == 0.0; }

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
    tw_outline solid = { TW_NEW_ARRAY(&working, tw_loop, (size_t)outline.count), 0 };
    for (int i = 0; i < outline.count; i++)
        if (!is_path(outline.loops[i])) solid.loops[solid.count++] = outline.loops[i];
    tw_net net;
    tw_curve_list curves = tw_curves_of_outline(&working, solid);
    tw_net_start(&net, &working, curves.count);
    tw_net_add_outline(&net, solid, 0, 0, 0);
    tw_net_tie(&net, true);
    tw_outline clean = tw_net_outline(&net, arena, inner_faces(&net, curves));
    tw_outline all = { TW_NEW_ARRAY(arena, tw_loop, (size_t)(clean.count + outline.count - solid.count)), 0 };
    for (int i = 0; i < clean.count; i++) all.loops[all.count++] = clean.loops[i];
    for (int i = 0; i < outline.count; i++)
        if (is_path(outline.loops[i])) all.loops[all.count++] = outline.loops[i];
    tw_arena_finish(&working);
    return all;
}
