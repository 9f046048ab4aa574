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

/// What a figure on a drawing comes from, so that a screen can lead from it to the amount.
typedef struct tw_source {
    const char *from;  // path text (job/path.h) of the amount that changes it: "pieces/post/width"; NULL: none does
    const char *why;   // id of the figure (sheet/figures.h) whose sum explains it; NULL: none
} tw_source;

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
    tw_source    source;        // text: what the figure comes from; NULLs mostly
} tw_item;

/// One page, or one endless canvas that tw_sheet_tile() cuts into pages.
typedef struct tw_sheet {
    tw_arena   *arena;
    const char *name;     // file name without its ending: "templates-2"
    const char *title;    // what it shows, for the PDF outline and the list of papers
    double      width_mm, height_mm;
    tw_item    *items;
    size_t      count, room;
    tw_source   source;   // of texts that are drawn now: set with tw_draw_source
    double      least_text_mm;  // no text should be smaller: small print is drawn larger (tw_small_print); 0 on paper
} tw_sheet;

typedef enum tw_paper { TW_PAPER_A4, TW_PAPER_A3, TW_PAPER_LETTER } tw_paper;
typedef struct tw_paper_size { const char *name; double width_mm, height_mm; } tw_paper_size;  // upright
tw_paper_size tw_paper_size_of(tw_paper paper);

tw_sheet *tw_sheet_new(tw_arena *arena, const char *name, const char *title, double width_mm, double height_mm);
/// The size in which to set what is size_mm high on paper: that, or the least of the sheet.
double tw_small_print(const tw_sheet *sheet, double size_mm);

/* ---- marks on the sheet: all coordinates in mm of paper ---- */
/// From here on all texts that are drawn come from this, until (tw_source){0} ends it. Its texts are copied.
void tw_draw_source(tw_sheet *sheet, tw_source source);
void tw_draw_line(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1);
void tw_draw_arc(tw_sheet *sheet, tw_role role, double cx, double cy, double radius_mm, double start_rad, double sweep_rad);
void tw_draw_circle(tw_sheet *sheet, tw_role role, double cx, double cy, double radius_mm);
void tw_draw_box(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1);
void tw_draw_outline(tw_sheet *sheet, tw_role role, tw_outline outline);  // copied; an empty one draws nothing
void tw_draw_text(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, const char *text);
void tw_draw_bold(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, const char *text);
void tw_draw_text_turned(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, double turn_rad, const char *text);
/// Text broken into lines between words to fit width_mm (a word too long is broken within). y is the base line of the
/// first line; returns the base line for what follows (first base line - lines * leading). Leading is 1.7 * size.
/// A line end in the text ends the line; a no-break space (U+00A0) holds a number and its unit together.
double tw_draw_paragraph(tw_sheet *sheet, double x, double y, double width_mm, double size_mm, bool bold, const char *text);
#define TW_LEADING 1.7
#define TW_EM_PER_CAPITAL (2048.0 / 1493.0)  // font size of a writer for a text of capital height 1, in both faces
/// The same with lines set left, middle or right about x.
double tw_draw_lines(tw_sheet *sheet, double x, double y, double width_mm, double size_mm, tw_anchor anchor, bool bold,
                     const char *text);
/// How many lines tw_draw_paragraph would take.
int tw_text_lines(double width_mm, double size_mm, bool bold, const char *text);
/// Text shortened with "…" to fit, or the same text.
const char *tw_text_fitted(tw_arena *arena, double width_mm, double size_mm, bool bold, const char *text);
/// Text as it can be set in one line: what is not valid UTF-8, and what the table of widths does not have (writing other
/// than Latin, Greek, Cyrillic and the signs of our papers), becomes a box; line ends and tabs become spaces; soft hyphens
/// go. Every text that comes onto a sheet passes through it, so all writers show the same. Returns a copy in the arena.
const char *tw_text_shown(tw_arena *arena, bool bold, const char *text);
/// Width of one line in mm, from the table of advance widths.
double tw_text_width(double size_mm, bool bold, const char *text);
/// The box that the ink of an item's text can reach (turned texts: the box around). For overlap tests and placing.
tw_box tw_text_box(const tw_item *item);
/// The same box before it is turned and moved: relative to the anchor, x along the text. Empty when there is no ink.
tw_box tw_text_ink(const tw_item *item);
/// Where a point of that box lies on the sheet.
tw_point tw_text_point(const tw_item *item, double x, double y);

/// A filled arrow head with its tip at (x, y) pointing in the direction, 15 degrees wide (ISO 129-1). Length 3 mm goes
/// with lettering of 2.5 mm.
void tw_draw_arrow_head(tw_sheet *sheet, double x, double y, double direction_rad, double length_mm);
/// A line with an arrow head at its end.
void tw_draw_arrow(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1);
/// A linear dimension after ISO 129-1 between two points, measured along the direction angle_rad (0 level, pi/2 upright),
/// its line standing off_mm from the first point (to the left of the direction when positive), with extension lines,
/// arrow heads (turned outward when there is no room between) and the text above the line, readable from below or from
/// the right; text that does not fit between the arrows stands beside the far arrow.
void tw_draw_dimension(tw_sheet *sheet, tw_point a, tw_point b, double angle_rad, double off_mm, double size_mm, const char *text);
/// The same with the text's left end text_from_mm along the dimension line, from its first end in the direction of reading
/// (below 0: before it, the line runs back to the text).
void tw_draw_dimension_text_at(tw_sheet *sheet, tw_point a, tw_point b, double angle_rad, double off_mm, double size_mm, const char *text,
                               double text_from_mm);
/// What a dimension of that length on paper looks like, for those who place several.
typedef struct tw_dimension_fit {
    double arrow_mm, air_mm, wide_mm;  // arrow head; air beside texts; the text
    bool   arrows_inside, text_inside; // between the ends
    double tail_mm;                    // how far the line runs past either end when the arrows stand outside; else 0
    double text_from_mm;               // where the text usually begins, from the first end
} tw_dimension_fit;
tw_dimension_fit tw_dimension_fit_of(double length_mm, double size_mm, const char *text);
/// Hatching at 45 degrees inside an outline, spacing_mm apart.
void tw_draw_hatch(tw_sheet *sheet, tw_outline outline, double spacing_mm, double angle_rad);
/// Copies all marks of one sheet onto another, scaled about the origin and then moved.
void tw_draw_sheet(tw_sheet *onto, const tw_sheet *marks, double scale, double dx, double dy);
/// A copy of one item.
void tw_draw_item(tw_sheet *sheet, const tw_item *item);

/* ---- roles: the same in every writer ---- */

/// How a role is drawn. Widths after the series of ISO 128 (0.18, 0.25, 0.35, 0.5, 0.7), dashes and gaps by turns in mm.
typedef struct tw_role_look {
    const char *name;      // also the layer's name in DXF: "visible", "centre"
    double      width_mm;  // 0: not stroked
    double      grey;      // 0 black to 1 white: of the stroke, the filling or the text
    double      dash_mm[6];
    int         dash_count;  // 0: continuous
    bool        filled;      // outlines of this role are filled, not stroked
    const char *dxf_line;    // name of the line type in DXF
} tw_role_look;
const tw_role_look *tw_role_look_of(tw_role role);

/* ---- edges: what the writers need of an outline ---- */

/// The edge from one vertex to the next as an arc. straight: bulge 0, or the two are one point.
typedef struct tw_edge {
    bool     straight;
    tw_point from, to, centre;
    double   radius_mm, start_rad, sweep_rad;  // sweep positive counter-clockwise
} tw_edge;
tw_edge tw_edge_of(tw_vertex vertex, tw_vertex next);
/// Edge i of a loop, 0 to count - 1.
tw_edge tw_loop_edge(tw_loop loop, int i);

/* ---- more marks ---- */

/// A leader: an arrow on the point, a line to the knee, a short level landing, and the text on the landing's line.
/// The text stands right of the knee when the knee is right of the point (or above it), else left.
void tw_draw_leader(tw_sheet *sheet, tw_point on, tw_point knee, double size_mm, const char *text);
/// An angle after ISO 129-1: an arc about the apex from start_rad over sweep_rad with arrow heads (outside when narrow) and
/// the text, level, beyond the middle of the arc. Extension lines run from the apex to 1 mm over the arc when extend is set.
void tw_draw_angle(tw_sheet *sheet, tw_point apex, double radius_mm, double start_rad, double sweep_rad, bool extend,
                   double size_mm, const char *text);
/// An empty square to tick, its lower left corner at x, y.
void tw_draw_tick_box(tw_sheet *sheet, double x, double y, double side_mm);
/// Bars of 100 mm and of 4 in, one above the other, with ticks: the lower left corner of their block at x, y.
/// The block is TW_SCALE_BARS_WIDE_MM x TW_SCALE_BARS_HIGH_MM. True to size only on a sheet that is.
void tw_draw_scale_bars(tw_sheet *sheet, double x, double y);
#define TW_SCALE_BARS_WIDE_MM 116.0
#define TW_SCALE_BARS_HIGH_MM 13.0

/* ---- tables ---- */

typedef struct tw_column { const char *title; double width_mm; tw_anchor anchor; bool bold; } tw_column;

/// A table with a bold row of titles, a rule below them, and rows of wrapped text parted by faint rules.
/// Splitting over pages is the caller's: ask for the heights ahead.
typedef struct tw_table {
    const tw_column *columns;
    int              column_count;
    double           size_mm;      // capital height, e.g. 2.0 or 2.5
    double           least_row_mm; // rows are at least this high (room to write by hand); 0: as high as their text
} tw_table;
double tw_table_width(const tw_table *table);
double tw_table_titles_height(const tw_table *table);
/// cells: [column_count]; NULL counts as "".
double tw_table_row_height(const tw_table *table, const char *const *cells);
/// How many of the rows from the first on (cells: row by row) fit into the height, the titles not counted.
int tw_table_rows_that_fit(const tw_table *table, const char *const *cells, int first, int row_count, double height_mm);
/// Draw with the upper left corner at x, y; each returns the y below.
double tw_draw_table_titles(tw_sheet *sheet, const tw_table *table, double x, double y);
double tw_draw_table_row(tw_sheet *sheet, const tw_table *table, double x, double y, const char *const *cells);
/// Titles and all rows, with a closing rule.
double tw_draw_table(tw_sheet *sheet, const tw_table *table, double x, double y, const char *const *cells, int row_count);

/* ---- the page around the drawing ---- */

/// What the title block says; the fields of ISO 7200 that a one-person shop fills in. NULL fields stay empty.
typedef struct tw_title_block {
    const char *title;     // what is shown: "Stretcher tenon, face cheek"
    const char *kind;      // what the sheet is: "Setup card", "Template"
    const char *job;       // name of the job
    const char *revision;
    const char *scale;     // "1:1", "1:5", "not to scale"
    const char *paper;     // "A4"
    const char *units;     // "mm", "in"
    int         sheet, of; // sheet n of m; 0: not said
} tw_title_block;
#define TW_PAGE_MARGIN_MM 10.0       // what common printers leave white, with some to spare: common practice
#define TW_TITLE_BLOCK_HIGH_MM 17.0

/// A frame inside the margin with the title block along its lower edge. Returns the free area between them, kept
/// 4 mm from every line.
tw_box tw_draw_page(tw_sheet *sheet, const tw_title_block *block);

/* ---- looking over a sheet ---- */

/// Two texts whose ink boxes overlap by more than a hair (0.1 mm), as indices into sheet->items, first < second.
typedef struct tw_overlap { int first, second; } tw_overlap;
/// count is set; NULL when there are none. Turned texts are taken as turned.
tw_overlap *tw_sheet_overlaps(const tw_sheet *sheet, tw_arena *arena, int *count);
/// Texts that a line of any role, an arrow head, or the border of a filled area runs through, by more than a hair: first is the text, second what
/// runs through it. What is drawn faint is looked over: a table's rules, the fold of a sheet.
tw_overlap *tw_sheet_crossed_texts(const tw_sheet *sheet, tw_arena *arena, int *count);
/// Indices of the texts that run over the paper's border by more than a hair, or within edge_mm of it.
int *tw_sheet_texts_off_paper(const tw_sheet *sheet, double edge_mm, tw_arena *arena, int *count);

#endif
