// SPDX-License-Identifier: GPL-3.0-or-later
/* change_json: changes of texts, and findings with the changes that they offer, as the page sends and gets them.
 *
 *   CHANGE   {"kind": "set"|"remove"|"add"|"rename", "path", "value"?, "list"?,
 *             "entries"?: [{"key", "value"|"list"}], "file"?: "job"|"shop"}
 *   FINDING  {"level", "code", "about", "file", "line", "column", "what", "remedy",
 *             "fixes": [{"label", "changes": [CHANGE]}]} */
#ifndef TW_CHANGE_JSON_H
#define TW_CHANGE_JSON_H

#include "serve/ask_json.h"
#include "sheet/json.h"
#include "tuskwright.h"

extern const char *const tw_file_words[2];  // "job", "shop", as tw_file_kind counts

/// The field "changes", if it is there. count is set.
const tw_file_change *tw_form_changes(tw_form *form, size_t *count);

/// "changes": [..] of the job's text.
void tw_put_changes(tw_json *json, tw_arena *arena, const tw_change *changes, size_t count);
/// "state" and "findings": [..]
void tw_put_state(tw_json *json, tw_arena *arena, const tw_result *result);
/// "refused": [..], why changes could not be made.
void tw_put_refused(tw_json *json, tw_arena *arena, const tw_changed *refused);

#endif
