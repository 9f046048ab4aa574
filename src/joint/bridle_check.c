// SPDX-License-Identifier: GPL-3.0-or-later
/* Housed bridle: the checks. Limits are common practice, from memory, unless a comment names something better. A halt stands
 * where the joint cannot be cut or put together, or would break in the making; a care where makers would think twice. */
#include "joint/fix.h"
#include "joint/bridle.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6             // sums of amounts as written come out this near
#define LEFT_LEAST_MM 3.0        // a web, a prong, what stands beyond a stop: thinner, it breaks in the making
#define STOP_LEAST_MM 6.0        // less beyond a stop hardly holds the web's edge
#define DEPTH_LEAST_MM 2.0       // shallower, a housing neither bears nor locates
#define RELISH_LEAST_MM 3.0
#define CLEARANCE_LEAST_MM 0.03
#define CLEARANCE_MOST_MM 0.5
#define ROOM_MOST_MM 2.0
#define LEVEL_MM 0.05
#define BODY_LEAST_MM 10.0
#define WIDE_GLUED_MM 75.0       // 3 in: wider, the grain of the two pieces works against the glue

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_bridle *b; } checker;

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

static void check_idle(const checker *c)
{
    const tw_bridle_spec *spec = c->b->spec;
    if (spec->slot_cutter.given && !c->b->slot_copied) {
        find_at(c, TW_CARE, spec->slot_cutter.place, "key-idle", "`slot cutter` is given, but the slot is sawn",
            "`slot by: copy`, or leave `slot cutter` out");
        tw_plan_fix_leave(c->context, c->plan, "slot cutter");
    }
    if (c->b->stopped) {
        if (c->b->sawn && spec->corners.given && spec->corners.value != TW_ANSWER_CHISEL) {
            find_at(c, TW_CARE, spec->corners.place, "key-idle", "a sawn housing is chopped square at its stop: no round corner "
                "is left for the prong to answer", "`corners: chisel`, or leave `corners` out");
            tw_plan_fix_word(c->context, c->plan, "corners", "chisel", "Chop the corners square");
        }
        return;
    }
    static const char *const remedy = "leave it out, or `housings: stopped`";
    if (spec->stop_short.given) find(c, TW_CARE, &spec->stop_short, "key-idle", "`stop short` is given, but it has no meaning "
        "for housings that run through", remedy);
    if (spec->end_room.given) find(c, TW_CARE, &spec->end_room, "key-idle", "`end room` is given, but there is no stop for the "
        "prong's end to stay from", remedy);
    if (spec->corners.given) {
        find_at(c, TW_CARE, spec->corners.place, "key-idle", "`corners` is given, but housings that run "
        "through have no round corners", remedy);
        tw_plan_fix_leave(c->context, c->plan, "corners");
    }
}

static void check_count(const checker *c)
{
    const tw_bridle *b = c->b;
    int places = b->over_pieces * b->spec->at.count;
    if (b->joints == places) return;
    find(c, TW_HALT, NULL, "counts-differ", tw_format(c->context->arena, "the count of forked ends is %d (%d x %s, %d each), of "
        "places %d (%d x %s, %d each)", b->joints, b->forked_pieces, b->forked->name, b->ends, places, b->over_pieces,
        b->over->name, b->spec->at.count), "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(c->context, b->spec->forked.index, b->ends, b->spec->over.index, b->spec->at.count);
}

/* What the kind remembers of one piece: the joints that fork its ends. */
typedef struct piece_memory { const char *joint[2]; } piece_memory;

static void check_ends(const checker *c)
{
    void **kept = &c->context->kept[c->plan->joint->kind];
    if (!*kept) *kept = TW_NEW_ARRAY(c->context->arena, piece_memory, (size_t)c->context->job->piece_count);
    piece_memory *memory = (piece_memory *)*kept + c->b->spec->forked.index;
    for (int i = 0; i < 2; i++) {
        if (!tw_bridle_has_end(c->b, i ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END)) continue;
        if (memory->joint[i])
            find(c, TW_HALT, NULL, "end-taken", tw_format(c->context->arena, "the %s end of %s is already forked by %s",
                i ? "right" : "left", c->b->forked->name, memory->joint[i]), "another end, or another piece");
        memory->joint[i] = c->plan->joint->name;
    }
}

/* ---- web, prongs, depth ---- */

static void check_web(const checker *c)
{
    const tw_bridle *b = c->b;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = &b->spec->depth;
    double third = tw_rounded_down(c->context, b->T / 3.0);
    const char *remedy = b->T - 2.0 * third >= LEFT_LEAST_MM && third >= DEPTH_LEAST_MM ? tw_format(arena,
        "a third of its thickness: %s", say(c, third)) : "a thicker piece";
    if (b->q <= HAIR_MM) {
        find(c, TW_HALT, at, "housing-deep", tw_format(arena, "two housings %s deep cut %s in two: it is %s thick there",
            say(c, b->depth), b->over->name, say(c, b->T)), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housings", third, "deep", TW_ROUND_DOWN);
    } else if (b->q < LEFT_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "web-thin", tw_format(arena, "two housings %s deep leave a web of only %s in %s: it breaks there",
            say(c, b->depth), say(c, b->q), b->over->name), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housings", third, "deep", TW_ROUND_DOWN);
    } else if (b->q < b->T / 4.0 - HAIR_MM) {
        find(c, TW_CARE, at, "web-thin", tw_format(arena, "the web of %s is less than a quarter of the %s of %s, which keeps "
            "%.0f %% of its bending strength there", say(c, b->q), say(c, b->T), b->over->name, 100.0 * tw_bridle_strength(b)),
            remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housings", third, "deep", TW_ROUND_DOWN);
    } else if (b->depth < DEPTH_LEAST_MM - HAIR_MM) {
        find(c, b->depth <= 0.1 ? TW_HALT : TW_CARE, at, "housing-shallow", tw_format(arena,
            "housings only %s deep hardly keep the prongs from racking", say(c, b->depth)), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housings", tw_max(third, DEPTH_LEAST_MM), "deep", TW_ROUND_UP);
    }
}

static void check_prongs(const checker *c)
{
    const tw_bridle *b = c->b;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = b->spec->depth.given ? &b->spec->depth : NULL;
    const char *remedy = tw_format(arena, "a thicker piece, or deeper housings: the slot takes the web of %s", say(c, b->q));
    if (b->g <= HAIR_MM) {
        find(c, TW_HALT, at, "prong-thin", tw_format(arena, "a slot of %s leaves nothing of %s, which is %s there",
            say(c, b->s), b->forked->name, say(c, b->split)), remedy);
        tw_plan_fix(c->context, c->plan, &b->spec->depth, "Make the housings", b->T / 3.0, "deep", TW_ROUND_UP);
    } else if (b->g < LEFT_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "prong-thin", tw_format(arena, "prongs of %s break off %s", say(c, b->g), b->forked->name), remedy);
        tw_plan_fix(c->context, c->plan, &b->spec->depth, "Make the housings", b->T / 3.0, "deep", TW_ROUND_UP);
    } else if (b->g < b->split / 5.0) {
        find(c, TW_CARE, at, "prong-thin", tw_format(arena, "prongs of %s are thin beside a slot of %s: about a third each is "
            "usual", say(c, b->g), say(c, b->s)), remedy);
        tw_plan_fix(c->context, c->plan, &b->spec->depth, "Make the housings", b->T / 3.0, "deep", TW_ROUND_UP);
    }
    double proud = (b->split - b->T) / 2.0;
    if (fabs(proud) > LEVEL_MM)
        find(c, TW_NOTE, NULL, "prongs-not-level", tw_format(arena, "each prong stands %s %s the side of %s: %s is %s there, the "
            "other piece %s", say(c, fabs(proud)), proud > 0.0 ? "proud of" : "shy of", b->over->name, b->forked->name,
            say(c, b->split), say(c, b->T)), "pieces of one thickness, if they are to be level");
    if (b->S <= 0.1) {
        find(c, TW_HALT, &b->spec->end_room, "room-large", tw_format(arena, "room of %s past the prong's end leaves nothing of a "
            "housing %s long", say(c, b->room), say(c, tw_max(0.0, b->H))), "0.5 mm (1/64 in)");
        tw_plan_fix(c->context, c->plan, &b->spec->end_room, "Leave", tw_customary(c->context, 0.5, 1.0 / 64.0),
            "past the prong's end", TW_ROUND_NEAREST);
    } else if (b->room > ROOM_MOST_MM + HAIR_MM) {
        find(c, TW_CARE, &b->spec->end_room, "room-large", tw_format(arena, "room of %s past the prong's end stays open to be "
            "seen", say(c, b->room)), "0.5 mm (1/64 in)");
        tw_plan_fix(c->context, c->plan, &b->spec->end_room, "Leave", tw_customary(c->context, 0.5, 1.0 / 64.0),
            "past the prong's end", TW_ROUND_NEAREST);
    }
    if (b->body < BODY_LEAST_MM) {
        find(c, TW_HALT, NULL, "body-short", tw_format(arena, "of %s, %s long, only %s is left beside its prongs: they count in "
            "its length", b->forked->name, say(c, b->a.length_mm), say(c, tw_max(0.0, b->body))), "a longer piece");
        tw_piece_fix_size(c->context, b->spec->forked.index, "length", b->a.length_mm + BODY_LEAST_MM - b->body, TW_ROUND_UP);
    }
}

static void check_one_fit(const checker *c, const tw_amount *at, double value, const char *small, const char *large, const char *what)
{
    tw_arena *arena = c->context->arena;
    const char *remedy = c->b->glued ? "0.1 mm (0.004 in)" : "0.2 mm (0.008 in)";
    if (value < -HAIR_MM)
        find(c, TW_HALT, at, small, tw_format(arena, "%s of less than nothing", what), remedy);
    else if (value < CLEARANCE_LEAST_MM - HAIR_MM)
        find(c, TW_CARE, at, small, tw_format(arena, "%s of %s is less than wood holds: it will not go together by hand", what,
            say(c, value)), remedy);
    else if (value > CLEARANCE_MOST_MM + HAIR_MM)
        find(c, TW_CARE, at, large, tw_format(arena, "%s of %s is loose: %s", what, say(c, value),
            c->b->glued ? "glue does not fill it" : "the fork rocks"), remedy);
}

static void check_fit(const checker *c)
{
    const tw_bridle *b = c->b;
    check_one_fit(c, &b->spec->clearance, b->c, "clearance-small", "clearance-large", "a clearance");
    check_one_fit(c, &b->spec->ease, b->ease, "ease-small", "ease-large", "an ease");
    double wide = tw_max(b->B, b->S);
    if (b->glued && wide > WIDE_GLUED_MM + HAIR_MM)
        find(c, TW_CARE, NULL, "glued-wide", tw_format(c->context->arena, "%s is glued across the grain: as the pieces swell and "
            "shrink the glue line works loose", say(c, wide)), tw_format(c->context->arena,
            "at most %s, or glue the middle alone", say(c, WIDE_GLUED_MM)));
}

/* ---- stops and their corners ---- */

static void check_stop(const checker *c)
{
    const tw_bridle *b = c->b;
    tw_arena *arena = c->context->arena;
    if (!b->stopped) return;
    const tw_amount *at = &b->spec->stop_short;
    const char *usual = "12 mm (1/2 in), or a quarter of the piece where that is less";
    if (b->H <= b->R + 0.1 || b->H <= b->depth) {
        find(c, TW_HALT, at, "stop-long", tw_format(arena, "stopped %s short, the housings are %s long across the %s of %s: the "
            "fork has no hold", say(c, b->stop), say(c, tw_max(0.0, b->H)), say(c, b->E), b->over->name), usual);
        tw_plan_fix(c->context, c->plan, at, "Stop them", tw_min(tw_customary(c->context, 12.0, 0.5), b->E / 4.0), "short",
            TW_ROUND_NEAREST);
        tw_plan_fix_word(c->context, c->plan, "housings", "through", "Let the housings run through");
    } else if (b->stop < LEFT_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "stop-thin", tw_format(arena, "only %s of %s is left beyond the stops: it breaks out",
            say(c, b->stop), b->over->name), tw_format(arena, "%s; or `housings: through`", usual));
        tw_plan_fix(c->context, c->plan, at, "Stop them", tw_min(tw_customary(c->context, 12.0, 0.5), b->E / 4.0), "short",
            TW_ROUND_NEAREST);
        tw_plan_fix_word(c->context, c->plan, "housings", "through", "Let the housings run through");
    } else if (b->stop < STOP_LEAST_MM - HAIR_MM) {
        find(c, TW_CARE, at, "stop-thin", tw_format(arena, "%s of %s left beyond the stops hardly holds the edge of the web",
            say(c, b->stop), b->over->name), usual);
        tw_plan_fix(c->context, c->plan, at, "Stop them", tw_min(tw_customary(c->context, 12.0, 0.5), b->E / 4.0), "short",
            TW_ROUND_NEAREST);
        tw_plan_fix_word(c->context, c->plan, "housings", "through", "Let the housings run through");
    }
}

static void check_corners(const checker *c)
{
    const tw_bridle *b = c->b;
    tw_arena *arena = c->context->arena;
    if (b->answer == TW_ANSWER_CHISEL) return;
    tw_place place = b->spec->corners.given ? b->spec->corners.place : c->plan->joint->place;
    double end = b->answer == TW_ANSWER_NOTCH ? b->B - 2.0 * b->answer_mm : b->B;
    if (b->answer_mm >= b->S - 0.1) {
        find_at(c, TW_HALT, place, "corners-large", tw_format(arena, "corners of %s take all of a prong %s long",
            say(c, b->answer_mm), say(c, tw_max(0.0, b->S))), "a smaller cutter, or `corners: chisel`");
        tw_plan_fix_word(c->context, c->plan, "corners", "chisel", "Chop the corners square");
    } else if (end <= 0.1 || end < b->B / 4.0) {
        find_at(c, TW_HALT, place, "corners-large", tw_format(arena, "two notches of %s leave %s of a prong %s wide",
            say(c, b->answer_mm), say(c, tw_max(0.0, end)), say(c, b->B)), "`corners: rounded prong`, or a smaller cutter");
        tw_plan_fix_word(c->context, c->plan, "corners", "rounded prong", "Round the prongs to them");
        tw_plan_fix_word(c->context, c->plan, "corners", "chisel", "Chop the corners square");
    } else if (end < b->B / 2.0) {
        find_at(c, TW_CARE, place, "corners-large", tw_format(arena, "two notches of %s leave only %s of a prong %s wide",
            say(c, b->answer_mm), say(c, end), say(c, b->B)), "`corners: rounded prong`, or a smaller cutter");
        tw_plan_fix_word(c->context, c->plan, "corners", "rounded prong", "Round the prongs to them");
        tw_plan_fix_word(c->context, c->plan, "corners", "chisel", "Chop the corners square");
    }
}

/* ---- grain ---- */

/* Of the wood that is left about the joint only the web can stand with its grain across its load: prongs have theirs along,
 * what is beyond the stops is as long along the grain as it is between the piece's ends. */
static void check_web_grain(const checker *c)
{
    const tw_bridle *b = c->b;
    bool free_edge;
    double high = tw_bridle_web_height(b, &free_edge);
    if (!free_edge || high <= b->w + HAIR_MM || b->q <= HAIR_MM) return;
    find_at(c, TW_CARE, b->spec->housings.place, "bridle-web-short-grain", tw_format(c->context->arena,
        "where the housings run through, the web of %s stands %s high across its grain, is %s long along it and %s thick, and no "
        "thicker wood holds its edges: a fork that leans bends it across the grain, and it breaks along it", b->over->name,
        say(c, high), say(c, b->w), say(c, b->q)), tw_format(c->context->arena, "stop the housings (`housings: stopped`), so "
        "that the full thickness of %s holds the web; or make the fork at least %s wide", b->over->name, say(c, high)));
    tw_plan_fix_word(c->context, c->plan, "housings", "stopped", "Stop the housings");
}

/* ---- along the piece ---- */

static void check_place(const checker *c, const tw_amount *at)
{
    const tw_bridle *b = c->b;
    tw_arena *arena = c->context->arena;
    double relish = tw_min(at->value, b->b.length_mm - at->value) - b->w / 2.0, good = tw_max(b->w / 2.0, 2.0 * b->depth);
    const char *remedy = b->b.length_mm > 2.0 * good + b->w ? tw_format(arena, "between %s and %s", say(c, good + b->w / 2.0),
        say(c, b->b.length_mm - good - b->w / 2.0)) : "a longer piece";
    if (relish <= HAIR_MM) {
        find(c, TW_HALT, at, "housing-off-piece", tw_format(arena, "the housings at %s run %s past the end of %s",
            say(c, at->value), say(c, tw_max(0.0, -relish)), b->over->name), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + b->w / 2.0, b->spec->over.index);
    } else if (relish < RELISH_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "relish-short", tw_format(arena, "only %s of %s is left between the housings at %s and its end: it "
            "breaks out", say(c, relish), b->over->name, say(c, at->value)), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + b->w / 2.0, b->spec->over.index);
    } else if (relish < good - HAIR_MM) {
        find(c, TW_CARE, at, "relish-short", tw_format(arena, "%s of %s is left between the housings at %s and its end: short "
            "grain that a prong may push off", say(c, relish), b->over->name, say(c, at->value)), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + b->w / 2.0, b->spec->over.index);
    }
}

static void check_between(const checker *c)
{
    const tw_bridle *b = c->b;
    tw_arena *arena = c->context->arena;
    const tw_amounts *at = &b->spec->at;
    double good = tw_max(RELISH_LEAST_MM, b->depth);
    for (int i = 1; i < at->count; i++)
        for (int k = 0; k < i; k++) {
            double wood = fabs(at->items[i].value - at->items[k].value) - b->w;
            if (wood >= good - HAIR_MM) continue;
            find(c, wood < RELISH_LEAST_MM - HAIR_MM ? TW_HALT : TW_CARE, &at->items[i], "housings-meet",
                wood < HAIR_MM ? tw_format(arena, "in %s the housings at %s run into those at %s", b->over->name,
                say(c, at->items[i].value), say(c, at->items[k].value)) : tw_format(arena,
                "in %s only %s of wood stands between the housings at %s and those at %s", b->over->name, say(c, wood),
                say(c, at->items[i].value), say(c, at->items[k].value)), tw_format(arena,
                "at least %s apart from middle to middle", say(c, good + b->w)));
            tw_plan_fix_apart(c->context, c->plan, &at->items[i], at->items[k].value, good + b->w, b->b.length_mm);
        }
}

/* ---- tools ---- */

static void check_cutter(const checker *c)
{
    const tw_bridle *b = c->b;
    const tw_bridle_spec *spec = b->spec;
    tw_arena *arena = c->context->arena;
    if (b->sawn) return;
    if (b->cutter < 0 && spec->cutter.given) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s",
            spec->cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (b->cutter < 0) {
        find_at(c, TW_HALT, spec->by.given ? spec->by.place : c->plan->joint->place, "cutter-none",
            tw_format(arena, "the shop has no cutter of at most %s that cuts at its end and %s deep", say(c, b->w),
            say(c, b->depth)), "`by: saw`, or a smaller cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw and chop the housings by hand");
    } else if (b->cutter_d > b->w + HAIR_MM) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-wide", tw_format(arena, "cutter %s is %s wide, the housing only %s",
            spec->cutter.text, say(c, b->cutter_d), say(c, b->w)), "a smaller cutter, or leave `cutter` out");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    }
}

static void check_slot_cutter(const checker *c)
{
    const tw_bridle *b = c->b;
    const tw_bridle_spec *spec = b->spec;
    tw_arena *arena = c->context->arena;
    if (!b->slot_copied) return;
    if (b->slot_cutter < 0 && spec->slot_cutter.given) {
        find_at(c, TW_HALT, spec->slot_cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s",
            spec->slot_cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "slot cutter");
    } else if (b->slot_cutter < 0) {
        find_at(c, TW_HALT, spec->slot_by.place, "cutter-none", tw_format(arena, "the shop has no cutter of at most %s that cuts "
            "at its end and, from both sides, through the %s of %s", say(c, b->s), say(c, b->B), b->forked->name),
            "`slot by: saw`");
        tw_plan_fix_word(c->context, c->plan, "slot by", "saw", "Saw the slots");
    } else if (b->slot_d > b->s + HAIR_MM) {
        find_at(c, TW_HALT, spec->slot_cutter.place, "cutter-wide", tw_format(arena, "cutter %s is %s wide, the slot only %s",
            spec->slot_cutter.text, say(c, b->slot_d), say(c, b->s)), "a smaller cutter, or leave `slot cutter` out");
        tw_plan_fix_leave(c->context, c->plan, "slot cutter");
    }
}

/* Whatever is too small to be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_bridle *b = c->b;
    if (tw_bridle_possible(b) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "housings %s wide, %s deep and %s long, with prongs %s "
        "thick, cannot be cut", say(c, b->w), say(c, b->depth), say(c, b->H), say(c, b->g)),
        "sizes that a cutter can make: some millimetres each way");
}

void tw_bridle_check(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b)
{
    assert(plan->joint->kind >= 0 && plan->joint->kind < TW_JOINT_KINDS_MOST);
    const checker c = { context, plan, b };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_idle(&c);
    check_count(&c);
    check_ends(&c);
    check_web(&c);
    check_prongs(&c);
    check_fit(&c);
    check_stop(&c);
    check_corners(&c);
    check_web_grain(&c);
    for (int i = 0; i < b->spec->at.count; i++) check_place(&c, &b->spec->at.items[i]);
    check_between(&c);
    check_cutter(&c);
    check_slot_cutter(&c);
    check_size(&c, halts_before);
}
