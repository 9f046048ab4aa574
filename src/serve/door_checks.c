// SPDX-License-Identifier: GPL-3.0-or-later
/* What is looked at before anybody is served. Each check returns false when it has refused the visit. */
#define _GNU_SOURCE
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "serve/door_inside.h"
#include "serve/door_pages.h"
#include "serve/door_words.h"

bool tw_visit_is_api(const tw_visit *v) { return strncmp(v->target, "/api/", 5) == 0; }

/* Refuses the visit: JSON for the page's own calls, a page for all else. */
static bool refuse(tw_visit *v, int status, const char *code, const char *what, const char *remedy)
{
    v->refused = true;
    v->reply = tw_visit_is_api(v) ? tw_reply_error(&v->arena, status, code, what, remedy)
                                  : tw_page_says(&v->arena, status, "That does not work", what, remedy);
    return false;
}

/* Takes the request line apart; check_line() tells what is wrong with it, after the knocks are counted. */
static bool read_line(tw_visit *v)
{
    tw_target target = { .path = "" };
    v->fault = tw_target_read(&v->arena, v->target, &target, &v->too_long);
    const char *method = strcmp(v->method, "HEAD") == 0 ? "GET" : v->method;
    v->ask = (tw_door_ask){ .method = method, .path = target.path, .query = target.query, .arena = &v->arena };
    return true;
}

static bool check_line(tw_visit *v)
{
    if (strcmp(v->version, "HTTP/1.1") != 0 && strcmp(v->version, "HTTP/1.0") != 0)
        return refuse(v, 505, "http-version", "this door speaks HTTP/1.1", "use a browser of today");
    if (!v->fault) return true;
    return refuse(v, v->too_long ? 414 : 400, "address", v->fault, "go back to the first page, and on from there");
}

static void take_route(tw_visit *v, const tw_route *route, bool is_open, bool own, const char *body_type)
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

static bool find_route(tw_visit *v)
{
    const tw_door *door = v->door;
    for (size_t i = 0; i < tw_room_count; i++)
        take_route(v, &tw_rooms[i].route, tw_rooms[i].is_open, true, tw_rooms[i].body_type);
    for (size_t i = 0; i < door->count && !v->own; i++) take_route(v, &door->routes[i], false, false, TW_JSON_TYPE);
    for (size_t i = 0; i < door->options.file_count && !v->allow; i++)
        if (strcmp(door->options.files[i].path, v->ask.path) == 0) {
            v->file = &door->options.files[i];
            v->allow = "GET, HEAD";
        }
    return true;
}

static bool brings_token(const tw_visit *v)
{
    if (v->fault || !v->guest->ends.from_here || strcmp(v->ask.path, "/") != 0 || strcmp(v->ask.method, "GET") != 0) return false;
    const char *token = tw_door_query(&v->ask, "token");
    return token && tw_guard_is_token(&v->door->guard, tw_text_of(token));
}

static bool check_headers(tw_visit *v)
{
    if (v->doubled)
        return refuse(v, 400, "header", tw_format(&v->arena, "the header %s stands twice", v->doubled),
                      "send it once");
    return true;
}

static bool check_rate(tw_visit *v)
{
    v->caller = tw_guard_who(&v->door->guard, tw_text_of(v->headers[TW_COOKIE] ? v->headers[TW_COOKIE] : ""),
                             v->guest->ends.from_here);
    tw_measure measure = v->caller == TW_STRANGER ? TW_MEASURE_STRANGER : TW_MEASURE_GUEST;
    if (tw_guard_may(&v->door->guard, measure, v->guest->ends.peer, tw_door_now_ms()) || brings_token(v)) return true;
    return refuse(v, 429, "too-often", "more requests come from this device than the door can take",
                  "wait a few seconds, then go on");
}

static bool check_host(tw_visit *v)
{
    const char *host = v->headers[TW_HOST];
    if (!host) return refuse(v, 400, "host", "the request does not say whom it is for (Host)", "use a browser of today");
    if (tw_net_is_host(&v->guest->ends, v->door->port, host)) return true;
    const char *name = v->guest->ends.from_here ? "127.0.0.1" : v->guest->ends.local;
    return refuse(v, 403, "host", "the request is for another name than that of this computer",
                  tw_format(&v->arena, "open the address that begins with http://%s:%d", name, v->door->port));
}

static bool check_site(tw_visit *v)
{
    const char *site = v->headers[TW_SITE];
    if (!site || strcmp(site, "same-origin") == 0 || strcmp(site, "none") == 0) return true;
    return refuse(v, 403, "other-site", "this was asked by a page of another site",
                  "copy the address that \"tuskwright serve\" printed into the address line of the browser yourself");
}

static bool check_method(tw_visit *v)
{
    if (strcmp(v->ask.method, "GET") == 0 || strcmp(v->ask.method, "POST") == 0) return true;
    if (!v->allow) v->allow = "GET, HEAD, POST";
    return refuse(v, 405, "method", "this door knows GET, HEAD and POST only", "");
}

/* How long the body is; it must be said, once and plainly. */
static bool check_body(tw_visit *v)
{
    bool is_post = strcmp(v->ask.method, "POST") == 0;
    const char *length = v->headers[TW_LENGTH];
    if (v->headers[TW_CODING] && length)
        return refuse(v, 400, "body", "the length of the body is told in two ways", "send Content-Length alone");
    if (v->headers[TW_CODING] || (is_post && !length))
        return refuse(v, 411, "body", "the request does not say how long its body is",
                      "send Content-Length, and no Transfer-Encoding");
    if (v->headers[TW_EXPECT] && strcasecmp(v->headers[TW_EXPECT], "100-continue") != 0)
        return refuse(v, 417, "expect", "the request expects what this door does not give", "leave the header Expect out");
    if (!length) return true;
    size_t digits = strspn(length, "0123456789");
    if (digits == 0 || length[digits] != '\0')
        return refuse(v, 400, "body", "the length of the body is no plain number", "send its bytes in digits");
    v->length = digits > 15 ? SIZE_MAX : (size_t)strtoull(length, NULL, 10);
    if (is_post || v->length == 0) return true;
    return refuse(v, v->length > TW_DOOR_BODY_MOST ? 413 : 400, "body", "who only asks sends no body",
                  "leave it out, or use POST");
}

static bool check_origin(tw_visit *v)
{
    if (strcmp(v->ask.method, "POST") != 0) return true;
    const char *origin = v->headers[TW_ORIGIN];
    if (origin && strncmp(origin, "http://", 7) == 0 && strcmp(origin + 7, v->headers[TW_HOST]) == 0) return true;
    const char *what = origin ? "this comes from a page of another origin"
                              : "the request does not say which page it comes from (Origin)";
    return refuse(v, 403, "origin", what, "use the page that this Tuskwright itself shows");
}

static bool check_token(tw_visit *v)
{
    if (strcmp(v->ask.path, "/") != 0 || !tw_door_query(&v->ask, "token")) return true;
    bool right = brings_token(v);
    if (!right && v->caller == TW_STRANGER) {
        bool may = tw_guard_may(&v->door->guard, TW_MEASURE_TRY, v->guest->ends.peer, tw_door_now_ms());
        if (may) return true;  // and he is shown how to get in
        return refuse(v, 429, "too-often", "too many wrong addresses were tried",
                      "wait a minute, then open the address as it was printed");
    }
    const char *home = v->door->options.home;
    if (right) tw_visit_set_cookie(v, v->door->guard.desk, "");
    v->refused = true;
    v->reply = tw_reply_see_other(right && home ? home : "/");
    return false;
}

static bool check_guest(tw_visit *v)
{
    if (v->caller != TW_STRANGER) v->guest->known = true;
    if (v->caller != TW_STRANGER || v->is_open) return true;
    bool on_network = v->door->options.on_network;
    refuse(v, 403, "not-let-in", "this browser is not let in (yet, or any more: each start has new keys)",
           on_network ? "open the address that \"tuskwright serve\" printed, or pair this device anew"
                      : "open the address that \"tuskwright serve\" printed");
    if (!tw_visit_is_api(v)) v->reply = tw_page_how_to_get_in(&v->arena, on_network);
    return false;
}

static bool check_route(tw_visit *v)
{
    if (!v->allow)
        return refuse(v, 404, "no-such-path", tw_format(&v->arena, "there is nothing at %s", v->ask.path),
                      "go back to the first page, and on from there");
    if (v->route || (v->file && strcmp(v->ask.method, "GET") == 0)) return true;
    return refuse(v, 405, "method", tw_format(&v->arena, "%s answers to %s only", v->ask.path, v->allow), "");
}

static bool is_type(const char *given, const char *wanted)
{
    size_t length = strlen(wanted);
    return given && strncasecmp(given, wanted, length) == 0 && strchr("; \t", given[length]) != NULL;
}

static bool check_type_and_size(tw_visit *v)
{
    if (strcmp(v->ask.method, "POST") != 0) return true;
    size_t most = v->route->body_most < TW_DOOR_BODY_MOST ? v->route->body_most : TW_DOOR_BODY_MOST;
    if (v->length > most)
        return refuse(v, 413, "too-large", tw_format(&v->arena, "that is too large: more than %zu bytes", most),
                      "make it smaller");
    if (is_type(v->headers[TW_TYPE], v->body_type)) return true;
    return refuse(v, 415, "type", tw_format(&v->arena, "the body is not of the type %s", v->body_type), "say so in Content-Type");
}

static bool (*const checks[])(tw_visit *) = {
    read_line, find_route, check_rate, check_line, check_headers, check_host, check_site, check_method, check_body,
    check_origin, check_token, check_guest, check_route, check_type_and_size
};

bool tw_visit_check(tw_visit *v)
{
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
        if (!checks[i](v)) return false;
    return true;
}
