// SPDX-License-Identifier: GPL-3.0-or-later
/* space_json: the part "space" of job.json. Private to the papers. */
#ifndef TW_SPACE_JSON_H
#define TW_SPACE_JSON_H

#include "sheet/json.h"
#include "sheet/papers.h"

/// Writes the key "space", or nothing when nothing is placed. Words that are put together live in the arena.
/// width_mm, depth_mm and height_mm are of the group that holds the base piece, without tusks and pegs.
void tw_json_space(tw_json *json, tw_arena *arena, const tw_paper_input *in);

#endif
