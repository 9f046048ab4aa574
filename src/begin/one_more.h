// SPDX-License-Identifier: GPL-3.0-or-later
#ifndef TW_ONE_MORE_H
#define TW_ONE_MORE_H

#include "job/job.h"

/// The places of a joint as its text writes them under `at`, and one more; NULL and *count 0 when it has no such key.
const char *const *tw_places_and_one_more(tw_arena *arena, const tw_joint *joint, const char *place, size_t *count);

#endif
