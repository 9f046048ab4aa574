// SPDX-License-Identifier: GPL-3.0-or-later
/* index: names to numbers, in about one look however many there are. */
#ifndef TW_JOB_INDEX_H
#define TW_JOB_INDEX_H

#include "base/base.h"

/// Starts as {.arena = ...}. Names keep the order in which they were added: name i got the number i.
typedef struct tw_index {
    tw_arena    *arena;
    const char **names;   // [count]
    int          count;
    size_t       names_room;
    int         *slots;   // [room], number + 1; 0 is free
    size_t       room;
    size_t       compared;  // names looked through for nearest ones so far
} tw_index;

/// Adds a name (kept, not copied) and returns its number; a name that is there already is added again all the same, and
/// tw_index_find() goes on finding the first.
int tw_index_add(tw_index *index, const char *name);
/// The number of a name, or -1.
int tw_index_find(const tw_index *index, tw_text name);
/// The nearest name to an unknown one, or NULL. What it costs is limited: after many lookups among many names it
/// offers nothing more.
const char *tw_index_nearest(tw_index *index, tw_text name);

#endif
