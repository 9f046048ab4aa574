// SPDX-License-Identifier: GPL-3.0-or-later
/* task: one setup while it is worked out, and what the machine refuses. */
#ifndef TW_SETUP_TASK_H
#define TW_SETUP_TASK_H

#include "setup/setup.h"

typedef struct tw_setup_task {
    tw_arena            *arena;
    const tw_job        *job;
    const tw_shop       *shop;
    const tw_joint_plan *plan;
    const tw_work       *work;
    const tw_template   *template_;
    const tw_cutter     *cutter;
    tw_setup            *setup;
    tw_findings         *findings;
    double  d, b, r;            // cutter, follower with its play, ratio
    tw_size size;               // of the piece, or of the stick
    int     stop_side;          // +1: the stop is on the right of the piece, -1 left, 0 none along the table
    double  origin_x, stop_x;   // of the cut and the stop's face, in the machine's frame
    double  runs_past_end_mm;   // how far the cutter reaches past the end that lies at the stop
} tw_setup_task;

/// +1 when the side `end` lies to the right of one who looks at `face` with `down` on the table, -1 left, 0 neither.
int tw_side_of(tw_face face, tw_face down, tw_face end);
/// What is worked on: the piece, or the stick of the joint's part; all 0 when there is none.
tw_size tw_work_size(const tw_job *job, const tw_joint_plan *plan, const tw_work *work);
/// A way of the cutter, -1, 0 or +1 to the right and up, as the way of the template that the maker sees.
void tw_as_maker_sees(const tw_machine *machine, int *x, int *y);
const char *tw_setup_say(const tw_setup_task *task, double length_mm);
void tw_setup_finding(const tw_setup_task *task, tw_level level, const char *code, const char *what, const char *remedy);

/// Findings for all that the machine cannot do or does at a risk, each with the amount and the remedy.
void tw_setup_check(tw_setup_task *task);

#endif
