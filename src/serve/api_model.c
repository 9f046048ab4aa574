// SPDX-License-Identifier: GPL-3.0-or-later
/* What the page shows of a job, as the core writes it: the model, what moved, the words for the forms, the solids. */
#include "serve/api.h"

#include "begin/words_json.h"
#include "sheet/desk_json.h"
#include "sheet/solid_json.h"

#define SOLID_CHORD_MM 0.05  // of curves in the 3D view: under a screen's point at any size it is looked at

void tw_put_model(tw_json *json, tw_reckoned *reckoned, bool cards)
{
    tw_put_text(json->sink, ",\n \"model\": ");
    tw_desk_json_put(tw_reckoned_values(reckoned), &tw_reckoned_result(reckoned)->measures, cards, json->sink);
}

void tw_put_moved(tw_json *json, tw_arena *arena, tw_reckoned *before, tw_reckoned *after)
{
    tw_moves moves = tw_figures_compare(arena, tw_reckoned_values(before), tw_reckoned_values(after));
    tw_json_open(json, "moved", '[');
    for (size_t i = 0; i < moves.count; i++) {
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "id", moves.items[i].id);
        tw_json_text(json, "where", moves.items[i].where);
        tw_json_text(json, "label", moves.items[i].label);
        tw_json_text(json, "before", moves.items[i].before);
        tw_json_text(json, "after", moves.items[i].after);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

/* ---- GET /api/words -> tw_words_json_put() ---- */

tw_reply tw_api_words(void *context, const tw_door_ask *ask)
{
    (void)context;
    tw_gather words = { .arena = ask->arena };
    tw_sink sink = tw_gather_sink(&words);
    tw_words_json_put(&sink);
    return tw_reply_json(&words);
}

/* ---- POST /api/solids {"text", ..} -> tw_solids_json_put() ---- */

tw_reply tw_api_solids(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    tw_reckon_texts texts;
    tw_reply refusal;
    if (!tw_form_texts_changed(desk, &form, &texts, &refusal)) return refusal;
    tw_reckoned *reckoned = tw_cache_reckon(desk->cache, &texts);
    if (!tw_reckoned_can_be_shown(reckoned)) return tw_reply_unreadable(ask->arena);
    tw_paper_input input = *tw_reckoned_input(reckoned);
    input.bodies = NULL;  // of finer curves than the drawings'
    tw_gather gather = { .arena = ask->arena };
    tw_sink sink = tw_gather_sink(&gather);
    tw_solids_json_put(ask->arena, &input, SOLID_CHORD_MM, &sink);
    return tw_reply_json(&gather);
}
