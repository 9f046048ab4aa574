// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: the cuts on both pieces, each in the frame of the face that it is made from.
 *
 * The wood taken from the end of the tenoned piece is parted into prisms that do not overlap: both cheeks over the full
 * width, the edges between the cheeks, and on the end what lies between a pair, beyond the haunch, and in the rounded
 * corners. So their volumes add up to the end of the piece less the tenon. */
#include "joint/mortise_tenon.h"

#include <assert.h>
#include <math.h>

#define NOTHING_MM 1e-9  // a shoulder of no more is none

/* ---- the mortised piece ---- */

/* Height of a site as seen on the mortised face: `up` counts from `down`, which lies above on two of the faces. */
static double height_on_face(const tw_mortise *m, double up)
{
    return tw_face_below(m->from) == m->down ? up : m->e - up;
}

static tw_outline mortise_outline(tw_arena *arena, const tw_mortise *m, double x, double y)
{
    double half_x = (m->along ? m->wm : m->tm) / 2.0, half_y = (m->along ? m->tm : m->wm) / 2.0;
    double radius = m->round ? tw_min(half_x, half_y) : 0.0;
    return tw_outline_rounded(arena, x - half_x, y - half_y, x + half_x, y + half_y, radius);
}

static void groove_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, tw_mortise_site site)
{
    double at = m->spec->at.items[site.place].value, y = height_on_face(m, site.up);
    tw_haunch_groove groove = tw_mortise_groove(m, at);
    double near_end = groove.left ? groove.end : m->b.length_mm - groove.start;
    double far_end = groove.left ? groove.start : m->b.length_mm - groove.end;
    if (far_end - near_end < 1e-6) return;  // the mortise itself runs to the end: a halt says so
    tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->into.index, .name = "groove of the haunch", .face = m->from, .depth_mm = m->groove_depth,
        .outline = tw_outline_rectangle(context->arena, near_end, y - m->tm / 2.0, far_end, y + m->tm / 2.0) });
}

static void mortise_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    int count;
    tw_mortise_site *sites = tw_mortise_sites(context->arena, m, &count);
    for (int i = 0; i < count; i++) {
        if (m->lean.leans) { tw_mortise_lean_mortise(context, plan, m, sites[i]); continue; }
        tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->into.index, .name = "mortise", .face = m->from, .depth_mm = m->depth, .through = m->through,
            .outline = mortise_outline(context->arena, m, sites[i].x, height_on_face(m, sites[i].up)) });
        if (m->haunched) groove_cut(context, plan, m, sites[i]);
    }
}

/* ---- the tenoned piece ---- */

static void end_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, const char *name, tw_face face, double depth_mm,
                    tw_outline outline)
{
    if (depth_mm <= NOTHING_MM) return;
    tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->tenon.index, .name = name, .face = face, .depth_mm = depth_mm, .outline = outline });
}

static void cheek_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end)
{
    tw_arena *arena = context->arena;
    double x0 = right_end ? m->a.length_mm - m->l : 0.0, x1 = x0 + m->l;
    double low = m->back_shoulder, high = m->a.thickness_mm - m->face_shoulder;  // z of the cheeks
    tw_outline whole = tw_outline_rectangle(arena, x0, 0.0, x1, m->a.width_mm);
    end_cut(context, plan, m, "cheek", TW_SIDE_FACE, m->face_shoulder, whole);
    end_cut(context, plan, m, "cheek", TW_SIDE_BACK, m->back_shoulder, whole);
    end_cut(context, plan, m, "edge shoulder", TW_SIDE_FACE_EDGE, m->face_edge_shoulder, tw_outline_rectangle(arena, x0, low, x1, high));
    end_cut(context, plan, m, "edge shoulder", TW_SIDE_BACK_EDGE, m->back_edge_shoulder,
            tw_outline_rectangle(arena, x0, m->a.thickness_mm - high, x1, m->a.thickness_mm - low));
}

/* A span of the width as it is seen on that end. */
static tw_outline end_rectangle(tw_arena *arena, const tw_mortise *m, bool right_end, double y0, double y1, double z0, double z1)
{
    double u0 = right_end ? y0 : m->a.width_mm - y1, u1 = right_end ? y1 : m->a.width_mm - y0;
    return tw_outline_rectangle(arena, u0, z0, u1, z1);
}

static void haunch_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end)
{
    double y0 = m->spec->haunch_at.value == 0 ? m->haunch_inset : m->a.width_mm - m->haunch_inset - m->haunch_width;
    end_cut(context, plan, m, "end of the haunch", right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END, m->l - m->haunch,
            end_rectangle(context->arena, m, right_end, y0, y0 + m->haunch_width, m->back_shoulder, m->a.thickness_mm - m->face_shoulder));
}

static void gap_cut(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end)
{
    double half_y = (m->doubled ? m->gap : m->w) / 2.0, half_z = (m->doubled ? m->t : m->gap) / 2.0;
    end_cut(context, plan, m, "gap between the tenons", right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END, m->l,
            end_rectangle(context->arena, m, right_end, m->y - half_y, m->y + half_y, m->z - half_z, m->z + half_z));
}

/* What rounding takes off one corner: the corner, and the two ends of a quarter of the circle, which bends towards the
 * corner. Runs counter-clockwise. */
static tw_loop corner_loop(tw_arena *arena, tw_point corner, double sx, double sy, double radius)
{
    const double quarter = 0.41421356237309504880;  // tan(90 degrees / 4)
    tw_vertex level = { corner.x - sx * radius, corner.y, 0.0 }, upright = { corner.x, corner.y - sy * radius, 0.0 };
    bool level_first = sx * sy > 0.0;
    tw_loop loop = { TW_NEW_ARRAY(arena, tw_vertex, 3), 3 };
    loop.vertices[0] = (tw_vertex){ corner.x, corner.y, 0.0 };
    loop.vertices[1] = level_first ? level : upright;
    loop.vertices[2] = level_first ? upright : level;
    loop.vertices[1].bulge = -quarter;
    return loop;
}

static void corner_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end, double y, double z)
{
    double radius = tw_min(m->t, m->w) / 2.0, u = right_end ? y : m->a.width_mm - y;
    tw_outline corners = { TW_NEW_ARRAY(context->arena, tw_loop, 4), 4 };
    for (int i = 0; i < 4; i++) {
        double sx = i % 2 ? 1.0 : -1.0, sy = i / 2 ? 1.0 : -1.0;
        corners.loops[i] = corner_loop(context->arena, (tw_point){ u + sx * m->w / 2.0, z + sy * m->t / 2.0 }, sx, sy, radius);
    }
    end_cut(context, plan, m, "rounded corners", right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END, m->l, corners);
}

static void round_tenons(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end)
{
    double off = m->pair ? (m->doubled ? m->w + m->gap : m->t + m->gap) / 2.0 : 0.0;
    for (int i = 0; i < (m->pair ? 2 : 1); i++) {
        double shifted = i == 0 ? -off : off;
        corner_cuts(context, plan, m, right_end, m->y + (m->doubled ? shifted : 0.0), m->z + (m->doubled ? 0.0 : shifted));
    }
}

static void tenon_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end)
{
    if (m->lean.leans) { tw_mortise_lean_tenon(context, plan, m, right_end); return; }
    cheek_cuts(context, plan, m, right_end);
    if (m->pair) gap_cut(context, plan, m, right_end);
    if (m->haunched) haunch_cut(context, plan, m, right_end);
    if (m->round) round_tenons(context, plan, m, right_end);
}

void tw_mortise_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    assert(tw_mortise_possible(m));
    mortise_cuts(context, plan, m);
    if (m->spec->ends.value != TW_TENON_RIGHT) tenon_cuts(context, plan, m, false);
    if (m->spec->ends.value != TW_TENON_LEFT) tenon_cuts(context, plan, m, true);
    if (tw_mortise_peg_possible(m)) tw_mortise_peg_cuts(context, plan, m);
}
