// SPDX-License-Identifier: GPL-3.0-or-later
/* literal: one amount as makers write it: 38, 19mm, 1-1/2 in, 1 1/2", 2 ft 3 1/2 in, 5°, 1:12, 45 %. */
#ifndef TW_JOB_LITERAL_H
#define TW_JOB_LITERAL_H

#include "base/base.h"
#include "job/quantity.h"

/// What is wrong, and at which byte of the text.
typedef struct tw_fault { size_t at; const char *what, *remedy; } tw_fault;

typedef struct tw_literal {
    tw_quantity quantity;
    bool        fraction;  // 3/8 with nothing before it: after a division sign it could be read two ways
} tw_literal;

/// Does a number begin here?
bool tw_literal_begins(tw_text text, size_t at);
/// Reads the literal at *at and moves *at past it. Returns false with *fault set.
bool tw_literal_read(tw_arena *arena, tw_text text, size_t *at, tw_literal *literal, tw_fault *fault);

/// Moves past blanks (also the ones that do not break).
size_t tw_skip_blanks(tw_text text, size_t at);
/// The word of letters and digits that begins with a letter here; length 0 if there is none.
tw_text tw_word_at(tw_text text, size_t at);

#endif
