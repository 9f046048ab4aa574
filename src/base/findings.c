// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/base.h"

#include <assert.h>
#include <string.h>

void tw_find(tw_findings *findings, tw_level level, tw_place place, const char *code, const char *about,
             const char *what, const char *remedy)
{
    tw_arena *arena = findings->arena;
    findings->full = level == TW_WRONG && tw_findings_count(findings, TW_WRONG) >= TW_FINDINGS_MOST;
    if (findings->full) return;
    tw_array_make_room(arena, &findings->items, findings->count, &findings->room, sizeof *findings->items);
    findings->items[findings->count++] = (tw_finding){
        .level = level,
        .place = { place.file ? tw_text_copy(arena, tw_text_of(place.file)) : NULL, place.line, place.column },
        .code = tw_text_copy(arena, tw_text_of(code)),
        .about = tw_text_copy(arena, tw_text_of(about)),
        .what = tw_text_copy(arena, tw_text_of(what)),
        .remedy = tw_text_copy(arena, tw_text_of(remedy)),
    };
}

/* ---- fixes ---- */

static const char *const *words_copy(tw_arena *arena, const char *const *words, size_t count)
{
    const char **copy = TW_NEW_ARRAY(arena, const char *, count);
    for (size_t i = 0; i < count; i++) copy[i] = tw_text_copy(arena, tw_text_of(words[i]));
    return copy;
}

static const char *word_copy(tw_arena *arena, const char *word) { return word ? tw_text_copy(arena, tw_text_of(word)) : NULL; }

tw_change tw_change_copy(tw_arena *arena, tw_change change)
{
    tw_entry *entries = TW_NEW_ARRAY(arena, tw_entry, change.entry_count);
    for (size_t i = 0; i < change.entry_count; i++) {
        const tw_entry *e = &change.entries[i];
        entries[i] = (tw_entry){ word_copy(arena, e->key), word_copy(arena, e->value), words_copy(arena, e->list, e->list_count),
            e->list_count };
    }
    change.path = words_copy(arena, change.path, change.path_count);
    change.value = word_copy(arena, change.value);
    change.list = words_copy(arena, change.list, change.list_count);
    change.entries = entries;
    return change;
}

void tw_find_fix_also(tw_findings *findings, tw_file_kind file, tw_change change)
{
    if (findings->full) return;
    assert(findings->count > 0 && findings->items[findings->count - 1].fix_count > 0);
    tw_finding *finding = &findings->items[findings->count - 1];
    tw_fix *fix = &finding->fixes[finding->fix_count - 1];
    tw_file_change *changes = TW_NEW_ARRAY(findings->arena, tw_file_change, fix->change_count + 1);
    for (size_t i = 0; i < fix->change_count; i++) changes[i] = fix->changes[i];
    changes[fix->change_count++] = (tw_file_change){ file, tw_change_copy(findings->arena, change) };
    fix->changes = changes;
}

static bool same_text(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

/* Of changes without lists and entries, which fixes are made of. */
static bool same_change(const tw_change *a, const tw_change *b)
{
    if (a->kind != b->kind || a->path_count != b->path_count || !same_text(a->value, b->value)) return false;
    for (size_t i = 0; i < a->path_count; i++)
        if (strcmp(a->path[i], b->path[i]) != 0) return false;
    return a->list_count == 0 && b->list_count == 0 && a->entry_count == 0 && b->entry_count == 0;
}

static bool is_offered(const tw_finding *finding, tw_file_kind file, const tw_change *change)
{
    for (size_t i = 0; i < finding->fix_count; i++) {
        const tw_fix *fix = &finding->fixes[i];
        if (fix->change_count == 1 && fix->changes[0].file == file && same_change(&fix->changes[0].change, change)) return true;
    }
    return false;
}

void tw_find_fix_by(tw_findings *findings, const char *label, tw_file_kind file, tw_change change)
{
    if (findings->full) return;
    assert(findings->count > 0);
    tw_finding *finding = &findings->items[findings->count - 1];
    if (is_offered(finding, file, &change)) return;
    tw_array_make_room(findings->arena, &finding->fixes, finding->fix_count, &finding->fix_room, sizeof *finding->fixes);
    finding->fixes[finding->fix_count++] = (tw_fix){ .label = tw_text_copy(findings->arena, tw_text_of(label)) };
    tw_find_fix_also(findings, file, change);
}

void tw_find_fix(tw_findings *findings, const char *label, tw_file_kind file, const char *const *path, size_t path_count,
                 const char *value)
{
    tw_find_fix_by(findings, label, file, (tw_change){ .kind = TW_CHANGE_SET, .path = path, .path_count = path_count,
        .value = value });
}

/* ---- the list ---- */

size_t tw_findings_count(const tw_findings *findings, tw_level level)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++) count += findings->items[i].level == level;
    return count;
}

bool tw_findings_have(const tw_findings *findings, tw_level level) { return tw_findings_count(findings, level) > 0; }

const char *tw_level_word(tw_level level)
{
    static const char *const words[] = { "note", "care", "halt", "wrong" };
    return words[level];
}

void tw_findings_put(const tw_findings *findings, tw_level least, tw_sink *sink)
{
    for (size_t i = 0; i < findings->count; i++) {
        const tw_finding *finding = &findings->items[i];
        if (finding->level < least) continue;
        if (finding->place.file && finding->place.line > 0)
            tw_putf(sink, "%s:%d:%d: ", finding->place.file, finding->place.line, finding->place.column);
        else if (finding->place.file)
            tw_putf(sink, "%s: ", finding->place.file);
        if (finding->level != TW_WRONG) tw_putf(sink, "%s: ", tw_level_word(finding->level));
        tw_putf(sink, "%s%s%s\n", finding->what, finding->remedy[0] ? "; " : "", finding->remedy);
    }
}
