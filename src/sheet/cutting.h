// SPDX-License-Identifier: GPL-3.0-or-later
/* cutting: the rows of the cutting list: what is finished, and what is sawn out for it. Private to the papers.
 *
 * Rough size = finished size + allowance: 25 mm in length (both ends are squared), 6 mm in width (a saw cut and planing of
 * two edges), 4 mm in thickness (planing of two faces); for jobs written in inches 1, 1/4 and 1/8 in. Common practice for
 * sound, flat boards; twisted or cupped stock wants more. Tusks and pegs come from sticks whose size the joint gives. */
#ifndef TW_CUTTING_H
#define TW_CUTTING_H

#include "sheet/papers.h"

typedef struct tw_cutting_row {
    const char *name, *timber, *note;
    bool        part;         // that a joint makes; rough is then the stick
    bool        bought;       // hardware for a joint: no timber; note says what to ask for
    int         count;        // in all sets
    int         rough_count;  // rough pieces or sticks to saw out
    int         each;         // finished from one rough: 1, or what a stick gives
    tw_size     finished, rough;
} tw_cutting_row;

typedef struct tw_cutting_list { tw_cutting_row *rows; int count; tw_size allowance; } tw_cutting_list;

/// What a rough size has more than the finished one.
tw_size tw_cutting_allowance(const tw_job *job);
/// Pieces in the job's order, then parts and what is bought in the order of the joints.
tw_cutting_list tw_cutting_list_make(tw_arena *arena, const tw_paper_input *in);
/// "piece", "part" or "bought".
const char *tw_cutting_what(const tw_cutting_row *row);
/// The allowances in words: "25.0 mm in length, ...".
const char *tw_cutting_allowance_words(tw_arena *arena, const tw_cutting_list *list, tw_figures figures);

#endif
