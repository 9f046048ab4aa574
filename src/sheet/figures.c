// SPDX-License-Identifier: GPL-3.0-or-later
/* The list of figures: ids, texts in the units asked, and the keys of the job, of its pieces and its joints. */
#include "sheet/figures_own.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "job/path.h"
#include "job/tables.h"
#include "job/tree.h"
#include "joint/words.h"

/* ---- the list ---- */

tw_values tw_values_begin(tw_arena *arena, const tw_paper_input *in)
{
    tw_values values = { .arena = arena, .in = in, .names = TW_NEW(arena, struct tw_value_names) };
    values.names->ids.arena = values.names->owners.arena = arena;
    const tw_job *job = in->job;
    for (int i = 0; i < job->amount_count; i++) tw_index_add(&values.names->owners, job->amounts[i].name);
    for (int i = 0; i < job->piece_count; i++) tw_index_add(&values.names->owners, job->pieces[i].name);
    for (int i = 0; i < tw_plan_count(job); i++) tw_index_add(&values.names->owners, job->joints[i].name);
    return values;
}

tw_values tw_values_none(tw_arena *arena)
{
    tw_values values = { .arena = arena, .names = TW_NEW(arena, struct tw_value_names) };
    values.names->ids.arena = values.names->owners.arena = arena;
    return values;
}

static const char *unique(tw_values *values, const char *id)
{
    const char *tried = id;
    for (int again = 2; tw_index_find(&values->names->ids, tw_text_of(tried)) >= 0; again++)
        tried = tw_format(values->arena, "%s (%d)", id, again);
    tw_index_add(&values->names->ids, tried);
    return tried;
}

void tw_values_add(tw_values *values, tw_value value)
{
    const char **texts[] = { &value.where, &value.path, &value.label, &value.symbol, &value.text, &value.bare, &value.unit,
                             &value.written, &value.shows, &value.sum, &value.rule };
    assert(value.id && value.id[0]);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (!*texts[i]) *texts[i] = "";
    value.id = unique(values, value.id);
    tw_array_make_room(values->arena, &values->items, values->count, &values->room, sizeof value);
    values->items[values->count++] = value;
}

tw_value tw_value_begin(const tw_value_owner *owner, const char *key, const char *label, const char *sum, const char *rule)
{
    const char *id = tw_path_join(owner->values->arena, owner->id, key);
    return (tw_value){ .id = id, .where = owner->where, .label = label, .sum = sum, .rule = rule };
}

void tw_value_add_length(const tw_value_owner *owner, const char *key, const char *label, double length_mm, const char *sum,
                         const char *rule)
{
    tw_value value = tw_value_begin(owner, key, label, sum, rule);
    tw_value_length(owner->values, &value, length_mm);
    tw_values_add(owner->values, value);
}

/* ---- texts ---- */

static tw_joint_context context_of(const tw_values *values)
{
    return (tw_joint_context){ .arena = values->arena, .job = values->in->job, .shop = values->in->shop };
}

static bool in_mm(const tw_values *values) { return values->in->job->figures.style == TW_FIGURES_MM; }

const char *tw_value_say(const tw_values *values, double length_mm)
{
    tw_joint_context context = context_of(values);
    return tw_say_fine(&context, length_mm);
}

void tw_value_length(const tw_values *values, tw_value *value, double length_mm)
{
    tw_joint_context context = context_of(values);
    value->shows = "length";
    value->value = length_mm;
    value->bare = tw_bare_fine(&context, length_mm);
    value->unit = in_mm(values) ? "mm" : "in";
    bool plain = values->in->job->figures.style != TW_FIGURES_FRACTION;  // a fraction's unit stands before "light"
    value->text = plain ? tw_format(values->arena, "%s %s", value->bare, value->unit) : tw_say_fine(&context, length_mm);
}

void tw_value_angle(const tw_values *values, tw_value *value, double rad)
{
    value->shows = "angle";
    value->value = rad;
    value->text = tw_angle_text(values->arena, rad);
    value->unit = "°";
    value->bare = tw_text_copy(values->arena, (tw_text){ value->text, strlen(value->text) - strlen("°") });
}

/* A number and its unit, "" for none. */
static void put(const tw_values *values, tw_value *value, double number, const char *bare, const char *unit)
{
    value->value = number;
    value->bare = bare;
    value->unit = unit;
    value->text = *unit ? tw_format(values->arena, "%s %s", bare, unit) : bare;
}

void tw_value_number(const tw_values *values, tw_value *value, double number)
{
    value->shows = "number";
    double step = fabs(number) < 0.1 ? 1e-6 : 1e-3;
    put(values, value, number, tw_format(values->arena, "%g", round(number / step) * step), "");
}

void tw_value_count(const tw_values *values, tw_value *value, double number)
{
    value->shows = "count";
    put(values, value, number, tw_format(values->arena, "%.0f", number), "");
}

void tw_value_area(const tw_values *values, tw_value *value, double area_mm2)
{
    value->shows = "area";
    if (in_mm(values)) put(values, value, area_mm2, tw_format(values->arena, "%.0f", area_mm2), "mm²");
    else put(values, value, area_mm2, tw_format(values->arena, "%.2f", area_mm2 / tw_square(TW_MM_PER_INCH)), "in²");
}

void tw_value_volume(const tw_values *values, tw_value *value, double volume_mm3)
{
    double inch3 = tw_square(TW_MM_PER_INCH) * TW_MM_PER_INCH;
    value->shows = "volume";
    if (in_mm(values)) put(values, value, volume_mm3, tw_format(values->arena, "%.3f", volume_mm3 / 1e6), "dm³");
    else put(values, value, volume_mm3, tw_format(values->arena, "%.2f", volume_mm3 / inch3), "in³");
}

void tw_value_mass(const tw_values *values, tw_value *value, double mass_kg)
{
    const char *words = tw_mass_words(values->arena, mass_kg, values->in->job->figures), *space = strchr(words, ' ');
    value->shows = "mass";
    put(values, value, mass_kg, space ? tw_text_copy(values->arena, (tw_text){ words, (size_t)(space - words) }) : words,
        space ? space + 1 : "");
}

void tw_value_word(tw_value *value, const char *word)
{
    value->text = value->bare = word;
    value->unit = "";
}

/* ---- the sum of what the job gives ---- */

/* The amount that a row fills; NULL when it is none or has not been given. */
static const tw_amount *amount_of(const void *into, const tw_key *row)
{
    const void *field = (const char *)into + row->offset;
    switch (row->kind) {
    case TW_KEY_LENGTH: case TW_KEY_ANGLE: case TW_KEY_NUMBER: case TW_KEY_COUNT: return field;
    case TW_KEY_LENGTHS: return ((const tw_amounts *)field)->count == 1 ? ((const tw_amounts *)field)->items : NULL;
    default: return NULL;
    }
}

static void amount_words(const tw_values *values, tw_value *value, tw_key_kind kind, double amount)
{
    switch (kind) {
    case TW_KEY_LENGTH: case TW_KEY_LENGTHS: tw_value_length(values, value, amount); break;
    case TW_KEY_ANGLE: tw_value_angle(values, value, amount); break;
    case TW_KEY_COUNT: tw_value_count(values, value, amount); break;
    default: tw_value_number(values, value, amount); break;
    }
}

static void named_amount_words(const tw_values *values, tw_value *value, const tw_named_amount *amount)
{
    switch (amount->kind) {
    case TW_AMOUNT_LENGTH: tw_value_length(values, value, amount->value); break;
    case TW_AMOUNT_ANGLE: tw_value_angle(values, value, amount->value); break;
    case TW_AMOUNT_NUMBER: case TW_AMOUNT_OTHER: tw_value_number(values, value, amount->value); break;
    }
}

/* A key of a piece or a joint as text; false when it has none of that name. */
static bool key_words(const tw_values *values, tw_value *value, const tw_key *rows, int count, const void *into, tw_text key)
{
    for (int i = 0; i < count; i++) {
        const tw_amount *amount = tw_text_is(key, rows[i].name) ? amount_of(into, &rows[i]) : NULL;
        if (!amount) continue;
        amount_words(values, value, rows[i].kind, amount->value);
        return true;
    }
    return false;
}

static const tw_joint_format *format_of(const tw_joint *joint) { return &tw_joint_kinds[joint->kind]->format; }

/* What `owner.key` stands for, as text. */
static bool name_words(const tw_values *values, tw_value *value, tw_text owner, tw_text key)
{
    const tw_job *job = values->in->job;
    int number = tw_index_find(&values->names->owners, owner);
    if (number < 0) return false;
    if (number < job->amount_count) return named_amount_words(values, value, &job->amounts[number]), true;
    number -= job->amount_count;
    const tw_section *pieces = tw_section_named(&tw_job_layout, tw_text_of("pieces"));
    if (number < job->piece_count) return key_words(values, value, pieces->keys, pieces->count, &job->pieces[number], key);
    const tw_joint *joint = &job->joints[number - job->piece_count];
    return key_words(values, value, format_of(joint)->keys, format_of(joint)->key_count, joint->spec, key);
}

static const char *words_of(const tw_node *node) { return node && node->kind == TW_NODE_TEXT ? node->text.bytes : ""; }

/* The sum of a value that the job gives: "given in the job", or the sum as it is written and what its names stand for. */
static const char *sum_written(const tw_values *values, const char *written)
{
    tw_arena *arena = values->arena;
    tw_name_used *names;
    int count, told = 0;
    if (!tw_amount_is_sum(arena, tw_text_of(written), &names, &count)) return "given in the job";
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, written);
    for (int i = 0; i < count; i++) {
        tw_value value = { 0 };
        if (!name_words(values, &value, names[i].owner, names[i].key)) continue;
        tw_putf(&sink, "%s%.*s%s%.*s = %s", told++ ? ", " : ", where ", (int)names[i].owner.length, names[i].owner.bytes,
                names[i].key.length ? "." : "", (int)names[i].key.length, names[i].key.bytes, value.text);
    }
    return tw_gathered(&all).bytes;
}

/* The same, of what may have been measured. */
static const char *sum_of(const tw_values *values, const tw_node *node)
{
    const char *written = words_of(node);
    if (!node || !node->built) return sum_written(values, written);
    return tw_format(values->arena, "measured: as built, in place of %s", written);
}

/* ---- keys of the job ---- */

/* One map of the text, the table that it was read by, and whose it is. */
typedef struct owner {
    const char    *id;      // path text: "pieces/post"; "" for the job itself
    const char    *where;   // "piece `post`"
    const tw_joint_plan *plan;  // NULL: of no joint
    const tw_node *map;     // in the text
    const void    *into;    // what the rows fill
} owner;

static const tw_node *written_at(const owner *o, const tw_key *row)
{
    const tw_pair *pair = o->map && o->map->kind == TW_NODE_MAP ? tw_pair_of(o->map, row->name) : NULL;
    return pair ? pair->value : NULL;
}

static const char *path_of(const tw_values *values, const owner *o, const char *key)
{
    return *o->id ? tw_path_join(values->arena, o->id, key) : tw_path_text(values->arena, &key, 1);
}

static tw_value begin_value(const tw_values *values, const owner *o, const tw_key *row)
{
    tw_value value = { .where = o->where, .label = row->name, .path = path_of(values, o, row->name), .rule = row->otherwise };
    bool taken = o->plan && tw_plan_find(o->plan, row->name);  // by a figure of another meaning: `tenons`, and how many they are
    value.id = taken ? tw_path_join(values->arena, tw_path_join(values->arena, o->id, "key"), row->name) : value.path;
    value.written = words_of(written_at(o, row));
    return value;
}

/* The word that a choice comes to when it is not given: its fallback, unless what holds then is told in other words. */
static const char *fallback_word(const tw_key *row, const char *word)
{
    if (!row->otherwise) return word;
    size_t length = strlen(word);
    if (strncmp(row->otherwise, word, length) != 0) return "";
    return row->otherwise[length] == 0 || strchr(",;: ", row->otherwise[length]) ? word : "";
}

static const char *const no_yes[] = { "no", "yes", NULL };

const char *tw_key_shows(tw_key_kind kind)
{
    static const char *const words[] = {
        [TW_KEY_TEXT] = "text", [TW_KEY_LENGTH] = "length", [TW_KEY_LENGTHS] = "lengths", [TW_KEY_ANGLE] = "angle",
        [TW_KEY_NUMBER] = "number", [TW_KEY_COUNT] = "count", [TW_KEY_YES_NO] = "yes or no", [TW_KEY_CHOICE] = "word",
        [TW_KEY_PIECE] = "piece", [TW_KEY_CUTTER] = "cutter", [TW_KEY_FOLLOWER] = "follower", [TW_KEY_FIGURES] = "figures" };
    return words[kind];
}

const char *const *tw_key_choices(const tw_key *key) { return key->kind == TW_KEY_YES_NO ? no_yes : key->choices; }

static void add_choice(tw_values *values, const owner *o, const tw_key *row, tw_choice choice)
{
    tw_value value = begin_value(values, o, row);
    value.choices = tw_key_choices(row);
    value.shows = tw_key_shows(row->kind);
    value.given = choice.given;
    value.sum = choice.given ? "given in the job" : "";
    const char *word = value.choices[choice.value];
    tw_value_word(&value, choice.given ? word : fallback_word(row, word));
    tw_values_add(values, value);
}

static const char **names_begin(const tw_values *values, int count)
{
    return TW_NEW_ARRAY(values->arena, const char *, (size_t)count + 1);
}

static const char *const *piece_names(const tw_values *values)
{
    const tw_job *job = values->in->job;
    const char **names = names_begin(values, job->piece_count);
    for (int i = 0; i < job->piece_count; i++) names[i] = job->pieces[i].name;
    return names;
}

static const char *const *cutter_names(const tw_values *values)
{
    const tw_shop *shop = values->in->shop;
    const char **names = names_begin(values, shop->cutter_count);
    for (int i = 0; i < shop->cutter_count; i++) names[i] = shop->cutters[i].name;
    return names;
}

static const char *const *follower_names(const tw_values *values)
{
    const tw_shop *shop = values->in->shop;
    const char **names = names_begin(values, shop->follower_count);
    for (int i = 0; i < shop->follower_count; i++) names[i] = shop->followers[i].name;
    return names;
}

/* A text or a name. */
static void add_words(tw_values *values, const owner *o, const tw_key *row, const char *text, bool given)
{
    tw_value value = begin_value(values, o, row);
    value.given = given;
    value.sum = given ? "given in the job" : "";
    value.shows = tw_key_shows(row->kind);
    value.choices = row->kind == TW_KEY_PIECE ? piece_names(values) : row->kind == TW_KEY_CUTTER ? cutter_names(values)
        : row->kind == TW_KEY_FOLLOWER ? follower_names(values) : NULL;
    tw_value_word(&value, text);
    tw_values_add(values, value);
}

/* An amount that no figure says: a place, a size of a piece, or one that is not given. */
static void add_amount(tw_values *values, const owner *o, const tw_key *row, tw_amount amount)
{
    tw_value value = begin_value(values, o, row);
    value.given = amount.given;
    amount_words(values, &value, row->kind, amount.value);
    if (amount.given) value.sum = sum_of(values, written_at(o, row));
    else if (row->preset != 0.0 || amount.value != 0.0) value.sum = "what holds when the job does not say it";
    else tw_value_word(&value, "");
    tw_values_add(values, value);
}

static void add_amounts(tw_values *values, const owner *o, const tw_key *row, const tw_amounts *amounts)
{
    const tw_node *node = written_at(o, row);
    if (amounts->count == 0) add_amount(values, o, row, (tw_amount){ 0 });
    for (int i = 0; i < amounts->count; i++) {
        tw_value value = begin_value(values, o, row);
        const char *number = tw_format(values->arena, "%d", i + 1);
        bool list = node && node->kind == TW_NODE_LIST;
        value.id = tw_path_join(values->arena, value.id, number);
        value.path = tw_path_join(values->arena, value.path, number);
        const tw_node *item = list ? node->items[i] : node;
        value.written = words_of(item);
        value.given = true;
        if (amounts->count > 1) value.label = tw_format(values->arena, "%s, %d of %d", row->name, i + 1, amounts->count);
        tw_value_length(values, &value, amounts->items[i].value);
        value.sum = sum_of(values, item);
        tw_values_add(values, value);
    }
}

static void add_row(tw_values *values, const owner *o, const tw_key *row)
{
    const void *field = (const char *)o->into + row->offset;
    switch (row->kind) {
    case TW_KEY_LENGTH: case TW_KEY_ANGLE: case TW_KEY_NUMBER: case TW_KEY_COUNT:
        add_amount(values, o, row, *(const tw_amount *)field);
        break;
    case TW_KEY_LENGTHS: add_amounts(values, o, row, field); break;
    case TW_KEY_YES_NO: case TW_KEY_CHOICE: add_choice(values, o, row, *(const tw_choice *)field); break;
    case TW_KEY_TEXT: case TW_KEY_CUTTER: case TW_KEY_FOLLOWER:
        add_words(values, o, row, ((const tw_words *)field)->text, ((const tw_words *)field)->given);
        break;
    case TW_KEY_PIECE: {
        tw_link link = *(const tw_link *)field;
        add_words(values, o, row, link.index >= 0 ? values->in->job->pieces[link.index].name : "", link.given);
        break;
    }
    case TW_KEY_FIGURES:
        add_words(values, o, row, tw_figures_words(*(const tw_figures *)field), written_at(o, row) != NULL);
        break;
    }
}

void tw_values_of_job(tw_values *values)
{
    const tw_job *job = values->in->job;
    owner o = { .id = "", .where = "the job", .map = job->written, .into = job };
    for (int i = 0; i < tw_job_layout.count; i++) add_row(values, &o, &tw_job_layout.keys[i]);
}

void tw_values_of_amounts(tw_values *values)
{
    const tw_job *job = values->in->job;
    for (int i = 0; i < job->amount_count; i++) {
        const char *words[] = { "amounts", job->amounts[i].name };
        tw_value value = { .where = "the job's amounts", .label = job->amounts[i].name, .given = true };
        value.id = value.path = tw_path_text(values->arena, words, 2);
        value.written = words_of(job->amounts[i].written);
        named_amount_words(values, &value, &job->amounts[i]);
        value.sum = sum_of(values, job->amounts[i].written);
        tw_values_add(values, value);
    }
}

void tw_values_of_piece(tw_values *values, int index)
{
    const tw_piece *piece = &values->in->job->pieces[index];
    const char *words[] = { "pieces", piece->name };
    const tw_section *section = tw_section_named(&tw_job_layout, tw_text_of("pieces"));
    owner o = { .id = tw_path_text(values->arena, words, 2), .where = tw_format(values->arena, "piece `%s`", piece->name),
                .map = piece->written, .into = piece };
    for (int i = 0; i < section->count; i++) add_row(values, &o, &section->keys[i]);
}

/* ---- joints and profiles ---- */

static bool has_figure(const tw_joint_plan *plan, const tw_key *row)
{
    for (size_t i = 0; i < plan->figure_count; i++)
        if (plan->figures[i].row == row) return true;
    return false;
}

static void add_figure(tw_values *values, const owner *o, const tw_figure *figure)
{
    tw_value value = { .id = tw_path_join(values->arena, o->id, figure->key), .where = o->where, .label = figure->label,
                       .symbol = figure->symbol, .given = figure->given, .sum = figure->sum, .rule = figure->rule };
    switch (figure->unit) {
    case TW_UNIT_MM: tw_value_length(values, &value, figure->value); break;
    case TW_UNIT_RAD: tw_value_angle(values, &value, figure->value); break;
    case TW_UNIT_COUNT: tw_value_count(values, &value, figure->value); break;
    case TW_UNIT_NONE: tw_value_number(values, &value, figure->value); break;
    }
    if (figure->row) {
        value.path = tw_path_join(values->arena, o->id, figure->row->name);
        value.written = words_of(written_at(o, figure->row));
        if (figure->given) value.sum = sum_of(values, written_at(o, figure->row));
    }
    tw_values_add(values, value);
}

void tw_values_of_plan(tw_values *values, int index)
{
    const tw_joint_plan *plan = &values->in->plans[index];
    const tw_joint_format *format = format_of(plan->joint);
    const char *words[] = { plan->profile ? "profiles" : "joints", plan->joint->name };
    owner o = { .id = tw_path_text(values->arena, words, 2), .map = plan->joint->written, .into = plan->joint->spec, .plan = plan,
                .where = tw_format(values->arena, "%s `%s`", plan->profile ? "profile" : "joint", plan->joint->name) };
    for (int i = 0; i < format->key_count; i++)
        if (!has_figure(plan, &format->keys[i])) add_row(values, &o, &format->keys[i]);
    for (size_t i = 0; i < plan->figure_count; i++) add_figure(values, &o, &plan->figures[i]);
    o.into = plan->joint;
    add_row(values, &o, &tw_joint_common_keys[TW_JOINT_NOTE]);
}

/* ---- all of them ---- */

tw_values tw_figure_list(tw_arena *arena, const tw_paper_input *in)
{
    tw_values values = tw_values_begin(arena, in);
    tw_values_of_job(&values);
    tw_values_of_amounts(&values);
    for (int i = 0; i < in->job->piece_count; i++) {
        tw_values_of_piece(&values, i);
        tw_values_of_facts(&values, i);
    }
    for (int i = 0; i < in->plan_count; i++) tw_values_of_plan(&values, i);
    for (int i = 0; i < in->templates->count; i++) tw_values_of_template(&values, i);
    for (int i = 0; i < in->run->count; i++) tw_values_of_step(&values, i);
    return values;
}
