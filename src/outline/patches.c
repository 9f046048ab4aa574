// SPDX-License-Identifier: GPL-3.0-or-later
/* Patches: the connected parts of one region outside another, each with its middle, area and depth.
 *
 * Middle: centre of area. Polygon of the chords by the usual sum; the segment of an arc over its chord c with sagitta h
 * has its centre on the middle line, at 4 r sin^3(t/2) / (3 (t - sin t)) from the arc's centre (0.4 h over the chord
 * when it is flat).
 * Depth: the greatest distance from the other region. Along an edge of the patch it is looked for between samples;
 * where the other region closes round the patch it lies inside, so a grid of points is asked too, and the best place
 * is followed uphill. */
#include "outline/overlay.h"

#include <assert.h>

/* ---- middle ---- */

typedef struct moment { double area, x, y; } moment;  // x, y: area times place

static void add(moment *sum, double area, double x, double y)
{
    sum->area += area;
    sum->x += area * x;
    sum->y += area * y;
}

static void add_segment(moment *sum, const tw_curve *curve, double area, tw_point from)
{
    double b = fabs(curve->bulge), sagitta = b * curve->chord / 2.0, r = curve->radius, t = 4.0 * atan(b);
    double over = b < 0.05 ? 0.4 * sagitta : 4.0 * r * pow(sin(t / 2.0), 3.0) / (3.0 * (t - sin(t))) - (r - sagitta);
    double side = curve->bulge > 0.0 ? over : -over;  // a counter-clockwise arc lies to the right of its chord
    add(sum, area, (curve->a.x + curve->b.x) / 2.0 - from.x + curve->along.y * side,
        (curve->a.y + curve->b.y) / 2.0 - from.y - curve->along.x * side);
}

static void add_curve(moment *sum, const tw_curve *curve, tw_point from)
{
    tw_point a = tw_minus(curve->a, from), b = tw_minus(curve->b, from);
    double polygon = tw_cross(a, b) / 2.0;
    add(sum, polygon, (a.x + b.x) / 3.0, (a.y + b.y) / 3.0);
    if (curve->bulge == 0.0) return;
    tw_vertex pair[2] = { { 0.0, 0.0, curve->bulge }, { curve->chord, 0.0, 0.0 } };
    add_segment(sum, curve, tw_loop_area_mm2((tw_loop){ pair, 2 }), from);
}

static tw_point middle_of(const tw_curve *curves, int count)
{
    moment sum = { 0 };
    tw_point from = curves[0].a;
    for (int i = 0; i < count; i++) add_curve(&sum, &curves[i], from);
    return (tw_point){ from.x + sum.x / sum.area, from.y + sum.y / sum.area };
}

/* ---- depth ---- */

#define EDGE_SAMPLES 4
#define EDGE_STEPS 24
#define GRID 6
#define UPHILL_STEPS 24   // halvings of the step
#define UPHILL_MOVES 100  // along a ridge the way up is long and the gain small: it is left there

static double away(tw_curve_list region, tw_point p)
{
    double least = INFINITY;
    for (int i = 0; i < region.count; i++)
        if (!tw_box_beyond(region.items[i].box, p, least)) least = tw_min(least, tw_curve_distance(&region.items[i], p));
    return least;
}

/* Thirds of the stretch around the best sample of an edge are dropped until it is small. An edge that cannot reach what
 * is known already (depth grows no faster than the way) is left at its samples. */
static double deepest_on(tw_curve_list region, const tw_curve *curve, double known)
{
    double best = 0.0, at = 0.0;
    for (int i = 0; i <= EDGE_SAMPLES; i++) {
        double here = away(region, tw_curve_at(curve, (double)i / EDGE_SAMPLES));
        if (here > best) { best = here; at = (double)i / EDGE_SAMPLES; }
    }
    if (best + tw_curve_length(curve) / (2.0 * EDGE_SAMPLES) <= known) return best;
    double low = tw_max(0.0, at - 1.0 / EDGE_SAMPLES), high = tw_min(1.0, at + 1.0 / EDGE_SAMPLES);
    for (int i = 0; i < EDGE_STEPS; i++) {
        double third = (high - low) / 3.0;
        double left = away(region, tw_curve_at(curve, low + third)), right = away(region, tw_curve_at(curve, high - third));
        best = tw_max(best, tw_max(left, right));
        if (left < right) low += third;
        else high -= third;
    }
    return best;
}

static double uphill(tw_curve_list region, const tw_curve *patch, int count, tw_point from, double step, double height)
{
    static const tw_point ways[8] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 },
                                      { 0.7, 0.7 }, { -0.7, 0.7 }, { -0.7, -0.7 }, { 0.7, -0.7 } };
    for (int halvings = 0, moves = 0; halvings < UPHILL_STEPS && moves < UPHILL_MOVES; moves++) {
        bool moved = false;
        for (int i = 0; i < 8; i++) {
            tw_point p = { from.x + ways[i].x * step, from.y + ways[i].y * step };
            double here = away(region, p);
            if (here <= height * (1.0 + 1e-12) || tw_curves_wind(patch, count, p) <= 0) continue;
            height = here;
            from = p;
            moved = true;
        }
        if (moved) continue;
        step /= 2.0;
        halvings++;
    }
    return height;
}

static double deepest_within(tw_curve_list region, const tw_curve *patch, int count, double known)
{
    tw_box box = patch[0].box;
    for (int i = 1; i < count; i++)
        box = tw_box_of_both(box, patch[i].box);
    double best = 0.0, step_x = (box.x1 - box.x0) / GRID, step_y = (box.y1 - box.y0) / GRID;
    tw_point place = { 0.0, 0.0 };
    for (int i = 0; i < GRID * GRID; i++) {
        tw_point p = { box.x0 + (i % GRID + 0.5) * step_x, box.y0 + (i / GRID + 0.5) * step_y };
        double here = away(region, p);
        if (here <= best || tw_curves_wind(patch, count, p) <= 0) continue;
        best = here;
        place = p;
    }
    double step = tw_max(step_x, step_y);
    return best + step > known ? uphill(region, patch, count, place, step / 2.0, best) : best;
}

/* With no other region at all there is nothing to be away from: the patch's own border serves. */
static double depth_of(tw_curve_list region, const tw_curve *patch, int count)
{
    double best = 0.0;
    if (region.count == 0) region = (tw_curve_list){ (tw_curve *)patch, count };
    for (int i = 0; i < count; i++) best = tw_max(best, deepest_on(region, &patch[i], best));
    return tw_max(best, deepest_within(region, patch, count, best));
}

/* ---- the patches ---- */

/* Where the patch first lies on the border of the region: number of the curve and part of its chord. */
static double place_on(tw_curve_list border, const tw_curve *patch, int count)
{
    double first = border.count;
    for (int i = 0; i < border.count && first == border.count; i++)
        for (int k = 0; k < count; k++) {
            tw_point p = tw_curve_at(&patch[k], 0.5);
            if (tw_curve_holds(&border.items[i], p, 10.0 * TW_TOUCH_MM))
                first = tw_min(first, i + tw_dot(border.items[i].along, tw_minus(p, border.items[i].a)) / border.items[i].chord);
        }
    return first;
}

#define HELD_SAMPLES 4

/* Does the outer loop run round the other? The two may touch, so it is asked where the other is farthest from it. */
static bool holds(tw_loop outer, tw_loop loop)
{
    tw_curve curves[2];
    tw_point place = { 0.0, 0.0 };
    double farthest = -1.0;
    for (int i = 0; i < loop.count; i++)
        for (int k = tw_curves_of_edge(loop.vertices[i], tw_vertex_after(loop, i), curves) - 1; k >= 0; k--)
            for (int sample = 0; sample < HELD_SAMPLES; sample++) {
                tw_point p = tw_curve_at(&curves[k], (double)sample / HELD_SAMPLES);
                double far = tw_outline_distance((tw_outline){ &outer, 1 }, p);
                if (far <= farthest) continue;
                farthest = far;
                place = p;
            }
    int winds = 0;
    for (int i = 0; i < outer.count; i++) {
        int count = tw_curves_of_edge(outer.vertices[i], tw_vertex_after(outer, i), curves);
        winds += tw_curves_wind(curves, count, place);
    }
    return winds > 0;
}

/* The smallest outer loop round a hole; loops stand largest first. */
static int owner_of(tw_outline parts, int hole)
{
    for (int i = hole - 1; i >= 0; i--)
        if (tw_loop_area_mm2(parts.loops[i]) > 0.0 && holds(parts.loops[i], parts.loops[hole])) return i;
    return -1;
}

/* The curves of an outer loop and of its holes. */
static int gather(tw_outline parts, int outer, const int *owners, tw_curve *curves)
{
    int count = 0;
    for (int i = 0; i < parts.count; i++) {
        if (i != outer && owners[i] != outer) continue;
        for (int j = 0; j < parts.loops[i].count; j++)
            count += tw_curves_of_edge(parts.loops[i].vertices[j], tw_vertex_after(parts.loops[i], j), curves + count);
    }
    return count;
}

static double area_of(const tw_curve *curves, int count)
{
    moment sum = { 0 };
    for (int i = 0; i < count; i++) add_curve(&sum, &curves[i], curves[0].a);
    return sum.area;
}

tw_patch *tw_outline_patches(tw_arena *arena, tw_outline a, tw_outline b, double least_mm2, int *count)
{
    assert(least_mm2 >= 0.0);
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_outline parts = tw_overlay(&working, a, b, TW_OVERLAY_ONLY_A);
    tw_curve_list of_a = tw_curves_of_outline(&working, a), of_b = tw_curves_of_outline(&working, b);
    tw_curve_list room = tw_curves_of_outline(&working, parts);
    tw_patch *patches = TW_NEW_ARRAY(arena, tw_patch, (size_t)parts.count);
    double *places = TW_NEW_ARRAY(&working, double, (size_t)parts.count);
    int *owners = TW_NEW_ARRAY(&working, int, (size_t)parts.count);
    for (int i = 0; i < parts.count; i++) owners[i] = tw_loop_area_mm2(parts.loops[i]) < 0.0 ? owner_of(parts, i) : -1;
    *count = 0;
    for (int i = 0; i < parts.count; i++) {
        if (tw_loop_area_mm2(parts.loops[i]) <= least_mm2) continue;
        int curves = gather(parts, i, owners, room.items);
        tw_patch patch = { middle_of(room.items, curves), area_of(room.items, curves), depth_of(of_b, room.items, curves) };
        if (patch.area_mm2 <= least_mm2) continue;
        double place = place_on(of_a, room.items, curves);
        int at = (*count)++;
        for (; at > 0 && places[at - 1] > place; at--) { patches[at] = patches[at - 1]; places[at] = places[at - 1]; }
        patches[at] = patch;
        places[at] = place;
    }
    tw_arena_finish(&working);
    return patches;
}
