// SPDX-License-Identifier: GPL-3.0-or-later
/* desk: all that the page can ask for: the book, a job reckoned with changes, drawings, papers, the run at the machine.
 *
 * The desk is a table of routes for the door (door.h). Handlers read JSON and reply with JSON; docs of each route stand beside
 * its handler in the files api_*.c. Nothing is reckoned here: texts go to the core, what it says comes back.
 *
 * What is kept between two requests: the book, the last results (so that a request that only asks for another drawing does
 * not reckon again; cache.h) and the papers of the jobs that were printed last. All of it is bounded. */
#ifndef TW_DESK_H
#define TW_DESK_H

#include "serve/book.h"
#include "serve/door.h"

typedef struct tw_desk tw_desk;

/// Opens the book at that path (tw_book_open()). *desk is NULL unless the answer is TW_BOOK_DONE; it is to be closed with
/// tw_desk_close(). out_of_memory: as in tw_arena.
tw_book_result tw_desk_open(tw_arena *arena, const char *book_path, void (*out_of_memory)(void), tw_desk **desk);
/// Stops a long work and closes the book. desk may be NULL.
void tw_desk_close(tw_desk *desk);

/// The routes; their context is the desk. They live as long as the program.
const tw_route *tw_desk_routes(size_t *count);

/// A text with the name that it is to have in the book; name NULL or "": the one that the text itself says.
typedef struct tw_desk_text { tw_text text; const char *name; } tw_desk_text;

/// Puts a job with its shop in the book, unless a job that is not in the bin has had this text with a shop that has had this
/// text. shop NULL: the shop that was changed last, or a starting shop when there is none. *id: of the job, new or found.
tw_book_result tw_desk_put_job(tw_desk *desk, tw_arena *arena, tw_desk_text job, const tw_desk_text *shop, int64_t *id);

#endif
