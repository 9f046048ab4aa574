// SPDX-License-Identifier: GPL-3.0-or-later
/* Values written over old ones, and keys, items and entries added at the end of what holds them. A list is changed item by
 * item, so that the blanks and remarks between the items stay. */
#include "job/splice.h"

#include "job/characters.h"

#include <string.h>

static const char *gathered(tw_gather *all)
{
    tw_gathered(all);
    return all->bytes ? all->bytes : "";
}

/* ---- over an old value ---- */

/* Puts the written value at the place of the old one, or where it belongs when there is none: `width:` and `{width}`. */
static void write_over(tw_splicer *s, const tw_node *key, const tw_node *node, const char *written)
{
    bool colon = true, nothing = tw_node_is_nothing(node);
    size_t begin = nothing ? tw_nothing_at(s->source, key, node, &colon) : node->begin;
    const char *lead = !nothing ? "" : colon ? " " : ": ";
    tw_splice_at(s, begin, nothing ? begin : tw_node_end(s->source, node), tw_format(s->arena, "%s%s", lead, written));
}

static void become(tw_node *node, const tw_node *value)
{
    node->kind = value->kind;
    node->text = value->text;
    node->items = value->items;
    node->count = value->count;
    node->room = value->room;
}

static void set_text(tw_splicer *s, const tw_node *key, tw_node *node, const tw_node *value, bool flow)
{
    bool was_text = node->kind == TW_NODE_TEXT;
    bool same = was_text && node->text.length == value->text.length && value->text.length > 0 &&
                memcmp(node->text.bytes, value->text.bytes, value->text.length) == 0;
    if (same) return;
    write_over(s, key, node, tw_text_written(s->arena, s->source, was_text ? node : NULL, value->text, flow));
    become(node, value);
}

static void put_list_over(tw_splicer *s, const tw_node *key, tw_node *node, const tw_node *value)
{
    tw_gather all = { .arena = s->arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_value_put(s->arena, &sink, value, true);
    write_over(s, key, node, gathered(&all));
    become(node, value);
}

/* ---- lists ---- */

/* Behind the list's last item, or behind the bracket that opens it. */
static size_t behind_items(const tw_splicer *s, const tw_node *list, int count, bool flow)
{
    if (count == 0) return list->begin + 1;
    size_t end = tw_node_end(s->source, list->items[count - 1]);
    return flow ? end : tw_line_stop_at(s->source, end);
}

static void put_item(const tw_splicer *s, tw_sink *sink, const tw_node *list, const tw_node *item, bool first, bool flow)
{
    if (flow) {
        if (!first) tw_put_text(sink, ", ");
    } else {
        tw_put_text(sink, s->line_end);
        for (size_t i = tw_column_at(s->source, list->begin); i > 0; i--) tw_put_text(sink, " ");
        tw_put_text(sink, "- ");
    }
    tw_value_put(s->arena, sink, item, flow);
}

static void append_items(tw_splicer *s, tw_node *list, const tw_node *value, int from)
{
    bool flow = tw_node_is_flow(s->source, list);
    tw_gather all = { .arena = s->arena };
    tw_sink sink = tw_gather_sink(&all);
    size_t at = behind_items(s, list, list->count, flow);
    for (int i = from; i < value->count; i++) {
        put_item(s, &sink, list, value->items[i], list->count == 0, flow);
        tw_list_append(s->arena, list, value->items[i]);
    }
    tw_splice_at(s, at, at, gathered(&all));
}

static bool set_list(tw_splicer *s, tw_node *list, const tw_node *value, bool flow)
{
    for (int i = 0; i < list->count; i++)
        if (list->items[i]->kind != TW_NODE_TEXT)
            return tw_splice_refuse(s, list->items[i], "an item of this list is no single value", "change it in the text");
    bool own_flow = tw_node_is_flow(s->source, list);
    int kept = list->count < value->count ? list->count : value->count;
    for (int i = 0; i < kept; i++) set_text(s, NULL, list->items[i], value->items[i], flow || own_flow);
    if (value->count > list->count) append_items(s, list, value, kept);
    if (value->count >= list->count) return true;
    tw_splice_at(s, behind_items(s, list, kept, own_flow), behind_items(s, list, list->count, own_flow), "");
    list->count = kept;
    return true;
}

/* ---- new keys ---- */

static bool has_blank_line(tw_text source, size_t from, size_t until)
{
    for (size_t at = tw_line_next_at(source, from); at < until; at = tw_line_next_at(source, at))
        if (tw_line_stop_at(source, at) - at == strspn(source.bytes + at, " \t")) return true;
    return false;
}

/* Where the maker leaves a line between the parts of a file, a new part gets one too. */
static bool wants_blank_line(const tw_splicer *s, const tw_node *map, const tw_node *value)
{
    if (map != s->root || value->kind != TW_NODE_MAP || map->count < 2) return false;
    return has_blank_line(s->source, map->pairs[map->count - 2].value->end, map->pairs[map->count - 1].key->begin);
}

static void append_in_braces(tw_splicer *s, tw_node *map, tw_node *key, tw_node *value)
{
    tw_gather all = { .arena = s->arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_node pair = { .kind = TW_NODE_MAP };
    tw_map_append(s->arena, &pair, key, value);
    tw_value_put(s->arena, &sink, &pair, true);
    tw_text bare = tw_gathered(&all);  // without its own braces
    size_t at = map->count ? tw_pair_end(s->source, &map->pairs[map->count - 1]) : map->begin + 1;
    tw_splice_at(s, at, at, tw_format(s->arena, "%s%.*s", map->count ? ", " : "", (int)bare.length - 2, bare.bytes + 1));
    tw_map_append(s->arena, map, key, value);
}

static void append_lines(tw_splicer *s, tw_node *map, tw_node *key, tw_node *value, bool braces)
{
    tw_gather all = { .arena = s->arena };
    tw_sink sink = tw_gather_sink(&all);
    size_t at = tw_line_stop_at(s->source, tw_pair_end(s->source, &map->pairs[map->count - 1]));
    if (wants_blank_line(s, map, value)) tw_put_text(&sink, s->line_end);
    tw_pair_lines_put(s, &sink, key, value, tw_column_at(s->source, map->pairs[0].key->begin), braces);
    tw_splice_at(s, at, at, gathered(&all));
    tw_map_append(s->arena, map, key, value);
}

/* A key that has no value yet gets a map. */
static bool fill_empty(tw_splicer *s, const tw_found *f, tw_node *key, tw_node *value, bool braces)
{
    tw_node *map = f->parent;
    tw_gather all = { .arena = s->arena };
    tw_sink sink = tw_gather_sink(&all);
    if (!f->parent_key) return tw_splice_refuse(s, map, "an item of a list cannot become a map here", "change it in the text");
    bool colon;
    size_t at = tw_nothing_at(s->source, f->parent_key, map, &colon);
    map->kind = TW_NODE_MAP;
    tw_map_append(s->arena, map, key, value);
    if (f->flow) {
        tw_put_text(&sink, colon ? " " : ": ");
        tw_value_put(s->arena, &sink, map, true);
    } else {
        at = tw_line_stop_at(s->source, at);
        tw_pair_lines_put(s, &sink, key, value, tw_column_at(s->source, f->parent_key->begin) + s->step, braces);
    }
    tw_splice_at(s, at, at, gathered(&all));
    return true;
}

static bool append_item(tw_splicer *s, const tw_found *f, const tw_change *change, tw_node *value)
{
    int count = f->parent->count;
    tw_text word = tw_text_of(change->path[f->depth]);
    const char *shown = tw_shown(s->arena, word);
    bool next = tw_text_is(word, tw_format(s->arena, "%d", count + 1));
    if (!next || f->depth + 1 < change->path_count || value->kind != TW_NODE_TEXT)
        return tw_splice_refuse(s, f->parent, tw_format(s->arena, "the list has %d items, and no item %s", count, shown),
                                tw_format(s->arena, "items are numbered from 1; %d adds one at the end", count + 1));
    tw_node one = { .kind = TW_NODE_LIST };
    tw_list_append(s->arena, &one, value);
    append_items(s, f->parent, &one, 0);
    return true;
}

/* Puts the value at the end of the path's words that are there, those that are not yet around it. */
static bool append(tw_splicer *s, const tw_found *f, const tw_change *change, tw_node *value, bool braces)
{
    if (f->parent->kind == TW_NODE_LIST) return append_item(s, f, change, value);
    if (f->parent->kind == TW_NODE_TEXT && f->parent->text.length > 0)
        return tw_splice_refuse(s, f->parent, tw_format(s->arena, "%s is one value and holds nothing below it",
                                                        tw_path_in_words(s->arena, change->path, f->depth)), "");
    for (size_t i = change->path_count - 1; i > f->depth; i--) {
        tw_node *map = TW_NEW(s->arena, tw_node);
        map->kind = TW_NODE_MAP;
        tw_map_append(s->arena, map, tw_new_text(s->arena, tw_text_of(change->path[i])), value);
        value = map;
    }
    tw_node *key = tw_new_text(s->arena, tw_text_of(change->path[f->depth]));
    if (f->parent->kind == TW_NODE_TEXT) return fill_empty(s, f, key, value, braces);
    if (f->flow) append_in_braces(s, f->parent, key, value);
    else append_lines(s, f->parent, key, value, braces);
    return true;
}

/* ---- set ---- */

bool tw_splice_set(tw_splicer *s, const tw_change *change)
{
    tw_found f = tw_path_find(s, change->path, change->path_count);
    tw_node *value = tw_new_value(s->arena, change->value, change->list, change->list_count);
    if (value->kind == TW_NODE_LIST && value->count == 0)
        return tw_splice_refuse(s, f.node, "a list of nothing cannot be written", "take the key out instead");
    if (!f.node) return append(s, &f, change, value, false);
    if (f.node->kind == TW_NODE_MAP)
        return tw_splice_refuse(s, f.node, tw_format(s->arena, "%s holds keys of its own",
                                                     tw_path_in_words(s->arena, change->path, change->path_count)),
                                "name the key that is to be changed");
    bool list = f.node->kind == TW_NODE_LIST, block = list && !tw_node_is_flow(s->source, f.node);
    if (value->kind == TW_NODE_TEXT && block) {
        tw_node one = { .kind = TW_NODE_LIST };
        tw_list_append(s->arena, &one, value);
        return set_list(s, f.node, &one, f.flow);
    }
    if (value->kind == TW_NODE_TEXT) set_text(s, f.key, f.node, value, f.flow);
    else if (list) return set_list(s, f.node, value, f.flow);
    else put_list_over(s, f.key, f.node, value);
    return true;
}

/* ---- add ---- */

/* As the last entry of the section is written: in braces, or line by line. */
static bool uses_braces(const tw_splicer *s, const tw_node *section)
{
    if (section->kind != TW_NODE_MAP || section->count == 0) return false;
    return tw_node_is_flow(s->source, section->pairs[section->count - 1].value);
}

bool tw_splice_add(tw_splicer *s, const tw_change *change)
{
    tw_found f = tw_path_find(s, change->path, change->path_count);
    const char *path = tw_path_in_words(s->arena, change->path, change->path_count);
    if (change->path_count != 2 || change->entry_count == 0)
        return tw_splice_refuse(s, NULL, tw_format(s->arena, "%s is no entry with keys", path),
                                "give a section, a name and its keys");
    if (f.node) return tw_splice_refuse(s, f.node, tw_format(s->arena, "%s is there already", path), "choose another name");
    tw_node *entry = TW_NEW(s->arena, tw_node);
    entry->kind = TW_NODE_MAP;
    for (size_t i = 0; i < change->entry_count; i++) {
        const tw_entry *e = &change->entries[i];
        tw_node *value = tw_new_value(s->arena, e->value, e->list, e->list_count);
        tw_map_append(s->arena, entry, tw_new_text(s->arena, tw_text_of(e->key)), value);
    }
    return append(s, &f, change, entry, f.depth == 1 && uses_braces(s, f.parent));
}
