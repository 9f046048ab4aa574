// SPDX-License-Identifier: GPL-3.0-or-later
/* top_text: what stands at a key of the outermost map, before a file is read as a job or a shop. */
#ifndef TW_JOB_TOP_TEXT_H
#define TW_JOB_TOP_TEXT_H

#include "base/base.h"

/// The title of a file, say: key `job` or `shop`. NULL when no text stands there, or the file is no YAML. Lives in the arena.
const char *tw_top_text(tw_arena *arena, tw_text text, const char *key);

#endif
