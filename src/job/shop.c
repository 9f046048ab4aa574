// SPDX-License-Identifier: GPL-3.0-or-later
/* A shop's text to its model. The lists (cutters, followers, pins, spacers) are read by one function: a list is a
 * section of the layout, the size of its struct, and where its name and place stand in it. */
#include "job/job.h"

#include "job/characters.h"
#include "job/reader.h"
#include "job/tables.h"

#include <math.h>

#define THINGS_MOST 1000           // cutters, followers, pins or spacers of one shop
#define MEASURED_WITHIN_MM 1.0     // a measured diameter farther from the one as sold is a slip of the pen
#define NECK_LEAST_MM 1.0          // of a dovetail cutter: thinner, it is no cutter but a slip

typedef struct reading { tw_reader reader; tw_shop *shop; } reading;

/* The map of a section, or NULL: found wrong, or left out where that is allowed. */
static const tw_node *section_map(reading *r, const tw_node *root, const tw_section *section)
{
    const tw_pair *pair = tw_pair_of(root, section->name);
    tw_arena *arena = r->reader.arena;
    const char *what = tw_format(arena, "`%s:`", section->name);
    bool empty = pair && pair->value->kind == TW_NODE_TEXT && pair->value->text.length == 0;
    bool none = !pair || empty || (section->entry && pair->value->kind == TW_NODE_MAP && pair->value->count == 0);
    if (none && section->required && !r->reader.sums.holed)
        tw_wrong(&r->reader, pair ? pair->key->place : root->place, "section-missing", "",
                 tw_format(arena, section->entry ? "the shop has no %s" : "the shop has no `%s:`", section->name),
                 section->entry ? tw_format(arena, "name at least one under `%s:`", section->name) : "a ratio is needed at least");
    if (none || !tw_want_map(&r->reader, pair->value, what)) return NULL;
    if (pair->value->count <= THINGS_MOST) return pair->value;
    tw_wrong(&r->reader, pair->key->place, "too-many", "", tw_format(arena, "%s has %d entries", what, pair->value->count),
             tw_format(arena, "%d at most", THINGS_MOST));
    return NULL;
}

/* Where a thing's struct keeps what every thing has. */
typedef struct thing { const char *section; size_t size, name, place; } thing;
#define THING(words, type) { words, sizeof(type), offsetof(type, name), offsetof(type, place) }

static bool read_thing(reading *r, const tw_section *section, const thing *kind, const tw_pair *pair, char *into)
{
    tw_arena *arena = r->reader.arena;
    if (pair->repeated || pair->key->kind != TW_NODE_TEXT) return false;
    const char *name = tw_read_name(&r->reader, pair->key, TW_NAME_OF_SHOP, tw_format(arena, "the name of a %s", section->entry));
    *(const char **)(void *)(into + kind->name) = name;
    *(tw_place *)(void *)(into + kind->place) = pair->key->place;
    const char *what = tw_format(arena, "%s %s", section->entry, tw_shown(arena, pair->key->text));
    tw_key_table table = { .what = what, .place = pair->key->place, .owner = -1, .keys = section->keys, .count = section->count,
        .section = section->name, .entry = tw_text_copy(arena, pair->key->text) };
    if (!tw_want_map(&r->reader, pair->value, what)) return false;
    tw_read_table(&r->reader, pair->value, &table, into);
    return true;
}

static void *read_things(reading *r, const tw_node *root, thing kind, int *count)
{
    const tw_section *section = tw_section_named(&tw_shop_layout, tw_text_of(kind.section));
    const tw_node *map = section_map(r, root, section);
    *count = 0;
    if (!map) return NULL;
    char *things = tw_arena_take(r->reader.arena, (size_t)map->count, kind.size);
    for (int i = 0; i < map->count; i++)
        *count += read_thing(r, section, &kind, &map->pairs[i], things + kind.size * (size_t)*count);
    return things;
}

static void read_into(reading *r, const tw_node *root, const char *name, void *into)
{
    const tw_section *section = tw_section_named(&tw_shop_layout, tw_text_of(name));
    static const tw_node nothing = { .kind = TW_NODE_MAP };
    const tw_node *map = section_map(r, root, section);
    tw_key_table table = { .what = tw_format(r->reader.arena, "`%s:`", name), .place = map ? map->place : root->place, .owner = -1,
                       .keys = section->keys, .count = section->count, .section = name };
    const tw_pair *pair = tw_pair_of(root, name);
    if (pair) table.place = pair->key->place;
    if (map || !section->required) tw_read_table(&r->reader, map ? map : &nothing, &table, into);
}

static void read_root(reading *r, const tw_node *root)
{
    static const char *const others[] = { "machine", "saw", "cutters", "followers", "pins", "spacers", NULL };
    tw_shop *shop = r->shop;
    tw_key_table table = { .what = "the shop", .place = root->place, .owner = -1, .keys = tw_shop_layout.keys,
                       .count = tw_shop_layout.count, .others = others };
    tw_read_table(&r->reader, root, &table, shop);
    r->reader.sums.unit = shop->units.value;
    read_into(r, root, "machine", &shop->machine);
    read_into(r, root, "saw", shop);
    shop->cutters = read_things(r, root, (thing)THING("cutters", tw_cutter), &shop->cutter_count);
    shop->followers = read_things(r, root, (thing)THING("followers", tw_follower), &shop->follower_count);
    shop->pins = read_things(r, root, (thing)THING("pins", tw_pin), &shop->pin_count);
    shop->spacers = read_things(r, root, (thing)THING("spacers", tw_spacer), &shop->spacer_count);
}

/* ---- what belongs together ---- */

static char *length(const reading *r, double value_mm) { return tw_amount_in_words(r->reader.arena, TW_WANT_LENGTH, value_mm, r->reader.sums.unit); }

static void check_measured(reading *r, tw_amount sold, tw_amount measured, const char *name)
{
    if (!measured.given || fabs(measured.value - sold.value) <= MEASURED_WITHIN_MM) return;
    tw_wrong(&r->reader, measured.place, "measured-far", name,
             tw_format(r->reader.arena, "`%s` is %s as sold and %s as measured", name, length(r, sold.value), length(r, measured.value)),
             "measure again: the two lie within 1 mm");
}

/* A dovetail cutter comes in from an edge: plunged, its tip would cut away the walls that hold. And it must have a neck. */
static void check_dovetail(reading *r, const tw_cutter *cutter)
{
    if (tw_cutter_is_straight(cutter)) return;
    if (cutter->plunges.value)
        tw_wrong(&r->reader, cutter->plunges.place, "dovetail-plunges", cutter->name,
                 tw_format(r->reader.arena, "`%s` is a dovetail cutter and cannot plunge: it is widest at its tip", cutter->name),
                 "leave `plunges` out, or `dovetail` if its sides are straight");
    if (tw_cutter_diameter_at_mm(cutter, cutter->cutting_length.value) >= NECK_LEAST_MM) return;
    double longest = (cutter->d_mm - NECK_LEAST_MM) / (2.0 * tan(cutter->dovetail.value));
    tw_wrong(&r->reader, cutter->dovetail.place, "dovetail-neck", cutter->name,
             tw_format(r->reader.arena, "`%s` would have no neck: %s wide at its tip and narrower on both sides by this angle, over %s", cutter->name,
                       length(r, cutter->d_mm), length(r, cutter->cutting_length.value)),
             longest > 0.0 ? tw_format(r->reader.arena, "with this angle at most %s of cutting length", length(r, longest)) : "a wider tip");
}

static void check_machine(reading *r)
{
    const tw_machine *m = &r->shop->machine;
    if (m->table_highest.value > m->table_lowest.value)
        tw_wrong(&r->reader, m->table_highest.place, "table-heights", "",
                 tw_format(r->reader.arena, "the table lies %s below the centre at its highest and %s at its lowest",
                           length(r, m->table_highest.value), length(r, m->table_lowest.value)),
                 "both are measured down from the cutter's centre: the lowest is the larger");
    if (m->low_speed.given && m->low_speed.value > m->top_speed.value)
        tw_wrong(&r->reader, m->low_speed.place, "speeds", "",
                 tw_format(r->reader.arena, "the low speed, %g, is over the top speed, %g", m->low_speed.value, m->top_speed.value), "");
}

double tw_cutter_diameter_at_mm(const tw_cutter *cutter, double up_mm) { return cutter->d_mm - 2.0 * up_mm * tan(cutter->dovetail.value); }

/* A thing that the text has no measure of was drawn at its size as sold. */
static void drawn_as_sold(reading *r, const char *section, const char *name, tw_amount sold)
{
    tw_in_force *force = tw_measure_at(r->reader.measures, TW_FILE_SHOP, section, name, "measured");
    if (force && !force->drawn.given) force->drawn = sold;
}

static void complete(reading *r)
{
    tw_shop *shop = r->shop;
    if (!shop->machine.low_speed.given) shop->machine.low_speed.value = shop->machine.top_speed.value;
    for (int i = 0; i < shop->cutter_count; i++) {
        tw_cutter *cutter = &shop->cutters[i];
        drawn_as_sold(r, "cutters", cutter->name, cutter->diameter);
        check_measured(r, cutter->diameter, cutter->measured, cutter->name);
        cutter->d_mm = cutter->measured.given ? cutter->measured.value : cutter->diameter.value;
        if (!cutter->measured.given) cutter->measured.value = cutter->diameter.value;
        if (!cutter->shank.given) cutter->shank.value = cutter->diameter.value;
        check_dovetail(r, cutter);
    }
    for (int i = 0; i < shop->follower_count; i++) {
        tw_follower *follower = &shop->followers[i];
        drawn_as_sold(r, "followers", follower->name, follower->diameter);
        check_measured(r, follower->diameter, follower->measured, follower->name);
        follower->b_mm = follower->measured.given ? follower->measured.value : follower->diameter.value;
        if (!follower->measured.given) follower->measured.value = follower->diameter.value;
        if (!follower->length.given) follower->length.value = shop->strip_thickness.value;
    }
    check_machine(r);
}

const tw_shop *tw_shop_read(tw_arena *arena, tw_text text, const char *file, tw_findings *findings)
{
    return tw_shop_read_as_built(arena, text, file, NULL, findings);
}

const tw_shop *tw_shop_read_as_built(tw_arena *arena, tw_text text, const char *file, tw_measures *measures, tw_findings *findings)
{
    tw_shop *shop = TW_NEW(arena, tw_shop);
    reading r = { .reader = tw_reader_of(arena, file, findings), .shop = shop };
    r.reader.measures = measures;
    r.reader.file_kind = TW_FILE_SHOP;
    r.reader.sums.nameless = true;
    shop->file = r.reader.file;
    const tw_node *root = tw_reader_open(&r.reader, text, "a shop");
    if (root) read_root(&r, root);
    if (!tw_reader_close(&r.reader)) return NULL;
    complete(&r);
    return tw_reader_close(&r.reader) ? shop : NULL;
}
