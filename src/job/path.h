// SPDX-License-Identifier: GPL-3.0-or-later
/* path: where a value stands in a job's or a shop's text, as one text.
 *
 * The words of the path are joined by "/"; in a word "~1" stands for "/" and "~0" for "~" (the escapes of JSON Pointer, RFC
 * 6901, without its leading "/"). Items of a list count from 1. Examples: "pieces/post/width", "joints/stretcher to post/at/2",
 * "units", "cutters/1~12 spiral/measured". */
#ifndef TW_JOB_PATH_H
#define TW_JOB_PATH_H

#include "base/base.h"

#define TW_PATH_MOST 16  // words of a path

/// The path as one text. words: [count], count at least 1; no word is empty.
const char *tw_path_text(tw_arena *arena, const char *const *words, size_t count);
/// The words of a path text, and how many there are; NULL, with *count 0, when it is none: an empty word, a "~" before
/// anything but 0 or 1, more than TW_PATH_MOST words. What tw_path_text() makes comes back as it was.
const char *const *tw_path_split(tw_arena *arena, const char *text, size_t *count);
/// The path text of one more word behind a path text. Example: ("cutters", "1/2 spiral") gives "cutters/1~12 spiral".
const char *tw_path_join(tw_arena *arena, const char *path, const char *word);

#endif
