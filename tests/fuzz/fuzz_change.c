// SPDX-License-Identifier: GPL-3.0-or-later
/* Any change of any text. The first line is the change: its kind as a digit, then the words of its path and its value, parted by
 * tabs; the rest is the text. All or nothing: what is changed comes of the splices and can be read, what is refused is as it was. */
#include <stdlib.h>
#include <string.h>

#include "../formats.h"
#include "job/change.h"
#include "job/tree.h"

#define MUST(condition) ((condition) ? (void)0 : abort())
#define WORDS_MOST 6

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

static int split(char *line, const char *words[])
{
    int count = 0;
    for (char *word = line; word && count < WORDS_MOST; count++) {
        char *tab = strchr(word, '\t');
        words[count] = word;
        if (tab) *tab = '\0';
        word = tab ? tab + 1 : NULL;
    }
    return count;
}

static void splices_give(const tw_change_made *made, tw_text old)
{
    size_t length = old.length, room = old.length + made->text.length + 1;
    char *text = malloc(room);
    memcpy(text, old.bytes, length);
    for (size_t i = 0; i < made->count; i++) {
        tw_splice s = made->splices[i];
        MUST(s.begin + s.old_bytes <= length);
        text = realloc(text, room += s.bytes);
        memmove(text + s.begin + s.bytes, text + s.begin + s.old_bytes, length - s.begin - s.old_bytes);
        memcpy(text + s.begin, s.text, s.bytes);
        length = length + s.bytes - s.old_bytes;
    }
    MUST(length == made->text.length && memcmp(text, made->text.bytes, length) == 0);
    free(text);
}

static void check(tw_arena *arena, tw_text text, tw_file_kind file, const tw_change *change)
{
    tw_findings findings = { .arena = arena };
    tw_change_made made = tw_text_change(arena, text, "fuzz", (tw_change_rules){ file, test_formats, TEST_FORMATS }, change, 1, &findings);
    tw_span span;
    MUST(made.good == (findings.count == 0));
    if (!made.good) MUST(made.count == 0 && made.text.length == text.length && memcmp(made.text.bytes, text.bytes, text.length) == 0);
    splices_give(&made, text);
    if (made.good && change->kind == TW_CHANGE_SET) {
        MUST(tw_text_span(arena, made.text, change->path, change->path_count, &span));
        MUST(span.begin + span.bytes <= made.text.length);
    }
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    const unsigned char *end = count ? memchr(bytes, '\n', count) : NULL;
    if (!end || end - bytes < 3) return 0;
    tw_arena arena = { 0 };
    char *line = tw_text_copy(&arena, (tw_text){ (const char *)bytes, (size_t)(end - bytes) });
    tw_text text = { (const char *)end + 1, count - (size_t)(end - bytes) - 1 };
    const char *words[WORDS_MOST];
    int word_count = split(line + 1, words);
    const char *value = words[word_count - 1];
    tw_entry entries[] = { { .key = "length", .value = value }, { .key = value, .list = words, .list_count = (size_t)word_count } };
    tw_change change = { .kind = (tw_change_kind)(line[0] & 3), .path = words, .path_count = (size_t)word_count - 1, .value = line[0] & 4 ? NULL : value,
                         .list = words, .list_count = (size_t)word_count, .entries = entries, .entry_count = 2 };
    check(&arena, text, line[0] & 8 ? TW_FILE_SHOP : TW_FILE_JOB, &change);
    tw_arena_finish(&arena);
    return 0;
}
