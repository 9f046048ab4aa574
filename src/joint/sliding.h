// SPDX-License-Identifier: GPL-3.0-or-later
/* sliding dovetail, between its files: proportions, checks, cuts, work, drawing.
 *
 * The section across the housing; z runs into the piece that carries it, q across, from the middle of the housed piece
 * towards its face:
 *
 *            |  housed    |             neck   the tongue at the shoulder, q0 to q1
 *            |  piece, t  |             tip    the tongue at its end, wider by l tan(angle) on each dovetailed cheek
 *   ---------+-.        .-+--------  z = 0     g = neck + c, the housing at the side that carries it
 *              /  neck  \                      w = g + depth tan(angle) on each dovetailed cheek, at its bottom
 *             /   tip    \           z = l
 *            '------------'          z = depth
 *
 * v runs across the side that carries the housing, from `low`, as in a plain housing; the tongue comes in along v. */
#ifndef TW_SLIDING_H
#define TW_SLIDING_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_sliding_spec {
    tw_link    housed, into;
    tw_choice  ends, from, face_to, sides, stop, stopped_end, fit, by, tongue_by;
    tw_amounts at;
    tw_amount  across, depth, neck, angle, stop_short, clearance, bottom_room;
    tw_words   cutter, follower;
} tw_sliding_spec;

enum { TW_SLIDING_LEFT, TW_SLIDING_RIGHT, TW_SLIDING_BOTH };                    // spec.ends
enum { TW_SLIDING_SIDES_BOTH, TW_SLIDING_SIDE_FACE, TW_SLIDING_SIDE_BACK };     // spec.sides: which cheeks are dovetailed
typedef enum tw_sliding_way { TW_SLIDING_COPY, TW_SLIDING_GUIDES, TW_SLIDING_SAW } tw_sliding_way;              // spec.by
typedef enum tw_tongue_way { TW_TONGUE_TABLE, TW_TONGUE_COPY, TW_TONGUE_SAW } tw_tongue_way;                   // spec.tongue_by

/// As worked out, mm and radians.
typedef struct tw_sliding {
    const tw_sliding_spec *spec;
    const tw_piece *housed, *into;
    tw_size a, b;                   // of the housed piece, of the piece it is let into
    tw_face from, low, high;        // side that carries the housing; the sides from and to which v runs
    double  e, d;                   // across the side `from`, and how thick the piece is behind it
    double  t, wide;                // housed piece: thickness and width
    double  angle, c, depth, room, l;
    double  neck, tip, g, w;        // see above
    double  q0, q1;                 // the neck, from the middle of the housed piece towards its face
    double  lean0, lean1;           // tangent by which the wall at q0 and at q1 slants; 0: upright
    double  shoulder;               // taken from each dovetailed cheek at the neck
    double  across;                 // middle of the housed piece, from `low`
    double  v0, v1;                 // the housing's ends within the wood
    bool    low_stopped, high_stopped;
    double  notch_low, notch_high;  // of the housed piece, over the stop; 0: none
    double  body;                   // of the housed piece, between the sides that it stands against
    double  cutter_d, face_d;       // dovetail cutter at its tip, and where it stands in the side that carries the housing
    double  over, radius;           // how far it runs past an open end; radius that it leaves at a stop, at the bottom
    double  guide_gap;              // straight guides, for the dovetail cutter
    double  pin, over_pins;         // drill shanks laid into the tongue's corners, and what they measure; 0: none goes in
    tw_sliding_way way;
    tw_tongue_way  tongue_way;
    int     cutter, clear, follower;    // of the shop: dovetail, straight for the waste, bush for both; -1 none
    int     cheeks;                 // dovetailed: 1 or 2
    bool    glued, handed;          // handed: the housing is not alike from both sides of the piece
    int     ends, joints, housed_pieces, into_pieces;  // in all sets
} tw_sliding;

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_sliding_possible(const tw_sliding *s);
/// How wide the housing is where its end at the stop is drawn, and the radius there, so that one prism takes just the wood
/// that the slanting cutter takes. See sliding_cuts.c.
double tw_sliding_end_radius_mm(const tw_sliding *s);
/// +1 where the housed piece's face looks to the right end of the piece that it stands in, -1 to the left.
int tw_sliding_face_way(const tw_sliding *s, bool right_end);
/// True when the notch over the stop at `low` (else at `high`) is at the face edge of the housed piece.
bool tw_sliding_notch_at_face_edge(const tw_sliding *s, bool low, bool right_end);
/// Every place has one that lies as far from the other end of the piece.
bool tw_sliding_places_symmetric(const tw_sliding *s);
/// Width over two pins (one pin, from the bare cheek, where one cheek is dovetailed) laid into the corners of a tongue.
double tw_sliding_over_pins_mm(double neck_mm, double pin_mm, double angle_rad, int cheeks);

void tw_sliding_check(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s);
void tw_sliding_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s);
void tw_sliding_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s);
void tw_sliding_works(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s);
const char *tw_sliding_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
