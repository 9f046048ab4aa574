// SPDX-License-Identifier: GPL-3.0-or-later
/* Values as built take the place of the drawn ones, and nothing else moves: not the text, not the places of findings. */
#include "check.h"

#include "planned.h"
#include "whole.h"

static const char *const JOB =
    "job: rack\n"
    "pieces:\n"
    "  post:  {count: 2, length: 600, width: 60, thickness: 38, timber: \"Oak, white\"}  # planed\n"
    "  rail:  {count: 1, length: 500, width: rail thickness * 3, thickness: rail thickness, timber: \"Ash, white\"}\n"
    "amounts:\n"
    "  rail thickness: 20\n"
    "joints:\n"
    "  rail to post:\n"
    "    kind: mortise and tenon\n"
    "    tenon: rail\n"
    "    ends: both\n    into: post\n    from: face\n"
    "    at: [200]\n";

static tw_result *as_built(const char *job, const tw_measured *measured, size_t count)
{
    return tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = SHOP_MM,
        .shop_bytes = strlen(SHOP_MM),
                                     .shop_name = "shop.yaml", .measured = measured, .measured_count = count });
}

#define WORDS(...) (const char *const[]){ __VA_ARGS__ }, sizeof((const char *const[]){ __VA_ARGS__ }) / sizeof(char *)
#define OF_JOB(mm, ...) { TW_FILE_JOB, WORDS(__VA_ARGS__), mm }
#define OF_SHOP(mm, ...) { TW_FILE_SHOP, WORDS(__VA_ARGS__), mm }

static const tw_finding *found(const tw_result *result, const char *code)
{
    for (size_t i = 0; i < result->findings.count; i++)
        if (strcmp(result->findings.items[i].code, code) == 0) return &result->findings.items[i];
    return NULL;
}

static void nothing_measured_changes_nothing(void **state)
{
    (void)state;
    tw_result *result = as_built(JOB, NULL, 0);
    assert_non_null(result->job);
    CHECK_NEAR(result->job->pieces[0].thickness.value, 38.0, 0.0);
    assert_int_equal(result->measures.in_force_count, 0);
    tw_result_free(result);
}

static void a_measured_thickness_takes_the_place_of_the_drawn_one(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_JOB(37.4, "pieces", "post", "thickness") };
    tw_result *result = as_built(JOB, measured, 1);
    assert_non_null(result->job);
    CHECK_NEAR(result->job->pieces[0].thickness.value, 37.4, 1e-9);
    CHECK_NEAR(result->job->pieces[0].width.value, 60.0, 0.0);
    assert_int_equal(result->measures.in_force_count, 1);
    const tw_in_force *force = &result->measures.in_force[0];
    CHECK_NEAR(force->drawn.value, 38.0, 1e-9);
    CHECK_NEAR(force->built_mm, 37.4, 0.0);
    assert_true(tw_text_is(force->written, "38"));
    tw_result_free(result);
}

static void a_measured_value_takes_the_place_of_a_sum_and_the_sums_of_others_follow(void **state)
{
    (void)state;
    const tw_measured sum[] = { OF_JOB(58.5, "pieces", "rail", "width") };
    tw_result *result = as_built(JOB, sum, 1);
    CHECK_NEAR(result->job->pieces[1].width.value, 58.5, 1e-9);
    CHECK_NEAR(result->measures.in_force[0].drawn.value, 60.0, 1e-9);
    assert_true(tw_text_is(result->measures.in_force[0].written, "rail thickness * 3"));
    tw_result_free(result);
    const tw_measured base[] = { OF_JOB(19.5, "amounts", "rail thickness") };
    result = as_built(JOB, base, 1);
    CHECK_NEAR(result->job->pieces[1].thickness.value, 19.5, 1e-9);
    CHECK_NEAR(result->job->pieces[1].width.value, 58.5, 1e-9);
    tw_result_free(result);
}

static void an_item_of_a_list_is_measured_alone(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_JOB(201.5, "joints", "rail to post", "at", "1") };
    tw_result *result = as_built(JOB, measured, 1);
    assert_non_null(result->job);
    assert_int_equal(result->measures.in_force_count, 1);
    CHECK_NEAR(result->measures.in_force[0].drawn.value, 200.0, 1e-9);
    tw_result_free(result);
}

static void bare_numbers_of_an_inch_job_do_not_turn_a_measurement_into_inches(void **state)
{
    (void)state;
    static const char *const inches =
        "job: bar\nunits: in\npieces:\n  bar: {length: 20, width: 2, thickness: 1-1/2, timber: \"Oak, white\"}\n";
    const tw_measured measured[] = { OF_JOB(37.0, "pieces", "bar", "thickness") };
    tw_result *result = as_built(inches, measured, 1);
    CHECK_NEAR(result->job->pieces[0].thickness.value, 37.0, 1e-9);
    CHECK_NEAR(result->measures.in_force[0].drawn.value, 38.1, 1e-9);
    tw_result_free(result);
}

static void a_cutter_that_was_never_measured_is_drawn_as_sold(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_SHOP(7.94, "cutters", "eight", "measured"),
        OF_SHOP(15.97, "followers", "sixteen", "measured") };
    tw_result *result = as_built(JOB, measured, 2);
    assert_non_null(result->shop);
    CHECK_NEAR(result->shop->cutters[0].d_mm, 7.94, 1e-9);
    CHECK_NEAR(result->shop->followers[0].b_mm, 15.97, 1e-9);
    CHECK_NEAR(result->measures.in_force[0].drawn.value, 8.0, 1e-9);
    CHECK_NEAR(result->measures.in_force[1].drawn.value, 16.0, 1e-9);
    assert_int_equal(result->measures.in_force[0].written.length, 0);
    tw_result_free(result);
}

static void the_last_measurement_of_a_value_counts(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_SHOP(7.9, "cutters", "eight", "measured"), OF_JOB(37.0, "pieces", "post", "thickness"),
                                     OF_SHOP(7.96, "cutters", "eight", "measured") };
    tw_result *result = as_built(JOB, measured, 3);
    CHECK_NEAR(result->shop->cutters[0].d_mm, 7.96, 1e-9);
    assert_int_equal(result->measures.in_force_count, 2);
    tw_result_free(result);
}

static void what_stands_nowhere_any_more_is_left_aside_with_a_note(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_JOB(37.0, "pieces", "leg", "thickness"), OF_JOB(5.0, "pieces", "post", "depth"),
        OF_JOB(5.0, "pieces", "post"),
                                     OF_SHOP(8.0, "cutters", "nine", "measured"), OF_SHOP(8.0, "pins", "ten", "measured") };
    tw_result *result = as_built(JOB, measured, 5);
    assert_non_null(result->job);
    assert_int_equal(result->measures.in_force_count, 0);
    size_t notes = 0;
    for (size_t i = 0; i < result->findings.count; i++) {
        if (strcmp(result->findings.items[i].code, "measured-nowhere") != 0) continue;
        assert_int_equal(result->findings.items[i].level, TW_NOTE);
        notes++;
    }
    assert_int_equal(notes, 5);
    CHECK_HOLDS(found(result, "measured-nowhere")->what, "no such value any more");
    tw_result_free(result);
}

static void a_fault_in_the_drawn_value_is_still_told(void **state)
{
    (void)state;
    static const char *const job = "job: bar\npieces:\n"
        "  bar: {length: 20, width: 2, thickness: twelve, timber: \"Oak, white\"}\n";
    const tw_measured measured[] = { OF_JOB(37.0, "pieces", "bar", "thickness") };
    tw_result *result = as_built(job, measured, 1);
    assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
    CHECK_HOLDS(result->findings.items[0].what, "twelve");
    assert_int_equal(result->findings.items[0].place.line, 3);
    assert_int_equal(result->findings.items[0].place.column, 42);
    tw_result_free(result);
}

static void a_measured_value_out_of_its_range_is_refused_at_the_makers_own_place(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_JOB(-2.0, "pieces", "post", "thickness") };
    tw_result *result = as_built(JOB, measured, 1);
    assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
    CHECK_HOLDS(result->findings.items[0].what, "-2 mm");
    assert_int_equal(result->findings.items[0].place.line, 3);
    assert_int_equal(result->findings.items[0].place.column, 56);
    tw_result_free(result);
    const tw_measured cutter[] = { OF_SHOP(9.5, "cutters", "eight", "measured") };  // it was sold as 8
    result = as_built(JOB, cutter, 1);
    assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
    CHECK_HOLDS(found(result, "measured-far")->what, "9.5 mm as measured");
    tw_result_free(result);
}

/* Every finding stands where it stands without the measurement, though texts of other lengths took part. */
static void findings_keep_the_places_of_the_makers_text(void **state)
{
    (void)state;
    static const char *const job =
        "job: rack\npieces:\n"
        "  post:  {count: 2, length: 600, width: 60, thickness: 3 * 12 mm, timber: \"Oak, white\"}\n"
        "  rail:  {count: 1, length: 500, width: 60, thickness: 20, timber: Unknown wood}\n"
        "joints:\n  rail to post: {kind: mortise and tenon, tenon: rail, ends: both, into: post, from: face, at: 200, "
        "tenon thickness: 19}\n";
    const tw_measured measured[] = { OF_JOB(35.123456, "pieces", "post", "thickness") };
    tw_result *plain = as_built(job, NULL, 0), *built = as_built(job, measured, 1);
    assert_true(plain->findings.count > 1);
    for (size_t i = 0; i < plain->findings.count; i++) {
        const tw_finding *one = &plain->findings.items[i], *other = found(built, one->code);
        if (!other) fail_msg("%s is not said any more", one->code);
        assert_int_equal(one->place.line, other->place.line);
        assert_int_equal(one->place.column, other->place.column);
    }
    tw_result_free(plain);
    tw_result_free(built);
}

static void the_tree_keeps_what_the_maker_wrote(void **state)
{
    (void)state;
    const tw_measured measured[] = { OF_JOB(58.5, "pieces", "rail", "width") };
    tw_result *result = as_built(JOB, measured, 1);
    const char *const path[] = { "pieces", "rail", "width" };
    tw_span span;
    assert_true(tw_value_span(JOB, strlen(JOB), path, 3, &span));
    assert_memory_equal(JOB + span.begin, "rail thickness * 3", 18);
    tw_result_free(result);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_measured_changes_nothing),
        cmocka_unit_test(a_measured_thickness_takes_the_place_of_the_drawn_one),
        cmocka_unit_test(a_measured_value_takes_the_place_of_a_sum_and_the_sums_of_others_follow),
        cmocka_unit_test(an_item_of_a_list_is_measured_alone),
        cmocka_unit_test(bare_numbers_of_an_inch_job_do_not_turn_a_measurement_into_inches),
        cmocka_unit_test(a_cutter_that_was_never_measured_is_drawn_as_sold),
        cmocka_unit_test(the_last_measurement_of_a_value_counts),
        cmocka_unit_test(what_stands_nowhere_any_more_is_left_aside_with_a_note),
        cmocka_unit_test(a_fault_in_the_drawn_value_is_still_told),
        cmocka_unit_test(a_measured_value_out_of_its_range_is_refused_at_the_makers_own_place),
        cmocka_unit_test(findings_keep_the_places_of_the_makers_text),
        cmocka_unit_test(the_tree_keeps_what_the_maker_wrote),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
