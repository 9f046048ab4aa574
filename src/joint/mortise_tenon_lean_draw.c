// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon out of square, drawn as rake and splay are measured: on the left seen square on along the side, with the
 * rake; on the right along the grain of the mortised piece, with the splay. In each view lies a plane of the tenoned piece that
 * stands square to the view but for the other, smaller lean: the middle of its thickness in the one and of its width in the
 * other, with the mortise about it, drawn as they are seen in that view. */
#include "joint/mortise_tenon.h"

#include <math.h>

#include "joint/views.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)

/* One view: (a, b) of it are a direction of the mortised piece and its normal; (u, v) of the tenoned piece lie along it,
 * outward, and across. */
typedef struct plane {
    double au, bu, av, bv;        // of one mm along the tenon, and across it
    double tenon, mortise, body;  // half widths across; of the body to both sides of the tenon's middle:
    double body_low, body_high;
    double low, high;             // of the mortised piece as shown, along a
    bool   low_real, high_real;
} plane;

typedef struct drawing { const tw_joint_context *context; const tw_mortise *m; double length, flush; } drawing;

static tw_point seen(const plane *p, double u, double v) { return (tw_point){ p->au * u + p->av * v, p->bu * u + p->bv * v }; }

/* Along the tenon, from where it stands level with b at v. */
static tw_point at_level(const plane *p, double v, double b) { return seen(p, (b - p->bv * v) / p->bu, v); }

/* Part 0: the width of the tenoned piece, part 1: its thickness. */
static plane plane_of(const drawing *d, int part, bool along_grain)
{
    const tw_mortise *m = d->m;
    tw_pose pose = tw_mortise_pose(m, TW_SIDE_LEFT_END, (tw_mortise_site){ .x = 0.0 }, false);
    tw_spot out = tw_face_frame(m->from).out, across = m->from <= TW_SIDE_BACK ? (tw_spot){ 0, 1, 0 } : (tw_spot){ 0, 0, 1 };
    tw_spot a = along_grain ? (tw_spot){ 1, 0, 0 } : across, v = part == 0 ? pose.y : pose.z;
    double sign = tw_spot_product(v, a) < 0.0 ? -1.0 : 1.0, size = part == 0 ? m->a.width_mm : m->a.thickness_mm,
        middle = part == 0 ? m->y : m->z;
    plane p = { .au = tw_spot_product(pose.x, a), .bu = tw_spot_product(pose.x, out), .av = sign * tw_spot_product(v, a),
        .bv = sign * tw_spot_product(v, out),
                .tenon = (part == 0 ? m->w : m->t) / 2.0, .mortise = (part == 0 ? m->wm : m->tm) / 2.0 };
    p.body_low = sign > 0.0 ? -middle : middle - size;
    p.body_high = sign > 0.0 ? size - middle : middle;
    return p;
}

static void find_reach(const drawing *d, plane *p, bool along_grain, tw_box *reach)
{
    const tw_mortise *m = d->m;
    double past = 0.6 * tw_max(p->body_high, -p->body_low) + 10.0;
    tw_point top[2] = { seen(p, d->length, p->body_low), seen(p, d->length, p->body_high) };
    double mouth = p->av * tw_max(p->body_high, -p->body_low), foot = -p->au / p->bu * m->d;
    p->low = tw_min(-mouth, foot - p->mortise) - past;
    p->high = tw_max(mouth, foot + p->mortise) + past;
    p->low_real = !along_grain && p->low < -m->across;
    p->high_real = !along_grain && p->high > m->e - m->across;
    if (p->low_real) p->low = -m->across;
    if (p->high_real) p->high = m->e - m->across;
    double deep = tw_max(m->d, m->proud > 0.0 ? m->d + m->proud : 0.0);
    *reach = (tw_box){ tw_min(p->low, tw_min(top[0].x, top[1].x)), -deep - 1.0, tw_max(p->high, tw_max(top[0].x, top[1].x)),
        tw_max(top[0].y, top[1].y) };
}

static void hatch(const tw_joint_view *view, const tw_point *points, int count, double angle)
{
    tw_loop loop = { TW_NEW_ARRAY(view->sheet->arena, tw_vertex, (size_t)count), count };
    double area = 0.0;
    for (int i = 0; i < count; i++) area += points[i].x * points[(i + 1) % count].y - points[(i + 1) % count].x * points[i].y;
    for (int i = 0; i < count; i++) {
        tw_point p = points[area > 0.0 ? i : count - 1 - i], paper = tw_view_at(view, p.x, p.y);
        loop.vertices[i] = (tw_vertex){ paper.x, paper.y, 0.0 };
    }
    tw_draw_hatch(view->sheet, (tw_outline){ &loop, 1 }, 2.2, angle);
}

static void draw_base(const drawing *d, const tw_joint_view *view, const plane *p)
{
    const tw_mortise *m = d->m;
    tw_point mouth[2] = { at_level(p, -p->mortise, 0.0), at_level(p, p->mortise, 0.0) }, foot[2];
    for (int i = 0; i < 2; i++) {
        double wall = i ? p->mortise : -p->mortise;
        foot[i] = m->through ? at_level(p, wall, -m->d) : seen(p, -m->depth, wall);
    }
    tw_point low[2] = { { p->low, 0.0 }, { p->low, -m->d } }, high[2] = { { p->high, 0.0 }, { p->high, -m->d } };
    const tw_point left[4] = { low[0], mouth[0], foot[0], low[1] }, right[4] = { high[1], foot[1], mouth[1], high[0] };
    if (m->through) {
        tw_view_path(view, TW_ROLE_CUT, left, 4);
        tw_view_path(view, TW_ROLE_CUT, right, 4);
        hatch(view, left, 4, HATCH_RAD);
        hatch(view, right, 4, HATCH_RAD);
    } else {
        const tw_point all[8] = { low[0], mouth[0], foot[0], foot[1], mouth[1], high[0], high[1], low[1] };
        tw_view_path(view, TW_ROLE_CUT, all, 6);
        tw_view_line(view, TW_ROLE_CUT, low[1].x, low[1].y, high[1].x, high[1].y);
        hatch(view, all, 8, HATCH_RAD);
    }
    tw_view_line(view, p->low_real ? TW_ROLE_CUT : TW_ROLE_FAINT, low[0].x, low[0].y, low[1].x, low[1].y);
    tw_view_line(view, p->high_real ? TW_ROLE_CUT : TW_ROLE_FAINT, high[0].x, high[0].y, high[1].x, high[1].y);
}

static void draw_tenoned(const drawing *d, const tw_joint_view *view, const plane *p)
{
    const tw_mortise *m = d->m;
    bool flush = m->through && m->proud <= 0.0;
    tw_point end[2];
    for (int i = 0; i < 2; i++) {
        double side = i ? p->tenon : -p->tenon;
        end[i] = flush ? at_level(p, side, -m->d) : seen(p, -m->l, side);
    }
    const tw_point all[8] = { seen(p, d->length, p->body_low), at_level(p, p->body_low, 0.0), at_level(p, -p->tenon, 0.0), end[0],
        end[1], at_level(p, p->tenon, 0.0),
                              at_level(p, p->body_high, 0.0), seen(p, d->length, p->body_high) };
    tw_view_path(view, TW_ROLE_CUT, all, 8);
    hatch(view, all, 8, -HATCH_RAD);
    tw_view_line(view, TW_ROLE_FAINT, all[7].x, all[7].y, all[0].x, all[0].y);
    tw_point top = seen(p, d->length + 3.0, 0.0), foot = at_level(p, 0.0, -m->d - 3.0), up = { 0.0, top.y };
    tw_view_line(view, TW_ROLE_CENTRE, top.x, top.y, foot.x, foot.y);
    tw_view_line(view, TW_ROLE_DIMENSION, 0.0, 0.0, up.x, up.y);
}

const char *tw_mortise_lean_draw(const tw_joint_context *context, const tw_mortise *m, tw_sheet *sheet, tw_box room)
{
    tw_arena *arena = context->arena;
    drawing d = { .context = context, .m = m, .length = 1.1 * tw_max(m->a.width_mm, m->a.thickness_mm) };
    plane planes[2] = { plane_of(&d, m->along ? 0 : 1, true), plane_of(&d, m->along ? 1 : 0, false) };
    const char *sides[2] = { tw_face_words[m->lean.rake >= 0.0 ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END],
                             tw_face_words[m->lean.splay >= 0.0 ? tw_face_opposite(m->down) : m->down] };
    double leans[2] = { m->lean.rake, m->lean.splay };
    tw_joint_view views[2];
    for (int i = 0; i < 2; i++) {
        bool square = fabs(leans[i]) < 1e-9;
        views[i] = (tw_joint_view){ .sheet = sheet,
            .title = tw_format(arena, "%s %s", i == 0 ? "Seen square on: rake" : "Seen along the grain: splay",
                tw_angle_text(arena, fabs(leans[i]))),
            .whose = square ? tw_format(arena, "%s into %s", m->tenon->name, m->into->name)
                            : tw_format(arena, "leaning towards the %s of %s", sides[i], m->into->name) };
        find_reach(&d, &planes[i], i == 0, &views[i].reach);
        double from = at_level(&planes[i], -planes[i].mortise, 0.0).x, to = at_level(&planes[i], planes[i].mortise, 0.0).x;
        tw_view_row(&views[i], from, to, tw_format(arena, "mouth %s", tw_bare_fine(context, to - from)), (tw_source){ 0 });
        if (planes[i].low_real && planes[i].high_real)
            tw_view_row(&views[i], planes[i].low, planes[i].high, tw_format(arena, "piece %s", tw_bare_fine(context, m->e)),
                tw_size_source(context, m->into, m->e));
        tw_view_column(&views[i], -m->d, 0.0, tw_bare_fine(context, m->d), tw_size_source(context, m->into, m->d));
        if (!m->through)
            tw_view_column(&views[i], seen(&planes[i], -m->l, 0.0).y, 0.0,
                           tw_format(arena, "middle %s", tw_bare_fine(context, m->l * planes[i].bu)), (tw_source){ 0 });
    }
    const char *scale = tw_views_place(views, arena, room);
    for (int i = 0; i < 2; i++) {
        draw_base(&d, &views[i], &planes[i]);
        draw_tenoned(&d, &views[i], &planes[i]);
    }
    tw_views_measure(views);
    return scale;
}
