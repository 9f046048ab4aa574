// SPDX-License-Identifier: GPL-3.0-or-later
/* Jobs and shops: texts with their revisions. Both shelves have tables of the same form; a row of `shelves` names them. */
#include "serve/book_inside.h"

#include <assert.h>
#include <limits.h>

typedef struct shelf_names {
    const char *texts, *revisions, *owner;  // tables, and the column in which a revision names its text
    const char *thing;                      // in sentences
    const char *shop_columns;               // of a revision; shops have none
} shelf_names;

static const shelf_names shelves[] = {
    [TW_BOOK_JOBS] = { "jobs", "revisions", "job", "job", "shop, shop_number" },
    [TW_BOOK_SHOPS] = { "shops", "shop_revisions", "shop", "shop", "NULL, NULL" },
};

static const shelf_names *names_of(tw_book_shelf shelf)
{
    assert(shelf == TW_BOOK_JOBS || shelf == TW_BOOK_SHOPS);
    return &shelves[shelf];
}

static tw_book_result no_such(tw_arena *arena, const shelf_names *names)
{
    return tw_book_say(arena, TW_BOOK_NOT_THERE, "there is no such %s in the book; look at the list again", names->thing);
}

static tw_book_result no_such_revision(tw_arena *arena, const shelf_names *names, int number)
{
    return tw_book_say(arena, TW_BOOK_NOT_THERE, "the %s has no revision %d; look at its list of revisions",
                       names->thing, number);
}

/* ---- lists ---- */

/* The columns of an entry; each text is joined with its newest revision r. CROSS: the texts first, else SQLite goes through all
 * revisions. */
static const char *entry_sql(tw_arena *arena, const shelf_names *names, const char *condition)
{
    return tw_format(arena, "SELECT t.id, t.name, t.created, r.made, t.binned IS NOT NULL, t.binned, r.number, t.source,"
                     " t.source_number FROM %s t CROSS JOIN %s r ON r.%s = t.id AND r.number ="
                     " (SELECT max(number) FROM %s WHERE %s = t.id) WHERE %s",
                     names->texts, names->revisions, names->owner, names->revisions, names->owner, condition);
}

static tw_book_entry get_entry(tw_ask *ask, tw_arena *arena)
{
    return (tw_book_entry){
        .id = tw_ask_get(ask, 0), .name = tw_ask_words(ask, arena, 1), .created_s = tw_ask_get(ask, 2),
        .changed_s = tw_ask_get(ask, 3),
        .binned = tw_ask_get(ask, 4) != 0, .binned_s = tw_ask_get(ask, 5), .newest = (int)tw_ask_get(ask, 6),
        .from = tw_ask_get(ask, 7), .from_number = (int)tw_ask_get(ask, 8),
    };
}

tw_book_result tw_book_look(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, tw_book_entry *entry)
{
    const shelf_names *names = names_of(shelf);
    tw_ask ask = tw_ask_begin(book, entry_sql(arena, names, "t.id = ?"));
    tw_ask_whole(&ask, id);
    bool there = tw_ask_row(&ask);
    tw_book_entry got = there ? get_entry(&ask, arena) : (tw_book_entry){0};
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE && !there) return no_such(arena, names);
    if (result.answer == TW_BOOK_DONE) *entry = got;
    return result;
}

static unsigned char small_letter(unsigned char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (unsigned char)(letter - 'A' + 'a') : letter;
}

static bool holds(const unsigned char *bytes, size_t length, const unsigned char *words, size_t words_length)
{
    for (size_t at = 0; at + words_length <= length; at++) {
        size_t same = 0;
        while (same < words_length && small_letter(bytes[at + same]) == small_letter(words[same])) same++;
        if (same == words_length) return true;
    }
    return false;
}

/* holds(text, words) for SQLite. */
static void holds_for_sql(sqlite3_context *context, int count, sqlite3_value **values)
{
    (void)count;
    const unsigned char *bytes = sqlite3_value_blob(values[0]), *words = sqlite3_value_blob(values[1]);
    size_t length = (size_t)sqlite3_value_bytes(values[0]), words_length = (size_t)sqlite3_value_bytes(values[1]);
    sqlite3_result_int(context, holds(bytes, length, words, words_length));
}

tw_book_result tw_book_list(tw_book *book, tw_arena *arena, tw_book_shelf shelf, bool binned, tw_text words,
                            tw_book_entries *list)
{
    int code = sqlite3_create_function(book->db, "holds", 2, SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY, NULL,
                                       holds_for_sql, NULL, NULL);
    if (code != SQLITE_OK) return tw_book_fail(book, arena, code);
    tw_ask ask = tw_ask_begin(book, entry_sql(arena, names_of(shelf),
        "(t.binned IS NOT NULL) = ?1 AND (length(?2) = 0 OR holds(t.name, ?2) OR holds(r.text, ?2))"
        " ORDER BY r.made DESC, t.id DESC"));
    tw_ask_whole(&ask, binned);
    tw_ask_bytes(&ask, words);
    tw_book_entries got = {0};
    for (size_t room = 0; tw_ask_row(&ask); got.count++) {
        tw_array_make_room(arena, &got.items, got.count, &room, sizeof *got.items);
        got.items[got.count] = get_entry(&ask, arena);
    }
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE) *list = got;
    return result;
}

static const char *revision_sql(tw_arena *arena, const shelf_names *names, const char *text, const char *condition)
{
    return tw_format(arena, "SELECT number, made, why, %s, length(text), %s FROM %s WHERE %s = ?1 %s", names->shop_columns, text,
                     names->revisions, names->owner, condition);
}

static tw_book_revision get_revision(tw_ask *ask, tw_arena *arena)
{
    return (tw_book_revision){
        .number = (int)tw_ask_get(ask, 0), .when_s = tw_ask_get(ask, 1), .why = tw_ask_words(ask, arena, 2),
        .shop = tw_ask_get(ask, 3),
        .shop_number = (int)tw_ask_get(ask, 4), .bytes = (size_t)tw_ask_get(ask, 5),
    };
}

tw_book_result tw_book_history(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, tw_book_revisions *list)
{
    tw_ask ask = tw_ask_begin(book, revision_sql(arena, names_of(shelf), "NULL", "ORDER BY number DESC"));
    tw_ask_whole(&ask, id);
    tw_book_revisions got = {0};
    for (size_t room = 0; tw_ask_row(&ask); got.count++) {
        tw_array_make_room(arena, &got.items, got.count, &room, sizeof *got.items);
        got.items[got.count] = get_revision(&ask, arena);
    }
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE && got.count == 0) return no_such(arena, names_of(shelf));
    if (result.answer == TW_BOOK_DONE) *list = got;
    return result;
}

tw_book_result tw_book_read(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, tw_text *text,
                            tw_book_revision *about)
{
    const shelf_names *names = names_of(shelf);
    tw_ask ask = tw_ask_begin(book, revision_sql(arena, names, "text",
                                                 "AND (number = ?2 OR ?2 = 0) ORDER BY number DESC LIMIT 1"));
    tw_ask_whole(&ask, id);
    tw_ask_whole(&ask, number);
    bool there = tw_ask_row(&ask);
    tw_book_revision got = {0};
    tw_text bytes = {0};
    if (there) {
        got = get_revision(&ask, arena);
        bytes = tw_ask_text(&ask, arena, 6);
    }
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE && !there)
        return number == 0 ? no_such(arena, names) : no_such_revision(arena, names, number);
    if (result.answer == TW_BOOK_DONE) *text = bytes;
    if (result.answer == TW_BOOK_DONE && about) *about = got;
    return result;
}

/* ---- what is written, inside a transaction ---- */

static tw_book_result put_text(tw_book *book, tw_arena *arena, const shelf_names *names, const char *name, int64_t when_s,
                               int64_t source, int source_number, int64_t *id)
{
    tw_ask ask = tw_ask_begin(book, tw_format(arena, "INSERT INTO %s (name, created, source, source_number) VALUES (?, ?, ?, ?)",
                                              names->texts));
    tw_ask_name(&ask, name);
    tw_ask_whole(&ask, when_s);
    tw_ask_whole_or_null(&ask, source);
    tw_ask_whole_or_null(&ask, source_number);
    tw_book_result result = tw_ask_end(&ask, arena);
    *id = sqlite3_last_insert_rowid(book->db);
    return result;
}

/* The shop of a job's revision, with its own newest number. */
static tw_book_result put_shop(tw_book *book, tw_arena *arena, int64_t job, int number, int64_t shop, int shop_number)
{
    tw_ask ask = tw_ask_begin(book, "UPDATE revisions SET shop = ?3, shop_number = ?4 WHERE job = ?1 AND number = ?2");
    tw_ask_whole(&ask, job);
    tw_ask_whole(&ask, number);
    tw_ask_whole(&ask, shop);
    tw_ask_whole(&ask, shop_number);
    return tw_ask_end(&ask, arena);
}

static tw_book_result put_newest_shop(tw_book *book, tw_arena *arena, int64_t job, int number, int64_t shop)
{
    tw_book_entry entry = {0};
    tw_book_result result = tw_book_look(book, arena, TW_BOOK_SHOPS, shop, &entry);
    return result.answer == TW_BOOK_DONE ? put_shop(book, arena, job, number, shop, entry.newest) : result;
}

static tw_book_result put_revision(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number,
                                   tw_book_change change)
{
    const shelf_names *names = names_of(shelf);
    tw_ask ask = tw_ask_begin(book, tw_format(arena, "INSERT INTO %s (%s, number, text, made, why) VALUES (?, ?, ?, ?, ?)",
                                              names->revisions, names->owner));
    tw_ask_whole(&ask, id);
    tw_ask_whole(&ask, number);
    tw_ask_bytes(&ask, change.text);
    tw_ask_whole(&ask, change.when_s);
    tw_ask_name(&ask, change.why);
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE && change.shop != 0) return put_newest_shop(book, arena, id, number, change.shop);
    return result;
}

static tw_book_result put_copy(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, const char *name,
                               int64_t when_s, int64_t *copy)
{
    tw_text text = {0};
    tw_book_revision about = {0};
    tw_book_entry source = {0};
    tw_book_result result = tw_book_look(book, arena, shelf, id, &source);
    if (number == 0) number = source.newest;
    if (result.answer == TW_BOOK_DONE) result = tw_book_read(book, arena, shelf, id, number, &text, &about);
    if (result.answer == TW_BOOK_DONE) result = put_text(book, arena, names_of(shelf), name, when_s, id, about.number, copy);
    const char *why = tw_format(arena, "copy of revision %d of %s", about.number, source.name);
    tw_book_change change = { .text = text, .when_s = when_s, .why = why };
    if (result.answer == TW_BOOK_DONE) result = put_revision(book, arena, shelf, *copy, 1, change);
    if (result.answer == TW_BOOK_DONE && about.shop != 0) result = put_shop(book, arena, *copy, 1, about.shop, about.shop_number);
    return result;
}

/* ---- the public calls ---- */

static tw_book_result check_change(tw_arena *arena, tw_book_shelf shelf, tw_book_change change)
{
    assert(shelf == TW_BOOK_JOBS || change.shop == 0);
    (void)shelf;
    tw_book_result result = tw_book_check_text(arena, change.text);
    return result.answer == TW_BOOK_DONE ? tw_book_check_words(arena, change.why, "the reason of the change", true) : result;
}

tw_book_result tw_book_add(tw_book *book, tw_arena *arena, tw_book_shelf shelf, const char *name, tw_book_change change,
                           int64_t *id)
{
    int64_t fresh = 0;
    tw_book_result result = tw_book_check_words(arena, name, "the name", false);
    if (result.answer == TW_BOOK_DONE) result = check_change(arena, shelf, change);
    if (result.answer == TW_BOOK_DONE) result = tw_book_begin(book, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    result = put_text(book, arena, names_of(shelf), name, change.when_s, 0, 0, &fresh);
    if (result.answer == TW_BOOK_DONE) result = put_revision(book, arena, shelf, fresh, 1, change);
    result = tw_book_end(book, arena, result);
    if (result.answer == TW_BOOK_DONE) *id = fresh;
    return result;
}

static tw_book_result say_conflict(tw_arena *arena, const tw_book_entry *entry, int expected)
{
    if (expected > entry->newest)
        return tw_book_say(arena, TW_BOOK_CONFLICT, "this change of %s was made to revision %d, but the newest in the book is "
                           "%d; nothing was saved: look at that one, then save yours over it or as a copy of its own",
                           entry->name, expected, entry->newest);
    return tw_book_say(arena, TW_BOOK_CONFLICT, "this change of %s was made to revision %d, but revision %d has been saved "
                       "since; nothing was overwritten: look at that one, then save yours over it or as a copy of its own",
                       entry->name, expected, entry->newest);
}

/* Inside a transaction, so that no one can save between the look and the writing. */
static tw_book_result save_after(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int expected,
                                 tw_book_change change, int *newest)
{
    tw_book_entry entry = {0};
    tw_book_result result = tw_book_look(book, arena, shelf, id, &entry);
    if (result.answer != TW_BOOK_DONE) return result;
    *newest = entry.newest;
    if (entry.newest != expected) return say_conflict(arena, &entry, expected);
    assert(expected < INT_MAX);
    *newest = expected + 1;
    return put_revision(book, arena, shelf, id, expected + 1, change);
}

tw_book_result tw_book_save(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int expected, tw_book_change change,
                            int *number)
{
    int newest = 0;
    tw_book_result result = check_change(arena, shelf, change);
    if (result.answer == TW_BOOK_DONE) result = tw_book_begin(book, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    result = tw_book_end(book, arena, save_after(book, arena, shelf, id, expected, change, &newest));
    if (result.answer == TW_BOOK_DONE || result.answer == TW_BOOK_CONFLICT) *number = newest;
    return result;
}

tw_book_result tw_book_copy(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, const char *name,
                            int64_t when_s, int64_t *copy)
{
    int64_t fresh = 0;
    tw_book_result result = tw_book_check_words(arena, name, "the name", false);
    if (result.answer == TW_BOOK_DONE) result = tw_book_begin(book, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    result = tw_book_end(book, arena, put_copy(book, arena, shelf, id, number, name, when_s, &fresh));
    if (result.answer == TW_BOOK_DONE) *copy = fresh;
    return result;
}

tw_book_result tw_book_branch(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, const char *name,
                              tw_book_change change, int64_t *branch)
{
    int64_t fresh = 0;
    tw_book_result result = tw_book_check_words(arena, name, "the name", false);
    if (result.answer == TW_BOOK_DONE) result = check_change(arena, shelf, change);
    if (result.answer == TW_BOOK_DONE) result = tw_book_begin(book, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    result = put_copy(book, arena, shelf, id, number, name, change.when_s, &fresh);
    if (result.answer == TW_BOOK_DONE) result = put_revision(book, arena, shelf, fresh, 2, change);
    result = tw_book_end(book, arena, result);
    if (result.answer == TW_BOOK_DONE) *branch = fresh;
    return result;
}

/* Runs a change of one row that has already got its values, the id as the last one. */
static tw_book_result change_row(tw_ask *ask, tw_arena *arena, const shelf_names *names, int64_t id)
{
    tw_ask_whole(ask, id);
    tw_book_result result = tw_ask_end(ask, arena);
    if (result.answer == TW_BOOK_DONE && sqlite3_changes(ask->book->db) == 0) return no_such(arena, names);
    return result;
}

tw_book_result tw_book_rename(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, const char *name)
{
    tw_book_result result = tw_book_check_words(arena, name, "the name", false);
    if (result.answer != TW_BOOK_DONE) return result;
    tw_ask ask = tw_ask_begin(book, tw_format(arena, "UPDATE %s SET name = ? WHERE id = ?", names_of(shelf)->texts));
    tw_ask_name(&ask, name);
    return change_row(&ask, arena, names_of(shelf), id);
}

tw_book_result tw_book_bin(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int64_t when_s)
{
    tw_ask ask = tw_ask_begin(book, tw_format(arena, "UPDATE %s SET binned = coalesce(binned, ?) WHERE id = ?",
                                              names_of(shelf)->texts));
    tw_ask_whole(&ask, when_s);
    return change_row(&ask, arena, names_of(shelf), id);
}

tw_book_result tw_book_unbin(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id)
{
    tw_ask ask = tw_ask_begin(book, tw_format(arena, "UPDATE %s SET binned = NULL WHERE id = ?", names_of(shelf)->texts));
    return change_row(&ask, arena, names_of(shelf), id);
}
