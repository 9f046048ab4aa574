// SPDX-License-Identifier: GPL-3.0-or-later
/* Which cutter and which follower: what the job names, else by the trade's rules.
 *
 *   cutter     the largest that the cut takes (its own limits, its narrowest neck, hollow corners not rounder than they may
 *              be), that is long enough and, for a pocket, cuts at its end. One that would leave over a tenth of the
 *              pocket in the corners stands behind all others. A dovetail cutter only where the cut wants its angle.
 *   follower   first one with r d = b within 0.1 mm (the template is then r times the cut); else the largest with b <= r d, which
 *              loses no corner; else the smallest of the others, with a `care` where it really loses wood.
 *
 * The first pair whose template is proved (its simulated path within TW_COPY_TRUE_MM of the wanted one) is taken. */
#include "template/parts.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define JUST_MM 1e-6            // a cutter of the cut's own width still goes in
#define LEFT_MOST_SHARE 0.10    // of a pocket's area, that a chosen cutter may leave in the corners: our own rule
#define PAIR_MM 0.1             // how near r d and b must be to count as a pair
#define LOST_LEAST_MM2 1e-3     // less wood lost than this is not worth a care
#define SEARCH_STEPS 40
#define SAME_RAD 1e-4           // 0.006 degrees: two angles written differently

void tw_template_find(const tw_template_context *context, int plan, tw_level level, const char *code, const char *what, const char *remedy)
{
    const tw_joint *joint = context->plans[plan].joint;
    tw_find(context->findings, level, joint->place, code, joint->name, what, remedy);
}

static const char *say(const tw_template_context *context, double mm) { return tw_length_text(context->arena, mm, context->job->figures); }

/* ---- what the cut takes ---- */

/* Does a cutter pass every neck of the cut, or (outside) get between all that stays? */
static bool passes(tw_arena *arena, const tw_copy_want *want, double cutter_mm)
{
    double half = tw_max(0.0, cutter_mm / 2.0 - JUST_MM);
    return tw_outline_offset(arena, want->cut, want->inside ? -half : half).count == want->cut.count;
}

static double limit_mm(const tw_copy_want *want)
{
    double limit = want->cutter_most_mm > 0.0 ? want->cutter_most_mm : INFINITY;
    return want->corner_most_mm > 0.0 ? tw_min(limit, 2.0 * want->corner_most_mm) : limit;
}

/* The largest cutter that passes and keeps the cut's own limits, for the remedy. */
static double most_mm(tw_arena *arena, const tw_copy_want *want)
{
    tw_box box = tw_outline_bounds(want->cut);
    double good = 0.0, bad = 2.0 * hypot(box.x1 - box.x0, box.y1 - box.y0);
    for (int i = 0; i < SEARCH_STEPS; i++) {
        double middle = (good + bad) / 2.0;
        *(passes(arena, want, middle) ? &good : &bad) = middle;
    }
    return tw_min(good, limit_mm(want));
}

static double left_share(tw_arena *arena, const tw_copy_want *want, double cutter_mm)
{
    double half = tw_max(0.0, cutter_mm / 2.0 - JUST_MM);
    tw_outline path = tw_outline_offset(arena, want->cut, -half);
    return 1.0 - tw_outline_area_mm2(tw_outline_offset(arena, path, half)) / tw_outline_area_mm2(want->cut);
}

/* ---- names that the job asks for ---- */

typedef struct pool { const char *const *names; int count; const char *thing; } pool;

static pool cutter_names(const tw_template_context *context)
{
    const tw_shop *shop = context->shop;
    const char **names = TW_NEW_ARRAY(context->arena, const char *, (size_t)shop->cutter_count + 1);
    for (int i = 0; i < shop->cutter_count; i++) names[i] = shop->cutters[i].name;
    return (pool){ names, shop->cutter_count, "cutter" };
}

static pool follower_names(const tw_template_context *context)
{
    const tw_shop *shop = context->shop;
    const char **names = TW_NEW_ARRAY(context->arena, const char *, (size_t)shop->follower_count + 1);
    for (int i = 0; i < shop->follower_count; i++) names[i] = shop->followers[i].name;
    return (pool){ names, shop->follower_count, "follower" };
}

/* The index of a name, or -1 with a finding that names the nearest one. */
static int named(const tw_template_context *context, int plan, pool known, const char *name)
{
    for (int i = 0; i < known.count; i++)
        if (strcmp(known.names[i], name) == 0) return i;
    tw_arena *arena = context->arena;
    const char *near = tw_nearest_word(name, known.names, (size_t)known.count), *all = "";
    for (int i = 0; i < known.count && i < 8; i++) all = tw_format(arena, "%s%s\"%s\"", all, i ? ", " : "", known.names[i]);
    tw_template_find(context, plan, TW_WRONG, known.thing[0] == 'c' ? "cutter-unknown" : "follower-unknown",
        tw_format(arena, "the shop has no %s named \"%s\"", known.thing, name),
        near ? tw_format(arena, "the nearest name is \"%s\"", near)
             : known.count ? tw_format(arena, "it has %s", all) : tw_format(arena, "the shop lists no %s at all", known.thing));
    return -1;
}

/* ---- candidates, best first ---- */

typedef struct candidate { int index; double first, second; } candidate;  // sorted by first, then second, then index

static int by_rank(const void *left, const void *right)
{
    const candidate *a = left, *b = right;
    if (a->first != b->first) return a->first < b->first ? -1 : 1;
    if (a->second != b->second) return a->second < b->second ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static void rank(candidate *candidates, int count)
{
    if (count > 1) qsort(candidates, (size_t)count, sizeof *candidates, by_rank);
}

/* Straight for upright walls, the wanted angle for slanting ones. */
static bool slants_as_wanted(const tw_copy_want *want, const tw_cutter *cutter)
{
    return fabs(cutter->dovetail.value - want->dovetail_rad) <= SAME_RAD;
}

/* What can be seen without geometry: the cut's own limits, length, end. A dovetail cutter comes in from an edge. */
static bool may_serve(const tw_copy_want *want, const tw_cutter *cutter)
{
    if (!slants_as_wanted(want, cutter)) return false;
    if (cutter->d_mm > limit_mm(want) + JUST_MM || (want->inside && want->dovetail_rad == 0.0 && !cutter->plunges.value)) return false;
    return cutter->cutting_length.value <= 0.0 || cutter->cutting_length.value >= want->depth_mm - JUST_MM;
}

/* Largest first. */
static int rank_cutters(const tw_template_context *context, const tw_copy_want *want, candidate *candidates)
{
    int count = 0;
    for (int i = 0; i < context->shop->cutter_count; i++)
        if (may_serve(want, &context->shop->cutters[i])) candidates[count++] = (candidate){ i, -context->shop->cutters[i].d_mm, 0.0 };
    rank(candidates, count);
    return count;
}

static double ratio_of(const tw_template_context *context) { return context->shop->machine.ratio.value; }

static int rank_followers(const tw_template_context *context, double cutter_mm, candidate *candidates)
{
    int count = context->shop->follower_count;
    for (int i = 0; i < count; i++) {
        double b = context->shop->followers[i].b_mm, off = b - ratio_of(context) * cutter_mm;
        if (fabs(off) <= PAIR_MM) candidates[i] = (candidate){ i, 0.0, fabs(off) };
        else if (off < 0.0) candidates[i] = (candidate){ i, 1.0, -b };
        else candidates[i] = (candidate){ i, 2.0, b };
    }
    rank(candidates, count);
    return count;
}

/* ---- refusals and cares ---- */

static const char *where(const tw_template_context *context, int plan, int work) { return tw_template_work(context, plan, work)->name; }

static const char *kind_words(const tw_template_context *context, const tw_copy_want *want)
{
    return want->dovetail_rad > 0.0 ? tw_format(context->arena, "a dovetail cutter of %s and", tw_angle_text(context->arena, want->dovetail_rad)) : "one";
}

/* A named cutter whose sides do not stand as the walls do. */
static bool refuse_slant(const tw_template_context *context, int plan, int work, int cutter)
{
    const tw_copy_want *want = &tw_template_work(context, plan, work)->copy;
    const tw_cutter *asked = &context->shop->cutters[cutter];
    if (slants_as_wanted(want, asked)) return false;
    const char *angle = tw_angle_text(context->arena, want->dovetail_rad);
    tw_template_find(context, plan, TW_HALT, "cutter-slants",
        want->dovetail_rad > 0.0 ? tw_format(context->arena, "the cut \"%s\" has walls that slant by %s, and cutter \"%s\" does not cut them", where(context, plan, work), angle, asked->name)
                                 : tw_format(context->arena, "cutter \"%s\" is a dovetail cutter, and the cut \"%s\" has upright walls", asked->name, where(context, plan, work)),
        want->dovetail_rad > 0.0 ? tw_format(context->arena, "a dovetail cutter of %s", angle) : "a straight cutter");
    return true;
}

/* No cutter of the shop is even worth a try. */
static void refuse_all_cutters(const tw_template_context *context, int plan, int work)
{
    const tw_work *w = tw_template_work(context, plan, work);
    const tw_copy_want *want = &w->copy;
    double most = most_mm(context->arena, want);
    double longest = 0.0;  // of those that are small enough
    for (int i = 0; i < context->shop->cutter_count; i++)
        if (slants_as_wanted(want, &context->shop->cutters[i]) && context->shop->cutters[i].d_mm <= most + JUST_MM) longest = tw_max(longest, context->shop->cutters[i].cutting_length.value);
    const char *what = tw_format(context->arena, "no cutter of the shop makes the cut \"%s\": it wants %s of at most %s that cuts %s deep%s", where(context, plan, work),
                                 kind_words(context, want), say(context, most), say(context, want->depth_mm), want->inside && want->dovetail_rad == 0.0 ? " and at its end" : "");
    const char *remedy = longest > 0.0 && longest < want->depth_mm - JUST_MM
        ? tw_format(context->arena, "the longest that is small enough cuts %s deep: a longer one, a cut from both faces, or a shallower one", say(context, longest))
        : tw_format(context->arena, "a cutter of at most %s, or a wider cut", say(context, most));
    tw_template_find(context, plan, TW_HALT, "cutter-none", what, remedy);
}

/* Every pair failed: the first one's reason, and the sizes that would do. */
static void refuse_all_pairs(const tw_template_context *context, int plan, int work, const tw_choice_made *tried)
{
    tw_arena *arena = context->arena;
    const tw_copy *copy = &tried->copy;
    const char *why = copy->ok ? "the path that its template gives is farther off the wanted one than a template may be" : copy->why;
    const char *remedy = copy->ok ? "a smaller follower, a larger cutter, or a simpler outline" : copy->remedy;
    if (copy->cutter_most_mm > 0.0)
        remedy = tw_format(arena, "the largest cutter that would do is %s, with a follower of at most %g times that", say(context, copy->cutter_most_mm), tried->ask.ratio);
    else if (copy->follower_most_mm > 0.0)
        remedy = tw_format(arena, "the largest follower that would do is under %s; or take a larger cutter", say(context, copy->follower_most_mm));
    tw_template_find(context, plan, TW_HALT, "template-none",
        tw_format(arena, "no template can be made for the cut \"%s\" with cutter \"%s\" and follower \"%s\": %s", where(context, plan, work),
                  context->shop->cutters[tried->cutter].name, context->shop->followers[tried->follower].name, why), remedy);
}

static void say_lost_wood(const tw_template_context *context, int plan, int work, const tw_choice_made *made)
{
    if (made->copy.lost_area_mm2 < LOST_LEAST_MM2 || made->copy.lost_radius_mm * 2.0 * made->ask.ratio <= PAIR_MM) return;
    tw_template_find(context, plan, TW_CARE, "corners-lost",
        tw_format(context->arena, "the cut \"%s\" comes out with outward corners rounded to a radius of %s: follower \"%s\" is larger than the ratio times the cutter",
                  where(context, plan, work), say(context, made->copy.lost_radius_mm), context->shop->followers[made->follower].name),
        tw_format(context->arena, "a follower of at most %s loses nothing", say(context, made->ask.ratio * made->ask.cutter_mm)));
}

/* A cutter that the job names is used as asked; what the rules would have said is a care. */
static void say_of_named_cutter(const tw_template_context *context, int plan, int work, const tw_choice_made *made)
{
    const tw_copy_want *want = &tw_template_work(context, plan, work)->copy;
    const tw_cutter *cutter = &context->shop->cutters[made->cutter];
    tw_arena *arena = context->arena;
    if (want->inside && want->dovetail_rad == 0.0 && !cutter->plunges.value)
        tw_template_find(context, plan, TW_CARE, "cutter-plunge",
            tw_format(arena, "cutter \"%s\" does not cut at its end, and the cut \"%s\" is plunged", cutter->name, where(context, plan, work)),
            "bore a hole for it to enter, come in from where the cut runs off the wood, or name one that plunges");
    if (!passes(arena, want, cutter->d_mm))
        tw_template_find(context, plan, TW_CARE, "cutter-neck",
            tw_format(arena, "cutter \"%s\" does not pass every neck of the cut \"%s\"", cutter->name, where(context, plan, work)),
            tw_format(arena, "a cutter of at most %s", say(context, most_mm(arena, want))));
    if (want->corner_most_mm > 0.0 && cutter->d_mm / 2.0 > want->corner_most_mm + JUST_MM)
        tw_template_find(context, plan, TW_CARE, "cutter-corner",
            tw_format(arena, "cutter \"%s\" leaves corners of radius %s in the cut \"%s\", and %s may stay", cutter->name, say(context, cutter->d_mm / 2.0),
                      where(context, plan, work), say(context, want->corner_most_mm)),
            "chisel the corners, or name a smaller cutter");
}

/* ---- the choice ---- */

static tw_choice_made try_pair(const tw_template_context *context, const tw_copy_want *want, int cutter, int follower)
{
    tw_choice_made made = { .cutter = cutter, .follower = follower,
        .ask = { .cut = want->cut, .inside = want->inside, .cutter_mm = context->shop->cutters[cutter].d_mm,
                 .follower_mm = context->shop->followers[follower].b_mm, .ratio = ratio_of(context),
                 .play_mm = context->shop->machine.play.value, .figures = &context->job->figures } };
    made.copy = tw_copy_reckon(context->arena, made.ask);
    made.ok = made.copy.ok && made.copy.error_mm <= TW_COPY_TRUE_MM;
    return made;
}

/* One cutter with the followers in their order; follower >= 0: with that alone. */
static tw_choice_made try_cutter(const tw_template_context *context, const tw_copy_want *want, int cutter, int follower)
{
    if (follower >= 0) return try_pair(context, want, cutter, follower);
    candidate *followers = TW_NEW_ARRAY(context->arena, candidate, (size_t)context->shop->follower_count + 1);
    int count = rank_followers(context, context->shop->cutters[cutter].d_mm, followers);
    tw_choice_made first = { .cutter = -1 };
    for (int f = 0; f < count; f++) {
        tw_choice_made made = try_pair(context, want, cutter, followers[f].index);
        if (made.ok) return made;
        if (f == 0) first = made;
    }
    return first;
}

/* The largest cutter first; those that leave too much in the corners last, the smallest of them first. cutter < 0 in the
 * result: not one gets into the cut. */
static tw_choice_made try_cutters(const tw_template_context *context, const tw_copy_want *want, int follower)
{
    candidate *cutters = TW_NEW_ARRAY(context->arena, candidate, (size_t)context->shop->cutter_count + 1);
    int count = rank_cutters(context, want, cutters), put_back = 0;
    tw_choice_made first = { .cutter = -1 };
    for (int i = 0; i < count; i++) {
        double d = context->shop->cutters[cutters[i].index].d_mm;
        if (!passes(context->arena, want, d)) continue;
        if (want->inside && left_share(context->arena, want, d) > LEFT_MOST_SHARE) {
            cutters[put_back++] = cutters[i];
            continue;
        }
        tw_choice_made made = try_cutter(context, want, cutters[i].index, follower);
        if (made.ok) return made;
        if (first.cutter < 0) first = made;
    }
    while (put_back > 0) {
        tw_choice_made made = try_cutter(context, want, cutters[--put_back].index, follower);
        if (made.ok) return made;
        if (first.cutter < 0) first = made;
    }
    return first;
}

tw_choice_made tw_template_choose(const tw_template_context *context, int plan, int work)
{
    const tw_copy_want *want = &tw_template_work(context, plan, work)->copy;
    tw_choice_made none = { .cutter = -1, .follower = -1 };
    int cutter = want->cutter ? named(context, plan, cutter_names(context), want->cutter) : -1;
    int follower = want->follower ? named(context, plan, follower_names(context), want->follower) : -1;
    if ((want->follower && follower < 0) || (want->cutter && cutter < 0)) return none;
    if (cutter >= 0 && refuse_slant(context, plan, work, cutter)) return none;
    if (context->shop->follower_count == 0) {
        tw_template_find(context, plan, TW_HALT, "follower-none", "the shop lists no follower", "a follower in the shop's file");
        return none;
    }
    tw_choice_made made = cutter >= 0 ? try_cutter(context, want, cutter, follower) : try_cutters(context, want, follower);
    if (made.cutter < 0) refuse_all_cutters(context, plan, work);
    else if (!made.ok) refuse_all_pairs(context, plan, work, &made);
    else {
        say_lost_wood(context, plan, work, &made);
        if (cutter >= 0) say_of_named_cutter(context, plan, work, &made);
    }
    return made;
}

tw_tool_pair *tw_template_pairs(tw_arena *arena, const tw_shop *shop, int *count)
{
    tw_tool_pair *pairs = TW_NEW_ARRAY(arena, tw_tool_pair, (size_t)shop->cutter_count * (size_t)shop->follower_count + 1);
    *count = 0;
    for (int c = 0; c < shop->cutter_count; c++)
        for (int f = 0; f < shop->follower_count; f++) {
            if (!tw_cutter_is_straight(&shop->cutters[c])) continue;
            double off = shop->followers[f].b_mm - shop->machine.ratio.value * shop->cutters[c].d_mm;
            if (fabs(off) <= PAIR_MM + 1e-9) pairs[(*count)++] = (tw_tool_pair){ c, f, off };
        }
    return pairs;
}
