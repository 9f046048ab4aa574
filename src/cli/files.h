// SPDX-License-Identifier: GPL-3.0-or-later
/* files: reading a whole file. */
#ifndef TW_FILES_H
#define TW_FILES_H

#include "base/base.h"

/// The whole of a file, "-" for standard input; at most TW_TEXT_MOST_BYTES. The text lives in the arena.
/// Returns 0; or 2 (too large) or 3 (the system says no) with *why set to a line for standard error.
int tw_file_read(tw_arena *arena, const char *path, tw_text *text, const char **why);

#endif
