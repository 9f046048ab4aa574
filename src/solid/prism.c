// SPDX-License-Identifier: GPL-3.0-or-later
/* Cuts as prisms: arcs become chords. A chord of an arc of radius R over the angle b lies R (1 - cos(b/2)) inside it at most:
 *     b = 2 acos(1 - chord / R)                                                            (1) */
#include "solid/parts.h"

#include <assert.h>
#include <math.h>

#define LEAST_PARTS_OF_A_TURN 12     // a circle is never less than a polygon of so many sides
#define MOST_PARTS_OF_A_TURN  720

static int parts_of(const tw_edge *edge, double chord_mm)
{
    double most = 2.0 * TW_PI / LEAST_PARTS_OF_A_TURN, least = 2.0 * TW_PI / MOST_PARTS_OF_A_TURN;
    double bend = chord_mm < edge->radius_mm ? 2.0 * acos(1.0 - chord_mm / edge->radius_mm) : most;
    bend = tw_max(least, tw_min(most, bend));
    return (int)ceil(fabs(edge->sweep_rad) / bend - 1e-9);
}

tw_chords tw_loop_chords(tw_arena *arena, tw_loop loop, double chord_mm)
{
    int count = 0;
    for (int i = 0; i < loop.count; i++) {
        tw_edge edge = tw_loop_edge(loop, i);
        count += edge.straight ? 1 : parts_of(&edge, chord_mm);
    }
    tw_chords chords = { TW_NEW_ARRAY(arena, tw_point, (size_t)count), TW_NEW_ARRAY(arena, double, (size_t)count), 0 };
    for (int i = 0; i < loop.count; i++) {
        tw_edge edge = tw_loop_edge(loop, i);
        int parts = edge.straight ? 1 : parts_of(&edge, chord_mm);
        for (int j = 0; j < parts; j++) {
            double angle = edge.start_rad + edge.sweep_rad * j / parts;
            chords.points[chords.count] = j == 0 ? edge.from
                : (tw_point){ edge.centre.x + edge.radius_mm * cos(angle), edge.centre.y + edge.radius_mm * sin(angle) };
            chords.bends[chords.count++] = edge.straight ? 0.0 : fabs(edge.sweep_rad) / parts;
        }
    }
    return chords;
}

double tw_chords_area_mm2(const tw_chords *loop)
{
    double sum = 0.0;
    for (int i = 0; i < loop->count; i++) {
        tw_point a = loop->points[i], b = loop->points[(i + 1) % loop->count];
        sum += a.x * b.y - b.x * a.y;
    }
    return sum / 2.0;
}

void tw_chords_turn_round(tw_chords *loop)
{
    for (int i = 0, j = loop->count - 1; i < j; i++, j--) {
        tw_point kept = loop->points[i];
        loop->points[i] = loop->points[j];
        loop->points[j] = kept;
    }
    for (int i = 0, j = loop->count - 2; loop->bends && i < j; i++, j--) {
        double kept = loop->bends[i];
        loop->bends[i] = loop->bends[j];
        loop->bends[j] = kept;
    }
}

tw_block tw_block_of_nothing(void)
{
    return (tw_block){ { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };
}

void tw_block_widen(tw_block *block, tw_spot spot)
{
    block->least = (tw_spot){ tw_min(block->least.x, spot.x), tw_min(block->least.y, spot.y), tw_min(block->least.z, spot.z) };
    block->most = (tw_spot){ tw_max(block->most.x, spot.x), tw_max(block->most.y, spot.y), tw_max(block->most.z, spot.z) };
}

bool tw_blocks_meet(tw_block a, tw_block b, double near_mm)
{
    return a.least.x <= b.most.x + near_mm && b.least.x <= a.most.x + near_mm && a.least.y <= b.most.y + near_mm
        && b.least.y <= a.most.y + near_mm && a.least.z <= b.most.z + near_mm && b.least.z <= a.most.z + near_mm;
}

bool tw_prism_is_empty(const tw_prism *prism) { return prism->loop_count == 0 || prism->far_mm <= prism->near_mm; }

tw_spot tw_prism_spot(const tw_prism *prism, tw_point at, double depth_mm)
{
    tw_spot on = tw_spot_plus(prism->at, tw_spot_plus(tw_spot_times(prism->right, at.x), tw_spot_times(prism->up, at.y)));
    return tw_spot_plus(on, tw_spot_times(prism->axis, depth_mm));
}

static tw_block block_around(const tw_prism *prism)
{
    tw_block block = tw_block_of_nothing();
    for (int i = 0; i < prism->loop_count; i++)
        for (int j = 0; j < prism->loops[i].count; j++) {
            tw_block_widen(&block, tw_prism_spot(prism, prism->loops[i].points[j], prism->before_mm));
            tw_block_widen(&block, tw_prism_spot(prism, prism->loops[i].points[j], prism->beyond_mm));
        }
    return block;
}

tw_prism tw_prism_of(tw_arena *arena, tw_size size, const tw_cut *cut, int index, double chord_mm)
{
    assert(chord_mm > 0.0);
    const double open_mm = 1.0;   // carried on outside of the blank, so that no end lies in the plane of its side
    const double flush_mm = 1e-6;
    tw_frame f = tw_face_frame(cut->face);
    double whole = tw_face_extent(size, cut->face).thickness_mm, depth = tw_cut_depth_mm(size, cut);
    tw_prism prism = { .cut = index, .at = tw_face_spot(size, cut->face, 0.0, 0.0, 0.0), .right = f.right, .up = f.up,
        .axis = tw_spot_plus(tw_spot_plus(tw_spot_times(f.right, cut->lean_right), tw_spot_times(f.up, cut->lean_up)), tw_spot_times(f.out, -1.0)),
        .near_mm = tw_max(cut->start_mm, 0.0), .far_mm = tw_min(depth, whole),
        .before_mm = cut->start_mm > flush_mm ? cut->start_mm : -open_mm, .beyond_mm = depth < whole - flush_mm ? depth : whole + open_mm,
        .loops = TW_NEW_ARRAY(arena, tw_chords, (size_t)cut->outline.count) };
    for (int i = 0; i < cut->outline.count; i++)
        if (cut->outline.loops[i].count >= 2) prism.loops[prism.loop_count++] = tw_loop_chords(arena, cut->outline.loops[i], chord_mm);
    if (prism.loop_count == 1 && tw_chords_area_mm2(&prism.loops[0]) < 0.0) tw_chords_turn_round(&prism.loops[0]);
    prism.around = block_around(&prism);
    return prism;
}
