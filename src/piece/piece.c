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
