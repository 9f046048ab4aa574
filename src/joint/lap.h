// SPDX-License-Identifier: GPL-3.0-or-later
/* laps, between their files: cross lap (notches in the broad sides) and edge lap (notches in the edges) are one joint; only
 * the sides differ that are notched.
 *
 * Seen on the notched side of either piece, the other's length runs at `angle`, counter-clockwise from its own length:
 *
 *      +-------+-----/-----/---------+ wide            section square to `over`, level 0 at the top of `under`:
 *      |      /     /                |                       +--------+       over_top
 *      |     /  w  /   at = middle   |                 ______| over   |______ 0
 *      |    /     /                  |                 under |________|         -under_depth + room
 *      +---/-----/-------------------+                       |   room |         -under_depth
 *                                                       ________________      -under thick
 */
#ifndef TW_LAP_H
#define TW_LAP_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_lap_spec {
    tw_link    over, under;
    tw_choice  over_side, under_side, fit, by;
    tw_amounts over_at, under_at;
    tw_amount  angle, over_depth, under_depth, clearance, room;
    tw_words   cutter, follower;
} tw_lap_spec;

/// One of the two pieces, mm.
typedef struct tw_lap_part {
    const tw_piece   *piece;
    int               index;        // into the job's pieces
    tw_size           size;
    tw_face           side;         // that is notched
    double            wide, thick;  // across that side, and behind it
    double            depth, notch; // of the notch: deep; wide, square across it
    double            span;         // of the notch along the middle of the piece
    double            reach;        // of the notch along the piece, from its middle to its farthest corner
    const tw_amounts *at;
    const tw_amount  *depth_key;
    int               pieces;       // in all sets
    int               cutter;       // of the shop; -1: none
    bool              sawn;
} tw_lap_part;

/// As worked out, mm and radians.
typedef struct tw_lap {
    const tw_lap_spec *spec;
    tw_lap_part over, under;
    double angle, c, room;          // crossing; clearance across each notch; between the bottoms of the two notches
    double thinner;                 // of the two, where they cross
    double top, bottom;             // how far `over` stands above `under`, and below it (negative: within)
    bool   edge, glued;
    int    joints;                  // crossings in all sets
} tw_lap;

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_lap_possible(const tw_lap *l);
/// The notch with the middle of the crossing at x, y, running over past both sides of a piece `wide`; counter-clockwise.
tw_outline tw_lap_notch(tw_arena *arena, const tw_lap *l, const tw_lap_part *part, double x, double y, double over);

void tw_lap_check(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l);
void tw_lap_works(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l);
const char *tw_lap_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
