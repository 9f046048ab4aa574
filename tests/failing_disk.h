// SPDX-License-Identifier: GPL-3.0-or-later
/* A disk that fails when told to, and forgets what was not flushed: a file system for SQLite that stands before the real one. All
 * files that are opened while it is on go through it; shared memory and locks are passed on as they are.
 *
 * What the disk surely holds of a file is what was written before the last flush (xSync) of it. Of the writes after that, a cut
 * of power may leave any part. */
#ifndef TW_TESTS_FAILING_DISK_H
#define TW_TESTS_FAILING_DISK_H

#include <sqlite3.h>

#include "check.h"

typedef struct failing_disk {
    int  writes_left;                 // writes and flushes that still go well; negative: all
    int  code;                        // what the others report: SQLITE_FULL, SQLITE_IOERR_WRITE
    int  failed;                      // how many did fail
    bool remembers;                   // keeps what is flushed, for failing_disk_cut()
    void (*before)(const char *path);  // called before each write and flush of a file, if not NULL
} failing_disk;

extern failing_disk disk;

/// Makes it SQLite's file system, or the real one again. Books that were opened before keep theirs; none may be open at the end.
void failing_disk_on(void);
void failing_disk_off(void);

/// Writes to the new file `to` what a cut of power now would leave of the file `from`: all that was flushed, and of each later write
/// nothing, all, or its first half, by the seed. Makes no file where there is none. Returns false when `to` cannot be written.
bool failing_disk_cut(const char *from, const char *to, check_seed *seed);

#endif
