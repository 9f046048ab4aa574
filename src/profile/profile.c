// SPDX-License-Identifier: GPL-3.0-or-later
#include "profile/profile.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

tw_profile_side tw_profile_side_of(tw_size size, tw_face side)
{
    assert(side < TW_SIDE_LEFT_END);
    bool edge = side == TW_SIDE_FACE_EDGE || side == TW_SIDE_BACK_EDGE;
    return (tw_profile_side){ .side = side, .seen = edge ? TW_SIDE_FACE : TW_SIDE_FACE_EDGE, .high = side == TW_SIDE_BACK_EDGE
        || side == TW_SIDE_FACE,
        .long_mm = size.length_mm, .wide_mm = edge ? size.width_mm : size.thickness_mm, .deep_mm = edge ? size.thickness_mm
            : size.width_mm };
}

tw_point tw_profile_point(const tw_profile_side *side, double along_mm, double in_mm)
{
    return (tw_point){ along_mm, side->high ? side->wide_mm - in_mm : in_mm };
}

int tw_profile_pieces(const tw_joint_context *context, int piece)
{
    return (int)(context->job->pieces[piece].count.value * context->job->sets.value);
}

void tw_profile_cut(tw_joint_context *context, tw_joint_plan *plan, const char *name, tw_face seen, tw_outline outline)
{
    tw_size behind = tw_face_extent(tw_piece_size(&context->job->pieces[plan->piece]), seen);
    tw_plan_cut(context, plan, (tw_cut){ .piece = plan->piece, .name = name, .face = seen, .outline = outline,
        .depth_mm = behind.thickness_mm, .through = true });
}

/* The two places where a corner's cut leaves the sides, in the order in which one meets them going round counter-clockwise. */
static void corner_ends(double wide, double high, tw_corner_at at, double size, tw_vertex ends[2])
{
    switch (at) {
    case TW_CORNER_LOW_LEFT: ends[0] = (tw_vertex){ 0, size, 0 }, ends[1] = (tw_vertex){ size, 0, 0 }; break;
    case TW_CORNER_LOW_RIGHT: ends[0] = (tw_vertex){ wide - size, 0, 0 }, ends[1] = (tw_vertex){ wide, size, 0 }; break;
    case TW_CORNER_HIGH_RIGHT: ends[0] = (tw_vertex){ wide, high - size, 0 }, ends[1] = (tw_vertex){ wide - size, high,
        0 }; break;
    case TW_CORNER_HIGH_LEFT: ends[0] = (tw_vertex){ size, high, 0 }, ends[1] = (tw_vertex){ 0, high - size, 0 }; break;
    }
}

static tw_vertex corner_point(double wide, double high, tw_corner_at at)
{
    bool right = at == TW_CORNER_LOW_RIGHT || at == TW_CORNER_HIGH_RIGHT, up = at == TW_CORNER_HIGH_LEFT
        || at == TW_CORNER_HIGH_RIGHT;
    return (tw_vertex){ right ? wide : 0.0, up ? high : 0.0, 0.0 };
}

#define QUARTER_BULGE tan(TW_PI / 8.0)  // an included angle of 90 degrees

tw_outline tw_profile_corner(tw_arena *arena, double wide_mm, double high_mm, tw_corner_at at, double size_mm, bool round)
{
    tw_vertex ends[2];
    corner_ends(wide_mm, high_mm, at, size_mm, ends);
    tw_vertex v[3] = { corner_point(wide_mm, high_mm, at), ends[1], ends[0] };
    v[1].bulge = round ? -QUARTER_BULGE : 0.0;
    return tw_outline_of_loop(arena, v, 3);
}

tw_outline tw_profile_corners_off(tw_arena *arena, double wide_mm, double high_mm, const bool off[4], double size_mm, bool round)
{
    tw_vertex all[8], kept[8];
    int count = 0, kept_count = 0;
    for (tw_corner_at at = TW_CORNER_LOW_LEFT; at <= TW_CORNER_HIGH_LEFT; at++) {
        if (!off[at]) { all[count++] = corner_point(wide_mm, high_mm, at); continue; }
        corner_ends(wide_mm, high_mm, at, size_mm, &all[count]);
        all[count].bulge = round ? QUARTER_BULGE : 0.0;
        count += 2;
    }
    for (int i = 0; i < count; i++) {  // where two corners meet, two places are one
        tw_vertex next = all[(i + 1) % count];
        if (hypot(next.x - all[i].x, next.y - all[i].y) > TW_SAME_POINT_MM) kept[kept_count++] = all[i];
    }
    return tw_outline_of_loop(arena, kept, kept_count);
}

tw_segment tw_segment_of(double chord_mm, double rise_mm)
{
    assert(rise_mm > 0.0 && rise_mm <= chord_mm / 2.0 * (1.0 + 1e-9));
    return (tw_segment){ chord_mm, rise_mm, (chord_mm * chord_mm / 4.0 + rise_mm * rise_mm) / (2.0 * rise_mm),
        2.0 * atan(2.0 * rise_mm / chord_mm) };
}

double tw_segment_height_mm(tw_segment s, double from_middle_mm)
{
    if (fabs(from_middle_mm) >= s.chord_mm / 2.0) return 0.0;
    return sqrt(s.radius_mm * s.radius_mm - from_middle_mm * from_middle_mm) - (s.radius_mm - s.rise_mm);
}

double tw_segment_area_mm2(tw_segment s)
{
    return s.radius_mm * s.radius_mm * (s.half_rad - sin(s.half_rad) * cos(s.half_rad));
}

double tw_profile_least_mm(const tw_joint_context *context) { return tw_customary(context, 10.0, 0.375); }
