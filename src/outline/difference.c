// SPDX-License-Identifier: GPL-3.0-or-later
/* The greatest distance between two borders (Hausdorff), by halving stretches of each edge.
 *
 * For a stretch of length l between points at distances e and f from the other border, no point between is farther than
 *     (e + f + l) / 2                                                                           (1)
 * which is poor where the borders run along each other. There, if one edge of the other border lies beside both ends,
 *     max(e, f) + l^2 / 4 * (difference of the curvatures of the two edges)                     (2)
 * e and f being the distances to that edge. A stretch whose bound cannot raise the answer by more than its hundredth and
 * 1e-7 mm is left. */
#include "outline/edge.h"

#define EXACT_MM 0.5e-7
#define EXACT_PART 0.005
#define MOST_STRETCHES 200000  // per edge, before what has been found is taken

typedef struct reach { double far; int nearest; } reach;

static reach reach_of(tw_curve_list border, tw_point p, int guess)
{
    reach r = { tw_curve_distance(&border.items[guess], p), guess };
    for (int i = 0; i < border.count; i++) {
        if (i == guess || tw_box_beyond(border.items[i].box, p, r.far)) continue;
        double far = tw_curve_distance(&border.items[i], p);
        if (far < r.far) r = (reach){ far, i };
    }
    return r;
}

typedef struct stretch { double from, to; tw_point a, b; reach at_a, at_b; } stretch;

/* Towards the centre, in size 1 / radius. */
static tw_point curvature_at(const tw_curve *curve, tw_point p)
{
    if (curve->bulge == 0.0) return (tw_point){ 0.0, 0.0 };
    tw_point way = tw_minus(tw_arc_centre_from_a(curve), tw_minus(p, curve->a));
    double scale = 1.0 / (tw_length(way) * curve->radius);
    return (tw_point){ way.x * scale, way.y * scale };
}

static bool lies_beside(const tw_curve *curve, tw_point p)
{
    double x = tw_dot(curve->along, tw_minus(p, curve->a));
    return x >= -TW_SAME_POINT_MM && x <= curve->chord + TW_SAME_POINT_MM;
}

/* (2), or infinity where it does not hold. */
static double bound_beside(const tw_curve *edge, const stretch *s, double length, const tw_curve *other)
{
    if (!lies_beside(other, s->a) || !lies_beside(other, s->b)) return INFINITY;
    double far = tw_max(tw_curve_distance(other, s->a), tw_curve_distance(other, s->b));
    if (other->radius > 0.0 && far + length > 0.2 * other->radius) return INFINITY;
    tw_point k = tw_minus(curvature_at(edge, s->a), curvature_at(other, s->a));
    double turning = other->radius > 0.0 && far > 0.0 ? length * tw_square(1.0 / other->radius) : 0.0;
    return far + length * length / 4.0 * (tw_length(k) + turning);
}

static double bound_of(const tw_curve *edge, const stretch *s, double length, tw_curve_list border)
{
    double bound = (s->at_a.far + s->at_b.far + length) / 2.0;
    bound = tw_min(bound, bound_beside(edge, s, length, &border.items[s->at_a.nearest]));
    if (s->at_b.nearest != s->at_a.nearest) bound = tw_min(bound, bound_beside(edge, s, length, &border.items[s->at_b.nearest]));
    return bound;
}

/* Raises the answer to the farthest point of one edge. The stretches still to look at are kept on a small stack: each
 * halving leaves one of its halves there. */
static double farthest_on(const tw_curve *edge, tw_curve_list border, double answer)
{
    stretch stack[64];
    double length = tw_curve_length(edge);
    int depth = 0, looked_at = 0;
    reach start = reach_of(border, edge->a, 0);
    stack[depth++] = (stretch){ 0.0, 1.0, edge->a, edge->b, start, reach_of(border, edge->b, start.nearest) };
    answer = tw_max(answer, tw_max(stack[0].at_a.far, stack[0].at_b.far));
    while (depth > 0 && looked_at++ < MOST_STRETCHES) {
        stretch s = stack[--depth];
        double part = length * (s.to - s.from);
        if (bound_of(edge, &s, part, border) <= answer * (1.0 + EXACT_PART) + EXACT_MM || depth > 60) continue;
        double half = (s.from + s.to) / 2.0;
        tw_point middle = tw_curve_at(edge, half);
        reach at_middle = reach_of(border, middle, s.at_a.nearest);
        answer = tw_max(answer, at_middle.far);
        stack[depth++] = (stretch){ half, s.to, middle, s.b, at_middle, s.at_b };
        stack[depth++] = (stretch){ s.from, half, s.a, middle, s.at_a, at_middle };
    }
    return answer;
}

/* A first answer, from few places: the better it is, the fewer stretches have to be looked at. */
static double farthest_sample(tw_curve_list of, tw_curve_list border)
{
    double answer = 0.0;
    int guess = 0;
    for (int i = 0; i < of.count; i++)
        for (int k = 0; k < 4; k++) {
            reach r = reach_of(border, tw_curve_at(&of.items[i], k / 4.0), guess);
            answer = tw_max(answer, r.far);
            guess = r.nearest;
        }
    return answer;
}

double tw_outline_difference_mm(tw_arena *arena, tw_outline a, tw_outline b)
{
    if (a.count == 0 || b.count == 0) return a.count == b.count ? 0.0 : INFINITY;
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_curve_list of_a = tw_curves_of_outline(&working, a), of_b = tw_curves_of_outline(&working, b);
    double answer = tw_max(farthest_sample(of_a, of_b), farthest_sample(of_b, of_a));
    for (int i = 0; i < of_a.count; i++) answer = farthest_on(&of_a.items[i], of_b, answer);
    for (int i = 0; i < of_b.count; i++) answer = farthest_on(&of_b.items[i], of_a, answer);
    tw_arena_finish(&working);
    return answer;
}
