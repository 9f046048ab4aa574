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

#include "draw/rows.h"
#include "joint/views.h"

#define TEXT_MM 2.5
#define ROW_MM 7.0        // between dimension lines
#define ARROWS_MM 6.0     // that arrows from outside take beyond a dimension
#define BODY_MM 12.0      // on paper: of the tenoned piece behind its shoulder
#define NARROW_BODY_MM 5.0
#define WALL_MM 6.0       // on paper: of the mortised piece beside the tusk in the lower section
#define OVER_MM 2.0       // on paper: of centre lines beyond what they halve
#define AIR_MM 1.5        // on paper: between a figure and a line

typedef struct tw_view { tw_sheet *sheet; double x, y, scale; } tw_view;

typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_forked *f; bool narrow; } drawing;

static tw_source of(const drawing *d, const char *key, double shown) { return tw_figure_source(d->context, d->plan, key, shown); }
static double body_mm(const drawing *d) { return d->narrow ? NARROW_BODY_MM : BODY_MM; }
static tw_source size(const drawing *d, const tw_piece *piece, double shown_mm)
{
    return tw_size_source(d->context, piece, shown_mm);
}

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
static void level(const drawing *d, const tw_view *view, tw_point a, tw_point b, double below_mm, double length_mm,
    tw_source source)
{
    tw_draw_source(view->sheet, source);
    tw_draw_dimension(view->sheet, at(view, a.x, a.y), at(view, b.x, b.y), 0.0, -below_mm, TEXT_MM, bare(d->context, length_mm));
}

/* Between two heights beside x, in a column of the paper. */
static void upright(const drawing *d, const tw_view *view, double x, double low, double high, double column, double length_mm,
    tw_source source)
{
    tw_draw_source(view->sheet, source);
    tw_point from = at(view, x, low);
    tw_draw_dimension(view->sheet, from, at(view, x, high), TW_PI / 2.0, from.x - column, TEXT_MM, bare(d->context, length_mm));
}

/* A level dimension inside the tenon: its figure stands between the arrows, else right of the tenon's end. */
static void inside(const drawing *d, const tw_view *view, tw_point a, tw_point b, double below_mm, double length_mm, double end,
    tw_source source)
{
    tw_draw_source(view->sheet, source);
    const char *figure = bare(d->context, length_mm);
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
static const char *wall_words(const drawing *d)
{
    return tw_format(d->context->arena, d->narrow ? "wall %s" : "wall %s inside", bare(d->context, d->f->c));
}
// from u = 0, on paper
static double wall_knee(const tw_forked *f, double s) { return tw_max(f->T * 0.6 * s, ARROWS_MM + AIR_MM); }
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

static void draw_cheek_view(const drawing *d, const tw_view *view, const extent *e)
{
    const tw_forked *f = d->f;
    double half = e->half, body = f->tenon_size.width_mm / 2.0, behind = -f->T - body_mm(d) / view->scale,
        over = OVER_MM / view->scale;
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

/* In a narrow room the columns right of the tenon share their places where they do not meet. */
static tw_rows columns_of(const drawing *d, tw_arena *arena, const extent *e, double s, double x, double y)
{
    const tw_forked *f = d->f;
    double half = e->half;
    tw_rows rows = { .arena = arena, .side = TW_ROWS_RIGHT, .size_mm = TEXT_MM, .border = x + e->columns - ROW_MM,
        .first_mm = ROW_MM };
    const struct { double low, high, root; const char *key; double mm; } measures[] = {
        { half + f->z, e->top, e->right, "head_proud", f->head }, { half, half + f->z, e->right, "reserve", f->z },
        { -half, half, f->p, "tenon_width", f->w },
        { -e->low, -half, e->tip_right, "tip_proud", f->tip } };
    for (size_t i = 0; i < sizeof measures / sizeof *measures; i++)
        tw_rows_measure_of(&rows, y + measures[i].low * s, y + measures[i].high * s, x + measures[i].root * s,
            x + measures[i].root * s, bare(d->context, measures[i].mm),
                           of(d, measures[i].key, measures[i].mm));
    tw_rows_place(&rows);
    return rows;
}

/* Each column in a place of its own, the nearer ones higher. */
static void measure_columns(const drawing *d, const tw_view *view, const extent *e)
{
    const tw_forked *f = d->f;
    double half = e->half, first = view->x + e->columns;
    if (d->narrow) {
        tw_rows rows = columns_of(d, view->sheet->arena, e, view->scale, view->x, view->y);
        tw_rows_draw(&rows, view->sheet);
        return;
    }
    upright(d, view, e->right, half + f->z, e->top, first, f->head, of(d, "head_proud", f->head));
    upright(d, view, e->right, half, half + f->z, first + ROW_MM, f->z, of(d, "reserve", f->z));
    upright(d, view, f->p, -half, half, first + 2.0 * ROW_MM, f->w, of(d, "tenon_width", f->w));
    upright(d, view, e->tip_right, -e->low, -half, first + 3.0 * ROW_MM, f->tip, of(d, "tip_proud", f->tip));
}

/* Where the tusk crosses the tenon: its thickness there. */
static void measure_tusk_thickness(const drawing *d, const tw_view *view, const extent *e)
{
    const tw_forked *f = d->f;
    double quarter = tw_max(e->half * view->scale / 2.0, TEXT_MM + 2.0 * AIR_MM);
    tw_draw_source(view->sheet, of(d, "tusk_thickness", f->k));
    tw_draw_dimension(view->sheet, at(view, 0.0, 0.0), at(view, f->k, 0.0), 0.0, -quarter, TEXT_MM, "");
    tw_draw_text(view->sheet, view->x + e->k_text, view->y - quarter + 0.4 * TEXT_MM, TEXT_MM, TW_ANCHOR_LEFT,
        bare(d->context, f->k));
}

static void measure_cheek_view(const drawing *d, const tw_view *view, const extent *e)
{
    const tw_forked *f = d->f;
    tw_arena *arena = d->context->arena;
    double half = e->half, s = view->scale, under = (e->wall_low - half) * s + ROW_MM;
    tw_draw_source(view->sheet, e->angle_beside ? of(d, "head_thickness", f->stick_thickness) : of(d, "wedge_angle", f->alpha));
    tw_draw_dimension(view->sheet, at(view, 0.0, e->top), at(view, e->right, e->top), 0.0, ROW_MM, TEXT_MM,
        head_words(d->context, f, e));
    measure_columns(d, view, e);
    level(d, view, (tw_point){ 0.0, -half }, (tw_point){ f->p, -half }, under, f->p, of(d, "beyond", f->p));
    level(d, view, (tw_point){ -f->T, -e->wall_low }, (tw_point){ 0.0, -e->wall_low }, 2.0 * ROW_MM, f->T,
        size(d, f->through, f->T));
    inside(d, view, (tw_point){ e->relish_from, half }, (tw_point){ f->p - f->chamfer, half },
        tw_min(0.8 * ROW_MM, half * s - 0.5), f->relish, e->relish_text / s,
           of(d, "relish", f->relish));
    measure_tusk_thickness(d, view, e);
    tw_point knee = { view->x - wall_knee(f, s), at(view, 0.0, tw_max(e->wall_high, f->tenon_size.width_mm / 2.0)).y + 4.0 };
    tw_draw_source(view->sheet, of(d, "draw_allowance", f->c));
    tw_draw_leader(view->sheet, at(view, -f->c, half * 0.5), knee, TEXT_MM, wall_words(d));
    if (e->angle_beside) {
        tw_point head = at(view, e->right, half + f->z + f->head / 2.0);
        tw_draw_source(view->sheet, of(d, "wedge_angle", f->alpha));
        tw_draw_text(view->sheet, head.x + AIR_MM, head.y - TEXT_MM / 2.0, TEXT_MM, TW_ANCHOR_LEFT,
            tw_angle_text(arena, f->alpha));
    }
    tw_draw_source(view->sheet, (tw_source){ 0 });
}

/* ---- the section through the tenon's middle ---- */

static double section_half(const tw_forked *f, double s) { return f->t / 2.0 + f->m + WALL_MM / s; }

static void draw_section(const drawing *d, const tw_view *view, const extent *e)
{
    const tw_forked *f = d->f;
    double half = f->t / 2.0, mortise = half + f->clearance / 2.0, body = f->tenon_size.thickness_mm / 2.0, web = f->q / 2.0, s = view->scale;
    double wall = section_half(f, s), behind = -f->T - body_mm(d) / s, over = OVER_MM / s;
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
    upright(d, view, f->p, -half, half, view->x + e->section_column, f->t, of(d, "tenon_thickness", f->t));
    upright(d, view, behind, -body, body, at(view, behind, 0.0).x - ROW_MM, f->tenon_size.thickness_mm,
        size(d, f->tenon, f->tenon_size.thickness_mm));
    tw_point web_knee = at(view, f->k, -half - f->m), leg_knee = at(view, f->k, half + f->m);
    web_knee.x += ROW_MM, web_knee.y -= 5.0;
    leg_knee.x += ROW_MM, leg_knee.y += 2.0;
    tw_draw_source(view->sheet, of(d, "web", f->q));
    tw_draw_leader(view->sheet, at(view, f->k * 0.8, -web * 0.4), web_knee, TEXT_MM, web_words(d->context, f));
    tw_draw_source(view->sheet, of(d, "leg_thickness", f->bearing + f->m));
    tw_draw_leader(view->sheet, at(view, f->k * 0.8, half + f->m * 0.6), leg_knee, TEXT_MM, leg_words(d->context, f));
    tw_draw_source(view->sheet, (tw_source){ 0 });
}

/* ---- the tusk ---- */

static void draw_tusk(const drawing *d, const tw_view *view, const extent *e)
{
    const tw_forked *f = d->f;
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
    level(d, view, (tw_point){ -half, top }, (tw_point){ half, top }, -ROW_MM, f->tusk_width, of(d, "tusk_width", f->tusk_width));
    level(d, view, (tw_point){ -slot, -low }, (tw_point){ slot, -low }, ROW_MM, f->slot, of(d, "slot", f->slot));
    upright(d, view, half, -low, -low + f->slot_length, column, f->slot_length, of(d, "slot_length", f->slot_length));
    upright(d, view, half, -low, top, column + ROW_MM, f->tusk_length, of(d, "tusk_length", f->tusk_length));
    tw_draw_source(view->sheet, (tw_source){ 0 });
}

/* ---- layout ---- */

#define LEFT_MM (ROW_MM + 2.0)  // of the piece: its thickness

typedef enum tusk_place { BESIDE_CHEEK, BESIDE_SECTION, BELOW_ALL } tusk_place;

/* Where the views stand, from the room's upper left corner; y downward. */
typedef struct layout { double u0, cheek, section, tusk_x, tusk_y, width, height; } layout;

/* From the first column to the end of the last. */
static double columns_wide(const drawing *d, const extent *e, double s)
{
    if (!d->narrow) return 3.0 * ROW_MM + OVER_MM;
    tw_rows rows = columns_of(d, d->context->arena, e, s, 0.0, 0.0);
    return tw_rows_depth_mm(&rows) - ROW_MM;
}

static layout lay_out(const drawing *d, const extent *e, double s, tusk_place place)
{
    const tw_forked *f = d->f;
    layout l = { .u0 = LEFT_MM + body_mm(d) + f->T * s };
    if (d->narrow) l.u0 = tw_max(l.u0, wall_knee(f, s) + wide(wall_words(d)) + TEXT_MM);
    l.cheek = tw_max(e->top * s + ROW_MM, tw_max(e->wall_high, f->tenon_size.width_mm / 2.0) * s + 4.0) + TEXT_MM + AIR_MM;
    double lower = l.cheek + e->wall_low * s + 2.0 * ROW_MM + OVER_MM;  // below the rows
    double section = tw_max(section_half(f, s), f->tenon_size.thickness_mm / 2.0) * s;
    l.section = lower + ROW_MM + section;
    double left = place == BESIDE_CHEEK ? e->columns + 3.0 * ROW_MM : place == BESIDE_SECTION ? e->section_column : ROW_MM - l.u0;
    l.tusk_x = l.u0 + left + ROW_MM + f->tusk_width / 2.0 * s;
    double above = place == BELOW_ALL ? l.section + section + ROW_MM : lower;
    l.tusk_y = place == BESIDE_CHEEK ? l.cheek : above + 2.0 * ROW_MM + e->top * s;
    l.width = tw_max(l.u0 + e->columns + columns_wide(d, e, s),
        l.tusk_x + f->tusk_width / 2.0 * s + e->tusk_column + ROW_MM + OVER_MM);
    l.height = tw_max(l.section + section, l.tusk_y + e->low * s + ROW_MM) + OVER_MM;
    return l;
}

const char *tw_forked_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_forked *f = plan->own;
    if (!f || f->tusk_length <= 0.0 || f->tip_thickness <= 0.0) return tw_view_none(sheet, room);
    drawing d = { context, plan, f, room.x1 - room.x0 < TW_VIEW_STACKED_MM };
    const tw_view_scale *scale = tw_view_scales(sheet);
    extent e;
    layout l;
    for (bool fits = false; ; scale++) {
        e = extent_of(context, f, scale->factor);
        for (tusk_place place = BESIDE_CHEEK; place <= (d.narrow ? BELOW_ALL : BESIDE_SECTION) && !fits; place++) {
            l = lay_out(&d, &e, scale->factor, place);
            fits = l.width <= room.x1 - room.x0 && l.height <= room.y1 - room.y0;
        }
        if (fits || scale[1].factor == 0.0) break;
    }
    tw_view cheek = { sheet, room.x0 + l.u0, room.y1 - l.cheek, scale->factor };
    draw_cheek_view(&d, &cheek, &e);
    measure_cheek_view(&d, &cheek, &e);
    tw_view section = { sheet, cheek.x, room.y1 - l.section, cheek.scale };
    draw_section(&d, &section, &e);
    tw_view tusk = { sheet, room.x0 + l.tusk_x, room.y1 - l.tusk_y, cheek.scale };
    draw_tusk(&d, &tusk, &e);
    return scale->text;
}
