// SPDX-License-Identifier: GPL-3.0-or-later
/* run: the operations of the job in an order that respects what must come before what, like setups together. */
#ifndef TW_RUN_H
#define TW_RUN_H

#include "setup/setup.h"

typedef struct tw_step {
    int         number;         // from 1
    int         plan, work;     // the work, or -1, -1 for a step of the whole job (stock, finish)
    int         setup;          // into tw_setups, -1 none
    const char *name;           // one line for the run sheet
    const char *what;           // sentence
    const char *tally;          // "4 cuts: right end, face (2); left end, back (2)"
    int         boxes;          // boxes to tick
    const char *change;         // what changes from the step before: "cutter, template, table height" or ""
    const char *keeps;          // what stays set for the next step
    const char *cautions;       // of a step of the whole job, one a line, or ""; a work has its own
} tw_step;

typedef struct tw_run {
    tw_step *steps; int count;
    int      changes;           // settings changed and walks to another machine, over the whole run (see order.h)
    int      plain_changes;     // the same, had the works been done as the joints list them: never fewer
} tw_run;

/// Puts the works of all plans in order (every `after` kept, rough stages kept, like setups together), with the steps of the
/// whole job before and after. Fills the setups' `keeps`. setups may be empty; texts live in the arena.
tw_run tw_run_make(tw_arena *arena, const tw_job *job, const tw_shop *shop, const tw_joint_plan *plans, int plan_count,
                   const tw_templates *templates, tw_setups *setups, tw_findings *findings);

#endif
