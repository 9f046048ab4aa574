// SPDX-License-Identifier: GPL-3.0-or-later
/* Curves of profiles, true to size: to be laid on a piece or on template stock and drawn or sawn along. Larger ones fall on
 * several pages, as templates do. */
#include "sheet/clip.h"
#include "sheet/pages.h"
#include "sheet/profile_dxf.h"
#include "sheet/tile.h"

#define EDGE_MM 6.0    // of canvas beside the curve
#define WORDS_MM 22.0  // of canvas above it, for the words

static const char *words_of(tw_arena *arena, const tw_job *job, const tw_joint_plan *plan)
{
    return tw_format(arena,
        "%s: %s of %s, %s in all. Thick line: the line to work to; thin grey: the blank, to be laid on its edges. Seen on the %s, from the left end at the left.",
                     plan->joint->name, tw_joint_kinds[plan->joint->kind]->format.kind, job->pieces[plan->piece].name,
                         tw_count_words(arena, plan->count, "piece", "pieces"),
                     tw_face_words[plan->shapes[0].face]);
}

typedef struct line_pages { const tw_sheet **pages; size_t count, room; } line_pages;

static void add_lines(tw_arena *keep, const tw_paper_input *in, int plan_index, line_pages *list)
{
    const tw_joint_plan *plan = &in->plans[plan_index];
    tw_box box = tw_profile_print_box(in->job, plan);
    if (box.x0 > box.x1) return;
    tw_arena arena = tw_arena_beside(keep);
    double wide = box.x1 - box.x0 + 2.0 * EDGE_MM, high = box.y1 - box.y0 + 2.0 * EDGE_MM, words_wide = tw_max(wide, 120.0);
    tw_sheet *drawn = tw_sheet_new(&arena, "", "", wide, high), *canvas = tw_sheet_new(&arena, tw_format(&arena,
        "profile-lines-%d", plan_index + 1 - in->job->joint_count), plan->joint->name, words_wide, high + WORDS_MM);
    tw_profile_outline_draw(drawn, in->job, plan, 0, EDGE_MM - box.x0, EDGE_MM - box.y0);
    for (size_t i = 0; i < drawn->count; i++) tw_draw_clipped(canvas, &drawn->items[i], (tw_box){ 0.0, 0.0, wide, high }, 0.0,
        0.0);
    tw_block_text(canvas, EDGE_MM, high + WORDS_MM - 2.0, tw_min(words_wide, 180.0) - 2.0 * EDGE_MM, TW_BODY_MM, false,
        words_of(&arena, in->job, plan));
    tw_tiling tiling = tw_tiling_default((tw_paper)in->job->paper.value);
    tiling.footer = tw_format(&arena, "%s \u00b7 revision %s \u00b7 %s", plan->joint->name, in->job->revision.text,
        in->job->title.text);
    int count;
    tw_sheet **pages = tw_sheet_tile(keep, canvas, tiling, &count);
    for (int i = 0; i < count; i++) {
        tw_array_make_room(keep, &list->pages, list->count, &list->room, sizeof(tw_sheet *));
        list->pages[list->count++] = pages[i];
    }
    tw_arena_finish(&arena);
}

tw_paper_pages tw_paper_profile_lines(tw_arena *arena, const tw_paper_input *in)
{
    line_pages list = { 0 };
    for (int i = in->job->joint_count; i < in->plan_count; i++) add_lines(arena, in, i, &list);
    return (tw_paper_pages){ .name = "profile-lines", .title = "Curves of profiles, true to size", .true_size = true,
        .pages = list.pages, .page_count = (int)list.count,
                             .purpose = "the curves to draw or saw along, true to size" };
}
