// SPDX-License-Identifier: GPL-3.0-or-later
/* Arch: the work, after the joints are cut, while they still have straight edges to be set from.
 *
 * Copied: the shaped side looks up, the opposite one lies on the table; the pocket runs on past the side by more than a
 * cutter's width, so that the corners that the cutter cannot reach lie outside the wood. */
#include "profile/profile.h"

#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"

#define STAGE 35                // after the joints at the machines (20 to 34), before they are fitted (40)
#define SAW_OFF_MM 1.0          // a saw stays so far off a line that is worked to by hand
#define RELIEF_UNDER_MM 50.0    // a 10 mm (3/8 in) blade turns some 38 mm (1 1/2 in): common practice
#define ROUTE_OFF_MM 2.0        // and so far off a line that is routed to: the router takes no more

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_arch *a; } builder;

static const char *say(const builder *b, double mm) { return tw_say(b->context, mm); }
static double middle_mm(const tw_arch *a) { return (a->from_mm + a->to_mm) / 2.0; }

/* What is alike in all works of the arch. */
static tw_work arch_work(const builder *b, const char *name, tw_way way, const char *what)
{
    const tw_arch *a = b->a;
    return (tw_work){ .name = name, .what = what, .way = way, .piece = a->spec->piece.index, .face = a->side.seen,
        .down = tw_face_opposite(a->side.seen),
        .count = a->pieces, .pieces = a->pieces, .places = tw_format(b->context->arena, "%s, its middle %s from the left end",
            tw_face_words[a->side.side], say(b, middle_mm(a))),
        .state = "joints cut, not yet fitted or glued", .marks = "face, face edge, left end", .stage = STAGE };
}

static void add_measured(builder *b, tw_work work, double limit_mm, const char *if_off)
{
    work.measure = tw_format(b->context->arena, "rise in the middle of the arch, from a straight edge laid across the %s",
        tw_face_words[b->a->side.side]);
    work.measure_mm = b->a->segment.rise_mm;
    work.measure_under_mm = -limit_mm;
    work.measure_over_mm = limit_mm;
    work.if_off = if_off;
    tw_layers_add(&b->layers, work);
}

static void saw_waste(builder *b, double off_mm, const char *line)
{
    const char *relief = b->a->segment.radius_mm < RELIEF_UNDER_MM ? "; relief cuts first, for a radius so tight the blade binds"
        : "";
    tw_work saw = arch_work(b, "arch, sawn", TW_WAY_BANDSAW, tw_format(b->context->arena,
        "Saw along %s, %s off it in the waste, from each end of the arch towards its middle%s.", line, say(b, off_mm), relief));
    saw.freehand = true;
    saw.cautions = "Back out of a curve only with the blade at rest.";
    tw_layers_add(&b->layers, saw);
    tw_layers_close(&b->layers);
}

/* ---- by hand ---- */

static void by_hand(builder *b)
{
    const tw_arch *a = b->a;
    tw_work mark = arch_work(b, "arch, marked out", TW_WAY_MARK, tw_format(b->context->arena,
        "Square the middle of the arch across the %s, %s from the left end. Prick the places of the table on the profile's sheet to both sides of it, bend a thin lath through them and draw along it%s.",
        tw_face_words[a->side.seen], say(b, middle_mm(a)), a->pieces > 1
            ? "; do this once, on thin stock sawn to the line, and draw round that on every piece" : ""));
    tw_layers_add(&b->layers, mark);
    tw_layers_close(&b->layers);
    saw_waste(b, SAW_OFF_MM, "the line");
    tw_work shave = arch_work(b, "arch, spokeshaved", TW_WAY_PLANE,
        "Spokeshave to the line with a round sole, downhill: from each end of the arch towards its middle, never up the other side. Try it square from face to back.");
    shave.cautions = "The piece stands fast in the vice, the arch up; both hands on the tool.";
    add_measured(b, shave, 0.5,
        "too low: shave on, the middle first; too high by a little: shave the others to it, for an arch has no mate");
}

/* ---- routed along a full-size template ---- */

static void routed(builder *b)
{
    const tw_arch *a = b->a;
    tw_arena *arena = b->context->arena;
    tw_work make = arch_work(b, "template of the arch", TW_WAY_MARK, tw_format(arena,
        "Make a template of %s stock, longer than the arch by a hand's breadth at both ends: its edge is the arch itself, full size, for a cutter whose bearing is as wide as the cutter. Its curve is printed full size (profile-lines) and stands in profiles/ as DXF; or prick the places of the table; fair it by hand: every fault of its edge comes out on all pieces.",
        b->context->shop->strip_thickness.value > 0.0 ? say(b, b->context->shop->strip_thickness.value) : "sound sheet"));
    make.count = make.pieces = 1;
    make.places = "";
    make.state = "flat template stock, one long edge straight";
    make.marks = "the middle of the arch, the left end";
    add_measured(b, make, 0.2, "fair it again, or saw a new one");
    tw_layers_close(&b->layers);
    saw_waste(b, ROUTE_OFF_MM, "the line drawn round the template");
    tw_work route = arch_work(b, "arch, routed", TW_WAY_ROUTE, tw_format(arena,
        "Fix the template to the piece, its middle on the mark, and rout to it with a bearing cutter that cuts at least %s%s. Cut downhill: from each end towards the middle; for the half that would run uphill turn piece and template over.",
        say(b, a->side.deep_mm / 2.0 + TW_PROFILE_BREAK_MM), a->side.deep_mm > 40.0 ? ", half the depth from each face" : ""));
    route.test_piece = tw_format(arena, "an offcut as thick as the piece (%s)", say(b, a->side.deep_mm));
    route.cautions = "Light passes; the router starts and ends on the template, clear of the wood. Template and piece are screwed or clamped, and clamped again when they are turned.";
    add_measured(b, route, 0.3, "the template by the error itself; where the router left the template, go round once more");
}

/* ---- copied at the machine ---- */

static tw_copy_want copy_want(const builder *b, bool both)
{
    const tw_arch *a = b->a;
    const tw_cutter *cutter = a->cutter >= 0 ? &b->context->shop->cutters[a->cutter] : NULL;
    double over = (cutter ? cutter->d_mm : 2.0 * a->segment.radius_mm) + TW_PROFILE_OVER_MM, middle = middle_mm(a);
    bool right = middle > a->side.long_mm / 2.0 + 1e-6;
    tw_outline pocket = tw_outline_moved(b->context->arena, tw_arch_pocket(b->context->arena, a->segment, over), 0.0,
        (a->segment.rise_mm - over) / 2.0);
    return (tw_copy_want){ .cut = pocket, .inside = true, .depth_mm = (both ? a->side.deep_mm / 2.0
        : a->side.deep_mm) + TW_PROFILE_BREAK_MM, .both_faces = both,
        .cutter = a->spec->cutter.given ? a->spec->cutter.text : cutter ? cutter->name : NULL,
            .follower = a->spec->follower.given ? a->spec->follower.text : NULL,
        .cutter_most_mm = 2.0 * a->segment.radius_mm, .locate = TW_LOCATE_CENTRED, .stop_end = right ? TW_SIDE_RIGHT_END
            : TW_SIDE_LEFT_END,
        .stop_to_origin_mm = right ? a->side.long_mm - middle : middle, .stop_word = right ? "right end" : "left end",
        .down_to_origin_mm = a->side.wide_mm + (over - a->segment.rise_mm) / 2.0, .corner_word = "lies outside the wood" };
}

static void copied(builder *b)
{
    const tw_arch *a = b->a;
    tw_arena *arena = b->context->arena;
    bool both = a->cutter >= 0
        && b->context->shop->cutters[a->cutter].cutting_length.value < a->side.deep_mm + TW_PROFILE_BREAK_MM;
    tw_work copy = arch_work(b, "arch", TW_WAY_COPY, tw_format(arena, "Copy the arch right through, the %s up%s.",
        tw_face_words[a->side.side],
        both ? "; half from this face, then turn the piece end for end and the stop to the other side, at the same distance, for the other half"
            : ""));
    copy.down = tw_face_opposite(a->side.side);
    copy.copied = true;
    copy.copy = copy_want(b, both);
    copy.test_piece = tw_format(arena, "an offcut as thick as the piece (%s), at least as long as the arch", say(b,
        a->side.deep_mm));
    copy.cautions = "A board behind the piece takes the splinters where the cutter breaks out; the clamps stand clear of the arch.";
    copy.answer = (tw_answer){ TW_BY_TABLE, 1.0 };
    add_measured(b, copy, 0.3, "the table by the error itself: up when the arch is too low");
}

void tw_arch_work(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *arch)
{
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .a = arch };
    switch (arch->made) {
    case TW_MADE_COPIED: copied(&b); break;
    case TW_MADE_ROUTED: routed(&b); break;
    case TW_MADE_BY_HAND: by_hand(&b); break;
    }
    tw_layers_close(&b.layers);
    tw_plan_advice(context, plan,
        "Cut all joints of the piece first: they are set from its straight edges, and the clamps want them.");
    tw_plan_advice(context, plan, "Shape the piece before anything is glued, and before its arrises are broken.");
    if (arch->made == TW_MADE_BY_HAND) tw_plan_advice(context, plan,
        "Keep the waste: its curve is the sole of a sanding block for the arch.");
}
