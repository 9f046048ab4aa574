// SPDX-License-Identifier: GPL-3.0-or-later
/* marks: the places along an axis of a piece where the wood can change: its two sides, and all corners, turning points of
 * arcs, beginnings and bottoms of its cuts. Between two marks next to each other a cut without sloping or bent walls stays the
 * same; where walls slope or bend, sums go in small steps. */
#ifndef TW_MARKS_H
#define TW_MARKS_H

#include "piece/fibres.h"

#define TW_MARKS_SAME_MM 1e-6  // marks nearer than this are one

typedef struct tw_marks { double *at; size_t count, room; } tw_marks;  // ascending once they are in order

void tw_marks_add(tw_arena *arena, tw_marks *marks, double at_mm);
/// Sorts, joins what is the same, drops what lies outside of 0 to most_mm; 0 and most_mm are always the ends.
void tw_marks_order(tw_arena *arena, tw_marks *marks, double most_mm);
/// Adds those of one cut; for a cut that leans those of both its ends.
void tw_marks_of_cut(tw_arena *arena, tw_marks *marks, tw_size size, const tw_cut *cut, tw_axis axis);
/// Those of its section at x: where the edges of the prism pass through the plane square to the grain. Only a cut that leans
/// along the grain, or one in an end, has any.
void tw_marks_where_pierced(tw_arena *arena, tw_marks *marks, tw_size size, const tw_cut *cut, double x_mm, tw_axis axis);
/// All of a piece, in order.
tw_marks tw_marks_of_wood(const tw_wood *wood, tw_axis axis);

/// Does a wall of the cut slope or bend, as one goes along the axis from one place to another?
bool tw_cut_bends(const tw_wood *wood, int cut, tw_axis axis, double from_mm, double to_mm);

#endif
