// SPDX-License-Identifier: GPL-3.0-or-later
/* Profiles: shapes and volumes against closed forms worked by hand, refusals with the place and the remedy, what a profile does
 * to joints, ways of making, the run, drawings.
 *
 * Closed forms: segment of a circle A = r^2 (t - sin t cos t), r = (c^2/4 + h^2)/(2h) (from memory; held here to Simpson's
 * rule over the heights, and to the half circle); volume between two rectangles that shrink linearly, by integration. */
#include "check.h"
#include "cut_law.h"
#include "joined.h"
#include "planned.h"

#include "check/check.h"
#include "profile/profile.h"
#include "sheet/profile_dxf.h"
#include "solid/solid.h"
#include "template/template.h"
#include "whole.h"

#define PIECE(count, length, width, thickness) \
    "job: test\nunits: mm\npieces:\n  foot: {count: " #count ", length: " #length ", width: " #width ", thickness: " #thickness "}\n"

static planned p;

static void plan_text(const char *job)
{
    p = planned_of(job, SHOP_MM);
    plan(&p);
}

/* Plans a job and looks over its profiles, as the whole does. */
static void look_over(const char *job)
{
    plan_text(job);
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_check_profiles(&context, p.plans, tw_plan_count(p.job));
}

static void done(void) { tw_arena_finish(&p.arena); }

static double volume_left(int plan_index, double chord_mm)
{
    const tw_joint_plan *one = &p.plans[plan_index];
    const tw_solid *solid = tw_solid_make(&p.arena, tw_piece_size(&p.job->pieces[one->piece]), one->cuts, (int)one->cut_count,
        chord_mm);
    assert_true(solid->closed);
    return tw_solid_volume_mm3(solid);
}

static void expect_nothing(void)
{
    for (size_t i = 0; i < p.findings.count; i++) print_error("%s: %s\n", p.findings.items[i].code, p.findings.items[i].what);
    assert_int_equal(p.findings.count, 0);
}

/* ---- the arch ---- */

//  chord 300, rise 20: r = (300 x 300/4 + 20 x 20)/(2 x 20) = (22500 + 400)/40 = 572.5
static void an_arch_has_the_radius_of_its_chord_and_rise(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n");
    CHECK_NEAR(figure(&p, 0, "chord"), 300.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "to"), 390.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "radius"), 572.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "left"), 58.0, 1e-9);
    expect_nothing();
    done();
}

static void every_place_of_the_table_lies_on_the_circle(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n");
    const tw_joint_plan *a = &p.plans[0];
    assert_int_equal(a->station_count, 9);  // 0, 20, ... 140, and the end at 150
    for (size_t i = 0; i < a->station_count; i++) CHECK_NEAR(hypot(a->stations[i].along_mm, a->stations[i].high_mm + 552.5),
        572.5, 1e-9);
    CHECK_NEAR(a->stations[5].along_mm, 100.0, 1e-9);
    CHECK_NEAR(a->stations[5].high_mm, 11.1987, 1e-4);  // sqrt(327756.25 - 10000) - 552.5 = 563.6987 - 552.5
    done();
}

static void an_arch_takes_the_area_that_simpsons_rule_gives(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n");
    double sum = 0.0, step = 300.0 / 2000.0;
    for (int i = 0; i <= 2000; i++) {
        double x = -150.0 + i * step, y = sqrt(572.5 * 572.5 - x * x) - 552.5;
        sum += y * (i == 0 || i == 2000 ? 1.0 : i % 2 ? 4.0 : 2.0);
    }
    double area = sum * step / 3.0;
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].cuts[0].outline), area, 1e-6);
    CHECK_NEAR(tw_segment_area_mm2(tw_segment_of(300.0, 20.0)), area, 1e-6);
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].shapes[0].outline), 480.0 * 78.0 - area, 1e-6);
    CHECK_NEAR(volume_left(0, TW_SOLID_CHORD_MM), (480.0 * 78.0 - area) * 50.0, 300.0 * TW_SOLID_CHORD_MM * 50.0);  // chords lie that near to the arc
    done();
}

static void an_arch_of_half_its_chord_is_a_half_circle(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arch, piece: foot, edge: face edge, from: 220, rise: 20}\n");
    CHECK_NEAR(figure(&p, 0, "radius"), 20.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "half_angle"), TW_PI / 2.0, 1e-9);
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].cuts[0].outline), TW_PI * 200.0, 1e-9);
    done();
}

static void an_arch_lies_on_the_side_that_is_named(void **state)
{
    (void)state;
    static const struct { const char *edge; tw_face seen; double y0, y1; } sides[] = {
        { "back edge", TW_SIDE_FACE, 58.0, 78.0 }, { "face edge", TW_SIDE_FACE, 0.0, 20.0 }, { "face", TW_SIDE_FACE_EDGE, 30.0,
            50.0 }, { "back", TW_SIDE_FACE_EDGE, 0.0, 20.0 } };
    for (int i = 0; i < 4; i++) {
        char job[500];
        snprintf(job, sizeof job, PIECE(1, 480, 78,
            50) "profiles:\n  a: {kind: arch, piece: foot, edge: %s, from: 90, rise: 20}\n", sides[i].edge);
        plan_text(job);
        tw_box box = tw_outline_bounds(p.plans[0].cuts[0].outline);
        assert_int_equal(p.plans[0].cuts[0].face, sides[i].seen);
        CHECK_NEAR(box.x0, 90.0, 1e-9);
        CHECK_NEAR(box.x1, 390.0, 1e-9);
        CHECK_NEAR(box.y0, sides[i].y0, 1e-9);
        CHECK_NEAR(box.y1, sides[i].y1, 1e-9);
        tw_outline tidy;
        tw_point where;
        assert_int_equal(tw_outline_tidy(&p.arena, p.plans[0].shapes[0].outline, &tidy, &where), TW_OUTLINE_GOOD);
        CHECK_NEAR(tw_outline_area_mm2(p.plans[0].shapes[0].outline) + tw_outline_area_mm2(p.plans[0].cuts[0].outline),
            480.0 * (i < 2 ? 78.0 : 50.0), 1e-6);
        done();
    }
}

static void an_arch_that_cannot_be_is_refused_with_what_would_be_right(void **state)
{
    (void)state;
    static const struct { const char *keys, *code, *what, *remedy; } cases[] = {
        { "from: 90, rise: 70", "arch-too-high", "leaves 8.0 mm of the 78.0 mm of foot",
            "a rise of 68.0 mm at most leaves 10.0 mm" },
        { "from: 230, rise: 12", "arch-over-half-circle", "more than half of the chord of 20.0 mm",
            "a rise of 10.0 mm, which is a half circle" },
        { "from: 90, to: 500, rise: 20", "arch-past-end", "ends 500.0 mm from the left end, and foot is 480.0 mm long",
            "480.0 mm from the left end at most" },
        { "from: 240, rise: 20", "arch-without-length", "begins 240.0 mm and ends 240.0 mm", "before 240.0 mm" },
        { "from: 225, rise: 3, made: copied, cutter: long twelve", "", "", "" },
        { "from: 235, rise: 5, made: copied, cutter: long twelve", "arch-under-cutter", "the radius of the arch is 5.0 mm",
            "a cutter of at most 10.0 mm" },
        { "from: 238, rise: 2, made: copied", "arch-without-cutter", "no cutter of the shop follows a radius of 2.0 mm",
            "`made: by hand`" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char job[500];
        snprintf(job, sizeof job, PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arch, piece: foot, %s}\n", cases[i].keys);
        plan_text(job);
        if (!*cases[i].code) assert_false(tw_findings_have(&p.findings, TW_HALT));
        else expect_finding(&p, cases[i].code, TW_HALT, cases[i].what, cases[i].remedy);
        done();
    }
}

static void an_arch_that_takes_over_half_of_the_width_is_a_care(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 40}\n");
    expect_finding(&p, "arch-high", TW_CARE, "38.0 mm stay over its middle", "a rise of 39.0 mm at most");
    done();
}

/* ---- its ways ---- */

static void few_arches_are_made_by_hand_many_routed_and_small_ones_copied(void **state)
{
    (void)state;
    static const struct { const char *job; tw_way last; } cases[] = {
        { PIECE(3, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n", TW_WAY_PLANE },
        { PIECE(4, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n", TW_WAY_ROUTE },
        { PIECE(4, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 205, rise: 20}\n", TW_WAY_COPY },
        { PIECE(4, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 205, rise: 20, made: by hand}\n", TW_WAY_PLANE },
        { PIECE(1, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 205, rise: 20, made: routed}\n", TW_WAY_ROUTE },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        plan_text(cases[i].job);
        assert_true(p.plans[0].work_count > 0);
        assert_int_equal(p.plans[0].works[p.plans[0].work_count - 1].way, cases[i].last);
        done();
    }
}

/* What the template makes of the wood: below the side (y 0 before the pocket was centred) nothing but the segment is gone. */
static void a_copied_arch_comes_out_as_drawn(void **state)
{
    (void)state;
    plan_text(PIECE(4, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 205, rise: 20}\n");
    tw_templates made = tw_templates_make(&p.arena, p.job, p.shop, p.plans, 1, &p.findings);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(made.count, 1);
    tw_segment s = tw_segment_of(70.0, 20.0);
    tw_box pocket = tw_outline_bounds(made.items[0].ask.cut);
    double side = pocket.y0 + 20.0;
    tw_outline wood = tw_outline_rectangle(&p.arena, -200.0, side - 60.0, 200.0, side);
    CHECK_NEAR(tw_outline_common_area_mm2(&p.arena, made.items[0].copy.achieved, wood), tw_segment_area_mm2(s), 1e-3);
    CHECK_NEAR(p.plans[0].works[0].copy.down_to_origin_mm, 78.0 - side, 1e-9);  // the side stands the piece's width above the table
    done();
}

static void a_copied_arch_is_stopped_at_the_nearer_end(void **state)
{
    (void)state;
    plan_text(PIECE(4, 480, 78, 30) "profiles:\n  a: {kind: arch, piece: foot, from: 300, to: 370, rise: 20, edge: face edge}\n");
    const tw_work *work = work_that_is(&p, "arch");
    assert_int_equal(work->copy.stop_end, TW_SIDE_RIGHT_END);
    CHECK_NEAR(work->copy.stop_to_origin_mm, 480.0 - 335.0, 1e-9);
    assert_int_equal(work->down, TW_SIDE_BACK_EDGE);
    done();
}

/* ---- the taper ---- */

//  Sections of (W - 2 b u) by (T - 2 b u), u from 0 to 1 over the length l: l (W T - b (W + T) + 4 b^2/3)
static void a_taper_of_four_sides_leaves_the_frustum_of_a_pyramid(void **state)
{
    (void)state;
    plan_text(PIECE(4, 700, 60, 44) "profiles:\n  t: {kind: taper, piece: foot, end: right, length: 480, by: 10}\n");
    expect_nothing();
    double tapered = 480.0 * (60.0 * 44.0 - 10.0 * (60.0 + 44.0) + 4.0 * 100.0 / 3.0);
    CHECK_NEAR(volume_left(0, 0.02), 220.0 * 60.0 * 44.0 + tapered, 0.1);
    CHECK_NEAR(figure(&p, 0, "left_width"), 40.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "left_thickness"), 24.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "angle"), 0.0208303, 1e-7);  // the tangent is 10/480 = 1/48
    assert_int_equal(p.plans[0].shape_count, 2);
    done();
}

static void a_taper_of_two_inner_sides_takes_their_wedges_once(void **state)
{
    (void)state;
    for (int end = 0; end < 2; end++) {
        char job[500];
        snprintf(job, sizeof job, PIECE(4, 700, 60,
            44) "profiles:\n  t: {kind: taper, piece: foot, sides: back and face edge, end: %s, length: 300, by: 9}\n", end
            ? "right" : "left");
        plan_text(job);
        //  wedges 300 x 9/2 x 60 and x 44, less what they share: the integral of (9 u)^2 over 300 = 300 x 81/3
        double gone = 300.0 * 9.0 / 2.0 * (60.0 + 44.0) - 300.0 * 81.0 / 3.0;
        CHECK_NEAR(volume_left(0, 0.02), 700.0 * 60.0 * 44.0 - gone, 0.1);
        for (int i = 0; i < 2; i++) {
            tw_box box = tw_outline_bounds(p.plans[0].cuts[i].outline);
            CHECK_NEAR(box.x0, end ? 400.0 : 0.0, 1e-9);
            CHECK_NEAR(box.x1, end ? 700.0 : 300.0, 1e-9);
        }
        done();
    }
}

static void a_taper_to_nothing_or_past_the_end_is_refused(void **state)
{
    (void)state;
    plan_text(PIECE(1, 700, 60, 44) "profiles:\n  t: {kind: taper, piece: foot, length: 480, by: 20}\n");
    expect_finding(&p, "taper-to-nothing", TW_HALT, "leaves 4.0 mm of the thickness of foot",
        "17.0 mm from each side at most leaves 10.0 mm");
    expect_finding(&p, "taper-thin", TW_CARE, "the width of foot is 20.0 mm at the thin end", "15.0 mm from each side");
    done();
    plan_text(PIECE(1, 700, 60, 44) "profiles:\n  t: {kind: taper, piece: foot, length: 701, by: 5}\n");
    expect_finding(&p, "taper-past-end", TW_HALT, "the taper is 701.0 mm long, and foot is 700.0 mm", "700.0 mm at most");
    done();
}

static void what_is_measured_after_planing_is_what_the_figures_leave(void **state)
{
    (void)state;
    plan_text(PIECE(4, 700, 60,
        44) "profiles:\n  t: {kind: taper, piece: foot, sides: both edges, end: right, length: 480, by: 12}\n");
    CHECK_NEAR(work_that_is(&p, "taper of the back edge, planed")->measure_mm, 36.0, 1e-9);
    CHECK_NEAR(work_that_is(&p, "taper of the face edge, sawn")->measure_mm, 60.0 - 12.0 + 0.8, 1e-9);
    done();
}

/* ---- chamfers and round-overs ---- */

//  round a face the layer of s keeps sections of (L - 2u)(W - 2u): it loses s^2 (L + W) - 4 s^3/3
static void chamfers_round_a_face_meet_in_mitres(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  c: {kind: chamfer, piece: foot, arrises: face, width: 6}\n");
    expect_nothing();
    assert_int_equal(p.plans[0].cut_count, 4);
    CHECK_NEAR(volume_left(0, 0.02), 300.0 * 80.0 * 20.0 - (36.0 * 380.0 - 4.0 * 216.0 / 3.0), 0.01);
    done();
}

static void a_stopped_chamfer_takes_half_a_square_over_its_length(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  c: {kind: chamfer, piece: foot, width: 6, from: 40, to: 240}\n");
    expect_nothing();
    CHECK_NEAR(volume_left(0, 0.02), 300.0 * 80.0 * 20.0 - 4.0 * 18.0 * 200.0, 0.01);
    CHECK_HOLDS(work_that_is(&p, "chamfer along the grain")->what, "begins 40.0 mm, ends 240.0 mm from the left end");
    done();
}

static void a_round_over_takes_a_square_less_a_quarter_circle(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  r: {kind: round-over, piece: foot, arrises: face and face edge, radius: 8}\n");
    expect_nothing();
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].cuts[0].outline), 64.0 * (1.0 - TW_PI / 4.0), 1e-9);
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].shapes[0].outline), 1600.0 - 64.0 * (1.0 - TW_PI / 4.0), 1e-9);
    done();
}

/* The spot 1 mm inside the middle of an arris is taken by the cut of that arris alone. */
static void each_arris_is_where_its_two_sides_meet(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  c: {kind: chamfer, piece: foot, arrises: all, width: 6}\n");
    assert_int_equal(p.plans[0].cut_count, TW_ARRIS_COUNT);
    tw_size size = { 300.0, 80.0, 20.0 };
    for (int i = 0; i < TW_ARRIS_COUNT; i++) {
        tw_spot spot = { 150.0, 40.0, 10.0 };
        const tw_face sides[] = { tw_arrises[i].a, tw_arrises[i].b };
        for (int k = 0; k < 2; k++) {
            if (sides[k] == TW_SIDE_FACE) spot.z = 19.0;
            if (sides[k] == TW_SIDE_BACK) spot.z = 1.0;
            if (sides[k] == TW_SIDE_FACE_EDGE) spot.y = 1.0;
            if (sides[k] == TW_SIDE_BACK_EDGE) spot.y = 79.0;
            if (sides[k] == TW_SIDE_LEFT_END) spot.x = 1.0;
            if (sides[k] == TW_SIDE_RIGHT_END) spot.x = 299.0;
        }
        for (int k = 0; k < TW_ARRIS_COUNT; k++) assert_int_equal(cut_law_takes(size, &p.plans[0].cuts[k], spot), k == i);
    }
    done();
}

static void arrises_too_large_or_stopped_wrongly_are_refused(void **state)
{
    (void)state;
    static const struct { const char *keys, *code, *what, *remedy; tw_level level; } cases[] = {
        { "kind: chamfer, width: 10", "arris-too-large", "a chamfer of 10.0 mm does not go into the sides of foot",
            "less than 10.0 mm", TW_HALT },
        { "kind: round-over, radius: 11", "arris-too-large", "a round-over of 11.0 mm",
            "at most 10.0 mm, which makes a half round side", TW_HALT },
        { "kind: round-over, radius: 10", "", "", "", TW_NOTE },
        { "kind: chamfer, width: 4, from: 100, to: 102", "arris-stopped-short", "shorter than it is wide",
            "104.0 mm from the left end or later", TW_HALT },
        { "kind: chamfer, width: 4, to: 320", "arris-past-end", "ends 320.0 mm from the left end, and foot is 300.0 mm long",
            "leave `to` out", TW_HALT },
        { "kind: chamfer, width: 4, arrises: all, from: 20", "arris-stop-at-end",
            "the stops hold for the arrises along the grain alone", "`arrises: long`", TW_CARE },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char job[500];
        snprintf(job, sizeof job, PIECE(1, 300, 80, 20) "profiles:\n  c: {piece: foot, %s}\n", cases[i].keys);
        plan_text(job);
        if (*cases[i].code) expect_finding(&p, cases[i].code, cases[i].level, cases[i].what, cases[i].remedy);
        else expect_nothing();
        done();
    }
}

/* ---- rounded ends ---- */

static void an_end_without_a_radius_becomes_a_half_circle(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  r: {kind: rounded end, piece: foot, ends: right}\n");
    expect_nothing();
    CHECK_NEAR(figure(&p, 0, "radius"), 40.0, 1e-9);
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].shapes[0].outline), 260.0 * 80.0 + TW_PI * 800.0, 1e-6);
    CHECK_NEAR(tw_outline_area_mm2(p.plans[0].cuts[0].outline) + tw_outline_area_mm2(p.plans[0].cuts[1].outline),
        1600.0 * (2.0 - TW_PI / 2.0), 1e-6);
    tw_box box = tw_outline_bounds(p.plans[0].shapes[0].outline);
    CHECK_NEAR(box.x1, 300.0, 1e-9);
    done();
}

static void corners_are_rounded_where_they_are_named(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  r: {kind: rounded end, piece: foot, ends: left, corners: back edge}\n");
    CHECK_NEAR(figure(&p, 0, "radius"), 20.0, 1e-9);  // a quarter of the width
    assert_int_equal(p.plans[0].cut_count, 1);
    tw_box box = tw_outline_bounds(p.plans[0].cuts[0].outline);
    CHECK_NEAR(box.x0, 0.0, 1e-9);
    CHECK_NEAR(box.x1, 20.0, 1e-9);
    CHECK_NEAR(box.y0, 60.0, 1e-9);
    CHECK_NEAR(box.y1, 80.0, 1e-9);
    done();
}

static void a_radius_that_does_not_go_in_is_refused(void **state)
{
    (void)state;
    plan_text(PIECE(1, 300, 80, 20) "profiles:\n  r: {kind: rounded end, piece: foot, radius: 41}\n");
    expect_finding(&p, "radius-over-width", TW_HALT, "two corners of 41.0 mm do not go into the width of 80.0 mm",
        "a radius of 40.0 mm at most, which makes a half round end");
    done();
    plan_text(PIECE(1, 70, 80, 20) "profiles:\n  r: {kind: rounded end, piece: foot}\n");
    expect_finding(&p, "radius-over-length", TW_HALT, "do not go into the length of 70.0 mm", "35.0 mm at most");
    done();
}

/* ---- profiles and joints ---- */

#define STAND "job: test\nunits: mm\npieces:\n  foot: {count: 2, length: 480, width: 78, thickness: 50}\n  post: {count: 2, length: 700, width: 60, thickness: 44}\n" \
    "joints:\n  post to foot: {kind: mortise and tenon, tenon: post, ends: left, into: foot, from: face edge, at: 240, fit: glued, depth: 52}\n"

//  the mortise is 52 deep and 2 more for the glue: its floor lies 54 below the face edge, 24 above the back edge
static void an_arch_near_a_mortise_says_how_much_wood_is_left(void **state)
{
    (void)state;
    look_over(STAND "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 16}\n");
    double floor = 0.0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++)
        if (p.plans[0].cuts[i].piece == 0) floor = tw_max(floor, p.plans[0].cuts[i].depth_mm);
    assert_true(floor > 50.0 && floor < 56.0);
    expect_nothing();  // at least 6 mm stay
    done();
    look_over(STAND "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n");
    char left[60];
    snprintf(left, sizeof left, "only %.1f mm of wood is left", 78.0 - 20.0 - floor);
    expect_finding(&p, "profile-near-joint", TW_CARE, left, "leave 6.0 mm");
    done();
}

static void an_arch_through_a_mortise_is_a_halt_with_the_place(void **state)
{
    (void)state;
    look_over(STAND "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 30}\n");
    expect_finding(&p, "profile-meets-joint", TW_HALT, "in foot the arch meets the mortise of post to foot",
        "a lower or shorter arch");
    assert_int_equal(finding(&p, "profile-meets-joint")->place.line, 9);
    done();
}

static void a_low_arch_beside_a_mortise_is_no_matter_though_their_boxes_meet(void **state)
{
    (void)state;
    look_over("job: test\nunits: mm\npieces:\n  foot: {count: 2, length: 480, width: 78, thickness: 50}\n  post: {count: 2, length: 700, width: 40, thickness: 44}\n"
              "joints:\n  post to foot: {kind: mortise and tenon, tenon: post, ends: left, into: foot, from: face edge, at: 110, fit: glued, depth: 52}\n"
              "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 28}\n");
    //  at 130 from the left end the arch is 110 off its middle: sqrt(415.8^2 - 110^2) - 387.8 = 13.2 high: 24 - 13.2 stay
    assert_null(finding(&p, "profile-meets-joint"));
    assert_null(finding(&p, "profile-near-joint"));
    done();
}

static void a_taper_over_a_shoulder_is_a_halt(void **state)
{
    (void)state;
    look_over(STAND "profiles:\n  t: {kind: taper, piece: post, end: left, length: 200, by: 8}\n");
    expect_finding(&p, "profile-meets-joint", TW_HALT, "in post the taper of the",
        "a shorter taper, that begins beyond the joint");
    done();
    look_over(STAND "profiles:\n  t: {kind: taper, piece: post, end: right, length: 200, by: 8}\n");
    expect_nothing();
    done();
}

static void a_rounded_end_with_a_tenon_is_a_halt(void **state)
{
    (void)state;
    look_over(STAND "profiles:\n  r: {kind: rounded end, piece: post, ends: left, radius: 10}\n");
    expect_finding(&p, "profile-meets-joint", TW_HALT, "rounded corner at left end", "a smaller radius");
    done();
}

static void a_chamfer_over_a_shoulder_is_a_care_and_stopped_before_it_is_none(void **state)
{
    (void)state;
    look_over(STAND "profiles:\n  c: {kind: chamfer, piece: post, width: 4}\n");
    expect_finding(&p, "arris-meets-joint", TW_CARE, "loses its sharp arris", "`from` and `to`");
    done();
    look_over(STAND "profiles:\n  c: {kind: chamfer, piece: post, width: 4, from: 70}\n");
    expect_nothing();
    done();
}

/* The post is as thick as the foot: its shoulders reach to the foot's arrises. */
static void a_chamfer_where_another_piece_stands_is_a_care(void **state)
{
    (void)state;
    look_over("job: test\nunits: mm\npieces:\n  foot: {count: 2, length: 480, width: 78, thickness: 44}\n  post: {count: 2, length: 700, width: 60, thickness: 44}\n"
              "joints:\n  post to foot: {kind: mortise and tenon, tenon: post, ends: left, into: foot, from: face edge, at: 240, fit: glued, depth: 52}\n"
              "profiles:\n  c: {kind: chamfer, piece: foot, arrises: face and face edge, width: 4}\n");
    expect_finding(&p, "profile-under-mate", TW_CARE, "runs where post stands against it (post to foot)", "`from` and `to`");
    done();
    look_over(STAND "profiles:\n  c: {kind: chamfer, piece: foot, arrises: face and back edge, width: 4}\n");
    expect_nothing();
    done();
}

#define TUSKED "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 600, width: 110, thickness: 45}\n  rail: {count: 1, length: 900, width: 50, thickness: 32}\n" \
    "joints:\n  rail to post: {kind: single tusk, tenon: rail, ends: both, through: post, from: face, at: 300}\n"

static void a_chamfer_beside_the_mouth_under_a_tusk_is_a_care(void **state)
{
    (void)state;
    look_over(TUSKED "profiles:\n  c: {kind: chamfer, piece: post, arrises: back, width: 4}\n");
    assert_null(finding(&p, "arris-under-tusk"));  // the mouth lies some 30 mm inside the edges
    done();
    look_over(TUSKED "profiles:\n  c: {kind: chamfer, piece: post, arrises: back, width: 36}\n");
    expect_finding(&p, "arris-under-tusk", TW_CARE, "where the tusk bears", "keep 12.0 mm");
    done();
}

static void a_chamfer_along_an_arris_that_an_arch_takes_is_a_care(void **state)
{
    (void)state;
    look_over(PIECE(1, 480, 78,
        50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 16}\n  c: {kind: chamfer, piece: foot, width: 4}\n");
    expect_finding(&p, "arris-moved", TW_CARE, "a takes the arris away along which c runs", "before and after");
    done();
    look_over(PIECE(1, 480, 78,
        50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 16}\n  c: {kind: chamfer, piece: foot, width: 4, to: 89}\n");
    expect_nothing();
    done();
}

static void an_arch_and_a_taper_that_take_the_same_wood_are_a_care(void **state)
{
    (void)state;
    look_over(PIECE(1, 480, 78,
        50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 16}\n  t: {kind: taper, piece: foot, sides: back edge, end: right, length: 200, by: 10}\n");
    expect_finding(&p, "profiles-meet", TW_CARE, "t and a take the same wood in part", "or part the two");
    done();
    look_over(PIECE(1, 480, 78,
        50) "profiles:\n  a: {kind: arch, piece: foot, from: 90, rise: 16}\n  t: {kind: taper, piece: foot, sides: face edge, end: right, length: 200, by: 10}\n");
    expect_nothing();
    done();
}

/* ---- the job's text ---- */

static void expect_wrong(const char *job, const char *what, const char *remedy)
{
    tw_arena arena = {0};
    tw_findings findings = { .arena = &arena };
    assert_null(tw_job_read(&arena, tw_text_of(job), "job.yaml", tw_joint_formats(&arena), tw_joint_kind_count, &findings));
    assert_true(findings.count > 0);
    CHECK_HOLDS(findings.items[0].what, what);
    CHECK_HOLDS(findings.items[0].remedy, remedy);
    tw_arena_finish(&arena);
}

static void a_kind_under_the_wrong_heading_is_told_where_it_belongs(void **state)
{
    (void)state;
    expect_wrong(PIECE(1, 480, 78, 50) "joints:\n  a: {kind: arch, piece: foot, from: 90, rise: 20}\n",
        "`arch` is no kind of joint", "write it under `profiles:`");
    expect_wrong(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: housing}\n", "`housing` is no kind of profile",
        "write it under `joints:`");
    expect_wrong(PIECE(1, 480, 78, 50) "profiles:\n  a: {kind: arc}\n", "`arc` is no kind of profile", "`arch` is meant?");
    expect_wrong(PIECE(1, 480, 78, 50) "profiles:\n  a: {piece: foot}\n", "has no `kind`",
        "`arch`, `taper`, `chamfer`, `round-over` or `rounded end`");
}

static void a_profile_takes_amounts_of_pieces_and_gives_its_own(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78,
        50) "profiles:\n  low arch: {kind: arch, piece: foot, from: foot.length / 6, rise: foot.width / 4}\n  other: {kind: arch, piece: foot, edge: face edge, from: low arch.from, rise: low arch.rise / 2}\n");
    CHECK_NEAR(figure(&p, 0, "from"), 80.0, 1e-9);
    CHECK_NEAR(figure(&p, 1, "from"), 80.0, 1e-9);
    CHECK_NEAR(figure(&p, 1, "rise"), 9.75, 1e-9);
    done();
}

/* ---- the run ---- */

static char *file_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) fail_msg("%s is not there", path);
    static char text[20000];
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    return text;
}

static tw_result *example(char *shop, size_t room)
{
    snprintf(shop, room, "%s", file_text("examples/joints/shop.yaml"));
    const char *job = file_text("examples/shaped-foot/job.yaml");
    return tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = shop,
        .shop_bytes = strlen(shop), .shop_name = "shop.yaml", .papers = true });
}

static int step_of(const tw_result *r, const char *name, bool last)
{
    int found = -1;
    for (int i = 0; i < r->run.count; i++)
        if (strstr(r->run.steps[i].name, name) && (last || found < 0)) found = i;
    if (found < 0) fail_msg("no step says %s", name);
    return found;
}

static void the_example_is_good_and_its_profiles_come_between_the_joints_and_the_glue(void **state)
{
    (void)state;
    static char shop[20000];
    tw_result *r = example(shop, sizeof shop);
    for (size_t i = 0; i < r->findings.count; i++)
        if (r->findings.items[i].level >= TW_HALT) print_error("%s\n", r->findings.items[i].what);
    assert_int_equal(tw_result_state(r), TW_STATE_GOOD);
    int mortise = step_of(r, "post to foot: mortise", true), tenon = step_of(r, "post to foot: tenon", false);
    int arch = step_of(r, "arch of the foot", false), taper = step_of(r, "top of the post", false), chamfer_first = step_of(r,
        "chamfer of the post", false), round = step_of(r, "round of the rail", true);
    int taper_last = step_of(r, "top of the post", true), glue = step_of(r, "glue", false), finish = step_of(r, "Finish", true);
    assert_true(mortise < arch && tenon < arch && tenon < taper);
    assert_true(taper_last < chamfer_first);
    assert_true(round < glue && chamfer_first < glue && glue < finish);
    tw_result_free(r);
}

static void the_example_has_a_sheet_for_each_profile_and_says_them_in_json(void **state)
{
    (void)state;
    static char shop[20000];
    tw_result *r = example(shop, sizeof shop);
    const tw_paper_pages *sheets = NULL;
    for (int i = 0; i < r->papers.count; i++)
        if (strcmp(r->papers.items[i].name, "profiles") == 0) sheets = &r->papers.items[i];
    assert_non_null(sheets);
    assert_true(sheets->page_count >= 5);
    tw_gather bytes = { .arena = &r->arena };
    tw_sink sink = tw_gather_sink(&bytes);
    assert_true(tw_result_put(r, TW_OUTPUT_JSON, sink.write, sink.context));
    const char *json = tw_gathered(&bytes).bytes;
    CHECK_HOLDS(json, "\"profiles\"");
    CHECK_HOLDS(json, "\"stations\"");
    CHECK_HOLDS(json, "\"profile\": \"arch of the foot\"");
    tw_result_free(r);
}

/* ---- drawings ---- */

static void drawings_keep_texts_apart_in_millimetres_and_fractions(void **state)
{
    (void)state;
    static const char *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" };
    static const char *const profiles[] = { "kind: arch, from: 70, rise: 20",
        "kind: arch, from: 7, to: 61, rise: 11, edge: face", "kind: taper, length: 333, by: 7",
        "kind: taper, sides: back, length: 60, by: 7",
        "kind: chamfer, width: 3, from: 31, to: 401", "kind: chamfer, width: 3, arrises: left end",
            "kind: round-over, radius: 9, arrises: all", "kind: rounded end",
            "kind: rounded end, corners: back edge, ends: left, radius: 5" };
    for (size_t i = 0; i < 4 * (sizeof profiles / sizeof *profiles); i++) {
        char job[800];
        snprintf(job, sizeof job,
            "job: test\nunits: mm\nfigures: %s\npieces:\n  the foot that stands nearest to the door of the pump house: {count: 2, length: 481.3, width: 63.7, thickness: 41.9}\n"
                 "profiles:\n  a: {piece: the foot that stands nearest to the door of the pump house, %s}\n", figures[i % 4],
                     profiles[i / 4]);
        plan_text(job);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        check_drawing(&p, 0);
        done();
    }
}

static void the_outline_handed_on_is_the_one_that_is_left(void **state)
{
    (void)state;
    plan_text(PIECE(1, 480, 78, 50) "profiles:\n  low arch: {kind: arch, piece: foot, from: 90, rise: 20}\n");
    const tw_sheet *sheet = tw_profile_dxf_sheet(&p.arena, p.job, &p.plans[0]);
    assert_string_equal(sheet->name, "low-arch");
    int cuts = 0, arcs = 0, stations = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        stations += item->role == TW_ROLE_CENTRE;
        if (item->kind != TW_ITEM_OUTLINE || item->role != TW_ROLE_CUT) continue;
        cuts++;
        CHECK_NEAR(tw_outline_area_mm2(item->outline), 480.0 * 78.0 - tw_segment_area_mm2(tw_segment_of(300.0, 20.0)), 1e-6);
        for (int v = 0; v < item->outline.loops[0].count; v++) arcs += item->outline.loops[0].vertices[v].bulge != 0.0;
    }
    assert_int_equal(cuts, 1);
    assert_int_equal(arcs, 1);       // a true arc, no chords
    assert_int_equal(stations, 15);  // the middle, and seven places to each side
    done();
}

/* An arch with 30 mm of the piece beside it; an end with both its corners; nothing of what is gauged. */
static void what_is_printed_full_size_is_the_curve_and_what_lies_beside_it(void **state)
{
    (void)state;
    static const struct { const char *keys; double x0, y0, x1, y1; bool any; } cases[] = {
        { "kind: arch, from: 90, rise: 20", 60.0, 28.0, 420.0, 78.0, true },
        { "kind: arch, from: 20, rise: 60, edge: face edge", 0.0, 0.0, 480.0, 78.0, true },
        { "kind: rounded end, radius: 20, ends: right", 410.0, 0.0, 480.0, 78.0, true },
        { "kind: rounded end, radius: 20", 0.0, 0.0, 70.0, 78.0, true },
        { "kind: taper, length: 200, by: 10", 0, 0, 0, 0, false },
        { "kind: round-over, radius: 5, arrises: ends", 0, 0, 0, 0, false },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char job[500];
        snprintf(job, sizeof job, PIECE(1, 480, 78, 50) "profiles:\n  a: {piece: foot, %s}\n", cases[i].keys);
        plan_text(job);
        tw_box box = tw_profile_print_box(p.job, &p.plans[0]);
        assert_int_equal(box.x0 <= box.x1, cases[i].any);
        if (cases[i].any) {
            CHECK_NEAR(box.x0, cases[i].x0, 1e-9);
            CHECK_NEAR(box.y0, cases[i].y0, 1e-9);
            CHECK_NEAR(box.x1, cases[i].x1, 1e-9);
            CHECK_NEAR(box.y1, cases[i].y1, 1e-9);
        }
        done();
    }
}

int main(void)
{
#define CASE(name) cmocka_unit_test(name)
    const struct CMUnitTest tests[] = {
        CASE(an_arch_has_the_radius_of_its_chord_and_rise),
        CASE(every_place_of_the_table_lies_on_the_circle),
        CASE(an_arch_takes_the_area_that_simpsons_rule_gives),
        CASE(an_arch_of_half_its_chord_is_a_half_circle),
        CASE(an_arch_lies_on_the_side_that_is_named),
        CASE(an_arch_that_cannot_be_is_refused_with_what_would_be_right),
        CASE(an_arch_that_takes_over_half_of_the_width_is_a_care),
        CASE(few_arches_are_made_by_hand_many_routed_and_small_ones_copied),
        CASE(a_copied_arch_comes_out_as_drawn),
        CASE(a_copied_arch_is_stopped_at_the_nearer_end),
        CASE(a_taper_of_four_sides_leaves_the_frustum_of_a_pyramid),
        CASE(a_taper_of_two_inner_sides_takes_their_wedges_once),
        CASE(a_taper_to_nothing_or_past_the_end_is_refused),
        CASE(what_is_measured_after_planing_is_what_the_figures_leave),
        CASE(chamfers_round_a_face_meet_in_mitres),
        CASE(a_stopped_chamfer_takes_half_a_square_over_its_length),
        CASE(a_round_over_takes_a_square_less_a_quarter_circle),
        CASE(each_arris_is_where_its_two_sides_meet),
        CASE(arrises_too_large_or_stopped_wrongly_are_refused),
        CASE(an_end_without_a_radius_becomes_a_half_circle),
        CASE(corners_are_rounded_where_they_are_named),
        CASE(a_radius_that_does_not_go_in_is_refused),
        CASE(an_arch_near_a_mortise_says_how_much_wood_is_left),
        CASE(an_arch_through_a_mortise_is_a_halt_with_the_place),
        CASE(a_low_arch_beside_a_mortise_is_no_matter_though_their_boxes_meet),
        CASE(a_taper_over_a_shoulder_is_a_halt),
        CASE(a_rounded_end_with_a_tenon_is_a_halt),
        CASE(a_chamfer_over_a_shoulder_is_a_care_and_stopped_before_it_is_none),
        CASE(a_chamfer_where_another_piece_stands_is_a_care),
        CASE(a_chamfer_beside_the_mouth_under_a_tusk_is_a_care),
        CASE(a_chamfer_along_an_arris_that_an_arch_takes_is_a_care),
        CASE(an_arch_and_a_taper_that_take_the_same_wood_are_a_care),
        CASE(a_kind_under_the_wrong_heading_is_told_where_it_belongs),
        CASE(a_profile_takes_amounts_of_pieces_and_gives_its_own),
        CASE(the_example_is_good_and_its_profiles_come_between_the_joints_and_the_glue),
        CASE(the_example_has_a_sheet_for_each_profile_and_says_them_in_json),
        CASE(drawings_keep_texts_apart_in_millimetres_and_fractions),
        CASE(the_outline_handed_on_is_the_one_that_is_left),
        CASE(what_is_printed_full_size_is_the_curve_and_what_lies_beside_it),
    };
    return cmocka_run_group_tests_name("profiles", tests, NULL, NULL);
}
