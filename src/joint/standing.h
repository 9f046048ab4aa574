// SPDX-License-Identifier: GPL-3.0-or-later
/* standing: where a place on a face lies in its piece, and how one piece stands in the frame of another when three
 * directions and one spot of it are known there. */
#ifndef TW_JOINT_STANDING_H
#define TW_JOINT_STANDING_H

#include "joint/joint.h"

/// A place on a face as seen from outside (right and up from its lower left corner, deep below it) in the piece's frame.
tw_spot tw_face_spot(tw_size piece, tw_face face, double right_mm, double up_mm, double deep_mm);

/// The pose of a piece of which three directions at right angles and one spot are known in its own frame and in the base's:
/// `mine` (right, up, out) comes to lie along `there`, and my_spot on base_spot. Both frames have the same hand.
tw_pose tw_pose_of(tw_frame mine, tw_frame there, tw_spot my_spot, tw_spot base_spot);

#endif
