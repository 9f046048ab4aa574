// SPDX-License-Identifier: GPL-3.0-or-later
/* Any bytes as the target of a request, as a form and as a cookie: what is let through is plain, and read the same twice. */
#include <stdlib.h>
#include <string.h>

#include "serve/door_words.h"

#define MUST(condition) ((condition) ? (void)0 : abort())

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

static bool has_word_of_points(const char *path)
{
    for (const char *word = path + 1; *word; word += strcspn(word, "/"), word += *word == '/')
        if (strspn(word, ".") == strcspn(word, "/")) return true;
    return false;
}

static void check_target(tw_arena *arena, const char *text)
{
    tw_target read;
    bool too_long;
    const char *fault = tw_target_read(arena, text, &read, &too_long);
    if (fault) {
        MUST(*fault != '\0');
        return;
    }
    MUST(!too_long && read.path[0] == '/' && !strstr(read.path, "//") && !has_word_of_points(read.path));
    MUST(strspn(read.path, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./") == strlen(read.path));
    MUST(tw_query_is_well_written(read.query));
    MUST(strlen(read.path) + read.query.length <= strlen(text));
}

static void check_form(tw_arena *arena, tw_text form)
{
    bool good = tw_query_is_well_written(form);
    static const char *const names[] = { "a", "id", "", "token" };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        const char *value = tw_query_value(arena, form, names[i]);
        if (good && value) MUST(tw_is_plain_utf8(tw_text_of(value)) && strlen(value) <= form.length);
    }
}

static void check_cookie(tw_text header)
{
    for (size_t at = 0; at < 4; at++) {
        tw_text value = tw_cookie_value(header, "a", at);
        if (value.length == 0) continue;
        MUST(value.bytes >= header.bytes && value.bytes + value.length <= header.bytes + header.length);
        MUST(!memchr(value.bytes, ';', value.length));
    }
    MUST(!tw_same_secret(header, "0123456789abcdef") || tw_text_is(header, "0123456789abcdef"));
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    tw_arena arena = { 0 };
    tw_text text = { (const char *)bytes, count };
    check_target(&arena, tw_text_copy(&arena, text));
    check_form(&arena, text);
    check_cookie(text);
    tw_arena_finish(&arena);
    return 0;
}
