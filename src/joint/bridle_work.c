// SPDX-License-Identifier: GPL-3.0-or-later
/* Housed bridle: the work, in the order that makers keep. Housings first, to the width of the fork that was measured; then
 * the slot to the web that they leave, the prongs' corners, dry fit, glue last.
 *
 * Copied housings: the piece lies with the far side down, where they stop. Seen so, the housings of both sides are one
 * outline, alike left and right; only the stop changes sides. A place so far from the left end on the one side has the same
 * setup as one so far from the right end on the other: the piece is turned end for end, the same side down. Housings that
 * run through are alike both ways up too, and then every place with one distance has one setup.
 *
 * The slot lies in the middle of the fork, so any of its ends comes to the same stop when the piece is turned. */
#include "joint/bridle.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/trench.h"
#include "joint/words.h"

#define SAME_MM 1e-6
#define LIMIT_SHARE 0.5         // of a clearance: the fit keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.03
#define LENGTH_LIMIT_MM 0.2     // of a prong's length, and between two pieces that are ridden over: common practice

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_bridle *b; } builder;

static const char *say(const builder *at, double length_mm) { return tw_say_fine(at->context, length_mm); }
static void add(builder *at, tw_work work) { tw_layers_add(&at->layers, work); }
static double limit_mm(double clearance_mm) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * clearance_mm); }
static int housings(const tw_bridle *b) { return 2 * b->over_pieces * b->spec->at.count; }
static bool by_faces(const tw_bridle *b) { return b->spec->prongs.value == 0; }
static tw_face far_side(const tw_bridle *b) { return tw_face_opposite(b->from); }
static tw_face slot_face(const tw_bridle *b) { return by_faces(b) ? TW_SIDE_FACE_EDGE : TW_SIDE_FACE; }
static tw_face slot_down(const tw_bridle *b) { return by_faces(b) ? TW_SIDE_BACK : TW_SIDE_FACE_EDGE; }
static const char *prongs_are(const tw_bridle *b) { return by_faces(b) ? "face and back" : "the two edges"; }

static const char *ends_text(const builder *at)
{
    const tw_bridle *b = at->b;
    if (b->ends == 2) return tw_format(at->context->arena, "left end (%d); right end (%d)", b->forked_pieces, b->forked_pieces);
    return tw_format(at->context->arena, "%s end (%d)", b->spec->ends.value == TW_FORKED_LEFT ? "left" : "right",
        b->forked_pieces);
}

/* ---- measure and mark ---- */

static void measure_layer(builder *at)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    add(at, (tw_work){ .name = "widths of the forks", .what = tw_format(arena, "Measure each end that is to be forked with a "
        "caliper, across the sides that carry no prong; plane them alike before any housing is cut. Plane %s and %s to one "
        "thickness%s.", b->forked->name, b->over->name, fabs(b->split - b->T) < SAME_MM ? ", in one setting" : " each"),
        .way = TW_WAY_MEASURE, .piece = b->spec->forked.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = b->joints,
        .pieces = b->forked_pieces, .places = ends_text(at), .measure = by_faces(b) ? "width at the ends" : "thickness at the "
        "ends", .measure_mm = b->B, .measure_under_mm = -0.1, .measure_over_mm = 0.1, .if_off = tw_format(arena,
        "the housing is %s over what is measured, not over what is drawn", say(at, b->c)),
        .state = "planed and sanded, to length, ends square", .marks = "face, face edge, both ends", .stage = 19 });
    add(at, (tw_work){ .name = "places of the housings", .what = tw_format(arena, "%s both walls of each housing with a knife "
        "over the %s and down both sides beside it, the forked piece itself as the gauge%s.",
        b->over_pieces == 1 ? "Square" : "Lay all pieces side by side, left ends level, and square", tw_face_words[b->from],
        b->stopped ? tw_format(arena, "; gauge the stops %s from the %s", say(at, b->stop), tw_face_words[far_side(b)]) : ""),
        .way = TW_WAY_MARK, .piece = b->spec->over.index, .face = b->sides[0], .down = b->sides[1], .count = housings(b),
        .pieces = b->over_pieces, .places = tw_format(arena, "%s and %s, every place", tw_face_words[b->sides[0]],
        tw_face_words[b->sides[1]]), .measure = "from the left end to the middle of the first housing",
        .measure_mm = b->spec->at.items[0].value, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = "mark the whole batch again from one piece", .state = "planed to its finished faces, to length",
        .marks = "face, face edge, left end, number of the joint", .stage = 20 });
    tw_layers_close(&at->layers);
}

/* ---- housings, copied ---- */

/* What shares one setup, from one side of the piece or from both; told of by the side `face`. */
typedef struct setup_group { tw_stop_group stop; tw_face face; bool both_sides; } setup_group;

/* The group as it is when the piece is told of from its other end: only for a place in the very middle. */
static tw_stop_group from_other_end(tw_stop_group group)
{
    group.end = tw_face_opposite(group.end);
    group.hand = group.hand == TW_HAND_LEFT ? TW_HAND_RIGHT : group.hand == TW_HAND_RIGHT ? TW_HAND_LEFT : TW_HAND_NONE;
    return group;
}

static bool one_setup(const tw_stop_group *a, const tw_stop_group *b) { return a->hand == b->hand && fabs(a->to_end_mm - b->to_end_mm) < SAME_MM; }

/* Adds the groups of one side to those that are there, or puts them to one of these. */
static int add_side(const builder *at, setup_group *all, int count, tw_face face)
{
    const tw_bridle *b = at->b;
    int added;
    const tw_stop_group *groups = tw_stop_groups(at->context, &b->spec->at, b->b.length_mm, face, far_side(b), !b->stopped,
        b->over_pieces, &added);
    for (int i = 0; i < added; i++) {
        tw_stop_group group = groups[i];
        if (count > 0 && all[0].face != face && fabs(2.0 * group.to_end_mm - b->b.length_mm) < SAME_MM) group = from_other_end(group);
        int k = 0;
        while (k < count && !one_setup(&all[k].stop, &group)) k++;
        if (k == count) all[count++] = (setup_group){ .stop = groups[i], .face = face };
        else {
            all[k].stop.words = tw_format(at->context->arena, "%s; %s", all[k].stop.words, groups[i].words);
            all[k].stop.places += group.places;
            all[k].both_sides = true;
        }
    }
    return count;
}

/* The housing as it is seen with the far side down, its middle at the origin; over the edges where it is open. There it ends
 * with the cutter's own radius, past the wood. */
static tw_copy_want copy_want(const builder *at, const setup_group *group)
{
    const tw_bridle *b = at->b;
    double from = b->stopped ? b->stop : -b->over_run, to = b->E + b->over_run, half = (to - from) / 2.0;
    tw_box box = { -b->w / 2.0, -half, b->w / 2.0, half };
    double own = b->cutter_d / 2.0;
    return (tw_copy_want){ .cut = tw_trench_outline(at->context->arena, box, b->stopped ? b->R : own, own), .inside = true,
        .depth_mm = b->depth, .cutter = at->context->shop->cutters[b->cutter].name, .follower = b->spec->follower.given
        ? b->spec->follower.text : NULL, .cutter_most_mm = b->w, .corner_most_mm = b->R, .locate = TW_LOCATE_CENTRED,
        .stop_end = group->stop.end, .stop_to_origin_mm = group->stop.to_end_mm, .stop_word = tw_face_words[group->stop.end],
        .down_to_origin_mm = (from + to) / 2.0, .overhang_low_mm = -from, .wall_word = "", .corner_word = b->stopped &&
        b->R <= 0.0 ? "they are chopped square afterwards, on a card of their own" : NULL };
}

static const char *copy_words(const builder *at, const setup_group *group)
{
    const tw_bridle *b = at->b;
    const char *turn = group->both_sides ? tw_format(at->context->arena, " For the other places turn the piece end for end, the "
        "%s down again: the same distance at the stop.", tw_face_words[far_side(b)]) : "";
    return tw_format(at->context->arena, "Cut the housing %s deep, %s, the %s down.%s", say(at, b->depth),
        b->stopped ? tw_format(at->context->arena, "open at the %s and stopped %s short of the %s", tw_face_words[b->from],
        say(at, b->stop), tw_face_words[far_side(b)]) : "right through from side to side", tw_face_words[far_side(b)], turn);
}

static void add_copied(builder *at, const setup_group *group, const char *name)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    add(at, (tw_work){ .name = name, .what = copy_words(at, group), .way = TW_WAY_COPY, .piece = b->spec->over.index,
        .face = group->face, .down = far_side(b), .hand = group->stop.hand, .count = group->stop.places * b->over_pieces,
        .pieces = b->over_pieces, .places = group->stop.words, .copied = true, .copy = copy_want(at, group),
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick, as wide as they are", say(at, b->T)),
        .measure = "width of the housing, wall to wall", .measure_mm = b->w, .measure_under_mm = -limit_mm(b->c),
        .measure_over_mm = limit_mm(b->c), .answer = { TW_BY_WIDTH, 1.0 }, .if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too "
        "wide: larger by as much; the depth by half of the error of the web, both housings in the test piece",
        at->context->shop->machine.ratio.value), .state = "planed to its finished faces, to length, places marked",
        .marks = "face, face edge, left end, number of the joint", .cautions = "A strip is clamped level with the cut side where "
        "the cutter runs out: it takes the splinters. Where the other side has its housing, the clamp stands beside it.",
        .stage = 20 });
}

static void copied_layer(builder *at)
{
    const tw_bridle *b = at->b;
    setup_group *groups = TW_NEW_ARRAY(at->context->arena, setup_group, 2 * (size_t)b->spec->at.count);
    int count = add_side(at, groups, 0, b->sides[0]);
    count = add_side(at, groups, count, b->sides[1]);
    tw_stop_group *stops = TW_NEW_ARRAY(at->context->arena, tw_stop_group, (size_t)count);
    for (int i = 0; i < count; i++) stops[i] = groups[i].stop;
    for (int i = 0; i < count; i++) add_copied(at, &groups[i], tw_group_name(at->context, "housings", stops, count, i));
    tw_layers_close(&at->layers);
}

/* ---- housings, sawn ---- */

static tw_work by_hand(const builder *at)
{
    const tw_bridle *b = at->b;
    return (tw_work){ .way = TW_WAY_CHISEL, .piece = b->spec->over.index, .face = b->sides[0], .down = b->sides[1],
        .count = housings(b), .pieces = b->over_pieces, .places = tw_format(at->context->arena, "%s and %s, every place",
        tw_face_words[b->sides[0]], tw_face_words[b->sides[1]]), .marks = "face, number of the joint", .stage = 20 };
}

static void sawn_layer(builder *at)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    if (b->stopped) {
        tw_work stops = by_hand(at);
        stops.name = "ends of the stopped housings";
        stops.what = tw_format(arena, "At the stop bore and chop out %s of each housing to its full depth of %s: the saw needs "
            "that room.", say(at, tw_min(b->H, 30.0)), say(at, b->depth));
        stops.measure = "depth at the stop";
        stops.measure_mm = b->depth;
        stops.measure_over_mm = 0.1;
        stops.if_off = "pare to the gauge line; where it is too deep, only the web is thinner there";
        stops.state = "places knifed";
        add(at, stops);
        tw_layers_close(&at->layers);
    }
    tw_work walls = by_hand(at);
    walls.name = "walls of the housings";
    walls.what = tw_format(arena, "Saw both walls with a back saw against a straight batten clamped on the knife line, in the "
        "waste, %s deep; chop out between them and level the bottom with a hand router plane.", say(at, b->depth));
    walls.test_piece = "an offcut of the same piece";
    walls.measure = "width of the housing, wall to wall";
    walls.measure_mm = b->w;
    walls.measure_under_mm = -limit_mm(b->c);
    walls.measure_over_mm = limit_mm(b->c);
    walls.if_off = "pare the wall on the waste side to the knife line; if it is too wide, leave the next one shy and plane the "
        "fork to it";
    walls.state = "places knifed";
    walls.cautions = "The piece is clamped flat; the saw starts on the line with the thumb behind the batten, not on the line.";
    add(at, walls);
    tw_layers_close(&at->layers);
}

static void square_layer(builder *at)
{
    const tw_bridle *b = at->b;
    if (!b->stopped || b->R > 0.0 || b->sawn) return;
    tw_work work = by_hand(at);
    work.name = "stopped ends of the housings";
    work.what = "Chop the two round corners at each stop square, down to the bottom.";
    work.measure = "from the far side to the stop";
    work.measure_mm = b->stop;
    work.measure_under_mm = -0.3;
    work.measure_over_mm = 0.3;
    work.if_off = "pare to the line; the prong's end does not reach it";
    work.state = "housings cut";
    work.stage = 21;
    add(at, work);
    tw_layers_close(&at->layers);
}

static void web_layer(builder *at)
{
    const tw_bridle *b = at->b;
    add(at, (tw_work){ .name = "webs", .what = "Measure the web between each pair of housings with a caliper, at its open edge "
        "and by the stop; number the place and write the figure beside it.", .way = TW_WAY_MEASURE,
        .piece = b->spec->over.index, .face = b->sides[0], .down = b->sides[1], .count = b->over_pieces * b->spec->at.count,
        .pieces = b->over_pieces, .places = "every place", .measure = "web between the two housings", .measure_mm = b->q,
        .measure_under_mm = -0.2, .measure_over_mm = 0.2, .if_off = tw_format(at->context->arena,
        "the slot is %s over what is measured, not over what is drawn", say(at, b->ease)),
        .state = "housings finished on both sides", .marks = "number of the joint", .stage = 22 });
    tw_layers_close(&at->layers);
}

/* ---- the slot ---- */

static tw_work slot_work(const builder *at)
{
    const tw_bridle *b = at->b;
    return (tw_work){ .piece = b->spec->forked.index, .face = slot_face(b), .down = slot_down(b), .count = b->joints,
        .pieces = b->forked_pieces, .places = ends_text(at), .test_piece = tw_format(at->context->arena,
        "an offcut planed with the pieces, %s across the slot", say(at, b->split)), .measure = "width of the slot",
        .measure_mm = b->s, .measure_under_mm = -limit_mm(b->ease), .measure_over_mm = limit_mm(b->ease),
        .marks = "face, face edge, number of the joint", .stage = 23 };
}

static void slot_lines(builder *at)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    tw_work work = slot_work(at);
    work.name = "lines of the slots";
    work.what = tw_format(arena, "Knife the bottom of the slot all round, %s from the end; gauge both its sides, %s in from each "
        "side that carries a prong (%s), over the end and down to that line. Hatch the waste.", say(at, b->S), say(at, b->g),
        prongs_are(b));
    work.way = TW_WAY_MARK;
    work.test_piece = "";
    work.measure = "between the two gauge lines";
    work.if_off = "both lines alike: set the gauge by half of the error";
    work.state = "planed, to length, ends square; webs measured";
    add(at, work);
    tw_layers_close(&at->layers);
}

static void sawn_slot(builder *at)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    tw_work saw = slot_work(at);
    saw.name = "sides of the slots";
    saw.what = tw_format(arena, "Bore a hole through the waste just short of the slot's bottom, half from each side. Saw one "
        "side of the slot in the waste, %s deep to the hole, with the piece on its %s and one prong's side to the fence, the "
        "other with the piece turned so that the other prong's side is there: so the slot comes to lie in the very middle.",
        say(at, b->S), tw_face_words[tw_face_opposite(slot_face(b))]);
    saw.down = tw_face_opposite(slot_face(b));
    saw.way = TW_WAY_BANDSAW;
    saw.measure_under_mm = -limit_mm(b->ease) - 0.2;
    saw.if_off = "narrow: pare to the gauge line; wide: saw the next one farther in the waste";
    saw.state = "slot gauged, bottom knifed";
    saw.cautions = "The end is pushed with a block, no finger in line with the blade; a long piece gets a stand beneath its far "
        "end. Back out of a deep cut only with the blade at rest.";
    add(at, saw);
    tw_layers_close(&at->layers);
    tw_work chop = slot_work(at);
    chop.name = "bottoms of the slots";
    chop.what = "Break out the waste; chop the bottom square to the knife line, from both sides towards the middle, a hair "
        "hollow there. Pare the sides until the slot goes over its own web by hand.";
    chop.way = TW_WAY_CHISEL;
    chop.test_piece = "";
    chop.measure = "from the end to the bottom of the slot";
    chop.measure_mm = b->S;
    chop.measure_under_mm = -LENGTH_LIMIT_MM;
    chop.measure_over_mm = b->stopped ? tw_min(b->room / 2.0, LENGTH_LIMIT_MM) : LENGTH_LIMIT_MM;
    chop.if_off = b->stopped ? "shallow: pare; deep: shorten the prongs by the error, or they stand on the stops"
        : "shallow: pare; deep: the prongs' ends are planed level";
    chop.state = "sides of the slot sawn";
    add(at, chop);
    tw_layers_close(&at->layers);
}

static void copied_slot(builder *at)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    const tw_cutter *cutter = &at->context->shop->cutters[b->slot_cutter];
    bool both = cutter->cutting_length.value < b->B + TW_BRIDLE_BREAK_MM, right = b->spec->ends.value != TW_FORKED_LEFT;
    double length = b->S + cutter->d_mm, to_end = length / 2.0 - cutter->d_mm;  // the cut runs a cutter's width past the end
    tw_work work = slot_work(at);
    work.name = "slots";
    work.what = tw_format(arena, "Cut the slot from the end inward, %s%s", both ? "from both sides so that the two halves meet: "
        "for the second turn the piece over about its length, the same end at the stop" : "through, into a backing board",
        b->ends == 2 ? "; the other ends come to the same stop when the piece is turned end for end. The slot must lie in the "
        "very middle." : ". The slot must lie in the very middle.");
    work.way = TW_WAY_COPY;
    work.copied = true;
    work.copy = (tw_copy_want){ .cut = tw_bridle_slot(arena, b, right ? -length / 2.0 : length / 2.0, 0.0, cutter->d_mm, right),
        .inside = true, .depth_mm = both ? b->B / 2.0 + TW_BRIDLE_BREAK_MM : b->B + TW_BRIDLE_BREAK_MM, .both_faces = both,
        .cutter = cutter->name, .cutter_most_mm = b->s, .locate = TW_LOCATE_CENTRED, .stop_end = right ? TW_SIDE_RIGHT_END
        : TW_SIDE_LEFT_END, .stop_to_origin_mm = to_end, .stop_word = "end of the piece", .down_to_origin_mm = b->split / 2.0,
        .wall_word = "", .corner_word = "they are chopped square afterwards, on a card of their own" };
    work.answer = (tw_answer){ TW_BY_WIDTH, 1.0 };
    work.if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much; off the "
        "middle: the table by half of what turning the test piece over shows", at->context->shop->machine.ratio.value);
    work.state = "planed, to length, ends square; webs measured";
    work.cautions = both ? "Both prongs are clamped; for the second pass a filler stands in the slot."
        : "Both prongs are clamped.";
    add(at, work);
    tw_layers_close(&at->layers);
    tw_work chop = slot_work(at);
    chop.name = "bottoms of the slots";
    chop.what = "Chop the round corners of each slot's bottom square, from both sides towards the middle, a hair hollow there.";
    chop.way = TW_WAY_CHISEL;
    chop.test_piece = "";
    chop.measure = "from the end to the bottom of the slot";
    chop.measure_mm = b->S;
    chop.measure_under_mm = -LENGTH_LIMIT_MM;
    chop.measure_over_mm = LENGTH_LIMIT_MM;
    chop.if_off = "move the stop by the error";
    chop.state = "slot copied";
    add(at, chop);
    tw_layers_close(&at->layers);
}

/* ---- the prongs' corners ---- */

static void corner_layer(builder *at)
{
    const tw_bridle *b = at->b;
    tw_arena *arena = at->context->arena;
    if (b->answer_mm <= 0.0) return;
    bool notch = b->answer == TW_ANSWER_NOTCH;
    tw_work work = slot_work(at);
    work.name = notch ? "corner notches of the prongs" : "rounded corners of the prongs";
    work.what = notch ? tw_format(arena, "Saw a notch %s by %s out of both corners of each prong's end, both prongs at once: "
        "along the grain first, then across it.", say(at, b->answer_mm), say(at, b->answer_mm)) : tw_format(arena,
        "Mark both corners of each prong's end with a radius of %s and round them, both prongs at once: a file or a sanding "
        "block along the line, from the edge towards the end so that nothing breaks out.", say(at, b->answer_mm));
    work.way = notch ? TW_WAY_BANDSAW : TW_WAY_PLANE;
    work.face = by_faces(b) ? TW_SIDE_FACE : TW_SIDE_FACE_EDGE;
    work.down = tw_face_opposite(work.face);
    work.count = 4 * b->joints;
    work.test_piece = "";
    work.measure = notch ? "side of the notch" : "radius, by a card or a disc of the cutter's diameter";
    work.measure_mm = b->answer_mm;
    work.measure_under_mm = notch ? -0.5 : 0.0;
    work.measure_over_mm = 1.0;
    work.if_off = notch ? "larger does no harm but shows" : "larger does no harm but shows; smaller, the corner stands on the "
        "wood left in the housing";
    work.state = "slotted";
    work.cautions = "A filler of the web's thickness stands in the slot, so that no prong is bent; the small offcuts stay where "
        "they fall until the blade is at rest.";
    if (!notch) work.cautions = "A filler of the web's thickness stands in the slot, so that no prong is bent.";
    work.stage = 24;
    add(at, work);
    tw_layers_close(&at->layers);
}

/* ---- together ---- */

static void fit_layers(builder *at)
{
    const tw_bridle *b = at->b;
    add(at, (tw_work){ .name = "forks over their webs, dry", .what = tw_format(at->context->arena,
        "Press each fork straight over its own web until the slot's bottom stands on the %s over its whole length. By hand: a "
        "fork that is driven splits. Plane the prongs' sides where they shine, never widen a housing. Number both pieces.",
        tw_face_words[b->from]), .way = TW_WAY_FIT, .piece = b->spec->forked.index, .count = b->joints,
        .pieces = b->forked_pieces, .places = ends_text(at), .measure = b->ends == 2 ? "between the two pieces ridden over, at "
        "both ends of them" : "from the piece ridden over to the other end", .measure_mm = b->body,
        .measure_under_mm = -LENGTH_LIMIT_MM, .measure_over_mm = LENGTH_LIMIT_MM, .if_off = "long: pare the slot's bottom by the "
        "error, and the prongs' ends as much; all pieces of one length alike", .state = b->answer_mm > 0.0 ? "slotted, prongs' "
        "corners off, housings finished" : "slotted, housings finished", .marks = "number of the joint on both", .stage = 40 });
    tw_layers_close(&at->layers);
    if (!b->glued) return;
    add(at, (tw_work){ .name = "glue up", .what = "A film of glue on both sides of the web and in the slot, little at the stops; "
        "press home, then clamp the two prongs on the web with a block on each.", .way = TW_WAY_GLUE,
        .piece = b->spec->forked.index, .count = b->joints, .pieces = b->forked_pieces, .places = ends_text(at),
        .measure = "out of square, over the length of a try square's blade", .measure_mm = 0.0, .measure_under_mm = -0.3,
        .measure_over_mm = 0.3, .if_off = "turn it square before the glue takes", .state = "fitted dry, numbered, clean",
        .marks = "number of the joint on both", .cautions = "Dry run with all clamps first.", .stage = 45 });
    tw_layers_close(&at->layers);
}

static void say_order(const builder *at)
{
    const tw_bridle *b = at->b;
    tw_joint_plan *plan = at->layers.plan;
    tw_arena *arena = at->context->arena;
    tw_plan_advice(at->context, plan, tw_format(arena, "Plane and sand %s and %s first: housings and slot are cut to what they "
        "measure.", b->forked->name, b->over->name));
    tw_plan_advice(at->context, plan, "Housings first, the slot to the web that they leave: a slot is pared wider, a web is "
        "never made thicker.");
    if (b->stopped) tw_plan_advice(at->context, plan, "The slot's bottom carries, not the prongs' ends: they stay clear of the "
        "stops.");
    if (b->answer == TW_ANSWER_NOTCH) tw_plan_advice(at->context, plan, "A corner notch is quick, but leaves a small opening to "
        "be seen beside the wood in the round corner; a rounded prong closes it.");
    if (b->glued) tw_plan_advice(at->context, plan, "The glue holds on the sides of the web: the prongs are clamped on it, not "
        "along the fork.");
    else tw_plan_advice(at->context, plan, tw_format(arena, "Without glue it lifts off again: weight, or what %s stands in, "
        "keeps it together.", b->over->name));
}

void tw_bridle_works(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b)
{
    assert(tw_bridle_possible(b));
    builder at = { .layers = tw_layers_begin(context, plan), .context = context, .b = b };
    measure_layer(&at);
    if (b->sawn) sawn_layer(&at);
    else copied_layer(&at);
    square_layer(&at);
    web_layer(&at);
    slot_lines(&at);
    if (b->slot_copied) copied_slot(&at);
    else sawn_slot(&at);
    corner_layer(&at);
    fit_layers(&at);
    say_order(&at);
}
