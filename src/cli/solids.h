// SPDX-License-Identifier: GPL-3.0-or-later
/* solids: pieces and templates as STL, in the folder solids/ of the papers. */
#ifndef TW_SOLIDS_H
#define TW_SOLIDS_H

#include "cli/out_folder.h"
#include "whole.h"

/// Writes solids/piece-NAME.stl for each kind of piece with all its cuts, and solids/NAME.stl for each template. A solid whose skin
/// does not close is left out and told on standard error: no printer could use it. Returns false with out->why set.
bool tw_solids_write(tw_out_folder *out, const tw_result *result);

#endif
