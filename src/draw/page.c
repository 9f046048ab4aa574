// SPDX-License-Identifier: GPL-3.0-or-later
/* What stands around a drawing: frame, title block (fields after ISO 7200, from memory), scale bars, tick boxes. */
#include "draw/draw.h"

#include <assert.h>

#define LABEL_MM 1.8
#define VALUE_MM 2.5
#define ROW_MM (TW_TITLE_BLOCK_HIGH_MM / 2)
#define FIELD_AIR_MM 1.3
#define FREE_AIR_MM 4.0
#define CENTRING_MM 3.0

void tw_draw_tick_box(tw_sheet *sheet, double x, double y, double side_mm)
{
    assert(side_mm > 0);
    tw_draw_box(sheet, TW_ROLE_FRAME, x, y, x + side_mm, y + side_mm);
}

/* ---- title block ---- */

typedef struct title_field { const char *label, *value; double share; bool bold; } title_field;

static void draw_field(tw_sheet *sheet, const title_field *field, double x, double y, double width)
{
    double room = width - 2 * FIELD_AIR_MM;
    const char *value = field->value ? field->value : "";
    tw_draw_text(sheet, x + FIELD_AIR_MM, y + ROW_MM - FIELD_AIR_MM - LABEL_MM, LABEL_MM, TW_ANCHOR_LEFT,
                 tw_text_fitted(sheet->arena, room, LABEL_MM, false, field->label));
    (field->bold ? tw_draw_bold : tw_draw_text)(sheet, x + FIELD_AIR_MM, y + FIELD_AIR_MM + 0.3, VALUE_MM, TW_ANCHOR_LEFT,
                                                tw_text_fitted(sheet->arena, room, VALUE_MM, field->bold, value));
}

static void draw_fields(tw_sheet *sheet, const title_field *fields, int count, double x, double y, double width)
{
    tw_draw_line(sheet, TW_ROLE_FRAME, x, y + ROW_MM, x + width, y + ROW_MM);
    for (int i = 0; i < count; i++) {
        double wide = fields[i].share * width;
        draw_field(sheet, &fields[i], x, y, wide);
        x += wide;
        if (i + 1 < count) tw_draw_line(sheet, TW_ROLE_FRAME, x, y, x, y + ROW_MM);
    }
}

static void draw_title_block(tw_sheet *sheet, const tw_title_block *block, double x, double y, double width)
{
    const char *number = block->sheet > 0 ? tw_format(sheet->arena, "%d of %d", block->sheet, block->of) : "";
    const title_field upper[] = { { "Title", block->title, 0.62, true }, { "Kind of sheet", block->kind, 0.38, false } };
    const title_field lower[] = {
        { "Job", block->job, 0.38, false }, { "Revision", block->revision, 0.14, false }, { "Scale", block->scale, 0.15, false },
        { "Units", block->units, 0.09, false }, { "Paper", block->paper, 0.10, false }, { "Sheet", number, 0.14, false },
    };
    draw_fields(sheet, upper, 2, x, y + ROW_MM, width);
    draw_fields(sheet, lower, (int)(sizeof lower / sizeof *lower), x, y, width);
}

/* Marks at the middle of the four sides, outward from the frame (ISO 5457, from memory), as far as printers reach. */
static void draw_centring_marks(tw_sheet *sheet, double margin, double right, double top)
{
    double x = sheet->width_mm / 2.0, y = sheet->height_mm / 2.0;
    tw_draw_line(sheet, TW_ROLE_FRAME, x, margin - CENTRING_MM, x, margin);
    tw_draw_line(sheet, TW_ROLE_FRAME, x, top, x, top + CENTRING_MM);
    tw_draw_line(sheet, TW_ROLE_FRAME, margin - CENTRING_MM, y, margin, y);
    tw_draw_line(sheet, TW_ROLE_FRAME, right, y, right + CENTRING_MM, y);
}

tw_box tw_draw_page(tw_sheet *sheet, const tw_title_block *block)
{
    double m = TW_PAGE_MARGIN_MM, right = sheet->width_mm - m, top = sheet->height_mm - m;
    assert(right - m > 100.0 && top - m > 2 * TW_TITLE_BLOCK_HIGH_MM);
    tw_draw_box(sheet, TW_ROLE_FRAME, m, m, right, top);
    draw_centring_marks(sheet, m, right, top);
    draw_title_block(sheet, block, m, m, right - m);
    return (tw_box){ m + FREE_AIR_MM, m + TW_TITLE_BLOCK_HIGH_MM + FREE_AIR_MM, right - FREE_AIR_MM, top - FREE_AIR_MM };
}

/* ---- scale bars ---- */

/* A bar with count + 1 ticks step_mm apart, every long_each-th of them long. */
static void draw_bar(tw_sheet *sheet, double x, double y, double step_mm, int count, int long_each, const char *name)
{
    tw_draw_line(sheet, TW_ROLE_FRAME, x, y, x + step_mm * count, y);
    for (int i = 0; i <= count; i++) {
        double high = i == 0 || i == count ? 4.0 : i % long_each == 0 ? 2.5 : 1.5;
        tw_draw_line(sheet, TW_ROLE_DIMENSION, x + step_mm * i, y, x + step_mm * i, y + high);
    }
    tw_draw_text(sheet, x + 4 * TW_MM_PER_INCH + 1.5, y + 0.5, 2.0, TW_ANCHOR_LEFT, name);
}

void tw_draw_scale_bars(tw_sheet *sheet, double x, double y)
{
    draw_bar(sheet, x + 0.5, y + 8.0, 10.0, 10, 5, "100\xC2\xA0mm");
    draw_bar(sheet, x + 0.5, y + 1.0, TW_MM_PER_INCH / 2, 8, 2, "4\xC2\xA0in");
}
