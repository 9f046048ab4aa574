// SPDX-License-Identifier: GPL-3.0-or-later
/* begin: a job file to begin with, or a shop file, on standard output. */
#include "begin/begin.h"
#include "cli/cli.h"

#include <string.h>

static tw_exit list_kinds(tw_cli *cli)
{
    for (size_t i = 0; i < tw_design_count; i++) tw_putf(cli->out, "%s\n", tw_designs[i]->kind);
    return TW_EXIT_DONE;
}

static bool units_given(tw_cli *cli, const char *units, bool *inches)
{
    *inches = units && strcmp(units, "in") == 0;
    if (!units || *inches || strcmp(units, "mm") == 0) return true;
    tw_refuse(cli, tw_format(cli->arena, "--units \"%s\": the starting designs are in mm or in inches", units), "mm or in would do");
    return false;
}

static tw_exit refuse_kind(tw_cli *cli, const char *kind)
{
    const char *near = tw_design_nearest(kind), *all = "there are: ";
    for (size_t i = 0; i < tw_design_count; i++) all = tw_format(cli->arena, "%s%s%s", all, i ? ", " : "", tw_designs[i]->kind);
    return tw_refuse(cli, tw_format(cli->arena, "there is no starting design \"%s\"", kind),
                     near ? tw_format(cli->arena, "the nearest is \"%s\"", near) : all);
}

static tw_exit begin(tw_cli *cli, const tw_arguments *given)
{
    bool list = tw_has(given, "list"), shop = tw_has(given, "shop"), inches;
    int asked = (given->operand != NULL) + list + shop;
    if (asked > 1) return tw_refuse(cli, "begin writes one thing at a time", "give a KIND, or --list, or --shop");
    if (asked == 0) return tw_refuse(cli, "begin needs KIND", tw_format(cli->arena, "for example: %s; --list names the kinds", given->command->example));
    if (!units_given(cli, tw_value_of(given, "units"), &inches)) return TW_EXIT_WRONG;
    if (list) return list_kinds(cli);
    if (shop) {
        tw_begin_shop_put(inches, cli->out);
        return TW_EXIT_DONE;
    }
    const tw_design *design = tw_design_of(given->operand);
    if (!design) return refuse_kind(cli, given->operand);
    tw_design_put(design, inches, cli->out);
    return TW_EXIT_DONE;
}

const tw_command tw_begin = {
    .words = "begin", .operand = "KIND", .operand_of_words = true,
    .options = {
        { .name = "units", .value = "UNIT", .meaning = "mm (if not given) or in" },
        { .name = "list", .meaning = "names the kinds, one a line" },
        { .name = "shop", .meaning = "a shop file to begin with, in place of a job" } },
    .meaning = "a job file to begin with, on standard output",
    .more = "A few main sizes stand under `amounts:`; all other sizes are reckoned from them. Change two numbers, and set it out.\n"
            "Write the job to job.yaml and the shop to shop.yaml beside it, and put your own machine, cutters and spacers in the shop.",
    .example = "tuskwright begin trestle table --units in",
    .run = begin,
};
