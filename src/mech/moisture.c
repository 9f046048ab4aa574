// SPDX-License-Identifier: GPL-3.0-or-later
/* Moisture of wood: what it settles at, how far that moves a board, and what the board weighs.
 *
 * Equilibrium moisture content, Wood Handbook equation 4-5 (metric), T in degrees Celsius, r the relative humidity as a
 * fraction:
 *     W = 349 + 1.29 T + 0.0135 T^2
 *     K = 0.805 + 0.000736 T - 0.00000273 T^2
 *     a = 6.27 - 0.00938 T - 0.000303 T^2
 *     b = 1.91 + 0.0407 T - 0.000293 T^2
 *     M = (1800 / W) (x / (1 - x) + (a x + 2 a b x^2) / (1 + a x + a b x^2)),  x = K r        (1)
 * It follows the handbook's table 4-2 within 0.06 % of moisture over the table's span; a test holds all its points.
 *
 * Movement, handbook chapter 13:  change = size * coefficient * (to - from), moisture in percent         (2)
 * with the coefficients of table 13-5, valid from 6 to 14 %.
 *
 * Density, 2021 edition, equation 4-14:  1000 G (1 + M / 100) kg/m^3                                      (3) */
#include "mech/mech.h"

#include <assert.h>
#include <math.h>

#define COLDEST_C (-1.12)      // table 4-2 begins at 30 F = -1.11 C, printed -1.1
#define HOTTEST_C 93.34        // and is held up to 200 F = 93.33 C
#define VALID_FROM_PERCENT 6.0  // table 13-5
#define VALID_TO_PERCENT 14.0
#define SATURATED_PERCENT 30.0  // beyond this wood takes up water without swelling

static double settled_percent(double t, double r)
{
    double w = 349.0 + 1.29 * t + 0.0135 * t * t;
    double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
    double a = 6.27 - 0.00938 * t - 0.000303 * t * t;
    double b = 1.91 + 0.0407 * t - 0.000293 * t * t;
    double x = k * r;
    return 1800.0 / w * (x / (1.0 - x) + (a * x + 2.0 * a * b * x * x) / (1.0 + a * x + a * b * x * x));
}

bool tw_moisture_reckon(double temperature_c, double humidity_percent, double *moisture_percent, const char **why)
{
    *why = NULL;
    if (!(temperature_c >= COLDEST_C && temperature_c <= HOTTEST_C))
        *why = "the temperature must lie between -1.1 and 93.3 degrees Celsius (30 to 200 F), the span of the handbook's table";
    else if (!(humidity_percent >= 0.0 && humidity_percent < 100.0))
        *why = "the relative humidity must be at least 0 % and less than 100 %";
    if (*why) return false;
    *moisture_percent = settled_percent(temperature_c, humidity_percent / 100.0);
    return true;
}

static bool is_moisture(double percent) { return percent >= 0.0 && percent <= SATURATED_PERCENT; }
static bool is_in_span(double percent) { return percent >= VALID_FROM_PERCENT && percent <= VALID_TO_PERCENT; }

bool tw_movement_reckon(const tw_timber *timber, double size_mm, bool quarter_sawn, double from_percent, double to_percent,
                        double *change_mm, const char **caution, const char **why)
{
    assert(timber != NULL);
    double coefficient = quarter_sawn ? timber->change_radial : timber->change_tangential;
    *why = *caution = NULL;
    if (!isfinite(size_mm) || size_mm < 0.0)
        *why = "the size across the grain must be a length of nothing or more";
    else if (!is_moisture(from_percent) || !is_moisture(to_percent))
        *why = "a moisture content must lie between 0 and 30 %; above about 30 % wood does not swell any further";
    else if (isnan(coefficient))
        *why = quarter_sawn ? "the table has no radial coefficient (quarter sawn) for this timber"
                            : "the table has no tangential coefficient (flat sawn) for this timber";
    if (*why) return false;
    if (!is_in_span(from_percent) || !is_in_span(to_percent))
        *caution = "the coefficients hold between 6 and 14 % of moisture; outside of that the figure is rougher";
    *change_mm = size_mm * coefficient * (to_percent - from_percent);
    return true;
}

double tw_density_kg_m3(double specific_gravity, double moisture_percent)
{
    assert(specific_gravity > 0.0 && moisture_percent >= 0.0);
    return 1000.0 * specific_gravity * (1.0 + moisture_percent / 100.0);
}
