// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/two_up.h"

tw_paper_pages tw_two_to_a_sheet(tw_arena *arena, tw_paper_pages paper)
{
    tw_paper_size a3 = tw_paper_size_of(TW_PAPER_A3);
    int sheets = (paper.page_count + 1) / 2;
    const tw_sheet **pages = TW_NEW_ARRAY(arena, const tw_sheet *, (size_t)sheets);
    for (int i = 0; i < sheets; i++) {
        tw_sheet *both = tw_sheet_new(arena, tw_format(arena, "%s-%d", paper.name, i + 1), paper.pages[2 * i]->title,
                                      a3.height_mm, a3.width_mm);
        tw_draw_sheet(both, paper.pages[2 * i], 1.0, 0.0, 0.0);
        if (2 * i + 1 < paper.page_count) tw_draw_sheet(both, paper.pages[2 * i + 1], 1.0, a3.height_mm / 2.0, 0.0);
        tw_draw_line(both, TW_ROLE_FAINT, a3.height_mm / 2.0, 0.0, a3.height_mm / 2.0, a3.width_mm);
        pages[i] = both;
    }
    paper.pages = pages;
    paper.page_count = sheets;
    return paper;
}
