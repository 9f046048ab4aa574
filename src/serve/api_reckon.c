// SPDX-License-Identifier: GPL-3.0-or-later
/* POST /api/reckon: a job with changes tried on it. Nothing is saved. One such request is made for each picture while a maker drags a
 * value.
 *
 *   asked   {"text", "shop_text" or "shop": id, "job"?: id (what was measured on it counts), "changes"?: [CHANGE], "figures"?: "in 1/64",
 *            "model"?: bool, "drawings"?: [{"what", "name", "number"?, "width_mm", "known"?: hash}], "compare_with"?: {"text", "shop_text"?}}
 *   reply   {"good", "text"? and "shop_text"? (when changed), "refused"? (when not good: why; all else is told of the texts as they were),
 *            "state", "findings", "model"?, "drawings"?: [{.., "hash", "svg"?}], "moved"?, "took_us"}
 *   CHANGE  and findings: change_json.h */
#define _POSIX_C_SOURCE 200809L
#include "serve/api.h"

#include <string.h>
#include <time.h>

#include "serve/change_json.h"
#include "sheet/drawing.h"

#define DRAWINGS_MOST 100

/* ---- changes ---- */

/* The changes of one file in their order. */
static tw_change *changes_in(tw_arena *arena, const tw_file_change *all, size_t count, tw_file_kind file, size_t *found)
{
    tw_change *changes = TW_NEW_ARRAY(arena, tw_change, count + 1);
    *found = 0;
    for (size_t i = 0; i < count; i++)
        if (all[i].file == file) changes[(*found)++] = all[i].change;
    return changes;
}

typedef struct changing {
    tw_arena *arena;
    bool      good;
    bool      changed[2];  // by tw_file_kind: the text is another now
    tw_changed *refused;   // to be freed when it was told
} changing;

static void change_one(changing *c, tw_file_kind file, const tw_file_change *all, size_t count, tw_text *text)
{
    size_t found;
    tw_change *changes = changes_in(c->arena, all, count, file, &found);
    if (found == 0 || !c->good) return;
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = file, .text = text->bytes, .bytes = text->length, .name = tw_file_words[file],
        .changes = changes, .change_count = found, .out_of_memory = c->arena->out_of_memory });
    c->good = tw_changed_is_good(changed);
    if (!c->good) {
        c->refused = changed;
        return;
    }
    size_t bytes;
    const char *with = tw_changed_text(changed, &bytes);
    c->changed[file] = bytes != text->length || memcmp(with, text->bytes, bytes) != 0;
    *text = (tw_text){ tw_text_copy(c->arena, (tw_text){ with, bytes }), bytes };
    tw_changed_free(changed);
}

/* All or nothing, over both texts. */
static changing make_changes(tw_form *form, tw_reckon_texts *texts)
{
    changing c = { .arena = form->arena, .good = true };
    size_t count;
    const tw_file_change *all = tw_form_changes(form, &count);
    if (tw_form_is_wrong(form)) return c;
    tw_text job = texts->job, shop = texts->shop;
    change_one(&c, TW_FILE_JOB, all, count, &job);
    change_one(&c, TW_FILE_SHOP, all, count, &shop);
    if (!c.good) c.changed[TW_FILE_JOB] = c.changed[TW_FILE_SHOP] = false;
    else *texts = (tw_reckon_texts){ job, shop, texts->figures, texts->ledger };
    return c;
}

/* ---- drawings ---- */

static void put_drawings(tw_json *json, tw_form *form, tw_reckoned *reckoned)
{
    tw_form_list list = tw_form_list_of(form, "drawings", DRAWINGS_MOST);
    tw_json_open(json, "drawings", '[');
    for (size_t i = 0; i < list.count; i++) {
        tw_form item = tw_form_item(&list, i);
        const char *what = tw_form_words(&item, "what"), *name = tw_form_words_or(&item, "name", ""), *known = tw_form_words_or(&item, "known", "");
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
    const tw_result *result = tw_reckoned_result(reckoned);
    tw_put_state(json, form->arena, result);
    bool good = tw_result_state(result) != TW_STATE_WRONG;
    if (good && tw_form_has(form, "drawings")) put_drawings(json, form, reckoned);
}

tw_reply tw_api_reckon(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    int64_t begun_us = now_us();
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_reckon_texts texts;
    tw_reply refusal;
    if (!tw_form_texts(desk, &form, &texts, &refusal)) return refusal;
    changing changed = make_changes(&form, &texts);
    tw_gather gather = { .arena = ask->arena };
    tw_sink sink = tw_gather_sink(&gather);
    tw_json json = { .sink = &sink };
    tw_json_open(&json, NULL, '{');
    tw_json_yes_no(&json, "good", changed.good);
    if (changed.changed[TW_FILE_JOB]) tw_json_text(&json, "text", texts.job.bytes);
    if (changed.changed[TW_FILE_SHOP]) tw_json_text(&json, "shop_text", texts.shop.bytes);
    if (changed.refused) tw_put_refused(&json, ask->arena, changed.refused);
    if (!tw_form_is_wrong(&form)) put_reckoned(desk, &json, &form, &texts);
    tw_changed_free(changed.refused);
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_json_number(&json, "took_us", (double)(now_us() - begun_us));
    tw_json_close(&json, '}');
    return tw_reply_json(&gather);
}
