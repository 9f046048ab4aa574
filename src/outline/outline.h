// SPDX-License-Identifier: GPL-3.0-or-later
/* outline: closed loops of lines and arcs, exact.
 *
 * A vertex carries the bulge of the edge that leaves it: bulge = tan(included angle / 4), positive when the arc
 * turns counter-clockwise, 0 for a line, 1 for a half circle (as in DXF). Millimetres; x right, y up. A loop closes
 * from its last vertex to its first. A full circle is two vertices with bulge 1 (or -1). Material or pocket lies to
 * the left: outer loops run counter-clockwise, holes clockwise, and tw_outline_tidy() brings any input to that form. */
#ifndef TW_OUTLINE_H
#define TW_OUTLINE_H

#include "base/base.h"

typedef struct tw_point { double x, y; } tw_point;
typedef struct tw_vertex { double x, y, bulge; } tw_vertex;
typedef struct tw_loop { tw_vertex *vertices; int count; } tw_loop;
/// A region: outer loops and holes, in any order; count 0 is the empty region.
typedef struct tw_outline { tw_loop *loops; int count; } tw_outline;
typedef struct tw_box { double x0, y0, x1, y1; } tw_box;  // x0 > x1: empty

#define TW_SAME_POINT_MM 1e-7      // points nearer than this are one point: above rounding at 10 m, far below 1 µm
#define TW_OUTLINE_MOST_VERTICES 4000
#define TW_OUTLINE_MOST_MM 100000.0

/* ---- making and moving (all results live in the arena) ---- */
tw_outline tw_outline_copy(tw_arena *arena, tw_outline outline);
tw_outline tw_outline_of_loop(tw_arena *arena, const tw_vertex *vertices, int count);
tw_outline tw_outline_rectangle(tw_arena *arena, double x0, double y0, double x1, double y1);
/// A rectangle whose corners are rounded with the radius (0 to half of the shorter side; at half: a slot or circle).
tw_outline tw_outline_rounded(tw_arena *arena, double x0, double y0, double x1, double y1, double radius_mm);
tw_outline tw_outline_circle(tw_arena *arena, tw_point centre, double radius_mm);
tw_outline tw_outline_scaled(tw_arena *arena, tw_outline outline, double factor);  // factor > 0
tw_outline tw_outline_moved(tw_arena *arena, tw_outline outline, double dx, double dy);
tw_outline tw_outline_turned(tw_arena *arena, tw_outline outline, double angle_rad);  // about the origin
/// Mirror image across the y axis (x -> -x); loops keep their meaning (outer stays counter-clockwise).
tw_outline tw_outline_mirrored(tw_arena *arena, tw_outline outline);

/* ---- asking ---- */
double tw_loop_area_mm2(tw_loop loop);          // signed: counter-clockwise positive, arcs exact
double tw_outline_area_mm2(tw_outline outline); // sum over the loops: holes count negative when tidy
double tw_outline_length_mm(tw_outline outline);
tw_box tw_outline_bounds(tw_outline outline);   // arcs exact
/// 1 inside, 0 on the border (within TW_SAME_POINT_MM), -1 outside. The outline must be tidy.
int tw_outline_side(tw_outline outline, tw_point point);
/// Distance from the point to the nearest border point; infinity for an empty outline.
double tw_outline_distance(tw_outline outline, tw_point point);
/// The greatest distance from a border point of a to the border of b, and back again (Hausdorff), sampled densely enough on
/// each edge that the error is below 1e-7 mm + a hundredth of the answer. Infinity if just one of the two is empty, 0 if both.
double tw_outline_difference_mm(tw_arena *arena, tw_outline a, tw_outline b);
/// The smallest radius of any arc that bends into the region (a hollow corner of a pocket); infinity if there is none,
/// 0 if two edges meet in a hollow (reflex seen from outside = convex seen from inside) corner sharper than 1e-6 rad.
double tw_outline_least_hollow_radius_mm(tw_outline outline);

/* ---- regions ---- */
typedef enum tw_outline_fault {
    TW_OUTLINE_GOOD,
    TW_OUTLINE_EMPTY,        // no loops
    TW_OUTLINE_NOT_FINITE,   // a coordinate or bulge is not finite, or over TW_OUTLINE_MOST_MM
    TW_OUTLINE_TOO_MANY,     // more than TW_OUTLINE_MOST_VERTICES
    TW_OUTLINE_FLAT,         // a loop without area
    TW_OUTLINE_CROSSES,      // a loop crosses itself or another
    TW_OUTLINE_HOLE_OUTSIDE  // a later loop lies outside the first
} tw_outline_fault;
/// Checks an outline as a maker writes it (first loop outside, the others holes, any direction) and brings it to the
/// tidy form: zero-length edges dropped, directions set. Loops that touch in points are allowed; edges that lie on each
/// other over more than 1e-6 mm are not (TW_OUTLINE_CROSSES). A spike or a crossing narrower than TW_SAME_POINT_MM may pass
/// as rounding: what is reckoned from such an outline is right but for that width along its border.
/// where: set to a place of the fault when there is one.
tw_outline_fault tw_outline_tidy(tw_arena *arena, tw_outline raw, tw_outline *tidy, tw_point *where);

/// The region grown (distance > 0) or shrunk (distance < 0) by a distance; exact: lines stay lines, arcs arcs, corners
/// on the growing side become arcs about their vertex. Holes take part. Loops vanish, split and merge as they must.
/// The outline must be tidy; a loop of two vertices with bulge 0 (a line there and back) may be grown, and is the path
/// of a cutter in a slot of its own width. The result is tidy; empty when nothing is left.
/// Determinate: equal input gives equal output. First vertex of each loop: the one lowest in x, then y; loops by
/// size of area, largest first. Every border point lies within 1e-6 mm of the distance from the outline.
/// A result of several outer loops is tidy in the sense that each outer loop with its holes is.
/// Regions that grow until they just touch: along a line they become one, in a point they stay two.
tw_outline tw_outline_offset(tw_arena *arena, tw_outline outline, double distance_mm);

/// Area that two regions share, exact but for places where borders run within TW_SAME_POINT_MM of each other.
double tw_outline_common_area_mm2(tw_arena *arena, tw_outline a, tw_outline b);

/// A connected part of a that is not in b: its middle, its area (mm2), and the greatest depth of it inside a beyond b,
/// which is how far it reaches from b's border (from its own if b is empty). The middle may lie outside of a bent part.
typedef struct tw_patch { tw_point middle; double area_mm2, depth_mm; } tw_patch;
/// The patches of a outside b larger than least_mm2, in the order of a's border. count is set.
tw_patch *tw_outline_patches(tw_arena *arena, tw_outline a, tw_outline b, double least_mm2, int *count);

#endif
