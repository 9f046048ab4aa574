// SPDX-License-Identifier: GPL-3.0-or-later
/* Figures of a piece that no joint says: rough sizes, and what is known of its wood. */
#include "sheet/figures_own.h"

#include <math.h>
#include <string.h>

#include "job/path.h"
#include "sheet/cutting.h"

#define KG_M3_PER_LB_FT3 16.018463  // 0.45359237 kg / (0.3048 m)^3

typedef struct fact {
    tw_value_owner       owner;
    const tw_piece      *piece;
    const tw_piece_wood *wood;
    tw_size              size;
} fact;

static const char *say(const fact *f, double length_mm) { return tw_value_say(f->owner.values, length_mm); }

static const char *area_text(const fact *f, double area_mm2)
{
    tw_value value = { 0 };
    tw_value_area(f->owner.values, &value, area_mm2);
    return value.text;
}

static const char *volume_text(const fact *f, double volume_mm3)
{
    tw_value value = { 0 };
    tw_value_volume(f->owner.values, &value, volume_mm3);
    return value.text;
}

/* ---- counts and rough sizes ---- */

static void add_count(const fact *f)
{
    const tw_job *job = f->owner.values->in->job;
    if (!(job->sets.value > 1.0)) return;
    tw_value value = tw_value_begin(&f->owner, "count_in_all_sets", "count in all sets",
        tw_format(f->owner.values->arena, "count x sets = %.0f x %.0f", f->piece->count.value, job->sets.value), "");
    tw_value_count(f->owner.values, &value, f->piece->count.value * job->sets.value);
    tw_values_add(f->owner.values, value);
}

static void add_rough(const fact *f, tw_size more)
{
    const struct { const char *key, *label; double finished, more; } sizes[] = {
        { "rough_length", "rough length, to saw out", f->size.length_mm, more.length_mm },
        { "rough_width", "rough width", f->size.width_mm, more.width_mm },
        { "rough_thickness", "rough thickness", f->size.thickness_mm, more.thickness_mm } };
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        const char *finished = say(f, sizes[i].finished), *allowance = say(f, sizes[i].more);
        tw_value_add_length(&f->owner, sizes[i].key, sizes[i].label, sizes[i].finished + sizes[i].more,
                   tw_format(f->owner.values->arena, "finished + allowance = %s + %s", finished, allowance),
                   "for sound, flat boards (common practice)");
    }
}

/* ---- the wood ---- */

static void add_volume(const fact *f)
{
    double blank = f->size.length_mm * f->size.width_mm * f->size.thickness_mm, volume = f->wood->bulk.volume_mm3;
    const char *sum = tw_format(f->owner.values->arena, "blank - cuts = %s x %s x %s - %s", say(f, f->size.length_mm),
                                say(f, f->size.width_mm), say(f, f->size.thickness_mm), volume_text(f, blank - volume));
    tw_value value = tw_value_begin(&f->owner, "volume", "volume", sum, "");
    tw_value_volume(f->owner.values, &value, volume);
    tw_values_add(f->owner.values, value);
}

static void add_mass(const fact *f)
{
    if (!isfinite(f->wood->mass_kg)) return;  // its timber is not known
    tw_arena *arena = f->owner.values->arena;
    double density = f->wood->density_kg_m3;
    bool mm = f->owner.values->in->job->figures.style == TW_FIGURES_MM;
    const char *dense = mm ? tw_format(arena, "%.0f kg/m³", density)
                           : tw_format(arena, "%.1f lb/ft³", density / KG_M3_PER_LB_FT3);
    const char *sum = tw_format(arena, "density x volume = %s x %s", dense, volume_text(f, f->wood->bulk.volume_mm3));
    const char *rule = tw_format(arena, "%s, mean wood at 12 %% of moisture: a board is easily a tenth lighter or heavier",
                                 f->piece->timber.text);
    tw_value value = tw_value_begin(&f->owner, "mass", "weight", sum, rule);
    tw_value_mass(f->owner.values, &value, f->wood->mass_kg);
    tw_values_add(f->owner.values, value);
}

static void add_centre(const fact *f)
{
    const char *sum = "each cut taken from the blank's middle with its own weight and place";
    tw_spot centre = f->wood->bulk.centre;
    tw_value_add_length(&f->owner, "centre_along", "centre of mass, from the left end", centre.x, sum, "");
    tw_value_add_length(&f->owner, "centre_across", "centre of mass, from the face edge", centre.y, sum, "");
    tw_value_add_length(&f->owner, "centre_up", "centre of mass, from the back", centre.z, sum, "");
}

static void add_weakest(const fact *f)
{
    tw_slice least = f->wood->bulk.least_area;
    double whole = f->size.width_mm * f->size.thickness_mm;
    const char *full = tw_format(f->owner.values->arena, "%s x %s = %s", say(f, f->size.width_mm), say(f, f->size.thickness_mm),
                                 area_text(f, whole));
    const char *sum = tw_format(f->owner.values->arena, "%s from the left end: %.0f %% of the full %s", say(f, least.x_mm),
                                100.0 * least.area_mm2 / whole, full);
    tw_value value = tw_value_begin(&f->owner, "weakest_section", "weakest section", sum, "");
    tw_value_area(f->owner.values, &value, least.area_mm2);
    tw_values_add(f->owner.values, value);
}

static void add_shortest(const fact *f)
{
    const tw_fibre_run *run = &f->wood->shortest;
    if (run->to_mm <= 0.0) return;  // no cut parts a fibre
    tw_arena *arena = f->owner.values->arena;
    const tw_job *job = f->owner.values->in->job;
    const tw_cut *cuts = f->wood->cuts.cuts;
    const char *from = tw_bound_words(arena, job, cuts, run->from_cut, true);
    const char *to = tw_bound_words(arena, job, cuts, run->to_cut, false);
    const char *sum = tw_format(arena, "between %s and %s, %s and %s from the left end", from, to, say(f, run->from_mm),
                                say(f, run->to_mm));
    tw_value_add_length(&f->owner, "shortest_run", "shortest run of grain", run->to_mm - run->from_mm, sum,
               "wood that is shorter along the grain than it is high splits off");
}

void tw_values_of_facts(tw_values *values, int index)
{
    const tw_piece *piece = &values->in->job->pieces[index];
    const char *words[] = { "pieces", piece->name, "facts" };
    fact f = { .owner = { .values = values, .id = tw_path_text(values->arena, words, 3),
                          .where = tw_format(values->arena, "piece `%s`", piece->name) },
               .piece = piece, .size = tw_piece_size(piece) };
    add_count(&f);
    add_rough(&f, tw_cutting_allowance(values->in->job));
    if (!values->in->woods) return;
    f.wood = &values->in->woods[index];
    add_volume(&f);
    add_mass(&f);
    add_centre(&f);
    add_weakest(&f);
    add_shortest(&f);
}
