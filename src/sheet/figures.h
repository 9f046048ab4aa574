// SPDX-License-Identifier: GPL-3.0-or-later
/* figures: every figure that a maker sees, as text in the units asked, with the sum that it comes from and the place in the
 * job's text where it can be written.
 *
 * One figure has one id, which is unique in a result and stays the same while values change, so that two results can be held
 * against each other. It is a path text (job/path.h):
 *
 *     amounts/NAME                     of `amounts:`
 *     pieces/NAME/width                a key of the job
 *     pieces/NAME/facts/mass           reckoned of a piece
 *     joints/NAME/housing_depth        a figure of a joint's plan; profiles/NAME/... likewise
 *     joints/NAME/at/2                 the second of a list
 *     templates/JOINT/WORK/width       of the template made for that work
 *     steps/JOINT/WORK/shift           what is set, cut or measured at a step of the run
 *
 * Nothing is reckoned twice here: what the stages say is said again; only conversions of units and the few sums that no stage
 * keeps (the template's width by the copying formula, mass from volume) are put into words. */
#ifndef TW_FIGURES_H
#define TW_FIGURES_H

#include "sheet/papers.h"

/// One figure. No text is NULL.
typedef struct tw_value {
    const char *id;       // unique in a result
    const char *where;    // whose it is, as a maker says it: "joint `stretcher to post`", "card 7: housings, right hand"
    const char *path;     // path text of where the job can say it; "" when it cannot: then it is reckoned
    const char *label, *symbol;
    const char *text;     // "7.6 mm", "5.0°", "2"
    const char *bare;     // the same without its unit
    const char *unit;     // "mm", "in", "°", "kg", "" for a plain number or a word
    const char *written;  // as it stands in the job's text, without its quotes; "" when it stands there not
    bool        given;    // the job says it
    const char *sum;      // with the values put in, or ""
    const char *rule;     // the trade rule or design reason it follows, or ""
    const char *const *choices;  // words that may stand there, ended by NULL; NULL when any value of its kind may
    double      value;    // mm, radians, kg or number; of a word its index
} tw_value;

typedef struct tw_values { tw_arena *arena; tw_value *items; size_t count, room; } tw_values;

/* ---- the parts, each in the order in which it is shown; they are appended to the list ---- */
void tw_values_of_amounts(tw_values *values, const tw_paper_input *in);
void tw_values_of_piece(tw_values *values, const tw_paper_input *in, int piece);
/// Volume, mass, weakest section, shortest run; what is left out of them needs `woods`.
void tw_values_of_wood(tw_values *values, const tw_paper_input *in, int piece);
/// Of a joint or a profile: its keys in the job, then its figures.
void tw_values_of_plan(tw_values *values, const tw_paper_input *in, int plan);
void tw_values_of_template(tw_values *values, const tw_paper_input *in, int template_index);
/// What is mounted, set and measured at a step: cutter, follower, settings, depth, limits.
void tw_values_of_step(tw_values *values, const tw_paper_input *in, int step);

/// Every figure of a result, in the order above.
tw_values tw_figure_list(tw_arena *arena, const tw_paper_input *in);

/* ---- names that stay ---- */
/// The id of a template: "templates/JOINT/WORK" of the first work that it serves.
const char *tw_template_id(tw_arena *arena, const tw_paper_input *in, int template_index);
/// The key of a step: "JOINT/WORK" as a path text, or its name for a step of the whole job; unique in a run (a second step of
/// the same words gets " (2)").
const char *tw_step_key(tw_arena *arena, const tw_paper_input *in, int step);

/* ---- comparing ---- */
/// A figure that is another than before. before or after is "" where a figure has come or gone.
typedef struct tw_moved { const char *id, *where, *label, *before, *after; } tw_moved;
typedef struct tw_moves { tw_moved *items; size_t count, room; } tw_moves;
/// The figures that differ: by their texts, or by more than a millionth where both are written alike (then with as many
/// decimals as show it). In the order of `after`, then those that have gone. Both must be written in the same units.
tw_moves tw_figures_compare(tw_arena *arena, const tw_values *before, const tw_values *after);

#endif
