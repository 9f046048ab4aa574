// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks: the cuts on both pieces, and the work in the order that makers keep. */
#include "joint/forked_tusks.h"

#include <assert.h>
#include <math.h>

#define BREAK_THROUGH_MM 1.0  // cut this much past the middle, or into the backing board
#define END_ROOM_MM 15.0      // left over at a stick's end, sawn off with the snipe: common practice

/* ---- cuts ---- */

/* (u, v) on a face of the tenoned piece: x = x0 + su u, y = y0 + sv v, then to the face's own right and up. */
static tw_outline housing_on(tw_arena *arena, const tw_forked *f, tw_face face, bool right_end)
{
    tw_outline housing = tw_forked_housing(arena, f);
    tw_loop *loop = &housing.loops[0];
    double length = f->tenon_size.length_mm, width = f->tenon_size.width_mm;
    double sv = f->spec->heads_to.value == 1 ? 1.0 : -1.0;
    bool back = face == TW_SIDE_BACK, mirrored = (right_end ? 1.0 : -1.0) * sv * (back ? -1.0 : 1.0) < 0.0;
    tw_loop placed = { TW_NEW_ARRAY(arena, tw_vertex, (size_t)loop->count), loop->count };
    for (int i = 0; i < loop->count; i++) {
        tw_vertex from = loop->vertices[mirrored ? loop->count - 1 - i : i];
        double x = right_end ? length - f->p + from.x : f->p - from.x, y = width / 2.0 + sv * from.y;
        placed.vertices[i] = (tw_vertex){ x, back ? width - y : y, 0.0 };
    }
    *loop = placed;
    return housing;
}

static void tenon_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, bool right_end)
{
    tw_arena *arena = context->arena;
    int piece = f->spec->tenon.index;
    tw_size size = f->tenon_size;
    double long_mm = f->T + f->p, x0 = right_end ? size.length_mm - long_mm : 0.0;
    double cheek = (size.thickness_mm - f->t) / 2.0, edge = (size.width_mm - f->w) / 2.0;
    for (int side = TW_SIDE_FACE; side <= TW_SIDE_BACK_EDGE; side++) {
        bool on_face = side == TW_SIDE_FACE || side == TW_SIDE_BACK;
        double depth = on_face ? cheek : edge;
        if (depth > 1e-9)
            tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = on_face ? "cheek" : "edge shoulder", .face = (tw_face)side, .depth_mm = depth,
                .outline = tw_outline_rectangle(arena, x0, 0.0, x0 + long_mm, on_face ? size.width_mm : size.thickness_mm) });
        if (on_face)
            tw_plan_cut(context, plan, (tw_cut){ .piece = piece, .name = "housing", .face = (tw_face)side, .depth_mm = cheek + f->e,
                .outline = housing_on(arena, f, (tw_face)side, right_end) });
    }
}

void tw_forked_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    tw_face from = (tw_face)f->spec->from.value;
    tw_frame frame = tw_face_frame(from);
    tw_size extent = tw_face_extent(f->through_size, from);
    bool along = f->spec->lies.value == 0;
    double half_x = ((along ? f->w : f->t) + f->clearance) / 2.0, half_y = ((along ? f->t : f->w) + f->clearance) / 2.0;
    bool up_runs_back = frame.up.y + frame.up.z < 0.0;  // `across` counts against the face's up
    double y = up_runs_back ? extent.width_mm - f->across : f->across;
    for (int i = 0; i < f->spec->at.count; i++) {
        double x = f->spec->at.items[i].value;
        tw_plan_cut(context, plan, (tw_cut){ .piece = f->spec->through.index, .name = "mortise", .face = from, .depth_mm = f->T, .through = true,
            .outline = tw_outline_rectangle(arena, x - half_x, y - half_y, x + half_x, y + half_y) });
    }
    if (f->spec->ends.value != TW_ENDS_LEFT) tenon_cuts(context, plan, f, true);
    if (f->spec->ends.value != TW_ENDS_RIGHT) tenon_cuts(context, plan, f, false);
}

/* ---- the mortised piece ---- */

/* How deep the longest cutter goes that enters a mortise of this width, mm; 0 if none does. */
static double reach_mm(const tw_joint_context *context, const tw_forked *f, double width_mm)
{
    double reach = 0.0;
    for (int i = 0; i < context->shop->cutter_count; i++) {
        const tw_cutter *cutter = &context->shop->cutters[i];
        if (f->spec->mortise_cutter.given && !tw_text_is(tw_text_of(cutter->name), f->spec->mortise_cutter.text)) continue;
        if (cutter->plunges.value && cutter->d_mm <= width_mm + 1e-9) reach = tw_max(reach, cutter->cutting_length.value);
    }
    return reach;
}

static int mortise_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, int place)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    tw_face from = (tw_face)spec->from.value;
    tw_size extent = tw_face_extent(f->through_size, from);
    tw_frame frame = tw_face_frame(from);
    bool along = spec->lies.value == 0, up_runs_back = frame.up.y + frame.up.z < 0.0;
    double half_x = ((along ? f->w : f->t) + f->clearance) / 2.0, half_y = ((along ? f->t : f->w) + f->clearance) / 2.0;
    double at = spec->at.items[place].value, narrow = 2.0 * tw_min(half_x, half_y);
    bool both = f->T + BREAK_THROUGH_MM > reach_mm(context, f, narrow);
    return tw_plan_work(context, plan, (tw_work){
        .name = spec->at.count > 1 ? tw_format(arena, "mortises at %s", tw_say(context, at)) : "mortises",
        .key = tw_format(arena, "mortises, %d of %d", place + 1, spec->at.count),
        .what = both ? tw_format(arena, "Cut the mortise from both sides, so that the two halves meet: all pieces from the %s first. Then turn each so that the %s comes to the cutter, "
                                        "the same side down: its left end is then on the other side of the centre, so set the stop there, as far off.",
                                 tw_face_words[from], tw_face_words[tw_face_opposite(from)])
                     : "Cut the mortise through, into a backing board.",
        .way = TW_WAY_COPY, .piece = spec->through.index, .face = from, .down = tw_face_below(from), .count = f->through_pieces,
        .places = tw_format(arena, "%s, %s from the left end", tw_face_words[from], tw_say(context, at)),
        .copied = true,
        .copy = { .cut = tw_outline_rectangle(arena, -half_x, -half_y, half_x, half_y), .inside = true,
                  .depth_mm = both ? f->T / 2.0 + BREAK_THROUGH_MM : f->T + BREAK_THROUGH_MM, .both_faces = both,
                  .cutter = spec->mortise_cutter.given ? spec->mortise_cutter.text : NULL, .cutter_most_mm = narrow,
                  .locate = TW_LOCATE_CENTRED, .stop_end = TW_SIDE_LEFT_END, .stop_to_origin_mm = at, .stop_word = "left end",
                  .down_to_origin_mm = up_runs_back ? extent.width_mm - f->across : f->across, .wall_word = "",
                  .corner_word = spec->mortise_corners.value == 0 ? "they are chopped square afterwards, on a card of their own" : "the tenon's arrises are rounded to them" },
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick", tw_say(context, f->T)),
        .measure = "width of the mortise, cheek to cheek", .measure_mm = f->t + f->clearance, .measure_under_mm = -0.05, .measure_over_mm = 0.15,
        .answer = { TW_BY_WIDTH, 1.0 }, .if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, or a cutter larger by the error; too wide: the other way", context->shop->machine.ratio.value),
        .state = "planed to its finished faces and sanded where the tusks bear, to length, marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = both ? "" : "A backing board is clamped behind: the cutter comes out there.", .stage = 20 });
}

static int corners_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    bool square = f->spec->mortise_corners.value == 0;
    int places = f->through_pieces * f->spec->at.count;
    return tw_plan_work(context, plan, (tw_work){
        .name = square ? "corners of the mortises" : "arrises of the tenons",
        .what = square ? "Chop the four round corners of each mortise square, from both sides towards the middle; leave the arris of the outer side sharp where the tusk bears."
                       : "Round the four long arrises of each tenon to the radius of the mortise's corners, tried in a test mortise.",
        .way = square ? TW_WAY_CHISEL : TW_WAY_PLANE, .piece = square ? f->spec->through.index : f->spec->tenon.index,
        .face = (tw_face)f->spec->from.value, .down = tw_face_below((tw_face)f->spec->from.value),
        .count = square ? places : plan->count, .pieces = square ? f->through_pieces : f->tenon_pieces,
        .places = square ? "every mortise, both sides" : "every tenon",
        .measure = "the tenon's offcut goes in by hand", .state = square ? "mortised" : "tenons sawn",
        .cautions = square ? "" : "The tenon's piece is clamped; rasp away from the hand that steadies.", .stage = 20 });
}

/* ---- the tenoned piece ---- */

static const char *ends_text(const tw_forked *f)
{
    return f->spec->ends.value == TW_ENDS_BOTH ? "both ends" : f->spec->ends.value == TW_ENDS_LEFT ? "left end" : "right end";
}

static int shoulder_line_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    return tw_plan_work(context, plan, (tw_work){
        .name = "shoulder lines",
        .what = tw_format(context->arena, "Strike the shoulder lines with a knife all round, %s from each end that carries a tenon.", tw_say(context, f->T + f->p)),
        .way = TW_WAY_MARK, .piece = f->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = plan->count, .pieces = f->tenon_pieces,
        .places = ends_text(f), .measure = "shoulder to shoulder", .stage = 20,
        .measure_mm = f->tenon_size.length_mm - f->ends * (f->T + f->p), .measure_under_mm = -0.2, .measure_over_mm = 0.2,
        .if_off = "mark the whole batch again from one piece", .state = "planed, to length", .marks = "face, face edge, both ends, number of the joint" });
}

static int tenon_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    return tw_plan_work(context, plan, (tw_work){
        .name = "tenons", .way = TW_WAY_SAW, .piece = f->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_FACE_EDGE,
        .what = tw_format(arena, "Saw the shoulders to the knife line (%s deep on the cheeks, %s on the edges), then the cheeks and edges %s long.",
            tw_say(context, (f->tenon_size.thickness_mm - f->t) / 2.0), tw_say(context, (f->tenon_size.width_mm - f->w) / 2.0), tw_say(context, f->T + f->p)),
        .count = plan->count, .pieces = f->tenon_pieces, .places = ends_text(f),
        .test_piece = "an offcut of the same stock, planed with it",
        .measure = "thickness of the tenon", .measure_mm = f->t, .measure_under_mm = -0.1, .measure_over_mm = 0.05,
        .answer = { TW_BY_FENCE, 2.0 }, .if_off = "move the fence by half of the error: both cheeks are cut from it",
        .state = "planed, to length, shoulder lines struck", .marks = "face, face edge, number of the joint",
        .cautions = "Cheeks: the piece stands upright in a carriage that holds it, never free in the hand. The offcut falls on the outer side of the blade.", .stage = 20 });
}

static int fit_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    return tw_plan_work(context, plan, (tw_work){
        .name = "tenons into their mortises", .way = TW_WAY_FIT, .piece = f->spec->tenon.index, .count = plan->count, .pieces = f->tenon_pieces,
        .what = tw_format(arena, "Put each tenon dry into its own mortise until the shoulder is tight all round, and strike a knife line on both cheeks "
            "along the outer side of %s. The straight wall of the housing will lie %s inside that line. Number both.", f->through->name, tw_say(context, f->c)),
        .places = ends_text(f), .measure = "from the knife line to the end of the tenon", .measure_mm = f->p, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = f->spec->set_from.value == 0
            ? tw_format(arena, "add the difference to the shift of the housings, %g times: away from the stop where the figure is larger", context->shop->machine.ratio.value)
            : "the housings are set from the shoulder: only the relish changes",
        .state = "tenons sawn, mortises finished, bearing sides planed and sanded", .marks = "number of the joint on both", .stage = 25 });
}

static int chamfer_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    return tw_plan_work(context, plan, (tw_work){
        .name = "lead-in on the tenons", .way = TW_WAY_PLANE, .piece = f->spec->tenon.index, .count = plan->count, .pieces = f->tenon_pieces,
        .what = tw_format(context->arena, "Chamfer the four arrises of each tenon's end by %s, from the corners inward so that nothing breaks out.", tw_say(context, f->chamfer)),
        .places = ends_text(f), .state = "housings cut", .stage = 27 });
}

/* ---- housings ---- */

/* Which end and cheek belong to a hand. Right hand: the tenon points to the right when one looks at the cheek with the
 * heads' edge up. Heads to the back edge: right end's face and left end's back; else the other two. */
typedef struct tw_cheek { tw_face face; bool right_end; } tw_cheek;

static int cheeks_of(const tw_forked *f, tw_hand hand, tw_cheek cheeks[2])
{
    bool face_is_right_end = (hand == TW_HAND_RIGHT) == (f->spec->heads_to.value == 1);
    const tw_cheek all[2] = { { TW_SIDE_FACE, face_is_right_end }, { TW_SIDE_BACK, !face_is_right_end } };
    int count = 0;
    for (int i = 0; i < 2; i++) {
        bool there = f->spec->ends.value == TW_ENDS_BOTH || (f->spec->ends.value == TW_ENDS_RIGHT) == all[i].right_end;
        if (there) cheeks[count++] = all[i];
    }
    return count;
}

static const char *cheeks_text(tw_arena *arena, const tw_cheek *cheeks, int count, int pieces)
{
    const char *text = "";
    for (int i = 0; i < count; i++)
        text = tw_format(arena, "%s%s%s end, %s (%d)", text, i ? "; " : "", cheeks[i].right_end ? "right" : "left", tw_face_words[cheeks[i].face], pieces);
    return text;
}

static tw_copy_want housing_want(tw_joint_context *context, const tw_forked *f, tw_hand hand, tw_cheek cheek)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    bool right = hand == TW_HAND_RIGHT, from_end = spec->set_from.value == 0;
    tw_outline cut = tw_forked_housing(arena, f);
    return (tw_copy_want){
        .cut = right ? cut : tw_outline_mirrored(arena, cut), .inside = true, .depth_mm = f->e,
        .cutter = f->cutter >= 0 ? context->shop->cutters[f->cutter].name : NULL,
        .follower = spec->follower.given ? spec->follower.text : NULL, .cutter_most_mm = f->d,
        .locate = TW_LOCATE_BASELINE, .edge_x_mm = right ? -f->c : f->c, .edge_side = right ? -1 : 1,
        .stop_end = cheek.right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END,
        .stop_to_origin_mm = from_end ? f->p : -f->T, .stop_at_centre = true, .stop_word = from_end ? "end of the tenon" : "shoulder",
        .down_to_origin_mm = f->tenon_size.width_mm / 2.0,
        .overhang_low_mm = tw_max(0.0, f->w / 2.0 + f->o - f->tenon_size.width_mm / 2.0),
        .shoulder_mm = (f->tenon_size.thickness_mm - f->t) / 2.0, .shoulder_away_mm = f->T - f->c + f->d / 2.0, .wall_word = "straight wall",
        .corner_word = "they lie past the tenon's edges, where there is no wood", .zero_word = "cheek of the tenon" };
}

static int housing_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, tw_hand hand, int after)
{
    tw_arena *arena = context->arena;
    tw_cheek cheeks[2];
    int count = cheeks_of(f, hand, cheeks);
    if (count == 0) return -1;
    tw_face down = f->spec->heads_to.value == 1 ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK_EDGE;
    int index = tw_plan_work(context, plan, (tw_work){
        .name = hand == TW_HAND_RIGHT ? "housings, right hand" : "housings, left hand", .hand = hand,
        .what = tw_format(arena, "Tapered housings, tenon pointing to the %s, %s down. The wide end, where the tusk's head comes, is up.",
            hand == TW_HAND_RIGHT ? "right" : "left", tw_face_words[down]),
        .way = TW_WAY_COPY, .piece = f->spec->tenon.index, .face = cheeks[0].face, .down = down,
        .count = count * f->tenon_pieces, .pieces = f->tenon_pieces, .places = cheeks_text(arena, cheeks, count, f->tenon_pieces),
        .copied = true, .copy = housing_want(context, f, hand, cheeks[0]),
        .test_piece = tw_format(arena, "an offcut of the same planed stock with a tenon %s thick", tw_say(context, f->t)),
        .measure = "web between the two housings, with the test piece turned over for the second", .measure_mm = f->q, .measure_under_mm = -0.1, .measure_over_mm = 0.1,
        .answer = { TW_BY_DEPTH, -2.0 }, .if_off = tw_format(arena, "web too thick or thin: the depth stop by half of the error; straight wall not %s inside the knife line: the shift by %g times the error", tw_say(context, f->c),
            context->shop->machine.ratio.value),
        .state = "tenons fitted, knife line struck on both cheeks", .marks = "face, number of the joint, an arrow to the head's edge",
        .cautions = tw_format(arena, "The tenon is thin: clamp it on both sides of the cut, and pack behind it where it stands free, %s; where the other cheek has its housing already, %s there.",
            tw_say(context, (f->tenon_size.thickness_mm - f->t) / 2.0), tw_say(context, (f->tenon_size.thickness_mm - f->t) / 2.0 + f->e)),
        .stage = 26 });
    tw_work_after(context, &plan->works[index], after);
    return index;
}

/* ---- tusks ---- */

static tw_part tusk_part(tw_joint_context *context, const tw_forked *f, int count)
{
    const tw_machine *machine = &context->shop->machine;
    double kerf = context->shop->saw_kerf.given ? context->shop->saw_kerf.value : 3.0;
    double one = f->tusk_length + END_ROOM_MM + kerf, least = machine->smallest_piece.given ? machine->smallest_piece.value : 300.0;
    tw_part part = { .name = tw_format(context->arena, "tusk"), .count = count, .per_stick = 2,
        .finished = { f->tusk_length, f->tusk_width, f->stick_thickness }, .timber = f->spec->tusk_timber.given ? f->spec->tusk_timber.text : f->tenon->timber.text };
    part.stick = (tw_size){ tw_max(2.0 * one, least), f->tusk_width, f->stick_thickness };
    return part;
}

static int stick_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, const tw_part *part)
{
    int sticks = (part->count + part->per_stick - 1) / part->per_stick;
    return tw_plan_work(context, plan, (tw_work){
        .name = "sticks for the tusks", .way = TW_WAY_PLANE, .piece = -1, .part = part->name, .count = sticks,
        .what = tw_format(context->arena, "Plane straight-grained stuff %s wide and %s thick, all in one go and long enough for the planer; then crosscut it into sticks of %s, with one more for trials. Two tusks come from each, tips outward.",
            tw_say(context, part->stick.width_mm), tw_say(context, part->stick.thickness_mm), tw_say(context, part->stick.length_mm)),
        .places = "every stick", .cautions = "No stick as short as these goes through a planer: plane the long stuff.", .measure = "width over both legs", .measure_mm = f->tusk_width, .measure_under_mm = -0.1, .measure_over_mm = 0.1,
        .state = "sawn", .stage = 30 });
}

static tw_copy_want slot_want(tw_joint_context *context, const tw_forked *f)
{
    double past = f->slot;  // the slot is open at the tip: the cutter leaves the wood there
    double half_x = (f->slot_length + past) / 2.0;
    return (tw_copy_want){
        .cut = tw_outline_rounded(context->arena, -half_x, -f->slot / 2.0, half_x, f->slot / 2.0, f->slot / 2.0), .inside = true,
        .depth_mm = f->stick_thickness + BREAK_THROUGH_MM, .cutter_most_mm = f->slot + 1e-6, .locate = TW_LOCATE_CENTRED,
        .stop_end = TW_SIDE_RIGHT_END, .stop_to_origin_mm = f->slot_length - half_x, .stop_word = "tip of the tusk, the stick's end",
        .down_to_origin_mm = f->tusk_width / 2.0, .wall_word = "" };
}

static int slot_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, const tw_part *part)
{
    int sticks = (part->count + part->per_stick - 1) / part->per_stick;
    return tw_plan_work(context, plan, (tw_work){
        .name = "slots of the tusks", .way = TW_WAY_COPY, .piece = -1, .part = part->name, .face = TW_SIDE_FACE, .down = TW_SIDE_FACE_EDGE,
        .what = "Slot both ends of each stick while it is long enough to hold; turn it end for end, the same edge down. The slot runs out past the tip.",
        .count = part->count, .pieces = sticks, .places = "both ends of each stick", .copied = true, .copy = slot_want(context, f),
        .test_piece = "the trial stick", .measure = "width of the slot", .measure_mm = f->slot, .measure_under_mm = -0.1, .measure_over_mm = 0.15,
        .answer = { TW_BY_CUTTER, 1.0 }, .if_off = "too narrow or too wide: another cutter, the slot is as wide as the cutter; legs of unequal width: the slot is off the middle",
        .state = "stick planed on four sides, over length", .marks = "one edge marked, always down",
        .cautions = "Clamp the stick at both ends of what stays whole; a backing board lies behind it, the cutter comes out there.", .stage = 31 });
}

static int ramp_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, const tw_part *part)
{
    tw_arena *arena = context->arena;
    return tw_plan_work(context, plan, (tw_work){
        .name = "ramps of the tusks", .way = TW_WAY_BANDSAW, .piece = -1, .part = part->name, .count = part->count,
        .what = tw_format(arena, "Saw the ramp at %s in a cradle against the bandsaw's fence, from the tip: %s thick at the tip, growing until the saw runs out of the stick's full %s; a little heavy. The stick is still whole.",
            tw_angle_text(arena, f->alpha), tw_say(context, f->tip_thickness), tw_say(context, f->stick_thickness)),
        .places = "each tusk, from the tip", .measure = tw_format(arena, "thickness %s from the tip, where the tenon's middle will be", tw_say(context, f->tip + f->w / 2.0)), .measure_mm = f->k, .measure_under_mm = 0.0, .measure_over_mm = 0.8,
        .answer = { TW_BY_FENCE, 1.0 }, .if_off = "move the fence by the error", .state = "slotted, over length",
        .cautions = "With a pusher, fingers never in line with the blade. Never a short tusk between a table saw's fence and blade.", .stage = 32 });
}

static int seat_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, const tw_part *part)
{
    tw_arena *arena = context->arena;
    return tw_plan_work(context, plan, (tw_work){
        .name = "tusks to their seats", .way = TW_WAY_PLANE, .piece = -1, .part = part->name, .count = part->count,
        .what = tw_format(arena, "Saw the stick in two at its middle, by hand in a bench hook. Plane each ramp downhill, from the head to the tip, until the tusk, tapped home in its own place, stands with its tip %s below the tenon. "
            "A shaving off the ramp lets it down by %.0f times its thickness. Number it to its joint.", tw_say(context, f->tip), 1.0 / tan(f->alpha)),
        .places = "each at its own joint", .measure = "tip proud of the tenon, seated", .measure_mm = f->tip, .measure_under_mm = -2.0, .measure_over_mm = 2.0,
        .if_off = "sits too high: plane the ramp; too low: a new tusk, or one from a place that sits high", .state = "ramp sawn", .marks = "number of the joint", .stage = 33 });
}

static int length_work(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, const tw_part *part)
{
    return tw_plan_work(context, plan, (tw_work){
        .name = "tusks to length", .way = TW_WAY_SAW, .piece = -1, .part = part->name, .count = part->count,
        .what = tw_format(context->arena, "Crosscut to %s from the tip: the head then stands %s above the tenon even when the reserve of %s is driven in. Round the head, shoot its end, chamfer the tip.",
            tw_say(context, f->tusk_length), tw_say(context, f->head), tw_say(context, f->z)),
        .places = "head's end", .measure = "length of the tusk", .measure_mm = f->tusk_length, .measure_under_mm = -0.5, .measure_over_mm = 1.0,
        .if_off = "too long: shoot the head's end", .state = "fitted to its seat",
        .cautions = "Short pieces: a bench hook and a hand saw, or a crosscut carriage with a hold-down; no loose stop that could trap the offcut.", .stage = 34 });
}

static void say_order(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    tw_plan_advice(context, plan, tw_format(arena, "Plane and sand the outer side of %s before anything is fitted: what is taken off there later lets each tusk down by %.0f times as much. Leave its arris sharp where the tusk bears.",
        f->through->name, 1.0 / tan(f->alpha)));
    tw_plan_advice(context, plan, "Strike the knife line from the real piece, with the joint together dry; make the test piece from the same planed stock.");
    tw_plan_advice(context, plan, "Tusks stay over length until the ramp is sawn and planed; then to length, head rounded, end shot, tip and tenon chamfered.");
    tw_plan_advice(context, plan, "Leave the bearing surfaces without finish, or let the finish harden first; wax the tusks. Tie each tusk to its joint and number both.");
    tw_plan_advice(context, plan, tw_format(arena, "Expect the seats to differ by about %.0f times what the walls differ; drive with a light mallet, and look again after the first dry weeks.",
        1.0 / tan(f->alpha)));
}

void tw_forked_works(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    int lines = shoulder_line_work(context, plan, f);
    int tenons = tenon_work(context, plan, f);
    tw_work_after(context, &plan->works[tenons], lines);
    int first_mortise = (int)plan->work_count;
    for (int i = 0; i < f->spec->at.count; i++) mortise_work(context, plan, f, i);
    int mortises_end = (int)plan->work_count;
    int corners = corners_work(context, plan, f);
    for (int i = first_mortise; i < mortises_end; i++) tw_work_after(context, &plan->works[corners], i);
    if (f->spec->mortise_corners.value != 0) tw_work_after(context, &plan->works[corners], tenons);
    int fit = fit_work(context, plan, f);
    tw_work_after(context, &plan->works[fit], tenons);
    tw_work_after(context, &plan->works[fit], corners);
    int right = housing_work(context, plan, f, TW_HAND_RIGHT, fit), left = housing_work(context, plan, f, TW_HAND_LEFT, fit);
    int chamfer = chamfer_work(context, plan, f);
    if (right >= 0) tw_work_after(context, &plan->works[chamfer], right);
    if (left >= 0) tw_work_after(context, &plan->works[chamfer], left);

    tw_part part = tusk_part(context, f, plan->count);
    tw_forked_tusk_cuts(context->arena, f, &part);
    tw_plan_part(context, plan, part);
    int previous = stick_work(context, plan, f, &part);
    int (*const makers[])(tw_joint_context *, tw_joint_plan *, const tw_forked *, const tw_part *) = { slot_work, ramp_work, seat_work, length_work };
    for (size_t i = 0; i < sizeof makers / sizeof *makers; i++) {
        int work = makers[i](context, plan, f, &part);
        tw_work_after(context, &plan->works[work], previous);
        if (makers[i] == seat_work) tw_work_after(context, &plan->works[work], chamfer);
        previous = work;
    }
    say_order(context, plan, f);
}
