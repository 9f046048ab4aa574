// SPDX-License-Identifier: GPL-3.0-or-later
/* Dimensions, leaders and angles after ISO 129-1 (from memory): narrow lines, filled arrow heads of 15 degrees, text above
 * the dimension line, to be read from below or from the right; extension lines start a little off the point and pass the
 * dimension line by 8 line widths (2 mm).
 *
 *      |<------ 38.0 ------>|         |  |  6.4           roomy: all inside      tight: arrows outside, the text beside
 *                                  -->|--|<-------
 *
 * Everything is reckoned along the dimension line in the direction of reading, t = 0 at its first end and L at its last. */
#include "draw/draw.h"

#include <assert.h>
#include <math.h>

#define ARROW_PER_SIZE 1.2      // 3 mm of arrow with lettering of 2.5 mm
#define ARROW_HALF_RAD (7.5 * TW_PI / 180.0)
#define TEXT_LIFT_PER_SIZE 0.4  // clear height between line and text
#define EXTENSION_GAP_MM 1.0
#define EXTENSION_OVER_MM 2.0
#define UPRIGHT_RAD 1e-6        // a direction this near to straight down is read from the right, not from the left

static tw_point along(tw_point from, double angle_rad, double t)
{
    return (tw_point){ from.x + t * cos(angle_rad), from.y + t * sin(angle_rad) };
}

static void line(tw_sheet *sheet, tw_point a, tw_point b)
{
    tw_draw_line(sheet, TW_ROLE_DIMENSION, a.x, a.y, b.x, b.y);
}

void tw_draw_arrow_head(tw_sheet *sheet, double x, double y, double direction_rad, double length_mm)
{
    assert(length_mm > 0);
    tw_point tip = { x, y };
    double side = length_mm / cos(ARROW_HALF_RAD);
    tw_point a = along(tip, direction_rad + TW_PI - ARROW_HALF_RAD, side), b = along(tip, direction_rad + TW_PI + ARROW_HALF_RAD, side);
    tw_vertex corners[] = { { x, y, 0 }, { a.x, a.y, 0 }, { b.x, b.y, 0 } };
    tw_draw_outline(sheet, TW_ROLE_SOLID, (tw_outline){ &(tw_loop){ corners, 3 }, 1 });
}

void tw_draw_arrow(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1)
{
    double length = hypot(x1 - x0, y1 - y0);
    if (length == 0.0) return;
    double direction = atan2(y1 - y0, x1 - x0), head = tw_min(3.0, length);
    tw_point neck = along((tw_point){ x1, y1 }, direction, -0.5 * head);  // the line ends inside the head: the tip stays sharp
    tw_draw_line(sheet, role, x0, y0, neck.x, neck.y);
    tw_draw_arrow_head(sheet, x1, y1, direction, head);
}

/* The same line in the direction in which a text along it is read: over -90 to 90 degrees. */
static double reading_direction(double angle_rad)
{
    double turned = remainder(angle_rad, 2 * TW_PI);
    if (turned > TW_PI / 2 + UPRIGHT_RAD) return turned - TW_PI;
    if (turned <= -TW_PI / 2 + UPRIGHT_RAD) return turned + TW_PI;
    return turned;
}

static void extension(tw_sheet *sheet, tw_point from, tw_point foot)
{
    double length = hypot(foot.x - from.x, foot.y - from.y);
    if (length <= EXTENSION_GAP_MM) return;
    double direction = atan2(foot.y - from.y, foot.x - from.x);
    line(sheet, along(from, direction, EXTENSION_GAP_MM), along(foot, direction, EXTENSION_OVER_MM));
}

tw_dimension_fit tw_dimension_fit_of(double length_mm, double size_mm, const char *text)
{
    double arrow = ARROW_PER_SIZE * size_mm, wide = tw_text_width(size_mm, false, text), air = 0.5 * size_mm;
    tw_dimension_fit fit = { .arrow_mm = arrow, .air_mm = air, .wide_mm = wide, .arrows_inside = length_mm >= 2.5 * arrow,
                             .text_inside = length_mm >= wide + 2 * air && length_mm >= arrow };
    fit.tail_mm = fit.arrows_inside ? 0.0 : 2 * arrow;
    fit.text_from_mm = fit.text_inside ? (length_mm - wide) / 2 : length_mm + (fit.arrows_inside ? 0.0 : arrow) + air;
    return fit;
}

/* The dimension line proper: from start in the direction of reading over the length; it runs on as far as the text does. */
static void dimension_line(tw_sheet *sheet, tw_point start, double reading, double length, double size_mm, const char *text,
                           double text_from)
{
    tw_dimension_fit fit = tw_dimension_fit_of(length, size_mm, text);
    double arrow = fit.arrow_mm, before = tw_max(fit.tail_mm, -text_from), beyond = tw_max(fit.tail_mm, text_from + fit.wide_mm - length);
    bool inside = fit.arrows_inside;
    if (inside) {
        line(sheet, along(start, reading, 0.5 * arrow), along(start, reading, length - 0.5 * arrow));
        if (before > 0) line(sheet, along(start, reading, -before), start);
        if (beyond > 0) line(sheet, along(start, reading, length), along(start, reading, length + beyond));
    } else {
        line(sheet, start, along(start, reading, length));
        line(sheet, along(start, reading, -before), along(start, reading, -0.5 * arrow));
        line(sheet, along(start, reading, length + 0.5 * arrow), along(start, reading, length + beyond));
    }
    tw_point end = along(start, reading, length);
    tw_draw_arrow_head(sheet, start.x, start.y, inside ? reading + TW_PI : reading, arrow);
    tw_draw_arrow_head(sheet, end.x, end.y, inside ? reading : reading + TW_PI, arrow);
    tw_point at = along(along(start, reading, text_from), reading + TW_PI / 2, TEXT_LIFT_PER_SIZE * size_mm);
    tw_draw_text_turned(sheet, at.x, at.y, size_mm, TW_ANCHOR_LEFT, reading, text);
}

static void draw_dimension(tw_sheet *sheet, tw_point a, tw_point b, double angle_rad, double off_mm, double size_mm, const char *text,
                           const double *text_from_mm)
{
    assert(isfinite(angle_rad) && isfinite(off_mm) && size_mm > 0);
    double c = cos(angle_rad), s = sin(angle_rad);
    double across = -(b.x - a.x) * s + (b.y - a.y) * c;  // how far b lies to the left of a
    tw_point foot_a = along(a, angle_rad + TW_PI / 2, off_mm), foot_b = along(b, angle_rad + TW_PI / 2, off_mm - across);
    extension(sheet, a, foot_a);
    extension(sheet, b, foot_b);
    double reading = reading_direction(angle_rad);
    double length = (foot_b.x - foot_a.x) * cos(reading) + (foot_b.y - foot_a.y) * sin(reading);
    double usual = tw_dimension_fit_of(fabs(length), size_mm, text).text_from_mm;
    dimension_line(sheet, length >= 0 ? foot_a : foot_b, reading, fabs(length), size_mm, text, text_from_mm ? *text_from_mm : usual);
}

void tw_draw_dimension(tw_sheet *sheet, tw_point a, tw_point b, double angle_rad, double off_mm, double size_mm, const char *text)
{
    draw_dimension(sheet, a, b, angle_rad, off_mm, size_mm, text, NULL);
}

void tw_draw_dimension_text_at(tw_sheet *sheet, tw_point a, tw_point b, double angle_rad, double off_mm, double size_mm, const char *text,
                               double text_from_mm)
{
    draw_dimension(sheet, a, b, angle_rad, off_mm, size_mm, text, &text_from_mm);
}

void tw_draw_leader(tw_sheet *sheet, tw_point on, tw_point knee, double size_mm, const char *text)
{
    double wide = tw_text_width(size_mm, false, text), air = 0.5 * size_mm;
    double side = knee.x >= on.x - 1e-9 ? 1.0 : -1.0;
    tw_draw_arrow(sheet, TW_ROLE_DIMENSION, knee.x, knee.y, on.x, on.y);
    line(sheet, knee, (tw_point){ knee.x + side * (wide + 2 * air), knee.y });
    double left = side > 0 ? knee.x + air : knee.x - air - wide;
    tw_draw_text(sheet, left, knee.y + TEXT_LIFT_PER_SIZE * size_mm, size_mm, TW_ANCHOR_LEFT, text);
}

/* The text of an angle: level, its nearest point clear of the arc in the direction in which the arc's middle looks. */
static void angle_text(tw_sheet *sheet, tw_point apex, double radius_mm, double middle_rad, double size_mm, const char *text)
{
    double wide = tw_text_width(size_mm, false, text), air = 0.6 * size_mm;
    double reach = radius_mm + air + 0.5 * wide * fabs(cos(middle_rad)) + 0.5 * size_mm * fabs(sin(middle_rad));
    tw_point middle = along(apex, middle_rad, reach);
    tw_draw_text(sheet, middle.x, middle.y - 0.5 * size_mm, size_mm, TW_ANCHOR_MIDDLE, text);
}

void tw_draw_angle(tw_sheet *sheet, tw_point apex, double radius_mm, double start_rad, double sweep_rad, bool extend,
                   double size_mm, const char *text)
{
    assert(radius_mm > 0 && size_mm > 0 && fabs(sweep_rad) <= 2 * TW_PI);
    if (sweep_rad < 0) { start_rad += sweep_rad; sweep_rad = -sweep_rad; }
    double arrow = tw_min(ARROW_PER_SIZE * size_mm, radius_mm), lean = arrow / (2 * radius_mm);  // heads lie along the chord of the arc
    bool inside = sweep_rad * radius_mm >= 2.5 * arrow;
    double tail = inside ? 0.0 : 2 * arrow / radius_mm, end_rad = start_rad + sweep_rad;
    tw_point from = along(apex, start_rad, radius_mm), to = along(apex, end_rad, radius_mm);
    if (extend)
        for (int i = 0; i < 2; i++) line(sheet, apex, along(apex, i ? end_rad : start_rad, radius_mm + EXTENSION_OVER_MM / 2));
    tw_draw_arc(sheet, TW_ROLE_DIMENSION, apex.x, apex.y, radius_mm, start_rad - tail, sweep_rad + 2 * tail);
    double turn = inside ? -1.0 : 1.0;
    tw_draw_arrow_head(sheet, from.x, from.y, start_rad + turn * (TW_PI / 2 - lean), arrow);
    tw_draw_arrow_head(sheet, to.x, to.y, end_rad - turn * (TW_PI / 2 - lean), arrow);
    angle_text(sheet, apex, radius_mm, start_rad + sweep_rad / 2, size_mm, text);
}
