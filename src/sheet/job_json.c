// SPDX-License-Identifier: GPL-3.0-or-later
/* job.json: every figure that the papers show, with its unit in the key, in the order of the stages: job, shop, pieces,
 * joints with their figures, cuts and works, templates, setups, run, cutting list, findings, papers. Lengths are in mm and
 * angles in degrees whatever the job's papers write. Nothing is rounded but to nine decimals. */
#include "sheet/cutting.h"
#include "sheet/json.h"
#include "sheet/papers.h"
#include "sheet/space_json.h"
#include "sheet/wood_json.h"

#include <string.h>

typedef struct writer { tw_json json; tw_arena *arena; const tw_paper_input *in; } writer;

/* ---- small values ---- */

static void put_size(tw_json *json, const char *key, tw_size size)
{
    tw_json_open(json, key, '{');
    tw_json_number(json, "length_mm", size.length_mm);
    tw_json_number(json, "width_mm", size.width_mm);
    tw_json_number(json, "thickness_mm", size.thickness_mm);
    tw_json_close(json, '}');
}

static void put_place(tw_json *json, tw_place place)
{
    tw_json_text(json, "file", place.file);
    tw_json_number(json, "line", place.line);
    tw_json_number(json, "column", place.column);
}

static const char *hand_word(tw_hand hand) { return hand == TW_HAND_LEFT ? "left" : hand == TW_HAND_RIGHT ? "right" : "none"; }

static const char *way_word(tw_way way)
{
    static const char *const words[] = {
        [TW_WAY_COPY] = "copy", [TW_WAY_SAW] = "saw", [TW_WAY_BANDSAW] = "bandsaw", [TW_WAY_ROUTE] = "route", [TW_WAY_TABLE] = "table", [TW_WAY_DRILL] = "drill",
        [TW_WAY_PLANE] = "plane", [TW_WAY_CHISEL] = "chisel", [TW_WAY_MARK] = "mark", [TW_WAY_MEASURE] = "measure", [TW_WAY_FIT] = "fit", [TW_WAY_GLUE] = "glue", [TW_WAY_FINISH] = "finish" };
    return words[way];
}

static const char *cutter_name(const writer *w, int i) { return i >= 0 ? w->in->shop->cutters[i].name : ""; }
static const char *follower_name(const writer *w, int i) { return i >= 0 ? w->in->shop->followers[i].name : ""; }

/* ---- job, shop, pieces ---- */

static void put_job(writer *w)
{
    static const char *const styles[] = { "mm", "inch decimals", "inch fractions" };
    const tw_job *job = w->in->job;
    tw_json *json = &w->json;
    tw_json_open(json, "job", '{');
    tw_json_text(json, "title", job->title.text);
    tw_json_text(json, "revision", job->revision.text);
    tw_json_text(json, "note", job->note.text);
    tw_json_text(json, "file", job->file);
    tw_json_number(json, "sets", job->sets.value);
    tw_json_text(json, "paper", tw_paper_size_of((tw_paper)job->paper.value).name);
    tw_json_text(json, "figures", styles[job->figures.style]);
    tw_json_number(json, "decimals", job->figures.decimals);
    tw_json_number(json, "parts_of_an_inch", job->figures.parts);
    tw_json_close(json, '}');
}

static void put_cutters(writer *w)
{
    const tw_shop *shop = w->in->shop;
    tw_json_open(&w->json, "cutters", '[');
    for (int i = 0; i < shop->cutter_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", shop->cutters[i].name);
        tw_json_number(&w->json, "diameter_mm", shop->cutters[i].d_mm);
        tw_json_number(&w->json, "cutting_length_mm", shop->cutters[i].cutting_length.value);
        tw_json_number(&w->json, "dovetail_deg", tw_degrees(shop->cutters[i].dovetail.value));
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
    tw_json_open(&w->json, "followers", '[');
    for (int i = 0; i < shop->follower_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", shop->followers[i].name);
        tw_json_number(&w->json, "diameter_mm", shop->followers[i].b_mm);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
    tw_json_open(&w->json, "spacers", '[');
    for (int i = 0; i < shop->spacer_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", shop->spacers[i].name);
        tw_json_number(&w->json, "size_mm", shop->spacers[i].size.value);
        tw_json_number(&w->json, "count", shop->spacers[i].count.value);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_shop(writer *w)
{
    const tw_machine *machine = &w->in->shop->machine;
    tw_json_open(&w->json, "shop", '{');
    tw_json_text(&w->json, "name", w->in->shop->name.text);
    tw_json_text(&w->json, "machine", machine->name.text);
    tw_json_number(&w->json, "ratio", machine->ratio.value);
    tw_json_number(&w->json, "clamp_zone_mm", machine->clamp_zone.value);
    put_cutters(w);
    tw_json_close(&w->json, '}');
}

static void put_pieces(writer *w)
{
    const tw_job *job = w->in->job;
    tw_json_open(&w->json, "pieces", '[');
    for (int i = 0; i < job->piece_count; i++) {
        const tw_piece *piece = &job->pieces[i];
        tw_size size = tw_piece_size(piece);
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", piece->name);
        tw_json_number(&w->json, "count", piece->count.value);
        tw_json_number(&w->json, "count_in_all_sets", piece->count.value * job->sets.value);
        tw_json_number(&w->json, "length_mm", size.length_mm);
        tw_json_number(&w->json, "width_mm", size.width_mm);
        tw_json_number(&w->json, "thickness_mm", size.thickness_mm);
        tw_json_text(&w->json, "timber", piece->timber.text);
        tw_json_text(&w->json, "note", piece->note.text);
        if (w->in->kin) {
            tw_json_text(&w->json, "alike_to", tw_kin_alike_words(w->arena, job, w->in->kin, i));
            tw_json_text(&w->json, "mirror_image_of", tw_kin_mirror_words(w->arena, job, w->in->kin, i));
        }
        if (w->in->woods) tw_json_wood(&w->json, w->arena, job, &w->in->woods[i]);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

/* ---- joints ---- */

/* The first of several figures with one key counts: names in an object are unique. */
static bool said_before(const tw_joint_plan *plan, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (strcmp(plan->figures[k].key, plan->figures[i].key) == 0) return true;
    return false;
}

static void put_figure_value(writer *w, const tw_figure *figure)
{
    switch (figure->unit) {
    case TW_UNIT_MM: tw_json_number(&w->json, tw_format(w->arena, "%s_mm", figure->key), figure->value); break;
    case TW_UNIT_RAD: tw_json_number(&w->json, tw_format(w->arena, "%s_deg", figure->key), tw_degrees(figure->value)); break;
    case TW_UNIT_NONE: case TW_UNIT_COUNT: tw_json_number(&w->json, figure->key, figure->value); break;
    }
}

static void put_figures(writer *w, const tw_joint_plan *plan)
{
    tw_json_open(&w->json, "figures", '{');
    for (size_t i = 0; i < plan->figure_count; i++)
        if (!said_before(plan, i)) put_figure_value(w, &plan->figures[i]);
    tw_json_close(&w->json, '}');
    tw_json_open(&w->json, "sums", '[');
    for (size_t i = 0; i < plan->figure_count; i++) {
        const tw_figure *figure = &plan->figures[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "key", figure->key);
        tw_json_text(&w->json, "label", figure->label);
        tw_json_text(&w->json, "symbol", figure->symbol);
        tw_json_text(&w->json, "sum", figure->sum);
        tw_json_text(&w->json, "rule", figure->rule);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_work(writer *w, const tw_work *work)
{
    tw_json *json = &w->json;
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "name", work->name);
    tw_json_text(json, "what", work->what);
    tw_json_text(json, "way", way_word(work->way));
    tw_json_text(json, "piece", work->piece >= 0 ? w->in->job->pieces[work->piece].name : work->part);
    tw_json_text(json, "face", tw_face_words[work->face]);
    tw_json_text(json, "down", tw_face_words[work->down]);
    tw_json_text(json, "hand", hand_word(work->hand));
    tw_json_number(json, "count", work->count);
    tw_json_number(json, "pieces", work->pieces);
    tw_json_text(json, "places", work->places);
    tw_json_text(json, "state", work->state);
    tw_json_text(json, "marks", work->marks);
    tw_json_text(json, "test_piece", work->test_piece);
    tw_json_text(json, "measure", work->measure);
    tw_json_number(json, "measure_mm", work->measure_mm);
    tw_json_number(json, "measure_least_mm", work->measure_mm + work->measure_under_mm);
    tw_json_number(json, "measure_most_mm", work->measure_mm + work->measure_over_mm);
    tw_json_text(json, "if_off", work->if_off);
    tw_json_text(json, "cautions", work->cautions);
    if (work->cradle.used) {
        tw_json_open(json, "cradle", '{');
        tw_json_number(json, "roll_deg", tw_degrees(work->cradle.roll_rad));
        tw_json_number(json, "swing_deg", tw_degrees(work->cradle.swing_rad));
        tw_json_number(json, "tilt_deg", tw_degrees(work->cradle.tilt_rad));
        tw_json_text(json, "words", work->cradle.words);
        tw_json_close(json, '}');
    }
    if (work->copied) {
        tw_json_text(json, "trace", work->copy.inside ? "inside" : "outside");
        tw_json_number(json, "depth_mm", work->copy.depth_mm);
        tw_json_yes_no(json, "both_faces", work->copy.both_faces);
        tw_json_number(json, "stop_to_origin_mm", work->copy.stop_to_origin_mm);
        tw_json_number(json, "down_to_origin_mm", work->copy.down_to_origin_mm);
        tw_json_outline(json, "cut", work->copy.cut);
    }
    tw_json_close(json, '}');
}

static void put_parts(writer *w, const tw_joint_plan *plan)
{
    tw_json_open(&w->json, "parts", '[');
    for (size_t i = 0; i < plan->part_count; i++) {
        const tw_part *part = &plan->parts[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", part->name);
        tw_json_number(&w->json, "count", part->count);
        put_size(&w->json, "finished", part->finished);
        put_size(&w->json, "stick", part->stick);
        tw_json_number(&w->json, "per_stick", part->per_stick);
        tw_json_text(&w->json, "timber", part->timber);
        tw_json_yes_no(&w->json, "bought", part->bought);
        if (part->note) tw_json_text(&w->json, "note", part->note);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_stations(writer *w, const tw_joint_plan *plan)
{
    tw_json_open(&w->json, "stations", '[');
    for (size_t i = 0; i < plan->station_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_number(&w->json, "along_mm", plan->stations[i].along_mm);
        tw_json_number(&w->json, "high_mm", plan->stations[i].high_mm);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

/* The joints, or the profiles. */
static void put_plans(writer *w, const char *list, bool profiles)
{
    tw_json_open(&w->json, list, '[');
    for (int p = 0; p < w->in->plan_count; p++) {
        const tw_joint_plan *plan = &w->in->plans[p];
        if (plan->profile != profiles) continue;
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", plan->joint->name);
        tw_json_text(&w->json, "kind", tw_joint_kinds[plan->joint->kind]->format.kind);
        tw_json_number(&w->json, "count", plan->count);
        tw_json_text(&w->json, "note", plan->joint->note.text);
        if (profiles) tw_json_text(&w->json, "piece", w->in->job->pieces[plan->piece].name);
        put_figures(w, plan);
        if (profiles) put_stations(w, plan);
        tw_json_open(&w->json, "works", '[');
        for (size_t i = 0; i < plan->work_count; i++) put_work(w, &plan->works[i]);
        tw_json_close(&w->json, ']');
        if (!profiles) put_parts(w, plan);
        tw_json_open(&w->json, "order", '[');
        for (size_t i = 0; i < plan->order_count; i++) tw_json_text(&w->json, NULL, plan->order[i]);
        tw_json_close(&w->json, ']');
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_cuts(writer *w)
{
    tw_json_open(&w->json, "cuts", '[');
    for (int p = 0; p < w->in->plan_count; p++)
        for (size_t i = 0; i < w->in->plans[p].cut_count; i++) {
            const tw_cut *cut = &w->in->plans[p].cuts[i];
            tw_json_open(&w->json, NULL, '{');
            tw_json_text(&w->json, w->in->plans[p].profile ? "profile" : "joint", w->in->plans[p].joint->name);
            tw_json_text(&w->json, "piece", w->in->job->pieces[cut->piece].name);
            tw_json_text(&w->json, "name", cut->name);
            tw_json_text(&w->json, "face", tw_face_words[cut->face]);
            tw_json_number(&w->json, "depth_mm", cut->depth_mm);
            tw_json_number(&w->json, "start_mm", cut->start_mm);
            if (cut->lean_right != 0.0 || cut->lean_up != 0.0) {  // per mm deeper
                tw_json_number(&w->json, "lean_right", cut->lean_right);
                tw_json_number(&w->json, "lean_up", cut->lean_up);
            }
            tw_json_yes_no(&w->json, "through", cut->through);
            tw_json_outline(&w->json, "outline", cut->outline);
            tw_json_close(&w->json, '}');
        }
    tw_json_close(&w->json, ']');
}

/* ---- templates ---- */

static void put_serves(writer *w, const tw_template *t)
{
    tw_json_open(&w->json, "serves", '[');
    for (int i = 0; i < t->work_count; i++) {
        const tw_joint_plan *plan = &w->in->plans[t->works[2 * i]];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "joint", plan->joint->name);
        tw_json_text(&w->json, "work", plan->works[t->works[2 * i + 1]].name);
        tw_json_yes_no(&w->json, "turned_over", t->turned && t->turned[i]);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_fits(writer *w, const tw_template *t)
{
    tw_json_open(&w->json, "fits", '[');
    for (int i = 0; i < t->fit_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "follower", follower_name(w, t->fits[i].follower));
        tw_json_number(&w->json, "width_change_mm", t->fits[i].width_change_mm);
        tw_json_number(&w->json, "wall_change_mm", t->fits[i].wall_change_mm);
        tw_json_yes_no(&w->json, "enters", t->fits[i].enters);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_strips(writer *w, const tw_template *t)
{
    tw_json *json = &w->json;
    tw_json_open(json, "strips", '[');
    for (int i = 0; i < t->strip_count; i++) {
        const tw_strip *strip = &t->strips[i];
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "name", strip->name);
        tw_json_number(json, "length_mm", strip->length_mm);
        tw_json_number(json, "width_mm", strip->width_mm);
        tw_json_number(json, "narrow_mm", strip->narrow_mm);
        tw_json_number(json, "angle_deg", tw_degrees(strip->angle_rad));
        tw_json_number(json, "end_angle_deg", tw_degrees(strip->end_angle_rad));
        tw_json_number(json, "other_end_angle_deg", tw_degrees(strip->other_end_rad));
        tw_json_number(json, "over_mm", strip->over_mm);
        tw_json_number(json, "over_width_mm", strip->over_width_mm);
        tw_json_number(json, "step", strip->step);
        tw_json_text(json, "note", strip->note);
        tw_json_outline(json, "shape", strip->shape);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_copy(writer *w, const tw_template *t)
{
    tw_json *json = &w->json;
    tw_json_outline(json, "cut", t->ask.cut);
    tw_json_outline(json, "cutter_path", t->copy.cutter_path);
    tw_json_outline(json, "follower_path", t->copy.follower_path);
    tw_json_outline(json, "template", t->copy.template_);
    tw_json_outline(json, "achieved", t->copy.achieved);
    tw_json_outline(json, "as_seen", t->view);
    tw_json_outline(json, "board_as_seen", t->board_view);
    tw_json_number(json, "left_area_mm2", t->copy.left_area_mm2);
    tw_json_number(json, "lost_area_mm2", t->copy.lost_area_mm2);
    tw_json_number(json, "left_places", t->copy.left_count);
    tw_json_number(json, "lost_places", t->copy.lost_count);
    tw_json_number(json, "corner_radius_mm", t->copy.corner_radius_mm);
    tw_json_number(json, "lost_radius_mm", t->copy.lost_radius_mm);
    tw_json_number(json, "error_mm", t->copy.error_mm);
    tw_json_open(json, "notes", '[');
    for (int i = 0; i < t->copy.note_count; i++) tw_json_text(json, NULL, t->copy.notes[i]);
    tw_json_close(json, ']');
}

static void put_template(writer *w, const tw_template *t)
{
    tw_json *json = &w->json;
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "name", t->name);
    tw_json_text(json, "title", t->title);
    tw_json_text(json, "cutter", cutter_name(w, t->cutter));
    if (t->other_cutter >= 0) tw_json_text(json, "other_cutter", cutter_name(w, t->other_cutter));
    tw_json_number(json, "cutter_mm", t->ask.cutter_mm);
    tw_json_text(json, "follower", follower_name(w, t->follower));
    tw_json_number(json, "follower_mm", t->ask.follower_mm);
    tw_json_number(json, "ratio", t->ask.ratio);
    tw_json_text(json, "trace", t->ask.inside ? "inside" : "outside");
    tw_json_yes_no(json, "turned_over", t->turned_over);
    tw_json_number(json, "thickness_mm", t->thickness_mm);
    tw_json_number(json, "rim_mm", t->rim_mm);
    tw_json_number(json, "hole_mm", t->hole_mm);
    tw_json_number(json, "counterbore_mm", t->counterbore_mm);
    tw_json_open(json, "holes_mm", '[');
    for (int i = 0; i < t->hole_count; i++) {
        tw_json_open(json, NULL, '[');
        tw_json_number(json, NULL, t->holes[i].x);
        tw_json_number(json, NULL, t->holes[i].y);
        tw_json_close(json, ']');
    }
    tw_json_close(json, ']');
    tw_json_text(json, "making", t->making);
    tw_json_text(json, "guides", t->guides);
    tw_json_text(json, "clearing", t->clearing);
    put_serves(w, t);
    put_copy(w, t);
    put_fits(w, t);
    put_strips(w, t);
    tw_json_close(json, '}');
}

static void put_templates(writer *w)
{
    const tw_templates *templates = w->in->templates;
    tw_json_open(&w->json, "templates", '[');
    for (int i = 0; i < templates->count; i++) put_template(w, &templates->items[i]);
    tw_json_close(&w->json, ']');
    tw_json_open(&w->json, "pairs", '[');
    for (int i = 0; i < templates->pair_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "cutter", cutter_name(w, templates->pairs[i].cutter));
        tw_json_text(&w->json, "follower", follower_name(w, templates->pairs[i].follower));
        tw_json_number(&w->json, "off_mm", templates->pairs[i].off_mm);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

/* ---- setups and run ---- */

static void put_stack(writer *w, const tw_stack *stack)
{
    tw_json_open(&w->json, "stack", '{');
    tw_json_yes_no(&w->json, "within_tolerance", stack->ok);
    tw_json_number(&w->json, "wanted_mm", stack->wanted_mm);
    if (stack->ok) {
        tw_json_number(&w->json, "total_mm", stack->total_mm);
        tw_json_number(&w->json, "error_mm", stack->error_mm);
    }
    if (!stack->ok && stack->has_below) tw_json_number(&w->json, "nearest_below_mm", stack->below_mm);
    if (!stack->ok && stack->has_above) tw_json_number(&w->json, "nearest_above_mm", stack->above_mm);
    tw_json_open(&w->json, "spacers", '[');
    for (int i = 0; i < stack->part_count; i++) {
        const tw_spacer *spacer = &w->in->shop->spacers[stack->parts[i].spacer];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", spacer->name);
        tw_json_number(&w->json, "size_mm", spacer->size.value);
        tw_json_number(&w->json, "count", stack->parts[i].count);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
    tw_json_close(&w->json, '}');
}

static void put_setting(writer *w, const char *key, const tw_setting *setting)
{
    if (!setting->used) return;
    tw_json_open(&w->json, key, '{');
    tw_json_text(&w->json, "label", setting->label);
    tw_json_number(&w->json, "value_mm", setting->value_mm);
    tw_json_text(&w->json, "sum", setting->sum);
    tw_json_text(&w->json, "between", setting->between);
    tw_json_number(&w->json, "direction_x", setting->direction_x);
    tw_json_number(&w->json, "direction_y", setting->direction_y);
    if (setting->stacked) put_stack(w, &setting->stack);
    tw_json_close(&w->json, '}');
}

static void put_setup(writer *w, const tw_setup *setup)
{
    tw_json *json = &w->json;
    const tw_joint_plan *plan = &w->in->plans[setup->plan];
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "name", setup->name);
    tw_json_text(json, "joint", plan->joint->name);
    tw_json_text(json, "work", plan->works[setup->work].name);
    tw_json_text(json, "template", setup->template_index >= 0 ? w->in->templates->items[setup->template_index].name : "");
    tw_json_yes_no(json, "template_turned_over", setup->template_turned);
    tw_json_text(json, "cutter", cutter_name(w, setup->cutter));
    tw_json_text(json, "follower", follower_name(w, setup->follower));
    tw_json_text(json, "pin", setup->pin >= 0 ? w->in->shop->pins[setup->pin].name : "");
    tw_json_number(json, "stick_out_mm", setup->stick_out_mm);
    tw_json_number(json, "speed_rpm", setup->speed_rpm);
    put_setting(w, "baseline", &setup->baseline);
    put_setting(w, "shift", &setup->shift);
    put_setting(w, "table", &setup->table);
    put_setting(w, "stop", &setup->stop);
    put_setting(w, "depth", &setup->depth);
    tw_json_number(json, "packing_mm", setup->packing_mm);
    tw_json_text(json, "packing_why", setup->packing_why);
    tw_json_number(json, "passes", setup->passes);
    tw_json_number(json, "pass_mm", setup->pass_mm);
    tw_json_text(json, "feed", setup->feed);
    tw_json_yes_no(json, "feed_clockwise", setup->feed_clockwise);
    tw_json_text(json, "breakout", setup->breakout);
    tw_json_text(json, "keeps", setup->keeps);
    tw_json_text(json, "cautions", setup->cautions);
    tw_json_close(json, '}');
}

static void put_run(writer *w)
{
    tw_json *json = &w->json;
    tw_json_open(json, "setups", '[');
    for (int i = 0; i < w->in->setups->count; i++) put_setup(w, &w->in->setups->items[i]);
    tw_json_close(json, ']');
    tw_json_open(json, "run", '[');
    for (int i = 0; i < w->in->run->count; i++) {
        const tw_step *step = &w->in->run->steps[i];
        tw_json_open(json, NULL, '{');
        tw_json_number(json, "number", step->number);
        tw_json_text(json, "name", step->name);
        tw_json_text(json, "what", step->what);
        tw_json_text(json, "joint", step->plan >= 0 ? w->in->plans[step->plan].joint->name : "");
        tw_json_text(json, "setup", step->setup >= 0 ? w->in->setups->items[step->setup].name : "");
        tw_json_text(json, "tally", step->tally);
        tw_json_number(json, "boxes", step->boxes);
        tw_json_text(json, "change", step->change);
        tw_json_text(json, "keeps", step->keeps);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

/* ---- cutting list, findings, papers ---- */

static void put_cutting_list(writer *w)
{
    tw_cutting_list list = tw_cutting_list_make(w->arena, w->in);
    tw_json_open(&w->json, "cutting_list", '{');
    put_size(&w->json, "allowance", list.allowance);
    tw_json_open(&w->json, "rows", '[');
    for (int i = 0; i < list.count; i++) {
        const tw_cutting_row *row = &list.rows[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", row->name);
        tw_json_text(&w->json, "what", tw_cutting_what(row));
        tw_json_number(&w->json, "count", row->count);
        put_size(&w->json, "finished", row->finished);
        tw_json_number(&w->json, "rough_count", row->rough_count);
        put_size(&w->json, "rough", row->rough);
        tw_json_text(&w->json, "timber", row->timber);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
    tw_json_close(&w->json, '}');
}

static void put_findings(writer *w)
{
    tw_json_open(&w->json, "findings", '[');
    for (size_t i = 0; i < w->in->findings->count; i++) {
        const tw_finding *finding = &w->in->findings->items[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "level", tw_level_word(finding->level));
        tw_json_text(&w->json, "code", finding->code);
        tw_json_text(&w->json, "about", finding->about);
        tw_json_text(&w->json, "what", finding->what);
        tw_json_text(&w->json, "remedy", finding->remedy);
        put_place(&w->json, finding->place);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_papers(writer *w, const tw_papers *papers)
{
    tw_json_open(&w->json, "papers", '[');
    for (int i = 0; papers && i < papers->count; i++) {
        const tw_paper_pages *paper = &papers->items[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", paper->name);
        tw_json_text(&w->json, "title", paper->title);
        tw_json_text(&w->json, "purpose", paper->purpose);
        tw_json_yes_no(&w->json, "true_size", paper->true_size);
        tw_json_open(&w->json, "pages", '[');
        for (int k = 0; k < paper->page_count; k++) tw_json_text(&w->json, NULL, paper->pages[k]->name);
        tw_json_close(&w->json, ']');
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

void tw_json_put(const tw_paper_input *input, const tw_papers *papers, tw_sink *sink)
{
    tw_arena arena = {0};
    writer w = { .json = { .sink = sink }, .arena = &arena, .in = input };
    tw_json_open(&w.json, NULL, '{');
    put_job(&w);
    put_shop(&w);
    put_pieces(&w);
    put_plans(&w, "joints", false);
    put_plans(&w, "profiles", true);
    put_cuts(&w);
    tw_json_space(&w.json, w.arena, input);
    put_templates(&w);
    put_run(&w);
    put_cutting_list(&w);
    put_findings(&w);
    put_papers(&w, papers);
    tw_json_close(&w.json, '}');
    tw_put_text(sink, "\n");
    tw_arena_finish(&arena);
}
