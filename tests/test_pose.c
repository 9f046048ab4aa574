// SPDX-License-Identifier: GPL-3.0-or-later
/* Poses by hand: turns of a quarter, the ends and sides of two pieces, laws over seeded poses, blocks of cuts. */
#include "planned.h"

#include "piece/pose.h"

static void expect_spot(tw_spot got, double x, double y, double z)
{
    CHECK_NEAR(got.x, x, 1e-9);
    CHECK_NEAR(got.y, y, 1e-9);
    CHECK_NEAR(got.z, z, 1e-9);
}

/* A turn about the unit vector (a, b, c), by the formula of Rodrigues: v cos + (k x v) sin + k (k.v)(1 - cos). */
static tw_pose turned_about(tw_spot k, double angle_rad, tw_spot at)
{
    tw_pose home = tw_pose_home(), pose = { .at = at };
    const tw_spot *from[] = { &home.x, &home.y, &home.z };
    tw_spot *to[] = { &pose.x, &pose.y, &pose.z };
    for (int i = 0; i < 3; i++) {
        tw_spot v = *from[i], across = tw_spot_cross(k, v);
        *to[i] = tw_spot_plus(tw_spot_plus(tw_spot_times(v, cos(angle_rad)), tw_spot_times(across, sin(angle_rad))),
                              tw_spot_times(k, tw_spot_product(k, v) * (1.0 - cos(angle_rad))));
    }
    return pose;
}

static tw_pose seeded_pose(check_seed *seed, double most_mm)
{
    tw_spot k = { check_between(seed, -1, 1), check_between(seed, -1, 1), check_between(seed, 0.1, 1) };
    tw_spot at = { check_between(seed, -most_mm, most_mm), check_between(seed, -most_mm, most_mm), check_between(seed, -most_mm, most_mm) };
    return turned_about(tw_spot_times(k, 1.0 / tw_spot_size(k)), check_between(seed, 0.0, TW_PI), at);
}

static void pose_composed_with_its_inverse_is_home(void **state)
{
    (void)state;
    check_seed seed = { 11 };
    const tw_size size = { 2000, 300, 60 };
    for (int i = 0; i < 2000; i++) {
        tw_pose pose = seeded_pose(&seed, 5000.0);
        assert_true(tw_pose_is_rigid(pose));
        CHECK_NEAR(tw_pose_distance_mm(tw_pose_compose(pose, tw_pose_inverse(pose)), tw_pose_home(), size), 0.0, 1e-8);
        CHECK_NEAR(tw_pose_angle_rad(tw_pose_compose(tw_pose_inverse(pose), pose), tw_pose_home()), 0.0, 1e-12);
    }
}

static void composing_is_applying_one_after_the_other(void **state)
{
    (void)state;
    check_seed seed = { 12 };
    for (int i = 0; i < 1000; i++) {
        tw_pose a = seeded_pose(&seed, 1000.0), b = seeded_pose(&seed, 1000.0);
        tw_spot p = { check_between(&seed, -900, 900), check_between(&seed, -900, 900), check_between(&seed, -900, 900) };
        tw_spot one = tw_pose_apply(tw_pose_compose(a, b), p), two = tw_pose_apply(a, tw_pose_apply(b, p));
        CHECK_NEAR(tw_spot_size(tw_spot_less(one, two)), 0.0, 1e-9);
    }
}

/* 3-4-5: a turn about z with cosine 3/5 and sine 4/5 takes (5, 0, 0) to (3, 4, 0). */
static void turn_of_three_four_five_moves_five_to_three_and_four(void **state)
{
    (void)state;
    tw_pose pose = { { 0.6, 0.8, 0 }, { -0.8, 0.6, 0 }, { 0, 0, 1 }, { 10, 20, 30 } };
    assert_true(tw_pose_is_rigid(pose));
    expect_spot(tw_pose_apply(pose, (tw_spot){ 5, 0, 0 }), 13, 24, 30);
    expect_spot(tw_pose_apply(tw_pose_inverse(pose), (tw_spot){ 13, 24, 30 }), 5, 0, 0);
    CHECK_NEAR(tw_pose_angle_rad(pose, tw_pose_home()), atan2(4.0, 3.0), 1e-15);
}

/* A board 400 x 300 x 0.001 turned by half a turn about its corner: the far corner goes 2 x 500. */
static void greatest_distance_is_that_of_the_farthest_corner(void **state)
{
    (void)state;
    tw_pose half = { { -1, 0, 0 }, { 0, -1, 0 }, { 0, 0, 1 }, { 0, 0, 0 } };
    CHECK_NEAR(tw_pose_distance_mm(half, tw_pose_home(), (tw_size){ 400, 300, 0.001 }), 1000.0, 1e-9);
    CHECK_NEAR(tw_pose_angle_rad(half, tw_pose_home()), TW_PI, 1e-12);
}

static void angle_of_a_hair_is_not_lost_in_rounding(void **state)
{
    (void)state;
    tw_pose hair = turned_about((tw_spot){ 0, 0.6, 0.8 }, 1e-9, (tw_spot){ 0, 0, 0 });
    CHECK_NEAR(tw_pose_angle_rad(hair, tw_pose_home()), 1e-9, 1e-15);
}

static void mirror_image_and_stretched_axes_are_no_pose(void **state)
{
    (void)state;
    tw_pose mirror = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, -1 }, { 0, 0, 0 } };
    tw_pose longer = { { 1.000001, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 }, { 0, 0, 0 } };
    tw_pose slanted = { { 1, 0, 0 }, { 0.001, 1, 0 }, { 0, 0, 1 }, { 0, 0, 0 } };
    tw_pose nowhere = tw_pose_home();
    nowhere.at.y = NAN;
    assert_false(tw_pose_is_rigid(mirror));
    assert_false(tw_pose_is_rigid(longer));
    assert_false(tw_pose_is_rigid(slanted));
    assert_false(tw_pose_is_rigid(nowhere));
}

/* ---- ends on sides ---- */

static const tw_size rail = { 1210, 70, 28 }, post = { 655, 110, 45 };

/* By hand: the left end looks down into the back, so the length runs to -z; the tip stands 103 - 45 = 58 past the face. */
static void left_end_in_the_back_hangs_down_from_it(void **state)
{
    (void)state;
    tw_end_stand stand = { .end = TW_SIDE_LEFT_END, .inset_mm = 103, .middle_y = 35, .middle_z = 14, .from = TW_SIDE_BACK, .at_mm = 190, .across_mm = 55, .along = true };
    tw_pose pose = tw_end_pose(rail, post, &stand);
    expect_spot(pose.x, 0, 0, -1);
    expect_spot(pose.y, 1, 0, 0);
    expect_spot(pose.z, 0, -1, 0);
    expect_spot(pose.at, 155, 69, 103);
    expect_spot(tw_pose_apply(pose, (tw_spot){ 0, 35, 14 }), 190, 55, 45 + 58);
}

/* The right end, lying across, tenon off its middle: shoulder 1210 - 40; thickness to the right end of the post. */
static void right_end_in_the_face_edge_stands_across_it(void **state)
{
    (void)state;
    tw_end_stand stand = { .end = TW_SIDE_RIGHT_END, .inset_mm = 40, .middle_y = 30, .middle_z = 10, .from = TW_SIDE_FACE_EDGE, .at_mm = 500, .across_mm = 20 };
    tw_pose pose = tw_end_pose(rail, post, &stand);
    expect_spot(pose.x, 0, 1, 0);   // into the face edge
    expect_spot(pose.z, 1, 0, 0);
    expect_spot(pose.y, 0, 0, 1);   // z x x = (1,0,0) x (0,1,0)
    expect_spot(tw_pose_apply(pose, (tw_spot){ 1210 - 40, 30, 10 }), 500, 0, 20);
}

static void every_end_on_every_side_puts_its_shoulder_there_and_is_rigid(void **state)
{
    (void)state;
    check_seed seed = { 13 };
    for (int i = 0; i < 4 * 2 * 2 * 2 * 20; i++) {
        tw_end_stand stand = { .end = i & 1 ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END, .from = (tw_face)(i / 2 % 4), .along = i & 8, .reversed = i & 16,
            .inset_mm = check_between(&seed, 0, 200), .middle_y = check_between(&seed, 5, 65), .middle_z = check_between(&seed, 3, 25),
            .at_mm = check_between(&seed, 50, 600), .across_mm = check_between(&seed, 10, 40) };
        tw_pose pose = tw_end_pose(rail, post, &stand);
        assert_true(tw_pose_is_rigid(pose));
        tw_frame side = tw_face_frame(stand.from), end = tw_face_frame(stand.end);
        CHECK_NEAR(tw_spot_product(tw_pose_turn(pose, end.out), side.out), -1.0, 1e-12);
        double x = stand.end == TW_SIDE_LEFT_END ? stand.inset_mm : rail.length_mm - stand.inset_mm;
        tw_spot shoulder = tw_pose_apply(pose, (tw_spot){ x, stand.middle_y, stand.middle_z });
        double faces[] = { post.thickness_mm, 0.0, 0.0, post.width_mm };
        CHECK_NEAR(shoulder.x, stand.at_mm, 1e-9);
        CHECK_NEAR(stand.from <= TW_SIDE_BACK ? shoulder.z : shoulder.y, faces[stand.from], 1e-9);
        CHECK_NEAR(stand.from <= TW_SIDE_BACK ? shoulder.y : shoulder.z, stand.across_mm, 1e-9);
        CHECK_NEAR(tw_pose_turn(pose, stand.along ? (tw_spot){ 0, 1, 0 } : (tw_spot){ 0, 0, 1 }).x, stand.reversed ? -1.0 : 1.0, 1e-12);
    }
}

/* ---- meetings of the kinds ---- */

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static const tw_meeting *meeting(int index, tw_face end, int place)
{
    for (size_t i = 0; i < p.plans[index].meeting_count; i++) {
        const tw_meeting *m = &p.plans[index].meetings[i];
        if (m->end == end && m->place == place) return m;
    }
    fail_msg("no such meeting");
    return NULL;
}

#define TRESTLE "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 2, length: 1210, width: 70, thickness: 28}\n" \
    "joints:\n  rail to post:\n    kind: forked tusks\n    tenon: rail\n    through: post\n    from: back\n    at: [190, 480]\n    beyond: 58\n"

static void forked_tusks_meet_at_both_ends_of_every_place(void **state)
{
    (void)state;
    p = planned_of(TRESTLE, SHOP_MM);
    plan(&p);
    assert_int_equal(p.plans[0].meeting_count, 4);
    const tw_meeting *left = meeting(0, TW_SIDE_LEFT_END, 0), *right = meeting(0, TW_SIDE_RIGHT_END, 1);
    expect_spot(left->pose.at, 155, 69, 103);
    expect_spot(left->leaves, 0, 0, -1);
    CHECK_NEAR(left->travel_mm, 103, 1e-9);
    assert_string_equal(left->held_by, "tusks");
    assert_false(left->for_good);
    expect_spot(tw_pose_apply(right->pose, (tw_spot){ 1210 - 103, 35, 14 }), 480, 55, 0);
}

static void heads_point_to_the_right_end_whichever_edge_they_stand_at(void **state)
{
    (void)state;
    for (int edge = 0; edge < 2; edge++) {
        p = planned_of(edge ? TRESTLE "    heads to: face edge\n" : TRESTLE, SHOP_MM);
        plan(&p);
        for (size_t i = 0; i < p.plans[0].meeting_count; i++)
            expect_spot(tw_pose_turn(p.plans[0].meetings[i].pose, (tw_spot){ 0, edge ? -1 : 1, 0 }), 1, 0, 0);
        if (!edge) tw_arena_finish(&p.arena);
    }
}

#define FRAME(more) "job: test\nunits: mm\npieces:\n  leg: {count: 2, length: 700, width: 60, thickness: 60}\n  rail: {count: 1, length: 600, width: 80, thickness: 30}\n" \
    "joints:\n  rail to leg:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face\n    depth: 40\n" more

static void glued_tenon_stays_and_a_dry_one_is_held_by_nothing(void **state)
{
    (void)state;
    p = planned_of(FRAME("    at: 300\n    fit: glued\n"), SHOP_MM);
    plan(&p);
    assert_true(meeting(0, TW_SIDE_LEFT_END, 0)->for_good);
    assert_string_equal(meeting(0, TW_SIDE_LEFT_END, 0)->held_by, "glue");
    tw_arena_finish(&p.arena);
    p = planned_of(FRAME("    at: 300\n"), SHOP_MM);
    plan(&p);
    assert_false(meeting(0, TW_SIDE_RIGHT_END, 0)->for_good);
    assert_string_equal(meeting(0, TW_SIDE_RIGHT_END, 0)->held_by, "");
    CHECK_NEAR(meeting(0, TW_SIDE_RIGHT_END, 0)->travel_mm, 40, 1e-9);
    expect_spot(meeting(0, TW_SIDE_RIGHT_END, 0)->leaves, 0, 0, 1);
}

/* The haunch is at the face edge: that edge looks to the end of the leg where the groove is. */
static void haunch_looks_to_the_near_end_of_the_leg(void **state)
{
    (void)state;
    static const struct { const char *job; double towards; } cases[] = { { FRAME("    at: 60\n    haunch: 10\n"), -1 }, { FRAME("    at: 640\n    haunch: 10\n"), 1 } };
    for (int i = 0; i < 2; i++) {
        p = planned_of(cases[i].job, SHOP_MM);
        plan(&p);
        const tw_meeting *m = meeting(0, TW_SIDE_LEFT_END, 0);
        expect_spot(tw_pose_turn(m->pose, (tw_spot){ 0, -1, 0 }), cases[i].towards, 0, 0);  // out of the face edge
        if (i == 0) tw_arena_finish(&p.arena);
    }
}

static void joint_that_is_refused_has_no_meetings(void **state)
{
    (void)state;
    p = planned_of(FRAME("    at: 699\n"), SHOP_MM);
    plan(&p);
    assert_true(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(p.plans[0].meeting_count, 0);
}

/* ---- blocks of cuts ---- */

/* Every cut of a joint, brought into the piece's frame: the mortise where `at` and `across` say, the cheeks at the ends. */
static void cuts_lie_where_the_joint_says(void **state)
{
    (void)state;
    p = planned_of(TRESTLE "    tenon thickness: 14\n    tenon width: 38\n    across: 40\n    mortise clearance: 0.2\n", SHOP_MM);
    plan(&p);
    int mortises = 0, cheeks = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++) {
        const tw_cut *cut = &p.plans[0].cuts[i];
        tw_block b = tw_cut_block(tw_piece_size(&p.job->pieces[cut->piece]), cut, 0);
        if (strcmp(cut->name, "mortise") == 0) {
            double at = mortises++ == 0 ? 190 : 480;
            assert_true(tw_cut_is_block(cut, 0));
            expect_spot(b.least, at - 19.1, 40 - 7.1, 0);
            expect_spot(b.most, at + 19.1, 40 + 7.1, 45);
        }
        if (strcmp(cut->name, "cheek") == 0 && cut->face == TW_SIDE_FACE && b.least.x > 600.0) {
            cheeks++;
            expect_spot(b.least, 1210 - 103, 0, 21);
            expect_spot(b.most, 1210, 70, 28);
        }
        if (strcmp(cut->name, "housing") == 0) assert_false(tw_cut_is_block(cut, 0));
    }
    assert_int_equal(mortises, 2);
    assert_int_equal(cheeks, 1);
}

static void shoulder_at_the_back_edge_lies_there(void **state)
{
    (void)state;
    tw_arena arena = {0};
    tw_cut cut = { .face = TW_SIDE_BACK_EDGE, .depth_mm = 6, .outline = tw_outline_rectangle(&arena, 10, 3, 50, 8) };
    tw_block b = tw_cut_block((tw_size){ 100, 60, 20 }, &cut, 0);
    expect_spot(b.least, 10, 54, 12);  // up of the back edge runs to the back: z = 20 - 8 to 20 - 3
    expect_spot(b.most, 50, 60, 17);
    cut.face = TW_SIDE_LEFT_END;       // right of the left end runs to the face edge: y = 60 - 50 to 60 - 10
    b = tw_cut_block((tw_size){ 100, 60, 20 }, &cut, 0);
    expect_spot(b.least, 0, 10, 3);
    expect_spot(b.most, 6, 50, 8);
    tw_arena_finish(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pose_composed_with_its_inverse_is_home),
        cmocka_unit_test(composing_is_applying_one_after_the_other),
        cmocka_unit_test(turn_of_three_four_five_moves_five_to_three_and_four),
        cmocka_unit_test(greatest_distance_is_that_of_the_farthest_corner),
        cmocka_unit_test(angle_of_a_hair_is_not_lost_in_rounding),
        cmocka_unit_test(mirror_image_and_stretched_axes_are_no_pose),
        cmocka_unit_test(left_end_in_the_back_hangs_down_from_it),
        cmocka_unit_test(right_end_in_the_face_edge_stands_across_it),
        cmocka_unit_test(every_end_on_every_side_puts_its_shoulder_there_and_is_rigid),
        cmocka_unit_test_teardown(forked_tusks_meet_at_both_ends_of_every_place, finish),
        cmocka_unit_test_teardown(heads_point_to_the_right_end_whichever_edge_they_stand_at, finish),
        cmocka_unit_test_teardown(glued_tenon_stays_and_a_dry_one_is_held_by_nothing, finish),
        cmocka_unit_test_teardown(haunch_looks_to_the_near_end_of_the_leg, finish),
        cmocka_unit_test_teardown(joint_that_is_refused_has_no_meetings, finish),
        cmocka_unit_test_teardown(cuts_lie_where_the_joint_says, finish),
        cmocka_unit_test(shoulder_at_the_back_edge_lies_there),
    };
    return cmocka_run_group_tests_name("pose", tests, NULL, NULL);
}
