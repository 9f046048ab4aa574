// SPDX-License-Identifier: GPL-3.0-or-later
/* One function for each kind of key; the rest is looking keys up, and saying what is missing or unknown. */
#include "job/reader.h"

#include "job/characters.h"
#include "job/job.h"
#include "job/tables.h"

#include <assert.h>
#include <string.h>

#define NUMBER_MOST 1e6

/* ---- findings ---- */

void tw_wrong(tw_reader *reader, tw_place place, const char *code, const char *about, const char *what, const char *remedy)
{
    tw_find(reader->findings, TW_WRONG, place, code, about, what, remedy);
}

static char *shown(const tw_reader *reader, tw_text text) { return tw_shown(reader->arena, text); }

char *tw_words_list(tw_arena *arena, const char *const *words)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    for (int i = 0; words[i]; i++)
        tw_putf(&sink, "%s`%s`", i == 0 ? "" : words[i + 1] ? ", " : " or ", words[i]);
    tw_gathered(&all);
    return all.bytes ? all.bytes : tw_text_copy(arena, (tw_text){ "", 0 });
}

/* ---- what is offered ---- */

typedef struct key_path { const char *words[3]; size_t count; } key_path;

static key_path path_of(const tw_key_table *table, const char *key)
{
    key_path path = { .count = 0 };
    if (table->section) path.words[path.count++] = table->section;
    if (table->entry) path.words[path.count++] = table->entry;
    path.words[path.count++] = key;
    return path;
}

void tw_offer_word(tw_reader *reader, const tw_key_table *table, const char *key, const char *value)
{
    key_path path = path_of(table, key);
    const char *label = tw_format(reader->arena, "Write `%s: %s`", key, value);
    tw_find_fix(reader->findings, label, reader->file_kind, path.words, path.count, value);
}

/* A key that was misspelt: its value comes under the right one. */
static void offer_key(tw_reader *reader, const tw_key_table *table, const tw_node *map, const tw_pair *pair, const char *right)
{
    if (pair->value->kind != TW_NODE_TEXT || pair->value->text.length == 0 || tw_pair_of(map, right)) return;
    const char *wrong = tw_text_copy(reader->arena, pair->key->text), *value = tw_text_copy(reader->arena, pair->value->text);
    const char *label = tw_format(reader->arena, "Write `%s` for `%s`", right, wrong);
    key_path old = path_of(table, wrong), fresh = path_of(table, right);
    tw_change out = { .kind = TW_CHANGE_REMOVE, .path = old.words, .path_count = old.count };
    tw_change in = { .kind = TW_CHANGE_SET, .path = fresh.words, .path_count = fresh.count, .value = value };
    tw_find_fix_by(reader->findings, label, reader->file_kind, in);  // first, lest the map be empty between
    tw_find_fix_also(reader->findings, reader->file_kind, out);
}

#define CHOICES_OFFERED 4  // words of a missing choice that are offered; where there are more they are looked up

static void offer_choices(tw_reader *reader, const tw_key_table *table, const tw_key *key)
{
    int count = 0;
    while (key->kind == TW_KEY_CHOICE && key->choices[count]) count++;
    for (int i = 0; count <= CHOICES_OFFERED && i < count; i++) tw_offer_word(reader, table, key->name, key->choices[i]);
}

/* ---- one value ---- */

typedef struct slot {
    tw_reader      *reader;
    const tw_key_table *table;
    const tw_key   *key;
    const tw_node  *node;
    void           *field;
} slot;

static void wrong_here(const slot *s, const char *code, const char *what, const char *remedy)
{
    tw_wrong(s->reader, s->node->place, code, s->table->what, what, remedy);
}

static const char *example_of(const slot *s)
{
    return s->key->example ? tw_format(s->reader->arena, "write `%s: %s`", s->key->name, s->key->example) : "";
}

/* The value's text, or NULL with a finding when it is a list, a map or nothing. */
static const tw_text *want_text(const slot *s)
{
    if (s->node->kind == TW_NODE_BAD) return NULL;
    if (s->node->kind == TW_NODE_TEXT && s->node->text.length > 0) return &s->node->text;
    const char *is = tw_node_in_words(s->reader->arena, s->node);
    const char *what = s->node->kind == TW_NODE_TEXT ? tw_format(s->reader->arena, "`%s` has no value", s->key->name)
                                                     : tw_format(s->reader->arena, "`%s` takes one value, and %s stands here", s->key->name, is);
    wrong_here(s, "value-kind", what, example_of(s));
    return NULL;
}

/* The text without line ends at its end, or NULL with a finding. */
static const char *line_of(const slot *s, int most)
{
    const tw_text *text = want_text(s);
    if (!text) return NULL;
    tw_text line = *text;
    while (line.length > 0 && line.bytes[line.length - 1] == '\n') line.length--;
    for (size_t at = 0; at < line.length;) {
        tw_character character = tw_character_at(line, at);
        if (!tw_is_printable(character.code)) {
            const char *name = character.code == '\n' ? "a line end" : tw_shown_character(s->reader->arena, character);
            tw_wrong(s->reader, tw_node_place_of(s->node, at), "text-character", s->table->what,
                     tw_format(s->reader->arena, "`%s` holds %s", s->key->name, name), "write one line of letters and signs that print");
            return NULL;
        }
        at += character.length;
    }
    int count = tw_characters_before(line, line.length);
    if (count <= most) return tw_text_copy(s->reader->arena, line);
    wrong_here(s, "text-long", tw_format(s->reader->arena, "`%s` has %d characters", s->key->name, count),
               tw_format(s->reader->arena, "%d at most", most));
    return NULL;
}

static void read_words(const slot *s)
{
    const char *line = line_of(s, s->key->most > 0.0 ? (int)s->key->most : TW_TITLE_MOST);
    if (line) *(tw_words *)s->field = (tw_words){ line, true, s->node->place };
}

static int choice_of(const slot *s, const char *const *choices)
{
    const tw_text *text = want_text(s);
    if (!text) return -1;
    int count = 0;
    for (; choices[count]; count++)
        if (tw_text_is(*text, choices[count])) return count;
    const char *written = tw_text_copy(s->reader->arena, *text);
    const char *near = tw_nearest_word(written, choices, (size_t)count);
    if (near && tw_word_distance(written, near) >= (int)strlen(written)) near = NULL;  // `x` is not nearly `m`
    wrong_here(s, "choice", tw_format(s->reader->arena, "`%s` cannot be %s", s->key->name, shown(s->reader, *text)),
               near ? tw_format(s->reader->arena, "`%s` is meant?", near)
                    : tw_format(s->reader->arena, "write %s", tw_words_list(s->reader->arena, choices)));
    if (near) tw_offer_word(s->reader, s->table, s->key->name, near);
    return -1;
}

static void read_choice(const slot *s)
{
    static const char *const no_yes[] = { "no", "yes", NULL };
    int value = choice_of(s, s->key->kind == TW_KEY_YES_NO ? no_yes : s->key->choices);
    if (value >= 0) *(tw_choice *)s->field = (tw_choice){ value, true, s->node->place };
}

static void read_link(const slot *s)
{
    const tw_text *text = want_text(s);
    if (!text) return;
    tw_reader *reader = s->reader;
    int index = tw_index_find(&reader->pieces, *text);
    if (index >= 0) {
        *(tw_link *)s->field = (tw_link){ index, true, s->node->place };
    } else if (!reader->sums.holed) {
        const char *near = tw_index_nearest(&reader->pieces, *text);
        wrong_here(s, "piece-unknown", tw_format(reader->arena, "no piece is named %s", shown(reader, *text)),
                   near ? tw_format(reader->arena, "`%s` is meant?", near) : "name one of those under `pieces:`");
        if (near) tw_offer_word(reader, s->table, s->key->name, near);
    }
}

static void read_shop_name(const slot *s)
{
    const tw_text *text = want_text(s);
    const char *name = text ? tw_read_name(s->reader, s->node, TW_NAME_OF_SHOP, "the name") : NULL;
    if (name) *(tw_words *)s->field = (tw_words){ name, true, s->node->place };
}

static void read_figures(const slot *s)
{
    const char *what, *remedy;
    const tw_text *text = want_text(s);
    if (text && !tw_figures_read(s->reader->arena, *text, s->field, &what, &remedy)) wrong_here(s, "figures", what, remedy);
}

/* ---- amounts ---- */

static bool is_amount(tw_key_kind kind)
{
    return kind == TW_KEY_LENGTH || kind == TW_KEY_LENGTHS || kind == TW_KEY_ANGLE || kind == TW_KEY_NUMBER || kind == TW_KEY_COUNT;
}

static tw_want want_of(tw_key_kind kind)
{
    switch (kind) {
    case TW_KEY_LENGTH: case TW_KEY_LENGTHS: return TW_WANT_LENGTH;
    case TW_KEY_ANGLE: return TW_WANT_ANGLE;
    case TW_KEY_COUNT: return TW_WANT_COUNT;
    default: return TW_WANT_NUMBER;
    }
}

static void set_range(tw_cell *cell, const tw_key *key)
{
    static const double least[] = { 0.0, TW_LENGTH_LEAST_MM, 0.0, 0.0, 1.0 };
    static const double most[] = { 0.0, TW_LENGTH_MOST_MM, TW_PI / 2.0, NUMBER_MOST, TW_COUNT_MOST };
    bool own = key->least != 0.0 || key->most != 0.0;
    cell->least = own ? key->least : least[cell->want];
    cell->most = own ? key->most : most[cell->want];
}

static void add_cell(const slot *s, const tw_node *node, tw_amount *target)
{
    tw_cell cell = { .owner = s->table->owner, .key = s->key->name, .node = node && node->built ? node->built : node, .want = want_of(s->key->kind),
                     .target = target, .example = s->key->example };
    set_range(&cell, s->key);
    if (target) *target = (tw_amount){ 0.0, true, node->place };
    tw_sums_add_cell(&s->reader->sums, cell);
}

static void read_amount(const slot *s)
{
    bool there = want_text(s) != NULL;
    add_cell(s, there ? s->node : NULL, there ? s->field : NULL);
}

static void read_amounts(const slot *s)
{
    tw_amounts *amounts = s->field;
    bool list = s->node->kind == TW_NODE_LIST;
    int count = list ? s->node->count : 1;
    if (count == 0 || count > TW_PLACES_MOST) {
        wrong_here(s, "list-count", tw_format(s->reader->arena, "`%s` is a list of %d amounts", s->key->name, count),
                   tw_format(s->reader->arena, "1 to %d are read", TW_PLACES_MOST));
        return;
    }
    *amounts = (tw_amounts){ TW_NEW_ARRAY(s->reader->arena, tw_amount, count), count, s->node->place };
    for (int i = 0; i < count; i++) {
        slot item = *s;
        item.node = list ? s->node->items[i] : s->node;
        item.field = &amounts->items[i];
        read_amount(&item);
    }
}

static void read_value(const slot *s)
{
    switch (s->key->kind) {
    case TW_KEY_TEXT: read_words(s); break;
    case TW_KEY_YES_NO: case TW_KEY_CHOICE: read_choice(s); break;
    case TW_KEY_PIECE: read_link(s); break;
    case TW_KEY_CUTTER: case TW_KEY_FOLLOWER: read_shop_name(s); break;
    case TW_KEY_FIGURES: read_figures(s); break;
    case TW_KEY_LENGTHS: read_amounts(s); break;
    case TW_KEY_LENGTH: case TW_KEY_ANGLE: case TW_KEY_NUMBER: case TW_KEY_COUNT: read_amount(s); break;
    }
}

/* What a field holds when the file does not give it. */
static void preset(const tw_key *key, tw_place place, void *field)
{
    switch (key->kind) {
    case TW_KEY_TEXT: case TW_KEY_CUTTER: case TW_KEY_FOLLOWER: *(tw_words *)field = (tw_words){ "", false, place }; break;
    case TW_KEY_YES_NO: case TW_KEY_CHOICE: *(tw_choice *)field = (tw_choice){ key->fallback, false, place }; break;
    case TW_KEY_PIECE: *(tw_link *)field = (tw_link){ -1, false, place }; break;
    case TW_KEY_LENGTHS: *(tw_amounts *)field = (tw_amounts){ NULL, 0, place }; break;
    case TW_KEY_FIGURES: *(tw_figures *)field = (tw_figures){ 0 }; break;
    default: *(tw_amount *)field = (tw_amount){ key->preset, false, place }; break;
    }
}

/* ---- a map ---- */

const tw_section *tw_section_named(const tw_layout *layout, tw_text name)
{
    for (int i = 0; i < layout->section_count; i++)
        if (tw_text_is(name, layout->sections[i].name)) return &layout->sections[i];
    return NULL;
}

const tw_pair *tw_pair_of(const tw_node *map, const char *key)
{
    for (int i = 0; i < map->count; i++)
        if (map->pairs[i].key->kind == TW_NODE_TEXT && tw_text_is(map->pairs[i].key->text, key)) return &map->pairs[i];
    return NULL;
}

bool tw_want_map(tw_reader *reader, const tw_node *node, const char *what)
{
    if (node->kind == TW_NODE_MAP) return true;
    if (node->kind == TW_NODE_BAD) return false;
    bool tight = node->kind == TW_NODE_TEXT && node->text.length > 1 && memchr(node->text.bytes, ':', node->text.length - 1);
    bool empty = node->kind == TW_NODE_TEXT && node->text.length == 0;
    if (empty && reader->sums.holed) return false;
    tw_wrong(reader, node->place, "value-kind", what,
             tw_format(reader->arena, "%s is written as keys with values, and %s stands here", what, tw_node_in_words(reader->arena, node)),
             tight ? "a space is missing after the colon" : "write KEY: VALUE on lines of their own, indented below it");
    return false;
}

static const tw_key *key_of(const tw_key_table *table, tw_text name)
{
    for (int i = 0; i < table->count; i++)
        if (tw_text_is(name, table->keys[i].name)) return &table->keys[i];
    return NULL;
}

static bool is_other(const tw_key_table *table, tw_text name)
{
    for (int i = 0; table->others && table->others[i]; i++)
        if (tw_text_is(name, table->others[i])) return true;
    return false;
}

/* {timber: Oak, white}: the comma has made a key of the second word. */
static bool made_by_comma(const tw_pair *pair)
{
    const tw_node *value = pair->value;
    return value->kind == TW_NODE_TEXT && value->text.length == 0 && !value->quoted && value->begin == pair->key->end;
}

static void refuse_key(tw_reader *reader, const tw_key_table *table, const tw_node *map, const tw_pair *pair)
{
    const tw_node *key = pair->key;
    if (made_by_comma(pair)) {
        tw_wrong(reader, key->place, "key-comma", table->what, tw_format(reader->arena, "%s stands here without a value", shown(reader, key->text)),
                 "between { }, a text that holds a comma goes in quotes");
        return;
    }
    int others = 0;
    while (table->others && table->others[others]) others++;
    const char **known = TW_NEW_ARRAY(reader->arena, const char *, table->count + others + 1);
    for (int i = 0; i < table->count; i++) known[i] = table->keys[i].name;
    for (int i = 0; i < others; i++) known[table->count + i] = table->others[i];
    const char *near = tw_nearest_word(tw_text_copy(reader->arena, key->text), known, (size_t)(table->count + others));
    tw_wrong(reader, key->place, "key-unknown", table->what,
             tw_format(reader->arena, "%s has no key %s", table->what, shown(reader, key->text)),
             memchr(key->text.bytes, ':', key->text.length) ? "a space is missing after the colon"
             : near ? tw_format(reader->arena, "`%s` is meant?", near)
                    : tw_format(reader->arena, "its keys are %s", tw_words_list(reader->arena, known)));
    if (near) offer_key(reader, table, map, pair, near);
}

static void find_missing(tw_reader *reader, const tw_node *map, const tw_key_table *table)
{
    for (int i = 0; i < table->count; i++) {
        const tw_key *key = &table->keys[i];
        if (!key->required || tw_pair_of(map, key->name)) continue;
        if (!reader->sums.holed) {
            tw_wrong(reader, table->place, "key-missing", table->what, tw_format(reader->arena, "%s has no `%s`", table->what, key->name),
                     key->example ? tw_format(reader->arena, "write `%s: %s`", key->name, key->example) : "");
            offer_choices(reader, table, key);
        }
        slot s = { .reader = reader, .table = table, .key = key };
        if (is_amount(key->kind)) add_cell(&s, NULL, NULL);
    }
}

void tw_read_key(tw_reader *reader, const tw_node *map, const tw_key_table *table, const tw_key *key, void *into)
{
    void *field = (char *)into + key->offset;
    preset(key, table->place, field);
    const tw_pair *pair = tw_pair_of(map, key->name);
    if (pair) read_value(&(slot){ reader, table, key, pair->value, field });
}

void tw_read_table(tw_reader *reader, const tw_node *map, const tw_key_table *table, void *into)
{
    assert(map->kind == TW_NODE_MAP);
    for (int i = 0; i < table->count; i++) preset(&table->keys[i], table->place, (char *)into + table->keys[i].offset);
    for (int i = 0; i < map->count; i++) {
        const tw_pair *pair = &map->pairs[i];
        if (pair->repeated || pair->key->kind != TW_NODE_TEXT || is_other(table, pair->key->text)) continue;
        const tw_key *key = key_of(table, pair->key->text);
        slot s = { reader, table, key, pair->value, key ? (char *)into + key->offset : NULL };
        if (key) read_value(&s);
        else refuse_key(reader, table, map, pair);
    }
    find_missing(reader, map, table);
}

/* ---- a file ---- */

tw_reader tw_reader_of(tw_arena *arena, const char *file, tw_findings *findings)
{
    tw_reader reader = { .arena = arena, .findings = findings, .file = tw_text_copy(arena, tw_text_of(file)) };
    reader.wrong_at_start = tw_findings_count(findings, TW_WRONG);
    reader.first_finding = findings->count;
    reader.pieces.arena = arena;
    reader.sums = (tw_sums){ .arena = arena, .findings = findings, .names = { .arena = arena } };
    return reader;
}

const tw_node *tw_reader_open(tw_reader *reader, tw_text text, const char *holds)
{
    tw_tree tree = tw_tree_read(reader->arena, text, reader->file, reader->findings);
    reader->sums.holed = tree.holed;
    if (!tree.root || !tw_want_map(reader, tree.root, holds)) return NULL;
    if (reader->measures) tw_measures_lay(reader->measures, reader->file_kind, reader, tree.root);
    return tree.root;
}

static int by_place(const tw_finding *a, const tw_finding *b)
{
    if (a->place.line != b->place.line) return a->place.line < b->place.line ? -1 : 1;
    return (a->place.column > b->place.column) - (a->place.column < b->place.column);
}

/* By insertion: the list is short, mostly in order, and equal places keep their order. */
static void sort_findings(tw_finding *items, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        tw_finding moved = items[i];
        size_t to = i;
        for (; to > 0 && by_place(&items[to - 1], &moved) > 0; to--) items[to] = items[to - 1];
        items[to] = moved;
    }
}

bool tw_reader_close(tw_reader *reader)
{
    tw_sums_settle(&reader->sums);
    tw_findings *findings = reader->findings;
    if (findings->count > reader->first_finding)
        sort_findings(findings->items + reader->first_finding, findings->count - reader->first_finding);
    bool full = reader->wrong_at_start >= TW_FINDINGS_MOST;  // further ones are not kept: nothing can be promised
    return !full && tw_findings_count(findings, TW_WRONG) == reader->wrong_at_start;
}
