// SPDX-License-Identifier: GPL-3.0-or-later
/* What setup cards and short cards have in common: the head with its number and tally, the one dimension to measure with
 * its limits and what to move, the cautions in their frame, what stays set. */
#include "sheet/cards.h"

#include <string.h>

#define TICK_MM 4.5
#define TICKS_MOST 48
#define NUMBER_WIDE_MM 36.0

/* ---- head ---- */

static void draw_number(tw_sheet *sheet, double x, double width, const tw_card *card)
{
    tw_draw_box(sheet, TW_ROLE_FRAME, x, -19.0, x + width, 0.0);
    tw_draw_text(sheet, x + 2.0, -2.0 - TW_BODY_MM, TW_BODY_MM, TW_ANCHOR_LEFT, "Card");
    const char *number = tw_format(sheet->arena, "%d", card->step->number);
    const char *of = tw_format(sheet->arena, "of %d", card->in->run->count);
    double left = width - 6.0 - tw_text_width(TW_LOUD_MM, false, of), size = TW_LARGE_MM;
    while (size > TW_LOUD_MM && tw_text_width(size, true, number) > left) size -= 0.5;
    tw_draw_bold(sheet, x + 2.0, -16.5, size, TW_ANCHOR_LEFT, number);
    tw_draw_text(sheet, x + width - 2.0, -16.5, TW_LOUD_MM, TW_ANCHOR_RIGHT, of);
}

/* "stretcher: 4 cuts in 2 pieces, RIGHT HAND, for stretcher to post" */
const char *tw_card_whose_words(tw_arena *arena, const tw_card *card)
{
    const tw_work *work = card->work;
    if (!work) return "the whole job";
    const char *hand = work->hand == TW_HAND_LEFT ? ", LEFT HAND" : work->hand == TW_HAND_RIGHT ? ", RIGHT HAND" : "";
    const char *counts = work->copied ? tw_count_words(arena, work->count, "cut", "cuts") : tw_count_words(arena, work->count, "place", "places");
    const char *pieces = tw_count_words(arena, work->pieces, "piece", "pieces");
    if (work->pieces > 0) counts = work->pieces == work->count && !work->copied ? pieces : tw_format(arena, "%s in %s", counts, pieces);
    return tw_format(arena, "%s: %s%s", tw_works_piece_name(card->in, work), counts, hand);
}

double tw_card_head(tw_sheet *sheet, double width, const tw_card *card, double title_mm)
{
    double number = NUMBER_WIDE_MM, left = width - number - TW_CARD_GUTTER_MM;
    draw_number(sheet, width - number, number, card);
    double y = tw_block_text(sheet, 0.0, 0.0, left, title_mm, true, card->step->name);
    y = tw_block_text(sheet, 0.0, y, left, TW_LOUD_MM, true, tw_card_whose_words(sheet->arena, card));
    if (card->plan && !strstr(card->step->name, card->plan->joint->name))
        y = tw_block_text(sheet, 0.0, y, left, TW_BODY_MM, false, tw_format(sheet->arena, "joint: %s", card->plan->joint->name));
    const char *tally = card->step->tally && *card->step->tally ? card->step->tally : card->work && card->work->places ? card->work->places : "";
    y = tw_block_text(sheet, 0.0, y, left, TW_BODY_MM, false, tally);
    y = tw_block_ticks(sheet, 0.0, y - 0.5, left, TICK_MM, card->step->boxes, TICKS_MOST);
    return tw_min(y, -20.0) - 1.0;
}

/* ---- the one dimension to measure ---- */

tw_figures tw_limit_figures(tw_figures figures)
{
    if (figures.style == TW_FIGURES_FRACTION) return (tw_figures){ TW_FIGURES_INCH, 3, 64 };
    if (figures.style == TW_FIGURES_MM && figures.decimals < 2) figures.decimals = 2;
    return figures;
}

const char *tw_card_limits_words(tw_arena *arena, const tw_card *card)
{
    const tw_work *work = card->work;
    if (work->measure_under_mm == 0.0 && work->measure_over_mm == 0.0) return "";
    tw_figures fine = tw_limit_figures(card->in->job->figures);
    bool even = work->measure_under_mm == 0.0 || work->measure_under_mm == -work->measure_over_mm;
    if (work->measure_mm == 0.0 && even)
        return tw_format(arena, "no more than %s%s", tw_length_text(arena, tw_max(work->measure_over_mm, -work->measure_under_mm), fine),
                         work->measure_under_mm < 0.0 ? " either way" : "");
    return tw_format(arena, "between %s and %s", tw_length_bare(arena, work->measure_mm + work->measure_under_mm, fine),
                     tw_length_text(arena, work->measure_mm + work->measure_over_mm, fine));
}

/* How an error goes into what is set: the template at the ratio, all else as it is; half of what a test piece turned over
 * shows where the cut is centred. */
const char *tw_card_moving_words(tw_arena *arena, const tw_work *work, double ratio)
{
    const char *moving = tw_format(arena, "How far to move: the template %g times the error; table, stop and depth the error itself.", ratio);
    if (work->copy.locate != TW_LOCATE_CENTRED) return moving;
    const char *share = ratio == 2.0 ? "all of it" : ratio == 1.0 ? "half of it" : tw_format(arena, "%g times it", ratio / 2.0);
    return tw_format(arena, "%s Off the middle: turn the test piece over, cut again, and measure the difference; move the table by half of it, or the template by %s.", moving, share);
}

double tw_card_measure(tw_sheet *sheet, double x, double top, double width, const tw_card *card)
{
    const tw_work *work = card->work;
    tw_arena *arena = sheet->arena;
    double y = tw_block_text(sheet, x, top, width, TW_CARD_PRINT_MM, true, "First piece: measure");
    y = tw_block_text(sheet, x, y, width, TW_CARD_PRINT_MM, false, work->measure);
    if (work->measure_mm > 0.0)
        y = tw_block_text(sheet, x, y - 0.5, width, TW_TITLE_MM, true, tw_length_text(arena, work->measure_mm, card->in->job->figures)) - 0.5;
    y = tw_block_text(sheet, x, y, width, TW_CARD_PRINT_MM, true, tw_card_limits_words(arena, card));
    if (work->if_off && *work->if_off)
        y = tw_block_text(sheet, x, y, width, TW_CARD_PRINT_MM, false, tw_sentence(arena, tw_format(arena, "If it is off: %s", work->if_off)));
    if (work->copied) y = tw_block_text(sheet, x, y - 0.5, width, TW_SMALL_MM, false, tw_card_moving_words(arena, work, card->in->shop->machine.ratio.value));
    return y;
}

/* ---- cautions, what stays set ---- */

/* The setup's cautions, one a line, and the work's own unless they are said already. */
const char *tw_card_cautions_of(tw_arena *arena, const char *first, const char *second)
{
    first = first ? first : "";
    second = second ? second : "";
    if (!*second || strstr(first, second)) return first;
    return *first ? tw_format(arena, "%s\n%s", first, second) : second;
}

double tw_card_cautions(tw_sheet *sheet, double x, double top, double width, const char *cautions)
{
    if (!*cautions) return top;
    double y = tw_block_text(sheet, x + 2.0, top - 2.0, width - 4.0, TW_CARD_PRINT_MM, true, "Take care");
    while (*cautions) {
        size_t line = strcspn(cautions, "\n");
        const char *text = tw_text_copy(sheet->arena, (tw_text){ cautions, line });
        if (*text) {
            tw_draw_circle(sheet, TW_ROLE_SOLID, x + 3.0, y - TW_CARD_PRINT_MM / 2.0, 0.6);
            y = tw_block_text(sheet, x + 5.5, y, width - 7.5, TW_CARD_PRINT_MM, false, text);
        }
        cautions += line + (cautions[line] == '\n');
    }
    tw_draw_box(sheet, TW_ROLE_CUT, x, y, x + width, top);
    return y - 2.0;
}

const char *tw_card_keeps(tw_arena *arena, const tw_card *card)
{
    const char *keeps = card->step->keeps && *card->step->keeps ? card->step->keeps : card->setup ? card->setup->keeps : "";
    return keeps && *keeps ? tw_format(arena, "Leave set for the next card at this machine: %s.", keeps) : "";
}
