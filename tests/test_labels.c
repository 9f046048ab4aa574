// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include "draw/labels.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static tw_sheet *page(void) { return tw_sheet_new(&arena, "page", "A page", 200.0, 200.0); }
static const tw_box anywhere = { 1, 1, 0, 0 };

static void a_label_on_empty_paper_stands_on_its_point(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    assert_true(tw_draw_label(sheet, (tw_point){ 100, 100 }, 2.5, true, 10.0, anywhere, "a"));
    tw_box box = tw_text_box(&sheet->items[0]);
    CHECK_NEAR((box.x0 + box.x1) / 2.0, 100.0, 1e-9);
    CHECK_NEAR((box.y0 + box.y1) / 2.0, 100.0, 1e-9);
    assert_int_equal(sheet->count, 1);  // no line to it
}

/* A level line through the point, with room 5 mm above and none below: the label goes up. */
static void a_label_goes_to_the_nearest_free_place_within_its_box(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_line(sheet, TW_ROLE_VISIBLE, 0, 100, 200, 100);
    assert_true(tw_draw_label(sheet, (tw_point){ 100, 100 }, 2.5, false, 10.0, (tw_box){ 0, 99, 200, 110 }, "H"));
    tw_box box = tw_text_box(&sheet->items[1]);
    assert_true(box.y0 > 100.0 + 0.6 - 1e-9 && box.y0 < 100.0 + 0.6 + 1.0);  // rings lie 1 mm apart
}

static void without_a_free_place_nothing_is_drawn(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    for (int i = 0; i <= 100; i++) tw_draw_line(sheet, TW_ROLE_HATCH, 0, 2.0 * i, 200, 2.0 * i);
    size_t before = sheet->count;
    assert_false(tw_draw_label(sheet, (tw_point){ 100, 100 }, 2.5, false, 20.0, anywhere, "a"));
    assert_int_equal(sheet->count, before);
}

static void faint_and_grey_parts_may_lie_under_a_label(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_line(sheet, TW_ROLE_FAINT, 0, 100, 200, 100);
    tw_draw_box(sheet, TW_ROLE_SHADE, 90, 90, 110, 110);
    assert_true(tw_draw_label(sheet, (tw_point){ 100, 100 }, 2.5, false, 0.0, anywhere, "a"));
}

/* Random clutter of every kind; then labels until no more find room. Looked over by the sheet's own eyes. */
static void labels_on_a_crowded_sheet_touch_nothing(void **state)
{
    (void)state;
    check_seed seed = { 77 };
    int placed = 0, refused = 0;
    for (int round = 0; round < 50; round++) {
        tw_sheet *sheet = page();
        for (int i = 0; i < 60; i++) {
            double x = check_between(&seed, 20, 180), y = check_between(&seed, 20, 180);
            switch (i % 4) {
            case 0: tw_draw_line(sheet, TW_ROLE_HIDDEN, x, y, check_between(&seed, 20, 180), check_between(&seed, 20, 180)); break;
            case 1: tw_draw_arc(sheet, TW_ROLE_CENTRE, x, y, check_between(&seed, 1, 30), check_between(&seed, -3, 3), check_between(&seed, -6, 6)); break;
            case 2: tw_draw_arrow_head(sheet, x, y, check_between(&seed, -3, 3), 3.0); break;
            default: tw_draw_outline(sheet, TW_ROLE_VISIBLE, tw_outline_rounded(&arena, x, y, x + 20, y + 12, 4)); break;
            }
        }
        for (int i = 0; i < 40; i++) {
            tw_point on = { check_between(&seed, 20, 180), check_between(&seed, 20, 180) };
            bool good = tw_draw_label(sheet, on, 2.5, i % 2, 12.0, (tw_box){ 0, 0, 200, 200 }, tw_format(&arena, "%d", 100 * i + 7));
            placed += good;
            refused += !good;
        }
        int overlaps, crossed;
        tw_sheet_overlaps(sheet, &arena, &overlaps);
        tw_sheet_crossed_texts(sheet, &arena, &crossed);
        assert_int_equal(overlaps, 0);
        assert_int_equal(crossed, 0);
        tw_arena_finish(&arena);
    }
    assert_true(placed > 200 && refused > 20);  // both were met
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_label_on_empty_paper_stands_on_its_point),
        cmocka_unit_test(a_label_goes_to_the_nearest_free_place_within_its_box),
        cmocka_unit_test(without_a_free_place_nothing_is_drawn),
        cmocka_unit_test(faint_and_grey_parts_may_lie_under_a_label),
        cmocka_unit_test(labels_on_a_crowded_sheet_touch_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, finish);
}
