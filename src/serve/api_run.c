// SPDX-License-Identifier: GPL-3.0-or-later
/* At the machine: ticks, measured values, trial cuts. */
#include "serve/api.h"

#include <string.h>

#include "job/job.h"
#include "job/top_text.h"
#include "serve/change_json.h"

static bool is_done(tw_book_result result) { return result.answer == TW_BOOK_DONE; }

/* ---- what is noted ---- */

void tw_put_ticks(tw_json *json, const tw_book_ticks *ticks)
{
    tw_json_open(json, "ticks", '[');
    for (size_t i = 0; i < ticks->count; i++) {
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "step", ticks->items[i].step);
        tw_json_yes_no(json, "done", ticks->items[i].done);
        tw_json_number(json, "when_s", (double)ticks->items[i].when_s);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

/* How finely a measured value is told: finer than the papers' figures, as a caliper reads. */
static const char *measured_text(tw_arena *arena, double value_mm, bool inches)
{
    tw_figures figures = inches ? (tw_figures){ .style = TW_FIGURES_INCH, .decimals = 4 } : (tw_figures){ .style = TW_FIGURES_MM, .decimals = 2 };
    return tw_length_text(arena, value_mm, figures);
}

/* The unit of bare numbers in a text. */
static const char *unit_of(tw_arena *arena, tw_text text)
{
    const char *units = tw_top_text(arena, text, "units");
    for (int i = 0; units && tw_unit_words[i]; i++)
        if (strcmp(tw_unit_words[i], units) == 0) return tw_unit_words[i];
    return tw_unit_words[0];
}

static bool in_inches(tw_arena *arena, tw_text job)
{
    const char *unit = unit_of(arena, job);
    return strcmp(unit, "in") == 0 || strcmp(unit, "ft") == 0;
}

void tw_put_ledger(tw_json *json, tw_arena *arena, const tw_book_measures *ledger, tw_text job)
{
    bool inches = in_inches(arena, job);
    tw_json_open(json, "ledger", '[');
    for (size_t i = 0; i < ledger->count; i++) {
        const tw_book_measure *line = &ledger->items[i];
        tw_ledger_key key = tw_ledger_key_of(line->key);
        tw_json_open(json, NULL, '{');
        tw_json_number(json, "revision", line->revision);
        tw_json_text(json, "key", key.path);
        tw_json_text(json, "file", tw_file_words[key.file]);
        tw_json_yes_no(json, "drawn", key.drawn);
        tw_json_number(json, "value", line->value);
        tw_json_text(json, "text", key.drawn ? "as drawn" : measured_text(arena, line->value, inches));
        tw_json_number(json, "when_s", (double)line->when_s);
        tw_json_text(json, "note", line->note);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

/* ---- POST /api/tick {"job", "step", "done"} -> {"ticks"} ---- */

tw_reply tw_api_tick(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    int64_t job = tw_form_id(&form, "job");
    tw_book_tick tick = { .step = tw_form_words(&form, "step"), .done = tw_form_yes_no(&form, "done"), .when_s = tw_now_s() };
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_ticks ticks;
    tw_book_result result = tw_book_tick_set(desk->book, ask->arena, job, tick);
    if (is_done(result)) result = tw_book_tick_list(desk->book, ask->arena, job, &ticks);
    if (!is_done(result)) return tw_reply_book(ask->arena, result);
    tw_gather gather = { .arena = ask->arena };
    tw_sink sink = tw_gather_sink(&gather);
    tw_json json = { .sink = &sink };
    tw_json_open(&json, NULL, '{');
    tw_put_ticks(&json, &ticks);
    tw_json_close(&json, '}');
    return tw_reply_json(&gather);
}
