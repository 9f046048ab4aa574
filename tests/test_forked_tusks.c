// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks by figures worked by hand, and refusals. Facts marked so are common practice. */
#include "planned.h"

#define PIECES(stretcher) "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 1, " stretcher "}\njoints:\n" \
    "  rail to post:\n    kind: forked tusks\n    tenon: rail\n    through: post\n    from: back\n    at: 300\n"
#define RAIL "length: 1200, width: 70, thickness: 28"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_with(const char *more)
{
    char text[2048];
    snprintf(text, sizeof text, "%s%s", PIECES(RAIL), more);
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

static void expect(const char *code, tw_level level, const char *what, const char *remedy)
{
    expect_finding(&p, code, level, what, remedy);
}

/* Common practice: t 1/2 in, e 5/64 in leave a web of 11/32 in; a 3/8 in slot has 1/32 in of ease. */
static void half_inch_tenon_with_heavy_sixteenths_leaves_eleven_thirtyseconds(void **state)
{
    (void)state;
    plan_with("    tenon thickness: 1/2 in\n    housing depth: 5/64 in\n    slot: 3/8 in\n    tenon width: 38\n");
    CHECK_NEAR(figure(&p, 0, "web"), 11.0 / 32.0 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "bearing_depth"), (5.0 / 64.0 - 1.0 / 64.0) * 25.4, 1e-9);
    assert_null(finding(&p, "slot-narrow"));
    assert_null(finding(&p, "wedge-steep"));
}

/* Worked by hand: w 38, angle 5 degrees, d 9.525, c 1.6, o = d: k >= 10.02. */
static void least_tusk_lets_the_cutter_pass_the_narrow_end(void **state)
{
    (void)state;
    plan_with("    tenon thickness: 12.7\n    tenon width: 38\n    slot: 9.525\n    draw allowance: 1.6\n    angle: 5 deg\n");
    CHECK_NEAR(figure(&p, 0, "tusk_thickness_least"), 10.02, 0.005);
    assert_true(figure(&p, 0, "tusk_thickness") >= figure(&p, 0, "tusk_thickness_least") + 0.5 - 1e-9);
}

/* The housing's narrow end, by coordinates: across the cutter's centre at d/2 from the lower border the room is just d. */
static void cutter_just_fits_the_housing_of_the_least_tusk(void **state)
{
    (void)state;
    plan_with("    tenon thickness: 12.7\n    tenon width: 38\n    slot: 9.525\n");
    double k = figure(&p, 0, "tusk_thickness_least"), d = 9.525, alpha = tw_radians(5.0), c = 1.6, v = -(38.0 / 2.0 + d) + d / 2.0;
    double from_straight = -c + d / 2.0;  // the cutter against the straight wall
    double to_leaning = ((k + v * tan(alpha)) - from_straight) * cos(alpha);
    CHECK_NEAR(to_leaning, d / 2.0, 1e-9);
}

static void proportions_follow_the_piece_when_nothing_is_given(void **state)
{
    (void)state;
    plan_with("");
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 14.0, 1e-9);   // half of 28
    CHECK_NEAR(figure(&p, 0, "tenon_width"), 42.0, 1e-9);       // six tenths of 70
    CHECK_NEAR(figure(&p, 0, "slot"), 8.0, 1e-9);               // the owned cutter nearest to 14/2 + 0.8
    CHECK_NEAR(figure(&p, 0, "housing_depth"), 3.4, 1e-9);      // (14 - 8 + 0.8)/2
    CHECK_NEAR(figure(&p, 0, "web"), 7.2, 1e-9);
    CHECK_NEAR(figure(&p, 0, "reserve"), 12.0, 1e-9);           // 1/tan 5 degrees = 11.43, up
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

static void tusk_is_long_enough_for_its_reserve(void **state)
{
    (void)state;
    plan_with("    tenon width: 38\n    reserve: 12\n    tip proud: 12\n    head proud: 16\n    slot: 8\n");
    CHECK_NEAR(figure(&p, 0, "tusk_length"), 12.0 + 38.0 + 12.0 + 16.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "slot_length"), 12.0 + 38.0 + 12.0 + 4.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "head_thickness") - figure(&p, 0, "tip_thickness"), 78.0 * tan(tw_radians(5.0)), 1e-9);
    // 0.1 mm at the wall moves the seat by 0.1/tan 5 degrees = 1.14 mm
    CHECK_NEAR(figure(&p, 0, "seat_spread"), 1.143, 0.001);
}

/* The rail is 70 wide, its tusk 12 + 38 + 12 + 16 = 78 long: 78 apart they just pass each other. */
static void plan_at(const char *places)
{
    char text[2048];
    snprintf(text, sizeof text, "job: test\nunits: mm\npieces:\n  post: {count: 1, length: 655, width: 110, thickness: 45}\n"
             "  rail: {count: 2, %s}\njoints:\n  rail to post:\n    kind: forked tusks\n    tenon: rail\n    ends: left\n    through: post\n"
             "    from: back\n    tenon width: 38\n    reserve: 12\n    tip proud: 12\n    head proud: 16\n    slot: 8\n    at: [%s]\n", RAIL, places);
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

static void two_tenons_in_one_place_are_refused(void **state)
{
    (void)state;
    plan_at("300, 300");
    expect("places-too-near", TW_HALT, "stand 0.0 mm apart", "at least 78.0 mm apart");
    finish(NULL);
    plan_at("377.9, 300");
    expect("places-too-near", TW_HALT, "stand 77.9 mm apart", "at least 78.0 mm apart");
    finish(NULL);
    plan_at("378, 300");
    assert_null(finding(&p, "places-too-near"));
}

static const tw_work *work_named(const char *name) { return work_that_is(&p, name); }

/* Hands: with heads to one edge, face cheek of the left end = back cheek of the right end. */
static void housings_fall_into_two_hands_that_are_mirror_images(void **state)
{
    (void)state;
    plan_with("");
    const tw_work *right = work_named("housings, right hand"), *left = work_named("housings, left hand");
    assert_int_equal(right->count, 2);
    assert_int_equal(left->count, 2);
    assert_string_equal(right->places, "right end, face (1); left end, back (1)");
    assert_string_equal(left->places, "left end, face (1); right end, back (1)");
    assert_int_equal(right->down, TW_SIDE_FACE_EDGE);
    assert_int_equal(left->down, TW_SIDE_FACE_EDGE);
    tw_outline mirrored = tw_outline_mirrored(&p.arena, left->copy.cut);
    CHECK_NEAR(tw_outline_difference_mm(&p.arena, mirrored, right->copy.cut), 0.0, 1e-9);
    assert_int_equal(right->copy.edge_side, -left->copy.edge_side);
}

static void heads_to_the_face_edge_change_the_hands(void **state)
{
    (void)state;
    plan_with("    heads to: face edge\n    ends: right\n");
    assert_string_equal(work_named("housings, right hand")->places, "right end, back (1)");
    assert_string_equal(work_named("housings, left hand")->places, "right end, face (1)");
    assert_int_equal(work_named("housings, left hand")->down, TW_SIDE_BACK_EDGE);
}

/* The wide end of the housing must lie towards the heads' edge on all four cheeks of the piece. */
static void housings_widen_towards_the_heads_on_every_cheek(void **state)
{
    (void)state;
    plan_with("");
    int seen = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++) {
        const tw_cut *cut = &p.plans[0].cuts[i];
        if (strcmp(cut->name, "housing") != 0) continue;
        seen++;
        tw_box all = tw_outline_bounds(cut->outline);
        double low = 0.0, high = 0.0;  // widths at the lower and the upper border of the face as seen
        for (int j = 0; j < 4; j++) {
            tw_vertex a = cut->outline.loops[0].vertices[j], b = cut->outline.loops[0].vertices[(j + 1) % 4];
            if (fabs(a.y - b.y) > 1e-9) continue;
            *(a.y < (all.y0 + all.y1) / 2.0 ? &low : &high) = fabs(a.x - b.x);
        }
        assert_true(cut->face == TW_SIDE_FACE ? high > low : low > high);  // the back is seen with the back edge below
        assert_true(tw_loop_area_mm2(cut->outline.loops[0]) > 0.0);
    }
    assert_int_equal(seen, 4);
}

static void steep_wedge_is_a_care_and_a_springing_one_a_halt(void **state)
{
    (void)state;
    plan_with("    angle: 1:8\n");
    expect("wedge-steep", TW_CARE, "7.13° is steeper", "5 degrees");
    tw_arena_finish(&p.arena);
    plan_with("    angle: 24 deg\n");
    expect("wedge-springs-out", TW_HALT, "24.0° springs out", "4 to 5 degrees");
}

static void thin_tusk_is_refused_with_the_thickness_that_would_do(void **state)
{
    (void)state;
    plan_with("    tusk thickness: 7\n");
    expect("tusk-thin", TW_HALT, "the cutter of 8.0 mm does not pass", "a tusk");
    assert_int_equal(p.plans[0].work_count, 0);
}

static void slot_narrower_than_the_web_is_refused(void **state)
{
    (void)state;
    plan_with("    slot: 8\n    housing depth: 2\n");
    expect("slot-narrow", TW_HALT, "does not pass over the web of 10.0 mm", "3.4 mm");
}

static void short_relish_is_refused_with_the_length_that_would_do(void **state)
{
    (void)state;
    plan_with("    beyond: 20\n");
    expect("relish-short", TW_HALT, "the relish", "beyond the mortised piece");
}

static void tenon_larger_than_its_piece_is_refused(void **state)
{
    (void)state;
    plan_with("    tenon thickness: 30\n");
    expect("tenon-thick", TW_HALT, "30.0 mm thick, its piece only 28.0 mm", "28.0 mm or less");
}

static void mortise_off_the_piece_is_refused(void **state)
{
    (void)state;
    char text[2048];
    snprintf(text, sizeof text, "job: test\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 1, " RAIL "}\njoints:\n"
        "  rail to post: {kind: forked tusks, tenon: rail, through: post, at: 650}\n");
    p = planned_of(text, SHOP_MM);
    plan(&p);
    expect("mortise-off-piece", TW_HALT, "does not lie within", "a place between");
}

/* The tenon is 38 wide and 14 thick: 2 x (19 + 14) = 66 mm at least; no place is named where there is none. */
static void mortise_in_a_piece_that_is_too_short_asks_for_a_longer_one(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  post: {count: 2, length: 30, width: 110, thickness: 45}\n  rail: {count: 1, " RAIL "}\njoints:\n"
        "  rail to post: {kind: forked tusks, tenon: rail, through: post, at: 15, tenon width: 38}\n", SHOP_MM);
    plan(&p);
    expect("mortise-off-piece", TW_HALT, "does not lie within", "a piece at least 66.0 mm long");
}

static void counts_that_do_not_agree_are_refused(void **state)
{
    (void)state;
    plan_with("    ends: left\n");
    expect("counts-differ", TW_HALT, "of tenons is 1 (1 x rail, 1 end each), of mortises 2 (2 x post, 1 each)", "as many of one");
}

static void housing_that_does_not_draw_is_refused(void **state)
{
    (void)state;
    plan_with("    draw allowance: 0.3\n");
    expect("draw-small", TW_CARE, "used up", "1.6 mm");
}

static void long_tenons_that_leave_no_piece_are_refused(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 1, length: 200, width: 70, thickness: 28}\njoints:\n"
        "  rail to post: {kind: forked tusks, tenon: rail, through: post, at: 300, beyond: 60}\n", SHOP_MM);
    plan(&p);
    expect("tenons-meet", TW_HALT, "leave no body", "220.0 mm");
}

/* ---- the drawing ---- */

/* Does a line of the drawing, hatching apart, go through the box, more than 0.1 mm inside its border? Sampled every 0.05 mm. */
static bool goes_through(tw_point a, tw_point b, tw_box box)
{
    int steps = 1 + (int)(hypot(b.x - a.x, b.y - a.y) / 0.05);
    for (int i = 0; i <= steps; i++) {
        double x = a.x + (b.x - a.x) * i / steps, y = a.y + (b.y - a.y) * i / steps;
        if (x > box.x0 + 0.1 && x < box.x1 - 0.1 && y > box.y0 + 0.1 && y < box.y1 - 0.1) return true;
    }
    return false;
}

static void expect_clear_figures(const tw_sheet *sheet, const char *what)
{
    for (size_t i = 0; i < sheet->count; i++) {
        if (sheet->items[i].kind != TW_ITEM_TEXT) continue;
        tw_box box = tw_text_box(&sheet->items[i]);
        for (size_t k = 0; k < sheet->count; k++) {
            const tw_item *item = &sheet->items[k];
            if (item->role == TW_ROLE_HATCH || item->role == TW_ROLE_SOLID) continue;  // a letter may hang down to its own arrow head
            bool met = item->kind == TW_ITEM_LINE && goes_through(item->from, item->to, box);
            for (int n = 0; item->kind == TW_ITEM_OUTLINE && n < item->outline.loops[0].count && !met; n++) {
                tw_loop loop = item->outline.loops[0];
                tw_vertex from = loop.vertices[n], to = loop.vertices[(n + 1) % loop.count];
                met = goes_through((tw_point){ from.x, from.y }, (tw_point){ to.x, to.y }, box);
            }
            if (met) fail_msg("%s: a line goes through \"%s\"", what, sheet->items[i].text);
        }
    }
}

/* Figures as long as they come, in joints that are slender and stout. */
static void drawing_keeps_its_figures_clear_of_each_other_and_of_lines(void **state)
{
    (void)state;
    static const char *const figures[] = { "in 1/64", "in 0.0001", "mm 0.001", "mm 1" };
    static const char *const mores[] = { "", "    tenon width: 38\n    beyond: 58\n    reserve: 12\n", "    angle: 1:13\n    beyond: 91.3\n    head proud: 31.7\n",
        "    angle: 4.21 deg\n    tenon width: 55.2\n    tip proud: 21.3\n    reserve: 3.3\n", "    tenon width: 25.1\n    bears: 11.3\n    chamfer: 5.1\n" };
    static const double heights[] = { 190.0, 118.0 };  // as joint_sheet.c has them: the less where the scale is the same
    const char *scale = NULL;
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        for (size_t k = 0; k < sizeof mores / sizeof *mores; k++)
            for (size_t h = 0; h < sizeof heights / sizeof *heights; h++) {
                char text[2048], what[64];
                snprintf(what, sizeof what, "%s, joint %zu, %.0f mm high", figures[i], k, heights[h]);
                snprintf(text, sizeof text, "figures: %s\n%s%s", figures[i], PIECES(RAIL), mores[k]);
                p = planned_of(text, SHOP_MM);
                plan(&p);
                assert_non_null(p.plans[0].own);
                tw_sheet *sheet = tw_sheet_new(&p.arena, "joint", "joint", 182.0, heights[h]);
                tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
                const char *now = tw_joint_kinds[p.plans[0].joint->kind]->draw(&context, &p.plans[0], sheet, (tw_box){ 0.0, 0.0, 182.0, heights[h] });
                bool used = h == 0 || strcmp(now, scale) == 0;
                scale = h == 0 ? (strcmp(now, "1:1") == 0 ? "1:1" : "1:2") : NULL;
                if (h == 0) assert_string_equal(now, scale);
                int overlaps;
                tw_sheet_overlaps(sheet, &p.arena, &overlaps);
                if (overlaps && used) {
                    const tw_overlap *first = tw_sheet_overlaps(sheet, &p.arena, &overlaps);
                    fail_msg("%s: \"%s\" lies on \"%s\"", what, sheet->items[first->first].text, sheet->items[first->second].text);
                }
                assert_true(sheet->count > 60);
                if (used) expect_clear_figures(sheet, what);
                tw_arena_finish(&p.arena);
            }
    plan_with("");  // for the teardown
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(mortise_in_a_piece_that_is_too_short_asks_for_a_longer_one, finish),
        cmocka_unit_test_teardown(two_tenons_in_one_place_are_refused, finish),
        cmocka_unit_test_teardown(half_inch_tenon_with_heavy_sixteenths_leaves_eleven_thirtyseconds, finish),
        cmocka_unit_test_teardown(least_tusk_lets_the_cutter_pass_the_narrow_end, finish),
        cmocka_unit_test_teardown(cutter_just_fits_the_housing_of_the_least_tusk, finish),
        cmocka_unit_test_teardown(proportions_follow_the_piece_when_nothing_is_given, finish),
        cmocka_unit_test_teardown(tusk_is_long_enough_for_its_reserve, finish),
        cmocka_unit_test_teardown(housings_fall_into_two_hands_that_are_mirror_images, finish),
        cmocka_unit_test_teardown(heads_to_the_face_edge_change_the_hands, finish),
        cmocka_unit_test_teardown(housings_widen_towards_the_heads_on_every_cheek, finish),
        cmocka_unit_test_teardown(steep_wedge_is_a_care_and_a_springing_one_a_halt, finish),
        cmocka_unit_test_teardown(thin_tusk_is_refused_with_the_thickness_that_would_do, finish),
        cmocka_unit_test_teardown(slot_narrower_than_the_web_is_refused, finish),
        cmocka_unit_test_teardown(short_relish_is_refused_with_the_length_that_would_do, finish),
        cmocka_unit_test_teardown(tenon_larger_than_its_piece_is_refused, finish),
        cmocka_unit_test_teardown(mortise_off_the_piece_is_refused, finish),
        cmocka_unit_test_teardown(counts_that_do_not_agree_are_refused, finish),
        cmocka_unit_test_teardown(housing_that_does_not_draw_is_refused, finish),
        cmocka_unit_test_teardown(long_tenons_that_leave_no_piece_are_refused, finish),
        cmocka_unit_test_teardown(drawing_keeps_its_figures_clear_of_each_other_and_of_lines, finish),
    };
    return cmocka_run_group_tests_name("forked tusks", tests, NULL, NULL);
}
