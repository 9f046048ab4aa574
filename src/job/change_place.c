// SPDX-License-Identifier: GPL-3.0-or-later
/* Paths to nodes, and where lines begin and end in the bytes as given. A line ends with LF, CR LF or CR. */
#include "job/splice.h"

#include "job/characters.h"

#include <string.h>

#define STEP_USUAL 2  // columns by which a map is indented where the text shows no example

/* ---- lines ---- */

static bool is_line_end(char byte) { return byte == '\n' || byte == '\r'; }

static size_t text_begin(tw_text source) { return source.length >= 3 && memcmp(source.bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; }

size_t tw_line_begin_at(tw_text source, size_t at)
{
    size_t first = text_begin(source);
    while (at > first && !is_line_end(source.bytes[at - 1])) at--;
    return at;
}

size_t tw_line_stop_at(tw_text source, size_t at)
{
    while (at < source.length && !is_line_end(source.bytes[at])) at++;
    return at;
}

size_t tw_line_next_at(tw_text source, size_t at)
{
    at = tw_line_stop_at(source, at);
    if (at < source.length && source.bytes[at] == '\r') return at + 1 + (at + 1 < source.length && source.bytes[at + 1] == '\n');
    return at + (at < source.length);
}

size_t tw_column_at(tw_text source, size_t at) { return at - tw_line_begin_at(source, at); }

const char *tw_line_end_of(tw_text source)
{
    size_t at = tw_line_stop_at(source, 0), next = tw_line_next_at(source, 0);
    return next - at == 2 ? "\r\n" : at < source.length && source.bytes[at] == '\r' ? "\r" : "\n";
}

/* ---- nodes ---- */

bool tw_node_is_flow(tw_text source, const tw_node *node)
{
    if (node->kind != TW_NODE_MAP && node->kind != TW_NODE_LIST) return false;
    return node->begin < source.length && (source.bytes[node->begin] == '{' || source.bytes[node->begin] == '[');
}

size_t tw_node_end(tw_text source, const tw_node *node)
{
    size_t end = node->end;
    while (end > node->begin && strchr(" \t\r\n", source.bytes[end - 1])) end--;
    return end;
}

bool tw_node_is_nothing(const tw_node *node) { return node->kind == TW_NODE_TEXT && node->begin == node->end; }

size_t tw_nothing_at(tw_text source, const tw_node *key, const tw_node *nothing, bool *colon)
{
    *colon = true;
    if (!key) return nothing->begin;
    size_t at = key->end;
    while (at < nothing->begin && strchr(" \t\r\n", source.bytes[at])) at++;
    *colon = at < source.length && source.bytes[at] == ':';
    return *colon ? at + 1 : key->end;
}

size_t tw_pair_end(tw_text source, const tw_pair *pair)
{
    bool colon;
    if (!tw_node_is_nothing(pair->value)) return tw_node_end(source, pair->value);
    return tw_nothing_at(source, pair->key, pair->value, &colon);
}

size_t tw_step_of(tw_text source, const tw_node *root)
{
    for (int i = 0; root->kind == TW_NODE_MAP && i < root->count; i++) {
        const tw_node *value = root->pairs[i].value;
        if (value->kind != TW_NODE_MAP || value->count == 0 || tw_node_is_flow(source, value)) continue;
        size_t outer = tw_column_at(source, root->pairs[i].key->begin), inner = tw_column_at(source, value->begin);
        if (inner > outer) return inner - outer;
    }
    return STEP_USUAL;
}

/* ---- paths ---- */

const char *tw_path_in_words(tw_arena *arena, const char *const *path, size_t count)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    for (size_t i = 0; i < count; i++) tw_putf(&sink, "%s%s", i ? " / " : "", path[i]);
    return tw_shown(arena, tw_gathered(&all));
}

/* 0, 1, .. for the items of a list, which the word counts from 1; -1 for none. */
static int item_of(const tw_node *list, const char *word)
{
    long number = 0;
    for (const char *at = word; *at; at++) {
        if (*at < '0' || *at > '9' || number > list->count) return -1;
        number = number * 10 + (*at - '0');
    }
    return number >= 1 && number <= list->count ? (int)number - 1 : -1;
}

static int index_in(const tw_node *node, const char *word)
{
    if (node->kind == TW_NODE_LIST) return item_of(node, word);
    for (int i = 0; node->kind == TW_NODE_MAP && i < node->count; i++)
        if (node->pairs[i].key->kind == TW_NODE_TEXT && tw_text_is(node->pairs[i].key->text, word)) return i;
    return -1;
}

tw_found tw_path_find(const tw_splicer *s, const char *const *path, size_t count)
{
    tw_found f = { .node = s->root, .index = -1 };
    for (f.depth = 0; f.depth < count; f.depth++) {
        tw_node *in = f.node;
        const char *word = path[f.depth];
        bool last = f.depth + 1 == count, alone = in->kind == TW_NODE_TEXT && in->text.length > 0 && f.key;
        if (last && alone && strcmp(word, "1") == 0) continue;  // one amount is a list of one
        f.parent = in;
        f.parent_key = f.key;
        f.flow = f.flow || tw_node_is_flow(s->source, in);
        f.index = index_in(in, word);
        f.key = f.index >= 0 && in->kind == TW_NODE_MAP ? in->pairs[f.index].key : NULL;
        f.node = f.index < 0 ? NULL : in->kind == TW_NODE_MAP ? in->pairs[f.index].value : in->items[f.index];
        if (!f.node) return f;
    }
    return f;
}
