// SPDX-License-Identifier: GPL-3.0-or-later
/* cards: what the files that make setup cards hand to each other. Private to the papers. */
#ifndef TW_CARDS_H
#define TW_CARDS_H

#include "sheet/pages.h"

#define TW_CARD_GUTTER_MM 6.0  // between columns
#define TW_CARD_PRINT_MM 2.3   // what is read with the card in the hand

/// One card: a step of the run with all that belongs to it. Those that a step does not have are NULL.
typedef struct tw_card {
    const tw_paper_input *in;
    const tw_step        *step;
    const tw_joint_plan  *plan;
    const tw_work        *work;
    const tw_setup       *setup;
    const tw_template    *template_;
} tw_card;

tw_card tw_card_of(const tw_paper_input *in, const tw_step *step);

/* ---- words of a card ---- */
#define TW_CARD_SETTINGS_MOST 4
/// A figure that is set: where to, in words ("move the template to the RIGHT"), or ""; arrow: its direction is drawn too.
typedef struct tw_card_setting { const tw_setting *setting; const char *way; bool arrow; } tw_card_setting;
/// Those of a card with a setup, in the order in which they are set; how many.
int tw_card_settings(tw_arena *arena, const tw_card *card, tw_card_setting shown[TW_CARD_SETTINGS_MOST]);
const char *tw_card_template_words(tw_arena *arena, const tw_card *card);  // "T1, marked face towards you"
const char *tw_card_cutter_words(tw_arena *arena, const tw_card *card);    // of a setup with a cutter
const char *tw_card_clamp_words(tw_arena *arena, const tw_card *card);
const char *tw_card_packing_words(tw_arena *arena, const tw_card *card);   // "" for none
const char *tw_card_whose_words(tw_arena *arena, const tw_card *card);     // "stretcher: 4 cuts in 2 pieces, RIGHT HAND"
tw_figures  tw_limit_figures(tw_figures figures);  // how limits are written: finer than a fraction tells
const char *tw_card_limits_words(tw_arena *arena, const tw_card *card);    // of what is measured; "" for none
const char *tw_card_moving_words(tw_arena *arena, const tw_work *work, double ratio);
const char *tw_card_lies_words(tw_arena *arena, const tw_work *work);      // "back down, face is cut"; "" at a saw
const char *tw_way_cautions(tw_way way);                                   // one a line, or ""
/// A spacer's own size without its unit, to its last decimal: "0.05", "1/16".
const char *tw_spacer_size_words(tw_arena *arena, double size_mm, tw_figures figures);
/// " (makes 43.360 mm: 0.010 mm heavy)" when a stack is not the wanted length to the thousandth, else "".
const char *tw_stack_error_words(tw_arena *arena, const tw_stack *stack, tw_figures figures);
/// Why there is no stack, with the nearest ones.
const char *tw_stack_none_words(tw_arena *arena, const tw_stack *stack, tw_figures figures);

/// How the face that is cut is seen with the work's `down` on the table: unit vectors in the piece's frame.
typedef struct tw_view { tw_spot right, up, out; } tw_view;
tw_view tw_view_of(tw_face face, tw_face down);
/// Where a side of the piece is in that view: x -1 left, +1 right; y -1 below, +1 above; both 0: towards or away.
typedef struct tw_sense { int x, y; } tw_sense;
tw_sense tw_view_sense(tw_view view, tw_face side);
/// The side of the piece that is seen left (x -1), right (+1), below (y -1) or above (+1).
tw_face tw_view_side(tw_view view, int x, int y);

/// Draws the piece on the table as the cutter looks at it, inside the room.
void tw_card_picture(tw_sheet *sheet, tw_box room, const tw_card *card);
/// Draws one figure that is set, large, with its stack: top left corner at x, top. Returns the top of what follows.
/// way: where to, in words ("move the template to the RIGHT"), or ""; arrow: draw the setting's direction, too.
double tw_card_figure(tw_sheet *sheet, double x, double top, double width_mm, const tw_card *card, const tw_setting *setting,
                      const char *way, bool arrow);

/// Draws the cradle of a work that has one (card_cradle.c), from the left border; returns the top of what follows.
double tw_card_cradle(tw_sheet *sheet, double top, double width_mm, const tw_card *card);

/* ---- what setup cards and short cards have in common (card_parts.c); each returns the top of what follows ---- */

/// Number, name, whose, tally and boxes to tick, from the top at y = 0.
double tw_card_head(tw_sheet *sheet, double width_mm, const tw_card *card, double title_mm);
/// The dimension to measure on the first piece, its limits, and what to move how far. The work must have one.
double tw_card_measure(tw_sheet *sheet, double x, double top, double width_mm, const tw_card *card);
/// Cautions in a frame, one for each line of the text; nothing when it is empty.
double tw_card_cautions(tw_sheet *sheet, double x, double top, double width_mm, const char *cautions);
/// Both texts as one, the second left out when the first has it. Either may be NULL.
const char *tw_card_cautions_of(tw_arena *arena, const char *first, const char *second);
/// "Leave set for the next card at this machine: ...", or "".
const char *tw_card_keeps(tw_arena *arena, const tw_card *card);

/// A card that shares its page (card_short.c): for steps without a setup.
void tw_card_add_short(tw_pages *pages, const tw_card *card);

#endif
