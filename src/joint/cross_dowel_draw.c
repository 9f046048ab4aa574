// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt, drawn: on the left the section along the bolt, square to the cross dowel (u right, 0 where the pieces
 * meet, the post to the left; v up, the rail's width, or its thickness where the dowel is bored from an edge); on the right the end of the
 * rail with its holes (z right, y up).
 *
 * Each piece's section is one region above the bolt and one below it; w is the distance from the bolt's axis, away from it. */
#include "joint/cross_dowel.h"

#include <math.h>

#include "joint/views.h"
#include "joint/words.h"

#define PAST_MM 12.0   // of the pieces, shown past what matters
#define ROUND_MM 3.0
#define HIGH_MM 145.0  // of paper
#define HATCH_MM 2.2
#define REGION_POINTS_MOST 16

typedef struct drawing { const tw_joint_context *context; const tw_joint_plan *plan; const tw_bolted *j; bool level; double axis,
    size, low, high, end; bool post_goes_on; } drawing;

static const char *bare(const drawing *d, double length_mm) { return tw_bare_fine(d->context, length_mm); }
static const char *said(const drawing *d, const char *word, double length_mm) { return tw_format(d->context->arena, "%s %s", word, bare(d, length_mm)); }
static tw_source of(const drawing *d, const char *key, double shown) { return tw_figure_source(d->context, d->plan, key, shown); }
static tw_source size(const drawing *d, const tw_piece *piece, double shown_mm)
{
    return tw_size_source(d->context, piece, shown_mm);
}

static drawing drawing_of(const tw_joint_context *context, const tw_joint_plan *plan, const tw_bolted *j)
{
    drawing d = { .context = context, .plan = plan, .j = j, .level = tw_bolted_level(j) };
    d.axis = d.level ? j->y : j->z;
    d.size = d.level ? j->a.width_mm : j->a.thickness_mm;
    d.post_goes_on = d.level == j->along;  // what is up on paper runs along the post's grain
    d.low = d.post_goes_on ? -PAST_MM : tw_min(d.axis - j->across, 0.0);
    d.high = d.post_goes_on ? d.size + PAST_MM : tw_max(d.axis - j->across + j->e, d.size);
    d.end = j->b_depth - j->h + PAST_MM;
    return d;
}

static double under_head(const tw_bolted *j) { return -(j->d - j->k) - j->size.washer_thick; }

/* ---- what is measured ---- */

static void begin_section(const drawing *d, tw_joint_view *v)
{
    const tw_bolted *j = d->j;
    v->title = "Section along the bolt";
    v->whose = tw_format(d->context->arena, "%s on %s, bolt %s", j->rail->name, j->into->name, tw_bolted_name(d->context, j, j->length));
    v->reach = (tw_box){ tw_min(-j->d, under_head(j) - j->head), d->low, d->end, d->high };
    v->round_mm = ROUND_MM;
    tw_view_row(v, -j->d, 0.0, bare(d, j->d), size(d, j->into, j->d));
    if (j->k > 0.0) tw_view_row(v, -j->d, j->k - j->d, bare(d, j->k), of(d, "counterbore", j->k));
    tw_view_row(v, -j->h, j->s - j->h, said(d, "s", j->s), of(d, "dowel_from_end", j->s));
    tw_view_row(v, -j->h, j->b_depth - j->h, bare(d, j->b_depth), of(d, "rail_hole_depth", j->b_depth));
    tw_view_row(v, under_head(j), under_head(j) + j->length, said(d, "L", j->length), of(d, "bolt_length", j->length));
    if (j->h > 0.0) tw_view_row(v, -j->h, 0.0, said(d, "let in", j->h), of(d, "housed", j->h));
    tw_view_column(v, d->axis - j->dd / 2.0, d->axis + j->dd / 2.0, bare(d, j->dd), of(d, "dowel", j->dd));
    if (j->k > 0.0) tw_view_column(v, d->axis - j->kw / 2.0, d->axis + j->kw / 2.0, bare(d, j->kw),
        of(d, "counterbore_width", j->kw));
    if (!d->post_goes_on) tw_view_column(v, d->axis - j->across, d->axis - j->across + j->e, bare(d, j->e),
        size(d, j->into, j->e));
}

static void begin_end(const drawing *d, tw_joint_view *v)
{
    const tw_bolted *j = d->j;
    v->title = "The end";
    v->whose = tw_format(d->context->arena, "hole %s, cross dowel %s x %s", bare(d, j->hole), bare(d, j->dd), bare(d, j->dl));
    v->reach = (tw_box){ 0.0, 0.0, j->a.thickness_mm, j->a.width_mm };
    v->round_mm = ROUND_MM;
    tw_view_row(v, 0.0, j->z, bare(d, j->z), of(d, "from_back", j->z));
    tw_view_row(v, 0.0, j->a.thickness_mm, bare(d, j->a.thickness_mm), size(d, j->rail, j->a.thickness_mm));
    if (j->dowel_face == TW_SIDE_FACE) tw_view_row(v, j->a.thickness_mm - j->dowel_depth, j->a.thickness_mm,
        said(d, "deep", j->dowel_depth), of(d, "dowel_depth", j->dowel_depth));
    if (j->dowel_face == TW_SIDE_BACK) tw_view_row(v, 0.0, j->dowel_depth, said(d, "deep", j->dowel_depth),
        of(d, "dowel_depth", j->dowel_depth));
    if (j->dowel_face == TW_SIDE_FACE_EDGE) tw_view_column(v, 0.0, j->dowel_depth, said(d, "deep", j->dowel_depth),
        of(d, "dowel_depth", j->dowel_depth));
    if (j->dowel_face == TW_SIDE_BACK_EDGE) tw_view_column(v, j->a.width_mm - j->dowel_depth, j->a.width_mm,
        said(d, "deep", j->dowel_depth), of(d, "dowel_depth", j->dowel_depth));
    tw_view_column(v, 0.0, j->y, bare(d, j->y), of(d, "from_edge", j->y));
    tw_view_column(v, 0.0, j->a.width_mm, bare(d, j->a.width_mm), size(d, j->rail, j->a.width_mm));
    if (j->pegs == 2) tw_view_column(v, j->y - j->peg_spacing / 2.0, j->y + j->peg_spacing / 2.0, bare(d, j->peg_spacing),
        of(d, "peg_spacing", j->peg_spacing));
    if (j->pegs == 1) tw_view_column(v, j->y - j->peg_spacing / 2.0, j->y, bare(d, j->peg_spacing / 2.0), (tw_source){ 0 });
}

/* ---- regions of the section ---- */

typedef struct region { tw_vertex at[REGION_POINTS_MOST]; int count; } region;  // x: u; y: w

static void corner(region *r, double u, double w) { r->at[r->count++] = (tw_vertex){ u, w, 0.0 }; }

/* A peg's hole goes `deep` from u = -h; the border comes along w upwards. */
static void peg_notch(const drawing *d, region *r, bool upper, double deep, bool outward)
{
    const tw_bolted *j = d->j;
    if (!d->level || (upper ? j->pegs < 2 : j->pegs < 1)) return;
    double in = j->peg_spacing / 2.0 - j->peg / 2.0, out = in + j->peg, first = outward ? in : out, last = outward ? out : in;
    corner(r, -j->h, first);
    corner(r, -j->h + deep, first);
    corner(r, -j->h + deep, last);
    corner(r, -j->h, last);
}

static region post_region(const drawing *d, bool upper)
{
    const tw_bolted *j = d->j;
    double edge = upper ? d->size - d->axis : d->axis, reach = upper ? d->high - d->axis : d->axis - d->low;
    if (!d->post_goes_on) reach = upper ? j->e - j->across : j->across;
    region r = { .count = 0 };
    double bore = j->k > 0.0 ? j->kw / 2.0 : j->hole / 2.0;
    corner(&r, -j->d, bore);
    if (j->k > 0.0) {
        corner(&r, -j->d + j->k, bore);
        corner(&r, -j->d + j->k, j->hole / 2.0);
    }
    corner(&r, -j->h, j->hole / 2.0);
    peg_notch(d, &r, upper, -j->peg_hole, true);
    if (j->h > 0.0 && edge < reach - 1e-9) {
        corner(&r, -j->h, edge);
        corner(&r, 0.0, edge);
    }
    corner(&r, j->h > 0.0 && edge >= reach - 1e-9 ? -j->h : 0.0, reach);
    corner(&r, -j->d, reach);
    return r;
}

/* Begins past the dowel's arc, so that its first points are the hole's bottom. */
static region rail_region(const drawing *d, bool upper)
{
    const tw_bolted *j = d->j;
    double edge = upper ? d->size - d->axis : d->axis, radius = j->dd / 2.0, w = j->hole / 2.0, half = radius > w ? sqrt(radius * radius - w * w) : 0.0;
    region r = { .count = 0 };
    corner(&r, -j->h, w);
    if (half > 0.0) {
        corner(&r, j->s - j->h - half, w);
        r.at[r.count - 1].bulge = -tan(acos(w / radius) / 2.0);
        corner(&r, j->s - j->h + half, w);
    }
    corner(&r, j->b_depth - j->h, w);
    corner(&r, j->b_depth - j->h, 0.0);
    corner(&r, d->end, 0.0);
    corner(&r, d->end, edge);
    corner(&r, -j->h, edge);
    peg_notch(d, &r, upper, j->peg_hole, false);
    return r;
}

static tw_outline on_paper(const drawing *d, const tw_joint_view *v, const region *r, bool upper)
{
    tw_loop loop = { TW_NEW_ARRAY(v->sheet->arena, tw_vertex, (size_t)r->count), r->count };
    for (int i = 0; i < r->count; i++) {
        tw_point p = tw_view_at(v, r->at[i].x, d->axis + (upper ? r->at[i].y : -r->at[i].y));
        loop.vertices[i] = (tw_vertex){ p.x, p.y, upper ? r->at[i].bulge : -r->at[i].bulge };
    }
    return tw_outline_of_loop(v->sheet->arena, loop.vertices, loop.count);
}

static void draw_border(const drawing *d, const tw_joint_view *v, const region *r, bool upper, int from, int to)
{
    double sign = upper ? 1.0 : -1.0;
    for (int i = from; i < to; i++) {
        if (r->at[i % r->count].bulge != 0.0) continue;  // the dowel's own circle
        const tw_vertex *a = &r->at[i % r->count], *b = &r->at[(i + 1) % r->count];
        tw_view_line(v, TW_ROLE_CUT, a->x, d->axis + sign * a->y, b->x, d->axis + sign * b->y);
    }
}

static void draw_half(const drawing *d, const tw_joint_view *v, bool upper)
{
    region post = post_region(d, upper), rail = rail_region(d, upper);
    double sign = upper ? 1.0 : -1.0;
    tw_draw_hatch(v->sheet, on_paper(d, v, &post, upper), HATCH_MM, TW_PI / 4.0);
    tw_draw_hatch(v->sheet, on_paper(d, v, &rail, upper), HATCH_MM, -TW_PI / 4.0);
    draw_border(d, v, &post, upper, 0, post.count - (d->post_goes_on ? 2 : 1));  // where the post goes on there is no border
    draw_border(d, v, &post, upper, post.count - 1, post.count);
    if (d->post_goes_on) tw_view_line(v, TW_ROLE_FAINT, -d->j->d, d->axis + sign * post.at[post.count - 1].y, 0.0, d->axis + sign * post.at[post.count - 1].y);
    int last = rail.count;
    while (rail.at[last - 1].x < d->end - 1e-9) last--;  // the far corner at the edge
    draw_border(d, v, &rail, upper, 0, last - 3);
    draw_border(d, v, &rail, upper, last - 1, rail.count);
    tw_view_line(v, TW_ROLE_FAINT, d->end, d->axis, d->end, d->axis + sign * rail.at[last - 1].y);
}

/* ---- steel and pegs ---- */

static void box(const tw_joint_view *v, tw_role role, double a0, double b0, double a1, double b1)
{
    tw_view_path(v, role, (tw_point[]){ { a0, b0 }, { a1, b0 }, { a1, b1 }, { a0, b1 }, { a0, b0 } }, 5);
}

static void circle(const tw_joint_view *v, tw_role role, double a, double b, double radius)
{
    tw_point at = tw_view_at(v, a, b);
    tw_draw_circle(v->sheet, role, at.x, at.y, radius * v->scale);
}

static void draw_steel(const drawing *d, const tw_joint_view *v)
{
    const tw_bolted *j = d->j;
    double from = under_head(j), half = j->size.diameter / 2.0, head = j->spec->head.value == TW_HEAD_SOCKET ? 0.8 * j->size.diameter : 0.55 * j->size.spanner;
    box(v, TW_ROLE_VISIBLE, from - j->head, d->axis - head, from, d->axis + head);
    box(v, TW_ROLE_VISIBLE, from, d->axis - j->washer / 2.0, from + j->size.washer_thick, d->axis + j->washer / 2.0);
    box(v, TW_ROLE_VISIBLE, from + j->size.washer_thick, d->axis - half, from + j->length, d->axis + half);
    circle(v, TW_ROLE_VISIBLE, j->s - j->h, d->axis, j->dd / 2.0);
    tw_view_line(v, TW_ROLE_CENTRE, v->reach.x0, d->axis, d->end, d->axis);
    tw_view_line(v, TW_ROLE_CENTRE, j->s - j->h, d->axis - j->dd / 2.0 - 2.0, j->s - j->h, d->axis + j->dd / 2.0 + 2.0);
}

static void draw_pegs(const drawing *d, const tw_joint_view *v)
{
    const tw_bolted *j = d->j;
    double off[TW_BOLTED_PEGS_MOST];
    int count = d->level ? tw_bolted_peg_spots(j, off) : 0;
    for (int i = 0; i < count; i++) {
        double low = d->axis + off[i] - j->peg / 2.0, high = low + j->peg;
        box(v, TW_ROLE_CUT, -j->h - j->peg_depth, low, -j->h + j->peg_depth, high);
        tw_view_hatch(v, -j->h - j->peg_depth, low, -j->h + j->peg_depth, high, 0.0);
    }
}

static void draw_end(const drawing *d, const tw_joint_view *v)
{
    const tw_bolted *j = d->j;
    double off[TW_BOLTED_PEGS_MOST], w = j->a.width_mm, t = j->a.thickness_mm, r = j->dd / 2.0;
    box(v, TW_ROLE_VISIBLE, 0.0, 0.0, t, w);
    if (d->level) {
        double z0 = j->dowel_face == TW_SIDE_BACK ? 0.0 : t - j->dowel_depth;
        box(v, TW_ROLE_HIDDEN, z0, j->y - r, z0 + j->dowel_depth, j->y + r);
    } else {
        double y0 = j->dowel_face == TW_SIDE_FACE_EDGE ? 0.0 : w - j->dowel_depth;
        box(v, TW_ROLE_HIDDEN, j->z - r, y0, j->z + r, y0 + j->dowel_depth);
    }
    circle(v, TW_ROLE_VISIBLE, j->z, j->y, j->hole / 2.0);
    int count = tw_bolted_peg_spots(j, off);
    for (int i = 0; i < count; i++) circle(v, TW_ROLE_VISIBLE, j->z, j->y + off[i], j->peg / 2.0);
    tw_view_line(v, TW_ROLE_CENTRE, j->z, -2.0, j->z, w + 2.0);
    tw_view_line(v, TW_ROLE_CENTRE, -2.0, j->y, t + 2.0, j->y);
}

const char *tw_bolted_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_bolted *j = plan->own;
    if (!j || !tw_bolted_possible(j)) return tw_view_none(sheet, room);
    drawing d = drawing_of(context, plan, j);
    tw_joint_view views[2] = { { .sheet = sheet }, { .sheet = sheet } };
    begin_section(&d, &views[0]);
    begin_end(&d, &views[1]);
    const char *scale = tw_views_place(views, context->arena, tw_view_room(room, HIGH_MM));
    draw_half(&d, &views[0], true);
    draw_half(&d, &views[0], false);
    draw_pegs(&d, &views[0]);
    draw_steel(&d, &views[0]);
    draw_end(&d, &views[1]);
    tw_views_measure(views);
    return scale;
}
