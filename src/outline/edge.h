// SPDX-License-Identifier: GPL-3.0-or-later
/* edge: one edge of an outline by itself, and how two of them meet. Private to src/outline.
 *
 * A curve is a line or an arc of at most half a turn (longer arcs are split in two by tw_curves_of_edge). All sums are done
 * in the frame of the chord: x' along the chord from a, y' to its left. With L the chord, b the bulge:
 *
 *     radius        r = L (1 + b^2) / (4 |b|)                                                   (1)
 *     centre        (L/2, h),  h = L (1 - b^2) / (4 b)                                          (2)
 *     distance      |q - centre| - r = (|q|^2 - L q.x' - 2 h q.y') / (|q - centre| + r)         (3)
 *     tangents      the chord turned by -+ 2 atan b: cos = (1 - b^2)/(1 + b^2), sin = 2 b/(1 + b^2)  (4)
 *
 * (3) does not subtract two large numbers, so that an arc of a kilometre's radius is as exact as one of a millimetre. */
#ifndef TW_EDGE_H
#define TW_EDGE_H

#include "outline/outline.h"

#include <math.h>

/// Two nodes nearer than this are one: a tenth of TW_SAME_POINT_MM, and a thousand roundings at 10 m.
#define TW_NEAR_MM 1e-8
/// A point this near to a curve lies on it.
#define TW_TOUCH_MM 1e-9

typedef struct tw_curve {
    tw_point a, b;       // ends
    tw_point along;      // unit vector of the chord
    double   chord;      // its length, over 0
    double   bulge;      // 0: a line; size at most 1 (and rounding)
    double   rise;       // h of (2); arcs only
    double   radius;     // 0 for a line
    tw_point leaves, arrives;  // unit tangents at a and b, in the sense of travel
    tw_box   box;        // exact bounds
} tw_curve;

static inline tw_point tw_minus(tw_point p, tw_point q) { return (tw_point){ p.x - q.x, p.y - q.y }; }
static inline double tw_dot(tw_point p, tw_point q) { return p.x * q.x + p.y * q.y; }
static inline double tw_cross(tw_point p, tw_point q) { return p.x * q.y - p.y * q.x; }
static inline double tw_length(tw_point p) { return sqrt(p.x * p.x + p.y * p.y); }
static inline double tw_apart(tw_point p, tw_point q) { return tw_length(tw_minus(p, q)); }
static inline bool tw_near(tw_point p, tw_point q, double within_mm)
{
    double dx = p.x - q.x, dy = p.y - q.y;
    return dx * dx + dy * dy <= within_mm * within_mm;
}
static inline bool tw_boxes_apart(tw_box a, tw_box b, double by_mm)
{
    return a.x0 > b.x1 + by_mm || b.x0 > a.x1 + by_mm || a.y0 > b.y1 + by_mm || b.y0 > a.y1 + by_mm;
}
static inline tw_box tw_box_of_both(tw_box a, tw_box b)
{
    return (tw_box){ tw_min(a.x0, b.x0), tw_min(a.y0, b.y0), tw_max(a.x1, b.x1), tw_max(a.y1, b.y1) };
}
/// Is the point farther from the box than so much in x or in y?
static inline bool tw_box_beyond(tw_box box, tw_point p, double by_mm)
{
    return p.x < box.x0 - by_mm || p.x > box.x1 + by_mm || p.y < box.y0 - by_mm || p.y > box.y1 + by_mm;
}

/// a and b are different points; |bulge| <= 1.
tw_curve tw_curve_between(tw_point a, tw_point b, double bulge);
/// The parallel of a curve, between two points that lie beside its ends; for an arc: of the radius, over 0.
tw_curve tw_curve_parallel(const tw_curve *curve, tw_point a, tw_point b, double radius);
/// An arc about a point from one point to another, with the unit tangents that it has there. bulge over 0: counter-clockwise.
tw_curve tw_curve_about(tw_point a, tw_point b, double bulge, tw_point leaves, tw_point arrives);
/// The centre of an arc, seen from its start.
static inline tw_point tw_arc_centre_from_a(const tw_curve *arc)
{
    double half = arc->chord / 2.0;
    return (tw_point){ arc->along.x * half - arc->along.y * arc->rise, arc->along.y * half + arc->along.x * arc->rise };
}
/// The bulge of the part of a curve between two points on it (from before to), and the middle of an edge by its bulge.
double tw_curve_part_bulge(const tw_curve *curve, tw_point from, tw_point to);
static inline tw_point tw_edge_middle(tw_point a, tw_point b, double bulge)
{
    return (tw_point){ (a.x + b.x) / 2.0 + (b.y - a.y) / 2.0 * bulge, (a.y + b.y) / 2.0 - (b.x - a.x) / 2.0 * bulge };
}
/// The point of the endless line or the whole circle of the curve that is next to p.
tw_point tw_curve_pull(const tw_curve *curve, tw_point p);
/// Direction (of any length) from an end of an edge to the point of it that is so far from that end as the crow flies.
/// way: from that end to the other; bulge: as seen on that way; far <= length of way.
tw_point tw_edge_direction(tw_point way, double bulge, double far);
/// The point at the fraction 0 to 1 of the curve's length.
tw_point tw_curve_at(const tw_curve *curve, double fraction);
double   tw_curve_length(const tw_curve *curve);
/// Distance of a point from the curve (its ends included).
double tw_curve_distance(const tw_curve *curve, tw_point p);
/// Is the point nearer to the curve than so much? Same as tw_curve_distance() < limit, but cheaper.
bool tw_curve_nearer(const tw_curve *curve, tw_point p, double limit_mm);
/// Does the point lie on the curve, ends included, within so much sideways?
bool tw_curve_holds(const tw_curve *curve, tw_point p, double within_mm);
/// Where two curves cross between their ends; a point that both touch at an end may be left out. Returns 0, 1 or 2.
int tw_curves_cross(const tw_curve *one, const tw_curve *two, tw_point where[2]);

/// The edge between two vertices as curves: one, or two for an arc over half a turn; none if the ends are the same point.
int tw_curves_of_edge(tw_vertex v, tw_vertex next, tw_curve curves[2]);
static inline tw_vertex tw_vertex_after(tw_loop loop, int i) { return loop.vertices[i + 1 < loop.count ? i + 1 : 0]; }
static inline int tw_vertex_count(tw_outline outline)
{
    int count = 0;
    for (int i = 0; i < outline.count; i++) count += outline.loops[i].count;
    return count;
}

/// All edges of an outline as curves, in the order of its loops.
typedef struct tw_curve_list { tw_curve *items; int count; } tw_curve_list;
tw_curve_list tw_curves_of_outline(tw_arena *arena, tw_outline outline);

/// How often the curves turn round the point (counter-clockwise positive): 1 inside a tidy outline, 0 outside.
/// The point must not lie on a curve.
int tw_curves_wind(const tw_curve *curves, int count, tw_point p);

/// Area between an arc and its chord: counter-clockwise positive; the chord is given by its square.
double tw_segment_area(double chord_square_mm2, double bulge);

/// Has a loop of at least two edges an area that is more than rounding? (A line there and back has none.)
bool tw_loop_has_width(tw_loop loop);

/// Is the loop a line or arc there and back?
static inline bool tw_loop_is_path(tw_loop loop) { return loop.count == 2 && loop.vertices[0].bulge == -loop.vertices[1].bulge; }

/// The bulge of an arc that turns from one unit direction to another by the shorter way (half a turn: 1), always >= 0.
double tw_bulge_of_turn(tw_point from, tw_point to);

#endif
