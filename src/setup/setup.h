// SPDX-License-Identifier: GPL-3.0-or-later
/* setup: everything that is fixed while one group of like cuts is made: the machine's figures with their sums. */
#ifndef TW_SETUP_H
#define TW_SETUP_H

#include "setup/spacers.h"
#include "template/template.h"

/// One figure to set, with its sum in words and numbers and the stack that sets it.
typedef struct tw_setting {
    bool        used;
    const char *label;          // "shift", "table height", "end stop"
    double      value_mm;       // size to set, 0 or more
    const char *sum;            // words and numbers
    bool        stacked;        // set by a stack of spacers
    tw_stack    stack;
    const char *between;        // between which two faces the stack goes; which lock is set first
    int         direction_x, direction_y;  // as the maker sees it: -1 left or down, +1 right or up, 0 none
} tw_setting;

typedef struct tw_setup {
    const char *name;           // "S3"
    int         plan, work;     // whose work
    int         template_index; // into tw_templates, -1 for setups without a template
    int         cutter, follower;   // into the shop's, -1 none
    double      stick_out_mm;   // of the cutter beyond the nut
    const char *stick_out_sum;
    double      speed_rpm;      // highest to use
    const char *speed_sum;
    bool        template_turned;    // the template is mounted with its other face outward
    int         pin;            // reference pin into the shop's, -1 none
    tw_setting  baseline;       // how the template is found: value = g/2
    tw_setting  shift, table, stop, depth;
    double      packing_mm;     // under the piece, 0 none
    const char *packing_why;
    int         passes;         // plunges to reach the depth
    double      pass_mm;
    const char *feed;           // feed direction in words
    bool        feed_clockwise; // as the maker sees the template
    const char *breakout;       // where the cutter breaks out and what backs it
    const char *keeps;          // what stays set for the next card, or "" (filled by run)
    const char *cautions;       // one caution a line
} tw_setup;

typedef struct tw_setups { tw_setup *items; int count; } tw_setups;

/// Works out the setup of every work at the machine. What the machine cannot do is a TW_HALT with the amount and the remedy.
tw_setups tw_setups_make(tw_arena *arena, const tw_job *job, const tw_shop *shop, const tw_joint_plan *plans, int plan_count,
                         const tw_templates *templates, tw_findings *findings);

/// Baseline and shift (design section 5): pin g, follower b, cutter d, ratio r.
/// The flank of the cutter when the follower runs along the edge, from the machine's centre line towards the edge, mm.
double tw_flank_at_baseline_mm(double pin_mm, double follower_mm, double cutter_mm, double ratio);
/// r * (wanted - there): positive moves the template on towards the edge's side, negative away from it.
double tw_shift_mm(double wanted_flank_mm, double pin_mm, double follower_mm, double cutter_mm, double ratio);

#endif
