// SPDX-License-Identifier: GPL-3.0-or-later
/* What is seen of solids in a parallel view.
 *
 * Every edge is parted where an edge of a facet that looks at the eye crosses it on paper. Between two such places it is seen
 * or hidden along its whole length, so that one place in the middle tells: it is hidden when on both sides of it a facet lies
 * nearer to the eye. (On one side only: the edge is the border of what hides it.) The two facets that meet in an edge do not
 * hide it. */
#include "solid/solid.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "solid/strokes.h"

#define ASIDE_MM 1e-3     // how far beside an edge it is asked what hides it: far below a line's width, above rounding
#define NEARER_MM 2e-3    // what is nearer by less than this lies in one plane with it

/* A point on paper and how near it is to the eye. */
typedef struct seen { double x, y, near; } seen;

typedef struct screen {        // a facet that looks at the eye
    int      stood, facet;
    seen   **wires;  int *counts;  int wire_count;
    double   x0, y0, x1, y1, nearest;
    double   slope_x, slope_y, near0;   // near = near0 + slope_x x + slope_y y
} screen;

typedef struct line_seen { seen from, to; int stood, left, right; bool curved, turned_away; } line_seen;

typedef struct view {
    tw_arena       *arena;
    tw_sight        sight;
    const tw_stood *list;
    screen         *screens;  size_t screen_count, screen_room;
    line_seen      *lines;    size_t line_count, line_room;
    double         *parts;    size_t part_count, part_room;
    const screen  **candidates;
} view;

tw_sight tw_sight_of_face(tw_face face)
{
    tw_frame f = tw_face_frame(face);
    return (tw_sight){ f.right, f.up, f.out };
}

/* Isometric: the three axes come out equally short, x and y at 30 degrees to the level. */
tw_sight tw_sight_pictorial(void)
{
    double h = sqrt(0.5), l = sqrt(1.0 / 6.0), t = sqrt(1.0 / 3.0);
    return (tw_sight){ { h, h, 0.0 }, { -l, l, 2.0 * l }, { t, -t, t } };
}

static tw_spot quarter_turned(tw_spot s) { return (tw_spot){ s.y, -s.x, s.z }; }

tw_sight tw_sight_turned(tw_sight sight, int quarters)
{
    for (int i = 0; i < (quarters % 4 + 4) % 4; i++)
        sight = (tw_sight){ quarter_turned(sight.right), quarter_turned(sight.up), quarter_turned(sight.toward) };
    return sight;
}

tw_point tw_sight_place(tw_sight sight, tw_spot spot)
{
    return (tw_point){ tw_spot_product(sight.right, spot), tw_spot_product(sight.up, spot) };
}

static seen seen_of(const view *v, const tw_stood *stood, int point)
{
    tw_spot spot = tw_pose_apply(stood->pose, stood->solid->points[point]);
    return (seen){ tw_spot_product(v->sight.right, spot), tw_spot_product(v->sight.up, spot), tw_spot_product(v->sight.toward, spot) };
}

/* ---- what hides ---- */

static bool looks_here(const view *v, const tw_stood *stood, int facet)
{
    return tw_spot_product(v->sight.toward, tw_pose_turn(stood->pose, stood->solid->facets[facet].out)) > 1e-7;
}

static void add_screen(view *v, int index, int facet)
{
    const tw_stood *stood = &v->list[index];
    const tw_facet *f = &stood->solid->facets[facet];
    tw_spot out = tw_pose_turn(stood->pose, f->out);
    double toward = tw_spot_product(v->sight.toward, out);
    screen s = { .stood = index, .facet = facet, .wire_count = f->wire_count, .x0 = INFINITY, .y0 = INFINITY, .x1 = -INFINITY, .y1 = -INFINITY,
                 .nearest = -INFINITY, .wires = TW_NEW_ARRAY(v->arena, seen *, (size_t)f->wire_count), .counts = TW_NEW_ARRAY(v->arena, int, (size_t)f->wire_count) };
    s.slope_x = -tw_spot_product(v->sight.right, out) / toward;
    s.slope_y = -tw_spot_product(v->sight.up, out) / toward;
    for (int i = 0; i < f->wire_count; i++) {
        s.counts[i] = f->wires[i].count;
        s.wires[i] = TW_NEW_ARRAY(v->arena, seen, (size_t)s.counts[i]);
        for (int j = 0; j < s.counts[i]; j++) {
            seen p = s.wires[i][j] = seen_of(v, stood, f->wires[i].points[j]);
            s.x0 = tw_min(s.x0, p.x), s.x1 = tw_max(s.x1, p.x), s.y0 = tw_min(s.y0, p.y), s.y1 = tw_max(s.y1, p.y);
            s.nearest = tw_max(s.nearest, p.near);
        }
    }
    s.near0 = s.wires[0][0].near - s.slope_x * s.wires[0][0].x - s.slope_y * s.wires[0][0].y;
    tw_array_make_room(v->arena, &v->screens, v->screen_count, &v->screen_room, sizeof *v->screens);
    v->screens[v->screen_count++] = s;
}

static bool covers(const screen *s, double x, double y)
{
    bool inside = false;
    for (int i = 0; i < s->wire_count; i++)
        for (int j = 0; j < s->counts[i]; j++) {
            seen a = s->wires[i][j], b = s->wires[i][(j + 1) % s->counts[i]];
            if ((a.y > y) != (b.y > y) && x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
        }
    return inside;
}

static bool hidden_at(const view *v, size_t candidates, seen p)
{
    for (size_t i = 0; i < candidates; i++) {
        const screen *s = v->candidates[i];
        if (p.x < s->x0 || p.x > s->x1 || p.y < s->y0 || p.y > s->y1) continue;
        if (s->near0 + s->slope_x * p.x + s->slope_y * p.y > p.near + NEARER_MM && covers(s, p.x, p.y)) return true;
    }
    return false;
}

/* ---- edges ---- */

static void add_line(view *v, int index, const tw_crease *crease, bool with_hidden)
{
    const tw_stood *stood = &v->list[index];
    bool left = looks_here(v, stood, crease->left), right = looks_here(v, stood, crease->right);
    if (crease->smooth && left == right) return;
    if (!left && !right && !with_hidden) return;
    line_seen line = { .from = seen_of(v, stood, crease->from), .to = seen_of(v, stood, crease->to), .stood = index, .left = crease->left,
                       .right = crease->right, .turned_away = !left && !right };
    const tw_facet *facets = stood->solid->facets;
    line.curved = !crease->smooth && (facets[crease->left].bend_rad > 0.0 || facets[crease->right].bend_rad > 0.0);
    if (hypot(line.to.x - line.from.x, line.to.y - line.from.y) < ASIDE_MM) return;
    tw_array_make_room(v->arena, &v->lines, v->line_count, &v->line_room, sizeof *v->lines);
    v->lines[v->line_count++] = line;
}

static void gather(view *v, int count, bool with_hidden)
{
    for (int i = 0; i < count; i++) {
        const tw_solid *solid = v->list[i].solid;
        for (int f = 0; f < solid->facet_count; f++)
            if (solid->facets[f].wire_count > 0 && solid->facets[f].wires[0].count > 2 && looks_here(v, &v->list[i], f)) add_screen(v, i, f);
        for (int c = 0; c < solid->crease_count; c++) add_line(v, i, &solid->creases[c], with_hidden);
    }
    v->candidates = TW_NEW_ARRAY(v->arena, const screen *, v->screen_count + 1);
}

static size_t find_candidates(view *v, const line_seen *line)
{
    double x0 = tw_min(line->from.x, line->to.x) - ASIDE_MM, x1 = tw_max(line->from.x, line->to.x) + ASIDE_MM;
    double y0 = tw_min(line->from.y, line->to.y) - ASIDE_MM, y1 = tw_max(line->from.y, line->to.y) + ASIDE_MM;
    double farthest = tw_min(line->from.near, line->to.near);
    size_t count = 0;
    for (size_t i = 0; i < v->screen_count; i++) {
        const screen *s = &v->screens[i];
        if (s->x1 < x0 || s->x0 > x1 || s->y1 < y0 || s->y0 > y1 || s->nearest < farthest) continue;
        if (s->stood == line->stood && (s->facet == line->left || s->facet == line->right)) continue;
        v->candidates[count++] = s;
    }
    return count;
}

static void add_part(view *v, double part)
{
    tw_array_make_room(v->arena, &v->parts, v->part_count, &v->part_room, sizeof *v->parts);
    v->parts[v->part_count++] = part;
}

/* Where the edge a to b on paper is crossed, or touched, by an edge of the screen; as a part of its length. */
static void add_crossings(view *v, const line_seen *line, seen a, seen b)
{
    double ex = line->to.x - line->from.x, ey = line->to.y - line->from.y, length = hypot(ex, ey);
    double ha = (ex * (a.y - line->from.y) - ey * (a.x - line->from.x)) / length;
    double hb = (ex * (b.y - line->from.y) - ey * (b.x - line->from.x)) / length;
    if ((ha > ASIDE_MM && hb > ASIDE_MM) || (ha < -ASIDE_MM && hb < -ASIDE_MM)) return;
    double ta = ((a.x - line->from.x) * ex + (a.y - line->from.y) * ey) / tw_square(length);
    double tb = ((b.x - line->from.x) * ex + (b.y - line->from.y) * ey) / tw_square(length);
    if (fabs(ha) <= ASIDE_MM && ta > 0.0 && ta < 1.0) add_part(v, ta);
    if (fabs(hb) <= ASIDE_MM && tb > 0.0 && tb < 1.0) add_part(v, tb);
    if ((ha > 0.0) == (hb > 0.0)) return;
    double t = ta + (tb - ta) * ha / (ha - hb);
    if (t > 0.0 && t < 1.0) add_part(v, t);
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static seen between(const line_seen *line, double t)
{
    return (seen){ line->from.x + t * (line->to.x - line->from.x), line->from.y + t * (line->to.y - line->from.y),
                   line->from.near + t * (line->to.near - line->from.near) };
}

static bool part_is_hidden(const view *v, size_t candidates, const line_seen *line, double t)
{
    seen p = between(line, t), q = p;
    double length = hypot(line->to.x - line->from.x, line->to.y - line->from.y);
    double aside_x = -(line->to.y - line->from.y) / length * ASIDE_MM, aside_y = (line->to.x - line->from.x) / length * ASIDE_MM;
    p.x += aside_x, p.y += aside_y;
    q.x -= aside_x, q.y -= aside_y;
    return hidden_at(v, candidates, p) && hidden_at(v, candidates, q);
}

static void put_part(view *v, tw_strokes *strokes, const line_seen *line, double t0, double t1, bool hidden)
{
    seen a = between(line, t0), b = between(line, t1);
    tw_strokes_add(v->arena, strokes, (tw_stroke){ { a.x, a.y }, { b.x, b.y }, hidden, line->stood, line->curved, line->left, line->right });
}

/* Parts of one line, neighbours that are seen alike as one. */
static void see_line(view *v, const line_seen *line, tw_strokes *strokes, bool with_hidden)
{
    size_t candidates = find_candidates(v, line);
    v->part_count = 0;
    add_part(v, 0.0);
    add_part(v, 1.0);
    for (size_t i = 0; i < candidates; i++)
        for (int w = 0; w < v->candidates[i]->wire_count; w++)
            for (int j = 0, n = v->candidates[i]->counts[w]; j < n; j++)
                add_crossings(v, line, v->candidates[i]->wires[w][j], v->candidates[i]->wires[w][(j + 1) % n]);
    qsort(v->parts, v->part_count, sizeof *v->parts, by_size);
    double length = hypot(line->to.x - line->from.x, line->to.y - line->from.y), start = 0.0;
    bool was = false, any = false;
    for (size_t i = 0; i + 1 < v->part_count; i++) {
        if ((v->parts[i + 1] - v->parts[i]) * length < ASIDE_MM && i + 2 < v->part_count) continue;
        bool hidden = line->turned_away || part_is_hidden(v, candidates, line, (v->parts[i] + v->parts[i + 1]) / 2.0);
        if (any && hidden != was) {
            if (!was || with_hidden) put_part(v, strokes, line, start, v->parts[i], was);
            start = v->parts[i];
        }
        was = hidden;
        any = true;
    }
    if (any && (!was || with_hidden)) put_part(v, strokes, line, start, 1.0, was);
}

tw_strokes tw_view_make(tw_arena *arena, tw_sight sight, const tw_stood *list, int count, bool with_hidden)
{
    view v = { .arena = arena, .sight = sight, .list = list };
    gather(&v, count, with_hidden);
    tw_strokes strokes = {0};
    for (size_t i = 0; i < v.line_count; i++) see_line(&v, &v.lines[i], &strokes, with_hidden);
    return tw_strokes_tidy(arena, &strokes);
}

tw_box tw_view_reach(tw_sight sight, const tw_stood *list, int count)
{
    tw_box box = { INFINITY, INFINITY, -INFINITY, -INFINITY };
    for (int i = 0; i < count; i++)
        for (int p = 0; p < list[i].solid->point_count; p++) {
            tw_point at = tw_sight_place(sight, tw_pose_apply(list[i].pose, list[i].solid->points[p]));
            box = (tw_box){ tw_min(box.x0, at.x), tw_min(box.y0, at.y), tw_max(box.x1, at.x), tw_max(box.y1, at.y) };
        }
    return box;
}
