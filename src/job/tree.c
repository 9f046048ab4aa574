// SPDX-License-Identifier: GPL-3.0-or-later
/* YAML 1.2 by libyaml's events, and nothing of libyaml beyond this file.
 *
 * 1. A copy of the source is screened: bad UTF-8, control characters and odd line ends are reported and replaced by
 *    harmless characters of the same number of bytes.
 * 2. Events build the tree. The parser stops at the first syntax error, so that error is explained (syntax.c), its line
 *    is mended or blanked, and the whole is parsed again until it goes through. What the events themselves forbid
 *    (aliases, tags, keys that are maps) is reported only by the last parse, so once.
 * 3. Keys given twice are found by sorting each map.
 *
 * libyaml's marks count characters; spans are wanted in bytes. `steps` holds the byte of every 64th character. */
#include "job/tree.h"

#include "job/characters.h"
#include "job/job.h"
#include "job/syntax.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

#define STEP 64                  // characters between two marks of the byte table
#define MENDS_MOST 40            // syntax errors of one file
#define MENDED_BYTES_MOST ((size_t)24 * 1024 * 1024)  // bytes parsed again for them: about a second
#define SCREENED_MOST 20         // bad characters reported of one file

typedef struct frame { tw_node *node, *key; } frame;
typedef struct insertion { int line, column; } insertion;  // from 0, in the text as it was then

typedef struct reading {
    tw_arena     *arena;
    const char   *file;
    tw_text       text;        // as screened and mended, without the byte-order mark
    size_t        skipped;     // bytes of the byte-order mark
    size_t       *steps;
    tw_findings  *findings;    // of this parse
    frame         stack[TW_DEPTH_MOST];
    int           depth;
    tw_node      *root;
    int           documents;
    int           values;      // nodes made
    insertion     insertions[MENDS_MOST];  // characters put in by mending
    int           insertion_count;
    bool          deep;        // a list or map was refused for its depth, at deep_mark
    yaml_mark_t   deep_mark;
} reading;

/* ---- places ---- */

static void mark_steps(reading *r)
{
    r->steps = TW_NEW_ARRAY(r->arena, size_t, r->text.length / STEP + 2);
    size_t count = 0;
    for (size_t at = 0; at < r->text.length; count++) {
        if (count % STEP == 0) r->steps[count / STEP] = at;
        at += tw_character_at(r->text, at).length;
    }
    if (count % STEP == 0) r->steps[count / STEP] = r->text.length;
}

static size_t byte_of(const reading *r, size_t index)
{
    if (r->text.length == 0) return 0;
    size_t at = r->steps[index / STEP];
    for (size_t i = 0; i < index % STEP; i++) at += tw_character_at(r->text, at).length;
    return at;
}

/* A place in the file as it was given, from one in the mended text (from 0). */
static tw_place place_at(const reading *r, int line, int column)
{
    for (int i = r->insertion_count - 1; i >= 0; i--)
        column -= r->insertions[i].line == line && r->insertions[i].column < column;
    return (tw_place){ r->file, line + 1, column + 1 };
}

static tw_place place_of(const reading *r, yaml_mark_t mark) { return place_at(r, (int)mark.line, (int)mark.column); }

tw_place tw_node_place_of(const tw_node *node, size_t byte)
{
    tw_place place = node->place;
    if (node->kind == TW_NODE_TEXT && node->straight)
        place.column += tw_characters_before(node->text, byte) + node->quoted;
    return place;
}

const char *tw_node_in_words(tw_arena *arena, const tw_node *node)
{
    switch (node->kind) {
    case TW_NODE_LIST: return "a list";
    case TW_NODE_MAP: return "a map of keys";
    case TW_NODE_BAD: return "something that was refused";
    case TW_NODE_TEXT: break;
    }
    return node->text.length == 0 ? "nothing" : tw_format(arena, "the text %s", tw_shown(arena, node->text));
}

/* ---- screening ---- */

static const char *character_fault(uint32_t code)
{
    if (code == TW_BAD_BYTE) return "is no character of UTF-8";
    if (code == 0) return "is a zero";
    if (code == 0x85 || code == 0x2028 || code == 0x2029) return "is a line end that editors do not show";
    if (code == 0xFEFF) return "is a byte-order mark in the middle of the text";
    if ((code < 0x20 && code != '\t' && code != '\n' && code != '\r') || (code >= 0x7F && code < 0xA0)) return "is a control character";
    if ((code & 0xFFFE) == 0xFFFE) return "is no character";
    return NULL;
}

static void replace(char *bytes, size_t length)
{
    static const char *const harmless[] = { "", "?", "\xC2\xB7", "\xE2\x80\xA2", "\xF0\x9D\x84\x9E" };
    memcpy(bytes, harmless[length], length);
}

static void report_character(reading *r, tw_place place, tw_text text, size_t at, tw_character character, const char *fault)
{
    bool byte = character.code == TW_BAD_BYTE;
    uint32_t number = byte ? (unsigned char)text.bytes[at] : character.code;
    char *name = tw_format(r->arena, "%s%s", byte ? "byte " : "U+", tw_hexadecimal(r->arena, number, byte ? 2 : 4));
    const char *remedy = byte ? "save the file as UTF-8" : "take it out";
    tw_find(r->findings, TW_WRONG, place, "character", "", tw_format(r->arena, "%s %s", name, fault), remedy);
}

/* A line of blanks is empty whatever the blanks are; libyaml does not think so of tabs. */
static void empty_blank_lines(char *bytes, size_t length)
{
    for (size_t begin = 0, at = 0; at <= length; at++) {
        bool ends = at == length || bytes[at] == '\n' || bytes[at] == '\r';
        if (ends) memset(bytes + begin, ' ', at - begin);
        if (ends) begin = at + 1;
        else if (bytes[at] != ' ' && bytes[at] != '\t') {
            while (at < length && bytes[at] != '\n' && bytes[at] != '\r') at++;
            begin = at + 1;
        }
    }
}

/* Reports and replaces what must not be in the text; places as an editor counts them. One report for each line. */
static void screen(reading *r, char *bytes, size_t length)
{
    tw_text text = { bytes, length };
    tw_place place = { r->file, 1, 1 };
    int reported = 0, reported_line = 0;
    for (size_t at = 0; at < length;) {
        tw_character character = tw_character_at(text, at);
        const char *fault = character_fault(character.code);
        if (fault && reported < SCREENED_MOST && reported_line != place.line) {
            report_character(r, place, text, at, character, fault);
            reported++;
            reported_line = place.line;
        }
        if (fault) replace(bytes + at, character.length);
        bool cr_of_pair = character.code == '\r' && at + 1 < length && bytes[at + 1] == '\n';
        bool line_end = character.code == '\n' || (character.code == '\r' && !cr_of_pair);
        at += character.length;
        place.column = line_end ? 1 : place.column + 1;
        place.line += line_end;
    }
}

/* ---- building ---- */

static tw_node *new_node(reading *r, tw_node_kind kind, yaml_event_t *event)
{
    tw_node *node = TW_NEW(r->arena, tw_node);
    r->values++;
    node->kind = kind;
    node->place = place_of(r, event->start_mark);
    node->begin = byte_of(r, event->start_mark.index) + r->skipped;
    node->end = byte_of(r, event->end_mark.index) + r->skipped;
    return node;
}

static void wrong(reading *r, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(r->findings, TW_WRONG, place, code, "", what, remedy);
}

static void add_pair(reading *r, frame *top, tw_node *value)
{
    tw_node *map = top->node;
    tw_array_make_room(r->arena, &map->pairs, (size_t)map->count, &map->room, sizeof *map->pairs);
    map->pairs[map->count++] = (tw_pair){ top->key, value, false };
    top->key = NULL;
    map->end = value->end;
}

static void add_key(reading *r, frame *top, tw_node *key)
{
    if (key->kind == TW_NODE_LIST || key->kind == TW_NODE_MAP)
        wrong(r, key->place, "yaml-key", tw_format(r->arena, "a key is one name, and %s stands here",
                                                   tw_node_in_words(r->arena, key)), "write KEY: VALUE");
    top->key = key;
}

static void add_node(reading *r, tw_node *node)
{
    if (r->depth == 0) {
        r->root = node;
        return;
    }
    frame *top = &r->stack[r->depth - 1];
    if (top->node->kind == TW_NODE_LIST) {
        tw_array_make_room(r->arena, &top->node->items, (size_t)top->node->count, &top->node->room, sizeof(tw_node *));
        top->node->items[top->node->count++] = node;
        top->node->end = node->end;
    } else if (top->key) {
        add_pair(r, top, node);
    } else {
        add_key(r, top, node);
    }
}

/* What stands in the source at the node's start, up to a blank. */
static char *first_word(const reading *r, const tw_node *node)
{
    size_t from = node->begin - r->skipped, until = from;
    while (until < r->text.length && !strchr(" \t\r\n,", r->text.bytes[until])) until++;
    return tw_shown(r->arena, (tw_text){ r->text.bytes + from, until - from });
}

/* A text that carries a mark is passed over; the entries of a map or list that carries one are read. */
static void refuse_marks(reading *r, tw_node *node, const yaml_char_t *anchor, const yaml_char_t *tag)
{
    if ((anchor || tag) && node->kind == TW_NODE_TEXT) node->kind = TW_NODE_BAD;
    if (anchor) wrong(r, node->place, "yaml-anchor",
                      tw_format(r->arena, "`&%s` marks a value to be used again; that is not read here", (const char *)anchor),
                      "write the value where it is used, or name it under `amounts:`");
    if (tag) wrong(r, node->place, "yaml-tag", tw_format(r->arena, "%s is a type tag; types are not written", first_word(r, node)),
                   "leave it out, or put the text in quotes");
}

static void add_text(reading *r, yaml_event_t *event)
{
    tw_node *node = new_node(r, TW_NODE_TEXT, event);
    tw_text said = { (const char *)event->data.scalar.value, event->data.scalar.length };
    node->text = (tw_text){ tw_text_copy(r->arena, said), said.length };
    yaml_scalar_style_t style = event->data.scalar.style;
    node->quoted = style == YAML_SINGLE_QUOTED_SCALAR_STYLE || style == YAML_DOUBLE_QUOTED_SCALAR_STYLE;
    const char *source = r->text.bytes + (node->begin - r->skipped) + node->quoted;
    size_t long_as = node->end - node->begin - (node->quoted ? 2u : 0u);
    node->straight = said.length == long_as && (long_as == 0 || memcmp(source, said.bytes, long_as) == 0) &&
                     event->start_mark.line == event->end_mark.line;
    refuse_marks(r, node, event->data.scalar.anchor, event->data.scalar.tag);
    add_node(r, node);
}

/* Returns false when the nesting is too deep to go on. */
static bool open_node(reading *r, yaml_event_t *event, tw_node_kind kind)
{
    if (r->depth == TW_DEPTH_MOST) {
        r->deep = true;
        r->deep_mark = event->start_mark;
        return false;
    }
    tw_node *node = new_node(r, kind, event);
    if (kind == TW_NODE_MAP) refuse_marks(r, node, event->data.mapping_start.anchor, event->data.mapping_start.tag);
    else refuse_marks(r, node, event->data.sequence_start.anchor, event->data.sequence_start.tag);
    r->stack[r->depth++] = (frame){ node, NULL };
    return true;
}

static void close_node(reading *r, const yaml_event_t *event)
{
    tw_node *node = r->stack[--r->depth].node;
    size_t end = byte_of(r, event->end_mark.index) + r->skipped;
    bool flow = event->end_mark.index > event->start_mark.index;  // a bracket closes it; else it ends with its last item
    if (flow) node->end = end;
    add_node(r, node);
}

static void add_alias(reading *r, yaml_event_t *event)
{
    wrong(r, place_of(r, event->start_mark), "yaml-alias",
          tw_format(r->arena, "`*%s` stands for a value written elsewhere; that is not read here", (const char *)event->data.alias.anchor),
          "write the amount, or a name from `amounts:`; a text that begins with `*` goes in quotes");
    add_node(r, new_node(r, TW_NODE_BAD, event));
}

/* Returns false when reading is to stop. */
static bool take_event(reading *r, yaml_event_t *event)
{
    switch (event->type) {
    case YAML_SCALAR_EVENT: add_text(r, event); return true;
    case YAML_ALIAS_EVENT: add_alias(r, event); return true;
    case YAML_MAPPING_START_EVENT: return open_node(r, event, TW_NODE_MAP);
    case YAML_SEQUENCE_START_EVENT: return open_node(r, event, TW_NODE_LIST);
    case YAML_MAPPING_END_EVENT: case YAML_SEQUENCE_END_EVENT: close_node(r, event); return true;
    case YAML_DOCUMENT_START_EVENT:
        if (++r->documents == 1) return true;
        wrong(r, place_of(r, event->start_mark), "yaml-documents", "a second document begins here; a file holds one",
              "take out the line with `---` or `...`");
        return false;
    case YAML_STREAM_END_EVENT: return false;
    default: return true;
    }
}

static void out_of_memory(const tw_arena *arena)
{
    if (arena->out_of_memory) arena->out_of_memory();
    abort();
}

static const char *copied(tw_arena *arena, const char *words) { return words ? tw_text_copy(arena, tw_text_of(words)) : NULL; }

static tw_complaint complaint_of(tw_arena *arena, const yaml_parser_t *parser)
{
    return (tw_complaint){
        .problem = copied(arena, parser->problem), .context = copied(arena, parser->context),
        .line = (int)parser->problem_mark.line, .column = (int)parser->problem_mark.column,
        .from_line = (int)parser->context_mark.line, .from_column = (int)parser->context_mark.column,
    };
}

/* One parse of r->text. Returns false with *complaint set after a syntax error. */
static bool parse(reading *r, tw_complaint *complaint)
{
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser)) out_of_memory(r->arena);
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)(r->text.length ? r->text.bytes : ""), r->text.length);
    bool good = true;
    for (bool more = true; more;) {
        yaml_event_t event;
        good = yaml_parser_parse(&parser, &event) != 0;
        if (!good) break;
        more = take_event(r, &event) && r->values <= TW_VALUES_MOST;
        yaml_event_delete(&event);
    }
    if (!good && parser.error == YAML_MEMORY_ERROR) out_of_memory(r->arena);
    if (!good) *complaint = complaint_of(r->arena, &parser);
    yaml_parser_delete(&parser);
    if (!r->deep) return good;
    *complaint = (tw_complaint){ .problem = TW_COMPLAINT_DEEP, .line = (int)r->deep_mark.line, .column = (int)r->deep_mark.column };
    return false;
}

/* ---- mending ---- */

/* Blanks a line and, unless it is taken alone, those below it that are indented deeper: they belong to what could not be read. */
static void blank_from(char *bytes, size_t length, int line, bool alone)
{
    tw_text source = { bytes, length };
    tw_line first = tw_line_of(source, line);
    size_t indent = tw_indent_of(first.text);
    for (tw_line here = first; here.number >= 0; here = tw_line_below(source, here)) {
        bool below = here.number > first.number;
        if (below && (alone || (!tw_line_is_bare(here.text) && tw_indent_of(here.text) <= indent))) return;
        memset(bytes + here.begin, ' ', here.text.length);
    }
}

static int column_of(tw_text text, size_t at)
{
    size_t begin = at;
    while (begin > 0 && text.bytes[begin - 1] != '\n' && text.bytes[begin - 1] != '\r') begin--;
    return tw_characters_before((tw_text){ text.bytes + begin, text.length - begin }, at - begin);
}

static void mend(reading *r, tw_syntax_fault fault)
{
    size_t length = r->text.length;
    char *copy = tw_arena_take(r->arena, length + 2, 1);
    if (fault.blank_line >= 0) {
        memcpy(copy, r->text.bytes, length);
        blank_from(copy, length, fault.blank_line, fault.alone);
    } else {
        memcpy(copy, r->text.bytes, fault.mend_at);
        copy[fault.mend_at] = fault.mend_with;
        r->insertions[r->insertion_count++] = (insertion){ fault.line, column_of(r->text, fault.mend_at) };
        memcpy(copy + fault.mend_at + 1, r->text.bytes + fault.mend_at, length - fault.mend_at);
        length++;
    }
    r->text = (tw_text){ copy, length };
}

/* ---- keys given twice ---- */

static int by_text_then_order(const void *left, const void *right)
{
    const tw_pair *a = *(const tw_pair *const *)left, *b = *(const tw_pair *const *)right;
    size_t shorter = a->key->text.length < b->key->text.length ? a->key->text.length : b->key->text.length;
    int order = shorter ? memcmp(a->key->text.bytes, b->key->text.bytes, shorter) : 0;
    if (order != 0) return order;
    if (a->key->text.length != b->key->text.length) return a->key->text.length < b->key->text.length ? -1 : 1;
    return (a > b) - (a < b);
}

static bool same_key(const tw_pair *a, const tw_pair *b)
{
    return a->key->text.length == b->key->text.length &&
           (a->key->text.length == 0 || memcmp(a->key->text.bytes, b->key->text.bytes, a->key->text.length) == 0);
}

static void find_repeats(reading *r, tw_node *map)
{
    tw_pair **sorted = TW_NEW_ARRAY(r->arena, tw_pair *, map->count);
    size_t count = 0;
    for (int i = 0; i < map->count; i++)
        if (map->pairs[i].key->kind == TW_NODE_TEXT) sorted[count++] = &map->pairs[i];
    if (count > 1) qsort(sorted, count, sizeof(tw_pair *), by_text_then_order);
    tw_pair *first = count ? sorted[0] : NULL;
    for (size_t i = 1; i < count; i++) {
        if (!same_key(first, sorted[i])) { first = sorted[i]; continue; }
        sorted[i]->repeated = true;
        wrong(r, sorted[i]->key->place, "key-twice",
              tw_format(r->arena, "%s stands here a second time; line %d has it already", tw_shown(r->arena, sorted[i]->key->text),
                        first->key->place.line),
              "keep one of the two");
    }
}

static void find_all_repeats(reading *r, tw_node *node)
{
    if (node->kind == TW_NODE_LIST)
        for (int i = 0; i < node->count; i++) find_all_repeats(r, node->items[i]);
    if (node->kind != TW_NODE_MAP) return;
    find_repeats(r, node);
    for (int i = 0; i < node->count; i++) find_all_repeats(r, node->pairs[i].value);
}

/* ---- the whole ---- */

static bool begins_with(tw_text text, const char *bytes, size_t count)
{
    return text.length >= count && memcmp(text.bytes, bytes, count) == 0;
}

static bool fits(reading *r, tw_text text)
{
    tw_place start = { r->file, 1, 1 };
    bool utf16 = begins_with(text, "\xFF\xFE", 2) || begins_with(text, "\xFE\xFF", 2);
    if (utf16) wrong(r, start, "encoding", "the file is written in UTF-16", "save it as UTF-8");
    if (text.length <= TW_TEXT_MOST_BYTES) return !utf16;
    wrong(r, start, "file-large", tw_format(r->arena, "the file has %zu bytes; at most %u are read", text.length, TW_TEXT_MOST_BYTES),
          "share the work out over several jobs");
    return false;
}

static bool has_too_many(reading *r)
{
    if (r->values <= TW_VALUES_MOST) return false;
    wrong(r, (tw_place){ r->file, 1, 1 }, "too-many", tw_format(r->arena, "the file holds more than %d keys and values", TW_VALUES_MOST),
          "share the work out over several jobs");
    return true;
}

/* Parses until it goes through. Returns false when too much is wrong to read anything. */
static bool parse_and_mend(reading *r, tw_findings *findings, bool *holed)
{
    size_t parsed = 0;
    tw_syntax_fault last = { 0 };
    for (int mends = 0; mends < MENDS_MOST && parsed <= MENDED_BYTES_MOST; mends++) {
        tw_findings own = { .arena = r->arena };
        tw_complaint complaint;
        r->findings = &own;
        r->root = NULL;
        r->depth = r->documents = r->values = 0;
        r->deep = false;
        mark_steps(r);
        parsed += r->text.length;
        bool good = parse(r, &complaint);
        r->findings = findings;
        if (good) {
            for (size_t i = 0; i < own.count; i++)
                wrong(r, own.items[i].place, own.items[i].code, own.items[i].what, own.items[i].remedy);
            return !has_too_many(r) && r->depth == 0;
        }
        tw_syntax_fault fault = tw_syntax_explain(r->arena, r->text, complaint);
        bool again = last.what && last.line == fault.line && last.column == fault.column && strcmp(last.code, fault.code) == 0;
        if (again) return false;  // the mend did not help
        last = fault;
        wrong(r, place_at(r, fault.line, fault.column), fault.code, fault.what, fault.remedy);
        *holed = *holed || fault.blank_line >= 0;
        mend(r, fault);
    }
    return false;
}

tw_tree tw_tree_read(tw_arena *arena, tw_text text, const char *file, tw_findings *findings)
{
    tw_tree tree = { 0 };
    reading r = { .arena = arena, .file = tw_text_copy(arena, tw_text_of(file)), .findings = findings };
    if (text.length > 0 && begins_with(text, "\xEF\xBB\xBF", 3)) r.skipped = 3;
    if (!fits(&r, text)) return tree;
    text = (tw_text){ text.bytes + r.skipped, text.length - r.skipped };
    char *copy = tw_text_copy(arena, text);
    screen(&r, copy, text.length);
    empty_blank_lines(copy, text.length);
    r.text = (tw_text){ copy, text.length };
    bool whole = parse_and_mend(&r, findings, &tree.holed);
    if (r.root && whole) {
        find_all_repeats(&r, r.root);
        tree.root = r.root;
    } else if (whole && !tree.holed) {
        wrong(&r, (tw_place){ r.file, 1, 1 }, "file-empty", "there is nothing in the file", "");
    }
    return tree;
}
