// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk, drawn: on the left the section along the tenon through the middle of the tusk (u right, v up), the mortised
 * piece cut; on the right the section through the tusk, seen from the tenon's end (across right, v up). */
#include "joint/single_tusk.h"

#include <math.h>

#include "joint/views.h"
#include "joint/words.h"

#define BODY_MM 28.0   // how much of the tenoned piece is shown behind its shoulder
#define ROUND_MM 3.0

#define LABEL_GAP_MM 4.4     // between the base lines of labels
#define LABEL_FROM_MM 9.0    // from the outlines to the labels: the chain and its leaders

static double low_of(const tw_single *s) { return s->D / 2.0 + s->tip; }
static double top_of(const tw_single *s) { return s->D / 2.0 + s->z + s->head_proud; }

/* ---- what is shown ---- */

/* What follows one upon the other along the tusk, from the tip. */
typedef struct link { double from, to; const char *text; tw_source source; } link;
#define LINKS 4

static void find_chain(const tw_joint_context *context, const tw_joint_plan *plan, const tw_single *s, link chain[LINKS])
{
    const double ends[LINKS + 1] = { -low_of(s), -s->D / 2.0, s->D / 2.0, s->D / 2.0 + s->z, top_of(s) }, lengths[LINKS] = { s->tip, s->D, s->z, s->head_proud };
    const char *const words[LINKS] = { "tip", "tenon", "reserve", "head" };
    const char *const keys[LINKS] = { "tip_proud", s->upright ? "tenon_width" : "tenon_thickness", "reserve", "head_proud" };
    for (int i = 0; i < LINKS; i++)
        chain[i] = (link){ ends[i], ends[i + 1], tw_format(context->arena, "%s %s", words[i], tw_bare_fine(context, lengths[i])),
                           tw_figure_source(context, plan, keys[i], lengths[i]) };
}

static void begin_along(const tw_joint_context *context, const tw_joint_plan *plan, const tw_single *s, tw_joint_view *view,
    const link chain[LINKS])
{
    double fall = s->D / 2.0 * tan(s->alpha), half_piece = s->D / 2.0 + tw_single_head_shoulder(s);
    view->title = "Section along the tenon";
    view->whose = tw_format(context->arena, "%s through %s, tusk %s", s->tenon->name, s->through->name, s->upright ? "upright" : "level");
    view->reach = (tw_box){ -s->T - BODY_MM, -tw_max(low_of(s), half_piece), tw_max(s->p, s->stick_thickness), tw_max(top_of(s), half_piece) };
    view->round_mm = ROUND_MM;
    for (int i = 0; i < LINKS; i++) view->right_mm = tw_max(view->right_mm, LABEL_FROM_MM + tw_text_width(TW_VIEW_TEXT_MM, false, chain[i].text) + 1.0);
    tw_view_row(view, -s->c, 0.0, tw_bare_fine(context, s->c), tw_figure_source(context, plan, "draw_allowance", s->c));
    tw_view_row(view, 0.0, s->k, tw_bare_fine(context, s->k), tw_figure_source(context, plan, "tusk_thickness", s->k));
    tw_view_row(view, s->k + fall, s->p - s->chamfer, tw_bare_fine(context, s->relish),
        tw_figure_source(context, plan, "relish", s->relish));
    tw_view_row(view, -s->T, 0.0, tw_bare_fine(context, s->T), tw_size_source(context, s->through, s->T));
    tw_view_row(view, 0.0, s->p, tw_bare_fine(context, s->p), tw_figure_source(context, plan, "beyond", s->p));
}

static void begin_across(const tw_joint_context *context, const tw_joint_plan *plan, const tw_single *s, tw_joint_view *view)
{
    double half_piece = s->D / 2.0 + tw_single_head_shoulder(s), side = (s->upright ? s->a.thickness_mm : s->a.width_mm) / 2.0;
    view->title = "Through the tusk";
    view->whose = tw_format(context->arena, "tusk %s in a mortise of %s", tw_bare_fine(context, s->b), tw_bare_fine(context, s->mb));
    view->reach = (tw_box){ -side, -tw_max(low_of(s), half_piece), side, tw_max(top_of(s), half_piece) };
    view->round_mm = ROUND_MM;
    tw_view_row(view, -s->B / 2.0, s->B / 2.0, tw_bare_fine(context, s->B),
        tw_figure_source(context, plan, s->upright ? "tenon_thickness" : "tenon_width", s->B));
    if (side > s->B / 2.0 + 1e-6) tw_view_row(view, -side, side, tw_bare_fine(context, 2.0 * side),
        tw_size_source(context, s->tenon, 2.0 * side));
    tw_view_column(view, -low_of(s), top_of(s), tw_bare_fine(context, s->tusk_length),
        tw_figure_source(context, plan, "tusk_length", s->tusk_length));
}

/* Labels stand level beside their links, as far apart as their height asks, low ones first and the whole about its middle. */
static void label_chain(const tw_joint_view *view, const link chain[LINKS])
{
    double label[LINKS], pushed = 0.0, x = tw_view_at(view, view->reach.x1, 0.0).x + ROUND_MM;
    for (int i = 0; i < LINKS; i++) {
        double middle = tw_view_at(view, 0.0, (chain[i].from + chain[i].to) / 2.0).y;
        label[i] = i > 0 ? tw_max(middle, label[i - 1] + LABEL_GAP_MM) : middle;
        pushed = tw_max(pushed, label[i] - middle);
    }
    double edge = tw_view_at(view, view->reach.x1, 0.0).x + 1.0;
    for (int i = 0; i <= LINKS; i++) {
        double y = tw_view_at(view, 0.0, i < LINKS ? chain[i].from : chain[LINKS - 1].to).y;
        tw_draw_line(view->sheet, TW_ROLE_DIMENSION, edge, y, x + 1.0, y);
    }
    for (int i = 0; i < LINKS; i++) {
        double low = tw_view_at(view, 0.0, chain[i].from).y, high = tw_view_at(view, 0.0, chain[i].to).y, y = label[i] - pushed / 2.0;
        double arrow = tw_min(2.5, (high - low) / 2.5);
        tw_draw_line(view->sheet, TW_ROLE_DIMENSION, x, low, x, high);
        tw_draw_arrow_head(view->sheet, x, high, TW_PI / 2.0, arrow);
        tw_draw_arrow_head(view->sheet, x, low, -TW_PI / 2.0, arrow);
        tw_draw_line(view->sheet, TW_ROLE_DIMENSION, x, (low + high) / 2.0, x + LABEL_FROM_MM - ROUND_MM - 1.0, y);
        tw_draw_source(view->sheet, chain[i].source);
        tw_draw_text(view->sheet, x + LABEL_FROM_MM - ROUND_MM, y - TW_VIEW_TEXT_MM / 2.0, TW_VIEW_TEXT_MM, TW_ANCHOR_LEFT, chain[i].text);
    }
    tw_draw_source(view->sheet, (tw_source){ 0 });
}

/* ---- outlines ---- */

static void draw_mortised(const tw_joint_view *view, const tw_single *s)
{
    double half = s->D / 2.0 + s->clearance / 2.0, high = view->reach.y1, low = view->reach.y0;
    for (int side = -1; side <= 1; side += 2) {
        double near_ = side * half, far_ = side > 0 ? high : low;
        tw_view_hatch(view, -s->T, tw_min(near_, far_), 0.0, tw_max(near_, far_), TW_PI / 4.0);
        const tw_point border[] = { { -s->T, far_ }, { -s->T, near_ }, { 0.0, near_ }, { 0.0, far_ } };
        tw_view_path(view, TW_ROLE_CUT, border, 4);
        tw_view_line(view, TW_ROLE_FAINT, -s->T, far_, 0.0, far_);
    }
}

static void draw_tenon(const tw_joint_view *view, const tw_single *s)
{
    double half = s->D / 2.0, body = half + tw_single_head_shoulder(s), fall = half * tan(s->alpha);
    for (int side = -1; side <= 1; side += 2) {
        const tw_point border[] = { { -s->T - BODY_MM, side * body }, { -s->T, side * body }, { -s->T, side * half }, { -s->c, side * half } };
        const tw_point end[] = { { s->k + side * fall, side * half }, { s->p - s->chamfer, side * half }, { s->p, side * tw_max(half - s->chamfer, 0.0) } };
        tw_view_path(view, TW_ROLE_CUT, border, 4);
        tw_view_path(view, TW_ROLE_CUT, end, 3);
    }
    tw_view_line(view, TW_ROLE_CUT, s->p, -tw_max(half - s->chamfer, 0.0), s->p, tw_max(half - s->chamfer, 0.0));
    tw_view_line(view, TW_ROLE_CUT, -s->c, -half, -s->c, half);
    tw_view_line(view, TW_ROLE_CUT, s->k - fall, -half, s->k + fall, half);
    tw_view_hatch(view, -s->T - BODY_MM, -body, -s->T, body, -TW_PI / 4.0);
    tw_view_hatch(view, -s->T, -half, -s->c, half, -TW_PI / 4.0);
    tw_view_hatch(view, s->k + fall, -half, s->p - s->chamfer, half, -TW_PI / 4.0);
    tw_view_line(view, TW_ROLE_FAINT, -s->T - BODY_MM, -body, -s->T - BODY_MM, body);
    tw_view_line(view, TW_ROLE_CENTRE, -s->T - BODY_MM, 0.0, s->p, 0.0);
}

static void draw_tusk(const tw_joint_view *view, const tw_single *s)
{
    double lean = tan(s->alpha), low = low_of(s), top = top_of(s);
    const tw_point tusk[] = { { 0.0, -low }, { s->k - low * lean, -low }, { s->k + top * lean, top }, { 0.0, top }, { 0.0, -low } };
    tw_view_path(view, TW_ROLE_CUT, tusk, 5);
    tw_view_line(view, TW_ROLE_FAINT, 0.0, s->D / 2.0 + s->z, s->k + (s->D / 2.0 + s->z) * lean, s->D / 2.0 + s->z);
}

static void draw_across(const tw_joint_view *view, const tw_single *s)
{
    double half = s->D / 2.0, side = view->reach.x1, body = half + tw_single_head_shoulder(s), low = low_of(s), top = top_of(s);
    for (int i = -1; i <= 1; i += 2) {
        double inner = i * s->mb / 2.0, outer = i * s->B / 2.0;
        tw_view_hatch(view, tw_min(inner, outer), -half, tw_max(inner, outer), half, -TW_PI / 4.0);
        const tw_point cheek[] = { { inner, -half }, { outer, -half }, { outer, half }, { inner, half }, { inner, -half } };
        tw_view_path(view, TW_ROLE_CUT, cheek, 5);
    }
    tw_view_hatch(view, -s->b / 2.0, -low, s->b / 2.0, top, TW_PI / 4.0);
    const tw_point tusk[] = { { -s->b / 2.0, -low }, { s->b / 2.0, -low }, { s->b / 2.0, top }, { -s->b / 2.0, top }, { -s->b / 2.0, -low } };
    tw_view_path(view, TW_ROLE_CUT, tusk, 5);
    const tw_point piece[] = { { -side, -body }, { side, -body }, { side, body }, { -side, body }, { -side, -body } };
    tw_view_path(view, TW_ROLE_HIDDEN, piece, 5);
}

/* ---- the sheet ---- */

const char *tw_single_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_single *s = plan->own;
    if (!s || !tw_single_possible(s)) return tw_view_none(sheet, room);
    tw_joint_view views[2] = { { .sheet = sheet }, { .sheet = sheet } };
    link chain[LINKS];
    find_chain(context, plan, s, chain);
    begin_along(context, plan, s, &views[0], chain);
    begin_across(context, plan, s, &views[1]);
    const char *scale = tw_views_place(views, context->arena, room);
    draw_mortised(&views[0], s);
    draw_tenon(&views[0], s);
    draw_tusk(&views[0], s);
    label_chain(&views[0], chain);
    draw_across(&views[1], s);
    tw_views_measure(views);
    return scale;
}
