// SPDX-License-Identifier: GPL-3.0-or-later
/* many: a job of n reading tables side by side, every piece and joint with its own number. For benches and tests. */
#ifndef TW_BENCH_MANY_H
#define TW_BENCH_MANY_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/// The text of a file, ended by a zero; the caller's to free(). NULL when it cannot be read.
static inline char *many_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    size_t room = 1 << 20, length = 0;
    char *text = malloc(room + 1);
    if (text) length = fread(text, 1, room, file);
    if (text) text[length] = '\0';
    fclose(file);
    return text;
}

static inline void many_numbered(char **to, const char *line, const char *const *names, int name_count, int number)
{
    while (*line) {
        int matched = -1;
        for (int i = 0; i < name_count && matched < 0; i++)
            if (strncmp(line, names[i], strlen(names[i])) == 0 && strchr(": \n./", line[strlen(names[i])]) && strchr(" (+", line[-1])) matched = i;
        if (matched < 0) { *(*to)++ = *line++; continue; }
        *to += sprintf(*to, "%s %d", names[matched], number);
        line += strlen(names[matched]);
    }
}

/// The job `text` with the lines of its pieces and of its joints repeated n times. The caller's to free().
static inline char *many_job(const char *text, int n)
{
    static const char *const names[] = { "post to foot", "post to head", "stretcher to post", "foot", "post", "head", "stretcher" };
    const char *pieces = strstr(text, "\npieces:\n") + 9, *joints = strstr(text, "\njoints:\n");
    size_t piece_bytes = (size_t)(joints - pieces), joint_bytes = strlen(joints + 9);
    char *all = malloc(strlen(text) + (size_t)n * 2 * (piece_bytes + joint_bytes) + 64), *to = all;
    char *part = malloc(piece_bytes + joint_bytes + 2);
    to += sprintf(to, "%.*s", (int)(pieces - text), text);
    for (int section = 0; section < 2; section++) {
        if (section == 1) to += sprintf(to, "\njoints:\n");
        size_t bytes = section == 0 ? piece_bytes : joint_bytes;
        part[0] = ' ';
        memcpy(part + 1, section == 0 ? pieces : joints + 9, bytes);
        part[bytes + 1] = '\0';
        for (int i = 1; i <= n; i++) many_numbered(&to, part + 1, names, 7, i);
    }
    *to = '\0';
    free(part);
    return all;
}

#endif
