// SPDX-License-Identifier: GPL-3.0-or-later
/* What every test includes: cmocka with its order of headers, checks for doubles and texts, a seeded generator. */
#ifndef TW_TESTS_CHECK_H
#define TW_TESTS_CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <math.h>

#include "base/base.h"

/// Fails with file, line and both values unless |got - want| <= tolerance; NaN always fails.
#define CHECK_NEAR(got, want, tolerance) check_near((got), (want), (tolerance), #got, __FILE__, __LINE__)
static inline void check_near(double got, double want, double tolerance, const char *what, const char *file, int line)
{
    if (fabs(got - want) <= tolerance) return;
    print_error("%s: got %.12g, want %.12g within %.3g\n", what, got, want, tolerance);
    _fail(file, line);
}

/// Fails unless the text holds the part.
#define CHECK_HOLDS(text, part) check_holds((text), (part), __FILE__, __LINE__)
static inline void check_holds(const char *text, const char *part, const char *file, int line)
{
    if (text && strstr(text, part)) return;
    print_error("\"%s\" is not in \"%s\"\n", part, text ? text : "(null)");
    _fail(file, line);
}

/// splitmix64: the same numbers for the same seed on every machine.
typedef struct check_seed { uint64_t state; } check_seed;
static inline uint64_t check_random(check_seed *seed)
{
    uint64_t z = (seed->state += UINT64_C(0x9E3779B97F4A7C15));
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}
static inline double check_between(check_seed *seed, double least, double most)
{
    return least + (most - least) * ((double)(check_random(seed) >> 11) / 9007199254740992.0);
}

#endif
