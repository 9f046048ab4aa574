// SPDX-License-Identifier: GPL-3.0-or-later
/* What two cuts share and leave between them, against closed forms. */
#include "check.h"

#include "piece/between.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_size BOARD = { 400, 100, 40 };

static tw_cut cut_of(tw_face face, tw_outline outline, double depth) { return (tw_cut){ .face = face, .outline = outline, .depth_mm = depth }; }
static tw_cut rectangle(tw_face face, double x0, double y0, double x1, double y1, double depth) { return cut_of(face, tw_outline_rectangle(&arena, x0, y0, x1, y1), depth); }
static tw_wood wood_of(const tw_cut *cuts, int count) { return tw_wood_make(&arena, BOARD, cuts, count); }

/* 100..160 from the face 25 deep and 150..200 from the face edge 50 deep, z 10..30: share 10 long, y 30..45, z 15..30. */
static void two_mortises_from_two_sides_share_a_block(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 30, 160, 45, 25), rectangle(TW_SIDE_FACE_EDGE, 150, 10, 200, 30, 50) };
    tw_wood wood = wood_of(cuts, 2);
    tw_shared shared = tw_cuts_share(&wood, 0, 1);
    CHECK_NEAR(shared.volume_mm3, 10.0 * 15 * 15, 1e-9);
    CHECK_NEAR(shared.box.least.x, 150, 1e-9);
    CHECK_NEAR(shared.box.most.y, 45, 1e-9);
    CHECK_NEAR(shared.box.least.z, 15, 1e-9);
}

/* Blocks around two round holes meet at their corners, the holes do not: middles 30 and 40 apart along and across, radius 20. */
static void round_holes_whose_blocks_meet_may_stand_apart(void **state)
{
    (void)state;
    tw_cut cuts[] = { cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 100, 30 }, 20), 30), cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 130, 66 }, 20), 30) };
    tw_wood wood = wood_of(cuts, 2);
    CHECK_NEAR(tw_cuts_share(&wood, 0, 1).volume_mm3, 0.0, 0.0);  // 46.9 apart, 40 would touch
}

/* Two bores of one radius that cross square share 16 r^3/3 (the old vault of two barrels). */
static void two_bores_that_cross_share_sixteen_thirds_of_r_cubed(void **state)
{
    (void)state;
    tw_cut cuts[] = { cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 200, 50 }, 12), 40), cut_of(TW_SIDE_FACE_EDGE, tw_outline_circle(&arena, (tw_point){ 200, 20 }, 12), 100) };
    tw_wood wood = wood_of(cuts, 2);
    CHECK_NEAR(tw_cuts_share(&wood, 0, 1).volume_mm3, 16.0 * 1728.0 / 3.0, 0.005 * 16.0 * 1728.0 / 3.0);
}

static void housings_from_both_faces_leave_a_web(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 0, 120, 100, 20), rectangle(TW_SIDE_BACK, 110, 0, 130, 100, 18) };
    tw_wood wood = wood_of(cuts, 2);
    tw_between web = tw_cuts_between(&wood, 0, 1, TW_AXIS_Z, 3.0);
    assert_true(web.found);
    CHECK_NEAR(web.least_mm, 2.0, 1e-9);
    CHECK_NEAR(web.area_mm2, 1000.0, 1e-6);
    assert_false(tw_cuts_between(&wood, 0, 1, TW_AXIS_Z, 2.0).found);
}

static void cuts_that_meet_in_the_middle_leave_nothing(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 0, 120, 100, 22), rectangle(TW_SIDE_BACK, 110, 0, 130, 100, 18) };
    tw_wood wood = wood_of(cuts, 2);
    tw_between web = tw_cuts_between(&wood, 0, 1, TW_AXIS_Z, 3.0);
    assert_true(web.found);
    CHECK_NEAR(web.least_mm, 0.0, 0.0);
    CHECK_NEAR(tw_cuts_share(&wood, 0, 1).volume_mm3, 0.0, 0.0);
}

static void wood_that_a_third_cut_takes_is_no_wall(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 0, 120, 100, 20), rectangle(TW_SIDE_BACK, 110, 0, 130, 100, 18), rectangle(TW_SIDE_FACE_EDGE, 90, 10, 140, 30, 100) };
    tw_wood wood = wood_of(cuts, 3);
    assert_false(tw_cuts_between(&wood, 0, 1, TW_AXIS_Z, 3.0).found);
}

/* A mortise 2.5 from the face edge, 1.5 of floor. Open through the other side there is no wall there. */
static void walls_to_the_sides_are_found(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 2.5, 160, 20, 38.5) };
    tw_wood wood = wood_of(cuts, 1);
    tw_between edge = tw_cuts_between(&wood, 0, -1, TW_AXIS_Y, 3.0), floor_of = tw_cuts_between(&wood, 0, -1, TW_AXIS_Z, 3.0);
    CHECK_NEAR(edge.least_mm, 2.5, 1e-9);
    CHECK_NEAR(floor_of.least_mm, 1.5, 1e-9);
    assert_false(tw_cuts_between(&wood, 0, -2, TW_AXIS_Y, 3.0).found);
    assert_false(tw_cuts_between(&wood, 0, -2, TW_AXIS_Z, 3.0).found);  // open at the face
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_mortises_from_two_sides_share_a_block),
        cmocka_unit_test(round_holes_whose_blocks_meet_may_stand_apart),
        cmocka_unit_test(two_bores_that_cross_share_sixteen_thirds_of_r_cubed),
        cmocka_unit_test(housings_from_both_faces_leave_a_web),
        cmocka_unit_test(cuts_that_meet_in_the_middle_leave_nothing),
        cmocka_unit_test(wood_that_a_third_cut_takes_is_no_wall),
        cmocka_unit_test(walls_to_the_sides_are_found),
    };
    return cmocka_run_group_tests_name("between", tests, NULL, finish);
}
