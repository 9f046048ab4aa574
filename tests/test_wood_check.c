// SPDX-License-Identifier: GPL-3.0-or-later
/* Findings of the wood of whole jobs: short grain, a piece in two, cuts that meet, thin walls, each with its place and remedy; and sound jobs without. */
#include "planned.h"

#include "check/check.h"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void look_again(void)
{
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_check_meetings(&context, p.plans, tw_plan_count(p.job));
    tw_check_wood(&context, p.plans, tw_plan_count(p.job));
    tw_check_kin(&context, p.plans, tw_plan_count(p.job));
}

static void look(const char *job)
{
    tw_arena_finish(&p.arena);
    p = planned_of(job, SHOP_MM);
    plan(&p);
    look_again();
}

#define PIECES "job: test\nunits: mm\npieces:\n  side: {length: 600, width: 60, thickness: 20}\n  shelf: {length: 400, width: 60, thickness: 12}\n  brace: {length: 400, width: 50, thickness: 20}\njoints:\n"
#define HOUSING(at) "  shelf in side: {kind: housing, housed: shelf, ends: left, into: side, from: face, at: [" at "], depth: 10, fit: glued}\n"
#define LAP(at) "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under at: " at ", fit: glued}\n"

static void shelf_far_from_ends_and_other_cuts_is_sound(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") LAP("450"));
    assert_null(finding(&p, "short-grain"));
    assert_null(finding(&p, "piece-severed"));
}

/* Housing 12.1 wide about 300: to 306.05; notch 50.1 wide about 337: from 311.95. Between them 5.9, both 10 deep: hold 0.59.
 * About 335 it is 3.9, hold 0.39: a halt. What is wanting to 10 is the remedy. */
static void wood_between_two_joints_is_told_with_both_and_what_to_do(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") LAP("337"));
    expect_finding(&p, "short-grain", TW_CARE, "in side the wood between the housing of shelf in side and the notch of brace on side is short grain: 5.9 mm along the grain but 10.0 mm high",
                   "move the two cuts 4.1 mm or more apart");
    CHECK_HOLDS(finding(&p, "short-grain")->what, "about 309.0 mm from the left end, 30.0 mm from the face edge, 15.0 mm from the back");
    assert_int_equal(finding(&p, "short-grain")->place.line, 9);  // the later of the two
    look(PIECES HOUSING("300") LAP("335"));
    expect_finding(&p, "short-grain", TW_HALT, "3.9 mm along the grain", "6.1 mm or more apart");
}

/* The hole of a bolt and that of its peg, 20 apart along the grain and 26 deep, are the joint's own proportions: no care. */
static void wood_between_two_cuts_of_one_joint_is_its_own_affair(void **state)
{
    (void)state;
    look("job: test\nunits: mm\npieces:\n  post: {length: 700, width: 90, thickness: 90}\n  rail: {length: 500, width: 100, thickness: 36}\njoints:\n"
         "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: left, into: post, from: face edge, at: 310}\n");
    assert_null(finding(&p, "short-grain"));
}

/* The notch from the back meets the housing from the face, 10 + 10 of 20: nothing is left at 300. */
static void cuts_from_both_sides_that_part_the_piece_are_a_halt(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under side: back, under at: 300, fit: glued}\n");
    expect_finding(&p, "piece-severed", TW_HALT, "side is cut in two, 300.0 mm from its left end: the notch of brace on side leaves nothing there", "less deep");
}

/* ---- cuts that meet ---- */

/* Housing 293.95 to 306.05 and notch 284.95 to 335.05, both 10 deep over the 60 of the width. */
static void cuts_of_two_joints_that_take_the_same_wood_are_a_halt(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") LAP("310"));
    expect_finding(&p, "cuts-meet", TW_HALT, "in side the housing of shelf in side and the notch of brace on side meet, about 300.0 mm from the left end, 30.0 mm from the face edge", "move one");
    CHECK_HOLDS(finding(&p, "cuts-meet")->what, "both take the same 12.1 mm along, 60.0 mm across and 10.0 mm deep");
}

/* Housing 10 deep from the face, notch 8 deep from the back of 20: a web of 2. With the notch 10 deep they meet. */
static void thin_web_between_two_joints_is_told_with_what_is_wanting(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under side: back, under at: 300, over depth: 12, under depth: 8, fit: glued}\n");
    expect_finding(&p, "web-thin", TW_CARE, "in side only 2.0 mm of wood stands between the housing of shelf in side and the notch of brace on side", "make them 1.0 mm less deep together");
    assert_null(finding(&p, "cuts-meet"));
    look(PIECES HOUSING("300") "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under side: back, under at: 300, fit: glued}\n");
    expect_finding(&p, "web-thin", TW_HALT, "meet in the middle and break into each other, about 300.0 mm from the left end", "3.0 mm less deep");
    look(PIECES HOUSING("300") "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under side: back, under at: 450, fit: glued}\n");
    assert_null(finding(&p, "web-thin"));
}

/* A hole put into the plan by hand: its wall is 2 from the face edge, its floor 20 - 19.5. */
static void thin_walls_to_the_sides_are_told_with_the_side(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") LAP("450"));
    assert_null(finding(&p, "wall-thin"));
    p.findings.count = 0;  // what the housing tells of its own depth
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_plan_cut(&context, &p.plans[0], (tw_cut){ .piece = 0, .name = "hole", .face = TW_SIDE_FACE, .outline = tw_outline_circle(&p.arena, (tw_point){ 100, 12 }, 10), .depth_mm = 15 });
    look_again();
    expect_finding(&p, "wall-thin", TW_CARE, "in side only 2.0 mm of wood stands between the hole of shelf in side and the face edge, about 100.0 mm from the left end", "move the cut 1.0 mm away from the face edge");
    p.findings.count = 0;
    p.plans[0].cuts[p.plans[0].cut_count - 1].outline = tw_outline_circle(&p.arena, (tw_point){ 100, 30 }, 10);
    p.plans[0].cuts[p.plans[0].cut_count - 1].depth_mm = 19.5;
    look_again();
    expect_finding(&p, "wall-thin", TW_HALT, "only 0.5 mm of wood stands between the hole of shelf in side and the back", "let it go through");
}

/* ---- alike and mirrored ---- */

#define SIDES "job: test\nunits: mm\npieces:\n  left side: {length: 600, width: 120, thickness: 18}\n  right side: {length: 600, width: 120, thickness: 18}\n  shelf: {length: 400, width: 120, thickness: 12}\njoints:\n" \
    "  shelf to left: {kind: housing, housed: shelf, ends: left, into: left side, from: face, at: [200, 350], stop: back edge, fit: glued}\n"

/* Housings that stop short of the front: on the left side that is the back edge, on the right the face edge. */
static void left_and_right_sides_are_told_to_be_mirror_images(void **state)
{
    (void)state;
    look(SIDES "  shelf to right: {kind: housing, housed: shelf, ends: right, into: right side, from: face, at: [200, 350], stop: face edge, fit: glued}\n");
    expect_finding(&p, "pieces-mirrored", TW_NOTE, "left side and right side are mirror images", "mark them left and right");
    assert_null(finding(&p, "pieces-alike"));
}

/* Turned end for end, the right side has its housings at 250 and 400 from the other end, and its front on the other edge. */
static void sides_that_can_take_each_others_place_are_told_to_be_alike(void **state)
{
    (void)state;
    look(SIDES "  shelf to right: {kind: housing, housed: shelf, ends: right, into: right side, from: face, at: [250, 400], stop: face edge, fit: glued}\n");
    expect_finding(&p, "pieces-alike", TW_NOTE, "left side and right side come out alike (right side turned end for end)", "one piece with a count of 2");
    assert_null(finding(&p, "pieces-mirrored"));
}

/* Ten entries, one of them counted twice: eight others are named, and the count is that of the pieces. */
static void many_alike_entries_are_told_in_one_note(void **state)
{
    (void)state;
    char job[4000] = "job: test\nunits: mm\npieces:\n  post: {length: 900, width: 60, thickness: 40}\n", row[200];
    for (int i = 1; i <= 10; i++) {
        snprintf(row, sizeof row, "  side %d: {count: %d, length: 600, width: 120, thickness: 18}\n", i, i == 10 ? 2 : 1);
        strcat(job, row);
    }
    strcat(job, "  shelf: {length: 400, width: 120, thickness: 12}\njoints:\n");
    for (int i = 1; i <= 10; i++) {
        snprintf(row, sizeof row, "  j%d: {kind: housing, housed: shelf, ends: left, into: side %d, from: face, at: [%d], fit: glued}\n", i, i, i % 2 ? 200 : 400);
        strcat(job, row);
    }
    look(job);
    expect_finding(&p, "pieces-alike", TW_NOTE, "side 1 and side 2, side 3, side 4, side 5, side 6, side 7, side 8, side 9 and 1 more come out alike (side 2 turned end for end)", "a count of 11");
    int told = 0;
    for (size_t i = 0; i < p.findings.count; i++) told += strcmp(p.findings.items[i].code, "pieces-alike") == 0;
    assert_int_equal(told, 1);
}

/* The housing tells of its own relish: once is enough. */
static void relish_that_the_joint_tells_of_is_not_told_twice(void **state)
{
    (void)state;
    look(PIECES HOUSING("18"));
    assert_non_null(finding(&p, "relish-short"));
    assert_null(finding(&p, "short-grain"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shelf_far_from_ends_and_other_cuts_is_sound),
        cmocka_unit_test(wood_between_two_joints_is_told_with_both_and_what_to_do),
        cmocka_unit_test(wood_between_two_cuts_of_one_joint_is_its_own_affair),
        cmocka_unit_test(cuts_from_both_sides_that_part_the_piece_are_a_halt),
        cmocka_unit_test(cuts_of_two_joints_that_take_the_same_wood_are_a_halt),
        cmocka_unit_test(thin_web_between_two_joints_is_told_with_what_is_wanting),
        cmocka_unit_test(thin_walls_to_the_sides_are_told_with_the_side),
        cmocka_unit_test(left_and_right_sides_are_told_to_be_mirror_images),
        cmocka_unit_test(sides_that_can_take_each_others_place_are_told_to_be_alike),
        cmocka_unit_test(many_alike_entries_are_told_in_one_note),
        cmocka_unit_test(relish_that_the_joint_tells_of_is_not_told_twice),
    };
    return cmocka_run_group_tests_name("wood_check", tests, NULL, finish);
}
