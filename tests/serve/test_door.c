// SPDX-License-Identifier: GPL-3.0-or-later
/* The parts of the door that need no socket: words, keys and measures; and the worker beside it. */
#define _GNU_SOURCE
#include "check.h"

#include <time.h>

#include "serve/door_guard.h"
#include "serve/door_words.h"
#include "serve/work.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

/* ---- words ---- */

static const char *path_of(const char *target)
{
    tw_target read;
    bool too_long;
    return tw_target_read(&arena, target, &read, &too_long) ? NULL : read.path;
}

static void plain_targets_are_taken_apart(void **state)
{
    (void)state;
    tw_target read;
    bool too_long;
    assert_null(tw_target_read(&arena, "/api/text?shelf=jobs&id=3", &read, &too_long));
    assert_string_equal(read.path, "/api/text");
    assert_true(tw_text_is(read.query, "shelf=jobs&id=3"));
    assert_null(tw_target_read(&arena, "/", &read, &too_long));
    assert_int_equal(read.query.length, 0);
    assert_null(tw_target_read(&arena, "/?", &read, &too_long));
    assert_string_equal(path_of("/a-b_c.d/e/"), "/a-b_c.d/e/");
}

static void crooked_targets_are_refused(void **state)
{
    (void)state;
    static const char *const crooked[] = { "", "a", "?", "*", "//", "/a//b", "/.", "/..", "/a/../b", "/a/.", "/...", "/%41",
                                          "/a b", "/\x7f", "/\xc3\xa4", "/a\\b",
                                           "/a;b", "/?%", "/?a=%00", "/?\xff", "/?a=%0a" };
    for (size_t i = 0; i < sizeof crooked / sizeof *crooked; i++) assert_null(path_of(crooked[i]));
    char *text = tw_format(&arena, "/%*s", TW_DOOR_TARGET_MOST, "");
    memset(text + 1, 'a', TW_DOOR_TARGET_MOST);
    tw_target read;
    bool too_long;
    assert_non_null(tw_target_read(&arena, text, &read, &too_long));
    assert_true(too_long);
    text[TW_DOOR_TARGET_MOST] = '\0';
    assert_null(tw_target_read(&arena, text, &read, &too_long));
}

static void cookies_are_found_by_their_whole_name(void **state)
{
    (void)state;
    tw_text header = tw_text_of("a=1; key=one;key=two ; keys=x; bare; =y; key");
    assert_true(tw_text_is(tw_cookie_value(header, "key", 0), "one"));
    assert_true(tw_text_is(tw_cookie_value(header, "key", 1), "two"));
    assert_int_equal(tw_cookie_value(header, "key", 2).length, 0);
    assert_int_equal(tw_cookie_value(header, "ke", 0).length, 0);
    assert_int_equal(tw_cookie_value(tw_text_of(""), "key", 0).length, 0);
}

static void secrets_are_the_same_only_when_every_byte_is(void **state)
{
    (void)state;
    assert_true(tw_same_secret(tw_text_of("0123"), "0123"));
    assert_false(tw_same_secret(tw_text_of("0124"), "0123"));
    assert_false(tw_same_secret(tw_text_of("012"), "0123"));
    assert_false(tw_same_secret(tw_text_of("01230"), "0123"));
    assert_false(tw_same_secret(tw_text_of(""), "0123"));
    assert_false(tw_same_secret((tw_text){ "0123\0", 5 }, "0123"));
    assert_false(tw_same_secret((tw_text){ NULL, 0 }, "0123"));
}

/* ---- keys ---- */

static tw_guard fresh_guard(void)
{
    tw_guard guard;
    assert_true(tw_guard_begin(&guard, 8080));
    return guard;
}

static tw_caller who(const tw_guard *guard, const char *cookie, bool from_here)
{
    return tw_guard_who(guard, tw_text_of(tw_format(&arena, "tuskwright-8080=%s", cookie)), from_here);
}

static void keys_are_long_and_differ_at_each_start(void **state)
{
    (void)state;
    tw_guard one = fresh_guard(), two = fresh_guard();
    assert_int_equal(strlen(one.token), 32);
    assert_int_equal(strspn(one.token, "0123456789abcdef"), 32);
    assert_string_not_equal(one.token, one.desk);
    assert_string_not_equal(one.token, two.token);
    assert_string_not_equal(one.desk, two.desk);
}

static void desk_is_known_from_this_computer_alone(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    assert_int_equal(who(&guard, guard.desk, true), TW_DESK);
    assert_int_equal(who(&guard, guard.desk, false), TW_STRANGER);
    assert_int_equal(who(&guard, guard.token, true), TW_STRANGER);
    assert_int_equal(who(&guard, "", true), TW_STRANGER);
    assert_int_equal(tw_guard_who(&guard, tw_text_of(""), true), TW_STRANGER);
    assert_true(tw_guard_is_token(&guard, tw_text_of(guard.token)));
    assert_false(tw_guard_is_token(&guard, tw_text_of(guard.desk)));
}

static void code_ends_after_ten_minutes(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    const char *secret;
    assert_null(tw_guard_code(&guard, 0));
    assert_int_equal(tw_guard_pair(&guard, tw_text_of(""), 0, &secret), TW_PAIR_NO_CODE);
    assert_true(tw_guard_make_code(&guard, 1000));
    char *code = tw_format(&arena, "%s", guard.code);
    assert_int_equal(strspn(code, "0123456789"), 6);
    assert_string_equal(tw_guard_code(&guard, 1000 + TW_CODE_VALID_MS - 1), code);
    assert_null(tw_guard_code(&guard, 1000 + TW_CODE_VALID_MS));
    assert_int_equal(tw_guard_pair(&guard, tw_text_of(code), 1000 + TW_CODE_VALID_MS, &secret), TW_PAIR_NO_CODE);
    assert_int_equal(tw_guard_pair(&guard, tw_text_of(code), 1000 + TW_CODE_VALID_MS - 1, &secret), TW_PAIRED);
}

static void codes_are_spread_over_all_digits(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    int seen[6][10] = { 0 };
    for (int i = 0; i < 2000; i++) {
        assert_true(tw_guard_make_code(&guard, 0));
        for (int place = 0; place < 6; place++) seen[place][guard.code[place] - '0']++;
    }
    // each 200 times, give or take; 7 standard deviations of the binomial distribution are 94
    for (int place = 0; place < 6; place++)
        for (int digit = 0; digit < 10; digit++) assert_in_range(seen[place][digit], 106, 294);
}

static void seventeenth_device_takes_the_place_of_the_first(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    char *keys[TW_DEVICES_MOST + 1];
    for (int i = 0; i <= TW_DEVICES_MOST; i++) {
        const char *secret;
        assert_true(tw_guard_make_code(&guard, 0));
        assert_int_equal(tw_guard_pair(&guard, tw_text_of(guard.code), 0, &secret), TW_PAIRED);
        keys[i] = tw_format(&arena, "%s", secret);
    }
    assert_int_equal(who(&guard, keys[0], false), TW_STRANGER);
    for (int i = 1; i <= TW_DEVICES_MOST; i++) assert_int_equal(who(&guard, keys[i], false), TW_DEVICE);
}

static void wrong_code_counts_and_the_fifth_ends_it(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    const char *secret;
    assert_true(tw_guard_make_code(&guard, 0));
    char *code = tw_format(&arena, "%s", guard.code);
    for (int i = 1; i < TW_CODE_TRIES; i++) assert_int_equal(tw_guard_pair(&guard, tw_text_of("1234567"), 0, &secret),
                                                             TW_PAIR_WRONG);
    assert_int_equal(tw_guard_pair(&guard, tw_text_of(""), 0, &secret), TW_PAIR_NO_CODE);
    assert_int_equal(tw_guard_pair(&guard, tw_text_of(code), 0, &secret), TW_PAIR_NO_CODE);
}

/* ---- measures ---- */

static int how_many(tw_guard *guard, tw_measure measure, uint32_t address, int64_t at_ms)
{
    int count = 0;
    while (count < 5000 && tw_guard_may(guard, measure, address, at_ms)) count++;
    return count;
}

static void each_address_has_its_own_measure_which_fills_up_again(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    assert_int_equal(how_many(&guard, TW_MEASURE_STRANGER, 1, 0), 200);
    assert_int_equal(how_many(&guard, TW_MEASURE_STRANGER, 1, 0), 0);
    assert_int_equal(how_many(&guard, TW_MEASURE_STRANGER, 2, 0), 200);
    assert_int_equal(how_many(&guard, TW_MEASURE_GUEST, 1, 0), 1000);
    assert_int_equal(how_many(&guard, TW_MEASURE_TRY, 1, 0), 10);
    assert_int_equal(how_many(&guard, TW_MEASURE_STRANGER, 1, 1000), 20);
    assert_int_equal(how_many(&guard, TW_MEASURE_TRY, 1, 6000), 1);
    assert_int_equal(how_many(&guard, TW_MEASURE_STRANGER, 1, 3600000), 200);
}

static void address_that_was_quiet_longest_is_forgotten_first(void **state)
{
    (void)state;
    tw_guard guard = fresh_guard();
    for (uint32_t address = 1; address <= TW_ADDRESSES_MOST; address++) how_many(&guard, TW_MEASURE_TRY, address, address);
    assert_int_equal(how_many(&guard, TW_MEASURE_TRY, 1000, 300), 10);
    assert_int_equal(how_many(&guard, TW_MEASURE_TRY, 2, 300), 0);
    assert_int_equal(how_many(&guard, TW_MEASURE_TRY, 1, 300), 10);
}

/* ---- the worker ---- */

typedef struct errand { int parts; bool fails; int *freed; } errand;

static void nap(void) { nanosleep(&(struct timespec){ .tv_nsec = 1000000 }, NULL); }

static void *run_errand(void *given, tw_work_watch *watch)
{
    const errand *what = given;
    if (what->fails) {
        tw_work_fails(watch, "the saw is blunt");
        return NULL;
    }
    for (int i = 0; i < what->parts; i++, nap())
        if (!tw_work_goes_on(watch, (size_t)i, (size_t)what->parts, "sawing")) return NULL;
    return strdup("sawn");
}

static void free_errand(void *given)
{
    errand *what = given;
    (*what->freed)++;
    free(what);
}

static int64_t begin(tw_work *work, errand what)
{
    errand *given = malloc(sizeof *given);
    assert_non_null(given);
    *given = what;
    return tw_work_start(work, run_errand, given, free_errand, free);
}

static tw_work_look_at wait_for(tw_work *work, int64_t id)
{
    tw_work_look_at at;
    while ((at = tw_work_look(work, id)).state == TW_WORK_GOING) nap();
    return at;
}

static void work_that_is_done_gives_its_result_once(void **state)
{
    (void)state;
    int freed = 0;
    tw_work *work = tw_work_open();
    int64_t id = begin(work, (errand){ .parts = 3, .freed = &freed });
    assert_int_equal(id, 1);
    tw_work_look_at at = wait_for(work, id);
    assert_int_equal(at.state, TW_WORK_DONE);
    assert_int_equal(at.done, 2);
    assert_int_equal(at.of, 3);
    assert_string_equal(at.what, "sawing");
    char *result = tw_work_take(work, id);
    assert_string_equal(result, "sawn");
    free(result);
    assert_null(tw_work_take(work, id));
    assert_int_equal(freed, 1);
    assert_int_equal(begin(work, (errand){ .parts = 1, .freed = &freed }), 2);
    assert_int_equal(tw_work_look(work, id).state, TW_WORK_UNKNOWN);
    tw_work_close(work);
    assert_int_equal(freed, 2);
}

static void second_work_is_refused_while_one_goes_on(void **state)
{
    (void)state;
    int freed = 0;
    tw_work *work = tw_work_open();
    int64_t id = begin(work, (errand){ .parts = 1000000, .freed = &freed });
    assert_int_equal(begin(work, (errand){ .parts = 1, .freed = &freed }), 0);
    assert_int_equal(freed, 1);
    assert_int_equal(tw_work_look(work, id).state, TW_WORK_GOING);
    assert_null(tw_work_take(work, id));
    tw_work_close(work);
    assert_int_equal(freed, 2);
}

static void work_that_is_stopped_says_so(void **state)
{
    (void)state;
    int freed = 0;
    tw_work *work = tw_work_open();
    int64_t id = begin(work, (errand){ .parts = 1000000, .freed = &freed });
    assert_false(tw_work_stop(work, id + 1));
    assert_true(tw_work_stop(work, id));
    assert_int_equal(wait_for(work, id).state, TW_WORK_STOPPED);
    assert_false(tw_work_stop(work, id));
    assert_null(tw_work_take(work, id));
    assert_int_equal(freed, 1);
    tw_work_close(work);
}

static void work_that_fails_says_why(void **state)
{
    (void)state;
    int freed = 0;
    tw_work *work = tw_work_open();
    int64_t id = begin(work, (errand){ .fails = true, .freed = &freed });
    tw_work_look_at at = wait_for(work, id);
    assert_int_equal(at.state, TW_WORK_FAILED);
    assert_string_equal(at.error, "the saw is blunt");
    tw_work_close(work);
    tw_work_close(NULL);
}

static void unknown_work_is_not_there(void **state)
{
    (void)state;
    tw_work *work = tw_work_open();
    for (int64_t id = -1; id <= 1; id++) {
        assert_int_equal(tw_work_look(work, id).state, TW_WORK_UNKNOWN);
        assert_false(tw_work_stop(work, id));
        assert_null(tw_work_take(work, id));
    }
    tw_work_close(work);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(plain_targets_are_taken_apart, finish),
        cmocka_unit_test_teardown(crooked_targets_are_refused, finish),
        cmocka_unit_test_teardown(cookies_are_found_by_their_whole_name, finish),
        cmocka_unit_test_teardown(secrets_are_the_same_only_when_every_byte_is, finish),
        cmocka_unit_test_teardown(keys_are_long_and_differ_at_each_start, finish),
        cmocka_unit_test_teardown(desk_is_known_from_this_computer_alone, finish),
        cmocka_unit_test_teardown(code_ends_after_ten_minutes, finish),
        cmocka_unit_test_teardown(codes_are_spread_over_all_digits, finish),
        cmocka_unit_test_teardown(seventeenth_device_takes_the_place_of_the_first, finish),
        cmocka_unit_test_teardown(wrong_code_counts_and_the_fifth_ends_it, finish),
        cmocka_unit_test_teardown(each_address_has_its_own_measure_which_fills_up_again, finish),
        cmocka_unit_test_teardown(address_that_was_quiet_longest_is_forgotten_first, finish),
        cmocka_unit_test(work_that_is_done_gives_its_result_once),
        cmocka_unit_test(second_work_is_refused_while_one_goes_on),
        cmocka_unit_test(work_that_is_stopped_says_so),
        cmocka_unit_test(work_that_fails_says_why),
        cmocka_unit_test(unknown_work_is_not_there),
    };
    return cmocka_run_group_tests_name("door", tests, NULL, NULL);
}
