// SPDX-License-Identifier: GPL-3.0-or-later
/* A door with a few simple rooms behind it, for the tests that abuse it: door_echo [--on-network] [--hasty]
 * --hasty: it waits for the slow a twentieth as long as usual. */
#define _GNU_SOURCE
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "serve/door.h"

static tw_door *door;

static void stop(int signal)
{
    (void)signal;
    tw_door_stop(door);
}

/* What came of the query, of each name that the test uses. */
static tw_reply get_echo(void *context, const tw_door_ask *ask)
{
    (void)context;
    tw_gather all = { .arena = ask->arena };
    tw_sink sink = tw_gather_sink(&all);
    const char *a = tw_door_query(ask, "a");
    int64_t whole = -1;
    bool is_whole = tw_door_query_whole(ask, "a", 0, 1000, &whole);
    tw_put_text(&sink, "{\"a\":");
    if (a) tw_put_json_text(&sink, a);
    else tw_put_text(&sink, "null");
    tw_putf(&sink, ",\"whole\":%d,\"paired\":%s}", is_whole ? (int)whole : -1, ask->paired ? "true" : "false");
    return (tw_reply){ .status = 200, .body = tw_gathered(&all) };
}

static tw_reply post_echo(void *context, const tw_door_ask *ask)
{
    (void)context;
    return (tw_reply){ .status = 200, .type = "application/octet-stream", .body = ask->body };
}

static tw_reply get_large(void *context, const tw_door_ask *ask)
{
    (void)context;
    size_t length = 20u << 20;
    char *bytes = TW_NEW_ARRAY(ask->arena, char, length);
    memset(bytes, 'w', length);
    return (tw_reply){ .status = 200, .type = "text/plain", .body = { bytes, length } };
}

/* As a long reckoning would. */
static tw_reply get_slow(void *context, const tw_door_ask *ask)
{
    (void)context, (void)ask;
    nanosleep(&(struct timespec){ .tv_sec = 1, .tv_nsec = 500000000 }, NULL);
    return (tw_reply){ .status = 200, .body = tw_text_of("{}") };
}

static tw_reply get_file(void *context, const tw_door_ask *ask)
{
    (void)context;
    const char *name = tw_door_query(ask, "name");
    return (tw_reply){ .status = 200, .type = "application/pdf", .body = tw_text_of("%PDF-"), .file_name = name ? name
                      : "sheet.pdf" };
}

static const tw_route routes[] = {
    { "GET", "/api/echo", get_echo, 0 },
    { "POST", "/api/echo", post_echo, TW_DOOR_BODY_MOST },
    { "POST", "/api/small", post_echo, 100 },
    { "GET", "/api/large", get_large, 0 },
    { "GET", "/api/file", get_file, 0 },
    { "GET", "/api/slow", get_slow, 0 },
};

int main(int count, char *arguments[])
{
    const tw_embedded files[] = {
        { "/", "text/html; charset=utf-8", tw_text_of("<!doctype html><title>page</title>"), "0123abcd" },
        { "/page.css", "text/css; charset=utf-8", tw_text_of("body { color: black; }"), "4567cdef" },
    };
    tw_arena arena = { 0 };
    const char *why;
    tw_door_options options = { .home = "/#/job/12", .files = files, .file_count = 2 };
    for (int i = 1; i < count; i++) {
        if (strcmp(arguments[i], "--on-network") == 0) options.on_network = true;
        if (strcmp(arguments[i], "--hasty") == 0) options.patience = 0.05;
    }
    if (!tw_door_open(&arena, &options, routes, sizeof routes / sizeof *routes, NULL, &door, &why)) {
        fprintf(stderr, "%s\n", why);
        return 3;
    }
    signal(SIGTERM, stop);
    printf("%s\n", tw_door_address(door));
    fflush(stdout);
    bool good = tw_door_run(door);
    tw_door_close(door);
    tw_arena_finish(&arena);
    return good ? 0 : 3;
}
