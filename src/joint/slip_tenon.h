// SPDX-License-Identifier: GPL-3.0-or-later
/* slip tenon, between its files: proportions, checks, cuts and work, drawing.
 *
 *        end of one piece            side of the other
 *     ----------------------+ +-----------------+
 *          +----------------| |------------+    |        the loose tenon goes l deep into both mortises; each is
 *          |   loose tenon    L = 2 l      |    |        deeper by the room below it, and all else about them is equal
 *          +----------------| |------------+    |
 *     ----------------------+ +-----------------+  */
#ifndef TW_SLIP_TENON_H
#define TW_SLIP_TENON_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_slip_spec {
    tw_link    piece, into;
    tw_choice  ends, from, lies, fit, mortise_ends;
    tw_amounts at;
    tw_amount  across, depth, tenon_thickness, tenon_width, from_edge, from_back, clearance, width_clearance, bottom_room;
    tw_words   cutter, follower, tenon_timber;
} tw_slip_spec;

enum { TW_SLIP_LEFT, TW_SLIP_RIGHT, TW_SLIP_BOTH };  // spec.ends

/// As worked out, mm.
typedef struct tw_slip {
    const tw_slip_spec *spec;
    const tw_piece *piece, *into;
    tw_size a, b;               // of the piece whose end is mortised, and of the other
    tw_face from, down;         // side of the other, and the side from which `across` is measured
    double  e, d;               // the other: from `down` to the side opposite, and behind the mortised side
    bool    along, glued, round;
    int     ends, joints, pieces, into_pieces;  // ends of one piece, and of all sets: joints, pieces
    double  t, w, l, long_mm;   // loose tenon: thick, wide, how deep in each, in all
    double  tm, wm, depth, room, c, cw;
    double  y, z, across;       // middle of the mortise in the end, from the face edge and from the back; in the other
    double  reach;              // of the longest cutter that the mortise takes
    const char *cutter;         // whose diameter is the mortise's width, or that the job names; NULL: any
} tw_slip;

/// True when sizes are such that the joint can be drawn and cut at all.
bool tw_slip_possible(const tw_slip *s);

void tw_slip_check(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s);
void tw_slip_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s);
void tw_slip_works(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s);
/// The loose tenon's rounded edges, and where it sits in each meeting of the plan.
void tw_slip_tenon_cuts(tw_arena *arena, const tw_slip *s, tw_part *part);
void tw_slip_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s);
const char *tw_slip_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
