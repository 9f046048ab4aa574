// SPDX-License-Identifier: GPL-3.0-or-later
/* Texts: views, copies, putting together and reading numbers without the locale. */
#include "base/base.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

tw_text tw_text_of(const char *zero_ended) { return (tw_text){ zero_ended, strlen(zero_ended) }; }

bool tw_text_is(tw_text text, const char *zero_ended)
{
    return strlen(zero_ended) == text.length && (text.length == 0 || memcmp(text.bytes, zero_ended, text.length) == 0);
}

char *tw_text_copy(tw_arena *arena, tw_text text)
{
    char *copy = tw_arena_take(arena, text.length + 1, 1);
    if (text.length > 0) memcpy(copy, text.bytes, text.length);
    return copy;
}

/* ---- putting together ---- */

#define SPEC_MOST 32  // bytes of one conversion: % flags width precision letter

/* The decimal mark of the locale may be any text: all that is no digit, sign or exponent is one point. */
static void point_for_locale(char *number)
{
    char *to = number;
    bool in_mark = false;
    for (const char *from = number; *from; from++) {
        bool kept = isdigit((unsigned char)*from) || strchr("+- eE", *from) != NULL;
        if (kept) *to++ = *from;
        else if (!in_mark) *to++ = '.';
        in_mark = !kept;
    }
    *to = '\0';
}

static void put_double(tw_gather *out, const char *spec, int star, bool has_star, double value)
{
    char number[512];
    char letter = spec[strlen(spec) - 1];
    if (!isfinite(value)) {
        tw_sink sink = tw_gather_sink(out);
        tw_put_text(&sink, isnan(value) ? "nan" : value > 0 ? "inf" : "-inf");
        return;
    }
    _Pragma("GCC diagnostic push") _Pragma("GCC diagnostic ignored \"-Wformat-nonliteral\"")
    if (letter == 'g') snprintf(number, sizeof number, "%.6f", value);
    else if (has_star) snprintf(number, sizeof number, spec, star, value);
    else snprintf(number, sizeof number, spec, value);
    _Pragma("GCC diagnostic pop")
    point_for_locale(number);
    if (letter == 'g' && strchr(number, '.')) {
        size_t length = strlen(number);
        while (number[length - 1] == '0') length--;
        if (number[length - 1] == '.') length--;
        number[length] = '\0';
    }
    const char *shown = number;
    if (number[0] == '-' && strspn(number + 1, "0.") == strlen(number + 1)) shown = number + 1;  // no "-0.0"
    tw_sink sink = tw_gather_sink(out);
    tw_put_text(&sink, shown);
}

static void put_plain(tw_gather *out, const char *spec, ...)
{
    char small[256];
    va_list list, again;
    va_start(list, spec);
    va_copy(again, list);
    _Pragma("GCC diagnostic push") _Pragma("GCC diagnostic ignored \"-Wformat-nonliteral\"")
    int length = vsnprintf(small, sizeof small, spec, list);
    assert(length >= 0);
    tw_sink sink = tw_gather_sink(out);
    if ((size_t)length < sizeof small) {
        tw_put(&sink, small, (size_t)length);
    } else {
        char *large = tw_arena_take(out->arena, (size_t)length + 1, 1);
        vsnprintf(large, (size_t)length + 1, spec, again);
        tw_put(&sink, large, (size_t)length);
    }
    _Pragma("GCC diagnostic pop")
    va_end(again);
    va_end(list);
}

/* Copies the conversion that starts at format ("%-8.3f") into spec; returns its length. */
static size_t conversion_at(const char *format, char spec[SPEC_MOST])
{
    size_t length = 1;
    while (format[length] && !strchr("sducfgx%", format[length])) length++;
    assert(format[length] && length + 2 < SPEC_MOST);
    length++;
    memcpy(spec, format, length);
    spec[length] = '\0';
    return length;
}

char *tw_format_list(tw_arena *arena, const char *format, va_list list)
{
    tw_gather out = { .arena = arena };
    tw_sink sink = tw_gather_sink(&out);
    while (*format) {
        size_t plain = strcspn(format, "%");
        tw_put(&sink, format, plain);
        format += plain;
        if (!*format) break;
        char spec[SPEC_MOST];
        format += conversion_at(format, spec);
        bool has_star = strchr(spec, '*') != NULL;
        int star = has_star ? va_arg(list, int) : 0;
        switch (spec[strlen(spec) - 1]) {
        case '%': tw_put(&sink, "%", 1); break;
        case 's':
            if (has_star) put_plain(&out, spec, star, va_arg(list, const char *));
            else put_plain(&out, spec, va_arg(list, const char *));
            break;
        case 'c': put_plain(&out, spec, va_arg(list, int)); break;
        case 'd':
            if (strchr(spec, 'l')) put_plain(&out, spec, va_arg(list, long));
            else if (has_star) put_plain(&out, spec, star, va_arg(list, int));
            else put_plain(&out, spec, va_arg(list, int));
            break;
        case 'u': case 'x':
            if (strchr(spec, 'z')) put_plain(&out, spec, va_arg(list, size_t));
            else if (strchr(spec, 'l')) put_plain(&out, spec, va_arg(list, unsigned long));
            else put_plain(&out, spec, va_arg(list, unsigned));
            break;
        default: put_double(&out, spec, star, has_star, va_arg(list, double)); break;
        }
    }
    tw_gathered(&out);
    return out.bytes ? out.bytes : tw_text_copy(arena, (tw_text){ "", 0 });
}

char *tw_format(tw_arena *arena, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    char *text = tw_format_list(arena, format, list);
    va_end(list);
    return text;
}

/* ---- reading numbers ---- */

static bool digit_at(tw_text text, size_t at) { return at < text.length && text.bytes[at] >= '0' && text.bytes[at] <= '9'; }

/* Reads "e-3" at *at if it is there; returns the exponent, held within +-9999. */
static int exponent_at(tw_text text, size_t *at)
{
    size_t here = *at;
    if (here >= text.length || (text.bytes[here] != 'e' && text.bytes[here] != 'E')) return 0;
    here++;
    bool negative = here < text.length && text.bytes[here] == '-';
    if (negative || (here < text.length && text.bytes[here] == '+')) here++;
    if (!digit_at(text, here)) return 0;
    int exponent = 0;
    for (; digit_at(text, here); here++)
        if (exponent < 1000) exponent = exponent * 10 + (text.bytes[here] - '0');
    *at = here;
    return negative ? -exponent : exponent;
}

/* Exact for up to 15 digits and small exponents (both factors are then exact in a double); beyond that the last bit
 * may be off, which no length in a shop can show. */
size_t tw_read_number(tw_text text, double *value)
{
    size_t at = 0;
    bool negative = at < text.length && text.bytes[at] == '-';
    if (negative || (at < text.length && text.bytes[at] == '+')) at++;
    uint64_t digits = 0;
    int shift = 0, seen = 0;
    bool fraction = false;
    for (; at < text.length; at++) {
        if (text.bytes[at] == '.' && !fraction) { fraction = true; continue; }
        if (!digit_at(text, at)) break;
        seen++;
        if (digits < UINT64_C(1000000000000000000)) {
            digits = digits * 10 + (uint64_t)(text.bytes[at] - '0');
            shift -= fraction;
        } else {
            shift += !fraction;
        }
    }
    if (seen == 0) return 0;
    if (text.bytes[at - 1] == '.' ) at--;  // a full stop after a number is not part of it
    shift += exponent_at(text, &at);
    double size = (double)digits;
    if (digits != 0) size = shift < 0 ? (shift < -300 ? 0.0 : size / pow(10.0, -shift)) : size * pow(10.0, shift);
    *value = negative ? -size : size;
    return at;
}

/* ---- nearest words ---- */

static int least_of(int a, int b) { return a < b ? a : b; }

int tw_word_distance(const char *a, const char *b)
{
    enum { MOST = 64 };
    size_t a_length = strlen(a), b_length = strlen(b);
    if (a_length > MOST || b_length > MOST) return MOST;
    int rows[3][MOST + 1];
    for (size_t j = 0; j <= b_length; j++) rows[0][j] = (int)j;
    for (size_t i = 1; i <= a_length; i++) {
        int *now = rows[i % 3], *before = rows[(i - 1) % 3], *earlier = rows[(i + 1) % 3];
        now[0] = (int)i;
        for (size_t j = 1; j <= b_length; j++) {
            int ca = tolower((unsigned char)a[i - 1]), cb = tolower((unsigned char)b[j - 1]);
            now[j] = least_of(least_of(before[j] + 1, now[j - 1] + 1), before[j - 1] + (ca != cb));
            if (i > 1 && j > 1 && ca == tolower((unsigned char)b[j - 2]) && tolower((unsigned char)a[i - 2]) == cb)
                now[j] = least_of(now[j], earlier[j - 2] + 1);
        }
    }
    return rows[a_length % 3][b_length];
}

const char *tw_nearest_word(const char *written, const char *const *known, size_t count)
{
    const char *nearest = NULL;
    int least = 0;
    for (size_t i = 0; i < count; i++) {
        int distance = tw_word_distance(written, known[i]);
        if (!nearest || distance < least) { nearest = known[i]; least = distance; }
    }
    if (!nearest) return NULL;
    size_t longer = strlen(nearest) > strlen(written) ? strlen(nearest) : strlen(written);
    return least * 3 <= (int)longer + 2 ? nearest : NULL;
}
