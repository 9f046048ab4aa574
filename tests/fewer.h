// SPDX-License-Identifier: GPL-3.0-or-later
/* fewer: where FEWER_EXAMPLES is set, long loops over examples and random cases go a quarter of their way. scripts/test sets it under
 * sanitizers, which make the same code some ten times slower. */
#ifndef TW_TESTS_FEWER_H
#define TW_TESTS_FEWER_H

#include <stdlib.h>

/// From one example to the next: 1 or 4.
static inline int example_stride(void) { return getenv("FEWER_EXAMPLES") ? 4 : 1; }
/// Of so many cases, how many are tried; at least one.
static inline int cases_of(int count) { return count / example_stride() > 0 ? count / example_stride() : 1; }

#endif
