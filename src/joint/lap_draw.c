// SPDX-License-Identifier: GPL-3.0-or-later
/* Laps, drawn: on the left the section square to the piece over, along the notch in the piece under; on the right the
 * crossing seen from above, the piece under level, the piece over at its angle (its width is measured in the section). */
#include "joint/lap.h"

#include <math.h>

#include "joint/views.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)
#define SAME_MM 1e-6

// arm: of each piece, from the crossing
typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_lap *l; double arm; bool square; } drawing;

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

/* ---- the section ---- */

static double bottom_of_over(const tw_lap *l) { return -l->under.depth + l->room; }  // of what is left of it in the notch
static double over_underside(const tw_lap *l) { return bottom_of_over(l) - l->over.depth; }

static tw_joint_view section_view(const drawing *d, tw_sheet *sheet)
{
    const tw_lap *l = d->l;
    double side = l->under.notch / 2.0 + tw_max(0.6 * l->under.notch, 0.4 * l->under.thick);
    double low = tw_min(-l->under.thick, over_underside(l)), high = tw_max(0.0, l->top);
    tw_joint_view v = { .sheet = sheet, .title = d->square ? "Section across the crossing" : tw_format(d->context->arena, "Section square to %s", l->over.piece->name),
                        .whose = tw_format(d->context->arena, "%s over %s", l->over.piece->name, l->under.piece->name), .reach = { -side, low, side, high } };
    tw_view_row(&v, -l->over.wide / 2.0, l->over.wide / 2.0, figure(d, "over", l->over.wide),
        size(d, l->over.piece, l->over.wide));
    tw_view_row(&v, -l->under.notch / 2.0, l->under.notch / 2.0, figure(d, "notch", l->under.notch),
        of(d, "under_notch", l->under.notch));
    tw_view_column(&v, -l->under.depth, 0.0, figure(d, "deep", l->under.depth), of(d, "under_depth", l->under.depth));
    tw_view_column(&v, -l->under.thick, 0.0, figure(d, "under", l->under.thick), size(d, l->under.piece, l->under.thick));
    if (fabs(l->under.depth - l->over.depth) > SAME_MM) tw_view_column(&v, over_underside(l), bottom_of_over(l),
        figure(d, "over, deep", l->over.depth), of(d, "over_depth", l->over.depth));
    if (fabs(l->under.thick - l->over.thick) > SAME_MM) tw_view_column(&v, over_underside(l), l->top,
        figure(d, "over", l->over.thick), size(d, l->over.piece, l->over.thick));
    return v;
}

static void draw_section(const drawing *d, const tw_joint_view *v)
{
    const tw_lap *l = d->l;
    double wall = l->under.notch / 2.0, side = v->reach.x1, half = l->over.wide / 2.0, foot = bottom_of_over(l), deep = l->under.depth, thick = l->under.thick;
    tw_view_hatch(v, -side, -thick, -wall, 0.0, HATCH_RAD);
    tw_view_hatch(v, -wall, -thick, wall, -deep, HATCH_RAD);
    tw_view_hatch(v, wall, -thick, side, 0.0, HATCH_RAD);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -side, 0.0 }, { -wall, 0.0 }, { -wall, -deep }, { wall, -deep }, { wall, 0.0 }, { side, 0.0 } }, 6);
    tw_view_line(v, TW_ROLE_CUT, -side, -thick, side, -thick);
    tw_view_line(v, TW_ROLE_FAINT, -side, -thick, -side, 0.0);
    tw_view_line(v, TW_ROLE_FAINT, side, -thick, side, 0.0);
    tw_view_hatch(v, -half, foot, half, l->top, -HATCH_RAD);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -half, foot }, { half, foot }, { half, l->top }, { -half, l->top }, { -half, foot } }, 5);
    double under = over_underside(l);  // of the piece over, behind the section
    if (under < -thick - SAME_MM) {
        tw_view_path(v, TW_ROLE_VISIBLE, (tw_point[]){ { -half, -thick }, { -half, under }, { half, under }, { half, -thick } }, 4);
        under = -thick;
    } else if (under > -thick + SAME_MM)
        tw_view_line(v, TW_ROLE_HIDDEN, -half, under, half, under);
    tw_view_line(v, TW_ROLE_HIDDEN, -half, under, -half, foot);
    tw_view_line(v, TW_ROLE_HIDDEN, half, under, half, foot);
}

/* ---- seen from above ---- */

static double half_across_under(const tw_lap *l) { return l->under.wide / 2.0; }

static tw_joint_view plan_view(const drawing *d, tw_sheet *sheet)
{
    const tw_lap *l = d->l;
    double s = sin(l->angle), c = fabs(cos(l->angle)), half = l->over.wide / 2.0;
    double x = tw_max(d->arm, d->arm * c + half * s), y = tw_max(half_across_under(l), d->arm * s + half * c);
    tw_joint_view v = { .sheet = sheet, .reach = { -x, -y, x, y },
                        .title = d->square ? "Seen from above" : tw_format(d->context->arena, "Seen from above, crossing at %s", tw_angle_text(d->context->arena, l->angle)),
                        .whose = tw_format(d->context->arena, "%s from left to right", l->under.piece->name) };
    if (d->square) tw_view_row(&v, -half, half, figure(d, "over", l->over.wide), size(d, l->over.piece, l->over.wide));
    tw_view_column(&v, -half_across_under(l), half_across_under(l), figure(d, "under", l->under.wide),
        size(d, l->under.piece, l->under.wide));
    return v;
}

static void draw_under(const drawing *d, const tw_joint_view *v)
{
    const tw_lap *l = d->l;
    double cot = d->square ? 0.0 : cos(l->angle) / sin(l->angle), half = l->over.wide / 2.0 / sin(l->angle);
    for (int i = -1; i <= 1; i += 2) {
        double y = i * half_across_under(l), left = y * cot - half, right = y * cot + half;
        tw_view_line(v, TW_ROLE_VISIBLE, -d->arm, y, left, y);
        tw_view_line(v, TW_ROLE_HIDDEN, left, y, right, y);
        tw_view_line(v, TW_ROLE_VISIBLE, right, y, d->arm, y);
        tw_view_line(v, TW_ROLE_FAINT, i * d->arm, -half_across_under(l), i * d->arm, half_across_under(l));
    }
    tw_view_line(v, TW_ROLE_CENTRE, -d->arm, 0.0, d->arm, 0.0);
}

static void draw_over(const drawing *d, const tw_joint_view *v)
{
    const tw_lap *l = d->l;
    double c = d->square ? 0.0 : cos(l->angle), s = sin(l->angle), half = l->over.wide / 2.0, ax = d->arm * c, ay = d->arm * s, nx = -half * s, ny = half * c;
    for (int i = -1; i <= 1; i += 2) {
        tw_view_line(v, TW_ROLE_VISIBLE, -ax + i * nx, -ay + i * ny, ax + i * nx, ay + i * ny);
        tw_view_line(v, TW_ROLE_FAINT, i * ax - nx, i * ay - ny, i * ax + nx, i * ay + ny);
    }
    tw_view_line(v, TW_ROLE_CENTRE, -ax, -ay, ax, ay);
    if (d->square) return;
    tw_point apex = tw_view_at(v, 0.0, 0.0);
    tw_draw_arc(v->sheet, TW_ROLE_DIMENSION, apex.x, apex.y, 0.7 * d->arm * v->scale, 0.0, l->angle);
}

const char *tw_lap_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_lap *l = plan->own;
    if (!l || !tw_lap_possible(l)) return tw_view_none(sheet, room);
    drawing d = { .context = context, .plan = plan, .l = l, .square = fabs(l->angle - TW_PI / 2.0) < 1e-9 };
    d.arm = tw_max(l->over.reach, l->under.reach) + 0.5 * tw_max(l->over.wide, l->under.wide) + 0.3 * tw_max(l->over.span, l->under.span);
    tw_joint_view views[2] = { section_view(&d, sheet), plan_view(&d, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_section(&d, &views[0]);
    draw_under(&d, &views[1]);
    draw_over(&d, &views[1]);
    tw_views_measure(views);
    return scale;
}
