// SPDX-License-Identifier: GPL-3.0-or-later
/* The book under kill -9. A child makes, brings up to date or saves in a book and says through a pipe what was acknowledged; it
 * is killed at a random moment (seeded). After each kill the book must open, be sound, and hold all that was acknowledged.
 *
 * The text of a revision follows from its number, so that a mixed-up one shows. Writes TAP. */
#define _GNU_SOURCE
#include "check.h"

#include <signal.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include "layout_0.h"
#include "serve/book.h"

#define SAVES_LEAST 200  // acknowledged, over all kills
#define KILLS_LEAST 40
#define FRESH_KILLS 30
#define OLDER_KILLS 30

static char home[64];
static int  failures;

static bool expect(bool good, const char *what, int round)
{
    if (!good) {
        printf("# after kill %d: %s\n", round, what);
        failures++;
    }
    return good;
}

/* From 20 bytes to 60 kB, so that some saves take one page and some many. */
static tw_text text_of_number(tw_arena *arena, int number)
{
    check_seed seed = { (uint64_t)number };
    size_t length = 20 + check_random(&seed) % (number % 3 == 0 ? 60000 : 2000);
    char *bytes = tw_arena_take(arena, length, 1);
    for (size_t i = 0; i < length; i++) bytes[i] = (char)check_random(&seed);
    return (tw_text){ bytes, length };
}

/* ---- the child ---- */

static void acknowledge(int pipe_end, int32_t number)
{
    if (write(pipe_end, &number, sizeof number) != (ssize_t)sizeof number) _exit(3);
}

/* Saves without end; closes and opens the book now and then, so that kills meet that too. */
static _Noreturn void save_until_killed(const char *path, int64_t job, int newest, int pipe_end)
{
    for (;;) {
        tw_arena arena = {0};
        tw_book *book = NULL;
        if (tw_book_open(&arena, path, &book).answer != TW_BOOK_DONE) _exit(4);
        for (int i = 0; i < 7; i++) {
            tw_book_change change = { .text = text_of_number(&arena, newest + 1), .when_s = newest, .why = "" };
            if (tw_book_save(book, &arena, TW_BOOK_JOBS, job, newest, change, &newest).answer != TW_BOOK_DONE) _exit(5);
            acknowledge(pipe_end, newest);
        }
        tw_book_close(book);
        tw_arena_finish(&arena);
    }
}

/* Opens the book, which makes it or brings it up to date, adds a job, waits to be killed. */
static _Noreturn void add_one(const char *path, int pipe_end)
{
    tw_arena arena = {0};
    tw_book *book = NULL;
    int64_t id = 0;
    if (tw_book_open(&arena, path, &book).answer != TW_BOOK_DONE) _exit(4);
    tw_book_change change = { .text = text_of_number(&arena, 1), .when_s = 1, .why = "" };
    if (tw_book_add(book, &arena, TW_BOOK_JOBS, "cider press", change, &id).answer != TW_BOOK_DONE) _exit(5);
    acknowledge(pipe_end, (int32_t)id);
    for (;;) pause();
}

/* ---- the parent ---- */

/* Starts a child (job 0: add_one), lets it run for so long, kills it. Returns the last number that was acknowledged, else `last`;
 * *count grows by how many were. */
static int run_and_kill(const char *path, int64_t job, int last, uint64_t run_us, int *count, int round)
{
    int ends[2];
    if (pipe(ends) != 0) exit(3);
    fflush(stdout);
    pid_t child = fork();
    if (child == 0) {
        close(ends[0]);
        if (job == 0) add_one(path, ends[1]);
        save_until_killed(path, job, last, ends[1]);
    }
    close(ends[1]);
    usleep((useconds_t)run_us);
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    expect(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL, "the child ended by itself, with a failure", round);
    for (int32_t number; read(ends[0], &number, sizeof number) == (ssize_t)sizeof number; ++*count) last = number;
    close(ends[0]);
    return last;
}

/* Asked of SQLite itself, past the book. */
static bool sound(const char *path)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *ask = NULL;
    bool good = sqlite3_open(path, &db) == SQLITE_OK && sqlite3_prepare_v2(db, "PRAGMA integrity_check", -1, &ask, NULL) == SQLITE_OK
        && sqlite3_step(ask) == SQLITE_ROW && strcmp((const char *)sqlite3_column_text(ask, 0), "ok") == 0;
    sqlite3_finalize(ask);
    sqlite3_close(db);
    return good;
}

static tw_book *opened(tw_arena *arena, const char *path, int round)
{
    tw_book *book = NULL;
    tw_book_result result = tw_book_open(arena, path, &book);
    expect(result.answer == TW_BOOK_DONE, result.why, round);
    expect(sound(path), "integrity_check finds damage", round);
    return book;
}

static bool holds(tw_book *book, tw_arena *arena, int64_t job, int number, tw_text wanted)
{
    tw_text text = {0};
    return tw_book_read(book, arena, TW_BOOK_JOBS, job, number, &text, NULL).answer == TW_BOOK_DONE && text.length == wanted.length
        && memcmp(text.bytes, wanted.bytes, wanted.length) == 0;
}

/* Every revision up to the newest; one more than was acknowledged may be there: its answer was cut off. */
static int newest_after_kill(const char *path, int64_t job, int acknowledged, int round)
{
    tw_arena arena = {0};
    tw_book_entry entry = { .newest = acknowledged };
    tw_book *book = opened(&arena, path, round);
    if (book) {
        expect(tw_book_look(book, &arena, TW_BOOK_JOBS, job, &entry).answer == TW_BOOK_DONE, "the job is gone", round);
        expect(entry.newest >= acknowledged, "an acknowledged revision is gone", round);
        expect(entry.newest <= acknowledged + 1, "there are revisions that nobody saved", round);
        for (int number = 1; number <= entry.newest; number++)
            expect(holds(book, &arena, job, number, text_of_number(&arena, number)), "a revision has another text", round);
    }
    tw_book_close(book);
    tw_arena_finish(&arena);
    return entry.newest;
}

static int64_t first_job(const char *path)
{
    tw_arena arena = {0};
    int64_t id = 0;
    tw_book *book = opened(&arena, path, 0);
    tw_book_change change = { .text = text_of_number(&arena, 1), .why = "" };
    if (!book || tw_book_add(book, &arena, TW_BOOK_JOBS, "net frame", change, &id).answer != TW_BOOK_DONE) exit(3);
    tw_book_close(book);
    tw_arena_finish(&arena);
    return id;
}

static void saves_outlive_kills(const char *path)
{
    check_seed seed = { 200 };
    int64_t job = first_job(path);
    int newest = 1, count = 0, kills = 0, cut_off = 0;
    for (; (count < SAVES_LEAST || kills < KILLS_LEAST) && failures == 0; kills++) {
        int acknowledged = run_and_kill(path, job, newest, check_random(&seed) % 150000, &count, kills + 1);
        newest = newest_after_kill(path, job, acknowledged, kills + 1);
        cut_off += newest > acknowledged;
    }
    printf("# %d saves acknowledged over %d kills; %d more were on the disk when their answer was cut off\n", count, kills, cut_off);
}

static void new_book_outlives_kills(const char *stem)
{
    check_seed seed = { 7 };
    int made = 0;
    for (int round = 1; round <= FRESH_KILLS; round++) {
        tw_arena arena = {0};
        const char *path = tw_format(&arena, "%s%d", stem, round);
        int id = run_and_kill(path, 0, 0, check_random(&seed) % 60000, &made, round);
        tw_book *book = opened(&arena, path, round);
        if (book && id > 0) expect(holds(book, &arena, id, 1, text_of_number(&arena, 1)), "the acknowledged job is gone", round);
        tw_book_close(book);
        tw_arena_finish(&arena);
    }
    printf("# %d of %d children had added their job\n", made, FRESH_KILLS);
}

static void put_older_book(const char *path)
{
    sqlite3 *db = NULL;
    if (sqlite3_open(path, &db) != SQLITE_OK || sqlite3_exec(db, LAYOUT_0, NULL, NULL, NULL) != SQLITE_OK) exit(3);
    sqlite3_close(db);
}

/* Both texts of the older book. */
static bool holds_older(tw_book *book, tw_arena *arena)
{
    return holds(book, arena, 3, 1, (tw_text){ "old\0\xff", 5 }) && holds(book, arena, 3, 2, tw_text_of("new"));
}

static void older_book_outlives_kills(const char *stem)
{
    check_seed seed = { 11 };
    int added = 0;
    for (int round = 1; round <= OLDER_KILLS; round++) {
        tw_arena arena = {0};
        const char *path = tw_format(&arena, "%s%d", stem, round);
        put_older_book(path);
        run_and_kill(path, 0, 0, check_random(&seed) % 60000, &added, round);
        tw_book *book = opened(&arena, path, round);
        if (book) expect(holds_older(book, &arena), "a text of the older book is gone", round);
        tw_book_close(book);
        book = opened(&arena, tw_format(&arena, "%s.before-1", path), round);  // the copy that was made first
        if (book) expect(holds_older(book, &arena), "the copy lacks a text of the older book", round);
        tw_book_close(book);
        tw_arena_finish(&arena);
    }
    printf("# %d of %d children had added their job\n", added, OLDER_KILLS);
}

typedef struct trial { const char *name, *path; void (*run)(const char *path); } trial;

static int run_all(const trial trials[], int count)
{
    int failed = 0;
    printf("1..%d\n", count);
    for (int i = 0; i < count; i++) {
        tw_arena arena = {0};
        failures = 0;
        trials[i].run(tw_format(&arena, "%s/%s", home, trials[i].path));
        printf("%s %d - %s\n", failures == 0 ? "ok" : "not ok", i + 1, trials[i].name);
        failed += failures != 0;
        tw_arena_finish(&arena);
    }
    return failed;
}

int main(void)
{
    strcpy(home, "/tmp/tw-crash-XXXXXX");
    if (!mkdtemp(home)) return 3;
    const trial trials[] = {
        { "every acknowledged revision outlives the kill", "book", saves_outlive_kills },
        { "new book outlives the kill", "fresh", new_book_outlives_kills },
        { "older book outlives the kill, and so does its copy", "older", older_book_outlives_kills },
    };
    int failed = run_all(trials, 3);
    char command[128];
    snprintf(command, sizeof command, "rm -rf %s", home);
    return system(command) != 0 || failed > 0;
}
