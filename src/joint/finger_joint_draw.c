// SPDX-License-Identifier: GPL-3.0-or-later
/* Finger joint, drawn: on the left the corner together, seen on the face of board a (x towards the corner, y from the edge
 * at which the fingers are counted), the ends of b's fingers hatched; on the right b alone, seen on its face, its end to the
 * left. */
#include "joint/finger_joint.h"

#include "joint/views.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)

typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_finger *f; } drawing;

static const char *figure(const drawing *d, const char *word, double length_mm)
{
    const char *bare = tw_bare_fine(d->context, length_mm);
    return word[0] ? tw_format(d->context->arena, "%s %s", word, bare) : bare;
}

static tw_source of(const drawing *d, const char *key, double shown) { return tw_figure_source(d->context, d->plan, key, shown); }
static tw_source size(const drawing *d, const tw_piece *piece, double shown_mm)
{
    return tw_size_source(d->context, piece, shown_mm);
}

/* How much of a board is shown behind its gaps. */
static double tail_mm(const tw_finger *f, double deep_mm) { return tw_max(1.5 * deep_mm, f->k.wide / 6.0); }

/* ---- the corner, on the face of a ---- */

static tw_joint_view corner_view(const drawing *d, tw_sheet *sheet)
{
    const tw_finger *f = d->f;
    double deep = tw_finger_deep(f, false), from, to;
    tw_joint_view v = { .sheet = sheet, .title = "The corner, seen on the face", .whose = tw_format(d->context->arena, "%s, with %s in it", f->k.a.piece->name, f->k.b.piece->name),
                        .reach = { -tail_mm(f, deep), 0.0, deep, f->k.wide } };
    tw_view_row(&v, 0.0, deep, figure(d, "", deep), of(d, "depth", deep));
    tw_finger_gap(f, false, 0, 0.0, &from, &to);
    tw_view_column(&v, 0.0, from, figure(d, "edge", from), (tw_source){ 0 });
    tw_view_column(&v, from, to, figure(d, "gap", f->n > 3 || to < f->k.wide ? f->gap : to - from),
        of(d, "gap", f->n > 3 || to < f->k.wide ? f->gap : to - from));
    tw_view_column(&v, 0.0, f->k.wide, figure(d, "", f->k.wide), size(d, f->k.a.piece, f->k.wide));
    return v;
}

/* The outline of a board's comb: gaps towards `end`, bottoms at `bottom`, the board on to `far`. */
static void draw_comb(const drawing *d, const tw_joint_view *v, bool of_b, double end, double bottom, double far)
{
    const tw_finger *f = d->f;
    double y = 0.0, from, to;
    for (int i = 0; i < tw_finger_gaps(f, of_b); i++) {
        tw_finger_gap(f, of_b, i, 0.0, &from, &to);
        if (from > y) tw_view_line(v, TW_ROLE_CUT, end, y, end, from);
        if (from > 0.0) tw_view_line(v, TW_ROLE_CUT, end, from, bottom, from);
        tw_view_line(v, TW_ROLE_CUT, bottom, from, bottom, to);
        if (to < f->k.wide) tw_view_line(v, TW_ROLE_CUT, bottom, to, end, to);
        y = to;
    }
    if (y < f->k.wide) tw_view_line(v, TW_ROLE_CUT, end, y, end, f->k.wide);
    bool first_open = of_b, last_open = of_b == (f->n % 2 != 0);
    tw_view_line(v, TW_ROLE_CUT, first_open ? bottom : end, 0.0, far, 0.0);
    tw_view_line(v, TW_ROLE_CUT, last_open ? bottom : end, f->k.wide, far, f->k.wide);
    tw_view_line(v, TW_ROLE_FAINT, far, 0.0, far, f->k.wide);
}

static void draw_corner(const drawing *d, const tw_joint_view *v)
{
    const tw_finger *f = d->f;
    double deep = tw_finger_deep(f, false), from, to;
    draw_comb(d, v, false, deep, 0.0, v->reach.x0);
    for (int i = 0; i < tw_finger_gaps(f, false); i++) {  // b's finger in it, half of the clearance narrower
        tw_finger_gap(f, false, i, 0.0, &from, &to);
        double low = from + f->c / 2.0, high = to < f->k.wide ? to - f->c / 2.0 : to;
        tw_view_hatch(v, 0.0, low, deep, high, HATCH_RAD);
        tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { 0.0, low }, { deep, low }, { deep, high }, { 0.0, high } }, 4);
    }
}

/* ---- b alone ---- */

static tw_joint_view mate_view(const drawing *d, tw_sheet *sheet)
{
    const tw_finger *f = d->f;
    double deep = tw_finger_deep(f, true), from, to;
    tw_joint_view v = { .sheet = sheet, .title = "The other board, seen on its face", .whose = f->k.b.piece->name, .reach = { 0.0, 0.0, deep + tail_mm(f, deep), f->k.wide } };
    tw_view_row(&v, 0.0, deep, figure(d, "", deep), of(d, "into_depth", deep));
    tw_finger_gap(f, true, 0, 0.0, &from, &to);
    tw_view_column(&v, 0.0, to, figure(d, "edge gap", to), (tw_source){ 0 });
    if (f->n > 3) {
        double next = to;
        tw_finger_gap(f, true, 1, 0.0, &from, &to);
        tw_view_column(&v, next, from, figure(d, "finger", f->wide), of(d, "finger_width", f->wide));
    }
    return v;
}

const char *tw_finger_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_finger *f = plan->own;
    if (!f || !tw_finger_possible(f)) return tw_view_none(sheet, room);
    drawing d = { context, plan, f };
    tw_joint_view views[2] = { corner_view(&d, sheet), mate_view(&d, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_corner(&d, &views[0]);
    draw_comb(&d, &views[1], true, 0.0, tw_finger_deep(f, true), views[1].reach.x1);
    tw_views_measure(views);
    return scale;
}
