// SPDX-License-Identifier: GPL-3.0-or-later
/* draw: the one display list from which every paper is written.
 *
 * A sheet is a page in millimetres, origin at its lower left corner, x right, y up. What is drawn has a role, not a
 * colour or a width; the writers (sheet: SVG and DXF; print: PDF) turn roles into line widths and dashes after
 * ISO 128. Text is DejaVu Sans; its width is reckoned here from a table of advance widths, so that the layout needs
 * no font library and is the same everywhere. */
#ifndef TW_DRAW_H
#define TW_DRAW_H

#include "base/base.h"
#include "outline/outline.h"

typedef enum tw_role {
    TW_ROLE_VISIBLE,    // visible edges of a piece: continuous, wide (0.5)
    TW_ROLE_CUT,        // border of a section, and the edge that a template is cut to: continuous, wide (0.7)
    TW_ROLE_HIDDEN,     // hidden edges: dashed, narrow (0.25)
    TW_ROLE_CENTRE,     // centre lines and planes of symmetry: chain, narrow (0.25)
    TW_ROLE_DIMENSION,  // dimension lines, leaders, arrows: continuous, narrow (0.25)
    TW_ROLE_HATCH,      // hatching of sections: continuous, narrow (0.18)
    TW_ROLE_PATH,       // the path of a cutter or follower: double-dash chain, narrow (0.25)
    TW_ROLE_FRAME,      // borders, table rules, tick boxes: continuous (0.35)
    TW_ROLE_FAINT,      // construction and guide lines, ghosts of what is elsewhere: continuous, grey, thin (0.18)
    TW_ROLE_TEXT,       // writing: black
    TW_ROLE_SHADE,      // a filled area, light grey: wood that is cut away, a stop, a spacer
    TW_ROLE_SOLID,      // a filled area, black: arrow heads, register marks
    TW_ROLE_COUNT
} tw_role;

typedef enum tw_item_kind { TW_ITEM_LINE, TW_ITEM_ARC, TW_ITEM_OUTLINE, TW_ITEM_TEXT } tw_item_kind;
typedef enum tw_anchor { TW_ANCHOR_LEFT, TW_ANCHOR_MIDDLE, TW_ANCHOR_RIGHT } tw_anchor;

typedef struct tw_item {
    tw_item_kind kind;
    tw_role      role;
    tw_point     from, to;      // line: its ends. arc: from = centre. text: from = anchor on the base line
    double       radius_mm;     // arc
    double       start_rad, sweep_rad;  // arc: sweep positive counter-clockwise, size up to 2 pi
    tw_outline   outline;       // outline: filled for SHADE and SOLID, else stroked and closed
    const char  *text;          // text: one line
    double       size_mm;       // text: height of a capital letter (lettering height h of ISO 3098), e.g. 2.5, 3.5, 5
    double       turn_rad;      // text: turned counter-clockwise about its anchor
    tw_anchor    anchor;
    bool         bold;
} tw_item;

/// One page, or one endless canvas that tw_sheet_tile() cuts into pages.
typedef struct tw_sheet {
    tw_arena   *arena;
    const char *name;     // file name without its ending: "templates-2"
    const char *title;    // what it shows, for the PDF outline and the list of papers
    double      width_mm, height_mm;
    tw_item    *items;
    size_t      count, room;
} tw_sheet;

typedef enum tw_paper { TW_PAPER_A4, TW_PAPER_A3, TW_PAPER_LETTER } tw_paper;
typedef struct tw_paper_size { const char *name; double width_mm, height_mm; } tw_paper_size;  // upright
tw_paper_size tw_paper_size_of(tw_paper paper);

tw_sheet *tw_sheet_new(tw_arena *arena, const char *name, const char *title, double width_mm, double height_mm);

/* ---- marks on the sheet: all coordinates in mm of paper ---- */
void tw_draw_line(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1);
void tw_draw_arc(tw_sheet *sheet, tw_role role, double cx, double cy, double radius_mm, double start_rad, double sweep_rad);
void tw_draw_circle(tw_sheet *sheet, tw_role role, double cx, double cy, double radius_mm);
void tw_draw_box(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1);
void tw_draw_outline(tw_sheet *sheet, tw_role role, tw_outline outline);  // copied
void tw_draw_text(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, const char *text);
void tw_draw_bold(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, const char *text);
void tw_draw_text_turned(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, double turn_rad, const char *text);
/// Text broken into lines between words to fit width_mm (a word too long is broken within). y is the base line of the
/// first line; returns the base line for what follows (first base line - lines * leading). Leading is 1.7 * size.
double tw_draw_paragraph(tw_sheet *sheet, double x, double y, double width_mm, double size_mm, bool bold, const char *text);
/// How many lines tw_draw_paragraph would take.
int tw_text_lines(double width_mm, double size_mm, bool bold, const char *text);
/// Text shortened with "…" to fit, or the same text.
const char *tw_text_fitted(tw_arena *arena, double width_mm, double size_mm, bool bold, const char *text);
/// Width of one line in mm, from the table of advance widths.
double tw_text_width(double size_mm, bool bold, const char *text);
/// The box that the ink of an item's text can reach (turned texts: the box around). For overlap tests and placing.
tw_box tw_text_box(const tw_item *item);

/// A filled arrow head at (x, y) pointing in the direction; length 3 * size of lettering 2.5 by default.
void tw_draw_arrow_head(tw_sheet *sheet, double x, double y, double direction_rad, double length_mm);
/// A line with an arrow head at its end.
void tw_draw_arrow(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1);
/// A linear dimension after ISO 129-1 between two points, measured along the direction angle_rad (0 level, pi/2 upright),
/// its line standing off_mm from the first point (to the left of the direction when positive), with extension lines,
/// arrow heads (turned outward when there is no room between) and the text above the line, readable from below or from
/// the right; text that does not fit between the arrows stands beside the far arrow.
void tw_draw_dimension(tw_sheet *sheet, tw_point a, tw_point b, double angle_rad, double off_mm, double size_mm, const char *text);
/// Hatching at 45 degrees inside an outline, spacing_mm apart.
void tw_draw_hatch(tw_sheet *sheet, tw_outline outline, double spacing_mm, double angle_rad);
/// Copies all marks of one sheet onto another, scaled about the origin and then moved.
void tw_draw_sheet(tw_sheet *onto, const tw_sheet *marks, double scale, double dx, double dy);

#endif
