// SPDX-License-Identifier: GPL-3.0-or-later
/* Offset: the region grown or shrunk by a distance d.
 *
 * The strands (see strands.h) are tied into a net (see net.h), and the faces of the net are told apart:
 *
 *   covered: nearer than d to the outline, or on its wrong side. uncovered: at least d away on the wanted side.
 *
 * Every edge of the net bears witness on its two faces: the side towards its source is covered; the other side is
 * uncovered if the edge's middle is no nearer than d to the whole outline, and covered otherwise. Witnesses count by
 * their length, so that a few edges within rounding of the truth cannot turn a face over. The shrunk region is the union
 * of the uncovered faces; the grown one is what they leave of the plane.
 *
 * Where a slot is exactly 2 d wide both walls give the same strand; laid together, both of its sides are covered, and
 * nothing of no width remains.
 *
 * When the witnesses on a face contradict each other, or the net cannot lie on a plane, rounding is in the way, or the
 * outline crosses itself by less than a point. Then it is tried again with more care: with the thorough strands, with nodes
 * splitting all strands that they lie on, at last with the vertices moved by a little. The try with the least doubt counts,
 * and what comes of it is rid of places where it doubles back on itself within rounding. */
#include "outline/clean.h"
#include "outline/strands.h"

#include <assert.h>

#define CLEAR_MM 2e-8         // an edge nearer than d by no more than this is at d: twice what makes nodes one
#define MOVED_MM 7e-8         // most that joined nodes have been moved by
#define NO_DOUBT_MM 1e-6      // length of false witnesses that is of no account
#define NOT_PLANAR_MM 1e-5    // as bad as so much doubt
#define COARSE 5.0            // how many times more widely nodes are made one, when that is tried
#define SHAKE_MM 4e-7         // most that vertices are moved by
#define TRIES 10

/* Is any curve nearer to the point than the limit? What is near is mostly near along the outline too: so the search goes
 * both ways from the curve that was too near the last time. */
static bool is_nearer(tw_offset_task *t, tw_point p, double limit_mm)
{
    int count = t->curve_count, up = t->last_near, down = up;
    if (limit_mm <= 0.0) return false;
    for (int i = 0; i < count; i++) {
        int at = i & 1 ? (down = down > 0 ? down - 1 : count - 1) : up;
        if (!(i & 1)) up = up + 1 < count ? up + 1 : 0;
        if (tw_box_beyond(t->boxes[at], p, limit_mm) || tw_curve_distance(&t->curves[at], p) >= limit_mm) continue;
        t->last_near = at;
        return true;
    }
    return false;
}

/* The middle of an edge may lie beside its strand by as much as its nodes have been moved: if it is too near by no more
 * than that, it is asked again where it belongs. */
static bool is_clear(tw_offset_task *t, const tw_net_edge *edge)
{
    double d = fabs(t->s), least = d - tw_min(CLEAR_MM * t->coarse, d / 20.0);
    if (!is_nearer(t, edge->middle, least)) return true;
    if (is_nearer(t, edge->middle, d - MOVED_MM * t->coarse)) return false;
    return !is_nearer(t, tw_curve_pull(&t->net.strands[edge->strand].curve, edge->middle), least);
}

/* What has been said of a face, in mm of edges, and the longest edge that says it is uncovered. */
typedef struct verdict { double uncovered, covered, longest; int witness; } verdict;

static void hear(verdict *face, int edge, double weight, bool uncovered)
{
    *(uncovered ? &face->uncovered : &face->covered) += weight;
    if (!uncovered || weight <= face->longest) return;
    face->longest = weight;
    face->witness = edge;
}

static bool on_wanted_side(const tw_offset_task *t, tw_point p)
{
    return (tw_curves_wind(t->curves, t->curve_count, p) > 0) == (t->s < 0.0);
}

/* strict: an edge that is clear is asked as well on which side of the outline it lies. (An arc about a point in which two
 * loops touch may reach through the other loop.) Elsewhere that cannot be doubted, for nothing lies between a clear edge
 * and its source. */
static verdict *hear_all(tw_offset_task *t, bool strict)
{
    verdict *faces = TW_NEW_ARRAY(t->arena, verdict, (size_t)t->net.face_count);
    for (int e = 0; e < t->net.edge_count; e++) {
        const tw_net_edge *edge = &t->net.edges[e];
        if (edge->gone) continue;
        bool ask = !(edge->left & TW_COVERED) || !(edge->right & TW_COVERED);
        bool clear = ask && is_clear(t, edge);
        if (clear && strict) clear = on_wanted_side(t, edge->middle);
        hear(&faces[t->net.face[2 * e]], e, edge->chord, clear && !(edge->left & TW_COVERED));
        hear(&faces[t->net.face[2 * e + 1]], e, edge->chord, clear && !(edge->right & TW_COVERED));
    }
    return faces;
}

/* The uncovered faces. The side is asked once for each, of its longest witness. */
static bool *judge(tw_offset_task *t, bool strict, double *doubt_mm)
{
    verdict *faces = hear_all(t, strict);
    bool *uncovered = TW_NEW_ARRAY(t->arena, bool, (size_t)t->net.face_count);
    *doubt_mm = 0.0;
    for (int f = 0; f < t->net.face_count; f++) {
        *doubt_mm += tw_min(faces[f].uncovered, faces[f].covered);
        uncovered[f] = faces[f].uncovered > faces[f].covered && on_wanted_side(t, t->net.edges[faces[f].witness].middle);
    }
    return uncovered;
}

/* ---- tries ---- */

/* What one try came to. */
typedef struct attempt { tw_net net; bool *uncovered; bool planar; double doubt_mm; } attempt;

static attempt attempt_at(tw_offset_task *t, bool careful)
{
    attempt a;
    tw_offset_put_strands(t);
    a.planar = tw_net_tie(&t->net, careful);
    a.uncovered = judge(t, careful, &a.doubt_mm);
    a.net = t->net;
    return a;
}

/* A net that cannot lie on a plane is a fault of some place; where it matters it raises doubts as well. */
static double fault_mm(const attempt *a) { return a->doubt_mm + (a->planar ? 0.0 : NOT_PLANAR_MM); }

static bool is_good(const attempt *a) { return a->planar && a->doubt_mm <= NO_DOUBT_MM; }

/* Moves every vertex by up to so much, each its own way, always the same. */
static tw_outline shaken(tw_arena *arena, tw_outline outline, double most_mm)
{
    tw_outline moved = tw_outline_copy(arena, outline);
    uint32_t state = 1;
    for (int i = 0; i < moved.count; i++)
        for (int j = 0; j < moved.loops[i].count; j++) {
            tw_vertex *v = &moved.loops[i].vertices[j];
            state = state * 1664525u + 1013904223u;
            v->x += most_mm * ((state >> 8) / 8388608.0 - 1.0);
            state = state * 1664525u + 1013904223u;
            v->y += most_mm * ((state >> 8) / 8388608.0 - 1.0);
        }
    return moved;
}

/* First the same net is judged more strictly. Then the thorough strands of the outline, without needless vertices, are
 * tied; then nodes are made one more widely; at last the vertices are moved a little, so that strands that lie within
 * rounding of each other part. */
static attempt try_with_care(tw_offset_task *t, tw_outline outline, attempt best)
{
    best.uncovered = judge(t, true, &best.doubt_mm);
    t->thorough = true;
    tw_outline straight = tw_straightened(t->arena, outline);
    for (int i = 0; i < TRIES && !is_good(&best); i++) {
        t->coarse = i == 1 ? COARSE : 1.0;
        tw_offset_take(t, i < 2 ? straight : shaken(t->arena, straight, SHAKE_MM * (i - 1) / (TRIES - 2)));
        attempt next = attempt_at(t, true);
        if (fault_mm(&next) < fault_mm(&best)) best = next;
    }
    return best;
}

tw_outline tw_outline_offset(tw_arena *arena, tw_outline outline, double distance_mm)
{
    assert(isfinite(distance_mm));
    if (outline.count == 0 || fabs(distance_mm) < TW_NEAR_MM) return tw_outline_ordered(arena, outline);
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_offset_task t = { .arena = &working, .s = distance_mm, .coarse = 1.0 };
    tw_offset_take(&t, outline);
    attempt best = attempt_at(&t, false);
    bool doubtful = !is_good(&best);
    if (doubtful) best = try_with_care(&t, outline, best);
    if (distance_mm > 0.0)
        for (int f = 0; f < best.net.face_count; f++) best.uncovered[f] = !best.uncovered[f];
    tw_outline result = tw_net_outline(&best.net, arena, best.uncovered);
    tw_arena_finish(&working);
    if (doubtful && result.count > 0) result = tw_cleaned(arena, result);
    return result;
}
