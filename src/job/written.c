// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/written.h"

#include <math.h>

#define ON_STEP 1e-6  // part of a step

static double stepped(double value, double step, tw_rounding rounding)
{
    if (rounding == TW_ROUND_NOT) return value;
    double steps = value / step, nearest = round(steps);
    if (rounding == TW_ROUND_NEAREST || fabs(steps - nearest) < ON_STEP) return nearest * step;
    return (rounding == TW_ROUND_UP ? ceil(steps) : floor(steps)) * step;
}

/* Figures may be shown in other units than the job's own; what goes into its text is in its own. */
static tw_figure_style style_of(const tw_job *job)
{
    if (!job->inch_sizes) return TW_FIGURES_MM;
    return job->figures.style == TW_FIGURES_INCH ? TW_FIGURES_INCH : TW_FIGURES_FRACTION;
}

double tw_job_rounded_mm(const tw_job *job, double length_mm, tw_rounding rounding)
{
    static const double steps[] = { [TW_FIGURES_MM] = 0.1, [TW_FIGURES_INCH] = 0.001 * TW_MM_PER_INCH,
        [TW_FIGURES_FRACTION] = TW_MM_PER_INCH / 64.0 };
    return stepped(length_mm, steps[style_of(job)], rounding);
}

char *tw_job_written_length(tw_arena *arena, const tw_job *job, double length_mm, tw_rounding rounding)
{
    double rounded = tw_job_rounded_mm(job, length_mm, rounding);
    tw_figure_style style = style_of(job);
    switch (style == TW_FIGURES_FRACTION && rounding == TW_ROUND_NOT ? TW_FIGURES_INCH : style) {
    case TW_FIGURES_MM: return tw_format(arena, "%g mm", rounded);
    case TW_FIGURES_INCH: return tw_format(arena, "%g in", rounded / TW_MM_PER_INCH);
    case TW_FIGURES_FRACTION: return tw_format(arena, "%s in", tw_fraction_text(arena, tw_fraction_of(rounded, 64)));
    }
    return NULL;
}

char *tw_job_written_angle(tw_arena *arena, double angle_rad, tw_rounding rounding)
{
    return tw_format(arena, "%g deg", stepped(tw_degrees(angle_rad), 0.1, rounding));
}
