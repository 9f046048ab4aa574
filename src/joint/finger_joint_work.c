// SPDX-License-Identifier: GPL-3.0-or-later
/* Finger joint: the work, in the order that makers keep. Boards planed alike; the gaps of one
 * board, then those of the other to it; dry fit, glue, level last.
 *
 * Copied: the board points at the cutter, all gaps of an end are one template, a comb. A gap runs out at both faces, so that
 * the comb is alike from face and back: at the left end the face lies down instead of the back, and the face edge stands at
 * the same stop as at the right end. So there is no hand, and one edge governs both ends.
 * Stepped: the board stands on its end in a sliding jig at the router table; each gap set over the pin places the next. */
#include "joint/finger_joint.h"

#include <assert.h>
#include <math.h>

#include "joint/layers.h"
#include "joint/words.h"

#define SAME_MM 1e-6
#define LIMIT_SHARE 0.5         // of the clearance: each gap keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.03

typedef struct builder { tw_layers layers; tw_joint_context *context; const tw_finger *f; } builder;

static const char *say(const builder *b, double length_mm) { return tw_say_fine(b->context, length_mm); }
static void add(builder *b, tw_work work) { tw_layers_add(&b->layers, work); }
static double limit_mm(const builder *b) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * b->f->c); }
static const tw_corner_board *board_of(const builder *b, bool of_b) { return of_b ? &b->f->k.b : &b->f->k.a; }
static const tw_corner_board *mate_of(const builder *b, bool of_b) { return board_of(b, !of_b); }
static double plunge(const builder *b, bool of_b) { return tw_finger_deep(b->f, of_b); }
/* From which edge the fingers are counted in the board's own frame. */
static tw_face first_edge(const builder *b, bool of_b) { return of_b && b->f->k.turned ? TW_SIDE_BACK_EDGE : TW_SIDE_FACE_EDGE; }

static tw_work end_work(const builder *b, bool of_b, const char *before, const char *after, tw_way way)
{
    tw_work work = tw_corner_end_work(b->context, board_of(b, of_b), before, after, way);
    if (work.face == TW_SIDE_LEFT_END) work.down = TW_SIDE_FACE;  // alike from face and back: so the face edge lies as at the right end
    return work;
}

/* ---- copied ---- */

/* The comb about the middle of the width and of the thickness; gaps run past the faces, edge gaps past the edge too. */
static tw_outline comb(const builder *b, bool of_b)
{
    const tw_finger *f = b->f;
    int count = tw_finger_gaps(f, of_b);
    double up = board_of(b, of_b)->size.thickness_mm / 2.0 + f->over, middle = f->k.wide / 2.0;
    bool mirrored = first_edge(b, of_b) == TW_SIDE_BACK_EDGE;
    tw_outline all = { TW_NEW_ARRAY(b->context->arena, tw_loop, (size_t)count), count };
    for (int i = 0; i < count; i++) {
        double from, to;
        tw_finger_gap(f, of_b, mirrored ? count - 1 - i : i, f->over, &from, &to);
        if (mirrored) { double low = f->k.wide - to; to = f->k.wide - from; from = low; }
        all.loops[i] = tw_outline_rectangle(b->context->arena, from - middle, -up, to - middle, up).loops[0];
    }
    return all;
}

static const char *copy_words(const builder *b, bool of_b)
{
    const tw_corner_board *board = board_of(b, of_b);
    return tw_format(b->context->arena, "Cut all gaps of the end, %s deep. The board points at the cutter, its %s down, the face edge at the stop%s.", say(b, plunge(b, of_b)),
        tw_face_words[tw_corner_first_end(board) == TW_SIDE_LEFT_END ? TW_SIDE_FACE : TW_SIDE_BACK],
        board->ends == 2 ? "; for the left end turn it end for end with the face down, so that the face edge stands at the same stop" : "");
}

static const char *copy_cautions(const builder *b, bool of_b)
{
    const char *hold = "The board points at the cutter: clamped at two places, its far end held up level, both faces backed with fresh strips level with the end; hands behind the clamps.";
    bool past_stop = of_b ? first_edge(b, true) == TW_SIDE_FACE_EDGE || b->f->n % 2 != 0 : first_edge(b, false) == TW_SIDE_BACK_EDGE;
    return !past_stop ? hold : tw_format(b->context->arena, "%s The gap at the edge runs past it: the stop touches the face edge at least %s back from the end.", hold, say(b, plunge(b, of_b) + 10.0));
}

static void copied_board(builder *b, bool of_b)
{
    const tw_finger *f = b->f;
    tw_arena *arena = b->context->arena;
    const tw_corner_board *board = board_of(b, of_b);
    tw_work work = end_work(b, of_b, "gaps of ", "", TW_WAY_COPY);
    work.what = copy_words(b, of_b);
    work.copied = true;
    work.copy = (tw_copy_want){ .cut = comb(b, of_b), .inside = true, .depth_mm = plunge(b, of_b), .cutter = b->context->shop->cutters[f->cutter].name,
        .follower = f->spec->follower.given ? f->spec->follower.text : NULL, .cutter_most_mm = f->gap, .locate = TW_LOCATE_CENTRED, .stop_end = TW_SIDE_FACE_EDGE,
        .stop_to_origin_mm = f->k.wide / 2.0, .stop_word = "face edge", .down_to_origin_mm = board->size.thickness_mm / 2.0, .overhang_low_mm = f->over, .wall_word = "",
        .corner_word = "the round ends of each slot lie outside the wood, in the backing" };
    work.test_piece = tw_format(arena, "an offcut planed with the boards, %s wide and %s thick", say(b, f->k.wide), say(b, board->size.thickness_mm));
    work.measure = "width of a gap, wall to wall";
    work.measure_mm = f->gap;
    work.measure_under_mm = -limit_mm(b);
    work.measure_over_mm = limit_mm(b);
    work.answer = (tw_answer){ TW_BY_WIDTH, 1.0 };
    work.if_off = tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much; the depth by what the fingers of two test pieces stand too proud or shy",
        b->context->shop->machine.ratio.value);
    work.cautions = copy_cautions(b, of_b);
    add(b, work);
}

/* ---- stepped ---- */

static const char *strip_words(const builder *b, double strip_mm)
{
    return strip_mm > SAME_MM ? tw_format(b->context->arena, "with a strip %s wide between the pin's near side and its edge", say(b, strip_mm)) : "with its edge against the pin's near side";
}

static void stepped_board(builder *b, bool of_b)
{
    const tw_finger *f = b->f;
    tw_arena *arena = b->context->arena;
    const tw_corner_board *board = board_of(b, of_b);
    const char *jig = of_b ? "The jig stays as it is" : tw_format(arena, "In the sliding jig of the router table stands a pin %s wide, its near side %s from the near flank of cutter %s", say(b, f->gap), say(b, f->wide), b->context->shop->cutters[f->cutter].name);
    tw_work work = end_work(b, of_b, "gaps of ", "", TW_WAY_TABLE);
    work.what = tw_format(arena, "%s; cutter %s above the jig's floor. Stand the board on its end, %s towards the pin, %s: the first cut%s. Then set each gap over the pin, push the board away from the cutter until the gap's wall bears on the pin's near side, and cut the next, to the other edge%s.",
        jig, say(b, plunge(b, of_b)), tw_face_words[first_edge(b, of_b)], strip_words(b, of_b ? f->strip_b : f->strip_a), of_b ? " takes the gap at its edge" : "",
        board->ends == 2 ? "; at the other end the other face stands against the jig, so that the same edge comes first" : "");
    work.test_piece = tw_format(arena, "two offcuts planed with the boards, %s wide: one cut like each board, then put together", say(b, f->k.wide));
    work.measure = "width of a finger";
    work.measure_mm = f->wide;
    work.measure_under_mm = -limit_mm(b);
    work.measure_over_mm = limit_mm(b);
    work.if_off = "too wide: the pin nearer to the cutter by the error; too narrow: farther by it; the cutter's height by what fingers stand too proud or shy";
    work.cautions = "Both hands on the jig's handles, away from the cutter's line; the board clamped to its fence, fresh backing behind it. A block behind the fence covers the cutter where it comes through; the motor stands still before a board is lifted out.";
    add(b, work);
}

/* ---- sawn ---- */

static void mark_board(builder *b, bool of_b)
{
    const tw_finger *f = b->f;
    tw_arena *arena = b->context->arena;
    tw_work work = end_work(b, of_b, "fingers of ", ", marked", TW_WAY_MARK);
    work.what = of_b ? tw_format(arena, "Gauge %s from the end all round. Stand each end of %s on its own board, outer sides level, and strike both walls of every finger with a knife; square them down the faces to the gauge line. Mark the waste and the number of the corner.",
                           say(b, plunge(b, true)), mate_of(b, true)->piece->name)
                     : tw_format(arena, "Gauge %s from the end all round. From the %s strike the first line at %s, then one every %s, square across the end and down both faces to the gauge line. Mark the waste: every second place, from the second on.",
                           say(b, plunge(b, false)), tw_face_words[first_edge(b, false)], say(b, f->e), say(b, f->p));
    work.measure = "from the end to the gauge line";
    work.measure_mm = plunge(b, of_b);
    work.measure_under_mm = -0.1;
    work.measure_over_mm = 0.1;
    work.if_off = "set the gauge again, by the mate's real thickness";
    work.state = of_b ? "sawn to length, the mate's fingers finished" : "planed, sawn to length";
    add(b, work);
    tw_layers_close(&b->layers);
}

static void sawn_board(builder *b, bool of_b)
{
    const tw_finger *f = b->f;
    tw_work work = end_work(b, of_b, "gaps of ", "", TW_WAY_CHISEL);
    mark_board(b, of_b);
    work.what = tw_format(b->context->arena, "The board upright in the vice: saw beside every line, in the waste, square down to the gauge line; take the waste out with a fret saw. Then flat on the bench: chop to the gauge line from both faces towards the middle, %s deep in all. Edge waste is sawn off square.",
        say(b, plunge(b, of_b)));
    work.test_piece = "an offcut of the same board";
    work.measure = "width of a gap, wall to wall";
    work.measure_mm = f->gap;
    work.measure_under_mm = -limit_mm(b);
    work.measure_over_mm = limit_mm(b);
    work.if_off = "narrow: pare the wall to the knife line; wide: leave the mate's finger heavy, and pare it to this gap";
    work.state = "marked with a knife";
    work.cautions = "The board is clamped on the bench for chopping; both hands behind the edge of the chisel.";
    add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- together ---- */

static void together(builder *b)
{
    const tw_finger *f = b->f;
    tw_corner_fit(&b->layers, &f->k,
        tw_format(b->context->arena, "Put each corner together by hand, a block and light taps over the fingers, until the bottoms of the gaps close%s. Pare what shines, never a gap that is already wide. Number both boards at each corner.",
            f->k.proud > SAME_MM ? tw_format(b->context->arena, " and all fingers stand %s proud", say(b, f->k.proud)) : ""), "gap at the bottoms, with a feeler", "gaps cut in both boards");
    tw_corner_glue(&b->layers, &f->k,
        "A thin film of slow glue on the side walls of every finger, little on end grain; all four corners at once. Clamp across both ways with blocks that press beside the fingers, not on those that stand proud. Compare both diagonals before the glue takes.",
        "Dry run with all clamps first: many fingers take time to close.");
    tw_corner_level(&b->layers, &f->k, "the fingers of both boards");
}

static void say_order(const builder *b)
{
    const tw_finger *f = b->f;
    tw_joint_plan *plan = b->layers.plan;
    tw_arena *arena = b->context->arena;
    tw_plan_advice(b->context, plan, "Plane all boards to one width and each kind to one thickness first: the gaps are as deep as the mate is thick.");
    tw_plan_advice(b->context, plan, tw_format(arena, "Try the fit in two offcuts before any board: an error in the fit of one finger comes %d times over the width.", f->n - 1));
    if (f->way == TW_FINGER_STEP) tw_plan_advice(b->context, plan, "With a stepping jig errors add up: cut all boards in one go, the same edge first, and mark that edge; what is left at the other edge shows the sum.");
    if (f->k.turned || f->k.mixed) tw_plan_advice(b->context, plan, "Where two alike ends meet, one board stands upside down: try it before the second end is cut.");
    if (!f->k.glued) tw_plan_advice(b->context, plan, tw_format(arena, "Without glue nothing keeps the corner together: a strap, pins or what stands around it must; %s comes off square to its face.", f->k.a.piece->name));
}

void tw_finger_works(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f)
{
    assert(tw_finger_possible(f));
    builder b = { .layers = tw_layers_begin(context, plan), .context = context, .f = f };
    tw_corner_measure(&b.layers, &f->k, "the gaps", "the gaps");
    for (int i = 0; i < 2; i++) {
        if (f->way == TW_FINGER_COPY) copied_board(&b, i == 1);
        else if (f->way == TW_FINGER_STEP) stepped_board(&b, i == 1);
        else sawn_board(&b, i == 1);
    }
    tw_layers_close(&b.layers);
    together(&b);
    say_order(&b);
}
