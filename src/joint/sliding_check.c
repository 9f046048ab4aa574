// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: the checks. Limits are common practice, from memory, unless a comment names something better. A halt
 * stands where the joint cannot be cut or put together, or would break in the making; a care where makers think twice. */
#include "joint/fix.h"
#include "joint/sliding.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"
#include "piece/pose.h"

#define HAIR_MM 1e-6             // sums of amounts as written come out this near
#define LEFT_LEAST_MM 3.0        // wood under a housing
#define DEPTH_LEAST_MM 3.0       // shallower, the slant hardly holds
#define ANGLE_LEAST_DEG 6.5      // flatter than 1:8 by a little, it hardly holds
#define ANGLE_MOST_DEG 15.0      // steeper, the tips of the tongue are short grain
#define NECK_LEAST_MM 3.0        // thinner, it snaps while it is driven
#define HOLDS_LEAST_MM 0.5       // how much wider than its neck each cheek's tip is, at least
#define RELISH_LEAST_MM 3.0
#define CLEARANCE_LEAST_MM 0.03
#define CLEARANCE_MOST_MM 0.3
#define SHOWS_MM 0.5             // an empty end of a housing that is longer shows
#define BODY_LEAST_MM 10.0
#define STANDS_MOST_MM 900.0     // a longer piece stands unsteadily on its end at a router table

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_sliding *s; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say_fine(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void find_at(const checker *c, tw_level level, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(c->context->findings, level, place, code, c->plan->joint->name, what, remedy);
}

/* ---- what the job says ---- */

static void check_said(const checker *c)
{
    const tw_sliding *s = c->s;
    const tw_sliding_spec *spec = s->spec;
    tw_arena *arena = c->context->arena;
    bool stopped = s->low_stopped || s->high_stopped;
    if (spec->stop.value != 0 && !stopped) {
        find_at(c, TW_HALT, spec->stop.place, "stop-side", tw_format(arena, "the housing in the %s runs from the %s to the %s: it has no end at the %s", tw_face_words[s->from],
                tw_face_words[s->low], tw_face_words[s->high], tw_face_words[spec->stop.value - 1]), tw_format(arena, "`stop: %s` or `stop: %s`", tw_face_words[s->low], tw_face_words[s->high]));
        tw_plan_fix_word(c->context, c->plan, "stop", tw_face_words[s->low],
            tw_format(arena, "Stop it at the %s", tw_face_words[s->low]));
        tw_plan_fix_word(c->context, c->plan, "stop", tw_face_words[s->high],
            tw_format(arena, "Stop it at the %s", tw_face_words[s->high]));
        tw_plan_fix_leave(c->context, c->plan, "stop");
    }
    if (spec->stop_short.given && !stopped)
        find(c, TW_CARE, &spec->stop_short, "key-idle", "`stop short` is given, but it has no meaning for a housing that runs through", "leave `stop short` out, or say where it stops: `stop`");
    if (spec->stopped_end.given && !stopped) {
        find_at(c, TW_CARE, spec->stopped_end.place, "key-idle", "`stopped end` is given, but it has no meaning for a housing that runs through", "leave `stopped end` out");
        tw_plan_fix_leave(c->context, c->plan, "stopped end");
    }
}

static void check_count(const checker *c)
{
    const tw_sliding *s = c->s;
    int places = s->into_pieces * s->spec->at.count;
    if (s->joints == places) return;
    find(c, TW_HALT, NULL, "counts-differ", tw_format(c->context->arena, "the count of ends is %d (%d x %s, %d each), of housings %d (%d x %s, %d each)", s->joints, s->housed_pieces, s->housed->name,
         s->ends, places, s->into_pieces, s->into->name, s->spec->at.count), "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(c->context, s->spec->housed.index, s->ends, s->spec->into.index, s->spec->at.count);
}

/* Both ends of one piece in two alike pieces, one of them turned end for end: then a cheek that is dovetailed alone would
 * lie at the wrong side. */
static void check_hands(const checker *c)
{
    const tw_sliding *s = c->s;
    if (s->ends < 2 || !s->handed) return;
    tw_arena *arena = c->context->arena;
    if (s->cheeks == 2 && tw_sliding_places_symmetric(s)) {
        find(c, TW_NOTE, NULL, "one-is-turned", tw_format(arena, "at the right end of %s stands %s turned end for end, so that its housing opens to the same side", s->housed->name, s->into->name),
             "two pieces, left and right, if its ends are not alike otherwise");
        return;
    }
    tw_place place = s->low_stopped != s->high_stopped ? s->spec->stop.place : s->spec->across.given ? s->spec->across.place : c->plan->joint->place;
    find_at(c, TW_HALT, place, "hands-differ",
            tw_format(arena, "the housings at the two ends of %s are mirror images, and %s cannot be both: %s", s->housed->name, s->into->name,
                      s->cheeks == 1 ? "turned end for end, its one slanting wall would lie at the wrong side" : "its places do not lie alike from both ends"),
            "two pieces and two joints: `ends: left` into the one, `ends: right` into the other, with `stop` or `across` from the other side");
}

/* ---- the section ---- */

static void check_depth(const checker *c)
{
    const tw_sliding *s = c->s;
    const tw_amount *at = &s->spec->depth;
    tw_arena *arena = c->context->arena;
    double left = s->d - s->depth;
    const char *remedy = tw_format(arena, "a third to a half of its thickness: %s", say(c, tw_rounded_down(c->context, s->d / 3.0)));
    if (left <= HAIR_MM) {
        find(c, TW_HALT, at, "housing-deep", tw_format(arena, "a housing %s deep cuts %s in two: it is %s thick there", say(c, s->depth), s->into->name, say(c, s->d)), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housing", tw_rounded_down(c->context, s->d / 3.0), "deep", TW_ROUND_DOWN);
    } else if (left < LEFT_LEAST_MM - HAIR_MM || s->depth > 2.0 / 3.0 * s->d + HAIR_MM) {
        find(c, TW_HALT, at, "housing-deep", tw_format(arena, "a housing %s deep leaves only %s of %s: it breaks there", say(c, s->depth), say(c, left), s->into->name), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housing", tw_rounded_down(c->context, s->d / 3.0), "deep", TW_ROUND_DOWN);
    } else if (s->depth > s->d / 2.0 + HAIR_MM) {
        find(c, TW_CARE, at, "housing-deep", tw_format(arena, "a housing %s deep is more than half of the %s of %s", say(c, s->depth), say(c, s->d), s->into->name), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housing", tw_rounded_down(c->context, s->d / 3.0), "deep", TW_ROUND_DOWN);
    } else if (s->depth < DEPTH_LEAST_MM - HAIR_MM) {
        find(c, s->depth < 0.2 ? TW_HALT : TW_CARE, at, "housing-shallow", tw_format(arena, "a dovetail only %s deep hardly holds", say(c, s->depth)), s->d >= 3.0 * DEPTH_LEAST_MM ? remedy : "a thicker piece");
        tw_plan_fix(c->context, c->plan, at, "Make the housing", tw_max(s->d / 3.0, DEPTH_LEAST_MM), "deep", TW_ROUND_UP);
        tw_piece_fix_depth(c->context, s->spec->into.index, s->from, 3.0 * DEPTH_LEAST_MM, TW_ROUND_UP);
    }
    if (s->l <= 0.1) {
        find(c, TW_HALT, &s->spec->bottom_room, "room-large", tw_format(arena, "room of %s below the tongue leaves nothing of a housing %s deep", say(c, s->room), say(c, s->depth)), "0.2 mm (0.008 in)");
        tw_plan_fix(c->context, c->plan, &s->spec->bottom_room, "Leave", 0.2, "of room below the tongue", TW_ROUND_NEAREST);
    } else if (s->room > s->depth / 4.0) {
        find(c, TW_CARE, &s->spec->bottom_room, "room-large", tw_format(arena, "room of %s below the tongue takes much of a housing %s deep", say(c, s->room), say(c, s->depth)), "0.2 mm (0.008 in)");
        tw_plan_fix(c->context, c->plan, &s->spec->bottom_room, "Leave", 0.2, "of room below the tongue", TW_ROUND_NEAREST);
    }
}

static void check_angle(const checker *c)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    if (s->angle <= 0.01) return;  // a straight cutter: refused as such
    const tw_amount *at = s->spec->angle.given ? &s->spec->angle : NULL;
    const char *angle = tw_angle_text(arena, s->angle);
    double wider = s->l * tan(s->angle);
    if (s->angle < tw_radians(ANGLE_LEAST_DEG)) {
        find(c, TW_CARE, at, "angle-flat", tw_format(arena, "a dovetail of %s hardly holds", angle), "7 to 14 degrees");
        tw_plan_fix(c->context, c->plan, &s->spec->angle, "Lean the dovetail by", tw_radians(ANGLE_MOST_DEG), "", TW_ROUND_DOWN);
    } else if (s->angle > tw_radians(ANGLE_MOST_DEG)) {
        find(c, TW_CARE, at, "angle-steep", tw_format(arena, "at %s the tips of the tongue are short grain and break off", angle), "7 to 14 degrees");
        tw_plan_fix(c->context, c->plan, &s->spec->angle, "Lean the dovetail by", tw_radians(ANGLE_MOST_DEG), "", TW_ROUND_DOWN);
    }
    if (s->l > 0.1 && wider < HOLDS_LEAST_MM - HAIR_MM) {
        find(c, TW_CARE, at, "holds-little", tw_format(arena, "each cheek of the tongue is only %s wider at its end than at its neck: it may be pulled out", say(c, wider)), "a deeper housing, or a steeper dovetail up to 14 degrees");
        tw_plan_fix(c->context, c->plan, &s->spec->depth, "Make the housing", HOLDS_LEAST_MM / tan(s->angle) + s->room, "deep",
            TW_ROUND_UP);
    }
}

static void check_neck(const checker *c)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = s->spec->neck.given ? &s->spec->neck : NULL;
    double wider = s->tip - s->neck;
    const char *remedy = tw_format(arena, "between a third of its thickness and %s", say(c, tw_max(0.0, s->t - wider)));
    if (s->neck < NECK_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "neck-thin", tw_format(arena, "a neck of %s snaps when the tongue is driven", say(c, s->neck)), s->t / 3.0 > NECK_LEAST_MM ? remedy : "a thicker piece");
        tw_plan_fix(c->context, c->plan, &s->spec->neck, "Make the neck", tw_max(NECK_LEAST_MM, s->t / 2.0), "thick",
            TW_ROUND_NEAREST);
        tw_plan_fix(c->context, c->plan, &s->spec->depth, "Make the housing", s->d / 3.0, "deep", TW_ROUND_DOWN);
    } else if (s->neck < s->t / 3.0 - HAIR_MM) {
        find(c, TW_CARE, at, "neck-thin", tw_format(arena, "a neck of %s is less than a third of the %s of %s", say(c, s->neck), say(c, s->t), s->housed->name), remedy);
        tw_plan_fix(c->context, c->plan, &s->spec->neck, "Make the neck", tw_max(NECK_LEAST_MM, s->t / 2.0), "thick",
            TW_ROUND_NEAREST);
        tw_plan_fix(c->context, c->plan, &s->spec->depth, "Make the housing", s->d / 3.0, "deep", TW_ROUND_DOWN);
    }
    if (s->neck >= s->t - HAIR_MM) {
        find(c, TW_HALT, at, "tongue-wide", tw_format(arena, "a neck of %s leaves no shoulder on %s, which is %s thick", say(c, s->neck), s->housed->name, say(c, s->t)), remedy);
        tw_plan_fix(c->context, c->plan, &s->spec->neck, "Make the neck", s->t - wider, "thick", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &s->spec->neck, "Make the neck", s->t / 2.0, "thick", TW_ROUND_DOWN);
    } else if (s->tip > s->t + HAIR_MM) {
        find(c, TW_HALT, at, "tongue-wide", tw_format(arena, "the tongue would be %s wide at its end, and %s is only %s thick", say(c, s->tip), s->housed->name, say(c, s->t)), remedy);
        tw_plan_fix(c->context, c->plan, &s->spec->neck, "Make the neck", s->t - wider, "thick", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &s->spec->neck, "Make the neck", s->t / 2.0, "thick", TW_ROUND_DOWN);
    }
}

static void check_clearance(const checker *c)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    const char *remedy = "0.1 mm (0.004 in)";
    if (s->c < CLEARANCE_LEAST_MM - HAIR_MM)
        find(c, TW_CARE, &s->spec->clearance, "clearance-small", tw_format(arena, "a clearance of %s is less than wood holds: the tongue sticks before it is home", say(c, s->c)), remedy);
    else if (s->c > CLEARANCE_MOST_MM + HAIR_MM)
        find(c, TW_CARE, &s->spec->clearance, "clearance-large", tw_format(arena, "a clearance of %s lets the shoulder open by %s", say(c, s->c), say(c, s->c / (s->cheeks * tan(tw_max(0.01, s->angle))))), remedy);
    if (s->cheeks * s->l * tan(s->angle) <= s->c && s->l > 0.1 && s->angle > 0.01)
        find(c, TW_HALT, &s->spec->clearance, "clearance-lets-go", tw_format(arena, "with a clearance of %s the tongue, only %s wider at its end than at its neck, comes straight out", say(c, s->c), say(c, s->tip - s->neck)), remedy);
}

static void check_body(const checker *c)
{
    const tw_sliding *s = c->s;
    if (s->body >= BODY_LEAST_MM) return;
    find(c, TW_HALT, NULL, "body-short", tw_format(c->context->arena, "of %s, %s long, only %s is left between its shoulders: tongues count in its length", s->housed->name,
         say(c, s->a.length_mm), say(c, tw_max(0.0, s->body))), "a longer piece");
    tw_piece_fix_size(c->context, s->spec->housed.index, "length", s->a.length_mm + BODY_LEAST_MM - s->body, TW_ROUND_UP);
}

static void check_on_end(const checker *c)
{
    const tw_sliding *s = c->s;
    if (s->tongue_way != TW_TONGUE_TABLE || s->a.length_mm <= STANDS_MOST_MM + HAIR_MM) return;
    find_at(c, TW_CARE, s->spec->tongue_by.given ? s->spec->tongue_by.place : c->plan->joint->place, "piece-tall",
            tw_format(c->context->arena, "%s is %s long and would stand on its end at the router table: it tips easily there", s->housed->name, say(c, s->a.length_mm)),
            "`tongue by: copy` or `tongue by: saw`; or a fence and a block as high as half of it");
    tw_plan_fix_word(c->context, c->plan, "tongue by", "saw", "Saw the tongues by hand");
    tw_plan_fix_word(c->context, c->plan, "tongue by", "copy", "Copy the tongues");
}

/* ---- across the piece ---- */

static void check_stop(const checker *c)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    if (!s->low_stopped && !s->high_stopped) return;
    double length = s->v1 - s->v0;
    const tw_amount *at = &s->spec->stop_short;
    if (length <= tw_max(0.1, 2.0 * s->radius + 0.1)) {
        find(c, TW_HALT, at, "stop-long", tw_format(arena, "the stop leaves a housing %s long across the %s of %s", say(c, tw_max(0.0, length)), say(c, s->e), s->into->name), "12 mm (1/2 in), or a wider piece");
        tw_plan_fix(c->context, c->plan, at, "Stop it", tw_customary(c->context, 12.0, 0.5), "short", TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "stop");
        return;
    }
    double held = s->wide - s->notch_low - s->notch_high;
    if (held <= 0.1 || held < s->wide / 4.0) {
        find(c, TW_HALT, at, "notch-long", tw_format(arena, "cut back at the stop, the tongue is %s long, of the %s of %s", say(c, tw_max(0.0, held)), say(c, s->wide), s->housed->name), "a shorter stop, or a wider piece");
        tw_plan_fix(c->context, c->plan, at, "Stop it", tw_customary(c->context, 12.0, 0.5), "short", TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "stop");
    } else if (held < s->wide / 2.0) {
        find(c, TW_CARE, at, "notch-long", tw_format(arena, "cut back at the stop, the tongue is only %s long, of the %s of %s", say(c, held), say(c, s->wide), s->housed->name), "a shorter stop");
        tw_plan_fix(c->context, c->plan, at, "Stop it", tw_customary(c->context, 12.0, 0.5), "short", TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "stop");
    }
}

static void check_one_side(const checker *c, bool low)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    tw_face side = low ? s->low : s->high;
    double edge = low ? s->across - s->wide / 2.0 : s->e - s->across - s->wide / 2.0;  // of the housed piece, in from that side
    bool stopped = low ? s->low_stopped : s->high_stopped;
    double starts = !stopped ? 0.0 : low ? s->v0 : s->e - s->v1, empty = edge - starts - (stopped ? s->radius : 0.0);
    if (edge < -SHOWS_MM) {
        find(c, TW_CARE, s->spec->across.given ? &s->spec->across : NULL, "housed-overhangs", tw_format(arena, "%s stands %s over the %s of %s", s->housed->name, say(c, -edge), tw_face_words[side], s->into->name),
             "another `across`, or a narrower piece, unless it is meant");
        tw_plan_fix(c->context, c->plan, &s->spec->across, "Put its middle at", s->e / 2.0, "across", TW_ROUND_NEAREST);
        tw_piece_fix_size(c->context, s->spec->housed.index, "width", 2.0 * tw_min(s->across, s->e - s->across), TW_ROUND_DOWN);
    }
    if (empty > SHOWS_MM) {
        find(c, TW_CARE, stopped && s->spec->stop_short.given ? &s->spec->stop_short : NULL, "housing-shows",
             tw_format(arena, "%s ends %s in from the %s of %s: the housing stays open there", s->housed->name, say(c, edge), tw_face_words[side], s->into->name),
             stopped ? tw_format(arena, "stop it %s short", say(c, edge)) : "a wider piece, or `stop` on this side; the tongue must come in from one side, and there the housing shows");
        if (stopped) tw_plan_fix(c->context, c->plan, &s->spec->stop_short, "Stop it", edge, "short", TW_ROUND_NEAREST);
    }
}

static void check_across(const checker *c)
{
    const tw_sliding *s = c->s;
    if (s->across + s->wide / 2.0 - s->notch_high <= s->v0 || s->across - s->wide / 2.0 + s->notch_low >= s->v1 || s->across > s->e + s->wide) {
        find(c, TW_HALT, &s->spec->across, "housed-off-piece", tw_format(c->context->arena, "%s does not lie over the housing: its middle is %s across, the piece %s", s->housed->name, say(c, s->across), say(c, s->e)),
             tw_format(c->context->arena, "the middle: %s", say(c, s->e / 2.0)));
        tw_plan_fix(c->context, c->plan, &s->spec->across, "Put its middle at", s->e / 2.0, "across", TW_ROUND_NEAREST);
        return;
    }
    check_one_side(c, true);
    check_one_side(c, false);
}

/* ---- along the piece ---- */

/* How far the housing reaches, at its bottom, from its place on either side. */
static double reach_mm(const tw_sliding *s, bool to_right)
{
    bool plus = (tw_sliding_face_way(s, false) > 0) == to_right;
    return (plus ? s->q1 + s->lean1 * s->depth : s->lean0 * s->depth - s->q0) + s->c / 2.0;
}

static void check_place(const checker *c, const tw_amount *at)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    double left = at->value - reach_mm(s, false), right = s->b.length_mm - at->value - reach_mm(s, true), relish = tw_min(left, right), good = tw_max(s->g, 2.0 * s->depth);
    const char *remedy = tw_format(arena, "between %s and %s", say(c, good + reach_mm(s, false)), say(c, s->b.length_mm - good - reach_mm(s, true)));
    if (relish < -HAIR_MM) {
        find(c, TW_HALT, at, "housing-off-piece", tw_format(arena, "the housing at %s runs %s past the end of %s", say(c, at->value), say(c, -relish), s->into->name), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + tw_max(reach_mm(s, false), reach_mm(s, true)), s->spec->into.index);
    } else if (relish < RELISH_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "relish-short", tw_format(arena, "only %s of %s is left between the housing at %s and its end: it breaks out", say(c, relish), s->into->name, say(c, at->value)), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + tw_max(reach_mm(s, false), reach_mm(s, true)), s->spec->into.index);
    } else if (relish < good - HAIR_MM) {
        find(c, TW_CARE, at, "relish-short", tw_format(arena, "%s of %s is left between the housing at %s and its end: short grain that the dovetail may split off", say(c, relish), s->into->name, say(c, at->value)),
             tw_format(arena, "%s; or leave the piece over length until the joint is made", remedy));
        tw_plan_fix_place(c->context, c->plan, at, good + tw_max(reach_mm(s, false), reach_mm(s, true)), s->spec->into.index);
    }
}

/* Two housings of this joint side by side. Housings of other joints are seen where all cuts are compared. */
static void check_neighbours(const checker *c)
{
    const tw_sliding *s = c->s;
    const tw_amounts *at = &s->spec->at;
    for (int i = 0; i < at->count; i++)
        for (int k = 0; k < i; k++) {
            double wood = fabs(at->items[i].value - at->items[k].value) - reach_mm(s, true) - reach_mm(s, false);
            if (wood >= tw_max(RELISH_LEAST_MM, s->depth) - HAIR_MM) continue;
            find(c, wood < RELISH_LEAST_MM - HAIR_MM ? TW_HALT : TW_CARE, &at->items[i], "housings-meet",
                 wood < HAIR_MM ? tw_format(c->context->arena, "in %s the housing at %s runs into the one at %s", s->into->name, say(c, at->items[i].value), say(c, at->items[k].value))
                                : tw_format(c->context->arena, "in %s only %s of wood stands between the housings at %s and %s, at their bottoms", s->into->name, say(c, wood), say(c, at->items[i].value), say(c, at->items[k].value)),
                 "places farther apart");
            tw_plan_fix_apart(c->context, c->plan, &at->items[i], at->items[k].value,
                tw_max(RELISH_LEAST_MM, s->depth) + reach_mm(s, true) + reach_mm(s, false), s->b.length_mm);
        }
}

static void check_ends(const checker *c)
{
    const tw_sliding *s = c->s;
    void **kept = &c->context->kept[c->plan->joint->kind];
    if (!*kept) *kept = TW_NEW_ARRAY(c->context->arena, const char *, 2 * (size_t)c->context->job->piece_count);
    const char **joints = (const char **)*kept + 2 * s->spec->housed.index;
    for (int end = 0; end < 2; end++) {
        if (s->spec->ends.value != TW_SLIDING_BOTH && s->spec->ends.value != end) continue;
        if (joints[end])
            find(c, TW_HALT, NULL, "end-taken", tw_format(c->context->arena, "the %s end of %s already carries the tongue of %s", end == 0 ? "left" : "right", s->housed->name, joints[end]),
                 "another end, or another piece");
        joints[end] = c->plan->joint->name;
    }
}

/* ---- tools ---- */

static void check_named_cutter(const checker *c)
{
    const tw_sliding *s = c->s;
    const tw_sliding_spec *spec = s->spec;
    tw_arena *arena = c->context->arena;
    int index = tw_cutter_named(c->context->shop, spec->cutter.text);
    if (index < 0) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s", spec->cutter.text), "a name from the shop's list of cutters");
        return;
    }
    const tw_cutter *cutter = &c->context->shop->cutters[index];
    if (tw_cutter_is_straight(cutter))
        find_at(c, TW_HALT, spec->cutter.place, "cutter-straight", tw_format(arena, "cutter %s is straight: it cuts no dovetail", cutter->name), "a cutter for which the shop gives `dovetail`, its angle");
    else if (spec->angle.given && fabs(cutter->dovetail.value - spec->angle.value) > 1e-4)
        find_at(c, TW_HALT, spec->angle.place, "angle-not-cutters", tw_format(arena, "cutter %s cuts at %s, not at %s", cutter->name, tw_angle_text(arena, cutter->dovetail.value), tw_angle_text(arena, spec->angle.value)),
                "leave `angle` out: it is the cutter's");
}

/* Why no dovetail cutter was taken, though a router was asked for. */
static void check_no_cutter(const checker *c)
{
    const tw_sliding *s = c->s;
    const tw_sliding_spec *spec = s->spec;
    bool wanted = s->way != TW_SLIDING_SAW || s->tongue_way != TW_TONGUE_SAW;
    if (s->cutter >= 0 || spec->cutter.given || !wanted) return;
    tw_place place = spec->by.given ? spec->by.place : spec->tongue_by.given ? spec->tongue_by.place : c->plan->joint->place;
    bool sawn_housing = s->way == TW_SLIDING_SAW;
    find_at(c, TW_HALT, place, "cutter-none",
            sawn_housing ? "a tongue that is routed wants the dovetail cutter of its housing, and this housing is sawn"
                         : tw_format(c->context->arena, "the shop has no dovetail cutter%s that goes into a housing %s wide at its bottom and %s deep",
                                     spec->angle.given ? tw_format(c->context->arena, " of %s", tw_angle_text(c->context->arena, s->angle)) : "", say(c, s->w), say(c, s->depth)),
            sawn_housing ? "`tongue by: saw`, or the housing by router too" : "`by: saw`, or a smaller dovetail cutter");
}

static void check_cutter_size(const checker *c)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    if (s->cutter < 0 || s->angle <= 0.01) return;
    const tw_cutter *cutter = &c->context->shop->cutters[s->cutter];
    const tw_amount *at = s->spec->neck.given ? &s->spec->neck : NULL;
    double length = cutter->cutting_length.value;
    if (s->depth > length + HAIR_MM)
        find(c, TW_HALT, &s->spec->depth, "cutter-short", tw_format(arena, "dovetail cutter %s cuts %s deep, the housing is %s", cutter->name, say(c, length), say(c, s->depth)),
             tw_format(arena, "a depth of at most %s, or a longer cutter", say(c, length)));
    if (s->cutter_d > s->w + HAIR_MM)
        find(c, TW_HALT, at, "cutter-wide", tw_format(arena, "dovetail cutter %s is %s wide at its tip, the housing only %s at its bottom", cutter->name, say(c, s->cutter_d), say(c, s->w)),
             s->spec->neck.given ? tw_format(arena, "a neck of at least %s", say(c, s->neck + s->cutter_d - s->w)) : "a smaller dovetail cutter");
    if (s->face_d <= 1.0)
        find(c, TW_HALT, &s->spec->depth, "cutter-neck", tw_format(arena, "at a depth of %s dovetail cutter %s is only %s thick where it leaves the wood", say(c, s->depth), cutter->name, say(c, tw_max(0.0, s->face_d))), "a shallower housing, or a larger cutter");
}

static void check_clearing(const checker *c)
{
    const tw_sliding *s = c->s;
    tw_arena *arena = c->context->arena;
    if (s->cutter < 0 || s->way == TW_SLIDING_SAW || s->clear >= 0 || s->angle <= 0.01) return;
    if (s->cheeks == 1)
        find(c, TW_HALT, NULL, "cutter-none", tw_format(arena, "the upright wall wants a straight cutter of at most %s that plunges %s deep, and the shop has none", say(c, s->g), say(c, s->depth)), "such a cutter, or `by: saw`");
    else if (s->face_d > 1.0)
        find(c, TW_CARE, NULL, "no-clearing", tw_format(arena, "the shop has no straight cutter of at most %s to clear the waste: the dovetail cutter must take all of it in one pass", say(c, s->face_d)),
             "a slow, steady feed and a sharp cutter; or saw out the middle first");
}

static void check_follower(const checker *c)
{
    const tw_sliding *s = c->s;
    const tw_sliding_spec *spec = s->spec;
    tw_arena *arena = c->context->arena;
    if (s->way == TW_SLIDING_SAW || s->cutter < 0) return;
    if (spec->follower.given && s->follower < 0)
        find_at(c, TW_HALT, spec->follower.place, "follower-unknown", tw_format(arena, "the shop has no follower named %s", spec->follower.text), "a name from the shop's list of followers");
    if (s->way != TW_SLIDING_GUIDES) return;
    if (s->follower < 0 && !spec->follower.given)
        find_at(c, TW_HALT, spec->by.place, "follower-none", tw_format(arena, "the shop has no follower that a cutter of %s passes", say(c, s->cutter_d)), "a follower from the shop's list, or `by: saw`");
    else if (s->follower >= 0 && c->context->shop->followers[s->follower].b_mm <= s->cutter_d + HAIR_MM)
        find_at(c, TW_HALT, spec->follower.place, "follower-narrow", tw_format(arena, "follower %s is no wider than the dovetail cutter at its tip, which does not pass it", spec->follower.text), "a wider follower");
}

/* Whatever is too small to be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_sliding *s = c->s;
    if (tw_sliding_possible(s) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "a dovetail with a neck of %s, %s deep and %s long cannot be cut", say(c, s->neck), say(c, s->depth), say(c, s->v1 - s->v0)),
         "sizes that a cutter can make: some millimetres each way");
}

void tw_sliding_check(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s)
{
    assert(plan->joint->kind >= 0 && plan->joint->kind < TW_JOINT_KINDS_MOST);
    const checker c = { context, plan, s };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_said(&c);
    check_count(&c);
    check_hands(&c);
    if (s->spec->cutter.given) check_named_cutter(&c);
    check_no_cutter(&c);
    check_depth(&c);
    check_angle(&c);
    check_neck(&c);
    check_clearance(&c);
    check_body(&c);
    check_on_end(&c);
    check_stop(&c);
    check_across(&c);
    for (int i = 0; i < s->spec->at.count; i++) check_place(&c, &s->spec->at.items[i]);
    check_neighbours(&c);
    check_ends(&c);
    check_cutter_size(&c);
    check_clearing(&c);
    check_follower(&c);
    check_size(&c, halts_before);
}
