// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: the proportions, each with its sum and the trade's rule (common practice where no source is named).
 *
 *     housing     g = neck + c at the side,  w = g + n depth tan(angle) at its bottom, n the dovetailed cheeks       (1)
 *     tongue      tip = neck + n l tan(angle),  l = depth - room: the shoulder closes before the end touches          (2)
 *     shoulder    taken from each dovetailed cheek at the neck: (t - neck)/n                                         (3)
 *     one pass    where w is the dovetail cutter's diameter D at its tip: neck = D - 2 depth tan(angle) - c           (4)
 *     guides      gap = w - D + bush: a straight cutter no wider than D - 2 depth tan(angle) clears the waste
 *                 between the same guides, for both cutters run along the same path                                 (5)
 *     over pins   M = neck + p (1 + cot(theta/2)), theta = 90 degrees - angle: two pins of diameter p, each against shoulder
 *                 and cheek. From the pin's centre, p/2 above the shoulder, the bisector of theta runs to the corner;
 *                 so the centre lies p/2 cot(theta/2) from it, and its far side p/2 farther                         (6)
 *
 * (6) is the rule by which machinists measure dovetails (from memory); here it follows from the figure alone. */
#include "joint/sliding_parts.h"

#include <math.h>

#include "joint/trench.h"
#include "joint/words.h"
#include "mech/mech.h"

#define SAME_MM 1e-6
#define SAME_RAD 1e-4
#define NECK_LEAST_SHARE (1.0 / 3.0)  // of the piece's thickness: common practice
#define NECK_GOOD_SHARE 0.5
#define SHOULDER_AT_TIP_MM 0.5        // left beside the tongue's end, each side, where sizes are proposed
#define NOTCH_ROOM_MM 1.0             // a notch is so much longer than what it goes over: common practice

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }

double tw_sliding_over_pins_mm(double neck_mm, double pin_mm, double angle_rad, int cheeks)
{
    double half_theta = (TW_PI / 2.0 - angle_rad) / 2.0;
    return neck_mm + cheeks * pin_mm / 2.0 * (1.0 + 1.0 / tan(half_theta));  // (6)
}

/* ---- cutter, angle, depth, neck ---- */

/* What one cutter would make of the joint. */
typedef struct trial { int cutter; double angle, depth, neck, score; bool ok, one_pass; } trial;

static double depth_wanted(const tw_joint_context *context, const tw_sliding *s)
{
    return s->spec->depth.given ? s->spec->depth.value : tw_rounded_down(context, s->d / 3.0);
}

static double neck_bare_cheek(const tw_joint_context *context, const tw_sliding *s, double depth, double angle)
{
    double neck = s->t - (depth - s->room) * tan(angle) - tw_customary(context, 1.0, 1.0 / 32.0);
    return tw_max(neck, s->t / 4.0);
}

static bool tip_fits(const tw_sliding *s, const trial *one, double spare)
{
    return one->neck + s->cheeks * (one->depth - s->room) * tan(one->angle) <= s->t - s->cheeks * spare + SAME_MM;
}

static trial trial_of(const tw_joint_context *context, const tw_sliding *s, int index)
{
    const tw_cutter *cutter = &context->shop->cutters[index];
    trial one = { .cutter = index, .angle = cutter->dovetail.value, .depth = depth_wanted(context, s) };
    if (!s->spec->depth.given) one.depth = tw_min(one.depth, tw_rounded_down(context, cutter->cutting_length.value));
    double slant = one.depth * tan(one.angle), pass = cutter->d_mm - 2.0 * slant - s->c;  // (4)
    if (s->spec->neck.given) one.neck = s->spec->neck.value;
    else if (s->cheeks == 1) one.neck = neck_bare_cheek(context, s, one.depth, one.angle);
    else {
        one.neck = pass;
        if (pass < NECK_LEAST_SHARE * s->t - SAME_MM || !tip_fits(s, &one, SHOULDER_AT_TIP_MM)) one.neck = tw_rounded_down(context, NECK_GOOD_SHARE * s->t);
    }
    one.one_pass = s->cheeks == 2 && fabs(one.neck - pass) < SAME_MM;
    bool goes_in = cutter->d_mm <= one.neck + s->c + s->cheeks * slant + SAME_MM && cutter->d_mm - 2.0 * slant > 1.0;
    one.ok = goes_in && one.depth <= cutter->cutting_length.value + SAME_MM && one.neck > 0.0 && tip_fits(s, &one, 0.0);
    one.score = (one.one_pass ? 0.0 : 1000.0) + fabs(one.neck - NECK_GOOD_SHARE * s->t) - (one.one_pass ? 0.0 : cutter->d_mm);
    return one;
}

static bool may_cut(const tw_sliding *s, const tw_cutter *cutter)
{
    if (s->spec->cutter.given) return tw_text_is(tw_text_of(cutter->name), s->spec->cutter.text);
    return !tw_cutter_is_straight(cutter) && (!s->spec->angle.given || fabs(cutter->dovetail.value - s->spec->angle.value) < SAME_RAD);
}

/* Of the cutters that serve, the one whose single pass leaves a neck nearest to half of the piece; then the largest. */
static trial best_trial(const tw_joint_context *context, const tw_sliding *s)
{
    trial best = { .cutter = -1 };
    for (int i = 0; i < context->shop->cutter_count; i++) {
        if (!may_cut(s, &context->shop->cutters[i])) continue;
        trial one = trial_of(context, s, i);
        if (!one.ok && !s->spec->cutter.given) continue;  // a named one is taken, and refused for its own reason
        if (best.cutter < 0 || one.score < best.score - SAME_MM) best = one;
    }
    return best;
}

/* By hand: the slope is the maker's choice. */
static double slope_by_hand(const tw_joint_context *context, const tw_sliding *s, bool *soft)
{
    const tw_timber *timber = s->housed->timber.given ? tw_timber_find(context->arena, s->housed->timber.text, NULL) : NULL;
    *soft = timber && tw_text_is(tw_text_of(timber->group), "softwood");
    return atan(*soft ? 1.0 / 6.0 : 1.0 / 8.0);
}

static trial trial_by_hand(const tw_joint_context *context, const tw_sliding *s, bool *soft)
{
    trial one = { .cutter = -1, .depth = depth_wanted(context, s) };
    one.angle = s->spec->angle.given ? s->spec->angle.value : slope_by_hand(context, s, soft);
    one.neck = s->spec->neck.given ? s->spec->neck.value : s->cheeks == 1 ? neck_bare_cheek(context, s, one.depth, one.angle) : tw_rounded_down(context, NECK_GOOD_SHARE * s->t);
    return one;
}

/* ---- their notes ---- */

static void note_angle(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s, const trial *best, bool soft)
{
    const char *sum = best->cutter >= 0 ? tw_format(context->arena, "the cutter's: %s", context->shop->cutters[best->cutter].name) : soft ? "1:6, softwood" : "1:8, hardwood";
    tw_amount by_hand = s->spec->angle;
    by_hand.given = by_hand.given && best->cutter < 0;
    s->angle = tw_plan_amount(context, plan, &by_hand, "angle", "angle of the dovetail, from square", "", TW_UNIT_RAD, best->angle, sum,
        best->cutter >= 0 ? "dovetail cutters of 7 to 14 degrees (common practice)" : "1:8 in hardwood, 1:6 in softwood (common practice)");
}

static void note_depth(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s, const trial *best)
{
    tw_arena *arena = context->arena;
    bool short_cutter = best->cutter >= 0 && best->depth < tw_rounded_down(context, s->d / 3.0) - SAME_MM;
    s->depth = tw_plan_amount(context, plan, &s->spec->depth, "depth", "housing, deep", "", TW_UNIT_MM, best->depth,
        short_cutter ? tw_format(arena, "as deep as cutter %s cuts", context->shop->cutters[best->cutter].name) : tw_format(arena, "1/3 x %s, down to a round figure", bare(context, s->d)),
        "a third to a half of the piece it is cut in (common practice)");
    tw_note_length(context, plan, "left_under", "left under the housing", s->d - s->depth, tw_format(arena, "%s - %s", bare(context, s->d), bare(context, s->depth)), "");
    s->l = s->depth - s->room;
    tw_note_length(context, plan, "tongue_length", "tongue, from the shoulder", s->l, tw_format(arena, "depth - room = %s - %s", bare(context, s->depth), bare(context, s->room)), "");
}

static void note_neck(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s, const trial *best)
{
    tw_arena *arena = context->arena;
    double slant = s->depth * tan(s->angle);
    const char *angle = tw_angle_text(arena, s->angle);
    const char *sum = best->one_pass ? tw_format(arena, "cutter - 2 x depth x tan %s - c = %s - %s - %s", angle, bare(context, context->shop->cutters[best->cutter].d_mm), bare(context, 2.0 * slant), bare(context, s->c))
                    : s->cheeks == 1 ? tw_format(arena, "%s - l x tan %s - %s", bare(context, s->t), angle, bare(context, tw_customary(context, 1.0, 1.0 / 32.0)))
                                     : tw_format(arena, "1/2 x %s, down to a round figure", bare(context, s->t));
    s->neck = tw_plan_amount(context, plan, &s->spec->neck, "neck", "neck of the tongue, at the shoulder", "n", TW_UNIT_MM, best->neck, sum,
        best->one_pass ? "about half of the piece, a third at least, and the housing in one pass of a cutter (common practice)"
      : s->cheeks == 1 ? "one cheek stays bare; its tip stays a little within the piece (common practice)" : "about half of the piece, a third at least (common practice)");
}

static void note_section(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s)
{
    tw_arena *arena = context->arena;
    double lean = tan(s->angle);
    const char *times = s->cheeks == 2 ? "2 x " : "", *angle = tw_angle_text(arena, s->angle);
    s->tip = s->neck + s->cheeks * s->l * lean;
    s->g = s->neck + s->c;
    s->w = s->g + s->cheeks * s->depth * lean;
    s->shoulder = (s->t - s->neck) / s->cheeks;
    s->lean0 = s->spec->sides.value == TW_SLIDING_SIDE_FACE ? 0.0 : lean;
    s->lean1 = s->spec->sides.value == TW_SLIDING_SIDE_BACK ? 0.0 : lean;
    s->q0 = s->cheeks == 2 ? -s->neck / 2.0 : s->lean0 > 0.0 ? s->t / 2.0 - s->neck : -s->t / 2.0;
    s->q1 = s->q0 + s->neck;
    tw_note_length(context, plan, "tip", "tongue at its end", s->tip, tw_format(arena, "n + %sl x tan %s = %s + %s", times, angle, bare(context, s->neck), bare(context, s->cheeks * s->l * lean)),
        "no wider than the piece, or it is not whole");
    tw_note_length(context, plan, "shoulder", "shoulder beside the neck", s->shoulder, tw_format(arena, s->cheeks == 2 ? "(%s - n)/2" : "%s - n", bare(context, s->t)), "");
    tw_note_length(context, plan, "housing_at_face", "housing at the side it is cut in", s->g, tw_format(arena, "n + c = %s + %s", bare(context, s->neck), bare(context, s->c)), "");
    tw_note_length(context, plan, "housing_at_bottom", "housing at its bottom", s->w,
        tw_format(arena, "%s + %sdepth x tan %s = %s + %s", bare(context, s->g), times, angle, bare(context, s->g), bare(context, s->cheeks * s->depth * lean)), "");
}

/* The largest customary drill that lies against shoulder and cheek of the tongue: it touches the cheek below the tongue's end
 * and the shoulder within the piece. */
static void note_pins(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s)
{
    bool metric = !context->job->inch_sizes;
    double step = metric ? 1.0 : TW_MM_PER_INCH / 32.0, half_theta = (TW_PI / 2.0 - s->angle) / 2.0;
    for (int i = metric ? 6 : 8; i >= 1; i--) {
        double p = i * step, up = p / 2.0 * (1.0 + sin(s->angle)), away = p / 2.0 / tan(half_theta);
        if (up > s->l - 0.3 || away > s->shoulder) continue;
        s->pin = p;
        s->over_pins = tw_sliding_over_pins_mm(s->neck, p, s->angle, s->cheeks);
        tw_note_length(context, plan, "over_pins", s->cheeks == 2 ? "over two drill shanks in the tongue's corners" : "over a drill shank in the tongue's corner", s->over_pins,
            tw_format(context->arena, "n + %sp/2 (1 + cot(theta/2)), drill p = %s, theta = 90 deg - %s", s->cheeks == 2 ? "2 x " : "", bare(context, p), tw_angle_text(context->arena, s->angle)),
            "the neck itself cannot be reached with a caliper");
        return;
    }
}

void tw_sliding_propose(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s)
{
    double usual = tw_customary(context, 0.1, 0.004), room = tw_customary(context, 0.2, 0.008);
    bool soft = false;
    s->c = tw_plan_amount(context, plan, &s->spec->clearance, "clearance", "housing over tongue", "c", TW_UNIT_MM, usual, bare(context, usual),
        "slides in by hand, the last third with light blows (common practice)");
    s->room = tw_plan_amount(context, plan, &s->spec->bottom_room, "bottom_room", "room below the tongue", "", TW_UNIT_MM, room, bare(context, room), "the shoulder closes first, where it shows (common practice)");
    trial best = best_trial(context, s);
    bool by_hand = (s->spec->by.given && s->spec->by.value == TW_SLIDING_SAW) || (best.cutter < 0 && !s->spec->cutter.given && !s->spec->by.given);
    if (by_hand || best.cutter < 0) best = trial_by_hand(context, s, &soft);
    s->cutter = best.cutter;
    note_angle(context, plan, s, &best, soft);
    note_depth(context, plan, s, &best);
    note_neck(context, plan, s, &best);
    note_section(context, plan, s);
    note_pins(context, plan, s);
}

/* ---- across the piece ---- */

void tw_sliding_propose_stops(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s)
{
    const tw_sliding_spec *spec = s->spec;
    tw_arena *arena = context->arena;
    s->across = tw_plan_amount(context, plan, &spec->across, "across", tw_format(arena, "middle of the housed piece, from the %s", tw_face_words[s->low]), "", TW_UNIT_MM,
        s->e / 2.0, tw_format(arena, "%s / 2", bare(context, s->e)), "");
    s->v0 = 0.0;
    s->v1 = s->e;
    if (!s->low_stopped && !s->high_stopped) return;
    double usual = tw_customary(context, 12.0, 0.5);
    double short_mm = tw_plan_amount(context, plan, &spec->stop_short, "stop_short", "housing stops short by", "", TW_UNIT_MM, usual, bare(context, usual), "common practice");
    if (s->low_stopped) s->v0 = short_mm;
    if (s->high_stopped) s->v1 = s->e - short_mm;
}

/* ---- how it is cut ---- */

static double slant_mm(const tw_sliding *s) { return s->depth * tan(s->angle); }

/* The cutter is lowered beside the wood: its whole tip must be clear of it. */
static double run_out_mm(const tw_joint_context *context, const tw_sliding *s) { return s->cutter_d + tw_customary(context, 3.0, 0.125); }

static bool machine_takes(const tw_machine *machine, const tw_sliding *s)
{
    return tw_trench_in_reach(machine, &(tw_trench_reach){ .from_mm = s->low_stopped ? s->v0 : -s->over, .to_mm = s->high_stopped ? s->v1 : s->e + s->over, .across_mm = s->e,
        .depth_mm = s->depth, .cutter_mm = s->cutter_d, .low_down = s->low_stopped && !s->high_stopped });
}

/* By the template stage's own rule: one with r d = b, else the largest that is smaller, else the smallest. */
static int follower_for_copy(const tw_shop *shop, double cutter_mm)
{
    double most = shop->machine.ratio.value * cutter_mm + 0.1;
    int under = -1, over = -1;
    for (int i = 0; i < shop->follower_count; i++) {
        double b = shop->followers[i].b_mm;
        if (b <= most && (under < 0 || b > shop->followers[under].b_mm)) under = i;
        if (b > most && (over < 0 || b < shop->followers[over].b_mm)) over = i;
    }
    return under >= 0 ? under : over;
}

static void choose_way(const tw_joint_context *context, tw_sliding *s)
{
    const tw_shop *shop = context->shop;
    const tw_sliding_spec *spec = s->spec;
    bool hand = s->cutter < 0, bush = !hand && (spec->follower.given || tw_bush_for(shop, s->cutter_d) >= 0);
    if (spec->by.given) s->way = (tw_sliding_way)spec->by.value;
    else if (hand) s->way = spec->cutter.given ? TW_SLIDING_COPY : TW_SLIDING_SAW;  // an unknown name is refused
    else s->way = machine_takes(&shop->machine, s) ? TW_SLIDING_COPY : bush ? TW_SLIDING_GUIDES : TW_SLIDING_SAW;
    s->follower = spec->follower.given ? tw_follower_named(shop, spec->follower.text)
                : hand || s->way == TW_SLIDING_SAW ? -1 : s->way == TW_SLIDING_GUIDES ? tw_bush_for(shop, s->cutter_d) : follower_for_copy(shop, s->cutter_d);
    s->clear = hand || s->way == TW_SLIDING_SAW ? -1 : tw_cutter_for_trench(shop, s->cheeks == 2 ? s->face_d : s->g, s->depth);
    s->tongue_way = spec->tongue_by.given ? (tw_tongue_way)spec->tongue_by.value : s->cutter < 0 ? TW_TONGUE_SAW : TW_TONGUE_TABLE;
}

void tw_sliding_choose_tools(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s)
{
    tw_arena *arena = context->arena;
    const tw_shop *shop = context->shop;
    if (s->cutter >= 0) {
        s->cutter_d = shop->cutters[s->cutter].d_mm;
        s->face_d = s->cutter_d - 2.0 * slant_mm(s);
        s->over = run_out_mm(context, s);
    }
    choose_way(context, s);
    bool stays_round = s->way != TW_SLIDING_SAW && s->spec->stopped_end.value == 0 && (s->low_stopped || s->high_stopped);
    s->radius = stays_round ? s->cutter_d / 2.0 : 0.0;
    if (s->way == TW_SLIDING_SAW || s->cutter < 0) return;
    if (s->cheeks == 2)
        tw_note_length(context, plan, "clearing_cutter_most", "widest cutter for the waste", s->face_d, tw_format(arena, "cutter - 2 x depth x tan %s = %s - %s", tw_angle_text(arena, s->angle),
            bare(context, s->cutter_d), bare(context, 2.0 * slant_mm(s))), "a straight cutter takes the waste first, along the same path (common practice)");
    if (s->way != TW_SLIDING_GUIDES || s->follower < 0) return;
    const tw_follower *bush = &shop->followers[s->follower];
    s->guide_gap = s->w - s->cutter_d + bush->b_mm;
    tw_note_length(context, plan, "guides_gap", "between the two guides", s->guide_gap, tw_format(arena, "w - cutter + bush = %s - %s + %s (%s, %s)", bare(context, s->w), bare(context, s->cutter_d),
        bare(context, bush->b_mm), shop->cutters[s->cutter].name, bush->name), "router moved by hand, ratio 1");
}

/* ---- the housed piece ---- */

void tw_sliding_propose_end(tw_joint_context *context, tw_joint_plan *plan, tw_sliding *s)
{
    tw_arena *arena = context->arena;
    double room = tw_customary(context, NOTCH_ROOM_MM, 1.0 / 32.0), low_edge = s->across - s->wide / 2.0, high_edge = s->across + s->wide / 2.0;
    if (s->low_stopped) s->notch_low = tw_max(0.0, s->v0 + s->radius + room - low_edge);
    if (s->high_stopped) s->notch_high = tw_max(0.0, high_edge - (s->v1 - s->radius - room));
    double notch = tw_max(s->notch_low, s->notch_high);
    if (notch > 0.0)
        tw_note_length(context, plan, "notch", "tongue cut back at the stop by", notch,
            tw_format(arena, "stop %s + radius %s + %s, from its edge", bare(context, s->low_stopped ? s->v0 : s->e - s->v1), bare(context, s->radius), bare(context, room)),
            "goes over the stop and what the cutter leaves there (common practice)");
    s->body = s->a.length_mm - s->ends * s->l;
    tw_note_length(context, plan, "body", s->ends == 2 ? "from shoulder to shoulder" : "from the shoulder to the other end", s->body,
        tw_format(arena, "%s - %d x %s", bare(context, s->a.length_mm), s->ends, bare(context, s->l)), "lengths of pieces are finished lengths, tongues included");
    tw_note_length(context, plan, "housing_length", "housing, from end to end", s->v1 - s->v0, tw_format(arena, "%s - %s", bare(context, s->v1), bare(context, s->v0)), "");
}
