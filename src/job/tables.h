// SPDX-License-Identifier: GPL-3.0-or-later
/* The key tables of the job and the shop, for the reader and for the docs. */
#ifndef TW_JOB_TABLES_H
#define TW_JOB_TABLES_H

#include "job/keys.h"

/// A map inside a file: its key, what stands in it, and the table of each entry.
typedef struct tw_section {
    const char   *name;      // "pieces"
    const char   *entry;     // "piece": what one entry is called; NULL: the map itself is read by the table
    bool          required;
    const char   *meaning;
    const char   *example;   // YAML, for the docs
    const tw_key *keys;      // NULL: by another table (amounts, joints)
    int           count;
} tw_section;

/// All that a file may hold: its own keys and its sections.
typedef struct tw_layout {
    const tw_key     *keys;
    int               count;
    const tw_section *sections;
    int               section_count;
} tw_layout;

extern const tw_layout tw_job_layout, tw_shop_layout;
/// The section of that name; NULL when the file has none.
const tw_section *tw_section_named(const tw_layout *layout, tw_text name);
extern const tw_key tw_joint_common_keys[];  // `kind` and `note`, which every joint has
enum { TW_JOINT_KIND, TW_JOINT_NOTE, TW_JOINT_COMMON_KEYS };

#endif
