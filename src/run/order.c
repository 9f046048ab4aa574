// SPDX-License-Identifier: GPL-3.0-or-later
/* The order of the operations: honest and simple; the optimum is another matter.
 *
 * Stage by stage, always among the operations for which nothing has to be waited any more:
 *   plain     the first as listed
 *   staying   go on with what needs no change; else the one with the fewest changes at the same machine; only when there is
 *             nothing left to do there, walk to where the fewest changes are
 *   cheapest  the fewest changes anywhere, the walk counted as one
 * The one of the three with the fewest changes in all is taken (staying before cheapest before plain when they tie), so the
 * result is never worse than the list as it stands. Operations are handled by kind (all of one kind are set alike), so
 * the time grows with the number of works plus kinds squared, not with works squared. */
#include "run/order.h"

#include <assert.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

typedef enum order_rule { RULE_STAYING, RULE_CHEAPEST, RULE_PLAIN, RULE_COUNT } order_rule;

typedef struct kind_queue { int first, last; } kind_queue;  // of operations of one kind that are ready, -1 when empty

/* A run being put together. */
typedef struct order_walk {
    const tw_operations *operations;
    int   *order;
    int    done;
    int   *waits;
    int    stage;             // that is being worked through
    kind_queue *ready;             // [kind_count], for staying and cheapest
    int   *next;              // [count], links of the queues
    int   *active;            // kinds with something ready
    int    active_count;
    int   *heap;              // ready operations, lowest index on top, for plain
    int    heap_count;
    const tw_operation *last[TW_WAY_COUNT];  // what stands set at each machine
    int    here;              // way of the last operation, -1 at first
    order_rule rule;
} order_walk;

int tw_order_changes(const tw_operations *operations, const int *order)
{
    const tw_operation *last[TW_WAY_COUNT] = { 0 };
    int changes = 0, here = -1;
    for (int i = 0; i < operations->count; i++) {
        const tw_operation *operation = &operations->items[order[i]];
        changes += tw_operation_changes(last[operation->way], operation) + (here >= 0 && here != (int)operation->way);
        last[operation->way] = operation;
        here = (int)operation->way;
    }
    return changes;
}

/* ---- ready operations: a heap for the plain order, a queue for each kind otherwise ---- */

static void heap_push(order_walk *walk, int value)
{
    int at = walk->heap_count++;
    while (at > 0 && walk->heap[(at - 1) / 2] > value) {
        walk->heap[at] = walk->heap[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    walk->heap[at] = value;
}

static int heap_pop(order_walk *walk)
{
    int top = walk->heap[0], value = walk->heap[--walk->heap_count], at = 0;
    for (;;) {
        int child = 2 * at + 1;
        if (child + 1 < walk->heap_count && walk->heap[child + 1] < walk->heap[child]) child++;
        if (child >= walk->heap_count || walk->heap[child] >= value) break;
        walk->heap[at] = walk->heap[child];
        at = child;
    }
    walk->heap[at] = value;
    return top;
}

static void make_ready(order_walk *walk, int index)
{
    if (walk->rule == RULE_PLAIN) {
        heap_push(walk, index);
        return;
    }
    int kind = walk->operations->items[index].kind;
    kind_queue *queue = &walk->ready[kind];
    walk->next[index] = -1;
    if (queue->first < 0) {
        queue->first = index;
        walk->active[walk->active_count++] = kind;
    } else walk->next[queue->last] = index;
    queue->last = index;
}

static int changes_to(const order_walk *walk, int kind)
{
    const tw_operation *operation = &walk->operations->items[walk->ready[kind].first];
    bool stays = walk->here < 0 || walk->here == (int)operation->way;
    int walking = stays ? 0 : walk->rule == RULE_STAYING ? TW_KEPT_COUNT + 1 : 1;
    return tw_operation_changes(walk->last[operation->way], operation) + walking;
}

/* The kind with the fewest changes; of equal ones the one whose first operation is listed first. */
static int pop_of_best_kind(order_walk *walk)
{
    int best = 0, fewest = INT_MAX;
    for (int i = 0; i < walk->active_count; i++) {
        int changes = changes_to(walk, walk->active[i]);
        bool earlier = walk->ready[walk->active[i]].first < walk->ready[walk->active[best]].first;
        if (changes < fewest || (changes == fewest && earlier)) best = i, fewest = changes;
    }
    kind_queue *queue = &walk->ready[walk->active[best]];
    int index = queue->first;
    queue->first = walk->next[index];
    if (queue->first < 0) walk->active[best] = walk->active[--walk->active_count];
    return index;
}

static bool any_ready(const order_walk *walk) { return walk->rule == RULE_PLAIN ? walk->heap_count > 0 : walk->active_count > 0; }

static void do_next(order_walk *walk)
{
    int index = walk->rule == RULE_PLAIN ? heap_pop(walk) : pop_of_best_kind(walk);
    const tw_operation *operation = &walk->operations->items[index];
    walk->order[walk->done++] = index;
    walk->last[operation->way] = operation;
    walk->here = (int)operation->way;
    for (int j = 0; j < operation->after_count; j++) {
        int next = walk->operations->followers[operation->first_after + j];
        if (--walk->waits[next] == 0 && walk->operations->items[next].stage == walk->stage) make_ready(walk, next);
    }
}

/* ---- the three orders ---- */

static int by_stage(const void *left, const void *right)
{
    const int *a = left, *b = right;  // pairs of stage, index
    if (a[0] != b[0]) return a[0] < b[0] ? -1 : 1;
    return (a[1] > b[1]) - (a[1] < b[1]);
}

static int *order_by(tw_arena *arena, const tw_operations *operations, order_rule rule)
{
    size_t count = (size_t)operations->count + 1, kinds = (size_t)operations->kind_count + 1;
    order_walk walk = { .operations = operations, .order = TW_NEW_ARRAY(arena, int, count), .waits = TW_NEW_ARRAY(arena, int, count),
                  .ready = TW_NEW_ARRAY(arena, kind_queue, kinds), .next = TW_NEW_ARRAY(arena, int, count),
                  .active = TW_NEW_ARRAY(arena, int, kinds), .heap = TW_NEW_ARRAY(arena, int, count), .here = -1, .rule = rule };
    int *staged = TW_NEW_ARRAY(arena, int, 2 * count);
    for (int i = 0; i < operations->count; i++) {
        staged[2 * i] = operations->items[i].stage, staged[2 * i + 1] = i;
        walk.waits[i] = operations->waits[i];
    }
    for (size_t k = 0; k < kinds; k++) walk.ready[k] = (kind_queue){ -1, -1 };
    if (operations->count > 0) qsort(staged, (size_t)operations->count, 2 * sizeof *staged, by_stage);
    for (int i = 0; i < operations->count;) {
        walk.stage = staged[2 * i];
        for (; i < operations->count && staged[2 * i] == walk.stage; i++)
            if (walk.waits[staged[2 * i + 1]] == 0) make_ready(&walk, staged[2 * i + 1]);
        while (any_ready(&walk)) do_next(&walk);
    }
    assert(walk.done == operations->count);
    return walk.order;
}

int *tw_order_find(tw_arena *arena, const tw_operations *operations, int *plain)
{
    int *best = NULL, fewest = INT_MAX;
    for (order_rule rule = 0; rule < RULE_COUNT; rule++) {
        int *order = order_by(arena, operations, rule);
        int changes = tw_order_changes(operations, order);
        if (rule == RULE_PLAIN) *plain = changes;
        if (changes < fewest) best = order, fewest = changes;
    }
    return best;
}
