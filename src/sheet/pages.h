// SPDX-License-Identifier: GPL-3.0-or-later
/* pages: the pages of one paper as they fill from the top down. Private to the composers. */
#ifndef TW_PAGES_H
#define TW_PAGES_H

#include "sheet/papers.h"

#define TW_SMALL_MM 2.0   // small print: sums, labels
#define TW_BODY_MM  2.5   // what is read at the bench
#define TW_LOUD_MM  3.5   // what is read at arm's length
#define TW_TITLE_MM 5.0   // headings of a page
#define TW_LARGE_MM 9.0   // the figures that are set

typedef struct tw_page { tw_sheet *sheet; const char *title, *scale; } tw_page;

typedef struct tw_pages {
    tw_arena             *keep;   // where the finished pages live
    tw_arena             *arena;  // where all else lives until tw_pages_finish(): words put together, scratch sheets
    const tw_paper_input *in;
    const char           *name, *title, *kind, *purpose;
    double                width_mm, height_mm;  // of a page
    tw_box                room;   // inside the frame, above the title block
    tw_page              *items;
    size_t                count, space;
    tw_sheet             *sheet;  // the page in hand, NULL before the first
    double                y;      // upper border of what is free on it
} tw_pages;

/// kind: what the title block calls such a page ("Setup card"). End with tw_pages_finish().
tw_pages tw_pages_begin(tw_arena *arena, const tw_paper_input *in, const char *name, const char *title, const char *kind,
                        const char *purpose);
/// A new page. title: for the title block; scale: "1 : 2" or NULL when nothing on it has a scale.
void tw_pages_new(tw_pages *pages, const char *title, const char *scale);
/// Turns the page when less than height_mm is free on it and something stands on it already.
void tw_pages_need(tw_pages *pages, double height_mm);
/// Draws frames and title blocks, now that the number of pages is known, and frees what was only for composing.
tw_paper_pages tw_pages_finish(tw_pages *pages);

void tw_pages_gap(tw_pages *pages, double height_mm);
/// A heading that stays with at least `with_mm` of what follows it.
void tw_pages_heading(tw_pages *pages, const char *text, double with_mm);
void tw_pages_text(tw_pages *pages, double size_mm, bool bold, const char *text);
/// A table over the whole width: widths are shares, brought to the room's width. Titles stand again on each new page.
void tw_pages_table(tw_pages *pages, const tw_column *columns, int column_count, double size_mm, const char *const *cells,
                    int row_count);
/// What was drawn on a scratch sheet with its top at y = 0 and its left border at x = 0, down to y = -height_mm.
void tw_pages_place(tw_pages *pages, const tw_sheet *block, double height_mm);

/// The box that the ink on a sheet reaches; empty for an empty sheet.
tw_box tw_sheet_reach(const tw_sheet *sheet);
/// An arena for composing, with the other's way out of memory. End it with tw_arena_finish().
tw_arena tw_arena_beside(const tw_arena *arena);
/// A sheet to compose a block on before its height is known.
tw_sheet *tw_scratch(tw_arena *arena);
/// A paragraph whose top is at `top`; returns the top of what follows.
double tw_block_text(tw_sheet *sheet, double x, double top, double width_mm, double size_mm, bool bold, const char *text);
/// A small label, and what it says below it in the size given; returns the top of what follows, with a gap.
double tw_block_labelled(tw_sheet *sheet, double x, double top, double width_mm, const char *label, double size_mm, const char *text);
/// Boxes to tick in rows from the upper left corner, at most `most`; beyond that a line to write the tally on is drawn.
/// Returns the top of what follows.
double tw_block_ticks(tw_sheet *sheet, double x, double top, double width_mm, double side_mm, int count, int most);

/* ---- what several composers say ---- */
const char *tw_paper_length(const tw_pages *pages, double length_mm);   // with its unit
const char *tw_paper_bare(const tw_pages *pages, double length_mm);     // without
const char *tw_paper_unit_word(tw_figures figures);                     // "mm" or "inches"
const char *tw_count_words(tw_arena *arena, int count, const char *one, const char *many);  // "1 piece", "4 pieces"
/// With a capital first and a full stop last.
const char *tw_sentence(tw_arena *arena, const char *text);
const char *tw_works_piece_name(const tw_paper_input *in, const tw_work *work);  // the piece, or the part that the joint makes
/// "A halt stands ..." for the head of templates and cards, NULL when none does.
const char *tw_halt_words(tw_arena *arena, const tw_findings *findings);

/* ---- single drawings for the screen, on scratch sheets with their top at y = 0; no text below least_text_mm (drawing.c) ---- */
#define TW_NARROW_MM 120.0  // a drawing narrower than this has its parts below each other

/// A joint in section and as a picture, or a profile; NULL when its kind has no drawing.
tw_sheet *tw_joint_drawing(tw_arena *arena, const tw_paper_input *in, int plan, double wide_mm, double least_text_mm);
/// A group of pieces: its three views; a picture of it; drawn apart with its steps. NULL when it cannot be drawn so.
tw_sheet *tw_whole_drawing(tw_arena *arena, const tw_paper_input *in, int net, double wide_mm, double least_text_mm);
tw_sheet *tw_whole_picture(tw_arena *arena, const tw_paper_input *in, int net, bool apart, double wide_mm, double least_text_mm);
/// Which net the n-th group of the assembly is, from 1; -1 when there are not so many.
int tw_group_net(const tw_paper_input *in, int number);
/// The fibres of a piece, its short grain with what it lies between. NULL without cuts.
tw_sheet *tw_grain_drawing(tw_arena *arena, const tw_paper_input *in, int piece, double wide_mm, double least_text_mm);
/// A template's board and edge with their sizes, not larger than true. NULL when it could not be made.
tw_sheet *tw_template_drawing(tw_arena *arena, const tw_paper_input *in, int index, double wide_mm, double least_text_mm);
/// The piece on the table at a step of the run, with the cradle if there is one. NULL when the step has no template.
tw_sheet *tw_card_drawing(tw_arena *arena, const tw_paper_input *in, int step, double wide_mm, double least_text_mm);

/* ---- the composers: each gives a paper with page_count 0 when it has nothing to show ---- */
tw_paper_pages tw_paper_overview(tw_arena *arena, const tw_paper_input *in, const tw_papers *others);
tw_paper_pages tw_paper_findings(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_run(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_cards(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_templates(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_strips(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_pieces(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_joints(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_profiles(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_profile_lines(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_grain(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_assembly(tw_arena *arena, const tw_paper_input *in);
tw_paper_pages tw_paper_cutting(tw_arena *arena, const tw_paper_input *in);

#endif
