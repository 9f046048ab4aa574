// SPDX-License-Identifier: GPL-3.0-or-later
/* The outline is laid into a net of its own edges; what it winds about is the region. */
#include "outline/clean.h"
#include "outline/net.h"

tw_outline tw_cleaned(tw_arena *arena, tw_outline outline)
{
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_net net;
    tw_net_start(&net, &working, tw_vertex_count(outline));
    tw_net_add_outline(&net, outline, 0, 0);
    tw_net_tie(&net, true);
    tw_outline clean = tw_net_outline(&net, arena, tw_net_faces_within(&net, 0));
    tw_arena_finish(&working);
    return clean;
}

/* ---- straight runs ---- */

#define RUN_MOST 64  // vertices that are looked at for one line

/* May the line from one vertex go straight to another? All between lie beside it, one after the other. */
static bool is_straight_run(tw_loop loop, int from, int to)
{
    tw_vertex a = loop.vertices[from], b = loop.vertices[to % loop.count];
    tw_point way = { b.x - a.x, b.y - a.y };
    double length = tw_length(way), before = 0.0;
    if (length < TW_SAME_POINT_MM || loop.vertices[from].bulge != 0.0) return false;
    for (int i = from + 1; i < to; i++) {
        tw_point q = { loop.vertices[i].x - a.x, loop.vertices[i].y - a.y };
        double along = tw_dot(way, q) / length;
        if (loop.vertices[i].bulge != 0.0 || along <= before || along >= length) return false;
        if (fabs(tw_cross(way, q)) > 0.5 * TW_NEAR_MM * length) return false;
        before = along;
    }
    return true;
}

tw_outline tw_straightened(tw_arena *arena, tw_outline outline)
{
    tw_outline straight = tw_outline_copy(arena, outline);
    for (int i = 0; i < outline.count; i++) {
        tw_loop loop = outline.loops[i];
        int kept = 0;
        for (int from = 0, to; from < loop.count; from = to) {
            straight.loops[i].vertices[kept++] = loop.vertices[from];
            for (to = from + 1; to < loop.count && to - from < RUN_MOST && is_straight_run(loop, from, to + 1);) to++;
        }
        straight.loops[i].count = kept;
    }
    return straight;
}
