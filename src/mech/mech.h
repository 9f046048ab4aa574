// SPDX-License-Identifier: GPL-3.0-or-later
/* mech: the sums of mechanics and moisture. Plain values in, plain values out. */
#ifndef TW_MECH_H
#define TW_MECH_H

#include "base/base.h"

/// A wedge with one sloping face. Angle alpha; friction coefficients on the flat face and on the ramp.
/// Forces for the drive P and the draw F (design: F/P = 1 / (tan f1 + tan(alpha + f2)), f = atan mu).
typedef struct tw_wedge {
    double draw_mm_per_mm;                 // tan alpha: how far it pulls for each mm it is driven
    double draw_force_per_drive_force;     // F / P
    double release_force_per_draw_force;   // P' / F = tan f1 + tan(f2 - alpha); negative: it springs out by itself
    bool   holds_itself;                   // alpha < f1 + f2
    double friction_angle_deg;             // f1 + f2
    double margin_deg;                     // f1 + f2 - alpha
} tw_wedge;
/// angle_rad: over 0, under pi/2 - f2 (beyond that no force drives it); mu: 0 or more, at most 5.
/// Returns false with *why set when the wedge cannot be.
bool tw_wedge_reckon(double angle_rad, double mu_flat, double mu_ramp, tw_wedge *wedge, const char **why);

/// Equilibrium moisture content of wood, percent. Returns false with *why outside of the range.
/// Source: Wood Handbook FPL-GTR-190, equation 4-5 (metric).
/// temperature_c -1.1 to 93.3 (the span of table 4-2 as held); humidity_percent 0 to under 100.
bool tw_moisture_reckon(double temperature_c, double humidity_percent, double *moisture_percent, const char **why);

/// One timber of data/wood.tsv (compiled in). A figure that the handbook does not give is NAN.
typedef struct tw_timber {
    const char *name;   // "Oak, white"
    const char *group;  // "hardwood", "softwood", "imported"
    double specific_gravity_12, mor_mpa, moe_mpa, compression_parallel_mpa, compression_perpendicular_mpa,
        shear_parallel_mpa, tension_perpendicular_mpa, hardness_n, change_radial, change_tangential;
} tw_timber;
extern const tw_timber tw_timbers[];
extern const size_t    tw_timber_count;
/// By name: the handbook's ("Oak, white"), or turned round ("white oak"), case ignored. NULL when unknown;
/// *nearest (may be NULL) is then set to the nearest known name or NULL.
const tw_timber *tw_timber_find(tw_arena *arena, const char *name, const char **nearest);

/// change = size * coefficient * (to - from); valid for 6 to 14 % (GTR-190 table 13-5): outside of it *caution is set
/// to a sentence, else to NULL. from, to: 0 to 30. Returns false with *why when the timber has no coefficient.
bool tw_movement_reckon(const tw_timber *timber, double size_mm, bool quarter_sawn, double from_percent, double to_percent,
                        double *change_mm, const char **caution, const char **why);
double tw_density_kg_m3(double specific_gravity, double moisture_percent);  // 1000 G (1 + M/100), GTR-282 eq. 4-14

/// Highest speed for a cutter of this diameter: the lowest of published charts (checks 8-01 to 8-03), rpm; the low end
/// of a chart that gives a range. 0: over 3 1/2 in no chart has it, do not run it in a router. diameter_mm over 0.
double tw_router_speed_most_rpm(double diameter_mm);
double tw_rim_speed_m_s(double diameter_mm, double rpm);

#endif
