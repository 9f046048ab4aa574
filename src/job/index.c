// SPDX-License-Identifier: GPL-3.0-or-later
/* Open addressing, at most half full; the hash is FNV-1a of 64 bits (public domain; offset and prime as published). */
#include "job/index.h"

#include <string.h>

#define COMPARED_MOST 100000  // names compared for nearest ones in one reading: half a second for the longest

static uint64_t hash_of(const char *bytes, size_t length)
{
    uint64_t hash = UINT64_C(0xCBF29CE484222325);
    for (size_t i = 0; i < length; i++) hash = (hash ^ (unsigned char)bytes[i]) * UINT64_C(0x100000001B3);
    return hash;
}

/* The slot that holds the name, or the free one where it belongs. */
static size_t slot_of(const tw_index *index, tw_text name)
{
    size_t slot = (size_t)hash_of(name.bytes, name.length) & (index->room - 1);
    while (index->slots[slot] && !tw_text_is(name, index->names[index->slots[slot] - 1])) slot = (slot + 1) & (index->room - 1);
    return slot;
}

static void grow(tw_index *index)
{
    index->room = index->room ? index->room * 2 : 16;
    index->slots = TW_NEW_ARRAY(index->arena, int, index->room);
    for (int i = 0; i < index->count; i++) {
        size_t slot = slot_of(index, tw_text_of(index->names[i]));
        if (!index->slots[slot]) index->slots[slot] = i + 1;
    }
}

int tw_index_add(tw_index *index, const char *name)
{
    if ((size_t)index->count * 2 >= index->room) grow(index);
    tw_array_make_room(index->arena, &index->names, (size_t)index->count, &index->names_room, sizeof *index->names);
    size_t slot = slot_of(index, tw_text_of(name));
    index->names[index->count++] = name;
    if (!index->slots[slot]) index->slots[slot] = index->count;
    return index->count - 1;
}

int tw_index_find(const tw_index *index, tw_text name)
{
    if (index->room == 0) return -1;
    return index->slots[slot_of(index, name)] - 1;
}

const char *tw_index_nearest(tw_index *index, tw_text name)
{
    index->compared += (size_t)index->count;
    if (index->compared > COMPARED_MOST) return NULL;
    return tw_nearest_word(tw_text_copy(index->arena, name), index->names, (size_t)index->count);
}
