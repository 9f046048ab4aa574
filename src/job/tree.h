// SPDX-License-Identifier: GPL-3.0-or-later
/* The neutral tree of a YAML text: maps, lists and texts with their places. All typing is done later, by the key
 * tables; here `38 mm`, `yes` and `1:12` are texts like any other. Another parser can stand in for libyaml by giving
 * the same tree. */
#ifndef TW_JOB_TREE_H
#define TW_JOB_TREE_H

#include "base/base.h"

typedef enum tw_node_kind {
    TW_NODE_TEXT,
    TW_NODE_LIST,
    TW_NODE_MAP,
    TW_NODE_BAD   // what was refused with a finding of its own (an alias, say): to be passed over in silence
} tw_node_kind;

typedef struct tw_node tw_node;
typedef struct tw_pair {
    tw_node *key;       // a text, or TW_NODE_BAD
    tw_node *value;
    bool     repeated;  // the key stands earlier in the same map: found already, pass over
} tw_pair;

struct tw_node {
    tw_node_kind kind;
    tw_place     place;       // of its first character, the quote if it is quoted
    size_t       begin, end;  // bytes of the source as given, quotes included; for splices
    tw_text      text;        // TW_NODE_TEXT: what it says, without quotes and escapes; ended by a zero
    tw_node     *built;       // TW_NODE_TEXT: what an amount came out as, to be reckoned with in its place (measured.h); NULL: as written
    bool         quoted;
    bool         straight;    // the text stands in the source byte for byte, on one line
    tw_node    **items;       // TW_NODE_LIST: [count]
    tw_pair     *pairs;       // TW_NODE_MAP: [count], in the order written
    int          count;
    size_t       room;
};

typedef struct tw_tree {
    tw_node *root;    // NULL: nothing could be read; a finding says why
    bool     holed;   // lines were left out after a syntax error: do not complain of what is missing
} tw_tree;

/// Reads one YAML document. All syntax errors that can be told apart become findings of level TW_WRONG. Refused: bad
/// UTF-8, control characters, anchors, aliases, tags, maps and lists as keys, keys given twice, a second document, nesting
/// over TW_DEPTH_MOST, more than TW_TEXT_MOST_BYTES.
tw_tree tw_tree_read(tw_arena *arena, tw_text text, const char *file, tw_findings *findings);

/// A map's pair with this key, or NULL.
const tw_pair *tw_pair_of(const tw_node *map, const char *key);
/// The place of a byte inside a node's text; the node's own place when that cannot be told.
tw_place tw_node_place_of(const tw_node *node, size_t byte);
/// "a map", "a list", "the text `abc`", "nothing": for messages.
const char *tw_node_in_words(tw_arena *arena, const tw_node *node);

#endif
