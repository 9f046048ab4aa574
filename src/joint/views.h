// SPDX-License-Identifier: GPL-3.0-or-later
/* views: a joint drawn as two views side by side, each at a standard scale of its own, with dimensions in rows below and
 * in columns to the right, so placed that no text meets another or an outline.
 *
 *     Section across            Section along        a kind says how far each view reaches and what is measured (in mm of
 *     +----------+  |  |        +------+  |          the joint); tw_views_place() finds scales and places; the kind draws
 *     |          |  |  |        |      |  |          its outlines; tw_views_measure() draws captions and dimensions. */
#ifndef TW_JOINT_VIEWS_H
#define TW_JOINT_VIEWS_H

#include "joint/joint.h"

#define TW_VIEW_MEASURES_MOST 6

// from < to, mm of the joint
typedef struct tw_view_measure { double from, to; const char *text; tw_source source; } tw_view_measure;

typedef struct tw_joint_view {
    tw_sheet   *sheet;
    const char *title, *whose;             // two lines above the view
    tw_box      reach;                     // of the outlines, mm of the joint
    double      right_mm;                  // of paper, free to the right of that, for labels that the kind writes there
    double      round_mm;                  // of paper, free all round the outlines for what the kind writes there
    tw_view_measure rows[TW_VIEW_MEASURES_MOST], columns[TW_VIEW_MEASURES_MOST];
    int         row_count, column_count;
    double      scale, x, y;               // set by tw_views_place: factor, and where 0, 0 lies on paper
    const char *scale_text;
    double      caption_x, caption_y, caption_wide_mm;
} tw_joint_view;

#define TW_VIEW_TEXT_MM 2.5

/// Scales at which a joint is drawn, the largest first: on paper those of ISO 5455, on the screen more between them. They end
/// with a factor of 0.
typedef struct tw_view_scale { double factor; const char *text; } tw_view_scale;
const tw_view_scale *tw_view_scales(const tw_sheet *sheet);
#define TW_VIEW_STACKED_MM 120.0  // a room narrower than this has one view below the other

/// source: what the text comes from, by one of the two calls below.
void tw_view_row(tw_joint_view *view, double from, double to, const char *text, tw_source source);
void tw_view_column(tw_joint_view *view, double from, double to, const char *text, tw_source source);

/// A figure of the plan, and the key of the job that sets it, when that is what is shown: nothing when the plan has no such
/// figure or it is another than shown (mm, or radians).
tw_source tw_figure_source(const tw_joint_context *context, const tw_joint_plan *plan, const char *key, double shown);
/// The size of the piece that is shown; nothing when none is, or when two are alike, so that it might be either.
tw_source tw_size_source(const tw_joint_context *context, const tw_piece *piece, double shown_mm);
/// Finds scales at which both views fit into the room, and their places. Returns the scale as text: "1:1", or "1:1, 1:5".
const char *tw_views_place(tw_joint_view views[2], tw_arena *arena, tw_box room);
/// The same with the second view below the first: for long pieces, and what tw_views_place() does in a narrow room.
const char *tw_views_stack(tw_joint_view views[2], tw_arena *arena, tw_box room);
/// The room for views that need no more than so much of its height; where they are stacked, all of it.
tw_box tw_view_room(tw_box room, double most_high_mm);
/// Captions and dimensions; after the kind has drawn its outlines.
void tw_views_measure(const tw_joint_view views[2]);

tw_point tw_view_at(const tw_joint_view *view, double a, double b);
void tw_view_line(const tw_joint_view *view, tw_role role, double a0, double b0, double a1, double b1);
/// Hatching of a box; nothing when it is thinner than a hair.
void tw_view_hatch(const tw_joint_view *view, double a0, double b0, double a1, double b1, double angle_rad);
/// An open line through the points.
void tw_view_path(const tw_joint_view *view, tw_role role, const tw_point *points, int count);

/// What stands on the sheet in place of a joint that cannot be made; returns "not to scale".
const char *tw_view_none(tw_sheet *sheet, tw_box room);

#endif
