// SPDX-License-Identifier: GPL-3.0-or-later
/* written: amounts as the maker would write them into the job, for what is offered: remedies, proposals. */
#ifndef TW_JOB_WRITTEN_H
#define TW_JOB_WRITTEN_H

#include "job/job.h"

/// To which side a value may be rounded: a least size never becomes smaller by being written.
// NOT: to a millionth of a mm or in
typedef enum tw_rounding { TW_ROUND_NEAREST, TW_ROUND_UP, TW_ROUND_DOWN, TW_ROUND_NOT } tw_rounding;

/// The length rounded as the job's own text gives sizes: to 0.1 mm, 0.001 in, or 1/64 in where it writes fractions. What is
/// within a millionth of a step of a round one counts as it. Example: 13.912 mm, up: 14.0.
double tw_job_rounded_mm(const tw_job *job, double length_mm, tw_rounding rounding);
/// The same as text with its unit: "14 mm", "9/16 in", "0.551 in". Reads back as the rounded length.
char *tw_job_written_length(tw_arena *arena, const tw_job *job, double length_mm, tw_rounding rounding);
/// "4.8 deg": an angle, rounded to a tenth of a degree.
char *tw_job_written_angle(tw_arena *arena, double angle_rad, tw_rounding rounding);

#endif
