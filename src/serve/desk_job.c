// SPDX-License-Identifier: GPL-3.0-or-later
/* A job from a file put in the book, once. */
#include "serve/api.h"

#include <string.h>

#include "job/characters.h"

/* The page shows texts of characters only: bytes that are none would come back changed. */
static bool is_all_characters(tw_text text)
{
    for (size_t at = 0; at < text.length;) {
        tw_character character = tw_character_at(text, at);
        if (character.code == TW_BAD_BYTE || character.code == 0) return false;
        at += character.length;
    }
    return true;
}

/* A text in the book, as far as it is looked for. */
typedef struct had_text { int64_t id; int64_t shop; bool found; } had_text;

/* Looks through the revisions of an entry for the text, to the byte; a job's counts only with a shop (0: any) that it had. */
static tw_book_result look_in_entry(tw_book *book, tw_arena *arena, tw_book_shelf shelf, int64_t id, tw_text wanted, int64_t shop,
                                    had_text *had)
{
    tw_book_revisions revisions;
    tw_book_result result = tw_book_history(book, arena, shelf, id, &revisions);
    for (size_t i = 0; tw_is_done(result) && i < revisions.count && !had->found; i++) {
        const tw_book_revision *revision = &revisions.items[i];
        if (revision->bytes != wanted.length || (shop > 0 && revision->shop != shop)) continue;
        tw_text text;
        result = tw_book_read(book, arena, shelf, id, revision->number, &text, NULL);
        if (tw_is_done(result) && (text.length == 0 || memcmp(text.bytes, wanted.bytes, text.length) == 0)) *had = (had_text){ id,
            revision->shop, true };
    }
    return result;
}

static tw_book_result look_for(tw_book *book, tw_arena *arena, tw_book_shelf shelf, tw_text wanted, int64_t shop, had_text *had)
{
    tw_book_entries entries;
    *had = (had_text){ 0 };
    tw_book_result result = tw_book_list(book, arena, shelf, false, tw_text_of(""), &entries);
    for (size_t i = 0; tw_is_done(result) && i < entries.count && !had->found; i++)
        result = look_in_entry(book, arena, shelf, entries.items[i].id, wanted, shop, had);
    return result;
}

static tw_book_result put_text(tw_desk *desk, tw_arena *arena, tw_book_shelf shelf, tw_desk_text text, int64_t shop, int64_t *id)
{
    had_text had;
    tw_book_result result = look_for(desk->book, arena, shelf, text.text, shop, &had);
    *id = had.id;
    if (!tw_is_done(result) || had.found) return result;
    tw_book_change change = { .text = text.text, .shop = shop, .when_s = tw_now_s(), .why = "put in from a file" };
    return tw_book_add(desk->book, arena, shelf, tw_name_for(arena, shelf, text.name, text.text), change, id);
}

tw_book_result tw_desk_put_job(tw_desk *desk, tw_arena *arena, tw_desk_text job, const tw_desk_text *shop, int64_t *id)
{
    if (!is_all_characters(job.text) || (shop && !is_all_characters(shop->text)))
        return (tw_book_result){ TW_BOOK_REFUSED, "the file is no text in UTF-8; save it as UTF-8 text" };
    int64_t shop_id = 0;
    tw_book_result result = shop ? put_text(desk, arena, TW_BOOK_SHOPS, *shop, 0, &shop_id)
        : (tw_book_result){ TW_BOOK_DONE, "" };
    had_text had = { 0 };
    if (tw_is_done(result) && !shop) result = look_for(desk->book, arena, TW_BOOK_JOBS, job.text, 0, &had);
    *id = had.id;
    if (tw_is_done(result) && !shop && !had.found) result = tw_desk_some_shop(desk, arena, false, &shop_id);
    return tw_is_done(result) && !had.found ? put_text(desk, arena, TW_BOOK_JOBS, job, shop_id, id) : result;
}
