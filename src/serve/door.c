// SPDX-License-Identifier: GPL-3.0-or-later
/* The door: the only file that meets libmicrohttpd.
 *
 * A guest is a connection, a visit one request on it. libmicrohttpd calls greet() when a connection comes, hear() when a
 * request line is there, receive() when its header is there (then the visit is checked), once more for each part of its
 * body, and once when all of it is there (then it is served), forget() when its reply is sent, and greet() again when the
 * connection ends.
 *
 * Its own timeout watches for silence only, so a slow drip would live for ever: each guest has a moment until which the step
 * that he is at must be done (until_ms), and is shut out when it has passed. When the door is crowded strangers have only a
 * moment to say who they are, so that they cannot keep a guest from coming in. */
#define _GNU_SOURCE
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

#include "serve/door_inside.h"

#define GUESTS_CROWDED   48      // from here on strangers must be quick
#define CROWDED_MS       300
#define CROWDED_LOOK_MS  20      // a full door takes new ones in only when libmicrohttpd is called again after one has left
#define GUEST_BYTES      32768   // for the header of a request
#define KNOWN_IDLE_MS    75000   // between two requests of who was let in
#define STRANGER_IDLE_MS 10000   // and of who was not
#define HEADER_MS        10000   // from the request line to the end of the header
#define BODY_MS          30000
#define REPLY_MS         120000  // a booklet over a poor network
#define LEAVE_MS         2000    // for the replies that are on their way when it ends

static const char *const header_names[TW_HEADER_COUNT] = {
    [TW_HOST] = "Host", [TW_ORIGIN] = "Origin", [TW_COOKIE] = "Cookie", [TW_SITE] = "Sec-Fetch-Site", [TW_LENGTH] =
        "Content-Length",
    [TW_TYPE] = "Content-Type", [TW_CODING] = "Transfer-Encoding", [TW_EXPECT] = "Expect", [TW_NONE_MATCH] = "If-None-Match"
};

int64_t tw_door_now_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void allow_ms(tw_guest *one, int64_t ms)
{
    double patience = one->door->options.patience;
    one->until_ms = tw_door_now_ms() + (patience > 0 ? (int64_t)((double)ms * patience) : ms);
}

static enum MHD_Result send_reply(tw_visit *v, struct MHD_Connection *connection)
{
    tw_header_line lines[TW_HEADER_LINES];
    tw_reply_if_changed(v);
    tw_reply_headers(v, lines);
    tw_text body = v->reply.body;
    struct MHD_Response *response = MHD_create_response_from_buffer(body.length, (void *)(uintptr_t)body.bytes,
                                                                    MHD_RESPMEM_PERSISTENT);
    if (!response) return MHD_NO;
    for (size_t i = 0; i < TW_HEADER_LINES; i++)
        if (lines[i].value) MHD_add_response_header(response, lines[i].name, lines[i].value);
    enum MHD_Result queued = MHD_queue_response(connection, (unsigned)v->reply.status, response);
    MHD_destroy_response(response);
    allow_ms(v->guest, REPLY_MS);
    return queued;
}

static void serve(tw_visit *v)
{
    v->ask.body = (tw_text){ v->body ? v->body : "", v->got };
    v->ask.paired = v->caller == TW_DEVICE;
    if (v->route) v->reply = v->route->handle(v->own ? v : v->door->context, &v->ask);
    else v->reply = (tw_reply){ .status = 200, .type = v->file->type, .body = v->file->bytes, .etag = v->file->digest,
                               .stored = true };
}

/* ---- what libmicrohttpd calls ---- */

static tw_guest *guest_of(struct MHD_Connection *connection)
{
    return MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT)->socket_context;
}

static void shut_out(tw_guest *one)
{
    one->leaving = true;
    shutdown(one->socket, SHUT_RDWR);
}

static void end_visit(tw_guest *one)
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

static void say_goodbye(tw_door *door, tw_guest *one)
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
    tw_guest *one = taken(door, sizeof *one);
    one->door = door;
    one->socket = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
    one->ends = tw_net_ends(one->socket);
    one->since_ms = tw_door_now_ms();
    allow_ms(one, STRANGER_IDLE_MS);
    assert(door->guest_count < TW_GUESTS_MOST);
    door->guests[door->guest_count++] = one;
    *place = one;
}

static void *hear(void *context, const char *target, struct MHD_Connection *connection)
{
    tw_door *door = context;
    tw_guest *one = guest_of(connection);
    end_visit(one);
    one->visit = taken(door, sizeof *one->visit);
    *one->visit = (tw_visit){ .door = door, .guest = one, .arena = { .out_of_memory = door->options.out_of_memory } };
    one->visit->target = tw_text_copy(&one->visit->arena, tw_text_of(target));
    allow_ms(one, HEADER_MS);
    return one->visit;
}

static enum MHD_Result note_header(void *context, enum MHD_ValueKind kind, const char *name, size_t name_size,
                                   const char *value, size_t size)
{
    tw_visit *v = context;
    (void)kind, (void)name_size;
    if (!value) value = "";
    for (int i = 0; i < TW_HEADER_COUNT; i++) {
        if (strcasecmp(name, header_names[i]) != 0) continue;
        if (v->headers[i] || strlen(value) != size) v->doubled = header_names[i];
        v->headers[i] = tw_text_copy(&v->arena, tw_text_of(value));
    }
    return MHD_YES;
}

static void begin_body(tw_visit *v)
{
    if (v->length > 0) v->body = TW_NEW_ARRAY(&v->arena, char, v->length + 1);
    allow_ms(v->guest, BODY_MS);
}

static enum MHD_Result take_body(tw_visit *v, const char *bytes, size_t *size)
{
    if (*size > v->length - v->got) return MHD_NO;
    memcpy(v->body + v->got, bytes, *size);
    v->got += *size;
    *size = 0;
    return MHD_YES;
}

static enum MHD_Result receive(void *context, struct MHD_Connection *connection, const char *url, const char *method,
                               const char *version,
                               const char *bytes, size_t *size, void **place)
{
    tw_visit *v = *place;
    (void)context, (void)url;
    if (!v) return MHD_NO;
    if (!v->checked) {
        v->checked = true;
        v->method = tw_text_copy(&v->arena, tw_text_of(method));
        v->version = tw_text_copy(&v->arena, tw_text_of(version));
        MHD_get_connection_values_n(connection, MHD_HEADER_KIND, note_header, v);
        if (!tw_visit_check(v)) return send_reply(v, connection);
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
    tw_guest *one = guest_of(connection);
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
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)TW_GUESTS_MOST,
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
    if (door->options.on_network && !tw_guard_make_code(&door->guard, tw_door_now_ms())) return false;
    *why = "the system gives no more handles; end other programs";
    door->stop = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
    return door->stop >= 0 && start_daemon(door);
}

bool tw_door_open(tw_arena *arena, const tw_door_options *options, const tw_route *routes, size_t count, void *context,
                  tw_door **door, const char **why)
{
    assert(options->port >= 0 && options->port <= 65535);
    tw_door *made = TW_NEW(arena, tw_door);
    *made = (tw_door){ .arena = arena, .options = *options, .routes = routes, .count = count, .context = context, .listener =
                      -1, .stop = -1,
                       .port = options->port };
    bool good = open_all(made, why);
    if (good) made->address = tw_format(arena, "http://127.0.0.1:%d/?token=%s", made->port, made->guard.token);
    else tw_door_close(made);
    *door = good ? made : NULL;
    return good;
}

static int64_t time_of(const tw_door *door, const tw_guest *one)
{
    int64_t crowded_ms = one->since_ms + CROWDED_MS;
    bool is_short = door->guest_count >= GUESTS_CROWDED && !one->known && crowded_ms < one->until_ms;
    return is_short ? crowded_ms : one->until_ms;
}

/* Shuts out who takes too long; returns the milliseconds until the next moment to look, -1: never. */
static int keep_time(const tw_door *door)
{
    int64_t now = tw_door_now_ms(), next = INT64_MAX;
    for (size_t i = 0; i < door->guest_count; i++) {
        tw_guest *one = door->guests[i];
        if (one->leaving) continue;  // it is gone when libmicrohttpd has seen it
        int64_t until = time_of(door, one);
        if (until <= now) shut_out(one);
        else if (until < next) next = until;
    }
    if (door->guest_count >= GUESTS_CROWDED) return CROWDED_LOOK_MS;
    return next == INT64_MAX ? -1 : (int)(next - now) + 1;
}

/* Lets libmicrohttpd do what there is to do. While a handler works nobody is listened to: that counts against no guest. */
static bool let_it_work(tw_door *door)
{
    int64_t before = tw_door_now_ms();
    bool crowded = door->guest_count >= GUESTS_CROWDED, good = MHD_run(door->daemon) == MHD_YES;
    if (crowded && good) good = MHD_run(door->daemon) == MHD_YES;  // takes in new ones for those who left
    int64_t spent = tw_door_now_ms() - before;
    for (size_t i = 0; i < door->guest_count; i++) {
        door->guests[i]->since_ms += spent;
        door->guests[i]->until_ms += spent;
    }
    return good;
}

/* Waits until there is something to do, and lets it be done. False: stopped, or the system fails (*failed). */
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
    *failed = !let_it_work(door);
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
    for (int64_t until = tw_door_now_ms() + LEAVE_MS; any_visit(door) && !failed && tw_door_now_ms() < until;)
        run_once(door, 50, &failed);
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
