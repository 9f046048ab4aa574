// SPDX-License-Identifier: GPL-3.0-or-later
/* A fix is proved by making it: the texts are changed, set out anew, and looked at. */
#include "whole.h"

#include <string.h>

#define PROVED_MOST 60  // fixes of one result; the rest is not offered

/* A text with the changes of one fix that concern it made; NULL where they cannot be made. */
static tw_changed *changed_by(const tw_request *request, const tw_fix *fix, tw_file_kind file)
{
    tw_arena arena = { .out_of_memory = request->out_of_memory };
    tw_change *changes = TW_NEW_ARRAY(&arena, tw_change, fix->change_count);
    size_t count = 0;
    for (size_t i = 0; i < fix->change_count; i++)
        if (fix->changes[i].file == file) changes[count++] = fix->changes[i].change;
    bool job = file == TW_FILE_JOB;
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = file, .text = job ? request->job : request->shop,
        .bytes = job ? request->job_bytes : request->shop_bytes, .name = job ? request->job_name : request->shop_name, .changes =
            changes,
        .change_count = count, .out_of_memory = request->out_of_memory });
    tw_arena_finish(&arena);
    return changed;
}

static size_t count_of(const tw_findings *findings, const tw_finding *like)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++)
        count += strcmp(findings->items[i].code, like->code) == 0 && strcmp(findings->items[i].about, like->about) == 0;
    return count;
}

static size_t halts_of(const tw_findings *findings, const tw_finding *like)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++)
        count += findings->items[i].level == TW_HALT && strcmp(findings->items[i].code, like->code) == 0 &&
            strcmp(findings->items[i].about, like->about) == 0;
    return count;
}

/* Where two findings of one code concern the same thing (two places of a joint), each fix mends one of them. */
static bool holds(const tw_findings *before, const tw_findings *after, const tw_finding *finding)
{
    if (count_of(after, finding) >= count_of(before, finding)) return false;
    bool unread = tw_findings_have(before, TW_WRONG);  // then nothing was known of halts
    if (tw_findings_count(after, TW_WRONG) > tw_findings_count(before, TW_WRONG)) return false;
    for (size_t i = 0; i < after->count; i++) {
        const tw_finding *now = &after->items[i];
        if (!unread && now->level == TW_HALT && halts_of(after, now) > halts_of(before, now)) return false;
    }
    return true;
}

static bool is_proved(const tw_result *result, const tw_request *request, const tw_finding *finding, const tw_fix *fix)
{
    tw_changed *job = changed_by(request, fix, TW_FILE_JOB), *shop = changed_by(request, fix, TW_FILE_SHOP);
    bool good = tw_changed_is_good(job) && tw_changed_is_good(shop);
    if (good) {
        tw_request again = *request;
        again.papers = again.prove_fixes = false;
        again.job = tw_changed_text(job, &again.job_bytes);
        again.shop = tw_changed_text(shop, &again.shop_bytes);
        tw_result *after = tw_set_out(&again);
        good = holds(&result->findings, &after->findings, finding);
        tw_result_free(after);
    }
    tw_changed_free(job);
    tw_changed_free(shop);
    return good;
}

void tw_result_prove_fixes(tw_result *result, const tw_request *request)
{
    size_t tried = 0;
    for (size_t i = 0; i < result->findings.count; i++) {
        tw_finding *finding = &result->findings.items[i];
        size_t kept = 0;
        for (size_t j = 0; j < finding->fix_count; j++)
            if (tried++ < PROVED_MOST && is_proved(result, request, finding, &finding->fixes[j])) finding->fixes[kept++] =
                finding->fixes[j];
        finding->fix_count = kept;
    }
}
