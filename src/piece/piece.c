// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/piece.h"

#include <assert.h>

const char *const tw_face_words[] = { "face", "back", "face edge", "back edge", "left end", "right end", NULL };

tw_face tw_face_opposite(tw_face face)
{
    assert(face < TW_FACE_COUNT);
    return (tw_face)((int)face ^ 1);  // the words stand in pairs
}

tw_size tw_piece_size(const tw_piece *piece)
{
    return (tw_size){ piece->length.value, piece->width.value, piece->thickness.value };
}

tw_frame tw_face_frame(tw_face face)
{
    static const tw_frame frames[TW_FACE_COUNT] = {
        [TW_SIDE_FACE] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
        [TW_SIDE_BACK] = { { 1, 0, 0 }, { 0, -1, 0 }, { 0, 0, -1 } },
        [TW_SIDE_FACE_EDGE] = { { 1, 0, 0 }, { 0, 0, 1 }, { 0, -1, 0 } },
        [TW_SIDE_BACK_EDGE] = { { 1, 0, 0 }, { 0, 0, -1 }, { 0, 1, 0 } },
        [TW_SIDE_LEFT_END] = { { 0, -1, 0 }, { 0, 0, 1 }, { -1, 0, 0 } },
        [TW_SIDE_RIGHT_END] = { { 0, 1, 0 }, { 0, 0, 1 }, { 1, 0, 0 } },
    };
    assert(face < TW_FACE_COUNT);
    return frames[face];
}

tw_size tw_face_extent(tw_size piece, tw_face face)
{
    switch (face) {
    case TW_SIDE_FACE: case TW_SIDE_BACK:
        return (tw_size){ piece.length_mm, piece.width_mm, piece.thickness_mm };
    case TW_SIDE_FACE_EDGE: case TW_SIDE_BACK_EDGE:
        return (tw_size){ piece.length_mm, piece.thickness_mm, piece.width_mm };
    case TW_SIDE_LEFT_END: case TW_SIDE_RIGHT_END:
        return (tw_size){ piece.width_mm, piece.thickness_mm, piece.length_mm };
    }
    return (tw_size){ 0 };
}

tw_face tw_face_below(tw_face face)
{
    static const tw_face below[TW_FACE_COUNT] = {
        [TW_SIDE_FACE] = TW_SIDE_FACE_EDGE, [TW_SIDE_BACK] = TW_SIDE_BACK_EDGE,  // back: up is -y, so +y lies below
        [TW_SIDE_FACE_EDGE] = TW_SIDE_BACK, [TW_SIDE_BACK_EDGE] = TW_SIDE_FACE,
        [TW_SIDE_LEFT_END] = TW_SIDE_BACK,  [TW_SIDE_RIGHT_END] = TW_SIDE_BACK,
    };
    assert(face < TW_FACE_COUNT);
    return below[face];
}

/* The face's lower left corner as seen: an axis that runs back starts at the far side. */
static tw_spot face_corner(tw_size piece, tw_frame f)
{
    tw_spot all = { f.right.x + f.up.x - f.out.x, f.right.y + f.up.y - f.out.y, f.right.z + f.up.z - f.out.z };
    return (tw_spot){ all.x < 0.0 ? piece.length_mm : 0.0, all.y < 0.0 ? piece.width_mm : 0.0, all.z < 0.0 ? piece.thickness_mm : 0.0 };
}

tw_spot tw_face_spot(tw_size piece, tw_face face, double right_mm, double up_mm, double in_mm)
{
    tw_frame f = tw_face_frame(face);
    tw_spot c = face_corner(piece, f);
    return (tw_spot){ c.x + f.right.x * right_mm + f.up.x * up_mm - f.out.x * in_mm, c.y + f.right.y * right_mm + f.up.y * up_mm - f.out.y * in_mm,
                      c.z + f.right.z * right_mm + f.up.z * up_mm - f.out.z * in_mm };
}

tw_spot tw_face_place(tw_size piece, tw_face face, tw_spot spot)
{
    tw_frame f = tw_face_frame(face);
    tw_spot c = face_corner(piece, f), d = { spot.x - c.x, spot.y - c.y, spot.z - c.z };
    return (tw_spot){ d.x * f.right.x + d.y * f.right.y + d.z * f.right.z, d.x * f.up.x + d.y * f.up.y + d.z * f.up.z,
                      -(d.x * f.out.x + d.y * f.out.y + d.z * f.out.z) };
}

double tw_cut_depth_mm(tw_size piece, const tw_cut *cut)
{
    return cut->through ? tw_face_extent(piece, cut->face).thickness_mm : cut->depth_mm;
}
