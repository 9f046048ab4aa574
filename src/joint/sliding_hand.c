// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: housings routed by hand between two straight guides, or sawn and chiselled.
 *
 * Between guides, both walls slanting, the guides stay where they are for both cutters. With one slanting wall the straight
 * cutter makes the upright wall first; from its setting each guide moves:
 *
 *     straight    gap = g - ds + bush,  the guide at the upright wall (bush - ds)/2 outside of it           (1)
 *     dovetail    gap = w - D + bush,   the guide at the upright wall (bush - D)/2 outside of it            (2) */
#include "joint/sliding_work.h"

#include <math.h>

static int housings(const tw_sliding *s) { return s->into_pieces * s->spec->at.count; }
static double bush_mm(const tw_sliding_builder *b) { return b->context->shop->followers[b->s->follower].b_mm; }
static const char *dovetail_name(const tw_sliding_builder *b) { return b->context->shop->cutters[b->s->cutter].name; }

/* ---- between guides ---- */

static const char *block_words(const tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    if (!tw_sliding_stopped(s)) return "";
    return tw_format(b->context->arena, " A stop block lies across the gap, %s beyond the housing's end at the %s.", tw_sliding_say(b, (bush_mm(b) - s->cutter_d) / 2.0), tw_face_words[tw_sliding_stop_side(s)]);
}

static tw_work guided(const tw_sliding_builder *b, const char *name, const char *what)
{
    const tw_sliding *s = b->s;
    return (tw_work){ .name = name, .what = what, .way = TW_WAY_ROUTE, .piece = s->spec->into.index, .face = s->from, .down = tw_face_opposite(s->from), .count = housings(s), .pieces = s->into_pieces,
        .places = tw_format(b->context->arena, "%s, every place", tw_face_words[s->from]),
        .test_piece = tw_format(b->context->arena, "an offcut planed with the pieces, %s thick, between the same spacers", tw_sliding_say(b, s->d)),
        .state = "planed to its finished faces, to length, places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = "Guides and piece are clamped to the bench, the clamps clear of the router's way. The motor stands still before the router is lifted off.", .stage = 20 };
}

static void clearing_layer(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    if (s->clear < 0) return;
    const tw_cutter *cutter = &b->context->shop->cutters[s->clear];
    double gap = s->cheeks == 2 ? s->guide_gap : s->g - cutter->d_mm + bush_mm(b);
    const char *where = s->cheeks == 2 ? "alike to both sides of the housing's middle"
                                       : tw_format(arena, "the one at the upright wall %s outside of that wall", tw_sliding_say(b, (bush_mm(b) - cutter->d_mm) / 2.0));
    tw_work work = guided(b, s->cheeks == 2 ? "waste of the housings, between guides" : "upright walls of the housings, between guides",
        tw_format(arena, "Clamp two straight guides square across the piece, %s between them, parted by two spacers, %s. Straight cutter %s, bush %s: clear the housing %s in steps of at most %s, a shaving less deep than the %s it will have.%s",
            tw_sliding_say(b, gap), where, cutter->name, b->context->shop->followers[s->follower].name, tw_sliding_run_words(b), tw_sliding_say(b, tw_customary(b->context, 3.0, 0.125)), tw_sliding_say(b, s->depth), block_words(b)));
    work.measure = "width of the trench";
    work.measure_mm = s->cheeks == 2 ? s->w - s->cutter_d + cutter->d_mm : s->g;
    work.measure_under_mm = s->cheeks == 2 ? -0.2 : -tw_sliding_limit_mm(s);
    work.measure_over_mm = tw_sliding_limit_mm(s);
    work.answer = (tw_answer){ TW_BY_GUIDES, 1.0 };
    work.if_off = "both spacers by the error";
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
}

void tw_sliding_guides_layers(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    clearing_layer(b);
    const char *guides = s->cheeks == 1 ? tw_format(arena, "Set the two guides anew: %s between them, the one at the upright wall %s outside of that wall.", tw_sliding_say(b, s->guide_gap), tw_sliding_say(b, (bush_mm(b) - s->cutter_d) / 2.0))
                       : s->clear >= 0 ? "The guides stay where they are."
                       : tw_format(arena, "Clamp two straight guides square across the piece, %s between them, alike to both sides of the housing's middle.%s", tw_sliding_say(b, s->guide_gap), block_words(b));
    tw_work work = guided(b, "dovetailed housings, between guides", tw_format(arena, "%s Dovetail cutter %s, the same bush, %s deep in one pass %s: along the left guide going out, along the right one coming back, as seen by who pushes away from himself.",
        guides, dovetail_name(b), tw_sliding_say(b, s->depth), tw_sliding_run_words(b)));
    work.cautions = tw_format(arena, "%s\nThe dovetail cutter is set to its depth with the router on the guides, beside the wood, motor off; it goes in and comes out at %s. Never lift the router over the wood: the tip is wider than the cut above it.",
        work.cautions, tw_sliding_stopped(s) ? "the open edge" : "the edges");
    work.measure = "width of the housing at the side";
    work.measure_mm = s->g;
    work.measure_over_mm = tw_sliding_limit_mm(s);
    work.measure_under_mm = -work.measure_over_mm;
    work.answer = tw_sliding_housing_answer(b, false);
    work.if_off = tw_sliding_housing_if_off(b, false);
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- sawn ---- */

void tw_sliding_sawn_layers(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_work work = { .way = TW_WAY_CHISEL, .piece = s->spec->into.index, .face = s->from, .down = tw_face_opposite(s->from), .count = housings(s), .pieces = s->into_pieces,
        .places = "every place", .state = "places knifed", .marks = "face, number of the joint", .stage = 20 };
    if (tw_sliding_stopped(s)) {
        tw_work end = work;
        end.name = "ends of the stopped housings";
        end.what = tw_format(arena, "At the stop bore and chop out %s of the housing to its full depth of %s, as wide as it is at the side: the saw needs that room.", tw_sliding_say(b, tw_max(40.0, 2.0 * s->g)), tw_sliding_say(b, s->depth));
        end.measure = "depth at the stop", end.measure_mm = s->depth, end.measure_over_mm = 0.2, end.if_off = "pare to the gauge line";
        tw_sliding_add(b, end);
        tw_layers_close(&b->layers);
    }
    work.name = "walls of the housings";
    work.what = tw_format(arena, "Plane one edge of a straight batten to %s from square and clamp it on the knife line, in the waste. Saw %s along it, %s deep%s; chop out between from both edges and level the bottom with a hand router plane.",
        tw_angle_text(arena, s->angle), s->cheeks == 2 ? "the two walls" : "the slanting wall", tw_sliding_say(b, s->depth), s->cheeks == 2 ? ", the batten turned round for the second" : ", and the other wall square, along a square batten");
    work.test_piece = "an offcut of the same piece";
    work.measure = "width of the housing at the side", work.measure_mm = s->g, work.measure_under_mm = -tw_sliding_limit_mm(s), work.measure_over_mm = tw_sliding_limit_mm(s);
    work.if_off = "pare the wall with the chisel held against the bevelled batten; if it is too wide, cut the tongue to it";
    work.cautions = "The piece is clamped flat; the saw starts on the line with the thumb behind the batten, not on the line.";
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
}
