// SPDX-License-Identifier: GPL-3.0-or-later
/* Offset of the outlines that templates have, 5 to 14 vertices with arcs, side by side with GEOS in one run.
 *
 * GEOS knows no arcs: it is given chords, and gives chords back. For a result within 1 um the two errors share it: chords
 * of the outline stay within 0.5 um of their arcs (sagitta), and the quadrant segments of round corners are the fewest
 * whose chords stay within 0.5 um at the distance. The making of the chords is not counted, only the buffer itself; ours
 * is counted with its memory taken and given back. The last column is the farthest that what GEOS gives lies from where
 * it should: it shows that GEOS is asked for no more than the 1 um. */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <geos_c.h>

#include "outline/outline.h"

#define ACCURACY_MM 5e-4  // for each of the two errors
#define ROUNDS 9
#define OUR_REPEATS 2000
#define GEOS_REPEATS 20
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

static GEOSGeometry *geos_offset(GEOSContextHandle_t geos, const GEOSGeometry *shape, GEOSBufferParams *params, double distance_mm)
{
    return GEOSBufferWithParams_r(geos, shape, params, distance_mm);
}

static double off(tw_outline outline, tw_point p, double distance_mm) { return fabs(tw_outline_distance(outline, p) - fabs(distance_mm)); }

/* The farthest that a vertex of the buffer, or the middle of one of its chords, is from being at the distance. */
static double geos_error(GEOSContextHandle_t geos, const GEOSGeometry *buffer, tw_outline outline, double distance_mm)
{
    double worst = 0.0;
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, buffer); i++) {
        const GEOSGeometry *ring = GEOSGetExteriorRing_r(geos, GEOSGetGeometryN_r(geos, buffer, i));
        const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(geos, ring);
        unsigned count = 0;
        GEOSCoordSeq_getSize_r(geos, points, &count);
        for (unsigned k = 0; k < count; k++) {
            tw_point p, q;
            GEOSCoordSeq_getXY_r(geos, points, k, &p.x, &p.y);
            GEOSCoordSeq_getXY_r(geos, points, k > 0 ? k - 1 : 0, &q.x, &q.y);
            worst = fmax(worst, fmax(off(outline, p, distance_mm), off(outline, (tw_point){ (p.x + q.x) / 2.0, (p.y + q.y) / 2.0 }, distance_mm)));
        }
    }
    return worst;
}

/* ---- side by side ---- */

static double our_area(tw_outline outline, double distance_mm)
{
    tw_arena arena = { 0 };
    double area = tw_outline_area_mm2(tw_outline_offset(&arena, outline, distance_mm));
    tw_arena_finish(&arena);
    return area;
}

typedef struct timing { double ours_us, geos_us, geos_error_mm; bool same; int points; } timing;

static timing compare(GEOSContextHandle_t geos, const sample *s, double *xy)
{
    tw_vertex vertices[14];
    for (int i = 0; i < s->count; i++) vertices[i] = s->vertices[i];
    tw_loop loop = { vertices, s->count };
    tw_outline outline = { &loop, 1 };
    GEOSGeometry *shape = geos_of(geos, s, xy);
    GEOSBufferParams *params = GEOSBufferParams_create_r(geos);
    GEOSBufferParams_setQuadrantSegments_r(geos, params, (int)ceil(TW_PI / 4.0 / acos(1.0 - ACCURACY_MM / fabs(s->distance_mm))));
    double ours[ROUNDS], theirs[ROUNDS], area = 0.0, area_geos = 0.0;
    timing t = { .points = GEOSGetNumCoordinates_r(geos, shape) };
    for (int round = 0; round < ROUNDS; round++) {
        double start = now_us();
        for (int k = 0; k < OUR_REPEATS; k++) area = our_area(outline, s->distance_mm);
        ours[round] = (now_us() - start) / OUR_REPEATS;
        start = now_us();
        for (int k = 0; k < GEOS_REPEATS; k++) GEOSGeom_destroy_r(geos, geos_offset(geos, shape, params, s->distance_mm));
        theirs[round] = (now_us() - start) / GEOS_REPEATS;
    }
    GEOSGeometry *buffer = geos_offset(geos, shape, params, s->distance_mm);
    GEOSArea_r(geos, buffer, &area_geos);
    t.geos_error_mm = geos_error(geos, buffer, outline, s->distance_mm);
    t.same = fabs(area - area_geos) <= (2.0 * ACCURACY_MM + t.geos_error_mm) * (tw_outline_length_mm(outline) + 2.0 * TW_PI * fabs(s->distance_mm));
    qsort(ours, ROUNDS, sizeof *ours, by_size);
    qsort(theirs, ROUNDS, sizeof *theirs, by_size);
    t.ours_us = ours[ROUNDS / 2];
    t.geos_us = theirs[ROUNDS / 2];
    GEOSGeom_destroy_r(geos, buffer);
    GEOSBufferParams_destroy_r(geos, params);
    GEOSGeom_destroy_r(geos, shape);
    return t;
}

int main(void)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSContext_setNoticeHandler_r(geos, mute);
    GEOSContext_setErrorHandler_r(geos, mute);
    size_t count = sizeof samples / sizeof *samples;
    double *xy = calloc(MOST_POINTS * 2, sizeof *xy), ratios[sizeof samples / sizeof *samples];
    if (!xy) return 3;
    bool same = true;
    printf("offset, beside GEOS %s for a result within 1 um (process time, median of %d)\n", GEOSversion(), ROUNDS);
    printf("%-28s %8s %7s %9s %9s %8s %12s\n", "outline", "vertices", "points", "ours us", "GEOS us", "ratio", "GEOS off um");
    for (size_t i = 0; i < count; i++) {
        timing t = compare(geos, &samples[i], xy);
        ratios[i] = t.geos_us / t.ours_us;
        same = same && t.same;
        printf("%-28s %8d %7d %9.2f %9.1f %7.1fx %12.2f%s\n", samples[i].name, samples[i].count, t.points, t.ours_us, t.geos_us, ratios[i],
            1e3 * t.geos_error_mm, t.same ? "" : "  AREAS DIFFER");
    }
    qsort(ratios, count, sizeof *ratios, by_size);
    printf("ratio: least %.1f, median %.1f, most %.1f (aim: 20)\n", ratios[0], (ratios[(count - 1) / 2] + ratios[count / 2]) / 2.0, ratios[count - 1]);
    free(xy);
    GEOS_finish_r(geos);
    return same ? 0 : 1;
}
