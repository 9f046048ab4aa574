// SPDX-License-Identifier: GPL-3.0-or-later
/* Tables: a row is as high as its longest cell, wrapped; no upright rules, the columns are parted by air. */
#include "draw/draw.h"

#include <assert.h>

#define CELL_SIDE_MM 1.2        // air left and right of the text in a cell
#define CELL_AIR_PER_SIZE 0.75  // air above the capitals and below the last base line

double tw_table_width(const tw_table *table)
{
    double width = 0;
    for (int i = 0; i < table->column_count; i++) width += table->columns[i].width_mm;
    return width;
}

static double height_of_lines(const tw_table *table, int lines)
{
    if (lines < 1) lines = 1;
    return table->size_mm * (2 * CELL_AIR_PER_SIZE + 1.0 + (lines - 1) * TW_LEADING);
}

static int cell_lines(const tw_table *table, int column, bool bold, const char *text)
{
    double width = table->columns[column].width_mm - 2 * CELL_SIDE_MM;
    assert(width > 0);
    return text ? tw_text_lines(width, table->size_mm, bold, text) : 0;
}

double tw_table_titles_height(const tw_table *table)
{
    int most = 1;
    for (int i = 0; i < table->column_count; i++) {
        int lines = cell_lines(table, i, true, table->columns[i].title);
        if (lines > most) most = lines;
    }
    return height_of_lines(table, most);
}

double tw_table_row_height(const tw_table *table, const char *const *cells)
{
    int most = 1;
    for (int i = 0; i < table->column_count; i++) {
        int lines = cell_lines(table, i, table->columns[i].bold, cells[i]);
        if (lines > most) most = lines;
    }
    return tw_max(height_of_lines(table, most), table->least_row_mm);
}

int tw_table_rows_that_fit(const tw_table *table, const char *const *cells, int first, int row_count, double height_mm)
{
    int fit = 0;
    for (int row = first; row < row_count; row++, fit++) {
        height_mm -= tw_table_row_height(table, cells + (size_t)row * (size_t)table->column_count);
        if (height_mm < -1e-6) break;
    }
    return fit;
}

static void draw_cell(tw_sheet *sheet, const tw_table *table, int column, double x, double y, bool bold, const char *text)
{
    const tw_column *c = &table->columns[column];
    double at = c->anchor == TW_ANCHOR_LEFT ? x + CELL_SIDE_MM
              : c->anchor == TW_ANCHOR_RIGHT ? x + c->width_mm - CELL_SIDE_MM : x + c->width_mm / 2;
    double base = y - table->size_mm * (CELL_AIR_PER_SIZE + 1.0);
    tw_draw_lines(sheet, at, base, c->width_mm - 2 * CELL_SIDE_MM, table->size_mm, c->anchor, bold, text);
}

double tw_draw_table_titles(tw_sheet *sheet, const tw_table *table, double x, double y)
{
    double below = y - tw_table_titles_height(table), at = x;
    for (int i = 0; i < table->column_count; at += table->columns[i++].width_mm)
        if (table->columns[i].title) draw_cell(sheet, table, i, at, y, true, table->columns[i].title);
    tw_draw_line(sheet, TW_ROLE_FRAME, x, below, x + tw_table_width(table), below);
    return below;
}

double tw_draw_table_row(tw_sheet *sheet, const tw_table *table, double x, double y, const char *const *cells)
{
    double below = y - tw_table_row_height(table, cells), at = x;
    for (int i = 0; i < table->column_count; at += table->columns[i++].width_mm)
        if (cells[i]) draw_cell(sheet, table, i, at, y, table->columns[i].bold, cells[i]);
    tw_draw_line(sheet, TW_ROLE_FAINT, x, below, x + tw_table_width(table), below);
    return below;
}

double tw_draw_table(tw_sheet *sheet, const tw_table *table, double x, double y, const char *const *cells, int row_count)
{
    y = tw_draw_table_titles(sheet, table, x, y);
    for (int row = 0; row < row_count; row++)
        y = tw_draw_table_row(sheet, table, x, y, cells + (size_t)row * (size_t)table->column_count);
    if (row_count > 0) tw_draw_line(sheet, TW_ROLE_FRAME, x, y, x + tw_table_width(table), y);
    return y;
}
