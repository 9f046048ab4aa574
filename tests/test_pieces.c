// SPDX-License-Identifier: GPL-3.0-or-later
/* The setting-out drawings. Layout: every sheet of every example is looked over, on all papers, in both ways of projection and
 * of writing figures; and sheets of pieces with any cuts. Content: a piece with cuts known by heart. */
#define _POSIX_C_SOURCE 200809L
#include "check.h"

#include "examples.h"
#include "papers_jobs.h"
#include "sheet/pages.h"

/* ---- looking over ---- */

static void expect_calm(const tw_sheet *page, tw_arena *arena, const char *whose)
{
    int overlaps, off;
    const tw_overlap *lying = tw_sheet_overlaps(page, arena, &overlaps);
    const int *out = tw_sheet_texts_off_paper(page, 7.0, arena, &off);
    if (overlaps) print_error("%s, %s: \"%s\" lies on \"%s\"\n", whose, page->name, page->items[lying[0].first].text, page->items[lying[0].second].text);
    if (off) print_error("%s, %s: \"%s\" leaves the paper\n", whose, page->name, page->items[out[0]].text);
    assert_int_equal(overlaps + off, 0);
}

/* No line of any kind, arrow head or hatching runs through a text. */
static void expect_uncrossed(const tw_sheet *page, tw_arena *arena, const char *whose)
{
    int crossed;
    const tw_overlap *running = tw_sheet_crossed_texts(page, arena, &crossed);
    if (crossed) print_error("%s, %s: item %d runs through \"%s\"\n", whose, page->name, running[0].second, page->items[running[0].first].text);
    assert_int_equal(crossed, 0);
}

static tw_box reach(const tw_item *item)
{
    tw_point a = item->from, b = item->to;
    switch (item->kind) {
    case TW_ITEM_LINE: return (tw_box){ tw_min(a.x, b.x), tw_min(a.y, b.y), tw_max(a.x, b.x), tw_max(a.y, b.y) };
    case TW_ITEM_ARC: {
        tw_vertex ends[2] = { { 0 } };  // the arc, and its chord back
        for (int i = 0; i < 2; i++) {
            double at = item->start_rad + i * item->sweep_rad;
            ends[i] = (tw_vertex){ a.x + item->radius_mm * cos(at), a.y + item->radius_mm * sin(at), 0.0 };
        }
        ends[0].bulge = tan(item->sweep_rad / 4.0);
        return fabs(item->sweep_rad) > 6.28 ? (tw_box){ a.x - item->radius_mm, a.y - item->radius_mm, a.x + item->radius_mm, a.y + item->radius_mm }
                                            : tw_outline_bounds((tw_outline){ &(tw_loop){ ends, 2 }, 1 });
    }
    case TW_ITEM_OUTLINE: return tw_outline_bounds(item->outline);
    default: return tw_text_box(item);
    }
}

/* Everything stands within the page's frame; the frame itself and its marks have a role of their own. */
static void expect_within_frame(const tw_sheet *page, const char *whose)
{
    for (size_t i = 0; i < page->count; i++) {
        tw_box box = reach(&page->items[i]);
        double edge = TW_PAGE_MARGIN_MM - 0.01;
        if (box.x0 > box.x1 || page->items[i].role == TW_ROLE_FRAME || (box.x0 >= edge && box.y0 >= edge && box.x1 <= page->width_mm - edge && box.y1 <= page->height_mm - edge)) continue;
        print_error("%s, %s: item %zu reaches %.1f %.1f to %.1f %.1f\n", whose, page->name, i, box.x0, box.y0, box.x1, box.y1);
        fail();
    }
}

/* ---- every example ---- */

static void no_text_lies_on_another_on_any_sheet_of_any_example(void **state)
{
    (void)state;
    assert_true(example_count >= 10);
    for (int e = 0; e < example_count; e += example_stride()) {
        tw_result *result = set_out_example(examples[e], NULL, true);
        for (int i = 0; i < result->papers.count; i++)
            for (int k = 0; k < result->papers.items[i].page_count; k++) expect_calm(result->papers.items[i].pages[k], &result->arena, examples[e]);
        tw_result_free(result);
    }
}

static void setting_out_drawings_of_all_examples_are_clear_on_every_paper_and_in_every_figure(void **state)
{
    (void)state;
    static const char *const ways[] = { "paper: A4\nfigures: mm 0.1\nprojection: third angle\n", "paper: Letter\nfigures: in 1/64\nprojection: first angle\n",
                                        "paper: A4\nfigures: in 0.001\nprojection: third angle\n" };
    for (int e = 0; e < example_count; e += example_stride())
        for (int way = 0; way < 3; way++) {
            tw_result *result = set_out_example(examples[e], ways[way], false);
            tw_paper_input input = tw_result_input(result);
            tw_paper_pages pieces = tw_paper_pieces(&result->arena, &input);
            assert_true(pieces.page_count >= result->job->piece_count);
            for (int k = 0; k < pieces.page_count; k++) {
                expect_calm(pieces.pages[k], &result->arena, examples[e]);
                expect_uncrossed(pieces.pages[k], &result->arena, examples[e]);
                expect_within_frame(pieces.pages[k], examples[e]);
            }
            tw_result_free(result);
        }
}

/* ---- one piece with given cuts ---- */

typedef struct bench { tw_arena arena; tw_result *result; tw_job job; tw_piece piece; tw_joint_plan plan; tw_paper_input input; } bench;

/* A job of one piece, its cuts given by the test in the name of the sample's first joint. */
static tw_paper_pages drawn_with(bench *b, tw_size size, const tw_cut *cuts, int count, int projection)
{
    *b = (bench){ .result = sample_figures((sample_job){ .paper = "A4", .figures = "mm 0.1", .joints = true }, false) };
    b->job = *b->result->job;
    b->piece = b->job.pieces[0];
    b->piece.length.value = size.length_mm;
    b->piece.width.value = size.width_mm;
    b->piece.thickness.value = size.thickness_mm;
    b->job.pieces = &b->piece;
    b->job.piece_count = 1;
    b->job.projection.value = projection;
    tw_cut *own = TW_NEW_ARRAY(&b->arena, tw_cut, (size_t)count);
    for (int i = 0; i < count; i++) own[i] = cuts[i];
    b->plan = (tw_joint_plan){ .joint = &b->job.joints[0], .cuts = own, .cut_count = (size_t)count };
    b->input = tw_result_input(b->result);
    b->input.job = &b->job;
    b->input.plans = &b->plan;
    b->input.plan_count = 1;
    return tw_paper_pieces(&b->arena, &b->input);
}

static void clear_away(bench *b)
{
    tw_result_free(b->result);
    tw_arena_finish(&b->arena);
}

static int texts_saying(const tw_paper_pages *paper, const char *text)
{
    int count = 0;
    for (int p = 0; p < paper->page_count; p++)
        for (size_t i = 0; i < paper->pages[p]->count; i++) {
            const tw_item *item = &paper->pages[p]->items[i];
            count += item->kind == TW_ITEM_TEXT && strcmp(item->text, text) == 0;
        }
    return count;
}

static const tw_item *text_item(const tw_sheet *page, const char *text)
{
    for (size_t i = 0; i < page->count; i++)
        if (page->items[i].kind == TW_ITEM_TEXT && strcmp(page->items[i].text, text) == 0) return &page->items[i];
    fail_msg("\"%s\" is not on %s", text, page->name);
    return NULL;
}

static tw_cut box_cut(tw_arena *arena, const char *name, tw_face face, double x0, double y0, double x1, double y1, double depth)
{
    return (tw_cut){ .piece = 0, .joint = 0, .name = name, .face = face, .depth_mm = depth, .outline = tw_outline_rectangle(arena, x0, y0, x1, y1) };
}

/* A rail 400 x 60 x 40. On the left a tenon 50 long: 11 off the face, 13 off the back, so 16 stay. A mortise in the face, 30
 * deep, from 201 to 248 along and from 17 to 36 across. A hole of 9 through it at 305 along, 21 across. */
static tw_paper_pages sample_rail(bench *b, int projection)
{
    tw_arena own = {0};
    const tw_cut cuts[] = {
        box_cut(&own, "cheek", TW_SIDE_FACE, -5, -5, 50, 65, 11),
        box_cut(&own, "cheek", TW_SIDE_BACK, -5, -5, 50, 65, 13),
        box_cut(&own, "mortise", TW_SIDE_FACE, 201, 17, 248, 36, 30),
        { .name = "hole", .face = TW_SIDE_FACE, .depth_mm = 40, .through = true, .outline = tw_outline_circle(&own, (tw_point){ 305, 21 }, 4.5) },
    };
    tw_paper_pages pages = drawn_with(b, (tw_size){ 400, 60, 40 }, cuts, 4, projection);
    tw_arena_finish(&own);
    return pages;
}

/* What a maker must be able to read, each worked by hand from the cuts above; and how often it stands on the drawing. */
static void every_place_size_and_depth_of_a_cut_is_told(void **state)
{
    (void)state;
    bench b;
    tw_paper_pages paper = sample_rail(&b, 0);
    static const char *const told[] = {
        "400.0", "60.0", "40.0",  // over all
        "201.0", "47.0",          // mortise along: place, 248 - 201
        "17.0", "19.0", "30.0",   // across: place, 36 - 17; deep
        "305.0", "21.0", "9.0",   // hole: middle along and across, diameter in the table
        "50.0", "11.0", "16.0",   // shoulder, off the face, tenon: 40 - 11 - 13
    };
    for (size_t i = 0; i < sizeof told / sizeof *told; i++)
        if (texts_saying(&paper, told[i]) == 0) fail_msg("\"%s\" is not told", told[i]);
    static const char *const left_out[] = { "248.0", "36.0" };  // they follow from the others
    for (size_t i = 0; i < 2; i++) assert_int_equal(texts_saying(&paper, left_out[i]), 0);
    assert_int_equal(texts_saying(&paper, "13.0"), 1);  // follows from the others too: only the table has it
    clear_away(&b);
}

/* Unfolded: in third angle the face edge stands below the face, in first angle above it; the symbol says which. */
static void views_stand_as_the_way_of_projection_asks(void **state)
{
    (void)state;
    for (int third = 0; third < 2; third++) {
        bench b;
        tw_paper_pages paper = sample_rail(&b, third);
        const tw_sheet *page = paper.pages[0];
        double face = text_item(page, "Face")->from.y, edge = text_item(page, "Face edge")->from.y;
        if (third) assert_true(edge < face);
        else assert_true(edge > face);
        text_item(page, third ? "third angle" : "first angle");
        clear_away(&b);
    }
}

/* The scale in the title block is that of the lines: visible lines that stand over each other level, 60 mm of width apart. */
static void views_are_true_to_the_scale_that_is_told(void **state)
{
    (void)state;
    bench b;
    tw_paper_pages paper = sample_rail(&b, 0);
    const tw_sheet *page = paper.pages[0];
    double scale = 0.0;
    static const struct { const char *text; double factor; } scales[] = { { "1 : 1", 1.0 }, { "1 : 2", 0.5 }, { "1 : 5", 0.2 } };
    for (int i = 0; i < 3; i++)
        if (texts_saying(&(tw_paper_pages){ .pages = paper.pages, .page_count = 1 }, scales[i].text)) scale = scales[i].factor;
    assert_true(scale > 0.0);
    double top = -INFINITY, bottom = INFINITY, below_caption = text_item(page, "Face")->from.y;
    for (size_t i = 0; i < page->count; i++) {
        const tw_item *item = &page->items[i];
        bool long_level = item->kind == TW_ITEM_LINE && item->role == TW_ROLE_VISIBLE && fabs(item->from.y - item->to.y) < 1e-9 && fabs(item->from.x - item->to.x) > 20.0;
        if (!long_level || item->from.y > below_caption || item->from.y < below_caption - 130.0) continue;
        if (top == -INFINITY || item->from.y > top) top = item->from.y;
    }
    for (size_t i = 0; i < page->count; i++) {
        const tw_item *item = &page->items[i];
        if (item->kind == TW_ITEM_LINE && item->role == TW_ROLE_VISIBLE && fabs(item->from.y - item->to.y) < 1e-9 && fabs(item->from.x - item->to.x) > 10.0
            && fabs(top - item->from.y - 60.0 * scale) < 1e-6) bottom = item->from.y;
    }
    CHECK_NEAR(top - bottom, 60.0 * scale, 1e-6);
    clear_away(&b);
}

static int items_of_role(const tw_paper_pages *paper, tw_role role)
{
    int count = 0;
    for (int p = 0; p < paper->page_count; p++)
        for (size_t i = 0; i < paper->pages[p]->count; i++) count += paper->pages[p]->items[i].role == role;
    return count;
}

/* Sections through the mortise and the hole, the end for the tenon; hidden lines; letters at the planes, twice each. */
static void cuts_are_shown_in_sections_and_behind_wood_dashed(void **state)
{
    (void)state;
    bench b;
    tw_paper_pages paper = sample_rail(&b, 0);
    assert_int_equal(texts_saying(&paper, "A"), 2);
    assert_int_equal(texts_saying(&paper, "B"), 2);
    assert_int_equal(texts_saying(&paper, "C"), 0);
    assert_true(items_of_role(&paper, TW_ROLE_HATCH) > 10);
    assert_true(items_of_role(&paper, TW_ROLE_HIDDEN) >= 4);   // mortise and hole in the face edge
    assert_true(items_of_role(&paper, TW_ROLE_CENTRE) >= 4);   // crosses of both, planes
    clear_away(&b);
    tw_paper_pages plain = drawn_with(&b, (tw_size){ 400, 60, 40 }, NULL, 0, 0);
    assert_int_equal(items_of_role(&plain, TW_ROLE_HATCH), 0);
    assert_int_equal(texts_saying(&plain, "400.0"), 1);
    clear_away(&b);
}

/* Alike cuts share a letter and a row; a mirror image is another cut. */
static void alike_cuts_share_a_letter_and_mirror_images_do_not(void **state)
{
    (void)state;
    tw_arena own = {0};
    tw_vertex wedge[] = { { 0, 0, 0 }, { 30, 0, 0 }, { 20, 20, 0 }, { 0, 20, 0 } };
    tw_outline one = tw_outline_of_loop(&own, wedge, 4);
    const tw_cut cuts[] = {
        { .name = "housing", .face = TW_SIDE_FACE, .depth_mm = 8, .outline = tw_outline_moved(&own, one, 100, 20) },
        { .name = "housing", .face = TW_SIDE_FACE, .depth_mm = 8, .outline = tw_outline_moved(&own, one, 170, 20) },
        { .name = "housing", .face = TW_SIDE_FACE, .depth_mm = 8, .outline = tw_outline_moved(&own, tw_outline_mirrored(&own, one), 300, 20) },
    };
    bench b;
    tw_paper_pages paper = drawn_with(&b, (tw_size){ 400, 60, 40 }, cuts, 3, 1);
    assert_int_equal(texts_saying(&paper, "a"), 3);  // two on the drawing, one in the table
    assert_int_equal(texts_saying(&paper, "b"), 2);
    assert_int_equal(texts_saying(&paper, "housing, 2"), 1);
    assert_int_equal(texts_saying(&paper, "100.0; 170.0"), 1);
    assert_true(texts_saying(&paper, "120.0") == 1 && texts_saying(&paper, "130.0") == 1);  // both ends of the slanting wall
    clear_away(&b);
    tw_arena_finish(&own);
}

/* 3000 mm with a mortise near each end: at 1 : 20 it would go on the page whole, and nothing could be read. */
static void plain_wood_of_a_long_piece_is_left_out(void **state)
{
    (void)state;
    tw_arena own = {0};
    const tw_cut cuts[] = { box_cut(&own, "mortise", TW_SIDE_FACE, 60, 20, 110, 32, 25), box_cut(&own, "mortise", TW_SIDE_FACE, 2890, 20, 2940, 32, 25) };
    bench b;
    tw_paper_pages paper = drawn_with(&b, (tw_size){ 3000, 60, 40 }, cuts, 2, 0);
    assert_int_equal(texts_saying(&paper, "3000.0"), 1);
    assert_int_equal(texts_saying(&paper, "2890.0"), 1);
    assert_int_equal(texts_saying(&paper, "1 : 2"), 1);
    assert_non_null(strstr(text_item(paper.pages[0], "Set out from the left end, the face edge (caret) and the face (loop). Plain wood between zigzag lines is left out.")->text, "zigzag"));
    clear_away(&b);
    tw_arena_finish(&own);
}

/* ---- any piece ---- */

static tw_cut random_cut(check_seed *seed, tw_arena *arena, tw_size size)
{
    static const char *const names[] = { "mortise", "housing", "notch", "hole of the bolt", "groove of the haunch" };
    tw_face face = (tw_face)(check_random(seed) % TW_FACE_COUNT);
    tw_size extent = tw_face_extent(size, face);
    double x = check_between(seed, -0.1, 0.95) * extent.length_mm, y = check_between(seed, -0.2, 0.9) * extent.width_mm;
    double wide = check_between(seed, 0.02, 0.3) * extent.length_mm, high = check_between(seed, 0.1, 0.8) * extent.width_mm;
    tw_cut cut = { .name = names[check_random(seed) % 5], .face = face, .depth_mm = check_between(seed, 0.05, 0.9) * extent.thickness_mm, .through = check_random(seed) % 5 == 0 };
    switch (check_random(seed) % 4) {
    case 0: cut.outline = tw_outline_circle(arena, (tw_point){ x, y }, 0.2 * tw_min(wide, high)); break;
    case 1: cut.outline = tw_outline_rounded(arena, x, y, x + wide, y + high, 0.4 * tw_min(wide, high)); break;
    case 2: {
        tw_vertex slant[] = { { x, y, 0 }, { x + wide, y, 0 }, { x + 0.7 * wide, y + high, 0 }, { x, y + high, 0 } };
        cut.outline = tw_outline_of_loop(arena, slant, 4);
        break;
    }
    default: cut.outline = tw_outline_rectangle(arena, x, y, x + wide, y + high);
    }
    return cut;
}

static void drawings_of_pieces_with_any_cuts_are_clear(void **state)
{
    (void)state;
    check_seed seed = { 11 };
    for (int round = 0; round < 10; round++) {
        tw_arena own = {0};
        tw_size size = { exp(check_between(&seed, log(60.0), log(6000.0))), exp(check_between(&seed, log(12.0), log(400.0))), exp(check_between(&seed, log(6.0), log(90.0))) };
        tw_cut cuts[12];
        int count = (int)(check_random(&seed) % 12);
        for (int i = 0; i < count; i++) cuts[i] = random_cut(&seed, &own, size);
        bench b;
        tw_paper_pages paper = drawn_with(&b, size, cuts, count, round % 2);
        const char *whose = tw_format(&own, "round %d", round);
        assert_true(paper.page_count >= 1);
        for (int p = 0; p < paper.page_count; p++) {
            expect_calm(paper.pages[p], &own, whose);
            expect_uncrossed(paper.pages[p], &own, whose);
            expect_within_frame(paper.pages[p], whose);
        }
        clear_away(&b);
        tw_arena_finish(&own);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_text_lies_on_another_on_any_sheet_of_any_example),
        cmocka_unit_test(setting_out_drawings_of_all_examples_are_clear_on_every_paper_and_in_every_figure),
        cmocka_unit_test(every_place_size_and_depth_of_a_cut_is_told),
        cmocka_unit_test(views_stand_as_the_way_of_projection_asks),
        cmocka_unit_test(views_are_true_to_the_scale_that_is_told),
        cmocka_unit_test(cuts_are_shown_in_sections_and_behind_wood_dashed),
        cmocka_unit_test(alike_cuts_share_a_letter_and_mirror_images_do_not),
        cmocka_unit_test(plain_wood_of_a_long_piece_is_left_out),
        cmocka_unit_test(drawings_of_pieces_with_any_cuts_are_clear),
    };
    return cmocka_run_group_tests(tests, find_examples, drop_examples);
}
