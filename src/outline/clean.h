// SPDX-License-Identifier: GPL-3.0-or-later
/* clean: an outline rid of places where it crosses itself by less than a point. Private to src/outline. */
#ifndef TW_CLEAN_H
#define TW_CLEAN_H

#include "outline/edge.h"

/// The same region with a border that does not cross itself. Lines there and back are kept as they are, and parts of the
/// border that have no width become such lines (or arcs).
tw_outline tw_cleaned(tw_arena *arena, tw_outline outline);

#endif
