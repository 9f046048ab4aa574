// SPDX-License-Identifier: GPL-3.0-or-later
/* Tiling. A page's field is what lies inside the margin, above the foot. Fields step by field - overlap, so that n of them
 * cover n (field - overlap) + overlap; the canvas stands in the middle of what they cover.
 *
 *      |<------- field A ------->|               Neighbours overlap by a strip. Down its middle runs the line to cut
 *                        |<------- field B ----> to, and on it stand the register crosses: page B is cut along the
 *                        |   +   |               line, through the crosses, and laid on page A so that the half
 *                        |   |cut|               crosses meet. Each page is cut at its left and its upper side.
 *
 * The lines to cut to divide the canvas among the pages, border to the right and lower one excepted: a text belongs to
 * the page whose part holds its anchor, and must end inside that part or it would be cut or covered. */
#include "sheet/tile.h"

#include "sheet/clip.h"

#include <assert.h>
#include <math.h>

#define FOOT_MM 31.0        // height of the foot, its rule included
#define FOOT_CLEAR_MM 1.5   // the field starts so far above the foot's rule
#define MAP_WIDE_MM 34.0
#define MAP_HIGH_MM 22.0
#define CROSS_MM 4.0        // half the length of a register cross
#define TEXT_AIR_MM 0.5     // a text stays so far off the borders of its part
#define LEAST_NAME_CELL_MM 6.0

typedef struct grid {
    const tw_sheet *canvas;
    tw_tiling       tiling;
    double          page_wide, page_high;
    double          field_wide, field_high;
    int             columns, rows;
    double          left, top;  // of the fields' cover, in canvas coordinates
} grid;

typedef struct spot { int column, row; } spot;  // row 0 on top

tw_tiling tw_tiling_default(tw_paper paper)
{
    return (tw_tiling){ .paper = paper, .margin_mm = TW_PAGE_MARGIN_MM, .overlap_mm = 12.0, .footer = "" };
}

/* ---- the grid ------------------------------------------------------------------------------------------------- */

static int fields_needed(double size, double field, double overlap)
{
    if (size <= field + 1e-6) return 1;
    return (int)ceil((size - overlap) / (field - overlap) - 1e-9);
}

static grid grid_of(const tw_sheet *canvas, tw_tiling tiling, bool lying)
{
    tw_paper_size paper = tw_paper_size_of(tiling.paper);
    grid g = { .canvas = canvas, .tiling = tiling };
    g.page_wide = lying ? paper.height_mm : paper.width_mm;
    g.page_high = lying ? paper.width_mm : paper.height_mm;
    g.field_wide = g.page_wide - 2 * tiling.margin_mm;
    g.field_high = g.page_high - 2 * tiling.margin_mm - FOOT_MM - FOOT_CLEAR_MM;
    double overlap = tiling.overlap_mm;
    assert(g.field_wide > 2 * overlap && g.field_high > 2 * overlap);
    g.columns = fields_needed(canvas->width_mm, g.field_wide, overlap);
    g.rows = fields_needed(canvas->height_mm, g.field_high, overlap);
    double cover_wide = g.columns * (g.field_wide - overlap) + overlap, cover_high = g.rows * (g.field_high - overlap) + overlap;
    g.left = -(cover_wide - canvas->width_mm) / 2;
    g.top = canvas->height_mm + (cover_high - canvas->height_mm) / 2;
    return g;
}

/* What the page shows, in canvas coordinates. */
static tw_box field_of(const grid *g, spot at)
{
    double x0 = g->left + at.column * (g->field_wide - g->tiling.overlap_mm);
    double y1 = g->top - at.row * (g->field_high - g->tiling.overlap_mm);
    return (tw_box){ x0, y1 - g->field_high, x0 + g->field_wide, y1 };
}

/* What stays of it when all pages are joined: from line to line. */
static tw_box part_of(const grid *g, spot at)
{
    tw_box part = field_of(g, at);
    double half = g->tiling.overlap_mm / 2;
    if (at.column > 0) part.x0 += half;
    if (at.column + 1 < g->columns) part.x1 -= half;
    if (at.row + 1 < g->rows) part.y0 += half;
    if (at.row > 0) part.y1 -= half;
    return part;
}

static const char *name_of(tw_arena *arena, spot at)
{
    if (at.column >= 26) return tw_format(arena, "%c%c%d", 'A' + at.column / 26 - 1, 'A' + at.column % 26, at.row + 1);
    return tw_format(arena, "%c%d", 'A' + at.column, at.row + 1);
}

/* ---- the field ------------------------------------------------------------------------------------------------ */

/* Without neighbours on a side the part has no end there: the anchor may lie anywhere beyond. */
static bool holds(const grid *g, spot at, tw_point p)
{
    tw_box part = part_of(g, at);
    return (at.column == 0 || p.x >= part.x0) && (at.column + 1 == g->columns || p.x < part.x1)
        && (at.row + 1 == g->rows || p.y >= part.y0) && (at.row == 0 || p.y < part.y1);
}

/* How far the span a..b must go to lie in low..high; into the middle if it is longer. */
static double shift_into(double a, double b, double low, double high)
{
    if (b - a > high - low) return (low + high) / 2 - (a + b) / 2;
    return a < low ? low - a : b > high ? high - b : 0.0;
}

static void place_text(tw_sheet *page, const grid *g, spot at, const tw_item *item, double dx, double dy)
{
    tw_box part = part_of(g, at), box = tw_text_box(item);
    if (box.x0 > box.x1) return;
    part = (tw_box){ part.x0 + TEXT_AIR_MM, part.y0 + TEXT_AIR_MM, part.x1 - TEXT_AIR_MM, part.y1 - TEXT_AIR_MM };
    double share = tw_min(1.0, tw_min((part.x1 - part.x0) / (box.x1 - box.x0), (part.y1 - part.y0) / (box.y1 - box.y0)));
    tw_item text = *item;
    text.size_mm *= share;
    box = tw_text_box(&text);
    text.from.x += shift_into(box.x0, box.x1, part.x0, part.x1) + dx;
    text.from.y += shift_into(box.y0, box.y1, part.y0, part.y1) + dy;
    tw_draw_item(page, &text);
}

static void draw_field(tw_sheet *page, const grid *g, spot at, double dx, double dy)
{
    tw_box field = field_of(g, at), paper = { 0, 0, g->canvas->width_mm, g->canvas->height_mm };
    tw_box shown = { tw_max(field.x0, paper.x0), tw_max(field.y0, paper.y0), tw_min(field.x1, paper.x1), tw_min(field.y1, paper.y1) };
    if (shown.x0 >= shown.x1 || shown.y0 >= shown.y1) return;
    for (size_t i = 0; i < g->canvas->count; i++) {
        const tw_item *item = &g->canvas->items[i];
        if (item->kind != TW_ITEM_TEXT) tw_draw_clipped(page, item, shown, dx, dy);
        else if (holds(g, at, item->from)) place_text(page, g, at, item, dx, dy);
    }
}

/* ---- joining pages -------------------------------------------------------------------------------------------- */

static void draw_cross(tw_sheet *page, double x, double y)
{
    tw_draw_line(page, TW_ROLE_DIMENSION, x - CROSS_MM, y, x + CROSS_MM, y);
    tw_draw_line(page, TW_ROLE_DIMENSION, x, y - CROSS_MM, x, y + CROSS_MM);
    tw_draw_circle(page, TW_ROLE_DIMENSION, x, y, 0.6 * CROSS_MM);
}

/* An upright side shared with a neighbour: x of the line, the field's span, all on the page. */
static void draw_side(tw_sheet *page, double x, double y0, double y1, bool cut, const char *neighbour)
{
    tw_draw_line(page, cut ? TW_ROLE_HIDDEN : TW_ROLE_FAINT, x, y0, x, y1);
    for (int i = 1; i <= 4; i += 3) draw_cross(page, x, y0 + (y1 - y0) * i / 5);
    const char *words = tw_format(page->arena, cut ? "cut to this line, lay on %s" : "%s is laid on from here", neighbour);
    tw_draw_text_turned(page, cut ? x - 1.5 : x + 3.3, y0 + 0.36 * (y1 - y0), 1.8, TW_ANCHOR_MIDDLE, TW_PI / 2, words);
}

/* A level one likewise. */
static void draw_level(tw_sheet *page, double y, double x0, double x1, bool cut, const char *neighbour)
{
    tw_draw_line(page, cut ? TW_ROLE_HIDDEN : TW_ROLE_FAINT, x0, y, x1, y);
    for (int i = 1; i <= 4; i += 3) draw_cross(page, x0 + (x1 - x0) * i / 5, y);
    const char *words = tw_format(page->arena, cut ? "cut to this line, lay on %s" : "%s is laid on from here", neighbour);
    tw_draw_text(page, x0 + 0.36 * (x1 - x0), cut ? y + 1.5 : y - 3.3, 1.8, TW_ANCHOR_MIDDLE, words);
}

static void draw_joins(tw_sheet *page, const grid *g, spot at, double dx, double dy)
{
    tw_box field = field_of(g, at), part = part_of(g, at);
    double x0 = field.x0 + dx, x1 = field.x1 + dx, y0 = field.y0 + dy, y1 = field.y1 + dy;
    tw_arena *arena = page->arena;
    if (at.column > 0) draw_side(page, part.x0 + dx, y0, y1, true, name_of(arena, (spot){ at.column - 1, at.row }));
    if (at.column + 1 < g->columns) draw_side(page, part.x1 + dx, y0, y1, false, name_of(arena, (spot){ at.column + 1, at.row }));
    if (at.row > 0) draw_level(page, part.y1 + dy, x0, x1, true, name_of(arena, (spot){ at.column, at.row - 1 }));
    if (at.row + 1 < g->rows) draw_level(page, part.y0 + dy, x0, x1, false, name_of(arena, (spot){ at.column, at.row + 1 }));
}

/* ---- the foot ------------------------------------------------------------------------------------------------- */

/* The canvas in small: what is cut, and the parts of the pages over it. Its lower right corner at x1, y0. */
static void draw_map(tw_sheet *page, const grid *g, spot here, double x1, double y0)
{
    double overlap = g->tiling.overlap_mm;
    double wide = g->columns * (g->field_wide - overlap) + overlap, high = g->rows * (g->field_high - overlap) + overlap;
    double scale = tw_min(MAP_WIDE_MM / wide, MAP_HIGH_MM / high);
    double dx = x1 - scale * (g->left + wide), dy = y0 - scale * (g->top - high);
    tw_box part = part_of(g, here);
    tw_draw_box(page, TW_ROLE_SHADE, part.x0 * scale + dx, part.y0 * scale + dy, part.x1 * scale + dx, part.y1 * scale + dy);
    tw_sheet small = { .arena = page->arena };
    for (size_t i = 0; i < g->canvas->count; i++) {
        const tw_item *item = &g->canvas->items[i];
        if (item->kind != TW_ITEM_OUTLINE || (item->role != TW_ROLE_CUT && item->role != TW_ROLE_VISIBLE)) continue;
        tw_draw_item(&small, item);
        small.items[small.count - 1].role = TW_ROLE_FAINT;
    }
    tw_draw_sheet(page, &small, scale, dx, dy);
    for (int row = 0; row < g->rows; row++)
        for (int column = 0; column < g->columns; column++) {
            part = part_of(g, (spot){ column, row });
            double x = part.x0 * scale + dx, y = part.y0 * scale + dy, w = (part.x1 - part.x0) * scale, h = (part.y1 - part.y0) * scale;
            tw_draw_box(page, TW_ROLE_DIMENSION, x, y, x + w, y + h);
            if (w >= LEAST_NAME_CELL_MM && h >= LEAST_NAME_CELL_MM / 2)
                tw_draw_text(page, x + w / 2, y + h / 2 - 0.9, 1.8, TW_ANCHOR_MIDDLE, name_of(page->arena, (spot){ column, row }));
        }
}

static void draw_foot(tw_sheet *page, const grid *g, spot at)
{
    double m = g->tiling.margin_mm, right = g->page_wide - m, top = m + FOOT_MM;
    tw_draw_line(page, TW_ROLE_FRAME, m, top, right, top);
    tw_draw_bold(page, m, top - 5.0, 2.5, TW_ANCHOR_LEFT, "Print at 100\xC2\xA0%: no fitting to the page");
    tw_draw_text(page, m, top - 8.8, 1.8, TW_ANCHOR_LEFT, "Measure both bars on the print before you cut anything to it.");
    tw_draw_scale_bars(page, m, m + 6.0);
    tw_draw_text(page, m, m + 1.0, 2.0, TW_ANCHOR_LEFT, tw_text_fitted(page->arena, right - m, 2.0, false, g->tiling.footer));
    if (g->columns * g->rows == 1) return;
    double x = m + TW_SCALE_BARS_WIDE_MM + 2.0;
    tw_draw_bold(page, x, top - 9.0, 6.0, TW_ANCHOR_LEFT, name_of(page->arena, at));
    tw_draw_text(page, x, top - 13.0, 2.0, TW_ANCHOR_LEFT,
                 tw_format(page->arena, "page %d of %d", at.row * g->columns + at.column + 1, g->columns * g->rows));
    tw_draw_paragraph(page, x, top - 17.5, right - MAP_WIDE_MM - 2.0 - x, 1.8, false, "Join so that the crosses meet.");
    draw_map(page, g, at, right, m + 6.0);
}

/* ---- pages ---------------------------------------------------------------------------------------------------- */

static tw_sheet *page_of(tw_arena *arena, const grid *g, spot at)
{
    bool several = g->columns * g->rows > 1;
    const char *name = g->canvas->name, *title = g->canvas->title;
    if (several) {
        name = tw_format(arena, "%s-%s", name, name_of(arena, at));
        title = tw_format(arena, "%s, page %s", title, name_of(arena, at));
    }
    tw_sheet *page = tw_sheet_new(arena, name, title, g->page_wide, g->page_high);
    tw_box field = field_of(g, at);
    double dx = g->tiling.margin_mm - field.x0, dy = g->tiling.margin_mm + FOOT_MM + FOOT_CLEAR_MM - field.y0;
    draw_field(page, g, at, dx, dy);
    draw_joins(page, g, at, dx, dy);
    draw_foot(page, g, at);
    return page;
}

tw_sheet **tw_sheet_tile(tw_arena *arena, const tw_sheet *canvas, tw_tiling tiling, int *count)
{
    assert(tiling.margin_mm >= 0 && tiling.overlap_mm >= 8.0 && tiling.footer);
    grid upright = grid_of(canvas, tiling, false), lying = grid_of(canvas, tiling, true);
    grid g = lying.columns * lying.rows < upright.columns * upright.rows ? lying : upright;
    *count = g.columns * g.rows;
    tw_sheet **pages = TW_NEW_ARRAY(arena, tw_sheet *, (size_t)*count);
    for (int i = 0; i < *count; i++) pages[i] = page_of(arena, &g, (spot){ i % g.columns, i / g.columns });
    return pages;
}
