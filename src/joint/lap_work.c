// SPDX-License-Identifier: GPL-3.0-or-later
/* Laps: the work, in the order that makers keep. Notches in both pieces, each to the real width of the other; then pare,
 * try, press home.
 *
 * Copied: the notch runs out at both sides of the piece, and is alike turned by half a turn, at any angle: so the piece may
 * be turned end for end at the stop, and there is no hand. Seen on its notched side the angle turns the same way for both
 * pieces, so one template serves both where they are equally wide. */
#include "joint/lap.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"

#define LIMIT_SHARE 0.5         // of the clearance: the fit keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.03

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_lap *l; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
static void add(builder *b, tw_work work) { tw_layers_add(&b->layers, work); }
static double limit_mm(const builder *b) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * b->l->c); }
static int notches(const tw_lap_part *part) { return part->pieces * part->at->count; }
static bool square(const tw_lap *l) { return fabs(l->angle - TW_PI / 2.0) < 1e-9; }
static const tw_lap_part *other_of(const tw_lap *l, const tw_lap_part *part) { return part == &l->over ? &l->under : &l->over; }

/* "square", or "at 60.0°". */
static const char *turn_words(const builder *b)
{
    return square(b->l) ? "square" : tw_format(b->context->arena, "at %s to the length", tw_angle_text(b->context->arena, b->l->angle));
}

static const char *every_place(const builder *b, const tw_lap_part *part) { return tw_format(b->context->arena, "%s, every place", tw_face_words[part->side]); }

/* ---- marking ---- */

static void mark_part(builder *b, const tw_lap_part *part)
{
    const tw_lap *l = b->l;
    tw_arena *arena = b->context->arena;
    const char *lay = part->pieces == 1 ? "Strike" : "Lay all pieces side by side, left ends level, and strike";
    const char *bevel = square(l) ? "" : tw_format(arena, " A bevel set to %s, counter-clockwise from the length as the %s is seen.", tw_angle_text(arena, l->angle), tw_face_words[part->side]);
    add(b, (tw_work){ .name = tw_format(arena, "places of the notches in %s", part->piece->name),
        .what = tw_format(arena, "%s both walls of each notch %s across the %s with a knife, %s itself as the gauge.%s Gauge the depth of %s from the %s.", lay, turn_words(b), tw_face_words[part->side],
            other_of(l, part)->piece->name, bevel, say(b, part->depth), tw_face_words[part->side]),
        .way = TW_WAY_MARK, .piece = part->index, .face = part->side, .down = tw_face_opposite(part->side), .count = notches(part), .pieces = part->pieces, .places = every_place(b, part),
        .measure = "from the left end to the middle of the first notch", .measure_mm = part->at->items[0].value, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = "mark the whole batch again from one piece", .state = "planed and sanded to its finished sizes, to length", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
}

/* ---- copied ---- */

static tw_copy_want copy_want(const builder *b, const tw_lap_part *part, const tw_stop_group *group)
{
    const tw_cutter *cutter = &b->context->shop->cutters[part->cutter];
    double over = cutter->d_mm;
    return (tw_copy_want){ .cut = tw_lap_notch(b->context->arena, b->l, part, 0.0, 0.0, over), .inside = true, .depth_mm = part->depth, .cutter = cutter->name,
        .follower = b->l->spec->follower.given ? b->l->spec->follower.text : NULL, .cutter_most_mm = part->notch, .locate = TW_LOCATE_CENTRED, .stop_end = group->end,
        .stop_to_origin_mm = group->to_end_mm, .stop_word = tw_face_words[group->end], .down_to_origin_mm = part->wide / 2.0, .overhang_low_mm = over, .wall_word = "" };
}

static void add_copied(builder *b, const tw_lap_part *part, tw_face down, const tw_stop_group *groups, int count, int which)
{
    tw_arena *arena = b->context->arena;
    const tw_stop_group *group = &groups[which];
    const char *name = tw_group_name(b->context, tw_format(arena, "notches in %s", part->piece->name), groups, count, which);
    add(b, (tw_work){ .name = name,
        .what = tw_format(arena, "Cut the notch %s across the piece, %s deep, from side to side%s", turn_words(b), say(b, part->depth),
            group->places == 1 ? "." : "; for the other end turn the piece end for end, the same distance at the stop: the width must be planed true."),
        .way = TW_WAY_COPY, .piece = part->index, .face = part->side, .down = down, .hand = TW_HAND_NONE, .count = group->places * part->pieces, .pieces = part->pieces,
        .places = group->words, .copied = true, .copy = copy_want(b, part, group),
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s wide and %s thick", say(b, part->wide), say(b, part->thick)),
        .measure = "width of the notch, square across it", .measure_mm = part->notch, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .answer = { TW_BY_WIDTH, 1.0 },
        .if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much; the depth by half of what two test pieces stand proud in each other", b->context->shop->machine.ratio.value),
        .state = "planed to its finished sizes, to length, places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = "A strip is clamped level with the cut side at both sides of the piece: it takes the splinters where the cutter runs out.", .stage = 20 });
}

static void copied_part(builder *b, const tw_lap_part *part)
{
    tw_face down = part->side <= TW_SIDE_BACK ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    int count;
    tw_stop_group *groups = tw_stop_groups(b->context, part->at, part->size.length_mm, part->side, down, true, part->pieces, &count);
    for (int i = 0; i < count; i++) add_copied(b, part, down, groups, count, i);
}

/* ---- sawn ---- */

static tw_work sawn_work(const builder *b, const tw_lap_part *part)
{
    return (tw_work){ .piece = part->index, .face = part->side, .down = tw_face_opposite(part->side), .count = notches(part), .pieces = part->pieces, .places = every_place(b, part),
        .marks = "face, face edge, left end, number of the joint", .stage = 20 };
}

/* Edge notches are deep and narrow: bandsaw down both walls. */
static void saw_edge(builder *b, const tw_lap_part *part)
{
    tw_arena *arena = b->context->arena;
    tw_work work = sawn_work(b, part);
    work.name = tw_format(arena, "walls of the notches in %s", part->piece->name);
    work.what = square(b->l)
        ? tw_format(arena, "Saw both walls in the waste, square from the %s down to %s, against a fence at the end of the piece or by eye to the line.", tw_face_words[part->side], say(b, part->depth))
        : tw_format(arena, "Tilt the bandsaw's table by %s; saw both walls in the waste from the %s down to %s.", tw_angle_text(arena, fabs(TW_PI / 2.0 - b->l->angle)), tw_face_words[part->side], say(b, part->depth));
    work.way = TW_WAY_BANDSAW;
    work.down = TW_SIDE_BACK;
    work.test_piece = tw_format(arena, "an offcut %s thick", say(b, part->wide));
    work.measure = "width of the notch, square across it";
    work.measure_mm = part->notch;
    work.measure_under_mm = -limit_mm(b) - 0.2;
    work.measure_over_mm = limit_mm(b);
    work.if_off = "narrow: pare to the knife line; wide: saw the next one farther in the waste";
    work.state = "planed to its finished sizes, places knifed";
    work.cautions = "A long board gets a stand beneath its far end; back out of a deep cut only with the blade at rest.";
    add(b, work);
}

/* Broad notches: many crosscuts at the table saw, or a back saw. */
static void saw_broad(builder *b, const tw_lap_part *part)
{
    tw_arena *arena = b->context->arena;
    tw_work work = sawn_work(b, part);
    work.name = tw_format(arena, "walls of the notches in %s", part->piece->name);
    work.what = tw_format(arena, "Crosscut both walls with the gauge %s, %s down, the blade %s high; then crosscut after crosscut between them, a blade's width apart.",
        square(b->l) ? "square" : tw_format(arena, "set over by %s", tw_angle_text(arena, fabs(TW_PI / 2.0 - b->l->angle))), tw_face_words[part->side], say(b, part->depth));
    work.way = TW_WAY_SAW;
    work.face = part->side;
    work.down = part->side;
    work.test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick", say(b, part->thick));
    work.measure = "width of the notch, square across it";
    work.measure_mm = part->notch;
    work.measure_under_mm = -limit_mm(b) - 0.2;
    work.measure_over_mm = limit_mm(b);
    work.answer = (tw_answer){ TW_BY_FENCE, 1.0 };
    work.if_off = "move the stop of the second wall by the error; too wide cannot be mended";
    work.state = "planed to its finished sizes, places knifed";
    work.cautions = "The notched side lies down: both hands on the gauge, none in the line of the blade, which comes up within the piece.";
    add(b, work);
}

static void chop_part(builder *b, const tw_lap_part *part)
{
    tw_arena *arena = b->context->arena;
    tw_work work = sawn_work(b, part);
    work.name = tw_format(arena, "bottoms of the notches in %s", part->piece->name);
    work.what = tw_format(arena, "%s, from both sides of the piece towards the middle, to the gauge line %s down.", b->l->edge ? "Bore one hole above the line, chop out the waste and pare the bottom level" : "Break out the waste and pare the bottom level",
        say(b, part->depth));
    work.way = TW_WAY_CHISEL;
    work.measure = "depth of the notch, at both sides of the piece";
    work.measure_mm = part->depth;
    work.measure_under_mm = 0.0;
    work.measure_over_mm = b->l->edge ? 0.3 : 0.1;
    work.if_off = "pare; too deep shows as a step when the pieces lie together";
    work.state = "walls sawn";
    work.stage = 21;
    add(b, work);
}

/* ---- together ---- */

static void cut_layers(builder *b)
{
    const tw_lap_part *const parts[] = { &b->l->over, &b->l->under };
    for (int i = 0; i < 2; i++) mark_part(b, parts[i]);
    tw_layers_close(&b->layers);
    for (int i = 0; i < 2; i++) {
        if (!parts[i]->sawn) copied_part(b, parts[i]);
        else if (b->l->edge) saw_edge(b, parts[i]);
        else saw_broad(b, parts[i]);
    }
    tw_layers_close(&b->layers);
    for (int i = 0; i < 2; i++)
        if (parts[i]->sawn) chop_part(b, parts[i]);
    tw_layers_close(&b->layers);
}

static void fit_layers(builder *b)
{
    const tw_lap *l = b->l;
    tw_arena *arena = b->context->arena;
    bool top = fabs(l->top) <= fabs(l->bottom);
    add(b, (tw_work){ .name = "notches into each other, dry",
        .what = tw_format(arena, "Set %s over %s and press straight down, all crossings of a piece at once, never one corner first. By hand; plane the sides of what goes in where they shine, never widen a notch. Number each crossing.",
            l->over.piece->name, l->under.piece->name),
        .way = TW_WAY_FIT, .piece = l->over.index, .count = l->joints, .pieces = l->over.pieces, .places = "every crossing",
        .measure = tw_format(arena, "how far %s stands proud %s", l->over.piece->name, top ? "above" : "below"), .measure_mm = top ? l->top : l->bottom, .measure_under_mm = -0.2, .measure_over_mm = 0.2,
        .if_off = "proud: pare the bottom of either notch by the error; shy: plane the other piece's side", .state = "notched, bottoms level", .marks = "number of the joint on both", .stage = 40 });
    tw_layers_close(&b->layers);
    if (!l->glued) return;
    add(b, (tw_work){ .name = "glue up", .what = "A film of glue on the walls and on the bottoms of the notches; press down with a clamp over each crossing, a block between.", .way = TW_WAY_GLUE, .piece = l->over.index,
        .count = l->joints, .pieces = l->over.pieces, .places = "every crossing", .measure = "angle between the pieces, by a bevel or the diagonals", .measure_mm = 0.0, .measure_under_mm = -1.0, .measure_over_mm = 1.0,
        .if_off = "turn it before the glue takes", .state = "fitted dry, numbered, clean", .marks = "number of the joint on both", .cautions = "Dry run with all clamps first.", .stage = 45 });
    tw_layers_close(&b->layers);
}

static void say_order(const builder *b)
{
    const tw_lap *l = b->l;
    tw_joint_plan *plan = b->layers.plan;
    tw_plan_advice(b->context, plan, "Plane all pieces to their finished width and thickness first, in one setting: a notch is cut to what goes in it, and a shaving off later leaves it loose.");
    tw_plan_advice(b->context, plan, "A test notch in two offcuts, put into each other: half of what they stand proud is the error of one depth.");
    if (l->edge) tw_plan_advice(b->context, plan, "Each piece is half cut through: carry it flat until all are together, and lean nothing on it before.");
    if (l->over.at->count > 1 || l->under.at->count > 1)
        tw_plan_advice(b->context, plan, "A grid goes together only when all notches of a piece stand over theirs: leave none out, and cut every piece of a batch at one stop.");
    if (!l->glued) tw_plan_advice(b->context, plan, "Without glue it lifts off again: what lies on it, or what it stands in, keeps it together.");
}

void tw_lap_works(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l)
{
    assert(tw_lap_possible(l));
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .l = l };
    cut_layers(&b);
    fit_layers(&b);
    say_order(&b);
}
