// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/json.h"

#include <assert.h>
#include <math.h>

#define DEPTH_MOST 12

/* The comma after what stands before, a new line, the key. */
static void start(tw_json *json, const char *key)
{
    static const char blanks[DEPTH_MOST + 1] = "            ";
    assert(json->depth <= DEPTH_MOST);
    if (json->started) tw_put(json->sink, ",", 1);
    if (!json->tight) {
        if (json->depth > 0) tw_put(json->sink, "\n", 1);
        tw_put(json->sink, blanks, (size_t)json->depth);
    }
    json->started = true;
    if (!key) return;
    tw_put_json_text(json->sink, key);
    tw_put(json->sink, ": ", json->tight ? 1 : 2);
}

void tw_json_open(tw_json *json, const char *key, char bracket)
{
    start(json, key);
    tw_put(json->sink, &bracket, 1);
    json->depth++;
    json->started = false;
}

void tw_json_close(tw_json *json, char bracket)
{
    assert(json->depth > 0);
    json->depth--;
    if (json->started && !json->tight) tw_putf(json->sink, "\n%.*s", json->depth, "            ");
    tw_put(json->sink, &bracket, 1);
    json->started = true;
}

void tw_json_text(tw_json *json, const char *key, const char *text)
{
    start(json, key);
    tw_put_json_text(json->sink, text ? text : "");
}

static void put_number(tw_sink *sink, double value)
{
    if (isfinite(value)) tw_put_json_number(sink, value);
    else tw_put_text(sink, "null");
}

void tw_json_number(tw_json *json, const char *key, double value)
{
    start(json, key);
    put_number(json->sink, value);
}

void tw_json_numbers(tw_json *json, const char *key, const double *values, int count)
{
    start(json, key);
    for (int i = 0; i < count; i++) {
        tw_put_text(json->sink, i > 0 ? ", " : "[");
        put_number(json->sink, values[i]);
    }
    tw_put_text(json->sink, count > 0 ? "]" : "[]");
}

void tw_json_yes_no(tw_json *json, const char *key, bool value)
{
    start(json, key);
    tw_put_text(json->sink, value ? "true" : "false");
}

void tw_json_nothing(tw_json *json, const char *key)
{
    start(json, key);
    tw_put_text(json->sink, "null");
}

void tw_json_texts(tw_json *json, const char *key, const char *const *texts)
{
    if (!texts) {
        tw_json_nothing(json, key);
        return;
    }
    tw_json_open(json, key, '[');
    for (; *texts; texts++) tw_json_text(json, NULL, *texts);
    tw_json_close(json, ']');
}

static void put_vertex(tw_sink *sink, tw_vertex vertex)
{
    tw_put(sink, "[", 1);
    put_number(sink, vertex.x);
    tw_put(sink, ", ", 2);
    put_number(sink, vertex.y);
    tw_put(sink, ", ", 2);
    put_number(sink, vertex.bulge);
    tw_put(sink, "]", 1);
}

void tw_json_outline(tw_json *json, const char *key, tw_outline outline)
{
    tw_json_open(json, key, '[');
    for (int i = 0; i < outline.count; i++) {
        start(json, NULL);
        tw_put(json->sink, "[", 1);
        for (int k = 0; k < outline.loops[i].count; k++) {
            if (k > 0) tw_put(json->sink, ", ", 2);
            put_vertex(json->sink, outline.loops[i].vertices[k]);
        }
        tw_put(json->sink, "]", 1);
    }
    tw_json_close(json, ']');
}
