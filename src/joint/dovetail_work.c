// SPDX-License-Identifier: GPL-3.0-or-later
/* Through dovetail: the work, in the order that makers keep. Tails first, the pins to them; dry fit once, glue, level.
 *
 * Copied tails: the board points at the cutter, all gaps of an end are one template of straight slots. The cutter stands at
 * its full depth from the start, beside the wood in the slot's upper end, and leaves by the lower one; so slots run past the
 * faces by more than the cutter is wide. Alike from face and back: at the left end the face lies down, the face edge at the
 * same stop.
 * Copied pins: the sockets slant, wide at the outer side. The same side lies down for both ends; the joint is alike from both
 * edges, so at the other end the other edge stands at the stop, and there is no hand. */
#include "joint/dovetail.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"

#define LIMIT_SHARE 0.5         // of the clearance: each gap keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.03

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_dovetail *d; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
static void add(builder *b, tw_work work) { tw_layers_add(&b->layers, work); }
static double limit_mm(const builder *b) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * b->d->c); }
static const tw_corner_board *board_of(const builder *b, bool of_b) { return of_b ? &b->d->k.b : &b->d->k.a; }
static double deep(const builder *b, bool of_b) { return tw_dovetail_deep(b->d, of_b); }
static double slope_run(const builder *b) { return 1.0 / b->d->slope; }

static tw_work end_work(const builder *b, bool of_b, const char *before, const char *after, tw_way way)
{
    tw_work work = tw_corner_end_work(b->context, board_of(b, of_b), before, after, way);
    if (!of_b && work.face == TW_SIDE_LEFT_END) work.down = TW_SIDE_FACE;  // tails are alike from face and back
    return work;
}

/* ---- copied ---- */

static tw_copy_want want_of(const builder *b, bool of_b, tw_outline cut, const char *cutter, double over_mm)
{
    const tw_dovetail *d = b->d;
    return (tw_copy_want){ .cut = cut, .inside = true, .depth_mm = deep(b, of_b), .cutter = cutter, .follower = d->spec->follower.given ? d->spec->follower.text : NULL, .locate = TW_LOCATE_CENTRED,
        .stop_end = TW_SIDE_FACE_EDGE, .stop_to_origin_mm = d->k.wide / 2.0, .stop_word = "face edge", .down_to_origin_mm = board_of(b, of_b)->size.thickness_mm / 2.0,
        .overhang_low_mm = over_mm, .wall_word = "", .corner_word = "they lie outside the wood, past the faces" };
}

/* Gaps between the tails as the cutter's tip cuts them, about the middle; the outer ones run past the edges. */
static tw_outline tail_comb(const builder *b)
{
    const tw_dovetail *d = b->d;
    double up = d->k.a.size.thickness_mm / 2.0 + d->over_tails, middle = d->k.wide / 2.0, back = d->c / 4.0;
    tw_outline all = { TW_NEW_ARRAY(b->context->arena, tw_loop, (size_t)d->n + 1), d->n + 1 };
    for (int i = 0; i <= d->n; i++) {
        double from = i == 0 ? -d->over_tails : tw_dovetail_wall(d, i - 1, true, 0.0) - back, to = i == d->n ? d->k.wide + d->over_tails : tw_dovetail_wall(d, i, false, 0.0) + back;
        all.loops[i] = tw_outline_rectangle(b->context->arena, from - middle, -up, to - middle, up).loops[0];
    }
    return all;
}

/* The sockets on the end, seen with the back down: wide at the outer side. */
static tw_outline socket_comb(const builder *b)
{
    const tw_dovetail *d = b->d;
    double half = d->t / 2.0, over = d->over_pins, middle = d->k.wide / 2.0, back = d->c / 4.0;
    tw_outline all = { TW_NEW_ARRAY(b->context->arena, tw_loop, (size_t)d->n), d->n };
    for (int i = 0; i < d->n; i++) {
        double u_low = d->k.faces_in ? d->t + over : -over, u_high = d->k.faces_in ? -over : d->t + over;
        const tw_vertex corners[] = { { tw_dovetail_wall(d, i, false, u_low) - back - middle, -half - over, 0 }, { tw_dovetail_wall(d, i, true, u_low) + back - middle, -half - over, 0 },
                                      { tw_dovetail_wall(d, i, true, u_high) + back - middle, half + over, 0 }, { tw_dovetail_wall(d, i, false, u_high) - back - middle, half + over, 0 } };
        all.loops[i] = tw_outline_of_loop(b->context->arena, corners, 4).loops[0];
    }
    return all;
}

static void copied_tails(builder *b)
{
    const tw_dovetail *d = b->d;
    tw_arena *arena = b->context->arena;
    const tw_corner_board *a = &d->k.a;
    double limit = limit_mm(b);
    tw_work work = end_work(b, false, "gaps between the tails of ", "", TW_WAY_COPY);
    work.what = tw_format(arena, "Cut all gaps of the end in one pass each, %s deep, from the upper side right through to the lower. The board points at the cutter, its %s down, the face edge at the stop%s.", say(b, deep(b, false)),
        tw_face_words[work.down], a->ends == 2 ? "; for the left end turn it end for end with the face down, so that the face edge stands at the same stop" : "");
    work.copied = true;
    work.copy = want_of(b, false, tail_comb(b), b->context->shop->cutters[d->dovetail].name, d->over_tails);
    work.copy.cutter_most_mm = tw_dovetail_gap(d);
    work.copy.dovetail_rad = d->angle;
    work.test_piece = tw_format(arena, "an offcut planed with the boards, %s wide and %s thick", say(b, d->k.wide), say(b, a->size.thickness_mm));
    work.measure = d->n > 1 ? "width of a gap at its bottom, between the roots of two tails" : "width of the tail at its root";
    work.measure_mm = d->n > 1 ? tw_dovetail_gap(d) : d->root - d->c / 2.0;
    work.measure_under_mm = -limit;
    work.measure_over_mm = limit;
    work.if_off = "the length of the tails by the depth stop; leave a width that is alike in all, and make the sockets to it";
    work.cautions = tw_format(arena, "Saw the gaps out roughly first, clear of the lines: it spares the cutter. The cutter starts at full depth in the upper end of the slot, beside the wood, and leaves at the lower end into the packing. "
        "The gaps at the edges run past them: the stop touches the face edge at least %s back from the end. The board is clamped at two places, its far end held up level; hands behind the clamps.", say(b, deep(b, false) + 10.0));
    add(b, work);
    tw_layers_close(&b->layers);
}

static void copied_sockets(builder *b)
{
    const tw_dovetail *d = b->d;
    tw_arena *arena = b->context->arena;
    tw_work work = end_work(b, true, "sockets of ", "", TW_WAY_COPY);
    double limit = limit_mm(b);
    work.what = tw_format(arena, "Cut all sockets of the end, %s deep. The board points at the cutter, its back down: the %s side of each socket is below%s.", say(b, deep(b, true)), d->k.faces_in ? "wide" : "narrow",
        d->k.b.ends == 2 ? "; for the left end turn it end for end, the back down again: the back edge then stands at the stop, and the boards must be planed to one width" : "");
    work.copied = true;
    work.copy = want_of(b, true, socket_comb(b), b->context->shop->cutters[d->cutter].name, d->over_pins);
    work.copy.cutter_most_mm = tw_dovetail_socket_least(d);
    work.test_piece = tw_format(arena, "an offcut planed with the boards, %s wide and %s thick; try the tails' test piece in it", say(b, d->k.wide), say(b, d->t));
    work.measure = tw_format(arena, "width of a socket at the outer side, the %s", d->k.faces_in ? "back" : "face");
    work.measure_mm = d->w + d->c / 2.0;
    work.measure_under_mm = -limit;
    work.measure_over_mm = limit;
    work.answer = (tw_answer){ TW_BY_WIDTH, 1.0 };
    work.if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much; or the table: raised or lowered by h it moves the slanting walls by 2 x h x %.3f",
        b->context->shop->machine.ratio.value, d->slope);
    work.state = "planed, sawn to length; the tails cut";
    work.cautions = "The board points at the cutter: clamped at two places, its far end held up level, both sides backed with fresh strips level with the end; hands behind the clamps.";
    add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- sawn ---- */

static void mark_tails(builder *b)
{
    const tw_dovetail *d = b->d;
    tw_arena *arena = b->context->arena;
    tw_work work = end_work(b, false, "tails of ", ", marked", TW_WAY_MARK);
    double more = d->k.proud * d->slope;  // tails are wider, pins narrower by it on each side at an end that stands proud
    const char *pins = d->n == 1 ? "" : tw_format(arena, ", then, from one edge, a tail of %s and a pin of %s in turn", say(b, d->w + 2.0 * more), say(b, d->q - 2.0 * more));
    work.what = tw_format(arena, "Gauge %s from the end all round. On the end mark a half pin of %s in from both edges%s, square across. Down both faces to the gauge line with a bevel set to 1 in %.3g, the tails narrower at their roots. Mark the waste: the pins.",
        say(b, deep(b, false)), say(b, d->h - more), pins, slope_run(b));
    work.measure = "from the end to the gauge line";
    work.measure_mm = deep(b, false);
    work.measure_under_mm = -0.1;
    work.measure_over_mm = 0.1;
    work.if_off = "set the gauge again, by the mate's real thickness";
    add(b, work);
    tw_layers_close(&b->layers);
}

static void saw_tails(builder *b)
{
    const tw_dovetail *d = b->d;
    tw_arena *arena = b->context->arena;
    tw_work work = end_work(b, false, "tails of ", "", TW_WAY_CHISEL);
    work.what = tw_format(arena, "The board askew in the vice so that a wall stands upright: saw all walls of one slant, then of the other, in the waste, square across the end, down to the gauge line. Saw off the waste at both edges; fret out the rest, and chop to the line, %s from the end, from both faces towards the middle.", say(b, deep(b, false)));
    work.test_piece = "an offcut of the same board";
    work.measure = "width of a tail at its end";
    work.measure_mm = d->w - d->c / 2.0 + 2.0 * d->k.proud * d->slope;
    work.measure_under_mm = -0.5;
    work.measure_over_mm = 0.5;
    work.if_off = "leave it: the pins are marked from the tails; but the walls must be square to the end";
    work.state = "marked with a knife";
    work.cautions = "The board is clamped on the bench for chopping; both hands behind the edge of the chisel.";
    add(b, work);
    tw_layers_close(&b->layers);
}

static void mark_pins(builder *b)
{
    tw_arena *arena = b->context->arena;
    tw_work work = end_work(b, true, "pins of ", ", marked", TW_WAY_MARK);
    work.what = tw_format(arena, "Gauge %s from the end all round. The board upright in the vice, its outer side away from you: lay the tails of %s on its end, edges level, roots just at the inner side, and strike round every tail with a knife. Square the lines down both sides to the gauge line. Mark the waste: the tails; and the number of the corner on both.",
        say(b, deep(b, true)), b->d->k.a.piece->name);
    work.measure = "from the end to the gauge line";
    work.measure_mm = deep(b, true);
    work.measure_under_mm = -0.1;
    work.measure_over_mm = 0.1;
    work.if_off = "set the gauge again, by the mate's real thickness";
    work.state = "planed, sawn to length; the mate's tails finished";
    add(b, work);
    tw_layers_close(&b->layers);
}

static void saw_pins(builder *b)
{
    const tw_dovetail *d = b->d;
    tw_work work = end_work(b, true, "pins of ", "", TW_WAY_CHISEL);
    work.what = tw_format(b->context->arena, "The board upright in the vice: saw beside every line in the waste, following the slant on the end, down to the gauge line. Fret out the waste and chop to the line, %s from the end, from both sides towards the middle.", say(b, deep(b, true)));
    work.test_piece = "an offcut of the same board";
    work.measure = "pin at its narrow side";
    work.measure_mm = d->n > 1 ? d->q - d->c / 2.0 : d->h - d->c / 4.0;
    work.measure_under_mm = -0.5;
    work.measure_over_mm = 0.5;
    work.if_off = "the knife line counts: pare to it where the saw stood off";
    work.state = "marked from its own tails";
    work.cautions = "The board is clamped on the bench for chopping; both hands behind the edge of the chisel.";
    add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- together ---- */

static void together(builder *b)
{
    const tw_dovetail *d = b->d;
    tw_corner_fit(&b->layers, &d->k,
        tw_format(b->context->arena, "Put the tails square down into their sockets, as they stand in the box, with a block and light taps; pare what shines on the pins, never the tails. Home once and no more: a dovetail that goes home often gets loose. Number both boards at each corner; %s comes out again square to its face, never along its length.",
            d->k.a.piece->name), "gap at the roots of the tails, with a feeler", "tails and sockets cut");
    tw_corner_glue(&b->layers, &d->k,
        "A thin film of glue on the walls of tails and sockets. Press the tails home with a block over each corner; their shape holds them along the board, so clamps are needed across only until they are home. Compare both diagonals before the glue takes.",
        "Dry run with all clamps first.");
    tw_corner_level(&b->layers, &d->k, "tails and pins");
}

static void say_order(const builder *b)
{
    const tw_dovetail *d = b->d;
    tw_joint_plan *plan = b->layers.plan;
    tw_arena *arena = b->context->arena;
    tw_plan_advice(b->context, plan, "Plane all boards to one width and each kind to one thickness first: tails and sockets are as long as the mate is thick.");
    tw_plan_advice(b->context, plan, tw_format(arena, "Put the tails on the boards that are pulled: %s cannot come off along its length, only square to its face.", d->k.a.piece->name));
    tw_plan_advice(b->context, plan, d->sawn ? "Tails first, the pins marked from them with a knife, each corner from its own; number the corners before the first cut."
                                             : "Tails first: the dovetail cutter alone makes their width. The sockets are then made to them, by the follower, on offcuts.");
    if (!d->k.glued) tw_plan_advice(b->context, plan, tw_format(arena, "Without glue it holds along %s alone: a lid, a bottom or a strap must keep it from coming off the other way.", d->k.a.piece->name));
}

void tw_dovetail_works(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d)
{
    assert(tw_dovetail_possible(d));
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .d = d };
    tw_corner_measure(&b.layers, &d->k, "the gaps between the tails", "the sockets");
    if (d->sawn) {
        mark_tails(&b);
        saw_tails(&b);
        mark_pins(&b);
        saw_pins(&b);
    } else {
        copied_tails(&b);
        copied_sockets(&b);
    }
    together(&b);
    say_order(&b);
}
