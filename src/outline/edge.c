// SPDX-License-Identifier: GPL-3.0-or-later
/* Lines and arcs by themselves: tangents, middles, distances. The equations are in edge.h. */
#include "outline/edge.h"

#include <assert.h>

static const tw_point axes[4] = { { 1.0, 0.0 }, { 0.0, 1.0 }, { -1.0, 0.0 }, { 0.0, -1.0 } };

static tw_point turned(tw_point p, double c, double s) { return (tw_point){ p.x * c - p.y * s, p.x * s + p.y * c }; }

/* An arc reaches farthest in the direction e where its tangent is e turned a quarter (to the left on a
 * counter-clockwise arc); that lies r (1 - cos of the turn from the start) beyond a. */
static double reach(const tw_curve *arc, tw_point e, double least)
{
    double sense = arc->bulge > 0.0 ? 1.0 : -1.0;
    tw_point at = { -sense * e.y, sense * e.x };
    double s = sense * tw_cross(arc->leaves, at);
    if (s <= 0.0 || sense * tw_cross(at, arc->arrives) <= 0.0) return least;
    double c = tw_dot(arc->leaves, at), rest = c > 0.0 ? s * s / (1.0 + c) : 1.0 - c;  // 1 - c
    return tw_max(least, tw_dot(arc->a, e) + arc->radius * rest);
}

static void set_box(tw_curve *curve)
{
    tw_point a = curve->a, b = curve->b;
    curve->box = (tw_box){ tw_min(a.x, b.x), tw_min(a.y, b.y), tw_max(a.x, b.x), tw_max(a.y, b.y) };
    if (curve->bulge == 0.0) return;
    curve->box.x1 = reach(curve, axes[0], curve->box.x1);
    curve->box.y1 = reach(curve, axes[1], curve->box.y1);
    curve->box.x0 = -reach(curve, axes[2], -curve->box.x0);
    curve->box.y0 = -reach(curve, axes[3], -curve->box.y0);
}

static tw_curve chord_between(tw_point a, tw_point b, double bulge)
{
    tw_point way = tw_minus(b, a);
    double chord = tw_length(way), scale = 1.0 / chord;
    assert(chord > 0.0 && fabs(bulge) < 1.0 + 1e-6);
    return (tw_curve){ .a = a, .b = b, .along = { way.x * scale, way.y * scale }, .chord = chord, .bulge = bulge };
}

/* (1), (2) */
static void set_circle(tw_curve *arc)
{
    double b = arc->bulge, quarter = arc->chord / (4.0 * b);
    arc->radius = fabs(quarter) * (1.0 + b * b);
    arc->rise = quarter * (1.0 - b * b);
}

/* (4) */
tw_curve tw_curve_between(tw_point a, tw_point b, double bulge)
{
    tw_curve curve = chord_between(a, b, bulge);
    if (fabs(bulge) * curve.chord < 1e-13) curve.bulge = bulge = 0.0;
    curve.leaves = curve.arrives = curve.along;
    if (bulge != 0.0) {
        double b2 = bulge * bulge, scale = 1.0 / (1.0 + b2), c = (1.0 - b2) * scale, s = 2.0 * bulge * scale;
        curve.leaves = turned(curve.along, c, -s);
        curve.arrives = turned(curve.along, c, s);
        set_circle(&curve);
    }
    set_box(&curve);
    return curve;
}

tw_curve tw_curve_parallel(const tw_curve *curve, tw_point a, tw_point b, double radius)
{
    tw_curve parallel = *curve;
    parallel.a = a;
    parallel.b = b;
    if (curve->bulge != 0.0) {
        double part = radius / curve->radius;
        parallel.chord *= part;
        parallel.rise *= part;
        parallel.radius = radius;
    }
    set_box(&parallel);
    return parallel;
}

tw_curve tw_curve_about(tw_point a, tw_point b, double bulge, tw_point leaves, tw_point arrives)
{
    tw_curve arc = chord_between(a, b, bulge);
    arc.leaves = leaves;
    arc.arrives = arrives;
    set_circle(&arc);
    set_box(&arc);
    return arc;
}

double tw_bulge_of_turn(tw_point from, tw_point to)
{
    double c = tw_dot(from, to), s = fabs(tw_cross(from, to));
    double longer = sqrt((1.0 + fabs(c)) / 2.0), shorter = s / (2.0 * longer);
    double half_cos = c > 0.0 ? longer : shorter, half_sin = c > 0.0 ? shorter : longer;
    return half_sin / (1.0 + half_cos);
}

/* ---- parts ---- */

/* The part of an arc turns by at most half a turn. A short one is known best from its chord c: its rise over the chord
 * is r - sqrt(r^2 - c^2/4), and the bulge twice that over c. Near half a turn the chord hardly changes with the turn, and
 * the directions from the centre serve. */
double tw_curve_part_bulge(const tw_curve *curve, tw_point from, tw_point to)
{
    double chord = tw_apart(from, to), r = curve->radius, sense = curve->bulge > 0.0 ? 1.0 : -1.0;
    if (curve->bulge == 0.0 || chord == 0.0) return 0.0;
    if (chord < r) return sense * chord / 2.0 / (r + sqrt(r * r - chord * chord / 4.0));
    tw_point centre = tw_arc_centre_from_a(curve);
    tw_point f = tw_minus(tw_minus(from, curve->a), centre), t = tw_minus(tw_minus(to, curve->a), centre);
    double far_f = tw_length(f), far_t = tw_length(t);
    return sense * tw_bulge_of_turn((tw_point){ f.x / far_f, f.y / far_f }, (tw_point){ t.x / far_t, t.y / far_t });
}

/* With S, C the sine and cosine of the turn from tangent to chord, (4), and s = (far / chord) S, the direction is the
 * chord turned by asin s - asin S. */
tw_point tw_edge_direction(tw_point way, double bulge, double far)
{
    if (bulge == 0.0) return way;
    double scale = 1.0 / (1.0 + bulge * bulge), S = 2.0 * bulge * scale, C = (1.0 - bulge * bulge) * scale;
    double s = tw_min(1.0, far / tw_length(way)) * S, c = sqrt(tw_max(0.0, 1.0 - s * s));
    return turned(way, c * C + s * S, s * C - c * S);
}

tw_point tw_curve_at(const tw_curve *curve, double fraction)
{
    tw_point a = curve->a, b = curve->b;
    if (curve->bulge == 0.0) return (tw_point){ a.x + (b.x - a.x) * fraction, a.y + (b.y - a.y) * fraction };
    double turn = 2.0 * atan(curve->bulge) * fraction;  // half of the turn from a to here: the chord leaves a so far from its tangent
    tw_point way = turned(curve->leaves, cos(turn), sin(turn));
    double chord = 2.0 * curve->radius * fabs(sin(turn));
    return (tw_point){ a.x + way.x * chord, a.y + way.y * chord };
}

double tw_curve_length(const tw_curve *curve)
{
    return curve->bulge == 0.0 ? curve->chord : 4.0 * atan(fabs(curve->bulge)) * curve->radius;
}

/* ---- distances ---- */

static tw_point in_frame(const tw_curve *curve, tw_point p)
{
    tw_point q = tw_minus(p, curve->a);
    return (tw_point){ tw_dot(curve->along, q), tw_cross(curve->along, q) };
}

/* Does the point (in the frame) lie in the sector between the centre and the arc, or in its continuation outwards? */
static bool in_sector(const tw_curve *curve, tw_point q)
{
    double half = curve->chord / 2.0, sense = curve->bulge > 0.0 ? 1.0 : -1.0;
    return sense * (curve->rise * q.x - half * q.y) >= 0.0 && sense * (-curve->rise * (q.x - curve->chord) - half * q.y) >= 0.0;
}

/* (3) */
static double beyond_circle(const tw_curve *curve, tw_point q)
{
    double power = q.x * q.x + q.y * q.y - curve->chord * q.x - 2.0 * curve->rise * q.y;
    double dx = q.x - curve->chord / 2.0, dy = q.y - curve->rise;
    return power / (sqrt(dx * dx + dy * dy) + curve->radius);
}

double tw_curve_distance(const tw_curve *curve, tw_point p)
{
    tw_point q = in_frame(curve, p);
    if (curve->bulge == 0.0) {
        if (q.x <= 0.0) return tw_apart(p, curve->a);
        return q.x >= curve->chord ? tw_apart(p, curve->b) : fabs(q.y);
    }
    if (in_sector(curve, q)) return fabs(beyond_circle(curve, q));
    return tw_min(tw_apart(p, curve->a), tw_apart(p, curve->b));
}

tw_point tw_curve_pull(const tw_curve *curve, tw_point p)
{
    tw_point q = in_frame(curve, p), u = curve->along;
    if (curve->bulge == 0.0) return (tw_point){ p.x + u.y * q.y, p.y - u.x * q.y };
    double dx = q.x - curve->chord / 2.0, dy = q.y - curve->rise, from_centre = sqrt(dx * dx + dy * dy);
    double back = from_centre > 0.0 ? -beyond_circle(curve, q) / from_centre : 0.0;
    return (tw_point){ p.x + (u.x * dx - u.y * dy) * back, p.y + (u.y * dx + u.x * dy) * back };
}

bool tw_curve_nearer(const tw_curve *curve, tw_point p, double limit_mm)
{
    if (limit_mm <= 0.0 || tw_box_beyond(curve->box, p, limit_mm)) return false;
    return tw_curve_distance(curve, p) < limit_mm;
}

bool tw_curve_holds(const tw_curve *curve, tw_point p, double within_mm)
{
    if (tw_box_beyond(curve->box, p, within_mm)) return false;
    return tw_curve_distance(curve, p) <= within_mm;
}

/* ---- curves of an outline ---- */

static tw_point point_of(tw_vertex v) { return (tw_point){ v.x, v.y }; }

/* An arc over half a turn: each half has the bulge tan(turn / 8). */
static int halves_of(tw_point a, tw_point b, double bulge, tw_curve *curves)
{
    tw_point middle = tw_edge_middle(a, b, bulge);
    double half = bulge / (1.0 + sqrt(1.0 + bulge * bulge));
    curves[0] = tw_curve_between(a, middle, half);
    curves[1] = tw_curve_between(middle, b, half);
    return 2;
}

int tw_curves_of_edge(tw_vertex v, tw_vertex next, tw_curve curves[2])
{
    tw_point a = point_of(v), b = point_of(next);
    if (a.x == b.x && a.y == b.y) return 0;
    if (fabs(v.bulge) > 1.0 + 1e-9) return halves_of(a, b, v.bulge, curves);
    curves[0] = tw_curve_between(a, b, v.bulge);
    return 1;
}

tw_curve_list tw_curves_of_outline(tw_arena *arena, tw_outline outline)
{
    int room = 0;
    for (int i = 0; i < outline.count; i++) room += 2 * outline.loops[i].count;
    tw_curve_list list = { TW_NEW_ARRAY(arena, tw_curve, (size_t)room), 0 };
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++)
            list.count += tw_curves_of_edge(outline.loops[i].vertices[j], tw_vertex_after(outline.loops[i], j), list.items + list.count);
    return list;
}

/* ---- winding ---- */

/* A point exactly on the line of a chord counts as a hair above it (and a hair to the right of an upright one). */
static bool left_of(const tw_curve *curve, double cross)
{
    if (cross != 0.0) return cross > 0.0;
    return curve->along.x != 0.0 ? curve->along.x > 0.0 : curve->along.y < 0.0;
}

/* The chords are a polygon, whose turns are counted by a ray to the right; an arc adds or takes the flat segment
 * between itself and its chord. */
static int curve_winds(const tw_curve *curve, tw_point p)
{
    bool from_below = curve->a.y <= p.y, to_below = curve->b.y <= p.y;
    if (curve->bulge == 0.0 && from_below == to_below) return 0;
    if (from_below == to_below && tw_box_beyond(curve->box, p, 0.0)) return 0;
    tw_point q = in_frame(curve, p);
    bool left = left_of(curve, q.y);
    int winds = 0;
    if (from_below && !to_below && left) winds++;
    if (!from_below && to_below && !left) winds--;
    if (curve->bulge != 0.0 && left != (curve->bulge > 0.0) && beyond_circle(curve, q) < 0.0) winds += curve->bulge > 0.0 ? 1 : -1;
    return winds;
}

int tw_curves_wind(const tw_curve *curves, int count, tw_point p)
{
    int winds = 0;
    for (int i = 0; i < count; i++) winds += curve_winds(&curves[i], p);
    return winds;
}
