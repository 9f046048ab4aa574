// SPDX-License-Identifier: GPL-3.0-or-later
/* propose: joints that could join what was pointed at, and what goes when an entry goes. Both answer with changes of the job's
 * text, ready to be made; nothing is changed here. */
#ifndef TW_PROPOSE_H
#define TW_PROPOSE_H

#include "job/job.h"
#include "tuskwright.h"

/// A place on a piece that the maker pointed at.
typedef struct tw_pointed {
    const char *piece;      // its name in the job
    int         face;       // as tw_face of piece/piece.h counts: face, back, face edge, back edge, left end, right end
    double      at_mm;      // along the piece, from its left end; of an end it does not matter
    double      across_mm;  // across the side: from the face edge, or of an edge from the back; of an end it does not matter
} tw_pointed;

/// A joint or profile that could stand there.
typedef struct tw_proposal {
    const char      *kind;     // "housing"
    const char      *name;     // that it would get: "shelf to side", or of the joint that gets one more place
    const char      *label;    // "Housing: shelf into side, 320 mm from its left end"
    const char      *halt;     // what must not be cut so, the first new halt that it brings; "" when it brings none
    const tw_change *changes;  // [change_count] of the job's text
    size_t           change_count;
} tw_proposal;

/// What could join the two places, those that bring no new halt first. Each has been tried: with its changes made the
/// job reads and sets out without TW_WRONG. request: the job's and shop's texts. NULL and *count 0 when nothing could, or the
/// job cannot be read as it is. The result lives in the arena.
const tw_proposal *tw_propose(tw_arena *arena, const tw_request *request, tw_pointed first, tw_pointed second, size_t *count);

/// The changes that take an entry out of a job with all that cannot stay without it: of a piece its joints and profiles, and
/// `base` where it names the piece. section: "pieces", "joints", "profiles" or "amounts". NULL and *count 0 when there is no
/// such entry. Sums of others that speak of what goes are not mended: making the changes is then refused with their places.
const tw_change *tw_removal(tw_arena *arena, const tw_job *job, const char *section, const char *name, size_t *count);

#endif
