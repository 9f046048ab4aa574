// SPDX-License-Identifier: GPL-3.0-or-later
/* pose: how a piece lies in another frame, and what follows from several of them.
 *
 * A pose is a turn and a shift, p' = at + p.x x + p.y y + p.z z, with x, y, z unit vectors at right angles, right-handed.
 *     compose  (A B)(p) = A(B(p))                                                                        (1)
 *     inverse  p = (x.(p' - at), y.(p' - at), z.(p' - at))                                               (2)
 *     angle    sum of |a_i - b_i|^2 over the three axes = 8 sin^2(angle / 2), exact for small angles too  (3) */
#ifndef TW_POSE_H
#define TW_POSE_H

#include "piece/piece.h"

tw_spot tw_spot_plus(tw_spot a, tw_spot b);
tw_spot tw_spot_less(tw_spot a, tw_spot b);
tw_spot tw_spot_times(tw_spot a, double factor);
tw_spot tw_spot_cross(tw_spot a, tw_spot b);
double  tw_spot_product(tw_spot a, tw_spot b);  // scalar: a.x b.x + a.y b.y + a.z b.z
double  tw_spot_size(tw_spot a);

/// The frame itself: no turn, no shift.
tw_pose tw_pose_home(void);
/// A piece whose own pose is `inner` in a frame that lies at `outer`.
tw_pose tw_pose_compose(tw_pose outer, tw_pose inner);
tw_pose tw_pose_inverse(tw_pose pose);
tw_spot tw_pose_apply(tw_pose pose, tw_spot spot);
/// A direction: turned, not shifted.
tw_spot tw_pose_turn(tw_pose pose, tw_spot direction);
/// The greatest distance that a corner of a piece of that size has moved between two poses, mm.
double tw_pose_distance_mm(tw_pose a, tw_pose b, tw_size size);
/// The angle by which b is turned against a, 0 to pi.
double tw_pose_angle_rad(tw_pose a, tw_pose b);
/// True when its axes are unit vectors at right angles, right-handed, to a part in 1e9, and all is finite.
bool tw_pose_is_rigid(tw_pose pose);

/// How the end of one piece stands on a side of another, what goes in about its middle.
///
/// The end looks into the side. What runs along the other's grain runs towards its right end: the width, from face edge to
/// back edge, when the piece lies along; the thickness, from back to face, when it lies across; `reversed` turns both
/// half a turn about the length. So two alike pieces that take the two ends of a third face each other with their left
/// ends at the same height, whichever way the third lies.
///
/// It may lean: seen square on, from the side, its length leaves the normal of that side by rake_rad towards the right end of
/// the other, and seen along the other's grain by splay_rad towards its back edge (from a face) or its face (from an edge):
///     the way out  a = (normal + tan(rake) grain + tan(splay) across) / sqrt(1 + tan^2 rake + tan^2 splay)
/// Turned about its own length so that what runs along the grain stays in one plane with it: the axis square to that plane
/// is square to the grain too.
typedef struct tw_end_stand {
    tw_face end;                // of the piece that is brought: left or right end
    double  inset_mm;           // from that end to the shoulder, which stands on the side
    double  middle_y, middle_z; // of what goes in, in the frame of the piece that is brought
    tw_face from;               // side of the other: a face or an edge
    double  at_mm, across_mm;   // of its middle there: from the left end; from the face edge (faces) or the back (edges)
    bool    along, reversed;
    double  rake_rad, splay_rad;    // 0: square; as the other's frame has them, whether reversed or not; within a quarter turn
} tw_end_stand;
/// Pose of the piece that is brought, in the frame of the other.
tw_pose tw_end_pose(tw_size brought, tw_size other, const tw_end_stand *stand);

/// A box along the axes of a piece's own frame, mm.
typedef struct tw_block { tw_spot least, most; } tw_block;
tw_block tw_piece_block(tw_size size);
/// The block around the wood that one loop of a cut removes, in the piece's frame, kept within the piece.
tw_block tw_cut_block(tw_size size, const tw_cut *cut, int loop);
/// True when that block is the cut itself: a rectangle along the grain or across it.
bool tw_cut_is_block(const tw_cut *cut, int loop);

#endif
