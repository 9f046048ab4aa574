// SPDX-License-Identifier: GPL-3.0-or-later
/* Values as YAML writes them. A text stands plain where it can; else in double quotes, or in single ones when it holds a
 * double quote or a backslash and no character that has to be escaped. What can stand plain is told on the safe side: a
 * quote too many does no harm. */
#include "job/splice.h"

#include "job/characters.h"

#include <string.h>

/* ---- which quotes ---- */

static bool has_sequence(tw_text text, const char *first_of, const char *second_of)
{
    for (size_t i = 0; i + 1 < text.length; i++)
        if (strchr(first_of, text.bytes[i]) && strchr(second_of, text.bytes[i + 1])) return true;
    return false;
}

static bool has_any(tw_text text, const char *bytes)
{
    for (size_t i = 0; i < text.length; i++)
        if (text.bytes[i] && strchr(bytes, text.bytes[i])) return true;
    return false;
}

/* Characters that YAML lets stand only as an escape. */
static bool is_escaped(uint32_t code)
{
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x2028 || code == 0x2029 || code == 0xFEFF;
}

static bool has_escaped(tw_text text)
{
    for (size_t at = 0; at < text.length;) {
        tw_character character = tw_character_at(text, at);
        if (is_escaped(character.code)) return true;
        at += character.length;
    }
    return false;
}

static bool needs_quotes(tw_text said, bool flow)
{
    if (said.length == 0 || has_escaped(said)) return true;
    char first = said.bytes[0], last = said.bytes[said.length - 1];
    if (first == ' ' || last == ' ' || last == ':' || strchr(",[]{}#&*!|>'\"%@`?:", first)) return true;
    if (first == '-' && (said.length == 1 || said.bytes[1] == ' ')) return true;
    bool mark = said.length >= 3 && (memcmp(said.bytes, "---", 3) == 0 || memcmp(said.bytes, "...", 3) == 0);
    if (mark || has_sequence(said, ":", " ") || has_sequence(said, " ", "#")) return true;
    return flow && has_any(said, ",[]{}?");
}

static char usual_quote(tw_text said) { return has_any(said, "\"\\") && !has_escaped(said) ? '\'' : '"'; }

/* 0 for a text that stands plain. */
static char quote_for(tw_text source, const tw_node *old, tw_text said, bool flow)
{
    char had = old && old->quoted ? source.bytes[old->begin] : 0;
    bool as_ours = had && had == usual_quote(old->text) && needs_quotes(old->text, flow);
    if (had == '\'' && has_escaped(said)) return '"';
    if (had && !as_ours) return had;
    return needs_quotes(said, flow) ? usual_quote(said) : 0;
}

/* ---- texts ---- */

static void put_escape(tw_arena *arena, tw_sink *sink, uint32_t code)
{
    if (code == '\n') tw_put_text(sink, "\\n");
    else if (code == '\t') tw_put_text(sink, "\\t");
    else tw_putf(sink, "%s%s", code < 0x100 ? "\\x" : "\\u", tw_hexadecimal(arena, code, code < 0x100 ? 2 : 4));
}

static void put_quoted(tw_arena *arena, tw_sink *sink, tw_text said, char quote)
{
    tw_putf(sink, "%c", quote);
    for (size_t at = 0; at < said.length;) {
        tw_character character = tw_character_at(said, at);
        bool marked = quote == '"' && (character.code == '"' || character.code == '\\');
        if (quote == '\'' && character.code == '\'') tw_put_text(sink, "'");
        if (marked) tw_put_text(sink, "\\");
        if (quote == '"' && is_escaped(character.code)) put_escape(arena, sink, character.code);
        else tw_put(sink, said.bytes + at, character.length);
        at += character.length;
    }
    tw_putf(sink, "%c", quote);
}

static void put_text(tw_arena *arena, tw_sink *sink, tw_text said, char quote)
{
    if (quote) put_quoted(arena, sink, said, quote);
    else tw_put(sink, said.bytes, said.length);
}

char *tw_text_written(tw_arena *arena, tw_text source, const tw_node *old, tw_text said, bool flow)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    put_text(arena, &sink, said, quote_for(source, old, said, flow));
    tw_gathered(&all);
    return all.bytes;
}

/* ---- values ---- */

static tw_text trimmed(const char *value)
{
    tw_text text = tw_text_of(value);
    while (text.length > 0 && (text.bytes[0] == ' ' || text.bytes[0] == '\t'))
        text = (tw_text){ text.bytes + 1, text.length - 1 };
    while (text.length > 0 && (text.bytes[text.length - 1] == ' ' || text.bytes[text.length - 1] == '\t')) text.length--;
    return text;
}

tw_node *tw_new_text(tw_arena *arena, tw_text said)
{
    tw_node *node = TW_NEW(arena, tw_node);
    node->text = (tw_text){ tw_text_copy(arena, said), said.length };
    return node;
}

void tw_list_append(tw_arena *arena, tw_node *list, tw_node *item)
{
    tw_array_make_room(arena, &list->items, (size_t)list->count, &list->room, sizeof *list->items);
    list->items[list->count++] = item;
}

void tw_map_append(tw_arena *arena, tw_node *map, tw_node *key, tw_node *value)
{
    tw_array_make_room(arena, &map->pairs, (size_t)map->count, &map->room, sizeof *map->pairs);
    map->pairs[map->count++] = (tw_pair){ key, value, false };
}

tw_node *tw_new_value(tw_arena *arena, const char *value, const char *const *list, size_t list_count)
{
    if (value) return tw_new_text(arena, trimmed(value));
    tw_node *node = TW_NEW(arena, tw_node);
    node->kind = TW_NODE_LIST;
    for (size_t i = 0; i < list_count; i++) tw_list_append(arena, node, tw_new_text(arena, trimmed(list[i])));
    return node;
}

static void put_text_node(tw_arena *arena, tw_sink *sink, const tw_node *node, bool flow)
{
    put_text(arena, sink, node->text, needs_quotes(node->text, flow) ? usual_quote(node->text) : 0);
}

void tw_value_put(tw_arena *arena, tw_sink *sink, const tw_node *value, bool flow)
{
    bool map = value->kind == TW_NODE_MAP;
    if (value->kind == TW_NODE_TEXT) {
        put_text_node(arena, sink, value, flow);
        return;
    }
    tw_put_text(sink, map ? "{" : "[");
    for (int i = 0; i < value->count; i++) {
        if (i > 0) tw_put_text(sink, ", ");
        if (map) put_text_node(arena, sink, value->pairs[i].key, true);
        if (map) tw_put_text(sink, ": ");
        tw_value_put(arena, sink, map ? value->pairs[i].value : value->items[i], true);
    }
    tw_put_text(sink, map ? "}" : "]");
}

void tw_pair_lines_put(const tw_splicer *s, tw_sink *sink, const tw_node *key, const tw_node *value, size_t indent, bool braces)
{
    tw_put_text(sink, s->line_end);
    for (size_t i = 0; i < indent; i++) tw_put_text(sink, " ");
    put_text_node(s->arena, sink, key, false);
    tw_put_text(sink, ":");
    if (value->kind != TW_NODE_MAP || braces) {
        tw_put_text(sink, " ");
        tw_value_put(s->arena, sink, value, false);
        return;
    }
    for (int i = 0; i < value->count; i++)
        tw_pair_lines_put(s, sink, value->pairs[i].key, value->pairs[i].value, indent + s->step, braces);
}
