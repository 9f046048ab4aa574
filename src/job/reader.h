// SPDX-License-Identifier: GPL-3.0-or-later
/* reader: fills structs from the tree by key tables (keys.h). Texts, choices and links are there at once; amounts when
 * the sums are settled. */
#ifndef TW_JOB_READER_H
#define TW_JOB_READER_H

#include "base/base.h"
#include "job/index.h"
#include "job/keys.h"
#include "job/measured.h"
#include "job/sums.h"
#include "job/tree.h"

#define TW_NOTE_MOST 500  // characters of a note

typedef struct tw_reader {
    tw_arena    *arena;
    tw_findings *findings;
    const char  *file;      // in the arena
    tw_sums     sums;
    tw_index     pieces;    // names, for links; piece i has the number i
    size_t       wrong_at_start;  // findings of level TW_WRONG that stood before this reading
    size_t       first_finding;
    tw_measures *measures;  // values as built; NULL: none
    tw_file_kind file_kind; // whose they are
} tw_reader;

/// A map that a table describes, at one place in the file.
typedef struct tw_key_table {
    const char        *what;    // "piece `post`": for messages
    tw_place           place;   // of its name
    int                owner;   // in the sums, -1 for none
    const tw_key      *keys;
    int                count;
    const char *const *others;  // further keys that are known here and read elsewhere: ended by NULL, or NULL
    const char        *section; // where it stands, for fixes: "pieces"; NULL: at the top
    const char        *entry;   // "post"; NULL: the section itself
} tw_key_table;

/// Reads the text's tree; NULL when there is none or it is no map (found already).
tw_reader tw_reader_of(tw_arena *arena, const char *file, tw_findings *findings);
const tw_node *tw_reader_open(tw_reader *reader, tw_text text, const char *holds);
/// Settles the sums, sorts what was found by place; true when nothing was wrong.
bool tw_reader_close(tw_reader *reader);

void tw_wrong(tw_reader *reader, tw_place place, const char *code, const char *about, const char *what, const char *remedy);

/// Offers, with the finding made last, to write this value of a key.
void tw_offer_word(tw_reader *reader, const tw_key_table *table, const char *key, const char *value);

/// False, with a finding, when the node is no map. A refused node gives false in silence.
bool tw_want_map(tw_reader *reader, const tw_node *node, const char *what);
/// Reads the map into the struct at `into`; the fields of keys that are not given get their place and default.
void tw_read_table(tw_reader *reader, const tw_node *map, const tw_key_table *table, void *into);
/// Reads one key of the map, when it is there, by the row; says nothing of the other keys.
void tw_read_key(tw_reader *reader, const tw_node *map, const tw_key_table *table, const tw_key *key, void *into);

/// Whose names: of jobs (pieces, joints, amounts) begin with a letter; of shops may hold . / - " ' too.
typedef enum tw_name_rule { TW_NAME_OF_JOB, TW_NAME_OF_SHOP } tw_name_rule;
/// Checks a name; a copy in the arena, or NULL with a finding. what: "the name of a piece".
const char *tw_read_name(tw_reader *reader, const tw_node *key, tw_name_rule rule, const char *what);

/// "`a`, `b` and `c`" for messages; words ended by NULL.
char *tw_words_list(tw_arena *arena, const char *const *words);

#endif
