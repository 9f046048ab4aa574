// SPDX-License-Identifier: GPL-3.0-or-later
/* The findings: halts first, then cares, then notes; each with its place, what is found and its remedy. */
#include "sheet/pages.h"

static const struct { tw_level level; const char *title, *meaning; } groups[] = {
    { TW_WRONG, "Wrong", "The text cannot be read as a job or a shop" },
    { TW_HALT, "Halt", "Do not cut this" },
    { TW_CARE, "Care", "Think before you cut" },
    { TW_NOTE, "Note", "Worth knowing" },
};

static const char *place_words(tw_arena *arena, const tw_finding *finding)
{
    if (finding->place.line == 0) return "";
    return tw_format(arena, "line %d, column %d of %s", finding->place.line, finding->place.column,
                     finding->place.file ? finding->place.file : "the job");
}

static void add_finding(tw_pages *pages, const tw_finding *finding)
{
    double width = pages->room.x1 - pages->room.x0;
    tw_sheet *block = tw_scratch(pages->arena);
    bool about = finding->about && *finding->about;
    double y = tw_block_text(block, 6.0, -1.0, width - 6.0, TW_BODY_MM, true,
                             tw_format(pages->arena, "%s%s%s.", about ? finding->about : "", about ? ": " : "", finding->what));
    tw_draw_tick_box(block, 0.0, -1.0 - 3.2, 3.2);
    if (finding->remedy && *finding->remedy)
        y = tw_block_text(block, 6.0, y, width - 6.0, TW_BODY_MM, false, tw_format(pages->arena, "Remedy: %s.", finding->remedy));
    y = tw_block_text(block, 6.0, y, width - 6.0, TW_SMALL_MM, false,
                      tw_format(pages->arena, "%s%s%s", place_words(pages->arena, finding), finding->place.line ? " \xC2\xB7 " : "",
                                finding->code ? finding->code : ""));
    tw_draw_line(block, TW_ROLE_FAINT, 0.0, y, width, y);
    tw_pages_place(pages, block, 0.8 - y);
}

tw_paper_pages tw_paper_findings(tw_arena *arena, const tw_paper_input *in)
{
    if (in->findings->count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "findings", "Findings", "Findings",
                                    "what the checks say of the job, each with its remedy");
    tw_pages_new(&pages, "Findings", NULL);
    for (size_t g = 0; g < sizeof groups / sizeof *groups; g++) {
        size_t count = tw_findings_count(in->findings, groups[g].level);
        if (count == 0) continue;
        tw_pages_heading(&pages, tw_format(pages.arena, "%s (%zu). %s.", groups[g].title, count, groups[g].meaning), 20.0);
        for (size_t i = 0; i < in->findings->count; i++)
            if (in->findings->items[i].level == groups[g].level) add_finding(&pages, &in->findings->items[i]);
    }
    return tw_pages_finish(&pages);
}
