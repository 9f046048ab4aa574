// SPDX-License-Identifier: GPL-3.0-or-later
/* alike: are two pieces with their cuts the same, or mirror images of each other?
 *
 * A blank can be laid down in four ways that bring its sides onto themselves (as it lies; end for end; rolled over; both) and,
 * when it is as wide as thick or the other piece counts its width as thickness, in four more. Turned like that, two alike
 * pieces have wood in the same places. In a mirror the same holds for the ways that no hand can turn a piece: those are
 * left and right. A piece that is its own mirror image has no hand.
 *
 * What is compared is wood, not the list of cuts: the runs of fibres in every stretch between the marks of either piece. */
#ifndef TW_ALIKE_H
#define TW_ALIKE_H

#include "piece/fibres.h"

typedef enum tw_likeness { TW_UNLIKE, TW_ALIKE, TW_MIRRORED } tw_likeness;

/// How the one is laid down to be the other: swap: its width takes the place of its thickness; then ends, edges, faces changed.
typedef struct tw_symmetry { bool swap, ends, edges, faces; } tw_symmetry;

typedef struct tw_cut_list { tw_size size; const tw_cut *cuts; int count; } tw_cut_list;

#define TW_ALIKE_MM 0.02  // walls nearer than this are the same: no saw repeats better

/// Alike goes before mirrored. how: set when they are either.
tw_likeness tw_pieces_alike(tw_arena *scratch, tw_cut_list one, tw_cut_list other, tw_symmetry *how);
/// "", "turned end for end", "rolled over, face down", ...: how to lay an alike piece like the other.
const char *tw_symmetry_words(tw_symmetry how);

#endif
