// SPDX-License-Identifier: GPL-3.0-or-later
/* sums: all amounts of one file, each a cell that may lean on others.
 *
 * The reader adds owners (a piece, a joint, a named amount) and their cells as it goes through the file; when all are
 * there, tw_sums_settle() reads the formulas, reckons them in the order in which they need each other, checks kind and
 * range, and writes the results to their targets. What fails is found once, where it stands; what leans on it fails
 * in silence. */
#ifndef TW_JOB_SUMS_H
#define TW_JOB_SUMS_H

#include "base/base.h"
#include "job/formula.h"
#include "job/index.h"
#include "job/keys.h"
#include "job/tree.h"

typedef enum tw_want { TW_WANT_ANY, TW_WANT_LENGTH, TW_WANT_ANGLE, TW_WANT_NUMBER, TW_WANT_COUNT } tw_want;

typedef struct tw_cell {
    int            owner;        // its number, -1 for none
    const char    *key;          // "width"; "" for a named amount
    const tw_node *node;         // its text; NULL: found wrong already
    tw_want        want;
    double         least, most;  // mm, radians or number
    tw_amount     *target;       // may be NULL
    const char    *example;      // "12 mm"
    int            state;        // sums.c's own from here
    tw_formula     formula;
    tw_quantity    quantity;
} tw_cell;

typedef struct tw_owner {
    int         first, count;  // its cells
    const char *kind;          // "piece", "joint", "amount"
    bool        refused;       // found wrong as a whole: what it lacks is no news
} tw_owner;

typedef struct tw_sums {
    tw_arena    *arena;
    tw_findings *findings;
    int          unit;        // of bare numbers: index into tw_unit_words
    bool         holed;       // the file has lines that could not be read: unknown names are no news
    bool         nameless;    // a shop's file: amounts have no names to use
    tw_index     names;       // of the owners
    tw_owner    *owners;
    size_t       owner_room;
    tw_cell     *cells;
    int          cell_count;
    size_t       cell_room;
} tw_sums;

/// Adds an owner; the cells added next are its own. Returns its number.
int tw_sums_add_owner(tw_sums *sums, const char *name, const char *kind);
void tw_sums_add_cell(tw_sums *sums, tw_cell cell);
void tw_sums_settle(tw_sums *sums);

/// What one bare number is worth in mm.
double tw_unit_mm(int unit);
/// An amount in words, lengths in mm or, where the unit is the inch or foot, in inches.
char *tw_amount_in_words(tw_arena *arena, tw_want want, double value, int unit);
/// Makes a quantity what is wanted: value in mm, radians or number. False with *what and *remedy set if it is something else.
bool tw_quantity_fits(tw_arena *arena, tw_quantity quantity, tw_want want, int unit, const char *example, double *value,
                      const char **what, const char **remedy);

#endif
