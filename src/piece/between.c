// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/between.h"

#include <math.h>

#define EACH_MM 0.5      // between lines where walls bend
#define PARTS_MOST 80    // of one stretch
#define TOUCH_MM 0.01    // walls nearer than this touch
#define GAPS_MOST 64     // of one cut in one line that are looked at

/* The middles of the stretches, and how long each is. */
typedef struct stretches { double *at, *length; size_t count; } stretches;

static stretches stretches_of(tw_wood *wood, int a, int b, tw_axis axis, double from, double to)
{
    tw_arena *arena = wood->arena;
    tw_marks marks = { 0 };
    tw_marks_of_cut(arena, &marks, wood->size, &wood->cuts[a], axis);
    if (b >= 0) tw_marks_of_cut(arena, &marks, wood->size, &wood->cuts[b], axis);
    tw_marks_add(arena, &marks, from);
    tw_marks_add(arena, &marks, to);
    tw_marks_order(arena, &marks, tw_extent_along(wood->size, axis));
    stretches s = { TW_NEW_ARRAY(arena, double, marks.count * PARTS_MOST), TW_NEW_ARRAY(arena, double, marks.count * PARTS_MOST), 0 };
    for (size_t i = 0; i + 1 < marks.count; i++) {
        double x0 = marks.at[i], x1 = marks.at[i + 1], middle = (x0 + x1) / 2.0;
        if (middle < from || middle > to) continue;
        bool bends = tw_cut_bends(wood, a, axis, x0, x1) || (b >= 0 && tw_cut_bends(wood, b, axis, x0, x1));
        int parts = bends ? (int)tw_min(PARTS_MOST, ceil((x1 - x0) / EACH_MM)) : 1;
        for (int k = 0; k < parts; k++, s.count++) {
            s.at[s.count] = x0 + (x1 - x0) * (k + 0.5) / parts;
            s.length[s.count] = (x1 - x0) / parts;
        }
    }
    return s;
}

static void set(tw_spot *spot, tw_axis axis, double value) { *(axis == TW_AXIS_X ? &spot->x : axis == TW_AXIS_Y ? &spot->y : &spot->z) = value; }

static void grow(tw_block *box, bool first, tw_spot low, tw_spot high)
{
    if (first) *box = (tw_block){ low, high };
    box->least = (tw_spot){ tw_min(box->least.x, low.x), tw_min(box->least.y, low.y), tw_min(box->least.z, low.z) };
    box->most = (tw_spot){ tw_max(box->most.x, high.x), tw_max(box->most.y, high.y), tw_max(box->most.z, high.z) };
}

/* Copies of the gaps of one cut, since the list is good for one call only. */
static int gaps_of(tw_wood *wood, int cut, tw_axis axis, tw_spot through, tw_gap gaps[GAPS_MOST])
{
    int count;
    const tw_gap *list = tw_wood_gaps(wood, cut, axis, through, &count);
    if (count > GAPS_MOST) count = GAPS_MOST;
    for (int i = 0; i < count; i++) gaps[i] = list[i];
    return count;
}

/* ---- shared ---- */

static void share_on_line(tw_wood *wood, int a, int b, tw_spot at, double wide, double deep, tw_shared *shared)
{
    tw_gap of_a[GAPS_MOST], of_b[GAPS_MOST];
    int count_a = gaps_of(wood, a, TW_AXIS_X, at, of_a), count_b = gaps_of(wood, b, TW_AXIS_X, at, of_b);
    for (int i = 0; i < count_a; i++)
        for (int j = 0; j < count_b; j++) {
            double from = tw_max(of_a[i].from_mm, of_b[j].from_mm), to = tw_min(of_a[i].to_mm, of_b[j].to_mm);
            if (to - from < TOUCH_MM) continue;
            grow(&shared->box, shared->volume_mm3 == 0.0, (tw_spot){ from, at.y - wide / 2.0, at.z - deep / 2.0 }, (tw_spot){ to, at.y + wide / 2.0, at.z + deep / 2.0 });
            shared->volume_mm3 += wide * deep * (to - from);
        }
}

tw_shared tw_cuts_share(tw_wood *wood, int a, int b)
{
    tw_block one = wood->blocks[a], two = wood->blocks[b];
    tw_shared shared = { 0 };
    if (tw_min(one.most.x, two.most.x) - tw_max(one.least.x, two.least.x) < TOUCH_MM) return shared;
    stretches y = stretches_of(wood, a, b, TW_AXIS_Y, tw_max(one.least.y, two.least.y), tw_min(one.most.y, two.most.y));
    stretches z = stretches_of(wood, a, b, TW_AXIS_Z, tw_max(one.least.z, two.least.z), tw_min(one.most.z, two.most.z));
    for (size_t i = 0; i < y.count; i++)
        for (size_t k = 0; k < z.count; k++) share_on_line(wood, a, b, (tw_spot){ 0.0, y.at[i], z.at[k] }, y.length[i], z.length[k], &shared);
    return shared;
}

/* ---- between ---- */

/* Does another cut take of the wood between? Then what is left is no wall between these two. */
static bool is_whole(tw_wood *wood, tw_axis axis, tw_spot at, double from, double to)
{
    int count;
    if (to - from < TOUCH_MM) return true;
    const tw_fibre_run *runs = tw_wood_runs(wood, axis, at, &count);
    for (int i = 0; i < count; i++)
        if (runs[i].from_mm <= from + TOUCH_MM && runs[i].to_mm >= to - TOUCH_MM) return true;
    return false;
}

typedef struct question { tw_wood *wood; int a, b; tw_axis axis; double less_than; tw_between answer; } question;

static void take_wall(question *q, tw_spot at, double from, double to, double area)
{
    double wall = tw_max(0.0, to - from);
    if (to - from < -TOUCH_MM || wall >= q->less_than || !is_whole(q->wood, q->axis, at, from, to)) return;
    tw_spot low = at, high = at;
    set(&low, q->axis, from);
    set(&high, q->axis, to);
    grow(&q->answer.box, !q->answer.found, low, high);
    q->answer.least_mm = q->answer.found ? tw_min(q->answer.least_mm, wall) : wall;
    q->answer.area_mm2 += area;
    q->answer.found = true;
}

static void ask_line(question *q, tw_spot at, double area)
{
    tw_gap of_a[GAPS_MOST], of_b[GAPS_MOST];
    int count_a = gaps_of(q->wood, q->a, q->axis, at, of_a), count_b = q->b >= 0 ? gaps_of(q->wood, q->b, q->axis, at, of_b) : 0;
    double end = tw_extent_along(q->wood->size, q->axis);
    for (int i = 0; i < count_a; i++) {
        for (int j = 0; j < count_b; j++) {
            take_wall(q, at, of_a[i].to_mm, of_b[j].from_mm, area);
            take_wall(q, at, of_b[j].to_mm, of_a[i].from_mm, area);
        }
        if (q->b == -1 && of_a[i].from_mm > TOUCH_MM) take_wall(q, at, 0.0, of_a[i].from_mm, area);
        if (q->b == -2 && of_a[i].to_mm < end - TOUCH_MM) take_wall(q, at, of_a[i].to_mm, end, area);
    }
}

tw_between tw_cuts_between(tw_wood *wood, int a, int b, tw_axis axis, double less_than_mm)
{
    tw_axis one = axis == TW_AXIS_X ? TW_AXIS_Y : TW_AXIS_X, two = axis == TW_AXIS_Z ? TW_AXIS_Y : TW_AXIS_Z;
    tw_block p = wood->blocks[a], r = b >= 0 ? wood->blocks[b] : tw_piece_block(wood->size);
    question q = { wood, a, b, axis, less_than_mm, { 0 } };
    stretches u = stretches_of(wood, a, b, one, tw_max(tw_along(p.least, one), tw_along(r.least, one)), tw_min(tw_along(p.most, one), tw_along(r.most, one)));
    stretches v = stretches_of(wood, a, b, two, tw_max(tw_along(p.least, two), tw_along(r.least, two)), tw_min(tw_along(p.most, two), tw_along(r.most, two)));
    for (size_t i = 0; i < u.count; i++)
        for (size_t k = 0; k < v.count; k++) {
            tw_spot at = { 0 };
            set(&at, one, u.at[i]);
            set(&at, two, v.at[k]);
            ask_line(&q, at, u.length[i] * v.length[k]);
        }
    return q.answer;
}
