// SPDX-License-Identifier: GPL-3.0-or-later
/* figures_own: what the files that list figures hand to each other. Private to them. */
#ifndef TW_FIGURES_OWN_H
#define TW_FIGURES_OWN_H

#include "sheet/figures.h"

#include "job/index.h"

struct tw_value_names {
    tw_index ids;     // of all values so far
    tw_index owners;  // of amounts, pieces, joints and profiles, in this order
};

/// Appends it: texts that are NULL become "", an id that is there already gets " (2)", " (3)".
void tw_values_add(tw_values *values, tw_value value);

/// Whose values are listed: they go to `values`, their ids begin with `id`.
typedef struct tw_value_owner { tw_values *values; const char *id, *where; } tw_value_owner;
/// A value of the owner's, still without its text.
tw_value tw_value_begin(const tw_value_owner *owner, const char *key, const char *label, const char *sum, const char *rule);
void     tw_value_add_length(const tw_value_owner *owner, const char *key, const char *label, double length_mm, const char *sum,
                             const char *rule);

/* ---- texts of one value; each sets text, bare and unit ---- */
void tw_value_length(const tw_values *values, tw_value *value, double length_mm);
void tw_value_angle(const tw_values *values, tw_value *value, double rad);
void tw_value_number(const tw_values *values, tw_value *value, double number);  // at most 3 decimals, or 6 under 0.1
void tw_value_count(const tw_values *values, tw_value *value, double number);
void tw_value_area(const tw_values *values, tw_value *value, double area_mm2);
void tw_value_volume(const tw_values *values, tw_value *value, double volume_mm3);
void tw_value_mass(const tw_values *values, tw_value *value, double mass_kg);
void tw_value_word(tw_value *value, const char *word);

/// A length as sums say it: finer than a sixty-fourth in thousandths of an inch.
const char *tw_value_say(const tw_values *values, double length_mm);

#endif
