// SPDX-License-Identifier: GPL-3.0-or-later
/* Setup cards: one for each step of the run, in its order and with its number.
 *
 * A step at the copying router gets a page: head and tally, the piece on the table as a picture beside what is mounted,
 * the figures that are set (large), the one dimension to measure and what to move, how to cut, cautions, what stays set,
 * and the sums in small print. Other steps (saw, drill, plane, chisel, marking, fitting) get a short card; several share
 * a page. */
#include "sheet/cards.h"

#include <math.h>
#include <string.h>

#define TITLE_MM 4.6       // name of the step
#define SMALLER 0.02       // steps in which a card that is too long is made smaller
#define SMALLEST 0.8       // large figures are then 7 mm high, small print 1.6
#define ENDLESS_MM 10000.0 // higher than any card
#define LABEL_WIDE_MM 20.0 // of what is mounted
#define SCREEN_HIGH_PER_WIDE 0.75  // of the picture on the screen
#define SCREEN_MOST_HIGH_MM 140.0
#define SCREEN_SIDE_MM 2.0         // left free at both sides: a stop at the border is drawn a little past it

tw_card tw_card_of(const tw_paper_input *in, const tw_step *step)
{
    tw_card card = { .in = in, .step = step };
    if (step->plan >= 0) {
        card.plan = &in->plans[step->plan];
        card.work = &card.plan->works[step->work];
        card.template_ = tw_template_of(in->templates, step->plan, step->work);
    }
    if (step->setup >= 0) card.setup = &in->setups->items[step->setup];
    return card;
}

static double page_width(const tw_pages *pages) { return pages->room.x1 - pages->room.x0; }

/* ---- a halt ---- */

static void add_halt(tw_pages *pages)
{
    const char *halt = tw_halt_words(pages->arena, pages->in->findings);
    if (!halt) return;
    double width = page_width(pages);
    tw_sheet *block = tw_scratch(pages->arena);
    double y = tw_block_text(block, 2.0, -2.0, width - 4.0, TW_LOUD_MM, true, halt);
    tw_draw_box(block, TW_ROLE_CUT, 0.0, y, width, 0.0);
    tw_pages_place(pages, block, 3.0 - y);
}

/* ---- what is mounted ---- */

const char *tw_card_template_words(tw_arena *arena, const tw_card *card)
{
    if (!card->template_) return "none";
    return tw_format(arena, "%s, %s", card->template_->name,
                     card->setup->template_turned ? "TURNED OVER: its other face towards you"
                     : card->template_->turned_over ? "marked face towards you (not turned over)" : "marked face towards you");
}

const char *tw_card_clamp_words(tw_arena *arena, const tw_card *card)
{
    tw_amount zone = card->in->shop->machine.clamp_zone;
    if (!(zone.value > 0.0)) return "clear of the cutter's and the nut's way";
    return tw_format(arena, "on %s of wood clear of the cut, out of the cutter's and the nut's way",
                     tw_length_text(arena, zone.value, card->in->job->figures));
}

/* A label at the left, what it says to the right of it. */
static double draw_entry(tw_sheet *sheet, double x, double top, double width, const char *label, const char *text)
{
    if (!text || !*text) return top;
    tw_draw_text(sheet, x, top - TW_CARD_PRINT_MM, TW_SMALL_MM, TW_ANCHOR_LEFT, label);
    return tw_block_text(sheet, x + LABEL_WIDE_MM, top, width - LABEL_WIDE_MM, TW_CARD_PRINT_MM, true, text) - 0.7;
}

const char *tw_card_cutter_words(tw_arena *arena, const tw_card *card)
{
    const tw_cutter *cutter = &card->in->shop->cutters[card->setup->cutter];
    return tw_format(arena, "%s (%s%s)", cutter->name, tw_length_text(arena, cutter->d_mm, card->in->job->figures),
                     tw_cutter_is_straight(cutter) ? "" : tw_format(arena, " at its tip, sides at %s", tw_angle_text(arena, cutter->dovetail.value)));
}

const char *tw_card_packing_words(tw_arena *arena, const tw_card *card)
{
    const tw_setup *setup = card->setup;
    if (!(setup->packing_mm > 0.0)) return "";
    bool why = setup->packing_why && *setup->packing_why;
    return tw_format(arena, "%s%s%s", tw_length_text(arena, setup->packing_mm, card->in->job->figures), why ? ": " : "", why ? setup->packing_why : "");
}

static double draw_mounted(tw_sheet *sheet, double x, double width, const tw_card *card)
{
    tw_arena *arena = sheet->arena;
    const tw_setup *setup = card->setup;
    const tw_work *work = card->work;
    const tw_shop *shop = card->in->shop;
    double y = draw_entry(sheet, x, 0.0, width, "Template", tw_card_template_words(arena, card));
    tw_figures figures = card->in->job->figures;
    if (setup->follower >= 0) {
        const tw_follower *follower = &shop->followers[setup->follower];
        y = draw_entry(sheet, x, y, width, "Follower", tw_format(arena, "%s (%s)", follower->name, tw_length_text(arena, follower->b_mm, figures)));
    }
    if (setup->cutter >= 0) {
        y = draw_entry(sheet, x, y, width, "Cutter", tw_card_cutter_words(arena, card));
        y = draw_entry(sheet, x, y, width, "Stands out", tw_length_text(arena, setup->stick_out_mm, figures));
    }
    if (setup->speed_rpm > 0.0) y = draw_entry(sheet, x, y, width, "Speed", tw_format(arena, "at most %.0f turns a minute", setup->speed_rpm));
    y = draw_entry(sheet, x, y, width, "To the cutter", tw_face_words[work->face]);
    y = draw_entry(sheet, x, y, width, "Down", tw_face_words[work->down]);
    y = draw_entry(sheet, x, y, width, "At the stop", work->copy.stop_word);
    if (work->cradle.used)
        y = draw_entry(sheet, x, y, width, "In a cradle", tw_format(arena, "rolled by %s, swung by %s: see below", tw_angle_text(arena, fabs(work->cradle.roll_rad)), tw_angle_text(arena, fabs(work->cradle.swing_rad))));
    y = draw_entry(sheet, x, y, width, "Packing", tw_card_packing_words(arena, card));
    y = draw_entry(sheet, x, y, width, "Clamps", tw_card_clamp_words(arena, card));
    if (work->places && strchr(work->places, ';'))
        y = draw_entry(sheet, x, y, width, "Drawn", work->cradle.used ? "the first of the tally" : "the first of the tally; the others lie alike, the same side down");
    y = draw_entry(sheet, x, y, width, "Piece comes", work->state);
    return draw_entry(sheet, x, y, width, "Marks on it", work->marks);
}

static void add_picture(tw_pages *pages, const tw_card *card)
{
    double width = page_width(pages), left = 106.0;
    tw_sheet *block = tw_scratch(pages->arena);
    double y = tw_min(draw_mounted(block, left + TW_CARD_GUTTER_MM, width - left - TW_CARD_GUTTER_MM, card), -66.0);
    tw_draw_box(block, TW_ROLE_FAINT, 0.0, y, left, 0.0);
    tw_card_picture(block, (tw_box){ 2.0, y + 1.5, left - 2.0, -1.5 }, card);
    tw_pages_place(pages, block, 2.5 - y);
}

/* ---- the figures ---- */

static const char *shift_words(const tw_setting *shift)
{
    if (shift->value_mm < 1e-9) return "the template stays on its baseline";
    if (shift->direction_x) return shift->direction_x < 0 ? "move the template to the LEFT" : "move the template to the RIGHT";
    if (shift->direction_y) return shift->direction_y < 0 ? "move the template DOWN" : "move the template UP";
    return "";
}

static const char *stop_words(const tw_setting *stop)
{
    bool centre = stop->value_mm < 1e-9;
    if (stop->direction_x < 0) return centre ? "on your LEFT, its face on the centre" : "on your LEFT";
    if (stop->direction_x > 0) return centre ? "on your RIGHT, its face on the centre" : "on your RIGHT";
    return centre ? "its face on the centre" : "";
}

static const char *depth_words(tw_arena *arena, const tw_card *card)
{
    const tw_setup *setup = card->setup;
    const char *on = card->work->copy.zero_word ? card->work->copy.zero_word : tw_face_words[card->work->face];
    const char *zero = tw_format(arena, "zero on the %s", on);
    if (setup->passes <= 1) return zero;
    return tw_format(arena, "%s, in %d steps of %s", zero, setup->passes, tw_length_text(arena, setup->pass_mm, card->in->job->figures));
}

int tw_card_settings(tw_arena *arena, const tw_card *card, tw_card_setting shown[TW_CARD_SETTINGS_MOST])
{
    const tw_setup *setup = card->setup;
    int count = 0;
    if (setup->shift.used) shown[count++] = (tw_card_setting){ &setup->shift, shift_words(&setup->shift), true };
    if (setup->table.used) shown[count++] = (tw_card_setting){ &setup->table, "below the cutter's centre", false };
    if (setup->stop.used) shown[count++] = (tw_card_setting){ &setup->stop, stop_words(&setup->stop), true };
    if (setup->depth.used) shown[count++] = (tw_card_setting){ &setup->depth, depth_words(arena, card), false };
    return count;
}

/* Where the template starts from, before anything is moved: it is told, not set. */
static void add_baseline(tw_pages *pages, const tw_setting *baseline)
{
    bool found = baseline->used && baseline->sum;
    tw_pages_text(pages, TW_CARD_PRINT_MM, false,
        found ? tw_format(pages->arena, "First the template. Its level centre line goes on the holder's. Then the baseline: %s", baseline->sum)
              : "First the template. Both its centre lines go on the holder's, and there it stays: no shift.");
    tw_pages_gap(pages, 0.8);
}

/* What is done, and how the pieces are turned between the cuts of one setup. */
static void add_what(tw_pages *pages, const tw_card *card)
{
    const char *what = card->step->what && *card->step->what ? card->step->what : card->work->what;
    if (!what || !*what) return;
    tw_pages_text(pages, TW_BODY_MM, false, tw_sentence(pages->arena, what));
    tw_pages_gap(pages, 1.2);
}

/* ---- measuring, cutting, cautions, sums ---- */

/* "Feed. Follower round the inside ..." */
static double draw_said(tw_sheet *sheet, double y, double width, const char *label, const char *text)
{
    if (!text || !*text) return y;
    return tw_block_text(sheet, 0.0, y, width, TW_CARD_PRINT_MM, false, tw_format(sheet->arena, "%s: %s", label, text)) - 0.7;
}

static double draw_cutting(tw_sheet *sheet, double width, const tw_card *card)
{
    const tw_setup *setup = card->setup;
    double y = draw_said(sheet, -1.5, width, "Test piece", card->work->test_piece);
    y = draw_said(sheet, y, width, "Feed", setup->feed);
    y = draw_said(sheet, y, width, "Break-out", setup->breakout);
    return draw_said(sheet, y, width, "Clearing", card->template_ ? card->template_->clearing : "");
}

static double draw_sums(tw_sheet *sheet, double width, const tw_card_setting *shown, int count)
{
    double y = tw_block_text(sheet, 0.0, 0.0, width, TW_SMALL_MM, true, "Why these figures");
    for (int i = 0; i < count; i++) {
        const tw_setting *setting = shown[i].setting;
        if (setting->sum && *setting->sum)
            y = tw_block_text(sheet, 0.0, y, width, TW_SMALL_MM, false, tw_format(sheet->arena, "%s: %s", setting->label, setting->sum));
    }
    return y;
}

/* ---- two columns: each cell goes to the shorter one ---- */

typedef struct columns { tw_pages *pages; double y[2], width; } columns;

static void place_cell(columns *c, const tw_sheet *cell, double height_mm)
{
    int side = c->y[1] > c->y[0] + 1e-9;
    if (c->y[side] - height_mm < c->pages->room.y0 && c->pages->y < c->pages->room.y1) {
        c->pages->y = c->pages->room.y0;
        tw_pages_need(c->pages, height_mm);
        c->y[0] = c->y[1] = c->pages->y;
        side = 0;
    }
    tw_draw_sheet(c->pages->sheet, cell, 1.0, c->pages->room.x0 + side * (c->width + TW_CARD_GUTTER_MM), c->y[side]);
    c->y[side] -= height_mm;
    c->pages->y = tw_min(c->y[0], c->y[1]);
}

static void add_columns(tw_pages *pages, const tw_card *card)
{
    tw_card_setting shown[TW_CARD_SETTINGS_MOST];
    int count = tw_card_settings(pages->arena, card, shown);
    columns c = { .pages = pages, .y = { pages->y, pages->y }, .width = (page_width(pages) - TW_CARD_GUTTER_MM) / 2.0 };
    if (card->work->cradle.used) {
        tw_sheet *cell = tw_scratch(pages->arena);
        tw_draw_line(cell, TW_ROLE_FRAME, 0.0, 0.0, c.width, 0.0);
        place_cell(&c, cell, 1.0 - tw_card_cradle(cell, -1.5, c.width, card));
    }
    for (int i = 0; i < count; i++) {
        tw_sheet *cell = tw_scratch(pages->arena);
        tw_draw_line(cell, TW_ROLE_FRAME, 0.0, 0.0, c.width, 0.0);
        place_cell(&c, cell, 1.0 - tw_card_figure(cell, 0.0, -1.5, c.width, card, shown[i].setting, shown[i].way, shown[i].arrow));
    }
    if (card->work->measure && *card->work->measure) {
        tw_sheet *cell = tw_scratch(pages->arena);
        double y = tw_card_measure(cell, 2.0, -2.0, c.width - 4.0, card) - 0.5;
        tw_draw_box(cell, TW_ROLE_VISIBLE, 0.0, y, c.width, 0.0);
        place_cell(&c, cell, 2.0 - y);
    }
    tw_sheet *cutting = tw_scratch(pages->arena), *cautions = tw_scratch(pages->arena), *keeps = tw_scratch(pages->arena), *sums = tw_scratch(pages->arena);
    place_cell(&c, cutting, 1.0 - draw_cutting(cutting, c.width, card));
    place_cell(&c, cautions, -tw_card_cautions(cautions, 0.0, 0.0, c.width, tw_card_cautions_of(pages->arena, card->setup->cautions, card->work->cautions)));
    place_cell(&c, keeps, 0.5 - tw_block_text(keeps, 0.0, 0.0, c.width, TW_CARD_PRINT_MM, true, tw_card_keeps(pages->arena, card)));
    place_cell(&c, sums, -draw_sums(sums, c.width, shown, count));
}

static void compose(tw_pages *pages, const tw_card *card, const char *title)
{
    tw_pages_new(pages, title, NULL);
    add_halt(pages);
    tw_sheet *head = tw_scratch(pages->arena);
    double y = tw_card_head(head, page_width(pages), card, TITLE_MM);
    tw_pages_place(pages, head, -y);
    add_what(pages, card);
    add_picture(pages, card);
    add_baseline(pages, &card->setup->baseline);
    add_columns(pages, card);
}

/* The card on a page of its own, of the real page's size divided by share; high: as high as need be. */
static tw_pages compose_apart(const tw_pages *pages, tw_arena *arena, const tw_card *card, double share, bool high)
{
    tw_pages trial = *pages;
    trial.keep = trial.arena = arena;
    trial.items = NULL;
    trial.count = trial.space = 0;
    trial.room = (tw_box){ 0.0, 0.0, page_width(pages) / share, (pages->room.y1 - pages->room.y0) / share };
    if (high) trial.room.y0 = -ENDLESS_MM;
    compose(&trial, card, tw_format(arena, "Card %d: %s", card->step->number, card->step->name));
    return trial;
}

/* A card is one page. What does not fit is made smaller, text and all, down to SMALLEST: at a share s of the size lines are
 * 1/s longer, so a height H becomes about H s of s-sized paper, and s = sqrt(room / H) is tried first. */
static void add_setup_card(tw_pages *pages, const tw_card *card)
{
    double room = pages->room.y1 - pages->room.y0, share = 1.0;
    tw_arena arena = tw_arena_beside(pages->keep);
    tw_pages card_pages = compose_apart(pages, &arena, card, share, true);
    for (bool first = true; share > SMALLEST && (card_pages.room.y1 - card_pages.y) * share > room; first = false) {
        double next = first ? sqrt(room / (card_pages.room.y1 - card_pages.y)) : share;
        share = tw_max(SMALLEST, tw_min(next, share - SMALLER));
        tw_arena_finish(&arena);
        arena = tw_arena_beside(pages->keep);
        card_pages = compose_apart(pages, &arena, card, share, true);
    }
    if ((card_pages.room.y1 - card_pages.y) * share > room) card_pages = compose_apart(pages, &arena, card, share, false);
    for (size_t i = 0; i < card_pages.count; i++) {
        tw_pages_new(pages, card_pages.items[i].title, NULL);
        tw_draw_sheet(pages->sheet, card_pages.items[i].sheet, share, pages->room.x0, pages->room.y1 - share * card_pages.room.y1);
    }
    tw_arena_finish(&arena);
}

tw_paper_pages tw_paper_cards(tw_arena *arena, const tw_paper_input *in)
{
    if (in->run->count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "cards", "Setup cards", "Setup card",
                                    "one card for each step: what to mount, set, measure and mind");
    bool fresh = true;
    for (int i = 0; i < in->run->count; i++) {
        tw_card card = tw_card_of(in, &in->run->steps[i]);
        bool whole = card.setup && card.work && card.work->copied;
        if (whole) {
            add_setup_card(&pages, &card);
        } else {
            if (fresh) tw_pages_new(&pages, "Cards for bench and saw", NULL);
            if (fresh) add_halt(&pages);
            tw_card_add_short(&pages, &card);
        }
        fresh = whole;
    }
    return tw_pages_finish(&pages);
}

/* ---- on the screen ---- */

tw_sheet *tw_card_drawing(tw_arena *arena, const tw_paper_input *in, int step, double wide_mm, double least_text_mm)
{
    tw_card card = tw_card_of(in, &in->run->steps[step]);
    if (!card.setup || !card.work || !card.work->copied) return NULL;
    tw_sheet *sheet = tw_scratch(arena);
    sheet->least_text_mm = least_text_mm;
    double high = tw_min(SCREEN_HIGH_PER_WIDE * wide_mm, SCREEN_MOST_HIGH_MM);
    tw_card_picture(sheet, (tw_box){ SCREEN_SIDE_MM, -high, wide_mm - SCREEN_SIDE_MM, 0.0 }, &card);
    if (card.work->cradle.used) tw_card_cradle(sheet, -high - 4.0, wide_mm, &card);
    return sheet;
}
