// SPDX-License-Identifier: GPL-3.0-or-later
/* Characters of UTF-8 texts: stepping, counting, classes, and showing a maker's own text in a message. */
#ifndef TW_JOB_CHARACTERS_H
#define TW_JOB_CHARACTERS_H

#include "base/base.h"

#define TW_BAD_BYTE 0xFFFFFFFFu  // stands for a byte that is no part of a character

/// A character and its length in bytes: 0 at the end of the text, 1 for TW_BAD_BYTE.
typedef struct tw_character { uint32_t code; size_t length; } tw_character;
tw_character tw_character_at(tw_text text, size_t at);
/// Characters before the byte `until` (at most the whole text); a bad byte counts as one.
int tw_characters_before(tw_text text, size_t until);

/// The letters of names: Latin, Greek and Cyrillic.
bool tw_is_letter(uint32_t code);
bool tw_is_digit(uint32_t code);
/// What may stand in a title: no control characters, none that turn the writing direction, no line ends, no
/// characters without a meaning of their own.
bool tw_is_printable(uint32_t code);

/// The text as a message shows it, in `backquotes`: at most 40 characters, then "..."; what cannot be printed as <U+202E>.
char *tw_shown(tw_arena *arena, tw_text text);
/// A number in capital hexadecimal, at least so many digits: 202E.
char *tw_hexadecimal(tw_arena *arena, uint32_t value, int least_digits);
/// One character as a message names it: `@`, or U+202E when it cannot be printed.
char *tw_shown_character(tw_arena *arena, tw_character character);

#endif
