// SPDX-License-Identifier: GPL-3.0-or-later
/* All papers of a job, in the order in which they are needed, and the reading papers of a job on A3 two to a sheet. */
#include "sheet/pages.h"

#include <assert.h>

#include "sheet/bodies.h"

#define BODIES_CHORD_MM 0.1   // of curves in pictures: at 1:1 a fifth of a line's width

/* A lying A3 sheet is two upright A4 pages (ISO 216: 420 = 2 x 210, 297): the two are copied side by side. */
static tw_paper_pages two_to_a_sheet(tw_arena *arena, tw_paper_pages paper)
{
    tw_paper_size a3 = tw_paper_size_of(TW_PAPER_A3);
    int sheets = (paper.page_count + 1) / 2;
    const tw_sheet **pages = TW_NEW_ARRAY(arena, const tw_sheet *, (size_t)sheets);
    for (int i = 0; i < sheets; i++) {
        tw_sheet *both = tw_sheet_new(arena, tw_format(arena, "%s-%d", paper.name, i + 1), paper.pages[2 * i]->title, a3.height_mm, a3.width_mm);
        tw_draw_sheet(both, paper.pages[2 * i], 1.0, 0.0, 0.0);
        if (2 * i + 1 < paper.page_count) tw_draw_sheet(both, paper.pages[2 * i + 1], 1.0, a3.height_mm / 2.0, 0.0);
        tw_draw_line(both, TW_ROLE_FAINT, a3.height_mm / 2.0, 0.0, a3.height_mm / 2.0, a3.width_mm);
        pages[i] = both;
    }
    paper.pages = pages;
    paper.page_count = sheets;
    return paper;
}

tw_papers tw_papers_make(tw_arena *arena, const tw_paper_input *given)
{
    assert(given->job && given->shop && given->templates && given->setups && given->run && given->findings);
    tw_paper_input with_bodies = *given, *input = &with_bodies;
    if (!input->bodies) input->bodies = tw_bodies_make(arena, input->job, input->plans, input->plan_count, BODIES_CHORD_MM);
    const tw_paper_pages made[] = {
        tw_paper_findings(arena, input), tw_paper_run(arena, input), tw_paper_cards(arena, input), tw_paper_templates(arena, input),
        tw_paper_strips(arena, input), tw_paper_pieces(arena, input), tw_paper_joints(arena, input), tw_paper_profiles(arena, input), tw_paper_profile_lines(arena, input), tw_paper_grain(arena, input), tw_paper_assembly(arena, input), tw_paper_cutting(arena, input),
    };
    enum { MADE = sizeof made / sizeof *made };
    tw_papers papers = { TW_NEW_ARRAY(arena, tw_paper_pages, MADE + 1), 0 };
    tw_papers others = { papers.items + 1, 0 };
    bool on_a3 = input->job->paper.value == TW_PAPER_A3;
    for (int i = 0; i < MADE; i++) {
        if (made[i].page_count == 0) continue;
        others.items[others.count++] = on_a3 && !made[i].true_size ? two_to_a_sheet(arena, made[i]) : made[i];
    }
    papers.items[0] = tw_paper_overview(arena, input, &others);
    if (on_a3) papers.items[0] = two_to_a_sheet(arena, papers.items[0]);
    papers.count = others.count + 1;
    return papers;
}
