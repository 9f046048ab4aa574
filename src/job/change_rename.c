// SPDX-License-Identifier: GPL-3.0-or-later
/* A new name for a piece, a joint, a profile, an amount, or a thing of the shop. The key tables tell which values of a job
 * speak of it: links hold the name of a piece, and sums hold any name. Sums are read by the reader's own formula, which says
 * where a name stands in them. */
#include "job/splice.h"

#include "job/formula.h"
#include "job/tables.h"

#include <string.h>

typedef struct renaming {
    tw_splicer *s;
    tw_text     from, to;
    bool        piece;   // links too
} renaming;

/* ---- one text ---- */

static void write_over(renaming *r, tw_node *node, tw_text said, bool flow)
{
    tw_splicer *s = r->s;
    tw_splice_at(s, node->begin, tw_node_end(s->source, node), tw_text_written(s->arena, s->source, node, said, flow));
    node->text = said;
}

static bool is_old_name(const renaming *r, tw_text text)
{
    return text.length == r->from.length && memcmp(text.bytes, r->from.bytes, text.length) == 0;
}

/* Gathers the sum's text up to each place of the name as the formula meets it. */
typedef struct mentions { const renaming *r; tw_text sum; size_t copied; tw_sink sink; } mentions;

static int meet_name(void *context, tw_text owner, tw_text key, const char **what, const char **remedy)
{
    mentions *m = context;
    (void)key, (void)what, (void)remedy;
    if (!is_old_name(m->r, owner)) return 0;
    size_t at = (size_t)(owner.bytes - m->sum.bytes);
    tw_put(&m->sink, m->sum.bytes + m->copied, at - m->copied);
    tw_put(&m->sink, m->r->to.bytes, m->r->to.length);
    m->copied = at + owner.length;
    return 0;
}

static void rename_in_sum(renaming *r, tw_node *node, bool flow)
{
    tw_arena *arena = r->s->arena;
    tw_gather all = { .arena = arena };
    mentions m = { r, node->text, 0, tw_gather_sink(&all) };
    tw_formula formula;
    tw_fault fault;
    tw_formula_read(arena, node->text, (tw_names_known){ meet_name, &m }, &formula, &fault);
    if (m.copied == 0) return;
    tw_put(&m.sink, node->text.bytes + m.copied, node->text.length - m.copied);
    write_over(r, node, tw_gathered(&all), flow);
}

/* ---- by the tables ---- */

static void rename_in_value(renaming *r, tw_node *node, tw_key_kind kind, bool flow)
{
    flow = flow || tw_node_is_flow(r->s->source, node);
    bool length = kind == TW_KEY_LENGTH || kind == TW_KEY_LENGTHS;
    bool amount = length || kind == TW_KEY_ANGLE || kind == TW_KEY_NUMBER || kind == TW_KEY_COUNT;
    if (node->kind == TW_NODE_LIST && amount)
        for (int i = 0; i < node->count; i++) rename_in_value(r, node->items[i], kind, flow);
    if (node->kind != TW_NODE_TEXT || node->text.length == 0) return;
    if (amount) rename_in_sum(r, node, flow);
    else if (kind == TW_KEY_PIECE && r->piece && is_old_name(r, node->text)) write_over(r, node, r->to, flow);
}

static void rename_in_map(renaming *r, tw_node *map, const tw_key *keys, int count, bool flow)
{
    flow = flow || tw_node_is_flow(r->s->source, map);
    for (int i = 0; map->kind == TW_NODE_MAP && i < map->count; i++)
        for (int j = 0; j < count; j++)
            if (tw_text_is(map->pairs[i].key->text, keys[j].name)) rename_in_value(r, map->pairs[i].value, keys[j].kind, flow);
}

static const tw_joint_format *format_of(const renaming *r, const tw_node *entry)
{
    const tw_change_rules *rules = &r->s->rules;
    for (int i = 0; entry->kind == TW_NODE_MAP && i < entry->count; i++)
        for (int j = 0; j < rules->format_count && tw_text_is(entry->pairs[i].key->text, "kind"); j++)
            if (tw_text_is(entry->pairs[i].value->text, rules->formats[j]->kind)) return rules->formats[j];
    return NULL;
}

static void rename_in_section(renaming *r, const tw_section *section, tw_node *map, bool flow)
{
    flow = flow || tw_node_is_flow(r->s->source, map);
    bool amounts = tw_text_is(tw_text_of(section->name), "amounts");
    for (int i = 0; map->kind == TW_NODE_MAP && i < map->count; i++) {
        tw_node *entry = map->pairs[i].value;
        const tw_joint_format *format = section->keys || amounts ? NULL : format_of(r, entry);
        if (amounts) rename_in_value(r, entry, TW_KEY_LENGTH, flow);
        else if (section->keys) rename_in_map(r, entry, section->keys, section->count, flow);
        else if (format) rename_in_map(r, entry, format->keys, format->key_count, flow);
    }
}

static void rename_in_job(renaming *r)
{
    tw_node *root = r->s->root;
    bool flow = tw_node_is_flow(r->s->source, root);
    rename_in_map(r, root, tw_job_layout.keys, tw_job_layout.count, flow);
    for (int i = 0; i < root->count; i++) {
        const tw_section *section = tw_section_named(&tw_job_layout, root->pairs[i].key->text);
        if (section) rename_in_section(r, section, root->pairs[i].value, flow);
    }
}

bool tw_splice_rename(tw_splicer *s, const tw_change *change)
{
    tw_found f = tw_path_find(s, change->path, change->path_count);
    bool job = s->rules.file == TW_FILE_JOB;
    const tw_section *section = tw_section_named(job ? &tw_job_layout : &tw_shop_layout, tw_text_of(change->path[0]));
    const char *path = tw_path_in_words(s->arena, change->path, change->path_count);
    if (change->path_count != 2 || !section || !section->entry)
        return tw_splice_refuse(s, f.node, tw_format(s->arena, "%s has no name of its own", path),
                                "name a section and an entry in it");
    if (!f.node || !f.key) return tw_splice_refuse(s, NULL, tw_format(s->arena, "nothing stands at %s", path), "");
    tw_text to = tw_new_value(s->arena, change->value ? change->value : "", NULL, 0)->text;
    renaming r = { s, f.key->text, to, tw_text_is(tw_text_of(section->name), "pieces") };
    if (is_old_name(&r, to)) return true;
    if (job) rename_in_job(&r);
    write_over(&r, f.key, to, f.flow);
    return true;
}
