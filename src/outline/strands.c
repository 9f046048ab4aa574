// SPDX-License-Identifier: GPL-3.0-or-later
/* Strands of an offset: parallels, arcs about vertices, links across gaps that are as small as rounding. */
#include "outline/strands.h"

#define LINK_MOST_MM 1e-3  // gaps up to here are closed by a link
#define SMALL_MM 1e-3      // a parallel so small is reckoned from its ends, which may have been moved by TW_NEAR_MM

/* ---- joins ---- */

/* How two curves meet at a vertex, seen from the offset's side. */
typedef struct join {
    tw_point in, out;          // unit tangents of the curve that arrives and of the one that leaves
    tw_point end, start;       // of the parallels of the two
    enum { JOIN_SMOOTH, JOIN_ROUND, JOIN_HOLLOW } kind;
    double given;              // length that each parallel has lost here
    int    end_node, start_node;
} join;

static tw_point beside(tw_point p, tw_point way, double s) { return (tw_point){ p.x + way.y * s, p.y - way.x * s }; }

/* Does the vertex point to the side of the offset? It does where the outline turns away from it. Where the outline turns
 * back (a cusp) the tangents alone do not always tell, for the two edges may cross once more within a point of the vertex.
 * What counts then is to which side the way back lies of the way out, half as far along as the shorter of the two goes.
 * Where it lies on it, the vertex is the end of a path. */
static bool points_to_side(const tw_offset_task *t, const tw_curve *before, const tw_curve *after, const join *j, bool path_loop)
{
    double cross = tw_cross(j->in, j->out);
    if (path_loop) return true;
    if (tw_dot(j->in, j->out) >= 0.0) return cross * t->s > 0.0;
    double far = 0.5 * tw_min(before->chord, after->chord), first = 0.0;
    for (int i = 0; i < 30; i++, far /= 2.0) {
        tw_point out = tw_edge_direction(tw_minus(after->b, after->a), after->bulge, far);
        tw_point back = tw_edge_direction(tw_minus(before->a, before->b), -before->bulge, far);
        double parting = tw_cross(out, back) / (after->chord * before->chord);
        if (i == 0) first = parting;
        if ((parting >= 0.0) == (first >= 0.0) && (parting >= 0.0) == (cross >= 0.0)) break;
        if ((parting >= 0.0) != (first >= 0.0) && far > TW_SAME_POINT_MM) return cross * t->s > 0.0;
    }
    return first == 0.0 || first * t->s > 0.0;
}

static double parallel_radius(const tw_offset_task *t, const tw_curve *curve) { return curve->radius + (curve->bulge > 0.0 ? t->s : -t->s); }

/* Length of the chord of the parallel; 0 or less if there is none. */
static double parallel_chord(const tw_offset_task *t, const tw_curve *curve)
{
    return curve->bulge == 0.0 ? curve->chord : curve->chord * parallel_radius(t, curve) / curve->radius;
}

/* May the parallel's end be moved back by half of the gap without leaving the parallel? */
static bool can_give(const tw_offset_task *t, const tw_curve *curve, double apart)
{
    if (apart > 0.25 * parallel_chord(t, curve)) return false;
    return curve->bulge == 0.0 || apart * apart <= 8.0 * TW_TOUCH_MM * parallel_radius(t, curve);
}

/* A hollow join so flat that the two parallels cross where they end, within TW_TOUCH_MM sideways: they share a node
 * there. d (1 - cos(turn/2)) is the miss sideways, d tan(turn/2) the way along. */
static bool flat_hollow(const tw_offset_task *t, const tw_curve *before, const tw_curve *after, join *j)
{
    double d = fabs(t->s), apart = tw_apart(j->end, j->start);
    if (apart * apart > 8.0 * d * TW_TOUCH_MM || tw_dot(j->in, j->out) <= 0.0) return false;
    if (!can_give(t, before, apart) || !can_give(t, after, apart)) return false;
    j->end = j->start = (tw_point){ (j->end.x + j->start.x) / 2.0, (j->end.y + j->start.y) / 2.0 };
    j->given = apart / 2.0;
    return true;
}

static join join_at(const tw_offset_task *t, const tw_curve *before, const tw_curve *after, bool path_loop)
{
    join j = { .in = before->arrives, .out = after->leaves };
    j.end = beside(before->b, j.in, t->s);
    j.start = beside(after->a, j.out, t->s);
    if (tw_near(j.end, j.start, TW_NEAR_MM)) {
        j.end = j.start = (tw_point){ (j.end.x + j.start.x) / 2.0, (j.end.y + j.start.y) / 2.0 };
        j.kind = JOIN_SMOOTH;
    } else if (t->thorough || points_to_side(t, before, after, &j, path_loop)) {
        j.kind = JOIN_ROUND;
    } else {
        j.kind = flat_hollow(t, before, after, &j) ? JOIN_SMOOTH : JOIN_HOLLOW;
    }
    return j;
}

/* ---- strands ---- */

static tw_marks left_mark(const tw_offset_task *t) { return t->s > 0.0 ? TW_COVERED : 0; }
static tw_marks right_mark(const tw_offset_task *t) { return t->s > 0.0 ? 0 : TW_COVERED; }

/* A gap in a hollow is covered. It needs closing only where it is so small that the strands beside it might miss each
 * other by rounding. */
static void put_link(tw_offset_task *t, int from, int to)
{
    tw_point a = t->net.nodes[from], b = t->net.nodes[to];
    if (from == to || tw_near(a, b, 0.0) || !tw_near(a, b, LINK_MOST_MM)) return;
    tw_net_add(&t->net, tw_curve_between(a, b, 0.0), from, to, -1, TW_COVERED, TW_COVERED);
}

/* Puts a strand, and notes if it goes on smoothly from the one before: then the two meet nowhere else. */
static void put_strand(tw_offset_task *t, const tw_curve *curve, int from, int to, int source)
{
    int before = (int)t->net.strand_count - 1;
    tw_net_add(&t->net, *curve, from, to, source, left_mark(t), right_mark(t));
    if (before >= 0) tw_net_note_smooth(&t->net, before, before + 1);
}

/* A cusp whose tangents turn by a hair more than half a turn is gone round the long way, in two arcs. */
static void put_round(tw_offset_task *t, const join *j, tw_point vertex, int source)
{
    double bulge = tw_bulge_of_turn(j->in, j->out), sense = t->s > 0.0 ? 1.0 : -1.0;
    if (tw_cross(j->in, j->out) * t->s > 0.0 || bulge > 1.0 - 1e-12) {
        tw_curve arc = tw_curve_about(j->end, j->start, sense * bulge, j->in, j->out);
        put_strand(t, &arc, j->end_node, j->start_node, source);
        return;
    }
    tw_point way = tw_minus(j->in, j->out);
    double out = fabs(t->s) / tw_length(way), eighth = bulge / (1.0 + sqrt(1.0 + bulge * bulge));  // tan(turn / 8)
    tw_point middle = { vertex.x + way.x * out, vertex.y + way.y * out };
    double each = (1.0 - eighth) / (1.0 + eighth);  // tan((full turn - turn) / 8)
    int node = tw_net_node(&t->net, middle);
    tw_curve first = tw_curve_between(j->end, middle, sense * each), second = tw_curve_between(middle, j->start, sense * each);
    put_strand(t, &first, j->end_node, node, source);
    put_strand(t, &second, node, j->start_node, source);
}

static void put_circle(tw_offset_task *t, const join *j, tw_point vertex, int source)
{
    tw_point opposite = { 2.0 * vertex.x - j->end.x, 2.0 * vertex.y - j->end.y };
    double bulge = t->s > 0.0 ? 1.0 : -1.0;
    int node = tw_net_node(&t->net, opposite);
    tw_curve there = tw_curve_between(j->end, opposite, bulge), back = tw_curve_between(opposite, j->end, bulge);
    put_strand(t, &there, j->end_node, node, source);
    put_strand(t, &back, node, j->end_node, source);
}

/* The parallel turns as far as its edge, less what it has given at its ends: b = tan(turn/4), db = (1 + b^2)/4 dturn. */
static double parallel_bulge(const tw_offset_task *t, const tw_curve *curve, double given)
{
    double b = curve->bulge, less = b == 0.0 ? 0.0 : (1.0 + b * b) / 4.0 * given / parallel_radius(t, curve);
    return b > 0.0 ? b - less : b + less;
}

static void put_parallel(tw_offset_task *t, const tw_curve *curve, const join *from, const join *to, int source)
{
    tw_point a = from->start, b = to->end;
    double chord = parallel_chord(t, curve), given = from->given + to->given;
    if (chord <= TW_NEAR_MM || tw_near(a, b, 0.0)) {
        put_link(t, from->start_node, to->end_node);
        return;
    }
    bool plain = given == 0.0 && chord > SMALL_MM;
    tw_curve parallel = plain ? tw_curve_parallel(curve, a, b, parallel_radius(t, curve))
                              : tw_curve_between(a, b, parallel_bulge(t, curve, given));
    put_strand(t, &parallel, from->start_node, to->end_node, source);
}

/* The end of a parallel: a node of its own, unless the parallel has shrunk to a point. */
static int node_after(tw_offset_task *t, int before, tw_point point)
{
    return tw_near(t->net.nodes[before], point, TW_NEAR_MM) ? before : tw_net_node(&t->net, point);
}

/* Gives each join its nodes, in the order of the loop. */
static void put_nodes(tw_offset_task *t, join *joins, int count)
{
    joins[0].start_node = tw_net_node(&t->net, joins[0].start);
    int before = joins[0].start_node;
    for (int i = 1; i < count; i++) {
        joins[i].end_node = node_after(t, before, joins[i].end);
        joins[i].start_node = joins[i].kind == JOIN_SMOOTH ? joins[i].end_node : tw_net_node(&t->net, joins[i].start);
        before = joins[i].start_node;
    }
    if (joins[0].kind == JOIN_SMOOTH) joins[0].end_node = joins[0].start_node;
    else joins[0].end_node = node_after(t, before, joins[0].end);
}

/* joins[i] is the one before curves[i]. */
static void put_loop(tw_offset_task *t, int first, int count, bool path_loop)
{
    const tw_curve *curves = t->curves + first;
    join *joins = TW_NEW_ARRAY(t->arena, join, (size_t)count);
    for (int i = 0; i < count; i++) joins[i] = join_at(t, &curves[i > 0 ? i - 1 : count - 1], &curves[i], path_loop);
    put_nodes(t, joins, count);
    int first_strand = (int)t->net.strand_count;
    for (int i = 0; i < count; i++) {
        if (joins[i].kind == JOIN_ROUND) (t->thorough ? put_circle : put_round)(t, &joins[i], curves[i].a, t->curve_count + first + i);
        if (joins[i].kind == JOIN_HOLLOW) put_link(t, joins[i].end_node, joins[i].start_node);
        put_parallel(t, &curves[i], &joins[i], &joins[i + 1 < count ? i + 1 : 0], t->sources[first + i]);
    }
    if ((int)t->net.strand_count > first_strand) tw_net_note_smooth(&t->net, (int)t->net.strand_count - 1, first_strand);
}

/* ---- the outline ---- */

void tw_offset_take(tw_offset_task *t, tw_outline outline)
{
    int room = 0;
    for (int i = 0; i < outline.count; i++) room += 2 * outline.loops[i].count;
    tw_curve *curves = TW_NEW_ARRAY(t->arena, tw_curve, (size_t)room);
    int *sources = TW_NEW_ARRAY(t->arena, int, (size_t)room), *ends = TW_NEW_ARRAY(t->arena, int, (size_t)outline.count);
    bool *paths = TW_NEW_ARRAY(t->arena, bool, (size_t)outline.count);
    int edge = 0;
    t->curve_count = 0;
    for (int i = 0; i < outline.count; i++) {
        paths[i] = tw_loop_is_path(outline.loops[i]);
        for (int j = 0; j < outline.loops[i].count; j++, edge++) {
            int made = tw_curves_of_edge(outline.loops[i].vertices[j], tw_vertex_after(outline.loops[i], j), curves + t->curve_count);
            for (int k = 0; k < made; k++) sources[t->curve_count++] = edge;
        }
        ends[i] = t->curve_count;
    }
    tw_box *boxes = TW_NEW_ARRAY(t->arena, tw_box, (size_t)t->curve_count);
    for (int i = 0; i < t->curve_count; i++) boxes[i] = curves[i].box;
    t->curves = curves;
    t->boxes = boxes;
    t->last_near = 0;
    t->sources = sources;
    t->loop_ends = ends;
    t->path_loops = paths;
    t->loop_count = outline.count;
}

void tw_offset_put_strands(tw_offset_task *t)
{
    tw_net_start(&t->net, t->arena, 2 * t->curve_count);
    t->net.near_mm *= t->coarse;
    t->net.touch_mm *= t->coarse;
    for (int i = 0; i < t->loop_count; i++) {
        int first = i > 0 ? t->loop_ends[i - 1] : 0;
        if (t->loop_ends[i] > first) put_loop(t, first, t->loop_ends[i] - first, t->path_loops[i]);
    }
}
