// SPDX-License-Identifier: GPL-3.0-or-later
/* desk_json: what the page shows of a job, as JSON: every figure as a text in the units asked, with its sum and the place in
 * the job's text where it can be written. The page reckons nothing.
 *
 * {"job", "amounts", "pieces", "joints", "profiles", "templates", "steps", "measured", "run_lines", "papers"}. A figure is
 * {"id", "path", "label", "symbol", "text", "bare", "unit", "written", "value", "shows", "given", "sum", "rule", "choices"}: see
 * tw_value; value is in mm, degrees, kg, mm2, mm3 or a plain number. */
#ifndef TW_DESK_JSON_H
#define TW_DESK_JSON_H

#include "job/measured.h"
#include "sheet/figures.h"

/// values: as tw_figure_list() made them; of an input with woods and kin, or what is said from them is missing.
/// measures: what was reckoned as built; NULL: nothing.
/// cards: with all that the steps' cards say; else each step has its "key", "number", "name", "tally" and "change" only.
void tw_desk_json_put(const tw_values *values, const tw_measures *measures, bool cards, tw_sink *sink);

#endif
