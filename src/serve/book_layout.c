// SPDX-License-Identifier: GPL-3.0-or-later
/* The tables of the book, and how an older book is brought up to date.
 *
 * Layout n is what steps 0 to n make one after the other; a new book takes all of them, an older one those that it lacks. So a
 * step that has once been given out is never changed: what is to be otherwise is a further step. The number of the layout
 * stands in the file (PRAGMA user_version) and changes in the same transaction as the tables.
 *
 * Before an older book is changed the whole of it is copied, while the right to write is held, so that the copy is just what
 * the steps begin with. */
#define _GNU_SOURCE
#include "serve/book_inside.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char *const steps[] = {
    // 0: texts with their revisions
    "CREATE TABLE jobs (id INTEGER PRIMARY KEY, name TEXT NOT NULL, created INTEGER NOT NULL) STRICT;"
    "CREATE TABLE revisions (job INTEGER NOT NULL REFERENCES jobs (id), number INTEGER NOT NULL CHECK (number > 0),"
    " text BLOB NOT NULL, made INTEGER NOT NULL, why TEXT NOT NULL, PRIMARY KEY (job, number)) STRICT;"
    "CREATE TABLE shops (id INTEGER PRIMARY KEY, name TEXT NOT NULL, created INTEGER NOT NULL) STRICT;"
    "CREATE TABLE shop_revisions (shop INTEGER NOT NULL REFERENCES shops (id), number INTEGER NOT NULL CHECK (number > 0),"
    " text BLOB NOT NULL, made INTEGER NOT NULL, why TEXT NOT NULL, PRIMARY KEY (shop, number)) STRICT;",
    // 1: the bin, where a copy came from, the shop of a revision, and what is noted at the machine
    "ALTER TABLE jobs ADD COLUMN binned INTEGER;"
    "ALTER TABLE jobs ADD COLUMN source INTEGER REFERENCES jobs (id);"
    "ALTER TABLE jobs ADD COLUMN source_number INTEGER;"
    "ALTER TABLE shops ADD COLUMN binned INTEGER;"
    "ALTER TABLE shops ADD COLUMN source INTEGER REFERENCES shops (id);"
    "ALTER TABLE shops ADD COLUMN source_number INTEGER;"
    "ALTER TABLE revisions ADD COLUMN shop INTEGER REFERENCES shops (id);"
    "ALTER TABLE revisions ADD COLUMN shop_number INTEGER;"
    "CREATE TABLE ledger (id INTEGER PRIMARY KEY, job INTEGER NOT NULL, revision INTEGER NOT NULL, key TEXT NOT NULL,"
    " value REAL NOT NULL, made INTEGER NOT NULL, note TEXT NOT NULL,"
    " FOREIGN KEY (job, revision) REFERENCES revisions (job, number)) STRICT;"
    "CREATE INDEX ledger_of_job ON ledger (job);"
    "CREATE TABLE ticks (id INTEGER PRIMARY KEY, job INTEGER NOT NULL REFERENCES jobs (id), step TEXT NOT NULL,"
    " done INTEGER NOT NULL CHECK (done IN (0, 1)), made INTEGER NOT NULL, UNIQUE (job, step)) STRICT;"
    "CREATE TABLE settings (key TEXT PRIMARY KEY, value BLOB NOT NULL) STRICT;",
};
static_assert(sizeof steps / sizeof *steps == TW_BOOK_LAYOUT + 1, "one step for each layout");

static int run_steps(tw_book *book, int first, int last)
{
    int code = SQLITE_OK;
    for (int i = first; i <= last && code == SQLITE_OK; i++) code = tw_book_run(book, steps[i]);
    return code;
}

static tw_book_result mark_layout(tw_book *book, tw_arena *arena)
{
    const char *sql = tw_format(arena, "PRAGMA application_id = %d; PRAGMA user_version = %d", TW_BOOK_MARK, TW_BOOK_LAYOUT);
    int code = tw_book_run(book, sql);
    return code == SQLITE_OK ? TW_BOOK_GOOD : tw_book_fail(book, arena, code);
}

/* The steps and the mark, inside a transaction. */
static tw_book_result take_steps(tw_book *book, tw_arena *arena, int first)
{
    int code = run_steps(book, first, TW_BOOK_LAYOUT);
    return code == SQLITE_OK ? mark_layout(book, arena) : tw_book_fail(book, arena, code);
}

tw_book_result tw_book_lay_out(tw_book *book, tw_arena *arena)
{
    tw_book_result result = tw_book_begin(book, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    int64_t tables = 0;
    result = tw_book_number(book, arena, "SELECT count(*) FROM sqlite_schema", &tables);
    if (result.answer == TW_BOOK_DONE && tables == 0) result = take_steps(book, arena, 0);  // else another program was quicker
    return tw_book_end(book, arena, result);
}

/* ---- the tables as they should be ---- */

/* All that the schema holds, as one text. */
static tw_book_result describe(tw_book *book, tw_arena *arena, tw_text *text)
{
    tw_gather gather = { .arena = arena };
    tw_sink sink = tw_gather_sink(&gather);
    tw_ask ask = tw_ask_begin(book, "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name");
    while (tw_ask_row(&ask))
        for (int column = 0; column < 4; column++) {
            tw_text part = tw_ask_text(&ask, arena, column);
            tw_put(&sink, part.bytes, part.length);
            tw_put_text(&sink, "\n");
        }
    *text = tw_gathered(&gather);
    return tw_ask_end(&ask, arena);
}

static tw_book_result describe_model(tw_arena *arena, int layout, tw_text *text)
{
    tw_book model = { .path = ":memory:" };
    int code = sqlite3_open_v2(model.path, &model.db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_MEMORY, NULL);
    if (code == SQLITE_OK) code = run_steps(&model, 0, layout);
    tw_book_result result = code == SQLITE_OK ? describe(&model, arena, text) : tw_book_fail(&model, arena, code);
    sqlite3_close(model.db);
    return result;
}

tw_book_result tw_book_compare_layout(tw_book *book, tw_arena *arena, int layout)
{
    assert(layout >= 0 && layout <= TW_BOOK_LAYOUT);
    tw_text wanted = {0}, there = {0};
    tw_book_result result = describe_model(arena, layout, &wanted);
    if (result.answer == TW_BOOK_DONE) result = describe(book, arena, &there);
    if (result.answer != TW_BOOK_DONE) return result;
    if (wanted.length == there.length && memcmp(wanted.bytes, there.bytes, wanted.length) == 0) return TW_BOOK_GOOD;
    return tw_book_say(arena, TW_BOOK_BROKEN, "the tables in %s are not those of a book of layout %d, as it says it is; put a "
                       "copy of the book in its place", book->path, layout);
}

/* ---- the copy ---- */

static const char *free_name(const tw_book *book, tw_arena *arena)
{
    const char *name = tw_format(arena, "%s.before-%d", book->path, TW_BOOK_LAYOUT);
    for (int n = 2; access(name, F_OK) == 0; n++) name = tw_format(arena, "%s.before-%d.%d", book->path, TW_BOOK_LAYOUT, n);
    return name;
}

static int copy_pages(sqlite3 *from, sqlite3 *to)
{
    sqlite3_backup *backup = sqlite3_backup_init(to, "main", from, "main");
    if (!backup) return sqlite3_errcode(to);
    int code = sqlite3_backup_step(backup, -1);
    int end = sqlite3_backup_finish(backup);
    return code == SQLITE_DONE ? end : code;
}

/* From a second handle, since the first one is about to write. */
static tw_book_result copy_into(const tw_book *book, tw_arena *arena, const char *path)
{
    tw_book from = { .path = book->path }, to = { .path = tw_text_copy(arena, tw_text_of(path)) };
    tw_book *failed = &from;
    int code = sqlite3_open_v2(from.path, &from.db, SQLITE_OPEN_READWRITE, NULL);
    if (code == SQLITE_OK) {
        failed = &to;
        code = sqlite3_open_v2(to.path, &to.db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);
    }
    if (code == SQLITE_OK) code = copy_pages(from.db, to.db);
    tw_book_result result = code == SQLITE_OK ? TW_BOOK_GOOD : tw_book_fail(failed, arena, code);
    sqlite3_close(to.db);
    sqlite3_close(from.db);
    return result;
}

/* A new name in a folder is safe only when the folder has been written too. */
static bool flush_folder_of(tw_arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    assert(slash != NULL);
    char *folder = tw_text_copy(arena, (tw_text){ path, (size_t)(slash - path) + 1 });
    int handle = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return false;
    bool good = fsync(handle) == 0;
    return close(handle) == 0 && good;
}

/* Written under a name of its own first, so that no half copy is ever taken for a whole one. Only who holds the right to
 * write comes here, so the name is nobody else's. */
static tw_book_result copy_first(const tw_book *book, tw_arena *arena)
{
    const char *part = tw_format(arena, "%s.before-%d.part", book->path, TW_BOOK_LAYOUT), *name = free_name(book, arena);
    unlink(part);
    unlink(tw_format(arena, "%s-journal", part));
    tw_book_result result = copy_into(book, arena, part);
    if (result.answer == TW_BOOK_DONE && rename(part, name) == 0 && flush_folder_of(arena, name)) return TW_BOOK_GOOD;
    int code = errno;
    unlink(part);
    if (result.answer == TW_BOOK_DONE)
        return tw_book_say(arena, TW_BOOK_FAILED, "the copy %s of the older book could not be kept (%s), so the book was not "
                           "brought up to date; see that its folder can be written", name, strerror(code));
    return tw_book_say(arena, result.answer, "the older book %s was not brought up to date, since no copy of it could be made "
                       "first: %s", book->path, result.why);
}

tw_book_result tw_book_bring_up(tw_book *book, tw_arena *arena)
{
    tw_book_result result = tw_book_begin(book, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    int64_t layout = 0;
    result = tw_book_number(book, arena, "PRAGMA user_version", &layout);
    if (result.answer == TW_BOOK_DONE && layout < TW_BOOK_LAYOUT) {  // else another program was quicker
        result = copy_first(book, arena);
        if (result.answer == TW_BOOK_DONE) result = take_steps(book, arena, (int)layout + 1);
    }
    return tw_book_end(book, arena, result);
}
