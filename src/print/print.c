// SPDX-License-Identifier: GPL-3.0-or-later
/* PDF through cairo and pango.
 *
 * A page is set up in millimetres with y down: user unit = 72 / 25.4 points. What keeps it true to size:
 *   - cairo flattens arcs to within its tolerance: 0.001 of a point instead of 0.1 (which shows: 0.035 mm);
 *   - pango rounds glyphs to whole units and hints them unless told not to; kerning and ligatures are put off, so that
 *     a line is as wide as draw has reckoned it.
 * What keeps its bytes the same: the date of creation is empty.
 * LeakSanitizer finds what fontconfig and pango keep for good; tests/lsan.supp names these libraries. */
#include "print/print.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#define POINTS_PER_MM (72.0 / 25.4)
#define FAMILY "DejaVu Sans"
#define PACKAGE "fonts-dejavu-core"

typedef struct printer {
    cairo_surface_t *surface;
    cairo_t         *cr;
    PangoContext    *context;
    PangoLayout     *layout;
    double           height_mm;  // of the page
} printer;

/* ---- fonts ---------------------------------------------------------------------------------------------------- */

static bool has_family(PangoFontMap *map, const char *name)
{
    PangoFontFamily **families = NULL;
    int count = 0;
    pango_font_map_list_families(map, &families, &count);
    bool found = false;
    for (int i = 0; i < count && !found; i++) found = strcmp(pango_font_family_get_name(families[i]), name) == 0;
    g_free(families);
    return found;
}

const char *tw_print_fonts_missing(void)
{
    PangoFontMap *map = pango_cairo_font_map_new();
    bool found = has_family(map, FAMILY);
    g_object_unref(map);
    return found ? NULL : PACKAGE;
}

static PangoContext *context_new(void)
{
    PangoFontMap *map = pango_cairo_font_map_new();
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map), 72.0);
    PangoContext *context = pango_font_map_create_context(map);
    g_object_unref(map);  // the context holds it
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
    pango_context_set_base_dir(context, PANGO_DIRECTION_LTR);
    return context;
}

static PangoLayout *layout_new(PangoContext *context)
{
    PangoLayout *layout = pango_layout_new(context);
    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new("kern=0,liga=0,clig=0,calt=0,locl=0"));
    pango_layout_set_attributes(layout, attributes);
    pango_attr_list_unref(attributes);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_layout_set_auto_dir(layout, FALSE);
    return layout;
}

/* ---- marks ---------------------------------------------------------------------------------------------------- */

static double down(const printer *p, double y) { return p->height_mm - y; }

/* With y down an angle runs the other way round, and counter-clockwise on paper is cairo's negative sense. */
static void add_arc(const printer *p, tw_point centre, double radius, double start, double sweep)
{
    (sweep >= 0 ? cairo_arc_negative : cairo_arc)(p->cr, centre.x, down(p, centre.y), radius, -start, -(start + sweep));
}

static void add_outline(const printer *p, tw_outline outline)
{
    for (int k = 0; k < outline.count; k++) {
        tw_loop loop = outline.loops[k];
        if (loop.count == 0) continue;
        cairo_move_to(p->cr, loop.vertices[0].x, down(p, loop.vertices[0].y));
        for (int i = 0; i < loop.count; i++) {
            tw_edge edge = tw_loop_edge(loop, i);
            if (!edge.straight) add_arc(p, edge.centre, edge.radius_mm, edge.start_rad, edge.sweep_rad);
            else if (i + 1 < loop.count) cairo_line_to(p->cr, edge.to.x, down(p, edge.to.y));
        }
        cairo_close_path(p->cr);
    }
}

static void draw_text(const printer *p, const tw_item *item)
{
    PangoFontDescription *font = pango_font_description_new();
    pango_font_description_set_family_static(font, FAMILY);
    pango_font_description_set_weight(font, item->bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, item->size_mm * TW_EM_PER_CAPITAL * POINTS_PER_MM * PANGO_SCALE);
    pango_layout_set_font_description(p->layout, font);
    pango_font_description_free(font);
    pango_layout_set_text(p->layout, item->text, -1);
    double width = tw_text_width(item->size_mm, item->bold, item->text);
    double back = item->anchor == TW_ANCHOR_LEFT ? 0.0 : item->anchor == TW_ANCHOR_MIDDLE ? width / 2 : width;
    cairo_save(p->cr);
    cairo_translate(p->cr, item->from.x, down(p, item->from.y));
    cairo_rotate(p->cr, -item->turn_rad);
    cairo_translate(p->cr, -back, 0.0);
    cairo_scale(p->cr, 1.0 / POINTS_PER_MM, 1.0 / POINTS_PER_MM);  // pango works in points: its steps are then fine enough
    cairo_move_to(p->cr, 0.0, 0.0);
    pango_cairo_show_layout_line(p->cr, pango_layout_get_line_readonly(p->layout, 0));
    cairo_restore(p->cr);
}

static void draw_item(const printer *p, const tw_item *item)
{
    const tw_role_look *look = tw_role_look_of(item->role);
    cairo_set_source_rgb(p->cr, look->grey, look->grey, look->grey);
    cairo_new_path(p->cr);
    if (item->kind == TW_ITEM_TEXT) { draw_text(p, item); return; }
    if (item->kind == TW_ITEM_LINE) {
        cairo_move_to(p->cr, item->from.x, down(p, item->from.y));
        cairo_line_to(p->cr, item->to.x, down(p, item->to.y));
    } else if (item->kind == TW_ITEM_ARC) {
        add_arc(p, item->from, item->radius_mm, item->start_rad, item->sweep_rad);
        if (fabs(item->sweep_rad) >= 2 * TW_PI - 1e-9) cairo_close_path(p->cr);
    } else {
        add_outline(p, item->outline);
    }
    if (look->filled) { cairo_fill(p->cr); return; }
    cairo_set_line_width(p->cr, look->width_mm);
    cairo_set_line_cap(p->cr, look->dash_count > 0 ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
    cairo_set_dash(p->cr, look->dash_mm, look->dash_count, 0.0);
    cairo_stroke(p->cr);
}

/* ---- the document --------------------------------------------------------------------------------------------- */

/* Always success: cairo 1.16 falls over a null stream when its writer fails. The sink remembers, and takes no more. */
static cairo_status_t write_bytes(void *closure, const unsigned char *bytes, unsigned int count)
{
    tw_sink *sink = closure;
    tw_put(sink, (const char *)bytes, count);
    return CAIRO_STATUS_SUCCESS;
}

static void draw_page(printer *p, const tw_sheet *sheet, int number)
{
    p->height_mm = sheet->height_mm;
    cairo_pdf_surface_set_size(p->surface, sheet->width_mm * POINTS_PER_MM, sheet->height_mm * POINTS_PER_MM);
    char *place = tw_format(sheet->arena, "page=%d pos=[0 0]", number);
    cairo_pdf_surface_add_outline(p->surface, CAIRO_PDF_OUTLINE_ROOT, tw_text_shown(sheet->arena, false, sheet->title), place, 0);
    cairo_save(p->cr);
    cairo_scale(p->cr, POINTS_PER_MM, POINTS_PER_MM);
    for (size_t i = 0; i < sheet->count; i++) draw_item(p, &sheet->items[i]);
    cairo_restore(p->cr);
    cairo_show_page(p->cr);
}

static printer printer_new(const tw_sheet *first, const char *title, tw_sink *sink)
{
    printer p = { 0 };
    p.surface = cairo_pdf_surface_create_for_stream(write_bytes, sink, first->width_mm * POINTS_PER_MM,
                                                    first->height_mm * POINTS_PER_MM);
    cairo_pdf_surface_restrict_to_version(p.surface, CAIRO_PDF_VERSION_1_5);
    cairo_pdf_surface_set_metadata(p.surface, CAIRO_PDF_METADATA_TITLE, tw_text_shown(first->arena, false, title));
    cairo_pdf_surface_set_metadata(p.surface, CAIRO_PDF_METADATA_CREATOR, "Tuskwright");
    cairo_pdf_surface_set_metadata(p.surface, CAIRO_PDF_METADATA_CREATE_DATE, "");
    p.cr = cairo_create(p.surface);
    cairo_set_tolerance(p.cr, 0.001);
    cairo_set_fill_rule(p.cr, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_set_line_join(p.cr, CAIRO_LINE_JOIN_ROUND);
    p.context = context_new();
    p.layout = layout_new(p.context);
    return p;
}

const char tw_print_stopped[] = "the printing was stopped";

bool tw_print_pdf(const tw_sheet *const *sheets, int count, const char *title, tw_sink *sink, const char **why)
{
    return tw_print_pdf_watched(sheets, count, title, sink, NULL, why);
}

bool tw_print_pdf_watched(const tw_sheet *const *sheets, int count, const char *title, tw_sink *sink, const tw_print_watch *watch,
                          const char **why)
{
    assert(count >= 1);
    if (tw_print_fonts_missing()) {
        *why = "the font " FAMILY " is not installed; install the package " PACKAGE;
        return false;
    }
    printer p = printer_new(sheets[0], title, sink);
    bool stopped = false;
    for (int i = 0; i < count && !stopped; i++) {
        stopped = watch && !watch->go_on(watch->context, i);
        if (!stopped) draw_page(&p, sheets[i], i + 1);
    }
    cairo_surface_finish(p.surface);
    cairo_status_t status = cairo_status(p.cr);
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(p.surface);
    g_object_unref(p.layout);
    g_object_unref(p.context);
    cairo_destroy(p.cr);
    cairo_surface_destroy(p.surface);
    if (stopped) *why = tw_print_stopped;
    else if (sink->failed) *why = "the PDF could not be written: its place takes no more bytes";
    else if (status != CAIRO_STATUS_SUCCESS) *why = cairo_status_to_string(status);
    return !stopped && !sink->failed && status == CAIRO_STATUS_SUCCESS;
}
