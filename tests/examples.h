// SPDX-License-Identifier: GPL-3.0-or-later
/* Every example job, set out as it is or with its first lines changed. For tests that look at all of them. */
#ifndef TW_TESTS_EXAMPLES_H
#define TW_TESTS_EXAMPLES_H

#include "check.h"

#include <dirent.h>
#include <sys/stat.h>

#include "../bench/many.h"
#include "fewer.h"
#include "whole.h"

#define EXAMPLES_MOST 200

static char *examples[EXAMPLES_MOST];
static int   example_count;

static inline void find_in(const char *folder)
{
    struct dirent **entries;
    int count = scandir(folder, &entries, NULL, alphasort);
    for (int i = 0; i < count; i++) {
        char path[512];
        struct stat about;
        snprintf(path, sizeof path, "%s/%s/job.yaml", folder, entries[i]->d_name);
        if (entries[i]->d_name[0] != '.' && stat(path, &about) == 0 && example_count < EXAMPLES_MOST) {
            path[strlen(path) - strlen("/job.yaml")] = 0;
            examples[example_count++] = strdup(path);
        }
        free(entries[i]);
    }
    if (count >= 0) free(entries);
}

static inline int find_examples(void **state)
{
    (void)state;
    find_in("examples");
    find_in("examples/joints");
    return 0;
}

static inline int drop_examples(void **state)
{
    (void)state;
    for (int i = 0; i < example_count; i++) free(examples[i]);
    return 0;
}

static inline char *file_in(const char *folder, const char *name)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    char *text = many_file(path);
    if (!text) fail_msg("%s is not there", path);
    return text;
}

/* The job's text with its lines of paper, figures and projection taken out and others put first. */
static inline const char *varied(tw_arena *arena, const char *job, const char *lines)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, lines);
    for (const char *line = job; *line;) {
        size_t length = strcspn(line, "\n") + (strchr(line, '\n') != NULL);
        if (strncmp(line, "paper:", 6) != 0 && strncmp(line, "figures:", 8) != 0 && strncmp(line, "projection:", 11) != 0) tw_put(&sink, line, length);
        line += length;
    }
    return tw_gathered(&all).bytes;
}

static inline tw_result *set_out_example(const char *folder, const char *lines, bool papers)
{
    tw_arena arena = {0};
    char *text = file_in(folder, "job.yaml"), *shop_name = tw_shop_named_by(text, strlen(text)), *shop = file_in(folder, shop_name ? shop_name : "shop.yaml");
    const char *job = lines ? varied(&arena, text, lines) : text;
    tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = folder, .shop = shop, .shop_bytes = strlen(shop), .shop_name = "shop.yaml", .papers = papers });
    assert_int_not_equal(tw_result_state(result), TW_STATE_WRONG);
    free(text);
    free(shop);
    free(shop_name);
    tw_arena_finish(&arena);
    return result;
}

#endif
