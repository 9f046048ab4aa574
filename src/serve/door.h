// SPDX-License-Identifier: GPL-3.0-or-later
/* door: the way in from a browser. HTTP on this computer, for whoever holds the token, and with --on-network for devices
 * that were paired by a code.
 *
 * One thread: tw_door_run() waits for what comes, calls the handler of the route, and sends what it replies. A handler
 * therefore never runs beside another one; long work goes to work.h. Before a handler is called the door has made sure that
 *     - the caller holds the desk's cookie or that of a paired device; Host, Origin and Sec-Fetch-Site are our own;
 *     - path and method are exactly those of the route;
 *     - a POST has a length, at most body_most bytes, and the type application/json;
 *     - every word of the query is well written UTF-8 without control characters.
 * What fails in this never reaches a handler, and is answered with a sentence.
 *
 * Only door.c meets libmicrohttpd. */
#ifndef TW_DOOR_H
#define TW_DOOR_H

#include "base/base.h"
#include "serve/embedded.h"

typedef struct tw_door tw_door;

/* ---- asking and replying ---- */

/// What was asked. All of it lives until the reply is sent.
typedef struct tw_door_ask {
    const char *method;  // "GET" or "POST"; who asks HEAD is served as GET, and the body is left out
    const char *path;    // as in the route
    tw_text     query;   // what follows "?", as sent; read it with tw_door_query()
    tw_text     body;    // of a POST; a zero follows it
    tw_arena   *arena;   // for the reply; freed when it is sent
    bool        paired;  // asked from a device that was paired, not from the desk
} tw_door_ask;

/// The word of that name in the query, decoded; the first when there are several; NULL when there is none.
const char *tw_door_query(const tw_door_ask *ask, const char *name);
/// A whole number in the query; false when it is missing, is no plain whole number or lies outside least .. most.
bool tw_door_query_whole(const tw_door_ask *ask, const char *name, int64_t least, int64_t most, int64_t *value);

typedef struct tw_reply {
    int         status;     // of HTTP: 200, 404, ...
    const char *type;       // of the body; NULL: application/json
    tw_text     body;       // in ask->arena, or as long-lived as the door
    const char *file_name;  // to be kept under this name, NULL: to be shown
    const char *etag;       // without quotes, printable ASCII; who has it already is answered with 304. NULL: none
    bool        stored;     // the browser may keep it, and asks each time whether it is still right (give an etag)
    const char *location;   // of a 303; NULL: none
} tw_reply;

/// {"error": {"code", "what", "remedy"}}. what, remedy: sentences without their full stop; remedy may be "".
tw_reply tw_reply_error(tw_arena *arena, int status, const char *code, const char *what, const char *remedy);

typedef tw_reply tw_handler(void *context, const tw_door_ask *ask);

typedef struct tw_route {
    const char *method;     // "GET" or "POST"
    const char *path;       // the whole of it: "/api/book"
    tw_handler *handle;
    size_t      body_most;  // bytes; of a POST
} tw_route;

/* ---- the door ---- */

#define TW_DOOR_BODY_MOST (4u * 1024u * 1024u + 65536u)  // bytes of any body: a text of the book, and what stands round it

typedef struct tw_door_options {
    int         port;        // 1 to 65535; 0: one that is free
    bool        on_network;  // all addresses of this computer, not only its own 127.0.0.1
    double      patience;    // how long the slow are waited for, times the usual; 0: as usual
    const char *home;        // where the token leads: "/", "/#/job/12"; NULL: "/"
    const tw_embedded *files;    // the page's, served as they are to whoever is let in
    size_t      file_count;
    void (*out_of_memory)(void);  // as in tw_arena
} tw_door_options;

/// Listens, but serves nobody before tw_door_run(). routes, files, context: live as long as the door.
/// Returns false when it cannot, *why a sentence without its full stop; *door is NULL then.
bool tw_door_open(tw_arena *arena, const tw_door_options *options, const tw_route *routes, size_t count, void *context,
                  tw_door **door, const char **why);
/// Serves until tw_door_stop(). False when the system fails.
bool tw_door_run(tw_door *door);
/// May be called by a signal's handler, from any thread, before or while it runs.
void tw_door_stop(tw_door *door);
/// door may be NULL.
void tw_door_close(tw_door *door);

/// The port that it listens on.
int tw_door_port(const tw_door *door);
/// "http://127.0.0.1:PORT/?token=...": who opens it is let in. It lives as long as the door.
const char *tw_door_address(const tw_door *door);
/// With on_network: how a tablet gets in, addresses and code, for the maker to read. Else nothing.
void tw_door_pairing_put(tw_door *door, tw_sink *sink);

#endif
