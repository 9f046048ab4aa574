// SPDX-License-Identifier: GPL-3.0-or-later
/* paper_set: all files that a job is set out to, one by one: PDF, SVG, DXF, STL, CSV, JSON. The command line writes them into a
 * folder, the server hands them to the page: the same bytes. */
#ifndef TW_PAPER_SET_H
#define TW_PAPER_SET_H

#include "whole.h"

/// One file of the set.
typedef struct tw_paper_file {
    const char *name;       // with its folder: "cards.pdf", "templates/T1.dxf", "svg/cards-1.svg"
    const char *title;      // "Setup cards"
    const char *purpose;    // a sentence without its full stop, or ""
    int         pages;      // 0 where it has no pages
    bool        true_size;  // must be printed at 100 %
    tw_text     bytes;      // during the call only
} tw_paper_file;

/// What the maker of the set asks and tells. take: takes a file; false to stop (it says itself why). go_on: before each page,
/// solid or file; done of so many parts; false to stop; what: a fixed text. leave_out: told of what is left out, and why; any of
/// the last two may be NULL.
typedef struct tw_paper_taker {
    void *context;
    bool (*take)(void *context, const tw_paper_file *file);
    bool (*go_on)(void *context, size_t done, size_t of, const char *what);
    void (*leave_out)(void *context, const char *sentence);
} tw_paper_taker;

/// Makes all files of a result with papers. all-papers.pdf is the booklet. A solid whose skin does not close is left out. Returns
/// false with *why set (a sentence without its full stop, in the arena or fixed) when something fails; "" when the taker stopped
/// it.
bool tw_paper_set_make(tw_arena *arena, const tw_result *result, const tw_paper_taker *taker, const char **why);

#endif
