// SPDX-License-Identifier: GPL-3.0-or-later
/* Looking over a sheet: texts that overlap, texts that lines run through, texts that leave the paper.
 *
 * Each text is the rectangle of its ink, turned about its anchor and shrunk by half a hair on every side. Two such
 * rectangles are apart if some side of one of them parts them: all corners of the other lie beyond it. */
#include "draw/draw.h"

#include <assert.h>
#include <math.h>

#define HAIR_MM 0.1

typedef struct quad { tw_point corner[4]; bool empty; } quad;

static quad quad_of(const tw_item *item)
{
    quad q = { .empty = true };
    if (item->kind != TW_ITEM_TEXT) return q;
    tw_box ink = tw_text_ink(item);
    ink = (tw_box){ ink.x0 + HAIR_MM / 2, ink.y0 + HAIR_MM / 2, ink.x1 - HAIR_MM / 2, ink.y1 - HAIR_MM / 2 };
    if (ink.x0 >= ink.x1 || ink.y0 >= ink.y1) return q;
    const double xs[] = { ink.x0, ink.x1, ink.x1, ink.x0 }, ys[] = { ink.y0, ink.y0, ink.y1, ink.y1 };
    for (int i = 0; i < 4; i++) q.corner[i] = tw_text_point(item, xs[i], ys[i]);
    q.empty = false;
    return q;
}

static bool a_side_parts(const quad *a, const quad *b)
{
    for (int i = 0; i < 4; i++) {
        tw_point p = a->corner[i], n = a->corner[(i + 1) % 4];
        int beyond = 0;
        for (int k = 0; k < 4; k++)  // right of a side that runs counter-clockwise is outside
            beyond += (n.x - p.x) * (b->corner[k].y - p.y) - (n.y - p.y) * (b->corner[k].x - p.x) <= 0;
        if (beyond == 4) return true;
    }
    return false;
}

tw_overlap *tw_sheet_overlaps(const tw_sheet *sheet, tw_arena *arena, int *count)
{
    quad *quads = TW_NEW_ARRAY(arena, quad, sheet->count);
    for (size_t i = 0; i < sheet->count; i++) quads[i] = quad_of(&sheet->items[i]);
    tw_overlap *found = NULL;
    size_t used = 0, room = 0;
    for (size_t i = 0; i < sheet->count; i++)
        for (size_t k = i + 1; k < sheet->count && !quads[i].empty; k++) {
            if (quads[k].empty || a_side_parts(&quads[i], &quads[k]) || a_side_parts(&quads[k], &quads[i])) continue;
            tw_array_make_room(arena, &found, used, &room, sizeof *found);
            found[used++] = (tw_overlap){ (int)i, (int)k };
        }
    *count = (int)used;
    return found;
}

/* ---- lines through texts ---- */

/* Does a straight line run through the inside of the rectangle: is it left when each side cuts off what lies beyond it? */
static bool runs_through(tw_point a, tw_point b, const quad *q)
{
    double from = 0.0, to = 1.0;
    for (int i = 0; i < 4; i++) {
        tw_point p = q->corner[i], n = q->corner[(i + 1) % 4];
        double at_a = (n.x - p.x) * (a.y - p.y) - (n.y - p.y) * (a.x - p.x), at_b = (n.x - p.x) * (b.y - p.y) - (n.y - p.y) * (b.x - p.x);
        if (at_a <= 0.0 && at_b <= 0.0) return false;
        if (at_a <= 0.0) from = tw_max(from, at_a / (at_a - at_b));
        if (at_b <= 0.0) to = tw_min(to, at_a / (at_a - at_b));
    }
    return from < to;
}

#define CHORDS_PER_TURN 96
#define NEAR_MM 1e-6   // above rounding, far below a line's width

/* Does the whole circle lie beyond one side of the rectangle? */
static bool circle_is_beyond(tw_point centre, double radius_mm, const quad *q)
{
    for (int i = 0; i < 4; i++) {
        tw_point p = q->corner[i], n = q->corner[(i + 1) % 4];
        double at = (n.x - p.x) * (centre.y - p.y) - (n.y - p.y) * (centre.x - p.x);
        if (at < -(fabs(radius_mm) + NEAR_MM) * hypot(n.x - p.x, n.y - p.y)) return true;
    }
    return false;
}

static bool edge_runs_through(tw_edge edge, const quad *q)
{
    if (edge.straight) return runs_through(edge.from, edge.to, q);
    if (circle_is_beyond(edge.centre, edge.radius_mm, q)) return false;
    int chords = 1 + (int)(fabs(edge.sweep_rad) / (2 * TW_PI) * CHORDS_PER_TURN);
    tw_point last = { 0 };
    for (int i = 0; i <= chords; i++) {
        double at = edge.start_rad + edge.sweep_rad * i / chords;
        tw_point next = { edge.centre.x + edge.radius_mm * cos(at), edge.centre.y + edge.radius_mm * sin(at) };
        if (i > 0 && runs_through(last, next, q)) return true;
        last = next;
    }
    return false;
}

static bool item_runs_through(const tw_item *item, const quad *q)
{
    if (item->role == TW_ROLE_FAINT || item->kind == TW_ITEM_TEXT) return false;
    if (item->kind == TW_ITEM_LINE) return runs_through(item->from, item->to, q);
    if (item->kind == TW_ITEM_ARC)
        return edge_runs_through((tw_edge){ .centre = item->from, .radius_mm = item->radius_mm, .start_rad = item->start_rad, .sweep_rad = item->sweep_rad }, q);
    for (int i = 0; i < item->outline.count; i++)
        for (int k = 0; k < item->outline.loops[i].count; k++)
            if (edge_runs_through(tw_loop_edge(item->outline.loops[i], k), q)) return true;
    return false;
}

tw_overlap *tw_sheet_crossed_texts(const tw_sheet *sheet, tw_arena *arena, int *count)
{
    tw_overlap *found = NULL;
    size_t used = 0, room = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        quad q = quad_of(&sheet->items[i]);
        for (size_t k = 0; k < sheet->count && !q.empty; k++) {
            if (!item_runs_through(&sheet->items[k], &q)) continue;
            tw_array_make_room(arena, &found, used, &room, sizeof *found);
            found[used++] = (tw_overlap){ (int)i, (int)k };
        }
    }
    *count = (int)used;
    return found;
}

/* ---- the border ---- */

static bool leaves(const tw_sheet *sheet, const quad *q, double edge_mm)
{
    for (int i = 0; i < 4; i++)
        if (q->corner[i].x < edge_mm || q->corner[i].y < edge_mm || q->corner[i].x > sheet->width_mm - edge_mm
            || q->corner[i].y > sheet->height_mm - edge_mm) return true;
    return false;
}

int *tw_sheet_texts_off_paper(const tw_sheet *sheet, double edge_mm, tw_arena *arena, int *count)
{
    int *found = NULL;
    size_t used = 0, room = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        quad q = quad_of(&sheet->items[i]);
        if (q.empty || !leaves(sheet, &q, edge_mm)) continue;
        tw_array_make_room(arena, &found, used, &room, sizeof *found);
        found[used++] = (int)i;
    }
    *count = (int)used;
    return found;
}
