// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_json: pieces and parts as triangles, and where they stand, for the page's 3D view.
 *
 *   { "kinds": [ { "name", "piece" (name; of a piece) or "part" (name) with "joint" (its joint's name) and
 *                  "bought": bool (hardware), "size": [length, width, thickness], "closed": bool, "points", "triangles",
 *                  "source", "face", "edges", "cuts": [words],
 *                  "short": [ { "words", "hold", "boxes" } ] } ],
 *     "stood": [ { "kind": index into kinds, "name", "number" (of a piece, from 1; of a part 0), "group", "matrix": [12],
 *                  "apart": [dx, dy, dz], "step", "moves": [ { "step", "by": [dx, dy, dz] } ] } ],
 *     "steps": [ { "number", "group", "words" } ], "size": [x, y, z], "note" }
 *
 * Bytes stand in base64 (RFC 4648 section 4, with padding), numbers in them little endian:
 *   points     float32 x, y, z of each point, mm, in the piece's own frame (piece.h); of a part in its blank's
 *   triangles  uint32, three points each, counter-clockwise as seen from outside
 *   source     uint16 of each triangle: 0 a side of the blank, k the wall or bottom of the cut that cuts[k - 1] names
 *   face       uint8 of each triangle: tw_face of that side, or of the face from which the cut goes in
 *   edges      uint32, two points each: the edges that are drawn (not those between the chords of a curve)
 *   boxes      float32 least x, y, z and most x, y, z of each box of short grain, mm, in the piece's frame
 *
 * matrix has the images of the three axes and of the origin, in this order, x, y, z of each, in the frame of space.h: a point p
 * stands at p.x [0..2] + p.y [3..5] + p.z [6..8] + [9..11]. moves: where the steps of taking apart bring it when the whole is
 * drawn apart, in their order; `apart` is their sum, `step` the first of them, 0 when none moves it. Steps count from 1 through
 * all groups: steps[step - 1] says the words; its `number` is that of the papers, within its group. A step that has no moves is
 * one in which nothing can be seen to go. size: of the box around all as it stands. note: what is not shown and why, or "". */
#ifndef TW_SOLID_JSON_H
#define TW_SOLID_JSON_H

#include "sheet/papers.h"

/// Writes all of it. Solids are made with arcs as chords within chord_mm (over 0) unless input->bodies has solids with
/// triangles. input->space NULL: nothing stands; input->woods NULL: no short grain is told. Scratch and words live in the arena.
void tw_solids_json_put(tw_arena *arena, const tw_paper_input *input, double chord_mm, tw_sink *sink);

#endif
