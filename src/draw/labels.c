// SPDX-License-Identifier: GPL-3.0-or-later
/* Places are tried on rings STEP_MM apart about the wish, each with steps of about the same length, from below the middle
 * counter-clockwise. A place is free when no item of the sheet comes into its box: lines are clipped to it, arcs are taken
 * as chords, texts and filled heads as their boxes. Only items near the wish are looked at. */
#include "draw/labels.h"

#include <assert.h>
#include <math.h>

#define STEP_MM 1.0
#define CHORDS_PER_TURN 96
#define NEAR_MM 1e-6   // above rounding, far below a line's width
#define AIR_MM 0.6
#define DOT_MM 0.4
#define BESIDE_MM 1.6   // a text nearer than this to its point needs no line to it, measured from its box

static bool apart(tw_box a, tw_box b) { return a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0; }

/* Is some of the line in the box? */
static bool enters(tw_point a, tw_point b, tw_box box)
{
    const double start[2] = { a.x, a.y }, way[2] = { b.x - a.x, b.y - a.y }, low[2] = { box.x0, box.y0 }, high[2] = { box.x1, box.y1 };
    double from = 0.0, to = 1.0;
    for (int i = 0; i < 2; i++) {
        if (fabs(way[i]) < 1e-12) {
            if (start[i] <= low[i] || start[i] >= high[i]) return false;
            continue;
        }
        double t0 = (low[i] - start[i]) / way[i], t1 = (high[i] - start[i]) / way[i];
        from = tw_max(from, tw_min(t0, t1));
        to = tw_min(to, tw_max(t0, t1));
    }
    return from <= to;
}

static bool edge_enters(tw_edge edge, tw_box box)
{
    if (edge.straight) return enters(edge.from, edge.to, box);
    double r = fabs(edge.radius_mm) + NEAR_MM;   // its whole circle is elsewhere: most arcs of most boxes
    if (edge.centre.x + r < box.x0 || edge.centre.x - r > box.x1 || edge.centre.y + r < box.y0 || edge.centre.y - r > box.y1) return false;
    int chords = 1 + (int)(fabs(edge.sweep_rad) / (2 * TW_PI) * CHORDS_PER_TURN);
    tw_point last = { 0 };
    for (int i = 0; i <= chords; i++) {
        double at = edge.start_rad + edge.sweep_rad * i / chords;
        tw_point next = { edge.centre.x + edge.radius_mm * cos(at), edge.centre.y + edge.radius_mm * sin(at) };
        if (i > 0 && enters(last, next, box)) return true;
        last = next;
    }
    return false;
}

static bool item_enters(const tw_item *item, tw_box box)
{
    if (item->role == TW_ROLE_FAINT || item->role == TW_ROLE_SHADE) return false;
    switch (item->kind) {
    case TW_ITEM_TEXT: return !apart(tw_text_box(item), box);
    case TW_ITEM_LINE: return enters(item->from, item->to, box);
    case TW_ITEM_ARC:
        return edge_enters((tw_edge){ .centre = item->from, .radius_mm = item->radius_mm, .start_rad = item->start_rad, .sweep_rad = item->sweep_rad }, box);
    case TW_ITEM_OUTLINE:
        if (item->role == TW_ROLE_SOLID) return !apart(tw_outline_bounds(item->outline), box);
        for (int i = 0; i < item->outline.count; i++)
            for (int k = 0; k < item->outline.loops[i].count; k++)
                if (edge_enters(tw_loop_edge(item->outline.loops[i], k), box)) return true;
    }
    return false;
}

static bool is_free(const tw_sheet *sheet, const size_t *near_, size_t count, tw_box box)
{
    for (size_t i = 0; i < count; i++)
        if (item_enters(&sheet->items[near_[i]], box)) return false;
    return true;
}

/* Where the line from a label to its point leaves the label. */
static tw_point leaving(tw_box box, tw_point on)
{
    return (tw_point){ tw_min(tw_max(on.x, box.x0), box.x1), tw_min(tw_max(on.y, box.y0), box.y1) };
}

static bool line_is_free(const tw_sheet *sheet, const size_t *near_, size_t count, tw_point from, tw_point to)
{
    for (size_t i = 0; i < count; i++) {
        const tw_item *item = &sheet->items[near_[i]];
        if (item->kind != TW_ITEM_TEXT) continue;
        tw_box box = tw_text_box(item);
        if (enters(from, to, (tw_box){ box.x0 - DOT_MM, box.y0 - DOT_MM, box.x1 + DOT_MM, box.y1 + DOT_MM })) return false;
    }
    return true;
}

/* lead: a line from the box to the wish must not run through a text. */
static bool find_place(const tw_sheet *sheet, tw_point wish, double wide, double high, double air_mm, double most_mm, tw_box within,
                       bool lead, tw_point *middle)
{
    assert(wide > 0.0 && high > 0.0 && air_mm >= 0.0 && most_mm >= 0.0);
    double half_x = wide / 2.0, half_y = high / 2.0, reach_x = most_mm + half_x + air_mm, reach_y = most_mm + half_y + air_mm;
    size_t *near_ = TW_NEW_ARRAY(sheet->arena, size_t, sheet->count), count = 0;
    tw_box all = { wish.x - reach_x, wish.y - reach_y, wish.x + reach_x, wish.y + reach_y };
    for (size_t i = 0; i < sheet->count; i++)
        if (item_enters(&sheet->items[i], all)) near_[count++] = i;
    bool bounded = within.x0 <= within.x1;
    for (int ring = 0; ring * STEP_MM <= most_mm + 1e-9; ring++) {
        int steps = ring == 0 ? 1 : (int)ceil(2 * TW_PI * ring);
        for (int i = 0; i < steps; i++) {
            double turn = -TW_PI / 2 + 2 * TW_PI * i / steps;
            tw_point at = { wish.x + ring * STEP_MM * cos(turn), wish.y + ring * STEP_MM * sin(turn) };
            tw_box box = { at.x - half_x, at.y - half_y, at.x + half_x, at.y + half_y };
            if (bounded && (box.x0 < within.x0 || box.y0 < within.y0 || box.x1 > within.x1 || box.y1 > within.y1)) continue;
            box = (tw_box){ box.x0 - air_mm, box.y0 - air_mm, box.x1 + air_mm, box.y1 + air_mm };
            if (!is_free(sheet, near_, count, box) || (lead && !line_is_free(sheet, near_, count, leaving(box, wish), wish))) continue;
            *middle = at;
            return true;
        }
    }
    return false;
}

bool tw_sheet_free_place(const tw_sheet *sheet, tw_point wish, double wide, double high, double air_mm, double most_mm, tw_box within,
                         tw_point *middle)
{
    return find_place(sheet, wish, wide, high, air_mm, most_mm, within, false, middle);
}

static double outside(double at, double low, double high) { return tw_max(0.0, tw_max(low - at, at - high)); }

bool tw_draw_label(tw_sheet *sheet, tw_point on, double size_mm, bool bold, double most_mm, tw_box within, const char *text)
{
    tw_box ink = tw_text_ink(&(tw_item){ .kind = TW_ITEM_TEXT, .text = tw_text_shown(sheet->arena, bold, text), .size_mm = size_mm, .bold = bold });
    tw_point middle;
    if (ink.x0 > ink.x1 || !find_place(sheet, on, ink.x1 - ink.x0, ink.y1 - ink.y0, AIR_MM, most_mm, within, true, &middle)) return false;
    double x0 = middle.x - (ink.x1 - ink.x0) / 2.0, y0 = middle.y - (ink.y1 - ink.y0) / 2.0;
    (bold ? tw_draw_bold : tw_draw_text)(sheet, x0 - ink.x0, y0 - ink.y0, size_mm, TW_ANCHOR_LEFT, text);
    tw_box box = { x0, y0, x0 + ink.x1 - ink.x0, y0 + ink.y1 - ink.y0 };
    if (hypot(outside(on.x, box.x0, box.x1), outside(on.y, box.y0, box.y1)) <= BESIDE_MM) return true;
    tw_point end = leaving((tw_box){ box.x0 - AIR_MM / 2, box.y0 - AIR_MM / 2, box.x1 + AIR_MM / 2, box.y1 + AIR_MM / 2 }, on);
    tw_draw_line(sheet, TW_ROLE_DIMENSION, end.x, end.y, on.x, on.y);
    tw_draw_outline(sheet, TW_ROLE_SOLID, tw_outline_circle(sheet->arena, on, DOT_MM));
    return true;
}
