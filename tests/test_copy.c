// SPDX-License-Identifier: GPL-3.0-or-later
/* Copying geometry on cuts whose answer can be worked by hand. Sources: the sums of docs/how-it-works.md worked by hand;
 * published checks 8-12 to 8-15 on guide bushes and copying ratios (tests/outside/router.tsv has the whole list); facts
 * marked so are common practice. */
#include "check.h"

#include "template/copy.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static tw_copy reckon(tw_outline cut, bool inside, double cutter_mm, double follower_mm, double ratio)
{
    return tw_copy_reckon(&arena, (tw_copy_ask){ .cut = cut, .inside = inside, .cutter_mm = cutter_mm, .follower_mm = follower_mm, .ratio = ratio });
}

static tw_outline rectangle(double width, double height) { return tw_outline_rectangle(&arena, 0.0, 0.0, width, height); }

static void check_size(tw_outline outline, double width, double height)
{
    tw_box box = tw_outline_bounds(outline);
    CHECK_NEAR(box.x1 - box.x0, width, 1e-9);
    CHECK_NEAR(box.y1 - box.y0, height, 1e-9);
}

static void pocket_has_a_template_of_r_times_w_less_d_and_b(void **state)
{
    (void)state;
    tw_copy copy = reckon(rectangle(30.0, 60.0), true, 9.525, 16.0, 2.0);
    assert_true(copy.ok);
    check_size(copy.cutter_path, 30.0 - 9.525, 60.0 - 9.525);
    check_size(copy.template_, 2.0 * (30.0 - 9.525) + 16.0, 2.0 * (60.0 - 9.525) + 16.0);
    assert_int_equal(copy.template_.loops[0].count, 4);  // square corners: strips serve
    for (int i = 0; i < 4; i++) CHECK_NEAR(copy.template_.loops[0].vertices[i].bulge, 0.0, 0.0);
    CHECK_NEAR(copy.left_area_mm2, (4.0 - TW_PI) * tw_square(9.525 / 2.0), 1e-6);
    assert_int_equal(copy.left_count, 4);
    CHECK_NEAR(copy.lost_area_mm2, 0.0, 0.0);
    CHECK_NEAR(copy.corner_radius_mm, 4.7625, 1e-12);
    CHECK_NEAR(copy.error_mm, 0.0, 1e-6);
}

/* Checks 8-14 and 8-15: ratio cut/traced 0.5, cutter 6, followers 12 and 10, 30 wide: 60 and 60, 62 and 58. */
static void tenon_and_mortise_of_the_published_ratio_example_come_out(void **state)
{
    (void)state;
    check_size(reckon(rectangle(30.0, 30.0), false, 6.0, 12.0, 2.0).template_, 60.0, 60.0);
    check_size(reckon(rectangle(30.0, 30.0), true, 6.0, 12.0, 2.0).template_, 60.0, 60.0);
    check_size(reckon(rectangle(30.0, 30.0), false, 6.0, 10.0, 2.0).template_, 62.0, 62.0);
    check_size(reckon(rectangle(30.0, 30.0), true, 6.0, 10.0, 2.0).template_, 58.0, 58.0);
    CHECK_NEAR(tw_copy_width_mm(30.0, false, 6.0, 10.0, 2.0), 62.0, 1e-12);
    CHECK_NEAR(tw_copy_width_mm(30.0, true, 6.0, 10.0, 2.0), 58.0, 1e-12);
    CHECK_NEAR(tw_copy_fit_mm(true, 12.0, 11.0, 2.0), 0.5, 1e-12);
    CHECK_NEAR(tw_copy_fit_mm(false, 12.0, 11.0, 2.0), -0.5, 1e-12);
}

/* Checks 8-12 and 8-13: guide bush at ratio 1, in inches: opening 8 x 4 with a 3/4 bush and a 1/4 cutter: 8 1/2 x 4 1/2;
 * a 6 in hole with a 5/16 bush and a 1/4 cutter: 6 1/16. */
static void guide_bush_offsets_of_published_examples_come_out(void **state)
{
    (void)state;
    double in = 25.4;
    check_size(reckon(rectangle(8 * in, 4 * in), true, in / 4, 3 * in / 4, 1.0).template_, 8.5 * in, 4.5 * in);
    tw_copy hole = reckon(tw_outline_circle(&arena, (tw_point){ 0, 0 }, 3 * in), true, in / 4, 5 * in / 16, 1.0);
    check_size(hole.template_, 6.0625 * in, 6.0625 * in);
    CHECK_NEAR(hole.left_area_mm2, 0.0, 0.0);
}

/* Common practice: a 3/8 in cutter with a 19 mm follower makes the template very nearly twice the cut. */
static void three_eighths_cutter_and_19_mm_follower_give_nearly_twice_the_cut(void **state)
{
    (void)state;
    tw_copy copy = reckon(rectangle(20.0, 50.0), true, 9.525, 19.0, 2.0);
    check_size(copy.template_, 40.0 - 0.05, 100.0 - 0.05);
    copy = reckon(rectangle(20.0, 50.0), true, 9.525, 19.05, 2.0);
    check_size(copy.template_, 40.0, 100.0);
    bool said = false;
    for (int i = 0; i < copy.note_count; i++) said |= strstr(copy.notes[i], "2 times the cut") != NULL;
    assert_true(said);
}

/* A bush of 30 on a cutter of 12.7 at ratio 1 rounds outward corners to (30 - 12.7)/2 = 8.65. */
static void large_follower_rounds_the_corners_of_a_tenon(void **state)
{
    (void)state;
    tw_copy copy = reckon(rectangle(40.0, 60.0), false, 12.7, 30.0, 1.0);
    assert_true(copy.ok);
    CHECK_NEAR(copy.lost_radius_mm, 8.65, 1e-12);
    CHECK_NEAR(copy.lost_area_mm2, (4.0 - TW_PI) * tw_square(8.65), 1e-6);
    assert_int_equal(copy.lost_count, 4);
    CHECK_NEAR(copy.left_area_mm2, 0.0, 0.0);
    CHECK_HOLDS(copy.notes[0], "wood is lost in 4 places");
    check_size(copy.achieved, 40.0, 60.0);
}

static void follower_of_r_times_d_loses_nothing_of_a_tenon(void **state)
{
    (void)state;
    tw_copy copy = reckon(rectangle(12.0, 38.0), false, 9.525, 19.05, 2.0);
    assert_true(copy.ok);
    CHECK_NEAR(copy.lost_area_mm2, 0.0, 0.0);
    CHECK_NEAR(copy.lost_radius_mm, 0.0, 0.0);
    CHECK_NEAR(tw_outline_difference_mm(&arena, copy.achieved, rectangle(12.0, 38.0)), 0.0, 1e-6);
}

static void hollow_corner_of_a_tenon_keeps_wood(void **state)
{
    (void)state;
    const tw_vertex ell[] = { { 0, 0, 0 }, { 40, 0, 0 }, { 40, 20, 0 }, { 20, 20, 0 }, { 20, 40, 0 }, { 0, 40, 0 } };
    tw_copy copy = reckon(tw_outline_of_loop(&arena, ell, 6), false, 8.0, 16.0, 2.0);
    assert_true(copy.ok);
    CHECK_NEAR(copy.left_area_mm2, (1.0 - TW_PI / 4.0) * 16.0, 1e-6);
    assert_int_equal(copy.left_count, 1);
    CHECK_NEAR(copy.lost_area_mm2, 0.0, 1e-9);
}

static void corner_that_points_into_a_pocket_is_lost_to_a_large_follower(void **state)
{
    (void)state;
    const tw_vertex ell[] = { { 0, 0, 0 }, { 80, 0, 0 }, { 80, 40, 0 }, { 40, 40, 0 }, { 40, 80, 0 }, { 0, 80, 0 } };
    tw_copy copy = reckon(tw_outline_of_loop(&arena, ell, 6), true, 8.0, 24.0, 2.0);
    assert_true(copy.ok);
    CHECK_NEAR(copy.lost_radius_mm, 2.0, 1e-12);
    CHECK_NEAR(copy.lost_area_mm2, (1.0 - TW_PI / 4.0) * 4.0, 1e-6);
    CHECK_NEAR(copy.left_area_mm2, 5.0 * (1.0 - TW_PI / 4.0) * 16.0, 1e-6);
}

static void slot_of_the_cutters_own_width_has_a_path_there_and_back(void **state)
{
    (void)state;
    tw_copy copy = reckon(rectangle(60.0, 8.0), true, 8.0, 16.0, 2.0);
    assert_true(copy.ok);
    assert_true(copy.tight);
    tw_box tight = tw_outline_bounds(copy.template_);
    CHECK_NEAR(tight.x1 - tight.x0, 2.0 * 52.0 + 16.0, 1e-5);
    CHECK_NEAR(tight.y1 - tight.y0, 16.0, 1e-5);
    tw_copy loose = tw_copy_reckon(&arena, (tw_copy_ask){ rectangle(60.0, 8.0), true, 8.0, 16.0, 2.0, 0.1, NULL });
    CHECK_NEAR(loose.play_mm, 0.1, 1e-12);
    tw_box box = tw_outline_bounds(loose.template_);
    CHECK_NEAR(box.y1 - box.y0, 16.1, 1e-6);
    CHECK_NEAR(loose.error_mm, 0.0, TW_COPY_TRUE_MM);
}

static void cutter_too_large_for_a_pocket_is_refused_with_the_largest_that_goes_in(void **state)
{
    (void)state;
    tw_copy copy = reckon(rectangle(60.0, 8.0), true, 9.525, 16.0, 2.0);
    assert_false(copy.ok);
    CHECK_NEAR(copy.cutter_most_mm, 8.0, 1e-5);
    CHECK_HOLDS(copy.why, "9.525 mm does not go into");
    CHECK_HOLDS(copy.remedy, "at most 8.00 mm");
}

static void follower_too_large_for_a_tenon_is_refused_with_the_largest_that_serves(void **state)
{
    (void)state;
    // r (w + d) = 2 (6 + 6) = 24: a follower of 25 leaves nothing
    tw_copy copy = reckon(rectangle(6.0, 40.0), false, 6.0, 25.0, 2.0);
    assert_false(copy.ok);
    CHECK_NEAR(copy.follower_most_mm, 24.0, 1e-5);
    CHECK_HOLDS(copy.remedy, "24.00 mm");
}

static void sharp_corner_of_a_housing_keeps_its_template_small(void **state)
{
    (void)state;
    // a wedge with a tip of 20 degrees: the square corner would run far out, so it is cut off square
    const tw_vertex wedge[] = { { 0, 0, 0 }, { 100, -17.6327, 0 }, { 100, 17.6327, 0 } };
    tw_copy copy = reckon(tw_outline_of_loop(&arena, wedge, 3), true, 6.0, 12.0, 2.0);
    assert_true(copy.ok);
    tw_box template_ = tw_outline_bounds(copy.template_), path = tw_outline_bounds(copy.follower_path);
    CHECK_NEAR(path.x0 - template_.x0, 6.0, 1e-6);
    CHECK_NEAR(copy.error_mm, 0.0, TW_COPY_TRUE_MM);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(pocket_has_a_template_of_r_times_w_less_d_and_b, finish),
        cmocka_unit_test_teardown(tenon_and_mortise_of_the_published_ratio_example_come_out, finish),
        cmocka_unit_test_teardown(guide_bush_offsets_of_published_examples_come_out, finish),
        cmocka_unit_test_teardown(three_eighths_cutter_and_19_mm_follower_give_nearly_twice_the_cut, finish),
        cmocka_unit_test_teardown(large_follower_rounds_the_corners_of_a_tenon, finish),
        cmocka_unit_test_teardown(follower_of_r_times_d_loses_nothing_of_a_tenon, finish),
        cmocka_unit_test_teardown(hollow_corner_of_a_tenon_keeps_wood, finish),
        cmocka_unit_test_teardown(corner_that_points_into_a_pocket_is_lost_to_a_large_follower, finish),
        cmocka_unit_test_teardown(slot_of_the_cutters_own_width_has_a_path_there_and_back, finish),
        cmocka_unit_test_teardown(cutter_too_large_for_a_pocket_is_refused_with_the_largest_that_goes_in, finish),
        cmocka_unit_test_teardown(follower_too_large_for_a_tenon_is_refused_with_the_largest_that_serves, finish),
        cmocka_unit_test_teardown(sharp_corner_of_a_housing_keeps_its_template_small, finish),
    };
    return cmocka_run_group_tests_name("copy", tests, NULL, NULL);
}
