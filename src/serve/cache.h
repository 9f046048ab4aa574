// SPDX-License-Identifier: GPL-3.0-or-later
/* cache: the last jobs that were reckoned, with what was made of them since: woods, drawings, figures. A second request about the
 * same texts finds them here. The oldest goes first when there are too many, or when they hold too many bytes. */
#ifndef TW_CACHE_H
#define TW_CACHE_H

#include "serve/ledger.h"
#include "sheet/figures.h"
#include "whole.h"

#define TW_CACHE_MOST       8                      // jobs
#define TW_CACHE_BYTES_MOST (160u * 1024u * 1024u)  // of all of them; the newest stays whatever it holds

/// What to reckon. Findings name the files "job" and "shop".
typedef struct tw_reckon_texts {
    tw_text          job, shop;
    const char      *figures;  // how lengths are to be written, in place of what the job says; NULL: as it says
    const tw_ledger *ledger;   // NULL: none
} tw_reckon_texts;

/// The request for just this; it lives as long as the texts and the arena.
tw_request tw_reckon_request(tw_arena *arena, const tw_reckon_texts *texts);

/// A drawing as it goes to the page.
typedef struct tw_made_drawing { const char *hash; tw_text svg; } tw_made_drawing;  // hash "": there is no such drawing

typedef struct tw_reckoned tw_reckoned;
typedef struct tw_cache    tw_cache;

tw_cache *tw_cache_new(void (*out_of_memory)(void));
void      tw_cache_free(tw_cache *cache);

/// The job reckoned, or found again. It lives until the next call but one: two results can be held against each other.
tw_reckoned *tw_cache_reckon(tw_cache *cache, const tw_reckon_texts *texts);

const tw_result *tw_reckoned_result(const tw_reckoned *reckoned);
/// Leaves only those fixes offered that hold: each is made and set out, which costs a reckoning each, once.
void tw_reckoned_prove_fixes(tw_reckoned *reckoned, const tw_reckon_texts *texts);
/// The texts could be read: its state is not TW_STATE_WRONG.
bool tw_reckoned_can_be_shown(const tw_reckoned *reckoned);
/// The three below: only of a result that can be shown. What they give lives as long as the result.
const tw_paper_input *tw_reckoned_input(tw_reckoned *reckoned);  // with woods and kin, and bodies as they are asked for
const tw_values      *tw_reckoned_values(tw_reckoned *reckoned);
/// Until the next drawing is asked for.
tw_made_drawing       tw_reckoned_drawing(tw_reckoned *reckoned, const char *what, const char *name, int number, double width_mm);

#endif
