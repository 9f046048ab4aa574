// SPDX-License-Identifier: GPL-3.0-or-later
/* quantity: a number with its unit, as the sums of a job handle it.
 *
 * A bare number (12) has not said what it is: it may still become a length in the job's unit. A ratio (a length divided
 * by a length, 45 %, a count of pieces) has: it stays a plain number. Lengths are millimetres, angles radians; products
 * keep their powers so that an area is known for one. */
#ifndef TW_JOB_QUANTITY_H
#define TW_JOB_QUANTITY_H

#include "base/base.h"

typedef struct tw_quantity {
    double value;
    int    length, angle;  // powers: a length is 1, 0; an area 2, 0; an angle 0, 1
    bool   ratio;          // with both powers 0: a plain number, for good
} tw_quantity;

typedef struct tw_unit {
    const char *word;
    double      factor;         // value in mm, radians or 1
    int         length, angle;  // both 0: percent
} tw_unit;

/// The unit of this word or sign, or NULL. *meant (may be NULL) is set to what is meant by `inches` and the like.
const tw_unit *tw_unit_find(tw_text word, const char **meant);
/// The words of all units, for "nearest".
extern const char *const tw_unit_all[];
extern const size_t      tw_unit_count;

tw_quantity tw_quantity_of(double number, const tw_unit *unit);  // unit NULL: a bare number
bool tw_is_bare(tw_quantity quantity);
bool tw_is_length(tw_quantity quantity);

typedef enum tw_sum { TW_ADD, TW_SUBTRACT, TW_MULTIPLY, TW_DIVIDE, TW_LEAST, TW_MOST } tw_sum;

/// a (sum) b. unit_mm: what a bare number is worth beside a length. Returns false with *what and *remedy set when the
/// two do not go together, when it divides by nothing, or when the result is not finite.
bool tw_quantity_reckon(tw_arena *arena, tw_sum sum, tw_quantity a, tw_quantity b, double unit_mm, tw_quantity *result,
                        const char **what, const char **remedy);
/// "a length", "an angle", "an area", "a plain number": for messages.
const char *tw_quantity_in_words(tw_quantity quantity);

#endif
