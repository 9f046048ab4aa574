// SPDX-License-Identifier: GPL-3.0-or-later
/* The net: strands meet, are split into edges, edges on each other are laid together, rings are closed.
 *
 * Pairs of strands are found by sweeping over their boxes from left to right. Where two strands meet, both get the same
 * node: what follows goes by nodes and never compares coordinates again. */
#include "outline/net.h"

#include <assert.h>
#include <stdlib.h>

#define SMOOTH_RAD 1e-5
#define FEW_STRANDS 40  // up to here every pair is looked at: sorting would cost more

/* ---- nodes and strands ---- */

void tw_net_start(tw_net *net, tw_arena *arena, int strands)
{
    *net = (tw_net){ .arena = arena, .near_mm = TW_NEAR_MM, .touch_mm = TW_TOUCH_MM };
    net->strand_room = (size_t)strands + 4;
    net->node_room = net->stop_room = 3 * net->strand_room;
    net->strands = TW_NEW_ARRAY(arena, tw_strand, net->strand_room);
    net->nodes = TW_NEW_ARRAY(arena, tw_point, net->node_room);
    net->stops = TW_NEW_ARRAY(arena, tw_stop, net->stop_room);
}

int tw_net_node(tw_net *net, tw_point point)
{
    tw_array_make_room(net->arena, &net->nodes, net->node_count, &net->node_room, sizeof *net->nodes);
    net->nodes[net->node_count] = point;
    return (int)net->node_count++;
}

void tw_net_add(tw_net *net, tw_curve curve, int from, int to, int source, tw_marks left, tw_marks right)
{
    tw_array_make_room(net->arena, &net->strands, net->strand_count, &net->strand_room, sizeof *net->strands);
    net->strands[net->strand_count++] = (tw_strand){ curve, from, to, source, -1, -1, -1, left, right };
}

void tw_net_note_smooth(tw_net *net, int before, int next)
{
    tw_strand *a = &net->strands[before], *b = &net->strands[next];
    if (a->to != b->from || tw_dot(a->curve.arrives, b->curve.leaves) <= 0.0) return;
    if (fabs(tw_cross(a->curve.arrives, b->curve.leaves)) < SMOOTH_RAD) a->smooth_next = next;
}

void tw_net_add_outline(tw_net *net, tw_outline outline, int first_source, int region)
{
    int source = first_source;
    for (int i = 0; i < outline.count; i++) {
        tw_loop loop = outline.loops[i];
        int first = tw_net_node(net, (tw_point){ loop.vertices[0].x, loop.vertices[0].y }), from = first;
        for (int j = 0; j < loop.count; j++, source++) {
            tw_curve curves[2];
            int count = tw_curves_of_edge(loop.vertices[j], tw_vertex_after(loop, j), curves);
            for (int k = 0; k < count; k++) {
                bool last = j == loop.count - 1 && k == count - 1;
                int to = last ? first : tw_net_node(net, curves[k].b);
                tw_net_add(net, curves[k], from, to, source, 0, 0);
                net->strands[net->strand_count - 1].region = region;
                from = to;
            }
        }
    }
}

static bool near_node(const tw_net *net, int node, tw_point p) { return tw_near(net->nodes[node], p, net->near_mm); }

/* The node of a strand (end or stop) that is near the point, or -1. */
static int node_at(const tw_net *net, const tw_strand *strand, tw_point p)
{
    if (near_node(net, strand->from, p)) return strand->from;
    if (near_node(net, strand->to, p)) return strand->to;
    for (int s = strand->first_stop; s >= 0; s = net->stops[s].after)
        if (near_node(net, net->stops[s].node, p)) return net->stops[s].node;
    return -1;
}

static void put_stop(tw_net *net, tw_strand *strand, int node)
{
    tw_array_make_room(net->arena, &net->stops, net->stop_count, &net->stop_room, sizeof *net->stops);
    net->stops[net->stop_count] = (tw_stop){ node, strand->first_stop };
    strand->first_stop = (int)net->stop_count++;
}

/* Nodes that turn out to be one are noted as a pair of stops on no strand and joined when all strands have met. */
typedef struct pairs { int *items; size_t count, room; } pairs;

static void note_same(tw_net *net, pairs *same, int a, int b)
{
    if (a == b) return;
    tw_array_make_room(net->arena, &same->items, same->count, &same->room, sizeof *same->items);
    same->items[same->count++] = a;
    tw_array_make_room(net->arena, &same->items, same->count, &same->room, sizeof *same->items);
    same->items[same->count++] = b;
}

/* The strand passes through the node. */
static void pass(tw_net *net, pairs *same, tw_strand *strand, int node)
{
    int known = node_at(net, strand, net->nodes[node]);
    if (known >= 0) note_same(net, same, known, node);
    else put_stop(net, strand, node);
}

/* Does the strand meet the other at the node, one of the other's ends? */
static bool touch(tw_net *net, pairs *same, tw_strand *strand, int node)
{
    if (node == strand->from || node == strand->to) return true;
    if (!tw_curve_holds(&strand->curve, net->nodes[node], net->touch_mm)) return false;
    pass(net, same, strand, node);
    return true;
}

static void meet_at(tw_net *net, pairs *same, tw_strand *one, tw_strand *two, tw_point where)
{
    int on_one = node_at(net, one, where), on_two = node_at(net, two, where);
    int node = on_one >= 0 ? on_one : on_two >= 0 ? on_two : tw_net_node(net, where);
    if (on_one < 0) put_stop(net, one, node);
    if (on_two < 0) put_stop(net, two, node);
    else note_same(net, same, node, on_two);
}

/* Two lines that touch at an end do not cross as well: what the sums say then is rounding. */
static void meet(tw_net *net, pairs *same, tw_strand *one, tw_strand *two)
{
    int touches = touch(net, same, two, one->from) + touch(net, same, two, one->to);
    touches += touch(net, same, one, two->from) + touch(net, same, one, two->to);
    if (touches > 0 && one->curve.bulge == 0.0 && two->curve.bulge == 0.0) return;
    tw_point where[2];
    int count = tw_curves_cross(&one->curve, &two->curve, where);
    for (int i = 0; i < count; i++) meet_at(net, same, one, two, where[i]);
}

/* ---- pairs ---- */

/* The boxes by themselves are run through faster. */
typedef struct rank { tw_box box; int strand; } rank;

static int by_x0(const void *left, const void *right)
{
    const rank *a = left, *b = right;
    if (a->box.x0 != b->box.x0) return a->box.x0 < b->box.x0 ? -1 : 1;
    return (a->strand > b->strand) - (a->strand < b->strand);
}

static void meet_all(tw_net *net, pairs *same)
{
    size_t count = net->strand_count;
    bool sorted = count > FEW_STRANDS;
    rank *order = TW_NEW_ARRAY(net->arena, rank, count);
    for (size_t i = 0; i < count; i++) order[i] = (rank){ net->strands[i].curve.box, (int)i };
    if (sorted) qsort(order, count, sizeof *order, by_x0);
    for (size_t i = 0; i < count; i++) {
        tw_strand *one = &net->strands[order[i].strand];
        double room = net->touch_mm;
        tw_box b = order[i].box, box = { b.x0 - room, b.y0 - room, b.x1 + room, b.y1 + room };
        for (size_t j = i + 1; j < count; j++) {
            if (sorted && order[j].box.x0 > box.x1) break;
            if (tw_boxes_apart(box, order[j].box, 0.0)) continue;
            tw_strand *two = &net->strands[order[j].strand];
            if (one->smooth_next != order[j].strand && two->smooth_next != order[i].strand) meet(net, same, one, two);
        }
    }
}

/* The careful way: every node splits every strand that it lies on, not only those that it was found with. */
static void pass_all_nodes(tw_net *net, pairs *same)
{
    for (size_t i = 0; i < net->strand_count; i++)
        for (size_t node = 0; node < net->node_count; node++) {
            tw_strand *strand = &net->strands[i];
            if (tw_curve_holds(&strand->curve, net->nodes[node], net->near_mm)) pass(net, same, strand, (int)node);
        }
}

static int standing_for(const tw_net *net, int node)
{
    while (net->same_as[node] != node) node = net->same_as[node];
    return node;
}

static void join_nodes(tw_net *net, const pairs *same)
{
    net->same_as = TW_NEW_ARRAY(net->arena, int, net->node_count);
    for (size_t i = 0; i < net->node_count; i++) net->same_as[i] = (int)i;
    for (size_t i = 0; i < same->count; i += 2) {
        int a = standing_for(net, same->items[i]), b = standing_for(net, same->items[i + 1]);
        if (a < b) net->same_as[b] = a;
        if (b < a) net->same_as[a] = b;
    }
    for (size_t i = 0; i < net->node_count; i++) net->same_as[i] = net->same_as[net->same_as[i]];  // the lower ones are done
}

/* ---- edges ---- */

static void put_edge(tw_net *net, int strand_index, int from, int to, bool whole)
{
    const tw_strand *strand = &net->strands[strand_index];
    tw_point a = net->nodes[from], b = net->nodes[to];
    double chord = tw_apart(a, b);
    if (from == to || chord == 0.0) return;
    double bulge = whole ? strand->curve.bulge : tw_curve_part_bulge(&strand->curve, a, b);
    tw_point middle = tw_edge_middle(a, b, bulge);
    tw_net_edge *edge = &net->edges[net->edge_count++];
    *edge = (tw_net_edge){ from, to, strand_index, chord, bulge, middle, strand->left, strand->right, false, { 0 } };
    if (strand->region >= 0) edge->turns[strand->region] = 1;
}

typedef struct along { double place; int node; } along;

static bool comes_after(along a, along b) { return a.place != b.place ? a.place > b.place : a.node > b.node; }

/* Gathers the nodes of a strand from its start. Their place is told by the distance from the start less that to the end,
 * which grows evenly along a line and to the very end of half a turn. */
static int gather(const tw_net *net, const tw_strand *strand, along *list)
{
    int count = 0;
    for (int s = strand->first_stop; s >= 0; s = net->stops[s].after) {
        tw_point p = net->nodes[net->stops[s].node];
        along here = { tw_apart(p, strand->curve.a) - tw_apart(p, strand->curve.b), standing_for(net, net->stops[s].node) };
        int at = count++;
        for (; at > 0 && comes_after(list[at - 1], here); at--) list[at] = list[at - 1];
        list[at] = here;
    }
    return count;
}

static void split_strands(tw_net *net)
{
    net->edges = TW_NEW_ARRAY(net->arena, tw_net_edge, net->strand_count + net->stop_count);
    along *list = TW_NEW_ARRAY(net->arena, along, net->stop_count);
    for (size_t i = 0; i < net->strand_count; i++) {
        const tw_strand *strand = &net->strands[i];
        int from = standing_for(net, strand->from), to = standing_for(net, strand->to);
        int count = gather(net, strand, list);
        for (int k = 0; k < count; k++) {
            put_edge(net, (int)i, from, list[k].node, false);
            from = list[k].node;
        }
        put_edge(net, (int)i, from, to, count == 0);
    }
}

/* ---- around the nodes ---- */

/* Half-edges that leave a node, as lists: first[node], after[half]. */
typedef struct fans { int *first, *after; } fans;

static int start_of(const tw_net *net, int half) { return half & 1 ? net->edges[half >> 1].to : net->edges[half >> 1].from; }

static fans fans_of(const tw_net *net)
{
    fans f = { TW_NEW_ARRAY(net->arena, int, net->node_count), TW_NEW_ARRAY(net->arena, int, 2 * (size_t)net->edge_count) };
    for (size_t i = 0; i < net->node_count; i++) f.first[i] = -1;
    for (int half = 2 * net->edge_count - 1; half >= 0; half--) {
        int node = start_of(net, half);
        f.after[half] = f.first[node];
        f.first[node] = half;
    }
    return f;
}

/* Lays the edge of one half-edge into that of another that starts at the same node and ends at the same node. */
static void lay_into(tw_net *net, int into, int other)
{
    tw_net_edge *kept = &net->edges[into >> 1], *laid = &net->edges[other >> 1];
    bool same_way = (into & 1) == (other & 1);
    kept->left |= same_way ? laid->left : laid->right;
    kept->right |= same_way ? laid->right : laid->left;
    for (int i = 0; i < TW_NET_REGIONS; i++) kept->turns[i] += same_way ? laid->turns[i] : -laid->turns[i];
    laid->gone = true;
}

static void lay_together(tw_net *net, const fans *f)
{
    for (size_t node = 0; node < net->node_count; node++)
        for (int one = f->first[node]; one >= 0; one = f->after[one]) {
            const tw_net_edge *edge = &net->edges[one >> 1];
            int end = start_of(net, one ^ 1);
            if (end < (int)node || edge->gone) continue;
            for (int two = f->after[one]; two >= 0; two = f->after[two])
                if (start_of(net, two ^ 1) == end && !net->edges[two >> 1].gone
                    && tw_near(edge->middle, net->edges[two >> 1].middle, net->near_mm)) lay_into(net, one, two);
        }
}

/* The direction from a node to the point of a half-edge that is so far from it: edges that touch at the node stand in
 * the order in which they really part. */
static tw_point direction(const tw_net *net, int half, double far)
{
    const tw_net_edge *edge = &net->edges[half >> 1];
    tw_point a = net->nodes[edge->from], b = net->nodes[edge->to];
    return half & 1 ? tw_edge_direction(tw_minus(a, b), -edge->bulge, far) : tw_edge_direction(tw_minus(b, a), edge->bulge, far);
}

/* Grows with the angle of a direction, from 0 to 4. */
static double angle_rank(tw_point d)
{
    double part = d.y / (fabs(d.x) + fabs(d.y));
    return d.x < 0.0 ? 2.0 - part : d.y < 0.0 ? 4.0 + part : part;
}

typedef struct spoke { double angle; int half; } spoke;

static int by_angle(const void *left, const void *right)
{
    const spoke *a = left, *b = right;
    if (a->angle != b->angle) return a->angle < b->angle ? -1 : 1;
    return (a->half > b->half) - (a->half < b->half);
}

static void sort_spokes(const tw_net *net, spoke *spokes, int count)
{
    double far = INFINITY;
    for (int i = 0; i < count; i++) far = tw_min(far, 0.5 * net->edges[spokes[i].half >> 1].chord);  // at the ends two may meet again
    for (int i = 0; i < count; i++) spokes[i].angle = angle_rank(direction(net, spokes[i].half, far));
    if (count > 12) { qsort(spokes, (size_t)count, sizeof *spokes, by_angle); return; }
    for (int i = 1; i < count; i++)
        for (int k = i; k > 0 && by_angle(&spokes[k - 1], &spokes[k]) > 0; k--) {
            spoke kept = spokes[k];
            spokes[k] = spokes[k - 1];
            spokes[k - 1] = kept;
        }
}

/* Who arrives at a node goes on, for the face on the left, along the next edge clockwise. Returns the nodes in use. */
static int close_rings(tw_net *net, const fans *f)
{
    int in_use = 0;
    net->next = TW_NEW_ARRAY(net->arena, int, 2 * (size_t)net->edge_count);
    spoke *spokes = TW_NEW_ARRAY(net->arena, spoke, 2 * (size_t)net->edge_count);
    for (size_t node = 0; node < net->node_count; node++) {
        int count = 0;
        for (int half = f->first[node]; half >= 0; half = f->after[half])
            if (!net->edges[half >> 1].gone) spokes[count++].half = half;
        if (count == 0) continue;
        in_use++;
        if (count > 2) sort_spokes(net, spokes, count);
        for (int i = 0; i < count; i++) net->next[spokes[i].half ^ 1] = spokes[i > 0 ? i - 1 : count - 1].half;
    }
    return in_use;
}

static void name_faces(tw_net *net)
{
    net->face = TW_NEW_ARRAY(net->arena, int, 2 * (size_t)net->edge_count);
    for (int half = 0; half < 2 * net->edge_count; half++) net->face[half] = -1;
    for (int half = 0; half < 2 * net->edge_count; half++) {
        if (net->face[half] >= 0 || net->edges[half >> 1].gone) continue;
        for (int h = half; net->face[h] < 0; h = net->next[h]) net->face[h] = net->face_count;
        net->face_count++;
    }
}

/* Parts of the net that hang together, and live edges. */
static int count_parts(const tw_net *net, int nodes_in_use, int *live)
{
    int *root = TW_NEW_ARRAY(net->arena, int, net->node_count), parts = nodes_in_use;
    for (size_t i = 0; i < net->node_count; i++) root[i] = (int)i;
    *live = 0;
    for (int e = 0; e < net->edge_count; e++) {
        if (net->edges[e].gone) continue;
        ++*live;
        int a = net->edges[e].from, b = net->edges[e].to;
        while (root[a] != a) a = root[a] = root[root[a]];
        while (root[b] != b) b = root[b] = root[root[b]];
        if (a == b) continue;
        root[a] = b;
        parts--;
    }
    return parts;
}

bool tw_net_tie(tw_net *net, bool careful)
{
    pairs same = { 0 };
    meet_all(net, &same);
    if (careful) pass_all_nodes(net, &same);
    join_nodes(net, &same);
    split_strands(net);
    fans f = fans_of(net);
    lay_together(net, &f);
    int nodes_in_use = close_rings(net, &f), live;
    name_faces(net);
    int parts = count_parts(net, nodes_in_use, &live);
    return nodes_in_use - live + net->face_count == 2 * parts;  // Euler, each part with its own outer ring
}
