// SPDX-License-Identifier: GPL-3.0-or-later
/* The run sheet: every step in its order, with boxes to tick and what changes from the step before. */
#include "sheet/pages.h"

#define TICK_MM 4.0
#define TICKS_MOST 24
#define AIR_MM 1.2

typedef struct run_columns { double number, name, change, ticks, end; } run_columns;

static run_columns columns_of(const tw_pages *pages)
{
    double w = pages->room.x1 - pages->room.x0;
    return (run_columns){ 0.0, 13.0, w * 0.47, w * 0.76, w };
}

static void draw_titles(tw_pages *pages, run_columns c)
{
    double base = pages->y - TW_BODY_MM - AIR_MM, x = pages->room.x0;
    tw_draw_bold(pages->sheet, x + c.number, base, TW_BODY_MM, TW_ANCHOR_LEFT, "Card");
    tw_draw_bold(pages->sheet, x + c.name, base, TW_BODY_MM, TW_ANCHOR_LEFT, "Step");
    tw_draw_bold(pages->sheet, x + c.change, base, TW_BODY_MM, TW_ANCHOR_LEFT, "What changes");
    tw_draw_bold(pages->sheet, x + c.ticks, base, TW_BODY_MM, TW_ANCHOR_LEFT, "Tick each");
    pages->y = base - AIR_MM;
    tw_draw_line(pages->sheet, TW_ROLE_FRAME, x, pages->y, pages->room.x1, pages->y);
}

static double draw_step(tw_sheet *sheet, run_columns c, const tw_step *step)
{
    double top = -AIR_MM, name_wide = c.change - c.name - 3.0, change_wide = c.ticks - c.change - 3.0;
    tw_draw_bold(sheet, c.number, top - TW_LOUD_MM, TW_LOUD_MM, TW_ANCHOR_LEFT, tw_format(sheet->arena, "%d", step->number));
    double y = tw_block_text(sheet, c.name, top, name_wide, TW_BODY_MM, true, step->name);
    y = tw_block_text(sheet, c.name, y, name_wide, TW_SMALL_MM, false, step->tally ? step->tally : "");
    double change = tw_block_text(sheet, c.change, top, change_wide, TW_BODY_MM, false, step->change ? step->change : "");
    double ticks = tw_block_ticks(sheet, c.ticks, top, c.end - c.ticks, TICK_MM, step->boxes, TICKS_MOST);
    y = tw_min(tw_min(y, change), tw_min(ticks, top - TW_LOUD_MM - 1.0)) - 0.6;
    tw_draw_line(sheet, TW_ROLE_FAINT, 0.0, y, c.end, y);
    return y;
}

tw_paper_pages tw_paper_run(tw_arena *arena, const tw_paper_input *in)
{
    if (in->run->count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "run", "Run sheet", "Run sheet",
                                    "the steps in their order, with boxes to tick and what changes");
    tw_pages_new(&pages, "Run sheet", NULL);
    const char *halt = tw_halt_words(pages.arena, in->findings);
    if (halt) tw_pages_text(&pages, TW_LOUD_MM, true, halt);
    tw_pages_text(&pages, TW_BODY_MM, false,
                  "The number of a step is the number of its card. Follow the order: later steps rely on what earlier ones leave.");
    run_columns columns = columns_of(&pages);
    draw_titles(&pages, columns);
    for (int i = 0; i < in->run->count; i++) {
        tw_sheet *block = tw_scratch(pages.arena);
        double height = -draw_step(block, columns, &in->run->steps[i]);
        size_t before = pages.count;
        tw_pages_need(&pages, height);
        if (pages.count != before) draw_titles(&pages, columns);
        tw_pages_place(&pages, block, height);
    }
    return tw_pages_finish(&pages);
}
