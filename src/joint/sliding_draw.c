// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail, drawn: on the left the section across the housing (x along the piece that carries it, y out of its
 * side); on the right the section along it (x into the piece, y across it from the low side), with stop and cut-back tongue. */
#include "joint/sliding.h"

#include <math.h>

#include "joint/trench.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)
#define HATCH_MM 2.2          // as the other views of joints
#define HATCH_LEAST_MM 0.05  // of paper: nothing thinner is hatched

// body: of the housed piece that is shown
typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_sliding *s; double body; } drawing;

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

/* ---- the section across ---- */

static double wall0(const tw_sliding *s, double z) { return s->q0 - s->c / 2.0 - s->lean0 * z; }
static double wall1(const tw_sliding *s, double z) { return s->q1 + s->c / 2.0 + s->lean1 * z; }

static tw_joint_view across_view(const drawing *d, tw_sheet *sheet)
{
    const tw_sliding *s = d->s;
    double side = tw_max(s->t, s->w) / 2.0 + tw_max(s->w / 2.0, 0.6 * s->d);
    tw_joint_view v = { .sheet = sheet, .title = "Section across the housing", .whose = tw_format(d->context->arena, "%s in %s; %s from square", s->housed->name, s->into->name, tw_angle_text(d->context->arena, s->angle)),
                        .reach = { -side, -s->d, side, d->body } };
    tw_view_row(&v, s->q0, s->q1, figure(d, "neck", s->neck), of(d, "neck", s->neck));
    tw_view_row(&v, s->q0 - s->lean0 * s->l, s->q1 + s->lean1 * s->l, figure(d, "tip", s->tip), of(d, "tip", s->tip));
    tw_view_row(&v, wall0(s, s->depth), wall1(s, s->depth), figure(d, "housing", s->w), of(d, "housing_at_bottom", s->w));
    tw_view_row(&v, -s->t / 2.0, s->t / 2.0, figure(d, "piece", s->t), size(d, s->housed, s->t));
    tw_view_column(&v, -s->depth, 0.0, figure(d, "deep", s->depth), of(d, "depth", s->depth));
    tw_view_column(&v, -s->d, 0.0, figure(d, "", s->d), size(d, s->into, s->d));
    return v;
}

/* Hatching of a field with slanting sides, its corners in order. */
static void hatch_field(const tw_joint_view *v, const tw_point *corners, int count, double angle_rad)
{
    tw_vertex on_paper[8];
    double twice = 0.0;
    for (int i = 0; i < count; i++) {
        tw_point p = tw_view_at(v, corners[i].x, corners[i].y);
        on_paper[i] = (tw_vertex){ p.x, p.y, 0.0 };
    }
    for (int i = 0; i < count; i++) twice += on_paper[i].x * on_paper[(i + 1) % count].y - on_paper[(i + 1) % count].x * on_paper[i].y;
    if (twice < 2.0 * HATCH_LEAST_MM) return;
    tw_draw_hatch(v->sheet, tw_outline_of_loop(v->sheet->arena, on_paper, count), HATCH_MM, angle_rad);
}

/* The piece beside and below its housing, and the housed piece with its tongue; both counter-clockwise. */
static void hatch_section(const drawing *d, const tw_joint_view *v)
{
    const tw_sliding *s = d->s;
    double side = v->reach.x1, half = s->t / 2.0;
    hatch_field(v, (tw_point[]){ { -side, -s->d }, { side, -s->d }, { side, 0.0 }, { wall1(s, 0.0), 0.0 }, { wall1(s, s->depth), -s->depth }, { wall0(s, s->depth), -s->depth },
        { wall0(s, 0.0), 0.0 }, { -side, 0.0 } }, 8, HATCH_RAD);
    hatch_field(v, (tw_point[]){ { -half, d->body }, { -half, 0.0 }, { s->q0, 0.0 }, { s->q0 - s->lean0 * s->l, -s->l }, { s->q1 + s->lean1 * s->l, -s->l }, { s->q1, 0.0 }, { half, 0.0 },
        { half, d->body } }, 8, -HATCH_RAD);
}

static void draw_across(const drawing *d, const tw_joint_view *v)
{
    const tw_sliding *s = d->s;
    double side = v->reach.x1, half = s->t / 2.0, tip0 = s->q0 - s->lean0 * s->l, tip1 = s->q1 + s->lean1 * s->l;
    hatch_section(d, v);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -side, 0.0 }, { wall0(s, 0.0), 0.0 }, { wall0(s, s->depth), -s->depth }, { wall1(s, s->depth), -s->depth }, { wall1(s, 0.0), 0.0 }, { side, 0.0 } }, 6);
    tw_view_line(v, TW_ROLE_CUT, -side, -s->d, side, -s->d);
    tw_view_line(v, TW_ROLE_FAINT, -side, -s->d, -side, 0.0);
    tw_view_line(v, TW_ROLE_FAINT, side, -s->d, side, 0.0);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -half, d->body }, { -half, 0.0 }, { s->q0, 0.0 }, { tip0, -s->l }, { tip1, -s->l }, { s->q1, 0.0 }, { half, 0.0 }, { half, d->body } }, 8);
    tw_view_line(v, TW_ROLE_FAINT, -half, d->body, half, d->body);
    tw_view_line(v, TW_ROLE_CENTRE, 0.0, -s->d * 0.9, 0.0, d->body * 0.9);
}

/* ---- the section along ---- */

static double low_edge(const tw_sliding *s) { return s->across - s->wide / 2.0; }
static double high_edge(const tw_sliding *s) { return s->across + s->wide / 2.0; }

static tw_joint_view along_view(const drawing *d, tw_sheet *sheet)
{
    const tw_sliding *s = d->s;
    tw_joint_view v = { .sheet = sheet, .title = "Section along the housing", .whose = tw_format(d->context->arena, "the %s of %s below", tw_face_words[s->low], s->into->name),
                        .reach = { -d->body, tw_min(0.0, low_edge(s)), s->d, tw_max(s->e, high_edge(s)) } };
    tw_view_row(&v, 0.0, s->l, figure(d, "tongue", s->l), of(d, "tongue_length", s->l));
    if (s->room > 0.0) tw_view_row(&v, 0.0, s->depth, figure(d, "deep", s->depth), of(d, "depth", s->depth));
    if (s->low_stopped) tw_view_column(&v, 0.0, s->v0, figure(d, "stop", s->v0), of(d, "stop_short", s->v0));
    if (s->high_stopped) tw_view_column(&v, s->v1, s->e, figure(d, "stop", s->e - s->v1), of(d, "stop_short", s->e - s->v1));
    if (s->notch_low > 0.0) tw_view_column(&v, low_edge(s), low_edge(s) + s->notch_low, figure(d, "cut back", s->notch_low),
        of(d, "notch", s->notch_low));
    if (s->notch_high > 0.0) tw_view_column(&v, high_edge(s) - s->notch_high, high_edge(s), figure(d, "cut back", s->notch_high),
        of(d, "notch", s->notch_high));
    tw_view_column(&v, low_edge(s), high_edge(s), figure(d, "piece", s->wide), size(d, s->housed, s->wide));
    if (s->e != s->wide) tw_view_column(&v, 0.0, s->e, figure(d, "", s->e), size(d, s->into, s->e));
    return v;
}

static void draw_along(const drawing *d, const tw_joint_view *v)
{
    const tw_sliding *s = d->s;
    tw_trench_draw_along(v, &(tw_trench_section){ .body_mm = d->body, .in_mm = s->l, .depth_mm = s->depth, .thick_mm = s->d, .across_mm = s->e,
        .v0_mm = s->v0, .v1_mm = s->v1, .low_stopped = s->low_stopped, .high_stopped = s->high_stopped, .low_edge_mm = low_edge(s),
        .high_edge_mm = high_edge(s), .notch_low_mm = s->notch_low, .notch_high_mm = s->notch_high });
}

const char *tw_sliding_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_sliding *s = plan->own;
    if (!s || !tw_sliding_possible(s)) return tw_view_none(sheet, room);
    drawing d = { context, plan, s, tw_max(1.2 * s->d, 1.5 * s->t) };
    tw_joint_view views[2] = { across_view(&d, sheet), along_view(&d, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_across(&d, &views[0]);
    draw_along(&d, &views[1]);
    tw_views_measure(views);
    return scale;
}
