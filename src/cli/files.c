// SPDX-License-Identifier: GPL-3.0-or-later
/* Reading files: whole, limited in size, with the system's own reason when it fails. */
#include "cli/files.h"

#include "cli/cli.h"
#include "job/job.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

static int system_failed(tw_arena *arena, const char *path, const char *reason, const char **why)
{
    *why = tw_format(arena, "tuskwright: cannot read %s: %s", strcmp(path, "-") == 0 ? "standard input" : path, reason);
    return TW_EXIT_SYSTEM;
}

static int read_all(tw_arena *arena, FILE *file, const char *path, tw_text *text, const char **why)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    char bytes[16384];
    errno = 0;
    for (size_t count; (count = fread(bytes, 1, sizeof bytes, file)) > 0;) {
        tw_put(&sink, bytes, count);
        if (all.count <= TW_TEXT_MOST_BYTES) continue;
        *why = tw_format(arena, "tuskwright: %s is larger than %u bytes; give a smaller file", path, TW_TEXT_MOST_BYTES);
        return TW_EXIT_WRONG;
    }
    if (ferror(file)) return system_failed(arena, path, errno ? strerror(errno) : "it breaks off", why);
    *text = tw_gathered(&all);
    return TW_EXIT_DONE;
}

int tw_file_read(tw_arena *arena, const char *path, tw_text *text, const char **why)
{
    if (strcmp(path, "-") == 0) return read_all(arena, stdin, path, text, why);
    FILE *file = fopen(path, "rb");
    if (!file) return system_failed(arena, path, strerror(errno), why);
    int status = read_all(arena, file, path, text, why);
    fclose(file);
    return status;
}

tw_exit tw_file_given(tw_cli *cli, const char *path, tw_text *text)
{
    const char *why;
    int status = tw_file_read(cli->arena, path, text, &why);
    if (status != TW_EXIT_DONE) tw_putf(cli->err, "%s\n", why);
    return (tw_exit)status;
}
