// SPDX-License-Identifier: GPL-3.0-or-later
/* The outline is laid into a net of its own edges. A face belongs to the region if the outline winds about it, which is
 * asked a hair to both sides of the middles of its edges; long edges count for more. Spikes and slits without width,
 * where two edges lie on each other, are part of the outline too: they are kept as paths there and back. */
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

/* An edge that was laid into another one with the same on both of its sides is a spike or a slit without width. */
static bool has_no_width(const tw_net *net, const bool *inside, int e)
{
    int into = net->edges[e].laid_into;
    return net->edges[e].gone && inside[net->face[2 * into]] == inside[net->face[2 * into + 1]] && net->edges[e].chord > TW_SAME_POINT_MM;
}

static tw_loop path_of(tw_arena *arena, const tw_net *net, const tw_net_edge *edge)
{
    tw_loop path = { TW_NEW_ARRAY(arena, tw_vertex, 2), 2 };
    tw_point a = net->nodes[edge->from], b = net->nodes[edge->to];
    path.vertices[0] = (tw_vertex){ a.x, a.y, edge->bulge };
    path.vertices[1] = (tw_vertex){ b.x, b.y, -edge->bulge };
    return path;
}

static tw_outline with_paths(tw_arena *arena, const tw_net *net, const bool *inside, tw_outline clean, tw_outline outline)
{
    tw_outline all = { TW_NEW_ARRAY(arena, tw_loop, (size_t)(clean.count + outline.count + net->edge_count)), clean.count };
    for (int i = 0; i < clean.count; i++) all.loops[i] = clean.loops[i];
    for (int i = 0; i < outline.count; i++)
        if (tw_loop_is_path(outline.loops[i])) all.loops[all.count++] = outline.loops[i];
    for (int e = 0; e < net->edge_count; e++)
        if (net->edges[e].gone && has_no_width(net, inside, e)) all.loops[all.count++] = path_of(arena, net, &net->edges[e]);
    return all;
}

tw_outline tw_cleaned(tw_arena *arena, tw_outline outline)
{
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_outline solid = { TW_NEW_ARRAY(&working, tw_loop, (size_t)outline.count), 0 };
    for (int i = 0; i < outline.count; i++)
        if (!tw_loop_is_path(outline.loops[i])) solid.loops[solid.count++] = outline.loops[i];
    tw_net net;
    tw_curve_list curves = tw_curves_of_outline(&working, solid);
    tw_net_start(&net, &working, curves.count);
    tw_net_add_outline(&net, solid, 0, 0, 0);
    tw_net_tie(&net, true);
    bool *inside = inner_faces(&net, curves);
    tw_outline all = with_paths(arena, &net, inside, tw_net_outline(&net, arena, inside), outline);
    tw_arena_finish(&working);
    return all;
}
