// SPDX-License-Identifier: GPL-3.0-or-later
/* Any bytes as an outline that is tidied, grown and shrunk: each result lies at its distance from the outline and is tidy
 * (see laws/promises.h), what grows holds what was, what shrinks lies within it; areas of overlays add up.
 *
 * Bytes: one for the size of a unit (10 to the power of -4 to 2 mm), two for the distance, then vertices of five bytes:
 * x, y in 1/64 units, and a code for the bulge. Codes: -128 ends the loop, -127 puts the vertex next to the one before (x
 * and y count 1e-9 of the usual: tiny edges, near misses), 125 to 127 are the bulges of a half, a quarter and a backward
 * quarter turn; others count 1/48. */
#include <stdio.h>
#include <stdlib.h>

#define PROMISE_MM 1e-3  // what a template is proved to; the laws hold seeded outlines to a thousandth of that
#include "../laws/promises.h"

#define LOOPS_MOST 6
#define VERTICES_MOST 24

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

/* The log tells what is broken, so that it says more than a trace of calls. */
static void must(bool holds, const char *what, tw_point where)
{
    if (holds) return;
    fprintf(stderr, "broken: %s, near %.12g, %.12g\n", what, where.x, where.y);
    abort();
}

static void keeps(const char *broken, tw_point where) { must(!broken, broken, where); }

static double pair_at(const unsigned char *bytes) { return (double)(int16_t)(bytes[0] | bytes[1] << 8) / 64.0; }

static double bulge_of(int code)
{
    if (code < -126) return 0.0;
    return code == 125 ? 1.0 : code == 126 ? 0.41421356237309503 : code == 127 ? -0.41421356237309503 : code / 48.0;
}

static tw_outline outline_from(tw_arena *arena, double unit_mm, const unsigned char *bytes, size_t count)
{
    tw_outline raw = { TW_NEW_ARRAY(arena, tw_loop, LOOPS_MOST), 0 };
    tw_loop *loop = NULL;
    for (size_t at = 0; at + 5 <= count; at += 5) {
        if (!loop && raw.count == LOOPS_MOST) break;
        if (!loop) {
            loop = &raw.loops[raw.count++];
            loop->vertices = TW_NEW_ARRAY(arena, tw_vertex, VERTICES_MOST);
        }
        int code = (signed char)bytes[at + 4];
        double x = unit_mm * pair_at(bytes + at), y = unit_mm * pair_at(bytes + at + 2);
        if (code == -127 && loop->count > 0) {
            x = loop->vertices[loop->count - 1].x + 1e-9 * x;
            y = loop->vertices[loop->count - 1].y + 1e-9 * y;
        }
        loop->vertices[loop->count++] = (tw_vertex){ x, y, bulge_of(code) };
        if (code == -128 || loop->count == VERTICES_MOST) loop = NULL;
    }
    return raw;
}

static void check_finite(tw_outline outline)
{
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            tw_vertex v = outline.loops[i].vertices[j];
            must(isfinite(v.x) && isfinite(v.y) && isfinite(v.bulge), "a vertex is not finite", (tw_point){ v.x, v.y });
        }
}

static tw_outline check_offset(tw_arena *arena, tw_outline tidy, double distance)
{
    tw_point where;
    tw_outline result = tw_outline_offset(arena, tidy, distance);
    check_finite(result);
    keeps(promise_distance(tidy, result, distance, &where), where);
    for (int i = 0; i < tidy.count; i++)
        for (int j = 0; j < tidy.loops[i].count; j++) {
            tw_vertex v = tidy.loops[i].vertices[j];
            tw_point beside = { v.x + 0.9 * distance, v.y }, over = { v.x, v.y + 1.1 * distance };
            keeps(promise_at(tidy, result, distance, beside), beside);
            keeps(promise_at(tidy, result, distance, over), over);
        }
    return result;
}

/* What a shares with b and what it has outside b add up to a. within: all of a lies in b. */
static void check_overlay(tw_arena *arena, tw_outline a, tw_outline b, bool within)
{
    double area = tw_outline_area_mm2(a), common = tw_outline_common_area_mm2(arena, a, b), outside = 0.0;
    double slack = 1e-7 * (1.0 + tw_outline_length_mm(a) + tw_outline_length_mm(b)) + 1e-9 * area;
    int count = 0;
    tw_patch *patches = tw_outline_patches(arena, a, b, 0.0, &count);
    for (int i = 0; i < count; i++) {
        tw_point middle = patches[i].middle;
        must(isfinite(middle.x) && isfinite(middle.y) && patches[i].depth_mm >= 0.0, "a patch is not sound", middle);
        outside += patches[i].area_mm2;
    }
    tw_point sums = { common, outside };
    must(fabs(area - common - outside) <= slack, "areas do not add up (shared, outside)", sums);
    must(!within || outside <= slack, "what should lie within does not (shared, outside)", sums);
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    if (count < 13) return 0;
    tw_arena arena = { 0 };
    tw_outline tidy;
    tw_point where;
    double unit_mm = pow(10.0, bytes[0] % 7 - 4), distance = unit_mm * fabs(pair_at(bytes + 1)) / 16.0;
    if (tw_outline_tidy(&arena, outline_from(&arena, unit_mm, bytes + 3, count - 3), &tidy, &where) == TW_OUTLINE_GOOD) {
        tw_outline grown = check_offset(&arena, tidy, distance), shrunk = check_offset(&arena, tidy, -distance);
        check_overlay(&arena, tidy, grown, true);
        check_overlay(&arena, shrunk, tidy, true);
        check_overlay(&arena, tidy, shrunk, false);
        check_overlay(&arena, grown, shrunk, false);
        must(isfinite(tw_outline_difference_mm(&arena, tidy, grown)), "no difference is found", where);
    }
    tw_arena_finish(&arena);
    return 0;
}
