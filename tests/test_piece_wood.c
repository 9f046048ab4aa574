// SPDX-License-Identifier: GPL-3.0-or-later
/* Weights of pieces by hand, and what the papers and job.json say of the wood. */
#include "check.h"

#include "whole.h"

static tw_result *result;
static int finish(void **state) { (void)state; tw_result_free(result); return 0; }

static const char SHOP[] = "shop: test\nunits: mm\nmachine:\n  ratio: 2\n  turns over: yes\n  travel across: 150\n  travel up: 90\n  travel in: 70\n"
    "  holder across: 360\n  holder up: 220\n  table lowest: 110\n  table highest: 5\n  nut radius: 22\n  clamp zone: 40\n"
    "  smallest piece: 120\n  top speed: 24000\n  low speed: 10000\ncutters:\n  long twelve: {diameter: 12.7, cutting length: 63, shank: 12.7, plunges: yes}\n"
    "  five: {diameter: 5, cutting length: 30, shank: 6, plunges: yes}\nfollowers:\n  sixteen: {diameter: 16, length: 12}\n  nineteen: {diameter: 19.05, length: 12}\n"
    "  bush: {diameter: 25.4, length: 12}\nspacers:\n  a: {size: 10, count: 2}\n";

static void set_out(const char *job)
{
    tw_result_free(result);
    result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = SHOP, .shop_bytes = sizeof SHOP - 1, .shop_name = "shop.yaml", .papers = true });
    for (size_t i = 0; i < result->findings.count && !result->job; i++) print_error("%s\n", result->findings.items[i].what);
    assert_non_null(result->job);
}

#define JOB(units, figures, timber) "job: test\nunits: " units "\nfigures: " figures "\npieces:\n  side: {count: 2, length: 600, width: 60, thickness: 20, timber: \"Oak, white\"}\n" \
    "  shelf: {length: 400, width: 60, thickness: 12, timber: \"" timber "\"}\n  brace: {length: 400, width: 50, thickness: 20, timber: \"Oak, white\"}\njoints:\n" \
    "  shelf in side: {kind: housing, housed: shelf, ends: left, into: side, from: face, at: [300], depth: 10, fit: glued}\n" \
    "  brace on side: {kind: cross lap, over: brace, over at: 200, under: side, under at: 335, fit: glued}\n"

/* Side 600 x 60 x 20 less the housing 12.1 x 60 x 10 and the notch 50.1 x 60 x 10: 682680 mm3; oak 0.68 at 12 %: 761.6 kg/m3. */
static void piece_weighs_its_volume_times_the_timber_of_the_table(void **state)
{
    (void)state;
    set_out(JOB("mm", "mm 0.1", "Oak, white"));
    const tw_piece_wood *side = &result->woods[0];
    CHECK_NEAR(side->bulk.volume_mm3, 600.0 * 60 * 20 - 12.1 * 60 * 10 - 50.1 * 60 * 10, 1e-6);
    CHECK_NEAR(side->density_kg_m3, 761.6, 1e-9);
    CHECK_NEAR(side->mass_kg, 0.682680 * 0.7616, 1e-9);
    CHECK_NEAR(result->woods[1].mass_kg, 400e-3 * 60e-3 * 12e-3 * 761.6, 1e-9);  // the shelf is let in whole
    CHECK_NEAR(tw_set_mass_kg(result->job, result->woods), 2 * side->mass_kg + result->woods[1].mass_kg + result->woods[2].mass_kg, 1e-12);
}

static void timber_that_is_not_in_the_table_has_no_weight(void **state)
{
    (void)state;
    set_out(JOB("mm", "mm 0.1", "moon wood"));
    assert_true(isnan(result->woods[1].mass_kg));
    assert_true(isnan(tw_set_mass_kg(result->job, result->woods)));
    assert_true(isfinite(result->woods[0].mass_kg));
}

static void weight_is_told_in_pounds_where_lengths_are_in_inches(void **state)
{
    (void)state;
    tw_arena arena = { 0 };
    assert_string_equal(tw_mass_words(&arena, 1.0, (tw_figures){ .style = TW_FIGURES_MM }), "1.00 kg");
    assert_string_equal(tw_mass_words(&arena, 12.345, (tw_figures){ .style = TW_FIGURES_MM }), "12.3 kg");
    assert_string_equal(tw_mass_words(&arena, 4.5359237, (tw_figures){ .style = TW_FIGURES_FRACTION }), "10.00 lb");
    tw_arena_finish(&arena);
}

static const tw_paper_pages *paper(const char *name)
{
    for (int i = 0; i < result->papers.count; i++)
        if (strcmp(result->papers.items[i].name, name) == 0) return &result->papers.items[i];
    return NULL;
}

static bool says(const tw_paper_pages *pages, const char *part)
{
    for (int p = 0; p < pages->page_count; p++)
        for (size_t i = 0; i < pages->pages[p]->count; i++)
            if (pages->pages[p]->items[i].kind == TW_ITEM_TEXT && strstr(pages->pages[p]->items[i].text, part)) return true;
    return false;
}

/* Between 306.05 and 309.95 there are 3.9, 10 high: 39/100. */
static void short_grain_is_on_the_paper_with_its_two_cuts(void **state)
{
    (void)state;
    set_out(JOB("mm", "mm 0.1", "Oak, white"));
    const tw_paper_pages *grain = paper("grain");
    assert_non_null(grain);
    assert_true(says(grain, "the housing of shelf in side and the notch of brace on side"));
    assert_true(says(grain, "0.52 kg each, 1.04 kg for the 2 of one set"));
    assert_true(says(grain, "One set of pieces weighs about 1.54 kg"));  // 1.0398 + 0.2193 + the brace, 400000 - 60.1 x 500 = 369950 mm3: 0.2818
    assert_true(says(paper("overview"), "One set of pieces weighs about 1.54 kg"));
    bool shaded = false;
    for (size_t i = 0; i < grain->pages[0]->count; i++) shaded |= grain->pages[0]->items[i].role == TW_ROLE_SHADE;
    assert_true(shaded);
    assert_int_equal(result->woods[0].region_count, 1);
    CHECK_NEAR(result->woods[0].regions[0].hold, 0.39, 1e-6);
}

static void texts_on_the_paper_do_not_overlap(void **state)
{
    (void)state;
    set_out(JOB("mm", "in 1/64", "Oak, white"));
    const tw_paper_pages *grain = paper("grain");
    tw_arena arena = { 0 };
    for (int p = 0; p < grain->page_count; p++) {
        int count;
        tw_sheet_overlaps(grain->pages[p], &arena, &count);
        assert_int_equal(count, 0);
        tw_sheet_texts_off_paper(grain->pages[p], 5.0, &arena, &count);
        assert_int_equal(count, 0);
    }
    tw_arena_finish(&arena);
}

static bool gather(void *context, const char *bytes, size_t count)
{
    tw_put(context, bytes, count);
    return true;
}

static void job_json_tells_the_same_with_papers_and_without(void **state)
{
    (void)state;
    static const char job[] = JOB("mm", "mm 0.1", "Oak, white");
    tw_arena arena = { 0 };
    for (int papers = 0; papers < 2; papers++) {
        tw_result *one = tw_set_out(&(tw_request){ .job = job, .job_bytes = sizeof job - 1, .job_name = "job.yaml", .shop = SHOP, .shop_bytes = sizeof SHOP - 1, .shop_name = "shop.yaml", .papers = papers == 1 });
        tw_gather all = { .arena = &arena };
        tw_sink sink = tw_gather_sink(&all);
        assert_true(tw_result_put(one, TW_OUTPUT_JSON, gather, &sink));
        const char *text = tw_gathered(&all).bytes;
        CHECK_HOLDS(text, "\"volume_mm3\": 682680");
        CHECK_HOLDS(text, "\"density_kg_m3\": 761.6");
        CHECK_HOLDS(text, "\"short_grain\": [");
        CHECK_HOLDS(text, "\"shortest_mm\": 3.9");
        tw_result_free(one);
    }
    tw_arena_finish(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(piece_weighs_its_volume_times_the_timber_of_the_table),
        cmocka_unit_test(timber_that_is_not_in_the_table_has_no_weight),
        cmocka_unit_test(weight_is_told_in_pounds_where_lengths_are_in_inches),
        cmocka_unit_test(short_grain_is_on_the_paper_with_its_two_cuts),
        cmocka_unit_test(texts_on_the_paper_do_not_overlap),
        cmocka_unit_test(job_json_tells_the_same_with_papers_and_without),
    };
    return cmocka_run_group_tests_name("piece_wood", tests, NULL, finish);
}
