// SPDX-License-Identifier: GPL-3.0-or-later
/* The rows of setout and check; setout.c does the work. */
#include "cli/cli.h"
#include "cli/setout.h"

#define OUT_IF_NOT_GIVEN "out"

static tw_exit setout(tw_cli *cli, const tw_arguments *given)
{
    (void)cli;
    const char *folder = tw_value_of(given, "out");
    return (tw_exit)tw_command_setout(given->operand, tw_value_of(given, "shop"), folder ? folder : OUT_IF_NOT_GIVEN);
}

const tw_command tw_setout = {
    .words = "setout", .operand = "JOB", .operand_required = true,
    .options = {
        { .name = "out", .letter = 'o', .value = "DIR", .meaning = "folder for the papers; \"out\" when not given" },
        { .name = "shop", .value = "SHOP", .meaning = "the shop file; the one that the job names when not given" } },
    .meaning = "the main job: all papers of a job into a folder",
    .more = "The folder gets the papers as PDF and SVG, the templates as DXF too, cutting-list.csv and job.json with every figure.\n"
            "They appear all together or not at all. The program ends with 1 when a finding says: do not cut this.",
    .example = "tuskwright setout examples/reading-table/job.yaml -o out/reading-table",
    .run = setout,
};

static tw_exit check(tw_cli *cli, const tw_arguments *given)
{
    (void)cli;
    return (tw_exit)tw_command_check(given->operand, tw_value_of(given, "shop"), tw_has(given, "json"));
}

const tw_command tw_check = {
    .words = "check", .operand = "JOB", .operand_required = true,
    .options = {
        { .name = "shop", .value = "SHOP", .meaning = "the shop file; the one that the job names when not given" },
        { .name = "json", .meaning = "one JSON object on standard output" } },
    .meaning = "what stands against a job, without its papers",
    .more = "",
    .example = "tuskwright check examples/reading-table/job.yaml",
    .run = check,
};
