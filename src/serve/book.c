// SPDX-License-Identifier: GPL-3.0-or-later
/* Opening and closing the book.
 *
 * A file is looked at before SQLite does anything with it: an own mark stands in the head of every book (PRAGMA
 * application_id, written in the same transaction as the first tables), so that any other file is let alone, other programs'
 * databases too. The head is read through SQLite's own handle: to open and close the file once more would drop the locks
 * that this process may hold on it.
 *
 * The log of changes (WAL) is flushed at every commit (synchronous = FULL); its frames carry check sums, so what was
 * not flushed whole before a cut of power is taken as not written. */
#define _GNU_SOURCE
#include "serve/book_inside.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define HEAD_BYTES 100  // of an SQLite file: "SQLite format 3" and a zero, ..., at 68 the mark

static bool all_zero(const unsigned char *bytes, size_t count)
{
    while (count > 0 && bytes[count - 1] == 0) count--;
    return count == 0;
}

/* The first tables were being written when the power went: SQLite takes that back by the journal that stands beside. */
static bool unfinished(const tw_book *book, tw_arena *arena, const unsigned char head[HEAD_BYTES])
{
    return all_zero(head, HEAD_BYTES) && access(tw_format(arena, "%s-journal", book->path), F_OK) == 0;
}

static bool is_marked(const unsigned char head[HEAD_BYTES])
{
    uint32_t mark = (uint32_t)head[68] << 24 | (uint32_t)head[69] << 16 | (uint32_t)head[70] << 8 | head[71];
    return memcmp(head, "SQLite format 3", 16) == 0 && mark == TW_BOOK_MARK;
}

static int look_at_head(tw_book *book, tw_arena *arena, bool *may_be_book)
{
    sqlite3_file *file = NULL;
    int code = sqlite3_file_control(book->db, "main", SQLITE_FCNTL_FILE_POINTER, &file);
    if (code != SQLITE_OK) return code;
    sqlite3_int64 size = 0;
    code = file->pMethods->xFileSize(file, &size);
    *may_be_book = size == 0;
    if (code != SQLITE_OK || size < HEAD_BYTES) return code;
    unsigned char head[HEAD_BYTES];
    code = file->pMethods->xRead(file, head, HEAD_BYTES, 0);
    if (code == SQLITE_OK) *may_be_book = is_marked(head) || unfinished(book, arena, head);
    return code;
}

static tw_book_result no_book(const tw_book *book, tw_arena *arena, const char *what)
{
    return tw_book_say(arena, TW_BOOK_REFUSED, "%s is %s, not a book of jobs; it was not touched: give the path of a book, or "
                       "of a file that is not there yet", book->path, what);
}

/* ---- the handle ---- */

/* A path that SQLite cannot take for anything but a path (":memory:" and "file:..." are none to it). */
static char *plain_path(const char *path)
{
    size_t length = strlen(path);
    char *copy = malloc(length + 3);
    if (!copy) abort();
    memcpy(copy, "./", 2);
    memcpy(copy + (path[0] == '/' ? 0 : 2), path, length + 1);
    return copy;
}

static tw_book_result open_file(tw_book *book, tw_arena *arena)
{
    struct stat about;
    bool there = stat(book->path, &about) == 0;
    if (there && S_ISDIR(about.st_mode)) return no_book(book, arena, "a folder");
    if (there && !S_ISREG(about.st_mode)) return no_book(book, arena, "no plain file");
    // too short for a head; SQLite would take a file of one byte for an empty one
    if (there && about.st_size > 0 && about.st_size < HEAD_BYTES) return no_book(book, arena, "a file of another kind");
    int code = sqlite3_open_v2(book->path, &book->db, SQLITE_OPEN_READWRITE | (there ? 0 : SQLITE_OPEN_CREATE), NULL);
    if (code != SQLITE_OK) return tw_book_fail(book, arena, code);
    sqlite3_extended_result_codes(book->db, 1);
    sqlite3_busy_timeout(book->db, TW_BOOK_WAIT_MS);
    return TW_BOOK_GOOD;
}

/* Nothing in the file may make SQLite do more than we ask: no trust in what its schema calls, no writing to the schema. */
static tw_book_result be_careful(tw_book *book, tw_arena *arena)
{
    sqlite3_db_config(book->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(book->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    int code = tw_book_run(book, "PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
    return code == SQLITE_OK ? TW_BOOK_GOOD : tw_book_fail(book, arena, code);
}

/* ---- is it sound? ---- */

static tw_book_result check_layout(tw_book *book, tw_arena *arena, int64_t *layout)
{
    tw_book_result result = tw_book_number(book, arena, "PRAGMA user_version", layout);
    if (result.answer != TW_BOOK_DONE) return result;
    if (*layout > TW_BOOK_LAYOUT)
        return tw_book_say(arena, TW_BOOK_REFUSED, "the book %s was written by a newer Tuskwright (its layout is %d, this "
                           "program knows up to %d); nothing was changed: open it with the newer program",
                           book->path, (int)*layout, TW_BOOK_LAYOUT);
    if (*layout < 0) return tw_book_fail(book, arena, SQLITE_CORRUPT);
    return tw_book_compare_layout(book, arena, (int)*layout);
}

static tw_book_result check_pages(tw_book *book, tw_arena *arena)
{
    tw_ask ask = tw_ask_begin(book, "PRAGMA integrity_check(1)");
    bool sound = tw_ask_row(&ask) && strcmp(tw_ask_words(&ask, arena, 0), "ok") == 0;
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer != TW_BOOK_DONE) return result;
    return sound ? TW_BOOK_GOOD : tw_book_fail(book, arena, SQLITE_CORRUPT);
}

/* Rows that belong to nothing: a ledger without its job. */
static tw_book_result check_belonging(tw_book *book, tw_arena *arena)
{
    int64_t lost = 0;
    tw_book_result result = tw_book_number(book, arena, "SELECT count(*) FROM pragma_foreign_key_check", &lost);
    if (result.answer != TW_BOOK_DONE) return result;
    return lost == 0 ? TW_BOOK_GOOD : tw_book_fail(book, arena, SQLITE_CORRUPT);
}

static tw_book_result check(tw_book *book, tw_arena *arena, int64_t *layout)
{
    tw_book_result result = check_layout(book, arena, layout);
    if (result.answer == TW_BOOK_DONE) result = check_pages(book, arena);
    if (result.answer == TW_BOOK_DONE) result = check_belonging(book, arena);
    // a damaged file is left as it lies
    if (result.answer == TW_BOOK_BROKEN) sqlite3_db_config(book->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL);
    return result;
}

/* ---- open and close ---- */

static tw_book_result keep_log(tw_book *book, tw_arena *arena)
{
    tw_ask ask = tw_ask_begin(book, "PRAGMA journal_mode = WAL");
    bool kept = tw_ask_row(&ask) && strcmp(tw_ask_words(&ask, arena, 0), "wal") == 0;
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer != TW_BOOK_DONE || kept) return result;
    return tw_book_say(arena, TW_BOOK_FAILED, "the disk of the book %s cannot keep a log of changes beside it; put the book on "
                       "a disk of this computer", book->path);
}

/* Asked of SQLite and not of the head: there the mark of a book may stand whose first tables were never finished. */
static const char is_blank[] = "SELECT application_id = 0 AND NOT EXISTS (SELECT 1 FROM sqlite_schema)"
                               " FROM pragma_application_id";

static tw_book_result ready(tw_book *book, tw_arena *arena)
{
    bool may_be_book = false;
    int code = look_at_head(book, arena, &may_be_book);
    if (code != SQLITE_OK) return tw_book_fail(book, arena, code);
    if (!may_be_book) return no_book(book, arena, "a file of another kind");
    if (sqlite3_db_readonly(book->db, "main") == 1) return tw_book_fail(book, arena, SQLITE_READONLY);
    int64_t layout = 0, blank = 0;
    tw_book_result result = be_careful(book, arena);
    if (result.answer == TW_BOOK_DONE) result = tw_book_number(book, arena, is_blank, &blank);
    if (result.answer == TW_BOOK_DONE && blank) result = tw_book_lay_out(book, arena);
    if (result.answer == TW_BOOK_DONE) result = check(book, arena, &layout);
    if (result.answer == TW_BOOK_DONE) result = keep_log(book, arena);
    if (result.answer == TW_BOOK_DONE && layout < TW_BOOK_LAYOUT) result = tw_book_bring_up(book, arena);
    return result;
}

tw_book_result tw_book_open(tw_arena *arena, const char *path, tw_book **book)
{
    *book = NULL;
    if (path[0] == '\0') return tw_book_say(arena, TW_BOOK_REFUSED, "the path of the book is empty; give the path of a file");
    tw_book *fresh = malloc(sizeof *fresh);
    if (!fresh) abort();
    *fresh = (tw_book){ .path = plain_path(path) };
    tw_book_result result = open_file(fresh, arena);
    if (result.answer == TW_BOOK_DONE) result = ready(fresh, arena);
    if (result.answer == TW_BOOK_DONE) *book = fresh;
    else tw_book_close(fresh);
    return result;
}

void tw_book_close(tw_book *book)
{
    if (!book) return;
    int code = sqlite3_close(book->db);
    assert(code == SQLITE_OK);  // every question has been ended
    (void)code;
    free(book->path);
    free(book);
}
