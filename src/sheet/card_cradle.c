// SPDX-License-Identifier: GPL-3.0-or-later
/* The cradle on a setup card: both of its angles large, and two sketches at the true angles: the piece rolled, seen from its
 * end with the cutter on the right, and swung, seen from above with the cutter below. */
#include "sheet/cards.h"

#include <math.h>

#define SKETCH_MM 16.5      // height of both
#define PIECE_LONG_MM 26.0  // of the sketches, on paper
#define PIECE_HIGH_MM 12.0
#define PIECE_DEEP_MM 5.5
#define FIGURE_MM 6.0

static tw_outline quad(tw_sheet *sheet, const tw_point p[4])
{
    tw_loop loop = { TW_NEW_ARRAY(sheet->arena, tw_vertex, 4), 4 };
    for (int i = 0; i < 4; i++) loop.vertices[i] = (tw_vertex){ p[i].x, p[i].y, 0.0 };
    tw_outline outline = { TW_NEW_ARRAY(sheet->arena, tw_loop, 1), 1 };
    outline.loops[0] = loop;
    return outline;
}

static tw_point turned(tw_point about, double dx, double dy, double rad)
{
    return (tw_point){ about.x + dx * cos(rad) - dy * sin(rad), about.y + dx * sin(rad) + dy * cos(rad) };
}

/* From the piece's end; the face that is cut looks to the right. */
static void draw_roll(tw_sheet *sheet, double x, double floor, double roll)
{
    tw_point back = { x + 4.0, floor }, front = { x + 4.0 + PIECE_DEEP_MM, floor }, p[4];
    tw_point pivot = roll >= 0.0 ? front : back;  // the lower arris that stays down
    double left = roll >= 0.0 ? -PIECE_DEEP_MM : 0.0;
    const double right = left + PIECE_DEEP_MM;
    const double corners[4][2] = { { left, 0.0 }, { right, 0.0 }, { right, PIECE_HIGH_MM }, { left, PIECE_HIGH_MM } };
    for (int i = 0; i < 4; i++) p[i] = turned(pivot, corners[i][0], corners[i][1], -roll);
    tw_draw_outline(sheet, TW_ROLE_VISIBLE, quad(sheet, p));
    tw_point lifted = roll >= 0.0 ? p[0] : p[1], below = { lifted.x, floor };
    tw_draw_line(sheet, TW_ROLE_VISIBLE, lifted.x, lifted.y, below.x, below.y);
    tw_vertex wedge[3] = { { pivot.x, pivot.y, 0.0 }, { lifted.x, lifted.y, 0.0 }, { below.x, below.y, 0.0 } };
    if (fabs(roll) > 1e-3) tw_draw_outline(sheet, TW_ROLE_SHADE, (tw_outline){ &(tw_loop){ wedge, 3 }, 1 });
    tw_draw_line(sheet, TW_ROLE_CUT, x, floor, x + 24.0, floor);
    double middle = floor + PIECE_HIGH_MM / 2.0;
    tw_draw_arrow(sheet, TW_ROLE_DIMENSION, x + 24.0, middle, front.x + 2.5, middle);
    tw_draw_text(sheet, x + 24.0, middle + 1.2, tw_small_print(sheet, TW_SMALL_MM), TW_ANCHOR_RIGHT, "cutter");
}

/* From above; the face that is cut looks down on paper. */
static void draw_swing(tw_sheet *sheet, double x, double middle, double swing)
{
    tw_point about = { x + PIECE_LONG_MM / 2.0, middle }, p[4];
    const double half = PIECE_LONG_MM / 2.0;
    const double corners[4][2] = { { -half, 0.0 }, { half, 0.0 }, { half, PIECE_DEEP_MM }, { -half, PIECE_DEEP_MM } };
    for (int i = 0; i < 4; i++) p[i] = turned(about, corners[i][0], corners[i][1], -swing);
    tw_draw_outline(sheet, TW_ROLE_VISIBLE, quad(sheet, p));
    tw_draw_line(sheet, TW_ROLE_CENTRE, x - 2.0, middle, x + PIECE_LONG_MM + 2.0, middle);
    tw_draw_arrow(sheet, TW_ROLE_DIMENSION, about.x, middle - 7.0, about.x, middle - 1.0);
    tw_draw_text(sheet, about.x + 1.5, middle - 7.0, tw_small_print(sheet, TW_SMALL_MM), TW_ANCHOR_LEFT, "cutter");
}

static void draw_angle(tw_sheet *sheet, double x, double base, const char *word, double rad)
{
    double small = tw_small_print(sheet, TW_SMALL_MM);
    tw_draw_text(sheet, x, base, small, TW_ANCHOR_LEFT, word);
    tw_draw_bold(sheet, x + tw_text_width(small, false, word) + 2.0, base, FIGURE_MM, TW_ANCHOR_LEFT,
        tw_angle_text(sheet->arena, fabs(rad)));
}

double tw_card_cradle(tw_sheet *sheet, double top, double width_mm, const tw_card *card)
{
    const tw_cradle *cradle = &card->work->cradle;
    tw_arena *arena = sheet->arena;
    double small = tw_small_print(sheet, TW_SMALL_MM), print = tw_small_print(sheet, TW_CARD_PRINT_MM);
    tw_draw_bold(sheet, 0.0, top - TW_LOUD_MM, TW_LOUD_MM, TW_ANCHOR_LEFT, "Cradle");
    double base = top - TW_LOUD_MM - 2.8 - FIGURE_MM, half = width_mm / 2.0, floor = base - SKETCH_MM;
    draw_angle(sheet, 0.0, base, "rolled", cradle->roll_rad);
    draw_angle(sheet, half, base, "swung", cradle->swing_rad);
    draw_roll(sheet, 0.0, floor, cradle->roll_rad);
    draw_swing(sheet, half + 2.0, floor + 7.0, cradle->swing_rad);
    double y = tw_block_text(sheet, 0.0, floor - 1.5, half - 2.0, small, false, "seen from its end");
    tw_block_text(sheet, half, floor - 1.5, half, small, false, "seen from above");
    y = tw_block_text(sheet, 0.0, y - 0.5, width_mm, print, true, tw_sentence(arena, cradle->words));
    return tw_block_text(sheet, 0.0, y, width_mm, print, false,
        tw_format(arena, "In all %s against square; the plain template serves.", tw_angle_text(arena, cradle->tilt_rad)));
}
