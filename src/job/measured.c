// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/measured.h"

#include "job/reader.h"
#include "job/splice.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define DRAWN_MOST_MM 1e9  // the drawn value is judged where it is read; here it is only reckoned

tw_measures tw_measures_of(tw_arena *arena, const tw_measured *items, size_t count)
{
    return (tw_measures){ items, count, TW_NEW_ARRAY(arena, tw_in_force, count), 0 };
}

static bool same_path(const char *const *a, size_t a_count, const char *const *b, size_t b_count)
{
    if (a_count != b_count) return false;
    for (size_t i = 0; i < a_count; i++)
        if (strcmp(a[i], b[i]) != 0) return false;
    return true;
}

/* A later measurement of the same value stands in the list. */
static bool is_measured_again(const tw_measures *measures, size_t index)
{
    const tw_measured *one = &measures->items[index];
    for (size_t i = index + 1; i < measures->count; i++) {
        const tw_measured *other = &measures->items[i];
        if (other->file == one->file && same_path(one->path, one->path_count, other->path, other->path_count)) return true;
    }
    return false;
}

static tw_node *built_node(tw_reader *reader, double value_mm, tw_place place)
{
    tw_node *node = TW_NEW(reader->arena, tw_node);
    char *text = tw_format(reader->arena, "%g mm", value_mm);
    *node = (tw_node){ .kind = TW_NODE_TEXT, .place = place, .text = tw_text_of(text) };
    return node;
}

/* A cutter or follower that was never measured: its map gets the key. Returns NULL when the path is another. */
static tw_node *never_measured(tw_reader *reader, tw_found where, const tw_measured *measured)
{
    bool tool = measured->file == TW_FILE_SHOP && measured->path_count == 3 && where.depth == 2 &&
        strcmp(measured->path[2], "measured") == 0 &&
                (strcmp(measured->path[0], "cutters") == 0 || strcmp(measured->path[0], "followers") == 0);
    if (!tool || !where.parent || where.parent->kind != TW_NODE_MAP) return NULL;
    tw_node *key = TW_NEW(reader->arena, tw_node);
    *key = (tw_node){ .kind = TW_NODE_TEXT, .place = where.parent->place, .text = tw_text_of("measured") };
    tw_node *value = built_node(reader, measured->value_mm, where.parent_key ? where.parent_key->place : where.parent->place);
    tw_map_append(reader->arena, where.parent, key, value);
    return value;
}

static void lay_one(tw_measures *measures, tw_reader *reader, tw_node *root, const tw_measured *measured)
{
    tw_splicer way = { .arena = reader->arena, .root = root };
    tw_in_force force = { .file = measured->file, .path = measured->path, .path_count = measured->path_count,
        .written = tw_text_of(""),
                          .built_mm = measured->value_mm };
    tw_found where = tw_path_find(&way, measured->path, measured->path_count);
    bool text = where.node && where.node->kind == TW_NODE_TEXT && where.node->text.length > 0;
    if (!text && (where.node || !never_measured(reader, where, measured))) {
        if (reader->sums.holed) return;
        const char *path = tw_path_in_words(reader->arena, measured->path, measured->path_count);
        tw_find(reader->findings, TW_NOTE, root->place, "measured-nowhere", "",
                tw_format(reader->arena, "%s was measured, and the text has no such value any more", path),
                "the measurement is left aside; measure again what took its place");
        return;
    }
    tw_in_force *kept = &measures->in_force[measures->in_force_count++];
    *kept = force;
    if (!text) return;
    kept->written = where.node->text;
    where.node->built = built_node(reader, measured->value_mm, where.node->place);
    tw_sums_add_cell(&reader->sums, (tw_cell){ .owner = -1, .key = measured->path[measured->path_count - 1], .node = where.node,
        .want = TW_WANT_LENGTH,
                     .least = -DRAWN_MOST_MM, .most = DRAWN_MOST_MM, .target = &kept->drawn });
    kept->drawn.given = true;
}

void tw_measures_lay(tw_measures *measures, tw_file_kind file, tw_reader *reader, tw_node *root)
{
    for (size_t i = 0; i < measures->count; i++) {
        const tw_measured *measured = &measures->items[i];
        assert(isfinite(measured->value_mm) && measured->path_count > 0);
        if (measured->file == file && !is_measured_again(measures, i)) lay_one(measures, reader, root, measured);
    }
}

tw_in_force *tw_measure_at(const tw_measures *measures, tw_file_kind file, const char *section, const char *name, const char *key)
{
    const char *const path[] = { section, name, key };
    for (size_t i = 0; measures && i < measures->in_force_count; i++) {
        tw_in_force *force = &measures->in_force[i];
        if (force->file == file && same_path(force->path, force->path_count, path, 3)) return force;
    }
    return NULL;
}

bool tw_measures_touch(const tw_measures *measures, tw_file_kind file, const char *const *path, size_t path_count)
{
    for (size_t i = 0; i < measures->in_force_count; i++) {
        const tw_in_force *force = &measures->in_force[i];
        size_t both = force->path_count < path_count ? force->path_count : path_count;
        if (force->file == file && same_path(force->path, both, path, both)) return true;
    }
    return false;
}
