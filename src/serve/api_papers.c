// SPDX-License-Identifier: GPL-3.0-or-later
/* Papers: made on the worker, listed, shown and downloaded. The job's and the shop's text are always among them. */
#include "serve/api.h"

#include <string.h>

/* ---- whose papers ---- */

/* The newest revision is reckoned with its shop as it is now, an older one with the shop as it was then. */
static tw_book_result read_texts(tw_book *book, tw_arena *arena, int64_t job, int number, tw_papers_ask *texts)
{
    tw_book_entry entry = { 0 };
    tw_book_revision revision = { 0 };
    *texts = (tw_papers_ask){ .shop = tw_text_of("") };
    tw_book_result result = tw_book_look(book, arena, TW_BOOK_JOBS, job, &entry);
    if (tw_is_done(result)) result = tw_book_read(book, arena, TW_BOOK_JOBS, job, number, &texts->job, &revision);
    int shop_number = revision.number == entry.newest ? 0 : revision.shop_number;
    if (tw_is_done(result) && revision.shop > 0)
        result = tw_book_read(book, arena, TW_BOOK_SHOPS, revision.shop, shop_number, &texts->shop, NULL);
    return result;
}

static bool read_ask(tw_desk *desk, tw_arena *arena, int64_t job, int number, tw_papers_ask *texts, tw_reply *refusal)
{
    tw_book_measures lines = { 0 };
    tw_book_result result = read_texts(desk->book, arena, job, number, texts);
    if (tw_is_done(result)) result = tw_book_ledger(desk->book, arena, job, &lines);
    if (!tw_is_done(result)) {
        *refusal = tw_reply_book(arena, result);
        return false;
    }
    tw_ledger *ledger = TW_NEW(arena, tw_ledger);
    *ledger = tw_ledger_read(arena, &lines);
    texts->ledger = ledger;
    return true;
}

static bool read_query(tw_desk *desk, const tw_door_ask *ask, tw_papers_ask *texts, tw_reply *refusal)
{
    int64_t job;
    int number;
    return tw_query_id(ask, "job", &job, refusal) && tw_query_number(ask, &number, refusal)
        && read_ask(desk, ask->arena, job, number, texts, refusal);
}

/* ---- making them ---- */

/* POST /api/booklet {"job", "number"?} -> {"work"} */
tw_reply tw_api_booklet(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    int64_t job = tw_form_id(&form, "job");
    int number = (int)tw_form_whole_or(&form, "number", 0, INT32_MAX, 0);
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    tw_papers_ask texts;
    tw_reply refusal;
    if (!read_ask(desk, ask->arena, job, number, &texts, &refusal)) return refusal;
    int64_t work = tw_kept_papers_begin(desk->papers, &texts);
    if (work == 0)
        return tw_reply_error(ask->arena, 409, "working", "the papers of another job are being made",
                              "wait until they are done, or stop them");
    if (work < 0)
        return tw_reply_error(ask->arena, 500, "failed", "the system lets no more work begin",
                              "close other programs and try again");
    return (tw_reply){ .status = 200, .body = tw_text_of(tw_format(ask->arena, "{\"work\": %.0f}", (double)work)) };
}

static tw_reply no_such_work(tw_arena *arena)
{
    return tw_reply_not_there(arena, "nothing is known of that work any more", "look at the papers, or have them made again");
}

/* GET /api/work?id= -> {"state": "working"|"done"|"stopped"|"failed", "done", "of" (0: not known yet), "what", "error"?} */
tw_reply tw_api_work(void *context, const tw_door_ask *ask)
{
    static const char *const states[] = { [TW_WORK_UNKNOWN] = "", [TW_WORK_GOING] = "working", [TW_WORK_DONE] = "done",
                                          [TW_WORK_STOPPED] = "stopped",
                                          [TW_WORK_FAILED] = "failed" };
    tw_desk *desk = context;
    int64_t id;
    tw_reply refusal;
    if (!tw_query_id(ask, "id", &id, &refusal)) return refusal;
    tw_work_look_at look = tw_kept_papers_look(desk->papers, id);
    if (look.state == TW_WORK_UNKNOWN) return no_such_work(ask->arena);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_json_text(json, "state", states[look.state]);
    tw_json_number(json, "done", (double)look.done);
    tw_json_number(json, "of", (double)look.of);
    tw_json_text(json, "what", look.what);
    if (look.state == TW_WORK_FAILED) tw_json_text(json, "error", look.error);
    return tw_answer_end(json);
}

/* POST /api/work/stop {"id"} -> {} */
tw_reply tw_api_work_stop(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_form form = tw_form_read(ask->arena, ask->body);
    int64_t id = tw_form_id(&form, "id");
    if (tw_form_is_wrong(&form)) return tw_form_refusal(&form);
    if (tw_kept_papers_look(desk->papers, id).state == TW_WORK_UNKNOWN) return no_such_work(ask->arena);
    tw_kept_papers_stop(desk->papers, id);  // one that has ended needs no stopping
    return tw_reply_done(ask->arena);
}

/* ---- the files ---- */

static const struct { const char *ending, *kind, *type; } kinds[] = {
    { ".pdf", "pdf", "application/pdf" }, { ".svg", "svg", "image/svg+xml" }, { ".dxf", "dxf", "image/vnd.dxf" },
        { ".stl", "stl", "model/stl" },
    { ".csv", "csv", "text/csv; charset=utf-8" }, { ".json", "json", "application/json" },
        { ".yaml", "yaml", "application/yaml" },
};
enum { KINDS = sizeof kinds / sizeof *kinds };

static size_t kind_of(const char *name)
{
    const char *ending = strrchr(name, '.');
    size_t i = 0;
    while (i + 1 < KINDS && (!ending || strcmp(kinds[i].ending, ending) != 0)) i++;
    return i;
}

#define BOOKLET "booklet.pdf"
#define WHOLE   "all-papers.pdf"  // as setout names it

static const char *shown_name(const char *name) { return strcmp(name, WHOLE) == 0 ? BOOKLET : name; }

/* The two texts, as files. */
static void text_files(const tw_papers_ask *texts, tw_paper_file files[2])
{
    files[0] = (tw_paper_file){ "job.yaml", "The job", "the text of the job, to be kept or sent", 0, false, texts->job };
    files[1] = (tw_paper_file){ "shop.yaml", "The shop", "the text of the shop that it is reckoned with", 0, false, texts->shop };
}

static void put_file(tw_json *json, const tw_paper_file *file)
{
    tw_json_open(json, NULL, '{');
    tw_json_text(json, "name", shown_name(file->name));
    tw_json_text(json, "title", file->title);
    tw_json_text(json, "purpose", file->purpose);
    tw_json_number(json, "bytes", (double)file->bytes.length);
    tw_json_number(json, "pages", file->pages);
    tw_json_yes_no(json, "true_size", file->true_size);
    tw_json_text(json, "kind", kinds[kind_of(file->name)].kind);
    tw_json_close(json, '}');
}

static void put_files(tw_json *json, const tw_paper_files *made, const tw_papers_ask *texts)
{
    tw_paper_file own[2];
    text_files(texts, own);
    tw_json_open(json, "files", '[');
    for (size_t i = 0; made && i < made->count; i++)
        if (strcmp(made->items[i].name, WHOLE) == 0) put_file(json, &made->items[i]);
    for (size_t i = 0; made && i < made->count; i++)
        if (strcmp(made->items[i].name, WHOLE) != 0) put_file(json, &made->items[i]);
    for (size_t i = 0; i < 2; i++) put_file(json, &own[i]);
    tw_json_close(json, ']');
}

/* GET /api/papers?job=&number= -> {"ready", "files": [..]}; the booklet first */
tw_reply tw_api_papers(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_papers_ask texts;
    tw_reply refusal;
    if (!read_query(desk, ask, &texts, &refusal)) return refusal;
    const tw_paper_files *made = tw_kept_papers_find(desk->papers, &texts);
    tw_json *json = tw_answer_begin(ask->arena);
    tw_json_yes_no(json, "ready", made != NULL);
    put_files(json, made, &texts);
    return tw_answer_end(json);
}

/* ---- one file ---- */

#define TITLE_MOST 40

/* "reading-table-cards.pdf": the job's title in letters that every disk takes, then the file's own name. */
static const char *download_name(tw_arena *arena, tw_text job, const char *name)
{
    const char *title = tw_text_title(arena, TW_BOOK_JOBS, job), *slash = strrchr(name, '/');
    char *start = tw_arena_take(arena, TITLE_MOST + 2, 1);
    size_t length = 0;
    for (const char *c = title ? title : ""; *c && length < TITLE_MOST; c++) {
        char small = *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c;
        bool plain = (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
        if (plain) start[length++] = small;
        else if (length > 0 && start[length - 1] != '-') start[length++] = '-';
    }
    if (length > 0 && start[length - 1] != '-') start[length++] = '-';
    return tw_format(arena, "%s%s", start, slash ? slash + 1 : name);
}

static const tw_paper_file *find_file(const tw_paper_files *made, const tw_paper_file own[2], const char *name)
{
    for (size_t i = 0; i < 2; i++)
        if (strcmp(own[i].name, name) == 0) return &own[i];
    for (size_t i = 0; made && i < made->count; i++)
        if (strcmp(made->items[i].name, name) == 0 || strcmp(shown_name(made->items[i].name), name) == 0) return &made->items[i];
    return NULL;
}

/* GET /papers?job=&number=&name=booklet.pdf&show=0|1 -> the bytes */
tw_reply tw_api_paper(void *context, const tw_door_ask *ask)
{
    tw_desk *desk = context;
    tw_papers_ask texts;
    tw_reply refusal;
    const char *name = tw_door_query(ask, "name"), *show = tw_door_query(ask, "show");
    if (!name)
        return tw_reply_error(ask->arena, 400, "request", "the address says no \"name\"",
                              "give the name of a file of the list of papers");
    if (!read_query(desk, ask, &texts, &refusal)) return refusal;
    tw_paper_file own[2];
    text_files(&texts, own);
    const tw_paper_files *made = tw_kept_papers_find(desk->papers, &texts);
    const tw_paper_file *file = find_file(made, own, name);
    if (!file && !made)
        return tw_reply_error(ask->arena, 404, "not-made", "the papers of this job, as it is now, are not made yet",
                              "have them made, then ask again");
    const char *missing = tw_format(ask->arena, "there is no paper \"%s\"", name);
    if (!file) return tw_reply_not_there(ask->arena, missing, "look at the list of papers");
    bool shown = show && strcmp(show, "1") == 0;
    return (tw_reply){ .status = 200, .type = kinds[kind_of(file->name)].type,
                       .body = { tw_text_copy(ask->arena, file->bytes), file->bytes.length },
                       .file_name = shown ? NULL : download_name(ask->arena, texts.job, shown_name(file->name)) };
}
