// SPDX-License-Identifier: GPL-3.0-or-later
/* Short cards: steps at the saw, the drill press or the bench, and steps of the whole job. Several share a page. */
#include "sheet/cards.h"

#include <string.h>

#define SHORT_TITLE_MM 4.0
#define BETWEEN_MM 5.0  // from one card to the next below it

/* Cautions that go with a way of working (common practice). */
const char *tw_way_cautions(tw_way way)
{
    switch (way) {
    case TW_WAY_COPY: return "";
    case TW_WAY_SAW:
        return "Riving knife and guard on; push sticks in hand for the last forearm's length of a cut; stand beside the line of the cut, never behind it.\n"
               "Crosscut with the mitre gauge or a sled alone, never against the rip fence. No short piece between blade and fence.\n"
               "Eyes and ears covered, dust drawn off.";
    case TW_WAY_BANDSAW:
        return "Guard down to just over the work; hands beside the line of the blade; a pusher for the end of the cut.\n"
               "Short or angled work lies in a cradle. Eyes and ears covered, dust drawn off.";
    case TW_WAY_ROUTE:
        return "Both hands on the router, the piece clamped; fed against the turn of the cutter, in steps, never backwards.\n"
               "The plug is out while a cutter is changed. Eyes and ears covered, dust drawn off.";
    case TW_WAY_TABLE:
        return "Both hands on the work and its block or jig, off the line of the cutter; fed along the fence from right to left, against the turn of the cutter.\n"
               "The work between fence and hand, never between cutter and fence; the cutter buried in the fence but for what it cuts, a guard over it.\n"
               "The plug is out while a cutter is changed. Eyes and ears covered, dust drawn off.";
    case TW_WAY_DRILL:
        return "The piece clamped or against a fence, never held against the turn by hand; hair, sleeves and gloves away.\n"
               "A backing board under it where the drill comes through. Eyes covered.";
    case TW_WAY_PLANE: return "Hands behind the edge; the piece against a stop or in the vice.";
    case TW_WAY_CHISEL: return "Both hands behind the edge; the piece clamped, never held in the hand.";
    case TW_WAY_FINISH: return "Air moving; rags with oil spread flat outdoors or kept under water: in a heap they can take fire by themselves.";
    case TW_WAY_MARK: case TW_WAY_MEASURE: case TW_WAY_FIT: case TW_WAY_GLUE: return "";
    }
    return "";
}

const char *tw_card_lies_words(tw_arena *arena, const tw_work *work)
{
    if (work->way != TW_WAY_DRILL) return "";  // at a saw the piece is turned from side to side: the words say how
    return tw_format(arena, "%s down, %s is cut", tw_face_words[work->down], tw_face_words[work->face]);
}

static double draw_short_body(tw_sheet *sheet, double top, double width, const tw_card *card)
{
    const tw_work *work = card->work;
    double half = (width - TW_CARD_GUTTER_MM) / 2.0, right = half + TW_CARD_GUTTER_MM;
    double l = top, r = top;
    l = tw_block_labelled(sheet, 0.0, l, half, "The piece comes", TW_BODY_MM, work->state ? work->state : "");
    l = tw_block_labelled(sheet, 0.0, l, half, "Marks to be seen on it", TW_BODY_MM, work->marks ? work->marks : "");
    l = tw_block_labelled(sheet, 0.0, l, half, "How it lies", TW_BODY_MM, tw_card_lies_words(sheet->arena, work));
    if (work->places && *work->places && !(card->step->tally && strstr(card->step->tally, work->places)))
        l = tw_block_labelled(sheet, 0.0, l, half, "Where", TW_BODY_MM, work->places);
    r = tw_block_labelled(sheet, right, r, half, "Try it in", TW_BODY_MM, work->test_piece ? work->test_piece : "");
    if (work->measure && *work->measure) r = tw_card_measure(sheet, right, r, half, card);
    else if (work->if_off && *work->if_off) r = tw_block_labelled(sheet, right, r, half, "If it is off", TW_BODY_MM, work->if_off);
    return tw_min(l, r);
}

static double draw_short_card(tw_sheet *block, double width, const tw_card *card)
{
    double y = tw_card_head(block, width, card, SHORT_TITLE_MM);
    const char *what = card->step->what && *card->step->what ? card->step->what : card->work && card->work->what ? card->work->what : "";
    y = tw_block_text(block, 0.0, y, width, TW_BODY_MM + 0.5, false, tw_sentence(block->arena, what));
    if (card->work) {
        y = draw_short_body(block, y - 0.5, width, card);
        y = tw_card_cautions(block, 0.0, y - 0.5, width, tw_card_cautions_of(block->arena, tw_way_cautions(card->work->way), card->work->cautions));
    } else {
        y = tw_card_cautions(block, 0.0, y - 0.5, width, card->step->cautions ? card->step->cautions : "");
    }
    return tw_block_text(block, 0.0, y, width, TW_BODY_MM, true, tw_card_keeps(block->arena, card));
}

void tw_card_add_short(tw_pages *pages, const tw_card *card)
{
    tw_arena arena = tw_arena_beside(pages->keep);
    tw_sheet *block = tw_scratch(&arena);
    double height = -draw_short_card(block, (pages->room.x1 - pages->room.x0), card);
    tw_pages_need(pages, height + BETWEEN_MM);
    if (pages->y < pages->room.y1 - 1.0) {
        tw_draw_line(pages->sheet, TW_ROLE_VISIBLE, pages->room.x0, pages->y - 2.0, pages->room.x1, pages->y - 2.0);
        tw_pages_gap(pages, BETWEEN_MM);
    }
    tw_pages_place(pages, block, height);
    tw_arena_finish(&arena);
}
