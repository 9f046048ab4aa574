// SPDX-License-Identifier: GPL-3.0-or-later
/* Through dovetail: the cuts. Between the tails: trapezoids on the face of a, through its thickness. Between the pins:
 * trapezoids on the end of b, as deep as a is thick. u, from the roots to the ends of the tails, is a distance along a and
 * one through the thickness of b, from its inner side. The joint is alike from both edges, so it is no matter from which. */
#include "joint/dovetail.h"

#include <assert.h>

/* Counter-clockwise, whichever way the corners are given. */
static tw_outline four(tw_arena *arena, tw_point a, tw_point b, tw_point c, tw_point d)
{
    double area = (c.x - a.x) * (d.y - b.y) - (d.x - b.x) * (c.y - a.y);
    const tw_vertex forward[] = { { a.x, a.y, 0 }, { b.x, b.y, 0 }, { c.x, c.y, 0 }, { d.x, d.y, 0 } };
    const tw_vertex back[] = { { d.x, d.y, 0 }, { c.x, c.y, 0 }, { b.x, b.y, 0 }, { a.x, a.y, 0 } };
    return tw_outline_of_loop(arena, area > 0.0 ? forward : back, 4);
}

/* Gap i of a: between tail i - 1 and tail i; 0 and n lie at the edges. */
static void tail_gap(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d, tw_face end, int i)
{
    double deep = tw_dovetail_deep(d, false), length = d->k.a.size.length_mm, wide = d->k.wide, back = d->c / 4.0;
    bool right = end == TW_SIDE_RIGHT_END;
    double root = right ? length - deep : deep, tip = right ? length : 0.0;
    double low_root = i == 0 ? 0.0 : tw_dovetail_wall(d, i - 1, true, 0.0) - back, low_tip = i == 0 ? 0.0 : tw_dovetail_wall(d, i - 1, true, deep) - back;
    double high_root = i == d->n ? wide : tw_dovetail_wall(d, i, false, 0.0) + back, high_tip = i == d->n ? wide : tw_dovetail_wall(d, i, false, deep) + back;
    tw_plan_cut(context, plan, (tw_cut){ .piece = d->k.a.index, .name = "gap between tails", .face = TW_SIDE_FACE, .depth_mm = d->k.a.size.thickness_mm, .through = true,
        .outline = four(context->arena, (tw_point){ root, low_root }, (tw_point){ tip, low_tip }, (tw_point){ tip, high_tip }, (tw_point){ root, high_root }) });
}

static void socket(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d, tw_face end, int i)
{
    const tw_corner_board *b = &d->k.b;
    double back = d->c / 4.0, z_root = d->k.faces_in ? d->t : 0.0, z_tip = d->k.faces_in ? 0.0 : d->t;
    double low_root = tw_dovetail_wall(d, i, false, 0.0) - back, low_tip = tw_dovetail_wall(d, i, false, d->t) - back;
    double high_root = tw_dovetail_wall(d, i, true, 0.0) + back, high_tip = tw_dovetail_wall(d, i, true, d->t) + back;
    tw_plan_cut(context, plan, (tw_cut){ .piece = b->index, .name = "socket", .face = end, .depth_mm = tw_dovetail_deep(d, true),
        .outline = four(context->arena, (tw_point){ tw_corner_end_x(b, end, low_root), z_root }, (tw_point){ tw_corner_end_x(b, end, high_root), z_root },
                        (tw_point){ tw_corner_end_x(b, end, high_tip), z_tip }, (tw_point){ tw_corner_end_x(b, end, low_tip), z_tip }) });
}

void tw_dovetail_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d)
{
    static const tw_face ends[] = { TW_SIDE_LEFT_END, TW_SIDE_RIGHT_END };
    assert(tw_dovetail_possible(d));
    for (int e = 0; e < 2; e++)
        for (int i = 0; i <= d->n; i++) {
            if (tw_corner_has_end(&d->k.a, ends[e])) tail_gap(context, plan, d, ends[e], i);
            if (tw_corner_has_end(&d->k.b, ends[e]) && i < d->n) socket(context, plan, d, ends[e], i);
        }
}
