// SPDX-License-Identifier: GPL-3.0-or-later
/* mortise and tenon, between its files: proportions, checks, cuts and work, drawing.
 *
 * The end of the tenoned piece, seen from the right:         The face of the mortised piece, lying on its side `down`:
 *
 *      +--------------------------+  thickness                 up ^   +--------------------------------+ e
 *      |      face shoulder       |                               |   |        wall                    |
 *      |   +------------------+   |                               |   |   ( mortise tm x wm )          |  across = the middle
 *      |   |  tenon t thick   |   |  z = its middle               |   |        wall                    |
 *      |   +------w wide------+   |                               |   +--------------------------------+ 0
 *      |      back shoulder       |                               +-----> x from the left end, `at` = the middle
 *      +--------------------------+
 *   face edge   y = its middle   back edge
 */
#ifndef TW_MORTISE_TENON_H
#define TW_MORTISE_TENON_H

#include "joint/joint.h"
#include "piece/pose.h"

/// As read from the job.
typedef struct tw_mortise_spec {
    tw_link    tenon, into;
    tw_choice  ends, from, lies, through, fit, tenons, beside, haunch_at, mortise_ends, tenon_by, half_turn;
    tw_amounts at;
    tw_amount  across, depth, proud, tenon_thickness, tenon_width, tenon_from_edge, tenon_from_back, gap, haunch,
        haunch_width, clearance, width_clearance, bottom_room, chamfer, peg, pegs, peg_offset, peg_from_shoulder, rake, splay;
    tw_words   cutter, follower, tenon_cutter, tenon_follower, peg_timber;
} tw_mortise_spec;

enum { TW_TENON_LEFT, TW_TENON_RIGHT, TW_TENON_BOTH };  // spec.ends
/// spec.tenons. Twin: two side by side in the thickness; double: two in line in the width.
enum { TW_TENONS_SINGLE, TW_TENONS_TWIN, TW_TENONS_DOUBLE };

/// How the tenoned piece leans out of square (mortise_tenon_lean.c): radians, mm. All 0 when it stands square.
typedef struct tw_lean {
    bool   leans, half_turn;      // half_turn: every second place is the first one turned round
    double rake, splay;           // as the job says: towards the right end, and away from `down`
    double tilt, sight;           // resultant, and its direction from the grain in plan
    double roll, swing;           // of the cradle, with the signs of splay and rake
    double mitre, bevel;          // of the shoulder on the face, and of the blade with the face down
    double edge_mitre, edge_bevel;
    double slope_y, slope_z;      // of the shoulder at the left end: mm along the piece for each mm of its width and thickness
    double mouth_x, mouth_up;     // half of the mortise on the side: along the grain and across
    double shift_x, shift_up;     // how far it moves from there to its bottom
    double corner;                // how much deeper its deepest corner lies than the middle of its bottom, square to the side
    double end_corner;            // of the tenon, along it: from the middle of an end cut flush to its longest corner
} tw_lean;

/// As worked out, mm.
typedef struct tw_mortise {
    const tw_mortise_spec *spec;
    const tw_piece *tenon, *into;
    tw_size a, b;                   // of the tenoned piece, of the mortised piece
    tw_face from, down;             // face that is mortised, and the side from which `across` is measured
    double  e, d;                   // mortised piece: from `down` to the side opposite, and behind the mortised face
    bool    along, through, glued, round, sawn, haunched;
    bool    pair, doubled;          // two tenons at each end: double (in line in the width), else twin (side by side in the thickness)
    bool    two_faced;              // a through mortise that is cut from both faces
    int     ends, joints;           // ends that carry a tenon: 1 or 2; such joints in all sets
    int     tenon_pieces, into_pieces;  // in all sets
    double  t, w, l, gap, proud;    // one tenon: thick, wide, long from the shoulder; between two; past the far face
    double  over_w, over_t;         // over both of a pair, or w and t
    double  tm, wm, depth;          // one mortise: for the thickness, for the width, and its depth
    double  c, cw, room;            // clearance (mortise less tenon) in thickness and width; room below the end
    double  floor;                  // wood left under a blind mortise
    double  y, z;                   // middle of the tenon or the pair, from the face edge and from the back
    double  across;                 // middle of the mortise or the pair, from `down`
    double  edge_shoulder;          // proposed at an edge
    double  groove_depth;           // of the haunch's groove
    double  haunch, haunch_width, haunch_inset;  // deep, wide, and how far from the piece's edge it starts
    double  face_shoulder, back_shoulder, face_edge_shoulder, back_edge_shoulder;
    double  body;                   // of the tenoned piece, between the shoulders
    double  chamfer;
    bool    pegged;                 // drawbored
    int     pegs;                   // through each tenon: 1 or 2
    double  peg, peg_offset, peg_from, peg_relish, peg_length;  // thick; tenon's hole nearer to the shoulder; cheeks' hole from it; tenon beyond it
    double  reach;                  // of the longest cutter that the mortise takes, 0 if there is none
    const char *cutter;             // name of the cutter whose diameter is the mortise's width, or as the job asks; NULL: any
    double  cutter_reach;           // of that cutter
    double  tenon_cutter;           // largest cutter that can cut the tenon by copying, 0 if there is none
    tw_lean lean;                   // where it leans, l and depth are along the tenon's middle
} tw_mortise;

#define TW_THROUGH_OVER_MM 1.0      // a cutter goes this far past the far face, or past the middle when it comes from both

/// One mortise in the mortised piece: its middle along the piece and up from `down`; place: index into spec.at.
typedef struct tw_mortise_site { double x, up; int place; bool turned; } tw_mortise_site;
/// Sites of all places, both of a pair one after the other; the array lives in the arena. count = places * tenons.
tw_mortise_site *tw_mortise_sites(tw_arena *arena, const tw_mortise *m, int *count);

/// How the haunch's groove lies at one place: from the mortise towards the nearest end of the mortised piece.
typedef struct tw_haunch_groove {
    bool   left;     // towards the left end
    bool   open;     // it runs out at the end
    double end;      // its far end, from that end of the piece; 0 when open
    double start;    // where the mortise begins, from that end
} tw_haunch_groove;
tw_haunch_groove tw_mortise_groove(const tw_mortise *m, double at_mm);

/// True when sizes are such that the joint can be drawn and cut at all, whatever the checks say of its strength.
bool tw_mortise_possible(const tw_mortise *m);

/* ---- out of square: rake and splay (mortise_tenon_lean.c, mortise_tenon_lean_cuts.c) ---- */
void tw_mortise_lean_begin(tw_mortise *m);
/// Length, depth, floor and angles of a tenon that leans; after its widths.
void tw_mortise_lean_sizes(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m);
void tw_mortise_lean_check(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
bool tw_mortise_lean_possible(const tw_mortise *m);
/// Pose of the tenoned piece, whose `end` stands at a site, in the frame of the mortised one.
tw_pose tw_mortise_pose(const tw_mortise *m, tw_face end, tw_mortise_site site, bool reversed);
/// How deep the mortise goes square to its side, to its deepest corner.
double  tw_mortise_deep_mm(const tw_mortise *m);
/// What one mortise takes from mouth to bottom: x along the piece, y up from `down`.
tw_box  tw_mortise_reach(const tw_mortise *m, tw_mortise_site site);
/// Tenon left at the corner where its slanted shoulder comes nearest to the end; below 0: the shoulder runs off the piece.
double  tw_mortise_shoulder_room(const tw_mortise *m);
/// Cuts of a joint that leans.
void tw_mortise_lean_mortise(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, tw_mortise_site site);
void tw_mortise_lean_tenon(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end);
/// The cradle in which the mortised piece lies, the side `down` below as the face `from` is seen.
tw_cradle tw_mortise_cradle(const tw_joint_context *context, const tw_mortise *m);
/// How far above the middle of the mouth the cutter's end stands when its rim first touches the side.
double tw_mortise_lean_touch_mm(const tw_mortise *m);
/// Puts the work of a mortise into its cradle: where its middle then stands, and what it is zeroed on.
void tw_mortise_lean_in_cradle(const tw_joint_context *context, const tw_mortise *m, tw_work *work);
/// From the end to the shoulder, on the middle of the face, at the end that carries a tenon (the left one of two).
double tw_mortise_lean_face_mm(const tw_mortise *m);
/// Sentences for the works: how the mouth and the shoulders are struck, how the shoulders are sawn; "" when it stands square.
const char *tw_mortise_lean_mouth_words(const tw_joint_context *context, const tw_mortise *m);
const char *tw_mortise_lean_shoulder_words(const tw_joint_context *context, const tw_mortise *m);
const char *tw_mortise_lean_saw_words(const tw_joint_context *context, const tw_mortise *m);
/// The pair that a lean makes: mirror images have the other hand; NONE where the piece is its own mirror image.
tw_hand tw_mortise_lean_hand(const tw_mortise *m);
const char *tw_mortise_lean_draw(const tw_joint_context *context, const tw_mortise *m, tw_sheet *sheet, tw_box room);

/* ---- the drawbored peg (mortise_tenon_peg.c) ---- */
#define TW_MORTISE_PEGS_MOST 4      // of one joint: two through each of a pair
typedef enum tw_peg_step { TW_PEG_CHEEKS, TW_PEG_MARKS, TW_PEG_TENONS, TW_PEG_MAKE, TW_PEG_DRIVE } tw_peg_step;
void tw_mortise_peg_propose(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m);
void tw_mortise_peg_check(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
/// True when there are pegs, and such as can be drilled and driven.
bool tw_mortise_peg_possible(const tw_mortise *m);
/// Middles of the pegs of one joint along the tenon's width, from the middle of the tenon or the pair; returns how many.
int  tw_mortise_peg_spots(const tw_mortise *m, double along[TW_MORTISE_PEGS_MOST]);
void tw_mortise_peg_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
tw_work tw_mortise_peg_work(const tw_joint_context *context, const tw_mortise *m, tw_peg_step step);
tw_part tw_mortise_peg_part(const tw_joint_context *context, const tw_mortise *m);
#define TW_MORTISE_PEG_TAPER 2.0    // the taper is so many pegs long, and so much is left at the head
/// The side from which the pegs are driven; the side opposite, from which `across` counts, lies down.
tw_face tw_mortise_peg_face(const tw_mortise *m);
/// Middle of the cheeks' hole on that side, right and up, for a peg that stands `along` from the middle of the tenon or the pair.
tw_point tw_mortise_peg_place(const tw_mortise *m, double at_mm, double along);
/// The peg as it is once home (mortise_tenon_peg_space.c), and where the pegs sit in each meeting of the plan.
void tw_mortise_peg_shape(tw_arena *arena, const tw_mortise *m, tw_part *part);
void tw_mortise_peg_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);

void tw_mortise_check(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
void tw_mortise_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
void tw_mortise_works(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
void tw_mortise_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m);
const char *tw_mortise_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

/// A length as the job writes it; what is finer than a sixty-fourth is said in thousandths of an inch.
const char *tw_mortise_say(const tw_joint_context *context, double length_mm);
/// The same without its unit, for sums.
const char *tw_mortise_bare(const tw_joint_context *context, double length_mm);

#endif
