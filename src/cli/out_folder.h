// SPDX-License-Identifier: GPL-3.0-or-later
/* out_folder: a folder of papers that appears whole or not at all.
 *
 * The new set is written beside the old one, into FOLDER.new-XXXXXX, flushed, and then changed places with it in one
 * step. What is in the old folder and is not listed in its `papers.list` is the maker's own and is carried over. A folder
 * that has files but no such list is not touched. */
#ifndef TW_OUT_FOLDER_H
#define TW_OUT_FOLDER_H

#include "base/base.h"

typedef struct tw_out_folder {
    tw_arena   *arena;
    const char *folder, *fresh;  // where it is to be; where it is made
    char      **names;           // files written so far, relative
    size_t      count, room;
    const char *why;             // set when something failed: a sentence without its full stop
} tw_out_folder;

/// Makes the folder for the new set. Returns false with why set.
bool tw_out_begin(tw_out_folder *out, tw_arena *arena, const char *folder);
/// Writes one file (name may hold one folder: "templates/T1.dxf") and flushes it to the disk.
bool tw_out_write(tw_out_folder *out, const char *name, tw_text bytes);
/// Puts the new set in the place of the old one. Returns false with why set; the old set then stands as it was.
bool tw_out_finish(tw_out_folder *out);
/// Takes the unfinished set away. May be called after any failure.
void tw_out_drop(tw_out_folder *out);

#endif
