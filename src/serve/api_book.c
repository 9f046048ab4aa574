// SPDX-License-Identifier: GPL-3.0-or-later
/* The book's handlers: lists, texts, saving. A text is taken as it is, whether it can be read as a job or not: what the maker
 * typed is kept. */
#include "serve/api.h"

#include <string.h>

#include "begin/begin.h"
#include "job/top_text.h"
#include "tuskwright.h"

#define SHOP_NAMELESS "A shop without a name"
#define JOB_NAMELESS  "A job without a title"

/* ---- GET /api/book?shelf=jobs|shops&words=&binned=0|1 -> {"entries": [..]} ---- */

static void put_entry(tw_json *json, const char *key, const tw_book_entry *entry)
{
    tw_json_open(json, key, '{');
    tw_json_number(json, "id", (double)entry->id);
    tw_json_text(json, "name", entry->name);
    tw_json_number(json, "created_s", (double)entry->created_s);
    tw_json_number(json, "changed_s", (double)entry->changed_s);
    tw_json_number(json, "newest", entry->newest);
    tw_json_yes_no(json, "binned", entry->binned);
    tw_json_number(json, "binned_s", (double)entry->binned_s);
    tw_json_number(json, "from", (double)entry->from);
    tw_json_number(json, "from_number", entry->from_number);
    tw_json_close(json, '}');
}

tw_reply tw_api_book_list(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_book_shelf shelf;
    tw_reply refusal;
    if (!tw_query_shelf(ask, &shelf, &refusal)) return refusal;
    const char *words = tw_door_query(ask, "words"), *binned = tw_door_query(ask, "binned");
    tw_book_entries list;
    tw_book_result result = tw_book_list(desk->book, ask->arena, shelf, binned && strcmp(binned, "1") == 0,
                                         tw_text_of(words ? words : ""), &list);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_json_open(json, "entries", '[');
    for (size_t i = 0; i < list.count; i++) put_entry(json, NULL, &list.items[i]);
    tw_json_close(json, ']');
    return tw_answer_end(json);
}

/* ---- beginning and importing ---- */

const char *tw_text_title(tw_arena *arena, tw_book_shelf shelf, tw_text text)
{
    const char *title = tw_top_text(arena, text, shelf == TW_BOOK_JOBS ? "job" : "shop");
    return title && *title ? title : NULL;
}

/* As the book takes names (book.h). */
static bool can_be_a_name(const char *title)
{
    bool plain = true, blank = true;
    for (const char *c = title; *c; c++) {
        plain = plain && (unsigned char)*c >= ' ' && *c != 0x7f;
        blank = blank && *c == ' ';
    }
    return plain && !blank && strlen(title) <= TW_BOOK_WORDS_MOST;
}

const char *tw_name_for(tw_arena *arena, tw_book_shelf shelf, const char *asked, tw_text text)
{
    if (asked && *asked) return asked;
    const char *title = tw_text_title(arena, shelf, text);
    if (title && can_be_a_name(title)) return title;
    return shelf == TW_BOOK_JOBS ? JOB_NAMELESS : SHOP_NAMELESS;
}

static tw_book_result put_starting_shop(tw_desk *desk, tw_arena *arena, bool inches, int64_t *shop)
{
    tw_gather gather = { .arena = arena };
    tw_sink sink = tw_gather_sink(&gather);
    tw_begin_shop_put(inches, &sink);
    tw_book_change change = { .text = tw_gathered(&gather), .when_s = tw_now_s(), .why = "begun" };
    return tw_book_add(desk->book, arena, TW_BOOK_SHOPS, tw_name_for(arena, TW_BOOK_SHOPS, NULL, change.text), change, shop);
}

tw_book_result tw_desk_some_shop(tw_desk *desk, tw_arena *arena, bool inches, int64_t *shop)
{
    tw_book_entries shops;
    tw_book_result result = tw_book_list(desk->book, arena, TW_BOOK_SHOPS, false, tw_text_of(""), &shops);
    if (!tw_is_done(result)) return result;
    if (shops.count == 0) return put_starting_shop(desk, arena, inches, shop);
    *shop = shops.items[0].id;
    return result;
}

static tw_reply reply_job(tw_arena *arena, int64_t id, int64_t shop)
{
    return (tw_reply){ .status = 200, .body = tw_text_of(tw_format(arena, "{\"id\": %.0f, \"shop\": %.0f}", (double)id,
                                                                   (double)shop)) };
}

/* A job's text with the title that the maker gave it; as it is when it takes no such title. */
static tw_text with_title(tw_arena *arena, tw_text text, const char *title)
{
    static const char *const path[] = { "job" };
    tw_change change = { .kind = TW_CHANGE_SET, .path = path, .path_count = 1, .value = title };
    tw_change_request request = { .file = TW_FILE_JOB, .text = text.bytes, .bytes = text.length, .name = "job",
                                  .changes = &change,
                                  .change_count = 1, .out_of_memory = arena->out_of_memory };
    tw_changed *changed = tw_change_text(&request);
    size_t bytes;
    const char *with = tw_changed_text(changed, &bytes);
    tw_text copy = { tw_text_copy(arena, (tw_text){ with, bytes }), bytes };
    tw_changed_free(changed);
    return copy;
}

static tw_text design_text(tw_arena *arena, const tw_design *design, bool inches, const char *title)
{
    tw_gather gather = { .arena = arena };
    tw_sink sink = tw_gather_sink(&gather);
    tw_design_put(design, inches, &sink);
    tw_text text = tw_gathered(&gather);
    return *title ? with_title(arena, text, title) : text;
}

static const tw_design *form_design(tw_form *form)
{
    const char *kind = tw_form_words(form, "kind");
    const tw_design *design = tw_form_is_wrong(form) ? NULL : tw_design_of(kind);
    if (design) return design;
    const char *near = tw_design_nearest(kind);
    tw_form_fault(form, tw_format(form->arena, "there is no starting design \"%s\"", kind),
                  near ? tw_format(form->arena, "the nearest is \"%s\"", near) : "choose one of the list");
    return NULL;
}

/* POST /api/book/begin {"kind", "units": "mm"|"in", "name"?} -> {"id", "shop"} */
tw_reply tw_api_book_begin(void *context, const tw_door_ask *ask)
{
    static const char *const units[] = { "mm", "in" };
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    const tw_design *design = form_design(&form);
    bool inches = tw_form_choice(&form, "units", units, 2) == 1;
    const char *name = tw_form_words_or(&form, "name", "");
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    int64_t shop, id = 0;
    tw_book_result result = tw_desk_some_shop(desk, ask->arena, inches, &shop);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    tw_book_change change = { .text = design_text(ask->arena, design, inches, name), .shop = shop, .when_s = tw_now_s(),
                              .why = tw_format(ask->arena, "begun from %s", design->kind) };
    result = tw_book_add(desk->book, ask->arena, TW_BOOK_JOBS, tw_name_for(ask->arena, TW_BOOK_JOBS, name, change.text), change,
                         &id);
    return tw_is_done(result) ? reply_job(ask->arena, id, shop) : tw_reply_book(ask->arena, result);
}

/* POST /api/book/import {"shelf", "name"?, "text", "shop"?} -> {"id", "shop"}. Without a shop a job gets the one changed last. */
tw_reply tw_api_book_import(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_book_shelf shelf = tw_form_shelf(&form);
    tw_book_change change = { .text = tw_form_text_within(&form, "text", TW_BOOK_TEXT_MOST),
                              .shop = tw_form_id_or_none(&form, "shop"), .when_s = tw_now_s(), .why = "imported" };
    const char *name = tw_form_words_or(&form, "name", "");
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    int64_t id = 0;
    tw_book_result result = { TW_BOOK_DONE, "" };
    if (shelf == TW_BOOK_SHOPS) change.shop = 0;
    else if (change.shop == 0) result = tw_desk_some_shop(desk, ask->arena, false, &change.shop);
    name = tw_name_for(ask->arena, shelf, name, change.text);
    if (tw_is_done(result)) result = tw_book_add(desk->book, ask->arena, shelf, name, change, &id);
    return tw_is_done(result) ? reply_job(ask->arena, id, change.shop) : tw_reply_book(ask->arena, result);
}

/* ---- names, copies, the bin ---- */

/* POST /api/book/copy {"shelf", "id", "number"?, "name"} -> {"id"} */
tw_reply tw_api_book_copy(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_book_shelf shelf = tw_form_shelf(&form);
    int64_t id = tw_form_id(&form, "id"), copy = 0;
    int number = (int)tw_form_whole_or(&form, "number", 0, INT32_MAX, 0);
    const char *name = tw_form_words(&form, "name");
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_result result = tw_book_copy(desk->book, ask->arena, shelf, id, number, name, tw_now_s(), &copy);
    return tw_is_done(result) ? tw_reply_id(ask->arena, copy) : tw_reply_book(ask->arena, result);
}

/* POST /api/book/rename {"shelf", "id", "name"} -> {} */
tw_reply tw_api_book_rename(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_book_shelf shelf = tw_form_shelf(&form);
    int64_t id = tw_form_id(&form, "id");
    const char *name = tw_form_words(&form, "name");
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_result result = tw_book_rename(desk->book, ask->arena, shelf, id, name);
    return tw_is_done(result) ? tw_reply_done(ask->arena) : tw_reply_book(ask->arena, result);
}

static tw_reply move_to_bin(tw_desk *desk, const tw_door_ask *ask, bool in)
{
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_book_shelf shelf = tw_form_shelf(&form);
    int64_t id = tw_form_id(&form, "id");
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_result result = in ? tw_book_bin(desk->book, ask->arena, shelf, id, tw_now_s())
        : tw_book_unbin(desk->book, ask->arena, shelf, id);
    return tw_is_done(result) ? tw_reply_done(ask->arena) : tw_reply_book(ask->arena, result);
}

/* POST /api/book/bin, /api/book/unbin {"shelf", "id"} -> {} */
tw_reply tw_api_book_bin(void *context, const tw_door_ask *ask) { return move_to_bin(context, ask, true); }
tw_reply tw_api_book_unbin(void *context, const tw_door_ask *ask) { return move_to_bin(context, ask, false); }

/* ---- GET /api/entry?shelf=&id= : an entry with its newest text, its revisions, and what is noted at the machine ---- */

static void put_revisions(tw_json *json, const tw_book_revisions *revisions)
{
    tw_json_open(json, "revisions", '[');
    for (size_t i = 0; i < revisions->count; i++) {
        const tw_book_revision *revision = &revisions->items[i];
        tw_json_open(json, NULL, '{');
        tw_json_number(json, "number", revision->number);
        tw_json_number(json, "when_s", (double)revision->when_s);
        tw_json_text(json, "why", revision->why);
        tw_json_number(json, "shop", (double)revision->shop);
        tw_json_number(json, "shop_number", revision->shop_number);
        tw_json_number(json, "bytes", (double)revision->bytes);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

typedef struct whole_entry {
    tw_book_entry     entry;
    tw_text           text, shop_text;
    tw_book_revision  revision;
    tw_book_revisions revisions;
    tw_book_ticks     ticks;
    tw_book_measures  ledger;
} whole_entry;

static tw_book_result read_entry(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, whole_entry *all)
{
    *all = (whole_entry){ .shop_text = tw_text_of("") };
    tw_book_result result = tw_book_look(book, arena, shelf, id, &all->entry);
    if (tw_is_done(result)) result = tw_book_read(book, arena, shelf, id, 0, &all->text, &all->revision);
    if (tw_is_done(result)) result = tw_book_history(book, arena, shelf, id, &all->revisions);
    if (shelf == TW_BOOK_SHOPS) return result;
    if (tw_is_done(result)) result = tw_book_tick_list(book, arena, id, &all->ticks);
    if (tw_is_done(result)) result = tw_book_ledger(book, arena, id, &all->ledger);
    if (tw_is_done(result) && all->revision.shop > 0)
        result = tw_book_read(book, arena, TW_BOOK_SHOPS, all->revision.shop, 0, &all->shop_text, NULL);
    return result;
}

tw_reply tw_api_entry(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_book_shelf shelf;
    int64_t id;
    tw_reply refusal;
    if (!tw_query_shelf(ask, &shelf, &refusal) || !tw_query_id(ask, "id", &id, &refusal)) return refusal;
    whole_entry all;
    tw_book_result result = read_entry(desk->book, ask->arena, shelf, id, &all);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    tw_json *json = tw_answer_begin(ask->arena);
    put_entry(json, "entry", &all.entry);
    tw_json_text(json, "text", all.text.bytes);
    tw_json_number(json, "number", all.revision.number);
    tw_json_number(json, "shop", (double)all.revision.shop);
    tw_json_text(json, "shop_text", all.shop_text.bytes);
    put_revisions(json, &all.revisions);
    tw_put_ticks(json, &all.ticks);
    tw_put_ledger(json, ask->arena, &all.ledger, all.text);
    return tw_answer_end(json);
}

/* GET /api/text?shelf=&id=&number= -> {"text", "number", "why", "when_s", "shop", "shop_number"} */
tw_reply tw_api_text(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_book_shelf shelf;
    int64_t id;
    int number;
    tw_reply refusal;
    if (!tw_query_shelf(ask, &shelf, &refusal) || !tw_query_id(ask, "id", &id, &refusal)
        || !tw_query_number(ask, &number, &refusal)) return refusal;
    tw_text text;
    tw_book_revision revision;
    tw_book_result result = tw_book_read(desk->book, ask->arena, shelf, id, number, &text, &revision);
    if (!tw_is_done(result)) return tw_reply_book(ask->arena, result);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_json_text(json, "text", text.bytes);
    tw_json_number(json, "number", revision.number);
    tw_json_text(json, "why", revision.why);
    tw_json_number(json, "when_s", (double)revision.when_s);
    tw_json_number(json, "shop", (double)revision.shop);
    tw_json_number(json, "shop_number", revision.shop_number);
    return tw_answer_end(json);
}

/* ---- saving ---- */

/* The shop of a job's revision (0: the newest), for a change that names none. */
static tw_book_result shop_of(tw_book *book, tw_arena *arena, int64_t id, int number, int64_t *shop)
{
    tw_book_revision revision;
    tw_text text;
    tw_book_result result = tw_book_read(book, arena, TW_BOOK_JOBS, id, number, &text, &revision);
    if (tw_is_done(result)) *shop = revision.shop;
    return result;
}

static tw_reply reply_conflict(tw_arena *arena, tw_book_result result, int newest)
{
    tw_reply reply = tw_reply_book(arena, result);
    size_t length = reply.body.length;
    while (length > 0 && reply.body.bytes[length - 1] != '}') length--;
    reply.body = tw_text_of(tw_format(arena, "%.*s, \"newest\": %d}", (int)(length - 1), reply.body.bytes, newest));
    return reply;
}

/* The newest revision is just what was to be saved: the answer to that save was lost on its way (a reload, a dead battery), and
 * it is asked for again. */
static bool is_saved_already(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int newest, tw_book_change change)
{
    tw_text text;
    tw_book_revision revision;
    if (!tw_is_done(tw_book_read(book, arena, shelf, id, newest, &text, &revision))) return false;
    return revision.shop == change.shop && text.length == change.text.length
        && (text.length == 0 || memcmp(text.bytes, change.text.bytes, text.length) == 0);
}

/* POST /api/save {"shelf", "id", "expected", "text", "shop"?, "why"} -> {"number"}; 409 {"error", "newest"} */
tw_reply tw_api_save(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_book_shelf shelf = tw_form_shelf(&form);
    int64_t id = tw_form_id(&form, "id");
    int expected = (int)tw_form_whole(&form, "expected", 1, INT32_MAX), number = 0;
    tw_book_change change = { .text = tw_form_text_within(&form, "text", TW_BOOK_TEXT_MOST), .when_s = tw_now_s(),
                              .why = tw_form_why(&form), .shop = tw_form_id_or_none(&form, "shop") };
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_result result = { TW_BOOK_DONE, "" };
    if (shelf == TW_BOOK_SHOPS) change.shop = 0;
    else if (!tw_form_has(&form, "shop")) result = shop_of(desk->book, ask->arena, id, 0, &change.shop);
    if (tw_is_done(result)) result = tw_book_save(desk->book, ask->arena, shelf, id, expected, change, &number);
    bool conflict = result.answer == TW_BOOK_CONFLICT;
    bool saved = conflict && number == expected + 1 && is_saved_already(desk->book, ask->arena, shelf, id, number, change);
    if (conflict && !saved) return reply_conflict(ask->arena, result, number);
    if (!conflict && !tw_is_done(result)) return tw_reply_book(ask->arena, result);
    return (tw_reply){ .status = 200, .body = tw_text_of(tw_format(ask->arena, "{\"number\": %d}", number)) };
}

/* POST /api/branch {"shelf", "id", "number", "name", "text", "why"} -> {"id"}: both sides of a conflict are kept */
tw_reply tw_api_branch(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_book_shelf shelf = tw_form_shelf(&form);
    int64_t id = tw_form_id(&form, "id"), branch = 0;
    int number = (int)tw_form_whole(&form, "number", 1, INT32_MAX);
    const char *name = tw_form_words(&form, "name");
    tw_book_change change = { .text = tw_form_text_within(&form, "text", TW_BOOK_TEXT_MOST), .when_s = tw_now_s(),
                              .why = tw_form_why(&form) };
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_book_result result = { TW_BOOK_DONE, "" };
    if (shelf == TW_BOOK_JOBS) result = shop_of(desk->book, ask->arena, id, number, &change.shop);
    if (tw_is_done(result)) result = tw_book_branch(desk->book, ask->arena, shelf, id, number, name, change, &branch);
    return tw_is_done(result) ? tw_reply_id(ask->arena, branch) : tw_reply_book(ask->arena, result);
}
