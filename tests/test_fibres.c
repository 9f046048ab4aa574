// SPDX-License-Identifier: GPL-3.0-or-later
/* Runs of fibres against sums by hand, and against points that are asked one by one whether a cut takes them. */
#include "check.h"

#include "cut_law.h"
#include "piece/fibres.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_size BOARD = { 400, 100, 40 };

static tw_cut cut_of(tw_face face, tw_outline outline, double depth) { return (tw_cut){ .face = face, .outline = outline, .depth_mm = depth }; }
static tw_cut rectangle(tw_face face, double x0, double y0, double x1, double y1, double depth) { return cut_of(face, tw_outline_rectangle(&arena, x0, y0, x1, y1), depth); }

static void expect_runs(const tw_cut *cuts, int cut_count, double y, double z, const tw_fibre_run *want, int want_count, double within)
{
    int count;
    tw_fibre_run *runs = tw_fibre_runs(&arena, BOARD, cuts, cut_count, y, z, &count);
    assert_int_equal(count, want_count);
    for (int i = 0; i < count; i++) {
        CHECK_NEAR(runs[i].from_mm, want[i].from_mm, within);
        CHECK_NEAR(runs[i].to_mm, want[i].to_mm, within);
        assert_int_equal(runs[i].from_cut, want[i].from_cut);
        assert_int_equal(runs[i].to_cut, want[i].to_cut);
    }
}

static void fibre_of_a_whole_board_runs_from_end_to_end(void **state)
{
    (void)state;
    expect_runs(NULL, 0, 50, 20, &(tw_fibre_run){ 0, 400, -1, -1 }, 1, 0.0);
}

/* Mortise 100..160 along, 30..45 across, 25 deep from the face: z from 15 to 40. */
static void mortise_parts_the_fibres_within_it_and_no_others(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 100, 30, 160, 45, 25);
    const tw_fibre_run two[] = { { 0, 100, -1, 0 }, { 160, 400, 0, -1 } };
    expect_runs(&cut, 1, 40, 16, two, 2, 1e-12);
    expect_runs(&cut, 1, 40, 14, &(tw_fibre_run){ 0, 400, -1, -1 }, 1, 0.0);
    expect_runs(&cut, 1, 46, 30, &(tw_fibre_run){ 0, 400, -1, -1 }, 1, 0.0);
}

/* The back's frame runs right along x and up from the back edge: up 30..45 there is y 55..70. */
static void cut_from_the_back_is_counted_up_from_the_back_edge(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_BACK, 100, 30, 160, 45, 10);
    const tw_fibre_run two[] = { { 0, 100, -1, 0 }, { 160, 400, 0, -1 } };
    expect_runs(&cut, 1, 60, 9, two, 2, 1e-12);
    expect_runs(&cut, 1, 40, 9, &(tw_fibre_run){ 0, 400, -1, -1 }, 1, 0.0);
}

/* A hole of radius 10 about (200, 50) through the face: at 6 from its middle the chord is 2 * 8. */
static void round_hole_takes_its_chord(void **state)
{
    (void)state;
    tw_cut cut = cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 200, 50 }, 10), 0);
    cut.through = true;
    const tw_fibre_run two[] = { { 0, 192, -1, 0 }, { 208, 400, 0, -1 } };
    expect_runs(&cut, 1, 56, 3, two, 2, 1e-9);
    expect_runs(&cut, 1, 60.001, 3, &(tw_fibre_run){ 0, 400, -1, -1 }, 1, 0.0);
}

/* A plug stands in a pocket: the pocket 100..200 has a hole (wood) 140..160. */
static void hole_in_an_outline_stays_wood(void **state)
{
    (void)state;
    tw_outline both = { TW_NEW_ARRAY(&arena, tw_loop, 2), 2 };
    both.loops[0] = tw_outline_rectangle(&arena, 100, 20, 200, 80).loops[0];
    tw_loop plug = tw_outline_rectangle(&arena, 140, 40, 160, 60).loops[0];
    both.loops[1] = (tw_loop){ TW_NEW_ARRAY(&arena, tw_vertex, 4), 4 };
    for (int i = 0; i < 4; i++) both.loops[1].vertices[i] = plug.vertices[3 - i];
    tw_cut cut = cut_of(TW_SIDE_FACE, both, 15);
    const tw_fibre_run three[] = { { 0, 100, -1, 0 }, { 140, 160, 0, 0 }, { 200, 400, 0, -1 } };
    expect_runs(&cut, 1, 50, 30, three, 3, 1e-12);
}

/* A notch of slope 1:4 on the face edge: right walls from (100, 0) to (110, 40); at z 20 the fibre meets it at 105. */
static void sloping_wall_is_met_where_its_slope_says(void **state)
{
    (void)state;
    tw_vertex notch[] = { { 50, 0, 0 }, { 100, 0, 0 }, { 110, 40, 0 }, { 50, 40, 0 } };
    tw_cut cut = cut_of(TW_SIDE_FACE_EDGE, tw_outline_of_loop(&arena, notch, 4), 30);
    const tw_fibre_run two[] = { { 0, 50, -1, 0 }, { 105, 400, 0, -1 } };
    expect_runs(&cut, 1, 29, 20, two, 2, 1e-12);
}

/* From the right end, 60 deep, y 0..100 z 0..12: the fibre stops at 340. From 20 below that end on: it goes on for 20. */
static void cut_in_an_end_shortens_the_fibre_from_where_it_begins(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_RIGHT_END, 0, 0, 100, 12, 60);
    expect_runs(&cut, 1, 50, 6, &(tw_fibre_run){ 0, 340, -1, 0 }, 1, 1e-12);
    cut.start_mm = 20;
    const tw_fibre_run two[] = { { 0, 340, -1, 0 }, { 380, 400, 0, -1 } };
    expect_runs(&cut, 1, 50, 6, two, 2, 1e-12);
}

/* Left end seen from outside: right is -y. A square of y 60..80 stands at right 20..40. It leans 1 in 10 to the right, towards
 * smaller y: the fibre at y 70 is inside while 20 <= 30 - in/10 <= 40, so to in = 100; at y 79 from 0 to in = 10 only... */
static void fibre_along_a_leaning_prism_in_the_end_leaves_it_at_its_wall(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_LEFT_END, 20, 10, 40, 30, 300);
    cut.lean_right = 0.1;
    expect_runs(&cut, 1, 70, 20, &(tw_fibre_run){ 100, 400, 0, -1 }, 1, 1e-9);
    expect_runs(&cut, 1, 79, 20, &(tw_fibre_run){ 10, 400, 0, -1 }, 1, 1e-9);
    const tw_fibre_run two[] = { { 0, 50, -1, 0 }, { 250, 400, 0, -1 } };  // y 55: right 45, inside for 5..25 of lean
    expect_runs(&cut, 1, 55, 20, two, 2, 1e-9);
}

/* A mortise from the face that leans 1 in 5 along the grain: 10 below the face it has moved by 2. */
static void leaning_mortise_moves_with_its_depth(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 100, 30, 160, 45, 30);
    cut.lean_right = 0.2;
    const tw_fibre_run two[] = { { 0, 102, -1, 0 }, { 162, 400, 0, -1 } };
    expect_runs(&cut, 1, 40, 30, two, 2, 1e-12);
    cut.lean_right = 0.0;
    cut.lean_up = -0.5;  // 10 below the face: y 25..40
    const tw_fibre_run again[] = { { 0, 100, -1, 0 }, { 160, 400, 0, -1 } };
    expect_runs(&cut, 1, 26, 30, again, 2, 1e-12);
    expect_runs(&cut, 1, 41, 30, &(tw_fibre_run){ 0, 400, -1, -1 }, 1, 0.0);
}

static void cuts_that_overlap_leave_what_neither_takes_and_say_who_bounds_it(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 100, 0, 200, 100, 20), rectangle(TW_SIDE_FACE_EDGE, 150, 0, 250, 40, 60), rectangle(TW_SIDE_FACE, 280, 0, 300, 100, 30) };
    const tw_fibre_run three[] = { { 0, 100, -1, 0 }, { 250, 280, 1, 2 }, { 300, 400, 2, -1 } };
    expect_runs(cuts, 3, 50, 30, three, 3, 1e-12);
}

static void fibre_all_of_which_is_cut_away_has_no_runs(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, -5, -5, 405, 30, 10);
    expect_runs(&cut, 1, 20, 35, NULL, 0, 0.0);
}

/* An arc so flat that it is a line to the eye: chord 300, rise 1e-7. */
static void flattest_arc_is_crossed_like_its_chord(void **state)
{
    (void)state;
    tw_vertex arch[] = { { 50, 0, 0 }, { 350, 0, 2e-7 / 300.0 }, { 350, 30, -2e-7 / 300.0 }, { 50, 30, 0 } };
    tw_cut cut = cut_of(TW_SIDE_FACE, tw_outline_of_loop(&arena, arch, 4), 20);
    const tw_fibre_run two[] = { { 0, 50, -1, 0 }, { 350, 400, 0, -1 } };
    expect_runs(&cut, 1, 10, 30, two, 2, 1e-6);
}

/* ---- across the grain ---- */

/* Mortise 25 deep in 40: 15 left below it, as seen along z; to either side of it 30 and 55, as seen along y. */
static void lines_across_the_grain_measure_floor_and_walls(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 100, 30, 160, 45, 25);
    tw_wood wood = tw_wood_make(&arena, BOARD, &cut, 1);
    int count;
    const tw_fibre_run *runs = tw_wood_runs(&wood, TW_AXIS_Z, (tw_spot){ 120, 40, 0 }, &count);
    assert_int_equal(count, 1);
    CHECK_NEAR(runs[0].to_mm - runs[0].from_mm, 15.0, 1e-12);
    assert_int_equal(runs[0].to_cut, 0);
    runs = tw_wood_runs(&wood, TW_AXIS_Y, (tw_spot){ 120, 0, 30 }, &count);
    assert_int_equal(count, 2);
    CHECK_NEAR(runs[0].to_mm, 30.0, 1e-12);
    CHECK_NEAR(runs[1].from_mm, 45.0, 1e-12);
}

/* ---- laws ---- */

static tw_outline seeded_outline(check_seed *seed, tw_size face)
{
    double w = face.length_mm, h = face.width_mm, x = check_between(seed, -0.1 * w, 0.9 * w), y = check_between(seed, -0.1 * h, 0.9 * h);
    double wide = check_between(seed, 0.03 * w, 0.4 * w), high = check_between(seed, 0.05 * h, 0.7 * h);
    switch (check_random(seed) % 4) {
    case 0: return tw_outline_rectangle(&arena, x, y, x + wide, y + high);
    case 1: return tw_outline_rounded(&arena, x, y, x + wide, y + high, tw_min(wide, high) * check_between(seed, 0.05, 0.5));
    case 2: return tw_outline_circle(&arena, (tw_point){ x, y }, 0.5 * tw_min(wide, high));
    default: {
        const tw_vertex v[] = { { x, y, 0 }, { x + wide, y + 0.2 * high, check_between(seed, -0.3, 1.4) }, { x + 0.8 * wide, y + high, check_between(seed, -0.2, 0.2) },
                                { x + 0.1 * wide, y + 0.7 * high, 0 } };
        tw_outline raw = tw_outline_of_loop(&arena, v, 4), tidy;
        tw_point where;
        return tw_outline_tidy(&arena, raw, &tidy, &where) == TW_OUTLINE_GOOD ? tidy : tw_outline_rectangle(&arena, x, y, x + wide, y + high);
    }
    }
}

static tw_cut seeded_cut(check_seed *seed)
{
    tw_face face = (tw_face)(check_random(seed) % TW_FACE_COUNT);
    tw_size extent = tw_face_extent(BOARD, face);
    tw_cut cut = cut_of(face, seeded_outline(seed, extent), extent.thickness_mm * check_between(seed, 0.05, 0.8));
    if (check_random(seed) % 3 == 0) cut.start_mm = cut.depth_mm * check_between(seed, 0.0, 0.7);
    if (check_random(seed) % 4 == 0) cut.through = true;
    if (check_random(seed) % 3 == 0) cut.lean_right = check_between(seed, -0.4, 0.4);
    if (check_random(seed) % 3 == 0) cut.lean_up = check_between(seed, -0.4, 0.4);
    return cut;
}

/* Is the spot in the prism, in doubt (within 1e-5 of its border), or outside: 1, 0, -1. From the words of piece.h. */
static int taken(const tw_cut *cut, tw_spot p)
{
    tw_spot seen = cut_law_seen(BOARD, cut->face, p);
    tw_point q = { seen.x - cut->lean_right * seen.z, seen.y - cut->lean_up * seen.z };
    double bottom = cut->through ? 1e9 : cut->depth_mm, deep = tw_min(seen.z - cut->start_mm, bottom - seen.z);
    if (deep < -1e-5) return -1;
    if (tw_outline_distance(cut->outline, q) < 1e-5 || deep < 1e-5) return tw_outline_side(cut->outline, q) < 0 && tw_outline_distance(cut->outline, q) >= 1e-5 ? -1 : 0;
    return tw_outline_side(cut->outline, q);
}

static int taken_by_any(const tw_cut *cuts, int count, tw_spot p)
{
    int answer = -1;
    for (int i = 0; i < count; i++) {
        int one = taken(&cuts[i], p);
        answer = one > answer ? one : answer;
    }
    return answer;
}

static bool in_a_run(const tw_fibre_run *runs, int count, double at)
{
    for (int i = 0; i < count; i++)
        if (at >= runs[i].from_mm && at <= runs[i].to_mm) return true;
    return false;
}

static void law_of_runs(tw_axis axis, uint64_t first_seed)
{
    check_seed seed = { first_seed };
    long asked = 0, wood_found = 0;
    for (int round = 0; round < 300; round++) {
        tw_cut cuts[5];
        int count = 1 + (int)(check_random(&seed) % 5), runs_count;
        for (int i = 0; i < count; i++) cuts[i] = seeded_cut(&seed);
        tw_wood wood = tw_wood_make(&arena, BOARD, cuts, count);
        for (int line = 0; line < 20; line++) {
            tw_spot at = { check_between(&seed, 0, 400), check_between(&seed, 0, 100), check_between(&seed, 0, 40) };
            const tw_fibre_run *runs = tw_wood_runs(&wood, axis, at, &runs_count);
            for (int i = 0; i < runs_count; i++) {
                assert_true(runs[i].to_mm > runs[i].from_mm && runs[i].from_mm >= 0.0 && runs[i].to_mm <= tw_extent_along(BOARD, axis) + 1e-12);
                assert_true(i == 0 || runs[i].from_mm > runs[i - 1].to_mm);
                assert_true((runs[i].from_cut < 0) == (runs[i].from_mm == 0.0));
            }
            for (int k = 0; k < 25; k++) {
                double t = check_between(&seed, 0, tw_extent_along(BOARD, axis));
                *(axis == TW_AXIS_X ? &at.x : axis == TW_AXIS_Y ? &at.y : &at.z) = t;
                int gone = taken_by_any(cuts, count, at);
                if (gone == 0) continue;
                if (in_a_run(runs, runs_count, t) != (gone < 0)) print_error("round %d, axis %d, %.9f %.9f %.9f\n", round, (int)axis, at.x, at.y, at.z);
                assert_int_equal(in_a_run(runs, runs_count, t), gone < 0);
                asked++;
                wood_found += gone < 0;
            }
        }
    }
    if (asked <= 149000 || wood_found <= 20000 || wood_found >= 145000) print_error("asked %ld, of them wood %ld\n", asked, wood_found);
    assert_true(asked > 149000 && wood_found > 20000 && wood_found < 145000);
}

static void fibres_are_wood_just_where_no_cut_takes_a_point(void **state) { (void)state; law_of_runs(TW_AXIS_X, 71); }
static void lines_across_are_wood_just_where_no_cut_takes_a_point(void **state) { (void)state; law_of_runs(TW_AXIS_Y, 72); law_of_runs(TW_AXIS_Z, 73); }

/* A run's end lies on the wall of the cut it names: just beyond it that cut takes the point. */
static void cut_that_bounds_a_run_takes_what_lies_beyond_it(void **state)
{
    (void)state;
    check_seed seed = { 74 };
    long asked = 0;
    for (int round = 0; round < 1000; round++) {
        tw_cut cuts[4];
        for (int i = 0; i < 4; i++) cuts[i] = seeded_cut(&seed);
        double y = check_between(&seed, 0, 100), z = check_between(&seed, 0, 40);
        int count;
        tw_fibre_run *runs = tw_fibre_runs(&arena, BOARD, cuts, 4, y, z, &count);
        for (int i = 0; i < count; i++) {
            if (runs[i].from_cut >= 0) { assert_true(taken(&cuts[runs[i].from_cut], (tw_spot){ runs[i].from_mm - 1e-4, y, z }) >= 0); asked++; }
            if (runs[i].to_cut >= 0) { assert_true(taken(&cuts[runs[i].to_cut], (tw_spot){ runs[i].to_mm + 1e-4, y, z }) >= 0); asked++; }
        }
    }
    if (asked <= 500) print_error("only %ld ends\n", asked);
    assert_true(asked > 500);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fibre_of_a_whole_board_runs_from_end_to_end),
        cmocka_unit_test(mortise_parts_the_fibres_within_it_and_no_others),
        cmocka_unit_test(cut_from_the_back_is_counted_up_from_the_back_edge),
        cmocka_unit_test(round_hole_takes_its_chord),
        cmocka_unit_test(hole_in_an_outline_stays_wood),
        cmocka_unit_test(sloping_wall_is_met_where_its_slope_says),
        cmocka_unit_test(cut_in_an_end_shortens_the_fibre_from_where_it_begins),
        cmocka_unit_test(fibre_along_a_leaning_prism_in_the_end_leaves_it_at_its_wall),
        cmocka_unit_test(leaning_mortise_moves_with_its_depth),
        cmocka_unit_test(cuts_that_overlap_leave_what_neither_takes_and_say_who_bounds_it),
        cmocka_unit_test(fibre_all_of_which_is_cut_away_has_no_runs),
        cmocka_unit_test(flattest_arc_is_crossed_like_its_chord),
        cmocka_unit_test(lines_across_the_grain_measure_floor_and_walls),
        cmocka_unit_test(fibres_are_wood_just_where_no_cut_takes_a_point),
        cmocka_unit_test(lines_across_are_wood_just_where_no_cut_takes_a_point),
        cmocka_unit_test(cut_that_bounds_a_run_takes_what_lies_beyond_it),
    };
    return cmocka_run_group_tests_name("fibres", tests, NULL, finish);
}
