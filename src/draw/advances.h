// SPDX-License-Identifier: GPL-3.0-or-later
/* advances: the compiled-in table of character widths (inside draw only; advances.c is printed by scripts/advances.py). */
#ifndef TW_ADVANCES_H
#define TW_ADVANCES_H

#include <stdint.h>

#define TW_FONT_UNITS 2048.0          // units to the em of both faces
#define TW_FONT_CAPITAL_UNITS 1493.0  // height of a capital H in both faces: 0.729 em

/// Advance width, lowest and highest ink above the base line, in 1/2048 em.
typedef struct tw_glyph { uint16_t advance; int16_t low, high; } tw_glyph;
/// Characters first to last stand at glyphs[start] and on.
typedef struct tw_glyph_run { uint32_t first, last; int start; } tw_glyph_run;
typedef struct tw_glyph_face { const tw_glyph_run *runs; int run_count; const tw_glyph *glyphs; } tw_glyph_face;

extern const tw_glyph_face tw_glyph_faces[2];  // plain, bold

#endif
