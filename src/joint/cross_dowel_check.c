// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt: the checks. Limits are common practice, from memory, unless a comment names something better; d is the
 * bolt's diameter, dd the cross dowel's. A halt stands where the joint cannot be made or would break; a care where makers
 * would think twice; a note says what to buy or to do later. */
#include "joint/fix.h"
#include "joint/cross_dowel.h"

#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6
#define CLEARANCE_MOST_MM 1.0     // EN 1995-1-1, 10.4.3: holes at most 1 mm larger than the bolt; from memory
#define CLEARANCE_LEAST_MM 0.3    // less, and the bolt must meet the thread without any error
#define WASHER_BOLTS 3.0          // the same clause: washers at least three times the bolt
#define UNDER_LEAST_MM 6.0        // wood of the post under the washer
#define UNDER_GOOD_MM 12.0
#define WALL_LEAST_MM 3.0         // beside any hole
#define WALL_GOOD 1.0             // holes wide
#define RELISH_LEAST 2.0          // cross dowels from the rail's end
#define RELISH_GOOD 4.0
#define DOWEL_WALL_MM 1.0         // steel beside the thread, each side
#define FLOOR_LEAST_MM 2.0        // under a blind hole
#define FLOOR_GOOD_MM 4.0
#define PAST_MUCH_MM 25.0
#define BODY_LEAST_MM 10.0        // between the lengthwise holes of a rail
#define LET_IN_LEAST_MM 2.0
#define OVERHANG_MM 0.5

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_bolted *j; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say_fine(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static const char *named(const checker *c, double length_mm) { return tw_bolted_name(c->context, c->j, length_mm); }

/* ---- what the job says ---- */

static void check_count(const checker *c)
{
    const tw_bolted *j = c->j;
    int places = j->into_pieces * j->spec->at.count;
    if (j->joints == places) return;
    find(c, TW_HALT, NULL, "counts-differ", tw_format(c->context->arena, "the count of ends is %d (%d x %s, %d end%s each), of places %d (%d x %s, %d each)", j->joints, j->rail_pieces, j->rail->name, j->ends,
         j->ends == 1 ? "" : "s", places, j->into_pieces, j->into->name, j->spec->at.count), "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(c->context, j->spec->rail.index, j->ends, j->spec->into.index, j->spec->at.count);
}

static void check_idle(const checker *c)
{
    const tw_bolted *j = c->j;
    const struct { const tw_amount *amount; bool used; const char *key, *when; } keys[] = {
        { &j->spec->counterbore_width, j->k > 0.0, "counterbore width", "where nothing is sunk" }, { &j->spec->peg, j->pegs > 0, "peg", "without pegs" },
        { &j->spec->peg_spacing, j->pegs > 0, "peg spacing", "without pegs" }, { &j->spec->peg_depth, j->pegs > 0, "peg depth", "without pegs" } };
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (keys[i].amount->given && !keys[i].used)
            find(c, TW_CARE, keys[i].amount, "key-idle", tw_format(c->context->arena, "`%s` is given, but it has no meaning %s", keys[i].key, keys[i].when), tw_format(c->context->arena, "leave `%s` out", keys[i].key));
}

/* ---- bolt, washer, hole ---- */

static void check_bolt(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    if (!j->size_sold) {
        find(c, TW_CARE, &j->spec->bolt, "bolt-uncommon", tw_format(arena, "no bolt of %s is commonly sold: head, washer and thread are reckoned in its proportion", say(c, j->size.diameter)),
             "5, 6, 8, 10 or 12 mm; 1/4, 5/16, 3/8 or 1/2 in; or measure what you have and give `washer`, `counterbore` and `dowel`");
        tw_plan_fix(c->context, c->plan, &j->spec->bolt, "Take a bolt of", j->inch
            ? 0.25 * TW_MM_PER_INCH * tw_max(1.0, round(j->size.diameter / (0.125 * TW_MM_PER_INCH)) / 2.0)
            : 2.0 * tw_max(3.0, round(j->size.diameter / 2.0)), "", TW_ROUND_NEAREST);
    }
    double clearance = j->hole - j->size.diameter;
    if (clearance > CLEARANCE_MOST_MM + HAIR_MM) {
        find(c, TW_CARE, &j->spec->hole_clearance, "hole-wide", tw_format(arena, "a hole %s wider than its bolt lets the rail slip under load", say(c, clearance)), "at most 1 mm (1/32 in), or pegs that carry the load");
        tw_plan_fix(c->context, c->plan, &j->spec->hole_clearance, "Bore the hole", tw_customary(c->context, 1.0, 1.0 / 32.0),
            "wider than the bolt", TW_ROUND_NEAREST);
    } else if (clearance < CLEARANCE_LEAST_MM - HAIR_MM) {
        find(c, TW_CARE, &j->spec->hole_clearance, "hole-tight", tw_format(arena, "a hole only %s wider than its bolt does not let it find the thread of the cross dowel", say(c, clearance)), "0.5 mm, or 1 mm from M8 on (1/32 in)");
        tw_plan_fix(c->context, c->plan, &j->spec->hole_clearance, "Bore the hole", tw_customary(c->context, 1.0, 1.0 / 32.0),
            "wider than the bolt", TW_ROUND_NEAREST);
    }
    if (j->washer < j->hole + 2.0) {
        find(c, TW_HALT, &j->spec->washer, "washer-small", tw_format(arena, "a washer of %s falls into a hole of %s", say(c, j->washer), say(c, j->hole)), tw_format(arena, "at least %s across", say(c, WASHER_BOLTS * j->size.diameter)));
        tw_plan_fix(c->context, c->plan, &j->spec->washer, "Take a washer of", WASHER_BOLTS * j->size.diameter, "", TW_ROUND_UP);
    } else if (j->washer < WASHER_BOLTS * j->size.diameter - 0.5) {
        find(c, TW_CARE, &j->spec->washer, "washer-small", tw_format(arena, "a washer of %s is pulled into the wood by a bolt of %s", say(c, j->washer), say(c, j->size.diameter)),
             tw_format(arena, "the large series: at least %s across", say(c, WASHER_BOLTS * j->size.diameter)));
        tw_plan_fix(c->context, c->plan, &j->spec->washer, "Take a washer of", WASHER_BOLTS * j->size.diameter, "", TW_ROUND_UP);
    }
}

static void check_counterbore(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    double under = j->d - j->k - j->h;
    const tw_amount *at = j->spec->counterbore.given || !j->spec->let_in.given ? &j->spec->counterbore : &j->spec->let_in;
    const char *remedy = tw_format(arena, "a shallower counterbore: at most %s", say(c, tw_max(0.0, tw_min(j->d / 2.0, j->d - j->h - UNDER_GOOD_MM))));
    if (under < UNDER_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "post-thin-under-head", under <= 0.0 ? tw_format(arena, "counterbore and let-in end go through %s, which is %s thick there", j->into->name, say(c, j->d))
             : tw_format(arena, "only %s of %s is left between washer and rail: it breaks through", say(c, under), j->into->name), remedy);
        tw_plan_fix(c->context, c->plan, &j->spec->counterbore, "Sink the head", tw_min(j->d / 2.0, j->d - j->h - UNDER_GOOD_MM),
            "", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &j->spec->let_in, "Let the end in by", j->d - j->k - UNDER_GOOD_MM, "", TW_ROUND_DOWN);
    } else if (under < UNDER_GOOD_MM - HAIR_MM) {
        find(c, TW_CARE, at, "post-thin-under-head", tw_format(arena, "%s of %s is left between washer and rail", say(c, under), j->into->name), remedy);
        tw_plan_fix(c->context, c->plan, &j->spec->counterbore, "Sink the head", tw_min(j->d / 2.0, j->d - j->h - UNDER_GOOD_MM),
            "", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &j->spec->let_in, "Let the end in by", j->d - j->k - UNDER_GOOD_MM, "", TW_ROUND_DOWN);
    }
    if (j->k <= 0.0) return;
    if (j->kw < j->washer - HAIR_MM) {
        find(c, TW_HALT, &j->spec->counterbore_width, "counterbore-narrow", tw_format(arena, "a washer of %s does not go into a counterbore of %s", say(c, j->washer), say(c, j->kw)), tw_format(arena, "at least %s", say(c, j->washer + 1.0)));
        tw_plan_fix(c->context, c->plan, &j->spec->counterbore_width, "Make the counterbore", j->washer + 1.0, "wide",
            TW_ROUND_UP);
    } else if (j->spec->head.value == TW_HEAD_HEXAGON && j->kw < 1.4 * j->size.spanner) {
        find(c, TW_CARE, &j->spec->counterbore_width, "counterbore-narrow", tw_format(arena, "a socket spanner round a head of %s across its flats hardly goes into a counterbore of %s", say(c, j->size.spanner), say(c, j->kw)),
             tw_format(arena, "at least %s, or `head: socket`", say(c, 1.4 * j->size.spanner + 1.0)));
        tw_plan_fix(c->context, c->plan, &j->spec->counterbore_width, "Make the counterbore", 1.4 * j->size.spanner + 1.0, "wide",
            TW_ROUND_UP);
        tw_plan_fix_word(c->context, c->plan, "head", "socket", "Take a bolt with a socket head");
    }
}

/* ---- the length ---- */

static void check_length(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = &j->spec->bolt_length;
    double in_thread = tw_min(j->dd + j->past, j->dd), least = j->flush + 2.0 * j->size.pitch, sold = tw_bolt_length_sold(least, j->inch);
    const char *remedy = sold > 0.0 ? named(c, sold) : "threaded rod cut to length, with a nut and a washer for a head";
    if (in_thread <= 0.0) {
        find(c, TW_HALT, at, "bolt-short", tw_format(arena, "a bolt of %s does not reach the cross dowel: its near side is %s under the head", named(c, j->length), say(c, j->flush - j->dd)), remedy);
        if (sold > 0.0) tw_plan_fix(c->context, c->plan, at, "Take a bolt", sold, "long", TW_ROUND_NEAREST);
    } else if (in_thread < j->size.diameter - HAIR_MM) {
        find(c, TW_HALT, at, "bolt-short", tw_format(arena, "a bolt of %s goes only %s into the cross dowel, less than its own thickness: the thread strips", named(c, j->length), say(c, in_thread)), remedy);
        if (sold > 0.0) tw_plan_fix(c->context, c->plan, at, "Take a bolt", sold, "long", TW_ROUND_NEAREST);
    } else if (j->past < -HAIR_MM) {
        find(c, TW_CARE, at, "bolt-short", tw_format(arena, "a bolt of %s ends %s short of the cross dowel's far side", named(c, j->length), say(c, -j->past)), remedy);
        if (sold > 0.0) tw_plan_fix(c->context, c->plan, at, "Take a bolt", sold, "long", TW_ROUND_NEAREST);
    }
    if (j->past > PAST_MUCH_MM) {
        find(c, TW_CARE, at, "bolt-long", tw_format(arena, "a bolt of %s stands %s past the cross dowel: so much deeper must the rail be drilled", named(c, j->length), say(c, j->past)), remedy);
        if (sold > 0.0) tw_plan_fix(c->context, c->plan, at, "Take a bolt", sold, "long", TW_ROUND_NEAREST);
    }
    if (at->given && !tw_bolt_length_is_sold(j->length, j->inch)) {
        find(c, TW_NOTE, at, "bolt-length-uncommon", tw_format(arena, "a bolt %s long is not commonly sold", say(c, j->length)), remedy);
        if (sold > 0.0) tw_plan_fix(c->context, c->plan, at, "Take a bolt", sold, "long", TW_ROUND_NEAREST);
    }
    if (!at->given && sold <= 0.0) find(c, TW_NOTE, NULL, "bolt-length-uncommon", tw_format(arena, "no bolt is commonly sold that is %s long", say(c, least)), remedy);
}

/* The thread must begin before the cross dowel, with what a thinner post lets the bolt go on. */
static void check_thread(const checker *c)
{
    const tw_bolted *j = c->j;
    double need = j->dd + tw_max(j->past, 0.0) + 2.0 * j->size.pitch + j->slack, has = tw_bolt_thread_mm(j->size.diameter, j->length);
    if (need <= has + HAIR_MM) return;
    find(c, TW_NOTE, &j->spec->bolt_length, "thread-short", tw_format(c->context->arena, "the thread is wanted over the last %s; a bolt of %s with a plain shank has it over %s", say(c, need), named(c, j->length), say(c, has)),
         "ask for bolts that are threaded all along, or thread them on with a die");
}

static void check_slack(const checker *c)
{
    const tw_bolted *j = c->j;
    if (j->slack <= 0.0) return;
    find(c, TW_NOTE, NULL, "bolt-slack", tw_format(c->context->arena, "from a damp season to a dry one %s loses about %s under the head, and the bolt goes slack", j->into->name, say(c, j->slack)),
         "tighten it after some weeks in the heated room and once in each dry season; never so hard that the washer sinks");
}

/* ---- the cross dowel ---- */

static void check_dowel(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = &j->spec->dowel_length;
    const char *side = tw_face_words[j->dowel_face], *other = tw_face_words[tw_face_opposite(j->dowel_face)];
    double beyond = j->beyond - j->dl / 2.0;
    if (j->dd < j->size.diameter + 2.0 * DOWEL_WALL_MM - HAIR_MM) {
        find(c, TW_HALT, &j->spec->dowel, "dowel-thin", tw_format(arena, "a cross dowel of %s cannot be tapped for a bolt of %s", say(c, j->dd), say(c, j->size.diameter)), tw_format(arena, "about %s", say(c, j->size.dowel)));
        tw_plan_fix(c->context, c->plan, &j->spec->dowel, "Take a cross dowel of", j->size.dowel, "", TW_ROUND_UP);
    }
    if (j->dl < j->dd - HAIR_MM) {
        find(c, TW_CARE, at, "dowel-short", tw_format(arena,
            "a cross dowel %s long is shorter than it is thick: it bears on little wood and tips", say(c, j->dl)),
            tw_format(arena, "%s or more", say(c, j->dd)));
        tw_plan_fix(c->context, c->plan, at, "Take a cross dowel", j->dd, "long", TW_ROUND_UP);
    }
    if (j->to_axis < j->dl / 2.0 - HAIR_MM) {
        find(c, TW_HALT, at, "dowel-proud", tw_format(arena, "the bolt lies %s from the %s: with its thread there a dowel %s long stands out", say(c, j->to_axis), side, say(c, j->dl)), tw_format(arena, "at most %s long, or the bolt farther from the %s", say(c, 2.0 * j->to_axis), side));
        tw_plan_fix(c->context, c->plan, at, "Take a cross dowel", 2.0 * j->to_axis, "long", TW_ROUND_DOWN);
    }
    if (beyond < FLOOR_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "dowel-breaks-through", beyond <= 0.0 ? tw_format(arena, "the cross dowel's hole comes out at the %s of %s", other, j->rail->name) : tw_format(arena, "only %s is left between the cross dowel's hole and the %s of %s", say(c, beyond), other, j->rail->name),
             tw_format(arena, "a cross dowel of at most %s, or bored from the %s", say(c, tw_max(0.0, 2.0 * (j->beyond - FLOOR_GOOD_MM))), other));
        tw_plan_fix(c->context, c->plan, at, "Take a cross dowel", 2.0 * (j->beyond - FLOOR_GOOD_MM), "long", TW_ROUND_DOWN);
        tw_plan_fix_word(c->context, c->plan, "dowel from", other, tw_format(arena, "Bore it from the %s", other));
    } else if (beyond < FLOOR_GOOD_MM - HAIR_MM) {
        find(c, TW_CARE, at, "dowel-breaks-through", tw_format(arena, "%s is left between the cross dowel's hole and the %s of %s: the point of the bit comes through", say(c, beyond), other, j->rail->name), "a bit with a short point, or a shorter cross dowel");
        tw_plan_fix(c->context, c->plan, at, "Take a cross dowel", 2.0 * (j->beyond - FLOOR_GOOD_MM), "long", TW_ROUND_DOWN);
        tw_plan_fix_word(c->context, c->plan, "dowel from", other, tw_format(arena, "Bore it from the %s", other));
    }
    if (j->s < RELISH_GOOD * j->dd - HAIR_MM) {
        find(c, j->s < RELISH_LEAST * j->dd - HAIR_MM ? TW_HALT : TW_CARE, &j->spec->dowel_from_end, "relish-short",
             tw_format(arena, "only %s of wood stands between the cross dowel and the rail's end: it shears out along the grain", say(c, tw_max(0.0, j->s - j->dd / 2.0))), tw_format(arena, "`dowel from end` of at least %s", say(c, RELISH_GOOD * j->dd)));
        tw_plan_fix(c->context, c->plan, &j->spec->dowel_from_end, "Set the cross dowel", RELISH_GOOD * j->dd, "from the end",
            TW_ROUND_UP);
    }
}

/* ---- wood beside the holes ---- */

/* Returns whether there is a finding. */
static bool check_wall(const checker *c, const tw_amount *at, double wall, double good, const char *code, const char *hole,
    const char *where, const char *remedy)
{
    tw_arena *arena = c->context->arena;
    if (wall >= good - HAIR_MM) return false;
    find(c, wall < tw_min(WALL_LEAST_MM, good) - HAIR_MM ? TW_HALT : TW_CARE, at, code, wall <= 0.0 ? tw_format(arena, "the %s runs out at %s", hole, where) : tw_format(arena, "only %s of wood stands between the %s and %s", say(c, wall), hole, where), remedy);
    return true;
}

static void check_rail_walls(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    bool level = tw_bolted_level(j);
    double z = tw_min(j->z, j->a.thickness_mm - j->z), y = tw_min(j->y, j->a.width_mm - j->y), across = level ? y : z;
    const char *cheek = tw_format(arena, "the %s of %s", j->z <= j->a.thickness_mm / 2.0 ? "back" : "face", j->rail->name), *edge = tw_format(arena, "the %s of %s", j->y <= j->a.width_mm / 2.0 ? "face edge" : "back edge", j->rail->name);
    check_wall(c, j->spec->from_back.given ? &j->spec->from_back : &j->spec->bolt, z - j->hole / 2.0, tw_max(4.0, WALL_GOOD * j->hole * 0.8), "bolt-wall-thin", "hole of the bolt", cheek, "the middle of the thickness, or a thinner bolt");
    check_wall(c, &j->spec->from_edge, y - j->hole / 2.0, tw_max(4.0, WALL_GOOD * j->hole), "bolt-wall-thin", "hole of the bolt", edge, "nearer to the middle of the rail's width");
    check_wall(c, level ? &j->spec->from_edge : &j->spec->from_back, across - j->dd / 2.0, WALL_GOOD * j->dd, "dowel-wall-thin", "hole of the cross dowel", level ? edge : cheek, "nearer to the middle of the rail, or a thinner cross dowel");
    double left = j->a.length_mm - j->ends * j->b_depth;
    if (left < BODY_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, NULL, "holes-meet", tw_format(arena, "lengthwise holes of %s leave %s of %s between them", say(c, j->b_depth), say(c, tw_max(left, 0.0)), j->rail->name), "a longer rail, or cross dowels nearer to its ends");
        tw_piece_fix_size(c->context, j->spec->rail.index, "length", j->ends * j->b_depth + BODY_LEAST_MM, TW_ROUND_UP);
        tw_plan_fix(c->context, c->plan, &j->spec->dowel_from_end, "Set the cross dowel", 4.0 * j->dd, "from the end",
            TW_ROUND_DOWN);
    }
}

static void check_post_walls(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    double wide = j->k > 0.0 ? j->kw : j->hole, good = tw_max(4.0, 0.25 * wide);
    const char *what = j->k > 0.0 ? "counterbore" : "hole of the bolt";
    check_wall(c, &j->spec->across, tw_min(j->across, j->e - j->across) - wide / 2.0, good, "post-wall-thin", what,
               tw_format(arena, "the %s of %s", tw_face_words[j->across <= j->e / 2.0 ? j->down : tw_face_opposite(j->down)], j->into->name), j->spec->across.given ? tw_format(arena, "the middle: across %s", say(c, j->e / 2.0)) : "a smaller washer, or a wider piece");
    for (int i = 0; i < j->spec->at.count; i++) {
        const tw_amount *at = &j->spec->at.items[i];
        bool near_ = check_wall(c, at, tw_min(at->value, j->b.length_mm - at->value) - wide / 2.0, tw_max(10.0, wide / 2.0),
            "relish-short", what, tw_format(arena, "the end of %s", j->into->name),
            tw_format(arena, "at least %s from the end to the bolt", say(c, tw_max(10.0, wide / 2.0) + wide / 2.0)));
        if (near_) tw_plan_fix_place(c->context, c->plan, at, tw_max(10.0, wide / 2.0) + wide / 2.0, j->spec->into.index);
    }
}

/* ---- what keeps the rail from turning ---- */

static void check_let_in(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    if (!j->spec->let_in.given) return;
    if (tw_bolted_one_sided(j))
        find(c, TW_HALT, j->along ? &j->spec->from_back : &j->spec->from_edge, "let-in-one-sided", tw_format(arena, "the bolt is out of the middle of the rail's %s, so the housing lies on opposite sides of it at the two ends", j->along ? "thickness" : "width"), "the middle, or a joint of its own for each end");
    if (j->h < LET_IN_LEAST_MM) {
        find(c, TW_CARE, &j->spec->let_in, "let-in-shallow", tw_format(arena,
            "an end let in by %s hardly keeps the rail from turning", say(c, j->h)), "3 to 6 mm (1/8 to 1/4 in)");
        tw_plan_fix(c->context, c->plan, &j->spec->let_in, "Let the end in by", tw_customary(c->context, 5.0, 0.1875), "",
            TW_ROUND_NEAREST);
    } else if (j->h > j->d / 3.0 + HAIR_MM) {
        find(c, TW_CARE, &j->spec->let_in, "let-in-deep", tw_format(arena, "an end let in by %s takes more than a third of %s",
            say(c, j->h), j->into->name), "3 to 6 mm (1/8 to 1/4 in)");
        tw_plan_fix(c->context, c->plan, &j->spec->let_in, "Let the end in by",
            tw_min(tw_customary(c->context, 5.0, 0.1875), j->d / 3.0), "", TW_ROUND_DOWN);
    }
}

static void check_pegs_in_post(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    double floor_mm = j->d - j->h - j->peg_hole, reach = j->peg_spacing / 2.0 + j->peg / 2.0, good = tw_max(4.0, j->peg / 2.0);
    const char *remedy = tw_format(arena, "`peg depth` of at most %s", say(c, tw_max(0.0, j->d - j->h - FLOOR_GOOD_MM - (j->peg_hole - j->peg_depth))));
    if (floor_mm < FLOOR_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, &j->spec->peg_depth, "peg-deep", tw_format(arena, "the holes of the pegs come out on the %s of %s",
            tw_face_words[j->far_], j->into->name), remedy);
        tw_plan_fix(c->context, c->plan, &j->spec->peg_depth, "Let the pegs go",
            j->d - j->h - FLOOR_GOOD_MM - (j->peg_hole - j->peg_depth), "deep", TW_ROUND_DOWN);
    } else if (floor_mm < FLOOR_GOOD_MM - HAIR_MM) {
        find(c, TW_CARE, &j->spec->peg_depth, "peg-deep", tw_format(arena, "%s is left under the holes of the pegs in %s",
            say(c, floor_mm), j->into->name), remedy);
        tw_plan_fix(c->context, c->plan, &j->spec->peg_depth, "Let the pegs go",
            j->d - j->h - FLOOR_GOOD_MM - (j->peg_hole - j->peg_depth), "deep", TW_ROUND_DOWN);
    }
    if (j->k > 0.0 && j->h + j->peg_hole > j->d - j->k - 2.0 && j->peg_spacing / 2.0 < j->kw / 2.0 + j->peg / 2.0) {
        find(c, TW_HALT, &j->spec->peg_depth, "peg-deep", "the holes of the pegs run into the counterbore", "shallower, or farther apart");
        tw_plan_fix(c->context, c->plan, &j->spec->peg_depth, "Let the pegs go",
            j->d - j->k - 2.0 - j->h - (j->peg_hole - j->peg_depth), "deep", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &j->spec->peg_spacing, "Set the pegs", j->kw + j->peg + 1.0, "apart", TW_ROUND_UP);
    }
    if (!j->along) check_wall(c, &j->spec->peg_spacing, tw_min(j->across, j->e - j->across) - reach, good, "peg-wall-thin", "hole of a peg", tw_format(arena, "a side of %s", j->into->name), "a smaller `peg spacing`");
    else check_wall(c, &j->spec->across, tw_min(j->across, j->e - j->across) - j->peg / 2.0, good, "peg-wall-thin", "hole of a peg", tw_format(arena, "a side of %s", j->into->name), "thinner pegs");
    for (int i = 0; i < j->spec->at.count && j->along; i++)
        check_wall(c, &j->spec->at.items[i], tw_min(j->spec->at.items[i].value, j->b.length_mm - j->spec->at.items[i].value) - reach, tw_max(good, 6.0), "peg-wall-thin", "hole of a peg", tw_format(arena, "the end of %s", j->into->name), "a smaller `peg spacing`, or farther from the end");
}

static void check_pegs_in_rail(const checker *c)
{
    const tw_bolted *j = c->j;
    tw_arena *arena = c->context->arena;
    double good = tw_max(4.0, j->peg / 2.0), beside = j->peg_spacing / 2.0 - j->peg / 2.0 - j->hole / 2.0, edge = tw_min(j->y, j->a.width_mm - j->y) - j->peg_spacing / 2.0 - j->peg / 2.0;
    if (j->pegs == 1) edge = j->y - j->peg_spacing / 2.0 - j->peg / 2.0;
    bool thin = check_wall(c, &j->spec->peg_spacing, edge, good, "peg-wall-thin", "hole of a peg",
        tw_format(arena, "an edge of %s", j->rail->name), "a smaller `peg spacing`");
    if (thin) {
        tw_plan_fix_proposed(c->context, c->plan, &j->spec->from_edge);
        tw_plan_fix(c->context, c->plan, &j->spec->peg_spacing, "Set the pegs", j->peg_spacing - 2.0 * (good - edge), "apart",
            TW_ROUND_DOWN);
    }
    thin = check_wall(c, &j->spec->peg, tw_min(j->z, j->a.thickness_mm - j->z) - j->peg / 2.0, good, "peg-wall-thin",
        "hole of a peg", tw_format(arena, "a face of %s", j->rail->name), "thinner pegs");
    if (thin) {
        tw_plan_fix_proposed(c->context, c->plan, &j->spec->from_back);
        tw_plan_fix(c->context, c->plan, &j->spec->peg, "Take pegs of", 2.0 * (tw_min(j->z, j->a.thickness_mm - j->z) - good), "",
            TW_ROUND_DOWN);
    }
    thin = check_wall(c, &j->spec->peg_spacing, beside, good, "peg-near-bolt", "hole of a peg", "the hole of the bolt",
        tw_format(arena, "`peg spacing` of at least %s", say(c, j->peg_spacing + 2.0 * (good - beside))));
    if (thin) tw_plan_fix(c->context, c->plan, &j->spec->peg_spacing, "Set the pegs", j->peg_spacing + 2.0 * (good - beside),
        "apart", TW_ROUND_UP);
    bool in_way = !tw_bolted_level(j) || j->peg_spacing / 2.0 - j->peg / 2.0 - j->dd / 2.0 < WALL_LEAST_MM;
    if (in_way && j->peg_hole > j->s - j->dd / 2.0 - WALL_LEAST_MM) {
        find(c, TW_HALT, &j->spec->peg_depth, "peg-meets-dowel", tw_format(arena, "the holes of the pegs, %s deep, run into the cross dowel's", say(c, j->peg_hole)), "shorter pegs, or the cross dowel farther from the end");
        tw_plan_fix(c->context, c->plan, &j->spec->peg_depth, "Let the pegs go",
            j->s - j->dd / 2.0 - WALL_LEAST_MM - (j->peg_hole - j->peg_depth), "deep", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &j->spec->dowel_from_end, "Set the cross dowel",
            j->peg_hole + j->dd / 2.0 + WALL_LEAST_MM, "from the end", TW_ROUND_UP);
    }
}

static void check_turning(const checker *c)
{
    const tw_bolted *j = c->j;
    if (j->pegs == 0 && !j->spec->let_in.given) {
        find(c, TW_CARE, &j->spec->pegs, "rail-turns", tw_format(c->context->arena, "nothing keeps %s from turning on its bolt", j->rail->name), "`pegs: 2`, or `let in: 5 mm`");
        tw_plan_fix(c->context, c->plan, &j->spec->pegs, "Set", 2.0, "pegs beside the bolt", TW_ROUND_NEAREST);
        tw_plan_fix(c->context, c->plan, &j->spec->let_in, "Let the end in by", tw_customary(c->context, 5.0, 0.1875), "",
            TW_ROUND_NEAREST);
    }
    if (j->pegs == 1 && !j->along && j->ends == 2) {
        find(c, TW_HALT, &j->spec->pegs, "peg-one-sided", "a rail that lies across, bolted at both ends, has its single peg on opposite sides of the two bolts", "`pegs: 2`, or a joint of its own for each end");
        tw_plan_fix(c->context, c->plan, &j->spec->pegs, "Set", 2.0, "pegs beside the bolt", TW_ROUND_NEAREST);
    }
    check_let_in(c);
    if (j->pegs == 0) return;
    check_pegs_in_rail(c);
    check_pegs_in_post(c);
}

/* ---- the two as they stand ---- */

static void check_overhang(const checker *c)
{
    const tw_bolted *j = c->j;
    double size = j->along ? j->a.thickness_mm : j->a.width_mm, middle = j->along ? j->z : j->y, over = tw_max(middle, size - middle) - tw_min(j->across, j->e - j->across);
    if (over < OVERHANG_MM) return;
    find(c, TW_CARE, &j->spec->across, "end-overhangs", tw_format(c->context->arena, "the end of %s stands up to %s over the side of %s", j->rail->name, say(c, over), j->into->name), "a thicker post, or the bolt out of the middle of the end");
}

static void check_size(const checker *c, size_t halts_before)
{
    if (tw_bolted_possible(c->j) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "a bolt of %s and a cross dowel of %s do not find room in %s and %s", say(c, c->j->size.diameter), say(c, c->j->dd), c->j->rail->name, c->j->into->name), "larger pieces, or a thinner bolt");
}

void tw_bolted_check(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j)
{
    const checker c = { context, plan, j };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_count(&c);
    check_idle(&c);
    check_bolt(&c);
    check_counterbore(&c);
    check_length(&c);
    check_thread(&c);
    check_slack(&c);
    check_dowel(&c);
    check_rail_walls(&c);
    check_post_walls(&c);
    check_turning(&c);
    check_overhang(&c);
    check_size(&c, halts_before);
}
