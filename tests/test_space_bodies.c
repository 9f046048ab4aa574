// SPDX-License-Identifier: GPL-3.0-or-later
/* Pieces as blocks: their edges, whether they stand in each other, what is seen of them. Held to sums by hand and to
 * other ways of reckoning: projections by turns between two boxes, and rays to the eye. */
#include "planned.h"

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
        if (near) continue;
        assert_int_equal(in_shape(rail, s), body || tenon);
        tried++;
    }
    assert_true(tried > 3900);
}

/* Edges by hand: body 4 x 1004 along, 2 x (70 + 28) x 2 shoulders; tenons 2 x 4 x 103 along, 2 x 2 x (38 + 14) ends, and as much
 * again where they leave the shoulders. */
static void edges_of_a_rail_add_up(void **state)
{
    (void)state;
    place(TABLE);
    double sum = 0.0;
    for (int i = 0; i < space.shapes[2].ridge_count; i++) sum += tw_spot_size(tw_spot_less(space.shapes[2].ridges[i].to, space.shapes[2].ridges[i].from));
    CHECK_NEAR(sum, 4 * 1004 + 4 * 98 + 8 * 103 + 2 * 4 * 52, 1e-6);
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
    assert_int_equal(space.shapes[0].ridge_count, 12);
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

/* ---- seen ---- */

static double seen_at_height(const tw_stretch *list, int count, double v)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++)
        if (fabs(list[i].v0 - v) < 1e-9 && fabs(list[i].v1 - v) < 1e-9) sum += fabs(list[i].u1 - list[i].u0);
    return sum;
}

/* A board 300 wide and 200 high; a block 100 wide stands before its lower edge: 200 of the edge is seen, at both its faces. */
static void block_hides_what_lies_behind_it(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: mm\npieces:\n  board: {length: 300, width: 20, thickness: 200}\n  block: {length: 100, width: 50, thickness: 140}\n", SHOP_MM);
    space = tw_space_make(&p.arena, p.job, p.plans, 0);
    space.instances[0].pose = space.instances[1].pose = tw_pose_home();
    space.instances[0].pose.at = (tw_spot){ 0, 100, 0 };
    space.instances[1].pose.at = (tw_spot){ 50, 0, -20 };
    const int members[] = { 0, 1 };
    int count;
    tw_stretch *list = tw_view_visible(&p.arena, &space, members, 2, TW_SEEN_FRONT, &count);
    CHECK_NEAR(seen_at_height(list, count, 0.0), 2 * 200, 0.1);    // a hair at each end counts as seen
    CHECK_NEAR(seen_at_height(list, count, 200.0), 2 * 300, 1e-9);
    CHECK_NEAR(seen_at_height(list, count, 120.0), 2 * 100, 1e-9);
    space.instances[1].pose.at.y = 200;                            // behind the board now: its own edges are hidden up to the board's lower edge
    list = tw_view_visible(&p.arena, &space, members, 2, TW_SEEN_FRONT, &count);
    CHECK_NEAR(seen_at_height(list, count, 0.0), 2 * 300, 1e-9);
    CHECK_NEAR(seen_at_height(list, count, 120.0), 0.0, 1e-9);
    CHECK_NEAR(seen_at_height(list, count, -20.0), 2 * 100, 1e-9);
}

static tw_spot towards_the_eye(tw_side_seen side)
{
    static const tw_spot ways[] = { { 0, -1, 0 }, { 0, 0, 1 }, { -1, 0, 0 }, { 1, 0, 0 } };
    return ways[side];
}

/* Does the way from the place to the eye go through the wood? By slabs, in the frame of each block. */
static bool is_hidden(tw_spot place_in_space, tw_spot way, double shrink_mm)
{
    for (int i = 0; i < space.instance_count; i++) {
        const tw_shape *shape = &space.shapes[space.instances[i].piece];
        tw_pose back = tw_pose_inverse(space.instances[i].pose);
        tw_spot from = tw_pose_apply(back, place_in_space), to = tw_pose_turn(back, way);
        const double f[3] = { from.x, from.y, from.z }, t[3] = { to.x, to.y, to.z };
        for (int k = 0; k < shape->block_count; k++) {
            const tw_block *b = &shape->blocks[k];
            const double least[3] = { b->least.x, b->least.y, b->least.z }, most[3] = { b->most.x, b->most.y, b->most.z };
            double enter = 0.0, leave = INFINITY;
            for (int a = 0; a < 3; a++) {
                double low = least[a] + shrink_mm - f[a], high = most[a] - shrink_mm - f[a];
                if (fabs(t[a]) < 1e-12) { if (low > 0.0 || high < 0.0) leave = -1.0; continue; }
                enter = tw_max(enter, tw_min(low / t[a], high / t[a]));
                leave = tw_min(leave, tw_max(low / t[a], high / t[a]));
            }
            if (leave > enter) return true;
        }
    }
    return false;
}

static tw_spot seen_from(tw_side_seen side, tw_spot s)
{
    switch (side) {
    case TW_SEEN_FRONT: return (tw_spot){ s.x, s.z, 0 };
    case TW_SEEN_ABOVE: return (tw_spot){ s.x, s.y, 0 };
    case TW_SEEN_LEFT: return (tw_spot){ -s.y, s.z, 0 };
    case TW_SEEN_RIGHT: return (tw_spot){ s.y, s.z, 0 };
    }
    return s;
}

static bool is_drawn(const tw_stretch *list, int count, tw_spot s)
{
    for (int i = 0; i < count; i++) {
        double du = list[i].u1 - list[i].u0, dv = list[i].v1 - list[i].v0, length = du * du + dv * dv;
        double t = tw_max(0.0, tw_min(1.0, ((s.x - list[i].u0) * du + (s.y - list[i].v0) * dv) / length));
        if (hypot(list[i].u0 + t * du - s.x, list[i].v0 + t * dv - s.y) < 0.05) return true;
    }
    return false;
}

/* A place on an edge that the ray clearly sees is drawn; where a line is drawn, some edge there is seen by its ray. */
static void what_is_drawn_is_what_rays_see(void **state)
{
    (void)state;
    place(TABLE);
    check_seed seed = { 34 };
    int members[8], seen_count = 0, hidden_count = 0;
    for (int i = 0; i < space.instance_count; i++) members[i] = i;
    assert_true(space.instance_count <= 8);
    for (int side = TW_SEEN_FRONT; side <= TW_SEEN_RIGHT; side++) {
        int count;
        tw_stretch *list = tw_view_visible(&p.arena, &space, members, space.instance_count, (tw_side_seen)side, &count);
        for (int i = 0; i < 800; i++) {
            const tw_instance *in = &space.instances[check_random(&seed) % (uint64_t)space.instance_count];
            const tw_shape *shape = &space.shapes[in->piece];
            tw_ridge ridge = shape->ridges[check_random(&seed) % (uint64_t)shape->ridge_count];
            double t = check_between(&seed, 0.0, 1.0);
            tw_spot s = tw_pose_apply(in->pose, tw_spot_plus(ridge.from, tw_spot_times(tw_spot_less(ridge.to, ridge.from), t))), eye = towards_the_eye((tw_side_seen)side);
            bool surely_hidden = is_hidden(s, eye, 0.2), surely_seen = !is_hidden(s, eye, 0.001);
            tw_spot along = seen_from((tw_side_seen)side, tw_pose_turn(in->pose, tw_spot_less(ridge.to, ridge.from)));
            if (surely_seen && hypot(along.x, along.y) > 1.0) { assert_true(is_drawn(list, count, seen_from((tw_side_seen)side, s))); seen_count++; }
            hidden_count += surely_hidden;
        }
        for (int i = 0; i < count; i++) {  // every line: its middle, at the depth of the edge nearest to the eye there
            tw_spot middle = { (list[i].u0 + list[i].u1) / 2.0, (list[i].v0 + list[i].v1) / 2.0, 0 };
            bool witness = false;
            for (int m = 0; m < space.instance_count && !witness; m++) {
                const tw_instance *in = &space.instances[m];
                const tw_shape *shape = &space.shapes[in->piece];
                for (int k = 0; k < shape->ridge_count && !witness; k++) {
                    tw_spot a = tw_pose_apply(in->pose, shape->ridges[k].from), b = tw_pose_apply(in->pose, shape->ridges[k].to);
                    tw_spot sa = seen_from((tw_side_seen)side, a), sb = seen_from((tw_side_seen)side, b);
                    double du = sb.x - sa.x, dv = sb.y - sa.y, length = du * du + dv * dv;
                    if (length < 1e-6) continue;
                    double t = ((middle.x - sa.x) * du + (middle.y - sa.y) * dv) / length;
                    if (t < -1e-9 || t > 1.0 + 1e-9 || hypot(sa.x + t * du - middle.x, sa.y + t * dv - middle.y) > 1e-6) continue;
                    witness = !is_hidden(tw_spot_plus(a, tw_spot_times(tw_spot_less(b, a), t)), towards_the_eye((tw_side_seen)side), 0.03);
                }
            }
            assert_true(witness);
        }
    }
    assert_true(seen_count > 400 && hidden_count > 400);
}

/* ---- the drawing ---- */

static const char *drawn_texts(tw_arena *arena, const char *projection, const char **scale)
{
    char job[1200];
    snprintf(job, sizeof job, "projection: %s\n%s", projection, TABLE);
    place(job);
    int members[8];
    double height;
    for (int i = 0; i < space.instance_count; i++) members[i] = i;
    tw_sheet *sheet = tw_sheet_new(arena, "", "", 1000, 1000);
    *scale = tw_views_draw(sheet, &space, &space.nets[0], members, p.job, 180, 150, &height);
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
        cmocka_unit_test_teardown(edges_of_a_rail_add_up, finish),
        cmocka_unit_test_teardown(piece_of_more_cuts_than_are_kept_is_its_blank, finish),
        cmocka_unit_test(boxes_stand_in_each_other_just_when_no_distance_is_left),
        cmocka_unit_test(sweep_is_barred_just_when_a_step_of_it_is),
        cmocka_unit_test(depth_is_the_least_way_out),
        cmocka_unit_test_teardown(block_hides_what_lies_behind_it, finish),
        cmocka_unit_test_teardown(what_is_drawn_is_what_rays_see, finish),
        cmocka_unit_test_teardown(views_say_their_sizes_scale_and_projection, finish),
    };
    return cmocka_run_group_tests_name("space_bodies", tests, NULL, NULL);
}
