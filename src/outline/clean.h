// SPDX-License-Identifier: GPL-3.0-or-later
/* clean: an outline rid of places where it doubles back on itself or crosses itself within rounding. Private to
 * src/outline. */
#ifndef TW_CLEAN_H
#define TW_CLEAN_H

#include "outline/edge.h"

/// The same region with a border that does not cross itself; parts without width are left out.
tw_outline tw_cleaned(tw_arena *arena, tw_outline outline);
/// Without vertices that lie within TW_NEAR_MM / 2 of the straight line past them. The first vertex of a loop stays.
tw_outline tw_straightened(tw_arena *arena, tw_outline outline);

#endif
