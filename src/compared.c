// SPDX-License-Identifier: GPL-3.0-or-later
/* The public side of comparing: the list of what moved, with its arena. */
#include "whole.h"

#include <assert.h>
#include <stdlib.h>

#include "sheet/figures.h"

struct tw_compared {
    tw_arena arena;
    tw_moves moves;
};

/* Empty for a result without a job. */
static tw_values figures_of(tw_arena *arena, const tw_result *result)
{
    if (tw_result_state(result) == TW_STATE_WRONG) return tw_values_none(arena);
    tw_paper_input input = tw_result_input(result);
    if (!input.woods) input.woods = tw_piece_woods_make(arena, input.job, input.plans, input.plan_count);
    tw_paper_input *kept = TW_NEW(arena, tw_paper_input);
    *kept = input;
    return tw_figure_list(arena, kept);
}

/* Its texts, some of which are the results'. */
static void keep(tw_arena *arena, tw_moved *moved)
{
    const char **texts[] = { &moved->id, &moved->where, &moved->label, &moved->before, &moved->after };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) *texts[i] = tw_text_copy(arena, tw_text_of(*texts[i]));
}

tw_compared *tw_results_compare(const tw_result *before, const tw_result *after)
{
    tw_compared *compared = calloc(1, sizeof *compared);
    if (!compared) {
        if (after->arena.out_of_memory) after->arena.out_of_memory();
        abort();
    }
    compared->arena.out_of_memory = after->arena.out_of_memory;
    tw_values first = figures_of(&compared->arena, before), second = figures_of(&compared->arena, after);
    compared->moves = tw_figures_compare(&compared->arena, &first, &second);
    for (size_t i = 0; i < compared->moves.count; i++) keep(&compared->arena, &compared->moves.items[i]);
    return compared;
}

void tw_compared_free(tw_compared *compared)
{
    if (!compared) return;
    tw_arena_finish(&compared->arena);
    free(compared);
}

size_t tw_compared_count(const tw_compared *compared) { return compared->moves.count; }

tw_result_move tw_compared_at(const tw_compared *compared, size_t index)
{
    assert(index < compared->moves.count);
    tw_moved moved = compared->moves.items[index];
    return (tw_result_move){ moved.id, moved.where, moved.label, moved.before, moved.after };
}
