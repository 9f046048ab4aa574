// SPDX-License-Identifier: GPL-3.0-or-later
/* The one call on whole jobs: the examples are sound, the same text gives the same bytes, size only costs time, and
 * hostile texts end in a finding. */
#include "check.h"

#include <locale.h>

#include "../bench/many.h"
#include "tuskwright.h"

static tw_result *set_out(const char *job, const char *shop, bool papers)
{
    return tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = shop, .shop_bytes = strlen(shop),
                                     .shop_name = "shop.yaml", .papers = papers });
}

static tw_result *example(const char *name, bool papers)
{
    char path[256];
    snprintf(path, sizeof path, "examples/%s/job.yaml", name);
    char *job = many_file(path);
    snprintf(path, sizeof path, "examples/%s/shop.yaml", name);
    char *shop = many_file(path);
    if (!job || !shop) fail_msg("cannot read %s: tests run in the project's root folder", path);
    tw_result *result = set_out(job, shop, papers);
    free(job);
    free(shop);
    return result;
}

static void expect_no_halt(const tw_result *result)
{
    for (size_t i = 0; i < tw_result_finding_count(result); i++) {
        tw_result_finding finding = tw_result_finding_at(result, i);
        if (strcmp(finding.level, "halt") == 0 || strcmp(finding.level, "wrong") == 0)
            fail_msg("%d:%d: %s: %s; %s", finding.line, finding.column, finding.level, finding.what, finding.remedy);
    }
    assert_int_equal(tw_result_state(result), TW_STATE_GOOD);
}

static void examples_are_sound(void **state)
{
    (void)state;
    static const char *const names[] = { "reading-table", "plant-bench" };
    for (size_t i = 0; i < 2; i++) {
        tw_result *result = example(names[i], true);
        expect_no_halt(result);
        tw_result_free(result);
    }
}

static tw_text json_of(tw_arena *arena, const tw_result *result)
{
    tw_gather *all = TW_NEW(arena, tw_gather);
    all->arena = arena;
    tw_sink sink = tw_gather_sink(all);
    assert_true(tw_result_put(result, TW_OUTPUT_JSON, sink.write, sink.context));
    return tw_gathered(all);
}

static void same_text_gives_the_same_bytes_in_every_locale(void **state)
{
    (void)state;
    tw_arena arena = {0};
    tw_result *one = example("plant-bench", true);
    bool other_locale = setlocale(LC_ALL, "de_DE.UTF-8") != NULL;
    tw_result *two = example("plant-bench", true);
    tw_text a = json_of(&arena, one), b = json_of(&arena, two);
    setlocale(LC_ALL, "C");
    assert_int_equal(a.length, b.length);
    assert_memory_equal(a.bytes, b.bytes, a.length);
    assert_true(a.length > 10000);
    if (!other_locale) print_message("# de_DE.UTF-8 is not there: the locale was not changed\n");
    tw_result_free(one);
    tw_result_free(two);
    tw_arena_finish(&arena);
}

static void many_tables_in_one_job_are_as_sound_as_one(void **state)
{
    (void)state;
    char *job = many_file("examples/reading-table/job.yaml"), *shop = many_file("examples/reading-table/shop.yaml");
    char *many = many_job(job, 25);
    tw_result *result = set_out(many, shop, false);
    expect_no_halt(result);
    tw_result_free(result);
    free(many);
    free(job);
    free(shop);
}

static void hostile_texts_end_in_a_finding_with_its_place(void **state)
{
    (void)state;
    static const char *const jobs[] = {
        "", "\n", "job", "- a\n- b\n", "{", "job: x\n", "job: x\npieces:\n", "job: x\npieces: {a: {count: 1}}\n", "job: x\npieces: {a: {count: nan, length: 1, width: 1, thickness: 1}}\n",
        "job: x\npieces: {a: {count: 1, length: -5, width: 1, thickness: 1}}\n", "job: x\npieces: {a: {count: 1, length: 1e300, width: 1, thickness: 1}}\n",
        "job: x\npieces: {a: {count: 1, length: 0, width: 1, thickness: 1}}\n", "job: x\npieces: {a: {count: 1, length: a.width, width: a.length, thickness: 1}}\n",
        "job: \"a\\nb\"\npieces: {a: {count: 1, length: 10, width: 10, thickness: 1}}\n", "\xff\xfe", "job: x\npieces: &a {b: *a}\n",
    };
    for (size_t i = 0; i < sizeof jobs / sizeof *jobs; i++) {
        tw_result *result = set_out(jobs[i], "", true);
        assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
        assert_true(tw_result_finding_count(result) > 0);
        assert_true(tw_result_finding_at(result, 0).what[0] != '\0');
        tw_arena arena = {0};
        tw_gather all = { .arena = &arena };
        tw_sink sink = tw_gather_sink(&all);
        assert_false(tw_result_put(result, TW_OUTPUT_JSON, sink.write, sink.context));
        assert_true(tw_result_put(result, TW_OUTPUT_FINDINGS_JSON, sink.write, sink.context));
        tw_arena_finish(&arena);
        tw_result_free(result);
    }
}

/* A job cut off at every byte: never a crash, never a job with nothing said. */
static void job_cut_off_anywhere_is_read_or_refused(void **state)
{
    (void)state;
    char *job = many_file("examples/plant-bench/job.yaml"), *shop = many_file("examples/plant-bench/shop.yaml");
    size_t length = strlen(job);
    for (size_t cut = 0; cut < length; cut += 13) {
        tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = cut, .job_name = "job.yaml", .shop = shop, .shop_bytes = strlen(shop), .shop_name = "shop.yaml" });
        if (tw_result_state(result) == TW_STATE_WRONG) assert_true(tw_result_finding_count(result) > 0);
        tw_result_free(result);
    }
    free(job);
    free(shop);
}

static void shop_named_by_a_job_is_found(void **state)
{
    (void)state;
    const char *job = "job: x\nshop: \"my shop.yaml\"\npieces: {\n";
    char *named = tw_shop_named_by(job, strlen(job));
    assert_string_equal(named, "my shop.yaml");
    free(named);
    assert_null(tw_shop_named_by("job: x\n", 7));
    assert_null(tw_shop_named_by("\xff", 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(examples_are_sound),
        cmocka_unit_test(same_text_gives_the_same_bytes_in_every_locale),
        cmocka_unit_test(many_tables_in_one_job_are_as_sound_as_one),
        cmocka_unit_test(hostile_texts_end_in_a_finding_with_its_place),
        cmocka_unit_test(job_cut_off_anywhere_is_read_or_refused),
        cmocka_unit_test(shop_named_by_a_job_is_found),
    };
    return cmocka_run_group_tests_name("whole", tests, NULL, NULL);
}
