// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/change_json.h"

#include "job/path.h"

#define CHANGES_MOST 200
#define LIST_MOST    500

static const char *const kind_words[] = { [TW_CHANGE_SET] = "set", [TW_CHANGE_REMOVE] = "remove", [TW_CHANGE_ADD] = "add",
                                          [TW_CHANGE_RENAME] = "rename" };
const char *const tw_file_words[2] = { [TW_FILE_JOB] = "job", [TW_FILE_SHOP] = "shop" };

static const char *const *words_of(tw_form *form, const char *key, size_t *count)
{
    tw_form_list list = tw_form_list_of(form, key, LIST_MOST);
    const char **words = TW_NEW_ARRAY(form->arena, const char *, list.count + 1);
    for (size_t i = 0; i < list.count; i++) words[i] = tw_form_item_words(&list, i);
    *count = list.count;
    if (list.count == 0) tw_form_fault(form, tw_format(form->arena, "\"%s%s\" is missing or empty", form->inside, key),
                                       "give \"value\" or \"list\"");
    return words;
}

static const tw_entry *entries_of(tw_form *form, size_t *count)
{
    tw_form_list list = tw_form_list_of(form, "entries", LIST_MOST);
    tw_entry *entries = TW_NEW_ARRAY(form->arena, tw_entry, list.count + 1);
    for (size_t i = 0; i < list.count; i++) {
        tw_form item = tw_form_item(&list, i);
        entries[i] = (tw_entry){ .key = tw_form_words(&item, "key"), .value = tw_form_words_or(&item, "value", NULL) };
        if (!entries[i].value) entries[i].list = words_of(&item, "list", &entries[i].list_count);
    }
    *count = list.count;
    if (list.count == 0) tw_form_fault(form, tw_format(form->arena, "\"%sentries\" is missing or empty", form->inside),
                                       "give at least one key with its value");
    return entries;
}

static tw_file_change change_of(tw_form *form)
{
    tw_file_change made = { .file = TW_FILE_JOB };
    if (tw_form_has(form, "file")) made.file = (tw_file_kind)tw_form_choice(form, "file", tw_file_words, 2);
    tw_change *change = &made.change;
    change->kind = (tw_change_kind)tw_form_choice(form, "kind", kind_words, 4);
    const char *path = tw_form_words(form, "path");
    change->path = tw_path_split(form->arena, path, &change->path_count);
    if (!change->path) tw_form_fault(form, tw_format(form->arena, "\"%spath\" is no path: \"%s\"", form->inside, path),
                                     "give words joined by /, such as pieces/post/width");
    if (change->kind == TW_CHANGE_RENAME) change->value = tw_form_words(form, "value");
    if (change->kind == TW_CHANGE_ADD) change->entries = entries_of(form, &change->entry_count);
    if (change->kind != TW_CHANGE_SET) return made;
    change->value = tw_form_words_or(form, "value", NULL);
    if (!change->value) change->list = words_of(form, "list", &change->list_count);
    return made;
}

const tw_file_change *tw_form_changes(tw_form *form, size_t *count)
{
    tw_form_list list = tw_form_list_of(form, "changes", CHANGES_MOST);
    tw_file_change *all = TW_NEW_ARRAY(form->arena, tw_file_change, list.count + 1);
    for (size_t i = 0; i < list.count; i++) {
        tw_form item = tw_form_item(&list, i);
        all[i] = change_of(&item);
    }
    *count = list.count;
    return all;
}

/* ---- what is told ---- */

static void put_words(tw_json *json, const char *key, const char *const *words, size_t count)
{
    tw_json_open(json, key, '[');
    for (size_t i = 0; i < count; i++) tw_json_text(json, NULL, words[i]);
    tw_json_close(json, ']');
}

static void put_entries(tw_json *json, const tw_change *change)
{
    tw_json_open(json, "entries", '[');
    for (size_t i = 0; i < change->entry_count; i++) {
        const tw_entry *entry = &change->entries[i];
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "key", entry->key);
        if (entry->value) tw_json_text(json, "value", entry->value);
        else put_words(json, "list", entry->list, entry->list_count);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_change(tw_json *json, tw_arena *arena, tw_file_kind file, const tw_change *change)
{
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "kind", kind_words[change->kind]);
    tw_json_text(json, "path", tw_path_text(arena, change->path, change->path_count));
    if (change->value) tw_json_text(json, "value", change->value);
    else if (change->kind == TW_CHANGE_SET) put_words(json, "list", change->list, change->list_count);
    if (change->kind == TW_CHANGE_ADD) put_entries(json, change);
    tw_json_text(json, "file", tw_file_words[file]);
    tw_json_close(json, '}');
}

void tw_put_changes(tw_json *json, tw_arena *arena, const tw_change *changes, size_t count)
{
    tw_json_open(json, "changes", '[');
    for (size_t i = 0; i < count; i++) put_change(json, arena, TW_FILE_JOB, &changes[i]);
    tw_json_close(json, ']');
}

static void put_fixes(tw_json *json, tw_arena *arena, const tw_result_finding *finding)
{
    tw_json_open(json, "fixes", '[');
    for (size_t i = 0; i < finding->fix_count; i++) {
        const tw_fix *fix = &finding->fixes[i];
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "label", fix->label);
        tw_json_open(json, "changes", '[');
        for (size_t k = 0; k < fix->change_count; k++) put_change(json, arena, fix->changes[k].file, &fix->changes[k].change);
        tw_json_close(json, ']');
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_finding(tw_json *json, tw_arena *arena, tw_result_finding finding)
{
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "level", finding.level);
    tw_json_text(json, "code", finding.code);
    tw_json_text(json, "about", finding.about);
    tw_json_text(json, "file", finding.file);
    tw_json_number(json, "line", finding.line);
    tw_json_number(json, "column", finding.column);
    tw_json_text(json, "what", finding.what);
    tw_json_text(json, "remedy", finding.remedy);
    put_fixes(json, arena, &finding);
    tw_json_close(json, '}');
}

void tw_put_refused(tw_json *json, tw_arena *arena, const tw_changed *refused)
{
    tw_json_open(json, "refused", '[');
    for (size_t i = 0; i < tw_changed_finding_count(refused); i++) put_finding(json, arena, tw_changed_finding_at(refused, i));
    tw_json_close(json, ']');
}

void tw_put_state(tw_json *json, tw_arena *arena, const tw_result *result)
{
    static const char *const states[] = { [TW_STATE_GOOD] = "good", [TW_STATE_HALT] = "halt", [TW_STATE_WRONG] = "wrong" };
    tw_json_text(json, "state", states[tw_result_state(result)]);
    tw_json_open(json, "findings", '[');
    for (size_t i = 0; i < tw_result_finding_count(result); i++) put_finding(json, arena, tw_result_finding_at(result, i));
    tw_json_close(json, ']');
}
