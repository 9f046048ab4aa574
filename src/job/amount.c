// SPDX-License-Identifier: GPL-3.0-or-later
/* One amount by itself, for the command line: the same reading as in a file, with no names to use. */
#include "job/characters.h"
#include "job/formula.h"
#include "job/job.h"
#include "job/sums.h"

#include <assert.h>
#include <math.h>

#define ALONE_MOST_MM 1e6  // a kilometre: no length in a shop

static int no_names(void *context, tw_text owner, tw_text key, const char **what, const char **remedy)
{
    (void)key;
    tw_arena *arena = context;
    *what = tw_format(arena, "%s is not an amount", tw_shown(arena, owner));
    *remedy = "write a number with its unit: 38 mm";
    return -1;
}

static tw_quantity no_cell(void *context, int cell)
{
    (void)context, (void)cell;
    assert(cell < 0);  // never called: a formula without names has no cells
    return (tw_quantity){ 0 };
}

static bool refuse(tw_arena *arena, tw_text text, const tw_fault *fault, const char **why)
{
    int character = tw_characters_before(text, fault->at) + 1;
    *why = tw_format(arena, "%s, character %d: %s%s%s", tw_shown(arena, text), character, fault->what,
                     fault->remedy[0] ? "; " : "", fault->remedy);
    return false;
}

static bool read_alone(tw_arena *arena, tw_text text, tw_want want, int unit, double *value, const char **why)
{
    tw_formula formula;
    tw_quantity quantity;
    tw_fault fault = { 0 };
    bool good = tw_formula_read(arena, text, (tw_names_known){ no_names, arena }, &formula, &fault) &&
                tw_formula_reckon(arena, &formula, tw_unit_mm(unit), no_cell, NULL, &quantity, &fault);
    if (good) {
        fault.at = 0;
        good = tw_quantity_fits(arena, quantity, want, unit, NULL, value, &fault.what, &fault.remedy);
    }
    return good || refuse(arena, text, &fault, why);
}

static int unit_index(const char *unit)
{
    int index = 0;
    while (tw_unit_words[index] && !tw_text_is(tw_text_of(unit), tw_unit_words[index])) index++;
    assert(tw_unit_words[index] != NULL);
    return index;
}

bool tw_length_read(tw_arena *arena, tw_text text, const char *unit, double *length_mm, const char **why)
{
    double value;
    if (!read_alone(arena, text, TW_WANT_LENGTH, unit_index(unit), &value, why)) return false;
    if (fabs(value) > ALONE_MOST_MM)
        return refuse(arena, text, &(tw_fault){ 0, "the length is over a kilometre", "" }, why);
    *length_mm = value;
    return true;
}

bool tw_angle_read(tw_arena *arena, tw_text text, double *angle_rad, const char **why)
{
    double value;
    if (!read_alone(arena, text, TW_WANT_ANGLE, 0, &value, why)) return false;
    if (fabs(value) > 2.0 * TW_PI)
        return refuse(arena, text, &(tw_fault){ 0, "the angle is more than a full turn", "" }, why);
    *angle_rad = value;
    return true;
}

/* ---- the names in a sum ---- */

typedef struct names_used { tw_arena *arena; tw_name_used *items; size_t count, room; } names_used;

static int note_name(void *context, tw_text owner, tw_text key, const char **what, const char **remedy)
{
    names_used *names = context;
    *what = *remedy = "";
    tw_array_make_room(names->arena, &names->items, names->count, &names->room, sizeof *names->items);
    names->items[names->count++] = (tw_name_used){ owner, key };
    return 0;
}

bool tw_amount_is_sum(tw_arena *arena, tw_text text, tw_name_used **names, int *count)
{
    names_used used = { .arena = arena };
    tw_formula formula = { 0 };
    tw_fault fault;
    bool good = tw_formula_read(arena, text, (tw_names_known){ note_name, &used }, &formula, &fault);
    *names = used.items;
    *count = (int)used.count;
    return used.count > 0 || (good && formula.count > 1);
}
