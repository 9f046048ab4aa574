// SPDX-License-Identifier: GPL-3.0-or-later
/* Jobs with odd values: any of a kind's keys may be there, with any size that the reader takes. Whatever comes, a joint is either
 * planned with cuts and work, or refused by a halt; and it can be drawn. */
#ifndef TW_TESTS_ODD_VALUES_H
#define TW_TESTS_ODD_VALUES_H

#include "planned.h"

#include "draw/draw.h"

/// Does the line meet the box? Clipped from both ends after Liang and Barsky.
static inline bool line_meets(tw_point a, tw_point b, tw_box box)
{
    double from = 0.0, to = 1.0, dx = b.x - a.x, dy = b.y - a.y;
    const double p[4] = { -dx, dx, -dy, dy }, q[4] = { a.x - box.x0, box.x1 - a.x, a.y - box.y0, box.y1 - a.y };
    for (int i = 0; i < 4; i++) {
        if (p[i] == 0.0) {
            if (q[i] < 0.0) return false;
        } else if (p[i] < 0.0) from = tw_max(from, q[i] / p[i]);
        else to = tw_min(to, q[i] / p[i]);
    }
    return from < to;
}

/// Fails when a text lies on another, leaves the room, or lies on an outline of a piece (0.1 mm is a hair).
static inline void check_clear(const tw_sheet *sheet, tw_arena *arena, tw_box room, const char *job)
{
    int count;
    const tw_overlap *overlaps = tw_sheet_overlaps(sheet, arena, &count);
    if (count) fail_msg("\"%s\" and \"%s\" overlap in\n%s", sheet->items[overlaps[0].first].text, sheet->items[overlaps[0].second].text, job);
    for (size_t i = 0; i < sheet->count; i++) {
        if (sheet->items[i].kind != TW_ITEM_TEXT) continue;
        tw_box box = tw_text_box(&sheet->items[i]);
        if (box.x0 < room.x0 - 1.0 || box.x1 > room.x1 + 1.0 || box.y0 < room.y0 - 1.0 || box.y1 > room.y1 + 1.0) fail_msg("\"%s\" leaves the room in\n%s", sheet->items[i].text, job);
        box = (tw_box){ box.x0 + 0.1, box.y0 + 0.1, box.x1 - 0.1, box.y1 - 0.1 };
        for (size_t j = 0; j < sheet->count; j++) {
            const tw_item *line = &sheet->items[j];
            bool outline = line->kind == TW_ITEM_LINE && (line->role == TW_ROLE_CUT || line->role == TW_ROLE_VISIBLE || line->role == TW_ROLE_HIDDEN);
            if (outline && line_meets(line->from, line->to, box)) fail_msg("\"%s\" lies on an outline in\n%s", sheet->items[i].text, job);
        }
    }
}

/// A key and the range of its values; words: instead of a range, choices parted by |.
typedef struct odd_key { const char *name; double least, most; const char *words; } odd_key;

static inline const char *odd_word(check_seed *seed, const char *words, char *room, size_t size)
{
    int count = 1;
    for (const char *c = words; *c; c++) count += *c == '|';
    int which = (int)(check_random(seed) % (uint64_t)count);
    while (which-- > 0) words = strchr(words, '|') + 1;
    snprintf(room, size, "%.*s", (int)strcspn(words, "|"), words);
    return room;
}

/// Adds lines "    key: value" to the text, each key with one chance in `rare`; sizes spread evenly over their logarithm.
static inline void odd_lines(check_seed *seed, const odd_key *keys, size_t count, int rare, char *text, size_t size)
{
    for (size_t i = 0; i < count; i++) {
        char word[64];
        size_t used = strlen(text);
        if (check_random(seed) % (uint64_t)rare != 0) continue;
        if (keys[i].words) snprintf(text + used, size - used, "    %s: %s\n", keys[i].name, odd_word(seed, keys[i].words, word, sizeof word));
        else snprintf(text + used, size - used, "    %s: %.4f\n", keys[i].name, keys[i].least * pow(keys[i].most / keys[i].least, check_between(seed, 0.0, 1.0)));
    }
}

/// Plans and draws; fails unless the joint is either planned or refused. Returns true when it was planned.
static inline bool odd_is_planned(const char *text, const char *shop)
{
    planned p = planned_of(text, shop);
    plan(&p);
    bool refused = tw_findings_have(&p.findings, TW_HALT);
    const tw_joint_plan *one = &p.plans[0];
    if (!refused && (one->cut_count == 0 || one->work_count == 0)) fail_msg("neither planned nor refused:\n%s", text);
    tw_joint_context context = { .arena = &p.arena, .job = p.job, .shop = p.shop, .findings = &p.findings };
    tw_sheet *sheet = tw_sheet_new(&p.arena, "joint", "joint", 220.0, 230.0);
    tw_joint_kinds[one->joint->kind]->draw(&context, one, sheet, (tw_box){ 20.0, 20.0, 200.0, 210.0 });
    for (size_t i = 0; i < one->work_count; i++) {
        const tw_work *work = &one->works[i];
        if (!isfinite(work->measure_mm) || !isfinite(work->copy.stop_to_origin_mm)) fail_msg("%s is not finite:\n%s", work->name, text);
    }
    tw_arena_finish(&p.arena);
    return !refused;
}

#endif
