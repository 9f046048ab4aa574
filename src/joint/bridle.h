// SPDX-License-Identifier: GPL-3.0-or-later
/* housed bridle, between its files: proportions, checks, cuts, work, drawing.
 *
 * The end of the forked piece is slotted; its two prongs straddle the other piece, each in a housing. v runs across that
 * piece from the side `from`, that the fork comes over:
 *
 *   section along the fork, square to the other piece:       one of the two sides that carry the housings:
 *
 *        +-----------+  v = E                                ------------------------  v = E
 *        |           |                                               a  stop
 *        |__|     |__|  v = H  the housings stop             ------(-----)-----------  v = H, corners of radius R
 *        |  |     |  |                                             |     |
 *      +-+--|     |--+-+  prongs g thick, S long                   |  w  |
 *      |    | web |    |                                     ------+-----+-----------  v = 0, `from`
 *      |    +-----+    |  v = 0: the slot's bottom                 | B   |  forked piece
 *      |  forked piece |                                           |     |
 *           q in s
 */
#ifndef TW_BRIDLE_H
#define TW_BRIDLE_H

#include "joint/joint.h"

#define TW_BRIDLE_BREAK_MM 2.0  // the slot's cutter goes so far past the middle, or out behind

/// As read from the job.
typedef struct tw_bridle_spec {
    tw_link    forked, over;
    tw_choice  ends, prongs, from, housings, corners, fit, by, slot_by;
    tw_amounts at;
    tw_amount  depth, stop_short, clearance, ease, end_room;
    tw_words   cutter, follower, slot_cutter;
} tw_bridle_spec;

enum { TW_FORKED_LEFT, TW_FORKED_RIGHT, TW_FORKED_BOTH };                                        // spec.ends
typedef enum tw_bridle_answer { TW_ANSWER_ROUNDED, TW_ANSWER_NOTCH, TW_ANSWER_CHISEL } tw_bridle_answer;  // spec.corners

/// As worked out, mm.
typedef struct tw_bridle {
    const tw_bridle_spec *spec;
    const tw_piece *forked, *over;
    tw_size a, b;                   // of the forked piece, of the piece it rides over
    tw_face from, sides[2];         // the side the fork comes over; the two that carry the housings
    double  E, T;                   // of the other piece: across a housed side; between the two of them
    double  split, B;               // of the forked piece: across the slot; along the slot, as wide as a prong is
    double  c, s, ease;             // clearance of a prong in its housing; slot, and what it is wider than the web
    double  depth, q, w;            // housing deep, web left between the two, housing wide
    double  stop, H;                // housing ends short of the far side by stop, 0: it runs through; so long
    double  g, room, S;             // prong thick; room past its end; long, which is how deep the slot is
    double  body;                   // of the forked piece, between what it rides over
    double  cutter_d, over_run;     // of the housings' cutter; how far it runs out at an open end
    double  R, answer_mm;           // radius left in a stopped corner; side of the notch or radius of the prong's corner
    tw_bridle_answer answer;
    bool    stopped, glued, sawn, slot_copied;
    int     cutter, slot_cutter;    // of the shop; -1 none
    double  slot_d;                 // of the slot's cutter
    int     ends, joints, forked_pieces, over_pieces;  // in all sets
} tw_bridle;

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_bridle_possible(const tw_bridle *b);
/// What the section at the housings keeps of the whole piece's modulus for bending by a load along the fork, 0 to 1.
double tw_bridle_strength(const tw_bridle *b);
/// The web's height across the grain, and whether no thicker wood holds it along one of its edges there.
double tw_bridle_web_height(const tw_bridle *b, bool *free_edge);
/// Does the forked end that is named take part?
bool tw_bridle_has_end(const tw_bridle *b, tw_face end);
/// The slot, open at the end of the forked piece that lies to the right; x and y of its middle at the shoulder (the slot's
/// bottom); past: how far it runs out past the end. Counter-clockwise.
tw_outline tw_bridle_slot(tw_arena *arena, const tw_bridle *b, double x, double y, double past_mm, bool to_right);

void tw_bridle_check(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b);
void tw_bridle_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b);
void tw_bridle_works(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b);
const char *tw_bridle_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
