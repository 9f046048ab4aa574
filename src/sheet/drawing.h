// SPDX-License-Identifier: GPL-3.0-or-later
/* drawing: one drawing at a time for the screen, where the papers put the same drawings on pages.
 *
 * Only what stands in the drawing is worked out: solids of its own pieces, not of the whole job. Its texts are at least
 * TW_DRAWING_TEXT_MM high, and say which amount they come from (tw_item.source), so that a maker changes it where it stands. */
#ifndef TW_DRAWING_H
#define TW_DRAWING_H

#include "sheet/papers.h"

#define TW_DRAWING_LEAST_MM 70.0   // width that may be asked
#define TW_DRAWING_MOST_MM 500.0
#define TW_DRAWING_TEXT_MM 2.5     // no capital is lower

/// What is asked for. what, with its name:
///
///     whole            the three views                        picture   the whole, home
///     apart            the whole, with the numbers of steps   piece     NAME: setting-out drawing
///     joint, profile   NAME: in section, and as a picture     template  NAME, "T1": board and edge, not to scale
///     grain            NAME of a piece: fibres, short grain    card      key of a step (figures.h): the piece on the table
///
/// number: of "whole", "picture", "apart": the group, from 1 (0 is 1), where the pieces do not all hang together.
typedef struct tw_drawing_ask { const char *what, *name; int number; double width_mm; } tw_drawing_ask;

/// The drawing on a sheet of its own, as wide as asked (kept within the two limits above; wider only where its texts need it),
/// as high as it needs: no frame, no title block, no size to hold to. NULL when there is nothing such: no such kind or name,
/// or nothing to draw of it (a joint that cannot be made, a step without a template). It lives in the arena; input->bodies may
/// be NULL.
const tw_sheet *tw_drawing_make(tw_arena *arena, const tw_paper_input *input, tw_drawing_ask ask);

#endif
