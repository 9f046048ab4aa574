// SPDX-License-Identifier: GPL-3.0-or-later
/* Two regions laid over each other: the edges of both are tied into one net (see net.h), and the faces are told by how
 * the borders wind about them. So borders that run along each other, which is the usual case, need no measuring: laid
 * together they are one edge of both. */
#include "outline/overlay.h"
#include "outline/net.h"

#define A 0
#define B 1

static bool *faces_of(const tw_net *net, tw_overlay_part part)
{
    bool *wanted = tw_net_faces_within(net, A), *in_b = tw_net_faces_within(net, B);
    for (int f = 0; f < net->face_count; f++) wanted[f] = wanted[f] && in_b[f] == (part == TW_OVERLAY_COMMON);
    return wanted;
}

static bool tie(tw_net *net, tw_arena *working, tw_outline a, tw_outline b, bool careful)
{
    int count_a = tw_vertex_count(a), count_b = tw_vertex_count(b);
    tw_net_start(net, working, count_a + count_b);
    tw_net_add_outline(net, a, 0, A);
    tw_net_add_outline(net, b, count_a, B);
    return tw_net_tie(net, careful);
}

tw_outline tw_overlay(tw_arena *arena, tw_outline a, tw_outline b, tw_overlay_part part)
{
    tw_arena working = { .out_of_memory = arena->out_of_memory };
    tw_net net;
    if (!tie(&net, &working, a, b, false)) tie(&net, &working, a, b, true);
    tw_outline result = tw_net_outline(&net, arena, faces_of(&net, part));
    tw_arena_finish(&working);
    return result;
}

double tw_outline_common_area_mm2(tw_arena *arena, tw_outline a, tw_outline b)
{
    return tw_outline_area_mm2(tw_overlay(arena, a, b, TW_OVERLAY_COMMON));
}
