// SPDX-License-Identifier: GPL-3.0-or-later
/* Plane regions on GEOS (package libgeos-dev). Snapped, all is reckoned on a grid of GRID_MM, so that slivers thinner than it go;
 * that takes more than twice as long (for each operation GEOS 3.11 seeds a shuffle from the system), so it is the second way. */
#include "solid/parts.h"

#include <assert.h>
#include <geos_c.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GRID_MM 1e-4

struct tw_region { GEOSGeometry *shape; tw_region *older; tw_box box; bool rectangle; };  // rectangle: it is its box
struct tw_regions { GEOSContextHandle_t geos; tw_region *newest; bool snapped, quick; };

tw_regions *tw_regions_begin(bool snapped, bool quick)
{
    tw_regions *regions = calloc(1, sizeof *regions);
    if (regions) regions->geos = GEOS_init_r();
    if (!regions || !regions->geos) abort();
    regions->snapped = snapped;
    regions->quick = quick && !snapped;
    return regions;
}

void tw_regions_end(tw_regions *regions)
{
    while (regions->newest) {
        tw_region *older = regions->newest->older;
        GEOSGeom_destroy_r(regions->geos, regions->newest->shape);
        free(regions->newest);
        regions->newest = older;
    }
    GEOS_finish_r(regions->geos);
    free(regions);
}

/* Where regions only touch, their common part has lines and points too: only the polygons are kept. Takes the shape. */
static GEOSGeometry *polygons_of(GEOSContextHandle_t geos, GEOSGeometry *shape)
{
    int type = GEOSGeomTypeId_r(geos, shape);
    if (type == GEOS_POLYGON || type == GEOS_MULTIPOLYGON) return shape;
    int parts = type == GEOS_GEOMETRYCOLLECTION ? GEOSGetNumGeometries_r(geos, shape) : 0;
    GEOSGeometry **kept = calloc((size_t)parts + 1, sizeof *kept);
    if (!kept) abort();
    unsigned count = 0;
    for (int i = 0; i < parts; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, shape, i);
        if (GEOSGeomTypeId_r(geos, part) == GEOS_POLYGON) kept[count++] = GEOSGeom_clone_r(geos, part);
    }
    GEOSGeometry *only = GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, kept, count);
    free(kept);
    GEOSGeom_destroy_r(geos, shape);
    return only;
}

/* One ring of four sides, each level or upright. */
static bool is_rectangle(GEOSContextHandle_t geos, const GEOSGeometry *shape)
{
    if (GEOSGeomTypeId_r(geos, shape) != GEOS_POLYGON || GEOSGetNumInteriorRings_r(geos, shape) != 0) return false;
    const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(geos, GEOSGetExteriorRing_r(geos, shape));
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(geos, points, &count);
    if (count != 5) return false;
    tw_point p[5];
    for (unsigned i = 0; i < count; i++) GEOSCoordSeq_getXY_r(geos, points, i, &p[i].x, &p[i].y);
    bool level = p[0].y == p[1].y;
    for (int i = 0; i < 4; i++, level = !level)
        if (level ? p[i].y != p[i + 1].y || p[i].x == p[i + 1].x : p[i].x != p[i + 1].x || p[i].y == p[i + 1].y) return false;
    return true;
}

static tw_box box_of(GEOSContextHandle_t geos, const GEOSGeometry *shape)
{
    tw_box box = { 0 };
    GEOSGeom_getXMin_r(geos, shape, &box.x0);
    GEOSGeom_getYMin_r(geos, shape, &box.y0);
    GEOSGeom_getXMax_r(geos, shape, &box.x1);
    GEOSGeom_getYMax_r(geos, shape, &box.y1);
    return box;
}

/* Takes the shape; an empty one, or none after an error of GEOS, is the empty region. */
static tw_region *keep(tw_regions *regions, GEOSGeometry *shape)
{
    if (!shape) return NULL;
    shape = polygons_of(regions->geos, shape);
    if (GEOSisEmpty_r(regions->geos, shape)) {
        GEOSGeom_destroy_r(regions->geos, shape);
        return NULL;
    }
    tw_region *region = calloc(1, sizeof *region);
    if (!region) abort();
    *region = (tw_region){ .shape = shape, .older = regions->newest };
    if (regions->quick) {
        region->box = box_of(regions->geos, shape);
        region->rectangle = is_rectangle(regions->geos, shape);
    }
    regions->newest = region;
    return region;
}

/* ---- operations ---- */

typedef GEOSGeometry *plain_of(GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *);
typedef GEOSGeometry *snapped_of(GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *, double);

static GEOSGeometry *made(const tw_regions *regions, plain_of *plain, snapped_of *snapped, const GEOSGeometry *a, const GEOSGeometry *b)
{
    return regions->snapped ? snapped(regions->geos, a, b, GRID_MM) : plain(regions->geos, a, b);
}

static GEOSGeometry *either(const tw_regions *regions, const GEOSGeometry *a, const GEOSGeometry *b)
{
    return made(regions, GEOSSymDifference_r, GEOSSymDifferencePrec_r, a, b);
}

static GEOSGeometry *both(const tw_regions *regions, const GEOSGeometry *a, const GEOSGeometry *b)
{
    return made(regions, GEOSUnion_r, GEOSUnionPrec_r, a, b);
}

static GEOSGeometry *common(const tw_regions *regions, const GEOSGeometry *a, const GEOSGeometry *b)
{
    return made(regions, GEOSIntersection_r, GEOSIntersectionPrec_r, a, b);
}

static GEOSGeometry *less(const tw_regions *regions, const GEOSGeometry *a, const GEOSGeometry *b)
{
    return made(regions, GEOSDifference_r, GEOSDifferencePrec_r, a, b);
}

static GEOSGeometry *ring_of(GEOSContextHandle_t geos, const tw_chords *loop)
{
    GEOSCoordSequence *points = GEOSCoordSeq_create_r(geos, (unsigned)loop->count + 1, 2);
    for (int i = 0; i <= loop->count; i++)
        GEOSCoordSeq_setXY_r(geos, points, (unsigned)i, loop->points[i % loop->count].x, loop->points[i % loop->count].y);
    return GEOSGeom_createLinearRing_r(geos, points);
}

static tw_region *polygon_of(tw_regions *regions, const tw_chords *loop)
{
    if (loop->count < 3) return NULL;
    GEOSGeometry *ring = ring_of(regions->geos, loop);
    return ring ? keep(regions, GEOSGeom_createPolygon_r(regions->geos, ring, NULL, 0)) : NULL;
}

/* ---- what needs no overlay: regions are mostly rectangles that lie apart or one in the other ---- */

static bool boxes_apart(tw_box a, tw_box b) { return a.x1 < b.x0 || b.x1 < a.x0 || a.y1 < b.y0 || b.y1 < a.y0; }

/* Each polygon of the one lies beside each of the other. */
static bool apart(const tw_regions *regions, const tw_region *a, const tw_region *b)
{
    GEOSContextHandle_t geos = regions->geos;
    if (boxes_apart(a->box, b->box)) return true;
    int of_a = GEOSGetNumGeometries_r(geos, a->shape), of_b = GEOSGetNumGeometries_r(geos, b->shape);
    if (of_a == 1 && of_b == 1) return false;
    for (int i = 0; i < of_a; i++) {
        tw_box box = of_a == 1 ? a->box : box_of(geos, GEOSGetGeometryN_r(geos, a->shape, i));
        for (int k = 0; k < of_b; k++)
            if (!boxes_apart(box, of_b == 1 ? b->box : box_of(geos, GEOSGetGeometryN_r(geos, b->shape, k)))) return false;
    }
    return true;
}

/* All of b lies in a. */
static bool holds(const tw_region *a, const tw_region *b)
{
    return a->rectangle && a->box.x0 <= b->box.x0 && a->box.y0 <= b->box.y0 && a->box.x1 >= b->box.x1 && a->box.y1 >= b->box.y1;
}

/* The polygons of both, which lie apart. */
static tw_region *together(tw_regions *regions, const tw_region *a, const tw_region *b)
{
    GEOSContextHandle_t geos = regions->geos;
    const GEOSGeometry *const shapes[] = { a->shape, b->shape };
    int room = GEOSGetNumGeometries_r(geos, a->shape) + GEOSGetNumGeometries_r(geos, b->shape);
    GEOSGeometry **parts = calloc((size_t)room, sizeof *parts);
    if (!parts) abort();
    unsigned count = 0;
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < GEOSGetNumGeometries_r(geos, shapes[k]); i++)
            parts[count++] = GEOSGeom_clone_r(geos, GEOSGetGeometryN_r(geos, shapes[k], i));
    GEOSGeometry *all = GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, parts, count);
    free(parts);
    return keep(regions, all);
}

static tw_region *rectangle_of(tw_regions *regions, tw_box b)
{
    tw_point corners[4] = { { b.x0, b.y0 }, { b.x1, b.y0 }, { b.x1, b.y1 }, { b.x0, b.y1 } };
    return b.x0 < b.x1 && b.y0 < b.y1 ? polygon_of(regions, &(tw_chords){ corners, NULL, 4 }) : NULL;
}

static tw_box box_common(tw_box a, tw_box b)
{
    return (tw_box){ tw_max(a.x0, b.x0), tw_max(a.y0, b.y0), tw_min(a.x1, b.x1), tw_min(a.y1, b.y1) };
}

/* Do both rectangles reach over the same width (or height), and meet? Then they are one. */
static bool make_one(tw_box a, tw_box b)
{
    bool wide = a.x0 == b.x0 && a.x1 == b.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
    bool high = a.y0 == b.y0 && a.y1 == b.y1 && a.x0 <= b.x1 && b.x0 <= a.x1;
    return wide || high;
}

/* A rectangle less one that reaches right across it: what stays on either side. */
static tw_region *less_across(tw_regions *regions, tw_box a, tw_box b, bool across_x)
{
    tw_box low = a, high = a;
    if (across_x) { low.y1 = tw_min(a.y1, b.y0); high.y0 = tw_max(a.y0, b.y1); }
    else { low.x1 = tw_min(a.x1, b.x0); high.x0 = tw_max(a.x0, b.x1); }
    tw_region *one = rectangle_of(regions, low), *other = rectangle_of(regions, high);
    return one && other ? together(regions, one, other) : one ? one : other;
}

static tw_region *union_of(tw_regions *regions, tw_region *a, tw_region *b)
{
    if (regions->quick && apart(regions, a, b)) return together(regions, a, b);
    if (regions->quick && (holds(a, b) || holds(b, a))) return holds(a, b) ? a : b;
    if (regions->quick && a->rectangle && b->rectangle && make_one(a->box, b->box))
        return rectangle_of(regions, (tw_box){ tw_min(a->box.x0, b->box.x0), tw_min(a->box.y0, b->box.y0),
            tw_max(a->box.x1, b->box.x1), tw_max(a->box.y1, b->box.y1) });
    return keep(regions, both(regions, a->shape, b->shape));
}

tw_region *tw_region_of(tw_regions *regions, const tw_chords *loops, int count)
{
    tw_region *all = NULL;
    for (int i = 0; i < count; i++) {
        tw_region *one = polygon_of(regions, &loops[i]);
        if (!one) continue;
        if (all && regions->quick && apart(regions, all, one)) all = together(regions, all, one);
        else all = all ? keep(regions, either(regions, all->shape, one->shape)) : one;
    }
    return all;
}

tw_region *tw_region_union(tw_regions *regions, tw_region *const *list, int count)
{
    tw_region *all = NULL;
    for (int i = 0; i < count; i++)
        if (list[i]) all = all ? union_of(regions, all, list[i]) : list[i];
    return all;
}

tw_region *tw_region_common(tw_regions *regions, tw_region *a, tw_region *b)
{
    if (!a || !b || (regions->quick && apart(regions, a, b))) return NULL;
    if (regions->quick && (holds(a, b) || holds(b, a))) return holds(a, b) ? b : a;
    if (regions->quick && a->rectangle && b->rectangle) return rectangle_of(regions, box_common(a->box, b->box));
    return keep(regions, common(regions, a->shape, b->shape));
}

tw_region *tw_region_less(tw_regions *regions, tw_region *a, tw_region *b)
{
    if (!a || !b || (regions->quick && apart(regions, a, b))) return a;
    if (regions->quick && holds(b, a)) return NULL;
    if (regions->quick && a->rectangle && b->rectangle) {
        bool across_x = b->box.x0 <= a->box.x0 && b->box.x1 >= a->box.x1;
        bool across_y = b->box.y0 <= a->box.y0 && b->box.y1 >= a->box.y1;
        if (across_x || across_y) return less_across(regions, a->box, b->box, across_x);
    }
    return keep(regions, less(regions, a->shape, b->shape));
}

/* ---- out again ---- */

static tw_chords wire_of(GEOSContextHandle_t geos, tw_arena *arena, const GEOSGeometry *ring, bool outside)
{
    const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(geos, ring);
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(geos, points, &count);
    tw_chords wire = { TW_NEW_ARRAY(arena, tw_point, count), NULL, (int)count - 1 };
    for (int i = 0; i < wire.count; i++) GEOSCoordSeq_getXY_r(geos, points, (unsigned)i, &wire.points[i].x, &wire.points[i].y);
    if ((tw_chords_area_mm2(&wire) > 0.0) != outside) tw_chords_turn_round(&wire);
    return wire;
}

static void add_polygon(GEOSContextHandle_t geos, tw_arena *arena, const GEOSGeometry *polygon, tw_rings *rings)
{
    int holes = GEOSGetNumInteriorRings_r(geos, polygon);
    for (int i = -1; i < holes; i++) {
        const GEOSGeometry *ring = i < 0 ? GEOSGetExteriorRing_r(geos, polygon) : GEOSGetInteriorRingN_r(geos, polygon, i);
        rings->wires[rings->count] = wire_of(geos, arena, ring, i < 0);
        rings->polygon_of[rings->count++] = rings->polygon_count;
    }
    rings->polygon_count++;
}

static bool is_polygon(GEOSContextHandle_t geos, const GEOSGeometry *shape) { return GEOSGeomTypeId_r(geos, shape) == GEOS_POLYGON; }

tw_rings tw_region_rings(tw_regions *regions, tw_arena *arena, tw_region *region)
{
    tw_rings rings = {0};
    if (!region) return rings;
    GEOSContextHandle_t geos = regions->geos;
    int parts = GEOSGetNumGeometries_r(geos, region->shape), wires = 0;
    for (int i = 0; i < parts; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, region->shape, i);
        if (is_polygon(geos, part)) wires += 1 + GEOSGetNumInteriorRings_r(geos, part);
    }
    rings.wires = TW_NEW_ARRAY(arena, tw_chords, (size_t)wires);
    rings.polygon_of = TW_NEW_ARRAY(arena, int, (size_t)wires);
    for (int i = 0; i < parts; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(geos, region->shape, i);
        if (is_polygon(geos, part)) add_polygon(geos, arena, part, &rings);
    }
    return rings;
}

/* ---- triangles ---- */

static int index_of(const tw_chords *wires, int wire_count, tw_point p)
{
    int base = 0;
    for (int i = 0; i < wire_count; i++) {
        for (int j = 0; j < wires[i].count; j++)
            if (wires[i].points[j].x == p.x && wires[i].points[j].y == p.y) return base + j;
        base += wires[i].count;
    }
    return -1;
}

/* One triangle of GEOS as indices, counter-clockwise. */
static bool take_triangle(GEOSContextHandle_t geos, const GEOSGeometry *triangle, const tw_chords *wires, int wire_count, int into[3])
{
    const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(geos, GEOSGetExteriorRing_r(geos, triangle));
    tw_point p[3];
    for (int i = 0; i < 3; i++) {
        GEOSCoordSeq_getXY_r(geos, points, (unsigned)i, &p[i].x, &p[i].y);
        into[i] = index_of(wires, wire_count, p[i]);
        if (into[i] < 0) return false;
    }
    if ((p[1].x - p[0].x) * (p[2].y - p[0].y) - (p[1].y - p[0].y) * (p[2].x - p[0].x) < 0.0) {
        int kept = into[1];
        into[1] = into[2];
        into[2] = kept;
    }
    return true;
}

static GEOSGeometry *whole_polygon(GEOSContextHandle_t geos, const tw_chords *wires, int wire_count)
{
    GEOSGeometry **holes = calloc((size_t)wire_count, sizeof *holes);
    if (!holes) abort();
    for (int i = 1; i < wire_count; i++) holes[i - 1] = ring_of(geos, &wires[i]);
    GEOSGeometry *polygon = GEOSGeom_createPolygon_r(geos, ring_of(geos, &wires[0]), holes, (unsigned)wire_count - 1);
    free(holes);
    return polygon;
}

int (*tw_region_triangles(tw_regions *regions, tw_arena *arena, const tw_chords *wires, int wire_count, int *count))[3]
{
    GEOSContextHandle_t geos = regions->geos;
    *count = 0;
    GEOSGeometry *polygon = whole_polygon(geos, wires, wire_count);
    GEOSGeometry *parted = polygon ? GEOSConstrainedDelaunayTriangulation_r(geos, polygon) : NULL;
    if (polygon) GEOSGeom_destroy_r(geos, polygon);
    if (!parted) return NULL;
    int parts = GEOSGetNumGeometries_r(geos, parted);
    int (*triangles)[3] = tw_arena_take(arena, (size_t)parts, sizeof *triangles);
    bool good = parts > 0;
    for (int i = 0; i < parts && good; i++)
        good = take_triangle(geos, GEOSGetGeometryN_r(geos, parted, i), wires, wire_count, triangles[i]);
    GEOSGeom_destroy_r(geos, parted);
    *count = good ? parts : 0;
    return good ? triangles : NULL;
}
