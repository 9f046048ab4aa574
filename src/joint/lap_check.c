// SPDX-License-Identifier: GPL-3.0-or-later
/* Laps: the checks. Limits are common practice, from memory, unless a comment names something better. A halt stands where
 * the joint cannot be cut or put together, or would break in the making; a care where makers would think twice. */
#include "joint/fix.h"
#include "joint/lap.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6             // sums of amounts as written come out this near
#define LEFT_LEAST_MM 3.0        // wood left beyond a notch
#define RELISH_LEAST_MM 3.0
#define BETWEEN_LEAST_MM 3.0     // wood between two notches
#define DEPTH_LEAST_MM 2.0
#define CLEARANCE_LEAST_MM 0.03
#define CLEARANCE_MOST_MM 0.5
#define LEVEL_MM 0.05
#define WIDE_GLUED_MM 75.0       // 3 in: wider, the grain of the two pieces works against the glue
#define ACUTE_RAD (45.0 * TW_PI / 180.0)

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_lap *l; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say_fine(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void find_at(const checker *c, tw_level level, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(c->context->findings, level, place, code, c->plan->joint->name, what, remedy);
}

/* Of two amounts the one that the job gives, for the place of a finding. */
static const tw_amount *given_of(const tw_amount *first, const tw_amount *second) { return first->given ? first : second; }

/* ---- the crossing ---- */

static void check_count(const checker *c)
{
    const tw_lap *l = c->l;
    tw_arena *arena = c->context->arena;
    int over = l->over.pieces * l->over.at->count, under = l->under.pieces * l->under.at->count;
    if (over == under) return;
    find(c, TW_HALT, NULL, "counts-differ", tw_format(arena, "the count of notches is %d in %s (%d, %d each), and %d in %s (%d, %d each)", over, l->over.piece->name, l->over.pieces, l->over.at->count,
         under, l->under.piece->name, l->under.pieces, l->under.at->count), "as many of one as of the other: look at the counts, `over at` and `under at`");
    tw_plan_fix_counts(c->context, l->over.index, l->over.at->count, l->under.index, l->under.at->count);
}

static void check_angle(const checker *c)
{
    const tw_lap *l = c->l;
    if (l->angle >= ACUTE_RAD - 1e-9 && l->angle <= TW_PI - ACUTE_RAD + 1e-9) return;
    tw_arena *arena = c->context->arena;
    find(c, TW_CARE, &l->spec->angle, "lap-acute", tw_format(arena, "crossing at %s the notch in %s is %s long on each wall and leaves thin corners of short grain", tw_angle_text(arena, l->angle),
         l->over.piece->name, say(c, l->over.wide / sin(l->angle))), "45 to 135 degrees, or back the corners with a strip while they are cut");
    tw_plan_fix(c->context, c->plan, &l->spec->angle, "Let them cross at", l->angle < TW_PI / 2.0 ? ACUTE_RAD : TW_PI - ACUTE_RAD,
        "", l->angle < TW_PI / 2.0 ? TW_ROUND_UP : TW_ROUND_DOWN);
}

/* Depths that add up: the rule's for both, or one by the other. */
static void fix_depths(const checker *c)
{
    const tw_lap *l = c->l;
    const tw_lap_spec *spec = l->spec;
    double both = l->thinner + l->room;
    tw_plan_fix(c->context, c->plan, &spec->over_depth, tw_format(c->context->arena, "Notch %s", l->over.piece->name),
        both - l->under.depth, "deep", TW_ROUND_NEAREST);
    tw_plan_fix(c->context, c->plan, &spec->under_depth, tw_format(c->context->arena, "Notch %s", l->under.piece->name),
        both - l->over.depth, "deep", TW_ROUND_NEAREST);
    if (!spec->over_depth.given || !spec->under_depth.given) return;
    tw_plan_fix_without(c->context, c->plan, "over depth", "Notch both to half");
    const char *const path[] = { "joints", c->plan->joint->name, "under depth" };
    tw_find_fix_also(c->context->findings, TW_FILE_JOB, (tw_change){ .kind = TW_CHANGE_REMOVE, .path = path, .path_count = 3 });
}

static void check_level(const checker *c)
{
    const tw_lap *l = c->l;
    tw_arena *arena = c->context->arena;
    bool top = fabs(l->top) <= LEVEL_MM, bottom = fabs(l->bottom) <= LEVEL_MM;
    const tw_amount *at = given_of(&l->spec->over_depth, &l->spec->under_depth);
    double sum = l->over.depth + l->under.depth;
    const char *remedy = tw_format(arena, "depths that add up to %s", say(c, l->thinner + l->room));
    if (sum <= l->room + 0.1) {
        find(c, TW_HALT, at, "lap-shallow", tw_format(arena, "notches of %s in all do not let the pieces into each other", say(c, sum)), remedy);
        fix_depths(c);
    } else if (top == false && bottom == false) {
        find(c, TW_CARE, at, "lap-not-level", tw_format(arena, "the pieces lie level on neither side: %s stands %s %s above and %s %s below", l->over.piece->name, say(c, fabs(l->top)),
             l->top < 0.0 ? "shy" : "proud", say(c, fabs(l->bottom)), l->bottom < 0.0 ? "shy" : "proud"), tw_format(arena, "%s, unless it is meant", remedy));
        fix_depths(c);
    }
}

static void check_clearance(const checker *c)
{
    const tw_lap *l = c->l;
    tw_arena *arena = c->context->arena;
    const char *remedy = l->glued ? "0.1 mm (0.004 in)" : "0.2 mm (0.008 in)";
    if (l->c < CLEARANCE_LEAST_MM - HAIR_MM)
        find(c, TW_CARE, &l->spec->clearance, "clearance-small", tw_format(arena, "a clearance of %s is less than wood holds: the pieces will not go together by hand", say(c, l->c)), remedy);
    else if (l->c > CLEARANCE_MOST_MM + HAIR_MM)
        find(c, TW_CARE, &l->spec->clearance, "clearance-large", tw_format(arena, "a clearance of %s is loose: %s", say(c, l->c), l->glued ? "glue does not fill it" : "the crossing rattles"), remedy);
    if (!l->edge && l->glued && tw_max(l->over.wide, l->under.wide) > WIDE_GLUED_MM + HAIR_MM)
        find(c, TW_CARE, NULL, "glued-wide", tw_format(arena, "%s is glued across the grain: as the pieces swell and shrink the glue line works loose", say(c, tw_max(l->over.wide, l->under.wide))),
             tw_format(arena, "at most %s, or glue the middle alone", say(c, WIDE_GLUED_MM)));
}

/* ---- one piece ---- */

static void check_depth(const checker *c, const tw_lap_part *part, const tw_lap_part *other)
{
    tw_arena *arena = c->context->arena;
    double left = part->thick - part->depth, half = (c->l->thinner + c->l->room) / 2.0;
    const tw_amount *at = given_of(part->depth_key, other->depth_key);
    const char *remedy = tw_format(arena, "half: %s", say(c, half));
    if (part->depth <= 0.1) {
        find(c, TW_HALT, at, "lap-shallow", tw_format(arena, "a notch %s deep in %s is none", say(c, tw_max(0.0, part->depth)), part->piece->name), remedy);
        fix_depths(c);
    } else if (left <= HAIR_MM) {
        find(c, TW_HALT, at, "lap-deep", tw_format(arena, "a notch %s deep cuts %s in two: it is %s thick there", say(c, part->depth), part->piece->name, say(c, part->thick)), remedy);
        fix_depths(c);
    } else if (left < LEFT_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "lap-deep", tw_format(arena, "a notch %s deep leaves only %s of %s: it breaks there", say(c, part->depth), say(c, left), part->piece->name), half <= part->thick - LEFT_LEAST_MM ? remedy : "a thicker piece");
        fix_depths(c);
        tw_piece_fix_size(c->context, part->index, part->side <= TW_SIDE_BACK ? "thickness" : "width",
            part->depth + LEFT_LEAST_MM, TW_ROUND_UP);
    } else if (part->depth > 0.6 * part->thick) {
        find(c, TW_CARE, at, "lap-deep", tw_format(arena, "a notch %s deep takes more than half of %s: %s is left, with %.0f %% of its strength in bending", say(c, part->depth), part->piece->name, say(c, left),
             100.0 * tw_square(left / part->thick)), remedy);
        fix_depths(c);
    } else if (part->depth < DEPTH_LEAST_MM) {
        find(c, TW_CARE, at, "lap-shallow", tw_format(arena, "a notch only %s deep in %s hardly locates", say(c, part->depth), part->piece->name), remedy);
        fix_depths(c);
    }
}

static void check_place(const checker *c, const tw_lap_part *part, const tw_amount *at)
{
    tw_arena *arena = c->context->arena;
    double relish = tw_min(at->value, part->size.length_mm - at->value) - part->reach, good = tw_max(10.0, part->depth / 2.0);
    const char *remedy = tw_format(arena, "between %s and %s", say(c, good + part->reach), say(c, part->size.length_mm - good - part->reach));
    if (relish <= HAIR_MM) {
        find(c, TW_HALT, at, "lap-off-piece", tw_format(arena, "the notch at %s runs %s past the end of %s", say(c, at->value), say(c, tw_max(0.0, -relish)), part->piece->name), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + part->reach, part->index);
    } else if (relish < RELISH_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "relish-short", tw_format(arena, "only %s of %s is left between the notch at %s and its end: it breaks out", say(c, relish), part->piece->name, say(c, at->value)), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + part->reach, part->index);
    } else if (relish < good - HAIR_MM) {
        find(c, TW_CARE, at, "relish-short", tw_format(arena, "%s of %s is left between the notch at %s and its end: short grain that may split off", say(c, relish), part->piece->name, say(c, at->value)), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + part->reach, part->index);
    }
}

/* Two notches on one side leave a post of short grain between them, as high as they are deep. */
static void check_between(const checker *c, const tw_lap_part *part, double own, double other, const tw_amount *at, const char *whose)
{
    tw_arena *arena = c->context->arena;
    double wood = fabs(own - other) - part->span, good = tw_max(BETWEEN_LEAST_MM, part->depth / 2.0);
    if (wood >= good - HAIR_MM) return;
    if (wood < HAIR_MM) {
        find(c, TW_HALT, at, "laps-meet", tw_format(arena, "in %s the notch at %s runs into %s", part->piece->name, say(c, own), whose), "places farther apart");
        tw_plan_fix_apart(c->context, c->plan, at, other, good + part->span, part->size.length_mm);
    } else {
        find(c, wood < BETWEEN_LEAST_MM - HAIR_MM ? TW_HALT : TW_CARE, at, "laps-meet", tw_format(arena, "in %s only %s of wood stands between the notch at %s and %s", part->piece->name, say(c, wood), say(c, own), whose),
             tw_format(arena, "at least %s apart from middle to middle", say(c, good + part->span)));
        tw_plan_fix_apart(c->context, c->plan, at, other, good + part->span, part->size.length_mm);
    }
}

/* ---- notches of other joints of this kind in the same side ---- */

typedef struct notch { double at_mm, half_span_mm, depth_mm; tw_face side; const char *joint; struct notch *next; } notch;
typedef struct piece_memory { notch *notches; int count; } piece_memory;
#define NOTCHES_MOST 256  // in one piece that are compared with each other; more would be no furniture

static piece_memory *memory_of(const checker *c, int piece)
{
    void **kept = &c->context->kept[c->plan->joint->kind];
    if (!*kept) *kept = TW_NEW_ARRAY(c->context->arena, piece_memory, (size_t)c->context->job->piece_count);
    return (piece_memory *)*kept + piece;
}

static void check_other(const checker *c, const tw_lap_part *part, const tw_amount *at, const notch *other)
{
    tw_arena *arena = c->context->arena;
    double wood = fabs(at->value - other->at_mm) - part->span / 2.0 - other->half_span_mm;
    const char *whose = other->joint == c->plan->joint->name ? "another of this joint" : tw_format(arena, "the one of %s", other->joint);
    if (other->side == part->side) {
        check_between(c, part, at->value, at->value + wood + part->span, at, whose);
        return;
    }
    double web = part->thick - part->depth - other->depth_mm;  // from opposite sides
    if (wood >= 0.0 || web >= LEFT_LEAST_MM - HAIR_MM) return;
    find(c, TW_HALT, at, "laps-meet", tw_format(arena, "in %s the notch at %s meets %s from the other side: %s is left between them", part->piece->name, say(c, at->value), whose, say(c, tw_max(0.0, web))), "places farther apart");
}

static void check_part(const checker *c, const tw_lap_part *part, const tw_lap_part *other)
{
    piece_memory *memory = memory_of(c, part->index);
    check_depth(c, part, other);
    for (int i = 0; i < part->at->count; i++) {
        check_place(c, part, &part->at->items[i]);
        for (const notch *known = memory->notches; known; known = known->next) check_other(c, part, &part->at->items[i], known);
        if (memory->count++ >= NOTCHES_MOST) continue;
        notch *mine = TW_NEW(c->context->arena, notch);
        *mine = (notch){ part->at->items[i].value, part->span / 2.0, part->depth, part->side, c->plan->joint->name, memory->notches };
        memory->notches = mine;
    }
}

static void check_tools(const checker *c, const tw_lap_part *part)
{
    const tw_lap_spec *spec = c->l->spec;
    tw_arena *arena = c->context->arena;
    if (part->sawn) return;
    if (part->cutter < 0 && spec->cutter.given) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s", spec->cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (part->cutter < 0) {
        find_at(c, TW_HALT, spec->by.given ? spec->by.place : c->plan->joint->place, "cutter-none",
                tw_format(arena, "the shop has no cutter of at most %s that cuts at its end and %s deep, for the notch in %s", say(c, part->notch), say(c, part->depth), part->piece->name), "`by: saw`");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw and chop the notches by hand");
    } else if (c->context->shop->cutters[part->cutter].d_mm > part->notch + HAIR_MM) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-wide", tw_format(arena, "cutter %s is %s wide, the notch in %s only %s", spec->cutter.text, say(c, c->context->shop->cutters[part->cutter].d_mm),
                part->piece->name, say(c, part->notch)), "a smaller cutter, or leave `cutter` out");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    }
}

/* Whatever cannot be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_lap *l = c->l;
    if (tw_lap_possible(l) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "notches %s and %s deep, %s and %s wide, cannot be cut", say(c, l->over.depth), say(c, l->under.depth), say(c, l->over.notch), say(c, l->under.notch)),
         "sizes that a cutter or a saw can make: some millimetres each way");
}

void tw_lap_check(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l)
{
    assert(plan->joint->kind >= 0 && plan->joint->kind < TW_JOINT_KINDS_MOST);
    const checker c = { context, plan, l };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_count(&c);
    check_angle(&c);
    check_level(&c);
    check_clearance(&c);
    check_part(&c, &l->over, &l->under);
    check_part(&c, &l->under, &l->over);
    check_tools(&c, &l->over);
    check_tools(&c, &l->under);
    check_size(&c, halts_before);
}
