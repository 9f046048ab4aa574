// SPDX-License-Identifier: GPL-3.0-or-later
/* UTF-8 as in RFC 3629: no overlong forms, no surrogates, nothing over U+10FFFF. */
#include "job/characters.h"

#define SHOWN_MOST 40  // characters of a maker's text in a message

static bool tail_at(tw_text text, size_t at) { return at < text.length && ((unsigned char)text.bytes[at] & 0xC0) == 0x80; }

static uint32_t tail_bits(tw_text text, size_t at) { return (unsigned char)text.bytes[at] & 0x3Fu; }

tw_character tw_character_at(tw_text text, size_t at)
{
    static const uint32_t least_of_length[] = { 0, 0, 0x80, 0x800, 0x10000 };
    if (at >= text.length) return (tw_character){ 0, 0 };
    unsigned char lead = (unsigned char)text.bytes[at];
    if (lead < 0x80) return (tw_character){ lead, 1 };
    size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4) return (tw_character){ TW_BAD_BYTE, 1 };
    uint32_t code = lead & (0x7Fu >> length);
    for (size_t i = 1; i < length; i++) {
        if (!tail_at(text, at + i)) return (tw_character){ TW_BAD_BYTE, 1 };
        code = code << 6 | tail_bits(text, at + i);
    }
    bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < least_of_length[length] || surrogate || code > 0x10FFFF) return (tw_character){ TW_BAD_BYTE, 1 };
    return (tw_character){ code, length };
}

int tw_characters_before(tw_text text, size_t until)
{
    int count = 0;
    for (size_t at = 0; at < until && at < text.length; count++) at += tw_character_at(text, at).length;
    return count;
}

bool tw_is_digit(uint32_t code) { return code >= '0' && code <= '9'; }

bool tw_is_letter(uint32_t code)
{
    if ((code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z')) return true;
    if (code == 0xD7 || code == 0xF7) return false;       // the signs for times and divided by
    if (code == 0x37E || code == 0x387) return false;     // Greek question mark and middle dot
    if (code == 0x375 || code == 0x384 || code == 0x385) return false;  // Greek signs
    if (code >= 0x482 && code <= 0x489) return false;     // Cyrillic thousands signs and marks above letters
    return (code >= 0xC0 && code <= 0x24F) || (code >= 0x370 && code <= 0x52F);
}

static bool turns_direction(uint32_t code)
{
    return code == 0x61C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

/* Scripts written from right to left: a paper that mixes them with figures cannot be trusted to show them in order. */
static bool right_to_left(uint32_t code)
{
    return (code >= 0x590 && code <= 0x8FF) || (code >= 0xFB1D && code <= 0xFDFF) || (code >= 0xFE70 && code <= 0xFEFE) ||
           (code >= 0x10800 && code <= 0x10FFF) || (code >= 0x1E800 && code <= 0x1EFFF);
}

bool tw_is_printable(uint32_t code)
{
    if (code < 0x20 || (code >= 0x7F && code < 0xA0) || code == TW_BAD_BYTE) return false;
    if (code == 0xAD || (code >= 0x200B && code <= 0x200D) || code == 0x2060) return false;  // of no width
    if (code == 0x2028 || code == 0x2029 || turns_direction(code) || right_to_left(code)) return false;
    if (code >= 0xE000 && code <= 0xF8FF) return false;   // private use
    if (code == 0xFEFF || code >= 0xE0000) return false;  // byte-order mark, tags, private planes
    if (code >= 0xFFF0 && code <= 0xFFFB) return false;
    return (code & 0xFFFE) != 0xFFFE && !(code >= 0xFDD0 && code <= 0xFDEF);
}

char *tw_hexadecimal(tw_arena *arena, uint32_t value, int least_digits)
{
    char digits[9] = "00000000";
    int first = 8 - least_digits;
    for (int i = 7; value != 0; i--, value >>= 4) {
        digits[i] = "0123456789ABCDEF"[value & 15];
        if (i < first) first = i;
    }
    return tw_text_copy(arena, tw_text_of(digits + first));
}

static void put_character(tw_arena *arena, tw_sink *sink, tw_text text, size_t at, tw_character character)
{
    if (tw_is_printable(character.code)) tw_put(sink, text.bytes + at, character.length);
    else if (character.code == TW_BAD_BYTE) tw_putf(sink, "<byte %s>", tw_hexadecimal(arena, (unsigned char)text.bytes[at], 2));
    else tw_putf(sink, "<U+%s>", tw_hexadecimal(arena, character.code, 4));
}

char *tw_shown(tw_arena *arena, tw_text text)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "`");
    size_t at = 0;
    for (int count = 0; at < text.length && count < SHOWN_MOST; count++) {
        tw_character character = tw_character_at(text, at);
        put_character(arena, &sink, text, at, character);
        at += character.length;
    }
    tw_put_text(&sink, at < text.length ? "...`" : "`");
    tw_gathered(&all);
    return all.bytes;
}

char *tw_shown_character(tw_arena *arena, tw_character character)
{
    if (character.code == TW_BAD_BYTE) return tw_format(arena, "a byte that is no character");
    if (character.code == '`') return tw_format(arena, "a backquote");
    if (!tw_is_printable(character.code)) return tw_format(arena, "U+%s", tw_hexadecimal(arena, character.code, 4));
    char bytes[5] = { 0 };
    uint32_t code = character.code;
    if (character.length == 1) bytes[0] = (char)code;
    for (size_t i = character.length; i > 1; i--, code >>= 6) bytes[i - 1] = (char)(0x80 | (code & 0x3F));
    if (character.length > 1) bytes[0] = (char)((0xF00u >> character.length & 0xFFu) | code);
    return tw_format(arena, "`%s`", bytes);
}
