// SPDX-License-Identifier: GPL-3.0-or-later
/* Housing: the checks. Limits are common practice, from memory, unless a comment names something better. A halt stands
 * where the joint cannot be cut or put together, or would break in the making; a care where makers would think twice. */
#include "joint/fix.h"
#include "joint/housing.h"

#include <assert.h>
#include <math.h>

#include "joint/standing.h"
#include "joint/words.h"
#include "piece/pose.h"

#define HAIR_MM 1e-6             // sums of amounts as written come out this near
#define LEFT_LEAST_MM 3.0        // wood under a housing, or between two on opposite sides
#define DEPTH_LEAST_MM 2.0       // shallower, it neither bears nor locates
#define RELISH_LEAST_MM 3.0
#define BETWEEN_LEAST_MM 3.0     // wood between two housings
#define CLEARANCE_LEAST_MM 0.03
#define CLEARANCE_MOST_MM 0.5
#define SHOWS_MM 0.5             // an empty end of a housing that is longer shows
#define BODY_LEAST_MM 10.0

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_housing *h; } checker;

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
    const tw_housing *h = c->h;
    const tw_housing_spec *spec = h->spec;
    tw_arena *arena = c->context->arena;
    bool stopped = h->low_stopped || h->high_stopped;
    if (spec->stop.value != TW_STOP_NONE && !stopped) {
        find_at(c, TW_HALT, spec->stop.place, "stop-side", tw_format(arena, "the housing in the %s runs from the %s to the %s: it has no end at the %s", tw_face_words[h->from],
                tw_face_words[h->low], tw_face_words[h->high], tw_face_words[spec->stop.value - TW_STOP_FACE]),
                tw_format(arena, "`stop: %s`, `stop: %s` or `stop: both`", tw_face_words[h->low], tw_face_words[h->high]));
        tw_plan_fix_word(c->context, c->plan, "stop", tw_face_words[h->low],
            tw_format(arena, "Stop it at the %s", tw_face_words[h->low]));
        tw_plan_fix_word(c->context, c->plan, "stop", tw_face_words[h->high],
            tw_format(arena, "Stop it at the %s", tw_face_words[h->high]));
        tw_plan_fix_leave(c->context, c->plan, "stop");
    }
    if (spec->stop_short.given && !stopped)
        find(c, TW_CARE, &spec->stop_short, "key-idle", "`stop short` is given, but it has no meaning for a housing that runs through", "leave `stop short` out, or say where it stops: `stop`");
    if (spec->stopped_end.given && !stopped) {
        find_at(c, TW_CARE, spec->stopped_end.place, "key-idle", "`stopped end` is given, but it has no meaning for a housing that runs through", "leave `stopped end` out");
        tw_plan_fix_leave(c->context, c->plan, "stopped end");
    }
    if (stopped && h->way == TW_HOUSING_SAW && spec->stopped_end.given && spec->stopped_end.value == 0) {
        find_at(c, TW_CARE, spec->stopped_end.place, "key-idle", "a sawn housing is chopped square at its stop: no round corner is left to notch over", "`stopped end: chisel`");
        tw_plan_fix_word(c->context, c->plan, "stopped end", "chisel", "Chop the stopped end square");
    }
}

static void check_count(const checker *c)
{
    const tw_housing *h = c->h;
    tw_arena *arena = c->context->arena;
    int places = h->into_pieces * h->spec->at.count;
    if (h->joints == places) return;
    find(c, TW_HALT, NULL, "counts-differ", tw_format(arena, "the count of ends is %d (%d x %s, %d each), of housings %d (%d x %s, %d each)", h->joints, h->housed_pieces, h->housed->name,
         h->ends, places, h->into_pieces, h->into->name, h->spec->at.count), "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(c->context, h->spec->housed.index, h->ends, h->spec->into.index, h->spec->at.count);
}

/* Both ends of one piece in two alike pieces: the second stands as the mirror image of the first would. */
static void check_hands(const checker *c)
{
    const tw_housing *h = c->h;
    if (h->ends < 2 || !h->handed) return;
    tw_arena *arena = c->context->arena;
    if (tw_housing_places_symmetric(h)) {
        find(c, TW_NOTE, NULL, "one-is-turned", tw_format(arena, "at the right end of %s stands %s turned end for end, so that its housing opens to the same side", h->housed->name, h->into->name),
             "two pieces, left and right, if its ends are not alike otherwise");
        return;
    }
    tw_place place = h->low_stopped != h->high_stopped ? h->spec->stop.place : h->spec->across.given ? h->spec->across.place : c->plan->joint->place;
    find_at(c, TW_HALT, place, "hands-differ",
            tw_format(arena, "the housings at the two ends of %s are mirror images, and %s cannot be both: its places do not lie alike from both ends", h->housed->name, h->into->name),
            "two pieces and two joints: `ends: left` into the one, `ends: right` into the other, with `stop` or `across` from the other side");
}

/* ---- sizes ---- */

static void check_depth(const checker *c)
{
    const tw_housing *h = c->h;
    const tw_amount *at = &h->spec->depth;
    tw_arena *arena = c->context->arena;
    double left = h->d - h->depth, third = tw_rounded_down(c->context, h->d / 3.0);
    const char *remedy = tw_format(arena, "a third of its thickness, or less: %s", say(c, third));
    if (left <= HAIR_MM) {
        find(c, TW_HALT, at, "housing-deep", tw_format(arena, "a housing %s deep cuts %s in two: it is %s thick there", say(c, h->depth), h->into->name, say(c, h->d)), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housing", third, "deep", TW_ROUND_DOWN);
    } else if (left < LEFT_LEAST_MM - HAIR_MM || h->depth > 2.0 / 3.0 * h->d + HAIR_MM) {
        find(c, TW_HALT, at, "housing-deep", tw_format(arena, "a housing %s deep leaves only %s of %s: it breaks there", say(c, h->depth), say(c, left), h->into->name), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housing", third, "deep", TW_ROUND_DOWN);
    } else if (h->depth > h->d / 3.0 + HAIR_MM) {
        find(c, TW_CARE, at, "housing-deep", tw_format(arena, "a housing %s deep is more than a third of the %s of %s", say(c, h->depth), say(c, h->d), h->into->name), remedy);
        tw_plan_fix(c->context, c->plan, at, "Make the housing", third, "deep", TW_ROUND_DOWN);
    } else if (h->depth < DEPTH_LEAST_MM - HAIR_MM) {
        find(c, h->depth < 0.2 ? TW_HALT : TW_CARE, at, "housing-shallow", tw_format(arena, "a housing only %s deep hardly bears", say(c, h->depth)), h->d >= 3.0 * DEPTH_LEAST_MM ? remedy : "a thicker piece");
        tw_plan_fix(c->context, c->plan, at, "Make the housing", tw_max(third, DEPTH_LEAST_MM), "deep", TW_ROUND_UP);
        tw_piece_fix_depth(c->context, h->spec->into.index, h->from, 3.0 * DEPTH_LEAST_MM, TW_ROUND_UP);
    }
    if (h->l <= 0.1) {
        find(c, TW_HALT, &h->spec->bottom_room, "room-large", tw_format(arena, "room of %s below the end leaves nothing of a housing %s deep", say(c, h->room), say(c, h->depth)), "0.5 mm (1/64 in)");
        tw_plan_fix(c->context, c->plan, &h->spec->bottom_room, "Leave", tw_customary(c->context, 0.5, 1.0 / 64.0),
            "of room below the end", TW_ROUND_NEAREST);
    } else if (h->room > h->depth / 3.0) {
        find(c, TW_CARE, &h->spec->bottom_room, "room-large", tw_format(arena, "room of %s below the end takes much of a housing %s deep", say(c, h->room), say(c, h->depth)), "0.5 mm (1/64 in)");
        tw_plan_fix(c->context, c->plan, &h->spec->bottom_room, "Leave", tw_customary(c->context, 0.5, 1.0 / 64.0),
            "of room below the end", TW_ROUND_NEAREST);
    }
}

static void check_clearance(const checker *c)
{
    const tw_housing *h = c->h;
    tw_arena *arena = c->context->arena;
    const char *remedy = h->glued ? "0.1 mm (0.004 in)" : "0.2 mm (0.008 in)";
    if (h->c < CLEARANCE_LEAST_MM - HAIR_MM)
        find(c, TW_CARE, &h->spec->clearance, "clearance-small", tw_format(arena, "a clearance of %s is less than wood holds: the end will not go in by hand", say(c, h->c)), remedy);
    else if (h->c > CLEARANCE_MOST_MM + HAIR_MM)
        find(c, TW_CARE, &h->spec->clearance, "clearance-large", tw_format(arena, "a clearance of %s is loose: %s", say(c, h->c), h->glued ? "glue does not fill it" : "the piece rocks in its housing"), remedy);
}

static void check_body(const checker *c)
{
    const tw_housing *h = c->h;
    if (h->body >= BODY_LEAST_MM) return;
    find(c, TW_HALT, NULL, "body-short", tw_format(c->context->arena, "of %s, %s long, only %s is left between its ends: what is housed counts in its length", h->housed->name,
         say(c, h->a.length_mm), say(c, tw_max(0.0, h->body))), "a longer piece");
    tw_piece_fix_size(c->context, h->spec->housed.index, "length", h->a.length_mm + BODY_LEAST_MM - h->body, TW_ROUND_UP);
}

/* ---- across the piece ---- */

/* What one end of the housing shows, and whether the stop leaves a housing at all. */
static void check_stop(const checker *c)
{
    const tw_housing *h = c->h;
    tw_arena *arena = c->context->arena;
    if (!h->low_stopped && !h->high_stopped) return;
    double length = h->v1 - h->v0;
    const tw_amount *at = &h->spec->stop_short;
    if (length <= tw_max(h->w, 2.0 * h->radius) + 0.1) {
        find(c, TW_HALT, at, "stop-long", tw_format(arena, "the stop leaves a housing %s long across the %s of %s", say(c, tw_max(0.0, length)), say(c, h->e), h->into->name), "12 mm (1/2 in), or a wider piece");
        tw_plan_fix(c->context, c->plan, at, "Stop it", tw_customary(c->context, 12.0, 0.5), "short", TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "stop");
        return;
    }
    double held = h->wide - h->notch_low - h->notch_high;
    if (held <= 0.1 || held < h->wide / 4.0) {
        find(c, TW_HALT, at, "notch-long", tw_format(arena, "the notch leaves %s of the %s of %s in the housing", say(c, tw_max(0.0, held)), say(c, h->wide), h->housed->name), "a shorter stop, or a wider piece");
        tw_plan_fix(c->context, c->plan, at, "Stop it", tw_customary(c->context, 12.0, 0.5), "short", TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "stop");
        tw_plan_fix_word(c->context, c->plan, "stopped end", "chisel", "Chop the stopped end square");
    } else if (held < h->wide / 2.0) {
        find(c, TW_CARE, at, "notch-long", tw_format(arena, "the notch leaves only %s of the %s of %s in the housing", say(c, held), say(c, h->wide), h->housed->name), "a shorter stop");
        tw_plan_fix(c->context, c->plan, at, "Stop it", tw_customary(c->context, 12.0, 0.5), "short", TW_ROUND_NEAREST);
        tw_plan_fix_leave(c->context, c->plan, "stop");
        tw_plan_fix_word(c->context, c->plan, "stopped end", "chisel", "Chop the stopped end square");
    }
}

/* It stops where the housed piece ends, square, so that nothing shows. */
static void fix_stop(const checker *c, tw_face side, double short_mm)
{
    const char *const word = tw_face_words[side], *const name = c->plan->joint->name;
    tw_plan_fix_word(c->context, c->plan, "stop", word, tw_format(c->context->arena, "Stop it %s short of the %s",
        say(c, short_mm), word));
    const char *const short_path[] = { "joints", name, "stop short" }, *const end_path[] = { "joints", name, "stopped end" };
    const char *written = tw_job_written_length(c->context->arena, c->context->job, short_mm, TW_ROUND_NEAREST);
    tw_find_fix_also(c->context->findings, TW_FILE_JOB, (tw_change){ .kind = TW_CHANGE_SET, .path = short_path, .path_count = 3,
        .value = written });
    tw_find_fix_also(c->context->findings, TW_FILE_JOB, (tw_change){ .kind = TW_CHANGE_SET, .path = end_path, .path_count = 3,
        .value = "chisel" });
}

static void check_one_side(const checker *c, bool low)
{
    const tw_housing *h = c->h;
    tw_arena *arena = c->context->arena;
    tw_face side = low ? h->low : h->high;
    double edge = low ? h->across - h->wide / 2.0 : h->e - h->across - h->wide / 2.0;  // of the housed piece, in from that side
    bool stopped = low ? h->low_stopped : h->high_stopped;
    double starts = !stopped ? 0.0 : low ? h->v0 : h->e - h->v1, empty = edge - starts - (stopped ? h->radius : 0.0);
    if (edge < -SHOWS_MM) {
        find(c, TW_CARE, h->spec->across.given ? &h->spec->across : NULL, "housed-overhangs", tw_format(arena, "%s stands %s over the %s of %s", h->housed->name, say(c, -edge), tw_face_words[side], h->into->name),
             "another `across`, or a narrower piece, unless it is meant");
        tw_plan_fix(c->context, c->plan, &h->spec->across, "Put its middle at", h->e / 2.0, "across", TW_ROUND_NEAREST);
        tw_piece_fix_size(c->context, h->spec->housed.index, "width", 2.0 * tw_min(h->across, h->e - h->across), TW_ROUND_DOWN);
    }
    if (empty > SHOWS_MM) {
        find(c, TW_CARE, stopped && h->spec->stop_short.given ? &h->spec->stop_short : NULL, "housing-shows",
             tw_format(arena, "%s ends %s in from the %s of %s: %s of the housing stays open there", h->housed->name, say(c, edge), tw_face_words[side], h->into->name, say(c, edge - starts)),
             stopped ? tw_format(arena, "stop it %s short", say(c, edge)) : tw_format(arena, "`stop: %s` with `stop short: %s` and `stopped end: chisel`", tw_face_words[side], say(c, edge)));
        if (stopped) tw_plan_fix(c->context, c->plan, &h->spec->stop_short, "Stop it", edge, "short", TW_ROUND_NEAREST);
        else fix_stop(c, side, edge);
    }
}

static void check_across(const checker *c)
{
    const tw_housing *h = c->h;
    tw_arena *arena = c->context->arena;
    if (h->across + h->wide / 2.0 <= h->v0 || h->across - h->wide / 2.0 >= h->v1 || h->across > h->e + h->wide) {
        find(c, TW_HALT, &h->spec->across, "housed-off-piece", tw_format(arena, "%s does not lie over the housing: its middle is %s across, the piece %s", h->housed->name, say(c, h->across), say(c, h->e)),
             tw_format(arena, "the middle: %s", say(c, h->e / 2.0)));
        tw_plan_fix(c->context, c->plan, &h->spec->across, "Put its middle at", h->e / 2.0, "across", TW_ROUND_NEAREST);
        return;
    }
    check_one_side(c, true);
    check_one_side(c, false);
}

/* ---- along the piece ---- */

static void check_place(const checker *c, const tw_amount *at)
{
    const tw_housing *h = c->h;
    tw_arena *arena = c->context->arena;
    double relish = tw_min(at->value, h->b.length_mm - at->value) - h->w / 2.0, good = tw_max(h->w, 2.0 * h->depth);
    const char *remedy = tw_format(arena, "between %s and %s", say(c, good + h->w / 2.0), say(c, h->b.length_mm - good - h->w / 2.0));
    if (relish < -HAIR_MM) {
        find(c, TW_HALT, at, "housing-off-piece", tw_format(arena, "the housing at %s runs %s past the end of %s", say(c, at->value), say(c, -relish), h->into->name), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + h->w / 2.0, h->spec->into.index);
    } else if (relish < RELISH_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "relish-short", tw_format(arena, "only %s of %s is left between the housing at %s and its end: it breaks out", say(c, relish), h->into->name, say(c, at->value)), remedy);
        tw_plan_fix_place(c->context, c->plan, at, good + h->w / 2.0, h->spec->into.index);
    } else if (relish < good - HAIR_MM) {
        find(c, TW_CARE, at, "relish-short", tw_format(arena, "%s of %s is left between the housing at %s and its end: short grain that may split off", say(c, relish), h->into->name, say(c, at->value)),
             tw_format(arena, "%s; or leave the piece over length until the joint is made", remedy));
        tw_plan_fix_place(c->context, c->plan, at, good + h->w / 2.0, h->spec->into.index);
    }
}

/* ---- what other housings take of the same wood ---- */

typedef struct trench { tw_block block; tw_face from; double at_mm; const char *joint; struct trench *next; } trench;

/* What the kind remembers of one piece. */
typedef struct piece_memory { trench *trenches; int count; const char *end_joint[2]; } piece_memory;

#define TRENCHES_MOST 256  // in one piece that are compared with each other; more would be no furniture

static piece_memory *memory_of(const checker *c, int piece)
{
    void **kept = &c->context->kept[c->plan->joint->kind];
    if (!*kept) *kept = TW_NEW_ARRAY(c->context->arena, piece_memory, (size_t)c->context->job->piece_count);
    return (piece_memory *)*kept + piece;
}

static double apart(double low_a, double high_a, double low_b, double high_b) { return tw_max(low_a - high_b, low_b - high_a); }

/* Farther along the piece; of opposite ones a web as thick as it must be. */
static void fix_apart(const checker *c, const tw_amount *at, const trench *mine, const trench *other, double good_mm,
    bool opposite)
{
    const tw_housing *h = c->h;
    double halves = (mine->block.most.x - mine->block.least.x + other->block.most.x - other->block.least.x) / 2.0;
    if (opposite) tw_plan_fix(c->context, c->plan, &h->spec->depth, "Make the housing", (h->d - good_mm) / 2.0, "deep",
        TW_ROUND_DOWN);
    tw_plan_fix_apart(c->context, c->plan, at, other->at_mm, halves + good_mm, h->b.length_mm);
}

static void check_pair(const checker *c, const trench *mine, const trench *other)
{
    tw_arena *arena = c->context->arena;
    const tw_block *a = &mine->block, *b = &other->block;
    double x = apart(a->least.x, a->most.x, b->least.x, b->most.x), y = apart(a->least.y, a->most.y, b->least.y, b->most.y),
           z = apart(a->least.z, a->most.z, b->least.z, b->most.z);
    double wood = tw_max(x, tw_max(y, z));
    bool opposite = x < 0.0 && other->from == tw_face_opposite(mine->from);  // one above the other: a web is left between them
    double good = opposite ? tw_max(LEFT_LEAST_MM, c->h->d / 3.0) : tw_max(BETWEEN_LEAST_MM, c->h->depth);
    if (wood >= good - HAIR_MM) return;
    const tw_amount *at = &c->h->spec->at.items[0];
    for (int i = 0; i < c->h->spec->at.count; i++)
        if (c->h->spec->at.items[i].value == mine->at_mm) at = &c->h->spec->at.items[i];
    const char *whose = other->joint == c->plan->joint->name ? "another of this joint" : other->joint;
    const char *remedy = opposite ? "shallower housings, or places that are not opposite" : "places farther apart";
    if (wood < HAIR_MM) {
        find(c, TW_HALT, at, "housings-meet", tw_format(arena, "in %s the housing at %s runs into %s", c->h->into->name, say(c, mine->at_mm),
             other->joint == c->plan->joint->name ? whose : tw_format(arena, "the one of %s", whose)), remedy);
        fix_apart(c, at, mine, other, good, opposite);
    } else {
        find(c, wood < BETWEEN_LEAST_MM - HAIR_MM ? TW_HALT : TW_CARE, at, "housings-meet", tw_format(arena, "in %s only %s of wood stands between the housing at %s and %s", c->h->into->name, say(c, wood),
             say(c, mine->at_mm), other->joint == c->plan->joint->name ? whose : tw_format(arena, "the one of %s", whose)), remedy);
        fix_apart(c, at, mine, other, good, opposite);
    }
}

static trench trench_at(const tw_housing *h, double at_mm, const char *joint)
{
    bool up = tw_face_below(h->from) == h->low;
    tw_spot a = tw_face_spot(h->b, h->from, at_mm - h->w / 2.0, up ? h->v0 : h->e - h->v1, 0.0);
    tw_spot b = tw_face_spot(h->b, h->from, at_mm + h->w / 2.0, up ? h->v1 : h->e - h->v0, h->depth);
    tw_block block = { { tw_min(a.x, b.x), tw_min(a.y, b.y), tw_min(a.z, b.z) }, { tw_max(a.x, b.x), tw_max(a.y, b.y), tw_max(a.z, b.z) } };
    return (trench){ .block = block, .from = h->from, .at_mm = at_mm, .joint = joint };
}

static void check_meeting(const checker *c)
{
    piece_memory *memory = memory_of(c, c->h->spec->into.index);
    for (int i = 0; i < c->h->spec->at.count && memory->count < TRENCHES_MOST; i++) {
        trench *mine = TW_NEW(c->context->arena, trench);
        *mine = trench_at(c->h, c->h->spec->at.items[i].value, c->plan->joint->name);
        for (const trench *other = memory->trenches; other; other = other->next) check_pair(c, mine, other);
        mine->next = memory->trenches;
        memory->trenches = mine;
        memory->count++;
    }
}

static void check_ends(const checker *c)
{
    const tw_housing *h = c->h;
    piece_memory *memory = memory_of(c, h->spec->housed.index);
    for (int end = 0; end < 2; end++) {
        if (h->spec->ends.value != TW_HOUSED_BOTH && h->spec->ends.value != end) continue;
        if (memory->end_joint[end])
            find(c, TW_HALT, NULL, "end-taken", tw_format(c->context->arena, "the %s end of %s is already housed by %s", end == 0 ? "left" : "right", h->housed->name, memory->end_joint[end]),
                 "another end, or another piece");
        memory->end_joint[end] = c->plan->joint->name;
    }
}

/* ---- tools ---- */

static void check_tools(const checker *c)
{
    const tw_housing *h = c->h;
    const tw_housing_spec *spec = h->spec;
    tw_arena *arena = c->context->arena;
    if (h->way == TW_HOUSING_SAW) return;
    if (h->cutter < 0 && spec->cutter.given) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-unknown", tw_format(arena, "the shop has no cutter named %s", spec->cutter.text), "a name from the shop's list of cutters");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (h->cutter < 0) {
        find_at(c, TW_HALT, spec->by.given ? spec->by.place : c->plan->joint->place, "cutter-none",
                tw_format(arena, "the shop has no cutter of at most %s that cuts at its end and %s deep", say(c, h->w), say(c, h->depth)), "`by: saw`, or a smaller cutter");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw and chop it by hand");
    } else if (!tw_cutter_is_straight(&c->context->shop->cutters[h->cutter])) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-slants", tw_format(arena, "cutter %s is a dovetail cutter, and a plain housing has upright walls", spec->cutter.text), "a straight cutter, or `kind: sliding dovetail`");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    } else if (h->cutter_d > h->w + HAIR_MM) {
        find_at(c, TW_HALT, spec->cutter.place, "cutter-wide", tw_format(arena, "cutter %s is %s wide, the housing only %s", spec->cutter.text, say(c, h->cutter_d), say(c, h->w)),
                "a smaller cutter, or leave `cutter` out");
        tw_plan_fix_leave(c->context, c->plan, "cutter");
    }
    if (h->way != TW_HOUSING_GUIDES || h->cutter < 0) return;
    if (h->follower < 0) {
        find_at(c, TW_HALT, spec->follower.given ? spec->follower.place : spec->by.place, spec->follower.given ? "follower-unknown" : "follower-none",
                spec->follower.given ? tw_format(arena, "the shop has no follower named %s", spec->follower.text)
                                     : tw_format(arena, "the shop has no follower that a cutter of %s passes", say(c, h->cutter_d)), "a follower from the shop's list, or `by: saw`");
        tw_plan_fix_leave(c->context, c->plan, "follower");
        tw_plan_fix_word(c->context, c->plan, "by", "saw", "Saw and chop it by hand");
    } else if (h->guide_gap < h->w - HAIR_MM) {
        find_at(c, TW_HALT, spec->follower.place, "follower-narrow", tw_format(arena, "follower %s is no wider than the cutter, which does not pass it", spec->follower.text), "a wider follower");
        tw_plan_fix_leave(c->context, c->plan, "follower");
    }
}

/* Whatever is too small to be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_housing *h = c->h;
    if (tw_housing_possible(h) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "a housing %s wide, %s deep and %s long cannot be cut", say(c, h->w), say(c, h->depth), say(c, h->v1 - h->v0)),
         "sizes that a cutter can make: some millimetres each way");
}

void tw_housing_check(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h)
{
    assert(plan->joint->kind >= 0 && plan->joint->kind < TW_JOINT_KINDS_MOST);
    const checker c = { context, plan, h };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_said(&c);
    check_count(&c);
    check_hands(&c);
    check_depth(&c);
    check_clearance(&c);
    check_body(&c);
    check_stop(&c);
    check_across(&c);
    for (int i = 0; i < h->spec->at.count; i++) check_place(&c, &h->spec->at.items[i]);
    check_meeting(&c);
    check_ends(&c);
    check_tools(&c);
    check_size(&c, halts_before);
}
