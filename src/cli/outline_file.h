// SPDX-License-Identifier: GPL-3.0-or-later
/* outline_file: an outline from JSON: {"loops": [[[x, y, bulge], ...], ...]} in mm, the first loop outside, others holes.
 * Only outline_file.c meets jansson. */
#ifndef TW_OUTLINE_FILE_H
#define TW_OUTLINE_FILE_H

#include "base/base.h"
#include "outline/outline.h"

/// Reads and tidies an outline; [x, y] stands for [x, y, 0]. Returns false with *place, *wrong and *right set.
/// file: as named in *place.
bool tw_outline_read(tw_arena *arena, tw_text text, const char *file, tw_outline *outline, tw_place *place, const char **wrong,
                     const char **right);

#endif
