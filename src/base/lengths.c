// SPDX-License-Identifier: GPL-3.0-or-later
/* Lengths as written. Figures are rounded here, at the last moment, and nowhere else. */
#include "base/base.h"

#include <assert.h>
#include <math.h>

#define TW_HEAVY_MM 0.02  // a remainder below this is not said: finer than a fraction is ever worked to

static long common_factor(long a, long b) { return b == 0 ? a : common_factor(b, a % b); }

tw_fraction tw_fraction_of(double length_mm, int parts)
{
    assert(isfinite(length_mm) && fabs(length_mm) < 1e9 && parts >= 1);
    double size = fabs(length_mm) / TW_MM_PER_INCH * parts;
    double nearest = floor(size + 0.5);  // a tie goes away from zero
    if (fabs(size + 0.5 - round(size + 0.5)) < 1e-9) nearest = round(size + 0.5);  // a tie blurred by mm -> inch
    long all = (long)nearest;
    long factor = common_factor(all % parts, parts);
    if (all % parts == 0) factor = parts;
    tw_fraction fraction = {
        .negative = length_mm < 0.0 && all != 0,
        .whole = all / parts,
        .numerator = all % parts / factor,
        .denominator = parts / factor,
    };
    double shown_mm = (double)all / parts * TW_MM_PER_INCH;
    fraction.remainder_mm = length_mm - (length_mm < 0.0 ? -shown_mm : shown_mm);
    if (fabs(fraction.remainder_mm) < 1e-12) fraction.remainder_mm = 0.0;
    return fraction;
}

char *tw_fraction_text(tw_arena *arena, tw_fraction fraction)
{
    const char *sign = fraction.negative ? "-" : "";
    const char *weight = fraction.remainder_mm > TW_HEAVY_MM ? " heavy" : fraction.remainder_mm < -TW_HEAVY_MM ? " light" : "";
    if (fraction.numerator == 0) return tw_format(arena, "%s%ld%s", sign, fraction.whole, weight);
    if (fraction.whole == 0) return tw_format(arena, "%s%ld/%ld%s", sign, fraction.numerator, fraction.denominator, weight);
    return tw_format(arena, "%s%ld %ld/%ld%s", sign, fraction.whole, fraction.numerator, fraction.denominator, weight);
}

char *tw_length_bare(tw_arena *arena, double length_mm, tw_figures figures)
{
    switch (figures.style) {
    case TW_FIGURES_MM: return tw_format(arena, "%.*f", figures.decimals, length_mm);
    case TW_FIGURES_INCH: return tw_format(arena, "%.*f", figures.decimals, length_mm / TW_MM_PER_INCH);
    case TW_FIGURES_FRACTION: return tw_fraction_text(arena, tw_fraction_of(length_mm, figures.parts));
    }
    return NULL;
}

char *tw_length_text(tw_arena *arena, double length_mm, tw_figures figures)
{
    if (figures.style != TW_FIGURES_FRACTION)
        return tw_format(arena, "%s %s", tw_length_bare(arena, length_mm, figures), figures.style == TW_FIGURES_MM ? "mm" : "in");
    tw_fraction fraction = tw_fraction_of(length_mm, figures.parts);
    double remainder_mm = fraction.remainder_mm;
    fraction.remainder_mm = 0.0;
    const char *weight = remainder_mm > TW_HEAVY_MM ? " heavy" : remainder_mm < -TW_HEAVY_MM ? " light" : "";
    return tw_format(arena, "%s in%s", tw_fraction_text(arena, fraction), weight);
}

char *tw_angle_text(tw_arena *arena, double angle_rad)
{
    double degrees = tw_degrees(angle_rad);
    double tenth = round(degrees * 10.0) / 10.0;
    return tw_format(arena, "%.*f°", fabs(degrees - tenth) > 0.02 ? 2 : 1, degrees);
}
