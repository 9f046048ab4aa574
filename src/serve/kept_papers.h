// SPDX-License-Identifier: GPL-3.0-or-later
/* kept_papers: sets of papers made on the worker, kept in memory for the jobs that were printed last. */
#ifndef TW_KEPT_PAPERS_H
#define TW_KEPT_PAPERS_H

#include "print/paper_set.h"
#include "serve/ledger.h"
#include "serve/work.h"

#define TW_KEPT_SETS_MOST  4
#define TW_KEPT_BYTES_MOST (96u * 1024u * 1024u)  // of all of them; the newest stays whatever it holds

/// What a set is made of. Two asks that are alike to the byte have the same papers.
typedef struct tw_papers_ask {
    tw_text          job, shop;
    const tw_ledger *ledger;
} tw_papers_ask;

typedef struct tw_paper_files { tw_arena arena; tw_paper_file *items; size_t count, room, bytes; } tw_paper_files;
typedef struct tw_kept_papers tw_kept_papers;

tw_kept_papers *tw_kept_papers_new(void (*out_of_memory)(void));
/// Stops a work that is going on.
void            tw_kept_papers_free(tw_kept_papers *kept);

/// Begins to make them on the worker; the id of the work, also of one that makes just these already. 0 when another one is going
/// on, -1 when the system gives no thread.
int64_t tw_kept_papers_begin(tw_kept_papers *kept, const tw_papers_ask *ask);
tw_work_look_at tw_kept_papers_look(tw_kept_papers *kept, int64_t work);
bool    tw_kept_papers_stop(tw_kept_papers *kept, int64_t work);
/// The files, when they are there; they live until the next call of tw_kept_papers_begin() or _find().
const tw_paper_files *tw_kept_papers_find(tw_kept_papers *kept, const tw_papers_ask *ask);

#endif
