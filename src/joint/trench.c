// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/trench.h"

#include <math.h>

#include "piece/pose.h"

#define NOTHING_MM 1e-9
#define SAME_MM 1e-6
#define BOARD_WALL_MM 25.0    // of a template board round its opening, as the template stage makes it
#define OVER_DEPTH_MM 5.0     // of the plunge, above the side before it begins
#define UNDER_CUT_MM 3.0      // left of a sacrificial board below the cutter

tw_outline tw_trench_outline(tw_arena *arena, tw_box box, double low_radius_mm, double high_radius_mm)
{
    const double quarter = tan(TW_PI / 8.0);
    tw_vertex v[8];
    int count = 0;
    double half = (box.x1 - box.x0) / 2.0, low = tw_min(low_radius_mm, half), high = tw_min(high_radius_mm, half);
    if (low > NOTHING_MM) {
        v[count++] = (tw_vertex){ box.x0, box.y0 + low, quarter };
        v[count++] = (tw_vertex){ box.x0 + low, box.y0, half - low > NOTHING_MM ? 0.0 : quarter };
        if (half - low > NOTHING_MM) v[count++] = (tw_vertex){ box.x1 - low, box.y0, quarter };
        v[count++] = (tw_vertex){ box.x1, box.y0 + low, 0.0 };
    } else {
        v[count++] = (tw_vertex){ box.x0, box.y0, 0.0 };
        v[count++] = (tw_vertex){ box.x1, box.y0, 0.0 };
    }
    if (high > NOTHING_MM) {
        v[count++] = (tw_vertex){ box.x1, box.y1 - high, quarter };
        v[count++] = (tw_vertex){ box.x1 - high, box.y1, half - high > NOTHING_MM ? 0.0 : quarter };
        if (half - high > NOTHING_MM) v[count++] = (tw_vertex){ box.x0 + high, box.y1, quarter };
        v[count++] = (tw_vertex){ box.x0, box.y1 - high, 0.0 };
    } else {
        v[count++] = (tw_vertex){ box.x1, box.y1, 0.0 };
        v[count++] = (tw_vertex){ box.x0, box.y1, 0.0 };
    }
    return tw_outline_of_loop(arena, v, count);
}

tw_frame tw_housed_axes(tw_face from, bool right_end, bool face_to_right)
{
    tw_spot z = { face_to_right ? 1.0 : -1.0, 0.0, 0.0 }, x = tw_spot_times(tw_face_frame(from).out, right_end ? -1.0 : 1.0);
    return (tw_frame){ .right = x, .up = tw_spot_cross(z, x), .out = z };
}

tw_spot tw_trench_along(tw_face from, tw_face low)
{
    tw_spot up = tw_face_frame(from).up;
    return tw_face_below(from) == low ? up : tw_spot_times(up, -1.0);
}

bool tw_trench_in_reach(const tw_machine *machine, const tw_trench_reach *reach)
{
    double length = reach->to_mm - reach->from_mm, middle = (reach->from_mm + reach->to_mm) / 2.0;
    double below = reach->low_down ? middle : tw_min(middle, reach->across_mm - middle);
    bool up = !machine->travel_up.given || length - reach->cutter_mm <= machine->travel_up.value + SAME_MM;
    bool in = !machine->travel_in.given || reach->depth_mm + OVER_DEPTH_MM <= machine->travel_in.value;
    bool holder = !machine->holder_up.given || machine->ratio.value * length + 2.0 * BOARD_WALL_MM <= machine->holder_up.value;
    bool table = !machine->table_lowest.given || below + reach->cutter_mm + UNDER_CUT_MM <= machine->table_lowest.value;
    return up && in && holder && table;
}

/* ---- the section along it ---- */

void tw_trench_draw_along(const tw_joint_view *v, const tw_trench_section *s)
{
    const double hatch_rad = TW_PI / 4.0;
    double a = s->low_edge_mm, b = s->high_edge_mm, low = a + s->notch_low_mm, high = b - s->notch_high_mm;
    tw_view_hatch(v, s->depth_mm, 0.0, s->thick_mm, s->across_mm, hatch_rad);
    if (s->low_stopped) tw_view_hatch(v, 0.0, 0.0, s->depth_mm, s->v0_mm, hatch_rad);
    if (s->high_stopped) tw_view_hatch(v, 0.0, s->v1_mm, s->depth_mm, s->across_mm, hatch_rad);
    double top = s->high_stopped ? 0.0 : s->depth_mm, foot = s->low_stopped ? 0.0 : s->depth_mm;
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { foot, 0.0 }, { s->thick_mm, 0.0 }, { s->thick_mm, s->across_mm }, { top, s->across_mm } }, 4);
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { foot, 0.0 }, { foot, s->v0_mm }, { s->depth_mm, s->v0_mm }, { s->depth_mm, s->v1_mm },
                                               { top, s->v1_mm }, { top, s->across_mm } }, 6);
    tw_view_hatch(v, -s->body_mm, a, 0.0, b, -hatch_rad);
    tw_view_hatch(v, 0.0, low, s->in_mm, high, -hatch_rad);
    double at_a = low > a ? 0.0 : s->in_mm, at_b = high < b ? 0.0 : s->in_mm;
    tw_view_path(v, TW_ROLE_CUT, (tw_point[]){ { -s->body_mm, a }, { at_a, a }, { at_a, low }, { s->in_mm, low }, { s->in_mm, high }, { at_b, high },
                                               { at_b, b }, { -s->body_mm, b } }, 8);
    tw_view_line(v, TW_ROLE_FAINT, -s->body_mm, a, -s->body_mm, b);
}
