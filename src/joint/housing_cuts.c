// SPDX-License-Identifier: GPL-3.0-or-later
/* Housing: the cuts on both pieces, and how the pieces stand against each other.
 *
 * The end of the housed piece looks into the side `from`; its face looks to the end that `face to` names. So with u the
 * direction in which v grows and n the side's outward direction:
 *
 *     left end:  x = n,   right end: x = -n;   z = +-(along the piece);   y = z cross x                            (1)
 *
 * A housing that is not alike from both sides (stopped at one, or off the middle) can take both ends of one piece only in
 * two pieces of which one is turned end for end; then its face looks to the other end of that one, and its places must
 * lie alike from both ends. */
#include "joint/housing.h"

#include <assert.h>
#include <math.h>

#include "joint/standing.h"
#include "joint/trench.h"
#include "piece/pose.h"

#define NOTHING_MM 1e-9

/* ---- directions ---- */

static bool v_runs_up(const tw_housing *h) { return tw_face_below(h->from) == h->low; }

/* The housed piece's axes in the frame of the other piece. */
static tw_frame axes_at(const tw_housing *h, bool right_end)
{
    bool turned = right_end && h->ends == 2 && h->handed;
    return tw_housed_axes(h->from, right_end, (h->spec->face_to.value == 1) != turned);
}

static bool y_runs_with_v(const tw_housing *h, bool right_end) { return tw_spot_product(axes_at(h, right_end).up, tw_trench_along(h->from, h->low)) > 0.0; }

bool tw_housing_notch_at_face_edge(const tw_housing *h, bool low, bool right_end) { return y_runs_with_v(h, right_end) == low; }

/* ---- the housing ---- */

static void housing_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h)
{
    double low_radius = h->low_stopped ? h->radius : 0.0, high_radius = h->high_stopped ? h->radius : 0.0;
    for (int i = 0; i < h->spec->at.count; i++) {
        double x = h->spec->at.items[i].value;
        tw_box box = { x - h->w / 2.0, v_runs_up(h) ? h->v0 : h->e - h->v1, x + h->w / 2.0, v_runs_up(h) ? h->v1 : h->e - h->v0 };
        tw_plan_cut(context, plan, (tw_cut){ .piece = h->spec->into.index, .name = "housing", .face = h->from, .depth_mm = h->depth,
            .outline = tw_trench_outline(context->arena, box, v_runs_up(h) ? low_radius : high_radius, v_runs_up(h) ? high_radius : low_radius) });
    }
}

/* ---- the housed piece ---- */

static void notch_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h, bool low, bool right_end)
{
    double notch = low ? h->notch_low : h->notch_high;
    if (notch <= NOTHING_MM) return;
    bool at_face_edge = tw_housing_notch_at_face_edge(h, low, right_end);
    double x = right_end ? h->a.length_mm - h->l : 0.0, y = at_face_edge ? 0.0 : h->wide - notch;
    tw_plan_cut(context, plan, (tw_cut){ .piece = h->spec->housed.index, .name = "notch", .face = TW_SIDE_FACE, .depth_mm = h->t, .through = true,
        .outline = tw_outline_rectangle(context->arena, x, y, x + h->l, y + notch) });
}

void tw_housing_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h)
{
    assert(tw_housing_possible(h));
    housing_cuts(context, plan, h);
    for (int end = 0; end < 2; end++) {
        if (h->spec->ends.value != TW_HOUSED_BOTH && h->spec->ends.value != end) continue;
        notch_cut(context, plan, h, true, end == 1);
        notch_cut(context, plan, h, false, end == 1);
    }
}

/* ---- how they stand ---- */

static tw_meeting meeting_at(const tw_housing *h, bool right_end, int place)
{
    static const tw_frame own = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
    double up = v_runs_up(h) ? h->across : h->e - h->across;
    tw_spot home = tw_face_spot(h->b, h->from, h->spec->at.items[place].value, up, h->l);
    tw_spot middle = { right_end ? h->a.length_mm : 0.0, h->wide / 2.0, h->t / 2.0 };
    return (tw_meeting){ .mover = h->spec->housed.index, .base = h->spec->into.index, .end = right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END,
        .place = place, .pose = tw_pose_of(own, axes_at(h, right_end), middle, home), .leaves = tw_face_frame(h->from).out, .travel_mm = h->l,
        .held_by = h->glued ? "glue" : "", .for_good = h->glued };
}

void tw_housing_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_housing *h)
{
    for (int end = 0; end < 2; end++) {
        if (h->spec->ends.value != TW_HOUSED_BOTH && h->spec->ends.value != end) continue;
        for (int i = 0; i < h->spec->at.count; i++) tw_plan_meeting(context, plan, meeting_at(h, end == 1, i));
    }
}
