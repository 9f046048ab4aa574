// SPDX-License-Identifier: GPL-3.0-or-later
/* Housing, drawn: on the left the section across it (x along the piece that carries it, y out of its side); on the right
 * the section along it (x into the piece, y across it from the low side), with stop and notch. */
#include "joint/housing.h"

#include "joint/trench.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)

// body: of the housed piece that is shown
typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_housing *h; double body; } drawing;

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

static tw_joint_view across_view(const drawing *d, tw_sheet *sheet)
{
    const tw_housing *h = d->h;
    double side = h->w / 2.0 + tw_max(h->w, 0.6 * h->d);
    tw_joint_view v = { .sheet = sheet, .title = "Section across the housing", .whose = tw_format(d->context->arena, "%s in %s", h->housed->name, h->into->name),
                        .reach = { -side, -h->d, side, d->body } };
    tw_view_row(&v, -h->t / 2.0, h->t / 2.0, figure(d, "piece", h->t), size(d, h->housed, h->t));
    tw_view_row(&v, -h->w / 2.0, h->w / 2.0, figure(d, "housing", h->w), of(d, "housing_width", h->w));
    tw_view_column(&v, -h->depth, 0.0, figure(d, "deep", h->depth), of(d, "depth", h->depth));
    tw_view_column(&v, -h->d, 0.0, figure(d, "", h->d), size(d, h->into, h->d));
    return v;
}

static void draw_across(const drawing *d, const tw_joint_view *v)
{
    const tw_housing *h = d->h;
    double wall = h->w / 2.0, side = v->reach.x1, half = h->t / 2.0;
    tw_view_hatch(v, -side, -h->d, -wall, 0.0, HATCH_RAD);
    tw_view_hatch(v, -wall, -h->d, wall, -h->depth, HATCH_RAD);
    tw_view_hatch(v, wall, -h->d, side, 0.0, HATCH_RAD);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -side, 0.0 }, { -wall, 0.0 }, { -wall, -h->depth }, { wall, -h->depth }, { wall, 0.0 }, { side, 0.0 } }, 6);
    tw_view_line(v, TW_ROLE_CUT, -side, -h->d, side, -h->d);
    tw_view_line(v, TW_ROLE_FAINT, -side, -h->d, -side, 0.0);
    tw_view_line(v, TW_ROLE_FAINT, side, -h->d, side, 0.0);
    tw_view_hatch(v, -half, -h->l, half, d->body, -HATCH_RAD);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -half, d->body }, { -half, -h->l }, { half, -h->l }, { half, d->body } }, 4);
    tw_view_line(v, TW_ROLE_FAINT, -half, d->body, half, d->body);
    tw_view_line(v, TW_ROLE_CENTRE, 0.0, -h->d * 0.9, 0.0, d->body * 0.9);
}

/* ---- the section along ---- */

static double low_edge(const tw_housing *h) { return h->across - h->wide / 2.0; }
static double high_edge(const tw_housing *h) { return h->across + h->wide / 2.0; }

static tw_joint_view along_view(const drawing *d, tw_sheet *sheet)
{
    const tw_housing *h = d->h;
    tw_joint_view v = { .sheet = sheet, .title = "Section along the housing",
                        .whose = tw_format(d->context->arena, "the %s of %s below", tw_face_words[h->low], h->into->name),
                        .reach = { -d->body, tw_min(0.0, low_edge(h)), h->d, tw_max(h->e, high_edge(h)) } };
    tw_view_row(&v, 0.0, h->l, figure(d, "housed", h->l), of(d, "housed", h->l));
    if (h->room > 0.0) tw_view_row(&v, 0.0, h->depth, figure(d, "deep", h->depth), of(d, "depth", h->depth));
    if (h->low_stopped) tw_view_column(&v, 0.0, h->v0, figure(d, "stop", h->v0), of(d, "stop_short", h->v0));
    if (h->high_stopped) tw_view_column(&v, h->v1, h->e, figure(d, "stop", h->e - h->v1), of(d, "stop_short", h->e - h->v1));
    if (h->notch_low > 0.0) tw_view_column(&v, low_edge(h), low_edge(h) + h->notch_low, figure(d, "notch", h->notch_low),
        of(d, "notch", h->notch_low));
    if (h->notch_high > 0.0) tw_view_column(&v, high_edge(h) - h->notch_high, high_edge(h), figure(d, "notch", h->notch_high),
        of(d, "notch", h->notch_high));
    tw_view_column(&v, low_edge(h), high_edge(h), figure(d, "piece", h->wide), size(d, h->housed, h->wide));
    if (h->e != h->wide) tw_view_column(&v, 0.0, h->e, figure(d, "", h->e), size(d, h->into, h->e));
    return v;
}

static void draw_along(const drawing *d, const tw_joint_view *v)
{
    const tw_housing *h = d->h;
    tw_trench_draw_along(v, &(tw_trench_section){ .body_mm = d->body, .in_mm = h->l, .depth_mm = h->depth, .thick_mm = h->d, .across_mm = h->e,
        .v0_mm = h->v0, .v1_mm = h->v1, .low_stopped = h->low_stopped, .high_stopped = h->high_stopped, .low_edge_mm = low_edge(h),
        .high_edge_mm = high_edge(h), .notch_low_mm = h->notch_low, .notch_high_mm = h->notch_high });
}

const char *tw_housing_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_housing *h = plan->own;
    if (!h || !tw_housing_possible(h)) return tw_view_none(sheet, room);
    drawing d = { context, plan, h, tw_max(1.2 * h->d, 1.5 * h->t) };
    tw_joint_view views[2] = { across_view(&d, sheet), along_view(&d, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_across(&d, &views[0]);
    draw_along(&d, &views[1]);
    tw_views_measure(views);
    return scale;
}
