// SPDX-License-Identifier: GPL-3.0-or-later
/* POST /api/trial: a trial cut was measured; the core says which stop to move.
 *
 *   asked   {"text", .., "step": key of a step, "of"?: "measure"|"depth"|"along"|"up", "wanted"?, "got": "38.3"}
 *           or, in place of "got", "flip": [first, second], "along"?: it was turned end for end
 *   reply   {"good" (within its limits), "notes", "dimensions": [{"of", "what", "wanted", "least", "most"}],
 *            "moves": [{"stop", "way", "by", "by_mm", "stack"?, "sum", "setting"?, "setting_stack"?}]} */
#include "serve/api.h"

#include "setup/trial.h"

static const char *const of_words[] = { [TW_TRIAL_MEASURE] = "measure", [TW_TRIAL_DEPTH] = "depth", [TW_TRIAL_ALONG] = "along",
                                        [TW_TRIAL_UP] = "up" };

/* ---- what is asked ---- */

/* The step's work and setup; false when there is no such step. */
static bool find_step(const tw_paper_input *in, tw_arena *arena, const char *key, tw_trial_ask *trial)
{
    int index = tw_step_of_key(arena, in, key);
    if (index < 0) return false;
    const tw_step *step = &in->run->steps[index];
    *trial = (tw_trial_ask){ .job = in->job, .shop = in->shop, .plans = in->plans, .templates = in->templates,
                             .setups = in->setups,
                             .plan = step->plan, .work = step->work, .setup = step->setup };
    return true;
}

static tw_trial made_trial(tw_form *form, tw_arena *arena, const tw_trial_ask *trial, tw_text job)
{
    double wanted = 0.0, got = 0.0;
    const char *written = tw_form_words_or(form, "wanted", "");
    if (*written) tw_form_length(form, "what was wanted,", written, job, &wanted);
    tw_form_length(form, "what was got,", tw_form_words(form, "got"), job, &got);
    return tw_form_is_wrong(form) ? (tw_trial){ 0 } : tw_trial_made(arena, trial, *written ? &wanted : NULL, got);
}

static tw_trial flip_trial(tw_form *form, tw_arena *arena, const tw_trial_ask *trial, tw_text job)
{
    tw_form_list both = tw_form_list_of(form, "flip", 2);
    double measured[2] = { 0.0, 0.0 };
    if (both.count != 2) tw_form_fault(form, "\"flip\" does not have two lengths",
                                       "give what was measured before and after turning");
    for (size_t i = 0; i < both.count; i++) tw_form_length(form, "what was measured,", tw_form_item_words(&both, i), job,
                                                           &measured[i]);
    bool along = tw_form_yes_no_or(form, "along", false);
    return tw_form_is_wrong(form) ? (tw_trial){ 0 } : tw_trial_flip(arena, trial, measured[0], measured[1], along);
}

/* ---- what is told ---- */

/* As exact as it is owned: figures of a tenth would make two leaves of it that are not alike. */
static const char *spacer_size(tw_arena *arena, const tw_job *job, double size_mm)
{
    return job->figures.style == TW_FIGURES_MM ? tw_format(arena, "%g mm", size_mm)
        : tw_format(arena, "%g in", size_mm / TW_MM_PER_INCH);
}

static void put_stack(tw_json *json, tw_arena *arena, const tw_trial_ask *trial, const tw_stack *stack)
{
    tw_json_open(json, "stack", '[');
    for (int i = 0; i < stack->part_count; i++) {
        const tw_spacer *spacer = &trial->shop->spacers[stack->parts[i].spacer];
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "name", spacer->name);
        tw_json_text(json, "size", spacer_size(arena, trial->job, spacer->size.value));
        tw_json_number(json, "count", stack->parts[i].count);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_move(tw_json *json, tw_arena *arena, const tw_trial_ask *trial, const tw_trial_move *move)
{
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "stop", move->stop);
    tw_json_text(json, "way", move->way);
    tw_json_text(json, "by", move->by);
    tw_json_number(json, "by_mm", move->by_mm);
    if (move->stacked) put_stack(json, arena, trial, &move->stack);
    tw_json_text(json, "sum", move->sum);
    if (move->has_setting) {
        tw_json_text(json, "setting", move->setting);
        tw_json_text(json, "setting_stack", move->setting_stack);
    }
    tw_json_close(json, '}');
}

static void put_dimensions(tw_json *json, tw_arena *arena, const tw_trial_ask *trial)
{
    size_t count;
    const tw_trial_dimension *dimensions = tw_trial_dimensions(arena, trial, &count);
    tw_json_open(json, "dimensions", '[');
    for (size_t i = 0; i < count; i++) {
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "of", of_words[dimensions[i].of]);
        tw_json_text(json, "what", dimensions[i].what);
        tw_json_text(json, "wanted", tw_length_text(arena, dimensions[i].wanted_mm, trial->job->figures));
        tw_json_text(json, "least", tw_length_text(arena, dimensions[i].least_mm, trial->job->figures));
        tw_json_text(json, "most", tw_length_text(arena, dimensions[i].most_mm, trial->job->figures));
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static tw_reply reply_trial(tw_arena *arena, const tw_trial_ask *trial, const tw_trial *made)
{
    tw_json *json = tw_answer_begin(arena);
    tw_json_yes_no(json, "good", made->good);
    tw_json_open(json, "moves", '[');
    for (size_t i = 0; i < made->move_count; i++) put_move(json, arena, trial, &made->moves[i]);
    tw_json_close(json, ']');
    tw_json_open(json, "notes", '[');
    for (size_t i = 0; i < made->note_count; i++) tw_json_text(json, NULL, made->notes[i]);
    tw_json_close(json, ']');
    put_dimensions(json, arena, trial);
    return tw_answer_end(json);
}

tw_reply tw_api_trial(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    const char *step = tw_form_words(&form, "step");
    size_t of = tw_form_has(&form, "of") ? tw_form_choice(&form, "of", of_words, sizeof of_words / sizeof *of_words)
        : TW_TRIAL_MEASURE;
    tw_reckon_texts texts;
    tw_reply refusal;
    if (!tw_form_texts_changed(desk, &form, &texts, &refusal)) return refusal;
    tw_reckoned *reckoned = tw_cache_reckon(desk->cache, &texts);
    if (!tw_reckoned_can_be_shown(reckoned)) return tw_reply_unreadable(ask->arena);
    tw_trial_ask trial;
    if (!find_step(tw_reckoned_input(reckoned), ask->arena, step, &trial))
        return tw_reply_not_there(ask->arena, tw_format(ask->arena, "the run has no step \"%s\"", step), "look at the run again");
    trial.of = (tw_trial_of)of;
    tw_trial made = tw_form_has(&form, "flip") ? flip_trial(&form, ask->arena, &trial, texts.job)
        : made_trial(&form, ask->arena, &trial, texts.job);
    return tw_form_is_wrong(&form) ? tw_form_refusal(&form) : reply_trial(ask->arena, &trial, &made);
}
