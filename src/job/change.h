// SPDX-License-Identifier: GPL-3.0-or-later
/* change: a job's or a shop's text with some values changed in place (include/tuskwright.h has the types and the rules).
 *
 * 1. The text is read to its tree; a text with a fault of syntax is not touched.
 * 2. A change is planned as splices of the text, and made in the tree too (splice.h).
 * 3. The spliced text is read to a tree again, which must be the changed tree: whatever a value holds, it cannot have become
 *    anything but that value. Else the change is refused.
 * 4. After the last change the text is read as a job or shop. What is wrong then and was not before refuses them all. */
#ifndef TW_JOB_CHANGE_H
#define TW_JOB_CHANGE_H

#include "job/job.h"
#include "tuskwright.h"

typedef struct tw_change_rules {
    tw_file_kind                   file;
    const tw_joint_format *const *formats;  // [format_count]; of a job, as for tw_job_read()
    int                            format_count;
} tw_change_rules;

typedef struct tw_change_made {
    bool       good;     // false: text is the old one, and findings of level TW_WRONG say why
    tw_text    text;     // ended by a zero
    tw_splice *splices;  // [count], in the order made
    size_t     count;
} tw_change_made;

/// Makes the changes, all or none; what is made lives in the arena.
tw_change_made tw_text_change(tw_arena *arena, tw_text text, const char *file, tw_change_rules rules, const tw_change *changes,
                              size_t count, tw_findings *findings);
/// As tw_value_span().
bool tw_text_span(tw_arena *arena, tw_text text, const char *const *path, size_t path_count, tw_span *span);

#endif
