// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon out of square: the cuts, as prisms that lean.
 *
 * The mortise is a prism from the side, its outline where the tenon's own section, drawn out along its axis, meets the side: a
 * parallelogram. It leans by -tan(rake) along the grain and -tan(splay) across for each mm deeper. The cutter leaves its
 * bottom square to the axis; the prism's bottom is level with the side and lies at the deepest corner, so that in the solid
 * a wedge of wood too much is gone below a blind tenon, never too little.
 *
 * Of the tenoned piece, cheeks and edges are prisms whose end at the shoulder follows the plane
 *     x = x0 + k_y (y - y0) + k_z (z - z0)                                                                     (1)
 * which from the face, deeper by 1, moves by -k_z; from the back by k_z; from the face edge by k_y; from the back edge by -k_y.
 * They run out past the end. A tenon that goes through flush has its end cut along the same plane, as far away as the
 * mortised piece is thick; the cheeks then end there, and the end is a prism of its own, through from the face. */
#include "joint/mortise_tenon.h"

#include <math.h>

#include "piece/pose.h"

#define NOTHING_MM 1e-9
#define PAST_MM 1.0      // that a cut which runs out at the end lies beyond it

/* Four corners as an outline, counter-clockwise. */
static tw_outline quadrangle(tw_arena *arena, const tw_point corners[4])
{
    tw_loop loop = { TW_NEW_ARRAY(arena, tw_vertex, 4), 4 };
    double area = 0.0;
    for (int i = 0; i < 4; i++) area += corners[i].x * corners[(i + 1) % 4].y - corners[(i + 1) % 4].x * corners[i].y;
    for (int i = 0; i < 4; i++) {
        tw_point p = corners[area > 0.0 ? i : 3 - i];
        loop.vertices[i] = (tw_vertex){ p.x, p.y, 0.0 };
    }
    tw_outline outline = { TW_NEW_ARRAY(arena, tw_loop, 1), 1 };
    outline.loops[0] = loop;
    return outline;
}

/* ---- the mortise ---- */

/* Where a spot of the mortised piece's frame lies on its side when it is moved there along the axis: x, and up from `down`. */
static tw_point slid_to_side(const tw_mortise *m, tw_spot axis, tw_spot spot)
{
    tw_spot place = tw_face_place(m->b, m->from, spot), way = tw_face_frame(m->from).out;
    double off = -place.z / tw_spot_product(axis, way);  // place.z: how far behind the side
    tw_spot there = tw_face_place(m->b, m->from, tw_spot_less(spot, tw_spot_times(axis, off)));
    return (tw_point){ there.x, there.y };
}

void tw_mortise_lean_mortise(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, tw_mortise_site site)
{
    tw_pose pose = tw_mortise_pose(m, TW_SIDE_LEFT_END, site, false);  // its x runs out of the mortise
    tw_frame side = tw_face_frame(m->from);
    double away = tw_spot_product(pose.x, side.out);
    tw_point corners[4];
    for (int i = 0; i < 4; i++) {
        double y = (i == 1 || i == 2 ? 0.5 : -0.5) * m->wm, z = (i / 2 ? 0.5 : -0.5) * m->tm;
        corners[i] = slid_to_side(m, pose.x, tw_pose_apply(pose, (tw_spot){ m->l, m->y + y, m->z + z }));
    }
    tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->into.index, .name = "mortise", .face = m->from,
        .depth_mm = tw_mortise_deep_mm(m), .through = m->through,
        .lean_right = -tw_spot_product(pose.x, side.right) / away, .lean_up = -tw_spot_product(pose.x, side.up) / away,
        .outline = quadrangle(context->arena, corners) });
}

/* ---- the tenoned piece ---- */

/* A plane across the piece. sign: -1 the end lies towards smaller x. */
typedef struct slant { double x, y, z, k_y, k_z, sign; } slant;

static double x_at(const slant *s, double y, double z) { return s->x + s->k_y * (y - s->y) + s->k_z * (z - s->z); }

static slant shoulder_of(const tw_mortise *m, bool right_end)
{
    slant s = { .x = right_end ? m->a.length_mm - m->l : m->l, .y = m->y, .z = m->z, .sign = right_end ? 1.0 : -1.0 };
    s.k_y = right_end ? -m->lean.slope_y : m->lean.slope_y;  // the other end looks the other way: x and z run back, y does not
    s.k_z = m->lean.slope_z;
    if (!m->along) {                                        // there x and y run back, z does not
        s.k_y = m->lean.slope_y;
        s.k_z = right_end ? -m->lean.slope_z : m->lean.slope_z;
    }
    return s;
}

/* One side of the piece: how its frame counts up and deep, in y and z. */
typedef struct side_view { tw_face face; double up0, up1, deep; } side_view;

static tw_spot spot_on(const tw_mortise *m, tw_face face, double up, double deep)
{
    return tw_face_spot(m->a, face, 0.0, up, deep);
}

/* What is taken between the shoulder and the end, or a second plane; from a side, between two heights, some way deep. */
static void put_prism(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, const char *name, side_view v,
    const slant *from, const slant *to)
{
    if (v.deep <= NOTHING_MM || v.up1 - v.up0 <= NOTHING_MM) return;
    tw_spot low = spot_on(m, v.face, v.up0, 0.0), high = spot_on(m, v.face, v.up1, 0.0), below = spot_on(m, v.face, v.up0, 1.0);
    double lean = x_at(from, below.y, below.z) - x_at(from, low.y, low.z);
    double end = from->sign > 0.0 ? m->a.length_mm : 0.0, past = end + from->sign * (PAST_MM + fabs(lean) * v.deep);
    double inner[2] = { x_at(from, low.y, low.z), x_at(from, high.y, high.z) };
    double outer[2] = { to ? x_at(to, low.y, low.z) : past, to ? x_at(to, high.y, high.z) : past };
    const tw_point corners[4] = { { inner[0], v.up0 }, { outer[0], v.up0 }, { outer[1], v.up1 }, { inner[1], v.up1 } };
    bool whole = v.deep > tw_face_extent(m->a, v.face).thickness_mm - NOTHING_MM;
    tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->tenon.index, .name = name, .face = v.face, .depth_mm = v.deep,
        .through = whole, .lean_right = lean,
        .outline = quadrangle(context->arena, corners) });
}

void tw_mortise_lean_tenon(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end)
{
    slant shoulder = shoulder_of(m, right_end), end = shoulder;
    end.x += end.sign * m->d / cos(m->lean.tilt);
    const slant *to = m->through && m->proud <= 0.0 ? &end : NULL;  // planed flush
    double w = m->a.width_mm, t = m->a.thickness_mm, low = m->back_shoulder, high = t - m->face_shoulder;
    put_prism(context, plan, m, "cheek", (side_view){ TW_SIDE_FACE, 0.0, w, m->face_shoulder }, &shoulder, to);
    put_prism(context, plan, m, "cheek", (side_view){ TW_SIDE_BACK, 0.0, w, m->back_shoulder }, &shoulder, to);
    put_prism(context, plan, m, "edge shoulder", (side_view){ TW_SIDE_FACE_EDGE, low, high, m->face_edge_shoulder }, &shoulder,
        to);
    put_prism(context, plan, m, "edge shoulder", (side_view){ TW_SIDE_BACK_EDGE, t - high, t - low, m->back_edge_shoulder },
        &shoulder, to);
    if (to) put_prism(context, plan, m, "end planed flush", (side_view){ TW_SIDE_FACE, 0.0, w, t }, &end, NULL);
}
