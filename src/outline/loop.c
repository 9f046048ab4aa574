// SPDX-License-Identifier: GPL-3.0-or-later
/* Outlines made, moved and asked: shapes, copies, mirror images, area, length, bounds, sides.
 *
 * Area of a loop = area of the polygon of its chords + a segment for each arc. With L the chord and b the bulge the
 * segment is, from r^2 (t - sin t) / 2 with t = 4 atan b,
 *     L^2 ((1 + b^2)^2 atan b - b (1 - b^2)) / (8 b^2)  =  L^2 (b/3 + b^3/15 - b^5/105 + ...)          (1) */
#include "outline/edge.h"

#include <assert.h>

#define THIN_MM 2.5e-8  // area / length of a loop without width: well under the micrometre that a caller may leave

/* ---- making ---- */

static tw_outline one_loop(tw_arena *arena, int count)
{
    tw_outline outline = { TW_NEW(arena, tw_loop), 1 };
    outline.loops[0] = (tw_loop){ TW_NEW_ARRAY(arena, tw_vertex, (size_t)count), count };
    return outline;
}

tw_outline tw_outline_copy(tw_arena *arena, tw_outline outline)
{
    tw_outline copy = { TW_NEW_ARRAY(arena, tw_loop, (size_t)outline.count), outline.count };
    for (int i = 0; i < outline.count; i++) {
        tw_loop from = outline.loops[i];
        copy.loops[i] = (tw_loop){ TW_NEW_ARRAY(arena, tw_vertex, (size_t)from.count), from.count };
        for (int j = 0; j < from.count; j++) copy.loops[i].vertices[j] = from.vertices[j];
    }
    return copy;
}

tw_outline tw_outline_of_loop(tw_arena *arena, const tw_vertex *vertices, int count)
{
    assert(count >= 2);
    tw_outline outline = one_loop(arena, count);
    for (int i = 0; i < count; i++) outline.loops[0].vertices[i] = vertices[i];
    return outline;
}

tw_outline tw_outline_rectangle(tw_arena *arena, double x0, double y0, double x1, double y1)
{
    assert(x0 < x1 && y0 < y1);
    return tw_outline_of_loop(arena, (tw_vertex[]){ { x0, y0, 0.0 }, { x1, y0, 0.0 }, { x1, y1, 0.0 }, { x0, y1, 0.0 } }, 4);
}

tw_outline tw_outline_rounded(tw_arena *arena, double x0, double y0, double x1, double y1, double radius_mm)
{
    assert(x0 < x1 && y0 < y1 && radius_mm >= 0.0);
    double wide = x1 - x0, high = y1 - y0, r = tw_min(radius_mm, tw_min(wide, high) / 2.0);
    if (r < TW_SAME_POINT_MM) return tw_outline_rectangle(arena, x0, y0, x1, y1);
    bool round_x = wide - 2.0 * r < TW_SAME_POINT_MM, round_y = high - 2.0 * r < TW_SAME_POINT_MM;
    double middle_x = (x0 + x1) / 2.0, middle_y = (y0 + y1) / 2.0, quarter = tan(TW_PI / 8.0);
    if (round_x && round_y) return tw_outline_circle(arena, (tw_point){ middle_x, middle_y }, r);
    if (round_y)
        return tw_outline_of_loop(arena, (tw_vertex[]){
            { x0 + r, y0, 0.0 }, { x1 - r, y0, 1.0 }, { x1 - r, y1, 0.0 }, { x0 + r, y1, 1.0 } }, 4);
    if (round_x)
        return tw_outline_of_loop(arena, (tw_vertex[]){
            { x0, y0 + r, 1.0 }, { x1, y0 + r, 0.0 }, { x1, y1 - r, 1.0 }, { x0, y1 - r, 0.0 } }, 4);
    return tw_outline_of_loop(arena, (tw_vertex[]){
        { x0, y0 + r, quarter }, { x0 + r, y0, 0.0 }, { x1 - r, y0, quarter }, { x1, y0 + r, 0.0 },
        { x1, y1 - r, quarter }, { x1 - r, y1, 0.0 }, { x0 + r, y1, quarter }, { x0, y1 - r, 0.0 } }, 8);
}

tw_outline tw_outline_circle(tw_arena *arena, tw_point centre, double radius_mm)
{
    assert(radius_mm > 0.0);
    return tw_outline_of_loop(arena, (tw_vertex[]){ { centre.x - radius_mm, centre.y, 1.0 }, { centre.x + radius_mm, centre.y, 1.0 } }, 2);
}

/* ---- moving ---- */

tw_outline tw_outline_scaled(tw_arena *arena, tw_outline outline, double factor)
{
    assert(factor > 0.0);
    tw_outline scaled = tw_outline_copy(arena, outline);
    for (int i = 0; i < scaled.count; i++)
        for (int j = 0; j < scaled.loops[i].count; j++) {
            scaled.loops[i].vertices[j].x *= factor;
            scaled.loops[i].vertices[j].y *= factor;
        }
    return scaled;
}

tw_outline tw_outline_moved(tw_arena *arena, tw_outline outline, double dx, double dy)
{
    tw_outline moved = tw_outline_copy(arena, outline);
    for (int i = 0; i < moved.count; i++)
        for (int j = 0; j < moved.loops[i].count; j++) {
            moved.loops[i].vertices[j].x += dx;
            moved.loops[i].vertices[j].y += dy;
        }
    return moved;
}

tw_outline tw_outline_turned(tw_arena *arena, tw_outline outline, double angle_rad)
{
    double c = cos(angle_rad), s = sin(angle_rad);
    tw_outline turned = tw_outline_copy(arena, outline);
    for (int i = 0; i < turned.count; i++)
        for (int j = 0; j < turned.loops[i].count; j++) {
            tw_vertex *v = &turned.loops[i].vertices[j];
            *v = (tw_vertex){ v->x * c - v->y * s, v->x * s + v->y * c, v->bulge };
        }
    return turned;
}

/* The image turns the other way, so it is read backwards: the edge that left a vertex now arrives there. */
tw_outline tw_outline_mirrored(tw_arena *arena, tw_outline outline)
{
    tw_outline image = tw_outline_copy(arena, outline);
    for (int i = 0; i < image.count; i++) {
        tw_loop from = outline.loops[i];
        for (int j = 0; j < from.count; j++) {
            tw_vertex v = from.vertices[from.count - 1 - j];
            double bulge = from.vertices[(2 * from.count - 2 - j) % from.count].bulge;
            image.loops[i].vertices[j] = (tw_vertex){ -v.x, v.y, bulge };
        }
    }
    return image;
}

/* ---- asking ---- */

double tw_segment_area(double chord_square_mm2, double b)
{
    double b2 = b * b;
    if (b2 < 1e-4) return chord_square_mm2 * b * (1.0 / 3.0 + b2 * (1.0 / 15.0 - b2 / 105.0));  // (1)
    return chord_square_mm2 * (tw_square(1.0 + b2) * atan(b) - b * (1.0 - b2)) / (8.0 * b2);
}

double tw_loop_area_mm2(tw_loop loop)
{
    double twice = 0.0, segments = 0.0;
    for (int i = 0; i < loop.count; i++) {
        tw_vertex o = loop.vertices[0], v = loop.vertices[i], w = tw_vertex_after(loop, i);
        twice += (v.x - o.x) * (w.y - o.y) - (w.x - o.x) * (v.y - o.y);
        if (v.bulge != 0.0) segments += tw_segment_area(tw_square(w.x - v.x) + tw_square(w.y - v.y), v.bulge);
    }
    return twice / 2.0 + segments;
}

bool tw_loop_has_width(tw_loop loop)
{
    if (loop.count < 2 || (loop.count == 2 && loop.vertices[0].bulge == 0.0 && loop.vertices[1].bulge == 0.0)) return false;
    double length = 0.0;
    for (int i = 0; i < loop.count; i++) {
        tw_vertex v = loop.vertices[i], next = tw_vertex_after(loop, i);
        length += hypot(next.x - v.x, next.y - v.y) * (1.0 + fabs(v.bulge));
    }
    return fabs(tw_loop_area_mm2(loop)) > THIN_MM * length;
}

double tw_outline_area_mm2(tw_outline outline)
{
    double area = 0.0;
    for (int i = 0; i < outline.count; i++) area += tw_loop_area_mm2(outline.loops[i]);
    return area;
}

/* The curves of one edge, so that asking needs no memory. */
static int curves_at(tw_loop loop, int i, tw_curve curves[2])
{
    return tw_curves_of_edge(loop.vertices[i], tw_vertex_after(loop, i), curves);
}

double tw_outline_length_mm(tw_outline outline)
{
    double length = 0.0;
    tw_curve curves[2];
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            int count = curves_at(outline.loops[i], j, curves);
            for (int k = 0; k < count; k++) length += tw_curve_length(&curves[k]);
        }
    return length;
}

tw_box tw_outline_bounds(tw_outline outline)
{
    tw_box box = { INFINITY, INFINITY, -INFINITY, -INFINITY };
    tw_curve curves[2];
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            int count = curves_at(outline.loops[i], j, curves);
            for (int k = 0; k < count; k++) box = tw_box_of_both(box, curves[k].box);
        }
    return box;
}

double tw_outline_distance(tw_outline outline, tw_point point)
{
    double nearest = INFINITY;
    tw_curve curves[2];
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            int count = curves_at(outline.loops[i], j, curves);
            for (int k = 0; k < count; k++) nearest = tw_min(nearest, tw_curve_distance(&curves[k], point));
        }
    return nearest;
}

int tw_outline_side(tw_outline outline, tw_point point)
{
    int winds = 0;
    tw_curve curves[2];
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            int count = curves_at(outline.loops[i], j, curves);
            for (int k = 0; k < count; k++)
                if (tw_curve_holds(&curves[k], point, TW_SAME_POINT_MM)) return 0;
            winds += tw_curves_wind(curves, count, point);
        }
    return winds > 0 ? 1 : -1;
}

double tw_outline_least_hollow_radius_mm(tw_outline outline)
{
    double least = INFINITY;
    tw_curve before[2], here[2];
    for (int i = 0; i < outline.count; i++) {
        tw_loop loop = outline.loops[i];
        for (int j = 0; j < loop.count; j++) {
            int count = curves_at(loop, j, here), count_before = curves_at(loop, (j + loop.count - 1) % loop.count, before);
            if (count == 0 || count_before == 0) continue;
            for (int k = 0; k < count; k++)
                if (here[k].bulge > 0.0) least = tw_min(least, here[k].radius);
            tw_point in = before[count_before - 1].arrives, out = here[0].leaves;
            double turn = atan2(tw_cross(in, out), tw_dot(in, out));
            if (turn > 1e-6) return 0.0;
        }
    }
    return least;
}
