// SPDX-License-Identifier: GPL-3.0-or-later
/* splice: one change at work, inside the stage. The plan is kept twice, as splices of the text and in the tree: the tree
 * says what the spliced text must be read as. */
#ifndef TW_JOB_SPLICE_H
#define TW_JOB_SPLICE_H

#include "job/change.h"
#include "job/tree.h"

typedef struct tw_splicer {
    tw_arena        *arena;
    tw_findings     *findings;
    tw_change_rules  rules;
    tw_text          source;
    tw_node         *root;        // the source's tree; ours to change
    const char      *line_end;    // as the source ends its lines
    size_t           step;        // columns by which a map is indented under its key
    tw_splice       *splices;     // of the source, in any order, none over another
    size_t           count, room;
} tw_splicer;

/// Where a path leads.
typedef struct tw_found {
    tw_node *node;        // what stands there; NULL: nothing yet
    tw_node *key;         // its key, NULL for an item of a list
    tw_node *parent;      // what holds it, or is to: a map, a list, or a key without a value, which is to become a map
    tw_node *parent_key;  // NULL at the top
    int      index;       // in its parent; -1: not there
    bool     flow;        // the parent is written in brackets
    size_t   depth;       // words of the path that were found
} tw_found;

/* ---- places (change_place.c) ---- */
tw_found tw_path_find(const tw_splicer *s, const char *const *path, size_t count);
/// "`pieces / post / width`", in backquotes, for messages.
const char *tw_path_in_words(tw_arena *arena, const char *const *path, size_t count);
/// Is the map or list written in brackets?
bool tw_node_is_flow(tw_text source, const tw_node *node);
/// The node's last byte + 1, without the line ends and blanks that libyaml counts to a folded text.
size_t tw_node_end(tw_text source, const tw_node *node);
/// Has the key or item no value at all?
bool tw_node_is_nothing(const tw_node *node);
/// Where a value that is nothing comes to stand: behind its key's colon, or, with *colon false, behind the key that has none.
/// (libyaml gives it the place of what follows.)
size_t tw_nothing_at(tw_text source, const tw_node *key, const tw_node *nothing, bool *colon);
/// Behind the value of a pair, or behind its colon.
size_t tw_pair_end(tw_text source, const tw_pair *pair);
size_t tw_line_begin_at(tw_text source, size_t at);
/// Before the line end, and behind it.
size_t tw_line_stop_at(tw_text source, size_t at);
size_t tw_line_next_at(tw_text source, size_t at);
/// Bytes before the node on its line.
size_t tw_column_at(tw_text source, size_t at);
/// How the source ends its lines ("\n" when it has but one), and how far it indents (2 when nothing is).
const char *tw_line_end_of(tw_text source);
size_t tw_step_of(tw_text source, const tw_node *root);

/* ---- writing (change_write.c) ---- */
tw_node *tw_new_text(tw_arena *arena, tw_text said);
/// A text, or a list of texts when value is NULL.
tw_node *tw_new_value(tw_arena *arena, const char *value, const char *const *list, size_t list_count);
void tw_map_append(tw_arena *arena, tw_node *map, tw_node *key, tw_node *value);
void tw_list_append(tw_arena *arena, tw_node *list, tw_node *item);
/// How a text is written at the place of an old one (NULL: at a new place). The quotes of the old one stay, unless they are
/// just those that would be put on here because the old text needed them, and the new one needs none.
char *tw_text_written(tw_arena *arena, tw_text source, const tw_node *old, tw_text said, bool flow);
/// A value in one line: a text, [a list], {a: map}.
void tw_value_put(tw_arena *arena, tw_sink *sink, const tw_node *value, bool flow);
/// Lines of a map in a block, each begun by a line end and `indent` blanks; maps in it a step deeper, or, if `braces`, in { }.
void tw_pair_lines_put(const tw_splicer *s, tw_sink *sink, const tw_node *key, const tw_node *value, size_t indent, bool braces);

/* ---- changes: false with a finding when it cannot be done ---- */
bool tw_splice_set(tw_splicer *s, const tw_change *change);     // change_set.c
bool tw_splice_add(tw_splicer *s, const tw_change *change);
bool tw_splice_remove(tw_splicer *s, const tw_change *change);  // change_remove.c
bool tw_splice_rename(tw_splicer *s, const tw_change *change);  // change_rename.c

/// In change.c: keeps a splice; text lives in the arena.
void tw_splice_at(tw_splicer *s, size_t begin, size_t end, const char *text);
bool tw_splice_refuse(tw_splicer *s, const tw_node *near, const char *what, const char *remedy);

#endif
