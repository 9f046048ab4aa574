// SPDX-License-Identifier: GPL-3.0-or-later
/* Law: an offset is what GEOS says it is, within 1 um. GEOS knows no arcs and straightens shallow hollows before it
 * buffers, so the reference is put together from what it does exactly: the belt along the border is the union of a
 * rectangle for each line, a sector of a ring for each arc and a disc for each vertex, all as polygons whose chords
 * stay within CHORD_MM; added to the outline, or taken from it.
 *
 * A sharp tip of the result moves far when its sides move by a hair. So what is asked is whether the result lies between
 * two references, one for a distance 1 um smaller and one for 1 um larger: nothing of it may stick out of the larger, and
 * nothing of the smaller may be missing from it. */
#include <geos_c.h>

#include "fewer.h"
#include "laws/generate.h"
#include "laws/promises.h"

#define SIZE_MM 20.0
#define EPSILON_MM 1e-3
#define CHORD_MM 1.5e-4
#define NOTHING_MM2 1e-7
#define OUTLINES_OF_A_KIND 250

static GEOSContextHandle_t geos;
static int without_answer;

/* ---- polygons ---- */

typedef struct ring { double *xy; unsigned count, room; } ring;

static void put(ring *r, double x, double y)
{
    if (r->count == r->room) r->xy = realloc(r->xy, (r->room = r->room ? 2 * r->room : 256) * 2 * sizeof *r->xy);
    r->xy[2 * r->count] = x;
    r->xy[2 * r->count++ + 1] = y;
}

static GEOSGeometry *polygon(ring *r)
{
    put(r, r->xy[0], r->xy[1]);
    GEOSCoordSequence *points = GEOSCoordSeq_copyFromBuffer_r(geos, r->xy, r->count, 0, 0);
    r->count = 0;
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, points), NULL, 0);
}

static int parts_of(double radius, double turn)
{
    if (radius < 4.0 * CHORD_MM) return 4;
    return 1 + (int)ceil(fabs(turn) / (2.0 * acos(1.0 - CHORD_MM / radius)));
}

static double radius_of(tw_vertex v, tw_vertex w) { return hypot(w.x - v.x, w.y - v.y) * (1.0 + v.bulge * v.bulge) / (4.0 * fabs(v.bulge)); }

/* An arc with hardly any rise is as good as its chord. */
static bool is_straight(tw_vertex v, tw_vertex w) { return fabs(v.bulge) * hypot(w.x - v.x, w.y - v.y) < 1e-5; }

/* The points of an edge, without its end. */
static void put_edge(ring *r, tw_vertex v, tw_vertex w)
{
    int parts = is_straight(v, w) ? 1 : parts_of(radius_of(v, w), 4.0 * atan(v.bulge));
    for (int i = 0; i < parts; i++) {
        tw_point p = promise_point(v, w, (double)i / parts);
        put(r, p.x, p.y);
    }
}

static GEOSGeometry *loop_polygon(ring *r, tw_loop loop)
{
    for (int i = 0; i < loop.count; i++) put_edge(r, loop.vertices[i], promise_next(loop, i));
    return polygon(r);
}

static GEOSGeometry *combine(GEOSGeometry *a, GEOSGeometry *b, GEOSGeometry *(*how)(GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *))
{
    GEOSGeometry *both = a && b ? how(geos, a, b) : NULL;
    GEOSGeom_destroy_r(geos, a);
    GEOSGeom_destroy_r(geos, b);
    return both;
}

/* Loops count even and odd. */
static GEOSGeometry *region(ring *r, tw_outline outline)
{
    GEOSGeometry *all = GEOSGeom_createEmptyPolygon_r(geos);
    for (int i = 0; i < outline.count; i++) all = combine(all, loop_polygon(r, outline.loops[i]), GEOSSymDifference_r);
    return all;
}

/* ---- the belt ---- */

static GEOSGeometry *disc(ring *r, tw_vertex at, double radius)
{
    int parts = parts_of(radius, 2.0 * TW_PI);
    for (int i = 0; i < parts; i++) put(r, at.x + radius * cos(2.0 * TW_PI * i / parts), at.y + radius * sin(2.0 * TW_PI * i / parts));
    return polygon(r);
}

static GEOSGeometry *rectangle(ring *r, tw_vertex v, tw_vertex w, double d)
{
    double length = hypot(w.x - v.x, w.y - v.y), x = (w.y - v.y) / length * d, y = (v.x - w.x) / length * d;
    put(r, v.x + x, v.y + y);
    put(r, w.x + x, w.y + y);
    put(r, w.x - x, w.y - y);
    put(r, v.x - x, v.y - y);
    return polygon(r);
}

/* From an angle over a turn about a centre, between two radii. */
static GEOSGeometry *sector(ring *r, tw_point centre, double start, double turn, double inner, double outer)
{
    int parts = parts_of(outer, turn);
    for (int i = 0; i <= parts; i++) put(r, centre.x + outer * cos(start + turn * i / parts), centre.y + outer * sin(start + turn * i / parts));
    if (inner <= 0.0) put(r, centre.x, centre.y);
    for (int i = parts; i >= 0 && inner > 0.0; i--) put(r, centre.x + inner * cos(start + turn * i / parts), centre.y + inner * sin(start + turn * i / parts));
    return polygon(r);
}

/* Within d of an arc, but for its ends; arcs over half a turn in two sectors, so that none meets itself. */
static unsigned arc_belt(ring *r, tw_vertex v, tw_vertex w, double d, GEOSGeometry **parts)
{
    double b = v.bulge, h = (1.0 - b * b) / (4.0 * b), turn = 4.0 * atan(b), radius = radius_of(v, w);
    tw_point centre = { (v.x + w.x) / 2.0 - (w.y - v.y) * h, (v.y + w.y) / 2.0 + (w.x - v.x) * h };
    double start = atan2(v.y - centre.y, v.x - centre.x);
    parts[0] = sector(r, centre, start, turn / 2.0, radius - d, radius + d);
    parts[1] = sector(r, centre, start + turn / 2.0, turn / 2.0, radius - d, radius + d);
    return 2;
}

static GEOSGeometry *belt(ring *r, tw_outline outline, double d)
{
    unsigned count = 0, room = 0;
    for (int i = 0; i < outline.count; i++) room += 3 * (unsigned)outline.loops[i].count;
    GEOSGeometry **parts = calloc(room + 1, sizeof(GEOSGeometry *));
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++) {
            tw_vertex v = outline.loops[i].vertices[j], w = promise_next(outline.loops[i], j);
            parts[count++] = disc(r, v, d);
            if (is_straight(v, w)) parts[count++] = rectangle(r, v, w, d);
            else count += arc_belt(r, v, w, d, parts + count);
        }
    GEOSGeometry *all = GEOSGeom_createCollection_r(geos, GEOS_GEOMETRYCOLLECTION, parts, count);
    GEOSGeometry *one = GEOSUnaryUnion_r(geos, all);
    GEOSGeom_destroy_r(geos, all);
    free(parts);
    return one;
}

static GEOSGeometry *reference(ring *r, tw_outline outline, double distance)
{
    return combine(region(r, outline), belt(r, outline, fabs(distance)), distance > 0.0 ? GEOSUnion_r : GEOSDifference_r);
}

/* ---- the law ---- */

/* Area of a without b; negative when GEOS has no answer. */
static double without(const GEOSGeometry *a, const GEOSGeometry *b)
{
    double area = -1.0;
    GEOSGeometry *rest = a && b ? GEOSDifference_r(geos, a, b) : NULL;
    if (rest) GEOSArea_r(geos, rest, &area);
    GEOSGeom_destroy_r(geos, rest);
    return area;
}

static void check_between_references(tw_outline outline, double distance, const char *name, int number)
{
    tw_arena arena = { 0 };
    ring r = { 0 };
    GEOSGeometry *got = region(&r, tw_outline_offset(&arena, outline, distance));
    GEOSGeometry *smaller = reference(&r, outline, distance - EPSILON_MM), *larger = reference(&r, outline, distance + EPSILON_MM);
    double missing = without(smaller, got), too_much = without(got, larger);
    without_answer += missing < 0.0 || too_much < 0.0;
    if (missing > NOTHING_MM2 || too_much > NOTHING_MM2) {
        print_error("%s %d, distance %.17g: %g mm2 missing, %g mm2 too much\n", name, number, distance, missing, too_much);
        fail();
    }
    GEOSGeom_destroy_r(geos, got);
    GEOSGeom_destroy_r(geos, smaller);
    GEOSGeom_destroy_r(geos, larger);
    free(r.xy);
    tw_arena_finish(&arena);
}

static void offset_lies_within_a_micrometre_of_what_geos_says(void **state)
{
    (void)state;
    for (int kind = 0; kind < KIND_COUNT; kind++)
        for (int i = 0; i < cases_of(OUTLINES_OF_A_KIND); i++) {
            tw_arena arena = { 0 };
            check_seed seed = { 77 + (uint64_t)i * 1000003u + (uint64_t)kind * 7919u };
            int tries = 0;
            generated made = generate(&arena, &seed, (generate_kind)kind, SIZE_MM, &tries);
            if (fabs(made.distance_mm) > 2.0 * EPSILON_MM) check_between_references(made.outline, made.distance_mm, generate_names[kind], i);
            tw_arena_finish(&arena);
        }
    assert_true(without_answer <= KIND_COUNT * OUTLINES_OF_A_KIND / 100);
}

static void reference_tells_a_wrong_offset_from_a_right_one(void **state)
{
    (void)state;
    tw_arena arena = { 0 };
    ring r = { 0 };
    tw_outline plate = tw_outline_rounded(&arena, 0, 0, 40, 20, 4);
    GEOSGeometry *smaller = reference(&r, plate, -3.0 - EPSILON_MM), *larger = reference(&r, plate, -3.0 + EPSILON_MM);
    for (int i = -1; i <= 1; i++) {  // 2 um to either side are told apart
        GEOSGeometry *got = region(&r, tw_outline_offset(&arena, plate, -3.0 + 2e-3 * i));
        assert_int_equal(without(smaller, got) > NOTHING_MM2, i < 0);
        assert_int_equal(without(got, larger) > NOTHING_MM2, i > 0);
        GEOSGeom_destroy_r(geos, got);
    }
    GEOSGeom_destroy_r(geos, smaller);
    GEOSGeom_destroy_r(geos, larger);
    free(r.xy);
    tw_arena_finish(&arena);
}

static void mute(const char *format, ...) { (void)format; }

static int set_up(void **state)
{
    (void)state;
    geos = GEOS_init_r();
    GEOSContext_setNoticeHandler_r(geos, mute);
    GEOSContext_setErrorHandler_r(geos, mute);
    return 0;
}

static int tear_down(void **state) { (void)state; GEOS_finish_r(geos); return 0; }

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reference_tells_a_wrong_offset_from_a_right_one),
        cmocka_unit_test(offset_lies_within_a_micrometre_of_what_geos_says),
    };
    return cmocka_run_group_tests_name("law_geos", tests, set_up, tear_down);
}
