// SPDX-License-Identifier: GPL-3.0-or-later
/* The faces of a blank less its cuts.
 *
 * Every side of the blank and every wall and bottom of a cut lies in a plane; sides in one plane are taken together. With W the
 * region that these sides cover there, and with B and A what the cuts take just below and just above the plane:
 *     faces that look up    = (W and A) less B                 wood below, none above                       (1)
 *     faces that look down  = (W and B) less A                                                              (2)
 *     a side of the blank   = W less what the cuts take just inside of it                                   (3)
 * Just below and above is SIDE_MM: far more than rounding, far less than anything that is cut. */
#include "solid/parts.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define SIDE_MM 1e-6     // planes nearer than this are one
#define FLAT 1e-9        // sine of an angle below which two directions are one

typedef struct plane {
    tw_spot    out, right, up;   // right x up = out
    double     off_mm;           // out . p
    tw_region *cover;            // W, not yet kept within the blank
    int        source, sides;    // of the first side; how many
    double     bend_rad;
    tw_block   around;
    bool       within;           // the one side lies within the blank
    int        prism, edge;      // it is a wall of this prism, on this edge of the loop; -1: it is none
    const tw_chords *loop;
} plane;

typedef struct work {
    tw_arena       *arena;
    tw_regions     *regions;
    tw_size         size;
    const tw_prism *prisms;
    int             count;
    plane          *planes;
    size_t          plane_count, plane_room;
} work;

/* ---- planes ---- */

static double part(tw_spot spot, int axis) { return axis == 0 ? spot.x : axis == 1 ? spot.y : spot.z; }

static tw_spot unit(tw_spot spot) { return tw_spot_times(spot, 1.0 / tw_spot_size(spot)); }

/* One of the two directions of a plane, always the same: its greatest part is positive. */
static bool points_on(tw_spot out)
{
    int most = 0;
    for (int i = 1; i < 3; i++)
        if (fabs(part(out, i)) > fabs(part(out, most)) + FLAT) most = i;
    return part(out, most) > 0.0;
}

static void give_axes(plane *p)
{
    tw_spot along = fabs(p->out.x) < 0.5 ? (tw_spot){ 1, 0, 0 } : (tw_spot){ 0, 1, 0 };
    p->right = unit(tw_spot_less(along, tw_spot_times(p->out, tw_spot_product(along, p->out))));
    p->up = tw_spot_cross(p->out, p->right);
}

static tw_point on_plane(const plane *p, tw_spot spot) { return (tw_point){ tw_spot_product(p->right, spot), tw_spot_product(p->up, spot) }; }

static plane *plane_of(work *w, tw_spot out, double off_mm)
{
    if (!points_on(out)) { out = tw_spot_times(out, -1.0); off_mm = -off_mm; }
    for (size_t i = 0; i < w->plane_count; i++) {
        plane *p = &w->planes[i];
        if (fabs(p->off_mm - off_mm) <= SIDE_MM && tw_spot_size(tw_spot_less(p->out, out)) <= FLAT) return p;
    }
    tw_array_make_room(w->arena, &w->planes, w->plane_count, &w->plane_room, sizeof *w->planes);
    plane *p = &w->planes[w->plane_count++];
    *p = (plane){ .out = out, .off_mm = off_mm, .around = tw_block_of_nothing() };
    give_axes(p);
    return p;
}

static bool inside_blank(tw_size size, tw_block b)
{
    return b.least.x >= -SIDE_MM && b.least.y >= -SIDE_MM && b.least.z >= -SIDE_MM
        && b.most.x <= size.length_mm + SIDE_MM && b.most.y <= size.width_mm + SIDE_MM && b.most.z <= size.thickness_mm + SIDE_MM;
}

/* A side given by its corners in space and the plane's direction; several loops by the even-odd rule. */
static plane *add_side(work *w, tw_spot out, tw_spot *const *loops, const int *counts, int loop_count, int source, double bend_rad)
{
    plane *p = plane_of(w, out, tw_spot_product(out, loops[0][0]));
    tw_chords *flat = TW_NEW_ARRAY(w->arena, tw_chords, (size_t)loop_count);
    for (int i = 0; i < loop_count; i++) {
        flat[i] = (tw_chords){ TW_NEW_ARRAY(w->arena, tw_point, (size_t)counts[i]), NULL, counts[i] };
        for (int j = 0; j < counts[i]; j++) {
            flat[i].points[j] = on_plane(p, loops[i][j]);
            tw_block_widen(&p->around, loops[i][j]);
        }
    }
    tw_region *region = tw_region_of(w->regions, flat, loop_count);
    if (p->sides++ == 0) {
        p->source = source;
        p->bend_rad = bend_rad;
        p->cover = region;
        p->prism = -1;
        p->within = loop_count == 1 && inside_blank(w->size, p->around);
        return p;
    }
    p->within = false;
    p->bend_rad = tw_max(p->bend_rad, bend_rad);
    p->cover = tw_region_union(w->regions, (tw_region *const[]){ p->cover, region }, 2);
    return p;
}

static void add_walls(work *w, const tw_prism *prism, const tw_chords *loop)
{
    for (int i = 0; i < loop->count; i++) {
        tw_point a = loop->points[i], b = loop->points[(i + 1) % loop->count];
        tw_spot corners[4] = { tw_prism_spot(prism, a, prism->near_mm), tw_prism_spot(prism, b, prism->near_mm), tw_prism_spot(prism, b, prism->far_mm),
                               tw_prism_spot(prism, a, prism->far_mm) };
        tw_spot out = tw_spot_cross(tw_spot_less(corners[1], corners[0]), prism->axis);
        if (tw_spot_size(out) < TW_SAME_POINT_MM) continue;
        tw_spot *loops[] = { corners };
        plane *p = add_side(w, unit(out), loops, (int[]){ 4 }, 1, prism->cut, loop->bends[i]);
        p->prism = (int)(prism - w->prisms);
        p->loop = loop;
        p->edge = i;
    }
}

static void add_level(work *w, const tw_prism *prism, double depth_mm)
{
    tw_spot **loops = TW_NEW_ARRAY(w->arena, tw_spot *, (size_t)prism->loop_count);
    int *counts = TW_NEW_ARRAY(w->arena, int, (size_t)prism->loop_count);
    for (int i = 0; i < prism->loop_count; i++) {
        counts[i] = prism->loops[i].count;
        loops[i] = TW_NEW_ARRAY(w->arena, tw_spot, (size_t)counts[i]);
        for (int j = 0; j < counts[i]; j++) loops[i][j] = tw_prism_spot(prism, prism->loops[i].points[j], depth_mm);
    }
    add_side(w, tw_spot_cross(prism->right, prism->up), loops, counts, prism->loop_count, prism->cut, 0.0);
}

static void add_sides_of_prism(work *w, const tw_prism *prism)
{
    if (tw_prism_is_empty(prism)) return;
    for (int i = 0; i < prism->loop_count; i++) add_walls(w, prism, &prism->loops[i]);
    if (prism->before_mm >= 0.0) add_level(w, prism, prism->before_mm);
    if (prism->beyond_mm <= prism->far_mm) add_level(w, prism, prism->beyond_mm);
}

static void add_sides_of_blank(work *w)
{
    for (int face = 0; face < TW_FACE_COUNT; face++) {
        tw_size e = tw_face_extent(w->size, (tw_face)face);
        tw_spot corners[4];
        const double at[4][2] = { { 0, 0 }, { e.length_mm, 0 }, { e.length_mm, e.width_mm }, { 0, e.width_mm } };
        for (int i = 0; i < 4; i++) corners[i] = tw_face_spot(w->size, (tw_face)face, at[i][0], at[i][1], 0.0);
        tw_spot *loops[] = { corners };
        add_side(w, tw_face_frame((tw_face)face).out, loops, (int[]){ 4 }, 1, -1 - face, 0.0);
    }
}

/* ---- what a prism takes of a plane ---- */

/* Coordinates of the prism along which the plane says: across . (r, u) + deep * d = rest. */
typedef struct slice { double across_r, across_u, deep, rest; } slice;

static slice slice_of(const plane *p, double off_mm, const tw_prism *prism)
{
    return (slice){ tw_spot_product(p->out, prism->right), tw_spot_product(p->out, prism->up), tw_spot_product(p->out, prism->axis),
                    off_mm - tw_spot_product(p->out, prism->at) };
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* The plane runs along the prism's axis: the line across . q = rest through the outline, parts of it by the even-odd rule. */
static tw_region *along_axis(work *w, const plane *p, const tw_prism *prism, slice s)
{
    double size = hypot(s.across_r, s.across_u);
    tw_point n = { s.across_r / size, s.across_u / size }, t = { -n.y, n.x };
    double level = s.rest / size;
    size_t count = 0, room = 0;
    double *crossings = NULL;
    for (int i = 0; i < prism->loop_count; i++)
        for (int j = 0; j < prism->loops[i].count; j++) {
            tw_point a = prism->loops[i].points[j], b = prism->loops[i].points[(j + 1) % prism->loops[i].count];
            double ha = a.x * n.x + a.y * n.y - level, hb = b.x * n.x + b.y * n.y - level;
            if ((ha > 0.0) == (hb > 0.0)) continue;
            double k = ha / (ha - hb);
            tw_array_make_room(w->arena, &crossings, count, &room, sizeof *crossings);
            crossings[count++] = (a.x + k * (b.x - a.x)) * t.x + (a.y + k * (b.y - a.y)) * t.y;
        }
    if (count > 0) qsort(crossings, count, sizeof *crossings, by_size);
    tw_region *all = NULL;
    for (size_t i = 0; i + 1 < count; i += 2) {
        tw_point a = { n.x * level + t.x * crossings[i], n.y * level + t.y * crossings[i] };
        tw_point b = { n.x * level + t.x * crossings[i + 1], n.y * level + t.y * crossings[i + 1] };
        tw_point corners[4] = { on_plane(p, tw_prism_spot(prism, a, prism->before_mm)), on_plane(p, tw_prism_spot(prism, b, prism->before_mm)),
                                on_plane(p, tw_prism_spot(prism, b, prism->beyond_mm)), on_plane(p, tw_prism_spot(prism, a, prism->beyond_mm)) };
        tw_region *one = tw_region_of(w->regions, &(tw_chords){ corners, NULL, 4 }, 1);
        all = tw_region_union(w->regions, (tw_region *const[]){ all, one }, 2);
    }
    return all;
}

/* Keeps the part of the prism's outline where lo <= a r + b u <= hi, as corners of a region: a band of the plane. */
static tw_region *band(work *w, const plane *p, const tw_prism *prism, slice s)
{
    double reach = 0.0;
    for (int i = 0; i < prism->loop_count; i++)
        for (int j = 0; j < prism->loops[i].count; j++)
            reach = tw_max(reach, hypot(prism->loops[i].points[j].x, prism->loops[i].points[j].y));
    double size = hypot(s.across_r, s.across_u);
    tw_point n = { s.across_r / size, s.across_u / size }, t = { -n.y, n.x };
    double ends[2] = { (s.rest - s.deep * prism->before_mm) / size, (s.rest - s.deep * prism->beyond_mm) / size };
    tw_point corners[4];
    for (int i = 0; i < 4; i++) {
        double level = ends[i / 2], along = (i == 1 || i == 2 ? 1.0 : -1.0) * (2.0 * reach + 10.0);
        tw_point q = { n.x * level + t.x * along, n.y * level + t.y * along };
        corners[i] = on_plane(p, tw_prism_spot(prism, q, (s.rest - s.across_r * q.x - s.across_u * q.y) / s.deep));
    }
    return tw_region_of(w->regions, &(tw_chords){ corners, NULL, 4 }, 1);
}

/* The plane crosses the axis: the outline is thrown on it along the axis. */
static tw_region *across_axis(work *w, const plane *p, const tw_prism *prism, slice s)
{
    bool level = hypot(s.across_r, s.across_u) < FLAT;
    if (level && (s.rest / s.deep < prism->before_mm || s.rest / s.deep > prism->beyond_mm)) return NULL;
    tw_chords *thrown = TW_NEW_ARRAY(w->arena, tw_chords, (size_t)prism->loop_count);
    for (int i = 0; i < prism->loop_count; i++) {
        thrown[i] = (tw_chords){ TW_NEW_ARRAY(w->arena, tw_point, (size_t)prism->loops[i].count), NULL, prism->loops[i].count };
        for (int j = 0; j < thrown[i].count; j++) {
            tw_point q = prism->loops[i].points[j];
            thrown[i].points[j] = on_plane(p, tw_prism_spot(prism, q, (s.rest - s.across_r * q.x - s.across_u * q.y) / s.deep));
        }
    }
    tw_region *region = tw_region_of(w->regions, thrown, prism->loop_count);
    return level ? region : tw_region_common(w->regions, region, band(w, p, prism, s));
}

/* What all cuts take of the plane at off_mm. */
static tw_region *taken(work *w, const plane *p, double off_mm)
{
    tw_region *all = NULL;
    for (int i = 0; i < w->count; i++) {
        const tw_prism *prism = &w->prisms[i];
        if (tw_prism_is_empty(prism) || !tw_blocks_meet(prism->around, p->around, SIDE_MM * 2.0)) continue;
        slice s = slice_of(p, off_mm, prism);
        tw_region *one = fabs(s.deep) < FLAT ? along_axis(w, p, prism, s) : across_axis(w, p, prism, s);
        all = tw_region_union(w->regions, (tw_region *const[]){ all, one }, 2);
    }
    return all;
}

/* ---- faces ---- */

/* The blank in the plane: it is cut along the edges of the box in at most six corners. */
static tw_region *blank_in(work *w, const plane *p)
{
    double big = w->size.length_mm + w->size.width_mm + w->size.thickness_mm + 10.0;
    tw_point base[4] = { { -big, -big }, { big, -big }, { big, big }, { -big, big } };
    tw_region *region = tw_region_of(w->regions, &(tw_chords){ base, NULL, 4 }, 1);
    for (int axis = 0; axis < 3 && region; axis++) {
        double most = axis == 0 ? w->size.length_mm : axis == 1 ? w->size.width_mm : w->size.thickness_mm;
        tw_point n = { part(p->right, axis), part(p->up, axis) };
        double here = part(p->out, axis) * p->off_mm, size = hypot(n.x, n.y);
        if (size < FLAT) {
            if (here < -SIDE_MM || here > most + SIDE_MM) region = NULL;
            continue;
        }
        double lo = -here / size, hi = (most - here) / size;
        n = (tw_point){ n.x / size, n.y / size };
        tw_point t = { -n.y, n.x };
        tw_point strip[4] = { { n.x * lo - t.x * 2 * big, n.y * lo - t.y * 2 * big }, { n.x * lo + t.x * 2 * big, n.y * lo + t.y * 2 * big },
                              { n.x * hi + t.x * 2 * big, n.y * hi + t.y * 2 * big }, { n.x * hi - t.x * 2 * big, n.y * hi - t.y * 2 * big } };
        region = tw_region_common(w->regions, region, tw_region_of(w->regions, &(tw_chords){ strip, NULL, 4 }, 1));
    }
    return region;
}

static void put_faces(work *w, tw_faces *faces, const plane *p, tw_region *region, bool upward)
{
    tw_rings rings = tw_region_rings(w->regions, w->arena, region);
    for (int i = 0; i < rings.count;) {
        int wires = 1;
        while (i + wires < rings.count && rings.polygon_of[i + wires] == rings.polygon_of[i]) wires++;
        tw_array_make_room(w->arena, &faces->items, faces->count, &faces->room, sizeof *faces->items);
        faces->items[faces->count++] = (tw_face_made){ .out = upward ? p->out : tw_spot_times(p->out, -1.0), .off_mm = p->off_mm,
            .right = p->right, .up = p->up, .wires = &rings.wires[i], .wire_count = wires, .source = p->source, .bend_rad = p->bend_rad };
        i += wires;
    }
}

/* -1 the plane is the low side of the blank, 1 the high side, 0 it runs within. Planes of the blank come first and point on. */
static int side_of_blank(const work *w, const plane *p)
{
    for (int axis = 0; axis < 3; axis++) {
        if (part(p->out, axis) < 1.0 - FLAT) continue;
        double most = axis == 0 ? w->size.length_mm : axis == 1 ? w->size.width_mm : w->size.thickness_mm;
        if (fabs(p->off_mm) <= SIDE_MM) return -1;
        if (fabs(p->off_mm - most) <= SIDE_MM) return 1;
    }
    return 0;
}

static void faces_of_plane(work *w, tw_faces *faces, const plane *p)
{
    int side = side_of_blank(w, p);
    if (side != 0) {
        tw_region *rest = tw_region_less(w->regions, blank_in(w, p), taken(w, p, p->off_mm - side * SIDE_MM));
        put_faces(w, faces, p, rest, side > 0);
        return;
    }
    if (p->sides == 1 && p->within && p->prism >= 0 && tw_wall_make(w->arena, w->prisms, w->count, p->prism, p->loop, p->edge, faces)) return;
    tw_region *cover = p->within ? p->cover : tw_region_common(w->regions, p->cover, blank_in(w, p));
    if (!cover) return;
    tw_region *below = taken(w, p, p->off_mm - SIDE_MM), *above = taken(w, p, p->off_mm + SIDE_MM);
    put_faces(w, faces, p, tw_region_less(w->regions, tw_region_common(w->regions, cover, above), below), true);
    put_faces(w, faces, p, tw_region_less(w->regions, tw_region_common(w->regions, cover, below), above), false);
}

tw_faces tw_faces_make(tw_arena *arena, tw_regions *regions, tw_size size, const tw_prism *prisms, int count)
{
    work w = { .arena = arena, .regions = regions, .size = size, .prisms = prisms, .count = count };
    add_sides_of_blank(&w);
    for (int i = 0; i < count; i++) add_sides_of_prism(&w, &prisms[i]);
    tw_faces faces = {0};
    for (size_t i = 0; i < w.plane_count; i++) faces_of_plane(&w, &faces, &w.planes[i]);
    return faces;
}

tw_section tw_faces_section(tw_arena *arena, tw_regions *regions, tw_size size, const tw_prism *prisms, int count, tw_spot out,
    double off_mm)
{
    work w = { .arena = arena, .regions = regions, .size = size, .prisms = prisms, .count = count };
    plane p = { .out = out, .off_mm = off_mm, .around = { { 0.0, 0.0, 0.0 },
        { size.length_mm, size.width_mm, size.thickness_mm } } };
    give_axes(&p);
    tw_region *wood = tw_region_less(regions, blank_in(&w, &p), taken(&w, &p, off_mm));
    return (tw_section){ tw_region_rings(regions, arena, wood), p.right, p.up, out, off_mm };
}
