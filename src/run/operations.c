// SPDX-License-Identifier: GPL-3.0-or-later
/* The works of all plans as operations: who waits for whom, from which stage on, and what stands set.
 *
 * A work's stage is rough advice, `after` is a must: an operation takes the latest stage of all that comes before it, so
 * that going through the stages one by one can never break an `after`. A circle of `after` would be a fault of a joint
 * kind, so it is asserted. */
#include "run/order.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define STEPS_PER_MM 1e4  // two settings nearer than this are one setting: far below what any spacer can show

const char *const tw_kept_words[TW_KEPT_COUNT] = {
    [TW_KEPT_TEMPLATE] = "template",     [TW_KEPT_TEMPLATE_SIDE] = "template's side out",
    [TW_KEPT_CUTTER] = "cutter",         [TW_KEPT_FOLLOWER] = "follower",
    [TW_KEPT_SHIFT] = "shift",           [TW_KEPT_TABLE] = "table height",
    [TW_KEPT_STOP] = "stop",             [TW_KEPT_DEPTH] = "depth",
    [TW_KEPT_CRADLE] = "cradle",
    [TW_KEPT_DOWN] = "side that lies down", [TW_KEPT_FENCE] = "fence and stops",
};

const char *const tw_way_words[TW_WAY_COUNT] = {
    [TW_WAY_COPY] = "copying router", [TW_WAY_SAW] = "table saw",       [TW_WAY_BANDSAW] = "bandsaw",
    [TW_WAY_ROUTE] = "hand-held router", [TW_WAY_TABLE] = "router table", [TW_WAY_DRILL] = "drill press",   [TW_WAY_PLANE] = "planing bench", [TW_WAY_CHISEL] = "chisels",
    [TW_WAY_MARK] = "marking out",    [TW_WAY_MEASURE] = "measuring",   [TW_WAY_FIT] = "fitting, dry",
    [TW_WAY_GLUE] = "gluing",         [TW_WAY_FINISH] = "finishing",
};

static int64_t steps_of(double mm) { return (int64_t)llround(mm * STEPS_PER_MM); }

static int64_t setting_steps(const tw_setting *setting)
{
    if (!setting->used) return TW_KEPT_NONE;
    bool against = setting->direction_x < 0 || (setting->direction_x == 0 && setting->direction_y < 0);
    return steps_of(against ? -setting->value_mm : setting->value_mm);
}

/* A stop whose face lies on the centre still stands left or right of it. */
static int64_t stop_steps(const tw_setting *stop)
{
    int64_t steps = setting_steps(stop);
    return steps == 0 && stop->direction_x < 0 ? -1 : steps;
}

static uint64_t mix(uint64_t hash, uint64_t value) { return (hash ^ value) * UINT64_C(0x100000001B3); }

/* A saw's fence or a drill's stop: works of the same name that aim at the same dimension are set alike. */
static int64_t fence_of(const tw_work *work)
{
    uint64_t hash = UINT64_C(0xCBF29CE484222325);
    for (const char *at = work->name ? work->name : ""; *at; at++) hash = mix(hash, (unsigned char)*at);
    hash = mix(hash, (uint64_t)steps_of(work->measure_mm));
    if (work->hand != TW_HAND_NONE) hash = mix(hash, (uint64_t)work->hand);  // a mirror image is set over to the other side
    return (int64_t)(hash >> 1);  // never TW_KEPT_NONE
}

/* Both of its angles, in steps of about a thousandth of a degree; a piece that lies on the table has none. */
static int64_t cradle_steps(const tw_cradle *cradle)
{
    if (!cradle->used) return TW_KEPT_NONE;
    return (int64_t)llround(tw_degrees(cradle->roll_rad) * 1e3) * 1000000 + (int64_t)llround(tw_degrees(cradle->swing_rad) * 1e3);
}

static void note_kept(tw_operation *operation, const tw_work *work, const tw_setup *setup)
{
    for (int k = 0; k < TW_KEPT_COUNT; k++) operation->kept[k] = TW_KEPT_NONE;
    if ((work->way == TW_WAY_SAW || work->way == TW_WAY_BANDSAW || work->way == TW_WAY_DRILL) && !work->freehand)
        operation->kept[TW_KEPT_FENCE] = fence_of(work);
    if (work->way != TW_WAY_COPY) return;
    operation->kept[TW_KEPT_DOWN] = work->down;
    operation->kept[TW_KEPT_CRADLE] = cradle_steps(&work->cradle);
    if (!setup) return;
    operation->kept[TW_KEPT_TEMPLATE] = setup->template_index;
    operation->kept[TW_KEPT_TEMPLATE_SIDE] = setup->template_turned;
    operation->kept[TW_KEPT_CUTTER] = setup->cutter;
    operation->kept[TW_KEPT_FOLLOWER] = setup->follower;
    operation->kept[TW_KEPT_SHIFT] = setting_steps(&setup->shift);
    operation->kept[TW_KEPT_TABLE] = setting_steps(&setup->table);
    operation->kept[TW_KEPT_STOP] = stop_steps(&setup->stop);
    operation->kept[TW_KEPT_DEPTH] = setting_steps(&setup->depth);
}

int tw_operation_changes(const tw_operation *before, const tw_operation *after)
{
    int changes = 0;
    for (int k = 0; k < TW_KEPT_COUNT; k++)
        if (after->kept[k] != TW_KEPT_NONE && (!before || before->kept[k] != after->kept[k])) changes++;
    return changes;
}

/* ---- kinds: operations between which nothing changes, found by hashing ---- */

static uint64_t kind_hash(const tw_operation *operation)
{
    uint64_t hash = mix(UINT64_C(0xCBF29CE484222325), (uint64_t)operation->way);
    for (int k = 0; k < TW_KEPT_COUNT; k++) {
        hash = mix(hash, (uint64_t)operation->kept[k]);
        hash ^= hash >> 29;
    }
    return hash;
}

static bool same_kind(const tw_operation *a, const tw_operation *b)
{
    return a->way == b->way && memcmp(a->kept, b->kept, sizeof a->kept) == 0;
}

static void number_kinds(tw_arena *arena, tw_operations *operations)
{
    size_t slots = 16;
    while (slots < 2 * (size_t)operations->count) slots *= 2;
    int *table = TW_NEW_ARRAY(arena, int, slots);  // index of an operation of the kind, plus 1
    for (int i = 0; i < operations->count; i++) {
        tw_operation *operation = &operations->items[i];
        size_t slot = (size_t)kind_hash(operation) & (slots - 1);
        while (table[slot] && !same_kind(&operations->items[table[slot] - 1], operation)) slot = (slot + 1) & (slots - 1);
        if (!table[slot]) {
            table[slot] = i + 1;
            operation->kind = operations->kind_count++;
        } else operation->kind = operations->items[table[slot] - 1].kind;
    }
}

/* ---- who waits for whom ---- */

static void note_followers(tw_arena *arena, tw_operations *operations, const tw_joint_plan *plans, const int *first)
{
    int total = 0;
    for (int i = 0; i < operations->count; i++) {
        const tw_operation *operation = &operations->items[i];
        const tw_work *work = &plans[operation->plan].works[operation->work];
        for (int j = 0; j < work->after_count; j++) {
            assert(work->after[j] >= 0 && (size_t)work->after[j] < plans[operation->plan].work_count);
            operations->items[first[operation->plan] + work->after[j]].after_count++;
            total++;
        }
        operations->waits[i] = work->after_count;
    }
    operations->followers = TW_NEW_ARRAY(arena, int, (size_t)total + 1);
    int at = 0;
    for (int i = 0; i < operations->count; i++) {
        operations->items[i].first_after = at;
        at += operations->items[i].after_count;
        operations->items[i].after_count = 0;
    }
    for (int i = 0; i < operations->count; i++) {
        const tw_work *work = &plans[operations->items[i].plan].works[operations->items[i].work];
        for (int j = 0; j < work->after_count; j++) {
            tw_operation *before = &operations->items[first[operations->items[i].plan] + work->after[j]];
            operations->followers[before->first_after + before->after_count++] = i;
        }
    }
}

/* The latest stage of all that comes before, in any order that keeps `after`. */
static void carry_stages(tw_arena *arena, tw_operations *operations)
{
    int *waits = TW_NEW_ARRAY(arena, int, (size_t)operations->count + 1);
    int *queue = TW_NEW_ARRAY(arena, int, (size_t)operations->count + 1);
    int head = 0, tail = 0;
    for (int i = 0; i < operations->count; i++) {
        waits[i] = operations->waits[i];
        if (waits[i] == 0) queue[tail++] = i;
    }
    while (head < tail) {
        const tw_operation *done = &operations->items[queue[head++]];
        for (int j = 0; j < done->after_count; j++) {
            int next = operations->followers[done->first_after + j];
            tw_operation *waiting = &operations->items[next];
            if (waiting->stage < done->stage) waiting->stage = done->stage;
            if (--waits[next] == 0) queue[tail++] = next;
        }
    }
    assert(tail == operations->count && "the works of a joint wait for each other in a circle");
}

tw_operations tw_operations_of(tw_arena *arena, const tw_joint_plan *plans, int plan_count, const tw_setups *setups)
{
    int *first = TW_NEW_ARRAY(arena, int, (size_t)plan_count + 1);
    for (int p = 0; p < plan_count; p++) first[p + 1] = first[p] + (int)plans[p].work_count;
    int count = first[plan_count];
    tw_operations operations = { .items = TW_NEW_ARRAY(arena, tw_operation, (size_t)count + 1), .count = count,
                                 .waits = TW_NEW_ARRAY(arena, int, (size_t)count + 1) };
    for (int i = 0; i < count; i++) operations.items[i].setup = -1;
    for (int s = 0; setups && s < setups->count; s++) {
        const tw_setup *setup = &setups->items[s];
        assert(setup->plan >= 0 && setup->plan < plan_count && (size_t)setup->work < plans[setup->plan].work_count);
        operations.items[first[setup->plan] + setup->work].setup = s;
    }
    for (int p = 0; p < plan_count; p++)
        for (int w = 0; w < (int)plans[p].work_count; w++) {
            tw_operation *operation = &operations.items[first[p] + w];
            const tw_work *work = &plans[p].works[w];
            operation->plan = p, operation->work = w, operation->way = work->way, operation->stage = work->stage;
            note_kept(operation, work, operation->setup >= 0 ? &setups->items[operation->setup] : NULL);
        }
    note_followers(arena, &operations, plans, first);
    carry_stages(arena, &operations);
    number_kinds(arena, &operations);
    return operations;
}
