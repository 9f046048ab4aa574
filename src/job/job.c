// SPDX-License-Identifier: GPL-3.0-or-later
/* A job's text to its model: first the keys of the job, then amounts, pieces, joints and profiles in this order, whatever their
 * order in the file, so that every name is known when it is used. */
#include "job/job.h"

#include <assert.h>

#include "job/characters.h"
#include "job/reader.h"
#include "job/tables.h"

typedef struct formats { const tw_joint_format *const *items; int count; } formats;

typedef struct reading {
    tw_reader reader;
    tw_job   *job;
    formats   kinds;
} reading;

/* The map of a section, or NULL: not there, empty, or found wrong. */
static const tw_node *section_map(reading *r, const tw_node *root, const char *name, int most)
{
    const tw_pair *pair = tw_pair_of(root, name);
    if (!pair) return NULL;
    const tw_node *map = pair->value;
    bool empty = map->kind == TW_NODE_TEXT && map->text.length == 0;
    const char *what = tw_format(r->reader.arena, "`%s:`", name);
    if (empty) return NULL;
    if (!tw_want_map(&r->reader, map, what)) return NULL;
    if (map->count <= most) return map;
    tw_wrong(&r->reader, pair->key->place, "too-many", "", tw_format(r->reader.arena, "%s has %d entries", what, map->count),
             tw_format(r->reader.arena, "%d at most", most));
    return NULL;
}

/* The name of an entry; a name that was refused still serves for what else is to be found. NULL: pass over the entry. */
static const char *entry_name(reading *r, const tw_pair *pair, const char *what)
{
    if (pair->repeated || pair->key->kind != TW_NODE_TEXT) return NULL;
    const char *name = tw_read_name(&r->reader, pair->key, TW_NAME_OF_JOB, what);
    if (!name) return tw_text_copy(r->reader.arena, pair->key->text);
    int other = tw_index_find(&r->reader.sums.names, pair->key->text);
    if (other < 0) return name;
    tw_wrong(&r->reader, pair->key->place, "name-twice", name,
             tw_format(r->reader.arena, "`%s` is the name of %s %s already", name,
                       r->reader.sums.owners[other].kind[0] == 'a' ? "an" : "a", r->reader.sums.owners[other].kind),
             "choose another");
    return name;
}

static const char *shown_name(reading *r, const char *kind, const char *name)
{
    return tw_format(r->reader.arena, "%s %s", kind, tw_shown(r->reader.arena, tw_text_of(name)));
}

/* ---- amounts ---- */

static void read_named_amounts(reading *r, const tw_node *map)
{
    r->job->amounts = TW_NEW_ARRAY(r->reader.arena, tw_named_amount, map->count);
    for (int i = 0; i < map->count; i++) {
        const tw_pair *pair = &map->pairs[i];
        const char *name = entry_name(r, pair, "the name of an amount");
        if (!name) continue;
        bool good = pair->value->kind == TW_NODE_TEXT && pair->value->text.length > 0;
        if (!good && pair->value->kind != TW_NODE_BAD)
            tw_wrong(&r->reader, pair->value->place, "value-kind", name,
                     tw_format(r->reader.arena, "an amount is one value, and %s stands here", tw_node_in_words(r->reader.arena, pair->value)),
                     "write NAME: 12 mm");
        int owner = tw_sums_add_owner(&r->reader.sums, name, "amount");
        r->job->amounts[r->job->amount_count++] = (tw_named_amount){ .name = name, .place = pair->key->place, .written = pair->value };
        const tw_node *value = pair->value->built ? pair->value->built : pair->value;
        tw_sums_add_cell(&r->reader.sums, (tw_cell){ .owner = owner, .key = "", .node = good ? value : NULL });
    }
}

/* ---- pieces ---- */

static void read_piece(reading *r, const tw_pair *pair)
{
    const char *name = entry_name(r, pair, "the name of a piece");
    if (!name) return;
    tw_piece *piece = &r->job->pieces[r->job->piece_count++];
    piece->name = name;
    piece->place = pair->key->place;
    piece->written = pair->value;
    tw_index_add(&r->reader.pieces, name);
    const tw_section *section = tw_section_named(&tw_job_layout, tw_text_of("pieces"));
    tw_key_table table = { .what = shown_name(r, "piece", name), .place = piece->place, .keys = section->keys,
        .count = section->count, .section = "pieces", .entry = name };
    table.owner = tw_sums_add_owner(&r->reader.sums, name, "piece");
    if (tw_want_map(&r->reader, pair->value, table.what)) tw_read_table(&r->reader, pair->value, &table, piece);
}

static void read_pieces(reading *r, const tw_node *map)
{
    r->job->pieces = TW_NEW_ARRAY(r->reader.arena, tw_piece, map->count);
    for (int i = 0; i < map->count; i++) read_piece(r, &map->pairs[i]);
}

/* ---- joints and profiles ---- */

/* Which of the two is read: the word for it, and whether a format is one. */
typedef struct sort_read { const char *word, *name_of; bool profile; } sort_read;
static const sort_read joint_sort = { "joint", "the name of a joint", false }, profile_sort = { "profile", "the name of a profile", true };

static const char *const *kind_words(reading *r, const sort_read *sort, int *count)
{
    const char **words = TW_NEW_ARRAY(r->reader.arena, const char *, r->kinds.count + 1);
    *count = 0;
    for (int i = 0; i < r->kinds.count; i++)
        if (r->kinds.items[i]->profile == sort->profile) words[(*count)++] = r->kinds.items[i]->kind;
    return words;
}

/* A kind of the other sort stands in the wrong section. */
static bool is_of_other_sort(const reading *r, const tw_node *node, const sort_read *sort)
{
    for (int i = 0; node->kind == TW_NODE_TEXT && i < r->kinds.count; i++)
        if (r->kinds.items[i]->profile != sort->profile && tw_text_is(node->text, r->kinds.items[i]->kind)) return true;
    return false;
}

static void refuse_kind(reading *r, const sort_read *sort, const tw_node *node, const tw_key_table *table)
{
    const char *what = table->what;
    tw_arena *arena = r->reader.arena;
    int count;
    const char *const *words = kind_words(r, sort, &count);
    const char *near = node->kind == TW_NODE_TEXT ? tw_nearest_word(tw_text_copy(arena, node->text), words, (size_t)count) : NULL;
    tw_wrong(&r->reader, node->place, tw_format(arena, "%s-kind", sort->word), what, tw_format(arena, "%s is no kind of %s", tw_node_in_words(arena, node), sort->word),
             is_of_other_sort(r, node, sort) ? tw_format(arena, "write it under `%s:`", sort->profile ? "joints" : "profiles")
             : near ? tw_format(arena, "`%s` is meant?", near) : tw_format(arena, "write %s", tw_words_list(arena, words)));
    if (near && !is_of_other_sort(r, node, sort)) tw_offer_word(&r->reader, table, "kind", near);
}

/* The index of its kind, -1 with a finding. */
static int read_kind(reading *r, const sort_read *sort, const tw_node *map, const tw_key_table *table)
{
    const char *what = table->what;
    int count;
    const tw_pair *pair = tw_pair_of(map, "kind");
    if (!pair) {
        if (!r->reader.sums.holed)
            tw_wrong(&r->reader, table->place, "key-missing", what, tw_format(r->reader.arena, "%s has no `kind`", what),
                     tw_format(r->reader.arena, "write `kind:` and %s", tw_words_list(r->reader.arena, kind_words(r, sort, &count))));
        return -1;
    }
    if (pair->value->kind == TW_NODE_BAD) return -1;
    for (int i = 0; pair->value->kind == TW_NODE_TEXT && i < r->kinds.count; i++)
        if (r->kinds.items[i]->profile == sort->profile && tw_text_is(pair->value->text, r->kinds.items[i]->kind)) return i;
    refuse_kind(r, sort, pair->value, table);
    return -1;
}

static const tw_link *link_of(const tw_joint *joint, const tw_key *key)
{
    return key->kind == TW_KEY_PIECE ? (const void *)((const char *)joint->spec + key->offset) : NULL;
}

static void refuse_piece_with_itself(reading *r, const tw_joint *joint, const char *what)
{
    const tw_joint_format *format = r->kinds.items[joint->kind];
    for (int i = 0; i < format->key_count; i++)
        for (int j = 0; j < i; j++) {
            const tw_link *link = link_of(joint, &format->keys[i]), *earlier = link_of(joint, &format->keys[j]);
            if (!link || !earlier || link->index < 0 || link->index != earlier->index) continue;
            tw_wrong(&r->reader, link->place, "joint-itself", joint->name,
                     tw_format(r->reader.arena, "%s joins `%s` with itself", what, r->job->pieces[link->index].name),
                     "name two pieces; two alike that meet are written as two pieces");
            return;
        }
}

static void read_joint_map(reading *r, const sort_read *sort, const tw_node *map, tw_joint *joint, int owner, const char *what)
{
    static const char *const common[] = { "kind", "note", NULL };
    tw_key_table table = { .what = what, .place = joint->place, .owner = owner, .others = common,
        .section = sort->profile ? "profiles" : "joints", .entry = joint->name };
    joint->kind = read_kind(r, sort, map, &table);
    tw_read_key(&r->reader, map, &table, &tw_joint_common_keys[TW_JOINT_NOTE], joint);
    r->reader.sums.owners[owner].refused = joint->kind < 0;
    if (joint->kind < 0) return;
    const tw_joint_format *format = r->kinds.items[joint->kind];
    joint->spec = tw_arena_take(r->reader.arena, 1, format->spec_size);
    table.keys = format->keys;
    table.count = format->key_count;
    tw_read_table(&r->reader, map, &table, joint->spec);
    refuse_piece_with_itself(r, joint, what);
}

static void read_joint(reading *r, const sort_read *sort, const tw_pair *pair)
{
    const char *name = entry_name(r, pair, sort->name_of);
    if (!name) return;
    tw_joint *joint = &r->job->joints[r->job->joint_count + r->job->profile_count];
    if (sort->profile) r->job->profile_count++;
    else r->job->joint_count++;
    *joint = (tw_joint){ .name = name, .place = pair->key->place, .written = pair->value };
    const char *what = shown_name(r, sort->word, name);
    int owner = tw_sums_add_owner(&r->reader.sums, name, sort->word);
    if (tw_want_map(&r->reader, pair->value, what)) read_joint_map(r, sort, pair->value, joint, owner, what);
    else r->reader.sums.owners[owner].refused = true;
}

/* joints, profiles: NULL when there are none. */
static void read_joints(reading *r, const tw_node *joints, const tw_node *profiles)
{
    int joint_count = joints ? joints->count : 0, profile_count = profiles ? profiles->count : 0;
    if (joint_count + profile_count == 0) return;
    r->job->joints = TW_NEW_ARRAY(r->reader.arena, tw_joint, joint_count + profile_count);
    for (int i = 0; i < joint_count; i++) read_joint(r, &joint_sort, &joints->pairs[i]);
    for (int i = 0; i < profile_count; i++) read_joint(r, &profile_sort, &profiles->pairs[i]);
}

/* ---- the whole ---- */

static void find_no_pieces(reading *r, const tw_node *root)
{
    const tw_pair *pair = tw_pair_of(root, "pieces");
    bool empty = pair && pair->value->count == 0 && pair->value->text.length == 0 && pair->value->kind != TW_NODE_LIST &&
                 pair->value->kind != TW_NODE_BAD;
    if ((pair && !empty) || r->reader.sums.holed) return;
    tw_wrong(&r->reader, pair ? pair->value->place : root->place, "no-pieces", "", "the job has no pieces",
             "name at least one under `pieces:`");
}

static void read_root(reading *r, const tw_node *root)
{
    static const char *const others[] = { "base", "amounts", "pieces", "joints", "profiles", NULL };
    const tw_key *base = &tw_job_layout.keys[tw_job_layout.count - 1];  // names a piece: read when the pieces are known
    assert(base->kind == TW_KEY_PIECE);
    tw_key_table table = { .what = "the job", .place = root->place, .owner = -1, .keys = tw_job_layout.keys,
                       .count = tw_job_layout.count - 1, .others = others };
    tw_read_table(&r->reader, root, &table, r->job);
    r->reader.sums.unit = r->job->units.value;
    const tw_node *amounts = section_map(r, root, "amounts", TW_PIECES_MOST);
    const tw_node *pieces = section_map(r, root, "pieces", TW_PIECES_MOST);
    const tw_node *joints = section_map(r, root, "joints", TW_JOINTS_MOST);
    const tw_node *profiles = section_map(r, root, "profiles", TW_PROFILES_MOST);
    if (amounts) read_named_amounts(r, amounts);
    if (pieces) read_pieces(r, pieces);
    tw_read_key(&r->reader, root, &table, base, r->job);
    read_joints(r, joints, profiles);
    find_no_pieces(r, root);
}

static void set_defaults(tw_job *job)
{
    bool inches = job->units.value >= 3;
    if (!job->revision.given) job->revision.text = "1";
    if (job->figures.parts == 0)  // rows of figures all have parts: not given
        job->figures = inches ? (tw_figures){ TW_FIGURES_FRACTION, 0, 64 } : (tw_figures){ TW_FIGURES_MM, 1, 64 };
    job->inch_sizes = job->figures.style != TW_FIGURES_MM;
}

/* What came out of the named amounts. */
static void keep_amounts(reading *r)
{
    const tw_sums *sums = &r->reader.sums;
    for (int i = 0; i < r->job->amount_count; i++) {
        tw_named_amount *amount = &r->job->amounts[i];
        const tw_cell *cell = &sums->cells[sums->owners[i].first];  // amounts are the first owners, each with one cell
        tw_quantity q = cell->quantity;
        amount->value = q.value;
        amount->bare = tw_is_bare(q);
        amount->kind = tw_is_length(q) ? TW_AMOUNT_LENGTH : q.length == 0 && q.angle == 1 ? TW_AMOUNT_ANGLE
            : q.length == 0 && q.angle == 0 ? TW_AMOUNT_NUMBER : TW_AMOUNT_OTHER;
    }
}

const tw_job *tw_job_read(tw_arena *arena, tw_text text, const char *file, const tw_joint_format *const *items,
                          int format_count, tw_findings *findings)
{
    return tw_job_read_as_built(arena, text, file, items, format_count, NULL, findings);
}

const tw_job *tw_job_read_as_built(tw_arena *arena, tw_text text, const char *file, const tw_joint_format *const *items,
                                   int format_count, tw_measures *measures, tw_findings *findings)
{
    tw_job *job = TW_NEW(arena, tw_job);
    reading r = { .reader = tw_reader_of(arena, file, findings), .job = job, .kinds = { items, format_count } };
    job->file = r.reader.file;
    r.reader.measures = measures;
    const tw_node *root = tw_reader_open(&r.reader, text, "a job");
    if (root) read_root(&r, root);
    bool good = tw_reader_close(&r.reader);
    job->written = root;
    keep_amounts(&r);
    set_defaults(job);
    return good ? job : NULL;
}
