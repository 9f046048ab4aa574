// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt by figures worked by hand, refusals, and laws over seeded jobs. Sizes of bolts: ISO 261, 888, 4762, 7093-1,
 * from memory; EN 1995-1-1, 10.4.3 (holes at most 1 mm wider, washers at least three times the bolt), from memory; else common practice. */
#include "planned.h"

#include "check/check.h"
#include "cut_law.h"
#include "odd_values.h"
#include "draw/draw.h"
#include "joint/cross_dowel.h"
#include "piece/pose.h"
#include "space/space.h"

#define PIECES "  rail: {count: 2, length: 600, width: 100, thickness: 30}\n  post: {count: 4, length: 700, width: 70, thickness: 50}\n"
#define HEAD "job: test\nunits: mm\npieces:\n" PIECES "joints:\n  rail to post:\n    kind: cross dowel and bolt\n    rail: rail\n    ends: both\n    into: post\n    from: back\n    at: 150\n"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_with(const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, "%s%s", HEAD, more);
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

static void expect(const char *more, const char *code, tw_level level, const char *what, const char *remedy)
{
    plan_with(more);
    expect_finding(&p, code, level, what, remedy);
    tw_arena_finish(&p.arena);
}

/* ---- proportions ---- */

/* 30/5: M6. Head 6 + washer 1.6 + 1 = 8.6, to 9. Post 50 thick: 50 - 9 + 1.6 + 40 + 5 = 87.6; two threads of 1 more: 89.6, so 90 is sold;
 * 2.4 past; hole 40 + 5 + 2.4 + 10. Cross dowel: 15 - 5 = 10 to either side of the bolt: 20 long, 25 deep. */
static void joint_in_millimetres_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_with("");
    const struct { const char *key; double value; } wanted[] = { { "bolt", 6.0 }, { "hole", 6.5 }, { "washer", 18.0 }, { "counterbore", 9.0 }, { "counterbore_width", 20.0 }, { "dowel", 10.0 },
        { "dowel_length", 20.0 }, { "dowel_depth", 25.0 }, { "dowel_from_end", 40.0 }, { "bolt_level", 87.6 }, { "bolt_length", 90.0 }, { "tip_past", 2.4 }, { "rail_hole_depth", 57.4 }, { "pegs", 2.0 }, { "peg", 10.0 },
        { "peg_spacing", 50.0 }, { "peg_depth", 20.0 }, { "peg_hole", 22.0 }, { "relish_area_cm2", 14.0 }, { "bearing_area_cm2", 1.35 } };
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) CHECK_NEAR(figure(&p, 0, wanted[i].key), wanted[i].value, 1e-9);
    CHECK_NEAR(figure(&p, 0, "washer_area_cm2"), 3.14159265 / 400.0 * (18.0 * 18.0 - 6.5 * 6.5), 1e-6);
    assert_int_equal(p.findings.count, 0);
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* Rail 1-1/8 thick: a fifth is 0.225, so 1/4. Head 1/4 + washer 1/16 + 1 mm = 0.352, to 3/8. Cross dowel 7/16, four times 1-3/4 from the end; the rail
 * hides 2 (9/16 - 5 mm) = 0.731: 5/8. 2 - 3/8 + 1/16 + 1-3/4 + 7/32 = 3-21/32, two threads of 1/20 more: 3.756, so 4; 11/32 past. */
static void joint_in_inches_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: in\nfigures: in 1/64\npieces:\n  rail: {count: 1, length: 40, width: 4, thickness: 1-1/8}\n  post: {count: 2, length: 28, width: 3, thickness: 2}\njoints:\n"
        "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: both, into: post, from: back, at: 6}\n", SHOP_MM);
    plan(&p);
    const double inch = 25.4;
    const struct { const char *key; double inches; } wanted[] = { { "bolt", 0.25 }, { "hole", 9.0 / 32 }, { "counterbore", 3.0 / 8 }, { "washer", 0.75 }, { "counterbore_width", 7.0 / 8 }, { "dowel", 7.0 / 16 }, { "dowel_length", 5.0 / 8 },
        { "dowel_depth", 7.0 / 8 }, { "dowel_from_end", 1.75 }, { "bolt_level", 3.0 + 21.0 / 32 }, { "bolt_length", 4.0 }, { "rail_hole_depth", 1.75 + 7.0 / 32 + 11.0 / 32 + 3.0 / 8 }, { "peg", 3.0 / 8 } };
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) CHECK_NEAR(figure(&p, 0, wanted[i].key), wanted[i].inches * inch, 1e-9);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    CHECK_HOLDS(p.plans[0].parts[1].note, "1/4 in x 4 in, hexagon socket head");
}

static void thin_post_leaves_the_head_on_its_surface(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  rail: {count: 1, length: 600, width: 100, thickness: 30}\n  post: {count: 2, length: 700, width: 70, thickness: 16}\njoints:\n"
        "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: both, into: post, from: back, at: 150, peg depth: 9}\n", SHOP_MM);
    plan(&p);
    CHECK_NEAR(figure(&p, 0, "counterbore"), 0.0, 1e-12);   // 16 - 9 = 7 is less than half
    assert_null(work_of(&p, "counterbores"));
    CHECK_NEAR(figure(&p, 0, "bolt_level"), 16.0 + 1.6 + 40.0 + 5.0, 1e-9);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
}

static void end_that_is_let_in_shortens_the_bolt_and_needs_no_pegs(void **state)
{
    (void)state;
    plan_with("    let in: 6\n");
    CHECK_NEAR(figure(&p, 0, "bolt_level"), 81.6, 1e-9);     // 87.6 - 6
    CHECK_NEAR(figure(&p, 0, "bolt_length"), 90.0, 1e-9);    // 83.6: 90 is next
    CHECK_NEAR(figure(&p, 0, "pegs"), 0.0, 1e-12);
    const tw_work *housing = work_that_is(&p, "housings of the ends");
    assert_true(housing->copied);
    CHECK_NEAR(tw_outline_area_mm2(housing->copy.cut), 100.0 * 30.0, 1e-9);
    CHECK_NEAR(housing->copy.depth_mm, 6.0, 1e-12);
    work_that_is(&p, "corners of the housings");
    CHECK_NEAR(p.plans[0].meetings[0].travel_mm, 6.0, 1e-12);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    expect_finding(&p, "thread-short", TW_NOTE, "over the last 20.4 mm", "threaded all along");  // 10 + 8.4 + 2, of 18
}

/* White ash, flat sawn: 0.00274 a percent, 4 percent of 41 mm (Wood Handbook, table 13-5; the sum by hand). */
static void post_of_a_known_timber_gets_its_seasonal_slack(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  rail: {count: 1, length: 600, width: 100, thickness: 30}\n  post: {count: 2, length: 700, width: 70, thickness: 50, timber: \"Ash, white\"}\njoints:\n"
        "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: both, into: post, from: back, at: 150}\n", SHOP_MM);
    plan(&p);
    CHECK_NEAR(figure(&p, 0, "slack"), 0.44936, 1e-5);
    expect_finding(&p, "bolt-slack", TW_NOTE, "post loses about 0.4 mm under the head", "once in each dry season");
}

/* ---- what is sold ---- */

static void bolts_are_those_of_the_standards(void **state)
{
    (void)state;
    tw_arena arena = {0};
    bool sold;
    CHECK_NEAR(tw_bolt_size_of(&arena, 8.0, &sold).pitch, 1.25, 1e-12);   // ISO 261, coarse
    assert_true(sold);
    CHECK_NEAR(tw_bolt_size_of(&arena, 8.0, &sold).washer, 24.0, 1e-12);  // ISO 7093-1
    CHECK_NEAR(tw_bolt_size_of(&arena, 10.0, &sold).spanner, 16.0, 1e-12);  // ISO 4017
    tw_bolt_size odd = tw_bolt_size_of(&arena, 7.0, &sold);
    assert_false(sold);
    CHECK_NEAR(odd.washer, 21.0, 1e-12);
    CHECK_NEAR(tw_bolt_thread_mm(6.0, 90.0), 18.0, 1e-12);    // ISO 888: 2 x 6 + 6
    CHECK_NEAR(tw_bolt_thread_mm(8.0, 150.0), 28.0, 1e-12);   // 2 x 8 + 12
    CHECK_NEAR(tw_bolt_thread_mm(10.0, 20.0), 20.0, 1e-12);   // all along
    CHECK_NEAR(tw_bolt_length_sold(71.0, false), 80.0, 1e-12);
    CHECK_NEAR(tw_bolt_length_sold(70.0, false), 70.0, 1e-12);
    CHECK_NEAR(tw_bolt_length_sold(301.0, false), 0.0, 1e-12);
    CHECK_NEAR(tw_bolt_length_sold(4.1 * 25.4, true), 4.5 * 25.4, 1e-9);
    CHECK_NEAR(tw_bolt_length_sold(3.0 * 25.4, true), 3.0 * 25.4, 1e-9);
    assert_true(tw_bolt_length_is_sold(90.0, false) && !tw_bolt_length_is_sold(95.0, false));
    CHECK_NEAR(tw_cross_dowel_length_sold(10.0, 19.0, false), 18.0, 1e-12);
    CHECK_NEAR(tw_cross_dowel_length_sold(16.0, 15.0, false), 0.0, 1e-12);
    tw_arena_finish(&arena);
}

static void washers_of_every_size_are_as_the_timber_code_asks(void **state)
{
    (void)state;
    const double metric[] = { 5, 6, 8, 10, 12 };
    tw_arena arena = {0};
    bool sold;
    for (int i = 0; i < 5; i++) {
        tw_bolt_size size = tw_bolt_size_of(&arena, metric[i], &sold);
        assert_true(sold && size.washer >= 3.0 * metric[i] - 1e-9);
        assert_true(size.dowel > size.diameter + 2.0);
    }
    tw_arena_finish(&arena);
}

static void hardware_is_bought_and_pegs_are_made(void **state)
{
    (void)state;
    plan_with("");
    const tw_joint_plan *one = &p.plans[0];
    assert_int_equal(one->part_count, 4);
    assert_string_equal(one->parts[0].name, "peg");
    assert_false(one->parts[0].bought);
    assert_int_equal(one->parts[0].count, 8);
    CHECK_NEAR(one->parts[0].finished.length_mm, 40.0, 1e-12);
    for (size_t i = 1; i < one->part_count; i++) {
        assert_true(one->parts[i].bought);
        assert_int_equal(one->parts[i].count, 4);
        assert_string_equal(one->parts[i].timber, "");
    }
    CHECK_HOLDS(one->parts[1].note, "M6 x 90, hexagon socket head, threaded over at least 14.4 mm");  // 10 + 2.4 + 2
    CHECK_HOLDS(one->parts[3].note, "10.0 mm thick, 20.0 mm long, tapped M6");
}

/* ---- works ---- */

static bool comes_after(const tw_joint_plan *one, int late, int early)
{
    for (int i = 0; i < one->works[late].after_count; i++)
        if (one->works[late].after[i] == early || comes_after(one, one->works[late].after[i], early)) return true;
    return false;
}

static void holes_come_in_the_order_that_makers_keep(void **state)
{
    (void)state;
    plan_with("");
    const char *const order[] = { "places of the bolts", "counterbores", "holes of the bolts, through", "holes of the cross dowels", "lengthwise holes of the bolts", "holes of the pegs in the ends", "marks of the pegs in the post",
                                  "holes of the pegs in the post", "pegs", "bolted together" };
    for (size_t i = 0; i + 1 < sizeof order / sizeof *order; i++)
        assert_true(comes_after(&p.plans[0], (int)(work_that_is(&p, order[i + 1]) - p.plans[0].works), (int)(work_that_is(&p, order[i]) - p.plans[0].works)));
    assert_int_equal(work_that_is(&p, "counterbores")->face, TW_SIDE_FACE);
    assert_int_equal(work_that_is(&p, "holes of the cross dowels")->face, TW_SIDE_BACK);
    assert_int_equal(work_that_is(&p, "holes of the cross dowels")->down, TW_SIDE_FACE);
    assert_int_equal(work_that_is(&p, "holes of the cross dowels")->count, 4);
    assert_int_equal(work_that_is(&p, "holes of the pegs in the post")->count, 8);
}

static void bolt_out_of_the_middle_gives_the_two_ends_two_hands(void **state)
{
    (void)state;
    plan_with("    from edge: 40\n");
    assert_int_equal(work_that_is(&p, "holes of the cross dowels, right hand")->count, 2);
    assert_int_equal(work_that_is(&p, "holes of the cross dowels, left hand")->hand, TW_HAND_LEFT);
    assert_int_equal(work_that_is(&p, "lengthwise holes of the bolts, left hand")->face, TW_SIDE_LEFT_END);
    assert_null(work_of(&p, "holes of the cross dowels"));
    tw_arena_finish(&p.arena);
    plan_with("    from edge: 40\n    dowel from: back edge\n");  // its own place is in the middle of the thickness: the piece is turned over
    assert_non_null(work_of(&p, "holes of the cross dowels"));
    assert_non_null(work_of(&p, "lengthwise holes of the bolts, right hand"));
}

static void bolts_are_unscrewed_before_the_rail_is_drawn_off(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  rail: {count: 1, length: 600, width: 100, thickness: 30}\n  post: {count: 2, length: 700, width: 70, thickness: 50}\njoints:\n"
        "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: both, into: post, from: back, at: 150}\n", SHOP_MM);
    plan(&p);
    tw_space space = tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count);
    assert_int_equal(space.net_count, 1);
    CHECK_HOLDS(space.nets[0].apart[0].text, "unscrew the 2 bolts of rail to post");
    CHECK_HOLDS(space.nets[0].apart[1].text, "at least 20.0 mm");
    CHECK_HOLDS(space.nets[0].together[space.nets[0].together_count - 1].text, "tighten the 2 bolts of rail to post");
}

/* ---- refusals ---- */

static void bolts_that_do_not_hold_are_refused(void **state)
{
    (void)state;
    expect("    bolt length: 70\n", "bolt-short", TW_HALT, "does not reach the cross dowel", "M6 x 90");              // near side at 77.6
    expect("    bolt length: 80\n", "bolt-short", TW_HALT, "only 2.4 mm into the cross dowel, less than its own thickness", "M6 x 90");
    expect("    bolt length: 85\n", "bolt-short", TW_CARE, "ends 2.6 mm short of the cross dowel's far side", "M6 x 90");
    expect("    bolt length: 95\n", "bolt-length-uncommon", TW_NOTE, "95.0 mm long is not commonly sold", "M6 x 90");
    expect("    bolt length: 120\n", "bolt-long", TW_CARE, "stands 32.4 mm past", "M6 x 90");
    expect("    bolt length: 100\n", "thread-short", TW_NOTE, "wanted over the last 24.4 mm; a bolt of M6 x 100 with a plain shank has it over 18.0 mm", "threaded all along");
    expect("    bolt: 7\n", "bolt-uncommon", TW_CARE, "no bolt of 7.0 mm", "6, 8, 10");
    expect("    dowel: 7\n", "dowel-thin", TW_HALT, "cannot be tapped for a bolt of 6.0 mm", "about 10.0 mm");
    expect("    bolt length: 45\n", "bolt-short", TW_HALT, "does not reach", "M6 x 90");
}

static void wood_that_would_break_is_refused(void **state)
{
    (void)state;
    expect("    dowel from end: 18\n", "relish-short", TW_HALT, "only 13.0 mm of wood", "at least 40.0 mm");
    expect("    dowel from end: 30\n", "relish-short", TW_CARE, "only 25.0 mm of wood stands between the cross dowel and the rail's end", "at least 40.0 mm");
    expect("    dowel length: 34\n", "dowel-proud", TW_HALT, "lies 15.0 mm from the back", "at most 30.0 mm long");
    expect("    dowel length: 27\n", "dowel-breaks-through", TW_HALT, "only 1.5 mm is left between the cross dowel's hole and the face of rail", "at most 22.0 mm");
    expect("    dowel length: 24\n", "dowel-breaks-through", TW_CARE, "3.0 mm is left", "short point");
    expect("    from edge: 6\n    pegs: 0\n", "dowel-wall-thin", TW_HALT, "only 1.0 mm of wood", "nearer to the middle");
    expect("    from back: 6\n    pegs: 0\n", "bolt-wall-thin", TW_HALT, "only 2.8 mm of wood stands between the hole of the bolt and the back of rail", "middle of the thickness");  // 6 - 3.25
    expect("    counterbore: 46\n", "post-thin-under-head", TW_HALT, "only 4.0 mm of post", "at most 25.0 mm");
    expect("    counterbore: 39\n    pegs: 0\n    let in: 3\n", "post-thin-under-head", TW_CARE, "8.0 mm of post", "25.0 mm");
    expect("    across: 12\n    pegs: 0\n", "post-wall-thin", TW_HALT, "only 2.0 mm of wood stands between the counterbore and the face edge of post", "across 35.0 mm");
}

static void heads_that_sink_or_do_not_go_in_are_refused(void **state)
{
    (void)state;
    expect("    washer: 7\n", "washer-small", TW_HALT, "falls into a hole of 6.5 mm", "at least 18.0 mm");
    expect("    washer: 12\n", "washer-small", TW_CARE, "is pulled into the wood", "at least 18.0 mm");
    expect("    counterbore width: 16\n", "counterbore-narrow", TW_HALT, "does not go into a counterbore of 16.0 mm", "at least 19.0 mm");
    expect("    hole clearance: 2\n", "hole-wide", TW_CARE, "lets the rail slip", "1 mm");
    expect("    hole clearance: 0.1\n", "hole-tight", TW_CARE, "does not let it find the thread", "0.5 mm");
}

static void rail_that_can_turn_is_thought_over(void **state)
{
    (void)state;
    expect("    pegs: 0\n", "rail-turns", TW_CARE, "nothing keeps rail from turning", "`let in: 5 mm`");
    expect("    let in: 1\n", "let-in-shallow", TW_CARE, "hardly keeps", "3 to 6 mm");
    expect("    let in: 5\n    from back: 14\n", "let-in-one-sided", TW_HALT, "out of the middle of the rail's thickness", "a joint of its own for each end");
    expect("    let in: 20\n", "let-in-deep", TW_CARE, "more than a third", "3 to 6 mm");
    expect("    peg spacing: 20\n", "peg-near-bolt", TW_HALT, "only 1.8 mm of wood", "at least 26.5 mm");      // 10 - 5 - 3.25; 20 + 2 (5 - 1.75)
    expect("    peg spacing: 88\n", "peg-wall-thin", TW_HALT, "only 1.0 mm of wood", "smaller `peg spacing`");   // 50 - 44 - 5
    expect("    peg depth: 48\n", "peg-deep", TW_HALT, "come out on the face of post", "at most 44.0 mm");
    expect("    lies: across\n    pegs: 1\n", "peg-one-sided", TW_HALT, "on opposite sides", "`pegs: 2`");
    expect("    peg depth: 34\n    dowel from: face edge\n", "peg-meets-dowel", TW_HALT, "run into the cross dowel's", "shorter pegs");
    expect("    pegs: 0\n    let in: 5\n    peg: 8\n", "key-idle", TW_CARE, "`peg` is given", "leave `peg` out");
}

static void sides_and_counts_that_cannot_be_are_refused(void **state)
{
    (void)state;
    expect("    dowel from: left end\n", "dowel-from-end", TW_HALT, "cannot begin at an end", "not seen");
    p = planned_of("job: test\npieces:\n" PIECES "joints:\n  j: {kind: cross dowel and bolt, rail: rail, ends: left, into: post, from: right end, at: 150}\n", SHOP_MM);
    plan(&p);
    expect_finding(&p, "from-end", TW_HALT, "against a side", "a face or an edge");
    assert_int_equal(p.plans[0].cut_count, 0);
    tw_arena_finish(&p.arena);
    p = planned_of("job: test\npieces:\n" PIECES "joints:\n  j: {kind: cross dowel and bolt, rail: rail, ends: left, into: post, from: back, at: 150}\n", SHOP_MM);
    plan(&p);
    expect_finding(&p, "counts-differ", TW_HALT, "of ends is 2 (2 x rail, 1 end each), of places 4", "`ends`");
    tw_arena_finish(&p.arena);
    p = planned_of("job: test\npieces:\n  rail: {count: 2, length: 110, width: 100, thickness: 30}\n  post: {count: 4, length: 700, width: 70, thickness: 50}\njoints:\n  j: {kind: cross dowel and bolt, rail: rail, ends: both, into: post, from: back, at: 150}\n", SHOP_MM);
    plan(&p);
    expect_finding(&p, "holes-meet", TW_HALT, "leave 0.0 mm of rail between them", "a longer rail");  // 110 - 2 x 57.4
    assert_int_equal(p.plans[0].work_count, 0);
    tw_arena_finish(&p.arena);
}

/* ---- laws ---- */

static const char *const sides[] = { "face", "back", "face edge", "back edge" };

static void seeded_job(check_seed *seed, char *text, size_t room)
{
    bool inch = check_random(seed) % 2, across = check_random(seed) % 3 == 0, let_in = check_random(seed) % 3 == 0;
    double thick = check_between(seed, 26.0, 45.0), wide = check_between(seed, 80.0, 130.0), back = thick * check_between(seed, 0.45, 0.55), edge = wide * check_between(seed, 0.45, 0.55);
    snprintf(text, room, "job: test\nunits: mm\nfigures: %s\npieces:\n  a post with a long name that goes on: {count: 2, length: 900, width: %.2f, thickness: %.2f}\n"
        "  rail of the upper shelf: {count: 1, length: 700, width: %.6f, thickness: %.6f}\njoints:\n  rail to post:\n    kind: cross dowel and bolt\n    rail: rail of the upper shelf\n    ends: both\n"
        "    into: a post with a long name that goes on\n    from: %s\n    at: %.2f\n    lies: %s\n    from back: %.6f\n    from edge: %.6f\n    dowel from: %s\n%s%s",
        inch ? "in 1/64" : "mm 0.1", check_between(seed, 140.0, 160.0), check_between(seed, 140.0, 160.0), wide, thick, sides[check_random(seed) % 4], check_between(seed, 150.0, 750.0),
        across ? "across" : "along", let_in && !across ? thick / 2.0 : back, let_in && across ? wide / 2.0 : edge, sides[check_random(seed) % 4],
        let_in ? "    let in: 5\n" : check_random(seed) % 2 && !across ? "    pegs: 1\n" : "", check_random(seed) % 2 ? "    head: hexagon\n" : "");
}

typedef void joint_law(const tw_joint_plan *one, const tw_bolted *j, const tw_meeting *m, check_seed *seed);

static void hold_over_seeded_jobs(uint64_t number, joint_law *law)
{
    check_seed seed = { number };
    int seen = 0;
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        for (size_t m = 0; m < p.plans[0].meeting_count; m++) law(&p.plans[0], p.plans[0].own, &p.plans[0].meetings[m], &seed);
        seen += p.plans[0].meeting_count > 0;
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 40);
}

/* A straight rod of the hole's width, from the washer to the lengthwise hole's bottom, meets no wood of either piece; a little wider it does in both. */
static void rod_meets_no_wood(const tw_joint_plan *one, const tw_bolted *j, const tw_meeting *m, check_seed *seed)
{
    double sign = m->end == TW_SIDE_RIGHT_END ? -1.0 : 1.0, x0 = m->end == TW_SIDE_RIGHT_END ? j->a.length_mm : 0.0;
    for (int i = 0; i < 200; i++) {
        double in = check_between(seed, -(j->d - j->h), j->b_depth), angle = check_between(seed, 0.0, 2.0 * TW_PI);
        for (int wider = 0; wider < 2; wider++) {
            double r = wider ? j->hole / 2.0 + 0.05 : check_between(seed, 0.0, j->hole / 2.0 - 1e-6);
            tw_spot spot = { x0 + sign * in, j->y + r * cos(angle), j->z + r * sin(angle) };
            bool taken = in > 0.0 ? cut_law_count(one, m->mover, j->a, spot) > 0 : cut_law_count(one, m->base, j->b, cut_law_moved(m->pose, spot)) > 0;
            bool elsewhere = wider && ((in > 0.0 && fabs(in - j->s) < j->dd / 2.0) || (in < 0.0 && in < -(j->d - j->h - j->k)) || in > j->b_depth);  // dowel's hole, counterbore
            if (!elsewhere) assert_int_equal(taken, !wider);
        }
    }
}

static void bolt_goes_straight_through_both_pieces(void **state) { (void)state; hold_over_seeded_jobs(61, rod_meets_no_wood); }

static void pegs_meet_no_wood(const tw_joint_plan *one, const tw_bolted *j, const tw_meeting *m, check_seed *seed)
{
    double sign = m->end == TW_SIDE_RIGHT_END ? -1.0 : 1.0, x0 = m->end == TW_SIDE_RIGHT_END ? j->a.length_mm : 0.0, off[TW_BOLTED_PEGS_MOST];
    int count = tw_bolted_peg_spots(j, off);
    for (int i = 0; i < 100 && count > 0; i++) {
        double in = check_between(seed, -j->peg_depth, j->peg_depth), angle = check_between(seed, 0.0, 2.0 * TW_PI), r = check_between(seed, 0.0, j->peg / 2.0 - 1e-6);
        tw_spot spot = { x0 + sign * in, j->y + off[i % count] + r * cos(angle), j->z + r * sin(angle) };
        assert_int_equal(in > 0.0 ? cut_law_count(one, m->mover, j->a, spot) : cut_law_count(one, m->base, j->b, cut_law_moved(m->pose, spot)), 1);
    }
}

static void pegs_find_their_holes_in_both_pieces(void **state) { (void)state; hold_over_seeded_jobs(62, pegs_meet_no_wood); }

/* Home and on the way out no wood shares a place with wood. */
static void pieces_share_no_wood(const tw_joint_plan *one, const tw_bolted *j, const tw_meeting *m, check_seed *seed)
{
    bool right = m->end == TW_SIDE_RIGHT_END;
    tw_spot least = { right ? j->a.length_mm - 30.0 : 0.0, 0.0, 0.0 }, most = { least.x + 30.0, j->a.width_mm, j->a.thickness_mm };
    for (int step = 0; step < 3; step++) {
        tw_meeting moved = *m;
        moved.pose.at = tw_spot_plus(moved.pose.at, tw_spot_times(m->leaves, step * m->travel_mm / 2.0 + 1e-9));
        assert_int_equal(cut_law_clashes(one, &moved, j->a, j->b, least, most, 100, seed), 0);
    }
}

static void pieces_home_share_no_wood(void **state) { (void)state; hold_over_seeded_jobs(63, pieces_share_no_wood); }

/* Volumes: each hole a cylinder; in the post none of them is taken twice. */
static void volumes_are_closed_forms(const tw_joint_plan *one, const tw_bolted *j, const tw_meeting *m, check_seed *seed)
{
    (void)m;
    (void)seed;
    const double quarter = TW_PI / 4.0;
    double pegs = j->pegs * quarter * j->peg * j->peg * j->peg_hole;
    double post = quarter * (j->kw * j->kw * j->k + j->hole * j->hole * (j->d - j->k - j->h)) + pegs + j->h * j->a.width_mm * j->a.thickness_mm;
    double rail = 2.0 * (quarter * (j->dd * j->dd * j->dowel_depth + j->hole * j->hole * j->b_depth) + pegs);
    CHECK_NEAR(cut_law_volume(one, one->meetings[0].base, j->b, NULL), post, 1e-6 * post);
    CHECK_NEAR(cut_law_volume(one, one->meetings[0].mover, j->a, NULL), rail, 1e-6 * rail);
}

static void holes_take_the_closed_forms(void **state) { (void)state; hold_over_seeded_jobs(64, volumes_are_closed_forms); }

/* The dowel on its bottom: from the bored side to its middle, bored depth less half of it, is the axis of the bolt. */
static void thread_lies_on_the_axis(const tw_joint_plan *one, const tw_bolted *j, const tw_meeting *m, check_seed *seed)
{
    (void)seed;
    double x = m->end == TW_SIDE_RIGHT_END ? j->a.length_mm - j->s : j->s;
    tw_spot axis = cut_law_seen(j->a, j->dowel_face, (tw_spot){ x, j->y, j->z });
    CHECK_NEAR(axis.z, j->dowel_depth - j->dl / 2.0, 1e-9);
    assert_int_equal(cut_law_count(one, m->mover, j->a, (tw_spot){ x, j->y, j->z }), 2);  // both holes cross there
}

static void cross_dowel_on_its_bottom_has_its_thread_on_the_bolts_axis(void **state) { (void)state; hold_over_seeded_jobs(65, thread_lies_on_the_axis); }

static void drawings_of_seeded_jobs_have_no_texts_that_meet_or_lie_on_outlines(void **state)
{
    (void)state;
    check_seed seed = { 66 };
    const tw_box room = { 20.0, 20.0, 200.0, 210.0 };
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
        tw_sheet *sheet = tw_sheet_new(&p.arena, "joint", "joint", 220.0, 230.0);
        tw_joint_kinds[p.plans[0].joint->kind]->draw(&context, &p.plans[0], sheet, room);
        check_clear(sheet, &p.arena, room, text);
        tw_arena_finish(&p.arena);
    }
}

static void odd_values_end_in_a_plan_or_a_halt(void **state)
{
    (void)state;
    static const odd_key keys[] = { { "across", 0.5, 150.0, NULL }, { "from edge", 0.1, 150.0, NULL }, { "from back", 0.1, 60.0, NULL }, { "bolt", 1.0, 24.0, NULL }, { "bolt length", 1.0, 500.0, NULL }, { "washer", 1.0, 90.0, NULL },
        { "counterbore", 0.1, 100.0, NULL }, { "counterbore width", 1.0, 110.0, NULL }, { "hole clearance", 0.01, 4.9, NULL }, { "dowel", 1.0, 49.0, NULL }, { "dowel length", 1.0, 190.0, NULL }, { "dowel from end", 0.5, 400.0, NULL },
        { "let in", 0.01, 90.0, NULL }, { "peg", 1.0, 49.0, NULL }, { "peg spacing", 0.5, 150.0, NULL }, { "peg depth", 0.5, 90.0, NULL }, { "lies", 0, 0, "along|across" }, { "head", 0, 0, "socket|hexagon" }, { "pegs", 0, 0, "0|1|2" },
        { "dowel from", 0, 0, "face|back|face edge|back edge" } };
    check_seed seed = { 73 };
    int sound = 0;
    for (int i = 0; i < 3000; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  post: {count: 2, length: 700, width: %.3f, thickness: %.3f}\n  rail: {count: 1, length: 1200, width: %.3f, thickness: %.3f}\njoints:\n  rail to post:\n    kind: cross dowel and bolt\n    rail: rail\n    ends: both\n    into: post\n    from: face\n    at: %.3f\n",
            i % 2 ? "mm 0.1" : "in 1/64", check_between(&seed, 5.0, 150.0), check_between(&seed, 5.0, 80.0), check_between(&seed, 5.0, 150.0), check_between(&seed, 3.0, 60.0), check_between(&seed, 1.0, 700.0));
        odd_lines(&seed, keys, sizeof keys / sizeof *keys, 3 + i % 8, text, sizeof text);
        sound += odd_is_planned(text, SHOP_MM);
    }
    assert_true(sound > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(joint_in_millimetres_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(joint_in_inches_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(thin_post_leaves_the_head_on_its_surface, finish),
        cmocka_unit_test_teardown(end_that_is_let_in_shortens_the_bolt_and_needs_no_pegs, finish),
        cmocka_unit_test_teardown(post_of_a_known_timber_gets_its_seasonal_slack, finish),
        cmocka_unit_test(bolts_are_those_of_the_standards),
        cmocka_unit_test(washers_of_every_size_are_as_the_timber_code_asks),
        cmocka_unit_test_teardown(hardware_is_bought_and_pegs_are_made, finish),
        cmocka_unit_test_teardown(holes_come_in_the_order_that_makers_keep, finish),
        cmocka_unit_test_teardown(bolt_out_of_the_middle_gives_the_two_ends_two_hands, finish),
        cmocka_unit_test_teardown(bolts_are_unscrewed_before_the_rail_is_drawn_off, finish),
        cmocka_unit_test(bolts_that_do_not_hold_are_refused),
        cmocka_unit_test(wood_that_would_break_is_refused),
        cmocka_unit_test(heads_that_sink_or_do_not_go_in_are_refused),
        cmocka_unit_test(rail_that_can_turn_is_thought_over),
        cmocka_unit_test(sides_and_counts_that_cannot_be_are_refused),
        cmocka_unit_test(bolt_goes_straight_through_both_pieces),
        cmocka_unit_test(pegs_find_their_holes_in_both_pieces),
        cmocka_unit_test(pieces_home_share_no_wood),
        cmocka_unit_test(holes_take_the_closed_forms),
        cmocka_unit_test(cross_dowel_on_its_bottom_has_its_thread_on_the_bolts_axis),
        cmocka_unit_test(drawings_of_seeded_jobs_have_no_texts_that_meet_or_lie_on_outlines),
        cmocka_unit_test(odd_values_end_in_a_plan_or_a_halt),
    };
    return cmocka_run_group_tests_name("cross dowel and bolt", tests, NULL, NULL);
}
