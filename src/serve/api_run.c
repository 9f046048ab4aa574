// SPDX-License-Identifier: GPL-3.0-or-later
/* At the machine: ticks, measured values, trial cuts. */
#include "serve/api.h"

#include <string.h>

#include "job/job.h"
#include "job/path.h"
#include "job/top_text.h"
#include "serve/change_json.h"

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
    tw_figures figures = inches ? (tw_figures){ .style = TW_FIGURES_INCH, .decimals = 4 }
        : (tw_figures){ .style = TW_FIGURES_MM, .decimals = 2 };
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
    if (tw_is_done(result)) result = tw_book_tick_list(desk->book, ask->arena, job, &ticks);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_put_ticks(json, &ticks);
    return tw_answer_end(json);
}

/* ---- POST /api/measured ----
 *
 *   asked   {"job", "revision", "key": path text, "file"?: "job"|"shop", "value": as typed ("" to count as drawn again),
 *            "note"?, "try"?: bool, "figures"?: "in 1/64" (how what moves is written)}
 *   reply   {"moved": [..], "state", "findings", "ledger": [..]}; with "try" nothing is kept, and the ledger is told as it is */

/* What the reader of lengths said, without the place in the one line that was typed; "" for a word, of which there is no more to say. */
static const char *length_fault(const char *why)
{
    const char *place = why[0] == '`' ? strstr(why, ": ") : NULL;
    const char *told = place ? place + 2 : why;
    return strstr(told, "is not an amount") || strstr(told, "is named") ? "" : told;
}

bool tw_form_length(tw_form *form, const char *what, const char *written, tw_text in, double *length_mm)
{
    const char *why = "";
    if (tw_form_is_wrong(form)) return false;
    if (tw_length_read(form->arena, tw_text_of(written), unit_of(form->arena, in), length_mm, &why)) return true;
    why = length_fault(why);
    tw_form_fault(form, tw_format(form->arena, "%s \"%s\" is no length%s%s", what, written, why[0] ? ": " : "", why),
                  "write it as you measured it, such as 44.6 or 1 3/4 in");
    return false;
}

typedef struct measuring {
    tw_arena      *arena;
    int64_t        job;
    int            revision;
    tw_ledger_key  key;
    const char    *written, *note, *figures;
    bool           only_try;
    double         value_mm;
    tw_text        job_text, shop_text;
    tw_book_measures lines;
} measuring;

static measuring read_measuring(tw_form *form)
{
    measuring m = { .arena = form->arena, .shop_text = tw_text_of("") };
    m.job = tw_form_id(form, "job");
    m.revision = (int)tw_form_whole(form, "revision", 1, INT32_MAX);
    if (tw_form_has(form, "file")) m.key.file = (tw_file_kind)tw_form_choice(form, "file", tw_file_words, 2);
    m.key.path = tw_form_words(form, "key");
    m.written = tw_form_words(form, "value");
    m.note = tw_form_words_or(form, "note", "");
    m.figures = tw_form_words_or(form, "figures", NULL);
    m.only_try = tw_form_yes_no_or(form, "try", false);
    size_t words;
    if (!tw_form_is_wrong(form) && !tw_path_split(form->arena, m.key.path, &words))
        tw_form_fault(form, tw_format(form->arena, "\"key\" is no path: \"%s\"", m.key.path),
                      "give words joined by /, such as pieces/post/thickness");
    m.key.drawn = strspn(m.written, " ") == strlen(m.written);
    return m;
}

static tw_book_result read_measured_texts(tw_book *book, measuring *m)
{
    tw_book_revision revision = { 0 };
    tw_book_result result = tw_book_read(book, m->arena, TW_BOOK_JOBS, m->job, m->revision, &m->job_text, &revision);
    if (tw_is_done(result) && revision.shop > 0)
        result = tw_book_read(book, m->arena, TW_BOOK_SHOPS, revision.shop, 0, &m->shop_text, NULL);
    if (tw_is_done(result)) result = tw_book_ledger(book, m->arena, m->job, &m->lines);
    return result;
}

/* A length over 0, in the unit of the file that it belongs to. */
static void read_value(tw_form *form, measuring *m)
{
    if (m->key.drawn) return;
    tw_text in = m->key.file == TW_FILE_SHOP ? m->shop_text : m->job_text;
    if (tw_form_length(form, "what was measured,", m->written, in, &m->value_mm) && m->value_mm <= 0.0)
        tw_form_fault(form, tw_format(form->arena, "\"%s\" is not over nothing", m->written), "enter the size that was measured");
}

static bool is_in_force(const tw_result *result, const tw_ledger_key *key, tw_arena *arena)
{
    size_t count;
    const char *const *path = tw_path_split(arena, key->path, &count);
    return tw_measures_touch(&result->measures, key->file, path, count);
}

/* The value makes the texts unreadable: what the reader says of it. */
static tw_reply refuse_measured(const measuring *m, const tw_result *result)
{
    const tw_findings *findings = &result->findings;
    for (size_t i = 0; i < findings->count; i++) {
        if (findings->items[i].level != TW_WRONG) continue;
        const char *what = tw_format(m->arena, "the job cannot be reckoned with %s: %s", m->written, findings->items[i].what);
        return tw_reply_error(m->arena, 400, "refused", what, tw_text_copy(m->arena, tw_text_of(findings->items[i].remedy)));
    }
    return tw_reply_unreadable(m->arena);
}

static tw_reply refuse_place(const measuring *m)
{
    const char *what = tw_format(m->arena, "the text has no value at %s that could be measured", m->key.path);
    return tw_reply_error(m->arena, 400, "refused", what, "choose one that the card lists");
}

/* The job before and after; false with the refusal set when it cannot be reckoned so. */
static bool reckon_both(tw_desk *desk, measuring *m, tw_reckoned **before, tw_reckoned **after, tw_reply *refusal)
{
    tw_ledger had = tw_ledger_read(m->arena, &m->lines), has = { 0 };
    for (size_t i = 0; i < had.count; i++) tw_ledger_add(m->arena, &has, had.items[i].key, had.items[i].value_mm);
    tw_ledger_add(m->arena, &has, m->key, m->value_mm);
    *before = tw_cache_reckon(desk->cache, &(tw_reckon_texts){ m->job_text, m->shop_text, m->figures, &had });
    *after = tw_cache_reckon(desk->cache, &(tw_reckon_texts){ m->job_text, m->shop_text, m->figures, &has });
    if (!tw_reckoned_can_be_shown(*before)) *refusal = tw_reply_unreadable(m->arena);
    else if (!tw_reckoned_can_be_shown(*after)) *refusal = refuse_measured(m, tw_reckoned_result(*after));
    else if (!m->key.drawn && !is_in_force(tw_reckoned_result(*after), &m->key, m->arena))
        *refusal = refuse_place(m);
    else return true;
    return false;
}

static tw_book_result keep_measured(tw_desk *desk, measuring *m)
{
    tw_book_measure line = { .revision = m->revision, .key = tw_ledger_key_text(m->arena, m->key), .value = m->value_mm,
                             .when_s = tw_now_s(), .note = m->note };
    tw_book_result result = tw_book_measured(desk->book, m->arena, m->job, line);
    return tw_is_done(result) ? tw_book_ledger(desk->book, m->arena, m->job, &m->lines) : result;
}

tw_reply tw_api_measured(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    measuring m = read_measuring(&form);
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_result result = read_measured_texts(desk->book, &m);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    read_value(&form, &m);
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_reckoned *before, *after;
    tw_reply refusal;
    if (!reckon_both(desk, &m, &before, &after, &refusal)) return refusal;
    if (!m.only_try) result = keep_measured(desk, &m);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_put_moved(json, ask->arena, before, after);
    tw_put_state(json, ask->arena, tw_reckoned_result(after));
    tw_put_ledger(json, ask->arena, &m.lines, m.job_text);
    return tw_answer_end(json);
}
