// SPDX-License-Identifier: GPL-3.0-or-later
/* Profiles, drawn: on the left what is left of the piece as it is seen, on the right the shaped part large. */
#include "profile/profile.h"

#include <math.h>

#include "joint/views.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)
#define HATCH_MM 2.2

static const char *figure(const tw_joint_context *context, const char *word, double mm)
{
    const char *bare = tw_bare_fine(context, mm);
    return word[0] ? tw_format(context->arena, "%s %s", word, bare) : bare;
}

/* An outline in mm of the piece, drawn in a view. */
static tw_outline placed(const tw_joint_view *v, tw_outline outline)
{
    tw_arena *arena = v->sheet->arena;
    return tw_outline_moved(arena, tw_outline_scaled(arena, outline, v->scale), v->x, v->y);
}

static void draw_shape(const tw_joint_view *v, tw_outline outline) { tw_draw_outline(v->sheet, TW_ROLE_VISIBLE, placed(v,
    outline)); }

static void draw_section(const tw_joint_view *v, tw_outline outline)
{
    tw_outline on_paper = placed(v, outline);
    tw_draw_hatch(v->sheet, on_paper, HATCH_MM, HATCH_RAD);
    tw_draw_outline(v->sheet, TW_ROLE_CUT, on_paper);
}

/* What is gone of the blank. */
static void draw_blank(const tw_joint_view *v, double wide, double high)
{
    tw_draw_outline(v->sheet, TW_ROLE_FAINT, placed(v, tw_outline_rectangle(v->sheet->arena, 0.0, 0.0, wide, high)));
}

static tw_joint_view view_of(tw_sheet *sheet, const char *title, const char *whose, tw_box reach)
{
    return (tw_joint_view){ .sheet = sheet, .title = title, .whose = whose, .reach = reach };
}

/* ---- arch ---- */

static tw_joint_view whole_arch(const tw_joint_context *context, const tw_joint_plan *plan, const tw_arch *a, tw_sheet *sheet)
{
    const tw_profile_side *s = &a->side;
    tw_joint_view v = view_of(sheet, tw_format(context->arena, "The piece on its %s", tw_face_words[s->seen]), a->piece->name,
        (tw_box){ 0.0, 0.0, s->long_mm, s->wide_mm });
    if (a->from_mm > 0.0) tw_view_row(&v, 0.0, a->from_mm, figure(context, "", a->from_mm),
        tw_figure_source(context, plan, "from", a->from_mm));
    tw_view_row(&v, a->from_mm, a->to_mm, figure(context, "arch", a->segment.chord_mm),
        tw_figure_source(context, plan, "chord", a->segment.chord_mm));
    tw_view_row(&v, 0.0, s->long_mm, figure(context, "", s->long_mm), tw_size_source(context, a->piece, s->long_mm));
    double h = a->segment.rise_mm;
    tw_view_column(&v, s->high ? s->wide_mm - h : 0.0, s->high ? s->wide_mm : h, figure(context, "rise", h),
        tw_figure_source(context, plan, "rise", h));
    tw_view_column(&v, 0.0, s->wide_mm, figure(context, "", s->wide_mm), tw_size_source(context, a->piece, s->wide_mm));
    return v;
}

/* Half of the arch upon its chord, with the places of the table. */
static tw_joint_view half_arch(const tw_joint_context *context, const tw_joint_plan *plan, const tw_arch *a, tw_sheet *sheet)
{
    double half = a->segment.chord_mm / 2.0, h = a->segment.rise_mm;
    tw_joint_view v = view_of(sheet, "Half of the arch", tw_format(context->arena,
        "radius %s; the upright lines are the places of the table", tw_bare_fine(context, a->segment.radius_mm)), (tw_box){ 0.0,
        0.0, half, h });
    tw_view_row(&v, 0.0, half, figure(context, "half", half), (tw_source){ 0 });
    tw_view_column(&v, 0.0, h, figure(context, "", h), tw_figure_source(context, plan, "rise", h));
    return v;
}

static void draw_half(const tw_joint_view *v, const tw_joint_plan *plan, const tw_arch *a)
{
    tw_segment s = a->segment;
    double half = s.chord_mm / 2.0;
    const tw_vertex border[] = { { 0.0, 0.0, 0.0 }, { half, 0.0, tan(s.half_rad / 4.0) }, { 0.0, s.rise_mm, 0.0 } };
    draw_shape(v, tw_outline_of_loop(v->sheet->arena, border, 3));
    for (size_t i = 0; i < plan->station_count; i++)
        if (plan->stations[i].high_mm > 0.0) tw_view_line(v, i == 0 ? TW_ROLE_CENTRE : TW_ROLE_FAINT, plan->stations[i].along_mm,
            0.0, plan->stations[i].along_mm, plan->stations[i].high_mm);
}

const char *tw_arch_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_arch *a = plan->own;
    if (!a) return tw_view_none(sheet, room);
    tw_joint_view views[2] = { whole_arch(context, plan, a, sheet), half_arch(context, plan, a, sheet) };
    const char *scale = tw_views_stack(views, context->arena, room);
    draw_blank(&views[0], a->side.long_mm, a->side.wide_mm);
    draw_shape(&views[0], plan->shapes[0].outline);
    double middle = (a->from_mm + a->to_mm) / 2.0;
    tw_view_line(&views[0], TW_ROLE_CENTRE, middle, 0.0, middle, a->side.wide_mm);
    draw_half(&views[1], plan, a);
    tw_views_measure(views);
    return scale;
}

/* ---- taper ---- */

static tw_joint_view tapered(const tw_joint_context *context, const tw_joint_plan *plan, const tw_taper *t, tw_sheet *sheet,
    bool on_face)
{
    double l = t->size.length_mm, w = on_face ? t->size.width_mm : t->size.thickness_mm;
    bool low = t->shaped[on_face ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK], high = t->shaped[on_face ? TW_SIDE_BACK_EDGE
        : TW_SIDE_FACE], right = t->spec->end.value == 1;
    double left = w - (low ? t->by_mm : 0.0) - (high ? t->by_mm : 0.0);
    const char *whose = !low && !high ? "not tapered here" : tw_format(context->arena, "%s at the %s end, %s off %s",
        tw_bare_fine(context, left), right ? "right" : "left", tw_bare_fine(context, t->by_mm),
        low && high ? "both sides" : tw_face_words[on_face ? (low ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK_EDGE) : low ? TW_SIDE_BACK
            : TW_SIDE_FACE]);
    tw_joint_view v = view_of(sheet, on_face ? "The piece on its face" : "The piece on its face edge", whose, (tw_box){ 0.0, 0.0,
        l, w });
    if (low || high) tw_view_row(&v, right ? l - t->long_mm : 0.0, right ? l : t->long_mm, figure(context, "taper", t->long_mm),
        tw_figure_source(context, plan, "length", t->long_mm));
    if (t->long_mm < l || !(low || high)) tw_view_row(&v, 0.0, l, figure(context, "", l), tw_size_source(context, t->piece, l));
    tw_view_column(&v, 0.0, w, figure(context, "", w), tw_size_source(context, t->piece, w));
    return v;
}

const char *tw_taper_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_taper *t = plan->own;
    if (!t) return tw_view_none(sheet, room);
    tw_joint_view views[2] = { tapered(context, plan, t, sheet, true), tapered(context, plan, t, sheet, false) };
    const char *scale = tw_views_stack(views, context->arena, room);
    for (int i = 0; i < 2; i++) {
        tw_outline shape = tw_outline_rectangle(context->arena, 0.0, 0.0, views[i].reach.x1, views[i].reach.y1);
        for (int k = 0; k < plan->shape_count; k++)
            if (plan->shapes[k].face == (i == 0 ? TW_SIDE_FACE : TW_SIDE_FACE_EDGE)) shape = plan->shapes[k].outline;
        draw_blank(&views[i], views[i].reach.x1, views[i].reach.y1);
        draw_shape(&views[i], shape);
    }
    tw_views_measure(views);
    return scale;
}

/* ---- chamfer and round-over ---- */

static tw_joint_view seen_whole(const tw_joint_context *context, const tw_arris *r, tw_face seen, tw_sheet *sheet)
{
    tw_size e = tw_face_extent(r->size, seen);
    const char *title = seen == TW_SIDE_LEFT_END ? "Section, from the left end" : tw_format(context->arena,
        "The piece on its %s", tw_face_words[seen]);
    tw_joint_view v = view_of(sheet, title, r->piece->name, (tw_box){ 0.0, 0.0, e.length_mm, e.width_mm });
    tw_view_row(&v, 0.0, e.length_mm, figure(context, "", e.length_mm), tw_size_source(context, r->piece, e.length_mm));
    tw_view_column(&v, 0.0, e.width_mm, figure(context, "", e.width_mm), tw_size_source(context, r->piece, e.width_mm));
    return v;
}

static tw_joint_view one_arris(const tw_joint_context *context, const tw_joint_plan *plan, const tw_arris *r, tw_sheet *sheet)
{
    double s = r->size_mm, reach = 3.0 * s;
    const char *whose = !r->stopped ? "" : tw_format(context->arena, "from %s to %s from the left end", tw_bare_fine(context,
        r->from_mm), tw_bare_fine(context, r->to_mm));
    tw_joint_view v = view_of(sheet, r->round ? "One round-over" : "One chamfer, 45 degrees", whose, (tw_box){ 0.0, 0.0, reach,
        reach });
    tw_view_row(&v, reach - s, reach, figure(context, r->round ? "radius" : "", s),
        tw_figure_source(context, plan, r->round ? "radius" : "width", s));
    tw_view_column(&v, reach - s, reach, figure(context, r->round ? "radius" : "", s),
        tw_figure_source(context, plan, r->round ? "radius" : "width", s));
    return v;
}

static void draw_one(const tw_joint_view *v, const tw_arris *r)
{
    static const bool off[4] = { false, false, true, false };
    double reach = v->reach.x1, s = r->size_mm;
    tw_outline left = tw_profile_corners_off(v->sheet->arena, reach, reach, off, s, r->round);
    tw_draw_hatch(v->sheet, placed(v, left), HATCH_MM, HATCH_RAD);
    draw_blank(v, reach, reach);
    tw_view_line(v, TW_ROLE_CUT, 0.0, reach, reach - s, reach);
    tw_view_line(v, TW_ROLE_CUT, reach, 0.0, reach, reach - s);
    if (!r->round) { tw_view_line(v, TW_ROLE_CUT, reach - s, reach, reach, reach - s); return; }
    tw_point centre = tw_view_at(v, reach - s, reach - s);
    tw_draw_arc(v->sheet, TW_ROLE_CUT, centre.x, centre.y, s * v->scale, 0.0, TW_PI / 2.0);
}

const char *tw_arris_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_arris *r = plan->own;
    if (!r) return tw_view_none(sheet, room);
    tw_joint_view views[2] = { seen_whole(context, r, plan->shapes[0].face, sheet), one_arris(context, plan, r, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_blank(&views[0], views[0].reach.x1, views[0].reach.y1);
    if (plan->shapes[0].face == TW_SIDE_LEFT_END) draw_section(&views[0], plan->shapes[0].outline);
    else draw_shape(&views[0], plan->shapes[0].outline);
    draw_one(&views[1], r);
    tw_views_measure(views);
    return scale;
}

/* ---- rounded end ---- */

#define SHOWN 1.8  // of the end: so many radii

static tw_joint_view whole_piece(const tw_joint_context *context, const tw_rounded *r, tw_sheet *sheet)
{
    double l = r->size.length_mm, w = r->size.width_mm;
    tw_joint_view v = view_of(sheet, "The piece on its face", r->piece->name, (tw_box){ 0.0, 0.0, l, w });
    tw_view_row(&v, 0.0, l, figure(context, "", l), tw_size_source(context, r->piece, l));
    tw_view_column(&v, 0.0, w, figure(context, "", w), tw_size_source(context, r->piece, w));
    return v;
}

static tw_joint_view one_end(const tw_joint_context *context, const tw_joint_plan *plan, const tw_rounded *r, tw_sheet *sheet)
{
    double shown = SHOWN * r->radius_mm, w = r->size.width_mm, s = r->radius_mm;
    tw_joint_view v = view_of(sheet, r->right ? "The right end" : "The left end, seen on the back", "", (tw_box){ 0.0, 0.0,
        shown, w });
    tw_view_row(&v, shown - s, shown, figure(context, "radius", s), tw_figure_source(context, plan, "radius", s));
    if (r->high) tw_view_column(&v, w - s, w, figure(context, "", s), tw_figure_source(context, plan, "radius", s));
    else tw_view_column(&v, 0.0, s, figure(context, "", s), tw_figure_source(context, plan, "radius", s));
    return v;
}

static void draw_end(const tw_joint_view *v, const tw_rounded *r)
{
    double x = v->reach.x1, w = r->size.width_mm, s = r->radius_mm;
    tw_point low = tw_view_at(v, x - s, s), high = tw_view_at(v, x - s, w - s);
    draw_blank(v, x, w);
    if (r->low) tw_draw_arc(v->sheet, TW_ROLE_VISIBLE, low.x, low.y, s * v->scale, -TW_PI / 2.0, TW_PI / 2.0);
    if (r->high) tw_draw_arc(v->sheet, TW_ROLE_VISIBLE, high.x, high.y, s * v->scale, 0.0, TW_PI / 2.0);
    tw_view_line(v, TW_ROLE_VISIBLE, 0.0, 0.0, r->low ? x - s : x, 0.0);
    tw_view_line(v, TW_ROLE_VISIBLE, 0.0, w, r->high ? x - s : x, w);
    if (w - (r->low ? s : 0.0) - (r->high ? s : 0.0) > 1e-9) tw_view_line(v, TW_ROLE_VISIBLE, x, r->low ? s : 0.0, x, r->high
        ? w - s : w);
}

const char *tw_rounded_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_rounded *r = plan->own;
    if (!r) return tw_view_none(sheet, room);
    tw_joint_view views[2] = { whole_piece(context, r, sheet), one_end(context, plan, r, sheet) };
    const char *scale = tw_views_stack(views, context->arena, room);
    draw_blank(&views[0], r->size.length_mm, r->size.width_mm);
    draw_shape(&views[0], plan->shapes[0].outline);
    draw_end(&views[1], r);
    tw_views_measure(views);
    return scale;
}
