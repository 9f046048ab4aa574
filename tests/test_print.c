// SPDX-License-Identifier: GPL-3.0-or-later
#include "check.h"

#include <pango/pangocairo.h>

#include "print/print.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

/* ---- the table of widths against pango and the installed font --------------------------------------------------- */

typedef struct measure { PangoContext *context; PangoLayout *layout; } measure;

/* Set up here on its own, not through print.c: at 2048 points a unit of the font is one point. */
static measure measure_new(bool bold)
{
    PangoFontMap *map = pango_cairo_font_map_new();
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map), 72.0);
    measure m = { .context = pango_font_map_create_context(map) };
    g_object_unref(map);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(m.context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(m.context, FALSE);
    m.layout = pango_layout_new(m.context);
    PangoFontDescription *font = pango_font_description_from_string(bold ? "DejaVu Sans Bold" : "DejaVu Sans");
    pango_font_description_set_absolute_size(font, 2048.0 * PANGO_SCALE);
    pango_layout_set_font_description(m.layout, font);
    pango_font_description_free(font);
    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new("kern=0,liga=0,clig=0"));
    pango_layout_set_attributes(m.layout, attributes);
    pango_attr_list_unref(attributes);
    return m;
}

static void measure_finish(measure *m) { g_object_unref(m->layout); g_object_unref(m->context); }

static void pango_box(const measure *m, const char *text, double *width, double *low, double *high)
{
    PangoRectangle ink, logical;
    pango_layout_set_text(m->layout, text, -1);
    pango_layout_line_get_extents(pango_layout_get_line_readonly(m->layout, 0), &ink, &logical);
    *width = (double)logical.width / PANGO_SCALE;
    *low = -(double)(ink.y + ink.height) / PANGO_SCALE;
    *high = -(double)ink.y / PANGO_SCALE;
}

static void encode(uint32_t code, char bytes[4])
{
    memset(bytes, 0, 4);
    if (code < 0x80) bytes[0] = (char)code;
    else if (code < 0x800) { bytes[0] = (char)(0xC0 | code >> 6); bytes[1] = (char)(0x80 | (code & 63)); }
    else { bytes[0] = (char)(0xE0 | code >> 12); bytes[1] = (char)(0x80 | (code >> 6 & 63)); bytes[2] = (char)(0x80 | (code & 63)); }
}

/* Outside: pango and harfbuzz on the installed DejaVu Sans, for each character up to U+27FF that the table has. */
static void every_width_and_ink_height_is_what_pango_finds(void **state)
{
    (void)state;
    for (int bold = 0; bold < 2; bold++) {
        measure m = measure_new(bold);
        int checked = 0;
        for (uint32_t code = 0x20; code < 0x2800; code++) {
            char text[4];
            encode(code, text);
            if ((code >= 0x300 && code < 0x370) || strcmp(tw_text_shown(&arena, bold, text), text) != 0) continue;
            double width, low, high;
            pango_box(&m, text, &width, &low, &high);
            if (fabs(tw_text_width(1493.0, bold, text) - width) > 0.01) print_error("U+%04X\n", (unsigned)code);
            CHECK_NEAR(tw_text_width(1493.0, bold, text), width, 0.01);
            tw_box ink = tw_text_ink(&(tw_item){ .kind = TW_ITEM_TEXT, .text = text, .size_mm = 1493.0, .bold = bold });
            if (ink.x0 <= ink.x1) {
                CHECK_NEAR(ink.y0, low, 2.0);  // pango rounds ink outwards
                CHECK_NEAR(ink.y1, high, 2.0);
            }
            checked++;
        }
        assert_true(checked > 850);
        measure_finish(&m);
    }
}

static void every_line_is_as_wide_as_pango_sets_it(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "Stretcher tenon, face cheek, left end", "AVAVA WaTo fi fl ffi ffl", "5/16 light − 38.0 ± 0.1 mm × ½ ⅜", "Übergröße, Ærø, Łódź, İzmir",
        "Γλυφή, Жёлоб", "№ 3 → 4 ☐ ✓ ≤ 2 φ α", "e\xCC\x81 u\xCC\x88",
    };
    for (int bold = 0; bold < 2; bold++) {
        measure m = measure_new(bold);
        for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
            double width, low, high;
            const char *shown = tw_text_shown(&arena, bold, lines[i]);
            pango_box(&m, shown, &width, &low, &high);
            CHECK_NEAR(tw_text_width(1493.0, bold, shown), width, 0.5);
        }
        measure_finish(&m);
    }
}

/* ---- the PDF (read back with another program in outside/read_back.py) ------------------------------------------- */

static tw_sheet *sheet_with_text(double wide, double high)
{
    tw_sheet *sheet = tw_sheet_new(&arena, "card-1", "Card 1: →", wide, high);
    tw_draw_line(sheet, TW_ROLE_CUT, 10, 10, wide - 10, 10);
    tw_draw_circle(sheet, TW_ROLE_PATH, wide / 2, high / 2, 20);
    tw_draw_text(sheet, 20, 20, 2.5, TW_ANCHOR_LEFT, "Stretcher");
    tw_draw_bold(sheet, 20, 30, 5, TW_ANCHOR_LEFT, "38.0 mm");
    return sheet;
}

static tw_text printed(const tw_sheet *const *sheets, int count)
{
    tw_gather *all = TW_NEW(&arena, tw_gather);
    all->arena = &arena;
    tw_sink sink = tw_gather_sink(all);
    const char *why = "";
    if (!tw_print_pdf(sheets, count, "Reading table", &sink, &why)) print_error("%s\n", why);
    assert_string_equal(why, "");
    return tw_gathered(all);
}

static void font_is_installed_where_the_tests_run(void **state)
{
    (void)state;
    assert_null(tw_print_fonts_missing());
}

static void same_sheets_give_the_same_pdf_without_a_date(void **state)
{
    (void)state;
    const tw_sheet *sheets[] = { sheet_with_text(210, 297), sheet_with_text(215.9, 279.4) };
    tw_text one = printed(sheets, 2), two = printed(sheets, 2);
    assert_int_equal(one.length, two.length);
    assert_memory_equal(one.bytes, two.bytes, one.length);
    assert_memory_equal(one.bytes, "%PDF-1.5", 8);
    bool dated = false;
    for (size_t i = 0; i + 12 < one.length; i++) dated |= memcmp(one.bytes + i, "CreationDate", 12) == 0;
    assert_false(dated);
}

static bool take_little(void *context, const char *bytes, size_t count)
{
    size_t *room = context;
    (void)bytes;
    if (count > *room) return false;
    *room -= count;
    return true;
}

static void full_disk_is_reported(void **state)
{
    (void)state;
    const tw_sheet *sheets[] = { sheet_with_text(210, 297) };
    for (size_t most = 0; most < 3000; most += 977) {
        size_t room = most;
        tw_sink sink = { .write = take_little, .context = &room };
        const char *why = NULL;
        assert_false(tw_print_pdf(sheets, 1, "x", &sink, &why));
        CHECK_HOLDS(why, "could not be written");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(font_is_installed_where_the_tests_run),
        cmocka_unit_test(every_width_and_ink_height_is_what_pango_finds),
        cmocka_unit_test(every_line_is_as_wide_as_pango_sets_it),
        cmocka_unit_test(same_sheets_give_the_same_pdf_without_a_date),
        cmocka_unit_test(full_disk_is_reported),
    };
    return cmocka_run_group_tests_name("print", tests, NULL, finish);
}
