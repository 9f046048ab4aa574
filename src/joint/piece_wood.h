// SPDX-License-Identifier: GPL-3.0-or-later
/* piece_wood: what is known of the wood of one finished piece: weight, middle, weakest sections, short grain.
 *
 * The weight is that of wood at 12 % moisture: 1000 G (1 + M/100) kg for each cubic metre (GTR-282 equation 4-14), G the timber's
 * mean specific gravity in the handbook's table. A board is easily a tenth lighter or heavier. */
#ifndef TW_PIECE_WOOD_H
#define TW_PIECE_WOOD_H

#include "joint/piece_cuts.h"
#include "piece/grain.h"
#include "piece/sections.h"

#define TW_WEIGHED_AT_PERCENT 12.0

/// Short grain cell by cell, for pictures: its run, where it lies across the grain, and its region.
typedef struct tw_grain_patch { tw_fibre_run run; double y0_mm, y1_mm, z0_mm, z1_mm; int region; } tw_grain_patch;

typedef struct tw_piece_wood {
    tw_piece_cuts   cuts;
    tw_bulk         bulk;
    double          density_kg_m3, mass_kg;  // of one; NAN when the handbook does not know the timber
    tw_fibre_run    shortest;                // of all runs that end at a cut; to_mm 0: none does
    double          shortest_y_mm, shortest_z_mm;
    tw_short_grain *regions;  int region_count;
    tw_grain_patch *patches;  int patch_count;
} tw_piece_wood;

/// [piece_count]; lives in the arena.
tw_piece_wood *tw_piece_woods_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count);
/// All pieces of one set, kg; NAN when the timber of one of them is not known.
double tw_set_mass_kg(const tw_job *job, const tw_piece_wood *woods);
/// "3.42 kg", or "7.54 lb" for jobs in inches.
const char *tw_mass_words(tw_arena *arena, double mass_kg, tw_figures figures);

#endif
