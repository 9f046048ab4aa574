// SPDX-License-Identifier: GPL-3.0-or-later
/* Laws of offset, over seeded outlines of every awkward kind (see generate.c) from 0.001 to 10 000 mm. That growing by a
 * and then by b is growing by a + b, that growing and shrinking again (closing) loses nothing and shrinking and growing
 * again (opening) adds nothing, are the standard laws of dilation and erosion by discs (mathematical morphology). */
#include "laws/generate.h"
#include "laws/promises.h"

#define OUTLINES_OF_A_KIND 1000
#define OUTLINES_FOR_PAIRS 150

static int refused, tries_in_all;

typedef const char *(*law)(tw_arena *arena, generated made, check_seed *seed, tw_point *where);

/* Holds a law over many outlines of each kind; says which one breaks it, so that it can be made again. */
static void hold(law broken_by, int outlines, double size_mm, const char *name)
{
    for (int kind = 0; kind < KIND_COUNT; kind++)
        for (int i = 0; i < outlines; i++) {
            tw_arena arena = { 0 };
            check_seed seed = { (uint64_t)i * 1000003u + (uint64_t)kind * 7919u };
            int tries = 0;
            generated made = generate(&arena, &seed, (generate_kind)kind, size_mm, &tries);
            refused += tries - 1;
            tries_in_all += tries;
            tw_point where = { 0.0, 0.0 };
            const char *what = broken_by(&arena, made, &seed, &where);
            if (what) {
                print_error("%s, %s %d: %s at %.9g, %.9g (distance %.17g, size %g)\n", name, generate_names[kind], i, what, where.x, where.y,
                    made.distance_mm, made.size_mm);
                fail();
            }
            tw_arena_finish(&arena);
        }
}

/* ---- one outline, one result ---- */

static const char *keeps_promises(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)seed;
    tw_outline result = tw_outline_offset(arena, made.outline, made.distance_mm);
    const char *what = promise_distance(made.outline, result, made.distance_mm, where);
    return what ? what : promise_tidy(arena, result, where);
}

static void border_lies_at_the_distance_and_is_tidy(void **state)
{
    (void)state;
    hold(keeps_promises, OUTLINES_OF_A_KIND, 0.0, "promises");
}

/* Places beside the border of the result, found from the outline's edges: nothing small gets lost. */
static const char *loses_nothing(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    tw_outline result = tw_outline_offset(arena, made.outline, made.distance_mm);
    double d = made.distance_mm;
    for (int i = 0; i < made.outline.count; i++)
        for (int j = 0; j < made.outline.loops[i].count; j++) {
            tw_vertex v = made.outline.loops[i].vertices[j], w = promise_next(made.outline.loops[i], j);
            for (int k = 0; k < 8; k++) {
                double part = check_between(seed, 0.001, 0.999), beyond = (k & 1 ? 1.0 : -1.0) * (k & 2 ? 2e-6 : 1e-3 * fabs(d) + 2e-6);
                tw_point p = promise_point(v, w, part), a = promise_point(v, w, part - 1e-4), b = promise_point(v, w, part + 1e-4);
                double length = hypot(b.x - a.x, b.y - a.y), s = (d > 0.0 ? fabs(d) + beyond : -fabs(d) - beyond) / length;
                *where = (tw_point){ p.x + (b.y - a.y) * s, p.y - (b.x - a.x) * s };
                const char *what = promise_at(made.outline, result, d, *where);
                if (what) return what;
            }
        }
    return NULL;
}

static void nothing_beside_the_border_is_lost_or_too_much(void **state)
{
    (void)state;
    hold(loses_nothing, OUTLINES_OF_A_KIND, 0.0, "beside the border");
}

static const char *same_bytes(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)seed;
    (void)where;
    tw_outline a = tw_outline_offset(arena, made.outline, made.distance_mm), b = tw_outline_offset(arena, made.outline, made.distance_mm);
    if (a.count != b.count) return "not the same loops";
    for (int i = 0; i < a.count; i++)
        if (a.loops[i].count != b.loops[i].count || memcmp(a.loops[i].vertices, b.loops[i].vertices, sizeof(tw_vertex) * (size_t)a.loops[i].count) != 0)
            return "not the same vertices";
    return NULL;
}

static void same_input_gives_the_same_bytes(void **state)
{
    (void)state;
    hold(same_bytes, OUTLINES_FOR_PAIRS, 0.0, "same bytes");
}

/* ---- two results ---- */

/* Two regions are the same but for a seam of 0.001 um (and 1e-8 of their size) along their borders. */
static const char *not_the_same(tw_arena *arena, tw_outline a, tw_outline b, double size_mm)
{
    double common = tw_outline_common_area_mm2(arena, a, b), apart = tw_outline_area_mm2(a) + tw_outline_area_mm2(b) - 2.0 * common;
    double seam = 1e-6 + 1e-8 * size_mm, length = tw_outline_length_mm(a) + tw_outline_length_mm(b);
    return apart <= seam * length ? NULL : "two ways lead to two results";
}

static const char *scales(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)where;
    double factor = check_between(seed, 0.5, 4.0);
    tw_outline one = tw_outline_scaled(arena, tw_outline_offset(arena, made.outline, made.distance_mm), factor);
    tw_outline other = tw_outline_offset(arena, tw_outline_scaled(arena, made.outline, factor), made.distance_mm * factor);
    return not_the_same(arena, one, other, made.size_mm * factor);
}

static const char *mirrors(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)seed;
    (void)where;
    tw_outline one = tw_outline_mirrored(arena, tw_outline_offset(arena, made.outline, made.distance_mm));
    tw_outline other = tw_outline_offset(arena, tw_outline_mirrored(arena, made.outline), made.distance_mm);
    return not_the_same(arena, one, other, made.size_mm);
}

static const char *turns(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)where;
    double angle = check_between(seed, 0.0, 2.0 * TW_PI);
    tw_outline one = tw_outline_turned(arena, tw_outline_offset(arena, made.outline, made.distance_mm), angle);
    tw_outline other = tw_outline_offset(arena, tw_outline_turned(arena, made.outline, angle), made.distance_mm);
    return not_the_same(arena, one, other, made.size_mm);
}

static const char *adds_up(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)where;
    double part = made.distance_mm * check_between(seed, 0.1, 0.9);
    tw_outline one = tw_outline_offset(arena, tw_outline_offset(arena, made.outline, part), made.distance_mm - part);
    return not_the_same(arena, one, tw_outline_offset(arena, made.outline, made.distance_mm), made.size_mm);
}

static void offset_of_a_scaled_outline_is_the_scaled_offset(void **state) { (void)state; hold(scales, OUTLINES_FOR_PAIRS, 100.0, "scaling"); }
static void offset_of_a_mirror_image_is_the_mirror_image_of_the_offset(void **state) { (void)state; hold(mirrors, OUTLINES_FOR_PAIRS, 100.0, "mirroring"); }
static void offset_of_a_turned_outline_is_the_turned_offset(void **state) { (void)state; hold(turns, OUTLINES_FOR_PAIRS, 100.0, "turning"); }
static void two_offsets_to_the_same_side_add_up(void **state) { (void)state; hold(adds_up, OUTLINES_FOR_PAIRS, 100.0, "adding up"); }

/* Out and in again covers the outline; in and out again lies within it: what sticks out is no more than a seam. */
static const char *closes_or_opens(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)seed;
    (void)where;
    tw_outline there = tw_outline_offset(arena, made.outline, made.distance_mm), back = tw_outline_offset(arena, there, -made.distance_mm);
    tw_outline smaller = made.distance_mm > 0.0 ? made.outline : back;
    double lost = tw_outline_area_mm2(smaller) - tw_outline_common_area_mm2(arena, made.outline, back);
    return fabs(lost) <= (1e-6 + 1e-8 * made.size_mm) * (tw_outline_length_mm(smaller) + 1e-9) ? NULL : "out and in again does not cover";
}

static void out_and_in_again_covers_and_in_and_out_again_lies_within(void **state)
{
    (void)state;
    hold(closes_or_opens, OUTLINES_FOR_PAIRS, 100.0, "out and in");
}

/* What growing adds is in patches: their areas add up, and the deepest place is at the distance. */
static const char *adds_patches(tw_arena *arena, generated made, check_seed *seed, tw_point *where)
{
    (void)seed;
    (void)where;
    double d = fabs(made.distance_mm), deepest = 0.0, area = tw_outline_area_mm2(made.outline);
    tw_outline grown = tw_outline_offset(arena, made.outline, d);
    int count = 0;
    tw_patch *patches = tw_outline_patches(arena, grown, made.outline, 0.0, &count);
    for (int i = 0; i < count; i++) {
        deepest = tw_max(deepest, patches[i].depth_mm);
        area += patches[i].area_mm2;
    }
    if (fabs(area - tw_outline_area_mm2(grown)) > 1e-6 * (1.0 + tw_outline_length_mm(grown))) return "areas of patches do not add up";
    return fabs(deepest - d) <= 1e-6 ? NULL : "patches are not as deep as the distance";
}

static void patches_of_what_growing_adds_are_as_deep_as_the_distance(void **state)
{
    (void)state;
    hold(adds_patches, OUTLINES_FOR_PAIRS, 100.0, "patches");
}

/* Where no hollow is narrower than the distance, out and in again gives back the outline: convex polygons and slots. */
static void out_and_in_again_gives_back_what_has_no_narrow_place(void **state)
{
    (void)state;
    check_seed seed = { 20 };
    for (int i = 0; i < 300; i++) {
        tw_arena arena = { 0 };
        tw_vertex vertices[12];
        int count = 3 + i % 10;
        double size = pow(10.0, check_between(&seed, -1.0, 4.0));
        for (int k = 0; k < count; k++) {
            double angle = 2.0 * TW_PI * (k + check_between(&seed, -0.3, 0.3)) / count;  // on a circle: convex
            vertices[k] = (tw_vertex){ size * cos(angle), size * sin(angle), k % 3 == 0 ? check_between(&seed, 0.0, 0.5 * tan(TW_PI / 4.0 / count)) : 0.0 };
        }
        tw_outline outline = tw_outline_of_loop(&arena, vertices, count);
        double distance = size * check_between(&seed, 0.01, 2.0);
        tw_outline back = tw_outline_offset(&arena, tw_outline_offset(&arena, outline, distance), -distance);
        assert_int_equal(back.count, 1);
        CHECK_NEAR(tw_outline_difference_mm(&arena, outline, back), 0.0, 1e-6);
        tw_arena_finish(&arena);
    }
}

static void most_of_what_is_made_can_be_used(void **state)
{
    (void)state;
    assert_true(tries_in_all > 8000);
    assert_true(refused < tries_in_all * 3 / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(border_lies_at_the_distance_and_is_tidy),
        cmocka_unit_test(nothing_beside_the_border_is_lost_or_too_much),
        cmocka_unit_test(same_input_gives_the_same_bytes),
        cmocka_unit_test(offset_of_a_scaled_outline_is_the_scaled_offset),
        cmocka_unit_test(offset_of_a_mirror_image_is_the_mirror_image_of_the_offset),
        cmocka_unit_test(offset_of_a_turned_outline_is_the_turned_offset),
        cmocka_unit_test(two_offsets_to_the_same_side_add_up),
        cmocka_unit_test(out_and_in_again_covers_and_in_and_out_again_lies_within),
        cmocka_unit_test(patches_of_what_growing_adds_are_as_deep_as_the_distance),
        cmocka_unit_test(out_and_in_again_gives_back_what_has_no_narrow_place),
        cmocka_unit_test(most_of_what_is_made_can_be_used),
    };
    return cmocka_run_group_tests_name("law_offset", tests, NULL, NULL);
}
