// SPDX-License-Identifier: GPL-3.0-or-later
/* What is noted at the machine: measured values and ticks of a job's run; and the settings of the program. */
#include "serve/book_inside.h"

#include <math.h>

/* Rows that name a job or revision which is not there are refused by SQLite itself (foreign keys). */
static tw_book_result end_of_note(tw_ask *ask, tw_arena *arena, const char *missing)
{
    tw_book_result result = tw_ask_end(ask, arena);
    if (sqlite3_extended_errcode(ask->book->db) == SQLITE_CONSTRAINT_FOREIGNKEY && result.answer != TW_BOOK_DONE)
        return tw_book_say(arena, TW_BOOK_NOT_THERE, "there is no such %s in the book; look at the list again", missing);
    return result;
}

/* ---- ledger ---- */

static tw_book_result check_measure(tw_arena *arena, const tw_book_measure *measure)
{
    if (!isfinite(measure->value))
        return tw_book_say(arena, TW_BOOK_REFUSED, "the measured value is no number; enter what was measured");
    tw_book_result result = tw_book_check_words(arena, measure->key, "the key of the measured value", false);
    return result.answer == TW_BOOK_DONE ? tw_book_check_words(arena, measure->note, "the note", true) : result;
}

tw_book_result tw_book_measured(tw_book *book, tw_arena *arena, int64_t job, tw_book_measure measure)
{
    tw_book_result result = check_measure(arena, &measure);
    if (result.answer != TW_BOOK_DONE) return result;
    tw_ask ask = tw_ask_begin(book, "INSERT INTO ledger (job, revision, key, value, made, note) VALUES (?, ?, ?, ?, ?, ?)");
    tw_ask_whole(&ask, job);
    tw_ask_whole(&ask, measure.revision);
    tw_ask_name(&ask, measure.key);
    tw_ask_real(&ask, measure.value);
    tw_ask_whole(&ask, measure.when_s);
    tw_ask_name(&ask, measure.note);
    return end_of_note(&ask, arena, "revision of the job");
}

tw_book_result tw_book_ledger(tw_book *book, tw_arena *arena, int64_t job, tw_book_measures *list)
{
    tw_ask ask = tw_ask_begin(book, "SELECT revision, key, value, made, note FROM ledger WHERE job = ? ORDER BY id");
    tw_ask_whole(&ask, job);
    tw_book_measures got = {0};
    for (size_t room = 0; tw_ask_row(&ask); got.count++) {
        tw_array_make_room(arena, &got.items, got.count, &room, sizeof *got.items);
        got.items[got.count] = (tw_book_measure){
            .revision = (int)tw_ask_get(&ask, 0), .key = tw_ask_words(&ask, arena, 1),
            .value = sqlite3_column_double(ask.statement, 2),
            .when_s = tw_ask_get(&ask, 3), .note = tw_ask_words(&ask, arena, 4),
        };
    }
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE) *list = got;
    return result;
}

/* ---- ticks ---- */

tw_book_result tw_book_tick_set(tw_book *book, tw_arena *arena, int64_t job, tw_book_tick tick)
{
    tw_book_result result = tw_book_check_words(arena, tick.step, "the name of the step", false);
    if (result.answer != TW_BOOK_DONE) return result;
    tw_ask ask = tw_ask_begin(book, "INSERT INTO ticks (job, step, done, made) VALUES (?, ?, ?, ?)"
                              " ON CONFLICT (job, step) DO UPDATE SET done = excluded.done, made = excluded.made");
    tw_ask_whole(&ask, job);
    tw_ask_name(&ask, tick.step);
    tw_ask_whole(&ask, tick.done);
    tw_ask_whole(&ask, tick.when_s);
    return end_of_note(&ask, arena, "job");
}

tw_book_result tw_book_tick_list(tw_book *book, tw_arena *arena, int64_t job, tw_book_ticks *list)
{
    tw_ask ask = tw_ask_begin(book, "SELECT step, done, made FROM ticks WHERE job = ? ORDER BY id");
    tw_ask_whole(&ask, job);
    tw_book_ticks got = {0};
    for (size_t room = 0; tw_ask_row(&ask); got.count++) {
        tw_array_make_room(arena, &got.items, got.count, &room, sizeof *got.items);
        got.items[got.count] = (tw_book_tick){
            .step = tw_ask_words(&ask, arena, 0), .done = tw_ask_get(&ask, 1) != 0, .when_s = tw_ask_get(&ask, 2),
        };
    }
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE) *list = got;
    return result;
}

/* ---- settings ---- */

tw_book_result tw_book_setting_set(tw_book *book, tw_arena *arena, const char *key, tw_text value)
{
    tw_book_result result = tw_book_check_words(arena, key, "the name of the setting", false);
    if (result.answer == TW_BOOK_DONE) result = tw_book_check_text(arena, value);
    if (result.answer != TW_BOOK_DONE) return result;
    tw_ask ask = tw_ask_begin(book, "INSERT INTO settings (key, value) VALUES (?, ?)"
                              " ON CONFLICT (key) DO UPDATE SET value = excluded.value");
    tw_ask_name(&ask, key);
    tw_ask_bytes(&ask, value);
    return tw_ask_end(&ask, arena);
}

tw_book_result tw_book_setting(tw_book *book, tw_arena *arena, const char *key, tw_text *value)
{
    tw_ask ask = tw_ask_begin(book, "SELECT value FROM settings WHERE key = ?");
    tw_ask_name(&ask, key);
    bool there = tw_ask_row(&ask);
    tw_text got = there ? tw_ask_text(&ask, arena, 0) : (tw_text){0};
    tw_book_result result = tw_ask_end(&ask, arena);
    if (result.answer == TW_BOOK_DONE && !there)
        return tw_book_say(arena, TW_BOOK_NOT_THERE, "the setting %s was never made", key);
    if (result.answer == TW_BOOK_DONE) *value = got;
    return result;
}
