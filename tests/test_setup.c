// SPDX-License-Identifier: GPL-3.0-or-later
/* Settings of the machine, by hand-worked sums and by walking the template: edge, follower, cutter, flank. */
#include "planned.h"

#include "setup/task.h"
#include "setup/setup.h"

static planned p;
static tw_templates templates;
static tw_setups setups;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void set_up(const char *job, const char *shop)
{
    p = planned_of(job, shop);
    plan(&p);
    templates = tw_templates_make(&p.arena, p.job, p.shop, p.plans, p.job->joint_count, &p.findings);
    setups = tw_setups_make(&p.arena, p.job, p.shop, p.plans, p.job->joint_count, &templates, &p.findings);
}

#define JOB(more) "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n" \
    "  rail: {count: 1, length: 1200, width: 70, thickness: 28}\njoints:\n  rail to post:\n    kind: forked tusks\n    tenon: rail\n" \
    "    through: post\n    from: back\n    at: 300\n    tenon width: 38\n    beyond: 58\n" more

static const tw_setup *setup_of(const char *work)
{
    for (int i = 0; i < setups.count; i++)
        if (strcmp(p.plans[setups.items[i].plan].works[setups.items[i].work].name, work) == 0) return &setups.items[i];
    fail_msg("there is no setup for %s", work);
    return NULL;
}

/* Worked by hand: pin 20, follower 16, cutter 8, ratio 2: flank at (20 - 16)/4 + 4 = 5. */
static void flank_stands_where_the_hand_sum_says(void **state)
{
    (void)state;
    CHECK_NEAR(tw_flank_at_baseline_mm(20.0, 16.0, 8.0, 2.0), 5.0, 1e-12);
    CHECK_NEAR(tw_shift_mm(59.6, 20.0, 16.0, 8.0, 2.0), 109.2, 1e-12);
    CHECK_NEAR(tw_shift_mm(-43.4, 20.0, 16.0, 8.0, 2.0), -96.8, 1e-12);
    CHECK_NEAR(tw_flank_at_baseline_mm(19.05, 19.05, 9.525, 2.0), 4.7625, 1e-12);  // pin as large as the follower: half the cutter
}

/* Common practice: at a ratio of 2 the template moves 2 in for 1 in at the cutter. */
static void template_moves_twice_as_far_as_the_wall(void **state)
{
    (void)state;
    CHECK_NEAR(tw_shift_mm(25.4 + 10.0, 19.05, 19.05, 9.525, 2.0) - tw_shift_mm(10.0, 19.05, 19.05, 9.525, 2.0), 2.0 * 25.4, 1e-12);
}

/* Law: walk from the shifted edge to the follower, divide by the ratio, add the cutter: the flank is where it was wanted. */
static void shifted_template_puts_the_flank_where_it_is_wanted(void **state)
{
    (void)state;
    check_seed seed = { 2026 };
    for (int i = 0; i < 2000; i++) {
        double g = check_between(&seed, 3, 40), b = check_between(&seed, 5, 40), d = check_between(&seed, 3, 20), r = check_between(&seed, 0.5, 5),
               wanted = check_between(&seed, -120, 120);
        double edge = g / 2.0 + tw_shift_mm(wanted, g, b, d, r);
        CHECK_NEAR((edge - b / 2.0) / r + d / 2.0, wanted, 1e-9);
    }
}

static void sides_of_a_piece_lie_left_and_right_as_seen(void **state)
{
    (void)state;
    assert_int_equal(tw_side_of(TW_SIDE_FACE, TW_SIDE_FACE_EDGE, TW_SIDE_RIGHT_END), 1);
    assert_int_equal(tw_side_of(TW_SIDE_FACE, TW_SIDE_BACK_EDGE, TW_SIDE_RIGHT_END), -1);  // stood on its head
    assert_int_equal(tw_side_of(TW_SIDE_BACK, TW_SIDE_FACE_EDGE, TW_SIDE_LEFT_END), 1);    // turned end for end, same edge down
    assert_int_equal(tw_side_of(TW_SIDE_BACK, TW_SIDE_BACK_EDGE, TW_SIDE_LEFT_END), -1);
    assert_int_equal(tw_side_of(TW_SIDE_BACK_EDGE, TW_SIDE_BACK, TW_SIDE_LEFT_END), 1);
    assert_int_equal(tw_side_of(TW_SIDE_FACE, TW_SIDE_FACE_EDGE, TW_SIDE_FACE), 0);
}

static void housing_is_set_from_the_end_of_its_tenon(void **state)
{
    (void)state;
    set_up(JOB(""), SHOP_MM);
    const tw_setup *setup = setup_of("housings, right hand");
    double g = p.shop->pins[setup->pin].diameter.value, b = p.shop->followers[setup->follower].b_mm, d = p.shop->cutters[setup->cutter].d_mm;
    CHECK_NEAR(d, 8.0, 1e-12);
    // straight wall: 58 + 1.6 from the tenon's end, which lies on the centre
    CHECK_NEAR(setup->shift.value_mm, 2.0 * (59.6 - ((g - b) / 4.0 + 4.0)), 1e-9);
    assert_int_equal(setup->shift.direction_x, -1);  // the right hand's wall lies to the left of the tenon's end
    assert_true(setup->shift.stacked);
    CHECK_NEAR(setup->shift.stack.total_mm, setup->shift.value_mm, 0.05);
    CHECK_NEAR(setup->table.value_mm, 35.0, 1e-9);   // half of 70
    CHECK_NEAR(setup->depth.value_mm, 3.4, 1e-9);
    CHECK_NEAR(setup->stop.value_mm, 0.0, 1e-12);
    CHECK_HOLDS(setup->shift.sum, "Shift = ratio x (wanted - there)");
    assert_int_equal(setup_of("housings, left hand")->shift.direction_x, 1);
    CHECK_NEAR(setup_of("housings, left hand")->shift.value_mm, setup->shift.value_mm, 1e-9);
}

static void housing_set_from_the_shoulder_does_not_depend_on_the_tenons_length(void **state)
{
    (void)state;
    set_up(JOB("    set from: shoulder\n"), SHOP_MM);
    const tw_setup *setup = setup_of("housings, right hand");
    double g = p.shop->pins[setup->pin].diameter.value, b = p.shop->followers[setup->follower].b_mm;
    // the wall lies 45 - 1.6 to the right of the shoulder, the edge's side is left
    CHECK_NEAR(setup->shift.value_mm, 2.0 * (43.4 + ((g - b) / 4.0 + 4.0)), 1e-9);
    assert_int_equal(setup->shift.direction_x, 1);
}

static void template_seen_from_the_back_turns_the_arrow_round(void **state)
{
    (void)state;
    char shop[4096];
    snprintf(shop, sizeof shop, "%s", SHOP_MM);
    char *line = strstr(shop, "  turns over: yes\n");
    memcpy(line, "  seen from: back\n", 18);  // the same length
    set_up(JOB(""), shop);
    assert_int_equal(setup_of("housings, right hand")->shift.direction_x, 1);
}

static void mortise_stands_at_its_place_with_the_table_below_it(void **state)
{
    (void)state;
    set_up(JOB(""), SHOP_MM);
    const tw_setup *setup = setup_of("mortises");
    CHECK_NEAR(setup->table.value_mm, 55.0, 1e-9);
    CHECK_NEAR(setup->stop.value_mm, 300.0, 1e-9);
    assert_int_equal(setup->stop.direction_x, -1);
    assert_true(setup->passes >= 2);
    CHECK_NEAR(setup->pass_mm * setup->passes, setup->depth.value_mm, 1e-9);
    assert_true(setup->pass_mm <= 3.2);
    CHECK_HOLDS(setup->breakout, "backing board");
}

static void expect_halt(const char *code, const char *what, const char *remedy)
{
    const tw_finding *found = finding(&p, code);
    if (!found) fail_msg("there is no finding %s", code);
    assert_int_equal(found->level, TW_HALT);
    CHECK_HOLDS(found->what, what);
    CHECK_HOLDS(found->remedy, remedy);
}

static void set_up_with(const char *from, const char *to)
{
    char shop[4096];
    const char *at = strstr(SHOP_MM, from);
    if (!at) fail_msg("%s is not in the shop", from);
    snprintf(shop, sizeof shop, "%.*s%s%s", (int)(at - SHOP_MM), SHOP_MM, to, at + strlen(from));
    set_up(JOB(""), shop);
}

static void travel_too_short_is_refused_with_the_amount(void **state)
{
    (void)state;
    set_up_with("travel across: 150", "travel across: 100");
    expect_halt("travel-across-short", "farther than it can", "set from");
}

static void holder_too_narrow_is_refused_with_the_amount(void **state)
{
    (void)state;
    set_up_with("holder across: 360", "holder across: 200");
    assert_true(finding(&p, "holder-narrow") != NULL || finding(&p, "template-too-large") != NULL);
}

static void table_that_does_not_go_low_enough_is_refused(void **state)
{
    (void)state;
    set_up_with("table lowest: 110", "table lowest: 50");
    expect_halt("table-too-high", "5.0 mm lower than it goes", "lay another side down");
}

static void plunge_beyond_the_travel_is_refused(void **state)
{
    (void)state;
    set_up_with("travel in: 70", "travel in: 40");
    expect_halt("travel-in-short", "more than the machine's travel", "both sides");
}

static void machine_that_cannot_turn_slowly_is_refused(void **state)
{
    (void)state;
    set_up_with("eight: {diameter: 8,", "eight: {diameter: 8, top speed: 9000,");
    assert_true(finding(&p, "too-fast") != NULL);
}

static void tenon_as_wide_as_its_piece_gets_a_sacrificial_board(void **state)
{
    (void)state;
    set_up("job: test\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 1, length: 1200, width: 40, thickness: 28}\njoints:\n"
           "  rail to post: {kind: forked tusks, tenon: rail, through: post, at: 300, tenon width: 38, beyond: 58}\n", SHOP_MM);
    const tw_setup *setup = setup_of("housings, right hand");
    const tw_finding *found = finding(&p, "cutter-below-piece");
    assert_non_null(found);
    assert_int_equal(found->level, TW_CARE);
    // 38/2 + 8 - 40/2 = 7 below the piece, 3 left of the board
    CHECK_NEAR(setup->packing_mm, 10.0, 1e-9);
    CHECK_NEAR(setup->table.value_mm, 30.0, 1e-9);
}

static void stack_that_cannot_be_made_is_said_with_its_neighbours(void **state)
{
    (void)state;
    set_up_with("spacers:\n  a: {size: 0.05, count: 1}\n  b: {size: 0.1, count: 2}\n  c: {size: 0.2, count: 2}\n  d: {size: 0.5, count: 1}\n"
                "  e: {size: 1, count: 2}\n  f: {size: 2, count: 2}\n  g: {size: 5, count: 1}\n  h: {size: 10, count: 2}\n  i: {size: 20, count: 2}\n  j: {size: 50, count: 2}\n",
                "spacers:\n  j: {size: 50, count: 2}\n");
    const tw_finding *found = finding(&p, "no-stack");
    assert_non_null(found);
    CHECK_HOLDS(found->what, "the nearest below is");
}

/* A slip: 5800 for 58. The template would have to move over ten metres; no drawer is searched for that. */
static void shift_beyond_any_machine_is_refused_without_a_stack(void **state)
{
    (void)state;
    set_up("job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n"
           "  rail: {count: 1, length: 20000, width: 70, thickness: 28}\njoints:\n  rail to post:\n    kind: forked tusks\n    tenon: rail\n"
           "    through: post\n    from: back\n    at: 300\n    tenon width: 38\n    beyond: 5800\n", SHOP_MM);
    expect_halt("travel-across-short", "farther than it can", "");
    const tw_finding *found = finding(&p, "no-stack");
    assert_non_null(found);
    CHECK_HOLDS(found->what, "longer than any machine");
}

/* The wall at the pin is named as the maker sees it: mirrored from behind, turned with the copy, as it is with both. */
static void wall_at_the_pin_is_named_as_the_maker_sees_it(void **state)
{
    (void)state;
    static const struct { const char *machine, *wall; int direction; } cases[] = {
        { "machine:\n", "Let the left wall", -1 }, { "machine:\n  seen from: back\n", "Let the right wall", 1 },
        { "machine:\n  copy: turned\n", "Let the right wall", 1 }, { "machine:\n  copy: turned\n  seen from: back\n", "Let the left wall", -1 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char shop[4096];
        const char *rest = strstr(SHOP_MM, "machine:\n") + strlen("machine:\n");
        snprintf(shop, sizeof shop, "shop: test\nunits: mm\n%s%s", cases[i].machine, rest);
        set_up(JOB(""), shop);
        const tw_setup *mortise = setup_of("mortises");
        CHECK_HOLDS(mortise->baseline.sum, cases[i].wall);
        CHECK_HOLDS(mortise->baseline.sum, "the pin inside the opening");
        assert_int_equal(mortise->shift.direction_x, cases[i].direction);  // the wall moves outward from the pin
        if (i + 1 < sizeof cases / sizeof *cases) tw_arena_finish(&p.arena);
    }
}

/* The housing lies in the tenon's cheek, 7 mm below the face of its piece. */
static void depth_is_zeroed_on_what_is_cut(void **state)
{
    (void)state;
    set_up(JOB(""), SHOP_MM);
    CHECK_HOLDS(setup_of("housings, right hand")->depth.sum, "Zero the cutter on the cheek of the tenon itself");
    CHECK_HOLDS(setup_of("mortises")->depth.sum, "Zero the cutter on the back itself");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flank_stands_where_the_hand_sum_says),
        cmocka_unit_test(template_moves_twice_as_far_as_the_wall),
        cmocka_unit_test(shifted_template_puts_the_flank_where_it_is_wanted),
        cmocka_unit_test(sides_of_a_piece_lie_left_and_right_as_seen),
        cmocka_unit_test_teardown(housing_is_set_from_the_end_of_its_tenon, finish),
        cmocka_unit_test_teardown(housing_set_from_the_shoulder_does_not_depend_on_the_tenons_length, finish),
        cmocka_unit_test_teardown(template_seen_from_the_back_turns_the_arrow_round, finish),
        cmocka_unit_test_teardown(mortise_stands_at_its_place_with_the_table_below_it, finish),
        cmocka_unit_test_teardown(travel_too_short_is_refused_with_the_amount, finish),
        cmocka_unit_test_teardown(holder_too_narrow_is_refused_with_the_amount, finish),
        cmocka_unit_test_teardown(table_that_does_not_go_low_enough_is_refused, finish),
        cmocka_unit_test_teardown(plunge_beyond_the_travel_is_refused, finish),
        cmocka_unit_test_teardown(machine_that_cannot_turn_slowly_is_refused, finish),
        cmocka_unit_test_teardown(tenon_as_wide_as_its_piece_gets_a_sacrificial_board, finish),
        cmocka_unit_test_teardown(stack_that_cannot_be_made_is_said_with_its_neighbours, finish),
        cmocka_unit_test_teardown(wall_at_the_pin_is_named_as_the_maker_sees_it, finish),
        cmocka_unit_test_teardown(depth_is_zeroed_on_what_is_cut, finish),
        cmocka_unit_test_teardown(shift_beyond_any_machine_is_refused_without_a_stack, finish),
    };
    return cmocka_run_group_tests_name("setup", tests, NULL, NULL);
}
