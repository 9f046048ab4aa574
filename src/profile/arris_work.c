// SPDX-License-Identifier: GPL-3.0-or-later
/* Chamfers and round-overs: the work, last before fitting, when faces and curves are as they will stay. Across the end grain
 * first, along the grain after: what splits off at the corners goes with the second cut. */
#include "profile/profile.h"

#include "joint/layers.h"
#include "joint/words.h"

#define STAGE 36           // after arches, tapers and rounded ends

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_arris *r; } builder;

static const char *say(const builder *b, double mm) { return tw_say_fine(b->context, mm); }
static const char *word_of(const builder *b) { return b->r->round ? "round-over" : "chamfer"; }

/* "face and face edge; face and back edge": the arrises along the grain, or round the ends. */
static const char *arris_words(const builder *b, bool along)
{
    const char *list = "";
    for (int i = along ? 0 : 4; i < (along ? 4 : TW_ARRIS_COUNT); i++)
        if (b->r->which[i]) list = tw_format(b->context->arena, "%s%s%s and %s (%d)", list, *list ? "; " : "",
            tw_face_words[tw_arrises[i].a], tw_face_words[tw_arrises[i].b], b->r->pieces);
    return list;
}

static tw_work arris_work(const builder *b, bool along, const char *name, tw_way way, const char *what)
{
    const tw_arris *r = b->r;
    int first = along ? 0 : 4;
    while (!r->which[first]) first++;
    tw_face face = tw_arrises[first].a >= TW_SIDE_LEFT_END ? tw_arrises[first].b : tw_arrises[first].a;
    return (tw_work){ .name = name, .what = what, .way = way, .piece = r->spec->piece.index, .face = face,
        .down = tw_face_opposite(face), .count = r->pieces * (along ? r->long_count : r->end_count),
        .pieces = r->pieces, .places = arris_words(b, along), .state = "joints cut, other profiles shaped, surfaces planed",
            .marks = "face, face edge", .stage = STAGE };
}

static const char *stops_words(const builder *b)
{
    const tw_arris *r = b->r;
    tw_arena *arena = b->context->arena;
    if (!r->stopped) return "";
    const char *from = r->from_mm > 0.0 ? tw_format(arena, "begins %s", say(b, r->from_mm)) : "",
        *to = r->to_mm < r->size.length_mm ? tw_format(arena, "ends %s", say(b, r->to_mm)) : "";
    return tw_format(arena, " It %s%s%s from the left end: mark it with a pencil and a stop block.", from, *from && *to ? ", "
        : "", to);
}

static void measured(builder *b, tw_work *work)
{
    work->measure = b->r->round ? "radius, with a gauge" : "width on one side";
    work->measure_mm = b->r->size_mm;
    work->measure_under_mm = -0.3;
    work->measure_over_mm = 0.3;
}

static void add(builder *b, bool along)
{
    const tw_arris *r = b->r;
    tw_arena *arena = b->context->arena;
    const char *name = tw_format(arena, "%s %s", word_of(b), along ? "along the grain" : "round the ends"), *stops = along
        ? stops_words(b) : "";
    tw_work work;
    if (r->made == TW_MADE_ROUTED) {
        work = arris_work(b, along, name, TW_WAY_ROUTE, r->round
            ? tw_format(arena,
                "Rout with a quarter-round cutter of radius %s whose bearing runs on the wood, in two passes, the last one thin.%s",
                say(b, r->size_mm), stops)
            : tw_format(arena,
                "Rout with a cutter of 45 degrees whose bearing runs on the wood, %s deep, in two passes, the last one thin.%s",
                say(b, r->size_mm), stops));
        work.test_piece = "an offcut planed with the pieces";
        work.if_off = r->round ? "the cutter's depth: a step shows when it stands too deep; another cutter for another radius"
            : "the cutter's depth by the error itself";
        work.cautions = "Round the outside of a piece counter-clockwise as seen from the motor. The bearing must find wood: where a joint is cut away it falls in, so stop before it.";
    } else {
        work = arris_work(b, along, name, TW_WAY_PLANE, r->round
            ? tw_format(arena,
                "Gauge %s on both sides of the arris in pencil; plane a flat between the lines, then the two arrises that it makes, and so on till it is round.%s",
                say(b, r->size_mm), stops)
            : tw_format(arena,
                "Gauge %s on both sides of the arris in pencil and plane to the two lines, the plane at 45 degrees.%s", say(b,
                r->size_mm), stops));
        work.if_off = "narrower: plane on; wider: take the others to it";
        if (!along) work.cautions = "Across end grain from both corners towards the middle, a waste block behind: the grain splits where the plane leaves it.";
    }
    measured(b, &work);
    tw_layers_add(&b->layers, work);
    tw_layers_close(&b->layers);
}

void tw_arris_work(tw_joint_context *context, tw_joint_plan *plan, const tw_arris *arris)
{
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .r = arris };
    if (arris->end_count > 0) add(&b, false);
    if (arris->long_count > 0) add(&b, true);
    tw_plan_advice(context, plan, "Leave every arris sharp on which a shoulder stands or a tusk bears.");
    if (arris->end_count > 0 && arris->long_count > 0) tw_plan_advice(context, plan,
        "Round the ends first, along the grain after: the second cut takes what the first has split.");
}
