// SPDX-License-Identifier: GPL-3.0-or-later
/* Offset of the outlines that templates have, 5 to 14 vertices with arcs, side by side with GEOS in one run.
 *
 * GEOS knows no arcs: it is given chords, and gives chords back. Both are made as coarse as an accuracy of 1 um allows:
 * chords of the outline stay within 1 um of their arcs (sagitta), and the quadrant segments of round corners are the
 * fewest whose chords stay within 1 um at the distance. The making of the chords is not counted, only the buffer itself;
 * ours is counted with its memory taken and given back. What both give is compared by area, so that both do the work. */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <geos_c.h>

#include "outline/outline.h"

#define ACCURACY_MM 1e-3
#define ROUNDS 9
#define MOST_POINTS 100000

static double now_us(void)
{
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec * 1e6 + (double)time.tv_nsec / 1e3;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* ---- the outlines ---- */

typedef struct sample { const char *name; double distance_mm; int count; tw_vertex vertices[14]; } sample;

#define Q 0.41421356237309503  // a quarter turn

static const sample samples[] = {
    { "housing, grown", 9.5, 5, { { 0, 0, 0 }, { 70, 0, 0 }, { 70, 30, 0 }, { 35, 33, 0.2 }, { 0, 36, 0 } } },
    { "housing, shrunk", -4.75, 5, { { 0, 0, 0 }, { 70, 0, 0 }, { 70, 30, 0 }, { 35, 33, 0.2 }, { 0, 36, 0 } } },
    { "rounded mortise, grown", 9.5, 8, { { 0, 6, Q }, { 6, 0, 0 }, { 74, 0, Q }, { 80, 6, 0 }, { 80, 20, Q }, { 74, 26, 0 }, { 6, 26, Q }, { 0, 20, 0 } } },
    { "rounded mortise, shrunk", -6.0, 8, { { 0, 6, Q }, { 6, 0, 0 }, { 74, 0, Q }, { 80, 6, 0 }, { 80, 20, Q }, { 74, 26, 0 }, { 6, 26, Q }, { 0, 20, 0 } } },
    { "slot with round ends, grown", 9.5, 6, { { 0, 0, 0 }, { 30, 0, 0 }, { 60, 0, 1 }, { 60, 19, 0 }, { 30, 19, 0 }, { 0, 19, 1 } } },
    { "haunch, shrunk", -4.75, 10, { { 0, 0, 0 }, { 90, 0, Q }, { 96, 6, 0 }, { 96, 34, Q }, { 90, 40, 0 }, { 40, 40, -Q }, { 34, 46, 0 }, { 34, 64, Q }, { 28, 70, 0 }, { 0, 70, 0 } } },
    { "dog-bone, grown", 6.35, 12, { { 0, 0, -0.6 }, { 4, -4, 0 }, { 56, -4, -0.6 }, { 60, 0, 0 }, { 60, 26, -0.6 }, { 56, 30, 0 }, { 40, 30, 0.3 }, { 20, 30, 0 }, { 4, 30, -0.6 }, { 0, 26, 0 }, { 0, 17, 0.5 }, { 0, 9, 0 } } },
    { "curved bracket, shrunk", -6.0, 14, { { 0, 0, 0.1 }, { 60, -5, 0 }, { 120, 0, Q }, { 128, 8, 0 }, { 128, 40, Q }, { 120, 48, -0.3 }, { 84, 48, 0 }, { 84, 70, 1 }, { 44, 70, 0 }, { 44, 48, -0.3 }, { 8, 48, Q }, { 0, 40, 0 }, { -6, 28, 0.2 }, { -6, 12, 0 } } },
};

/* ---- GEOS ---- */

static void mute(const char *format, ...) { (void)format; }

/* Chords of an arc from v to w, each within the accuracy; without the end. */
static int put_chords(tw_vertex v, tw_vertex w, double *xy)
{
    double turn = 4.0 * atan(v.bulge), dx = w.x - v.x, dy = w.y - v.y;
    double radius = fabs(v.bulge) > 0.0 ? hypot(dx, dy) * (1.0 + v.bulge * v.bulge) / (4.0 * fabs(v.bulge)) : 0.0;
    int parts = v.bulge == 0.0 ? 1 : (int)ceil(fabs(turn) / (2.0 * acos(1.0 - ACCURACY_MM / radius)));
    for (int i = 0; i < parts; i++) {
        double part = turn * i / parts, chord = v.bulge == 0.0 ? 0.0 : 2.0 * radius * sin(fabs(part) / 2.0), angle = atan2(dy, dx) - turn / 2.0 + part / 2.0;
        xy[2 * i] = v.x + chord * cos(angle);
        xy[2 * i + 1] = v.y + chord * sin(angle);
    }
    return parts;
}

static GEOSGeometry *geos_of(GEOSContextHandle_t geos, const sample *s, double *xy)
{
    int count = 0;
    for (int i = 0; i < s->count; i++) count += put_chords(s->vertices[i], s->vertices[(i + 1) % s->count], xy + 2 * count);
    xy[2 * count] = xy[0];
    xy[2 * count + 1] = xy[1];
    GEOSCoordSequence *points = GEOSCoordSeq_copyFromBuffer_r(geos, xy, (unsigned)count + 1, 0, 0);
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, points), NULL, 0);
}

static double geos_area(GEOSContextHandle_t geos, const GEOSGeometry *shape, GEOSBufferParams *params, double distance_mm)
{
    GEOSGeometry *buffer = GEOSBufferWithParams_r(geos, shape, params, distance_mm);
    double area = 0.0;
    GEOSArea_r(geos, buffer, &area);
    GEOSGeom_destroy_r(geos, buffer);
    return area;
}

/* ---- side by side ---- */

static double our_area(const sample *s)
{
    tw_arena arena = { 0 };
    tw_vertex vertices[14];
    for (int i = 0; i < s->count; i++) vertices[i] = s->vertices[i];
    tw_loop loop = { vertices, s->count };
    double area = tw_outline_area_mm2(tw_outline_offset(&arena, (tw_outline){ &loop, 1 }, s->distance_mm));
    tw_arena_finish(&arena);
    return area;
}

int main(void)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSContext_setNoticeHandler_r(geos, mute);
    GEOSContext_setErrorHandler_r(geos, mute);
    double *xy = calloc(MOST_POINTS * 2, sizeof *xy), ratios[sizeof samples / sizeof *samples];
    size_t count = sizeof samples / sizeof *samples;
    if (!xy) return 3;
    printf("offset, beside GEOS %s at 1 um (process time, median of %d)\n", GEOSversion(), ROUNDS);
    printf("%-30s %8s %8s %10s %10s %8s\n", "outline", "vertices", "points", "ours us", "GEOS us", "ratio");
    for (size_t i = 0; i < count; i++) {
        const sample *s = &samples[i];
        GEOSGeometry *shape = geos_of(geos, s, xy);
        GEOSBufferParams *params = GEOSBufferParams_create_r(geos);
        int segments = (int)ceil(TW_PI / 4.0 / acos(1.0 - ACCURACY_MM / fabs(s->distance_mm)));
        GEOSBufferParams_setQuadrantSegments_r(geos, params, segments);
        double ours[ROUNDS], theirs[ROUNDS], area = 0.0, area_geos = 0.0;
        for (int round = 0; round < ROUNDS; round++) {
            int repeats = 2000;
            double start = now_us();
            for (int k = 0; k < repeats; k++) area = our_area(s);
            ours[round] = (now_us() - start) / repeats;
            repeats = 20;
            start = now_us();
            for (int k = 0; k < repeats; k++) area_geos = geos_area(geos, shape, params, s->distance_mm);
            theirs[round] = (now_us() - start) / repeats;
        }
        qsort(ours, ROUNDS, sizeof *ours, by_size);
        qsort(theirs, ROUNDS, sizeof *theirs, by_size);
        ratios[i] = theirs[ROUNDS / 2] / ours[ROUNDS / 2];
        printf("%-30s %8d %8d %10.2f %10.1f %7.1fx\n", s->name, s->count, GEOSGetNumCoordinates_r(geos, shape), ours[ROUNDS / 2], theirs[ROUNDS / 2], ratios[i]);
        double perimeter = 0.0;
        GEOSLength_r(geos, shape, &perimeter);
        if (fabs(area - area_geos) > 2.0 * ACCURACY_MM * (perimeter + 2.0 * TW_PI * fabs(s->distance_mm))) {
            printf("areas differ: %.6f and %.6f mm2\n", area, area_geos);
            return 1;
        }
        GEOSBufferParams_destroy_r(geos, params);
        GEOSGeom_destroy_r(geos, shape);
    }
    qsort(ratios, count, sizeof *ratios, by_size);
    printf("ratio: least %.1f, median %.1f (aim: 20)\n", ratios[0], ratios[count / 2]);
    free(xy);
    GEOS_finish_r(geos);
    return 0;
}
