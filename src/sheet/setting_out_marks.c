// SPDX-License-Identifier: GPL-3.0-or-later
/* Marks of a setting-out drawing: the joiner's face and edge mark, planes of sections, breaks. Line kinds after ISO 128,
 * from memory; the face mark's loop and the edge mark's caret: common practice. */
#include "sheet/setting_out.h"

#include <math.h>

#include "draw/labels.h"

#define FACE_MARK_MM 7.0     // high, and 5.5 wide
#define FACE_MARK_LEAST_MM 3.0
#define EDGE_MARK_MM 3.5
#define EDGE_MARK_LEAST_MM 1.6
#define MARK_MOST_MM 40.0    // from where it is looked for
#define AIR_MM 0.7
#define LETTER_MM 3.5
#define PLANE_FROM_MM 1.5    // of the thick end, beyond the view
#define PLANE_TO_MM 6.5
#define PLANE_ARROW_MM 5.5

/* A loop with both tails down: x = 1.5 (2t - 1) + 2.2 sin 2 pi t, y = 7 sin pi t, for t from 0 to 1. */
static tw_point on_loop(double t, double high)
{
    double unit = high / FACE_MARK_MM;
    return (tw_point){ unit * (1.5 * (2.0 * t - 1.0) + 2.2 * sin(2.0 * TW_PI * t)), high * (sin(TW_PI * t) - 0.5) };
}

static void draw_loop(tw_sheet *sheet, tw_point middle, double high)
{
    enum { CHORDS = 28 };
    for (int i = 0; i < CHORDS; i++) {
        tw_point a = on_loop((double)i / CHORDS, high), b = on_loop((double)(i + 1) / CHORDS, high);
        tw_draw_line(sheet, TW_ROLE_FRAME, middle.x + a.x, middle.y + a.y, middle.x + b.x, middle.y + b.y);
    }
}

/* Room for a mark, near the left third: large, else smaller, else least. */
static bool find_room(const tw_sheet *sheet, tw_box within, double *high, double least, double wide_per_high, tw_point *middle)
{
    tw_point wish = { within.x0 + (within.x1 - within.x0) / 3.0, (within.y0 + within.y1) / 2.0 };
    const double sizes[] = { *high, (*high + least) / 2.0, least };
    for (int i = 0; i < 3; i++) {
        *high = sizes[i];
        if (*high <= within.y1 - within.y0 && tw_sheet_free_place(sheet, wish, *high * wide_per_high, *high, AIR_MM, MARK_MOST_MM, within, middle)) return true;
    }
    return false;
}

void tw_draw_face_mark(tw_sheet *sheet, tw_box within)
{
    double high = FACE_MARK_MM;
    tw_point middle;
    if (find_room(sheet, within, &high, FACE_MARK_LEAST_MM, 0.8, &middle)) draw_loop(sheet, middle, high);
}

void tw_draw_edge_mark(tw_sheet *sheet, tw_box within)
{
    double high = EDGE_MARK_MM;
    tw_point m;
    if (!find_room(sheet, within, &high, EDGE_MARK_LEAST_MM, 0.9, &m)) return;
    double half = 0.45 * high;
    tw_draw_line(sheet, TW_ROLE_FRAME, m.x - half, m.y - 0.5 * high, m.x, m.y + 0.5 * high);
    tw_draw_line(sheet, TW_ROLE_FRAME, m.x, m.y + 0.5 * high, m.x + half, m.y - 0.5 * high);
}

/* ---- planes ---- */

/* way: -1 below the view, 1 above it. */
static void draw_plane_end(tw_sheet *sheet, double x, double border, double way)
{
    double from = border + way * PLANE_FROM_MM, to = border + way * PLANE_TO_MM, arrow = (from + to) / 2.0;
    tw_draw_line(sheet, TW_ROLE_CUT, x, from, x, to);
    tw_draw_arrow(sheet, TW_ROLE_DIMENSION, x, arrow, x - PLANE_ARROW_MM, arrow);
}

static void draw_plane_letter(tw_sheet *sheet, double x, double border, double way, const char *letter)
{
    double wide = tw_text_width(LETTER_MM, true, letter);
    tw_point wish = { x + wide / 2.0 + 1.2, border + way * (PLANE_FROM_MM + PLANE_TO_MM) / 2.0 }, middle;
    if (!tw_sheet_free_place(sheet, wish, wide, LETTER_MM, 0.5, 30.0, (tw_box){ 1, 1, 0, 0 }, &middle)) return;
    tw_draw_bold(sheet, middle.x - wide / 2.0, middle.y - LETTER_MM / 2.0, LETTER_MM, TW_ANCHOR_LEFT, letter);
}

/* Letters last: they keep clear of all planes. */
void tw_draw_planes(tw_sheet *sheet, const tw_plane *planes, int count, double below, double above)
{
    for (int i = 0; i < count; i++) {
        tw_draw_line(sheet, TW_ROLE_CENTRE, planes[i].x, below - PLANE_FROM_MM, planes[i].x, above + PLANE_FROM_MM);
        draw_plane_end(sheet, planes[i].x, below, -1.0);
        draw_plane_end(sheet, planes[i].x, above, 1.0);
    }
    for (int i = 0; i < count; i++) {
        draw_plane_letter(sheet, planes[i].x, below, -1.0, planes[i].letter);
        draw_plane_letter(sheet, planes[i].x, above, 1.0, planes[i].letter);
    }
}

void tw_draw_break(tw_sheet *sheet, double x, double y0, double y1)
{
    double m = (y0 + y1) / 2.0;
    const tw_point points[] = { { x, y0 - 2.5 }, { x, m - 1.8 }, { x + 1.3, m - 0.9 }, { x - 1.3, m + 0.9 }, { x, m + 1.8 }, { x, y1 + 2.5 } };
    for (int i = 0; i + 1 < (int)(sizeof points / sizeof *points); i++)
        tw_draw_line(sheet, TW_ROLE_DIMENSION, points[i].x, points[i].y, points[i + 1].x, points[i + 1].y);
}
