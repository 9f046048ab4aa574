// SPDX-License-Identifier: GPL-3.0-or-later
/* sliding_work: what the files with a sliding dovetail's work share. Inside this kind only. */
#ifndef TW_SLIDING_WORK_H
#define TW_SLIDING_WORK_H

#include "joint/layers.h"
#include "joint/sliding.h"
#include "joint/words.h"

typedef struct tw_sliding_builder { tw_layers layers; tw_joint_context *context; const tw_sliding *s; } tw_sliding_builder;

const char *tw_sliding_say(const tw_sliding_builder *b, double length_mm);
void tw_sliding_add(tw_sliding_builder *b, tw_work work);
/// Limit of width either way: half of the clearance, so that the fit keeps half to one and a half of it.
double tw_sliding_limit_mm(const tw_sliding *s);
bool tw_sliding_stopped(const tw_sliding *s);
double tw_sliding_stop_short_mm(const tw_sliding *s);
tw_face tw_sliding_stop_side(const tw_sliding *s);
/// How lengths finer than the job's own figures are said: hundredths of a millimetre, thousandths of an inch.
tw_figures tw_sliding_finest(const tw_sliding_builder *b);
/// "left end (3); right end (3)".
const char *tw_sliding_ends_text(const tw_sliding_builder *b);
/// "right through from edge to edge".
const char *tw_sliding_run_words(const tw_sliding_builder *b);
/// What a small error in the housing's depth does to its width.
const char *tw_sliding_depth_words(const tw_sliding_builder *b);
tw_answer tw_sliding_housing_answer(const tw_sliding_builder *b, bool copied);
const char *tw_sliding_housing_if_off(const tw_sliding_builder *b, bool copied);

void tw_sliding_guides_layers(tw_sliding_builder *b);
void tw_sliding_sawn_layers(tw_sliding_builder *b);
void tw_sliding_tongue_layers(tw_sliding_builder *b);
void tw_sliding_fit_layers(tw_sliding_builder *b);

#endif
