// SPDX-License-Identifier: GPL-3.0-or-later
/* formula: an amount's text turned into steps that are reckoned on a stack.
 *
 * `post.thickness + 2 * 3 mm` becomes: cell post.thickness, 2, 3 mm, multiply, add. Names are looked up once, when the
 * text is read; what a name stands for may be reckoned later, in the order that needs it (sums.h). */
#ifndef TW_JOB_FORMULA_H
#define TW_JOB_FORMULA_H

#include "base/base.h"
#include "job/literal.h"
#include "job/quantity.h"

#define TW_FORMULA_MOST_BYTES 400   // of an amount's text
#define TW_FORMULA_MOST_STEPS 200
#define TW_FORMULA_MOST_DEPTH 32    // brackets in brackets

typedef enum tw_step_kind { TW_STEP_QUANTITY, TW_STEP_CELL, TW_STEP_TURN_SIGN, TW_STEP_SUM } tw_step_kind;

typedef struct tw_step {
    tw_step_kind kind;
    tw_sum       sum;       // TW_STEP_SUM: of the two on top of the stack
    int          cell;      // TW_STEP_CELL
    size_t       at;        // byte in the text
    tw_quantity  quantity;  // TW_STEP_QUANTITY
} tw_step;

typedef struct tw_formula { const tw_step *steps; int count; } tw_formula;

/// Finds what a name in a formula stands for: owner "post" and key "width", or owner "gap" and an empty key.
/// Returns its number, or -1 with *what and *remedy set.
typedef struct tw_names_known {
    int (*find)(void *context, tw_text owner, tw_text key, const char **what, const char **remedy);
    void *context;
} tw_names_known;

/// Reads a formula. Returns false with *fault set.
bool tw_formula_read(tw_arena *arena, tw_text text, tw_names_known names, tw_formula *formula, tw_fault *fault);

/// The value of each cell, for tw_formula_reckon: must be there for every TW_STEP_CELL of the formula.
typedef tw_quantity (*tw_cell_value)(void *context, int cell);
bool tw_formula_reckon(tw_arena *arena, const tw_formula *formula, double unit_mm, tw_cell_value value, void *context,
                       tw_quantity *result, tw_fault *fault);

#endif
