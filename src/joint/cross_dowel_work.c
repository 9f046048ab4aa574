// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt: the work, in the order that makers keep, and what is bought.
 *
 * The post is drilled first. In the rail the cross hole comes before the lengthwise one, which then is seen to come through in its
 * middle. The lengthwise hole and those of the pegs are drilled through a guide block that hooks over the rail's back and face edge;
 * the pegs' places in the post are pricked with centre points while the bolt holds the rail. */
#include "joint/cross_dowel.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"

#define SAME_MM 1e-6
#define HOLE_LIMIT_MM 0.3       // of a hole's place: the clearance of the bolt takes it
#define PEG_LIMIT_MM 0.1        // pegs have no clearance
#define GUIDE_MM 40.0           // length of the guide block: common practice, at least five holes
#define PEG_STICK_MM 600.0
#define END_ROOM_MM 15.0

typedef struct builder { tw_joint_context *context; tw_joint_plan *plan; const tw_bolted *j; tw_layers layers; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
static void add(builder *b, tw_work work) { tw_layers_add(&b->layers, work); }
static void close_layer(builder *b) { tw_layers_close(&b->layers); }
static bool centred(double middle, double size) { return fabs(middle - size / 2.0) < SAME_MM; }
static int places(const tw_bolted *j) { return j->into_pieces * j->spec->at.count; }

const char *tw_bolted_name(const tw_joint_context *context, const tw_bolted *j, double length_mm)
{
    if (!j->inch) return tw_format(context->arena, "%s x %g", j->size.name, length_mm);
    const char *inches = tw_fraction_text(context->arena, tw_fraction_of(length_mm, 16));
    return tw_format(context->arena, "%s x %s in", j->size.name, inches);
}

/* ---- marking ---- */

static void mark_layer(builder *b)
{
    const tw_bolted *j = b->j;
    add(b, (tw_work){ .name = "places of the bolts",
        .what = tw_format(b->context->arena, "Lay all of %s side by side, left ends level, and square the middle of each place across the %s and round to the %s; gauge %s from the %s on the %s, and prick where the lines cross. Number the places and the ends that go there.",
            j->into->name, tw_face_words[j->from], tw_face_words[j->far_], say(b, j->across), tw_face_words[j->down], tw_face_words[j->far_]),
        .way = TW_WAY_MARK, .piece = j->spec->into.index, .face = j->far_, .down = j->from, .count = places(j), .pieces = j->into_pieces, .places = tw_format(b->context->arena, "%s and %s, every place", tw_face_words[j->from], tw_face_words[j->far_]),
        .measure = "from the left end to the line of the first place", .measure_mm = j->spec->at.items[0].value, .measure_under_mm = -HOLE_LIMIT_MM, .measure_over_mm = HOLE_LIMIT_MM, .if_off = "mark the whole batch again from one piece",
        .state = "planed to finished faces, to length", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
    close_layer(b);
}

/* ---- the end let in ---- */

static tw_copy_want housing_want(const builder *b, const tw_stop_group *group)
{
    const tw_bolted *j = b->j;
    double x = j->along ? j->a.width_mm : j->a.thickness_mm, up = j->along ? j->a.thickness_mm : j->a.width_mm;
    return (tw_copy_want){ .cut = tw_outline_rectangle(b->context->arena, -x / 2.0, -up / 2.0, x / 2.0, up / 2.0), .inside = true, .depth_mm = j->h, .cutter_most_mm = tw_min(x, up), .locate = TW_LOCATE_CENTRED,
        .stop_end = group->end, .stop_to_origin_mm = group->to_end_mm, .stop_word = tw_face_words[group->end], .down_to_origin_mm = j->across, .overhang_low_mm = tw_max(0.0, up / 2.0 - j->across), .wall_word = "",
        .corner_word = "chop the corners square, or round the corners of the rail's end to them" };
}

static void add_housing(builder *b, const tw_stop_group *groups, int count, int which)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    const tw_stop_group *group = &groups[which];
    const char *turn = group->places == 1 ? "." : group->hand == TW_HAND_NONE ? "; for the other end turn the piece end for end." : "; the same stop serves all places named.";
    add(b, (tw_work){ .name = tw_group_name(b->context, "housings of the ends", groups, count, which), .what = tw_format(arena, "Cut the housing %s deep%s", say(b, j->h), turn), .way = TW_WAY_COPY, .piece = j->spec->into.index,
        .face = j->from, .down = j->down, .hand = group->hand, .count = group->places * j->into_pieces, .pieces = j->into_pieces, .places = group->words, .copied = true, .copy = housing_want(b, group),
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick", say(b, j->d)), .measure = "width of the housing, for the rail's thickness", .measure_mm = j->a.thickness_mm, .measure_under_mm = 0.0, .measure_over_mm = 0.2,
        .answer = { TW_BY_WIDTH, 1.0 }, .if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much", b->context->shop->machine.ratio.value),
        .state = "planed to its finished faces, to length, places marked", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
}

/* Copied where its middle is the bolt and there is wood all round it; else sawn and chopped by hand. */
static bool housing_is_copied(const tw_bolted *j)
{
    double half = (j->along ? j->a.thickness_mm : j->a.width_mm) / 2.0, reach = (j->along ? j->a.width_mm : j->a.thickness_mm) / 2.0;
    bool inside = half < tw_min(j->across, j->e - j->across) - SAME_MM;
    for (int i = 0; i < j->spec->at.count; i++) inside = inside && reach < tw_min(j->spec->at.items[i].value, j->b.length_mm - j->spec->at.items[i].value) - SAME_MM;
    return inside && centred(j->y, j->a.width_mm) && centred(j->z, j->a.thickness_mm);
}

static void housing_layers(builder *b)
{
    const tw_bolted *j = b->j;
    if (j->h <= 0.0) return;
    bool copied = housing_is_copied(j);
    if (copied) {
        int count;
        tw_stop_group *groups = tw_stop_groups(b->context, &j->spec->at, j->b.length_mm, j->from, j->down, centred(j->across, j->e), j->into_pieces, &count);
        for (int i = 0; i < count; i++) add_housing(b, groups, count, i);
        close_layer(b);
    }
    add(b, (tw_work){ .name = copied ? "corners of the housings" : "housings of the ends",
        .what = copied ? "Chop the round corners square, down to the bottom; try each rail's end in its own housing."
                       : tw_format(b->context->arena, "Stand each rail's end on its place, strike round it with a knife, saw and chop the housing %s deep inside the line and level it with a hand router plane.", say(b, j->h)),
        .way = TW_WAY_CHISEL, .piece = j->spec->into.index, .face = j->from, .down = j->far_, .count = places(j), .pieces = j->into_pieces, .places = "every place", .measure = "depth", .measure_mm = j->h, .measure_under_mm = -0.1,
        .measure_over_mm = 0.2, .if_off = "pare to the line; a housing that is too deep gets a veneer under the end", .state = copied ? "housings cut" : "places marked", .marks = "number of the joint on both", .stage = 21 });
    close_layer(b);
}

/* ---- the post ---- */

static tw_work post_hole(const builder *b, const tw_stop_group *group)
{
    const tw_bolted *j = b->j;
    return (tw_work){ .way = TW_WAY_DRILL, .piece = j->spec->into.index, .face = j->far_, .down = j->from, .hand = group->hand, .count = group->places * j->into_pieces, .pieces = j->into_pieces, .places = group->words,
        .test_piece = tw_format(b->context->arena, "an offcut planed with the pieces, %s thick", say(b, j->d)), .marks = "face, face edge, left end, number of the joint", .stage = 22 };
}

static void add_counterbore(builder *b, const tw_stop_group *groups, int count, int which)
{
    const tw_bolted *j = b->j;
    tw_work work = post_hole(b, &groups[which]);
    work.name = tw_group_name(b->context, "counterbores", groups, count, which);
    work.what = tw_format(b->context->arena, "Bore %s wide and %s deep with a flat-bottomed bit, the %s against the fence %s from the bit's point, the %s at the stop.", say(b, j->kw), say(b, j->k), tw_face_words[j->down], say(b, j->across), tw_face_words[groups[which].end]);
    work.measure = "depth of the counterbore, at its rim";
    work.measure_mm = j->k;
    work.measure_under_mm = -0.3;
    work.measure_over_mm = 0.5;
    work.answer = (tw_answer){ TW_BY_DEPTH, 1.0 };
    work.if_off = "the depth stop by the error";
    work.state = "places marked";
    work.cautions = "A wide bit is run slowly and lifted often: the piece is clamped, not only held.";
    add(b, work);
}

static void add_post_hole(builder *b, const tw_stop_group *groups, int count, int which)
{
    const tw_bolted *j = b->j;
    tw_work work = post_hole(b, &groups[which]);
    work.name = tw_group_name(b->context, "holes of the bolts, through", groups, count, which);
    work.what = tw_format(b->context->arena, "Drill %s right through%s, on a backing board, fence %s and stop as for the first piece.", say(b, j->hole), j->k > 0.0 ? ", in the mark of the counterbore's point" : "", say(b, j->across));
    work.measure = tw_format(b->context->arena, "on the %s, from the %s to the middle of the hole", tw_face_words[j->from], tw_face_words[j->down]);
    work.measure_mm = j->across;
    work.measure_under_mm = -HOLE_LIMIT_MM;
    work.measure_over_mm = HOLE_LIMIT_MM;
    work.answer = (tw_answer){ TW_BY_FENCE, 1.0 };
    work.if_off = "square the table to the drill; then the fence by the error";
    work.state = j->k > 0.0 ? "counterbored" : "places marked";
    add(b, work);
}

static void post_layers(builder *b)
{
    const tw_bolted *j = b->j;
    int count;
    tw_stop_group *groups = tw_stop_groups(b->context, &j->spec->at, j->b.length_mm, j->far_, j->down, centred(j->across, j->e), j->into_pieces, &count);
    for (int i = 0; i < count && j->k > 0.0; i++) add_counterbore(b, groups, count, i);
    close_layer(b);
    for (int i = 0; i < count; i++) add_post_hole(b, groups, count, i);
    close_layer(b);
}

/* ---- the rail ---- */

/* One setting of the rail's ends: both when the hole is in the middle (the rail is turned end for end), else hand by hand. */
typedef struct end_group { tw_face end; tw_hand hand; int count; const char *places, *suffix; } end_group;

static int end_groups(const builder *b, bool in_middle, end_group groups[2])
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    bool both = j->ends == 2;
    if (both && in_middle) {
        groups[0] = (end_group){ TW_SIDE_RIGHT_END, TW_HAND_NONE, j->joints, tw_format(arena, "left end (%d); right end (%d)", j->rail_pieces, j->rail_pieces), "" };
        return 1;
    }
    int count = 0;
    if (j->spec->ends.value != TW_BOLTED_LEFT) groups[count++] = (end_group){ TW_SIDE_RIGHT_END, both ? TW_HAND_RIGHT : TW_HAND_NONE, j->rail_pieces, tw_format(arena, "right end (%d)", j->rail_pieces), both ? ", right hand" : "" };
    if (j->spec->ends.value != TW_BOLTED_RIGHT) groups[count++] = (end_group){ TW_SIDE_LEFT_END, both ? TW_HAND_LEFT : TW_HAND_NONE, j->rail_pieces, tw_format(arena, "left end (%d)", j->rail_pieces), both ? ", left hand" : "" };
    return count;
}

static tw_work rail_hole(const builder *b, const end_group *group, const char *name)
{
    const tw_bolted *j = b->j;
    return (tw_work){ .name = tw_format(b->context->arena, "%s%s", name, group->suffix), .way = TW_WAY_DRILL, .piece = j->spec->rail.index, .face = group->end, .down = TW_SIDE_BACK, .hand = group->hand, .count = group->count,
        .pieces = j->rail_pieces, .places = group->places, .test_piece = tw_format(b->context->arena, "an offcut of the same planed stock, %s x %s, end square", say(b, j->a.width_mm), say(b, j->a.thickness_mm)), .marks = "face, face edge, number of the joint" };
}

static void cross_hole_layer(builder *b)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    bool level = tw_bolted_level(j), in_middle = level ? centred(j->y, j->a.width_mm) : centred(j->z, j->a.thickness_mm);
    tw_face fence = level ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    end_group groups[2];
    int count = end_groups(b, in_middle, groups);
    for (int i = 0; i < count; i++) {
        tw_work work = rail_hole(b, &groups[i], "holes of the cross dowels");
        work.face = j->dowel_face;
        work.down = tw_face_opposite(j->dowel_face);
        work.what = tw_format(arena, "Bore %s wide and %s deep with a flat-bottomed bit, %s from the end at the stop, the %s against the fence %s from the bit's point%s.", say(b, j->dd), say(b, j->dowel_depth), say(b, j->s), tw_face_words[fence],
            say(b, level ? j->y : j->z), groups[i].hand == TW_HAND_NONE && j->ends == 2 ? "; for the other end turn the piece end for end" : "");
        work.measure = "depth of the hole, at its rim";
        work.measure_mm = j->dowel_depth;
        work.measure_under_mm = -0.3;
        work.measure_over_mm = 0.3;
        work.answer = (tw_answer){ TW_BY_DEPTH, 1.0 };
        work.if_off = "the depth stop by the error: the thread of a cross dowel on the bottom must look at the bolt";
        work.state = "planed to its finished faces, to length, ends square";
        work.cautions = "Bore away from the side that is seen.";
        work.stage = 22;
        add(b, work);
    }
    close_layer(b);
}

static void end_hole_layer(builder *b)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    add(b, (tw_work){ .name = "drilling guide for the ends",
        .what = tw_format(arena, "From a long offcut of the rail: drill it lengthwise %s wide, %s from the face edge and %s from the back%s, then saw %s off its end. Glue a cleat to its back and one to its face edge that hook over the rail. Either face goes to the end: one guide serves both hands.",
            say(b, j->hole), say(b, j->y), say(b, j->z), j->pegs > 0 ? tw_format(arena, "; and %s wide for the peg%s, %s from that hole", say(b, j->peg), j->pegs == 2 ? "s" : "", say(b, j->peg_spacing / 2.0)) : "", say(b, GUIDE_MM)),
        .way = TW_WAY_DRILL, .piece = j->spec->rail.index, .face = TW_SIDE_RIGHT_END, .down = TW_SIDE_LEFT_END, .count = 1, .pieces = 1, .places = "an offcut", .measure = "from the face edge to the middle of the hole, on both sides of the guide", .measure_mm = j->y,
        .measure_under_mm = -PEG_LIMIT_MM, .measure_over_mm = PEG_LIMIT_MM, .if_off = "another guide: what is off here is off in every piece", .state = "offcut planed with the rails", .marks = "face, face edge",
        .cautions = "The offcut stands upright in a clamp against a tall fence, its foot held: never by hand.", .stage = 22 });
    close_layer(b);
    end_group groups[2];
    int count = end_groups(b, centred(j->y, j->a.width_mm), groups);
    for (int i = 0; i < count; i++) {
        tw_work work = rail_hole(b, &groups[i], "lengthwise holes of the bolts");
        work.what = tw_format(arena, "With the guide clamped on, drill %s wide and %s deep; the drill is seen to come through in the middle of the cross hole and goes on beyond. Clear the chips often.", say(b, j->hole), say(b, j->b_depth));
        work.measure = "depth of the hole, from the end";
        work.measure_mm = j->b_depth;
        work.measure_under_mm = -1.0;
        work.measure_over_mm = 5.0;
        work.if_off = "shallow: drill on, or the bolt meets the bottom before it holds; askew in the cross hole: ease it with a round file";
        work.state = "cross holes bored";
        work.cautions = "The rail lies clamped on the bench; a hand drill turns both hands hard when a long drill catches.";
        work.stage = 23;
        add(b, work);
    }
    close_layer(b);
}

/* ---- pegs ---- */

static tw_part peg_part(const builder *b)
{
    const tw_bolted *j = b->j;
    const tw_shop *shop = b->context->shop;
    double kerf = shop->saw_kerf.given ? shop->saw_kerf.value : 3.0, length = 2.0 * j->peg_depth;
    int count = j->pegs * j->joints, fit = (int)floor((PEG_STICK_MM - END_ROOM_MM) / (length + kerf)), each = fit < 1 ? 1 : fit > count ? count : fit;
    return (tw_part){ .name = "peg", .count = count, .finished = { length, j->peg, j->peg }, .per_stick = each, .stick = { tw_max(300.0, each * (length + kerf) + END_ROOM_MM), j->peg, j->peg },
                      .timber = j->spec->peg_timber.given ? j->spec->peg_timber.text : j->rail->timber.text };
}

static void peg_hole_layers(builder *b)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    end_group groups[2];
    int count = end_groups(b, centred(j->y, j->a.width_mm) && j->pegs == 2, groups);
    for (int i = 0; i < count; i++) {
        tw_work work = rail_hole(b, &groups[i], "holes of the pegs in the ends");
        work.what = tw_format(arena, "Through the same guide drill %s wide and %s deep, %s from the bolt's hole%s.", say(b, j->peg), say(b, j->peg_hole), say(b, j->peg_spacing / 2.0), j->pegs == 2 ? " on both sides" : ", towards the face edge");
        work.count *= j->pegs;
        if (groups[i].hand == TW_HAND_NONE && j->ends == 2) work.places = tw_format(arena, "left end (%d); right end (%d)", j->rail_pieces * j->pegs, j->rail_pieces * j->pegs);
        else work.places = tw_format(arena, "%s (%d)", tw_face_words[groups[i].end], work.count);
        work.measure = "depth of the hole, from the end";
        work.measure_mm = j->peg_hole;
        work.measure_under_mm = -0.5;
        work.measure_over_mm = 2.0;
        work.answer = (tw_answer){ TW_BY_DEPTH, 1.0 };
        work.if_off = "the collar on the drill by the error";
        work.state = "drilled for the bolts";
        work.stage = 24;
        add(b, work);
    }
    close_layer(b);
    add(b, (tw_work){ .name = "marks of the pegs in the post", .what = tw_format(arena, "Put centre points into the holes of the end, hold it in its place with the bolt turned in by hand, its face edge along a straightedge, and tighten: the points prick %s.", j->into->name), .way = TW_WAY_MARK,
        .piece = j->spec->into.index, .face = j->from, .down = j->far_, .count = j->pegs * j->joints, .pieces = j->into_pieces, .places = "every place, with its own rail", .measure = "between bolt's hole and mark", .measure_mm = j->peg_spacing / 2.0,
        .measure_under_mm = -PEG_LIMIT_MM, .measure_over_mm = PEG_LIMIT_MM, .if_off = "trust the mark: it is where the rail's own hole comes to", .state = "both drilled for the bolt", .marks = "number of the joint on both", .stage = 25 });
    close_layer(b);
    add(b, (tw_work){ .name = "holes of the pegs in the post", .what = tw_format(arena, "Drill %s wide and %s deep at each mark, square to the %s%s; countersink the rim a little.", say(b, j->peg), say(b, j->peg_hole), tw_face_words[j->from], j->h > 0.0 ? ", from the housing's bottom" : ""), .way = TW_WAY_DRILL,
        .piece = j->spec->into.index, .face = j->from, .down = j->far_, .count = j->pegs * j->joints, .pieces = j->into_pieces, .places = "at the marks", .test_piece = "the bolt's test piece", .measure = "depth of the hole", .measure_mm = j->peg_hole,
        .measure_under_mm = -0.5, .measure_over_mm = 2.0, .answer = { TW_BY_DEPTH, 1.0 }, .if_off = "the depth stop by the error", .state = "marked through the rail's own holes", .marks = "number of the joint", .stage = 26 });
    close_layer(b);
}

static void peg_layers(builder *b)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    if (j->pegs == 0) return;
    peg_hole_layers(b);
    tw_part part = peg_part(b);
    tw_plan_part(b->context, b->plan, part);
    add(b, (tw_work){ .name = "pegs", .what = tw_format(arena, "Crosscut straight-grained rod %s thick to %s with a hand saw in a mitre box, and chamfer both ends. Glue each into the rail's end, %s proud, and rub the proud part with a fine file until it slips into the post without play.", say(b, j->peg), say(b, part.finished.length_mm), say(b, j->peg_depth)),
        .way = TW_WAY_GLUE, .piece = -1, .part = part.name, .count = part.count, .places = "each peg, into its own end", .measure = "proud of the end", .measure_mm = j->peg_depth, .measure_under_mm = -1.0, .measure_over_mm = 0.0,
        .if_off = "saw it shorter: it must not meet the bottom in the post", .state = "ends drilled", .marks = "number of the joint", .cautions = "Rod is held against the fence of the box; no short piece beside a running blade.", .stage = 44 });
    close_layer(b);
}

/* ---- what is bought ---- */

static void bought(builder *b, const char *name, tw_size size, const char *note)
{
    tw_plan_part(b->context, b->plan, (tw_part){ .name = name, .count = b->j->joints, .finished = size, .stick = size, .per_stick = 1, .timber = "", .bought = true, .note = note });
}

static void hardware(builder *b)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    double thread = j->dd + tw_max(j->past, 0.0) + 2.0 * j->size.pitch + j->slack;
    bought(b, "bolt", (tw_size){ j->length, j->size.diameter, j->size.diameter }, tw_format(arena, "%s, %s, threaded over at least %s from its tip", tw_bolted_name(b->context, j, j->length), j->spec->head.value == TW_HEAD_SOCKET ? "hexagon socket head" : "hexagon head", say(b, thread)));
    bought(b, "washer", (tw_size){ j->size.washer_thick, j->washer, j->washer }, tw_format(arena, "for a bolt of %s, %s across, about %s thick", j->size.name, say(b, j->washer), say(b, j->size.washer_thick)));
    bought(b, "cross dowel", (tw_size){ j->dl, j->dd, j->dd }, tw_format(arena, "%s thick, %s long, tapped %s across its middle", say(b, j->dd), say(b, j->dl), j->size.name));
}

/* ---- together ---- */

static void together_layer(builder *b)
{
    const tw_bolted *j = b->j;
    const char *ends = j->spec->ends.value == TW_BOLTED_BOTH ? "left and right end" : j->spec->ends.value == TW_BOLTED_LEFT ? "left end" : "right end";
    add(b, (tw_work){ .name = "bolted together",
        .what = tw_format(b->context->arena, "Put the cross dowel in, its slot in line with the rail, then the rail in its place, the bolt with its washer through %s; turn the cross dowel with a screwdriver until the bolt catches by hand. Tighten until the shoulder is closed, and a quarter turn more.", j->into->name),
        .way = TW_WAY_FIT, .piece = j->spec->rail.index, .count = j->joints, .pieces = j->rail_pieces, .places = ends, .measure = "gap at the shoulder, with a feeler", .measure_mm = 0.0, .measure_under_mm = 0.0, .measure_over_mm = 0.1,
        .if_off = "a gap that stays on one side: the end is not square, shoot it; the bolt stops before it pulls: drill its hole in the rail deeper", .state = "drilled, pegs in, clean", .marks = "number of the joint on both", .stage = 46 });
    close_layer(b);
}

static void say_order(const builder *b)
{
    const tw_bolted *j = b->j;
    tw_arena *arena = b->context->arena;
    tw_plan_advice(b->context, b->plan, "Buy bolts, washers and cross dowels first, measure them, and write into the job what is there: dealers differ.");
    tw_plan_advice(b->context, b->plan, tw_format(arena, "Keep %s free behind the head: so long is the way that the bolt comes out.", say(b, j->length + j->head)));
    tw_plan_advice(b->context, b->plan, "The shoulder carries what presses the pieces together, the pegs or the housing what moves them past each other; the bolt only pulls.");
    if (j->slack > 0.0) tw_plan_advice(b->context, b->plan, tw_format(arena, "From a damp season to a dry one %s loses about %s under the head: tighten the bolt then, and ease it before the damp one.", j->into->name, say(b, j->slack)));
}

void tw_bolted_works(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j)
{
    assert(tw_bolted_possible(j));
    builder b = { context, plan, j, tw_layers_begin(context, plan) };
    mark_layer(&b);
    housing_layers(&b);
    post_layers(&b);
    cross_hole_layer(&b);
    end_hole_layer(&b);
    peg_layers(&b);
    hardware(&b);
    together_layer(&b);
    say_order(&b);
}
