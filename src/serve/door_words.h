// SPDX-License-Identifier: GPL-3.0-or-later
/* door_words: reading what a browser sends: path, query, form, cookie. Pure: text in, answer out. */
#ifndef TW_DOOR_WORDS_H
#define TW_DOOR_WORDS_H

#include "base/base.h"

#define TW_DOOR_TARGET_MOST 4096  // bytes of path and query

/// What a request is aimed at: "/api/text?shelf=jobs&id=3".
typedef struct tw_target {
    const char *path;   // "/api/text"; plain: see tw_target_read()
    tw_text     query;  // "shelf=jobs&id=3", well written: see tw_query_is_well_written()
} tw_target;

/// Takes a target apart. Returns NULL when it is well: a path begins with one slash; its words hold letters, digits and
/// - _ . only, none of them empty (but the last) or made of points; no path is longer than TW_DOOR_TARGET_MOST with its
/// query. Else what is wrong, a sentence; *too_long tells that it is this.
const char *tw_target_read(tw_arena *arena, const char *target, tw_target *read, bool *too_long);

/// Words as a form or a query has them, "name=value&...", with + for a space and %XX for a byte: true when each name and
/// value is UTF-8 without control characters, and no % stands alone.
bool tw_query_is_well_written(tw_text form);
/// The value of the first of that name, decoded; NULL when there is none. form: well written.
char *tw_query_value(tw_arena *arena, tw_text form, const char *name);

/// The value of a cookie in a header "a=1; b=2"; the one numbered `at` from 0 of that name. Length 0 when there is none.
tw_text tw_cookie_value(tw_text header, const char *name, size_t at);

/// Whether they are the same; it takes equally long wherever they differ. secret: ended by a zero, not empty.
bool tw_same_secret(tw_text given, const char *secret);

/// Valid UTF-8 without control characters (line ends and tabs count as such, and so do U+0080 to U+009F).
bool tw_is_plain_utf8(tw_text text);

#endif
