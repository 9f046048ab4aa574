// SPDX-License-Identifier: GPL-3.0-or-later
/* joint_picture: a joint as a picture, home and drawn apart, its pieces broken off a little way from it. Private to the papers. */
#ifndef TW_JOINT_PICTURE_H
#define TW_JOINT_PICTURE_H

#include "sheet/bodies.h"
#include "space/space.h"

/// Draws both side by side, in a narrow room one below the other, into the room, with their captions: the first of the joint's meetings. space may be NULL; where it
/// has the joint placed, the picture shows it as it stands there. Returns false when there is nothing to show.
bool tw_joint_picture_draw(tw_sheet *sheet, const tw_bodies *bodies, const tw_space *space, int plan, tw_box room);

#endif
