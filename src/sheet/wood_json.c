// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/wood_json.h"

static void put_spot(tw_json *json, const char *key, tw_spot spot)
{
    tw_json_open(json, key, '{');
    tw_json_number(json, "from_left_end_mm", spot.x);
    tw_json_number(json, "from_face_edge_mm", spot.y);
    tw_json_number(json, "from_back_mm", spot.z);
    tw_json_close(json, '}');
}

static void put_slice(tw_json *json, const char *key, tw_slice s)
{
    tw_json_open(json, key, '{');
    tw_json_number(json, "from_left_end_mm", s.x_mm);
    tw_json_number(json, "area_mm2", s.area_mm2);
    tw_json_number(json, "second_moment_flat_mm4", s.about_y_mm4);
    tw_json_number(json, "second_moment_on_edge_mm4", s.about_z_mm4);
    tw_json_number(json, "second_moment_strong_mm4", s.strong_mm4);
    tw_json_number(json, "second_moment_weak_mm4", s.weak_mm4);
    tw_json_close(json, '}');
}

static void put_run(tw_json *json, tw_arena *arena, const tw_job *job, const tw_piece_wood *wood)
{
    const tw_fibre_run *run = &wood->shortest;
    if (run->to_mm <= 0.0) return;
    tw_json_open(json, "shortest_run", '{');
    tw_json_number(json, "length_mm", run->to_mm - run->from_mm);
    tw_json_text(json, "from", tw_bound_words(arena, job, wood->cuts.cuts, run->from_cut, true));
    tw_json_text(json, "to", tw_bound_words(arena, job, wood->cuts.cuts, run->to_cut, false));
    put_spot(json, "starts_at", (tw_spot){ run->from_mm, wood->shortest_y_mm, wood->shortest_z_mm });
    tw_json_close(json, '}');
}

static void put_short_grain(tw_json *json, tw_arena *arena, const tw_job *job, const tw_piece_wood *wood)
{
    tw_json_open(json, "short_grain", '[');
    for (int i = 0; i < wood->region_count; i++) {
        const tw_short_grain *r = &wood->regions[i];
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "from", tw_bound_words(arena, job, wood->cuts.cuts, r->from_cut, true));
        tw_json_text(json, "to", tw_bound_words(arena, job, wood->cuts.cuts, r->to_cut, false));
        tw_json_number(json, "shortest_mm", r->shortest_mm);
        tw_json_number(json, "area_mm2", r->area_mm2);
        tw_json_number(json, "volume_mm3", r->volume_mm3);
        tw_json_number(json, "held_mm2", r->held_mm2);
        put_spot(json, "least", r->box.least);
        put_spot(json, "most", r->box.most);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

void tw_json_wood(tw_json *json, tw_arena *arena, const tw_job *job, const tw_piece_wood *wood)
{
    tw_json_number(json, "volume_mm3", wood->bulk.volume_mm3);
    tw_json_number(json, "density_kg_m3", wood->density_kg_m3);
    tw_json_number(json, "mass_kg", wood->mass_kg);
    put_spot(json, "centre_of_mass", wood->bulk.centre);
    put_slice(json, "weakest_section", wood->bulk.least_area);
    put_slice(json, "least_stiff_flat", wood->bulk.least_about_y);
    put_slice(json, "least_stiff_on_edge", wood->bulk.least_about_z);
    put_run(json, arena, job, wood);
    put_short_grain(json, arena, job, wood);
}
