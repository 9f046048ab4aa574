// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks, drawn: the joint from the cheek with the mortised piece in section (u right, v up); below it the section
 * through the tenon's middle, seen from the head's edge; beside the one or the other the tusk seen along the tenon. One
 * scale for all.
 *
 * A figure that does not go between its arrows stands beyond them, to the right or above, and figures in fractions may be
 * long. So each dimension has a place of its own, whatever its figure's length:
 *
 *         |<-k+->| 13.1                    columns to the right: head, reserve, tenon width, tip, the nearer ones higher,
 *   wall  |  /:  :  :                      so that no extension line passes a figure
 *   ======| / :==:==: w                    under all: rows, the longer one first
 *      T  |/   p    : tip
 *
 * The largest scale at which all of it goes into the room is taken. */
#include "joint/forked_tusks.h"

#include <math.h>

#define TEXT_MM 2.5
#define ROW_MM 7.0        // between dimension lines
#define ARROWS_MM 6.0     // that arrows from outside take beyond a dimension
#define BODY_MM 12.0      // on paper: of the tenoned piece behind its shoulder
#define WALL_MM 6.0       // on paper: of the mortised piece beside the tusk in the lower section
#define OVER_MM 2.0       // on paper: of centre lines beyond what they halve
#define AIR_MM 1.5        // on paper: between a figure and a line

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

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_length_bare(context->arena, length_mm, context->job->figures); }
static double wide(const char *text) { return tw_text_width(TEXT_MM, false, text); }

/* Between two points, off_mm below them (above: negative). */
static void level(const tw_joint_context *context, const tw_view *view, tw_point a, tw_point b, double below_mm, double length_mm)
{
    tw_draw_dimension(view->sheet, at(view, a.x, a.y), at(view, b.x, b.y), 0.0, -below_mm, TEXT_MM, bare(context, length_mm));
}

/* Between two heights beside x, in a column of the paper. */
static void upright(const tw_joint_context *context, const tw_view *view, double x, double low, double high, double column, double length_mm)
{
    tw_point from = at(view, x, low);
    tw_draw_dimension(view->sheet, from, at(view, x, high), TW_PI / 2.0, from.x - column, TEXT_MM, bare(context, length_mm));
}

/* A level dimension inside the tenon: its figure stands between the arrows, else right of the tenon's end. */
static void inside(const tw_joint_context *context, const tw_view *view, tw_point a, tw_point b, double below_mm, double length_mm, double end)
{
    const char *figure = bare(context, length_mm);
    bool fits = (b.x - a.x) * view->scale >= wide(figure) + TEXT_MM;
    tw_point from = at(view, a.x, a.y);
    tw_draw_dimension(view->sheet, from, at(view, b.x, b.y), 0.0, -below_mm, TEXT_MM, fits ? figure : "");
    if (!fits) tw_draw_text(view->sheet, at(view, end, 0.0).x, from.y - below_mm + 0.4 * TEXT_MM, TEXT_MM, TW_ANCHOR_LEFT, figure);
}

/* ---- what the layout is made from ---- */

/* Heights and widths in the joint's own mm, places on paper from the joint's u = 0. */
typedef struct extent {
    double half, top, low, wall_low, wall_high, right, tip_right, relish_from;  // joint's mm
    bool   angle_beside;                  // the angle stands beside the head; else with the tusk's thickness
    double k_text, relish_text;           // paper, from u = 0: where these figures stand
    double columns, section_column;       // paper, from u = 0: first column of each view
    double tusk_column;                   // paper, from the tusk's right side
} extent;

static const char *head_words(const tw_joint_context *context, const tw_forked *f, const extent *e)
{
    const char *thick = bare(context, f->stick_thickness);
    return e->angle_beside ? thick : tw_format(context->arena, "%s, %s", thick, tw_angle_text(context->arena, f->alpha));
}

static const char *leg_words(const tw_joint_context *context, const tw_forked *f) { return tw_format(context->arena, "leg %s", bare(context, f->bearing + f->m)); }
static const char *web_words(const tw_joint_context *context, const tw_forked *f) { return tw_format(context->arena, "web %s", bare(context, f->q)); }

static extent extent_of(const tw_joint_context *context, const tw_forked *f, double s)
{
    double lean = tan(f->alpha), half = f->w / 2.0;
    extent e = { .half = half, .top = half + f->z + f->head, .low = half + f->tip };
    e.wall_low = tw_max(e.low + f->z, f->tenon_size.width_mm / 2.0);
    e.wall_high = tw_max(e.top * 0.8, half + WALL_MM / s);
    e.right = f->k + e.top * lean;
    e.tip_right = f->k - e.low * lean;
    e.relish_from = f->k + half * lean;
    e.angle_beside = f->head * s >= TEXT_MM + 2.0 * AIR_MM;
    double end = f->p * s, relish = (f->p - f->chamfer - e.relish_from) * s;
    const char *k = bare(context, f->k), *r = bare(context, f->relish);
    bool k_inside = end - f->k * s >= ARROWS_MM + wide(k) + 2.0 * AIR_MM, relish_inside = relish >= wide(r) + TEXT_MM;
    e.k_text = k_inside ? f->k * s + ARROWS_MM : end + AIR_MM;
    e.relish_text = end + AIR_MM;
    e.columns = tw_max(end, e.right * s + ARROWS_MM + wide(head_words(context, f, &e)) + 2.0 * AIR_MM);
    if (!k_inside) e.columns = tw_max(e.columns, e.k_text + wide(k));
    if (!relish_inside) e.columns = tw_max(e.columns, e.relish_text + wide(r));
    e.columns += ROW_MM;
    double words = tw_max(wide(leg_words(context, f)), wide(web_words(context, f)));
    const char *over_legs = bare(context, f->tusk_width);
    e.tusk_column = f->tusk_width * s >= wide(over_legs) + TEXT_MM ? ROW_MM : ARROWS_MM + wide(over_legs) + 2.0 * AIR_MM;
    e.section_column = tw_max(end, f->k * s + ROW_MM + words + TEXT_MM + AIR_MM) + ROW_MM;
    return e;
}

/* ---- the joint from the cheek ---- */

static void draw_cheek_view(const tw_view *view, const tw_forked *f, const extent *e)
{
    double half = e->half, body = f->tenon_size.width_mm / 2.0, behind = -f->T - BODY_MM / view->scale, over = OVER_MM / view->scale;
    hatched(view, -f->T, half, 0.0, e->wall_high, TW_PI / 4.0);
    hatched(view, -f->T, -e->wall_low, 0.0, -half, TW_PI / 4.0);
    const tw_point tenon[] = { { -f->T, -body }, { -f->T, -half }, { f->p - f->chamfer, -half }, { f->p, -half + f->chamfer }, { f->p, half - f->chamfer },
                               { f->p - f->chamfer, half }, { -f->T, half }, { -f->T, body } };
    for (int i = 0; i + 1 < (int)(sizeof tenon / sizeof *tenon); i++) line(view, TW_ROLE_VISIBLE, tenon[i].x, tenon[i].y, tenon[i + 1].x, tenon[i + 1].y);
    line(view, TW_ROLE_VISIBLE, -f->T, body, behind, body);
    line(view, TW_ROLE_VISIBLE, -f->T, -body, behind, -body);
    line(view, TW_ROLE_FAINT, behind, -body, behind, body);
    line(view, TW_ROLE_HIDDEN, -f->c, -half, -f->c, half);
    line(view, TW_ROLE_CENTRE, behind - over, 0.0, f->p + over, 0.0);
    const tw_point tusk[] = { { 0.0, -e->low }, { e->tip_right, -e->low }, { e->right, e->top }, { 0.0, e->top } };
    tw_draw_outline(view->sheet, TW_ROLE_VISIBLE, polygon(view, tusk, 4));
    line(view, TW_ROLE_FAINT, 0.0, half + f->z, f->k + (half + f->z) * tan(f->alpha), half + f->z);
}

static void measure_cheek_view(const tw_joint_context *context, const tw_view *view, const tw_forked *f, const extent *e)
{
    tw_arena *arena = context->arena;
    double half = e->half, s = view->scale, first = view->x + e->columns, under = (e->wall_low - half) * s + ROW_MM;
    tw_draw_dimension(view->sheet, at(view, 0.0, e->top), at(view, e->right, e->top), 0.0, ROW_MM, TEXT_MM, head_words(context, f, e));
    upright(context, view, e->right, half + f->z, e->top, first, f->head);
    upright(context, view, e->right, half, half + f->z, first + ROW_MM, f->z);
    upright(context, view, f->p, -half, half, first + 2.0 * ROW_MM, f->w);
    upright(context, view, e->tip_right, -e->low, -half, first + 3.0 * ROW_MM, f->tip);
    level(context, view, (tw_point){ 0.0, -half }, (tw_point){ f->p, -half }, under, f->p);
    level(context, view, (tw_point){ -f->T, -e->wall_low }, (tw_point){ 0.0, -e->wall_low }, 2.0 * ROW_MM, f->T);
    inside(context, view, (tw_point){ e->relish_from, half }, (tw_point){ f->p - f->chamfer, half }, tw_min(0.8 * ROW_MM, half * s - 0.5), f->relish, e->relish_text / s);
    double quarter = tw_max(half * s / 2.0, TEXT_MM + 2.0 * AIR_MM);
    tw_draw_dimension(view->sheet, at(view, 0.0, 0.0), at(view, f->k, 0.0), 0.0, -quarter, TEXT_MM, "");
    tw_draw_text(view->sheet, view->x + e->k_text, view->y - quarter + 0.4 * TEXT_MM, TEXT_MM, TW_ANCHOR_LEFT, bare(context, f->k));
    tw_point knee = { view->x - tw_max(f->T * 0.6 * s, ARROWS_MM + AIR_MM), at(view, 0.0, tw_max(e->wall_high, f->tenon_size.width_mm / 2.0)).y + 4.0 };
    tw_draw_leader(view->sheet, at(view, -f->c, half * 0.5), knee, TEXT_MM, tw_format(arena, "wall %s inside", bare(context, f->c)));
    if (!e->angle_beside) return;
    tw_point head = at(view, e->right, half + f->z + f->head / 2.0);
    tw_draw_text(view->sheet, head.x + AIR_MM, head.y - TEXT_MM / 2.0, TEXT_MM, TW_ANCHOR_LEFT, tw_angle_text(arena, f->alpha));
}

/* ---- the section through the tenon's middle ---- */

static double section_half(const tw_forked *f, double s) { return f->t / 2.0 + f->m + WALL_MM / s; }

static void draw_section(const tw_joint_context *context, const tw_view *view, const tw_forked *f, const extent *e)
{
    double half = f->t / 2.0, mortise = half + f->clearance / 2.0, body = f->tenon_size.thickness_mm / 2.0, web = f->q / 2.0, s = view->scale;
    double wall = section_half(f, s), behind = -f->T - BODY_MM / s, over = OVER_MM / s;
    hatched(view, -f->T, mortise, 0.0, wall, TW_PI / 4.0);
    hatched(view, -f->T, -wall, 0.0, -mortise, TW_PI / 4.0);
    for (int side = -1; side <= 1; side += 2) {
        const tw_point contour[] = { { behind, body }, { -f->T, body }, { -f->T, half }, { -f->c, half }, { -f->c, web }, { f->k, web }, { f->k, half },
                                     { f->p - f->chamfer, half }, { f->p, half - f->chamfer } };
        for (int i = 0; i + 1 < (int)(sizeof contour / sizeof *contour); i++)
            line(view, TW_ROLE_CUT, contour[i].x, side * contour[i].y, contour[i + 1].x, side * contour[i + 1].y);
        double inner = f->slot / 2.0, outer = half + f->m;
        hatched(view, 0.0, side > 0 ? inner : -outer, f->k, side > 0 ? outer : -inner, -TW_PI / 4.0);
    }
    line(view, TW_ROLE_CUT, f->p, -half + f->chamfer, f->p, half - f->chamfer);
    line(view, TW_ROLE_FAINT, behind, -body, behind, body);
    line(view, TW_ROLE_CENTRE, behind - over, 0.0, f->p + over, 0.0);
    upright(context, view, f->p, -half, half, view->x + e->section_column, f->t);
    upright(context, view, behind, -body, body, at(view, behind, 0.0).x - ROW_MM, f->tenon_size.thickness_mm);
    tw_point web_knee = at(view, f->k, -half - f->m), leg_knee = at(view, f->k, half + f->m);
    web_knee.x += ROW_MM, web_knee.y -= 5.0;
    leg_knee.x += ROW_MM, leg_knee.y += 2.0;
    tw_draw_leader(view->sheet, at(view, f->k * 0.8, -web * 0.4), web_knee, TEXT_MM, web_words(context, f));
    tw_draw_leader(view->sheet, at(view, f->k * 0.8, half + f->m * 0.6), leg_knee, TEXT_MM, leg_words(context, f));
}

/* ---- the tusk ---- */

static void draw_tusk(const tw_joint_context *context, const tw_view *view, const tw_forked *f, const extent *e)
{
    double low = e->low, top = e->top, half = f->tusk_width / 2.0, slot = f->slot / 2.0, end = -low + f->slot_length - slot, over = OVER_MM / view->scale;
    line(view, TW_ROLE_VISIBLE, -half, -low, -half, top);
    line(view, TW_ROLE_VISIBLE, half, -low, half, top);
    line(view, TW_ROLE_VISIBLE, -half, top, half, top);
    line(view, TW_ROLE_VISIBLE, -half, -low, -slot, -low);
    line(view, TW_ROLE_VISIBLE, slot, -low, half, -low);
    line(view, TW_ROLE_VISIBLE, -slot, -low, -slot, end);
    line(view, TW_ROLE_VISIBLE, slot, -low, slot, end);
    tw_point centre = at(view, 0.0, end);
    tw_draw_arc(view->sheet, TW_ROLE_VISIBLE, centre.x, centre.y, slot * view->scale, 0.0, TW_PI);
    line(view, TW_ROLE_CENTRE, 0.0, -low - over, 0.0, top + over);
    double column = at(view, half, 0.0).x + e->tusk_column;
    level(context, view, (tw_point){ -half, top }, (tw_point){ half, top }, -ROW_MM, f->tusk_width);
    level(context, view, (tw_point){ -slot, -low }, (tw_point){ slot, -low }, ROW_MM, f->slot);
    upright(context, view, half, -low, -low + f->slot_length, column, f->slot_length);
    upright(context, view, half, -low, top, column + ROW_MM, f->tusk_length);
}

/* ---- layout ---- */

static const struct { double factor; const char *text; } scales[] = { { 2.0, "2:1" }, { 1.0, "1:1" }, { 0.5, "1:2" }, { 0.2, "1:5" }, { 0.1, "1:10" }, { 0.05, "1:20" } };

#define LEFT_MM (ROW_MM + 2.0)  // of the piece: its thickness

/* Where the views stand, from the room's upper left corner; y downward. */
typedef struct layout { double u0, cheek, section, tusk_x, tusk_y, width, height; } layout;

static layout lay_out(const tw_forked *f, const extent *e, double s, bool beside_cheek)
{
    layout l = { .u0 = LEFT_MM + BODY_MM + f->T * s };
    l.cheek = tw_max(e->top * s + ROW_MM, tw_max(e->wall_high, f->tenon_size.width_mm / 2.0) * s + 4.0) + TEXT_MM + AIR_MM;
    double lower = l.cheek + e->wall_low * s + 2.0 * ROW_MM + OVER_MM;  // below the rows
    double section = tw_max(section_half(f, s), f->tenon_size.thickness_mm / 2.0) * s;
    l.section = lower + ROW_MM + section;
    double left = beside_cheek ? e->columns + 3.0 * ROW_MM : e->section_column;
    l.tusk_x = l.u0 + left + ROW_MM + f->tusk_width / 2.0 * s;
    l.tusk_y = beside_cheek ? l.cheek : lower + 2.0 * ROW_MM + e->top * s;
    l.width = tw_max(l.u0 + e->columns + 3.0 * ROW_MM + OVER_MM, l.tusk_x + f->tusk_width / 2.0 * s + e->tusk_column + ROW_MM + OVER_MM);
    l.height = tw_max(l.section + section, l.tusk_y + e->low * s + ROW_MM) + OVER_MM;
    return l;
}

const char *tw_forked_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_forked *f = plan->own;
    if (!f || f->tusk_length <= 0.0 || f->tip_thickness <= 0.0) {
        tw_draw_paragraph(sheet, room.x0 + 5.0, room.y1 - 10.0, room.x1 - room.x0 - 10.0, TEXT_MM, false, "No drawing: the findings say why this joint cannot be made.");
        return "not to scale";
    }
    size_t i = 0, count = sizeof scales / sizeof *scales;
    extent e;
    layout l;
    for (bool fits = false; ; i++) {
        e = extent_of(context, f, scales[i].factor);
        for (int beside = 1; beside >= 0 && !fits; beside--) {
            l = lay_out(f, &e, scales[i].factor, beside);
            fits = l.width <= room.x1 - room.x0 && l.height <= room.y1 - room.y0;
        }
        if (fits || i + 1 == count) break;
    }
    tw_view cheek = { sheet, room.x0 + l.u0, room.y1 - l.cheek, scales[i].factor };
    draw_cheek_view(&cheek, f, &e);
    measure_cheek_view(context, &cheek, f, &e);
    tw_view section = { sheet, cheek.x, room.y1 - l.section, cheek.scale };
    draw_section(context, &section, f, &e);
    tw_view tusk = { sheet, room.x0 + l.tusk_x, room.y1 - l.tusk_y, cheek.scale };
    draw_tusk(context, &tusk, f, &e);
    return scales[i].text;
}
