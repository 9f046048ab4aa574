// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include "sheet/clip.h"
#include "sheet/tile.h"
#include "sheet/writers.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static tw_sheet *page(double wide, double high) { return tw_sheet_new(&arena, "page", "A page", wide, high); }

static const char *written(void (*put)(const tw_sheet *, tw_sink *), const tw_sheet *sheet)
{
    tw_gather *all = TW_NEW(&arena, tw_gather);
    all->arena = &arena;
    tw_sink sink = tw_gather_sink(all);
    put(sheet, &sink);
    assert_false(sink.failed);
    return tw_gathered(all).bytes;
}

static int occurrences(const char *text, const char *part)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at += strlen(part)) count++;
    return count;
}

static tw_sheet *sheet_with_everything(void)
{
    tw_sheet *sheet = page(210, 297);
    for (int role = 0; role < TW_ROLE_COUNT; role++) {
        tw_draw_line(sheet, (tw_role)role, 10, 10 + role, 110, 10 + role);
        tw_draw_arc(sheet, (tw_role)role, 50, 100, 20 + role, 0.5, role % 2 ? 4.0 : -1.0);
        tw_draw_circle(sheet, (tw_role)role, 150, 100, 5 + role);
        tw_draw_box(sheet, (tw_role)role, 10, 200, 50 + role, 240);
    }
    tw_draw_outline(sheet, TW_ROLE_CUT, tw_outline_circle(&arena, (tw_point){ 100, 250 }, 9.5));
    tw_draw_text(sheet, 20, 20, 2.5, TW_ANCHOR_LEFT, "<post> & \"rail\" 5° 100 %% \\U+");
    tw_draw_text_turned(sheet, 100, 20, 3.5, TW_ANCHOR_MIDDLE, TW_PI / 2, "turned");
    tw_draw_bold(sheet, 200, 20, 5, TW_ANCHOR_RIGHT, "→ 38.0");
    return sheet;
}

/* ---- SVG ------------------------------------------------------------------------------------------------------ */

/* Check 9-07: true scale needs width="210mm" height="297mm" viewBox="0 0 210 297". */
static void svg_is_true_to_size(void **state)
{
    (void)state;
    const char *text = written(tw_svg_put, sheet_with_everything());
    CHECK_HOLDS(text, "width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\"");
    CHECK_HOLDS(text, "<path d=\"M10 287L110 287\"/>");  // y = 10 from below is 287 from above
    text = written(tw_svg_put, page(8.5 * TW_MM_PER_INCH, 11 * TW_MM_PER_INCH));
    CHECK_HOLDS(text, "width=\"215.9mm\" height=\"279.4mm\" viewBox=\"0 0 215.9 279.4\"");
}

static void svg_has_no_style_and_no_script(void **state)
{
    (void)state;
    const char *text = written(tw_svg_put, sheet_with_everything());
    assert_int_equal(occurrences(text, "style"), 0);
    assert_int_equal(occurrences(text, "script"), 0);
    assert_int_equal(occurrences(text, "class="), 0);
}

static void svg_escapes_every_text(void **state)
{
    (void)state;
    tw_sheet *sheet = tw_sheet_new(&arena, "x", "</title><script>", 100, 100);
    tw_draw_text(sheet, 20, 20, 2.5, TW_ANCHOR_LEFT, "<post> & \"rail\"\x1B\xFF");
    const char *text = written(tw_svg_put, sheet);
    CHECK_HOLDS(text, "&lt;post&gt; &amp; &quot;rail&quot;\xE2\x96\xA1\xE2\x96\xA1</text>");
    CHECK_HOLDS(text, "<title>&lt;/title&gt;&lt;script&gt;</title>");
}

static void svg_text_has_the_size_of_its_capitals_and_its_reckoned_width(void **state)
{
    (void)state;
    tw_sheet *sheet = page(100, 100);
    tw_draw_bold(sheet, 20, 20, 2.5, TW_ANCHOR_RIGHT, "HHH");
    const char *text = written(tw_svg_put, sheet);
    CHECK_HOLDS(text, "font-size=\"3.429337\"");  // 2.5 * 2048 / 1493
    CHECK_HOLDS(text, "text-anchor=\"end\" font-weight=\"bold\"");
    CHECK_HOLDS(text, "textLength=\"8.610181\"");  // 3 * 2.5 * 1714 / 1493
}

static void svg_numbers_have_at_most_six_decimals(void **state)
{
    (void)state;
    tw_sheet *sheet = page(100, 100);
    tw_draw_line(sheet, TW_ROLE_CUT, 1.0 / 3.0, 100 - 2.0 / 3.0, 1e-9, 100);
    CHECK_HOLDS(written(tw_svg_put, sheet), "<path d=\"M0.333333 0.666667L0 0\"/>");
}

static void svg_arc_turns_as_on_the_sheet(void **state)
{
    (void)state;
    tw_sheet *sheet = page(100, 100);
    tw_draw_arc(sheet, TW_ROLE_CUT, 50, 50, 10, 0.0, TW_PI / 2);  // counter-clockwise from the right to the top
    tw_draw_arc(sheet, TW_ROLE_CUT, 50, 50, 10, 0.0, -1.5 * TW_PI);  // clockwise, the long way round, to the top
    const char *text = written(tw_svg_put, sheet);
    CHECK_HOLDS(text, "M60 50A10 10 0 0 0 50 40");
    CHECK_HOLDS(text, "M60 50A10 10 0 1 1 50 40");
}

static void same_sheet_gives_the_same_bytes(void **state)
{
    (void)state;
    assert_string_equal(written(tw_svg_put, sheet_with_everything()), written(tw_svg_put, sheet_with_everything()));
    assert_string_equal(written(tw_dxf_put, sheet_with_everything()), written(tw_dxf_put, sheet_with_everything()));
}

static bool refuse(void *context, const char *bytes, size_t count) { (void)context; (void)bytes; (void)count; return false; }

static void writers_survive_a_sink_that_takes_nothing(void **state)
{
    (void)state;
    tw_sink sink = { .write = refuse };
    tw_svg_put(sheet_with_everything(), &sink);
    assert_true(sink.failed);
    sink = (tw_sink){ .write = refuse };
    tw_dxf_put(sheet_with_everything(), &sink);
    assert_true(sink.failed);
}

/* ---- DXF (read back with another program in outside/read_back.py) --------------------------------------------- */

/* Check 9-11: group codes of LWPOLYLINE: 90 vertex count, 70 = 1 closed, 43 constant width, 10/20 and 42 (bulge). */
static void dxf_outline_is_a_closed_polyline_with_bulges(void **state)
{
    (void)state;
    tw_sheet *sheet = page(100, 100);
    tw_vertex vertices[] = { { 0, 0, 0.41421356237309503 }, { 100, 0, 0 }, { 50, 40, 0 } };
    tw_draw_outline(sheet, TW_ROLE_CUT, (tw_outline){ &(tw_loop){ vertices, 3 }, 1 });
    const char *text = written(tw_dxf_put, sheet);
    CHECK_HOLDS(text, "LWPOLYLINE\n5\n100\n330\n18\n100\nAcDbEntity\n8\ncut\n100\nAcDbPolyline\n90\n3\n70\n1\n43\n0\n"
                      "10\n0\n20\n0\n42\n0.414213562\n10\n100\n20\n0\n10\n50\n20\n40\n0\nENDSEC");
    CHECK_HOLDS(text, "$INSUNITS\n70\n4\n");
    CHECK_HOLDS(text, "$ACADVER\n1\nAC1015\n");
}

static void dxf_is_pairs_of_lines_in_ascii(void **state)
{
    (void)state;
    const char *text = written(tw_dxf_put, sheet_with_everything());
    int lines = 0;
    for (const char *at = text; *at; at++) {
        assert_true((unsigned char)*at < 0x7F && (*at >= 0x20 || *at == '\n'));
        lines += *at == '\n';
    }
    assert_int_equal(lines % 2, 0);
    CHECK_HOLDS(text, "5\\U+00B0 100 %\\U+0025 \\U+005CU+");
    CHECK_HOLDS(text, "\n0\nEOF\n");
}

static void dxf_handles_are_unique_and_below_the_seed(void **state)
{
    (void)state;
    const char *text = written(tw_dxf_put, sheet_with_everything());
    static char seen[4096];
    memset(seen, 0, sizeof seen);
    unsigned long seed = 0;
    int code_line = 1, handles = 0;
    char code[8] = "";
    for (const char *at = text; *at; code_line = !code_line) {
        size_t length = strcspn(at, "\n");
        if (code_line) snprintf(code, sizeof code, "%.*s", (int)length, at);
        else if (strcmp(code, "5") == 0 || strcmp(code, "105") == 0) {
            unsigned long value = strtoul(at, NULL, 16);
            if (seed == 0) seed = value;  // $HANDSEED comes first
            else {
                assert_true(value > 0 && value < seed && value < sizeof seen && !seen[value]);
                seen[value] = 1;
                handles++;
            }
        }
        at += length + 1;
    }
    assert_true(handles > 60);
}

/* ---- clipping ------------------------------------------------------------------------------------------------- */

static double length_of(const tw_sheet *sheet)
{
    double length = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        if (item->kind == TW_ITEM_LINE) length += hypot(item->to.x - item->from.x, item->to.y - item->from.y);
        else if (item->kind == TW_ITEM_ARC) length += item->radius_mm * fabs(item->sweep_rad);
        else length += tw_outline_length_mm(item->outline);
    }
    return length;
}

static double area_of(const tw_sheet *sheet)
{
    double area = 0;
    for (size_t i = 0; i < sheet->count; i++) area += tw_outline_area_mm2(sheet->items[i].outline);
    return area;
}

static void clip_in_tiles(tw_sheet *onto, const tw_item *item)
{
    for (int column = 0; column < 4; column++)
        for (int row = 0; row < 4; row++)
            tw_draw_clipped(onto, item, (tw_box){ column * 25.0, row * 25.0, column * 25.0 + 25.0, row * 25.0 + 25.0 }, 0, 0);
}

static void pieces_of_a_clipped_mark_add_up_to_the_whole(void **state)
{
    (void)state;
    check_seed seed = { 11 };
    for (int round = 0; round < 2000; round++) {
        tw_sheet *whole = page(100, 100), *pieces = page(100, 100);
        double r = check_between(&seed, 0.5, 40), x = check_between(&seed, r, 100 - r), y = check_between(&seed, r, 100 - r);
        if (round % 3 == 0) tw_draw_line(whole, TW_ROLE_CUT, x - r, y, x + r, y + check_between(&seed, -r, r));
        else if (round % 3 == 1) tw_draw_arc(whole, TW_ROLE_CUT, x, y, r, check_between(&seed, -7, 7), check_between(&seed, -6.28, 6.28));
        else tw_draw_circle(whole, TW_ROLE_CUT, x, y, r);
        clip_in_tiles(pieces, &whole->items[0]);
        CHECK_NEAR(length_of(pieces), length_of(whole), 0.02);  // each border may drop a crumb
    }
}

static void pieces_of_a_filled_outline_add_up_to_its_area(void **state)
{
    (void)state;
    check_seed seed = { 12 };
    for (int round = 0; round < 1000; round++) {
        tw_sheet *whole = page(100, 100), *pieces = page(100, 100);
        double x = check_between(&seed, 20, 60), y = check_between(&seed, 20, 60), w = check_between(&seed, 12, 20);
        double b = check_between(&seed, -0.9, 0.9);
        tw_vertex outer[] = { { x, y, b }, { x + w, y, 0 }, { x + w, y + w, 0.3 }, { x, y + w, 0 } };
        tw_vertex hole[] = { { x + w / 2 - 1, y + w / 2 + 3, -1 }, { x + w / 2 + 1, y + w / 2 + 3, -1 } };
        tw_loop loops[] = { { outer, 4 }, { hole, b < 0.5 && b > -0.5 ? 2 : 0 } };
        tw_draw_outline(whole, TW_ROLE_SHADE, (tw_outline){ loops, loops[1].count ? 2 : 1 });
        clip_in_tiles(pieces, &whole->items[0]);
        CHECK_NEAR(area_of(pieces), area_of(whole), 1e-6);
        for (size_t i = 0; i < pieces->count; i++) assert_int_equal(pieces->items[i].kind, TW_ITEM_OUTLINE);
    }
}

static void what_lies_inside_is_kept_whole_and_what_lies_outside_goes(void **state)
{
    (void)state;
    tw_sheet *marks = page(100, 100), *onto = page(100, 100);
    tw_draw_box(marks, TW_ROLE_CUT, 10, 10, 20, 20);
    tw_draw_circle(marks, TW_ROLE_CUT, 30, 30, 10);  // touches the border of the box at 40, 30
    tw_draw_circle(marks, TW_ROLE_CUT, 50, 30, 10);  // touches it from outside
    tw_draw_line(marks, TW_ROLE_CUT, 41, 0, 41, 100);
    tw_draw_circle(marks, TW_ROLE_CUT, 20, 20, 90);  // goes round the box
    tw_draw_box(marks, TW_ROLE_SOLID, 41, 10, 60, 20);
    for (size_t i = 0; i < marks->count; i++) tw_draw_clipped(onto, &marks->items[i], (tw_box){ 0, 0, 40, 40 }, 5, 7);
    assert_int_equal(onto->count, 2);
    CHECK_NEAR(tw_outline_bounds(onto->items[0].outline).x0, 15, 1e-12);
    CHECK_NEAR(tw_outline_bounds(onto->items[0].outline).y1, 27, 1e-12);
    CHECK_NEAR(onto->items[1].sweep_rad, 2 * TW_PI, 1e-9);
}

/* ---- tiling --------------------------------------------------------------------------------------------------- */

static bool has_text(const tw_sheet *sheet, const char *text)
{
    for (size_t i = 0; i < sheet->count; i++)
        if (sheet->items[i].kind == TW_ITEM_TEXT && strcmp(sheet->items[i].text, text) == 0) return true;
    return false;
}

static int crosses_on(const tw_sheet *sheet)
{
    int count = 0;
    for (size_t i = 0; i < sheet->count; i++)
        count += sheet->items[i].kind == TW_ITEM_ARC && sheet->items[i].role == TW_ROLE_DIMENSION;
    return count;
}

static tw_sheet *template_canvas(double wide, double high)
{
    tw_sheet *canvas = tw_sheet_new(&arena, "template-1", "Template 1", wide, high);
    tw_draw_outline(canvas, TW_ROLE_CUT, tw_outline_rounded(&arena, 2, 2, wide - 2, high - 2, 20));
    tw_draw_line(canvas, TW_ROLE_CENTRE, wide / 2, 0, wide / 2, high);
    tw_draw_box(canvas, TW_ROLE_SHADE, wide * 0.2, high * 0.2, wide * 0.8, high * 0.3);
    int across = wide > 150 ? 5 : 1, up = 30 / across;
    for (int i = 0; i < 30; i++)
        tw_draw_text(canvas, wide * (i % across + 0.3) / across, high * (i / across + 0.5) / up, 2.5, TW_ANCHOR_LEFT,
                     tw_format(&arena, "figure %d", i));
    return canvas;
}

static void check_page(const tw_sheet *sheet)
{
    int overlaps, off;
    tw_overlap *found = tw_sheet_overlaps(sheet, &arena, &overlaps);
    for (int i = 0; i < overlaps; i++)
        print_error("%s: %s | %s\n", sheet->name, sheet->items[found[i].first].text, sheet->items[found[i].second].text);
    tw_sheet_texts_off_paper(sheet, TW_PAGE_MARGIN_MM - 0.2, &arena, &off);
    assert_int_equal(overlaps, 0);
    assert_int_equal(off, 0);
    assert_true(has_text(sheet, "Print at 100\xC2\xA0%: no fitting to the page"));
    assert_true(has_text(sheet, "100\xC2\xA0mm") && has_text(sheet, "4\xC2\xA0in"));
    for (size_t i = 0; i < sheet->count; i++) {  // no mark within the margin
        const tw_item *item = &sheet->items[i];
        double least = TW_PAGE_MARGIN_MM - 1e-6, right = sheet->width_mm - least, top = sheet->height_mm - least;
        if (item->kind == TW_ITEM_LINE)
            assert_true(tw_min(item->from.x, item->to.x) >= least && tw_max(item->from.x, item->to.x) <= right
                        && tw_min(item->from.y, item->to.y) >= least && tw_max(item->from.y, item->to.y) <= top);
        if (item->kind != TW_ITEM_OUTLINE) continue;
        tw_box box = tw_outline_bounds(item->outline);
        assert_true(box.x0 >= least && box.y0 >= least && box.x1 <= right && box.y1 <= top);
    }
}

static void small_canvas_is_one_page_without_register_marks(void **state)
{
    (void)state;
    int count;
    tw_sheet **pages = tw_sheet_tile(&arena, template_canvas(180, 200), tw_tiling_default(TW_PAPER_A4), &count);
    assert_int_equal(count, 1);
    assert_int_equal(crosses_on(pages[0]), 0);
    assert_false(has_text(pages[0], "A1"));
    assert_string_equal(pages[0]->name, "template-1");
    check_page(pages[0]);
    int outlines = 0;
    for (size_t i = 0; i < pages[0]->count; i++)
        if (pages[0]->items[i].role == TW_ROLE_CUT) {
            tw_box box = tw_outline_bounds(pages[0]->items[i].outline);  // whole, and true to size
            CHECK_NEAR(box.x1 - box.x0, 176, 1e-9);
            CHECK_NEAR(box.y1 - box.y0, 196, 1e-9);
            outlines++;
        }
    assert_int_equal(outlines, 1);
}

static void paper_lies_down_when_that_needs_fewer_pages(void **state)
{
    (void)state;
    int count;
    tw_sheet **pages = tw_sheet_tile(&arena, template_canvas(270, 120), tw_tiling_default(TW_PAPER_A4), &count);
    assert_int_equal(count, 1);
    CHECK_NEAR(pages[0]->width_mm, 297, 1e-9);
    CHECK_NEAR(pages[0]->height_mm, 210, 1e-9);
    pages = tw_sheet_tile(&arena, template_canvas(120, 120), tw_tiling_default(TW_PAPER_A4), &count);
    CHECK_NEAR(pages[0]->width_mm, 210, 1e-9);
}

static void every_page_is_calm_on_every_paper(void **state)
{
    (void)state;
    static const double sizes[][2] = { { 300, 500 }, { 191, 100 }, { 700, 60 }, { 60, 900 }, { 1200, 800 } };
    for (int paper = TW_PAPER_A4; paper <= TW_PAPER_LETTER; paper++)
        for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
            tw_tiling tiling = tw_tiling_default((tw_paper)paper);
            tiling.footer = "Reading table, revision C: a very long line that says to what, to whom and to which end of which piece this template belongs";
            int count;
            tw_sheet **pages = tw_sheet_tile(&arena, template_canvas(sizes[i][0], sizes[i][1]), tiling, &count);
            for (int k = 0; k < count; k++) check_page(pages[k]);
        }
}

static void every_text_stands_whole_on_exactly_one_page(void **state)
{
    (void)state;
    int count;
    tw_sheet **pages = tw_sheet_tile(&arena, template_canvas(700, 900), tw_tiling_default(TW_PAPER_A4), &count);
    assert_true(count > 9);
    for (int i = 0; i < 30; i++) {
        int found = 0;
        for (int k = 0; k < count; k++) found += has_text(pages[k], tw_format(&arena, "figure %d", i));
        assert_int_equal(found, 1);
    }
}

static void text_wider_than_a_page_is_made_smaller(void **state)
{
    (void)state;
    tw_sheet *canvas = page(400, 100);
    tw_draw_text(canvas, 5, 50, 20, TW_ANCHOR_LEFT, "stretcher tenon, left end");
    int count;
    tw_sheet **pages = tw_sheet_tile(&arena, canvas, tw_tiling_default(TW_PAPER_A4), &count);
    assert_true(count > 1);
    for (int k = 0; k < count; k++) check_page(pages[k]);
    assert_true(has_text(pages[0], "stretcher tenon, left end"));
}

/* A cross on one page, moved by the two pages' difference of place, must lie on a cross of its neighbour. A line on the
 * canvas that both pages show tells the difference. */
static void register_crosses_of_neighbours_fall_together(void **state)
{
    (void)state;
    tw_sheet *canvas = page(340, 200);
    tw_draw_arc(canvas, TW_ROLE_FRAME, 170, 100, 1, 0, 1);  // in the strip of two A4 pages: the middle
    int count;
    tw_sheet **pages = tw_sheet_tile(&arena, canvas, tw_tiling_default(TW_PAPER_A4), &count);
    assert_int_equal(count, 2);
    tw_point mark[2] = { { 0, 0 }, { 0, 0 } }, cross[2][8];
    for (int k = 0; k < 2; k++) {
        int crosses = 0, marks = 0;
        for (size_t i = 0; i < pages[k]->count; i++) {
            const tw_item *item = &pages[k]->items[i];
            if (item->kind != TW_ITEM_ARC) continue;
            if (item->role == TW_ROLE_FRAME) { mark[k] = item->from; marks++; }
            else cross[k][crosses++] = item->from;
        }
        assert_int_equal(marks, 1);
        assert_int_equal(crosses, 2);
    }
    for (int i = 0; i < 2; i++) {
        CHECK_NEAR(cross[0][i].x - mark[0].x, cross[1][i].x - mark[1].x, 1e-9);
        CHECK_NEAR(cross[0][i].y - mark[0].y, cross[1][i].y - mark[1].y, 1e-9);
    }
}

static void pages_joined_at_their_lines_show_all_of_every_line(void **state)
{
    (void)state;
    tw_sheet *canvas = page(300, 500);
    tw_draw_line(canvas, TW_ROLE_PATH, 0, 0, 300, 500);
    int count;
    tw_tiling tiling = tw_tiling_default(TW_PAPER_A4);
    tw_sheet **pages = tw_sheet_tile(&arena, canvas, tiling, &count);
    assert_int_equal(count, 6);
    double length = 0;
    for (int k = 0; k < count; k++)
        for (size_t i = 0; i < pages[k]->count; i++)
            if (pages[k]->items[i].role == TW_ROLE_PATH)
                length += hypot(pages[k]->items[i].to.x - pages[k]->items[i].from.x, pages[k]->items[i].to.y - pages[k]->items[i].from.y);
    double whole = hypot(300, 500);
    assert_true(length > whole && length < whole + 6 * 2 * tiling.overlap_mm * whole / 300);  // the strips are shown twice
    assert_true(has_text(pages[0], "A1") && has_text(pages[1], "B1") && has_text(pages[5], "B3"));
    assert_string_equal(pages[5]->name, "page-B3");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(svg_is_true_to_size),
        cmocka_unit_test(svg_has_no_style_and_no_script),
        cmocka_unit_test(svg_escapes_every_text),
        cmocka_unit_test(svg_text_has_the_size_of_its_capitals_and_its_reckoned_width),
        cmocka_unit_test(svg_numbers_have_at_most_six_decimals),
        cmocka_unit_test(svg_arc_turns_as_on_the_sheet),
        cmocka_unit_test(same_sheet_gives_the_same_bytes),
        cmocka_unit_test(writers_survive_a_sink_that_takes_nothing),
        cmocka_unit_test(dxf_outline_is_a_closed_polyline_with_bulges),
        cmocka_unit_test(dxf_is_pairs_of_lines_in_ascii),
        cmocka_unit_test(dxf_handles_are_unique_and_below_the_seed),
        cmocka_unit_test(pieces_of_a_clipped_mark_add_up_to_the_whole),
        cmocka_unit_test(pieces_of_a_filled_outline_add_up_to_its_area),
        cmocka_unit_test(what_lies_inside_is_kept_whole_and_what_lies_outside_goes),
        cmocka_unit_test(small_canvas_is_one_page_without_register_marks),
        cmocka_unit_test(paper_lies_down_when_that_needs_fewer_pages),
        cmocka_unit_test(every_page_is_calm_on_every_paper),
        cmocka_unit_test(every_text_stands_whole_on_exactly_one_page),
        cmocka_unit_test(text_wider_than_a_page_is_made_smaller),
        cmocka_unit_test(register_crosses_of_neighbours_fall_together),
        cmocka_unit_test(pages_joined_at_their_lines_show_all_of_every_line),
    };
    return cmocka_run_group_tests_name("writers", tests, NULL, finish);
}
