// SPDX-License-Identifier: GPL-3.0-or-later
/* A figure that is set at the machine: large enough to read at arm's length, with the stack of spacers that sets it drawn
 * as blocks, the way it goes as an arrow, and the two faces that the stack goes between. */
#include "sheet/cards.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define ARROW_MM 13.0     // length of the way's arrow
#define UNIT_MM 3.5
#define BLOCK_HIGH_MM 7.0
#define BLOCK_LEAST_MM 7.0
#define BLOCK_MOST_MM 30.0
#define LARGE_LEAST_MM 5.0
#define LEAST_LABEL_MM 1.8

/* ---- arrow ---- */

/* A solid arrow inside a square of ARROW_MM whose middle is given. */
static void draw_way(tw_sheet *sheet, double x, double y, int dx, int dy)
{
    if (dx == 0 && dy == 0) return;
    double r = ARROW_MM / 2.0, head = ARROW_MM * 0.45, wide = 3.6, shaft = 1.3;
    double ux = dx, uy = dx ? 0.0 : dy, vx = -uy, vy = ux;  // along and to the left of the way
    const double shape[7][2] = { { -r, -shaft }, { r - head, -shaft }, { r - head, -wide }, { r, 0.0 },
                                 { r - head, wide }, { r - head, shaft }, { -r, shaft } };
    tw_vertex vertices[7];
    for (int i = 0; i < 7; i++)
        vertices[i] = (tw_vertex){ x + shape[i][0] * ux + shape[i][1] * vx, y + shape[i][0] * uy + shape[i][1] * vy, 0.0 };
    tw_draw_outline(sheet, TW_ROLE_SOLID, (tw_outline){ &(tw_loop){ vertices, 7 }, 1 });
}

/* ---- the figure itself ---- */

/* "12 23/64 light" parts into its figure, which is set large, and the word after it. */
static const char *split_weight(tw_arena *arena, const char *bare, const char **weight)
{
    const char *at = strstr(bare, " light");
    if (!at) at = strstr(bare, " heavy");
    *weight = at ? at + 1 : "";
    return at ? tw_text_copy(arena, (tw_text){ bare, (size_t)(at - bare) }) : bare;
}

static void draw_large(tw_sheet *sheet, double x, double base, double width_mm, const tw_card *card, double value_mm)
{
    tw_figures figures = card->in->job->figures;
    const char *weight;
    const char *figure = split_weight(sheet->arena, tw_length_bare(sheet->arena, value_mm, figures), &weight);
    const char *unit = tw_format(sheet->arena, "%s%s%s", figures.style == TW_FIGURES_MM ? "mm" : "in", *weight ? " " : "", weight);
    double room = width_mm - tw_text_width(UNIT_MM, true, unit) - 2.0, size = TW_LARGE_MM;
    while (size > LARGE_LEAST_MM && tw_text_width(size, true, figure) > room) size -= 0.5;
    tw_draw_bold(sheet, x, base, size, TW_ANCHOR_LEFT, figure);
    tw_draw_bold(sheet, x + tw_text_width(size, true, figure) + 2.0, base, UNIT_MM, TW_ANCHOR_LEFT, unit);
}

/* ---- the stack ---- */

static double block_width(double size_mm, double largest_mm)
{
    return BLOCK_LEAST_MM + (BLOCK_MOST_MM - BLOCK_LEAST_MM) * size_mm / largest_mm;
}

/* A spacer's own size, to its last decimal in mm: "0.05", "1/16", "0.0015". */
const char *tw_spacer_size_words(tw_arena *arena, double size_mm, tw_figures figures)
{
    if (figures.style == TW_FIGURES_MM) return tw_format(arena, "%g", size_mm);
    tw_fraction fraction = tw_fraction_of(size_mm, 64);
    if (fabs(fraction.remainder_mm) < 1e-6) return tw_fraction_text(arena, fraction);
    return tw_format(arena, "%g", round(size_mm / TW_MM_PER_INCH * 1e4) / 1e4);
}

/* Blocks side by side, largest first, as long as their sizes allow: a leaf is a narrow block. Each carries its size. */
static double draw_blocks(tw_sheet *sheet, double x, double top, double width_mm, const tw_card *card, const tw_stack *stack)
{
    const tw_spacer *spacers = card->in->shop->spacers;
    double largest = 0.0, whole = 0.0;
    for (int i = 0; i < stack->part_count; i++) largest = tw_max(largest, spacers[stack->parts[i].spacer].size.value);
    for (int i = 0; i < stack->part_count; i++)
        whole += stack->parts[i].count * block_width(spacers[stack->parts[i].spacer].size.value, largest);
    double shrink = tw_min(1.0, width_mm / whole);
    for (int i = 0; i < stack->part_count; i++) {
        const tw_spacer *spacer = &spacers[stack->parts[i].spacer];
        for (int k = 0; k < stack->parts[i].count; k++) {
            double wide = block_width(spacer->size.value, largest) * shrink;
            const char *size = tw_spacer_size_words(sheet->arena, spacer->size.value, card->in->job->figures);
            tw_draw_box(sheet, TW_ROLE_SHADE, x, top - BLOCK_HIGH_MM, x + wide, top);
            tw_draw_box(sheet, TW_ROLE_FRAME, x, top - BLOCK_HIGH_MM, x + wide, top);
            double high = TW_BODY_MM;
            while (high > LEAST_LABEL_MM && tw_text_width(high, false, size) > wide - 1.0) high -= 0.1;
            if (tw_text_width(high, false, size) <= wide - 0.6)
                tw_draw_text(sheet, x + wide / 2.0, top - BLOCK_HIGH_MM / 2.0 - high / 2.0, high, TW_ANCHOR_MIDDLE, size);
            x += wide;
        }
    }
    return top - BLOCK_HIGH_MM - 1.2;
}

/* A small length, finer than the job's figures tell: a thousandth of a mm, a ten-thousandth of an inch. */
static const char *fine_words(tw_arena *arena, double mm, tw_figures figures)
{
    return figures.style == TW_FIGURES_MM ? tw_format(arena, "%.3f mm", mm) : tw_format(arena, "%.4f in", mm / TW_MM_PER_INCH);
}

/* What a stack gives, when it is not the wanted length to the thousandth. */
const char *tw_stack_error_words(tw_arena *arena, const tw_stack *stack, tw_figures figures)
{
    if (fabs(stack->error_mm) < 0.0005) return "";
    return tw_format(arena, " (makes %s: %s %s)", fine_words(arena, stack->total_mm, figures), fine_words(arena, fabs(stack->error_mm), figures),
                     stack->error_mm < 0.0 ? "light" : "heavy");
}

const char *tw_stack_none_words(tw_arena *arena, const tw_stack *stack, tw_figures figures)
{
    const char *below = fine_words(arena, stack->below_mm, figures), *above = fine_words(arena, stack->above_mm, figures);
    const char *near = stack->has_below && stack->has_above ? tw_format(arena, " The nearest make %s and %s.", below, above)
        : stack->has_below ? tw_format(arena, " The nearest makes %s.", below)
        : stack->has_above ? tw_format(arena, " The nearest makes %s.", above) : "";
    return tw_format(arena, "No stack of the shop's spacers makes it: set it with a rule or a caliper.%s", near);
}

static double draw_stack(tw_sheet *sheet, double x, double top, double width_mm, const tw_card *card, const tw_setting *setting)
{
    tw_arena *arena = sheet->arena;
    const tw_stack *stack = &setting->stack;
    if (!stack->ok) return tw_block_text(sheet, x, top, width_mm, TW_CARD_PRINT_MM, false, tw_stack_none_words(arena, stack, card->in->job->figures));
    if (stack->part_count == 0) return tw_block_text(sheet, x, top, width_mm, TW_CARD_PRINT_MM, true, "No spacers: the two faces touch.");
    top = draw_blocks(sheet, x, top, width_mm, card, stack);
    const char *names = tw_stack_text(arena, card->in->shop->spacers, stack);
    bool whole = fabs(stack->wanted_mm - setting->value_mm) < 1e-6;  // else the stack goes under a shank or the like
    const char *words = tw_format(arena, "%s%s%s%s", whole ? "" : "stack of ", whole ? "" : tw_length_text(arena, stack->wanted_mm, card->in->job->figures),
                                  whole ? "" : ": ", names);
    return tw_block_text(sheet, x, top, width_mm, TW_CARD_PRINT_MM, true, tw_format(arena, "%s%s", words, tw_stack_error_words(arena, stack, card->in->job->figures)));
}

double tw_card_figure(tw_sheet *sheet, double x, double top, double width_mm, const tw_card *card, const tw_setting *setting,
                      const char *way, bool arrow)
{
    assert(setting->used);
    const char *label = setting->label ? setting->label : "";
    char *title = tw_text_copy(sheet->arena, tw_text_of(label));
    if (*title >= 'a' && *title <= 'z') *title = (char)(*title - 'a' + 'A');
    int dx = arrow ? setting->direction_x : 0, dy = arrow ? setting->direction_y : 0;
    if (setting->value_mm < 1e-9) dx = dy = 0;
    double large_room = width_mm - (dx || dy ? ARROW_MM + 2.0 : 0.0);
    double base = top - TW_LOUD_MM;
    tw_draw_bold(sheet, x, base, TW_LOUD_MM, TW_ANCHOR_LEFT, title);
    double after = tw_text_width(TW_LOUD_MM, true, title) + 2.5;
    bool beside = after + tw_text_width(TW_BODY_MM, true, way) <= width_mm;
    if (beside) tw_draw_bold(sheet, x + after, base, TW_BODY_MM, TW_ANCHOR_LEFT, way);
    base -= 2.8 + TW_LARGE_MM;
    draw_large(sheet, x, base, large_room, card, setting->value_mm);
    draw_way(sheet, x + width_mm - ARROW_MM / 2.0, base + TW_LARGE_MM / 2.0, dx, dy);
    double y = base - 2.6;
    if (!beside) y = tw_block_text(sheet, x, y, width_mm, TW_CARD_PRINT_MM, true, way);
    bool missing = !setting->stacked && !setting->stack.ok && setting->stack.wanted_mm > 0.0;
    if (setting->stacked || missing) y = draw_stack(sheet, x, y, width_mm, card, setting);
    if (setting->between && *setting->between) y = tw_block_text(sheet, x, y, width_mm, TW_CARD_PRINT_MM, false, setting->between);
    return y;
}
