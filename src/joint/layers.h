// SPDX-License-Identifier: GPL-3.0-or-later
/* layers: works of a plan in layers; each work of a layer comes after all of the layer before. */
#ifndef TW_JOINT_LAYERS_H
#define TW_JOINT_LAYERS_H

#include "joint/joint.h"

typedef struct tw_layers {
    tw_joint_context *context;
    tw_joint_plan    *plan;
    int before, before_end;   // the layer before, as a span of the plan's works
    int now;                  // where this layer begins
} tw_layers;

tw_layers tw_layers_begin(tw_joint_context *context, tw_joint_plan *plan);
void tw_layers_add(tw_layers *layers, tw_work work);
/// Ends the layer; an empty one is none.
void tw_layers_close(tw_layers *layers);

/* ---- trenches across a piece, that are copied from a stop at the nearest end ---- */

/// Cuts that share one setting of stop and hand. As the maker sees the face with `down` on the table, a place near the end
/// that lies to the left has its stop at the left: a left hand; its mirror image is a right hand. When the cut is alike
/// turned end for end it has no hand: the piece is turned.
typedef struct tw_stop_group { tw_face end; double to_end_mm; tw_hand hand; int places; const char *words; } tw_stop_group;

/// Groups of the places of one piece; the array lives in the arena. count is set. pieces: so many are alike, for the words.
/// turns: the cut is alike turned end for end.
tw_stop_group *tw_stop_groups(const tw_joint_context *context, const tw_amounts *at, double length_mm, tw_face face, tw_face down, bool turns,
                              int pieces, int *count);
/// Does the left end of the piece lie to the left of one who looks at the face with `down` on the table?
bool tw_left_end_is_left(tw_face face, tw_face down);
/// "mortises" and ", 1 of 2, left hand" after it as is needed.
const char *tw_group_name(const tw_joint_context *context, const char *name, const tw_stop_group *groups, int count, int which);

#endif
