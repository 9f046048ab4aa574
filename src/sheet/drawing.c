// SPDX-License-Identifier: GPL-3.0-or-later
/* One drawing for the screen: the papers' own drawings, each alone, cropped to its ink. */
#include "sheet/drawing.h"

#include <string.h>

#include "sheet/pages.h"
#include "sheet/setting_out.h"

#define BORDER_MM 1.0   // air round the ink

typedef struct canvas {
    tw_arena             *arena;    // for composing
    const tw_paper_input *in;
    const char           *name;
    int                   number;
    double                wide_mm;  // of the ink
} canvas;

typedef struct drawn { tw_sheet *sheet; const char *title; } drawn;

static int piece_named(const tw_job *job, const char *name)
{
    for (int i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].name, name) == 0) return i;
    return -1;
}

static drawn draw_piece(const canvas *c)
{
    int piece = piece_named(c->in->job, c->name);
    if (piece < 0) return (drawn){ 0 };
    return (drawn){ tw_piece_drawing(c->arena, c->in, piece, c->wide_mm), tw_format(c->arena, "Setting-out drawing of %s", c->name) };
}

/* As wide as asked, its ink at the left. */
static const tw_sheet *cropped(tw_arena *arena, const tw_sheet *ink, const char *name, const char *title, double wide_mm)
{
    tw_box box = tw_sheet_reach(ink);
    if (box.x0 > box.x1) return NULL;
    tw_sheet *sheet = tw_sheet_new(arena, name, title, tw_max(wide_mm, box.x1 - box.x0 + 2.0 * BORDER_MM), box.y1 - box.y0 + 2.0 * BORDER_MM);
    tw_draw_sheet(sheet, ink, 1.0, BORDER_MM - box.x0, BORDER_MM - box.y0);
    return sheet;
}

static const struct { const char *what; drawn (*draw)(const canvas *c); } kinds[] = {
    { "piece", draw_piece },
};

const tw_sheet *tw_drawing_make(tw_arena *arena, const tw_paper_input *input, tw_drawing_ask ask)
{
    double wide = tw_min(tw_max(ask.width_mm, TW_DRAWING_LEAST_MM), TW_DRAWING_MOST_MM);
    tw_arena composing = tw_arena_beside(arena);
    canvas c = { .arena = &composing, .in = input, .name = ask.name ? ask.name : "", .number = ask.number > 0 ? ask.number : 1, .wide_mm = wide - 2.0 * BORDER_MM };
    const tw_sheet *sheet = NULL;
    for (size_t i = 0; ask.what && i < sizeof kinds / sizeof *kinds; i++) {
        if (strcmp(kinds[i].what, ask.what) != 0) continue;
        drawn d = kinds[i].draw(&c);
        if (d.sheet) sheet = cropped(arena, d.sheet, ask.what, d.title, wide);
    }
    tw_arena_finish(&composing);
    return sheet;
}
