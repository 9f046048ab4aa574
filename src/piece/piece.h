// SPDX-License-Identifier: GPL-3.0-or-later
/* piece: the blank, its faces and the cuts in it.
 *
 * A piece is a blank length x width x thickness, x along the grain, y across from the face edge, z from the back.
 * Each face has its own frame, seen from outside, right x up = outward:
 *
 *   face        right +x  up +y      back       right +x  up -y   (turned over about its length)
 *   face edge   right +x  up +z      back edge  right +x  up -z
 *   left end    right -y  up +z      right end  right +y  up +z
 */
#ifndef TW_PIECE_H
#define TW_PIECE_H

#include "base/base.h"
#include "job/job.h"
#include "outline/outline.h"

typedef enum tw_face {
    TW_SIDE_FACE, TW_SIDE_BACK, TW_SIDE_FACE_EDGE, TW_SIDE_BACK_EDGE, TW_SIDE_LEFT_END, TW_SIDE_RIGHT_END
} tw_face;
#define TW_FACE_COUNT 6

extern const char *const tw_face_words[];  // "face", "back", "face edge", ... NULL: choices of a job's key
tw_face tw_face_opposite(tw_face face);

/// A place in the piece's own frame, mm.
typedef struct tw_spot { double x, y, z; } tw_spot;
typedef struct tw_size { double length_mm, width_mm, thickness_mm; } tw_size;

tw_size tw_piece_size(const tw_piece *piece);
/// Unit vectors of a face's frame in the piece's frame.
typedef struct tw_frame { tw_spot right, up, out; } tw_frame;
tw_frame tw_face_frame(tw_face face);
/// How far a face extends to its right and up, and how deep the piece is behind it, mm.
tw_size tw_face_extent(tw_size piece, tw_face face);  // length_mm to the right, width_mm up, thickness_mm behind
/// The side of the piece that lies towards a direction of a face as seen, e.g. what is below when one looks at the face.
tw_face tw_face_below(tw_face face);

/// Where one piece lies in the frame of another: the images of its axes, unit vectors, and of its origin. A point p of the
/// piece is at + p.x * x + p.y * y + p.z * z there.
typedef struct tw_pose { tw_spot x, y, z, at; } tw_pose;

/// A prism of wood removed: an outline on one face, and a depth.
typedef struct tw_cut {
    int         piece, joint;   // indices into the job's lists
    const char *name;           // "mortise", "housing", "cheek"
    tw_face     face;
    tw_outline  outline;        // in the piece's own frame projected on that face: coordinates are distances to the
                                // right and up from the face's lower left corner as seen, mm
    double      depth_mm;       // from that face inwards, to the prism's bottom
    double      start_mm;       // how far below the face the prism begins; 0: it is open there. What lies above is other
                                // cuts' or wood: a leaning wall inside a tenon is a prism between its cheeks
    bool        through;
    double      lean_right, lean_up;  // how far the outline moves to the right and up for each mm deeper: 0 is a straight
                                // prism, walls square to the face. A cut made in a cradle or by a tilted blade leans
} tw_cut;

/// Where a place on a face, `in` mm behind it, lies in the piece's frame: right and up from the face's lower left corner.
tw_spot tw_face_spot(tw_size piece, tw_face face, double right_mm, double up_mm, double in_mm);
/// And back: x to the right and y up on the face, z how far behind it (negative: outside).
tw_spot tw_face_place(tw_size piece, tw_face face, tw_spot spot);
/// Depth at which a cut ends: its depth, or the whole piece when it goes through.
double tw_cut_depth_mm(tw_size piece, const tw_cut *cut);

#endif
