// SPDX-License-Identifier: GPL-3.0-or-later
/* Changes the text on standard input and prints it, for changes.py: change_text job|shop set|list|remove|add VALUE WORD ...
 * A list is VALUE's parts between bars; an entry that is added has the one key `note`. Ends with 1 when the change is refused. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tuskwright.h"

#define ITEMS_MOST 10
#define TEXT_MOST (1 << 20)

static size_t split(char *text, const char *items[])
{
    size_t count = 0;
    for (char *item = strtok(text, "|"); item && count < ITEMS_MOST; item = strtok(NULL, "|")) items[count++] = item;
    return count;
}

static tw_change_kind kind_of(const char *word)
{
    return strcmp(word, "remove") == 0 ? TW_CHANGE_REMOVE : strcmp(word, "add") == 0 ? TW_CHANGE_ADD : TW_CHANGE_SET;
}

int main(int count, char *words[])
{
    static char text[TEXT_MOST];
    if (count < 5) return 2;
    size_t bytes = fread(text, 1, sizeof text, stdin);
    const char *items[ITEMS_MOST];
    bool list = strcmp(words[2], "list") == 0;
    tw_entry entry = { .key = "note", .value = words[3] };
    tw_change change = { .kind = kind_of(words[2]), .path = (const char *const *)&words[4], .path_count = (size_t)count - 4,
                         .value = list ? NULL : words[3], .entries = &entry, .entry_count = 1 };
    if (list) change.list_count = split(words[3], items);
    change.list = items;
    tw_file_kind file = strcmp(words[1], "shop") == 0 ? TW_FILE_SHOP : TW_FILE_JOB;
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = file, .text = text, .bytes = bytes, .name = "text",
                                                               .changes = &change, .change_count = 1 });
    size_t out;
    const char *result = tw_changed_text(changed, &out);
    bool good = tw_changed_is_good(changed) && fwrite(result, 1, out, stdout) == out;
    tw_changed_free(changed);
    return good ? 0 : 1;
}
