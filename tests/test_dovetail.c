// SPDX-License-Identifier: GPL-3.0-or-later
/* Through dovetails by figures worked by hand, refusals, laws over seeded joints, boxes that close in space, templates and the
 * dovetail cutter's own shape against the gaps. Facts marked so are common practice: 1:8 in hardwood, 1:6 in softwood; pins a
 * third of the board; half pins no weaker than pins. Corners themselves are held in test_finger_joint. */
#include "joined.h"

#include "space/space.h"
#include "template/template.h"

#define BOX "job: test\nunits: mm\nfigures: mm 0.01\npieces:\n  long: {count: 2, length: 420, width: %s, thickness: %s, timber: \"%s\"}\n" \
    "  short: {count: 2, length: 260, width: %s, thickness: %s}\njoints:\n  corners:\n    kind: through dovetail\n    tails: long\n    into: short\n%s"
#define DOVETAILS "cutters:\n  flare: {diameter: 12.7, cutting length: 13, shank: 8, dovetail: 14 deg}\n  slim: {diameter: 9.525, cutting length: 10, shank: 6.35, dovetail: 8 deg}\n"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_text(const char *text)
{
    static const char plain[] = SHOP_MM;
    char shop[4096];
    const char *cutters = strstr(plain, "cutters:\n");
    assert_non_null(cutters);
    snprintf(shop, sizeof shop, "%.*s%s%s", (int)(cutters - plain), plain, DOVETAILS, cutters + strlen("cutters:\n"));
    p = planned_of(text, shop);
    plan(&p);
}

static void plan_box(const char *width, const char *thick, const char *into_thick, const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, BOX, width, thick, "Oak, white", width, into_thick, more);
    plan_text(text);
}

static void expect(const char *code, tw_level level, const char *what, const char *remedy) { expect_finding(&p, code, level, what, remedy); }

static void refuse(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_box("84", "12", "12", more);
    expect(code, TW_HALT, what, remedy);
    tw_arena_finish(&p.arena);
}

static void warn(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_box("84", "12", "12", more);
    expect(code, TW_CARE, what, remedy);
    assert_true(p.plans[0].work_count > 0);
    tw_arena_finish(&p.arena);
}

/* ---- proportions ---- */

/* 112 wide, 16 thick, by hand: no dovetail cutter is 16 long. q = 16/3 = 5.33, down to 5; h = 6; n = (112 - 12 + 5)/(32 + 5) =
 * 2.84, 3; tails (112 - 12 - 10)/3 = 30; at 1:8 each wall runs 2 over 16: root 26, pin 9 at its wide side. */
static void dovetails_by_hand_have_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_box("112", "16", "16", "");
    CHECK_NEAR(tan(figure(&p, 0, "angle")), 0.125, 1e-12);
    CHECK_NEAR(figure(&p, 0, "pin"), 5.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "half_pin"), 6.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "number"), 3.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "tail"), 30.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tail_root"), 26.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "pin_wide"), 9.0, 1e-9);
    assert_int_equal(work_that_is(&p, "tails of long")->way, TW_WAY_CHISEL);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* The same in pine, 1:6: each wall runs 2.667 over 16. */
static void softwood_gets_a_steeper_slope(void **state)
{
    (void)state;
    char text[4096];
    snprintf(text, sizeof text, BOX, "112", "16", "Pine, eastern white", "112", "16", "");
    plan_text(text);
    CHECK_NEAR(tan(figure(&p, 0, "angle")), 1.0 / 6.0, 1e-12);
    CHECK_NEAR(figure(&p, 0, "tail_root"), 30.0 - 2.0 * 16.0 / 6.0, 1e-9);
}

/* 84 wide, 12 thick: the cutter of 12.7 at 14 deg, tan = 0.249328 (table of tangents). q = 12.7 - 0.05 - 24 x 0.249328 = 6.66613;
 * the one of 9.525 is too short. h = q; n = (84 - q)/(24 + q) = 2.52, 3; tails (84 - 4q)/3 = 19.11183; root less 5.98387: 13.12796. */
static void copied_dovetails_take_pin_and_slope_from_the_cutter(void **state)
{
    (void)state;
    plan_box("84", "12", "12", "");
    CHECK_NEAR(figure(&p, 0, "angle"), 14.0 * TW_PI / 180.0, 1e-12);
    CHECK_NEAR(figure(&p, 0, "pin"), 6.66613, 1e-5);
    CHECK_NEAR(figure(&p, 0, "half_pin"), 6.66613, 1e-5);
    CHECK_NEAR(figure(&p, 0, "number"), 3.0, 0.0);
    CHECK_NEAR(figure(&p, 0, "tail"), 19.11183, 1e-5);
    CHECK_NEAR(figure(&p, 0, "tail_root"), 13.12796, 1e-5);
    CHECK_NEAR(figure(&p, 0, "pin_wide"), 12.65, 1e-9);  // the cutter, less half of the clearance
    const tw_work *tails = work_that_is(&p, "gaps between the tails of long"), *sockets = work_that_is(&p, "sockets of short");
    assert_string_equal(tails->copy.cutter, "flare");
    CHECK_NEAR(tails->copy.dovetail_rad, 14.0 * TW_PI / 180.0, 1e-12);
    assert_string_equal(sockets->copy.cutter, "nine five");
    CHECK_NEAR(sockets->copy.dovetail_rad, 0.0, 0.0);
    assert_int_equal(tails->copy.cut.count, 4);
    assert_int_equal(sockets->copy.cut.count, 3);
    CHECK_HOLDS(tails->cautions, "starts at full depth");
}

/* Boards 9 thick: q = 9.525 - 0.05 - 18 tan 8 deg (0.140541) = 6.94526 with the slim one; 12.7 - 0.05 - 18 x 0.249328 = 8.1621 with
 * the other. Half of 9 is 4.5: the slim one is nearer. */
static void of_two_cutters_that_serve_the_one_nearest_to_half_of_the_board_is_taken(void **state)
{
    (void)state;
    plan_box("84", "9", "9", "");
    assert_string_equal(work_that_is(&p, "gaps between the tails of long")->copy.cutter, "slim");
    CHECK_NEAR(figure(&p, 0, "pin"), 6.94526, 1e-5);
}

/* 50 wide, 12 the mate, 8 the board with tails: q = h = 6.67, (50 - q)/(16 + q) = 1.9, 2 tails of 15.0, roots 9.02, less the overrun of
 * the smallest cutter, 2 x 6 x 0.249328 = 2.99: 6.03 for a cutter of 8. So one tail. */
static void fewer_tails_are_made_where_no_cutter_goes_into_a_socket(void **state)
{
    (void)state;
    plan_box("50", "8", "12", "");
    CHECK_NEAR(figure(&p, 0, "number"), 1.0, 0.0);
    assert_non_null(work_of(&p, "sockets of short"));
    assert_false(tw_findings_have(&p.findings, TW_HALT));
}

/* 4 in wide, 1/2 in thick: hand, pin 1/6 in down to 5/32, and no less than 3/16; half pin 1/4. */
static void inches_have_round_figures_of_their_own(void **state)
{
    (void)state;
    plan_text("job: test\nunits: in\nfigures: in 1/64\npieces:\n  long: {count: 2, length: 16, width: 4, thickness: 1/2}\n  short: {count: 2, length: 10, width: 4, thickness: 1/2}\njoints:\n"
              "  corners: {kind: through dovetail, tails: long, into: short, by: saw}\n");
    CHECK_NEAR(figure(&p, 0, "pin"), 25.4 * 3.0 / 16.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "half_pin"), 25.4 / 4.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "clearance"), 25.4 * 0.004, 1e-9);
}

/* ---- templates ---- */

static bool in_any_gap(int piece, tw_face face, double x, double y, double *wall)
{
    bool in = false;
    *wall = 1e9;
    for (size_t c = 0; c < p.plans[0].cut_count; c++) {
        const tw_cut *cut = &p.plans[0].cuts[c];
        if (cut->piece != piece || cut->face != face) continue;
        in = in || tw_outline_side(cut->outline, (tw_point){ x, y }) > 0;
        for (int i = 0; i < 8; i++) {  // near a wall? looked at all round
            double a = i * TW_PI / 4.0;
            if ((tw_outline_side(cut->outline, (tw_point){ x, y }) > 0) != (tw_outline_side(cut->outline, (tw_point){ x + 0.06 * cos(a), y + 0.06 * sin(a) }) > 0)) *wall = 0.0;
        }
    }
    return in;
}

/* What the simulated cutters take, on the end of b over its whole thickness, on the roots of a over its width. Spots nearer to a
 * wall than 0.06 are left out: a slot as narrow as the follower gets play. */
static void templates_achieve_sockets_and_gaps(void **state)
{
    (void)state;
    static const char *const mores[] = { "", "    faces: in\n", "    proud: 0.5\n    number: 2\n" };
    for (int k = 0; k < 3; k++) {
        plan_box("84", "12", "12", mores[k]);
        tw_templates templates = tw_templates_make(&p.arena, p.job, p.shop, p.plans, 1, &p.findings);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        const tw_template *tails = tw_template_of(&templates, 0, (int)(work_that_is(&p, "gaps between the tails of long") - p.plans[0].works));
        const tw_template *sockets = tw_template_of(&templates, 0, (int)(work_that_is(&p, "sockets of short") - p.plans[0].works));
        assert_non_null(tails);
        assert_non_null(sockets);
        assert_true(tails->copy.error_mm <= TW_COPY_TRUE_MM && sockets->copy.error_mm <= TW_COPY_TRUE_MM);
        check_seed seed = { 6 };
        int seen = 0;
        double wall, deep = figure(&p, 0, "depth");
        for (int i = 0; i < 1500; i++) {
            double y = check_between(&seed, 0.0, 84.0), z = check_between(&seed, 0.01, 11.99);
            bool in = in_any_gap(1, TW_SIDE_RIGHT_END, y, z, &wall);
            if (wall > 0.0) assert_int_equal(tw_outline_side(sockets->copy.achieved, (tw_point){ y - 42.0, z - 6.0 }) > 0, in);
            seen += wall > 0.0;
            in = in_any_gap(0, TW_SIDE_FACE, 420.0 - deep + 1e-4, y, &wall);
            if (wall > 0.0) assert_int_equal(tw_outline_side(tails->copy.achieved, (tw_point){ y - 42.0, z - 6.0 }) > 0, in);
        }
        assert_true(seen > 1000);
        tw_arena_finish(&p.arena);
    }
}

/* The gap between two tails is as wide, at every height over its bottom, as the cutter is there. */
static void one_pass_of_the_cutter_is_the_gap_between_two_tails(void **state)
{
    (void)state;
    plan_box("84", "12", "12", "");
    const tw_cutter *flare = NULL;
    for (int i = 0; i < p.shop->cutter_count; i++)
        if (strcmp(p.shop->cutters[i].name, "flare") == 0) flare = &p.shop->cutters[i];
    assert_non_null(flare);
    for (double up = 0.25; up < 12.0; up += 1.0) {
        double width = 0.0, x = 420.0 - 12.0 + up;
        for (size_t c = 0; c < p.plans[0].cut_count; c++) {
            const tw_cut *cut = &p.plans[0].cuts[c];
            tw_box box = tw_outline_bounds(cut->outline);
            if (cut->piece != 0 || box.x1 < 419.0 || box.y0 < 1.0 || box.y1 > 50.0) continue;  // the gap between the first two tails
            double low = 0.0, high = 0.0, step = 1e-3;
            for (double y = box.y0 - 0.01; y < box.y1 + 0.01; y += step)
                if (tw_outline_side(cut->outline, (tw_point){ x, y }) > 0) { low = low == 0.0 ? y : low; high = y; }
            width = high - low;
        }
        CHECK_NEAR(width, tw_cutter_diameter_at_mm(flare, up), 3e-3);
    }
}

/* ---- in space ---- */

static void four_boards_close_to_a_box_of_their_outside_sizes(void **state)
{
    (void)state;
    static const char *const mores[] = { "", "    faces: in\n", "    proud: 0.5\n    fit: dry\n", "    by: saw\n" };
    for (int i = 0; i < 4; i++) {
        plan_box("84", "12", "12", mores[i]);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        tw_space space = tw_space_make(&p.arena, p.job, p.plans, 1);
        assert_int_equal(space.net_count, 1);
        assert_int_equal(space.ring_count, 1);
        CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-9);
        tw_spot d = tw_spot_less(space.nets[0].most, space.nets[0].least);
        CHECK_NEAR(d.x * d.y * d.z, 420.0 * 260.0 * 84.0, 1e-3);
        assert_int_equal(space.nets[0].stuck_count, 0);
        // Every way in which a board with tails comes off is square to its face; none is along its length.
        for (size_t k = 0; k < space.tie_count; k++) {
            const tw_tie *tie = &space.ties[k];
            tw_spot way = tw_pose_turn(space.instances[tie->base].pose, tie->meeting->leaves);
            int board = space.instances[tie->mover].piece == 0 ? tie->mover : tie->base;
            CHECK_NEAR(tw_spot_product(way, space.instances[board].pose.x), 0.0, 1e-9);
            double out = i == 1 ? -1.0 : 1.0;  // its face looks out, or in
            CHECK_NEAR(tw_spot_product(way, space.instances[board].pose.z) * (board == tie->mover ? 1.0 : -1.0), out, 1e-9);
        }
        tw_arena_finish(&p.arena);
    }
}

/* ---- refusals and cares ---- */

static void shapes_out_of_range_are_refused_or_thought_over(void **state)
{
    (void)state;
    warn("    by: saw\n    angle: 18 deg\n", "slope-steep", "short grain at the corners", "1:8 in hardwood");
    warn("    by: saw\n    angle: \"1:14\"\n", "slope-flat", "hardly hold", "1:8 in hardwood");
    refuse("    by: saw\n    number: 9\n", "tail-narrow", "wide at its root breaks off", "fewer tails");
    warn("    by: saw\n    number: 7\n", "tail-narrow", "only 3.86 mm wide at its root", "fewer tails");  // (84 - 12 - 24)/7 - 3 = 3.857
    warn("    by: saw\n    number: 1\n", "tail-wide", "may cup", "more tails");
    refuse("    by: saw\n    number: 90\n", "number-large", "90 tails", "at most 60");
    refuse("    by: saw\n    pin: 1\n", "pin-narrow", "0.95 mm wide", "4.00 mm");
    warn("    by: saw\n    pin: 2\n", "pin-narrow", "only 1.95 mm", "4.00 mm");
    refuse("    by: saw\n    half pin: 2\n", "half-pin-narrow", "held on one side only, and splits off", "6 mm");
    warn("    by: saw\n    pin: 8\n    half pin: 5\n", "half-pin-narrow", "narrower than the pins", "no less than 8.00 mm");
}

static void tools_that_do_not_serve_are_refused(void **state)
{
    (void)state;
    refuse("    dovetail cutter: none such\n", "cutter-unknown", "no cutter named none such", "list of cutters");
    refuse("    dovetail cutter: eight\n", "cutter-straight", "eight is straight", "a dovetail cutter");
    refuse("    dovetail cutter: slim\n", "cutter-short", "slim cuts 10.00 mm deep, the tails are 12.00 mm long", "a longer cutter");
    refuse("    dovetail cutter: flare\n    angle: 8 deg\n", "angle-not-cutters", "walls of 8.0° are asked for, and cutter flare cuts 14.0°", "leave `angle` out");
    refuse("    dovetail cutter: flare\n    pin: 5\n", "cutter-wide", "12.70 mm wide at its tip, the gap between tails only 11.03 mm", "`pin` of at least 6.67 mm");  // 5 + 5.984 + 0.05
    refuse("    by: copy\n    angle: 10 deg\n", "cutter-none", "no dovetail cutter that cuts 12.00 mm deep at 10.0°", "`by: saw`");
    refuse("    cutter: flare\n", "cutter-slants", "flare is a dovetail cutter", "a straight cutter");
    refuse("    cutter: long twelve\n", "cutter-wide", "long twelve is 12.70 mm wide, a socket only 8.43 mm", "a smaller cutter");  // 13.128 + 0.05 - 2 x 9.525 x 0.249328
    warn("    by: saw\n    cutter: eight\n", "key-idle", "sawn dovetails need none", "leave `cutter` out");
}

static void boards_that_cannot_meet_are_refused(void **state)
{
    (void)state;
    plan_text("job: test\nunits: mm\npieces:\n  long: {count: 2, length: 420, width: 84, thickness: 12}\n  short: {count: 2, length: 260, width: 80, thickness: 12}\njoints:\n  c: {kind: through dovetail, tails: long, into: short}\n");
    expect("widths-differ", TW_HALT, "long is 84.0 mm wide, short 80.0 mm", "of one width");
    assert_int_equal(p.plans[0].cut_count, 0);
}

/* ---- laws ---- */

typedef struct law_case { char text[2048]; double c; } law_case;

static void seeded_job(check_seed *seed, law_case *one)
{
    static const char *const ends[] = { "left", "right" }, *const looks[] = { "out", "in" };
    double width = check_between(seed, 90, 120);
    one->c = check_between(seed, 0.1, 0.4);
    snprintf(one->text, sizeof one->text, "job: law\nunits: mm\npieces:\n  a: {count: 1, length: 300, width: %.6f, thickness: %.6f}\n  b: {count: 1, length: 200, width: %.6f, thickness: %.6f}\njoints:\n"
        "  j:\n    kind: through dovetail\n    tails: a\n    ends: %s\n    into: b\n    into ends: %s\n    faces: %s\n    number: %d\n    clearance: %.6f\n    proud: %.6f\n    angle: %.6f deg\n    by: saw\n",
        width, check_between(seed, 12, 20), width, check_between(seed, 12, 20), ends[check_random(seed) % 2], ends[check_random(seed) % 2], looks[check_random(seed) % 2], 1 + (int)(check_random(seed) % 3),
        one->c, check_between(seed, 0.01, 0.8), check_between(seed, 6, 14));
}

/* The corner in the frame of b, and a little round it. */
static tw_block corner_of(const tw_meeting *m, double deep)
{
    tw_size b = tw_piece_size(&p.job->pieces[m->base]);
    double from = m->leaves.x < 0.0 ? -2.0 : b.length_mm - deep - 2.0;
    return (tw_block){ { from, -2.0, -3.0 }, { from + deep + 4.0, b.width_mm + 2.0, b.thickness_mm + 3.0 } };
}

static void tails_fill_their_sockets_but_for_the_clearance_and_cannot_be_drawn_along(void **state)
{
    (void)state;
    check_seed seed = { 43 };
    for (int i = 0; i < 60; i++) {
        law_case one;
        seeded_job(&seed, &one);
        plan_text(one.text);
        if (tw_findings_have(&p.findings, TW_HALT)) fail_msg("halted:\n%s", one.text);
        const tw_meeting *m = &p.plans[0].meetings[0];
        tw_block box = corner_of(m, figure(&p, 0, "into_depth"));
        check_joined(&p, 0, m, box, (tw_spot){ 0, 1, 0 }, one.c / 2.0, 0.0, 900 + (uint64_t)i);
        // Drawn along its own length it is held as soon as the clearance is used up: c/2 at each wall, over the slope.
        double slope = tan(figure(&p, 0, "angle")), sign = m->end == TW_SIDE_RIGHT_END ? -1.0 : 1.0, free = one.c / 2.0 / slope;
        assert_int_equal(look_in(&p, 0, m, tw_spot_times(m->pose.x, sign * (free - 1e-6)), box, 4000, 1).both, 0);
        assert_true(look_in(&p, 0, m, tw_spot_times(m->pose.x, sign * (free + 4.0)), box, 16000, 2).both > 0);
        tw_arena_finish(&p.arena);
    }
}

/* A tail is a trapezoid, (w + root)/2 wide on average, half of c less; a socket half of c more. Two ends, two boards. By hand 30 and
 * 26 of 112, 3 tails, c = 0.4: gaps 112 - 3 x 27.8 = 28.6; sockets 3 x 28.2 = 84.6; over 16 by 16. */
static void volumes_are_those_of_the_closed_form(void **state)
{
    (void)state;
    plan_box("112", "16", "16", "    by: saw\n    clearance: 0.4\n");
    double through = 0.0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++)
        if (p.plans[0].cuts[i].piece == 0) through += tw_outline_area_mm2(p.plans[0].cuts[i].outline) * 16.0;
    CHECK_NEAR(through, 2.0 * 16.0 * 16.0 * 28.6, 1e-6);
    CHECK_NEAR(cut_volume(&p, 0, 1), 2.0 * 16.0 * 16.0 * 84.6, 1e-6);
}

static void odd_sizes_are_halted_or_make_a_sane_plan(void **state)
{
    (void)state;
    static const char *const ends[] = { "left", "right", "both" }, *const bys[] = { "copy", "saw" }, *const flares[] = { "flare", "slim", "eight" };
    check_seed seed = { 79 };
    int good = 0;
    for (int i = 0; i < 600; i++) {
        char text[2048], more[512] = "";
        static const char *const keys[] = { "pin", "half pin", "clearance", "proud" };
        static const double most[] = { 60, 60, 5, 10 };
        for (int k = 0; k < 4; k++)
            if (check_random(&seed) % 4 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    %s: %.4f\n", keys[k], check_size(&seed, 0.01, most[k]));
        if (check_random(&seed) % 3 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    number: %d\n", 1 + (int)(check_random(&seed) % 30));
        if (check_random(&seed) % 3 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    angle: %.3f deg\n", check_between(&seed, 2.1, 29.0));
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), "    by: %s\n", bys[check_random(&seed) % 2]);
        if (check_random(&seed) % 4 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    dovetail cutter: %s\n", flares[check_random(&seed) % 3]);
        double wide = check_size(&seed, 5, 600);
        snprintf(text, sizeof text, "job: odd\nunits: mm\nfigures: %s\npieces:\n  a: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\n  b: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\njoints:\n"
                 "  j:\n    kind: through dovetail\n    tails: a\n    into: b\n    ends: %s\n    into ends: %s\n%s", i % 2 ? "mm 0.1" : "in 1/64", check_size(&seed, 10, 2000), wide, check_size(&seed, 2, 60),
                 check_size(&seed, 10, 2000), i % 9 ? wide : wide + 1.0, check_size(&seed, 2, 60), ends[check_random(&seed) % 3], ends[check_random(&seed) % 3], more);
        plan_text(text);
        for (size_t k = 0; k < p.plans[0].cut_count; k++)  // the sane plan's cuts leave wood behind; those of the tails go through
            assert_true(tw_outline_area_mm2(p.plans[0].cuts[k].outline) > 0.0);
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
    static const char *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" }, *const numbers[] = { "1", "2", "3" };
    for (int i = 0; i < 24; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  the side that stands nearest to the sluice of the upper weir: {count: 2, length: 900, width: %d, thickness: 19}\n"
                 "  the side that carries the handle by which the net is hung up: {count: 2, length: 371, width: %d, thickness: 17}\njoints:\n  corners:\n    kind: through dovetail\n"
                 "    tails: the side that stands nearest to the sluice of the upper weir\n    into: the side that carries the handle by which the net is hung up\n    number: %s\n    by: saw\n",
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
        CASE(dovetails_by_hand_have_the_proportions_worked_by_hand),
        CASE(softwood_gets_a_steeper_slope),
        CASE(copied_dovetails_take_pin_and_slope_from_the_cutter),
        CASE(of_two_cutters_that_serve_the_one_nearest_to_half_of_the_board_is_taken),
        CASE(fewer_tails_are_made_where_no_cutter_goes_into_a_socket),
        CASE(inches_have_round_figures_of_their_own),
        CASE(templates_achieve_sockets_and_gaps),
        CASE(one_pass_of_the_cutter_is_the_gap_between_two_tails),
        CASE(four_boards_close_to_a_box_of_their_outside_sizes),
        CASE(shapes_out_of_range_are_refused_or_thought_over),
        CASE(tools_that_do_not_serve_are_refused),
        CASE(boards_that_cannot_meet_are_refused),
        CASE(tails_fill_their_sockets_but_for_the_clearance_and_cannot_be_drawn_along),
        CASE(volumes_are_those_of_the_closed_form),
        CASE(odd_sizes_are_halted_or_make_a_sane_plan),
        CASE(drawings_keep_texts_apart_at_the_longest_names_and_finest_fractions),
    };
    return cmocka_run_group_tests_name("through dovetail", tests, NULL, NULL);
}
