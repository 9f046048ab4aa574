// SPDX-License-Identifier: GPL-3.0-or-later
/* strokes: lines of a view made tidy: none lies on another, straight ones that go on are one. */
#ifndef TW_SOLID_STROKES_H
#define TW_SOLID_STROKES_H

#include "solid/solid.h"

void tw_strokes_add(tw_arena *arena, tw_strokes *strokes, tw_stroke stroke);
/// Visible strokes first, then hidden ones; what lies under an earlier stroke is left out.
tw_strokes tw_strokes_tidy(tw_arena *arena, const tw_strokes *strokes);

#endif
