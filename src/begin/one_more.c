// SPDX-License-Identifier: GPL-3.0-or-later
/* A joint that is there already gets one more place. Apart from propose.c, for the tree and the templates each have a tw_pair. */
#include "begin/one_more.h"

#include <string.h>

#include "job/tree.h"

static const char *text_of(tw_arena *arena, const tw_node *node) { return tw_text_copy(arena, node->text); }

const char *const *tw_places_and_one_more(tw_arena *arena, const tw_joint *joint, const char *place, size_t *count)
{
    const tw_pair *at = joint->written && joint->written->kind == TW_NODE_MAP ? tw_pair_of(joint->written, "at") : NULL;
    *count = 0;
    if (!at || (at->value->kind != TW_NODE_TEXT && at->value->kind != TW_NODE_LIST)) return NULL;
    bool list = at->value->kind == TW_NODE_LIST;
    size_t known = list ? (size_t)at->value->count : 1;
    const char **places = TW_NEW_ARRAY(arena, const char *, known + 1);
    for (size_t i = 0; i < known; i++) {
        const tw_node *one = list ? at->value->items[i] : at->value;
        if (one->kind != TW_NODE_TEXT || one->text.length == 0) return NULL;
        places[(*count)++] = text_of(arena, one);
    }
    places[(*count)++] = place;
    return places;
}
