// SPDX-License-Identifier: GPL-3.0-or-later
/* Law: a template followed cuts what was wanted. GEOS plays the shop, an independent route: it shrinks and grows the
 * template as polygons, divides by the ratio and sweeps the cutter; nothing of src/outline but the vertices goes in. */
#include "check.h"
#include "fewer.h"

#include <geos_c.h>

#include "template/copy.h"

#define ARC_ERROR_MM 5e-4   // between an arc and the chords that stand for it
#define QUADRANT_SEGMENTS 64
#define CASES 48

static GEOSContextHandle_t geos;
static tw_arena arena;

static int arc_steps(tw_vertex a, tw_vertex b)
{
    double chord = hypot(b.x - a.x, b.y - a.y), bulge = fabs(a.bulge);
    if (bulge < 1e-12 || chord < 1e-12) return 1;
    double radius = chord * (1.0 + bulge * bulge) / (4.0 * bulge), turn = 4.0 * atan(bulge);
    double step = 2.0 * acos(fmax(0.0, 1.0 - ARC_ERROR_MM / fmax(radius, 2.0 * ARC_ERROR_MM)));
    return (int)fmin(4000.0, ceil(turn / step) + 1.0);
}

static GEOSGeometry *ring_of(tw_loop loop)
{
    unsigned count = 1;
    for (int i = 0; i < loop.count; i++) count += (unsigned)arc_steps(loop.vertices[i], loop.vertices[(i + 1) % loop.count]);
    GEOSCoordSequence *points = GEOSCoordSeq_create_r(geos, count, 2);
    unsigned at = 0;
    for (int i = 0; i < loop.count; i++) {
        tw_vertex a = loop.vertices[i], b = loop.vertices[(i + 1) % loop.count];
        int steps = arc_steps(a, b);
        double turn = 4.0 * atan(a.bulge), chord = hypot(b.x - a.x, b.y - a.y);
        for (int j = 0; j < steps; j++) {
            double x = a.x, y = a.y;
            if (steps > 1) {  // the chord seen from a: distance and direction of the point at this part of the turn
                double part = turn * j / steps, reach = chord * sin(part / 2.0) / sin(turn / 2.0), off = (part - turn) / 2.0;
                double dx = (b.x - a.x) / chord, dy = (b.y - a.y) / chord;
                x += reach * (dx * cos(off) - dy * sin(off));
                y += reach * (dy * cos(off) + dx * sin(off));
            }
            GEOSCoordSeq_setXY_r(geos, points, at++, x, y);
        }
    }
    GEOSCoordSeq_setXY_r(geos, points, at, loop.vertices[0].x, loop.vertices[0].y);
    return GEOSGeom_createLinearRing_r(geos, points);
}

/* All loops by even and odd: the symmetric difference of their polygons. */
static GEOSGeometry *geos_of(tw_outline outline)
{
    GEOSGeometry *all = GEOSGeom_createEmptyPolygon_r(geos);
    for (int i = 0; i < outline.count; i++) {
        if (outline.loops[i].count < 2 || fabs(tw_loop_area_mm2(outline.loops[i])) < 1e-12) continue;
        GEOSGeometry *one = GEOSGeom_createPolygon_r(geos, ring_of(outline.loops[i]), NULL, 0);
        GEOSGeometry *both = GEOSSymDifference_r(geos, all, one);
        GEOSGeom_destroy_r(geos, all);
        GEOSGeom_destroy_r(geos, one);
        all = both;
    }
    return all;
}

/* All that lies within the distance of the border: one capsule for each of its segments. A buffer of the whole shape
 * would not do: GEOS first straightens hollows of up to a hundredth of the distance, which no call of its C side turns off. */
static GEOSGeometry *along_border(const GEOSGeometry *shape, double distance)
{
    GEOSGeometry *border = GEOSBoundary_r(geos, shape);
    GEOSGeometry **capsules = NULL;
    unsigned count = 0, room = 0;
    for (int i = 0; i < GEOSGetNumGeometries_r(geos, border); i++) {
        const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r(geos, GEOSGetGeometryN_r(geos, border, i));
        unsigned size = 0;
        GEOSCoordSeq_getSize_r(geos, points, &size);
        for (unsigned j = 0; j + 1 < size; j++) {
            GEOSCoordSequence *two = GEOSCoordSeq_create_r(geos, 2, 2);
            for (unsigned k = 0; k < 2; k++) {
                double x, y;
                GEOSCoordSeq_getXY_r(geos, points, j + k, &x, &y);
                GEOSCoordSeq_setXY_r(geos, two, k, x, y);
            }
            GEOSGeometry *segment = GEOSGeom_createLineString_r(geos, two);
            if (count == room) capsules = realloc(capsules, (room = room ? 2 * room : 64) * sizeof *capsules);
            capsules[count++] = GEOSBuffer_r(geos, segment, distance, QUADRANT_SEGMENTS);
            GEOSGeom_destroy_r(geos, segment);
        }
    }
    GEOSGeometry *all = GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, capsules, count);
    GEOSGeometry *one = GEOSUnaryUnion_r(geos, all);
    GEOSGeom_destroy_r(geos, all);
    GEOSGeom_destroy_r(geos, border);
    free(capsules);
    return one;
}

static GEOSGeometry *grown(GEOSGeometry *shape, double distance)
{
    GEOSGeometry *belt = along_border(shape, fabs(distance));
    GEOSGeometry *result = distance > 0.0 ? GEOSUnion_r(geos, shape, belt) : GEOSDifference_r(geos, shape, belt);
    GEOSGeom_destroy_r(geos, belt);
    GEOSGeom_destroy_r(geos, shape);
    return result;
}

static int scale(double *x, double *y, void *factor) { *x *= *(double *)factor; *y *= *(double *)factor; return 1; }

static double area_between(const GEOSGeometry *a, const GEOSGeometry *b)
{
    double area = -1.0;
    GEOSGeometry *difference = GEOSSymDifference_r(geos, a, b);
    if (difference) GEOSArea_r(geos, difference, &area);
    GEOSGeom_destroy_r(geos, difference);
    return area;
}

static double area_beyond(const GEOSGeometry *a, const GEOSGeometry *b)
{
    double area = -1.0;
    GEOSGeometry *difference = GEOSDifference_r(geos, a, b);
    if (difference) GEOSArea_r(geos, difference, &area);
    GEOSGeom_destroy_r(geos, difference);
    return area;
}

/* A star with 5 to 14 corners, some of its edges arcs. */
static tw_outline random_cut(check_seed *seed)
{
    for (;;) {
        int count = 5 + (int)(check_random(seed) % 10);
        double size = check_between(seed, 10.0, 60.0);
        tw_vertex *vertices = TW_NEW_ARRAY(&arena, tw_vertex, (size_t)count);
        for (int i = 0; i < count; i++) {
            double angle = 2.0 * TW_PI * (i + check_between(seed, 0.1, 0.9)) / count, reach = size * check_between(seed, 0.35, 1.0);
            double bulge = check_random(seed) % 3 == 0 ? check_between(seed, -0.4, 0.4) : 0.0;
            vertices[i] = (tw_vertex){ reach * cos(angle), reach * sin(angle), bulge };
        }
        tw_outline tidy;
        tw_point where;
        if (tw_outline_tidy(&arena, tw_outline_of_loop(&arena, vertices, count), &tidy, &where) == TW_OUTLINE_GOOD) return tidy;
    }
}

/* What GEOS makes of the template: the pocket, or what stays. */
static GEOSGeometry *followed(const tw_copy_ask *ask, const tw_copy *copy)
{
    double side = ask->inside ? 1.0 : -1.0, small = 1.0 / ask->ratio;
    GEOSGeometry *path = grown(geos_of(copy->template_), -side * (ask->follower_mm + copy->play_mm) / 2.0);
    GEOSGeometry *scaled = GEOSGeom_transformXY_r(geos, path, scale, &small);
    GEOSGeom_destroy_r(geos, path);
    return grown(scaled, side * ask->cutter_mm / 2.0);
}

static void check_case(const tw_copy_ask *ask, const tw_copy *copy, int number)
{
    double allowed = 2e-3 * tw_outline_length_mm(ask->cut) + 1e-3;  // two thousandths all along the border: both routes' chords
    GEOSGeometry *shop = followed(ask, copy), *ours = geos_of(copy->achieved), *wanted = geos_of(ask->cut);
    double apart = area_between(shop, ours);
    if (!(apart >= 0.0 && apart <= allowed)) fail_msg("case %d: the followed template cuts otherwise by %g mm2", number, apart);
    double left = ask->inside ? area_beyond(wanted, shop) : area_beyond(shop, wanted);
    double lost = ask->inside ? area_beyond(shop, wanted) : area_beyond(wanted, shop);
    if (fabs(left - copy->left_area_mm2) > allowed) fail_msg("case %d: left %g, GEOS %g", number, copy->left_area_mm2, left);
    if (fabs(lost - copy->lost_area_mm2) > allowed) fail_msg("case %d: lost %g, GEOS %g", number, copy->lost_area_mm2, lost);
    if (ask->follower_mm <= ask->ratio * ask->cutter_mm) {  // then nothing but the cutter's own roundness may differ
        double side = ask->inside ? 1.0 : -1.0;
        GEOSGeometry *best = grown(grown(geos_of(ask->cut), -side * ask->cutter_mm / 2.0), side * ask->cutter_mm / 2.0);
        double short_of_best = area_between(best, shop);
        if (short_of_best > allowed) fail_msg("case %d: the cut differs from what the cutter could do by %g mm2", number, short_of_best);
        GEOSGeom_destroy_r(geos, best);
    }
    GEOSGeom_destroy_r(geos, shop);
    GEOSGeom_destroy_r(geos, ours);
    GEOSGeom_destroy_r(geos, wanted);
}

static void template_followed_cuts_what_was_wanted(void **state)
{
    (void)state;
    check_seed seed = { 4711 };
    int made = 0, refused = 0;
    for (int i = 0; made < cases_of(CASES); i++) {
        tw_copy_ask ask = { .cut = random_cut(&seed), .inside = check_random(&seed) % 2 == 0, .cutter_mm = check_between(&seed, 3.0, 20.0),
                            .follower_mm = check_between(&seed, 4.0, 50.0), .ratio = check_random(&seed) % 3 == 0 ? 1.0 : 2.0 };
        tw_copy copy = tw_copy_reckon(&arena, ask);
        if (copy.ok) {
            made++;
            if (copy.error_mm > TW_COPY_TRUE_MM) fail_msg("case %d: the proof is off by %g mm", i, copy.error_mm);
            check_case(&ask, &copy, i);
        } else {
            refused++;
            assert_true(copy.why[0] != '\0' && copy.remedy[0] != '\0');
        }
        tw_arena_finish(&arena);
    }
    print_message("# %d templates followed, %d refused\n", made, refused);
    assert_true(refused < made && (refused > 0 || cases_of(CASES) < CASES));
}

/* What is named as the largest that would do does, and a little more does not. */
static void largest_cutter_and_follower_that_are_named_do(void **state)
{
    (void)state;
    check_seed seed = { 99 };
    int tried = 0;
    for (int i = 0; i < cases_of(400); i++) {
        tw_copy_ask ask = { .cut = random_cut(&seed), .inside = i % 2 == 0, .cutter_mm = check_between(&seed, 5.0, 40.0),
                            .follower_mm = check_between(&seed, 30.0, 120.0), .ratio = 2.0 };
        tw_copy copy = tw_copy_reckon(&arena, ask);
        if (!copy.ok && copy.cutter_most_mm > 1.0) {
            tried++;
            tw_copy_ask less = ask, more = ask;
            less.cutter_mm = copy.cutter_most_mm - 1e-4;
            more.cutter_mm = copy.cutter_most_mm + 1e-4;
            less.follower_mm = more.follower_mm = 1.0;
            assert_true(tw_copy_reckon(&arena, less).cutter_path.count > 0);
            assert_true(tw_copy_reckon(&arena, more).cutter_path.count == 0);
        } else if (!copy.ok && copy.follower_most_mm > 1.0) {
            tried++;
            tw_copy_ask less = ask;
            less.follower_mm = copy.follower_most_mm - 1e-5;
            assert_true(tw_copy_reckon(&arena, less).ok);
        }
        tw_arena_finish(&arena);
    }
    assert_true(tried > cases_of(40));
}

static void quiet(const char *text, void *context) { (void)text; (void)context; }

int main(void)
{
    geos = GEOS_init_r();
    GEOSContext_setNoticeMessageHandler_r(geos, quiet, NULL);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(template_followed_cuts_what_was_wanted),
        cmocka_unit_test(largest_cutter_and_follower_that_are_named_do),
    };
    int failed = cmocka_run_group_tests_name("copying", tests, NULL, NULL);
    GEOS_finish_r(geos);
    return failed;
}
