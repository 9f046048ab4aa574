// SPDX-License-Identifier: GPL-3.0-or-later
/* Faces joined to a closed skin.
 *
 * Each face was reckoned in its own plane, so that corners which are one point differ by rounding: points nearer than same_mm
 * become one. A point that lies on an edge of another face is put into that edge, so that every edge is met
 * along its whole length. A face is cut into triangles without such points first (its true corners give triangles that are
 * not flat); then each triangle is parted at the points on its sides. */
#include "solid/parts.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- points in common ---- */

/* Points in cells of a hash table; cells are as wide as the distance within which points are one. */
typedef struct cells { int *heads; int *nexts; size_t mask; } cells;

typedef struct joiner {
    tw_arena *arena;
    tw_solid *solid;
    size_t    room;
    cells     table;
    double    same_mm;   // points nearer than this are one
} joiner;

static size_t cell_of(const cells *table, long x, long y, long z)
{
    uint64_t h = (uint64_t)x * 0x9E3779B97F4A7C15u ^ (uint64_t)y * 0xC2B2AE3D27D4EB4Fu ^ (uint64_t)z * 0x165667B19E3779F9u;
    return (size_t)(h ^ h >> 29) & table->mask;
}

static long cell_at(const joiner *j, double value) { return lround(floor(value / j->same_mm)); }

static int point_near(const joiner *j, tw_spot spot)
{
    long cx = cell_at(j, spot.x), cy = cell_at(j, spot.y), cz = cell_at(j, spot.z);
    for (int i = 0; i < 27; i++) {
        size_t cell = cell_of(&j->table, cx + i % 3 - 1, cy + i / 3 % 3 - 1, cz + i / 9 - 1);
        for (int p = j->table.heads[cell]; p >= 0; p = j->table.nexts[p])
            if (tw_spot_size(tw_spot_less(j->solid->points[p], spot)) <= j->same_mm) return p;
    }
    return -1;
}

static int point_of(joiner *j, tw_spot spot)
{
    int found = point_near(j, spot);
    if (found >= 0) return found;
    int index = j->solid->point_count++;
    j->solid->points[index] = spot;
    size_t cell = cell_of(&j->table, cell_at(j, spot.x), cell_at(j, spot.y), cell_at(j, spot.z));
    j->table.nexts[index] = j->table.heads[cell];
    j->table.heads[cell] = index;
    return index;
}

static joiner joiner_begin(tw_arena *arena, tw_solid *solid, const tw_faces *faces, double same_mm)
{
    size_t most = 1, width = 64;
    for (size_t i = 0; i < faces->count; i++)
        for (int k = 0; k < faces->items[i].wire_count; k++) most += (size_t)faces->items[i].wires[k].count;
    while (width < 2 * most) width *= 2;
    joiner j = { .arena = arena, .solid = solid, .same_mm = same_mm, .table = { TW_NEW_ARRAY(arena, int, width), TW_NEW_ARRAY(arena, int, most), width - 1 } };
    for (size_t i = 0; i < width; i++) j.table.heads[i] = -1;
    solid->points = TW_NEW_ARRAY(arena, tw_spot, most);
    return j;
}

/* ---- wires ---- */

static tw_spot spot_of(const tw_face_made *face, bool upward, tw_point p)
{
    tw_spot out = upward ? face->out : tw_spot_times(face->out, -1.0);
    return tw_spot_plus(tw_spot_times(out, face->off_mm), tw_spot_plus(tw_spot_times(face->right, p.x), tw_spot_times(face->up, p.y)));
}

/* Twice the same point in a row, and spikes that go there and back, are left out. */
static void tidy_wire(tw_wire *wire)
{
    for (bool again = true; again && wire->count > 2;) {
        again = false;
        for (int i = 0; i < wire->count && wire->count > 2; i++) {
            int next = (i + 1) % wire->count, after = (i + 2) % wire->count;
            int drop = wire->points[i] == wire->points[next] || wire->points[i] == wire->points[after] ? next : -1;
            if (drop < 0) continue;
            memmove(&wire->points[drop], &wire->points[drop + 1], (size_t)(wire->count - 1 - drop) * sizeof *wire->points);
            wire->count--;
            again = true;
        }
    }
    if (wire->count < 3) wire->count = 0;
}

static tw_wire wire_of(joiner *j, const tw_face_made *face, bool upward, const tw_chords *flat)
{
    tw_wire wire = { TW_NEW_ARRAY(j->arena, int, (size_t)flat->count), flat->count };
    for (int i = 0; i < flat->count; i++)
        wire.points[upward ? i : flat->count - 1 - i] = point_of(j, spot_of(face, upward, flat->points[i]));
    tidy_wire(&wire);
    return wire;
}

/* The outer wire and the holes that are left of them; false when nothing is. */
static bool facet_of(joiner *j, const tw_face_made *face, tw_facet *facet)
{
    bool upward = tw_spot_product(tw_spot_cross(face->right, face->up), face->out) > 0.0;
    *facet = (tw_facet){ .out = face->out, .source = face->source, .bend_rad = face->bend_rad,
                         .wires = TW_NEW_ARRAY(j->arena, tw_wire, (size_t)face->wire_count) };
    for (int i = 0; i < face->wire_count; i++) {
        tw_wire wire = wire_of(j, face, upward, &face->wires[i]);
        if (wire.count == 0 && i == 0) return false;
        if (wire.count > 0) facet->wires[facet->wire_count++] = wire;
    }
    return true;
}

/* ---- points on edges ---- */

typedef struct by_x { double x; int point; } by_x;

static int compare_x(const void *left, const void *right)
{
    const by_x *a = left, *b = right;
    if (a->x != b->x) return a->x < b->x ? -1 : 1;
    return (a->point > b->point) - (a->point < b->point);
}

static by_x *sorted_points(tw_arena *arena, const tw_solid *solid)
{
    by_x *list = TW_NEW_ARRAY(arena, by_x, (size_t)solid->point_count + 1);
    for (int i = 0; i < solid->point_count; i++) list[i] = (by_x){ solid->points[i].x, i };
    qsort(list, (size_t)solid->point_count, sizeof *list, compare_x);
    return list;
}

static int first_from(const by_x *list, int count, double x)
{
    int lo = 0, hi = count;
    while (lo < hi) {
        int middle = (lo + hi) / 2;
        if (list[middle].x < x) lo = middle + 1;
        else hi = middle;
    }
    return lo;
}

typedef struct on_edge { double along; int point; } on_edge;

static int compare_along(const void *left, const void *right)
{
    const on_edge *a = left, *b = right;
    if (a->along != b->along) return a->along < b->along ? -1 : 1;
    return (a->point > b->point) - (a->point < b->point);
}

/* Points within the edge from a to b, neither end counted, in order. They are written to `found`; returns how many. */
static int points_on_edge(const joiner *j, const by_x *list, int a, int b, on_edge *found)
{
    const tw_solid *solid = j->solid;
    double same = j->same_mm;
    tw_spot p = solid->points[a], q = solid->points[b], way = tw_spot_less(q, p);
    double length = tw_spot_size(way);
    if (length <= same) return 0;
    way = tw_spot_times(way, 1.0 / length);
    double lo = tw_min(p.x, q.x) - same, hi = tw_max(p.x, q.x) + same;
    double y0 = tw_min(p.y, q.y) - same, y1 = tw_max(p.y, q.y) + same;
    int count = 0;
    for (int i = first_from(list, solid->point_count, lo); i < solid->point_count && list[i].x <= hi; i++) {
        int c = list[i].point;
        tw_spot s = solid->points[c];
        if (c == a || c == b || s.y < y0 || s.y > y1) continue;
        tw_spot from = tw_spot_less(s, p);
        double along = tw_spot_product(from, way);
        if (along <= 0.0 || along >= length) continue;
        if (tw_spot_size(tw_spot_less(from, tw_spot_times(way, along))) <= same) found[count++] = (on_edge){ along, c };
    }
    if (count > 1) qsort(found, (size_t)count, sizeof *found, compare_along);
    return count;
}

static tw_wire wire_with_points(const joiner *j, const by_x *list, tw_wire wire, on_edge *found)
{
    size_t count = 0, room = 0;
    int *points = NULL;
    for (int i = 0; i < wire.count; i++) {
        int within = points_on_edge(j, list, wire.points[i], wire.points[(i + 1) % wire.count], found);
        for (int k = -1; k < within; k++) {
            tw_array_make_room(j->arena, &points, count, &room, sizeof *points);
            points[count++] = k < 0 ? wire.points[i] : found[k].point;
        }
    }
    tw_wire full = { points, (int)count };
    tidy_wire(&full);
    return full;
}

/* ---- triangles ---- */

static bool straight_at(const joiner *j, int a, int b, int c)
{
    const tw_solid *solid = j->solid;
    tw_spot from = tw_spot_less(solid->points[b], solid->points[a]), whole = tw_spot_less(solid->points[c], solid->points[a]);
    double length = tw_spot_size(whole);
    if (length <= j->same_mm) return false;
    return tw_spot_product(from, whole) > 0.0 && tw_spot_size(tw_spot_cross(from, whole)) / length <= j->same_mm;
}

/* A true corner of a wire, and the points that follow on its straight side up to the next corner. */
typedef struct corner { int point; const int *side; int side_count; } corner;

/* How often a facet's wires come by a point: more than once where they touch each other. */
static int times_in(const tw_facet *facet, int point)
{
    int times = 0;
    for (int i = 0; i < facet->wire_count; i++)
        for (int j = 0; j < facet->wires[i].count; j++) times += facet->wires[i].points[j] == point;
    return times;
}

/* The true corners of a wire in the plane of its facet, and the points in which wires touch. */
static tw_chords corners_of(const joiner *j, const tw_facet *facet, tw_wire wire, tw_spot right, tw_spot up, corner *keep)
{
    tw_chords flat = { TW_NEW_ARRAY(j->arena, tw_point, (size_t)wire.count), NULL, 0 };
    int *twice = TW_NEW_ARRAY(j->arena, int, (size_t)wire.count * 2);   // so that the last side runs on over the start
    for (int i = 0; i < wire.count; i++) twice[i] = twice[i + wire.count] = wire.points[i];
    int *at = TW_NEW_ARRAY(j->arena, int, (size_t)wire.count);
    for (int i = 0; i < wire.count; i++) {
        int before = flat.count > 0 ? keep[flat.count - 1].point : wire.points[wire.count - 1];
        if (straight_at(j, before, wire.points[i], wire.points[(i + 1) % wire.count]) && times_in(facet, wire.points[i]) == 1) continue;
        at[flat.count] = i;
        keep[flat.count].point = wire.points[i];
        tw_spot s = j->solid->points[wire.points[i]];
        flat.points[flat.count++] = (tw_point){ tw_spot_product(right, s), tw_spot_product(up, s) };
    }
    for (int i = 0; i < flat.count; i++) {
        int end = i + 1 < flat.count ? at[i + 1] : at[0] + wire.count;
        keep[i].side = &twice[at[i] + 1];
        keep[i].side_count = end - at[i] - 1;
    }
    return flat;
}

typedef struct triangles { int (*items)[3]; size_t count, room; } triangles;

static void put_triangle(tw_arena *arena, triangles *list, int a, int b, int c)
{
    tw_array_make_room(arena, &list->items, list->count, &list->room, sizeof *list->items);
    int *into = list->items[list->count++];
    into[0] = a;
    into[1] = b;
    into[2] = c;
}

/* A triangle whose sides may carry points: parted at the first point of the first such side, the rest again. */
static void put_parted(tw_arena *arena, triangles *into, corner a, corner b, corner c)
{
    if (a.side_count == 0 && b.side_count == 0 && c.side_count == 0) { put_triangle(arena, into, a.point, b.point, c.point); return; }
    if (a.side_count == 0) { put_parted(arena, into, b, c, a); return; }
    corner p = { a.side[0], a.side + 1, a.side_count - 1 };
    put_parted(arena, into, (corner){ a.point, NULL, 0 }, (corner){ p.point, NULL, 0 }, c);
    put_parted(arena, into, p, b, (corner){ c.point, NULL, 0 });
}

/* The side from one corner of a triangle to another: with its points when it is a side of a wire. first, count: of the wires. */
static corner side_of(const corner *keep, const tw_chords *flat, int wires, int from, int to)
{
    for (int i = 0, first = 0; i < wires; first += flat[i++].count)
        if (from >= first && from < first + flat[i].count)
            return to == first + (from - first + 1) % flat[i].count ? keep[from] : (corner){ keep[from].point, NULL, 0 };
    assert(false);
    return (corner){ 0 };
}

/* A sliver of a facet, thinner than what is one point, or one that GEOS cannot part: a fan, flat as it may be. */
static void put_fan(joiner *j, const tw_facet *facet, triangles *into)
{
    if (facet->wire_count != 1) j->solid->closed = false;
    tw_wire wire = facet->wires[0];
    for (int i = 1; i + 1 < wire.count; i++) put_triangle(j->arena, into, wire.points[0], wire.points[i], wire.points[i + 1]);
}

static void triangles_of_facet(joiner *j, tw_regions *regions, const tw_facet *facet, triangles *into)
{
    tw_spot along = fabs(facet->out.x) < 0.5 ? (tw_spot){ 1, 0, 0 } : (tw_spot){ 0, 1, 0 };
    tw_spot right = tw_spot_less(along, tw_spot_times(facet->out, tw_spot_product(along, facet->out)));
    right = tw_spot_times(right, 1.0 / tw_spot_size(right));
    tw_spot up = tw_spot_cross(facet->out, right);
    int all = 0, wires = 0, kept = 0;
    for (int i = 0; i < facet->wire_count; i++) all += facet->wires[i].count;
    corner *keep = TW_NEW_ARRAY(j->arena, corner, (size_t)all + 1);
    tw_chords *flat = TW_NEW_ARRAY(j->arena, tw_chords, (size_t)facet->wire_count);
    for (int i = 0; i < facet->wire_count; i++) {
        flat[wires] = corners_of(j, facet, facet->wires[i], right, up, &keep[kept]);
        if (flat[wires].count < 3) continue;
        kept += flat[wires++].count;
    }
    int count = 0;
    int (*made)[3] = wires > 0 ? tw_region_triangles(regions, j->arena, flat, wires, &count) : NULL;
    if (!made) put_fan(j, facet, into);
    for (int i = 0; i < count; i++) {
        corner c[3];
        for (int k = 0; k < 3; k++) c[k] = side_of(keep, flat, wires, made[i][k], made[i][(k + 1) % 3]);
        put_parted(j->arena, into, c[0], c[1], c[2]);
    }
}

/* ---- edges ---- */

typedef struct half { int from, to, facet; } half;

/* By the edge, whatever its direction; of one edge first those that run up in index. */
static int compare_halves(const void *left, const void *right)
{
    const half *a = left, *b = right;
    int a0 = a->from < a->to ? a->from : a->to, b0 = b->from < b->to ? b->from : b->to;
    if (a0 != b0) return a0 < b0 ? -1 : 1;
    int a1 = a->from < a->to ? a->to : a->from, b1 = b->from < b->to ? b->to : b->from;
    if (a1 != b1) return a1 < b1 ? -1 : 1;
    if ((a->from < a->to) != (b->from < b->to)) return a->from < a->to ? -1 : 1;
    return (a->facet > b->facet) - (a->facet < b->facet);
}

static half *halves_of(tw_arena *arena, const tw_solid *solid, size_t *count)
{
    size_t all = 0;
    for (int i = 0; i < solid->facet_count; i++)
        for (int k = 0; k < solid->facets[i].wire_count; k++) all += (size_t)solid->facets[i].wires[k].count;
    half *halves = TW_NEW_ARRAY(arena, half, all);
    *count = 0;
    for (int i = 0; i < solid->facet_count; i++)
        for (int k = 0; k < solid->facets[i].wire_count; k++) {
            tw_wire wire = solid->facets[i].wires[k];
            for (int p = 0; p < wire.count; p++) halves[(*count)++] = (half){ wire.points[p], wire.points[(p + 1) % wire.count], i };
        }
    if (all > 0) qsort(halves, *count, sizeof *halves, compare_halves);
    return halves;
}

/* The end of the halves of the edge at `start`; up: how many of them run up in index. */
static size_t edge_end(const half *halves, size_t count, size_t start, size_t *up)
{
    int a = halves[start].from, b = halves[start].to;
    size_t end = start;
    for (*up = 0; end < count; end++) {
        bool same = (halves[end].from == a && halves[end].to == b) || (halves[end].from == b && halves[end].to == a);
        if (!same) break;
        *up += halves[end].from < halves[end].to;
    }
    return end;
}

/* Every edge of a triangle is met by one that runs back. */
static bool triangles_close(tw_arena *arena, const triangles *all)
{
    half *halves = TW_NEW_ARRAY(arena, half, all->count * 3 + 1);
    size_t count = 0, up = 0;
    for (size_t i = 0; i < all->count; i++)
        for (int k = 0; k < 3; k++) halves[count++] = (half){ all->items[i][k], all->items[i][(k + 1) % 3], (int)i };
    qsort(halves, count, sizeof *halves, compare_halves);
    for (size_t i = 0; i < count;) {
        size_t end = edge_end(halves, count, i, &up);
        if (2 * up != end - i) return false;
        i = end;
    }
    return true;
}

/* Two chords of one curved wall, or a flat wall that runs into a curved one without a corner: the angle between them is the
 * half of each chord's own. */
static bool is_smooth(const tw_facet *a, const tw_facet *b)
{
    if (a->bend_rad == 0.0 && b->bend_rad == 0.0) return false;
    double most = (a->bend_rad + b->bend_rad) / 2.0;
    double angle = 2.0 * asin(tw_min(1.0, tw_spot_size(tw_spot_less(a->out, b->out)) / 2.0));
    return angle <= 1.02 * most + 1e-6;
}

static void make_creases(joiner *j)
{
    size_t count = 0;
    half *halves = halves_of(j->arena, j->solid, &count);
    tw_solid *solid = j->solid;
    solid->creases = TW_NEW_ARRAY(j->arena, tw_crease, count);
    for (size_t i = 0; i < count;) {
        size_t up, end = edge_end(halves, count, i, &up);
        int lo = halves[i].from < halves[i].to ? halves[i].from : halves[i].to, hi = halves[i].from + halves[i].to - lo;
        if (2 * up != end - i) solid->closed = false;
        for (size_t k = 0; k < up && i + up + k < end; k++) {
            int left = halves[i + k].facet, right = halves[i + up + k].facet;
            bool smooth = end - i == 2 && is_smooth(&solid->facets[left], &solid->facets[right]);
            solid->creases[solid->crease_count++] = (tw_crease){ lo, hi, left, right, smooth };
        }
        i = end;
    }
}

/* ends[i]: how many triangles there are up to and with facet i. */
static int *facets_of_triangles(tw_arena *arena, const size_t *ends, int facet_count, size_t count)
{
    int *facet_of = TW_NEW_ARRAY(arena, int, count + 1);
    size_t t = 0;
    for (int i = 0; i < facet_count; i++)
        for (; t < ends[i]; t++) facet_of[t] = i;
    return facet_of;
}

void tw_faces_join(tw_arena *arena, tw_regions *regions, const tw_faces *faces, double same_mm, bool with_triangles, tw_solid *solid)
{
    *solid = (tw_solid){0};
    joiner j = joiner_begin(arena, solid, faces, same_mm);
    solid->closed = true;
    solid->facets = TW_NEW_ARRAY(arena, tw_facet, faces->count);
    for (size_t i = 0; i < faces->count; i++)
        if (facet_of(&j, &faces->items[i], &solid->facets[solid->facet_count])) solid->facet_count++;
    const by_x *list = sorted_points(arena, solid);
    on_edge *found = TW_NEW_ARRAY(arena, on_edge, (size_t)solid->point_count + 1);
    triangles all = {0};
    size_t *ends = TW_NEW_ARRAY(arena, size_t, (size_t)solid->facet_count + 1);
    for (int i = 0; i < solid->facet_count; i++) {
        tw_facet *facet = &solid->facets[i];
        for (int k = 0; k < facet->wire_count; k++) facet->wires[k] = wire_with_points(&j, list, facet->wires[k], found);
        if (with_triangles) triangles_of_facet(&j, regions, facet, &all);
        ends[i] = all.count;
    }
    solid->triangles = all.items;
    solid->triangle_count = (int)all.count;
    solid->facet_of = facets_of_triangles(arena, ends, solid->facet_count, all.count);
    make_creases(&j);
    solid->closed = solid->closed && triangles_close(arena, &all);
}
