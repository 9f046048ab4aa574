// SPDX-License-Identifier: GPL-3.0-or-later
/* sliding_parts: the steps in which a sliding dovetail is worked out. Inside this kind only. */
#ifndef TW_SLIDING_PARTS_H
#define TW_SLIDING_PARTS_H

#include "joint/sliding.h"

/// Cutter, angle, depth, neck and the rest of the section, each noted as a figure.
void tw_sliding_propose(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s);
/// Where the housing begins and ends across the piece.
void tw_sliding_propose_stops(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s);
/// Way, follower, cutter for the waste, guides.
void tw_sliding_choose_tools(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s);
/// Notch and body of the housed piece.
void tw_sliding_propose_end(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s);

#endif
