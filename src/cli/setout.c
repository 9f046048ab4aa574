// SPDX-License-Identifier: GPL-3.0-or-later
/* setout: reads the two texts, makes the one call, and writes the set of papers. */
#include "cli/setout.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/files.h"
#include "cli/out_folder.h"
#include "print/paper_set.h"
#include "print/print.h"
#include "whole.h"

enum { GOOD = 0, HALT = 1, WRONG = 2, SYSTEM = 3 };

static int say_system(const char *why)
{
    fprintf(stderr, "tuskwright: %s\n", why);
    return SYSTEM;
}

/* ---- reading ---- */

static const char *shop_path(tw_arena *arena, const char *job_path, tw_text job, const char *asked)
{
    if (asked) return asked;
    char *named = tw_shop_named_by(job.bytes, job.length);
    if (!named) return NULL;
    const char *slash = strrchr(job_path, '/');
    const char *path = named[0] == '/' || !slash ? tw_format(arena, "%s", named) : tw_format(arena, "%.*s/%s", (int)(slash - job_path), job_path, named);
    free(named);
    return path;
}

static void out_of_memory(void)
{
    fputs("tuskwright: the machine has no more memory\n", stderr);
    _Exit(SYSTEM);
}

/* Sets out a job. Returns NULL with the exit code set when a file cannot be read. */
static tw_result *set_out(tw_arena *arena, const char *job_path, const char *asked_shop, bool papers, int *code)
{
    arena->out_of_memory = out_of_memory;
    tw_text job, shop;
    const char *why;
    *code = tw_file_read(arena, job_path, &job, &why);
    if (*code != GOOD) { fprintf(stderr, "%s\n", why); return NULL; }
    const char *path = shop_path(arena, job_path, job, asked_shop);
    if (!path) {
        // the job's own faults come first: it may be that the line with the shop cannot be read
        tw_findings findings = { .arena = arena };
        tw_job_read(arena, job, job_path, tw_joint_formats(arena), tw_joint_kind_count, &findings);
        for (size_t i = 0; i < findings.count; i++)
            fprintf(stderr, "%s:%d:%d: %s%s%s\n", findings.items[i].place.file, findings.items[i].place.line, findings.items[i].place.column,
                    findings.items[i].what, findings.items[i].remedy[0] ? "; " : "", findings.items[i].remedy);
        if (findings.count == 0) fprintf(stderr, "%s:1:1: the job names no shop; add `shop: shop.yaml` to it or give --shop FILE\n", job_path);
        *code = WRONG;
        return NULL;
    }
    *code = tw_file_read(arena, path, &shop, &why);
    if (*code != GOOD) { fprintf(stderr, "%s\n", why); return NULL; }
    tw_result *result = tw_set_out(&(tw_request){ .job = job.bytes, .job_bytes = job.length, .job_name = job_path, .shop = shop.bytes,
        .shop_bytes = shop.length, .shop_name = path, .papers = papers, .out_of_memory = out_of_memory });
    *code = (int)tw_result_state(result);
    return result;
}

static bool to_stream(void *context, const char *bytes, size_t count) { return fwrite(bytes, 1, count, context) == count; }

static void say_findings(const tw_result *result, tw_level least)
{
    tw_sink sink = { .write = to_stream, .context = stderr };
    tw_findings_put(&result->findings, least, &sink);
}

/* ---- writing ---- */

static bool write_file(void *context, const tw_paper_file *file) { return tw_out_write(context, file->name, file->bytes); }

static void say_left_out(void *context, const char *sentence)
{
    (void)context;
    fprintf(stderr, "tuskwright: %s\n", sentence);
}

static bool write_papers(tw_out_folder *out, const tw_result *result)
{
    const char *why;
    tw_paper_taker taker = { .context = out, .take = write_file, .leave_out = say_left_out };
    bool good = tw_paper_set_make(out->arena, result, &taker, &why);
    if (!good && *why) out->why = why;
    return good;
}

static int write_set(tw_arena *arena, const tw_result *result, const char *folder)
{
    const char *package = tw_print_fonts_missing();
    if (package) return say_system(tw_format(arena, "the papers need a font that is not there; install the package %s", package));
    tw_out_folder out;
    if (!tw_out_begin(&out, arena, folder)) return say_system(out.why);
    if (!write_papers(&out, result) || !tw_out_finish(&out)) {
        tw_out_drop(&out);
        return say_system(tw_format(arena, "%s; nothing was written", out.why ? out.why : "the papers could not be written"));
    }
    if (out.why) fprintf(stderr, "tuskwright: %s\n", out.why);
    return GOOD;
}

static int say_done(const tw_result *result, const char *folder)
{
    int pages = 0;
    for (int i = 0; i < result->papers.count; i++) pages += result->papers.items[i].page_count;
    printf("%s: %d papers on %d pages, %d templates, %d setups, %d steps, in %s\n", result->job->title.text, result->papers.count, pages,
           result->templates.count, result->setups.count, result->run.count, folder);
    size_t halts = tw_findings_count(&result->findings, TW_HALT), cares = tw_findings_count(&result->findings, TW_CARE);
    if (halts + cares > 0) printf("findings: %zu halt, %zu care (above, and on the papers)\n", halts, cares);
    return fflush(stdout) == 0 && !ferror(stdout) ? GOOD : say_system("cannot write to standard output");
}

int tw_command_setout(const char *job, const char *shop, const char *folder)
{
    tw_arena arena = {0};
    int code;
    tw_result *result = set_out(&arena, job, shop, true, &code);
    if (result) say_findings(result, code == WRONG ? TW_WRONG : TW_CARE);
    if (result && code != WRONG) {
        int written = write_set(&arena, result, folder);
        if (written == GOOD) written = say_done(result, folder);
        if (written != GOOD) code = written;
    }
    tw_result_free(result);
    tw_arena_finish(&arena);
    return code;
}

int tw_command_check(const char *job, const char *shop, bool json)
{
    tw_arena arena = {0};
    int code;
    tw_result *result = set_out(&arena, job, shop, false, &code);
    if (result && json) tw_result_put(result, TW_OUTPUT_FINDINGS_JSON, to_stream, stdout);
    if (result && (!json || code == WRONG)) say_findings(result, TW_NOTE);
    if (result && !json && code == GOOD) puts("nothing stands against this job");
    if (result && (fflush(stdout) != 0 || ferror(stdout))) code = say_system("cannot write to standard output");
    tw_result_free(result);
    tw_arena_finish(&arena);
    return code;
}
