// SPDX-License-Identifier: GPL-3.0-or-later
/* POST /api/reckon: a job with changes tried on it. Nothing is saved. One such request is made for each picture while a maker
 * drags a value.
 *
 *   asked   {"text", "shop_text" or "shop": id, "job"?: id (what was measured on it counts), "changes"?: [CHANGE],
 *            "figures"?: "in 1/64", "model"?: bool, "cards"?: bool (false: the model without them), "prove"?: bool,
 *            "compare_with"?: {"text", "shop_text"?},
 *            "drawings"?: [{"what", "name", "number"?, "width_mm", "known"?: hash}]}
 *   reply   {"good", "text"? and "shop_text"? (when changed), "refused"? (when not good: why; all else is told of the texts
 *            as they were), "state", "findings" (with fixes that were proved; with "changes", or "prove" false, with all), "model"?,
 *            "drawings"?: [{.., "hash", "svg"?}], "moved"?, "took_us"}
 *   CHANGE  and findings: change_json.h */
#define _POSIX_C_SOURCE 200809L
#include "serve/api.h"

#include <string.h>
#include <time.h>

#include "serve/change_json.h"
#include "sheet/drawing.h"

#define DRAWINGS_MOST 100

/* ---- drawings ---- */

static void put_drawings(tw_json *json, tw_form *form, tw_reckoned *reckoned)
{
    tw_form_list list = tw_form_list_of(form, "drawings", DRAWINGS_MOST);
    tw_json_open(json, "drawings", '[');
    for (size_t i = 0; i < list.count; i++) {
        tw_form item = tw_form_item(&list, i);
        const char *what = tw_form_words(&item, "what"), *name = tw_form_words_or(&item, "name", ""),
            *known = tw_form_words_or(&item, "known", "");
        int number = (int)tw_form_whole_or(&item, "number", 0, INT32_MAX, 0);
        double width = tw_form_number(&item, "width_mm", TW_DRAWING_LEAST_MM, TW_DRAWING_MOST_MM);
        if (tw_form_is_wrong(form)) return;
        tw_made_drawing made = tw_reckoned_drawing(reckoned, what, name, number, width);
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "what", what);
        tw_json_text(json, "name", name);
        tw_json_number(json, "number", number);
        tw_json_text(json, "hash", made.hash);
        if (strcmp(made.hash, known) != 0) tw_json_text(json, "svg", made.svg.bytes);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

/* ---- comparing ---- */

/* What moved from the other text to this one; nothing is told where either cannot be read. */
static void put_comparison(tw_desk *desk, tw_json *json, tw_form *form, const tw_reckon_texts *texts, tw_reckoned *reckoned)
{
    tw_form with = tw_form_object(form, "compare_with");
    tw_reckon_texts other = *texts;
    other.job = tw_form_text(&with, "text");
    if (tw_form_has(&with, "shop_text")) other.shop = tw_form_text(&with, "shop_text");
    if (tw_form_is_wrong(form)) return;
    tw_reckoned *before = tw_cache_reckon(desk->cache, &other);
    if (tw_reckoned_can_be_shown(before) && tw_reckoned_can_be_shown(reckoned)) tw_put_moved(json, form->arena, before, reckoned);
}

/* ---- the request ---- */

static int64_t now_us(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void put_reckoned(tw_desk *desk, tw_json *json, tw_form *form, const tw_reckon_texts *texts)
{
    tw_reckoned *reckoned = tw_cache_reckon(desk->cache, texts);
    // while a value is dragged there is no time for it
    bool prove = tw_form_yes_no_or(form, "prove", true);
    if (prove && !tw_form_has(form, "changes")) tw_reckoned_prove_fixes(reckoned, texts);
    tw_put_state(json, form->arena, tw_reckoned_result(reckoned));
    bool compare = tw_form_has(form, "compare_with"), model = tw_form_yes_no_or(form, "model", false);
    bool cards = tw_form_yes_no_or(form, "cards", true);
    if (tw_reckoned_can_be_shown(reckoned)) {
        if (model) tw_put_model(json, reckoned, cards);
        if (tw_form_has(form, "drawings")) put_drawings(json, form, reckoned);
    }
    if (compare) put_comparison(desk, json, form, texts, reckoned);
}

tw_reply tw_api_reckon(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    int64_t begun_us = now_us();
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_reckon_texts texts;
    tw_reply refusal;
    if (!tw_form_texts(desk, &form, &texts, &refusal)) return refusal;
    tw_changing changed = tw_form_change(&form, &texts);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_json_yes_no(json, "good", changed.good);
    if (changed.changed[TW_FILE_JOB]) tw_json_text(json, "text", texts.job.bytes);
    if (changed.changed[TW_FILE_SHOP]) tw_json_text(json, "shop_text", texts.shop.bytes);
    if (changed.refused) tw_put_refused(json, ask->arena, changed.refused);
    if (!tw_form_is_wrong(&form)) put_reckoned(desk, json, &form, &texts);
    tw_changed_free(changed.refused);
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_json_number(json, "took_us", (double)(now_us() - begun_us));
    return tw_answer_end(json);
}
