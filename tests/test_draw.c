// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include "draw/draw.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static tw_sheet *page(void) { return tw_sheet_new(&arena, "page", "A page", 210.0, 297.0); }

static int texts_on(const tw_sheet *sheet)
{
    int count = 0;
    for (size_t i = 0; i < sheet->count; i++) count += sheet->items[i].kind == TW_ITEM_TEXT;
    return count;
}

static const tw_item *text_item(const tw_sheet *sheet, const char *text)
{
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].kind == TW_ITEM_TEXT && strcmp(sheet->items[i].text, text) == 0) return &sheet->items[i];
    return NULL;
}

static void check_calm(const tw_sheet *sheet, double edge_mm)
{
    int overlaps, off;
    tw_overlap *found = tw_sheet_overlaps(sheet, &arena, &overlaps);
    for (int i = 0; i < overlaps; i++)
        print_error("overlap: %s | %s\n", sheet->items[found[i].first].text, sheet->items[found[i].second].text);
    tw_sheet_texts_off_paper(sheet, edge_mm, &arena, &off);
    assert_int_equal(overlaps, 0);
    assert_int_equal(off, 0);
}

/* ---- widths --------------------------------------------------------------------------------------------------- */

/* Advances from the font files' own tables (hmtx of DejaVu Sans 2.37): H 1540, 0 1303, space 651; bold: H 1714; a capital
 * H is 1493 high (glyf). The whole table is held to the installed font in test_print.c. */
static void width_of_a_line_is_the_sum_of_its_advances(void **state)
{
    (void)state;
    CHECK_NEAR(tw_text_width(1493.0, false, "H"), 1540.0, 1e-9);
    CHECK_NEAR(tw_text_width(1493.0, true, "H"), 1714.0, 1e-9);
    CHECK_NEAR(tw_text_width(2.5, false, "H0 0"), 2.5 * (1540 + 1303 + 651 + 1303) / 1493.0, 1e-9);
    CHECK_NEAR(tw_text_width(2.5, false, ""), 0.0, 0.0);
    CHECK_NEAR(1.0 / TW_EM_PER_CAPITAL, 0.729, 0.0001);
}

static void unknown_writing_and_broken_bytes_become_boxes(void **state)
{
    (void)state;
    assert_string_equal(tw_text_shown(&arena, false, "a\xE6\x9C\xA8" "b\xFF\xC3"), "a\xE2\x96\xA1" "b\xE2\x96\xA1\xE2\x96\xA1");
    CHECK_NEAR(tw_text_width(2.5, false, "\xE6\x9C\xA8"), tw_text_width(2.5, false, "\xE2\x96\xA1"), 1e-12);
    assert_string_equal(tw_text_shown(&arena, false, "\xE2\x80\xAE" "x"), "\xE2\x96\xA1" "x");  // right-to-left override
    assert_string_equal(tw_text_shown(&arena, false, "\xED\xA0\x80\xC0\x80"), "\xE2\x96\xA1\xE2\x96\xA1\xE2\x96\xA1\xE2\x96\xA1\xE2\x96\xA1");
}

static void blanks_and_control_characters_are_tamed(void **state)
{
    (void)state;
    assert_string_equal(tw_text_shown(&arena, false, "a\tb\nc\xE2\x80\x89" "d\xE2\x80\xAF" "e\xC2\xAD" "f"), "a b c d\xC2\xA0" "ef");
    assert_string_equal(tw_text_shown(&arena, false, "\x01"), "\xE2\x96\xA1");
}

static void any_bytes_become_a_text_that_stays_as_it_is(void **state)
{
    (void)state;
    check_seed seed = { 3 };
    static const char *const bits[] = { "\xC3", "\xA9", "\xE2\x80", "\xF0\x9F\x98\x80", "a", " ", "\n", "-", "\xC2\xAD", "\xE6\x9C\xA8", "\xFF", "½" };
    for (int round = 0; round < 2000; round++) {
        char text[100] = "";
        for (int i = 0; i < 20; i++) strcat(text, bits[check_random(&seed) % 12]);
        const char *shown = tw_text_shown(&arena, round % 2, text);
        assert_string_equal(tw_text_shown(&arena, round % 2, shown), shown);
        CHECK_NEAR(tw_text_width(2.5, round % 2, shown), tw_text_width(2.5, round % 2, text), 1e-9);
        double width = check_between(&seed, 0.1, 40);
        tw_sheet *sheet = page();
        double y = tw_draw_paragraph(sheet, 0, 0, width, 2.5, round % 2, text);
        CHECK_NEAR(y, -tw_text_lines(width, 2.5, round % 2, text) * TW_LEADING * 2.5, 1e-9);
        const char *fitted = tw_text_fitted(&arena, width, 2.5, round % 2, text);
        assert_true(tw_text_width(2.5, round % 2, fitted) <= width + 1e-5);
    }
}

static void signs_used_on_papers_are_in_both_faces(void **state)
{
    (void)state;
    const char *signs = "°±×÷½¼¾⅛⅜⅝⅞′″–—…→←↑↓↔•αβφμ≤≥≈✓☐−ØøÅßžłğșЖжΩ";
    assert_string_equal(tw_text_shown(&arena, false, signs), signs);
    assert_string_equal(tw_text_shown(&arena, true, signs), signs);
}

/* ---- paragraphs ----------------------------------------------------------------------------------------------- */

static void paragraph_breaks_between_words_and_returns_the_next_base_line(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    double wide = tw_text_width(2.5, false, "Saw the stick") + 0.01;
    double y = tw_draw_paragraph(sheet, 20, 100, wide, 2.5, false, "Saw the stick to length");
    assert_int_equal(texts_on(sheet), 2);
    assert_string_equal(sheet->items[0].text, "Saw the stick");
    assert_string_equal(sheet->items[1].text, "to length");
    CHECK_NEAR(sheet->items[1].from.y, 100 - 1.7 * 2.5, 1e-12);
    CHECK_NEAR(y, 100 - 2 * 1.7 * 2.5, 1e-12);
    assert_int_equal(tw_text_lines(wide, 2.5, false, "Saw the stick to length"), 2);
}

static void paragraph_keeps_line_ends_and_no_break_spaces(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_paragraph(sheet, 20, 100, 100, 2.5, false, "one\ntwo\n\nfour");
    assert_int_equal(texts_on(sheet), 3);  // the empty line has no mark
    CHECK_NEAR(text_item(sheet, "four")->from.y, 100 - 3 * TW_LEADING * 2.5, 1e-12);
    double wide = tw_text_width(2.5, false, "set to 38") + 0.1;
    tw_draw_paragraph(sheet, 20, 50, wide, 2.5, false, "set to 38\xC2\xA0mm");
    assert_non_null(text_item(sheet, "set to"));
    assert_non_null(text_item(sheet, "38\xC2\xA0mm"));
}

static void compound_words_break_after_their_hyphen_but_amounts_do_not(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    double wide = tw_text_width(2.5, false, "Schwalbenschwanz-") + 0.1;
    tw_draw_paragraph(sheet, 20, 100, wide, 2.5, false, "Schwalbenschwanz-Leiste");
    assert_non_null(text_item(sheet, "Schwalbenschwanz-"));
    wide = tw_text_width(2.5, false, "width 1-1/2") - 0.1;
    tw_draw_paragraph(sheet, 20, 50, wide, 2.5, false, "width 1-1/2");
    assert_non_null(text_item(sheet, "1-1/2"));
}

static void no_line_of_a_paragraph_is_too_wide_and_no_letter_is_lost(void **state)
{
    (void)state;
    check_seed seed = { 7 };
    for (int round = 0; round < 500; round++) {
        char text[120] = "", back[120] = "", want[120] = "";
        int length = (int)check_between(&seed, 1, 110), wanted = 0, got = 0;
        for (int i = 0; i < length; i++) {
            text[i] = "abc WMil-"[(int)check_between(&seed, 0, 8.999)];
            if (text[i] != ' ') want[wanted++] = text[i];
        }
        double width = check_between(&seed, 6, 60);
        tw_sheet *sheet = page();
        tw_draw_paragraph(sheet, 20, 250, width, 2.5, round % 2, text);
        for (size_t i = 0; i < sheet->count; i++) {
            const char *line = sheet->items[i].text;
            assert_true(tw_text_width(2.5, round % 2, line) <= width + 1e-6);
            for (; *line; line++) if (*line != ' ') back[got++] = *line;
        }
        assert_string_equal(back, want);
    }
}

static void fitted_text_ends_in_an_ellipsis_only_when_it_must(void **state)
{
    (void)state;
    const char *name = "Stretcher of the reading table";
    assert_string_equal(tw_text_fitted(&arena, 100, 2.5, false, name), name);
    const char *fitted = tw_text_fitted(&arena, 30, 2.5, false, name);
    CHECK_HOLDS(fitted, "\xE2\x80\xA6");
    CHECK_HOLDS(fitted, "Stretcher of");
    assert_true(tw_text_width(2.5, false, fitted) <= 30.0 + 1e-6);
    assert_string_equal(tw_text_fitted(&arena, 1.0, 2.5, false, name), "");
}

/* ---- ink, overlaps -------------------------------------------------------------------------------------------- */

static void ink_box_reaches_from_the_base_line_to_the_capital_height(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_text(sheet, 50, 60, 5, TW_ANCHOR_MIDDLE, "HH");
    tw_draw_text_turned(sheet, 50, 60, 5, TW_ANCHOR_LEFT, TW_PI / 2, "HH");
    double wide = 2 * 5 * 1540 / 1493.0;
    tw_box level = tw_text_box(&sheet->items[0]), upright = tw_text_box(&sheet->items[1]);
    CHECK_NEAR(level.x0, 50 - wide / 2, 1e-9);
    CHECK_NEAR(level.y0, 60, 1e-9);
    CHECK_NEAR(level.y1, 65, 1e-9);
    CHECK_NEAR(upright.x0, 45, 1e-9);
    CHECK_NEAR(upright.x1, 50, 1e-9);
    CHECK_NEAR(upright.y1, 60 + wide, 1e-9);
    tw_draw_text(sheet, 50, 60, 5, TW_ANCHOR_LEFT, "  ");
    tw_box blank = tw_text_box(&sheet->items[2]);
    assert_true(blank.x0 > blank.x1);
}

static void texts_that_overlap_are_listed_and_neighbours_are_not(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    int count;
    double wide = tw_text_width(2.5, false, "38.0");
    tw_draw_text(sheet, 20, 20, 2.5, TW_ANCHOR_LEFT, "38.0");
    tw_draw_text(sheet, 20 + wide, 20, 2.5, TW_ANCHOR_LEFT, "38.0");
    tw_draw_text(sheet, 20, 22.7, 2.5, TW_ANCHOR_LEFT, "38.0");
    assert_null(tw_sheet_overlaps(sheet, &arena, &count));
    assert_int_equal(count, 0);
    tw_draw_text(sheet, 20 + wide / 2, 21, 2.5, TW_ANCHOR_LEFT, "7");
    tw_overlap *found = tw_sheet_overlaps(sheet, &arena, &count);
    assert_int_equal(count, 2);  // the first and the third; the second stands just clear
    assert_int_equal(found[0].first, 0);
    assert_int_equal(found[0].second, 3);
}

static void slanted_texts_are_judged_as_they_lie(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    int count;
    tw_draw_text_turned(sheet, 50, 50, 2.5, TW_ANCHOR_LEFT, TW_PI / 4, "a long slanted text");
    tw_draw_text(sheet, 62, 52, 2.5, TW_ANCHOR_LEFT, "below it");  // inside the box around, clear of the ink
    tw_box around = tw_text_box(&sheet->items[0]);
    assert_true(around.x1 > 63 && around.y0 < 52);
    tw_sheet_overlaps(sheet, &arena, &count);
    assert_int_equal(count, 0);
    tw_draw_text(sheet, 55, 58, 2.5, TW_ANCHOR_LEFT, "across");
    tw_sheet_overlaps(sheet, &arena, &count);
    assert_int_equal(count, 1);
}

static void texts_over_the_edge_of_the_paper_are_listed(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    int count;
    tw_draw_text(sheet, 205, 20, 2.5, TW_ANCHOR_RIGHT, "inside");
    tw_draw_text(sheet, 205, 30, 2.5, TW_ANCHOR_LEFT, "outside");
    tw_draw_text(sheet, 100, 0.2, 2.5, TW_ANCHOR_LEFT, "gap");  // its g hangs over the lower edge
    int *found = tw_sheet_texts_off_paper(sheet, 0, &arena, &count);
    assert_int_equal(count, 2);
    assert_int_equal(found[0], 1);
    assert_int_equal(found[1], 2);
    tw_sheet_texts_off_paper(sheet, 10, &arena, &count);
    assert_int_equal(count, 3);
}

/* ---- edges, roles, papers ------------------------------------------------------------------------------------- */

/* Checks 9-08 (bulge of 90 degrees: published reference of the DXF format's keepers), 9-09 and 9-10 (computed there by
 * r = c (1 + b^2) / 4b, sagitta = b c / 2). */
static void bulges_give_the_published_arcs(void **state)
{
    (void)state;
    tw_edge edge = tw_edge_of((tw_vertex){ 0, 0, 0.414214 }, (tw_vertex){ 100, 0, 0 });
    CHECK_NEAR(edge.radius_mm, 70.7107, 1e-4);
    CHECK_NEAR(tw_degrees(edge.sweep_rad), 90.0, 1e-4);
    CHECK_NEAR(edge.centre.x, 50.0, 1e-9);
    CHECK_NEAR(edge.radius_mm - edge.centre.y, 20.7107, 1e-4);  // counter-clockwise: the arc sags below the chord
    edge = tw_edge_of((tw_vertex){ 0, 0, 0.5 }, (tw_vertex){ 2, 0, 0 });
    CHECK_NEAR(tw_degrees(edge.sweep_rad), 106.2602, 1e-4);
    CHECK_NEAR(edge.radius_mm, 1.25, 1e-4);
    CHECK_NEAR(edge.radius_mm - edge.centre.y, 0.5, 1e-4);
    edge = tw_edge_of((tw_vertex){ 0, 0, -1 }, (tw_vertex){ 2, 0, 0 });
    CHECK_NEAR(tw_degrees(edge.sweep_rad), -180.0, 1e-9);
    CHECK_NEAR(edge.centre.y, 0.0, 1e-12);
    assert_true(tw_edge_of((tw_vertex){ 0, 0, 0 }, (tw_vertex){ 2, 0, 0 }).straight);
    assert_true(tw_edge_of((tw_vertex){ 0, 0, 1e-12 }, (tw_vertex){ 2, 0, 0 }).straight);
}

/* Checks 9-01 (ISO 216) and 9-02 (ANSI/ASME Y14.1 size A: 8.5 x 11 in). */
static void papers_have_their_standard_sizes(void **state)
{
    (void)state;
    static const struct { tw_paper paper; double wide, high; } cases[] = {
        { TW_PAPER_A4, 210, 297 }, { TW_PAPER_A3, 297, 420 }, { TW_PAPER_LETTER, 215.9, 279.4 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        CHECK_NEAR(tw_paper_size_of(cases[i].paper).width_mm, cases[i].wide, 1e-9);
        CHECK_NEAR(tw_paper_size_of(cases[i].paper).height_mm, cases[i].high, 1e-9);
    }
}

/* Series of line widths of ISO 128: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1, 1.4, 2. */
static void line_widths_are_of_the_standard_series(void **state)
{
    (void)state;
    static const double series[] = { 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 };
    for (int role = 0; role < TW_ROLE_COUNT; role++) {
        const tw_role_look *look = tw_role_look_of((tw_role)role);
        bool known = false;
        for (size_t i = 0; i < sizeof series / sizeof *series; i++) known |= look->width_mm == series[i];
        assert_true(known);
        assert_int_equal(look->dash_count % 2, 0);
    }
    assert_true(tw_role_look_of(TW_ROLE_VISIBLE)->width_mm == 2 * tw_role_look_of(TW_ROLE_HIDDEN)->width_mm);
}

/* ---- dimensions ----------------------------------------------------------------------------------------------- */

/* The tips of all arrow heads on the sheet: first vertex of each solid triangle. */
static int tips_on(const tw_sheet *sheet, tw_point tips[], int most)
{
    int count = 0;
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].role == TW_ROLE_SOLID && count < most) {
            tw_vertex tip = sheet->items[i].outline.loops[0].vertices[0];
            tips[count++] = (tw_point){ tip.x, tip.y };
        }
    return count;
}

static void dimension_points_its_arrows_at_both_ends(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_dimension(sheet, (tw_point){ 20, 50 }, (tw_point){ 80, 55 }, 0.0, -10, 2.5, "60.0");
    tw_point tips[2];
    assert_int_equal(tips_on(sheet, tips, 2), 2);
    CHECK_NEAR(tips[0].x, 20, 1e-9);
    CHECK_NEAR(tips[1].x, 80, 1e-9);
    CHECK_NEAR(tips[0].y, 40, 1e-9);
    CHECK_NEAR(tips[1].y, 40, 1e-9);
    tw_box text = tw_text_box(text_item(sheet, "60.0"));
    CHECK_NEAR((text.x0 + text.x1) / 2, 50, 1e-9);
    assert_true(text.y0 > 40 && text.y0 < 42);  // above the line, close to it
}

static void dimension_reads_from_below_or_from_the_right(void **state)
{
    (void)state;
    for (int degrees = -360; degrees <= 360; degrees += 5) {
        tw_sheet *sheet = page();
        double angle = tw_radians(degrees);
        tw_point b = { 100 + 40 * cos(angle), 150 + 40 * sin(angle) };
        tw_draw_dimension(sheet, (tw_point){ 100, 150 }, b, angle, 8, 2.5, "40.0");
        const tw_item *text = text_item(sheet, "40.0");
        assert_true(cos(text->turn_rad) > -1e-9);
        if (fabs(cos(text->turn_rad)) < 1e-9) assert_true(sin(text->turn_rad) > 0);
        tw_point tips[2];
        assert_int_equal(tips_on(sheet, tips, 2), 2);
        CHECK_NEAR(hypot(tips[0].x - tips[1].x, tips[0].y - tips[1].y), 40, 1e-9);
        double lies = (tips[0].x - 100) * -sin(angle) + (tips[0].y - 150) * cos(angle);
        CHECK_NEAR(lies, 8, 1e-9);  // to the left of the direction
    }
}

static void narrow_dimension_has_its_arrows_outside_and_its_text_beside(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_dimension(sheet, (tw_point){ 50, 50 }, (tw_point){ 54, 50 }, 0.0, 8, 2.5, "4 1/64 light");
    tw_point tips[2];
    assert_int_equal(tips_on(sheet, tips, 2), 2);
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].role == TW_ROLE_SOLID) {
            tw_box head = tw_outline_bounds(sheet->items[i].outline);
            assert_true(head.x1 <= 50 + 1e-9 || head.x0 >= 54 - 1e-9);
        }
    tw_box text = tw_text_box(text_item(sheet, "4 1/64 light"));
    assert_true(text.x0 > 54 + 3.0);  // beyond the far arrow
    double end = 0;
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].kind == TW_ITEM_LINE && sheet->items[i].to.y == 58.0) end = tw_max(end, sheet->items[i].to.x);
    assert_true(end >= text.x1 - 1e-9);  // the line runs on under the text
}

static void dimension_of_an_oblique_pair_measures_along_its_direction(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_dimension(sheet, (tw_point){ 80, 50 }, (tw_point){ 20, 120 }, 0.0, 80, 2.5, "60.0");  // b lies left of a
    tw_point tips[2];
    assert_int_equal(tips_on(sheet, tips, 2), 2);
    CHECK_NEAR(fabs(tips[0].x - tips[1].x), 60, 1e-9);
    CHECK_NEAR(tips[0].y, 130, 1e-9);
    CHECK_NEAR(tips[1].y, 130, 1e-9);
}

static void angle_has_both_arrow_tips_on_its_arc(void **state)
{
    (void)state;
    static const double sweeps[] = { 5, 40, 90, -30 };
    for (size_t i = 0; i < sizeof sweeps / sizeof *sweeps; i++) {
        tw_sheet *sheet = page();
        tw_draw_angle(sheet, (tw_point){ 60, 60 }, 30, tw_radians(10), tw_radians(sweeps[i]), true, 2.5, "5.0°");
        tw_point tips[2];
        assert_int_equal(tips_on(sheet, tips, 2), 2);
        CHECK_NEAR(hypot(tips[0].x - 60, tips[0].y - 60), 30, 1e-9);
        double a = atan2(tips[0].y - 60, tips[0].x - 60), b = atan2(tips[1].y - 60, tips[1].x - 60);
        CHECK_NEAR(tw_degrees(fabs(a - b)), fabs(sweeps[i]), 1e-9);
    }
}

/* ---- hatching ------------------------------------------------------------------------------------------------- */

/* Cavalieri: length of all strokes times their spacing is the area, the better the closer they stand. */
static void check_hatch(tw_outline outline, double angle_rad, double spacing)
{
    tw_sheet *sheet = page();
    tw_draw_hatch(sheet, outline, spacing, angle_rad);
    double length = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        tw_item *stroke = &sheet->items[i];
        length += hypot(stroke->to.x - stroke->from.x, stroke->to.y - stroke->from.y);
        tw_point middle = { (stroke->from.x + stroke->to.x) / 2, (stroke->from.y + stroke->to.y) / 2 };
        assert_true(tw_outline_side(outline, middle) >= 0);
        assert_true(tw_outline_distance(outline, stroke->from) < 1e-6);
        assert_true(tw_outline_distance(outline, stroke->to) < 1e-6);
    }
    double area = tw_outline_area_mm2(outline);
    CHECK_NEAR(length * spacing / area, 1.0, 0.02);
}

static void hatching_stays_inside_arcs_and_out_of_holes(void **state)
{
    (void)state;
    //  a plate with a round corner, a bite out of its upper edge, a round hole and a square hole
    tw_vertex plate[] = { { 0, 0, 0 }, { 50, 0, 0.41421356237309503 }, { 60, 10, 0 }, { 60, 42, 0 }, { 30, 42, -1 }, { 10, 42, 0 }, { 0, 42, 0 } };
    tw_vertex round[] = { { 20, 15, -1 }, { 32, 15, -1 } }, square[] = { { 40, 20, 0 }, { 40, 28, 0 }, { 48, 28, 0 }, { 48, 20, 0 } };
    tw_loop loops[] = { { plate, 7 }, { round, 2 }, { square, 4 } };
    tw_outline outline = { loops, 3 };
    static const double degrees[] = { 0, 45, -45, 90, 30, 135, 77.7 };
    for (size_t i = 0; i < sizeof degrees / sizeof *degrees; i++) check_hatch(outline, tw_radians(degrees[i]), 0.5);
}

static void hatching_of_a_circle_has_the_chords_of_the_circle(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_hatch(sheet, tw_outline_circle(&arena, (tw_point){ 0, 0 }, 10), 6, 0.0);  // at v = -6, 0, 6
    assert_int_equal(sheet->count, 3);
    CHECK_NEAR(sheet->items[0].to.x - sheet->items[0].from.x, 16.0, 1e-9);  // 6, 8, 10
    CHECK_NEAR(sheet->items[1].to.x - sheet->items[1].from.x, 20.0, 1e-9);
    CHECK_NEAR(sheet->items[2].to.x - sheet->items[2].from.x, 16.0, 1e-9);
}

static void hatching_through_vertices_and_along_edges_stays_even(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    //  a diamond and a square on the grid of the hatching: lines run through corners and along sides
    tw_vertex diamond[] = { { 0, -10, 0 }, { 10, 0, 0 }, { 0, 10, 0 }, { -10, 0, 0 } };
    tw_draw_hatch(sheet, tw_outline_of_loop(&arena, diamond, 4), 5, 0.0);
    assert_int_equal(sheet->count, 3);
    CHECK_NEAR(sheet->items[1].to.x - sheet->items[1].from.x, 20.0, 1e-9);
    tw_draw_hatch(sheet, tw_outline_rectangle(&arena, 0, 0, 10, 10), 5, 0.0);
    assert_true(sheet->count >= 5);
    tw_draw_hatch(sheet, (tw_outline){ NULL, 0 }, 5, 0.0);
}

/* ---- tables, page --------------------------------------------------------------------------------------------- */

static const tw_column columns[] = {
    { "No.", 12, TW_ANCHOR_RIGHT, false }, { "Piece", 50, TW_ANCHOR_LEFT, true }, { "What to do", 60, TW_ANCHOR_LEFT, false },
};
static const char *const cells[] = {
    "1", "Stretcher", "Saw it over length",
    "2", "Post", "Mortise it before the tenon is fitted; sand the face before anything is fitted to it",
    "3", NULL, "",
};

static void table_rows_are_as_high_as_their_longest_cell(void **state)
{
    (void)state;
    tw_table table = { columns, 3, 2.5, 0 };
    CHECK_NEAR(tw_table_width(&table), 122, 1e-12);
    double one = tw_table_row_height(&table, cells), two = tw_table_row_height(&table, cells + 3);
    int lines = tw_text_lines(60 - 2.4, 2.5, false, cells[5]);
    assert_true(lines >= 2);
    CHECK_NEAR(one, 2.5 * 2.5, 1e-12);
    CHECK_NEAR(two, one + (lines - 1) * TW_LEADING * 2.5, 1e-12);
    tw_sheet *sheet = page();
    double y = tw_draw_table(sheet, &table, 20, 250, cells, 3);
    CHECK_NEAR(250 - y, tw_table_titles_height(&table) + one + two + one, 1e-9);
    check_calm(sheet, 10);
    table.least_row_mm = 10;
    CHECK_NEAR(tw_table_row_height(&table, cells), 10, 1e-12);
}

static void table_says_how_many_rows_fit(void **state)
{
    (void)state;
    tw_table table = { columns, 3, 2.5, 0 };
    double one = tw_table_row_height(&table, cells), two = tw_table_row_height(&table, cells + 3);
    assert_int_equal(tw_table_rows_that_fit(&table, cells, 0, 3, one + two), 2);
    assert_int_equal(tw_table_rows_that_fit(&table, cells, 0, 3, one + two - 0.1), 1);
    assert_int_equal(tw_table_rows_that_fit(&table, cells, 1, 3, one), 0);
    assert_int_equal(tw_table_rows_that_fit(&table, cells, 0, 3, 1000), 3);
    assert_int_equal(tw_table_rows_that_fit(&table, cells, 3, 3, 1000), 0);
}

static void title_block_holds_the_longest_names_without_overlap(void **state)
{
    (void)state;
    char *name = tw_arena_take(&arena, 10001, 1);
    memset(name, 'W', 10000);
    tw_title_block full = { name, name, name, name, name, name, name, 100000, 100000 }, empty = { 0 };
    for (int paper = TW_PAPER_A4; paper <= TW_PAPER_LETTER; paper++) {
        tw_paper_size size = tw_paper_size_of((tw_paper)paper);
        tw_sheet *sheet = tw_sheet_new(&arena, "x", "x", size.width_mm, size.height_mm);
        tw_box room = tw_draw_page(sheet, &full);
        check_calm(sheet, TW_PAGE_MARGIN_MM);
        assert_true(room.y0 > TW_PAGE_MARGIN_MM + TW_TITLE_BLOCK_HIGH_MM && room.x1 < size.width_mm - TW_PAGE_MARGIN_MM);
        sheet = tw_sheet_new(&arena, "x", "x", size.width_mm, size.height_mm);
        tw_draw_page(sheet, &empty);
        assert_int_equal(texts_on(sheet), 8);  // the labels alone
    }
}

static void scale_bars_are_100_mm_and_4_in_long(void **state)
{
    (void)state;
    tw_sheet *sheet = page();
    tw_draw_scale_bars(sheet, 20, 20);
    int bars = 0, ticks = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        if (item->kind != TW_ITEM_LINE) continue;
        if (item->from.x == item->to.x) { ticks++; continue; }
        CHECK_NEAR(item->to.x - item->from.x, bars == 0 ? 100.0 : 101.6, 1e-9);
        bars++;
    }
    assert_int_equal(bars, 2);
    assert_int_equal(ticks, 11 + 9);  // each 10 mm, each half inch
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].kind == TW_ITEM_TEXT) {
            tw_box box = tw_text_box(&sheet->items[i]);
            assert_true(box.x1 <= 20 + TW_SCALE_BARS_WIDE_MM && box.y0 >= 20 && box.y1 <= 20 + TW_SCALE_BARS_HIGH_MM);
        }
    check_calm(sheet, 10);
}

static void copied_marks_are_scaled_and_moved(void **state)
{
    (void)state;
    tw_sheet *from = page(), *onto = page();
    tw_draw_line(from, TW_ROLE_VISIBLE, 1, 2, 3, 4);
    tw_draw_arc(from, TW_ROLE_VISIBLE, 10, 10, 5, 1.0, -2.0);
    tw_draw_box(from, TW_ROLE_CUT, 0, 0, 10, 20);
    tw_draw_bold(from, 5, 5, 2.5, TW_ANCHOR_RIGHT, "tusk");
    tw_draw_sheet(onto, from, 2.0, 100, 50);
    assert_int_equal(onto->count, 4);
    CHECK_NEAR(onto->items[0].to.y, 58, 1e-12);
    CHECK_NEAR(onto->items[1].radius_mm, 10, 1e-12);
    CHECK_NEAR(onto->items[1].sweep_rad, -2, 1e-12);
    CHECK_NEAR(tw_outline_area_mm2(onto->items[2].outline), 800, 1e-9);
    CHECK_NEAR(tw_outline_area_mm2(from->items[2].outline), 200, 1e-9);  // the one copied from is left alone
    CHECK_NEAR(onto->items[3].size_mm, 5, 1e-12);
    assert_true(onto->items[3].bold);
}

/* ---- lines through texts ---- */

static int crossed(void (*draw)(tw_sheet *sheet))
{
    tw_sheet *sheet = page();
    tw_draw_text(sheet, 50, 50, 5, TW_ANCHOR_LEFT, "HHHH");  // its ink: 50 to 70.63 across (4 x 1540/1493 x 5), 50 to 55 up
    tw_draw_text_turned(sheet, 100, 50, 5, TW_ANCHOR_LEFT, TW_PI / 4, "HHHH");
    draw(sheet);
    int count;
    tw_sheet_crossed_texts(sheet, &arena, &count);
    return count;
}

static void draw_through(tw_sheet *sheet) { tw_draw_line(sheet, TW_ROLE_DIMENSION, 60, 40, 60, 60); }
static void draw_inside(tw_sheet *sheet) { tw_draw_line(sheet, TW_ROLE_HATCH, 60, 52, 62, 53); }
static void draw_beside(tw_sheet *sheet) { tw_draw_line(sheet, TW_ROLE_VISIBLE, 49.9, 40, 49.9, 60); }
static void draw_faint(tw_sheet *sheet) { tw_draw_line(sheet, TW_ROLE_FAINT, 60, 40, 60, 60); }
static void draw_arc_over(tw_sheet *sheet) { tw_draw_arc(sheet, TW_ROLE_CENTRE, 60, 40, 12, TW_PI / 4, TW_PI / 2); }  // its top at 52
static void draw_arc_under(tw_sheet *sheet) { tw_draw_arc(sheet, TW_ROLE_CENTRE, 60, 40, 12, -TW_PI / 4, -TW_PI / 2); }
static void draw_box_round(tw_sheet *sheet) { tw_draw_box(sheet, TW_ROLE_FRAME, 45, 45, 75, 60); }
static void draw_past_turned_corner(tw_sheet *sheet) { tw_draw_line(sheet, TW_ROLE_VISIBLE, 108, 40, 108, 57); }  // under the slope, in its upright box
static void draw_head(tw_sheet *sheet) { tw_draw_arrow_head(sheet, 60, 54, TW_PI / 2, 3); }

static void what_runs_through_a_text_is_found_and_what_passes_it_is_not(void **state)
{
    (void)state;
    assert_int_equal(crossed(draw_through), 1);
    assert_int_equal(crossed(draw_inside), 1);
    assert_int_equal(crossed(draw_beside), 0);
    assert_int_equal(crossed(draw_faint), 0);
    assert_int_equal(crossed(draw_arc_over), 1);
    assert_int_equal(crossed(draw_arc_under), 0);
    assert_int_equal(crossed(draw_box_round), 0);
    assert_int_equal(crossed(draw_past_turned_corner), 0);
    assert_int_equal(crossed(draw_head), 1);
}

/* The text moved along its line: before it, between, beyond; the line runs as far as the text. */
static void a_dimension_text_can_be_set_anywhere_along_its_line(void **state)
{
    (void)state;
    const double at[] = { -30.0, 4.0, 60.0 };
    for (int i = 0; i < 3; i++) {
        tw_sheet *sheet = page();
        tw_draw_dimension_text_at(sheet, (tw_point){ 60, 100 }, (tw_point){ 100, 100 }, 0.0, -20.0, 2.5, "40.0", at[i]);
        const tw_item *text = text_item(sheet, "40.0");
        CHECK_NEAR(text->from.x, 60.0 + at[i], 1e-9);
        CHECK_NEAR(text->from.y, 81.0, 1e-9);
        double least = 1000, most = 0;
        for (size_t k = 0; k < sheet->count; k++)
            if (sheet->items[k].kind == TW_ITEM_LINE && sheet->items[k].from.y == sheet->items[k].to.y) {
                least = tw_min(least, tw_min(sheet->items[k].from.x, sheet->items[k].to.x));
                most = tw_max(most, tw_max(sheet->items[k].from.x, sheet->items[k].to.x));
            }
        double wide = tw_text_width(2.5, false, "40.0");
        CHECK_NEAR(least, i == 0 ? 30.0 : 61.5, 1e-9);          // else half an arrow of 3 mm inside
        CHECK_NEAR(most, i == 2 ? 120.0 + wide : 98.5, 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(width_of_a_line_is_the_sum_of_its_advances),
        cmocka_unit_test(unknown_writing_and_broken_bytes_become_boxes),
        cmocka_unit_test(blanks_and_control_characters_are_tamed),
        cmocka_unit_test(any_bytes_become_a_text_that_stays_as_it_is),
        cmocka_unit_test(signs_used_on_papers_are_in_both_faces),
        cmocka_unit_test(paragraph_breaks_between_words_and_returns_the_next_base_line),
        cmocka_unit_test(paragraph_keeps_line_ends_and_no_break_spaces),
        cmocka_unit_test(compound_words_break_after_their_hyphen_but_amounts_do_not),
        cmocka_unit_test(no_line_of_a_paragraph_is_too_wide_and_no_letter_is_lost),
        cmocka_unit_test(fitted_text_ends_in_an_ellipsis_only_when_it_must),
        cmocka_unit_test(ink_box_reaches_from_the_base_line_to_the_capital_height),
        cmocka_unit_test(texts_that_overlap_are_listed_and_neighbours_are_not),
        cmocka_unit_test(slanted_texts_are_judged_as_they_lie),
        cmocka_unit_test(texts_over_the_edge_of_the_paper_are_listed),
        cmocka_unit_test(bulges_give_the_published_arcs),
        cmocka_unit_test(papers_have_their_standard_sizes),
        cmocka_unit_test(line_widths_are_of_the_standard_series),
        cmocka_unit_test(dimension_points_its_arrows_at_both_ends),
        cmocka_unit_test(dimension_reads_from_below_or_from_the_right),
        cmocka_unit_test(narrow_dimension_has_its_arrows_outside_and_its_text_beside),
        cmocka_unit_test(dimension_of_an_oblique_pair_measures_along_its_direction),
        cmocka_unit_test(angle_has_both_arrow_tips_on_its_arc),
        cmocka_unit_test(hatching_stays_inside_arcs_and_out_of_holes),
        cmocka_unit_test(hatching_of_a_circle_has_the_chords_of_the_circle),
        cmocka_unit_test(hatching_through_vertices_and_along_edges_stays_even),
        cmocka_unit_test(table_rows_are_as_high_as_their_longest_cell),
        cmocka_unit_test(table_says_how_many_rows_fit),
        cmocka_unit_test(title_block_holds_the_longest_names_without_overlap),
        cmocka_unit_test(scale_bars_are_100_mm_and_4_in_long),
        cmocka_unit_test(copied_marks_are_scaled_and_moved),
        cmocka_unit_test(what_runs_through_a_text_is_found_and_what_passes_it_is_not),
        cmocka_unit_test(a_dimension_text_can_be_set_anywhere_along_its_line),
    };
    return cmocka_run_group_tests_name("draw", tests, NULL, finish);
}
