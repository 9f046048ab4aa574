// SPDX-License-Identifier: GPL-3.0-or-later
/* The order of taking apart and putting together.
 *
 * What is still together is a part: units (single pieces, or pieces glued to each other) and the ties between them. Some of
 * its units can be drawn off along a way when every tie between them and the rest lets go that way, and nothing of the rest
 * stands in the swept way until they are free. For a unit and a way the least such group is found by taking along whatever
 * does not let go:
 *     group = {unit}; while a tie between group and rest does not let go along the way, take its other unit too      (1)
 * Of all groups that leave a rest, those come first that let go most joints that were held by tusks or pegs at once, then
 * the smaller ones, then those that do not go down, then the order of the job. The rest and what was drawn off are parts of their own then; the largest is
 * taken apart next. Put together, it all goes backwards.
 *
 * A part that nothing can be drawn off is stuck. If it is so even when no glue holds yet, it can never be put together; else
 * only its glued joints lock the dry ones in. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "space/parts.h"

#define SWEEPS_MOST 64   // groups of one part whose way is looked at, the best first

typedef struct group { int *items, count; tw_spot way; double travel_mm; int held, plan; } group;

typedef struct order {
    tw_placing *p;
    const int  *unit_of;    // [instances]: the least instance of its unit
    int        *part_of;    // [instances]: the part in which it is, 0: of another net
    bool       *in_group;   // [instances]
    int         parts;
    tw_removal *removals;  size_t count, room;
    int        *stuck, stuck_count;
} order;

typedef struct part { int *items, count, number; } part;
typedef struct parts { part *items; size_t count, room; } parts;

/* ---- ties ---- */

static const tw_tie *tie_of(const order *o, int instance, int i) { return &o->p->space->ties[o->p->ties_at[instance][i]]; }

/* The way in which an instance leaves the other at this tie. */
static tw_spot way_of(const order *o, const tw_tie *tie, int instance)
{
    tw_spot way = tw_pose_turn(o->p->space->instances[tie->base].pose, tie->meeting->leaves);
    return tie->mover == instance ? way : tw_spot_times(way, -1.0);
}

bool tw_same_way(tw_spot a, tw_spot b) { return tw_spot_product(a, b) >= cos(TW_SAME_WAY_RAD); }

/* ---- groups ---- */

static void take_unit(order *o, const part *all, group *g, int instance)
{
    for (int i = 0; i < all->count; i++) {
        int item = all->items[i];
        if (o->unit_of[item] != o->unit_of[instance] || o->in_group[item]) continue;
        o->in_group[item] = true;
        g->items[g->count++] = item;
    }
}

/* (1), then what it lets go. False when everything would go along. */
static bool grow(order *o, const part *all, int unit, tw_spot way, group *g)
{
    *g = (group){ .items = g->items, .way = way, .plan = -1 };
    for (int i = 0; i < all->count; i++) o->in_group[all->items[i]] = false;
    take_unit(o, all, g, unit);
    for (int i = 0; i < g->count; i++)
        for (int k = 0; k < o->p->ties_at_count[g->items[i]]; k++) {
            const tw_tie *tie = tie_of(o, g->items[i], k);
            int other = tw_tie_other(tie, g->items[i]);
            if (o->part_of[other] == all->number && !o->in_group[other] && !tw_same_way(way_of(o, tie, g->items[i]), way)) take_unit(o, all, g, other);
        }
    if (g->count == all->count) return false;
    for (int i = 0; i < g->count; i++)
        for (int k = 0; k < o->p->ties_at_count[g->items[i]]; k++) {
            const tw_tie *tie = tie_of(o, g->items[i], k);
            int other = tw_tie_other(tie, g->items[i]);
            if (o->part_of[other] != all->number || o->in_group[other]) continue;
            g->travel_mm = tw_max(g->travel_mm, tie->meeting->travel_mm);
            g->held += tie->meeting->held_by[0] && !tie->meeting->for_good;
            if (g->plan < 0) g->plan = tie->plan;
        }
    return g->plan >= 0;
}

static bool boxes_touch(tw_block a, tw_block b, tw_spot sweep)
{
    const double from[] = { a.least.x, a.least.y, a.least.z }, to[] = { a.most.x, a.most.y, a.most.z }, by[] = { sweep.x, sweep.y, sweep.z };
    const double least[] = { b.least.x, b.least.y, b.least.z }, most[] = { b.most.x, b.most.y, b.most.z };
    for (int i = 0; i < 3; i++)
        if (tw_max(to[i], to[i] + by[i]) < least[i] + TW_TOUCH_MM || tw_min(from[i], from[i] + by[i]) > most[i] - TW_TOUCH_MM) return false;
    return true;
}

static bool are_tied(const order *o, int a, int b)
{
    for (int i = 0; i < o->p->ties_at_count[a]; i++)
        if (tw_tie_other(tie_of(o, a, i), a) == b) return true;
    return false;
}

/* The wood that curved cuts may have taken counts as gone: a way is not called barred for it. */
static bool way_is_clear(order *o, const part *all, const group *g)
{
    const tw_space *space = o->p->space;
    tw_spot sweep = tw_spot_times(g->way, g->travel_mm);
    for (int i = 0; i < all->count; i++) o->in_group[all->items[i]] = false;
    for (int i = 0; i < g->count; i++) o->in_group[g->items[i]] = true;
    for (int i = 0; i < g->count; i++) {
        tw_block mine = tw_instance_block(space, g->items[i]);
        for (int k = 0; k < all->count; k++) {
            int other = all->items[k];
            if (o->in_group[other] || !boxes_touch(mine, tw_instance_block(space, other), sweep) || are_tied(o, g->items[i], other)) continue;
            if (tw_instances_deep_mm(space, space->lean, g->items[i], other, sweep) > TW_TOUCH_MM) return false;
        }
    }
    return true;
}

/* Ways in which a unit may leave: those of its ties, each once. */
static int ways_of(const order *o, const part *all, int unit, tw_spot *ways, int most)
{
    int count = 0;
    for (int i = 0; i < all->count; i++) {
        if (o->unit_of[all->items[i]] != unit) continue;
        for (int k = 0; k < o->p->ties_at_count[all->items[i]]; k++) {
            const tw_tie *tie = tie_of(o, all->items[i], k);
            int other = tw_tie_other(tie, all->items[i]);
            if (o->part_of[other] != all->number || o->unit_of[other] == unit) continue;
            tw_spot way = way_of(o, tie, all->items[i]);
            bool known = false;
            for (int n = 0; n < count; n++) known = known || tw_same_way(ways[n], way);
            if (!known && count < most) ways[count++] = way;
        }
    }
    return count;
}

static bool is_better(const group *a, const group *b)
{
    bool a_down = a->way.z < -0.5, b_down = b->way.z < -0.5;
    if (a->held != b->held) return a->held > b->held;
    if (a->count != b->count) return a->count < b->count;
    return !a_down && b_down;
}

/* The best groups, the best first; equal ones in the order in which they were found. */
static void keep(group *best, int *count, const group *g, tw_arena *arena)
{
    int at = *count;
    while (at > 0 && is_better(g, &best[at - 1])) at--;
    if (at == SWEEPS_MOST) return;
    if (*count < SWEEPS_MOST) (*count)++;
    for (int i = *count - 1; i > at; i--) best[i] = best[i - 1];
    best[at] = *g;
    best[at].items = TW_NEW_ARRAY(arena, int, (size_t)g->count);
    memcpy(best[at].items, g->items, sizeof *g->items * (size_t)g->count);
}

static bool find_removal(order *o, const part *all, group *found)
{
    enum { WAYS_MOST = 16 };
    tw_spot ways[WAYS_MOST];
    group best[SWEEPS_MOST], g = { .items = TW_NEW_ARRAY(o->p->arena, int, (size_t)all->count) };
    int count = 0;
    for (int i = 0; i < all->count; i++) {
        int unit = all->items[i];
        if (o->unit_of[unit] != unit) continue;
        int way_count = ways_of(o, all, unit, ways, WAYS_MOST);
        for (int k = 0; k < way_count; k++)
            if (grow(o, all, unit, ways[k], &g)) keep(best, &count, &g, o->p->arena);
    }
    for (int i = 0; i < count; i++)
        if (way_is_clear(o, all, &best[i])) { *found = best[i]; return true; }
    return false;
}

/* ---- parts ---- */

static void push_part(order *o, parts *all, const int *items, int count)
{
    part one = { .items = TW_NEW_ARRAY(o->p->arena, int, (size_t)count), .count = count, .number = ++o->parts };
    memcpy(one.items, items, sizeof *items * (size_t)count);
    for (int i = 0; i < count; i++) o->part_of[items[i]] = one.number;
    tw_array_make_room(o->p->arena, &all->items, all->count, &all->room, sizeof one);
    all->items[all->count++] = one;
}

/* Divides instances that may hang together no more, each part in the order of the instances. */
static void push_connected(order *o, parts *all, const int *items, int count)
{
    tw_arena *arena = o->p->arena;
    int loose = ++o->parts, taken = ++o->parts;
    int *queue = TW_NEW_ARRAY(arena, int, (size_t)count), *sorted = TW_NEW_ARRAY(arena, int, (size_t)count);
    for (int i = 0; i < count; i++) o->part_of[items[i]] = loose;
    for (int i = 0; i < count; i++) {
        if (o->part_of[items[i]] != loose) continue;
        int in = 0, kept = 0;
        queue[in++] = items[i];
        o->part_of[items[i]] = taken;
        for (int q = 0; q < in; q++)
            for (int k = 0; k < o->p->ties_at_count[queue[q]]; k++) {
                int other = tw_tie_other(tie_of(o, queue[q], k), queue[q]);
                if (o->part_of[other] != loose) continue;
                o->part_of[other] = taken;
                queue[in++] = other;
            }
        for (int k = 0; k < count; k++)
            if (o->part_of[items[k]] == taken) sorted[kept++] = items[k];
        push_part(o, all, sorted, kept);
    }
}

static bool is_one_unit(const order *o, const part *one)
{
    for (int i = 1; i < one->count; i++)
        if (o->unit_of[one->items[i]] != o->unit_of[one->items[0]]) return false;
    return true;
}

static part pop_largest(parts *all)
{
    size_t largest = 0;
    for (size_t i = 1; i < all->count; i++)
        if (all->items[i].count > all->items[largest].count) largest = i;
    part one = all->items[largest];
    for (size_t i = largest + 1; i < all->count; i++) all->items[i - 1] = all->items[i];
    all->count--;
    return one;
}

static void note_removal(order *o, const part *all, const group *g, const int *rest, int rest_count)
{
    tw_removal r = { .moved = g->items, .moved_count = g->count, .way = g->way, .travel_mm = g->travel_mm, .plan = g->plan };
    r.from = TW_NEW_ARRAY(o->p->arena, int, (size_t)rest_count);
    r.glued = true;
    for (int i = 0; i < rest_count; i++) {
        bool touched = false;
        for (int k = 0; k < o->p->ties_at_count[rest[i]]; k++) {
            const tw_tie *tie = tie_of(o, rest[i], k);
            int other = tw_tie_other(tie, rest[i]);
            if (o->part_of[other] != all->number || !o->in_group[other]) continue;
            touched = true;
            r.glued = r.glued && tie->meeting->for_good;
        }
        if (touched) r.from[r.from_count++] = rest[i];
    }
    tw_array_make_room(o->p->arena, &o->removals, o->count, &o->room, sizeof r);
    o->removals[o->count++] = r;
}

static void take_apart(order *o, const int *items, int count)
{
    parts left = { .count = 0 };
    push_connected(o, &left, items, count);
    while (left.count > 0) {
        part one = pop_largest(&left);
        group g;
        if (is_one_unit(o, &one)) continue;
        if (!find_removal(o, &one, &g)) {
            for (int i = 0; i < one.count; i++) o->stuck[o->stuck_count++] = one.items[i];
            continue;
        }
        for (int i = 0; i < one.count; i++) o->in_group[one.items[i]] = false;
        for (int i = 0; i < g.count; i++) o->in_group[g.items[i]] = true;
        int *rest = TW_NEW_ARRAY(o->p->arena, int, (size_t)one.count), rest_count = 0;
        for (int i = 0; i < one.count; i++)
            if (!o->in_group[one.items[i]]) rest[rest_count++] = one.items[i];
        note_removal(o, &one, &g, rest, rest_count);
        push_connected(o, &left, rest, rest_count);
        push_connected(o, &left, g.items, g.count);
    }
}

/* ---- units ---- */

static int root_of(int *unit, int i)
{
    while (unit[i] != i) i = unit[i] = unit[unit[i]];
    return i;
}

/* Pieces that glue holds together, each named by its least instance. */
static int *glued_units(const tw_placing *p)
{
    const tw_space *space = p->space;
    int *unit = TW_NEW_ARRAY(p->arena, int, (size_t)space->instance_count);
    for (int i = 0; i < space->instance_count; i++) unit[i] = i;
    for (size_t i = 0; i < space->tie_count; i++) {
        if (!space->ties[i].meeting->for_good) continue;
        int a = root_of(unit, space->ties[i].mover), b = root_of(unit, space->ties[i].base);
        unit[a > b ? a : b] = a > b ? b : a;
    }
    for (int i = 0; i < space->instance_count; i++) unit[i] = root_of(unit, i);
    return unit;
}

static int *single_units(const tw_placing *p)
{
    int *unit = TW_NEW_ARRAY(p->arena, int, (size_t)p->space->instance_count);
    for (int i = 0; i < p->space->instance_count; i++) unit[i] = i;
    return unit;
}

/* ---- a net ---- */

typedef struct workspace { int *glued, *single, *part_of; bool *in_group; } workspace;

static order order_of(tw_placing *p, const workspace *w, const int *unit_of, int most)
{
    return (order){ .p = p, .unit_of = unit_of, .part_of = w->part_of, .in_group = w->in_group, .stuck = TW_NEW_ARRAY(p->arena, int, (size_t)most) };
}

/* How each glued unit is put together, by taking it apart alone before the glue is in. */
static void gluing_order(order *o, const workspace *w, const int *items, int count)
{
    int *unit = TW_NEW_ARRAY(o->p->arena, int, (size_t)count);
    for (int i = 0; i < count; i++) {
        if (w->glued[items[i]] != items[i]) continue;
        int n = 0;
        for (int k = 0; k < count; k++)
            if (w->glued[items[k]] == items[i]) unit[n++] = items[k];
        if (n > 1) take_apart(o, unit, n);
    }
}

static void order_net(tw_placing *p, const workspace *w, int index, const int *items, int count)
{
    tw_net *net = &p->space->nets[index];
    if (count < 2 || count > TW_ORDER_PIECES_MOST || !net->closed || !net->clear) return;
    order loose = order_of(p, w, w->single, count), held = order_of(p, w, w->glued, count), glue = order_of(p, w, w->single, count);
    net->ordered = true;
    take_apart(&loose, items, count);
    net->stuck = loose.stuck;
    net->stuck_count = loose.stuck_count;
    if (loose.stuck_count > 0) return;
    take_apart(&held, items, count);
    net->locked = held.stuck;
    net->locked_count = held.stuck_count;
    gluing_order(&glue, w, items, count);
    bool by_units = held.stuck_count == 0 && glue.stuck_count == 0;
    tw_order_tell(p, net, index, held.removals, (int)held.count, by_units ? glue.removals : loose.removals, by_units ? (int)glue.count : -(int)loose.count);
}

void tw_space_order(tw_placing *p)
{
    tw_space *space = p->space;
    size_t all = (size_t)space->instance_count;
    workspace w = { glued_units(p), single_units(p), TW_NEW_ARRAY(p->arena, int, all), TW_NEW_ARRAY(p->arena, bool, all) };
    for (int i = 0; i < space->net_count; i++) order_net(p, &w, i, p->by_net + p->net_start[i], space->nets[i].count);
}
