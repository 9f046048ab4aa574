// SPDX-License-Identifier: GPL-3.0-or-later
/* finger joint, between its files: proportions, checks, work, drawing.
 *
 * The width of the boards, seen on a face at the corner, is shared into n places; board a has its fingers at the even ones
 * (counted from 0 at its face edge), board b at the odd ones. The inner places are p wide, the two at the edges e:
 *
 *    a:  | finger |gap|fing|gap|fing| gap | finger |       n = 7        W = 2 e + (n - 2) p                     (1)
 *        0        e   e+p                 W-e      W
 *
 * Every wall stands a quarter of the clearance c back from its line: gap g = p + c/2, finger p - c/2.               (2) */
#ifndef TW_FINGER_JOINT_H
#define TW_FINGER_JOINT_H

#include "joint/corner.h"

#define TW_FINGER_PLACES_MOST 99

/// As read from the job.
typedef struct tw_finger_spec {
    tw_link   fingers, into;
    tw_choice ends, into_ends, faces, fit, by;
    tw_amount number, finger, clearance, proud;
    tw_words  cutter, follower;
} tw_finger_spec;

typedef enum tw_finger_way { TW_FINGER_COPY, TW_FINGER_STEP, TW_FINGER_SAW } tw_finger_way;  // spec.by

/// As worked out, mm.
typedef struct tw_finger {
    const tw_finger_spec *spec;
    tw_corner k;
    int    n;                   // places over the width: fingers and gaps together
    double p, e, c, gap, wide;  // inner place, edge place, clearance, gap, finger
    tw_finger_way way;
    int    cutter;              // of the shop; -1 none
    bool   straight;            // it is no dovetail cutter
    double cutter_d, over;      // its diameter; how far a copied gap runs past the wood
    double strip_a, strip_b;    // stepping jig: between the pin and the board's edge, for the first cut
} tw_finger;

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_finger_possible(const tw_finger *f);
/// How many gaps a board has.
int tw_finger_gaps(const tw_finger *f, bool of_b);
/// From which y to which the board's gap runs, from the face edge of a. past: how far an edge gap runs over the edge.
void tw_finger_gap(const tw_finger *f, bool of_b, int which, double past_mm, double *from_mm, double *to_mm);
/// How deep the gaps of a board are.
double tw_finger_deep(const tw_finger *f, bool of_b);

void tw_finger_check(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f);
void tw_finger_works(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f);
const char *tw_finger_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
