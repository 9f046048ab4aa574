// SPDX-License-Identifier: GPL-3.0-or-later
/* jansson's values are copied into the arena and given back at once, so that no handler has to. */
#include "serve/ask_json.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

typedef enum value_kind { NOTHING, YES_NO, NUMBER, WORDS, LIST, OBJECT } value_kind;

struct tw_form_value {
    value_kind     kind;
    const char    *key;     // in an object
    bool           yes;
    double         number;  // of a whole number too
    bool           whole;
    int64_t        whole_number;
    tw_text        text;
    tw_form_value *items;   // [count] of a list or an object
    size_t         count;
};

typedef struct reading {
    tw_arena   *arena;
    size_t      values;
    const char *wrong;
} reading;

/* ---- reading ---- */

static tw_text text_of(tw_arena *arena, const json_t *json)
{
    tw_text text = { json_string_value(json), json_string_length(json) };
    return (tw_text){ tw_text_copy(arena, text), text.length };
}

static void copy(reading *r, const json_t *json, int depth, tw_form_value *value);

static void copy_list(reading *r, const json_t *json, int depth, tw_form_value *value)
{
    value->kind = LIST;
    value->count = json_array_size(json);
    value->items = TW_NEW_ARRAY(r->arena, tw_form_value, value->count + 1);
    for (size_t i = 0; i < value->count && !r->wrong; i++) copy(r, json_array_get(json, i), depth + 1, &value->items[i]);
}

static void copy_object(reading *r, json_t *json, int depth, tw_form_value *value)
{
    value->kind = OBJECT;
    value->items = TW_NEW_ARRAY(r->arena, tw_form_value, json_object_size(json) + 1);
    for (void *at = json_object_iter(json); at && !r->wrong; at = json_object_iter_next(json, at)) {
        tw_form_value *item = &value->items[value->count++];
        copy(r, json_object_iter_value(at), depth + 1, item);
        item->key = tw_text_copy(r->arena, tw_text_of(json_object_iter_key(at)));
    }
}

static void copy_number(const json_t *json, tw_form_value *value)
{
    value->kind = NUMBER;
    value->number = json_number_value(json);
    value->whole = json_is_integer(json);
    if (value->whole) value->whole_number = json_integer_value(json);
}

static void copy(reading *r, const json_t *json, int depth, tw_form_value *value)
{
    *value = (tw_form_value){ .kind = NOTHING };
    if (depth > TW_FORM_DEPTH_MOST) r->wrong = tw_format(r->arena, "it has lists in lists deeper than %d", TW_FORM_DEPTH_MOST);
    if (++r->values > TW_FORM_ITEMS_MOST) r->wrong = tw_format(r->arena, "it has more than %d values", TW_FORM_ITEMS_MOST);
    if (r->wrong) return;
    switch (json_typeof(json)) {
    case JSON_OBJECT: copy_object(r, (json_t *)(uintptr_t)json, depth, value); break;
    case JSON_ARRAY: copy_list(r, json, depth, value); break;
    case JSON_STRING: *value = (tw_form_value){ .kind = WORDS, .text = text_of(r->arena, json) }; break;
    case JSON_INTEGER:
    case JSON_REAL: copy_number(json, value); break;
    case JSON_TRUE:
    case JSON_FALSE: *value = (tw_form_value){ .kind = YES_NO, .yes = json_is_true(json) }; break;
    case JSON_NULL: break;
    }
}

tw_form tw_form_read(tw_arena *arena, tw_text body)
{
    tw_form form = { .arena = arena, .inside = "", .wrong = TW_NEW(arena, tw_form_wrong) };
    json_error_t error;
    json_t *json = json_loadb(body.bytes ? body.bytes : "", body.length, JSON_REJECT_DUPLICATES, &error);
    if (!json) {
        tw_form_fault(&form, tw_format(arena, "the request is no JSON: line %d, column %d: %s", error.line, error.column,
                                       error.text),
                      "send one JSON object");
        return form;
    }
    reading r = { .arena = arena };
    tw_form_value *top = TW_NEW(arena, tw_form_value);
    copy(&r, json, 1, top);
    json_decref(json);
    if (r.wrong) tw_form_fault(&form, tw_format(arena, "the request is too large: %s", r.wrong), "ask for less at a time");
    else if (top->kind != OBJECT) tw_form_fault(&form, "the request is no JSON object", "send one JSON object");
    else form.object = top;
    return form;
}

/* ---- what is wrong ---- */

bool tw_form_is_wrong(const tw_form *form) { return form->wrong->what != NULL; }

tw_reply tw_form_refusal(const tw_form *form)
{
    const tw_form_wrong *wrong = form->wrong;
    return tw_reply_error(form->arena, wrong->too_large ? 413 : 400, wrong->too_large ? "too-large" : "request", wrong->what,
                          wrong->remedy);
}

void tw_form_fault(tw_form *form, const char *what, const char *remedy)
{
    if (!form->wrong->what) *form->wrong = (tw_form_wrong){ what, remedy, false };
}

/* ---- fields ---- */

static const tw_form_value *field(const tw_form *form, const char *key)
{
    if (form->wrong->what || !form->object) return NULL;
    for (size_t i = 0; i < form->object->count; i++)
        if (strcmp(form->object->items[i].key, key) == 0)
            return form->object->items[i].kind == NOTHING ? NULL : &form->object->items[i];
    return NULL;
}

static void fault_of(tw_form *form, const char *key, const char *is, const char *remedy)
{
    tw_form_fault(form, tw_format(form->arena, "\"%s%s\" %s", form->inside, key, is), remedy);
}

/* The field, if it is of that kind; where it is not, or must be there and is not, says so. */
static const tw_form_value *field_of(tw_form *form, const char *key, value_kind kind, bool required)
{
    static const char *const kinds[] = { "nothing", "true or false", "a number", "a text", "a list", "an object" };
    const tw_form_value *value = field(form, key);
    if (!value && required) fault_of(form, key, "is missing", tw_format(form->arena, "give %s", kinds[kind]));
    if (!value || value->kind == kind) return value;
    fault_of(form, key, tw_format(form->arena, "is %s", kinds[value->kind]), tw_format(form->arena, "give %s", kinds[kind]));
    return NULL;
}

bool tw_form_has(const tw_form *form, const char *key) { return field(form, key) != NULL; }

tw_text tw_form_text(tw_form *form, const char *key)
{
    const tw_form_value *value = field_of(form, key, WORDS, true);
    return value ? value->text : tw_text_of("");
}

tw_text tw_form_text_within(tw_form *form, const char *key, size_t most)
{
    tw_text text = tw_form_text(form, key);
    if (text.length <= most) return text;
    fault_of(form, key, tw_format(form->arena, "has %zu bytes", text.length), tw_format(form->arena,
        "a text may have %zu at most; make two of it", most));
    form->wrong->too_large = true;
    return tw_text_of("");
}

const char *tw_form_words(tw_form *form, const char *key) { return tw_form_text(form, key).bytes; }

const char *tw_form_words_or(tw_form *form, const char *key, const char *otherwise)
{
    const tw_form_value *value = field_of(form, key, WORDS, false);
    return value ? value->text.bytes : otherwise;
}

static int64_t whole(tw_form *form, const char *key, const tw_form_value *value, int64_t least, int64_t most)
{
    if (!value) return 0;
    if (value->whole && value->whole_number >= least && value->whole_number <= most) return value->whole_number;
    bool no_end = most == INT64_MAX;
    fault_of(form, key, value->whole ? "is out of range" : "is no whole number",
             no_end ? tw_format(form->arena, "give a whole number from %.0f on", (double)least)
                    : tw_format(form->arena, "give a whole number from %.0f to %.0f", (double)least, (double)most));
    return 0;
}

int64_t tw_form_whole(tw_form *form, const char *key, int64_t least, int64_t most)
{
    return whole(form, key, field_of(form, key, NUMBER, true), least, most);
}

int64_t tw_form_whole_or(tw_form *form, const char *key, int64_t least, int64_t most, int64_t otherwise)
{
    const tw_form_value *value = field_of(form, key, NUMBER, false);
    return value ? whole(form, key, value, least, most) : otherwise;
}

double tw_form_number(tw_form *form, const char *key, double least, double most)
{
    const tw_form_value *value = field_of(form, key, NUMBER, true);
    if (!value) return 0.0;
    if (isfinite(value->number) && value->number >= least && value->number <= most) return value->number;
    fault_of(form, key, "is out of range", tw_format(form->arena, "give a number from %g to %g", least, most));
    return 0.0;
}

bool tw_form_yes_no(tw_form *form, const char *key)
{
    const tw_form_value *value = field_of(form, key, YES_NO, true);
    return value && value->yes;
}

bool tw_form_yes_no_or(tw_form *form, const char *key, bool otherwise)
{
    const tw_form_value *value = field_of(form, key, YES_NO, false);
    return value ? value->yes : otherwise;
}

size_t tw_form_choice(tw_form *form, const char *key, const char *const *words, size_t count)
{
    const char *all = "";
    const char *given = tw_form_words(form, key);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(words[i], given) == 0) return i;
        all = tw_format(form->arena, "%s%s%s", all, i == 0 ? "" : i + 1 == count ? " or " : ", ", words[i]);
    }
    fault_of(form, key, tw_format(form->arena, "is \"%s\"", given), tw_format(form->arena, "give %s", all));
    return 0;
}

/* ---- objects and lists ---- */

tw_form tw_form_object(tw_form *form, const char *key)
{
    tw_form inner = *form;
    inner.object = field_of(form, key, OBJECT, true);
    inner.inside = tw_format(form->arena, "%s%s/", form->inside, key);
    return inner;
}

tw_form_list tw_form_list_of(tw_form *form, const char *key, size_t most)
{
    const tw_form_value *value = field_of(form, key, LIST, false);
    if (value && value->count > most) {
        fault_of(form, key, tw_format(form->arena, "has %zu items", value->count),
                 tw_format(form->arena, "give at most %zu", most));
        value = NULL;
    }
    return (tw_form_list){ .form = *form, .list = value, .count = value ? value->count : 0, .key = key };
}

tw_form tw_form_item(tw_form_list *list, size_t index)
{
    tw_form item = list->form;
    const char *name = tw_format(item.arena, "%s/%zu", list->key, index + 1);
    if (list->list->items[index].kind == OBJECT) item.object = &list->list->items[index];
    else {
        fault_of(&list->form, name, "is no object", "give an object");
        item.object = NULL;
    }
    item.inside = tw_format(item.arena, "%s%s/", list->form.inside, name);
    return item;
}

const char *tw_form_item_words(tw_form_list *list, size_t index)
{
    const tw_form_value *value = &list->list->items[index];
    if (value->kind == WORDS) return value->text.bytes;
    fault_of(&list->form, tw_format(list->form.arena, "%s/%zu", list->key, index + 1), "is no text", "give a text");
    return "";
}
