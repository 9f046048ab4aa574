// SPDX-License-Identifier: GPL-3.0-or-later
/* spacers: stacks of the gauge pieces that the shop owns, by exact search. */
#ifndef TW_SPACERS_H
#define TW_SPACERS_H

#include "base/base.h"
#include "job/job.h"

#define TW_STACK_MOST_MM 10000.0  // longest stack that is asked for

typedef enum tw_stack_side { TW_STACK_NEAREST, TW_STACK_NO_LESS, TW_STACK_NO_MORE } tw_stack_side;

typedef struct tw_stack_part { int spacer; int count; } tw_stack_part;  // index into the shop's spacers

typedef struct tw_stack {
    bool           ok;         // within the tolerance, on the asked side
    bool           proved;     // no better stack exists (or, when not ok, none at all); false only for a drawer of dozens
                               // of sizes with nothing in common, see spacers.c
    double         wanted_mm, total_mm, error_mm;   // error = total - wanted
    tw_stack_part *parts;      // largest size first
    int            part_count;
    bool           has_below, has_above;             // nearest totals that can be made, when not ok
    double         below_mm, above_mm;
} tw_stack;

/// Smallest error first within the tolerance (errors are compared in steps of 1e-7 mm, so sums in any order tie), then
/// fewest pieces, then largest pieces. Exact; each spacer at most as often as it is owned. A wanted length of 0 is the
/// empty stack. wanted_mm: 0 to TW_STACK_MOST_MM; tolerance_mm: 0 or more. The nearest below may be 0: no spacer at all.
tw_stack tw_stack_find(tw_arena *arena, const tw_spacer *spacers, int count, double wanted_mm, double tolerance_mm,
                       tw_stack_side side);
/// "50 + 20 + 2 x leaf 0.2" in words for a card, by the spacers' names.
char *tw_stack_text(tw_arena *arena, const tw_spacer *spacers, const tw_stack *stack);

#endif
