// SPDX-License-Identifier: GPL-3.0-or-later
/* The desk: its table of routes, its opening and closing, and what the handlers share. */
#define _POSIX_C_SOURCE 200809L
#include "serve/api.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>


#define SMALL_BODY 65536u

static const tw_route routes[] = {
    { "GET", "/api/words", tw_api_words, 0 },
    { "GET", "/api/book", tw_api_book_list, 0 },
    { "POST", "/api/book/begin", tw_api_book_begin, SMALL_BODY },
    { "POST", "/api/book/import", tw_api_book_import, TW_DOOR_BODY_MOST },
    { "POST", "/api/book/copy", tw_api_book_copy, SMALL_BODY },
    { "POST", "/api/book/rename", tw_api_book_rename, SMALL_BODY },
    { "POST", "/api/book/bin", tw_api_book_bin, SMALL_BODY },
    { "POST", "/api/book/unbin", tw_api_book_unbin, SMALL_BODY },
    { "GET", "/api/entry", tw_api_entry, 0 },
    { "GET", "/api/text", tw_api_text, 0 },
    { "POST", "/api/save", tw_api_save, TW_DOOR_BODY_MOST },
    { "POST", "/api/branch", tw_api_branch, TW_DOOR_BODY_MOST },
    { "POST", "/api/reckon", tw_api_reckon, TW_DOOR_BODY_MOST },
    { "POST", "/api/solids", tw_api_solids, TW_DOOR_BODY_MOST },
    { "POST", "/api/propose", tw_api_propose, TW_DOOR_BODY_MOST },
    { "POST", "/api/removal", tw_api_removal, TW_DOOR_BODY_MOST },
    { "POST", "/api/measured", tw_api_measured, SMALL_BODY },
    { "POST", "/api/trial", tw_api_trial, TW_DOOR_BODY_MOST },
    { "POST", "/api/tick", tw_api_tick, SMALL_BODY },
    { "POST", "/api/booklet", tw_api_booklet, SMALL_BODY },
    { "GET", "/api/work", tw_api_work, 0 },
    { "POST", "/api/work/stop", tw_api_work_stop, SMALL_BODY },
    { "GET", "/api/papers", tw_api_papers, 0 },
    { "GET", "/papers", tw_api_paper, 0 },
};

const tw_route *tw_desk_routes(size_t *count)
{
    *count = sizeof routes / sizeof *routes;
    return routes;
}

/* ---- opening and closing ---- */

tw_book_result tw_desk_open(tw_arena *arena, const char *book_path, void (*out_of_memory)(void), tw_desk **desk)
{
    *desk = NULL;
    tw_book *book;
    tw_book_result result = tw_book_open(arena, book_path, &book);
    if (!tw_is_done(result)) return result;
    *desk = calloc(1, sizeof **desk);
    if (!*desk) {
        if (out_of_memory) out_of_memory();
        abort();
    }
    (*desk)->book = book;
    (*desk)->cache = tw_cache_new(out_of_memory);
    (*desk)->papers = tw_kept_papers_new(out_of_memory);
    return result;
}

void tw_desk_close(tw_desk *desk)
{
    if (!desk) return;
    tw_kept_papers_free(desk->papers);
    tw_cache_free(desk->cache);
    tw_book_close(desk->book);
    free(desk);
}

/* ---- replies ---- */

typedef struct json_answer { tw_json json; tw_sink sink; tw_gather gather; } json_answer;  // json first: it stands for the whole

tw_json *tw_answer_begin(tw_arena *arena)
{
    json_answer *begun = TW_NEW(arena, json_answer);
    begun->gather = (tw_gather){ .arena = arena };
    begun->sink = tw_gather_sink(&begun->gather);
    begun->json = (tw_json){ .sink = &begun->sink };
    tw_json_open(&begun->json, NULL, '{');
    return &begun->json;
}

tw_reply tw_answer_end(tw_json *json)
{
    json_answer *ended = (json_answer *)json;
    tw_json_close(json, '}');
    return tw_reply_json(&ended->gather);
}

tw_reply tw_reply_json(tw_gather *gathered) { return (tw_reply){ .status = 200, .body = tw_gathered(gathered) }; }

tw_reply tw_reply_done(tw_arena *arena)
{
    (void)arena;
    return (tw_reply){ .status = 200, .body = tw_text_of("{}") };
}

tw_reply tw_reply_id(tw_arena *arena, int64_t id)
{
    return (tw_reply){ .status = 200, .body = tw_text_of(tw_format(arena, "{\"id\": %.0f}", (double)id)) };
}

tw_reply tw_reply_not_there(tw_arena *arena, const char *what, const char *remedy)
{
    return tw_reply_error(arena, 404, "not-there", what, remedy);
}

tw_reply tw_reply_unreadable(tw_arena *arena)
{
    return tw_reply_error(arena, 400, "wrong", "the job or its shop cannot be read as they are",
                          "mend what the findings say, then ask again");
}

static const struct { int status; const char *word; } answers[] = {
    [TW_BOOK_DONE] = { 200, "done" }, [TW_BOOK_CONFLICT] = { 409, "conflict" }, [TW_BOOK_NOT_THERE] = { 404, "not-there" },
    [TW_BOOK_REFUSED] = { 400, "refused" }, [TW_BOOK_BUSY] = { 423, "busy" }, [TW_BOOK_FULL] = { 507, "full" },
    [TW_BOOK_READ_ONLY] = { 403, "read-only" }, [TW_BOOK_BROKEN] = { 500, "broken" }, [TW_BOOK_FAILED] = { 500, "failed" },
};

/* A sentence of the book says what is wrong; what would be right. */
tw_reply tw_reply_book(tw_arena *arena, tw_book_result result)
{
    const char *parted = strstr(result.why, "; ");
    const char *what = parted ? tw_text_copy(arena, (tw_text){ result.why, (size_t)(parted - result.why) }) : result.why;
    return tw_reply_error(arena, answers[result.answer].status, answers[result.answer].word, what, parted ? parted + 2 : "");
}

/* ---- what many bodies and queries say ---- */

const char *const tw_shelf_words[2] = { [TW_BOOK_JOBS] = "jobs", [TW_BOOK_SHOPS] = "shops" };

tw_book_shelf tw_form_shelf(tw_form *form) { return (tw_book_shelf)tw_form_choice(form, "shelf", tw_shelf_words, 2); }
int64_t tw_form_id(tw_form *form, const char *key) { return tw_form_whole(form, key, 1, INT64_MAX); }
int64_t tw_form_id_or_none(tw_form *form, const char *key) { return tw_form_whole_or(form, key, 0, INT64_MAX, 0); }
const char *tw_form_why(tw_form *form) { return tw_form_words_or(form, "why", ""); }

static tw_reply refused_query(const tw_door_ask *ask, const char *name, const char *remedy)
{
    return tw_reply_error(ask->arena, 400, "request", tw_format(ask->arena, "the address says no right \"%s\"", name), remedy);
}

bool tw_query_shelf(const tw_door_ask *ask, tw_book_shelf *shelf, tw_reply *refusal)
{
    const char *given = tw_door_query(ask, "shelf");
    for (int i = 0; i < 2 && given; i++) {
        if (strcmp(given, tw_shelf_words[i]) != 0) continue;
        *shelf = (tw_book_shelf)i;
        return true;
    }
    *refusal = refused_query(ask, "shelf", "give shelf=jobs or shelf=shops");
    return false;
}

bool tw_query_id(const tw_door_ask *ask, const char *name, int64_t *id, tw_reply *refusal)
{
    if (tw_door_query_whole(ask, name, 1, INT64_MAX, id)) return true;
    *refusal = refused_query(ask, name, "give the number that the book's list has");
    return false;
}

bool tw_query_number(const tw_door_ask *ask, int *number, tw_reply *refusal)
{
    int64_t given = 0;
    if (tw_door_query(ask, "number") && !tw_door_query_whole(ask, "number", 0, INT32_MAX, &given)) {
        *refusal = refused_query(ask, "number", "give the number of a revision, or leave it out for the newest");
        return false;
    }
    *number = (int)given;
    return true;
}

/* ---- the book ---- */

int64_t tw_now_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    return (int64_t)now.tv_sec;
}
