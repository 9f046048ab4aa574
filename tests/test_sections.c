// SPDX-License-Identifier: GPL-3.0-or-later
/* Volume, centre and sections against closed forms: blocks, cylinders, wedges, a dovetail groove, leaning prisms. */
#include "check.h"

#include "piece/marks.h"
#include "piece/sections.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_size BOARD = { 400, 100, 40 };
#define WHOLE (400.0 * 100.0 * 40.0)

static tw_cut cut_of(tw_face face, tw_outline outline, double depth) { return (tw_cut){ .face = face, .outline = outline, .depth_mm = depth }; }
static tw_cut rectangle(tw_face face, double x0, double y0, double x1, double y1, double depth) { return cut_of(face, tw_outline_rectangle(&arena, x0, y0, x1, y1), depth); }
static tw_cut polygon(tw_face face, const tw_vertex *v, int count, double depth) { return cut_of(face, tw_outline_of_loop(&arena, v, count), depth); }

static tw_bulk bulk_of(const tw_cut *cuts, int count)
{
    tw_wood wood = tw_wood_make(&arena, BOARD, cuts, count);
    return tw_bulk_make(&wood);
}

static tw_slice section_of(const tw_cut *cuts, int count, double x)
{
    tw_wood wood = tw_wood_make(&arena, BOARD, cuts, count);
    return tw_slice_at(&wood, x);
}

/* b h^3/12 both ways. */
static void whole_board_has_the_moments_of_a_rectangle(void **state)
{
    (void)state;
    tw_bulk bulk = bulk_of(NULL, 0);
    CHECK_NEAR(bulk.volume_mm3, WHOLE, 1e-6);
    CHECK_NEAR(bulk.centre.x, 200, 1e-9);
    CHECK_NEAR(bulk.centre.y, 50, 1e-9);
    CHECK_NEAR(bulk.centre.z, 20, 1e-9);
    CHECK_NEAR(bulk.least_area.area_mm2, 4000, 1e-9);
    CHECK_NEAR(bulk.least_area.about_y_mm4, 100.0 * 64000.0 / 12.0, 1e-6);
    CHECK_NEAR(bulk.least_area.about_z_mm4, 40.0 * 1e6 / 12.0, 1e-5);
    CHECK_NEAR(bulk.least_area.strong_mm4, 40.0 * 1e6 / 12.0, 1e-5);
    CHECK_NEAR(bulk.least_area.weak_mm4, 100.0 * 64000.0 / 12.0, 1e-5);
    assert_false(bulk.severed);
}

/* Housing 20 wide at 100, 10 deep across the face: 20 x 100 x 10 = 20000 goes, at (110, 50, 35). */
static void housing_moves_the_centre_away_from_itself(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 100, 0, 120, 100, 10);
    tw_bulk bulk = bulk_of(&cut, 1);
    CHECK_NEAR(bulk.volume_mm3, 1580000.0, 1e-6);
    CHECK_NEAR(bulk.centre.x, (1600000.0 * 200 - 20000.0 * 110) / 1580000.0, 1e-9);
    CHECK_NEAR(bulk.centre.y, 50, 1e-9);
    CHECK_NEAR(bulk.centre.z, (1600000.0 * 20 - 20000.0 * 35) / 1580000.0, 1e-9);
    CHECK_NEAR(bulk.least_area.x_mm, 110, 1e-9);
    CHECK_NEAR(bulk.least_area.area_mm2, 3000, 1e-9);
    CHECK_NEAR(bulk.least_area.z_mm, 15, 1e-9);
    CHECK_NEAR(bulk.least_about_y.about_y_mm4, 100.0 * 27000.0 / 12.0, 1e-6);
}

/* Hole of radius 10 through the face at (200, 50). The middle section lacks 20 of 100 in width. */
static void drilled_hole_takes_pi_r_squared(void **state)
{
    (void)state;
    tw_cut cut = cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 200, 50 }, 10), 0);
    cut.through = true;
    tw_bulk bulk = bulk_of(&cut, 1);
    CHECK_NEAR(bulk.volume_mm3, WHOLE - TW_PI * 100.0 * 40.0, 1e-4);
    CHECK_NEAR(bulk.least_area.x_mm, 200, 0.02);  // a place is as good as another within a millionth of the area
    CHECK_NEAR(bulk.least_area.area_mm2, 3200, 4e-3);
    CHECK_NEAR(bulk.least_about_z.about_z_mm4, 40.0 * (1e6 - 8000.0) / 12.0, 1.0);
}

/* A bore along the grain, radius 8 in the middle of the end: A less pi r^2, I less pi r^4/4. */
static void bore_along_the_grain_takes_the_moments_of_a_circle(void **state)
{
    (void)state;
    tw_cut cut = cut_of(TW_SIDE_LEFT_END, tw_outline_circle(&arena, (tw_point){ 50, 20 }, 8), 0);
    cut.through = true;
    tw_bulk bulk = bulk_of(&cut, 1);
    CHECK_NEAR(bulk.volume_mm3, WHOLE - TW_PI * 64.0 * 400.0, 1e-3);
    CHECK_NEAR(bulk.least_area.area_mm2, 4000 - TW_PI * 64.0, 1e-5);
    CHECK_NEAR(bulk.least_area.about_y_mm4, 100.0 * 64000.0 / 12.0 - TW_PI * 4096.0 / 4.0, 1e-3);
    CHECK_NEAR(bulk.least_area.about_z_mm4, 40.0 * 1e6 / 12.0 - TW_PI * 4096.0 / 4.0, 1e-3);
}

/* A leg tapered on the back edge from the full 100 at the left end to 60 at the right: a triangle 400 x 40 goes. */
static void taper_takes_a_triangle_and_is_weakest_at_its_thin_end(void **state)
{
    (void)state;
    const tw_vertex wedge[] = { { 0, 100, 0 }, { 400, 60, 0 }, { 400, 100, 0 } };
    tw_cut cut = polygon(TW_SIDE_FACE, wedge, 3, 40);
    tw_bulk bulk = bulk_of(&cut, 1);
    double gone = 400.0 * 40.0 / 2.0 * 40.0;
    CHECK_NEAR(bulk.volume_mm3, WHOLE - gone, 1e-5);
    CHECK_NEAR(bulk.centre.x, (WHOLE * 200 - gone * 800.0 / 3.0) / (WHOLE - gone), 1e-7);
    CHECK_NEAR(bulk.centre.y, (WHOLE * 50 - gone * 260.0 / 3.0) / (WHOLE - gone), 1e-7);
    CHECK_NEAR(bulk.least_area.area_mm2, 2400, 1e-2);
    CHECK_NEAR(bulk.least_area.x_mm, 400, 1e-3);
}

/* A dovetail groove across the face, seen on the face edge: mouth 20, bottom 30, 15 deep: 375 x 100. */
static void dovetail_groove_takes_its_trapezoid(void **state)
{
    (void)state;
    const tw_vertex groove[] = { { 190, 40, 0 }, { 185, 25, 0 }, { 215, 25, 0 }, { 210, 40, 0 } };
    tw_cut cut = polygon(TW_SIDE_FACE_EDGE, groove, 4, 0);
    cut.through = true;
    tw_bulk bulk = bulk_of(&cut, 1);
    CHECK_NEAR(bulk.volume_mm3, WHOLE - 37500.0, 1e-5);
    CHECK_NEAR(bulk.least_area.area_mm2, 2500, 1e-9);
    tw_slice s = section_of(&cut, 1, 187);  // 40 % of the way up its slope: from 25 to 25 + 6 goes... 187 is 2 of 5 along, so 6 high
    CHECK_NEAR(s.area_mm2, 100.0 * (25.0 + (40.0 - 31.0)), 1e-9);
}

/* Leaning shears the prism: what it takes stays outline x depth, and its middle moves by half the lean. */
static void leaning_prism_takes_as_much_as_an_upright_one(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 150, 40, 210, 55, 30);
    cut.lean_right = 0.2;
    cut.lean_up = -0.3;
    tw_bulk bulk = bulk_of(&cut, 1);
    double gone = 60.0 * 15.0 * 30.0;
    CHECK_NEAR(bulk.volume_mm3, WHOLE - gone, 1e-2);
    CHECK_NEAR(bulk.centre.x, (WHOLE * 200 - gone * 183.0) / (WHOLE - gone), 1e-5);
    CHECK_NEAR(bulk.centre.y, (WHOLE * 50 - gone * 43.0) / (WHOLE - gone), 1e-5);
    CHECK_NEAR(bulk.centre.z, (WHOLE * 20 - gone * 25.0) / (WHOLE - gone), 1e-5);
}

static void leaning_bore_takes_pi_r_squared_for_each_mm_of_depth(void **state)
{
    (void)state;
    tw_cut cut = cut_of(TW_SIDE_FACE_EDGE, tw_outline_circle(&arena, (tw_point){ 200, 20 }, 6), 70);
    cut.lean_right = -0.4;
    cut.lean_up = 0.05;
    CHECK_NEAR(bulk_of(&cut, 1).volume_mm3, WHOLE - TW_PI * 36.0 * 70.0, 1e-4 * TW_PI * 36.0 * 70.0);
    cut.face = TW_SIDE_LEFT_END;
    cut.outline = tw_outline_circle(&arena, (tw_point){ 50, 20 }, 6);
    cut.lean_right = 0.2;
    CHECK_NEAR(bulk_of(&cut, 1).volume_mm3, WHOLE - TW_PI * 36.0 * 70.0, 1e-4 * TW_PI * 36.0 * 70.0);
}

/* Two trenches that cross: 20 x 100 x 10 and 400 x 30 x 15, common 20 x 30 x 10. */
static void wood_that_two_cuts_take_counts_once(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 0, 120, 100, 10), rectangle(TW_SIDE_FACE, 0, 50, 400, 80, 15) };
    CHECK_NEAR(bulk_of(cuts, 2).volume_mm3, WHOLE - 20000.0 - 180000.0 + 6000.0, 1e-6);
}

/* What a rebate 60 x 30 leaves of 100 x 40: an angle of 100 x 10 and 40 x 30 above it. With y from the face edge, z from the back:
 * a: 1000 at (50, 5), b: 1200 at (80, 25). y0 = (50000 + 96000)/2200, z0 = (5000 + 30000)/2200;
 * Iy = 100 10^3/12 + 1000 (z0 - 5)^2 + 40 30^3/12 + 1200 (25 - z0)^2, Iz and Iyz likewise. */
static void angle_section_bends_about_its_own_axes(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 0, 0, 400, 60, 30);
    tw_slice s = section_of(&cut, 1, 123);
    double y0 = 146000.0 / 2200.0, z0 = 35000.0 / 2200.0;
    double iy = 100e3 / 12.0 + 1000.0 * tw_square(z0 - 5) + 40.0 * 27000.0 / 12.0 + 1200.0 * tw_square(25 - z0);
    double iz = 10e6 / 12.0 + 1000.0 * tw_square(y0 - 50) + 30.0 * 64000.0 / 12.0 + 1200.0 * tw_square(80 - y0);
    double both = 1000.0 * (50 - y0) * (5 - z0) + 1200.0 * (80 - y0) * (25 - z0);
    CHECK_NEAR(s.area_mm2, 2200, 1e-9);
    CHECK_NEAR(s.y_mm, y0, 1e-9);
    CHECK_NEAR(s.z_mm, z0, 1e-9);
    CHECK_NEAR(s.about_y_mm4, iy, 1e-5);
    CHECK_NEAR(s.about_z_mm4, iz, 1e-5);
    CHECK_NEAR(s.strong_mm4 + s.weak_mm4, iy + iz, 1e-4);         // the sum and the product of the main two are those of the matrix
    CHECK_NEAR(s.strong_mm4 * s.weak_mm4 / 1e10, (iy * iz - both * both) / 1e10, 1e-4);
}

/* Tenon 12 thick, 60 high on the right end, 50 long: 30 off either... shoulders all round. The tenon is the weakest place. */
static void tenon_is_the_weakest_place_of_its_rail(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 350, -1, 401, 101, 14), rectangle(TW_SIDE_BACK, 350, -1, 401, 101, 14),
                      rectangle(TW_SIDE_FACE_EDGE, 350, -1, 401, 41, 20), rectangle(TW_SIDE_BACK_EDGE, 350, -1, 401, 41, 20) };
    tw_bulk bulk = bulk_of(cuts, 4);
    CHECK_NEAR(bulk.volume_mm3, 350.0 * 4000.0 + 50.0 * 60.0 * 12.0, 1e-6);
    CHECK_NEAR(bulk.least_area.area_mm2, 720, 1e-9);
    CHECK_NEAR(bulk.least_area.x_mm, 375, 1e-9);
}

static void rounded_end_does_not_count_as_the_weakest_place(void **state)
{
    (void)state;
    const tw_vertex corner[] = { { 300, 0, tan(TW_PI / 8.0) }, { 400, 100, 0 }, { 401, 100, 0 }, { 401, 0, 0 } };  // a quarter circle
    tw_cut cut = polygon(TW_SIDE_FACE, corner, 4, 40);
    tw_bulk bulk = bulk_of(&cut, 1);
    CHECK_NEAR(bulk.volume_mm3, WHOLE - (1e4 - TW_PI * 1e4 / 4.0) * 40.0, 1e-2);
    CHECK_NEAR(bulk.least_area.area_mm2, 4000, 1e-9);
}

/* A tenon whose shoulders lean: 12 of 40 thick for the last 50 or so. It is still the weakest place, though its walls slope. */
static void leaning_tenon_is_the_weakest_place_too(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 350, -1, 410, 101, 14), rectangle(TW_SIDE_BACK, 350, -1, 410, 101, 14) };
    cuts[0].lean_right = 0.1;
    cuts[1].lean_right = 0.1;
    tw_bulk bulk = bulk_of(cuts, 2);
    CHECK_NEAR(bulk.least_area.area_mm2, 1200, 1e-6);
    assert_true(bulk.least_area.x_mm > 351.4 - 1e-3);  // past the deeper end of the shoulder
}

static void piece_that_is_cut_in_two_is_severed_there(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, -1, 103, 101, 25), rectangle(TW_SIDE_BACK, 102, -1, 108, 101, 20) };
    tw_bulk bulk = bulk_of(cuts, 2);
    assert_true(bulk.severed);
    CHECK_NEAR(bulk.severed_at_mm, 102.5, 1e-9);
    CHECK_NEAR(bulk.least_area.area_mm2, 0.0, 0.0);
}

static void end_that_is_cut_off_only_shortens_the_piece(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_LEFT_END, -1, -1, 101, 41, 25);
    tw_bulk bulk = bulk_of(&cut, 1);
    assert_false(bulk.severed);
    CHECK_NEAR(bulk.volume_mm3, 375.0 * 4000.0, 1e-6);
    CHECK_NEAR(bulk.least_area.area_mm2, 4000, 1e-9);
    CHECK_NEAR(bulk.centre.x, 212.5, 1e-9);
}

static void marks_stand_at_corners_and_where_arcs_turn(void **state)
{
    (void)state;
    tw_cut cut = cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 200, 50 }, 10), 15);
    tw_wood wood = tw_wood_make(&arena, BOARD, &cut, 1);
    tw_marks along = tw_marks_of_wood(&wood, TW_AXIS_X), across = tw_marks_of_wood(&wood, TW_AXIS_Y), deep = tw_marks_of_wood(&wood, TW_AXIS_Z);
    const double x[] = { 0, 190, 200, 210, 400 }, y[] = { 0, 40, 50, 60, 100 }, z[] = { 0, 25, 40 };
    assert_int_equal(along.count, 5);
    assert_int_equal(across.count, 5);
    assert_int_equal(deep.count, 3);
    for (int i = 0; i < 5; i++) { CHECK_NEAR(along.at[i], x[i], 1e-9); CHECK_NEAR(across.at[i], y[i], 1e-9); }
    for (int i = 0; i < 3; i++) CHECK_NEAR(deep.at[i], z[i], 1e-9);
    assert_true(tw_cut_bends(&wood, 0, TW_AXIS_X, 190, 200) && tw_cut_bends(&wood, 0, TW_AXIS_Y, 40, 50));
    assert_false(tw_cut_bends(&wood, 0, TW_AXIS_X, 210, 400) || tw_cut_bends(&wood, 0, TW_AXIS_Z, 25, 40));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_board_has_the_moments_of_a_rectangle),
        cmocka_unit_test(housing_moves_the_centre_away_from_itself),
        cmocka_unit_test(drilled_hole_takes_pi_r_squared),
        cmocka_unit_test(bore_along_the_grain_takes_the_moments_of_a_circle),
        cmocka_unit_test(taper_takes_a_triangle_and_is_weakest_at_its_thin_end),
        cmocka_unit_test(dovetail_groove_takes_its_trapezoid),
        cmocka_unit_test(leaning_prism_takes_as_much_as_an_upright_one),
        cmocka_unit_test(leaning_bore_takes_pi_r_squared_for_each_mm_of_depth),
        cmocka_unit_test(wood_that_two_cuts_take_counts_once),
        cmocka_unit_test(angle_section_bends_about_its_own_axes),
        cmocka_unit_test(tenon_is_the_weakest_place_of_its_rail),
        cmocka_unit_test(rounded_end_does_not_count_as_the_weakest_place),
        cmocka_unit_test(leaning_tenon_is_the_weakest_place_too),
        cmocka_unit_test(piece_that_is_cut_in_two_is_severed_there),
        cmocka_unit_test(end_that_is_cut_off_only_shortens_the_piece),
        cmocka_unit_test(marks_stand_at_corners_and_where_arcs_turn),
    };
    return cmocka_run_group_tests_name("sections", tests, NULL, finish);
}
