// SPDX-License-Identifier: GPL-3.0-or-later
/* figures: every figure that a maker sees, as text in the units asked, with the sum that it comes from and the place in the
 * job's text where it can be written.
 *
 * One figure has one id, which is unique in a result and stays the same while values change, so that two results can be held
 * against each other. It is a path text (job/path.h):
 *
 *     amounts/NAME                     of `amounts:`
 *     pieces/NAME/width                a key of the job: its path
 *     pieces/NAME/facts/mass           reckoned of a piece
 *     joints/NAME/housing_depth        a figure of a joint's plan; profiles/NAME/... likewise
 *     joints/NAME/over at/2            a key that no figure of the plan says: its path; the second of a list
 *     joints/NAME/key/tenons           a key whose words are also those of a figure that is something else
 *     templates/JOINT/WORK/across      of the template made for that work
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
    const char *written;  // as it stands in the job's text, without its quotes, whatever was built; "" when it does not
    const char *shows;    // what kind of value: "length", "angle", "number", "count", "word", "piece", "cutter", "follower",
                          // "text", "figures", "yes or no"; of a reckoned one also "mass", "area", "volume"
    bool        given;    // the job says it
    const char *sum;      // with the values put in, or ""
    const char *rule;     // the trade rule or design reason it follows, or ""
    const char *const *choices;  // words that may stand there, ended by NULL; NULL when any value of its kind may
    double      value;    // mm, mm2, mm3, radians, kg or number; of a word 0
} tw_value;

/// A list of figures of one result. Begun by tw_values_begin().
typedef struct tw_values {
    tw_arena             *arena;
    const tw_paper_input *in;
    tw_value             *items;
    size_t                count, room;
    struct tw_value_names *names;  // ids given so far, and what the text's names stand for
} tw_values;

/// in must outlive the list.
tw_values tw_values_begin(tw_arena *arena, const tw_paper_input *in);
/// The list of a job that cannot be read: nothing.
tw_values tw_values_none(tw_arena *arena);

/* ---- the parts, each appended to the list in the order in which it is shown ---- */
void tw_values_of_job(tw_values *values);       // units, sets, figures, ..
void tw_values_of_amounts(tw_values *values);   // `amounts:`
/// The keys of a piece.
void tw_values_of_piece(tw_values *values, int piece);
/// What is reckoned of a piece: rough sizes; with `woods` volume, mass, centre of mass, weakest section, shortest run.
void tw_values_of_facts(tw_values *values, int piece);
/// Of a joint or a profile: the keys that its figures do not say, then its figures.
void tw_values_of_plan(tw_values *values, int plan);
void tw_values_of_template(tw_values *values, int template_index);
/// What kind of value a key takes, as tw_value.shows says it; "lengths" for a list of lengths.
const char *tw_key_shows(tw_key_kind kind);
/// The words that it may be, ended by NULL; NULL where it is no choice.
const char *const *tw_key_choices(const tw_key *key);
/// What is set, cut and measured at a step of the run.
void tw_values_of_step(tw_values *values, int step);

/// Every figure of a result, in the order above.
tw_values tw_figure_list(tw_arena *arena, const tw_paper_input *in);

/* ---- names that stay ---- */
/// The path text "JOINT/WORK". A second work with the same key in one joint gets " (2)" behind it.
const char *tw_work_key(tw_arena *arena, const tw_joint_plan *plan, int work);
/// The key of the first work that a template serves.
const char *tw_template_key(tw_arena *arena, const tw_paper_input *in, int template_index);
/// The key of a step: that of its work, or its name for a step of the whole job.
const char *tw_step_key(tw_arena *arena, const tw_paper_input *in, int step);
/// The step of that key; -1 when the run has none.
int tw_step_of_key(tw_arena *arena, const tw_paper_input *in, const char *key);

/* ---- comparing ---- */
#define TW_SAME_FIGURE 5e-5  // mm, or the unit of its value: finer than any shop measures, coarser than the noise of sums
/// A figure that is another than before. before or after is "" where a figure has come or gone.
typedef struct tw_moved { const char *id, *where, *label, *before, *after; } tw_moved;
typedef struct tw_moves { tw_moved *items; size_t count, room; } tw_moves;
/// The figures that differ. Where both are written alike and yet differ by more than TW_SAME_FIGURE, they are written with as
/// many decimals as show it. In the order of `after`, then those that have gone. Both must be of jobs that are shown alike;
/// texts live as long as both lists.
tw_moves tw_figures_compare(tw_arena *arena, const tw_values *before, const tw_values *after);

#endif
