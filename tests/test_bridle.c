// SPDX-License-Identifier: GPL-3.0-or-later
/* Housed bridles by figures worked by hand, refusals, and laws over seeded joints. Facts marked so are common practice: a
 * third for each prong and for the web; what gets no glue is left slightly loose; a prong is rounded to the cutter's radius. */
#include "joined.h"

#include "template/template.h"

#define BEAM_AND_POST "job: test\nunits: mm\nfigures: mm 0.1\npieces:\n" \
    "  beam: {count: %d, length: 900, width: 60, thickness: 36}\n  post: {count: %d, length: 700, width: %d, thickness: 36}\njoints:\n"
#define FORK "  fork:\n    kind: housed bridle\n    forked: post\n    over: beam\n"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_text(const char *text)
{
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

static void plan_with(int beams, int posts, int width, const char *more)
{
    char text[4096];
    snprintf(text, sizeof text, BEAM_AND_POST FORK "%s%s", beams, posts, width, strstr(more,
        " from:") ? "" : "    from: face edge\n", more);
    plan_text(text);
}

/* One post, its left end forked, over the beam at 300. */
static void plan_left(const char *more)
{
    char lines[2048];
    snprintf(lines, sizeof lines, "    ends: left\n%s%s", strstr(more, " at:") ? "" : "    at: 300\n", more);
    plan_with(1, 1, 44, lines);
}

static void refuse(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_left(more);
    expect_finding(&p, code, TW_HALT, what, remedy);
    tw_arena_finish(&p.arena);
}

static void warn(const char *more, const char *code, const char *what, const char *remedy)
{
    plan_left(more);
    expect_finding(&p, code, TW_CARE, what, remedy);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_true(p.plans[0].work_count > 0);
    tw_arena_finish(&p.arena);
}

static int cuts_named(const char *name)
{
    int count = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++) count += strcmp(p.plans[0].cuts[i].name, name) == 0;
    return count;
}

/* ---- proportions ---- */

/* Beam 60 x 36: depth 36/3 = 12, web 36 - 24 = 12; dry: slot 12.2, housing 44.2; prongs (36 - 12.2)/2 = 11.9; stop the less of
 * 12 and 60/4 = 15; housing 48 long, prong 47.5; cutter 12.7: radius 6.35; body 700 - 47.5. */
static void a_stopped_bridle_in_millimetres_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_left("");
    static const struct { const char *key; double value; } wanted[] = { { "depth", 12 }, { "web", 12 }, { "ease", 0.2 },
        { "slot", 12.2 }, { "prong", 11.9 }, { "clearance", 0.2 }, { "housing_width", 44.2 }, { "stop_short", 12 },
        { "housing_length", 48 }, { "end_room", 0.5 }, { "prong_length", 47.5 }, { "body", 652.5 }, { "corner_radius", 6.35 },
        { "prong_radius", 6.35 }, { "web_along", 44.2 }, { "web_across", 48 } };
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) CHECK_NEAR(figure(&p, 0, wanted[i].key), wanted[i].value, 1e-9);
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    assert_int_equal(p.plans[0].count, 1);
}

/* 2 1/2 x 1 1/2 in: depth 1/2 in, web 1/2 in; slot 0.508 in; stop the less of 1/2 in and 5/8 in; room 1/64 in; cutter 1/2 in. */
static void inches_have_round_figures_of_their_own(void **state)
{
    (void)state;
    plan_text("job: test\nunits: in\nfigures: in 1/64\npieces:\n  beam: {count: 1, length: 40, width: 2-1/2, thickness: 1-1/2}\n "
        " post: {count: 1, length: 30, width: 1-3/4, thickness: 1-1/2}\njoints:\n" FORK "    from: back edge\n    ends: right\n  "
        "  at: 12\n    corners: corner notch\n");
    CHECK_NEAR(figure(&p, 0, "depth"), 12.7, 1e-9);
    CHECK_NEAR(figure(&p, 0, "slot"), 0.508 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "stop_short"), 12.7, 1e-9);
    CHECK_NEAR(figure(&p, 0, "prong_length"), (2.0 - 1.0 / 64.0) * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "corner_notch"), (0.25 + 1.0 / 32.0) * 25.4, 1e-9);
}

/* Glued 0.1 each. Through: housings and prongs 60 long, level with the far side, no room and no corners. */
static void glue_makes_the_fits_finer_and_through_housings_have_no_corners(void **state)
{
    (void)state;
    plan_left("    fit: glued\n    housings: through\n");
    CHECK_NEAR(figure(&p, 0, "slot"), 12.1, 1e-9);
    CHECK_NEAR(figure(&p, 0, "housing_width"), 44.1, 1e-9);
    CHECK_NEAR(figure(&p, 0, "prong_length"), 60.0, 1e-9);
    assert_null(tw_plan_find(&p.plans[0], "stop_short"));
    assert_null(tw_plan_find(&p.plans[0], "prong_radius"));
    assert_int_equal(p.plans[0].cut_count, 3);
    assert_true(p.plans[0].meetings[0].for_good);
    assert_string_equal(p.plans[0].meetings[0].held_by, "glue");
}

/* Section of a T, worked by hand: web 12 x 60 (A 720, middle 30) and rim 24 x 12 (A 288, middle 54): middle
 * (21600 + 15552)/1008 = 258/7; I = 216000 + 3456 + 720 (48/7)^2 + 288 (120/7)^2 = 337947.43; Z = I / (258/7) = 9169.12;
 * whole 36 x 60^2 / 6 = 21600: 0.42450. Through: web over thickness, 1/3. */
static void the_strength_left_is_that_of_a_t(void **state)
{
    (void)state;
    plan_left("");
    CHECK_NEAR(figure(&p, 0, "strength"), 9169.12 / 21600.0, 1e-6);
    tw_arena_finish(&p.arena);
    plan_left("    housings: through\n");
    CHECK_NEAR(figure(&p, 0, "strength"), 1.0 / 3.0, 1e-12);
}

/* ---- the answers for the round corners ---- */

static void each_answer_for_the_round_corners_has_its_cuts_and_works(void **state)
{
    (void)state;
    plan_left("");  // rounded is proposed: two prongs with two corners each
    assert_int_equal(cuts_named("rounded corner"), 4);
    assert_int_equal(work_that_is(&p, "rounded corners of the prongs")->count, 4);
    assert_null(work_of(&p, "stopped ends of the housings"));
    tw_arena_finish(&p.arena);
    plan_left("    corners: corner notch\n");  // 6.35 + 1
    assert_int_equal(cuts_named("corner notch"), 4);
    CHECK_NEAR(work_that_is(&p, "corner notches of the prongs")->measure_mm, 7.35, 1e-9);
    tw_arena_finish(&p.arena);
    plan_left("    corners: chisel\n");
    assert_int_equal(p.plans[0].cut_count, 3);  // two housings, a slot
    assert_int_equal(work_that_is(&p, "stopped ends of the housings")->count, 2);
    assert_null(work_of(&p, "rounded corners of the prongs"));
    tw_arena_finish(&p.arena);
    plan_left("    by: saw\n");  // chopped square from the first
    assert_int_equal(p.plans[0].cut_count, 3);
    assert_null(work_of(&p, "stopped ends of the housings"));
    assert_non_null(work_of(&p, "ends of the stopped housings"));
}

/* A prong left square would stand on the wood in the round corners: the same plan without what answers for them clashes,
 * though no wider than its clearance allows. */
static void a_square_prong_stands_on_the_wood_in_the_round_corners(void **state)
{
    (void)state;
    static const char *const answers[] = { "rounded prong", "corner notch" };
    for (int i = 0; i < 2; i++) {
        char more[64];
        snprintf(more, sizeof more, "    corners: %s\n", answers[i]);
        plan_left(more);
        tw_block corner = around_cut(&p, 0, 0, 0, 0.0);
        corner.least.y = corner.most.y - 6.35;  // the stopped end of the first housing; from the face edge y is v
        corner.most.x = corner.least.x + 6.35;
        assert_int_equal(look_in(&p, 0, &p.plans[0].meetings[0], (tw_spot){ 0, 0, 0 }, corner, 20000, 3).both, 0);
        p.plans[0].cut_count = 3;  // housings and slot alone
        assert_true(look_in(&p, 0, &p.plans[0].meetings[0], (tw_spot){ 0, 0, 0 }, corner, 20000, 3).both > 200);
        tw_arena_finish(&p.arena);
    }
    p = (planned){ 0 };
}

/* Housings 44.2 x 48 x 12 less (1 - pi/4) r^2 in two corners each; slot 12.2 x 47.5 x 44; prong corners (1 - pi/4) r^2, or
 * 7.35^2, each 11.9 deep. */
static void volumes_are_those_of_the_closed_forms(void **state)
{
    (void)state;
    double corner = (1.0 - TW_PI / 4.0) * 6.35 * 6.35, slot = 12.2 * 47.5 * 44.0;
    plan_left("");
    CHECK_NEAR(cut_volume(&p, 0, 0), 2.0 * (44.2 * 48.0 - 2.0 * corner) * 12.0, 1e-6);
    CHECK_NEAR(cut_volume(&p, 0, 1), slot + 4.0 * corner * 11.9, 1e-6);
    tw_arena_finish(&p.arena);
    plan_left("    corners: corner notch\n");
    CHECK_NEAR(cut_volume(&p, 0, 1), slot + 4.0 * 7.35 * 7.35 * 11.9, 1e-6);
    tw_arena_finish(&p.arena);
    plan_left("    corners: chisel\n");
    CHECK_NEAR(cut_volume(&p, 0, 0), 2.0 * 44.2 * 48.0 * 12.0, 1e-6);
    // empty in the box of both housings and the web: beside the prongs, past their ends, on both sides of the web
    tw_block box = around_cut(&p, 0, 0, 0, 0.0), other = around_cut(&p, 0, 0, 1, 0.0);
    box.least.z = tw_min(box.least.z, other.least.z);
    box.most.z = tw_max(box.most.z, other.most.z);
    clash c = look_in(&p, 0, &p.plans[0].meetings[0], (tw_spot){ 0, 0, 0 }, box, 400000, 5);
    double empty = 2.0 * (44.2 * 48.0 * 12.0 - 44.0 * 47.5 * 11.9);
    CHECK_NEAR((double)c.neither / c.points * block_volume(box), empty, 0.05 * empty);
    assert_int_equal(c.both, 0);
}

/* ---- hands and setups ---- */

/* One place at 300 of 900: on the face, its back edge down, the left end lies to the right: a right hand; on the back a left. */
static void one_place_needs_a_setup_for_each_side(void **state)
{
    (void)state;
    plan_left("");
    const tw_work *right = work_that_is(&p, "housings, 1 of 2, right hand"), *left = work_that_is(&p,
        "housings, 2 of 2, left hand");
    assert_int_equal(right->face, TW_SIDE_FACE);
    assert_int_equal(left->face, TW_SIDE_BACK);
    assert_int_equal(right->down, TW_SIDE_BACK_EDGE);
    for (int i = 0; i < 2; i++) {
        const tw_work *work = i ? left : right;
        assert_int_equal(work->hand, i ? TW_HAND_LEFT : TW_HAND_RIGHT);
        assert_int_equal(work->count, 1);
        assert_int_equal(work->copy.stop_end, TW_SIDE_LEFT_END);
        CHECK_NEAR(work->copy.stop_to_origin_mm, 300.0, 1e-9);
    }
}

/* 190 and 710 of 900 lie alike from both ends: face and back share two setups, two cuts in each. */
static void places_alike_from_both_ends_share_setups_of_both_sides(void **state)
{
    (void)state;
    plan_with(1, 2, 44, "    ends: right\n    at: [190, 710]\n");
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    const tw_work *right = work_that_is(&p, "housings, 1 of 2, right hand"), *left = work_that_is(&p,
        "housings, 2 of 2, left hand");
    assert_int_equal(right->count, 2);
    assert_int_equal(left->count, 2);
    CHECK_HOLDS(right->places, "190.0 mm from the left end, face (1); 190.0 mm from the right end, back (1)");
    CHECK_HOLDS(left->places, "190.0 mm from the right end, face (1); 190.0 mm from the left end, back (1)");
    CHECK_HOLDS(right->what, "turn the piece end for end, the back edge down again");
}

/* In the very middle both sides are one setup; run through, places of one distance are too, whatever the side. */
static void a_place_in_the_middle_and_through_housings_need_one_setup(void **state)
{
    (void)state;
    plan_left("    at: 450\n");
    const tw_work *middle = work_that_is(&p, "housings");
    assert_int_equal(middle->count, 2);
    assert_int_equal(middle->hand, TW_HAND_RIGHT);
    tw_arena_finish(&p.arena);
    plan_with(1, 2, 62, "    ends: left\n    at: [190, 710]\n    housings: through\n");
    const tw_work *all = work_that_is(&p, "housings");
    assert_int_equal(all->count, 4);
    assert_int_equal(all->hand, TW_HAND_NONE);
}

/* Slot 47.5 deep in a post 44 wide: the cutter of 9.525 is 38 long, less than 44 + 2: from both sides, 22 + 2 deep each. The cut
 * runs 9.525 past the end: 57.025 long, its middle 57.025/2 - 9.525 = 18.9875 inside the end. */
static void a_slot_is_copied_from_both_sides_when_the_cutter_is_short(void **state)
{
    (void)state;
    plan_left("    slot by: copy\n");
    const tw_work *slot = work_that_is(&p, "slots");
    assert_true(slot->copy.both_faces);
    assert_string_equal(slot->copy.cutter, "nine five");
    CHECK_NEAR(slot->copy.depth_mm, 24.0, 1e-9);
    CHECK_NEAR(slot->copy.stop_to_origin_mm, 18.9875, 1e-9);
    CHECK_NEAR(slot->copy.down_to_origin_mm, 18.0, 1e-9);
    assert_int_equal(slot->face, TW_SIDE_FACE_EDGE);
    assert_int_equal(slot->down, TW_SIDE_BACK);
    assert_null(work_of(&p, "sides of the slots"));
}

static void every_work_follows_those_of_the_layer_before(void **state)
{
    (void)state;
    plan_left("    fit: glued\n");
    const char *const order[] = { "widths of the forks", "housings, 1 of 2, right hand", "webs", "lines of the slots",
        "sides of the slots", "bottoms of the slots", "rounded corners of the prongs", "forks over their webs, dry", "glue up" };
    const tw_work *before = NULL;
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        const tw_work *work = work_that_is(&p, order[i]);
        if (before) assert_true(work > before && work->after_count > 0 && work->stage >= before->stage);
        before = work;
    }
}

/* A setup played through by directions alone: who looks at `face` with `down` on the table has up = -out(down) and right = up x
 * out(face); the end at the stop is so far from the cut's origin, the side that lies down so far below it. A spot half as deep
 * as the cut is taken where its place on the card lies in the cut, and nowhere else. turned: end for end, the same side down. */
static void check_setup(const tw_work *work, bool turned, check_seed *seed)
{
    const tw_copy_want *want = &work->copy;
    tw_size size = tw_piece_size(&p.job->pieces[work->piece]);
    tw_face face = turned ? tw_face_opposite(work->face) : work->face, end = turned ? tw_face_opposite(want->stop_end)
        : want->stop_end;
    tw_spot up = tw_spot_times(tw_face_frame(work->down).out, -1.0), out = tw_face_frame(face).out,
        right = tw_spot_cross(up, out), end_out = tw_face_frame(end).out;
    double side = tw_spot_product(right, end_out), end_at = on_axis((tw_spot){ end == TW_SIDE_RIGHT_END ? size.length_mm : 0.0,
        0.0, 0.0 }, right, size);
    for (int i = 0; i < 2000; i++) {
        double x = check_between(seed, -40.0, 40.0), y = check_between(seed, -60.0, 60.0);
        double along = end_at - side * want->stop_to_origin_mm + x, high = want->down_to_origin_mm + y;  // from the left, from the table
        tw_spot spot = { along, 0.0, 0.0 };
        if (right.x < 0.0) spot.x = size.length_mm - along;
        spot.y = up.y > 0.0 ? high : up.y < 0.0 ? size.width_mm - high : out.y > 0.0 ? size.width_mm - want->depth_mm / 2.0
            : want->depth_mm / 2.0;
        spot.z = up.z > 0.0 ? high : up.z < 0.0 ? size.thickness_mm - high : out.z > 0.0
            ? size.thickness_mm - want->depth_mm / 2.0 : want->depth_mm / 2.0;
        if (!in_blank(size, spot)) continue;
        assert_int_equal(is_wood(&p, 0, work->piece, spot), tw_outline_side(want->cut, (tw_point){ x, y }) < 0);
    }
}

static void setups_cut_housings_and_slots_where_the_plan_has_them(void **state)
{
    (void)state;
    static const char *const froms[] = { "face", "back", "face edge", "back edge" }, *const places[] = { "[190, 710]",
        "[250, 600]", "[300, 450]" };
    check_seed seed = { 17 };
    for (int i = 0; i < 24; i++) {
        char more[256];
        snprintf(more, sizeof more, "    ends: left\n    from: %s\n    at: %s\n    housings: %s\n    slot by: copy\n    prongs: "
            "%s\n", froms[i % 4], places[i / 8], i / 4 % 2 ? "through" : "stopped", i % 3 ? "faces" : "edges");
        plan_with(1, 2, i % 3 ? 44 : 40, more);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        int cuts = 0;
        for (size_t k = 0; k < p.plans[0].work_count; k++) {
            const tw_work *work = &p.plans[0].works[k];
            if (!work->copied) continue;
            if (strcmp(work->name, "slots") != 0) cuts += work->count;
            check_setup(work, false, &seed);
            if (strstr(work->what, "turn the piece end for end") && work->hand != TW_HAND_NONE) check_setup(work, true, &seed);
        }
        assert_int_equal(cuts, 4);
        tw_arena_finish(&p.arena);
    }
    p = (planned){ 0 };
}

/* ---- templates: what is cut ---- */

/* Each template gives the wanted cut, but for the corners that are told to be chopped: two of (1 - pi/4) r^2 at the stop.
 * Through, the cutter of 12.7 would ask a board of 2 (60 + 25.4) + 50 = 220.8, over the holder's 220: that of 9.525 serves. */
static void the_templates_cut_what_is_wanted(void **state)
{
    (void)state;
    static const char *const ways[] = { "", "    corners: corner notch\n", "    corners: chisel\n", "    housings: through\n" };
    for (int i = 0; i < 4; i++) {
        plan_left(ways[i]);
        tw_templates templates = tw_templates_make(&p.arena, p.job, p.shop, p.plans, 1, &p.findings);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        assert_int_equal(templates.count, 1);  // both hands share it
        const tw_copy *copy = &templates.items[0].copy;
        CHECK_NEAR(copy->lost_area_mm2, 0.0, 1e-3);
        CHECK_NEAR(copy->left_area_mm2, i == 2 ? 2.0 * (1.0 - TW_PI / 4.0) * 6.35 * 6.35 : 0.0, 1e-3);
        if (i != 2) CHECK_NEAR(tw_outline_difference_mm(&p.arena, copy->achieved, templates.items[0].ask.cut), 0.0, 1e-3);
        tw_box box = tw_outline_bounds(copy->achieved);  // from the stop, or a cutter below, to a cutter above the open side
        CHECK_NEAR(box.x1 - box.x0, 44.2, 1e-3);
        CHECK_NEAR(box.y1 - box.y0, i == 3 ? 60.0 + 2.0 * 9.525 : 48.0 + 12.7, 1e-3);
        tw_arena_finish(&p.arena);
    }
    p = (planned){ 0 };
}

/* ---- the web's grain ---- */

/* Through, the web is 60 high across the grain; 44.2 long along it: care. A fork 62 wide: 62.2 long, none. Stopped: none. */
static void a_web_that_is_higher_than_long_is_found_where_the_housings_run_through(void **state)
{
    (void)state;
    warn("    housings: through\n", "bridle-web-short-grain", "stands 60.0 mm high across its grain, is 44.2 mm long along it "
        "and 12.0 mm thick", "stop the housings");
    plan_with(1, 1, 62, "    ends: left\n    at: 300\n    housings: through\n");
    assert_null(finding(&p, "bridle-web-short-grain"));
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    tw_arena_finish(&p.arena);
    plan_left("");
    assert_null(finding(&p, "bridle-web-short-grain"));
}

/* ---- refusals ---- */

static void webs_and_prongs_out_of_range_are_refused(void **state)
{
    (void)state;
    refuse("    depth: 18\n", "housing-deep", "cut beam in two", "a third of its thickness: 12.0 mm");
    refuse("    depth: 17\n", "web-thin", "a web of only 2.0 mm", "12.0 mm");
    warn("    depth: 14\n", "web-thin", "8.0 mm is less than a quarter of the 36.0 mm", "12.0 mm");
    plan_text("job: test\nunits: mm\npieces:\n  beam: {count: 1, length: 900, width: 60, thickness: 36}\n  post: {count: 1, "
        "length: 700, width: 44, thickness: 60}\njoints:\n" FORK "    from: face edge\n    ends: left\n    at: 300\n    depth: "
        "1.5\n");
    expect_finding(&p, "housing-shallow", TW_CARE, "only 1.5 mm deep hardly keep the prongs from racking", "12.0 mm");
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    tw_arena_finish(&p.arena);
    refuse("    depth: 0.05\n", "housing-shallow", "", "12.0 mm");
    plan_text("job: test\nunits: mm\npieces:\n  beam: {count: 1, length: 900, width: 60, thickness: 36}\n  post: {count: 1, "
        "length: 700, width: 44, thickness: 12}\njoints:\n" FORK "    from: face edge\n    ends: left\n    at: 300\n");
    expect_finding(&p, "prong-thin", TW_HALT, "a slot of 12.2 mm leaves nothing of post, which is 12.0 mm there",
        "a thicker piece, or deeper housings");
    assert_int_equal(p.plans[0].cut_count, 0);
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  beam: {count: 1, length: 900, width: 60, thickness: 36}\n  post: {count: 1, "
        "length: 700, width: 44, thickness: 20}\njoints:\n" FORK "    from: face edge\n    ends: left\n    at: 300\n");
    expect_finding(&p, "prong-thin", TW_CARE, "prongs of 3.9 mm are thin", "deeper housings");
    expect_finding(&p, "prongs-not-level", TW_NOTE, "8.0 mm shy of the side of beam", "one thickness");
}

static void fits_out_of_range_are_thought_over(void **state)
{
    (void)state;
    warn("    clearance: 0.01\n", "clearance-small", "0.0 mm", "0.2 mm");
    warn("    clearance: 0.8\n    fit: glued\n", "clearance-large", "glue does not fill it", "0.1 mm");
    warn("    ease: 0.01\n", "ease-small", "will not go together by hand", "0.2 mm");
    warn("    ease: 1\n", "ease-large", "the fork rocks", "0.2 mm");
    warn("    end room: 4\n", "room-large", "4.0 mm past the prong's end stays open", "0.5 mm");
    plan_with(1, 1, 80, "    ends: left\n    at: 300\n    fit: glued\n");
    expect_finding(&p, "glued-wide", TW_CARE, "80.0 mm is glued across the grain", "75.0 mm");
}

static void stops_and_corners_that_leave_nothing_are_refused(void **state)
{
    (void)state;
    refuse("    stop short: 2\n", "stop-thin", "only 2.0 mm of beam", "`housings: through`");
    warn("    stop short: 4\n", "stop-thin", "hardly holds the edge of the web", "12 mm");
    refuse("    stop short: 50\n", "stop-long", "10.0 mm long across the 60.0 mm of beam", "a quarter of the piece");
    refuse("    stop short: 70\n", "stop-long", "0.0 mm long", "a quarter");
    plan_with(1, 1, 18, "    ends: left\n    at: 300\n    corners: corner notch\n");  // 18 - 2 x 7.35 = 3.3, less than a quarter
    expect_finding(&p, "corners-large", TW_HALT, "two notches of 7.3 mm leave 3.3 mm of a prong 18.0 mm wide",
        "`corners: rounded prong`");
    tw_arena_finish(&p.arena);
    plan_with(1, 1, 24, "    ends: left\n    at: 300\n    corners: corner notch\n");  // 9.3 of 24
    expect_finding(&p, "corners-large", TW_CARE, "leave only 9.3 mm", "a smaller cutter");
    tw_arena_finish(&p.arena);
    plan_with(1, 1, 14, "    ends: left\n    at: 300\n");  // rounded, cutter 12.7 in a housing of 14.2: the end is all but a half circle
    assert_false(tw_findings_have(&p.findings, TW_HALT));
}

static void keys_without_meaning_are_told(void **state)
{
    (void)state;
    warn("    housings: through\n    stop short: 12\n", "key-idle", "`stop short` is given", "`housings: stopped`");
    warn("    housings: through\n    end room: 1\n", "key-idle", "`end room` is given", "`housings: stopped`");
    warn("    housings: through\n    corners: chisel\n", "key-idle", "`corners` is given", "`housings: stopped`");
    warn("    by: saw\n    corners: corner notch\n", "key-idle", "a sawn housing is chopped square", "`corners: chisel`");
    warn("    slot cutter: eight\n", "key-idle", "the slot is sawn", "`slot by: copy`");
}

static void places_off_or_near_an_end_or_each_other_are_refused(void **state)
{
    (void)state;
    refuse("    at: 20\n", "housing-off-piece", "run 2.1 mm past the end of beam", "between 46.1 mm and 853.9 mm");
    refuse("    at: 24\n", "relish-short", "only 1.9 mm of beam is left", "between 46.1 mm");
    warn("    at: 40\n", "relish-short", "17.9 mm of beam is left", "between 46.1 mm");
    plan_with(1, 2, 44, "    ends: left\n    at: [300, 340]\n");
    expect_finding(&p, "housings-meet", TW_HALT, "the housings at 340.0 mm run into those at 300.0 mm", "at least 56.2 mm apart");
    tw_arena_finish(&p.arena);
    plan_with(1, 2, 44, "    ends: left\n    at: [300, 352]\n");
    expect_finding(&p, "housings-meet", TW_CARE, "only 7.8 mm of wood stands between", "at least 56.2 mm apart");
}

static void ends_and_counts_are_held_to_each_other(void **state)
{
    (void)state;
    plan_with(1, 3, 44, "    at: 300\n");
    expect_finding(&p, "counts-differ", TW_HALT, "of forked ends is 6 (3 x post, 2 each), of places 1 (1 x beam, 1 each)",
        "look at the counts");
    tw_arena_finish(&p.arena);
    plan_text("job: test\nunits: mm\npieces:\n  beam: {count: 1, length: 900, width: 60, thickness: 36}\n  post: {count: 1, "
        "length: 700, width: 44, thickness: 36}\njoints:\n  one: {kind: housed bridle, forked: post, ends: left, over: beam, "
        "from: face edge, at: 200}\n  two: {kind: housed bridle, forked: post, ends: left, over: beam, from: face edge, at: "
        "400}\n");
    expect_finding(&p, "end-taken", TW_HALT, "already forked by one", "another end");
    tw_arena_finish(&p.arena);
    refuse("    from: right end\n", "from-end", "end grain", "a face or an edge");
    plan_text("job: test\nunits: mm\npieces:\n  beam: {count: 2, length: 900, width: 60, thickness: 36}\n  post: {count: 1, "
        "length: 100, width: 44, thickness: 36}\njoints:\n" FORK "    from: face edge\n    at: 300\n");
    expect_finding(&p, "body-short", TW_HALT, "only 5.0 mm is left beside its prongs", "a longer piece");
}

static void tools_that_do_not_serve_are_refused(void **state)
{
    (void)state;
    refuse("    cutter: none such\n", "cutter-unknown", "no cutter named none such", "list of cutters");
    refuse("    slot by: copy\n    slot cutter: none such\n", "cutter-unknown", "no cutter named none such", "list of cutters");
    refuse("    slot by: copy\n    slot cutter: long twelve\n", "cutter-wide", "12.7 mm wide, the slot only 12.2 mm",
        "a smaller cutter");
    plan_text("job: test\nunits: mm\npieces:\n  beam: {count: 1, length: 900, width: 60, thickness: 36}\n  post: {count: 1, "
        "length: 700, width: 7, thickness: 36}\njoints:\n" FORK "    from: face edge\n    ends: left\n    at: 300\n    by: "
        "copy\n");
    expect_finding(&p, "cutter-none", TW_HALT, "no cutter of at most 7.2 mm", "`by: saw`");
    tw_arena_finish(&p.arena);
    plan_with(1, 1, 100, "    ends: left\n    at: 300\n    slot by: copy\n");  // 50 + 2 deep from each side: longer than any that goes into the slot
    expect_finding(&p, "cutter-none", TW_HALT, "through the 100.0 mm of post", "`slot by: saw`");
}

/* ---- laws ---- */

typedef struct law_case { char text[2048]; double c, ease; bool from_broad; } law_case;

static void seeded_job(check_seed *seed, law_case *one)
{
    static const char *const froms[] = { "face", "back", "face edge", "back edge" }, *const corners[] = { "rounded prong",
        "corner notch", "chisel" };
    int from = (int)(check_random(seed) % 4);
    bool edges = check_random(seed) % 2, through = check_random(seed) % 4 == 0;
    double across = check_between(seed, 44, 64), between = check_between(seed, 27, 48), broad = check_between(seed, 30, 48),
        split = between + check_between(seed, -3, 3);
    one->c = check_between(seed, 0.1, 0.4);
    one->ease = check_between(seed, 0.1, 0.4);
    one->from_broad = from < 2;
    snprintf(one->text, sizeof one->text, "job: law\nunits: mm\npieces:\n  beam: {count: 1, length: 900, width: %.6f, thickness: "
        "%.6f}\n  post: {count: 1, length: 400, width: %.6f, thickness: %.6f}\njoints:\n" FORK "    ends: %s\n    prongs: %s\n   "
        " from: %s\n    at: %.6f\n    clearance: %.6f\n    ease: %.6f\n    depth: %.6f\n    housings: %s\n", one->from_broad
        ? between : across, one->from_broad ? across : between, edges ? split : broad, edges ? broad : split,
        check_random(seed) % 2 ? "left" : "right", edges ? "edges" : "faces", froms[from], check_between(seed, 100, 800),
        one->c, one->ease, between * check_between(seed, 0.25, 0.36), through ? "through" : "stopped");
    if (!through) snprintf(one->text + strlen(one->text), sizeof one->text - strlen(one->text),
        "    corners: %s\n    end room: %.6f\n", corners[check_random(seed) % 3], check_between(seed, 0.1, 0.9));
}

/* Home, shifted within its play along the beam and across it, and on its way out, nothing clashes; beyond the play it does; the
 * slot's bottom stands on the beam, so further in it clashes at once. */
static void forks_and_housings_fill_each_other_but_for_the_clearances(void **state)
{
    (void)state;
    check_seed seed = { 31 };
    for (int i = 0; i < 36; i++) {
        law_case one;
        seeded_job(&seed, &one);
        plan_text(one.text);
        if (tw_findings_have(&p.findings, TW_HALT)) fail_msg("halted: %s\n%s", p.findings.items[0].what, one.text);
        assert_int_equal(p.plans[0].meeting_count, 1);
        tw_block box = around_cut(&p, 0, 0, 0, 1.0), other = around_cut(&p, 0, 0, 1, 1.0);
        box = (tw_block){ { tw_min(box.least.x, other.least.x), tw_min(box.least.y, other.least.y),
            tw_min(box.least.z, other.least.z) }, { tw_max(box.most.x, other.most.x), tw_max(box.most.y, other.most.y),
            tw_max(box.most.z, other.most.z) } };
        const tw_meeting *m = &p.plans[0].meetings[0];
        check_joined(&p, 0, m, box, (tw_spot){ 1, 0, 0 }, one.c / 2.0, 0.0, 100 + (uint64_t)i);
        tw_spot across = one.from_broad ? (tw_spot){ 0, 1, 0 } : (tw_spot){ 0, 0, 1 };
        check_joined(&p, 0, m, box, across, one.ease / 2.0, 0.0, 300 + (uint64_t)i);
        tw_arena_finish(&p.arena);
    }
}

static void odd_sizes_are_halted_or_make_a_sane_plan(void **state)
{
    (void)state;
    static const char *const froms[] = { "face", "back", "face edge", "back edge" }, *const ends[] = { "left", "right",
        "both" }, *const corners[] = { "rounded prong", "corner notch", "chisel" };
    check_seed seed = { 88 };
    int good = 0;
    for (int i = 0; i < 600; i++) {
        char text[2048], more[512] = "";
        double length = check_size(&seed, 100, 2000);
        for (int k = 0; k < 5; k++) {
            static const char *const keys[] = { "depth", "stop short", "ease", "end room", "clearance" };
            static const double most[] = { 60, 200, 5, 10, 5 };
            if (check_random(&seed) % 4 == 0) snprintf(more + strlen(more), sizeof more - strlen(more), "    %s: %.4f\n",
                keys[k], check_size(&seed, 0.01, most[k]));
        }
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), "    by: %s\n",
            check_random(&seed) % 2 ? "copy" : "saw");
        if (check_random(&seed) % 2) snprintf(more + strlen(more), sizeof more - strlen(more), "    slot by: %s\n",
            check_random(&seed) % 2 ? "copy" : "saw");
        snprintf(text, sizeof text, "job: odd\nunits: mm\nfigures: %s\npieces:\n  beam: {count: %d, length: %.4f, width: %.4f, "
            "thickness: %.4f}\n  post: {count: 1, length: %.4f, width: %.4f, thickness: %.4f}\njoints:\n" FORK "    from: %s\n   "
            " ends: %s\n    at: %.4f\n    housings: %s\n    prongs: %s\n    corners: %s\n%s", i % 2 ? "mm 0.1" : "in 1/64",
            (int)(check_random(&seed) % 2) + 1, length, check_size(&seed, 10, 200), check_size(&seed, 10, 120),
            check_size(&seed, 10, 2000), check_size(&seed, 5, 200), check_size(&seed, 5, 120), froms[check_random(&seed) % 4],
            ends[check_random(&seed) % 3], check_between(&seed, 1, length * 1.05), i % 4 ? "stopped" : "through", i % 3
            ? "faces" : "edges", corners[check_random(&seed) % 3], more);
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
    static const char *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" },
        *const ways[] = { "stopped\n    corners: rounded prong", "stopped\n    corners: corner notch", "through" };
    for (int i = 0; i < 24; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  the beam that carries the heaviest of the "
            "nets of the weir k: {count: 1, length: 900, width: %d, thickness: 36}\n  the post that stands nearest to the water "
            "of the upper weir: {count: 1, length: 700, width: 44, thickness: %d}\njoints:\n  fork:\n    kind: housed bridle\n   "
            " forked: the post that stands nearest to the water of the upper weir\n    over: the beam that carries the heaviest "
            "of the nets of the weir k\n    ends: left\n    from: face edge\n    at: 300\n    housings: %s\n", figures[i % 4],
            i / 12 ? 140 : 60, 36 - i % 2 * 5, ways[i / 4 % 3]);
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
        CASE(a_stopped_bridle_in_millimetres_has_the_proportions_worked_by_hand),
        CASE(inches_have_round_figures_of_their_own),
        CASE(glue_makes_the_fits_finer_and_through_housings_have_no_corners),
        CASE(the_strength_left_is_that_of_a_t),
        CASE(each_answer_for_the_round_corners_has_its_cuts_and_works),
        CASE(a_square_prong_stands_on_the_wood_in_the_round_corners),
        CASE(volumes_are_those_of_the_closed_forms),
        CASE(one_place_needs_a_setup_for_each_side),
        CASE(places_alike_from_both_ends_share_setups_of_both_sides),
        CASE(a_place_in_the_middle_and_through_housings_need_one_setup),
        CASE(a_slot_is_copied_from_both_sides_when_the_cutter_is_short),
        CASE(every_work_follows_those_of_the_layer_before),
        CASE(setups_cut_housings_and_slots_where_the_plan_has_them),
        CASE(the_templates_cut_what_is_wanted),
        CASE(a_web_that_is_higher_than_long_is_found_where_the_housings_run_through),
        CASE(webs_and_prongs_out_of_range_are_refused),
        CASE(fits_out_of_range_are_thought_over),
        CASE(stops_and_corners_that_leave_nothing_are_refused),
        CASE(keys_without_meaning_are_told),
        CASE(places_off_or_near_an_end_or_each_other_are_refused),
        CASE(ends_and_counts_are_held_to_each_other),
        CASE(tools_that_do_not_serve_are_refused),
        CASE(forks_and_housings_fill_each_other_but_for_the_clearances),
        CASE(odd_sizes_are_halted_or_make_a_sane_plan),
        CASE(drawings_keep_texts_apart_at_the_longest_names_and_finest_fractions),
    };
    return cmocka_run_group_tests_name("bridle", tests, NULL, NULL);
}
