// SPDX-License-Identifier: GPL-3.0-or-later
/* begin: starting designs. Each is a job file ready to edit, in which a few main sizes stand under `amounts:` and all the
 * rest is reckoned from them. A kind is one file with its text, and one row in begin.c.
 *
 * One text serves both units: <1500|60> is written 1500 in millimetres and 60 in inches. A remark after other words begins
 * with two spaces and # and is written in a column of its own. */
#ifndef TW_BEGIN_H
#define TW_BEGIN_H

#include "base/base.h"

/// A starting design, in the parts of its job file; each part ends its last line.
typedef struct tw_design {
    const char *kind;     // as the maker asks for it: "trestle table"
    const char *opening;  // remarks: what it is, and where to begin
    const char *title;    // of the job
    const char *amounts, *pieces, *joints;
} tw_design;

extern const tw_design *const tw_designs[];
extern const size_t           tw_design_count;

/// The design of that kind, NULL when there is none.
const tw_design *tw_design_of(const char *kind);

/// The kind that is spelled nearest to it, NULL when none is near.
const char *tw_design_nearest(const char *kind);

/// Writes its job file, in inches or in millimetres. Holds all the text that there is; fails as the sink fails.
void tw_design_put(const tw_design *design, bool inches, tw_sink *out);

/// Writes a shop file to begin with, likewise.
void tw_begin_shop_put(bool inches, tw_sink *out);

/* ---- for the files of this folder ---- */

extern const tw_design tw_design_trestle_table, tw_design_bench, tw_design_low_stool, tw_design_open_shelf, tw_design_bed_frame,
    tw_design_board_stand, tw_design_box;

/// Writes a text of the form above.
void tw_begin_put(const char *text, bool inches, tw_sink *out);

#endif
