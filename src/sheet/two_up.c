// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/two_up.h"

#include <string.h>

bool tw_title_goes_on(const char *title)
{
    static const char ending[] = ", continued";
    size_t length = strlen(title), end = sizeof ending - 1;
    return length >= end && strcmp(title + length - end, ending) == 0;
}

/* Both titles, where the second page does not only go on with the first. */
static const char *title_of(tw_arena *arena, const char *first, const char *second)
{
    bool same = !second || tw_title_goes_on(second) || strcmp(first, second) == 0;
    return same ? first : tw_format(arena, "%s; %s", first, second);
}

tw_paper_pages tw_two_to_a_sheet(tw_arena *arena, tw_paper_pages paper)
{
    tw_paper_size a3 = tw_paper_size_of(TW_PAPER_A3);
    int sheets = (paper.page_count + 1) / 2;
    const tw_sheet **pages = TW_NEW_ARRAY(arena, const tw_sheet *, (size_t)sheets);
    for (int i = 0; i < sheets; i++) {
        const tw_sheet *first = paper.pages[2 * i], *second = 2 * i + 1 < paper.page_count ? paper.pages[2 * i + 1] : NULL;
        const char *title = title_of(arena, first->title, second ? second->title : NULL);
        tw_sheet *both = tw_sheet_new(arena, tw_format(arena, "%s-%d", paper.name, i + 1), title, a3.height_mm, a3.width_mm);
        tw_draw_sheet(both, first, 1.0, 0.0, 0.0);
        if (second) tw_draw_sheet(both, second, 1.0, a3.height_mm / 2.0, 0.0);
        tw_draw_line(both, TW_ROLE_FAINT, a3.height_mm / 2.0, 0.0, a3.height_mm / 2.0, a3.width_mm);
        pages[i] = both;
    }
    paper.pages = pages;
    paper.page_count = sheets;
    return paper;
}
