// SPDX-License-Identifier: GPL-3.0-or-later
/* Which texts a request speaks of: those that it brings, or those of the book; and what was measured on the job. */
#include "serve/api.h"

#include <string.h>

#include "serve/change_json.h"

#define FIGURES_MOST 100  // bytes

static void read_shop_text(tw_desk *desk, tw_form *form, tw_text *text, tw_reply *refusal, bool *good)
{
    if (tw_form_has(form, "shop_text")) {
        *text = tw_form_text_within(form, "shop_text", TW_BOOK_TEXT_MOST);
        return;
    }
    int64_t shop = tw_form_id_or_none(form, "shop");
    if (shop == 0 || tw_form_is_wrong(form)) {
        tw_form_fault(form, "no shop is given to reckon with", "give \"shop\" or \"shop_text\"");
        return;
    }
    tw_book_result result = tw_book_read(desk->book, form->arena, TW_BOOK_SHOPS, shop, 0, text, NULL);
    *good = tw_is_done(result);
    if (!*good) *refusal = tw_reply_book(form->arena, result);
}

static bool read_ledger(tw_desk *desk, tw_arena *arena, int64_t job, tw_ledger *ledger, tw_reply *refusal)
{
    *ledger = (tw_ledger){ 0 };
    tw_book_measures lines = { 0 };
    tw_book_result result = job > 0 ? tw_book_ledger(desk->book, arena, job, &lines) : (tw_book_result){ TW_BOOK_DONE, "" };
    if (!tw_is_done(result)) {
        *refusal = tw_reply_book(arena, result);
        return false;
    }
    *ledger = tw_ledger_read(arena, &lines);
    return true;
}

bool tw_form_texts(tw_desk *desk, tw_form *form, tw_reckon_texts *texts, tw_reply *refusal)
{
    bool good = true;
    tw_ledger *ledger = TW_NEW(form->arena, tw_ledger);
    *texts = (tw_reckon_texts){ .job = tw_form_text_within(form, "text", TW_BOOK_TEXT_MOST), .shop = tw_text_of(""),
                                .ledger = ledger };
    read_shop_text(desk, form, &texts->shop, refusal, &good);
    int64_t job = tw_form_id_or_none(form, "job");
    const char *figures = tw_form_words_or(form, "figures", "");
    if (strlen(figures) > FIGURES_MOST)
        tw_form_fault(form, "\"figures\" is too long", "give \"mm 0.1\", \"in 0.001\" or \"in 1/64\"");
    if (*figures) texts->figures = figures;
    if (tw_form_is_wrong(form)) {
        *refusal = tw_form_refusal(form);
        return false;
    }
    return good && read_ledger(desk, form->arena, job, ledger, refusal);
}

/* ---- changes tried on them ---- */

/* The changes of one file in their order. */
static tw_change *changes_in(tw_arena *arena, const tw_file_change *all, size_t count, tw_file_kind file, size_t *found)
{
    tw_change *changes = TW_NEW_ARRAY(arena, tw_change, count + 1);
    *found = 0;
    for (size_t i = 0; i < count; i++)
        if (all[i].file == file) changes[(*found)++] = all[i].change;
    return changes;
}

static void change_one(tw_changing *c, tw_file_kind file, const tw_file_change *all, size_t count, tw_text *text)
{
    size_t found;
    tw_change *changes = changes_in(c->arena, all, count, file, &found);
    if (found == 0 || !c->good) return;
    tw_change_request request = { .file = file, .text = text->bytes, .bytes = text->length, .name = tw_file_words[file],
                                  .changes = changes, .change_count = found, .out_of_memory = c->arena->out_of_memory };
    tw_changed *changed = tw_change_text(&request);
    c->good = tw_changed_is_good(changed);
    if (!c->good) {
        c->refused = changed;
        return;
    }
    size_t bytes;
    const char *with = tw_changed_text(changed, &bytes);
    c->changed[file] = bytes != text->length || memcmp(with, text->bytes, bytes) != 0;
    *text = (tw_text){ tw_text_copy(c->arena, (tw_text){ with, bytes }), bytes };
    tw_changed_free(changed);
}

tw_changing tw_form_change(tw_form *form, tw_reckon_texts *texts)
{
    tw_changing c = { .arena = form->arena, .good = true };
    size_t count;
    const tw_file_change *all = tw_form_changes(form, &count);
    if (tw_form_is_wrong(form)) return c;
    tw_text job = texts->job, shop = texts->shop;
    change_one(&c, TW_FILE_JOB, all, count, &job);
    change_one(&c, TW_FILE_SHOP, all, count, &shop);
    if (!c.good) c.changed[TW_FILE_JOB] = c.changed[TW_FILE_SHOP] = false;
    else *texts = (tw_reckon_texts){ job, shop, texts->figures, texts->ledger };
    return c;
}

bool tw_form_texts_changed(tw_desk *desk, tw_form *form, tw_reckon_texts *texts, tw_reply *refusal)
{
    if (!tw_form_texts(desk, form, texts, refusal)) return false;
    tw_changing changing = tw_form_change(form, texts);
    if (tw_form_is_wrong(form)) *refusal = tw_form_refusal(form);
    else if (!changing.good) {
        tw_result_finding why = tw_changed_finding_at(changing.refused, 0);
        *refusal = tw_reply_error(form->arena, 400, "refused", tw_text_copy(form->arena, tw_text_of(why.what)),
                                  tw_text_copy(form->arena, tw_text_of(why.remedy)));
    }
    tw_changed_free(changing.refused);
    return changing.good && !tw_form_is_wrong(form);
}
