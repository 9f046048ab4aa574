// SPDX-License-Identifier: GPL-3.0-or-later
/* Help, printed from the rows of the commands. */
#include "cli/cli.h"

#include <string.h>

static void put_option_use(tw_sink *out, const tw_option *option)
{
    tw_putf(out, option->required ? " --%s" : " [--%s", option->name);
    if (option->value) tw_putf(out, " %s", option->value);
    if (!option->required) tw_put_text(out, "]");
}

static void put_use(tw_sink *out, const tw_command *command)
{
    tw_putf(out, "tuskwright %s", command->words);
    if (command->operand) tw_putf(out, command->operand_required ? " %s" : " [%s]", command->operand);
    for (int i = 0; i < TW_OPTIONS_MOST && command->options[i].name; i++) put_option_use(out, &command->options[i]);
    tw_put_text(out, "\n");
}

void tw_help_put(tw_sink *out)
{
    tw_put_text(out, "tuskwright works out template-routed furniture that locks with wedges: templates, machine settings, papers.\n\n");
    for (size_t i = 0; i < tw_command_count; i++) tw_putf(out, "  %-18s %s\n", tw_commands[i]->words, tw_commands[i]->meaning);
    tw_put_text(out, "  help COMMAND       how a command is used\n\n"
        "Lengths are written as makers write them: 38, 38 mm, 1.5 in, \"1-1/2 in\", \"2 ft 3 1/2 in\"; bare numbers are millimetres.\n"
        "Angles: 5 (degrees), \"5 deg\", or a slope 1:12. An amount of several words stands in quotes.\n"
        "The program ends with 0: done; 1: done, and the answer is not to cut it so; 2: the input is wrong; 3: the system failed.\n");
}

void tw_command_help_put(tw_sink *out, const tw_command *command)
{
    put_use(out, command);
    tw_putf(out, "\n%s\n", command->meaning);
    if (*command->more) tw_putf(out, "\n%s\n", command->more);
    tw_put_text(out, "\n");
    for (int i = 0; i < TW_OPTIONS_MOST && command->options[i].name; i++) {
        const tw_option *option = &command->options[i];
        char name[64] = "";
        size_t used = 0;
        const char *parts[] = { option->letter ? "-" : "", option->letter ? (char[]){ option->letter, '\0' } : "",
                                option->letter ? ", " : "", "--", option->name, option->value ? " " : "", option->value ? option->value : "" };
        for (size_t j = 0; j < sizeof parts / sizeof parts[0]; j++)
            for (const char *from = parts[j]; *from && used + 1 < sizeof name; from++) name[used++] = *from;
        tw_putf(out, "  %-24s %s\n", name, option->meaning);
    }
    tw_putf(out, "\nExample: %s\n", command->example);
}
