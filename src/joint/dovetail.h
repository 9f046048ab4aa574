// SPDX-License-Identifier: GPL-3.0-or-later
/* through dovetail, between its files: proportions, checks, cuts, work, drawing.
 *
 * Board a carries the tails, b the pins. The width of the boards on the outer side of b, where the tails are widest, and at
 * their roots, on the inner side of b; t is the thickness of b, s the slope, u runs from root to end:
 *
 *    end,  u = t   | h |  tail w  | q |  tail w  | h |        W = 2 h + n w + (n - 1) q                           (1)
 *                  |    \        /     \        /    |
 *    root, u = 0   |     | root |  pin  | root |     |        root = w - 2 t s,  pin there = q + 2 t s            (2)
 *
 * Walls of tail i, counted from 0 at the face edge of a:  left = h + i (w + q) + (t - u) s,  right = left end + w - (t - u) s.
 * Each stands a quarter of the clearance c back. Seen from either edge the joint is alike. */
#ifndef TW_DOVETAIL_H
#define TW_DOVETAIL_H

#include "joint/corner.h"

#define TW_DOVETAILS_MOST 60

/// As read from the job.
typedef struct tw_dovetail_spec {
    tw_link   tails, into;
    tw_choice ends, into_ends, faces, fit, by;
    tw_amount number, angle, pin, half_pin, clearance, proud;
    tw_words  dovetail_cutter, cutter, follower;
} tw_dovetail_spec;

/// As worked out, mm and radians.
typedef struct tw_dovetail {
    const tw_dovetail_spec *spec;
    tw_corner k;
    int    n;                   // tails
    double angle, slope;        // of their walls; its tangent
    double t;                   // thickness of b: length of the tails
    double q, h, w, root, c;    // pin and half pin, narrow side; tail at its end and root; clearance
    bool   sawn, soft;          // by hand; softwood
    int    dovetail, cutter;    // of the shop: between tails, and straight between pins; -1 none
    double dovetail_d, cutter_d;    // diameters, the dovetail cutter's at its tip
    double over_tails, over_pins;   // how far copied cuts run past the faces
} tw_dovetail;

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_dovetail_possible(const tw_dovetail *d);
/// Middle line of a wall of a tail, u from its root, from the face edge of a.
double tw_dovetail_wall(const tw_dovetail *d, int tail, bool right, double u_mm);
/// From the end of a to the roots of its tails; from the end of b to the bottoms of its sockets.
double tw_dovetail_deep(const tw_dovetail *d, bool of_b);
/// Gap between tails at its widest, at the roots: what the tip of a dovetail cutter cuts.
double tw_dovetail_gap(const tw_dovetail *d);
/// Narrowest part of a socket as a cutter copies it, past the inner side.
double tw_dovetail_socket_least(const tw_dovetail *d);

void tw_dovetail_check(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d);
void tw_dovetail_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d);
void tw_dovetail_works(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d);
const char *tw_dovetail_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
