// SPDX-License-Identifier: GPL-3.0-or-later
/* A piece as a solid: its cuts as prisms, the faces in each plane, and these joined. */
#include "solid/solid.h"

#include <assert.h>
#include <string.h>

#include "solid/parts.h"

/* Where walls run past each other by a hair more than rounding, the skin closes with points a little farther apart as one. */
static void join_closed(tw_arena *arena, tw_regions *regions, const tw_faces *faces, bool to_look_at, tw_solid *solid)
{
    static const double same_mm[] = { TW_SOLID_SAME_MM, 2.3 * TW_SOLID_SAME_MM, 5.7 * TW_SOLID_SAME_MM, TW_SOLID_SAME_MOST_MM };
    for (size_t i = 0; i < sizeof same_mm / sizeof *same_mm; i++) {
        tw_faces_join(arena, regions, faces, same_mm[i], !to_look_at, solid);
        if (solid->closed) return;
    }
}

static tw_solid *make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double chord_mm, bool to_look_at)
{
    assert(size.length_mm > 0.0 && size.width_mm > 0.0 && size.thickness_mm > 0.0);
    // the quick way first; where its skin does not close the sure way, and other chords where they end a hair from another wall
    static const struct { bool snapped; double finer; } ways[] = { { false, 1.0 }, { true, 1.0 }, { true, 0.83 }, { true, 0.71 } };
    tw_solid *solid = TW_NEW(arena, tw_solid);
    tw_prism *prisms = TW_NEW_ARRAY(arena, tw_prism, (size_t)cut_count + 1);
    for (size_t k = 0; k < sizeof ways / sizeof *ways && !solid->closed; k++) {
        tw_regions *regions = tw_regions_begin(ways[k].snapped, to_look_at);
        for (int i = 0; i < cut_count; i++) prisms[i] = tw_prism_of(arena, size, &cuts[i], i, chord_mm * ways[k].finer);
        tw_faces faces = tw_faces_make(arena, regions, size, prisms, cut_count);
        join_closed(arena, regions, &faces, to_look_at, solid);
        tw_regions_end(regions);
    }
    return solid;
}

tw_solid *tw_solid_make(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double chord_mm)
{
    return make(arena, size, cuts, cut_count, chord_mm, false);
}

tw_solid *tw_solid_make_to_look_at(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, double chord_mm)
{
    return make(arena, size, cuts, cut_count, chord_mm, true);
}

/* Sum of the tetrahedra from one point over all triangles: V = sum a . (b x c) / 6. The first point is taken as the origin, so
 * that far from 0 nothing is lost. */
double tw_solid_volume_mm3(const tw_solid *solid)
{
    double sum = 0.0;
    for (int i = 0; i < solid->triangle_count; i++) {
        const int *t = solid->triangles[i];
        tw_spot o = solid->points[0];
        tw_spot a = tw_spot_less(solid->points[t[0]], o), b = tw_spot_less(solid->points[t[1]], o), c = tw_spot_less(solid->points[t[2]], o);
        sum += tw_spot_product(a, tw_spot_cross(b, c));
    }
    return sum / 6.0;
}

static tw_vertex vertex_on(tw_size size, tw_face face, tw_spot spot)
{
    tw_spot place = tw_face_place(size, face, spot);
    return (tw_vertex){ place.x, place.y, 0.0 };
}

/* The facets that the opening cut has made at its bottom. */
static tw_outline facets_of(tw_arena *arena, tw_size size, const tw_solid *solid, tw_face face, int source)
{
    tw_spot toward = tw_face_frame(face).out;
    size_t count = 0, room = 0;
    tw_loop *loops = NULL;
    for (int i = 0; i < solid->facet_count; i++) {
        const tw_facet *facet = &solid->facets[i];
        if (facet->source != source || tw_spot_product(facet->out, toward) < 0.999999) continue;
        for (int k = 0; k < facet->wire_count; k++) {
            tw_array_make_room(arena, &loops, count, &room, sizeof *loops);
            tw_loop loop = { TW_NEW_ARRAY(arena, tw_vertex, (size_t)facet->wires[k].count), facet->wires[k].count };
            for (int p = 0; p < loop.count; p++) loop.vertices[p] = vertex_on(size, face, solid->points[facet->wires[k].points[p]]);
            loops[count++] = loop;
        }
    }
    return (tw_outline){ loops, (int)count };
}

tw_solid *tw_solid_cut_open(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, tw_face face, double in_mm, double chord_mm,
                            bool to_look_at, tw_outline *section)
{
    const double over_mm = 1.0;
    tw_size extent = tw_face_extent(size, face);
    assert(in_mm > 0.0 && in_mm < extent.thickness_mm);
    tw_cut *all = TW_NEW_ARRAY(arena, tw_cut, (size_t)cut_count + 1);
    all[0] = (tw_cut){ .piece = -1, .joint = -1, .name = "section", .face = face, .depth_mm = in_mm,
        .outline = tw_outline_rectangle(arena, -over_mm, -over_mm, extent.length_mm + over_mm, extent.width_mm + over_mm) };
    if (cut_count > 0) memcpy(all + 1, cuts, (size_t)cut_count * sizeof *cuts);
    tw_solid *solid = make(arena, size, all, cut_count + 1, chord_mm, to_look_at);
    *section = facets_of(arena, size, solid, face, 0);
    for (int i = 0; i < solid->facet_count; i++)
        if (solid->facets[i].source >= 0) solid->facets[i].source--;   // -1 is the left over source of the section: it stands for the face
    return solid;
}

tw_outline tw_solid_section(tw_arena *arena, tw_size size, const tw_cut *cuts, int cut_count, tw_face face, double in_mm,
    double chord_mm)
{
    assert(in_mm > 0.0 && in_mm < tw_face_extent(size, face).thickness_mm);
    tw_prism *prisms = TW_NEW_ARRAY(arena, tw_prism, (size_t)cut_count + 1);
    for (int i = 0; i < cut_count; i++) prisms[i] = tw_prism_of(arena, size, &cuts[i], i, chord_mm);
    tw_spot out = tw_face_frame(face).out;
    tw_regions *regions = tw_regions_begin(false, true);
    tw_section s = tw_faces_section(arena, regions, size, prisms, cut_count, out,
        tw_spot_product(out, tw_face_spot(size, face, 0.0, 0.0, in_mm)));
    tw_outline wood = { TW_NEW_ARRAY(arena, tw_loop, (size_t)s.rings.count + 1), s.rings.count };
    for (int i = 0; i < s.rings.count; i++) {
        const tw_chords *wire = &s.rings.wires[i];
        wood.loops[i] = (tw_loop){ TW_NEW_ARRAY(arena, tw_vertex, (size_t)wire->count), wire->count };
        for (int k = 0; k < wire->count; k++) {
            tw_spot spot = tw_spot_plus(tw_spot_plus(tw_spot_times(s.right, wire->points[k].x),
                tw_spot_times(s.up, wire->points[k].y)), tw_spot_times(out, s.off_mm));
            wood.loops[i].vertices[k] = vertex_on(size, face, spot);
        }
    }
    tw_regions_end(regions);
    return wood;
}
