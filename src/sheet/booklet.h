// SPDX-License-Identifier: GPL-3.0-or-later
/* booklet: all papers of a job in one: a cover with a picture, the contents, and every sheet with its page number. */
#ifndef TW_BOOKLET_H
#define TW_BOOKLET_H

#include "sheet/papers.h"

/// The pages from cover to end. Every page but the cover says at its foot, outside the frame, which page of how many it is; else
/// the sheets are those of the papers, true to size. The papers must be those of that input; all lives in the arena.
tw_paper_pages tw_booklet_make(tw_arena *arena, const tw_paper_input *input, const tw_papers *papers);

#endif
