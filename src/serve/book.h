// SPDX-License-Identifier: GPL-3.0-or-later
/* book: the store of jobs, in one file that SQLite keeps.
 *
 * A shelf holds texts: jobs on one, shops on the other. A text is never changed: saving adds a revision to it, numbered
 * from 1. What is binned only leaves the list. Nothing is ever taken out of the book.
 *
 * A save that was answered with TW_BOOK_DONE is on the disk: it outlives a killed program and a cut of power (as far as the
 * disk keeps what it says it has written). Several programs may hold one book open. Who saves says which revision he
 * started from; if it is no longer the newest, nothing is saved and the answer is TW_BOOK_CONFLICT. The caller may then look
 * at the newer one and save over it, or put his own beside it with tw_book_branch().
 *
 * Texts go in and come out byte for byte, so a plain file is imported with tw_book_add() and exported with tw_book_read().
 * The book knows no clock: times are given by the caller, in seconds since 1970-01-01 00:00 UTC.
 *
 * All calls: results and sentences live in the arena given. The results pointed at are set only with TW_BOOK_DONE, unless it
 * is said otherwise. One thread at a time may use one tw_book. */
#ifndef TW_BOOK_H
#define TW_BOOK_H

#include "base/base.h"

#define TW_BOOK_LAYOUT     1                     // of the tables that this program writes; older ones are brought up to it
#define TW_BOOK_TEXT_MOST  (4u * 1024u * 1024u)  // bytes of one text: what a job or shop file may have
#define TW_BOOK_WORDS_MOST 1000                  // bytes of a name, a reason, a note, a key; a setting may have as many as a text
#define TW_BOOK_WAIT_MS    2000                  // how long another program's writing is waited for

typedef struct tw_book tw_book;

typedef enum tw_book_answer {
    TW_BOOK_DONE,
    TW_BOOK_CONFLICT,   // another revision than the expected one is the newest: nothing was saved
    TW_BOOK_NOT_THERE,  // no such job, shop or revision
    TW_BOOK_REFUSED,    // what was asked cannot be: an empty name, a text too long, a file that is no book
    TW_BOOK_BUSY,       // another program writes in the book for longer than TW_BOOK_WAIT_MS
    TW_BOOK_FULL,       // no room on the disk
    TW_BOOK_READ_ONLY,  // the file, its folder or its disk cannot be written, or the file was moved away
    TW_BOOK_BROKEN,     // the file is damaged
    TW_BOOK_FAILED      // anything else that the system reports
} tw_book_answer;

typedef struct tw_book_result {
    tw_book_answer answer;
    const char    *why;  // what is wrong; what would be right. A sentence without its full stop, "" with TW_BOOK_DONE
} tw_book_result;

/* ---- opening ---- */

/// Opens the book at that path, or makes it where there is no file (or an empty one). The whole of it is checked. A book of
/// an older layout is first copied to PATH.before-N (N the new layout; PATH.before-N.2 and so on where that is taken), then
/// brought up to date. Refused: a file that is no book (it is not touched), a newer book, a damaged one, one that cannot be
/// written. *book is NULL unless the answer is TW_BOOK_DONE; it is to be closed with tw_book_close().
tw_book_result tw_book_open(tw_arena *arena, const char *path, tw_book **book);
/// book may be NULL.
void tw_book_close(tw_book *book);

/* ---- jobs and shops ---- */

typedef enum tw_book_shelf { TW_BOOK_JOBS, TW_BOOK_SHOPS } tw_book_shelf;

/// What is saved.
typedef struct tw_book_change {
    tw_text     text;    // at most TW_BOOK_TEXT_MOST bytes, of any value
    int64_t     shop;    // of a job: the shop that it is reckoned with, 0 = none. Its newest revision is noted. 0 for shops
    int64_t     when_s;
    const char *why;     // the change in words, "" when there are none
} tw_book_change;

/// One job or shop, as it stands in the list.
typedef struct tw_book_entry {
    int64_t     id;
    const char *name;
    int64_t     created_s, changed_s;  // changed: the newest revision
    bool        binned;
    int64_t     binned_s;              // when, if binned
    int         newest;                // number of its newest revision
    int64_t     from;                  // what it was copied from, 0 = nothing
    int         from_number;           // and which revision of that
} tw_book_entry;

typedef struct tw_book_revision {
    int         number;  // from 1
    int64_t     when_s;
    const char *why;
    int64_t     shop;         // of a job: 0 = none
    int         shop_number;  // the newest revision of the shop when this one was saved, 0 = none
    size_t      bytes;        // of its text
} tw_book_revision;

/// A new job or shop with that name and its revision 1. Names need not differ from each other: the id tells them apart.
/// A name has 1 to TW_BOOK_WORDS_MOST bytes, something besides spaces, and no control characters.
tw_book_result tw_book_add(tw_book *book, tw_arena *arena, tw_book_shelf shelf, const char *name, tw_book_change change,
                           int64_t *id);

/// Saves a revision after the one expected, which the caller started from. *number: the number of the new revision; with
/// TW_BOOK_CONFLICT the number of the newest one that is there.
tw_book_result tw_book_save(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int expected, tw_book_change change,
                            int *number);

/// A new entry whose revision 1 is the revision `number` of another, with the shop that was noted there. number: 0 = the
/// newest.
tw_book_result tw_book_copy(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, const char *name,
                            int64_t when_s, int64_t *copy);

/// A copy of the revision `number` with the change saved as its revision 2, in one step: the way out of a conflict that
/// keeps both.
tw_book_result tw_book_branch(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, const char *name,
                              tw_book_change change, int64_t *branch);

tw_book_result tw_book_rename(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, const char *name);
/// Into the bin, and out of it. What is there already stays, with the time when it was put there.
tw_book_result tw_book_bin(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int64_t when_s);
tw_book_result tw_book_unbin(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id);

typedef struct tw_book_entries { tw_book_entry *items; size_t count; } tw_book_entries;
typedef struct tw_book_revisions { tw_book_revision *items; size_t count; } tw_book_revisions;

/// What is binned, or what is not; the last changed first. words: only those whose name or newest text holds them ("" all);
/// A to Z count like a to z, all else as written.
tw_book_result tw_book_list(tw_book *book, tw_arena *arena, tw_book_shelf shelf, bool binned, tw_text words,
                            tw_book_entries *list);
tw_book_result tw_book_look(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, tw_book_entry *entry);
/// All revisions, the newest first.
tw_book_result tw_book_history(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, tw_book_revisions *list);
/// number: 0 = the newest. about may be NULL.
tw_book_result tw_book_read(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, int number, tw_text *text,
                            tw_book_revision *about);

/* ---- at the machine ---- */

/// A measured value. It stays for good; a later one for the same key is the one that counts.
typedef struct tw_book_measure {
    int         revision;  // of the job that was being made
    const char *key;       // which amount: "pieces.post.thickness". 1 to TW_BOOK_WORDS_MOST bytes
    double      value;     // finite; millimetres for lengths, radians for angles
    int64_t     when_s;
    const char *note;      // "" when there is none
} tw_book_measure;

typedef struct tw_book_measures { tw_book_measure *items; size_t count; } tw_book_measures;

tw_book_result tw_book_measured(tw_book *book, tw_arena *arena, int64_t job, tw_book_measure measure);
/// In the order in which they were entered.
tw_book_result tw_book_ledger(tw_book *book, tw_arena *arena, int64_t job, tw_book_measures *list);

/// A step of the run, done or not (any more).
typedef struct tw_book_tick {
    const char *step;  // the caller's name for it: 1 to TW_BOOK_WORDS_MOST bytes
    bool        done;
    int64_t     when_s;
} tw_book_tick;

typedef struct tw_book_ticks { tw_book_tick *items; size_t count; } tw_book_ticks;

tw_book_result tw_book_tick_set(tw_book *book, tw_arena *arena, int64_t job, tw_book_tick tick);
/// Every step that was ever ticked, in the order of its first tick.
tw_book_result tw_book_tick_list(tw_book *book, tw_arena *arena, int64_t job, tw_book_ticks *list);

/* ---- settings ---- */

tw_book_result tw_book_setting_set(tw_book *book, tw_arena *arena, const char *key, tw_text value);
/// TW_BOOK_NOT_THERE when it was never set.
tw_book_result tw_book_setting(tw_book *book, tw_arena *arena, const char *key, tw_text *value);

#endif
