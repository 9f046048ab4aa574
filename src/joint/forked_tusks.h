// SPDX-License-Identifier: GPL-3.0-or-later
/* forked tusks, between its three files: proportions and checks, work, drawing.
 *
 * u runs outward along the tenon, 0 at the outer surface of the mortised piece; v along the tenon's width, 0 at its
 * middle, positive towards the tusk's head. Figures and sums: design section 7.1. */
#ifndef TW_FORKED_TUSKS_H
#define TW_FORKED_TUSKS_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_forked_spec {
    tw_link    tenon, through;
    tw_choice  ends, from, lies, heads_to, set_from, mortise_corners;
    tw_amounts at;
    tw_amount  across, tenon_thickness, tenon_width, beyond, housing_depth, slot, ease, angle, draw_allowance, tusk_thickness,
        overrun, reserve, head_proud, tip_proud, bears, chamfer, mortise_clearance;
    tw_words   cutter, follower, mortise_cutter, tusk_timber;
} tw_forked_spec;

enum { TW_ENDS_LEFT, TW_ENDS_RIGHT, TW_ENDS_BOTH };

/// As worked out; mm and radians, named by the letters of design section 7.1.
typedef struct tw_forked {
    const tw_forked_spec *spec;
    const tw_piece *tenon, *through;
    tw_size tenon_size, through_size;
    double t, w, p, T;              // tenon thick, wide, projecting; mortised piece thick
    double d, slot, s, e, q;        // housing's cutter, slot, ease, housing depth, web
    double alpha, c, k, k_least, o; // angle, draw allowance, tusk thickness at the middle, its least, overrun
    double z, head, tip, m, chamfer;
    double clearance;               // of the mortise, in thickness and width
    double relish, bearing, bridge, tip_thickness, tusk_length, slot_length, tusk_width, stick_thickness;
    int    cutter;                  // of the housing, into the shop's
    int    ends;                    // ends that carry a tenon: 1 or 2
    int    tenon_pieces, through_pieces;  // in all sets
    double across;                  // of the tenon's middle, from the face edge or the back
} tw_forked;

/// Housing in (u, v): straight wall at -c, leaning wall at k + v tan(alpha), running o past both edges of the tenon.
tw_outline tw_forked_housing(tw_arena *arena, const tw_forked *f);

void tw_forked_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f);
void tw_forked_works(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f);
void tw_forked_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f);
/// Ramp and slot of the tusk.
void tw_forked_tusk_cuts(tw_arena *arena, const tw_forked *f, tw_part *part);
/// Where a tusk sits in each meeting of the plan.
void tw_forked_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f);
const char *tw_forked_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
