// SPDX-License-Identifier: GPL-3.0-or-later
/* A book of layout 0, as it stood in a file: written out here, so that the steps in the program cannot change it. It holds job 3
 * with the texts 6f 6c 64 00 ff and "new", and shop 1. */
#ifndef TW_TESTS_LAYOUT_0_H
#define TW_TESTS_LAYOUT_0_H

#define LAYOUT_0 \
    "PRAGMA application_id = 1416983403;" /* the letters T u s k */ \
    "CREATE TABLE jobs (id INTEGER PRIMARY KEY, name TEXT NOT NULL, created INTEGER NOT NULL) STRICT;" \
    "CREATE TABLE revisions (job INTEGER NOT NULL REFERENCES jobs (id), number INTEGER NOT NULL CHECK (number > 0)," \
    " text BLOB NOT NULL, made INTEGER NOT NULL, why TEXT NOT NULL, PRIMARY KEY (job, number)) STRICT;" \
    "CREATE TABLE shops (id INTEGER PRIMARY KEY, name TEXT NOT NULL, created INTEGER NOT NULL) STRICT;" \
    "CREATE TABLE shop_revisions (shop INTEGER NOT NULL REFERENCES shops (id), number INTEGER NOT NULL CHECK (number > 0)," \
    " text BLOB NOT NULL, made INTEGER NOT NULL, why TEXT NOT NULL, PRIMARY KEY (shop, number)) STRICT;" \
    "INSERT INTO jobs VALUES (3, 'press of the old orchard', 100);" \
    "INSERT INTO revisions VALUES (3, 1, x'6f6c6400ff', 100, 'begun'), (3, 2, x'6e6577', 200, '');" \
    "INSERT INTO shops VALUES (1, 'shed', 90);" \
    "INSERT INTO shop_revisions VALUES (1, 1, x'73686564', 90, '')"

#endif
