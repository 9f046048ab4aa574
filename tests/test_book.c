// SPDX-License-Identifier: GPL-3.0-or-later
/* The book: nothing saved is lost, nothing is overwritten unseen, and every failure says what to do. */
#define _GNU_SOURCE
#include "check.h"

#include <assert.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "failing_disk.h"
#include "job/job.h"
#include "layout_0.h"
#include "serve/book.h"

static_assert(TW_BOOK_TEXT_MOST == TW_TEXT_MOST_BYTES, "what can be read can be kept");

static tw_arena arena;
static char home[64];
static tw_book *book;  // open in most tests

static char *path(const char *name) { return tw_format(&arena, "%s/%s", home, name); }

#define CHECK_DONE(call) check_done((call), __FILE__, __LINE__)
static void check_done(tw_book_result result, const char *file, int line)
{
    if (result.answer == TW_BOOK_DONE && result.why[0] == '\0') return;
    print_error("not done: %s\n", result.why);
    _fail(file, line);
}

/* The answer, with a part of its sentence. */
#define CHECK_SAYS(call, answer, part) check_says((call), (answer), (part), __FILE__, __LINE__)
static void check_says(tw_book_result result, tw_book_answer answer, const char *part, const char *file, int line)
{
    check_holds(result.why, part, file, line);
    if (result.answer == answer) return;
    print_error("answer %d, not %d: %s\n", (int)result.answer, (int)answer, result.why);
    _fail(file, line);
}

static void open_again(void)
{
    tw_book_close(book);
    CHECK_DONE(tw_book_open(&arena, path("book"), &book));
}

static int begin(void **state)
{
    (void)state;
    strcpy(home, "/tmp/tw-book-XXXXXX");
    if (!mkdtemp(home)) return 1;
    open_again();
    return 0;
}

static int finish(void **state)
{
    (void)state;
    tw_book_close(book);
    book = NULL;
    char command[256];
    snprintf(command, sizeof command, "chmod -R u+rwx %s && rm -rf %s", home, home);
    int code = system(command);
    tw_arena_finish(&arena);
    return code;
}

static tw_book_change change(const char *text, int64_t when_s, const char *why)
{
    return (tw_book_change){ .text = tw_text_of(text), .when_s = when_s, .why = why };
}

/* A job with revision 1. */
static int64_t added(const char *name, const char *text)
{
    int64_t id = 0;
    CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_JOBS, name, change(text, 1000, "begun"), &id));
    return id;
}

static int saved(int64_t id, int expected, const char *text)
{
    int number = 0;
    CHECK_DONE(tw_book_save(book, &arena, TW_BOOK_JOBS, id, expected, change(text, 1000 + expected, ""), &number));
    return number;
}

static const char *text_of(tw_book *from, int64_t id, int number)
{
    tw_text text = {0};
    CHECK_DONE(tw_book_read(from, &arena, TW_BOOK_JOBS, id, number, &text, NULL));
    return text.bytes;
}

static int newest_of(int64_t id)
{
    tw_book_entry entry = {0};
    CHECK_DONE(tw_book_look(book, &arena, TW_BOOK_JOBS, id, &entry));
    return entry.newest;
}

static tw_text file_bytes(const char *name)
{
    FILE *file = fopen(path(name), "rb");
    if (!file) return (tw_text){0};
    char *bytes = tw_arena_take(&arena, 1 << 20, 1);
    size_t length = fread(bytes, 1, 1 << 20, file);
    fclose(file);
    return (tw_text){ bytes, length };
}

static void put_file(const char *name, const char *bytes, size_t length)
{
    FILE *file = fopen(path(name), "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    fclose(file);
}

static bool same(tw_text a, tw_text b) { return a.length == b.length && (a.length == 0 || memcmp(a.bytes, b.bytes, a.length) == 0); }

/* Straight to SQLite, past the book. */
static void run_sql(const char *name, const char *sql)
{
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(path(name), &db), SQLITE_OK);
    char *why = NULL;
    if (sqlite3_exec(db, sql, NULL, NULL, &why) != SQLITE_OK) fail_msg("%s", why);
    assert_int_equal(sqlite3_close(db), SQLITE_OK);
}

/* ---- texts ---- */

static void saved_text_is_there_after_reopening(void **state)
{
    (void)state;
    int64_t id = added("net frame of the weir keeper", "job: net frame\n");
    assert_int_equal(saved(id, 1, "job: net frame, wider\n"), 2);
    open_again();
    assert_string_equal(text_of(book, id, 0), "job: net frame, wider\n");
    assert_string_equal(text_of(book, id, 1), "job: net frame\n");
}

static void texts_are_kept_byte_for_byte(void **state)
{
    (void)state;
    check_seed seed = { 20 };
    char bytes[256 + 5000];
    for (int i = 0; i < 256; i++) bytes[i] = (char)i;  // every value, with zeros and what is no UTF-8
    for (size_t i = 256; i < sizeof bytes; i++) bytes[i] = (char)check_random(&seed);
    const size_t lengths[] = { 0, 1, 256, sizeof bytes };
    for (size_t i = 0; i < 4; i++) {
        tw_book_change raw = { .text = { lengths[i] ? bytes : NULL, lengths[i] }, .when_s = 5, .why = "" };
        int64_t id = 0;
        CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_JOBS, "bytes", raw, &id));
        tw_text got = {0};
        tw_book_revision about = {0};
        CHECK_DONE(tw_book_read(book, &arena, TW_BOOK_JOBS, id, 1, &got, &about));
        assert_true(same(got, raw.text));
        assert_int_equal(about.bytes, lengths[i]);
    }
}

static void longest_text_is_taken_and_a_longer_one_refused(void **state)
{
    (void)state;
    char *bytes = tw_arena_take(&arena, TW_BOOK_TEXT_MOST + 1, 1);
    memset(bytes, 'a', TW_BOOK_TEXT_MOST + 1);
    int64_t id = 0;
    tw_book_change longest = { .text = { bytes, TW_BOOK_TEXT_MOST }, .why = "" };
    CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_JOBS, "long", longest, &id));
    longest.text.length++;
    int number = 0;
    CHECK_SAYS(tw_book_save(book, &arena, TW_BOOK_JOBS, id, 1, longest, &number), TW_BOOK_REFUSED, "4194305 bytes; it may have 4194304");
    assert_int_equal(newest_of(id), 1);
}

static void every_revision_is_listed_newest_first(void **state)
{
    (void)state;
    int64_t id = added("cider press", "one");
    int number = 0;
    CHECK_DONE(tw_book_save(book, &arena, TW_BOOK_JOBS, id, 1, change("two, longer", 2000, "post 2 mm thicker"), &number));
    tw_book_revisions list = {0};
    CHECK_DONE(tw_book_history(book, &arena, TW_BOOK_JOBS, id, &list));
    assert_int_equal(list.count, 2);
    assert_int_equal(list.items[0].number, 2);
    assert_int_equal(list.items[0].when_s, 2000);
    assert_int_equal(list.items[0].bytes, 11);
    assert_string_equal(list.items[0].why, "post 2 mm thicker");
    assert_string_equal(list.items[1].why, "begun");
}

static void what_is_not_there_is_said(void **state)
{
    (void)state;
    int64_t id = added("cider press", "one");
    tw_text text = {0};
    int number = 0;
    CHECK_SAYS(tw_book_read(book, &arena, TW_BOOK_JOBS, id, 2, &text, NULL), TW_BOOK_NOT_THERE, "the job has no revision 2");
    CHECK_SAYS(tw_book_read(book, &arena, TW_BOOK_JOBS, id + 1, 0, &text, NULL), TW_BOOK_NOT_THERE, "there is no such job");
    CHECK_SAYS(tw_book_save(book, &arena, TW_BOOK_JOBS, id + 1, 1, change("x", 1, ""), &number), TW_BOOK_NOT_THERE, "there is no such job");
    CHECK_SAYS(tw_book_rename(book, &arena, TW_BOOK_SHOPS, 7, "x"), TW_BOOK_NOT_THERE, "there is no such shop");
    CHECK_SAYS(tw_book_bin(book, &arena, TW_BOOK_JOBS, id + 1, 1), TW_BOOK_NOT_THERE, "there is no such job");
    assert_null(text.bytes);
    assert_int_equal(number, 0);
}

static void names_are_checked(void **state)
{
    (void)state;
    int64_t id = 0;
    CHECK_SAYS(tw_book_add(book, &arena, TW_BOOK_JOBS, "", change("x", 1, ""), &id), TW_BOOK_REFUSED, "the name is empty");
    CHECK_SAYS(tw_book_add(book, &arena, TW_BOOK_JOBS, "  ", change("x", 1, ""), &id), TW_BOOK_REFUSED, "the name is empty");
    CHECK_SAYS(tw_book_add(book, &arena, TW_BOOK_JOBS, "a\nb", change("x", 1, ""), &id), TW_BOOK_REFUSED, "control character");
    char *name = tw_arena_take(&arena, TW_BOOK_WORDS_MOST + 2, 1);
    memset(name, 'n', TW_BOOK_WORDS_MOST + 1);
    CHECK_SAYS(tw_book_add(book, &arena, TW_BOOK_JOBS, name, change("x", 1, ""), &id), TW_BOOK_REFUSED, "the name has 1001 bytes; it may have 1000");
    assert_int_equal(id, 0);
    name[TW_BOOK_WORDS_MOST] = '\0';
    CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_JOBS, name, change("x", 1, ""), &id));
}

/* ---- two writers ---- */

static void second_of_two_writers_gets_a_conflict_and_nothing_is_overwritten(void **state)
{
    (void)state;
    int64_t id = added("net frame", "as both saw it");
    tw_book *other = NULL;
    CHECK_DONE(tw_book_open(&arena, path("book"), &other));
    assert_int_equal(saved(id, 1, "mine"), 2);
    int number = 0;
    CHECK_SAYS(tw_book_save(other, &arena, TW_BOOK_JOBS, id, 1, change("yours", 3000, ""), &number), TW_BOOK_CONFLICT,
               "this change of net frame was made to revision 1, but revision 2 has been saved since; nothing was overwritten");
    assert_int_equal(number, 2);
    assert_int_equal(newest_of(id), 2);
    assert_string_equal(text_of(other, id, 0), "mine");
    CHECK_DONE(tw_book_save(other, &arena, TW_BOOK_JOBS, id, 2, change("yours", 3000, ""), &number));  // seen, and saved over it
    assert_int_equal(number, 3);
    assert_string_equal(text_of(book, id, 2), "mine");
    tw_book_close(other);
}

static void branch_keeps_both_sides_of_a_conflict(void **state)
{
    (void)state;
    int64_t id = added("net frame", "as both saw it"), branch = 0;
    saved(id, 1, "mine");
    CHECK_DONE(tw_book_branch(book, &arena, TW_BOOK_JOBS, id, 1, "net frame, yours", change("yours", 3000, "longer"), &branch));
    assert_string_equal(text_of(book, id, 0), "mine");
    assert_string_equal(text_of(book, branch, 0), "yours");
    assert_string_equal(text_of(book, branch, 1), "as both saw it");
    tw_book_entry entry = {0};
    CHECK_DONE(tw_book_look(book, &arena, TW_BOOK_JOBS, branch, &entry));
    assert_int_equal(entry.from, id);
    assert_int_equal(entry.from_number, 1);
    assert_int_equal(entry.newest, 2);
}

static void revision_that_was_never_saved_is_a_conflict(void **state)
{
    (void)state;
    int64_t id = added("net frame", "one");
    int number = 0;
    CHECK_SAYS(tw_book_save(book, &arena, TW_BOOK_JOBS, id, 5, change("x", 1, ""), &number), TW_BOOK_CONFLICT, "the newest in the book is 1");
    assert_int_equal(number, 1);
}

/* Two programs save one after the other and at once: each takes a conflict by looking again. Every acknowledged text is there
 * once, and the numbers have no gap. */
static void two_programs_that_save_at_once_lose_nothing(void **state)
{
    (void)state;
    enum { EACH = 25 };
    int64_t id = added("cider press", "start");
    tw_book_close(book);  // no handle may cross a fork
    book = NULL;
    pid_t children[2];
    for (int who = 0; who < 2; who++) {
        children[who] = fork();
        if (children[who] != 0) continue;
        tw_book *own = NULL;
        if (tw_book_open(&arena, path("book"), &own).answer != TW_BOOK_DONE) _exit(1);
        for (int i = 0, newest = 1; i < EACH;) {
            tw_book_result result = tw_book_save(own, &arena, TW_BOOK_JOBS, id, newest, change(tw_format(&arena, "%d.%d", who, i), i, ""), &newest);
            if (result.answer == TW_BOOK_DONE) i++;
            else if (result.answer != TW_BOOK_CONFLICT) _exit(2);
        }
        tw_book_close(own);
        _exit(0);
    }
    for (int who = 0; who < 2; who++) {
        int status = -1;
        waitpid(children[who], &status, 0);
        assert_int_equal(status, 0);
    }
    open_again();
    assert_int_equal(newest_of(id), 1 + 2 * EACH);
    int next[2] = { 0, 0 };
    for (int number = 2; number <= 1 + 2 * EACH; number++) {
        const char *text = text_of(book, id, number);
        int who = text[0] - '0';
        assert_string_equal(text, tw_format(&arena, "%d.%d", who, next[who]++));
    }
}

static void book_in_which_another_program_writes_is_waited_for_two_seconds(void **state)
{
    (void)state;
    int64_t id = added("cider press", "one");
    sqlite3 *other = NULL;
    assert_int_equal(sqlite3_open(path("book"), &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    struct timespec from, to;
    clock_gettime(CLOCK_MONOTONIC, &from);
    int number = 0;
    CHECK_SAYS(tw_book_save(book, &arena, TW_BOOK_JOBS, id, 1, change("two", 1, ""), &number), TW_BOOK_BUSY,
               "another program is writing in the book");
    clock_gettime(CLOCK_MONOTONIC, &to);
    double waited_s = (double)(to.tv_sec - from.tv_sec) + 1e-9 * (double)(to.tv_nsec - from.tv_nsec);
    assert_true(waited_s > 1.5 && waited_s < 10.0);
    assert_string_equal(text_of(book, id, 0), "one");  // reading goes on meanwhile
    assert_int_equal(sqlite3_exec(other, "ROLLBACK", NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(other);
    assert_int_equal(saved(id, 1, "two"), 2);
}

/* ---- list, bin, copy, shops ---- */

static const char *names_in(tw_book_shelf shelf, bool binned, const char *words)
{
    tw_book_entries list = {0};
    CHECK_DONE(tw_book_list(book, &arena, shelf, binned, tw_text_of(words), &list));
    const char *names = "";
    for (size_t i = 0; i < list.count; i++) names = tw_format(&arena, "%s%s%s", names, i > 0 ? ", " : "", list.items[i].name);
    return names;
}

static void list_has_the_last_changed_first(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    added("press", "x");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "press, frame");
    saved(id, 1, "y");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "frame, press");
    assert_string_equal(names_in(TW_BOOK_SHOPS, false, ""), "");
}

static void search_finds_words_in_names_and_newest_texts(void **state)
{
    (void)state;
    int64_t id = added("Net frame", "timber: ash\n");
    added("cider press", "timber: oak\n\xc3\x96l");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "net"), "Net frame");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "OAK"), "cider press");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "\xc3\x96l"), "cider press");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "timber: "), "cider press, Net frame");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "%"), "");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "elm"), "");
    saved(id, 1, "timber: elm\n");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "ash"), "");  // only in an older revision
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "elm"), "Net frame");
}

static void search_looks_beyond_a_zero_byte(void **state)
{
    (void)state;
    int64_t id = 0;
    tw_book_change raw = { .text = { "front\0hidden", 12 }, .why = "" };
    CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_JOBS, "odd", raw, &id));
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "hidden"), "odd");
}

static void binned_job_comes_back_whole(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    saved(id, 1, "y");
    CHECK_DONE(tw_book_bin(book, &arena, TW_BOOK_JOBS, id, 4000));
    CHECK_DONE(tw_book_bin(book, &arena, TW_BOOK_JOBS, id, 5000));
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "");
    assert_string_equal(names_in(TW_BOOK_JOBS, true, ""), "frame");
    tw_book_entry entry = {0};
    CHECK_DONE(tw_book_look(book, &arena, TW_BOOK_JOBS, id, &entry));
    assert_true(entry.binned);
    assert_int_equal(entry.binned_s, 4000);
    assert_int_equal(saved(id, 2, "z"), 3);  // what was open elsewhere can still be saved
    CHECK_DONE(tw_book_unbin(book, &arena, TW_BOOK_JOBS, id));
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "frame");
    assert_string_equal(text_of(book, id, 1), "x");
    assert_string_equal(text_of(book, id, 3), "z");
}

static void renamed_job_keeps_its_revisions(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    CHECK_DONE(tw_book_rename(book, &arena, TW_BOOK_JOBS, id, "wide frame"));
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "wide frame");
    assert_string_equal(text_of(book, id, 1), "x");
}

static void copy_tells_where_it_came_from(void **state)
{
    (void)state;
    int64_t id = added("frame", "x"), copy = 0;
    saved(id, 1, "y");
    CHECK_DONE(tw_book_copy(book, &arena, TW_BOOK_JOBS, id, 1, "frame of last year", 9000, &copy));
    assert_string_equal(text_of(book, copy, 0), "x");
    tw_book_revisions list = {0};
    CHECK_DONE(tw_book_history(book, &arena, TW_BOOK_JOBS, copy, &list));
    assert_int_equal(list.count, 1);
    assert_string_equal(list.items[0].why, "copy of revision 1 of frame");
    CHECK_SAYS(tw_book_copy(book, &arena, TW_BOOK_JOBS, id, 3, "none", 9000, &copy), TW_BOOK_NOT_THERE, "no revision 3");
    assert_string_equal(names_in(TW_BOOK_JOBS, false, "none"), "");  // taken back whole
}

static void revision_notes_the_newest_shop(void **state)
{
    (void)state;
    int64_t shop = 0, id = 0;
    int number = 0;
    CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_SHOPS, "shed", change("ratio: 2", 1, ""), &shop));
    tw_book_change with_shop = { .text = tw_text_of("x"), .shop = shop, .when_s = 2, .why = "" };
    CHECK_DONE(tw_book_add(book, &arena, TW_BOOK_JOBS, "frame", with_shop, &id));
    CHECK_DONE(tw_book_save(book, &arena, TW_BOOK_SHOPS, shop, 1, change("ratio: 1", 3, "hand-held"), &number));
    CHECK_DONE(tw_book_save(book, &arena, TW_BOOK_JOBS, id, 1, with_shop, &number));
    tw_book_revisions list = {0};
    CHECK_DONE(tw_book_history(book, &arena, TW_BOOK_JOBS, id, &list));
    assert_int_equal(list.items[0].shop, shop);
    assert_int_equal(list.items[0].shop_number, 2);
    assert_int_equal(list.items[1].shop_number, 1);
    with_shop.shop = shop + 1;
    CHECK_SAYS(tw_book_save(book, &arena, TW_BOOK_JOBS, id, 2, with_shop, &number), TW_BOOK_NOT_THERE, "there is no such shop");
    assert_int_equal(newest_of(id), 2);
}

/* ---- at the machine ---- */

static void measured_values_stay_in_their_order(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    CHECK_DONE(tw_book_measured(book, &arena, id, (tw_book_measure){ 1, "pieces.post.thickness", 37.85, 50, "three places" }));
    CHECK_DONE(tw_book_measured(book, &arena, id, (tw_book_measure){ 1, "pieces.post.thickness", 37.9, 40, "" }));
    open_again();
    tw_book_measures list = {0};
    CHECK_DONE(tw_book_ledger(book, &arena, id, &list));
    assert_int_equal(list.count, 2);
    assert_true(list.items[0].value == 37.85 && list.items[1].value == 37.9);
    assert_string_equal(list.items[0].note, "three places");
    assert_string_equal(list.items[1].key, "pieces.post.thickness");
    assert_int_equal(list.items[1].when_s, 40);
}

static void value_that_is_no_number_or_of_no_revision_is_refused(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    CHECK_SAYS(tw_book_measured(book, &arena, id, (tw_book_measure){ 1, "a", NAN, 1, "" }), TW_BOOK_REFUSED, "is no number");
    CHECK_SAYS(tw_book_measured(book, &arena, id, (tw_book_measure){ 1, "", 1.0, 1, "" }), TW_BOOK_REFUSED, "is empty");
    CHECK_SAYS(tw_book_measured(book, &arena, id, (tw_book_measure){ 2, "a", 1.0, 1, "" }), TW_BOOK_NOT_THERE, "no such revision of the job");
    CHECK_SAYS(tw_book_tick_set(book, &arena, id + 1, (tw_book_tick){ "cut 1", true, 1 }), TW_BOOK_NOT_THERE, "no such job");
    tw_book_measures list = {0};
    CHECK_DONE(tw_book_ledger(book, &arena, id, &list));
    assert_int_equal(list.count, 0);
}

static void tick_can_be_set_and_taken_back(void **state)
{
    (void)state;
    int64_t id = added("frame", "x"), other = added("press", "x");
    CHECK_DONE(tw_book_tick_set(book, &arena, id, (tw_book_tick){ "card 1", true, 10 }));
    CHECK_DONE(tw_book_tick_set(book, &arena, id, (tw_book_tick){ "card 2", true, 20 }));
    CHECK_DONE(tw_book_tick_set(book, &arena, id, (tw_book_tick){ "card 1", false, 30 }));
    open_again();
    tw_book_ticks list = {0};
    CHECK_DONE(tw_book_tick_list(book, &arena, id, &list));
    assert_int_equal(list.count, 2);
    assert_string_equal(list.items[0].step, "card 1");
    assert_false(list.items[0].done);
    assert_int_equal(list.items[0].when_s, 30);
    assert_true(list.items[1].done);
    CHECK_DONE(tw_book_tick_list(book, &arena, other, &list));
    assert_int_equal(list.count, 0);
}

static void setting_is_kept_and_replaced(void **state)
{
    (void)state;
    tw_text value = {0};
    CHECK_SAYS(tw_book_setting(book, &arena, "figures", &value), TW_BOOK_NOT_THERE, "the setting figures was never made");
    CHECK_DONE(tw_book_setting_set(book, &arena, "figures", tw_text_of("mm")));
    CHECK_DONE(tw_book_setting_set(book, &arena, "figures", tw_text_of("in 1/64")));
    CHECK_DONE(tw_book_setting(book, &arena, "figures", &value));
    assert_string_equal(value.bytes, "in 1/64");
}

/* ---- files that are no book, or a damaged one ---- */

static tw_book_result try_open(const char *name)
{
    tw_book *none = NULL;
    tw_book_result result = tw_book_open(&arena, path(name), &none);
    if (result.answer == TW_BOOK_DONE) tw_book_close(none);
    else assert_null(none);
    return result;
}

static void file_of_another_kind_is_refused_and_not_touched(void **state)
{
    (void)state;
    const char text[] = "job: a plain file that a maker named by mistake, long enough to be looked at as a head of one hundred bytes\n";
    put_file("plain", text, sizeof text - 1);
    CHECK_SAYS(try_open("plain"), TW_BOOK_REFUSED, "not a book of jobs; it was not touched");
    assert_true(same(file_bytes("plain"), (tw_text){ text, sizeof text - 1 }));
    put_file("short", "x", 1);
    CHECK_SAYS(try_open("short"), TW_BOOK_REFUSED, "not a book of jobs");
    assert_true(same(file_bytes("short"), tw_text_of("x")));
}

static void database_of_another_program_is_refused_and_not_touched(void **state)
{
    (void)state;
    run_sql("theirs", "PRAGMA journal_mode = WAL; CREATE TABLE jobs (id); INSERT INTO jobs VALUES (1)");
    tw_text before = file_bytes("theirs");
    CHECK_SAYS(try_open("theirs"), TW_BOOK_REFUSED, "not a book of jobs");
    assert_true(same(file_bytes("theirs"), before));
    assert_int_not_equal(access(path("theirs-wal"), F_OK), 0);
    assert_int_not_equal(access(path("theirs-shm"), F_OK), 0);
}

static void folder_and_missing_folder_are_named(void **state)
{
    (void)state;
    assert_int_equal(mkdir(path("folder"), 0700), 0);
    CHECK_SAYS(try_open("folder"), TW_BOOK_REFUSED, "is a folder, not a book");
    CHECK_SAYS(try_open("nowhere/book"), TW_BOOK_FAILED, "the folder of the book");
    tw_book *none = NULL;
    CHECK_SAYS(tw_book_open(&arena, "", &none), TW_BOOK_REFUSED, "the path of the book is empty");
}

static void names_that_mean_something_to_sqlite_are_plain_paths(void **state)
{
    (void)state;
    char *back = getcwd(NULL, 0);
    assert_int_equal(chdir(home), 0);
    tw_book *odd = NULL;
    CHECK_DONE(tw_book_open(&arena, ":memory:", &odd));
    tw_book_close(odd);
    CHECK_DONE(tw_book_open(&arena, "file:odd?mode=memory", &odd));
    tw_book_close(odd);
    assert_int_equal(chdir(back), 0);
    free(back);
    assert_int_equal(access(path(":memory:"), F_OK), 0);
    assert_int_equal(access(path("file:odd?mode=memory"), F_OK), 0);
}

static void empty_file_becomes_a_book(void **state)
{
    (void)state;
    put_file("empty", "", 0);
    CHECK_DONE(try_open("empty"));
    CHECK_DONE(try_open("empty"));
}

static void newer_book_is_refused_and_left(void **state)
{
    (void)state;
    added("frame", "x");
    tw_book_close(book);
    book = NULL;
    run_sql("book", "PRAGMA user_version = 7");
    tw_text before = file_bytes("book");
    CHECK_SAYS(try_open("book"), TW_BOOK_REFUSED, "was written by a newer Tuskwright (its layout is 7, this program knows up to 1)");
    assert_true(same(file_bytes("book"), before));
}

static void book_with_other_tables_is_refused(void **state)
{
    (void)state;
    tw_book_close(book);
    book = NULL;
    run_sql("book", "CREATE TRIGGER sly AFTER INSERT ON revisions BEGIN DELETE FROM revisions; END");
    CHECK_SAYS(try_open("book"), TW_BOOK_BROKEN, "are not those of a book");
}

static void row_that_belongs_to_nothing_is_found(void **state)
{
    (void)state;
    tw_book_close(book);
    book = NULL;
    run_sql("book", "PRAGMA foreign_keys = OFF; INSERT INTO ticks (job, step, done, made) VALUES (99, 'a', 1, 1)");
    CHECK_SAYS(try_open("book"), TW_BOOK_BROKEN, "is damaged");
}

/* Cut off at each quarter page: refused with a sentence, and the file left as it lies. */
static void truncated_book_is_refused(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    for (int i = 1; i < 30; i++) saved(id, i, tw_format(&arena, "%s%0900d", "revision ", i));
    tw_book_close(book);
    book = NULL;
    tw_text whole = file_bytes("book");
    assert_true(whole.length > 40000);
    for (size_t length = 1024; length < whole.length; length += 1024) {
        put_file("cut", whole.bytes, length);
        tw_book_result result = try_open("cut");
        assert_true(result.answer == TW_BOOK_BROKEN);
        CHECK_HOLDS(result.why, "is damaged");
        assert_true(same(file_bytes("cut"), (tw_text){ whole.bytes, length }));
    }
}

/* Bytes of a good book changed at random: it opens or says why not, and whatever opens can be read and saved in. */
static void hostile_files_end_in_a_sentence(void **state)
{
    (void)state;
    int64_t id = added("frame", "x");
    for (int i = 1; i < 12; i++) saved(id, i, tw_format(&arena, "revision %d", i));
    tw_book_close(book);
    book = NULL;
    tw_text whole = file_bytes("book");
    check_seed seed = { 404 };
    int refused = 0;
    failing_disk_on();  // for its quick flushes
    for (int round = 0; round < 300; round++) {
        tw_arena own = {0};
        char *bytes = tw_text_copy(&own, whole);
        for (int i = 0; i < 1 + round % 20; i++) bytes[check_random(&seed) % whole.length] = (char)check_random(&seed);
        put_file("hostile", bytes, whole.length);
        tw_book *odd = NULL;
        tw_book_result result = tw_book_open(&own, path("hostile"), &odd);
        if (result.answer == TW_BOOK_DONE) {
            tw_book_entries list = {0};
            tw_book_list(odd, &own, TW_BOOK_JOBS, false, tw_text_of("e"), &list);
            int64_t fresh = 0;
            tw_book_add(odd, &own, TW_BOOK_JOBS, "n", change("t", 1, ""), &fresh);
            tw_book_close(odd);
        } else {
            refused++;
            assert_true(strlen(result.why) > 20);
        }
        unlink(path("hostile-wal"));
        unlink(path("hostile-shm"));
        tw_arena_finish(&own);
    }
    failing_disk_off();
    assert_true(refused > 100);
}

/* ---- disks ---- */

/* With k writes that still go well, for every k until all of a save fits: it is acknowledged and there, or not and not there.
 * A failure at the very flush may leave a save that was not acknowledged; it is then there as a whole. */
static void full_disk_keeps_what_was_there(void **state)
{
    (void)state;
    tw_book_close(book);
    book = NULL;
    failing_disk_on();
    open_again();
    int64_t id = added("frame", "first");
    char *text = tw_arena_take(&arena, 30001, 1);
    memset(text, 'w', 30000);
    int refused = 0, number = 0;
    for (int k = 0;; k++) {
        disk = (failing_disk){ .writes_left = k, .code = SQLITE_FULL };
        tw_book_result result = tw_book_save(book, &arena, TW_BOOK_JOBS, id, 1, change(text, 1, ""), &number);
        bool met = disk.failed > 0;
        disk.writes_left = -1;
        if (result.answer == TW_BOOK_DONE) {
            assert_false(met);
            break;
        }
        assert_true(met);
        refused++;
        assert_true(result.answer == TW_BOOK_FULL || result.answer == TW_BOOK_FAILED);
        CHECK_HOLDS(result.why, result.answer == TW_BOOK_FULL ? "no room left on the disk" : "it is not sure that this was saved");
        assert_int_equal(newest_of(id), 1);
        assert_string_equal(text_of(book, id, 0), "first");
    }
    assert_true(refused >= 8);  // 30000 bytes are eight pages at least
    failing_disk_off();
    open_again();
    assert_int_equal(newest_of(id), 2);
    assert_string_equal(text_of(book, id, 2), text);
}

/* Making a new book on a disk that fills up: a sentence, and once there is room the same path works. */
static void new_book_on_a_full_disk_can_be_made_later(void **state)
{
    (void)state;
    failing_disk_on();
    bool done = false;
    for (int k = 0; !done; k++) {
        disk = (failing_disk){ .writes_left = k, .code = SQLITE_FULL };
        tw_book_result result = try_open(tw_format(&arena, "fresh%d", k));
        done = result.answer == TW_BOOK_DONE && disk.failed == 0;
        disk.writes_left = -1;
        if (result.answer != TW_BOOK_DONE) CHECK_HOLDS(result.why, "disk");
        CHECK_DONE(try_open(tw_format(&arena, "fresh%d", k)));
    }
    failing_disk_off();
}

/* ---- a cut of power ---- */

#define CUTS_MOST 600
#define CUT_SAVES 40

typedef struct cut_record { int count, acknowledged[CUTS_MOST]; check_seed seed; } cut_record;
static cut_record cuts;
static int        acknowledged;

static void cut_file(const char *end, int n)
{
    assert_true(failing_disk_cut(path(tw_format(&arena, "cut%s", end)), path(tw_format(&arena, "after%d%s", n, end)), &cuts.seed));
}

/* Puts away what a cut of power just now would leave, with the number of the last acknowledged revision. */
static void cut_now(const char *unused)
{
    (void)unused;
    assert_true(cuts.count < CUTS_MOST);
    int n = cuts.count++;
    cuts.acknowledged[n] = acknowledged;
    cut_file("", n);
    cut_file("-journal", n);
    cut_file("-wal", n);
}

static void cut_now_and_then(const char *file)
{
    if (check_random(&cuts.seed) % 4 == 0) cut_now(file);
}

static void cut_often(const char *file)
{
    for (int i = 0; i < 4; i++) cut_now(file);
}

static tw_text long_text(int number) { return tw_text_of(tw_format(&arena, "%0*d", 100 + 977 * number % 30000, number)); }

static void save_with_cuts(int64_t id)
{
    disk.before = cut_now_and_then;
    for (acknowledged = 1; acknowledged < CUT_SAVES;) {
        tw_book_change next = { .text = long_text(acknowledged + 1), .why = "" };
        CHECK_DONE(tw_book_save(book, &arena, TW_BOOK_JOBS, id, acknowledged, next, &acknowledged));
        cut_now(NULL);
        if (acknowledged % 9 != 0) continue;
        tw_book_close(book);  // brings the log into the file: that is cut into as well
        CHECK_DONE(tw_book_open(&arena, path("cut"), &book));
    }
    disk.before = NULL;
}

static void check_after_cut(int n, int64_t id)
{
    tw_book *after = NULL;
    CHECK_DONE(tw_book_open(&arena, path(tw_format(&arena, "after%d", n)), &after));
    for (int number = 2; number <= cuts.acknowledged[n]; number++)
        assert_string_equal(text_of(after, id, number), long_text(number).bytes);
    tw_book_close(after);
}

/* Before writes and flushes, the disk is copied as a cut of power would leave it: what was flushed, and any part of the rest. Every
 * such copy is a sound book that holds what was acknowledged by then. */
static void acknowledged_saves_outlive_a_cut_of_power(void **state)
{
    (void)state;
    tw_book_close(book);
    cuts = (cut_record){ .seed = { 31 } };
    failing_disk_on();
    disk.remembers = true;
    disk.before = cut_often;  // while the book is made
    acknowledged = 0;
    CHECK_DONE(tw_book_open(&arena, path("cut"), &book));
    assert_true(cuts.count > 40);
    disk.before = NULL;
    int64_t id = added("frame", "first");
    save_with_cuts(id);
    tw_book_close(book);
    book = NULL;
    failing_disk_off();
    assert_true(cuts.count > 120);
    failing_disk_on();  // for its quick flushes
    for (int n = 0; n < cuts.count; n++) check_after_cut(n, id);
    failing_disk_off();
}

/* As one who may not write: the right is put off for the while, if there is one. */
static void put_off_rights(void) { if (geteuid() == 0) assert_int_equal(seteuid(65534), 0); }
static void take_back_rights(void) { if (getuid() == 0) assert_int_equal(seteuid(0), 0); }

static void file_that_cannot_be_written_is_refused(void **state)
{
    (void)state;
    added("frame", "x");
    tw_book_close(book);
    book = NULL;
    assert_int_equal(chmod(home, 0755), 0);
    assert_int_equal(chmod(path("book"), 0444), 0);
    put_off_rights();
    tw_book_result result = try_open("book");
    take_back_rights();
    CHECK_SAYS(result, TW_BOOK_READ_ONLY, "cannot be written");
    assert_int_equal(chmod(path("book"), 0644), 0);
    open_again();
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "frame");
}

static void folder_that_cannot_be_written_is_refused(void **state)
{
    (void)state;
    added("frame", "x");
    tw_book_close(book);
    book = NULL;
    assert_int_equal(chmod(path("book"), 0666), 0);
    assert_int_equal(chmod(home, 0555), 0);
    put_off_rights();
    tw_book_result old = try_open("book"), fresh = try_open("fresh");
    take_back_rights();
    CHECK_SAYS(old, TW_BOOK_READ_ONLY, "cannot be written");
    CHECK_SAYS(fresh, TW_BOOK_READ_ONLY, "cannot be written");
    assert_int_equal(chmod(home, 0755), 0);
    open_again();
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "frame");
}

/* ---- older books ---- */

static void put_layout_0(const char *name) { run_sql(name, LAYOUT_0); }

static void older_book_is_copied_and_brought_up_to_date(void **state)
{
    (void)state;
    put_layout_0("old");
    tw_text before = file_bytes("old");
    tw_book_close(book);
    CHECK_DONE(tw_book_open(&arena, path("old"), &book));
    tw_text text = {0};
    CHECK_DONE(tw_book_read(book, &arena, TW_BOOK_JOBS, 3, 1, &text, NULL));
    assert_true(same(text, (tw_text){ "old\0\xff", 5 }));
    assert_int_equal(saved(3, 2, "newer"), 3);
    CHECK_DONE(tw_book_tick_set(book, &arena, 3, (tw_book_tick){ "card 1", true, 1 }));
    CHECK_DONE(tw_book_bin(book, &arena, TW_BOOK_SHOPS, 1, 5));
    tw_text copy = file_bytes("old.before-1");
    assert_int_equal(copy.length, before.length);
    assert_memory_equal(copy.bytes + 100, before.bytes + 100, before.length - 100);  // but for counters in its head, the same pages
    assert_int_not_equal(access(path("old.before-1.part"), F_OK), 0);
    tw_book_close(book);
    book = NULL;
    CHECK_DONE(try_open("old"));
    assert_int_not_equal(access(path("old.before-1.2"), F_OK), 0);  // only once
    CHECK_DONE(try_open("old.before-1"));                            // the copy is an older book itself
    assert_int_equal(access(path("old.before-1.before-1"), F_OK), 0);
}

static void copy_of_an_earlier_try_is_not_overwritten(void **state)
{
    (void)state;
    put_layout_0("old");
    put_file("old.before-1", "mine", 4);
    CHECK_DONE(try_open("old"));
    assert_true(same(file_bytes("old.before-1"), tw_text_of("mine")));
    assert_int_equal(access(path("old.before-1.2"), F_OK), 0);
}

/* The log of an older book may hold what its file does not: it must be in the copy too. */
static void copy_holds_what_stands_in_the_log(void **state)
{
    (void)state;
    put_layout_0("old");
    sqlite3 *other = NULL;
    assert_int_equal(sqlite3_open(path("old"), &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "PRAGMA journal_mode = WAL; UPDATE jobs SET name = 'from the log'", NULL, NULL, NULL), SQLITE_OK);
    CHECK_DONE(try_open("old"));
    sqlite3_close(other);
    tw_book_close(book);
    CHECK_DONE(tw_book_open(&arena, path("old.before-1"), &book));
    assert_string_equal(names_in(TW_BOOK_JOBS, false, ""), "from the log");
}

static void older_book_stays_as_it_is_on_a_full_disk(void **state)
{
    (void)state;
    tw_book_close(book);
    book = NULL;
    failing_disk_on();
    int refused = 0;
    for (int k = 0;; k++) {
        const char *name = tw_format(&arena, "old%d", k);
        put_layout_0(name);
        disk = (failing_disk){ .writes_left = k, .code = SQLITE_FULL };
        tw_book_result result = try_open(name);
        bool met = disk.failed > 0;
        disk.writes_left = -1;
        CHECK_DONE(tw_book_open(&arena, path(name), &book));  // with room again
        assert_string_equal(text_of(book, 3, 2), "new");
        tw_book_close(book);
        book = NULL;
        assert_int_equal(access(path(tw_format(&arena, "%s.before-1", name)), F_OK), 0);
        if (result.answer == TW_BOOK_DONE && !met) break;
        if (result.answer == TW_BOOK_DONE) continue;
        CHECK_HOLDS(result.why, "disk");
        refused++;
    }
    assert_true(refused > 5);
    failing_disk_off();
}

#define CASE(name) cmocka_unit_test_setup_teardown(name, begin, finish)

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(saved_text_is_there_after_reopening), CASE(texts_are_kept_byte_for_byte), CASE(longest_text_is_taken_and_a_longer_one_refused),
        CASE(every_revision_is_listed_newest_first), CASE(what_is_not_there_is_said), CASE(names_are_checked),
        CASE(second_of_two_writers_gets_a_conflict_and_nothing_is_overwritten), CASE(branch_keeps_both_sides_of_a_conflict),
        CASE(revision_that_was_never_saved_is_a_conflict), CASE(two_programs_that_save_at_once_lose_nothing),
        CASE(book_in_which_another_program_writes_is_waited_for_two_seconds), CASE(list_has_the_last_changed_first),
        CASE(search_finds_words_in_names_and_newest_texts), CASE(search_looks_beyond_a_zero_byte), CASE(binned_job_comes_back_whole),
        CASE(renamed_job_keeps_its_revisions), CASE(copy_tells_where_it_came_from), CASE(revision_notes_the_newest_shop),
        CASE(measured_values_stay_in_their_order), CASE(value_that_is_no_number_or_of_no_revision_is_refused), CASE(tick_can_be_set_and_taken_back),
        CASE(setting_is_kept_and_replaced), CASE(file_of_another_kind_is_refused_and_not_touched),
        CASE(database_of_another_program_is_refused_and_not_touched), CASE(folder_and_missing_folder_are_named),
        CASE(names_that_mean_something_to_sqlite_are_plain_paths), CASE(empty_file_becomes_a_book), CASE(newer_book_is_refused_and_left),
        CASE(book_with_other_tables_is_refused), CASE(row_that_belongs_to_nothing_is_found), CASE(truncated_book_is_refused),
        CASE(hostile_files_end_in_a_sentence), CASE(full_disk_keeps_what_was_there), CASE(new_book_on_a_full_disk_can_be_made_later),
        CASE(acknowledged_saves_outlive_a_cut_of_power),
        CASE(file_that_cannot_be_written_is_refused), CASE(folder_that_cannot_be_written_is_refused),
        CASE(older_book_is_copied_and_brought_up_to_date), CASE(copy_of_an_earlier_try_is_not_overwritten),
        CASE(copy_holds_what_stands_in_the_log), CASE(older_book_stays_as_it_is_on_a_full_disk),
    };
    return cmocka_run_group_tests_name("book", tests, NULL, NULL);
}
