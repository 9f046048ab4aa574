// SPDX-License-Identifier: GPL-3.0-or-later
/* What the page is shown of a job, and of the same job after each of many changes, for desk_json.py.
 *
 * usage: desk_dump JOB SHOP [FIGURES]      the texts' files; how lengths are written in place of what the job says
 *
 * Prints {"model": desk JSON, "job": job.json}, then for each line "PATH TEXT tab VALUE tab VALUE ..." read the first of the
 * values that can be set there: {"set": VALUE, "now": [what has this path then], "moved": [before, after] as comparing says it of
 * that figure, "moves": how many moved in all}, or {"refused": true}. A zero byte stands behind each. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/path.h"
#include "sheet/figures.h"
#include "whole.h"

static bool to_stdout(void *context, const char *bytes, size_t count)
{
    (void)context;
    return fwrite(bytes, 1, count, stdout) == count;
}

static tw_text file_of(tw_arena *arena, const char *name)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    char bytes[4096];
    FILE *file = fopen(name, "rb");
    if (!file) exit(3);
    for (size_t count; (count = fread(bytes, 1, sizeof bytes, file)) > 0;) tw_put(&sink, bytes, count);
    fclose(file);
    return tw_gathered(&all);
}

typedef struct ask { tw_text shop; const char *figures; } ask;

static tw_result *set_out(const ask *a, const char *job, size_t bytes)
{
    return tw_set_out(&(tw_request){ .job = job, .job_bytes = bytes, .job_name = "job", .shop = a->shop.bytes,
        .shop_bytes = a->shop.length,
                                     .shop_name = "shop", .figures = a->figures });
}

static void put_text(const char *key, const char *text)
{
    tw_sink out = { .write = to_stdout };
    if (key) tw_putf(&out, "\"%s\": ", key);
    tw_put_json_text(&out, text);
}

static void put_model(const char *key, const tw_result *result, tw_output output)
{
    printf("\"%s\": ", key);
    if (!tw_result_put(result, output, to_stdout, NULL)) printf("null");
}

/* What stands at a path now, and whether the comparing names it. */
static void put_now(const tw_values *before, const tw_values *after, const char *path)
{
    printf(", \"now\": [");
    const char *id = "", *comma = "";
    for (size_t i = 0; i < after->count; i++) {
        const tw_value *value = &after->items[i];
        if (strcmp(value->path, path) != 0) continue;
        const struct { const char *key, *text; } texts[] = { { "id", value->id }, { "text", value->text },
            { "written", value->written } };
        printf("%s{\"given\": %s, \"value\": %.12g", comma, value->given ? "true" : "false",
               strcmp(value->shows, "angle") == 0 ? tw_degrees(value->value) : value->value);
        for (size_t k = 0; k < 3; k++) {
            printf(", ");
            put_text(texts[k].key, texts[k].text);
        }
        printf("}");
        comma = ", ";
        id = value->id;
    }
    tw_moves moves = tw_figures_compare(after->arena, before, after);
    printf("], \"moved\": [");
    for (size_t i = 0; i < moves.count; i++) {
        if (strcmp(moves.items[i].id, id) != 0) continue;
        put_text(NULL, moves.items[i].before);
        printf(", ");
        put_text(NULL, moves.items[i].after);
    }
    printf("], \"moves\": %zu", moves.count);
}

/* Tries a value; false, with what it was refused with, when it cannot stand there. */
static bool change_to(const ask *a, tw_text job, const tw_values *before, const char *path_text, const char *value)
{
    tw_arena arena = { 0 };
    size_t count = 0, bytes;
    const char *const *path = tw_path_split(&arena, path_text, &count);
    if (!path) exit(2);
    tw_change change = { .kind = TW_CHANGE_SET, .path = path, .path_count = count, .value = value };
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = TW_FILE_JOB, .text = job.bytes, .bytes = job.length,
        .name = "job", .changes = &change,
                                                               .change_count = 1 });
    const char *text = tw_changed_text(changed, &bytes);
    bool good = tw_changed_is_good(changed);
    tw_result *after = good ? set_out(a, text, bytes) : NULL;
    good = good && tw_result_state(after) != TW_STATE_WRONG;
    if (good) {
        tw_paper_input in = tw_result_input(after);
        tw_values values = tw_figure_list(&arena, &in);
        printf("{\"refused\": false, ");
        put_text("set", value);
        put_now(before, &values, path_text);
        printf("}%c", 0);
    }
    tw_result_free(after);
    tw_changed_free(changed);
    tw_arena_finish(&arena);
    return good;
}

/* The first of the values behind the path that can stand there. */
static void change_one(const ask *a, tw_text job, const tw_values *before, char *line)
{
    char *value = strchr(line, '\t');
    if (!value) exit(2);
    *value++ = 0;
    while (value) {
        char *next = strchr(value, '\t');
        if (next) *next++ = 0;
        if (change_to(a, job, before, line, value)) return;
        value = next;
    }
    printf("{\"refused\": true}%c", 0);
}

int main(int count, char **words)
{
    static char line[4096];
    tw_arena arena = { 0 };
    if (count < 3) return 2;
    tw_text job = file_of(&arena, words[1]);
    ask a = { file_of(&arena, words[2]), count > 3 ? words[3] : NULL };
    tw_result *result = set_out(&a, job.bytes, job.length);
    if (tw_result_state(result) == TW_STATE_WRONG) return 1;
    printf("{");
    put_model("model", result, TW_OUTPUT_DESK_JSON);
    printf(", ");
    put_model("job", result, TW_OUTPUT_JSON);
    printf("}%c", 0);
    tw_paper_input in = tw_result_input(result);
    tw_values before = tw_figure_list(&arena, &in);
    while (fgets(line, sizeof line, stdin)) {
        line[strcspn(line, "\n")] = 0;
        change_one(&a, job, &before, line);
    }
    tw_result_free(result);
    tw_arena_finish(&arena);
    return 0;
}
