// SPDX-License-Identifier: GPL-3.0-or-later
/* The arena: a list of chunks, the newest first. A request that does not fit opens a new chunk of at least
 * TW_CHUNK_BYTES; large requests get a chunk of their own size. */
#include "base/base.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#define TW_CHUNK_BYTES ((size_t)64 * 1024)

struct tw_arena_chunk {
    tw_arena_chunk *older;
    size_t          used, size;
    max_align_t     bytes[];
};

static void fail(const tw_arena *arena)
{
    if (arena->out_of_memory) arena->out_of_memory();
    abort();
}

static size_t rounded_up(size_t size) { return (size + sizeof(max_align_t) - 1) / sizeof(max_align_t) * sizeof(max_align_t); }

static tw_arena_chunk *chunk_with_room(tw_arena *arena, size_t size)
{
    tw_arena_chunk *newest = arena->newest;
    if (newest && newest->size - newest->used >= size) return newest;
    size_t chunk_size = size > TW_CHUNK_BYTES ? size : TW_CHUNK_BYTES;
    tw_arena_chunk *chunk = malloc(sizeof *chunk + chunk_size);
    if (!chunk) fail(arena);
    *chunk = (tw_arena_chunk){ .size = chunk_size };
    arena->bytes_held += sizeof *chunk + chunk_size;
    if (newest && size > TW_CHUNK_BYTES / 2) {  // a large one goes behind, so that the room of the newest is not lost
        chunk->older = newest->older;
        newest->older = chunk;
    } else {
        chunk->older = newest;
        arena->newest = chunk;
    }
    return chunk;
}

void *tw_arena_take(tw_arena *arena, size_t count, size_t size)
{
    if (size != 0 && count > (SIZE_MAX / 2) / size) fail(arena);
    size_t wanted = rounded_up(count * size);
    if (wanted == 0) wanted = sizeof(max_align_t);
    tw_arena_chunk *chunk = chunk_with_room(arena, wanted);
    char *bytes = (char *)chunk->bytes + chunk->used;
    chunk->used += wanted;
    arena->bytes_given += wanted;
    return memset(bytes, 0, wanted);
}

void tw_arena_finish(tw_arena *arena)
{
    for (tw_arena_chunk *chunk = arena->newest; chunk != NULL;) {
        tw_arena_chunk *older = chunk->older;
        free(chunk);
        chunk = older;
    }
    arena->newest = NULL;
    arena->bytes_given = arena->bytes_held = 0;
}

void tw_array_make_room(tw_arena *arena, void *items, size_t count, size_t *room, size_t item_size)
{
    assert(count <= *room);
    if (count < *room) return;
    size_t more = *room < 8 ? 8 : *room * 2;
    char *fresh = tw_arena_take(arena, more, item_size);
    void *old;
    memcpy(&old, items, sizeof old);  // the address of a T * is read as bytes: no cast between pointer types
    if (count > 0) memcpy(fresh, old, count * item_size);
    void *now = fresh;
    memcpy(items, &now, sizeof now);
    *room = more;
}
