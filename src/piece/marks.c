// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/marks.h"

#include <math.h>
#include <stdlib.h>

#define SQUARE_MM 1e-9  // an edge that leans less than this is along its axis

void tw_marks_add(tw_arena *arena, tw_marks *marks, double at_mm)
{
    tw_array_make_room(arena, &marks->at, marks->count, &marks->room, sizeof *marks->at);
    marks->at[marks->count++] = at_mm;
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

void tw_marks_order(tw_arena *arena, tw_marks *marks, double most_mm)
{
    tw_marks_add(arena, marks, 0.0);
    qsort(marks->at, marks->count, sizeof *marks->at, by_size);
    size_t kept = 0;
    for (size_t i = 0; i < marks->count; i++) {
        double at = marks->at[i];
        if (at < 0.0 || at >= most_mm - TW_MARKS_SAME_MM || (kept > 0 && at - marks->at[kept - 1] < TW_MARKS_SAME_MM)) continue;
        marks->at[kept++] = at;
    }
    marks->count = kept;
    tw_marks_add(arena, marks, most_mm);
}

/* ---- of cuts ---- */

/* An arc's points farthest right, left, up and down, those of its circle that lie on it; returns how many. */
static int turning_points(tw_vertex a, tw_vertex b, tw_point points[4])
{
    double dx = b.x - a.x, dy = b.y - a.y, chord = hypot(dx, dy);
    int count = 0;
    if (a.bulge == 0.0 || chord == 0.0) return 0;
    double radius = chord * (1.0 + a.bulge * a.bulge) / (4.0 * fabs(a.bulge)), rise = (1.0 - a.bulge * a.bulge) / (4.0 * a.bulge);
    tw_point centre = { (a.x + b.x) / 2.0 - dy * rise, (a.y + b.y) / 2.0 + dx * rise };
    const tw_point ways[4] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
    for (int i = 0; i < 4; i++) {
        tw_point p = { centre.x + radius * ways[i].x, centre.y + radius * ways[i].y };
        double beside = dx * (p.y - a.y) - dy * (p.x - a.x);  // over 0: left of the chord
        if (beside * a.bulge < 0.0) points[count++] = p;
    }
    return count;
}

/* Corners and turning points of a cut's outline: the edges of its prism. */
typedef struct corners { tw_point *items; size_t count, room; } corners;

static corners corners_of(tw_arena *arena, const tw_cut *cut)
{
    corners all = { 0 };
    for (int k = 0; k < cut->outline.count; k++) {
        tw_loop loop = cut->outline.loops[k];
        for (int i = 0; i < loop.count; i++) {
            tw_vertex a = loop.vertices[i], b = loop.vertices[i + 1 < loop.count ? i + 1 : 0];
            tw_point points[5] = { { a.x, a.y } };
            int count = 1 + turning_points(a, b, points + 1);
            for (int j = 0; j < count; j++) {
                tw_array_make_room(arena, &all.items, all.count, &all.room, sizeof *all.items);
                all.items[all.count++] = points[j];
            }
        }
    }
    return all;
}

/* Where an edge of the prism is when it is so deep below the face. */
static double edge_at(tw_size size, const tw_cut *cut, tw_point corner, double in, tw_axis axis)
{
    return tw_along(tw_face_spot(size, cut->face, corner.x + cut->lean_right * in, corner.y + cut->lean_up * in, in), axis);
}

void tw_marks_of_cut(tw_arena *arena, tw_marks *marks, tw_size size, const tw_cut *cut, tw_axis axis)
{
    corners all = corners_of(arena, cut);
    for (size_t i = 0; i < all.count; i++) {
        tw_marks_add(arena, marks, edge_at(size, cut, all.items[i], cut->start_mm, axis));
        tw_marks_add(arena, marks, edge_at(size, cut, all.items[i], tw_cut_depth_mm(size, cut), axis));
    }
}

void tw_marks_where_pierced(tw_arena *arena, tw_marks *marks, tw_size size, const tw_cut *cut, double x_mm, tw_axis axis)
{
    bool in_end = cut->face >= TW_SIDE_LEFT_END;
    if (!in_end && cut->lean_right == 0.0) return;
    corners all = corners_of(arena, cut);
    for (size_t i = 0; i < all.count; i++) {
        double in = cut->face == TW_SIDE_LEFT_END ? x_mm : in_end ? size.length_mm - x_mm : (x_mm - all.items[i].x) / cut->lean_right;
        if (in >= cut->start_mm && in <= tw_cut_depth_mm(size, cut)) tw_marks_add(arena, marks, edge_at(size, cut, all.items[i], in, axis));
    }
}

tw_marks tw_marks_of_wood(const tw_wood *wood, tw_axis axis)
{
    tw_marks marks = { 0 };
    for (int i = 0; i < wood->cut_count; i++) tw_marks_of_cut(wood->arena, &marks, wood->size, &wood->cuts[i], axis);
    tw_marks_order(wood->arena, &marks, tw_extent_along(wood->size, axis));
    return marks;
}

/* ---- walls ---- */

/* Which way of the outline's plane lies along the axis: +-1 right, +-2 up, 0 neither (the axis goes in). */
static int way_of(tw_face face, tw_axis axis)
{
    tw_frame f = tw_face_frame(face);
    double right = tw_along(f.right, axis), up = tw_along(f.up, axis);
    return right != 0.0 ? (int)right : up != 0.0 ? 2 * (int)up : 0;
}

static bool edge_bends(tw_size size, const tw_cut *cut, tw_axis axis, tw_vertex a, tw_vertex b, double from, double to)
{
    bool square = a.bulge == 0.0 && (fabs(a.x - b.x) < SQUARE_MM || fabs(a.y - b.y) < SQUARE_MM);
    if (square) return false;
    tw_point points[6] = { { a.x, a.y }, { b.x, b.y } };
    int count = 2 + turning_points(a, b, points + 2);
    double least = INFINITY, most = -INFINITY;
    for (int i = 0; i < count; i++) {
        double at = tw_along(tw_face_spot(size, cut->face, points[i].x, points[i].y, 0.0), axis);
        least = tw_min(least, at);
        most = tw_max(most, at);
    }
    return least < to - TW_MARKS_SAME_MM && most > from + TW_MARKS_SAME_MM;
}

bool tw_cut_bends(const tw_wood *wood, int index, tw_axis axis, double from_mm, double to_mm)
{
    const tw_cut *cut = &wood->cuts[index];
    if (tw_along(wood->blocks[index].least, axis) >= to_mm - TW_MARKS_SAME_MM || tw_along(wood->blocks[index].most, axis) <= from_mm + TW_MARKS_SAME_MM) return false;
    if (cut->lean_right != 0.0 || cut->lean_up != 0.0) return true;
    if (way_of(cut->face, axis) == 0) return false;
    for (int k = 0; k < cut->outline.count; k++) {
        tw_loop loop = cut->outline.loops[k];
        for (int i = 0; i < loop.count; i++)
            if (edge_bends(wood->size, cut, axis, loop.vertices[i], loop.vertices[i + 1 < loop.count ? i + 1 : 0], from_mm, to_mm)) return true;
    }
    return false;
}
