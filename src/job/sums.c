// SPDX-License-Identifier: GPL-3.0-or-later
/* Cells are settled depth first, with a stack of our own: a chain of amounts may be as long as the file. A cell that is
 * met again while it stands on the stack closes a circle; the path is what lies on the stack from there on. */
#include "job/sums.h"

#include "job/characters.h"
#include "job/job.h"

#include <assert.h>
#include <math.h>

#define WHOLE_WITHIN 1e-9      // a count may be off by this, from sums like 0.1 * 20
#define PATH_SHOWN_MOST 10     // names of a circle that are written out
#define SHOWN_MOST_VALUE 1e9   // larger amounts are not written out in a message
#define SHOWN_LEAST_VALUE 1e-6

const char *const tw_unit_words[] = { "mm", "cm", "m", "in", "ft", NULL };

enum { NEW, WORKING, SETTLED, FAILED };

typedef struct frame { int cell, next; } frame;  // next: step to look at

double tw_unit_mm(int unit)
{
    static const double factors[] = { 1.0, 10.0, 1000.0, TW_MM_PER_INCH, 12.0 * TW_MM_PER_INCH };
    assert(unit >= 0 && unit < 5);
    return factors[unit];
}

int tw_sums_add_owner(tw_sums *sums, const char *name, const char *kind)
{
    int number = tw_index_add(&sums->names, name);
    tw_array_make_room(sums->arena, &sums->owners, (size_t)number, &sums->owner_room, sizeof *sums->owners);
    sums->owners[number] = (tw_owner){ sums->cell_count, 0, kind, false };
    return number;
}

void tw_sums_add_cell(tw_sums *sums, tw_cell cell)
{
    tw_array_make_room(sums->arena, &sums->cells, (size_t)sums->cell_count, &sums->cell_room, sizeof *sums->cells);
    cell.state = cell.node ? NEW : FAILED;
    sums->cells[sums->cell_count++] = cell;
    if (cell.owner < 0) return;
    assert(cell.owner == sums->names.count - 1);
    sums->owners[cell.owner].count++;
}

/* ---- words ---- */

static char *number_in_words(tw_arena *arena, double value, const char *unit)
{
    const char *sign = value < 0.0 ? "-" : "";
    if (fabs(value) >= SHOWN_MOST_VALUE) return tw_format(arena, "more than %s1000000000%s", sign, unit);
    if (value != 0.0 && fabs(value) < SHOWN_LEAST_VALUE) return tw_format(arena, "less than %s0.000001%s", sign, unit);
    return tw_format(arena, "%g%s", value, unit);
}

char *tw_amount_in_words(tw_arena *arena, tw_want want, double value, int unit)
{
    bool inches = unit >= 3;
    if (want == TW_WANT_ANGLE) return number_in_words(arena, tw_degrees(value), " deg");
    if (want == TW_WANT_LENGTH) return number_in_words(arena, inches ? value / TW_MM_PER_INCH : value, inches ? " in" : " mm");
    return number_in_words(arena, value, "");
}

static const char *label_of(const tw_sums *sums, const tw_cell *cell)
{
    if (cell->owner < 0) return cell->key;
    const char *owner = sums->names.names[cell->owner];
    return cell->key[0] ? tw_format(sums->arena, "%s.%s", owner, cell->key) : owner;
}

static const char *about(const tw_sums *sums, const tw_cell *cell) { return cell->owner < 0 ? "" : sums->names.names[cell->owner]; }

static void fail_at(tw_sums *sums, tw_cell *cell, size_t at, const char *code, const char *what, const char *remedy)
{
    cell->state = FAILED;
    tw_find(sums->findings, TW_WRONG, tw_node_place_of(cell->node, at), code, about(sums, cell), what, remedy);
}

/* ---- names ---- */

typedef struct lookup { tw_sums *sums; bool quiet; } lookup;  // quiet: the name stands in what could not be read

static char *shown(const tw_sums *sums, tw_text text) { return tw_shown(sums->arena, text); }

static int refuse_owner(lookup *l, tw_text owner, const char **what, const char **remedy)
{
    tw_sums *sums = l->sums;
    *remedy = "";
    l->quiet = sums->holed;
    if (tw_text_is(owner, "nan") || tw_text_is(owner, "NaN") || tw_text_is(owner, "inf") || tw_text_is(owner, "infinity")) {
        *what = tw_format(sums->arena, "%s is not an amount", shown(sums, owner));
        *remedy = "write a number with its unit: 38 mm";
        l->quiet = false;
        return -1;
    }
    *what = tw_format(sums->arena, "nothing is named %s", shown(sums, owner));
    if (sums->nameless) {
        *what = tw_format(sums->arena, "%s is not an amount", shown(sums, owner));
        *remedy = "write a number with its unit: 38 mm";
        l->quiet = false;
        return -1;
    }
    const char *near = tw_index_nearest(&sums->names, owner);
    if (near) *remedy = tw_format(sums->arena, "`%s` is meant?", near);
    else if (tw_unit_find(owner, NULL)) *remedy = "a unit stands behind its number: 38 mm";
    else *remedy = "names of pieces, joints and amounts of this job can be used";
    return -1;
}

static int refuse_key(lookup *l, int owner, tw_text key, const char **what, const char **remedy)
{
    tw_sums *sums = l->sums;
    tw_owner span = sums->owners[owner];
    const char *name = sums->names.names[owner];
    const char *first = span.count ? sums->cells[span.first].key : "";
    *remedy = "";
    if (key.length == 0) {
        *what = tw_format(sums->arena, "`%s` is a %s, and no amount", name, span.kind);
        if (first[0]) *remedy = tw_format(sums->arena, "write `%s.%s` for its %s", name, first, first);
        return -1;
    }
    *what = tw_format(sums->arena, "`%s` gives no amount %s", name, shown(sums, key));
    if (span.count == 1 && !first[0]) *remedy = tw_format(sums->arena, "write `%s` alone", name);
    l->quiet = sums->holed || span.refused;
    if (span.count == 0 || !first[0]) return -1;
    const char **keys = TW_NEW_ARRAY(sums->arena, const char *, span.count);
    for (int i = 0; i < span.count; i++) keys[i] = sums->cells[span.first + i].key;
    const char *near = tw_nearest_word(tw_text_copy(sums->arena, key), keys, (size_t)span.count);
    *remedy = tw_format(sums->arena, near ? "`%s.%s` is meant?" : "`%s.%s` can be used", name, near ? near : first);
    return -1;
}

static int find_cell(void *context, tw_text owner, tw_text key, const char **what, const char **remedy)
{
    lookup *l = context;
    tw_sums *sums = l->sums;
    int number = tw_index_find(&sums->names, owner);
    if (number < 0) return refuse_owner(l, owner, what, remedy);
    tw_owner span = sums->owners[number];
    int found = -1;
    for (int i = span.first; i < span.first + span.count; i++) {
        if (!tw_text_is(key, sums->cells[i].key)) continue;
        if (found >= 0) {
            *what = tw_format(sums->arena, "`%s.%s` is a list of several amounts", sums->names.names[number], sums->cells[i].key);
            *remedy = "name the one that is meant under `amounts:`";
            return -1;
        }
        found = i;
    }
    return found >= 0 ? found : refuse_key(l, number, key, what, remedy);
}

static void read_formula(tw_sums *sums, tw_cell *cell)
{
    lookup l = { sums, false };
    tw_fault fault;
    if (tw_formula_read(sums->arena, cell->node->text, (tw_names_known){ find_cell, &l }, &cell->formula, &fault)) return;
    cell->state = FAILED;
    if (!l.quiet) fail_at(sums, cell, fault.at, "amount", fault.what, fault.remedy);
}

/* ---- kind and range ---- */

static bool is_whole(double value) { return fabs(value - round(value)) <= WHOLE_WITHIN; }

bool tw_quantity_fits(tw_arena *arena, tw_quantity quantity, tw_want want, int unit, const char *example, double *value,
                      const char **what, const char **remedy)
{
    static const char *const wanted[] = { "", "a length", "an angle", "a plain number", "a whole number" };
    bool number = quantity.length == 0 && quantity.angle == 0, bare = tw_is_bare(quantity);
    bool angle = quantity.length == 0 && quantity.angle == 1;
    *value = quantity.value;
    *remedy = tw_format(arena, "%s is wanted%s%s", wanted[want], example ? ", for instance " : "", example ? example : "");
    *what = tw_format(arena, "this is %s", tw_quantity_in_words(quantity));
    switch (want) {
    case TW_WANT_ANY: return true;
    case TW_WANT_LENGTH:
        if (bare) *value *= tw_unit_mm(unit);
        return bare || tw_is_length(quantity);
    case TW_WANT_ANGLE:
        if (bare) *value = tw_radians(*value);
        return bare || angle;
    case TW_WANT_NUMBER: return number;
    case TW_WANT_COUNT:
        if (number && !is_whole(quantity.value)) *what = tw_format(arena, "%s is no whole number", number_in_words(arena, quantity.value, ""));
        if (number && is_whole(quantity.value)) *value = round(quantity.value);
        return number && is_whole(quantity.value);
    }
    return false;
}

static bool in_range(const tw_sums *sums, const tw_cell *cell, double value, const char **what, const char **remedy)
{
    if (value >= cell->least && value <= cell->most) return true;
    tw_arena *arena = sums->arena;
    *what = tw_format(arena, "`%s` is %s", cell->key[0] ? cell->key : label_of(sums, cell), tw_amount_in_words(arena, cell->want, value, sums->unit));
    if (value > cell->most)
        *remedy = tw_format(arena, "it can be %s at most", tw_amount_in_words(arena, cell->want, cell->most, sums->unit));
    else if (cell->want == TW_WANT_LENGTH && cell->least == TW_LENGTH_LEAST_MM)
        *remedy = "it must be more than 0";
    else
        *remedy = tw_format(arena, "it must be %s at least", tw_amount_in_words(arena, cell->want, cell->least, sums->unit));
    return false;
}

/* What a name stands for in another sum: what has been settled as a length is one, a count is a ratio. */
static tw_quantity as_settled(const tw_cell *cell, tw_quantity quantity, double value)
{
    switch (cell->want) {
    case TW_WANT_LENGTH: return (tw_quantity){ value, 1, 0, false };
    case TW_WANT_ANGLE: return (tw_quantity){ value, 0, 1, false };
    case TW_WANT_NUMBER: case TW_WANT_COUNT: return (tw_quantity){ value, 0, 0, true };
    case TW_WANT_ANY: break;
    }
    return quantity;
}

static tw_quantity value_of(void *context, int cell)
{
    const tw_sums *sums = context;
    assert(sums->cells[cell].state == SETTLED);
    return sums->cells[cell].quantity;
}

static void reckon_cell(tw_sums *sums, tw_cell *cell)
{
    tw_fault fault = { 0 };
    tw_quantity quantity;
    double value, unit_mm = tw_unit_mm(sums->unit);
    if (!tw_formula_reckon(sums->arena, &cell->formula, unit_mm, value_of, sums, &quantity, &fault)) {
        fail_at(sums, cell, fault.at, "amount", fault.what, fault.remedy);
    } else if (!tw_quantity_fits(sums->arena, quantity, cell->want, sums->unit, cell->example, &value, &fault.what, &fault.remedy)) {
        fail_at(sums, cell, 0, "amount-kind", fault.what, fault.remedy);
    } else if (cell->want != TW_WANT_ANY && !in_range(sums, cell, value, &fault.what, &fault.remedy)) {
        fail_at(sums, cell, 0, "amount-range", fault.what, fault.remedy);
    } else {
        cell->state = SETTLED;
        cell->quantity = as_settled(cell, quantity, value);
        if (cell->target) cell->target->value = value;
    }
}

/* ---- order ---- */

static void report_circle(tw_sums *sums, const frame *path, int count)
{
    tw_gather all = { .arena = sums->arena };
    tw_sink sink = tw_gather_sink(&all);
    for (int i = 0; i < count; i++) {
        if (count > PATH_SHOWN_MOST && i == PATH_SHOWN_MOST / 2) {
            tw_put_text(&sink, "... -> ");
            i = count - PATH_SHOWN_MOST / 2;
        }
        tw_putf(&sink, "%s -> ", label_of(sums, &sums->cells[path[i].cell]));
    }
    tw_cell *first = &sums->cells[path[0].cell];
    tw_put_text(&sink, label_of(sums, first));
    tw_gathered(&all);
    for (int i = 0; i < count; i++) sums->cells[path[i].cell].state = FAILED;
    fail_at(sums, first, 0, "amount-circle", tw_format(sums->arena, "these amounts lean on each other in a circle: %s", all.bytes),
            "give one of them in figures");
}

/* The next cell that the top of the stack needs and that is not settled, -1 when there is none. */
static int next_needed(const tw_sums *sums, frame *top)
{
    const tw_cell *cell = &sums->cells[top->cell];
    while (cell->state == WORKING && top->next < cell->formula.count) {
        const tw_step *step = &cell->formula.steps[top->next++];
        if (step->kind == TW_STEP_CELL && sums->cells[step->cell].state != SETTLED) return step->cell;
    }
    return -1;
}

static void settle_from(tw_sums *sums, int root, frame **stack, size_t *room)
{
    int height = 0, entering = root;
    while (height > 0 || entering >= 0) {
        if (entering >= 0) {
            tw_array_make_room(sums->arena, stack, (size_t)height, room, sizeof **stack);
            (*stack)[height++] = (frame){ entering, 0 };
            sums->cells[entering].state = WORKING;
            entering = -1;
        }
        frame *top = &(*stack)[height - 1];
        tw_cell *cell = &sums->cells[top->cell];
        int needed = next_needed(sums, top);
        if (needed < 0) {
            if (cell->state == WORKING) reckon_cell(sums, cell);
            if (--height > 0 && cell->state == FAILED) sums->cells[(*stack)[height - 1].cell].state = FAILED;
        } else if (sums->cells[needed].state == NEW) {
            entering = needed;
        } else if (sums->cells[needed].state == FAILED) {
            cell->state = FAILED;
        } else {
            int from = height - 1;
            while ((*stack)[from].cell != needed) from--;
            report_circle(sums, *stack + from, height - from);
        }
    }
}

void tw_sums_settle(tw_sums *sums)
{
    frame *stack = NULL;
    size_t room = 0;
    for (int i = 0; i < sums->cell_count; i++)
        if (sums->cells[i].state == NEW) read_formula(sums, &sums->cells[i]);
    for (int i = 0; i < sums->cell_count; i++)
        if (sums->cells[i].state == NEW) settle_from(sums, i, &stack, &room);
}
