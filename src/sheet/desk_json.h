// SPDX-License-Identifier: GPL-3.0-or-later
/* desk_json: what the page shows of a job, as JSON: every figure as a text in the units asked, with its sum and the place in
 * the job's text where it can be written. The page reckons nothing.
 *
 * Keys: job, amounts, pieces, joints, profiles, templates, steps, measured, run_lines, papers. What each holds is told in
 * docs/desk-json.md. */
#ifndef TW_DESK_JSON_H
#define TW_DESK_JSON_H

#include "sheet/papers.h"

/// A value as built that is reckoned with in place of the drawn one.
typedef struct tw_built {
    const char *file;   // "job" or "shop"
    const char *key;    // path text
    const char *label;  // "width of post"
    double      drawn_mm, built_mm;
} tw_built;

typedef struct tw_desk_options {
    const tw_built    *built;        // [built_count]: measured values in force
    int                built_count;
    const char *const *papers;       // names of the papers that can be made, ended by NULL; NULL: none
} tw_desk_options;

/// in: with woods and kin, or without what is said from them.
void tw_desk_json_put(const tw_paper_input *in, const tw_desk_options *options, tw_sink *sink);

/// The words that forms need: kinds of joints and profiles with their keys (meaning, kind of value, choices, what holds when
/// not given, example), keys of the job and of a piece, units, ways to write figures, paper sizes; as JSON.
void tw_words_json_put(tw_sink *sink);

#endif
