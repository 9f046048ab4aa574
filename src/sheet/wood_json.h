// SPDX-License-Identifier: GPL-3.0-or-later
/* wood_json: what job.json says of the wood of one piece. Private to the papers. */
#ifndef TW_WOOD_JSON_H
#define TW_WOOD_JSON_H

#include "joint/piece_wood.h"
#include "sheet/json.h"

/// Keys for the object of one piece, which is open.
void tw_json_wood(tw_json *json, tw_arena *arena, const tw_job *job, const tw_piece_wood *wood);

#endif
