// SPDX-License-Identifier: GPL-3.0-or-later
/* Offset: the region grown or shrunk by a distance d.
 *
 * The border of the result is made of parts of few curves, the strands: for each edge its parallel on the wanted side
 * (a line stays a line, an arc of radius r becomes one of r +- d; where that would be 0 or less it has none), and for
 * each vertex that points to that side an arc of radius d about it. Strands that follow each other smoothly share a
 * node. All strands are tied into a net, and the faces of the net are told apart:
 *
 *   covered: nearer than d to the outline, or on its wrong side. uncovered: at least d away on the wanted side.
 *
 * Every edge of the net bears witness on its two faces: the side towards its source is covered; the other side is
 * uncovered if the edge's middle is no nearer than d to the whole outline, and covered otherwise. Witnesses count by
 * their length, so that a few edges within rounding of the truth cannot turn a face over. What is left when a grown
 * region is cut away from the plane, or the shrunk region itself, is the union of the uncovered faces.
 *
 * Where a slot is exactly 2 d wide both walls give the same strand; laid together, both of its sides are covered, and
 * nothing of no width remains. Should rounding tie a net that cannot lie on a plane, it is tied more carefully, and
 * then with the distance changed by a little, at most OFFSET_SLACK_MM. */
#include "outline/net.h"

#include <assert.h>

#define COVERED 1
#define OFFSET_SLACK_MM 1e-7   // most that the distance is changed by when rounding is in the way
#define OFFSET_TRIES 12
#define CLEAR_MM 2e-9          // an edge nearer than d by no more than this is at d: rounding of places at 10 m
#define LINK_MOST_MM 1e-3      // gaps up to here are closed by a link

/* What the offset works on. s is the distance to the right of the edges: positive grows, negative shrinks. */
typedef struct task {
    tw_arena      *arena;      // working memory
    const tw_curve *curves;    // of all loops
    const int     *sources;    // of each curve: the edge that it is, or is part of
    const int     *loop_ends;  // number of curves up to the end of each loop
    const bool    *path_loops; // a line there and back
    int            curve_count, loop_count;
    double         s;
    tw_net         net;
} task;

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
 * back (a cusp) the tangents alone do not always tell, for the two edges may cross by less than a point and part again.
 * What counts then is to which side the way back lies of the way out, half as far along as the shorter of the two goes:
 * unless they have been more than a point apart before. Where it lies on it, the vertex is the end of a path. */
static bool points_to_side(const task *t, const tw_curve *before, const tw_curve *after, const join *j, bool path_loop)
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
        if ((parting >= 0.0) != (first >= 0.0) && far * fabs(parting) > TW_SAME_POINT_MM) return cross * t->s > 0.0;
    }
    return first == 0.0 || first * t->s > 0.0;
}

static double parallel_radius(const task *t, const tw_curve *curve) { return curve->radius + (curve->bulge > 0.0 ? t->s : -t->s); }

/* Length of the chord of the parallel; 0 or less if there is none. */
static double parallel_chord(const task *t, const tw_curve *curve)
{
    return curve->bulge == 0.0 ? curve->chord : curve->chord * parallel_radius(t, curve) / curve->radius;
}

/* May the parallel's end be moved back by half of the gap without leaving the parallel? */
static bool can_give(const task *t, const tw_curve *curve, double apart)
{
    if (apart > 0.25 * parallel_chord(t, curve)) return false;
    return curve->bulge == 0.0 || apart * apart <= 8.0 * TW_TOUCH_MM * parallel_radius(t, curve);
}

/* A hollow join so flat that the two parallels cross where they end, within TW_TOUCH_MM sideways: they share a node
 * there. d (1 - cos(turn/2)) is the miss sideways, d tan(turn/2) the way along. */
static bool flat_hollow(const task *t, const tw_curve *before, const tw_curve *after, join *j)
{
    double d = fabs(t->s), apart = tw_apart(j->end, j->start);
    if (apart * apart > 8.0 * d * TW_TOUCH_MM || tw_dot(j->in, j->out) <= 0.0) return false;
    if (!can_give(t, before, apart) || !can_give(t, after, apart)) return false;
    j->end = j->start = (tw_point){ (j->end.x + j->start.x) / 2.0, (j->end.y + j->start.y) / 2.0 };
    j->given = apart / 2.0;
    return true;
}

static join join_at(const task *t, const tw_curve *before, const tw_curve *after, bool path_loop)
{
    join j = { .in = tw_curve_arrives(before), .out = tw_curve_leaves(after) };
    j.end = beside(before->b, j.in, t->s);
    j.start = beside(after->a, j.out, t->s);
    if (tw_near(j.end, j.start, TW_NEAR_MM)) {
        j.end = j.start = (tw_point){ (j.end.x + j.start.x) / 2.0, (j.end.y + j.start.y) / 2.0 };
        j.kind = JOIN_SMOOTH;
    } else if (points_to_side(t, before, after, &j, path_loop)) {
        j.kind = JOIN_ROUND;
    } else {
        j.kind = flat_hollow(t, before, after, &j) ? JOIN_SMOOTH : JOIN_HOLLOW;
    }
    return j;
}

/* ---- strands ---- */

static tw_marks left_mark(const task *t) { return t->s > 0.0 ? COVERED : 0; }
static tw_marks right_mark(const task *t) { return t->s > 0.0 ? 0 : COVERED; }

/* A gap in a hollow is covered. It needs closing only where it is so small that the strands beside it might miss each
 * other by rounding. */
static void put_link(task *t, int from, int to)
{
    tw_point a = t->net.nodes[from], b = t->net.nodes[to];
    if (from == to || tw_near(a, b, 0.0) || !tw_near(a, b, LINK_MOST_MM)) return;
    tw_net_add(&t->net, tw_curve_between(a, b, 0.0), from, to, -1, COVERED, COVERED);
}

static void put_arc(task *t, tw_point a, tw_point b, double bulge, int from, int to, int source)
{
    tw_net_add(&t->net, tw_curve_between(a, b, t->s > 0.0 ? bulge : -bulge), from, to, source, left_mark(t), right_mark(t));
}

/* A cusp whose tangents turn by a hair more than half a turn is gone round the long way, in two arcs. */
static void put_round(task *t, const join *j, tw_point vertex, int source)
{
    double bulge = tw_bulge_of_turn(j->in, j->out);
    if (tw_cross(j->in, j->out) * t->s > 0.0 || bulge > 1.0 - 1e-12) {
        put_arc(t, j->end, j->start, bulge, j->end_node, j->start_node, source);
        return;
    }
    tw_point way = tw_minus(j->in, j->out);
    double out = fabs(t->s) / tw_length(way), eighth = bulge / (1.0 + sqrt(1.0 + bulge * bulge));  // tan(turn / 8)
    tw_point middle = { vertex.x + way.x * out, vertex.y + way.y * out };
    double each = (1.0 - eighth) / (1.0 + eighth);  // tan((full turn - turn) / 8)
    int node = tw_net_node(&t->net, middle);
    put_arc(t, j->end, middle, each, j->end_node, node, source);
    put_arc(t, middle, j->start, each, node, j->start_node, source);
}

/* The parallel turns as far as its edge, less what it has given at its ends: b = tan(turn/4), db = (1 + b^2)/4 dturn. */
static double parallel_bulge(const task *t, const tw_curve *curve, double given)
{
    double b = curve->bulge, less = b == 0.0 ? 0.0 : (1.0 + b * b) / 4.0 * given / parallel_radius(t, curve);
    return b > 0.0 ? b - less : b + less;
}

static void put_parallel(task *t, const tw_curve *curve, const join *from, const join *to, int source)
{
    tw_point a = from->start, b = to->end;
    if (parallel_chord(t, curve) > TW_NEAR_MM && !tw_near(a, b, 0.0)) {
        tw_curve parallel = tw_curve_between(a, b, parallel_bulge(t, curve, from->given + to->given));
        tw_net_add(&t->net, parallel, from->start_node, to->end_node, source, left_mark(t), right_mark(t));
    } else {
        put_link(t, from->start_node, to->end_node);
    }
}

/* The end of a parallel: a node of its own, unless the parallel has shrunk to a point. */
static int node_after(task *t, int before, tw_point point)
{
    return tw_near(t->net.nodes[before], point, TW_NEAR_MM) ? before : tw_net_node(&t->net, point);
}

/* Gives each join its nodes, in the order of the loop. */
static void put_nodes(task *t, join *joins, int count)
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
static void put_loop(task *t, int first, int count, bool path_loop)
{
    const tw_curve *curves = t->curves + first;
    join *joins = TW_NEW_ARRAY(t->arena, join, (size_t)count);
    for (int i = 0; i < count; i++) joins[i] = join_at(t, &curves[i > 0 ? i - 1 : count - 1], &curves[i], path_loop);
    put_nodes(t, joins, count);
    for (int i = 0; i < count; i++) {
        if (joins[i].kind == JOIN_ROUND) put_round(t, &joins[i], curves[i].a, t->curve_count + first + i);
        if (joins[i].kind == JOIN_HOLLOW) put_link(t, joins[i].end_node, joins[i].start_node);
        put_parallel(t, &curves[i], &joins[i], &joins[i + 1 < count ? i + 1 : 0], t->sources[first + i]);
    }
}

/* ---- witnesses ---- */

static bool is_clear(const task *t, tw_point p)
{
    double d = fabs(t->s), least = d - tw_min(CLEAR_MM, 1e-3 * d);
    for (int i = 0; i < t->curve_count; i++)
        if (tw_curve_nearer(&t->curves[i], p, least)) return false;
    return true;
}

typedef struct verdict { double uncovered, longest; int witness; } verdict;

static void hear(verdict *face, int edge, double weight, bool uncovered)
{
    face->uncovered += uncovered ? weight : -weight;
    if (!uncovered || weight <= face->longest) return;
    face->longest = weight;
    face->witness = edge;
}

/* The uncovered faces. The last question is asked once for each: do they lie on the wanted side? (An arc about a point
 * in which two loops touch may reach through the other loop.) */
static bool *uncovered_faces(task *t)
{
    verdict *faces = TW_NEW_ARRAY(t->arena, verdict, (size_t)t->net.face_count);
    for (int e = 0; e < t->net.edge_count; e++) {
        const tw_net_edge *edge = &t->net.edges[e];
        if (edge->gone) continue;
        bool ask = !(edge->left & COVERED) || !(edge->right & COVERED);
        bool clear = ask && is_clear(t, tw_curve_pull(&t->net.strands[edge->strand].curve, edge->middle));
        hear(&faces[t->net.face[2 * e]], e, edge->chord, clear && !(edge->left & COVERED));
        hear(&faces[t->net.face[2 * e + 1]], e, edge->chord, clear && !(edge->right & COVERED));
    }
    bool *uncovered = TW_NEW_ARRAY(t->arena, bool, (size_t)t->net.face_count);
    for (int f = 0; f < t->net.face_count; f++)
        uncovered[f] = faces[f].uncovered > 0.0
            && (tw_curves_wind(t->curves, t->curve_count, t->net.edges[faces[f].witness].middle) > 0) == (t->s < 0.0);
    return uncovered;
}

/* ---- the whole ---- */

static bool tie(task *t, bool careful)
{
    tw_net_start(&t->net, t->arena, 2 * t->curve_count);
    for (int i = 0; i < t->loop_count; i++) {
        int first = i > 0 ? t->loop_ends[i - 1] : 0;
        if (t->loop_ends[i] > first) put_loop(t, first, t->loop_ends[i] - first, t->path_loops[i]);
    }
    return tw_net_tie(&t->net, careful);
}

/* The distances that are tried: as asked, as asked but tied with care, then by and by a little more or less. */
static void tie_somehow(task *t)
{
    double asked = t->s;
    if (tie(t, false) || tie(t, true)) return;
    for (int i = 2; i < OFFSET_TRIES; i++) {
        double step = OFFSET_SLACK_MM * (i / 2) / (OFFSET_TRIES / 2);
        t->s = asked + (i & 1 ? step : -step);
        if (tie(t, true)) return;
    }
    t->s = asked;
    tie(t, true);
}

static bool is_path(tw_loop loop) { return loop.count == 2 && loop.vertices[0].bulge == 0.0 && loop.vertices[1].bulge == 0.0; }

static void take_curves(task *t, tw_outline outline)
{
    int room = 0;
    for (int i = 0; i < outline.count; i++) room += 2 * outline.loops[i].count;
    tw_curve *curves = TW_NEW_ARRAY(t->arena, tw_curve, (size_t)room);
    int *sources = TW_NEW_ARRAY(t->arena, int, (size_t)room), *ends = TW_NEW_ARRAY(t->arena, int, (size_t)outline.count);
    bool *paths = TW_NEW_ARRAY(t->arena, bool, (size_t)outline.count);
    int edge = 0;
    for (int i = 0; i < outline.count; i++) {
        paths[i] = is_path(outline.loops[i]);
        for (int j = 0; j < outline.loops[i].count; j++, edge++) {
            int made = tw_curves_of_edge(outline.loops[i].vertices[j], tw_vertex_after(outline.loops[i], j), curves + t->curve_count);
            for (int k = 0; k < made; k++) sources[t->curve_count++] = edge;
        }
        ends[i] = t->curve_count;
    }
    t->curves = curves;
    t->sources = sources;
    t->loop_ends = ends;
    t->path_loops = paths;
    t->loop_count = outline.count;
}

tw_outline tw_outline_offset(tw_arena *arena, tw_outline outline, double distance_mm)
{
    assert(isfinite(distance_mm));
    if (outline.count == 0 || fabs(distance_mm) < TW_NEAR_MM) return tw_outline_copy(arena, outline);
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    task t = { .arena = &working, .s = distance_mm };
    take_curves(&t, outline);
    tie_somehow(&t);
    bool *faces = uncovered_faces(&t);
    if (t.s > 0.0)
        for (int f = 0; f < t.net.face_count; f++) faces[f] = !faces[f];
    tw_outline result = tw_net_outline(&t.net, arena, faces);
    tw_arena_finish(&working);
    return result;
}
