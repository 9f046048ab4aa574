// SPDX-License-Identifier: GPL-3.0-or-later
/* standing: how one piece stands in the frame of another when three directions and one spot of it are known there. */
#ifndef TW_JOINT_STANDING_H
#define TW_JOINT_STANDING_H

#include "joint/joint.h"

/// The pose of a piece of which three directions at right angles and one spot are known in its own frame and in the base's:
/// `mine` (right, up, out) comes to lie along `there`, and my_spot on base_spot. Both frames have the same hand.
tw_pose tw_pose_of(tw_frame mine, tw_frame there, tw_spot my_spot, tw_spot base_spot);

#endif
