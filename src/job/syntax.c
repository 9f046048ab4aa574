// SPDX-License-Identifier: GPL-3.0-or-later
/* A parser says where it stumbled, which is often a line after the slip. This file looks at the lines round the
 * stumble, says what is wrong in a maker's words, and chooses the mend: a missing colon or space is put in, so that
 * what hangs below the line is still read; any other line is blanked. Each mend either puts in one character that
 * was missing or takes a line with something on it away, so mending ends. */
#include "job/syntax.h"

#include "job/characters.h"
#include "job/job.h"

#include <string.h>

#define KEY_MOST 1024  // characters of a key in YAML 1.2 (section 7.4.2, implicit keys)

typedef struct scene {
    tw_arena    *arena;
    tw_text      source;
    tw_complaint complaint;
    tw_line      line;  // of the problem
    tw_character here;  // where the problem stands
} scene;

/* ---- lines ---- */

static bool ends_line(char c) { return c == '\n' || c == '\r'; }

static tw_line line_from(tw_text source, size_t begin, int number)
{
    size_t end = begin;
    if (begin >= source.length) return (tw_line){ .number = -1 };
    while (end < source.length && !ends_line(source.bytes[end])) end++;
    return (tw_line){ { source.bytes + begin, end - begin }, begin, number };
}

static size_t after_line_end(tw_text source, size_t end)
{
    bool pair = end + 1 < source.length && source.bytes[end] == '\r' && source.bytes[end + 1] == '\n';
    return end + (pair ? 2 : 1);
}

tw_line tw_line_below(tw_text source, tw_line line)
{
    return line_from(source, after_line_end(source, line.begin + line.text.length), line.number + 1);
}

static tw_line line_above(tw_text source, tw_line line)
{
    if (line.begin == 0) return (tw_line){ .number = -1 };
    size_t end = line.begin - 1;
    if (end > 0 && source.bytes[end] == '\n' && source.bytes[end - 1] == '\r') end--;
    size_t begin = end;
    while (begin > 0 && !ends_line(source.bytes[begin - 1])) begin--;
    return (tw_line){ { source.bytes + begin, end - begin }, begin, line.number - 1 };
}

/* The last line when there are fewer. */
tw_line tw_line_of(tw_text source, int number)
{
    tw_line line = line_from(source, 0, 0);
    while (line.number >= 0 && line.number < number) {
        tw_line below = tw_line_below(source, line);
        if (below.number < 0) break;
        line = below;
    }
    return line;
}

static bool blank(char c) { return c == ' ' || c == '\t'; }

size_t tw_indent_of(tw_text line)
{
    size_t at = 0;
    while (at < line.length && blank(line.bytes[at])) at++;
    return at;
}

bool tw_line_is_bare(tw_text line)
{
    size_t indent = tw_indent_of(line);
    return indent == line.length || line.bytes[indent] == '#';
}

/* The last line at or above this one that says something. */
static tw_line spoken(tw_text source, tw_line line)
{
    while (line.number >= 0 && tw_line_is_bare(line.text)) line = line_above(source, line);
    return line;
}

static tw_line spoken_above(tw_text source, tw_line line) { return spoken(source, line_above(source, line)); }

static tw_line spoken_below(tw_text source, tw_line line)
{
    do line = tw_line_below(source, line);
    while (line.number >= 0 && tw_line_is_bare(line.text));
    return line;
}

/* The end of what a line says: without a comment and blanks at its end. Quotes are respected. */
static size_t content_end(tw_text line)
{
    size_t end = tw_indent_of(line);
    char quote = 0;
    for (size_t at = end; at < line.length; at++) {
        char c = line.bytes[at];
        if (quote) quote = c == quote ? 0 : quote;
        else if ((c == '"' || c == '\'') && (at == 0 || blank(line.bytes[at - 1]))) quote = c;
        else if (c == '#' && at > 0 && blank(line.bytes[at - 1])) break;
        if (!blank(c)) end = at + 1;
    }
    return end;
}

/* The byte of the colon that ends a key, at or after `from`; line.length if there is none. */
static size_t key_colon(tw_text line, size_t from)
{
    size_t end = content_end(line);
    for (size_t at = from; at < end; at++)
        if (line.bytes[at] == ':' && (at + 1 == end || blank(line.bytes[at + 1]))) return at;
    return line.length;
}

static bool has_key(tw_text line) { return key_colon(line, 0) < line.length; }

static bool has_key_and_value(tw_text line)
{
    size_t colon = key_colon(line, 0);
    return colon < line.length && colon + 1 < content_end(line);
}

/* `length:38`: the byte after the colon, or 0. The colon follows a letter, so `1:12` is left alone. */
static size_t tight_colon(tw_text line)
{
    size_t end = content_end(line);
    for (size_t at = tw_indent_of(line) + 1; at + 1 < end; at++) {
        bool after_word = (line.bytes[at - 1] | 0x20) >= 'a' && (line.bytes[at - 1] | 0x20) <= 'z';
        if (line.bytes[at] == ':' && after_word && !blank(line.bytes[at + 1])) return at + 1;
    }
    return 0;
}

static char *content_shown(tw_arena *arena, tw_text line, size_t until)
{
    size_t indent = tw_indent_of(line);
    return tw_shown(arena, (tw_text){ line.bytes + indent, until > indent ? until - indent : 0 });
}

/* ---- faults ---- */

/* The byte of the problem in its line; the line's length when it stands behind its end. */
static size_t byte_of_problem(const scene *s)
{
    size_t at = 0;
    if (s->line.number != s->complaint.line) return s->line.text.length;
    for (int i = 0; i < s->complaint.column && at < s->line.text.length; i++) at += tw_character_at(s->line.text, at).length;
    return at;
}

static tw_syntax_fault fault_at(int line, int column, const char *code, const char *what, const char *remedy)
{
    return (tw_syntax_fault){ .line = line, .column = column, .code = code, .what = what, .remedy = remedy, .blank_line = line };
}

static tw_syntax_fault fault_here(const scene *s, const char *code, const char *what, const char *remedy)
{
    return fault_at(s->complaint.line, s->complaint.column, code, what, remedy);
}

static tw_syntax_fault fault_at_context(const scene *s, const char *code, const char *what, const char *remedy)
{
    return fault_at(s->complaint.from_line, s->complaint.from_column, code, what, remedy);
}

/* A line that is whole in itself is left out without those below it. */
static tw_syntax_fault left_alone(tw_syntax_fault fault, tw_text line)
{
    fault.alone = has_key_and_value(line);
    return fault;
}

static tw_syntax_fault mended(tw_syntax_fault fault, const scene *s, tw_text line, size_t at, char with)
{
    fault.blank_line = -1;
    fault.mend_at = (size_t)(line.bytes - s->source.bytes) + at;
    fault.mend_with = with;
    return fault;
}

static tw_syntax_fault long_key(int line, int column)
{
    return fault_at(line, column, "yaml-key-long", "a key stands here that is longer than 1024 characters",
                    "a name has at most 60");
}

/* A line that should begin a key and does not. */
static tw_syntax_fault no_colon(const scene *s, tw_line culprit)
{
    tw_text line = culprit.text;
    int number = culprit.number;
    size_t end = content_end(line), tight = tight_colon(line);
    int indent = (int)tw_indent_of(line);
    if (end > KEY_MOST) return long_key(number, indent);
    if (tight) {
        tw_text key = { line.bytes, tight };
        return mended(fault_at(number, tw_characters_before(line, tight), "yaml-space",
                               "a space is missing after the colon",
                               tw_format(s->arena, "write %s and a space before the value", content_shown(s->arena, key, tight))),
                      s, line, tight, ' ');
    }
    tw_line below = spoken_below(s->source, culprit);
    bool opens = below.number >= 0 && (int)tw_indent_of(below.text) > indent;
    tw_syntax_fault fault = fault_at(number, indent, "yaml-colon",
                                     tw_format(s->arena, "%s has no colon", content_shown(s->arena, line, end)),
                                     opens ? "put a colon after the name" : "write KEY: VALUE");
    return opens ? mended(fault, s, line, end, ':') : fault;
}

/* Is the line the second or a later one of a text that began as a value further up? */
static bool continues_value(const scene *s, tw_line line)
{
    size_t indent = tw_indent_of(line.text);
    tw_line above = spoken_above(s->source, line);
    while (above.number >= 0 && tw_indent_of(above.text) >= indent) above = spoken_above(s->source, above);
    return above.number >= 0 && has_key_and_value(above.text);
}

static tw_syntax_fault second_colon(const scene *s)
{
    return fault_here(s, "yaml-second-colon", "a second colon with a space after it stands in this value",
                      "put the value in quotes");
}

/* "mapping values are not allowed in this context": at a colon that should not be one. */
static tw_syntax_fault colon_not_allowed(const scene *s)
{
    if (key_colon(s->line.text, 0) < byte_of_problem(s)) return second_colon(s);
    if (s->complaint.column > KEY_MOST) return long_key(s->complaint.line, (int)tw_indent_of(s->line.text));
    tw_line above = spoken_above(s->source, s->line);
    if (above.number < 0) return second_colon(s);
    if (has_key(above.text))
        return left_alone(fault_at(s->complaint.line, (int)tw_indent_of(s->line.text), "yaml-indent",
                                   tw_format(s->arena, "this line is indented deeper than line %d, which has its value already", above.number + 1),
                                   "begin the two in one column"), s->line.text);
    if (continues_value(s, above)) return second_colon(s);
    return no_colon(s, above);
}

static tw_syntax_fault key_without_colon(const scene *s) { return no_colon(s, tw_line_of(s->source, s->complaint.from_line)); }

static tw_syntax_fault tab_found(const scene *s)
{
    size_t at = 0;
    while (at < s->line.text.length && s->line.text.bytes[at] != '\t') at++;
    tw_syntax_fault fault = fault_at(s->complaint.line, tw_characters_before(s->line.text, at), "yaml-tab",
                                     "a tab stands where the line is indented", "indent with spaces");
    fault.alone = true;  // how deep it was meant to be cannot be told
    return fault;
}

static tw_syntax_fault bad_start(const scene *s)
{
    if (s->here.code == '\t') return tab_found(s);
    return fault_here(s, "yaml-start", tw_format(s->arena, "a value cannot begin with %s", tw_shown_character(s->arena, s->here)),
                      "put it in quotes");
}

static tw_syntax_fault open_bracket(const scene *s)
{
    bool map = strstr(s->complaint.context, "mapping") != NULL;
    if (s->complaint.line == s->complaint.from_line)
        return fault_here(s, "yaml-comma", map ? "a comma or `}` is missing before this" : "a comma or `]` is missing before this",
                          "items of a list are parted by commas");
    return fault_at_context(s, "yaml-bracket", map ? "the `{` that opens here is not closed" : "the `[` that opens here is not closed",
                            map ? "end it with `}`" : "end it with `]`");
}

static tw_syntax_fault open_quote(const scene *s)
{
    return fault_at_context(s, "yaml-quote", "the quote that opens here is not closed",
                            "end it with the same quote; inches may be written `in`");
}

static tw_syntax_fault bad_escape(const scene *s)
{
    return fault_here(s, "yaml-escape", "a backslash in double quotes begins a special character, and this is none",
                      "use single quotes");
}

static tw_syntax_fault stray_mark(const scene *s)
{
    char mark = s->complaint.context && strstr(s->complaint.context, "alias") ? '*'
              : s->complaint.context && strstr(s->complaint.context, "anchor") ? '&' : '!';
    return fault_at_context(s, "yaml-start", tw_format(s->arena, "a value cannot begin with `%c`", mark), "put it in quotes");
}

static tw_syntax_fault list_item_in_line(const scene *s)
{
    return fault_here(s, "yaml-item", "a list item cannot begin in the middle of a line",
                      "write [A, B], or put a text that begins with `- ` in quotes");
}

static tw_syntax_fault block_mark(const scene *s)
{
    return fault_at_context(s, "yaml-start", "`|` and `>` begin a text over several lines, and something else stands after it",
                            "put the value in quotes");
}

static tw_syntax_fault directive(const scene *s)
{
    return fault_here(s, "yaml-directive", "this line tells a reader of YAML something that is not understood here", "leave it out");
}

static tw_syntax_fault no_content(const scene *s)
{
    const char *shown = tw_shown_character(s->arena, s->here);
    if (s->here.code == ',') return fault_here(s, "yaml-content", "a value is missing before this comma", "put it in, or take the comma out");
    if (s->here.code == ']' || s->here.code == '}')
        return fault_here(s, "yaml-content", tw_format(s->arena, "%s closes a bracket that was not opened", shown), "take it out");
    return fault_here(s, "yaml-content", "a value is missing here", "write it, in quotes if it begins with a sign");
}

/* The last byte that is no blank before the problem on its line, 0 if there is none. */
static char byte_before(const scene *s)
{
    size_t at = byte_of_problem(s);
    while (at > 0 && blank(s->line.text.bytes[at - 1])) at--;
    return at > 0 ? s->line.text.bytes[at - 1] : '\0';
}

/* The first character of the value that the problem's line gives, 0 if there is none. */
static char value_start(const scene *s)
{
    size_t at = key_colon(s->line.text, 0) + 1;
    while (at < s->line.text.length && blank(s->line.text.bytes[at])) at++;
    return at < s->line.text.length ? s->line.text.bytes[at] : 0;
}

/* "did not find expected key": something stands where the next key of a map, or the next item of a list, should. */
static tw_syntax_fault no_key(const scene *s)
{
    char before = byte_before(s);
    if (s->here.code == ']' || s->here.code == '}') return no_content(s);
    if (before == '"' || before == '\'')
        return fault_here(s, "yaml-after-quote", "something stands after the closing quote",
                          "put all of the value between the quotes; an apostrophe between single quotes is written twice");
    if (before != 0 && (value_start(s) == '*' || value_start(s) == '&'))
        return fault_at(s->complaint.line, tw_characters_before(s->line.text, key_colon(s->line.text, 0) + 2), "yaml-start",
                        tw_format(s->arena, "a value cannot begin with `%c`", value_start(s)), "put it in quotes");
    if (s->here.code == ':') return fault_here(s, "yaml-key", "a key is missing before this colon", "write KEY: VALUE");
    if (s->here.code == '-')
        return fault_here(s, "yaml-item", "a list item stands among keys", "indent it below its key, or write KEY: [A, B]");
    return left_alone(fault_here(s, "yaml-indent", "this line begins in a column that fits none of the lines above",
                                 "begin the keys of one map in one column"), s->line.text);
}

static tw_syntax_fault after_the_end(const scene *s)
{
    return fault_here(s, "yaml-after", "this does not belong to what stands above it", "write all as KEY: VALUE in one map");
}

static tw_syntax_fault too_deep(const scene *s)
{
    return fault_here(s, "yaml-deep", tw_format(s->arena, "lists and maps are nested more than %d deep", TW_DEPTH_MOST),
                      "a job needs four");
}

static const struct { const char *problem, *context; tw_syntax_fault (*explain)(const scene *s); } rows[] = {
    { TW_COMPLAINT_DEEP, "", too_deep },
    { "tab character", "", tab_found },
    { "mapping values are not allowed", "", colon_not_allowed },
    { "could not find expected ':'", "", key_without_colon },
    { "cannot start any token", "", bad_start },
    { "expected ',' or", "flow", open_bracket },
    { "unexpected end of stream", "quoted", open_quote },
    { "unexpected document indicator", "quoted", open_quote },
    { "", "quoted", bad_escape },
    { "", "block scalar", block_mark },
    { "", "alias", stray_mark },
    { "", "anchor", stray_mark },
    { "", "scanning a tag", stray_mark },
    { "tag handle", "parsing a node", stray_mark },
    { "block sequence entries", "", list_item_in_line },
    { "node content", "", no_content },
    { "expected key", "block", no_key },
    { "'-' indicator", "block", no_key },
    { "document start", "", after_the_end },
    { "incompatible YAML", "", directive },
    { "directive", "", directive },
    { "", "directive", directive },
};

static tw_syntax_fault explain(const scene *s)
{
    const char *problem = s->complaint.problem ? s->complaint.problem : "";
    const char *context = s->complaint.context ? s->complaint.context : "";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strstr(problem, rows[i].problem) && strstr(context, rows[i].context)) return rows[i].explain(s);
    return fault_here(s, "yaml", tw_format(s->arena, "this cannot be read as YAML: %s", problem), "");
}

tw_syntax_fault tw_syntax_explain(tw_arena *arena, tw_text source, tw_complaint complaint)
{
    scene s = { .arena = arena, .source = source, .complaint = complaint, .line = tw_line_of(source, complaint.line) };
    s.here = tw_character_at(s.line.text, byte_of_problem(&s));
    tw_syntax_fault fault = explain(&s);
    if (fault.blank_line < 0) return fault;
    tw_line from = tw_line_of(source, fault.blank_line), blanked = spoken(source, from);  // it may stand at the end of the file
    if (blanked.number < 0 && from.number >= 0) blanked = spoken_below(source, from);
    if (blanked.number < 0 || (fault.alone && from.text.length > 0)) blanked = from;
    fault.blank_line = blanked.number < 0 ? 0 : blanked.number;
    return fault;
}
