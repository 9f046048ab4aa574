// SPDX-License-Identifier: GPL-3.0-or-later
/* Housed bridle, drawn: on the left the section along the fork, square to the piece it rides over (x across that piece's
 * thickness); on the right the section along that piece, through a prong in its housing. In both y is v, from the side that
 * the fork comes over. */
#include "joint/bridle.h"

#include <math.h>

#include "joint/views.h"
#include "joint/words.h"

#define HATCH_RAD (TW_PI / 4.0)
#define HATCH_MM 2.2
#define SAME_MM 1e-6

// body: of the forked piece that is shown
typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_bridle *b; double body; } drawing;

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

/* ---- the section along the fork ---- */

static tw_joint_view fork_view(const drawing *d, tw_sheet *sheet)
{
    const tw_bridle *b = d->b;
    double half = tw_max(b->T, b->split) / 2.0;
    tw_joint_view v = { .sheet = sheet, .title = "Section along the fork", .whose = tw_format(d->context->arena,
        "%s, forked, over %s", b->forked->name, b->over->name), .reach = { -half, -d->body, half, b->E } };
    tw_view_row(&v, -b->q / 2.0, b->q / 2.0, figure(d, "web", b->q), of(d, "web", b->q));
    if (b->ease > SAME_MM) tw_view_row(&v, -b->s / 2.0, b->s / 2.0, figure(d, "slot", b->s), of(d, "slot", b->s));
    tw_view_row(&v, -b->split / 2.0, b->split / 2.0, figure(d, "forked", b->split), size(d, b->forked, b->split));
    if (fabs(b->split - b->T) > SAME_MM) tw_view_row(&v, -b->T / 2.0, b->T / 2.0, figure(d, "over", b->T),
        size(d, b->over, b->T));
    if (b->H - b->S > SAME_MM) tw_view_column(&v, 0.0, b->H, figure(d, "housing", b->H), of(d, "housing_length", b->H));
    tw_view_column(&v, 0.0, b->S, figure(d, "prong", b->S), of(d, "prong_length", b->S));
    return v;
}

static void draw_fork(const drawing *d, const tw_joint_view *v)
{
    const tw_bridle *b = d->b;
    double web = b->q / 2.0, slot = b->s / 2.0, side = b->split / 2.0, half = b->T / 2.0;
    tw_view_hatch(v, -web, 0.0, web, b->H, HATCH_RAD);
    if (b->stopped) tw_view_hatch(v, -half, b->H, half, b->E, HATCH_RAD);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -web, 0.0 }, { web, 0.0 }, { web, b->H } }, 3);
    tw_view_line(v, TW_ROLE_CUT, -web, 0.0, -web, b->H);
    if (b->stopped) tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { web, b->H }, { half, b->H }, { half, b->E }, { -half, b->E },
        { -half, b->H }, { -web, b->H } }, 6);
    else tw_view_line(v, TW_ROLE_CUT, -web, b->E, web, b->E);
    tw_view_hatch(v, -side, -d->body, side, 0.0, -HATCH_RAD);
    tw_view_hatch(v, -side, 0.0, -slot, b->S, -HATCH_RAD);
    tw_view_hatch(v, slot, 0.0, side, b->S, -HATCH_RAD);
    for (int i = -1; i <= 1; i += 2) {
        tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { i * side, -d->body }, { i * side, b->S }, { i * slot, b->S },
            { i * slot, 0.0 }, { 0.0, 0.0 } }, 5);
        if (half > side + SAME_MM) tw_view_line(v, TW_ROLE_VISIBLE, i * half, 0.0, i * half, b->H);  // the housing's wall behind
    }
    for (int i = -1; i <= 1 && half > side + SAME_MM; i += 2) {
        tw_view_line(v, TW_ROLE_VISIBLE, i * side, 0.0, i * half, 0.0);
        if (!b->stopped) tw_view_line(v, TW_ROLE_VISIBLE, i * side, b->E, i * half, b->E);
    }
    tw_view_line(v, TW_ROLE_FAINT, -side, -d->body, side, -d->body);
    tw_view_line(v, TW_ROLE_CENTRE, 0.0, -d->body * 0.9, 0.0, b->E * 0.98);
}

/* ---- the section along the piece that is ridden over ---- */

static tw_joint_view prong_view(const drawing *d, tw_sheet *sheet)
{
    const tw_bridle *b = d->b;
    double side = b->w / 2.0 + tw_max(0.5 * b->w, b->depth);
    tw_joint_view v = { .sheet = sheet, .title = "Section through a prong", .whose = tw_format(d->context->arena,
        "the %s of %s below", tw_face_words[b->from], b->over->name), .reach = { -side, -d->body, side, b->E } };
    if (b->answer_mm > 0.0) tw_view_row(&v, -b->B / 2.0, -b->B / 2.0 + b->answer_mm, figure(d,
        b->answer == TW_ANSWER_NOTCH ? "notch" : "radius", b->answer_mm),
            of(d, b->answer == TW_ANSWER_NOTCH ? "corner_notch" : "prong_radius", b->answer_mm));
    tw_view_row(&v, -b->B / 2.0, b->B / 2.0, figure(d, "prong", b->B), size(d, b->forked, b->B));
    if (b->c > SAME_MM) tw_view_row(&v, -b->w / 2.0, b->w / 2.0, figure(d, "housing", b->w), of(d, "housing_width", b->w));
    if (b->stopped) tw_view_column(&v, b->H, b->E, figure(d, "stop", b->stop), of(d, "stop_short", b->stop));
    tw_view_column(&v, 0.0, b->E, figure(d, "over", b->E), size(d, b->over, b->E));
    return v;
}

typedef struct trail { const tw_joint_view *view; tw_vertex on_paper[16]; int count; } trail;  // corners of an outline, on paper

static void go(trail *t, double a, double up, double bulge)
{
    tw_point p = tw_view_at(t->view, a, up);
    if (t->count > 0 && hypot(t->on_paper[t->count - 1].x - p.x,
        t->on_paper[t->count - 1].y - p.y) < 1e-9) t->on_paper[t->count - 1].bulge = bulge;
    else t->on_paper[t->count++] = (tw_vertex){ p.x, p.y, bulge };
}

/* The edges from first to last, each a line or an arc. */
static void draw_edges(const trail *t, tw_role role, int first, int last)
{
    for (int i = first; i < last; i++) {
        tw_vertex a = t->on_paper[i], b = t->on_paper[i + 1];
        if (fabs(a.bulge) < 1e-12) {
            tw_draw_line(t->view->sheet, role, a.x, a.y, b.x, b.y);
            continue;
        }
        double chord = hypot(b.x - a.x, b.y - a.y), radius = chord * (1.0 + a.bulge * a.bulge) / (4.0 * a.bulge),
            off = radius * (1.0 - a.bulge * a.bulge) / (1.0 + a.bulge * a.bulge);
        double x = (a.x + b.x) / 2.0 - off * (b.y - a.y) / chord, y = (a.y + b.y) / 2.0 + off * (b.x - a.x) / chord;
        tw_draw_arc(t->view->sheet, role, x, y, fabs(radius), atan2(a.y - y, a.x - x), 4.0 * atan(a.bulge));
    }
}

static void hatch_trail(const trail *t, double angle_rad)
{
    tw_draw_hatch(t->view->sheet, tw_outline_of_loop(t->view->sheet->arena, t->on_paper, t->count), HATCH_MM, angle_rad);
}

static void draw_over(const drawing *d, const tw_joint_view *v)
{
    const tw_bridle *b = d->b;
    double wall = b->w / 2.0, side = v->reach.x1, turn = -tan(TW_PI / 8.0);
    for (int i = -1; i <= 1; i += 2) tw_view_line(v, TW_ROLE_FAINT, i * side, 0.0, i * side, b->E);
    if (!b->stopped) {
        for (int i = -1; i <= 1; i += 2) {
            tw_view_hatch(v, i < 0 ? -side : wall, 0.0, i < 0 ? -wall : side, b->E, HATCH_RAD);
            tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { i * side, 0.0 }, { i * wall, 0.0 }, { i * wall, b->E },
                { i * side, b->E } }, 4);
        }
        return;
    }
    trail t = { .view = v };
    go(&t, -side, 0.0, 0.0);
    go(&t, -wall, 0.0, 0.0);
    go(&t, -wall, b->H - b->R, b->R > 0.0 ? turn : 0.0);
    go(&t, -wall + b->R, b->H, 0.0);
    go(&t, wall - b->R, b->H, b->R > 0.0 ? turn : 0.0);
    go(&t, wall, b->H - b->R, 0.0);
    go(&t, wall, 0.0, 0.0);
    go(&t, side, 0.0, 0.0);
    int bottom_end = t.count - 1;
    go(&t, side, b->E, 0.0);
    go(&t, -side, b->E, 0.0);
    hatch_trail(&t, HATCH_RAD);
    draw_edges(&t, TW_ROLE_CUT, 0, bottom_end);
    tw_view_line(v, TW_ROLE_CUT, -side, b->E, side, b->E);
}

static void draw_prong(const drawing *d, const tw_joint_view *v)
{
    const tw_bridle *b = d->b;
    double half = b->B / 2.0, n = b->answer_mm, turn = tan(TW_PI / 8.0);
    bool notch = n > 0.0 && b->answer == TW_ANSWER_NOTCH, rounded = n > 0.0 && !notch;
    trail t = { .view = v };
    go(&t, half, -d->body, 0.0);
    go(&t, half, b->S - n, rounded ? turn : 0.0);
    if (notch) go(&t, half - n, b->S - n, 0.0);
    go(&t, half - n, b->S, 0.0);
    go(&t, -half + n, b->S, rounded ? turn : 0.0);
    if (notch) go(&t, -half + n, b->S - n, 0.0);
    go(&t, -half, b->S - n, 0.0);
    go(&t, -half, -d->body, 0.0);
    hatch_trail(&t, -HATCH_RAD);
    draw_edges(&t, TW_ROLE_CUT, 0, t.count - 1);
    tw_view_line(v, TW_ROLE_FAINT, -half, -d->body, half, -d->body);
    tw_view_line(v, TW_ROLE_CENTRE, 0.0, -d->body * 0.9, 0.0, b->E * 0.98);
}

const char *tw_bridle_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_bridle *b = plan->own;
    if (!b || !tw_bridle_possible(b)) return tw_view_none(sheet, room);
    drawing d = { context, plan, b, tw_max(0.5 * b->E, 0.5 * b->B) };
    tw_joint_view views[2] = { fork_view(&d, sheet), prong_view(&d, sheet) };
    const char *scale = tw_views_place(views, context->arena, room);
    draw_fork(&d, &views[0]);
    draw_over(&d, &views[1]);
    draw_prong(&d, &views[1]);
    tw_views_measure(views);
    return scale;
}
