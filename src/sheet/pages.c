// SPDX-License-Identifier: GPL-3.0-or-later
/* Pages that fill from the top down.
 *
 * A composer asks for room and draws; when there is none the page turns, with the same title "continued". What has no
 * height before it is drawn is drawn on a scratch sheet first, its top at y = 0, and then copied into place. Frames and
 * title blocks come last: only then is the number of pages known. */
#include "sheet/pages.h"

#include <assert.h>
#include <math.h>
#include <string.h>


/* The page that papers are read on: A4 or Letter. An A3 sheet holds two of A4 (see papers.c). */
static tw_paper_size reading_page(const tw_job *job)
{
    return tw_paper_size_of(job->paper.value == TW_PAPER_LETTER ? TW_PAPER_LETTER : TW_PAPER_A4);
}

static tw_title_block block_of(const tw_pages *pages, const tw_page *page, int number, int of)
{
    const tw_job *job = pages->in->job;
    return (tw_title_block){
        .title = page->title,
        .kind = pages->kind,
        .job = job->title.text,
        .revision = job->revision.text,
        .scale = page->scale ? page->scale : "\xE2\x80\x93",
        .paper = reading_page(job).name,
        .units = tw_paper_unit_word(job->figures),
        .sheet = number,
        .of = of,
    };
}

tw_pages tw_pages_begin(tw_arena *arena, const tw_paper_input *in, const char *name, const char *title, const char *kind,
                        const char *purpose)
{
    tw_paper_size size = reading_page(in->job);
    tw_pages pages = { .keep = arena, .arena = TW_NEW(arena, tw_arena), .in = in, .name = name, .title = title, .kind = kind, .purpose = purpose,
                       .width_mm = size.width_mm, .height_mm = size.height_mm };
    *pages.arena = tw_arena_beside(arena);
    tw_sheet *trial = tw_sheet_new(pages.arena, name, title, size.width_mm, size.height_mm);
    tw_title_block block = block_of(&pages, &(tw_page){ .title = title }, 1, 1);
    pages.room = tw_draw_page(trial, &block);
    return pages;
}

void tw_pages_new(tw_pages *pages, const char *title, const char *scale)
{
    const char *name = tw_format(pages->arena, "%s-%zu", pages->name, pages->count + 1);
    tw_array_make_room(pages->keep, &pages->items, pages->count, &pages->space, sizeof *pages->items);
    pages->sheet = tw_sheet_new(pages->keep, name, title, pages->width_mm, pages->height_mm);
    pages->items[pages->count++] = (tw_page){ .sheet = pages->sheet, .title = pages->sheet->title, .scale = scale };
    pages->y = pages->room.y1;
}

void tw_pages_need(tw_pages *pages, double height_mm)
{
    assert(pages->sheet);
    bool untouched = pages->y >= pages->room.y1 - 1e-9;
    if (untouched || pages->y - height_mm >= pages->room.y0 - 1e-6) return;
    const char *title = pages->items[pages->count - 1].title;
    if (!strstr(title, ", continued")) title = tw_format(pages->arena, "%s, continued", title);
    tw_pages_new(pages, title, NULL);
}

tw_paper_pages tw_pages_finish(tw_pages *pages)
{
    const tw_sheet **sheets = TW_NEW_ARRAY(pages->keep, const tw_sheet *, pages->count);
    for (size_t i = 0; i < pages->count; i++) {
        tw_title_block block = block_of(pages, &pages->items[i], (int)i + 1, (int)pages->count);
        tw_draw_page(pages->items[i].sheet, &block);
        sheets[i] = pages->items[i].sheet;
    }
    tw_arena_finish(pages->arena);
    return (tw_paper_pages){ .name = pages->name, .title = pages->title, .purpose = pages->purpose, .pages = sheets,
                             .page_count = (int)pages->count };
}

/* ---- what fills them ---- */

void tw_pages_gap(tw_pages *pages, double height_mm) { pages->y = tw_max(pages->y - height_mm, pages->room.y0); }

void tw_pages_heading(tw_pages *pages, const char *text, double with_mm)
{
    double width = pages->room.x1 - pages->room.x0;
    double height = tw_text_lines(width, TW_LOUD_MM, true, text) * TW_LEADING * TW_LOUD_MM + 2.0;
    tw_pages_need(pages, height + with_mm);
    if (pages->y < pages->room.y1) tw_pages_gap(pages, 2.0);
    pages->y = tw_block_text(pages->sheet, pages->room.x0, pages->y, width, TW_LOUD_MM, true, text);
}

void tw_pages_text(tw_pages *pages, double size_mm, bool bold, const char *text)
{
    double width = pages->room.x1 - pages->room.x0;
    tw_pages_need(pages, tw_text_lines(width, size_mm, bold, text) * TW_LEADING * size_mm);
    pages->y = tw_block_text(pages->sheet, pages->room.x0, pages->y, width, size_mm, bold, text);
}

void tw_pages_table(tw_pages *pages, const tw_column *columns, int column_count, double size_mm, const char *const *cells,
                    int row_count)
{
    tw_column *fitted = TW_NEW_ARRAY(pages->arena, tw_column, (size_t)column_count);
    double shares = 0.0;
    for (int i = 0; i < column_count; i++) shares += columns[i].width_mm;
    for (int i = 0; i < column_count; i++) {
        fitted[i] = columns[i];
        fitted[i].width_mm *= (pages->room.x1 - pages->room.x0) / shares;
    }
    tw_table table = { .columns = fitted, .column_count = column_count, .size_mm = size_mm };
    for (int row = 0; row < row_count;) {
        double first = tw_table_titles_height(&table) + tw_table_row_height(&table, cells + (size_t)row * (size_t)column_count);
        tw_pages_need(pages, first + 1.0);
        int fit = tw_table_rows_that_fit(&table, cells, row, row_count, pages->y - pages->room.y0 - 1.0 - tw_table_titles_height(&table));
        if (fit < 1) fit = 1;
        pages->y = tw_draw_table(pages->sheet, &table, pages->room.x0, pages->y, cells + (size_t)row * (size_t)column_count, fit);
        row += fit;
    }
    tw_pages_gap(pages, 2.0);
}

void tw_pages_place(tw_pages *pages, const tw_sheet *block, double height_mm)
{
    tw_pages_need(pages, height_mm);
    tw_draw_sheet(pages->sheet, block, 1.0, pages->room.x0, pages->y);
    pages->y -= height_mm;
}

/* ---- blocks ---- */

/* Its two ends, and the top, bottom, left and right of its circle that it passes. */
static tw_box arc_reach(const tw_item *arc)
{
    double low = tw_min(arc->start_rad, arc->start_rad + arc->sweep_rad), high = tw_max(arc->start_rad, arc->start_rad + arc->sweep_rad);
    tw_box box = { INFINITY, INFINITY, -INFINITY, -INFINITY };
    const double quarter = TW_PI / 2.0, first = ceil(low / quarter) * quarter;
    for (int i = -2; i < 5; i++) {
        double at = i == -2 ? low : i == -1 ? high : first + i * quarter;
        if (at > high) continue;
        double x = arc->from.x + arc->radius_mm * cos(at), y = arc->from.y + arc->radius_mm * sin(at);
        box = (tw_box){ tw_min(box.x0, x), tw_min(box.y0, y), tw_max(box.x1, x), tw_max(box.y1, y) };
    }
    return box;
}

static tw_box item_reach(const tw_item *item)
{
    tw_point a = item->from, b = item->to;
    switch (item->kind) {
    case TW_ITEM_LINE: return (tw_box){ tw_min(a.x, b.x), tw_min(a.y, b.y), tw_max(a.x, b.x), tw_max(a.y, b.y) };
    case TW_ITEM_ARC: return arc_reach(item);
    case TW_ITEM_OUTLINE: return tw_outline_bounds(item->outline);
    case TW_ITEM_TEXT: return tw_text_box(item);
    }
    return (tw_box){ 1.0, 1.0, 0.0, 0.0 };
}

tw_box tw_sheet_reach(const tw_sheet *sheet)
{
    tw_box all = { INFINITY, INFINITY, -INFINITY, -INFINITY };
    for (size_t i = 0; i < sheet->count; i++) {
        tw_box box = item_reach(&sheet->items[i]);
        if (box.x0 > box.x1) continue;
        all = (tw_box){ tw_min(all.x0, box.x0), tw_min(all.y0, box.y0), tw_max(all.x1, box.x1), tw_max(all.y1, box.y1) };
    }
    return all;
}

tw_arena tw_arena_beside(const tw_arena *arena) { return (tw_arena){ .out_of_memory = arena->out_of_memory }; }

tw_sheet *tw_scratch(tw_arena *arena) { return tw_sheet_new(arena, "", "", 1000.0, 1000.0); }

double tw_block_text(tw_sheet *sheet, double x, double top, double width_mm, double size_mm, bool bold, const char *text)
{
    if (!*text) return top;
    double below = tw_draw_paragraph(sheet, x, top - size_mm, width_mm, size_mm, bold, text);
    return below + size_mm;
}

double tw_block_labelled(tw_sheet *sheet, double x, double top, double width_mm, const char *label, double size_mm, const char *text)
{
    if (!*text) return top;
    tw_draw_text(sheet, x, top - TW_SMALL_MM, TW_SMALL_MM, TW_ANCHOR_LEFT, label);
    return tw_block_text(sheet, x, top - TW_SMALL_MM * TW_LEADING, width_mm, size_mm, true, text) - 0.8;
}

double tw_block_ticks(tw_sheet *sheet, double x, double top, double width_mm, double side_mm, int count, int most)
{
    assert(count >= 0 && most > 0 && side_mm > 0.0);
    if (count == 0) return top;
    double pitch = side_mm * 1.35;
    if (count > most) {
        const char *of = tw_format(sheet->arena, "of %d", count);
        double line = width_mm - tw_text_width(side_mm * 0.7, false, of) - 2.0;
        tw_draw_line(sheet, TW_ROLE_FRAME, x, top - side_mm, x + line, top - side_mm);
        tw_draw_text(sheet, x + line + 2.0, top - side_mm, side_mm * 0.7, TW_ANCHOR_LEFT, of);
        return top - pitch;
    }
    int in_row = (int)((width_mm + 0.35 * side_mm) / pitch);
    if (in_row < 1) in_row = 1;
    for (int i = 0; i < count; i++)
        tw_draw_tick_box(sheet, x + i % in_row * pitch, top - side_mm - i / in_row * pitch, side_mm);
    return top - ((count - 1) / in_row + 1) * pitch;
}

/* ---- words ---- */

const char *tw_paper_length(const tw_pages *pages, double length_mm)
{
    return tw_length_text(pages->arena, length_mm, pages->in->job->figures);
}

const char *tw_paper_bare(const tw_pages *pages, double length_mm)
{
    return tw_length_bare(pages->arena, length_mm, pages->in->job->figures);
}

const char *tw_paper_unit_word(tw_figures figures) { return figures.style == TW_FIGURES_MM ? "mm" : "inches"; }

const char *tw_count_words(tw_arena *arena, int count, const char *one, const char *many)
{
    return tw_format(arena, "%d %s", count, count == 1 ? one : many);
}

const char *tw_sentence(tw_arena *arena, const char *text)
{
    size_t length = strlen(text);
    if (length == 0) return text;
    bool ended = text[length - 1] == '.' || text[length - 1] == '!' || text[length - 1] == '?';
    char *sentence = tw_format(arena, "%s%s", text, ended ? "" : ".");
    if (*sentence >= 'a' && *sentence <= 'z') *sentence = (char)(*sentence - 'a' + 'A');
    return sentence;
}

const char *tw_works_piece_name(const tw_paper_input *in, const tw_work *work)
{
    return work->piece >= 0 ? in->job->pieces[work->piece].name : work->part && *work->part ? work->part : "part";
}

const char *tw_halt_words(tw_arena *arena, const tw_findings *findings)
{
    size_t halts = tw_findings_count(findings, TW_HALT);
    if (halts == 0) return NULL;
    return tw_format(arena, "HALT. %s against this job. Read the findings before you cut anything.",
                     halts == 1 ? "One halt stands" : tw_format(arena, "%zu halts stand", halts));
}
