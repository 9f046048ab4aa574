// SPDX-License-Identifier: GPL-3.0-or-later
/* The cutting list: rows (see cutting.h for the allowances), the paper, and the same rows as CSV after RFC 4180. */
#include "sheet/cutting.h"

#include "sheet/pages.h"

#include <assert.h>
#include <string.h>

tw_size tw_cutting_allowance(const tw_job *job)
{
    if (!job->inch_sizes) return (tw_size){ 25.0, 6.0, 4.0 };
    return (tw_size){ TW_MM_PER_INCH, TW_MM_PER_INCH / 4.0, TW_MM_PER_INCH / 8.0 };
}

static tw_cutting_row row_of_piece(const tw_job *job, const tw_piece *piece, tw_size more)
{
    tw_size size = tw_piece_size(piece);
    int count = (int)piece->count.value * (int)job->sets.value;
    return (tw_cutting_row){
        .name = piece->name, .timber = piece->timber.text, .note = piece->note.text,
        .count = count, .rough_count = count, .each = 1, .finished = size,
        .rough = { size.length_mm + more.length_mm, size.width_mm + more.width_mm, size.thickness_mm + more.thickness_mm },
    };
}

/* The job's own note, and what of the others is alike to the piece or its mirror image. */
static const char *note_of(tw_arena *arena, const tw_paper_input *in, int piece)
{
    const char *note = in->job->pieces[piece].note.text ? in->job->pieces[piece].note.text : "";
    if (!in->kin) return note;
    const char *alike = tw_kin_alike_words(arena, in->job, in->kin, piece), *mirror = tw_kin_mirror_words(arena, in->job, in->kin, piece);
    if (*alike) note = tw_format(arena, "%s%salike to %s", note, *note ? "; " : "", alike);
    if (*mirror) note = tw_format(arena, "%s%smirror image of %s", note, *note ? "; " : "", mirror);
    return note;
}

static tw_cutting_row row_of_part(const tw_part *part)
{
    int each = part->per_stick > 0 ? part->per_stick : 1;
    return (tw_cutting_row){
        .name = part->name, .timber = part->timber ? part->timber : "", .note = part->note ? part->note : "", .part = !part->bought, .bought = part->bought,
        .count = part->count, .rough_count = (part->count + each - 1) / each, .each = each,
        .finished = part->finished, .rough = part->stick,
    };
}

tw_cutting_list tw_cutting_list_make(tw_arena *arena, const tw_paper_input *in)
{
    size_t room = (size_t)in->job->piece_count;
    for (int p = 0; p < in->plan_count; p++) room += in->plans[p].part_count;
    tw_cutting_list list = { .rows = TW_NEW_ARRAY(arena, tw_cutting_row, room + 1), .allowance = tw_cutting_allowance(in->job) };
    for (int i = 0; i < in->job->piece_count; i++) {
        list.rows[list.count] = row_of_piece(in->job, &in->job->pieces[i], list.allowance);
        list.rows[list.count++].note = note_of(arena, in, i);
    }
    for (int p = 0; p < in->plan_count; p++)
        for (size_t i = 0; i < in->plans[p].part_count; i++) list.rows[list.count++] = row_of_part(&in->plans[p].parts[i]);
    assert((size_t)list.count == room);
    return list;
}

const char *tw_cutting_what(const tw_cutting_row *row) { return row->bought ? "bought" : row->part ? "part" : "piece"; }

const char *tw_cutting_allowance_words(tw_arena *arena, const tw_cutting_list *list, tw_figures figures)
{
    return tw_format(arena, "%s in length, %s in width, %s in thickness", tw_length_text(arena, list->allowance.length_mm, figures),
                     tw_length_text(arena, list->allowance.width_mm, figures),
                     tw_length_text(arena, list->allowance.thickness_mm, figures));
}

/* ---- the paper ---- */

static const char *size_words(const tw_pages *pages, tw_size size)
{
    return tw_format(pages->arena, "%s × %s × %s", tw_paper_bare(pages, size.length_mm), tw_paper_bare(pages, size.width_mm),
                     tw_paper_bare(pages, size.thickness_mm));
}

static void add_table(tw_pages *pages, const tw_cutting_list *list, bool parts)
{
    const tw_column columns[] = {
        { "", 7, TW_ANCHOR_LEFT, false }, { parts ? "Part" : "Piece", 38, TW_ANCHOR_LEFT, true }, { "Count", 17, TW_ANCHOR_MIDDLE, true },
        { "Finished: length × width × thickness", 46, TW_ANCHOR_LEFT, true },
        { parts ? "Sticks to saw" : "Rough, to saw out", 46, TW_ANCHOR_LEFT, false }, { "Timber", 30, TW_ANCHOR_LEFT, false },
    };
    enum { COLUMNS = sizeof columns / sizeof *columns };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)list->count * COLUMNS);
    int rows = 0;
    for (int i = 0; i < list->count; i++) {
        const tw_cutting_row *row = &list->rows[i];
        if (row->part != parts || row->bought) continue;
        const char **cell = cells + rows++ * COLUMNS;
        cell[0] = "☐";
        cell[1] = row->name;
        cell[2] = tw_format(pages->arena, "%d", row->count);
        cell[3] = size_words(pages, row->finished);
        cell[4] = parts ? tw_format(pages->arena, "%d of %s, each gives %d", row->rough_count, size_words(pages, row->rough), row->each)
                        : size_words(pages, row->rough);
        cell[5] = row->timber;
    }
    if (rows == 0) return;
    tw_pages_heading(pages, parts ? "Parts that the joints make" : "Pieces", 14.0);
    tw_pages_table(pages, columns, COLUMNS, TW_BODY_MM, cells, rows);
}

static void add_bought(tw_pages *pages, const tw_cutting_list *list)
{
    const tw_column columns[] = { { "", 7, TW_ANCHOR_LEFT, false }, { "Part", 38, TW_ANCHOR_LEFT, true }, { "Count", 17, TW_ANCHOR_MIDDLE, true }, { "What to ask for", 122, TW_ANCHOR_LEFT, false } };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)list->count * 4);
    int rows = 0;
    for (int i = 0; i < list->count; i++) {
        if (!list->rows[i].bought) continue;
        const char **cell = cells + 4 * rows++;
        cell[0] = "☐";
        cell[1] = list->rows[i].name;
        cell[2] = tw_format(pages->arena, "%d", list->rows[i].count);
        cell[3] = list->rows[i].note;
    }
    if (rows == 0) return;
    tw_pages_heading(pages, "To buy", 14.0);
    tw_pages_table(pages, columns, 4, TW_BODY_MM, cells, rows);
}

static void add_notes(tw_pages *pages, const tw_cutting_list *list)
{
    for (int i = 0; i < list->count; i++)
        if (!list->rows[i].bought && list->rows[i].note && *list->rows[i].note)
            tw_pages_text(pages, TW_BODY_MM, false, tw_format(pages->arena, "%s: %s", list->rows[i].name, list->rows[i].note));
}

static void add_template_stock(tw_pages *pages)
{
    const tw_templates *templates = pages->in->templates;
    if (templates->count == 0) return;
    const tw_column columns[] = { { "Template", 24, TW_ANCHOR_LEFT, true }, { "For", 90, TW_ANCHOR_LEFT, false },
                                  { "Board: across × up × thickness", 60, TW_ANCHOR_LEFT, true } };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)templates->count * 3);
    for (int i = 0; i < templates->count; i++) {
        const tw_template *t = &templates->items[i];
        tw_box box = tw_outline_bounds(t->board_view);
        cells[3 * i] = t->name;
        cells[3 * i + 1] = t->title;
        cells[3 * i + 2] = size_words(pages, (tw_size){ box.x1 - box.x0, box.y1 - box.y0, t->thickness_mm });
    }
    tw_pages_heading(pages, "Boards for the templates", 14.0);
    tw_pages_table(pages, columns, 3, TW_BODY_MM, cells, templates->count);
}

tw_paper_pages tw_paper_cutting(tw_arena *arena, const tw_paper_input *in)
{
    tw_pages pages = tw_pages_begin(arena, in, "cutting-list", "Cutting list", "Cutting list",
                                    "what to saw out, finished and rough, and the sticks");
    tw_cutting_list list = tw_cutting_list_make(pages.arena, in);
    tw_pages_new(&pages, "Cutting list", NULL);
    int sets = (int)in->job->sets.value;
    tw_pages_text(&pages, TW_BODY_MM, false,
                  tw_format(pages.arena, "For %s. All sizes in %s. Rough sizes leave %s (common practice for sound, flat boards: "
                                   "twisted or cupped stock wants more). Grain runs along the length. A piece that is planed from "
                                   "stock of its finished thickness needs no allowance there.",
                            sets == 1 ? "one set" : tw_format(pages.arena, "%d sets", sets), tw_paper_unit_word(in->job->figures),
                            tw_cutting_allowance_words(pages.arena, &list, in->job->figures)));
    add_table(&pages, &list, false);
    add_notes(&pages, &list);
    add_table(&pages, &list, true);
    add_bought(&pages, &list);
    add_template_stock(&pages);
    tw_pages_gap(&pages, 1.0);
    tw_pages_text(&pages, TW_BODY_MM, false,
                  "Short parts are sawn, slotted and tapered while they are part of their stick, and cut from it last: no short "
                  "piece is held by hand near a blade or cutter.");
    return tw_pages_finish(&pages);
}

/* ---- CSV ---- */

/* A field in quotes. A spreadsheet takes a text that starts with = + - @ for a sum: an apostrophe keeps it a text. */
static void put_words(tw_sink *sink, const char *text)
{
    tw_put_text(sink, strchr("=+-@\t", *text) && *text ? "\"'" : "\"");
    for (const char *at = text; *at; at++) {
        if (*at == '"') tw_put(sink, "\"", 1);
        tw_put(sink, at, 1);
    }
    tw_put_text(sink, "\"");
}

static void put_length(tw_sink *sink, double length_mm, bool inches)
{
    tw_putf(sink, ",%g", inches ? length_mm / TW_MM_PER_INCH : length_mm);
}

static void put_size(tw_sink *sink, tw_size size, bool inches)
{
    put_length(sink, size.length_mm, inches);
    put_length(sink, size.width_mm, inches);
    put_length(sink, size.thickness_mm, inches);
}

void tw_csv_cutting_list_put(const tw_paper_input *input, tw_sink *sink)
{
    tw_arena arena = {0};
    tw_cutting_list list = tw_cutting_list_make(&arena, input);
    bool inches = input->job->figures.style != TW_FIGURES_MM;
    const char *u = inches ? "in" : "mm";
    tw_putf(sink, "name,what,count,length_%s,width_%s,thickness_%s,rough_count,rough_length_%s,rough_width_%s,rough_thickness_%s,"
                  "timber,note\r\n", u, u, u, u, u, u);
    for (int i = 0; i < list.count; i++) {
        const tw_cutting_row *row = &list.rows[i];
        put_words(sink, row->name);
        tw_putf(sink, ",%s,%d", tw_cutting_what(row), row->count);
        put_size(sink, row->finished, inches);
        tw_putf(sink, ",%d", row->rough_count);
        put_size(sink, row->rough, inches);
        tw_put_text(sink, ",");
        put_words(sink, row->timber ? row->timber : "");
        tw_put_text(sink, ",");
        put_words(sink, row->note ? row->note : "");
        tw_put_text(sink, "\r\n");
    }
    tw_arena_finish(&arena);
}
