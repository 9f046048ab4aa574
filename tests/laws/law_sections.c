// SPDX-License-Identifier: GPL-3.0-or-later
/* Law: the area and the centroid of a section are what GEOS says of it.
 *
 * Random prisms from all six faces, some that lean, are cut by a plane square to the grain. What a prism takes of the section
 * is put together as a polygon with chords, by another way than the program's: in the plane (up, in) of a face or edge a
 * prism that leans along the grain is its outline under the affine map in = (x - right)/lean; one that does not is the
 * strips over the parts of the line right = x inside of the outline; a prism from an end is the outline moved by its lean. */
#include <geos_c.h>

#include "check.h"

#include "piece/sections.h"

#define CHORDS 96  // for each arc
static const tw_size BOARD = { 400, 100, 40 };
static tw_arena arena;
static GEOSContextHandle_t geos;

static tw_point on_edge(tw_vertex a, tw_vertex b, double part)
{
    if (a.bulge == 0.0) return (tw_point){ a.x + part * (b.x - a.x), a.y + part * (b.y - a.y) };
    double turn = 4.0 * atan(a.bulge), half = turn / 2.0, chord = hypot(b.x - a.x, b.y - a.y), way = atan2(b.y - a.y, b.x - a.x) - half + part * half;
    double far = chord * sin(part * half) / sin(half);  // chord from the start to the point: 2 r sin(part turn / 2)
    return (tw_point){ a.x + far * cos(way), a.y + far * sin(way) };
}

typedef struct map { double xx, xy, x, yx, yy, y; } map;  // affine

static GEOSGeometry *polygon_of(tw_outline outline, map m)
{
    tw_loop loop = outline.loops[0];
    double xy[2 * (4 * CHORDS + 1)];
    unsigned count = 0;
    for (int i = 0; i < loop.count; i++) {
        tw_vertex a = loop.vertices[i], b = loop.vertices[(i + 1) % loop.count];
        int parts = a.bulge == 0.0 ? 1 : CHORDS;
        for (int k = 0; k < parts; k++) {
            tw_point p = on_edge(a, b, (double)k / parts);
            xy[2 * count] = m.xx * p.x + m.xy * p.y + m.x;
            xy[2 * count++ + 1] = m.yx * p.x + m.yy * p.y + m.y;
        }
    }
    xy[2 * count] = xy[0];
    xy[2 * count + 1] = xy[1];
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, GEOSCoordSeq_copyFromBuffer_r(geos, xy, count + 1, 0, 0)), NULL, 0);
}

static GEOSGeometry *quad(const double *xy)
{
    double closed[10];
    memcpy(closed, xy, 8 * sizeof *xy);
    closed[8] = xy[0];
    closed[9] = xy[1];
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, GEOSCoordSeq_copyFromBuffer_r(geos, closed, 5, 0, 0)), NULL, 0);
}

static GEOSGeometry *joined(GEOSGeometry *a, GEOSGeometry *b)
{
    GEOSGeometry *both = GEOSUnion_r(geos, a, b);
    GEOSGeom_destroy_r(geos, a);
    GEOSGeom_destroy_r(geos, b);
    return both;
}

static GEOSGeometry *box(double x0, double y0, double x1, double y1) { return quad((double[]){ x0, y0, x1, y0, x1, y1, x0, y1 }); }

/* Strips over the parts of right = x that are inside, u leaning with depth: on the plane (up, in). */
static GEOSGeometry *strips(const tw_cut *cut, double x, double top, double bottom)
{
    GEOSGeometry *shape = polygon_of(cut->outline, (map){ 1, 0, 0, 0, 1, 0 }), *all = GEOSGeom_createEmptyPolygon_r(geos);
    double ends[4] = { x, -1000, x, 1000 };
    GEOSGeometry *line = GEOSGeom_createLineString_r(geos, GEOSCoordSeq_copyFromBuffer_r(geos, ends, 2, 0, 0)), *parts = GEOSIntersection_r(geos, shape, line);
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, parts); i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, parts, i);
        double u0, u1;
        if (GEOSGeomTypeId_r(geos, part) != GEOS_LINESTRING || GEOSisEmpty_r(geos, part)) continue;
        GEOSGeom_getYMin_r(geos, part, &u0);
        GEOSGeom_getYMax_r(geos, part, &u1);
        double t = cut->lean_up * top, b = cut->lean_up * bottom;
        all = joined(all, quad((double[]){ u0 + t, top, u1 + t, top, u1 + b, bottom, u0 + b, bottom }));
    }
    GEOSGeom_destroy_r(geos, shape);
    GEOSGeom_destroy_r(geos, line);
    GEOSGeom_destroy_r(geos, parts);
    return all;
}

/* The section of a prism from a side, on the plane (up, in). */
static GEOSGeometry *side_section(const tw_cut *cut, double x)
{
    double top = cut->start_mm, bottom = tw_cut_depth_mm(BOARD, cut), lean = cut->lean_right;
    if (lean == 0.0) return strips(cut, x, top, bottom);
    GEOSGeometry *shape = polygon_of(cut->outline, (map){ -cut->lean_up / lean, 1, cut->lean_up * x / lean, -1 / lean, 0, x / lean });
    GEOSGeometry *band = box(-2000, top, 2000, bottom), *part = GEOSIntersection_r(geos, shape, band);
    GEOSGeom_destroy_r(geos, shape);
    GEOSGeom_destroy_r(geos, band);
    return part;
}

static int to_yz(double *x, double *y, void *face_of)
{
    double w = BOARD.width_mm, t = BOARD.thickness_mm, up = *x, in = *y;
    switch (*(const tw_face *)face_of) {
    case TW_SIDE_FACE: *x = up; *y = t - in; break;
    case TW_SIDE_BACK: *x = w - up; *y = in; break;
    case TW_SIDE_FACE_EDGE: *x = in; *y = up; break;
    default: *x = w - in; *y = t - up; break;
    }
    return 1;
}

/* GEOS 3.11 can map points by a callback. */
static GEOSGeometry *taken_at(const tw_cut *cut, double x)
{
    if (cut->face >= TW_SIDE_LEFT_END) {
        double in = cut->face == TW_SIDE_LEFT_END ? x : BOARD.length_mm - x, right = cut->lean_right * in, up = cut->lean_up * in;
        if (in <= cut->start_mm || in >= tw_cut_depth_mm(BOARD, cut)) return GEOSGeom_createEmptyPolygon_r(geos);
        return cut->face == TW_SIDE_LEFT_END ? polygon_of(cut->outline, (map){ -1, 0, BOARD.width_mm - right, 0, 1, up }) : polygon_of(cut->outline, (map){ 1, 0, right, 0, 1, up });
    }
    GEOSGeometry *seen = side_section(cut, x);
    tw_face face = cut->face;
    GEOSGeometry *turned = GEOSGeom_transformXY_r(geos, seen, to_yz, &face);
    GEOSGeom_destroy_r(geos, seen);
    return turned;
}

static GEOSGeometry *wood_at(const tw_cut *cuts, int count, double x)
{
    GEOSGeometry *wood = box(0, 0, BOARD.width_mm, BOARD.thickness_mm);
    for (int i = 0; i < count; i++) {
        GEOSGeometry *taken = taken_at(&cuts[i], x), *rest = GEOSDifference_r(geos, wood, taken);
        GEOSGeom_destroy_r(geos, wood);
        GEOSGeom_destroy_r(geos, taken);
        wood = rest;
    }
    return wood;
}

/* ---- random cuts ---- */

static tw_outline seeded_outline(check_seed *seed, tw_size face)
{
    double w = face.length_mm, h = face.width_mm, x = check_between(seed, -0.1 * w, 0.8 * w), y = check_between(seed, -0.1 * h, 0.8 * h);
    double wide = check_between(seed, 0.05 * w, 0.5 * w), high = check_between(seed, 0.1 * h, 0.7 * h);
    if (check_random(seed) % 3 == 0) return tw_outline_circle(&arena, (tw_point){ x + wide / 2, y + high / 2 }, 0.5 * tw_min(wide, high));
    const tw_vertex v[] = { { x, y, 0 }, { x + wide, y + 0.2 * high, check_between(seed, 0, 0.5) }, { x + 0.8 * wide, y + high, 0 }, { x + 0.1 * wide, y + 0.7 * high, 0 } };
    return tw_outline_of_loop(&arena, v, 4);
}

static tw_cut seeded_cut(check_seed *seed, bool leaning)
{
    tw_face face = (tw_face)(check_random(seed) % TW_FACE_COUNT);
    tw_size extent = tw_face_extent(BOARD, face);
    tw_cut cut = { .face = face, .outline = seeded_outline(seed, extent), .depth_mm = extent.thickness_mm * check_between(seed, 0.1, 0.9) };
    if (check_random(seed) % 3 == 0) cut.start_mm = cut.depth_mm * check_between(seed, 0.0, 0.6);
    if (leaning && check_random(seed) % 2 == 0) cut.lean_right = check_between(seed, 0.05, 0.4) * (check_random(seed) % 2 ? 1 : -1);
    if (leaning && check_random(seed) % 2 == 0) cut.lean_up = check_between(seed, -0.4, 0.4);
    return cut;
}

static int law(uint64_t first_seed, bool leaning, double within_part)
{
    check_seed seed = { first_seed };
    int differ = 0;
    for (int round = 0; round < 1200; round++) {
        tw_cut cuts[4];
        int count = 1 + (int)(check_random(&seed) % 4);
        for (int i = 0; i < count; i++) cuts[i] = seeded_cut(&seed, leaning);
        double x = check_between(&seed, 1, 399), area, y, z;
        tw_wood wood = tw_wood_make(&arena, BOARD, cuts, count);
        tw_slice s = tw_slice_at(&wood, x);
        GEOSGeometry *want = wood_at(cuts, count, x);
        GEOSArea_r(geos, want, &area);
        CHECK_NEAR(s.area_mm2, area, within_part * 4000.0);
        if (area > 500.0) {
            GEOSGeometry *middle = GEOSGetCentroid_r(geos, want);
            GEOSGeomGetX_r(geos, middle, &y);
            GEOSGeomGetY_r(geos, middle, &z);
            CHECK_NEAR(s.y_mm, y, 60.0 * within_part * 4000.0 / area);
            CHECK_NEAR(s.z_mm, z, 30.0 * within_part * 4000.0 / area);
            GEOSGeom_destroy_r(geos, middle);
        }
        differ += area < 3990.0;
        GEOSGeom_destroy_r(geos, want);
    }
    return differ;
}

static void sections_of_upright_cuts_have_the_area_that_geos_gives(void **state) { (void)state; assert_true(law(81, false, 3e-4) > 500); }
static void sections_of_leaning_cuts_have_the_area_that_geos_gives(void **state) { (void)state; assert_true(law(82, true, 3e-4) > 500); }

int main(void)
{
    geos = GEOS_init_r();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sections_of_upright_cuts_have_the_area_that_geos_gives),
        cmocka_unit_test(sections_of_leaning_cuts_have_the_area_that_geos_gives),
    };
    int failed = cmocka_run_group_tests_name("law_sections", tests, NULL, NULL);
    GEOS_finish_r(geos);
    tw_arena_finish(&arena);
    return failed;
}
