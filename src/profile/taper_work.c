// SPDX-License-Identifier: GPL-3.0-or-later
/* Taper: the work. A jig holds the piece at the angle: its thin end stands out from the jig's edge by what is taken off. A side
 * that lies opposite one that is cut already wants a wedge of the first waste under it, so that it lies as the first did. */
#include "profile/profile.h"

#include "joint/layers.h"
#include "joint/words.h"

#define STAGE 35
#define SAW_OVER_MM 0.8   // left for the plane: common practice, 1/32 in

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_taper *t; } builder;

static const char *say(const builder *b, double mm) { return tw_say_fine(b->context, mm); }
static const char *end_word(const tw_taper *t) { return t->spec->end.value == 1 ? "right end" : "left end"; }

static tw_work side_work(const builder *b, tw_face side, const char *done, tw_way way, const char *what)
{
    const tw_taper *t = b->t;
    return (tw_work){ .name = tw_format(b->context->arena, "taper of the %s, %s", tw_face_words[side], done), .what = what,
        .way = way, .piece = t->spec->piece.index, .face = side, .down = tw_face_opposite(side),
        .count = t->pieces, .pieces = t->pieces, .places = tw_format(b->context->arena, "%s, towards the %s",
            tw_face_words[side], end_word(t)),
        .state = "joints cut, not yet fitted or glued", .marks = "face, face edge, thin end", .stage = STAGE };
}

static void mark(builder *b)
{
    const tw_taper *t = b->t;
    tw_arena *arena = b->context->arena;
    tw_layers_add(&b->layers, (tw_work){ .name = "taper, marked out", .what = tw_format(arena,
        "Square a line round the piece %s from the %s, where the taper begins; gauge %s in from each shaped side on the end, and join the two on the sides beside it.",
            say(b, t->long_mm), end_word(t), say(b, t->by_mm)),
        .way = TW_WAY_MARK, .piece = t->spec->piece.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = t->pieces,
            .pieces = t->pieces, .places = end_word(t),
        .state = "joints cut, not yet fitted or glued", .marks = "face, face edge, thin end", .stage = STAGE });
    tw_layers_close(&b->layers);
}

static void saw(builder *b, tw_face side)
{
    const tw_taper *t = b->t;
    bool second = (side == TW_SIDE_BACK && t->shaped[TW_SIDE_FACE]) || (side == TW_SIDE_BACK_EDGE
        && t->shaped[TW_SIDE_FACE_EDGE]);
    tw_work work = side_work(b, side, "sawn", TW_WAY_SAW, tw_format(b->context->arena,
        "In a taper jig the piece leans by %s over %s: saw the %s %s off the line, the thin end last to leave the blade%s. The bandsaw does it as well, to the line.",
            say(b, t->by_mm), say(b, t->long_mm),
        tw_face_words[side], say(b, SAW_OVER_MM), second
            ? "; lay the waste of the opposite side under the slope that is there already, so that the piece lies as it did for that side"
            : ""));
    work.cautions = "The jig has a stop behind the piece and toggle clamps that hold it down: no hand holds the piece itself. The thin waste falls free beside the blade and is left until the blade stands.";
    work.measure = tw_format(b->context->arena, "%s left at the %s", side == TW_SIDE_FACE || side == TW_SIDE_BACK ? "thickness"
        : "width", end_word(t));
    double size = side == TW_SIDE_FACE || side == TW_SIDE_BACK ? t->size.thickness_mm : t->size.width_mm;
    work.measure_mm = size - t->by_mm * (second ? 2.0 : 1.0) + SAW_OVER_MM * (second ? 2.0 : 1.0);
    work.measure_under_mm = -SAW_OVER_MM / 2.0;
    work.measure_over_mm = SAW_OVER_MM / 2.0;
    work.if_off = "the jig's fence at the thin end by the error itself";
    tw_layers_add(&b->layers, work);
    tw_layers_close(&b->layers);
}

static void plane(builder *b, tw_face side)
{
    const tw_taper *t = b->t;
    bool across = side == TW_SIDE_FACE || side == TW_SIDE_BACK, both = across ? t->shaped[TW_SIDE_FACE]
        && t->shaped[TW_SIDE_BACK] : t->shaped[TW_SIDE_FACE_EDGE] && t->shaped[TW_SIDE_BACK_EDGE];
    bool last = !both || side == TW_SIDE_BACK || side == TW_SIDE_BACK_EDGE;
    tw_work work = side_work(b, side, "planed", TW_WAY_PLANE,
        "Plane to the line, downhill: from where the taper begins towards the thin end; leave the line itself, and try the side square.");
    if (last) {
        work.measure = tw_format(b->context->arena, "%s left at the %s", across ? "thickness" : "width", end_word(t));
        work.measure_mm = (across ? t->size.thickness_mm : t->size.width_mm) - t->by_mm * (both ? 2.0 : 1.0);
        work.measure_under_mm = -0.3;
        work.measure_over_mm = 0.3;
        work.if_off = "too thick: plane on; too thin: plane the others of the set to it";
    }
    tw_layers_add(&b->layers, work);
}

void tw_taper_work(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *taper)
{
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .t = taper };
    mark(&b);
    for (tw_face side = TW_SIDE_FACE; side <= TW_SIDE_BACK_EDGE; side++)
        if (taper->shaped[side]) saw(&b, side);
    for (tw_face side = TW_SIDE_FACE; side <= TW_SIDE_BACK_EDGE; side++)
        if (taper->shaped[side]) plane(&b, side);
    tw_layers_close(&b.layers);
    tw_plan_advice(context, plan, "Cut the joints first, while the sides are straight and square to each other.");
    tw_plan_advice(context, plan, "Begin the taper beyond the last joint, so that every shoulder stands on a straight side.");
    if (taper->sides > 1) tw_plan_advice(context, plan,
        "Keep the first wedges of waste: they pack the piece up for the sides opposite.");
}
