// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk: the work, in the order that makers keep.
 *
 * The tusk's mortise has no hand: the tenon stands in the middle of its piece, and the piece turned end for end about the
 * plunge shows the other end's mortise exactly as the first, straight wall towards the body, the same side to the cutter.
 *
 * A leaning wall that is copied is cut with the piece in a cradle, turned by a about the upright axis so that the wall
 * lies along the plunge. Along the table then runs s = u cos a - v sin a:
 *     wall                       s = k cos a                                                           (1)
 *     straight wall, untouched   s >= -c cos a + (D/2) sin a                                           (2)
 *     corner of the tenon's end  s = p cos a + (D/2) sin a, the one that touches the stop              (3) */
#include "joint/single_tusk.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define BREAK_THROUGH_MM 1.0  // cut this much past the middle, or into the backing board
#define END_ROOM_MM 15.0      // left over at a stick's end, sawn off with the snipe: common practice

typedef struct builder { tw_joint_context *context; tw_joint_plan *plan; const tw_single *s; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say(b->context, length_mm); }
static double ratio(const builder *b) { return b->context->shop->machine.ratio.value; }
static void after(builder *b, int work, int before) { tw_work_after(b->context, &b->plan->works[work], before); }

static const char *ends_text(const builder *b)
{
    const tw_single *s = b->s;
    if (s->spec->ends.value == TW_SINGLE_LEFT) return tw_format(b->context->arena, "left end (%d)", s->tenon_pieces);
    if (s->spec->ends.value == TW_SINGLE_RIGHT) return tw_format(b->context->arena, "right end (%d)", s->tenon_pieces);
    return tw_format(b->context->arena, "left end (%d); right end (%d)", s->tenon_pieces, s->tenon_pieces);
}

/* The same where the other end lies turned on the machine: one setup, drawn once. */
static const char *turned_ends_text(const builder *b)
{
    return b->s->ends == 2 ? tw_format(b->context->arena, "left and right end (%d each)", b->s->tenon_pieces) : ends_text(b);
}

static tw_face first_end(const tw_single *s) { return s->spec->ends.value == TW_SINGLE_LEFT ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END; }

/* ---- the mortised piece ---- */

/* How deep the longest cutter goes that enters a slot of this width, mm; 0 if none does. */
static double reach_mm(const builder *b, const tw_words *named, double width_mm)
{
    double reach = 0.0;
    for (int i = 0; i < b->context->shop->cutter_count; i++) {
        const tw_cutter *cutter = &b->context->shop->cutters[i];
        if (named->given && !tw_text_is(tw_text_of(cutter->name), named->text)) continue;
        if (cutter->plunges.value && cutter->d_mm <= width_mm + 1e-9) reach = tw_max(reach, cutter->cutting_length.value);
    }
    return reach;
}

static int mortise_work(builder *b, int place)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_size extent = tw_face_extent(s->post, s->from);
    tw_frame frame = tw_face_frame(s->from);
    bool up_runs_back = frame.up.y + frame.up.z < 0.0;
    double half_x = ((s->along ? s->w : s->t) + s->clearance) / 2.0, half_y = ((s->along ? s->t : s->w) + s->clearance) / 2.0, narrow = 2.0 * tw_min(half_x, half_y);
    double at = s->spec->at.items[place].value;
    bool both = s->T + BREAK_THROUGH_MM > reach_mm(b, &s->spec->mortise_cutter, narrow);
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = s->spec->at.count > 1 ? tw_format(arena, "mortises at %s", say(b, at)) : "mortises",
        .key = tw_format(arena, "mortises, %d of %d", place + 1, s->spec->at.count),
        .what = both ? tw_format(arena, "Cut the mortise from both sides, so that the two halves meet: all pieces from the %s first. Then turn each so that the %s comes to the cutter, the same side down: "
                                        "its left end is then on the other side of the centre, so set the stop there, as far off.", tw_face_words[s->from], tw_face_words[tw_face_opposite(s->from)])
                     : "Cut the mortise through, into a backing board.",
        .way = TW_WAY_COPY, .piece = s->spec->through.index, .face = s->from, .down = tw_face_below(s->from), .count = s->through_pieces,
        .places = tw_format(arena, "%s, %s from the left end", tw_face_words[s->from], say(b, at)), .copied = true,
        .copy = { .cut = tw_outline_rectangle(arena, -half_x, -half_y, half_x, half_y), .inside = true, .depth_mm = both ? s->T / 2.0 + BREAK_THROUGH_MM : s->T + BREAK_THROUGH_MM, .both_faces = both,
                  .cutter = s->spec->mortise_cutter.given ? s->spec->mortise_cutter.text : NULL, .cutter_most_mm = narrow, .locate = TW_LOCATE_CENTRED,
                  .stop_end = TW_SIDE_LEFT_END, .stop_to_origin_mm = at, .stop_word = "left end", .down_to_origin_mm = up_runs_back ? extent.width_mm - s->across : s->across, .wall_word = "" },
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick", say(b, s->T)),
        .measure = "width of the mortise, cheek to cheek", .measure_mm = s->t + s->clearance, .measure_under_mm = -0.05, .measure_over_mm = 0.15,
        .answer = { TW_BY_WIDTH, 1.0 }, .if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, or a cutter larger by the error; too wide: the other way", ratio(b)),
        .state = "planed to its finished faces and sanded where the tusk bears, to length, marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = both ? "" : "A backing board is clamped behind: the cutter comes out there.", .stage = 20 });
}

static int corners_work(builder *b)
{
    const tw_single *s = b->s;
    bool square = s->spec->mortise_corners.value == 0;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = square ? "corners of the mortises" : "arrises of the tenons",
        .what = square ? "Chop the four round corners of each mortise square, from both sides towards the middle; leave the arris of the outer side sharp where the tusk bears."
                       : "Round the four long arrises of each tenon to the radius of the mortise's corners, tried in a test mortise.",
        .way = square ? TW_WAY_CHISEL : TW_WAY_PLANE, .piece = square ? s->spec->through.index : s->spec->tenon.index, .face = square ? s->from : TW_SIDE_FACE,
        .down = square ? tw_face_opposite(s->from) : TW_SIDE_BACK, .count = square ? s->through_pieces * s->spec->at.count : b->plan->count, .pieces = square ? s->through_pieces : s->tenon_pieces,
        .places = square ? "every mortise, both sides" : "every tenon", .measure = "the tenon's offcut goes in by hand", .state = square ? "mortised" : "tenons sawn",
        .cautions = square ? "" : "The tenon's piece is clamped; rasp away from the hand that steadies.", .stage = 20 });
}

/* ---- the tenon ---- */

static int shoulder_line_work(builder *b)
{
    const tw_single *s = b->s;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "shoulder lines", .what = tw_format(b->context->arena, "Strike the shoulder lines with a knife all round, %s from each end that carries a tenon.", say(b, s->T + s->p)),
        .way = TW_WAY_MARK, .piece = s->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = b->plan->count, .pieces = s->tenon_pieces, .places = ends_text(b),
        .measure = s->ends == 2 ? "shoulder to shoulder" : "from the shoulder to the other end", .measure_mm = s->a.length_mm - s->ends * (s->T + s->p), .measure_under_mm = -0.2, .measure_over_mm = 0.2,
        .if_off = "mark the whole batch again from one piece", .state = "planed, to length", .marks = "face, face edge, both ends, number of the joint", .stage = 20 });
}

static int tenon_work(builder *b)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "tenons", .way = TW_WAY_SAW, .piece = s->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_FACE_EDGE,
        .what = tw_format(arena, "Saw the shoulders to the knife line (%s deep on the cheeks, %s on the edges), then the cheeks and edges %s long.", say(b, (s->a.thickness_mm - s->t) / 2.0),
            say(b, (s->a.width_mm - s->w) / 2.0), say(b, s->T + s->p)),
        .count = b->plan->count, .pieces = s->tenon_pieces, .places = ends_text(b), .test_piece = "an offcut of the same stock, planed with it",
        .measure = "thickness of the tenon", .measure_mm = s->t, .measure_under_mm = -0.1, .measure_over_mm = 0.05, .answer = { TW_BY_FENCE, 2.0 }, .if_off = "move the fence by half of the error: both cheeks are cut from it",
        .state = "planed, to length, shoulder lines struck", .marks = "face, face edge, number of the joint",
        .cautions = "Cheeks: the piece stands upright in a carriage that holds it, never free in the hand. The offcut falls on the outer side of the blade.", .stage = 20 });
}

static int fit_work(builder *b)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "tenons into their mortises", .way = TW_WAY_FIT, .piece = s->spec->tenon.index, .count = b->plan->count, .pieces = s->tenon_pieces,
        .what = tw_format(arena, "Put each tenon dry into its own mortise until the shoulder is tight all round, and strike a knife line round the tenon along the outer side of %s. "
            "The straight wall of the tusk's mortise will lie %s inside that line. Number both.", s->through->name, say(b, s->c)),
        .places = ends_text(b), .measure = "from the knife line to the end of the tenon", .measure_mm = s->p, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = s->spec->set_from.value == 0 ? "set the stop of the tusk's slot by the same difference: farther off where the figure is larger" : "the tusk's slot is set from the shoulder: only the relish changes",
        .state = "tenons sawn, mortises finished, bearing sides planed and sanded", .marks = "number of the joint on both", .stage = 25 });
}

static int chamfer_work(builder *b)
{
    const tw_single *s = b->s;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "lead-in on the tenons", .way = TW_WAY_PLANE, .piece = s->spec->tenon.index, .face = first_end(s), .down = TW_SIDE_BACK, .count = b->plan->count, .pieces = s->tenon_pieces,
        .what = tw_format(b->context->arena, "Chamfer the four arrises of each tenon's end by %s, from the corners inward so that nothing breaks out.", say(b, s->chamfer)),
        .places = ends_text(b), .state = "slots finished", .stage = 27 });
}

/* ---- the tusk's mortise ---- */

static const char *head_surface(const tw_single *s) { return s->upright ? "edge of the tenon" : "cheek of the tenon"; }
static const char *turn_text(const builder *b)
{
    return b->s->ends == 2 ? tw_format(b->context->arena, " For the other end turn the piece end for end, the %s still to the cutter, its other side down.", tw_face_words[b->s->head]) : "";
}

static tw_copy_want straight_want(const builder *b, bool both)
{
    const tw_single *s = b->s;
    double half = s->open_low / 2.0, middle = half - s->c;  // u of the slot's middle
    bool from_end = s->spec->set_from.value == 0;
    bool own = s->cutter >= 0 && fabs(b->context->shop->cutters[s->cutter].d_mm - s->mb) < 1e-6;
    return (tw_copy_want){
        .cut = tw_outline_rounded(b->context->arena, -half, -s->mb / 2.0, half, s->mb / 2.0, tw_min(s->mb, s->open_low) / 2.0), .inside = true,
        .depth_mm = both ? s->D / 2.0 + BREAK_THROUGH_MM : s->D + BREAK_THROUGH_MM, .both_faces = both,
        .cutter = s->spec->cutter.given ? s->spec->cutter.text : own ? b->context->shop->cutters[s->cutter].name : NULL, .follower = s->spec->follower.given ? s->spec->follower.text : NULL,
        .cutter_most_mm = s->mb, .locate = TW_LOCATE_CENTRED, .stop_end = first_end(s), .stop_to_origin_mm = from_end ? s->p - middle : -(s->T + middle),
        .stop_word = from_end ? "end of the tenon" : "shoulder", .down_to_origin_mm = tw_face_extent(s->a, s->head).width_mm / 2.0,
        .shoulder_mm = tw_single_head_shoulder(s), .shoulder_away_mm = s->T - s->c + s->mb / 2.0, .wall_word = "", .zero_word = head_surface(s) };
}

static int straight_work(builder *b)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    bool both = s->D + BREAK_THROUGH_MM > reach_mm(b, &s->spec->cutter, s->mb);
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "slots for the tusks",
        .what = tw_format(arena, "%s from the side where the head comes, as long as it is on the tip's side: its near end lies %s inside the knife line.%s%s", both ? "Slot half through" : "Slot through",
            say(b, s->c), both ? tw_format(arena, " Then roll the piece over about its length, the %s to the cutter, the same end at the same stop, and cut the other half.", tw_face_words[tw_face_opposite(s->head)]) : "", turn_text(b)),
        .way = TW_WAY_COPY, .piece = s->spec->tenon.index, .face = s->head, .down = tw_face_below(s->head), .count = b->plan->count, .pieces = s->tenon_pieces, .places = turned_ends_text(b),
        .copied = true, .copy = straight_want(b, both), .test_piece = tw_format(arena, "an offcut of the same planed stock with a tenon %s thick and %s wide", say(b, s->t), say(b, s->w)),
        .measure = "from the knife line to the far end of the slot", .measure_mm = s->open_low - s->c, .measure_under_mm = -0.2, .measure_over_mm = 0.2,
        .answer = { TW_BY_STOP, s->spec->set_from.value == 0 ? -1.0 : 1.0 }, .if_off = "off along the tenon: the stop by the error; off the middle of the tenon: the table by half of what turning the test piece over shows",
        .state = "tenons fitted, knife line struck round them", .marks = "number of the joint, an arrow to the head's side",
        .cautions = both ? "The tenon is held down on both sides of the cut and packed beneath where it hangs free."
                         : "The tenon is held down on both sides of the cut and packed beneath where it hangs free; a backing board lies behind it.", .stage = 26 });
}

static int cradle_work(builder *b)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    double wall = s->k * cos(s->alpha), near_ = -s->c * cos(s->alpha) + s->D / 2.0 * sin(s->alpha), half = (wall - near_) / 2.0;
    double touch = s->p * cos(s->alpha) + s->D / 2.0 * sin(s->alpha), depth = s->D / cos(s->alpha) + BREAK_THROUGH_MM;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "leaning walls of the slots",
        .what = tw_format(arena, "The piece lies in a cradle that leans by %s: the tenon's end stands away from the cutter, so that the wall to be cut lies along the plunge. The corner of the tenon's end that lies deepest "
            "touches the stop. Zero the depth where the wall meets the %s.%s", tw_angle_text(arena, s->alpha), head_surface(s), turn_text(b)),
        .way = TW_WAY_COPY, .piece = s->spec->tenon.index, .face = s->head, .down = tw_face_below(s->head), .count = b->plan->count, .pieces = s->tenon_pieces, .places = turned_ends_text(b), .copied = true,
        .copy = { .cut = tw_outline_rectangle(arena, -half, -s->mb / 2.0, half, s->mb / 2.0), .inside = true, .depth_mm = depth, .cutter = b->context->shop->cutters[s->wall_cutter].name,
                  .follower = s->spec->follower.given ? s->spec->follower.text : NULL, .cutter_most_mm = s->mb * 2.0 / 3.0, .locate = TW_LOCATE_CENTRED, .stop_end = first_end(s),
                  .stop_to_origin_mm = touch - (wall + near_) / 2.0, .stop_word = "deepest corner of the tenon's end", .down_to_origin_mm = tw_face_extent(s->a, s->head).width_mm / 2.0,
                  .shoulder_mm = tw_single_head_shoulder(s), .shoulder_away_mm = s->T + near_ + s->mb / 2.0, .wall_word = "", .zero_word = head_surface(s) },
        .test_piece = "the straight part's test piece", .measure = tw_format(arena, "length of the mortise at the %s, head's side", head_surface(s)), .measure_mm = s->open_high, .measure_under_mm = -0.1, .measure_over_mm = 0.3,
        .answer = { TW_BY_STOP, -1.0 / cos(s->alpha) }, .if_off = "the stop by the error", .state = "straight part cut", .marks = "number of the joint, an arrow to the head's side",
        .cautions = "The cradle is screwed to the table, the piece clamped in it at two places; the straight part's offcut is not put back.", .stage = 26 });
}

static int pare_work(builder *b)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    bool cradle = s->spec->wall_by.value == 1;
    const char *how = cradle ? "Chop the round ends square: the straight end to its knife line, the corners of the leaning wall down to the flat that the cutter has left in its middle."
        : tw_format(arena, "Chop the straight end square to a knife line. Knife the far end at %s from the outer side of %s on the head's side and %s on the tip's side, and pare the wall between, from the head's side, along a block sawn at %s.",
              say(b, s->open_high - s->c), s->through->name, say(b, s->open_low - s->c), tw_angle_text(arena, s->alpha));
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = cradle ? "corners of the slots" : "leaning walls of the slots", .what = how, .way = TW_WAY_CHISEL, .piece = s->spec->tenon.index, .face = s->head,
        .down = tw_face_opposite(s->head), .count = b->plan->count, .pieces = s->tenon_pieces, .places = ends_text(b), .test_piece = "the slot's test piece",
        .measure = "length of the mortise on the head's side", .measure_mm = s->open_high, .measure_under_mm = -0.1, .measure_over_mm = 0.3,
        .if_off = "heavy: the tusk sits lower, number it to this place; light: pare, a shaving at a time; never hollow in the middle",
        .state = "slotted", .marks = "number of the joint, an arrow to the head's side", .cautions = "The tenon is thin beside the slot: a block beneath it, and no levering.", .stage = 26 });
}

/* ---- the tusk ---- */

static tw_part tusk_part(const builder *b)
{
    const tw_single *s = b->s;
    const tw_shop *shop = b->context->shop;
    double kerf = shop->saw_kerf.given ? shop->saw_kerf.value : 3.0, least = shop->machine.smallest_piece.given ? shop->machine.smallest_piece.value : 300.0;
    double one = s->tusk_length + END_ROOM_MM + kerf;
    return (tw_part){ .name = "tusk", .count = b->plan->count, .per_stick = 2, .finished = { s->tusk_length, s->b, s->stick_thickness },
                      .stick = { tw_max(2.0 * one, least), s->b, s->stick_thickness }, .timber = s->spec->tusk_timber.given ? s->spec->tusk_timber.text : s->tenon->timber.text };
}

static int stick_work(builder *b, const tw_part *part)
{
    int sticks = (part->count + part->per_stick - 1) / part->per_stick;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "sticks for the tusks", .way = TW_WAY_PLANE, .piece = -1, .part = part->name, .count = sticks,
        .what = tw_format(b->context->arena, "Plane straight-grained stuff %s broad and %s thick in one length, long enough for the planer; then crosscut it into sticks of %s, with one more for trials. Two tusks come from each, tips outward.",
            say(b, part->stick.width_mm), say(b, part->stick.thickness_mm), say(b, part->stick.length_mm)),
        .places = "every stick", .measure = "breadth, tried in the mortise of a tusk", .measure_mm = b->s->b, .measure_under_mm = -0.15, .measure_over_mm = 0.1, .if_off = "plane it until it slides by hand",
        .state = "sawn", .cautions = "No stick as short as these goes through a planer: plane the long stuff.", .stage = 30 });
}

static int ramp_work(builder *b, const tw_part *part)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "ramps of the tusks", .way = TW_WAY_BANDSAW, .piece = -1, .part = part->name, .count = part->count,
        .what = tw_format(arena, "Saw the ramp at %s in a cradle against the bandsaw's fence, from the tip: %s thick at the tip, growing until the saw runs out of the stick's full %s; a little heavy. The stick is still whole.",
            tw_angle_text(arena, s->alpha), say(b, s->tip_thickness), say(b, s->stick_thickness)),
        .places = "each tusk, from the tip", .measure = tw_format(arena, "thickness %s from the tip, where the tenon's middle will be", say(b, s->tip + s->D / 2.0)), .measure_mm = s->k, .measure_under_mm = 0.0,
        .measure_over_mm = 0.8, .answer = { TW_BY_FENCE, 1.0 }, .if_off = "move the fence by the error", .state = "planed, over length",
        .cautions = "With a pusher, fingers never in line with the blade. Never a short tusk between a table saw's fence and blade.", .stage = 32 });
}

static int seat_work(builder *b, const tw_part *part)
{
    const tw_single *s = b->s;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "tusks to their seats", .way = TW_WAY_PLANE, .piece = -1, .part = part->name, .count = part->count,
        .what = tw_format(b->context->arena, "Saw the stick in two at its middle, by hand in a bench hook. Plane each ramp downhill, from the head to the tip, until the tusk, tapped home in its own place, stands with its tip %s out of the tenon. "
            "A shaving off the ramp lets it in by %.0f times its thickness. Number it to its joint.", say(b, s->tip), 1.0 / tan(s->alpha)),
        .places = "each at its own joint", .measure = "tip proud of the tenon, seated", .measure_mm = s->tip, .measure_under_mm = -2.0, .measure_over_mm = 2.0,
        .if_off = "stands too far out: plane the ramp; goes in too far: a new tusk, or one from a place that sits high", .state = "ramp sawn", .marks = "number of the joint", .stage = 33 });
}

static int length_work(builder *b, const tw_part *part)
{
    const tw_single *s = b->s;
    return tw_plan_work(b->context, b->plan, (tw_work){
        .name = "tusks to length", .way = TW_WAY_SAW, .piece = -1, .part = part->name, .count = part->count,
        .what = tw_format(b->context->arena, "Crosscut to %s from the tip: the head then stands %s out of the tenon even when the reserve of %s is driven in. Round the head, shoot its end, chamfer the tip.",
            say(b, s->tusk_length), say(b, s->head_proud), say(b, s->z)),
        .places = "head's end", .measure = "length of the tusk", .measure_mm = s->tusk_length, .measure_under_mm = -0.5, .measure_over_mm = 1.0, .if_off = "too long: shoot the head's end", .state = "fitted to its seat",
        .cautions = "Short pieces: a bench hook and a hand saw, or a crosscut carriage with a hold-down; no loose stop that could trap the offcut.", .stage = 34 });
}

/* ---- the order ---- */

static void say_order(builder *b)
{
    const tw_single *s = b->s;
    tw_arena *arena = b->context->arena;
    double times = 1.0 / tan(s->alpha);
    tw_plan_advice(b->context, b->plan, tw_format(arena, "Plane and sand the outer side of %s before anything is fitted: what is taken off there later lets each tusk in by %.0f times as much. Leave its arris sharp where the tusk bears.",
        s->through->name, times));
    tw_plan_advice(b->context, b->plan, "Strike the knife line from the real piece, with the joint together dry; make the test piece from the same planed stock.");
    tw_plan_advice(b->context, b->plan, "The straight wall is never touched by the tusk: if it is, cut it back, or nothing is drawn.");
    tw_plan_advice(b->context, b->plan, "Pare the leaning wall flat or a hair hollow across, never round: a tusk that rocks on it works loose. The tusk's grain runs along it.");
    tw_plan_advice(b->context, b->plan, "Leave the bearing surfaces without finish, or let the finish harden first; wax the tusks. Tie each tusk to its joint and number both.");
    tw_plan_advice(b->context, b->plan, tw_format(arena, "Expect the seats to differ by about %.0f times what the walls differ; drive with a light mallet, and look again after the first dry weeks.%s", times,
        s->upright ? "" : " A level tusk does not fall deeper by itself: try it by hand now and then."));
}

static void tusk_works(builder *b, int mortises, int chamfer)
{
    tw_part part = tusk_part(b);
    tw_single_tusk_cuts(b->context->arena, b->s, &part);
    tw_plan_part(b->context, b->plan, part);
    int stick = stick_work(b, &part), ramp = ramp_work(b, &part), seat = seat_work(b, &part), length = length_work(b, &part);
    after(b, ramp, stick);
    after(b, seat, ramp);
    after(b, seat, mortises);
    after(b, seat, chamfer);
    after(b, length, seat);
}

void tw_single_works(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s)
{
    assert(tw_single_possible(s));
    builder b = { context, plan, s };
    int lines = shoulder_line_work(&b), tenons = tenon_work(&b), first = (int)plan->work_count;
    after(&b, tenons, lines);
    for (int i = 0; i < s->spec->at.count; i++) mortise_work(&b, i);
    int end = (int)plan->work_count, corners = corners_work(&b);
    for (int i = first; i < end; i++) after(&b, corners, i);
    if (s->spec->mortise_corners.value != 0) after(&b, corners, tenons);
    int fit = fit_work(&b);
    after(&b, fit, tenons);
    after(&b, fit, corners);
    int straight = straight_work(&b), before = straight;
    after(&b, straight, fit);
    if (s->spec->wall_by.value == 1 && s->wall_cutter >= 0) {
        before = cradle_work(&b);
        after(&b, before, straight);
    }
    int pared = pare_work(&b);
    after(&b, pared, before);
    int chamfer = chamfer_work(&b);
    after(&b, chamfer, pared);
    tusk_works(&b, pared, chamfer);
    say_order(&b);
}
