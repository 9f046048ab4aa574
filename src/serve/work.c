// SPDX-License-Identifier: GPL-3.0-or-later
/* The worker: one thread for each work, joined before the next one starts. Whatever both threads touch is under one lock;
 * a work is done when its thread has said so there, so looking at it never waits. */
#define _GNU_SOURCE
#include "serve/work.h"

#include <pthread.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

struct tw_work_watch {
    tw_work         *work;
    tw_work_task    *task;
    void            *given;
    tw_work_free    *free_given, *free_result;
    void            *result;
    tw_work_look_at  at;
    char            *error;       // at.error points to it
    bool             stop_asked;
};

struct tw_work {
    pthread_mutex_t lock;
    pthread_t       thread;
    bool            has_thread;   // to be joined
    int64_t         id;           // of the newest work, 0: none yet
    tw_work_watch   watch;
};

/* ---- the worker's thread ---- */

bool tw_work_goes_on(tw_work_watch *watch, size_t done, size_t of, const char *what)
{
    pthread_mutex_lock(&watch->work->lock);
    watch->at.done = done;
    watch->at.of = of;
    watch->at.what = what;
    bool goes_on = !watch->stop_asked;
    pthread_mutex_unlock(&watch->work->lock);
    return goes_on;
}

void tw_work_fails(tw_work_watch *watch, const char *error)
{
    char *copy = strdup(error);
    pthread_mutex_lock(&watch->work->lock);
    free(watch->error);
    watch->error = copy;
    watch->at.error = copy ? copy : "there is no more memory";
    pthread_mutex_unlock(&watch->work->lock);
}

static tw_work_state ended(const tw_work_watch *watch)
{
    if (watch->result) return TW_WORK_DONE;
    return watch->stop_asked && !*watch->at.error ? TW_WORK_STOPPED : TW_WORK_FAILED;
}

static void *run(void *argument)
{
    tw_work_watch *watch = argument;
    void *result = watch->task(watch->given, watch);
    if (watch->given && watch->free_given) watch->free_given(watch->given);
    pthread_mutex_lock(&watch->work->lock);
    watch->given = NULL;
    watch->result = result;
    watch->at.state = ended(watch);
    pthread_mutex_unlock(&watch->work->lock);
    return NULL;
}

/* ---- the door's thread ---- */

tw_work *tw_work_open(void)
{
    tw_work *work = calloc(1, sizeof *work);
    if (!work) return NULL;
    if (pthread_mutex_init(&work->lock, NULL) == 0) return work;
    free(work);
    return NULL;
}

/* Waits for the thread of the newest work, and frees what is left of it. */
static void clear(tw_work *work)
{
    if (work->has_thread) pthread_join(work->thread, NULL);
    work->has_thread = false;
    tw_work_watch *watch = &work->watch;
    if (watch->result && watch->free_result) watch->free_result(watch->result);
    free(watch->error);
    *watch = (tw_work_watch){ .work = work, .at = { .what = "", .error = "" } };
}

/* Signals are for the door's thread. */
static int start_thread(tw_work *work)
{
    sigset_t all, before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    int error = pthread_create(&work->thread, NULL, run, &work->watch);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return error;
}

int64_t tw_work_start(tw_work *work, tw_work_task *task, void *given, tw_work_free *free_given, tw_work_free *free_result)
{
    bool busy = tw_work_look(work, work->id).state == TW_WORK_GOING;
    if (!busy) {
        clear(work);
        work->watch.task = task;
        work->watch.given = given;
        work->watch.free_given = free_given;
        work->watch.free_result = free_result;
        work->watch.at.state = TW_WORK_GOING;
        work->has_thread = start_thread(work) == 0;
        if (work->has_thread) return ++work->id;
        work->watch.at.state = TW_WORK_UNKNOWN;
        work->watch.given = NULL;
    }
    if (given && free_given) free_given(given);
    return busy ? 0 : -1;
}

tw_work_look_at tw_work_look(tw_work *work, int64_t id)
{
    if (id <= 0 || id != work->id) return (tw_work_look_at){ .state = TW_WORK_UNKNOWN, .what = "", .error = "" };
    pthread_mutex_lock(&work->lock);
    tw_work_look_at at = work->watch.at;
    pthread_mutex_unlock(&work->lock);
    return at;
}

bool tw_work_stop(tw_work *work, int64_t id)
{
    if (tw_work_look(work, id).state != TW_WORK_GOING) return false;
    pthread_mutex_lock(&work->lock);
    work->watch.stop_asked = true;
    pthread_mutex_unlock(&work->lock);
    return true;
}

void *tw_work_take(tw_work *work, int64_t id)
{
    if (tw_work_look(work, id).state != TW_WORK_DONE) return NULL;
    pthread_mutex_lock(&work->lock);
    void *result = work->watch.result;
    work->watch.result = NULL;
    pthread_mutex_unlock(&work->lock);
    return result;
}

void tw_work_close(tw_work *work)
{
    if (!work) return;
    tw_work_stop(work, work->id);
    clear(work);
    pthread_mutex_destroy(&work->lock);
    free(work);
}
