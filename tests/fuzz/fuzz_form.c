// SPDX-License-Identifier: GPL-3.0-or-later
/* Any body of a request, asked for what handlers ask for. Nothing reads past it; what is wrong is refused with a sentence, once and for
 * all; what is not wrong is as it was promised. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "serve/change_json.h"

#define MUST(condition) ((condition) ? (void)0 : abort())

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count);

static void check_change(const tw_file_change *change)
{
    MUST(change->file == TW_FILE_JOB || change->file == TW_FILE_SHOP);
    MUST(change->change.path_count >= 1 && change->change.path_count <= 16);
    for (size_t i = 0; i < change->change.path_count; i++) MUST(change->change.path[i][0] != '\0');
    if (change->change.kind == TW_CHANGE_SET) MUST(change->change.value || change->change.list_count > 0);
    if (change->change.kind == TW_CHANGE_RENAME) MUST(change->change.value);
    if (change->change.kind == TW_CHANGE_ADD) MUST(change->change.entry_count > 0);
    for (size_t i = 0; i < change->change.entry_count; i++) MUST(change->change.entries[i].key);
}

static void check_changes(tw_form form)
{
    size_t count;
    const tw_file_change *changes = tw_form_changes(&form, &count);
    for (size_t i = 0; i < count && !tw_form_is_wrong(&form); i++) check_change(&changes[i]);
}

/* A reading of its own for each question: the first fault would hide the others. */
static void check_fields(tw_arena *arena, tw_text body)
{
    tw_form form = tw_form_read(arena, body);
    int64_t id = tw_form_whole(&form, "id", 1, INT64_MAX);
    MUST(tw_form_is_wrong(&form) ? id == 0 : id >= 1);
    form = tw_form_read(arena, body);
    double width = tw_form_number(&form, "width_mm", 70.0, 500.0);
    MUST(tw_form_is_wrong(&form) ? width == 0.0 : width >= 70.0 && width <= 500.0);
    form = tw_form_read(arena, body);
    tw_text text = tw_form_text_within(&form, "text", 1000);
    MUST(strlen(text.bytes) == text.length && text.length <= 1000);
    form = tw_form_read(arena, body);
    static const char *const words[] = { "jobs", "shops" };
    MUST(tw_form_choice(&form, "shelf", words, 2) < 2);
    tw_form_yes_no(&form, "done");
    tw_form inner = tw_form_object(&form, "first");
    MUST(tw_form_words(&inner, "piece") != NULL);
    tw_form_list list = tw_form_list_of(&form, "flip", 2);
    MUST(list.count <= 2);
    for (size_t i = 0; i < list.count; i++) MUST(tw_form_item_words(&list, i) != NULL);
}

static void check_refusal(const tw_form *form)
{
    tw_reply reply = tw_form_refusal(form);
    MUST(reply.status == 400 || reply.status == 413);
    tw_form again = tw_form_read(form->arena, reply.body);  // it is one object that can be read
    tw_form error = tw_form_object(&again, "error");
    MUST(tw_form_words(&error, "what")[0] != '\0');
    MUST(!tw_form_is_wrong(&again));
}

int LLVMFuzzerTestOneInput(const unsigned char *bytes, size_t count)
{
    tw_arena arena = { 0 };
    char *copy = tw_arena_take(&arena, count + 1, 1);
    if (count > 0) memcpy(copy, bytes, count);
    tw_text body = { copy, count };
    tw_form form = tw_form_read(&arena, body);
    if (tw_form_is_wrong(&form)) check_refusal(&form);
    check_changes(form);
    if (tw_form_is_wrong(&form)) check_refusal(&form);
    check_fields(&arena, body);
    tw_arena_finish(&arena);
    return 0;
}
