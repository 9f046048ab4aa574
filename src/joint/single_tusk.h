// SPDX-License-Identifier: GPL-3.0-or-later
/* single tusk, between its files: proportions, checks, cuts and work, drawing.
 *
 * u runs outward along the tenon, 0 at the outer surface of the mortised piece; v the way the tusk is driven, 0 at the
 * tenon's middle, positive towards its head; D is the tenon there: its width (upright) or its thickness (level); B is the
 * tenon across the tusk: the other of the two.
 *
 *         v            head
 *         |       |      /
 *     ----+-------+-----/-------+  D/2        straight wall u = -c, leaning wall u = k + v tan(alpha)
 *     post|  |    |    /        |             the tusk bears on the surface u = 0 and on the leaning wall
 *     ----+--+----+---/---------+ -D/2
 *           -c    0  k          p             u  */
#ifndef TW_SINGLE_TUSK_H
#define TW_SINGLE_TUSK_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_single_spec {
    tw_link    tenon, through;
    tw_choice  ends, from, lies, stands, heads_to, set_from, wall_by, mortise_corners;
    tw_amounts at;
    tw_amount  across, tenon_thickness, tenon_width, beyond, tusk_breadth, ease, angle, draw_allowance, tusk_thickness, reserve,
        head_proud, tip_proud, chamfer, mortise_clearance;
    tw_words   cutter, follower, wall_cutter, mortise_cutter, tusk_timber;
} tw_single_spec;

enum { TW_SINGLE_LEFT, TW_SINGLE_RIGHT, TW_SINGLE_BOTH };  // spec.ends

/// As worked out; mm and radians.
typedef struct tw_single {
    const tw_single_spec *spec;
    const tw_piece *tenon, *through;
    tw_size a, post;                // of the tenoned and of the mortised piece
    tw_face from, head;             // side at which the tenon enters; side of the tenoned piece to which the heads point
    bool    upright, along;
    double  t, w, p, T;             // tenon thick, wide, projecting; mortised piece thick
    double  D, B;                   // tenon along and across the tusk
    double  mb, b, ease;            // the tusk's mortise across it, the tusk's breadth, their difference
    double  alpha, c, k, k_least;   // angle, draw allowance, tusk at the tenon's middle, its least
    double  z, head_proud, tip, chamfer, clearance, across;
    double  open_low, open_high;    // of the tusk's mortise along the tenon: at the tip's side, at the head's
    double  cheek;                  // wood beside it
    double  relish, tusk_length, tip_thickness, stick_thickness;
    int     cutter;                 // for the tusk's mortise, into the shop's; -1 none
    int     wall_cutter;            // for a wall cut in the cradle; -1 none
    int     ends, tenon_pieces, through_pieces;
} tw_single;

/// Depth of the shoulder on the head's side and beside the tusk: piece less tenon, halved.
double tw_single_head_shoulder(const tw_single *s);
/// True when sizes are such that the joint can be drawn and cut at all.
bool tw_single_possible(const tw_single *s);

void tw_single_check(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s);
void tw_single_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s);
void tw_single_works(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s);
/// The tusk's ramp, and where it sits in each meeting of the plan.
void tw_single_tusk_cuts(tw_arena *arena, const tw_single *s, tw_part *part);
void tw_single_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s);
const char *tw_single_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
