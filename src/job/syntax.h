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

/// Bytes of a line (from 0) without its line end; {NULL or end, 0} past the end.
tw_text tw_line_of(tw_text source, int line);
/// Bytes of leading blanks (spaces and tabs).
size_t tw_indent_of(tw_text line);
/// Nothing but blanks, or a comment.
bool tw_line_is_bare(tw_text line);

#endif
