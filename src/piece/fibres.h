// SPDX-License-Identifier: GPL-3.0-or-later
/* fibres: the wood of a piece along its grain.
 *
 * Every fibre is a line along x at (y, z). Each cut takes from it the part that lies in the prism: found exactly from the
 * lines and arcs of the outline (also for cuts that lean), not by sampling along the fibre. What is left are the runs of the
 * fibre; a run ends at an end of the piece or at a cut. The grid of fibres is what is sampled.
 *
 * The same is done for lines across the grain, along y and z: they measure walls, and sections add them up. */
#ifndef TW_FIBRES_H
#define TW_FIBRES_H

#include "piece/pose.h"

#define TW_RUN_LEAST_MM 1e-6  // what is shorter is rounding, not wood: a thousand times below a shaving

/// An unbroken length of one fibre and what ends it: index of a cut, or -1 the end of the piece.
typedef struct tw_fibre_run { double from_mm, to_mm; int from_cut, to_cut; } tw_fibre_run;

/// The runs left of the fibre at (y, z), in order; lives in the arena. count is set; 0: all of it is cut away.
tw_fibre_run *tw_fibre_runs(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double y_mm, double z_mm, int *count);

/* ---- many lines through one piece ---- */

typedef enum tw_axis { TW_AXIS_X, TW_AXIS_Y, TW_AXIS_Z } tw_axis;  // along the length, the width, the thickness

static inline double tw_along(tw_spot spot, tw_axis axis) { return axis == TW_AXIS_X ? spot.x : axis == TW_AXIS_Y ? spot.y : spot.z; }
static inline double tw_extent_along(tw_size size, tw_axis axis)
{
    return axis == TW_AXIS_X ? size.length_mm : axis == TW_AXIS_Y ? size.width_mm : size.thickness_mm;
}

/// What one cut takes of a line.
typedef struct tw_gap { double from_mm, to_mm; int cut; } tw_gap;

/// A piece made ready for many lines. The cuts must outlive it. room: scratch that is used again for each line.
typedef struct tw_wood {
    tw_arena     *arena;
    tw_size       size;
    const tw_cut *cuts;
    int           cut_count;
    tw_block     *blocks;     // around each cut
    tw_gap       *gaps;       size_t gap_count, gap_room;
    struct tw_crossing *crossings;  size_t crossing_count, crossing_room;
    tw_fibre_run *runs;       size_t run_count, run_room;
} tw_wood;

tw_wood tw_wood_make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count);
/// The runs of the line along the axis through the spot (its coordinate on that axis does not count). A line that lies in a
/// wall of a cut may be taken as cut or as wood. The list is good until the next call with the same wood.
const tw_fibre_run *tw_wood_runs(tw_wood *wood, tw_axis axis, tw_spot through, int *count);
/// The gaps that one cut alone makes in that line, kept within the piece, in order; good until the next call.
const tw_gap *tw_wood_gaps(tw_wood *wood, int cut, tw_axis axis, tw_spot through, int *count);

#endif
