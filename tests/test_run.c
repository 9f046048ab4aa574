// SPDX-License-Identifier: GPL-3.0-or-later
/* The run. Outside check: orders of small plans are held against the enumeration of every order that `after` and stages
 * allow (the textbook definition of a linear extension), with the changes counted here afresh from the setups. */
#include "check.h"

#include "run/run.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

/* ---- small plans ---- */

typedef struct bench {
    tw_job        job;
    tw_shop       shop;
    tw_joint      joints[8];
    tw_joint_plan plans[8];
    tw_setup      setups[256];
    int           plan_count, setup_count;
    tw_findings   findings;
} bench;

static bench *bench_of(int plan_count)
{
    bench *b = TW_NEW(&arena, bench);
    b->job.sets.value = 1.0;
    b->plan_count = plan_count;
    b->findings.arena = &arena;
    for (int p = 0; p < plan_count; p++) {
        b->joints[p].name = tw_format(&arena, "joint %d", p + 1);
        b->plans[p].joint = &b->joints[p];
        b->plans[p].index = p;
        b->plans[p].works = TW_NEW_ARRAY(&arena, tw_work, 64);
    }
    return b;
}

static tw_work *work(bench *b, int plan, tw_way way, int stage, const char *name)
{
    tw_joint_plan *p = &b->plans[plan];
    tw_work *w = &p->works[p->work_count++];
    *w = (tw_work){ .name = name, .what = name, .way = way, .stage = stage, .count = 2, .pieces = 2, .places = "",
                    .after = TW_NEW_ARRAY(&arena, int, 64), .part = "", .down = TW_SIDE_BACK };
    return w;
}

static tw_setup *copy_work(bench *b, int plan, int stage, const char *name, int template_index, double depth_mm)
{
    work(b, plan, TW_WAY_COPY, stage, name);
    tw_setup *setup = &b->setups[b->setup_count++];
    *setup = (tw_setup){ .name = name, .plan = plan, .work = (int)b->plans[plan].work_count - 1, .template_index = template_index,
                         .cutter = template_index, .follower = 0, .depth = { .used = true, .value_mm = depth_mm }, .keeps = "" };
    return setup;
}

static void wait_for(bench *b, int plan, int after, int before)
{
    tw_work *w = &b->plans[plan].works[after];
    w->after[w->after_count++] = before;
}

static tw_run run_of(bench *b)
{
    tw_setups setups = { b->setups, b->setup_count };
    return tw_run_make(&arena, &b->job, &b->shop, b->plans, b->plan_count, NULL, &setups, &b->findings);
}

static const tw_step *step_of(const tw_run *run, int plan, int w)
{
    for (int i = 0; i < run->count; i++)
        if (run->steps[i].plan == plan && run->steps[i].work == w) return &run->steps[i];
    return NULL;
}

/* ---- counting afresh ---- */

static bool differ(double a, double b) { return fabs(a - b) > 1e-6; }

/* Changes of the copying router from one setup to the next (NULL: from nothing). */
static int setup_changes(const bench *b, const tw_setup *from, const tw_setup *to)
{
    const tw_work *at = &b->plans[to->plan].works[to->work];
    int changes = !from || b->plans[from->plan].works[from->work].down != at->down;
    changes += !from || from->template_index != to->template_index;
    changes += !from || from->template_turned != to->template_turned;
    changes += !from || from->cutter != to->cutter;
    changes += !from || from->follower != to->follower;
    changes += to->depth.used && (!from || differ(from->depth.value_mm, to->depth.value_mm));
    return changes;
}

static const tw_setup *setup_of(const bench *b, int plan, int w)
{
    for (int s = 0; s < b->setup_count; s++)
        if (b->setups[s].plan == plan && b->setups[s].work == w) return &b->setups[s];
    return NULL;
}

/* Ways of the seeded plans: the copying router, and hand work that sets nothing. */
static int count_changes(const bench *b, int (*order)[2], int count)
{
    const tw_setup *standing = NULL;
    int changes = 0;
    for (int i = 0; i < count; i++) {
        tw_way way = b->plans[order[i][0]].works[order[i][1]].way;
        if (i > 0 && way != b->plans[order[i - 1][0]].works[order[i - 1][1]].way) changes++;
        if (way != TW_WAY_COPY) continue;
        const tw_setup *setup = setup_of(b, order[i][0], order[i][1]);
        changes += setup_changes(b, standing, setup);
        standing = setup;
    }
    return changes;
}

/* ---- seeded plans ---- */

static bench *seeded(check_seed *seed, int plans, int works)
{
    bench *b = bench_of(plans);
    for (int p = 0; p < plans; p++)
        for (int w = 0; w < works; w++) {
            int stage = 10 * (1 + (int)(check_random(seed) % 3));
            if (check_random(seed) % 4 == 0) work(b, p, TW_WAY_CHISEL + (int)(check_random(seed) % 2), stage, "by hand");
            else {
                tw_setup *setup = copy_work(b, p, stage, "copied", (int)(check_random(seed) % 3), 4.0 + (double)(check_random(seed) % 2));
                setup->follower = (int)(check_random(seed) % 2);
                setup->template_turned = check_random(seed) % 2 == 0;
                b->plans[p].works[w].down = check_random(seed) % 2 ? TW_SIDE_BACK : TW_SIDE_FACE_EDGE;
            }
            for (int before = 0; before < w; before++)
                if (check_random(seed) % 5 == 0) wait_for(b, p, w, before);
        }
    return b;
}

static void every_work_stands_once_and_after_all_it_waits_for(void **state)
{
    (void)state;
    check_seed seed = { 20 };
    for (int round = 0; round < 400; round++) {
        bench *b = seeded(&seed, 1 + (int)(check_random(&seed) % 4), 1 + (int)(check_random(&seed) % 12));
        tw_run run = run_of(b);
        int works = 0;
        for (int p = 0; p < b->plan_count; p++) works += (int)b->plans[p].work_count;
        assert_int_equal(run.count, works);
        for (int i = 0; i < run.count; i++) assert_int_equal(run.steps[i].number, i + 1);
        for (int p = 0; p < b->plan_count; p++)
            for (int w = 0; w < (int)b->plans[p].work_count; w++) {
                const tw_work *at = &b->plans[p].works[w];
                assert_non_null(step_of(&run, p, w));
                for (int j = 0; j < at->after_count; j++)
                    assert_true(step_of(&run, p, w)->number > step_of(&run, p, at->after[j])->number);
            }
        tw_arena_finish(&arena);
    }
}

static void stages_follow_each_other(void **state)
{
    (void)state;
    bench *b = bench_of(2);
    work(b, 0, TW_WAY_FIT, 40, "fit");
    copy_work(b, 0, 20, "mortise", 0, 10);
    work(b, 1, TW_WAY_SAW, 10, "saw");
    copy_work(b, 1, 20, "tenon", 1, 10);
    tw_run run = run_of(b);
    assert_string_equal(run.steps[0].name, "joint 2: saw");
    assert_string_equal(run.steps[1].name, "joint 1: mortise");
    assert_string_equal(run.steps[2].name, "joint 2: tenon");
    assert_string_equal(run.steps[3].name, "joint 1: fit");
}

static void a_work_that_waits_for_a_later_stage_goes_with_that_stage(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    work(b, 0, TW_WAY_MARK, 20, "mark from the fitted piece");
    work(b, 0, TW_WAY_FIT, 40, "fit");
    work(b, 0, TW_WAY_GLUE, 50, "glue");
    wait_for(b, 0, 0, 1);
    tw_run run = run_of(b);
    assert_string_equal(run.steps[0].name, "joint 1: fit");
    assert_string_equal(run.steps[1].name, "joint 1: mark from the fitted piece");
    assert_string_equal(run.steps[2].name, "joint 1: glue");
}

static void plain_order_of(const bench *b, int (*order)[2], int *count)
{
    /* The lowest stage first, in it the first listed work that waits for nothing; stages raised by what comes before. */
    int stage[8][64];
    bool done[8][64] = { { false } };
    int total = 0;
    for (int p = 0; p < b->plan_count; p++)
        for (int w = 0; w < (int)b->plans[p].work_count; w++) {
            const tw_work *at = &b->plans[p].works[w];
            stage[p][w] = at->stage;
            for (int j = 0; j < at->after_count; j++)  // seeded works wait only for works listed before them
                if (stage[p][at->after[j]] > stage[p][w]) stage[p][w] = stage[p][at->after[j]];
            total++;
        }
    for (*count = 0; *count < total; ++*count) {
        int best_p = -1, best_w = -1;
        for (int p = 0; p < b->plan_count; p++)
            for (int w = 0; w < (int)b->plans[p].work_count; w++) {
                bool ready = !done[p][w];
                for (int j = 0; j < b->plans[p].works[w].after_count; j++) ready = ready && done[p][b->plans[p].works[w].after[j]];
                if (ready && (best_p < 0 || stage[p][w] < stage[best_p][best_w])) best_p = p, best_w = w;
            }
        order[*count][0] = best_p, order[*count][1] = best_w;
        done[best_p][best_w] = true;
    }
}

static void run_never_changes_more_than_the_works_as_listed(void **state)
{
    (void)state;
    check_seed seed = { 77 };
    int better = 0;
    for (int round = 0; round < 600; round++) {
        bench *b = seeded(&seed, 1 + (int)(check_random(&seed) % 5), 1 + (int)(check_random(&seed) % 10));
        int plain[512][2], found[512][2], count;
        plain_order_of(b, plain, &count);
        tw_run run = run_of(b);
        assert_int_equal(run.count, count);
        for (int i = 0; i < count; i++) found[i][0] = run.steps[i].plan, found[i][1] = run.steps[i].work;
        assert_int_equal(run.plain_changes, count_changes(b, plain, count));
        assert_int_equal(run.changes, count_changes(b, found, count));
        assert_true(run.changes <= run.plain_changes);
        better += run.changes < run.plain_changes;
        tw_arena_finish(&arena);
    }
    assert_true(better > 300);  // and it is worth having
}

/* ---- every order there is ---- */

typedef struct search { const bench *b; int stage[64]; bool done[64]; int order[64][2]; int count, fewest; } search;

static void try_all(search *s, int depth)
{
    const tw_joint_plan *plan = &s->b->plans[0];
    if (depth == s->count) {
        int changes = count_changes(s->b, s->order, s->count);
        if (changes < s->fewest) s->fewest = changes;
        return;
    }
    int lowest = 1000;
    for (int w = 0; w < s->count; w++)
        if (!s->done[w] && s->stage[w] < lowest) lowest = s->stage[w];
    for (int w = 0; w < s->count; w++) {
        bool ready = !s->done[w] && s->stage[w] == lowest;
        for (int j = 0; j < plan->works[w].after_count; j++) ready = ready && s->done[plan->works[w].after[j]];
        if (!ready) continue;
        s->done[w] = true;
        s->order[depth][0] = 0, s->order[depth][1] = w;
        try_all(s, depth + 1);
        s->done[w] = false;
    }
}

static void run_of_a_small_plan_is_near_the_best_of_all_orders(void **state)
{
    (void)state;
    check_seed seed = { 4 };
    int best = 0, got = 0, rounds = 150;
    for (int round = 0; round < rounds; round++) {
        bench *b = seeded(&seed, 1, 7);
        search s = { .b = b, .count = 7, .fewest = 1000 };
        for (int w = 0; w < 7; w++) {
            s.stage[w] = b->plans[0].works[w].stage;
            for (int j = 0; j < b->plans[0].works[w].after_count; j++)
                if (s.stage[b->plans[0].works[w].after[j]] > s.stage[w]) s.stage[w] = s.stage[b->plans[0].works[w].after[j]];
        }
        try_all(&s, 0);
        tw_run run = run_of(b);
        assert_true(run.changes >= s.fewest);
        assert_true(run.changes <= run.plain_changes);
        best += s.fewest, got += run.changes;
        tw_arena_finish(&arena);
    }
    assert_true(got <= best + best / 10);  // simple, and within a tenth of the best over all rounds
}

/* ---- grouping and words ---- */

static void like_setups_stand_together(void **state)
{
    (void)state;
    bench *b = bench_of(4);
    for (int p = 0; p < 4; p++) copy_work(b, p, 20, "cut", p % 2, 6.0);
    tw_run run = run_of(b);
    int plans[4] = { 0, 2, 1, 3 };
    for (int i = 0; i < 4; i++) assert_int_equal(run.steps[i].plan, plans[i]);
    assert_string_equal(run.steps[1].change, "");
    assert_string_equal(run.steps[2].change, "template, cutter");
    assert_string_equal(run.steps[3].change, "");
    assert_string_equal(run.steps[1].keeps, "follower, depth");
    assert_string_equal(b->setups[2].keeps, run.steps[1].keeps);  // the card of joint 3 says the same
    assert_string_equal(run.steps[3].keeps, "");
}

static void a_change_of_shift_to_the_other_side_is_a_change(void **state)
{
    (void)state;
    bench *b = bench_of(2);
    for (int p = 0; p < 2; p++)
        copy_work(b, p, 20, "cut", 0, 6.0)->shift = (tw_setting){ .used = true, .value_mm = 12.0, .direction_x = p ? 1 : -1 };
    assert_string_equal(run_of(b).steps[1].change, "shift");
}

static void turning_the_template_over_is_said_when_the_template_stays(void **state)
{
    (void)state;
    bench *b = bench_of(2);
    copy_work(b, 0, 20, "cut", 0, 6.0);
    copy_work(b, 1, 20, "cut", 0, 6.0)->template_turned = true;
    assert_string_equal(run_of(b).steps[1].change, "template's side out");
}

static void router_stays_set_while_the_maker_is_at_the_bench(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    copy_work(b, 0, 20, "first cheek", 0, 6.0);
    work(b, 0, TW_WAY_CHISEL, 20, "square the corners");
    copy_work(b, 0, 20, "second cheek", 0, 7.0);
    wait_for(b, 0, 1, 0);
    wait_for(b, 0, 2, 1);
    tw_run run = run_of(b);
    assert_string_equal(run.steps[0].change, "copying router: template, cutter, follower, depth, side that lies down");
    assert_string_equal(run.steps[0].keeps, "template, cutter, follower (for card 3)");
    assert_string_equal(run.steps[1].change, "chisels");
    assert_string_equal(run.steps[2].change, "back to the copying router: depth");
    assert_int_equal(run.changes, 6 + 1 + 2);  // template, its side, cutter, follower, depth, side down; a walk; a walk and the depth
}

static void what_can_be_done_at_one_bench_is_done_before_walking_on(void **state)
{
    (void)state;
    bench *b = bench_of(3);
    work(b, 0, TW_WAY_CHISEL, 20, "square the corners");
    work(b, 1, TW_WAY_MARK, 20, "strike the lines");
    work(b, 2, TW_WAY_CHISEL, 20, "square the corners");
    tw_run run = run_of(b);
    assert_int_equal(run.steps[1].plan, 2);
    assert_int_equal(run.changes, 1);
    assert_int_equal(run.plain_changes, 2);
}

static void fence_is_set_anew_only_for_another_dimension(void **state)
{
    (void)state;
    bench *b = bench_of(3);
    for (int p = 0; p < 3; p++) work(b, p, TW_WAY_BANDSAW, 30, "saw the ramp")->measure_mm = p == 1 ? 80.0 : 90.0;
    tw_run run = run_of(b);
    assert_int_equal(run.steps[1].plan, 2);
    assert_string_equal(run.steps[1].change, "");
    assert_string_equal(run.steps[2].change, "fence and stops");
}

static void tally_shares_the_cuts_among_the_places(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    copy_work(b, 0, 20, "housings", 0, 3.0);
    tw_work *w = &b->plans[0].works[0];
    w->count = 4, w->pieces = 2, w->places = "right end, face; left end, back";
    tw_run run = run_of(b);
    assert_string_equal(run.steps[0].tally, "4 cuts: right end, face (2); left end, back (2)");
    assert_int_equal(run.steps[0].boxes, 2);
    w->count = 5;
    assert_string_equal(run_of(b).steps[0].tally, "5 cuts: right end, face; left end, back");  // no even share: none is claimed
    w->count = 6, w->places = "right end, face (4); left end, back (2)";
    assert_string_equal(run_of(b).steps[0].tally, "6 cuts: right end, face (4); left end, back (2)");  // the joint knows better
    w->count = 1, w->places = "left end";
    assert_string_equal(run_of(b).steps[0].tally, "1 cut: left end");
}

static void job_begins_with_stock_and_ends_with_the_tusks_tied(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    copy_work(b, 0, 20, "housings", 0, 3.0);
    tw_piece pieces[2] = { { .name = "post", .count = { .value = 4 } }, { .name = "stretcher", .count = { .value = 2 } } };
    tw_part part = { .name = "tusk of joint 1", .count = 8 };
    b->job.pieces = pieces, b->job.piece_count = 2, b->job.sets.value = 3.0;
    b->plans[0].parts = &part, b->plans[0].part_count = 1;
    tw_run run = run_of(b);
    assert_int_equal(run.count, 4 + 1 + 3);
    assert_int_equal(run.steps[0].boxes, 18);
    assert_int_equal(run.steps[0].plan, -1);
    assert_string_equal(run.steps[2].name, "Mark face and edge");
    assert_string_equal(run.steps[2].tally, "18 pieces");
    assert_int_equal(run.steps[4].plan, 0);
    assert_string_equal(run.steps[6].name, "Wax the tusks");
    assert_string_equal(run.steps[7].tally, "8 tusks");
    assert_int_equal(run.steps[7].number, 8);
}

static void no_tusks_are_waxed_where_there_are_none(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    work(b, 0, TW_WAY_GLUE, 40, "glue");
    work(b, 0, TW_WAY_FINISH, 50, "oil");
    tw_piece post = { .name = "post", .count = { .value = 1 } };
    b->job.pieces = &post, b->job.piece_count = 1;
    tw_run run = run_of(b);
    assert_int_equal(run.count, 4 + 2);
    for (int i = 0; i < run.count; i++) {
        assert_null(strstr(run.steps[i].name, "tusk"));
        assert_string_not_equal(run.steps[i].name, "Finish");  // the joint has its own finishing
    }
    assert_string_equal(run.steps[0].tally, "1 piece");
}

static void empty_job_has_an_empty_run(void **state)
{
    (void)state;
    bench *b = bench_of(0);
    tw_run run = run_of(b);
    assert_int_equal(run.count, 0);
    assert_int_equal(run.changes, 0);
}

static void copied_work_without_a_setup_still_has_its_step(void **state)
{
    (void)state;
    bench *b = bench_of(1);
    work(b, 0, TW_WAY_COPY, 20, "cut that no template makes");
    tw_run run = tw_run_make(&arena, &b->job, &b->shop, b->plans, 1, NULL, NULL, &b->findings);
    assert_int_equal(run.count, 1);
    assert_int_equal(run.steps[0].setup, -1);
}

static void same_plans_give_the_same_run(void **state)
{
    (void)state;
    check_seed seed = { 9 }, again = { 9 };
    bench *a = seeded(&seed, 4, 12), *b = seeded(&again, 4, 12);
    tw_run one = run_of(a), two = run_of(b);
    for (int i = 0; i < one.count; i++) {
        assert_int_equal(one.steps[i].plan * 100 + one.steps[i].work, two.steps[i].plan * 100 + two.steps[i].work);
        assert_string_equal(one.steps[i].change, two.steps[i].change);
        assert_string_equal(one.steps[i].keeps, two.steps[i].keeps);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(every_work_stands_once_and_after_all_it_waits_for, finish),
        cmocka_unit_test_teardown(stages_follow_each_other, finish),
        cmocka_unit_test_teardown(a_work_that_waits_for_a_later_stage_goes_with_that_stage, finish),
        cmocka_unit_test_teardown(run_never_changes_more_than_the_works_as_listed, finish),
        cmocka_unit_test_teardown(run_of_a_small_plan_is_near_the_best_of_all_orders, finish),
        cmocka_unit_test_teardown(like_setups_stand_together, finish),
        cmocka_unit_test_teardown(a_change_of_shift_to_the_other_side_is_a_change, finish),
        cmocka_unit_test_teardown(turning_the_template_over_is_said_when_the_template_stays, finish),
        cmocka_unit_test_teardown(router_stays_set_while_the_maker_is_at_the_bench, finish),
        cmocka_unit_test_teardown(what_can_be_done_at_one_bench_is_done_before_walking_on, finish),
        cmocka_unit_test_teardown(fence_is_set_anew_only_for_another_dimension, finish),
        cmocka_unit_test_teardown(tally_shares_the_cuts_among_the_places, finish),
        cmocka_unit_test_teardown(job_begins_with_stock_and_ends_with_the_tusks_tied, finish),
        cmocka_unit_test_teardown(no_tusks_are_waxed_where_there_are_none, finish),
        cmocka_unit_test_teardown(empty_job_has_an_empty_run, finish),
        cmocka_unit_test_teardown(copied_work_without_a_setup_still_has_its_step, finish),
        cmocka_unit_test_teardown(same_plans_give_the_same_run, finish),
    };
    return cmocka_run_group_tests_name("run", tests, NULL, NULL);
}
