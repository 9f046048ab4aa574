// SPDX-License-Identifier: GPL-3.0-or-later
/* A disk that fails when told to: a file system for SQLite that stands before the real one. All files that are opened while
 * it is on go through it; shared memory and locks are passed on as they are. */
#ifndef TW_TESTS_FAILING_DISK_H
#define TW_TESTS_FAILING_DISK_H

#include <sqlite3.h>

typedef struct failing_disk {
    int writes_left;  // writes and flushes that still go well; negative: all
    int code;         // what the others report: SQLITE_FULL, SQLITE_IOERR_WRITE
    int failed;       // how many did fail
} failing_disk;

extern failing_disk disk;

/// Makes it SQLite's file system, or the real one again. Books that were opened before keep theirs.
void failing_disk_on(void);
void failing_disk_off(void);

#endif
