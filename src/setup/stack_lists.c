// SPDX-License-Identifier: GPL-3.0-or-later
/* The best stack of any number of pieces: two sorted lists of sums.
 *
 * The kinds are parted in two groups. Each group gets the sorted list of all lengths that its pieces can make, with the
 * fewest pieces for each: kind by kind, from the smallest size up, the list is merged with itself moved by 1, 2, 4 ...
 * pieces of the kind (so that any number from 0 to the count is reached). The two lists are then walked from opposite
 * ends; for each sum of the first group the nearest partner below and above the wanted length is met in turn, which
 * sees every best total. (Horowitz and Sahni, Journal of the ACM 21, 1974, with equal sums taken together.)
 *
 * Lists stay short because a group's sums lie on a grid: no more than (length / common grain of its sizes) differ. The
 * parting is chosen for that: gauge blocks of whole and of broken sizes, or inch sizes and millimetre sizes, each
 * make a coarse grid alone and a very fine one together (stack_part.c). Where no parting promises short lists, each
 * kind goes to the list that is the shorter one at that time. A sum is dropped when it is over the window, or when
 * all pieces that are not in its list cannot lift it to the window.
 *
 * The list before each kind is kept, so a stack is read back from the largest kind down: as many of the kind as leave
 * a sum that was in the list before, with the pieces that are left. Taking as many as can be gives the largest pieces. */
#include "setup/stack.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#define COUNT_BITS 20  // a sum and its number of pieces share one word: sum * 2^20 + pieces
#define THIN_TO 50000  // sums that are kept of a list that is thinned
#define PROMISING_SUMS 2e7  // a parting that may hold more than this promises nothing

typedef struct { int64_t *words; size_t count; } sum_list;  // ascending; every sum once, with its fewest pieces

typedef struct {
    const stack_drawer *drawer;
    int                *members;  // kinds, the smallest size first
    int                 count;
    sum_list           *before;   // [count + 1]: the list before each member is added; at the end the whole
    int64_t             others;   // length of all usable pieces that are not members
} group;

typedef struct {
    const stack_drawer *drawer;
    stack_window        window;
    size_t              sums_left;  // how many more may be held
    bool                thin;
    sum_list            work[2];    // room for merging
    size_t              room[2];
} builder;

static int64_t word_of(int64_t sum, int64_t pieces) { return sum * (INT64_C(1) << COUNT_BITS) + pieces; }
static int64_t sum_of(int64_t word) { return word >> COUNT_BITS; }
static int64_t pieces_of(int64_t word) { return word & ((INT64_C(1) << COUNT_BITS) - 1); }

/* ---- building one list ---- */

static void make_work_room(builder *here, int side, size_t wanted)
{
    if (here->room[side] >= wanted) return;
    here->room[side] = wanted * 2;
    here->work[side].words = TW_NEW_ARRAY(here->drawer->arena, int64_t, here->room[side]);
}

/* from and from moved by `step`, merged into *to; sums outside [least, most] dropped. */
static void merge_moved(const sum_list *from, int64_t step, int64_t least, int64_t most, sum_list *to)
{
    size_t kept = 0, plain = 0, moved = 0, count = from->count;
    int64_t last_sum = -1;
    while (moved < count) {
        int64_t a = plain < count ? from->words[plain] : INT64_MAX, b = from->words[moved] + step;
        int64_t next = a < b ? a : b;
        plain += a <= b;
        moved += b <= a;
        int64_t sum = sum_of(next);
        if (sum > most) break;
        if (sum == last_sum || sum < least) continue;
        to->words[kept++] = next;
        last_sum = sum;
    }
    to->count = kept;
}

/* Keeps the first sum of each of THIN_TO equal parts of the span. */
static void thin_out(sum_list *list)
{
    if (list->count <= THIN_TO) return;
    int64_t first = sum_of(list->words[0]), part = (sum_of(list->words[list->count - 1]) - first) / THIN_TO + 1;
    size_t kept = 0;
    int64_t last_part = -1;
    for (size_t i = 0; i < list->count; i++) {
        int64_t here = (sum_of(list->words[i]) - first) / part;
        if (here == last_part) continue;
        list->words[kept++] = list->words[i];
        last_part = here;
    }
    list->count = kept;
}

/* The list with up to `count` pieces of the kind added: moves by 1, 2, 4 ... and the rest. beyond: what all that is not
 * added yet can give. Returns the side of the work room that holds it, or -1 at the limit. */
static int add_kind(builder *here, const sum_list *list, int64_t size, int64_t count, int64_t beyond)
{
    int side = 0;
    const sum_list *from = list;
    for (int64_t step = 1; count > 0; step *= 2) {
        int64_t now = step < count ? step : count;
        count -= now;
        make_work_room(here, side, from->count * 2);
        merge_moved(from, word_of(now * size, now), here->window.least - beyond - count * size, here->window.most, &here->work[side]);
        if (here->thin) thin_out(&here->work[side]);
        else if (here->work[side].count > here->sums_left) return -1;
        from = &here->work[side];
        side = 1 - side;
    }
    return 1 - side;
}

static void start_group(group *all, const stack_drawer *drawer, int64_t whole)
{
    size_t count = (size_t)drawer->count;
    *all = (group){ .drawer = drawer, .others = whole, .members = TW_NEW_ARRAY(drawer->arena, int, count),
                    .before = TW_NEW_ARRAY(drawer->arena, sum_list, count + 1) };
    all->before[0] = (sum_list){ TW_NEW(drawer->arena, int64_t), 1 };
}

static bool add_member(builder *here, group *all, int member, int64_t usable)
{
    int64_t size = here->drawer->kinds[member].size;
    all->others -= usable * size;
    int side = add_kind(here, &all->before[all->count], size, usable, all->others);
    if (side < 0) return false;
    const sum_list *made = &here->work[side];
    if (!here->thin) here->sums_left -= made->count;
    sum_list *kept = &all->before[all->count + 1];
    *kept = (sum_list){ TW_NEW_ARRAY(here->drawer->arena, int64_t, made->count), made->count };
    if (made->count > 0) memcpy(kept->words, made->words, made->count * sizeof *made->words);
    all->members[all->count++] = member;
    return true;
}

static size_t length_of_list(const group *all) { return all->before[all->count].count; }

static bool build(builder *here, group groups[2])
{
    const stack_drawer *drawer = here->drawer;
    int64_t whole = 0;
    for (int i = 0; i < drawer->count; i++) whole += stack_usable(drawer->kinds[i], here->window) * drawer->kinds[i].size;
    for (int i = 0; i < 2; i++) start_group(&groups[i], drawer, whole);
    stack_parting parting = stack_part(drawer, here->window);
    bool promises = parting.sums <= PROMISING_SUMS;
    for (int i = drawer->count - 1; i >= 0; i--) {
        int64_t usable = stack_usable(drawer->kinds[i], here->window);
        int to = promises ? parting.second[i] : length_of_list(&groups[1]) < length_of_list(&groups[0]);
        if (usable > 0 && !add_member(here, &groups[to], i, usable)) return false;
    }
    return true;
}

/* ---- reading a stack back ---- */

static bool holds(const sum_list *list, int64_t word)
{
    size_t low = 0, high = list->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (list->words[middle] < word) low = middle + 1;
        else high = middle;
    }
    return low < list->count && list->words[low] == word;
}

static void read_back(const group *all, stack_window window, int64_t word, int *picks)
{
    for (int i = all->count - 1; i >= 0; i--) {
        stack_kind kind = all->drawer->kinds[all->members[i]];
        int64_t times = stack_usable(kind, window), fit = sum_of(word) / kind.size;
        if (times > fit) times = fit;
        if (times > pieces_of(word)) times = pieces_of(word);
        while (times > 0 && !holds(&all->before[i], word - word_of(times * kind.size, times))) times--;
        picks[all->members[i]] = (int)times;
        word -= word_of(times * kind.size, times);
    }
    assert(word == 0);
}

/* ---- the best pair ---- */

typedef struct {
    const group *groups;
    stack_window window;
    bool         found, read;     // read: picks are those of the pair
    int64_t      error, pieces;   // of the best
    int64_t      words[2];
    int         *picks, *other;
} pairing;

static void read_pair(const pairing *best, const int64_t words[2], int *picks)
{
    for (int i = 0; i < 2; i++) read_back(&best->groups[i], best->window, words[i], picks);
}

static void take_pair(pairing *best, int64_t a, int64_t b)
{
    int64_t total = sum_of(a) + sum_of(b), pieces = pieces_of(a) + pieces_of(b), words[2] = { a, b };
    if (total < best->window.least || total > best->window.most) return;
    int64_t error = llabs(total - best->window.wanted);
    if (best->found && (error > best->error || (error == best->error && pieces > best->pieces))) return;
    bool tie = best->found && error == best->error && pieces == best->pieces;
    if (tie) {
        if (!best->read) read_pair(best, best->words, best->picks);
        best->read = true;
        read_pair(best, words, best->other);
        if (stack_compare(best->groups[0].drawer, best->other, best->picks) <= 0) return;
        int *swap = best->picks;
        best->picks = best->other;
        best->other = swap;
    }
    best->found = true;
    best->read = tie;
    best->error = error;
    best->pieces = pieces;
    memcpy(best->words, words, sizeof words);
}

static void walk(pairing *best)
{
    const sum_list *up = &best->groups[0].before[best->groups[0].count], *down = &best->groups[1].before[best->groups[1].count];
    size_t below = down->count;  // down->words[below - 1] is the largest partner that does not lead over the wanted length
    for (size_t i = 0; i < up->count; i++) {
        int64_t rest = best->window.wanted - sum_of(up->words[i]);
        while (below > 0 && sum_of(down->words[below - 1]) > rest) below--;
        if (below > 0) take_pair(best, up->words[i], down->words[below - 1]);
        if (below < down->count) take_pair(best, up->words[i], down->words[below]);
    }
}

stack_answer stack_lists(const stack_drawer *drawer, stack_window window, size_t most_sums, bool thin, int *picks)
{
    assert(window.least >= 0 && window.least <= window.wanted && window.wanted <= window.most && window.most < (INT64_C(1) << 42));
    group groups[2];
    builder here = { .drawer = drawer, .window = window, .sums_left = most_sums, .thin = thin };
    if (!build(&here, groups)) return STACK_OPEN;
    pairing best = { .groups = groups, .window = window, .picks = TW_NEW_ARRAY(drawer->arena, int, (size_t)drawer->count),
                     .other = TW_NEW_ARRAY(drawer->arena, int, (size_t)drawer->count) };
    walk(&best);
    if (!best.found) return thin ? STACK_OPEN : STACK_NONE;
    if (!best.read) read_pair(&best, best.words, best.picks);
    if (drawer->count > 0) memcpy(picks, best.picks, (size_t)drawer->count * sizeof *picks);
    return STACK_FOUND;
}
