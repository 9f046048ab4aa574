// SPDX-License-Identifier: GPL-3.0-or-later
/* Finger joints and the corners that they share with other joints: figures worked by hand, refusals, laws over seeded joints,
 * boxes that close in space, combs proved by their templates. Facts marked so are common practice: fingers about as wide as
 * the board is thick; an odd number, so that both edges are alike; the cutter of a stepping jig makes the gap. */
#include "joined.h"

#include "space/space.h"
#include "template/template.h"

#define BOX "job: test\nunits: mm\nfigures: mm 0.01\npieces:\n  long: {count: %d, length: 420, width: %s, thickness: %s}\n  short: {count: %d, length: 260, width: %s, thickness: %s}\njoints:\n" \
    "  corners:\n    kind: finger joint\n    fingers: long\n    into: short\n%s"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_text(const char *text)
{
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

/* Boards of one width, two of each. */
static void plan_box(const char *width, const char *thick, const char *into_thick, const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, BOX, 2, width, thick, 2, width, into_thick, more);
    plan_text(text);
}

static void expect(const char *code, tw_level level, const char *what, const char *remedy) { expect_finding(&p, code, level, what, remedy); }

static void refuse(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_box("112", "16", "16", more);
    expect(code, TW_HALT, what, remedy);
    tw_arena_finish(&p.arena);
}

static void warn(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_box("112", "16", "16", more);
    expect(code, TW_CARE, what, remedy);
    assert_true(p.plans[0].work_count > 0);
    tw_arena_finish(&p.arena);
}

static const tw_work *work_named(const char *name) { return work_that_is(&p, name); }

/* ---- proportions ---- */

/* 112 wide, 16 thick: 112/16 = 7, odd; p = 16; c = 0.1: gap 16.05, finger 15.95; e = (112 - 5 x 16)/2 = 16. */
static void seven_places_on_a_board_seven_times_as_wide_as_thick(void **state)
{
    (void)state;
    plan_box("112", "16", "18", "");
    CHECK_NEAR(figure(&p, 0, "number"), 7.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "finger"), 16.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "edge_place"), 16.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "gap"), 16.05, 1e-9);
    CHECK_NEAR(figure(&p, 0, "finger_width"), 15.95, 1e-9);
    CHECK_NEAR(figure(&p, 0, "depth"), 18.0, 1e-9);       // what goes in is thick
    CHECK_NEAR(figure(&p, 0, "into_depth"), 16.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "outside"), 420.0, 1e-9);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* The odd number nearest: 100/16 = 6.25 gives 7, p = 14.29; 100/18 = 5.56 gives 5; 40/20 = 2 gives 3. */
static void the_number_is_the_nearest_odd_one(void **state)
{
    (void)state;
    static const struct { const char *width, *thick; int number; } cases[] = { { "100", "16", 7 }, { "100", "18", 5 }, { "40", "20", 3 }, { "64", "16", 5 }, { "63.9", "16", 3 } };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        plan_box(cases[i].width, cases[i].thick, "20", "");
        CHECK_NEAR(figure(&p, 0, "number"), cases[i].number, 0.0);
        CHECK_NEAR(figure(&p, 0, "edge_place"), figure(&p, 0, "finger"), 1e-9);
        tw_arena_finish(&p.arena);
    }
}

/* Places of 10 on 112: 9 inner ones leave 22, 11 at each edge. On 104: 9 inner ones
 * leave 14, 7 at each edge; with 7 inner ones 17 would stay at each, more than one place and a half. */
static void what_remains_beside_a_given_finger_is_shared_by_both_edges(void **state)
{
    (void)state;
    plan_box("112", "16", "16", "    finger: 10\n");
    CHECK_NEAR(figure(&p, 0, "number"), 11.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "edge_place"), 11.0, 1e-9);
    tw_arena_finish(&p.arena);
    plan_box("104", "16", "16", "    finger: 10\n");
    CHECK_NEAR(figure(&p, 0, "number"), 11.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "edge_place"), 7.0, 1e-9);
}

/* Proud 0.5 at both ends: 420 - 1 outside, gaps 16 + 0.5 deep; and the work of planing it level is there. */
static void what_stands_proud_counts_in_the_length(void **state)
{
    (void)state;
    plan_box("112", "16", "16", "    proud: 0.5\n");
    CHECK_NEAR(figure(&p, 0, "depth"), 16.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "outside"), 419.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "into_outside"), 259.0, 1e-9);
    assert_int_equal(work_named("corners planed level")->way, TW_WAY_PLANE);
    tw_arena_finish(&p.arena);
    plan_box("112", "16", "16", "");
    assert_null(work_of(&p, "corners planed level"));
}

/* 4-1/2 in wide, 1/2 in thick: 9 places of 1/2 in; clearance 0.004 in. */
static void inches_have_round_figures_of_their_own(void **state)
{
    (void)state;
    plan_text("job: test\nunits: in\nfigures: in 1/64\npieces:\n  long: {count: 2, length: 16, width: 4-1/2, thickness: 1/2}\n  short: {count: 2, length: 10, width: 4-1/2, thickness: 1/2}\njoints:\n"
              "  corners: {kind: finger joint, fingers: long, into: short}\n");
    CHECK_NEAR(figure(&p, 0, "number"), 9.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "finger"), 12.7, 1e-9);
    CHECK_NEAR(figure(&p, 0, "gap"), 0.502 * 25.4, 1e-9);
}

/* ---- ways ---- */

/* A board 200 wide is wider than the machine's 150 of travel: the jig. Thinner board 14: the largest cutter no wider and 18 long
 * is the one of 12.7. p = 12.7 - 0.1/2 = 12.65; inner places: 200/12.65 - 2 = 13.81, up to 14: n = 16; e = (200 - 14 x 12.65)/2 =
 * 11.45. Strip of the first: 12.65 - 11.45 - 0.025 = 1.175; of the second 12.65 more. */
static void a_wide_board_is_stepped_with_the_cutter_as_the_gap(void **state)
{
    (void)state;
    plan_box("200", "14", "18", "");
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    CHECK_NEAR(figure(&p, 0, "finger"), 12.65, 1e-9);
    CHECK_NEAR(figure(&p, 0, "number"), 16.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "edge_place"), 11.45, 1e-9);
    CHECK_NEAR(figure(&p, 0, "gap"), 12.7, 1e-9);
    CHECK_NEAR(figure(&p, 0, "pin_wide"), 12.7, 1e-9);
    CHECK_NEAR(figure(&p, 0, "pin_to_cutter"), 12.6, 1e-9);
    CHECK_NEAR(figure(&p, 0, "strip"), 1.175, 1e-9);
    CHECK_NEAR(figure(&p, 0, "into_strip"), 13.825, 1e-9);
    assert_int_equal(work_named("gaps of long")->way, TW_WAY_TABLE);
    assert_true(strlen(work_named("gaps of long")->cautions) > 0);
}

/* The jig played through with real numbers: pin from 0 to 12.7, the cutter's near flank 12.6 beyond the pin's near side. The near
 * side is the one that looks to the cutter. First cut from flank to flank + 12.7; each wall that was cut is set against the near
 * side. The gaps so made must be those of the plan, in both boards. */
static void the_jig_played_through_makes_the_gaps_of_the_plan(void **state)
{
    (void)state;
    static const char *const widths[] = { "200", "171.3", "260", "158.25" };
    for (size_t i = 0; i < 4; i++) {
        plan_box(widths[i], "14", "18", "    by: step\n");
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        for (int board = 0; board < 2; board++) {
            double strip = tw_plan_find(&p.plans[0], board ? "into_strip" : "strip") ? figure(&p, 0, board ? "into_strip" : "strip") : 0.0;
            double flank = figure(&p, 0, "pin_to_cutter"), wide = strtod(widths[i], NULL), cutter = 12.7;
            double pin = -strip;  // the pin's near side, from the board's edge: the edge lies `strip` nearer to the cutter
            for (size_t k = 0; k < p.plans[0].cut_count; k++) {
                const tw_cut *cut = &p.plans[0].cuts[k];
                if (cut->piece != board || cut->face != TW_SIDE_RIGHT_END) continue;
                tw_box gap = tw_outline_bounds(cut->outline);
                CHECK_NEAR(gap.x0, tw_max(0.0, pin + flank), 1e-9);
                CHECK_NEAR(gap.x1, tw_min(wide, pin + flank + cutter), 1e-9);
                pin = gap.x1;                               // this wall goes to the pin's near side
            }
        }
        tw_arena_finish(&p.arena);
    }
}

static void fingers_that_no_cutter_makes_are_sawn_and_marked_from_each_other(void **state)
{
    (void)state;
    plan_box("200", "66", "66", "");  // deeper than any cutter is long
    const tw_work *mark = work_named("fingers of short, marked"), *first = work_named("gaps of long");
    assert_int_equal(first->way, TW_WAY_CHISEL);
    bool after = false;
    for (int k = 0; k < mark->after_count; k++) after = after || &p.plans[0].works[mark->after[k]] == first;
    assert_true(after);
}

/* A board 112 wide and its mate: the second has edge gaps, which run 12.7 past each edge, as the cutter is wide. */
static void one_comb_serves_both_ends_and_leaves_no_round_corner_in_the_wood(void **state)
{
    (void)state;
    plan_box("112", "16", "18", "");
    const tw_work *one = work_named("gaps of long"), *other = work_named("gaps of short");
    assert_int_equal(one->count, 4);
    assert_int_equal(one->hand, TW_HAND_NONE);
    assert_int_equal(one->copy.cut.count, 3);
    assert_int_equal(other->copy.cut.count, 4);
    CHECK_NEAR(one->copy.depth_mm, 18.0, 1e-9);
    tw_box box = tw_outline_bounds(other->copy.cut);
    CHECK_NEAR(box.x1 - box.x0, 112.0 + 2.0 * 12.7, 1e-9);
    CHECK_NEAR(box.y1 - box.y0, 18.0 + 2.0 * 12.7, 1e-9);
    CHECK_HOLDS(other->cautions, "runs past it: the stop");
    assert_null(strstr(one->cautions, "runs past it"));
}

/* What the simulated cutter really takes, kept to the board's end, is the gaps of the plan to a thousandth. */
static void combs_achieve_their_gaps(void **state)
{
    (void)state;
    static const char *const widths[] = { "112", "120", "90", "96" }, *const numbers[] = { "7", "6", "5", "6" };
    for (int i = 0; i < 4; i++) {
        char more[128];
        snprintf(more, sizeof more, "    number: %s\n%s", numbers[i], i == 3 ? "    ends: right\n    into ends: right\n" : "");  // the last: b upside down
        plan_box(widths[i], "16", "18", more);
        tw_templates templates = tw_templates_make(&p.arena, p.job, p.shop, p.plans, 1, &p.findings);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        for (int board = 0; board < 2; board++) {
            const char *name = board ? "gaps of short" : "gaps of long";
            int work = (int)(work_named(name) - p.plans[0].works);
            const tw_template *made = tw_template_of(&templates, 0, work);
            assert_non_null(made);
            assert_true(made->copy.error_mm <= TW_COPY_TRUE_MM);
            bool turned = tw_template_turned(&templates, 0, work);
            double wide = strtod(widths[i], NULL), thick = board ? 18.0 : 16.0;
            check_seed seed = { 5 };
            for (int k = 0; k < 2000; k++) {  // spots of the end, away from walls by more than the tolerance
                double y = check_between(&seed, 0.0, wide), z = check_between(&seed, 0.01, thick - 0.01), wall = 1e9;
                bool in_gap = false;
                for (size_t c = 0; c < p.plans[0].cut_count; c++) {
                    const tw_cut *cut = &p.plans[0].cuts[c];
                    if (cut->piece != board || cut->face != TW_SIDE_RIGHT_END) continue;
                    tw_box gap = tw_outline_bounds(cut->outline);
                    in_gap = in_gap || (y > gap.x0 && y < gap.x1);
                    wall = tw_min(wall, tw_min(fabs(y - gap.x0), fabs(y - gap.x1)));
                }
                if (wall < 0.005) continue;
                double x = y - wide / 2.0;
                assert_int_equal(tw_outline_side(made->copy.achieved, (tw_point){ turned ? -x : x, z - thick / 2.0 }) > 0, in_gap);
            }
        }
        tw_arena_finish(&p.arena);
    }
}

/* ---- in space ---- */

static tw_space place(void) { return tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count); }

static double extent(const tw_space *space, int net, int axis)
{
    tw_spot d = tw_spot_less(space->nets[net].most, space->nets[net].least);
    return axis == 0 ? d.x : axis == 1 ? d.y : d.z;
}

static bool box_has_sizes(const tw_space *space, double a, double b, double c)
{
    double got[3] = { extent(space, 0, 0), extent(space, 0, 1), extent(space, 0, 2) }, want[3] = { a, b, c };
    for (int i = 0; i < 3; i++)
        for (int k = i + 1; k < 3; k++) {
            if (got[k] < got[i]) { double t = got[i]; got[i] = got[k]; got[k] = t; }
            if (want[k] < want[i]) { double t = want[i]; want[i] = want[k]; want[k] = t; }
        }
    return fabs(got[0] - want[0]) < 1e-6 && fabs(got[1] - want[1]) < 1e-6 && fabs(got[2] - want[2]) < 1e-6;
}

/* At each of its corners a long board comes off square to its face, away from the middle of the box. */
static void check_long_boards_come_off_outward(const tw_space *space)
{
    tw_spot middle = tw_spot_times(tw_spot_plus(space->nets[0].least, space->nets[0].most), 0.5);
    for (size_t k = 0; k < space->tie_count; k++) {
        const tw_tie *tie = &space->ties[k];
        tw_spot way = tw_pose_turn(space->instances[tie->base].pose, tie->meeting->leaves);
        bool mover_is_long = space->instances[tie->mover].piece == 0;
        tw_block box = tw_instance_block(space, mover_is_long ? tie->mover : tie->base);
        tw_spot out = tw_spot_less(tw_spot_times(tw_spot_plus(box.least, box.most), 0.5), middle);
        CHECK_NEAR(tw_spot_product(mover_is_long ? way : tw_spot_times(way, -1.0), out), tw_spot_size(out), 1e-6);
    }
}

static void four_boards_close_to_a_box_of_their_outside_sizes(void **state)
{
    (void)state;
    static const char *const mores[] = { "", "    faces: in\n", "    number: 6\n", "    number: 6\n    faces: in\n    fit: dry\n" };
    for (int i = 0; i < 4; i++) {
        plan_box("112", "16", "18", mores[i]);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        tw_space space = place();
        assert_int_equal(space.net_count, 1);
        assert_int_equal(space.tie_count, 4);
        assert_int_equal(space.ring_count, 1);
        CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
        assert_true(box_has_sizes(&space, 420, 260, 112));
        assert_true(space.nets[0].ordered);
        assert_int_equal(space.nets[0].stuck_count, 0);
        check_long_boards_come_off_outward(&space);
        tw_arena_finish(&p.arena);
    }
}

/* Proud ends stand out by 0.5 on each side until they are planed: 420 = 419 + 2 x 0.5, so the whole is 420 by 260. */
static void proud_ends_close_too(void **state)
{
    (void)state;
    plan_box("112", "16", "18", "    proud: 0.5\n");
    tw_space space = place();
    assert_int_equal(space.ring_count, 1);
    CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
    assert_true(box_has_sizes(&space, 420, 260, 112));
}

/* Two boxes in one job: four of each. Every loop closes, and there are two nets. */
static void boards_for_two_boxes_make_two_boxes(void **state)
{
    (void)state;
    char text[4096];
    snprintf(text, sizeof text, BOX, 4, "112", "16", 4, "112", "16", "");
    plan_text(text);
    tw_space space = place();
    assert_int_equal(space.net_count, 2);
    assert_int_equal(space.tie_count, 8);
    assert_int_equal(space.ring_count, 2);
    for (int i = 0; i < 2; i++) CHECK_NEAR(space.rings[i].open_mm, 0.0, 1e-9);
}

/* A tray: one bottom board, both ends, into the lower ends of two uprights. One of them is turned. */
static void both_ends_of_one_board_go_into_one_end_of_two(void **state)
{
    (void)state;
    char text[4096];
    snprintf(text, sizeof text, BOX, 1, "112", "16", 2, "112", "16", "    into ends: left\n    fit: dry\n");
    plan_text(text);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(p.plans[0].meeting_count, 2);
    tw_space space = place();
    assert_int_equal(space.net_count, 1);
    assert_int_equal(space.tie_count, 2);
    assert_true(box_has_sizes(&space, 420, 260, 112));
    tw_arena_finish(&p.arena);
    snprintf(text, sizeof text, BOX, 1, "112", "16", 2, "112", "16", "    into ends: left\n    number: 6\n");
    plan_text(text);
    expect("hands-differ", TW_HALT, "short stands upright at one end and upside down", "an odd `number`");
}

/* ---- refusals and cares ---- */

static void boards_that_cannot_meet_are_refused(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  long: {count: 2, length: 420, width: 112, thickness: 16}\n  short: {count: 2, length: 260, width: 110, thickness: 16}\njoints:\n  c: {kind: finger joint, fingers: long, into: short}\n");
    expect("widths-differ", TW_HALT, "long is 112.0 mm wide, short 110.0 mm", "`width: long.width`");
    tw_arena_finish(&p.arena);
    char text[4096];
    snprintf(text, sizeof text, BOX, 2, "112", "16", 3, "112", "16", "");
    plan_text(text);
    expect("counts-differ", TW_HALT, "4 ends (2 x long, 2 each) meet 6 ends (3 x short, 2 each)", "look at the counts");
    tw_arena_finish(&p.arena);
    snprintf(text, sizeof text, BOX "  again: {kind: finger joint, fingers: long, ends: left, into: short, into ends: right}\n", 2, "112", "16", 2, "112", "16", "");
    plan_text(text);
    expect("end-taken", TW_HALT, "the left end of long is already taken by corners", "another end");
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  long: {count: 2, length: 40, width: 112, thickness: 16}\n  short: {count: 2, length: 260, width: 112, thickness: 16}\njoints:\n  c: {kind: finger joint, fingers: long, into: short}\n");
    expect("body-short", TW_HALT, "of long, 40.0 mm long, only 8.0 mm is left", "a longer piece");
}

static void numbers_and_widths_out_of_range_are_refused_or_thought_over(void **state)
{
    (void)state;
    refuse("    number: 2\n", "number-small", "2 over the width", "3 or more");
    refuse("    number: 200\n", "number-large", "200 fingers", "at most 99");
    refuse("    number: 71\n    by: saw\n", "finger-narrow", "1.53 mm wide breaks off", "16.00 mm");
    warn("    number: 31\n    by: saw\n", "finger-narrow", "only 3.56 mm", "16.00 mm");
    refuse("    number: 9\n    finger: 16\n", "edge-narrow", "7 inner places of 16.00 mm take more than the 112.00 mm", "`number: 7`");
    warn("    number: 7\n    finger: 20\n", "edge-narrow", "less than half as wide", "`number: 5`");
    warn("    number: 5\n    finger: 10\n", "edge-wide", "more than twice as wide", "`number: 7`");
}

static void fits_out_of_range_are_thought_over(void **state)
{
    (void)state;
    warn("    clearance: 0\n", "clearance-small", "will not go in by hand", "0.1 mm");
    warn("    clearance: 0.8\n", "clearance-large", "glue does not fill it", "0.1 mm");
    warn("    fit: dry\n    clearance: 0.8\n", "clearance-large", "rocks", "0.2 mm");
    warn("    proud: 4\n", "proud-large", "much to plane off", "0.5 mm");
}

static void tools_that_do_not_serve_are_refused(void **state)
{
    (void)state;
    refuse("    cutter: none such\n", "cutter-unknown", "no cutter named none such", "list of cutters");
    refuse("    by: copy\n    number: 15\n", "cutter-none", "no cutter of at most 7.52 mm", "`by: saw`");
    refuse("    by: copy\n    number: 11\n    cutter: long twelve\n", "cutter-wide", "12.70 mm wide, a gap only 10.23 mm", "a smaller cutter");
    refuse("    by: step\n    finger: 11\n", "cutter-not-gap", "nine five is 9.53 mm, the gaps are to be 11.05 mm", "`finger: 9.47 mm`");
    refuse("    by: step\n    number: 5\n", "edge-wide-for-jig", "wider than the jig's step allows", "leave `number` out");
    warn("    by: saw\n    cutter: eight\n", "key-idle", "need none", "leave `cutter` out");
    plan_box("200", "40", "40", "    by: step\n    cutter: eight\n");
    expect("cutter-short", TW_HALT, "cutter eight cuts 32.00 mm deep, the gaps are 40.00 mm", "a longer cutter");
    tw_arena_finish(&p.arena);
    static const char plain[] = SHOP_MM;
    char text[4096], shop[4096];
    const char *cutters = strstr(plain, "cutters:\n") + strlen("cutters:\n");
    snprintf(shop, sizeof shop, "%.*s  flare: {diameter: 12.7, cutting length: 20, shank: 8, dovetail: 8 deg}\n%s", (int)(cutters - plain), plain, cutters);
    for (int i = 0; i < 2; i++) {
        snprintf(text, sizeof text, BOX, 2, "112", "16", 2, "112", "16", i ? "    by: step\n    cutter: flare\n" : "    by: copy\n    cutter: flare\n");
        p = planned_of(text, shop);
        plan(&p);
        expect("cutter-slants", TW_HALT, "flare is a dovetail cutter", "a straight cutter");
        assert_int_equal(p.plans[0].work_count, 0);
        if (i == 0) tw_arena_finish(&p.arena);
    }
}

/* ---- laws ---- */

typedef struct law_case { char text[2048]; double c, width, thick, into; } law_case;

static void seeded_job(check_seed *seed, law_case *one)
{
    static const char *const ends[] = { "left", "right" }, *const looks[] = { "out", "in" };
    one->c = check_between(seed, 0.1, 0.4);
    one->width = check_between(seed, 70, 120);
    one->thick = check_between(seed, 12, 20);
    one->into = check_between(seed, 12, 20);
    snprintf(one->text, sizeof one->text, "job: law\nunits: mm\npieces:\n  a: {count: 1, length: 300, width: %.6f, thickness: %.6f}\n  b: {count: 1, length: 200, width: %.6f, thickness: %.6f}\njoints:\n"
        "  j:\n    kind: finger joint\n    fingers: a\n    ends: %s\n    into: b\n    into ends: %s\n    faces: %s\n    number: %d\n    clearance: %.6f\n    proud: %.6f\n    by: saw\n",
        one->width, one->thick, one->width, one->into, ends[check_random(seed) % 2], ends[check_random(seed) % 2], looks[check_random(seed) % 2], 3 + (int)(check_random(seed) % 6), one->c,
        check_between(seed, 0.01, 0.8));
}

/* The corner in the frame of b, and a little round it. */
static tw_block corner_of(const tw_meeting *m, double proud_and_thick)
{
    tw_size b = tw_piece_size(&p.job->pieces[m->base]);
    double from = m->leaves.x < 0.0 ? -2.0 : b.length_mm - proud_and_thick - 2.0;
    return (tw_block){ { from, -2.0, -3.0 }, { from + proud_and_thick + 4.0, b.width_mm + 2.0, b.thickness_mm + 3.0 } };
}

static void fingers_fill_each_others_gaps_but_for_the_clearance(void **state)
{
    (void)state;
    check_seed seed = { 41 };
    for (int i = 0; i < 60; i++) {
        law_case one;
        seeded_job(&seed, &one);
        plan_text(one.text);
        if (tw_findings_have(&p.findings, TW_HALT)) fail_msg("halted:\n%s", one.text);
        const tw_meeting *m = &p.plans[0].meetings[0];
        assert_int_equal(p.plans[0].meeting_count, 1);
        check_joined(&p, 0, m, corner_of(m, figure(&p, 0, "into_depth")), (tw_spot){ 0, 1, 0 }, one.c / 2.0, 0.0, 700 + (uint64_t)i);
        tw_arena_finish(&p.arena);
    }
}

/* Gaps of both boards at one corner together: the whole width once, and half of the clearance at each of n - 1 walls. */
static void volumes_are_those_of_the_closed_form(void **state)
{
    (void)state;
    plan_box("112", "16", "18", "    clearance: 0.4\n    number: 8\n");
    double whole = 112.0 + 7.0 * 0.2;
    double gaps_a = cut_volume(&p, 0, 0) / 18.0 / 16.0 / 2.0, gaps_b = cut_volume(&p, 0, 1) / 16.0 / 18.0 / 2.0;
    CHECK_NEAR(gaps_a + gaps_b, whole, 1e-9);
    CHECK_NEAR(gaps_a, gaps_b, 1e-9);  // even: each board has half of the places
}

static void odd_sizes_are_halted_or_make_a_sane_plan(void **state)
{
    (void)state;
    static const char *const ends[] = { "left", "right", "both" }, *const bys[] = { "copy", "step", "saw" }, *const cutters[] = { "eight", "nine five", "long twelve" };
    check_seed seed = { 78 };
    int good = 0;
    for (int i = 0; i < 600; i++) {
        char text[2048], more[512] = "";
        static const char *const keys[] = { "finger", "clearance", "proud" };
        static const double most[] = { 60, 5, 10 };
        for (int k = 0; k < 3; k++)
            if (check_random(&seed) % 4 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    %s: %.4f\n", keys[k], check_size(&seed, 0.01, most[k]));
        if (check_random(&seed) % 3 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    number: %d\n", 1 + (int)(check_random(&seed) % 40));
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), "    by: %s\n", bys[check_random(&seed) % 3]);
        if (check_random(&seed) % 4 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    cutter: %s\n", cutters[check_random(&seed) % 3]);
        double wide = check_size(&seed, 5, 600);
        snprintf(text, sizeof text, "job: odd\nunits: mm\nfigures: %s\npieces:\n  a: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\n  b: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\njoints:\n"
                 "  j:\n    kind: finger joint\n    fingers: a\n    into: b\n    ends: %s\n    into ends: %s\n%s", i % 2 ? "mm 0.1" : "in 1/64", check_size(&seed, 10, 2000), wide, check_size(&seed, 2, 60),
                 check_size(&seed, 10, 2000), i % 9 ? wide : wide + 1.0, check_size(&seed, 2, 60), ends[check_random(&seed) % 3], ends[check_random(&seed) % 3], more);
        plan_text(text);
        check_plan_is_sane(&p, 0);
        good += !tw_findings_have(&p.findings, TW_HALT);
        check_drawing(&p, 0);
        tw_arena_finish(&p.arena);
    }
    assert_true(good > 20);
}

static void drawings_keep_texts_apart_at_the_longest_names_and_finest_fractions(void **state)
{
    (void)state;
    static const char *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" }, *const numbers[] = { "3", "8", "15" };
    for (int i = 0; i < 24; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  the side that stands nearest to the sluice of the upper weir: {count: 2, length: 900, width: %d, thickness: 19}\n"
                 "  the side that carries the handle by which the net is hung up: {count: 2, length: 371, width: %d, thickness: 17}\njoints:\n  corners:\n    kind: finger joint\n"
                 "    fingers: the side that stands nearest to the sluice of the upper weir\n    into: the side that carries the handle by which the net is hung up\n    number: %s\n    by: saw\n",
                 figures[i % 4], i / 12 ? 240 : 70, i / 12 ? 240 : 70, numbers[i / 4 % 3]);
        plan_text(text);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        check_drawing(&p, 0);
        tw_arena_finish(&p.arena);
    }
}

int main(void)
{
#define CASE(name) cmocka_unit_test_teardown(name, finish)
    const struct CMUnitTest tests[] = {
        CASE(seven_places_on_a_board_seven_times_as_wide_as_thick),
        CASE(the_number_is_the_nearest_odd_one),
        CASE(what_remains_beside_a_given_finger_is_shared_by_both_edges),
        CASE(what_stands_proud_counts_in_the_length),
        CASE(inches_have_round_figures_of_their_own),
        CASE(a_wide_board_is_stepped_with_the_cutter_as_the_gap),
        CASE(the_jig_played_through_makes_the_gaps_of_the_plan),
        CASE(fingers_that_no_cutter_makes_are_sawn_and_marked_from_each_other),
        CASE(one_comb_serves_both_ends_and_leaves_no_round_corner_in_the_wood),
        CASE(combs_achieve_their_gaps),
        CASE(four_boards_close_to_a_box_of_their_outside_sizes),
        CASE(proud_ends_close_too),
        CASE(boards_for_two_boxes_make_two_boxes),
        CASE(both_ends_of_one_board_go_into_one_end_of_two),
        CASE(boards_that_cannot_meet_are_refused),
        CASE(numbers_and_widths_out_of_range_are_refused_or_thought_over),
        CASE(fits_out_of_range_are_thought_over),
        CASE(tools_that_do_not_serve_are_refused),
        CASE(fingers_fill_each_others_gaps_but_for_the_clearance),
        CASE(volumes_are_those_of_the_closed_form),
        CASE(odd_sizes_are_halted_or_make_a_sane_plan),
        CASE(drawings_keep_texts_apart_at_the_longest_names_and_finest_fractions),
    };
    return cmocka_run_group_tests_name("finger joint", tests, NULL, NULL);
}
