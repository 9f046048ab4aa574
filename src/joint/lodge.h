// SPDX-License-Identifier: GPL-3.0-or-later
/* lodge: shapes of the parts that joints make (wedges, pegs, bolts), and where they sit. Private to the joint kinds.
 *
 * A part's own frame is that of a piece: x along it, from the end that goes in first to the end that is struck or turned. */
#ifndef TW_LODGE_H
#define TW_LODGE_H

#include "joint/joint.h"

/// What a wedge's slope takes from its blank: the straight side is z = 0, the ramp z = tip_mm + x slope. tip_mm >= 0: how thick
/// it is at its tip; slope > 0: the tangent of its angle. All lives in the arena.
tw_cut tw_lodge_ramp(tw_arena *arena, tw_size blank, double tip_mm, double slope);

/// What is taken all round, over `deep_mm` from one end of the blank, so that `stays` is left: an outline about 0, 0, y to the
/// right and z up, which is put in the middle of that end. It is symmetric about z. deep_mm >= the blank's length: all through.
tw_cut tw_lodge_turned(tw_arena *arena, tw_size blank, tw_face end, double deep_mm, tw_outline stays);
/// A regular hexagon about 0, 0, flats square to z; across_mm from flat to flat.
tw_outline tw_lodge_hexagon(tw_arena *arena, double across_mm);

/// Pose of a blank whose first end has its middle at `from`, x along `along`, z along `up`: unit vectors at right angles.
tw_pose tw_lodge_pose(tw_size blank, tw_spot from, tw_spot along, tw_spot up);

/// Index of the plan's part of that name, -1 when it has none.
int tw_lodge_part(const tw_joint_plan *plan, const char *name);
/// Gives a part its cuts: a copy in the arena.
void tw_lodge_cuts(tw_arena *arena, tw_part *part, const tw_cut *cuts, int count);

#endif
