// SPDX-License-Identifier: GPL-3.0-or-later
/* Finger joint: the checks. Limits are common practice, from memory. A halt stands where the joint cannot be cut or put
 * together, or would break in the making; a care where makers would think twice. */
#include "joint/fix.h"
#include "joint/finger_joint.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6
#define FINGER_LEAST_MM 2.0      // narrower, it breaks while the board is handled
#define FINGER_GOOD_MM 4.0
#define EDGE_LEAST_MM 2.0
#define PIN_OFF_MM 0.05          // cutter and gap of a stepping jig

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_finger *f; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say_fine(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void find_at(const checker *c, tw_level level, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(c->context->findings, level, place, code, c->plan->joint->name, what, remedy);
}

static double thinner(const tw_finger *f) { return tw_min(f->k.a.size.thickness_mm, f->k.b.size.thickness_mm); }
static double thicker(const tw_finger *f) { return tw_max(f->k.a.size.thickness_mm, f->k.b.size.thickness_mm); }

/* ---- places ---- */

static const tw_amount *said_of_places(const tw_finger *f) { return f->spec->finger.given ? &f->spec->finger : &f->spec->number; }

static void check_number(const checker *c)
{
    const tw_finger *f = c->f;
    tw_arena *arena = c->context->arena;
    if (f->n < 3) {
        find(c, TW_HALT, &f->spec->number, "number-small", tw_format(arena, "%d over the width: a finger between two others is the least that holds", f->n), "3 or more; odd, so that both edges are alike");
        tw_plan_fix(c->context, c->plan, &f->spec->number, "Make", 5.0, "fingers and gaps", TW_ROUND_NEAREST);
    } else if (f->n > TW_FINGER_PLACES_MOST) {
        find(c, TW_HALT, said_of_places(f), "number-large", tw_format(arena, "%d fingers and gaps over %s", f->n, say(c, f->k.wide)), tw_format(arena, "at most %d: wider fingers", TW_FINGER_PLACES_MOST));
        tw_plan_fix(c->context, c->plan, &f->spec->number, "Make", 2.0 * floor(f->k.wide / thinner(f) / 2.0) + 1.0,
            "fingers and gaps", TW_ROUND_NEAREST);
    } else if (f->n % 2 == 0 && f->way != TW_FINGER_STEP) {
        find(c, TW_NOTE, &f->spec->number, "number-even", tw_format(arena, "with %d places each board has a finger at one edge and a gap at the other", f->n), "an odd number, if both edges are to be alike");
        tw_plan_fix(c->context, c->plan, &f->spec->number, "Make", f->n + 1, "fingers and gaps", TW_ROUND_NEAREST);
    }
}

/* Of the finger's own width and the number that which is given goes. */
static void fix_number(const checker *c, double number)
{
    tw_plan_fix(c->context, c->plan, &c->f->spec->number, "Make", tw_max(number, 3.0), "fingers and gaps", TW_ROUND_NEAREST);
    tw_plan_fix_leave(c->context, c->plan, "finger");
}

static void check_width(const checker *c)
{
    const tw_finger *f = c->f;
    tw_arena *arena = c->context->arena;
    const char *good = tw_format(arena, "about as wide as the thinner board is thick, %s", say(c, thinner(f)));
    if (f->n < 3 || f->n > TW_FINGER_PLACES_MOST) return;
    if (f->wide < FINGER_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, said_of_places(f), "finger-narrow", tw_format(arena, "a finger %s wide breaks off while the board is handled", say(c, tw_max(0.0, f->wide))), good);
        fix_number(c, 2.0 * floor(f->k.wide / thinner(f) / 2.0) + 1.0);
    } else if (f->wide < FINGER_GOOD_MM - HAIR_MM || f->wide < thinner(f) / 4.0) {
        find(c, TW_CARE, said_of_places(f), "finger-narrow", tw_format(arena, "a finger only %s wide on boards of %s", say(c, f->wide), say(c, thinner(f))), good);
        fix_number(c, 2.0 * floor(f->k.wide / thinner(f) / 2.0) + 1.0);
    } else if (f->p > 3.0 * thicker(f)) {
        find(c, TW_CARE, said_of_places(f), "finger-wide", tw_format(arena, "fingers %s wide leave little long grain to glue, and move with the seasons", say(c, f->wide)), good);
        fix_number(c, 2.0 * floor(f->k.wide / thinner(f) / 2.0) + 1.0);
    }
}

/* What remains for the two edge places. */
static void check_edges(const checker *c)
{
    const tw_finger *f = c->f;
    tw_arena *arena = c->context->arena;
    double edge = f->e - f->c / 4.0;
    if (f->n < 3 || f->n > TW_FINGER_PLACES_MOST || f->wide < FINGER_LEAST_MM) return;
    const char *remedy = tw_format(arena, "`number: %d`, or leave `number` out", f->n > 5 ? f->n - 2 : 3);
    if (edge < EDGE_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, said_of_places(f), "edge-narrow", edge <= 0.0 ? tw_format(arena, "%d inner places of %s take more than the %s there are", f->n - 2, say(c, f->p), say(c, f->k.wide))
             : tw_format(arena, "only %s stay for the finger at each edge", say(c, edge)), remedy);
        fix_number(c, f->n > 5 ? f->n - 2 : 3);
    } else if (f->e < f->p / 2.0 - HAIR_MM) {
        find(c, TW_CARE, said_of_places(f), "edge-narrow", tw_format(arena, "the finger at each edge, %s, is less than half as wide as the others", say(c, edge)), remedy);
        fix_number(c, f->n > 5 ? f->n - 2 : 3);
    } else if (f->e > 2.0 * f->p + HAIR_MM) {
        find(c, TW_CARE, said_of_places(f), "edge-wide", tw_format(arena, "the finger at each edge, %s, is more than twice as wide as the others", say(c, edge)),
             tw_format(arena, "`number: %d`, or leave `number` out", f->n + 2));
        fix_number(c, f->n + 2);
    }
}

/* ---- tools ---- */

static void check_cutter(const checker *c)
{
    const tw_finger *f = c->f;
    const tw_finger_spec *spec = f->spec;
    tw_arena *arena = c->context->arena;
    double deep = thicker(f) + f->k.proud;
    if (f->way == TW_FINGER_SAW) {
        if (spec->cutter.given) {
            find_at(c, TW_CARE, spec->cutter.place, "key-idle", "`cutter` is given, but sawn fingers need none",
                "leave `cutter` out");
            tw_plan_fix_leave(c->context, c->plan, "cutter");
        }
        return;
    }
    if (f->cutter < 0 && spec->cutter.given) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s", spec->cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (f->cutter < 0) {
        find_at(c, TW_HALT, spec->by.given ? spec->by.place : c->plan->joint->place, "cutter-none",
                tw_format(arena, "the shop has no cutter of at most %s that cuts %s deep", say(c, f->way == TW_FINGER_COPY ? f->gap : spec->finger.given ? f->gap : thinner(f)), say(c, deep)),
                "`by: saw`, wider fingers, or a longer cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the fingers by hand");
    } else if (!tw_cutter_is_straight(&c->context->shop->cutters[f->cutter])) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-slants", tw_format(arena, "cutter %s is a dovetail cutter, and fingers have upright walls", spec->cutter.text), "a straight cutter");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (c->context->shop->cutters[f->cutter].cutting_length.value < deep - HAIR_MM) {
        find_at(c, TW_HALT, spec->cutter.given ? spec->cutter.place : c->plan->joint->place, "cutter-short",
                tw_format(arena, "cutter %s cuts %s deep, the gaps are %s", c->context->shop->cutters[f->cutter].name, say(c, c->context->shop->cutters[f->cutter].cutting_length.value), say(c, deep)),
                "a longer cutter, thinner boards, or `by: saw`");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the fingers by hand");
    } else if (f->way == TW_FINGER_COPY && f->cutter_d > f->gap + HAIR_MM) {
        find_at(c, TW_HALT, spec->cutter.given ? spec->cutter.place : c->plan->joint->place, "cutter-wide",
                tw_format(arena, "cutter %s is %s wide, a gap only %s", c->context->shop->cutters[f->cutter].name, say(c, f->cutter_d), say(c, f->gap)), "a smaller cutter, or fewer and wider fingers");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
        fix_number(c, f->n - 2);
    }
}

static void check_jig(const checker *c)
{
    const tw_finger *f = c->f;
    tw_arena *arena = c->context->arena;
    if (f->way != TW_FINGER_STEP || f->cutter < 0) return;
    if (fabs(f->cutter_d - f->gap) >= PIN_OFF_MM) {
        find(c, TW_HALT, said_of_places(f), "cutter-not-gap", tw_format(arena, "a stepping jig cuts gaps as wide as the cutter: %s is %s, the gaps are to be %s", c->context->shop->cutters[f->cutter].name,
             say(c, f->cutter_d), say(c, f->gap)), tw_format(arena, "`finger: %s`, or leave `finger` out", say(c, tw_max(0.0, f->cutter_d - f->c / 2.0))));
        tw_plan_fix(c->context, c->plan, &f->spec->finger, "Make each finger", f->cutter_d - f->c / 2.0, "wide",
            TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "finger");
        tw_plan_fix_leave(c->context, c->plan, "number");
    } else if (f->strip_a < -HAIR_MM) {
        find(c, TW_HALT, &f->spec->number, "edge-wide-for-jig", tw_format(arena, "the edge finger, %s, is wider than the jig's step allows: between pin and cutter there is room for %s", say(c, f->e - f->c / 4.0), say(c, f->wide)),
             "leave `number` out, or `by: copy`");
        tw_plan_fix_leave(c->context, c->plan, "number");
        tw_plan_fix_word(c->context, c->plan, "by", "copy", "Copy the fingers with a template");
    }
}

/* Whatever is too small to be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_finger *f = c->f;
    if (tw_finger_possible(f) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "fingers %s wide on boards of %s cannot be cut", say(c, tw_max(0.0, f->wide)), say(c, thinner(f))), "sizes that a cutter can make: some millimetres each way");
}

void tw_finger_check(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f)
{
    const checker c = { context, plan, f };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    tw_corner_check(context, plan, &f->k, f->n % 2 != 0, "an odd `number`, and `by: copy` where the jig cannot cut it", &context->kept[plan->joint->kind]);
    check_number(&c);
    check_width(&c);
    check_edges(&c);
    tw_corner_check_fit(context, plan, &f->k, f->c, &f->spec->clearance, &f->spec->proud, tw_format(context->arena, "%d fingers", (f->n + 1) / 2));
    check_cutter(&c);
    check_jig(&c);
    check_size(&c, halts_before);
}
