// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/job.h"
#include "job/tree.h"

const char *tw_job_shop_name(tw_arena *arena, tw_text text)
{
    tw_findings unheard = { .arena = arena };  // the job's own reading will find the same again, and say it
    tw_tree tree = tw_tree_read(arena, text, "", &unheard);
    if (!tree.root || tree.root->kind != TW_NODE_MAP) return NULL;
    for (int i = 0; i < tree.root->count; i++) {
        const tw_node *key = tree.root->pairs[i].key, *value = tree.root->pairs[i].value;
        if (key->kind == TW_NODE_TEXT && value->kind == TW_NODE_TEXT && tw_text_is(key->text, "shop")) return tw_text_copy(arena, value->text);
    }
    return NULL;
}
