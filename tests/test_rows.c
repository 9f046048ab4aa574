// SPDX-License-Identifier: GPL-3.0-or-later
/* What rows promise is looked for on the drawn sheet, by other means than they are placed with: texts on texts, anything
 * that runs through a text, every text there, longer measures outside. */
#include "check.h"

#include "draw/rows.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static tw_rows rows_on(tw_rows_side side)
{
    return (tw_rows){ .arena = &arena, .side = side, .border = 200.0, .first_mm = TW_ROWS_FIRST_MM, .size_mm = 2.5, .least = 30.0, .most = 330.0 };
}

static tw_sheet *drawn(tw_rows *rows)
{
    tw_rows_place(rows);
    tw_sheet *sheet = tw_sheet_new(&arena, "page", "A page", 400.0, 400.0);
    tw_rows_draw(rows, sheet);
    return sheet;
}

static int texts_saying(const tw_sheet *sheet, const char *text)
{
    int count = 0;
    for (size_t i = 0; i < sheet->count; i++) count += sheet->items[i].kind == TW_ITEM_TEXT && strcmp(sheet->items[i].text, text) == 0;
    return count;
}

static void expect_clear(const tw_sheet *sheet)
{
    int overlaps, crossed;
    tw_overlap *lying = tw_sheet_overlaps(sheet, &arena, &overlaps), *running = tw_sheet_crossed_texts(sheet, &arena, &crossed);
    if (overlaps) print_error("\"%s\" lies on \"%s\"\n", sheet->items[lying[0].first].text, sheet->items[lying[0].second].text);
    if (crossed) {
        const tw_item *item = &sheet->items[running[0].second];
        tw_box box = tw_text_box(&sheet->items[running[0].first]);
        print_error("item %d (kind %d, from %.2f %.2f to %.2f %.2f) runs through \"%s\" (%.2f %.2f to %.2f %.2f)\n", running[0].second, item->kind,
                    item->from.x, item->from.y, item->to.x, item->to.y, sheet->items[running[0].first].text, box.x0, box.y0, box.x1, box.y1);
    }
    assert_int_equal(overlaps, 0);
    assert_int_equal(crossed, 0);
}

static void expect_longer_outside(const tw_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++)
        for (size_t k = 0; k < rows->count; k++) {
            const tw_measure *a = &rows->measures[i], *b = &rows->measures[k];
            bool overlap = tw_max(a->from, b->from) < tw_min(a->to, b->to) - 0.02, longer = a->to - a->from > b->to - b->from + 0.02;
            if (overlap && longer) assert_true(a->row > b->row);
        }
}

/* ---- single cases ---- */

static void one_measure_stands_in_the_first_row_with_its_text_in_the_middle(void **state)
{
    (void)state;
    tw_rows rows = rows_on(TW_ROWS_BELOW);
    tw_rows_measure(&rows, 160.0, 100.0, 200.0, 210.0, "60.0");  // in any order
    tw_sheet *sheet = drawn(&rows);
    const tw_item *text = NULL;
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].kind == TW_ITEM_TEXT) text = &sheet->items[i];
    CHECK_NEAR(text->from.x, 130.0 - 0.5 * tw_text_width(2.5, false, "60.0"), 1e-9);
    CHECK_NEAR(text->from.y, 200.0 - 8.0 + 1.0, 1e-9);  // first row 8 below the border, lift 0.4 x 2.5
    assert_int_equal(rows.row_count, 1);
    assert_true(rows.proved);
    CHECK_NEAR(rows.overrun_mm, 0.0, 0.0);
    CHECK_NEAR(rows.measures[0].from_root, 210.0, 0.0);  // the roots went with their ends
}

static void a_chain_shares_one_row_and_the_whole_stands_outside(void **state)
{
    (void)state;
    tw_rows rows = rows_on(TW_ROWS_ABOVE);
    tw_rows_measure(&rows, 100.0, 190.0, 200.0, 200.0, "all");
    tw_rows_measure(&rows, 100.0, 130.0, 200.0, 200.0, "a");
    tw_rows_measure(&rows, 130.0, 160.0, 200.0, 200.0, "b");
    tw_rows_measure(&rows, 160.0, 190.0, 200.0, 200.0, "c");
    expect_clear(drawn(&rows));
    for (size_t i = 0; i < 4; i++) assert_int_equal(rows.measures[i].row, i == 0 ? 1 : 0);
}

/* A line runs just through the middle of the wider span: its text steps aside and stays between the arrows. */
static void a_text_steps_aside_for_an_extension_line(void **state)
{
    (void)state;
    tw_rows rows = rows_on(TW_ROWS_BELOW);
    tw_rows_measure(&rows, 100.0, 160.0, 200.0, 200.0, "60.0");
    tw_rows_measure(&rows, 130.0, 240.0, 200.0, 200.0, "110.0");
    expect_clear(drawn(&rows));
    const tw_measure *m = &rows.measures[0];
    double wide = tw_text_width(2.5, false, "60.0");
    assert_true(m->text_at > 100.0 && m->text_at + wide < 160.0);
    assert_true(m->text_at > 130.0 || m->text_at + wide < 130.0);
}

static void what_stands_there_already_is_not_added(void **state)
{
    (void)state;
    tw_rows rows = rows_on(TW_ROWS_BELOW);
    for (int i = 0; i < 3; i++) {
        tw_rows_measure(&rows, 100.0, 160.0, 200.0, 200.0, "60.0");
        tw_rows_measure(&rows, 160.0, 100.0, 200.0, 200.0, "60.0");
        tw_rows_measure(&rows, 100.0, 100.0, 200.0, 200.0, "0.0");
        tw_rows_stop(&rows, 100.0, 200.0, "0");
    }
    assert_int_equal(rows.count, 1);
    assert_int_equal(rows.stop_count, 1);
}

static void without_measures_nothing_is_taken_of_the_paper(void **state)
{
    (void)state;
    tw_rows rows = rows_on(TW_ROWS_LEFT);
    assert_int_equal(drawn(&rows)->count, 0);
    CHECK_NEAR(tw_rows_depth_mm(&rows), 0.0, 0.0);
}

/* ---- spreading ---- */

/* By hand: two that want 10 and 11, 4 apart, go 1.5 each; three on one place go to either side. */
static void marks_spread_evenly_about_where_they_want_to_be(void **state)
{
    (void)state;
    double out[5];
    tw_spread(&arena, (double[]){ 10, 11 }, 2, 4.0, 0, 0, out);
    CHECK_NEAR(out[0], 8.5, 1e-12);
    CHECK_NEAR(out[1], 12.5, 1e-12);
    tw_spread(&arena, (double[]){ 10, 10, 10 }, 3, 4.0, 0, 0, out);
    CHECK_NEAR(out[0], 6.0, 1e-12);
    CHECK_NEAR(out[2], 14.0, 1e-12);
    tw_spread(&arena, (double[]){ 10, 10, 10 }, 3, 4.0, 8, 40, out);  // against the lower limit
    CHECK_NEAR(out[0], 8.0, 1e-12);
    CHECK_NEAR(out[1], 12.0, 1e-12);
    tw_spread(&arena, (double[]){ 1, 20, 50 }, 3, 4.0, 0, 60, out);
    CHECK_NEAR(out[1], 20.0, 0.0);
}

static double sum_of_squares(const double *a, const double *b, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) sum += tw_square(a[i] - b[i]);
    return sum;
}

/* The projection onto a convex set is told by this: no other point of the set lies nearer. Random members of the set and
 * small steps from the answer are tried. */
static void no_other_spreading_moves_marks_less(void **state)
{
    (void)state;
    check_seed seed = { 41 };
    for (int round = 0; round < 400; round++) {
        double at[7], out[7], other[7];
        int count = 1 + (int)(check_random(&seed) % 7);
        for (int i = 0; i < count; i++) at[i] = (i ? at[i - 1] : 0.0) + check_between(&seed, 0.0, 6.0);
        tw_spread(&arena, at, count, 4.0, 0.0, 60.0, out);
        for (int i = 0; i < count; i++) {
            assert_true(out[i] >= -1e-9 && out[i] <= 60.0 + 1e-9);
            if (i) assert_true(out[i] >= out[i - 1] + 4.0 - 1e-9);
        }
        for (int trial = 0; trial < 200; trial++) {
            double reach = trial % 2 ? 3.0 : 0.05;
            bool member = true;
            for (int i = 0; i < count; i++) {
                other[i] = out[i] + check_between(&seed, -reach, reach);
                member = member && other[i] >= 0.0 && other[i] <= 60.0 && (i == 0 || other[i] >= other[i - 1] + 4.0);
            }
            if (member) assert_true(sum_of_squares(other, at, count) >= sum_of_squares(out, at, count) - 1e-9);
        }
    }
}

static void figures_of_a_run_stand_apart_in_the_order_of_their_places(void **state)
{
    (void)state;
    for (int side = 0; side < 4; side++) {
        tw_rows rows = rows_on((tw_rows_side)side);
        tw_rows_stop(&rows, 50.0, 200.0, "0");
        for (int i = 0; i < 12; i++) tw_rows_stop(&rows, 300.0 - 1.5 * i, 200.0, tw_format(&arena, "%.1f", 250.0 - 1.5 * i));
        tw_sheet *sheet = drawn(&rows);
        expect_clear(sheet);
        for (int i = 0; i < 12; i++) assert_int_equal(texts_saying(sheet, tw_format(&arena, "%.1f", 250.0 - 1.5 * i)), 1);
        for (size_t i = 2; i < rows.stop_count; i++) assert_true(rows.stops[i].text_at <= rows.stops[i - 1].text_at - 3.75 + 1e-9);
        CHECK_NEAR(rows.overrun_mm, 0.0, 0.0);
    }
}

/* ---- any measures ---- */

static const char *random_text(check_seed *seed, int number)
{
    static const char *const ends[] = { ".5", " 3/8", " 27/64 heavy", "", ".25)" };
    return tw_format(&arena, "%d%s", number + 10, ends[check_random(seed) % 5]);
}

/* Places on a coarse grid, so that ends fall together; or anywhere, crowded; or few and far apart. */
static tw_rows random_rows(check_seed *seed, int round)
{
    tw_rows rows = rows_on((tw_rows_side)(round % 4));
    double step = round % 3 == 0 ? 10.0 : 0.001, wide = round % 5 == 0 ? 20.0 : 260.0;
    int count = 1 + (int)(check_random(seed) % 16), stops = round % 2 ? (int)(check_random(seed) % 12) : 0;
    for (int i = 0; i < count; i++) {
        double from = 50.0 + step * floor(check_between(seed, 0.0, wide) / step), to = 50.0 + step * floor(check_between(seed, 0.0, wide) / step);
        double root = rows.side == TW_ROWS_BELOW || rows.side == TW_ROWS_LEFT ? 200.0 + check_between(seed, 0.0, 40.0) : 200.0 - check_between(seed, 0.0, 40.0);
        tw_rows_measure(&rows, from, to, root, root, random_text(seed, i));
    }
    for (int i = 0; i < stops; i++) tw_rows_stop(&rows, 50.0 + step * floor(check_between(seed, 0.0, wide) / step), 200.0, random_text(seed, 40 + i));
    return rows;
}

static void expect_within_reach(const tw_rows *rows, const tw_sheet *sheet)
{
    double least, most, depth = tw_rows_depth_mm(rows);
    tw_rows_reach(rows, &least, &most);
    bool level = rows->side == TW_ROWS_BELOW || rows->side == TW_ROWS_ABOVE, up = rows->side == TW_ROWS_ABOVE || rows->side == TW_ROWS_RIGHT;
    for (size_t i = 0; i < sheet->count; i++) {
        if (sheet->items[i].kind != TW_ITEM_TEXT) continue;
        tw_box box = tw_text_box(&sheet->items[i]);
        double along0 = level ? box.x0 : box.y0, along1 = level ? box.x1 : box.y1;
        double out = up ? (level ? box.y1 : box.x1) - rows->border : rows->border - (level ? box.y0 : box.x0);
        assert_true(along0 >= least - 1e-6 && along1 <= most + 1e-6 && out <= depth + 1e-6);
    }
}

static void whatever_is_measured_no_text_is_touched_and_none_is_missing(void **state)
{
    (void)state;
    check_seed seed = { 2024 };
    int proved = 0, rounds = 1200;
    for (int round = 0; round < rounds; round++) {
        tw_rows rows = random_rows(&seed, round);
        tw_sheet *sheet = drawn(&rows);
        expect_clear(sheet);
        expect_longer_outside(&rows);
        expect_within_reach(&rows, sheet);
        for (size_t i = 0; i < rows.count; i++) assert_int_equal(texts_saying(sheet, rows.measures[i].text), 1);
        for (size_t i = 0; i < rows.stop_count; i++) assert_int_equal(texts_saying(sheet, rows.stops[i].text), 1);
        proved += rows.proved;
        if (round % 100 == 99) tw_arena_finish(&arena);
    }
    print_message("# proved the best in %d of %d\n", proved, rounds);
    assert_true(proved > rounds / 2);
}

static void the_most_measures_a_side_can_have_are_placed_too(void **state)
{
    (void)state;
    check_seed seed = { 5 };
    tw_rows rows = rows_on(TW_ROWS_BELOW);
    for (int i = 0; i < TW_ROWS_MOST; i++) {
        double from = check_between(&seed, 50.0, 250.0);
        tw_rows_measure(&rows, from, from + check_between(&seed, 1.0, 60.0), 200.0, 200.0, tw_format(&arena, "%d", 1000 + i));
    }
    expect_clear(drawn(&rows));
    expect_longer_outside(&rows);
}

static void the_same_measures_give_the_same_rows(void **state)
{
    (void)state;
    check_seed one = { 9 }, two = { 9 };
    for (int round = 0; round < 50; round++) {
        tw_rows a = random_rows(&one, round), b = random_rows(&two, round);
        tw_rows_place(&a);
        tw_rows_place(&b);
        for (size_t i = 0; i < a.count; i++) {
            assert_int_equal(a.measures[i].row, b.measures[i].row);
            CHECK_NEAR(a.measures[i].text_at, b.measures[i].text_at, 0.0);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_measure_stands_in_the_first_row_with_its_text_in_the_middle),
        cmocka_unit_test(a_chain_shares_one_row_and_the_whole_stands_outside),
        cmocka_unit_test(a_text_steps_aside_for_an_extension_line),
        cmocka_unit_test(what_stands_there_already_is_not_added),
        cmocka_unit_test(without_measures_nothing_is_taken_of_the_paper),
        cmocka_unit_test(marks_spread_evenly_about_where_they_want_to_be),
        cmocka_unit_test(no_other_spreading_moves_marks_less),
        cmocka_unit_test(figures_of_a_run_stand_apart_in_the_order_of_their_places),
        cmocka_unit_test(whatever_is_measured_no_text_is_touched_and_none_is_missing),
        cmocka_unit_test(the_most_measures_a_side_can_have_are_placed_too),
        cmocka_unit_test(the_same_measures_give_the_same_rows),
    };
    return cmocka_run_group_tests(tests, NULL, finish);
}
