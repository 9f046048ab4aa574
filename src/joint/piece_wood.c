// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/piece_wood.h"

#include <math.h>

#include "mech/mech.h"

#define KG_PER_LB 0.45359237  // by definition

static double density_of(tw_arena *arena, const tw_piece *piece)
{
    const tw_timber *timber = piece->timber.given ? tw_timber_find(arena, piece->timber.text, NULL) : NULL;
    return timber && isfinite(timber->specific_gravity_12) ? tw_density_kg_m3(timber->specific_gravity_12, TW_WEIGHED_AT_PERCENT) : NAN;
}

/* The map itself goes with the scratch arena: of its runs only the short grain is kept. */
static void keep_patches(tw_arena *arena, tw_piece_wood *wood, const tw_grain *g)
{
    size_t deep = g->z.count - 1, cells = (g->y.count - 1) * deep, count = 0;
    for (size_t r = 0; r < g->run_count; r++) count += g->region[r] >= 0;
    wood->patches = TW_NEW_ARRAY(arena, tw_grain_patch, count + 1);
    for (size_t cell = 0; cell < cells; cell++)
        for (size_t r = g->first[cell]; r < g->first[cell + 1]; r++) {
            size_t i = cell / deep, k = cell % deep;
            if (g->region[r] < 0) continue;
            wood->patches[wood->patch_count++] = (tw_grain_patch){ g->runs[r], g->y.at[i], g->y.at[i + 1], g->z.at[k], g->z.at[k + 1], g->region[r] };
        }
}

static void keep_grain(tw_arena *arena, tw_piece_wood *wood, const tw_grain *g)
{
    wood->shortest = g->shortest;
    wood->shortest_y_mm = g->shortest_y_mm;
    wood->shortest_z_mm = g->shortest_z_mm;
    wood->region_count = g->region_count;
    wood->regions = TW_NEW_ARRAY(arena, tw_short_grain, (size_t)g->region_count + 1);
    for (int i = 0; i < g->region_count; i++) wood->regions[i] = g->regions[i];
    keep_patches(arena, wood, g);
}

static void look_at(tw_arena *arena, tw_size size, tw_piece_wood *wood)
{
    tw_arena scratch = { .out_of_memory = arena->out_of_memory };
    tw_wood lines = tw_wood_make(&scratch, size, wood->cuts.cuts, wood->cuts.count);
    wood->bulk = tw_bulk_make(&lines);
    tw_grain grain = tw_grain_make(&scratch, size, wood->cuts.cuts, wood->cuts.count, TW_GRAIN_STEP_MM);
    keep_grain(arena, wood, &grain);
    tw_arena_finish(&scratch);
}

tw_piece_wood *tw_piece_woods_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count)
{
    tw_piece_wood *woods = TW_NEW_ARRAY(arena, tw_piece_wood, (size_t)job->piece_count + 1);
    tw_piece_cuts *cuts = tw_piece_cuts_gather(arena, job, plans, plan_count);
    for (int i = 0; i < job->piece_count; i++) {
        woods[i].cuts = cuts[i];
        look_at(arena, tw_piece_size(&job->pieces[i]), &woods[i]);
        woods[i].density_kg_m3 = density_of(arena, &job->pieces[i]);
        woods[i].mass_kg = woods[i].bulk.volume_mm3 * 1e-9 * woods[i].density_kg_m3;
    }
    return woods;
}

double tw_set_mass_kg(const tw_job *job, const tw_piece_wood *woods)
{
    double all = 0.0;
    for (int i = 0; i < job->piece_count; i++) all += woods[i].mass_kg * job->pieces[i].count.value;
    return all;
}

const char *tw_mass_words(tw_arena *arena, double mass_kg, tw_figures figures)
{
    if (figures.style != TW_FIGURES_MM) return tw_format(arena, "%.2f lb", mass_kg / KG_PER_LB);
    return tw_format(arena, mass_kg < 10.0 ? "%.2f kg" : "%.1f kg", mass_kg);
}
