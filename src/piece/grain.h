// SPDX-License-Identifier: GPL-3.0-or-later
/* grain: a map of every fibre of a piece, and the short grain in it.
 *
 * The map is a grid over width x thickness. Its lines run through all marks (marks.h), so that between them a piece whose walls
 * stand square is the same everywhere and one fibre says all; where walls slope or bend the cells are at most `step` wide.
 * Each cell holds the runs of the fibre in its middle.
 *
 * Short runs, less than a limit long, that lie side by side are one region. What lies before its end pushes on its end's
 * area; what holds it are the planes along the grain between it and longer wood beside it:
 *
 *     hold = (sum of border x common length with longer runs) / (area across the grain)                       (1)
 *
 * A block as long along the grain as it stands high above the wood that holds it has hold 1; wood in line with a mortise is
 * held on both sides. Below 1 is short grain: it shears or splits off before anything else gives way (common practice: no part
 * shorter along the grain than it is high). */
#ifndef TW_GRAIN_H
#define TW_GRAIN_H

#include "piece/marks.h"

#define TW_GRAIN_STEP_MM 0.5   // cells where walls slope or bend
#define TW_HOLD_LEAST 1.0      // below: short grain
#define TW_CELLS_MOST 60000    // of one map; beyond that the step is doubled

/// Wood in short runs side by side, bounded by two cuts, or by a cut and an end.
typedef struct tw_short_grain {
    int      from_cut, to_cut;  // what bounds most of it towards the left and the right end; -1: the end
    tw_block box;               // around it, in the piece's frame
    double   shortest_mm;       // its shortest run
    double   area_mm2;          // across the grain
    double   volume_mm3;
    double   held_mm2;          // planes along the grain that hold it
    double   hold;              // (1)
} tw_short_grain;

typedef struct tw_grain {
    tw_size       size;
    double        step_mm, limit_mm;
    tw_marks      y, z;             // lines of the grid; cell (i, k) lies between y.at[i], y.at[i + 1] and z.at[k], z.at[k + 1]
    size_t       *first;            // [cells + 1]: runs of cell i * (z.count - 1) + k
    tw_fibre_run *runs;
    int          *region;           // of each run: index into regions, or -1
    size_t        run_count;
    tw_short_grain *regions;  int region_count;  // hold below TW_HOLD_LEAST, largest volume first
    double        volume_mm3;       // of all runs
    tw_fibre_run  shortest;         // of all runs that end at a cut; to_mm 0: no cut ends any
    double        shortest_y_mm, shortest_z_mm;
} tw_grain;

/// Runs shorter than this may be short grain: as long as the piece is wide or thick, at most half of its length.
double tw_grain_limit_mm(tw_size size);
/// The whole map. step over 0.
tw_grain tw_grain_make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double step_mm);
/// The short grain only, quicker: fibres are looked at only where two cuts, or a cut and an end, come near each other.
/// Finds the same regions; volume and shortest run are those of the fibres that were looked at.
tw_grain tw_grain_short(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double step_mm);

#endif
