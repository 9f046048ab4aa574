// SPDX-License-Identifier: GPL-3.0-or-later
/* The list of starting designs, and how their texts are written. A new design is one file and one row here. */
#include "begin/begin.h"

#include <assert.h>
#include <string.h>

const tw_design *const tw_designs[] = {
    &tw_design_trestle_table, &tw_design_bench, &tw_design_low_stool, &tw_design_open_shelf, &tw_design_bed_frame, &tw_design_board_stand,
    &tw_design_box,
};
const size_t tw_design_count = sizeof tw_designs / sizeof tw_designs[0];

#define REMARK_COLUMN 30  // counted from 0; a longer line keeps two spaces before its remark

static const char head[] =
    "revision: \"1\"            # stands on every paper: raise it when you change the design\n"
    "units: <mm|in>  # of numbers written without one; 3/8 in and 9.5 mm may stand side by side\n"
    "figures: <mm 0.1|in 1/64>  # how lengths are written on the papers\n"
    "paper: <A4|Letter>\n"
    "shop: shop.yaml  # your machine, cutters, followers and spacers, in a file beside this one\n"
    "sets: 1  # how many of the whole\n";

const tw_design *tw_design_of(const char *kind)
{
    for (size_t i = 0; i < tw_design_count; i++)
        if (strcmp(tw_designs[i]->kind, kind) == 0) return tw_designs[i];
    return NULL;
}

#define KINDS_MOST 32

const char *tw_design_nearest(const char *kind)
{
    const char *kinds[KINDS_MOST];
    assert(tw_design_count <= KINDS_MOST);
    for (size_t i = 0; i < tw_design_count; i++) kinds[i] = tw_designs[i]->kind;
    return tw_nearest_word(kind, kinds, tw_design_count);
}

/* ---- the texts ---- */

/* Writes one of the two wordings of <mm|in>; returns what stands behind it. */
static const char *put_choice(const char *at, bool inches, tw_sink *out, size_t *column)
{
    const char *bar = strchr(at, '|'), *end = strchr(at, '>');
    assert(*at == '<' && bar && end && bar < end);
    const char *from = inches ? bar + 1 : at + 1;
    size_t count = (size_t)((inches ? end : bar) - from);
    tw_put(out, from, count);
    *column += count;
    return end + 1;
}

/* Before a remark, at its spaces: fills up to the column of remarks; returns the #. */
static const char *put_gap(const char *at, tw_sink *out, size_t column)
{
    size_t spaces = column + 2 < REMARK_COLUMN ? REMARK_COLUMN - column : 2;
    for (size_t i = 0; i < spaces; i++) tw_put(out, " ", 1);
    return at + strspn(at, " ");
}

static bool gap_before_remark(const char *at, size_t column)
{
    return column > 0 && at[0] == ' ' && at[1] == ' ' && at[strspn(at, " ")] == '#';
}

void tw_begin_put(const char *text, bool inches, tw_sink *out)
{
    size_t column = 0;
    for (const char *at = text; *at;) {
        if (*at == '<') {
            at = put_choice(at, inches, out, &column);
        } else if (gap_before_remark(at, column)) {
            at = put_gap(at, out, column);
            column = REMARK_COLUMN;
        } else {
            column = *at == '\n' ? 0 : column + 1;
            tw_put(out, at++, 1);
        }
    }
}

void tw_design_put(const tw_design *design, bool inches, tw_sink *out)
{
    tw_begin_put(design->opening, inches, out);
    tw_putf(out, "\njob: %s\n", design->title);
    const char *const parts[] = { head, design->amounts, design->pieces, design->joints };
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (i > 0) tw_put_text(out, "\n");
        tw_begin_put(parts[i], inches, out);
    }
}
