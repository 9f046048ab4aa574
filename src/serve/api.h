// SPDX-License-Identifier: GPL-3.0-or-later
/* api: what the handlers of the desk share. Each file api_*.c holds a group of handlers and nothing else; desk.c has the
 * table. */
#ifndef TW_API_H
#define TW_API_H

#include "serve/ask_json.h"
#include "serve/cache.h"
#include "serve/desk.h"
#include "serve/kept_papers.h"
#include "sheet/json.h"

struct tw_desk {
    tw_book        *book;
    tw_cache       *cache;
    tw_kept_papers *papers;
};

/* ---- replies ---- */

/// An object to be filled, and the reply 200 with it. It lives in the arena.
tw_json *tw_answer_begin(tw_arena *arena);
tw_reply tw_answer_end(tw_json *answer);
/// 200 with the JSON that was gathered.
tw_reply tw_reply_json(tw_gather *gathered);
/// 200 {}: done, and there is nothing to tell.
tw_reply tw_reply_done(tw_arena *arena);
/// 200 {"id": id}
tw_reply tw_reply_id(tw_arena *arena, int64_t id);
/// 404 "not-there".
tw_reply tw_reply_not_there(tw_arena *arena, const char *what, const char *remedy);
/// 400 "wrong": the texts cannot be read as a job and a shop.
tw_reply tw_reply_unreadable(tw_arena *arena);
/// What a book's failure means: 404, 409 "conflict", 423 "busy", 507 "full", 403 "read-only", 400 "refused", 500 "broken" or
/// "failed". result.answer is not TW_BOOK_DONE.
tw_reply tw_reply_book(tw_arena *arena, tw_book_result result);

/* ---- what many bodies say ---- */

extern const char *const tw_shelf_words[2];  // "jobs", "shops", as tw_book_shelf counts

tw_book_shelf tw_form_shelf(tw_form *form);
int64_t       tw_form_id(tw_form *form, const char *key);
/// 0 when it is missing or null; 0 may be sent too.
int64_t       tw_form_id_or_none(tw_form *form, const char *key);
/// "" when it is missing.
const char   *tw_form_why(tw_form *form);
/// Of a query. False when it is missing or wrong, with *refusal set.
bool          tw_query_shelf(const tw_door_ask *ask, tw_book_shelf *shelf, tw_reply *refusal);
bool          tw_query_id(const tw_door_ask *ask, const char *name, int64_t *id, tw_reply *refusal);
/// 0 when it is missing.
bool          tw_query_number(const tw_door_ask *ask, int *number, tw_reply *refusal);

/* ---- texts to reckon with ---- */

/// {"text", "shop": id or "shop_text", "job"?: id, "figures"?}: the texts, and what was measured on the job. They live in the
/// form's arena. False with *refusal set.
bool tw_form_texts(tw_desk *desk, tw_form *form, tw_reckon_texts *texts, tw_reply *refusal);

typedef struct tw_changing {
    tw_arena   *arena;
    bool        good;
    bool        changed[2];  // by tw_file_kind: the text is another now
    tw_changed *refused;     // says why when not good; to be freed
} tw_changing;
/// Makes the changes that the form has ("changes"), all or none over both texts.
tw_changing tw_form_change(tw_form *form, tw_reckon_texts *texts);
/// Both; changes that cannot be made are a refusal.
bool tw_form_texts_changed(tw_desk *desk, tw_form *form, tw_reckon_texts *texts, tw_reply *refusal);

/// "model": {..} (with what the cards say, or without), "moved": [..] (the figures that differ). Both results can be shown.
void tw_put_model(tw_json *json, tw_reckoned *reckoned, bool cards);
void tw_put_moved(tw_json *json, tw_arena *arena, tw_reckoned *before, tw_reckoned *after);

/* ---- the book ---- */

static inline bool tw_is_done(tw_book_result result) { return result.answer == TW_BOOK_DONE; }
int64_t tw_now_s(void);
/// "ticks": [..], "ledger": [..]. Lengths of the ledger are written as the job's text wants them.
void tw_put_ticks(tw_json *json, const tw_book_ticks *ticks);
/// One length of a request, as a maker writes it: bare numbers are in the unit of the text. False, with the form's fault set,
/// when it is none.
bool tw_form_length(tw_form *form, const char *what, const char *written, tw_text in, double *length_mm);
void tw_put_ledger(tw_json *json, tw_arena *arena, const tw_book_measures *ledger, tw_text job);
/// The title that a job's text has, the name of a shop's; NULL when there is none or it cannot be read.
const char *tw_text_title(tw_arena *arena, tw_book_shelf shelf, tw_text text);
/// The name for a new entry: the one asked for, else the text's title, else one that says that it has none.
const char *tw_name_for(tw_arena *arena, tw_book_shelf shelf, const char *asked, tw_text text);
/// A shop to reckon with: the one changed last that is not in the bin; when there is none, a starting shop is put in the book.
tw_book_result tw_desk_some_shop(tw_desk *desk, tw_arena *arena, bool inches, int64_t *shop);

/* ---- handlers ---- */

tw_handler tw_api_book_list, tw_api_book_begin, tw_api_book_import, tw_api_book_copy, tw_api_book_rename, tw_api_book_bin,
    tw_api_book_unbin,
    tw_api_entry, tw_api_text, tw_api_save, tw_api_branch, tw_api_reckon, tw_api_tick,
    tw_api_booklet, tw_api_work, tw_api_work_stop, tw_api_papers, tw_api_paper, tw_api_words, tw_api_solids,
    tw_api_measured, tw_api_trial, tw_api_propose, tw_api_removal;

#endif
