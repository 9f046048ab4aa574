// SPDX-License-Identifier: GPL-3.0-or-later
/* Stacks of spacers, by exact search.
 *
 * Sizes become whole steps of 1e-7 mm; spacers of one size become one kind. Then:
 *  1. Every total is a multiple of the grain that all sizes have in common. The multiple nearest to the wanted length
 *     bounds the error from below, and if few pieces make just that, nothing can be better: stack_few(). This answers
 *     sets of gauge blocks, and drawers of sizes with nothing in common, where stacks are dense.
 *  2. Else all sums are listed: stack_lists(). It is exact for any number of pieces, and proves it when there is none.
 *     A drawer whose lists are sure to be short gets only a short try of 1 before.
 *  3. A drawer that fits neither (dozens of sizes with nothing in common to 1e-7 mm, which no shop can measure) gets
 *     a longer try of 1; and at last a search through thinned lists, whose answer is a stack near the wanted length,
 *     but not proved to be the best: `proved` says so. */
#include "setup/spacers.h"

#include "setup/stack.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define FEW_PIECES 60               // step 1: deeper is no longer few
#define SHORT_PIECES 5              // the short try: no table of triples is needed
#define SHORT_VISITS 20000L         // 1 ms
#define FEW_VISITS 400000L          // step 1: some 20 ms
#define LONG_VISITS 30000000L       // step 3: a second or two
#define CHEAP_SUMS 4e6              // under this step 2 takes 15 ms at most
#define MOST_SUMS ((size_t)1 << 23) // step 2: 64 MB
#define MOST_PIECES_IN_ALL 1000000  // all kinds together; a stack of more is none

static int64_t steps_of(double mm) { return (int64_t)llround(mm * STACK_STEPS_PER_MM); }

/* ---- the drawer ---- */

typedef struct { int64_t size; int spacer, count; } owned;

static int by_size_then_place(const void *left, const void *right)
{
    const owned *a = left, *b = right;
    if (a->size != b->size) return a->size > b->size ? -1 : 1;
    return (a->spacer > b->spacer) - (a->spacer < b->spacer);
}

/* All spacers, the largest first, those of one size in the order of the shop. */
static owned *owned_of(tw_arena *arena, const tw_spacer *spacers, int count)
{
    owned *all = TW_NEW_ARRAY(arena, owned, (size_t)count);
    int most = MOST_PIECES_IN_ALL / (count > 0 ? count : 1);
    for (int i = 0; i < count; i++) {
        assert(isfinite(spacers[i].size.value) && spacers[i].size.value > 0.0 && spacers[i].size.value <= TW_LENGTH_MOST_MM);
        assert(spacers[i].count.value >= 0.0);
        double owns = tw_min(spacers[i].count.value, most);
        all[i] = (owned){ .size = steps_of(spacers[i].size.value), .spacer = i, .count = (int)owns };
    }
    if (count > 0) qsort(all, (size_t)count, sizeof *all, by_size_then_place);
    return all;
}

static stack_drawer drawer_of(tw_arena *arena, const owned *all, int count)
{
    stack_kind *kinds = TW_NEW_ARRAY(arena, stack_kind, (size_t)count);
    stack_drawer drawer = { .arena = arena, .kinds = kinds };
    for (int i = 0; i < count; i++) {
        if (all[i].size == 0 || all[i].count == 0) continue;
        if (drawer.count == 0 || kinds[drawer.count - 1].size != all[i].size) kinds[drawer.count++] = (stack_kind){ .size = all[i].size };
        kinds[drawer.count - 1].count += all[i].count;
        drawer.grain = stack_common_grain(all[i].size, drawer.grain);
    }
    return drawer;
}

static int64_t whole_length(const stack_drawer *drawer)
{
    int64_t length = 0;
    for (int i = 0; i < drawer->count; i++) length += drawer->kinds[i].size * drawer->kinds[i].count;
    return length;
}

/* A total at or over the wanted length, not far from it: the smallest pieces one by one until it is reached.
 * At most wanted + the largest size. Only if the whole drawer reaches that far. */
static int64_t length_over(const stack_drawer *drawer, int64_t wanted)
{
    int64_t length = 0;
    for (int i = drawer->count - 1; i >= 0 && length < wanted; i--) {
        int64_t size = drawer->kinds[i].size, lacking = (wanted - length + size - 1) / size;
        length += size * (lacking < drawer->kinds[i].count ? lacking : drawer->kinds[i].count);
    }
    return length;
}

/* ---- one window ---- */

typedef struct { bool found, proved; int64_t total; int *picks; } best_stack;

static best_stack stack_made(const stack_drawer *drawer, int *picks, bool proved)
{
    best_stack best = { .found = true, .proved = proved, .picks = picks };
    for (int i = 0; i < drawer->count; i++) best.total += picks[i] * drawer->kinds[i].size;
    return best;
}

/* The totals that the common grain allows nearest to the wanted length, one or two; 0 when the window has none. */
static int nearest_on_grain(const stack_drawer *drawer, stack_window window, int64_t totals[2])
{
    int64_t grain = drawer->grain > 0 ? drawer->grain : INT64_MAX;
    int64_t below = window.wanted / grain * grain, above = below == window.wanted || drawer->grain == 0 ? below : below + grain;
    bool below_in = below >= window.least, above_in = above <= window.most && above >= window.least;
    if (!below_in && !above_in) return 0;
    int64_t below_by = below_in ? window.wanted - below : INT64_MAX, above_by = above_in ? above - window.wanted : INT64_MAX;
    totals[0] = below_by <= above_by ? below : above;
    totals[1] = above;
    return below_by == above_by && below != above ? 2 : 1;
}

/* Step 1. Of two totals equally near the one with fewer, then larger pieces. */
static stack_answer few_pieces(const stack_drawer *drawer, const int64_t *totals, int total_count, int fewest, long visits, best_stack *best)
{
    stack_answer answer = STACK_NONE;
    for (int i = 0; i < total_count; i++) {
        int *picks = TW_NEW_ARRAY(drawer->arena, int, (size_t)drawer->count), pieces;
        stack_answer here = stack_few(drawer, totals[i], fewest, &visits, picks, &pieces);
        if (here == STACK_OPEN) return STACK_OPEN;
        if (here == STACK_NONE) continue;
        if (answer != STACK_FOUND || pieces < fewest || stack_compare(drawer, picks, best->picks) > 0)
            *best = stack_made(drawer, picks, true);
        answer = STACK_FOUND;
        fewest = pieces;
    }
    return answer;
}

/* Step 2, or its thinned form. True when it settled the matter. */
static bool all_sums(const stack_drawer *drawer, stack_window window, bool thin, best_stack *best)
{
    int *picks = TW_NEW_ARRAY(drawer->arena, int, (size_t)drawer->count);
    stack_answer answer = stack_lists(drawer, window, MOST_SUMS, thin, picks);
    if (answer == STACK_FOUND) *best = stack_made(drawer, picks, !thin);
    else *best = (best_stack){ .proved = answer == STACK_NONE };
    return answer != STACK_OPEN;
}

static best_stack best_in(const stack_drawer *drawer, stack_window window)
{
    best_stack best = { .proved = true };
    int64_t totals[2];
    int total_count = nearest_on_grain(drawer, window, totals);
    if (total_count == 0) return best;
    bool cheap = stack_part(drawer, window).sums <= CHEAP_SUMS;
    int pieces = cheap ? SHORT_PIECES : FEW_PIECES;
    if (few_pieces(drawer, totals, total_count, pieces, cheap ? SHORT_VISITS : FEW_VISITS, &best) == STACK_FOUND) return best;
    if (all_sums(drawer, window, false, &best)) return best;
    if (few_pieces(drawer, totals, total_count, FEW_PIECES, LONG_VISITS, &best) == STACK_FOUND) return best;
    all_sums(drawer, window, true, &best);
    return best;
}

static best_stack best_below(const stack_drawer *drawer, int64_t wanted)
{
    int64_t whole = whole_length(drawer);
    if (wanted < whole) return best_in(drawer, (stack_window){ .wanted = wanted, .least = 0, .most = wanted });
    return (best_stack){ .found = true, .proved = true, .total = whole };
}

static best_stack best_above(const stack_drawer *drawer, int64_t wanted)
{
    if (whole_length(drawer) < wanted) return (best_stack){ .proved = true };
    return best_in(drawer, (stack_window){ .wanted = wanted, .least = wanted, .most = length_over(drawer, wanted) });
}

/* ---- the answer ---- */

static void list_parts(tw_arena *arena, const owned *all, int count, const stack_drawer *drawer, const int *picks, tw_stack *stack)
{
    stack->parts = TW_NEW_ARRAY(arena, tw_stack_part, (size_t)count);
    for (int i = 0, kind = 0; kind < drawer->count; kind++) {
        int left = picks[kind];
        for (; i < count && (all[i].count == 0 || all[i].size >= drawer->kinds[kind].size); i++) {
            int taken = left < all[i].count ? left : all[i].count;
            left -= taken;
            if (taken > 0) stack->parts[stack->part_count++] = (tw_stack_part){ .spacer = all[i].spacer, .count = taken };
        }
        assert(left == 0);
    }
}

static stack_window window_of(int64_t wanted, int64_t tolerance, tw_stack_side side)
{
    stack_window window = { .wanted = wanted, .least = wanted > tolerance ? wanted - tolerance : 0, .most = wanted + tolerance };
    if (side == TW_STACK_NO_LESS) window.least = wanted;
    if (side == TW_STACK_NO_MORE) window.most = wanted;
    return window;
}

/* empty: the window in which there is no stack. */
static void tell_nearest(const stack_drawer *drawer, stack_window empty, tw_stack *stack)
{
    best_stack below = best_below(drawer, empty.least - 1), above = best_above(drawer, empty.most + 1);
    stack->has_below = below.found;
    stack->below_mm = (double)below.total / STACK_STEPS_PER_MM;
    stack->has_above = above.found;
    stack->above_mm = (double)above.total / STACK_STEPS_PER_MM;
    stack->proved = stack->proved && below.proved && above.proved;
}

tw_stack tw_stack_find(tw_arena *arena, const tw_spacer *spacers, int count, double wanted_mm, double tolerance_mm,
                       tw_stack_side side)
{
    assert(wanted_mm >= 0.0 && wanted_mm <= TW_STACK_MOST_MM && tolerance_mm >= 0.0 && count >= 0);
    tw_arena work = { .out_of_memory = arena->out_of_memory };
    const owned *all = owned_of(&work, spacers, count);
    stack_drawer drawer = drawer_of(&work, all, count);
    int64_t wanted = steps_of(wanted_mm), tolerance = steps_of(tw_min(tolerance_mm, TW_STACK_MOST_MM));
    stack_window window = window_of(wanted, tolerance, side);
    best_stack best = best_in(&drawer, window);
    tw_stack stack = { .ok = best.found, .proved = best.proved, .wanted_mm = wanted_mm };
    if (best.found) {
        stack.total_mm = (double)best.total / STACK_STEPS_PER_MM;
        stack.error_mm = (double)(best.total - wanted) / STACK_STEPS_PER_MM;
        list_parts(arena, all, count, &drawer, best.picks, &stack);
    } else {
        tell_nearest(&drawer, window, &stack);
    }
    tw_arena_finish(&work);
    return stack;
}

char *tw_stack_text(tw_arena *arena, const tw_spacer *spacers, const tw_stack *stack)
{
    char *text = tw_format(arena, "%s", stack->part_count == 0 ? "nothing" : "");
    for (int i = 0; i < stack->part_count; i++) {
        const char *plus = i == 0 ? "" : " + ", *name = spacers[stack->parts[i].spacer].name;
        if (stack->parts[i].count == 1) text = tw_format(arena, "%s%s%s", text, plus, name);
        else text = tw_format(arena, "%s%s%d x %s", text, plus, stack->parts[i].count, name);
    }
    return text;
}
