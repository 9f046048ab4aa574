// SPDX-License-Identifier: GPL-3.0-or-later
/* body_shelf: solids that were made lately, to be taken again while the wood is the same: for those who draw one job over and
 * over with a value a little changed, where most pieces are as they were. */
#ifndef TW_BODY_SHELF_H
#define TW_BODY_SHELF_H

#include "solid/solid.h"

#define TW_BODY_SHELF_MOST       200                   // solids
#define TW_BODY_SHELF_BYTES_MOST (24u * 1024u * 1024u)

typedef struct tw_body_shelf tw_body_shelf;

/// What a solid is made of. Two that are alike to the last bit have the same solid.
typedef struct tw_body_key { tw_size size; const tw_cut *cuts; int cut_count; double chord_mm; bool to_look_at; } tw_body_key;

bool tw_same_body(const tw_body_key *a, const tw_body_key *b);

tw_body_shelf *tw_body_shelf_new(void (*out_of_memory)(void));  // as in tw_arena
void tw_body_shelf_free(tw_body_shelf *shelf);                  // takes NULL

/// A copy in the arena of the solid for this; NULL when there is none.
const tw_solid *tw_body_shelf_take(tw_body_shelf *shelf, tw_arena *arena, tw_body_key key);
/// Keeps a copy. Those that were not taken for longest go when there are too many.
void tw_body_shelf_put(tw_body_shelf *shelf, tw_body_key key, const tw_solid *solid);

#endif
