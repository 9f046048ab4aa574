// SPDX-License-Identifier: GPL-3.0-or-later
/* Each file of ours holds the real one behind it, in the same memory. */
#include "failing_disk.h"

#include <assert.h>
#include <stddef.h>

failing_disk disk = { .writes_left = -1, .code = SQLITE_FULL };

typedef struct our_file { sqlite3_file base; sqlite3_file *real; } our_file;

static sqlite3_file *real_of(sqlite3_file *file) { return ((our_file *)(void *)file)->real; }

static const sqlite3_io_methods *calls_of(sqlite3_file *file) { return real_of(file)->pMethods; }

static int may_write(void)
{
    if (disk.writes_left < 0) return SQLITE_OK;
    if (disk.writes_left-- > 0) return SQLITE_OK;
    disk.writes_left = 0;
    disk.failed++;
    return disk.code;
}

static int close_file(sqlite3_file *f) { return calls_of(f)->xClose(real_of(f)); }
static int read_file(sqlite3_file *f, void *to, int count, sqlite3_int64 at) { return calls_of(f)->xRead(real_of(f), to, count, at); }
static int write_file(sqlite3_file *f, const void *from, int count, sqlite3_int64 at)
{
    int code = may_write();
    return code == SQLITE_OK ? calls_of(f)->xWrite(real_of(f), from, count, at) : code;
}
static int truncate_file(sqlite3_file *f, sqlite3_int64 size) { return calls_of(f)->xTruncate(real_of(f), size); }
static int sync_file(sqlite3_file *f, int flags)
{
    int code = may_write();
    return code == SQLITE_OK ? calls_of(f)->xSync(real_of(f), flags) : (code == SQLITE_FULL ? SQLITE_IOERR_FSYNC : code);
}
static int size_of_file(sqlite3_file *f, sqlite3_int64 *size) { return calls_of(f)->xFileSize(real_of(f), size); }
static int lock_file(sqlite3_file *f, int kind) { return calls_of(f)->xLock(real_of(f), kind); }
static int unlock_file(sqlite3_file *f, int kind) { return calls_of(f)->xUnlock(real_of(f), kind); }
static int check_lock(sqlite3_file *f, int *locked) { return calls_of(f)->xCheckReservedLock(real_of(f), locked); }
static int control_file(sqlite3_file *f, int what, void *with) { return calls_of(f)->xFileControl(real_of(f), what, with); }
static int sector_size(sqlite3_file *f) { return calls_of(f)->xSectorSize(real_of(f)); }
static int characteristics(sqlite3_file *f) { return calls_of(f)->xDeviceCharacteristics(real_of(f)); }
static int map_shared(sqlite3_file *f, int page, int size, int extend, void volatile **to) { return calls_of(f)->xShmMap(real_of(f), page, size, extend, to); }
static int lock_shared(sqlite3_file *f, int at, int count, int flags) { return calls_of(f)->xShmLock(real_of(f), at, count, flags); }
static void barrier_shared(sqlite3_file *f) { calls_of(f)->xShmBarrier(real_of(f)); }
static int unmap_shared(sqlite3_file *f, int erase) { return calls_of(f)->xShmUnmap(real_of(f), erase); }

static const sqlite3_io_methods methods = {
    2, close_file, read_file, write_file, truncate_file, sync_file, size_of_file, lock_file, unlock_file, check_lock, control_file, sector_size,
    characteristics, map_shared, lock_shared, barrier_shared, unmap_shared, NULL, NULL,
};

static sqlite3_vfs *real_system;
static sqlite3_vfs  our_system;

static int open_file(sqlite3_vfs *system, const char *name, sqlite3_file *file, int flags, int *out_flags)
{
    (void)system;
    our_file *ours = (our_file *)(void *)file;
    ours->real = (sqlite3_file *)(void *)(ours + 1);
    int code = real_system->xOpen(real_system, name, ours->real, flags, out_flags);
    ours->base.pMethods = ours->real->pMethods ? &methods : NULL;
    return code;
}

void failing_disk_on(void)
{
    if (!real_system) {
        real_system = sqlite3_vfs_find(NULL);
        our_system = *real_system;
        our_system.zName = "failing";
        our_system.szOsFile += (int)sizeof(our_file);
        our_system.xOpen = open_file;
    }
    disk = (failing_disk){ .writes_left = -1, .code = SQLITE_FULL };
    sqlite3_vfs_register(&our_system, 1);
}

void failing_disk_off(void)
{
    assert(real_system != NULL);
    sqlite3_vfs_register(real_system, 1);
}
