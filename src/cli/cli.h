// SPDX-License-Identifier: GPL-3.0-or-later
/* cli: the program tuskwright. Arguments and files in, words or one JSON object out; all reckoning is done below.
 *
 * A command is a row: its words, its operand, its options and what it does. Help, the reading of arguments and the errors
 * about them come from the rows (commands.c lists them). */
#ifndef TW_CLI_H
#define TW_CLI_H

#include "base/base.h"

/// What the program ends with.
typedef enum tw_exit {
    TW_EXIT_DONE = 0,
    TW_EXIT_HALT = 1,    // done, and the answer is: not like this
    TW_EXIT_WRONG = 2,   // the arguments or a file are wrong
    TW_EXIT_SYSTEM = 3   // a file cannot be read or written, no memory, no room
} tw_exit;

typedef struct tw_cli {
    tw_arena *arena;  // for everything; freed when the program ends
    tw_sink  *out;    // gathered, and written to standard output when the command is done
    tw_sink  *err;    // standard error
} tw_cli;

#define TW_OPTIONS_MOST 12

typedef struct tw_option {
    const char *name;     // without dashes: "cutter"
    char        letter;   // -o, or 0
    const char *value;    // what stands for its value in the help: "D"; NULL: a switch
    bool        required;
    const char *meaning;  // one sentence
} tw_option;

typedef struct tw_arguments tw_arguments;

typedef struct tw_command {
    const char     *words;      // "reckon wedge"
    const char     *operand;    // "LENGTH", "JOB" or NULL
    bool            operand_required;
    bool            operand_of_words;  // several words make one operand, with one space between them
    tw_option       options[TW_OPTIONS_MOST];  // ended by a row without name
    const char     *meaning;    // one sentence, for the list
    const char     *more;       // paragraphs for its own help, or ""
    const char     *example;    // a whole command line
    tw_exit (*run)(tw_cli *cli, const tw_arguments *given);
} tw_command;

/// What was given to a command; complete: all that is required is there.
struct tw_arguments {
    const tw_command *command;
    const char       *operand;                  // NULL when not given
    const char       *values[TW_OPTIONS_MOST];  // beside the command's options; NULL when not given; "" for a switch
};

/// The value of an option of this command; NULL when not given.
const char *tw_value_of(const tw_arguments *given, const char *option);
bool        tw_has(const tw_arguments *given, const char *option);

/// "tuskwright: what is wrong; what would be right" on standard error. right may be "". Returns TW_EXIT_WRONG.
tw_exit tw_refuse(tw_cli *cli, const char *wrong, const char *right);

/* ---- amounts in arguments: each says what is wrong and returns false when it is not one ---- */

/// A length; bare numbers are mm. least, most: in mm, both included.
bool tw_length_given(tw_cli *cli, const char *what, const char *text, double least, double most, double *length_mm);
bool tw_angle_given(tw_cli *cli, const char *what, const char *text, double *angle_rad);
/// A plain number; unit ("%" or "") may follow it.
bool tw_number_given(tw_cli *cli, const char *what, const char *text, const char *unit, double least, double most, double *value);

/* ---- files ---- */

/// tw_file_read() (files.h), saying what is wrong.
tw_exit tw_file_given(tw_cli *cli, const char *path, tw_text *text);
/// A file error in the one form for all: FILE:LINE:COLUMN: what; remedy. Returns TW_EXIT_WRONG.
tw_exit tw_refuse_at(tw_cli *cli, tw_place place, const char *wrong, const char *right);

/* ---- commands ---- */

extern const tw_command *const tw_commands[];
extern const size_t            tw_command_count;

/// Reads the arguments (without the program's name), runs the command, gives what the program ends with.
tw_exit tw_cli_run(tw_cli *cli, int count, char *const arguments[]);

void tw_help_put(tw_sink *out);                                    // the list of commands
void tw_command_help_put(tw_sink *out, const tw_command *command);

extern const tw_command tw_begin, tw_setout, tw_check, tw_reckon_template, tw_reckon_spacers, tw_reckon_wedge, tw_reckon_fraction, tw_reckon_moisture,
    tw_reckon_movement, tw_serve;

#endif
