// SPDX-License-Identifier: GPL-3.0-or-later
/* Writes sample papers into a folder, for read_back.py to measure with other programs:
 *     samples FOLDER   ->  sizes.pdf (A4, A3, Letter), tiles.pdf, sheet.svg, sheet.dxf, and on stdout the reckoned widths
 * What is drawn is known to read_back.py by heart: change both. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "print/print.h"
#include "sheet/tile.h"
#include "sheet/writers.h"

static const char *const words[] = { "Stretcher", "AVAWATo", "fiffl", "38.0", "Übergröße", "5/16" };

static bool to_file(void *context, const char *bytes, size_t count) { return fwrite(bytes, 1, count, context) == count; }

static FILE *open_in(tw_arena *arena, const char *folder, const char *name)
{
    FILE *file = fopen(tw_format(arena, "%s/%s", folder, name), "wb");
    if (!file) { perror(name); exit(3); }
    return file;
}

static void write_sheet(const char *folder, const char *name, void (*put)(const tw_sheet *, tw_sink *), const tw_sheet *sheet)
{
    FILE *file = open_in(sheet->arena, folder, name);
    tw_sink sink = { .write = to_file, .context = file };
    put(sheet, &sink);
    if (fclose(file) != 0 || sink.failed) exit(3);
}

static void write_pdf(const char *folder, const char *name, const tw_sheet *const *sheets, int count)
{
    FILE *file = open_in(sheets[0]->arena, folder, name);
    tw_sink sink = { .write = to_file, .context = file };
    const char *why = "";
    bool good = tw_print_pdf(sheets, count, "Reading table: samples", &sink, &why);
    if (fclose(file) != 0 || !good) { fprintf(stderr, "%s: %s\n", name, why); exit(3); }
}

static tw_sheet *sample(tw_arena *arena, tw_paper paper)
{
    tw_paper_size size = tw_paper_size_of(paper);
    tw_sheet *sheet = tw_sheet_new(arena, "sheet", tw_format(arena, "Sample on %s", size.name), size.width_mm, size.height_mm);
    tw_draw_box(sheet, TW_ROLE_SHADE, 130, 200, 180, 230);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, 20, 30, 120, 30);
    tw_draw_box(sheet, TW_ROLE_FRAME, 20, 50, 95, 90);
    tw_draw_arc(sheet, TW_ROLE_CUT, 100, 150, 35, tw_radians(20), tw_radians(200));
    tw_draw_circle(sheet, TW_ROLE_HATCH, 160, 60, 19.05);
    tw_vertex plate[] = { { 140, 100, 0 }, { 180, 100, 0.5 }, { 182, 100, 0 }, { 190, 130, -0.41421356237309503 }, { 140, 130, 0 } };
    tw_vertex hole[] = { { 150, 115, 1 }, { 158, 115, 1 } };
    tw_loop loops[] = { { plate, 5 }, { hole, 2 } };
    tw_draw_outline(sheet, TW_ROLE_DIMENSION, (tw_outline){ loops, 2 });
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        (i % 2 ? tw_draw_bold : tw_draw_text)(sheet, 20, 200 + 10 * (double)i, 5, TW_ANCHOR_LEFT, words[i]);
    tw_draw_text(sheet, 120, 250, 2.5, TW_ANCHOR_RIGHT, "5° → ½");
    tw_draw_text_turned(sheet, 195, 250, 2.5, TW_ANCHOR_MIDDLE, TW_PI / 2, "turned");
    return sheet;
}

/* Chord 100 with bulge 0.414214, chord 2 with bulge 0.5 (checks 9-09, 9-10), a half circle, and a filled plate. */
static tw_sheet *outlines(tw_arena *arena)
{
    tw_sheet *sheet = sample(arena, TW_PAPER_A4);
    tw_vertex quarter[] = { { 0, 0, 0.41421356237309503 }, { 100, 0, 0 } }, half[] = { { 0, 0, 0.5 }, { 2, 0, 0 } };
    tw_vertex back[] = { { 10.1234567, 0, -0.41421356237309503 }, { 20, 0, 1 } };
    const struct { tw_vertex *vertices; int count; } loops[] = { { quarter, 2 }, { half, 2 }, { back, 2 } };
    for (size_t i = 0; i < 3; i++) tw_draw_outline(sheet, TW_ROLE_CUT, (tw_outline){ &(tw_loop){ loops[i].vertices, loops[i].count }, 1 });
    return sheet;
}

static void write_tiles(tw_arena *arena, const char *folder)
{
    tw_sheet *canvas = tw_sheet_new(arena, "template", "Template", 300, 500);
    tw_draw_box(canvas, TW_ROLE_CUT, 5, 5, 295, 495);
    tw_draw_line(canvas, TW_ROLE_PATH, 5, 5, 295, 495);
    for (int i = 0; i < 40; i++)
        tw_draw_text(canvas, 300.0 * (i % 4) / 4 + 2, 500.0 * (i / 4) / 10 + 25, 3.5, TW_ANCHOR_LEFT, tw_format(arena, "figure%d", i));
    int count;
    tw_tiling tiling = tw_tiling_default(TW_PAPER_A4);
    tiling.footer = "Reading table";
    tw_sheet **pages = tw_sheet_tile(arena, canvas, tiling, &count);
    write_pdf(folder, "tiles.pdf", (const tw_sheet *const *)pages, count);
}

int main(int count, char **arguments)
{
    if (count != 2) { fprintf(stderr, "samples FOLDER\n"); return 2; }
    tw_arena arena = { 0 };
    const tw_sheet *sheets[] = { sample(&arena, TW_PAPER_A4), sample(&arena, TW_PAPER_A3), sample(&arena, TW_PAPER_LETTER) };
    write_pdf(arguments[1], "sizes.pdf", sheets, 3);
    write_sheet(arguments[1], "sheet.svg", tw_svg_put, sheets[0]);
    write_sheet(arguments[1], "sheet.dxf", tw_dxf_put, outlines(&arena));
    write_tiles(&arena, arguments[1]);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) printf("%.6f %s\n", tw_text_width(5, i % 2, words[i]), words[i]);
    tw_arena_finish(&arena);
    return 0;
}
