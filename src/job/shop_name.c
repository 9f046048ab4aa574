// SPDX-License-Identifier: GPL-3.0-or-later
/* What a file calls itself, and the shop that a job names: read before the file is read as a job or shop. */
#include "job/top_text.h"

#include "job/job.h"
#include "job/tree.h"

const char *tw_top_text(tw_arena *arena, tw_text text, const char *wanted)
{
    tw_findings unheard = { .arena = arena };  // the job's own reading will find the same again, and say it
    tw_tree tree = tw_tree_read(arena, text, "", &unheard);
    if (!tree.root || tree.root->kind != TW_NODE_MAP) return NULL;
    for (int i = 0; i < tree.root->count; i++) {
        const tw_node *key = tree.root->pairs[i].key, *value = tree.root->pairs[i].value;
        if (key->kind == TW_NODE_TEXT && value->kind == TW_NODE_TEXT && tw_text_is(key->text, wanted)) return tw_text_copy(arena, value->text);
    }
    return NULL;
}

const char *tw_job_shop_name(tw_arena *arena, tw_text text) { return tw_top_text(arena, text, "shop"); }
