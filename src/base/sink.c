// SPDX-License-Identifier: GPL-3.0-or-later
/* Bytes out. A sink that has failed once stays failed: the writer checks once, at the end. */
#include "base/base.h"

#include <assert.h>
#include <math.h>
#include <string.h>

void tw_put(tw_sink *sink, const char *bytes, size_t count)
{
    if (sink->failed || count == 0) return;
    if (!sink->write(sink->context, bytes, count)) sink->failed = true;
}

void tw_put_text(tw_sink *sink, const char *zero_ended) { tw_put(sink, zero_ended, strlen(zero_ended)); }

void tw_putf(tw_sink *sink, const char *format, ...)
{
    tw_arena arena = {0};
    va_list list;
    va_start(list, format);
    tw_put_text(sink, tw_format_list(&arena, format, list));
    va_end(list);
    tw_arena_finish(&arena);
}

/* Length of the valid UTF-8 sequence at bytes (a zero-ended text), 0 if there is none. */
static size_t utf8_length(const unsigned char *bytes)
{
    if (bytes[0] < 0x80) return 1;
    size_t length = bytes[0] >= 0xC2 && bytes[0] <= 0xDF ? 2 : (bytes[0] & 0xF0) == 0xE0 ? 3
                  : bytes[0] >= 0xF0 && bytes[0] <= 0xF4 ? 4 : 0;
    for (size_t i = 1; i < length; i++)
        if ((bytes[i] & 0xC0) != 0x80) return 0;
    if (length == 3 && bytes[0] == 0xE0 && bytes[1] < 0xA0) return 0;
    if (length == 3 && bytes[0] == 0xED && bytes[1] > 0x9F) return 0;
    if (length == 4 && bytes[0] == 0xF0 && bytes[1] < 0x90) return 0;
    if (length == 4 && bytes[0] == 0xF4 && bytes[1] > 0x8F) return 0;
    return length;
}

/* Bytes from here that stand in a JSON string as they are, one for each character. */
static size_t plain_length(const unsigned char *bytes)
{
    size_t length = 0;
    while (bytes[length] >= 0x20 && bytes[length] < 0x7F && bytes[length] != '"' && bytes[length] != '\\') length++;
    return length;
}

void tw_put_json_text(tw_sink *sink, const char *zero_ended)
{
    tw_put(sink, "\"", 1);
    for (const unsigned char *at = (const unsigned char *)zero_ended; *at;) {
        size_t length = utf8_length(at), plain = plain_length(at);
        if (plain > 0) { tw_put(sink, (const char *)at, plain); at += plain; continue; }
        if (length == 0) { tw_put_text(sink, "\\ufffd"); at++; continue; }
        if (*at == '"' || *at == '\\') tw_putf(sink, "\\%c", *at);
        else if (*at == '\n') tw_put_text(sink, "\\n");
        else if (*at == '\t') tw_put_text(sink, "\\t");
        else if (*at < 0x20 || *at == 0x7F) tw_putf(sink, "\\u%04x", *at);
        else tw_put(sink, (const char *)at, length);
        at += length;
    }
    tw_put(sink, "\"", 1);
}

#define WHOLE_MOST 1e15  // whole numbers below it are exact, and written without formatting

static void put_whole(tw_sink *sink, int64_t number)
{
    char digits[20], *at = digits + sizeof digits;
    bool negative = number < 0;
    uint64_t left = negative ? (uint64_t)-number : (uint64_t)number;
    do *--at = (char)('0' + left % 10); while (left /= 10);
    if (negative) *--at = '-';
    tw_put(sink, at, (size_t)(digits + sizeof digits - at));
}

void tw_put_json_number(tw_sink *sink, double value)
{
    assert(isfinite(value));
    if (fabs(value) < WHOLE_MOST && value == floor(value)) {
        put_whole(sink, (int64_t)value);
        return;
    }
    tw_arena arena = {0};
    char *text = tw_format(&arena, "%.9f", value);
    size_t length = strlen(text);
    while (text[length - 1] == '0') length--;
    if (text[length - 1] == '.') length--;
    text[length] = '\0';
    tw_put_text(sink, strcmp(text, "-0") == 0 ? "0" : text);
    tw_arena_finish(&arena);
}

static bool gather(void *context, const char *bytes, size_t count)
{
    tw_gather *all = context;
    while (all->room - all->count < count + 1) {
        size_t room = all->room < 256 ? 256 : all->room * 2;
        char *fresh = tw_arena_take(all->arena, room, 1);
        if (all->count > 0) memcpy(fresh, all->bytes, all->count);
        all->bytes = fresh;
        all->room = room;
    }
    memcpy(all->bytes + all->count, bytes, count);
    all->count += count;
    return true;
}

tw_sink tw_gather_sink(tw_gather *all) { return (tw_sink){ .write = gather, .context = all }; }

tw_text tw_gathered(tw_gather *all)
{
    if (all->room == 0) return (tw_text){ "", 0 };
    all->bytes[all->count] = '\0';
    return (tw_text){ all->bytes, all->count };
}
