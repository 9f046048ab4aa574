// SPDX-License-Identifier: GPL-3.0-or-later
/* space: the pieces of one set placed against each other by their joints, and how the whole comes apart.
 *
 * Every joint says how its two pieces stand to each other (tw_meeting). A joint with E ends and K places ties end e of its
 * tenoned piece i into place i mod K of its mortised piece E (i / K) + e, counted from 0: the first K stretchers go between
 * the first E posts. Where that piece is already taken, or stands elsewhere while another of the same kind stands just
 * right or not at all, the other is taken: alike pieces are alike. From one base piece the net of joints is walked; a piece
 * that is reached a second time closes a loop, and what its two poses differ by is the closing error.
 *
 * Frame of the results: x to the right, y away from one who looks at the front, z up, mm; the front lower left corner of
 * the whole is the origin. Pieces that no joint binds to the base piece are nets of their own and stand to the right. */
#ifndef TW_SPACE_H
#define TW_SPACE_H

#include "joint/joint.h"
#include "piece/pose.h"

#define TW_INSTANCES_MOST 40000      // pieces of one set that are placed; more is no furniture
#define TW_ORDER_PIECES_MOST 200     // pieces of one net whose order of taking apart is worked out
#define TW_LOOP_OPEN_MM 0.1          // more than this a joint cannot take up: half of a dry tenon's clearance
#define TW_LOOP_OPEN_RAD (0.05 * TW_PI / 180.0)
#define TW_TOUCH_MM 0.2              // pieces that share less than this only touch
#define TW_SAME_WAY_RAD (TW_PI / 180.0)  // directions that differ by less are one

/// One piece of one set.
typedef struct tw_instance {
    int     piece, number;      // into the job's list; 1 to its count
    int     net;                // into tw_space.nets; -1: not placed
    tw_pose pose;
} tw_instance;

/// One joint between two instances.
typedef struct tw_tie {
    int               plan;     // into the job's joints
    const tw_meeting *meeting;
    int               mover, base;  // instances
    bool              closes;   // it closes a loop
} tw_tie;

/// A change that closes a loop alone: a piece's length, or a place of a joint along the piece that receives it.
typedef struct tw_mend { int piece, plan, place; double change_mm; } tw_mend;  // plan -1: the length of the piece

/// A loop that a tie closes.
typedef struct tw_ring {
    int     tie, net;
    int    *around, around_count;   // instances, from the one where the two ways part; none twice
    double  open_mm, open_rad;      // closing error: greatest distance of a corner of the piece reached twice, and turn
    tw_spot open;                   // by which the way around ends up off its start, mm, in the frame of the results
    const char *remedy;             // what length to change by how much, "" when it closes
    tw_mend *mends; int mend_count; // the same, to be made
} tw_ring;

/// The wood of a piece as blocks in its own frame, which may overlap.
typedef struct tw_shape {
    tw_block *blocks;  int block_count;
    bool      blank;        // it has too many cuts: its blank is taken
} tw_shape;

/// Two pieces that stand in each other although no joint joins them.
typedef struct tw_clash { int a, b; double deep_mm; bool sure; } tw_clash;  // instances; sure: cuts with curves cannot make room

/// A part of a joint (a tusk, a bolt) that stands in a piece that is not its joint's, or in another joint's part; or that such a
/// piece keeps from coming out.
typedef struct tw_hindrance {
    int    tie, part;             // whose part, and which of its plan's
    int    other;                 // instance that it meets; -1: another joint's part
    int    other_tie, other_part; // that one; else -1
    bool   way;                   // it stands free, and cannot come out
    double deep_mm;               // how far they reach into each other
} tw_hindrance;

/// One step of taking apart or putting together.
typedef struct tw_move {
    bool        frees;          // what holds a joint is knocked out or put in: then plan says which joint, count how many
    int         plan, count;
    int        *moved, moved_count;   // instances
    tw_spot     way;            // unit vector
    double      travel_mm;
    const char *text;           // a sentence without its full stop
} tw_move;

typedef struct tw_net {
    int     first;              // instance from which it was walked
    int     count;              // instances
    tw_face up;                 // of the first instance's piece
    const char *up_why;
    tw_spot least, most;        // the box around it in the frame of the results
    bool    closed;             // every loop closes
    bool    clear;              // no two pieces stand in each other for sure
    bool    ordered;            // the order was worked out, as far as it goes
    tw_move *apart;    size_t apart_count, apart_room;
    tw_move *together; size_t together_count, together_room;
    int    *stuck, stuck_count; // instances that can neither be put together nor taken apart
    int    *locked, locked_count;   // instances with dry joints that glued ones lock up
} tw_net;

typedef struct tw_space {
    tw_instance *instances;  int instance_count;
    tw_tie      *ties;       size_t tie_count, tie_room;
    tw_ring     *rings;      size_t ring_count, ring_room;
    tw_clash    *clashes;    size_t clash_count, clash_room;
    tw_hindrance *hindrances; size_t hindrance_count, hindrance_room;
    tw_net      *nets;       int net_count;    // nets[0] holds the base piece
    tw_shape    *shapes;     // [pieces of the job]: less all cuts that are blocks
    tw_shape    *lean;       // the same, less the blocks around all other cuts too
    bool         too_many;   // more than TW_INSTANCES_MOST: nothing is placed
} tw_space;

/// Places the pieces of one set. The result lives in the arena; plans are only read, and must live as long.
tw_space tw_space_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count);

/// Two ways, unit vectors, that differ by less than TW_SAME_WAY_RAD.
bool tw_same_way(tw_spot a, tw_spot b);
/// "post 2", or "post" when there is one of them.
const char *tw_instance_name(tw_arena *arena, const tw_job *job, const tw_instance *instance);
/// The box around a piece where it stands.
tw_block tw_instance_block(const tw_space *space, int instance);
/// A closing error as the job writes small lengths: "0.12 mm", "0.0047 in".
const char *tw_opening_words(tw_arena *arena, const tw_job *job, double open_mm);
/// "to the left", "up" ...; a slanted way is said by its two largest parts.
const char *tw_direction_words(tw_arena *arena, tw_spot way);

#endif
