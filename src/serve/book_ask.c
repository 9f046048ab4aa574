// SPDX-License-Identifier: GPL-3.0-or-later
/* Questions to SQLite, transactions, and what its failures mean to the maker. */
#define _GNU_SOURCE
#include "serve/book_inside.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <string.h>
#include <unistd.h>

/* ---- failures ---- */

tw_book_result tw_book_say(tw_arena *arena, tw_book_answer answer, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    tw_book_result result = { answer, tw_format_list(arena, format, list) };
    va_end(list);
    return result;
}

static tw_book_result say_full(const tw_book *book, tw_arena *arena)
{
    return tw_book_say(arena, TW_BOOK_FULL, "there is no room left on the disk for the book %s: nothing was saved, and what it "
                       "held is still there; make room on the disk and save again", book->path);
}

static tw_book_result say_read_only(const tw_book *book, tw_arena *arena)
{
    return tw_book_say(arena, TW_BOOK_READ_ONLY, "the book %s cannot be written, so nothing can be saved in it; give yourself "
                       "the right to write the file and its folder, or use a book on a disk that can be written", book->path);
}

static bool writable(const char *path) { return faccessat(AT_FDCWD, path, W_OK, AT_EACCESS) == 0; }

/* SQLite tries more than one way to open a file, and the system's last word is then not the one that counts: look oneself. */
static tw_book_result say_cannot_open(const tw_book *book, tw_arena *arena)
{
    const char *slash = strrchr(book->path, '/');
    const char *folder = slash ? tw_text_copy(arena, (tw_text){ book->path, (size_t)(slash - book->path) + 1 }) : ".";
    if (access(folder, F_OK) != 0)
        return tw_book_say(arena, TW_BOOK_FAILED, "the folder of the book %s is not there; make it first, or give another path",
                           book->path);
    if (!writable(folder) || (access(book->path, F_OK) == 0 && !writable(book->path))) return say_read_only(book, arena);
    return tw_book_say(arena, TW_BOOK_FAILED, "the book %s, or a file that belongs beside it, cannot be opened; see that the "
                       "file and its folder can be read and written", book->path);
}

static tw_book_result say_disk_error(tw_book *book, tw_arena *arena, int code)
{
    int system = sqlite3_system_errno(book->db);
    if (system == ENOSPC || system == EDQUOT || system == EFBIG) return say_full(book, arena);
    if (system == EROFS) return say_read_only(book, arena);
    return tw_book_say(arena, TW_BOOK_FAILED, "the disk reports an error while the book %s is read or written (%s), so it is "
                       "not sure that this was saved; look after the disk, open the book again and see what is there",
                       book->path, sqlite3_errstr(code));
}

static tw_book_result say_moved(const tw_book *book, tw_arena *arena)
{
    return tw_book_say(arena, TW_BOOK_READ_ONLY, "the book %s is no longer where it was opened: it was moved, or deleted, or another file was put in its "
                       "place, so nothing can be saved in it; put it back, or end the program and start it with the book where it is now", book->path);
}

tw_book_result tw_book_fail(tw_book *book, tw_arena *arena, int code)
{
    if (code == SQLITE_READONLY_DBMOVED) return say_moved(book, arena);
    switch (code & 0xff) {
    case SQLITE_FULL: return say_full(book, arena);
    case SQLITE_READONLY: case SQLITE_PERM: return say_read_only(book, arena);
    case SQLITE_BUSY: case SQLITE_LOCKED:
        return tw_book_say(arena, TW_BOOK_BUSY, "another program is writing in the book %s and has not ended within %d "
                           "seconds; nothing was saved: wait for it or close it, and try again",
                           book->path, TW_BOOK_WAIT_MS / 1000);
    case SQLITE_CORRUPT: case SQLITE_NOTADB:
        return tw_book_say(arena, TW_BOOK_BROKEN, "the book %s is damaged; put a copy of it in its place, and keep the damaged "
                           "file", book->path);
    case SQLITE_CANTOPEN: return say_cannot_open(book, arena);
    case SQLITE_IOERR: return say_disk_error(book, arena, code);
    case SQLITE_NOMEM:
        return tw_book_say(arena, TW_BOOK_FAILED, "there is not enough memory to work in the book %s; close other programs",
                           book->path);
    default:
        return tw_book_say(arena, TW_BOOK_FAILED, "the book %s could not be used (%s); nothing was saved",
                           book->path, sqlite3_errstr(code));
    }
}

/* ---- questions ---- */

/* Is the open file no longer the one at the book's path? What is written then would be found nowhere. */
static bool has_moved(tw_book *book)
{
    int moved = 0;
    return sqlite3_file_control(book->db, "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK && moved;
}

tw_ask tw_ask_begin(tw_book *book, const char *sql)
{
    tw_ask ask = { .book = book };
    ask.code = sqlite3_prepare_v2(book->db, sql, -1, &ask.statement, NULL);
    if (ask.code == SQLITE_OK && !sqlite3_stmt_readonly(ask.statement) && has_moved(book)) ask.code = SQLITE_READONLY_DBMOVED;
    return ask;
}

void tw_ask_whole(tw_ask *ask, int64_t value)
{
    if (ask->code == SQLITE_OK) ask->code = sqlite3_bind_int64(ask->statement, ++ask->bound, value);
}

void tw_ask_whole_or_null(tw_ask *ask, int64_t value)
{
    if (value != 0) {
        tw_ask_whole(ask, value);
    } else if (ask->code == SQLITE_OK) {
        ask->code = sqlite3_bind_null(ask->statement, ++ask->bound);
    }
}

void tw_ask_real(tw_ask *ask, double value)
{
    if (ask->code == SQLITE_OK) ask->code = sqlite3_bind_double(ask->statement, ++ask->bound, value);
}

void tw_ask_name(tw_ask *ask, const char *value)
{
    if (ask->code == SQLITE_OK) ask->code = sqlite3_bind_text(ask->statement, ++ask->bound, value, -1, SQLITE_STATIC);
}

void tw_ask_bytes(tw_ask *ask, tw_text value)
{
    const char *bytes = value.length > 0 ? value.bytes : "";  // NULL would be no value at all
    if (ask->code == SQLITE_OK) ask->code = sqlite3_bind_blob64(ask->statement, ++ask->bound, bytes, value.length, SQLITE_STATIC);
}

bool tw_ask_row(tw_ask *ask)
{
    if (ask->code != SQLITE_OK) return false;
    int code = sqlite3_step(ask->statement);
    if (code == SQLITE_ROW) return true;
    ask->code = code;  // SQLITE_DONE too: there is no more
    return false;
}

int64_t tw_ask_get(const tw_ask *ask, int column) { return sqlite3_column_int64(ask->statement, column); }

tw_text tw_ask_text(tw_ask *ask, tw_arena *arena, int column)
{
    const void *bytes = sqlite3_column_blob(ask->statement, column);
    size_t length = (size_t)sqlite3_column_bytes(ask->statement, column);
    if (length > 0 && !bytes) {
        ask->code = SQLITE_NOMEM;
        length = 0;
    }
    char *copy = tw_arena_take(arena, length + 1, 1);
    if (length > 0) memcpy(copy, bytes, length);
    return (tw_text){ copy, length };
}

const char *tw_ask_words(tw_ask *ask, tw_arena *arena, int column) { return tw_ask_text(ask, arena, column).bytes; }

tw_book_result tw_ask_end(tw_ask *ask, tw_arena *arena)
{
    if (ask->code == SQLITE_OK)
        while (tw_ask_row(ask)) continue;
    tw_book_result result = ask->code == SQLITE_DONE ? TW_BOOK_GOOD : tw_book_fail(ask->book, arena, ask->code);
    sqlite3_finalize(ask->statement);
    ask->statement = NULL;
    return result;
}

int tw_book_run(tw_book *book, const char *sql) { return sqlite3_exec(book->db, sql, NULL, NULL, NULL); }

tw_book_result tw_book_number(tw_book *book, tw_arena *arena, const char *sql, int64_t *value)
{
    tw_ask ask = tw_ask_begin(book, sql);
    if (tw_ask_row(&ask)) *value = tw_ask_get(&ask, 0);
    return tw_ask_end(&ask, arena);
}

/* ---- transactions ---- */

tw_book_result tw_book_begin(tw_book *book, tw_arena *arena)
{
    int code = tw_book_run(book, "BEGIN IMMEDIATE");
    return code == SQLITE_OK ? TW_BOOK_GOOD : tw_book_fail(book, arena, code);
}

tw_book_result tw_book_end(tw_book *book, tw_arena *arena, tw_book_result result)
{
    if (result.answer == TW_BOOK_DONE) {
        int code = tw_book_run(book, "COMMIT");
        if (code == SQLITE_OK) return TW_BOOK_GOOD;
        result = tw_book_fail(book, arena, code);
    }
    if (!sqlite3_get_autocommit(book->db)) tw_book_run(book, "ROLLBACK");  // some failures have already taken it back
    return result;
}

/* ---- small checks ---- */

tw_book_result tw_book_check_words(tw_arena *arena, const char *words, const char *what, bool may_be_empty)
{
    size_t length = strlen(words);
    if (length > TW_BOOK_WORDS_MOST)
        return tw_book_say(arena, TW_BOOK_REFUSED, "%s has %zu bytes; it may have %d at most", what, length, TW_BOOK_WORDS_MOST);
    if (!may_be_empty && strspn(words, " ") == length)
        return tw_book_say(arena, TW_BOOK_REFUSED, "%s is empty; give it at least one letter", what);
    for (const char *at = words; *at; at++)
        if ((unsigned char)*at < 0x20 || *at == 0x7f)
            return tw_book_say(arena, TW_BOOK_REFUSED, "%s holds a control character (a new line, a tab or the like); leave it "
                               "out", what);
    return TW_BOOK_GOOD;
}

tw_book_result tw_book_check_text(tw_arena *arena, tw_text text)
{
    if (text.length <= TW_BOOK_TEXT_MOST) return TW_BOOK_GOOD;
    return tw_book_say(arena, TW_BOOK_REFUSED, "the text has %zu bytes; it may have %u at most", text.length, TW_BOOK_TEXT_MOST);
}
