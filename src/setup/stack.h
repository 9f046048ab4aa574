// SPDX-License-Identifier: GPL-3.0-or-later
/* stack: the two searches behind tw_stack_find(), on whole numbers. Used by spacers.c and its tests only.
 *
 * All lengths here are whole steps of 1e-7 mm: any decimal of a millimetre down to that, and any fraction of an inch down
 * to 1/128, is one exactly, so sums neither drift nor depend on their order.
 *
 * Of two stacks within the window the better one has the smaller error, then fewer pieces, then more of the largest
 * piece in which they differ. That order stays as it is when the same pieces are added to both, which is why either
 * search may throw away the worse of two ways to the same length. */
#ifndef TW_STACK_H
#define TW_STACK_H

#include "base/base.h"

#define STACK_STEPS_PER_MM 1e7

/// Pieces of one size; size over 0, count at least 1.
typedef struct stack_kind { int64_t size; int count; } stack_kind;

/// The drawer: sizes all different, the largest first; grain: the greatest length that all sizes are whole multiples of.
typedef struct stack_drawer {
    tw_arena         *arena;  // for work and picks; the caller finishes it
    const stack_kind *kinds;
    int               count;
    int64_t           grain;
} stack_drawer;

/// Totals that count: least <= wanted <= most, least at least 0, most under 2^42.
typedef struct stack_window { int64_t wanted, least, most; } stack_window;

typedef enum stack_answer {
    STACK_FOUND,  // picks hold the best stack
    STACK_NONE,   // proved: no such stack
    STACK_OPEN    // the search was given up at its limit
} stack_answer;

/// The stack of exactly this length with the fewest pieces, then the largest; at most most_pieces pieces.
/// visits_left: how many partial stacks may be looked at; counted down.
/// picks: [drawer->count], how many of each kind; set when found. piece_count: set when found.
/// STACK_NONE: no stack of up to most_pieces pieces has this length.
stack_answer stack_few(const stack_drawer *drawer, int64_t length, int most_pieces, long *visits_left, int *picks, int *piece_count);

/// The best stack within the window, of any number of pieces. most_sums: how many sums may be held.
/// thin: when there are too many sums, go on with a part of them; what is then found need not be the best.
stack_answer stack_lists(const stack_drawer *drawer, stack_window window, size_t most_sums, bool thin, int *picks);

/// The two groups in which stack_lists() parts the drawer: second[kind] tells which goes to the second; it may be empty.
/// sums: an upper bound of the sums that it would hold.
typedef struct stack_parting { bool *second; double sums; } stack_parting;
stack_parting stack_part(const stack_drawer *drawer, stack_window window);
/// How many of a kind a stack within the window can use.
int64_t stack_usable(stack_kind kind, stack_window window);

/// 1 when a has more of the largest piece in which the two differ, -1 when b has, 0 when they are the same.
int stack_compare(const stack_drawer *drawer, const int *a, const int *b);
int64_t stack_common_grain(int64_t a, int64_t b);

#endif
