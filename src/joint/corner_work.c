// SPDX-License-Identifier: GPL-3.0-or-later
/* Corners: the figures and works that are alike whatever is cut there: thickness measured first, for what is cut is as deep as
 * the mate is thick; dry fit, glue, and planing level last. */
#include "joint/corner.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define SAME_MM 1e-6
#define BOARD_WALL_MM 25.0    // of a template board round its openings, as the template stage makes it
#define UNDER_MM 3.0          // left of a sacrificial board under the cutter
#define LEAD_MM 5.0           // of the plunge, above the wood
#define LEVEL_LIMIT_MM 0.2    // common practice

static const tw_corner_board *board_of(const tw_corner *c, int of_b) { return of_b ? &c->b : &c->a; }

/* ---- figures ---- */

void tw_corner_note_sizes(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *c, const char *const a_cut[2], const char *const b_cut[2])
{
    tw_arena *arena = context->arena;
    bool proud = c->proud > 0.0;
    for (int i = 0; i < 2; i++) {
        const tw_corner_board *board = board_of(c, i), *mate = tw_corner_mate(c, board);
        const char *const *cut = i == 0 ? a_cut : b_cut;
        const char *stands = tw_bare_fine(context, c->proud), *thick = tw_bare_fine(context, mate->size.thickness_mm);
        tw_note_length(context, plan, i == 0 ? "depth" : "into_depth", tw_format(arena, "%s%s%s", cut[0], board->piece->name, cut[1]), tw_corner_deep(c, board),
            proud ? tw_format(arena, "%s + proud = %s + %s", mate->piece->name, thick, stands) : tw_format(arena, "%s is %s thick", mate->piece->name, thick), "measure the real mate");
        tw_note_length(context, plan, i == 0 ? "outside" : "into_outside", tw_format(arena, "%s, outside", board->piece->name), tw_corner_outside(c, board),
            proud ? tw_format(arena, "length - %d x proud = %s - %d x %s", board->ends, tw_bare_fine(context, board->size.length_mm), board->ends, stands) : "its length",
            proud ? "when its ends are planed level" : "lengths count outside");
    }
}

bool tw_corner_in_reach(const tw_machine *machine, tw_size comb, double cutter_mm)
{
    double across = comb.length_mm, up = comb.width_mm, ratio = machine->ratio.value;
    bool travel = (!machine->travel_across.given || across - cutter_mm <= machine->travel_across.value + SAME_MM) && (!machine->travel_up.given || up - cutter_mm <= machine->travel_up.value + SAME_MM);
    bool in = !machine->travel_in.given || comb.thickness_mm + LEAD_MM <= machine->travel_in.value;
    bool holder = (!machine->holder_across.given || ratio * across + 2.0 * BOARD_WALL_MM <= machine->holder_across.value)
               && (!machine->holder_up.given || ratio * up + 2.0 * BOARD_WALL_MM <= machine->holder_up.value);
    bool table = !machine->table_lowest.given || up / 2.0 + UNDER_MM <= machine->table_lowest.value;
    return travel && in && holder && table;
}

/* ---- works ---- */

tw_face tw_corner_first_end(const tw_corner_board *board) { return board->said == TW_CORNER_LEFT ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END; }

tw_work tw_corner_end_work(const tw_joint_context *context, const tw_corner_board *board, const char *before, const char *after, tw_way way)
{
    return (tw_work){ .name = after ? tw_format(context->arena, "%s%s%s", before, board->piece->name, after) : before, .way = way, .piece = board->index,
        .face = tw_corner_first_end(board), .down = TW_SIDE_BACK, .count = board->pieces * board->ends, .pieces = board->pieces,
        .places = tw_corner_ends_text(context->arena, board), .state = "planed, sawn to length", .marks = "face, face edge, number of the corner", .stage = 20 };
}

void tw_corner_measure(tw_layers *layers, const tw_corner *c, const char *a_cut, const char *b_cut)
{
    tw_arena *arena = layers->context->arena;
    const char *proud = c->proud > SAME_MM ? tw_format(arena, " and %s", tw_say_fine(layers->context, c->proud)) : "";
    for (int i = 0; i < 2; i++) {
        const tw_corner_board *board = board_of(c, i);
        const char *mate_cut = i == 0 ? b_cut : a_cut;
        tw_work work = tw_corner_end_work(layers->context, board, "thickness of ", "", TW_WAY_MEASURE);
        work.what = tw_format(arena, "Measure the ends with a caliper: %s of %s go as deep as this board is thick%s.", mate_cut, tw_corner_mate(c, board)->piece->name, proud);
        work.measure = "thickness at the ends";
        work.measure_mm = board->size.thickness_mm;
        work.measure_under_mm = -0.1;
        work.measure_over_mm = 0.1;
        work.if_off = tw_format(arena, "%s of %s deeper or shallower by the error", mate_cut, tw_corner_mate(c, board)->piece->name);
        work.stage = 19;
        tw_layers_add(layers, work);
    }
    tw_layers_close(layers);
}

void tw_corner_fit(tw_layers *layers, const tw_corner *c, const char *what, const char *measure, const char *state)
{
    tw_work work = tw_corner_end_work(layers->context, &c->a, "corners together, dry", NULL, TW_WAY_FIT);
    work.what = what;
    work.measure = measure;
    work.measure_over_mm = 0.1;
    work.if_off = "pare the bottoms in the middle, never at the outside where they show";
    work.state = state;
    work.marks = "number of the corner on both";
    work.stage = 40;
    tw_layers_add(layers, work);
    tw_layers_close(layers);
}

void tw_corner_glue(tw_layers *layers, const tw_corner *c, const char *what, const char *caution)
{
    if (!c->glued) return;
    tw_work work = tw_corner_end_work(layers->context, &c->a, "glue up", NULL, TW_WAY_GLUE);
    work.what = what;
    work.measure = "difference between the two diagonals";
    work.measure_under_mm = -1.0;
    work.measure_over_mm = 1.0;
    work.if_off = "set the clamps askew towards the longer diagonal, before the glue takes";
    work.state = "fitted dry, numbered, clean, inner sides finished";
    work.marks = "number of the corner on both";
    work.cautions = caution;
    work.stage = 45;
    tw_layers_add(layers, work);
    tw_layers_close(layers);
}

void tw_corner_level(tw_layers *layers, const tw_corner *c, const char *parts)
{
    if (c->proud <= SAME_MM) return;
    tw_arena *arena = layers->context->arena;
    tw_work work = tw_corner_end_work(layers->context, &c->a, "corners planed level", NULL, TW_WAY_PLANE);
    work.what = tw_format(arena, "Plane %s level with the sides, %s, from each corner inward so that no end grain breaks out.", parts, tw_say_fine(layers->context, c->proud));
    work.measure = tw_format(arena, "outside, over %s from end to end", c->a.piece->name);
    work.measure_mm = tw_corner_outside(c, &c->a);
    work.measure_under_mm = -2.0 * LEVEL_LIMIT_MM;
    work.measure_over_mm = LEVEL_LIMIT_MM;
    work.if_off = "level is what counts: stop when the plane touches the side all over";
    work.state = c->glued ? "glued, the glue hard" : "together dry, clamped";
    work.cautions = "The box stands on a board clamped to the bench that fills it; the plane goes away from the hand that steadies.";
    work.stage = 50;
    tw_layers_add(layers, work);
    tw_layers_close(layers);
}
