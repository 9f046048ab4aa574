// SPDX-License-Identifier: GPL-3.0-or-later
/* order: the works of all joints as operations, and the order in which they are done. Inside the run stage only. */
#ifndef TW_RUN_ORDER_H
#define TW_RUN_ORDER_H

#include "setup/setup.h"

/// What stands set at a machine while an operation is done.
typedef enum tw_kept {
    TW_KEPT_TEMPLATE, TW_KEPT_TEMPLATE_SIDE, TW_KEPT_CUTTER, TW_KEPT_FOLLOWER, TW_KEPT_SHIFT, TW_KEPT_TABLE, TW_KEPT_STOP,
    TW_KEPT_DEPTH, TW_KEPT_CRADLE, TW_KEPT_DOWN,
    TW_KEPT_FENCE     // saws and drill press: the work's own fence, stop or depth, as one thing
} tw_kept;
#define TW_KEPT_COUNT 11
#define TW_WAY_COUNT (TW_WAY_FINISH + 1)

extern const char *const tw_kept_words[TW_KEPT_COUNT];  // "template", "template's side out", "cutter", ...
extern const char *const tw_way_words[TW_WAY_COUNT];    // "copying router", "table saw", ...

/// One work of one plan, with all that its order depends on.
typedef struct tw_operation {
    int     plan, work;
    int     setup;                // into tw_setups, -1 none
    tw_way  way;
    int     stage;                // the work's own, or that of a work before it if that is later
    int64_t kept[TW_KEPT_COUNT];  // names by number, lengths in steps of 1e-4 mm; TW_KEPT_NONE where nothing is set
    int     kind;                 // operations of one kind have the same way and the same kept: nothing changes between them
    int     first_after, after_count;  // its successors in tw_operations.followers
} tw_operation;
#define TW_KEPT_NONE INT64_MIN

typedef struct tw_operations {
    tw_operation *items;  int count;
    int          *followers;      // indices of operations that wait for one, in ascending order
    int          *waits;          // [count] how many each waits for
    int           kind_count;
} tw_operations;

/// The works in the order of the plans. setups may be NULL (nothing is then known of settings but the way of working).
tw_operations tw_operations_of(tw_arena *arena, const tw_joint_plan *plans, int plan_count, const tw_setups *setups);

/// How many things change from one operation to another at the same machine. before NULL: all that it needs is set anew.
int tw_operation_changes(const tw_operation *before, const tw_operation *after);
/// Changes of a whole order: settings against the last operation at the same machine (which stays set while the maker works
/// elsewhere), and one more for each walk to another machine or bench.
int tw_order_changes(const tw_operations *operations, const int *order);

/// An order that keeps `after` and stages: the best of three simple ones (see order.c), never with more changes than the
/// plain one. plain: set to the changes of the works as listed.
int *tw_order_find(tw_arena *arena, const tw_operations *operations, int *plain);

#endif
