// SPDX-License-Identifier: GPL-3.0-or-later
/* The program: gathers what a command says and writes it out at the end, so that nothing half-said is left. */
#include "cli/cli.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void out_of_memory(void)
{
    fputs("tuskwright: there is no more memory; close other programs, or give it a smaller job\n", stderr);
    exit(TW_EXIT_SYSTEM);
}

static bool write_to_file(void *context, const char *bytes, size_t count) { return fwrite(bytes, 1, count, context) == count; }

static tw_exit write_out(tw_text said, tw_exit status)
{
    bool written = said.length == 0 || fwrite(said.bytes, 1, said.length, stdout) == said.length;
    if (written && fflush(stdout) == 0) return status;
    fprintf(stderr, "tuskwright: cannot write to standard output: %s\n", strerror(errno));
    return TW_EXIT_SYSTEM;
}

int main(int count, char *arguments[])
{
    tw_arena arena = { .out_of_memory = out_of_memory };
    tw_gather said = { .arena = &arena };
    tw_sink out = tw_gather_sink(&said), err = { .write = write_to_file, .context = stderr };
    tw_cli cli = { .arena = &arena, .out = &out, .err = &err };
    tw_exit status = tw_cli_run(&cli, count > 0 ? count - 1 : 0, arguments + (count > 0));
    status = write_out(tw_gathered(&said), status);
    tw_arena_finish(&arena);
    return (int)status;
}
