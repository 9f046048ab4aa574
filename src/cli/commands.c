// SPDX-License-Identifier: GPL-3.0-or-later
/* The list of commands. A new command is one file and one row here. */
#include "cli/cli.h"

const tw_command *const tw_commands[] = {
    &tw_begin,
    &tw_setout,
    &tw_check,
    &tw_reckon_template,
    &tw_reckon_spacers,
    &tw_reckon_wedge,
    &tw_reckon_fraction,
    &tw_reckon_moisture,
    &tw_reckon_movement,
    &tw_serve,
};
const size_t tw_command_count = sizeof tw_commands / sizeof tw_commands[0];
