// SPDX-License-Identifier: GPL-3.0-or-later
/* housing, between its files: proportions, checks, work, drawing.
 *
 * The piece that is housed into, seen on the side `from`:       Section along the housing:
 *
 *   high  +-----+-----+---------------- edge, v = E              ---+        +----- v = E
 *         |     |     |                                             | housed |
 *         |     |  w  |   v runs across, from `low`                 | piece  |<- l
 *         |     |     |                                             |   +----+  v0: the housing stops short,
 *   low   |     +-----+   v0                                        +---+       the housed piece is notched over it
 *         +--------------------------- edge, v = 0               -------------- v = 0
 *         0    at = the middle  -> x                                  depth ->
 */
#ifndef TW_HOUSING_H
#define TW_HOUSING_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_housing_spec {
    tw_link    housed, into;
    tw_choice  ends, from, face_to, stop, stopped_end, fit, by;
    tw_amounts at;
    tw_amount  across, depth, stop_short, clearance, bottom_room;
    tw_words   cutter, follower;
} tw_housing_spec;

enum { TW_HOUSED_LEFT, TW_HOUSED_RIGHT, TW_HOUSED_BOTH };                    // spec.ends
enum { TW_STOP_NONE, TW_STOP_FACE, TW_STOP_BACK, TW_STOP_FACE_EDGE, TW_STOP_BACK_EDGE, TW_STOP_BOTH };  // spec.stop
typedef enum tw_housing_way { TW_HOUSING_COPY, TW_HOUSING_GUIDES, TW_HOUSING_SAW } tw_housing_way;      // spec.by

/// As worked out, mm.
typedef struct tw_housing {
    const tw_housing_spec *spec;
    const tw_piece *housed, *into;
    tw_size a, b;                   // of the housed piece, of the piece it is let into
    tw_face from, low, high;        // side that carries the housing; the sides from and to which v runs
    double  e, d;                   // across the side `from`, and how thick the piece is behind it
    double  t, wide;                // housed piece: thickness and width
    double  c, w, depth, room, l;   // clearance; housing wide and deep; room below the end; how far the end goes in
    double  across;                 // middle of the housed piece, from `low`
    double  v0, v1;                 // the housing's ends within the wood
    bool    low_stopped, high_stopped;
    double  notch_low, notch_high;  // of the housed piece, over the stops; 0: none
    double  body;                   // of the housed piece, between the sides that it stands against
    double  cutter_d, over, radius; // cutter's diameter; how far it runs past an open end; radius left at a stopped end
    double  guide_gap, guide_stop;  // straight guides: between them, and from the housing's end to the stop block
    tw_housing_way way;
    int     cutter, follower;       // of the shop; -1 none
    bool    glued, handed;          // handed: the housing is not alike from both sides of the piece
    int     ends, joints, housed_pieces, into_pieces;  // in all sets
} tw_housing;

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_housing_possible(const tw_housing *h);
/// True when the end of the housed piece has a notch over the stop at its face edge (else at its back edge).
/// low: the notch over the stop at `low`; right_end: of the housed piece.
bool tw_housing_notch_at_face_edge(const tw_housing *h, bool low, bool right_end);
/// Every place has one that lies as far from the other end of the piece.
bool tw_housing_places_symmetric(const tw_housing *h);

void tw_housing_check(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h);
void tw_housing_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h);
void tw_housing_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h);
void tw_housing_works(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h);
const char *tw_housing_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
