// SPDX-License-Identifier: GPL-3.0-or-later
/* Strips: a template whose opening has four straight sides, two of them level, glued up from strips that are sawn straight.
 *
 *      Y1 +-------+-------------+---------+     left and right strips run the full height; the one beside a leaning side
 *         |       | upper filler \        |     is ripped to a taper at that side's angle, and the fillers' ends there are
 *      y1 |       +---------------+       |     cut at it. The lines of the sides run on to the board's border, so
 *         | left  |    opening     \ right|     the strips meet along one straight line each: they fill the board less
 *      y0 |       +-----------------+     |     the opening, and none lies over another.
 *         |       | lower filler     \    |
 *      Y0 +-------+-------------------+---+     x of a side at height y:  x0 + (x1 - x0)(y - y0)/(y1 - y0)          (1)
 *         X0                              X1    its lean from plumb:      atan(|x1 - x0| / (y1 - y0))               (2)
 */
#include "template/parts.h"

#include <assert.h>
#include <math.h>

#define STRIP_LEAST_MM 10.0    // a narrower strip is neither sawn nor glued well: common practice
#define FILLER_LEAST_MM 1.0    // shortest level side of a filler that still can be held true
#define OVER_LENGTH_MM 20.0    // left over on a full-height strip, half at each end, trimmed after gluing: common practice
#define OVER_WIDTH_MM 5.0      // left over on a filler's outer edge: common practice
#define LEVEL_MM 1e-6

/* ---- the opening ---- */

static bool straight_on(tw_vertex a, tw_vertex b, tw_vertex c)
{
    double area = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    return fabs(area) <= LEVEL_MM * (hypot(b.x - a.x, b.y - a.y) + hypot(c.x - b.x, c.y - b.y));
}

/* The corners of a loop of straight edges, those on a straight line dropped; -1 if there are arcs or over four corners. */
static int four_corners(tw_loop loop, tw_vertex corners[4])
{
    int count = 0;
    for (int i = 0; i < loop.count; i++) {
        tw_vertex at = loop.vertices[i];
        if (at.bulge != 0.0) return -1;
        if (straight_on(loop.vertices[(i + loop.count - 1) % loop.count], at, loop.vertices[(i + 1) % loop.count])) continue;
        if (count == 4) return -1;
        corners[count++] = at;
    }
    return count;
}

bool tw_four_sides(tw_outline opening, tw_sides *sides)
{
    tw_vertex c[4];
    if (opening.count != 1 || four_corners(opening.loops[0], c) != 4) return false;
    for (int i = 0; i < 4; i++) {
        tw_vertex a = c[i], b = c[(i + 1) % 4], up = c[(i + 2) % 4], over = c[(i + 3) % 4];
        if (fabs(a.y - b.y) > LEVEL_MM || fabs(up.y - over.y) > LEVEL_MM || b.x <= a.x || up.y <= b.y) continue;
        *sides = (tw_sides){ .y0 = a.y, .y1 = up.y, .left_x0 = a.x, .left_x1 = over.x, .right_x0 = b.x, .right_x1 = up.x };
        return true;
    }
    return false;
}

static double run_on(double x0, double x1, const tw_sides *s, double y) { return x0 + (x1 - x0) * (y - s->y0) / (s->y1 - s->y0); }  // (1)

static double lean(double x0, double x1, const tw_sides *s)  // (2)
{
    return fabs(x1 - x0) <= LEVEL_MM ? 0.0 : atan2(fabs(x1 - x0), s->y1 - s->y0);
}

double tw_sides_lean_left(const tw_sides *s) { return lean(s->left_x0, s->left_x1, s); }
double tw_sides_lean_right(const tw_sides *s) { return lean(s->right_x0, s->right_x1, s); }

/* ---- the strips ---- */

typedef struct layout { tw_sides s; tw_box board; double left[2], right[2]; } layout;  // x of the sides at Y0 and Y1

static bool lay_out(tw_outline opening, tw_outline board, layout *l)
{
    if (!tw_four_sides(opening, &l->s)) return false;
    l->board = tw_outline_bounds(board);
    assert(fabs(tw_outline_area_mm2(board) - (l->board.x1 - l->board.x0) * (l->board.y1 - l->board.y0)) < 1e-3);
    const double y[2] = { l->board.y0, l->board.y1 };
    for (int i = 0; i < 2; i++) {
        l->left[i] = run_on(l->s.left_x0, l->s.left_x1, &l->s, y[i]);
        l->right[i] = run_on(l->s.right_x0, l->s.right_x1, &l->s, y[i]);
        if (l->left[i] - l->board.x0 < STRIP_LEAST_MM || l->board.x1 - l->right[i] < STRIP_LEAST_MM) return false;
        if (l->right[i] - l->left[i] < FILLER_LEAST_MM) return false;
    }
    return l->s.y0 - l->board.y0 >= STRIP_LEAST_MM && l->board.y1 - l->s.y1 >= STRIP_LEAST_MM;
}

static tw_outline quad(tw_arena *arena, tw_point a, tw_point b, tw_point c, tw_point d)
{
    const tw_vertex v[4] = { { a.x, a.y, 0.0 }, { b.x, b.y, 0.0 }, { c.x, c.y, 0.0 }, { d.x, d.y, 0.0 } };
    return tw_outline_of_loop(arena, v, 4);
}

static const char *side_note(tw_arena *arena, double angle_rad)
{
    if (angle_rad == 0.0) return "";
    return tw_format(arena,
        "Rip the taper at %s from a longer strip held down in a carriage, a pusher behind it. Keep the wedge that falls off: it is the cradle "
        "that holds the tusk at the same angle against the bandsaw's fence while its ramp is sawn, with a pusher; never put a short tusk "
        "between a table saw's fence and blade.", tw_angle_text(arena, angle_rad));
}

static tw_strip side_strip(tw_arena *arena, const layout *l, bool right, int step)
{
    const double *x = right ? l->right : l->left;
    double low = right ? l->board.x1 - x[0] : x[0] - l->board.x0, high = right ? l->board.x1 - x[1] : x[1] - l->board.x0;
    double angle = right ? tw_sides_lean_right(&l->s) : tw_sides_lean_left(&l->s);
    tw_box b = l->board;
    return (tw_strip){ .name = right ? "right side strip" : "left side strip", .length_mm = b.y1 - b.y0,
        .width_mm = tw_max(low, high), .narrow_mm = angle == 0.0 ? tw_max(low, high) : tw_min(low, high), .angle_rad = angle,
        .over_mm = OVER_LENGTH_MM, .step = step, .note = side_note(arena, angle),
        .shape = right ? quad(arena, (tw_point){ x[0], b.y0 }, (tw_point){ b.x1, b.y0 }, (tw_point){ b.x1, b.y1 }, (tw_point){ x[1], b.y1 })
                       : quad(arena, (tw_point){ b.x0, b.y0 }, (tw_point){ x[0], b.y0 }, (tw_point){ x[1], b.y1 }, (tw_point){ b.x0, b.y1 }) };
}

/* What is cut at the ends of the fillers: the same lines as the sides, so the same leans. */
static const char *end_words(tw_arena *arena, const tw_sides *s)
{
    double left = tw_sides_lean_left(s), right = tw_sides_lean_right(s);
    if (left == 0.0 && right == 0.0) return "both ends square";
    if (left == 0.0) return tw_format(arena, "left end square, right end cut at %s", tw_angle_text(arena, right));
    if (right == 0.0) return tw_format(arena, "right end square, left end cut at %s", tw_angle_text(arena, left));
    return tw_format(arena, "left end cut at %s, right end at %s", tw_angle_text(arena, left), tw_angle_text(arena, right));
}

static const char *filler_note(tw_arena *arena, const layout *l, bool upper, tw_figures figures)
{
    const tw_sides *s = &l->s;
    double inner = upper ? s->right_x1 - s->left_x1 : s->right_x0 - s->left_x0;
    const char *ends = tw_format(arena, "Its edge at the opening is %s long, %s; the length sets the opening's width, so cut it true, "
        "from a strip long enough to hold, the short piece falling free and never caught between blade and fence.", tw_length_text(arena, inner, figures), end_words(arena, s));
    if (!upper) return ends;
    return tw_format(arena, "%s It lies %s above the lower filler: set it with spacers of that size.", ends,
                     tw_length_text(arena, s->y1 - s->y0, figures));
}

static tw_strip filler(tw_arena *arena, const layout *l, bool upper, int step, tw_figures figures)
{
    const tw_sides *s = &l->s;
    double outer = upper ? l->right[1] - l->left[1] : l->right[0] - l->left[0];
    double inner = upper ? s->right_x1 - s->left_x1 : s->right_x0 - s->left_x0;
    double height = upper ? l->board.y1 - s->y1 : s->y0 - l->board.y0;
    double left = tw_sides_lean_left(s), right = tw_sides_lean_right(s);
    return (tw_strip){ .name = upper ? "upper filler" : "lower filler", .length_mm = tw_max(outer, inner), .width_mm = height,
        .narrow_mm = height, .end_angle_rad = tw_max(left, right), .other_end_rad = tw_min(left, right),
        .over_width_mm = OVER_WIDTH_MM, .step = step, .note = filler_note(arena, l, upper, figures),
        .shape = upper ? quad(arena, (tw_point){ s->left_x1, s->y1 }, (tw_point){ s->right_x1, s->y1 },
                              (tw_point){ l->right[1], l->board.y1 }, (tw_point){ l->left[1], l->board.y1 })
                       : quad(arena, (tw_point){ l->left[0], l->board.y0 }, (tw_point){ l->right[0], l->board.y0 },
                              (tw_point){ s->right_x0, s->y0 }, (tw_point){ s->left_x0, s->y0 }) };
}

bool tw_strips_make(tw_arena *arena, tw_outline opening, tw_outline board, tw_figures figures, tw_strip **strips, int *count)
{
    layout l;
    if (!lay_out(opening, board, &l)) return false;
    /* The plumb side is laid first, the fillers against it, and the leaning strip closes the frame and finds its own place. */
    bool right_first = tw_sides_lean_left(&l.s) > 0.0 && tw_sides_lean_right(&l.s) == 0.0;
    tw_strip *made = TW_NEW_ARRAY(arena, tw_strip, 4);
    made[0] = side_strip(arena, &l, right_first, 1);
    made[1] = filler(arena, &l, false, 2, figures);
    made[2] = filler(arena, &l, true, 3, figures);
    made[3] = side_strip(arena, &l, !right_first, 4);
    *strips = made;
    *count = 4;
    return true;
}
