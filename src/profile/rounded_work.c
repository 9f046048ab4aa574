// SPDX-License-Identifier: GPL-3.0-or-later
/* Rounded end: the work. End grain splits off where a tool leaves it: planes and router come in from the edges towards the
 * middle of the end. */
#include "profile/profile.h"

#include "joint/layers.h"
#include "joint/words.h"

#define STAGE 35
#define SAW_OFF_MM 1.0
#define ROUTE_OFF_MM 2.0

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_rounded *r; } builder;

static const char *say(const builder *b, double mm) { return tw_say(b->context, mm); }

static const char *places(const builder *b)
{
    const tw_rounded *r = b->r;
    const char *corners = r->low && r->high ? "both corners" : r->low ? "corner at the face edge" : "corner at the back edge";
    tw_arena *arena = b->context->arena;
    if (r->left && r->right) return tw_format(arena, "left end, %s (%d); right end, %s (%d)", corners, r->pieces, corners,
        r->pieces);
    return tw_format(arena, "%s, %s (%d)", r->left ? "left end" : "right end", corners, r->pieces);
}

static tw_work end_work(const builder *b, const char *name, tw_way way, const char *what)
{
    const tw_rounded *r = b->r;
    return (tw_work){ .name = name, .what = what, .way = way, .piece = r->spec->piece.index, .face = TW_SIDE_FACE,
        .down = TW_SIDE_BACK, .count = r->pieces * (r->left + r->right), .pieces = r->pieces,
        .places = places(b), .state = "joints cut, to length, not yet fitted or glued", .marks = "face, face edge, left end",
            .stage = STAGE };
}

static void add_measured(builder *b, tw_work work, double limit_mm, const char *if_off)
{
    work.measure = "radius, with a gauge sawn to it or the compass";
    work.measure_mm = b->r->radius_mm;
    work.measure_under_mm = -limit_mm;
    work.measure_over_mm = limit_mm;
    work.if_off = if_off;
    tw_layers_add(&b->layers, work);
    tw_layers_close(&b->layers);
}

static void saw(builder *b, double off_mm)
{
    tw_work work = end_work(b, "rounded end, sawn", TW_WAY_BANDSAW, tw_format(b->context->arena,
        "Saw round the corners, %s off the line in the waste.", say(b, off_mm)));
    work.freehand = true;
    tw_layers_add(&b->layers, work);
    tw_layers_close(&b->layers);
}

static void by_hand(builder *b)
{
    const tw_rounded *r = b->r;
    tw_layers_add(&b->layers, end_work(b, "rounded end, marked out", TW_WAY_MARK, tw_format(b->context->arena,
        "Set a compass to %s; its point stands %s from the end and %s from the edge. Strike the quarter circle on face and back.",
            say(b, r->radius_mm), say(b, r->radius_mm), say(b, r->radius_mm))));
    tw_layers_close(&b->layers);
    saw(b, SAW_OFF_MM);
    tw_work plane = end_work(b, "rounded end, planed", TW_WAY_PLANE,
        "Block plane to the line in short flats, from the edge towards the middle of the end, then a file and a strip of abrasive across the flats. Never off the end: the grain splits there.");
    plane.cautions = "The piece stands upright in the vice, low; a shaving block behind the end grain where the plane would leave it.";
    add_measured(b, plane, 0.5, "work on; an end that came out smaller is the pattern for the others");
}

static void routed(builder *b)
{
    const tw_rounded *r = b->r;
    tw_arena *arena = b->context->arena;
    tw_work make = end_work(b, "template of the rounded end", TW_WAY_MARK, tw_format(arena,
        "Make a template as wide as the piece, its end rounded to a radius of %s (printed full size in profile-lines, and in profiles/ as DXF): a bearing cutter follows it edge for edge. Leave it long enough to clamp behind the router.",
            say(b, r->radius_mm)));
    make.count = make.pieces = 1;
    make.places = "";
    make.state = "flat template stock, as wide as the piece, one end square";
    make.marks = "";
    add_measured(b, make, 0.2, "fair it again, or saw a new one");
    saw(b, ROUTE_OFF_MM);
    tw_work route = end_work(b, "rounded end, routed", TW_WAY_ROUTE, tw_format(arena,
        "Clamp the template flush with end and edges and rout round it with a bearing cutter, from the edge towards the middle of the end%s. The piece is %s thick%s.",
        r->low && r->high ? "; for the other corner turn piece and template over" : "", say(b, r->size.thickness_mm),
            r->size.thickness_mm > 40.0 ? ": half the depth from each face" : ""));
    route.test_piece = tw_format(arena, "an offcut as wide and as thick as the piece, with its end grain (%s by %s)", say(b,
        r->size.width_mm), say(b, r->size.thickness_mm));
    route.cautions = "Light passes: end grain takes the cutter by the corner. The router starts and ends on the template, clear of the wood.";
    add_measured(b, route, 0.3, "the template by the error itself");
}

void tw_rounded_work(tw_joint_context *context, tw_joint_plan *plan, const tw_rounded *rounded)
{
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .r = rounded };
    if (rounded->made == TW_MADE_ROUTED) routed(&b);
    else by_hand(&b);
    tw_plan_advice(context, plan, "Crosscut to length and cut all joints first: they are set from the square end.");
}
