// SPDX-License-Identifier: GPL-3.0-or-later
/* Slip tenon, drawn: on the left the section along the tenon (u right, 0 where the pieces meet, y up); on the right the end
 * of the piece with its mortise (z right, y up). */
#include "joint/slip_tenon.h"

#include "joint/views.h"
#include "joint/words.h"

#define PAST_MM 12.0   // of the pieces, shown past what matters
#define ROUND_MM 3.0
#define HIGH_MM 118.0  // of paper: an end of some centimetres needs no more

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }

static void begin_along(const tw_joint_context *context, const tw_joint_plan *plan, const tw_slip *s, tw_joint_view *v,
    double low, double high)
{
    v->title = "Section along the tenon";
    v->whose = tw_format(context->arena, "%s on %s", s->piece->name, s->into->name);
    v->reach = (tw_box){ -s->depth - PAST_MM, tw_min(low, 0.0), s->d, tw_max(high, s->a.width_mm) };
    v->round_mm = ROUND_MM;
    tw_view_row(v, 0.0, s->l, bare(context, s->l), tw_figure_source(context, plan, "tenon_in_each", s->l));
    tw_view_row(v, 0.0, s->depth, bare(context, s->depth), tw_figure_source(context, plan, "mortise_depth", s->depth));
    tw_view_row(v, 0.0, s->d, bare(context, s->d), tw_size_source(context, s->into, s->d));
    tw_view_column(v, s->y - s->w / 2.0, s->y + s->w / 2.0, bare(context, s->w),
        tw_figure_source(context, plan, "tenon_width", s->w));
    if (!s->along) tw_view_column(v, low, high, bare(context, s->e), tw_size_source(context, s->into, s->e));
}

static void begin_end(const tw_joint_context *context, const tw_joint_plan *plan, const tw_slip *s, tw_joint_view *v)
{
    v->title = "The end";
    v->whose = tw_format(context->arena, "tenon %s x %s x %s", bare(context, s->long_mm), bare(context, s->w), bare(context, s->t));
    v->reach = (tw_box){ 0.0, 0.0, s->a.thickness_mm, s->a.width_mm };
    v->round_mm = ROUND_MM;
    tw_view_row(v, s->z - s->tm / 2.0, s->z + s->tm / 2.0, bare(context, s->tm),
        tw_figure_source(context, plan, "mortise_width", s->tm));
    tw_view_row(v, 0.0, s->a.thickness_mm, bare(context, s->a.thickness_mm),
        tw_size_source(context, s->piece, s->a.thickness_mm));
    tw_view_column(v, s->y - s->wm / 2.0, s->y + s->wm / 2.0, bare(context, s->wm),
        tw_figure_source(context, plan, "mortise_length", s->wm));
    tw_view_column(v, 0.0, s->a.width_mm, bare(context, s->a.width_mm), tw_size_source(context, s->piece, s->a.width_mm));
}

/* One piece with its mortise, from the joint outward: side -1 the piece with the end, +1 the other. */
static void draw_piece(const tw_joint_view *v, const tw_slip *s, double side, double low, double high, double far_, bool low_real, bool high_real, double angle)
{
    double m0 = s->y - s->wm / 2.0, m1 = s->y + s->wm / 2.0, deep = side * s->depth;
    const tw_point border[] = { { 0.0, low }, { 0.0, m0 }, { deep, m0 }, { deep, m1 }, { 0.0, m1 }, { 0.0, high } };
    tw_view_path(v, TW_ROLE_CUT, border, 6);
    tw_view_hatch(v, tw_min(0.0, far_), low, tw_max(0.0, far_), m0, angle);
    tw_view_hatch(v, tw_min(0.0, far_), m1, tw_max(0.0, far_), high, angle);
    tw_view_hatch(v, tw_min(deep, far_), m0, tw_max(deep, far_), m1, angle);
    tw_view_line(v, low_real ? TW_ROLE_CUT : TW_ROLE_FAINT, 0.0, low, far_, low);
    tw_view_line(v, high_real ? TW_ROLE_CUT : TW_ROLE_FAINT, 0.0, high, far_, high);
    tw_view_line(v, side > 0.0 ? TW_ROLE_CUT : TW_ROLE_FAINT, far_, low, far_, high);
}

static void draw_end(const tw_joint_view *v, const tw_slip *s)
{
    tw_point a = tw_view_at(v, 0.0, 0.0), b = tw_view_at(v, s->a.thickness_mm, s->a.width_mm);
    tw_draw_box(v->sheet, TW_ROLE_VISIBLE, a.x, a.y, b.x, b.y);
    a = tw_view_at(v, s->z - s->tm / 2.0, s->y - s->wm / 2.0);
    b = tw_view_at(v, s->z + s->tm / 2.0, s->y + s->wm / 2.0);
    tw_outline mortise = tw_outline_rounded(v->sheet->arena, a.x, a.y, b.x, b.y, s->round ? tw_min(b.x - a.x, b.y - a.y) / 2.0 : 0.0);
    tw_draw_outline(v->sheet, TW_ROLE_SHADE, mortise);
    tw_draw_outline(v->sheet, TW_ROLE_VISIBLE, mortise);
    tw_view_line(v, TW_ROLE_CENTRE, s->z, -2.0, s->z, s->a.width_mm + 2.0);
}

const char *tw_slip_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_slip *s = plan->own;
    if (!s || !tw_slip_possible(s)) return tw_view_none(sheet, room);
    tw_joint_view views[2] = { { .sheet = sheet }, { .sheet = sheet } };
    double low = s->along ? -PAST_MM : s->y - s->across, high = s->along ? s->a.width_mm + PAST_MM : s->y - s->across + s->e;
    begin_along(context, plan, s, &views[0], low, high);
    begin_end(context, plan, s, &views[1]);
    const char *scale = tw_views_place(views, context->arena, tw_view_room(room, HIGH_MM));
    draw_piece(&views[0], s, 1.0, low, high, s->d, !s->along, !s->along, TW_PI / 4.0);
    draw_piece(&views[0], s, -1.0, 0.0, s->a.width_mm, -s->depth - PAST_MM, true, true, -TW_PI / 4.0);
    tw_point a = tw_view_at(&views[0], -s->l, s->y - s->w / 2.0), b = tw_view_at(&views[0], s->l, s->y + s->w / 2.0);
    tw_outline tenon = tw_outline_rectangle(sheet->arena, a.x, a.y, b.x, b.y);
    tw_draw_hatch(sheet, tenon, 3.0, 0.0);
    tw_draw_outline(sheet, TW_ROLE_CUT, tenon);
    tw_view_line(&views[0], TW_ROLE_CENTRE, -s->depth - PAST_MM, s->y, s->d, s->y);
    draw_end(&views[1], s);
    tw_views_measure(views);
    return scale;
}
