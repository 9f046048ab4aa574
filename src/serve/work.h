// SPDX-License-Identifier: GPL-3.0-or-later
/* work: long work beside the door: one at a time, on a thread of its own, with its progress, and a way to stop it.
 *
 *     id = tw_work_start(work, make_booklet, ask, free_ask, free_booklet);    the door's thread; 0 while one is going on
 *     void *make_booklet(void *ask, tw_work_watch *watch)                     the worker's thread
 *         for each page: if (!tw_work_goes_on(watch, page, pages, "making the booklet")) return NULL;
 *     tw_work_look(work, id)                                                   the door's thread, as often as the page asks
 *     result = tw_work_take(work, id)                                          once, when it is done
 *
 * The task works on what it was given and on nothing that the door's thread uses meanwhile. */
#ifndef TW_WORK_H
#define TW_WORK_H

#include "base/base.h"

typedef struct tw_work tw_work;
typedef struct tw_work_watch tw_work_watch;

typedef enum tw_work_state {
    TW_WORK_UNKNOWN,  // there is no such work (any more)
    TW_WORK_GOING,
    TW_WORK_DONE,
    TW_WORK_STOPPED,  // by tw_work_stop(), before it was done
    TW_WORK_FAILED    // the task says why
} tw_work_state;

typedef struct tw_work_look_at {
    tw_work_state state;
    size_t        done, of;   // parts; of 0: not known yet
    const char   *what;       // what is being done, a fixed text; "" at first
    const char   *error;      // with TW_WORK_FAILED: a sentence without its full stop, as long-lived as the work's entry
} tw_work_look_at;

/// Does the work. Returns its result, or NULL when it was stopped or has failed (then it has called tw_work_fails()).
typedef void *tw_work_task(void *given, tw_work_watch *watch);
/// Frees what was given to the task, or its result. NULL is not given to it.
typedef void tw_work_free(void *thing);

/// In the task: says how far it is, and asks whether to go on. what: a text that outlives the program's run (a literal).
bool tw_work_goes_on(tw_work_watch *watch, size_t done, size_t of, const char *what);
/// In the task, before it returns NULL. The sentence is copied.
void tw_work_fails(tw_work_watch *watch, const char *error);

/// The worker; it has no thread before the first work. NULL: no memory.
tw_work *tw_work_open(void);
/// Stops what is going on, waits for it, frees all. work may be NULL.
void tw_work_close(tw_work *work);

/// Starts a task. given is freed with free_given on the worker's thread when the task has ended (also when it cannot be
/// started: then here). free_result frees a result that is never taken. Returns the work's id, from 1; 0 when another one is
/// going on, -1 when the system gives no thread.
int64_t tw_work_start(tw_work *work, tw_work_task *task, void *given, tw_work_free *free_given, tw_work_free *free_result);
/// The newest work can be looked at; of those before it nothing is known any more.
tw_work_look_at tw_work_look(tw_work *work, int64_t id);
/// Asks it to stop; it does so at its next tw_work_goes_on(). False when it is not going on.
bool tw_work_stop(tw_work *work, int64_t id);
/// The result of a work that is done, which is the caller's from now on; NULL when it is not done or was taken already.
void *tw_work_take(tw_work *work, int64_t id);

#endif
