// SPDX-License-Identifier: GPL-3.0-or-later
/* All papers of a job, in the order in which they are needed; the reading papers of a job on A3 two to a sheet. */
#include "sheet/pages.h"

#include <assert.h>

#include "sheet/bodies.h"
#include "sheet/two_up.h"

#define BODIES_CHORD_MM 0.1   // of curves in pictures: at 1:1 a fifth of a line's width

static tw_paper_pages (*const composers[])(tw_arena *arena, const tw_paper_input *in) = {
    tw_paper_findings, tw_paper_run, tw_paper_cards, tw_paper_templates, tw_paper_strips, tw_paper_pieces, tw_paper_joints,
        tw_paper_profiles,
    tw_paper_profile_lines, tw_paper_grain, tw_paper_assembly, tw_paper_cutting,
};
enum { COMPOSERS = sizeof composers / sizeof *composers };

tw_papers tw_papers_make(tw_arena *arena, const tw_paper_input *input) { return tw_papers_make_watched(arena, input, NULL); }

tw_papers tw_papers_make_watched(tw_arena *arena, const tw_paper_input *given, const tw_papers_watch *watch)
{
    assert(given->job && given->shop && given->templates && given->setups && given->run && given->findings);
    tw_paper_input with_bodies = *given, *input = &with_bodies;
    if (!input->bodies) input->bodies = tw_bodies_make(arena, input->job, input->plans, input->plan_count, BODIES_CHORD_MM);
    tw_papers papers = { TW_NEW_ARRAY(arena, tw_paper_pages, COMPOSERS + 1), 0, input->bodies };
    tw_papers others = { papers.items + 1, 0, input->bodies };
    bool on_a3 = input->job->paper.value == TW_PAPER_A3;
    for (size_t i = 0; i < COMPOSERS; i++) {
        if (watch && !watch->go_on(watch->context, i, COMPOSERS + 1)) return (tw_papers){ .count = 0 };
        tw_paper_pages made = composers[i](arena, input);
        if (made.page_count == 0) continue;
        others.items[others.count++] = on_a3 && !made.true_size ? tw_two_to_a_sheet(arena, made) : made;
    }
    papers.items[0] = tw_paper_overview(arena, input, &others);
    if (on_a3) papers.items[0] = tw_two_to_a_sheet(arena, papers.items[0]);
    papers.count = others.count + 1;
    return papers;
}
