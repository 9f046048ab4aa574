// SPDX-License-Identifier: GPL-3.0-or-later
/* measured: values as built take the place of the drawn ones while a text is read.
 *
 * The text and its tree stay the maker's: a node only learns what its value came out as (tw_node.built), and the sums take
 * that. So places in findings, and what the page shows as written, are those of the maker's text. */
#ifndef TW_JOB_MEASURED_H
#define TW_JOB_MEASURED_H

#include "base/base.h"
#include "job/keys.h"
#include "tuskwright.h"

/// A measured value that is reckoned with.
typedef struct tw_in_force {
    tw_file_kind       file;
    const char *const *path;     // [path_count]
    size_t             path_count;
    tw_text            written;  // what the text says there, without quotes; "" where it says nothing (a cutter never measured)
    tw_amount          drawn;    // what that comes to, mm; of a cutter or follower never measured: its diameter as sold
    double             built_mm;
} tw_in_force;

/// The measured values of a job and of its shop while both are read.
typedef struct tw_measures {
    const tw_measured *items;    // [count]; of two at one path the later counts
    size_t             count;
    tw_in_force       *in_force; // [in_force_count], room for count
    size_t             in_force_count;
} tw_measures;

/// items: as in tw_request.
tw_measures tw_measures_of(tw_arena *arena, const tw_measured *items, size_t count);

struct tw_reader;
struct tw_node;  // tree.h
/// Lays those of one file over its tree. What stands nowhere in the text is a TW_NOTE "measured-nowhere" and is left aside.
void tw_measures_lay(tw_measures *measures, tw_file_kind file, struct tw_reader *reader, struct tw_node *root);
/// The one in force at {section, name, key}; NULL when there is none.
tw_in_force *tw_measure_at(const tw_measures *measures, tw_file_kind file, const char *section, const char *name,
    const char *key);
/// Is there one in force at the path, above it or below it?
bool tw_measures_touch(const tw_measures *measures, tw_file_kind file, const char *const *path, size_t path_count);

#endif
