// SPDX-License-Identifier: GPL-3.0-or-later
/* Reading what a browser sends. Sources: RFC 3986 (targets, percent signs), the URL Standard's form encoding (+ and %),
 * RFC 6265 (cookies). */
#include "serve/door_words.h"

#include <assert.h>
#include <string.h>

#include "job/characters.h"

bool tw_is_plain_utf8(tw_text text)
{
    for (size_t at = 0; at < text.length;) {
        tw_character one = tw_character_at(text, at);
        if (one.code == TW_BAD_BYTE || one.code < 0x20 || (one.code >= 0x7f && one.code < 0xa0)) return false;
        at += one.length;
    }
    return true;
}

/* ---- paths ---- */

static bool is_path_character(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.' ||
        c == '/';
}

static const char *path_fault(tw_text path)
{
    if (path.length == 0 || path.bytes[0] != '/') return "an address here begins with one slash";
    for (size_t i = 0; i < path.length; i++)
        if (!is_path_character(path.bytes[i])) return "the path of an address here holds letters, digits, - _ . and / only";
    for (size_t at = 1; at < path.length;) {
        const char *slash = memchr(path.bytes + at, '/', path.length - at);
        size_t end = slash ? (size_t)(slash - path.bytes) : path.length;
        bool only_points = strspn(path.bytes + at, ".") >= end - at;
        if (only_points) return "no word of an address here is empty or made of points";
        at = end + 1;
    }
    return NULL;
}

const char *tw_target_read(tw_arena *arena, const char *target, tw_target *read, bool *too_long)
{
    size_t length = strlen(target), path_length = strcspn(target, "?");
    *too_long = length > TW_DOOR_TARGET_MOST;
    if (*too_long) return "the address is too long";
    *read = (tw_target){ .path = tw_text_copy(arena, (tw_text){ target, path_length }) };
    if (path_length < length) read->query = tw_text_of(tw_text_copy(arena, tw_text_of(target + path_length + 1)));
    const char *fault = path_fault(tw_text_of(read->path));
    if (fault) return fault;
    if (tw_query_is_well_written(read->query)) return NULL;
    return "what follows the question mark is not written in UTF-8, with % and two hexadecimal digits for all but letters";
}

/* ---- forms and queries ---- */

static int hex_digit(char c)
{
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

/* Decodes into `to`, which has room for as many bytes; SIZE_MAX when a % stands alone. */
static size_t decode(tw_text word, char *to)
{
    size_t count = 0;
    for (size_t i = 0; i < word.length; i++) {
        char c = word.bytes[i];
        if (c != '%') {
            to[count++] = c == '+' ? ' ' : c;
            continue;
        }
        int high = i + 2 < word.length ? hex_digit(word.bytes[i + 1]) : -1;
        int low = high < 0 ? -1 : hex_digit(word.bytes[i + 2]);
        if (low < 0) return SIZE_MAX;
        to[count++] = (char)(unsigned char)(high << 4 | low);
        i += 2;
    }
    return count;
}

/* The text up to the mark, which is taken off with it. */
static tw_text take_until(tw_text *rest, char mark)
{
    const char *found = rest->length > 0 ? memchr(rest->bytes, mark, rest->length) : NULL;
    size_t length = found ? (size_t)(found - rest->bytes) : rest->length;
    tw_text taken = { rest->bytes, length };
    size_t gone = length + (found != NULL);
    *rest = rest->length > gone ? (tw_text){ rest->bytes + gone, rest->length - gone } : (tw_text){ NULL, 0 };
    return taken;
}

static bool word_is_well_written(tw_arena *arena, tw_text word)
{
    char *decoded = TW_NEW_ARRAY(arena, char, word.length + 1);
    size_t length = decode(word, decoded);
    return length != SIZE_MAX && tw_is_plain_utf8((tw_text){ decoded, length });
}

bool tw_query_is_well_written(tw_text form)
{
    tw_arena arena = { 0 };
    bool good = true;
    while (good && form.length > 0) {
        tw_text value = take_until(&form, '&'), name = take_until(&value, '=');
        good = word_is_well_written(&arena, name) && word_is_well_written(&arena, value);
    }
    tw_arena_finish(&arena);
    return good;
}

char *tw_query_value(tw_arena *arena, tw_text form, const char *name)
{
    while (form.length > 0) {
        tw_text value = take_until(&form, '&'), key = take_until(&value, '=');
        char *decoded = TW_NEW_ARRAY(arena, char, (key.length > value.length ? key.length : value.length) + 1);
        size_t length = decode(key, decoded);
        if (length == SIZE_MAX || !tw_text_is((tw_text){ decoded, length }, name)) continue;
        length = decode(value, decoded);
        if (length == SIZE_MAX) return NULL;
        decoded[length] = '\0';
        return decoded;
    }
    return NULL;
}

/* ---- cookies and secrets ---- */

static tw_text trimmed(tw_text text)
{
    while (text.length > 0 && text.bytes[0] == ' ') text = (tw_text){ text.bytes + 1, text.length - 1 };
    while (text.length > 0 && text.bytes[text.length - 1] == ' ') text.length--;
    return text;
}

tw_text tw_cookie_value(tw_text header, const char *name, size_t at)
{
    while (header.length > 0) {
        tw_text value = trimmed(take_until(&header, ';')), key = take_until(&value, '=');
        if (tw_text_is(key, name) && at-- == 0) return value;
    }
    return (tw_text){ NULL, 0 };
}

bool tw_same_secret(tw_text given, const char *secret)
{
    size_t length = strlen(secret);
    assert(length > 0);
    unsigned char differs = given.length != length;
    for (size_t i = 0; i < length; i++) {
        char other = i < given.length ? given.bytes[i] : '\0';
        differs |= (unsigned char)(other ^ secret[i]);
    }
    return differs == 0;
}
