// SPDX-License-Identifier: GPL-3.0-or-later
/* The board that a template is cut in, or the carrier that its body is fixed on.
 *
 *   half of the board, across = reach of the opening or body from the centre line + wall, in whole millimetres upwards
 *   wall, inside = 25 mm: room for a mounting hole and its counterbore
 *   wall, outside = follower + rim's clear width + 25 mm, so that the follower never meets a screw while it is at work
 *
 * The board lies alike on both sides of both centre lines: so it can be turned over. Only when the holder does not take
 * that, and it is not turned over, is it made as small as its walls allow. Rim: a frame on the carrier of an outside template
 * that stops the follower from straying beyond the waste:
 *   clear width = b + r (waste - d + 2 mm), at least b + 2 mm        (the cutter then just leaves the waste)
 *
 * Hole: clearance for a 6 mm machine screw, medium fit, 6.6 mm (ISO 273, from memory); counterbore 11 mm for a low
 * round head of 10.5 mm (ISO 7380-1, from memory). Walls and depths: common practice. */
#include "template/parts.h"

#include <assert.h>
#include <math.h>

#define WALL_MM 25.0
#define HOLE_INSET_MM 12.5       // hole centre from the board's edges: in the middle of the wall
#define HOLE_MM 6.6
#define COUNTERBORE_MM 11.0
#define RIM_PAST_MM 2.0          // at the cutter: how far past the waste it may run
#define THICKNESS_LEAST_MM 9.0   // of a board that carries counterbores
#define FOLLOWER_CLEAR_MM 0.5    // between the follower's end and what lies behind the template
#define FOLLOWER_SHARE 0.5       // of the board's thickness that the follower should bear on at least

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
    return t->ask.follower_mm + tw_max(RIM_PAST_MM, t->ask.ratio * (waste_mm - t->ask.cutter_mm + RIM_PAST_MM));
}

typedef struct side_room { double low, high; } side_room;  // ends of the board along one axis

/* low, high: reach of the opening or body; most: the holder's size, 0 none. */
static side_room room_along(double low, double high, double wall_mm, double most_mm, bool must_centre)
{
    double half = ceil(tw_max(fabs(low), fabs(high)) + wall_mm - 1e-9);
    if (most_mm <= 0.0 || 2.0 * half <= most_mm || must_centre) return (side_room){ -half, half };
    return (side_room){ floor(low - wall_mm + 1e-9), ceil(high + wall_mm - 1e-9) };
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
        ? tw_format(context->arena, "the %s itself, %s by %s, would go in: screw straight guides to the holder in its place, or cut in two settings with a smaller template",
                    t->ask.inside ? "opening" : "body", say(context, box.x1 - box.x0), say(context, box.y1 - box.y0))
        : tw_format(context->arena, "a holder of at least %s by %s, or a cut made in two settings with a template of half the length",
                    say(context, across.high - across.low), say(context, up.high - up.low));
    tw_template_find(context, t->works[0], TW_HALT, "template-large", what, remedy);
}

static void make_board(const tw_template_context *context, tw_template *t)
{
    const tw_machine *m = &context->shop->machine;
    tw_box box = tw_outline_bounds(t->copy.template_);
    double waste = widest_waste_mm(context, t);
    bool rim_wanted = !t->ask.inside && waste > 0.0;
    side_room across, up;
    for (;;) {
        t->rim_mm = rim_wanted ? rim_for_waste_mm(t, waste) : 0.0;
        double wall = WALL_MM + (t->ask.inside ? 0.0 : tw_max(t->ask.follower_mm, t->rim_mm));
        across = room_along(box.x0, box.x1, wall, m->holder_across.value, t->turned_over);
        up = room_along(box.y0, box.y1, wall, m->holder_up.value, t->turned_over);
        if (!rim_wanted || (fits(across, m->holder_across.value) && fits(up, m->holder_up.value))) break;
        rim_wanted = false;  // no room for a rim: the machine's stops must do
    }
    if (!fits(across, m->holder_across.value) || !fits(up, m->holder_up.value)) refuse_size(context, t, across, up);
    t->board = tw_outline_rectangle(context->arena, across.low, up.low, across.high, up.high);
}

static void make_holes(const tw_template_context *context, tw_template *t)
{
    tw_box box = tw_outline_bounds(t->board_view);
    t->holes = TW_NEW_ARRAY(context->arena, tw_point, 4);
    for (int i = 0; i < 4; i++)
        t->holes[i] = (tw_point){ i % 2 ? box.x1 - HOLE_INSET_MM : box.x0 + HOLE_INSET_MM, i / 2 ? box.y1 - HOLE_INSET_MM : box.y0 + HOLE_INSET_MM };
    t->hole_count = 4;
    t->hole_mm = HOLE_MM;
    t->counterbore_mm = COUNTERBORE_MM;
}

/* ---- thickness against the follower's length ---- */

static void set_thickness(const tw_template_context *context, tw_template *t)
{
    const tw_follower *follower = &context->shop->followers[t->follower];
    double length = follower->length.value, stock = context->shop->strip_thickness.value;
    t->thickness_mm = stock > 0.0 ? stock : tw_max(THICKNESS_LEAST_MM, ceil(length + 1.0));
    if (length <= 0.0) return;
    if (length > t->thickness_mm - FOLLOWER_CLEAR_MM)
        tw_template_find(context, t->works[0], TW_CARE, "follower-long",
            tw_format(context->arena, "follower \"%s\" is %s long and template %s is %s thick: it would rub on what lies behind", follower->name,
                      say(context, length), t->name, say(context, t->thickness_mm)),
            tw_format(context->arena, "template stock at least %s thick, or a washer under the follower's stop", say(context, length + 1.0)));
    else if (length < FOLLOWER_SHARE * t->thickness_mm)
        tw_template_find(context, t->works[0], TW_CARE, "follower-short",
            tw_format(context->arena, "follower \"%s\" is %s long and template %s is %s thick: it bears on less than half of the edge, and an edge out of square would show in the cut",
                      follower->name, say(context, length), t->name, say(context, t->thickness_mm)),
            tw_format(context->arena, "template stock at most %s thick, or edges proved square", say(context, length / FOLLOWER_SHARE)));
}

void tw_template_board(const tw_template_context *context, tw_template *template_)
{
    assert(template_->work_count > 0 && template_->copy.ok);
    make_board(context, template_);
    template_->view = tw_machine_view(context->arena, &context->shop->machine, template_->copy.template_);
    template_->board_view = tw_machine_view(context->arena, &context->shop->machine, template_->board);
    make_holes(context, template_);
    set_thickness(context, template_);
}
