// SPDX-License-Identifier: GPL-3.0-or-later
/* The faces of a net that lie within a region: those about which its border winds.
 *
 * How the number of windings changes from the face on the right of an edge to the one on its left is known without any sum:
 * it is how often the border runs along the edge. Within one part of the net (edges that hang together) one face so tells
 * all others. The outer ring of a part is the one of the least area, for
 *     area of the outer ring = -(sum of the areas of the other rings),                           (1)
 * and about it winds what of the border lies in other parts, of which one point of this part can be asked: they do not
 * come near each other. So rounding cannot turn a face over, however near to each other edges of one part run.
 *
 * Where the rings are not those of a drawing on a plane, two ways may lead to two numbers. Then every edge is asked a hair
 * to both sides of its middle; long edges count for more. */
#include "outline/net.h"

#define ASIDE_MM 5e-9

typedef struct winding {
    const tw_net *net;
    int           region;
    int          *first;      // of face: a half-edge of its ring
    int          *winds;      // of face
    bool         *known;      // of face: has it been reached?
    int          *faces;      // those of one part
    int           face_count;
    int          *part;       // of node: the first face of its part, or -1
} winding;

/* ---- one part ---- */

static double ring_area(const winding *w, int face)
{
    const tw_net *net = w->net;
    int half = w->first[face];
    tw_point o = net->nodes[net->edges[half >> 1].from];
    double area = 0.0;
    do {
        const tw_net_edge *edge = &net->edges[half >> 1];
        tw_point a = tw_minus(net->nodes[edge->from], o), b = tw_minus(net->nodes[edge->to], o);
        double swept = tw_cross(a, b) / 2.0 + tw_segment_area(edge->chord * edge->chord, edge->bulge);
        area += half & 1 ? -swept : swept;
        half = net->next[half];
    } while (half != w->first[face]);
    return area;
}

/* Goes on over the edges of one ring to the faces beyond. False if one of them was known to be wound about otherwise. */
static bool look_beyond(winding *w, int face, int part)
{
    const tw_net *net = w->net;
    bool agrees = true;
    int half = w->first[face];
    do {
        const tw_net_edge *edge = &net->edges[half >> 1];
        int beyond = net->face[half ^ 1], turns = edge->turns[w->region], winds = w->winds[face] - (half & 1 ? -turns : turns);
        w->part[edge->from] = w->part[edge->to] = part;
        if (!w->known[beyond]) {
            w->known[beyond] = true;
            w->winds[beyond] = winds;
            w->faces[w->face_count++] = beyond;
        }
        agrees = agrees && w->winds[beyond] == winds;
        half = net->next[half];
    } while (half != w->first[face]);
    return agrees;
}

/* All faces of the part, against its outer ring. */
static bool wind_part(winding *w, int first)
{
    bool agrees = true;
    w->known[first] = true;
    w->faces[0] = first;
    w->face_count = 1;
    for (int i = 0; i < w->face_count; i++) agrees = look_beyond(w, w->faces[i], first) && agrees;
    double least = INFINITY;
    int outer = 0;
    for (int i = 0; i < w->face_count; i++) {
        double area = ring_area(w, w->faces[i]);
        if (area < least) { least = area; outer = w->winds[w->faces[i]]; }
    }
    for (int i = 0; i < w->face_count; i++) w->winds[w->faces[i]] -= outer;
    return agrees;
}

/* ---- the parts together ---- */

/* Of each part, known by its first face: the middle of its longest edge. */
static tw_point *places_of_parts(const winding *w)
{
    const tw_net *net = w->net;
    tw_point *places = TW_NEW_ARRAY(net->arena, tw_point, (size_t)net->face_count);
    double *longest = TW_NEW_ARRAY(net->arena, double, (size_t)net->face_count);
    for (int e = 0; e < net->edge_count; e++) {
        const tw_net_edge *edge = &net->edges[e];
        if (edge->gone) continue;
        int part = w->part[edge->from];
        if (edge->chord <= longest[part]) continue;
        longest[part] = edge->chord;
        places[part] = edge->middle;
    }
    return places;
}

/* How often the border winds about the place of a part but for what of it belongs to the part. */
static int winds_of_others(const winding *w, int part, tw_point place)
{
    const tw_net *net = w->net;
    int winds = 0;
    for (size_t i = 0; i < net->strand_count; i++) {
        const tw_strand *strand = &net->strands[i];
        if (strand->region != w->region || w->part[net->same_as[strand->from]] == part) continue;
        winds += tw_curves_wind(&strand->curve, 1, place);
    }
    return winds;
}

static void join_parts(winding *w)
{
    tw_point *places = places_of_parts(w);
    int *others = TW_NEW_ARRAY(w->net->arena, int, (size_t)w->net->face_count);
    for (int f = 0; f < w->net->face_count; f++) {
        int part = w->part[w->net->edges[w->first[f] >> 1].from];
        if (f == part) others[f] = winds_of_others(w, part, places[part]);  // a part's first face comes before its others
        w->winds[f] += others[part];
    }
}

/* Fills in how often the region's border winds about the faces; false when the net contradicts itself. */
static bool wind_faces(winding *w)
{
    const tw_net *net = w->net;
    size_t faces = (size_t)net->face_count;
    w->first = TW_NEW_ARRAY(net->arena, int, faces);
    w->winds = TW_NEW_ARRAY(net->arena, int, faces);
    w->known = TW_NEW_ARRAY(net->arena, bool, faces);
    w->faces = TW_NEW_ARRAY(net->arena, int, faces);
    w->part = TW_NEW_ARRAY(net->arena, int, net->node_count);
    for (size_t i = 0; i < net->node_count; i++) w->part[i] = -1;
    for (int half = 2 * net->edge_count - 1; half >= 0; half--)
        if (!net->edges[half >> 1].gone) w->first[net->face[half]] = half;
    int parts = 0;
    for (int f = 0; f < net->face_count; f++) {
        if (w->known[f]) continue;
        parts++;
        if (!wind_part(w, f)) return false;
    }
    if (parts > 1) join_parts(w);
    return true;
}

/* ---- without a plane ---- */

static void ask_edges(const winding *w, bool *within)
{
    const tw_net *net = w->net;
    tw_curve *curves = TW_NEW_ARRAY(net->arena, tw_curve, net->strand_count);
    double *votes = TW_NEW_ARRAY(net->arena, double, (size_t)net->face_count);
    int count = 0;
    for (size_t i = 0; i < net->strand_count; i++)
        if (net->strands[i].region == w->region) curves[count++] = net->strands[i].curve;
    for (int e = 0; e < net->edge_count; e++) {
        const tw_net_edge *edge = &net->edges[e];
        if (edge->gone) continue;
        tw_point from = net->nodes[edge->from], to = net->nodes[edge->to];
        for (int right = 0; right < 2; right++) {
            double aside = (right ? ASIDE_MM : -ASIDE_MM) / edge->chord;
            tw_point place = { edge->middle.x + (to.y - from.y) * aside, edge->middle.y - (to.x - from.x) * aside };
            votes[net->face[2 * e + right]] += tw_curves_wind(curves, count, place) > 0 ? edge->chord : -edge->chord;
        }
    }
    for (int f = 0; f < net->face_count; f++) within[f] = votes[f] > 0.0;
}

bool *tw_net_faces_within(const tw_net *net, int region)
{
    bool *within = TW_NEW_ARRAY(net->arena, bool, (size_t)net->face_count);
    winding w = { .net = net, .region = region };
    if (wind_faces(&w))
        for (int f = 0; f < net->face_count; f++) within[f] = w.winds[f] > 0;
    else ask_edges(&w, within);
    return within;
}
