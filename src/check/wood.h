// SPDX-License-Identifier: GPL-3.0-or-later
/* wood: what the checks of one piece's wood share. Private to src/check. */
#ifndef TW_CHECK_WOOD_H
#define TW_CHECK_WOOD_H

#include "joint/piece_cuts.h"
#include "piece/pose.h"

typedef struct tw_wood_of { tw_joint_context *context; const tw_piece *piece; tw_size size; tw_piece_cuts cuts; } tw_wood_of;

/// The middle of a box as a maker measures it: from the left end, the face edge and the back.
const char *tw_wood_place(const tw_joint_context *context, tw_block box);
/// The later in the job of two cuts' joints; -1 for an end. One of the two is a cut.
const tw_joint *tw_wood_joint(const tw_wood_of *wood, int one, int other);

#endif
