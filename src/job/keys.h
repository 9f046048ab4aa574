// SPDX-License-Identifier: GPL-3.0-or-later
/* keys: the table by which a job or a shop is read, checked and documented.
 *
 * One row is one key. The reader fills the struct at the row's offset; `tuskwright keys` style documentation
 * (docs/job-file.md, docs/shop-file.md) is printed from the same rows, and a test holds the files to it. */
#ifndef TW_KEYS_H
#define TW_KEYS_H

#include "base/base.h"

/// An amount as read: millimetres, radians or a plain number; given = the file has it.
typedef struct tw_amount { double value; bool given; tw_place place; } tw_amount;
/// Several amounts (`at: [100 mm, 400 mm]` or one alone).
typedef struct tw_amounts { tw_amount *items; int count; tw_place place; } tw_amounts;
/// One word out of the row's choices: value is its index; the row's fallback index when not given.
typedef struct tw_choice { int value; bool given; tw_place place; } tw_choice;
/// A text as read; bytes "" when not given.
typedef struct tw_words { const char *text; bool given; tw_place place; } tw_words;
/// The name of a piece, cutter, follower: index into the job's or the shop's list, -1 when not given.
typedef struct tw_link { int index; bool given; tw_place place; } tw_link;

typedef enum tw_key_kind {
    TW_KEY_TEXT,       // tw_words: free text, one line
    TW_KEY_LENGTH,     // tw_amount in mm
    TW_KEY_LENGTHS,    // tw_amounts in mm: one amount or a list
    TW_KEY_ANGLE,      // tw_amount in radians: degrees or a slope
    TW_KEY_NUMBER,     // tw_amount: plain number or percent
    TW_KEY_COUNT,      // tw_amount: whole number
    TW_KEY_YES_NO,     // tw_choice: 0 no, 1 yes
    TW_KEY_CHOICE,     // tw_choice
    TW_KEY_PIECE,      // tw_link into the job's pieces
    TW_KEY_CUTTER,     // tw_words; resolved against the shop when both are there
    TW_KEY_FOLLOWER,   // tw_words; likewise
    TW_KEY_FIGURES     // tw_figures: "mm 0.1", "mm 0.01", "in 0.001", "in 1/64" (2 to 64)
} tw_key_kind;

typedef struct tw_key {
    const char        *name;       // as written in the file, words with spaces: "tenon thickness"
    tw_key_kind        kind;
    size_t             offset;     // of the field in the struct that the table fills
    bool               required;
    double             least, most;  // range of an amount in mm, radians or number; both 0: the kind's own limits (more
                                     // than 0 to TW_LENGTH_MOST_MM; 0 to 90 deg; 0 to 1e6; 1 to TW_COUNT_MOST);
                                     // of a text: most is its characters, 0: TW_TITLE_MOST
    const char *const *choices;    // for TW_KEY_CHOICE: ended by NULL
    int                fallback;   // for choices: index when not given
    const char        *otherwise;  // for the docs: what holds when it is not given ("a third of the piece's thickness")
    const char        *meaning;    // for the docs: one or two sentences
    const char        *example;    // for the docs and for errors: "12 mm"
    double             preset;     // amounts: the value when not given, in mm, radians or number; 0: stays 0
} tw_key;

#endif
