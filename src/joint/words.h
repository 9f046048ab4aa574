// SPDX-License-Identifier: GPL-3.0-or-later
/* words: lengths as a joint's sums and sentences say them, and the round sizes that makers take. */
#ifndef TW_JOINT_WORDS_H
#define TW_JOINT_WORDS_H

#include "joint/joint.h"

/// A length as the job writes it; what is finer than a sixty-fourth (a fit) is said in thousandths of an inch.
const char *tw_say_fine(const tw_joint_context *context, double length_mm);
/// The same without its unit, for sums.
const char *tw_bare_fine(const tw_joint_context *context, double length_mm);
/// A customary size: a round figure in the maker's own unit.
double tw_customary(const tw_joint_context *context, double mm, double inch);
/// Down to the next 0.5 mm, or 1/32 in. length_mm >= 0.
double tw_rounded_down(const tw_joint_context *context, double length_mm);
/// "1 place", "3 places".
const char *tw_counted(const tw_joint_context *context, int count, const char *one, const char *more);

/// A length as a figure of the plan.
void tw_note_length(tw_joint_context *context, tw_joint_plan *plan, const char *key, const char *label, double length_mm, const char *sum,
                    const char *rule);

/// Index of the shop's cutter of that name, -1 when it has none.
int tw_cutter_named(const tw_shop *shop, const char *name);
/// Index of the shop's follower of that name, -1 when it has none.
int tw_follower_named(const tw_shop *shop, const char *name);
/// For a router moved by hand: the smallest bush that a cutter of that diameter passes; -1 when the shop has none.
int tw_bush_for(const tw_shop *shop, double cutter_mm);
/// The largest straight cutter that cuts at its end, is no wider than most_mm and cuts deep_mm deep; -1 when the shop has none.
int tw_cutter_for_trench(const tw_shop *shop, double most_mm, double deep_mm);

#endif
