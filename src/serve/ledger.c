// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/ledger.h"

#include <string.h>

#include "job/path.h"

#define SHOP_MARK  "shop:"
#define DRAWN_MARK "as drawn:"

const char *tw_ledger_key_text(tw_arena *arena, tw_ledger_key key)
{
    return tw_format(arena, "%s%s%s", key.drawn ? DRAWN_MARK : "", key.file == TW_FILE_SHOP ? SHOP_MARK : "", key.path);
}

/* The text behind the mark, or NULL. */
static const char *behind(const char *text, const char *mark)
{
    size_t length = strlen(mark);
    return strncmp(text, mark, length) == 0 ? text + length : NULL;
}

tw_ledger_key tw_ledger_key_of(const char *text)
{
    const char *drawn = behind(text, DRAWN_MARK);
    if (drawn) text = drawn;
    const char *shop = behind(text, SHOP_MARK);
    return (tw_ledger_key){ .file = shop ? TW_FILE_SHOP : TW_FILE_JOB, .path = shop ? shop : text, .drawn = drawn != NULL };
}

void tw_ledger_add(tw_arena *arena, tw_ledger *ledger, tw_ledger_key key, double value_mm)
{
    size_t at = 0;
    while (at < ledger->count && (ledger->items[at].key.file != key.file || strcmp(ledger->items[at].key.path,
        key.path) != 0)) at++;
    if (at == ledger->count) {
        tw_array_make_room(arena, &ledger->items, ledger->count, &ledger->room, sizeof *ledger->items);
        ledger->count++;
    }
    ledger->items[at] = (tw_ledger_line){ key, value_mm };
}

tw_ledger tw_ledger_read(tw_arena *arena, const tw_book_measures *lines)
{
    tw_ledger all = { 0 }, kept = { 0 };
    for (size_t i = 0; i < lines->count; i++) tw_ledger_add(arena, &all, tw_ledger_key_of(lines->items[i].key),
                                                            lines->items[i].value);
    for (size_t i = 0; i < all.count; i++)
        if (!all.items[i].key.drawn) tw_ledger_add(arena, &kept, all.items[i].key, all.items[i].value_mm);
    return kept;
}

const tw_measured *tw_ledger_measured(tw_arena *arena, const tw_ledger *ledger, size_t *count)
{
    tw_measured *list = TW_NEW_ARRAY(arena, tw_measured, ledger->count + 1);
    *count = 0;
    for (size_t i = 0; i < ledger->count; i++) {
        const tw_ledger_line *line = &ledger->items[i];
        size_t words;
        const char *const *path = line->key.drawn ? NULL : tw_path_split(arena, line->key.path, &words);
        if (path) list[(*count)++] = (tw_measured){ .file = line->key.file, .path = path, .path_count = words,
                                                    .value_mm = line->value_mm };
    }
    return list;
}

const char *tw_ledger_sign(tw_arena *arena, const tw_ledger *ledger)
{
    tw_gather gather = { .arena = arena };
    tw_sink sink = tw_gather_sink(&gather);
    for (size_t i = 0; i < ledger->count; i++) {
        if (ledger->items[i].key.drawn) continue;
        tw_putf(&sink, "%d", (int)ledger->items[i].key.file);
        tw_put_json_text(&sink, ledger->items[i].key.path);
        tw_put_json_number(&sink, ledger->items[i].value_mm);
    }
    return tw_gathered(&gather).bytes;
}
