// SPDX-License-Identifier: GPL-3.0-or-later
/* Router speeds. Three published charts disagree; at each diameter the lowest figure of all three is taken, and where
 * a chart gives a range, its low end. A cutter's own mark and the machine's limit may only lower it further. The rows
 * are the checks 8-01 to 8-03 of tests/outside/speeds.tsv, diameters in inches, upper end included. */
#include "mech/mech.h"

#include <assert.h>
#include <math.h>

typedef struct { double up_to_in, chart_a, chart_b, chart_c; } speed_row;

static const speed_row rows[] = {
    { 1.00, 24000.0, 24000.0, 22000.0 },
    { 1.25, 18000.0, 18000.0, 18000.0 },
    { 2.00, 18000.0, 16000.0, 18000.0 },
    { 2.25, 16000.0, 16000.0, 12000.0 },
    { 2.50, 16000.0, 12000.0, 12000.0 },
    { 3.50, 12000.0, 12000.0, 8000.0 },
};

double tw_router_speed_most_rpm(double diameter_mm)
{
    assert(isfinite(diameter_mm) && diameter_mm > 0.0);
    double diameter_in = diameter_mm / TW_MM_PER_INCH;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (diameter_in <= rows[i].up_to_in + 1e-9) return tw_min(rows[i].chart_a, tw_min(rows[i].chart_b, rows[i].chart_c));
    return 0.0;
}

double tw_rim_speed_m_s(double diameter_mm, double rpm)
{
    assert(isfinite(diameter_mm) && diameter_mm >= 0.0 && isfinite(rpm) && rpm >= 0.0);
    return TW_PI * diameter_mm / 1000.0 * rpm / 60.0;
}
