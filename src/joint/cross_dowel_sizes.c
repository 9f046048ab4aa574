// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt: what is sold. From memory: pitches after ISO 261 (coarse) and the unified coarse series; heads after
 * ISO 4762 and ISO 4017 and their inch likes; washers of the large series of ISO 7093-1 (three times the bolt); lengths after ISO 888.
 * Cross dowels have no standard that is known here: their sizes are common practice, and a maker measures the ones bought. */
#include "joint/cross_dowel.h"

#include <assert.h>
#include <math.h>

#define SAME_MM 0.02
#define INCH TW_MM_PER_INCH

static const tw_bolt_size sizes[] = {
    { "M5", false, 5.0, 0.8, 5.0, 3.5, 8.0, 15.0, 1.2, 8.0 },
    { "M6", false, 6.0, 1.0, 6.0, 4.0, 10.0, 18.0, 1.6, 10.0 },
    { "M8", false, 8.0, 1.25, 8.0, 5.3, 13.0, 24.0, 2.0, 12.0 },
    { "M10", false, 10.0, 1.5, 10.0, 6.4, 16.0, 30.0, 2.5, 16.0 },
    { "M12", false, 12.0, 1.75, 12.0, 7.5, 18.0, 37.0, 3.0, 18.0 },
    { "1/4 in", true, INCH / 4, INCH / 20, INCH / 4, INCH * 5 / 32, INCH * 7 / 16, INCH * 3 / 4, INCH / 16, INCH * 7 / 16 },
    { "5/16 in", true, INCH * 5 / 16, INCH / 18, INCH * 5 / 16, INCH * 13 / 64, INCH / 2, INCH * 15 / 16, INCH * 5 / 64, INCH / 2 },
    { "3/8 in", true, INCH * 3 / 8, INCH / 16, INCH * 3 / 8, INCH * 15 / 64, INCH * 9 / 16, INCH * 9 / 8, INCH * 5 / 64, INCH * 5 / 8 },
    { "1/2 in", true, INCH / 2, INCH / 13, INCH / 2, INCH * 5 / 16, INCH * 3 / 4, INCH * 3 / 2, INCH * 7 / 64, INCH * 3 / 4 },
};
enum { SIZES = sizeof sizes / sizeof *sizes };

static const double lengths_mm[] = { 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200, 220, 240, 260, 280, 300 };
static const double dowel_lengths_mm[] = { 10, 12, 14, 16, 18, 20, 25, 30, 35, 40 };

static tw_bolt_size in_proportion(tw_arena *arena, double d)
{
    return (tw_bolt_size){ .name = tw_format(arena, "%.1f mm", d), .diameter = d, .pitch = d / 6.0, .socket_head = d, .hexagon_head = 0.65 * d, .spanner = 1.6 * d,
                           .washer = 3.0 * d, .washer_thick = 0.3 * d, .dowel = 1.6 * d };
}

tw_bolt_size tw_bolt_size_of(tw_arena *arena, double diameter_mm, bool *sold)
{
    assert(diameter_mm > 0.0);
    *sold = true;
    for (int i = 0; i < SIZES; i++)
        if (fabs(sizes[i].diameter - diameter_mm) < SAME_MM) return sizes[i];
    *sold = false;
    return in_proportion(arena, diameter_mm);
}

const tw_bolt_size *tw_bolt_nearest(double wanted_mm, bool inch)
{
    const tw_bolt_size *nearest = NULL;
    for (int i = 0; i < SIZES; i++) {
        if (sizes[i].inch != inch || sizes[i].diameter < 5.9 || sizes[i].diameter > 10.1) continue;
        if (!nearest || fabs(sizes[i].diameter - wanted_mm) < fabs(nearest->diameter - wanted_mm) - 1e-9) nearest = &sizes[i];
    }
    return nearest;
}

/* In inches by quarters up to 4, then by halves up to 12. */
static double inches_sold(double least_mm)
{
    double least = least_mm / INCH, step = least > 4.0 + 1e-9 ? 0.5 : 0.25;
    double length = tw_max(0.75, ceil(least / step - 1e-9) * step);
    return length > 12.0 + 1e-9 ? 0.0 : length * INCH;
}

double tw_bolt_length_sold(double least_mm, bool inch)
{
    if (inch) return inches_sold(least_mm);
    for (size_t i = 0; i < sizeof lengths_mm / sizeof *lengths_mm; i++)
        if (lengths_mm[i] >= least_mm - 1e-9) return lengths_mm[i];
    return 0.0;
}

bool tw_bolt_length_is_sold(double length_mm, bool inch)
{
    return fabs(tw_bolt_length_sold(length_mm - SAME_MM, inch) - length_mm) < 2.0 * SAME_MM;
}

/* ISO 888: b = 2d + 6 up to 125 long, 2d + 12 up to 200, 2d + 25 beyond; all along when that is as long as the bolt. */
double tw_bolt_thread_mm(double diameter_mm, double length_mm)
{
    double more = length_mm <= 125.0 + 1e-9 ? 6.0 : length_mm <= 200.0 + 1e-9 ? 12.0 : 25.0;
    return tw_min(length_mm, 2.0 * diameter_mm + more);
}

double tw_cross_dowel_length_sold(double diameter_mm, double most_mm, bool inch)
{
    double longest = 0.0;
    if (inch) longest = tw_min(floor(most_mm / (INCH / 8.0) + 1e-9) * INCH / 8.0, 1.5 * INCH);
    for (size_t i = 0; !inch && i < sizeof dowel_lengths_mm / sizeof *dowel_lengths_mm; i++)
        if (dowel_lengths_mm[i] <= most_mm + 1e-9) longest = dowel_lengths_mm[i];
    return longest < diameter_mm - 1e-9 ? 0.0 : longest;
}
