// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: the cuts on both pieces, and how the pieces stand against each other.
 *
 * The housing is a prism along itself: its section as an outline on the side that it comes in from, as long as it runs. The
 * tongue's waste likewise: a wedge beside each dovetailed cheek, from the face edge to the back edge.
 *
 * The end at a stop is round and, since the cutter slants, narrower above than below. With z the height above the bottom the
 * cutter's radius is R - z tan(angle), from R at the bottom to r at the side; its path is p = w - 2R wide everywhere. Past the
 * end of the path it takes, at each height, p rho + pi/2 rho^2. One upright prism stands for it, of the radius that takes the
 * same wood in all, so that volume and mass are right:
 *
 *     p rho + pi/2 rho^2 = p (R + r)/2 + pi/2 (R^2 + R r + r^2)/3                                             (1)
 *
 * Its walls are those of the true ones half way down, to some hundredths of a millimetre: above and below these differ by
 * (R - r)/2. The tongue is cut back past all of it. */
#include "joint/sliding.h"

#include <assert.h>
#include <math.h>

#include "joint/standing.h"
#include "joint/trench.h"
#include "piece/pose.h"

#define NOTHING_MM 1e-9

static bool v_runs_up(const tw_sliding *s) { return tw_face_below(s->from) == s->low; }

/* ---- the housing ---- */

double tw_sliding_end_radius_mm(const tw_sliding *s)
{
    if (s->radius <= NOTHING_MM) return 0.0;
    double big = s->radius, small = s->face_d / 2.0, p = s->w - 2.0 * big;
    double area = p * (big + small) / 2.0 + TW_PI / 2.0 * (big * big + big * small + small * small) / 3.0;
    return (sqrt(p * p + 2.0 * TW_PI * area) - p) / TW_PI;  // (1), solved for rho
}

/* A point of the section: q across (towards the housed piece's face), z into the piece, as seen on the side `entry`. */
static tw_vertex seen_from(const tw_sliding *s, tw_face entry, double at_mm, double q, double z)
{
    tw_spot spot = tw_face_spot(s->b, s->from, at_mm + tw_sliding_face_way(s, false) * q, 0.0, z);
    tw_spot place = tw_face_place(s->b, entry, spot);
    return (tw_vertex){ place.x, place.y, 0.0 };
}

static void turn_counter_clockwise(tw_vertex *v, int count)
{
    double twice = 0.0;
    for (int i = 0; i < count; i++) twice += v[i].x * v[(i + 1) % count].y - v[(i + 1) % count].x * v[i].y;
    for (int i = 0; twice < 0.0 && i < count / 2; i++) {
        tw_vertex kept = v[i];
        v[i] = v[count - 1 - i];
        v[count - 1 - i] = kept;
    }
}

static void straight_run(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s, double at_mm)
{
    tw_face entry = s->low_stopped ? s->high : s->low;
    double half = s->c / 2.0, side0 = s->q0 - half, side1 = s->q1 + half;
    tw_vertex v[4] = { seen_from(s, entry, at_mm, side0, 0.0), seen_from(s, entry, at_mm, side1, 0.0), seen_from(s, entry, at_mm, side1 + s->lean1 * s->depth, s->depth),
                       seen_from(s, entry, at_mm, side0 - s->lean0 * s->depth, s->depth) };
    turn_counter_clockwise(v, 4);
    bool stopped = s->low_stopped || s->high_stopped;
    tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->into.index, .name = "dovetailed housing", .face = entry, .outline = tw_outline_of_loop(context->arena, v, 4),
        .depth_mm = s->v1 - s->v0 - s->radius, .through = !stopped });
}

static void round_end(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s, double at_mm)
{
    double rho = tw_sliding_end_radius_mm(s);
    if (rho <= NOTHING_MM) return;
    int way = tw_sliding_face_way(s, false);
    double bottom0 = s->q0 - s->c / 2.0 - s->lean0 * s->depth, bottom1 = s->q1 + s->c / 2.0 + s->lean1 * s->depth;
    double middle = at_mm + way * (bottom0 + bottom1) / 2.0, half = s->w / 2.0 - s->radius + rho;
    double path_end = s->low_stopped ? s->v0 + s->radius : s->v1 - s->radius, tip = s->low_stopped ? path_end - rho : path_end + rho;
    if (!v_runs_up(s)) { path_end = s->e - path_end; tip = s->e - tip; }
    bool below = tip < path_end;
    tw_box box = { middle - half, tw_min(tip, path_end), middle + half, tw_max(tip, path_end) };
    tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->into.index, .name = "round end, as wide as half way down", .face = s->from, .depth_mm = s->depth,
        .outline = tw_trench_outline(context->arena, box, below ? rho : 0.0, below ? 0.0 : rho) });
}

/* ---- the tongue ---- */

/* The wedge beside one cheek, on the face edge (right = x, up = z): from the shoulder's corner to the face or the back. */
static void cheek_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s, bool right_end, bool face_cheek, double from_y, double to_y)
{
    double lean = face_cheek ? s->lean1 : s->lean0;
    if (lean <= 0.0) return;
    double end = right_end ? s->a.length_mm : 0.0, root = right_end ? s->a.length_mm - s->l : s->l, sign = face_cheek ? 1.0 : -1.0;
    double middle = s->t / 2.0, neck = middle + (face_cheek ? s->q1 : s->q0), out = middle + sign * s->t / 2.0, tip = neck + sign * s->l * lean;
    tw_vertex v[4] = { { root, neck, 0.0 }, { end, tip, 0.0 }, { end, out, 0.0 }, { root, out, 0.0 } };
    int count = fabs(tip - out) > NOTHING_MM ? 4 : 3;
    if (count == 3) v[2] = v[3];
    turn_counter_clockwise(v, count);
    tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->housed.index, .name = face_cheek ? "cheek at the face" : "cheek at the back", .face = TW_SIDE_FACE_EDGE,
        .outline = tw_outline_of_loop(context->arena, v, count), .start_mm = from_y, .depth_mm = to_y, .through = to_y >= s->wide - NOTHING_MM });
}

/* Cut back at the stop, then the cheeks of what is left. */
static void tongue_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s, bool right_end)
{
    double from_y = 0.0, to_y = s->wide, notch = tw_max(s->notch_low, s->notch_high), x = right_end ? s->a.length_mm - s->l : 0.0;
    if (notch > NOTHING_MM) {
        bool at_face_edge = tw_sliding_notch_at_face_edge(s, s->notch_low > NOTHING_MM, right_end);
        double y = at_face_edge ? 0.0 : s->wide - notch;
        if (at_face_edge) from_y = notch;
        else to_y = s->wide - notch;
        tw_plan_cut(context, plan, (tw_cut){ .piece = s->spec->housed.index, .name = "notch", .face = TW_SIDE_FACE, .depth_mm = s->t, .through = true,
            .outline = tw_outline_rectangle(context->arena, x, y, x + s->l, y + notch) });
    }
    cheek_cut(context, plan, s, right_end, true, from_y, to_y);
    cheek_cut(context, plan, s, right_end, false, from_y, to_y);
}

static bool has_end(const tw_sliding *s, int end) { return s->spec->ends.value == TW_SLIDING_BOTH || s->spec->ends.value == end; }

void tw_sliding_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s)
{
    assert(tw_sliding_possible(s));
    for (int i = 0; i < s->spec->at.count; i++) {
        straight_run(context, plan, s, s->spec->at.items[i].value);
        round_end(context, plan, s, s->spec->at.items[i].value);
    }
    for (int end = 0; end < 2; end++)
        if (has_end(s, end)) tongue_cuts(context, plan, s, end == 1);
}

/* ---- how they stand ---- */

/* It slides out towards the open side; through, by the shorter way. */
static tw_meeting meeting_at(const tw_sliding *s, bool right_end, int place)
{
    static const tw_frame own = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
    tw_frame axes = tw_housed_axes(s->from, right_end, tw_sliding_face_way(s, right_end) > 0);
    double up = v_runs_up(s) ? s->across : s->e - s->across;
    tw_spot home = tw_face_spot(s->b, s->from, s->spec->at.items[place].value, up, s->l), middle = { right_end ? s->a.length_mm : 0.0, s->wide / 2.0, s->t / 2.0 };
    double to_high = s->e - (s->across - s->wide / 2.0 + s->notch_low), to_low = s->across + s->wide / 2.0 - s->notch_high;
    bool high = s->low_stopped || (!s->high_stopped && to_high <= to_low);
    tw_spot along = tw_trench_along(s->from, s->low);
    return (tw_meeting){ .mover = s->spec->housed.index, .base = s->spec->into.index, .end = right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END, .place = place,
        .pose = tw_pose_of(own, axes, middle, home), .leaves = tw_spot_times(along, high ? 1.0 : -1.0), .travel_mm = high ? to_high : to_low,
        .held_by = s->glued ? "glue" : "", .for_good = s->glued };
}

void tw_sliding_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_sliding *s)
{
    for (int end = 0; end < 2; end++)
        for (int i = 0; has_end(s, end) && i < s->spec->at.count; i++) tw_plan_meeting(context, plan, meeting_at(s, end == 1, i));
}
