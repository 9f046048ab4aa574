// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks, drawn: the joint from the cheek with the mortised piece in section (u right, v up); below it the section
 * through the tenon's middle, seen from the head's edge; beside it the tusk seen along the tenon. One scale for all. */
#include "joint/forked_tusks.h"

#include <math.h>

#define TEXT_MM 2.5
#define ROW_MM 7.0       // between dimension lines
#define BODY_MM 30.0     // of the tenoned piece that is shown behind its shoulder
#define WALL_MM 12.0     // of the mortised piece that is shown beside the tusk in the lower section

typedef struct tw_view { tw_sheet *sheet; double x, y, scale; } tw_view;

static tw_point at(const tw_view *view, double a, double b) { return (tw_point){ view->x + a * view->scale, view->y + b * view->scale }; }

static void line(const tw_view *view, tw_role role, double a0, double b0, double a1, double b1)
{
    tw_point from = at(view, a0, b0), to = at(view, a1, b1);
    tw_draw_line(view->sheet, role, from.x, from.y, to.x, to.y);
}

static tw_outline polygon(const tw_view *view, const tw_point *points, int count)
{
    tw_vertex *vertices = TW_NEW_ARRAY(view->sheet->arena, tw_vertex, (size_t)count);
    for (int i = 0; i < count; i++) {
        tw_point p = at(view, points[i].x, points[i].y);
        vertices[i] = (tw_vertex){ p.x, p.y, 0.0 };
    }
    return tw_outline_of_loop(view->sheet->arena, vertices, count);
}

static void hatched(const tw_view *view, double a0, double b0, double a1, double b1, double angle_rad)
{
    const tw_point corners[] = { { a0, b0 }, { a1, b0 }, { a1, b1 }, { a0, b1 } };
    tw_outline box = polygon(view, corners, 4);
    tw_draw_hatch(view->sheet, box, 2.0, angle_rad);
    tw_draw_outline(view->sheet, TW_ROLE_CUT, box);
}

static void dimension(const tw_joint_context *context, const tw_view *view, tw_point a, tw_point b, bool upright, double off_mm, const char *word, double length_mm)
{
    const char *figure = tw_length_bare(context->arena, length_mm, context->job->figures);
    tw_draw_dimension(view->sheet, at(view, a.x, a.y), at(view, b.x, b.y), upright ? TW_PI / 2.0 : 0.0, off_mm, TEXT_MM,
        word[0] ? tw_format(context->arena, "%s %s", word, figure) : figure);
}

/* ---- the joint from the cheek ---- */

static void draw_cheek_view(const tw_joint_context *context, const tw_view *view, const tw_forked *f)
{
    double half = f->w / 2.0, body = f->tenon_size.width_mm / 2.0, lean = tan(f->alpha);
    double top = half + f->z + f->head, low = half + f->tip, wall_top = top * 0.8, wall_low = low + f->z;
    hatched(view, -f->T, half, 0.0, wall_top, TW_PI / 4.0);
    hatched(view, -f->T, -wall_low, 0.0, -half, TW_PI / 4.0);
    const tw_point tenon[] = { { -f->T, -body }, { -f->T, -half }, { f->p - f->chamfer, -half }, { f->p, -half + f->chamfer }, { f->p, half - f->chamfer },
                               { f->p - f->chamfer, half }, { -f->T, half }, { -f->T, body } };
    for (int i = 0; i + 1 < (int)(sizeof tenon / sizeof *tenon); i++) line(view, TW_ROLE_VISIBLE, tenon[i].x, tenon[i].y, tenon[i + 1].x, tenon[i + 1].y);
    line(view, TW_ROLE_VISIBLE, -f->T, body, -f->T - BODY_MM, body);
    line(view, TW_ROLE_VISIBLE, -f->T, -body, -f->T - BODY_MM, -body);
    line(view, TW_ROLE_FAINT, -f->T - BODY_MM, -body, -f->T - BODY_MM, body);
    line(view, TW_ROLE_HIDDEN, -f->c, -half, -f->c, half);
    line(view, TW_ROLE_CENTRE, -f->T - BODY_MM - 4.0, 0.0, f->p + 6.0, 0.0);
    const tw_point tusk[] = { { 0.0, -low }, { f->k - low * lean, -low }, { f->k + top * lean, top }, { 0.0, top } };
    tw_draw_outline(view->sheet, TW_ROLE_VISIBLE, polygon(view, tusk, 4));
    line(view, TW_ROLE_FAINT, 0.0, half + f->z, f->k + (half + f->z) * lean, half + f->z);
    (void)context;
}

static void measure_cheek_view(const tw_joint_context *context, const tw_view *view, const tw_forked *f)
{
    double half = f->w / 2.0, lean = tan(f->alpha), top = half + f->z + f->head, low = half + f->tip, wall_low = low + f->z;
    double under = -wall_low;
    double below_mm = (-half - under) * view->scale;
    dimension(context, view, (tw_point){ 0.0, -half }, (tw_point){ f->p, -half }, false, -below_mm - ROW_MM, "", f->p);
    dimension(context, view, (tw_point){ -f->T, under }, (tw_point){ 0.0, under }, false, -ROW_MM, "", f->T);
    dimension(context, view, (tw_point){ f->p, -half }, (tw_point){ f->p, half }, true, -ROW_MM, "", f->w);
    double right = f->k + top * lean, column = (f->p - right) * view->scale + 2.0 * ROW_MM;
    dimension(context, view, (tw_point){ right, half + f->z }, (tw_point){ right, top }, true, -column, "", f->head);
    dimension(context, view, (tw_point){ right, half }, (tw_point){ right, half + f->z }, true, -(column + ROW_MM), "", f->z);
    double tip_right = f->k - low * lean;
    dimension(context, view, (tw_point){ tip_right, -half }, (tw_point){ tip_right, -low }, true, -((f->p - tip_right) * view->scale + 2.0 * ROW_MM), "", f->tip);
    dimension(context, view, (tw_point){ 0.0, top }, (tw_point){ f->k + top * lean, top }, false, ROW_MM, "", f->stick_thickness);
    double relish_from = f->k + half * lean;
    dimension(context, view, (tw_point){ relish_from, half }, (tw_point){ f->p - f->chamfer, half }, false, half * view->scale > 8.0 ? -0.8 * ROW_MM : 0.8 * ROW_MM, "", f->relish);
    tw_point knee = at(view, -f->T * 0.6, tw_max(top * 0.8, f->tenon_size.width_mm / 2.0));
    knee.y += 4.0;
    tw_draw_leader(view->sheet, at(view, -f->c, half * 0.5), knee, TEXT_MM, tw_format(context->arena, "wall %s inside", tw_length_bare(context->arena, f->c, context->job->figures)));
    tw_point thick = at(view, f->k, 0.0);
    thick.x += 4.0;
    thick.y -= 5.0;
    tw_draw_leader(view->sheet, at(view, f->k * 0.6, 0.0), thick, TEXT_MM, tw_length_bare(context->arena, f->k, context->job->figures));
    tw_draw_text(view->sheet, at(view, right, top).x + 2.0, at(view, right, top).y + 1.0, TEXT_MM, TW_ANCHOR_LEFT, tw_angle_text(context->arena, f->alpha));
}

/* ---- the section through the tenon's middle ---- */

static void draw_section(const tw_joint_context *context, const tw_view *view, const tw_forked *f)
{
    double half = f->t / 2.0, mortise = half + f->clearance / 2.0, body = f->tenon_size.thickness_mm / 2.0, web = f->q / 2.0, wall = half + f->m + WALL_MM;
    hatched(view, -f->T, mortise, 0.0, wall, TW_PI / 4.0);
    hatched(view, -f->T, -wall, 0.0, -mortise, TW_PI / 4.0);
    for (int side = -1; side <= 1; side += 2) {
        const tw_point contour[] = { { -f->T - BODY_MM, body }, { -f->T, body }, { -f->T, half }, { -f->c, half }, { -f->c, web }, { f->k, web }, { f->k, half },
                                     { f->p - f->chamfer, half }, { f->p, half - f->chamfer } };
        for (int i = 0; i + 1 < (int)(sizeof contour / sizeof *contour); i++)
            line(view, TW_ROLE_CUT, contour[i].x, side * contour[i].y, contour[i + 1].x, side * contour[i + 1].y);
        double inner = f->slot / 2.0, outer = half + f->m;
        hatched(view, 0.0, side > 0 ? inner : -outer, f->k, side > 0 ? outer : -inner, -TW_PI / 4.0);
    }
    line(view, TW_ROLE_CUT, f->p, -half + f->chamfer, f->p, half - f->chamfer);
    line(view, TW_ROLE_FAINT, -f->T - BODY_MM, -body, -f->T - BODY_MM, body);
    line(view, TW_ROLE_CENTRE, -f->T - BODY_MM - 4.0, 0.0, f->p + 6.0, 0.0);
    dimension(context, view, (tw_point){ f->p, -half }, (tw_point){ f->p, half }, true, -2.0 * ROW_MM, "", f->t);
    dimension(context, view, (tw_point){ -f->T - BODY_MM, -body }, (tw_point){ -f->T - BODY_MM, body }, true, ROW_MM, "", f->tenon_size.thickness_mm);
    tw_point web_knee = at(view, f->k + 8.0, -half - f->m);
    web_knee.y -= 4.0;
    tw_draw_leader(view->sheet, at(view, f->k * 0.8, -web * 0.4), web_knee, TEXT_MM, tw_format(context->arena, "web %s", tw_length_bare(context->arena, f->q, context->job->figures)));
    tw_point leg_knee = at(view, f->k + 8.0, half + f->m);
    leg_knee.y += 3.0;
    tw_draw_leader(view->sheet, at(view, f->k * 0.8, half + f->m * 0.6), leg_knee, TEXT_MM,
        tw_format(context->arena, "leg %s", tw_length_bare(context->arena, f->bearing + f->m, context->job->figures)));
}

/* ---- the tusk ---- */

static void draw_tusk(const tw_joint_context *context, const tw_view *view, const tw_forked *f)
{
    double low = f->w / 2.0 + f->tip, top = f->w / 2.0 + f->z + f->head, half = f->tusk_width / 2.0, slot = f->slot / 2.0, end = -low + f->slot_length - slot;
    line(view, TW_ROLE_VISIBLE, -half, -low, -half, top);
    line(view, TW_ROLE_VISIBLE, half, -low, half, top);
    line(view, TW_ROLE_VISIBLE, -half, top, half, top);
    line(view, TW_ROLE_VISIBLE, -half, -low, -slot, -low);
    line(view, TW_ROLE_VISIBLE, slot, -low, half, -low);
    line(view, TW_ROLE_VISIBLE, -slot, -low, -slot, end);
    line(view, TW_ROLE_VISIBLE, slot, -low, slot, end);
    tw_point centre = at(view, 0.0, end);
    tw_draw_arc(view->sheet, TW_ROLE_VISIBLE, centre.x, centre.y, slot * view->scale, 0.0, TW_PI);
    line(view, TW_ROLE_CENTRE, 0.0, -low - 4.0, 0.0, top + 4.0);
    dimension(context, view, (tw_point){ -half, top }, (tw_point){ half, top }, false, ROW_MM, "", f->tusk_width);
    dimension(context, view, (tw_point){ -slot, -low }, (tw_point){ slot, -low }, false, -ROW_MM, "", f->slot);
    dimension(context, view, (tw_point){ half, -low }, (tw_point){ half, top }, true, -2.2 * ROW_MM, "", f->tusk_length);
    dimension(context, view, (tw_point){ half, -low }, (tw_point){ half, -low + f->slot_length }, true, -ROW_MM, "", f->slot_length);
}

/* ---- layout ---- */

static const struct { double factor; const char *text; } scales[] = { { 2.0, "2:1" }, { 1.0, "1:1" }, { 0.5, "1:2" }, { 0.2, "1:5" }, { 0.1, "1:10" }, { 0.05, "1:20" } };

const char *tw_forked_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_forked *f = plan->own;
    if (!f || f->tusk_length <= 0.0 || f->tip_thickness <= 0.0) {
        tw_draw_paragraph(sheet, room.x0 + 5.0, room.y1 - 10.0, room.x1 - room.x0 - 10.0, TEXT_MM, false, "No drawing: the findings say why this joint cannot be made.");
        return "not to scale";
    }
    double low = f->w / 2.0 + f->tip + f->z, top = f->w / 2.0 + f->z + f->head;
    top = tw_max(top, f->tenon_size.width_mm / 2.0);
    low = tw_max(low, f->tenon_size.width_mm / 2.0);
    double section = 2.0 * (f->t / 2.0 + f->m + WALL_MM), long_mm = f->T + BODY_MM + f->p;
    double margin_x = 12.0 + 5.0 * ROW_MM + 4.0 + 4.0 * ROW_MM, margin_y = 6.0 * ROW_MM;
    size_t i = 0;
    while (i + 1 < sizeof scales / sizeof *scales &&
           ((long_mm + f->tusk_width) * scales[i].factor + margin_x > room.x1 - room.x0 || (low + top + section) * scales[i].factor + margin_y > room.y1 - room.y0)) i++;
    double s = scales[i].factor;
    double x = room.x0 + 12.0 + (f->T + BODY_MM) * s, y = room.y1 - 2.0 * ROW_MM - top * s;
    tw_view cheek = { sheet, x, y, s };
    draw_cheek_view(context, &cheek, f);
    measure_cheek_view(context, &cheek, f);
    tw_view section_view = { sheet, x, y - low * s - 3.0 * ROW_MM - section / 2.0 * s, s };
    draw_section(context, &section_view, f);
    tw_view tusk = { sheet, x + f->p * s + 5.0 * ROW_MM + 4.0 + f->tusk_width / 2.0 * s, y, s };
    draw_tusk(context, &tusk, f);
    return scales[i].text;
}
