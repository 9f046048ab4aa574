// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/lodge.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "piece/pose.h"

#define OVER_MM 1.0          // a cut goes this far past the blank

static tw_cut cut_of(const char *name, tw_face face, tw_outline outline)
{
    return (tw_cut){ .piece = -1, .joint = -1, .name = name, .face = face, .outline = outline };
}

tw_cut tw_lodge_ramp(tw_arena *arena, tw_size blank, double tip_mm, double slope)
{
    assert(tip_mm >= 0.0 && slope > 0.0);
    double end = blank.length_mm + OVER_MM, low = tip_mm - OVER_MM * slope, high = tip_mm + end * slope;
    double top = tw_max(blank.thickness_mm, high) + OVER_MM;
    const tw_vertex above[] = { { -OVER_MM, low, 0 }, { end, high, 0 }, { end, top, 0 }, { -OVER_MM, top, 0 } };
    tw_cut cut = cut_of("ramp", TW_SIDE_FACE_EDGE, tw_outline_of_loop(arena, above, 4));
    cut.through = true;
    return cut;
}

/* A rectangle larger than the end, and in it as a hole what stays. */
tw_cut tw_lodge_turned(tw_arena *arena, tw_size blank, tw_face end, double deep_mm, tw_outline stays)
{
    assert(stays.count == 1 && deep_mm > 0.0);
    double y = blank.width_mm / 2.0, z = blank.thickness_mm / 2.0;
    tw_outline hole = tw_outline_moved(arena, stays, y, z);
    tw_outline both = { TW_NEW_ARRAY(arena, tw_loop, 2), 2 };
    both.loops[0] = tw_outline_rectangle(arena, -OVER_MM, -OVER_MM, blank.width_mm + OVER_MM, blank.thickness_mm + OVER_MM).loops[0];
    both.loops[1] = hole.loops[0];
    tw_outline tidy = both;
    tw_point where;
    tw_outline_fault fault = tw_outline_tidy(arena, both, &tidy, &where);
    assert(fault == TW_OUTLINE_GOOD);
    (void)fault;
    tw_cut cut = cut_of("outside", end, tidy);
    cut.through = deep_mm >= blank.length_mm;
    cut.depth_mm = tw_min(deep_mm, blank.length_mm);
    return cut;
}

tw_outline tw_lodge_hexagon(tw_arena *arena, double across_mm)
{
    tw_vertex corners[6];
    double radius = across_mm / sqrt(3.0);
    for (int i = 0; i < 6; i++) corners[i] = (tw_vertex){ radius * cos(i * TW_PI / 3.0), radius * sin(i * TW_PI / 3.0), 0.0 };
    return tw_outline_of_loop(arena, corners, 6);
}

tw_pose tw_lodge_pose(tw_size blank, tw_spot from, tw_spot along, tw_spot up)
{
    tw_pose pose = { .x = along, .y = tw_spot_cross(up, along), .z = up };
    tw_spot corner = tw_spot_plus(tw_spot_times(pose.y, blank.width_mm / 2.0), tw_spot_times(up, blank.thickness_mm / 2.0));
    pose.at = tw_spot_less(from, corner);
    return pose;
}

int tw_lodge_part(const tw_joint_plan *plan, const char *name)
{
    for (size_t i = 0; i < plan->part_count; i++)
        if (strcmp(plan->parts[i].name, name) == 0) return (int)i;
    return -1;
}

void tw_lodge_cuts(tw_arena *arena, tw_part *part, const tw_cut *cuts, int count)
{
    tw_cut *all = TW_NEW_ARRAY(arena, tw_cut, (size_t)count);
    memcpy(all, cuts, (size_t)count * sizeof *cuts);
    part->cuts = all;
    part->cut_count = count;
}
