// SPDX-License-Identifier: GPL-3.0-or-later
/* Figures: their ids, sums and places in the text; what is measured; what moved between two results; path texts. */
#include "check.h"

#include "planned.h"
#include "begin/words_json.h"
#include "job/path.h"
#include "sheet/desk_json.h"
#include "sheet/figures.h"
#include "whole.h"

#define PIECES \
    "pieces:\n" \
    "  post: {count: 2, length: 600, width: 60, thickness: 38, timber: \"Oak, white\"}\n" \
    "  rail: {count: 1, length: 500, width: 3 * stock, thickness: stock, timber: \"Ash, white\"}\n"
#define JOINT \
    "joints:\n" \
    "  rail to post:\n" \
    "    kind: mortise and tenon\n" \
    "    tenon: rail\n" \
    "    ends: both\n    into: post\n    from: face\n" \
    "    at: [200, post.length - 150]\n" \
    "    clearance: 0.2\n"
#define JOB "job: rack\nunits: mm\namounts:\n  stock: 20 mm\n  slope: 1:12\n  share: 0.4\n" PIECES JOINT

typedef struct listed { tw_result *result; tw_arena arena; tw_paper_input in; tw_values values; } listed;

static listed *list_as(const char *job, const char *figures, const tw_measured *measured, size_t count)
{
    listed *l = calloc(1, sizeof *l);
    l->result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = SHOP_MM,
        .shop_bytes = strlen(SHOP_MM),
                                          .shop_name = "shop.yaml", .figures = figures, .measured = measured,
                                          .measured_count = count });
    if (!l->result->job) fail_msg("not read: %s", l->result->findings.items[0].what);
    l->in = tw_result_input(l->result);
    l->in.woods = tw_piece_woods_make(&l->arena, l->in.job, l->in.plans, l->in.plan_count);
    l->values = tw_figure_list(&l->arena, &l->in);
    return l;
}

static listed *list(const char *job) { return list_as(job, NULL, NULL, 0); }

static void drop(listed *l)
{
    tw_arena_finish(&l->arena);
    tw_result_free(l->result);
    free(l);
}

static const tw_value *find_value(const listed *l, const char *id)
{
    for (size_t i = 0; i < l->values.count; i++)
        if (strcmp(l->values.items[i].id, id) == 0) return &l->values.items[i];
    return NULL;
}

static const tw_value *value(const listed *l, const char *id)
{
    const tw_value *found = find_value(l, id);
    if (!found) fail_msg("no figure %s", id);
    return found;
}

/* ---- path texts ---- */

static void words_with_strokes_and_tildes_come_back_as_they_were(void **state)
{
    (void)state;
    tw_arena arena = { 0 };
    const char *words[] = { "cutters", "1/2 ~ spiral", "measured" };
    const char *text = tw_path_text(&arena, words, 3);
    assert_string_equal(text, "cutters/1~12 ~0 spiral/measured");
    size_t count;
    const char *const *back = tw_path_split(&arena, text, &count);
    assert_int_equal(count, 3);
    for (int i = 0; i < 3; i++) assert_string_equal(back[i], words[i]);
    assert_string_equal(tw_path_join(&arena, "cutters", "1/2"), "cutters/1~12");
    tw_arena_finish(&arena);
}

/* RFC 6901, section 5: "~01" is "~1", not "/". */
static void an_escaped_tilde_before_a_one_is_no_stroke(void **state)
{
    (void)state;
    tw_arena arena = { 0 };
    size_t count;
    assert_string_equal(tw_path_split(&arena, "m~01n", &count)[0], "m~1n");
    tw_arena_finish(&arena);
}

static void texts_that_are_no_paths_are_refused(void **state)
{
    (void)state;
    static const char *const none[] = { "", "/", "a/", "/a", "a//b", "a~", "a~2", "~", "a/b~/c",
        "1/2/3/4/5/6/7/8/9/10/11/12/13/14/15/16/17" };
    tw_arena arena = { 0 };
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        size_t count = 7;
        assert_null(tw_path_split(&arena, none[i], &count));
        assert_int_equal(count, 0);
    }
    size_t count;
    assert_non_null(tw_path_split(&arena, "1/2/3/4/5/6/7/8/9/10/11/12/13/14/15/16", &count));
    assert_int_equal(count, TW_PATH_MOST);
    tw_arena_finish(&arena);
}

/* ---- what the job gives ---- */

static void a_number_is_given_in_the_job(void **state)
{
    (void)state;
    listed *l = list(JOB);
    const tw_value *v = value(l, "pieces/post/width");
    assert_string_equal(v->path, "pieces/post/width");
    assert_string_equal(v->text, "60.0 mm");
    assert_string_equal(v->bare, "60.0");
    assert_string_equal(v->unit, "mm");
    assert_string_equal(v->written, "60");
    assert_string_equal(v->sum, "given in the job");
    assert_string_equal(v->where, "piece `post`");
    assert_true(v->given);
    CHECK_NEAR(v->value, 60.0, 0.0);
    drop(l);
}

static void a_sum_is_told_with_what_its_names_stand_for(void **state)
{
    (void)state;
    listed *l = list(JOB);
    assert_string_equal(value(l, "pieces/rail/width")->sum, "3 * stock, where stock = 20.0 mm");
    assert_string_equal(value(l, "pieces/rail/width")->written, "3 * stock");
    assert_string_equal(value(l, "joints/rail to post/at/2")->sum, "post.length - 150, where post.length = 600.0 mm");
    CHECK_NEAR(value(l, "joints/rail to post/at/2")->value, 450.0, 1e-9);
    drop(l);
}

static void named_amounts_are_what_they_come_to(void **state)
{
    (void)state;
    listed *l = list(JOB);
    assert_string_equal(value(l, "amounts/stock")->text, "20.0 mm");
    assert_string_equal(value(l, "amounts/slope")->shows, "angle");
    assert_string_equal(value(l, "amounts/slope")->written, "1:12");
    CHECK_NEAR(tw_degrees(value(l, "amounts/slope")->value), 4.7636416907, 1e-9);  // atan(1/12), bc
    assert_string_equal(value(l, "amounts/share")->text, "0.4");
    assert_string_equal(value(l, "amounts/share")->unit, "");
    drop(l);
}

static void what_the_job_does_not_say_has_a_path_to_say_it_and_nothing_written(void **state)
{
    (void)state;
    listed *l = list(JOB);
    const tw_value *v = value(l, "joints/rail to post/tenon_thickness");
    assert_string_equal(v->path, "joints/rail to post/tenon thickness");
    assert_string_equal(v->written, "");
    assert_false(v->given);
    assert_true(v->sum[0] && v->rule[0]);
    assert_string_equal(value(l, "joints/rail to post/clearance")->written, "0.2");
    assert_true(value(l, "joints/rail to post/clearance")->given);
    drop(l);
}

static void a_reckoned_figure_has_no_path(void **state)
{
    (void)state;
    listed *l = list(JOB);
    assert_string_equal(value(l, "joints/rail to post/mortise_depth")->path, "");
    assert_string_equal(value(l, "pieces/post/facts/volume")->path, "");
    assert_true(value(l, "joints/rail to post/mortise_depth")->sum[0]);
    drop(l);
}

static void a_choice_offers_its_words_and_a_piece_the_names_of_all(void **state)
{
    (void)state;
    listed *l = list(JOB);
    const tw_value *ends = value(l, "joints/rail to post/ends"), *into = value(l, "joints/rail to post/into");
    assert_string_equal(ends->text, "both");
    assert_string_equal(ends->choices[0], "left");
    assert_string_equal(into->choices[0], "post");
    assert_string_equal(into->choices[1], "rail");
    assert_null(into->choices[2]);
    assert_null(value(l, "pieces/post/width")->choices);
    drop(l);
}

/* `tenons` is a key (single, twin, double) and a figure (how many). */
static void a_key_and_a_figure_of_one_word_are_two(void **state)
{
    (void)state;
    listed *l = list(JOB);
    assert_string_equal(value(l, "joints/rail to post/tenons")->shows, "count");
    assert_string_equal(value(l, "joints/rail to post/key/tenons")->path, "joints/rail to post/tenons");
    drop(l);
}

/* ---- measured ---- */

static void a_measured_value_keeps_what_is_written_and_says_so(void **state)
{
    (void)state;
    const tw_measured measured = { TW_FILE_JOB, (const char *const[]){ "pieces", "rail", "thickness" }, 3, 19.4 };
    listed *l = list_as(JOB, NULL, &measured, 1);
    const tw_value *v = value(l, "pieces/rail/thickness");
    assert_string_equal(v->text, "19.4 mm");
    assert_string_equal(v->written, "stock");
    assert_string_equal(v->sum, "measured: as built, in place of stock");
    drop(l);
}

static void what_a_measurement_moved_is_listed_and_what_it_did_not_move_is_not(void **state)
{
    (void)state;
    const tw_measured measured = { TW_FILE_JOB, (const char *const[]){ "pieces", "rail", "thickness" }, 3, 19.4 };
    listed *drawn = list(JOB), *built = list_as(JOB, NULL, &measured, 1);
    tw_moves moves = tw_figures_compare(&built->arena, &drawn->values, &built->values);
    bool thickness = false;
    for (size_t i = 0; i < moves.count; i++) {
        const tw_moved *m = &moves.items[i];
        assert_true(strcmp(m->before, m->after) != 0);
        assert_true(strncmp(m->id, "pieces/post/", 12) != 0 || strstr(m->id, "facts"));
        if (strcmp(m->id, "pieces/rail/thickness") == 0) {
            thickness = true;
            assert_string_equal(m->before, "20.0 mm");
            assert_string_equal(m->after, "19.4 mm");
            assert_string_equal(m->where, "piece `rail`");
        }
    }
    assert_true(thickness && moves.count > 5);
    drop(drawn);
    drop(built);
}

static void a_move_that_the_figures_would_hide_is_written_finer(void **state)
{
    (void)state;
    const tw_measured measured = { TW_FILE_JOB, (const char *const[]){ "pieces", "rail", "thickness" }, 3, 20.004 };
    listed *drawn = list(JOB), *built = list_as(JOB, NULL, &measured, 1);
    tw_moves moves = tw_figures_compare(&built->arena, &drawn->values, &built->values);
    for (size_t i = 0; i < moves.count; i++) {
        assert_true(strcmp(moves.items[i].before, moves.items[i].after) != 0);
        if (strcmp(moves.items[i].id, "pieces/rail/thickness") != 0) continue;
        assert_string_equal(moves.items[i].before, "20.000 mm");
        assert_string_equal(moves.items[i].after, "20.004 mm");
        drop(drawn);
        drop(built);
        return;
    }
    fail_msg("the thickness did not move");
}

static void nothing_moves_between_a_job_and_itself(void **state)
{
    (void)state;
    listed *one = list(JOB), *two = list(JOB);
    assert_int_equal(tw_figures_compare(&one->arena, &one->values, &two->values).count, 0);
    drop(one);
    drop(two);
}

static void figures_that_come_and_go_have_one_empty_side(void **state)
{
    (void)state;
    listed *joined = list(JOB);
    listed *bare = list("job: rack\nunits: mm\namounts:\n  stock: 20 mm\n  slope: 1:12\n  share: 0.4\n" PIECES);
    tw_moves come = tw_figures_compare(&bare->arena, &bare->values, &joined->values), gone = tw_figures_compare(&bare->arena,
        &joined->values, &bare->values);
    int count = 0;
    for (size_t i = 0; i < come.count; i++)
        if (strncmp(come.items[i].id, "joints/", 7) == 0) { count++; assert_string_equal(come.items[i].before, ""); }
    for (size_t i = 0; i < gone.count; i++)
        if (strncmp(gone.items[i].id, "joints/", 7) == 0) { count--; assert_string_equal(gone.items[i].after, ""); }
    assert_int_equal(count, 0);
    assert_int_equal(come.count, gone.count);
    drop(bare);
    drop(joined);
}

static void results_are_compared_through_the_header_also_when_one_cannot_be_read(void **state)
{
    (void)state;
    const char *wrong = "job: rack\npieces:\n  post: {length: }\n";
    listed *l = list(JOB);
    tw_result *none = tw_set_out(&(tw_request){ .job = wrong, .job_bytes = strlen(wrong), .job_name = "job.yaml",
        .shop = SHOP_MM, .shop_bytes = strlen(SHOP_MM), .shop_name = "shop.yaml" });
    assert_int_equal(tw_result_state(none), TW_STATE_WRONG);
    tw_compared *same = tw_results_compare(l->result, l->result), *all = tw_results_compare(none,
        l->result), *gone = tw_results_compare(l->result, none);
    size_t count = l->values.count;
    tw_result_free(none);
    drop(l);
    assert_int_equal(tw_compared_count(same), 0);
    assert_true(tw_compared_count(all) > 20 && tw_compared_count(all) <= count);
    for (size_t i = 0; i < tw_compared_count(all); i++) assert_string_equal(tw_compared_at(all, i).before, "");
    for (size_t i = 0; i < tw_compared_count(gone); i++) assert_string_equal(tw_compared_at(gone, i).after, "");
    tw_compared_free(same);
    tw_compared_free(all);
    tw_compared_free(gone);
    tw_compared_free(NULL);
}

/* ---- units ---- */

/* 20 mm is 0.787 in, and 50/64 in is 0.78125: 0.004 in more, more than the 0.02 mm from which heavy is said. */
static void lengths_are_shown_otherwise_and_stay_the_same(void **state)
{
    (void)state;
    listed *mm = list(JOB), *inch = list_as(JOB, "in 0.001", NULL, 0), *parts = list_as(JOB, "in 1/64", NULL, 0);
    assert_int_equal(mm->values.count, inch->values.count);
    for (size_t i = 0; i < mm->values.count; i++) {
        assert_string_equal(mm->values.items[i].id, inch->values.items[i].id);
        CHECK_NEAR(mm->values.items[i].value, inch->values.items[i].value, 1e-9);
        CHECK_NEAR(mm->values.items[i].value, parts->values.items[i].value, 1e-9);
    }
    assert_string_equal(value(inch, "pieces/rail/thickness")->text, "0.787 in");
    assert_string_equal(value(parts, "pieces/rail/thickness")->text, "25/32 in heavy");
    assert_string_equal(value(parts, "pieces/rail/thickness")->bare, "25/32 heavy");
    assert_string_equal(value(parts, "joints/rail to post/clearance")->text, "0.008 in");  // finer than a sixty-fourth
    drop(mm);
    drop(inch);
    drop(parts);
}

static void figures_that_cannot_be_written_are_refused(void **state)
{
    (void)state;
    static const char *const none[] = { "", "mm", "in 1/63", "mm 0.1 ", "cm 0.1" };
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        tw_result *result = tw_set_out(&(tw_request){ .job = JOB, .job_bytes = strlen(JOB), .job_name = "job.yaml",
            .shop = SHOP_MM, .shop_bytes = strlen(SHOP_MM),
                                                      .shop_name = "shop.yaml", .figures = none[i] });
        assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
        assert_string_equal(tw_result_finding_at(result, 0).code, "figures");
        CHECK_HOLDS(tw_result_finding_at(result, 0).remedy, "in 1/64");
        tw_result_free(result);
    }
}

/* ---- facts, templates, steps ---- */

/* 600 x 60 x 38 = 1.368 dm3. Of white oak 1000 G (1 + 12/100) = 761.6 kg/m3, G 0.68 (Wood Handbook, table 5-3a). */
static void the_weight_is_density_times_volume(void **state)
{
    (void)state;
    listed *l = list("job: rack\nunits: mm\namounts:\n  stock: 20 mm\n" PIECES);
    CHECK_NEAR(value(l, "pieces/post/facts/volume")->value, 1368000.0, 1.0);
    CHECK_NEAR(value(l, "pieces/post/facts/mass")->value, 1.368 * 0.7616, 1e-6);
    assert_string_equal(value(l, "pieces/post/facts/mass")->sum, "density x volume = 762 kg/m³ x 1.368 dm³");
    assert_string_equal(value(l, "pieces/post/facts/rough_length")->sum, "finished + allowance = 600.0 mm + 25.0 mm");
    assert_null(find_value(l, "pieces/post/facts/shortest_run"));  // no cut parts a fibre
    drop(l);
}

static void a_timber_that_is_not_known_has_no_weight(void **state)
{
    (void)state;
    listed *l = list("job: rack\nunits: mm\npieces:\n  post: {length: 600, width: 60, thickness: 38, timber: moon wood}\n");
    assert_null(find_value(l, "pieces/post/facts/mass"));
    assert_non_null(find_value(l, "pieces/post/facts/volume"));
    drop(l);
}

/* r(w - d) + b with the mortise's own sizes, as many as the template has. */
static void a_template_has_the_copying_formula_with_its_values(void **state)
{
    (void)state;
    listed *l = list(JOB);
    const tw_template *t = &l->in.templates->items[0];
    const char *at = tw_format(&l->arena, "templates/%s", tw_template_key(&l->arena, &l->in, 0));
    const tw_value *up = value(l, tw_format(&l->arena, "%s/up", at)), *cut = value(l, tw_format(&l->arena, "%s/cut_up", at));
    CHECK_NEAR(up->value, t->ask.ratio * (cut->value - t->ask.cutter_mm) + t->ask.follower_mm + t->copy.play_mm, 1e-3);
    CHECK_HOLDS(up->sum, "r(w - d) + b = 2 x (");
    assert_string_equal(value(l, tw_format(&l->arena, "%s/cutter_diameter", at))->sum, "as sold: it has not been measured");
    drop(l);
}

static void a_step_is_found_by_its_key_and_no_other_is(void **state)
{
    (void)state;
    listed *l = list(JOB);
    assert_true(l->in.run->count > 4);
    for (int i = 0; i < l->in.run->count; i++) assert_int_equal(tw_step_of_key(&l->arena, &l->in,
        tw_step_key(&l->arena, &l->in, i)), i);
    assert_int_equal(tw_step_of_key(&l->arena, &l->in, "rail to post/no such work"), -1);
    assert_int_equal(tw_step_of_key(&l->arena, &l->in, ""), -1);
    drop(l);
}

static void a_step_keeps_its_key_when_sizes_change(void **state)
{
    (void)state;
    listed *one = list(JOB);
    listed *two = list("job: rack\nunits: mm\namounts:\n  stock: 23 mm\n" PIECES JOINT);
    assert_int_equal(one->in.run->count, two->in.run->count);
    for (int i = 0; i < one->in.run->count; i++) assert_true(tw_step_of_key(&two->arena, &two->in,
        tw_step_key(&one->arena, &one->in, i)) >= 0);
    drop(one);
    drop(two);
}

static void what_is_set_has_its_sum(void **state)
{
    (void)state;
    listed *l = list(JOB);
    const char *const keys[] = { "depth", "table", "stop", "stick_out", "speed" };
    int setups = 0;
    for (int i = 0; i < l->in.run->count; i++) {
        if (l->in.run->steps[i].setup < 0) continue;
        setups++;
        const tw_setup *setup = &l->in.setups->items[l->in.run->steps[i].setup];
        for (size_t k = 0; k < sizeof keys / sizeof *keys; k++) {
            const tw_value *v = find_value(l, tw_format(&l->arena, "steps/%s/%s", tw_step_key(&l->arena, &l->in, i), keys[k]));
            if (v) assert_true(v->sum[0] != 0);
        }
        CHECK_NEAR(value(l, tw_format(&l->arena, "steps/%s/depth", tw_step_key(&l->arena, &l->in, i)))->value,
            setup->depth.value_mm, 0.0);
    }
    assert_true(setups > 0);
    drop(l);
}

/* ---- JSON ---- */

static bool takes_nothing(void *context, const char *bytes,
    size_t count) { (void)context; (void)bytes; (void)count; return false; }

static void the_json_fails_as_its_sink_fails(void **state)
{
    (void)state;
    listed *l = list(JOB);
    assert_false(tw_result_put(l->result, TW_OUTPUT_DESK_JSON, takes_nothing, NULL));
    tw_sink sink = { .write = takes_nothing };
    tw_words_json_put(&sink);
    assert_true(sink.failed);
    drop(l);
}

static const char *json_of(listed *l)
{
    tw_gather all = { .arena = &l->arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_desk_json_put(&l->values, &l->result->measures, true, &sink);
    return tw_gathered(&all).bytes;
}

static void the_json_tells_what_was_measured_and_what_can_be(void **state)
{
    (void)state;
    const tw_measured measured[] = { { TW_FILE_JOB, (const char *const[]){ "pieces", "rail", "thickness" }, 3, 19.4 },
                                     { TW_FILE_SHOP, (const char *const[]){ "cutters", "eight", "measured" }, 3, 7.96 } };
    listed *l = list_as(JOB, NULL, measured, 2);
    const char *json = json_of(l);
    CHECK_HOLDS(json, "{\"key\":\"pieces/rail/thickness\",\"file\":\"job\",\"label\":\"thickness of rail\","
                      "\"drawn\":\"20.00 mm\",\"built\":\"19.40 mm\"}");
    CHECK_HOLDS(json, "{\"key\":\"cutters/eight/measured\",\"file\":\"shop\",\"label\":\"diameter of cutter eight\","
                      "\"drawn\":\"8.00 mm\",\"built\":\"7.96 mm\"}");
    CHECK_HOLDS(json, "\"ledger\":[{\"key\":\"cutters/");
    CHECK_HOLDS(json, "{\"key\":\"pieces/post/thickness\",\"file\":\"job\",\"label\":\"thickness of post\","
                      "\"now\":\"38.00 mm\"}");
    drop(l);
}

static void a_job_without_joints_has_json_too(void **state)
{
    (void)state;
    listed *l = list("job: board\npieces:\n  board: {length: 600, width: 60, thickness: 38}\n");
    const char *json = json_of(l);
    CHECK_HOLDS(json, "\"joints\":[]");
    CHECK_HOLDS(json, "\"templates\":[]");
    CHECK_HOLDS(json, "\"amounts\":[]");
    drop(l);
}

static void the_words_of_forms_are_those_of_the_reader(void **state)
{
    (void)state;
    tw_arena arena = { 0 };
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_words_json_put(&sink);
    const char *json = tw_gathered(&all).bytes;
    for (int i = 0; i < tw_joint_kind_count; i++) {
        const tw_joint_format *format = &tw_joint_kinds[i]->format;
        CHECK_HOLDS(json, tw_format(&arena, "{\"kind\":\"%s\",\"meaning\":", format->kind));
        for (int k = 0; k < format->key_count; k++) CHECK_HOLDS(json, tw_format(&arena, "{\"key\":\"%s\",\"kind\":\"%s\"",
            format->keys[k].name, tw_key_shows(format->keys[k].kind)));
    }
    CHECK_HOLDS(json, "\"kind\":\"trestle table\"");
    CHECK_HOLDS(json, "\"Oak, white\"");
    CHECK_HOLDS(json, "\"units\":[\"mm\",\"cm\",\"m\",\"in\",\"ft\"]");
    tw_arena_finish(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_with_strokes_and_tildes_come_back_as_they_were),
        cmocka_unit_test(an_escaped_tilde_before_a_one_is_no_stroke),
        cmocka_unit_test(texts_that_are_no_paths_are_refused),
        cmocka_unit_test(a_number_is_given_in_the_job),
        cmocka_unit_test(a_sum_is_told_with_what_its_names_stand_for),
        cmocka_unit_test(named_amounts_are_what_they_come_to),
        cmocka_unit_test(what_the_job_does_not_say_has_a_path_to_say_it_and_nothing_written),
        cmocka_unit_test(a_reckoned_figure_has_no_path),
        cmocka_unit_test(a_choice_offers_its_words_and_a_piece_the_names_of_all),
        cmocka_unit_test(a_key_and_a_figure_of_one_word_are_two),
        cmocka_unit_test(a_measured_value_keeps_what_is_written_and_says_so),
        cmocka_unit_test(what_a_measurement_moved_is_listed_and_what_it_did_not_move_is_not),
        cmocka_unit_test(a_move_that_the_figures_would_hide_is_written_finer),
        cmocka_unit_test(nothing_moves_between_a_job_and_itself),
        cmocka_unit_test(figures_that_come_and_go_have_one_empty_side),
        cmocka_unit_test(results_are_compared_through_the_header_also_when_one_cannot_be_read),
        cmocka_unit_test(lengths_are_shown_otherwise_and_stay_the_same),
        cmocka_unit_test(figures_that_cannot_be_written_are_refused),
        cmocka_unit_test(the_weight_is_density_times_volume),
        cmocka_unit_test(a_timber_that_is_not_known_has_no_weight),
        cmocka_unit_test(a_template_has_the_copying_formula_with_its_values),
        cmocka_unit_test(a_step_is_found_by_its_key_and_no_other_is),
        cmocka_unit_test(a_step_keeps_its_key_when_sizes_change),
        cmocka_unit_test(what_is_set_has_its_sum),
        cmocka_unit_test(the_json_fails_as_its_sink_fails),
        cmocka_unit_test(the_json_tells_what_was_measured_and_what_can_be),
        cmocka_unit_test(a_job_without_joints_has_json_too),
        cmocka_unit_test(the_words_of_forms_are_those_of_the_reader),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
