// SPDX-License-Identifier: GPL-3.0-or-later
/* Housing: the work, in the order that makers keep. Housings first, to the thickness that was measured; then the ends to
 * them; dry fit, glue last.
 *
 * Copied: the piece lies with the stopped side down, so that a left piece and its mirror image share template and height
 * and only the stop changes sides. The cutter runs out at open ends. Where the housing is longer than the machine reaches,
 * it is routed by hand between two straight guides, or sawn and chiselled. */
#include "joint/housing.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"

#define SAME_MM 1e-6
#define LIMIT_SHARE 0.5         // of the clearance: the fit keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.03
#define LENGTH_LIMIT_MM 0.2     // of the distance between the sides: common practice

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_housing *h; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
static void add(builder *b, tw_work work) { tw_layers_add(&b->layers, work); }
static double limit_mm(const builder *b) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * b->h->c); }
static int housings(const tw_housing *h) { return h->into_pieces * h->spec->at.count; }
static bool stopped(const tw_housing *h) { return h->low_stopped || h->high_stopped; }

static const char *stop_side(const tw_housing *h)
{
    return h->low_stopped && h->high_stopped ? "both sides" : tw_face_words[h->low_stopped ? h->low : h->high];
}

static const char *ends_text(const builder *b)
{
    const tw_housing *h = b->h;
    if (h->spec->ends.value == TW_HOUSED_LEFT) return tw_format(b->context->arena, "left end (%d)", h->housed_pieces);
    if (h->spec->ends.value == TW_HOUSED_RIGHT) return tw_format(b->context->arena, "right end (%d)", h->housed_pieces);
    return tw_format(b->context->arena, "left end (%d); right end (%d)", h->housed_pieces, h->housed_pieces);
}

/* ---- measure and mark ---- */

static void measure_and_mark(builder *b)
{
    const tw_housing *h = b->h;
    tw_arena *arena = b->context->arena;
    add(b, (tw_work){ .name = "thickness of the housed pieces", .what = "Measure each end that is to be housed with a caliper, at both edges; plane them alike before any housing is cut.",
        .way = TW_WAY_MEASURE, .piece = h->spec->housed.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = h->joints, .pieces = h->housed_pieces, .places = ends_text(b),
        .measure = "thickness at the ends", .measure_mm = h->t, .measure_under_mm = -0.1, .measure_over_mm = 0.1,
        .if_off = tw_format(arena, "the housing is %s over what is measured, not over what is drawn", say(b, h->c)), .state = "planed and sanded, to length", .marks = "face, face edge, both ends", .stage = 19 });
    add(b, (tw_work){ .name = "places of the housings",
        .what = tw_format(arena, "%s both walls of each housing with a knife across the %s, the housed piece itself as the gauge%s.",
            h->into_pieces == 1 ? "Square" : "Lay all pieces side by side, left ends level, and square", tw_face_words[h->from],
            stopped(h) ? tw_format(arena, "; gauge its stop %s from the %s", say(b, h->low_stopped ? h->v0 : h->e - h->v1), stop_side(h)) : ""),
        .way = TW_WAY_MARK, .piece = h->spec->into.index, .face = h->from, .down = tw_face_opposite(h->from), .count = housings(h), .pieces = h->into_pieces,
        .places = tw_format(arena, "%s, every place", tw_face_words[h->from]),
        .measure = "from the left end to the middle of the first housing", .measure_mm = h->spec->at.items[0].value, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = "mark the whole batch again from one piece", .state = "planed to its finished faces, to length", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
    tw_layers_close(&b->layers);
}

/* ---- copied ---- */

static bool alike_both_ways(const tw_housing *h) { return h->low_stopped == h->high_stopped; }

/* The housing as it is seen with `down` on the table, its middle at the origin; over the edges where it is open. */
static tw_copy_want copy_want(const builder *b, const tw_stop_group *group, tw_face down)
{
    const tw_housing *h = b->h;
    bool high_down = down == h->high;
    bool open_low = high_down ? !h->high_stopped : !h->low_stopped, open_high = high_down ? !h->low_stopped : !h->high_stopped;
    double from = open_low ? -h->over : high_down ? h->e - h->v1 : h->v0;
    double to = open_high ? h->e + h->over : high_down ? h->e - h->v0 : h->v1;
    double half = (to - from) / 2.0;
    return (tw_copy_want){ .cut = tw_outline_rounded(b->context->arena, -h->w / 2.0, -half, h->w / 2.0, half, h->radius), .inside = true, .depth_mm = h->depth,
        .cutter = b->context->shop->cutters[h->cutter].name, .follower = h->spec->follower.given ? h->spec->follower.text : NULL, .cutter_most_mm = h->w,
        .corner_most_mm = h->radius, .locate = TW_LOCATE_CENTRED, .stop_end = group->end, .stop_to_origin_mm = group->to_end_mm,
        .stop_word = tw_face_words[group->end], .down_to_origin_mm = (from + to) / 2.0, .overhang_low_mm = -from, .wall_word = "" };
}

static const char *copy_words(const builder *b, const tw_stop_group *group, tw_face down)
{
    const tw_housing *h = b->h;
    tw_arena *arena = b->context->arena;
    const char *turn = group->places == 1 ? "."
        : group->hand == TW_HAND_NONE ? "; for the other end turn the piece end for end, the same distance at the stop."
                                      : "; the same stop serves all places named.";
    return tw_format(arena, "Cut the housing %s deep, %s%s%s", say(b, h->depth),
        !stopped(h) ? "right through from edge to edge" : tw_format(arena, "stopped %s short of the %s", say(b, h->low_stopped ? h->v0 : h->e - h->v1), stop_side(h)),
        group->hand == TW_HAND_NONE ? "" : tw_format(arena, ", the %s down", tw_face_words[down]), turn);
}

static void add_copied(builder *b, const tw_stop_group *groups, int count, int which, tw_face down)
{
    const tw_housing *h = b->h;
    tw_arena *arena = b->context->arena;
    const tw_stop_group *group = &groups[which];
    add(b, (tw_work){ .name = tw_group_name(b->context, "housings", groups, count, which), .what = copy_words(b, group, down), .way = TW_WAY_COPY,
        .piece = h->spec->into.index, .face = h->from, .down = down, .hand = group->hand, .count = group->places * h->into_pieces, .pieces = h->into_pieces,
        .places = group->words, .copied = true, .copy = copy_want(b, group, down),
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick, as wide as they are", say(b, h->d)),
        .measure = "width of the housing, wall to wall", .measure_mm = h->w, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .answer = { TW_BY_WIDTH, 1.0 },
        .if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much; the depth by the error itself; try the housed piece in it before anything is moved",
            b->context->shop->machine.ratio.value),
        .state = "planed to its finished faces, to length, places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = !h->low_stopped || !h->high_stopped ? "A strip is clamped level with the face where the cutter runs out: it takes the splinters." : "", .stage = 20 });
}

static void copied_layer(builder *b)
{
    const tw_housing *h = b->h;
    tw_face down = h->high_stopped && !h->low_stopped ? h->high : h->low;
    int count;
    tw_stop_group *groups = tw_stop_groups(b->context, &h->spec->at, h->b.length_mm, h->from, down, alike_both_ways(h), h->into_pieces, &count);
    for (int i = 0; i < count; i++) add_copied(b, groups, count, i, down);
    tw_layers_close(&b->layers);
}

/* ---- between guides ---- */

static void guides_layer(builder *b)
{
    const tw_housing *h = b->h;
    const tw_shop *shop = b->context->shop;
    tw_arena *arena = b->context->arena;
    const char *block = !stopped(h) ? "" : tw_format(arena, "; a stop block across the gap, %s beyond the housing's end at the %s", say(b, h->guide_stop), stop_side(h));
    add(b, (tw_work){ .name = "housings between guides",
        .what = tw_format(arena, "Clamp two straight guides square across the piece, %s between them, parted by two spacers planed or stacked to it, alike to both sides of the housing's middle%s. "
            "Cutter %s, bush %s, in steps of at most %s to %s deep; the bush along the left guide going out, along the right one coming back, as seen by who pushes away from himself.",
            say(b, h->guide_gap), block, shop->cutters[h->cutter].name, shop->followers[h->follower].name, say(b, tw_customary(b->context, 3.0, 0.125)), say(b, h->depth)),
        .way = TW_WAY_ROUTE, .piece = h->spec->into.index, .face = h->from, .down = tw_face_opposite(h->from), .count = housings(h), .pieces = h->into_pieces,
        .places = tw_format(arena, "%s, every place", tw_face_words[h->from]),
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick, between the same spacers", say(b, h->d)),
        .measure = "width of the housing, wall to wall", .measure_mm = h->w, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .answer = { TW_BY_GUIDES, 1.0 }, .if_off = "both spacers by the error; the depth by the error itself; try the housed piece in it before anything is moved",
        .state = "planed to its finished faces, to length, places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = "Guides and piece are clamped to the bench, the clamps clear of the router's way. The motor stands still before the router is lifted out.", .stage = 20 });
    tw_layers_close(&b->layers);
}

/* ---- sawn ---- */

static void sawn_layer(builder *b)
{
    const tw_housing *h = b->h;
    tw_arena *arena = b->context->arena;
    if (stopped(h)) {
        add(b, (tw_work){ .name = "ends of the stopped housings",
            .what = tw_format(arena, "At the stop bore and chop out %s of the housing to its full depth of %s: the saw needs that room.", say(b, tw_max(40.0, 2.0 * h->w)), say(b, h->depth)),
            .way = TW_WAY_CHISEL, .piece = h->spec->into.index, .face = h->from, .down = tw_face_opposite(h->from), .count = housings(h), .pieces = h->into_pieces, .places = "every place",
            .measure = "depth at the stop", .measure_mm = h->depth, .measure_under_mm = 0.0, .measure_over_mm = 0.3, .if_off = "pare to the gauge line", .state = "places knifed", .marks = "number of the joint", .stage = 20 });
        tw_layers_close(&b->layers);
    }
    add(b, (tw_work){ .name = "walls of the housings",
        .what = tw_format(arena, "Saw both walls with a back saw against a straight batten clamped on the knife line, in the waste, %s deep; chop out between them from both edges and level the bottom with a hand router plane.", say(b, h->depth)),
        .way = TW_WAY_CHISEL, .piece = h->spec->into.index, .face = h->from, .down = tw_face_opposite(h->from), .count = housings(h), .pieces = h->into_pieces, .places = "every place",
        .test_piece = "an offcut of the same piece", .measure = "width of the housing, wall to wall", .measure_mm = h->w, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .if_off = "pare the wall on the waste side to the knife line; if it is too wide, leave the next one shy and plane the housed piece to it", .state = "places knifed", .marks = "face, number of the joint",
        .cautions = "The piece is clamped flat; the saw starts on the line with the thumb behind the batten, not on the line.", .stage = 20 });
    tw_layers_close(&b->layers);
}

static void corner_layer(builder *b)
{
    const tw_housing *h = b->h;
    if (!stopped(h) || h->radius > 0.0 || h->way == TW_HOUSING_SAW) return;
    add(b, (tw_work){ .name = "stopped ends of the housings", .what = "Chop the two round corners at each stop square, down to the bottom.", .way = TW_WAY_CHISEL,
        .piece = h->spec->into.index, .face = h->from, .down = tw_face_opposite(h->from), .count = housings(h) * (h->low_stopped && h->high_stopped ? 2 : 1), .pieces = h->into_pieces,
        .places = tw_format(b->context->arena, "every housing, at the %s", stop_side(h)), .measure = "from the side to the stop", .measure_mm = h->low_stopped ? h->v0 : h->e - h->v1, .measure_under_mm = -0.5,
        .measure_over_mm = 0.5, .if_off = "pare to the line, or let the notch be longer", .state = "housings cut", .marks = "number of the joint", .stage = 21 });
    tw_layers_close(&b->layers);
}

/* ---- the housed piece ---- */

static const char *notch_places(const builder *b)
{
    const tw_housing *h = b->h;
    const char *list = "";
    for (int end = 0; end < 2; end++) {
        if (h->spec->ends.value != TW_HOUSED_BOTH && h->spec->ends.value != end) continue;
        for (int low = 1; low >= 0; low--) {
            if ((low ? h->notch_low : h->notch_high) <= 0.0) continue;
            list = tw_format(b->context->arena, "%s%s%s end, %s (%d)", list, list[0] ? "; " : "", end == 0 ? "left" : "right",
                tw_housing_notch_at_face_edge(h, low, end == 1) ? "face edge" : "back edge", h->housed_pieces);
        }
    }
    return list;
}

static void notch_layer(builder *b)
{
    const tw_housing *h = b->h;
    tw_arena *arena = b->context->arena;
    double notch = tw_max(h->notch_low, h->notch_high);
    if (notch <= 0.0) return;
    int each = (h->notch_low > 0.0) + (h->notch_high > 0.0);
    add(b, (tw_work){ .name = "notches of the housed pieces",
        .what = tw_format(arena, "Strike the notch with a knife: %s from the end, %s from the edge%s. Saw along the grain to the line, then across it a shaving off the shoulder line, and pare the shoulder: it closes the joint where it shows.",
            say(b, h->l), say(b, notch), h->notch_low > 0.0 && h->notch_high > 0.0 && fabs(h->notch_low - h->notch_high) > SAME_MM ? tw_format(arena, ", the shorter one %s", say(b, tw_min(h->notch_low, h->notch_high))) : ""),
        .way = TW_WAY_BANDSAW, .piece = h->spec->housed.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = h->joints * each, .pieces = h->housed_pieces, .places = notch_places(b),
        .test_piece = "an offcut of the same board", .measure = "from the end to the notch's shoulder", .measure_mm = h->l, .measure_under_mm = -0.1, .measure_over_mm = 0.0,
        .if_off = "shy: pare the shoulder back; over: let the housing be deeper by the error", .state = "to length, ends square, housings cut", .marks = "face, face edge, both ends, number of the joint",
        .cautions = "A long piece gets a stand beneath its far end; the last of the cut with a pusher.", .stage = 22 });
    tw_layers_close(&b->layers);
}

/* ---- together ---- */

static void fit_layers(builder *b)
{
    const tw_housing *h = b->h;
    add(b, (tw_work){ .name = "ends into their housings, dry",
        .what = h->notch_low + h->notch_high > 0.0 ? "Put each end into its own housing until the notch's shoulder is tight. It goes in by hand; plane the faces of the end where they shine, never widen the housing. Number both pieces."
                                                   : "Put each end into its own housing until it stands on the bottom over its whole width. It goes in by hand; plane the faces of the end where they shine, never widen the housing. Number both pieces.",
        .way = TW_WAY_FIT, .piece = h->spec->housed.index, .count = h->joints, .pieces = h->housed_pieces, .places = ends_text(b),
        .measure = h->ends == 2 ? "between the two sides, at the front and at the back" : "from the side to the other end", .measure_mm = h->body, .measure_under_mm = -LENGTH_LIMIT_MM,
        .measure_over_mm = LENGTH_LIMIT_MM, .if_off = "shoot the end square by the error, all pieces of one length alike", .state = "housings and notches cut, faces finished", .marks = "number of the joint on both", .stage = 40 });
    tw_layers_close(&b->layers);
    if (!h->glued) return;
    add(b, (tw_work){ .name = "glue up", .what = "A film of glue on the walls and the bottom of the housing, little at the stop; clamp across with a stiff bar over each end, bowed a little towards the middle. Compare both diagonals before the glue takes.",
        .way = TW_WAY_GLUE, .piece = h->spec->housed.index, .count = h->joints, .pieces = h->housed_pieces, .places = ends_text(b),
        .measure = "difference between the two diagonals", .measure_mm = 0.0, .measure_under_mm = -1.0, .measure_over_mm = 1.0, .if_off = "set the clamps askew towards the longer diagonal, before the glue takes",
        .state = "fitted dry, numbered, clean", .marks = "number of the joint on both", .cautions = "Dry run with all clamps first.", .stage = 45 });
    tw_layers_close(&b->layers);
}

static void say_order(const builder *b)
{
    const tw_housing *h = b->h;
    tw_joint_plan *plan = b->layers.plan;
    tw_arena *arena = b->context->arena;
    tw_plan_advice(b->context, plan, tw_format(arena, "Plane and sand the ends of %s first: a housing is cut to what they measure, and a shaving off later makes them rattle.", h->housed->name));
    tw_plan_advice(b->context, plan, tw_format(arena, "All housings of a batch across the pieces as they lie side by side: it is like heights that make the %s level.", h->housed->name));
    if (stopped(h)) tw_plan_advice(b->context, plan, "Housings first, the notches to them: the notch's shoulder is pared until it closes, the housing's end need not be fair.");
    if (h->glued) tw_plan_advice(b->context, plan, "Glue holds little here, for it stands on end grain: the walls carry the weight; something else must keep the sides from spreading (a back, a tusked rail, a sliding dovetail in the middle).");
    else tw_plan_advice(b->context, plan, "Without glue nothing keeps the end in its housing: a tusked rail or the like must draw the sides together.");
}

void tw_housing_works(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h)
{
    assert(tw_housing_possible(h));
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .h = h };
    measure_and_mark(&b);
    if (h->way == TW_HOUSING_COPY) copied_layer(&b);
    else if (h->way == TW_HOUSING_GUIDES) guides_layer(&b);
    else sawn_layer(&b);
    corner_layer(&b);
    notch_layer(&b);
    fit_layers(&b);
    say_order(&b);
}
