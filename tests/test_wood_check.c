// SPDX-License-Identifier: GPL-3.0-or-later
/* Findings of the wood of whole jobs: short grain and a piece in two, each with its place and remedy; and sound jobs without. */
#include "planned.h"

#include "check/check.h"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void look(const char *job)
{
    tw_arena_finish(&p.arena);
    p = planned_of(job, SHOP_MM);
    plan(&p);
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_check_wood(&context, p.plans, tw_plan_count(p.job));
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

/* The notch from the back meets the housing from the face, 10 + 10 of 20: nothing is left at 300. */
static void cuts_from_both_sides_that_part_the_piece_are_a_halt(void **state)
{
    (void)state;
    look(PIECES HOUSING("300") "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under side: back, under at: 300, fit: glued}\n");
    expect_finding(&p, "piece-severed", TW_HALT, "side is cut in two, 300.0 mm from its left end: the notch of brace on side leaves nothing there", "less deep");
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
        cmocka_unit_test(cuts_from_both_sides_that_part_the_piece_are_a_halt),
        cmocka_unit_test(relish_that_the_joint_tells_of_is_not_told_twice),
    };
    return cmocka_run_group_tests_name("wood_check", tests, NULL, finish);
}
