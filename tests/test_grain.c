// SPDX-License-Identifier: GPL-3.0-or-later
/* The map of fibres: volume against the sums of the sections and against points by the million, short grain against sums by hand. */
#include "check.h"

#include "cut_law.h"
#include "piece/grain.h"
#include "piece/sections.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_size BOARD = { 400, 100, 40 };

static tw_cut cut_of(tw_face face, tw_outline outline, double depth) { return (tw_cut){ .face = face, .outline = outline, .depth_mm = depth }; }
static tw_cut rectangle(tw_face face, double x0, double y0, double x1, double y1, double depth) { return cut_of(face, tw_outline_rectangle(&arena, x0, y0, x1, y1), depth); }
static tw_cut polygon(tw_face face, const tw_vertex *v, int count, double depth) { return cut_of(face, tw_outline_of_loop(&arena, v, count), depth); }
static tw_grain map_of(const tw_cut *cuts, int count) { return tw_grain_make(&arena, BOARD, cuts, count, TW_GRAIN_STEP_MM); }

/* The quick look must find the same regions. */
static tw_grain short_grain_of(const tw_cut *cuts, int count)
{
    tw_grain all = map_of(cuts, count), quick = tw_grain_short(&arena, BOARD, cuts, count, TW_GRAIN_STEP_MM);
    assert_int_equal(all.region_count, quick.region_count);
    for (int i = 0; i < all.region_count; i++) {
        CHECK_NEAR(quick.regions[i].area_mm2, all.regions[i].area_mm2, 1e-6);
        CHECK_NEAR(quick.regions[i].held_mm2, all.regions[i].held_mm2, 1e-6);
        CHECK_NEAR(quick.regions[i].volume_mm3, all.regions[i].volume_mm3, 1e-6);
        assert_int_equal(quick.regions[i].from_cut, all.regions[i].from_cut);
        assert_int_equal(quick.regions[i].to_cut, all.regions[i].to_cut);
    }
    assert_true(quick.run_count <= all.run_count);
    return all;
}

/* ---- the map ---- */

static void board_without_cuts_is_one_cell_of_one_run(void **state)
{
    (void)state;
    tw_grain g = map_of(NULL, 0);
    assert_int_equal(g.run_count, 1);
    CHECK_NEAR(g.volume_mm3, 1.6e6, 1e-6);
    CHECK_NEAR(g.shortest.to_mm, 0.0, 0.0);
    assert_int_equal(g.region_count, 0);
}

/* Square walls: exact with the few cells between the marks: 3 across, 2 deep. */
static void square_mortise_needs_no_steps(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 100, 30, 160, 45, 25);
    tw_grain g = map_of(&cut, 1);
    assert_int_equal((g.y.count - 1) * (g.z.count - 1), 6);
    CHECK_NEAR(g.volume_mm3, 1.6e6 - 60.0 * 15.0 * 25.0, 1e-6);
    CHECK_NEAR(g.shortest.to_mm - g.shortest.from_mm, 100.0, 1e-9);
    assert_int_equal(g.shortest.from_cut, -1);
    assert_int_equal(g.shortest.to_cut, 0);
}

static void round_walls_are_mapped_in_cells_of_half_a_millimetre(void **state)
{
    (void)state;
    tw_cut cut = cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 200, 50 }, 10), 15);
    tw_grain g = map_of(&cut, 1);
    for (size_t i = 0; i + 1 < g.y.count; i++)
        if (g.y.at[i] >= 40.0 - 1e-9 && g.y.at[i + 1] <= 60.0 + 1e-9) assert_true(g.y.at[i + 1] - g.y.at[i] <= 0.5 + 1e-9);
    CHECK_NEAR(g.volume_mm3, 1.6e6 - TW_PI * 100.0 * 15.0, 0.002 * TW_PI * 100.0 * 15.0);
}

static tw_cut seeded_cut(check_seed *seed)
{
    tw_face face = (tw_face)(check_random(seed) % TW_FACE_COUNT);
    tw_size e = tw_face_extent(BOARD, face);
    double x = check_between(seed, -0.1, 0.8) * e.length_mm, y = check_between(seed, -0.1, 0.8) * e.width_mm, w = check_between(seed, 0.05, 0.4) * e.length_mm, h = check_between(seed, 0.1, 0.5) * e.width_mm;
    const tw_vertex v[] = { { x, y, 0 }, { x + w, y + 0.3 * h, check_between(seed, 0, 0.8) }, { x + 0.7 * w, y + h, 0 } };
    tw_cut cut = check_random(seed) % 2 ? polygon(face, v, 3, 0) : cut_of(face, tw_outline_rounded(&arena, x, y, x + w, y + h, tw_min(w, h) * check_between(seed, 0, 0.5)), 0);
    cut.depth_mm = e.thickness_mm * check_between(seed, 0.1, 0.7);
    if (check_random(seed) % 4 == 0) cut.lean_right = check_between(seed, -0.3, 0.3);
    if (check_random(seed) % 4 == 0) cut.lean_up = check_between(seed, -0.3, 0.3);
    return cut;
}

/* Along the grain and across it are two ways of reckoning: they share the finding of gaps, not the adding up. */
static void fibres_and_sections_add_up_to_the_same_volume(void **state)
{
    (void)state;
    check_seed seed = { 91 };
    for (int round = 0; round < 40; round++) {
        tw_cut cuts[4];
        for (int i = 0; i < 4; i++) cuts[i] = seeded_cut(&seed);
        tw_wood wood = tw_wood_make(&arena, BOARD, cuts, 4);
        tw_bulk bulk = tw_bulk_make(&wood);
        tw_grain g = tw_grain_make(&arena, BOARD, cuts, 4, TW_GRAIN_STEP_MM);
        CHECK_NEAR(g.volume_mm3, bulk.volume_mm3, 1e-4 * 1.6e6);
    }
}

/* Points on a lattice that is out of step with the grid, each asked whether a cut takes it: good to 0.3 % of the board. */
static void volume_is_what_points_by_the_million_say(void **state)
{
    (void)state;
    check_seed seed = { 92 };
    for (int round = 0; round < 3; round++) {
        tw_cut cuts[3];
        for (int i = 0; i < 3; i++) { cuts[i] = seeded_cut(&seed); cuts[i].lean_right = cuts[i].lean_up = 0.0; }
        long wood = 0, all = 0;
        for (double x = 1.7; x < 400; x += 3.4)
            for (double y = 0.65; y < 100; y += 1.3)
                for (double z = 0.55; z < 40; z += 1.1, all++) {
                    bool taken = false;
                    for (int i = 0; i < 3 && !taken; i++) taken = cut_law_takes(BOARD, &cuts[i], (tw_spot){ x, y, z });
                    wood += !taken;
                }
        CHECK_NEAR(map_of(cuts, 3).volume_mm3 / 1.6e6, (double)wood / (double)all, 0.003);
    }
}

/* ---- short grain ---- */

/* Housing 10 deep, 6 from the left end: wood 6 long, 10 high over the whole width. Held by 6 x 100 under it, its end is
 * 10 x 100: hold 0.6. */
static void wood_shorter_than_it_is_high_between_housing_and_end_is_short_grain(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 6, 0, 26, 100, 10);
    tw_grain g = short_grain_of(&cut, 1);
    assert_int_equal(g.region_count, 1);
    tw_short_grain r = g.regions[0];
    CHECK_NEAR(r.area_mm2, 1000, 1e-6);
    CHECK_NEAR(r.held_mm2, 600, 1e-6);
    CHECK_NEAR(r.hold, 0.6, 1e-9);
    CHECK_NEAR(r.volume_mm3, 6000, 1e-6);
    CHECK_NEAR(r.shortest_mm, 6, 1e-9);
    CHECK_NEAR(r.box.least.z, 30, 1e-9);
    CHECK_NEAR(r.box.most.y, 100, 1e-9);
    assert_int_equal(r.from_cut, -1);
    assert_int_equal(r.to_cut, 0);
}

static void wood_longer_than_it_is_high_is_none(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 10.1, 0, 26, 100, 10);
    assert_int_equal(short_grain_of(&cut, 1).region_count, 0);
}

/* A cog 8 long between two housings 12 deep: hold 8/12; bounded by the first and the second. */
static void cog_between_two_housings_names_both(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 108, 0, 130, 100, 12), rectangle(TW_SIDE_FACE, 80, 0, 100, 100, 12) };
    tw_grain g = short_grain_of(cuts, 2);
    assert_int_equal(g.region_count, 1);
    CHECK_NEAR(g.regions[0].hold, 8.0 / 12.0, 1e-9);
    assert_int_equal(g.regions[0].from_cut, 1);
    assert_int_equal(g.regions[0].to_cut, 0);
    CHECK_NEAR(g.shortest.to_mm - g.shortest.from_mm, 8, 1e-9);
}

/* Through mortise 12 wide, its end 5 from the end of the piece: end 12 x 40, held on both sides, 2 x 40 x 5: hold 5/6. */
static void relish_of_a_mortise_is_held_on_both_sides(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 5, 44, 65, 56, 40);
    tw_grain g = short_grain_of(&cut, 1);
    assert_int_equal(g.region_count, 1);
    CHECK_NEAR(g.regions[0].hold, 5.0 / 6.0, 1e-9);
    cut = rectangle(TW_SIDE_FACE, 6.1, 44, 65, 56, 40);
    assert_int_equal(short_grain_of(&cut, 1).region_count, 0);
}

/* A blind one, 20 deep, is held by its floor too: (2 x 20 + 12) x 3 over 12 x 20: hold 156/240. */
static void relish_of_a_blind_mortise_is_held_by_its_floor_too(void **state)
{
    (void)state;
    tw_cut cut = rectangle(TW_SIDE_FACE, 3, 44, 65, 56, 20);
    tw_grain g = short_grain_of(&cut, 1);
    assert_int_equal(g.region_count, 1);
    CHECK_NEAR(g.regions[0].hold, 156.0 / 240.0, 1e-9);
}

/* Sockets of a dovetail from the right end, slope 1:6, 20 long: a tail's flanks run out to nothing, but are held all along. */
static void tail_of_a_dovetail_is_no_short_grain(void **state)
{
    (void)state;
    const tw_vertex one[] = { { 380, 20, 0 }, { 400, 20.0 + 20.0 / 6.0, 0 }, { 400, 40.0 - 20.0 / 6.0, 0 }, { 380, 40, 0 } };
    const tw_vertex two[] = { { 380, 60, 0 }, { 400, 60.0 + 20.0 / 6.0, 0 }, { 400, 80.0 - 20.0 / 6.0, 0 }, { 380, 80, 0 } };
    tw_cut cuts[] = { polygon(TW_SIDE_FACE, one, 4, 40), polygon(TW_SIDE_FACE, two, 4, 40) };
    assert_int_equal(short_grain_of(cuts, 2).region_count, 0);
}

/* But at a slope of 3:2 the same flank is: a triangle 30 wide, 20 long, held by 20 x 40 over 30 x 40: hold 2/3. */
static void flank_that_slopes_across_the_grain_is(void **state)
{
    (void)state;
    const tw_vertex socket[] = { { 380, 0, 0 }, { 400, 0, 0 }, { 400, 30, 0 }, { 380, 60, 0 } };
    tw_cut cut = polygon(TW_SIDE_FACE, socket, 4, 40);
    tw_grain g = short_grain_of(&cut, 1);
    assert_int_equal(g.region_count, 1);
    CHECK_NEAR(g.regions[0].hold, 2.0 / 3.0, 0.01);
    CHECK_NEAR(g.regions[0].volume_mm3, 30.0 * 20.0 / 2.0 * 40.0, 50.0);
}

static void largest_region_comes_first(void **state)
{
    (void)state;
    tw_cut cuts[] = { rectangle(TW_SIDE_FACE, 3, 0, 26, 100, 10), rectangle(TW_SIDE_BACK, 374, 0, 392, 100, 10) };
    tw_grain g = short_grain_of(cuts, 2);
    assert_int_equal(g.region_count, 2);
    assert_int_equal(g.regions[0].from_cut, 1);  // 8 long at the right end
    assert_int_equal(g.regions[0].to_cut, -1);
    assert_int_equal(g.regions[1].to_cut, 0);    // 3 at the left
    for (size_t r = 0; r < g.run_count; r++) assert_true(g.region[r] >= -1 && g.region[r] < 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(board_without_cuts_is_one_cell_of_one_run),
        cmocka_unit_test(square_mortise_needs_no_steps),
        cmocka_unit_test(round_walls_are_mapped_in_cells_of_half_a_millimetre),
        cmocka_unit_test(fibres_and_sections_add_up_to_the_same_volume),
        cmocka_unit_test(volume_is_what_points_by_the_million_say),
        cmocka_unit_test(wood_shorter_than_it_is_high_between_housing_and_end_is_short_grain),
        cmocka_unit_test(wood_longer_than_it_is_high_is_none),
        cmocka_unit_test(cog_between_two_housings_names_both),
        cmocka_unit_test(relish_of_a_mortise_is_held_on_both_sides),
        cmocka_unit_test(relish_of_a_blind_mortise_is_held_by_its_floor_too),
        cmocka_unit_test(tail_of_a_dovetail_is_no_short_grain),
        cmocka_unit_test(flank_that_slopes_across_the_grain_is),
        cmocka_unit_test(largest_region_comes_first),
    };
    return cmocka_run_group_tests_name("grain", tests, NULL, finish);
}
