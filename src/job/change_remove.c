// SPDX-License-Identifier: GPL-3.0-or-later
/* Keys, entries and items taken out.
 *
 * In a block whole lines go: those of the key and its value, remarks below that are indented deeper than the key, and remarks
 * straight above it at its own indent. The remarks above the first key of a map stay: they may speak of the whole map.
 * Between brackets the value goes with one of its commas. */
#include "job/splice.h"

#include <string.h>

/* ---- between brackets ---- */

typedef struct part { size_t begin, end; } part;  // of a pair or an item

static part part_of(const tw_splicer *s, const tw_node *holder, int index)
{
    if (holder->kind == TW_NODE_LIST) return (part){ holder->items[index]->begin, tw_node_end(s->source, holder->items[index]) };
    return (part){ holder->pairs[index].key->begin, tw_pair_end(s->source, &holder->pairs[index]) };
}

static bool holds_line_end(tw_text source, size_t from, size_t until) { return tw_line_stop_at(source, from) < until; }

static size_t skip_blanks(tw_text source, size_t at)
{
    while (at < source.length && (source.bytes[at] == ' ' || source.bytes[at] == '\t')) at++;
    return at;
}

/* Behind the comma that follows, and the blanks behind that but those before a remark; `at` when none follows on the line. */
static size_t behind_comma(tw_text source, size_t at)
{
    size_t comma = skip_blanks(source, at), next = skip_blanks(source, comma + 1);
    if (comma >= source.length || source.bytes[comma] != ',') return at;
    return next < source.length && source.bytes[next] == '#' ? comma + 1 : next;
}

static void remove_in_brackets(tw_splicer *s, const tw_node *holder, int index)
{
    part gone = part_of(s, holder, index);
    size_t before = index > 0 ? part_of(s, holder, index - 1).end : gone.begin;
    bool joined = index > 0 && !holds_line_end(s->source, before, gone.begin);
    if (joined) tw_splice_at(s, before, gone.end, "");
    else tw_splice_at(s, gone.begin, behind_comma(s->source, gone.end), "");
}

/* ---- lines ---- */

/* A line that holds a remark alone; *indent is where it begins. */
static bool is_remark(tw_text source, size_t line, size_t *indent)
{
    size_t at = skip_blanks(source, line);
    *indent = at - line;
    return at < source.length && source.bytes[at] == '#';
}

static size_t line_above(tw_text source, size_t line)
{
    size_t at = line;
    if (at > 0 && source.bytes[at - 1] == '\n') at--;
    if (at > 0 && source.bytes[at - 1] == '\r') at--;
    return at == line ? line : tw_line_begin_at(source, at);
}

static size_t with_remarks_above(tw_text source, size_t line, size_t indent, size_t not_above)
{
    size_t column;
    for (size_t above = line_above(source, line); above < line && above >= not_above; above = line_above(source, line)) {
        if (!is_remark(source, above, &column) || column != indent) break;
        line = above;
    }
    return line;
}

static size_t with_remarks_below(tw_text source, size_t next, size_t indent)
{
    size_t column;
    while (next < source.length && is_remark(source, next, &column) && column > indent) next = tw_line_next_at(source, next);
    return next;
}

static bool is_blank_line(tw_text source, size_t line) { return skip_blanks(source, line) == tw_line_stop_at(source, line); }

static bool only_blanks_and_dash(tw_text source, size_t from, size_t until, bool dash)
{
    size_t at = skip_blanks(source, from);
    if (dash && at < until && source.bytes[at] == '-') at = skip_blanks(source, at + 1);
    return at == until;
}

/* Two blank lines that come together are made one. */
static size_t with_blank_line(tw_text source, size_t begin, size_t next)
{
    size_t above = line_above(source, begin);
    bool doubled = above < begin && is_blank_line(source, above) && next < source.length && is_blank_line(source, next);
    return doubled ? tw_line_next_at(source, next) : next;
}

static bool remove_lines(tw_splicer *s, const tw_node *holder, int index)
{
    tw_text source = s->source;
    bool map = holder->kind == TW_NODE_MAP;
    part gone = part_of(s, holder, index);
    size_t line = tw_line_begin_at(source, gone.begin), indent = skip_blanks(source, line) - line;
    if (!only_blanks_and_dash(source, line, gone.begin, !map))
        return tw_splice_refuse(s, map ? holder->pairs[index].key : holder->items[index],
                                "this does not stand on a line of its own", "take it out in the text");
    size_t begin = line;
    if (index > 0) begin = with_remarks_above(source, line, indent, part_of(s, holder, index - 1).end);
    size_t next = with_remarks_below(source, tw_line_next_at(source, gone.end), indent);
    next = with_blank_line(source, begin, next);
    bool open_end = next == source.length && source.bytes[next - 1] != '\n' && source.bytes[next - 1] != '\r';
    if (open_end && begin > 0) begin = tw_line_stop_at(source, line_above(source, begin));  // the line above is the open one now
    tw_splice_at(s, begin, next, "");
    return true;
}

/* ---- either ---- */

static void drop(tw_node *holder, int index)
{
    size_t after = (size_t)(holder->count - index - 1);
    if (holder->kind == TW_NODE_MAP) memmove(&holder->pairs[index], &holder->pairs[index + 1], after * sizeof *holder->pairs);
    else memmove(&holder->items[index], &holder->items[index + 1], after * sizeof *holder->items);
    holder->count--;
}

bool tw_splice_remove(tw_splicer *s, const tw_change *change)
{
    tw_found f = tw_path_find(s, change->path, change->path_count);
    const char *path = tw_path_in_words(s->arena, change->path, change->path_count);
    bool there = f.node && f.parent && f.index >= 0;
    if (!there) return tw_splice_refuse(s, NULL, tw_format(s->arena, "nothing stands at %s", path), "");
    bool alone = f.key && !tw_text_is(f.key->text, change->path[change->path_count - 1]);  // "at", "1" where `at` is one amount
    bool single = alone || (f.parent->kind == TW_NODE_LIST && f.parent->count == 1);
    if (single) return tw_splice_refuse(s, f.node, "this is the only item of its list", "take the whole key out");
    if (f.flow) remove_in_brackets(s, f.parent, f.index);
    else if (!remove_lines(s, f.parent, f.index)) return false;
    drop(f.parent, f.index);
    return true;
}
