// SPDX-License-Identifier: GPL-3.0-or-later
/* trench: what kinds share that cut a trench across a side of a piece with a plunging cutter. */
#ifndef TW_JOINT_TRENCH_H
#define TW_JOINT_TRENCH_H

#include "joint/views.h"

/// A trench along y, in the arena, counter-clockwise; its low and its high end (y0, y1) with round corners of that radius, 0: square.
/// A radius over half of the trench's width is taken as half.
tw_outline tw_trench_outline(tw_arena *arena, tw_box box, double low_radius_mm, double high_radius_mm);

/// Of a trench across a side that is across_mm wide, the piece upright on the machine's table: from and to are measured
/// across the side and lie outside it where the cutter runs out.
typedef struct tw_trench_reach {
    double from_mm, to_mm, across_mm, depth_mm, cutter_mm;
    bool   low_down;    // the side must lie down from which from_mm is measured; else either
} tw_trench_reach;
/// Does the copying machine reach along the whole trench, and does its holder take the template?
bool tw_trench_in_reach(const tw_machine *machine, const tw_trench_reach *reach);

/// How a piece whose end is let into such a trench stands in the frame of the other: where its x, y and z run. Its end looks
/// into the side `from`; its face looks to the right end of the other piece, or to the left one.
tw_frame tw_housed_axes(tw_face from, bool right_end, bool face_to_right);
/// The direction in which v grows, from the side `low`, in the frame of the piece.
tw_spot tw_trench_along(tw_face from, tw_face low);

/// The section along a trench with the piece that is let into it: x into the piece that carries it, y across it from the low side.
typedef struct tw_trench_section {
    double body_mm;                  // of the piece let in, shown outside
    double in_mm, depth_mm;          // how far it goes in; how deep the trench is
    double thick_mm, across_mm;      // of the other piece, behind the side and across it
    double v0_mm, v1_mm;             // the trench's ends
    bool   low_stopped, high_stopped;
    double low_edge_mm, high_edge_mm, notch_low_mm, notch_high_mm;   // of the piece let in, and its notches over the stops
} tw_trench_section;
void tw_trench_draw_along(const tw_joint_view *view, const tw_trench_section *section);

#endif
