// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk by figures worked by hand, refusals, and laws over seeded jobs. Facts marked so are common practice. */
#include "planned.h"

#include "cut_law.h"
#include "odd_values.h"
#include "draw/draw.h"
#include "joint/single_tusk.h"

#define HEAD "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 1, length: 1200, width: 70, thickness: 30}\njoints:\n" \
    "  rail to post:\n    kind: single tusk\n    tenon: rail\n    through: post\n    from: back\n    at: 300\n"

#define SHOP_INCH \
    "shop: test\nunits: in\nmachine: {ratio: 2, turns over: no, travel across: 6, travel up: 4, travel in: 3, holder across: 15, holder up: 10, table lowest: 5,\n" \
    "  table highest: 1/8, nut radius: 7/8, clamp zone: 1-1/2, smallest piece: 6, top speed: 22000, low speed: 9000}\nsaw: {kerf: 1/8, strip thickness: 1/2}\n" \
    "cutters:\n  quarter: {diameter: 1/4, cutting length: 1, plunges: yes}\n  three eighths: {diameter: 3/8, cutting length: 1-1/4, plunges: yes}\n" \
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

/* Rail 70 x 30, upright: t 2/3 x 30; w 0.6 x 70; a third of 20 is 6.67: cutter eight; tusk 8 - 0.4; cheeks (20 - 8)/2;
 * k: 42/3 = 14 is the most; z 1/tan 5 = 11.43, up; tip 0.5/tan 5 + 6 = 11.7, up; p 14 + 1.84 + 3 + 1.5 x 20 = 48.8, up. */
static void upright_tusk_in_millimetres_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    plan_with("");
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 20.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_width"), 42.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_mortise_breadth"), 8.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_breadth"), 7.6, 1e-9);
    CHECK_NEAR(figure(&p, 0, "cheek"), 6.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_thickness"), 14.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "reserve"), 12.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tip_proud"), 12.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "beyond"), 49.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_length"), 12.0 + 42.0 + 12.0 + 15.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "open_low"), 1.6 + 14.0 - 1.8373, 1e-4);   // 21 tan 5 degrees = 1.8373
    CHECK_NEAR(figure(&p, 0, "open_high"), 1.6 + 14.0 + 1.8373, 1e-4);
    assert_false(tw_findings_have(&p.findings, TW_CARE));
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    assert_int_equal(p.plans[0].count, 2);
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

/* Level: t half of 30; the tusk goes through it: D 15, B 42. A third of 42 is 14: cutter long twelve; k least 10, but the cutter
 * asks for 12.7 - 1.6 + 7.5 tan 5 + 0.5 = 12.26, to the next half. */
static void level_tusk_goes_through_the_thickness(void **state)
{
    (void)state;
    plan_with("    tusk stands: level\n    lies: across\n");
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 15.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_mortise_breadth"), 12.7, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_thickness_least"), 12.7 - 1.6 + 7.5 * 0.0874887, 1e-5);
    CHECK_NEAR(figure(&p, 0, "tusk_thickness"), 12.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_length"), 12.0 + 15.0 + 12.0 + 15.0, 1e-9);
    assert_int_equal(work_named("slots for the tusks")->face, TW_SIDE_FACE);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
}

/* In inches: rail 2-3/4 x 1-1/8, t 3/4, w 1-5/8 (0.6 x 2-3/4 = 1.65, to the nearest 64th 1-21/32 less 1/128: 106/64), a third
 * of 3/4 is the quarter cutter; draw 1/16; k the most of D/3 = 0.552 to the next 64th: 36/64. */
static void upright_tusk_in_inches_has_the_proportions_worked_by_hand(void **state)
{
    (void)state;
    p = planned_of("job: test\nunits: in\nfigures: in 1/64\npieces:\n  post: {count: 2, length: 26, width: 4, thickness: 1-3/4}\n  rail: {count: 1, length: 48, width: 2-3/4, thickness: 1-1/8}\njoints:\n"
        "  rail to post: {kind: single tusk, tenon: rail, through: post, from: back, at: 12}\n", SHOP_INCH);
    plan(&p);
    const double inch = 25.4;
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 3.0 / 4.0 * inch, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_width"), 106.0 / 64.0 * inch, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_mortise_breadth"), inch / 4.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "draw_allowance"), inch / 16.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tusk_thickness"), 36.0 / 64.0 * inch, 1e-9);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
}

/* ---- hands and works ---- */

/* One setup serves both ends: turned half a turn about the plunge, the piece shows the other end's slot as the first. */
static void slot_has_no_hand_and_is_the_same_at_both_ends_after_half_a_turn(void **state)
{
    (void)state;
    plan_with("");
    assert_int_equal(work_named("slots for the tusks")->hand, TW_HAND_NONE);
    assert_int_equal(work_named("slots for the tusks")->count, 2);
    const tw_cut *slots[2];
    int count = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++)
        if (strcmp(p.plans[0].cuts[i].name, "mortise of the tusk") == 0) slots[count++] = &p.plans[0].cuts[i];
    assert_int_equal(count, 2);
    tw_outline turned = tw_outline_moved(&p.arena, tw_outline_turned(&p.arena, slots[0]->outline, TW_PI), 1200.0, 30.0);  // about the middle of the back edge
    CHECK_NEAR(tw_outline_difference_mm(&p.arena, turned, slots[1]->outline), 0.0, 1e-9);
    assert_int_equal(slots[0]->face, TW_SIDE_BACK_EDGE);
}

/* The slot's near end stands at u = -1.6, its far end at u = 12.1627; the end of the tenon at u = 49. */
static void slot_is_set_from_the_end_or_from_the_shoulder(void **state)
{
    (void)state;
    plan_with("");
    const tw_copy_want *want = &work_named("slots for the tusks")->copy;
    tw_box box = tw_outline_bounds(want->cut);
    CHECK_NEAR(want->stop_to_origin_mm - box.x1, 49.0 - (14.0 - 1.8373), 1e-4);
    CHECK_NEAR(want->stop_to_origin_mm + box.x1, 49.0 + 1.6, 1e-9);
    assert_true(want->both_faces);  // the eight reaches 32, the tenon is 42 there
    CHECK_NEAR(want->depth_mm, 22.0, 1e-9);
    tw_arena_finish(&p.arena);
    plan_with("    set from: shoulder\n");
    want = &work_named("slots for the tusks")->copy;
    CHECK_NEAR(-want->stop_to_origin_mm - tw_outline_bounds(want->cut).x1, 45.0 - 1.6, 1e-9);
    CHECK_HOLDS(want->stop_word, "shoulder");
}

static void leaning_wall_is_pared_unless_a_cradle_is_asked_for(void **state)
{
    (void)state;
    plan_with("");
    assert_int_equal(work_named("leaning walls of the slots")->way, TW_WAY_CHISEL);
    CHECK_NEAR(work_named("leaning walls of the slots")->measure_mm, 17.4373, 1e-4);
    assert_false(has_work("corners of the slots"));
}

/* In the cradle the wall lies along the plunge at s = k cos a; the tenon's deepest corner at p cos a + (D/2) sin a. D 16, a 5. */
static void cradle_brings_the_wall_along_the_plunge(void **state)
{
    (void)state;
    plan_with("    tusk stands: level\n    lies: across\n    tenon thickness: 16\n    tenon width: 48\n    tusk breadth: 14\n    wall by: cradle\n    beyond: 60\n    tusk thickness: 16\n");
    const tw_work *work = work_named("leaning walls of the slots");
    assert_int_equal(work->way, TW_WAY_COPY);
    tw_box box = tw_outline_bounds(work->copy.cut);
    double a = tw_radians(5.0), end = 60.0 * cos(a) + 8.0 * sin(a);
    CHECK_NEAR(work->copy.stop_to_origin_mm - box.x1, end - 16.0 * cos(a), 1e-9);
    CHECK_NEAR(box.x1 - box.x0, (16.0 + 1.6) * cos(a) - 8.0 * sin(a), 1e-9);  // and never into the straight wall
    CHECK_NEAR(work->copy.depth_mm, 16.0 / cos(a) + 1.0, 1e-9);
    assert_true(has_work("corners of the slots"));
    CHECK_HOLDS(work->what, "leans by 5.0");
}

static void tusk_comes_from_a_stick_that_can_be_held(void **state)
{
    (void)state;
    plan_with("");
    assert_int_equal(p.plans[0].part_count, 1);
    const tw_part *tusk = &p.plans[0].parts[0];
    assert_int_equal(tusk->count, 2);
    CHECK_NEAR(tusk->finished.length_mm, 81.0, 1e-9);
    assert_true(tusk->stick.length_mm >= 2.0 * 81.0 + 2.0 * 15.0);
    CHECK_NEAR(tusk->stick.thickness_mm, 14.0 + (21.0 + 12.0 + 15.0) * tan(tw_radians(5.0)), 1e-9);
}

static bool comes_after(int late, int early)
{
    const tw_work *work = &p.plans[0].works[late];
    for (int i = 0; i < work->after_count; i++)
        if (work->after[i] == early || comes_after(work->after[i], early)) return true;
    return false;
}

static int index_of(const char *name) { return (int)(work_named(name) - p.plans[0].works); }

static void slot_is_cut_after_the_knife_line_and_the_tusk_fitted_after_its_wall(void **state)
{
    (void)state;
    plan_with("");
    assert_true(comes_after(index_of("slots for the tusks"), index_of("tenons into their mortises")));
    assert_true(comes_after(index_of("tusks to their seats"), index_of("leaning walls of the slots")));
    assert_true(comes_after(index_of("tusks to length"), index_of("tusks to their seats")));
    assert_false(comes_after(index_of("tenons"), index_of("slots for the tusks")));
}

/* ---- refusals ---- */

static void steep_wedge_is_a_care_and_a_springing_one_a_halt(void **state)
{
    (void)state;
    expect("    angle: 1:8\n", "wedge-steep", TW_CARE, "7.13° is steeper", "5 degrees");
    expect("    angle: 24 deg\n", "wedge-springs-out", TW_HALT, "24.0° springs out", "4 to 5 degrees");
    expect("    angle: 2 deg\n", "wedge-slender", TW_CARE, "1/29 of what it is driven", "4 to 5 degrees");
}

static void head_that_cannot_point_there_is_refused(void **state)
{
    (void)state;
    expect("    heads to: face\n", "heads-askew", TW_HALT, "stands upright goes from edge to edge", "back edge");
    expect("    tusk stands: level\n    heads to: face edge\n", "heads-askew", TW_HALT, "stands level goes from face to back", "heads to: face");
    plan_with("    heads to: face\n");
    assert_int_equal(p.plans[0].work_count, 0);  // nothing is planned of what cannot be
    assert_int_equal(p.plans[0].cut_count, 0);
}

static void thin_tusk_is_refused_with_the_thickness_that_would_do(void **state)
{
    (void)state;
    expect("    tusk thickness: 7\n", "tusk-thin", TW_HALT, "at least 8.2 mm is needed", "8.7 mm thick");  // 8 - 1.6 + 1.837 = 8.237
    expect("    tusk thickness: 9\n    tip proud: 40\n", "tip-thin", TW_CARE, "3.7 mm thick", "tenon's middle");  // 9 - (21 + 40) tan 5 = 3.66
}

static void weak_wood_about_the_tusk_is_found(void **state)
{
    (void)state;
    expect("    tusk breadth: 12\n", "cheek-thin", TW_CARE, "only 3.8 mm of the tenon's 20.0 mm", "at most 10.0 mm");   // (20 - 12.4)/2
    expect("    tusk breadth: 15\n", "cheek-thin", TW_HALT, "only 2.3 mm", "10.0 mm");
    expect("    beyond: 35\n", "relish-short", TW_CARE, "16.2 mm", "38.8 mm beyond");  // 35 - 14 - 1.837 - 3 = 16.163; short 3.837
    expect("    beyond: 28\n", "relish-short", TW_HALT, "9.2 mm", "beyond");
    expect("    head proud: 4\n", "head-short", TW_HALT, "4.0 mm above", "15.0 mm");
    expect("    tusk breadth: 3\n", "tusk-narrow", TW_CARE, "3.0 mm broad", "a third of the tenon");
}

static void slot_that_does_not_draw_is_refused(void **state)
{
    (void)state;
    expect("    draw allowance: 0.01\n", "no-draw", TW_HALT, "pull nothing", "1.6 mm");
    expect("    draw allowance: 0.4\n", "draw-small", TW_CARE, "0.4 mm is used up", "1.6 mm");
}

static void cradle_without_a_slim_cutter_is_refused(void **state)
{
    (void)state;
    expect("    wall by: cradle\n", "wall-cutter", TW_HALT, "no cutter of at most 5.3 mm", "wall by: chisel");
    expect("    cutter: eight\n    wall by: chisel\n    tenon thickness: 31\n", "tenon-thick", TW_HALT, "31.0 mm thick, its piece only 30.0 mm", "30.0 mm or less");
}

static void tenon_that_does_not_fit_its_pieces_is_refused(void **state)
{
    (void)state;
    expect("    tenon width: 71\n", "tenon-wide", TW_HALT, "71.0 mm wide, its piece only 70.0 mm", "70.0 mm or less");
    expect("    tenon width: 69\n    tenon thickness: 29\n", "no-shoulder", TW_HALT, "no shoulder", "thinner or narrower");
    expect("    across: 5\n", "mortise-off-piece", TW_HALT, "does not lie within", "55.0 mm");
    expect("    across: 14\n", "mortise-wall-thin", TW_HALT, "3.9 mm thick", "wider piece");  // 14 - 20.2/2
    expect("    ends: left\n", "counts-differ", TW_HALT, "of tenons is 1 (1 x rail, 1 end each), of mortises 2 (2 x post, 1 each)", "as many of one");
    expect("    beyond: 580\n", "tenons-meet", TW_HALT, "leave no body", "1260.0 mm");
}

static void tusk_that_hangs_over_the_edge_is_found(void **state)
{
    (void)state;
    expect("    lies: across\n    across: 26\n", "tusk-overhangs", TW_CARE, "only 4.9 mm of post", "lies: along");  // 26 - 42.2/2
}

static void findings_stand_at_the_value_that_they_are_about(void **state)
{
    (void)state;
    plan_with("    angle: 24 deg\n    beyond: 28\n");
    assert_int_equal(finding(&p, "wedge-springs-out")->place.line, 13);
    assert_int_equal(finding(&p, "relish-short")->place.line, 14);
}

static void mortise_into_an_end_is_refused(void **state)
{
    (void)state;
    p = planned_of("job: test\npieces:\n  post: {count: 1, length: 655, width: 110, thickness: 45}\n  rail: {count: 1, length: 1200, width: 70, thickness: 30}\njoints:\n"
        "  rail to post: {kind: single tusk, tenon: rail, through: post, from: right end, ends: left, at: 300}\n", SHOP_MM);
    plan(&p);
    assert_int_equal(finding(&p, "from-end")->level, TW_HALT);
    assert_int_equal(p.plans[0].cut_count, 0);
}

/* ---- laws ---- */

static const char *const sides[] = { "face", "back", "face edge", "back edge" };

static void seeded_job(check_seed *seed, char *text, size_t room)
{
    bool level = check_random(seed) % 2, inch = check_random(seed) % 2;
    double w = check_between(seed, 50.0, 120.0), t = check_between(seed, 24.0, 50.0);
    snprintf(text, room, "job: test\nunits: mm\nfigures: %s\npieces:\n  a post with a long name that goes on: {count: 2, length: 900, width: %.2f, thickness: %.2f}\n"
        "  rail of the upper shelf: {count: 1, length: 1200, width: %.2f, thickness: %.2f}\njoints:\n  rail to post:\n    kind: single tusk\n    tenon: rail of the upper shelf\n"
        "    through: a post with a long name that goes on\n    from: %s\n    at: %.2f\n    lies: %s\n    tusk stands: %s\n    heads to: %s\n    angle: %.2f deg\n    draw allowance: %.2f\n",
        inch ? "in 1/64" : "mm 0.1", check_between(seed, 130.0, 180.0), check_between(seed, 110.0, 150.0), w, t, sides[check_random(seed) % 4], check_between(seed, 200.0, 700.0),
        check_random(seed) % 2 ? "along" : "across", level ? "level" : "upright", sides[(level ? 0 : 2) + check_random(seed) % 2], check_between(seed, 3.0, 6.0), check_between(seed, 1.0, 2.5));
}

/* Closed form: shoulders (W H - w t)(T + p) at each end; the tusk's mortise (c + k) D mb. */
static void volumes_agree_with_closed_forms_over_seeded_jobs(void **state)
{
    (void)state;
    check_seed seed = { 41 };
    int seen = 0;
    for (int i = 0; i < 60; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_single *s = p.plans[0].own;
        if (p.plans[0].cut_count > 0) {
            double shoulders = 2.0 * (s->a.width_mm * s->a.thickness_mm - s->w * s->t) * (s->T + s->p), tusk = 2.0 * (s->c + s->k) * s->D * s->mb;
            CHECK_NEAR(cut_law_volume(&p.plans[0], s->spec->tenon.index, s->a, NULL), shoulders + tusk, 1e-5 * shoulders);
            CHECK_NEAR(cut_law_volume(&p.plans[0], s->spec->through.index, s->post, NULL), (s->w + s->clearance) * (s->t + s->clearance) * s->T, 1e-4);
            seen++;
        }
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 40);
}

/* A spot of the tenon is taken by exactly one cut when it lies between the two walls and within the breadth, else by none. */
static void cuts_of_the_tenon_take_what_lies_between_the_walls_and_nothing_else(void **state)
{
    (void)state;
    check_seed seed = { 42 };
    int inside = 0;
    for (int i = 0; i < 40; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_single *s = p.plans[0].own;
        for (int j = 0; j < 200 && p.plans[0].cut_count > 0; j++) {
            bool right = check_random(&seed) % 2;
            double u = check_between(&seed, -s->T, s->p), y = check_between(&seed, -s->w / 2.0, s->w / 2.0), z = check_between(&seed, -s->t / 2.0, s->t / 2.0);
            tw_spot spot = { right ? s->a.length_mm - s->p + u : s->p - u, s->a.width_mm / 2.0 + y, s->a.thickness_mm / 2.0 + z };
            double v = s->head == TW_SIDE_FACE ? z : s->head == TW_SIDE_BACK ? -z : s->head == TW_SIDE_BACK_EDGE ? y : -y, beside = s->upright ? z : y;
            bool wanted = u > -s->c && u < s->k + v * tan(s->alpha) && fabs(beside) < s->mb / 2.0;
            assert_int_equal(cut_law_count(&p.plans[0], s->spec->tenon.index, s->a, spot), wanted ? 1 : 0);
            inside += wanted;
        }
        tw_arena_finish(&p.arena);
    }
    assert_true(inside > 100);
}

/* Home, the tenon's wood lies in the mortise alone and the body's before the shoulder: no spot is wood of both. Shifted by more
 * than the clearance it clashes: the law can fail. */
static void pieces_at_home_share_no_wood(void **state)
{
    (void)state;
    check_seed seed = { 43 };
    int seen = 0, moved_clashes = 0;
    for (int i = 0; i < 40; i++) {
        char text[2048];
        seeded_job(&seed, text, sizeof text);
        p = planned_of(text, SHOP_MM);
        plan(&p);
        const tw_single *s = p.plans[0].own;
        for (size_t m = 0; m < p.plans[0].meeting_count; m++) {
            tw_meeting meeting = p.plans[0].meetings[m];
            bool right = meeting.end == TW_SIDE_RIGHT_END;
            double x0 = right ? s->a.length_mm - s->T - s->p - 30.0 : 0.0;
            tw_spot least = { x0, 0.0, 0.0 }, most = { x0 + s->T + s->p + 30.0, s->a.width_mm, s->a.thickness_mm };
            assert_int_equal(cut_law_clashes(&p.plans[0], &meeting, s->a, s->post, least, most, 300, &seed), 0);
            CHECK_NEAR(meeting.travel_mm, s->T + s->p, 1e-9);
            meeting.pose.at.x += 5.0;
            moved_clashes += cut_law_clashes(&p.plans[0], &meeting, s->a, s->post, least, most, 300, &seed) > 0;
            seen++;
        }
        tw_arena_finish(&p.arena);
    }
    assert_true(seen > 50);
    assert_int_equal(moved_clashes, seen);
}

static void drawings_of_seeded_jobs_have_no_texts_that_meet_or_lie_on_outlines(void **state)
{
    (void)state;
    check_seed seed = { 44 };
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

static void joint_that_cannot_be_made_is_not_drawn(void **state)
{
    (void)state;
    plan_with("    tusk thickness: 7\n");
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_sheet *sheet = tw_sheet_new(&p.arena, "joint", "joint", 220.0, 230.0);
    assert_string_equal(tw_joint_kinds[p.plans[0].joint->kind]->draw(&context, &p.plans[0], sheet, (tw_box){ 20.0, 20.0, 200.0, 210.0 }), "not to scale");
}

/* Values far from any sense: planned or refused, never half, and never a crash. */
static void odd_values_end_in_a_plan_or_a_halt(void **state)
{
    (void)state;
    static const odd_key keys[] = { { "across", 0.5, 150.0, NULL }, { "tenon thickness", 0.1, 100.0, NULL }, { "tenon width", 0.1, 200.0, NULL }, { "beyond", 0.1, 700.0, NULL },
        { "tusk breadth", 0.01, 60.0, NULL }, { "ease", 0.01, 4.9, NULL }, { "draw allowance", 0.01, 60.0, NULL }, { "tusk thickness", 0.1, 100.0, NULL }, { "reserve", 0.1, 100.0, NULL }, { "head proud", 0.1, 100.0, NULL },
        { "tip proud", 0.1, 200.0, NULL }, { "chamfer", 0.01, 19.0, NULL }, { "mortise clearance", 0.01, 4.9, NULL }, { "angle", 0.6, 44.0, NULL }, { "tusk stands", 0, 0, "upright|level" }, { "lies", 0, 0, "along|across" },
        { "heads to", 0, 0, "face|back|face edge|back edge" }, { "set from", 0, 0, "end|shoulder" }, { "wall by", 0, 0, "chisel|cradle" }, { "mortise corners", 0, 0, "square|round" }, { "from", 0, 0, "face|back|face edge|back edge|left end" } };
    check_seed seed = { 71 };
    int sound = 0;
    for (int i = 0; i < 3000; i++) {
        char text[4096];
        snprintf(text, sizeof text, "job: test\nunits: mm\nfigures: %s\npieces:\n  post: {count: 2, length: 700, width: %.3f, thickness: %.3f}\n  rail: {count: 1, length: 1200, width: %.3f, thickness: %.3f}\njoints:\n  rail to post:\n    kind: single tusk\n    tenon: rail\n    through: post\n    at: %.3f\n",
            i % 2 ? "mm 0.1" : "in 1/64", check_between(&seed, 5.0, 150.0), check_between(&seed, 5.0, 80.0), check_between(&seed, 5.0, 150.0), check_between(&seed, 3.0, 60.0), check_between(&seed, 1.0, 700.0));
        odd_lines(&seed, keys, sizeof keys / sizeof *keys, 2 + i % 6, text, sizeof text);
        sound += odd_is_planned(text, SHOP_MM);
    }
    assert_true(sound > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(upright_tusk_in_millimetres_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(level_tusk_goes_through_the_thickness, finish),
        cmocka_unit_test_teardown(upright_tusk_in_inches_has_the_proportions_worked_by_hand, finish),
        cmocka_unit_test_teardown(slot_has_no_hand_and_is_the_same_at_both_ends_after_half_a_turn, finish),
        cmocka_unit_test_teardown(slot_is_set_from_the_end_or_from_the_shoulder, finish),
        cmocka_unit_test_teardown(leaning_wall_is_pared_unless_a_cradle_is_asked_for, finish),
        cmocka_unit_test_teardown(cradle_brings_the_wall_along_the_plunge, finish),
        cmocka_unit_test_teardown(tusk_comes_from_a_stick_that_can_be_held, finish),
        cmocka_unit_test_teardown(slot_is_cut_after_the_knife_line_and_the_tusk_fitted_after_its_wall, finish),
        cmocka_unit_test(steep_wedge_is_a_care_and_a_springing_one_a_halt),
        cmocka_unit_test_teardown(head_that_cannot_point_there_is_refused, finish),
        cmocka_unit_test(thin_tusk_is_refused_with_the_thickness_that_would_do),
        cmocka_unit_test(weak_wood_about_the_tusk_is_found),
        cmocka_unit_test(slot_that_does_not_draw_is_refused),
        cmocka_unit_test(cradle_without_a_slim_cutter_is_refused),
        cmocka_unit_test(tenon_that_does_not_fit_its_pieces_is_refused),
        cmocka_unit_test(tusk_that_hangs_over_the_edge_is_found),
        cmocka_unit_test_teardown(findings_stand_at_the_value_that_they_are_about, finish),
        cmocka_unit_test_teardown(mortise_into_an_end_is_refused, finish),
        cmocka_unit_test(volumes_agree_with_closed_forms_over_seeded_jobs),
        cmocka_unit_test(cuts_of_the_tenon_take_what_lies_between_the_walls_and_nothing_else),
        cmocka_unit_test(pieces_at_home_share_no_wood),
        cmocka_unit_test(drawings_of_seeded_jobs_have_no_texts_that_meet_or_lie_on_outlines),
        cmocka_unit_test_teardown(joint_that_cannot_be_made_is_not_drawn, finish),
        cmocka_unit_test(odd_values_end_in_a_plan_or_a_halt),
    };
    return cmocka_run_group_tests_name("single tusk", tests, NULL, NULL);
}
