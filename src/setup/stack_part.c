// SPDX-License-Identifier: GPL-3.0-or-later
/* Parting a drawer in two groups so that the lists of sums of each stay short.
 *
 * The sums of some kinds, each up to its usable count c and all up to the length m, are at most
 *     product of (c + 1)   and at most   (length of all, up to m) / common grain + 1            (1)
 * in number. Building the list of a group costs about the sum of (1) over its kinds, taken from the smallest size up,
 * once for each doubling of c. The drawer is laid out in four orders and cut in two at several places of each (one of
 * them: no cut); the cheapest parting is taken. The orders put like sizes together:
 *     by size;
 *     by what they have in common with 1 mm, and with 1 in: whole and broken sizes part;
 *     by whether they are inch-born (multiples of 127 steps): drills and leaves part. */
#include "setup/stack.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#define ORDERS 4
#define PLACES 32  // cuts tried along each order

#define MM_STEPS INT64_C(10000000)
#define INCH_STEPS INT64_C(254000000)

int64_t stack_common_grain(int64_t a, int64_t b)
{
    while (b != 0) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

int64_t stack_usable(stack_kind kind, stack_window window)
{
    int64_t fit = window.most / kind.size;
    return kind.count < fit ? kind.count : fit;
}

int stack_compare(const stack_drawer *drawer, const int *a, const int *b)
{
    for (int i = 0; i < drawer->count; i++)
        if (a[i] != b[i]) return a[i] > b[i] ? 1 : -1;
    return 0;
}

/* ---- what a group costs ---- */

static int doublings(int64_t count)
{
    int steps = 0;
    for (; count > 0; count /= 2) steps++;
    return steps;
}

/* (1) summed over the members; in_group: [drawer->count], true for those that count. */
static double group_sums(const stack_drawer *drawer, stack_window window, const bool *in_group, bool side)
{
    double most = 1.0, total = 0.0;
    int64_t grain = 0, length = 0;
    for (int i = drawer->count - 1; i >= 0; i--) {
        int64_t usable = stack_usable(drawer->kinds[i], window);
        if (in_group[i] != side || usable == 0) continue;
        grain = stack_common_grain(drawer->kinds[i].size, grain);
        length += usable * drawer->kinds[i].size;
        if (length > window.most) length = window.most;
        double grid = (double)(length / grain) + 1.0;
        most *= (double)usable + 1.0;
        if (most > grid) most = grid;
        total += most * doublings(usable);
    }
    return total;
}

/* ---- orders and cuts ---- */

typedef struct { int64_t key[2]; int kind; } place;

static int by_key(const void *left, const void *right)
{
    const place *a = left, *b = right;
    for (int i = 0; i < 2; i++)
        if (a->key[i] != b->key[i]) return a->key[i] > b->key[i] ? -1 : 1;
    return (a->kind > b->kind) - (a->kind < b->kind);
}

static void lay_out(const stack_drawer *drawer, int order, place *places)
{
    for (int i = 0; i < drawer->count; i++) {
        int64_t size = drawer->kinds[i].size, grain = 0;
        if (order == 1) grain = stack_common_grain(size, MM_STEPS);
        if (order == 2) grain = stack_common_grain(size, INCH_STEPS);
        if (order == 3) grain = size % 127 == 0;
        places[i] = (place){ .key = { grain, size }, .kind = i };
    }
    qsort(places, (size_t)drawer->count, sizeof *places, by_key);
}

static void try_cuts(const stack_drawer *drawer, stack_window window, const place *places, bool *second, stack_parting *parting)
{
    memset(second, 0, (size_t)drawer->count * sizeof *second);
    int done = drawer->count;
    for (int cut = PLACES; cut > 0; cut--) {  // what lies at or after the cut goes to the second group
        int at = (int)((int64_t)drawer->count * cut / PLACES);
        if (cut < PLACES && at == done) continue;
        while (done > at) second[places[--done].kind] = true;
        double sums = group_sums(drawer, window, second, false) + group_sums(drawer, window, second, true);
        if (sums >= parting->sums) continue;
        parting->sums = sums;
        memcpy(parting->second, second, (size_t)drawer->count * sizeof *second);
    }
}

stack_parting stack_part(const stack_drawer *drawer, stack_window window)
{
    size_t count = (size_t)drawer->count;
    stack_parting parting = { .second = TW_NEW_ARRAY(drawer->arena, bool, count), .sums = 1e300 };
    if (count == 0) return parting;
    bool *second = TW_NEW_ARRAY(drawer->arena, bool, count);
    place *places = TW_NEW_ARRAY(drawer->arena, place, count);
    for (int order = 0; order < ORDERS; order++) {
        lay_out(drawer, order, places);
        try_cuts(drawer, window, places, second, &parting);
    }
    return parting;
}
