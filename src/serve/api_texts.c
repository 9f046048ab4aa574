// SPDX-License-Identifier: GPL-3.0-or-later
/* Which texts a request speaks of: those that it brings, or those of the book; and what was measured on the job. */
#include "serve/api.h"

#include <string.h>

#define FIGURES_MOST 100  // bytes

static void read_shop_text(tw_desk *desk, tw_form *form, tw_text *text, tw_reply *refusal, bool *good)
{
    if (tw_form_has(form, "shop_text")) {
        *text = tw_form_text(form, "shop_text");
        return;
    }
    int64_t shop = tw_form_id_or_none(form, "shop");
    if (shop == 0 || tw_form_is_wrong(form)) {
        tw_form_fault(form, "no shop is given to reckon with", "give \"shop\" or \"shop_text\"");
        return;
    }
    tw_book_result result = tw_book_read(desk->book, form->arena, TW_BOOK_SHOPS, shop, 0, text, NULL);
    *good = result.answer == TW_BOOK_DONE;
    if (!*good) *refusal = tw_reply_book(form->arena, result);
}

static bool read_ledger(tw_desk *desk, tw_arena *arena, int64_t job, tw_ledger *ledger, tw_reply *refusal)
{
    *ledger = (tw_ledger){ 0 };
    tw_book_measures lines = { 0 };
    tw_book_result result = job > 0 ? tw_book_ledger(desk->book, arena, job, &lines) : (tw_book_result){ TW_BOOK_DONE, "" };
    if (result.answer != TW_BOOK_DONE) {
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
    *texts = (tw_reckon_texts){ .job = tw_form_text(form, "text"), .shop = tw_text_of(""), .ledger = ledger };
    read_shop_text(desk, form, &texts->shop, refusal, &good);
    int64_t job = tw_form_id_or_none(form, "job");
    const char *figures = tw_form_words_or(form, "figures", "");
    if (strlen(figures) > FIGURES_MOST) tw_form_fault(form, "\"figures\" is too long", "give \"mm 0.1\", \"in 0.001\" or \"in 1/64\"");
    if (*figures) texts->figures = figures;
    if (tw_form_is_wrong(form)) {
        *refusal = tw_form_refusal(form);
        return false;
    }
    return good && read_ledger(desk, form->arena, job, ledger, refusal);
}
