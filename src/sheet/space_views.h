// SPDX-License-Identifier: GPL-3.0-or-later
/* space_views: pieces placed in space, seen true from three sides. Private to the papers. */
#ifndef TW_SPACE_VIEWS_H
#define TW_SPACE_VIEWS_H

#include "sheet/bodies.h"
#include "space/space.h"

typedef enum tw_side_seen { TW_SEEN_FRONT, TW_SEEN_ABOVE, TW_SEEN_LEFT, TW_SEEN_RIGHT } tw_side_seen;

#define TW_VIEW_PIECES_MOST 80  // pieces of one net that are drawn

/// From the front one looks along y: x runs to the right, z up (space.h).
tw_sight tw_sight_of_side(tw_side_seen side);

/// Three views of a net with its size, first or third angle with its symbol, on a sheet of its own: top at y = 0, left
/// border at x = 0. Says the scale ("1 : 10") and how high it is.
const char *tw_views_draw(tw_sheet *sheet, const tw_bodies *bodies, const tw_space *space, int net, double width_mm, double most_high_mm,
                          double *height_mm);

/// The sign of the projection with its words, left border at x, middle at y: 40 mm wide, 10 mm high.
void tw_draw_projection(tw_sheet *sheet, double x, double y, bool third);

#endif
