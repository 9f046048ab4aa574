// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include "papers_jobs.h"
#include "print/paper_set.h"
#include "print/print.h"
#include "sheet/booklet.h"

/* ---- help ---- */

static const sample_job usual = { .paper = "A4", .figures = "mm 0.1", .joints = true };

typedef struct bound { tw_result *result; tw_paper_pages booklet; int sheets; } bound;  // sheets: of the papers

static bound bind_sample(sample_job sample)
{
    bound b = { .result = sample_set_out(sample) };
    tw_paper_input input = tw_result_input(b.result);
    b.booklet = tw_booklet_make(&b.result->arena, &input, &b.result->papers);
    for (int i = 0; i < b.result->papers.count; i++) b.sheets += b.result->papers.items[i].page_count;
    return b;
}

static int front_of(const bound *b) { return b->booklet.page_count - b->sheets; }

static const tw_item *text_on(const tw_sheet *page, const char *part)
{
    for (size_t i = 0; i < page->count; i++)
        if (page->items[i].kind == TW_ITEM_TEXT && strstr(page->items[i].text, part)) return &page->items[i];
    return NULL;
}

/* The sheet of the papers that stands so far behind the front. */
static const tw_sheet *sheet_at(const bound *b, int index)
{
    for (int i = 0; i < b->result->papers.count; i++) {
        const tw_paper_pages *paper = &b->result->papers.items[i];
        if (index < paper->page_count) return paper->pages[index];
        index -= paper->page_count;
    }
    return NULL;
}

static bound samples[6];  // set out once for all who look at them: A4, A3, Letter, each with short names and the longest

static int set_samples_out(void **state)
{
    (void)state;
    static const char *const papers[] = { "A4", "A3", "Letter" };
    for (int i = 0; i < 6; i++)
        samples[i] = bind_sample((sample_job){ .paper = papers[i / 2], .figures = i % 2 ? "in 1/64" : "mm 0.1",
                                               .long_names = i % 2, .joints = true });
    return 0;
}

static int free_samples(void **state)
{
    (void)state;
    for (int i = 0; i < 6; i++) tw_result_free(samples[i].result);
    return 0;
}

static void on_every_sample(void (*look)(const bound *b))
{
    for (int i = 0; i < 6; i++) look(&samples[i]);
}

/* ---- what it holds ---- */

static void look_at_sheets(const bound *b)
{
    for (int i = 0; i < b->sheets; i++) {
        const tw_sheet *sheet = sheet_at(b, i), *page = b->booklet.pages[front_of(b) + i];
        CHECK_NEAR(page->width_mm, sheet->width_mm, 0.0);
        CHECK_NEAR(page->height_mm, sheet->height_mm, 0.0);
        assert_string_equal(page->title, sheet->title);
        assert_int_equal(page->count, sheet->count + 1);
        for (size_t k = 0; k < sheet->count; k++) {  // true to size, and in its place
            CHECK_NEAR(page->items[k].from.x, sheet->items[k].from.x, 0.0);
            CHECK_NEAR(page->items[k].from.y, sheet->items[k].from.y, 0.0);
        }
    }
}

static void all_sheets_stand_in_it_as_they_are_with_one_number_more(void **state)
{
    (void)state;
    on_every_sample(look_at_sheets);
}

static void look_at_numbers(const bound *b)
{
    tw_arena *arena = &b->result->arena;
    assert_null(text_on(b->booklet.pages[0], "page 1 of"));
    for (int i = 1; i < b->booklet.page_count; i++) {
        const tw_item *number = text_on(b->booklet.pages[i], tw_format(arena, "page %d of %d", i + 1, b->booklet.page_count));
        assert_non_null(number);
        tw_box box = tw_text_box(number);  // in the white border, where printers still reach: 4 mm (common practice)
        assert_true(box.y1 < TW_PAGE_MARGIN_MM && box.y0 > 4.0);
        assert_true(box.x1 < b->booklet.pages[i]->width_mm - 4.0);
    }
}

static void every_page_but_the_cover_says_its_number_outside_the_frame(void **state)
{
    (void)state;
    on_every_sample(look_at_numbers);
}

/* On the sheets of the papers only the page number is looked at: it is the last item. Their own texts are the papers' tests. */
static int meetings_on(const tw_sheet *page, bool front, tw_arena *arena)
{
    int overlaps, crossed, off, count = 0, number = (int)page->count - 1;
    tw_overlap *meet = tw_sheet_overlaps(page, arena, &overlaps), *cross = tw_sheet_crossed_texts(page, arena, &crossed);
    int *outside = tw_sheet_texts_off_paper(page, 4.0, arena, &off);
    for (int i = 0; i < overlaps; i++) count += front || meet[i].first == number || meet[i].second == number;
    for (int i = 0; i < crossed; i++) count += front || cross[i].first == number;
    for (int i = 0; i < off; i++) count += front || outside[i] == number;
    return count;
}

static void look_for_overlaps(const bound *b)
{
    for (int i = 0; i < b->booklet.page_count; i++) {
        int count = meetings_on(b->booklet.pages[i], i < front_of(b), &b->result->arena);
        if (count > 0) print_error("page %d, %s: %d\n", i + 1, b->booklet.pages[i]->title, count);
        assert_int_equal(count, 0);
    }
}

static void no_text_of_it_meets_another_or_leaves_the_paper(void **state)
{
    (void)state;
    on_every_sample(look_for_overlaps);
}

/* ---- the contents ---- */

/* The text right of a number of the contents, on its line, that is farthest right: what is on the page. */
static const tw_item *told_of(const tw_sheet *page, const tw_item *number)
{
    const tw_item *best = NULL;
    for (size_t i = 0; i < page->count; i++) {
        const tw_item *item = &page->items[i];
        bool beside = item->kind == TW_ITEM_TEXT && fabs(item->from.y - number->from.y) < 0.01 && item->from.x > number->from.x
            && item->from.x < number->from.x + 120.0;
        if (beside && (!best || item->from.x > best->from.x)) best = item;
    }
    return best;
}

static bool is_number(const tw_item *item) { return item->kind == TW_ITEM_TEXT && *item->text
                                             && strspn(item->text, "0123456789") == strlen(item->text); }

static int look_at_contents_page(const bound *b, const tw_sheet *page)
{
    int rows = 0;
    for (size_t i = 0; i < page->count; i++) {
        if (!is_number(&page->items[i])) continue;
        const tw_item *told = told_of(page, &page->items[i]);
        if (!told) continue;
        int number = atoi(page->items[i].text);
        if (number <= front_of(b)) continue;  // a figure of the title block
        const tw_sheet *sheet = sheet_at(b, number - front_of(b) - 1);
        assert_non_null(sheet);
        bool title = strncmp(sheet->title, told->text, 12) == 0, purpose = false;
        for (int p = 0; p < b->result->papers.count; p++) {
            const tw_paper_pages *paper = &b->result->papers.items[p];
            purpose = purpose || (paper->pages[0] == sheet && strncmp(paper->purpose, told->text, 12) == 0);
        }
        if (!title && !purpose) print_error("page %d: \"%s\", not \"%s\"\n", number, told->text, sheet->title);
        assert_true(title || purpose);
        rows++;
    }
    return rows;
}

static void look_at_contents(const bound *b)
{
    int rows = 0;
    for (int i = 1; i < front_of(b); i++) rows += look_at_contents_page(b, b->booklet.pages[i]);
    assert_true(rows >= b->result->papers.count);
}

static void the_contents_name_the_page_on_which_each_sheet_stands(void **state)
{
    (void)state;
    look_at_contents(&samples[0]);
    look_at_contents(&samples[4]);
}

static void the_cover_leads_to_the_cautions_and_says_a_halt(void **state)
{
    (void)state;
    bound b = samples[0];
    const tw_sheet *cover = b.booklet.pages[0];
    assert_non_null(text_on(cover, "Before a cutter turns"));
    const tw_item *leads = text_on(cover, tw_format(&b.result->arena, "page %d", front_of(&b) + 1));
    assert_non_null(leads);
    assert_non_null(text_on(b.booklet.pages[front_of(&b)], "Before you cut"));  // the page that it leads to has them
    bool halts = tw_findings_have(&b.result->findings, TW_HALT);
    assert_true((text_on(cover, "HALT.") != NULL) == halts);
    size_t lines = 0;
    for (size_t i = 0; i < cover->count; i++) lines += cover->items[i].kind == TW_ITEM_LINE;
    assert_true(lines > 40);  // the picture
}

static void a_job_of_loose_pieces_has_a_cover_too(void **state)
{
    (void)state;
    bound b = bind_sample((sample_job){ .paper = "A4", .figures = "mm 0.1" });
    assert_true(front_of(&b) >= 2);
    assert_non_null(text_on(b.booklet.pages[0], "Seed table"));
    tw_result_free(b.result);
}

static void the_same_job_gives_the_same_booklet(void **state)
{
    (void)state;
    bound a = samples[0], b = bind_sample(usual);
    assert_int_equal(a.booklet.page_count, b.booklet.page_count);
    for (int i = 0; i < a.booklet.page_count; i++) {
        assert_int_equal(a.booklet.pages[i]->count, b.booklet.pages[i]->count);
        for (size_t k = 0; k < a.booklet.pages[i]->count; k++) {
            const tw_item *one = &a.booklet.pages[i]->items[k], *other = &b.booklet.pages[i]->items[k];
            assert_true(one->from.x == other->from.x && one->from.y == other->from.y);
            assert_string_equal(one->text ? one->text : "", other->text ? other->text : "");
        }
    }
    tw_result_free(b.result);
}

/* ---- the set of papers, watched ---- */

typedef struct watching { size_t files, asked, of, stop_at; bool even, backwards; const char *first; } watching;

static bool take(void *context, const tw_paper_file *file)
{
    watching *w = context;
    w->files++;
    assert_true(file->bytes.length > 0 && *file->name && *file->title);
    return true;
}

static bool go_on(void *context, size_t done, size_t of, const char *what)
{
    watching *w = context;
    assert_true(what && *what);
    if (w->asked > 0 && of != w->of) w->even = false;
    if (done != w->asked || done >= of) w->backwards = true;
    w->of = of;
    return w->asked++ < w->stop_at;
}

static bool make_set(tw_result *result, watching *w)
{
    tw_arena arena = { 0 };
    const char *why = NULL;
    tw_paper_taker taker = { .context = w, .take = take, .go_on = go_on };
    bool good = tw_paper_set_make(&arena, result, &taker, &why);
    assert_non_null(why);
    assert_string_equal(why, "");  // stopped is no failure
    tw_arena_finish(&arena);
    return good;
}

static void the_set_counts_its_parts_to_the_end(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    watching w = { .stop_at = SIZE_MAX, .even = true };
    assert_true(make_set(result, &w));
    assert_true(w.even && !w.backwards);
    assert_int_equal(w.asked, w.of);
    assert_true(w.files > w.of / 2);
    tw_result_free(result);
}

static void the_set_stops_when_it_is_told_to(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    watching all = { .stop_at = SIZE_MAX, .even = true };
    make_set(result, &all);
    for (size_t at = 0; at < all.of; at += all.of / 4) {
        watching w = { .stop_at = at, .even = true };
        assert_false(make_set(result, &w));
        assert_int_equal(w.asked, at + 1);
        assert_true(w.files < all.files);
    }
    tw_result_free(result);
}

static bool refuse(void *context, const tw_paper_file *file)
{
    (void)file;
    ++*(int *)context;
    return false;
}

static void a_file_that_is_not_taken_ends_the_set(void **state)
{
    (void)state;
    tw_result *result = sample_set_out(usual);
    tw_arena arena = { 0 };
    int offered = 0;
    const char *why;
    assert_false(tw_paper_set_make(&arena, result, &(tw_paper_taker){ .context = &offered, .take = refuse }, &why));
    assert_int_equal(offered, 1);
    tw_arena_finish(&arena);
    tw_result_free(result);
}

/* ---- papers laid out, watched ---- */

static bool count_papers(void *context, size_t done, size_t of)
{
    size_t *left = context;
    assert_true(done < of);
    if (*left == 0) return false;
    --*left;
    return true;
}

static void laying_out_stops_and_can_be_begun_again(void **state)
{
    (void)state;
    tw_result *result = sample_figures(usual, false), *whole = sample_set_out(usual);
    size_t left = 4;
    tw_papers_watch watch = { count_papers, &left };
    assert_false(tw_result_compose(result, &watch));
    assert_int_equal(result->papers.count, 0);
    assert_true(tw_result_compose(result, NULL));
    assert_int_equal(result->papers.count, whole->papers.count);
    tw_result_free(result);
    tw_result_free(whole);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_sheets_stand_in_it_as_they_are_with_one_number_more),
        cmocka_unit_test(every_page_but_the_cover_says_its_number_outside_the_frame),
        cmocka_unit_test(no_text_of_it_meets_another_or_leaves_the_paper),
        cmocka_unit_test(the_contents_name_the_page_on_which_each_sheet_stands),
        cmocka_unit_test(the_cover_leads_to_the_cautions_and_says_a_halt),
        cmocka_unit_test(a_job_of_loose_pieces_has_a_cover_too),
        cmocka_unit_test(the_same_job_gives_the_same_booklet),
        cmocka_unit_test(the_set_counts_its_parts_to_the_end),
        cmocka_unit_test(the_set_stops_when_it_is_told_to),
        cmocka_unit_test(a_file_that_is_not_taken_ends_the_set),
        cmocka_unit_test(laying_out_stops_and_can_be_begun_again),
    };
    return cmocka_run_group_tests(tests, set_samples_out, free_samples);
}
