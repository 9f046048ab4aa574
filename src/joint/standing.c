// SPDX-License-Identifier: GPL-3.0-or-later
/* An axis e of the piece is the sum of its shares of the piece's three known directions; its image is the same sum of their
 * images: image(e) = (e.right) right' + (e.up) up' + (e.out) out'. The origin follows from the one spot that is known. */
#include "joint/standing.h"

#include <assert.h>

#include "piece/pose.h"


static tw_spot image_of(tw_spot axis, tw_frame mine, tw_frame there)
{
    tw_spot flat = tw_spot_plus(tw_spot_times(there.right, tw_spot_product(axis, mine.right)), tw_spot_times(there.up, tw_spot_product(axis, mine.up)));
    return tw_spot_plus(flat, tw_spot_times(there.out, tw_spot_product(axis, mine.out)));
}

tw_pose tw_pose_of(tw_frame mine, tw_frame there, tw_spot my_spot, tw_spot base_spot)
{
    tw_pose pose = { .x = image_of((tw_spot){ 1, 0, 0 }, mine, there), .y = image_of((tw_spot){ 0, 1, 0 }, mine, there),
                     .z = image_of((tw_spot){ 0, 0, 1 }, mine, there) };
    pose.at = tw_spot_less(base_spot, tw_pose_apply(pose, my_spot));
    assert(tw_pose_is_rigid(pose));
    return pose;
}
