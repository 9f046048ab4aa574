// SPDX-License-Identifier: GPL-3.0-or-later
/* clip: marks cut off exactly at the border of a box. */
#ifndef TW_CLIP_H
#define TW_CLIP_H

#include "draw/draw.h"

/// Draws what lies of the item inside the box (border included), moved by dx, dy. Lines and arcs stay lines and arcs;
/// a stroked outline that leaves the box falls into lines and arcs, a filled one stays an outline, closed along the
/// border. The item must not be a text.
void tw_draw_clipped(tw_sheet *onto, const tw_item *item, tw_box box, double dx, double dy);

#endif
