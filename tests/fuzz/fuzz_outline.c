// SPDX-License-Identifier: GPL-3.0-or-later
/* Any bytes as an outline that is tidied and offset: the result is finite and tidy, what grows holds what was, what
 * shrinks lies within it.
 *
 * Bytes: two for the distance, then vertices of five bytes (x, y in 1/64 mm, bulge in 1/64); a bulge byte of -128 ends
 * its loop. */
#include <math.h>
#include <stdlib.h>

#include "outline/outline.h"

#define MUST(condition) ((condition) ? (void)0 : abort())
#define LOOPS_MOST 6
#define VERTICES_MOST 24

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

static double pair_at(const unsigned char *bytes) { return (double)(int16_t)(bytes[0] | bytes[1] << 8) / 64.0; }

static tw_outline outline_from(tw_arena *arena, const unsigned char *bytes, size_t count)
{
    tw_outline raw = { TW_NEW_ARRAY(arena, tw_loop, LOOPS_MOST), 0 };
    tw_loop *loop = NULL;
    for (size_t at = 0; at + 5 <= count; at += 5) {
        if (!loop && raw.count == LOOPS_MOST) break;
        if (!loop) {
            loop = &raw.loops[raw.count++];
            loop->vertices = TW_NEW_ARRAY(arena, tw_vertex, VERTICES_MOST);
        }
        int bulge = (signed char)bytes[at + 4];
        loop->vertices[loop->count++] = (tw_vertex){ pair_at(bytes + at), pair_at(bytes + at + 2), bulge == -128 ? 0.0 : bulge / 64.0 };
        if (bulge == -128 || loop->count == VERTICES_MOST) loop = NULL;
    }
    return raw;
}

static void check_sound(tw_outline outline)
{
    for (int i = 0; i < outline.count; i++) {
        MUST(outline.loops[i].count >= 2);
        for (int j = 0; j < outline.loops[i].count; j++) {
            tw_vertex vertex = outline.loops[i].vertices[j];
            MUST(isfinite(vertex.x) && isfinite(vertex.y) && isfinite(vertex.bulge));
        }
    }
    MUST(isfinite(tw_outline_area_mm2(outline)));
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    if (count < 12) return 0;
    tw_arena arena = { 0 };
    tw_outline tidy;
    tw_point where;
    double distance = fabs(pair_at(bytes)) / 16.0;
    if (tw_outline_tidy(&arena, outline_from(&arena, bytes + 2, count - 2), &tidy, &where) == TW_OUTLINE_GOOD) {
        check_sound(tidy);
        tw_outline grown = tw_outline_offset(&arena, tidy, distance), shrunk = tw_outline_offset(&arena, tidy, -distance);
        check_sound(grown);
        check_sound(shrunk);
        double area = tw_outline_area_mm2(tidy), slack = 1e-4 * (1.0 + tw_outline_length_mm(tidy));
        MUST(area > 0.0);
        MUST(tw_outline_area_mm2(grown) >= area - slack);
        MUST(tw_outline_area_mm2(shrunk) <= area + slack);
        for (int i = 0; i < shrunk.count; i++)
            for (int j = 0; j < shrunk.loops[i].count; j++) {
                tw_vertex vertex = shrunk.loops[i].vertices[j];
                tw_point point = { vertex.x, vertex.y };
                MUST(tw_outline_side(tidy, point) >= 0 || tw_outline_distance(tidy, point) < 1e-3);
            }
    }
    tw_arena_finish(&arena);
    return 0;
}
