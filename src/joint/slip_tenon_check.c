// SPDX-License-Identifier: GPL-3.0-or-later
/* Slip tenon: the checks. Limits are common practice, from memory; tm is the mortise across its cheeks. */
#include "joint/fix.h"
#include "joint/slip_tenon.h"

#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6
#define FLOOR_LEAST_MM 3.0
#define FLOOR_GOOD_MM 6.0
#define WALL_LEAST_MM 2.0         // and a third of tm
#define WALL_GOOD_MM 4.0          // and two thirds of tm
#define EDGE_LEAST_MM 3.0         // wood at the edges of the mortised end
#define EDGE_GOOD_MM 6.0
#define RELISH_LEAST_MM 3.0
#define RELISH_GOOD 1.5           // times tm
#define CLEARANCE_LEAST_MM 0.03
#define CLEARANCE_MOST_MM 0.5
#define WIDE_GLUED_MM 75.0        // 3 in: wider, the grain of the two works against the glue
#define BODY_LEAST_MM 10.0

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_slip *s; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say_fine(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void check_names(const checker *c)
{
    const tw_words *name = &c->s->spec->cutter;
    if (!name->given || tw_cutter_named(c->context->shop, name->text) >= 0) return;
    tw_find(c->context->findings, TW_HALT, name->place, "cutter-unknown", c->plan->joint->name, tw_format(c->context->arena, "the shop has no cutter named %s", name->text), "a name from the shop's list of cutters");
    tw_plan_fix_leave(c->context, c->plan, "cutter");
}

static void check_count(const checker *c)
{
    const tw_slip *s = c->s;
    int places = s->into_pieces * s->spec->at.count;
    if (s->joints == places) return;
    find(c, TW_HALT, NULL, "counts-differ", tw_format(c->context->arena, "the count of ends is %d (%d x %s, %d end%s each), of places %d (%d x %s, %d each)", s->joints, s->pieces, s->piece->name, s->ends,
         s->ends == 1 ? "" : "s", places, s->into_pieces, s->into->name, s->spec->at.count), "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(c->context, s->spec->piece.index, s->ends, s->spec->into.index, s->spec->at.count);
}

/* ---- the loose tenon ---- */

static void check_thickness(const checker *c)
{
    const tw_slip *s = c->s;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = &s->spec->tenon_thickness;
    double thinner = s->along ? tw_min(s->a.thickness_mm, s->e) : s->a.thickness_mm;
    const char *third = tw_format(arena, "about a third: %s", say(c, thinner / 3.0));
    if (s->t <= 0.1) find(c, TW_HALT, &s->spec->clearance, "tenon-thin", tw_format(arena, "the clearance of %s leaves nothing of the loose tenon", say(c, s->c)), "0.1 mm (0.004 in)");
    else if (s->tm > 0.5 * thinner + HAIR_MM) {
        find(c, TW_CARE, at, "tenon-thick", tw_format(arena, "mortises of %s take more than half of the thinner piece's %s",
            say(c, s->tm), say(c, thinner)), third);
        tw_plan_fix(c->context, c->plan, at, "Make the loose tenon", thinner / 3.0, "thick", TW_ROUND_DOWN);
    } else if (s->t < 0.2 * thinner) {
        find(c, TW_CARE, at, "tenon-thin", tw_format(arena, "a loose tenon of %s is thin for pieces of %s", say(c, s->t),
            say(c, thinner)), third);
        tw_plan_fix(c->context, c->plan, at, "Make the loose tenon", thinner / 3.0, "thick", TW_ROUND_DOWN);
    }
}

static void check_width(const checker *c)
{
    const tw_slip *s = c->s;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = &s->spec->tenon_width;
    if (s->w < s->t - HAIR_MM) {
        find(c, TW_CARE, at, "tenon-narrow", tw_format(arena, "the loose tenon is %s wide, less than its thickness of %s",
            say(c, s->w), say(c, s->t)), tw_format(arena, "%s or more", say(c, 2.0 * s->t)));
        tw_plan_fix(c->context, c->plan, at, "Make the loose tenon", 2.0 * s->t, "wide", TW_ROUND_UP);
    }
    if (s->w > 6.0 * s->t + 0.5) {
        find(c, TW_CARE, at, "tenon-broad", tw_format(arena, "the loose tenon is %s wide, more than six times its thickness of %s", say(c, s->w), say(c, s->t)), "two joints side by side, each with its `from edge`");
        tw_plan_fix(c->context, c->plan, at, "Make the loose tenon", 6.0 * s->t, "wide", TW_ROUND_DOWN);
    }
    if (s->glued && s->along && s->w > WIDE_GLUED_MM + HAIR_MM) {
        find(c, TW_CARE, at, "glued-wide", tw_format(arena, "%s of tenon is glued across the grain of %s", say(c, s->w), s->into->name), tw_format(arena, "at most %s: two joints side by side, one of them dry", say(c, WIDE_GLUED_MM)));
        tw_plan_fix(c->context, c->plan, at, "Make the loose tenon", WIDE_GLUED_MM, "wide", TW_ROUND_DOWN);
    }
}

static void check_clearance(const checker *c)
{
    const tw_slip *s = c->s;
    const char *usual = s->glued ? "0.1 mm (0.004 in)" : "0.2 mm (0.008 in)";
    if (s->c < CLEARANCE_LEAST_MM - HAIR_MM) find(c, TW_CARE, &s->spec->clearance, "clearance-small", tw_format(c->context->arena, "a clearance of %s is less than wood and plane hold: the tenon scrapes off the glue or does not go in", say(c, s->c)), usual);
    else if (s->c > CLEARANCE_MOST_MM + HAIR_MM) find(c, TW_CARE, &s->spec->clearance, "clearance-large", tw_format(c->context->arena, "a clearance of %s is loose: %s", say(c, s->c), s->glued ? "glue does not fill it" : "the tenon rattles"), usual);
}

/* ---- depth ---- */

static void check_depth(const checker *c)
{
    const tw_slip *s = c->s;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = &s->spec->depth;
    double floor_mm = s->d - s->depth;
    double most = tw_max(s->d - FLOOR_GOOD_MM - s->room, s->d / 2.0);
    const char *remedy = tw_format(arena, "a depth of at most %s", say(c, most));
    if (floor_mm < FLOOR_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, floor_mm <= HAIR_MM ? "tenon-deep" : "floor-thin", floor_mm <= HAIR_MM
             ? tw_format(arena, "a tenon %s deep and %s of room below it break through %s, which is %s thick there", say(c, s->l), say(c, s->room), s->into->name, say(c, s->d))
             : tw_format(arena, "only %s of wood stays under the mortise in %s: it breaks through", say(c, floor_mm), s->into->name), remedy);
        tw_plan_fix(c->context, c->plan, at, "Let the tenon go", most, "into each piece", TW_ROUND_DOWN);
    } else if (floor_mm < FLOOR_GOOD_MM - HAIR_MM) {
        find(c, TW_CARE, at, "floor-thin", tw_format(arena, "the wood under the mortise in %s is %s, less than the usual %s", s->into->name, say(c, floor_mm), say(c, FLOOR_GOOD_MM)), remedy);
        tw_plan_fix(c->context, c->plan, at, "Let the tenon go", most, "into each piece", TW_ROUND_DOWN);
    }
    if (s->l < 1.5 * s->t) {
        find(c, s->l < 0.5 * s->t ? TW_HALT : TW_CARE, at, "tenon-short", tw_format(arena, "the loose tenon goes only %s into each piece, for a thickness of %s: it holds little", say(c, s->l), say(c, s->t)),
             "a longer cutter, or deepen both mortises by drill and chisel");
        tw_plan_fix(c->context, c->plan, at, "Let the tenon go", 1.5 * s->t, "into each piece", TW_ROUND_UP);
        tw_plan_fix(c->context, c->plan, &s->spec->tenon_thickness, "Make the loose tenon", s->l / 1.5, "thick", TW_ROUND_DOWN);
    }
    double left = s->a.length_mm - s->ends * s->depth;
    if (left < BODY_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, NULL, "mortises-meet", tw_format(arena, "the mortises in the ends of %s leave %s between them", s->piece->name, say(c, tw_max(left, 0.0))), "shallower mortises, or a longer piece");
        tw_plan_fix(c->context, c->plan, at, "Let the tenon go", (s->a.length_mm - BODY_LEAST_MM) / s->ends - s->room,
            "into each piece", TW_ROUND_DOWN);
        tw_piece_fix_size(c->context, s->spec->piece.index, "length", s->ends * s->depth + BODY_LEAST_MM, TW_ROUND_UP);
    }
}

/* ---- wood about the mortises ---- */

/* Returns whether there is a finding. */
static bool check_wall(const checker *c, const tw_amount *at, double wall, double least, double good, const char *code,
    const char *where, const char *remedy)
{
    tw_arena *arena = c->context->arena;
    if (wall < -HAIR_MM) find(c, TW_HALT, at, "mortise-off-piece", tw_format(arena, "the mortise stands %s over %s", say(c, -wall), where), remedy);
    else if (wall < least - HAIR_MM) find(c, TW_HALT, at, code, tw_format(arena, "only %s of wood stands between the mortise and %s: it breaks out", say(c, wall), where), remedy);
    else if (wall < good - HAIR_MM) find(c, TW_CARE, at, code, tw_format(arena, "%s of wood stands between the mortise and %s", say(c, wall), where), remedy);
    return wall < good - HAIR_MM;
}

static void check_walls(const checker *c)
{
    const tw_slip *s = c->s;
    tw_arena *arena = c->context->arena;
    double least = tw_max(WALL_LEAST_MM, s->tm / 3.0), good = tw_max(WALL_GOOD_MM, s->tm * 2.0 / 3.0);
    bool thin = check_wall(c, &s->spec->from_back, tw_min(s->z, s->a.thickness_mm - s->z) - s->tm / 2.0, least, good,
        "end-wall-thin",
               tw_format(arena, "the %s of %s", s->z <= s->a.thickness_mm / 2.0 ? "back" : "face", s->piece->name), s->spec->from_back.given ? "the middle of the thickness" : "a thinner tenon");
    if (thin && !s->spec->from_back.given) tw_plan_fix(c->context, c->plan, &s->spec->tenon_thickness, "Make the loose tenon",
        tw_min(s->a.thickness_mm * 3.0 / 7.0, s->a.thickness_mm - 2.0 * WALL_GOOD_MM) - s->c, "thick", TW_ROUND_DOWN);
    thin = check_wall(c, s->spec->from_edge.given ? &s->spec->from_edge : &s->spec->tenon_width,
        tw_min(s->y, s->a.width_mm - s->y) - s->wm / 2.0, EDGE_LEAST_MM, tw_min(EDGE_GOOD_MM, s->a.width_mm / 8.0),
        "end-edge-thin",
               tw_format(arena, "the %s of %s", s->y <= s->a.width_mm / 2.0 ? "face edge" : "back edge", s->piece->name), "a narrower tenon, nearer to the middle");
    if (thin && !s->spec->from_edge.given) tw_plan_fix(c->context, c->plan, &s->spec->tenon_width, "Make the loose tenon",
        s->w - 2.0 * (tw_min(EDGE_GOOD_MM, s->a.width_mm / 8.0) - (s->a.width_mm - s->wm) / 2.0), "wide", TW_ROUND_DOWN);
    double half = (s->along ? s->tm : s->wm) / 2.0;
    thin = check_wall(c, &s->spec->across, tw_min(s->across, s->e - s->across) - half, least, good, "mortise-wall-thin",
               tw_format(arena, "the %s of %s", tw_face_words[s->across <= s->e / 2.0 ? s->down : tw_face_opposite(s->down)], s->into->name), s->spec->across.given ? tw_format(arena, "the middle: across %s", say(c, s->e / 2.0)) : "a thinner tenon or a thicker piece");
    if (thin && !s->spec->across.given) tw_piece_fix_across(c->context, s->spec->into.index, s->from, 2.0 * (half + good),
        TW_ROUND_UP);
    for (int i = 0; i < s->spec->at.count; i++) {
        const tw_amount *at = &s->spec->at.items[i];
        double relish = tw_min(at->value, s->b.length_mm - at->value) - (s->along ? s->wm : s->tm) / 2.0;
        thin = check_wall(c, at, relish, RELISH_LEAST_MM, RELISH_GOOD * s->tm, "relish-short",
            tw_format(arena, "the end of %s", s->into->name),
                   tw_format(arena, "at least %s; or leave a horn of 20 mm (3/4 in) on the piece until the joint is made", say(c, RELISH_GOOD * s->tm)));
        if (thin) tw_plan_fix_place(c->context, c->plan, at, (s->along ? s->wm : s->tm) / 2.0 + RELISH_GOOD * s->tm,
            s->spec->into.index);
    }
}

/* The two pieces as they stand: a piece that hangs over the side it stands against is thought about twice. */
static void check_overhang(const checker *c)
{
    const tw_slip *s = c->s;
    double size = s->along ? s->a.thickness_mm : s->a.width_mm, middle = s->along ? s->z : s->y;
    double over = tw_max(middle, size - middle) - tw_min(s->across, s->e - s->across);
    if (over < 0.5) return;
    find(c, TW_CARE, &s->spec->across, "end-overhangs", tw_format(c->context->arena, "the end of %s stands up to %s over the side of %s", s->piece->name, say(c, over), s->into->name), "a thicker piece, or the tenon out of the middle of the end");
    tw_piece_fix_across(c->context, s->spec->into.index, s->from, 2.0 * tw_max(middle, size - middle), TW_ROUND_UP);
}

static void check_size(const checker *c, size_t halts_before)
{
    if (tw_slip_possible(c->s) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "a loose tenon %s thick, %s wide and %s deep is too small to be cut", say(c, c->s->t), say(c, c->s->w), say(c, c->s->l)), "sizes that a cutter can make: some millimetres each way");
}

void tw_slip_check(tw_joint_context *context, tw_joint_plan *plan, const tw_slip *s)
{
    const checker c = { context, plan, s };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_names(&c);
    check_count(&c);
    check_thickness(&c);
    check_width(&c);
    check_clearance(&c);
    check_depth(&c);
    check_walls(&c);
    check_overhang(&c);
    check_size(&c, halts_before);
}
