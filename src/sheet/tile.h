// SPDX-License-Identifier: GPL-3.0-or-later
/* tile: an endless canvas, true to size, cut into pages that a common printer takes. */
#ifndef TW_TILE_H
#define TW_TILE_H

#include "draw/draw.h"

typedef struct tw_tiling {
    tw_paper    paper;
    double      margin_mm;   // left white all round: common printers cannot print there
    double      overlap_mm;  // what neighbours show alike; 8 or more
    const char *footer;      // one line at the foot of each page: what it belongs to; shortened to fit
} tw_tiling;
/// Margin 10 mm, overlap 12 mm, no footer.
tw_tiling tw_tiling_default(tw_paper paper);

/// The pages of the canvas, row by row from the upper left, upright or lying, whichever needs fewer of them (upright when
/// equal). The canvas is a sheet of any size; what is drawn outside of it is lost. Each page: the marks clipped to its
/// field, the scale bars, the words on printing, the footer. Where there are several: page names (column letter, row
/// number: "A1" is the upper left one), register crosses that fall together, the lines to cut to, and a map of the pages.
/// A text stands whole on one page, the one that holds its anchor, and is moved inward (at last made smaller) to fit.
/// count is set. The pages live in the arena. Names: the canvas's own, with "-A1" when there are several.
tw_sheet **tw_sheet_tile(tw_arena *arena, const tw_sheet *canvas, tw_tiling tiling, int *count);

#endif
