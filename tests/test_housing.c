// SPDX-License-Identifier: GPL-3.0-or-later
/* Housings by figures worked by hand, refusals, and laws over seeded joints. Facts marked so are common practice: a part a
 * few thousandths of an inch under its housing; a depth of a third of the piece. */
#include "joined.h"

#define SIDE_AND_SHELF "job: test\nunits: mm\nfigures: mm 0.1\npieces:\n" \
    "  side: {count: %d, length: 460, width: 78, thickness: 19}\n  shelf: {count: %d, length: 371, width: 78, thickness: 13}\njoints:\n"
#define SHELF_IN_SIDE "  shelf in side:\n    kind: housing\n    housed: shelf\n    into: side\n    from: face\n"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_text(const char *text, const char *shop)
{
    p = planned_of(text, shop);
    plan(&p);
}

static void plan_with(int sides, int shelves, const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, SIDE_AND_SHELF SHELF_IN_SIDE "%s", sides, shelves, more);
    plan_text(text, SHOP_MM);
}

static void plan_left(const char *more)
{
    char lines[2048];
    snprintf(lines, sizeof lines, "    ends: left\n%s%s", strstr(more, " at:") ? "" : "    at: 100\n", more);
    plan_with(1, 1, lines);
}

static void expect(const char *code, tw_level level, const char *what, const char *remedy)
{
    expect_finding(&p, code, level, what, remedy);
}

static void refuse(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_left(more);
    expect(code, TW_HALT, what, remedy);
    tw_arena_finish(&p.arena);
}

static void warn(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_left(more);
    expect(code, TW_CARE, what, remedy);
    assert_true(p.plans[0].work_count > 0);
    tw_arena_finish(&p.arena);
}

static const tw_work *work_named(const char *name) { return work_of(&p, name); }

/* ---- proportions ---- */

/* Shelf 13 in a side of 19: w = 13 + 0.2; depth 19/3 = 6.33, down to 6; the end stands on the bottom: l = 6;
 * body 371 - 6; through: 78 long. */
static void a_through_housing_in_millimetres_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_left("");
    CHECK_NEAR(figure(&p, 0, "housing_width"), 13.2, 1e-9);
    CHECK_NEAR(figure(&p, 0, "depth"), 6.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "left_under"), 13.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "housed"), 6.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "body"), 365.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "housing_length"), 78.0, 1e-9);
    assert_null(tw_plan_find(&p.plans[0], "notch"));
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* Stopped 12 short; the largest cutter no wider than 13.1 is the one of 12.7: radius 6.35; notch 12 + 6.35 + 1;
 * room 0.5: l = 5.5; glued: w = 13 + 0.1. */
static void a_stopped_housing_is_notched_past_the_round_corners(void **state)
{
    (void)state;
    plan_left("    stop: back edge\n    fit: glued\n");
    CHECK_NEAR(figure(&p, 0, "housing_width"), 13.1, 1e-9);
    CHECK_NEAR(figure(&p, 0, "housing_length"), 66.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "notch"), 19.35, 1e-9);
    CHECK_NEAR(figure(&p, 0, "housed"), 5.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "body"), 365.5, 1e-9);
    assert_null(work_named("stopped ends of the housings"));
    assert_non_null(work_named("notches of the housed pieces"));
}

/* Chopped square: notch 12 + 0 + 1. */
static void a_stopped_end_that_is_chopped_square_needs_a_shorter_notch(void **state)
{
    (void)state;
    plan_left("    stop: back edge\n    stopped end: chisel\n");
    CHECK_NEAR(figure(&p, 0, "notch"), 13.0, 1e-9);
    assert_non_null(work_named("stopped ends of the housings"));
}

/* 3/4 in side: a third is 1/4 in; 1/2 in shelf + 0.008 in. */
static void inches_have_round_figures_of_their_own(void **state)
{
    (void)state;
    plan_text("job: test\nunits: in\nfigures: in 1/64\npieces:\n  side: {count: 1, length: 18, width: 3, thickness: 3/4}\n  shelf: {count: 1, length: 14, width: 3, thickness: 1/2}\njoints:\n"
              SHELF_IN_SIDE "    ends: right\n    at: 4\n    stop: face edge\n", SHOP_MM);
    CHECK_NEAR(figure(&p, 0, "depth"), 0.25 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "housing_width"), 0.508 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "stop_short"), 0.5 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "bottom_room"), 25.4 / 64.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "notch"), (0.5 + 0.25 + 1.0 / 32.0) * 25.4, 1e-9);  // cutter 12.7 = 1/2 in
}

/* ---- cuts and hands ---- */

/* Face inward, left end below, shelf's face up: at its left end the shelf's face edge lies at the side's back edge; at
 * its right end, in the other side, at that one's face edge. */
static void a_pair_of_sides_has_its_notches_at_the_same_edge_of_the_shelf(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  one: {count: 1, length: 460, width: 78, thickness: 19}\n  other: {count: 1, length: 460, width: 78, thickness: 19}\n"
              "  shelf: {count: 1, length: 371, width: 78, thickness: 13}\njoints:\n"
              "  left: {kind: housing, housed: shelf, ends: left, into: one, from: face, at: 100, stop: back edge}\n"
              "  right: {kind: housing, housed: shelf, ends: right, into: other, from: face, at: 100, stop: face edge}\n", SHOP_MM);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    for (int i = 0; i < 2; i++) {
        const tw_cut *notch = NULL;
        for (size_t k = 0; k < p.plans[i].cut_count; k++)
            if (strcmp(p.plans[i].cuts[k].name, "notch") == 0) notch = &p.plans[i].cuts[k];
        assert_non_null(notch);
        tw_box box = tw_outline_bounds(notch->outline);
        CHECK_NEAR(box.y0, 0.0, 1e-9);
        CHECK_NEAR(box.x0, i == 0 ? 0.0 : 371.0 - 5.5, 1e-9);
    }
    // The shelf's face looks to the right end of both, and the sides' shared template is cut with their stopped sides down.
    CHECK_NEAR(p.plans[0].meetings[0].pose.z.x, 1.0, 1e-12);
    CHECK_NEAR(p.plans[1].meetings[0].pose.z.x, 1.0, 1e-12);
}

static const tw_work *copied_work(int plan)
{
    for (size_t k = 0; k < p.plans[plan].work_count; k++)
        if (p.plans[plan].works[k].copied) return &p.plans[plan].works[k];
    return NULL;
}

static void a_left_and_a_right_side_share_template_and_height_and_change_hands(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  one: {count: 1, length: 460, width: 78, thickness: 19}\n  other: {count: 1, length: 460, width: 78, thickness: 19}\n"
              "  shelf: {count: 1, length: 371, width: 78, thickness: 13}\njoints:\n"
              "  left: {kind: housing, housed: shelf, ends: left, into: one, from: face, at: 100, stop: back edge}\n"
              "  right: {kind: housing, housed: shelf, ends: right, into: other, from: face, at: 100, stop: face edge}\n", SHOP_MM);
    const tw_work *a = copied_work(0), *b = copied_work(1);
    assert_int_equal(a->down, TW_SIDE_BACK_EDGE);
    assert_int_equal(b->down, TW_SIDE_FACE_EDGE);
    assert_int_equal(a->hand, TW_HAND_RIGHT);
    assert_int_equal(b->hand, TW_HAND_LEFT);
    CHECK_NEAR(tw_outline_difference_mm(&p.arena, a->copy.cut, b->copy.cut), 0.0, 1e-9);
    CHECK_NEAR(a->copy.down_to_origin_mm, b->copy.down_to_origin_mm, 1e-9);
    // from the stop, 12 up, to 12.7 past the far edge: middle at (12 + 78 + 12.7)/2, nothing below the piece
    CHECK_NEAR(a->copy.down_to_origin_mm, 51.35, 1e-9);
    CHECK_NEAR(a->copy.overhang_low_mm, -12.0, 1e-9);
}

static void places_alike_from_both_ends_share_one_setup_when_the_housing_runs_through(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\nfigures: mm 0.1\npieces:\n  side: {count: 2, length: 460, width: 60, thickness: 19}\n  shelf: {count: 2, length: 371, width: 60, thickness: 13}\njoints:\n"
              SHELF_IN_SIDE "    at: [100, 360]\n", SHOP_MM);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_string_equal(copied_work(0)->copy.cutter, "nine five");  // with the larger one the template is too high for its holder
    assert_string_equal(work_named("housings")->places, "100.0 mm from the left end, face (2); 100.0 mm from the right end, face (2)");
    assert_int_equal(work_named("housings")->count, 4);
    assert_int_equal(work_named("housings")->hand, TW_HAND_NONE);
    assert_int_equal(p.plans[0].meeting_count, 4);
}

static void one_of_two_alike_sides_is_turned_end_for_end_when_its_places_allow_it(void **state)
{
    (void)state;
    plan_with(2, 1, "    at: 230\n    stop: face edge\n");
    expect("one-is-turned", TW_NOTE, "turned end for end", "two pieces");
    assert_int_equal(p.plans[0].meeting_count, 2);
    CHECK_NEAR(p.plans[0].meetings[0].pose.z.x, 1.0, 1e-12);
    CHECK_NEAR(p.plans[0].meetings[1].pose.z.x, -1.0, 1e-12);
    // both notches lie at one edge of the shelf
    double y[2];
    int count = 0;
    for (size_t k = 0; k < p.plans[0].cut_count; k++)
        if (strcmp(p.plans[0].cuts[k].name, "notch") == 0) y[count++] = tw_outline_bounds(p.plans[0].cuts[k].outline).y0;
    assert_int_equal(count, 2);
    CHECK_NEAR(y[0], y[1], 1e-9);
}

static void two_alike_sides_whose_places_are_not_alike_cannot_be_stopped_at_one_edge(void **state)
{
    (void)state;
    plan_with(2, 1, "    at: 100\n    stop: face edge\n");
    expect("hands-differ", TW_HALT, "mirror images", "`ends: left` into the one");
    assert_int_equal(finding(&p, "hands-differ")->place.line, 14);
}

/* ---- ways ---- */

/* A side 250 wide is longer than the machine's 90 of travel: guides. Smallest follower that a cutter of 12.7 passes: 16;
 * gap 13.2 - 12.7 + 16; stop block (16 - 12.7)/2 beyond the end. */
static void wide_sides_are_routed_between_guides(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 900, width: 250, thickness: 20}\n  shelf: {count: 1, length: 700, width: 250, thickness: 13}\njoints:\n"
              SHELF_IN_SIDE "    ends: left\n    at: 400\n    stop: face edge\n", SHOP_MM);
    CHECK_NEAR(figure(&p, 0, "guides_gap"), 16.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "guides_stop"), 1.65, 1e-9);
    const tw_work *work = work_named("housings between guides");
    assert_non_null(work);
    assert_int_equal(work->way, TW_WAY_ROUTE);
    assert_true(strlen(work->cautions) > 0);
}

static void a_housing_that_no_cutter_makes_is_sawn(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 400, width: 60, thickness: 19}\n  shelf: {count: 1, length: 300, width: 60, thickness: 6}\njoints:\n"
              SHELF_IN_SIDE "    ends: left\n    at: 100\n    stop: face edge\n", SHOP_MM);
    assert_non_null(work_named("walls of the housings"));
    assert_non_null(work_named("ends of the stopped housings"));
    CHECK_NEAR(figure(&p, 0, "notch"), 13.0, 1e-9);  // chopped square: no radius
}

static void every_work_follows_those_of_the_layer_before(void **state)
{
    (void)state;
    plan_left("    stop: face edge\n    stopped end: chisel\n    fit: glued\n");
    const char *const order[] = { "places of the housings", "housings", "stopped ends of the housings", "notches of the housed pieces", "ends into their housings, dry", "glue up" };
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        const tw_work *work = work_named(order[i]);
        if (!work) fail_msg("there is no work %s", order[i]);
        bool follows = i == 0;
        for (int k = 0; k < work->after_count; k++) follows = follows || &p.plans[0].works[work->after[k]] == work_named(order[i ? i - 1 : 0]);
        assert_true(follows);
    }
}

/* ---- refusals and cares ---- */

static void depths_out_of_range_are_refused_or_thought_over(void **state)
{
    (void)state;
    refuse("    depth: 19\n", "housing-deep", "cuts side in two", "6.0 mm");
    refuse("    depth: 17\n", "housing-deep", "leaves only 2.0 mm", "6.0 mm");
    warn("    depth: 8\n", "housing-deep", "more than a third of the 19.0 mm", "6.0 mm");
    warn("    depth: 1\n", "housing-shallow", "hardly bears", "6.0 mm");
    refuse("    bottom room: 6\n", "room-large", "leaves nothing", "0.5 mm");
    warn("    bottom room: 3\n", "room-large", "takes much", "0.5 mm");
}

static void clearances_out_of_range_are_thought_over(void **state)
{
    (void)state;
    warn("    clearance: 0\n", "clearance-small", "will not go in by hand", "0.2 mm");
    warn("    clearance: 0.8\n", "clearance-large", "rocks", "0.2 mm");
    warn("    fit: glued\n    clearance: 0.8\n", "clearance-large", "glue does not fill it", "0.1 mm");
}

static void places_off_or_near_an_end_are_refused(void **state)
{
    (void)state;
    refuse("    at: 3\n", "housing-off-piece", "runs 3.6 mm past the end", "between 19.8 mm and 440.2 mm");
    refuse("    at: 8\n", "relish-short", "only 1.4 mm", "between");
    warn("    at: 15\n", "relish-short", "short grain", "over length");
    refuse("    at: 459\n", "housing-off-piece", "runs 5.6 mm past the end", "between");
}

static void housings_that_meet_are_refused(void **state)
{
    (void)state;
    plan_with(1, 2, "    ends: left\n    at: [100, 110]\n");
    expect("housings-meet", TW_HALT, "runs into another of this joint", "farther apart");
    tw_arena_finish(&p.arena);
    plan_with(1, 2, "    ends: left\n    at: [100, 118]\n");
    expect("housings-meet", TW_CARE, "only 4.8 mm of wood", "farther apart");
    tw_arena_finish(&p.arena);
    plan_with(1, 2, "    ends: left\n    at: [100, 130]\n");
    assert_null(finding(&p, "housings-meet"));
}

/* From both sides of one piece: 19 - 2 x 6 = 7 stay, more than a third; 19 - 2 x 8 = 3 do not; 8 + 11 meet. */
static void opposite_housings_must_leave_a_web(void **state)
{
    (void)state;
    static const struct { int one, other; bool found; tw_level level; } cases[] = { { 6, 6, false, TW_NOTE }, { 8, 8, true, TW_CARE }, { 8, 11, true, TW_HALT } };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[2048];
        snprintf(text, sizeof text, "job: test\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: 78, thickness: 19}\n  a: {count: 1, length: 371, width: 78, thickness: 13}\n"
                 "  b: {count: 1, length: 371, width: 78, thickness: 13}\njoints:\n  one: {kind: housing, housed: a, ends: left, into: side, from: face, at: 100, depth: %d}\n"
                 "  other: {kind: housing, housed: b, ends: left, into: side, from: back, at: 100, depth: %d}\n", cases[i].one, cases[i].other);
        plan_text(text, SHOP_MM);
        if (cases[i].found) expect("housings-meet", cases[i].level, "the one of one", "not opposite");
        else assert_null(finding(&p, "housings-meet"));
        tw_arena_finish(&p.arena);
    }
}

static void stops_that_are_not_there_or_leave_nothing_are_refused(void **state)
{
    (void)state;
    refuse("    stop: back\n", "stop-side", "no end at the back", "`stop: face edge`");
    refuse("    stop: face edge\n    stop short: 70\n", "stop-long", "a housing 8.0 mm long", "12 mm");
    refuse("    stop: both\n    stop short: 33\n    stopped end: chisel\n", "stop-long", "12.0 mm long", "12 mm");
    warn("    stop: face edge\n    stop short: 40\n    stopped end: chisel\n", "notch-long", "only 37.0 mm of the 78.0 mm", "a shorter stop");
    warn("    stop short: 12\n", "key-idle", "no meaning", "leave");
    warn("    stopped end: chisel\n", "key-idle", "no meaning", "leave");
}

static void a_shelf_narrower_than_its_housing_is_seen(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: 78, thickness: 19}\n  shelf: {count: 1, length: 371, width: 60, thickness: 13}\njoints:\n"
              SHELF_IN_SIDE "    ends: left\n    at: 100\n    across: 48\n", SHOP_MM);
    expect("housing-shows", TW_CARE, "ends 18.0 mm in from the face edge of side", "`stop short: 18.0 mm`");
    tw_arena_finish(&p.arena);
    plan_left("    across: 45\n");
    expect("housed-overhangs", TW_CARE, "stands 6.0 mm over the back edge", "another `across`");
    tw_arena_finish(&p.arena);
    plan_left("    across: 200\n");
    expect("housed-off-piece", TW_HALT, "does not lie over", "39.0 mm");
    assert_int_equal(p.plans[0].work_count, 0);
}

static void ends_and_counts_are_held_to_each_other(void **state)
{
    (void)state;
    plan_with(1, 3, "    at: 100\n");
    expect("counts-differ", TW_HALT, "of ends is 6 (3 x shelf, 2 each), of housings 1", "look at the counts");
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: 78, thickness: 19}\n  shelf: {count: 1, length: 371, width: 78, thickness: 13}\njoints:\n"
              "  one: {kind: housing, housed: shelf, ends: left, into: side, from: face, at: 100}\n  two: {kind: housing, housed: shelf, ends: left, into: side, from: face, at: 200}\n", SHOP_MM);
    expect("end-taken", TW_HALT, "already housed by one", "another end");
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: 78, thickness: 19}\n  shelf: {count: 1, length: 371, width: 78, thickness: 13}\njoints:\n"
              "  one: {kind: housing, housed: shelf, ends: left, into: side, from: left end, at: 100}\n", SHOP_MM);
    expect("from-end", TW_HALT, "short grain", "a face or an edge");
    assert_int_equal(p.plans[0].cut_count, 0);
}

static void a_piece_too_short_for_its_ends_is_refused(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 2, length: 460, width: 78, thickness: 19}\n  shelf: {count: 1, length: 12, width: 78, thickness: 13}\njoints:\n" SHELF_IN_SIDE "    at: 100\n", SHOP_MM);
    expect("body-short", TW_HALT, "only 0.0 mm is left", "a longer piece");
    assert_int_equal(p.plans[0].cut_count, 0);
}

static void tools_that_do_not_serve_are_refused(void **state)
{
    (void)state;
    refuse("    cutter: none such\n", "cutter-unknown", "no cutter named none such", "list of cutters");
    refuse("    by: guides\n    follower: none such\n", "follower-unknown", "no follower named none such", "list");
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: 78, thickness: 19}\n  shelf: {count: 1, length: 371, width: 78, thickness: 7}\njoints:\n"
              SHELF_IN_SIDE "    ends: left\n    at: 100\n    by: copy\n", SHOP_MM);
    expect("cutter-none", TW_HALT, "no cutter of at most 7.2 mm", "`by: saw`");
    assert_int_equal(finding(&p, "cutter-none")->place.line, 14);
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: 78, thickness: 19}\n  shelf: {count: 1, length: 371, width: 78, thickness: 10}\njoints:\n"
              SHELF_IN_SIDE "    ends: left\n    at: 100\n    cutter: long twelve\n", SHOP_MM);
    expect("cutter-wide", TW_HALT, "12.7 mm wide, the housing only 10.2 mm", "a smaller cutter");
    assert_int_equal(p.plans[0].work_count, 0);
}

/* ---- laws ---- */

typedef struct law_case { char text[2048]; double w, t, depth, room, c; } law_case;

static void seeded_job(check_seed *seed, law_case *one)
{
    static const char *const froms[] = { "face", "back", "face edge", "back edge" }, *const ends[] = { "left end", "right end" };
    int from = (int)(check_random(seed) % 4), stop = (int)(check_random(seed) % 4);
    const char *low = from < 2 ? "face edge" : "back", *high = from < 2 ? "back edge" : "face";
    const char *stops[] = { "none", low, high, "both" };
    double thick = check_between(seed, 62, 90), wide = check_between(seed, 62, 90), across = from < 2 ? wide : thick;
    one->t = check_between(seed, 9, 14);
    one->depth = check_between(seed, 5, 12);
    one->c = check_between(seed, 0.1, 0.4);
    one->room = check_between(seed, 0.1, 0.9);
    snprintf(one->text, sizeof one->text, "job: law\nunits: mm\npieces:\n  side: {count: 1, length: 460, width: %.6f, thickness: %.6f}\n  shelf: {count: 1, length: 300, width: %.6f, thickness: %.6f}\njoints:\n"
        "  j:\n    kind: housing\n    housed: shelf\n    into: side\n    ends: %s\n    from: %s\n    at: %.6f\n    across: %.6f\n    face to: %s\n    stop: %s\n    depth: %.6f\n    clearance: %.6f\n    bottom room: %.6f\n    stopped end: %s\n",
        wide, thick, across - check_between(seed, 0, 3), one->t, check_random(seed) % 2 ? "left" : "right", froms[from], check_between(seed, 60, 400), across / 2.0 + check_between(seed, -1, 1),
        ends[check_random(seed) % 2], stops[stop], one->depth, one->c, one->room, check_random(seed) % 2 ? "chisel" : "notch");
}

static void housings_and_ends_fill_each_other_but_for_the_clearance(void **state)
{
    (void)state;
    check_seed seed = { 20 };
    for (int i = 0; i < 60; i++) {
        law_case one;
        seeded_job(&seed, &one);
        plan_text(one.text, SHOP_MM);
        if (tw_findings_have(&p.findings, TW_HALT)) fail_msg("halted:\n%s", one.text);
        assert_int_equal(p.plans[0].meeting_count, 1);
        tw_block box = around_cut(&p, 0, 0, 0, 2.0);
        check_joined(&p, 0, &p.plans[0].meetings[0], box, (tw_spot){ 1, 0, 0 }, one.c / 2.0, tw_plan_find(&p.plans[0], "notch") ? 0.0 : one.room, 100 + (uint64_t)i);
        tw_arena_finish(&p.arena);
    }
}

/* Trench: w x depth x length, less what the round corners keep, (1 - pi/4) of a square of the radius at each; notch: l x n x t. */
static void volumes_are_those_of_the_closed_forms(void **state)
{
    (void)state;
    plan_left("    stop: back edge\n    fit: glued\n");
    double r = 12.7 / 2.0, trench = (13.1 * 66.0 - 2.0 * (1.0 - TW_PI / 4.0) * r * r) * 6.0;
    CHECK_NEAR(cut_volume(&p, 0, 0), trench, 1e-6);
    CHECK_NEAR(cut_volume(&p, 0, 1), 5.5 * 19.35 * 13.0, 1e-6);
    // empty in the trench's own box: beside both faces, under the end, past the notch's line, less the corners' wood
    tw_block box = around_cut(&p, 0, 0, 0, 0.0);
    clash c = look_in(&p, 0, &p.plans[0].meetings[0], (tw_spot){ 0, 0, 0 }, box, 200000, 5);
    double held = (78.0 - 19.35) * 13.0 * 5.5;
    CHECK_NEAR((double)c.neither / c.points * block_volume(box), trench - held, 0.02 * trench);
}

static void odd_sizes_are_halted_or_make_a_sane_plan(void **state)
{
    (void)state;
    static const char *const froms[] = { "face", "back", "face edge", "back edge" }, *const ends[] = { "left", "right", "both" }, *const bys[] = { "copy", "guides", "saw" };
    static const char *const stops[] = { "none", "face", "back", "face edge", "back edge", "both" };
    check_seed seed = { 77 };
    int good = 0;
    for (int i = 0; i < 600; i++) {
        char text[2048], more[512] = "";
        double length = check_size(&seed, 100, 2000);
        for (int k = 0; k < 5; k++) {
            static const char *const keys[] = { "depth", "stop short", "across", "bottom room", "clearance" };
            static const double most[] = { 60, 200, 400, 10, 5 };
            if (check_random(&seed) % 3 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    %s: %.4f\n", keys[k], check_size(&seed, 0.01, most[k]));
        }
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), "    by: %s\n", bys[check_random(&seed) % 3]);
        snprintf(text, sizeof text, "job: odd\nunits: mm\nfigures: %s\npieces:\n  side: {count: %d, length: %.4f, width: %.4f, thickness: %.4f}\n  shelf: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\njoints:\n"
                 "  shelf in side:\n    kind: housing\n    housed: shelf\n    into: side\n    from: %s\n    ends: %s\n    at: %.4f\n    stop: %s\n    face to: %s\n    stopped end: %s\n%s", i % 2 ? "mm 0.1" : "in 1/64", (int)(check_random(&seed) % 2) + 1, length, check_size(&seed, 10, 400),
                 check_size(&seed, 3, 80), check_size(&seed, 10, 2000), check_size(&seed, 10, 400), check_size(&seed, 1, 60), froms[check_random(&seed) % 4], ends[check_random(&seed) % 3], check_between(&seed, 1, length * 1.05),
                 stops[check_random(&seed) % 6], i % 3 ? "right end" : "left end", i % 5 ? "notch" : "chisel", more);
        plan_text(text, SHOP_MM);
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
    static const char *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" }, *const stops[] = { "none", "face edge", "both" };
    for (int i = 0; i < 24; i++) {
        char text[4096];
        int wide = i / 12 ? 240 : 70;
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  the side that stands nearest to the window sill of the long: {count: 1, length: 900, width: %d, thickness: 19}\n"
                 "  the shelf that carries the heaviest of the jars of the dyer: {count: 1, length: 371, width: %d, thickness: 13}\njoints:\n  shelf in side:\n    kind: housing\n    housed: the shelf that carries the heaviest of the jars of the dyer\n"
                 "    into: the side that stands nearest to the window sill of the long\n    ends: left\n    from: face\n    at: 300\n    stop: %s\n", figures[i % 4], wide, wide - i % 2 * 5, stops[i / 4 % 3]);
        plan_text(text, SHOP_MM);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        check_drawing(&p, 0);
        tw_arena_finish(&p.arena);
    }
}

int main(void)
{
#define CASE(name) cmocka_unit_test_teardown(name, finish)
    const struct CMUnitTest tests[] = {
        CASE(a_through_housing_in_millimetres_has_the_proportions_worked_by_hand),
        CASE(a_stopped_housing_is_notched_past_the_round_corners),
        CASE(a_stopped_end_that_is_chopped_square_needs_a_shorter_notch),
        CASE(inches_have_round_figures_of_their_own),
        CASE(a_pair_of_sides_has_its_notches_at_the_same_edge_of_the_shelf),
        CASE(a_left_and_a_right_side_share_template_and_height_and_change_hands),
        CASE(places_alike_from_both_ends_share_one_setup_when_the_housing_runs_through),
        CASE(one_of_two_alike_sides_is_turned_end_for_end_when_its_places_allow_it),
        CASE(two_alike_sides_whose_places_are_not_alike_cannot_be_stopped_at_one_edge),
        CASE(wide_sides_are_routed_between_guides),
        CASE(a_housing_that_no_cutter_makes_is_sawn),
        CASE(every_work_follows_those_of_the_layer_before),
        CASE(depths_out_of_range_are_refused_or_thought_over),
        CASE(clearances_out_of_range_are_thought_over),
        CASE(places_off_or_near_an_end_are_refused),
        CASE(housings_that_meet_are_refused),
        CASE(opposite_housings_must_leave_a_web),
        CASE(stops_that_are_not_there_or_leave_nothing_are_refused),
        CASE(a_shelf_narrower_than_its_housing_is_seen),
        CASE(ends_and_counts_are_held_to_each_other),
        CASE(a_piece_too_short_for_its_ends_is_refused),
        CASE(tools_that_do_not_serve_are_refused),
        CASE(housings_and_ends_fill_each_other_but_for_the_clearance),
        CASE(volumes_are_those_of_the_closed_forms),
        CASE(odd_sizes_are_halted_or_make_a_sane_plan),
        CASE(drawings_keep_texts_apart_at_the_longest_names_and_finest_fractions),
    };
    return cmocka_run_group_tests_name("housing", tests, NULL, NULL);
}
