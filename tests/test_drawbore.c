// SPDX-License-Identifier: GPL-3.0-or-later
/* Drawbored pegs of the mortise and tenon: figures worked by hand, the order of the work, refusals, and laws over seeded jobs.
 * Common practice: the tenon's hole lies 1/32 to 1/16 in nearer to the shoulder than the cheeks'. */
#include "planned.h"

#include "cut_law.h"
#include "odd_values.h"
#include "draw/draw.h"
#include "joint/mortise_tenon.h"

/* Rail 60 x 30 in a leg 60 deep and 45 thick. The shop's cutters: eight, nine five, long twelve. */
#define HEAD "job: test\nunits: mm\npieces:\n  rail: {count: 2, length: 500, width: 60, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 45}\njoints:\n" \
    "  rail to leg:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: leg\n    from: face edge\n    at: 120\n    depth: 36\n    tenon thickness: 10\n    tenon width: 48\n"

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

static int index_of(const char *name)
{
    for (size_t i = 0; i < p.plans[0].work_count; i++)
        if (strcmp(p.plans[0].works[i].name, name) == 0) return (int)i;
    return -1;
}

static const tw_work *work_named(const char *name) { return work_that_is(&p, name); }

static int holes_in(int piece)
{
    int count = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++) count += p.plans[0].cuts[i].piece == piece && strcmp(p.plans[0].cuts[i].name, "hole of the peg") == 0;
    return count;
}

/* ---- proportions ---- */

/* t 10: 0.6 t = 6; offset 6/8 = 0.75, at least 0.8; from the shoulder the most of 9 and 36/3 = 12; relish 36 - 11.2 - 3 - 2 = 19.8;
 * length 45 + 4 x 6. */
static void peg_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_with("    pegs: 1\n");
    CHECK_NEAR(figure(&p, 0, "peg"), 6.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "peg_offset"), 0.8, 1e-9);
    CHECK_NEAR(figure(&p, 0, "peg_from_shoulder"), 12.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "peg_relish"), 19.8, 1e-9);
    CHECK_NEAR(figure(&p, 0, "peg_length"), 69.0, 1e-9);
    assert_int_equal(p.findings.count, 0);
}

/* In inches: a peg of 3/8, an eighth of it is 3/64; from the shoulder 1 1/2 x 3/8 = 9/16. */
static void peg_in_inches_has_its_offset_in_sixty_fourths(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: in\nfigures: in 1/64\npieces:\n  rail: {count: 1, length: 20, width: 2-1/2, thickness: 1-1/8}\n  leg: {count: 2, length: 28, width: 2, thickness: 2}\njoints:\n"
        "  rail to leg: {kind: mortise and tenon, tenon: rail, ends: both, into: leg, from: back, at: 6, depth: 1-1/2, peg: 3/8}\n", SHOP_MM);
    plan(&p);
    CHECK_NEAR(figure(&p, 0, "peg_offset"), 3.0 / 64.0 * 25.4, 1e-9);
    CHECK_NEAR(figure(&p, 0, "peg_from_shoulder"), 9.0 / 16.0 * 25.4, 1e-9);
    assert_true(figure(&p, 0, "peg_offset") >= 25.4 / 32.0 && figure(&p, 0, "peg_offset") <= 25.4 / 16.0);
}

static void joint_without_a_peg_is_as_before(void **state)
{
    (void)state;
    plan_with("");
    assert_null(tw_plan_find(&p.plans[0], "peg"));
    assert_int_equal(p.plans[0].part_count, 0);
    assert_int_equal(index_of("pegs driven"), -1);
    assert_string_equal(p.plans[0].meetings[0].held_by, "");
}

static void wide_and_double_tenons_take_more_pegs(void **state)
{
    (void)state;
    plan_with("    peg: 6\n");
    assert_int_equal(p.plans[0].parts[0].count, 4);  // 4 joints, one each
    tw_arena_finish(&p.arena);
    plan_with("    peg: 6\n    pegs: 2\n");
    assert_int_equal(p.plans[0].parts[0].count, 8);
    assert_int_equal(work_named("holes of the pegs through the tenons")->count, 8);
    assert_int_equal(holes_in(0), 4);   // two at each end of a rail
    assert_int_equal(holes_in(1), 4);   // two, each through two cheeks
    tw_arena_finish(&p.arena);
    p = planned_of("job: test\nunits: mm\npieces:\n  rail: {count: 1, length: 500, width: 150, thickness: 30}\n  leg: {count: 2, length: 700, width: 60, thickness: 45}\njoints:\n"
        "  rail to leg: {kind: mortise and tenon, tenon: rail, ends: both, into: leg, from: face edge, at: 200, tenons: double, peg: 6}\n", SHOP_MM);
    plan(&p);
    assert_int_equal(p.plans[0].parts[0].count, 4);  // two joints, one through each of the two
}

/* ---- places ---- */

/* The tenon's hole lies nearer to the shoulder than the cheeks' by the offset, at both ends: seen from the shoulder. */
static void tenons_hole_is_nearer_to_the_shoulder(void **state)
{
    (void)state;
    plan_with("    peg: 8\n    peg offset: 1\n    peg from shoulder: 14\n");
    int seen = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++) {
        const tw_cut *cut = &p.plans[0].cuts[i];
        if (strcmp(cut->name, "hole of the peg") != 0) continue;
        tw_box box = tw_outline_bounds(cut->outline);
        double x = (box.x0 + box.x1) / 2.0, up = (box.y0 + box.y1) / 2.0;
        if (cut->piece == 0) CHECK_NEAR(x, x < 250.0 ? 36.0 - 13.0 : 500.0 - 36.0 + 13.0, 1e-9);
        else CHECK_NEAR(cut->face == TW_SIDE_FACE ? up : -1.0, 14.0, 1e-9);  // the face has the face edge, where the tenon enters, below
        seen++;
    }
    assert_int_equal(seen, 4);
    CHECK_NEAR(work_named("holes of the pegs through the tenons")->measure_mm, 13.0, 1e-9);
    CHECK_NEAR(work_named("holes of the pegs through the cheeks")->measure_mm, 14.0, 1e-9);
    assert_int_equal(work_named("holes of the pegs through the cheeks")->way, TW_WAY_DRILL);
    assert_int_equal(work_named("holes of the pegs through the cheeks")->face, TW_SIDE_FACE);
    assert_int_equal(work_named("holes of the pegs through the cheeks")->down, TW_SIDE_BACK);
}

static bool comes_after(int late, int early)
{
    for (int i = 0; i < p.plans[0].works[late].after_count; i++)
        if (p.plans[0].works[late].after[i] == early || comes_after(p.plans[0].works[late].after[i], early)) return true;
    return false;
}

static void cheeks_are_drilled_before_the_tenon_is_fitted_and_marked(void **state)
{
    (void)state;
    plan_with("    peg: 8\n    fit: glued\n");
    int cheeks = index_of("holes of the pegs through the cheeks"), fit = index_of("tenons into their mortises, dry"), marks = index_of("marks of the pegs on the tenons"),
        tenons = index_of("holes of the pegs through the tenons"), glue = index_of("glue up"), driven = index_of("pegs driven");
    assert_true(comes_after(fit, cheeks) && comes_after(marks, fit) && comes_after(tenons, marks) && comes_after(glue, tenons) && comes_after(driven, glue));
    assert_true(comes_after(driven, index_of("pegs")));
    CHECK_HOLDS(p.plans[0].works[marks].what, "1.0 mm nearer to the shoulder");
    CHECK_HOLDS(p.plans[0].works[driven].what, "As soon as the glue is on");
}

static void dry_joint_is_held_by_its_pegs_and_comes_apart(void **state)
{
    (void)state;
    plan_with("    peg: 8\n");
    assert_string_equal(p.plans[0].meetings[0].held_by, "pegs");
    assert_false(p.plans[0].meetings[0].for_good);
}

/* ---- refusals ---- */

static void thick_pegs_are_refused(void **state)
{
    (void)state;
    expect("    peg: 25\n", "peg-thick", TW_HALT, "1 peg of 25.0 mm takes more than half of a tenon 48.0 mm wide", "6.0 mm");
    expect("    peg: 13\n    pegs: 2\n", "peg-thick", TW_HALT, "2 pegs of 13.0 mm", "or fewer");
    expect("    peg: 11\n", "peg-thick", TW_CARE, "thick for a tenon 10.0 mm thick", "6.0 mm");
    expect("    peg: 3\n", "peg-thin", TW_CARE, "bends and breaks", "6.0 mm");
}

/* 36 - (s - 0.8) - 3 - 2: at s = 23 8.8 stand, under 9; at 27 4.8, under 6. */
static void short_relish_beyond_the_peg_is_refused(void **state)
{
    (void)state;
    expect("    peg: 6\n    peg from shoulder: 23\n", "peg-relish-short", TW_CARE, "only 8.8 mm of the tenon", "at least 9.0 mm");
    expect("    peg: 6\n    peg from shoulder: 27\n", "peg-relish-short", TW_HALT, "only 4.8 mm", "nearer to the shoulder");
    expect("    peg: 6\n    peg from shoulder: 8\n", "peg-near-side", TW_CARE, "only 5.0 mm of the cheek", "at least 9.0 mm");
    expect("    peg: 6\n    peg from shoulder: 5\n", "peg-near-side", TW_HALT, "only 2.0 mm", "9.0 mm");
}

static void offsets_out_of_the_common_are_said(void **state)
{
    (void)state;
    expect("    peg: 8\n    peg offset: 2\n", "peg-offset-large", TW_CARE, "2.0 mm bends the peg hard", "1/32 to 1/16 in");
    expect("    peg: 8\n    peg offset: 3\n", "peg-offset-large", TW_HALT, "more than a third of the peg's 8.0 mm", "1/32 to 1/16 in");
    expect("    peg: 8\n    peg offset: 0.2\n", "peg-offset-small", TW_CARE, "draws nothing", "1/32 to 1/16 in");
    plan_with("    peg: 8\n    peg offset: 1/16 in\n");
    assert_null(finding(&p, "peg-offset-large"));
    tw_arena_finish(&p.arena);
    plan_with("    peg: 8\n    peg offset: 1/32 in\n");
    assert_null(finding(&p, "peg-offset-small"));
    tw_arena_finish(&p.arena);
}

static void peg_along_the_grain_is_refused_and_not_planned(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: mm\npieces:\n  rail: {count: 2, length: 500, width: 60, thickness: 30}\n  leg: {count: 4, length: 700, width: 60, thickness: 90}\njoints:\n"
        "  rail to leg: {kind: mortise and tenon, tenon: rail, ends: both, into: leg, from: face edge, at: 120, depth: 36, lies: across, peg: 6}\n", SHOP_MM);
    plan(&p);
    assert_int_equal(finding(&p, "peg-along-grain")->level, TW_HALT);
    CHECK_HOLDS(finding(&p, "peg-along-grain")->what, "run along the grain");
    CHECK_HOLDS(finding(&p, "peg-along-grain")->remedy, "lies: along");
    assert_true(p.plans[0].cut_count > 0);  // the joint itself can be made
    assert_int_equal(holes_in(0) + holes_in(1), 0);
    assert_int_equal(index_of("pegs driven"), -1);
    assert_int_equal(p.plans[0].part_count, 0);
}

static void offset_without_a_peg_has_no_meaning(void **state)
{
    (void)state;
    plan_with("    peg offset: 1\n");
    assert_int_equal(finding(&p, "key-idle")->level, TW_CARE);
    assert_int_equal(finding(&p, "key-idle")->place.line, 17);
}

static void findings_of_the_peg_stand_at_its_value(void **state)
{
    (void)state;
    plan_with("    peg: 25\n    peg offset: 9\n");
    assert_int_equal(finding(&p, "peg-thick")->place.line, 17);
    assert_int_equal(finding(&p, "peg-offset-large")->place.line, 18);
    assert_int_equal(holes_in(0), 0);
}

/* ---- laws ---- */

static const char *const sides[] = { "face", "back", "face edge", "back edge" };

static void seeded_job(check_seed *seed, char *text, size_t room)
{
    bool twin = check_random(seed) % 3 == 0, inch = check_random(seed) % 2;
    snprintf(text, room, "job: test\nunits: mm\nfigures: %s\npieces:\n  a leg with a long name that goes on: {count: 2, length: 900, width: %.2f, thickness: %.2f}\n"
        "  rail of the upper shelf: {count: 1, length: 800, width: %.2f, thickness: %.2f}\njoints:\n  rail to leg:\n    kind: mortise and tenon\n    tenon: rail of the upper shelf\n    ends: both\n"
        "    into: a leg with a long name that goes on\n    from: %s\n    at: %.2f\n    through: %s\n    fit: %s\n    peg: %.2f\n    pegs: %d\n%s",
        inch ? "in 1/64" : "mm 0.1", check_between(seed, 60.0, 90.0), check_between(seed, 60.0, 80.0), check_between(seed, 60.0, 160.0), check_between(seed, 36.0, 44.0), sides[check_random(seed) % 4],
        check_between(seed, 200.0, 700.0), check_random(seed) % 2 ? "yes" : "no", check_random(seed) % 2 ? "dry" : "glued", check_between(seed, 5.0, 9.0), (int)(1 + check_random(seed) % 2),
        twin ? "    tenons: twin\n" : "");
}

/* Volumes of the holes by closed forms: pi d^2/4 through the tenons' thickness, and through the wood that the mortises leave of the leg. */
static void holes_take_the_closed_form_and_share_nothing_with_the_mortise(void **state)
{
    (void)state;
    check_seed seed = { 61 };
    int seen = 0;
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_mortise *m = p.plans[0].own;
        if (p.plans[0].cut_count > 0 && tw_mortise_peg_possible(m)) {
            double section = TW_PI / 4.0 * m->peg * m->peg, along[TW_MORTISE_PEGS_MOST];
            int pegs = tw_mortise_peg_spots(m, along), layers = m->pair && !m->doubled ? 2 : 1;
            CHECK_NEAR(cut_law_volume(&p.plans[0], m->spec->tenon.index, m->a, "hole of the peg"), 2.0 * pegs * layers * section * m->t, 1e-4);
            CHECK_NEAR(cut_law_volume(&p.plans[0], m->spec->into.index, m->b, "hole of the peg"), pegs * section * (m->e - layers * m->tm), 1e-4);
            seen++;
        }
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 25);
}

/* Home, the axis of each hole in the tenon lies beside the axis of a hole in the leg by just the offset, on the shoulder's side. */
static void holes_stand_apart_by_the_offset_when_the_joint_is_home(void **state)
{
    (void)state;
    check_seed seed = { 62 };
    int seen = 0;
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_mortise *m = p.plans[0].own;
        double along[TW_MORTISE_PEGS_MOST];
        int pegs = m && tw_mortise_peg_possible(m) ? tw_mortise_peg_spots(m, along) : 0;
        for (size_t k = 0; k < p.plans[0].meeting_count; k++)
            for (int j = 0; j < pegs; j++) {
                const tw_meeting *meeting = &p.plans[0].meetings[k];
                double from_shoulder = m->peg_from;  // where the tenon would have its hole without the offset
                tw_spot spot = { meeting->end == TW_SIDE_RIGHT_END ? m->a.length_mm - m->l + from_shoulder : m->l - from_shoulder, m->y + along[j], 0.0 };
                double apart = tw_min(m->face_shoulder, m->back_shoulder) / 2.0;
                spot.z = m->a.thickness_mm - apart;  // in the cheek's zone of the leg: beyond the tenon
                tw_spot home = cut_law_moved(meeting->pose, spot);
                int wood = cut_law_count(&p.plans[0], meeting->base, m->b, home);
                assert_true(wood >= 1);  // the axis of the cheeks' hole
                tw_spot in_tenon = spot;
                in_tenon.x += meeting->end == TW_SIDE_RIGHT_END ? -m->peg_offset : m->peg_offset;
                in_tenon.z = m->a.thickness_mm - m->face_shoulder - m->t / 2.0;
                in_tenon.x += (meeting->end == TW_SIDE_RIGHT_END ? -1.0 : 1.0) * (m->peg / 2.0 - 0.01);  // its edge towards the shoulder
                assert_int_equal(cut_law_count(&p.plans[0], meeting->mover, m->a, in_tenon), 1);
                in_tenon.x += (meeting->end == TW_SIDE_RIGHT_END ? -1.0 : 1.0) * 0.02;
                assert_int_equal(cut_law_count(&p.plans[0], meeting->mover, m->a, in_tenon), 0);
                seen++;
            }
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 60);
}

static void drawings_with_pegs_have_no_texts_that_meet_or_lie_on_outlines(void **state)
{
    (void)state;
    check_seed seed = { 63 };
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
        tw_sheet *sheet = tw_sheet_new(&p.arena, "joint", "joint", 220.0, 230.0);
        tw_joint_kinds[p.plans[0].joint->kind]->draw(&context, &p.plans[0], sheet, (tw_box){ 20.0, 20.0, 200.0, 210.0 });
        check_clear(sheet, &p.arena, (tw_box){ 20.0, 20.0, 200.0, 210.0 }, text);
        tw_arena_finish(&p.arena);
    }
}

/* Values far from any sense: planned or refused, never half, and never a crash. */
static void odd_values_end_in_a_plan_or_a_halt(void **state)
{
    (void)state;
    static const odd_key keys[] = { { "across", 0.5, 150.0, NULL }, { "depth", 0.1, 200.0, NULL }, { "tenon thickness", 0.05, 60.0, NULL }, { "tenon width", 0.1, 200.0, NULL }, { "clearance", 0.01, 4.9, NULL },
        { "chamfer", 0.01, 19.0, NULL }, { "peg", 0.05, 60.0, NULL }, { "pegs", 0, 0, "1|2" }, { "peg offset", 0.01, 9.9, NULL }, { "peg from shoulder", 0.1, 150.0, NULL }, { "tenons", 0, 0, "single|twin|double" },
        { "through", 0, 0, "yes|no" }, { "fit", 0, 0, "dry|glued" }, { "lies", 0, 0, "along|across" }, { "haunch", 0.1, 60.0, NULL } };
    check_seed seed = { 73 };
    int sound = 0;
    for (int i = 0; i < 3000; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  post: {count: 2, length: 700, width: %.3f, thickness: %.3f}\n  rail: {count: 1, length: 1200, width: %.3f, thickness: %.3f}\njoints:\n  rail to post:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: post\n    from: face\n    at: %.3f\n",
            i % 2 ? "mm 0.1" : "in 1/64", check_between(&seed, 5.0, 150.0), check_between(&seed, 5.0, 80.0), check_between(&seed, 5.0, 150.0), check_between(&seed, 3.0, 60.0), check_between(&seed, 1.0, 700.0));
        odd_lines(&seed, keys, sizeof keys / sizeof *keys, 2 + i % 6, text, sizeof text);
        sound += odd_is_planned(text, SHOP_MM);
    }
    assert_true(sound > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(peg_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(peg_in_inches_has_its_offset_in_sixty_fourths, finish),
        cmocka_unit_test_teardown(joint_without_a_peg_is_as_before, finish),
        cmocka_unit_test_teardown(wide_and_double_tenons_take_more_pegs, finish),
        cmocka_unit_test_teardown(tenons_hole_is_nearer_to_the_shoulder, finish),
        cmocka_unit_test_teardown(cheeks_are_drilled_before_the_tenon_is_fitted_and_marked, finish),
        cmocka_unit_test_teardown(dry_joint_is_held_by_its_pegs_and_comes_apart, finish),
        cmocka_unit_test(thick_pegs_are_refused),
        cmocka_unit_test(short_relish_beyond_the_peg_is_refused),
        cmocka_unit_test(offsets_out_of_the_common_are_said),
        cmocka_unit_test_teardown(peg_along_the_grain_is_refused_and_not_planned, finish),
        cmocka_unit_test_teardown(offset_without_a_peg_has_no_meaning, finish),
        cmocka_unit_test_teardown(findings_of_the_peg_stand_at_its_value, finish),
        cmocka_unit_test(holes_take_the_closed_form_and_share_nothing_with_the_mortise),
        cmocka_unit_test(holes_stand_apart_by_the_offset_when_the_joint_is_home),
        cmocka_unit_test(drawings_with_pegs_have_no_texts_that_meet_or_lie_on_outlines),
        cmocka_unit_test(odd_values_end_in_a_plan_or_a_halt),
    };
    return cmocka_run_group_tests_name("drawbored pegs", tests, NULL, NULL);
}
