// SPDX-License-Identifier: GPL-3.0-or-later
/* space_views: pieces placed in space, seen true from three sides. Private to the papers. */
#ifndef TW_SPACE_VIEWS_H
#define TW_SPACE_VIEWS_H

#include "draw/draw.h"
#include "space/space.h"

typedef enum tw_side_seen { TW_SEEN_FRONT, TW_SEEN_ABOVE, TW_SEEN_LEFT, TW_SEEN_RIGHT } tw_side_seen;

/// A stretch of an edge as it is seen: u to the right, v up, mm of wood.
typedef struct tw_stretch { double u0, v0, u1, v1; } tw_stretch;

#define TW_VIEW_PIECES_MOST 80  // pieces of one net that are drawn

/// The visible stretches of the edges of a net's pieces; what other wood stands in front of is left out. members: [count]
/// instances. made is set to their number. The list lives in the arena.
tw_stretch *tw_view_visible(tw_arena *arena, const tw_space *space, const int *members, int count, tw_side_seen side, int *made);

/// Three views of a net with its size, first or third angle with its symbol, on a sheet of its own: top at y = 0, left
/// border at x = 0. Says the scale ("1 : 10") and how high it is.
const char *tw_views_draw(tw_sheet *sheet, const tw_space *space, const tw_net *net, const int *members, const tw_job *job, double width_mm,
                          double most_high_mm, double *height_mm);

/// The symbol of the way of projection and its name: left end at x, middle at y. It is 45 x 12 mm.
void tw_draw_projection(tw_sheet *sheet, double x, double y, bool third);

#endif
