// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/alike.h"

#include <math.h>

#include "piece/marks.h"

#define PARTS_BENT 4   // lines in a stretch in which walls slope or bend

/* ---- the same list of cuts ---- */

static bool near(double a, double b) { return fabs(a - b) < TW_ALIKE_MM; }

static bool same_loop(tw_loop a, tw_loop b)
{
    if (a.count != b.count) return false;
    for (int i = 0; i < a.count; i++)
        if (!near(a.vertices[i].x, b.vertices[i].x) || !near(a.vertices[i].y, b.vertices[i].y) || fabs(a.vertices[i].bulge - b.vertices[i].bulge) > 1e-4) return false;
    return true;
}

static bool same_cut(const tw_cut *a, const tw_cut *b)
{
    if (a->face != b->face || a->through != b->through || !near(a->depth_mm, b->depth_mm) || !near(a->start_mm, b->start_mm) || a->outline.count != b->outline.count) return false;
    if (fabs(a->lean_right - b->lean_right) > 1e-6 || fabs(a->lean_up - b->lean_up) > 1e-6) return false;
    for (int i = 0; i < a->outline.count; i++)
        if (!same_loop(a->outline.loops[i], b->outline.loops[i])) return false;
    return true;
}

static bool same_list(tw_cut_list one, tw_cut_list other)
{
    if (one.count != other.count) return false;
    for (int i = 0; i < one.count; i++)
        if (!same_cut(&one.cuts[i], &other.cuts[i])) return false;
    return true;
}

/* ---- the same wood ---- */

static bool fits(tw_size a, tw_size b, bool swap)
{
    return near(a.length_mm, b.length_mm) && near(a.width_mm, swap ? b.thickness_mm : b.width_mm) && near(a.thickness_mm, swap ? b.width_mm : b.thickness_mm);
}

/* Where a fibre of the one lies in the other. */
static tw_spot laid(tw_symmetry s, tw_size other, double y, double z)
{
    double over_y = s.swap ? z : y, over_z = s.swap ? y : z;
    return (tw_spot){ 0.0, s.edges ? other.width_mm - over_y : over_y, s.faces ? other.thickness_mm - over_z : over_z };
}

static bool is_crumb(const tw_fibre_run *run) { return run->to_mm - run->from_mm < TW_ALIKE_MM; }

static bool same_runs(tw_wood *one, tw_wood *other, tw_symmetry s, double y, double z)
{
    int count_a, count_b, i = 0;
    const tw_fibre_run *a = tw_wood_runs(one, TW_AXIS_X, (tw_spot){ 0.0, y, z }, &count_a);
    const tw_fibre_run *b = tw_wood_runs(other, TW_AXIS_X, laid(s, other->size, y, z), &count_b);
    for (int k = 0;; i++, k++) {
        while (i < count_a && is_crumb(&a[i])) i++;
        while (k < count_b && is_crumb(&b[s.ends ? count_b - 1 - k : k])) k++;
        if (i >= count_a || k >= count_b) return i >= count_a && k >= count_b;
        tw_fibre_run want = b[s.ends ? count_b - 1 - k : k];
        double length = other->size.length_mm, from = s.ends ? length - want.to_mm : want.from_mm, to = s.ends ? length - want.from_mm : want.to_mm;
        if (!near(a[i].from_mm, from) || !near(a[i].to_mm, to)) return false;
    }
}

typedef struct places { double *at; size_t count; } places;

static bool bends(const tw_wood *wood, tw_axis axis, double from, double to)
{
    for (int i = 0; i < wood->cut_count; i++)
        if (tw_cut_bends(wood, i, axis, from, to)) return true;
    return false;
}

/* The marks of the other piece as they come to lie in the one. */
static void add_laid_marks(tw_marks *marks, const tw_wood *one, const tw_wood *other, tw_symmetry s, tw_axis axis)
{
    tw_axis from = !s.swap ? axis : axis == TW_AXIS_Y ? TW_AXIS_Z : TW_AXIS_Y;
    tw_marks theirs = tw_marks_of_wood(other, from);
    bool changed = from == TW_AXIS_Y ? s.edges : s.faces;
    for (size_t i = 0; i < theirs.count; i++) tw_marks_add(one->arena, marks, changed ? tw_extent_along(other->size, from) - theirs.at[i] : theirs.at[i]);
}

static places places_along(const tw_wood *one, const tw_wood *other, tw_symmetry s, tw_axis axis)
{
    tw_marks marks = tw_marks_of_wood(one, axis);
    add_laid_marks(&marks, one, other, s, axis);
    tw_marks_order(one->arena, &marks, tw_extent_along(one->size, axis));
    places p = { TW_NEW_ARRAY(one->arena, double, marks.count * PARTS_BENT), 0 };
    for (size_t i = 0; i + 1 < marks.count; i++) {
        double a = marks.at[i], b = marks.at[i + 1];
        if (b - a < 2.0 * TW_ALIKE_MM) continue;
        int parts = bends(one, axis, a, b) ? PARTS_BENT : 1;  // what bends in the other alone has an end that is a mark
        for (int k = 0; k < parts; k++) p.at[p.count++] = a + (b - a) * (k + 0.5) / parts;
    }
    return p;
}

static bool same_wood(tw_wood *one, tw_wood *other, tw_symmetry s)
{
    places y = places_along(one, other, s, TW_AXIS_Y), z = places_along(one, other, s, TW_AXIS_Z);
    for (size_t i = 0; i < y.count; i++)
        for (size_t k = 0; k < z.count; k++)
            if (!same_runs(one, other, s, y.at[i], z.at[k])) return false;
    return true;
}

static bool is_mirror(tw_symmetry s) { return (s.swap + s.ends + s.edges + s.faces) % 2 == 1; }

tw_likeness tw_pieces_alike(tw_arena *scratch, tw_cut_list one, tw_cut_list other, tw_symmetry *how)
{
    *how = (tw_symmetry){ 0 };
    if (fits(one.size, other.size, false) && same_list(one, other)) return TW_ALIKE;
    if (!fits(one.size, other.size, false) && !fits(one.size, other.size, true)) return TW_UNLIKE;
    tw_wood a = tw_wood_make(scratch, one.size, one.cuts, one.count), b = tw_wood_make(scratch, other.size, other.cuts, other.count);
    for (int mirror = 0; mirror < 2; mirror++)
        for (int i = 0; i < 16; i++) {
            tw_symmetry s = { i & 8, i & 1, i & 2, i & 4 };
            if (is_mirror(s) != (mirror == 1) || !fits(one.size, other.size, s.swap)) continue;
            if (!same_wood(&a, &b, s)) continue;
            *how = s;
            return mirror ? TW_MIRRORED : TW_ALIKE;
        }
    return TW_UNLIKE;
}

const char *tw_symmetry_words(tw_symmetry s)
{
    if (s.swap) return "turned by a quarter about its length";
    if (s.ends && s.edges) return "turned end for end";
    if (s.ends && s.faces) return "turned end for end, face down";
    return s.edges && s.faces ? "rolled over, face down" : "";
}
