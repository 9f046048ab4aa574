// SPDX-License-Identifier: GPL-3.0-or-later
/* Strips. Outside checks: areas, unions and overlaps of the strips by GEOS; one trapezium worked by hand. */
#include "check.h"

#include <geos_c.h>

#include "template/parts.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_figures mm = { .style = TW_FIGURES_MM, .decimals = 1 };

typedef struct glued { bool ok; tw_strip *strips; int count; } glued;

static glued glue(tw_outline opening, tw_outline board)
{
    glued g = { 0 };
    g.ok = tw_strips_make(&arena, opening, board, mm, &g.strips, &g.count);
    return g;
}

static tw_outline four(double lx0, double rx0, double y0, double lx1, double rx1, double y1)
{
    const tw_vertex v[4] = { { lx0, y0, 0 }, { rx0, y0, 0 }, { rx1, y1, 0 }, { lx1, y1, 0 } };
    return tw_outline_of_loop(&arena, v, 4);
}

static tw_outline board_of(double half_across, double half_up)
{
    return tw_outline_rectangle(&arena, -half_across, -half_up, half_across, half_up);
}

static const tw_strip *strip(const glued *g, const char *name)
{
    for (int i = 0; i < g->count; i++)
        if (strcmp(g->strips[i].name, name) == 0) return &g->strips[i];
    fail_msg("no strip named %s", name);
    return NULL;
}

/*    60 +----+----------+-----+        the plain frame: 120 by 120, opening 50 wide and 60 high
 *       |    |          |     |        about the centre, so sides 35 wide and fillers 50 by 30
 *    30 |    +----------+     |
 *       |    | opening  |     |  */
static void rectangle_is_framed_by_four_plain_strips(void **state)
{
    (void)state;
    glued g = glue(four(-25, 25, -30, -25, 25, 30), board_of(60, 60));
    assert_true(g.ok);
    assert_int_equal(g.count, 4);
    const char *const sides[] = { "left side strip", "right side strip" }, *const fillers[] = { "lower filler", "upper filler" };
    for (int i = 0; i < 2; i++) {
        const tw_strip *side = strip(&g, sides[i]), *filler = strip(&g, fillers[i]);
        CHECK_NEAR(side->length_mm, 120, 1e-9);
        CHECK_NEAR(side->width_mm, 35, 1e-9);
        CHECK_NEAR(side->narrow_mm, 35, 1e-9);
        CHECK_NEAR(side->angle_rad, 0, 0);
        CHECK_NEAR(filler->length_mm, 50, 1e-9);
        CHECK_NEAR(filler->width_mm, 30, 1e-9);
        CHECK_NEAR(filler->end_angle_rad, 0, 0);
        CHECK_NEAR(filler->over_mm, 0, 0);  // its length is the opening's width: nothing may be left over
        assert_true(side->over_mm > 0 && filler->over_width_mm > 0);
        assert_string_equal(side->note, "");
        CHECK_HOLDS(filler->note, "50.0 mm long, both ends square");
        CHECK_HOLDS(filler->note, "never caught between blade and fence");
    }
    CHECK_HOLDS(strip(&g, "upper filler")->note, "60.0 mm above the lower filler");
}

/* By hand: opening 80 high, left side plumb at x = -5, right side from x = 20 below to 34 above: lean atan(14/80) = 9.926 degrees.
 * In a board of 120 by 130 the right side meets the borders at 20 - 14 * 25/80 = 15.625 and 34 + 14 * 25/80 = 38.375. */
static void leaning_side_is_ripped_at_its_angle_and_fillers_end_in_it(void **state)
{
    (void)state;
    glued g = glue(four(-5, 20, -40, -5, 34, 40), board_of(60, 65));
    assert_true(g.ok);
    const tw_strip *right = strip(&g, "right side strip"), *left = strip(&g, "left side strip");
    const tw_strip *lower = strip(&g, "lower filler"), *upper = strip(&g, "upper filler");
    CHECK_NEAR(right->width_mm, 60 - 15.625, 1e-9);
    CHECK_NEAR(right->narrow_mm, 60 - 38.375, 1e-9);
    CHECK_NEAR(tw_degrees(right->angle_rad), 9.926246, 1e-5);
    CHECK_NEAR(left->width_mm, 55, 1e-9);
    CHECK_NEAR(lower->length_mm, 25, 1e-9);             // its edge at the opening is the longer one: 20 + 5
    CHECK_NEAR(upper->length_mm, 38.375 + 5, 1e-9);     // here the border's
    CHECK_NEAR(lower->width_mm, 25, 1e-9);
    CHECK_NEAR(tw_degrees(upper->end_angle_rad), 9.926246, 1e-5);
    CHECK_NEAR(upper->other_end_rad, 0, 0);
    CHECK_HOLDS(lower->note, "left end square, right end cut at 9.9");
}

static void plumb_side_is_glued_first_and_the_leaning_one_last(void **state)
{
    (void)state;
    for (int right_leans = 0; right_leans < 2; right_leans++) {
        tw_outline opening = right_leans ? four(-5, 20, -40, -5, 27, 40) : four(-20, 5, -40, -27, 5, 40);
        glued g = glue(opening, board_of(60, 70));
        assert_true(g.ok);
        assert_int_equal(strip(&g, right_leans ? "left side strip" : "right side strip")->step, 1);
        assert_int_equal(strip(&g, "lower filler")->step, 2);
        assert_int_equal(strip(&g, "upper filler")->step, 3);
        assert_int_equal(strip(&g, right_leans ? "right side strip" : "left side strip")->step, 4);
        for (int i = 0; i < 4; i++) assert_int_equal(g.strips[i].step, i + 1);
    }
}

static void offcut_of_the_taper_is_the_cradle_for_the_bandsaw(void **state)
{
    (void)state;
    glued g = glue(four(-5, 20, -40, -5, 27, 40), board_of(60, 70));
    const char *note = strip(&g, "right side strip")->note;
    CHECK_HOLDS(note, "cradle");
    CHECK_HOLDS(note, "bandsaw's fence");
    CHECK_HOLDS(note, "pusher");
    CHECK_HOLDS(note, "never put a short tusk between a table saw's fence and blade");
    assert_string_equal(strip(&g, "left side strip")->note, "");
}

static void both_sides_may_lean(void **state)
{
    (void)state;
    glued g = glue(four(-20, 20, -40, -27, 34, 40), board_of(80, 70));
    assert_true(g.ok);
    CHECK_NEAR(tw_degrees(strip(&g, "left side strip")->angle_rad), tw_degrees(atan(7.0 / 80)), 1e-9);
    CHECK_NEAR(strip(&g, "lower filler")->end_angle_rad, atan(14.0 / 80), 1e-12);
    CHECK_NEAR(strip(&g, "lower filler")->other_end_rad, atan(7.0 / 80), 1e-12);
    CHECK_HOLDS(strip(&g, "lower filler")->note, "left end cut at 5.0");
}

static void vertices_on_straight_edges_and_another_start_change_nothing(void **state)
{
    (void)state;
    const tw_vertex v[] = { { 20, 40, 0 }, { -5, 40, 0 }, { -5, 3, 0 }, { -5, -40, 0 }, { 0, -40, 0 }, { 20, -40, 0 } };
    glued g = glue(tw_outline_of_loop(&arena, v, 6), board_of(60, 70)), plain = glue(four(-5, 20, -40, -5, 20, 40), board_of(60, 70));
    assert_true(g.ok);
    for (int i = 0; i < 4; i++) {
        assert_string_equal(g.strips[i].name, plain.strips[i].name);
        CHECK_NEAR(g.strips[i].width_mm, plain.strips[i].width_mm, 1e-9);
        CHECK_NEAR(g.strips[i].length_mm, plain.strips[i].length_mm, 1e-9);
    }
}

/* ---- refusals ---- */

static void round_opening_has_no_strips(void **state)
{
    (void)state;
    assert_false(glue(tw_outline_circle(&arena, (tw_point){ 0, 0 }, 20), board_of(60, 60)).ok);
    assert_false(glue(tw_outline_rounded(&arena, -20, -20, 20, 20, 5), board_of(60, 60)).ok);
}

static void three_five_and_slanted_openings_have_no_strips(void **state)
{
    (void)state;
    const tw_vertex three[] = { { -20, -20, 0 }, { 20, -20, 0 }, { 0, 20, 0 } };
    const tw_vertex five[] = { { -20, -20, 0 }, { 20, -20, 0 }, { 20, 10, 0 }, { 0, 20, 0 }, { -20, 10, 0 } };
    const tw_vertex slanted[] = { { -20, -20, 0 }, { 20, -20, 0 }, { 20, 25, 0 }, { -20, 20, 0 } };  // only one level side
    assert_false(glue(tw_outline_of_loop(&arena, three, 3), board_of(60, 60)).ok);
    assert_false(glue(tw_outline_of_loop(&arena, five, 5), board_of(60, 60)).ok);
    assert_false(glue(tw_outline_of_loop(&arena, slanted, 4), board_of(60, 60)).ok);
}

static void two_openings_have_no_strips(void **state)
{
    (void)state;
    tw_outline two = { TW_NEW_ARRAY(&arena, tw_loop, 2), 2 };
    two.loops[0] = four(-40, -20, -20, -40, -20, 20).loops[0];
    two.loops[1] = four(20, 40, -20, 20, 40, 20).loops[0];
    assert_false(glue(two, board_of(80, 60)).ok);
}

static void strip_under_ten_millimetres_is_refused(void **state)
{
    (void)state;
    assert_true(glue(four(-50, 50, -30, -50, 50, 30), board_of(60, 60)).ok);        // 10 mm of side strip is enough
    assert_false(glue(four(-50.1, 50, -30, -50.1, 50, 30), board_of(60, 60)).ok);
    assert_false(glue(four(-20, 20, -50.1, -20, 20, 30), board_of(60, 60)).ok);
    assert_false(glue(four(-20, 20, -30, -20, 45, 30), board_of(60, 60)).ok);       // the leaning strip runs out before the border
}

static void strips_are_left_alone_when_refused(void **state)
{
    (void)state;
    tw_strip *strips = NULL;
    int count = -7;
    assert_false(tw_strips_make(&arena, tw_outline_circle(&arena, (tw_point){ 0, 0 }, 20), board_of(60, 60), mm, &strips, &count));
    assert_null(strips);
    assert_int_equal(count, -7);
}

/* ---- the law, by GEOS ---- */

static GEOSGeometry *polygon(GEOSContextHandle_t geos, tw_outline outline)
{
    assert_int_equal(outline.count, 1);
    unsigned count = (unsigned)outline.loops[0].count;
    GEOSCoordSequence *points = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; i++) {
        tw_vertex v = outline.loops[0].vertices[i % count];
        assert_true(v.bulge == 0.0);
        GEOSCoordSeq_setXY_r(geos, points, i, v.x, v.y);
    }
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, points), NULL, 0);
}

static double area(GEOSContextHandle_t geos, const GEOSGeometry *geometry)
{
    double value = NAN;
    assert_int_equal(GEOSArea_r(geos, geometry, &value), 1);
    return value;
}

static double shared_area(GEOSContextHandle_t geos, const GEOSGeometry *a, const GEOSGeometry *b)
{
    GEOSGeometry *common = GEOSIntersection_r(geos, a, b);
    assert_non_null(common);
    double value = area(geos, common);
    GEOSGeom_destroy_r(geos, common);
    return value;
}

static void check_law(GEOSContextHandle_t geos, const glued *g, tw_outline opening, tw_outline board)
{
    GEOSGeometry *shapes[4], *hole = polygon(geos, opening), *whole = polygon(geos, board), *frame = GEOSDifference_r(geos, whole, hole);
    double sum = 0.0;
    for (int i = 0; i < 4; i++) {
        shapes[i] = polygon(geos, g->strips[i].shape);
        assert_int_equal(GEOSisValid_r(geos, shapes[i]), 1);
        sum += area(geos, shapes[i]);
        CHECK_NEAR(tw_outline_area_mm2(g->strips[i].shape), area(geos, shapes[i]), 1e-6);  // counter-clockwise, so positive
        CHECK_NEAR(shared_area(geos, shapes[i], hole), 0.0, 1e-6);
        CHECK_NEAR(shared_area(geos, shapes[i], whole), area(geos, shapes[i]), 1e-6);
        for (int j = 0; j < i; j++) CHECK_NEAR(shared_area(geos, shapes[i], shapes[j]), 0.0, 1e-6);
    }
    CHECK_NEAR(sum, area(geos, frame), 1e-6);
    for (int i = 0; i < 4; i++) GEOSGeom_destroy_r(geos, shapes[i]);
    GEOSGeom_destroy_r(geos, hole);
    GEOSGeom_destroy_r(geos, whole);
    GEOSGeom_destroy_r(geos, frame);
}

/* A strip's size in figures is its shape's size: what is sawn by the figures is what is drawn. */
static void check_figures(const tw_strip *s)
{
    const tw_vertex *v = s->shape.loops[0].vertices;
    tw_box box = tw_outline_bounds(s->shape);
    if (strstr(s->name, "side")) {
        CHECK_NEAR(box.y1 - box.y0, s->length_mm, 1e-9);
        CHECK_NEAR(box.x1 - box.x0, s->width_mm, 1e-9);
        CHECK_NEAR(tw_outline_area_mm2(s->shape), s->length_mm * (s->width_mm + s->narrow_mm) / 2.0, 1e-6);
        CHECK_NEAR(s->width_mm - s->narrow_mm, s->length_mm * tan(s->angle_rad), 1e-6);
        return;
    }
    CHECK_NEAR(fmax(fabs(v[1].x - v[0].x), fabs(v[2].x - v[3].x)), s->length_mm, 1e-9);
    CHECK_NEAR(box.y1 - box.y0, s->width_mm, 1e-9);
    double ends[2] = { atan(fabs(v[3].x - v[0].x) / s->width_mm), atan(fabs(v[2].x - v[1].x) / s->width_mm) };
    CHECK_NEAR(fmax(ends[0], ends[1]), s->end_angle_rad, 1e-9);
    CHECK_NEAR(fmin(ends[0], ends[1]), s->other_end_rad, 1e-9);
}

static void strips_fill_the_board_less_the_opening_without_overlap(void **state)
{
    (void)state;
    GEOSContextHandle_t geos = GEOS_init_r();
    check_seed seed = { 11 };
    int made = 0;
    for (int round = 0; round < 1500; round++) {
        double y0 = check_between(&seed, -90, 20), y1 = y0 + check_between(&seed, 5, 90);
        double lx = check_between(&seed, -90, 20), rx = lx + check_between(&seed, 3, 90);
        double left = check_random(&seed) % 2 ? check_between(&seed, -0.3, 0.3) * (y1 - y0) : 0.0;
        double right = check_random(&seed) % 2 ? check_between(&seed, -0.3, 0.3) * (y1 - y0) : 0.0;
        if (rx + right - lx - left < 2.0) continue;
        tw_outline opening = four(lx, rx, y0, lx + left, rx + right, y1), board = board_of(check_between(&seed, 60, 160), check_between(&seed, 60, 160));
        tw_box room = tw_outline_bounds(board), box = tw_outline_bounds(opening);
        if (box.x0 < room.x0 || box.x1 > room.x1 || box.y0 < room.y0 || box.y1 > room.y1) continue;
        glued g = glue(opening, board);
        if (!g.ok) continue;
        made++;
        check_law(geos, &g, opening, board);
        for (int i = 0; i < 4; i++) check_figures(&g.strips[i]);
        tw_arena_finish(&arena);
    }
    assert_true(made > 300);
    GEOS_finish_r(geos);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(rectangle_is_framed_by_four_plain_strips, finish),
        cmocka_unit_test_teardown(leaning_side_is_ripped_at_its_angle_and_fillers_end_in_it, finish),
        cmocka_unit_test_teardown(plumb_side_is_glued_first_and_the_leaning_one_last, finish),
        cmocka_unit_test_teardown(offcut_of_the_taper_is_the_cradle_for_the_bandsaw, finish),
        cmocka_unit_test_teardown(both_sides_may_lean, finish),
        cmocka_unit_test_teardown(vertices_on_straight_edges_and_another_start_change_nothing, finish),
        cmocka_unit_test_teardown(round_opening_has_no_strips, finish),
        cmocka_unit_test_teardown(three_five_and_slanted_openings_have_no_strips, finish),
        cmocka_unit_test_teardown(two_openings_have_no_strips, finish),
        cmocka_unit_test_teardown(strip_under_ten_millimetres_is_refused, finish),
        cmocka_unit_test_teardown(strips_are_left_alone_when_refused, finish),
        cmocka_unit_test_teardown(strips_fill_the_board_less_the_opening_without_overlap, finish),
    };
    return cmocka_run_group_tests_name("strips", tests, NULL, NULL);
}
