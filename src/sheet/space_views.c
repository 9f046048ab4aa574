// SPDX-License-Identifier: GPL-3.0-or-later
/* Views of pieces in space, with hidden lines left out.
 *
 * A view has u to the right, v up and d away from the eye. The place p lies behind or in a block when it lies in the block
 * drawn out without end away from the eye. With the block's centre c and its half axes g_i that body is the set of all p with
 *     n.(p - c) < sum of |n.g_i|   for the outward normals n of its sides that look to the eye (n_d < 0), and of those
 *                                  that are seen edge on (n_d = 0)                                              (1)
 *     the same in (u, v) alone     for the normals of the block's outline there, those of the g_i as they are seen (2)
 * Every condition is linear along an edge, so the hidden stretch of an edge behind one block is an interval, and what is
 * visible of it is what no interval covers. Places on the surface count as in front, by HAIR_MM. */
#include "sheet/space_views.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define HAIR_MM 0.02
#define EDGE_ON 1e-9         // a normal this near to square to the line of sight is seen edge on
#define SHORT_MM 0.05        // a visible stretch shorter than this is not drawn
#define SIDES_MOST 12

/* ---- one view ---- */

static tw_spot seen(tw_side_seen side, tw_spot s)
{
    switch (side) {
    case TW_SEEN_FRONT: return (tw_spot){ s.x, s.z, s.y };
    case TW_SEEN_ABOVE: return (tw_spot){ s.x, s.y, -s.z };
    case TW_SEEN_LEFT: return (tw_spot){ -s.y, s.z, s.x };
    case TW_SEEN_RIGHT: return (tw_spot){ s.y, s.z, -s.x };
    }
    return s;
}

typedef struct wall { tw_spot n; double most; } wall;   // n.p < most
typedef struct shadow { wall walls[SIDES_MOST]; int count; double u0, u1, v0, v1, d0; } shadow;

static void add_wall(shadow *s, tw_spot n, tw_spot centre, double reach)
{
    assert(s->count < SIDES_MOST);
    s->walls[s->count++] = (wall){ n, tw_spot_product(n, centre) + reach };
}

static double reach_along(tw_spot n, const tw_spot half[3])
{
    return fabs(tw_spot_product(n, half[0])) + fabs(tw_spot_product(n, half[1])) + fabs(tw_spot_product(n, half[2]));
}

static shadow shadow_of(tw_block block, tw_pose pose, tw_side_seen side)
{
    tw_spot size = tw_spot_times(tw_spot_less(block.most, block.least), 0.5), centre = seen(side, tw_pose_apply(pose, tw_spot_plus(block.least, size)));
    const tw_spot axes[3] = { seen(side, pose.x), seen(side, pose.y), seen(side, pose.z) };
    const tw_spot half[3] = { tw_spot_times(axes[0], size.x), tw_spot_times(axes[1], size.y), tw_spot_times(axes[2], size.z) };
    double reach_u = reach_along((tw_spot){ 1, 0, 0 }, half), reach_v = reach_along((tw_spot){ 0, 1, 0 }, half), reach_d = reach_along((tw_spot){ 0, 0, 1 }, half);
    shadow s = { .u0 = centre.x - reach_u, .u1 = centre.x + reach_u, .v0 = centre.y - reach_v, .v1 = centre.y + reach_v, .d0 = centre.z - reach_d };
    for (int i = 0; i < 3; i++) {
        tw_spot n = axes[i], back = tw_spot_times(n, -1.0);
        double reach = reach_along(n, half), flat = hypot(n.x, n.y);
        if (n.z < EDGE_ON) add_wall(&s, n, centre, reach);
        if (back.z < EDGE_ON) add_wall(&s, back, centre, reach);
        if (flat < EDGE_ON) continue;
        tw_spot level = { -n.y / flat, n.x / flat, 0 };  // square to this axis as it is seen
        add_wall(&s, level, centre, reach_along(level, half));
        add_wall(&s, tw_spot_times(level, -1.0), centre, reach_along(level, half));
    }
    return s;
}

typedef struct interval { double from, to; } interval;

/* The part of the edge a to b (0 to 1) that lies in a shadow; false when there is none. */
static bool hidden_by(const shadow *s, tw_spot a, tw_spot b, interval *hidden)
{
    if (tw_max(a.x, b.x) <= s->u0 || tw_min(a.x, b.x) >= s->u1 || tw_max(a.y, b.y) <= s->v0 || tw_min(a.y, b.y) >= s->v1 || tw_max(a.z, b.z) <= s->d0)
        return false;
    double from = 0.0, to = 1.0;
    for (int i = 0; i < s->count; i++) {
        double at_a = s->walls[i].most - HAIR_MM - tw_spot_product(s->walls[i].n, a), at_b = s->walls[i].most - HAIR_MM - tw_spot_product(s->walls[i].n, b);
        if (at_a <= 0.0 && at_b <= 0.0) return false;
        if (at_a <= 0.0) from = tw_max(from, at_a / (at_a - at_b));
        if (at_b <= 0.0) to = tw_min(to, at_a / (at_a - at_b));
    }
    *hidden = (interval){ from, to };
    return from < to;
}

static int by_start(const void *left, const void *right)
{
    const interval *a = left, *b = right;
    return (a->from > b->from) - (a->from < b->from);
}

/* ---- all edges ---- */

typedef struct view { tw_arena *arena; shadow *shadows; int shadow_count; interval *room; tw_stretch *list; size_t count, space; } view;

static void put_stretch(view *v, tw_spot a, tw_spot b, double from, double to)
{
    if (to - from <= 0.0 || (to - from) * hypot(b.x - a.x, b.y - a.y) < SHORT_MM) return;
    tw_array_make_room(v->arena, &v->list, v->count, &v->space, sizeof *v->list);
    v->list[v->count++] = (tw_stretch){ a.x + from * (b.x - a.x), a.y + from * (b.y - a.y), a.x + to * (b.x - a.x), a.y + to * (b.y - a.y) };
}

static void put_edge(view *v, tw_spot a, tw_spot b)
{
    int count = 0;
    double at = 0.0;
    for (int i = 0; i < v->shadow_count; i++)
        if (hidden_by(&v->shadows[i], a, b, &v->room[count])) count++;
    qsort(v->room, (size_t)count, sizeof *v->room, by_start);
    for (int i = 0; i < count; i++) {
        put_stretch(v, a, b, at, v->room[i].from);
        at = tw_max(at, v->room[i].to);
    }
    put_stretch(v, a, b, at, 1.0);
}

tw_stretch *tw_view_visible(tw_arena *arena, const tw_space *space, const int *members, int count, tw_side_seen side, int *made)
{
    view v = { .arena = arena };
    for (int i = 0; i < count; i++) v.shadow_count += space->shapes[space->instances[members[i]].piece].block_count;
    v.shadows = TW_NEW_ARRAY(arena, shadow, (size_t)v.shadow_count);
    v.room = TW_NEW_ARRAY(arena, interval, (size_t)v.shadow_count);
    v.shadow_count = 0;
    for (int i = 0; i < count; i++) {
        const tw_instance *instance = &space->instances[members[i]];
        const tw_shape *shape = &space->shapes[instance->piece];
        for (int k = 0; k < shape->block_count; k++) v.shadows[v.shadow_count++] = shadow_of(shape->blocks[k], instance->pose, side);
    }
    for (int i = 0; i < count; i++) {
        const tw_instance *instance = &space->instances[members[i]];
        const tw_shape *shape = &space->shapes[instance->piece];
        for (int k = 0; k < shape->ridge_count; k++)
            put_edge(&v, seen(side, tw_pose_apply(instance->pose, shape->ridges[k].from)), seen(side, tw_pose_apply(instance->pose, shape->ridges[k].to)));
    }
    *made = (int)v.count;
    return v.list;
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

static void draw_view(tw_sheet *sheet, const tw_space *space, const tw_net *net, const int *members, const layout *l, tw_side_seen side, double x, double y)
{
    tw_spot a = seen(side, net->least), b = seen(side, net->most);
    double u0 = tw_min(a.x, b.x), v0 = tw_min(a.y, b.y);
    int count;
    tw_stretch *list = tw_view_visible(sheet->arena, space, members, net->count, side, &count);
    for (int i = 0; i < count; i++)
        tw_draw_line(sheet, TW_ROLE_VISIBLE, x + (list[i].u0 - u0) / l->scale, y + (list[i].v0 - v0) / l->scale, x + (list[i].u1 - u0) / l->scale,
                     y + (list[i].v1 - v0) / l->scale);
}

static void draw_sizes(tw_sheet *sheet, const layout *l, const tw_job *job)
{
    double y = l->third ? l->front_y : l->front_y + l->high, off = l->third ? -7.0 : 7.0;
    const char *wide = tw_length_bare(sheet->arena, l->wide * l->scale, job->figures), *deep = tw_length_bare(sheet->arena, l->deep * l->scale, job->figures);
    const char *high = tw_length_bare(sheet->arena, l->high * l->scale, job->figures);
    tw_draw_dimension(sheet, (tw_point){ l->front_x, y }, (tw_point){ l->front_x + l->wide, y }, 0.0, off, LETTERS_MM, wide);
    tw_draw_dimension(sheet, (tw_point){ l->side_x, y }, (tw_point){ l->side_x + l->deep, y }, 0.0, off, LETTERS_MM, deep);
    tw_draw_dimension(sheet, (tw_point){ l->front_x, l->front_y }, (tw_point){ l->front_x, l->front_y + l->high }, TW_PI / 2.0, 7.0, LETTERS_MM, high);
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
    tw_draw_text(sheet, x + 7.0 * h, y - LETTERS_MM / 2.0, LETTERS_MM, TW_ANCHOR_LEFT, third ? "third angle" : "first angle");
}

const char *tw_views_draw(tw_sheet *sheet, const tw_space *space, const tw_net *net, const int *members, const tw_job *job, double width_mm,
                          double most_high_mm, double *height_mm)
{
    const double symbol = 3.0 * SYMBOL_MM;
    layout l = layout_of(net, job, width_mm, most_high_mm - symbol);
    draw_view(sheet, space, net, members, &l, TW_SEEN_FRONT, l.front_x, l.front_y);
    draw_view(sheet, space, net, members, &l, TW_SEEN_ABOVE, l.front_x, l.above_y);
    draw_view(sheet, space, net, members, &l, l.third ? TW_SEEN_RIGHT : TW_SEEN_LEFT, l.side_x, l.front_y);
    draw_sizes(sheet, &l, job);
    *height_mm = 2.0 * MARGIN_MM + l.high + l.deep + GAP_MM + symbol - 4.0;
    tw_draw_projection(sheet, MARGIN_MM, 6.0 - *height_mm, l.third);
    return tw_format(sheet->arena, "1 : %g", l.scale);
}
