// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/kept_papers.h"

#include <stdlib.h>
#include <string.h>

#include "serve/cache.h"

#define JOB_FILE  "job.yaml"   // as the papers call the texts, and as they are downloaded
#define SHOP_FILE "shop.yaml"

typedef struct made_set {
    tw_paper_files files;    // its arena holds all below too
    tw_text        job, shop;
    const char    *ledger;   // its sign
} made_set;

struct tw_kept_papers {
    void (*out_of_memory)(void);
    tw_work  *work;
    int64_t   going;                     // the work begun last, 0 none
    made_set *asked;                     // what it makes: a copy of its ask, without files
    made_set *sets[TW_KEPT_SETS_MOST];   // the newest first; NULL: none
};

/* ---- sets ---- */

static void free_set(void *thing)
{
    made_set *set = thing;
    if (!set) return;
    tw_arena_finish(&set->files.arena);
    free(set);
}

static tw_text copied(tw_arena *arena, tw_text text) { return (tw_text){ tw_text_copy(arena, text), text.length }; }

/* An empty set for what is asked. */
static made_set *new_set(void (*out_of_memory)(void), const tw_papers_ask *ask)
{
    made_set *set = calloc(1, sizeof *set);
    if (!set) {
        if (out_of_memory) out_of_memory();
        abort();
    }
    tw_arena *arena = &set->files.arena;
    arena->out_of_memory = out_of_memory;
    set->job = copied(arena, ask->job);
    set->shop = copied(arena, ask->shop);
    set->ledger = tw_ledger_sign(arena, ask->ledger);
    return set;
}

static bool same(tw_text a, tw_text b) { return a.length == b.length && (a.length == 0
                                                                         || memcmp(a.bytes, b.bytes, a.length) == 0); }

static bool is_of(const made_set *set, const tw_papers_ask *ask)
{
    if (!set || !same(set->job, ask->job) || !same(set->shop, ask->shop)) return false;
    tw_arena scratch = { 0 };
    bool alike = strcmp(set->ledger, tw_ledger_sign(&scratch, ask->ledger)) == 0;
    tw_arena_finish(&scratch);
    return alike;
}

/* ---- on the worker ---- */

typedef struct task {
    made_set      *set;
    tw_arena       arena;
    tw_ledger      ledger;    // its words in the arena
    tw_work_watch *watch;
} task;

static void free_task(void *thing)
{
    task *given = thing;
    free_set(given->set);
    tw_arena_finish(&given->arena);
    free(given);
}

static bool take_file(void *context, const tw_paper_file *file)
{
    task *given = context;
    tw_paper_files *files = &given->set->files;
    tw_array_make_room(&files->arena, &files->items, files->count, &files->room, sizeof *files->items);
    files->items[files->count++] = (tw_paper_file){
        .name = tw_text_copy(&files->arena, tw_text_of(file->name)), .title = tw_text_copy(&files->arena,
            tw_text_of(file->title)),
        .purpose = tw_text_copy(&files->arena, tw_text_of(file->purpose)), .pages = file->pages, .true_size = file->true_size,
        .bytes = copied(&files->arena, file->bytes),
    };
    files->bytes += file->bytes.length;
    return true;
}

static bool go_on(void *context, size_t done, size_t of, const char *what)
{
    task *given = context;
    return tw_work_goes_on(given->watch, done, of, what);
}

/* How many papers there are says nothing of their pages: until they are laid out it is not known how much there is to do. */
static bool go_on_composing(void *context, size_t done, size_t of)
{
    (void)done;
    (void)of;
    return go_on(context, 0, 0, "laying out the papers");
}

static bool make(task *given, const tw_result *composed)
{
    const char *why;
    tw_paper_taker taker = { .context = given, .take = take_file, .go_on = go_on };
    bool good = tw_paper_set_make(&given->arena, composed, &taker, &why);
    if (!good && *why) tw_work_fails(given->watch, why);
    return good;
}

static void *make_papers(void *thing, tw_work_watch *watch)
{
    task *given = thing;
    given->watch = watch;
    if (!go_on_composing(given, 0, 0)) return NULL;
    made_set *set = given->set;
    tw_request request = tw_reckon_request(&given->arena, &(tw_reckon_texts){ .job = set->job, .shop = set->shop,
        .ledger = &given->ledger });
    request.job_name = JOB_FILE;
    request.shop_name = SHOP_FILE;
    tw_result *result = tw_set_out(&request);
    tw_papers_watch composing = { go_on_composing, given };
    bool good = false;
    if (tw_result_state(result) == TW_STATE_WRONG) tw_work_fails(watch,
                                                                 "the job cannot be read, so that it has no papers; mend what "
                                                                 "its findings say");
    else good = tw_result_compose(result, &composing) && make(given, result);
    tw_result_free(result);
    if (!good) return NULL;
    given->set = NULL;  // goes to who takes it
    return set;
}

/* ---- the door's side ---- */

tw_kept_papers *tw_kept_papers_new(void (*out_of_memory)(void))
{
    tw_kept_papers *kept = calloc(1, sizeof *kept);
    if (kept) kept->work = tw_work_open();
    if (!kept || !kept->work) {
        if (out_of_memory) out_of_memory();
        abort();
    }
    kept->out_of_memory = out_of_memory;
    return kept;
}

void tw_kept_papers_free(tw_kept_papers *kept)
{
    if (!kept) return;
    tw_work_close(kept->work);
    free_set(kept->asked);
    for (int i = 0; i < TW_KEPT_SETS_MOST; i++) free_set(kept->sets[i]);
    free(kept);
}

static bool are_alike(const made_set *a, const made_set *b) { return same(a->job, b->job) && same(a->shop, b->shop)
                                                              && strcmp(a->ledger, b->ledger) == 0; }

/* The newest first; the oldest go while all hold too much. One that was made anew takes the place of the old. */
static void keep(tw_kept_papers *kept, made_set *set)
{
    for (int i = 0; i < TW_KEPT_SETS_MOST; i++) {
        if (!kept->sets[i] || !are_alike(kept->sets[i], set)) continue;
        free_set(kept->sets[i]);
        memmove(kept->sets + i, kept->sets + i + 1, (size_t)(TW_KEPT_SETS_MOST - 1 - i) * sizeof *kept->sets);
        kept->sets[TW_KEPT_SETS_MOST - 1] = NULL;
    }
    free_set(kept->sets[TW_KEPT_SETS_MOST - 1]);
    memmove(kept->sets + 1, kept->sets, (TW_KEPT_SETS_MOST - 1) * sizeof *kept->sets);
    kept->sets[0] = set;
    size_t all = set->files.arena.bytes_held;
    for (int i = 1; i < TW_KEPT_SETS_MOST; i++) {
        if (!kept->sets[i]) continue;
        all += kept->sets[i]->files.arena.bytes_held;
        if (all <= TW_KEPT_BYTES_MOST) continue;
        free_set(kept->sets[i]);
        kept->sets[i] = NULL;
    }
}

/* Takes over what the worker has done. */
static void take_over(tw_kept_papers *kept)
{
    made_set *done = kept->going > 0 ? tw_work_take(kept->work, kept->going) : NULL;
    if (done) keep(kept, done);
}

static task *new_task(tw_kept_papers *kept, const tw_papers_ask *ask)
{
    task *given = calloc(1, sizeof *given);
    if (!given) {
        if (kept->out_of_memory) kept->out_of_memory();
        abort();
    }
    given->arena.out_of_memory = kept->out_of_memory;
    given->set = new_set(kept->out_of_memory, ask);
    for (size_t i = 0; i < ask->ledger->count; i++) {
        tw_ledger_key key = ask->ledger->items[i].key;
        key.path = tw_text_copy(&given->arena, tw_text_of(key.path));
        tw_ledger_add(&given->arena, &given->ledger, key, ask->ledger->items[i].value_mm);
    }
    return given;
}

int64_t tw_kept_papers_begin(tw_kept_papers *kept, const tw_papers_ask *ask)
{
    take_over(kept);
    bool going = kept->going > 0 && tw_work_look(kept->work, kept->going).state == TW_WORK_GOING;
    if (going) return is_of(kept->asked, ask) ? kept->going : 0;
    int64_t work = tw_work_start(kept->work, make_papers, new_task(kept, ask), free_task, free_set);
    if (work <= 0) return work;
    kept->going = work;
    free_set(kept->asked);
    kept->asked = new_set(kept->out_of_memory, ask);
    return work;
}

tw_work_look_at tw_kept_papers_look(tw_kept_papers *kept, int64_t work)
{
    take_over(kept);
    return tw_work_look(kept->work, work);
}

bool tw_kept_papers_stop(tw_kept_papers *kept, int64_t work) { return tw_work_stop(kept->work, work); }

const tw_paper_files *tw_kept_papers_find(tw_kept_papers *kept, const tw_papers_ask *ask)
{
    take_over(kept);
    for (int i = 0; i < TW_KEPT_SETS_MOST; i++)
        if (is_of(kept->sets[i], ask)) return &kept->sets[i]->files;
    return NULL;
}
