// SPDX-License-Identifier: GPL-3.0-or-later
/* Outlines: shapes, questions, tidying, offset, overlay. Numbers are worked by hand from plane geometry (areas of
 * rectangles, sectors and segments); the laws at large and the comparison with GEOS are in laws/. */
#include "check.h"
#include "outline/outline.h"

static tw_arena arena;

static int tear_down(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

#define LOOP(...) tw_outline_of_loop(&arena, (tw_vertex[]){ __VA_ARGS__ }, (int)(sizeof((tw_vertex[]){ __VA_ARGS__ }) / sizeof(tw_vertex)))

static tw_outline two_loops(tw_outline first, tw_outline second)
{
    tw_outline both = { TW_NEW_ARRAY(&arena, tw_loop, 2), 2 };
    both.loops[0] = first.loops[0];
    both.loops[1] = second.loops[0];
    return both;
}

static tw_outline tidied(tw_outline raw)
{
    tw_outline tidy;
    tw_point where;
    assert_int_equal(tw_outline_tidy(&arena, raw, &tidy, &where), TW_OUTLINE_GOOD);
    return tidy;
}

static tw_outline_fault fault_of(tw_outline raw, tw_point *where)
{
    tw_outline tidy;
    tw_outline_fault fault = tw_outline_tidy(&arena, raw, &tidy, where);
    assert_int_equal(tidy.count, fault == TW_OUTLINE_GOOD ? raw.count : 0);
    return fault;
}

static void check_vertex(tw_outline outline, int loop, int i, double x, double y, double bulge)
{
    assert_true(loop < outline.count && i < outline.loops[loop].count);
    CHECK_NEAR(outline.loops[loop].vertices[i].x, x, 1e-9);
    CHECK_NEAR(outline.loops[loop].vertices[i].y, y, 1e-9);
    CHECK_NEAR(outline.loops[loop].vertices[i].bulge, bulge, 1e-9);
}

static const double quarter = 0.41421356237309503;  // tan(90 deg / 4)

/* ---- shapes and questions ---- */

static void rectangle_has_its_area_length_and_bounds(void **state)
{
    (void)state;
    tw_outline r = tw_outline_rectangle(&arena, -1.0, 2.0, 3.0, 5.0);
    CHECK_NEAR(tw_outline_area_mm2(r), 12.0, 1e-12);
    CHECK_NEAR(tw_outline_length_mm(r), 14.0, 1e-12);
    tw_box box = tw_outline_bounds(r);
    CHECK_NEAR(box.x0, -1.0, 0.0);
    CHECK_NEAR(box.y0, 2.0, 0.0);
    CHECK_NEAR(box.x1, 3.0, 0.0);
    CHECK_NEAR(box.y1, 5.0, 0.0);
}

static void full_circle_is_two_arcs_with_area_and_bounds_of_a_circle(void **state)
{
    (void)state;
    tw_outline c = tw_outline_circle(&arena, (tw_point){ 10.0, -5.0 }, 3.0);
    assert_int_equal(c.loops[0].count, 2);
    CHECK_NEAR(tw_outline_area_mm2(c), 9.0 * TW_PI, 1e-12);
    CHECK_NEAR(tw_outline_length_mm(c), 6.0 * TW_PI, 1e-12);
    tw_box box = tw_outline_bounds(c);
    CHECK_NEAR(box.y0, -8.0, 1e-12);
    CHECK_NEAR(box.y1, -2.0, 1e-12);
    assert_int_equal(tw_outline_side(c, (tw_point){ 10.0, -7.9 }), 1);
    assert_int_equal(tw_outline_side(c, (tw_point){ 10.0, -8.0 }), 0);
    assert_int_equal(tw_outline_side(c, (tw_point){ 10.0, -8.1 }), -1);
}

static void clockwise_loop_has_a_negative_area(void **state)
{
    (void)state;
    tw_vertex circle[] = { { -1.0, 0.0, -1.0 }, { 1.0, 0.0, -1.0 } };
    CHECK_NEAR(tw_loop_area_mm2((tw_loop){ circle, 2 }), -TW_PI, 1e-12);
}

static void area_of_a_flat_arc_agrees_with_its_series_and_with_a_sector(void **state)
{
    (void)state;
    // chord 10, bulge b: segment = 100 (b/3 + b^3/15 - ...); at b = 0.005 the closed form would lose half its digits
    tw_vertex flat[] = { { 0.0, 0.0, 0.005 }, { 10.0, 0.0, 0.0 } };
    CHECK_NEAR(tw_loop_area_mm2((tw_loop){ flat, 2 }), 100.0 * (0.005 / 3.0 + 0.005 * 0.005 * 0.005 / 15.0), 1e-11);
    // a quarter of a circle of radius 10 less its triangle: 25 pi - 50
    tw_vertex sector[] = { { 10.0, 0.0, quarter }, { 0.0, 10.0, 0.0 } };
    CHECK_NEAR(tw_loop_area_mm2((tw_loop){ sector, 2 }), 25.0 * TW_PI - 50.0, 1e-12);
}

static void rounded_rectangle_becomes_a_slot_or_a_circle_at_the_largest_radius(void **state)
{
    (void)state;
    CHECK_NEAR(tw_outline_area_mm2(tw_outline_rounded(&arena, 0, 0, 40, 20, 5)), 800.0 - (4.0 - TW_PI) * 25.0, 1e-11);
    tw_outline slot = tw_outline_rounded(&arena, 0, 0, 40, 20, 10);
    assert_int_equal(slot.loops[0].count, 4);
    CHECK_NEAR(tw_outline_area_mm2(slot), 400.0 + 100.0 * TW_PI, 1e-11);
    tw_outline upright = tw_outline_rounded(&arena, 0, 0, 20, 40, 10);
    assert_int_equal(upright.loops[0].count, 4);
    CHECK_NEAR(tw_outline_area_mm2(upright), 400.0 + 100.0 * TW_PI, 1e-11);
    tw_outline circle = tw_outline_rounded(&arena, 0, 0, 20, 20, 10);
    assert_int_equal(circle.loops[0].count, 2);
    CHECK_NEAR(tw_outline_area_mm2(circle), 100.0 * TW_PI, 1e-11);
    assert_int_equal(tw_outline_rounded(&arena, 0, 0, 20, 20, 0).loops[0].count, 4);
}

static void arc_over_half_a_turn_reaches_beyond_its_ends(void **state)
{
    (void)state;
    // three quarters of a circle of radius 1 about the origin, from (1, 0) to (0, -1), and two lines to the centre
    tw_outline o = LOOP({ 1, 0, tan(3.0 * TW_PI / 8.0) }, { 0, -1, 0 }, { 0, 0, 0 });
    tw_box box = tw_outline_bounds(o);
    CHECK_NEAR(box.x0, -1.0, 1e-12);
    CHECK_NEAR(box.y1, 1.0, 1e-12);
    CHECK_NEAR(tw_outline_area_mm2(o), 0.75 * TW_PI, 1e-12);
    CHECK_NEAR(tw_outline_length_mm(o), 1.5 * TW_PI + 2.0, 1e-12);
    assert_int_equal(tw_outline_side(o, (tw_point){ 0.3, -0.3 }), -1);
    assert_int_equal(tw_outline_side(o, (tw_point){ -0.6, -0.6 }), 1);
    assert_int_equal(tw_outline_side(o, (tw_point){ -0.8, 0.8 }), -1);
}

static void mirror_image_keeps_area_and_direction_and_comes_back(void **state)
{
    (void)state;
    tw_outline o = LOOP({ 0, 0, 0 }, { 10, 0, 0.5 }, { 12, 7, -0.2 }, { 0, 5, 0 });
    tw_outline image = tw_outline_mirrored(&arena, o);
    CHECK_NEAR(tw_outline_area_mm2(image), tw_outline_area_mm2(o), 1e-12);
    CHECK_NEAR(tw_outline_bounds(image).x0, -tw_outline_bounds(o).x1, 1e-12);
    CHECK_NEAR(tw_outline_difference_mm(&arena, tw_outline_mirrored(&arena, image), o), 0.0, 1e-12);
}

static void scaling_moving_and_turning_do_what_they_say(void **state)
{
    (void)state;
    tw_outline o = tw_outline_rounded(&arena, 0, 0, 40, 20, 5);
    CHECK_NEAR(tw_outline_area_mm2(tw_outline_scaled(&arena, o, 2.0)), 4.0 * tw_outline_area_mm2(o), 1e-9);
    CHECK_NEAR(tw_outline_bounds(tw_outline_moved(&arena, o, 3.0, -1.0)).y0, -1.0, 1e-12);
    tw_box box = tw_outline_bounds(tw_outline_turned(&arena, o, TW_PI / 2.0));
    CHECK_NEAR(box.x0, -20.0, 1e-12);
    CHECK_NEAR(box.y1, 40.0, 1e-12);
}

static void side_of_a_point_respects_holes_and_borders(void **state)
{
    (void)state;
    tw_outline o = tidied(two_loops(tw_outline_rectangle(&arena, 0, 0, 40, 20), tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5)));
    assert_int_equal(tw_outline_side(o, (tw_point){ 5, 10 }), 1);
    assert_int_equal(tw_outline_side(o, (tw_point){ 20, 10 }), -1);
    assert_int_equal(tw_outline_side(o, (tw_point){ 25, 10 }), 0);
    assert_int_equal(tw_outline_side(o, (tw_point){ 25 + 0.9e-7, 10 }), 0);
    assert_int_equal(tw_outline_side(o, (tw_point){ 25 + 1.1e-7, 10 }), 1);
    assert_int_equal(tw_outline_side(o, (tw_point){ 0, 0 }), 0);
    assert_int_equal(tw_outline_side(o, (tw_point){ -5, 0 }), -1);   // level with a side
    assert_int_equal(tw_outline_side(o, (tw_point){ 14.9, 10 }), 1); // level with the ends of the arcs
    assert_int_equal(tw_outline_side(o, (tw_point){ 41, 10 }), -1);
}

static void distance_is_to_the_nearest_border_and_infinite_for_nothing(void **state)
{
    (void)state;
    tw_outline o = tw_outline_rounded(&arena, 0, 0, 40, 20, 5);
    CHECK_NEAR(tw_outline_distance(o, (tw_point){ 20, 8 }), 8.0, 1e-12);
    CHECK_NEAR(tw_outline_distance(o, (tw_point){ 0, 0 }), 5.0 * (sqrt(2.0) - 1.0), 1e-12);
    CHECK_NEAR(tw_outline_distance(o, (tw_point){ 5, 5 }), 5.0, 1e-12);
    assert_true(isinf(tw_outline_distance((tw_outline){ NULL, 0 }, (tw_point){ 0, 0 })));
}

static void flat_arc_of_a_kilometre_is_as_exact_as_a_line(void **state)
{
    (void)state;
    // sagitta 0.001 over a chord of 100: radius 1250 km
    tw_outline o = LOOP({ 0, 0, 2e-5 }, { 100, 0, 0 }, { 100, 50, 0 }, { 0, 50, 0 });
    CHECK_NEAR(tw_outline_distance(o, (tw_point){ 50, 1 }), 1.001, 1e-11);
    CHECK_NEAR(tw_outline_bounds(o).y0, -0.001, 1e-12);
    CHECK_NEAR(tw_outline_area_mm2(o), 5000.0 + 1e4 * 2e-5 / 3.0, 1e-9);
}

static void least_hollow_radius_is_that_of_the_tightest_inner_corner(void **state)
{
    (void)state;
    CHECK_NEAR(tw_outline_least_hollow_radius_mm(tw_outline_rounded(&arena, 0, 0, 40, 20, 5)), 5.0, 1e-12);
    CHECK_NEAR(tw_outline_least_hollow_radius_mm(tw_outline_rectangle(&arena, 0, 0, 40, 20)), 0.0, 0.0);
    CHECK_NEAR(tw_outline_least_hollow_radius_mm(tw_outline_circle(&arena, (tw_point){ 0, 0 }, 7)), 7.0, 1e-12);
    // a star of four arcs that bend away from the region and meet in cusps: the cusps are hollow and sharp
    CHECK_NEAR(tw_outline_least_hollow_radius_mm(LOOP({ 10, 0, -quarter }, { 0, 10, -quarter }, { -10, 0, -quarter }, { 0, -10, -quarter })), 0.0, 0.0);
    // a round hole has no hollow corner
    tw_outline hole = { tw_outline_circle(&arena, (tw_point){ 0, 0 }, 7).loops, 1 };
    hole.loops[0].vertices[0].bulge = hole.loops[0].vertices[1].bulge = -1.0;
    assert_true(isinf(tw_outline_least_hollow_radius_mm(hole)));
}

/* ---- tidy ---- */

static void tidying_sets_directions_and_keeps_what_is_tidy(void **state)
{
    (void)state;
    tw_outline wrong = two_loops(LOOP({ 0, 0, 0 }, { 0, 20, -0.3 }, { 40, 20, 0 }, { 40, 0, 0 }), tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5));
    tw_outline right = tidied(wrong);
    assert_true(tw_loop_area_mm2(right.loops[0]) > 0.0);
    assert_true(tw_loop_area_mm2(right.loops[1]) < 0.0);
    CHECK_NEAR(tw_loop_area_mm2(right.loops[0]), -tw_loop_area_mm2(wrong.loops[0]), 1e-12);
    tw_outline again = tidied(right);
    for (int i = 0; i < 2; i++)
        assert_memory_equal(again.loops[i].vertices, right.loops[i].vertices, sizeof(tw_vertex) * (size_t)right.loops[i].count);
}

static void zero_length_edges_are_dropped(void **state)
{
    (void)state;
    tw_outline o = tidied(LOOP({ 0, 0, 0 }, { 40, 0, 0.7 }, { 40, 0, 0 }, { 40, 20, 0 }, { 40, 20 + 0.9e-7, 0 }, { 0, 20, 0 }, { 0, 0, 0 }, { 0, 0.5e-7, 0 }));
    assert_int_equal(o.loops[0].count, 4);
    CHECK_NEAR(tw_outline_area_mm2(o), 800.0, 1e-4);
    check_vertex(o, 0, 1, 40, 0, 0);  // the zero-length edge took its bulge with it
}

static void loops_that_touch_in_points_are_good(void **state)
{
    (void)state;
    tw_outline plate = tw_outline_rectangle(&arena, 0, 0, 40, 20);
    tidied(two_loops(plate, tw_outline_circle(&arena, (tw_point){ 20, 10 }, 10)));                   // hole touches two sides
    tidied(two_loops(plate, LOOP({ 0, 0, 0 }, { 10, 5, 0 }, { 5, 10, 0 })));                           // hole touches a corner
    tw_outline three = { TW_NEW_ARRAY(&arena, tw_loop, 3), 3 };
    three.loops[0] = plate.loops[0];
    three.loops[1] = tw_outline_circle(&arena, (tw_point){ 10, 10 }, 5).loops[0];
    three.loops[2] = tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5).loops[0];                      // two holes touch
    tidied(three);
}

static void nothing_is_empty(void **state)
{
    (void)state;
    tw_point where;
    assert_int_equal(fault_of((tw_outline){ NULL, 0 }, &where), TW_OUTLINE_EMPTY);
}

static void numbers_that_are_none_are_refused(void **state)
{
    (void)state;
    tw_point where;
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { (double)NAN, 1, 0 }, { 0, 2, 0 }), &where), TW_OUTLINE_NOT_FINITE);
    CHECK_NEAR(where.y, 1.0, 0.0);
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 1, (double)INFINITY, 0 }, { 0, 2, 0 }), &where), TW_OUTLINE_NOT_FINITE);
    assert_int_equal(fault_of(LOOP({ 0, 0, (double)NAN }, { 1, 1, 0 }, { 0, 2, 0 }), &where), TW_OUTLINE_NOT_FINITE);
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 100001, 1, 0 }, { 0, 2, 0 }), &where), TW_OUTLINE_NOT_FINITE);
    assert_int_equal(fault_of(LOOP({ 0, 0, 9000 }, { 100, 1, 0 }, { 0, 2, 0 }), &where), TW_OUTLINE_NOT_FINITE);  // reaches out 450 m
}

static void too_many_vertices_are_refused(void **state)
{
    (void)state;
    tw_point where;
    int count = TW_OUTLINE_MOST_VERTICES + 1;
    tw_loop loop = { TW_NEW_ARRAY(&arena, tw_vertex, (size_t)count), count };
    for (int i = 0; i < count; i++) loop.vertices[i] = (tw_vertex){ cos(2.0 * TW_PI * i / count), sin(2.0 * TW_PI * i / count), 0.0 };
    assert_int_equal(fault_of((tw_outline){ &loop, 1 }, &where), TW_OUTLINE_TOO_MANY);
    loop.count--;
    assert_int_equal(fault_of((tw_outline){ &loop, 1 }, &where), TW_OUTLINE_GOOD);
}

static void loops_without_area_are_flat(void **state)
{
    (void)state;
    tw_point where;
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 10, 5, 0 }), &where), TW_OUTLINE_FLAT);
    assert_int_equal(fault_of(LOOP({ 0, 0, 0.5 }, { 10, 5, -0.5 }), &where), TW_OUTLINE_FLAT);
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 10, 0, 0 }, { 4, 0, 0 }), &where), TW_OUTLINE_FLAT);
    assert_int_equal(fault_of(LOOP({ 3, 3, 0 }, { 3, 3, 0 }, { 3, 3, 0 }), &where), TW_OUTLINE_FLAT);
    assert_int_equal(fault_of(LOOP({ 3, 4, 1 }, { 3, 4, 1 }), &where), TW_OUTLINE_FLAT);
    CHECK_NEAR(where.x, 3.0, 0.0);
    CHECK_NEAR(where.y, 4.0, 0.0);
}

static void loop_that_crosses_itself_is_refused_with_the_place(void **state)
{
    (void)state;
    tw_point where;
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 10, 10, 0 }, { 10, 0, 0 }, { 0, 10, 0 }), &where), TW_OUTLINE_CROSSES);  // without area, but not flat
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 10, 10, 0 }, { 10, 0, 0 }, { 0, 14, 0 }), &where), TW_OUTLINE_CROSSES);
    assert_true(where.x >= 0.0 && where.x <= 10.0 && where.y >= 0.0 && where.y <= 14.0);
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 40, 0, 0 }, { 40, 20, -1.2 }, { 0, 20, 0 }), &where), TW_OUTLINE_CROSSES);  // an arc that swings below the base
    assert_int_equal(fault_of(LOOP({ 0, 0, 0 }, { 10, 0, 0 }, { 20, 0, 0 }, { 10, 0, 0 }, { 10, 10, 0 }), &where), TW_OUTLINE_CROSSES);  // out and back
    CHECK_NEAR(where.x, 15.0, 1e-9);
    assert_int_equal(fault_of(LOOP({ 0, 0, 1 }, { 2, 0, 1 }, { 0, 0, 1 }, { 2, 0, 1 }), &where), TW_OUTLINE_CROSSES);  // the same circle twice
}

static void hole_that_crosses_or_shares_a_border_is_refused(void **state)
{
    (void)state;
    tw_point where;
    tw_outline plate = tw_outline_rectangle(&arena, 0, 0, 40, 20);
    assert_int_equal(fault_of(two_loops(plate, tw_outline_circle(&arena, (tw_point){ 20, 10 }, 11)), &where), TW_OUTLINE_CROSSES);
    assert_int_equal(fault_of(two_loops(plate, tw_outline_rectangle(&arena, 0, 5, 10, 15)), &where), TW_OUTLINE_CROSSES);
    CHECK_NEAR(where.x, 0.0, 1e-9);
    assert_int_equal(fault_of(two_loops(plate, tw_outline_rectangle(&arena, 0, 0, 40, 20)), &where), TW_OUTLINE_CROSSES);
}

static void hole_outside_is_refused(void **state)
{
    (void)state;
    tw_point where;
    tw_outline plate = tw_outline_rectangle(&arena, 0, 0, 40, 20), hole = tw_outline_circle(&arena, (tw_point){ 70, 10 }, 5);
    assert_int_equal(fault_of(two_loops(plate, hole), &where), TW_OUTLINE_HOLE_OUTSIDE);
    assert_int_equal(fault_of(two_loops(hole, plate), &where), TW_OUTLINE_HOLE_OUTSIDE);
    assert_int_equal(fault_of(two_loops(tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5), plate), &where), TW_OUTLINE_HOLE_OUTSIDE);  // the first within the second
    tw_outline nested = { TW_NEW_ARRAY(&arena, tw_loop, 3), 3 };
    nested.loops[0] = plate.loops[0];
    nested.loops[1] = tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5).loops[0];
    nested.loops[2] = tw_outline_circle(&arena, (tw_point){ 20, 10 }, 2).loops[0];
    assert_int_equal(fault_of(nested, &where), TW_OUTLINE_HOLE_OUTSIDE);  // a hole in a hole
}

/* ---- offset ---- */

static void rectangle_grows_with_round_corners(void **state)
{
    (void)state;
    tw_outline o = tw_outline_offset(&arena, tw_outline_rectangle(&arena, 0, 0, 40, 20), 5.0);
    assert_int_equal(o.count, 1);
    assert_int_equal(o.loops[0].count, 8);
    check_vertex(o, 0, 0, -5, 0, quarter);
    check_vertex(o, 0, 1, 0, -5, 0);
    check_vertex(o, 0, 7, -5, 20, 0);
    CHECK_NEAR(tw_outline_area_mm2(o), 800.0 + 2.0 * 5.0 * 60.0 + 25.0 * TW_PI, 1e-10);
}

static void rectangle_shrinks_with_square_corners_until_nothing_is_left(void **state)
{
    (void)state;
    tw_outline r = tw_outline_rectangle(&arena, 0, 0, 40, 20);
    tw_outline o = tw_outline_offset(&arena, r, -5.0);
    assert_int_equal(o.loops[0].count, 4);
    check_vertex(o, 0, 0, 5, 5, 0);
    check_vertex(o, 0, 2, 35, 15, 0);
    assert_int_equal(tw_outline_offset(&arena, r, -10.0).count, 0);  // of no width
    assert_int_equal(tw_outline_offset(&arena, r, -10.5).count, 0);
    assert_int_equal(tw_outline_offset(&arena, r, -1000.0).count, 0);
}

static void shrinking_by_a_hair_less_than_half_leaves_a_path_that_can_be_grown(void **state)
{
    (void)state;
    tw_outline path = tw_outline_offset(&arena, tw_outline_rectangle(&arena, 0, 0, 40, 20), -(10.0 - 1e-6));
    assert_int_equal(path.count, 1);
    CHECK_NEAR(tw_outline_bounds(path).y1 - tw_outline_bounds(path).y0, 2e-6, 1e-9);
    CHECK_NEAR(tw_outline_bounds(path).x0, 10.0, 2e-6);
    tw_outline slot = tw_outline_rounded(&arena, 0, 0, 50, 9.525, 9.525 / 2.0);
    tw_outline middle = tw_outline_offset(&arena, slot, -(9.525 / 2.0 - 1e-6));
    assert_int_equal(middle.count, 1);
    CHECK_NEAR(tw_outline_difference_mm(&arena, tw_outline_offset(&arena, middle, 9.525 / 2.0 - 1e-6), slot), 0.0, 1e-7);
    assert_int_equal(tw_outline_offset(&arena, slot, -9.525 / 2.0).count, 0);
}

static void circle_grows_shrinks_and_vanishes(void **state)
{
    (void)state;
    tw_outline c = tw_outline_circle(&arena, (tw_point){ 3, 4 }, 10);
    tw_outline o = tw_outline_offset(&arena, c, 5.0);
    assert_int_equal(o.loops[0].count, 2);
    check_vertex(o, 0, 0, -12, 4, 1);
    check_vertex(tw_outline_offset(&arena, c, -5.0), 0, 0, -2, 4, 1);
    assert_int_equal(tw_outline_offset(&arena, c, -10.0).count, 0);
    assert_int_equal(tw_outline_offset(&arena, c, -11.0).count, 0);
    CHECK_NEAR(tw_outline_area_mm2(tw_outline_offset(&arena, c, -(10.0 - 1e-6))), TW_PI * 1e-12, 1e-14);
}

static void path_there_and_back_grows_into_a_slot(void **state)
{
    (void)state;
    tw_outline o = tw_outline_offset(&arena, LOOP({ 0, 0, 0 }, { 30, 0, 0 }), 4.0);
    assert_int_equal(o.count, 1);
    assert_int_equal(o.loops[0].count, 4);
    check_vertex(o, 0, 0, 0, -4, 0);
    check_vertex(o, 0, 1, 30, -4, 1);
    CHECK_NEAR(tw_outline_area_mm2(o), 240.0 + 16.0 * TW_PI, 1e-10);
    assert_int_equal(tw_outline_offset(&arena, LOOP({ 0, 0, 0 }, { 30, 0, 0 }), -4.0).count, 0);
}

static void paths_grow_together_with_other_loops(void **state)
{
    (void)state;
    tw_outline o = two_loops(tw_outline_rectangle(&arena, 0, 0, 20, 20), LOOP({ 30, 10, 0 }, { 50, 10, 0 }));
    tw_outline apart = tw_outline_offset(&arena, o, 4.0);
    assert_int_equal(apart.count, 2);
    CHECK_NEAR(tw_outline_area_mm2(apart), 400.0 + 4.0 * 80.0 + 16.0 * TW_PI + 160.0 + 16.0 * TW_PI, 1e-9);
    assert_int_equal(tw_outline_offset(&arena, o, 6.0).count, 1);
    tw_outline cross = two_loops(LOOP({ 0, 0, 0 }, { 20, 0, 0 }), LOOP({ 10, -10, 0 }, { 10, 10, 0 }));
    tw_outline plus = tw_outline_offset(&arena, cross, 2.0);
    assert_int_equal(plus.count, 1);
    CHECK_NEAR(tw_outline_area_mm2(plus), 2.0 * (80.0 + 4.0 * TW_PI) - 16.0, 1e-9);
}

static void holes_shrink_while_the_outside_grows(void **state)
{
    (void)state;
    tw_outline o = tidied(two_loops(tw_outline_rectangle(&arena, 0, 0, 40, 20), tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5)));
    tw_outline grown = tw_outline_offset(&arena, o, 3.0);
    assert_int_equal(grown.count, 2);
    CHECK_NEAR(tw_outline_area_mm2(grown), 800.0 + 360.0 + 9.0 * TW_PI - 4.0 * TW_PI, 1e-9);
    assert_int_equal(tw_outline_offset(&arena, o, 5.0).count, 1);   // the hole has closed
    tw_outline shrunk = tw_outline_offset(&arena, o, -2.0);
    assert_int_equal(shrunk.count, 2);
    CHECK_NEAR(tw_outline_area_mm2(shrunk), 36.0 * 16.0 - 49.0 * TW_PI, 1e-9);
    tw_outline halves = tw_outline_offset(&arena, o, -3.0);         // the hole has met the sides
    assert_int_equal(halves.count, 2);
    assert_true(tw_loop_area_mm2(halves.loops[0]) > 0.0 && tw_loop_area_mm2(halves.loops[1]) > 0.0);
    // two halves: rectangle 34 x 14 less the part of the circle of radius 8 that lies between y = 3 and y = 17
    double half_angle = asin(7.0 / 8.0);
    CHECK_NEAR(tw_outline_area_mm2(halves), 34.0 * 14.0 - (2.0 * 64.0 * half_angle + 14.0 * 8.0 * cos(half_angle)), 1e-9);
}

static tw_outline u_shape(void)
{
    return LOOP({ 0, 0, 0 }, { 40, 0, 0 }, { 40, 20, 0 }, { 25, 20, 0 }, { 25, 10, 0 }, { 15, 10, 0 }, { 15, 20, 0 }, { 0, 20, 0 });
}

static void slot_closes_when_it_is_just_filled(void **state)
{
    (void)state;
    // the slot is 10 wide and 10 deep. Grown by 4: a rounded plate of 800 + 480 + 16 pi, less what stays open of the slot,
    // 2 x 6, less the mouth above it, 10 x 4 but for two quarter discs
    CHECK_NEAR(tw_outline_area_mm2(tw_outline_offset(&arena, u_shape(), 4.0)), 1280.0 + 16.0 * TW_PI - 12.0 - (40.0 - 8.0 * TW_PI), 1e-9);
    tw_outline filled = tw_outline_offset(&arena, u_shape(), 5.0);  // exactly: nothing of no width is left inside
    assert_int_equal(filled.count, 1);
    assert_int_equal(filled.loops[0].count, 11);
    check_vertex(filled, 0, 7, 20, 20, quarter);  // where the two arcs meet
    assert_int_equal(tw_outline_offset(&arena, u_shape(), 6.0).count, 1);
}

static void neck_parts_when_it_is_just_used_up(void **state)
{
    (void)state;
    // below the slot 10 are left
    assert_int_equal(tw_outline_offset(&arena, u_shape(), -4.9).count, 1);
    assert_int_equal(tw_outline_offset(&arena, u_shape(), -5.0).count, 2);
    assert_int_equal(tw_outline_offset(&arena, u_shape(), -5.1).count, 2);
}

static void regions_that_grow_until_they_touch_stay_two_loops(void **state)
{
    (void)state;
    tw_outline squares = two_loops(tw_outline_rectangle(&arena, 0, 0, 10, 10), tw_outline_rectangle(&arena, 14, 0, 24, 10));
    tw_outline touching = tw_outline_offset(&arena, squares, 2.0);   // along a line: they have become one
    assert_int_equal(touching.count, 1);
    CHECK_NEAR(tw_outline_area_mm2(touching), 2.0 * (100.0 + 80.0 + 4.0 * TW_PI), 1e-9);
    tw_outline discs = two_loops(tw_outline_circle(&arena, (tw_point){ 0, 0 }, 3), tw_outline_circle(&arena, (tw_point){ 10, 0 }, 3));
    tw_outline two = tw_outline_offset(&arena, discs, 2.0);          // in a point: they stay two
    assert_int_equal(two.count, 2);
    CHECK_NEAR(tw_outline_area_mm2(two), 50.0 * TW_PI, 1e-9);
    assert_int_equal(tw_outline_offset(&arena, discs, 2.001).count, 1);
    assert_int_equal(tw_outline_offset(&arena, discs, 1.999).count, 2);
}

static void loops_that_touch_in_a_point_are_offset_like_others(void **state)
{
    (void)state;
    tw_outline plate = tidied(two_loops(tw_outline_rectangle(&arena, 0, 0, 40, 20), tw_outline_circle(&arena, (tw_point){ 20, 10 }, 10)));
    tw_outline grown = tw_outline_offset(&arena, plate, 2.0);
    assert_int_equal(grown.count, 2);
    CHECK_NEAR(tw_outline_area_mm2(grown), 800.0 + 240.0 + 4.0 * TW_PI - 64.0 * TW_PI, 1e-9);
    tw_outline shrunk = tw_outline_offset(&arena, plate, -2.0);
    assert_int_equal(shrunk.count, 2);
    CHECK_NEAR(tw_loop_area_mm2(shrunk.loops[0]), tw_loop_area_mm2(shrunk.loops[1]), 1e-9);
    // a hole with its corner in a corner of the plate: what its corner sees through the plate's corner is not region
    tw_outline corner = tidied(two_loops(tw_outline_rectangle(&arena, 0, 0, 40, 20), LOOP({ 0, 0, 0 }, { 12, 5, 0 }, { 8, 10, 0 })));
    tw_outline inner = tw_outline_offset(&arena, corner, -1.0);
    for (int i = 0; i < inner.count; i++) assert_true(tw_outline_bounds((tw_outline){ &inner.loops[i], 1 }).x0 >= 1.0 - 1e-9);
}

static void hollow_corner_arc_of_just_the_distance_becomes_a_point(void **state)
{
    (void)state;
    tw_outline o = tw_outline_offset(&arena, tw_outline_rounded(&arena, 0, 0, 40, 20, 5), -5.0);
    assert_int_equal(o.count, 1);
    assert_int_equal(o.loops[0].count, 4);
    check_vertex(o, 0, 0, 5, 5, 0);
    tw_outline smaller = tw_outline_offset(&arena, tw_outline_rounded(&arena, 0, 0, 40, 20, 5), -7.0);
    assert_int_equal(smaller.loops[0].count, 4);
    check_vertex(smaller, 0, 0, 7, 7, 0);
}

static void slot_entered_through_a_narrow_neck_becomes_two_rooms(void **state)
{
    (void)state;
    // two discs of radius 10, 30 apart, joined by a neck 4 wide; shrunk by 3 the neck is gone
    double reach = sqrt(96.0), bulge = tan((TW_PI - asin(0.2)) / 2.0);
    tw_outline o = LOOP({ reach, -2, 0 }, { 30 - reach, -2, bulge }, { 30 - reach, 2, 0 }, { reach, 2, bulge });
    tw_outline tidy = tidied(o);
    tw_outline rooms = tw_outline_offset(&arena, tidy, -3.0);
    assert_int_equal(rooms.count, 2);
    assert_int_equal(tw_outline_offset(&arena, tidy, -1.9).count, 1);
}

static void collinear_vertices_neither_lose_nor_double_anything(void **state)
{
    (void)state;
    tw_outline o = LOOP({ 0, 0, 0 }, { 10, 0, 0 }, { 10.5, 0, 0 }, { 40, 0, 0 }, { 40, 20, 0 }, { 20, 20, 0 }, { 0, 20, 0 }, { 0, 1, 0 });
    CHECK_NEAR(tw_outline_area_mm2(tw_outline_offset(&arena, o, 5.0)), 800.0 + 600.0 + 25.0 * TW_PI, 1e-9);
    CHECK_NEAR(tw_outline_area_mm2(tw_outline_offset(&arena, o, -5.0)), 300.0, 1e-9);
}

static void no_distance_changes_nothing_and_nothing_stays_nothing(void **state)
{
    (void)state;
    tw_outline o = tw_outline_rounded(&arena, 0, 0, 40, 20, 5);
    CHECK_NEAR(tw_outline_difference_mm(&arena, tw_outline_offset(&arena, o, 0.0), o), 0.0, 1e-12);
    assert_int_equal(tw_outline_offset(&arena, (tw_outline){ NULL, 0 }, 3.0).count, 0);
}

static void loops_come_largest_first_and_begin_lowest_in_x_then_y(void **state)
{
    (void)state;
    tw_outline o = tw_outline_offset(&arena, two_loops(tw_outline_rectangle(&arena, 50, 0, 60, 10), tw_outline_rectangle(&arena, 0, 0, 20, 20)), 1.0);
    assert_int_equal(o.count, 2);
    check_vertex(o, 0, 0, -1, 0, quarter);
    check_vertex(o, 1, 0, 49, 0, quarter);
}

static void same_input_gives_the_same_bytes(void **state)
{
    (void)state;
    tw_outline a = tw_outline_offset(&arena, u_shape(), -4.0), b = tw_outline_offset(&arena, u_shape(), -4.0);
    assert_int_equal(a.count, b.count);
    for (int i = 0; i < a.count; i++) {
        assert_int_equal(a.loops[i].count, b.loops[i].count);
        assert_memory_equal(a.loops[i].vertices, b.loops[i].vertices, sizeof(tw_vertex) * (size_t)a.loops[i].count);
    }
}

static void many_vertices_are_offset_too(void **state)
{
    (void)state;
    int count = TW_OUTLINE_MOST_VERTICES;
    tw_loop loop = { TW_NEW_ARRAY(&arena, tw_vertex, (size_t)count), count };
    for (int i = 0; i < count; i++) {
        double angle = 2.0 * TW_PI * i / count, radius = i & 1 ? 100.0 : 99.0;
        loop.vertices[i] = (tw_vertex){ radius * cos(angle), radius * sin(angle), 0.0 };
    }
    tw_outline teeth = { &loop, 1 };
    // the teeth are 0.16 apart: shrunk by 10 the tips cannot be told from a circle of radius 99 - 10 but for
    // ripples of (0.32 / 2)^2 / 20 = 0.001
    tw_outline o = tw_outline_offset(&arena, teeth, -10.0);
    assert_int_equal(o.count, 1);
    CHECK_NEAR(sqrt(tw_outline_area_mm2(o) / TW_PI), 89.0, 0.002);
}

/* ---- differences and regions ---- */

static void difference_is_the_farthest_that_borders_are_apart(void **state)
{
    (void)state;
    tw_outline r = tw_outline_rectangle(&arena, 0, 0, 40, 20), empty = { NULL, 0 };
    CHECK_NEAR(tw_outline_difference_mm(&arena, r, r), 0.0, 1e-7);
    CHECK_NEAR(tw_outline_difference_mm(&arena, r, tw_outline_offset(&arena, r, 2.0)), 2.0, 0.02);
    CHECK_NEAR(tw_outline_difference_mm(&arena, r, tw_outline_rounded(&arena, 0, 0, 40, 20, 3)), 3.0 * (sqrt(2.0) - 1.0), 0.0125);
    CHECK_NEAR(tw_outline_difference_mm(&arena, r, tw_outline_moved(&arena, r, 1e-5, 0.0)), 1e-5, 2e-7);
    assert_true(isinf(tw_outline_difference_mm(&arena, r, empty)));
    assert_true(isinf(tw_outline_difference_mm(&arena, empty, r)));
    CHECK_NEAR(tw_outline_difference_mm(&arena, empty, empty), 0.0, 0.0);
    // the middle of a long side of one is far from the other: a dent
    tw_outline dented = LOOP({ 0, 0, 0 }, { 19, 0, 0 }, { 20, 7, 0 }, { 21, 0, 0 }, { 40, 0, 0 }, { 40, 20, 0 }, { 0, 20, 0 });
    CHECK_NEAR(tw_outline_difference_mm(&arena, r, dented), 7.0, 0.07);
}

static void common_area_of_overlapping_and_touching_regions(void **state)
{
    (void)state;
    tw_outline r = tw_outline_rectangle(&arena, 0, 0, 40, 20);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, tw_outline_rectangle(&arena, 30, 10, 50, 30)), 100.0, 1e-10);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, r), 800.0, 1e-10);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, tw_outline_rectangle(&arena, 40, 0, 60, 20)), 0.0, 1e-10);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, tw_outline_rectangle(&arena, 50, 0, 60, 20)), 0.0, 0.0);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, (tw_outline){ NULL, 0 }), 0.0, 0.0);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, tw_outline_circle(&arena, (tw_point){ 20, 10 }, 5)), 25.0 * TW_PI, 1e-10);
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, r, tw_outline_circle(&arena, (tw_point){ 40, 10 }, 5)), 12.5 * TW_PI, 1e-10);
    // two discs of radius 1, 1 apart: 2 pi / 3 - sqrt(3) / 2, the lens of every handbook of mensuration
    CHECK_NEAR(tw_outline_common_area_mm2(&arena, tw_outline_circle(&arena, (tw_point){ 0, 0 }, 1), tw_outline_circle(&arena, (tw_point){ 1, 0 }, 1)),
        2.0 * TW_PI / 3.0 - sqrt(3.0) / 2.0, 1e-12);
}

/* Area between an arc and its chord, r^2 (t - sin t) / 2 (any handbook of mensuration). */
static double segment_mm2(double chord, double bulge)
{
    double turn = 4.0 * atan(bulge), radius = chord * (1.0 + bulge * bulge) / (4.0 * bulge);
    return radius * radius * (turn - sin(turn)) / 2.0;
}

// A flat segment of a circle, and a spike without width that begins in one of its corners: along its chord, or through its arc.
// What rounding makes of the sides of the spike must not turn the segment inside out.
static void spike_on_the_border_does_not_turn_a_region_over(void **state)
{
    (void)state;
    tw_outline along = LOOP({ -50.5984375, -50.5984375, 0 }, { -0.0015625502, -0.401562601196875, 0 }, { -0.0015625, -0.4015625, 1.0 / 48.0 },
        { -50.5984375, -50.5984375, 0 }, { -1.01196875e-7, -0.400000101196875, 0 }, { 0, -0.4, 0 });
    tw_outline through = LOOP({ -505.984375, -1.984375, 0 }, { -505.984375, 2.015625, 1.3125 }, { -505.984375, -505.984375, 0 },
        { -504.984375, 78.0156244950156, 0 }, { -504.984375, 78.015625, 0 }, { -505.984375, -505.984375, 1.0 / 48.0 });
    double areas[2] = { segment_mm2(hypot(50.596875, 50.196875), 1.0 / 48.0), segment_mm2(508.0, 1.3125) + segment_mm2(504.0, 1.0 / 48.0) };
    for (int i = 0; i < 2; i++) {
        tw_outline region = tidied(i == 0 ? along : through), grown = tw_outline_offset(&arena, region, 1.0);
        int count;
        CHECK_NEAR(tw_outline_common_area_mm2(&arena, region, grown), areas[i], 1e-4);  // the spike: 600 mm by 1e-7
        tw_outline_patches(&arena, region, grown, 1e-4, &count);
        assert_int_equal(count, 0);
    }
}

// Sixteen triangles that meet in their tips, one loop; a small square in one of them touches nothing.
static void region_that_comes_to_a_point_again_and_again_holds_what_lies_within(void **state)
{
    (void)state;
    enum { BLADES = 16 };
    tw_vertex vertices[3 * BLADES];
    for (int i = 0; i < BLADES; i++) {
        double angle = 2.0 * TW_PI * i / BLADES, half = TW_PI / 36.0;
        vertices[3 * i] = (tw_vertex){ 0.0, 0.0, 0.0 };
        vertices[3 * i + 1] = (tw_vertex){ 40.0 * cos(angle - half), 40.0 * sin(angle - half), 0.0 };
        vertices[3 * i + 2] = (tw_vertex){ 40.0 * cos(angle + half), 40.0 * sin(angle + half), 0.0 };
    }
    tw_outline vane = tidied(tw_outline_of_loop(&arena, vertices, 3 * BLADES));
    CHECK_NEAR(tw_outline_area_mm2(vane), BLADES * 800.0 * sin(TW_PI / 18.0), 1e-9);  // two sides and the angle between
    for (int i = 0; i < BLADES; i++) {
        tw_outline square = tw_outline_turned(&arena, tw_outline_rectangle(&arena, 30, -1, 32, 1), 2.0 * TW_PI * i / BLADES);
        CHECK_NEAR(tw_outline_common_area_mm2(&arena, vane, square), 4.0, 1e-10);
        CHECK_NEAR(tw_outline_common_area_mm2(&arena, square, vane), 4.0, 1e-10);
    }
}

static void patches_of_a_routed_pocket_are_its_four_corners(void **state)
{
    (void)state;
    tw_outline wanted = tw_outline_rectangle(&arena, 0, 0, 40, 20), cut = tw_outline_rounded(&arena, 0, 0, 40, 20, 3);
    int count = 0;
    tw_patch *patches = tw_outline_patches(&arena, wanted, cut, 1e-5, &count);
    assert_int_equal(count, 4);
    for (int i = 0; i < 4; i++) {
        CHECK_NEAR(patches[i].area_mm2, (1.0 - TW_PI / 4.0) * 9.0, 1e-10);
        CHECK_NEAR(patches[i].depth_mm, (sqrt(2.0) - 1.0) * 3.0, 1e-9);
    }
    // centre of area of a square less a quarter disc: r (10 - 3 pi) / (3 (4 - pi)) from the corner, 0.2234 r
    CHECK_NEAR(patches[0].middle.x, 3.0 * (10.0 - 3.0 * TW_PI) / (3.0 * (4.0 - TW_PI)), 1e-9);
    CHECK_NEAR(patches[0].middle.y, patches[0].middle.x, 1e-9);
    CHECK_NEAR(patches[1].middle.x, 40.0 - patches[0].middle.x, 1e-9);  // in the order of the border
    CHECK_NEAR(patches[2].middle.y, 20.0 - patches[0].middle.y, 1e-9);
    tw_outline_patches(&arena, cut, wanted, 1e-5, &count);
    assert_int_equal(count, 0);
    tw_outline_patches(&arena, wanted, cut, 2.0, &count);  // smaller than asked for
    assert_int_equal(count, 0);
}

static void patch_round_a_hole_knows_its_depth_inside(void **state)
{
    (void)state;
    tw_outline plate = tw_outline_rectangle(&arena, 0, 0, 40, 20);
    tw_outline holed = tidied(two_loops(plate, tw_outline_circle(&arena, (tw_point){ 13, 9 }, 5)));
    int count = 0;
    tw_patch *patches = tw_outline_patches(&arena, plate, holed, 1e-5, &count);
    assert_int_equal(count, 1);
    CHECK_NEAR(patches[0].area_mm2, 25.0 * TW_PI, 1e-10);
    CHECK_NEAR(patches[0].depth_mm, 5.0, 0.01);
    CHECK_NEAR(patches[0].middle.x, 13.0, 1e-9);
    // a frame: one patch, with a hole, deepest at its corners
    tw_outline frame = tw_outline_rectangle(&arena, -1, -1, 41, 21);
    patches = tw_outline_patches(&arena, frame, plate, 1e-5, &count);
    assert_int_equal(count, 1);
    CHECK_NEAR(patches[0].area_mm2, 42.0 * 22.0 - 800.0, 1e-9);
    CHECK_NEAR(patches[0].depth_mm, sqrt(2.0), 1e-9);
    CHECK_NEAR(patches[0].middle.x, 20.0, 1e-9);
}

// +-------+     the middle of the arc touches the plate's edge
// (|      |
// +-------+
static void patch_knows_a_hole_that_touches_its_edge(void **state)
{
    (void)state;
    tw_outline half = LOOP({ 10, 5, -1 }, { 10, 15, 0 }), plate = tw_outline_rectangle(&arena, 5, 0, 45, 20);
    int count = 0;
    tw_patch *patches = tw_outline_patches(&arena, tidied(two_loops(plate, half)), (tw_outline){ NULL, 0 }, 1e-5, &count);
    assert_int_equal(count, 1);
    CHECK_NEAR(patches[0].area_mm2, 800.0 - 12.5 * TW_PI, 1e-9);
}

static void patches_of_nothing_and_outside_nothing(void **state)
{
    (void)state;
    tw_outline r = tw_outline_rectangle(&arena, 0, 0, 40, 20), empty = { NULL, 0 };
    int count = 7;
    tw_outline_patches(&arena, empty, r, 1e-5, &count);
    assert_int_equal(count, 0);
    tw_patch *all = tw_outline_patches(&arena, r, empty, 1e-5, &count);
    assert_int_equal(count, 1);
    CHECK_NEAR(all[0].area_mm2, 800.0, 1e-10);
    CHECK_NEAR(all[0].depth_mm, 10.0, 0.05);  // with nothing else, from its own border
}

int main(void)
{
    const struct CMUnitTest tests[] = {
#define CASE(name) cmocka_unit_test_teardown(name, tear_down)
        CASE(rectangle_has_its_area_length_and_bounds),
        CASE(full_circle_is_two_arcs_with_area_and_bounds_of_a_circle),
        CASE(clockwise_loop_has_a_negative_area),
        CASE(area_of_a_flat_arc_agrees_with_its_series_and_with_a_sector),
        CASE(rounded_rectangle_becomes_a_slot_or_a_circle_at_the_largest_radius),
        CASE(arc_over_half_a_turn_reaches_beyond_its_ends),
        CASE(mirror_image_keeps_area_and_direction_and_comes_back),
        CASE(scaling_moving_and_turning_do_what_they_say),
        CASE(side_of_a_point_respects_holes_and_borders),
        CASE(distance_is_to_the_nearest_border_and_infinite_for_nothing),
        CASE(flat_arc_of_a_kilometre_is_as_exact_as_a_line),
        CASE(least_hollow_radius_is_that_of_the_tightest_inner_corner),
        CASE(tidying_sets_directions_and_keeps_what_is_tidy),
        CASE(zero_length_edges_are_dropped),
        CASE(loops_that_touch_in_points_are_good),
        CASE(nothing_is_empty),
        CASE(numbers_that_are_none_are_refused),
        CASE(too_many_vertices_are_refused),
        CASE(loops_without_area_are_flat),
        CASE(loop_that_crosses_itself_is_refused_with_the_place),
        CASE(hole_that_crosses_or_shares_a_border_is_refused),
        CASE(hole_outside_is_refused),
        CASE(rectangle_grows_with_round_corners),
        CASE(rectangle_shrinks_with_square_corners_until_nothing_is_left),
        CASE(shrinking_by_a_hair_less_than_half_leaves_a_path_that_can_be_grown),
        CASE(circle_grows_shrinks_and_vanishes),
        CASE(path_there_and_back_grows_into_a_slot),
        CASE(paths_grow_together_with_other_loops),
        CASE(holes_shrink_while_the_outside_grows),
        CASE(slot_closes_when_it_is_just_filled),
        CASE(neck_parts_when_it_is_just_used_up),
        CASE(regions_that_grow_until_they_touch_stay_two_loops),
        CASE(loops_that_touch_in_a_point_are_offset_like_others),
        CASE(hollow_corner_arc_of_just_the_distance_becomes_a_point),
        CASE(slot_entered_through_a_narrow_neck_becomes_two_rooms),
        CASE(collinear_vertices_neither_lose_nor_double_anything),
        CASE(no_distance_changes_nothing_and_nothing_stays_nothing),
        CASE(loops_come_largest_first_and_begin_lowest_in_x_then_y),
        CASE(same_input_gives_the_same_bytes),
        CASE(many_vertices_are_offset_too),
        CASE(difference_is_the_farthest_that_borders_are_apart),
        CASE(common_area_of_overlapping_and_touching_regions),
        CASE(spike_on_the_border_does_not_turn_a_region_over),
        CASE(region_that_comes_to_a_point_again_and_again_holds_what_lies_within),
        CASE(patches_of_a_routed_pocket_are_its_four_corners),
        CASE(patch_round_a_hole_knows_its_depth_inside),
        CASE(patch_knows_a_hole_that_touches_its_edge),
        CASE(patches_of_nothing_and_outside_nothing),
    };
    return cmocka_run_group_tests_name("outline", tests, NULL, NULL);
}
