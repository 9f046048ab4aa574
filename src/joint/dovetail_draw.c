// SPDX-License-Identifier: GPL-3.0-or-later
/* Through dovetail, drawn: on the left the corner together, seen on the face of a (x towards the end, y from an edge), the
 * ends of the pins hatched; on the right the end of b alone, its inner side to the left, the pins hatched. */
#include "joint/dovetail.h"

#include "joint/views.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)
#define HATCH_MM 2.2

typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_dovetail *d; } drawing;

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

/* Of which board it is a size. */
static tw_source size_of_either(const drawing *d, double shown_mm)
{
    tw_source source = size(d, d->d->k.b.piece, shown_mm);
    return source.from ? source : size(d, d->d->k.a.piece, shown_mm);
}

/* A pin between x0 (u = 0) and x1 (u = deep): its two walls there, drawn and hatched. */
typedef struct pin { double low_root, low_end, high_root, high_end; } pin;

/* Pin i of b, 0 and n at the edges; `back` to its own side of each middle line. */
static pin pin_of(const tw_dovetail *d, int i, double deep, double back)
{
    return (pin){ .low_root = i == 0 ? 0.0 : tw_dovetail_wall(d, i - 1, true, 0.0) + back, .low_end = i == 0 ? 0.0 : tw_dovetail_wall(d, i - 1, true, deep) + back,
                  .high_root = i == d->n ? d->k.wide : tw_dovetail_wall(d, i, false, 0.0) - back, .high_end = i == d->n ? d->k.wide : tw_dovetail_wall(d, i, false, deep) - back };
}

static void draw_pin(const tw_joint_view *v, pin p, double deep)
{
    const tw_point corners[] = { { 0.0, p.low_root }, { deep, p.low_end }, { deep, p.high_end }, { 0.0, p.high_root }, { 0.0, p.low_root } };
    tw_vertex on_paper[4];
    for (int i = 0; i < 4; i++) {
        tw_point at = tw_view_at(v, corners[i].x, corners[i].y);
        on_paper[i] = (tw_vertex){ at.x, at.y, 0.0 };
    }
    tw_draw_hatch(v->sheet, tw_outline_of_loop(v->sheet->arena, on_paper, 4), HATCH_MM, HATCH_RAD);
    tw_view_path(v, TW_ROLE_CUT, corners, 5);
}

/* ---- the corner, on the face of a ---- */

static double tail_of_board(const tw_dovetail *d) { return tw_max(1.5 * d->t, d->k.wide / 6.0); }

static tw_joint_view corner_view(const drawing *dr, tw_sheet *sheet)
{
    const tw_dovetail *d = dr->d;
    double deep = tw_dovetail_deep(d, false), low = tw_dovetail_wall(d, 0, false, d->t), high = tw_dovetail_wall(d, 0, true, d->t);
    tw_joint_view v = { .sheet = sheet, .title = "The corner, seen on the tails", .whose = tw_format(dr->context->arena, "%s, with %s in it", d->k.a.piece->name, d->k.b.piece->name),
                        .reach = { -tail_of_board(d), 0.0, deep, d->k.wide } };
    tw_view_row(&v, 0.0, deep, figure(dr, "", deep), of(dr, "depth", deep));
    tw_view_column(&v, 0.0, low, figure(dr, "half pin", d->h), of(dr, "half_pin", d->h));
    tw_view_column(&v, low, high, figure(dr, "tail", d->w), of(dr, "tail", d->w));
    if (d->n > 1) tw_view_column(&v, high, high + d->q, figure(dr, "pin", d->q), of(dr, "pin", d->q));
    tw_view_column(&v, 0.0, d->k.wide, figure(dr, "", d->k.wide), size_of_either(dr, d->k.wide));
    return v;
}

static void draw_corner(const drawing *dr, const tw_joint_view *v)
{
    const tw_dovetail *d = dr->d;
    double deep = tw_dovetail_deep(d, false);
    for (int i = 0; i <= d->n; i++) draw_pin(v, pin_of(d, i, deep, d->c / 4.0), deep);
    for (int i = 0; i < d->n; i++) {  // the tails a hair inside the pins
        double root_low = tw_dovetail_wall(d, i, false, 0.0) + d->c / 4.0, root_high = tw_dovetail_wall(d, i, true, 0.0) - d->c / 4.0;
        double end_low = tw_dovetail_wall(d, i, false, deep) + d->c / 4.0, end_high = tw_dovetail_wall(d, i, true, deep) - d->c / 4.0;
        tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { 0.0, root_low }, { deep, end_low }, { deep, end_high }, { 0.0, root_high } }, 4);
    }
    tw_view_line(v, TW_ROLE_CUT, v->reach.x0, 0.0, 0.0, 0.0);
    tw_view_line(v, TW_ROLE_CUT, v->reach.x0, d->k.wide, 0.0, d->k.wide);
    tw_view_line(v, TW_ROLE_FAINT, v->reach.x0, 0.0, v->reach.x0, d->k.wide);
}

/* ---- the end of b ---- */

static tw_joint_view end_view(const drawing *dr, tw_sheet *sheet)
{
    const tw_dovetail *d = dr->d;
    pin first = pin_of(d, 0, d->t, d->c / 4.0);
    tw_joint_view v = { .sheet = sheet, .title = "The end with the pins", .whose = tw_format(dr->context->arena, "%s, inner side to the left", d->k.b.piece->name), .reach = { 0.0, 0.0, d->t, d->k.wide } };
    tw_view_row(&v, 0.0, d->t, figure(dr, "", d->t), size_of_either(dr, d->t));
    tw_view_column(&v, 0.0, first.high_end, figure(dr, "", d->h), of(dr, "half_pin", d->h));
    double low = tw_dovetail_wall(d, 0, false, d->t), high = tw_dovetail_wall(d, 0, true, d->t);
    tw_view_column(&v, low, high, figure(dr, "socket", d->w + d->c / 2.0), (tw_source){ 0 });
    if (d->n > 1) tw_view_column(&v, high, high + d->q, figure(dr, "", d->q), of(dr, "pin", d->q));
    return v;
}

static void draw_end(const drawing *dr, const tw_joint_view *v)
{
    const tw_dovetail *d = dr->d;
    for (int i = 0; i <= d->n; i++) draw_pin(v, pin_of(d, i, d->t, d->c / 4.0), d->t);
    for (int i = 0; i < d->n; i++) {  // what stands behind the sockets
        double back = d->c / 4.0;
        tw_view_line(v, TW_ROLE_VISIBLE, 0.0, tw_dovetail_wall(d, i, false, 0.0) - back, 0.0, tw_dovetail_wall(d, i, true, 0.0) + back);
        tw_view_line(v, TW_ROLE_VISIBLE, d->t, tw_dovetail_wall(d, i, false, d->t) - back, d->t, tw_dovetail_wall(d, i, true, d->t) + back);
    }
}

const char *tw_dovetail_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_dovetail *d = plan->own;
    if (!d || !tw_dovetail_possible(d)) return tw_view_none(sheet, room);
    drawing dr = { context, plan, d };
    tw_joint_view views[2] = { corner_view(&dr, sheet), end_view(&dr, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_corner(&dr, &views[0]);
    draw_end(&dr, &views[1]);
    tw_views_measure(views);
    return scale;
}
