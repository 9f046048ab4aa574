// SPDX-License-Identifier: GPL-3.0-or-later
/* check: the findings of the whole, that no joint sees alone. */
#ifndef TW_CHECK_H
#define TW_CHECK_H

#include "joint/joint.h"
#include "space/space.h"

/// Timbers that the handbook does not know, pieces without a joint, names of the shop's tools, cuts of different joints
/// that meet in one piece. Findings go to the context's list.
void tw_check_whole(tw_joint_context *context, const tw_joint_plan *plans, int plan_count);

/// Cuts of different joints that take the same wood, touch, or leave a thin web; cuts that leave a thin wall to a side.
void tw_check_meetings(tw_joint_context *context, const tw_joint_plan *plans, int plan_count);
/// Entries that come out alike, or as left and right.
void tw_check_kin(tw_joint_context *context, const tw_joint_plan *plans, int plan_count);
/// What the wood of each piece says once all cuts are in it: short grain, a piece that falls in two.
void tw_check_wood(tw_joint_context *context, const tw_joint_plan *plans, int plan_count);

/// Profiles that take wood from a joint, leave too little beside it, or run where another piece stands or a tusk bears.
void tw_check_profiles(tw_joint_context *context, const tw_joint_plan *plans, int plan_count);

/// Loops that stay open, pieces that stand in each other, groups that no joint binds, what cannot be put together.
void tw_check_space(tw_joint_context *context, const tw_joint_plan *plans, const tw_space *space);

#endif
