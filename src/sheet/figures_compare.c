// SPDX-License-Identifier: GPL-3.0-or-later
/* Two lists of figures held against each other by their ids. */
#include "sheet/figures_own.h"

#include <math.h>
#include <string.h>

#define FINEST_MM 5    // decimals
#define FINEST_INCH 6

static bool is_measure(const tw_value *value)
{
    return strcmp(value->shows, "length") == 0 || strcmp(value->shows, "angle") == 0;
}

static void add(tw_arena *arena, tw_moves *moves, tw_moved moved)
{
    tw_array_make_room(arena, &moves->items, moves->count, &moves->room, sizeof moved);
    moves->items[moves->count++] = moved;
}

/* Both lengths with as many decimals as show that they differ. */
static void write_finer(tw_arena *arena, tw_moved *moved, tw_figures figures, double before_mm, double after_mm)
{
    bool mm = figures.style == TW_FIGURES_MM;
    int finest = mm ? FINEST_MM : FINEST_INCH;
    int decimals = figures.style == TW_FIGURES_FRACTION ? 3 : figures.decimals;
    tw_figures fine = { mm ? TW_FIGURES_MM : TW_FIGURES_INCH, decimals, figures.parts };
    do {
        moved->before = tw_length_text(arena, before_mm, fine);
        moved->after = tw_length_text(arena, after_mm, fine);
    } while (strcmp(moved->before, moved->after) == 0 && fine.decimals++ < finest);
}

/* Angles that are written alike, in degrees. */
static void write_finer_angle(tw_arena *arena, tw_moved *moved, double before, double after)
{
    moved->before = tw_format(arena, "%.4f°", tw_degrees(before));
    moved->after = tw_format(arena, "%.4f°", tw_degrees(after));
}

static void compare_one(tw_arena *arena, tw_moves *moves, tw_figures figures, const tw_value *before, const tw_value *after)
{
    tw_moved moved = { after->id, after->where, after->label, before->text, after->text };
    if (strcmp(before->text, after->text) == 0) {
        if (!is_measure(after) || !is_measure(before) || fabs(before->value - after->value) < TW_SAME_FIGURE) return;
        if (strcmp(after->shows, "angle") == 0) write_finer_angle(arena, &moved, before->value, after->value);
        else write_finer(arena, &moved, figures, before->value, after->value);
    }
    add(arena, moves, moved);
}

tw_moves tw_figures_compare(tw_arena *arena, const tw_values *before, const tw_values *after)
{
    tw_moves moves = { 0 };
    tw_figures figures = after->in ? after->in->job->figures : (tw_figures){ 0 };
    bool *met = TW_NEW_ARRAY(arena, bool, before->count + 1);
    for (size_t i = 0; i < after->count; i++) {
        const tw_value *value = &after->items[i];
        int at = tw_index_find(&before->names->ids, tw_text_of(value->id));
        if (at < 0) add(arena, &moves, (tw_moved){ value->id, value->where, value->label, "", value->text });
        else compare_one(arena, &moves, figures, &before->items[at], value);
        if (at >= 0) met[at] = true;
    }
    for (size_t i = 0; i < before->count; i++) {
        const tw_value *value = &before->items[i];
        if (!met[i]) add(arena, &moves, (tw_moved){ value->id, value->where, value->label, value->text, "" });
    }
    return moves;
}
