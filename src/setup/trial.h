// SPDX-License-Identifier: GPL-3.0-or-later
/* trial: a trial cut was measured. Which stop to move, which way, how far.
 *
 * Ratio r acts across and up, not in (design sections 5 and 6):
 *     table, end stop, depth        move by the error itself                                                    (1)
 *     template                      moves r times the error                                                     (2)
 *     centring, by turning over     the cut lies half of the difference off: half at the table, r/2 at the template  (3)
 *     follower larger by x          a pocket x/r narrower, a tenon x/r wider                                     (4)
 *     cutter larger by x            a pocket x wider, a tenon x narrower                                         (5)
 * What was got is what was measured at the piece; how the sizes grow with a stop is the work's own (tw_work.measures). */
#ifndef TW_TRIAL_H
#define TW_TRIAL_H

#include "setup/setup.h"

/// One thing to move, or to change when nothing can be moved. Several in one answer are said in the order to try them.
typedef struct tw_trial_move {
    const char *stop;          // "depth stop", "table", "end stop", "template", "follower", "cutter", "fence", "piece"
    const char *way;           // as the maker sees it: "deeper", "less deep", "up", "down", "to the left", "smaller" ...
    double      by_mm;         // how far, over 0
    const char *by;            // the same as the job writes lengths
    const char *sum;           // with the values put in
    bool        stacked;       // a stack of the shop's spacers stands for the distance
    tw_stack    stack;
    const char *stack_text;    // "" when not stacked
} tw_trial_move;

typedef struct tw_trial {
    bool           ok;         // false: there is nothing to measure there, or what was got cannot be; notes say so
    bool           good;       // what was got lies within the limits: there are no moves
    double         wanted_mm, least_mm, most_mm, error_mm;  // error = got - wanted
    tw_trial_move *moves; size_t move_count, move_room;
    const char   **notes; size_t note_count, note_room;     // sentences
} tw_trial;

/// What stands about the trial.
typedef struct tw_trial_ask {
    const tw_job        *job;
    const tw_shop       *shop;
    const tw_joint_plan *plans;
    const tw_templates  *templates;
    const tw_setups     *setups;
    int                  plan, work;   // the work that was tried: a step's
    int                  setup;        // its setup, -1 none
} tw_trial_ask;

/// wanted_mm: NULL for the work's own. got_mm: as measured, finite.
tw_trial tw_trial_of(tw_arena *arena, const tw_trial_ask *ask, const double *wanted_mm, double got_mm);

/// Centring: the same cut is made twice, the piece turned over between, and what is left beside it (or its offset) is measured
/// both times from the same side of the machine. The moves set the middle of the cut on the middle of the piece.
tw_trial tw_trial_flip(tw_arena *arena, const tw_trial_ask *ask, double first_mm, double second_mm);

#endif
