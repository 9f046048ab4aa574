// SPDX-License-Identifier: GPL-3.0-or-later
/* What could be added where the maker points, and what goes with an entry that is taken away: changes ready to be made. */
#include "serve/api.h"

#include <string.h>

#include "begin/propose.h"
#include "piece/piece.h"
#include "serve/change_json.h"

/* ---- POST /api/propose {"text", .., "first": SPOT, "second": SPOT} -> {"proposals": [{"kind", "name", "label", "halt",
 * "changes"}]}
 *
 *   SPOT   {"piece", "face": "face"|"back"|"face edge"|"back edge"|"left end"|"right end", "at": mm, "across"?: mm} */

static tw_pointed spot_of(tw_form *form, const char *key)
{
    tw_form spot = tw_form_object(form, key);
    return (tw_pointed){
        .piece = tw_form_words(&spot, "piece"),
        .face = (int)tw_form_choice(&spot, "face", tw_face_words, TW_FACE_COUNT),
        .at_mm = tw_form_number(&spot, "at", -TW_LENGTH_MOST_MM, TW_LENGTH_MOST_MM),
        .across_mm = tw_form_has(&spot, "across") ? tw_form_number(&spot, "across", -TW_LENGTH_MOST_MM, TW_LENGTH_MOST_MM) : 0.0,
    };
}

static bool has_piece(const tw_job *job, const char *name)
{
    for (int i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].name, name) == 0) return true;
    return false;
}

static tw_reply reply_proposals(tw_arena *arena, const tw_proposal *proposals, size_t count)
{
    tw_json *json = tw_answer_begin(arena);
    tw_json_open(json, "proposals", '[');
    for (size_t i = 0; i < count; i++) {
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "kind", proposals[i].kind);
        tw_json_text(json, "name", proposals[i].name);
        tw_json_text(json, "label", proposals[i].label);
        tw_json_text(json, "halt", proposals[i].halt);
        tw_put_changes(json, arena, proposals[i].changes, proposals[i].change_count);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
    return tw_answer_end(json);
}

tw_reply tw_api_propose(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_pointed first = spot_of(&form, "first"), second = spot_of(&form, "second");
    tw_reckon_texts texts;
    tw_reply refusal;
    if (!tw_form_texts_changed(desk, &form, &texts, &refusal)) return refusal;
    tw_reckoned *reckoned = tw_cache_reckon(desk->cache, &texts);
    if (!tw_reckoned_can_be_shown(reckoned)) return tw_reply_unreadable(ask->arena);
    const tw_job *job = tw_reckoned_result(reckoned)->job;
    const char *missing = !has_piece(job, first.piece) ? first.piece : !has_piece(job, second.piece) ? second.piece : NULL;
    if (missing)
        return tw_reply_not_there(ask->arena, tw_format(ask->arena, "the job has no piece \"%s\"", missing),
                                  "point at a piece that is there");
    size_t count;
    tw_request request = tw_reckon_request(ask->arena, &texts);
    const tw_proposal *proposals = tw_propose(ask->arena, &request, first, second, &count);
    return reply_proposals(ask->arena, proposals, count);
}

/* ---- POST /api/removal {"text", .., "what": "pieces"|"joints"|"profiles"|"amounts", "name"} -> {"changes"} ---- */

tw_reply tw_api_removal(void *context, const tw_door_ask *ask)
{
    static const char *const sections[] = { "pieces", "joints", "profiles", "amounts" };
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    const char *section = sections[tw_form_choice(&form, "what", sections, 4)], *name = tw_form_words(&form, "name");
    tw_reckon_texts texts;
    tw_reply refusal;
    if (!tw_form_texts_changed(desk, &form, &texts, &refusal)) return refusal;
    tw_reckoned *reckoned = tw_cache_reckon(desk->cache, &texts);
    if (!tw_reckoned_can_be_shown(reckoned)) return tw_reply_unreadable(ask->arena);
    size_t count;
    const tw_change *changes = tw_removal(ask->arena, tw_reckoned_result(reckoned)->job, section, name, &count);
    if (!changes)
        return tw_reply_not_there(ask->arena, tw_format(ask->arena, "the job has no \"%s\" among its %s", name, section),
                                  "look at the job again");
    tw_json *json = tw_answer_begin(ask->arena);
    tw_put_changes(json, ask->arena, changes, count);
    return tw_answer_end(json);
}
