// SPDX-License-Identifier: GPL-3.0-or-later
/* ask_json: the JSON that the page sends, read with jansson into a tree of our own; and the fields of it, asked for one by one.
 *
 *     tw_form form = tw_form_read(ask->arena, ask->body);
 *     int64_t id = tw_form_whole(&form, "id", 1, INT64_MAX);
 *     const char *name = tw_form_words(&form, "name");
 *     if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
 *
 * The first thing that is wrong sticks: after it every call gives 0, NULL or "", and the refusal tells it. Fields that nobody
 * asks for are no fault. Texts hold no zero byte (jansson refuses them), so they are zero-ended texts too.
 *
 * Only ask_json.c meets jansson in this folder. */
#ifndef TW_ASK_JSON_H
#define TW_ASK_JSON_H

#include "base/base.h"
#include "serve/door.h"

#define TW_FORM_DEPTH_MOST 8       // lists and objects in each other
#define TW_FORM_ITEMS_MOST 20000   // values of one body

typedef struct tw_form_wrong { const char *what, *remedy; bool too_large; } tw_form_wrong;
typedef struct tw_form_value tw_form_value;

/// An object of the body.
typedef struct tw_form {
    tw_arena            *arena;
    const tw_form_value *object;  // NULL: empty
    const char          *inside;  // how its fields are named in sentences: "", "changes/2/"
    tw_form_wrong       *wrong;   // shared by all objects of a body; what NULL: nothing is wrong so far
} tw_form;

/// A list of the body.
typedef struct tw_form_list { tw_form form; const tw_form_value *list; size_t count; const char *key; } tw_form_list;

tw_form  tw_form_read(tw_arena *arena, tw_text body);
bool     tw_form_is_wrong(const tw_form *form);
/// 400 "request" with what is wrong; 413 "too-large" when a text is.
tw_reply tw_form_refusal(const tw_form *form);
/// Says what is wrong, unless something is already: sentences without their full stop.
void     tw_form_fault(tw_form *form, const char *what, const char *remedy);

/// There, and not null.
bool tw_form_has(const tw_form *form, const char *key);

/* ---- fields that must be there ---- */
tw_text     tw_form_text(tw_form *form, const char *key);
/// Of at most so many bytes.
tw_text     tw_form_text_within(tw_form *form, const char *key, size_t most);
const char *tw_form_words(tw_form *form, const char *key);
int64_t     tw_form_whole(tw_form *form, const char *key, int64_t least, int64_t most);
double      tw_form_number(tw_form *form, const char *key, double least, double most);
bool        tw_form_yes_no(tw_form *form, const char *key);
/// One of the words; its place among them.
size_t      tw_form_choice(tw_form *form, const char *key, const char *const *words, size_t count);
tw_form     tw_form_object(tw_form *form, const char *key);

/* ---- fields that may be missing (or null) ---- */
const char *tw_form_words_or(tw_form *form, const char *key, const char *otherwise);
int64_t     tw_form_whole_or(tw_form *form, const char *key, int64_t least, int64_t most, int64_t otherwise);
bool        tw_form_yes_no_or(tw_form *form, const char *key, bool otherwise);
/// An empty list when it is missing. most: items.
tw_form_list tw_form_list_of(tw_form *form, const char *key, size_t most);

/* ---- items of a list, index under its count ---- */
tw_form     tw_form_item(tw_form_list *list, size_t index);
const char *tw_form_item_words(tw_form_list *list, size_t index);

#endif
