// SPDX-License-Identifier: GPL-3.0-or-later
/* Trial cuts, by hand-worked numbers. What moves by how much: table and depth by the error, the template by the ratio times
 * it, centring by half of the flip difference at the table and ratio / 2 at the template (Tuskwright's design, common practice
 * at copying machines; the numbers are worked out beside each case). Laws: the move made, the cut comes out as wanted. */
#include "planned.h"

#include "../bench/many.h"
#include "setup/task.h"
#include "setup/trial.h"

static planned p;
static tw_templates templates;
static tw_setups setups;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void set_up(const char *job, const char *shop)
{
    p = planned_of(job, shop);
    plan(&p);
    templates = tw_templates_make(&p.arena, p.job, p.shop, p.plans, tw_plan_count(p.job), &p.findings);
    setups = tw_setups_make(&p.arena, p.job, p.shop, p.plans, tw_plan_count(p.job), &templates, &p.findings);
}

#define PIECES "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n" \
    "  rail: {count: 1, length: 1200, width: 70, thickness: 28}\njoints:\n"
#define FORKED(more) PIECES "  rail to post:\n    kind: forked tusks\n    tenon: rail\n" \
    "    through: post\n    from: back\n    at: 300\n    tenon width: 38\n    beyond: 58\n" more
#define MORTISED(more) PIECES "  rail to post:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: post\n" \
    "    from: back\n    at: 300\n    tenon thickness: 10.5\n    cutter: eight\n    follower: sixteen\n    tenon cutter: eight\n" \
    "    tenon follower: sixteen\n" more

static tw_trial_ask ask_of(const char *work, tw_trial_of of)
{
    tw_trial_ask ask = { p.job, p.shop, p.plans, &templates, &setups, -1, -1, -1, of };
    for (int i = 0; i < tw_plan_count(p.job); i++)
        for (int j = 0; j < (int)p.plans[i].work_count; j++)
            if (strcmp(p.plans[i].works[j].name, work) == 0) { ask.plan = i; ask.work = j; }
    if (ask.plan < 0) {
        for (size_t j = 0; j < p.plans[0].work_count; j++) print_error("%s\n", p.plans[0].works[j].name);
        fail_msg("there is no work %s", work);
    }
    for (int i = 0; i < setups.count; i++)
        if (setups.items[i].plan == ask.plan && setups.items[i].work == ask.work) ask.setup = i;
    return ask;
}

static tw_trial tried(const char *work, tw_trial_of of, double got_mm)
{
    tw_trial_ask ask = ask_of(work, of);
    return tw_trial_made(&p.arena, &ask, NULL, got_mm);
}

static const tw_trial_move *move_of(const tw_trial *t, const char *stop)
{
    for (size_t i = 0; i < t->move_count; i++)
        if (strncmp(t->moves[i].stop, stop, strlen(stop)) == 0) return &t->moves[i];
    for (size_t i = 0; i < t->move_count; i++) print_error("%s %s by %s\n", t->moves[i].stop, t->moves[i].way, t->moves[i].by);
    for (size_t i = 0; i < t->note_count; i++) print_error("%s\n", t->notes[i]);
    fail_msg("no move of the %s", stop);
    return NULL;
}

static void expect_move(const tw_trial *t, const char *stop, const char *way, double by_mm)
{
    assert_true(t->ok);
    const tw_trial_move *move = move_of(t, stop);
    assert_string_equal(move->way, way);
    CHECK_NEAR(move->by_mm, by_mm, 1e-9);
}

static const char *noted(const tw_trial *t, const char *part)
{
    for (size_t i = 0; i < t->note_count; i++)
        if (strstr(t->notes[i], part)) return t->notes[i];
    return NULL;
}

/* ---- depth ---- */

/* Housing wanted 3.4 deep, got 3.7: 0.3 less deep; the card then says 3.1. The depth is not copied, so it is not doubled. */
static void depth_stop_moves_by_the_error_itself(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("housings, right hand", TW_TRIAL_DEPTH, 3.7);
    expect_move(&t, "depth stop", "less deep", 0.3);
    const tw_trial_move *move = move_of(&t, "depth stop");
    assert_true(move->stacked);
    CHECK_NEAR(move->stack.total_mm, 0.3, 0.05);
    assert_true(move->has_setting);
    CHECK_NEAR(move->setting_mm, 3.1, 1e-9);
    assert_string_equal(move->setting, "3.10 mm");
    CHECK_HOLDS(move->sum, "3.70 mm - 3.40 mm = 0.30 mm");
    t = tried("housings, right hand", TW_TRIAL_DEPTH, 3.2);
    expect_move(&t, "depth stop", "deeper", 0.2);
}

/* The web is what two housings leave: 28 less shoulders gives a tenon of 14; web 7.2. Got 7.6: each housing 0.2 deeper. */
static void a_web_takes_half_of_its_error_from_each_cheek(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("housings, right hand", TW_TRIAL_MEASURE, 7.6);
    CHECK_NEAR(t.dimension.wanted_mm, 7.2, 1e-9);
    expect_move(&t, "depth stop", "deeper", 0.2);
    t = tried("housings, right hand", TW_TRIAL_MEASURE, 7.0);
    expect_move(&t, "depth stop", "less deep", 0.1);
}

/* ---- template ---- */

/* End of the tenon to the straight wall: beyond 58 + draw 1.6 = 59.6. Got 60.0: 0.4 too far from the end. At a ratio of 2 the
 * template goes back by 0.8. The right hand's wall lies to the left of the end, so back is to the right. */
static void template_moves_by_the_ratio_times_the_error(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("housings, right hand", TW_TRIAL_ALONG, 60.0);
    CHECK_NEAR(t.dimension.wanted_mm, 59.6, 1e-9);
    expect_move(&t, "template", "to the right", 0.8);
    t = tried("housings, left hand", TW_TRIAL_ALONG, 60.0);
    expect_move(&t, "template", "to the left", 0.8);
    t = tried("housings, right hand", TW_TRIAL_ALONG, 59.4);
    expect_move(&t, "template", "to the left", 0.4);
}

/* The shift that the template has from now on puts the flank where it was wanted: (2) of setup.c backwards. */
static void the_new_shift_brings_the_wall_to_its_place(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("housings, right hand", TW_TRIAL_ALONG);
    const tw_setup *setup = &setups.items[ask.setup];
    for (int i = -5; i <= 5; i++) {
        double off = 0.33 * i, got = 59.6 + off;
        tw_trial t = tw_trial_made(&p.arena, &ask, NULL, got);
        if (i == 0) { assert_true(t.good); continue; }
        const tw_trial_move *move = move_of(&t, "template");
        assert_true(move->has_setting);
        CHECK_NEAR(got + (move->setting_mm - setup->shift.value_mm) / 2.0, 59.6, 1e-9);
    }
}

/* Seen from the back, left and right change; a copy that is turned goes the other way. */
static void the_way_of_the_template_is_the_makers(void **state)
{
    (void)state;
    tw_arena kept = {0};
    const char *turned = tw_format(&kept, "%.*s  copy: turned\n%s", (int)(strstr(SHOP_MM, "  ratio") - SHOP_MM), SHOP_MM,
        strstr(SHOP_MM, "  ratio"));
    set_up(FORKED(""), turned);
    tw_trial t = tried("housings, right hand", TW_TRIAL_ALONG, 60.0);
    expect_move(&t, "template", "to the left", 0.8);
    tw_arena_finish(&p.arena);
    const char *back = tw_format(&kept, "%.*s  seen from: back\n%s", (int)(strstr(SHOP_MM, "  ratio") - SHOP_MM), SHOP_MM,
        strstr(SHOP_MM, "  ratio"));
    set_up(FORKED(""), back);
    t = tried("housings, right hand", TW_TRIAL_ALONG, 60.0);
    expect_move(&t, "template", "to the left", 0.8);
    tw_arena_finish(&kept);
}

/* At a ratio of 1 (a hand-held router) nothing is doubled. */
static void at_a_ratio_of_one_the_template_moves_by_the_error(void **state)
{
    (void)state;
    tw_arena kept = {0};
    const char *at = strstr(SHOP_MM, "ratio: 2");
    set_up(FORKED(""), tw_format(&kept, "%.*sratio: 1%s", (int)(at - SHOP_MM), SHOP_MM, at + 8));
    tw_trial t = tried("housings, right hand", TW_TRIAL_ALONG, 60.0);
    expect_move(&t, "template", "to the right", 0.4);
    tw_arena_finish(&kept);
}

/* ---- table and stop ---- */

/* Post 110 wide, the mortise's middle at 55. */
static void table_and_stop_move_by_the_error_itself(void **state)
{
    (void)state;
    set_up(MORTISED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("mortises", TW_TRIAL_UP);
    size_t count;
    const tw_trial_dimension *all = tw_trial_dimensions(&p.arena, &ask, &count);
    double low = 0.0, end = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (all[i].of == TW_TRIAL_UP) low = all[i].wanted_mm;
        if (all[i].of == TW_TRIAL_ALONG) end = all[i].wanted_mm;
    }
    tw_trial t = tried("mortises", TW_TRIAL_UP, low + 0.5);  // the cut lies too high: the piece goes up
    expect_move(&t, "table", "up", 0.5);
    CHECK_NEAR(move_of(&t, "table")->setting_mm, setups.items[ask.setup].table.value_mm - 0.5, 1e-9);
    t = tried("mortises", TW_TRIAL_UP, low - 0.25);
    expect_move(&t, "table", "down", 0.25);
    const tw_setting *stop = &setups.items[ask.setup].stop;
    t = tried("mortises", TW_TRIAL_ALONG, end + 0.4);        // too far from the stop: the stop comes nearer to the middle
    expect_move(&t, "stop", stop->direction_x > 0 ? "to the left" : "to the right", 0.4);
    CHECK_NEAR(move_of(&t, "stop")->setting_mm, stop->value_mm - 0.4, 1e-9);
}

static void a_table_that_goes_in_steps_is_left_and_packing_takes_the_difference(void **state)
{
    (void)state;
    tw_arena kept = {0};
    set_up(MORTISED(""), tw_format(&kept, "%.*s  table step: 5\n%s", (int)(strstr(SHOP_MM, "  ratio") - SHOP_MM), SHOP_MM,
        strstr(SHOP_MM, "  ratio")));
    tw_trial_ask ask = ask_of("mortises", TW_TRIAL_UP);
    tw_trial probe = tw_trial_made(&p.arena, &ask, NULL, 0.0);
    tw_trial t = tried("mortises", TW_TRIAL_UP, probe.dimension.wanted_mm - 0.6);
    expect_move(&t, "packing under the piece", "thinner", 0.6);
    assert_non_null(noted(&t, "steps of 5.00 mm"));
    tw_arena_finish(&kept);
}

/* ---- widths ---- */

/* A pocket of 10.5 with follower 16, ratio 2. Got 10.3: 0.2 too narrow: the opening 0.4 wider, or a follower 0.4 smaller,
    of 15.6. */
static void a_narrow_pocket_wants_a_wider_opening_or_a_smaller_follower(void **state)
{
    (void)state;
    set_up(MORTISED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("mortises", TW_TRIAL_MEASURE);
    double wanted = tw_trial_made(&p.arena, &ask, NULL, 0.0).dimension.wanted_mm;
    tw_trial t = tried("mortises", TW_TRIAL_MEASURE, wanted - 0.2);
    expect_move(&t, "template's opening", "wider", 0.4);
    expect_move(&t, "follower", "smaller", 0.4);
    assert_non_null(noted(&t, "no follower of 15.60 mm"));
    assert_non_null(noted(&t, "Plane it off the template"));
    t = tried("mortises", TW_TRIAL_MEASURE, wanted + 0.3);
    expect_move(&t, "template's opening", "narrower", 0.6);
    expect_move(&t, "follower", "larger", 0.6);
    assert_non_null(noted(&t, "Tape or shims"));
}

/* A tenon is the other way round: too thick wants a smaller follower, and a body that is planed. */
static void a_thick_tenon_wants_a_smaller_follower(void **state)
{
    (void)state;
    set_up(MORTISED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("tenons", TW_TRIAL_MEASURE);
    double wanted = tw_trial_made(&p.arena, &ask, NULL, 0.0).dimension.wanted_mm;
    CHECK_NEAR(wanted, 10.5, 1e-9);
    tw_trial t = tried("tenons", TW_TRIAL_MEASURE, 10.7);
    expect_move(&t, "template's body", "narrower", 0.4);
    expect_move(&t, "follower", "smaller", 0.4);
    assert_non_null(noted(&t, "Plane it off the template"));
    t = tried("tenons", TW_TRIAL_MEASURE, 10.3);
    expect_move(&t, "template's body", "wider", 0.4);
    expect_move(&t, "follower", "larger", 0.4);
}

/* A follower x larger makes a pocket x/2 narrower at a ratio of 2: got 0.3 too wide, one of 16.6 is owned. A cutter 0.3 smaller
 * would do the same at full size. */
static void an_owned_follower_or_cutter_that_mends_it_is_named_first(void **state)
{
    (void)state;
    tw_arena kept = {0};
    const char *at = strstr(SHOP_MM, "  sixteen"), *cutters = strstr(SHOP_MM, "  eight");
    const char *shop = tw_format(&kept,
        "%.*s  seven seven: {diameter: 7.7, cutting length: 32, shank: 8, plunges: yes}\n"
        "%.*s  sixteen six: {diameter: 16.6, length: 12}\n%s",
        (int)(cutters - SHOP_MM), SHOP_MM, (int)(at - cutters), cutters, at);
    set_up(MORTISED(""), shop);
    tw_trial_ask ask = ask_of("mortises", TW_TRIAL_MEASURE);
    double wanted = tw_trial_made(&p.arena, &ask, NULL, 0.0).dimension.wanted_mm;
    tw_trial t = tw_trial_made(&p.arena, &ask, NULL, wanted + 0.3);
    CHECK_HOLDS(t.moves[0].stop, "follower sixteen six in the place of sixteen");
    assert_string_equal(t.moves[0].way, "larger");
    CHECK_NEAR(t.moves[0].by_mm, 0.6, 1e-9);
    expect_move(&t, "cutter seven seven in the place of eight", "smaller", 0.3);
    tw_arena_finish(&kept);
}

static void a_slot_as_wide_as_its_cutter_has_no_stop_to_move(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("slots of the tusks", TW_TRIAL_MEASURE, 8.5);
    assert_int_equal(t.move_count, 1);
    expect_move(&t, "cutter", "smaller", 0.5);
    assert_non_null(noted(&t, "no cutter of 7.50 mm"));
    assert_non_null(noted(&t, "no stop moves it"));
}

/* A slot of 8 that came out 30 wide would want a cutter of less than nothing: somebody misread the caliper, or its unit. */
static void no_cutter_of_less_than_nothing_is_asked_for(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("slots of the tusks", TW_TRIAL_MEASURE, 30.0);
    assert_int_equal(t.move_count, 0);
    assert_null(noted(&t, "no cutter of"));
    assert_non_null(noted(&t, "in one unit"));
}

/* ---- saws ---- */

/* Both cheeks are sawn from one fence: 0.4 too thick, 0.2 each. */
static void a_fence_that_serves_both_cheeks_moves_by_half(void **state)
{
    (void)state;
    set_up(FORKED("    tenon thickness: 14\n"), SHOP_MM);
    tw_trial t = tried("tenons", TW_TRIAL_MEASURE, 14.4);
    expect_move(&t, "fence", "so that it comes out smaller", 0.2);
    assert_false(move_of(&t, "fence")->has_setting);
}

static void what_is_pared_or_marked_again_is_said_in_words(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("shoulder lines", TW_TRIAL_MEASURE, 1.0);
    assert_true(t.ok);
    assert_false(t.good);
    assert_int_equal(t.move_count, 0);
    assert_non_null(noted(&t, "mark the whole batch again"));
}

/* ---- centring ---- */

/* Turned over, 15.2 and 14.8 from the same side: the cut lies 0.2 too far from the side that lay down. Table 0.2 up; the
 * template 2/2 x 0.4 = 0.4, down, for the cutter is to come down. */
static void centring_halves_the_flip_difference_at_the_table_and_takes_half_the_ratio_of_it_at_the_template(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("housings, right hand", TW_TRIAL_MEASURE);
    tw_trial t = tw_trial_flip(&p.arena, &ask, 15.2, 14.8, false);
    expect_move(&t, "table", "up", 0.2);
    expect_move(&t, "template", "down", 0.4);
    t = tw_trial_flip(&p.arena, &ask, 14.7, 15.3, false);
    expect_move(&t, "table", "down", 0.3);
    expect_move(&t, "template", "up", 0.6);
    t = tw_trial_flip(&p.arena, &ask, 15.0, 15.05, false);
    assert_true(t.ok && t.good);
    assert_int_equal(t.move_count, 0);
}

/* A cut of width w at height h above the side that lies down, in a piece W: near wall at h - w/2, turned over at W - h - w/2. */
static void the_table_moved_as_said_the_cut_lies_in_the_middle(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("housings, right hand", TW_TRIAL_MEASURE);
    check_seed seed = { 7 };
    for (int i = 0; i < 200; i++) {
        double wide = 70.0, w = check_between(&seed, 4.0, 30.0), h = 35.0 + check_between(&seed, -3.0, 3.0);
        tw_trial t = tw_trial_flip(&p.arena, &ask, h - w / 2.0, wide - h - w / 2.0, false);
        assert_true(t.ok);
        if (t.good) continue;
        const tw_trial_move *table = move_of(&t, "table");
        double up = strcmp(table->way, "up") == 0 ? table->by_mm : -table->by_mm;
        CHECK_NEAR(h - up, wide / 2.0, 1e-9);  // the piece rises, the cutter stays
        CHECK_NEAR(move_of(&t, "template")->by_mm, 2.0 * table->by_mm, 1e-9);
    }
}

static void a_cut_that_is_not_to_lie_in_the_middle_is_not_centred(void **state)
{
    (void)state;
    set_up(MORTISED("    across: 30\n"), SHOP_MM);
    tw_trial_ask ask = ask_of("mortises", TW_TRIAL_MEASURE);
    tw_trial t = tw_trial_flip(&p.arena, &ask, 10.0, 50.0, false);
    assert_false(t.ok);
    assert_non_null(noted(&t, "not to lie in the middle"));
    t = tw_trial_flip(&p.arena, &ask, 10.0, 50.0, true);
    assert_false(t.ok);
}

/* ---- what is no trial ---- */

static void within_its_limits_nothing_is_moved(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial t = tried("housings, right hand", TW_TRIAL_MEASURE, 7.25);
    assert_true(t.ok && t.good);
    assert_int_equal(t.move_count, 0);
}

static void a_wanted_size_of_the_makers_own_takes_its_limits_along(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("housings, right hand", TW_TRIAL_MEASURE);
    double wanted = 7.6;
    tw_trial t = tw_trial_made(&p.arena, &ask, &wanted, 7.65);
    assert_true(t.good);
    t = tw_trial_made(&p.arena, &ask, &wanted, 7.2);
    expect_move(&t, "depth stop", "less deep", 0.2);
}

static void what_cannot_be_measured_is_refused_in_words(void **state)
{
    (void)state;
    set_up(FORKED(""), SHOP_MM);
    tw_trial_ask ask = ask_of("housings, right hand", TW_TRIAL_MEASURE);
    const double bad[] = { NAN, INFINITY, -0.1, 1e9 };
    for (size_t i = 0; i < 4; i++) {
        tw_trial t = tw_trial_made(&p.arena, &ask, NULL, bad[i]);
        assert_false(t.ok);
        assert_int_equal(t.move_count, 0);
        assert_int_equal(t.note_count, 1);
        assert_false(tw_trial_flip(&p.arena, &ask, bad[i], 10.0, false).ok);
        assert_false(tw_trial_flip(&p.arena, &ask, 10.0, bad[i], false).ok);
        assert_false(tw_trial_made(&p.arena, &ask, &bad[i == 2 ? 1 : i], 7.0).ok);
    }
    tw_trial_ask whole = ask;
    whole.plan = whole.work = whole.setup = -1;
    assert_false(tw_trial_made(&p.arena, &whole, NULL, 7.0).ok);
    assert_false(tw_trial_flip(&p.arena, &whole, 7.0, 8.0, false).ok);
    tw_trial t = tried("lead-in on the tenons", TW_TRIAL_MEASURE, 3.0);
    assert_false(t.ok);
    t = tried("shoulder lines", TW_TRIAL_UP, 3.0);
    assert_false(t.ok);
}

/* ---- all kinds ---- */

static void hold_all_works_of(const char *job_path, const char *shop_path)
{
    char *job = many_file(job_path), *shop = many_file(shop_path);
    if (!job || !shop) fail_msg("cannot read %s: tests run in the project's root folder", job_path);
    set_up(job, shop);
    for (int s = 0; s < setups.count; s++) {
        const tw_work *work = &p.plans[setups.items[s].plan].works[setups.items[s].work];
        tw_trial_ask ask = { p.job, p.shop, p.plans, &templates, &setups, setups.items[s].plan, setups.items[s].work, s,
            TW_TRIAL_MEASURE };
        size_t count;
        const tw_trial_dimension *all = tw_trial_dimensions(&p.arena, &ask, &count);
        if (count == 0 || all[0].of != TW_TRIAL_MEASURE) fail_msg("%s: \"%s\" has nothing to measure", job_path, work->name);
        for (size_t i = 0; i < count; i++) {
            ask.of = all[i].of;
            for (int far = 1; far <= 2; far++) {
                double got = far == 1 ? all[i].most_mm + 0.5 : tw_max(0.0, all[i].least_mm - 0.5);
                tw_trial t = tw_trial_made(&p.arena, &ask, NULL, got);
                assert_true(t.ok);
                // the tails of dovetails are left: the pins follow them
                bool left = ask.of == TW_TRIAL_MEASURE && work->answer.by == TW_BY_NOTHING;
                if (!left && t.move_count == 0) fail_msg("%s: \"%s\": nothing answers for %s", job_path, work->name, all[i].what);
                for (size_t m = 0; m < t.move_count; m++) assert_true(t.moves[m].by_mm > 0.0 && isfinite(t.moves[m].by_mm) &&
                    t.moves[m].sum[0] && t.moves[m].way[0]);
            }
        }
    }
    tw_arena_finish(&p.arena);
    free(job);
    free(shop);
}

static void every_copied_work_of_the_examples_knows_what_answers_for_its_dimension(void **state)
{
    (void)state;
    static const char *const mm[] = { "cross-dowel-and-bolt", "cross-lap", "drawbored-peg", "edge-lap", "finger-joint",
        "housed-bridle", "housing",
        "mortise-and-tenon", "raked-post", "splayed-legs", "single-tusk", "sliding-dovetail", "slip-tenon", "through-dovetail" };
    for (size_t i = 0; i < sizeof mm / sizeof *mm; i++) {
        tw_arena kept = {0};
        hold_all_works_of(tw_format(&kept, "examples/joints/%s/job.yaml", mm[i]), "examples/joints/shop.yaml");
        tw_arena_finish(&kept);
    }
    hold_all_works_of("examples/reading-table/job.yaml", "examples/reading-table/shop.yaml");
    hold_all_works_of("examples/plant-bench/job.yaml", "examples/plant-bench/shop.yaml");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(depth_stop_moves_by_the_error_itself, finish),
        cmocka_unit_test_teardown(a_web_takes_half_of_its_error_from_each_cheek, finish),
        cmocka_unit_test_teardown(template_moves_by_the_ratio_times_the_error, finish),
        cmocka_unit_test_teardown(the_new_shift_brings_the_wall_to_its_place, finish),
        cmocka_unit_test_teardown(the_way_of_the_template_is_the_makers, finish),
        cmocka_unit_test_teardown(at_a_ratio_of_one_the_template_moves_by_the_error, finish),
        cmocka_unit_test_teardown(table_and_stop_move_by_the_error_itself, finish),
        cmocka_unit_test_teardown(a_table_that_goes_in_steps_is_left_and_packing_takes_the_difference, finish),
        cmocka_unit_test_teardown(a_narrow_pocket_wants_a_wider_opening_or_a_smaller_follower, finish),
        cmocka_unit_test_teardown(a_thick_tenon_wants_a_smaller_follower, finish),
        cmocka_unit_test_teardown(an_owned_follower_or_cutter_that_mends_it_is_named_first, finish),
        cmocka_unit_test_teardown(a_slot_as_wide_as_its_cutter_has_no_stop_to_move, finish),
        cmocka_unit_test_teardown(no_cutter_of_less_than_nothing_is_asked_for, finish),
        cmocka_unit_test_teardown(a_fence_that_serves_both_cheeks_moves_by_half, finish),
        cmocka_unit_test_teardown(what_is_pared_or_marked_again_is_said_in_words, finish),
        cmocka_unit_test_teardown(
            centring_halves_the_flip_difference_at_the_table_and_takes_half_the_ratio_of_it_at_the_template, finish),
        cmocka_unit_test_teardown(the_table_moved_as_said_the_cut_lies_in_the_middle, finish),
        cmocka_unit_test_teardown(a_cut_that_is_not_to_lie_in_the_middle_is_not_centred, finish),
        cmocka_unit_test_teardown(within_its_limits_nothing_is_moved, finish),
        cmocka_unit_test_teardown(a_wanted_size_of_the_makers_own_takes_its_limits_along, finish),
        cmocka_unit_test_teardown(what_cannot_be_measured_is_refused_in_words, finish),
        cmocka_unit_test(every_copied_work_of_the_examples_knows_what_answers_for_its_dimension),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
