// SPDX-License-Identifier: GPL-3.0-or-later
/* serve: the book, the desk and the page, for a browser on this computer. One line on standard output: the address to open. */
#define _GNU_SOURCE
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/cli.h"
#include "cli/files.h"
#include "serve/desk.h"
#include "serve/door.h"
#include "serve/embedded.h"
#include "tuskwright.h"

static tw_exit system_failed(tw_cli *cli, const char *what)
{
    tw_putf(cli->err, "tuskwright: %s\n", what);
    return TW_EXIT_SYSTEM;
}

/* ---- where the book lies ---- */

/* Makes the folders above the file, for this user alone; those that are there stay as they are. */
static void make_folders(tw_arena *arena, const char *path)
{
    char *folder = tw_format(arena, "%s", path);
    for (char *slash = strchr(folder + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        mkdir(folder, 0700);  // what cannot be made is told when the book is opened
        *slash = '/';
    }
}

/* The XDG Base Directory Specification: user data; a path that is not absolute does not count. */
static const char *own_book(tw_cli *cli)
{
    const char *data = getenv("XDG_DATA_HOME"), *home = getenv("HOME");
    const char *path = NULL;
    if (data && data[0] == '/') path = tw_format(cli->arena, "%s/tuskwright/book.sqlite", data);
    else if (home && home[0] == '/') path = tw_format(cli->arena, "%s/.local/share/tuskwright/book.sqlite", home);
    if (path) make_folders(cli->arena, path);
    return path;
}

static tw_exit book_failed(tw_cli *cli, tw_book_result result)
{
    system_failed(cli, result.why);
    return result.answer == TW_BOOK_REFUSED ? TW_EXIT_WRONG : TW_EXIT_SYSTEM;
}

static tw_exit open_desk(tw_cli *cli, const tw_arguments *given, tw_desk **desk)
{
    const char *path = tw_value_of(given, "book") ? tw_value_of(given, "book") : own_book(cli);
    if (!path)
        return tw_refuse(cli, "there is no place for the book: neither XDG_DATA_HOME nor HOME names a folder",
                         "give --book FILE");
    tw_book_result result = tw_desk_open(cli->arena, path, cli->arena->out_of_memory, desk);
    return result.answer == TW_BOOK_DONE ? TW_EXIT_DONE : book_failed(cli, result);
}

/* ---- the job to be opened ---- */

static const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* The shop that the job names, beside it; its text is empty when it names none. */
static tw_exit read_shop(tw_cli *cli, const char *job_path, tw_text job, tw_desk_text *shop)
{
    char *named = tw_shop_named_by(job.bytes, job.length);
    if (!named) return TW_EXIT_DONE;
    int folder = (int)(base_name(job_path) - job_path);
    const char *path = named[0] == '/' ? tw_format(cli->arena, "%s", named)
                                       : tw_format(cli->arena, "%.*s%s", folder, job_path, named);
    free(named);
    return tw_file_given(cli, path, &shop->text);
}

static tw_exit put_job(tw_cli *cli, tw_desk *desk, const char *path, const char **home)
{
    tw_desk_text job = { .name = NULL }, shop = { .name = NULL };
    tw_exit status = tw_file_given(cli, path, &job.text);
    if (status == TW_EXIT_DONE) status = read_shop(cli, path, job.text, &shop);
    if (status != TW_EXIT_DONE) return status;
    int64_t id;
    tw_book_result result = tw_desk_put_job(desk, cli->arena, job, shop.text.bytes ? &shop : NULL, &id);
    if (result.answer != TW_BOOK_DONE) return book_failed(cli, result);
    *home = tw_format(cli->arena, "/#/job/%.0f", (double)id);
    return TW_EXIT_DONE;
}

/* ---- serving ---- */

static tw_door *volatile door_to_stop;  // for the signals' handler, which gets no context; NULL: nothing to stop (any more)

static void stop_serving(int signal)
{
    (void)signal;
    if (door_to_stop) tw_door_stop(door_to_stop);
}

/* Ends by Ctrl-C, by the service manager, and with the terminal; what was to be ignored (nohup) stays so. */
static void heed_signals(tw_door *door)
{
    static const int ends[] = { SIGINT, SIGTERM, SIGHUP };
    door_to_stop = door;
    struct sigaction before, stop = { .sa_handler = stop_serving, .sa_flags = SA_RESTART }, ignore = { .sa_handler = SIG_IGN };
    sigfillset(&stop.sa_mask);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        if (sigaction(ends[i], NULL, &before) == 0 && before.sa_handler != SIG_IGN) sigaction(ends[i], &stop, NULL);
    sigaction(SIGPIPE, &ignore, NULL);
}

/* The one line, at once: who started the program waits for it. */
static bool print_address(const tw_door *door)
{
    return printf("%s\n", tw_door_address(door)) > 0 && fflush(stdout) == 0;
}

static tw_exit serve_desk(tw_cli *cli, tw_desk *desk, tw_door_options options)
{
    size_t count;
    const tw_route *routes = tw_desk_routes(&count);
    tw_door *door;
    const char *why;
    options.files = tw_embedded_files(cli->arena, &options.file_count);
    options.out_of_memory = cli->arena->out_of_memory;
    if (!tw_door_open(cli->arena, &options, routes, count, desk, &door, &why)) return system_failed(cli, why);
    heed_signals(door);
    tw_door_pairing_put(door, cli->err);
    bool good = print_address(door);
    if (!good) system_failed(cli, tw_format(cli->arena, "cannot write to standard output: %s", strerror(errno)));
    else if (!(good = tw_door_run(door))) system_failed(cli, "the system no longer lets it wait for a browser; start it again");
    door_to_stop = NULL;
    tw_door_close(door);
    return good ? TW_EXIT_DONE : TW_EXIT_SYSTEM;
}

static tw_exit serve(tw_cli *cli, const tw_arguments *given)
{
    tw_door_options options = { .on_network = tw_has(given, "on-network") };
    double port = 0;
    const char *port_text = tw_value_of(given, "port");
    if (port_text && !tw_number_given(cli, "--port", port_text, "", 0, 65535, &port)) return TW_EXIT_WRONG;
    options.port = (int)port;
    if ((double)options.port != port)
        return tw_refuse(cli, tw_format(cli->arena, "--port %s is no whole number", port_text), "give one from 0 to 65535");
    tw_desk *desk = NULL;
    tw_exit status = open_desk(cli, given, &desk);
    if (status == TW_EXIT_DONE && given->operand) status = put_job(cli, desk, given->operand, &options.home);
    if (status == TW_EXIT_DONE) status = serve_desk(cli, desk, options);
    tw_desk_close(desk);
    return status;
}

const tw_command tw_serve = {
    .words = "serve", .operand = "JOB",
    .options = {
        { .name = "book", .value = "FILE", .meaning = "the book of jobs; your own when not given, made when it is not there" },
        { .name = "port", .value = "N", .meaning = "port to listen on; a free one when not given or 0" },
        { .name = "on-network", .meaning = "serve devices in the shop's network too; they are let in by a code" } },
    .meaning = "the page: design at the desk, and run the cards at the machine, in a browser",
    .more = "Prints one line, the address to open in a browser on this computer, and serves until it is ended (Ctrl-C).\n"
            "A JOB file, with the shop that it names, is put in the book unless it is there already, and opened.\n"
            "Your own book is $XDG_DATA_HOME/tuskwright/book.sqlite, or ~/.local/share/tuskwright/book.sqlite.",
    .example = "tuskwright serve examples/reading-table/job.yaml",
    .run = serve,
};
