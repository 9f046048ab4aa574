// SPDX-License-Identifier: GPL-3.0-or-later
/* The one call: read, plan, check, templates, setups, run, papers. */
#include "whole.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "check/check.h"
#include "joint/fix.h"
#include "sheet/desk_json.h"

#ifndef TW_VERSION
#define TW_VERSION "0.0.0"
#endif

const char *tw_version(void) { return TW_VERSION; }

bool tw_result_compose(tw_result *result, const tw_papers_watch *watch)
{
    int count = tw_plan_count(result->job);
    if (!result->woods) result->woods = tw_piece_woods_make(&result->arena, result->job, result->plans, count);
    if (!result->kin) result->kin = tw_kin_make(&result->arena, result->job, tw_piece_cuts_gather(&result->arena, result->job, result->plans, count));
    tw_paper_input input = tw_result_input(result);
    result->papers = tw_papers_make_watched(&result->arena, &input, watch);
    return result->papers.count > 0;
}

/* What the template stage found fault with, which knows nothing of the joints' keys: the joint may leave its tools to the program. */
static void offer_other_tools(const tw_joint_context *context, const tw_joint_plan *plans, int count, size_t from)
{
    for (size_t i = from; i < context->findings->count; i++) {
        tw_findings until = *context->findings;
        until.count = i + 1;
        tw_joint_context its = { .arena = context->arena, .job = context->job, .shop = context->shop, .findings = &until };
        for (int p = 0; p < count; p++)
            if (strcmp(plans[p].joint->name, until.items[i].about) == 0) {
                tw_plan_fix_tools(&its, &plans[p]);
                if (strcmp(until.items[i].code, "cutter-none") == 0) tw_plan_fix_to_cutter(&its, &plans[p]);
            }
    }
}

static void work_out(tw_result *result, bool papers)
{
    tw_joint_context context = { .arena = &result->arena, .job = result->job, .shop = result->shop, .findings = &result->findings };
    int count = tw_plan_count(result->job);
    result->plans = tw_joints_plan(&context);
    tw_check_whole(&context, result->plans, count);
    tw_check_profiles(&context, result->plans, count);
    tw_check_wood(&context, result->plans, count);
    tw_check_kin(&context, result->plans, count);
    result->space = tw_space_make(&result->arena, result->job, result->plans, count);
    tw_check_space(&context, result->plans, &result->space);
    size_t found = result->findings.count;
    result->templates = tw_templates_make(&result->arena, result->job, result->shop, result->plans, count, &result->findings);
    offer_other_tools(&context, result->plans, count, found);
    result->setups = tw_setups_make(&result->arena, result->job, result->shop, result->plans, count, &result->templates, &result->findings);
    result->run = tw_run_make(&result->arena, result->job, result->shop, result->plans, count, &result->templates, &result->setups, &result->findings);
    if (papers) tw_result_compose(result, NULL);
}

static tw_result *empty_result(void (*out_of_memory)(void))
{
    tw_result *result = calloc(1, sizeof *result);
    if (!result) {
        if (out_of_memory) out_of_memory();
        abort();
    }
    result->arena.out_of_memory = out_of_memory;
    result->findings.arena = &result->arena;
    return result;
}

/* The request's need not outlive the call. */
static tw_measures measures_copied(tw_arena *arena, const tw_request *request)
{
    tw_measured *items = TW_NEW_ARRAY(arena, tw_measured, request->measured_count);
    for (size_t i = 0; i < request->measured_count; i++) {
        const tw_measured *from = &request->measured[i];
        tw_change path = tw_change_copy(arena, (tw_change){ .path = from->path, .path_count = from->path_count });
        items[i] = (tw_measured){ from->file, path.path, path.path_count, from->value_mm };
    }
    return tw_measures_of(arena, items, request->measured_count);
}

/* A fix of a value that was measured would change nothing: it is not offered. */
static void drop_fixes_of_measured(tw_result *result)
{
    for (size_t i = 0; i < result->findings.count; i++) {
        tw_finding *finding = &result->findings.items[i];
        size_t kept = 0;
        for (size_t j = 0; j < finding->fix_count; j++) {
            bool touched = false;
            for (size_t c = 0; c < finding->fixes[j].change_count; c++) {
                const tw_file_change *change = &finding->fixes[j].changes[c];
                touched = touched || tw_measures_touch(&result->measures, change->file, change->change.path, change->change.path_count);
            }
            if (!touched) finding->fixes[kept++] = finding->fixes[j];
        }
        finding->fix_count = kept;
    }
}

/* The job with its lengths written otherwise; NULL, with a finding, when there is no such way. */
static const tw_job *shown_as(tw_result *result, const tw_job *job, const char *figures)
{
    tw_job *shown = TW_NEW(&result->arena, tw_job);
    const char *what, *remedy;
    *shown = *job;
    if (tw_figures_read(&result->arena, tw_text_of(figures), &shown->figures, &what, &remedy)) return shown;
    tw_find(&result->findings, TW_WRONG, (tw_place){ 0 }, "figures", "", what, remedy);
    return NULL;
}

tw_result *tw_set_out(const tw_request *request)
{
    tw_result *result = empty_result(request->out_of_memory);
    tw_text job = { request->job, request->job_bytes }, shop = { request->shop, request->shop_bytes };
    tw_measures *measures = &result->measures;
    *measures = measures_copied(&result->arena, request);
    const tw_shop *read_shop = tw_shop_read_as_built(&result->arena, shop, request->shop_name, measures, &result->findings);
    const tw_job *read_job = tw_job_read_as_built(&result->arena, job, request->job_name, tw_joint_formats(&result->arena), tw_joint_kind_count,
                                                  measures, &result->findings);
    if (read_job && request->figures) read_job = shown_as(result, read_job, request->figures);
    if (!read_job || !read_shop) {
        if (request->prove_fixes) tw_result_prove_fixes(result, request);
        return result;
    }
    result->job = read_job;
    result->shop = read_shop;
    work_out(result, request->papers);
    drop_fixes_of_measured(result);
    if (request->prove_fixes) tw_result_prove_fixes(result, request);
    return result;
}

void tw_result_free(tw_result *result)
{
    if (!result) return;
    tw_arena_finish(&result->arena);
    free(result);
}

tw_state tw_result_state(const tw_result *result)
{
    if (!result->job || tw_findings_have(&result->findings, TW_WRONG)) return TW_STATE_WRONG;
    return tw_findings_have(&result->findings, TW_HALT) ? TW_STATE_HALT : TW_STATE_GOOD;
}

size_t tw_result_finding_count(const tw_result *result) { return result->findings.count; }

tw_result_finding tw_result_finding_at(const tw_result *result, size_t index)
{
    assert(index < result->findings.count);
    const tw_finding *finding = &result->findings.items[index];
    return (tw_result_finding){ tw_level_word(finding->level), finding->code, finding->about, finding->place.file ? finding->place.file : "",
                                finding->place.line, finding->place.column, finding->what, finding->remedy, finding->fixes, finding->fix_count };
}

tw_paper_input tw_result_input(const tw_result *result)
{
    return (tw_paper_input){ .job = result->job, .shop = result->shop, .plans = result->plans, .plan_count = tw_plan_count(result->job),
                             .space = &result->space, .woods = result->woods, .kin = result->kin, .templates = &result->templates, .setups = &result->setups, .run = &result->run, .findings = &result->findings };
}

static void put_findings_json(const tw_result *result, tw_sink *sink)
{
    static const char *const states[] = { "good", "halt", "wrong" };
    tw_putf(sink, "{\"state\": \"%s\", \"findings\": [", states[tw_result_state(result)]);
    for (size_t i = 0; i < result->findings.count; i++) {
        tw_result_finding finding = tw_result_finding_at(result, i);
        const struct { const char *key, *text; } texts[] = { { "level", finding.level }, { "code", finding.code }, { "about", finding.about },
            { "file", finding.file }, { "what", finding.what }, { "remedy", finding.remedy } };
        tw_putf(sink, "%s\n  {\"line\": %d, \"column\": %d", i ? "," : "", finding.line, finding.column);
        for (size_t j = 0; j < sizeof texts / sizeof *texts; j++) {
            tw_putf(sink, ", \"%s\": ", texts[j].key);
            tw_put_json_text(sink, texts[j].text);
        }
        tw_put_text(sink, "}");
    }
    tw_put_text(sink, "\n]}\n");
}

static void put_desk_json(tw_arena *scratch, const tw_result *result, const tw_paper_input *input, tw_sink *sink)
{
    tw_values values = tw_figure_list(scratch, input);
    tw_desk_json_put(&values, &result->measures, true, sink);
    tw_put_text(sink, "\n");
}

bool tw_result_put(const tw_result *result, tw_output output, tw_write *write, void *context)
{
    tw_sink sink = { .write = write, .context = context };
    if (output == TW_OUTPUT_FINDINGS_JSON || output == TW_OUTPUT_FINDINGS_TEXT) {
        if (output == TW_OUTPUT_FINDINGS_JSON) put_findings_json(result, &sink);
        else tw_findings_put(&result->findings, TW_NOTE, &sink);
        return !sink.failed;
    }
    if (!result->job) return false;
    tw_paper_input input = tw_result_input(result);
    tw_arena scratch = { .out_of_memory = result->arena.out_of_memory };
    bool wood = output == TW_OUTPUT_JSON || output == TW_OUTPUT_DESK_JSON;
    if (wood && !input.woods) input.woods = tw_piece_woods_make(&scratch, result->job, result->plans, input.plan_count);
    if (!input.kin) input.kin = tw_kin_make(&scratch, result->job, tw_piece_cuts_gather(&scratch, result->job, result->plans, input.plan_count));
    if (output == TW_OUTPUT_JSON) tw_json_put(&input, result->papers.count > 0 ? &result->papers : NULL, &sink);
    else if (output == TW_OUTPUT_DESK_JSON) put_desk_json(&scratch, result, &input, &sink);
    else tw_csv_cutting_list_put(&input, &sink);
    tw_arena_finish(&scratch);
    return !sink.failed;
}

char *tw_shop_named_by(const char *job, size_t job_bytes)
{
    tw_arena arena = {0};
    const char *name = tw_job_shop_name(&arena, (tw_text){ job, job_bytes });
    char *copy = NULL;
    if (name && name[0]) {
        copy = malloc(strlen(name) + 1);
        if (copy) memcpy(copy, name, strlen(name) + 1);
    }
    tw_arena_finish(&arena);
    return copy;
}

size_t tw_result_bytes(const tw_result *result) { return result->arena.bytes_held; }
