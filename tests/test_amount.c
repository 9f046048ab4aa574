// SPDX-License-Identifier: GPL-3.0-or-later
/* Amounts as makers write them. Values are worked by hand from 1 in = 25.4 mm, 1 ft = 304.8 mm (international yard and
 * pound agreement of 1959), or come from GNU units (outside/amounts.tsv, made by outside/amounts.py). */
#include "check.h"

#include "job/job.h"

#include <locale.h>

#define AS_NEAR 1e-9  // of the amount: fifteen digits go in, a few operations follow, some of them differences

static tw_arena arena;
static int finish(void **state)
{
    (void)state;
    tw_arena_finish(&arena);
    return 0;
}

static void want_length(const char *written, const char *unit, double want_mm)
{
    double got = NAN;
    const char *why = "";
    bool good = tw_length_read(&arena, tw_text_of(written), unit, &got, &why);
    if (!good) print_error("%s\n", why);
    assert_true(good);
    CHECK_NEAR(got, want_mm, 1e-9);
}

static void want_angle(const char *written, double want_deg)
{
    double got = NAN;
    const char *why = "";
    bool good = tw_angle_read(&arena, tw_text_of(written), &got, &why);
    if (!good) print_error("%s\n", why);
    assert_true(good);
    CHECK_NEAR(tw_degrees(got), want_deg, 1e-9);
}

/* The length is refused at this character with these words. */
static void want_refused(const char *written, int character, const char *words)
{
    double got = 123.0;
    const char *why = NULL;
    bool good = tw_length_read(&arena, tw_text_of(written), "mm", &got, &why);
    if (good) print_error("%s was read as %.12g\n", written, got);
    assert_false(good);
    CHECK_HOLDS(why, words);
    CHECK_HOLDS(why, tw_format(&arena, ", character %d: ", character));
    assert_true(got == 123.0);
}

static void bare_numbers_take_the_unit_of_the_job(void **state)
{
    (void)state;
    want_length("38", "mm", 38.0);
    want_length("38", "cm", 380.0);
    want_length("38", "m", 38000.0);
    want_length("38", "in", 965.2);
    want_length("2", "ft", 609.6);
    want_length("3/8", "in", 9.525);
    want_length("2 * (12 + 45)", "in", 2895.6);
}

static void units_are_read_with_or_without_a_space(void **state)
{
    (void)state;
    want_length("38 mm", "in", 38.0);
    want_length("19mm", "in", 19.0);
    want_length("  19mm ", "in", 19.0);
    want_length("2.5cm", "mm", 25.0);
    want_length("1.2 m", "mm", 1200.0);
    want_length("1.5 in", "mm", 38.1);
    want_length("2 ft", "mm", 609.6);
    want_length("2'", "mm", 609.6);
    want_length("2\"", "mm", 50.8);
}

static void fractions_and_mixed_numbers_are_read(void **state)
{
    (void)state;
    want_length("3/8 in", "mm", 9.525);
    want_length("1-1/2 in", "mm", 38.1);
    want_length("1 1/2\"", "mm", 38.1);
    want_length("1 1/2 in", "mm", 38.1);
    want_length("11/32 in", "mm", 8.73125);
    want_length("5/64 in", "mm", 1.984375);
    want_length("1-1/2", "mm", 1.5);
    want_length("2 ft 3 1/2 in", "mm", 698.5);
    want_length("2 ft 3-1/2 in", "mm", 698.5);
    want_length("2' 3\"", "mm", 685.8);
    want_length("2'3\"", "mm", 685.8);
    want_length("2'3 1/2\"", "mm", 698.5);
}

static void typographic_forms_are_read(void **state)
{
    (void)state;
    want_length("½ in", "mm", 12.7);
    want_length("1½ in", "mm", 38.1);
    want_length("1 ½″", "mm", 38.1);
    want_length("2′ 3½″", "mm", 698.5);
    want_length("¼", "mm", 0.25);
    want_length("¾", "mm", 0.75);
    want_length("⅛", "mm", 0.125);
    want_length("⅜", "mm", 0.375);
    want_length("⅝", "mm", 0.625);
    want_length("⅞", "mm", 0.875);
    want_length("2 × 3 mm", "mm", 6.0);
    want_length("5 \xE2\x88\x92 3 mm", "mm", 2.0);      // U+2212
    want_length("38\xC2\xA0mm", "in", 38.0);            // a space that does not break
}

static void a_minus_without_spaces_joins_a_fraction_or_inches(void **state)
{
    (void)state;
    want_length("10-1/2", "mm", 10.5);
    want_length("10 - 1/2", "mm", 9.5);
    want_length("10 -1/2", "mm", 9.5);
    want_length("10-3", "mm", 7.0);
    want_length("2'-3\"", "mm", 685.8);
    want_length("2'-3 1/2\"", "mm", 698.5);
    want_length("2' - 3\"", "mm", 533.4);
    want_length("2 ft -3 in", "mm", 533.4);
    want_refused("2'-3", 4, "to subtract, put blanks round the minus");
    want_refused("2 ft-3 mm", 6, "to subtract, put blanks round the minus");
    want_refused("10-3/2", 3, "to subtract, put blanks round the minus");
}

static void angles_are_degrees_or_slopes(void **state)
{
    (void)state;
    want_angle("5 deg", 5.0);
    want_angle("5\xC2\xB0", 5.0);
    want_angle("4 1/2 deg", 4.5);
    want_angle("5", 5.0);
    want_angle("1:1", 45.0);
    want_angle("2 deg + 1:1", 47.0);
    want_angle("-5 deg", -5.0);
    // published tables of dovetail slopes give 1:6 as 9.46 and 1:8 as 7.13 degrees (common practice)
    double got;
    const char *why;
    assert_true(tw_angle_read(&arena, tw_text_of("1:6"), &got, &why));
    CHECK_NEAR(tw_degrees(got), 9.46, 0.005);
    assert_true(tw_angle_read(&arena, tw_text_of("1:8"), &got, &why));
    CHECK_NEAR(tw_degrees(got), 7.13, 0.005);
}

static void sums_follow_the_rules_of_reckoning(void **state)
{
    (void)state;
    want_length("2 + 3 * 4 mm", "mm", 14.0);
    want_length("(2 + 3) * 4 mm", "mm", 20.0);
    want_length("20 - 5 - 3", "mm", 12.0);
    want_length("24 / 4 / 3", "mm", 2.0);
    want_length("24 / (4 / 2)", "mm", 12.0);
    want_length("12/4 mm", "in", 3.0);
    want_length("-3 mm", "mm", -3.0);
    want_length("--3 mm", "mm", 3.0);
    want_length("2 * -3 mm", "mm", -6.0);
    want_length("10 mm - -3 mm", "mm", 13.0);
    want_length("1 in + 1 mm", "mm", 26.4);
    want_length("1 in + 1", "mm", 26.4);
    want_length("50 % * 38 mm", "in", 19.0);
    want_length("38 mm * (1 + 10 %)", "in", 41.8);
    want_length("30 mm * 20 mm / 10 mm", "in", 60.0);
    want_length("(30 mm / 10 mm) * 2 in", "mm", 152.4);
}

static void min_and_max_take_one_amount_or_more(void **state)
{
    (void)state;
    want_length("min(3/8 in, 9 mm)", "mm", 9.0);
    want_length("max(3/8 in, 9 mm)", "mm", 9.525);
    want_length("max(1,5)", "mm", 5.0);
    want_length("min( 4 , 2 , 3 )", "in", 50.8);
    want_length("max(2 mm)", "in", 2.0);
    want_length("max(1, 2 in) + min(1, 2)", "mm", 51.8);
    want_length("max(min(7, 9), min(5, 8)) * 2", "mm", 14.0);
}

static void what_gnu_units_makes_of_an_amount_is_what_we_make_of_it(void **state)
{
    (void)state;
    FILE *file = fopen("tests/outside/amounts.tsv", "rb");
    assert_non_null(file);
    char line[1024];
    int read = 0;
    while (fgets(line, sizeof line, file)) {
        if (line[0] == '#') continue;
        char *kind = strchr(line, '\t'), *value = kind ? strchr(kind + 1, '\t') : NULL;
        assert_non_null(value);
        *kind++ = *value++ = '\0';
        double want = strtod(value, NULL), got = NAN;
        const char *why = "";
        bool angle = strncmp(kind, "angle", 5) == 0;
        bool good = angle ? tw_angle_read(&arena, tw_text_of(line), &got, &why)
                          : tw_length_read(&arena, tw_text_of(line), "mm", &got, &why);
        if (!good) print_error("%s\n", why);
        assert_true(good);
        if (angle) got = tw_degrees(got);
        if (!(fabs(got - want) <= AS_NEAR * (1.0 + fabs(want)))) print_error("%s\n", line);
        CHECK_NEAR(got, want, AS_NEAR * (1.0 + fabs(want)));
        read++;
    }
    fclose(file);
    assert_true(read > 500);
}

static void units_that_do_not_go_together_are_refused(void **state)
{
    (void)state;
    want_refused("3 mm + 5 deg", 6, "a length and an angle cannot be added");
    want_refused("5 deg - 3 mm", 7, "an angle and a length cannot be subtracted");
    want_refused("min(5 deg, 3 mm)", 1, "an angle and a length cannot be compared");
    want_refused("3 mm * 4 mm", 1, "this is an area; a length is wanted");
    want_refused("3 mm * 4 mm * 5 mm", 1, "this is a volume");
    want_refused("3 mm + 10 %", 6, "a ratio is multiplied with a length");
    want_refused("3 mm / 4 mm", 1, "this is a ratio");
    want_refused("45 %", 1, "this is a ratio");
    want_refused("5 deg", 1, "this is an angle; a length is wanted");
    want_refused("12 / 3 mm", 1, "a number divided by a length");
    want_refused("1 mm * 1 mm * 1 mm * 1 mm * 1 mm", 27, "too many lengths are multiplied");
    double got;
    const char *why;
    assert_false(tw_angle_read(&arena, tw_text_of("5 mm"), &got, &why));
    CHECK_HOLDS(why, "this is a length; an angle is wanted");
    assert_false(tw_angle_read(&arena, tw_text_of("5 deg + 1"), &got, &why));
    CHECK_HOLDS(why, "write the number with `deg`");
    assert_false(tw_angle_read(&arena, tw_text_of("400 deg"), &got, &why));
    CHECK_HOLDS(why, "more than a full turn");
}

static void nothing_is_divided_by_nothing(void **state)
{
    (void)state;
    want_refused("3 mm / 0", 6, "divides by 0");
    want_refused("3 / (2 - 2)", 3, "divides by 0");
    want_refused("3/0 in", 1, "a fraction over 0");
    want_refused("1 3/0 in", 2, "a fraction over 0");
    want_refused("1:0", 3, "a slope over 0");
}

static void what_is_not_finite_is_refused(void **state)
{
    (void)state;
    want_refused("1e400", 1, "too large to reckon with");
    want_refused("1e308 in", 1, "too large to reckon with");
    want_refused("1e300 * 1e300", 7, "too large to reckon with");
    want_refused("nan", 1, "`nan` is not an amount");
    want_refused("inf", 1, "`inf` is not an amount");
    want_refused("-inf", 2, "`inf` is not an amount");
    want_refused(".inf", 1, "`.` stands where an amount belongs");
    want_refused("0x1F", 1, "a number with letters in it");
    want_refused("2e6 mm", 1, "over a kilometre");
}

static void a_decimal_comma_is_refused_with_the_point(void **state)
{
    (void)state;
    want_refused("1,5", 2, "a comma stands in the number; write a point: 1.5");
    want_refused("12,50 mm", 3, "a comma stands in the number");
    want_refused("1.5.2", 4, "a point stands here that is no part of a number");
    want_refused("5.", 2, "a point stands here");
}

static void unknown_units_name_the_known(void **state)
{
    (void)state;
    want_refused("3 inches", 3, "write `in`");
    want_refused("3 inch", 3, "write `in`");
    want_refused("3 feet", 3, "write `ft`");
    want_refused("3 MM", 3, "write `mm`");
    want_refused("3 nm", 3, "`mm` is meant?");
    want_refused("3 furlongs", 3, "the units are mm, cm, m, in, ft, deg and %");
    want_refused("2 x 3 mm", 3, "to multiply, write `*`");
    want_refused("3mm2", 2, "there is no unit `mm2`");
    want_refused("3 mm²", 5, "`²` has no meaning in an amount");
    want_refused("2 post.width", 3, "to multiply, write `*`");
}

static void broken_sums_are_refused_where_they_break(void **state)
{
    (void)state;
    want_refused("", 1, "an amount is missing here");
    want_refused("   ", 4, "an amount is missing here");
    want_refused("3 +", 4, "an amount is missing here");
    want_refused("+", 2, "an amount is missing here");
    want_refused("3 + * 4", 5, "`*` stands where an amount belongs");
    want_refused("(3 + 4", 1, "the bracket that opens here is not closed");
    want_refused("min(3, 4", 4, "the bracket that opens here is not closed");
    want_refused("min()", 5, "`)` stands where an amount belongs");
    want_refused("min(3,)", 7, "`)` stands where an amount belongs");
    want_refused("3 + 4)", 6, "this bracket was not opened");
    want_refused("3 4", 3, "a sign is missing between two amounts");
    want_refused("3 mm 4 mm", 6, "a sign is missing between two amounts");
    want_refused("(3)(4)", 4, "`(` has no meaning");
    want_refused("2 ft 3", 6, "after feet only inches follow");
    want_refused("2 ft 3 mm", 6, "after feet only inches follow");
    want_refused("1 5/4 in", 2, "the fraction of a mixed number is less than 1");
    want_refused("24 / 3/4", 6, "can be read in two ways; put it in brackets");
    want_refused("2 mm : 3", 6, "a colon stands where a sign belongs");
    want_refused("1:", 2, "a number is missing after the colon");
    want_refused("38#x", 3, "a comment begins with a space");
    want_refused("sin(3)", 1, "sin( is not known; min( and max( are");
    want_refused("38 mm, 39 mm", 6, "`,` has no meaning");
    want_refused("\xE2\x80\xAE""3", 1, "U+202E stands where an amount belongs");
    want_refused("3 \xFF", 3, "a byte that is no character has no meaning");
}

static void names_are_refused_where_there_are_none(void **state)
{
    (void)state;
    want_refused("post.width", 1, "`post` is not an amount; write a number with its unit");
    want_refused("2 * gap", 5, "`gap` is not an amount");
    want_refused("mm", 1, "`mm` is not an amount");
    want_refused("post.", 6, "a key is missing after the point");
    want_refused("post.3", 6, "a key is missing after the point");
}

static char *repeated(const char *begin, const char *middle, int times, const char *end)
{
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, begin);
    for (int i = 0; i < times; i++) tw_put_text(&sink, middle);
    tw_put_text(&sink, end);
    tw_gathered(&all);
    return all.bytes;
}

static void sums_may_be_long_and_deep_up_to_a_limit(void **state)
{
    (void)state;
    want_length(repeated("1", "+1", 99, ""), "mm", 100.0);
    want_refused(repeated("1", "+1", 100, ""), 200, "the sum is too long");
    want_refused(repeated("1", " + 1 mm", 60, ""), 1, "the amount is longer than 400 bytes");
    char *deep = repeated("", "(", 32, "3");
    want_length(repeated(deep, ")", 32, ""), "mm", 3.0);
    want_refused(repeated("", "(", 33, "3"), 33, "brackets are nested too deep");
    want_refused(repeated("", "min(", 33, "3"), 132, "brackets are nested too deep");
    want_length(repeated("", "-", 300, "3"), "mm", 3.0);
}

static void a_comma_locale_changes_nothing(void **state)
{
    (void)state;
    if (!setlocale(LC_ALL, "de_DE.UTF-8") && !setlocale(LC_ALL, "de_DE.utf8")) {
        print_message("# no comma locale on this machine\n");
        skip();
    }
    double got;
    const char *why;
    bool good = tw_length_read(&arena, tw_text_of("1.5 in"), "mm", &got, &why);
    setlocale(LC_ALL, "C");
    assert_true(good);
    CHECK_NEAR(got, 38.1, 1e-12);
}

#define CASE(name) cmocka_unit_test_teardown(name, finish)
int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(bare_numbers_take_the_unit_of_the_job),
        CASE(units_are_read_with_or_without_a_space),
        CASE(fractions_and_mixed_numbers_are_read),
        CASE(typographic_forms_are_read),
        CASE(a_minus_without_spaces_joins_a_fraction_or_inches),
        CASE(angles_are_degrees_or_slopes),
        CASE(sums_follow_the_rules_of_reckoning),
        CASE(min_and_max_take_one_amount_or_more),
        CASE(what_gnu_units_makes_of_an_amount_is_what_we_make_of_it),
        CASE(units_that_do_not_go_together_are_refused),
        CASE(nothing_is_divided_by_nothing),
        CASE(what_is_not_finite_is_refused),
        CASE(a_decimal_comma_is_refused_with_the_point),
        CASE(unknown_units_name_the_known),
        CASE(broken_sums_are_refused_where_they_break),
        CASE(names_are_refused_where_there_are_none),
        CASE(sums_may_be_long_and_deep_up_to_a_limit),
        CASE(a_comma_locale_changes_nothing),
    };
    return cmocka_run_group_tests_name("amount", tests, NULL, NULL);
}
