// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/body_shelf.h"

#include <stdlib.h>
#include <string.h>

typedef struct kept_body {
    tw_arena        arena;   // of all below
    uint64_t        used;    // the later, the larger; 0: an empty place
    uint64_t        hash;
    tw_body_key     key;
    const tw_solid *solid;
} kept_body;

struct tw_body_shelf {
    void (*out_of_memory)(void);
    uint64_t  uses;
    kept_body items[TW_BODY_SHELF_MOST];
};

tw_body_shelf *tw_body_shelf_new(void (*out_of_memory)(void))
{
    tw_body_shelf *shelf = calloc(1, sizeof *shelf);
    if (!shelf) {
        if (out_of_memory) out_of_memory();
        abort();
    }
    shelf->out_of_memory = out_of_memory;
    return shelf;
}

static void drop(kept_body *body)
{
    tw_arena_finish(&body->arena);
    *body = (kept_body){ 0 };
}

void tw_body_shelf_free(tw_body_shelf *shelf)
{
    if (!shelf) return;
    for (int i = 0; i < TW_BODY_SHELF_MOST; i++) drop(&shelf->items[i]);
    free(shelf);
}

/* ---- keys ---- */

/* The numbers of a cut that its solid depends on; not what it is called. */
enum { CUT_NUMBERS = 6 };
static void numbers_of(const tw_cut *cut, double numbers[CUT_NUMBERS])
{
    const double all[CUT_NUMBERS] = { cut->face, cut->depth_mm, cut->start_mm, cut->through, cut->lean_right, cut->lean_up };
    memcpy(numbers, all, sizeof all);
}

/* FNV-1a, 64 bits (constants from memory). Only for speed: what is found is compared number by number. */
static uint64_t hash_bytes(uint64_t hash, const void *bytes, size_t count)
{
    const unsigned char *byte = bytes;
    for (size_t i = 0; i < count; i++) hash = (hash ^ byte[i]) * 0x100000001b3u;
    return hash;
}

static uint64_t hash_of(const tw_body_key *key)
{
    const double head[] = { key->size.length_mm, key->size.width_mm, key->size.thickness_mm, key->cut_count, key->chord_mm,
                            key->to_look_at };
    uint64_t hash = hash_bytes(0xcbf29ce484222325u, head, sizeof head);
    for (int i = 0; i < key->cut_count; i++) {
        double numbers[CUT_NUMBERS];
        numbers_of(&key->cuts[i], numbers);
        hash = hash_bytes(hash, numbers, sizeof numbers);
        for (int k = 0; k < key->cuts[i].outline.count; k++) {
            tw_loop loop = key->cuts[i].outline.loops[k];
            hash = hash_bytes(hash, loop.vertices, (size_t)loop.count * sizeof *loop.vertices);
        }
    }
    return hash;
}

static bool same_bytes(const void *a, const void *b, size_t count) { return count == 0 || memcmp(a, b, count) == 0; }

static bool same_cut(const tw_cut *a, const tw_cut *b)
{
    double numbers[2][CUT_NUMBERS];
    numbers_of(a, numbers[0]);
    numbers_of(b, numbers[1]);
    if (!same_bytes(numbers[0], numbers[1], sizeof numbers[0]) || a->outline.count != b->outline.count) return false;
    for (int k = 0; k < a->outline.count; k++) {
        tw_loop one = a->outline.loops[k], other = b->outline.loops[k];
        if (one.count != other.count || !same_bytes(one.vertices, other.vertices,
                                                    (size_t)one.count * sizeof *one.vertices)) return false;
    }
    return true;
}

bool tw_same_body(const tw_body_key *a, const tw_body_key *b)
{
    if (!same_bytes(&a->size, &b->size, sizeof a->size) || a->cut_count != b->cut_count || a->chord_mm != b->chord_mm
        || a->to_look_at != b->to_look_at)
        return false;
    for (int i = 0; i < a->cut_count; i++)
        if (!same_cut(&a->cuts[i], &b->cuts[i])) return false;
    return true;
}

/* ---- copies ---- */

#define COPY(arena, items, count) copied((arena), (items), (size_t)(count), sizeof *(items))

static void *copied(tw_arena *arena, const void *items, size_t count, size_t size)
{
    void *copy = tw_arena_take(arena, count + 1, size);
    if (count > 0) memcpy(copy, items, count * size);
    return copy;
}

static tw_solid *copy_solid(tw_arena *arena, const tw_solid *solid)
{
    tw_solid *copy = TW_NEW(arena, tw_solid);
    *copy = *solid;
    copy->points = COPY(arena, solid->points, solid->point_count);
    copy->facets = COPY(arena, solid->facets, solid->facet_count);
    for (int i = 0; i < solid->facet_count; i++) {
        tw_facet *facet = &copy->facets[i];
        facet->wires = COPY(arena, facet->wires, facet->wire_count);
        for (int k = 0; k < facet->wire_count; k++) facet->wires[k].points = COPY(arena, facet->wires[k].points,
            facet->wires[k].count);
    }
    copy->creases = COPY(arena, solid->creases, solid->crease_count);
    copy->triangles = COPY(arena, solid->triangles, solid->triangle_count);
    copy->facet_of = COPY(arena, solid->facet_of, solid->triangle_count);
    return copy;
}

static tw_body_key copy_key(tw_arena *arena, tw_body_key key)
{
    tw_cut *cuts = COPY(arena, key.cuts, key.cut_count);
    for (int i = 0; i < key.cut_count; i++) {
        tw_outline *outline = &cuts[i].outline;
        outline->loops = COPY(arena, outline->loops, outline->count);
        for (int k = 0; k < outline->count; k++) outline->loops[k].vertices = COPY(arena, outline->loops[k].vertices,
            outline->loops[k].count);
    }
    key.cuts = cuts;
    return key;
}

/* ---- taking and putting ---- */

const tw_solid *tw_body_shelf_take(tw_body_shelf *shelf, tw_arena *arena, tw_body_key key)
{
    uint64_t hash = hash_of(&key);
    for (int i = 0; i < TW_BODY_SHELF_MOST; i++) {
        kept_body *body = &shelf->items[i];
        if (body->used == 0 || body->hash != hash || !tw_same_body(&body->key, &key)) continue;
        body->used = ++shelf->uses;
        return copy_solid(arena, body->solid);
    }
    return NULL;
}

static kept_body *oldest_of(tw_body_shelf *shelf)
{
    kept_body *oldest = NULL;
    for (int i = 0; i < TW_BODY_SHELF_MOST; i++) {
        kept_body *body = &shelf->items[i];
        if (body->used > 0 && (!oldest || body->used < oldest->used)) oldest = body;
    }
    return oldest;
}

static kept_body *place_for_one(tw_body_shelf *shelf)
{
    size_t bytes = 0;
    for (int i = 0; i < TW_BODY_SHELF_MOST; i++) bytes += shelf->items[i].arena.bytes_held;
    for (kept_body *oldest; bytes > TW_BODY_SHELF_BYTES_MOST
         && (oldest = oldest_of(shelf)); drop(oldest)) bytes -= oldest->arena.bytes_held;
    for (int i = 0; i < TW_BODY_SHELF_MOST; i++)
        if (shelf->items[i].used == 0) return &shelf->items[i];
    kept_body *oldest = oldest_of(shelf);
    drop(oldest);
    return oldest;
}

void tw_body_shelf_put(tw_body_shelf *shelf, tw_body_key key, const tw_solid *solid)
{
    kept_body *body = place_for_one(shelf);
    body->arena.out_of_memory = shelf->out_of_memory;
    body->hash = hash_of(&key);
    body->key = copy_key(&body->arena, key);
    body->solid = copy_solid(&body->arena, solid);
    body->used = ++shelf->uses;
}
