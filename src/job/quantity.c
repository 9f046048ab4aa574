// SPDX-License-Identifier: GPL-3.0-or-later
/* The inch is 25.4 mm exactly (international yard and pound agreement of 1959), the foot 12 of them. */
#include "job/quantity.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define POWER_MOST 4  // of lengths multiplied together: more than any sum of a job needs

static const tw_unit units[] = {
    { "mm", 1.0, 1, 0 }, { "cm", 10.0, 1, 0 }, { "m", 1000.0, 1, 0 }, { "in", TW_MM_PER_INCH, 1, 0 },
    { "ft", 12.0 * TW_MM_PER_INCH, 1, 0 }, { "deg", TW_PI / 180.0, 0, 1 }, { "%", 0.01, 0, 0 },
    { "\"", TW_MM_PER_INCH, 1, 0 }, { "\xE2\x80\xB3", TW_MM_PER_INCH, 1, 0 },              // U+2033
    { "'", 12.0 * TW_MM_PER_INCH, 1, 0 }, { "\xE2\x80\xB2", 12.0 * TW_MM_PER_INCH, 1, 0 }, // U+2032
    { "\xC2\xB0", TW_PI / 180.0, 0, 1 },                                                   // the degree sign
};

const char *const tw_unit_all[] = { "mm", "cm", "m", "in", "ft", "deg" };
const size_t tw_unit_count = sizeof tw_unit_all / sizeof tw_unit_all[0];

static const struct { const char *word, *meant; } spellings[] = {
    { "inch", "in" }, { "inches", "in" }, { "foot", "ft" }, { "feet", "ft" }, { "degree", "deg" }, { "degrees", "deg" },
    { "millimetre", "mm" }, { "millimetres", "mm" }, { "millimeter", "mm" }, { "millimeters", "mm" },
    { "centimetre", "cm" }, { "centimetres", "cm" }, { "centimeter", "cm" }, { "centimeters", "cm" },
    { "metre", "m" }, { "metres", "m" }, { "meter", "m" }, { "meters", "m" }, { "percent", "%" },
    { "MM", "mm" }, { "Mm", "mm" }, { "CM", "cm" }, { "Cm", "cm" }, { "M", "m" }, { "IN", "in" }, { "In", "in" },
    { "FT", "ft" }, { "Ft", "ft" },
};

const tw_unit *tw_unit_find(tw_text word, const char **meant)
{
    if (meant) *meant = NULL;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (tw_text_is(word, units[i].word)) return &units[i];
    for (size_t i = 0; meant && i < sizeof spellings / sizeof spellings[0]; i++)
        if (tw_text_is(word, spellings[i].word)) *meant = spellings[i].meant;
    return NULL;
}

tw_quantity tw_quantity_of(double number, const tw_unit *unit)
{
    if (!unit) return (tw_quantity){ .value = number };
    bool percent = unit->length == 0 && unit->angle == 0;
    return (tw_quantity){ number * unit->factor, unit->length, unit->angle, percent };
}

static bool is_number(tw_quantity a) { return a.length == 0 && a.angle == 0; }
bool tw_is_bare(tw_quantity a) { return is_number(a) && !a.ratio; }
bool tw_is_length(tw_quantity a) { return a.length == 1 && a.angle == 0; }

const char *tw_quantity_in_words(tw_quantity a)
{
    if (tw_is_bare(a)) return "a number without a unit";
    if (is_number(a)) return "a ratio";
    if (tw_is_length(a)) return "a length";
    if (a.length == 0 && a.angle == 1) return "an angle";
    if (a.length == 2 && a.angle == 0) return "an area";
    if (a.length == 3 && a.angle == 0) return "a volume";
    if (a.length == -1 && a.angle == 0) return "a number divided by a length";
    return "a product of lengths and angles";
}

static bool refuse(const char **what, const char **remedy, const char *says, const char *would_be_right)
{
    *what = says;
    *remedy = would_be_right;
    return false;
}

/* Makes the two alike, so that they can be added or compared. */
static bool make_alike(tw_arena *arena, const char *done, tw_quantity *a, tw_quantity *b, double unit_mm,
                       const char **what, const char **remedy)
{
    if (tw_is_bare(*a) && tw_is_length(*b)) *a = (tw_quantity){ a->value * unit_mm, 1, 0, false };
    if (tw_is_bare(*b) && tw_is_length(*a)) *b = (tw_quantity){ b->value * unit_mm, 1, 0, false };
    if (a->length == b->length && a->angle == b->angle) {
        a->ratio = b->ratio = a->ratio || b->ratio;
        return true;
    }
    const char *says = tw_format(arena, "%s and %s cannot be %s", tw_quantity_in_words(*a), tw_quantity_in_words(*b), done);
    bool percent = (a->ratio && tw_is_length(*b)) || (b->ratio && tw_is_length(*a));
    bool bare_angle = (tw_is_bare(*a) && b->angle == 1) || (tw_is_bare(*b) && a->angle == 1);
    return refuse(what, remedy, says, percent ? "a ratio is multiplied with a length: 50 % * 38 mm"
                                    : bare_angle ? "write the number with `deg`" : "both must be of one kind");
}

static bool reckon_alike(tw_arena *arena, tw_sum sum, tw_quantity a, tw_quantity b, double unit_mm, tw_quantity *result,
                         const char **what, const char **remedy)
{
    const char *done = sum == TW_ADD ? "added" : sum == TW_SUBTRACT ? "subtracted" : "compared";
    if (!make_alike(arena, done, &a, &b, unit_mm, what, remedy)) return false;
    *result = a;
    switch (sum) {
    case TW_ADD: result->value = a.value + b.value; break;
    case TW_SUBTRACT: result->value = a.value - b.value; break;
    case TW_LEAST: result->value = tw_min(a.value, b.value); break;
    default: result->value = tw_max(a.value, b.value); break;
    }
    return true;
}

static bool multiply(tw_quantity a, tw_quantity b, tw_quantity *result, const char **what, const char **remedy)
{
    *result = (tw_quantity){ a.value * b.value, a.length + b.length, a.angle + b.angle, a.ratio && b.ratio };
    if (abs(result->length) <= POWER_MOST && abs(result->angle) <= POWER_MOST) return true;
    return refuse(what, remedy, "too many lengths are multiplied together", "");
}

/* A length divided by a length is a ratio for good; 12 / 4 is still a bare number. */
static bool divide(tw_quantity a, tw_quantity b, tw_quantity *result, const char **what, const char **remedy)
{
    if (b.value == 0.0) return refuse(what, remedy, "this divides by 0", "");
    tw_quantity over = { 1.0 / b.value, -b.length, -b.angle, b.ratio };
    if (!multiply(a, over, result, what, remedy)) return false;
    result->value = a.value / b.value;
    bool units_met = !is_number(a) || !is_number(b);
    result->ratio = is_number(*result) && (units_met || a.ratio);
    return true;
}

bool tw_quantity_reckon(tw_arena *arena, tw_sum sum, tw_quantity a, tw_quantity b, double unit_mm, tw_quantity *result,
                        const char **what, const char **remedy)
{
    assert(isfinite(a.value) && isfinite(b.value) && unit_mm > 0.0);
    bool good = sum == TW_MULTIPLY ? multiply(a, b, result, what, remedy)
              : sum == TW_DIVIDE   ? divide(a, b, result, what, remedy)
                                   : reckon_alike(arena, sum, a, b, unit_mm, result, what, remedy);
    if (good && !isfinite(result->value)) return refuse(what, remedy, "the result is too large to reckon with", "");
    return good;
}
