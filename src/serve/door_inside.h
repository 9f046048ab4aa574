// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of the door share: guests and visits.
 *
 * A guest is a connection, a visit one request on it. door.c takes them from libmicrohttpd and fills in what was sent;
 * door_checks.c decides whether a visit is served, and says so when it is not; door_rooms.c has what the door itself serves;
 * door_reply.c knows the headers that go with a reply. */
#ifndef TW_DOOR_INSIDE_H
#define TW_DOOR_INSIDE_H

#include "serve/door.h"
#include "serve/door_guard.h"
#include "serve/door_net.h"

#define TW_GUESTS_MOST 64

/* The headers that are looked at; each may stand once. */
typedef enum tw_header {
    TW_HOST, TW_ORIGIN, TW_COOKIE, TW_SITE, TW_LENGTH, TW_TYPE, TW_CODING, TW_EXPECT, TW_NONE_MATCH, TW_HEADER_COUNT
} tw_header;

typedef struct tw_visit tw_visit;

typedef struct tw_guest {
    tw_door  *door;
    int       socket;
    tw_ends   ends;
    bool      known;                // was let in
    bool      leaving;              // was shut out; libmicrohttpd has not seen it yet
    int64_t   since_ms, until_ms;
    tw_visit *visit;                // NULL between two requests
} tw_guest;

struct tw_door {
    tw_arena          *arena;
    tw_door_options    options;
    const tw_route    *routes;
    size_t             count;
    void              *context;     // of the handlers
    struct MHD_Daemon *daemon;
    int                listener, stop;  // -1: none; stop: an eventfd
    int                port;
    const char        *address;
    tw_guard           guard;
    tw_guest          *guests[TW_GUESTS_MOST];
    size_t             guest_count;
};

struct tw_visit {
    tw_door     *door;
    tw_guest    *guest;
    tw_arena     arena;
    const char  *target, *method, *version;      // as sent
    const char  *headers[TW_HEADER_COUNT];       // NULL: not there
    const char  *fault;                          // what is wrong with the target; NULL: nothing
    bool         too_long;                       // that it is
    const char  *doubled;                        // the name of one that stands twice; NULL: none
    tw_caller    caller;
    const tw_route    *route;                    // one of these two is what is asked for
    const tw_embedded *file;
    const char  *allow;                          // the methods of this path; NULL: there is no such path
    bool         is_open, own;                   // the route is for strangers too; it is one of the door's own
    const char  *body_type;                      // that a POST must have
    bool         checked, refused;
    bool         tells_referrer;                 // the page's own form must be able to say where it comes from
    const char  *cookie;                         // to be set, NULL: none
    char        *body;
    size_t       length, got;                    // bytes of the body: said, come so far
    tw_door_ask  ask;
    tw_reply     reply;
};

/// Milliseconds of a clock that only goes on.
int64_t tw_door_now_ms(void);

/// Looks at all that was sent before the body. True: to be served, by route or file. False: the reply says why not.
bool tw_visit_check(tw_visit *v);
/// Whether it is one of the page's own calls, which are answered in JSON.
bool tw_visit_is_api(const tw_visit *v);
/// Lets the browser keep a key. lasting: what stands behind it, "; Max-Age=60" or "".
void tw_visit_set_cookie(tw_visit *v, const char *secret, const char *lasting);

/// A route of the door itself; its handler's context is the visit.
typedef struct tw_room { tw_route route; bool is_open; const char *body_type; } tw_room;
extern const tw_room tw_rooms[];
extern const size_t  tw_room_count;

#define TW_JSON_TYPE "application/json"

tw_reply tw_reply_see_other(const char *location);

/// Name and value; value NULL: it is not sent.
typedef struct tw_header_line { const char *name, *value; } tw_header_line;
#define TW_HEADER_LINES 15
/// What goes with the visit's reply.
void tw_reply_headers(tw_visit *v, tw_header_line lines[TW_HEADER_LINES]);
/// Turns a reply into 304 when the browser has it already.
void tw_reply_if_changed(tw_visit *v);

#endif
