// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross laps and edge laps by figures worked by hand, refusals, and laws over seeded joints. Each takes half of the thinner
 * piece: common practice. */
#include "joined.h"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_text(const char *text)
{
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

#define BRACE_AND_RAIL "job: test\nunits: mm\nfigures: mm 0.1\npieces:\n  brace: {count: 1, length: 900, width: 52, thickness: 24}\n  rail: {count: 1, length: 800, width: 60, thickness: 30}\njoints:\n" \
    "  brace over rail:\n    kind: cross lap\n    over: brace\n    under: rail\n"

/* Lines that stand before places of their own are kept; else both cross at 400. */
static void plan_cross(const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, BRACE_AND_RAIL "%s%s%s", strstr(more, "over at") ? "" : "    over at: 400\n", strstr(more, "under at") ? "" : "    under at: 400\n", more);
    plan_text(text);
}

static void plan_edge(const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: mm 0.1\npieces:\n  upper: {count: 2, length: 400, width: 60, thickness: 13}\n  lower: {count: 2, length: 420, width: 60, thickness: 14}\njoints:\n"
             "  grid:\n    kind: edge lap\n    over: upper\n    over at: [130, 270]\n    under: lower\n    under at: [140, 280]\n%s", more);
    plan_text(text);
}

static void expect(const char *code, tw_level level, const char *what, const char *remedy)
{
    expect_finding(&p, code, level, what, remedy);
}

static void refuse(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_cross(more);
    expect(code, TW_HALT, what, remedy);
    tw_arena_finish(&p.arena);
}

static void warn(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_cross(more);
    expect(code, TW_CARE, what, remedy);
    assert_true(p.plans[0].work_count > 0);
    tw_arena_finish(&p.arena);
}

static const tw_work *work_named(const char *name) { return work_of(&p, name); }

/* ---- proportions ---- */

/* Brace 52 x 24 over rail 60 x 30: half of 24 each; notches 60 + 0.2 and 52 + 0.2; level above, rail 6 proud below;
 * left 12 of 24 keeps (1/2)^2, 18 of 30 keeps (3/5)^2 of the bending strength. */
static void a_square_crossing_takes_half_of_the_thinner_piece_from_both(void **state)
{
    (void)state;
    plan_cross("");
    CHECK_NEAR(figure(&p, 0, "over_depth"), 12.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_depth"), 12.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "over_notch"), 60.2, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_notch"), 52.2, 1e-9);
    CHECK_NEAR(figure(&p, 0, "proud"), 0.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_proud"), 6.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "over_strength"), 0.25, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_strength"), 0.36, 1e-9);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* At 60 degrees: 60.2 / sin 60 = 69.513, 52.2 / sin 60 = 60.275. */
static void a_crossing_at_an_angle_is_longer_along_each_piece(void **state)
{
    (void)state;
    plan_cross("    angle: 60 deg\n");
    CHECK_NEAR(figure(&p, 0, "over_span"), 69.513, 1e-3);
    CHECK_NEAR(figure(&p, 0, "under_span"), 60.275, 1e-3);
    // corners of the notch in the brace: the rail's strip leans 26 / tan 60 = 15.011 to each side
    const tw_cut *cut = &p.plans[0].cuts[0];
    tw_box box = tw_outline_bounds(cut->outline);
    CHECK_NEAR(box.x1 - 400.0, 69.513 / 2.0 + 15.011, 1e-3);
    CHECK_NEAR(box.y1 - box.y0, 52.0, 1e-9);
    CHECK_NEAR(tw_outline_area_mm2(cut->outline), 69.513 * 52.0, 0.05);
}

/* Dividers 60 high: (60 + 0.5)/2 each; notches 14 + 0.2 and 13 + 0.2; level at both edges. */
static void an_edge_lap_takes_half_of_the_height_from_both(void **state)
{
    (void)state;
    plan_edge("");
    CHECK_NEAR(figure(&p, 0, "over_depth"), 30.25, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_depth"), 30.25, 1e-9);
    CHECK_NEAR(figure(&p, 0, "over_notch"), 14.2, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_notch"), 13.2, 1e-9);
    CHECK_NEAR(figure(&p, 0, "proud"), 0.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_proud"), 0.0, 1e-9);
    assert_int_equal(p.plans[0].count, 4);
    assert_int_equal(p.plans[0].meeting_count, 4);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
}

/* 3/4 in over 1 in: half of 3/4 in; 0.008 in of clearance. */
static void inches_have_round_figures_of_their_own(void **state)
{
    (void)state;
    plan_text("job: test\nunits: in\nfigures: in 1/64\npieces:\n  brace: {count: 1, length: 30, width: 2, thickness: 3/4}\n  rail: {count: 1, length: 30, width: 2 1/2, thickness: 1}\njoints:\n"
              "  j: {kind: cross lap, over: brace, over at: 15, under: rail, under at: 12}\n");
    CHECK_NEAR(figure(&p, 0, "over_depth"), 0.375 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "over_notch"), 2.508 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "under_proud"), 0.25 * 25.4, 1e-9);
}

static void one_depth_that_is_given_settles_the_other(void **state)
{
    (void)state;
    plan_cross("    under depth: 10\n");
    CHECK_NEAR(figure(&p, 0, "over_depth"), 14.0, 1e-9);
    assert_null(finding(&p, "lap-not-level"));
}

/* ---- cuts and work ---- */

/* The notch is alike turned by half a turn, at any angle: no hand, and places alike from both ends share one setup. */
static void a_notch_at_an_angle_serves_both_ends_when_the_piece_is_turned(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  brace: {count: 2, length: 700, width: 40, thickness: 24}\n  rail: {count: 2, length: 800, width: 40, thickness: 24}\njoints:\n"
              "  j: {kind: cross lap, over: brace, over at: [150, 550], under: rail, under at: [200, 600], angle: 70 deg}\n");
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    const tw_work *brace = work_named("notches in brace"), *rail = work_named("notches in rail");
    assert_non_null(brace);
    assert_non_null(rail);
    assert_int_equal(brace->count, 4);
    assert_int_equal(brace->hand, TW_HAND_NONE);
    tw_outline turned = tw_outline_turned(&p.arena, brace->copy.cut, TW_PI);
    CHECK_NEAR(tw_outline_difference_mm(&p.arena, turned, brace->copy.cut), 0.0, 1e-9);
    CHECK_NEAR(tw_outline_difference_mm(&p.arena, rail->copy.cut, brace->copy.cut), 0.0, 1e-9);  // one template for both
    CHECK_NEAR(brace->copy.overhang_low_mm, 12.7, 1e-9);
}

/* A cutter cuts at most 63 deep; boards 200 high want notches of 100.25: bandsaw and chisel, and nothing copied. */
static void deep_edge_notches_are_sawn(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  upper: {count: 1, length: 700, width: 200, thickness: 18}\n  lower: {count: 1, length: 700, width: 200, thickness: 18}\njoints:\n"
              "  j: {kind: edge lap, over: upper, over at: 300, under: lower, under at: 300}\n");
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(work_named("walls of the notches in upper")->way, TW_WAY_BANDSAW);
    const tw_work *bottom = work_named("bottoms of the notches in lower");
    CHECK_NEAR(bottom->measure_mm, 100.25, 1e-9);
    for (size_t i = 0; i < p.plans[0].work_count; i++) assert_false(p.plans[0].works[i].copied);
    bool follows = false;
    for (int k = 0; k < bottom->after_count; k++) follows = follows || &p.plans[0].works[bottom->after[k]] == work_named("walls of the notches in lower");
    assert_true(follows);
}

static void broad_laps_that_are_to_be_sawn_say_how_far_the_gauge_is_set_over(void **state)
{
    (void)state;
    plan_cross("    by: saw\n    angle: 60 deg\n    fit: glued\n");
    assert_int_equal(work_named("walls of the notches in brace")->way, TW_WAY_SAW);
    CHECK_HOLDS(work_named("walls of the notches in brace")->what, "set over by 30.0°");
    CHECK_HOLDS(work_named("walls of the notches in brace")->cautions, "both hands on the gauge");
    assert_non_null(work_named("glue up"));
    assert_true(p.plans[0].meetings[0].for_good);
}

/* ---- refusals and cares ---- */

static void depths_that_leave_too_little_are_refused_or_thought_over(void **state)
{
    (void)state;
    refuse("    over depth: 24\n", "lap-deep", "cuts brace in two", "half: 12.0 mm");
    refuse("    over depth: 22\n", "lap-deep", "leaves only 2.0 mm of brace", "half: 12.0 mm");
    warn("    over depth: 16\n", "lap-deep", "8.0 mm is left, with 11 % of its strength", "half: 12.0 mm");
    refuse("    under depth: 24\n", "lap-shallow", "0.0 mm deep in brace is none", "half: 12.0 mm");
    warn("    over depth: 10\n    under depth: 10\n", "lap-not-level", "brace stands 4.0 mm proud above and 10.0 mm shy below", "add up to 24.0 mm");
    refuse("    room: 20\n    over depth: 8\n    under depth: 8\n", "lap-shallow", "do not let the pieces into each other", "add up to 44.0 mm");
}

static void places_off_or_near_an_end_are_refused(void **state)
{
    (void)state;
    refuse("    over at: 20\n", "lap-off-piece", "runs 10.1 mm past the end of brace", "between 40.1 mm and 859.9 mm");
    refuse("    over at: 32\n", "relish-short", "only 1.9 mm of brace", "between");
    warn("    over at: 37\n", "relish-short", "short grain", "between");
    refuse("    under at: 799\n", "lap-off-piece", "past the end of rail", "between");
    // at an angle the notch reaches farther: 69.5/2 + 15.0 = 49.8
    plan_cross("    angle: 60 deg\n    over at: 45\n");
    expect("lap-off-piece", TW_HALT, "runs 4.8 mm past the end of brace", "between");
    assert_int_equal(p.plans[0].work_count, 0);
}

static void notches_that_meet_are_refused(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  brace: {count: 1, length: 900, width: 52, thickness: 24}\n  rail: {count: 2, length: 800, width: 60, thickness: 30}\njoints:\n"
              "  j: {kind: cross lap, over: brace, over at: [300, 355], under: rail, under at: 400}\n");
    expect("laps-meet", TW_HALT, "runs into another of this joint", "farther apart");
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  brace: {count: 1, length: 900, width: 52, thickness: 24}\n  rail: {count: 2, length: 800, width: 60, thickness: 30}\njoints:\n"
              "  j: {kind: cross lap, over: brace, over at: [300, 365], under: rail, under at: 400}\n");
    expect("laps-meet", TW_CARE, "only 4.8 mm of wood", "66.2 mm apart");
}

/* From both sides of one piece at one place: 30 - 12 - 18 leaves nothing. */
static void notches_from_both_sides_must_leave_a_web(void **state)
{
    (void)state;
    const char *const head = "job: test\nunits: mm\npieces:\n  brace: {count: 1, length: 900, width: 52, thickness: 24}\n  other: {count: 1, length: 900, width: 52, thickness: 24}\n"
        "  rail: {count: 1, length: 800, width: 60, thickness: 30}\njoints:\n  j: {kind: cross lap, over: brace, over at: 400, under: rail, under at: 400}\n";
    char text[2048];
    snprintf(text, sizeof text, "%s  k: {kind: cross lap, over: other, over at: 400, under: rail, under at: 410, under side: back, under depth: 18}\n", head);
    plan_text(text);
    expect("laps-meet", TW_HALT, "from the other side: 0.0 mm is left", "farther apart");
    tw_arena_finish(&p.arena);
    snprintf(text, sizeof text, "%s  k: {kind: cross lap, over: other, over at: 400, under: rail, under at: 500, under side: back, under depth: 18}\n", head);
    plan_text(text);
    assert_null(finding(&p, "laps-meet"));
}

static void acute_loose_tight_and_wide_crossings_are_thought_over(void **state)
{
    (void)state;
    warn("    angle: 30 deg\n    by: saw\n", "lap-acute", "crossing at 30.0°", "45 to 135 degrees");
    warn("    angle: 150 deg\n    by: saw\n", "lap-acute", "crossing at 150.0°", "45 to 135 degrees");
    warn("    clearance: 0\n", "clearance-small", "will not go together by hand", "0.2 mm");
    warn("    clearance: 0.9\n", "clearance-large", "rattles", "0.2 mm");
    plan_text("job: test\nunits: mm\npieces:\n  brace: {count: 1, length: 900, width: 90, thickness: 24}\n  rail: {count: 1, length: 800, width: 60, thickness: 30}\njoints:\n"
              "  j: {kind: cross lap, over: brace, over at: 400, under: rail, under at: 400, fit: glued, by: saw}\n");
    expect("glued-wide", TW_CARE, "90.0 mm is glued across the grain", "75.0 mm");
}

static void counts_that_do_not_agree_are_refused(void **state)
{
    (void)state;
    plan_cross("    over at: [200, 400]\n");
    expect("counts-differ", TW_HALT, "notches is 2 in brace (1, 2 each), and 1 in rail (1, 1 each)", "look at the counts");
}

static void tools_that_do_not_serve_are_refused_at_their_place(void **state)
{
    (void)state;
    refuse("    cutter: none such\n", "cutter-unknown", "no cutter named none such", "list of cutters");
    plan_text("job: test\nunits: mm\npieces:\n  upper: {count: 1, length: 700, width: 200, thickness: 18}\n  lower: {count: 1, length: 700, width: 200, thickness: 18}\njoints:\n"
              "  j:\n    kind: edge lap\n    over: upper\n    over at: 300\n    under: lower\n    under at: 300\n    by: copy\n");
    expect("cutter-none", TW_HALT, "100.2 mm deep, for the notch in upper", "`by: saw`");
    assert_int_equal(finding(&p, "cutter-none")->place.line, 13);
    assert_int_equal(p.plans[0].work_count, 0);
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  upper: {count: 1, length: 400, width: 60, thickness: 10}\n  lower: {count: 1, length: 400, width: 60, thickness: 10}\njoints:\n"
              "  j: {kind: edge lap, over: upper, over at: 200, under: lower, under at: 200, cutter: long twelve}\n");
    expect("cutter-wide", TW_HALT, "12.7 mm wide, the notch in upper only 10.2 mm", "a smaller cutter");
}

/* ---- laws ---- */

static double seeded_job(check_seed *seed, bool edge, double *angle, char *text, size_t size)
{
    static const char *const broad[] = { "face", "back" }, *const edges[] = { "face edge", "back edge" };
    const char *const *sides = edge ? edges : broad;
    double c = check_between(seed, 0.1, 0.4);
    *angle = check_random(seed) % 3 ? check_between(seed, 40, 140) : 90.0;
    snprintf(text, size, "job: law\nunits: mm\npieces:\n  one: {count: 1, length: 600, width: %.6f, thickness: %.6f}\n  two: {count: 1, length: 700, width: %.6f, thickness: %.6f}\njoints:\n"
        "  j: {kind: %s, over: one, over at: %.6f, under: two, under at: %.6f, angle: %.6f deg, clearance: %.6f, room: %.6f, over side: %s, under side: %s}\n",
        check_between(seed, 40, 70), check_between(seed, 20, 34), check_between(seed, 40, 70), check_between(seed, 20, 34), edge ? "edge lap" : "cross lap", check_between(seed, 200, 400),
        check_between(seed, 200, 500), *angle, c, check_between(seed, 0.1, 0.9), sides[check_random(seed) % 2], sides[check_random(seed) % 2]);
    return c;
}

/* Sideways: square to the walls of the notch in the base, in its notched side. */
static tw_spot across_the_walls(const tw_meeting *m) { return tw_spot_cross(m->leaves, m->pose.x); }

static void crossing_pieces_fill_each_other_but_for_the_clearance(void **state)
{
    (void)state;
    check_seed seed = { 31 };
    for (int i = 0; i < 60; i++) {
        char text[2048];
        double angle, c = seeded_job(&seed, i % 2, &angle, text, sizeof text);
        plan_text(text);
        if (tw_findings_have(&p.findings, TW_HALT)) fail_msg("halted:\n%s", text);
        const tw_meeting *m = &p.plans[0].meetings[0];
        CHECK_NEAR(acos(m->pose.x.x), tw_radians(angle), 1e-6);
        tw_block box = around_cut(&p, 0, 1, 0, 3.0);
        check_joined(&p, 0, m, box, across_the_walls(m), c / 2.0, figure(&p, 0, "room"), 300 + (uint64_t)i);
        tw_arena_finish(&p.arena);
    }
}

/* Each notch: own width x (other's width + c) / sin(angle) x depth. */
static void volumes_are_those_of_the_closed_forms(void **state)
{
    (void)state;
    plan_cross("    angle: 1:1\n    clearance: 0.3\n    room: 1\n");  // a slope of 1:1 is 45 degrees
    CHECK_NEAR(cut_volume(&p, 0, 0), 52.0 * 60.3 * sqrt(2.0) * 12.5, 1e-6);
    CHECK_NEAR(cut_volume(&p, 0, 1), 60.0 * 52.3 * sqrt(2.0) * 12.5, 1e-6);
}

/* A grid: every piece over crosses every piece under at its own place, and all of them lie in one plane. */
static void the_meetings_of_a_grid_lie_at_their_places(void **state)
{
    (void)state;
    plan_edge("");
    const double over_at[] = { 130, 270 }, under_at[] = { 140, 280 };
    for (size_t i = 0; i < p.plans[0].meeting_count; i++) {
        const tw_meeting *m = &p.plans[0].meetings[i];
        // the middle of the over piece's notch, in its thickness, lies at the under piece's place: over's face edge down, z across
        tw_spot home = tw_pose_apply(m->pose, (tw_spot){ over_at[m->mover_place], 0.0, 6.5 });
        CHECK_NEAR(home.x, under_at[m->place], 1e-9);
        CHECK_NEAR(home.z, 7.0, 1e-9);
        CHECK_NEAR(home.y, 0.0, 1e-9);  // lower edges level: the under piece's face edge is at 0
        CHECK_NEAR(m->travel_mm, 60.0, 1e-9);
    }
}

static void odd_sizes_are_halted_or_make_a_sane_plan(void **state)
{
    (void)state;
    static const char *const bys[] = { "copy", "saw" };
    check_seed seed = { 78 };
    int good = 0;
    for (int i = 0; i < 600; i++) {
        char text[2048], more[512] = "";
        for (int k = 0; k < 4; k++) {
            static const char *const keys[] = { "over depth", "under depth", "room", "clearance" };
            static const double most[] = { 80, 80, 20, 5 };
            if (check_random(&seed) % 3 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), ", %s: %.4f", keys[k], check_size(&seed, 0.01, most[k]));
        }
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), ", by: %s", bys[check_random(&seed) % 2]);
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), ", angle: %.3f deg", check_between(&seed, 15.0, 165.0));
        snprintf(text, sizeof text, "job: odd\nunits: mm\nfigures: %s\npieces:\n  one: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\n  two: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\njoints:\n"
                 "  j: {kind: %s, over: one, over at: %.4f, under: two, under at: %.4f%s}\n", i % 2 ? "mm 0.1" : "in 1/64", check_size(&seed, 100, 2000), check_size(&seed, 5, 300), check_size(&seed, 2, 80),
                 check_size(&seed, 100, 2000), check_size(&seed, 5, 300), check_size(&seed, 2, 80), i % 4 / 2 ? "edge lap" : "cross lap", check_size(&seed, 40, 1000), check_size(&seed, 40, 1000), more);
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
    static const char *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" };
    static const double angles[] = { 90, 64, 121, 40 };
    for (int i = 0; i < 32; i++) {
        char text[4096];
        bool edge = i / 16;
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  the brace that rises behind the nets of the keeper of the we: {count: 1, length: 900, width: 52, thickness: 24}\n"
                 "  the brace that falls behind the nets of the keeper of the we: {count: 1, length: 900, width: %d, thickness: %d}\njoints:\n  j:\n    kind: %s\n"
                 "    over: the brace that rises behind the nets of the keeper of the we\n    over at: 400\n    under: the brace that falls behind the nets of the keeper of the we\n    under at: 400\n    angle: %g deg\n    by: saw\n",
                 figures[i % 4], i % 2 ? 60 : 52, i % 3 ? 30 : 24, edge ? "edge lap" : "cross lap", angles[i / 4 % 4]);
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
        CASE(a_square_crossing_takes_half_of_the_thinner_piece_from_both),
        CASE(a_crossing_at_an_angle_is_longer_along_each_piece),
        CASE(an_edge_lap_takes_half_of_the_height_from_both),
        CASE(inches_have_round_figures_of_their_own),
        CASE(one_depth_that_is_given_settles_the_other),
        CASE(a_notch_at_an_angle_serves_both_ends_when_the_piece_is_turned),
        CASE(deep_edge_notches_are_sawn),
        CASE(broad_laps_that_are_to_be_sawn_say_how_far_the_gauge_is_set_over),
        CASE(depths_that_leave_too_little_are_refused_or_thought_over),
        CASE(places_off_or_near_an_end_are_refused),
        CASE(notches_that_meet_are_refused),
        CASE(notches_from_both_sides_must_leave_a_web),
        CASE(acute_loose_tight_and_wide_crossings_are_thought_over),
        CASE(counts_that_do_not_agree_are_refused),
        CASE(tools_that_do_not_serve_are_refused_at_their_place),
        CASE(crossing_pieces_fill_each_other_but_for_the_clearance),
        CASE(volumes_are_those_of_the_closed_forms),
        CASE(the_meetings_of_a_grid_lie_at_their_places),
        CASE(odd_sizes_are_halted_or_make_a_sane_plan),
        CASE(drawings_keep_texts_apart_at_the_longest_names_and_finest_fractions),
    };
    return cmocka_run_group_tests_name("laps", tests, NULL, NULL);
}
