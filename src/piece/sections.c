// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/sections.h"

#include <math.h>

#include "piece/marks.h"

#define JUST_BESIDE_MM 1e-5  // a section at a mark is taken this far beside it
#define LEAST_BY 1e-6        // one section is weaker than another by more than this part
#define AREA_NONE_MM2 1e-6

/* Sums of 1, y, z, y y, z z and y z over an area; over a volume the same times dx, and x. */
typedef struct sums { double one, y, z, yy, zz, yz; } sums;

/* Gauss's rule over 0 to 1: Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4. */
#define POINTS_MOST 5
typedef struct rule { int count; double at[POINTS_MOST], weight[POINTS_MOST]; } rule;
static const rule few = { 3, { 0.112701665379258, 0.5, 0.887298334620742 }, { 0.277777777777778, 0.444444444444444, 0.277777777777778 } };
static const rule many = { 5, { 0.046910077030668, 0.230765344947158, 0.5, 0.769234655052842, 0.953089922969332 },
                           { 0.118463442528095, 0.239314335249683, 0.284444444444444, 0.239314335249683, 0.118463442528095 } };

/* ---- one section ---- */

static void add_line(tw_wood *wood, double x, double z, double weight, sums *s)
{
    int count;
    const tw_fibre_run *runs = tw_wood_runs(wood, TW_AXIS_Y, (tw_spot){ x, 0.0, z }, &count);
    for (int i = 0; i < count; i++) {
        double a = runs[i].from_mm, b = runs[i].to_mm, long_by = weight * (b - a), y = weight * (b * b - a * a) / 2.0;
        s->one += long_by;
        s->y += y;
        s->z += z * long_by;
        s->yy += weight * (b * b * b - a * a * a) / 3.0;
        s->zz += z * z * long_by;
        s->yz += z * y;
    }
}

/* Where a sum over a to b is taken: place i of part k of n, and its weight; `bent` goes denser towards the ends. */
static double place_in(double a, double b, int k, int n, const rule *r, int i, bool bent, double *weight)
{
    double s = (k + r->at[i]) / n, w = r->weight[i] / n;
    *weight = (b - a) * (bent ? 6.0 * s * (1.0 - s) * w : w);
    return a + (b - a) * (bent ? s * s * (3.0 - 2.0 * s) : s);
}

static int parts_for(double length, double each) { return (int)tw_max(2.0, tw_min(32.0, ceil(length / each))); }

static bool is_at(const tw_wood *wood, int cut, double x) { return wood->blocks[cut].least.x < x && wood->blocks[cut].most.x > x; }

/* Marks along z of the section at x. A cut in an edge has its corners there where its outline is as wide as x says. */
static tw_marks marks_at(tw_wood *wood, double x)
{
    tw_marks marks = { 0 };
    for (int i = 0; i < wood->cut_count; i++) {
        if (!is_at(wood, i, x)) continue;
        const tw_cut *cut = &wood->cuts[i];
        tw_marks_of_cut(wood->arena, &marks, wood->size, cut, TW_AXIS_Z);
        tw_marks_where_pierced(wood->arena, &marks, wood->size, cut, x, TW_AXIS_Z);
        if (cut->face != TW_SIDE_FACE_EDGE && cut->face != TW_SIDE_BACK_EDGE) continue;
        const double y[2] = { wood->blocks[i].least.y + JUST_BESIDE_MM, wood->blocks[i].most.y - JUST_BESIDE_MM };
        for (int k = 0; k < 2; k++) {
            int count;
            const tw_gap *gaps = tw_wood_gaps(wood, i, TW_AXIS_Z, (tw_spot){ x, y[k], 0.0 }, &count);
            for (int g = 0; g < count; g++) {
                tw_marks_add(wood->arena, &marks, gaps[g].from_mm);
                tw_marks_add(wood->arena, &marks, gaps[g].to_mm);
            }
        }
    }
    tw_marks_order(wood->arena, &marks, wood->size.thickness_mm);
    return marks;
}

/* A cut in an edge has its outline across the grain's side: its walls as seen here are straight. */
static bool bends_at(const tw_wood *wood, double x, double from, double to)
{
    for (int i = 0; i < wood->cut_count; i++) {
        const tw_cut *cut = &wood->cuts[i];
        bool leans = cut->lean_right != 0.0 || cut->lean_up != 0.0, in_end = cut->face >= TW_SIDE_LEFT_END;
        if ((leans || in_end) && is_at(wood, i, x) && tw_cut_bends(wood, i, TW_AXIS_Z, from, to)) return true;
    }
    return false;
}

static sums sums_at(tw_wood *wood, double x)
{
    sums s = { 0 };
    tw_marks marks = marks_at(wood, x);
    for (size_t m = 0; m + 1 < marks.count; m++) {
        double a = marks.at[m], b = marks.at[m + 1], weight;
        bool bent = bends_at(wood, x, a, b);
        const rule *r = bent ? &many : &few;
        int parts = bent ? parts_for(b - a, 1.0) : 1;
        for (int k = 0; k < parts; k++)
            for (int i = 0; i < r->count; i++) {
                double z = place_in(a, b, k, parts, r, i, bent, &weight);
                add_line(wood, x, z, weight, &s);
            }
    }
    return s;
}

static tw_slice section_of(double x, sums s)
{
    tw_slice out = { .x_mm = x };
    if (s.one < AREA_NONE_MM2) return out;
    out.area_mm2 = s.one;
    out.y_mm = s.y / s.one;
    out.z_mm = s.z / s.one;
    out.about_y_mm4 = s.zz - s.z * out.z_mm;
    out.about_z_mm4 = s.yy - s.y * out.y_mm;
    double both = s.yz - s.y * out.z_mm, middle = (out.about_y_mm4 + out.about_z_mm4) / 2.0, away = hypot((out.about_y_mm4 - out.about_z_mm4) / 2.0, both);
    out.strong_mm4 = middle + away;
    out.weak_mm4 = middle - away;
    return out;
}

/* Marks and lines of one section are scratch: they go when it is done. */
static sums sums_beside(const tw_wood *wood, double x)
{
    tw_arena arena = { .out_of_memory = wood->arena->out_of_memory };
    tw_wood own = { .arena = &arena, .size = wood->size, .cuts = wood->cuts, .cut_count = wood->cut_count, .blocks = wood->blocks };
    sums s = sums_at(&own, x);
    tw_arena_finish(&arena);
    return s;
}

tw_slice tw_slice_at(tw_wood *wood, double x_mm) { return section_of(x_mm, sums_beside(wood, x_mm)); }

/* ---- along the length ---- */

typedef struct walk {
    tw_wood *wood;
    tw_bulk  bulk;
    double   sx, sy, sz;
    bool     some;     // a weakest section stands already
} walk;

static void weigh(walk *w, double x, double weight, sums s)
{
    w->bulk.volume_mm3 += weight * s.one;
    w->sx += weight * x * s.one;
    w->sy += weight * s.y;
    w->sz += weight * s.z;
}

static void take_weaker(walk *w, tw_slice s)
{
    if (!w->some || s.area_mm2 < w->bulk.least_area.area_mm2 * (1.0 - LEAST_BY)) w->bulk.least_area = s;
    if (!w->some || s.about_y_mm4 < w->bulk.least_about_y.about_y_mm4 * (1.0 - LEAST_BY)) w->bulk.least_about_y = s;
    if (!w->some || s.about_z_mm4 < w->bulk.least_about_z.about_z_mm4 * (1.0 - LEAST_BY)) w->bulk.least_about_z = s;
    if (s.area_mm2 == 0.0 && !w->bulk.severed) { w->bulk.severed = true; w->bulk.severed_at_mm = s.x_mm; }
    w->some = true;
}

static void walk_even(walk *w, double a, double b, bool counts)
{
    double x = (a + b) / 2.0;
    sums s = sums_beside(w->wood, x);
    weigh(w, x, b - a, s);
    if (counts) take_weaker(w, section_of(x, s));
}

static void walk_bent(walk *w, double a, double b, bool counts)
{
    int parts = parts_for(b - a, 4.0);
    double weight, beside = tw_min(JUST_BESIDE_MM, (b - a) / 4.0);
    if (counts) take_weaker(w, tw_slice_at(w->wood, a + beside));
    for (int k = 0; k < parts; k++)
        for (int i = 0; i < many.count; i++) {
            double x = place_in(a, b, k, parts, &many, i, true, &weight);
            sums s = sums_beside(w->wood, x);
            weigh(w, x, weight, s);
            if (counts) take_weaker(w, section_of(x, s));
        }
    if (counts) take_weaker(w, tw_slice_at(w->wood, b - beside));
}

static bool bends_along(const tw_wood *wood, double from, double to)
{
    for (int i = 0; i < wood->cut_count; i++)
        if (tw_cut_bends(wood, i, TW_AXIS_X, from, to)) return true;
    return false;
}

/* Does an end stretch count? Not what is cut off, nor an end that slopes or is rounded away to less than half: nothing loads it. */
static bool counts_at_end(tw_wood *wood, double outer, double inner, bool bent)
{
    double beside = JUST_BESIDE_MM * (inner > outer ? 1.0 : -1.0), out = tw_slice_at(wood, outer + beside).area_mm2;
    return bent ? out >= 0.5 * tw_slice_at(wood, inner - beside).area_mm2 && out > 0.0 : out > 0.0;
}

static void stretch_that_counts(tw_wood *wood, const tw_marks *marks, const bool *bent, size_t *first, size_t *last)
{
    *first = 0;
    *last = marks->count - 2;
    while (*first < *last && !counts_at_end(wood, marks->at[*first], marks->at[*first + 1], bent[*first])) ++*first;
    while (*last > *first && !counts_at_end(wood, marks->at[*last + 1], marks->at[*last], bent[*last])) --*last;
}

tw_bulk tw_bulk_make(tw_wood *wood)
{
    walk w = { .wood = wood };
    tw_marks marks = tw_marks_of_wood(wood, TW_AXIS_X);
    size_t stretches = marks.count - 1, first, last;
    bool *bent = TW_NEW_ARRAY(wood->arena, bool, stretches);
    for (size_t i = 0; i < stretches; i++) bent[i] = bends_along(wood, marks.at[i], marks.at[i + 1]);
    stretch_that_counts(wood, &marks, bent, &first, &last);
    for (size_t i = 0; i < stretches; i++)  // even ones first: where a bend runs out into one, that one is named
        if (!bent[i]) walk_even(&w, marks.at[i], marks.at[i + 1], i >= first && i <= last);
    for (size_t i = 0; i < stretches; i++)
        if (bent[i]) walk_bent(&w, marks.at[i], marks.at[i + 1], i >= first && i <= last);
    if (w.bulk.volume_mm3 > 0.0) w.bulk.centre = (tw_spot){ w.sx / w.bulk.volume_mm3, w.sy / w.bulk.volume_mm3, w.sz / w.bulk.volume_mm3 };
    return w.bulk;
}
