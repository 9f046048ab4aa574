// SPDX-License-Identifier: GPL-3.0-or-later
/* Walls that need no plane regions: most walls of most pieces, and all chords of a round hole.
 *
 * A wall of a straight prism stands on one edge of its outline, from one depth to another. Every other cut either does not
 * come near it, or is a straight prism of the same axis whose outline holds the whole edge, or none of it. Then what is left
 * of the wall are the depths that no such cut takes: rectangles. In any other case nothing is made and false is returned. */
#include "solid/parts.h"

#include <math.h>

#define CLEAR_MM 1e-3    // an edge nearer than this to another outline is left to the plane regions
#define SPANS_MOST 16

typedef struct span { double from, to; } span;
typedef struct spans { span items[SPANS_MOST]; int count; bool full; } spans;

static void take(spans *s, double from, double to)
{
    spans left = { .count = 0, .full = s->full };
    for (int i = 0; i < s->count; i++) {
        span parts[2] = { { s->items[i].from, tw_min(s->items[i].to, from) }, { tw_max(s->items[i].from, to), s->items[i].to } };
        for (int k = 0; k < 2; k++) {
            if (parts[k].to <= parts[k].from) continue;
            if (left.count == SPANS_MOST) left.full = true;
            else left.items[left.count++] = parts[k];
        }
    }
    *s = left;
}

static double cross(tw_point o, tw_point a, tw_point b) { return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x); }

static double to_segment(tw_point p, tw_point a, tw_point b)
{
    double dx = b.x - a.x, dy = b.y - a.y, length = dx * dx + dy * dy;
    double t = length > 0.0 ? tw_max(0.0, tw_min(1.0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / length)) : 0.0;
    return hypot(a.x + t * dx - p.x, a.y + t * dy - p.y);
}

static bool meet(tw_point a, tw_point b, tw_point c, tw_point d)
{
    double ends = tw_min(tw_min(to_segment(a, c, d), to_segment(b, c, d)), tw_min(to_segment(c, a, b), to_segment(d, a, b)));
    return ends < CLEAR_MM || ((cross(a, b, c) > 0.0) != (cross(a, b, d) > 0.0) && (cross(c, d, a) > 0.0) != (cross(c, d, b) > 0.0));
}

/* A place of the other prism's outline in this one's coordinates. */
static tw_point in_frame_of(const tw_prism *prism, const tw_prism *other, tw_point p)
{
    tw_spot from = tw_spot_less(tw_prism_spot(other, p, 0.0), prism->at);
    return (tw_point){ tw_spot_product(from, prism->right), tw_spot_product(from, prism->up) };
}

typedef enum where { NONE_OF_IT, ALL_OF_IT, UNKNOWN } where;

/* Does the other's outline hold the edge? */
static where holds(const tw_prism *prism, const tw_prism *other, tw_point a, tw_point b)
{
    bool inside = false;
    for (int i = 0; i < other->loop_count; i++)
        for (int j = 0; j < other->loops[i].count; j++) {
            tw_point c = in_frame_of(prism, other, other->loops[i].points[j]);
            tw_point d = in_frame_of(prism, other, other->loops[i].points[(j + 1) % other->loops[i].count]);
            if (meet(a, b, c, d)) return UNKNOWN;
            if ((c.y > a.y) != (d.y > a.y) && a.x < c.x + (a.y - c.y) / (d.y - c.y) * (d.x - c.x)) inside = !inside;
        }
    return inside ? ALL_OF_IT : NONE_OF_IT;
}

/* Straight: its axis is square to its face. */
static bool is_straight(const tw_prism *prism)
{
    return fabs(tw_spot_product(prism->axis, prism->right)) == 0.0 && fabs(tw_spot_product(prism->axis, prism->up)) == 0.0;
}

/* Takes the depths of the other from the spans; false when that is not known. */
static bool take_other(spans *s, const tw_prism *prism, const tw_prism *other, tw_point a, tw_point b)
{
    double same = tw_spot_product(prism->axis, other->axis);
    if (!is_straight(other) || fabs(fabs(same) - 1.0) > 1e-12) return false;
    where w = holds(prism, other, a, b);
    if (w != ALL_OF_IT) return w == NONE_OF_IT;
    double at = tw_spot_product(tw_spot_less(other->at, prism->at), prism->axis);   // where the other's depth 0 lies
    double from = at + same * other->before_mm, to = at + same * other->beyond_mm;
    take(s, tw_min(from, to), tw_max(from, to));
    return true;
}

/* The wood lies to the right of an edge: outer loops of what is cut run counter-clockwise, and hold what is cut at their left. The
 * wall looks into the cut. */
static void put_wall(tw_arena *arena, tw_faces *faces, const tw_prism *prism, tw_point a, tw_point b, span depths, double bend_rad)
{
    tw_spot along = tw_spot_less(tw_prism_spot(prism, b, 0.0), tw_prism_spot(prism, a, 0.0));
    along = tw_spot_times(along, 1.0 / tw_spot_size(along));
    tw_spot out = tw_spot_cross(along, prism->axis);
    tw_face_made face = { .out = out, .right = along, .up = tw_spot_cross(out, along), .source = prism->cut, .bend_rad = bend_rad, .wire_count = 1,
                          .wires = TW_NEW(arena, tw_chords) };
    const tw_spot corners[4] = { tw_prism_spot(prism, a, depths.from), tw_prism_spot(prism, b, depths.from), tw_prism_spot(prism, b, depths.to), tw_prism_spot(prism, a, depths.to) };
    face.off_mm = tw_spot_product(out, corners[0]);
    *face.wires = (tw_chords){ TW_NEW_ARRAY(arena, tw_point, 4), NULL, 4 };
    for (int i = 0; i < 4; i++) face.wires->points[i] = (tw_point){ tw_spot_product(face.right, corners[i]), tw_spot_product(face.up, corners[i]) };
    if (tw_chords_area_mm2(face.wires) < 0.0) tw_chords_turn_round(face.wires);
    tw_array_make_room(arena, &faces->items, faces->count, &faces->room, sizeof *faces->items);
    faces->items[faces->count++] = face;
}

bool tw_wall_make(tw_arena *arena, const tw_prism *prisms, int count, int which, const tw_chords *loop, int edge, tw_faces *faces)
{
    const tw_prism *prism = &prisms[which];
    tw_point a = loop->points[edge], b = loop->points[(edge + 1) % loop->count];
    if (!is_straight(prism)) return false;
    tw_block wall = tw_block_of_nothing();
    for (int i = 0; i < 4; i++) tw_block_widen(&wall, tw_prism_spot(prism, i < 2 ? a : b, i % 2 ? prism->far_mm : prism->near_mm));
    spans left = { .items = { { prism->near_mm, prism->far_mm } }, .count = 1 };
    for (int i = 0; i < count; i++)
        if (i != which && !tw_prism_is_empty(&prisms[i]) && tw_blocks_meet(prisms[i].around, wall, CLEAR_MM)
            && !take_other(&left, prism, &prisms[i], a, b)) return false;
    if (left.full) return false;
    for (int i = 0; i < left.count; i++)
        if (left.items[i].to - left.items[i].from < CLEAR_MM) return false;
    for (int i = 0; i < left.count; i++) put_wall(arena, faces, prism, a, b, left.items[i], loop->bends[edge]);
    return true;
}
