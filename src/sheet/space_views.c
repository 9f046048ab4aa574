// SPDX-License-Identifier: GPL-3.0-or-later
/* Three views of a net of pieces: the solids are seen with hidden lines left out (solid.h); here they get scale and places. */
#include "sheet/space_views.h"

#include "sheet/explode.h"

tw_sight tw_sight_of_side(tw_side_seen side)
{
    static const tw_sight sights[] = {
        [TW_SEEN_FRONT] = { { 1, 0, 0 }, { 0, 0, 1 }, { 0, -1, 0 } }, [TW_SEEN_ABOVE] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
        [TW_SEEN_LEFT] = { { 0, -1, 0 }, { 0, 0, 1 }, { -1, 0, 0 } }, [TW_SEEN_RIGHT] = { { 0, 1, 0 }, { 0, 0, 1 }, { 1, 0, 0 } } };
    return sights[side];
}

/* ---- the drawing ---- */

#define GAP_MM 14.0          // between views
#define MARGIN_MM 13.0       // for the dimensions
#define LETTERS_MM 2.0
#define SYMBOL_MM 4.0        // small diameter of the symbol's cone; large 2, long 2 of it (ISO 5456-2, proportions from memory)

typedef struct layout { double scale, wide, deep, high; double front_x, front_y, above_y, side_x; bool third; } layout;

/* Reduction scales of ISO 5455, and 1 : 1. */
static double choose_scale(double width, double height, double wide, double deep, double high)
{
    static const double scales[] = { 1, 2, 5, 10, 20, 50, 100, 200, 500 };
    size_t last = sizeof scales / sizeof *scales - 1;
    for (size_t i = 0; i < last; i++)
        if ((wide + deep) / scales[i] + GAP_MM + 2.0 * MARGIN_MM <= width && (high + deep) / scales[i] + GAP_MM + 2.0 * MARGIN_MM <= height) return scales[i];
    return scales[last];
}

static layout layout_of(const tw_net *net, const tw_job *job, double width, double height)
{
    tw_spot size = tw_spot_less(net->most, net->least);
    layout l = { .third = job->projection.value == 1, .scale = choose_scale(width, height, size.x, size.y, size.z) };
    l.wide = size.x / l.scale;
    l.deep = size.y / l.scale;
    l.high = size.z / l.scale;
    l.front_x = MARGIN_MM;
    l.side_x = l.front_x + l.wide + GAP_MM;
    double all = l.high + l.deep + GAP_MM, bottom = -MARGIN_MM - all;
    l.front_y = l.third ? bottom : bottom + l.deep + GAP_MM;
    l.above_y = l.third ? bottom + l.high + GAP_MM : bottom;
    return l;
}

/* What the views show: pieces and parts of the net, together. */
typedef struct shown { tw_standing_list list; const tw_net *net; const layout *l; } shown;

static void draw_view(tw_sheet *sheet, const shown *s, tw_side_seen side, double x, double y)
{
    tw_sight sight = tw_sight_of_side(side);
    tw_point a = tw_sight_place(sight, s->net->least), b = tw_sight_place(sight, s->net->most);
    tw_strokes strokes = tw_view_make(sheet->arena, sight, s->list.items, s->list.count, false);
    tw_view_draw(sheet, &strokes, 1.0 / s->l->scale, (tw_point){ x - tw_min(a.x, b.x) / s->l->scale, y - tw_min(a.y, b.y) / s->l->scale },
                 TW_ROLE_VISIBLE, TW_ROLE_HIDDEN);
}

static void draw_sizes(tw_sheet *sheet, const layout *l, const tw_job *job)
{
    double y = l->third ? l->front_y : l->front_y + l->high, off = l->third ? -7.0 : 7.0,
        size = tw_small_print(sheet, LETTERS_MM);
    const char *wide = tw_length_bare(sheet->arena, l->wide * l->scale, job->figures), *deep = tw_length_bare(sheet->arena, l->deep * l->scale, job->figures);
    const char *high = tw_length_bare(sheet->arena, l->high * l->scale, job->figures);
    tw_draw_dimension(sheet, (tw_point){ l->front_x, y }, (tw_point){ l->front_x + l->wide, y }, 0.0, off, size, wide);
    tw_draw_dimension(sheet, (tw_point){ l->side_x, y }, (tw_point){ l->side_x + l->deep, y }, 0.0, off, size, deep);
    tw_draw_dimension(sheet, (tw_point){ l->front_x, l->front_y }, (tw_point){ l->front_x, l->front_y + l->high }, TW_PI / 2.0,
        7.0, size, high);
}

/* A cone with its small end to the left; its view from the left, both circles, stands right of it in first angle, left in third. */
void tw_draw_projection(tw_sheet *sheet, double x, double y, bool third)
{
    double h = SYMBOL_MM, cone = third ? x + 3.5 * h : x + h, circles = third ? x + h : x + 4.5 * h;
    tw_draw_line(sheet, TW_ROLE_VISIBLE, cone, y - h / 2.0, cone, y + h / 2.0);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, cone + 2.0 * h, y - h, cone + 2.0 * h, y + h);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, cone, y - h / 2.0, cone + 2.0 * h, y - h);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, cone, y + h / 2.0, cone + 2.0 * h, y + h);
    tw_draw_circle(sheet, TW_ROLE_VISIBLE, circles, y, h / 2.0);
    tw_draw_circle(sheet, TW_ROLE_VISIBLE, circles, y, h);
    tw_draw_line(sheet, TW_ROLE_CENTRE, x - 1.0, y, x + 6.5 * h, y);
    tw_draw_line(sheet, TW_ROLE_CENTRE, circles, y - 1.4 * h, circles, y + 1.4 * h);
    double size = tw_small_print(sheet, LETTERS_MM);
    tw_draw_text(sheet, x + 7.0 * h, y - size / 2.0, size, TW_ANCHOR_LEFT, third ? "third angle" : "first angle");
}

const char *tw_views_draw(tw_sheet *sheet, const tw_bodies *bodies, const tw_space *space, int net, double width_mm, double most_high_mm,
                          double *height_mm)
{
    const double symbol = 3.0 * SYMBOL_MM;
    layout l = layout_of(&space->nets[net], bodies->job, width_mm, most_high_mm - symbol);
    shown s = { tw_standing_of(sheet->arena, bodies, space, net, false), &space->nets[net], &l };
    draw_view(sheet, &s, TW_SEEN_FRONT, l.front_x, l.front_y);
    draw_view(sheet, &s, TW_SEEN_ABOVE, l.front_x, l.above_y);
    draw_view(sheet, &s, l.third ? TW_SEEN_RIGHT : TW_SEEN_LEFT, l.side_x, l.front_y);
    draw_sizes(sheet, &l, bodies->job);
    *height_mm = 2.0 * MARGIN_MM + l.high + l.deep + GAP_MM + symbol - 4.0;
    tw_draw_projection(sheet, MARGIN_MM, 6.0 - *height_mm, l.third);
    return tw_format(sheet->arena, "1 : %g", l.scale);
}
