// SPDX-License-Identifier: GPL-3.0-or-later
/* ledger: what was measured on a job, and which of it is reckoned with.
 *
 * The book keeps every measured value under a key (book.h). The key says which file and which value, and whether it counts:
 *     pieces/post/thickness                     of the job's text; a path text (job/path.h)
 *     shop:cutters/spiral 8/measured            of the shop's text
 *     as drawn:pieces/post/thickness            from here on the drawn value counts again
 * The newest line for a value is the one that counts. */
#ifndef TW_LEDGER_H
#define TW_LEDGER_H

#include "serve/book.h"
#include "sheet/desk_json.h"
#include "tuskwright.h"

typedef struct tw_ledger_key {
    tw_file_kind file;
    const char  *path;   // path text
    bool         drawn;  // the drawn value counts again
} tw_ledger_key;

const char   *tw_ledger_key_text(tw_arena *arena, tw_ledger_key key);
tw_ledger_key tw_ledger_key_of(const char *text);

/// A value that counts.
typedef struct tw_ledger_line { tw_ledger_key key; double value_mm; } tw_ledger_line;
/// In the order of their first lines; more may come than `most`.
typedef struct tw_ledger { tw_ledger_line *items; size_t count, room; } tw_ledger;

tw_ledger tw_ledger_read(tw_arena *arena, const tw_book_measures *lines);
/// One more line.
void      tw_ledger_add(tw_arena *arena, tw_ledger *ledger, tw_ledger_key key, double value_mm);
/// As a request takes them; lines whose key is no path are left out. count is set.
const tw_measured *tw_ledger_measured(tw_arena *arena, const tw_ledger *ledger, size_t *count);
/// One text for each set of values: the same values, the same text.
const char *tw_ledger_sign(tw_arena *arena, const tw_ledger *ledger);

#endif
