// SPDX-License-Identifier: GPL-3.0-or-later
/* picture: solids in pictorial projection on paper, with numbers that point at them. Private to the papers. */
#ifndef TW_PICTURE_H
#define TW_PICTURE_H

#include "sheet/bodies.h"

/// A number in a ring that points at one of the solids.
typedef struct tw_picture_mark { int stood; const char *text; } tw_picture_mark;

typedef struct tw_picture {
    tw_sight        sight;
    const tw_stood *list;  int count;
    const tw_picture_mark *marks;  int mark_count;
    tw_role         role;           // of the edges
    const int      *thin_source;    // [count] or NULL: edges of facets of this source are drawn thin: where a piece is broken off
} tw_picture;

/// Draws it as large as the room takes, in its middle. Rings stand at both sides of it, each with a line to an edge of what it
/// names that is seen; what is hidden altogether gets none. Returns the factor from mm of wood to mm of paper, 0 when nothing
/// can be seen.
double tw_picture_draw(tw_sheet *sheet, const tw_picture *picture, tw_box room);

#endif
