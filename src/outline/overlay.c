// SPDX-License-Identifier: GPL-3.0-or-later
/* Two regions laid over each other: the edges of both are tied into one net (see net.h). An edge of a region says for
 * itself that the region lies on its left and not on its right; edges of the other region are asked by the winding of
 * their middle. So borders that run along each other, which is the usual case, need no measuring: laid together they
 * carry the marks of both. */
#include "outline/overlay.h"
#include "outline/net.h"

#define IN_A  1
#define OUT_A 2
#define IN_B  4
#define OUT_B 8

static int vertex_count(tw_outline outline)
{
    int count = 0;
    for (int i = 0; i < outline.count; i++) count += outline.loops[i].count;
    return count;
}

typedef struct votes { double a, b; } votes;

/* What a mark says: 1 inside, -1 outside, 0 both or nothing. */
static int says(tw_marks marks, tw_marks in, tw_marks out) { return ((marks & in) != 0) - ((marks & out) != 0); }

/* For both faces of an edge: is one region there? */
static void vote(const tw_net_edge *edge, tw_marks in, tw_marks out, tw_curve_list region, double *left, double *right)
{
    int on_left = says(edge->left, in, out), on_right = says(edge->right, in, out);
    if (!((edge->left | edge->right) & (in | out)))
        on_left = on_right = tw_curves_wind(region.items, region.count, edge->middle) > 0 ? 1 : -1;
    *left += on_left * edge->chord;
    *right += on_right * edge->chord;
}

static bool *faces_of(tw_net *net, tw_curve_list a, tw_curve_list b, tw_overlay_part part)
{
    votes *faces = TW_NEW_ARRAY(net->arena, votes, (size_t)net->face_count);
    for (int e = 0; e < net->edge_count; e++) {
        const tw_net_edge *edge = &net->edges[e];
        if (edge->gone) continue;
        votes *left = &faces[net->face[2 * e]], *right = &faces[net->face[2 * e + 1]];
        vote(edge, IN_A, OUT_A, a, &left->a, &right->a);
        vote(edge, IN_B, OUT_B, b, &left->b, &right->b);
    }
    bool *wanted = TW_NEW_ARRAY(net->arena, bool, (size_t)net->face_count);
    for (int f = 0; f < net->face_count; f++)
        wanted[f] = faces[f].a > 0.0 && (faces[f].b > 0.0) == (part == TW_OVERLAY_COMMON);
    return wanted;
}

static void tie(tw_net *net, tw_arena *working, tw_outline a, tw_outline b, bool careful, bool *planar)
{
    int count_a = vertex_count(a), count_b = vertex_count(b);
    tw_net_start(net, working, count_a + count_b);
    tw_net_add_outline(net, a, 0, IN_A, OUT_A);
    tw_net_add_outline(net, b, count_a, IN_B, OUT_B);
    *planar = tw_net_tie(net, careful);
}

tw_outline tw_overlay(tw_arena *arena, tw_outline a, tw_outline b, tw_overlay_part part)
{
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_net net;
    bool planar;
    tie(&net, &working, a, b, false, &planar);
    if (!planar) tie(&net, &working, a, b, true, &planar);
    bool *wanted = faces_of(&net, tw_curves_of_outline(&working, a), tw_curves_of_outline(&working, b), part);
    tw_outline result = tw_net_outline(&net, arena, wanted);
    tw_arena_finish(&working);
    return result;
}

double tw_outline_common_area_mm2(tw_arena *arena, tw_outline a, tw_outline b)
{
    return tw_outline_area_mm2(tw_overlay(arena, a, b, TW_OVERLAY_COMMON));
}
