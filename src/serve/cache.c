// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/cache.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/bodies.h"
#include "sheet/body_shelf.h"
#include "sheet/drawing.h"
#include "sheet/writers.h"

#define DRAWINGS_MOST 200  // kept of one job; then all are forgotten
#define BODIES_CHORD_MM 0.1  // of curves in drawings, as on the papers

typedef struct kept_drawing {
    const char     *what, *name;
    int             number;
    double          width_mm;
    tw_made_drawing made;
} kept_drawing;

struct tw_reckoned {
    uint64_t        used;       // the later, the larger; 0: an empty place
    tw_arena        arena;      // for all but the result
    tw_text         job, shop;  // what was asked, held to the byte
    const char     *figures, *ledger;
    tw_result      *result;
    tw_body_shelf  *shelf;      // the cache's
    bool            proved;     // its fixes are
    bool            has_input;
    tw_paper_input  input;      // with woods and kin
    tw_values      *values;
    tw_arena        drawn;      // for the drawings
    kept_drawing   *drawings;   // [drawing_count], in `drawn`
    size_t          drawing_count, drawing_room;
};

struct tw_cache {
    void (*out_of_memory)(void);
    uint64_t       uses;
    tw_body_shelf *shelf;
    tw_reckoned    items[TW_CACHE_MOST];
};

/* ---- the cache ---- */

tw_cache *tw_cache_new(void (*out_of_memory)(void))
{
    tw_cache *cache = calloc(1, sizeof *cache);
    if (!cache) {
        if (out_of_memory) out_of_memory();
        abort();
    }
    cache->out_of_memory = out_of_memory;
    cache->shelf = tw_body_shelf_new(out_of_memory);
    return cache;
}

static void drop(tw_reckoned *item)
{
    tw_result_free(item->result);
    tw_arena_finish(&item->arena);
    tw_arena_finish(&item->drawn);
    *item = (tw_reckoned){ 0 };
}

void tw_cache_free(tw_cache *cache)
{
    if (!cache) return;
    for (int i = 0; i < TW_CACHE_MOST; i++) drop(&cache->items[i]);
    tw_body_shelf_free(cache->shelf);
    free(cache);
}

static bool same(tw_text a, tw_text b) { return a.length == b.length && (a.length == 0
                                                                         || memcmp(a.bytes, b.bytes, a.length) == 0); }

static tw_reckoned *found(tw_cache *cache, const tw_reckon_texts *texts, const char *figures, const char *ledger)
{
    for (int i = 0; i < TW_CACHE_MOST; i++) {
        tw_reckoned *item = &cache->items[i];
        if (item->used > 0 && same(item->job, texts->job) && same(item->shop, texts->shop) && strcmp(item->figures, figures) == 0
            && strcmp(item->ledger, ledger) == 0)
            return item;
    }
    return NULL;
}

/* An empty place, else that of the one used longest ago. */
static tw_reckoned *place_for_one(tw_cache *cache)
{
    tw_reckoned *oldest = &cache->items[0];
    for (int i = 1; i < TW_CACHE_MOST; i++)
        if (cache->items[i].used < oldest->used) oldest = &cache->items[i];
    drop(oldest);
    return oldest;
}

static size_t bytes_of(const tw_reckoned *item)
{
    return item->used > 0 ? item->arena.bytes_held + item->drawn.bytes_held + tw_result_bytes(item->result) : 0;
}

/* Drops the oldest until all hold no more than they may; the two used last stay. */
static void keep_within(tw_cache *cache)
{
    for (;;) {
        size_t all = 0;
        tw_reckoned *oldest = NULL;
        for (int i = 0; i < TW_CACHE_MOST; i++) {
            tw_reckoned *item = &cache->items[i];
            all += bytes_of(item);
            if (item->used > 0 && item->used + 2 <= cache->uses && (!oldest || item->used < oldest->used)) oldest = item;
        }
        if (all <= TW_CACHE_BYTES_MOST || !oldest) return;
        drop(oldest);
    }
}

static tw_text kept(tw_arena *arena, tw_text text) { return (tw_text){ tw_text_copy(arena, text), text.length }; }

tw_request tw_reckon_request(tw_arena *arena, const tw_reckon_texts *texts)
{
    tw_request request = { .job = texts->job.bytes, .job_bytes = texts->job.length, .job_name = "job", .shop = texts->shop.bytes,
                           .shop_bytes = texts->shop.length, .shop_name = "shop", .figures = texts->figures,
                               .out_of_memory = arena->out_of_memory };
    if (texts->ledger) request.measured = tw_ledger_measured(arena, texts->ledger, &request.measured_count);
    return request;
}

static void set_out(tw_reckoned *item, const tw_reckon_texts *texts)
{
    tw_reckon_texts own = { item->job, item->shop, *item->figures ? item->figures : NULL, texts->ledger };
    tw_request request = tw_reckon_request(&item->arena, &own);
    item->result = tw_set_out(&request);
}

tw_reckoned *tw_cache_reckon(tw_cache *cache, const tw_reckon_texts *texts)
{
    tw_arena scratch = { .out_of_memory = cache->out_of_memory };
    const char *figures = texts->figures ? texts->figures : "";
    const char *ledger = texts->ledger ? tw_ledger_sign(&scratch, texts->ledger) : "";
    tw_reckoned *item = found(cache, texts, figures, ledger);
    if (!item) {
        item = place_for_one(cache);
        item->arena.out_of_memory = item->drawn.out_of_memory = cache->out_of_memory;
        item->job = kept(&item->arena, texts->job);
        item->shop = kept(&item->arena, texts->shop);
        item->figures = tw_text_copy(&item->arena, tw_text_of(figures));
        item->ledger = tw_text_copy(&item->arena, tw_text_of(ledger));
        item->shelf = cache->shelf;
        set_out(item, texts);
    }
    item->used = ++cache->uses;
    keep_within(cache);
    tw_arena_finish(&scratch);
    return item;
}

/* ---- what is made of a result ---- */

const tw_result *tw_reckoned_result(const tw_reckoned *reckoned) { return reckoned->result; }

void tw_reckoned_prove_fixes(tw_reckoned *item, const tw_reckon_texts *texts)
{
    if (item->proved) return;
    tw_arena scratch = { .out_of_memory = item->arena.out_of_memory };
    tw_request request = tw_reckon_request(&scratch, texts);
    tw_result_prove_fixes(item->result, &request);
    tw_arena_finish(&scratch);
    item->proved = true;
}

bool tw_reckoned_can_be_shown(const tw_reckoned *reckoned) { return tw_result_state(reckoned->result) != TW_STATE_WRONG; }

const tw_paper_input *tw_reckoned_input(tw_reckoned *item)
{
    if (item->has_input) return &item->input;
    tw_paper_input *input = &item->input;
    *input = tw_result_input(item->result);
    assert(input->job);
    input->woods = tw_piece_woods_make(&item->arena, input->job, input->plans, input->plan_count);
    input->kin = tw_kin_make(&item->arena, input->job, tw_piece_cuts_gather(&item->arena, input->job, input->plans,
        input->plan_count));
    input->bodies = tw_bodies_from_shelf(&item->arena, input->job, input->plans, input->plan_count, BODIES_CHORD_MM, item->shelf);
    item->has_input = true;
    return input;
}

const tw_values *tw_reckoned_values(tw_reckoned *item)
{
    if (item->values) return item->values;
    item->values = TW_NEW(&item->arena, tw_values);
    *item->values = tw_figure_list(&item->arena, tw_reckoned_input(item));
    return item->values;
}

/* FNV-1a over the bytes, 64 bits, from two starts (constants from memory): a hundred years of dragging would not
 * meet two alike. */
static const char *hash_of(tw_arena *arena, tw_text text)
{
    uint64_t first = 0xcbf29ce484222325u, second = 0x84222325cbf29ce4u;
    for (size_t i = 0; i < text.length; i++) {
        first = (first ^ (unsigned char)text.bytes[i]) * 0x100000001b3u;
        second = (second ^ (unsigned char)~text.bytes[i]) * 0x100000001b3u;
    }
    static const char digits[] = "0123456789abcdef";
    char *hash = tw_arena_take(arena, 33, 1);
    for (int i = 0; i < 16; i++) {
        hash[i] = digits[first >> (60 - 4 * i) & 15];
        hash[16 + i] = digits[second >> (60 - 4 * i) & 15];
    }
    return hash;
}

static tw_made_drawing draw(tw_reckoned *item, tw_drawing_ask ask)
{
    tw_arena drawing = { .out_of_memory = item->arena.out_of_memory };
    const tw_sheet *sheet = tw_drawing_make(&drawing, tw_reckoned_input(item), ask);
    tw_made_drawing made = { "", { "", 0 } };
    if (sheet) {
        tw_gather gather = { .arena = &drawing };
        tw_sink sink = tw_gather_sink(&gather);
        tw_svg_put_screen(sheet, &sink);
        made.svg = kept(&item->drawn, tw_gathered(&gather));
        made.hash = hash_of(&item->drawn, made.svg);
    }
    tw_arena_finish(&drawing);
    return made;
}

tw_made_drawing tw_reckoned_drawing(tw_reckoned *item, const char *what, const char *name, int number, double width_mm)
{
    for (size_t i = 0; i < item->drawing_count; i++) {
        const kept_drawing *kept_one = &item->drawings[i];
        if (kept_one->number == number && kept_one->width_mm == width_mm && strcmp(kept_one->what, what) == 0
            && strcmp(kept_one->name, name) == 0)
            return kept_one->made;
    }
    if (item->drawing_count == DRAWINGS_MOST) {
        tw_arena_finish(&item->drawn);
        item->drawing_count = item->drawing_room = 0;
        item->drawings = NULL;
    }
    tw_made_drawing made = draw(item, (tw_drawing_ask){ .what = what, .name = name, .number = number, .width_mm = width_mm });
    tw_array_make_room(&item->drawn, &item->drawings, item->drawing_count, &item->drawing_room, sizeof *item->drawings);
    item->drawings[item->drawing_count++] = (kept_drawing){ tw_text_copy(&item->drawn, tw_text_of(what)),
                                                            tw_text_copy(&item->drawn, tw_text_of(name)),
                                                            number, width_mm, made };
    return made;
}
