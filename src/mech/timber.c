// SPDX-License-Identifier: GPL-3.0-or-later
/* Finding a timber by its name.
 *
 * The handbook puts the genus first ("Oak, white"). A maker also says "white oak", or, where the second half is a name
 * of its own, only that ("western redcedar"). All three are tried, case and doubled blanks ignored; the short form only
 * when it is unique. */
#include "mech/mech.h"

#include <assert.h>
#include <ctype.h>
#include <string.h>

/* The name in small letters, blanks single, none at the ends. */
static char *plain_name(tw_arena *arena, const char *name)
{
    char *plain = tw_arena_take(arena, strlen(name) + 1, 1), *to = plain;
    for (const char *from = name; *from; from++) {
        if (isspace((unsigned char)*from)) {
            if (to > plain && to[-1] != ' ') *to++ = ' ';
        } else {
            *to++ = (char)tolower((unsigned char)*from);
        }
    }
    if (to > plain && to[-1] == ' ') to--;
    *to = '\0';
    return plain;
}

/* "oak, white": "white" in *second, true; a name without a comma: false. */
static bool second_half(const char *plain, const char **second)
{
    const char *comma = strstr(plain, ", ");
    if (!comma) return false;
    *second = comma + 2;
    return true;
}

static const char *turned_round(tw_arena *arena, const char *plain)
{
    const char *second;
    if (!second_half(plain, &second)) return plain;
    return tw_format(arena, "%s %.*s", second, (int)(second - 2 - plain), plain);
}

static const tw_timber *by_second_half(const char *const *plain, const char *wanted)
{
    const tw_timber *found = NULL;
    for (size_t i = 0; i < tw_timber_count; i++) {
        const char *second;
        if (!second_half(plain[i], &second) || strcmp(second, wanted) != 0) continue;
        if (found) return NULL;  // "black" alone could be a dozen
        found = &tw_timbers[i];
    }
    return found;
}

/* Does the word stand in the name as a whole word? "oak" stands in "oak, white". */
static bool has_word(const char *name, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = name; length > 0 && (at = strstr(at, word)) != NULL; at++)
        if ((at == name || at[-1] == ' ') && strchr(" ,", at[length])) return true;  // strchr finds the end of the text too
    return false;
}

/* names: the plain names and then, in the same order, the same turned round. */
static const char *nearest_of(const char *const *names, const char *wanted)
{
    for (size_t i = 0; i < tw_timber_count; i++)
        if (has_word(names[i], wanted)) return tw_timbers[i].name;  // one of its kind is nearer than a word of like letters
    const char *near = tw_nearest_word(wanted, names, 2 * tw_timber_count);
    for (size_t i = 0; near && i < 2 * tw_timber_count; i++)
        if (names[i] == near) return tw_timbers[i % tw_timber_count].name;
    return NULL;
}

const tw_timber *tw_timber_find(tw_arena *arena, const char *name, const char **nearest)
{
    assert(name != NULL);
    if (nearest) *nearest = NULL;
    const char *wanted = plain_name(arena, name);
    const char **names = TW_NEW_ARRAY(arena, const char *, 2 * tw_timber_count);
    for (size_t i = 0; i < tw_timber_count; i++) {
        names[i] = plain_name(arena, tw_timbers[i].name);
        names[tw_timber_count + i] = turned_round(arena, names[i]);
        if (strcmp(wanted, names[i]) == 0 || strcmp(wanted, names[tw_timber_count + i]) == 0) return &tw_timbers[i];
    }
    const tw_timber *found = by_second_half(names, wanted);
    if (!found && nearest) *nearest = nearest_of(names, wanted);
    return found;
}
