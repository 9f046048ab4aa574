// SPDX-License-Identifier: GPL-3.0-or-later
/* fibres: the wood of a piece along its grain.
 *
 * Every fibre is a line along x at (y, z). Each cut takes from it the part that lies in the prism: found exactly from the
 * lines and arcs of the outline (also for cuts that lean), not by sampling along the fibre. What is left are the runs of the
 * fibre; a run ends at an end of the piece or at a cut. The grid of fibres is what is sampled. */
#ifndef TW_FIBRES_H
#define TW_FIBRES_H

#include "piece/pose.h"

/// An unbroken length of one fibre and what ends it: index of a cut, or -1 the end of the piece.
typedef struct tw_fibre_run { double from_mm, to_mm; int from_cut, to_cut; } tw_fibre_run;

/// The runs left of the fibre at (y, z), in order; lives in the arena. count is set; 0: all of it is cut away.
tw_fibre_run *tw_fibre_runs(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double y_mm, double z_mm, int *count);

#endif
