// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include <locale.h>

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static void arena_gives_zeroed_and_aligned_memory(void **state)
{
    (void)state;
    for (size_t size = 1; size < 300000; size = size * 3 + 1) {
        char *bytes = tw_arena_take(&arena, size, 1);
        assert_int_equal((uintptr_t)bytes % sizeof(max_align_t) % 16, 0);
        for (size_t i = 0; i < size; i++) assert_int_equal(bytes[i], 0);
        memset(bytes, 0xAA, size);
    }
}

static void growing_array_keeps_its_items(void **state)
{
    (void)state;
    int *items = NULL;
    size_t count = 0, room = 0;
    for (int i = 0; i < 1000; i++) {
        tw_array_make_room(&arena, &items, count, &room, sizeof *items);
        items[count++] = i;
    }
    for (int i = 0; i < 1000; i++) assert_int_equal(items[i], i);
}

static void format_writes_like_printf(void **state)
{
    (void)state;
    assert_string_equal(tw_format(&arena, "%s has %d of %zu, %5.2f%%, %-4d|%.*f|%.*s", "post", 3, (size_t)7, 12.345, 5, 1, 2.25, 3, "abcdef"),
                        "post has 3 of 7, 12.35%, 5   |2.2|abc");
    assert_string_equal(tw_format(&arena, "%g %g %g", 12.5, 3.0, 1.0 / 3.0), "12.5 3 0.333333");
    assert_string_equal(tw_format(&arena, "%.1f %.0f", -0.04, -0.2), "0.0 0");
}

static void numbers_are_read_whole(void **state)
{
    (void)state;
    static const struct { const char *text; size_t length; double value; } cases[] = {
        { "38", 2, 38 }, { "-0.5", 4, -0.5 }, { "+.25x", 4, 0.25 }, { "12.", 2, 12 }, { "1e3", 3, 1000 }, { "1e", 1, 1 },
        { "3/8", 1, 3 }, { "0.1", 3, 0.1 }, { "15.875", 6, 15.875 }, { "25.4e-1", 7, 2.54 }, { "", 0, 0 }, { "-", 0, 0 }, { ".", 0, 0 },
        { "1.2.3", 3, 1.2 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double value = 0;
        assert_int_equal(tw_read_number(tw_text_of(cases[i].text), &value), cases[i].length);
        CHECK_NEAR(value, cases[i].value, 0.0);
    }
    double value;
    tw_read_number(tw_text_of("1e999"), &value);
    assert_true(isinf(value));
}

static void json_texts_and_numbers_are_valid(void **state)
{
    (void)state;
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_json_text(&sink, "a \"b\"\n\x01\xff\xc3\xa9");
    tw_put_text(&sink, " ");
    tw_put_json_number(&sink, -0.0000000001);
    tw_put_text(&sink, " ");
    tw_put_json_number(&sink, 9.525);
    tw_put_text(&sink, " ");
    tw_put_json_number(&sink, 120.0);
    assert_string_equal(tw_gathered(&all).bytes, "\"a \\\"b\\\"\\n\\u0001\\ufffd\xc3\xa9\" 0 9.525 120");
}

static void nearest_word_is_offered_only_when_near(void **state)
{
    (void)state;
    static const char *const known[] = { "thickness", "width", "length" };
    assert_string_equal(tw_nearest_word("thicknes", known, 3), "thickness");
    assert_string_equal(tw_nearest_word("Widht", known, 3), "width");
    assert_null(tw_nearest_word("colour", known, 3));
}

/* Fractions: arithmetic (checks 3-01 to 3-03 of the handbook's decimal equivalents). */
static void fraction_rounds_to_the_nearest_part(void **state)
{
    (void)state;
    static const struct { double inches; int parts; const char *text; double off_in; } cases[] = {
        { 0.3, 16, "5/16 light", -0.0125 },  { 0.3, 64, "19/64 heavy", 0.003125 }, { 1.0 / 32.0, 16, "1/16 light", -1.0 / 32.0 },
        { 0.125, 16, "1/8", 0 },             { 1.375, 64, "1 3/8", 0 },            { 2.0, 64, "2", 0 },
        { 0.999, 64, "1 light", -0.001 },    { -1.5, 64, "-1 1/2", 0 },            { 0.0, 64, "0", 0 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        tw_fraction fraction = tw_fraction_of(cases[i].inches * TW_MM_PER_INCH, cases[i].parts);
        assert_string_equal(tw_fraction_text(&arena, fraction), cases[i].text);
        CHECK_NEAR(fraction.remainder_mm, cases[i].off_in * TW_MM_PER_INCH, 1e-9);
    }
}

static void lengths_are_written_as_the_job_asks(void **state)
{
    (void)state;
    tw_figures mm = { TW_FIGURES_MM, 1, 0 }, inch = { TW_FIGURES_INCH, 3, 0 }, parts = { TW_FIGURES_FRACTION, 0, 64 };
    assert_string_equal(tw_length_text(&arena, 38.04, mm), "38.0 mm");
    assert_string_equal(tw_length_text(&arena, -0.01, mm), "0.0 mm");
    assert_string_equal(tw_length_text(&arena, 38.1, inch), "1.500 in");
    assert_string_equal(tw_length_text(&arena, 38.0, parts), "1 1/2 in light");
    assert_string_equal(tw_length_bare(&arena, 38.0, parts), "1 1/2 light");
    assert_string_equal(tw_angle_text(&arena, tw_radians(5.0)), "5.0°");
    assert_string_equal(tw_angle_text(&arena, atan(1.0 / 12.0)), "4.76°");
}

static void figures_have_a_point_in_every_locale(void **state)
{
    (void)state;
    if (!setlocale(LC_ALL, "de_DE.UTF-8")) skip();
    char *text = tw_format(&arena, "%.2f", 1.25);
    double value = 0;
    size_t length = tw_read_number(tw_text_of("1.25"), &value);
    setlocale(LC_ALL, "C");
    assert_string_equal(text, "1.25");
    assert_int_equal(length, 4);
    CHECK_NEAR(value, 1.25, 0.0);
}

static void wrong_findings_are_written_with_their_place(void **state)
{
    (void)state;
    tw_findings findings = { .arena = &arena };
    tw_find(&findings, TW_WRONG, (tw_place){ "job.yaml", 4, 12 }, "key-unknown", "", "there is no key `widht`", "`width` is meant?");
    tw_find(&findings, TW_CARE, (tw_place){ "job.yaml", 9, 3 }, "wedge-steep", "tusk", "the wedge is steep", "");
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_findings_put(&findings, TW_NOTE, &sink);
    assert_string_equal(tw_gathered(&all).bytes,
                        "job.yaml:4:12: there is no key `widht`; `width` is meant?\njob.yaml:9:3: care: the wedge is steep\n");
    assert_true(tw_findings_have(&findings, TW_CARE));
    assert_false(tw_findings_have(&findings, TW_HALT));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(arena_gives_zeroed_and_aligned_memory, finish),
        cmocka_unit_test_teardown(growing_array_keeps_its_items, finish),
        cmocka_unit_test_teardown(format_writes_like_printf, finish),
        cmocka_unit_test_teardown(numbers_are_read_whole, finish),
        cmocka_unit_test_teardown(json_texts_and_numbers_are_valid, finish),
        cmocka_unit_test_teardown(nearest_word_is_offered_only_when_near, finish),
        cmocka_unit_test_teardown(fraction_rounds_to_the_nearest_part, finish),
        cmocka_unit_test_teardown(lengths_are_written_as_the_job_asks, finish),
        cmocka_unit_test_teardown(figures_have_a_point_in_every_locale, finish),
        cmocka_unit_test_teardown(wrong_findings_are_written_with_their_place, finish),
    };
    return cmocka_run_group_tests_name("base", tests, NULL, NULL);
}
