// SPDX-License-Identifier: GPL-3.0-or-later
/* Pieces as blocks: their edges, whether they stand in each other, what is seen of them. Held to sums by hand and to
 * other ways of reckoning: projections by turns between two boxes, and rays to the eye. */
#include "planned.h"

#include "sheet/bodies.h"
#include "sheet/space_views.h"
#include "space/parts.h"

static planned p;
static tw_space space;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void place(const char *job)
{
    p = planned_of(job, SHOP_MM);
    plan(&p);
    space = tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count);
}

#define TABLE "job: test\nunits: mm\npieces:\n  foot: {count: 2, length: 640, width: 75, thickness: 60}\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n" \
    "  rail: {count: 2, length: 1210, width: 70, thickness: 28}\njoints:\n  post to foot: {kind: mortise and tenon, tenon: post, ends: left, into: foot, from: back edge, at: 320, depth: 50}\n" \
    "  rail to post: {kind: forked tusks, tenon: rail, through: post, from: back, at: [190, 480], beyond: 58, tenon width: 38, tenon thickness: 14}\n"

/* ---- shapes ---- */

static bool in_block(tw_block b, tw_spot s)
{
    return s.x > b.least.x && s.x < b.most.x && s.y > b.least.y && s.y < b.most.y && s.z > b.least.z && s.z < b.most.z;
}

static bool in_shape(const tw_shape *shape, tw_spot s)
{
    for (int i = 0; i < shape->block_count; i++)
        if (in_block(shape->blocks[i], s)) return true;
    return false;
}

/* Where the wood of a rail is, by hand: full between the shoulders 103 from the ends, 38 x 14 in the tenons. */
static void rail_is_full_between_its_shoulders_and_tenon_beyond(void **state)
{
    (void)state;
    place(TABLE);
    const tw_shape *rail = &space.shapes[2];
    check_seed seed = { 31 };
    int tried = 0;
    for (int i = 0; i < 4000; i++) {
        tw_spot s = { check_between(&seed, 0, 1210), check_between(&seed, 0, 70), check_between(&seed, 0, 28) };
        bool body = s.x > 103 && s.x < 1107, tenon = fabs(s.y - 35) < 19 && fabs(s.z - 14) < 7;
        bool near = fabs(s.x - 103) < 0.01 || fabs(s.x - 1107) < 0.01 || fabs(fabs(s.y - 35) - 19) < 0.01 || fabs(fabs(s.z - 14) - 7) < 0.01;
        bool housed = tenon && (s.x < 58 || s.x > 1152) && fabs(s.z - 14) > 3.5;  // somewhere there are the housings of the tusks
        if (near || housed) continue;
        assert_int_equal(in_shape(rail, s), body || tenon);
        tried++;
    }
    assert_true(tried > 3700);
}

static void piece_of_more_cuts_than_are_kept_is_its_blank(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: mm\npieces:\n  a: {length: 20000, width: 100, thickness: 100}\n", SHOP_MM);
    tw_joint joint = { .name = "comb" };
    tw_joint_plan one = { .joint = &joint };
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    for (int i = 0; i < 300; i++)
        tw_plan_cut(&context, &one, (tw_cut){ .piece = 0, .name = "notch", .face = i % 2 ? TW_SIDE_FACE : TW_SIDE_BACK, .depth_mm = 10 + i % 7,
            .outline = tw_outline_rectangle(&p.arena, 60.0 * i, 10 + i % 5, 60.0 * i + 20, 60) });
    space = tw_space_make(&p.arena, p.job, &one, 1);
    assert_true(space.shapes[0].blank);
    assert_int_equal(space.shapes[0].block_count, 1);
}

/* ---- standing in each other ---- */

static tw_spot nearest_in(tw_size size, tw_pose pose, tw_spot to)
{
    tw_spot own = tw_pose_apply(tw_pose_inverse(pose), to);
    own.x = tw_max(0.0, tw_min(size.length_mm, own.x));
    own.y = tw_max(0.0, tw_min(size.width_mm, own.y));
    own.z = tw_max(0.0, tw_min(size.thickness_mm, own.z));
    return tw_pose_apply(pose, own);
}

/* The distance of two boxes by projecting by turns on the one and the other, which ends at their nearest places. */
static double distance_by_turns(tw_size a, tw_pose at_a, tw_size b, tw_pose at_b)
{
    tw_spot here = at_a.at, there = here;
    for (int i = 0; i < 3000; i++) {
        there = nearest_in(b, at_b, here);
        here = nearest_in(a, at_a, there);
    }
    return tw_spot_size(tw_spot_less(here, there));
}

static tw_pose seeded_pose(check_seed *seed)
{
    tw_spot x = { check_between(seed, -1, 1), check_between(seed, -1, 1), check_between(seed, -1, 1) }, other = { check_between(seed, -1, 1), check_between(seed, 0.2, 1), -x.x };
    x = tw_spot_times(x, 1.0 / tw_spot_size(x));
    tw_spot z = tw_spot_cross(x, other);
    z = tw_spot_times(z, 1.0 / tw_spot_size(z));
    return (tw_pose){ x, tw_spot_cross(z, x), z, { check_between(seed, -70, 70), check_between(seed, -70, 70), check_between(seed, -70, 70) } };
}

static void two_boxes(tw_instance boxes[2], tw_shape shapes[2], tw_block blocks[2], const tw_size sizes[2])
{
    for (int i = 0; i < 2; i++) {
        blocks[i] = tw_piece_block(sizes[i]);
        shapes[i] = (tw_shape){ .blocks = &blocks[i], .block_count = 1 };
        boxes[i].piece = i;
    }
    space = (tw_space){ .instances = boxes, .instance_count = 2, .shapes = shapes, .lean = shapes };
}

static void boxes_stand_in_each_other_just_when_no_distance_is_left(void **state)
{
    (void)state;
    check_seed seed = { 32 };
    tw_instance boxes[2] = { { 0 } };
    tw_shape shapes[2];
    tw_block blocks[2];
    int apart = 0, in = 0;
    for (int i = 0; i < 500; i++) {
        const tw_size sizes[2] = { { check_between(&seed, 20, 150), check_between(&seed, 10, 100), check_between(&seed, 5, 60) },
                                   { check_between(&seed, 20, 150), check_between(&seed, 10, 100), check_between(&seed, 5, 60) } };
        two_boxes(boxes, shapes, blocks, sizes);
        boxes[0].pose = seeded_pose(&seed);
        boxes[1].pose = seeded_pose(&seed);
        double deep = tw_instances_deep_mm(&space, shapes, 0, 1, (tw_spot){ 0, 0, 0 });
        double distance = distance_by_turns(sizes[0], boxes[0].pose, sizes[1], boxes[1].pose);
        if (deep < -0.01) { assert_true(distance >= -deep - 1e-6); apart++; }
        if (deep > 1.0) { assert_true(distance < 0.05); in++; }
    }
    assert_true(apart > 50 && in > 50);
}

/* A box that is moved step by step meets another just when its sweep does. */
static void sweep_is_barred_just_when_a_step_of_it_is(void **state)
{
    (void)state;
    check_seed seed = { 33 };
    tw_instance boxes[2] = { { 0 } };
    tw_shape shapes[2];
    tw_block blocks[2];
    int free = 0, barred = 0;
    for (int i = 0; i < 300; i++) {
        const tw_size sizes[2] = { { 60, 40, 20 }, { 80, 30, 30 } };
        two_boxes(boxes, shapes, blocks, sizes);
        boxes[0].pose = seeded_pose(&seed);
        boxes[1].pose = seeded_pose(&seed);
        tw_spot way = tw_spot_times(seeded_pose(&seed).x, 150.0), start = boxes[0].pose.at, still = { 0, 0, 0 };
        double swept = tw_instances_deep_mm(&space, shapes, 0, 1, way), most = -INFINITY;
        for (int k = 0; k <= 300; k++) {
            boxes[0].pose.at = tw_spot_plus(start, tw_spot_times(way, k / 300.0));
            most = tw_max(most, tw_instances_deep_mm(&space, shapes, 0, 1, still));
        }
        if (swept < 0.0) { assert_true(most <= 1e-9); free++; }
        else if (most < -1.0) assert_true(swept < 1.0);   // steps of half a millimetre miss less than that
        if (most > 0.0) { assert_true(swept > -1e-9); barred++; }
    }
    assert_true(free > 50 && barred > 50);
}

/* By hand: cubes of 10, 4 into each other along one axis only. */
static void depth_is_the_least_way_out(void **state)
{
    (void)state;
    const tw_size cubes[2] = { { 10, 10, 10 }, { 10, 10, 10 } };
    tw_instance boxes[2] = { { 0 } };
    tw_shape shapes[2];
    tw_block blocks[2];
    two_boxes(boxes, shapes, blocks, cubes);
    boxes[0].pose = boxes[1].pose = tw_pose_home();
    boxes[1].pose.at = (tw_spot){ 6, 1, 2 };
    CHECK_NEAR(tw_instances_deep_mm(&space, shapes, 0, 1, (tw_spot){ 0, 0, 0 }), 4.0, 1e-12);
    boxes[1].pose.at = (tw_spot){ 10, 0, 0 };
    CHECK_NEAR(tw_instances_deep_mm(&space, shapes, 0, 1, (tw_spot){ 0, 0, 0 }), 0.0, 1e-12);  // they touch
    boxes[1].pose.at = (tw_spot){ 30, 0, 0 };
    CHECK_NEAR(tw_instances_deep_mm(&space, shapes, 0, 1, (tw_spot){ 25, 0, 0 }), 5.0, 1e-12);  // 25 of the way, 20 of room
}

/* ---- the drawing ---- */

static const char *drawn_texts(tw_arena *arena, const char *projection, const char **scale)
{
    char job[1200];
    snprintf(job, sizeof job, "projection: %s\n%s", projection, TABLE);
    place(job);
    double height;
    tw_sheet *sheet = tw_sheet_new(arena, "", "", 1000, 1000);
    const tw_bodies *bodies = tw_bodies_make(arena, p.job, p.plans, p.job->joint_count, 0.1);
    *scale = tw_views_draw(sheet, bodies, &space, 0, 180, 150, &height);
    const char *text = "";
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        if (item->kind == TW_ITEM_TEXT) text = tw_format(arena, "%s%s\n", text, item->text);
        if (item->kind == TW_ITEM_LINE) assert_true(item->from.x >= 0 && item->from.x <= 180 && item->from.y <= 0 && item->from.y >= -height);
    }
    return text;
}

static void views_say_their_sizes_scale_and_projection(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const char *scale, *text = drawn_texts(&arena, "first angle", &scale);
    CHECK_HOLDS(text, "1210.0");
    CHECK_HOLDS(text, "640.0");
    CHECK_HOLDS(text, "first angle");
    assert_string_equal(scale, "1 : 20");
    tw_arena_finish(&p.arena);
    CHECK_HOLDS(drawn_texts(&arena, "third angle", &scale), "third angle");
    tw_arena_finish(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(rail_is_full_between_its_shoulders_and_tenon_beyond, finish),
        cmocka_unit_test_teardown(piece_of_more_cuts_than_are_kept_is_its_blank, finish),
        cmocka_unit_test(boxes_stand_in_each_other_just_when_no_distance_is_left),
        cmocka_unit_test(sweep_is_barred_just_when_a_step_of_it_is),
        cmocka_unit_test(depth_is_the_least_way_out),
        cmocka_unit_test_teardown(views_say_their_sizes_scale_and_projection, finish),
    };
    return cmocka_run_group_tests_name("space_bodies", tests, NULL, NULL);
}
