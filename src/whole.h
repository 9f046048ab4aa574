// SPDX-License-Identifier: GPL-3.0-or-later
/* whole: a result from the inside, for the program's own users that print PDF, DXF and SVG of it. */
#ifndef TW_WHOLE_H
#define TW_WHOLE_H

#include "tuskwright.h"

#include "job/measured.h"
#include "run/run.h"
#include "sheet/papers.h"
#include "space/space.h"

struct tw_result {
    tw_arena       arena;
    tw_findings    findings;
    const tw_job  *job;         // NULL when the state is wrong
    const tw_shop *shop;
    tw_measures    measures;    // values as built: in_force are reckoned with
    tw_joint_plan *plans;
    tw_space       space;
    tw_piece_wood *woods;       // NULL unless papers were asked for
    tw_kin        *kin;         // likewise
    tw_templates   templates;
    tw_setups      setups;
    tw_run         run;
    tw_papers      papers;      // empty unless asked for
};

/// Makes each fix that is offered, sets it out, and drops those that leave their finding or bring a new halt (proved.c).
void tw_result_prove_fixes(tw_result *result, const tw_request *request);
tw_paper_input tw_result_input(const tw_result *result);
/// Composes the papers of a result that has a job and was set out without them. False when the watch stopped it: then there are none, and
/// it may be tried again. watch may be NULL.
bool tw_result_compose(tw_result *result, const tw_papers_watch *watch);

#endif
