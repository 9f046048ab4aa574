// SPDX-License-Identifier: GPL-3.0-or-later
/* Corners: how the boards stand, and what is refused whatever is cut there.
 *
 * In the frame of b, with s = 1 for faces out and -1 for faces in:
 *     x of a = s z_b at its right end, -s z_b at its left end                                                    (1)
 *     z of a = -s x_b where it meets the left end of b, s x_b at the right end;  y of a = z cross x              (2)
 * and the corner's outer edge is known in both boards. With s = 1, right in left: y of a = -(x_b cross z_b) = y_b. */
#include "joint/fix.h"
#include "joint/corner.h"

#include <assert.h>
#include <math.h>

#include "joint/standing.h"
#include "joint/words.h"
#include "piece/pose.h"

#define HAIR_MM 1e-6
#define BODY_LEAST_MM 10.0   // of a board, between what is cut from its ends
#define CLEARANCE_LEAST_MM 0.03
#define CLEARANCE_MOST_MM 0.5
#define PROUD_MOST_MM 2.0    // more is sawn off, not planed

const char *const tw_corner_end_words[] = { "left", "right", "both", NULL };
const char *const tw_corner_look_words[] = { "out", "in", NULL };

/* ---- the boards ---- */

static tw_corner_board board_of(const tw_joint_context *context, tw_link link, tw_choice ends)
{
    const tw_job *job = context->job;
    tw_corner_board board = { .piece = &job->pieces[link.index], .index = link.index, .said = ends.value, .ends = ends.value == TW_CORNER_BOTH ? 2 : 1 };
    board.size = tw_piece_size(board.piece);
    board.pieces = (int)(board.piece->count.value * job->sets.value);
    return board;
}

tw_corner tw_corner_of(const tw_joint_context *context, tw_link a, tw_choice a_ends, tw_link b, tw_choice b_ends, tw_choice faces, bool glued, double proud_mm)
{
    assert(a.index != b.index);  // the reader refuses a joint of a piece with itself
    tw_corner c = { .a = board_of(context, a, a_ends), .b = board_of(context, b, b_ends), .faces_in = faces.value == 1, .glued = glued, .proud = proud_mm };
    c.wide = tw_min(c.a.size.width_mm, c.b.size.width_mm);
    c.turned = c.a.ends == 1 && c.b.ends == 1 && c.a.said == c.b.said;
    c.mixed = c.a.ends != c.b.ends;
    c.joints = c.a.pieces * c.a.ends;
    return c;
}

bool tw_corner_has_end(const tw_corner_board *board, tw_face end)
{
    assert(end == TW_SIDE_LEFT_END || end == TW_SIDE_RIGHT_END);
    return board->said == TW_CORNER_BOTH || board->said == (end == TW_SIDE_LEFT_END ? TW_CORNER_LEFT : TW_CORNER_RIGHT);
}

const tw_corner_board *tw_corner_mate(const tw_corner *corner, const tw_corner_board *board) { return board == &corner->a ? &corner->b : &corner->a; }

double tw_corner_end_x(const tw_corner_board *board, tw_face end, double y_mm) { return end == TW_SIDE_RIGHT_END ? y_mm : board->size.width_mm - y_mm; }

const char *tw_corner_ends_text(tw_arena *arena, const tw_corner_board *board)
{
    if (board->said != TW_CORNER_BOTH) return tw_format(arena, "%s end (%d)", tw_corner_end_words[board->said], board->pieces);
    return tw_format(arena, "left end (%d); right end (%d)", board->pieces, board->pieces);
}

double tw_corner_deep(const tw_corner *c, const tw_corner_board *board) { return tw_corner_mate(c, board)->size.thickness_mm + c->proud; }

double tw_corner_outside(const tw_corner *c, const tw_corner_board *board) { return board->size.length_mm - board->ends * c->proud; }

static double body_mm(const tw_corner *c, const tw_corner_board *board) { return board->size.length_mm - board->ends * tw_corner_deep(c, board); }

static bool as_wide(const tw_corner *c) { return fabs(c->a.size.width_mm - c->b.size.width_mm) <= HAIR_MM; }

bool tw_corner_possible(const tw_corner *c)
{
    return as_wide(c) && body_mm(c, &c->a) >= BODY_LEAST_MM - HAIR_MM && body_mm(c, &c->b) >= BODY_LEAST_MM - HAIR_MM;
}

/* ---- checks ---- */

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_corner *c; } checker;

static const char *say(const checker *k, double length_mm) { return tw_say_fine(k->context, length_mm); }

static void halt(const checker *k, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(k->context, k->plan, TW_HALT, NULL, code, what, remedy);
}

static void check_widths(const checker *k)
{
    const tw_corner *c = k->c;
    tw_arena *arena = k->context->arena;
    if (!as_wide(c)) {
        halt(k, "widths-differ", tw_format(arena, "%s is %s wide, %s %s: at the corner their edges must lie level", c->a.piece->name, say(k, c->a.size.width_mm), c->b.piece->name, say(k, c->b.size.width_mm)),
             tw_format(arena, "both of one width, in the job `width: %s.width`", c->a.piece->name));
        tw_piece_fix_size(k->context, c->a.index, "width", c->b.size.width_mm, TW_ROUND_NEAREST);
        tw_piece_fix_size(k->context, c->b.index, "width", c->a.size.width_mm, TW_ROUND_NEAREST);
    }
}

static void check_body(const checker *k, const tw_corner_board *board)
{
    double body = body_mm(k->c, board);
    if (body >= BODY_LEAST_MM - HAIR_MM) return;
    halt(k, "body-short", tw_format(k->context->arena, "of %s, %s long, only %s is left between its corners: its length counts outside", board->piece->name,
         say(k, board->size.length_mm), say(k, tw_max(0.0, body))), "a longer piece");
    tw_piece_fix_size(k->context, board->index, "length", board->size.length_mm + BODY_LEAST_MM - body, TW_ROUND_UP);
}

static void check_counts(const checker *k)
{
    const tw_corner *c = k->c;
    int places = c->b.pieces * c->b.ends;
    if (c->joints == places) return;
    halt(k, "counts-differ", tw_format(k->context->arena, "%d ends (%d x %s, %d each) meet %d ends (%d x %s, %d each)", c->joints, c->a.pieces, c->a.piece->name, c->a.ends, places,
         c->b.pieces, c->b.piece->name, c->b.ends), "as many of one as of the other: look at the counts and at which ends are joined");
    tw_plan_fix_counts(k->context, c->a.index, c->a.ends, c->b.index, c->b.ends);
}

static void check_hands(const checker *k, bool alike, const char *uneven)
{
    if (!k->c->mixed || alike) return;
    const tw_corner *c = k->c;
    const char *one = c->a.ends == 1 ? c->a.piece->name : c->b.piece->name;
    halt(k, "hands-differ", tw_format(k->context->arena, "%s stands upright at one end and upside down at the other, and the joint is not alike from both edges", one),
         tw_format(k->context->arena, "%s; or two joints with a left piece and a right one", uneven));
}

/* Which joint takes an end, of every piece: [2 * pieces]. */
static void take_ends(const checker *k, const tw_corner_board *board, const char **taken)
{
    for (int end = 0; end < 2; end++) {
        if (!tw_corner_has_end(board, end == 0 ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END)) continue;
        const char **by = &taken[2 * board->index + end];
        if (*by) halt(k, "end-taken", tw_format(k->context->arena, "the %s end of %s is already taken by %s", tw_corner_end_words[end], board->piece->name, *by), "another end, or another piece");
        *by = k->plan->joint->name;
    }
}

void tw_corner_check(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *corner, bool alike, const char *uneven, void **takers)
{
    const checker k = { context, plan, corner };
    check_widths(&k);
    check_body(&k, &corner->a);
    check_body(&k, &corner->b);
    check_counts(&k);
    check_hands(&k, alike, uneven);
    if (!*takers) *takers = TW_NEW_ARRAY(context->arena, const char *, 2 * (size_t)context->job->piece_count);
    take_ends(&k, &corner->a, *takers);
    take_ends(&k, &corner->b, *takers);
}

void tw_corner_check_fit(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *c, double clearance_mm, const tw_amount *clearance_key,
                         const tw_amount *proud_key, const char *parts)
{
    const checker k = { context, plan, c };
    tw_arena *arena = context->arena;
    const char *remedy = c->glued ? "0.1 mm (0.004 in)" : "0.2 mm (0.008 in)";
    if (clearance_mm < CLEARANCE_LEAST_MM - HAIR_MM)
        tw_plan_finding(context, plan, TW_CARE, clearance_key, "clearance-small", tw_format(arena, "a clearance of %s is less than wood holds, and it adds up: %s will not go in by hand", say(&k, clearance_mm), parts), remedy);
    else if (clearance_mm > CLEARANCE_MOST_MM + HAIR_MM)
        tw_plan_finding(context, plan, TW_CARE, clearance_key, "clearance-large", tw_format(arena, "a clearance of %s is loose: %s", say(&k, clearance_mm), c->glued ? "glue does not fill it" : "the corner rocks"), remedy);
    if (c->proud > PROUD_MOST_MM + HAIR_MM) {
        tw_plan_finding(context, plan, TW_CARE, proud_key, "proud-large", tw_format(arena, "ends that stand %s proud are much to plane off, across end grain", say(&k, c->proud)), "0.5 mm (1/64 in)");
        tw_plan_fix(context, plan, proud_key, "Let the ends stand", tw_customary(context, 0.5, 1.0 / 64.0), "proud",
            TW_ROUND_NEAREST);
    }
}

/* ---- how they stand ---- */

/* Where a board's end will be when it is planed level. */
static double level_x(const tw_corner *c, const tw_corner_board *board, tw_face end) { return end == TW_SIDE_RIGHT_END ? board->size.length_mm - c->proud : c->proud; }

static tw_pose pose_of_a(const tw_corner *c, tw_face a_end, tw_face b_end)
{
    static const tw_frame own = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
    double s = c->faces_in ? -1.0 : 1.0, b_side = b_end == TW_SIDE_LEFT_END ? -s : s, a_side = a_end == TW_SIDE_RIGHT_END ? s : -s;
    tw_spot x = { 0.0, 0.0, a_side }, z = { b_side, 0.0, 0.0 };
    tw_frame there = { .right = x, .up = tw_spot_cross(z, x), .out = z };
    tw_spot mine = { level_x(c, &c->a, a_end), c->a.size.width_mm / 2.0, c->faces_in ? 0.0 : c->a.size.thickness_mm };
    tw_spot home = { level_x(c, &c->b, b_end), c->b.size.width_mm / 2.0, c->faces_in ? 0.0 : c->b.size.thickness_mm };
    return tw_pose_of(own, there, mine, home);
}

static void meet(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *c, tw_face a_end, tw_face b_end, int place)
{
    double s = c->faces_in ? -1.0 : 1.0;
    tw_meeting m = { .mover = c->a.index, .base = c->b.index, .end = a_end, .place = place, .pose = pose_of_a(c, a_end, b_end),
        .leaves = { b_end == TW_SIDE_LEFT_END ? -1.0 : 1.0, 0.0, 0.0 }, .travel_mm = tw_corner_deep(c, &c->b), .held_by = c->glued ? "glue" : "", .for_good = c->glued };
    if (c->a.ends == 2 && c->b.ends == 2 && a_end == TW_SIDE_LEFT_END) {  // so that every bond has one end and one place
        m.mover = c->b.index;
        m.base = c->a.index;
        m.end = b_end;
        m.pose = tw_pose_inverse(m.pose);
        m.leaves = (tw_spot){ 0.0, 0.0, -s };
    }
    tw_plan_meeting(context, plan, m);
}

void tw_corner_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_corner *c)
{
    static const tw_face ends[] = { TW_SIDE_LEFT_END, TW_SIDE_RIGHT_END };
    for (int i = 0; i < 2; i++)
        for (int k = 0, place = 0; k < 2; k++) {
            if (!tw_corner_has_end(&c->a, ends[i]) || !tw_corner_has_end(&c->b, ends[k])) continue;
            if (c->a.ends == 2 && c->b.ends == 2) {
                if (i != k) meet(context, plan, c, ends[i], ends[k], 0);
            } else meet(context, plan, c, ends[i], ends[k], place++);
        }
}
