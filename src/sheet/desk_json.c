// SPDX-License-Identifier: GPL-3.0-or-later
/* The list of figures stands in the order in which it is shown, so each part of the JSON takes its own from the front: those
 * whose ids begin as the part's name does. */
#include "sheet/desk_json.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "job/path.h"
#include "sheet/cards.h"
#include "sheet/json.h"

#define TW_JOINT_PIECES_MOST 4  // named by the keys of one joint

typedef struct writer {
    tw_json               json;
    tw_arena             *arena;
    const tw_values      *values;
    const tw_paper_input *in;
    size_t                next;  // of the values
} writer;

/* ---- values ---- */

static void put_value(tw_json *json, const tw_value *value)
{
    const struct { const char *key, *text; } texts[] = {
        { "id", value->id }, { "path", value->path }, { "label", value->label }, { "symbol", value->symbol },
        { "text", value->text }, { "bare", value->bare }, { "unit", value->unit }, { "written", value->written }, { "shows", value->shows },
        { "sum", value->sum }, { "rule", value->rule } };
    tw_json_open(json, NULL, '{');
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) tw_json_text(json, texts[i].key, texts[i].text);
    tw_json_number(json, "value", strcmp(value->shows, "angle") == 0 ? tw_degrees(value->value) : value->value);
    tw_json_yes_no(json, "given", value->given);
    tw_json_texts(json, "choices", value->choices);
    tw_json_close(json, '}');
}

static bool begins(const char *id, const char *with) { return strncmp(id, with, strlen(with)) == 0; }

/* All from the front whose ids begin so, as one list; but stop (NULL: none) is the part of somebody else. */
static void put_values(writer *w, const char *key, const char *with, const char *stop)
{
    tw_json_open(&w->json, key, '[');
    while (w->next < w->values->count && begins(w->values->items[w->next].id, with)) {
        if (stop && begins(w->values->items[w->next].id, stop)) break;
        put_value(&w->json, &w->values->items[w->next++]);
    }
    tw_json_close(&w->json, ']');
}

static void put_job_values(writer *w)
{
    tw_json_open(&w->json, "values", '[');
    while (w->next < w->values->count && !strchr(w->values->items[w->next].id, '/'))
        put_value(&w->json, &w->values->items[w->next++]);
    tw_json_close(&w->json, ']');
}

static const char *length(const writer *w, double length_mm) { return tw_length_text(w->arena, length_mm, w->in->job->figures); }

static const char *path2(const writer *w, const char *section, const char *name)
{
    const char *words[] = { section, name };
    return tw_path_text(w->arena, words, 2);
}

/* ---- job and pieces ---- */

static void put_job(writer *w)
{
    const tw_job *job = w->in->job;
    tw_json *json = &w->json;
    tw_json_open(json, "job", '{');
    tw_json_text(json, "title", job->title.text);
    tw_json_text(json, "revision", job->revision.text);
    tw_json_text(json, "note", job->note.text);
    tw_json_number(json, "sets", job->sets.value);
    tw_json_text(json, "units", tw_unit_words[job->units.value]);
    tw_json_text(json, "figures", tw_figures_words(job->figures));
    tw_json_text(json, "paper", tw_paper_size_of((tw_paper)job->paper.value).name);
    tw_json_text(json, "shop_name", w->in->shop->name.text);
    put_job_values(w);
    tw_json_close(json, '}');
}

static void put_piece(writer *w, int index)
{
    const tw_piece *piece = &w->in->job->pieces[index];
    const char *path = path2(w, "pieces", piece->name);
    tw_json_open(&w->json, NULL, '{');
    tw_json_text(&w->json, "name", piece->name);
    tw_json_text(&w->json, "path", path);
    tw_json_number(&w->json, "count", piece->count.value);
    tw_json_text(&w->json, "timber", piece->timber.text);
    tw_json_text(&w->json, "note", piece->note.text);
    const char *facts = tw_format(w->arena, "%s/facts/", path);
    put_values(w, "values", tw_format(w->arena, "%s/", path), facts);
    put_values(w, "facts", facts, NULL);
    tw_json_text(&w->json, "alike_to", w->in->kin ? tw_kin_alike_words(w->arena, w->in->job, w->in->kin, index) : "");
    tw_json_text(&w->json, "mirror_of", w->in->kin ? tw_kin_mirror_words(w->arena, w->in->job, w->in->kin, index) : "");
    tw_json_close(&w->json, '}');
}

/* ---- joints and profiles ---- */

static const tw_joint_format *format_of(const tw_joint_plan *plan) { return &tw_joint_kinds[plan->joint->kind]->format; }

/* The pieces that its keys name, in the order of the keys; -1 behind the last. */
static void pieces_of(const tw_joint_plan *plan, int pieces[TW_JOINT_PIECES_MOST + 1])
{
    const tw_joint_format *format = format_of(plan);
    int count = 0;
    for (int i = 0; i < format->key_count && count < TW_JOINT_PIECES_MOST; i++) {
        if (format->keys[i].kind != TW_KEY_PIECE) continue;
        const tw_link *link = (const void *)((const char *)plan->joint->spec + format->keys[i].offset);
        if (link->index >= 0) pieces[count++] = link->index;
    }
    pieces[count] = -1;
}

static void put_pieces_of(writer *w, const tw_joint_plan *plan)
{
    int pieces[TW_JOINT_PIECES_MOST + 1];
    pieces_of(plan, pieces);
    tw_json_open(&w->json, "pieces", '[');
    for (int i = 0; pieces[i] >= 0; i++) tw_json_text(&w->json, NULL, w->in->job->pieces[pieces[i]].name);
    tw_json_close(&w->json, ']');
}

static const char *size_words(const writer *w, tw_size size)
{
    tw_figures figures = w->in->job->figures;
    return tw_format(w->arena, "%s × %s × %s", tw_length_bare(w->arena, size.length_mm, figures),
                     tw_length_bare(w->arena, size.width_mm, figures), tw_length_text(w->arena, size.thickness_mm, figures));
}

static void put_parts(writer *w, const tw_joint_plan *plan)
{
    tw_json_open(&w->json, "parts", '[');
    for (size_t i = 0; i < plan->part_count; i++) {
        const tw_part *part = &plan->parts[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", part->name);
        tw_json_number(&w->json, "count", part->count);
        tw_json_text(&w->json, "size", size_words(w, part->finished));
        tw_json_text(&w->json, "stick", part->bought ? "" : size_words(w, part->stick));
        tw_json_text(&w->json, "timber", part->timber);
        tw_json_yes_no(&w->json, "bought", part->bought);
        tw_json_text(&w->json, "note", part->note);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

/* Places of a profile's curve, to mark it out by. */
static void put_stations(writer *w, const tw_joint_plan *plan)
{
    tw_figures figures = w->in->job->figures;
    tw_json_text(&w->json, "stations_from", plan->stations_from);
    tw_json_open(&w->json, "stations", '[');
    for (size_t i = 0; i < plan->station_count; i++) {
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "along", tw_length_bare(w->arena, plan->stations[i].along_mm, figures));
        tw_json_text(&w->json, "high", tw_length_bare(w->arena, plan->stations[i].high_mm, figures));
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static void put_plan(writer *w, const tw_joint_plan *plan)
{
    const char *path = path2(w, plan->profile ? "profiles" : "joints", plan->joint->name);
    tw_json_open(&w->json, NULL, '{');
    tw_json_text(&w->json, "name", plan->joint->name);
    tw_json_text(&w->json, "path", path);
    tw_json_text(&w->json, "kind", format_of(plan)->kind);
    tw_json_number(&w->json, "count", plan->count);
    tw_json_text(&w->json, "note", plan->joint->note.text);
    put_pieces_of(w, plan);
    put_values(w, "values", tw_format(w->arena, "%s/", path), NULL);
    put_parts(w, plan);
    if (plan->profile) put_stations(w, plan);
    tw_json_open(&w->json, "advice", '[');
    for (size_t i = 0; i < plan->order_count; i++) tw_json_text(&w->json, NULL, plan->order[i]);
    tw_json_close(&w->json, ']');
    tw_json_close(&w->json, '}');
}

static void put_plans(writer *w, const char *key, bool profiles)
{
    tw_json_open(&w->json, key, '[');
    for (int i = 0; i < w->in->plan_count; i++)
        if (w->in->plans[i].profile == profiles) put_plan(w, &w->in->plans[i]);
    tw_json_close(&w->json, ']');
}

/* ---- templates ---- */

static void put_serves(writer *w, const tw_template *t)
{
    tw_json_open(&w->json, "serves", '[');
    for (int i = 0; i < t->work_count; i++)
        tw_json_text(&w->json, NULL, tw_work_key(w->arena, &w->in->plans[t->works[2 * i]], t->works[2 * i + 1]));
    tw_json_close(&w->json, ']');
}

static void put_template(writer *w, int index)
{
    const tw_template *t = &w->in->templates->items[index];
    tw_json_open(&w->json, NULL, '{');
    tw_json_text(&w->json, "name", t->name);
    tw_json_text(&w->json, "title", t->title);
    tw_json_text(&w->json, "joint", w->in->plans[t->joint].joint->name);
    put_values(w, "values", tw_format(w->arena, "templates/%s/", tw_template_key(w->arena, w->in, index)), NULL);
    tw_json_text(&w->json, "making", t->making);
    tw_json_text(&w->json, "guides", t->guides);
    tw_json_text(&w->json, "clearing", t->clearing);
    tw_json_open(&w->json, "notes", '[');
    for (int i = 0; i < t->copy.note_count; i++) tw_json_text(&w->json, NULL, t->copy.notes[i]);
    tw_json_close(&w->json, ']');
    put_serves(w, t);
    tw_json_close(&w->json, '}');
}

/* ---- steps ---- */

static void put_lines(writer *w, const char *key, const char *lines)
{
    tw_json *json = &w->json;
    tw_json_open(json, key, '[');
    while (*lines) {
        size_t line = strcspn(lines, "\n");
        if (line > 0) tw_json_text(json, NULL, tw_text_copy(w->arena, (tw_text){ lines, line }));
        lines += line + (lines[line] == '\n');
    }
    tw_json_close(json, ']');
}

static const char *cautions_of(const writer *w, const tw_card *card)
{
    if (!card->work) return card->step->cautions ? card->step->cautions : "";
    const char *first = card->setup ? card->setup->cautions : tw_way_cautions(card->work->way);
    return tw_card_cautions_of(w->arena, first, card->work->cautions);
}

static void put_measure(writer *w, const tw_card *card)
{
    const tw_work *work = card->work;
    if (!work || !*work->measure) {
        tw_json_nothing(&w->json, "measure");
        return;
    }
    tw_figures fine = tw_limit_figures(w->in->job->figures);
    double least = work->measure_mm + work->measure_under_mm, most = work->measure_mm + work->measure_over_mm;
    bool limits = work->measure_under_mm != 0.0 || work->measure_over_mm != 0.0;
    tw_json_open(&w->json, "measure", '{');
    tw_json_text(&w->json, "what", work->measure);
    tw_json_text(&w->json, "wanted", work->measure_mm > 0.0 ? length(w, work->measure_mm) : "");
    tw_json_text(&w->json, "least", limits ? tw_length_text(w->arena, least, fine) : "");
    tw_json_text(&w->json, "most", limits ? tw_length_text(w->arena, most, fine) : "");
    tw_json_number(&w->json, "wanted_mm", work->measure_mm);
    tw_json_number(&w->json, "least_mm", least);
    tw_json_number(&w->json, "most_mm", most);
    tw_json_text(&w->json, "limits", tw_card_limits_words(w->arena, card));
    tw_json_text(&w->json, "if_off", work->if_off);
    if (work->copied) tw_json_text(&w->json, "moving", tw_card_moving_words(w->arena, work, w->in->shop->machine.ratio.value));
    tw_json_close(&w->json, '}');
}

/* ---- a setup's card ---- */

static const char *direction(const tw_card_setting *shown)
{
    const tw_setting *setting = shown->setting;
    if (!shown->arrow || setting->value_mm < 1e-9) return "";
    if (setting->direction_x) return setting->direction_x < 0 ? "left" : "right";
    return setting->direction_y < 0 ? "down" : setting->direction_y > 0 ? "up" : "";
}

static void put_stack(writer *w, const tw_setting *setting)
{
    const tw_stack *stack = &setting->stack;
    const tw_spacer *spacers = w->in->shop->spacers;
    tw_figures figures = w->in->job->figures;
    bool missing = !setting->stacked && !stack->ok && stack->wanted_mm > 0.0;
    tw_json_open(&w->json, "stack", '[');
    for (int i = 0; setting->stacked && i < stack->part_count; i++) {
        const tw_spacer *spacer = &spacers[stack->parts[i].spacer];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "name", spacer->name);
        tw_json_text(&w->json, "size", tw_spacer_size_words(w->arena, spacer->size.value, figures));
        tw_json_number(&w->json, "count", stack->parts[i].count);
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
    const char *unit = figures.style == TW_FIGURES_MM ? "mm" : "in";
    tw_json_text(&w->json, "stack_total",   // as exact as the spacers are
                 setting->stacked ? tw_format(w->arena, "%s %s", tw_spacer_size_words(w->arena, stack->total_mm, figures), unit) : "");
    const char *error = setting->stacked ? tw_stack_error_words(w->arena, stack, figures)
        : missing ? tw_stack_none_words(w->arena, stack, figures) : "";
    tw_json_text(&w->json, "stack_error", error + (*error == ' '));
}

static void put_setting(writer *w, const tw_card_setting *shown)
{
    const tw_setting *setting = shown->setting;
    tw_json_open(&w->json, NULL, '{');
    tw_json_text(&w->json, "label", setting->label);
    tw_json_text(&w->json, "figure", length(w, setting->value_mm));
    tw_json_text(&w->json, "way", shown->way);
    tw_json_text(&w->json, "sum", setting->sum);
    tw_json_text(&w->json, "direction", direction(shown));
    tw_json_text(&w->json, "between", setting->between);
    put_stack(w, setting);
    tw_json_close(&w->json, '}');
}

static const char *hand_words(tw_hand hand)
{
    return hand == TW_HAND_LEFT ? "left hand" : hand == TW_HAND_RIGHT ? "right hand" : "";
}

static const char *follower_words(const writer *w, int follower)
{
    if (follower < 0) return "";
    const tw_follower *f = &w->in->shop->followers[follower];
    return tw_format(w->arena, "%s (%s)", f->name, length(w, f->b_mm));
}

static void put_mounted(writer *w, const tw_card *card)
{
    const tw_setup *setup = card->setup;
    const tw_work *work = card->work;
    const char *plunges = "one plunge";
    if (setup->passes > 1) plunges = tw_format(w->arena, "%d plunges of %s", setup->passes, length(w, setup->pass_mm));
    const struct { const char *key, *text; } texts[] = {
        { "setup", setup->name }, { "template", tw_card_template_words(w->arena, card) },
        { "follower", follower_words(w, setup->follower) },
        { "cutter", setup->cutter >= 0 ? tw_card_cutter_words(w->arena, card) : "" },
        { "stick_out", length(w, setup->stick_out_mm) },
        { "speed", setup->speed_rpm > 0.0 ? tw_format(w->arena, "at most %.0f turns a minute", setup->speed_rpm) : "" },
        { "face", tw_face_words[work->face] }, { "down", tw_face_words[work->down] }, { "hand", hand_words(work->hand) },
        { "at_stop", work->copy.stop_word }, { "clamps", tw_card_clamp_words(w->arena, card) },
        { "packing", tw_card_packing_words(w->arena, card) }, { "cradle", work->cradle.used ? work->cradle.words : "" },
        { "baseline", setup->baseline.used ? setup->baseline.sum : "" }, { "feed", setup->feed }, { "breakout", setup->breakout },
        { "clearing", card->template_ ? card->template_->clearing : "" }, { "passes", plunges } };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) tw_json_text(&w->json, texts[i].key, texts[i].text);
}

static void put_card(writer *w, const tw_card *card)
{
    tw_card_setting shown[TW_CARD_SETTINGS_MOST];
    if (!card->setup || !card->work) {
        tw_json_nothing(&w->json, "card");
        return;
    }
    int count = tw_card_settings(w->arena, card, shown);
    tw_json_open(&w->json, "card", '{');
    put_mounted(w, card);
    tw_json_open(&w->json, "settings", '[');
    for (int i = 0; i < count; i++) put_setting(w, &shown[i]);
    tw_json_close(&w->json, ']');
    tw_json_close(&w->json, '}');
}

/* ---- what a step can measure for the ledger ---- */

static void put_ledger_line(writer *w, const char *section, const char *name, const char *label, double now_mm)
{
    bool piece = strcmp(section, "pieces") == 0;
    const char *words[] = { section, name, piece ? "thickness" : "measured" };
    tw_json_open(&w->json, NULL, '{');
    tw_json_text(&w->json, "key", tw_path_text(w->arena, words, 3));
    tw_json_text(&w->json, "file", piece ? "job" : "shop");
    tw_json_text(&w->json, "label", label);
    tw_json_text(&w->json, "now", tw_length_text(w->arena, now_mm, tw_limit_figures(w->in->job->figures)));
    tw_json_close(&w->json, '}');
}

static void put_thickness(writer *w, int piece)
{
    const tw_piece *p = &w->in->job->pieces[piece];
    put_ledger_line(w, "pieces", p->name, tw_format(w->arena, "thickness of %s", p->name), p->thickness.value);
}

/* The cutter, the follower, the thickness of the piece in hand and of those that it is joined to. */
static void put_ledger(writer *w, const tw_card *card)
{
    const tw_shop *shop = w->in->shop;
    int pieces[TW_JOINT_PIECES_MOST + 1] = { -1 }, own = card->work ? card->work->piece : -1;
    tw_json_open(&w->json, "ledger", '[');
    if (card->setup && card->setup->cutter >= 0) {
        const tw_cutter *cutter = &shop->cutters[card->setup->cutter];
        put_ledger_line(w, "cutters", cutter->name, tw_format(w->arena, "diameter of cutter %s", cutter->name), cutter->d_mm);
    }
    if (card->setup && card->setup->follower >= 0) {
        const tw_follower *follower = &shop->followers[card->setup->follower];
        const char *label = tw_format(w->arena, "diameter of follower %s", follower->name);
        put_ledger_line(w, "followers", follower->name, label, follower->b_mm);
    }
    if (own >= 0) put_thickness(w, own);
    if (card->plan) pieces_of(card->plan, pieces);
    for (int i = 0; pieces[i] >= 0; i++)
        if (pieces[i] != own) put_thickness(w, pieces[i]);
    tw_json_close(&w->json, ']');
}

/* Leaves out the values whose ids begin so. */
static void pass_values(writer *w, const char *with)
{
    while (w->next < w->values->count && begins(w->values->items[w->next].id, with)) w->next++;
}

static void put_card_of_step(writer *w, const tw_step *step, const tw_card *card, const char *ids)
{
    const tw_work *work = card->work;
    tw_json *json = &w->json;
    tw_json_text(json, "what", step->what && *step->what ? step->what : work ? work->what : "");
    tw_json_text(json, "whose", tw_card_whose_words(w->arena, card));
    tw_json_number(json, "boxes", step->boxes);
    tw_json_text(json, "keeps", tw_card_keeps(w->arena, card));
    put_lines(w, "cautions", cautions_of(w, card));
    tw_json_text(json, "joint", card->plan ? card->plan->joint->name : "");
    tw_json_text(json, "piece", !work ? "" : work->piece >= 0 ? w->in->job->pieces[work->piece].name : work->part);
    tw_json_text(json, "state", work ? work->state : "");
    tw_json_text(json, "marks", work ? work->marks : "");
    tw_json_text(json, "lies", work && !card->setup ? tw_card_lies_words(w->arena, work) : "");
    tw_json_text(json, "test_piece", work ? work->test_piece : "");
    put_measure(w, card);
    tw_json_yes_no(json, "centred", work && work->copied && work->copy.locate == TW_LOCATE_CENTRED);
    put_card(w, card);
    put_ledger(w, card);
    put_values(w, "values", ids, NULL);
}

/* What a list of all steps says of one, then what its card says. */
static void put_step(writer *w, int index, bool cards)
{
    const tw_step *step = &w->in->run->steps[index];
    tw_card card = tw_card_of(w->in, step);
    const tw_work *work = card.work;
    const char *key = tw_step_key(w->arena, w->in, index), *ids = tw_format(w->arena, "steps/%s/", key);
    tw_json *json = &w->json;
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "key", key);
    tw_json_number(json, "number", step->number);
    tw_json_text(json, "name", step->name);
    tw_json_text(json, "tally", step->tally && *step->tally ? step->tally : work ? work->places : "");
    tw_json_text(json, "change", step->change);
    if (cards) put_card_of_step(w, step, &card, ids);
    else pass_values(w, ids);
    tw_json_close(json, '}');
}

/* ---- values as built, papers ---- */

static const char *built_label(const writer *w, const tw_in_force *in_force)
{
    size_t last = in_force->path_count - 1;
    if (in_force->path_count < 2) return in_force->path[last];
    const char *name = in_force->path[last - 1], *section = in_force->path[0];
    const char *key = strcmp(in_force->path[last], "measured") == 0 ? "diameter" : in_force->path[last];
    bool cutter = strcmp(section, "cutters") == 0, follower = strcmp(section, "followers") == 0;
    return tw_format(w->arena, "%s of %s%s", key, cutter ? "cutter " : follower ? "follower " : "", name);
}

static void put_measured(writer *w, const tw_measures *measures)
{
    tw_figures fine = tw_limit_figures(w->in->job->figures);
    tw_json_open(&w->json, "measured", '[');
    for (size_t i = 0; measures && i < measures->in_force_count; i++) {
        const tw_in_force *in_force = &measures->in_force[i];
        tw_json_open(&w->json, NULL, '{');
        tw_json_text(&w->json, "key", tw_path_text(w->arena, in_force->path, in_force->path_count));
        tw_json_text(&w->json, "file", in_force->file == TW_FILE_SHOP ? "shop" : "job");
        tw_json_text(&w->json, "label", built_label(w, in_force));
        tw_json_text(&w->json, "drawn", tw_length_text(w->arena, in_force->drawn.value, fine));
        tw_json_text(&w->json, "built", tw_length_text(w->arena, in_force->built_mm, fine));
        tw_json_close(&w->json, '}');
    }
    tw_json_close(&w->json, ']');
}

static const char *run_words(const writer *w)
{
    const tw_run *run = w->in->run;
    if (run->count == 0) return "";
    const char *steps = tw_count_words(w->arena, run->count, "step", "steps");
    const char *changes = tw_count_words(w->arena, run->changes, "change", "changes");
    if (run->plain_changes <= run->changes) return tw_format(w->arena, "%s, with %s of settings and machines.", steps, changes);
    return tw_format(w->arena, "%s, with %s of settings and machines; as the joints stand in the text it would be %d.",
                     steps, changes, run->plain_changes);
}

/* The papers that the job will have: those with something to show. */
static void put_papers(writer *w)
{
    const tw_paper_input *in = w->in;
    bool made = false, straight = false;
    for (int i = 0; i < in->templates->count; i++) {
        made = made || in->templates->items[i].board_view.count > 0;
        straight = straight || in->templates->items[i].strip_count > 0;
    }
    const struct { const char *name; bool there; } papers[] = {
        { "overview", true }, { "findings", in->findings->count > 0 }, { "run", in->run->count > 0 },
        { "cards", in->run->count > 0 }, { "templates", made }, { "strips", straight }, { "pieces", in->job->piece_count > 0 },
        { "joints", in->job->joint_count > 0 }, { "profiles", in->job->profile_count > 0 },
        { "profile-lines", in->job->profile_count > 0 }, { "grain", in->woods != NULL },
        { "assembly", in->space != NULL && in->job->joint_count > 0 }, { "cutting-list", true } };
    tw_json_open(&w->json, "papers", '[');
    for (size_t i = 0; i < sizeof papers / sizeof *papers; i++)
        if (papers[i].there) tw_json_text(&w->json, NULL, papers[i].name);
    tw_json_close(&w->json, ']');
}

void tw_desk_json_put(const tw_values *values, const tw_measures *measures, bool cards, tw_sink *sink)
{
    tw_arena arena = tw_arena_beside(values->arena);
    writer w = { .json = { .sink = sink, .tight = true }, .arena = &arena, .values = values, .in = values->in };
    tw_json_open(&w.json, NULL, '{');
    put_job(&w);
    put_values(&w, "amounts", "amounts/", NULL);
    tw_json_open(&w.json, "pieces", '[');
    for (int i = 0; i < w.in->job->piece_count; i++) put_piece(&w, i);
    tw_json_close(&w.json, ']');
    put_plans(&w, "joints", false);
    put_plans(&w, "profiles", true);
    tw_json_open(&w.json, "templates", '[');
    for (int i = 0; i < w.in->templates->count; i++) put_template(&w, i);
    tw_json_close(&w.json, ']');
    tw_json_open(&w.json, "steps", '[');
    for (int i = 0; i < w.in->run->count; i++) put_step(&w, i, cards);
    tw_json_close(&w.json, ']');
    put_measured(&w, measures);
    tw_json_text(&w.json, "run_lines", run_words(&w));
    put_papers(&w);
    tw_json_close(&w.json, '}');
    assert(w.next == values->count);
    tw_arena_finish(&arena);
}
