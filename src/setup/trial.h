// SPDX-License-Identifier: GPL-3.0-or-later
/* trial: a trial cut was measured. Which stop to move, which way, how far.
 *
 * Ratio r acts across and up, not in (design sections 5 and 6):
 *     table, stop, depth stop       move by the error                                                        (1)
 *     template                      moves by r times the error                                               (2)
 *     centring, by turning over     the cut lies half of the difference off: the table moves by that half, the
 *                                   template by r/2 of the difference                                         (3)
 *     a follower larger by x        a pocket x/r narrower, a tenon x/r wider                                  (4)
 *     a cutter larger by x          a pocket x wider, a tenon x narrower                                      (5)
 * A dimension that grows by n for each mm that its stop moves is mended by the error over n (tw_work.answer). */
#ifndef TW_TRIAL_H
#define TW_TRIAL_H

#include "setup/setup.h"

/// What can be measured on a trial piece.
typedef enum tw_trial_of {
    TW_TRIAL_MEASURE,  // the one dimension that the card names
    TW_TRIAL_DEPTH,    // depth of the cut from the face on which it is zeroed
    TW_TRIAL_ALONG,    // along the table: from what touches the stop to the cut's middle, or to its straight wall
    TW_TRIAL_UP        // from the side that lies down up to the cut's middle
} tw_trial_of;

/// A dimension that a trial can be made of.
typedef struct tw_trial_dimension {
    tw_trial_of of;
    const char *what;                        // "width of the mortise, cheek to cheek"
    double      wanted_mm, least_mm, most_mm;
} tw_trial_dimension;

/// One thing to move, or to change where nothing can be moved.
typedef struct tw_trial_move {
    // "depth stop", "table", "stop", "template", "follower", "cutter", "fence", "spacers of the guides"
    const char *stop;
    // "deeper", "less deep", "up", "down", "to the left", "to the right", "larger", "smaller", "wider",
    const char *way;
                               // "narrower", "so that it comes out larger", "so that it comes out smaller"
    double      by_mm;         // how far, over 0
    const char *by;            // the same as the job writes lengths, one figure finer
    const char *sum;           // with the values put in
    bool        stacked;       // spacers of the shop make up the distance
    tw_stack    stack;
    const char *stack_text;    // "0.2 + 0.1", "" when not stacked
    bool        has_setting;   // the stop has a figure on the card: what it is from now on
    double      setting_mm;
    const char *setting;       // "", or as the job writes lengths
    const char *setting_stack; // the stack that replaces the one on the card, "" when there is none
} tw_trial_move;

typedef struct tw_trial {
    bool           ok;         // false: there is nothing of the kind to measure there, or it cannot be; the notes say why
    bool           good;       // what was got lies within its limits: there are no moves
    tw_trial_dimension dimension;
    double         error_mm;   // got - wanted
    tw_trial_move *moves; size_t move_count, move_room;    // in the order to try them: one of them is enough
    const char   **notes; size_t note_count, note_room;    // sentences
} tw_trial;

/// What stands about the trial.
typedef struct tw_trial_ask {
    const tw_job        *job;
    const tw_shop       *shop;
    const tw_joint_plan *plans;
    const tw_templates  *templates;
    const tw_setups     *setups;
    // the work that was tried: a step's; -1: a step of the whole job, which has nothing to measure
    int                  plan, work;
    int                  setup;        // its setup, -1 none
    tw_trial_of          of;
} tw_trial_ask;

/// What can be measured on the work's trial piece, the card's own dimension first.
tw_trial_dimension *tw_trial_dimensions(tw_arena *arena, const tw_trial_ask *ask, size_t *count);

/// wanted_mm: NULL for the dimension's own. got_mm: as measured; 0 to TW_LENGTH_MOST_MM, else it is refused with a note.
tw_trial tw_trial_made(tw_arena *arena, const tw_trial_ask *ask, const double *wanted_mm, double got_mm);

/// Centring, which asks for a cut that is to lie in the middle. The test piece is cut, turned over and cut again with nothing
/// moved. Both times it is measured from the side of the piece that lay down at first (or touched the stop at first) to the
/// near wall of the cut. along: it was turned end for end about the stop, else over about its length.
tw_trial tw_trial_flip(tw_arena *arena, const tw_trial_ask *ask, double first_mm, double second_mm, bool along);

#endif
