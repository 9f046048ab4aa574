// SPDX-License-Identifier: GPL-3.0-or-later
#include "begin/words_json.h"

#include <string.h>

#include "begin/begin.h"
#include "job/tables.h"
#include "mech/mech.h"
#include "sheet/figures.h"
#include "sheet/json.h"

static void put_key(tw_json *json, const tw_key *key)
{
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "key", key->name);
    tw_json_text(json, "kind", tw_key_shows(key->kind));
    tw_json_text(json, "meaning", key->meaning);
    tw_json_yes_no(json, "required", key->required);
    tw_json_texts(json, "choices", tw_key_choices(key));
    tw_json_text(json, "otherwise", key->otherwise);
    tw_json_text(json, "example", key->example);
    tw_json_close(json, '}');
}

static void put_keys(tw_json *json, const char *name, const tw_key *keys, int count, const tw_key *last)
{
    tw_json_open(json, name, '[');
    for (int i = 0; i < count; i++) put_key(json, &keys[i]);
    if (last) put_key(json, last);
    tw_json_close(json, ']');
}

/* Kinds of joints, or of profiles; `note` is a key of all of them. */
static void put_kinds(tw_json *json, const char *name, bool profiles)
{
    tw_json_open(json, name, '[');
    for (int i = 0; i < tw_joint_kind_count; i++) {
        const tw_joint_format *format = &tw_joint_kinds[i]->format;
        if (format->profile != profiles) continue;
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "kind", format->kind);
        tw_json_text(json, "meaning", format->meaning);
        put_keys(json, "keys", format->keys, format->key_count, &tw_joint_common_keys[TW_JOINT_NOTE]);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

/* What the design is: the first line of its remarks, and on to the end of the sentence that it leaves open. */
static const char *meaning_of(tw_arena *arena, const tw_design *design)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    const char *line = design->opening;
    for (bool first = true;; first = false) {
        line += strspn(line, "# ");
        size_t whole = strcspn(line, "\n"), length = whole;
        const char *stop = first ? NULL : strstr(line, ". ");
        if (stop && (size_t)(stop - line) < whole) length = (size_t)(stop - line) + 1;
        tw_putf(&sink, "%s%.*s", first ? "" : " ", (int)length, line);
        line += whole;
        if (length == 0 || line[-1] == '.' || length < whole || !*line) return tw_gathered(&all).bytes;
        line++;
    }
}

static void put_designs(tw_json *json)
{
    tw_arena arena = { 0 };
    tw_json_open(json, "designs", '[');
    for (size_t i = 0; i < tw_design_count; i++) {
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "kind", tw_designs[i]->kind);
        tw_json_text(json, "title", tw_designs[i]->title);
        tw_json_text(json, "meaning", meaning_of(&arena, tw_designs[i]));
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
    tw_arena_finish(&arena);
}

void tw_words_json_put(tw_sink *sink)
{
    tw_json json = { .sink = sink, .tight = true };
    const tw_section *pieces = tw_section_named(&tw_job_layout, tw_text_of("pieces"));
    tw_json_open(&json, NULL, '{');
    put_kinds(&json, "joints", false);
    put_kinds(&json, "profiles", true);
    put_keys(&json, "pieces", pieces->keys, pieces->count, NULL);
    put_keys(&json, "job", tw_job_layout.keys, tw_job_layout.count, NULL);
    put_designs(&json);
    tw_json_open(&json, "timbers", '[');
    for (size_t i = 0; i < tw_timber_count; i++) tw_json_text(&json, NULL, tw_timbers[i].name);
    tw_json_close(&json, ']');
    tw_json_open(&json, "figures", '[');
    for (size_t i = 0; tw_figures_nth(i); i++) tw_json_text(&json, NULL, tw_figures_nth(i));
    tw_json_close(&json, ']');
    tw_json_texts(&json, "units", tw_unit_words);
    tw_json_close(&json, '}');
}
