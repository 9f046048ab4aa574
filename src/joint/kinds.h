// SPDX-License-Identifier: GPL-3.0-or-later
/* kinds: the joint kinds that the table in joint.c lists, one file each. */
#ifndef TW_JOINT_KINDS_H
#define TW_JOINT_KINDS_H

#include "joint/joint.h"

extern const tw_joint_kind tw_forked_tusks;
extern const tw_joint_kind tw_mortise_and_tenon;
extern const tw_joint_kind tw_single_tusk;
extern const tw_joint_kind tw_slip_tenon;
extern const tw_joint_kind tw_housing_joint;
extern const tw_joint_kind tw_cross_lap;
extern const tw_joint_kind tw_edge_lap;
extern const tw_joint_kind tw_housed_bridle;
extern const tw_joint_kind tw_cross_dowel;
extern const tw_joint_kind tw_finger_joint;
extern const tw_joint_kind tw_through_dovetail;

/* profiles: the files of src/profile */
extern const tw_joint_kind tw_arch_profile;
extern const tw_joint_kind tw_taper_profile;
extern const tw_joint_kind tw_chamfer_profile;
extern const tw_joint_kind tw_round_over_profile;
extern const tw_joint_kind tw_rounded_profile;
extern const tw_joint_kind tw_sliding_dovetail;

#endif
