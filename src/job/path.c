// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/path.h"

#include <assert.h>
#include <string.h>

static void put_word(tw_sink *sink, const char *word)
{
    for (; *word; word++) {
        if (*word == '~') tw_put(sink, "~0", 2);
        else if (*word == '/') tw_put(sink, "~1", 2);
        else tw_put(sink, word, 1);
    }
}

const char *tw_path_text(tw_arena *arena, const char *const *words, size_t count)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    assert(count > 0);
    for (size_t i = 0; i < count; i++) {
        assert(words[i][0]);
        if (i > 0) tw_put(&sink, "/", 1);
        put_word(&sink, words[i]);
    }
    return tw_gathered(&all).bytes;
}

const char *tw_path_join(tw_arena *arena, const char *path, const char *word)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    assert(path[0] && word[0]);
    tw_putf(&sink, "%s/", path);
    put_word(&sink, word);
    return tw_gathered(&all).bytes;
}

/* The word in [begin, end) without its escapes; NULL when it is empty or an escape is none. */
static char *word_of(tw_arena *arena, const char *begin, const char *end)
{
    char *word = tw_arena_take(arena, (size_t)(end - begin) + 1, 1), *at = word;
    for (; begin < end; begin++) {
        if (*begin != '~') {
            *at++ = *begin;
            continue;
        }
        begin++;
        if (begin == end || (*begin != '0' && *begin != '1')) return NULL;
        *at++ = *begin == '0' ? '~' : '/';
    }
    return at > word ? word : NULL;
}

const char *const *tw_path_split(tw_arena *arena, const char *text, size_t *count)
{
    const char **words = TW_NEW_ARRAY(arena, const char *, TW_PATH_MOST);
    size_t found = 0;
    *count = 0;
    for (const char *end; found < TW_PATH_MOST; text = end + 1) {
        end = text + strcspn(text, "/");
        words[found] = word_of(arena, text, end);
        if (!words[found++]) return NULL;
        if (*end) continue;
        *count = found;
        return words;
    }
    return NULL;
}
