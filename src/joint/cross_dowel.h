// SPDX-License-Identifier: GPL-3.0-or-later
/* cross dowel and bolt, between its files: proportions, sizes as sold, checks, cuts, work, drawing.
 *
 * Section along the bolt; u runs from the side of the post that the rail's end meets, into the rail:
 *
 *       post D thick                rail
 *    +---------------+ - - - - - - - - - - - - - - -
 *    |k|             |                 ___
 *  [=|=|=============|================( )===|====       bolt L long under its head, the washer beneath it
 *    | |             |                 ~~~      |
 *    +---------------+ - - - - - - - - - - - - - - -    b: the lengthwise hole's bottom, from the rail's end
 *    counterbore k   0                  s: middle of the cross dowel, from the rail's end
 *
 * With the end let in by h, the rail's end lies at u = -h.
 *
 * The cross dowel is a short steel rod, tapped across its middle, in a hole that is bored square to the bolt. */
#ifndef TW_CROSS_DOWEL_H
#define TW_CROSS_DOWEL_H

#include "joint/joint.h"

/// As read from the job.
typedef struct tw_bolted_spec {
    tw_link    rail, into;
    tw_choice  ends, from, lies, head, dowel_from;
    tw_amounts at;
    tw_amount  across, from_edge, from_back, bolt, bolt_length, washer, counterbore, counterbore_width, hole_clearance, dowel, dowel_length,
        dowel_from_end, let_in, pegs, peg, peg_spacing, peg_depth;
    tw_words   peg_timber;
} tw_bolted_spec;

enum { TW_BOLTED_LEFT, TW_BOLTED_RIGHT, TW_BOLTED_BOTH };  // spec.ends
enum { TW_HEAD_SOCKET, TW_HEAD_HEXAGON };                  // spec.head

/* ---- what is sold (cross_dowel_sizes.c) ---- */

/// One size of bolt with what goes with it, mm.
typedef struct tw_bolt_size {
    const char *name;                 // "M6", "1/4 in"
    bool   inch;
    double diameter, pitch;
    double socket_head, hexagon_head; // heights
    double spanner;                   // across the flats of the hexagon
    double washer, washer_thick;      // the large series
    double dowel;                     // cross dowel that is commonly sold with it, diameter
} tw_bolt_size;
/// The row for that diameter; for one that is in no row the figures in its proportion, *sold false. diameter_mm over 0.
tw_bolt_size tw_bolt_size_of(tw_arena *arena, double diameter_mm, bool *sold);
/// The row nearest to the wanted diameter among metric or inch sizes, of the smaller ones that furniture takes.
const tw_bolt_size *tw_bolt_nearest(double wanted_mm, bool inch);
/// The shortest length under the head that is commonly sold and at least this; 0: none is so long.
double tw_bolt_length_sold(double least_mm, bool inch);
/// True when that length is commonly sold.
bool tw_bolt_length_is_sold(double length_mm, bool inch);
/// How much of a bolt of that length carries thread, when it is not threaded all along.
double tw_bolt_thread_mm(double diameter_mm, double length_mm);
/// The longest cross dowel commonly sold that is at most this long, and at least as long as it is thick; 0: none.
double tw_cross_dowel_length_sold(double diameter_mm, double most_mm, bool inch);

/* ---- as worked out, mm ---- */

#define TW_BOLTED_PEGS_MOST 2

typedef struct tw_bolted {
    const tw_bolted_spec *spec;
    const tw_piece *rail, *into;
    tw_size a, b;               // of the rail and of the post
    tw_face from, far_, down;   // side that the end meets, the one opposite where the head is, and the one from which `across` is measured
    double  e, d;               // the post: from `down` to the side opposite; behind `from` (D)
    bool    along;
    int     ends, joints, rail_pieces, into_pieces;  // ends of one rail; of all sets: joints, pieces
    tw_bolt_size size;
    bool    size_sold, inch;
    double  hole;               // for the bolt, in both pieces
    double  washer, head;       // across; height
    double  k, kw;              // counterbore: deep, wide
    double  y, z, across;       // the bolt in the rail's end, from the face edge and from the back; in the post
    double  h;                  // let in
    double  dd, dl, s;          // cross dowel: thick, long, its middle from the rail's end
    tw_face dowel_face;         // from which its hole is bored
    double  to_axis, beyond;    // from that face to the bolt's axis, and from there to the face opposite
    double  dowel_depth;        // of its hole
    double  flush;              // length of a bolt whose tip is level with the dowel's far side
    double  length;             // of the bolt, under its head
    double  past;               // how far the tip stands past the dowel
    double  b_depth;            // of the lengthwise hole, from the rail's end
    int     pegs;
    double  peg, peg_spacing, peg_depth, peg_hole;  // thick; between two; deep in each piece; its hole is deeper
    double  slack;              // what the post's thickness under the head loses from damp to dry; 0 where the timber is not known
} tw_bolted;

/// Middles of the pegs along the rail's width, from the bolt; returns how many.
int tw_bolted_peg_spots(const tw_bolted *j, double off[TW_BOLTED_PEGS_MOST]);
/// The end is let in, and the place of its housing about the bolt is not the same for a rail's left and right end.
bool tw_bolted_one_sided(const tw_bolted *j);
/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_bolted_possible(const tw_bolted *j);
/// The cross hole is bored from face or back (else from an edge).
bool tw_bolted_level(const tw_bolted *j);
/// "M6 x 90", "1/4 x 3-1/2 in".
const char *tw_bolted_name(const tw_joint_context *context, const tw_bolted *j, double length_mm);

void tw_bolted_check(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j);
void tw_bolted_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j);
void tw_bolted_works(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j);
/// Shapes of the plan's parts, and where they sit in each of its meetings.
void tw_bolted_shapes(tw_arena *arena, tw_joint_plan *plan, const tw_bolted *j);
void tw_bolted_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j);
const char *tw_bolted_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
