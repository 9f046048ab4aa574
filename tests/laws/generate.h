// SPDX-License-Identifier: GPL-3.0-or-later
/* Seeded outlines of many kinds, made to be awkward, for the laws of the outline folder. */
#ifndef TW_LAWS_GENERATE_H
#define TW_LAWS_GENERATE_H

#include "check.h"
#include "outline/outline.h"

#define EACH_KIND(X) \
    X(star) X(bulged) X(comb) X(spiked) X(slotted) X(tangent) X(collinear) X(tiny_edges) X(grid) X(holed) X(flower) X(dented)

#define AS_ENUM(name) KIND_##name,
typedef enum generate_kind { EACH_KIND(AS_ENUM) KIND_COUNT } generate_kind;
#undef AS_ENUM

extern const char *const generate_names[KIND_COUNT];

/// A tidy outline of the kind, of a size from 0.001 to 10 000 mm (scale 0: any; else about that size), and a distance to
/// offset it by that is likely to matter. Tries again until one is tidy; the number of tries is added to *tries.
typedef struct generated { tw_outline outline; double distance_mm, size_mm; } generated;
generated generate(tw_arena *arena, check_seed *seed, generate_kind kind, double size_mm, int *tries);

#endif
