// SPDX-License-Identifier: GPL-3.0-or-later
/* setting_out: what is drawn of one kind of piece on its sheet of the paper "pieces". Private to that paper.
 *
 * All positions on a piece are told from its marks outward: along from the left end, across from the face edge, and in
 * thickness from the face. A view has its own mm: u to the right and v up from the lower left corner of the blank as seen. */
#ifndef TW_SETTING_OUT_H
#define TW_SETTING_OUT_H

#include "draw/rows.h"
#include "piece/fibres.h"
#include "sheet/pages.h"
#include "solid/solid.h"

#define TW_SECTIONS_MOST 8   // sections of one piece that are drawn

/// Cuts of one piece that are alike but for their place along it: one letter, one row of a table.
typedef struct tw_cut_mark {
    const char *letter;
    int        *cuts, count;  // indices into the piece's cuts
    bool        hole;         // round: it stands in the table of holes
} tw_cut_mark;

/// A place along the piece where it is looked at across, and the cuts that are met there.
typedef struct tw_across {
    const char *letter;       // of the section
    double      at_mm;        // from the left end
    int        *cuts, count;
} tw_across;

typedef struct tw_drawn_piece {
    tw_arena             *arena;
    const tw_paper_input *in;
    tw_figures            figures;   // as figures are written on the drawing
    int                   piece;
    tw_size               size;
    tw_cut               *cuts;      int cut_count;
    tw_block             *reaches;   // of each cut, within the blank
    int                  *mark_of;   // of each cut
    tw_cut_mark          *marks;     int mark_count;
    tw_across              ends[2];   // just inside the left and the right end
    tw_across             *slices;    int slice_count;  // sections that look like neither end and unlike each other
    bool                  more_slices;   // there would be more than are drawn
    double                least_text_mm; // of its sheets (tw_sheet); 0 on paper
    bool                 *cut_by;        // [plans]: by which it is cut; set with the next
    const struct tw_piece_nudges *nudges;  // what moves its dimensions: for drawings on the screen, else NULL
} tw_drawn_piece;

/// Gathers the piece's cuts and what alike ones have in common, and finds where sections are due.
tw_drawn_piece tw_drawn_piece_make(tw_arena *arena, const tw_paper_input *in, int piece);
/// Its cuts alone, and how far they reach.
tw_drawn_piece tw_drawn_piece_cuts(tw_arena *arena, const tw_paper_input *in, int piece);
bool tw_cut_is_hole(const tw_cut *cut);      // one round hole
bool tw_cut_is_rounding(const tw_cut *cut);  // it takes off what lies outside of a round corner: told by its radius alone
/// Along each axis: the axis the hole or cut is driven along (0 x, 1 y, 2 z).
int tw_cut_axis(const tw_cut *cut);

/* ---- what dimensions come from (setting_out_sources.c) ---- */

/// Finds out which amounts of the job move what of the piece; to be kept in of->nudges.
const struct tw_piece_nudges *tw_piece_nudges_make(tw_drawn_piece *of);
/// The amount that a dimension between two places along an axis of the piece comes from; nothing when no amount moves it, or
/// nothing was found out. met: the cuts that are seen; NULL: all. place: it tells where something lies, from the left end.
tw_source tw_piece_source(const tw_drawn_piece *of, const tw_across *met, tw_axis axis, double from, double to, bool place);

/* ---- views ---- */

/// A dimension that is wanted, u or v of the view in mm; stop: a place of the run instead, at `to`.
typedef struct tw_wish { tw_rows_side side; bool stop; double from, to; const char *text; tw_source source; } tw_wish;

typedef struct tw_piece_view {
    const tw_drawn_piece *of;
    tw_face           face;       // that is seen
    const char       *title, *note;
    double            wide_mm, high_mm;
    bool              lengthwise; // u runs along the piece: may be broken
    bool              shows_planes;   // where the sections lie
    const tw_across   *slice;      // a section: what is cut; else NULL
    const tw_across   *met;        // a section or an end: the cuts in it; else NULL
    tw_strokes        strokes;    // in the view's mm
    tw_outline        wood;       // the wood at a section, to hatch; of an end just inside of it, not to hatch
    tw_wish          *wishes;     size_t wish_count, wish_room;
    bool              more_wishes;    // some were left out
    bool              labelled[TW_FACE_COUNT];  // cuts of which faces get their letters here
} tw_piece_view;

/// All views of a piece: lengthwise ones first (face, face edge, then back and back edge where something is to be seen only
/// there), then the left end and, where it looks different, the right end, then the sections. count is set.
tw_piece_view *tw_piece_views_make(const tw_drawn_piece *of, int *count);
/// Adds the dimensions that are wanted in the views.
void tw_piece_views_measure(tw_piece_view *views, int count);

/// Parts of the length that are drawn; what lies between is left out between break lines.
typedef struct tw_kept_part { double from_mm, to_mm, at; } tw_kept_part;  // at: on paper, where the part begins
typedef struct tw_breaks { tw_kept_part *parts; int count; double long_mm; } tw_breaks;  // long_mm: of all on paper
tw_breaks tw_breaks_make(const tw_drawn_piece *of, double scale, bool broken);
double tw_breaks_at(const tw_breaks *breaks, double scale, double mm);  // a place of the length on paper

/// A view on a sheet of its own with its lower left corner at 0, 0. ink is set to what it takes. scale_text: said in the
/// caption unless NULL. rough: only what tells how large it is, without hatching, letters and marks.
tw_sheet *tw_piece_view_draw(const tw_piece_view *view, const tw_breaks *breaks, double scale, const char *scale_text, bool rough, tw_box *ink);

/// The whole setting-out drawing of a piece for the screen, on a scratch sheet, its top at y = 0: all views, one below the
/// other where they find no room side by side, and what its letters mean.
tw_sheet *tw_piece_drawing(tw_arena *arena, const tw_paper_input *in, int piece, double wide_mm, double least_text_mm);

/* ---- marks ---- */

/// The joiner's face mark (a loop) and edge mark (a caret that points to the face), where there is room.
void tw_draw_face_mark(tw_sheet *sheet, tw_box within);
void tw_draw_edge_mark(tw_sheet *sheet, tw_box within);
/// Cutting planes of the sections across a lengthwise view: thick ends, arrows to the left, letters.
typedef struct tw_plane { double x; const char *letter; } tw_plane;
void tw_draw_planes(tw_sheet *sheet, const tw_plane *planes, int count, double below, double above);
/// A break: two zigzag lines (ISO 128, from memory).
void tw_draw_break(tw_sheet *sheet, double x, double y0, double y1);

#endif
