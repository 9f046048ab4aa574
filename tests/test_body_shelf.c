// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include "papers_jobs.h"
#include "sheet/bodies.h"
#include "sheet/body_shelf.h"

static const sample_job usual = { .paper = "A4", .figures = "mm 0.1", .joints = true };
static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static void check_same(const tw_solid *a, const tw_solid *b)
{
    assert_int_equal(a->point_count, b->point_count);
    assert_int_equal(a->facet_count, b->facet_count);
    assert_int_equal(a->crease_count, b->crease_count);
    assert_int_equal(a->triangle_count, b->triangle_count);
    assert_int_equal(a->closed, b->closed);
    if (a->point_count > 0) assert_memory_equal(a->points, b->points, (size_t)a->point_count * sizeof *a->points);
    for (int i = 0; i < a->facet_count; i++) {
        assert_int_equal(a->facets[i].source, b->facets[i].source);
        assert_int_equal(a->facets[i].wire_count, b->facets[i].wire_count);
        for (int k = 0; k < a->facets[i].wire_count; k++) {
            tw_wire one = a->facets[i].wires[k], other = b->facets[i].wires[k];
            assert_int_equal(one.count, other.count);
            assert_memory_equal(one.points, other.points, (size_t)one.count * sizeof *one.points);
        }
    }
}

typedef struct bench { tw_result *result; tw_paper_input in; } bench;

static bench set_up(void)
{
    bench b = { .result = sample_figures(usual, false) };
    b.in = tw_result_input(b.result);
    return b;
}

static tw_body_key key_of(const tw_bodies *bodies, int piece, bool to_look_at)
{
    return (tw_body_key){ tw_piece_size(&bodies->job->pieces[piece]), bodies->cuts[piece].cuts, bodies->cuts[piece].count, 0.1,
                          to_look_at };
}

static void what_is_taken_from_the_shelf_is_what_would_be_made(void **state)
{
    (void)state;
    bench b = set_up();
    tw_body_shelf *shelf = tw_body_shelf_new(NULL);
    const tw_bodies *fresh = tw_bodies_to_look_at(&arena, b.in.job, b.in.plans, b.in.plan_count, 0.1);
    for (int round = 0; round < 3; round++) {
        tw_arena own = { 0 };  // of one result: what was taken before does not hang on it
        const tw_bodies *bodies = tw_bodies_from_shelf(&own, b.in.job, b.in.plans, b.in.plan_count, 0.1, shelf);
        for (int i = 0; i < b.in.job->piece_count; i++) {
            tw_body_key key = key_of(bodies, i, true);
            tw_arena scratch = { 0 };
            assert_true((tw_body_shelf_take(shelf, &scratch, key) != NULL) == (round > 0));
            tw_arena_finish(&scratch);
            check_same(tw_body_of_piece(bodies, i), tw_body_of_piece(fresh, i));
        }
        for (int p = 0; p < b.in.plan_count; p++)
            for (size_t i = 0; i < b.in.plans[p].part_count; i++) check_same(tw_body_of_part(bodies, p, (int)i),
                tw_body_of_part(fresh, p, (int)i));
        tw_arena_finish(&own);
    }
    tw_body_shelf_free(shelf);
    tw_result_free(b.result);
}

static void other_wood_is_not_taken_for_it(void **state)
{
    (void)state;
    bench b = set_up();
    tw_body_shelf *shelf = tw_body_shelf_new(NULL);
    const tw_bodies *bodies = tw_bodies_from_shelf(&arena, b.in.job, b.in.plans, b.in.plan_count, 0.1, shelf);
    tw_body_of_piece(bodies, 0);
    tw_body_key key = key_of(bodies, 0, true), other = key;
    assert_non_null(tw_body_shelf_take(shelf, &arena, key));
    other.size.width_mm += 1e-9;
    assert_null(tw_body_shelf_take(shelf, &arena, other));
    other = key;
    other.cut_count--;
    assert_null(tw_body_shelf_take(shelf, &arena, other));
    other = key;
    other.to_look_at = false;
    assert_null(tw_body_shelf_take(shelf, &arena, other));
    other = key;
    other.chord_mm = 0.05;
    assert_null(tw_body_shelf_take(shelf, &arena, other));
    tw_cut cuts[16];
    assert_true(key.cut_count > 0 && key.cut_count <= 16);
    memcpy(cuts, key.cuts, (size_t)key.cut_count * sizeof *cuts);
    other = key;
    other.cuts = cuts;
    assert_non_null(tw_body_shelf_take(shelf, &arena, other));  // the same numbers elsewhere in memory
    cuts[key.cut_count - 1].depth_mm += 1e-9;
    assert_null(tw_body_shelf_take(shelf, &arena, other));
    tw_body_shelf_free(shelf);
    tw_result_free(b.result);
}

static void the_shelf_keeps_the_last_ones_only(void **state)
{
    (void)state;
    tw_body_shelf *shelf = tw_body_shelf_new(NULL);
    enum { PUT = TW_BODY_SHELF_MOST + 30 };
    for (int i = 0; i < PUT; i++) {
        tw_body_key key = { .size = { 100.0 + i, 50.0, 20.0 }, .chord_mm = 0.1 };
        tw_arena own = { 0 };
        tw_body_shelf_put(shelf, key, tw_solid_make(&own, key.size, NULL, 0, 0.1));
        tw_arena_finish(&own);
    }
    for (int i = 0; i < PUT; i++) {
        tw_body_key key = { .size = { 100.0 + i, 50.0, 20.0 }, .chord_mm = 0.1 };
        const tw_solid *solid = tw_body_shelf_take(shelf, &arena, key);
        assert_true((solid != NULL) == (i >= 30));
        if (solid) CHECK_NEAR(tw_solid_volume_mm3(solid), (100.0 + i) * 50.0 * 20.0, 1e-6);
    }
    tw_body_shelf_free(shelf);
    tw_body_shelf_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(what_is_taken_from_the_shelf_is_what_would_be_made, finish),
        cmocka_unit_test_teardown(other_wood_is_not_taken_for_it, finish),
        cmocka_unit_test_teardown(the_shelf_keeps_the_last_ones_only, finish),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
