// SPDX-License-Identifier: GPL-3.0-or-later
/* Arguments: first the words of a command, then options and its operand in any order.
 *
 * --name value and --name=value are the same; -o value for an option with a letter; -- ends the options. A word
 * that begins with a dash and a digit or point is a negative amount, not an option; a lone dash is a file name.
 * Every wrong word is answered with the nearest right one. */
#include "cli/cli.h"

#include <string.h>

typedef struct { int count, at; char *const *words; } word_list;

tw_exit tw_refuse(tw_cli *cli, const char *wrong, const char *right)
{
    tw_putf(cli->err, "tuskwright: %s%s%s\n", wrong, *right ? "; " : "", right);
    return TW_EXIT_WRONG;
}

tw_exit tw_refuse_at(tw_cli *cli, tw_place place, const char *wrong, const char *right)
{
    tw_putf(cli->err, "%s:%d:%d: %s%s%s\n", place.file, place.line, place.column, wrong, *right ? "; " : "", right);
    return TW_EXIT_WRONG;
}

/* ---- the command ---- */

/* How many of the given words make the command's words; 0 when they do not. */
static int words_matched(const tw_command *command, word_list given)
{
    int matched = 0;
    for (const char *word = command->words; *word; matched++) {
        size_t length = strcspn(word, " ");
        if (matched >= given.count || !tw_text_is((tw_text){ word, length }, given.words[matched])) return 0;
        word += length + (word[length] == ' ');
    }
    return matched;
}

static bool begins_with_word(const char *words, const char *first)
{
    return tw_text_is((tw_text){ words, strcspn(words, " ") }, first);
}

/* The commands that begin with this word, or all; their next words. */
static const char **next_words(tw_arena *arena, const char *first, size_t *count)
{
    const char **words = TW_NEW_ARRAY(arena, const char *, tw_command_count + 2);
    *count = 0;
    for (size_t i = 0; i < tw_command_count; i++) {
        const char *name = tw_commands[i]->words;
        size_t length = strcspn(name, " ");
        if (!first) words[(*count)++] = tw_text_copy(arena, (tw_text){ name, length });
        else if (begins_with_word(name, first) && name[length] == ' ') words[(*count)++] = name + length + 1;
    }
    if (!first) words[(*count)++] = "help";
    return words;
}

/* "--angle, --friction"; words that stand twice running are said once. */
static char *joined(tw_arena *arena, const char *dashes, const char *const *words, size_t count)
{
    char *text = tw_format(arena, "%s", "");
    for (size_t i = 0; i < count; i++)
        if (i == 0 || strcmp(words[i], words[i - 1]) != 0) text = tw_format(arena, "%s%s%s%s", text, i == 0 ? "" : ", ", dashes, words[i]);
    return text;
}

static tw_exit refuse_command(tw_cli *cli, word_list given)
{
    size_t count, after;
    const char *first = given.count > 0 ? given.words[0] : NULL;
    if (first) next_words(cli->arena, first, &after);
    bool first_is_known = first && after > 0;
    const char **known = next_words(cli->arena, first_is_known ? first : NULL, &count);
    const char *wrong = first_is_known ? (given.count > 1 ? given.words[1] : NULL) : first;
    const char *lead = first_is_known ? tw_format(cli->arena, "%s ", first) : "";
    const char *all = tw_format(cli->arena, "the commands are: %s", joined(cli->arena, "", known, count));
    if (!wrong && !first) return tw_refuse(cli, "no command is given", all);
    if (!wrong) return tw_refuse(cli, tw_format(cli->arena, "%s needs one more word", first),
                                 tw_format(cli->arena, "one of: %s", joined(cli->arena, "", known, count)));
    const char *near = tw_nearest_word(wrong, known, count);
    return tw_refuse(cli, tw_format(cli->arena, "there is no command \"%s%s\"", lead, wrong),
                     near ? tw_format(cli->arena, "the nearest is \"%s%s\"", lead, near) : all);
}

/* The command that the words name, given->at moved past them; NULL when none. */
static const tw_command *command_of(word_list *given)
{
    for (size_t i = 0; i < tw_command_count; i++) {
        int matched = words_matched(tw_commands[i], *given);
        if (matched == 0) continue;
        given->at = matched;
        return tw_commands[i];
    }
    return NULL;
}

/* ---- options ---- */

static int option_count(const tw_command *command)
{
    int count = 0;
    while (count < TW_OPTIONS_MOST && command->options[count].name) count++;
    return count;
}

static bool is_amount(const char *word) { return word[0] == '-' && ((word[1] >= '0' && word[1] <= '9') || word[1] == '.'); }
static bool is_option(const char *word) { return word[0] == '-' && word[1] != '\0' && !is_amount(word); }

static int option_named(const tw_command *command, tw_text name)
{
    for (int i = 0; i < option_count(command); i++)
        if (tw_text_is(name, command->options[i].name)) return i;
    return -1;
}

static int option_lettered(const tw_command *command, const char *word)
{
    for (int i = 0; i < option_count(command); i++)
        if (command->options[i].letter != 0 && command->options[i].letter == word[1] && word[2] == '\0') return i;
    return -1;
}

static tw_exit refuse_option(tw_cli *cli, const tw_command *command, const char *word, tw_text name)
{
    const char *names[TW_OPTIONS_MOST];
    int count = option_count(command);
    for (int i = 0; i < count; i++) names[i] = command->options[i].name;
    const char *near = name.length > 0 ? tw_nearest_word(tw_text_copy(cli->arena, name), names, (size_t)count) : NULL;
    const char *right = near ? tw_format(cli->arena, "the nearest is --%s", near)
                             : tw_format(cli->arena, "its options are: %s", joined(cli->arena, "--", names, (size_t)count));
    const char *shown = name.length > 0 ? tw_format(cli->arena, "--%.*s", (int)name.length, name.bytes) : word;
    return tw_refuse(cli, tw_format(cli->arena, "%s has no option %s", command->words, shown), right);
}

static tw_exit set_option(tw_cli *cli, tw_arguments *given, int option, const char *attached, word_list *words)
{
    const tw_option *row = &given->command->options[option];
    if (given->values[option]) return tw_refuse(cli, tw_format(cli->arena, "--%s is given twice", row->name), "give it once");
    if (!row->value) {
        given->values[option] = "";
        return attached ? tw_refuse(cli, tw_format(cli->arena, "--%s takes no value", row->name), "write it alone") : TW_EXIT_DONE;
    }
    const char *next = words->at < words->count ? words->words[words->at] : NULL;
    if (!attached && next && !is_option(next)) words->at++;
    else if (!attached) next = NULL;
    given->values[option] = attached ? attached : next;
    if (given->values[option] && *given->values[option]) return TW_EXIT_DONE;
    return tw_refuse(cli, tw_format(cli->arena, "--%s has no value", row->name),
                     tw_format(cli->arena, "write --%s %s", row->name, row->value));
}

static tw_exit take_option(tw_cli *cli, tw_arguments *given, const char *word, word_list *words)
{
    if (word[1] != '-') {
        int lettered = option_lettered(given->command, word);
        if (lettered < 0) return refuse_option(cli, given->command, word, (tw_text){ word + 1, 0 });
        return set_option(cli, given, lettered, NULL, words);
    }
    const char *equals = strchr(word, '=');
    tw_text name = { word + 2, equals ? (size_t)(equals - word - 2) : strlen(word + 2) };
    int option = option_named(given->command, name);
    if (option < 0) return refuse_option(cli, given->command, word, name);
    return set_option(cli, given, option, equals ? equals + 1 : NULL, words);
}

static tw_exit take_operand(tw_cli *cli, tw_arguments *given, const char *word)
{
    const tw_command *command = given->command;
    if (!command->operand)
        return tw_refuse(cli, tw_format(cli->arena, "\"%s\" is one word too many for %s", word, command->words),
                         "put a value of several words in quotes");
    if (given->operand && !command->operand_of_words)
        return tw_refuse(cli, tw_format(cli->arena, "\"%s\" is one word too many after \"%s\"", word, given->operand),
                         tw_format(cli->arena, "put a %s of several words in quotes", command->operand));
    given->operand = given->operand ? tw_format(cli->arena, "%s %s", given->operand, word) : word;
    return TW_EXIT_DONE;
}

static tw_exit check_complete(tw_cli *cli, const tw_arguments *given)
{
    const tw_command *command = given->command;
    const char *right = tw_format(cli->arena, "for example: %s", command->example);
    if (command->operand_required && !given->operand)
        return tw_refuse(cli, tw_format(cli->arena, "%s needs %s", command->words, command->operand), right);
    for (int i = 0; i < option_count(command); i++)
        if (command->options[i].required && !given->values[i])
            return tw_refuse(cli, tw_format(cli->arena, "%s needs --%s %s", command->words, command->options[i].name,
                                            command->options[i].value), right);
    return TW_EXIT_DONE;
}

static tw_exit take_all(tw_cli *cli, tw_arguments *given, word_list *words)
{
    tw_exit status = TW_EXIT_DONE;
    bool options_ended = false;
    while (status == TW_EXIT_DONE && words->at < words->count) {
        const char *word = words->words[words->at++];
        if (!options_ended && strcmp(word, "--") == 0) options_ended = true;
        else if (!options_ended && is_option(word)) status = take_option(cli, given, word, words);
        else status = take_operand(cli, given, word);
    }
    return status == TW_EXIT_DONE ? check_complete(cli, given) : status;
}

/* ---- help, version, and the run ---- */

static bool asks_for_help(const word_list *words)
{
    for (int i = words->at; i < words->count && strcmp(words->words[i], "--") != 0; i++)
        if (strcmp(words->words[i], "--help") == 0 || strcmp(words->words[i], "-h") == 0) return true;
    return false;
}

static tw_exit help_about(tw_cli *cli, word_list words)
{
    const tw_command *command = command_of(&words);
    if (command) tw_command_help_put(cli->out, command);
    else if (words.count == 0) tw_help_put(cli->out);
    else return refuse_command(cli, words);
    return TW_EXIT_DONE;
}

const char *tw_value_of(const tw_arguments *given, const char *option)
{
    int at = option_named(given->command, tw_text_of(option));
    return at < 0 ? NULL : given->values[at];
}

bool tw_has(const tw_arguments *given, const char *option) { return tw_value_of(given, option) != NULL; }

tw_exit tw_cli_run(tw_cli *cli, int count, char *const arguments[])
{
    word_list words = { .count = count, .words = arguments };
    const char *first = count > 0 ? arguments[0] : "";
    if (strcmp(first, "--version") == 0) {
        tw_put_text(cli->out, "tuskwright " TW_VERSION "\n");
        return TW_EXIT_DONE;
    }
    if (strcmp(first, "help") == 0 || strcmp(first, "--help") == 0 || strcmp(first, "-h") == 0)
        return help_about(cli, (word_list){ .count = count - 1, .words = arguments + 1 });
    const tw_command *command = command_of(&words);
    if (!command && asks_for_help(&words)) return help_about(cli, (word_list){ .count = 0 });
    if (!command) return refuse_command(cli, words);
    if (asks_for_help(&words)) {
        tw_command_help_put(cli->out, command);
        return TW_EXIT_DONE;
    }
    tw_arguments given = { .command = command };
    tw_exit status = take_all(cli, &given, &words);
    return status == TW_EXIT_DONE ? command->run(cli, &given) : status;
}
