// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include "papers_jobs.h"
#include "sheet/cards.h"
#include "sheet/cutting.h"
#include "sheet/writers.h"

/* ---- help ---- */

static const sample_job usual = { .paper = "A4", .figures = "mm 0.1", .joints = true };

static const tw_paper_pages *paper_named(const tw_result *result, const char *name)
{
    for (int i = 0; i < result->papers.count; i++)
        if (strcmp(result->papers.items[i].name, name) == 0) return &result->papers.items[i];
    return NULL;
}

static bool page_says(const tw_sheet *page, const char *part)
{
    for (size_t i = 0; i < page->count; i++)
        if (page->items[i].kind == TW_ITEM_TEXT && strstr(page->items[i].text, part)) return true;
    return false;
}

/* All texts of a page in their order, one space between: wrapped lines come together again. */
static const char *page_text(tw_arena *arena, const tw_sheet *page)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    for (size_t i = 0; i < page->count; i++)
        if (page->items[i].kind == TW_ITEM_TEXT) {
            const char *text = page->items[i].text;
            bool hyphen = text[strlen(text) - 1] == '-';  // a line may break after one
            tw_putf(&sink, "%s%s", text, hyphen ? "" : " ");
        }
    return tw_gathered(&all).bytes;
}

static const tw_sheet *card_of_step(const tw_result *result, int number)
{
    const tw_paper_pages *cards = paper_named(result, "cards");
    const char *start = tw_format((tw_arena *)&result->arena, "Card %d: ", number);
    for (int i = 0; i < cards->page_count; i++)
        if (page_says(cards->pages[i], start)) return cards->pages[i];
    return NULL;
}

/* ---- layout: every paper, every size, every way to write figures, short names and the longest ---- */

typedef void look_at_page(const tw_paper_pages *paper, const tw_sheet *page, tw_arena *arena);

#define SAMPLES 48
static tw_result *samples[SAMPLES];   // set out once for all who look at them

static const tw_result *sample_result(int sample)
{
    static const char *const papers[] = { "A4", "A3", "Letter" }, *const figures[] = { "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" };
    if (!samples[sample])
        samples[sample] = sample_set_out((sample_job){ .paper = papers[sample % 3], .figures = figures[sample / 3 % 4], .joints = true,
                                                       .long_names = sample / 12 % 2, .turned = sample / 24 });
    assert_int_not_equal(tw_result_state(samples[sample]), TW_STATE_WRONG);
    return samples[sample];
}

static int free_samples(void **state)
{
    (void)state;
    for (int i = 0; i < SAMPLES; i++) tw_result_free(samples[i]);
    return 0;
}

static void look_at_all(look_at_page *look)
{
    tw_arena arena = {0};
    for (int sample = 0; sample < SAMPLES; sample++) {
        const tw_result *result = sample_result(sample);
        for (int i = 0; i < result->papers.count; i++)
            for (int k = 0; k < result->papers.items[i].page_count; k++)
                look(&result->papers.items[i], result->papers.items[i].pages[k], &arena);
        tw_arena_finish(&arena);
    }
}

static void expect_no_overlap(const tw_paper_pages *paper, const tw_sheet *page, tw_arena *arena)
{
    (void)paper;
    int count;
    const tw_overlap *overlaps = tw_sheet_overlaps(page, arena, &count);
    if (count == 0) return;
    print_error("%s: \"%s\" lies on \"%s\"\n", page->name, page->items[overlaps[0].first].text, page->items[overlaps[0].second].text);
    fail();
}

static void no_text_lies_on_another(void **state)
{
    (void)state;
    look_at_all(expect_no_overlap);
}

/* The box that an item's ink can reach. */
static tw_box reach(const tw_item *item)
{
    switch (item->kind) {
    case TW_ITEM_LINE:
        return (tw_box){ tw_min(item->from.x, item->to.x), tw_min(item->from.y, item->to.y), tw_max(item->from.x, item->to.x), tw_max(item->from.y, item->to.y) };
    case TW_ITEM_ARC:
        return (tw_box){ item->from.x - item->radius_mm, item->from.y - item->radius_mm, item->from.x + item->radius_mm, item->from.y + item->radius_mm };
    case TW_ITEM_OUTLINE: return tw_outline_bounds(item->outline);
    case TW_ITEM_TEXT: return tw_text_box(item);
    }
    return (tw_box){ 0, 0, 0, 0 };
}

static void expect_on_paper(const tw_paper_pages *paper, const tw_sheet *page, tw_arena *arena)
{
    (void)arena;
    for (size_t i = 0; i < page->count; i++) {
        const tw_item *item = &page->items[i];
        if (paper->true_size && item->kind == TW_ITEM_ARC) continue;  // parts of circles, cut at the page's border
        tw_box box = reach(item);
        if (box.x0 > box.x1) continue;
        double edge = item->role == TW_ROLE_FAINT && !paper->true_size ? 0.0 : 7.0;  // the fold of an A3 sheet runs to its border
        if (box.x0 >= edge - 0.01 && box.y0 >= edge - 0.01 && box.x1 <= page->width_mm - edge + 0.01 && box.y1 <= page->height_mm - edge + 0.01) continue;
        print_error("%s: item %zu (kind %d, \"%s\") reaches %.1f %.1f to %.1f %.1f\n", page->name, i, item->kind,
                    item->text ? item->text : "", box.x0, box.y0, box.x1, box.y1);
        fail();
    }
}

static void nothing_runs_off_the_paper(void **state)
{
    (void)state;
    look_at_all(expect_on_paper);
}

/* Does a straight line go through the box, more than 0.15 mm inside its border? */
static bool crosses(tw_point a, tw_point b, tw_box box)
{
    double from = 0.0, to = 1.0;
    const double start[2] = { a.x, a.y }, way[2] = { b.x - a.x, b.y - a.y };
    const double low[2] = { box.x0 + 0.15, box.y0 + 0.15 }, high[2] = { box.x1 - 0.15, box.y1 - 0.15 };
    for (int i = 0; i < 2; i++) {
        if (fabs(way[i]) < 1e-12) {
            if (start[i] < low[i] || start[i] > high[i]) return false;
            continue;
        }
        double t0 = (low[i] - start[i]) / way[i], t1 = (high[i] - start[i]) / way[i];
        from = tw_max(from, tw_min(t0, t1));
        to = tw_min(to, tw_max(t0, t1));
    }
    return from < to;
}

static bool item_crosses(const tw_item *item, tw_box box)
{
    bool heavy = item->role == TW_ROLE_FRAME || item->role == TW_ROLE_VISIBLE || item->role == TW_ROLE_CUT;
    if (!heavy) return false;
    if (item->kind == TW_ITEM_LINE) return crosses(item->from, item->to, box);
    if (item->kind != TW_ITEM_OUTLINE) return false;
    for (int i = 0; i < item->outline.count; i++)
        for (int k = 0; k < item->outline.loops[i].count; k++) {
            tw_edge edge = tw_loop_edge(item->outline.loops[i], k);
            if (edge.straight && crosses(edge.from, edge.to, box)) return true;
        }
    return false;
}

static void expect_uncrossed(const tw_paper_pages *paper, const tw_sheet *page, tw_arena *arena)
{
    (void)arena;
    if (paper->true_size || strcmp(paper->name, "joints") == 0) return;  // dimensions of drawings: their own rules
    for (size_t i = 0; i < page->count; i++) {
        if (page->items[i].kind != TW_ITEM_TEXT) continue;
        tw_box box = tw_text_box(&page->items[i]);
        for (size_t k = 0; k < page->count; k++)
            if (item_crosses(&page->items[k], box)) {
                print_error("%s: a line goes through \"%s\"\n", page->name, page->items[i].text);
                fail();
            }
    }
}

static void no_text_is_crossed_by_a_line(void **state)
{
    (void)state;
    look_at_all(expect_uncrossed);
}

static void nothing_is_smaller_than_small_print(void **state)
{
    (void)state;
    tw_result *result = sample_set_out((sample_job){ .paper = "Letter", .figures = "in 1/64", .joints = true, .long_names = true });
    const tw_paper_pages *cards = paper_named(result, "cards");
    for (int p = 0; p < cards->page_count; p++)
        for (size_t i = 0; i < cards->pages[p]->count; i++) {
            const tw_item *item = &cards->pages[p]->items[i];
            if (item->kind == TW_ITEM_TEXT) assert_true(item->size_mm >= 1.4);
        }
    tw_result_free(result);
}

/* ---- what there is ---- */

static void papers_come_in_the_order_of_need(void **state)
{
    (void)state;
    static const char *const names[] = { "overview", "run", "cards", "templates", "strips", "pieces", "joints", "grain", "assembly", "cutting-list" };
    tw_result *result = sample_set_out(usual);
    int at = 0;
    for (int i = 0; i < result->papers.count; i++) {
        const tw_paper_pages *paper = &result->papers.items[i];
        assert_true(paper->page_count > 0);
        assert_int_equal(paper->true_size, strcmp(paper->name, "templates") == 0);
        if (strcmp(paper->name, "findings") == 0) continue;
        assert_true(at < 10);
        assert_string_equal(paper->name, names[at++]);
    }
    assert_int_equal(at, 10);
    tw_result_free(result);
}

static void a_job_without_joints_has_no_templates_no_strips_and_no_joint_sheets(void **state)
{
    (void)state;
    tw_result *result = sample_set_out((sample_job){ .paper = "A4", .figures = "mm 0.1" });
    assert_non_null(paper_named(result, "overview"));
    assert_non_null(paper_named(result, "cutting-list"));
    assert_null(paper_named(result, "templates"));
    assert_null(paper_named(result, "strips"));
    assert_null(paper_named(result, "joints"));
    assert_null(paper_named(result, "assembly"));
    tw_result_free(result);
}

static void without_findings_there_is_no_paper_of_findings(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    tw_findings none = { .arena = &result->arena };
    tw_paper_input input = tw_result_input(result);
    input.findings = &none;
    tw_papers papers = tw_papers_make(&result->arena, &input);
    for (int i = 0; i < papers.count; i++) assert_string_not_equal(papers.items[i].name, "findings");
    CHECK_HOLDS(page_text(&result->arena, papers.items[0].pages[0]), "No halt and no care stands against this job.");
    tw_find(&none, TW_NOTE, (tw_place){ 0 }, "test-note", "post", "something is worth knowing", "");
    papers = tw_papers_make(&result->arena, &input);
    assert_string_equal(papers.items[1].name, "findings");
    CHECK_HOLDS(page_text(&result->arena, papers.items[1].pages[0]), "post: something is worth knowing.");
    tw_result_free(result);
}

static void a_wrong_job_has_no_papers(void **state)
{
    (void)state;
    tw_result *result = sample_set_out((sample_job){ .paper = "A9", .figures = "mm 0.1", .joints = true });
    assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
    assert_int_equal(result->papers.count, 0);
    tw_result_free(result);
}

static void page_names_count_from_one(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    const tw_paper_pages *cards = paper_named(result, "cards");
    for (int i = 0; i < cards->page_count; i++) {
        const char *number = tw_format(&result->arena, "%d of %d", i + 1, cards->page_count);
        assert_string_equal(cards->pages[i]->name, tw_format(&result->arena, "cards-%d", i + 1));
        assert_true(page_says(cards->pages[i], number));
    }
    tw_result_free(result);
}

/* ISO 216: A3 297 x 420, A4 210 x 297; Letter 8.5 x 11 in (ANSI/ASME Y14.1). */
static void reading_papers_of_an_a3_job_are_two_pages_of_a4_side_by_side(void **state)
{
    (void)state;
    tw_result *on_a4 = sample_set_out(usual);
    tw_result *on_a3 = sample_set_out((sample_job){ .paper = "A3", .figures = "mm 0.1", .joints = true });
    const tw_paper_pages *single = paper_named(on_a4, "cards"), *twin = paper_named(on_a3, "cards");
    assert_int_equal(twin->page_count, (single->page_count + 1) / 2);
    CHECK_NEAR(single->pages[0]->width_mm, 210.0, 1e-9);
    CHECK_NEAR(single->pages[0]->height_mm, 297.0, 1e-9);
    CHECK_NEAR(twin->pages[0]->width_mm, 420.0, 1e-9);
    CHECK_NEAR(twin->pages[0]->height_mm, 297.0, 1e-9);
    tw_result_free(on_a4);
    tw_result_free(on_a3);
}

static void letter_pages_are_eight_and_a_half_by_eleven_inches(void **state)
{
    (void)state;
    tw_result *result = sample_set_out((sample_job){ .paper = "Letter", .figures = "in 1/64", .joints = true });
    for (int i = 0; i < result->papers.count; i++) {
        const tw_sheet *page = result->papers.items[i].pages[0];
        CHECK_NEAR(tw_min(page->width_mm, page->height_mm), 8.5 * 25.4, 1e-6);
        CHECK_NEAR(tw_max(page->width_mm, page->height_mm), 11.0 * 25.4, 1e-6);
    }
    tw_result_free(result);
}

static void the_same_job_gives_the_same_bytes(void **state)
{
    (void)state;
    tw_result *one = sample_set_out(usual), *two = sample_set_out(usual);
    for (int i = 0; i < one->papers.count; i++)
        for (int k = 0; k < one->papers.items[i].page_count; k++) {
            tw_gather a = { .arena = &one->arena }, b = { .arena = &two->arena };
            tw_sink to_a = tw_gather_sink(&a), to_b = tw_gather_sink(&b);
            tw_svg_put(one->papers.items[i].pages[k], &to_a);
            tw_svg_put(two->papers.items[i].pages[k], &to_b);
            assert_string_equal(tw_gathered(&a).bytes, tw_gathered(&b).bytes);
        }
    tw_result_free(one);
    tw_result_free(two);
}

/* ---- cards ---- */

static void a_large_batch_is_tallied_on_a_line_and_not_in_boxes(void **state)
{
    (void)state;
    sample_job sample = usual;
    sample.count = 300;
    tw_result *result = sample_set_out(sample);
    const tw_paper_pages *cards = paper_named(result, "cards"), *run = paper_named(result, "run");
    assert_true(page_says(run->pages[0], "of 300"));
    for (int i = 0; i < cards->page_count; i++) expect_no_overlap(cards, cards->pages[i], &result->arena);
    for (int i = 0; i < result->run.count; i++)
        if (result->run.steps[i].setup >= 0) CHECK_HOLDS(page_text(&result->arena, card_of_step(result, i + 1)), "of 300");
    tw_result_free(result);
}

static void each_step_at_the_router_has_one_page(void **state)
{
    (void)state;
    for (int sample = 0; sample < 4; sample++) {
        tw_result *result = sample_set_out((sample_job){ .paper = sample % 2 ? "Letter" : "A4", .figures = sample % 2 ? "in 1/64" : "mm 0.01",
                                                         .joints = true, .long_names = sample / 2 });
        const tw_paper_pages *cards = paper_named(result, "cards");
        assert_true(result->setups.count >= 6);
        for (int i = 0; i < cards->page_count; i++)
            if (strstr(cards->pages[i]->title, "Card ")) assert_null(strstr(cards->pages[i]->title, "continued"));
        for (int i = 0; i < result->run.count; i++)
            if (result->run.steps[i].setup >= 0) assert_non_null(card_of_step(result, result->run.steps[i].number));
        tw_result_free(result);
    }
}

/* The figure stands as a text of its own, at least 7 mm high. */
static bool stands_large(const tw_sheet *page, const char *figure)
{
    for (size_t i = 0; i < page->count; i++) {
        const tw_item *item = &page->items[i];
        if (item->kind == TW_ITEM_TEXT && item->bold && item->size_mm >= 7.0 && strcmp(item->text, figure) == 0) return true;
    }
    return false;
}

static void figures_that_are_set_stand_large_on_the_card(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    int seen = 0;
    for (int i = 0; i < result->run.count; i++) {
        if (result->run.steps[i].setup < 0) continue;
        const tw_setup *setup = &result->setups.items[result->run.steps[i].setup];
        const tw_sheet *page = card_of_step(result, result->run.steps[i].number);
        const tw_setting *settings[] = { &setup->shift, &setup->table, &setup->stop, &setup->depth };
        for (int k = 0; k < 4; k++) {
            if (!settings[k]->used) continue;
            seen++;
            assert_true(stands_large(page, tw_length_bare(&result->arena, settings[k]->value_mm, result->job->figures)));
        }
    }
    assert_true(seen >= 18);
    tw_result_free(result);
}

static void a_card_says_what_to_mount_what_to_measure_and_what_to_mind(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    for (int i = 0; i < result->run.count; i++) {
        const tw_step *step = &result->run.steps[i];
        if (step->setup < 0) continue;
        const tw_setup *setup = &result->setups.items[step->setup];
        const tw_work *work = &result->plans[step->plan].works[step->work];
        const char *text = page_text(&result->arena, card_of_step(result, step->number));
        CHECK_HOLDS(text, result->templates.items[setup->template_index].name);
        CHECK_HOLDS(text, result->shop->cutters[setup->cutter].name);
        CHECK_HOLDS(text, result->shop->followers[setup->follower].name);
        CHECK_HOLDS(text, tw_length_text(&result->arena, setup->stick_out_mm, result->job->figures));
        CHECK_HOLDS(text, tw_format(&result->arena, "at most %.0f turns a minute", setup->speed_rpm));
        CHECK_HOLDS(text, tw_face_words[work->down]);
        CHECK_HOLDS(text, work->measure);
        CHECK_HOLDS(text, tw_length_text(&result->arena, work->measure_mm, result->job->figures));
        CHECK_HOLDS(text, work->if_off);
        CHECK_HOLDS(text, setup->feed);
        CHECK_HOLDS(text, setup->breakout);
        CHECK_HOLDS(text, setup->depth.sum);
        CHECK_HOLDS(text, "the template 2 times the error; table, stop and depth the error itself");
        CHECK_HOLDS(text, work->what);
        bool centred = strstr(text, "move the table by half of it, or the template by all of it") != NULL;  // a ratio of 2
        assert_int_equal(centred, work->copy.locate == TW_LOCATE_CENTRED);
        CHECK_HOLDS(text, setup->baseline.used ? "Then the baseline: Let the" : "Both its centre lines go on the holder's");
        CHECK_HOLDS(text, "Take care");
        CHECK_HOLDS(text, "Eyes, ears");
        CHECK_HOLDS(text, tw_format(&result->arena, "Card %d of %d ", step->number, result->run.count));
    }
    tw_result_free(result);
}

static void a_card_of_a_hand_says_the_hand_loudly(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    int left = 0, right = 0;
    for (int i = 0; i < result->run.count; i++) {
        const tw_step *step = &result->run.steps[i];
        if (step->setup < 0) continue;
        tw_hand hand = result->plans[step->plan].works[step->work].hand;
        const char *text = page_text(&result->arena, card_of_step(result, step->number));
        assert_int_equal(strstr(text, "LEFT HAND") != NULL, hand == TW_HAND_LEFT);
        assert_int_equal(strstr(text, "RIGHT HAND") != NULL, hand == TW_HAND_RIGHT);
        left += hand == TW_HAND_LEFT;
        right += hand == TW_HAND_RIGHT;
    }
    assert_int_equal(left, 1);
    assert_int_equal(right, 1);
    tw_result_free(result);
}

static void every_step_of_the_run_has_its_card_and_its_line(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    const char *cards = "", *run = "";
    for (int i = 0; i < result->papers.count; i++)
        for (int k = 0; k < result->papers.items[i].page_count; k++) {
            const char *text = page_text(&result->arena, result->papers.items[i].pages[k]);
            if (strcmp(result->papers.items[i].name, "cards") == 0) cards = tw_format(&result->arena, "%s%s", cards, text);
            if (strcmp(result->papers.items[i].name, "run") == 0) run = tw_format(&result->arena, "%s%s", run, text);
        }
    for (int i = 0; i < result->run.count; i++) {
        CHECK_HOLDS(cards, tw_format(&result->arena, "Card %d of %d ", i + 1, result->run.count));
        CHECK_HOLDS(run, result->run.steps[i].name);
    }
    tw_result_free(result);
}

/* What the cards say from the head of one step's card to the head of the next one's. */
static const char *words_of_card(tw_arena *arena, const char *cards, int number, int count)
{
    const char *from = strstr(cards, tw_format(arena, "Card %d of %d ", number, count)), *to = strstr(cards, tw_format(arena, "Card %d of %d ", number + 1, count));
    assert_non_null(from);
    return tw_text_copy(arena, (tw_text){ from, to ? (size_t)(to - from) : strlen(from) });
}

/* What hands must know at each machine; the whole job's steps are known by their names. NULL: no cutter or blade turns. */
static const char *caution_wanted(const tw_result *result, const tw_step *step)
{
    if (step->plan < 0) return strstr(step->name, "Saw") || strstr(step->name, "Crosscut") ? "Riving knife and guard on" : strstr(step->name, "Plane") ? "Push blocks" : NULL;
    switch (result->plans[step->plan].works[step->work].way) {
    case TW_WAY_COPY: return "Both hands on the handles, never within";
    case TW_WAY_SAW: return "Riving knife and guard on";
    case TW_WAY_BANDSAW: return "Guard down to just over the work";
    case TW_WAY_ROUTE: return "Both hands on the router";
    case TW_WAY_TABLE: return "never between cutter and fence";
    case TW_WAY_DRILL: return "never held against the turn by hand";
    default: return NULL;
    }
}

static void cautions_stand_on_every_card_of_a_cutter_or_blade_and_on_the_overview(void **state)
{
    (void)state;
    for (int inches = 0; inches < 2; inches++) {
        tw_result *result = sample_set_out((sample_job){ .paper = "A4", .figures = inches ? "in 1/64" : "mm 0.1", .joints = true });
        const tw_paper_pages *paper = paper_named(result, "cards"), *overview = paper_named(result, "overview");
        const char *cards = "", *first = page_text(&result->arena, overview->pages[0]);
        for (int k = 0; k < paper->page_count; k++) cards = tw_format(&result->arena, "%s%s", cards, page_text(&result->arena, paper->pages[k]));
        int machines = 0;
        for (int i = 0; i < result->run.count; i++) {
            const char *wanted = caution_wanted(result, &result->run.steps[i]);
            if (!wanted) continue;
            const char *words = words_of_card(&result->arena, cards, i + 1, result->run.count);
            CHECK_HOLDS(words, "Take care");
            CHECK_HOLDS(words, wanted);
            CHECK_HOLDS(words, "Eyes");
            machines++;
        }
        assert_true(machines >= 12);  // saw, planer and crosscut; two kinds of tenons; mortises, housings, slots, ramps
        CHECK_HOLDS(first, "never nearer to a turning cutter or blade than a hand's width");
        CHECK_HOLDS(first, "Unplug the machine before you change a cutter");
        CHECK_HOLDS(first, "local codes and the advice of a licensed engineer come before these papers");
        tw_result_free(result);
    }
}

/* "mm" as a word of its own or after a figure. */
static bool speaks_mm(const char *text)
{
    for (const char *at = strstr(text, "mm"); at; at = strstr(at + 1, "mm")) {
        char before = at == text ? ' ' : at[-1], after = at[2];
        bool word = (after < 'a' || after > 'z') && (before < 'a' || before > 'z');
        if (word) return true;
    }
    return false;
}

/* The shop of the samples names no tool by its millimetres; the other scale bar is 100 mm (with a space that does not break). */
static void papers_of_an_inch_job_do_not_speak_of_millimetres(void **state)
{
    (void)state;
    static const char *const figures[] = { "in 1/64", "in 0.001" };
    for (int f = 0; f < 2; f++) {
        tw_result *result = sample_set_out((sample_job){ .paper = "Letter", .figures = figures[f], .joints = true });
        size_t texts = 0;
        for (int i = 0; i < result->papers.count; i++)
            for (int k = 0; k < result->papers.items[i].page_count; k++) {
                const tw_sheet *page = result->papers.items[i].pages[k];
                for (size_t n = 0; n < page->count; n++) {
                    if (page->items[n].kind != TW_ITEM_TEXT || strcmp(page->items[n].text, "100\xC2\xA0mm") == 0) continue;
                    if (speaks_mm(page->items[n].text)) fail_msg("%s says \"%s\"", page->name, page->items[n].text);
                    texts++;
                }
            }
        assert_true(texts > 1000);
        tw_result_free(result);
    }
}

/* Worked by hand from the frames in piece.h: right = up x out. */
static void the_view_turns_with_the_side_that_lies_down(void **state)
{
    (void)state;
    tw_view plain = tw_view_of(TW_SIDE_FACE, TW_SIDE_FACE_EDGE);  // face edge nearest: right end to the right
    assert_int_equal(tw_view_sense(plain, TW_SIDE_RIGHT_END).x, 1);
    assert_int_equal(tw_view_sense(plain, TW_SIDE_BACK_EDGE).y, 1);
    tw_view turned = tw_view_of(TW_SIDE_FACE, TW_SIDE_BACK_EDGE);
    assert_int_equal(tw_view_sense(turned, TW_SIDE_RIGHT_END).x, -1);
    tw_view end = tw_view_of(TW_SIDE_RIGHT_END, TW_SIDE_BACK);  // looking at the right end, back down: back edge to the right
    assert_int_equal(tw_view_sense(end, TW_SIDE_BACK_EDGE).x, 1);
    assert_int_equal(tw_view_side(end, 0, 1), TW_SIDE_FACE);
    tw_view back = tw_view_of(TW_SIDE_BACK, TW_SIDE_FACE_EDGE);  // turned over about its length: left end to the right
    assert_int_equal(tw_view_side(back, 1, 0), TW_SIDE_LEFT_END);
    tw_view standing = tw_view_of(TW_SIDE_FACE, TW_SIDE_LEFT_END);
    assert_int_equal(tw_view_side(standing, 1, 0), TW_SIDE_FACE_EDGE);
}

/* ---- halts ---- */

static void a_halt_stands_on_everything_that_leads_to_cutting(void **state)
{
    (void)state;
    sample_job sample = usual;
    sample.more = "    tusk thickness: 3 mm\n";
    tw_result *result = sample_set_out(sample);
    assert_int_equal(tw_result_state(result), TW_STATE_HALT);
    static const char *const names[] = { "run", "cards", "templates" };
    for (int i = 0; i < 3; i++) {
        const tw_paper_pages *paper = paper_named(result, names[i]);
        CHECK_HOLDS(page_text(&result->arena, paper->pages[0]), "HALT.");
    }
    CHECK_HOLDS(page_text(&result->arena, paper_named(result, "overview")->pages[0]), "HALT: do not cut");
    const char *findings = page_text(&result->arena, paper_named(result, "findings")->pages[0]);
    assert_true(strncmp(findings, "Halt (", 6) == 0);  // before cares and notes
    for (size_t i = 0; i < result->findings.count; i++)
        if (result->findings.items[i].level == TW_HALT) CHECK_HOLDS(findings, result->findings.items[i].remedy);
    tw_result_free(result);
}

static void a_job_without_a_halt_says_nothing_of_one(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    assert_int_equal(tw_result_state(result), TW_STATE_GOOD);
    for (int i = 0; i < result->papers.count; i++)
        for (int k = 0; k < result->papers.items[i].page_count; k++)
            assert_null(strstr(page_text(&result->arena, result->papers.items[i].pages[k]), "HALT"));
    tw_result_free(result);
}

/* ---- templates ---- */

/* The outline of the edge to cut to, where it lies whole on one page, is as large as the template. */
static void templates_are_drawn_true_to_size(void **state)
{
    (void)state;
    tw_result *result = sample_set_out((sample_job){ .paper = "A3", .figures = "mm 0.1", .joints = true });
    const tw_paper_pages *paper = paper_named(result, "templates");
    int seen = 0;
    for (int t = 0; t < result->templates.count; t++) {
        tw_box want = tw_outline_bounds(result->templates.items[t].view);
        for (int p = 0; p < paper->page_count; p++) {
            if (strcmp(paper->pages[p]->name, tw_format(&result->arena, "templates-%d", t + 1)) != 0) continue;
            for (size_t i = 0; i < paper->pages[p]->count; i++) {
                const tw_item *item = &paper->pages[p]->items[i];
                if (item->kind != TW_ITEM_OUTLINE || item->role != TW_ROLE_CUT) continue;
                tw_box got = tw_outline_bounds(item->outline);
                CHECK_NEAR(got.x1 - got.x0, want.x1 - want.x0, 1e-6);
                CHECK_NEAR(got.y1 - got.y0, want.y1 - want.y0, 1e-6);
                seen++;
            }
        }
    }
    assert_true(seen >= 4);
    tw_result_free(result);
}

static void a_template_says_its_cutter_follower_ratio_side_and_what_it_serves(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    const tw_paper_pages *paper = paper_named(result, "templates");
    const char *all = "";
    for (int p = 0; p < paper->page_count; p++) {
        CHECK_HOLDS(page_text(&result->arena, paper->pages[p]), "Print at 100");
        all = tw_format(&result->arena, "%s%s", all, page_text(&result->arena, paper->pages[p]));
    }
    for (int t = 0; t < result->templates.count; t++) {
        const tw_template *template_ = &result->templates.items[t];
        CHECK_HOLDS(all, tw_format(&result->arena, "%s %s", template_->name, ""));
        CHECK_HOLDS(all, tw_format(&result->arena, "Cutter %s", result->shop->cutters[template_->cutter].name));
        CHECK_HOLDS(all, tw_format(&result->arena, "follower %s", result->shop->followers[template_->follower].name));
    }
    CHECK_HOLDS(all, "T1 · post to foot: mortises · revision 2b · Seed table");  // the foot of each page
    CHECK_HOLDS(all, "ratio 2");
    CHECK_HOLDS(all, "this side faces you");
    CHECK_HOLDS(all, "baseline edge");
    CHECK_HOLDS(all, "revision 2b");
    CHECK_HOLDS(all, "TURNED OVER");
    CHECK_HOLDS(all, "Serves: housings, right hand (rail); housings, left hand (rail), TURNED OVER.");
    tw_result_free(result);
}

/* ---- cutting list ---- */

/* By hand: post 655 x 110 x 45 + 25, 6, 4; the tusks: 8 housings' tusks stand at 4 joints, one each: 4, two from a stick. */
static void rough_sizes_are_finished_sizes_and_the_stated_allowance(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    tw_paper_input input = tw_result_input(result);
    tw_cutting_list list = tw_cutting_list_make(&result->arena, &input);
    assert_int_equal(list.count, 4);
    CHECK_NEAR(list.rows[0].rough.length_mm, 680.0, 1e-9);
    CHECK_NEAR(list.rows[0].rough.width_mm, 116.0, 1e-9);
    CHECK_NEAR(list.rows[0].rough.thickness_mm, 49.0, 1e-9);
    assert_true(list.rows[3].part);
    assert_int_equal(list.rows[3].count, 4);
    assert_int_equal(list.rows[3].rough_count, 2);
    CHECK_HOLDS(page_text(&result->arena, paper_named(result, "cutting-list")->pages[0]), "25.0 mm in length, 6.0 mm in width, 4.0 mm in thickness");
    tw_result_free(result);
}

static void allowances_of_an_inch_job_are_round_in_inches(void **state)
{
    (void)state;
    tw_result *result = sample_set_out((sample_job){ .paper = "Letter", .figures = "in 1/64", .joints = true });
    CHECK_HOLDS(page_text(&result->arena, paper_named(result, "cutting-list")->pages[0]), "1 in in length, 1/4 in in width, 1/8 in in thickness");
    tw_result_free(result);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_text_lies_on_another),
        cmocka_unit_test(nothing_runs_off_the_paper),
        cmocka_unit_test(no_text_is_crossed_by_a_line),
        cmocka_unit_test(nothing_is_smaller_than_small_print),
        cmocka_unit_test(papers_come_in_the_order_of_need),
        cmocka_unit_test(a_job_without_joints_has_no_templates_no_strips_and_no_joint_sheets),
        cmocka_unit_test(without_findings_there_is_no_paper_of_findings),
        cmocka_unit_test(a_wrong_job_has_no_papers),
        cmocka_unit_test(page_names_count_from_one),
        cmocka_unit_test(reading_papers_of_an_a3_job_are_two_pages_of_a4_side_by_side),
        cmocka_unit_test(letter_pages_are_eight_and_a_half_by_eleven_inches),
        cmocka_unit_test(the_same_job_gives_the_same_bytes),
        cmocka_unit_test(a_large_batch_is_tallied_on_a_line_and_not_in_boxes),
        cmocka_unit_test(each_step_at_the_router_has_one_page),
        cmocka_unit_test(figures_that_are_set_stand_large_on_the_card),
        cmocka_unit_test(a_card_says_what_to_mount_what_to_measure_and_what_to_mind),
        cmocka_unit_test(a_card_of_a_hand_says_the_hand_loudly),
        cmocka_unit_test(every_step_of_the_run_has_its_card_and_its_line),
        cmocka_unit_test(cautions_stand_on_every_card_of_a_cutter_or_blade_and_on_the_overview),
        cmocka_unit_test(papers_of_an_inch_job_do_not_speak_of_millimetres),
        cmocka_unit_test(the_view_turns_with_the_side_that_lies_down),
        cmocka_unit_test(a_halt_stands_on_everything_that_leads_to_cutting),
        cmocka_unit_test(a_job_without_a_halt_says_nothing_of_one),
        cmocka_unit_test(templates_are_drawn_true_to_size),
        cmocka_unit_test(a_template_says_its_cutter_follower_ratio_side_and_what_it_serves),
        cmocka_unit_test(rough_sizes_are_finished_sizes_and_the_stated_allowance),
        cmocka_unit_test(allowances_of_an_inch_job_are_round_in_inches),
    };
    return cmocka_run_group_tests(tests, NULL, free_samples);
}
