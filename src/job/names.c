// SPDX-License-Identifier: GPL-3.0-or-later
/* Names and figures as written. A name is words of letters and digits with one space between them; the names of a
 * job's pieces, joints and amounts stand in sums, so those begin with a letter and are no unit or function. The names
 * of a shop's things are never reckoned with, and drills are called 3/16. */
#include "job/characters.h"
#include "job/job.h"
#include "job/reader.h"

#include <string.h>

static bool refuse(tw_reader *reader, const tw_node *key, size_t at, const char *what, const char *remedy)
{
    tw_wrong(reader, tw_node_place_of(key, at), "name", "", what, remedy);
    return false;
}

static bool allowed(uint32_t code, tw_name_rule rule)
{
    if (tw_is_letter(code) || tw_is_digit(code) || code == ' ') return true;
    return rule == TW_NAME_OF_SHOP && code < 0x80 && strchr("./-\"'", (int)code) != NULL;
}

static bool check_characters(tw_reader *reader, const tw_node *key, tw_name_rule rule, const char *what)
{
    tw_arena *arena = reader->arena;
    tw_text text = key->text;
    for (size_t at = 0; at < text.length;) {
        tw_character character = tw_character_at(text, at);
        if (character.code == 0 || !allowed(character.code, rule))
            return refuse(reader, key, at, tw_format(arena, "%s cannot hold %s", what,
                                                     character.code == '\n' ? "a line end" : tw_shown_character(arena, character)),
                          rule == TW_NAME_OF_JOB ? "names are words of letters and digits"
                                                 : "names are words of letters, digits and . / - \" '");
        bool double_space = character.code == ' ' && at + 1 < text.length && text.bytes[at + 1] == ' ';
        bool outer_space = character.code == ' ' && (at == 0 || at + 1 == text.length);
        if (double_space || outer_space)
            return refuse(reader, key, at, tw_format(arena, "%s has a space too many", what), "one space stands between two words");
        at += character.length;
    }
    return true;
}

static bool check_meaning(tw_reader *reader, const tw_node *key, const char *what)
{
    static const char *const taken[] = { "min", "max", "nan", "NaN", "inf", "infinity", NULL };
    tw_arena *arena = reader->arena;
    if (!tw_is_letter(tw_character_at(key->text, 0).code))
        return refuse(reader, key, 0, tw_format(arena, "%s begins with a letter, and %s does not", what, tw_shown(arena, key->text)),
                      "put a word first");
    bool is_taken = tw_unit_find(key->text, NULL) != NULL;
    for (int i = 0; taken[i]; i++) is_taken = is_taken || tw_text_is(key->text, taken[i]);
    if (!is_taken) return true;
    return refuse(reader, key, 0, tw_format(arena, "%s cannot be %s, which has a meaning in sums", what, tw_shown(arena, key->text)),
                  "choose another");
}

const char *tw_read_name(tw_reader *reader, const tw_node *key, tw_name_rule rule, const char *what)
{
    tw_arena *arena = reader->arena;
    int count = tw_characters_before(key->text, key->text.length);
    if (count == 0) return refuse(reader, key, 0, tw_format(arena, "%s is empty", what), "write a word or two"), NULL;
    if (!check_characters(reader, key, rule, what)) return NULL;
    if (rule == TW_NAME_OF_JOB && !check_meaning(reader, key, what)) return NULL;
    if (count > TW_NAME_MOST)
        return refuse(reader, key, 0, tw_format(arena, "%s has %d characters", what, count), tw_format(arena, "%d at most", TW_NAME_MOST)), NULL;
    return tw_text_copy(arena, key->text);
}

/* ---- figures ---- */

static const struct { const char *words; tw_figures figures; } figures_known[] = {
    { "mm 1", { TW_FIGURES_MM, 0, 64 } },        { "mm 0.1", { TW_FIGURES_MM, 1, 64 } },
    { "mm 0.01", { TW_FIGURES_MM, 2, 64 } },     { "mm 0.001", { TW_FIGURES_MM, 3, 64 } },
    { "in 0.1", { TW_FIGURES_INCH, 1, 64 } },    { "in 0.01", { TW_FIGURES_INCH, 2, 64 } },
    { "in 0.001", { TW_FIGURES_INCH, 3, 64 } },  { "in 0.0001", { TW_FIGURES_INCH, 4, 64 } },
    { "in 1/2", { TW_FIGURES_FRACTION, 0, 2 } }, { "in 1/4", { TW_FIGURES_FRACTION, 0, 4 } },
    { "in 1/8", { TW_FIGURES_FRACTION, 0, 8 } }, { "in 1/16", { TW_FIGURES_FRACTION, 0, 16 } },
    { "in 1/32", { TW_FIGURES_FRACTION, 0, 32 } }, { "in 1/64", { TW_FIGURES_FRACTION, 0, 64 } },
};

bool tw_figures_read(tw_arena *arena, tw_text text, tw_figures *figures, const char **what, const char **remedy)
{
    for (size_t i = 0; i < sizeof figures_known / sizeof figures_known[0]; i++)
        if (tw_text_is(text, figures_known[i].words)) {
            *figures = figures_known[i].figures;
            return true;
        }
    *what = tw_format(arena, "figures cannot be written as %s", tw_shown(arena, text));
    *remedy = "write mm 1, mm 0.1, mm 0.01 or mm 0.001; in 0.1 to in 0.0001; or in 1/2 to in 1/64";
    return false;
}

const char *tw_figures_words(tw_figures figures)
{
    for (size_t i = 0; i < sizeof figures_known / sizeof figures_known[0]; i++) {
        tw_figures known = figures_known[i].figures;
        bool same = figures.style == TW_FIGURES_FRACTION ? known.parts == figures.parts : known.decimals == figures.decimals;
        if (known.style == figures.style && same) return figures_known[i].words;
    }
    return "";
}

const char *tw_figures_nth(size_t index)
{
    return index < sizeof figures_known / sizeof figures_known[0] ? figures_known[index].words : NULL;
}
