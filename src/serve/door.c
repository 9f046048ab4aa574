// SPDX-License-Identifier: GPL-3.0-or-later
/* The door: the only file that meets libmicrohttpd.
 *
 * A guest is a connection, a visit one request on it. libmicrohttpd calls greet() when a connection comes, hear() when a
 * request line is there, receive() when its header is there (then the visit is checked), once more for each part of its
 * body, and once when all of it is there (then it is served), forget() when its reply is sent, and greet() again when the
 * connection ends.
 *
 * Its own timeout watches for silence only, so a slow drip would live for ever: each guest has a moment until which the step
 * that he is at must be done (until_ms), and is shut out when it has passed. When the door is crowded the stranger that has been there for
 * longest is shut out, so that strangers cannot keep a guest from coming in. */
#define _GNU_SOURCE
#include "serve/door.h"

#include <assert.h>
#include <errno.h>
#include <microhttpd.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

#include "serve/door_guard.h"
#include "serve/door_net.h"
#include "serve/door_pages.h"
#include "serve/door_words.h"

#define GUESTS_MOST     64
#define GUESTS_CROWDED  48     // from here on strangers are shut out for new ones
#define GUEST_BYTES     32768  // for the header of a request
#define KNOWN_IDLE_MS   75000  // between two requests of who was let in
#define STRANGER_IDLE_MS 10000 // and of who was not
#define HEADER_MS       10000  // from the request line to the end of the header
#define BODY_MS         30000
#define REPLY_MS        120000 // a booklet over a poor network
#define LEAVE_MS        2000   // for the replies that are on their way when it ends

#define FORM_TYPE "application/x-www-form-urlencoded"
#define JSON_TYPE "application/json"

/* The headers that are looked at; each may stand once. */
typedef enum header {
    HOST, ORIGIN, COOKIE, SITE, LENGTH, TYPE, CODING, EXPECT, NONE_MATCH, HEADER_COUNT
} header;

static const char *const header_names[HEADER_COUNT] = {
    [HOST] = "Host", [ORIGIN] = "Origin", [COOKIE] = "Cookie", [SITE] = "Sec-Fetch-Site", [LENGTH] = "Content-Length",
    [TYPE] = "Content-Type", [CODING] = "Transfer-Encoding", [EXPECT] = "Expect", [NONE_MATCH] = "If-None-Match"
};

typedef struct visit visit;

typedef struct guest {
    tw_door *door;
    int     socket;
    tw_ends ends;
    bool    known;                 // was let in
    bool    leaving;               // was shut out; libmicrohttpd has not seen it yet
    int64_t since_ms, until_ms;
    visit  *visit;                 // NULL between two requests
} guest;

struct tw_door {
    tw_arena       *arena;
    tw_door_options options;
    const tw_route *routes;
    size_t          count;
    void           *context;
    struct MHD_Daemon *daemon;
    int             listener, stop;  // -1: none; stop: an eventfd
    int             port;
    const char     *address;
    tw_guard        guard;
    guest          *guests[GUESTS_MOST];
    size_t          guest_count;
};

struct visit {
    tw_door    *door;
    guest      *guest;
    tw_arena    arena;
    const char *target, *method, *version;
    const char *headers[HEADER_COUNT];  // NULL: not there
    const char *doubled;                // the first header that stands twice, or holds a NUL; NULL: none
    tw_caller   caller;
    const tw_route    *route;
    const tw_embedded *file;
    const char *allow;                  // the methods of this path, NULL: there is no such path
    bool        is_open, own;           // the route is for strangers too; it is one of the door's own
    const char *body_type;
    bool        checked, refused;
    tw_reply    reply;
    const char *cookie;                 // to be set, NULL: none
    bool        no_referrer_off;        // this page must be told where its own form came from
    char       *body;
    size_t      length, got;
    tw_door_ask ask;
};

static int64_t now_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void allow_ms(guest *one, int64_t ms)
{
    double patience = one->door->options.patience;
    one->until_ms = now_ms() + (patience > 0 ? (int64_t)((double)ms * patience) : ms);
}

/* ---- replies ---- */

tw_reply tw_reply_error(tw_arena *arena, int status, const char *code, const char *what, const char *remedy)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "{\"error\":{\"code\":");
    tw_put_json_text(&sink, code);
    tw_put_text(&sink, ",\"what\":");
    tw_put_json_text(&sink, what);
    tw_put_text(&sink, ",\"remedy\":");
    tw_put_json_text(&sink, remedy);
    tw_put_text(&sink, "}}\n");
    return (tw_reply){ .status = status, .body = tw_gathered(&all) };
}

static bool is_api(const visit *v) { return strncmp(v->target, "/api/", 5) == 0; }

/* Refuses the visit: JSON for the page's own calls, a page for all else. */
static bool refuse(visit *v, int status, const char *code, const char *what, const char *remedy)
{
    v->refused = true;
    v->reply = is_api(v) ? tw_reply_error(&v->arena, status, code, what, remedy)
                         : tw_page_says(&v->arena, status, "That does not work", what, remedy);
    return false;
}

#define PAGE_POLICY "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; " \
    "media-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self' blob:; frame-src 'self'; " \
    "manifest-src 'self'; form-action 'self'; base-uri 'none'; object-src 'none'; frame-ancestors 'none'"

/* What a file may do in the browser. A browser's own viewer for PDF does not work under a policy for its parts. */
static const char *policy_for(const char *type)
{
    if (strncmp(type, "text/html", 9) == 0 || strncmp(type, "text/javascript", 15) == 0) return PAGE_POLICY;
    if (strncmp(type, "application/pdf", 15) == 0) return "frame-ancestors 'self'";
    return "default-src 'none'; frame-ancestors 'self'";
}

/* attachment; filename="..." in ASCII for the old, filename*= in UTF-8 for the others (RFC 6266, RFC 8187). */
static const char *disposition(tw_arena *arena, const char *name)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "attachment; filename=\"");
    for (const char *c = name; *c; c++) tw_put(&sink, *c >= ' ' && *c < 127 && *c != '"' && *c != '\\' && *c != '%' ? c : "_", 1);
    tw_put_text(&sink, "\"; filename*=UTF-8''");
    for (const char *c = name; *c; c++) {
        unsigned char byte = (unsigned char)*c;
        bool plain = (byte >= '0' && byte <= '9') || ((byte | 32) >= 'a' && (byte | 32) <= 'z') || byte == '.' || byte == '-' || byte == '_';
        if (plain) tw_put(&sink, c, 1);
        else tw_putf(&sink, "%%%c%c", "0123456789ABCDEF"[byte >> 4], "0123456789ABCDEF"[byte & 15]);
    }
    return tw_gathered(&all).bytes;
}

/* Whether who asks has this etag already: If-None-Match: "a", W/"b" or *. */
static bool has_already(const char *none_match, const char *etag)
{
    for (const char *at = none_match; at && *at;) {
        at += strspn(at, " \t,");
        if (*at == '*') return true;
        if (strncmp(at, "W/", 2) == 0) at += 2;
        size_t length = strcspn(at, ", \t");
        if (length >= 2 && at[0] == '"' && tw_text_is((tw_text){ at + 1, length - 2 }, etag) && at[length - 1] == '"') return true;
        at += length;
    }
    return false;
}

static void put_headers(visit *v, struct MHD_Response *response, const tw_reply *reply, const char *type)
{
    const char *fixed[][2] = {
        { "Content-Type", type },
        { "Content-Security-Policy", policy_for(type) },
        { "X-Content-Type-Options", "nosniff" },
        { "Referrer-Policy", v->no_referrer_off ? "same-origin" : "no-referrer" },
        { "Cross-Origin-Opener-Policy", "same-origin" },
        { "Cross-Origin-Resource-Policy", "same-origin" },
        { "Permissions-Policy", "camera=(), microphone=(), geolocation=(), screen-wake-lock=(self)" },
        { "Cache-Control", reply->stored && reply->etag ? "private, no-cache" : "no-store" },
        { "Location", reply->location },
        { "Content-Disposition", reply->file_name ? disposition(&v->arena, reply->file_name) : NULL },
        { "ETag", reply->etag ? tw_format(&v->arena, "\"%s\"", reply->etag) : NULL },
        { "Set-Cookie", v->cookie },
        { "Allow", reply->status == 405 ? v->allow : NULL },
        { "Retry-After", reply->status == 429 ? "5" : NULL },
        { "Connection", v->refused && v->caller == TW_STRANGER ? "close" : NULL },
    };
    for (size_t i = 0; i < sizeof fixed / sizeof *fixed; i++)
        if (fixed[i][1]) MHD_add_response_header(response, fixed[i][0], fixed[i][1]);
}

static enum MHD_Result send_reply(visit *v, struct MHD_Connection *connection)
{
    tw_reply *reply = &v->reply;
    if (reply->status == 200 && reply->etag && has_already(v->headers[NONE_MATCH], reply->etag)) {
        reply->status = 304;
        reply->body.length = 0;
    }
    struct MHD_Response *response = MHD_create_response_from_buffer(reply->body.length, (void *)(uintptr_t)reply->body.bytes, MHD_RESPMEM_PERSISTENT);
    if (!response) return MHD_NO;
    put_headers(v, response, reply, reply->type ? reply->type : JSON_TYPE);
    enum MHD_Result queued = MHD_queue_response(connection, (unsigned)reply->status, response);
    MHD_destroy_response(response);
    allow_ms(v->guest, REPLY_MS);
    return queued;
}

/* ---- the door's own routes ---- */

static void set_cookie(visit *v, const char *secret, const char *lasting)
{
    v->cookie = tw_format(&v->arena, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s", v->door->guard.cookie, secret, lasting);
    v->guest->known = true;
}

static tw_reply see_other(const char *location) { return (tw_reply){ .status = 303, .type = "text/plain; charset=utf-8", .location = location }; }

static tw_reply get_style(void *context, const tw_door_ask *ask)
{
    (void)context, (void)ask;
    return tw_page_style();
}

static tw_reply no_pairing(tw_arena *arena)
{
    return tw_page_says(arena, 404, "No pairing", "This Tuskwright serves only the computer on which it runs",
                        "To use it in the shop too, end it there and start it with \"tuskwright serve --on-network\"");
}

static tw_reply get_pair(void *context, const tw_door_ask *ask)
{
    visit *v = context;
    v->no_referrer_off = true;  // else browsers would not say where the form comes from
    return v->door->options.on_network ? tw_page_pairing(ask->arena, 200, "") : no_pairing(ask->arena);
}

static tw_reply post_pair(void *context, const tw_door_ask *ask)
{
    visit *v = context;
    tw_guard *guard = &v->door->guard;
    v->no_referrer_off = true;
    if (!v->door->options.on_network) return no_pairing(ask->arena);
    if (!tw_guard_may(guard, TW_MEASURE_TRY, v->guest->ends.peer, now_ms()))
        return tw_page_pairing(ask->arena, 429, "Too many tries: wait a minute, then type the code that the desk shows now");
    const char *code = tw_query_is_well_written(ask->body) ? tw_query_value(ask->arena, ask->body, "code") : NULL;
    if (!code) return tw_page_pairing(ask->arena, 400, "No code came: type the six digits that the desk shows");
    const char *secret;
    switch (tw_guard_pair(guard, tw_text_of(code), now_ms(), &secret)) {
    case TW_PAIRED:
        set_cookie(v, secret, "; Max-Age=2592000");
        return see_other("/");
    case TW_PAIR_WRONG: return tw_page_pairing(ask->arena, 403, "That is not the code: look at the desk once more");
    case TW_PAIR_NO_CODE:
        return tw_page_pairing(ask->arena, 403, "No code holds any more (each is good for ten minutes, one device and five tries): let the desk "
                                                "make a new one");
    case TW_PAIR_FAILED: break;
    }
    return tw_page_says(ask->arena, 500, "That does not work", "The system gives no random numbers, so this device cannot get a key of its own",
                        "Try again in a moment");
}

/* What the desk's screen shows of the network. Only the desk sees the code. */
static tw_reply network_reply(visit *v)
{
    tw_door *door = v->door;
    tw_gather all = { .arena = &v->arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_addresses list = door->options.on_network ? tw_net_addresses(&v->arena) : (tw_addresses){ 0 };
    tw_putf(&sink, "{\"on\":%s,\"desk\":%s,\"addresses\":[", door->options.on_network ? "true" : "false", v->caller == TW_DESK ? "true" : "false");
    for (size_t i = 0; i < list.count; i++) tw_putf(&sink, "%s\"http://%s:%d" TW_PAGE_PAIR_PATH "\"", i ? "," : "", list.items[i], door->port);
    int64_t now = now_ms();
    const char *code = door->options.on_network && v->caller == TW_DESK ? tw_guard_code(&door->guard, now) : NULL;
    if (code) tw_putf(&sink, "],\"code\":\"%s\",\"expires_s\":%d}\n", code, (int)((door->guard.code_until_ms - now) / 1000));
    else tw_put_text(&sink, "],\"code\":null,\"expires_s\":0}\n");
    return (tw_reply){ .status = 200, .body = tw_gathered(&all) };
}

static tw_reply get_network(void *context, const tw_door_ask *ask)
{
    (void)ask;
    return network_reply(context);
}

static tw_reply post_network_code(void *context, const tw_door_ask *ask)
{
    visit *v = context;
    if (v->caller != TW_DESK)
        return tw_reply_error(ask->arena, 403, "desk-only", "only the desk may make a new code for pairing", "make it on the computer where "
                              "Tuskwright runs");
    if (!v->door->options.on_network)
        return tw_reply_error(ask->arena, 409, "not-on-network", "this Tuskwright serves only the computer on which it runs, so there is nothing "
                              "to pair", "end it and start it with \"tuskwright serve --on-network\"");
    if (!tw_guard_make_code(&v->door->guard, now_ms()))
        return tw_reply_error(ask->arena, 500, "failed", "the system gives no random numbers, so no code can be made", "try again in a moment");
    return network_reply(v);
}

static const struct { tw_route route; bool is_open; const char *body_type; } own_routes[] = {
    { { "GET", TW_PAGE_STYLE_PATH, get_style, 0 }, true, NULL },
    { { "GET", TW_PAGE_PAIR_PATH, get_pair, 0 }, true, NULL },
    { { "POST", TW_PAGE_PAIR_PATH, post_pair, 256 }, true, FORM_TYPE },
    { { "GET", "/api/network", get_network, 0 }, false, NULL },
    { { "POST", "/api/network/code", post_network_code, 1024 }, false, JSON_TYPE },
};

/* ---- what is looked at before anybody is served: each returns false when it has refused the visit ---- */

static bool check_line(visit *v)
{
    tw_target target;
    bool too_long;
    if (strcmp(v->version, "HTTP/1.1") != 0 && strcmp(v->version, "HTTP/1.0") != 0)
        return refuse(v, 505, "http-version", "This door speaks HTTP/1.1", "Use a browser of today");
    const char *fault = tw_target_read(&v->arena, v->target, &target, &too_long);
    if (fault) return refuse(v, too_long ? 414 : 400, "address", fault, "Go back to the first page, and on from there");
    v->ask = (tw_door_ask){ .method = strcmp(v->method, "HEAD") == 0 ? "GET" : v->method, .path = target.path, .query = target.query,
                            .arena = &v->arena };
    return true;
}

static void take_route(visit *v, const tw_route *route, bool is_open, bool own, const char *body_type)
{
    if (strcmp(route->path, v->ask.path) != 0) return;
    bool is_get = strcmp(route->method, "GET") == 0;
    v->allow = !v->allow ? is_get ? "GET, HEAD" : "POST" : "GET, HEAD, POST";
    if (strcmp(route->method, v->ask.method) != 0) return;
    v->route = route;
    v->is_open = is_open;
    v->own = own;
    v->body_type = body_type;
}

static bool find_route(visit *v)
{
    const tw_door *door = v->door;
    for (size_t i = 0; i < sizeof own_routes / sizeof *own_routes; i++)
        take_route(v, &own_routes[i].route, own_routes[i].is_open, true, own_routes[i].body_type);
    for (size_t i = 0; i < door->count && !v->own; i++) take_route(v, &door->routes[i], false, false, JSON_TYPE);
    for (size_t i = 0; i < door->options.file_count && !v->allow; i++)
        if (strcmp(door->options.files[i].path, v->ask.path) == 0) {
            v->file = &door->options.files[i];
            v->allow = "GET, HEAD";
        }
    return true;
}

static bool brings_token(const visit *v)
{
    if (!v->guest->ends.from_here || strcmp(v->ask.path, "/") != 0 || strcmp(v->ask.method, "GET") != 0) return false;
    const char *token = tw_door_query(&v->ask, "token");
    return token && tw_guard_is_token(&v->door->guard, tw_text_of(token));
}

static bool check_headers(visit *v)
{
    if (v->doubled)
        return refuse(v, 400, "header", tw_format(&v->arena, "The header %s stands twice, or is not plain text", v->doubled), "Send it once");
    return true;
}

static bool check_rate(visit *v)
{
    v->caller = tw_guard_who(&v->door->guard, tw_text_of(v->headers[COOKIE] ? v->headers[COOKIE] : ""), v->guest->ends.from_here);
    tw_measure measure = v->caller == TW_STRANGER ? TW_MEASURE_STRANGER : TW_MEASURE_GUEST;
    if (tw_guard_may(&v->door->guard, measure, v->guest->ends.peer, now_ms()) || brings_token(v)) return true;
    return refuse(v, 429, "too-often", "More requests come from this device than the door can take", "Wait a few seconds, then go on");
}

static bool check_host(visit *v)
{
    const char *host = v->headers[HOST];
    if (!host) return refuse(v, 400, "host", "The request does not say whom it is for (Host)", "Use a browser of today");
    if (tw_net_is_host(&v->guest->ends, v->door->port, host)) return true;
    return refuse(v, 403, "host", "The request is for another name than that of this computer",
                  tw_format(&v->arena, "Open the address that begins with http://%s:%d", v->guest->ends.from_here ? "127.0.0.1" : v->guest->ends.local,
                            v->door->port));
}

static bool check_site(visit *v)
{
    const char *site = v->headers[SITE];
    if (!site || strcmp(site, "same-origin") == 0 || strcmp(site, "none") == 0) return true;
    return refuse(v, 403, "other-site", "This was asked by a page of another site",
                  "Copy the address that \"tuskwright serve\" printed into the address line of the browser yourself");
}

static bool check_method(visit *v)
{
    if (strcmp(v->ask.method, "GET") == 0 || strcmp(v->ask.method, "POST") == 0) return true;
    if (!v->allow) v->allow = "GET, HEAD, POST";
    return refuse(v, 405, "method", "This door knows GET, HEAD and POST only", "");
}

/* How long the body is; it must be said, once and plainly. */
static bool check_body(visit *v)
{
    bool is_post = strcmp(v->ask.method, "POST") == 0;
    const char *length = v->headers[LENGTH];
    if (v->headers[CODING] && length) return refuse(v, 400, "body", "The length of the body is told in two ways", "Send Content-Length alone");
    if (v->headers[CODING] || (is_post && !length))
        return refuse(v, 411, "body", "The request does not say how long its body is", "Send Content-Length, and no Transfer-Encoding");
    if (v->headers[EXPECT] && strcasecmp(v->headers[EXPECT], "100-continue") != 0)
        return refuse(v, 417, "expect", "The request expects what this door does not give", "Leave the header Expect out");
    if (!length) return true;
    size_t digits = strspn(length, "0123456789");
    if (digits == 0 || length[digits] != '\0') return refuse(v, 400, "body", "The length of the body is no plain number", "Send its bytes in digits");
    v->length = digits > 15 ? SIZE_MAX : (size_t)strtoull(length, NULL, 10);
    if (is_post || v->length == 0) return true;
    return refuse(v, v->length > TW_DOOR_BODY_MOST ? 413 : 400, "body", "Who only asks sends no body", "Leave it out, or use POST");
}

static bool check_origin(visit *v)
{
    if (strcmp(v->ask.method, "POST") != 0) return true;
    const char *origin = v->headers[ORIGIN];
    if (origin && strncmp(origin, "http://", 7) == 0 && strcmp(origin + 7, v->headers[HOST]) == 0) return true;
    return refuse(v, 403, "origin", origin ? "This comes from a page of another origin" : "The request does not say which page it comes from (Origin)",
                  "Use the page that this Tuskwright itself shows");
}

static bool check_token(visit *v)
{
    if (strcmp(v->ask.path, "/") != 0 || !tw_door_query(&v->ask, "token")) return true;
    bool right = brings_token(v);
    if (!right && v->caller == TW_STRANGER) {
        bool may = tw_guard_may(&v->door->guard, TW_MEASURE_TRY, v->guest->ends.peer, now_ms());
        if (!may) return refuse(v, 429, "too-often", "Too many wrong addresses were tried", "Wait a minute, then open the address as it was printed");
        return true;  // and is shown how to get in
    }
    const char *home = v->door->options.home;
    if (right) set_cookie(v, v->door->guard.desk, "");
    v->refused = true;
    v->reply = see_other(right && home ? home : "/");
    return false;
}

static bool check_guest(visit *v)
{
    if (v->caller != TW_STRANGER) v->guest->known = true;
    if (v->caller != TW_STRANGER || v->is_open) return true;
    bool on_network = v->door->options.on_network;
    refuse(v, 403, "not-let-in", "This browser is not let in (yet, or any more: each start has new keys)",
           on_network ? "Open the address that \"tuskwright serve\" printed, or pair this device anew"
                      : "Open the address that \"tuskwright serve\" printed");
    if (!is_api(v)) v->reply = tw_page_how_to_get_in(&v->arena, on_network);
    return false;
}

static bool check_route(visit *v)
{
    if (!v->allow)
        return refuse(v, 404, "no-such-path", tw_format(&v->arena, "There is nothing at %s", v->ask.path), "Go back to the first page, and on from there");
    if (v->route || (v->file && strcmp(v->ask.method, "GET") == 0)) return true;
    return refuse(v, 405, "method", tw_format(&v->arena, "%s answers to %s only", v->ask.path, v->allow), "");
}

static bool is_type(const char *given, const char *wanted)
{
    size_t length = strlen(wanted);
    return given && strncasecmp(given, wanted, length) == 0 && strchr("; \t", given[length]) != NULL;
}

static bool check_type_and_size(visit *v)
{
    if (strcmp(v->ask.method, "POST") != 0) return true;
    size_t most = v->route->body_most < TW_DOOR_BODY_MOST ? v->route->body_most : TW_DOOR_BODY_MOST;
    if (v->length > most)
        return refuse(v, 413, "too-large", tw_format(&v->arena, "That is too large: more than %zu bytes", most), "Make it smaller");
    if (is_type(v->headers[TYPE], v->body_type)) return true;
    return refuse(v, 415, "type", tw_format(&v->arena, "The body is not of the type %s", v->body_type), "Say so in Content-Type");
}

static bool (*const checks[])(visit *) = {
    check_line, check_headers, find_route, check_rate, check_host, check_site, check_method, check_body, check_origin, check_token, check_guest,
    check_route, check_type_and_size
};

static bool check_all(visit *v)
{
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
        if (!checks[i](v)) return false;
    return true;
}

static void serve(visit *v)
{
    v->ask.body = (tw_text){ v->body ? v->body : "", v->got };
    v->ask.paired = v->caller == TW_DEVICE;
    if (v->route) v->reply = v->route->handle(v->own ? v : v->door->context, &v->ask);
    else v->reply = (tw_reply){ .status = 200, .type = v->file->type, .body = v->file->bytes, .etag = v->file->digest, .stored = true };
}

/* ---- what libmicrohttpd calls ---- */

static guest *guest_of(struct MHD_Connection *connection)
{
    return MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT)->socket_context;
}

static void shut_out(guest *one)
{
    one->leaving = true;
    shutdown(one->socket, SHUT_RDWR);
}

/* Makes room when the door is crowded. */
static void shut_out_a_stranger(const tw_door *door)
{
    guest *oldest = NULL;
    size_t staying = 0;
    for (size_t i = 0; i < door->guest_count; i++) {
        guest *one = door->guests[i];
        staying += !one->leaving;
        if (!one->leaving && !one->known && (!oldest || one->since_ms < oldest->since_ms)) oldest = one;
    }
    if (oldest && staying >= GUESTS_CROWDED) shut_out(oldest);
}

static void end_visit(guest *one)
{
    if (!one->visit) return;
    tw_arena_finish(&one->visit->arena);
    free(one->visit);
    one->visit = NULL;
}

static void *taken(tw_door *door, size_t size)
{
    void *memory = calloc(1, size);
    if (memory) return memory;
    if (door->options.out_of_memory) door->options.out_of_memory();
    abort();
}

static void say_goodbye(tw_door *door, guest *one)
{
    end_visit(one);
    for (size_t i = 0; i < door->guest_count; i++)
        if (door->guests[i] == one) {
            door->guests[i] = door->guests[--door->guest_count];
            break;
        }
    free(one);
}

static void greet(void *context, struct MHD_Connection *connection, void **place, enum MHD_ConnectionNotificationCode code)
{
    tw_door *door = context;
    if (code == MHD_CONNECTION_NOTIFY_CLOSED) {
        if (*place) say_goodbye(door, *place);
        *place = NULL;
        return;
    }
    guest *one = taken(door, sizeof *one);
    one->door = door;
    one->socket = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
    one->ends = tw_net_ends(one->socket);
    one->since_ms = now_ms();
    allow_ms(one, STRANGER_IDLE_MS);
    shut_out_a_stranger(door);
    assert(door->guest_count < GUESTS_MOST);
    door->guests[door->guest_count++] = one;
    *place = one;
}

static void *hear(void *context, const char *target, struct MHD_Connection *connection)
{
    tw_door *door = context;
    guest *one = guest_of(connection);
    end_visit(one);
    one->visit = taken(door, sizeof *one->visit);
    *one->visit = (visit){ .door = door, .guest = one, .arena = { .out_of_memory = door->options.out_of_memory } };
    one->visit->target = tw_text_copy(&one->visit->arena, tw_text_of(target));
    allow_ms(one, HEADER_MS);
    return one->visit;
}

static enum MHD_Result note_header(void *context, enum MHD_ValueKind kind, const char *name, size_t name_size, const char *value, size_t size)
{
    visit *v = context;
    (void)kind, (void)name_size;
    if (!value) value = "";
    for (int i = 0; i < HEADER_COUNT; i++) {
        if (strcasecmp(name, header_names[i]) != 0) continue;
        if (v->headers[i] || strlen(value) != size) v->doubled = header_names[i];
        v->headers[i] = tw_text_copy(&v->arena, tw_text_of(value));
    }
    return MHD_YES;
}

static void begin_body(visit *v)
{
    if (v->length > 0) v->body = TW_NEW_ARRAY(&v->arena, char, v->length + 1);
    allow_ms(v->guest, BODY_MS);
}

static enum MHD_Result take_body(visit *v, const char *bytes, size_t *size)
{
    if (*size > v->length - v->got) return MHD_NO;
    memcpy(v->body + v->got, bytes, *size);
    v->got += *size;
    *size = 0;
    return MHD_YES;
}

static enum MHD_Result receive(void *context, struct MHD_Connection *connection, const char *url, const char *method, const char *version,
                               const char *bytes, size_t *size, void **place)
{
    visit *v = *place;
    (void)context, (void)url;
    if (!v) return MHD_NO;
    if (!v->checked) {
        v->checked = true;
        v->method = tw_text_copy(&v->arena, tw_text_of(method));
        v->version = tw_text_copy(&v->arena, tw_text_of(version));
        MHD_get_connection_values_n(connection, MHD_HEADER_KIND, note_header, v);
        if (!check_all(v)) return send_reply(v, connection);
        begin_body(v);
        return MHD_YES;
    }
    if (*size > 0) return take_body(v, bytes, size);
    if (v->got != v->length) return MHD_NO;
    serve(v);
    return send_reply(v, connection);
}

static void forget(void *context, struct MHD_Connection *connection, void **place, enum MHD_RequestTerminationCode how)
{
    (void)context, (void)how;
    guest *one = guest_of(connection);
    *place = NULL;
    if (!one) return;
    end_visit(one);
    allow_ms(one, one->known ? KNOWN_IDLE_MS : STRANGER_IDLE_MS);
}

static size_t leave_as_it_is(void *context, struct MHD_Connection *connection, char *text)
{
    (void)context, (void)connection;
    return strlen(text);
}

/* ---- open, run, close ---- */

static bool start_daemon(tw_door *door)
{
    door->daemon = MHD_start_daemon(MHD_USE_EPOLL, 0, NULL, NULL, receive, door,
        MHD_OPTION_LISTEN_SOCKET, door->listener,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)GUESTS_MOST,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)GUEST_BYTES,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)(REPLY_MS / 1000),
        MHD_OPTION_STRICT_FOR_CLIENT, 1,
        MHD_OPTION_UNESCAPE_CALLBACK, leave_as_it_is, NULL,
        MHD_OPTION_NOTIFY_CONNECTION, greet, door,
        MHD_OPTION_NOTIFY_COMPLETED, forget, door,
        MHD_OPTION_URI_LOG_CALLBACK, hear, door,
        MHD_OPTION_END);
    if (door->daemon) door->listener = -1;  // it is libmicrohttpd's from now on
    return door->daemon != NULL;
}

static bool open_all(tw_door *door, const char **why)
{
    door->listener = tw_net_listen(door->arena, door->options.on_network, &door->port, why);
    if (door->listener < 0) return false;
    *why = "the system gives no random numbers, so no token can be made";
    if (!tw_guard_begin(&door->guard, door->port)) return false;
    if (door->options.on_network && !tw_guard_make_code(&door->guard, now_ms())) return false;
    *why = "the system gives no more handles; end other programs";
    door->stop = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
    return door->stop >= 0 && start_daemon(door);
}

bool tw_door_open(tw_arena *arena, const tw_door_options *options, const tw_route *routes, size_t count, void *context,
                  tw_door **door, const char **why)
{
    assert(options->port >= 0 && options->port <= 65535);
    tw_door *made = TW_NEW(arena, tw_door);
    *made = (tw_door){ .arena = arena, .options = *options, .routes = routes, .count = count, .context = context, .listener = -1, .stop = -1,
                       .port = options->port };
    bool good = open_all(made, why);
    if (good) made->address = tw_format(arena, "http://127.0.0.1:%d/?token=%s", made->port, made->guard.token);
    else tw_door_close(made);
    *door = good ? made : NULL;
    return good;
}

/* Shuts out who takes too long; returns the milliseconds until the next moment to look, -1: never. */
static int keep_time(const tw_door *door)
{
    int64_t now = now_ms(), next = INT64_MAX;
    for (size_t i = 0; i < door->guest_count; i++) {
        guest *one = door->guests[i];
        if (one->until_ms <= now) {
            shut_out(one);
            one->until_ms = now + 1000;  // it is gone when libmicrohttpd has seen it
        }
        if (one->until_ms < next) next = one->until_ms;
    }
    return next == INT64_MAX ? -1 : (int)(next - now) + 1;
}

/* Waits until there is something to do, and lets libmicrohttpd do it. False: stopped, or the system fails (*failed). */
static bool run_once(tw_door *door, int most_ms, bool *failed)
{
    struct pollfd both[] = { { .fd = MHD_get_daemon_info(door->daemon, MHD_DAEMON_INFO_EPOLL_FD)->epoll_fd, .events = POLLIN },
                             { .fd = door->stop, .events = POLLIN } };
    MHD_UNSIGNED_LONG_LONG wanted;
    int wait = keep_time(door);
    if (MHD_get_timeout(door->daemon, &wanted) == MHD_YES && (wait < 0 || wanted < (unsigned)wait)) wait = (int)wanted;
    if (most_ms >= 0 && (wait < 0 || most_ms < wait)) wait = most_ms;
    *failed = poll(both, most_ms < 0 ? 2 : 1, wait) < 0 && errno != EINTR;
    if (*failed || (most_ms < 0 && both[1].revents)) return false;
    *failed = MHD_run(door->daemon) != MHD_YES;
    return !*failed;
}

static bool any_visit(const tw_door *door)
{
    for (size_t i = 0; i < door->guest_count; i++)
        if (door->guests[i]->visit) return true;
    return false;
}

/* Takes no new guests, and sends what is on its way. */
static void leave(tw_door *door)
{
    bool failed = false;
    int listener = MHD_quiesce_daemon(door->daemon);
    if (listener >= 0) close(listener);
    for (int64_t until = now_ms() + LEAVE_MS; any_visit(door) && !failed && now_ms() < until;) run_once(door, 50, &failed);
}

bool tw_door_run(tw_door *door)
{
    bool failed = false;
    while (run_once(door, -1, &failed)) continue;
    if (!failed) leave(door);
    return !failed;
}

void tw_door_stop(tw_door *door)
{
    uint64_t one = 1;
    int kept = errno;
    ssize_t written = write(door->stop, &one, sizeof one);
    (void)written;  // it is full only when it was stopped already
    errno = kept;
}

void tw_door_close(tw_door *door)
{
    if (!door) return;
    if (door->daemon) MHD_stop_daemon(door->daemon);
    if (door->listener >= 0) close(door->listener);
    if (door->stop >= 0) close(door->stop);
    *door = (tw_door){ .listener = -1, .stop = -1 };
}

int tw_door_port(const tw_door *door) { return door->port; }
const char *tw_door_address(const tw_door *door) { return door->address; }

void tw_door_pairing_put(tw_door *door, tw_sink *sink)
{
    const char *code = tw_guard_code(&door->guard, now_ms());
    if (!door->options.on_network || !code) return;
    tw_addresses list = tw_net_addresses(door->arena);
    if (list.count == 0) tw_put_text(sink, "tuskwright: this computer is on no network now; the desk's page shows the address when it is\n");
    for (size_t i = 0; i < list.count; i++)
        tw_putf(sink, "tuskwright: on a tablet in the shop open http://%s:%d" TW_PAGE_PAIR_PATH "\n", list.items[i], door->port);
    tw_putf(sink, "tuskwright: and give it the code %.3s %s, good for 10 minutes and one device; others in the same network can read "
            "what passes, so use a network of your own\n", code, code + 3);
}

const char *tw_door_query(const tw_door_ask *ask, const char *name) { return tw_query_value(ask->arena, ask->query, name); }

bool tw_door_query_whole(const tw_door_ask *ask, const char *name, int64_t least, int64_t most, int64_t *value)
{
    const char *text = tw_door_query(ask, name);
    if (!text) return false;
    size_t digits = strspn(text, "0123456789");
    if (digits == 0 || digits > 18 || text[digits] != '\0') return false;
    int64_t read = strtoll(text, NULL, 10);
    if (read < least || read > most) return false;
    *value = read;
    return true;
}
