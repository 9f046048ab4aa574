// SPDX-License-Identifier: GPL-3.0-or-later
/* The public side of changing a text in place: a change with its arena and its findings. */
#include "tuskwright.h"

#include <assert.h>
#include <stdlib.h>

#include "job/change.h"
#include "joint/joint.h"

struct tw_changed {
    tw_arena       arena;
    tw_findings    findings;
    tw_change_made made;
};

tw_changed *tw_change_text(const tw_change_request *request)
{
    tw_changed *changed = calloc(1, sizeof *changed);
    if (!changed) {
        if (request->out_of_memory) request->out_of_memory();
        abort();
    }
    changed->arena.out_of_memory = request->out_of_memory;
    changed->findings.arena = &changed->arena;
    tw_change_rules rules = { request->file, tw_joint_formats(&changed->arena), tw_joint_kind_count };
    tw_text text = { request->text, request->bytes };
    changed->made = tw_text_change(&changed->arena, text, request->name, rules, request->changes, request->change_count,
                                   &changed->findings);
    return changed;
}

void tw_changed_free(tw_changed *changed)
{
    if (!changed) return;
    tw_arena_finish(&changed->arena);
    free(changed);
}

bool tw_changed_is_good(const tw_changed *changed) { return changed->made.good; }

const char *tw_changed_text(const tw_changed *changed, size_t *bytes)
{
    if (bytes) *bytes = changed->made.text.length;
    return changed->made.text.bytes;
}

size_t tw_changed_splice_count(const tw_changed *changed) { return changed->made.count; }

tw_splice tw_changed_splice_at(const tw_changed *changed, size_t index)
{
    assert(index < changed->made.count);
    return changed->made.splices[index];
}

size_t tw_changed_finding_count(const tw_changed *changed) { return changed->findings.count; }

tw_result_finding tw_changed_finding_at(const tw_changed *changed, size_t index)
{
    assert(index < changed->findings.count);
    const tw_finding *f = &changed->findings.items[index];
    const char *file = f->place.file ? f->place.file : "";
    return (tw_result_finding){ tw_level_word(f->level), f->code, f->about, file, f->place.line, f->place.column,
                                f->what, f->remedy, f->fixes, f->fix_count };
}

bool tw_value_span(const char *text, size_t text_bytes, const char *const *path, size_t path_count, tw_span *span)
{
    tw_arena arena = {0};
    bool found = tw_text_span(&arena, (tw_text){ text, text_bytes }, path, path_count, span);
    tw_arena_finish(&arena);
    return found;
}
