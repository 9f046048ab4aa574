// SPDX-License-Identifier: GPL-3.0-or-later
/* papers: what the maker takes into the shop, composed on the display list; and the same figures as JSON and CSV.
 *
 * The composers only lay out what the stages before have reckoned. The few sums that are made here (rough sizes of the
 * cutting list) stand in cutting.h. Template sheets are true to size on the job's paper. The papers that are read are laid
 * out on one page of A4 or Letter each; a job on A3 gets them two to a sheet, lying, to be folded or cut in the middle. */
#ifndef TW_PAPERS_H
#define TW_PAPERS_H

#include "draw/draw.h"
#include "joint/kin.h"
#include "joint/piece_wood.h"
#include "run/run.h"
#include "space/space.h"

/// Everything that the papers show. All of it must outlive the call; the job, shop and lists are only read.
typedef struct tw_paper_input {
    const tw_job        *job;
    const tw_shop       *shop;
    const tw_joint_plan *plans;  // in the job's order
    int                  plan_count;
    const tw_space      *space;  // NULL: nothing of it is shown
    const tw_piece_wood *woods;  // [piece_count]; NULL: nothing of it is shown
    const tw_kin        *kin;    // [piece_count]; NULL: nothing of it is shown
    const tw_templates  *templates;
    const tw_setups     *setups;
    const tw_run        *run;
    const tw_findings   *findings;
    const struct tw_bodies *bodies;  // set by tw_papers_make: pieces and parts as solids
} tw_paper_input;

/// One paper: a file of one or more pages.
typedef struct tw_paper_pages {
    const char       *name;       // file stem: "cards"
    const char       *title;      // "Setup cards"
    const char       *purpose;    // one sentence: what it is for
    bool              true_size;  // must be printed at 100 %
    const tw_sheet  **pages;      // named "cards-1", "cards-2", ...
    int               page_count; // at least 1
} tw_paper_pages;

typedef struct tw_papers {
    tw_paper_pages *items;
    int             count;
    const struct tw_bodies *bodies;  // that their pictures were made of
} tw_papers;

/// Composes all papers: overview, findings, run, cards, templates, strips, pieces, joints, profiles, profile-lines, grain, assembly, cutting-list; those without content
/// (templates of a job that has none, findings when there are none) are left out. The result lives in the arena.
tw_papers tw_papers_make(tw_arena *arena, const tw_paper_input *input);

/// Asked before each paper: done of so many are made. Returns false to stop; then there are no papers.
typedef struct tw_papers_watch { bool (*go_on)(void *context, size_t done, size_t of); void *context; } tw_papers_watch;
/// The same, watched. watch may be NULL.
tw_papers tw_papers_make_watched(tw_arena *arena, const tw_paper_input *input, const tw_papers_watch *watch);

/// job.json: every figure of the job with its unit in the key, and the list of papers (papers may be NULL).
void tw_json_put(const tw_paper_input *input, const tw_papers *papers, tw_sink *sink);
/// cutting-list.csv after RFC 4180: one row for each kind of piece, then for each kind of part. Lengths in mm, or in inches
/// with decimals when the job writes inches; the unit stands in the column's title.
void tw_csv_cutting_list_put(const tw_paper_input *input, tw_sink *sink);

#endif
