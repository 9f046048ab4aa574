// SPDX-License-Identifier: GPL-3.0-or-later
/* strands: the curves of which the border of an offset outline is made, put into a net. Private to src/outline.
 *
 * For each edge there is its parallel on the wanted side: a line stays a line, an arc of radius r becomes one of r +- d;
 * where that would be 0 or less there is none. For each vertex that points to that side there is an arc of radius d
 * about it. Strands that follow each other smoothly share a node. The side of a strand that looks to its source is
 * marked as covered.
 *
 * Whether a vertex points to the side is told from the edges beside it. An outline that crosses itself by less than a point
 * can have vertices of which that cannot be told. So there is a thorough way too: a whole circle about every vertex. */
#ifndef TW_STRANDS_H
#define TW_STRANDS_H

#include "outline/net.h"

#define TW_COVERED 1

/// What an offset works on.
typedef struct tw_offset_task {
    tw_arena       *arena;       // working memory
    const tw_curve *curves;      // of all loops
    const tw_box   *boxes;       // of the curves
    int             last_near;   // a curve where a search may begin
    const int      *sources;     // of each curve: the edge that it is, or is part of
    const int      *loop_ends;   // number of curves up to the end of each loop
    const bool     *path_loops;  // a line there and back
    int             curve_count, loop_count;
    bool            thorough;    // a whole circle about every vertex, whichever way it points
    double          coarse;      // how many times wider than usual nodes are made one; 1 at first
    double          s;           // distance to the right of the edges: positive grows, negative shrinks
    tw_net          net;
} tw_offset_task;

/// Takes an outline's curves into the task. The outline is tidy, or has loops of two vertices with bulge 0.
void tw_offset_take(tw_offset_task *task, tw_outline outline);
/// Starts the task's net and puts the strands into it, for the distance s.
void tw_offset_put_strands(tw_offset_task *task);

#endif
