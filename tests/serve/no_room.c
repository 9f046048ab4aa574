// SPDX-License-Identifier: GPL-3.0-or-later
/* Loaded before the C library (LD_PRELOAD) into the program under test: while the file that NO_ROOM names is there, nothing more can be
 * written to the book; the first character of that file says why: "f" the disk is full (ENOSPC), "r" it is read-only (EROFS). */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

ssize_t pwrite64(int fd, const void *bytes, size_t count, off64_t at);

static int error_now(int fd)
{
    char link[64], path[4096], why = 0;
    const char *name = getenv("NO_ROOM");
    int flag = name ? open(name, O_RDONLY | O_CLOEXEC) : -1;
    if (flag < 0) return 0;
    if (read(flag, &why, 1) < 0) why = 0;
    close(flag);
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, path, sizeof path - 1);
    if (length < 0) return 0;
    path[length] = '\0';
    return !strstr(path, "book.sqlite") ? 0 : why == 'r' ? EROFS : ENOSPC;
}

ssize_t pwrite64(int fd, const void *bytes, size_t count, off64_t at)
{
    static ssize_t (*real)(int, const void *, size_t, off64_t);
    if (!real) *(void **)&real = dlsym(RTLD_NEXT, "pwrite64");
    int error = error_now(fd);
    if (!error) return real(fd, bytes, count, at);
    errno = error;
    return -1;
}

ssize_t write(int fd, const void *bytes, size_t count)
{
    static ssize_t (*real)(int, const void *, size_t);
    if (!real) *(void **)&real = dlsym(RTLD_NEXT, "write");
    int error = error_now(fd);
    if (!error) return real(fd, bytes, count);
    errno = error;
    return -1;
}
