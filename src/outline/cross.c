// SPDX-License-Identifier: GPL-3.0-or-later
/* Where two lines or arcs cross.
 *
 * Line and line: they cross if the ends of each lie on both sides of the other.
 * Line and circle, in the frame of the arc: with the line q0 + t w the circle's equation (3) of edge.h gives
 *     t^2 + 2 B t + C = 0,  B = (q0 - centre).w,  C = |q0|^2 - L q0.x - 2 h q0.y                (1)
 * and it goes sqrt(B^2 - C) to both sides of the middle of what it cuts off, at a depth of (B^2 - C) / (2 r).
 * q0 is the point of the line next to the middle of the chord, so that all terms stay small near the arc.
 * Circle and circle: they cross on the line whose points have the same power to both,
 *     q.N = |o|^2 / 2 + o.c2,  N = o + c2 - c1                                                  (2)
 * with o from the start of the first arc to that of the second, and c1, c2 the centres seen from their starts. */
#include "outline/edge.h"

#define GRAZE_MM 1e-11  // a line that dips into a circle by no more than this touches it in one point

static bool in_span(const tw_curve *curve, tw_point p)
{
    tw_point q = tw_minus(p, curve->a);
    double x = tw_dot(curve->along, q);
    if (x < -TW_TOUCH_MM || x > curve->chord + TW_TOUCH_MM) return false;
    if (curve->bulge == 0.0) return true;
    double y = tw_cross(curve->along, q);
    return curve->bulge > 0.0 ? y <= TW_TOUCH_MM : y >= -TW_TOUCH_MM;
}

static int lines_cross(const tw_curve *one, const tw_curve *two, tw_point *where)
{
    double a2 = tw_cross(one->along, tw_minus(two->a, one->a)), b2 = tw_cross(one->along, tw_minus(two->b, one->a));
    if ((a2 > 0.0) == (b2 > 0.0)) return 0;
    double a1 = tw_cross(two->along, tw_minus(one->a, two->a)), b1 = tw_cross(two->along, tw_minus(one->b, two->a));
    if ((a1 > 0.0) == (b1 > 0.0)) return 0;
    double t = a2 / (a2 - b2);
    *where = (tw_point){ two->a.x + (two->b.x - two->a.x) * t, two->a.y + (two->b.y - two->a.y) * t };
    return 1;
}

/* The points of the endless line through p along the unit vector w that lie on the circle of the arc. */
static int line_on_circle(const tw_curve *arc, tw_point p, tw_point w, tw_point where[2])
{
    tw_point middle = { (arc->a.x + arc->b.x) / 2.0, (arc->a.y + arc->b.y) / 2.0 };
    double shift = tw_dot(tw_minus(middle, p), w);
    tw_point near = { p.x + w.x * shift, p.y + w.y * shift }, q = tw_minus(near, arc->a);
    tw_point q0 = { tw_dot(arc->along, q), tw_cross(arc->along, q) };
    tw_point way = { tw_dot(arc->along, w), tw_cross(arc->along, w) };
    double b = (q0.x - arc->chord / 2.0) * way.x + (q0.y - arc->rise) * way.y;
    double c = q0.x * q0.x + q0.y * q0.y - arc->chord * q0.x - 2.0 * arc->rise * q0.y;
    double under = b * b - c, graze = 2.0 * arc->radius * GRAZE_MM;
    if (under < -graze) return 0;
    if (under < graze) {
        where[0] = (tw_point){ near.x - w.x * b, near.y - w.y * b };
        return 1;
    }
    double far = -(b + copysign(sqrt(under), b));
    double other = c / far;
    where[0] = (tw_point){ near.x + w.x * far, near.y + w.y * far };
    where[1] = (tw_point){ near.x + w.x * other, near.y + w.y * other };
    return 2;
}

static int arcs_cross(const tw_curve *one, const tw_curve *two, tw_point where[2])
{
    tw_point c1 = tw_arc_centre_from_a(one), c2 = tw_arc_centre_from_a(two), o = tw_minus(two->a, one->a);
    tw_point n = { o.x + c2.x - c1.x, o.y + c2.y - c1.y };
    double apart = tw_length(n);
    if (apart < 1e-12 || apart > (one->radius + two->radius) * (1.0 + 1e-14) + TW_TOUCH_MM) return 0;
    double k = (tw_dot(o, o) / 2.0 + tw_dot(o, c2)) / apart;
    tw_point unit = { n.x / apart, n.y / apart };
    tw_point foot = { one->a.x + unit.x * k, one->a.y + unit.y * k };
    return line_on_circle(one->radius <= two->radius ? one : two, foot, (tw_point){ -unit.y, unit.x }, where);
}

int tw_curves_cross(const tw_curve *one, const tw_curve *two, tw_point where[2])
{
    bool straight_one = one->bulge == 0.0, straight_two = two->bulge == 0.0;
    if (straight_one && straight_two) return lines_cross(one, two, where);
    tw_point found[2];
    int count = straight_one ? line_on_circle(two, one->a, one->along, found)
              : straight_two ? line_on_circle(one, two->a, two->along, found) : arcs_cross(one, two, found);
    int kept = 0;
    for (int i = 0; i < count; i++)
        if (in_span(one, found[i]) && in_span(two, found[i])) where[kept++] = found[i];
    return kept;
}
