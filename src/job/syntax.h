// SPDX-License-Identifier: GPL-3.0-or-later
/* What a parser's complaint means to a maker, and what to do so that the rest of the file can be read. */
#ifndef TW_JOB_SYNTAX_H
#define TW_JOB_SYNTAX_H

#include "base/base.h"

/// The complaint as the parser gives it; lines and columns from 0, in characters.
typedef struct tw_complaint {
    const char *problem, *context;  // the parser's words; may be NULL
    int line, column;               // of the problem
    int from_line, from_column;     // of the context
} tw_complaint;

#define TW_COMPLAINT_DEEP "nested too deep"  // our own complaint, beside the parser's

/// What it means. Lines and columns from 0.
typedef struct tw_syntax_fault {
    int         line, column;  // where the fault is shown
    const char *code, *what, *remedy;
    int         blank_line;    // leave this line out; -1: mend instead
    bool        alone;         // leave only it out, else also those below that are indented deeper
    size_t      mend_at;       // put mend_with in before this byte
    char        mend_with;
} tw_syntax_fault;

tw_syntax_fault tw_syntax_explain(tw_arena *arena, tw_text source, tw_complaint complaint);

/// A line without its line end; number from 0, -1 for none (above the first or below the last).
typedef struct tw_line { tw_text text; size_t begin; int number; } tw_line;
/// By its number: counts from the top.
tw_line tw_line_of(tw_text source, int number);
/// The one below: one step, however long the text is.
tw_line tw_line_below(tw_text source, tw_line line);
/// Bytes of leading blanks (spaces and tabs).
size_t tw_indent_of(tw_text line);
/// Nothing but blanks, or a comment.
bool tw_line_is_bare(tw_text line);

#endif
