// SPDX-License-Identifier: GPL-3.0-or-later
/* Clipping to an upright box.
 *
 * Line: the span of its parameter 0..1 that the four borders leave. Arc: cut at all angles where it meets a border,
 * parts whose middle lies inside are kept, neighbours joined. A filled loop is cut by one border after the other: its
 * edges are split where they cross, the parts on the inner side are kept in order, and where one does not start at the
 * end of the one before, a straight edge along the border closes the gap. */
#include "sheet/clip.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define LEAST_MARK_MM 1e-4  // a shorter remnant shows nowhere
#define ON_BORDER_MM 1e-9

typedef struct clip { tw_sheet *onto; tw_role role; tw_box box; double dx, dy; } clip;

static bool inside(tw_box box, tw_point p)
{
    return p.x >= box.x0 - ON_BORDER_MM && p.x <= box.x1 + ON_BORDER_MM && p.y >= box.y0 - ON_BORDER_MM && p.y <= box.y1 + ON_BORDER_MM;
}

static tw_point on_circle(tw_point centre, double radius, double angle)
{
    return (tw_point){ centre.x + radius * cos(angle), centre.y + radius * sin(angle) };
}

/* ---- lines ---------------------------------------------------------------------------------------------------- */

/* Narrows the span [*t0, *t1] to where value + t * change >= 0; false when nothing is left. */
static bool narrow(double value, double change, double *t0, double *t1)
{
    if (change == 0.0) return value >= 0.0;
    double t = -value / change;
    if (change > 0.0) *t0 = tw_max(*t0, t);
    else *t1 = tw_min(*t1, t);
    return *t0 <= *t1;
}

static void clip_line(const clip *c, tw_point a, tw_point b)
{
    double dx = b.x - a.x, dy = b.y - a.y, t0 = 0.0, t1 = 1.0;
    if (!narrow(a.x - c->box.x0, dx, &t0, &t1) || !narrow(c->box.x1 - a.x, -dx, &t0, &t1)
        || !narrow(a.y - c->box.y0, dy, &t0, &t1) || !narrow(c->box.y1 - a.y, -dy, &t0, &t1)) return;
    if ((t1 - t0) * hypot(dx, dy) < LEAST_MARK_MM) return;
    tw_draw_line(c->onto, c->role, a.x + t0 * dx + c->dx, a.y + t0 * dy + c->dy, a.x + t1 * dx + c->dx, a.y + t1 * dy + c->dy);
}

/* ---- arcs ----------------------------------------------------------------------------------------------------- */

#define MOST_CUTS 10  // two with each border, and both ends

typedef struct cuts { double at[MOST_CUTS]; int count; } cuts;  // along the arc, 0 to |sweep|, ascending

static void add_cut(cuts *all, double t)
{
    assert(all->count < MOST_CUTS);
    int i = all->count++;
    for (; i > 0 && all->at[i - 1] > t; i--) all->at[i] = all->at[i - 1];
    all->at[i] = t;
}

/* Adds where the arc passes the two angles middle +- half. */
static void add_angles(cuts *all, double start, double sweep, double middle, double half)
{
    for (int side = -1; side <= 1; side += 2) {
        double t = fmod((sweep >= 0 ? 1.0 : -1.0) * (middle + side * half - start), 2 * TW_PI);
        if (t < 0) t += 2 * TW_PI;
        if (t < fabs(sweep)) add_cut(all, t);
    }
}

static void cut_at_level(cuts *all, double start, double sweep, double radius, double from_centre, bool upright)
{
    if (fabs(from_centre) < radius) add_angles(all, start, sweep, upright ? 0.0 : TW_PI / 2, acos(from_centre / radius));
}

static cuts cuts_of_arc(tw_point centre, double radius, double start, double sweep, tw_box box)
{
    cuts all = { .count = 0 };
    cut_at_level(&all, start, sweep, radius, box.x0 - centre.x, true);
    cut_at_level(&all, start, sweep, radius, box.x1 - centre.x, true);
    cut_at_level(&all, start, sweep, radius, box.y0 - centre.y, false);
    cut_at_level(&all, start, sweep, radius, box.y1 - centre.y, false);
    add_cut(&all, 0.0);
    add_cut(&all, fabs(sweep));
    return all;
}

/* No border is crossed between the two cuts, but one may be touched: three points tell that from lying inside. */
static bool part_inside(const clip *c, tw_point centre, double radius, double from, double to)
{
    for (int i = 1; i <= 3; i++)
        if (!inside(c->box, on_circle(centre, radius, from + (to - from) * (0.2 + 0.15 * i)))) return false;
    return true;
}

static void clip_arc(const clip *c, tw_point centre, double radius, double start, double sweep)
{
    cuts all = cuts_of_arc(centre, radius, start, sweep, c->box);
    double turn = sweep >= 0 ? 1.0 : -1.0;
    for (int i = 0; i + 1 < all.count;) {
        int k = i;
        while (k + 1 < all.count && part_inside(c, centre, radius, start + turn * all.at[k], start + turn * all.at[k + 1])) k++;
        double length = all.at[k] - all.at[i];
        if (k > i && length * radius >= LEAST_MARK_MM)
            tw_draw_arc(c->onto, c->role, centre.x + c->dx, centre.y + c->dy, radius, start + turn * all.at[i], turn * length);
        i = k > i ? k : i + 1;
    }
}

/* ---- filled loops --------------------------------------------------------------------------------------------- */

typedef struct border { bool upright; double at, sign; } border;  // inside: sign * (coordinate - at) >= 0
typedef struct growing { tw_arena *arena; tw_vertex *vertices; size_t count, room; tw_point end; } growing;

static double inwards(const border *b, tw_point p) { return b->sign * ((b->upright ? p.x : p.y) - b->at); }

static void append(growing *loop, tw_point p, double bulge)
{
    tw_array_make_room(loop->arena, &loop->vertices, loop->count, &loop->room, sizeof *loop->vertices);
    loop->vertices[loop->count++] = (tw_vertex){ p.x, p.y, bulge };
}

/* A kept part of an edge; a gap to the part before becomes a straight edge. */
static void keep_part(growing *loop, tw_point from, tw_point to, double bulge)
{
    if (loop->count > 0 && hypot(loop->end.x - from.x, loop->end.y - from.y) > ON_BORDER_MM) append(loop, loop->end, 0.0);
    append(loop, from, bulge);
    loop->end = to;
}

static void keep_straight(growing *loop, const border *b, const tw_edge *edge)
{
    double f = inwards(b, edge->from), g = inwards(b, edge->to);
    if (f < 0 && g < 0) return;
    double t = f == g ? 0.0 : f / (f - g);
    tw_point on = { edge->from.x + t * (edge->to.x - edge->from.x), edge->from.y + t * (edge->to.y - edge->from.y) };
    keep_part(loop, f < 0 ? on : edge->from, g < 0 ? on : edge->to, 0.0);
}

static void keep_arc(growing *loop, const border *b, const tw_edge *edge)
{
    cuts all = { .count = 0 };
    cut_at_level(&all, edge->start_rad, edge->sweep_rad, edge->radius_mm, b->at - (b->upright ? edge->centre.x : edge->centre.y), b->upright);
    add_cut(&all, 0.0);
    add_cut(&all, fabs(edge->sweep_rad));
    double turn = edge->sweep_rad >= 0 ? 1.0 : -1.0;
    for (int i = 0; i + 1 < all.count; i++) {
        double from = all.at[i], to = all.at[i + 1];
        tw_point middle = on_circle(edge->centre, edge->radius_mm, edge->start_rad + turn * (from + to) / 2);
        if (inwards(b, middle) < 0 || (to - from) * edge->radius_mm < ON_BORDER_MM) continue;
        tw_point p = i == 0 ? edge->from : on_circle(edge->centre, edge->radius_mm, edge->start_rad + turn * from);
        tw_point q = i + 2 == all.count ? edge->to : on_circle(edge->centre, edge->radius_mm, edge->start_rad + turn * to);
        keep_part(loop, p, q, turn * tan((to - from) / 4));
    }
}

static tw_loop cut_loop(tw_arena *arena, tw_loop loop, const border *b)
{
    growing kept = { .arena = arena };
    for (int i = 0; i < loop.count; i++) {
        tw_edge edge = tw_loop_edge(loop, i);
        if (edge.straight) keep_straight(&kept, b, &edge);
        else keep_arc(&kept, b, &edge);
    }
    if (kept.count == 0) return (tw_loop){ NULL, 0 };
    tw_point first = { kept.vertices[0].x, kept.vertices[0].y };
    if (hypot(kept.end.x - first.x, kept.end.y - first.y) > ON_BORDER_MM) append(&kept, kept.end, 0.0);
    return (tw_loop){ kept.vertices, (int)kept.count };
}

static void clip_filled(const clip *c, tw_outline outline)
{
    const border borders[] = { { true, c->box.x0, 1 }, { true, c->box.x1, -1 }, { false, c->box.y0, 1 }, { false, c->box.y1, -1 } };
    tw_arena *arena = c->onto->arena;
    tw_outline kept = { TW_NEW_ARRAY(arena, tw_loop, (size_t)outline.count), 0 };
    for (int k = 0; k < outline.count; k++) {
        tw_loop loop = outline.loops[k];
        for (int i = 0; i < 4 && loop.count > 0; i++) loop = cut_loop(arena, loop, &borders[i]);
        if (loop.count < 2 || fabs(tw_loop_area_mm2(loop)) < LEAST_MARK_MM * LEAST_MARK_MM) continue;
        kept.loops[kept.count++] = loop;
    }
    tw_draw_outline(c->onto, c->role, tw_outline_moved(arena, kept, c->dx, c->dy));
}

/* ---- items ---------------------------------------------------------------------------------------------------- */

static void clip_stroked(const clip *c, tw_outline outline)
{
    tw_box bounds = tw_outline_bounds(outline);
    if (inside(c->box, (tw_point){ bounds.x0, bounds.y0 }) && inside(c->box, (tw_point){ bounds.x1, bounds.y1 })) {
        tw_draw_outline(c->onto, c->role, tw_outline_moved(c->onto->arena, outline, c->dx, c->dy));
        return;
    }
    for (int k = 0; k < outline.count; k++)
        for (int i = 0; i < outline.loops[k].count; i++) {
            tw_edge edge = tw_loop_edge(outline.loops[k], i);
            if (edge.straight) clip_line(c, edge.from, edge.to);
            else clip_arc(c, edge.centre, edge.radius_mm, edge.start_rad, edge.sweep_rad);
        }
}

void tw_draw_clipped(tw_sheet *onto, const tw_item *item, tw_box box, double dx, double dy)
{
    assert(item->kind != TW_ITEM_TEXT && box.x0 < box.x1 && box.y0 < box.y1);
    clip c = { onto, item->role, box, dx, dy };
    if (item->kind == TW_ITEM_LINE) clip_line(&c, item->from, item->to);
    else if (item->kind == TW_ITEM_ARC) clip_arc(&c, item->from, item->radius_mm, item->start_rad, item->sweep_rad);
    else if (tw_role_look_of(item->role)->filled) clip_filled(&c, item->outline);
    else clip_stroked(&c, item->outline);
}
