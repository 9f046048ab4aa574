// SPDX-License-Identifier: GPL-3.0-or-later
/* How a literal is put together:
 *
 *     literal  = number [unit] | feet [-] number inches | whole-number-or-fraction : number
 *     number   = decimal | n/m | n n/m | n-n/m | n½ | n ½ | ½
 *
 * n/m and n-n/m are fractions only when written without blanks round the sign; `10 - 1/2` and `3 / 8` are sums. In the
 * same way 2'-3" is two feet and three inches, and 2' - 3" is three inches less. */
#include "job/literal.h"

#include "job/characters.h"

#include <math.h>

static const struct { uint32_t code; int numerator, denominator; } vulgar[] = {
    { 0xBD, 1, 2 }, { 0xBC, 1, 4 }, { 0xBE, 3, 4 }, { 0x215B, 1, 8 }, { 0x215C, 3, 8 }, { 0x215D, 5, 8 }, { 0x215E, 7, 8 },
};

typedef struct number { double value; bool whole, fraction; } number;  // whole: digits alone

typedef struct scan {
    tw_arena *arena;
    tw_text   text;
    size_t    at;
    tw_fault *fault;
} scan;

static bool refuse(scan *s, size_t at, const char *what, const char *remedy)
{
    *s->fault = (tw_fault){ at, what, remedy };
    return false;
}

static char byte_at(tw_text text, size_t at) { return at < text.length ? text.bytes[at] : '\0'; }
static bool digit_at(tw_text text, size_t at) { return tw_is_digit((unsigned char)byte_at(text, at)); }

size_t tw_skip_blanks(tw_text text, size_t at)
{
    for (;;) {
        uint32_t code = tw_character_at(text, at).code;
        if (at >= text.length || (code != ' ' && code != '\t' && code != '\n' && code != 0xA0 && code != 0x202F)) return at;
        at += tw_character_at(text, at).length;
    }
}

tw_text tw_word_at(tw_text text, size_t at)
{
    size_t end = at;
    tw_character character = tw_character_at(text, end);
    if (!tw_is_letter(character.code)) return (tw_text){ text.bytes + (at < text.length ? at : text.length), 0 };
    while (end < text.length && (tw_is_letter(character.code) || tw_is_digit(character.code))) {
        end += character.length;
        character = tw_character_at(text, end);
    }
    return (tw_text){ text.bytes + at, end - at };
}

/* A fraction character at *at: its value, and *at moved past it; 0 if there is none. */
static double vulgar_at(tw_text text, size_t *at)
{
    tw_character character = tw_character_at(text, *at);
    for (size_t i = 0; character.length > 1 && i < sizeof vulgar / sizeof vulgar[0]; i++)
        if (character.code == vulgar[i].code) {
            *at += character.length;
            return (double)vulgar[i].numerator / vulgar[i].denominator;
        }
    return 0.0;
}

bool tw_literal_begins(tw_text text, size_t at)
{
    bool point_first = byte_at(text, at) == '.' && digit_at(text, at + 1);
    return digit_at(text, at) || point_first || vulgar_at(text, &at) > 0.0;
}

/* ---- numbers ---- */

static size_t digits_end(tw_text text, size_t at)
{
    while (digit_at(text, at)) at++;
    return at;
}

static double digits_value(tw_text text, size_t from, size_t until)
{
    double value = 0.0;
    tw_read_number((tw_text){ text.bytes + from, until - from }, &value);
    return value;
}

/* n/m at *at, whole numbers without blanks; *at moved past it. False when there is none. */
static bool fraction_at(tw_text text, size_t *at, double *numerator, double *denominator)
{
    size_t slash = digits_end(text, *at);
    if (slash == *at || byte_at(text, slash) != '/' || !digit_at(text, slash + 1)) return false;
    size_t end = digits_end(text, slash + 1);
    if (byte_at(text, end) == '.' && digit_at(text, end + 1)) return false;
    *numerator = digits_value(text, *at, slash);
    *denominator = digits_value(text, slash + 1, end);
    *at = end;
    return true;
}

static bool hexadecimal_at(tw_text text, size_t at)
{
    char mark = byte_at(text, at + 1);
    return byte_at(text, at) == '0' && (mark == 'x' || mark == 'X') && at + 2 < text.length &&
           (digit_at(text, at + 2) || ((text.bytes[at + 2] | 0x20) >= 'a' && (text.bytes[at + 2] | 0x20) <= 'f'));
}

static bool read_decimal(scan *s, number *n)
{
    size_t from = s->at;
    tw_text rest = { s->text.bytes + s->at, s->text.length - s->at };
    if (hexadecimal_at(s->text, from)) return refuse(s, from, "a number with letters in it is not read", "write digits and one point");
    size_t length = tw_read_number(rest, &n->value);
    s->at += length;
    n->whole = digits_end(s->text, from) == s->at;
    if (!isfinite(n->value)) return refuse(s, from, "the number is too large to reckon with", "");
    if (byte_at(s->text, s->at) == '.')
        return refuse(s, s->at, "a point stands here that is no part of a number", "write 1.5 with one point and digits on both sides");
    return true;
}

/* After the whole number that has been read: does a fraction belong to it? */
static bool read_fraction_after(scan *s, number *n)
{
    size_t start = s->at, at = start;
    bool dash = byte_at(s->text, at) == '-' && digit_at(s->text, at + 1);
    at = dash ? at + 1 : tw_skip_blanks(s->text, at);
    double numerator, denominator, vulgar_value = dash ? 0.0 : vulgar_at(s->text, &at);
    if (vulgar_value > 0.0) {
        n->value += vulgar_value;
        s->at = at;
        return true;
    }
    if ((!dash && at == start) || !fraction_at(s->text, &at, &numerator, &denominator)) return true;
    if (denominator == 0.0) return refuse(s, start, "a fraction over 0 stands here", "");
    if (numerator >= denominator)
        return refuse(s, start, "the fraction of a mixed number is less than 1", dash ? "to subtract, put blanks round the minus" : "write 2 1/4 for 1 5/4");
    n->value += numerator / denominator;
    s->at = at;
    return true;
}

static bool read_number(scan *s, number *n)
{
    *n = (number){ 0 };
    double numerator, denominator;
    size_t start = s->at;
    n->value = vulgar_at(s->text, &s->at);
    if (n->value > 0.0) return true;
    if (fraction_at(s->text, &s->at, &numerator, &denominator)) {
        if (denominator == 0.0) return refuse(s, start, "a fraction over 0 stands here", "");
        *n = (number){ numerator / denominator, false, true };
        return isfinite(n->value) || refuse(s, start, "the number is too large to reckon with", "");
    }
    if (!read_decimal(s, n)) return false;
    return !n->whole || read_fraction_after(s, n);
}

/* ---- units ---- */

static bool refuse_unit(scan *s, size_t at, tw_text word, const char *meant)
{
    size_t after = at + word.length;
    const char *shown = tw_shown(s->arena, word);
    if (meant) return refuse(s, at, tw_format(s->arena, "there is no unit %s", shown), tw_format(s->arena, "write `%s`", meant));
    if (tw_text_is(word, "x") || tw_text_is(word, "X"))
        return refuse(s, at, tw_format(s->arena, "there is no unit %s", shown), "to multiply, write `*`");
    if (byte_at(s->text, after) == '.')
        return refuse(s, at, tw_format(s->arena, "a sign is missing before %s", shown), "to multiply, write `*`");
    const char *near = tw_nearest_word(tw_text_copy(s->arena, word), tw_unit_all, tw_unit_count);
    return refuse(s, at, tw_format(s->arena, "there is no unit %s", shown),
                  near ? tw_format(s->arena, "`%s` is meant?", near) : "the units are mm, cm, m, in, ft, deg and %");
}

/* The unit at s->at after blanks, *unit NULL when none stands there. */
static bool read_unit(scan *s, const tw_unit **unit)
{
    *unit = NULL;
    size_t at = tw_skip_blanks(s->text, s->at);
    tw_text word = tw_word_at(s->text, at);
    const char *meant;
    if (word.length > 0) {
        *unit = tw_unit_find(word, &meant);
        if (!*unit) return refuse_unit(s, at, word, meant);
    } else {
        word = (tw_text){ s->text.bytes + at, tw_character_at(s->text, at).length };
        *unit = word.length ? tw_unit_find(word, NULL) : NULL;
    }
    if (*unit) s->at = at + word.length;
    return true;
}

static bool is_feet(const tw_unit *unit) { return unit && unit->length == 1 && unit->factor > 300.0 && unit->factor < 310.0; }
static bool is_inches(const tw_unit *unit) { return unit && unit->length == 1 && unit->factor == TW_MM_PER_INCH; }

/* 3 1/2 in after 2 ft, or -3 1/2 in when it is written close. */
static bool read_inches(scan *s, tw_quantity *quantity)
{
    bool dash = byte_at(s->text, s->at) == '-' && tw_literal_begins(s->text, s->at + 1);
    size_t at = dash ? s->at + 1 : tw_skip_blanks(s->text, s->at);
    if (!tw_literal_begins(s->text, at)) return true;
    s->at = at;
    number n;
    const tw_unit *unit;
    if (!read_number(s, &n) || !read_unit(s, &unit)) return false;
    if (!is_inches(unit))
        return refuse(s, at, "after feet only inches follow", dash ? "to subtract, put blanks round the minus" : "write 2 ft 3 1/2 in");
    quantity->value += n.value * unit->factor;
    return true;
}

/* The second half of a slope 1:12, s->at on the colon. */
static bool read_slope(scan *s, double rise, tw_quantity *quantity)
{
    size_t at = tw_skip_blanks(s->text, s->at + 1);
    number run;
    if (!tw_literal_begins(s->text, at)) return refuse(s, s->at, "a number is missing after the colon of a slope", "write 1:12");
    s->at = at;
    if (!read_number(s, &run)) return false;
    if (run.value == 0.0) return refuse(s, at, "a slope over 0 stands here", "write 1:12");
    *quantity = (tw_quantity){ atan(rise / run.value), 0, 1, false };
    return true;
}

bool tw_literal_read(tw_arena *arena, tw_text text, size_t *at, tw_literal *literal, tw_fault *fault)
{
    scan s = { arena, text, *at, fault };
    number n;
    const tw_unit *unit;
    if (!read_number(&s, &n) || !read_unit(&s, &unit)) return false;
    *literal = (tw_literal){ tw_quantity_of(n.value, unit), n.fraction };
    if (!isfinite(literal->quantity.value)) return refuse(&s, *at, "the number is too large to reckon with", "");
    size_t colon = tw_skip_blanks(text, s.at);
    if (is_feet(unit)) {
        if (!read_inches(&s, &literal->quantity)) return false;
    } else if (!unit && byte_at(text, colon) == ':') {
        s.at = colon;
        if (!read_slope(&s, n.value, &literal->quantity)) return false;
    }
    *at = s.at;
    return true;
}
