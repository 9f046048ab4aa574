// SPDX-License-Identifier: GPL-3.0-or-later
/* Templates of works. Outside checks, by id of the table of published figures: 8-13 opening for a guide bush, 8-14 and 8-15
 * copying ratio (here r = 1/k), and the trade's own "3/8 in cutter, 19 mm follower: the template is very nearly twice the
 * cut". The rest is worked by hand beside the check. The geometry itself is checked in the tests of copy. */
#include "check.h"

#include "template/parts.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

/* ---- a small shop and job ---- */

typedef struct bench {
    tw_job        job;
    tw_shop       shop;
    tw_cutter     cutters[12];
    tw_follower   followers[12];
    tw_joint      joints[4];
    tw_joint_plan plans[4];
    tw_findings   findings;
} bench;

static tw_amount amount(double value) { return (tw_amount){ .value = value, .given = true }; }

static void own_cutter(bench *b, const char *name, double d_mm, double length_mm, bool plunges)
{
    b->cutters[b->shop.cutter_count++] = (tw_cutter){ .name = name, .diameter = amount(d_mm), .d_mm = d_mm,
        .cutting_length = amount(length_mm), .plunges = { .value = plunges } };
}

static void own_follower(bench *b, const char *name, double b_mm)
{
    b->followers[b->shop.follower_count++] = (tw_follower){ .name = name, .diameter = amount(b_mm), .b_mm = b_mm, .length = amount(9) };
}

/* Ratio, template stock 12 mm, holder as large as one likes; no cutters and followers yet. */
static bench *bench_of(double ratio)
{
    bench *b = TW_NEW(&arena, bench);
    b->job.figures = (tw_figures){ .style = TW_FIGURES_MM, .decimals = 1 };
    b->shop.machine.ratio = amount(ratio);
    b->shop.strip_thickness = amount(12);
    b->shop.cutters = b->cutters, b->shop.followers = b->followers;
    b->findings.arena = &arena;
    static const char *const names[4] = { "stretcher to post", "post to foot", "rail", "shelf" };
    for (int p = 0; p < 4; p++) {
        b->joints[p].name = names[p];
        b->joints[p].place = (tw_place){ "job.yaml", 10 + p, 3 };
        b->plans[p] = (tw_joint_plan){ .joint = &b->joints[p], .index = p, .works = TW_NEW_ARRAY(&arena, tw_work, 4000) };
    }
    return b;
}

/* The shop that most cases use: ratio 2; 6, 9.5 and 12 mm cutters; 10, 12, 16, 19 and 24 mm followers. */
static bench *usual_bench(void)
{
    bench *b = bench_of(2);
    own_cutter(b, "6 straight", 6, 25, true);
    own_cutter(b, "9.5 straight", 9.5, 30, true);
    own_cutter(b, "12 straight", 12, 40, true);
    own_follower(b, "pin 10", 10);
    own_follower(b, "pin 12", 12);
    own_follower(b, "pin 16", 16);
    own_follower(b, "pin 19", 19);
    own_follower(b, "pin 24", 24);
    return b;
}

static tw_copy_want *cut(bench *b, int plan, const char *name, tw_outline outline, bool inside)
{
    tw_joint_plan *p = &b->plans[plan];
    tw_work *w = &p->works[p->work_count++];
    *w = (tw_work){ .name = name, .way = TW_WAY_COPY, .copied = true, .count = 2, .pieces = 2,
                    .copy = { .cut = outline, .inside = inside, .depth_mm = 10 } };
    return &w->copy;
}

static tw_outline rectangle(double width, double height) { return tw_outline_rectangle(&arena, -width / 2, -height / 2, width / 2, height / 2); }

/* A housing as tusks want it: left wall plumb at -c, right wall k at the middle and leaning, level ends at +-half. */
static tw_outline housing(double c, double k, double degrees, double half)
{
    double lean = half * tan(tw_radians(degrees));
    const tw_vertex v[4] = { { -c, -half, 0 }, { k - lean, -half, 0 }, { k + lean, half, 0 }, { -c, half, 0 } };
    return tw_outline_of_loop(&arena, v, 4);
}

static tw_templates make(bench *b) { return tw_templates_make(&arena, &b->job, &b->shop, b->plans, 4, &b->findings); }

static const tw_finding *finding(const bench *b, const char *code)
{
    for (size_t i = 0; i < b->findings.count; i++)
        if (strcmp(b->findings.items[i].code, code) == 0) return &b->findings.items[i];
    return NULL;
}

static double across(tw_outline o) { tw_box box = tw_outline_bounds(o); return box.x1 - box.x0; }
static double up(tw_outline o) { tw_box box = tw_outline_bounds(o); return box.y1 - box.y0; }
static const char *cutter_of(const bench *b, const tw_template *t) { return b->cutters[t->cutter].name; }
static const char *follower_of(const bench *b, const tw_template *t) { return b->followers[t->follower].name; }

/* ---- published figures ---- */

static void opening_for_a_guide_bush_is_the_published_one(void **state)
{
    (void)state;
    bench *b = bench_of(1);  // 8-13: opening 8 by 4 in, 3/4 in bush, 1/4 in bit: 8 1/2 by 4 1/2 in
    own_cutter(b, "1/4", 6.35, 30, true);
    own_follower(b, "bush 3/4", 19.05);
    cut(b, 0, "opening", rectangle(8 * 25.4, 4 * 25.4), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 1);
    CHECK_NEAR(across(t.items[0].copy.template_), 8.5 * 25.4, 1e-6);
    CHECK_NEAR(up(t.items[0].copy.template_), 4.5 * 25.4, 1e-6);
    assert_null(finding(b, "corners-lost"));  // a larger bush loses nothing of a pocket whose corners all point outward
}

static void template_widths_are_the_published_ones(void **state)
{
    (void)state;
    for (int follower = 12; follower >= 10; follower -= 2) {  // 8-14 and 8-15: k 0.5, bit 6, T 30
        bench *b = bench_of(2);
        own_cutter(b, "6", 6, 30, true);
        own_follower(b, "pin", follower);
        cut(b, 0, "mortise", rectangle(30, 60), true);
        cut(b, 0, "tenon", rectangle(30, 60), false);
        tw_templates t = make(b);
        CHECK_NEAR(across(t.items[0].copy.template_), follower == 12 ? 60 : 58, 1e-6);
        CHECK_NEAR(across(t.items[1].copy.template_), follower == 12 ? 60 : 62, 1e-6);
    }
}

static void fits_move_half_a_millimetre_for_each_of_the_follower(void **state)
{
    (void)state;
    bench *b = bench_of(2);
    own_cutter(b, "6", 6, 30, true);
    for (int i = 0; i < 4; i++) own_follower(b, tw_format(&arena, "pin %d", 9 + i), 9 + i);
    cut(b, 0, "mortise", rectangle(30, 60), true)->follower = "pin 11";
    cut(b, 0, "tenon", rectangle(30, 60), false)->follower = "pin 11";
    tw_templates t = make(b);
    for (int i = 0; i < 4; i++) {  // 8-15: each 1 mm of follower changes the cut by k = 0.5 mm
        CHECK_NEAR(t.items[0].fits[i].width_change_mm, 0.5 * (2 - i), 1e-12);
        CHECK_NEAR(t.items[1].fits[i].width_change_mm, -0.5 * (2 - i), 1e-12);
        CHECK_NEAR(t.items[0].fits[i].wall_change_mm, 0.25 * (2 - i), 1e-12);
        CHECK_NEAR(t.items[1].fits[i].wall_change_mm, 0.25 * (2 - i), 1e-12);
        assert_true(t.items[0].fits[i].enters && t.items[1].fits[i].enters);
    }
    assert_int_equal(t.items[0].fit_count, 4);
}

static void nearly_double_template_of_the_trade_is_proposed_as_a_pair(void **state)
{
    (void)state;
    bench *b = bench_of(2);
    own_cutter(b, "1/4", 6.35, 25, true);
    own_cutter(b, "3/8", 9.525, 25, true);
    own_follower(b, "15", 15);
    own_follower(b, "19", 19);
    own_follower(b, "12.8", 12.8);
    tw_templates t = make(b);
    assert_int_equal(t.pair_count, 2);
    assert_true(t.pairs[0].cutter == 0 && t.pairs[0].follower == 2);
    CHECK_NEAR(t.pairs[0].off_mm, 0.1, 1e-9);
    assert_true(t.pairs[1].cutter == 1 && t.pairs[1].follower == 1);
    CHECK_NEAR(t.pairs[1].off_mm, -0.05, 1e-9);
    assert_int_equal(t.count, 0);
}

/* ---- the cutter ---- */

static void largest_cutter_that_fits_is_chosen(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "wide", rectangle(40, 60), true);
    cut(b, 0, "narrow", rectangle(10, 60), true);
    cut(b, 0, "limited", rectangle(40, 61), true)->cutter_most_mm = 9.5;
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "12 straight");
    assert_string_equal(cutter_of(b, &t.items[1]), "9.5 straight");
    assert_string_equal(cutter_of(b, &t.items[2]), "9.5 straight");
    assert_int_equal(b->findings.count, 0);
}

static void cutter_as_wide_as_the_slot_still_fits_and_is_given_play(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.play = amount(0.1);
    cut(b, 0, "slot", tw_outline_rounded(&arena, -40, -4.75, 40, 4.75, 4.75), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 1);
    assert_string_equal(cutter_of(b, &t.items[0]), "9.5 straight");
    assert_true(t.items[0].copy.tight);
    CHECK_NEAR(up(t.items[0].copy.template_), 19 + 0.1, 1e-3);  // r(w - d) + b and the play
}

static void cutter_that_leaves_a_tenth_of_the_pocket_stands_back(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "square", rectangle(12, 12), true);  // 12 mm would leave (4 - pi)/4 = 21 %, 9.5 mm 13 %, 6 mm 5 %
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "6 straight");
    b->cutters[0].cutting_length.value = 5;  // too short now: of the two that leave over a tenth the smaller one is taken
    t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "9.5 straight");
}

static void rounded_corners_may_not_stay_larger_than_allowed(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "mortise", rectangle(40, 60), true)->corner_most_mm = 5;  // radius 6 of the 12 mm cutter is too much
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "9.5 straight");
}

static void short_cutter_is_passed_over(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_cutter(b, "16 short", 16, 12, true);
    cut(b, 0, "shallow", rectangle(40, 60), true)->depth_mm = 12;
    cut(b, 0, "deep", rectangle(40, 60), true)->depth_mm = 12.1;
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "16 short");
    assert_string_equal(cutter_of(b, &t.items[1]), "12 straight");
}

static void only_a_cutter_that_plunges_is_chosen_for_a_pocket(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_cutter(b, "14 trim", 14, 40, false);
    cut(b, 0, "mortise", rectangle(40, 60), true);
    cut(b, 0, "tenon", rectangle(40, 60), false);
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "12 straight");
    assert_string_equal(cutter_of(b, &t.items[1]), "14 trim");
}

static void own_dovetail(bench *b, const char *name, double d_mm, double degrees)
{
    own_cutter(b, name, d_mm, 14, false);
    b->cutters[b->shop.cutter_count - 1].dovetail = amount(tw_radians(degrees));
}

static void dovetail_cutter_is_taken_for_no_cut_with_upright_walls(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_dovetail(b, "dovetail 19", 19, 14);  // the largest of all: a tenon would take it, were it straight
    own_follower(b, "pin 38", 38);
    cut(b, 0, "mortise", rectangle(40, 60), true);
    cut(b, 0, "tenon", rectangle(40, 60), false);
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "12 straight");
    assert_string_equal(cutter_of(b, &t.items[1]), "12 straight");
    for (int i = 0; i < t.pair_count; i++) assert_true(t.pairs[i].cutter < 3);
    assert_int_equal(b->findings.count, 0);
}

static void slanting_walls_take_a_dovetail_cutter_of_their_angle_though_it_does_not_plunge(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_dovetail(b, "dovetail 12.7", 12.7, 14);
    own_dovetail(b, "dovetail 9.5", 9.5, 8);
    cut(b, 0, "sockets at 8", rectangle(13, 60), true)->dovetail_rad = tw_radians(8);
    cut(b, 0, "sockets at 14", rectangle(13, 60), true)->dovetail_rad = tw_radians(14);
    tw_templates t = make(b);
    assert_int_equal(t.count, 2);  // like outlines, but not one template for two angles
    assert_string_equal(cutter_of(b, &t.items[0]), "dovetail 9.5");
    assert_string_equal(cutter_of(b, &t.items[1]), "dovetail 12.7");
    CHECK_NEAR(across(t.items[1].copy.cutter_path), 13 - 12.7, 1e-9);
    assert_int_equal(b->findings.count, 0);
}

static void cutter_whose_sides_do_not_stand_as_the_walls_is_refused_though_named(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_dovetail(b, "dovetail 12.7", 12.7, 14);
    cut(b, 0, "mortise", rectangle(40, 60), true)->cutter = "dovetail 12.7";
    tw_copy_want *socket = cut(b, 1, "socket", rectangle(14, 60), true);
    socket->cutter = "12 straight", socket->dovetail_rad = tw_radians(14);
    tw_copy_want *eight = cut(b, 2, "other angle", rectangle(14, 60), true);
    eight->cutter = "dovetail 12.7", eight->dovetail_rad = tw_radians(8);
    assert_int_equal(make(b).count, 0);
    assert_int_equal(b->findings.count, 3);
    for (int i = 0; i < 3; i++) {
        assert_string_equal(b->findings.items[i].code, "cutter-slants");
        assert_int_equal(b->findings.items[i].level, TW_HALT);
    }
    CHECK_HOLDS(b->findings.items[0].what, "the cut \"mortise\" has upright walls");
    CHECK_HOLDS(b->findings.items[1].remedy, "a dovetail cutter of 14");
    CHECK_HOLDS(b->findings.items[2].what, "slant by 8");
}

static void slanting_walls_without_a_cutter_of_their_angle_are_refused(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_dovetail(b, "dovetail 12.7", 12.7, 14);
    cut(b, 0, "socket", rectangle(13, 60), true)->dovetail_rad = tw_radians(7);
    assert_int_equal(make(b).count, 0);
    CHECK_HOLDS(finding(b, "cutter-none")->what, "a dovetail cutter of 7");
}

static void cutter_must_get_between_twin_tenons(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_outline twins = { TW_NEW_ARRAY(&arena, tw_loop, 2), 2 };
    twins.loops[0] = tw_outline_rectangle(&arena, -30, -20, -5, 20).loops[0];
    twins.loops[1] = tw_outline_rectangle(&arena, 5, -20, 30, 20).loops[0];
    cut(b, 0, "twin tenons", twins, false);
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "9.5 straight");  // 10 mm between them
}

static void named_cutter_and_follower_are_used_as_asked(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_copy_want *want = cut(b, 0, "mortise", rectangle(40, 60), true);
    want->cutter = "6 straight", want->follower = "pin 16";
    tw_templates t = make(b);
    assert_string_equal(cutter_of(b, &t.items[0]), "6 straight");
    assert_string_equal(follower_of(b, &t.items[0]), "pin 16");
    CHECK_NEAR(across(t.items[0].copy.template_), 2 * (40 - 6) + 16, 1e-6);
}

static void named_cutter_against_the_rules_is_a_care(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_cutter(b, "14 trim", 14, 40, false);
    tw_copy_want *want = cut(b, 0, "mortise", rectangle(40, 60), true);
    want->cutter = "14 trim", want->corner_most_mm = 5;
    tw_templates t = make(b);
    assert_int_equal(t.count, 1);
    assert_int_equal(finding(b, "cutter-plunge")->level, TW_CARE);
    CHECK_HOLDS(finding(b, "cutter-corner")->what, "radius 7.0 mm");
    assert_null(finding(b, "cutter-neck"));
}

static void named_cutter_that_misses_a_neck_is_a_care(void **state)
{
    (void)state;
    bench *b = usual_bench();
    const tw_vertex dumbbell[] = { { -40, -20, 0 }, { -10, -20, 0 }, { -10, -4, 0 }, { 10, -4, 0 }, { 10, -20, 0 }, { 40, -20, 0 },
                                   { 40, 20, 0 }, { 10, 20, 0 }, { 10, 4, 0 }, { -10, 4, 0 }, { -10, 20, 0 }, { -40, 20, 0 } };
    cut(b, 0, "two rooms", tw_outline_of_loop(&arena, dumbbell, 12), true)->cutter = "12 straight";
    make(b);
    assert_int_equal(finding(b, "cutter-neck")->level, TW_CARE);
    CHECK_HOLDS(finding(b, "cutter-neck")->remedy, "at most 8.0 mm");  // the neck's width
}

/* ---- refusals ---- */

static void unknown_names_are_wrong_and_the_nearest_is_said(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 1, "mortise", rectangle(40, 60), true)->cutter = "9.5 strait";
    cut(b, 1, "tenon", rectangle(40, 60), false)->follower = "pin 18";
    cut(b, 1, "housing", rectangle(40, 60), true)->cutter = "a chainsaw";
    tw_templates t = make(b);
    assert_int_equal(t.count, 0);
    assert_int_equal(b->findings.count, 3);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(b->findings.items[i].level, TW_WRONG);
        assert_int_equal(b->findings.items[i].place.line, 11);
        assert_string_equal(b->findings.items[i].about, "post to foot");
    }
    CHECK_HOLDS(b->findings.items[0].what, "no cutter named \"9.5 strait\"");
    CHECK_HOLDS(b->findings.items[0].remedy, "\"9.5 straight\"");
    CHECK_HOLDS(b->findings.items[1].remedy, "\"pin 1");
    CHECK_HOLDS(b->findings.items[2].remedy, "it has \"6 straight\", \"9.5 straight\"");
    assert_null(tw_template_of(&t, 1, 0));
}

static void cut_too_narrow_for_every_cutter_is_refused_with_the_largest_that_would_do(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "slit", rectangle(5, 60), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 0);
    assert_int_equal(finding(b, "cutter-none")->level, TW_HALT);
    CHECK_HOLDS(finding(b, "cutter-none")->what, "\"slit\"");
    CHECK_HOLDS(finding(b, "cutter-none")->remedy, "at most 5.0 mm");
}

static void cut_too_deep_for_every_cutter_is_refused_with_the_longest(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "deep", rectangle(11, 60), true)->depth_mm = 35;  // the 12 mm cutter is long enough, but too thick
    make(b);
    CHECK_HOLDS(finding(b, "cutter-none")->what, "35.0 mm deep and at its end");
    CHECK_HOLDS(finding(b, "cutter-none")->remedy, "cuts 30.0 mm deep");
}

static void named_cutter_that_does_not_go_in_is_refused(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "slit", rectangle(8, 60), true)->cutter = "12 straight";
    tw_templates t = make(b);
    assert_int_equal(t.count, 0);
    assert_int_equal(finding(b, "template-none")->level, TW_HALT);
    CHECK_HOLDS(finding(b, "template-none")->what, "cutter \"12 straight\"");
    CHECK_HOLDS(finding(b, "template-none")->remedy, "largest cutter that would do is 8.0 mm");
}

static void tenon_too_small_for_the_follower_is_refused_with_the_largest_that_would_do(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    own_cutter(b, "3", 3, 30, true);
    own_follower(b, "bush 17", 17);
    cut(b, 0, "tenon", rectangle(10, 40), false);  // r(w + d) = 13 mm is all that a follower may be
    tw_templates t = make(b);
    assert_int_equal(t.count, 0);
    assert_int_equal(finding(b, "template-none")->level, TW_HALT);
    CHECK_HOLDS(finding(b, "template-none")->remedy, "under 13.0 mm");
}

static void shop_without_cutters_or_followers_is_refused(void **state)
{
    (void)state;
    bench *b = bench_of(2);
    cut(b, 0, "mortise", rectangle(10, 40), true);
    assert_int_equal(make(b).count, 0);
    assert_int_equal(finding(b, "follower-none")->level, TW_HALT);
    own_follower(b, "pin", 12);
    assert_int_equal(make(b).count, 0);
    assert_int_equal(finding(b, "cutter-none")->level, TW_HALT);
}

/* ---- the follower ---- */

static void follower_of_ratio_times_cutter_is_preferred(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "limited", rectangle(40, 60), true)->cutter_most_mm = 9.5;
    cut(b, 0, "wide", rectangle(41, 60), true);
    tw_templates t = make(b);
    assert_string_equal(follower_of(b, &t.items[0]), "pin 19");
    assert_string_equal(follower_of(b, &t.items[1]), "pin 24");
    CHECK_NEAR(across(t.items[0].copy.template_), 80, 1e-6);  // r times the cut
}

static void without_a_pair_the_largest_follower_that_loses_nothing_is_taken(void **state)
{
    (void)state;
    bench *b = usual_bench();
    own_cutter(b, "11", 11, 30, true);  // 2 x 11 = 22: 19 is the largest under it
    cut(b, 0, "tenon", rectangle(40, 60), false)->cutter = "11";
    tw_templates t = make(b);
    assert_string_equal(follower_of(b, &t.items[0]), "pin 19");
    CHECK_NEAR(t.items[0].copy.lost_area_mm2, 0, 1e-6);
    assert_null(finding(b, "corners-lost"));
}

static void guide_bush_that_rounds_the_tenon_is_a_care_with_its_radius(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    own_cutter(b, "1/2", 12.7, 40, true);
    own_follower(b, "bush 40", 40);
    own_follower(b, "bush 30", 30);
    cut(b, 0, "tenon", rectangle(40, 60), false);
    tw_templates t = make(b);
    assert_string_equal(follower_of(b, &t.items[0]), "bush 30");  // the least loss
    assert_int_equal(finding(b, "corners-lost")->level, TW_CARE);
    CHECK_HOLDS(finding(b, "corners-lost")->what, "8.7 mm");      // (30 - 12.7)/2 = 8.65, design section 5
    CHECK_HOLDS(finding(b, "corners-lost")->remedy, "at most 12.7 mm");
}

static void larger_follower_than_the_slot_does_not_enter(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_copy_want *want = cut(b, 0, "slot", rectangle(11, 60), true);
    want->cutter = "9.5 straight", want->follower = "pin 16";
    tw_templates t = make(b);  // opening 2 (11 - 9.5) + 16 = 19 mm wide
    const bool enters[5] = { true, true, true, true, false };
    for (int i = 0; i < 5; i++) assert_int_equal(t.items[0].fits[i].enters, enters[i]);
}

/* ---- sharing ---- */

static void like_cuts_of_all_joints_share_one_template(void **state)
{
    (void)state;
    bench *b = usual_bench();
    const tw_vertex turned[] = { { 20, 30, 0 }, { -20, 30, 0 }, { -20, -30, 0 }, { 20, -30, 0 } };  // the same, from another corner
    cut(b, 0, "mortise", rectangle(40, 60), true);
    cut(b, 2, "mortise", rectangle(40, 60), true)->depth_mm = 14;
    cut(b, 1, "mortise", tw_outline_of_loop(&arena, turned, 4), true);
    cut(b, 3, "mortise", rectangle(40 - 4e-7, 60 - 4e-7), true);  // on the two sides of a rounded size
    tw_templates t = make(b);
    assert_int_equal(t.count, 1);
    assert_int_equal(t.items[0].work_count, 4);
    assert_int_equal(t.items[0].works[2], 1);  // in the order of the plans
    for (int p = 0; p < 4; p++) assert_ptr_equal(tw_template_of(&t, p, 0), &t.items[0]);
    assert_false(t.items[0].turned_over);
}

static void unlike_cuts_have_templates_of_their_own_named_in_order(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "mortise", rectangle(40, 60), true);
    cut(b, 0, "a hair wider", rectangle(40.0001, 60), true);
    cut(b, 0, "tenon", rectangle(40, 60), false);
    cut(b, 1, "other cutter", rectangle(40, 60), true)->cutter = "6 straight";
    cut(b, 1, "moved", tw_outline_moved(&arena, rectangle(40, 60), 1, 0), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 5);
    for (int i = 0; i < 5; i++) assert_string_equal(t.items[i].name, tw_format(&arena, "T%d", i + 1));
    assert_string_equal(t.items[3].title, "post to foot: other cutter");
    assert_int_equal(t.items[3].joint, 1);
}

static void both_hands_share_a_template_that_is_turned_over(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.turns_over.value = 1;
    tw_outline right = housing(1.6, 16, 5, 30);
    cut(b, 0, "housings, right hand", right, true);
    cut(b, 0, "housings, left hand", tw_outline_mirrored(&arena, right), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 1);
    assert_true(t.items[0].turned_over);
    assert_false(tw_template_turned(&t, 0, 0));
    assert_true(tw_template_turned(&t, 0, 1));
    assert_true(t.items[0].turned[1] && !t.items[0].turned[0]);
    assert_string_equal(t.items[0].title, "stretcher to post: housings");
    CHECK_HOLDS(t.items[0].making, "on both faces");
}

static void each_hand_has_its_own_template_where_none_is_turned_over(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_outline right = housing(1.6, 16, 5, 30);
    cut(b, 0, "housings, right hand", right, true);
    cut(b, 0, "housings, left hand", tw_outline_mirrored(&arena, right), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 2);
    assert_false(t.items[0].turned_over || t.items[1].turned_over);
    assert_string_equal(t.items[1].title, "stretcher to post: housings, left hand");
    CHECK_HOLDS(t.items[1].making, "mirror image of T1");
    assert_null(strstr(t.items[0].making, "mirror"));
    assert_null(strstr(t.items[0].making, "both faces"));
}

static void cut_that_is_its_own_mirror_image_is_not_turned_over(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.turns_over.value = 1;
    cut(b, 0, "mortise", rectangle(40, 60), true);
    cut(b, 1, "mortise", tw_outline_mirrored(&arena, rectangle(40, 60)), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 1);
    assert_false(t.items[0].turned_over);
}

static void works_that_are_not_copied_have_no_template(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "mortise", rectangle(40, 60), true);
    b->plans[0].works[b->plans[0].work_count++] = (tw_work){ .name = "chop the corners", .way = TW_WAY_CHISEL };
    tw_templates t = make(b);
    assert_non_null(tw_template_of(&t, 0, 0));
    assert_null(tw_template_of(&t, 0, 1));
    assert_false(tw_template_turned(&t, 0, 1));
}

static void sharing_is_found_among_thousands(void **state)
{
    (void)state;
    bench *b = usual_bench();
    for (int i = 0; i < 3000; i++) cut(b, 0, "mortise", rectangle(30 + 0.5 * (i % 20), 60), true);
    tw_templates t = make(b);
    assert_int_equal(t.count, 20);
    for (int i = 0; i < 3000; i++) assert_int_equal(t.uses[0][i].template_index, i % 20);
}

/* ---- the board ---- */

static void board_is_centred_and_leaves_walls_of_25(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "housing", housing(1.6, 16, 5, 30), true);
    tw_templates t = make(b);
    const tw_template *one = &t.items[0];
    tw_box board = tw_outline_bounds(one->board), opening = tw_outline_bounds(one->copy.template_);
    CHECK_NEAR(board.x0 + board.x1, 0, 1e-9);
    CHECK_NEAR(board.y0 + board.y1, 0, 1e-9);
    CHECK_NEAR(board.x1, ceil(opening.x1 + 25), 1e-9);  // the farther side decides
    assert_true(opening.x0 - board.x0 > 24.999999 && board.y1 - opening.y1 > 24.999999 && opening.y0 - board.y0 > 24.999999);
    for (int i = 0; i < one->hole_count; i++) {
        double to_opening = tw_outline_distance(one->view, one->holes[i]), to_edge = tw_outline_distance(one->board_view, one->holes[i]);
        assert_int_equal(tw_outline_side(one->board_view, one->holes[i]), 1);
        assert_int_equal(tw_outline_side(one->view, one->holes[i]), -1);
        assert_true(to_edge - one->counterbore_mm / 2 > 5 && to_opening - one->counterbore_mm / 2 > 5);
    }
    assert_int_equal(one->hole_count, 4);
    assert_true(one->counterbore_mm > one->hole_mm);
}

static void board_larger_than_the_holder_is_refused_with_its_size(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.holder_across = amount(120), b->shop.machine.holder_up = amount(300);
    cut(b, 0, "mortise", rectangle(40, 60), true);  // opening 80 by 120 (24 mm follower), board 130 by 170
    make(b);
    const tw_finding *f = finding(b, "template-large");
    assert_int_equal(f->level, TW_HALT);
    CHECK_HOLDS(f->what, "130.0 mm across and 170.0 mm up, and the holder takes 120.0 mm by 300.0 mm");
    CHECK_HOLDS(f->remedy, "80.0 mm by 120.0 mm");
}

static void board_may_lie_off_centre_to_get_into_the_holder(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.holder_across = amount(120), b->shop.machine.holder_up = amount(300);
    cut(b, 0, "mortise", tw_outline_rectangle(&arena, 0, -30, 30, 30), true);  // opening 0 to 60: board -25 to 85
    tw_templates t = make(b);
    assert_null(finding(b, "template-large"));
    CHECK_NEAR(tw_outline_bounds(t.items[0].board).x0, -25, 1e-9);
    CHECK_NEAR(tw_outline_bounds(t.items[0].board).x1, 85, 1e-9);
    CHECK_HOLDS(t.items[0].making, "25.0 mm from its left edge");
}

static void board_that_is_turned_over_must_be_centred(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.turns_over.value = 1;
    b->shop.machine.holder_across = amount(120), b->shop.machine.holder_up = amount(300);
    tw_outline right = tw_outline_rectangle(&arena, 0, -30, 30, 30);
    cut(b, 0, "right", right, true);
    cut(b, 0, "left", tw_outline_mirrored(&arena, right), true);
    tw_templates t = make(b);
    CHECK_NEAR(tw_outline_bounds(t.items[0].board).x0, -85, 1e-9);
    assert_non_null(finding(b, "template-large"));
}

static void body_stands_on_a_carrier_with_room_for_follower_and_rim(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "tenon", rectangle(40, 60), false)->waste_mm = 20;
    tw_templates t = make(b);  // 12 mm cutter, 24 mm follower: body 80 by 120; rim 24 + 2 (20 - 12 + 2) = 44
    CHECK_NEAR(across(t.items[0].copy.template_), 80, 1e-6);
    CHECK_NEAR(t.items[0].rim_mm, 44, 1e-9);
    CHECK_NEAR(across(t.items[0].board), 80 + 2 * (44 + 20), 1e-6);
    CHECK_HOLDS(t.items[0].making, "carrier board");
    assert_false(t.items[0].straight);
}

static void rim_is_left_out_where_the_holder_has_no_room(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->shop.machine.holder_across = amount(200), b->shop.machine.holder_up = amount(250);
    cut(b, 0, "tenon", rectangle(40, 60), false)->waste_mm = 20;
    tw_templates t = make(b);
    CHECK_NEAR(t.items[0].rim_mm, 0, 0);
    CHECK_NEAR(across(t.items[0].board), 80 + 2 * (24 + 20), 1e-6);
    CHECK_HOLDS(t.items[0].clearing, "machine's own stops");
    assert_null(finding(b, "template-large"));
}

static void follower_is_held_against_the_thickness(void **state)
{
    (void)state;
    static const struct { double length, thickness; const char *code; } cases[] = {
        { 9, 12, NULL }, { 11.5, 12, NULL }, { 11.6, 12, "follower-long" }, { 13, 12, "follower-long" }, { 6, 12, NULL }, { 5.9, 12, "follower-short" },
        { 0, 12, NULL }, { 14, 0, NULL },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bench *b = usual_bench();
        b->shop.strip_thickness.value = cases[i].thickness;
        for (int f = 0; f < 5; f++) b->followers[f].length.value = cases[i].length;
        cut(b, 0, "mortise", rectangle(40, 60), true);
        tw_templates t = make(b);
        if (cases[i].code) assert_int_equal(finding(b, cases[i].code)->level, TW_CARE);
        else assert_int_equal(b->findings.count, 0);
        CHECK_NEAR(t.items[0].thickness_mm, cases[i].thickness > 0 ? cases[i].thickness : 15, 1e-9);  // 14 and one more
    }
}

/* ---- views ---- */

static void maker_sees_the_template_as_the_machine_shows_it(void **state)
{
    (void)state;
    static const struct { int turned, back; double sx, sy; } cases[] = { { 0, 0, 1, 1 }, { 1, 0, -1, -1 }, { 0, 1, -1, 1 }, { 1, 1, 1, -1 } };
    tw_outline shape = tw_outline_rectangle(&arena, 1, 2, 5, 9);
    for (int i = 0; i < 4; i++) {
        tw_machine machine = { .copy = { .value = cases[i].turned }, .seen_from = { .value = cases[i].back } };
        tw_box box = tw_outline_bounds(tw_machine_view(&arena, &machine, shape));
        CHECK_NEAR(box.x0, cases[i].sx > 0 ? 1 : -5, 1e-9);
        CHECK_NEAR(box.y0, cases[i].sy > 0 ? 2 : -9, 1e-9);
        assert_true(tw_outline_area_mm2(tw_machine_view(&arena, &machine, shape)) > 0);
    }
}

/* ---- words ---- */

static void guides_show_their_sums(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_copy_want *want = cut(b, 0, "mortise", rectangle(16, 38), true);
    want->cutter = "9.5 straight", want->follower = "pin 16";
    tw_templates t = make(b);
    CHECK_HOLDS(t.items[0].guides, "upright");
    CHECK_HOLDS(t.items[0].guides, "r(w - d) + b = 2 x (16.0 - 9.5) + 16.0 = 29.0 mm");
    CHECK_HOLDS(t.items[0].guides, "r(w - d) + b = 2 x (38.0 - 9.5) + 16.0 = 73.0 mm");
}

/* By hand: d 9.5, b 19, cos 5 = 0.996195. Left wall 1.6 out: 2 (1.6 - 4.75) + 9.5 = 3.2. Right wall 16 at the middle:
 * 2 (16 - 4.75/cos) + 9.5/cos = 32 (r d = b: the halves cancel). Stops 2 (60 - 9.5) + 19 = 120 apart. */
static void guides_of_a_housing_lean_with_its_wall(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "housing", housing(1.6, 16, 5, 30), true)->cutter = "9.5 straight";
    tw_templates t = make(b);
    CHECK_HOLDS(t.items[0].guides, "left guide upright, 3.2 mm to the left");
    CHECK_HOLDS(t.items[0].guides, "= 2 x (1.6 - 4.8) + 9.5");
    CHECK_HOLDS(t.items[0].guides, "right guide leaning 5.0° from upright, 32.0 mm to the right");
    CHECK_HOLDS(t.items[0].guides, "= 120.0 mm");
    assert_true(t.items[0].straight);
    assert_int_equal(t.items[0].strip_count, 4);
    CHECK_NEAR(t.items[0].strips[3].angle_rad, tw_radians(5), 1e-9);  // the strip is ripped at the wedge's angle
}

static void guides_off_the_centre_are_set_one_by_one(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_copy_want *want = cut(b, 0, "mortise", tw_outline_rectangle(&arena, -4, -19, 12, 19), true);
    want->cutter = "9.5 straight", want->follower = "pin 16";
    tw_templates t = make(b);  // left: 2 (4 - 4.75) + 8 = 6.5; right: 2 (12 - 4.75) + 8 = 22.5; together 29 as about the centre
    CHECK_HOLDS(t.items[0].guides, "left guide upright, 6.5 mm to the left");
    CHECK_HOLDS(t.items[0].guides, "right guide upright, 22.5 mm to the right");
}

static void round_cut_has_neither_guides_nor_strips(void **state)
{
    (void)state;
    bench *b = usual_bench();
    cut(b, 0, "round", tw_outline_circle(&arena, (tw_point){ 0, 0 }, 30), true);
    tw_templates t = make(b);
    assert_string_equal(t.items[0].guides, "");
    assert_false(t.items[0].straight);
}

static void tenon_can_have_a_plain_strip_for_its_body(void **state)
{
    (void)state;
    bench *b = usual_bench();
    tw_copy_want *want = cut(b, 0, "tenon", rectangle(16, 38), false);
    want->cutter = "9.5 straight", want->follower = "pin 16";
    tw_templates t = make(b);
    CHECK_HOLDS(t.items[0].guides, "r(w + d) - b = 2 x (16.0 + 9.5) - 16.0 = 35.0 mm");
}

static void pocket_wider_than_two_cutters_is_cleared_in_rounds(void **state)
{
    (void)state;
    static const struct { double width; const char *says; } cases[] = {  // 12 mm cutter: step 9; rounds (w/2 - 12)/9 rounded up
        { 24, NULL }, { 23, NULL }, { 26, "in 1 round," }, { 41.9, "in 1 round," }, { 42.1, "in 2 rounds," }, { 60.1, "in 3 rounds," },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bench *b = usual_bench();
        cut(b, 0, "mortise", rectangle(cases[i].width, 100), true);
        tw_templates t = make(b);
        if (!cases[i].says) {
            assert_string_equal(t.items[0].clearing, "");
            continue;
        }
        CHECK_HOLDS(t.items[0].clearing, cases[i].says);
        CHECK_HOLDS(t.items[0].clearing, "9.0 mm from the last at the cutter (18.0 mm at the template)");
        CHECK_HOLDS(t.items[0].clearing, "captive");
    }
}

static void waste_round_a_tenon_is_cleared_from_the_outside_inward(void **state)
{
    (void)state;
    static const struct { double waste; const char *says; } cases[] = {  // 12 mm cutter: (waste - 12)/9 rounded up, and one
        { 0, "until the follower runs along the body" }, { 8, "One pass" }, { 12, "One pass" }, { 20, "in 2 passes" }, { 22, "in 3 passes" },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bench *b = usual_bench();
        cut(b, 0, "tenon", rectangle(40, 60), false)->waste_mm = cases[i].waste;
        tw_templates t = make(b);
        CHECK_HOLDS(t.items[0].clearing, cases[i].says);
        CHECK_HOLDS(t.items[0].clearing, "off the wood that stays");
        if (cases[i].waste > 0) CHECK_HOLDS(t.items[0].clearing, "a rim on the carrier");
    }
}

static void care_for_a_follower_is_said_once_for_all_its_templates(void **state)
{
    (void)state;
    bench *b = usual_bench();
    for (int f = 0; f < 5; f++) b->followers[f].length.value = 13;
    for (int i = 0; i < 3; i++) cut(b, i, "mortise", rectangle(40 + i, 60), true);
    cut(b, 3, "narrow", rectangle(10, 60), true);
    make(b);
    assert_int_equal(b->findings.count, 2);
    CHECK_HOLDS(b->findings.items[0].what, "\"pin 19\" is 13.0 mm long and the stock of template T4 is 12.0 mm thick");
    CHECK_HOLDS(b->findings.items[1].what, "\"pin 24\" is 13.0 mm long and the stock of templates T1, T2 and T3 is");
    CHECK_HOLDS(b->findings.items[1].remedy, "at least 13.5 mm");
}

static void inch_job_has_its_boards_in_eighths_and_its_screws_in_inches(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->job.figures = (tw_figures){ .style = TW_FIGURES_FRACTION, .parts = 64 };
    b->job.inch_sizes = true;
    cut(b, 0, "mortise", rectangle(40, 60), true);
    tw_templates t = make(b);
    CHECK_NEAR(fmod(tw_outline_bounds(t.items[0].board).x1 + 1e-9, 25.4 / 8), 0, 1e-6);
    assert_true(tw_outline_bounds(t.items[0].board).x1 >= 40 + 25.4 && tw_outline_bounds(t.items[0].board).x1 < 40 + 25.4 + 25.4 / 8);
    CHECK_HOLDS(t.items[0].making, "4 holes of 17/64 in, centres 1/2 in from its edges, counterbored 1/2 in wide and 5/32 in deep");
}

static void inch_job_says_inches(void **state)
{
    (void)state;
    bench *b = usual_bench();
    b->job.figures = (tw_figures){ .style = TW_FIGURES_FRACTION, .parts = 64 };
    b->job.inch_sizes = true;
    cut(b, 0, "slit", rectangle(5, 60), true);
    make(b);
    CHECK_HOLDS(finding(b, "cutter-none")->remedy, "13/64 in");
}

/* ---- laws over seeded cuts ---- */

static void every_template_made_is_proved_and_lies_in_its_board(void **state)
{
    (void)state;
    check_seed seed = { 5 };
    int made = 0;
    for (int round = 0; round < 300; round++) {
        bench *b = usual_bench();
        b->shop.machine.ratio.value = round % 3 ? 2 : check_between(&seed, 0.6, 3);
        b->shop.machine.turns_over.value = round % 2;
        for (int i = 0; i < 6; i++) {
            double half = check_between(&seed, 8, 40), k = check_between(&seed, 4, 30);
            tw_outline wanted = i % 2 ? housing(check_between(&seed, 0, 5), k, check_between(&seed, 0, 7), half)
                                      : rectangle(check_between(&seed, 5, 60), check_between(&seed, 5, 60));
            cut(b, i % 4, "cut", wanted, check_random(&seed) % 3 > 0)->waste_mm = check_between(&seed, 0, 30);
        }
        tw_templates t = make(b);
        for (int i = 0; i < t.count; i++) {
            const tw_template *one = &t.items[i];
            tw_box board = tw_outline_bounds(one->board), shape = tw_outline_bounds(one->copy.template_);
            assert_true(one->copy.ok && one->copy.error_mm <= TW_COPY_TRUE_MM);
            assert_true(tw_min(shape.x0 - board.x0, board.x1 - shape.x1) > 24.999999 && tw_min(shape.y0 - board.y0, board.y1 - shape.y1) > 24.999999);
            assert_int_equal(one->fit_count, 5);
            assert_true(one->fits[one->follower].enters);
            CHECK_NEAR(one->fits[one->follower].width_change_mm, 0, 0);
            made++;
        }
        int works = 0;
        for (int i = 0; i < t.count; i++) works += t.items[i].work_count;
        for (size_t i = 0; i < b->findings.count; i++) works += b->findings.items[i].level == TW_HALT;
        assert_int_equal(works, 6);  // each cut has a template or a reason
        tw_arena_finish(&arena);
    }
    assert_true(made > 800);
}

static void same_job_gives_the_same_texts(void **state)
{
    (void)state;
    tw_templates t[2];
    for (int i = 0; i < 2; i++) {
        bench *b = usual_bench();
        cut(b, 0, "housing", housing(1.6, 16, 5, 30), true);
        cut(b, 1, "tenon", rectangle(40, 60), false)->waste_mm = 20;
        t[i] = make(b);
    }
    for (int i = 0; i < 2; i++) {
        assert_string_equal(t[0].items[i].making, t[1].items[i].making);
        assert_string_equal(t[0].items[i].guides, t[1].items[i].guides);
        assert_string_equal(t[0].items[i].clearing, t[1].items[i].clearing);
        assert_memory_equal(t[0].items[i].copy.template_.loops[0].vertices, t[1].items[i].copy.template_.loops[0].vertices,
                            sizeof(tw_vertex) * (size_t)t[0].items[i].copy.template_.loops[0].count);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(opening_for_a_guide_bush_is_the_published_one, finish),
        cmocka_unit_test_teardown(template_widths_are_the_published_ones, finish),
        cmocka_unit_test_teardown(fits_move_half_a_millimetre_for_each_of_the_follower, finish),
        cmocka_unit_test_teardown(nearly_double_template_of_the_trade_is_proposed_as_a_pair, finish),
        cmocka_unit_test_teardown(largest_cutter_that_fits_is_chosen, finish),
        cmocka_unit_test_teardown(cutter_as_wide_as_the_slot_still_fits_and_is_given_play, finish),
        cmocka_unit_test_teardown(cutter_that_leaves_a_tenth_of_the_pocket_stands_back, finish),
        cmocka_unit_test_teardown(rounded_corners_may_not_stay_larger_than_allowed, finish),
        cmocka_unit_test_teardown(short_cutter_is_passed_over, finish),
        cmocka_unit_test_teardown(only_a_cutter_that_plunges_is_chosen_for_a_pocket, finish),
        cmocka_unit_test_teardown(dovetail_cutter_is_taken_for_no_cut_with_upright_walls, finish),
        cmocka_unit_test_teardown(slanting_walls_take_a_dovetail_cutter_of_their_angle_though_it_does_not_plunge, finish),
        cmocka_unit_test_teardown(cutter_whose_sides_do_not_stand_as_the_walls_is_refused_though_named, finish),
        cmocka_unit_test_teardown(slanting_walls_without_a_cutter_of_their_angle_are_refused, finish),
        cmocka_unit_test_teardown(cutter_must_get_between_twin_tenons, finish),
        cmocka_unit_test_teardown(named_cutter_and_follower_are_used_as_asked, finish),
        cmocka_unit_test_teardown(named_cutter_against_the_rules_is_a_care, finish),
        cmocka_unit_test_teardown(named_cutter_that_misses_a_neck_is_a_care, finish),
        cmocka_unit_test_teardown(unknown_names_are_wrong_and_the_nearest_is_said, finish),
        cmocka_unit_test_teardown(cut_too_narrow_for_every_cutter_is_refused_with_the_largest_that_would_do, finish),
        cmocka_unit_test_teardown(cut_too_deep_for_every_cutter_is_refused_with_the_longest, finish),
        cmocka_unit_test_teardown(named_cutter_that_does_not_go_in_is_refused, finish),
        cmocka_unit_test_teardown(tenon_too_small_for_the_follower_is_refused_with_the_largest_that_would_do, finish),
        cmocka_unit_test_teardown(shop_without_cutters_or_followers_is_refused, finish),
        cmocka_unit_test_teardown(follower_of_ratio_times_cutter_is_preferred, finish),
        cmocka_unit_test_teardown(without_a_pair_the_largest_follower_that_loses_nothing_is_taken, finish),
        cmocka_unit_test_teardown(guide_bush_that_rounds_the_tenon_is_a_care_with_its_radius, finish),
        cmocka_unit_test_teardown(larger_follower_than_the_slot_does_not_enter, finish),
        cmocka_unit_test_teardown(like_cuts_of_all_joints_share_one_template, finish),
        cmocka_unit_test_teardown(unlike_cuts_have_templates_of_their_own_named_in_order, finish),
        cmocka_unit_test_teardown(both_hands_share_a_template_that_is_turned_over, finish),
        cmocka_unit_test_teardown(each_hand_has_its_own_template_where_none_is_turned_over, finish),
        cmocka_unit_test_teardown(cut_that_is_its_own_mirror_image_is_not_turned_over, finish),
        cmocka_unit_test_teardown(works_that_are_not_copied_have_no_template, finish),
        cmocka_unit_test_teardown(sharing_is_found_among_thousands, finish),
        cmocka_unit_test_teardown(board_is_centred_and_leaves_walls_of_25, finish),
        cmocka_unit_test_teardown(board_larger_than_the_holder_is_refused_with_its_size, finish),
        cmocka_unit_test_teardown(board_may_lie_off_centre_to_get_into_the_holder, finish),
        cmocka_unit_test_teardown(board_that_is_turned_over_must_be_centred, finish),
        cmocka_unit_test_teardown(body_stands_on_a_carrier_with_room_for_follower_and_rim, finish),
        cmocka_unit_test_teardown(rim_is_left_out_where_the_holder_has_no_room, finish),
        cmocka_unit_test_teardown(follower_is_held_against_the_thickness, finish),
        cmocka_unit_test_teardown(maker_sees_the_template_as_the_machine_shows_it, finish),
        cmocka_unit_test_teardown(guides_show_their_sums, finish),
        cmocka_unit_test_teardown(guides_of_a_housing_lean_with_its_wall, finish),
        cmocka_unit_test_teardown(guides_off_the_centre_are_set_one_by_one, finish),
        cmocka_unit_test_teardown(round_cut_has_neither_guides_nor_strips, finish),
        cmocka_unit_test_teardown(tenon_can_have_a_plain_strip_for_its_body, finish),
        cmocka_unit_test_teardown(pocket_wider_than_two_cutters_is_cleared_in_rounds, finish),
        cmocka_unit_test_teardown(waste_round_a_tenon_is_cleared_from_the_outside_inward, finish),
        cmocka_unit_test_teardown(care_for_a_follower_is_said_once_for_all_its_templates, finish),
        cmocka_unit_test_teardown(inch_job_has_its_boards_in_eighths_and_its_screws_in_inches, finish),
        cmocka_unit_test_teardown(inch_job_says_inches, finish),
        cmocka_unit_test_teardown(every_template_made_is_proved_and_lies_in_its_board, finish),
        cmocka_unit_test_teardown(same_job_gives_the_same_texts, finish),
    };
    return cmocka_run_group_tests_name("template", tests, NULL, NULL);
}
