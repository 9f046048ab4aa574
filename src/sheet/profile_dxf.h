// SPDX-License-Identifier: GPL-3.0-or-later
/* profile_dxf: the outlines of one profile alone, full size: to be cut as a template, or printed and drawn round. */
#ifndef TW_PROFILE_DXF_H
#define TW_PROFILE_DXF_H

#include "joint/joint.h"

/// A sheet with what is left of the piece as it is seen on each face that the profile shapes (layer "cut", arcs true), the blank
/// ("faint"), and the places of a curve ("centre"). The first lies with the face's lower left corner at 0, 0; others above it.
/// NULL for a profile that cannot be made.
const tw_sheet *tw_profile_dxf_sheet(tw_arena *arena, const tw_job *job, const tw_joint_plan *plan);
/// Draws one of its shapes with the face's lower left corner at dx, dy: what the DXF holds of it.
void tw_profile_outline_draw(tw_sheet *sheet, const tw_job *job, const tw_joint_plan *plan, int shape, double dx, double dy);
/// The part of its first shape that is printed full size, in the face's frame; empty (x0 > x1) for tapers, chamfers and round-overs,
/// which are gauged.
tw_box tw_profile_print_box(const tw_job *job, const tw_joint_plan *plan);
/// The name of its file without the ending: the profile's own, its spaces as hyphens.
const char *tw_profile_file_name(tw_arena *arena, const tw_joint_plan *plan);

#endif
