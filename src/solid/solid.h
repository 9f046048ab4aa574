// SPDX-License-Identifier: GPL-3.0-or-later
/* solid: a piece with all its cuts as closed plane faces, and how such solids look from any side.
 *
 * A solid is the blank less all cuts. Arcs become chords that lie within chord_mm of them. In each plane that carries a side
 * of the blank or of a cut, the wood just below the plane and the wood just above it are reckoned as plane regions; where
 * there is wood below and none above, the solid has a face that looks up, and the other way round. So sides of different
 * cuts may lie in one plane, and nothing depends on the order of the cuts.
 *
 * GEOS does the plane regions and the triangles; no other folder of the program uses it. */
#ifndef TW_SOLID_H
#define TW_SOLID_H

#include "draw/draw.h"
#include "piece/pose.h"

#define TW_SOLID_SAME_MM 3e-4   // points nearer than this are one point of a solid: far below what a saw or a printer repeats
#define TW_SOLID_SAME_MOST_MM 5e-3  // the same, where the skin does not close otherwise: half of the least that is shown on papers
#define TW_SOLID_CHORD_MM 0.02  // usual distance of chords from their arc: not to be seen or felt

/// A closed line of points of a face, indices into the solid's points.
typedef struct tw_wire { int *points; int count; } tw_wire;

/// A plane face: the first wire runs counter-clockwise as seen from outside, the others round holes, clockwise.
typedef struct tw_facet {
    tw_spot  out;                     // unit vector out of the wood
    tw_wire *wires;  int wire_count;
    int      source;                  // the side that made it: -1 - tw_face of the blank, or the index of a cut
    double   bend_rad;                // angle of the chord of a curved wall; 0: flat
} tw_facet;

/// An edge where two facets meet, and which. Edges between chords of one curved wall are smooth: not drawn.
typedef struct tw_crease { int from, to, left, right; bool smooth; } tw_crease;

typedef struct tw_solid {
    tw_spot   *points;     int point_count;
    tw_facet  *facets;     int facet_count;
    tw_crease *creases;    int crease_count;
    int      (*triangles)[3];  int triangle_count;  // counter-clockwise as seen from outside
    int       *facet_of;   // [triangle_count]: the facet that each triangle is a part of
    bool       closed;     // every edge is shared by exactly two facets (four where two bodies touch in it)
} tw_solid;

/// The blank less the cuts. size > 0; chord_mm > 0. Cuts outside the blank take nothing. All wood gone: no facets, closed.
tw_solid *tw_solid_make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double chord_mm);
/// The same without triangles, for views alone: in half of the time or less. Facets and their wires may come in another order.
tw_solid *tw_solid_make_to_look_at(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double chord_mm);
/// Volume within, from the triangles.
double tw_solid_volume_mm3(const tw_solid *solid);

/* ---- looking at solids ---- */

/// A parallel view: unit vectors in the frame of what is looked at: right and up on paper, toward the eye.
typedef struct tw_sight { tw_spot right, up, toward; } tw_sight;
/// A piece seen square on one of its faces, in the face's frame (piece.h).
tw_sight tw_sight_of_face(tw_face face);
/// Pictorial: three sides are seen, in isometric projection (ISO 5456-3): x to the right and back, z upright. For frames with
/// z up, x to the right and y away from the viewer (space.h).
tw_sight tw_sight_pictorial(void);
/// The same sight from a quarter of a turn farther round the upright axis, so many times: from the left front, the left back ...
tw_sight tw_sight_turned(tw_sight sight, int quarters);
tw_point tw_sight_place(tw_sight sight, tw_spot spot);

/// A solid somewhere.
typedef struct tw_stood { const tw_solid *solid; tw_pose pose; int mark; } tw_stood;  // mark: the caller's own

/// What is seen of an edge, in mm of the thing looked at, on paper's axes.
typedef struct tw_stroke {
    tw_point from, to;
    bool     hidden;      // behind wood
    int      stood;       // whose edge: index into the list looked at
    bool     curved;      // a chord of a curve
    int      left, right; // facets of its solid that meet there
} tw_stroke;
typedef struct tw_strokes { tw_stroke *items; size_t count, room; } tw_strokes;

/// All edges of the solids as seen: creases that are not smooth, and the outer line of curved walls; parted where they pass
/// behind wood. Hidden parts are left out unless with_hidden is set; a hidden part that lies under a visible stroke is left out.
/// Strokes that continue each other are one.
tw_strokes tw_view_make(tw_arena *arena, tw_sight sight, const tw_stood *list, int count, bool with_hidden);
/// The box around all that is seen (its outline, hidden or not).
tw_box tw_view_reach(tw_sight sight, const tw_stood *list, int count);
/// The strokes on a sheet: scale times mm of the thing, its 0, 0 at `at` on paper. Chords of curved walls that lie on one
/// circle become one arc, so that dashes run on.
void tw_view_draw(tw_sheet *sheet, const tw_strokes *strokes, double scale, tw_point at, tw_role visible, tw_role hidden);

/// The piece with all that lies less than in_mm behind one of its faces taken away, and in `section` the wood that this plane
/// cuts, in the face's frame. For sections: hatch `section`, and look at the rest with tw_sight_of_face(face). to_look_at: made
/// as by tw_solid_make_to_look_at().
tw_solid *tw_solid_cut_open(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, tw_face face, double in_mm, double chord_mm,
                            bool to_look_at, tw_outline *section);

/// That wood alone, without the rest: quicker. Its loops may have fewer points along straight sides.
tw_outline tw_solid_section(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, tw_face face, double in_mm,
    double chord_mm);

/* ---- STL ---- */

/// Binary STL: header, then each triangle with its normal; mm. Points are taken as they are.
void tw_stl_put(const tw_solid *solid, const char *title, tw_sink *sink);

#endif
