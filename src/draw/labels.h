// SPDX-License-Identifier: GPL-3.0-or-later
/* labels: small texts and marks set where there is room for them on a sheet.
 *
 * What stands on the sheet already is left alone: a label touches no text, line or arrow head of it (faint and filled grey
 * parts may lie under it). Of all free places on a grid of rings about what is meant the nearest is taken. Draw the rest first. */
#ifndef TW_LABELS_H
#define TW_LABELS_H

#include "draw/draw.h"

/// Finds a place for a box that is wide x high, its middle as near as can be to `wish` and not farther than most_mm away, all of
/// it within `within` (x0 > x1: anywhere) and air_mm from everything on the sheet. Returns false, *middle untouched, when there is none.
bool tw_sheet_free_place(const tw_sheet *sheet, tw_point wish, double wide, double high, double air_mm, double most_mm, tw_box within,
                         tw_point *middle);
/// A text near the point it is about: on it when that is free, else beside it with a thin line from the text to a dot on the
/// point. Returns false, with nothing drawn, when there is no free place within most_mm.
bool tw_draw_label(tw_sheet *sheet, tw_point on, double size_mm, bool bold, double most_mm, tw_box within, const char *text);

#endif
