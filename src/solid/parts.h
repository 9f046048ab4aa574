// SPDX-License-Identifier: GPL-3.0-or-later
/* parts: what the files of solid share: the cuts as prisms with straight walls, the planes they lie in, and plane regions. */
#ifndef TW_SOLID_PARTS_H
#define TW_SOLID_PARTS_H

#include "solid/solid.h"

/* ---- cuts as prisms ---- */

/// A loop of a cut's outline with its arcs as chords. bends[i] is the angle of the chord from point i, 0 for a straight edge.
typedef struct tw_chords { tw_point *points; double *bends; int count; } tw_chords;
tw_chords tw_loop_chords(tw_arena *arena, tw_loop loop, double chord_mm);
/// Counter-clockwise positive.
double tw_chords_area_mm2(const tw_chords *loop);
/// The same loop the other way round; each edge keeps its bend, where there are any.
void tw_chords_turn_round(tw_chords *loop);

/// A place of the prism: at + r * right + u * up + d * axis, with (r, u) in its chords and d from near to far.
typedef struct tw_prism {
    int        cut;
    tw_spot    at, right, up, axis;     // axis: per mm of depth behind the face, with the lean
    double     near_mm, far_mm;         // where the walls are; open ends count from the face to the far side
    double     before_mm, beyond_mm;    // the same, open ends carried on outside of the blank
    tw_chords *loops;  int loop_count;
    tw_block   around;
} tw_prism;
tw_prism tw_prism_of(tw_arena *arena, tw_size size, const tw_cut *cut, int index, double chord_mm);
/// It takes nothing of the blank.
bool tw_prism_is_empty(const tw_prism *prism);
/// A place of its outline, so deep, in the piece's frame.
tw_spot tw_prism_spot(const tw_prism *prism, tw_point at, double depth_mm);

/// A block that holds nothing yet, to be widened.
tw_block tw_block_of_nothing(void);
void tw_block_widen(tw_block *block, tw_spot spot);
/// The two come within near_mm of each other.
bool tw_blocks_meet(tw_block a, tw_block b, double near_mm);

/* ---- plane regions: the one place where GEOS is met ---- */

typedef struct tw_region tw_region;          // a set of polygons in a plane; NULL is the empty one
typedef struct tw_regions tw_regions;        // what makes them; frees them all

/// snapped: on a grid of 0.0001 mm, slower and surer. quick: rectangles are put together without an overlay, where not snapped;
/// the same regions, but their wires may begin at other points.
tw_regions *tw_regions_begin(bool snapped, bool quick);
void tw_regions_end(tw_regions *regions);
/// Polygons of loops by the even-odd rule.
tw_region *tw_region_of(tw_regions *regions, const tw_chords *loops, int count);
tw_region *tw_region_union(tw_regions *regions, tw_region *const *list, int count);
tw_region *tw_region_common(tw_regions *regions, tw_region *a, tw_region *b);
tw_region *tw_region_less(tw_regions *regions, tw_region *a, tw_region *b);
/// The polygons: wires of points, outer counter-clockwise first, then holes clockwise. polygon_of[i]: which polygon wire i is of.
typedef struct tw_rings { tw_chords *wires; int *polygon_of; int count, polygon_count; } tw_rings;
tw_rings tw_region_rings(tw_regions *regions, tw_arena *arena, tw_region *region);
/// Triangles of one polygon with holes: three indices into the points of all wires, one wire after the other, each triangle
/// counter-clockwise. Returns NULL when it cannot be done. count is set.
int (*tw_region_triangles(tw_regions *regions, tw_arena *arena, const tw_chords *wires, int wire_count, int *count))[3];

/* ---- faces not yet joined ---- */

/// A polygon in space, its first wire outside.
typedef struct tw_face_made {
    tw_spot  out;
    double   off_mm;
    tw_spot  right, up;          // of its plane: right x up = out
    tw_chords *wires;  int wire_count;   // in the plane's own coordinates
    int      source;
    double   bend_rad;
} tw_face_made;
typedef struct tw_faces { tw_face_made *items; size_t count, room; } tw_faces;

/// The faces that one wall of a prism gives: that on an edge of one of its loops. False when that is not so simple: none is made.
bool tw_wall_make(tw_arena *arena, const tw_prism *prisms, int count, int which, const tw_chords *loop, int edge, tw_faces *faces);
/// All faces of the blank less the prisms.
tw_faces tw_faces_make(tw_arena *arena, tw_regions *regions, tw_size size, const tw_prism *prisms, int count);
/// The wood in a plane within the blank: a place of a wire is x * right + y * up + off_mm * out. out: unit vector.
typedef struct tw_section { tw_rings rings; tw_spot right, up, out; double off_mm; } tw_section;
tw_section tw_faces_section(tw_arena *arena, tw_regions *regions, tw_size size, const tw_prism *prisms, int count, tw_spot out,
    double off_mm);
/// Joins them: points nearer than same_mm are one, edges meet at every point that lies on them; with_triangles: and triangles.
void tw_faces_join(tw_arena *arena, tw_regions *regions, const tw_faces *faces, double same_mm, bool with_triangles,
    tw_solid *solid);

#endif
