// SPDX-License-Identifier: GPL-3.0-or-later
/* Stacks of few pieces with exactly a given length.
 *
 * The number of pieces k grows from 0; the first k that gives a stack is the answer. Within one k the pieces are chosen
 * from the largest down, each no larger than the one before, larger first: so the first stack met is the one with the
 * largest pieces. Let all pieces lie in a row, the largest first. With r pieces still to come that must make up the
 * length t, and s the next of them,
 *     s and the r - 1 pieces that follow it in the row  >= t         (1)
 *     s + the r - 1 smallest pieces of the drawer       <= t         (2)
 * The fewest pieces that reach a length are nearly the largest ones, so (1) cuts deep.
 *
 * The last two or three pieces are not searched but looked up in a table of all sums of two (three) pieces. For each
 * sum the table keeps only the variant whose largest piece is the smallest, and of these one that uses that piece the
 * fewest times: if any variant can follow the pieces chosen so far, this one can. */
#include "setup/stack.h"

#include <assert.h>
#include <limits.h>
#include <stdlib.h>

#define TAIL_MOST 3
#define TABLE_MOST 800000  // entries; more kinds than that allows: a shorter tail

typedef struct { int64_t sum; int first, times; } tail_entry;  // first: kind of its largest piece; times: how often

typedef struct {
    const stack_drawer *drawer;
    tail_entry         *entries;
    size_t              count, room;
    int                 pieces;
} tail_table;

/* All pieces in a row, the largest first; of each kind no more than any stack here can use. */
typedef struct {
    int      count;
    int     *starts;    // [kinds]: where each kind begins
    int64_t *lengths;   // [count + 1]: lengths[n] is that of the first n pieces
} row;

typedef struct {
    const stack_drawer *drawer;
    const row          *pieces;
    const tail_table   *table;    // of the last pieces, or NULL: all are chosen
    long               *visits_left;
    int                *picks;
    int                 end, end_taken;  // where the tail goes on: the kind last chosen and how often
} search;

/* ---- the row ---- */

static row row_of(const stack_drawer *drawer, int most_pieces)
{
    row all = { .starts = TW_NEW_ARRAY(drawer->arena, int, (size_t)drawer->count) };
    for (int i = 0; i < drawer->count; i++) {
        all.starts[i] = all.count;
        all.count += drawer->kinds[i].count < most_pieces ? drawer->kinds[i].count : most_pieces;
    }
    all.lengths = TW_NEW_ARRAY(drawer->arena, int64_t, (size_t)all.count + 1);
    for (int i = 0, kind = 0; i < all.count; i++) {
        while (kind + 1 < drawer->count && all.starts[kind + 1] <= i) kind++;
        all.lengths[i + 1] = all.lengths[i] + drawer->kinds[kind].size;
    }
    return all;
}

static int64_t largest_from(const row *all, int at, int pieces) { return all->lengths[at + pieces] - all->lengths[at]; }
static int64_t smallest_of(const row *all, int pieces) { return largest_from(all, all->count - pieces, pieces); }

/* ---- the table of tails ---- */

/* entry: the tail so far, its last piece of the kind `last`, taken `taken` times running. */
static void add_tails(tail_table *table, tail_entry entry, int last, int taken, int pieces)
{
    if (pieces == 0) {
        tw_array_make_room(table->drawer->arena, &table->entries, table->count, &table->room, sizeof *table->entries);
        table->entries[table->count++] = entry;
        return;
    }
    for (int i = last; i < table->drawer->count; i++) {
        int now = i == last ? taken + 1 : 1;
        if (now > table->drawer->kinds[i].count) continue;
        tail_entry longer = { .sum = entry.sum + table->drawer->kinds[i].size, .first = entry.first, .times = entry.times };
        if (pieces == table->pieces) { longer.first = i; longer.times = 1; }
        else if (i == longer.first) longer.times++;
        add_tails(table, longer, i, now, pieces - 1);
    }
}

static int by_sum_then_ease(const void *left, const void *right)
{
    const tail_entry *a = left, *b = right;
    if (a->sum != b->sum) return a->sum < b->sum ? -1 : 1;
    if (a->first != b->first) return a->first > b->first ? -1 : 1;
    return (a->times > b->times) - (a->times < b->times);
}

static tail_table tails_of(const stack_drawer *drawer, int pieces)
{
    tail_table table = { .drawer = drawer, .pieces = pieces };
    add_tails(&table, (tail_entry){0}, 0, 0, pieces);
    if (table.count > 0) qsort(table.entries, table.count, sizeof *table.entries, by_sum_then_ease);
    size_t kept = 0;
    for (size_t i = 0; i < table.count; i++)
        if (kept == 0 || table.entries[kept - 1].sum != table.entries[i].sum) table.entries[kept++] = table.entries[i];
    table.count = kept;
    return table;
}

static const tail_entry *tail_with(const tail_table *table, int64_t sum)
{
    size_t low = 0, high = table->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (table->entries[middle].sum < sum) low = middle + 1;
        else high = middle;
    }
    return low < table->count && table->entries[low].sum == sum ? &table->entries[low] : NULL;
}

static bool tail_can_follow(const search *here, int64_t sum, int last, int taken)
{
    const tail_entry *tail = tail_with(here->table, sum);
    if (!tail) return false;
    if (tail->first != last) return tail->first > last;
    return tail->times + taken <= here->drawer->kinds[last].count;
}

/* ---- choosing from the largest down ---- */

/* The first kind at or after `from` that is no larger than `most`. */
static int first_not_over(const stack_drawer *drawer, int from, int64_t most)
{
    int low = from, high = drawer->count;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (drawer->kinds[middle].size > most) low = middle + 1;
        else high = middle;
    }
    return low;
}

/* Chooses pieces down to the tail so that `pieces` more, tail included, make up `length`. The piece before was of the kind
 * `last`, taken `taken` times. True: here->picks hold those chosen here. */
static bool choose(search *here, int64_t length, int pieces, int last, int taken)
{
    if (--*here->visits_left < 0) return false;
    here->end = last;
    here->end_taken = taken;
    if (here->table && pieces == here->table->pieces) return tail_can_follow(here, length, last, taken);
    if (pieces == 0) return length == 0;
    const stack_drawer *drawer = here->drawer;
    for (int i = first_not_over(drawer, last, length - smallest_of(here->pieces, pieces - 1)); i < drawer->count; i++) {  // (2)
        int before = i == last ? taken : 0, at = here->pieces->starts[i] + before;
        if (before >= drawer->kinds[i].count) continue;
        if (at + pieces > here->pieces->count || largest_from(here->pieces, at, pieces) < length) break;  // (1)
        here->picks[i]++;
        if (choose(here, length - drawer->kinds[i].size, pieces - 1, i, before + 1)) return true;
        here->picks[i]--;
        if (*here->visits_left < 0) return false;
    }
    return false;
}

static int64_t picked_length(const stack_drawer *drawer, const int *picks)
{
    int64_t length = 0;
    for (int i = 0; i < drawer->count; i++) length += picks[i] * drawer->kinds[i].size;
    return length;
}

static bool stack_of(search *here, int64_t length, int pieces)
{
    if (!choose(here, length, pieces, 0, 0)) return false;
    if (!here->table) return true;
    search tail = *here;  // the tail is known to be there: spell it out, largest pieces first
    long enough = LONG_MAX;
    tail.table = NULL;
    tail.visits_left = &enough;
    bool spelled = choose(&tail, length - picked_length(here->drawer, here->picks), here->table->pieces, here->end, here->end_taken);
    assert(spelled);
    (void)spelled;
    return true;
}

/* Up to 2 pieces no table pays; to 5 one of pairs; beyond that triples, if the drawer is not too large for them. */
static int tail_for(const stack_drawer *drawer, int pieces)
{
    double n = drawer->count;
    int most = n * (n + 1) * (n + 2) / 6 <= TABLE_MOST ? TAIL_MOST : n * (n + 1) / 2 <= TABLE_MOST ? 2 : 0;
    int tail = pieces <= 2 ? 0 : pieces <= 5 ? 2 : 3;
    return tail < most ? tail : most;
}

stack_answer stack_few(const stack_drawer *drawer, int64_t length, int most_pieces, long *visits_left, int *picks, int *piece_count)
{
    assert(length >= 0 && most_pieces >= 0);
    for (int i = 0; i < drawer->count; i++) picks[i] = 0;
    *piece_count = 0;
    if (length == 0) return STACK_FOUND;
    if (drawer->count == 0) return STACK_NONE;
    tail_table table = {0};
    row all = row_of(drawer, most_pieces);
    for (int pieces = 1; pieces <= most_pieces && pieces <= all.count; pieces++) {
        if (smallest_of(&all, pieces) > length) return STACK_NONE;  // nor will more pieces
        if (largest_from(&all, 0, pieces) < length) continue;
        int tail = tail_for(drawer, pieces);
        if (tail != table.pieces) table = tails_of(drawer, tail);
        search here = { .drawer = drawer, .pieces = &all, .table = tail > 0 ? &table : NULL, .visits_left = visits_left, .picks = picks };
        *piece_count = pieces;
        if (stack_of(&here, length, pieces)) return STACK_FOUND;
        if (*visits_left < 0) return STACK_OPEN;
    }
    return STACK_NONE;
}
