// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/base.h"

#include <string.h>

void tw_find(tw_findings *findings, tw_level level, tw_place place, const char *code, const char *about,
             const char *what, const char *remedy)
{
    tw_arena *arena = findings->arena;
    if (level == TW_WRONG && tw_findings_count(findings, TW_WRONG) >= TW_FINDINGS_MOST) return;
    tw_array_make_room(arena, &findings->items, findings->count, &findings->room, sizeof *findings->items);
    findings->items[findings->count++] = (tw_finding){
        .level = level,
        .place = { place.file ? tw_text_copy(arena, tw_text_of(place.file)) : NULL, place.line, place.column },
        .code = tw_text_copy(arena, tw_text_of(code)),
        .about = tw_text_copy(arena, tw_text_of(about)),
        .what = tw_text_copy(arena, tw_text_of(what)),
        .remedy = tw_text_copy(arena, tw_text_of(remedy)),
    };
}

size_t tw_findings_count(const tw_findings *findings, tw_level level)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++) count += findings->items[i].level == level;
    return count;
}

bool tw_findings_have(const tw_findings *findings, tw_level level) { return tw_findings_count(findings, level) > 0; }

const char *tw_level_word(tw_level level)
{
    static const char *const words[] = { "note", "care", "halt", "wrong" };
    return words[level];
}

void tw_findings_put(const tw_findings *findings, tw_level least, tw_sink *sink)
{
    for (size_t i = 0; i < findings->count; i++) {
        const tw_finding *finding = &findings->items[i];
        if (finding->level < least) continue;
        if (finding->place.file && finding->place.line > 0)
            tw_putf(sink, "%s:%d:%d: ", finding->place.file, finding->place.line, finding->place.column);
        else if (finding->place.file)
            tw_putf(sink, "%s: ", finding->place.file);
        if (finding->level != TW_WRONG) tw_putf(sink, "%s: ", tw_level_word(finding->level));
        tw_putf(sink, "%s%s%s\n", finding->what, finding->remedy[0] ? "; " : "", finding->remedy);
    }
}
