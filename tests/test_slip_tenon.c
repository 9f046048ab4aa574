// SPDX-License-Identifier: GPL-3.0-or-later
/* Slip tenon by figures worked by hand, refusals, and laws over seeded jobs. Proportions are common practice. */
#include "planned.h"

#include "cut_law.h"
#include "odd_values.h"
#include "draw/draw.h"
#include "joint/slip_tenon.h"

#define HEAD "job: test\nunits: mm\npieces:\n  rail: {count: 2, length: 500, width: 70, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\njoints:\n" \
    "  rail to leg:\n    kind: slip tenon\n    piece: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 90\n"

#define SHOP_INCH \
    "shop: test\nunits: in\nmachine: {ratio: 2, turns over: no, travel across: 6, travel up: 4, travel in: 3, holder across: 15, holder up: 10, table lowest: 5,\n" \
    "  table highest: 1/8, nut radius: 7/8, clamp zone: 1-1/2, smallest piece: 6, top speed: 22000, low speed: 9000}\nsaw: {kerf: 1/8, strip thickness: 1/2}\n" \
    "cutters:\n  quarter: {diameter: 1/4, cutting length: 1, plunges: yes}\n  three eighths: {diameter: 3/8, cutting length: 1-1/2, plunges: yes}\n" \
    "  half: {diameter: 1/2, cutting length: 2-1/8, plunges: yes}\nfollowers:\n  bearing: {diameter: 3/4, length: 3/8}\npins:\n  drill: {diameter: 3/8}\n"

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

static const tw_work *work_named(const char *name) { return work_that_is(&p, name); }

static bool has_work(const char *name) { return work_of(&p, name) != NULL; }

/* ---- proportions ---- */

/* A third of 30 is 10; need 2/3 x 60 + 2 = 42: only long twelve reaches (63), but 12.7 is over 0.4 x 30 = 12: so the nearest of any
 * reach, nine five (38): l 38 - 2 = 36; t 9.525 - 0.1; w: walls 70/6, 46.67 - 1, down to 45.5. */
static void slip_tenon_in_millimetres_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_with("");
    CHECK_NEAR(figure(&p, 0, "mortise_width"), 9.525, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 9.425, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_in_each"), 36.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_length"), 72.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "mortise_depth"), 38.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_width"), 45.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "mortise_length"), 46.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "floor"), 22.0, 1e-9);
    CHECK_HOLDS(tw_plan_find(&p.plans[0], "tenon_in_each")->sum, "2/3 x 60.0 = 40.0 would be better");
    assert_int_equal(p.findings.count, 0);
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* Rail 2-3/4 x 1-1/8, leg 1-3/4 square: 3/8; 2/3 x 1-3/4 = 1.1667, down to 1-5/32, and 1/16 of room is within 1-1/2; walls 2-3/4 / 6. */
static void slip_tenon_in_inches_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: in\nfigures: in 1/64\npieces:\n  rail: {count: 1, length: 20, width: 2-3/4, thickness: 1-1/8}\n  leg: {count: 2, length: 28, width: 1-3/4, thickness: 1-3/4}\njoints:\n"
        "  rail to leg: {kind: slip tenon, piece: rail, ends: both, into: leg, from: back, at: 4}\n", SHOP_INCH);
    plan(&p);
    const double inch = 25.4;
    CHECK_NEAR(figure(&p, 0, "mortise_width"), 3.0 / 8.0 * inch, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 3.0 / 8.0 * inch - 0.1, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_in_each"), (1.0 + 5.0 / 32.0) * inch, 1e-9);
    CHECK_NEAR(figure(&p, 0, "mortise_depth"), (1.0 + 7.0 / 32.0) * inch, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_width"), (1.0 + 25.0 / 32.0) * inch, 1e-9);  // 2-3/4 x 2/3 - 1/32 = 1.802, down to 57/32
    assert_false(tw_findings_have(&p.findings, TW_CARE));
}

static void dry_tenon_is_looser_and_is_not_glued(void **state)
{
    (void)state;
    plan_with("    fit: dry\n");
    CHECK_NEAR(figure(&p, 0, "clearance"), 0.2, 1e-12);
    assert_false(has_work("glue up"));
    for (size_t i = 0; i < p.plans[0].meeting_count; i++) assert_false(p.plans[0].meetings[i].for_good);
    tw_arena_finish(&p.arena);
    plan_with("");
    assert_true(has_work("glue up"));
    assert_string_equal(p.plans[0].meetings[0].held_by, "glue");
}

/* ---- works ---- */

static void both_mortises_are_one_outline_and_one_depth(void **state)
{
    (void)state;
    plan_with("");
    const tw_work *side = work_named("mortises in the side"), *end = work_named("mortises in the ends");
    CHECK_NEAR(tw_outline_difference_mm(&p.arena, side->copy.cut, end->copy.cut), 0.0, 1e-12);
    CHECK_NEAR(side->copy.depth_mm, end->copy.depth_mm, 1e-12);
    assert_int_equal(side->count, 4);
    assert_int_equal(end->count, 4);
    assert_int_equal(end->face, TW_SIDE_RIGHT_END);
    CHECK_NEAR(end->copy.down_to_origin_mm, 15.0, 1e-12);
    CHECK_NEAR(end->copy.stop_to_origin_mm, 35.0, 1e-12);
    CHECK_NEAR(side->copy.down_to_origin_mm, 22.5, 1e-12);
}

static void end_out_of_the_middle_has_two_hands(void **state)
{
    (void)state;
    plan_with("    from edge: 30\n    tenon width: 40\n");
    assert_int_equal(work_named("mortises in the ends, right hand")->count, 2);
    assert_int_equal(work_named("mortises in the ends, left hand")->count, 2);
    assert_int_equal(work_named("mortises in the ends, left hand")->face, TW_SIDE_LEFT_END);
    assert_false(has_work("mortises in the ends"));
}

static void places_at_both_ends_share_a_setup_only_in_the_middle(void **state)
{
    (void)state;
    char text[2048];
    for (int off = 0; off < 2; off++) {
        snprintf(text, sizeof text, "job: test\nunits: mm\npieces:\n  rail: {count: 2, length: 500, width: 70, thickness: 26}\n  leg: {count: 2, length: 700, width: 60, thickness: 45}\njoints:\n"
            "  rail to leg: {kind: slip tenon, piece: rail, ends: both, into: leg, from: face edge, at: [90, 610]%s}\n", off ? ", across: 20" : "");
        p = planned_of(text, SHOP_MM);
        plan(&p);
        int sides = 0;
        for (size_t i = 0; i < p.plans[0].work_count; i++) sides += strncmp(p.plans[0].works[i].name, "mortises in the side", 20) == 0;
        assert_int_equal(sides, off ? 2 : 1);
        tw_arena_finish(&p.arena);
    }
}

static void tenons_come_from_sticks_long_enough_to_hold(void **state)
{
    (void)state;
    plan_with("");
    const tw_part *part = &p.plans[0].parts[0];
    assert_int_equal(part->count, 4);
    CHECK_NEAR(part->finished.length_mm, 72.0, 1e-9);
    assert_true(part->stick.length_mm >= part->per_stick * 72.0 + 15.0);
    assert_true(part->stick.length_mm >= 300.0);
    CHECK_NEAR(part->stick.thickness_mm, 9.425, 1e-9);
}

static bool comes_after(const tw_joint_plan *one, int late, int early)
{
    for (int i = 0; i < one->works[late].after_count; i++)
        if (one->works[late].after[i] == early || comes_after(one, one->works[late].after[i], early)) return true;
    return false;
}

static void tenons_are_planed_after_their_mortises_and_sawn_last(void **state)
{
    (void)state;
    plan_with("");
    const tw_work *first = p.plans[0].works;
    int stick = (int)(work_named("sticks for the slip tenons") - first), end = (int)(work_named("mortises in the ends") - first), side = (int)(work_named("mortises in the side") - first),
        sawn = (int)(work_named("slip tenons to length") - first), glued = (int)(work_named("glue up") - first);
    assert_true(comes_after(&p.plans[0], stick, end) && comes_after(&p.plans[0], stick, side));
    assert_true(comes_after(&p.plans[0], sawn, stick) && comes_after(&p.plans[0], glued, sawn));
    assert_false(comes_after(&p.plans[0], side, stick));
}

static void square_mortises_are_chopped_and_their_tenon_is_not_rounded(void **state)
{
    (void)state;
    plan_with("    mortise ends: square\n");
    assert_true(has_work("corners of the mortises"));
    assert_false(has_work("edges of the sticks"));
}

/* ---- refusals ---- */

static void depths_that_cannot_be_are_refused(void **state)
{
    (void)state;
    expect("    depth: 60\n", "tenon-deep", TW_HALT, "break through leg, which is 60.0 mm thick", "at most 52.0 mm");
    expect("    depth: 56\n", "floor-thin", TW_HALT, "only 2.0 mm of wood", "52.0 mm");
    expect("    depth: 53\n", "floor-thin", TW_CARE, "is 5.0 mm", "52.0 mm");
    expect("    depth: 10\n", "tenon-short", TW_CARE, "only 10.0 mm into each piece", "longer cutter");
    expect("    depth: 4\n", "tenon-short", TW_HALT, "only 4.0 mm", "drill and chisel");
    plan_with("    depth: 60\n");
    assert_int_equal(p.plans[0].cut_count, 0);
    assert_int_equal(p.plans[0].work_count, 0);
}

static void mortises_too_near_to_a_side_are_refused(void **state)
{
    (void)state;
    expect("    from back: 6\n", "end-wall-thin", TW_HALT, "only 1.2 mm of wood stands between the mortise and the back of rail", "the middle");       // 6 - 9.525/2
    expect("    from back: 4\n", "mortise-off-piece", TW_HALT, "0.8 mm over the back of rail", "the middle");
    expect("    from back: 10\n", "end-wall-thin", TW_CARE, "5.2 mm of wood", "the middle");
    expect("    across: 7\n", "mortise-wall-thin", TW_HALT, "only 2.2 mm of wood stands between the mortise and the back of leg", "across 22.5 mm");
    expect("    tenon width: 64\n", "end-edge-thin", TW_HALT, "only 2.5 mm of wood", "narrower");
    expect("    tenon width: 60\n", "end-edge-thin", TW_CARE, "4.5 mm of wood", "narrower");
}

static void place_near_the_end_is_refused_at_its_own_value(void **state)
{
    (void)state;
    char text[2048];
    snprintf(text, sizeof text, "job: test\npieces:\n  rail: {count: 2, length: 500, width: 70, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\njoints:\n"
        "  rail to leg:\n    kind: slip tenon\n    piece: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 25\n");
    p = planned_of(text, SHOP_MM);
    plan(&p);
    const tw_finding *found = finding(&p, "relish-short");
    assert_int_equal(found->level, TW_HALT);
    CHECK_HOLDS(found->what, "only 1.8 mm of wood stands between the mortise and the end of leg");  // 25 - 46.5/2
    assert_int_equal(found->place.line, 12);
}

static void fits_and_sizes_out_of_the_common_are_said(void **state)
{
    (void)state;
    expect("    clearance: 0.01\n", "clearance-small", TW_CARE, "less than wood and plane hold", "0.1 mm");
    expect("    clearance: 0.8\n", "clearance-large", TW_CARE, "glue does not fill it", "0.1 mm");
    expect("    fit: dry\n    clearance: 0.8\n", "clearance-large", TW_CARE, "rattles", "0.2 mm");
    expect("    tenon thickness: 16\n", "tenon-thick", TW_CARE, "more than half", "10.0 mm");
    expect("    tenon thickness: 5\n    tenon width: 40\n", "tenon-broad", TW_CARE, "more than six times", "from edge");
    expect("    tenon width: 6\n", "tenon-narrow", TW_CARE, "less than its thickness", "or more");
}

static void ends_and_places_that_do_not_agree_are_refused(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  rail: {count: 2, length: 500, width: 70, thickness: 30}\n  leg: {count: 2, length: 700, width: 60, thickness: 45}\njoints:\n"
        "  rail to leg: {kind: slip tenon, piece: rail, ends: both, into: leg, from: face edge, at: 90}\n", SHOP_MM);
    plan(&p);
    assert_int_equal(finding(&p, "counts-differ")->level, TW_HALT);
    CHECK_HOLDS(finding(&p, "counts-differ")->what, "of ends is 4 (2 x rail, 2 ends each), of places 2");
    tw_arena_finish(&p.arena);
    p = planned_of("job: test\npieces:\n  rail: {count: 1, length: 500, width: 70, thickness: 30}\n  leg: {count: 1, length: 700, width: 60, thickness: 45}\njoints:\n"
        "  rail to leg: {kind: slip tenon, piece: rail, ends: left, into: leg, from: left end, at: 90}\n", SHOP_MM);
    plan(&p);
    assert_int_equal(finding(&p, "from-end")->level, TW_HALT);
    assert_int_equal(p.plans[0].cut_count, 0);
}

static void mortises_that_meet_inside_a_short_piece_are_refused(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  rail: {count: 2, length: 80, width: 70, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\njoints:\n"
        "  rail to leg: {kind: slip tenon, piece: rail, ends: both, into: leg, from: face edge, at: 90}\n", SHOP_MM);
    plan(&p);
    assert_int_equal(finding(&p, "mortises-meet")->level, TW_HALT);
    CHECK_HOLDS(finding(&p, "mortises-meet")->what, "leave 4.0 mm between them");  // 80 - 2 x 38
}

/* ---- laws ---- */

static const char *const sides[] = { "face", "back", "face edge", "back edge" };

static void seeded_job(check_seed *seed, char *text, size_t room)
{
    bool inch = check_random(seed) % 2;
    double thick = check_between(seed, 24.0, 40.0), wide = check_between(seed, 50.0, 100.0);
    snprintf(text, room, "job: test\nunits: mm\nfigures: %s\npieces:\n  a leg with a long name that goes on: {count: 2, length: 900, width: %.2f, thickness: %.2f}\n"
        "  rail of the upper shelf: {count: 1, length: 600, width: %.2f, thickness: %.2f}\njoints:\n  rail to leg:\n    kind: slip tenon\n    piece: rail of the upper shelf\n    ends: both\n"
        "    into: a leg with a long name that goes on\n    from: %s\n    at: %.2f\n    lies: %s\n    fit: %s\n    from back: %.2f\n",
        inch ? "in 1/64" : "mm 0.1", check_between(seed, 110.0, 140.0), check_between(seed, 100.0, 120.0), wide, thick, sides[check_random(seed) % 4], check_between(seed, 120.0, 780.0),
        check_random(seed) % 2 ? "along" : "across", check_random(seed) % 2 ? "dry" : "glued", thick * check_between(seed, 0.45, 0.55));
}

/* The two mortises of a joint take alike: a rounded slot of area wm tm - (1 - pi/4) tm^2, l + room deep. The tenon fills both but for
 * the clearances: 2 (l tm' wm') with its own rounded section. */
static void both_mortises_take_the_closed_form_and_the_tenon_fills_them_but_for_the_clearance(void **state)
{
    (void)state;
    check_seed seed = { 51 };
    int seen = 0;
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_slip *s = p.plans[0].own;
        if (p.plans[0].cut_count > 0) {
            double section = s->wm * s->tm - (1.0 - TW_PI / 4.0) * s->tm * s->tm, one = section * (s->l + s->room);
            CHECK_NEAR(cut_law_volume(&p.plans[0], s->spec->piece.index, s->a, NULL), 2.0 * one, 1e-6 * one);
            CHECK_NEAR(cut_law_volume(&p.plans[0], s->spec->into.index, s->b, NULL), one, 1e-6 * one);
            double tenon = (s->w * s->t - (1.0 - TW_PI / 4.0) * s->t * s->t) * s->long_mm;
            assert_true(tenon < 2.0 * one);
            CHECK_NEAR(s->wm - s->w, s->cw, 1e-12);
            CHECK_NEAR(s->tm - s->t, s->c, 1e-12);
            seen++;
        }
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 40);
}

/* Home, the mortise in the end looks into the mortise in the side: a spot of the one, brought out by its own depth below the joint,
 * lies in the other; and the pieces share no wood. */
static void mortises_look_into_each_other_at_home(void **state)
{
    (void)state;
    check_seed seed = { 52 };
    int seen = 0, seen_off = 0;
    for (int i = 0; i < 40; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_slip *s = p.plans[0].own;
        for (size_t m = 0; m < p.plans[0].meeting_count; m++) {
            const tw_meeting *meeting = &p.plans[0].meetings[m];
            bool right = meeting->end == TW_SIDE_RIGHT_END;
            for (int j = 0; j < 60; j++) {
                double deep = check_between(&seed, 0.01, s->depth - 0.01);
                tw_spot spot = { right ? s->a.length_mm - deep : deep, s->y + check_between(&seed, -s->wm / 2.0, s->wm / 2.0), s->z + check_between(&seed, -s->tm / 2.0, s->tm / 2.0) };
                tw_spot beyond = { right ? s->a.length_mm + deep : -deep, spot.y, spot.z };  // its mirror image in the joint
                int mine = cut_law_count(&p.plans[0], meeting->mover, s->a, spot), theirs = cut_law_count(&p.plans[0], meeting->base, s->b, cut_law_moved(meeting->pose, beyond));
                assert_int_equal(mine, theirs);
                seen += mine;
                seen_off += !mine;
            }
            tw_spot least = { right ? s->a.length_mm - 50.0 : 0.0, 0.0, 0.0 }, most = { least.x + 50.0, s->a.width_mm, s->a.thickness_mm };
            assert_int_equal(cut_law_clashes(&p.plans[0], meeting, s->a, s->b, least, most, 100, &seed), 0);
        }
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 1000 && seen_off > 10);
}

static void drawings_of_seeded_jobs_have_no_texts_that_meet_or_lie_on_outlines(void **state)
{
    (void)state;
    check_seed seed = { 53 };
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

/* Values far from any sense: planned or refused, never half, and never a crash. */
static void odd_values_end_in_a_plan_or_a_halt(void **state)
{
    (void)state;
    static const odd_key keys[] = { { "across", 0.5, 150.0, NULL }, { "depth", 0.1, 200.0, NULL }, { "tenon thickness", 0.05, 60.0, NULL }, { "tenon width", 0.1, 200.0, NULL }, { "from edge", 0.1, 150.0, NULL },
        { "from back", 0.1, 60.0, NULL }, { "clearance", 0.01, 4.9, NULL }, { "width clearance", 0.01, 9.9, NULL }, { "bottom room", 0.01, 49.0, NULL }, { "fit", 0, 0, "dry|glued" }, { "lies", 0, 0, "along|across" },
        { "mortise ends", 0, 0, "round|square" }, { "cutter", 0, 0, "eight|nine five|long twelve" } };
    check_seed seed = { 72 };
    int sound = 0;
    for (int i = 0; i < 3000; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  post: {count: 2, length: 700, width: %.3f, thickness: %.3f}\n  rail: {count: 1, length: 1200, width: %.3f, thickness: %.3f}\njoints:\n  rail to post:\n    kind: slip tenon\n    piece: rail\n    ends: both\n    into: post\n    from: face\n    at: %.3f\n",
            i % 2 ? "mm 0.1" : "in 1/64", check_between(&seed, 5.0, 150.0), check_between(&seed, 5.0, 80.0), check_between(&seed, 5.0, 150.0), check_between(&seed, 3.0, 60.0), check_between(&seed, 1.0, 700.0));
        odd_lines(&seed, keys, sizeof keys / sizeof *keys, 2 + i % 6, text, sizeof text);
        sound += odd_is_planned(text, SHOP_MM);
    }
    assert_true(sound > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(slip_tenon_in_millimetres_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(slip_tenon_in_inches_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(dry_tenon_is_looser_and_is_not_glued, finish),
        cmocka_unit_test_teardown(both_mortises_are_one_outline_and_one_depth, finish),
        cmocka_unit_test_teardown(end_out_of_the_middle_has_two_hands, finish),
        cmocka_unit_test(places_at_both_ends_share_a_setup_only_in_the_middle),
        cmocka_unit_test_teardown(tenons_come_from_sticks_long_enough_to_hold, finish),
        cmocka_unit_test_teardown(tenons_are_planed_after_their_mortises_and_sawn_last, finish),
        cmocka_unit_test_teardown(square_mortises_are_chopped_and_their_tenon_is_not_rounded, finish),
        cmocka_unit_test_teardown(depths_that_cannot_be_are_refused, finish),
        cmocka_unit_test(mortises_too_near_to_a_side_are_refused),
        cmocka_unit_test_teardown(place_near_the_end_is_refused_at_its_own_value, finish),
        cmocka_unit_test(fits_and_sizes_out_of_the_common_are_said),
        cmocka_unit_test_teardown(ends_and_places_that_do_not_agree_are_refused, finish),
        cmocka_unit_test_teardown(mortises_that_meet_inside_a_short_piece_are_refused, finish),
        cmocka_unit_test(both_mortises_take_the_closed_form_and_the_tenon_fills_them_but_for_the_clearance),
        cmocka_unit_test(mortises_look_into_each_other_at_home),
        cmocka_unit_test(drawings_of_seeded_jobs_have_no_texts_that_meet_or_lie_on_outlines),
        cmocka_unit_test(odd_values_end_in_a_plan_or_a_halt),
    };
    return cmocka_run_group_tests_name("slip tenon", tests, NULL, NULL);
}
