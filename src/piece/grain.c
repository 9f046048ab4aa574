// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/grain.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define SLIVER_MM 0.01     // runs and cells below this are what rounding leaves between two cuts
#define SLIVER_MM2 0.05
#define COARSE 6.0          // steps of the first look, and how much better held than short grain a region may seem in it
#define NEARLY 1.3

/* ---- where to look ---- */

/* Windows of (y, z) in which short runs can be; all: the whole piece. */
typedef struct window { double y0, y1, z0, z1; } window;
typedef struct windows { window *items; size_t count, room; bool all; } windows;

/* gap: the shortest way along the grain between the two. Wood that hangs by one whole side of (y, z) or more, and is at least
 * as long as that window is wide and deep, has hold 1 or more: there is no need to look. */
static void add_window(tw_arena *arena, windows *w, tw_block a, tw_block b, double gap)
{
    window common = { tw_max(a.least.y, b.least.y), tw_min(a.most.y, b.most.y), tw_max(a.least.z, b.least.z), tw_min(a.most.z, b.most.z) };
    double wide = common.y1 - common.y0, deep = common.z1 - common.z0;
    if (wide < SLIVER_MM || deep < SLIVER_MM || gap >= tw_max(wide, deep)) return;
    tw_array_make_room(arena, &w->items, w->count, &w->room, sizeof *w->items);
    w->items[w->count++] = common;
}

static bool turns_in(tw_loop loop)
{
    double area = tw_loop_area_mm2(loop);
    for (int i = 0; i < loop.count; i++) {
        tw_vertex a = loop.vertices[i], b = loop.vertices[(i + 1) % loop.count], c = loop.vertices[(i + 2) % loop.count];
        if (a.bulge * area < 0.0 || ((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x)) * area < -SLIVER_MM * fabs(area)) return true;
    }
    return false;
}

/* A cut by itself leaves runs between its own walls when its outline has a hollow or a hole, or at an end when it slopes. The
 * walls of one in an end run along the grain. */
static void add_own_windows(tw_arena *arena, windows *w, const tw_wood *wood, int cut)
{
    const tw_outline *outline = &wood->cuts[cut].outline;
    bool leans = wood->cuts[cut].lean_right != 0.0 || wood->cuts[cut].lean_up != 0.0;
    if (wood->cuts[cut].face >= TW_SIDE_LEFT_END && !leans) return;
    bool hollow = outline->count > 1;
    for (int i = 0; i < outline->count && !hollow; i++) hollow = turns_in(outline->loops[i]);
    tw_block block = wood->blocks[cut];
    bool at_end = block.least.x < SLIVER_MM || block.most.x > wood->size.length_mm - SLIVER_MM;
    bool square = outline->count == 1 && tw_cut_is_block(&wood->cuts[cut], 0);
    if (hollow || (at_end && !square)) add_window(arena, w, block, block, 0.0);
}

static void add_between(tw_arena *arena, windows *w, tw_block a, tw_block b, double gap)
{
    if (gap > SLIVER_MM) add_window(arena, w, a, b, gap);
}

static windows windows_of(tw_arena *arena, const tw_wood *wood)
{
    windows w = { 0 };
    for (int i = 0; i < wood->cut_count; i++) {
        tw_block a = wood->blocks[i];
        add_own_windows(arena, &w, wood, i);
        add_between(arena, &w, a, a, a.least.x);
        add_between(arena, &w, a, a, wood->size.length_mm - a.most.x);
        for (int j = i + 1; j < wood->cut_count; j++) {
            tw_block b = wood->blocks[j];
            add_between(arena, &w, a, b, tw_max(b.least.x - a.most.x, a.least.x - b.most.x));
        }
    }
    return w;
}

static bool is_wanted(const windows *w, double y0, double y1, double z0, double z1)
{
    for (size_t i = 0; i < w->count; i++) {
        const window *o = &w->items[i];
        if (o->y0 < y1 && o->y1 > y0 && o->z0 < z1 && o->z1 > z0) return true;
    }
    return w->all;
}

/* ---- the grid ---- */

static bool bends_between(const tw_wood *wood, tw_axis axis, double from, double to)
{
    for (int i = 0; i < wood->cut_count; i++)
        if (tw_cut_bends(wood, i, axis, from, to)) return true;
    return false;
}

static tw_marks grid_lines(tw_wood *wood, const windows *w, tw_axis axis, double step)
{
    tw_marks marks = tw_marks_of_wood(wood, axis), lines = { 0 };
    for (size_t i = 0; i + 1 < marks.count; i++) {
        double a = marks.at[i], b = marks.at[i + 1];
        bool wanted = axis == TW_AXIS_Y ? is_wanted(w, a, b, -INFINITY, INFINITY) : is_wanted(w, -INFINITY, INFINITY, a, b);
        int parts = wanted && bends_between(wood, axis, a, b) ? (int)ceil((b - a) / step - 1e-9) : 1;
        for (int k = 0; k < parts; k++) tw_marks_add(wood->arena, &lines, a + (b - a) * k / parts);
    }
    tw_marks_order(wood->arena, &lines, tw_extent_along(wood->size, axis));
    return lines;
}

static size_t cells_across(const tw_grain *g) { return g->y.count - 1; }
static size_t cells_deep(const tw_grain *g) { return g->z.count - 1; }

static void lay_grid(tw_grain *g, tw_wood *wood, const windows *w)
{
    for (;; g->step_mm *= 2.0) {
        g->y = grid_lines(wood, w, TW_AXIS_Y, g->step_mm);
        g->z = grid_lines(wood, w, TW_AXIS_Z, g->step_mm);
        if (cells_across(g) * cells_deep(g) <= TW_CELLS_MOST || g->step_mm > 100.0) return;
    }
}

/* The cell, grown by its neighbours: what holds a short run is looked at too. */
static bool is_cell_wanted(const tw_grain *g, const windows *w, size_t i, size_t k)
{
    size_t i0 = i > 0 ? i - 1 : 0, i1 = i + 2 < g->y.count ? i + 2 : g->y.count - 1, k0 = k > 0 ? k - 1 : 0, k1 = k + 2 < g->z.count ? k + 2 : g->z.count - 1;
    return w->all || is_wanted(w, g->y.at[i0], g->y.at[i1], g->z.at[k0], g->z.at[k1]);
}

static void note_shortest(tw_grain *g, const tw_fibre_run *run, double y, double z)
{
    double length = run->to_mm - run->from_mm;
    if ((run->from_cut < 0 && run->to_cut < 0) || length < SLIVER_MM) return;
    if (g->shortest.to_mm > 0.0 && g->shortest.to_mm - g->shortest.from_mm <= length + TW_MARKS_SAME_MM) return;
    g->shortest = *run;
    g->shortest_y_mm = y;
    g->shortest_z_mm = z;
}

static void look_along_fibres(tw_grain *g, tw_wood *wood, const windows *w)
{
    size_t room = 0, cell = 0;
    g->first = TW_NEW_ARRAY(wood->arena, size_t, cells_across(g) * cells_deep(g) + 1);
    for (size_t i = 0; i < cells_across(g); i++)
        for (size_t k = 0; k < cells_deep(g); k++) {
            double y = (g->y.at[i] + g->y.at[i + 1]) / 2.0, z = (g->z.at[k] + g->z.at[k + 1]) / 2.0, area = (g->y.at[i + 1] - g->y.at[i]) * (g->z.at[k + 1] - g->z.at[k]);
            int count = 0;
            const tw_fibre_run *runs = is_cell_wanted(g, w, i, k) ? tw_wood_runs(wood, TW_AXIS_X, (tw_spot){ 0.0, y, z }, &count) : NULL;
            for (int r = 0; r < count; r++) {
                tw_array_make_room(wood->arena, &g->runs, g->run_count, &room, sizeof *g->runs);
                g->runs[g->run_count++] = runs[r];
                g->volume_mm3 += area * (runs[r].to_mm - runs[r].from_mm);
                note_shortest(g, &runs[r], y, z);
            }
            g->first[++cell] = g->run_count;
        }
}

/* ---- regions ---- */

static bool is_short(const tw_grain *g, size_t run)
{
    const tw_fibre_run *r = &g->runs[run];
    return (r->from_cut >= 0 || r->to_cut >= 0) && r->to_mm - r->from_mm < g->limit_mm;
}

static double common_length(const tw_fibre_run *a, const tw_fibre_run *b) { return tw_min(a->to_mm, b->to_mm) - tw_max(a->from_mm, b->from_mm); }

static int root_of(int *parent, int run)
{
    while (parent[run] != run) run = parent[run] = parent[parent[run]];
    return run;
}

/* Calls for each pair of runs of two cells that lie side by side. border: length of the line between the cells. */
typedef void on_pair(tw_grain *g, void *own, size_t a, size_t b, double common, double border);

static void pairs_of_cells(tw_grain *g, size_t one, size_t two, double border, on_pair *call, void *own)
{
    for (size_t a = g->first[one]; a < g->first[one + 1]; a++)
        for (size_t b = g->first[two]; b < g->first[two + 1]; b++) {
            double common = common_length(&g->runs[a], &g->runs[b]);
            if (common > 0.0) call(g, own, a, b, common, border);
        }
}

static void all_pairs(tw_grain *g, on_pair *call, void *own)
{
    size_t deep = cells_deep(g);
    for (size_t i = 0; i < cells_across(g); i++)
        for (size_t k = 0; k < deep; k++) {
            if (i + 1 < cells_across(g)) pairs_of_cells(g, i * deep + k, (i + 1) * deep + k, g->z.at[k + 1] - g->z.at[k], call, own);
            if (k + 1 < deep) pairs_of_cells(g, i * deep + k, i * deep + k + 1, g->y.at[i + 1] - g->y.at[i], call, own);
        }
}

static void join_pair(tw_grain *g, void *own, size_t a, size_t b, double common, double border)
{
    (void)common;
    (void)border;
    if (!is_short(g, a) || !is_short(g, b)) return;
    int *parent = own, one = root_of(parent, (int)a), two = root_of(parent, (int)b);
    if (one < two) parent[two] = one;
    else parent[one] = two;
}

static void hold_pair(tw_grain *g, void *own, size_t a, size_t b, double common, double border)
{
    (void)own;
    bool short_a = is_short(g, a), short_b = is_short(g, b);
    if (short_a != short_b) g->regions[g->region[short_a ? a : b]].held_mm2 += common * border;
}

/* How much of a region each pair of bounds takes. */
typedef struct share { int region, from_cut, to_cut; double area; } share;

static int by_region_then_area(const void *left, const void *right)
{
    const share *a = left, *b = right;
    if (a->region != b->region) return a->region < b->region ? -1 : 1;
    if (a->from_cut != b->from_cut) return a->from_cut < b->from_cut ? -1 : 1;
    return (a->to_cut > b->to_cut) - (a->to_cut < b->to_cut);
}

static void name_bounds(tw_grain *g, share *shares, size_t count)
{
    qsort(shares, count, sizeof *shares, by_region_then_area);
    double best = 0.0;
    for (size_t i = 0; i < count;) {
        size_t j = i;
        double sum = 0.0;
        for (; j < count && by_region_then_area(&shares[i], &shares[j]) == 0; j++) sum += shares[j].area;
        if (i == 0 || shares[i - 1].region != shares[i].region) best = 0.0;
        if (sum > best + 1e-9) {
            best = sum;
            g->regions[shares[i].region].from_cut = shares[i].from_cut;
            g->regions[shares[i].region].to_cut = shares[i].to_cut;
        }
        i = j;
    }
}

static void add_to_region(tw_short_grain *region, const tw_fibre_run *run, double y0, double y1, double z0, double z1)
{
    double length = run->to_mm - run->from_mm, area = (y1 - y0) * (z1 - z0);
    bool first = region->area_mm2 == 0.0;
    tw_block *box = &region->box;
    if (first) *box = (tw_block){ { run->from_mm, y0, z0 }, { run->to_mm, y1, z1 } };
    box->least = (tw_spot){ tw_min(box->least.x, run->from_mm), tw_min(box->least.y, y0), tw_min(box->least.z, z0) };
    box->most = (tw_spot){ tw_max(box->most.x, run->to_mm), tw_max(box->most.y, y1), tw_max(box->most.z, z1) };
    region->shortest_mm = first ? length : tw_min(region->shortest_mm, length);
    region->area_mm2 += area;
    region->volume_mm3 += area * length;
}

static void gather_regions(tw_grain *g, tw_arena *arena, int *parent)
{
    share *shares = TW_NEW_ARRAY(arena, share, g->run_count + 1);
    size_t share_count = 0, deep = cells_deep(g);
    g->regions = TW_NEW_ARRAY(arena, tw_short_grain, g->run_count + 1);
    for (size_t cell = 0; cell < cells_across(g) * deep; cell++)
        for (size_t r = g->first[cell]; r < g->first[cell + 1]; r++) {
            g->region[r] = -1;
            if (!is_short(g, r)) continue;
            int root = root_of(parent, (int)r);
            g->region[r] = root == (int)r ? g->region_count++ : g->region[root];  // a root is the first of its region
            size_t i = cell / deep, k = cell % deep;
            add_to_region(&g->regions[g->region[r]], &g->runs[r], g->y.at[i], g->y.at[i + 1], g->z.at[k], g->z.at[k + 1]);
            shares[share_count++] = (share){ g->region[r], g->runs[r].from_cut, g->runs[r].to_cut, (g->y.at[i + 1] - g->y.at[i]) * (g->z.at[k + 1] - g->z.at[k]) };
        }
    name_bounds(g, shares, share_count);
}

/* ---- which of them are short grain ---- */

typedef struct ranked { tw_short_grain region; int was; } ranked;

static int by_volume(const void *left, const void *right)
{
    const ranked *a = left, *b = right;
    if (fabs(a->region.volume_mm3 - b->region.volume_mm3) > 1e-6) return a->region.volume_mm3 > b->region.volume_mm3 ? -1 : 1;
    return (a->was > b->was) - (a->was < b->was);
}

/* Keeps what is weakly held, largest first; wood that nothing at all holds is loose and falls off: that is no grain. */
static void keep_short_grain(tw_grain *g, tw_arena *arena, double hold_least)
{
    ranked *kept = TW_NEW_ARRAY(arena, ranked, (size_t)g->region_count + 1);
    int *now = TW_NEW_ARRAY(arena, int, (size_t)g->region_count + 1), count = 0;
    for (int i = 0; i < g->region_count; i++) {
        tw_short_grain *region = &g->regions[i];
        region->hold = region->area_mm2 > 0.0 ? region->held_mm2 / region->area_mm2 : 0.0;
        now[i] = -1;
        if (region->hold < hold_least - 1e-9 && region->held_mm2 > 0.0 && region->area_mm2 > SLIVER_MM2 && region->volume_mm3 > SLIVER_MM2) kept[count++] = (ranked){ *region, i };
    }
    qsort(kept, (size_t)count, sizeof *kept, by_volume);
    for (int i = 0; i < count; i++) {
        g->regions[i] = kept[i].region;
        now[kept[i].was] = i;
    }
    g->region_count = count;
    for (size_t r = 0; r < g->run_count; r++) g->region[r] = g->region[r] >= 0 ? now[g->region[r]] : -1;
}

static void find_regions(tw_grain *g, tw_arena *arena, double hold_least)
{
    int *parent = TW_NEW_ARRAY(arena, int, g->run_count + 1);
    for (size_t r = 0; r < g->run_count; r++) parent[r] = (int)r;
    g->region = TW_NEW_ARRAY(arena, int, g->run_count + 1);
    all_pairs(g, join_pair, parent);
    gather_regions(g, arena, parent);
    all_pairs(g, hold_pair, NULL);
    keep_short_grain(g, arena, hold_least);
}

double tw_grain_limit_mm(tw_size size) { return tw_min(tw_max(size.width_mm, size.thickness_mm), size.length_mm / 2.0); }

static tw_grain make(tw_wood *wood, const windows *w, double step_mm, double hold_least)
{
    tw_grain g = { .size = wood->size, .step_mm = step_mm, .limit_mm = tw_grain_limit_mm(wood->size) };
    lay_grid(&g, wood, w);
    look_along_fibres(&g, wood, w);
    find_regions(&g, wood->arena, hold_least);
    return g;
}

tw_grain tw_grain_make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double step_mm)
{
    assert(step_mm > 0.0);
    tw_wood wood = tw_wood_make(arena, size, cuts, cut_count);
    return make(&wood, &(windows){ .all = true }, step_mm, TW_HOLD_LEAST);
}

/* First in coarse steps, and finer only where something is held not much better than short grain. */
tw_grain tw_grain_short(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double step_mm)
{
    assert(step_mm > 0.0);
    tw_wood wood = tw_wood_make(arena, size, cuts, cut_count);
    windows w = windows_of(arena, &wood);
    tw_grain none = { .size = size, .step_mm = step_mm, .limit_mm = tw_grain_limit_mm(size) };
    if (w.count == 0 || make(&wood, &w, COARSE * step_mm, NEARLY * TW_HOLD_LEAST).region_count == 0) return none;
    return make(&wood, &w, step_mm, TW_HOLD_LEAST);
}
