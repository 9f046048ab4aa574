// SPDX-License-Identifier: GPL-3.0-or-later
/* Sets out a job with the shop that it names and prints {"job": job.json, "chord_mm": n, "solids": ...} for solid_json.py.
 * Argument: the job's file. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../../bench/many.h"
#include "joint/piece_wood.h"
#include "sheet/solid_json.h"
#include "whole.h"

#define CHORD_MM 0.05

static bool to_stdout(void *context, const char *bytes, size_t count)
{
    (void)context;
    return fwrite(bytes, 1, count, stdout) == count;
}

static tw_result *set_out(const char *path)
{
    char *job = many_file(path), *named = job ? tw_shop_named_by(job, strlen(job)) : NULL;
    if (!named) return NULL;
    const char *slash = strrchr(path, '/');
    tw_arena arena = {0};
    char *shop = many_file(tw_format(&arena, "%.*s/%s", slash ? (int)(slash - path) : 1, slash ? path : ".", named));
    tw_request request = { .job = job, .job_bytes = strlen(job), .job_name = "job.yaml",
                           .shop = shop, .shop_bytes = shop ? strlen(shop) : 0, .shop_name = "shop.yaml" };
    tw_result *result = shop ? tw_set_out(&request) : NULL;
    tw_arena_finish(&arena);
    free(shop);
    free(named);
    free(job);
    return result;
}

int main(int count, char **words)
{
    tw_result *result = count == 2 ? set_out(words[1]) : NULL;
    if (!result || !result->job) return 2;
    tw_paper_input input = tw_result_input(result);
    input.woods = tw_piece_woods_make(&result->arena, result->job, result->plans, input.plan_count);
    tw_sink out = { .write = to_stdout };
    tw_put_text(&out, "{\"job\": ");
    tw_json_put(&input, NULL, &out);
    tw_putf(&out, ", \"chord_mm\": %g, \"solids\": ", CHORD_MM);
    tw_solids_json_put(&result->arena, &input, CHORD_MM, &out);
    tw_put_text(&out, "}\n");
    tw_result_free(result);
    return out.failed ? 3 : 0;
}
