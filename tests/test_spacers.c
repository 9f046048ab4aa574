// SPDX-License-Identifier: GPL-3.0-or-later
/* Stacks of spacers: published stacks of gauge blocks (tests/outside/gauges.tsv), a search through every subset, a plain
 * table over all lengths, and the two searches against each other. */
#include "tables.h"

#include "setup/spacers.h"
#include "setup/stack.h"

#include <time.h>

/* ---- drawers ---- */

#define SPACERS_MOST 400

typedef struct { tw_spacer spacers[SPACERS_MOST]; char names[SPACERS_MOST][24]; int count; } drawer;

static void own(drawer *all, double size_mm, int count)
{
    assert_true(all->count < SPACERS_MOST);
    snprintf(all->names[all->count], sizeof all->names[0], "%.7g", size_mm);
    all->spacers[all->count] = (tw_spacer){ .name = all->names[all->count], .size = { .value = size_mm }, .count = { .value = count } };
    all->count++;
}

static void own_range(drawer *all, int from, int to, double step, double unit_mm)
{
    for (int i = from; i <= to; i++) own(all, i * step * unit_mm, 1);
}

static void own_gauge_set(drawer *all, const char *set)
{
    bool is_inch = strcmp(set, "inch81") == 0, is_88 = strcmp(set, "mm88") == 0;
    double unit = is_inch ? 25.4 : 1.0;
    if (is_inch) {
        own_range(all, 1001, 1009, 0.0001, unit);
        own_range(all, 101, 149, 0.001, unit);
        own_range(all, 1, 19, 0.05, unit);
        own_range(all, 1, 4, 1.0, unit);
        return;
    }
    own(all, 1.0005, 1);
    own_range(all, 1001, 1009, 0.001, unit);
    own_range(all, 101, 149, 0.01, unit);
    own_range(all, 1, is_88 ? 19 : 49, 0.5, unit);
    if (is_88) own_range(all, 1, 10, 10.0, unit);
    else own_range(all, 1, 4, 25.0, unit);
}

/* A shop's own: feeler leaves, drill shanks in 64ths, blocks, brass shims, inch blocks; 80 spacers. */
static void own_mixed_drawer(drawer *all)
{
    static const double blocks[] = { 1, 2, 3, 5, 10, 20, 30, 50, 75, 100 }, inches[] = { 1, 1.5, 2, 3, 4, 0.5, 0.25, 0.75 };
    own_range(all, 4, 35, 1.0 / 64.0, 25.4);
    own_range(all, 1, 20, 0.05, 1.0);
    own_range(all, 1, 10, 0.001, 25.4);
    for (int i = 0; i < 10; i++) own(all, blocks[i], 2);
    for (int i = 0; i < 8; i++) own(all, inches[i] * 25.4, 2);
}

static int pieces_of(const tw_stack *stack)
{
    int pieces = 0;
    for (int i = 0; i < stack->part_count; i++) pieces += stack->parts[i].count;
    return pieces;
}

/* What holds for every answer: the parts make the total, in falling order, and are owned. */
static void check_sound(const drawer *all, const tw_stack *stack, double wanted, double tolerance, tw_stack_side side)
{
    double total = 0.0, before = INFINITY;
    for (int i = 0; i < stack->part_count; i++) {
        const tw_spacer *spacer = &all->spacers[stack->parts[i].spacer];
        assert_true(stack->parts[i].count >= 1 && stack->parts[i].count <= (int)spacer->count.value);
        assert_true(spacer->size.value <= before + 1e-9);
        before = spacer->size.value;
        total += stack->parts[i].count * spacer->size.value;
    }
    assert_true(stack->proved);
    if (!stack->ok) return;
    CHECK_NEAR(total, stack->total_mm, 2e-7 * (pieces_of(stack) + 1));
    CHECK_NEAR(stack->error_mm, stack->total_mm - wanted, 1.5e-7);
    assert_true(fabs(stack->error_mm) <= tolerance + 1e-7);
    if (side == TW_STACK_NO_LESS) assert_true(stack->error_mm >= 0.0);
    if (side == TW_STACK_NO_MORE) assert_true(stack->error_mm <= 0.0);
}

static tw_stack stack_for(tw_arena *arena, const drawer *all, double wanted, double tolerance, tw_stack_side side)
{
    tw_stack stack = tw_stack_find(arena, all->spacers, all->count, wanted, tolerance, side);
    check_sound(all, &stack, wanted, tolerance, side);
    return stack;
}

/* ---- published stacks ---- */

static void check_only(tw_arena *arena, const drawer *all, const tw_stack *stack, const char *only, double unit)
{
    double sizes[16];
    int count = 0;
    for (tw_text left = tw_text_of(only); left.length > 0; count++) {
        size_t read = tw_read_number(left, &sizes[count]);
        assert_true(read > 0);
        if (read < left.length) read++;
        left = (tw_text){ left.bytes + read, left.length - read };
    }
    assert_int_equal(stack->part_count, count);
    for (int i = 0; i < count; i++)
        CHECK_NEAR(all->spacers[stack->parts[count - 1 - i].spacer].size.value, sizes[i] * unit, 1e-9);
    (void)arena;
}

static void gauge_blocks_stack_as_published(void **state)
{
    (void)state;
    table published = table_read("tests/outside/gauges.tsv");
    for (int row = 1; row < published.rows; row++) {
        const char *set = table_text(&published, row, "set"), *only = table_text(&published, row, "only");
        double unit = strcmp(set, "inch81") == 0 ? 25.4 : 1.0, target = table_number(&published, row, "target") * unit;
        drawer all = {0};
        tw_arena arena = {0};
        own_gauge_set(&all, set);
        tw_stack stack = stack_for(&arena, &all, target, 0.0, TW_STACK_NEAREST);
        assert_true(stack.ok);
        CHECK_NEAR(stack.total_mm, target, 1e-7);
        assert_int_equal(pieces_of(&stack), (int)table_number(&published, row, "pieces"));
        if (*only) check_only(&arena, &all, &stack, only, unit);
        tw_arena_finish(&arena);
    }
    assert_int_equal(published.rows, 9);
    table_finish(&published);
}

static void gauge_sets_have_as_many_blocks_as_published(void **state)
{
    (void)state;
    drawer inch = {0}, large = {0}, small = {0};
    own_gauge_set(&inch, "inch81");
    own_gauge_set(&large, "mm112");
    own_gauge_set(&small, "mm88");
    assert_int_equal(inch.count, 81);
    assert_int_equal(large.count, 112);
    assert_int_equal(small.count, 88);
}

/* ---- against every subset ---- */

typedef struct { int64_t error; int pieces; int picks[SPACERS_MOST]; int64_t total; bool found; } every_best;
typedef struct {
    const int64_t *sizes;  // falling
    const int     *counts;
    int            kinds;
    int64_t        wanted, tolerance;
    tw_stack_side  side;
    every_best     best;
    int            picks[SPACERS_MOST];
    int64_t        below, above;
} every;

static void weigh(every *all, int64_t total, int pieces)
{
    int64_t off = total - all->wanted, error = off < 0 ? -off : off;
    if (total <= all->wanted && total > all->below && !(all->side != TW_STACK_NO_LESS && error <= all->tolerance)) all->below = total;
    if (total >= all->wanted && (all->above < 0 || total < all->above)) all->above = total;
    if (error > all->tolerance || (all->side == TW_STACK_NO_LESS && off < 0) || (all->side == TW_STACK_NO_MORE && off > 0)) return;
    every_best *best = &all->best;
    int order = !best->found ? -1 : error != best->error ? (error < best->error ? -1 : 1) : pieces - best->pieces;
    for (int i = 0; order == 0 && i < all->kinds; i++) order = best->picks[i] - all->picks[i];
    if (order >= 0) return;
    best->found = true;
    best->error = error;
    best->pieces = pieces;
    best->total = total;
    memcpy(best->picks, all->picks, sizeof best->picks);
}

static void try_every(every *all, int kind, int64_t total, int pieces)
{
    if (kind == all->kinds) { weigh(all, total, pieces); return; }
    for (int i = 0; i <= all->counts[kind]; i++) {
        all->picks[kind] = i;
        try_every(all, kind + 1, total + i * all->sizes[kind], pieces + i);
    }
    all->picks[kind] = 0;
}

/* Sizes on a grid that the seed chooses: coarse (many ties), fractions of an inch, or steps of 1e-7 mm. */
static int64_t random_size(check_seed *seed, int flavour)
{
    switch (flavour) {
    case 0: return (int64_t)(1 + check_random(seed) % 20) * 5000000;       // 0.5 mm
    case 1: return (int64_t)(1 + check_random(seed) % 40) * 3968750;       // 1/64 in
    case 2: return (int64_t)(1 + check_random(seed) % 300) * 100000;       // 0.01 mm
    default: return (int64_t)(1 + check_random(seed) % 300000000);
    }
}

static int falling(const void *left, const void *right)
{
    const int64_t *a = left, *b = right;
    return (*a < *b) - (*a > *b);
}

static void check_against_every_subset(check_seed *seed)
{
    int64_t sizes[8], whole = 0;
    int counts[8], kinds = 1 + (int)(check_random(seed) % 8), flavour = (int)(check_random(seed) % 5);
    for (int i = 0; i < kinds; i++) sizes[i] = random_size(seed, flavour == 4 ? (int)(check_random(seed) % 4) : flavour);
    qsort(sizes, (size_t)kinds, sizeof *sizes, falling);
    int distinct = 0;
    for (int i = 0; i < kinds; i++)
        if (distinct == 0 || sizes[distinct - 1] != sizes[i]) sizes[distinct++] = sizes[i];
    drawer all = {0};
    for (int i = 0; i < distinct; i++) {
        counts[i] = 1 + (int)(check_random(seed) % (distinct > 5 ? 2 : 4));
        whole += counts[i] * sizes[i];
        own(&all, (double)sizes[i] / 1e7, counts[i]);
    }
    every full = { .sizes = sizes, .counts = counts, .kinds = distinct, .below = -1, .above = -1,
                   .wanted = (int64_t)(check_random(seed) % (uint64_t)(whole + whole / 8 + 1)) };
    if (flavour < 3) full.wanted = full.wanted / 2500000 * 2500000;  // ties of above and below
    full.tolerance = check_random(seed) % 4 == 0 ? 0 : (int64_t)(check_random(seed) % 4000000);
    full.side = (tw_stack_side)(check_random(seed) % 3);
    try_every(&full, 0, 0, 0);
    tw_arena arena = {0};
    tw_stack stack = stack_for(&arena, &all, (double)full.wanted / 1e7, (double)full.tolerance / 1e7, full.side);
    assert_true(stack.ok == full.best.found);
    int picks[8] = {0};
    for (int i = 0; i < stack.part_count; i++) picks[stack.parts[i].spacer] = stack.parts[i].count;
    for (int i = 0; stack.ok && i < distinct; i++) assert_int_equal(picks[i], full.best.picks[i]);
    if (!stack.ok) {
        assert_true(stack.has_below == (full.below >= 0) && stack.has_above == (full.above >= 0));
        if (stack.has_below) CHECK_NEAR(stack.below_mm, (double)full.below / 1e7, 1e-8);
        if (stack.has_above) CHECK_NEAR(stack.above_mm, (double)full.above / 1e7, 1e-8);
    }
    tw_arena_finish(&arena);
}

static void small_drawers_give_the_best_of_every_subset(void **state)
{
    (void)state;
    check_seed seed = { 20260101 };
    for (int i = 0; i < 6000; i++) check_against_every_subset(&seed);
}

/* The search for few pieces alone, with counts that bind: fewest pieces, then largest, or none. */
static void check_few_against_every_subset(check_seed *seed)
{
    int64_t sizes[6];
    int counts[6], kinds = 2 + (int)(check_random(seed) % 5), distinct = 0, picks[6], pieces;
    for (int i = 0; i < kinds; i++) sizes[i] = (int64_t)(1 + check_random(seed) % 14);
    qsort(sizes, (size_t)kinds, sizeof *sizes, falling);
    for (int i = 0; i < kinds; i++)
        if (distinct == 0 || sizes[distinct - 1] != sizes[i]) sizes[distinct++] = sizes[i];
    stack_kind owned[6];
    int64_t whole = 0;
    for (int i = 0; i < distinct; i++) {
        counts[i] = 1 + (int)(check_random(seed) % 3);
        owned[i] = (stack_kind){ .size = sizes[i], .count = counts[i] };
        whole += counts[i] * sizes[i];
    }
    every full = { .sizes = sizes, .counts = counts, .kinds = distinct, .wanted = (int64_t)(check_random(seed) % (uint64_t)(whole + 2)) };
    try_every(&full, 0, 0, 0);
    tw_arena arena = {0};
    long visits = 1000000;
    stack_drawer all = { .arena = &arena, .kinds = owned, .count = distinct, .grain = 1 };
    stack_answer answer = stack_few(&all, full.wanted, 20, &visits, picks, &pieces);
    assert_true(answer == (full.best.found ? STACK_FOUND : STACK_NONE));
    if (full.best.found) assert_int_equal(pieces, full.best.pieces);
    for (int i = 0; full.best.found && i < distinct; i++) assert_int_equal(picks[i], full.best.picks[i]);
    tw_arena_finish(&arena);
}

static void few_pieces_give_the_best_of_every_subset(void **state)
{
    (void)state;
    check_seed seed = { 20260102 };
    for (int i = 0; i < 20000; i++) check_few_against_every_subset(&seed);
}

/* ---- large drawers on a grid, against a plain table: fewest pieces for each length ---- */

#define NOT_MADE 100000

static void check_against_plain_table(const drawer *all, double grain_mm, double wanted, double tolerance, tw_stack_side side)
{
    double whole = 0.0;
    for (int i = 0; i < all->count; i++) whole += all->spacers[i].size.value * all->spacers[i].count.value;
    int cells = (int)lround(whole / grain_mm) + 1, *fewest = malloc((size_t)cells * sizeof *fewest);
    for (int i = 1; i < cells; i++) fewest[i] = NOT_MADE;
    fewest[0] = 0;
    for (int i = 0; i < all->count; i++)
        for (int times = 0, size = (int)lround(all->spacers[i].size.value / grain_mm); times < (int)all->spacers[i].count.value; times++)
            for (int at = cells - 1; at >= size; at--)
                if (fewest[at - size] + 1 < fewest[at]) fewest[at] = fewest[at - size] + 1;
    double error = INFINITY;
    int pieces = NOT_MADE;
    for (int at = 0; at < cells; at++) {
        double off = at * grain_mm - wanted, size = fabs(off);
        bool wrong_side = (side == TW_STACK_NO_LESS && off < -1e-9) || (side == TW_STACK_NO_MORE && off > 1e-9);
        if (fewest[at] == NOT_MADE || wrong_side || size > tolerance + 1e-9 || size > error + 1e-9) continue;
        if (size > error - 1e-9 && fewest[at] >= pieces) continue;
        error = size;
        pieces = fewest[at];
    }
    free(fewest);
    tw_arena arena = {0};
    tw_stack stack = stack_for(&arena, all, wanted, tolerance, side);
    assert_true(stack.ok == (pieces < NOT_MADE));
    if (stack.ok) {
        CHECK_NEAR(fabs(stack.error_mm), error, 1e-7);
        assert_int_equal(pieces_of(&stack), pieces);
    }
    tw_arena_finish(&arena);
}

static void drawers_of_eighty_give_the_least_error_with_the_fewest_pieces(void **state)
{
    (void)state;
    check_seed seed = { 80 };
    for (int round_of = 0; round_of < 25; round_of++) {
        drawer all = {0};
        for (int i = 0; i < 80; i++) own(&all, (double)(1 + check_random(&seed) % (i % 3 ? 200 : 4000)) * 0.01, 1 + (int)(check_random(&seed) % 2));
        for (int side = 0; side < 3; side++)
            check_against_plain_table(&all, 0.01, floor(check_between(&seed, 0.0, 1500.0) * 200.0) / 200.0, 0.05, (tw_stack_side)side);
    }
}

static void inch_set_gives_the_least_error_with_the_fewest_pieces(void **state)
{
    (void)state;
    drawer all = {0};
    check_seed seed = { 81 };
    own_gauge_set(&all, "inch81");
    for (int i = 0; i < 12; i++)
        check_against_plain_table(&all, 0.00254, round(check_between(&seed, 0.0, 700.0) * 100.0) / 100.0, 0.05, (tw_stack_side)(i % 3));
}

static void coarse_blocks_give_the_least_error_with_the_fewest_pieces(void **state)
{
    (void)state;
    check_seed seed = { 5 };
    for (int round_of = 0; round_of < 200; round_of++) {
        drawer all = {0};
        int kinds = 3 + (int)(check_random(&seed) % 12);
        for (int i = 0; i < kinds; i++) own(&all, (double)(1 + check_random(&seed) % 60) * 0.5, 1 + (int)(check_random(&seed) % 20));
        check_against_plain_table(&all, 0.5, floor(check_between(&seed, 0.0, 900.0) * 4.0) / 4.0, check_between(&seed, 0.0, 1.0), (tw_stack_side)(round_of % 3));
    }
}

/* ---- the two searches against each other, where no plain table fits ---- */

static void searches_agree_on_drawers_with_nothing_in_common(void **state)
{
    (void)state;
    check_seed seed = { 38 };
    int agreed = 0;
    for (int round_of = 0; round_of < 12; round_of++) {
        tw_arena arena = {0};
        stack_kind kinds[32];
        int64_t sizes[32], wanted = 0;
        for (int i = 0; i < 32; i++) sizes[i] = 10000000 + (int64_t)(check_random(&seed) % 200000000);
        qsort(sizes, 32, sizeof *sizes, falling);
        for (int i = 0; i < 32; i++) kinds[i] = (stack_kind){ .size = sizes[i], .count = 1 };
        for (int i = 0; i < 5; i++) wanted += sizes[check_random(&seed) % 32];
        stack_drawer all = { .arena = &arena, .kinds = kinds, .count = 32, .grain = 1 };
        int few[32], lists[32], pieces;
        long visits = 100000000;
        stack_answer a = stack_few(&all, wanted, 32, &visits, few, &pieces);
        stack_answer b = stack_lists(&all, (stack_window){ wanted, wanted, wanted }, (size_t)1 << 22, false, lists);
        assert_true(a == b && a != STACK_OPEN);
        if (a == STACK_FOUND) assert_int_equal(stack_compare(&all, few, lists), 0);
        agreed += a == STACK_FOUND;
        tw_arena_finish(&arena);
    }
    assert_true(agreed > 0);
}

/* A wanted length half-way between two points of the grid: both totals are as near, pieces decide. */
static void searches_agree_when_below_and_above_are_as_near(void **state)
{
    (void)state;
    check_seed seed = { 21 };
    int above = 0, below = 0;
    for (int round_of = 0; round_of < 12; round_of++) {
        tw_arena arena = {0};
        drawer all = {0};
        stack_kind kinds[80];
        int64_t sizes[80];
        for (int i = 0; i < 80; i++) sizes[i] = (int64_t)(100 + check_random(&seed) % 8000) * 40000;  // 0.004 mm
        qsort(sizes, 80, sizeof *sizes, falling);
        int count = 0;
        for (int i = 0; i < 80; i++)
            if (i == 0 || sizes[i] != sizes[i - 1]) kinds[count++] = (stack_kind){ .size = sizes[i], .count = 1 };
        for (int i = 0; i < count; i++) own(&all, (double)kinds[i].size / 1e7, 1);
        int64_t wanted = (int64_t)(check_random(&seed) % 20000) * 40000 + 20000;
        stack_drawer steps = { .arena = &arena, .kinds = kinds, .count = count, .grain = 40000 };
        int lists[80], found[80] = {0};
        assert_true(stack_lists(&steps, (stack_window){ wanted, wanted - 20000, wanted + 20000 }, (size_t)1 << 24, false, lists) == STACK_FOUND);
        tw_stack stack = stack_for(&arena, &all, (double)wanted / 1e7, 0.05, TW_STACK_NEAREST);
        for (int i = 0; i < stack.part_count; i++) found[stack.parts[i].spacer] = stack.parts[i].count;
        assert_int_equal(stack_compare(&steps, found, lists), 0);
        above += stack.error_mm > 0.0;
        below += stack.error_mm < 0.0;
        tw_arena_finish(&arena);
    }
    assert_true(above > 0 && below > 0);
}

static void search_at_its_limit_says_that_it_is_open(void **state)
{
    (void)state;
    tw_arena arena = {0};
    stack_kind kinds[40];
    for (int i = 0; i < 40; i++) kinds[i] = (stack_kind){ .size = 400000000 - i * 7654321, .count = 1 };
    stack_drawer all = { .arena = &arena, .kinds = kinds, .count = 40, .grain = 1 };
    int picks[40], pieces;
    long visits = 1000;
    assert_true(stack_few(&all, 4000000001, 40, &visits, picks, &pieces) == STACK_OPEN);
    assert_true(stack_lists(&all, (stack_window){ 4000000001, 4000000001, 4000000001 }, 1000, false, picks) == STACK_OPEN);
    tw_arena_finish(&arena);
}

static void thinned_search_still_gives_a_stack_close_by(void **state)
{
    (void)state;
    tw_arena arena = {0};
    check_seed seed = { 3 };
    int64_t sizes[60];
    stack_kind kinds[60];
    for (int i = 0; i < 60; i++) sizes[i] = 50000000 + (int64_t)(check_random(&seed) % 100000000);
    qsort(sizes, 60, sizeof *sizes, falling);
    for (int i = 0; i < 60; i++) kinds[i] = (stack_kind){ .size = sizes[i], .count = 1 };
    stack_drawer all = { .arena = &arena, .kinds = kinds, .count = 60, .grain = 1 };
    int picks[60];
    int64_t total = 0, wanted = 3000000000;
    assert_true(stack_lists(&all, (stack_window){ wanted, wanted - 500000, wanted + 500000 }, 0, true, picks) == STACK_FOUND);
    for (int i = 0; i < 60; i++) total += picks[i] * sizes[i];
    assert_true(total - wanted < 100 && wanted - total < 100);
    tw_arena_finish(&arena);
}

/* ---- by hand ---- */

static void nothing_wanted_is_the_empty_stack(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 5.0, 2);
    for (int side = 0; side < 3; side++) {
        tw_stack stack = stack_for(&arena, &all, 0.0, 0.0, (tw_stack_side)side);
        assert_true(stack.ok && stack.part_count == 0 && stack.total_mm == 0.0);
        assert_string_equal(tw_stack_text(&arena, all.spacers, &stack), "nothing");
    }
    tw_arena_finish(&arena);
}

static void fewest_pieces_win_before_largest(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 9.0, 1);
    own(&all, 6.0, 2);
    own(&all, 2.0, 1);
    own(&all, 1.0, 1);
    tw_stack stack = stack_for(&arena, &all, 12.0, 0.0, TW_STACK_NEAREST);  // not 9 + 2 + 1
    assert_string_equal(tw_stack_text(&arena, all.spacers, &stack), "2 x 6");
    tw_arena_finish(&arena);
}

static void largest_pieces_win_among_as_many(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 5.0, 1);
    own(&all, 7.0, 1);
    own(&all, 4.0, 1);
    own(&all, 8.0, 1);
    tw_stack stack = stack_for(&arena, &all, 12.0, 0.0, TW_STACK_NEAREST);
    assert_string_equal(tw_stack_text(&arena, all.spacers, &stack), "8 + 4");
    tw_arena_finish(&arena);
}

static void smallest_error_wins_before_fewest_pieces(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 10.0, 1);
    own(&all, 5.0, 1);
    own(&all, 3.0, 1);
    own(&all, 2.01, 1);
    tw_stack stack = stack_for(&arena, &all, 10.01, 0.05, TW_STACK_NEAREST);
    assert_string_equal(tw_stack_text(&arena, all.spacers, &stack), "5 + 3 + 2.01");
    CHECK_NEAR(stack.error_mm, 0.0, 1e-9);
    tw_arena_finish(&arena);
}

static void asked_side_is_kept_even_when_the_other_is_nearer(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 9.99, 1);
    own(&all, 10.04, 1);
    CHECK_NEAR(stack_for(&arena, &all, 10.0, 0.05, TW_STACK_NEAREST).error_mm, -0.01, 1e-7);
    CHECK_NEAR(stack_for(&arena, &all, 10.0, 0.05, TW_STACK_NO_LESS).error_mm, 0.04, 1e-7);
    CHECK_NEAR(stack_for(&arena, &all, 10.03, 0.05, TW_STACK_NO_MORE).error_mm, -0.04, 1e-7);
    tw_arena_finish(&arena);
}

static void error_of_just_the_tolerance_is_within_it(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 10.05, 1);
    assert_true(stack_for(&arena, &all, 10.0, 0.05, TW_STACK_NEAREST).ok);
    assert_false(stack_for(&arena, &all, 10.0, 0.0499999, TW_STACK_NEAREST).ok);
    tw_arena_finish(&arena);
}

static void spacer_is_used_no_more_often_than_it_is_owned(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 1.0, 37);
    own(&all, 50.0, 0);
    assert_true(stack_for(&arena, &all, 37.0, 0.0, TW_STACK_NEAREST).ok);
    tw_stack stack = stack_for(&arena, &all, 50.0, 0.05, TW_STACK_NEAREST);
    assert_true(!stack.ok && stack.has_below && !stack.has_above);
    CHECK_NEAR(stack.below_mm, 37.0, 1e-9);
    tw_arena_finish(&arena);
}

static void spacers_of_one_size_are_taken_in_the_order_of_the_shop(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 9.525, 1);
    own(&all, 5.0, 1);
    own(&all, 9.525, 3);
    all.spacers[0].name = "drill 3/8";
    all.spacers[2].name = "shank 3/8";
    tw_stack stack = stack_for(&arena, &all, 28.575, 0.0, TW_STACK_NEAREST);
    assert_string_equal(tw_stack_text(&arena, all.spacers, &stack), "drill 3/8 + 2 x shank 3/8");
    tw_arena_finish(&arena);
}

static void length_beyond_reach_gives_the_nearest_below_and_above(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 10.0, 1);
    own(&all, 12.0, 1);
    own(&all, 30.0, 1);
    tw_stack stack = stack_for(&arena, &all, 25.0, 0.05, TW_STACK_NEAREST);
    assert_true(!stack.ok && stack.has_below && stack.has_above);
    CHECK_NEAR(stack.below_mm, 22.0, 1e-9);
    CHECK_NEAR(stack.above_mm, 30.0, 1e-9);
    stack = stack_for(&arena, &all, 4.0, 0.05, TW_STACK_NEAREST);
    assert_true(!stack.ok && stack.has_below && stack.below_mm == 0.0);
    CHECK_NEAR(stack.above_mm, 10.0, 1e-9);
    tw_arena_finish(&arena);
}

static void empty_drawer_stacks_nothing(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    tw_stack stack = stack_for(&arena, &all, 4.0, 0.05, TW_STACK_NEAREST);
    assert_true(!stack.ok && stack.has_below && stack.below_mm == 0.0 && !stack.has_above);
    assert_true(stack_for(&arena, &all, 0.04, 0.05, TW_STACK_NEAREST).ok);
    tw_arena_finish(&arena);
}

static void sums_of_decimals_do_not_drift(void **state)
{
    (void)state;
    tw_arena arena = {0};
    drawer all = {0};
    own(&all, 0.1, 1000);
    tw_stack stack = stack_for(&arena, &all, 70.0, 0.0, TW_STACK_NEAREST);  // 700 times 0.1 in doubles is not 70
    assert_true(stack.ok && stack.error_mm == 0.0 && pieces_of(&stack) == 700);
    tw_arena_finish(&arena);
}

/* ---- speed ---- */

static double slowest_ms(const drawer *all, double from, double to, int times)
{
    check_seed seed = { 9 };
    double slowest = 0.0;
    for (int i = 0; i < times; i++) {
        tw_arena arena = {0};
        clock_t start = clock();
        stack_for(&arena, all, round(check_between(&seed, from, to) * 1e4) / 1e4, 0.05, (tw_stack_side)(i % 3));
        slowest = tw_max(slowest, 1000.0 * (double)(clock() - start) / CLOCKS_PER_SEC);
        tw_arena_finish(&arena);
    }
    return slowest;
}

static void drawer_of_eighty_is_answered_at_once(void **state)
{
    (void)state;
    drawer mixed = {0}, inch = {0}, metric = {0};
    own_mixed_drawer(&mixed);
    own_gauge_set(&inch, "inch81");
    own_gauge_set(&metric, "mm112");
    assert_int_equal(mixed.count, 80);
    const struct { const char *name; const drawer *all; } each[] = { { "mixed", &mixed }, { "inch81", &inch }, { "mm112", &metric } };
    for (int i = 0; i < 3; i++) {
        double slowest = slowest_ms(each[i].all, 1.0, 400.0, 40);
        print_message("# %s: slowest of 40 stacks %.1f ms of processor time\n", each[i].name, slowest);
        assert_true(slowest < 1000.0);  // some 30 ms; the limit leaves room for sanitizers, valgrind and a busy machine
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gauge_blocks_stack_as_published),
        cmocka_unit_test(gauge_sets_have_as_many_blocks_as_published),
        cmocka_unit_test(small_drawers_give_the_best_of_every_subset),
        cmocka_unit_test(few_pieces_give_the_best_of_every_subset),
        cmocka_unit_test(drawers_of_eighty_give_the_least_error_with_the_fewest_pieces),
        cmocka_unit_test(inch_set_gives_the_least_error_with_the_fewest_pieces),
        cmocka_unit_test(coarse_blocks_give_the_least_error_with_the_fewest_pieces),
        cmocka_unit_test(searches_agree_on_drawers_with_nothing_in_common),
        cmocka_unit_test(searches_agree_when_below_and_above_are_as_near),
        cmocka_unit_test(search_at_its_limit_says_that_it_is_open),
        cmocka_unit_test(thinned_search_still_gives_a_stack_close_by),
        cmocka_unit_test(nothing_wanted_is_the_empty_stack),
        cmocka_unit_test(fewest_pieces_win_before_largest),
        cmocka_unit_test(largest_pieces_win_among_as_many),
        cmocka_unit_test(smallest_error_wins_before_fewest_pieces),
        cmocka_unit_test(asked_side_is_kept_even_when_the_other_is_nearer),
        cmocka_unit_test(error_of_just_the_tolerance_is_within_it),
        cmocka_unit_test(spacer_is_used_no_more_often_than_it_is_owned),
        cmocka_unit_test(spacers_of_one_size_are_taken_in_the_order_of_the_shop),
        cmocka_unit_test(length_beyond_reach_gives_the_nearest_below_and_above),
        cmocka_unit_test(empty_drawer_stacks_nothing),
        cmocka_unit_test(sums_of_decimals_do_not_drift),
        cmocka_unit_test(drawer_of_eighty_is_answered_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
