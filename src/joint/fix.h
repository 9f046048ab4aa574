// SPDX-License-Identifier: GPL-3.0-or-later
/* fix: remedies that can be made at once, offered with the finding that was made last (tw_find_fix of base.h). What cannot be
 * written so is left out in silence: a value outside of its key's range, or the one that stands there already.
 *
 * The label is an order in the maker's words with the value between: ("Make the housings", 5.2 mm, "deep"). */
#ifndef TW_JOINT_FIX_H
#define TW_JOINT_FIX_H

#include "job/written.h"
#include "joint/joint.h"

/// Sets the amount, which is one of the joint's own: of its struct, or an item of one of its lists. value: mm, radians or number.
void tw_plan_fix(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *amount, const char *order, double value,
                 const char *after, tw_rounding rounding);
/// Sets a key of the joint to one of its words: ("by", "saw", "Saw them instead of copying").
void tw_plan_fix_word(tw_joint_context *context, const tw_joint_plan *plan, const char *key, const char *word, const char *order);
/// Each other word of a choice: ("set from", "Write `set from: shoulder`"). Nothing where the kind has no such key.
void tw_plan_fix_other_word(tw_joint_context *context, const tw_joint_plan *plan, const char *key);
/// A length or angle of the joint by its key, NULL when its kind has none.
const tw_amount *tw_plan_amount_of(const tw_joint_plan *plan, const char *key);
/// Takes a key of the joint out, where the job has it.
void tw_plan_fix_without(tw_joint_context *context, const tw_joint_plan *plan, const char *key, const char *order);
/// The same, with the order "Leave `cutter` out".
void tw_plan_fix_leave(tw_joint_context *context, const tw_joint_plan *plan, const char *key);
/// What a joint can do where a tool that it asks for does not serve: each cutter and follower that it names is left to the
/// program, or, where the shop has none of that name, the nearest is named; what it copies is sawn by hand, where its kind
/// has a key for that.
void tw_plan_fix_tools(tw_joint_context *context, const tw_joint_plan *plan);
/// A tenon as thick as one pass of an owned cutter makes its mortise, for the cutters that are next larger than it is now. Nothing
/// where the kind has no `tenon thickness`.
void tw_plan_fix_to_cutter(tw_joint_context *context, const tw_joint_plan *plan);
/// Leaves an amount that the job gives to the rules: "Take the proposed tenon thickness, 14.0 mm", or, where no rule proposes
/// any,
/// "Leave `stop short` out". tw_plan_finding() offers it by itself for the amount that it is about.
void tw_plan_fix_proposed(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *amount);

/// Sets a size of a piece. key: "length", "width", "thickness", "count".
void tw_piece_fix(tw_joint_context *context, int piece, const char *key, const char *order, double value, const char *after,
    tw_rounding rounding);
/// The same for a length, width or thickness, with the order "Make the rail 1240 mm long".
void tw_piece_fix_size(tw_joint_context *context, int piece, const char *key, double value_mm, tw_rounding rounding);

/// The size of a piece across one of its sides, as one sees it: width across face and back, thickness across an edge.
void tw_piece_fix_across(tw_joint_context *context, int piece, tw_face side, double value_mm, tw_rounding rounding);
/// How thick a piece is behind one of its sides.
void tw_piece_fix_depth(tw_joint_context *context, int piece, tw_face side, double value_mm, tw_rounding rounding);

/// Moves a place along a piece to `least_mm` from the nearer end of it; where the piece is too short for that, makes it longer.
void tw_plan_fix_place(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *at, double least_mm, int piece);
/// Moves a place of a joint, of its key `at`, counted from 0, by so much towards the right end; exactly.
void tw_plan_fix_place_by(tw_joint_context *context, const tw_joint_plan *plan, int place, double change_mm);
/// Moves a place away from another, to `apart_mm` from it, towards the end where it stands if there is room in `length_mm`.
void tw_plan_fix_apart(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *at, double other_mm,
    double apart_mm, double length_mm);
/// Ends of one piece come into places of another, and there are not as many: as many of either as the other asks for, where that
/// comes out whole. ends: of each mover; places: in each base.
void tw_plan_fix_counts(tw_joint_context *context, int mover, int ends, int base, int places);

#endif
