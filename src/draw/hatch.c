// SPDX-License-Identifier: GPL-3.0-or-later
/* Hatching: parallel lines clipped to an outline with arcs and holes.
 *
 * The outline is seen in a frame turned by minus the hatching's angle, so that the hatch lines lie level at
 * v = k * spacing (the same grid for the whole sheet: neighbouring areas of one piece match). A level line crosses
 *   a straight edge where one end lies below it and the other not,
 *   an arc on each of its monotone parts (cut at its top and bottom) likewise, at u = cu +- sqrt(r^2 - (v - cv)^2).
 * An end that lies on the line counts as not below, for both edges that meet there; so the crossings of a line are even
 * in number, and inside lies between the first and second, third and fourth, and so on. */
#include "draw/draw.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define LEAST_HATCH_MM 0.05   // shorter strokes are dirt on the paper
#define MOST_HATCH_LINES 4000

typedef struct crossings { tw_arena *arena; double *at; size_t count, room; } crossings;

static void cross(crossings *all, double u)
{
    tw_array_make_room(all->arena, &all->at, all->count, &all->room, sizeof *all->at);
    all->at[all->count++] = u;
}

static int ascending(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static void cross_line(crossings *all, const tw_edge *edge, double v)
{
    if ((edge->from.y < v) == (edge->to.y < v)) return;
    double t = (v - edge->from.y) / (edge->to.y - edge->from.y);
    cross(all, edge->from.x + t * (edge->to.x - edge->from.x));
}

/* The parts of an arc between quarter turns: each lies right or left of the centre and rises or falls all along. */
static void cross_arc(crossings *all, const tw_edge *edge, double v)
{
    double turn = edge->sweep_rad > 0 ? 1.0 : -1.0, end = edge->start_rad + edge->sweep_rad;
    double at = edge->start_rad, height = edge->from.y;
    for (int guard = 0; guard < 8 && turn * (end - at) > 0; guard++) {
        double k = turn > 0 ? floor((at - TW_PI / 2) / TW_PI + 1e-12) + 1 : ceil((at - TW_PI / 2) / TW_PI - 1e-12) - 1;
        double next = TW_PI / 2 + k * TW_PI;  // the next top (k even) or bottom (k odd)
        bool last = turn * (end - next) <= 0;
        double next_height = last ? edge->to.y : edge->centre.y + (fmod(k, 2.0) == 0.0 ? edge->radius_mm : -edge->radius_mm);
        if ((height < v) != (next_height < v)) {
            double middle = (at + (last ? end : next)) / 2, reach = tw_square(edge->radius_mm) - tw_square(v - edge->centre.y);
            cross(all, edge->centre.x + (cos(middle) >= 0 ? 1.0 : -1.0) * sqrt(tw_max(reach, 0.0)));
        }
        at = last ? end : next;
        height = next_height;
    }
}

static void hatch_level(tw_sheet *sheet, tw_outline turned, double v, double angle_rad, crossings *all)
{
    all->count = 0;
    for (int k = 0; k < turned.count; k++)
        for (int i = 0; i < turned.loops[k].count; i++) {
            tw_edge edge = tw_loop_edge(turned.loops[k], i);
            if (edge.straight) cross_line(all, &edge, v);
            else cross_arc(all, &edge, v);
        }
    assert(all->count % 2 == 0);
    if (all->count == 0) return;
    qsort(all->at, all->count, sizeof *all->at, ascending);
    double c = cos(angle_rad), s = sin(angle_rad);
    for (size_t i = 0; i + 1 < all->count; i += 2) {
        double a = all->at[i], b = all->at[i + 1];
        if (b - a >= LEAST_HATCH_MM) tw_draw_line(sheet, TW_ROLE_HATCH, a * c - v * s, a * s + v * c, b * c - v * s, b * s + v * c);
    }
}

void tw_draw_hatch(tw_sheet *sheet, tw_outline outline, double spacing_mm, double angle_rad)
{
    assert(spacing_mm > 0 && isfinite(spacing_mm) && isfinite(angle_rad));
    if (outline.count == 0) return;
    tw_outline turned = tw_outline_turned(sheet->arena, outline, -angle_rad);
    tw_box box = tw_outline_bounds(turned);
    if (!((box.y1 - box.y0) / spacing_mm < MOST_HATCH_LINES)) spacing_mm = (box.y1 - box.y0) / MOST_HATCH_LINES;
    crossings all = { .arena = sheet->arena };
    for (double k = ceil(box.y0 / spacing_mm); k * spacing_mm <= box.y1; k += 1.0)
        hatch_level(sheet, turned, k * spacing_mm, angle_rad, &all);
}
