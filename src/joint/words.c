// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/words.h"

#include <assert.h>
#include <math.h>

#define FINE_MOST_MM 1.5   // below this a fraction of an inch hides what matters
#define HAIR_MM 1e-6

static bool in_fractions(const tw_joint_context *context) { return context->job->figures.style == TW_FIGURES_FRACTION; }

const char *tw_say_fine(const tw_joint_context *context, double length_mm)
{
    if (in_fractions(context) && fabs(length_mm) < FINE_MOST_MM) return tw_format(context->arena, "%.3f in", length_mm / TW_MM_PER_INCH);
    return tw_say(context, length_mm);
}

const char *tw_bare_fine(const tw_joint_context *context, double length_mm)
{
    if (in_fractions(context) && fabs(length_mm) < FINE_MOST_MM) return tw_format(context->arena, "%.3f", length_mm / TW_MM_PER_INCH);
    return tw_length_bare(context->arena, length_mm, context->job->figures);
}

double tw_customary(const tw_joint_context *context, double mm, double inch)
{
    return context->job->inch_sizes ? inch * TW_MM_PER_INCH : mm;
}

double tw_rounded_down(const tw_joint_context *context, double length_mm)
{
    assert(length_mm >= 0.0);
    double step = tw_customary(context, 0.5, 1.0 / 32.0);
    return floor(length_mm / step + 1e-9) * step;
}

const char *tw_counted(const tw_joint_context *context, int count, const char *one, const char *more)
{
    return tw_format(context->arena, "%d %s", count, count == 1 ? one : more);
}

void tw_note_length(tw_joint_context *context, tw_joint_plan *plan, const char *key, const char *label, double length_mm, const char *sum,
                    const char *rule)
{
    tw_plan_figure(context, plan, (tw_figure){ .key = key, .label = label, .value = length_mm, .unit = TW_UNIT_MM, .sum = sum, .rule = rule });
}

int tw_cutter_named(const tw_shop *shop, const char *name)
{
    for (int i = 0; i < shop->cutter_count; i++)
        if (tw_text_is(tw_text_of(shop->cutters[i].name), name)) return i;
    return -1;
}

int tw_follower_named(const tw_shop *shop, const char *name)
{
    for (int i = 0; i < shop->follower_count; i++)
        if (tw_text_is(tw_text_of(shop->followers[i].name), name)) return i;
    return -1;
}

int tw_bush_for(const tw_shop *shop, double cutter_mm)
{
    int best = -1;
    for (int i = 0; i < shop->follower_count; i++) {
        double b = shop->followers[i].b_mm;
        if (b > cutter_mm + HAIR_MM && (best < 0 || b < shop->followers[best].b_mm)) best = i;
    }
    return best;
}

int tw_cutter_for_trench(const tw_shop *shop, double most_mm, double deep_mm)
{
    int best = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        if (!cutter->plunges.value || !tw_cutter_is_straight(cutter) || cutter->d_mm > most_mm + HAIR_MM || cutter->cutting_length.value < deep_mm - HAIR_MM) continue;
        if (best < 0 || cutter->d_mm > shop->cutters[best].d_mm) best = i;
    }
    return best;
}
