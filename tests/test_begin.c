// SPDX-License-Identifier: GPL-3.0-or-later
/* Starting designs: sound as they stand and when their main amounts are changed by 0.7 to 1.4, in mm and in inches, with the
 * shops of the examples and with the shop that `begin --shop` writes. The judge is the program itself, which is held to
 * outside figures by its own tests; what is reckoned here by hand is that the sizes follow from the amounts. */
#include "check.h"

#include "../bench/many.h"
#include "begin/begin.h"
#include "whole.h"

static const char *const mains[] = { "length", "height", "depth", "stock" };  // every design has these four
enum { MAINS = 4, CORNERS = 16, DRAWN = 24 };  // all corners of the range, and so many drawn within it

static tw_text written(tw_arena *arena, const char *kind, bool inches)
{
    const tw_design *design = tw_design_of(kind);
    assert_non_null(design);
    tw_gather *all = TW_NEW(arena, tw_gather);
    all->arena = arena;
    tw_sink sink = tw_gather_sink(all);
    tw_design_put(design, inches, &sink);
    return tw_gathered(all);
}

static tw_text begun_shop(tw_arena *arena, bool inches)
{
    tw_gather *all = TW_NEW(arena, tw_gather);
    all->arena = arena;
    tw_sink sink = tw_gather_sink(all);
    tw_begin_shop_put(inches, &sink);
    return tw_gathered(all);
}

/* The text with "  NAME: VALUE" made to "  NAME: FACTOR * (VALUE)", as a maker would edit it; a mixed number 1 3/8 is written 1-3/8. */
static const char *scaled(tw_arena *arena, const char *text, const char *name, double factor)
{
    const char *key = tw_format(arena, "\n  %s: ", name), *at = strstr(text, key);
    if (!at) fail_msg("the design has no amount %s", name);
    at += strlen(key);
    size_t count = strspn(at, "0123456789./ ");
    while (count > 0 && at[count - 1] == ' ') count--;
    char *value = tw_text_copy(arena, (tw_text){ at, count });
    for (char *c = value; *c; c++)
        if (*c == ' ') *c = '-';
    return tw_format(arena, "%.*s%.4f * (%s)%s", (int)(at - text), text, factor, value, at + count);
}

static tw_result *set_out(const char *job, const char *shop, bool papers)
{
    return tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = shop, .shop_bytes = strlen(shop),
                                     .shop_name = "shop.yaml", .papers = papers });
}

static void expect_no_halt(const tw_result *result, const char *what)
{
    for (size_t i = 0; i < tw_result_finding_count(result); i++) {
        tw_result_finding finding = tw_result_finding_at(result, i);
        if (strcmp(finding.level, "halt") == 0 || strcmp(finding.level, "wrong") == 0)
            fail_msg("%s: %d:%d: %s: %s; %s", what, finding.line, finding.column, finding.level, finding.what, finding.remedy);
    }
    assert_int_equal(tw_result_state(result), TW_STATE_GOOD);
}

static void expect_sound(tw_arena *arena, const char *kind, const char *job, const char *shop, const double factors[])
{
    const char *what = tw_format(arena, "%s x %.3f %.3f %.3f %.3f", kind, factors[0], factors[1], factors[2], factors[3]);
    tw_result *result = set_out(job, shop, false);
    expect_no_halt(result, what);
    tw_result_free(result);
}

static char *shop_of(const char *path)
{
    char *text = many_file(path);
    if (!text) fail_msg("cannot read %s: tests run in the project's root folder", path);
    return text;
}

static const char *const shops[2][2] = {
    { "examples/reading-table/shop.yaml", "examples/joints/shop.yaml" },
    { "examples/plant-bench/shop.yaml", "examples/joints/shop-inches.yaml" },
};

static void every_design_is_sound_with_the_example_shops_and_the_begun_one(void **state)
{
    (void)state;
    static const double as_is[MAINS] = { 1, 1, 1, 1 };
    for (int inches = 0; inches < 2; inches++)
        for (size_t i = 0; i < tw_design_count; i++) {
            tw_arena arena = {0};
            const char *job = written(&arena, tw_designs[i]->kind, inches).bytes;
            for (int s = 0; s < 2; s++) {
                char *shop = shop_of(shops[inches][s]);
                expect_sound(&arena, tw_designs[i]->kind, job, shop, as_is);
                free(shop);
            }
            tw_result *result = set_out(job, begun_shop(&arena, inches).bytes, true);
            expect_no_halt(result, tw_designs[i]->kind);
            assert_true(result->papers.count > 0);
            tw_result_free(result);
            tw_arena_finish(&arena);
        }
}

static double drawn_factor(unsigned *seed)
{
    *seed = *seed * 1664525u + 1013904223u;  // the generator of Numerical Recipes
    double at = (double)(*seed >> 8) / 16777216.0;
    return at < 0.2 ? 0.7 : at > 0.8 ? 1.4 : 0.7 + 0.7 * (at - 0.2) / 0.6;  // often at the limits
}

static void every_design_is_sound_over_its_range(void **state)
{
    (void)state;
    unsigned seed = 2;
    for (int inches = 0; inches < 2; inches++) {
        char *shop = shop_of(shops[inches][0]);
        for (size_t i = 0; i < tw_design_count; i++)
            for (int n = 0; n < CORNERS + DRAWN; n++) {
                tw_arena arena = {0};
                const char *job = written(&arena, tw_designs[i]->kind, inches).bytes;
                double factors[MAINS];
                for (int m = 0; m < MAINS; m++) {
                    factors[m] = n >= CORNERS ? drawn_factor(&seed) : (n >> m) & 1 ? 1.4 : 0.7;
                    job = scaled(&arena, job, mains[m], factors[m]);
                }
                expect_sound(&arena, tw_designs[i]->kind, job, shop, factors);
                tw_arena_finish(&arena);
            }
        free(shop);
    }
}

/* A design far outside of its range is told of: the checks above can fail. */
static void a_stock_of_a_tenth_is_refused(void **state)
{
    (void)state;
    tw_arena arena = {0};
    char *shop = shop_of(shops[0][0]);
    const char *job = scaled(&arena, written(&arena, "trestle table", false).bytes, "stock", 0.1);
    tw_result *result = set_out(job, shop, false);
    assert_int_not_equal(tw_result_state(result), TW_STATE_GOOD);
    tw_result_free(result);
    free(shop);
    tw_arena_finish(&arena);
}

static double length_of(const tw_result *result, const char *piece)
{
    for (int i = 0; i < result->job->piece_count; i++)
        if (strcmp(result->job->pieces[i].name, piece) == 0) return result->job->pieces[i].length.value;
    fail_msg("no piece %s", piece);
    return 0.0;
}

/* By hand, mm: posts 0.6 x 1200 apart; past the leg 1.2 x 36 + 20 = 63.2; stretcher 720 + 2 (36 + 63.2) = 918.4.
 * With a length of 1.1 x 1200: 792 + 198.4 = 990.4. In inches: 0.6 x 48 + 2 (1.375 + 1.2 x 1.375 + 0.75) = 36.35 in = 923.29 mm. */
static void the_sizes_follow_from_the_amounts(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const char *mm = written(&arena, "bench", false).bytes, *in = written(&arena, "bench", true).bytes;
    const struct { const char *job; double stretcher_mm; } rows[] = {
        { mm, 918.4 }, { scaled(&arena, mm, "length", 1.1), 990.4 }, { in, 923.29 } };
    for (size_t i = 0; i < 3; i++) {
        tw_result *result = set_out(rows[i].job, begun_shop(&arena, i == 2).bytes, false);
        expect_no_halt(result, "bench");
        CHECK_NEAR(length_of(result, "stretcher"), rows[i].stretcher_mm, 1e-6);
        tw_result_free(result);
    }
    tw_arena_finish(&arena);
}

/* As placed in space, with the height made 1.2 times as much: the joined pieces and the loose boards on them, which take a
 * share of the stock (trestle table 0.6, bench 0.8, low stool 0.5), come to the height that was asked for. By hand:
 * trestle table 1.2 x 720 - 0.6 x 40 = 840; bench 1.2 x 450 - 0.8 x 36 = 511.2; low stool 1.2 x 300 - 0.5 x 34 = 343. */
static void each_stands_as_high_as_was_asked(void **state)
{
    (void)state;
    static const struct { const char *kind; double height_mm; } rows[] = { { "trestle table", 840.0 }, { "bench", 511.2 }, { "low stool", 343.0 },
        { "open shelf", 1440.0 }, { "bed frame", 900.0 }, { "stand for a board", 1800.0 }, { "box", 156.0 } };
    assert_int_equal(sizeof rows / sizeof *rows, tw_design_count);
    for (size_t i = 0; i < tw_design_count; i++) {
        tw_arena arena = {0};
        const char *job = scaled(&arena, written(&arena, rows[i].kind, false).bytes, "height", 1.2);
        tw_result *result = set_out(job, begun_shop(&arena, false).bytes, false);
        CHECK_NEAR(result->space.nets[0].most.z - result->space.nets[0].least.z, rows[i].height_mm, 1e-6);
        tw_result_free(result);
        tw_arena_finish(&arena);
    }
}

/* The pieces that no joint binds (tops, boards, slats, a bottom) lie loose; all else hangs together. */
static void every_design_is_one_net_and_its_loose_boards(void **state)
{
    (void)state;
    static const char *const loose[] = { "top board", "seat board", "shelf board", "slat", "bottom" };
    for (size_t i = 0; i < tw_design_count; i++) {
        tw_arena arena = {0};
        tw_result *result = set_out(written(&arena, tw_designs[i]->kind, false).bytes, begun_shop(&arena, false).bytes, false);
        int alone = 0;
        for (int p = 0; p < result->job->piece_count; p++)
            for (size_t l = 0; l < sizeof loose / sizeof *loose; l++)
                if (strcmp(result->job->pieces[p].name, loose[l]) == 0) alone += (int)result->job->pieces[p].count.value;
        assert_int_equal(result->space.net_count, 1 + alone);
        tw_result_free(result);
        tw_arena_finish(&arena);
    }
}

static void a_remark_stands_in_its_column_and_a_choice_is_one_wording(void **state)
{
    (void)state;
    tw_gather all[2] = { 0 };
    tw_arena arena = {0};
    for (int inches = 0; inches < 2; inches++) {
        all[inches].arena = &arena;
        tw_sink sink = tw_gather_sink(&all[inches]);
        tw_begin_put("# <a|bc>\n  x: <1|1 1/2>  # r\nno gap # here\nx123456789012345678901234567890  # long\n", inches, &sink);
    }
    assert_string_equal(tw_gathered(&all[0]).bytes,
        "# a\n  x: 1                        # r\nno gap # here\nx123456789012345678901234567890  # long\n");
    assert_string_equal(tw_gathered(&all[1]).bytes,
        "# bc\n  x: 1 1/2                    # r\nno gap # here\nx123456789012345678901234567890  # long\n");
    tw_arena_finish(&arena);
}

static void an_unknown_kind_is_none_and_a_slip_is_near(void **state)
{
    (void)state;
    assert_null(tw_design_of("sailing boat"));
    assert_null(tw_design_of(""));
    assert_null(tw_design_of("Bench"));
    assert_string_equal(tw_design_nearest("trestel table"), "trestle table");
    assert_null(tw_design_nearest("xylophone"));
}

static bool takes_no_more(void *context, const char *bytes, size_t count)
{
    (void)bytes;
    size_t *room = context;
    if (count > *room) return false;
    *room -= count;
    return true;
}

static void a_full_sink_fails(void **state)
{
    (void)state;
    size_t room = 100;
    tw_sink sink = { .write = takes_no_more, .context = &room };
    tw_design_put(tw_design_of("box"), false, &sink);
    assert_true(sink.failed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_design_is_sound_with_the_example_shops_and_the_begun_one),
        cmocka_unit_test(every_design_is_sound_over_its_range),
        cmocka_unit_test(a_stock_of_a_tenth_is_refused),
        cmocka_unit_test(the_sizes_follow_from_the_amounts),
        cmocka_unit_test(each_stands_as_high_as_was_asked),
        cmocka_unit_test(every_design_is_one_net_and_its_loose_boards),
        cmocka_unit_test(a_remark_stands_in_its_column_and_a_choice_is_one_wording),
        cmocka_unit_test(an_unknown_kind_is_none_and_a_slip_is_near),
        cmocka_unit_test(a_full_sink_fails),
    };
    return cmocka_run_group_tests_name("starting designs", tests, NULL, NULL);
}
