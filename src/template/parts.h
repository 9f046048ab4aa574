// SPDX-License-Identifier: GPL-3.0-or-later
/* parts: what the files of the template stage share. Inside this stage only. */
#ifndef TW_TEMPLATE_PARTS_H
#define TW_TEMPLATE_PARTS_H

#include "template/template.h"

typedef struct tw_template_context {
    tw_arena            *arena;
    const tw_job        *job;
    const tw_shop       *shop;
    const tw_joint_plan *plans;
    int                  plan_count;
    tw_findings         *findings;
} tw_template_context;

/// An opening of four straight sides, two of them level: x of its left and right side at y0 (below) and y1 (above).
typedef struct tw_sides { double y0, y1, left_x0, left_x1, right_x0, right_x1; } tw_sides;
/// False when the outline is another shape. Vertices on a straight edge are allowed.
bool tw_four_sides(tw_outline opening, tw_sides *sides);
double tw_sides_lean_left(const tw_sides *sides);   // radians from plumb, 0 or more
double tw_sides_lean_right(const tw_sides *sides);

/// A cutter and a follower for a work (indices into the shop's), and the template they make.
typedef struct tw_choice_made { bool ok; int cutter, follower; tw_copy_ask ask; tw_copy copy; } tw_choice_made;
/// Chooses, reckons and proves. ok == false: findings say why and what would do.
tw_choice_made tw_template_choose(const tw_template_context *context, int plan, int work);
/// Pairs of the shop with r d = b within 0.1 mm, in the shop's order.
tw_tool_pair *tw_template_pairs(tw_arena *arena, const tw_shop *shop, int *count);

/// Board, views, holes, thickness, rim (board.c). turned_over and copy are set; a board that the holder does not take is a TW_HALT.
void tw_template_board(const tw_template_context *context, tw_template *template_);
/// Cares about followers that are too long or too short for the stock, one for each follower that is used.
void tw_template_followers(const tw_template_context *context, const tw_template *templates, int count);
/// Fits, guides, clearing and making in words (words.c); the board is there. mirror_of: the template's name that it mirrors, or NULL.
void tw_template_words(const tw_template_context *context, tw_template *template_, const char *mirror_of);

static inline const tw_work *tw_template_work(const tw_template_context *context, int plan, int work)
{
    return &context->plans[plan].works[work];
}
static inline const tw_work *tw_template_first_work(const tw_template_context *context, const tw_template *template_)
{
    return tw_template_work(context, template_->works[0], template_->works[1]);
}
/// A finding at the joint's place.
void tw_template_find(const tw_template_context *context, int plan, tw_level level, const char *code, const char *what, const char *remedy);

#endif
