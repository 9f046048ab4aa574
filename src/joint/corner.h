// SPDX-License-Identifier: GPL-3.0-or-later
/* corner: two boards that meet square at their ends, as the boards of a box do; shared by the joints that are cut there.
 *
 * Board a comes with the joint's first name, b is what it goes into. Both stand on edge, their faces out of the box (or both
 * into it). Seen from above, faces out and the same edges down, a right end always meets a left end:
 *
 *         a 1                   a.right in b.left,  b.right in a.left: four corners of two a and two b.
 *       +-----+                 Where two right ends (or two left ends) meet, one board stands upside down: its other edge
 *   b 2 |     | b 1             is up, its face still looks out. A joint that is not alike from both edges is then cut
 *       +-----+                 mirrored in b.
 *         a 2
 *
 * Each board's end comes level with the other's outer side, or stands `proud` of it until it is planed level: the length of a
 * piece is the outside size of the box, and what is planed off. All lets go one way: a comes off square to its own face,
 * outward, along b's length, by its thickness. */
#ifndef TW_JOINT_CORNER_H
#define TW_JOINT_CORNER_H

#include "joint/joint.h"
#include "joint/layers.h"

enum { TW_CORNER_LEFT, TW_CORNER_RIGHT, TW_CORNER_BOTH };  // a choice of ends

extern const char *const tw_corner_end_words[];  // "left", "right", "both", NULL: choices of a job's key
extern const char *const tw_corner_look_words[]; // "out", "in", NULL

typedef struct tw_corner_board {
    const tw_piece *piece;
    int     index;          // into the job's pieces
    tw_size size;
    int     pieces;         // in all sets
    int     said, ends;     // which ends, as said; how many
} tw_corner_board;

typedef struct tw_corner {
    tw_corner_board a, b;
    double wide;            // of the narrower board, mm
    bool   faces_in;        // the faces look into the box
    bool   turned;          // b stands upside down against a, in every corner
    bool   mixed;           // in some corners it does, in others not: the joint must be alike from both edges
    bool   glued;
    double proud;           // how far each end stands out beyond the mate's outer side, until it is planed level, mm
    int    joints;          // corners in all sets
} tw_corner;

tw_corner tw_corner_of(const tw_joint_context *context, tw_link a, tw_choice a_ends, tw_link b, tw_choice b_ends, tw_choice faces, bool glued, double proud_mm);
/// Does the joint take this end of the board?
bool tw_corner_has_end(const tw_corner_board *board, tw_face end);
/// The board that a board goes into.
const tw_corner_board *tw_corner_mate(const tw_corner *corner, const tw_corner_board *board);
/// Where y (from the face edge) lies to the right on that end as it is seen, mm.
double tw_corner_end_x(const tw_corner_board *board, tw_face end, double y_mm);
/// From each end of a board to the bottom of what is cut there: the mate's thickness, and what stands proud, mm.
double tw_corner_deep(const tw_corner *corner, const tw_corner_board *board);
/// What a board is long when its joined ends are planed level, mm.
double tw_corner_outside(const tw_corner *corner, const tw_corner_board *board);
/// "left end (4); right end (4)".
const char *tw_corner_ends_text(tw_arena *arena, const tw_corner_board *board);
/// True when the blanks can meet at all: of one width, each with a body left between its ends.
bool tw_corner_possible(const tw_corner *corner);
/// Refuses boards that cannot meet, in number, width, length or hand.
/// alike: the joint is the same seen from either edge; uneven: what makes it so, and what would not ("`number` odd").
/// takers: what the kind remembers of ends that are taken, see tw_joint_context.kept.
void tw_corner_check(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *corner, bool alike, const char *uneven, void **takers);
/// Cares for a clearance or what stands proud out of range. clearance_key, proud_key: where the job gives them; parts: "7 fingers".
void tw_corner_check_fit(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *corner, double clearance_mm, const tw_amount *clearance_key,
                         const tw_amount *proud_key, const char *parts);
void tw_corner_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *corner);

/* ---- figures and works that are alike whatever is cut there (corner_work.c) ---- */

/// Depths and outside sizes of both boards, keys "depth", "outside" and the same with "into_" for b. a_cut, b_cut: what is as
/// deep as the mate is thick, before and after the board's name: { "gaps of ", ", deep" }.
void tw_corner_note_sizes(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *corner, const char *const a_cut[2], const char *const b_cut[2]);
/// Can the copying machine reach over a comb that is so wide and high, its overruns counted in, and so deep?
bool tw_corner_in_reach(const tw_machine *machine, tw_size comb, double cutter_mm);

/// The face that is cut first: the right end, unless the left one alone is joined.
tw_face tw_corner_first_end(const tw_corner_board *board);
/// What is alike in all works of one board's ends, the back down. before and after: the board's name, in the name of the work;
/// after NULL: it is not said there, and before is all of it.
tw_work tw_corner_end_work(const tw_joint_context *context, const tw_corner_board *board, const char *before, const char *after, tw_way way);
/// A layer: both boards' thickness is measured. a_cut, b_cut: what is as deep as the mate is thick: "the gaps".
void tw_corner_measure(tw_layers *layers, const tw_corner *corner, const char *a_cut, const char *b_cut);
/// A layer: put together dry, in the words of the kind.
void tw_corner_fit(tw_layers *layers, const tw_corner *corner, const char *what, const char *measure, const char *state);
/// A layer: glue, in the words of the kind. None when the joint is dry.
void tw_corner_glue(tw_layers *layers, const tw_corner *corner, const char *what, const char *caution);
/// A layer: what stands proud is planed level. None when nothing does. parts: "the fingers of both boards".
void tw_corner_level(tw_layers *layers, const tw_corner *corner, const char *parts);

#endif
