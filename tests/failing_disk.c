// SPDX-License-Identifier: GPL-3.0-or-later
/* Each file of ours holds the real one behind it, in the same memory. What is flushed of it is kept by its path, so that it outlives
 * the closing of the file. */
#include "failing_disk.h"

#include <assert.h>

failing_disk disk = { .writes_left = -1, .code = SQLITE_FULL };

/* ---- what the disk holds ---- */

/* A write, or with bytes NULL a cut to the length `at`. */
typedef struct later_write { sqlite3_int64 at; size_t count; char *bytes; } later_write;

#define LATER_MOST 4000

typedef struct kept_file {
    char        path[256];
    bool        there;
    char       *flushed;
    size_t      length;
    later_write later[LATER_MOST];
    int         later_count;
} kept_file;

static kept_file kept[16];

static kept_file *kept_of(const char *path)
{
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
        if (kept[i].there && strcmp(kept[i].path, path) == 0) return &kept[i];
    return NULL;
}

static void forget_later(kept_file *file)
{
    for (int i = 0; i < file->later_count; i++) free(file->later[i].bytes);
    file->later_count = 0;
}

static void forget(kept_file *file)
{
    forget_later(file);
    free(file->flushed);
    file->flushed = NULL;
    file->length = 0;
    file->there = false;
}

static char *grown(char *bytes, size_t *length, size_t wanted)
{
    if (wanted <= *length) return bytes;
    bytes = realloc(bytes, wanted);
    assert(bytes != NULL);
    memset(bytes + *length, 0, wanted - *length);
    *length = wanted;
    return bytes;
}

static char *with_write(char *bytes, size_t *length, const later_write *write, size_t count)
{
    if (!write->bytes) {
        if ((size_t)write->at < *length) *length = (size_t)write->at;
        return bytes;
    }
    bytes = grown(bytes, length, (size_t)write->at + count);
    memcpy(bytes + write->at, write->bytes, count);
    return bytes;
}

static void keep_flushed(kept_file *file)
{
    for (int i = 0; i < file->later_count; i++)
        file->flushed = with_write(file->flushed, &file->length, &file->later[i], file->later[i].count);
    forget_later(file);
}

static void keep_later(kept_file *file, const void *bytes, size_t count, sqlite3_int64 at)
{
    if (!file) return;
    assert(file->later_count < LATER_MOST);
    char *copy = bytes ? malloc(count) : NULL;
    if (copy) memcpy(copy, bytes, count);
    file->later[file->later_count++] = (later_write){ at, count, copy };
}

/* What stands in a file when it is first opened is taken as flushed. */
static void keep(const char *path)
{
    kept_file *file = kept;
    while (file->there) file++;
    assert(file < kept + sizeof kept / sizeof *kept && strlen(path) < sizeof file->path);
    strcpy(file->path, path);
    file->there = true;
    FILE *stream = fopen(path, "rb");
    if (!stream) return;
    char part[4096];
    for (size_t count; (count = fread(part, 1, sizeof part, stream)) > 0;) {
        size_t at = file->length;
        file->flushed = grown(file->flushed, &file->length, at + count);
        memcpy(file->flushed + at, part, count);
    }
    fclose(stream);
}

bool failing_disk_cut(const char *from, const char *to, check_seed *seed)
{
    const kept_file *file = kept_of(from);
    if (!file) return true;
    size_t length = 0;
    char *bytes = grown(NULL, &length, file->length);
    if (bytes) memcpy(bytes, file->flushed, length);
    for (int i = 0; i < file->later_count; i++) {
        size_t part = check_random(seed) % 3, count = file->later[i].count * part / 2;
        if (part > 0) bytes = with_write(bytes, &length, &file->later[i], count);
    }
    FILE *stream = fopen(to, "wb");
    bool good = stream && (length == 0 || fwrite(bytes, 1, length, stream) == length);
    good = stream && fclose(stream) == 0 && good;
    free(bytes);
    return good;
}

/* ---- files ---- */

typedef struct our_file {
    sqlite3_file  base;
    sqlite3_file *real;
    const char   *path;  // NULL for a file without a name
} our_file;

static kept_file *kept_behind(sqlite3_file *file)
{
    const char *path = ((our_file *)(void *)file)->path;
    return path ? kept_of(path) : NULL;
}

static sqlite3_file *real_of(sqlite3_file *file) { return ((our_file *)(void *)file)->real; }

static const sqlite3_io_methods *calls_of(sqlite3_file *file) { return real_of(file)->pMethods; }

static int may_write(sqlite3_file *file)
{
    const char *path = ((our_file *)(void *)file)->path;
    if (disk.before && path) disk.before(path);
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
    int code = may_write(f);
    if (code == SQLITE_OK) code = calls_of(f)->xWrite(real_of(f), from, count, at);
    if (code == SQLITE_OK) keep_later(kept_behind(f), from, (size_t)count, at);
    return code;
}
static int truncate_file(sqlite3_file *f, sqlite3_int64 size)
{
    int code = calls_of(f)->xTruncate(real_of(f), size);
    if (code == SQLITE_OK) keep_later(kept_behind(f), NULL, 0, size);
    return code;
}
static int sync_file(sqlite3_file *f, int flags)
{
    int code = may_write(f);
    if (code != SQLITE_OK) return code == SQLITE_FULL ? SQLITE_IOERR_FSYNC : code;
    (void)flags;  // the real disk need not be waited for
    if (kept_behind(f)) keep_flushed(kept_behind(f));
    return SQLITE_OK;
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
    ours->path = name;  // SQLite promises that it lives as long as the file
    if (name && disk.remembers && !kept_of(name)) keep(name);
    int code = real_system->xOpen(real_system, name, ours->real, flags, out_flags);
    ours->base.pMethods = ours->real->pMethods ? &methods : NULL;
    return code;
}

static int delete_file(sqlite3_vfs *system, const char *name, int flush_folder)
{
    (void)system;
    kept_file *file = kept_of(name);
    if (file) forget(file);
    return real_system->xDelete(real_system, name, flush_folder);
}

void failing_disk_on(void)
{
    if (!real_system) {
        real_system = sqlite3_vfs_find(NULL);
        our_system = *real_system;
        our_system.zName = "failing";
        our_system.szOsFile += (int)sizeof(our_file);
        our_system.xOpen = open_file;
        our_system.xDelete = delete_file;
    }
    disk = (failing_disk){ .writes_left = -1, .code = SQLITE_FULL };
    sqlite3_vfs_register(&our_system, 1);
}

void failing_disk_off(void)
{
    assert(real_system != NULL);
    sqlite3_vfs_register(real_system, 1);
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
        if (kept[i].there) forget(&kept[i]);
}
