// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of the book share: the handle, questions to SQLite, transactions, failures as sentences. */
#ifndef TW_BOOK_INSIDE_H
#define TW_BOOK_INSIDE_H

#include <sqlite3.h>

#include "serve/book.h"

#define TW_BOOK_MARK 0x5475736b  // PRAGMA application_id, at byte 68 of the file: "Tusk"

struct tw_book {
    sqlite3 *db;
    char    *path;
};

/* ---- failures ---- */

#define TW_BOOK_GOOD ((tw_book_result){ TW_BOOK_DONE, "" })

/// What SQLite's result code means to the maker. code: not SQLITE_OK, SQLITE_ROW or SQLITE_DONE.
tw_book_result tw_book_fail(tw_book *book, tw_arena *arena, int code);
/// The answer with a sentence, as tw_format writes it.
tw_book_result tw_book_say(tw_arena *arena, tw_book_answer answer, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* ---- questions ----
 *
 *     tw_ask ask = tw_ask_begin(book, "SELECT name FROM jobs WHERE id = ?");
 *     tw_ask_whole(&ask, id);
 *     while (tw_ask_row(&ask)) ... tw_ask_words(&ask, arena, 0) ...
 *     return tw_ask_end(&ask, arena);
 *
 * The first failure sticks: after it the other calls do nothing, and tw_ask_end() tells it. */

typedef struct tw_ask {
    tw_book      *book;
    sqlite3_stmt *statement;
    int           code;   // SQLITE_OK until something failed
    int           bound;  // parameters given so far
} tw_ask;

tw_ask tw_ask_begin(tw_book *book, const char *sql);
/// The next parameter. Texts must live until tw_ask_end().
void tw_ask_whole(tw_ask *ask, int64_t value);
void tw_ask_whole_or_null(tw_ask *ask, int64_t value);  // 0 is no value
void tw_ask_real(tw_ask *ask, double value);
void tw_ask_name(tw_ask *ask, const char *value);
void tw_ask_bytes(tw_ask *ask, tw_text value);
/// True while there is one more row.
bool tw_ask_row(tw_ask *ask);
/// Columns of the row, from 0; copies in the arena. What is no value is 0 or "".
int64_t     tw_ask_get(const tw_ask *ask, int column);
const char *tw_ask_words(tw_ask *ask, tw_arena *arena, int column);
tw_text     tw_ask_text(tw_ask *ask, tw_arena *arena, int column);
/// Runs it to its end if no row was asked for.
tw_book_result tw_ask_end(tw_ask *ask, tw_arena *arena);

/// SQL without parameters and rows, one or more statements. Returns SQLite's code.
int tw_book_run(tw_book *book, const char *sql);
/// The single whole number that it asks for, sql without parameters.
tw_book_result tw_book_number(tw_book *book, tw_arena *arena, const char *sql, int64_t *value);

/* ---- transactions ---- */

/// Takes the right to write; from here on no other program can.
tw_book_result tw_book_begin(tw_book *book, tw_arena *arena);
/// Keeps all since tw_book_begin() if result is done, else takes all of it back. Returns the result, or why it was not kept.
tw_book_result tw_book_end(tw_book *book, tw_arena *arena, tw_book_result result);

/* ---- layout ---- */

/// Makes the tables of a new book.
tw_book_result tw_book_lay_out(tw_book *book, tw_arena *arena);
/// Compares the tables with those that a book of that layout has: a file may be whole and yet not what it says.
tw_book_result tw_book_compare_layout(tw_book *book, tw_arena *arena, int layout);
/// Brings an older book up to TW_BOOK_LAYOUT; a copy is made first.
tw_book_result tw_book_bring_up(tw_book *book, tw_arena *arena);

/* ---- small checks ---- */

/// Refuses an empty or overlong one, and control characters; `what` names it in the sentence: "the name".
tw_book_result tw_book_check_words(tw_arena *arena, const char *words, const char *what, bool may_be_empty);
tw_book_result tw_book_check_text(tw_arena *arena, tw_text text);

#endif
