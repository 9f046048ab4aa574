// SPDX-License-Identifier: GPL-3.0-or-later
/* between: what two cuts of a piece share, and how much wood they leave between them. Reckoned on lines through the place
 * where the blocks around the two face each other: through every stretch between marks, and each half millimetre where walls bend. */
#ifndef TW_BETWEEN_H
#define TW_BETWEEN_H

#include "piece/marks.h"

#define TW_TOUCH_SHARE_MM3 0.5  // what two cuts share below this is a touch: a shaving

/// Wood that both cuts take: exact where walls are square, else good to a few in a thousand of the smaller one.
typedef struct tw_shared { double volume_mm3; tw_block box; } tw_shared;
tw_shared tw_cuts_share(tw_wood *wood, int a, int b);

/// Wood left between cut a and cut b along an axis, a's gap first or b's, as thin as it gets: no other cut takes of it.
/// b -1: between a and the side of the piece at the axis's start, -2: at its end.
typedef struct tw_between {
    bool     found;       // there is a place with less than was asked for
    double   least_mm;    // 0: they touch
    double   area_mm2;    // of all such places, across the axis
    tw_block box;         // around them
} tw_between;
tw_between tw_cuts_between(tw_wood *wood, int a, int b, tw_axis axis, double less_than_mm);

#endif
