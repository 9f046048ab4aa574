// SPDX-License-Identifier: GPL-3.0-or-later
/* Strokes: no two on each other, straight ones joined, chords of one circle drawn as an arc. */
#include "solid/strokes.h"

#include <math.h>
#include <stdlib.h>

#define ON_MM 3e-3       // strokes that lie within this of each other are one line on paper
#define LEAST_MM 2e-3    // a shorter rest of a stroke is nothing

void tw_strokes_add(tw_arena *arena, tw_strokes *strokes, tw_stroke stroke)
{
    tw_array_make_room(arena, &strokes->items, strokes->count, &strokes->room, sizeof *strokes->items);
    strokes->items[strokes->count++] = stroke;
}

static double length_of(tw_point a, tw_point b) { return hypot(b.x - a.x, b.y - a.y); }

static bool boxes_apart(const tw_stroke *a, const tw_stroke *b)
{
    return tw_max(a->from.x, a->to.x) < tw_min(b->from.x, b->to.x) - ON_MM || tw_max(b->from.x, b->to.x) < tw_min(a->from.x, a->to.x) - ON_MM
        || tw_max(a->from.y, a->to.y) < tw_min(b->from.y, b->to.y) - ON_MM || tw_max(b->from.y, b->to.y) < tw_min(a->from.y, a->to.y) - ON_MM;
}

/* Place of a point along a stroke, and how far beside it. */
static double along(const tw_stroke *s, tw_point p, double *beside)
{
    double dx = s->to.x - s->from.x, dy = s->to.y - s->from.y, length = hypot(dx, dy);
    *beside = fabs(dx * (p.y - s->from.y) - dy * (p.x - s->from.x)) / length;
    return (dx * (p.x - s->from.x) + dy * (p.y - s->from.y)) / length;
}

/* Both lie on one line: the ends of the shorter are on the longer. lo, hi: the other's reach along s. */
static bool on_one_line(const tw_stroke *s, const tw_stroke *other, double *lo, double *hi)
{
    if (boxes_apart(s, other)) return false;
    double b0, b1, t0 = along(s, other->from, &b0), t1 = along(s, other->to, &b1);
    if (length_of(other->from, other->to) > length_of(s->from, s->to)) {
        double c0, c1;
        along(other, s->from, &c0);
        along(other, s->to, &c1);
        b0 = c0, b1 = c1;
    }
    *lo = tw_min(t0, t1);
    *hi = tw_max(t0, t1);
    return b0 <= ON_MM && b1 <= ON_MM;
}

static tw_stroke part_of(const tw_stroke *s, double from, double to)
{
    double length = length_of(s->from, s->to), dx = (s->to.x - s->from.x) / length, dy = (s->to.y - s->from.y) / length;
    tw_stroke part = *s;
    part.from = (tw_point){ s->from.x + dx * from, s->from.y + dy * from };
    part.to = (tw_point){ s->from.x + dx * to, s->from.y + dy * to };
    return part;
}

/* Adds what of the stroke lies under none of those from index `first` on. */
static void add_uncovered(tw_arena *arena, tw_strokes *into, tw_stroke s, size_t first)
{
    for (size_t i = first; i < into->count; i++) {
        double lo, hi, length = length_of(s.from, s.to);
        if (!on_one_line(&s, &into->items[i], &lo, &hi) || hi <= LEAST_MM || lo >= length - LEAST_MM) continue;
        if (lo > LEAST_MM) add_uncovered(arena, into, part_of(&s, 0.0, lo), i + 1);
        if (hi >= length - LEAST_MM) return;
        s = part_of(&s, hi, length);
    }
    if (length_of(s.from, s.to) > LEAST_MM) tw_strokes_add(arena, into, s);
}

/* Lengthens an earlier straight stroke of the same piece that the new one continues; false when there is none. */
static bool continues(tw_strokes *into, const tw_stroke *s)
{
    if (s->curved) return false;
    for (size_t i = 0; i < into->count; i++) {
        tw_stroke *old = &into->items[i];
        double lo, hi, length = length_of(old->from, old->to);
        if (old->curved || old->stood != s->stood || old->hidden != s->hidden || !on_one_line(old, s, &lo, &hi)) continue;
        if (lo > length + ON_MM || hi < -ON_MM) continue;
        *old = part_of(old, tw_min(lo, 0.0), tw_max(hi, length));
        return true;
    }
    return false;
}

static tw_strokes joined(tw_arena *arena, const tw_strokes *strokes)
{
    tw_strokes now = *strokes;
    for (size_t before = now.count + 1; now.count < before;) {
        before = now.count;
        tw_strokes next = {0};
        for (size_t i = 0; i < now.count; i++)
            if (!continues(&next, &now.items[i])) tw_strokes_add(arena, &next, now.items[i]);
        now = next;
    }
    return now;
}

tw_strokes tw_strokes_tidy(tw_arena *arena, const tw_strokes *strokes)
{
    tw_strokes tidy = {0};
    for (int hidden = 0; hidden < 2; hidden++)
        for (size_t i = 0; i < strokes->count; i++)
            if (strokes->items[i].hidden == (hidden == 1)) add_uncovered(arena, &tidy, strokes->items[i], 0);
    return joined(arena, &tidy);
}

/* ---- drawing ---- */

typedef struct pen { tw_sheet *sheet; double scale; tw_point at; tw_role visible, hidden; } pen;

static tw_point on_paper(const pen *p, tw_point q) { return (tw_point){ p->at.x + p->scale * q.x, p->at.y + p->scale * q.y }; }

static bool same(tw_point a, tw_point b) { return length_of(a, b) <= ON_MM; }

/* Centre of the circle through three points; false when they lie on a line. */
static bool circle_of(tw_point a, tw_point b, tw_point c, tw_point *centre)
{
    double bx = b.x - a.x, by = b.y - a.y, cx = c.x - a.x, cy = c.y - a.y, d = 2.0 * (bx * cy - by * cx);
    if (fabs(d) < 1e-6) return false;
    double bb = bx * bx + by * by, cc = cx * cx + cy * cy;
    *centre = (tw_point){ a.x + (cy * bb - by * cc) / d, a.y + (bx * cc - cx * bb) / d };
    return true;
}

/* A chain of chords: points in order. */
typedef struct chain { tw_point *points; size_t count, room; bool hidden; } chain;

static bool chain_on_circle(const chain *c, tw_point centre, double radius)
{
    for (size_t i = 0; i < c->count; i++)
        if (fabs(length_of(centre, c->points[i]) - radius) > 10.0 * ON_MM) return false;
    return true;
}

static void draw_chain(const pen *p, const chain *c)
{
    tw_role role = c->hidden ? p->hidden : p->visible;
    tw_point centre;
    bool closed = same(c->points[0], c->points[c->count - 1]);
    if (c->count >= 4 && circle_of(c->points[0], c->points[c->count / 3], c->points[2 * c->count / 3], &centre)) {
        double radius = length_of(centre, c->points[0]);
        if (chain_on_circle(c, centre, radius)) {
            double start = atan2(c->points[0].y - centre.y, c->points[0].x - centre.x), sweep = 0.0, last = start;
            for (size_t i = 1; i < c->count; i++) {
                double now = atan2(c->points[i].y - centre.y, c->points[i].x - centre.x);
                sweep += remainder(now - last, 2.0 * TW_PI);
                last = now;
            }
            if (closed) sweep = sweep > 0.0 ? 2.0 * TW_PI : -2.0 * TW_PI;
            tw_point at = on_paper(p, centre);
            tw_draw_arc(p->sheet, role, at.x, at.y, radius * p->scale, start, sweep);
            return;
        }
    }
    for (size_t i = 0; i + 1 < c->count; i++) {
        tw_point a = on_paper(p, c->points[i]), b = on_paper(p, c->points[i + 1]);
        tw_draw_line(p->sheet, role, a.x, a.y, b.x, b.y);
    }
}

static void add_point(tw_arena *arena, chain *c, tw_point p)
{
    tw_array_make_room(arena, &c->points, c->count, &c->room, sizeof *c->points);
    c->points[c->count++] = p;
}

/* Finds a chord, not yet used, that goes on from the chain's end without a sharp turn. */
static bool lengthen(tw_arena *arena, const tw_strokes *strokes, bool *used, chain *c, int stood)
{
    tw_point end = c->points[c->count - 1], before = c->points[c->count - 2];
    for (size_t i = 0; i < strokes->count; i++) {
        const tw_stroke *s = &strokes->items[i];
        if (used[i] || !s->curved || s->hidden != c->hidden || s->stood != stood) continue;
        if (!same(s->from, end) && !same(s->to, end)) continue;
        tw_point next = same(s->from, end) ? s->to : s->from;
        double turn = (end.x - before.x) * (next.x - end.x) + (end.y - before.y) * (next.y - end.y);
        if (turn < 0.7 * length_of(before, end) * length_of(end, next)) continue;
        used[i] = true;
        add_point(arena, c, next);
        return true;
    }
    return false;
}

static void turn_round(chain *c)
{
    for (size_t i = 0, j = c->count - 1; i < j; i++, j--) {
        tw_point kept = c->points[i];
        c->points[i] = c->points[j];
        c->points[j] = kept;
    }
}

/* Splits a chain where its bend changes sign or size, so that each part is of one circle. */
static void draw_parts(const pen *p, const chain *c)
{
    size_t start = 0;
    while (start + 1 < c->count) {
        size_t end = c->count - 1;
        for (; end > start + 3; end--) {
            chain part = { c->points + start, end - start + 1, 0, c->hidden };
            tw_point centre;
            if (circle_of(part.points[0], part.points[part.count / 3], part.points[2 * part.count / 3], &centre)
                && chain_on_circle(&part, centre, length_of(centre, part.points[0]))) break;
        }
        if (end <= start + 3) end = start + 1;
        draw_chain(p, &(chain){ c->points + start, end - start + 1, 0, c->hidden });
        start = end;
    }
}

void tw_view_draw(tw_sheet *sheet, const tw_strokes *strokes, double scale, tw_point at, tw_role visible, tw_role hidden)
{
    pen p = { sheet, scale, at, visible, hidden };
    bool *used = TW_NEW_ARRAY(sheet->arena, bool, strokes->count + 1);
    for (size_t i = 0; i < strokes->count; i++) {
        const tw_stroke *s = &strokes->items[i];
        if (used[i]) continue;
        used[i] = true;
        chain c = { .hidden = s->hidden };
        add_point(sheet->arena, &c, s->from);
        add_point(sheet->arena, &c, s->to);
        if (s->curved) {
            while (lengthen(sheet->arena, strokes, used, &c, s->stood)) {}
            turn_round(&c);
            while (lengthen(sheet->arena, strokes, used, &c, s->stood)) {}
        }
        draw_parts(&p, &c);
    }
}
