// SPDX-License-Identifier: GPL-3.0-or-later
/* What an offset promises, asked of one outline and its result; for the laws and the fuzz target. Each returns NULL, or
 * what is broken with the place in *where. */
#ifndef TW_LAWS_PROMISES_H
#define TW_LAWS_PROMISES_H

#include <math.h>
#include <string.h>

#include "outline/outline.h"

/// The point of an edge at a part of its turn; worked out here from the centre, not by the code under test.
static inline tw_point promise_point(tw_vertex v, tw_vertex w, double part)
{
    double dx = w.x - v.x, dy = w.y - v.y;
    if (fabs(v.bulge) < 1e-7) {  // too flat for a centre: along the chord, aside by the rise of a parabola
        double aside = 2.0 * v.bulge * part * (1.0 - part);
        return (tw_point){ v.x + dx * part + dy * aside, v.y + dy * part - dx * aside };
    }
    double turn = 4.0 * atan(v.bulge), reach = sin(turn * part / 2.0) / sin(turn / 2.0), off = turn * (part - 1.0) / 2.0;
    return (tw_point){ v.x + reach * (dx * cos(off) - dy * sin(off)), v.y + reach * (dx * sin(off) + dy * cos(off)) };
}

static inline tw_vertex promise_next(tw_loop loop, int i) { return loop.vertices[(i + 1) % loop.count]; }

#ifndef PROMISE_MM
#define PROMISE_MM 1e-6
#endif
#define PROMISE_SAMPLES 6

/// Every border point of the result lies at the distance from the outline, on the wanted side.
static inline const char *promise_distance(tw_outline outline, tw_outline result, double distance, tw_point *where)
{
    for (int i = 0; i < result.count; i++)
        for (int j = 0; j < result.loops[i].count; j++)
            for (int k = 0; k < PROMISE_SAMPLES; k++) {
                *where = promise_point(result.loops[i].vertices[j], promise_next(result.loops[i], j), (double)k / PROMISE_SAMPLES);
                if (!(fabs(tw_outline_distance(outline, *where) - fabs(distance)) <= PROMISE_MM)) return "a border point is not at the distance";
                if (fabs(distance) > 2.0 * PROMISE_MM && tw_outline_side(outline, *where) != (distance > 0.0 ? -1 : 1)) return "a border point is on the wrong side";
            }
    return NULL;
}

static inline bool promise_within(tw_loop outer, tw_loop loop)
{
    tw_point p = promise_point(loop.vertices[0], promise_next(loop, 0), 0.37);
    return tw_outline_side((tw_outline){ &outer, 1 }, p) > 0;
}

/// The loop as an outline by itself, with those later loops that are holes in it and in no smaller one.
static inline tw_outline promise_part(tw_arena *arena, tw_outline whole, int outer)
{
    tw_outline part = { TW_NEW_ARRAY(arena, tw_loop, (size_t)whole.count), 1 };
    part.loops[0] = whole.loops[outer];
    for (int i = outer + 1; i < whole.count; i++) {
        if (tw_loop_area_mm2(whole.loops[i]) > 0.0 || !promise_within(whole.loops[outer], whole.loops[i])) continue;
        bool nearer = false;
        for (int k = outer + 1; k < i; k++) nearer = nearer || (tw_loop_area_mm2(whole.loops[k]) > 0.0 && promise_within(whole.loops[k], whole.loops[i]));
        if (!nearer) part.loops[part.count++] = whole.loops[i];
    }
    return part;
}

/// Each part of the result is tidy already, and each hole belongs to a part; loops begin lowest in x, then y, and stand
/// largest first.
static inline const char *promise_tidy(tw_arena *arena, tw_outline result, tw_point *where)
{
    int loops = 0;
    for (int i = 0; i < result.count; i++) {
        tw_loop loop = result.loops[i];
        for (int j = 0; j < loop.count; j++)
            if (loop.vertices[j].x < loop.vertices[0].x - TW_SAME_POINT_MM) return "a loop does not begin at its lowest vertex";
        if (i > 0 && fabs(tw_loop_area_mm2(loop)) > fabs(tw_loop_area_mm2(result.loops[i - 1])) * (1.0 + 1e-8)) return "loops are not in order of size";
        if (tw_loop_area_mm2(loop) < 0.0) continue;
        tw_outline part = promise_part(arena, result, i), tidy;
        loops += part.count;
        if (tw_outline_tidy(arena, part, &tidy, where) != TW_OUTLINE_GOOD) return "a part is not tidy";
        for (int k = 0; k < part.count; k++)
            if (tidy.loops[k].count != part.loops[k].count
                || memcmp(tidy.loops[k].vertices, part.loops[k].vertices, sizeof(tw_vertex) * (size_t)part.loops[k].count) != 0) return "tidying changes a part";
    }
    return loops == result.count ? NULL : "a hole lies in no part";
}

/// Is a point in the result just if it should be? Points within PROMISE_MM of the border are not asked.
static inline const char *promise_at(tw_outline outline, tw_outline result, double distance, tw_point p)
{
    double far = tw_outline_distance(outline, p);
    int side = tw_outline_side(outline, p), got = tw_outline_side(result, p);
    if (fabs(far - fabs(distance)) <= 1.5 * PROMISE_MM || side == 0 || got == 0) return NULL;
    bool want = distance > 0.0 ? side > 0 || far < distance : side > 0 && far > -distance;
    return (got > 0) == want ? NULL : want ? "a point is missing" : "a point is too much";
}

#endif
