// SPDX-License-Identifier: GPL-3.0-or-later
/* piece_cuts: all cuts of one piece together, whichever joint or profile asks for them. */
#ifndef TW_PIECE_CUTS_H
#define TW_PIECE_CUTS_H

#include "joint/joint.h"

typedef struct tw_piece_cuts { tw_cut *cuts; int count; } tw_piece_cuts;

/// [piece_count], in the order of the plans. cut.joint is the index of its plan.
tw_piece_cuts *tw_piece_cuts_gather(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count);
/// "the mortise of rail to post", or "the left end" for -1 at the beginning of a run, "the right end" at its end.
const char *tw_bound_words(tw_arena *arena, const tw_job *job, const tw_cut *cuts, int cut, bool at_left);

#endif
