// SPDX-License-Identifier: GPL-3.0-or-later
/* overlay: two regions laid over each other. Private to src/outline. */
#ifndef TW_OVERLAY_H
#define TW_OVERLAY_H

#include "outline/edge.h"

typedef enum tw_overlay_part { TW_OVERLAY_COMMON, TW_OVERLAY_ONLY_A } tw_overlay_part;

/// The part of a that is in b too, or not in b, as loops (outer counter-clockwise, holes clockwise, largest first).
/// Both outlines tidy.
tw_outline tw_overlay(tw_arena *arena, tw_outline a, tw_outline b, tw_overlay_part part);

#endif
