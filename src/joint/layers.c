// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/layers.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"
#include "piece/pose.h"

#define SAME_MM 1e-6

tw_layers tw_layers_begin(tw_joint_context *context, tw_joint_plan *plan)
{
    int start = (int)plan->work_count;
    return (tw_layers){ .context = context, .plan = plan, .before = start, .before_end = start, .now = start };
}

void tw_layers_add(tw_layers *layers, tw_work work)
{
    int index = tw_plan_work(layers->context, layers->plan, work);
    for (int i = layers->before; i < layers->before_end; i++) tw_work_after(layers->context, &layers->plan->works[index], i);
}

void tw_layers_close(tw_layers *layers)
{
    if ((int)layers->plan->work_count == layers->now) return;
    layers->before = layers->now;
    layers->now = layers->before_end = (int)layers->plan->work_count;
}

/* ---- groups ---- */

bool tw_left_end_is_left(tw_face face, tw_face down)
{
    tw_spot up = tw_spot_times(tw_face_frame(down).out, -1.0);
    return tw_spot_cross(up, tw_face_frame(face).out).x > 0.0;
}

static const char *words_of(const tw_joint_context *context, const tw_stop_group *group, tw_face face, int pieces)
{
    return tw_format(context->arena, "%s from the %s, %s (%d)", tw_say_fine(context, group->to_end_mm), tw_face_words[group->end], tw_face_words[face], pieces);
}

tw_stop_group *tw_stop_groups(const tw_joint_context *context, const tw_amounts *at, double length_mm, tw_face face, tw_face down, bool turns,
                              int pieces, int *count)
{
    assert(at->count > 0);
    tw_stop_group *groups = TW_NEW_ARRAY(context->arena, tw_stop_group, (size_t)at->count);
    *count = 0;
    for (int i = 0; i < at->count; i++) {
        double to_left = at->items[i].value;
        bool right_end = to_left > length_mm / 2.0 + SAME_MM;
        tw_hand hand = turns ? TW_HAND_NONE : tw_left_end_is_left(face, down) != right_end ? TW_HAND_LEFT : TW_HAND_RIGHT;
        tw_stop_group now = { right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END, right_end ? length_mm - to_left : to_left, hand, 1, "" };
        now.words = words_of(context, &now, face, pieces);
        int k = 0;
        while (k < *count && (fabs(groups[k].to_end_mm - now.to_end_mm) > SAME_MM || groups[k].hand != hand)) k++;
        if (k == *count) groups[(*count)++] = now;
        else {
            groups[k].words = tw_format(context->arena, "%s; %s", groups[k].words, now.words);
            groups[k].places++;
        }
    }
    return groups;
}

const char *tw_group_name(const tw_joint_context *context, const char *name, const tw_stop_group *groups, int count, int which)
{
    bool left = false, right = false;
    for (int i = 0; i < count; i++) {
        left = left || groups[i].hand == TW_HAND_LEFT;
        right = right || groups[i].hand == TW_HAND_RIGHT;
    }
    const char *hand = !left || !right ? "" : groups[which].hand == TW_HAND_LEFT ? ", left hand" : ", right hand";
    return count == 1 ? name : tw_format(context->arena, "%s, %d of %d%s", name, which + 1, count, hand);
}
