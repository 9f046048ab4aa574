// SPDX-License-Identifier: GPL-3.0-or-later
/* The board that a template is cut in, or the carrier that its body is fixed on.
 *
 *   half of the board, across = reach of the opening or body from the centre line + wall, rounded upwards            (1)
 *   wall, inside = room for a mounting hole and its counterbore
 *   wall, outside = follower or rim's clear width + a narrower room for the hole, so that the follower never meets a screw;
 *                   a carrier bears no follower at its border, and the less of it, the fewer pages it is printed on
 *
 * The board lies alike on both sides of both centre lines: so it can be turned over. Only when the holder does not take
 * that, and it is not turned over, is it made as small as its walls allow. Rim: a frame on the carrier of an outside template
 * that stops the follower from straying beyond the waste:
 *   clear width = b + r (waste - d + 2 mm), at least b + 2 mm        (the cutter then just leaves the waste)       (2)
 *
 * Walls, insets and depths: common practice. */
#include "template/parts.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define RIM_PAST_MM 2.0          // at the cutter: how far past the waste it may run
#define THICKNESS_LEAST_MM 9.0   // of a board that carries counterbores
#define FOLLOWER_CLEAR_MM 0.5    // between the follower's end and what lies behind the template
#define FOLLOWER_SHARE 0.5       // of the board's thickness that the follower should bear on at least

/* Sizes that a maker sets out by, in the job's own measure: wall, rounding of (1), and the mounting screw. */
typedef struct usual {
    double wall_mm, carrier_wall_mm, round_mm;  // a mounting hole's centre stands in the middle of the wall
    double hole_mm, counterbore_mm, counterbore_deep_mm;
} usual;
static const usual metric = {  // 6 mm screw: clearance hole, medium fit (ISO 273); low round head 10.5 by 3.3 (ISO 7380-1); both from memory
    25.0, 20.0, 1.0, 6.6, 11.0, 3.5 };
static const usual inches = {  // 1/4 in screw: 17/64 in hole (a common chart's close fit); low round head 7/16 in by 0.132 in; from memory
    25.4, 25.4 * 3.0 / 4.0, 25.4 / 8.0, 25.4 * 17.0 / 64.0, 12.7, 25.4 * 5.0 / 32.0 };

static double wall_of(const usual *u, const tw_template *t) { return t->ask.inside ? u->wall_mm : u->carrier_wall_mm; }

static const usual *usual_of(const tw_template_context *context)
{
    return context->job->inch_sizes ? &inches : &metric;
}

tw_outline tw_machine_view(tw_arena *arena, const tw_machine *machine, tw_outline outline)
{
    if (machine->copy.value == 1) outline = tw_outline_turned(arena, outline, TW_PI);
    if (machine->seen_from.value == 1) outline = tw_outline_mirrored(arena, outline);
    return outline;
}

static const char *say(const tw_template_context *context, double mm) { return tw_length_text(context->arena, mm, context->job->figures); }

/* ---- size ---- */

static double widest_waste_mm(const tw_template_context *context, const tw_template *t)
{
    double waste = 0.0;
    for (int i = 0; i < t->work_count; i++)
        waste = tw_max(waste, tw_template_work(context, t->works[2 * i], t->works[2 * i + 1])->copy.waste_mm);
    return waste;
}

static double rim_for_waste_mm(const tw_template *t, double waste_mm)
{
    return t->ask.follower_mm + tw_max(RIM_PAST_MM, t->ask.ratio * (waste_mm - t->ask.cutter_mm + RIM_PAST_MM));  // (2)
}

typedef struct side_room { double low, high; } side_room;  // ends of the board along one axis

/* low, high: reach of the opening or body; most: the holder's size, 0 none. */
static side_room room_along(double low, double high, double wall_mm, double round_mm, double most_mm, bool must_centre)
{
    double half = ceil((tw_max(fabs(low), fabs(high)) + wall_mm) / round_mm - 1e-6) * round_mm;  // (1)
    if (most_mm <= 0.0 || 2.0 * half <= most_mm || must_centre) return (side_room){ -half, half };
    return (side_room){ floor((low - wall_mm) / round_mm + 1e-6) * round_mm, ceil((high + wall_mm) / round_mm - 1e-6) * round_mm };
}

static bool fits(side_room room, double most_mm) { return most_mm <= 0.0 || room.high - room.low <= most_mm + 1e-9; }

static void refuse_size(const tw_template_context *context, const tw_template *t, side_room across, side_room up)
{
    const tw_machine *m = &context->shop->machine;
    tw_box box = tw_outline_bounds(t->copy.template_);
    const char *what = tw_format(context->arena, "the board of template %s is %s across and %s up, and the holder takes %s by %s", t->name,
        say(context, across.high - across.low), say(context, up.high - up.low), say(context, m->holder_across.value), say(context, m->holder_up.value));
    double spare_across = m->holder_across.value - (box.x1 - box.x0), spare_up = m->holder_up.value - (box.y1 - box.y0);
    const char *remedy = spare_across > 0.0 && spare_up > 0.0
        ? tw_format(context->arena, "the %s itself, %s by %s, would go in: screw %s to the holder in its place, or cut in two settings with a smaller template",
                    t->ask.inside ? "opening" : "body", say(context, box.x1 - box.x0), say(context, box.y1 - box.y0),
                    t->ask.inside ? "straight guides" : "the body without a carrier")
        : tw_format(context->arena, "a holder of at least %s by %s, or a cut made in two settings with a template of half the length",
                    say(context, across.high - across.low), say(context, up.high - up.low));
    tw_template_find(context, t->works[0], TW_HALT, "template-large", what, remedy);
}

/* Of one measure of the board. */
static const char *side_sum(const tw_template_context *context, double low, double high, double wall_mm, side_room room)
{
    const char *wall = say(context, wall_mm);
    if (fabs(room.low + room.high) < 1e-9)
        return tw_format(context->arena, "2 x (farthest from the centre line + wall), rounded up = 2 x (%s + %s)", say(context, tw_max(fabs(low), fabs(high))), wall);
    return tw_format(context->arena, "both sides + a wall at each, rounded up = %s + %s + 2 x %s", say(context, -low), say(context, high), wall);
}

static void make_board(const tw_template_context *context, tw_template *t)
{
    const tw_machine *m = &context->shop->machine;
    tw_box box = tw_outline_bounds(t->copy.template_);
    const usual *u = usual_of(context);
    double waste = widest_waste_mm(context, t);
    bool rim_wanted = !t->ask.inside && waste > 0.0;
    side_room across, up;
    for (;;) {
        t->rim_mm = rim_wanted ? rim_for_waste_mm(t, waste) : 0.0;
        double wall = wall_of(u, t) + (t->ask.inside ? 0.0 : tw_max(t->ask.follower_mm, t->rim_mm));
        across = room_along(box.x0, box.x1, wall, u->round_mm, m->holder_across.value, t->turned_over);
        up = room_along(box.y0, box.y1, wall, u->round_mm, m->holder_up.value, t->turned_over);
        if (!rim_wanted || (fits(across, m->holder_across.value) && fits(up, m->holder_up.value))) break;
        rim_wanted = false;  // no room for a rim: the machine's stops must do
    }
    if (!fits(across, m->holder_across.value) || !fits(up, m->holder_up.value)) refuse_size(context, t, across, up);
    t->board = tw_outline_rectangle(context->arena, across.low, up.low, across.high, up.high);
    double wall = wall_of(u, t) + (t->ask.inside ? 0.0 : tw_max(t->ask.follower_mm, t->rim_mm));
    t->across_sum = side_sum(context, box.x0, box.x1, wall, across);
    t->up_sum = side_sum(context, box.y0, box.y1, wall, up);
}

static void make_holes(const tw_template_context *context, tw_template *t)
{
    const usual *u = usual_of(context);
    tw_box box = tw_outline_bounds(t->board_view);
    double inset = wall_of(u, t) / 2.0;
    t->holes = TW_NEW_ARRAY(context->arena, tw_point, 4);
    for (int i = 0; i < 4; i++) t->holes[i] = (tw_point){ i % 2 ? box.x1 - inset : box.x0 + inset, i / 2 ? box.y1 - inset : box.y0 + inset };
    t->hole_count = 4;
    t->hole_mm = u->hole_mm;
    t->counterbore_mm = u->counterbore_mm;
    t->counterbore_deep_mm = tw_min(u->counterbore_deep_mm, t->thickness_mm / 3.0);  // a third stays between two
}

/* ---- thickness against the follower's length ---- */

static void set_thickness(const tw_template_context *context, tw_template *t)
{
    double length = context->shop->followers[t->follower].length.value, stock = context->shop->strip_thickness.value;
    t->thickness_mm = stock > 0.0 ? stock : tw_max(THICKNESS_LEAST_MM, ceil(length + 1.0));
    t->thickness_sum = stock > 0.0 ? "the shop's strip thickness"
        : tw_format(context->arena, "the follower's length %s + %s, up to a whole millimetre, at least %s", say(context, length), say(context, 1.0), say(context, THICKNESS_LEAST_MM));
}

/* The templates that a follower runs in: "T1, T2 and T5". */
static const char *names_of(const tw_template_context *context, const tw_template *templates, int count, int follower)
{
    const char *list = "", *last = NULL;
    for (int i = 0; i < count; i++) {
        if (templates[i].follower != follower) continue;
        if (last) list = *list ? tw_format(context->arena, "%s, %s", list, last) : last;
        last = templates[i].name;
    }
    return !last || !*list ? last : tw_format(context->arena, "%s and %s", list, last);
}

void tw_template_followers(const tw_template_context *context, const tw_template *templates, int count)
{
    for (int f = 0; f < context->shop->follower_count; f++) {
        const tw_follower *follower = &context->shop->followers[f];
        const tw_template *first = NULL;
        for (int i = count - 1; i >= 0; i--)
            if (templates[i].follower == f) first = &templates[i];
        double length = follower->length.value;
        if (!first || length <= 0.0) continue;
        const char *what = tw_format(context->arena, "follower \"%s\" is %s long and the stock of %s %s is %s thick", follower->name, say(context, length),
            strchr(names_of(context, templates, count, f), ' ') ? "templates" : "template", names_of(context, templates, count, f), say(context, first->thickness_mm));
        if (length > first->thickness_mm - FOLLOWER_CLEAR_MM)
            tw_template_find(context, first->works[0], TW_CARE, "follower-long", tw_format(context->arena, "%s: it would rub on what lies behind", what),
                tw_format(context->arena, "template stock at least %s thick, or a shorter follower", say(context, length + FOLLOWER_CLEAR_MM)));
        else if (length < FOLLOWER_SHARE * first->thickness_mm)
            tw_template_find(context, first->works[0], TW_CARE, "follower-short",
                tw_format(context->arena, "%s: it bears on less than half of the edge, and an edge out of square would show in the cut", what),
                tw_format(context->arena, "template stock at most %s thick, or edges proved square", say(context, length / FOLLOWER_SHARE)));
    }
}

void tw_template_board(const tw_template_context *context, tw_template *template_)
{
    assert(template_->work_count > 0 && template_->copy.ok);
    make_board(context, template_);
    template_->view = tw_machine_view(context->arena, &context->shop->machine, template_->copy.template_);
    template_->board_view = tw_machine_view(context->arena, &context->shop->machine, template_->board);
    set_thickness(context, template_);
    make_holes(context, template_);
}
