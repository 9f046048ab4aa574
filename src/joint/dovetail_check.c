// SPDX-License-Identifier: GPL-3.0-or-later
/* Through dovetail: the checks. Limits are common practice, from memory. A halt stands where the joint cannot be cut or put
 * together, or would break in the making; a care where makers would think twice. */
#include "joint/fix.h"
#include "joint/dovetail.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6
#define HAIR_RAD 1e-4
#define PIN_LEAST_MM 1.5         // narrow side: thinner, it breaks while the board is handled
#define PIN_GOOD_MM 3.0
#define HALF_PIN_LEAST_MM 3.0    // it is held on one side only
#define ROOT_LEAST_MM 3.0
#define STEEP (1.0 / 3.9)        // a slope over 1:4 leaves short grain at the corners of the tails
#define FLAT (1.0 / 12.0)

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_dovetail *d; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say_fine(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void find_at(const checker *c, tw_level level, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(c->context->findings, level, place, code, c->plan->joint->name, what, remedy);
}

static double thinner(const tw_dovetail *d) { return tw_min(d->k.a.size.thickness_mm, d->k.b.size.thickness_mm); }

/* ---- shape ---- */

static void check_slope(const checker *c)
{
    const tw_dovetail *d = c->d;
    tw_arena *arena = c->context->arena;
    const char *angle = tw_angle_text(arena, d->angle);
    if (d->slope > STEEP) {
        find(c, TW_CARE, &d->spec->angle, "slope-steep", tw_format(arena, "walls of %s leave short grain at the corners of the tails, which breaks off", angle), "1:8 in hardwood, 1:6 in softwood; by a cutter at most 14 deg");
        tw_plan_fix(c->context, c->plan, &d->spec->angle, "Lean the walls by", atan(1.0 / 6.0), "", TW_ROUND_DOWN);
    } else if (d->slope < FLAT - 1e-9) {
        find(c, TW_CARE, &d->spec->angle, "slope-flat", tw_format(arena, "walls of %s hardly hold: the joint is a finger joint almost", angle), "1:8 in hardwood, 1:6 in softwood");
        tw_plan_fix(c->context, c->plan, &d->spec->angle, "Lean the walls by", atan(1.0 / 8.0), "", TW_ROUND_UP);
    }
}

static void fix_number(const checker *c, double number)
{
    tw_plan_fix(c->context, c->plan, &c->d->spec->number, "Make", number, number < 1.5 ? "tail" : "tails", TW_ROUND_NEAREST);
}

static void check_tails(const checker *c)
{
    const tw_dovetail *d = c->d;
    tw_arena *arena = c->context->arena;
    if (d->n > TW_DOVETAILS_MOST) {
        find(c, TW_HALT, &d->spec->number, "number-large", tw_format(arena, "%d tails over %s", d->n, say(c, d->k.wide)), tw_format(arena, "at most %d: wider tails", TW_DOVETAILS_MOST));
        fix_number(c, tw_max(1.0, floor(d->k.wide / (2.0 * thinner(d)))));
    } else if (d->root < ROOT_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, d->spec->number.given ? &d->spec->number : d->spec->pin.given ? &d->spec->pin : &d->spec->half_pin, "tail-narrow",
             tw_format(arena, "a tail %s wide at its root breaks off there", say(c, tw_max(0.0, d->root))), "fewer tails, narrower pins, or a flatter slope");
        fix_number(c, d->n - 1);
        if (d->n > 2) fix_number(c, tw_max(1.0, floor(d->k.wide / (2.0 * thinner(d)))));
    } else if (d->root < thinner(d) / 2.0 - HAIR_MM) {
        find(c, TW_CARE, &d->spec->number, "tail-narrow", tw_format(arena, "a tail only %s wide at its root, on boards of %s", say(c, d->root), say(c, thinner(d))), "fewer tails");
        fix_number(c, d->n - 1);
        if (d->n > 2) fix_number(c, tw_max(1.0, floor(d->k.wide / (2.0 * thinner(d)))));
    } else if (d->w > 4.0 * thinner(d) + HAIR_MM) {
        find(c, TW_CARE, &d->spec->number, "tail-wide", tw_format(arena, "a tail %s wide may cup between its pins", say(c, d->w)), "more tails: about twice as wide as the board is thick");
        fix_number(c, ceil(d->k.wide / (2.5 * thinner(d))));
    }
}

static void check_pins(const checker *c)
{
    const tw_dovetail *d = c->d;
    tw_arena *arena = c->context->arena;
    double q = d->q - d->c / 2.0, h = d->h - d->c / 4.0, lost = d->k.proud * d->slope;
    if (q - 2.0 * lost < PIN_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, &d->spec->pin, "pin-narrow", tw_format(arena, "a pin %s wide at its narrow side breaks while the board is handled", say(c, tw_max(0.0, q - 2.0 * lost))), tw_format(arena, "about a third of the board's thickness: %s", say(c, thinner(d) / 3.0)));
        tw_plan_fix(c->context, c->plan, &d->spec->pin, "Make the pins", thinner(d) / 3.0, "wide", TW_ROUND_UP);
    } else if (q < PIN_GOOD_MM - HAIR_MM && d->n > 1) {
        find(c, TW_CARE, &d->spec->pin, "pin-narrow", tw_format(arena, "pins only %s wide at their narrow side", say(c, q)), tw_format(arena, "about a third of the board's thickness: %s", say(c, thinner(d) / 3.0)));
        tw_plan_fix(c->context, c->plan, &d->spec->pin, "Make the pins", thinner(d) / 3.0, "wide", TW_ROUND_UP);
    }
    if (h - lost < HALF_PIN_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, &d->spec->half_pin, "half-pin-narrow", tw_format(arena, "the half pin at each edge is %s wide at its narrow side: it is held on one side only, and splits off", say(c, tw_max(0.0, h - lost))), "6 mm (1/4 in), or as wide as a pin");
        tw_plan_fix(c->context, c->plan, &d->spec->half_pin, "Make the half pins", tw_max(6.0, d->q), "wide", TW_ROUND_UP);
    } else if (d->h < d->q - HAIR_MM) {
        find(c, TW_CARE, &d->spec->half_pin, "half-pin-narrow", tw_format(arena, "the half pins, %s, are narrower than the pins, and held on one side only", say(c, d->h)), tw_format(arena, "no less than %s", say(c, d->q)));
        tw_plan_fix(c->context, c->plan, &d->spec->half_pin, "Make the half pins", d->q, "wide", TW_ROUND_UP);
    }
}

/* ---- tools ---- */

/* Where a cutter that nothing names is missed. */
static tw_place asked_at(const checker *c) { return c->d->spec->by.given ? c->d->spec->by.place : c->plan->joint->place; }

static void check_idle(const checker *c)
{
    const tw_words *const words[] = { &c->d->spec->dovetail_cutter, &c->d->spec->cutter, &c->d->spec->follower };
    static const char *const names[] = { "dovetail cutter", "cutter", "follower" };
    for (int i = 0; i < 3; i++)
        if (words[i]->given) {
            find_at(c, TW_CARE, words[i]->place, "key-idle", tw_format(c->context->arena, "`%s` is given, but sawn dovetails need none", names[i]), tw_format(c->context->arena, "leave `%s` out", names[i]));
            tw_plan_fix_leave(c->context, c->plan, names[i]);
        }
}

static void check_dovetail_cutter(const checker *c)
{
    const tw_dovetail *d = c->d;
    const tw_dovetail_spec *spec = d->spec;
    tw_arena *arena = c->context->arena;
    double deep = tw_dovetail_deep(d, false);
    if (d->dovetail < 0 && spec->dovetail_cutter.given) {
        find_at(c, TW_HALT, spec->dovetail_cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s", spec->dovetail_cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "dovetail cutter");
        return;
    }
    if (d->dovetail < 0) {
        find_at(c, TW_HALT, asked_at(c), "cutter-none", tw_format(arena, "the shop has no dovetail cutter that cuts %s deep%s and leaves pins no wider than asked for", say(c, deep),
                spec->angle.given ? tw_format(arena, " at %s", tw_angle_text(arena, spec->angle.value)) : ""), "`by: saw`, thinner boards, or a longer cutter");
        tw_plan_fix_leave(c->context, c->plan, "angle");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the dovetails by hand");
        return;
    }
    const tw_cutter *cutter = &c->context->shop->cutters[d->dovetail];
    tw_place at = spec->dovetail_cutter.given ? spec->dovetail_cutter.place : asked_at(c);
    if (tw_cutter_is_straight(cutter)) {
        find_at(c, TW_HALT, at, "cutter-straight", tw_format(arena, "cutter %s is straight: it cannot cut the slanting walls of tails from the end", cutter->name), "a dovetail cutter of the shop, or `by: saw`");
        tw_plan_fix_leave(c->context, c->plan, "dovetail cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the dovetails by hand");
    } else if (spec->angle.given && fabs(cutter->dovetail.value - spec->angle.value) >= HAIR_RAD) {
        find_at(c, TW_HALT, spec->angle.place, "angle-not-cutters", tw_format(arena, "walls of %s are asked for, and cutter %s cuts %s", tw_angle_text(arena, spec->angle.value), cutter->name, tw_angle_text(arena, cutter->dovetail.value)),
                "leave `angle` out, or `by: saw`");
        tw_plan_fix_leave(c->context, c->plan, "angle");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the dovetails by hand");
    } else if (cutter->cutting_length.value < deep - HAIR_MM || tw_cutter_diameter_at_mm(cutter, deep) < 3.0) {
        find_at(c, TW_HALT, at, "cutter-short", tw_format(arena, "cutter %s cuts %s deep, the tails are %s long", cutter->name, say(c, cutter->cutting_length.value), say(c, deep)), "a longer cutter, a thinner mate, or `by: saw`");
        tw_plan_fix_leave(c->context, c->plan, "dovetail cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the dovetails by hand");
    } else if (d->dovetail_d > tw_dovetail_gap(d) + HAIR_MM) {
        find_at(c, TW_HALT, spec->pin.given ? spec->pin.place : at, "cutter-wide", tw_format(arena, "cutter %s is %s wide at its tip, the gap between tails only %s", cutter->name, say(c, d->dovetail_d), say(c, tw_dovetail_gap(d))),
                tw_format(arena, "`pin` of at least %s", say(c, d->q + d->dovetail_d - tw_dovetail_gap(d))));
        tw_plan_fix(c->context, c->plan, &d->spec->pin, "Make the pins", d->q + d->dovetail_d - tw_dovetail_gap(d), "wide",
            TW_ROUND_UP);
        tw_plan_fix_leave(c->context, c->plan, "dovetail cutter");
    }
}

static void check_straight_cutter(const checker *c)
{
    const tw_dovetail *d = c->d;
    const tw_dovetail_spec *spec = d->spec;
    tw_arena *arena = c->context->arena;
    double deep = tw_dovetail_deep(d, true);
    if (d->cutter < 0 && spec->cutter.given) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s", spec->cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
        return;
    }
    if (d->cutter < 0) {
        if (d->dovetail >= 0 && !tw_cutter_is_straight(&c->context->shop->cutters[d->dovetail])) {
            find_at(c, TW_HALT, asked_at(c), "cutter-none", tw_format(arena, "the shop has no straight cutter that goes into sockets %s wide at the roots and cuts %s deep", say(c, tw_max(0.0, d->root)), say(c, deep)),
                    "`by: saw`, fewer tails, or a smaller cutter");
            tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the dovetails by hand");
        }
        return;
    }
    const tw_cutter *cutter = &c->context->shop->cutters[d->cutter];
    tw_place at = spec->cutter.given ? spec->cutter.place : asked_at(c);
    if (!tw_cutter_is_straight(cutter)) {
        find_at(c, TW_HALT, at, "cutter-slants", tw_format(arena, "cutter %s is a dovetail cutter: the sockets' walls are straight along the board", cutter->name), "a straight cutter");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (cutter->cutting_length.value < deep - HAIR_MM) {
        find_at(c, TW_HALT, at, "cutter-short", tw_format(arena, "cutter %s cuts %s deep, the sockets are %s", cutter->name, say(c, cutter->cutting_length.value), say(c, deep)), "a longer cutter, or `by: saw`");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw the dovetails by hand");
    } else if (d->cutter_d > tw_dovetail_socket_least(d) + HAIR_MM) {
        find_at(c, TW_HALT, at, "cutter-wide", tw_format(arena, "cutter %s is %s wide, a socket only %s where the cutter leaves it at the inner side", cutter->name, say(c, d->cutter_d), say(c, tw_max(0.0, tw_dovetail_socket_least(d)))),
                "a smaller cutter, or fewer tails");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
        fix_number(c, d->n - 1);
    }
}

/* Whatever is too small to be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_dovetail *d = c->d;
    if (tw_dovetail_possible(d) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "%d tails on boards %s wide cannot be cut", d->n, say(c, d->k.wide)), "sizes that a cutter or a saw can make: some millimetres each way");
}

void tw_dovetail_check(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d)
{
    const checker c = { context, plan, d };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    tw_corner_check(context, plan, &d->k, true, "", &context->kept[plan->joint->kind]);
    check_slope(&c);
    check_tails(&c);
    check_pins(&c);
    tw_corner_check_fit(context, plan, &d->k, d->c, &d->spec->clearance, &d->spec->proud, tw_counted(context, d->n, "tail", "tails"));
    if (d->sawn) check_idle(&c);
    else {
        check_dovetail_cutter(&c);
        check_straight_cutter(&c);
    }
    check_size(&c, halts_before);
}
