// SPDX-License-Identifier: GPL-3.0-or-later
/* Pieces in space: which goes into which, loops by hand and by law, what stands up, the order of taking apart. */
#include "planned.h"

#include "../bench/many.h"
#include "check/check.h"
#include "space/space.h"

static planned p;
static tw_space space;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void place(const char *job)
{
    p = planned_of(job, SHOP_MM);
    plan(&p);
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    space = tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count);
    tw_check_space(&context, p.plans, &space);
}

static void place_example(const char *path)
{
    char *text = many_file(path);
    if (!text) fail_msg("cannot read %s: tests run in the project's root folder", path);
    place(text);
    free(text);
}

static int instance(const char *name)
{
    for (int i = 0; i < space.instance_count; i++)
        if (strcmp(tw_instance_name(&p.arena, p.job, &space.instances[i]), name) == 0) return i;
    fail_msg("no piece %s", name);
    return -1;
}

static void expect_spot(tw_spot got, double x, double y, double z)
{
    CHECK_NEAR(got.x, x, 1e-6);
    CHECK_NEAR(got.y, y, 1e-6);
    CHECK_NEAR(got.z, z, 1e-6);
}

static void expect_size(const tw_net *net, double wide, double deep, double high)
{
    expect_spot(tw_spot_less(net->most, net->least), wide, deep, high);
}

static bool are_tied(const char *mover, const char *base)
{
    for (size_t i = 0; i < space.tie_count; i++)
        if (space.ties[i].mover == instance(mover) && space.ties[i].base == instance(base)) return true;
    return false;
}

/* ---- the trestle table ---- */

/* By hand: height = foot 75 + post (655 - 50 - 40) + head 65 = 705; width = a stretcher, 1210; depth = a foot, 640. */
static void reading_table_closes_and_has_its_size(void **state)
{
    (void)state;
    place_example("examples/reading-table/job.yaml");
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(space.net_count, 1);
    assert_int_equal(space.nets[0].up, TW_SIDE_BACK_EDGE);
    expect_size(&space.nets[0], 1210, 640, 705);
    assert_int_equal(space.tie_count, 8);   // 8 pieces, 8 joints: one loop
    assert_int_equal(space.ring_count, 1);
    assert_int_equal(space.rings[0].around_count, 4);
    CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
    CHECK_NEAR(space.rings[0].open_rad, 0.0, 1e-9);
}

/* The second post is the first turned by half a turn about the vertical: their backs face each other, 980 mm apart. */
static void posts_face_each_other_with_their_backs(void **state)
{
    (void)state;
    place_example("examples/reading-table/job.yaml");
    tw_pose one = space.instances[instance("post 1")].pose, two = space.instances[instance("post 2")].pose;
    expect_spot(one.x, 0, 0, 1);
    expect_spot(two.x, 0, 0, 1);
    expect_spot(one.z, 1, 0, 0);
    expect_spot(two.z, -1, 0, 0);
    tw_spot between = tw_spot_less(one.at, two.at);   // both origins lie in the back's plane, at opposite edges
    expect_spot(between, 2 * (12 + 45 + 58) + 980 - 2 * (45 + 58), 110, 0);
    tw_spot low = tw_pose_apply(space.instances[instance("stretcher 1")].pose, (tw_spot){ 0, 35, 14 });
    CHECK_NEAR(low.z, 75 - 50 + 190, 1e-6);           // over the floor: the foot's mortise bottom up to the first place
    CHECK_NEAR(low.y, 320, 1e-6);
}

static void reading_table_is_taken_apart_as_one_would(void **state)
{
    (void)state;
    place_example("examples/reading-table/job.yaml");
    const tw_net *net = &space.nets[0];
    assert_int_equal(net->apart_count, 4);
    assert_string_equal(net->apart[0].text, "knock out the 4 tusks of stretcher to post");
    assert_string_equal(net->apart[1].text, "draw foot 1, post 1 and head 1 together off stretcher 1 and stretcher 2, to the right, at least 103.0 mm");
    assert_string_equal(net->apart[2].text, "draw foot 2, post 2 and head 2 together off stretcher 1 and stretcher 2, to the left, at least 103.0 mm");
    assert_string_equal(net->apart[3].text, "draw foot 1 off post 1; foot 2 off post 2: down, at least 50.0 mm");
    assert_int_equal(net->together_count, 6);
    CHECK_HOLDS(net->together[0].text, "glue post 2 onto head 2");
    assert_string_equal(net->together[5].text, "drive the 4 tusks of stretcher to post");
}

/* ---- a wrong length ---- */

#define TRESTLES(second, more) "job: test\nunits: mm\n" more "pieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n" \
    "  low rail: {length: 1210, width: 70, thickness: 28}\n  high rail: {length: " second ", width: 70, thickness: 28}\n" \
    "joints:\n  low joint: {kind: forked tusks, tenon: low rail, through: post, from: back, at: 190, beyond: 58}\n" \
    "  high joint: {kind: forked tusks, tenon: high rail, through: post, from: back, at: 480, beyond: 58}\n"

static void stretcher_that_is_too_long_opens_the_loop_by_just_that(void **state)
{
    (void)state;
    place(TRESTLES("1213", ""));
    const tw_finding *found = finding(&p, "loop-open");
    assert_non_null(found);
    assert_int_equal(found->level, TW_HALT);
    assert_int_equal(space.ring_count, 1);
    CHECK_NEAR(space.rings[0].open_mm, 3.0, 1e-9);
    CHECK_NEAR(space.rings[0].open_rad, 0.0, 1e-12);
    CHECK_HOLDS(found->what, "3.00 mm off");
    CHECK_HOLDS(found->what, "post 1");
    CHECK_HOLDS(found->what, "high rail");
    CHECK_HOLDS(found->remedy, "make high rail 3.0 mm shorter, to 1210.0 mm");
    CHECK_HOLDS(found->remedy, "make low rail 3.0 mm longer, to 1213.0 mm");
    assert_false(space.nets[0].ordered);
}

static void hair_that_the_clearance_takes_up_is_no_halt(void **state)
{
    (void)state;
    place(TRESTLES("1210.09", ""));
    assert_null(finding(&p, "loop-open"));
    CHECK_NEAR(space.rings[0].open_mm, 0.09, 1e-9);
    tw_arena_finish(&p.arena);
    place(TRESTLES("1210.11", ""));
    assert_non_null(finding(&p, "loop-open"));
}

/* ---- a triangle of 3, 4 and 5, its joints made by hand ---- */

static const tw_joint joint_a = { .name = "corner a" }, joint_b = { .name = "corner b" }, joint_c = { .name = "corner c" };

/* level: 400 along x. upright: 300, turned a quarter at its right end. slope: from the left end of the one to the right end
 * of the other; where they meet follows from its length, with cosine 3/5 and sine 4/5 in the upright's frame. */
static void place_triangle(double slope_mm)
{
    char text[512];
    snprintf(text, sizeof text, "job: test\nunits: mm\npieces:\n  level: {length: 400, width: 20, thickness: 10}\n  upright: {length: 300, width: 20, thickness: 10}\n"
        "  slope: {length: %.3f, width: 20, thickness: 10}\n", slope_mm);
    p = planned_of(text, SHOP_MM);
    p.findings.arena = &p.arena;  // the struct has moved
    tw_joint_plan *plans = TW_NEW_ARRAY(&p.arena, tw_joint_plan, 3);
    const tw_joint *joints[] = { &joint_a, &joint_b, &joint_c };
    for (int i = 0; i < 3; i++) plans[i] = (tw_joint_plan){ .joint = joints[i], .index = i, .count = 1 };
    tw_meeting a = { .mover = 1, .base = 0, .end = TW_SIDE_LEFT_END, .pose = { { 0, 1, 0 }, { -1, 0, 0 }, { 0, 0, 1 }, { 400, 0, 0 } }, .leaves = { 0, 0, 1 }, .travel_mm = 10, .held_by = "" };
    tw_meeting b = { .mover = 2, .base = 0, .end = TW_SIDE_LEFT_END, .pose = { { 0.8, 0.6, 0 }, { -0.6, 0.8, 0 }, { 0, 0, 1 }, { 0, 0, 0 } }, .leaves = { 0, 0, 1 }, .travel_mm = 10, .held_by = "" };
    tw_meeting c = { .mover = 2, .base = 1, .end = TW_SIDE_RIGHT_END, .leaves = { 0, 0, 1 }, .travel_mm = 10, .held_by = "",
        .pose = { { 0.6, -0.8, 0 }, { 0.8, 0.6, 0 }, { 0, 0, 1 }, { 300 - 0.6 * slope_mm, 0.8 * slope_mm, 0 } } };
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_plan_meeting(&context, &plans[0], a);
    tw_plan_meeting(&context, &plans[1], b);
    tw_plan_meeting(&context, &plans[2], c);
    p.plans = plans;
    space = tw_space_make(&p.arena, p.job, plans, 3);
    tw_check_space(&context, plans, &space);
}

static void triangle_of_three_four_five_closes(void **state)
{
    (void)state;
    place_triangle(500.0);
    assert_int_equal(space.ring_count, 1);
    CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
    assert_null(finding(&p, "loop-open"));
}

static void slope_that_is_five_too_long_is_the_only_one_to_change(void **state)
{
    (void)state;
    place_triangle(505.0);
    CHECK_NEAR(space.rings[0].open_mm, 5.0, 1e-9);
    assert_string_equal(finding(&p, "loop-open")->remedy, "make slope 5.0 mm shorter, to 500.0 mm");
}

static void loop_that_is_turned_has_no_remedy_in_a_length(void **state)
{
    (void)state;
    place_triangle(500.0);
    tw_meeting *last = &p.plans[2].meetings[0];
    double small = 0.1 * TW_PI / 180.0;   // twice the limit
    tw_spot x = last->pose.x, y = last->pose.y;
    last->pose.x = tw_spot_plus(tw_spot_times(x, cos(small)), tw_spot_times(y, sin(small)));
    last->pose.y = tw_spot_less(tw_spot_times(y, cos(small)), tw_spot_times(x, sin(small)));
    p.findings.count = 0;
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    space = tw_space_make(&p.arena, p.job, p.plans, 3);
    tw_check_space(&context, p.plans, &space);
    CHECK_NEAR(tw_degrees(space.rings[0].open_rad), 0.1, 1e-9);
    CHECK_HOLDS(finding(&p, "loop-open")->what, "turned by 0.10 degrees");
    CHECK_HOLDS(finding(&p, "loop-open")->remedy, "no length mends an angle");
}

/* ---- laws ---- */

static void frames_of_true_lengths_close_and_a_wrong_one_opens_by_its_error(void **state)
{
    (void)state;
    check_seed seed = { 21 };
    for (int i = 0; i < 60; i++) {
        double length = check_between(&seed, 600, 1800), wrong = check_between(&seed, 0.2, 40.0) * (i % 2 ? 1.0 : -1.0), first = check_between(&seed, 120, 200), width = check_between(&seed, 50, 100);
        for (int k = 0; k < 2; k++) {
            char text[1024];
            snprintf(text, sizeof text, "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 700, width: 120, thickness: 45}\n  one: {length: %.6f, width: %.3f, thickness: 28}\n"
                "  two: {length: %.6f, width: %.3f, thickness: 32}\njoints:\n  ja: {kind: forked tusks, tenon: one, through: post, from: %s, at: %.4f, beyond: 60}\n"
                "  jb: {kind: mortise and tenon, tenon: two, ends: both, into: post, from: %s, at: 500, depth: 30}\n",
                length, width, length - 2 * 75 + k * wrong, width, i % 3 ? "back" : "face", first, i % 3 ? "back" : "face");
            place(text);   // shoulder to shoulder: one less 2 (45 + 60), two less 2 x 30
            assert_int_equal(space.ring_count, 1);
            CHECK_NEAR(space.rings[0].open_mm, k ? fabs(wrong) : 0.0, 2e-6);  // lengths are written to 1e-6
            assert_int_equal(finding(&p, "loop-open") != NULL, k);
            tw_arena_finish(&p.arena);
        }
    }
}

/* Two alike posts are turned against each other: what sits 8 mm off their middle on the one is 8 mm off the other way on
 * the other, so a rail in the middle and one that is not cannot both fit. */
static void mortise_off_the_middle_of_alike_posts_opens_the_loop_by_twice_that(void **state)
{
    (void)state;
    place("job: test\nunits: mm\npieces:\n  post: {count: 2, length: 700, width: 120, thickness: 45}\n  one: {length: 1000, width: 70, thickness: 28}\n"
          "  two: {length: 850, width: 70, thickness: 30}\njoints:\n  ja: {kind: forked tusks, tenon: one, through: post, from: back, at: 150, beyond: 60}\n"
          "  jb: {kind: mortise and tenon, tenon: two, ends: both, into: post, from: back, at: 500, across: 68, depth: 30}\n");
    CHECK_NEAR(space.rings[0].open_mm, 16.0, 1e-9);
    CHECK_HOLDS(finding(&p, "loop-open")->remedy, "no one length mends it");
}

/* ---- which goes into which ---- */

static void first_two_rails_go_between_the_first_two_posts(void **state)
{
    (void)state;
    place("job: test\nunits: mm\npieces:\n  post: {count: 4, length: 655, width: 110, thickness: 45}\n  rail: {count: 4, length: 1210, width: 70, thickness: 28}\n"
          "joints:\n  rail to post: {kind: forked tusks, tenon: rail, through: post, from: back, at: [190, 480], beyond: 58}\n");
    assert_int_equal(space.net_count, 2);
    assert_int_equal(space.nets[0].count, 4);
    assert_true(are_tied("rail 1", "post 1") && are_tied("rail 1", "post 2") && are_tied("rail 2", "post 1") && are_tied("rail 2", "post 2"));
    assert_true(are_tied("rail 3", "post 3") && are_tied("rail 4", "post 4"));
    CHECK_HOLDS(finding(&p, "stands-apart")->what, "post 3 and 3 more");
    CHECK_NEAR(space.nets[1].least.x - space.nets[0].most.x, 200.0, 1e-9);
}

#define STAND(depth) "job: test\nunits: mm\npieces:\n  leg a: {count: 2, length: 700, width: 60, thickness: 60}\n  leg b: {count: 2, length: 700, width: 60, thickness: 60}\n" \
    "  long: {count: 2, length: 940, width: 90, thickness: 30}\n  short: {count: 2, length: 540, width: 90, thickness: 30}\njoints:\n" \
    "  la: {kind: mortise and tenon, tenon: long, ends: left, into: leg a, from: back, at: 600, depth: " depth "}\n" \
    "  lb: {kind: mortise and tenon, tenon: long, ends: right, into: leg b, from: back, at: 600, depth: " depth "}\n" \
    "  sa: {kind: mortise and tenon, tenon: short, ends: left, into: leg a, from: face edge, at: 600, depth: " depth "}\n" \
    "  sb: {kind: mortise and tenon, tenon: short, ends: right, into: leg b, from: back edge, at: 600, depth: " depth "}\n"

/* By the rule of counts both first rails would go to the first legs; the short one must go round to the other leg.
 * By hand: 940 - 2 x 20 + 2 x 60 = 1020 wide, 540 - 40 + 120 = 620 deep, 700 high. */
static void rails_of_a_stand_find_the_leg_that_stands_where_they_end(void **state)
{
    (void)state;
    place(STAND("20"));
    assert_int_equal(space.net_count, 1);
    assert_int_equal(space.ring_count, 1);
    CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
    assert_int_equal(space.nets[0].up, TW_SIDE_RIGHT_END);
    expect_size(&space.nets[0], 1020, 620, 700);
    assert_true(are_tied("short 1", "leg a 1") && are_tied("short 1", "leg b 2"));
    assert_null(finding(&p, "pieces-collide"));
    assert_null(finding(&p, "cannot-be-assembled"));
}

/* Laps: two pieces lie over two others, each with two places of its own: a grid of four crossings, 100 apart. */
static void pieces_that_cross_each_other_twice_make_a_grid(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: mm\npieces:\n  under: {count: 2, length: 300, width: 40, thickness: 10}\n  over: {count: 2, length: 300, width: 40, thickness: 10}\n", SHOP_MM);
    p.findings.arena = &p.arena;
    tw_joint_plan one = { .joint = &joint_a, .count = 4 };
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    for (int own = 1; own >= 0; own--)   // in any order
        for (int other = 0; other < 2; other++)
            tw_plan_meeting(&context, &one, (tw_meeting){ .mover = 1, .base = 0, .end = TW_SIDE_FACE, .place = other, .mover_place = own, .held_by = "",
                .pose = { { 0, 1, 0 }, { -1, 0, 0 }, { 0, 0, 1 }, { 100.0 * (other + 1), -100.0 * (own + 1), 0 } }, .leaves = { 0, 0, 1 }, .travel_mm = 20 });
    space = tw_space_make(&p.arena, p.job, &one, 1);
    assert_int_equal(space.net_count, 1);
    assert_int_equal(space.tie_count, 4);
    assert_int_equal(space.ring_count, 1);
    CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
    tw_spot between = tw_spot_less(space.instances[1].pose.at, space.instances[0].pose.at);
    CHECK_NEAR(tw_spot_size(between), 100.0, 1e-9);
}

static void tenons_that_meet_inside_a_leg_collide(void **state)
{
    (void)state;
    place(STAND("40"));
    const tw_finding *found = finding(&p, "pieces-collide");
    assert_non_null(found);
    assert_int_equal(found->level, TW_HALT);
    CHECK_HOLDS(found->what, "long 1 and short");
    assert_null(finding(&p, "loop-open"));
}

static void counts_that_do_not_agree_place_nothing_of_the_joint(void **state)
{
    (void)state;
    place("job: test\nunits: mm\npieces:\n  post: {count: 3, length: 655, width: 110, thickness: 45}\n  rail: {count: 2, length: 1210, width: 70, thickness: 28}\n"
          "joints:\n  rail to post: {kind: forked tusks, tenon: rail, through: post, from: back, at: [190, 480], beyond: 58}\n");
    assert_non_null(finding(&p, "counts-differ"));
    assert_int_equal(space.tie_count, 0);
    assert_int_equal(space.net_count, 5);
    assert_null(finding(&p, "stands-apart"));
}

static void sets_are_placed_once(void **state)
{
    (void)state;
    place(TRESTLES("1210", "sets: 7\n"));
    assert_int_equal(space.instance_count, 4);
    assert_int_equal(space.net_count, 1);
    CHECK_HOLDS(space.nets[0].apart[0].text, "the 2 tusks of low joint");
}

/* ---- up ---- */

static void base_and_up_are_as_the_job_says(void **state)
{
    (void)state;
    place(TRESTLES("1210", "base: high rail\nup: face\n"));
    assert_int_equal(space.nets[0].first, instance("high rail"));
    assert_int_equal(space.nets[0].up, TW_SIDE_FACE);
    expect_spot(space.instances[instance("high rail")].pose.z, 0, 0, 1);
    expect_size(&space.nets[0], 1210, 655, 110);   // it lies on its side: the posts are level, 110 wide
}

/* A post as base is entered at one side only, as a foot is; but by rails. */
static void post_as_base_stands_on_its_left_end(void **state)
{
    (void)state;
    place(TRESTLES("1210", ""));
    assert_int_equal(space.nets[0].first, instance("post 1"));
    assert_int_equal(space.nets[0].up, TW_SIDE_RIGHT_END);
    expect_size(&space.nets[0], 1210, 110, 655);
}

static void rail_as_base_has_its_back_edge_up(void **state)
{
    (void)state;
    place(TRESTLES("1210", "base: low rail\n"));
    assert_int_equal(space.nets[0].up, TW_SIDE_BACK_EDGE);
    expect_size(&space.nets[0], 1210, 110, 655);
}

/* ---- orders, with joints made by hand ---- */

typedef struct made { int mover, base; tw_spot at, leaves; double travel_mm; const char *held_by; bool for_good; } made;

static void place_made(const char *pieces, const made *joints, int count)
{
    char text[1024];
    snprintf(text, sizeof text, "job: test\nunits: mm\npieces:\n%s", pieces);
    p = planned_of(text, SHOP_MM);
    p.findings.arena = &p.arena;  // the struct has moved
    tw_joint_plan *plans = TW_NEW_ARRAY(&p.arena, tw_joint_plan, (size_t)count);
    tw_joint *named = TW_NEW_ARRAY(&p.arena, tw_joint, (size_t)count);
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    for (int i = 0; i < count; i++) {
        named[i].name = tw_format(&p.arena, "joint %d", i + 1);
        plans[i] = (tw_joint_plan){ .joint = &named[i], .index = i, .count = 1 };
        tw_pose pose = tw_pose_home();
        pose.at = joints[i].at;
        tw_plan_meeting(&context, &plans[i], (tw_meeting){ .mover = joints[i].mover, .base = joints[i].base, .end = TW_SIDE_LEFT_END, .pose = pose,
            .leaves = joints[i].leaves, .travel_mm = joints[i].travel_mm, .held_by = joints[i].held_by, .for_good = joints[i].for_good });
    }
    p.plans = plans;
    space = tw_space_make(&p.arena, p.job, plans, count);
    tw_check_space(&context, plans, &space);
}

#define THREE "  a: {length: 100, width: 100, thickness: 100}\n  b: {length: 100, width: 100, thickness: 100}\n  c: {length: 100, width: 100, thickness: 100}\n"

/* a - b lets go along x, b - c along y, c - a along z: none can leave the other two. */
static void three_pieces_that_let_go_three_ways_can_never_be_put_together(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { 100, 0, 0 }, { 1, 0, 0 }, 20, "", false }, { 2, 1, { 0, 100, 0 }, { 0, 1, 0 }, 20, "", false },
                            { 2, 0, { 100, 100, 0 }, { 0, 0, 1 }, 20, "", false } };
    place_made(THREE, joints, 3);
    const tw_finding *found = finding(&p, "cannot-be-assembled");
    assert_non_null(found);
    assert_int_equal(found->level, TW_HALT);
    CHECK_HOLDS(found->what, "a, b, c can never be put together");
    assert_int_equal(space.nets[0].apart_count, 0);
}

static void three_pieces_that_let_go_one_way_come_apart(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { 100, 0, 0 }, { 0, 0, 1 }, 20, "", false }, { 2, 1, { 0, 100, 0 }, { 0, 0, 1 }, 20, "", false },
                            { 2, 0, { 100, 100, 0 }, { 0, 0, 1 }, 20, "", false } };
    place_made(THREE, joints, 3);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_true(space.nets[0].apart_count >= 2);
}

/* b could go to the left off a and c together, but it is glued to a; c lets go of a and of b in two ways. */
static void dry_joint_that_glue_locks_in_is_a_care(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { -100, 0, 0 }, { -1, 0, 0 }, 20, "glue", true }, { 2, 1, { 100, 100, 0 }, { 1, 0, 0 }, 20, "", false },
                            { 2, 0, { 0, 100, 0 }, { 0, 1, 0 }, 20, "", false } };
    place_made(THREE, joints, 3);
    const tw_finding *found = finding(&p, "dry-joint-locked");
    assert_non_null(found);
    assert_int_equal(found->level, TW_CARE);
    assert_null(finding(&p, "cannot-be-assembled"));
    assert_true(space.nets[0].together_count > 0);
}

/* b goes out along x, where c stands in its way; c goes up: c must be first, though b stands first in the job. */
static void what_stands_in_the_way_leaves_first(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { 100, 0, 0 }, { 1, 0, 0 }, 50, "", false }, { 2, 0, { 220, 0, 0 }, { 0, 0, 1 }, 20, "", false } };
    place_made(THREE, joints, 2);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(space.nets[0].apart_count, 2);
    CHECK_HOLDS(space.nets[0].apart[0].text, "draw c off a");
    CHECK_HOLDS(space.nets[0].apart[1].text, "draw b off a");
}

/* The same with c glued to a: b can never leave, nor come in once c is there; but it comes in before. */
static void what_is_glued_in_the_way_locks_the_dry_joint(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { 100, 0, 0 }, { 1, 0, 0 }, 50, "", false }, { 2, 0, { 220, 0, 0 }, { 0, 0, 1 }, 20, "glue", true } };
    place_made(THREE, joints, 2);
    assert_non_null(finding(&p, "dry-joint-locked"));
    assert_null(finding(&p, "cannot-be-assembled"));
    const tw_net *net = &space.nets[0];
    assert_int_equal(net->together_count, 2);
    CHECK_HOLDS(net->together[0].text, "put b onto a");
    CHECK_HOLDS(net->together[1].text, "glue c onto a");
}

static void many_alike_steps_are_told_in_one(void **state)
{
    (void)state;
    place("job: test\nunits: mm\npieces:\n  bar: {length: 4000, width: 110, thickness: 45}\n  pin: {count: 9, length: 500, width: 70, thickness: 28}\njoints:\n"
          "  pin to bar: {kind: mortise and tenon, tenon: pin, ends: left, into: bar, from: back, depth: 30, at: [300, 700, 1100, 1500, 1900, 2300, 2700, 3100, 3500]}\n");
    assert_int_equal(space.nets[0].apart_count, 1);
    assert_int_equal(space.nets[0].apart[0].moved_count, 9);
    assert_string_equal(space.nets[0].apart[0].text, "draw pin 1 off bar; pin 2 off bar; pin 3 off bar; pin 4 off bar; and 5 more likewise: up, at least 30.0 mm");
}

static void pegs_come_out_before_anything_is_drawn(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { 100, 0, 0 }, { 1, 0, 0 }, 20, "", false }, { 2, 0, { -100, 0, 0 }, { -1, 0, 0 }, 20, "pegs", false } };
    place_made(THREE, joints, 2);
    assert_true(space.nets[0].apart[0].frees);
    assert_string_equal(space.nets[0].apart[0].text, "knock out the peg of joint 2");
    CHECK_HOLDS(space.nets[0].apart[1].text, "draw c off a");   // what was held goes first
}

static void glued_chairs_do_not_come_apart_and_nobody_minds(void **state)
{
    (void)state;
    const made joints[] = { { 1, 0, { 100, 0, 0 }, { 1, 0, 0 }, 20, "glue", true }, { 2, 0, { -100, 0, 0 }, { -1, 0, 0 }, 20, "glue", true } };
    place_made(THREE, joints, 2);
    assert_int_equal(p.findings.count, 0);
    assert_int_equal(space.nets[0].apart_count, 0);
    assert_int_equal(space.nets[0].together_count, 2);
}

/* ---- limits ---- */

static void more_pieces_than_furniture_has_are_not_placed(void **state)
{
    (void)state;
    place("job: test\nunits: mm\npieces:\n  a: {count: 10000, length: 10, width: 5, thickness: 5}\n  b: {count: 10000, length: 10, width: 5, thickness: 5}\n"
          "  c: {count: 10000, length: 10, width: 5, thickness: 5}\n  d: {count: 10000, length: 10, width: 5, thickness: 5}\n  e: {count: 1, length: 10, width: 5, thickness: 5}\n");
    assert_true(space.too_many);
    assert_int_equal(space.net_count, 0);
    assert_int_equal(finding(&p, "not-placed")->level, TW_NOTE);
}

static void words_of_a_way_name_its_two_largest_parts(void **state)
{
    (void)state;
    tw_arena arena = {0};
    assert_string_equal(tw_direction_words(&arena, (tw_spot){ 0, -1, 0 }), "to the front");
    assert_string_equal(tw_direction_words(&arena, (tw_spot){ 0.6, 0, 0.8 }), "up and to the right");
    tw_arena_finish(&arena);
}

/* ---- alike pieces that face each other ---- */

/* Two alike posts on a foot, a rail between them in the face edge of each: one post must be turned half round. By hand: middles of
 * the posts at 150 and 750, the rail 600 with tenons of 40, so shoulders 520 apart and middles 520 + 80 = 600. */
static void place_rail_between_posts(const char *more)
{
    tw_arena arena = {0};
    place(tw_format(&arena, "job: Hurdle on a foot\nunits: mm\nfigures: mm 0.1\npieces:\n  foot: {length: 900, width: 90, thickness: 60}\n"
        "  post: {count: 2, length: 500, width: 80, thickness: 50}\n  rail: {length: 600, width: 60, thickness: 30}\njoints:\n"
        "  posts to foot: {kind: mortise and tenon, tenon: post, ends: left, into: foot, from: face edge, depth: 40, %s}\n"
        "  rail to posts: {kind: mortise and tenon, tenon: rail, ends: both, into: post, from: face edge, at: 300, depth: 40}\n", more));
    tw_arena_finish(&arena);
}

static void posts_that_must_face_each_other_are_told_to_turn(void **state)
{
    (void)state;
    place_rail_between_posts("at: [150, 750]");
    expect_finding(&p, "loop-open", TW_HALT, "turned by 180.00 degrees", "`half turn: yes`");
}

static void posts_that_look_away_from_each_other_are_told_to_change_places(void **state)
{
    (void)state;
    place_rail_between_posts("half turn: yes, at: [150, 750]");
    expect_finding(&p, "loop-open", TW_HALT, "1200.00 mm off", "write places 1 and 2 of posts to foot in the other order");
    assert_null(strstr(finding(&p, "loop-open")->remedy, "move place"));  // there is no room for 1200 mm on a foot of 900
}

/* A left and a right post, each a joint of its own: on the foot at 150 and 750, the rail in the edges that look outward. */
static void left_and_right_posts_at_each_others_places_are_told_to_change(void **state)
{
    (void)state;
    place("job: Hurdle on a foot\nunits: mm\nfigures: mm 0.1\npieces:\n  foot: {length: 900, width: 90, thickness: 60}\n"
        "  left post: {length: 500, width: 80, thickness: 50}\n  right post: {length: 500, width: 80, thickness: 50}\n  rail: {length: 600, width: 60, thickness: 30}\njoints:\n"
        "  left post to foot: {kind: mortise and tenon, tenon: left post, ends: left, into: foot, from: face edge, depth: 40, at: 150}\n"
        "  right post to foot: {kind: mortise and tenon, tenon: right post, ends: left, into: foot, from: face edge, depth: 40, at: 750}\n"
        "  rail to left: {kind: mortise and tenon, tenon: rail, ends: left, into: left post, from: face edge, at: 300, depth: 40}\n"
        "  rail to right: {kind: mortise and tenon, tenon: rail, ends: right, into: right post, from: back edge, at: 300, depth: 40}\n");
    expect_finding(&p, "loop-open", TW_HALT, "1200.00 mm off", "let left post to foot and right post to foot change places in foot");
}

static void posts_that_look_at_each_other_close(void **state)
{
    (void)state;
    place_rail_between_posts("half turn: yes, at: [750, 150]");
    assert_null(finding(&p, "loop-open"));
}

/* ---- parts of joints ---- */

/* A post with a tusked stretcher at 300 from its left end and a rail, 60 wide, on the face where the tusk bears. By hand: the tenon
 * reaches 24 above its middle, the head 12 of reserve and 15 more, so it ends at 300 + 24 + 27 = 351. */
static void place_rail_above_tusk(int at)
{
    tw_arena arena = {0};
    place(tw_format(&arena, "job: Drying post\nunits: mm\nfigures: mm 0.1\npieces:\n  post: {length: 800, width: 110, thickness: 45}\n"
        "  stretcher: {length: 700, width: 80, thickness: 40}\n  rail: {length: 400, width: 60, thickness: 30}\njoints:\n"
        "  stretcher to post: {kind: single tusk, tenon: stretcher, ends: left, through: post, from: back, at: 300, tenon width: 48, angle: 5 deg, reserve: 12, head proud: 15}\n"
        "  rail to post: {kind: mortise and tenon, tenon: rail, ends: left, into: post, from: face, at: %d, depth: 15}\n", at));
    tw_arena_finish(&arena);
}

/* The rail begins at 365 - 30 = 335: 351 - 335 = 16. */
static void head_of_a_tusk_that_stands_in_a_rail_is_a_halt(void **state)
{
    (void)state;
    place_rail_above_tusk(365);
    expect_finding(&p, "part-collides", TW_HALT, "the tusk of stretcher to post and rail stand 16.0 mm into each other", "to another side");
}

/* It begins at 385 - 30 = 355, 4 above the head: the tusk is seated, but never was put in while the rail was there. */
static void rail_in_the_way_of_a_tusk_is_a_care(void **state)
{
    (void)state;
    place_rail_above_tusk(385);
    assert_null(finding(&p, "part-collides"));
    expect_finding(&p, "part-way-barred", TW_CARE, "rail stands in the way by which the tusk of stretcher to post goes in and comes out", "put rail on last");
}

/* The whole tusk is 27 + 48 + 12 long at most, and goes no farther than that: 351 + 87 = 438 is below 600 - 30. */
static void tusk_with_room_above_it_is_left_alone(void **state)
{
    (void)state;
    place_rail_above_tusk(600);
    assert_null(finding(&p, "part-collides"));
    assert_null(finding(&p, "part-way-barred"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(reading_table_closes_and_has_its_size, finish),
        cmocka_unit_test_teardown(posts_face_each_other_with_their_backs, finish),
        cmocka_unit_test_teardown(reading_table_is_taken_apart_as_one_would, finish),
        cmocka_unit_test_teardown(stretcher_that_is_too_long_opens_the_loop_by_just_that, finish),
        cmocka_unit_test_teardown(hair_that_the_clearance_takes_up_is_no_halt, finish),
        cmocka_unit_test_teardown(triangle_of_three_four_five_closes, finish),
        cmocka_unit_test_teardown(slope_that_is_five_too_long_is_the_only_one_to_change, finish),
        cmocka_unit_test_teardown(loop_that_is_turned_has_no_remedy_in_a_length, finish),
        cmocka_unit_test(frames_of_true_lengths_close_and_a_wrong_one_opens_by_its_error),
        cmocka_unit_test_teardown(mortise_off_the_middle_of_alike_posts_opens_the_loop_by_twice_that, finish),
        cmocka_unit_test_teardown(first_two_rails_go_between_the_first_two_posts, finish),
        cmocka_unit_test_teardown(rails_of_a_stand_find_the_leg_that_stands_where_they_end, finish),
        cmocka_unit_test_teardown(pieces_that_cross_each_other_twice_make_a_grid, finish),
        cmocka_unit_test_teardown(tenons_that_meet_inside_a_leg_collide, finish),
        cmocka_unit_test_teardown(counts_that_do_not_agree_place_nothing_of_the_joint, finish),
        cmocka_unit_test_teardown(sets_are_placed_once, finish),
        cmocka_unit_test_teardown(base_and_up_are_as_the_job_says, finish),
        cmocka_unit_test_teardown(post_as_base_stands_on_its_left_end, finish),
        cmocka_unit_test_teardown(rail_as_base_has_its_back_edge_up, finish),
        cmocka_unit_test_teardown(three_pieces_that_let_go_three_ways_can_never_be_put_together, finish),
        cmocka_unit_test_teardown(three_pieces_that_let_go_one_way_come_apart, finish),
        cmocka_unit_test_teardown(dry_joint_that_glue_locks_in_is_a_care, finish),
        cmocka_unit_test_teardown(what_stands_in_the_way_leaves_first, finish),
        cmocka_unit_test_teardown(what_is_glued_in_the_way_locks_the_dry_joint, finish),
        cmocka_unit_test_teardown(many_alike_steps_are_told_in_one, finish),
        cmocka_unit_test_teardown(pegs_come_out_before_anything_is_drawn, finish),
        cmocka_unit_test_teardown(glued_chairs_do_not_come_apart_and_nobody_minds, finish),
        cmocka_unit_test_teardown(more_pieces_than_furniture_has_are_not_placed, finish),
        cmocka_unit_test(words_of_a_way_name_its_two_largest_parts),
        cmocka_unit_test_teardown(posts_that_must_face_each_other_are_told_to_turn, finish),
        cmocka_unit_test_teardown(posts_that_look_away_from_each_other_are_told_to_change_places, finish),
        cmocka_unit_test_teardown(left_and_right_posts_at_each_others_places_are_told_to_change, finish),
        cmocka_unit_test_teardown(posts_that_look_at_each_other_close, finish),
        cmocka_unit_test_teardown(head_of_a_tusk_that_stands_in_a_rail_is_a_halt, finish),
        cmocka_unit_test_teardown(rail_in_the_way_of_a_tusk_is_a_care, finish),
        cmocka_unit_test_teardown(tusk_with_room_above_it_is_left_alone, finish),
    };
    return cmocka_run_group_tests_name("space", tests, NULL, NULL);
}
