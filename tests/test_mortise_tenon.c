// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon, from the text of a job to proportions, cuts, work, findings and the drawing.
 * Sizes are worked out by hand beside each check; the rules they follow are common practice unless a source is named. */
#include "check.h"

#include "draw/draw.h"
#include "joint/joint.h"
#include "joint/mortise_tenon.h"
#include "mech/mech.h"

/* ---- a bench for whole jobs ---- */

static const char mm_shop[] =
    "shop: test shop\nunits: mm\nmachine: {name: m, ratio: 2, turns over: yes, travel across: 150, travel up: 90, travel in: 70, holder across: 360,\n"
    "  holder up: 220, table lowest: 110, table highest: 5, nut radius: 22, top speed: 24000, low speed: 10000}\n"
    "cutters:\n"
    "  short 8: {diameter: 8, cutting length: 32, plunges: yes}\n"
    "  ten: {diameter: 10, cutting length: 45, plunges: yes}\n"
    "  twelve: {diameter: 12, cutting length: 50, plunges: yes}\n"
    "  long 12.7: {diameter: 12.7, cutting length: 63, plunges: yes}\n"
    "followers:\n  bush 20: {diameter: 20, length: 12}\n";

static const char inch_shop[] =
    "shop: test shop\nunits: in\nmachine: {name: m, ratio: 2, turns over: no, travel across: 6, travel up: 3-1/2, travel in: 2-3/4, holder across: 14,\n"
    "  holder up: 9, table lowest: 4-1/4, table highest: 1/4, nut radius: 7/8, top speed: 24000, low speed: 10000}\n"
    "cutters:\n"
    "  quarter: {diameter: 1/4, cutting length: 1, plunges: yes}\n"
    "  three eighths: {diameter: 3/8, cutting length: 1-1/2, plunges: yes}\n"
    "  half: {diameter: 1/2, cutting length: 2, plunges: yes}\n"
    "followers:\n  bush: {diameter: 3/4, length: 1/2}\n";

static const char mm_pieces[] =
    "job: test\nunits: mm\nfigures: mm 0.1\npieces:\n"
    "  rail: {count: 2, length: 500, width: 60, thickness: 30}\n"
    "  leg: {count: 4, length: 700, width: 60, thickness: 45}\njoints:\n";

static const char rail_to_leg[] = "  rail to leg:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 90\n";

typedef struct bench { tw_arena arena; tw_findings findings; tw_joint_context context; tw_joint_plan *plans; } bench;

static bench *set_out(bench *b, const char *shop, const char *job)
{
    *b = (bench){ 0 };
    b->findings.arena = &b->arena;
    const tw_joint_format **formats = tw_joint_formats(&b->arena);
    b->context.arena = &b->arena;
    b->context.findings = &b->findings;
    b->context.job = tw_job_read(&b->arena, tw_text_of(job), "job.yaml", formats, tw_joint_kind_count, &b->findings);
    b->context.shop = tw_shop_read(&b->arena, tw_text_of(shop), "shop.yaml", &b->findings);
    if (!b->context.job || !b->context.shop)
        for (size_t i = 0; i < b->findings.count; i++) print_error("%d: %s; %s\n", b->findings.items[i].place.line, b->findings.items[i].what, b->findings.items[i].remedy);
    assert_non_null(b->context.job);
    assert_non_null(b->context.shop);
    b->plans = tw_joints_plan(&b->context);
    return b;
}

/* A joint of the usual rail and leg with more lines ("    depth: 30\n"), or another head of the job. */
static bench *set_out_rail(bench *b, const char *more)
{
    char job[4096];
    snprintf(job, sizeof job, "%s%s%s", mm_pieces, rail_to_leg, more);
    return set_out(b, mm_shop, job);
}

static void finish(bench *b) { tw_arena_finish(&b->arena); }

static double value_of(const bench *b, int plan, const char *key)
{
    const tw_figure *figure = tw_plan_find(&b->plans[plan], key);
    if (!figure) print_error("no figure %s\n", key);
    assert_non_null(figure);
    return figure->value;
}

static const char *sum_of(const bench *b, int plan, const char *key)
{
    const tw_figure *figure = tw_plan_find(&b->plans[plan], key);
    assert_non_null(figure);
    return figure->sum;
}

static const tw_finding *finding_of(const bench *b, tw_level level, const char *code)
{
    for (size_t i = 0; i < b->findings.count; i++)
        if (b->findings.items[i].level == level && strcmp(b->findings.items[i].code, code) == 0) return &b->findings.items[i];
    return NULL;
}

static const tw_work *work_of(const bench *b, int plan, const char *part_of_name)
{
    for (size_t i = 0; i < b->plans[plan].work_count; i++)
        if (strstr(b->plans[plan].works[i].name, part_of_name)) return &b->plans[plan].works[i];
    return NULL;
}

static int works_starting(const bench *b, int plan, const char *name)
{
    int count = 0;
    for (size_t i = 0; i < b->plans[plan].work_count; i++) count += strncmp(b->plans[plan].works[i].name, name, strlen(name)) == 0;
    return count;
}

static void print_findings(const bench *b)
{
    for (size_t i = 0; i < b->findings.count; i++)
        print_error("%s %s: %s; %s\n", tw_level_word(b->findings.items[i].level), b->findings.items[i].code, b->findings.items[i].what, b->findings.items[i].remedy);
}

/* Expects one finding of that level and code that says both parts. */
static void expect(const char *more, tw_level level, const char *code, const char *says, const char *remedy)
{
    bench b;
    set_out_rail(&b, more);
    const tw_finding *finding = finding_of(&b, level, code);
    if (!finding) { print_error("no %s %s for:\n%s", tw_level_word(level), code, more); print_findings(&b); }
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, says);
    CHECK_HOLDS(finding->remedy, remedy);
    finish(&b);
}

static void expect_quiet(const char *more, const char *code)
{
    bench b;
    set_out_rail(&b, more);
    for (int level = TW_NOTE; level <= TW_WRONG; level++) assert_null(finding_of(&b, (tw_level)level, code));
    finish(&b);
}

/* ---- proportions ---- */

/* Rail 60 x 30, leg 60 deep and 45 wide at the mortised edge:
 * 30/3 = 10: cutter ten; t 10 - 0.2; l 2/3 x 60; w 60 - 2 x 5; cw 0.2 + 50/200 = 0.45; walls 45/2 - 10/2; body 500 - 2 x 40. */
static void a_blind_dry_joint_in_millimetres_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "");
    CHECK_NEAR(value_of(&b, 0, "mortise_width"), 10.0, 1e-9);
    CHECK_HOLDS(sum_of(&b, 0, "mortise_width"), "1/3 x 30.0 = 10.0: ten");
    CHECK_NEAR(value_of(&b, 0, "tenon_thickness"), 9.8, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_length"), 40.0, 1e-9);
    CHECK_HOLDS(sum_of(&b, 0, "tenon_length"), "2/3 x 60.0 = 40.0");
    CHECK_NEAR(value_of(&b, 0, "mortise_depth"), 42.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "floor"), 18.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_width"), 50.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "width_clearance"), 0.45, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "mortise_length"), 50.45, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "face_shoulder"), 10.1, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "back_edge_shoulder"), 5.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "wall_low"), 17.5, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "body"), 420.0, 1e-9);
    assert_int_equal(b.plans[0].count, 4);
    print_findings(&b);
    assert_int_equal(b.findings.count, 0);
    finish(&b);
}

/* Rail 2-1/2 x 1-1/8, leg 1-3/4 square, glued: 1-1/8 / 3 = 3/8; t 3/8 - 0.1 mm; 2/3 x 1-3/4 = 1.1667, down to 1-5/32;
 * w 2-1/2 - 2 x 3/16 = 2-1/8, which is already a thirty-second; room 1/16; floor 1-3/4 - 1-5/32 - 1/16 = 17/32. */
static void a_blind_glued_joint_in_inches_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    bench b;
    set_out(&b, inch_shop,
        "job: test\nunits: in\nfigures: in 1/64\npieces:\n  rail: {count: 1, length: 20, width: 2-1/2, thickness: 1-1/8}\n  leg: {count: 2, length: 28, width: 1-3/4, thickness: 1-3/4}\n"
        "joints:\n  rail to leg:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: back\n    at: 4\n    fit: glued\n");
    const double inch = 25.4;
    CHECK_NEAR(value_of(&b, 0, "mortise_width"), 3.0 / 8.0 * inch, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_thickness"), 3.0 / 8.0 * inch - 0.1, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_length"), (1.0 + 5.0 / 32.0) * inch, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_width"), (2.0 + 1.0 / 8.0) * inch, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "bottom_room"), inch / 16.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "floor"), 17.0 / 32.0 * inch, 1e-9);
    CHECK_HOLDS(sum_of(&b, 0, "tenon_length"), "2/3 x 1 3/4 = 1 11/64");
    CHECK_HOLDS(sum_of(&b, 0, "tenon_thickness"), "3/8 - 0.004");
    assert_int_equal(b.findings.count, 0);
    assert_non_null(work_of(&b, 0, "glue up"));
    finish(&b);
}

static void a_dry_tenon_is_left_looser_than_a_glued_one(void **state)
{
    (void)state;
    bench dry, glued;
    set_out_rail(&dry, "");
    set_out_rail(&glued, "    fit: glued\n");
    CHECK_NEAR(value_of(&dry, 0, "clearance"), 0.2, 1e-12);   // 0.008 in
    CHECK_NEAR(value_of(&glued, 0, "clearance"), 0.1, 1e-12); // 0.004 in
    assert_non_null(work_of(&glued, 0, "glue up"));
    assert_null(work_of(&dry, 0, "glue up"));
    finish(&dry);
    finish(&glued);
}

/* Wood Handbook table 13-5: white oak 0.00365 a percent tangential; 50 mm over 8 to 9.4 % of moisture swell 0.2555 mm. */
static void the_room_in_the_width_takes_what_flat_sawn_white_oak_swells_over_one_and_a_half_percent(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "");
    double more = value_of(&b, 0, "width_clearance") - value_of(&b, 0, "clearance"), swelling;
    const char *caution, *why;
    const tw_timber *oak = tw_timber_find(&b.arena, "Oak, white", NULL);
    assert_non_null(oak);
    assert_true(tw_movement_reckon(oak, value_of(&b, 0, "tenon_width"), false, 8.0, 9.4, &swelling, &caution, &why));
    CHECK_NEAR(more, swelling, 0.01);
    finish(&b);
}

/* Leg 75 deep: 2/3 is 50, and 2 more; of the cutters near a third of 30 only the ten comes close, with 45: 45 - 2 = 43. */
static void a_blind_tenon_is_no_longer_than_the_cutter_reaches(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 60, thickness: 24}\n  leg: {count: 1, length: 700, width: 75, thickness: 24}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face edge\n    at: 90\n");
    CHECK_NEAR(value_of(&b, 0, "mortise_width"), 8.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_length"), 30.0, 1e-9);  // the short 8 reaches 32
    CHECK_HOLDS(sum_of(&b, 0, "tenon_length"), "2/3 x 75.0 = 50.0 would be better");
    finish(&b);
}

static void where_no_owned_cutter_comes_near_the_mortise_is_a_plain_third(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 40, thickness: 14}\n  leg: {count: 1, length: 700, width: 40, thickness: 14}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face edge\n    at: 90\n");
    CHECK_NEAR(value_of(&b, 0, "mortise_width"), 4.5, 1e-9);  // 14/3 = 4.67, down to half a millimetre
    CHECK_NEAR(value_of(&b, 0, "tenon_thickness"), 4.3, 1e-9);
    finish(&b);
}

static void a_through_tenon_is_as_long_as_the_piece_is_deep_and_what_stands_proud(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    through: yes\n    proud: 3\n");
    CHECK_NEAR(value_of(&b, 0, "tenon_length"), 63.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "mortise_depth"), 60.0, 1e-9);
    const tw_work *mortise = work_of(&b, 0, "mortises");
    mortise = b.plans[0].works[1].copied ? &b.plans[0].works[1] : mortise;
    assert_true(mortise->copied && mortise->copy.both_faces);
    CHECK_NEAR(mortise->copy.depth_mm, 31.0, 1e-9);  // 60/2 + 1: past the middle
    for (size_t i = 0; i < b.plans[0].cut_count; i++)
        if (strcmp(b.plans[0].cuts[i].name, "mortise") == 0) assert_true(b.plans[0].cuts[i].through);
    finish(&b);
}

/* Rail 120 wide, 24 thick: t 7.8; 6t = 46.8 covers less than two thirds of 110: two of 110/3 = 36.5, gap 110 - 73 = 37. */
static void a_rail_too_wide_for_one_tenon_gets_a_double_one(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 120, thickness: 24}\n  leg: {count: 1, length: 700, width: 45, thickness: 45}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face edge\n    at: 200\n");
    CHECK_NEAR(value_of(&b, 0, "tenons"), 2.0, 0.0);
    CHECK_NEAR(value_of(&b, 0, "tenon_width"), 36.5, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "gap"), 37.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "face_edge_shoulder"), 5.0, 1e-9);
    int mortises = 0;
    for (size_t i = 0; i < b.plans[0].cut_count; i++) mortises += strcmp(b.plans[0].cuts[i].name, "mortise") == 0;
    assert_int_equal(mortises, 2);
    assert_int_equal(b.plans[0].count, 1);  // one joint, though two tenons
    finish(&b);
}

static void twins_share_the_thickness_in_fifths(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 60, thickness: 50}\n  leg: {count: 1, length: 700, width: 60, thickness: 60}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face edge\n    at: 200\n    tenons: twin\n");
    CHECK_NEAR(value_of(&b, 0, "mortise_width"), 10.0, 1e-9);  // 50/5
    CHECK_NEAR(value_of(&b, 0, "gap"), 10.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "face_shoulder"), (50.0 - 2 * 9.8 - 10.0) / 2.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "wall_low"), 30.0 - (9.8 + 10.0) / 2.0 - 5.0, 1e-9);  // middle less half the pitch less half a mortise
    finish(&b);
}

/* Middles of the mortises in a leg whose face edge is mortised: x along the leg, y across it, as that edge is seen. */
static int middles(const bench *b, tw_point at[4])
{
    int count = 0;
    for (size_t i = 0; i < b->plans[0].cut_count; i++) {
        if (strcmp(b->plans[0].cuts[i].name, "mortise") != 0 || count == 4) continue;
        tw_box box = tw_outline_bounds(b->plans[0].cuts[i].outline);
        at[count++] = (tw_point){ (box.x0 + box.x1) / 2.0, (box.y0 + box.y1) / 2.0 };
    }
    return count;
}

/* The trade's words: twin tenons stand side by side in the thickness, a double tenon stands in line in the width. */
static void pairs_of_tenons_are_named_as_the_trade_names_them(void **state)
{
    (void)state;
    const char *const words[] = { "single", "twin", "double" };
    for (int i = 0; i < 3; i++) {
        bench b;
        char job[2048];
        snprintf(job, sizeof job, "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 120, thickness: 50}\n  leg: {count: 1, length: 700, width: 60, thickness: 60}\n"
            "joints:\n  j: {kind: mortise and tenon, tenon: rail, ends: left, into: leg, from: face edge, at: 200, tenons: %s}\n", words[i]);
        set_out(&b, mm_shop, job);
        tw_point at[4];
        assert_int_equal(middles(&b, at), i == 0 ? 1 : 2);
        CHECK_NEAR(value_of(&b, 0, "tenons"), i == 0 ? 1.0 : 2.0, 0.0);
        if (i == 1) {
            CHECK_NEAR(at[0].x, 200.0, 1e-9);                   // one place along the leg
            CHECK_NEAR(at[1].x, 200.0, 1e-9);
            CHECK_NEAR(fabs(at[1].y - at[0].y), 9.8 + 10.0, 1e-9);  // a tenon and a gap of a fifth of 50
        } else if (i == 2) {
            CHECK_NEAR(at[0].y, 30.0, 1e-9);                    // one line along the leg, its middle
            CHECK_NEAR(at[1].y, 30.0, 1e-9);
            CHECK_NEAR((at[0].x + at[1].x) / 2.0, 200.0, 1e-9);
            CHECK_NEAR(fabs(at[1].x - at[0].x), 36.5 + 37.0, 1e-9);  // 110/3, down to 36.5; 110 - 73
        }
        finish(&b);
    }
}

static void old_way_to_tell_pairs_apart_is_refused_with_the_word_that_is_meant(void **state)
{
    (void)state;
    expect("    beside: thickness\n", TW_HALT, "beside-old", "two tenons in the thickness is twin", "write `tenons: twin`");
    expect("    beside: width\n    tenons: double\n", TW_HALT, "beside-old", "two tenons in the width is double", "write `tenons: double`");
}

/* Haunch at the back edge, 60/3 = 20 wide; main tenon 60 - 20 - 5 = 35; rail flush with the leg's end: at 700 - 5 - 17.5 - 20. */
static void a_haunch_goes_to_the_edge_where_its_groove_runs_out_at_the_end(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 37.5\n    haunch: 10\n    haunch at: back edge\n", mm_pieces);
    set_out(&b, mm_shop, job);
    CHECK_NEAR(value_of(&b, 0, "haunch_width"), 20.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_width"), 35.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "tenon_from_edge"), 22.5, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "back_edge_shoulder"), 0.0, 1e-9);
    CHECK_NEAR(value_of(&b, 0, "face_edge_shoulder"), 5.0, 1e-9);
    const tw_work *groove = work_of(&b, 0, "grooves");
    assert_non_null(groove);
    assert_true(groove->copied);
    CHECK_NEAR(groove->copy.depth_mm, 12.0, 1e-9);  // haunch and room
    assert_non_null(work_of(&b, 0, "haunches"));
    assert_non_null(work_of(&b, 0, "corners of the mortises"));
    CHECK_HOLDS(groove->what, "past its end");
    assert_null(finding_of(&b, TW_HALT, "relish-short"));
    finish(&b);
}

static void a_haunch_far_from_the_end_keeps_a_shoulder_and_a_closed_groove(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    haunch: 10\n");
    CHECK_NEAR(value_of(&b, 0, "face_edge_shoulder"), 5.0, 1e-9);
    CHECK_HOLDS(work_of(&b, 0, "grooves")->what, "chop that end square");
    finish(&b);
}

static void given_sizes_are_taken_as_given(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    tenon thickness: 11\n    tenon width: 40\n    depth: 30\n    clearance: 0.3\n    width clearance: 0.6\n    bottom room: 3\n    across: 20\n");
    CHECK_NEAR(value_of(&b, 0, "tenon_thickness"), 11.0, 0.0);
    CHECK_NEAR(value_of(&b, 0, "mortise_width"), 11.3, 1e-12);
    CHECK_NEAR(value_of(&b, 0, "mortise_length"), 40.6, 1e-12);
    CHECK_NEAR(value_of(&b, 0, "mortise_depth"), 33.0, 1e-12);
    CHECK_NEAR(value_of(&b, 0, "wall_low"), 20.0 - 5.65, 1e-12);
    CHECK_NEAR(value_of(&b, 0, "wall_high"), 25.0 - 5.65, 1e-12);
    finish(&b);
}

static void every_figure_has_a_sum_or_is_given(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    haunch: 10\n");
    for (size_t i = 0; i < b.plans[0].figure_count; i++) {
        if (!b.plans[0].figures[i].sum[0]) print_error("%s has no sum\n", b.plans[0].figures[i].key);
        assert_true(b.plans[0].figures[i].sum[0] != '\0');
    }
    finish(&b);
}

/* ---- cuts ---- */

static double volume_of_cuts(const bench *b, int plan, int piece)
{
    double volume = 0.0;
    for (size_t i = 0; i < b->plans[plan].cut_count; i++) {
        const tw_cut *cut = &b->plans[plan].cuts[i];
        if (cut->piece == piece) volume += fabs(tw_outline_area_mm2(cut->outline)) * cut->depth_mm;
    }
    return volume;
}

/* Both ends: 60 x 30 x 40, less a tenon 50 x 9.8 with round ends: area 40.2 x 9.8 + pi x 4.9^2. */
static void the_wood_cut_from_the_ends_is_the_end_less_the_tenon(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "");
    double tenon = (50.0 - 9.8) * 9.8 + TW_PI * 4.9 * 4.9;
    CHECK_NEAR(volume_of_cuts(&b, 0, 0), 2.0 * 40.0 * (60.0 * 30.0 - tenon), 1e-6);
    double mortise = (50.45 - 10.0) * 10.0 + TW_PI * 25.0;
    CHECK_NEAR(volume_of_cuts(&b, 0, 1), 42.0 * mortise, 1e-6);
    finish(&b);
}

static void a_mortise_from_the_back_edge_is_measured_from_the_back_of_the_piece(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: back edge\n    at: 90\n    across: 18\n", mm_pieces);
    set_out(&b, mm_shop, job);
    const tw_cut *cut = &b.plans[0].cuts[0];
    tw_box box = tw_outline_bounds(cut->outline);
    assert_int_equal(cut->face, TW_SIDE_BACK_EDGE);
    CHECK_NEAR((box.x0 + box.x1) / 2.0, 90.0, 1e-9);
    CHECK_NEAR((box.y0 + box.y1) / 2.0, 45.0 - 18.0, 1e-9);  // up on the back edge runs from the face to the back
    const tw_work *work = work_of(&b, 0, "mortises");
    for (size_t i = 0; i < b.plans[0].work_count; i++) if (b.plans[0].works[i].copied) { work = &b.plans[0].works[i]; break; }
    assert_int_equal(work->down, TW_SIDE_BACK);
    CHECK_NEAR(work->copy.down_to_origin_mm, 18.0, 1e-9);
    finish(&b);
}

static void a_tenon_across_has_its_mortise_turned(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  shelf: {count: 1, length: 500, width: 80, thickness: 24}\n  side: {count: 1, length: 900, width: 120, thickness: 30}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: shelf\n    ends: left\n    into: side\n    from: face\n    at: 300\n    lies: across\n    through: yes\n    tenon width: 40\n");
    tw_box box = tw_outline_bounds(b.plans[0].cuts[0].outline);
    CHECK_NEAR(box.x1 - box.x0, value_of(&b, 0, "mortise_width"), 1e-9);
    CHECK_NEAR(box.y1 - box.y0, value_of(&b, 0, "mortise_length"), 1e-9);
    CHECK_NEAR(value_of(&b, 0, "wall_low"), 60.0 - value_of(&b, 0, "mortise_length") / 2.0, 1e-9);
    finish(&b);
}

/* ---- work ---- */

static int index_of(const bench *b, const char *name)
{
    for (size_t i = 0; i < b->plans[0].work_count; i++)
        if (strcmp(b->plans[0].works[i].name, name) == 0) return (int)i;
    print_error("no work %s\n", name);
    assert_true(false);
    return -1;
}

/* Does a come before b, by whatever chain of afters? */
static bool comes_before(const tw_joint_plan *plan, int a, int b)
{
    for (int i = 0; i < plan->works[b].after_count; i++)
        if (plan->works[b].after[i] == a || comes_before(plan, a, plan->works[b].after[i])) return true;
    return false;
}

static void the_mortise_comes_before_the_tenon_and_the_fit_before_the_glue(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    fit: glued\n    mortise ends: square\n");
    const char *const order[] = { "places of the mortises", "mortises", "corners of the mortises", "shoulder lines", "tenons", "lead-in on the tenons", "tenons into their mortises, dry", "glue up" };
    for (size_t i = 1; i < sizeof order / sizeof *order; i++)
        assert_true(comes_before(&b.plans[0], index_of(&b, order[i - 1]), index_of(&b, order[i])));
    for (size_t i = 0; i < b.plans[0].work_count; i++)
        for (int j = 0; j < b.plans[0].works[i].after_count; j++) assert_true(b.plans[0].works[i].after[j] < (int)i);
    finish(&b);
}

static void the_copied_tenon_stands_on_its_back_and_is_stopped_at_the_face_edge(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "");
    const tw_work *tenon = &b.plans[0].works[index_of(&b, "tenons")];
    assert_true(tenon->copied && !tenon->copy.inside);
    assert_int_equal(tenon->down, TW_SIDE_BACK);
    assert_int_equal(tenon->count, 4);
    assert_int_equal(tenon->pieces, 2);
    assert_int_equal(tenon->hand, TW_HAND_NONE);
    CHECK_NEAR(tenon->copy.depth_mm, 40.0, 1e-9);
    CHECK_NEAR(tenon->copy.stop_to_origin_mm, 30.0, 1e-9);
    CHECK_NEAR(tenon->copy.down_to_origin_mm, 15.0, 1e-9);
    CHECK_NEAR(tenon->copy.waste_mm, 10.1, 1e-9);
    CHECK_NEAR(tenon->copy.overhang_low_mm, 12.7 - 10.1, 1e-9);  // the largest cutter that is 40 long
    tw_box box = tw_outline_bounds(tenon->copy.cut);
    CHECK_NEAR(box.x1 - box.x0, 50.0, 1e-9);
    CHECK_NEAR(box.y1 - box.y0, 9.8, 1e-9);
    CHECK_NEAR(tenon->measure_mm, 9.8, 1e-9);
    finish(&b);
}

static void a_tenon_out_of_the_middle_has_a_right_and_a_left_hand(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    tenon width: 40\n    tenon from edge: 27\n");
    assert_int_equal(b.plans[0].works[index_of(&b, "tenons, right hand")].hand, TW_HAND_RIGHT);
    assert_int_equal(b.plans[0].works[index_of(&b, "tenons, left hand")].hand, TW_HAND_LEFT);
    assert_int_equal(b.plans[0].works[index_of(&b, "tenons, left hand")].count, 2);
    finish(&b);
}

static const char four_places[] =
    "job: test\nunits: mm\npieces:\n  rail: {count: 4, length: 500, width: 60, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\n"
    "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: [90, 610]\n";

static void places_alike_from_both_ends_of_a_centred_mortise_are_one_setup(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop, four_places);
    const tw_work *work = &b.plans[0].works[index_of(&b, "mortises")];
    assert_int_equal(work->count, 8);
    assert_int_equal(work->pieces, 4);
    CHECK_HOLDS(work->what, "end for end");
    CHECK_HOLDS(work->places, "90.0 mm from the right end");
    finish(&b);
}

static void out_of_the_middle_the_two_ends_are_two_hands(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s    across: 20\n", four_places);
    set_out(&b, mm_shop, job);
    assert_int_equal(works_starting(&b, 0, "mortises"), 2);
    const tw_work *right = work_of(&b, 0, "right hand"), *left = work_of(&b, 0, "left hand");
    assert_int_equal(right->count + left->count, 8);
    assert_int_equal(right->copy.stop_end, TW_SIDE_RIGHT_END);
    assert_int_equal(left->copy.stop_end, TW_SIDE_LEFT_END);
    CHECK_NEAR(right->copy.stop_to_origin_mm, 90.0, 1e-9);
    finish(&b);
}

/* Through, out of the middle, from both faces: left end from the face is right end from behind, with the same edge down. */
static void through_and_out_of_the_middle_the_other_face_is_the_other_hand(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s    across: 20\n    through: yes\n", four_places);
    set_out(&b, mm_shop, job);
    assert_int_equal(works_starting(&b, 0, "mortises"), 2);
    const tw_work *left = work_of(&b, 0, "left hand");
    assert_int_equal(left->count, 8);  // 2 places x 4 legs, one half each
    CHECK_HOLDS(left->places, "90.0 mm from the left end, face edge");
    CHECK_HOLDS(left->places, "90.0 mm from the right end, back edge");
    assert_false(left->copy.both_faces);
    finish(&b);
}

static void a_tenon_longer_than_any_cutter_is_sawn_and_its_mortise_chopped_square(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 60, thickness: 30}\n  leg: {count: 1, length: 700, width: 90, thickness: 45}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face edge\n    at: 90\n    through: yes\n");
    assert_non_null(work_of(&b, 0, "shoulders of the tenons"));
    assert_non_null(work_of(&b, 0, "cheeks of the tenons"));
    assert_non_null(work_of(&b, 0, "corners of the mortises"));
    CHECK_HOLDS(work_of(&b, 0, "shoulders of the tenons")->cautions, "between blade and fence");
    finish(&b);
}

static void counts_of_cuts_add_up_over_all_sets(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\nsets: 3\npieces:\n  rail: {count: 2, length: 500, width: 60, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 90\n");
    assert_int_equal(b.plans[0].count, 12);
    assert_int_equal(b.plans[0].works[index_of(&b, "mortises")].count, 12);
    assert_int_equal(b.plans[0].works[index_of(&b, "tenons")].count, 12);
    assert_int_equal(b.plans[0].works[index_of(&b, "tenons")].pieces, 6);
    finish(&b);
}

/* ---- refusals and cares ---- */

static void a_mortise_into_an_end_is_refused(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: left end\n    at: 90\n", mm_pieces);
    set_out(&b, mm_shop, job);
    assert_non_null(finding_of(&b, TW_HALT, "from-end"));
    finish(&b);
}

static void depths_that_do_not_do_are_refused(void **state)
{
    (void)state;
    expect("    depth: 59\n", TW_HALT, "tenon-deep", "59.0 mm and 2.0 mm of room below it break through leg, which is 60.0 mm thick", "at most 52.0 mm");
    expect("    depth: 56\n", TW_HALT, "floor-thin", "only 2.0 mm", "at most 52.0 mm");
    expect("    depth: 54\n", TW_CARE, "floor-thin", "4.0 mm", "52.0 mm");
    expect("    depth: 8\n", TW_CARE, "tenon-short", "8.0 mm long", "40.0 mm");
    expect("    depth: 30\n    through: yes\n", TW_HALT, "depth-with-through", "30.0 mm is given for a tenon that goes through 60.0 mm", "leave `depth` out");
    expect_quiet("    depth: 52\n", "floor-thin");
}

static void tenons_that_do_not_fit_their_piece_are_refused(void **state)
{
    (void)state;
    expect("    tenon width: 61\n", TW_HALT, "tenon-wide", "61.0 mm wide, its piece only 60.0 mm", "at most 50.0 mm");
    expect("    tenon thickness: 31\n", TW_HALT, "tenon-thick", "31.0 mm thick, its piece only 30.0 mm", "10.0 mm");
    expect("    tenon thickness: 16\n", TW_CARE, "tenon-thick", "more than half", "10.0 mm");
    expect("    tenon thickness: 5\n", TW_CARE, "tenon-thin", "5.0 mm is thin for a piece of 30.0 mm", "10.0 mm");
    expect("    tenon thickness: 8\n    tenon width: 52\n", TW_CARE, "tenon-broad", "52.0 mm wide, more than six times its thickness of 8.0 mm", "tenons: double");
    expect("    tenon width: 7\n", TW_CARE, "tenon-narrow", "7.0 mm wide, less than its thickness of 9.8 mm", "19.6 mm or more");
    expect("    tenon width: 0.05\n", TW_HALT, "joint-small", "too small to be cut", "some millimetres");
    expect("    haunch: 0.05\n", TW_HALT, "joint-small", "with a haunch 20.0 mm wide", "some millimetres");
    expect("    tenon from back: 3\n", TW_HALT, "tenon-off-piece", "1.9 mm outside of its piece at the back", "nearer to the middle");
    expect("    tenon width: 56\n", TW_CARE, "shoulder-small", "only 2.0 mm", "at least 3.0 mm");
    expect("    tenon from back: 4.9\n", TW_CARE, "no-shoulder-side", "no shoulder at the back", "bare-faced");
    expect("    tenon thickness: 29.5\n    tenon width: 59.5\n", TW_HALT, "no-shoulder", "as large as its piece", "thinner or narrower");
    expect_quiet("    tenon width: 54\n", "shoulder-small");
}

static void tenons_too_near_each_other_are_refused(void **state)
{
    (void)state;
    expect("    tenons: double\n    tenon width: 20\n    gap: 3\n", TW_HALT, "gap-narrow", "only 2.7 mm", "a gap of 10.3 mm");
    expect("    tenons: double\n    tenon width: 20\n    gap: 6\n", TW_CARE, "gap-narrow", "5.7 mm", "a gap of 10.3 mm");
    expect("    tenons: double\n    tenon width: 30\n    gap: 10\n", TW_HALT, "tenon-wide", "70.0 mm wide, its piece only 60.0 mm", "over both");
    expect_quiet("    tenons: double\n    tenon width: 20\n    gap: 10\n", "gap-narrow");
    expect("    tenons: double\n    tenon width: 20\n    gap: 9\n", TW_CARE, "gap-narrow", "between the two mortises of the double tenon is 8.7 mm, short grain", "a gap of 10.3 mm");  // t is 9.8
    expect_quiet("    tenons: double\n    lies: across\n    tenon width: 13\n    gap: 9\n", "gap-narrow");  // long grain between them: two thirds do
}

static void haunches_that_do_not_do_are_refused(void **state)
{
    (void)state;
    expect("    haunch: 40\n", TW_HALT, "haunch-deep", "40.0 mm deep, as deep as the tenon's 40.0 mm", "9.8 mm");
    expect("    haunch: 25\n", TW_CARE, "haunch-deep", "more than half", "9.8 mm");
    expect("    haunch: 10\n    haunch width: 40\n    tenon width: 10\n", TW_CARE, "haunch-wide", "40.0 mm of the piece's width of 60.0 mm", "20.0 mm");
    expect("    haunch: 10\n    haunch width: 45\n    tenon width: 30\n", TW_HALT, "tenon-wide", "with its haunch is 75.0 mm wide", "with the haunch");
    expect("    haunch: 10\n    tenons: double\n", TW_HALT, "haunch-pair", "double tenons with a haunch are not worked out", "tenons: single");
    expect("    haunch: 10\n    lies: across\n", TW_HALT, "haunch-across", "lies across", "lies: along");
    expect("    haunch: 10\n    mortise ends: round\n", TW_CARE, "haunch-square", "square where the haunch begins", "square");
    expect_quiet("    haunch: 10\n", "haunch-deep");
}

static void walls_too_thin_are_refused(void **state)
{
    (void)state;
    expect("    across: 3\n", TW_HALT, "mortise-off-piece", "2.0 mm over the back of leg", "across 22.5 mm");
    expect("    across: 7\n", TW_HALT, "mortise-wall-thin", "only 2.0 mm", "across 22.5 mm");
    expect("    across: 10\n", TW_CARE, "mortise-wall-thin", "5.0 mm, thin beside a mortise of 10.0 mm", "across 22.5 mm");
    expect("    across: 42\n", TW_HALT, "mortise-off-piece", "over the face of leg", "across 22.5 mm");
    expect_quiet("    across: 16\n", "mortise-wall-thin");
}

static void a_shoulder_that_stands_over_the_side_is_a_care(void **state)
{
    (void)state;
    expect("    across: 12\n", TW_CARE, "shoulder-overhangs", "the shoulder of rail stands 3.0 mm over the side of leg", "thicker mortised piece");
    expect_quiet("    across: 15\n", "shoulder-overhangs");
}

static void place_at(const char *at, tw_level level, const char *code, const char *says)
{
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: %s\n", mm_pieces, at);
    set_out(&b, mm_shop, job);
    const tw_finding *finding = finding_of(&b, level, code);
    if (!finding) print_findings(&b);
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, says);
    assert_true(finding->place.line > 0);
    finish(&b);
}

static void places_too_near_the_end_are_refused(void **state)
{
    (void)state;
    place_at("20", TW_HALT, "mortise-off-piece", "the mortise at 20.0 mm runs 5.2 mm past the end of leg");
    place_at("720", TW_HALT, "mortise-off-piece", "past the end");
    place_at("27", TW_HALT, "relish-short", "only 1.8 mm of leg is left");
    place_at("35", TW_CARE, "relish-short", "9.8 mm of leg is left");
}

static void counts_that_do_not_agree_are_refused_with_both_numbers(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "%s  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: [90, 600]\n", mm_pieces);
    set_out(&b, mm_shop, job);
    const tw_finding *finding = finding_of(&b, TW_HALT, "counts-differ");
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, "of tenons is 4 (2 x rail, 2 ends each), of places 8 (4 x leg, 2 each)");
    CHECK_HOLDS(finding->remedy, "1 place under `at`");
    finish(&b);
}

static void tenon_of_which_nothing_is_left_is_refused_without_figures_below_nothing(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 2, length: 500, width: 0.1, thickness: 0.1}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 90\n");
    assert_non_null(finding_of(&b, TW_HALT, "tenon-thin"));
    assert_null(finding_of(&b, TW_CARE, "tenon-narrow"));
    finish(&b);
}

static void tenons_that_leave_no_body_are_refused(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 2, length: 85, width: 60, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 90\n");
    const tw_finding *finding = finding_of(&b, TW_HALT, "tenons-meet");
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, "80.0 mm in all");
    CHECK_HOLDS(finding->remedy, "90.0 mm");
    finish(&b);
}

/* Two rails into one leg 60 deep from opposite edges, each 40: they meet. */
static bench *two_joints(bench *b, const char *first, const char *second)
{
    char job[4096];
    snprintf(job, sizeof job,
        "job: test\nunits: mm\npieces:\n  rail: {count: 4, length: 500, width: 60, thickness: 30}\n  end rail: {count: 4, length: 400, width: 60, thickness: 30}\n"
        "  leg: {count: 4, length: 700, width: 60, thickness: 60}\njoints:\n"
        "  one:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n%s"
        "  two:\n    kind: mortise and tenon\n    tenon: end rail\n    ends: left\n    into: leg\n%s", first, second);
    return set_out(b, mm_shop, job);
}

static void mortises_that_meet_from_opposite_faces_are_refused(void **state)
{
    (void)state;
    bench b;
    two_joints(&b, "    from: face edge\n    at: 90\n", "    from: back edge\n    at: 110\n");
    const tw_finding *finding = finding_of(&b, TW_HALT, "mortises-meet");
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, "in leg the tenon at 110.0 mm runs into the one of one");
    assert_string_equal(finding->about, "two");
    finish(&b);
    two_joints(&b, "    from: face edge\n    at: 90\n    depth: 20\n", "    from: back edge\n    at: 110\n    depth: 20\n");
    assert_null(finding_of(&b, TW_HALT, "mortises-meet"));
    assert_null(finding_of(&b, TW_CARE, "mortises-meet"));
    finish(&b);
}

/* Each 24 deep from neighbouring faces of a leg 60 square, middles at 30: the one from the face fills z 60 - 26 to 60 over
 * y 25 to 35, the one from the face edge y 0 to 26 over z 25 to 35. The mortises touch at the corner, the tenons do not. */
static void mortises_from_neighbouring_faces_are_compared_as_they_stand_in_the_leg(void **state)
{
    (void)state;
    bench b;
    two_joints(&b, "    from: face\n    at: 90\n", "    from: face edge\n    at: 90\n");
    assert_non_null(finding_of(&b, TW_HALT, "mortises-meet"));
    finish(&b);
    two_joints(&b, "    from: face\n    at: 90\n    depth: 24\n", "    from: face edge\n    at: 90\n    depth: 24\n");
    assert_null(finding_of(&b, TW_HALT, "mortises-meet"));
    assert_non_null(finding_of(&b, TW_CARE, "mortises-meet"));
    finish(&b);
    two_joints(&b, "    from: face\n    at: 90\n    depth: 18\n", "    from: face edge\n    at: 90\n    depth: 18\n");
    assert_null(finding_of(&b, TW_CARE, "mortises-meet"));
    finish(&b);
}

static void places_of_one_joint_that_overlap_are_refused(void **state)
{
    (void)state;
    bench b;
    char job[4096];
    snprintf(job, sizeof job, "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 60, thickness: 30}\n  leg: {count: 1, length: 700, width: 60, thickness: 45}\njoints:\n"
        "  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: [200, 240]\n");
    set_out(&b, mm_shop, job);
    const tw_finding *finding = finding_of(&b, TW_HALT, "mortises-meet");
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, "another of this joint");
    finish(&b);
}

static void two_joints_on_the_same_end_are_refused(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 4, length: 500, width: 60, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 60}\n  post: {count: 4, length: 700, width: 60, thickness: 60}\njoints:\n"
        "  one:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face\n    at: 90\n"
        "  two:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: post\n    from: face\n    at: 90\n");
    const tw_finding *finding = finding_of(&b, TW_HALT, "end-taken");
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, "the left end of rail already carries the tenon of one");
    finish(&b);
}

static void clearances_out_of_the_common_are_cares(void **state)
{
    (void)state;
    expect("    clearance: 0.8\n", TW_CARE, "clearance-large", "rattles", "0.2 mm");
    expect("    clearance: 0.8\n    fit: glued\n", TW_CARE, "clearance-large", "glue does not fill it", "0.1 mm");
    expect("    clearance: 0.01\n", TW_CARE, "clearance-small", "will not go in by hand", "0.2 mm");
    expect_quiet("    clearance: 0.3\n", "clearance-large");
}

static void a_wide_glued_tenon_across_the_grain_is_a_care(void **state)
{
    (void)state;
    bench b;
    set_out(&b, mm_shop,
        "job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 120, thickness: 45}\n  leg: {count: 1, length: 700, width: 60, thickness: 60}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: left\n    into: leg\n    from: face edge\n    at: 200\n    fit: glued\n    tenon width: 80\n    tenon thickness: 15\n");
    const tw_finding *finding = finding_of(&b, TW_CARE, "glued-wide");
    assert_non_null(finding);
    CHECK_HOLDS(finding->what, "80.0 mm of tenon is glued across the grain of leg");
    finish(&b);
}

static void keys_without_meaning_are_cares(void **state)
{
    (void)state;
    expect("    gap: 10\n", TW_CARE, "key-idle", "`gap`", "leave `gap` out");
    expect("    proud: 3\n", TW_CARE, "key-idle", "`proud`", "leave `proud` out");
    expect("    through: yes\n    bottom room: 3\n", TW_CARE, "key-idle", "`bottom room`", "leave");
    expect("    haunch width: 20\n", TW_CARE, "key-idle", "`haunch width`", "leave");
}

static void copying_a_tenon_that_no_cutter_reaches_is_refused(void **state)
{
    (void)state;
    expect("    through: yes\n    proud: 8\n    tenon by: copy\n", TW_HALT, "tenon-reach", "68.0 mm long", "tenon by: saw");
}

static void what_cannot_be_cut_has_no_work_and_no_cuts(void **state)
{
    (void)state;
    bench b;
    set_out_rail(&b, "    tenon width: 61\n");
    assert_int_equal(b.plans[0].work_count, 0);
    assert_int_equal(b.plans[0].cut_count, 0);
    assert_true(b.plans[0].figure_count > 10);  // the sums are still shown
    finish(&b);
}

/* ---- laws over seeded jobs ---- */

static const char *const from_words[] = { "face", "back", "face edge", "back edge" };
static const char *const end_words[] = { "left", "right", "both" };

static void write_seeded_job(check_seed *seed, char *job, size_t size)
{
    double thickness = check_between(seed, 10, 70), width = check_between(seed, 20, 200), leg = check_between(seed, 20, 120);
    int ends = (int)(check_random(seed) % 3), places = 1 + (int)(check_random(seed) % 2);
    int rails = places * (1 + (int)(check_random(seed) % 3)), used = snprintf(job, size,
        "job: seeded\nunits: mm\nfigures: %s\nsets: %d\npieces:\n  rail: {count: %d, length: %.3f, width: %.3f, thickness: %.3f}\n"
        "  leg: {count: %d, length: %.3f, width: %.3f, thickness: %.3f}\njoints:\n  j:\n    kind: mortise and tenon\n    tenon: rail\n    ends: %s\n    into: leg\n    from: %s\n",
        check_random(seed) % 2 ? "mm 0.1" : "in 1/64", 1 + (int)(check_random(seed) % 3), rails, check_between(seed, 60, 900), width, thickness,
        rails * (ends == 2 ? 2 : 1) / places, check_between(seed, 400, 900), leg, check_between(seed, 20, 120), end_words[ends], from_words[check_random(seed) % 4]);
    double at = check_between(seed, 20, 200);
    used += places == 1 ? snprintf(job + used, size - (size_t)used, "    at: %.3f\n", at) : snprintf(job + used, size - (size_t)used, "    at: [%.3f, %.3f]\n", at, check_between(seed, 210, 390));
    const char *const extras[] = { "    through: yes\n", "    fit: glued\n", "    lies: across\n", "    tenons: double\n", "    tenons: twin\n", "    haunch: 8\n",
        "    haunch: 8\n    haunch at: back edge\n", "    mortise ends: square\n", "    tenon by: saw\n", "    across: 15\n", "    tenon thickness: 9\n", "    tenon width: 30\n", "    depth: 25\n" };
    uint64_t chosen = check_random(seed);
    bool tenons = false, haunch = false;
    for (size_t i = 0; i < sizeof extras / sizeof *extras; i++) {
        if ((chosen >> (2 * i)) % 4 != 0) continue;
        if (strstr(extras[i], "tenons") && tenons) continue;
        if (strstr(extras[i], "haunch") && haunch) continue;
        tenons = tenons || strstr(extras[i], "tenons");
        haunch = haunch || strstr(extras[i], "haunch");
        used += snprintf(job + used, size - (size_t)used, "%s", extras[i]);
    }
    assert_true((size_t)used < size);
}

static double tenon_area(const tw_mortise *m)
{
    double radius = m->round ? tw_min(m->t, m->w) / 2.0 : 0.0;
    return (m->t * m->w - (4.0 - TW_PI) * radius * radius) * (m->pair ? 2 : 1);
}

static void check_laws(const bench *b)
{
    const tw_joint_plan *plan = &b->plans[0];
    const tw_mortise *m = plan->own;
    CHECK_NEAR(m->tm - m->t, m->c, 1e-9);
    CHECK_NEAR(m->wm - m->w, m->cw, 1e-9);
    CHECK_NEAR(m->face_shoulder + m->over_t + m->back_shoulder, m->a.thickness_mm, 1e-9);
    CHECK_NEAR(m->face_edge_shoulder + m->over_w + (m->haunched ? m->haunch_width : 0.0) + m->back_edge_shoulder, m->a.width_mm, 1e-9);
    if (!m->through) CHECK_NEAR(m->depth - m->l, m->room, 1e-9);
    if (!tw_mortise_possible(m)) { assert_true(tw_findings_have(&b->findings, TW_HALT)); return; }
    double whole = m->a.width_mm * m->a.thickness_mm * m->l;
    double stays = tenon_area(m) * m->l + (m->haunched ? m->haunch_width * m->t * m->haunch : 0.0);
    CHECK_NEAR(volume_of_cuts(b, 0, 0), m->ends * (whole - stays), 1e-6 * whole);
    int mortised = 0, copied = 0;
    for (size_t i = 0; i < plan->cut_count; i++) {
        const tw_cut *cut = &plan->cuts[i];
        tw_box box = tw_outline_bounds(cut->outline);
        tw_size extent = tw_face_extent(cut->piece == 0 ? m->a : m->b, cut->face);
        assert_true(box.x0 > -1e-6 && box.y0 > -1e-6 && box.x1 < extent.length_mm + 1e-6 && box.y1 < extent.width_mm + 1e-6);
        assert_true(cut->depth_mm > 0.0 && cut->depth_mm <= extent.thickness_mm + 1e-6);
        mortised += strcmp(cut->name, "mortise") == 0;
    }
    assert_int_equal(mortised, m->spec->at.count * (m->pair ? 2 : 1));
    for (size_t i = 0; i < plan->work_count; i++) {
        const tw_work *work = &plan->works[i];
        if (strncmp(work->name, "mortises", 8) == 0) copied += work->count;
        if (!work->copied) continue;
        assert_true(work->copy.depth_mm > 0.0 && isfinite(work->copy.stop_to_origin_mm) && work->copy.down_to_origin_mm > 0.0);
        assert_true(work->copy.cut.count >= 1);
    }
    bool both_hits = m->two_faced && !strstr(plan->works[1].what, "roll every piece over");
    if (!both_hits || !m->pair) assert_int_equal(copied, mortised * m->into_pieces * (both_hits ? 2 : 1));
}

static void clearances_shoulders_and_wood_add_up_in_seeded_jobs(void **state)
{
    (void)state;
    check_seed seed = { 20 };
    int possible = 0;
    for (int i = 0; i < 3000; i++) {
        char job[2048];
        bench b;
        write_seeded_job(&seed, job, sizeof job);
        set_out(&b, mm_shop, job);
        check_laws(&b);
        possible += tw_mortise_possible(b.plans[0].own);
        finish(&b);
    }
    assert_true(possible > 800);  // the seeds make joints that can be cut, not only refusals
}

/* ---- the drawing ---- */

static const tw_box room = { 20.0, 30.0, 190.0, 150.0 };

static const char *draw_on(const bench *b, tw_sheet **sheet)
{
    *sheet = tw_sheet_new(b->context.arena, "joint", "joint", 210.0, 297.0);
    const tw_joint_plan *plan = &b->plans[0];
    return tw_joint_kinds[plan->joint->kind]->draw(&b->context, plan, *sheet, room);
}

static void check_drawing(const bench *b, const char *job)
{
    tw_sheet *sheet;
    const char *scale = draw_on(b, &sheet);
    assert_non_null(scale);
    int count;
    const tw_overlap *overlaps = tw_sheet_overlaps(sheet, b->context.arena, &count);
    if (count) print_error("\"%s\" and \"%s\" overlap in\n%s\n", sheet->items[overlaps[0].first].text, sheet->items[overlaps[0].second].text, job);
    assert_int_equal(count, 0);
    for (size_t i = 0; i < sheet->count; i++) {
        if (sheet->items[i].kind != TW_ITEM_TEXT) continue;
        tw_box box = tw_text_box(&sheet->items[i]);
        if (box.x0 < room.x0 - 0.5 || box.x1 > room.x1 + 0.5 || box.y0 < room.y0 - 0.5 || box.y1 > room.y1 + 0.5) print_error("\"%s\" leaves the room (%s) in\n%s\n", sheet->items[i].text, scale, job);
        assert_true(box.x0 > room.x0 - 0.5 && box.x1 < room.x1 + 0.5 && box.y0 > room.y0 - 0.5 && box.y1 < room.y1 + 0.5);
    }
}

static void drawings_of_seeded_jobs_have_no_texts_that_meet_or_leave_the_room(void **state)
{
    (void)state;
    check_seed seed = { 7 };
    for (int i = 0; i < 400; i++) {
        char job[2048];
        bench b;
        write_seeded_job(&seed, job, sizeof job);
        set_out(&b, mm_shop, job);
        check_drawing(&b, job);
        finish(&b);
    }
}

static void the_longest_names_do_not_run_into_each_other(void **state)
{
    (void)state;
    bench b;
    const char *job =
        "job: t\nunits: in\nfigures: in 1/64\npieces:\n  the very long lower rail at the back of the left hand frame: {count: 1, length: 20, width: 2-17/64, thickness: 1-1/8}\n"
        "  the equally long stile that stands at the back of the frame: {count: 1, length: 28, width: 1-47/64, thickness: 1-3/4}\n"
        "joints:\n  j:\n    kind: mortise and tenon\n    tenon: the very long lower rail at the back of the left hand frame\n    ends: left\n    into: the equally long stile that stands at the back of the frame\n    from: face edge\n    at: 4\n    haunch: 3/8\n";
    char shorter[2048];
    snprintf(shorter, sizeof shorter, "%s", job);
    set_out(&b, inch_shop, shorter);
    check_drawing(&b, shorter);
    finish(&b);
}

static void a_joint_that_cannot_be_made_is_not_drawn(void **state)
{
    (void)state;
    bench b;
    tw_sheet *sheet;
    set_out_rail(&b, "    tenon width: 61\n");
    assert_string_equal(draw_on(&b, &sheet), "not to scale");
    assert_true(sheet->count > 0);
    finish(&b);
}

/* The tenon's length is 40 mm; at 1:1 its dimension's points lie 40 mm apart: looked for in the lines of the section. */
static void the_drawing_is_true_to_its_scale(void **state)
{
    (void)state;
    bench b;
    tw_sheet *sheet;
    set_out_rail(&b, "");
    const char *scale = draw_on(&b, &sheet);
    double factor = strcmp(scale, "1:1") == 0 ? 1.0 : strcmp(scale, "1:2") == 0 ? 0.5 : strcmp(scale, "1:5") == 0 ? 0.2 : 0.0;
    assert_true(factor > 0.0);
    bool tenon = false, mortise = false;
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        if (item->kind != TW_ITEM_LINE || item->role != TW_ROLE_CUT || fabs(item->from.y - item->to.y) > 1e-9) continue;
        double length = fabs(item->to.x - item->from.x);
        tenon = tenon || fabs(length - 40.0 * factor) < 1e-9;
        mortise = mortise || fabs(length - 42.0 * factor) < 1e-9;
    }
    assert_true(tenon && mortise);
    finish(&b);
}

static void the_same_text_gives_the_same_plan(void **state)
{
    (void)state;
    bench a, b;
    set_out(&a, mm_shop, four_places);
    set_out(&b, mm_shop, four_places);
    assert_int_equal(a.plans[0].figure_count, b.plans[0].figure_count);
    for (size_t i = 0; i < a.plans[0].figure_count; i++) {
        assert_memory_equal(&a.plans[0].figures[i].value, &b.plans[0].figures[i].value, sizeof(double));
        assert_string_equal(a.plans[0].figures[i].sum, b.plans[0].figures[i].sum);
    }
    finish(&a);
    finish(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_blind_dry_joint_in_millimetres_has_the_proportions_worked_by_hand),
        cmocka_unit_test(a_blind_glued_joint_in_inches_has_the_proportions_worked_by_hand),
        cmocka_unit_test(a_dry_tenon_is_left_looser_than_a_glued_one),
        cmocka_unit_test(the_room_in_the_width_takes_what_flat_sawn_white_oak_swells_over_one_and_a_half_percent),
        cmocka_unit_test(a_blind_tenon_is_no_longer_than_the_cutter_reaches),
        cmocka_unit_test(where_no_owned_cutter_comes_near_the_mortise_is_a_plain_third),
        cmocka_unit_test(a_through_tenon_is_as_long_as_the_piece_is_deep_and_what_stands_proud),
        cmocka_unit_test(a_rail_too_wide_for_one_tenon_gets_a_double_one),
        cmocka_unit_test(twins_share_the_thickness_in_fifths),
        cmocka_unit_test(pairs_of_tenons_are_named_as_the_trade_names_them),
        cmocka_unit_test(old_way_to_tell_pairs_apart_is_refused_with_the_word_that_is_meant),
        cmocka_unit_test(a_haunch_goes_to_the_edge_where_its_groove_runs_out_at_the_end),
        cmocka_unit_test(a_haunch_far_from_the_end_keeps_a_shoulder_and_a_closed_groove),
        cmocka_unit_test(given_sizes_are_taken_as_given),
        cmocka_unit_test(every_figure_has_a_sum_or_is_given),
        cmocka_unit_test(the_wood_cut_from_the_ends_is_the_end_less_the_tenon),
        cmocka_unit_test(a_mortise_from_the_back_edge_is_measured_from_the_back_of_the_piece),
        cmocka_unit_test(a_tenon_across_has_its_mortise_turned),
        cmocka_unit_test(the_mortise_comes_before_the_tenon_and_the_fit_before_the_glue),
        cmocka_unit_test(the_copied_tenon_stands_on_its_back_and_is_stopped_at_the_face_edge),
        cmocka_unit_test(a_tenon_out_of_the_middle_has_a_right_and_a_left_hand),
        cmocka_unit_test(places_alike_from_both_ends_of_a_centred_mortise_are_one_setup),
        cmocka_unit_test(out_of_the_middle_the_two_ends_are_two_hands),
        cmocka_unit_test(through_and_out_of_the_middle_the_other_face_is_the_other_hand),
        cmocka_unit_test(a_tenon_longer_than_any_cutter_is_sawn_and_its_mortise_chopped_square),
        cmocka_unit_test(counts_of_cuts_add_up_over_all_sets),
        cmocka_unit_test(a_mortise_into_an_end_is_refused),
        cmocka_unit_test(depths_that_do_not_do_are_refused),
        cmocka_unit_test(tenons_that_do_not_fit_their_piece_are_refused),
        cmocka_unit_test(tenons_too_near_each_other_are_refused),
        cmocka_unit_test(haunches_that_do_not_do_are_refused),
        cmocka_unit_test(walls_too_thin_are_refused),
        cmocka_unit_test(a_shoulder_that_stands_over_the_side_is_a_care),
        cmocka_unit_test(places_too_near_the_end_are_refused),
        cmocka_unit_test(counts_that_do_not_agree_are_refused_with_both_numbers),
        cmocka_unit_test(tenon_of_which_nothing_is_left_is_refused_without_figures_below_nothing),
        cmocka_unit_test(tenons_that_leave_no_body_are_refused),
        cmocka_unit_test(mortises_that_meet_from_opposite_faces_are_refused),
        cmocka_unit_test(mortises_from_neighbouring_faces_are_compared_as_they_stand_in_the_leg),
        cmocka_unit_test(places_of_one_joint_that_overlap_are_refused),
        cmocka_unit_test(two_joints_on_the_same_end_are_refused),
        cmocka_unit_test(clearances_out_of_the_common_are_cares),
        cmocka_unit_test(a_wide_glued_tenon_across_the_grain_is_a_care),
        cmocka_unit_test(keys_without_meaning_are_cares),
        cmocka_unit_test(copying_a_tenon_that_no_cutter_reaches_is_refused),
        cmocka_unit_test(what_cannot_be_cut_has_no_work_and_no_cuts),
        cmocka_unit_test(clearances_shoulders_and_wood_add_up_in_seeded_jobs),
        cmocka_unit_test(drawings_of_seeded_jobs_have_no_texts_that_meet_or_leave_the_room),
        cmocka_unit_test(the_longest_names_do_not_run_into_each_other),
        cmocka_unit_test(a_joint_that_cannot_be_made_is_not_drawn),
        cmocka_unit_test(the_drawing_is_true_to_its_scale),
        cmocka_unit_test(the_same_text_gives_the_same_plan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
