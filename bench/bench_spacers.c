// SPDX-License-Identifier: GPL-3.0-or-later
/* Stacks of spacers: median and slowest of many wanted lengths, for drawers of 80 and more. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "setup/spacers.h"

#define ROUNDS 200
#define MOST 200

typedef struct { const char *name; tw_spacer spacers[MOST]; int count; uint64_t seed; } drawer;

static void own(drawer *all, double size_mm, int count)
{
    all->spacers[all->count++] = (tw_spacer){ .name = "spacer", .size = { .value = size_mm }, .count = { .value = count } };
}

static void own_range(drawer *all, int from, int to, double step_mm)
{
    for (int i = from; i <= to; i++) own(all, i * step_mm, 1);
}

static double random_between(drawer *all, double least, double most)
{
    all->seed = all->seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return least + (most - least) * (double)(all->seed >> 11) / 9007199254740992.0;
}

static void own_inch_set(drawer *all)
{
    own_range(all, 1001, 1009, 0.00254);
    own_range(all, 101, 149, 0.0254);
    own_range(all, 1, 19, 1.27);
    own_range(all, 1, 4, 25.4);
}

static void own_metric_set(drawer *all)
{
    own(all, 1.0005, 1);
    own_range(all, 1001, 1009, 0.001);
    own_range(all, 101, 149, 0.01);
    own_range(all, 1, 49, 0.5);
    own_range(all, 1, 4, 25.0);
}

static void own_mixed(drawer *all)
{
    static const double blocks[] = { 1, 2, 3, 5, 10, 20, 30, 50, 75, 100 };
    own_range(all, 4, 43, 25.4 / 64.0);
    own_range(all, 1, 20, 0.05);
    own_range(all, 1, 10, 0.0254);
    for (int i = 0; i < 10; i++) own(all, blocks[i], 2);
}

static void own_measured(drawer *all)
{
    for (int i = 0; i < 40; i++) own(all, round(random_between(all, 0.05, 60.0) * 1e3) / 1e3, 1);
    for (int i = 0; i < 40; i++) own(all, round(random_between(all, 0.002, 2.0) * 1e4) / 1e4 * 25.4, 1);
}

static void own_nothing_in_common(drawer *all)
{
    for (int i = 0; i < 80; i++) own(all, random_between(all, 0.05, 60.0), 1);
}

static double now_ms(void)
{
    struct timespec time;
    timespec_get(&time, TIME_UTC);
    return (double)time.tv_sec * 1e3 + (double)time.tv_nsec / 1e6;
}

static int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void measure(drawer *all)
{
    double times[ROUNDS];
    int stacked = 0, proved = 0;
    for (int i = 0; i < ROUNDS; i++) {
        tw_arena arena = {0};
        double wanted = round(random_between(all, 1.0, 400.0) * 1e3) / 1e3, start = now_ms();
        tw_stack stack = tw_stack_find(&arena, all->spacers, all->count, wanted, 0.05, (tw_stack_side)(i % 3));
        times[i] = now_ms() - start;
        stacked += stack.ok;
        proved += stack.proved;
        tw_arena_finish(&arena);
    }
    qsort(times, ROUNDS, sizeof *times, rising);
    printf("%-42s %4d spacers   median %7.2f ms   slowest %7.2f ms   %3d of %d stacked, %3d proved\n", all->name, all->count,
           times[ROUNDS / 2], times[ROUNDS - 1], stacked, ROUNDS, proved);
}

int main(void)
{
    static const struct { const char *name; void (*own)(drawer *); } drawers[] = {
        { "gauge blocks, inch", own_inch_set }, { "gauge blocks, metric", own_metric_set }, { "drills, leaves, shims and blocks", own_mixed },
        { "measured to 0.001 mm and 0.0001 in", own_measured }, { "sizes with nothing in common", own_nothing_in_common } };
    puts("stacks of spacers for 200 lengths of 1 to 400 mm, within 0.05 mm");
    for (size_t i = 0; i < sizeof drawers / sizeof drawers[0]; i++) {
        drawer all = { .name = drawers[i].name, .seed = 1 };
        drawers[i].own(&all);
        measure(&all);
    }
    return 0;
}
