// SPDX-License-Identifier: GPL-3.0-or-later
/* The table of joint kinds, and the helpers that they share. */
#include "joint/joint.h"

#include <assert.h>
#include <math.h>

#include "joint/fix.h"
#include "joint/kinds.h"

const tw_joint_kind *const tw_joint_kinds[] = { &tw_forked_tusks, &tw_mortise_and_tenon, &tw_single_tusk, &tw_slip_tenon,
    &tw_housing_joint, &tw_cross_lap, &tw_edge_lap, &tw_housed_bridle, &tw_cross_dowel, &tw_finger_joint, &tw_through_dovetail, &tw_sliding_dovetail,
    &tw_arch_profile, &tw_taper_profile, &tw_chamfer_profile, &tw_round_over_profile, &tw_rounded_profile };
const int tw_joint_kind_count = (int)(sizeof tw_joint_kinds / sizeof *tw_joint_kinds);

const tw_joint_format **tw_joint_formats(tw_arena *arena)
{
    const tw_joint_format **formats = TW_NEW_ARRAY(arena, const tw_joint_format *, (size_t)tw_joint_kind_count);
    for (int i = 0; i < tw_joint_kind_count; i++) formats[i] = &tw_joint_kinds[i]->format;
    return formats;
}

int tw_plan_count(const tw_job *job) { return job->joint_count + job->profile_count; }

tw_joint_plan *tw_joints_plan(tw_joint_context *context)
{
    const tw_job *job = context->job;
    int count = tw_plan_count(job);
    tw_joint_plan *plans = TW_NEW_ARRAY(context->arena, tw_joint_plan, (size_t)count);
    for (int i = 0; i < count; i++) {
        plans[i] = (tw_joint_plan){ .joint = &job->joints[i], .index = i, .profile = i >= job->joint_count, .piece = -1 };
        tw_joint_kinds[job->joints[i].kind]->plan(context, &plans[i]);
    }
    return plans;
}

/* ---- which key of the job a figure is ---- */

static const tw_joint_format *format_of(const tw_joint_plan *plan) { return &tw_joint_kinds[plan->joint->kind]->format; }

static bool is_one_amount(const tw_key *row)
{
    return row->kind == TW_KEY_LENGTH || row->kind == TW_KEY_ANGLE || row->kind == TW_KEY_NUMBER || row->kind == TW_KEY_COUNT;
}

/* "tenon_width" and "tenon width". */
static bool same_words(const char *key, const char *name)
{
    while (*key && (*key == *name || (*key == '_' && *name == ' '))) key++, name++;
    return !*key && !*name;
}

/* The row that fills this field of the kind's struct; NULL when the amount does not stand there. */
static const tw_key *row_at(const tw_joint_plan *plan, const tw_amount *amount)
{
    const tw_joint_format *format = format_of(plan);
    for (int i = 0; i < format->key_count; i++)
        if ((const char *)plan->joint->spec + format->keys[i].offset == (const char *)amount) return &format->keys[i];
    return NULL;
}

static const tw_key *row_named(const tw_joint_plan *plan, const char *key)
{
    const tw_joint_format *format = format_of(plan);
    for (int i = 0; i < format->key_count; i++)
        if (is_one_amount(&format->keys[i]) && same_words(key, format->keys[i].name)) return &format->keys[i];
    return NULL;
}

static bool says(const tw_joint_plan *plan, const tw_key *row)
{
    return ((const tw_amount *)(const void *)((const char *)plan->joint->spec + row->offset))->given;
}

void tw_plan_figure(tw_joint_context *context, tw_joint_plan *plan, tw_figure figure)
{
    assert(figure.key && figure.label && isfinite(figure.value));
    if (!figure.row) figure.row = row_named(plan, figure.key);
    figure.given = figure.row && says(plan, figure.row);
    if (!figure.symbol) figure.symbol = "";
    if (!figure.rule) figure.rule = "";
    if (!figure.sum) figure.sum = "";
    tw_array_make_room(context->arena, &plan->figures, plan->figure_count, &plan->figure_room, sizeof figure);
    plan->figures[plan->figure_count++] = figure;
}

double tw_plan_amount(tw_joint_context *context, tw_joint_plan *plan, const tw_amount *amount, const char *key, const char *label,
                      const char *symbol, tw_unit unit, double proposed, const char *sum, const char *rule)
{
    double value = amount->given ? amount->value : proposed;
    tw_plan_figure(context, plan, (tw_figure){ .key = key, .label = label, .symbol = symbol, .value = value, .unit = unit,
        .sum = amount->given ? "given in the job" : sum, .rule = amount->given ? "" : rule, .row = row_at(plan, amount), .has_proposed = isfinite(proposed), .proposed = proposed });
    return value;
}

const tw_figure *tw_plan_find(const tw_joint_plan *plan, const char *key)
{
    for (size_t i = 0; i < plan->figure_count; i++)
        if (tw_text_is(tw_text_of(plan->figures[i].key), key)) return &plan->figures[i];
    return NULL;
}

tw_cut *tw_plan_cut(tw_joint_context *context, tw_joint_plan *plan, tw_cut cut)
{
    assert(cut.piece >= 0 && cut.depth_mm > 0.0);
    cut.joint = plan->index;
    tw_array_make_room(context->arena, &plan->cuts, plan->cut_count, &plan->cut_room, sizeof cut);
    plan->cuts[plan->cut_count] = cut;
    return &plan->cuts[plan->cut_count++];
}

int tw_plan_work(tw_joint_context *context, tw_joint_plan *plan, tw_work work)
{
    static const char *const nothing = "";
    const char **texts[] = { &work.what, &work.part, &work.places, &work.test_piece, &work.measure, &work.if_off, &work.state,
                             &work.marks, &work.cautions };
    assert(work.name && work.count > 0);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (!*texts[i]) *texts[i] = nothing;
    if (!work.key) work.key = work.name;
    work.joint = plan->index;
    if (work.pieces == 0) work.pieces = work.count;
    tw_array_make_room(context->arena, &plan->works, plan->work_count, &plan->work_room, sizeof work);
    plan->works[plan->work_count] = work;
    return (int)plan->work_count++;
}

void tw_work_after(tw_joint_context *context, tw_work *work, int before)
{
    int *list = TW_NEW_ARRAY(context->arena, int, (size_t)work->after_count + 1);
    for (int i = 0; i < work->after_count; i++) list[i] = work->after[i];
    list[work->after_count++] = before;
    work->after = list;
}

void tw_plan_part(tw_joint_context *context, tw_joint_plan *plan, tw_part part)
{
    part.joint = plan->index;
    tw_array_make_room(context->arena, &plan->parts, plan->part_count, &plan->part_room, sizeof part);
    plan->parts[plan->part_count++] = part;
}

void tw_plan_meeting(tw_joint_context *context, tw_joint_plan *plan, tw_meeting meeting)
{
    assert(meeting.mover >= 0 && meeting.base >= 0 && meeting.held_by);
    tw_array_make_room(context->arena, &plan->meetings, plan->meeting_count, &plan->meeting_room, sizeof meeting);
    plan->meetings[plan->meeting_count++] = meeting;
}

tw_size tw_part_blank(const tw_part *part) { return part->blank.length_mm > 0.0 ? part->blank : part->finished; }

void tw_plan_lodging(tw_joint_context *context, tw_joint_plan *plan, tw_lodging lodging)
{
    assert(lodging.part >= 0 && (size_t)lodging.part < plan->part_count);
    assert(lodging.meeting >= 0 && (size_t)lodging.meeting < plan->meeting_count);
    tw_array_make_room(context->arena, &plan->lodgings, plan->lodging_count, &plan->lodging_room, sizeof lodging);
    plan->lodgings[plan->lodging_count++] = lodging;
}

void tw_plan_station(tw_joint_context *context, tw_joint_plan *plan, tw_station station)
{
    tw_array_make_room(context->arena, &plan->stations, plan->station_count, &plan->station_room, sizeof station);
    plan->stations[plan->station_count++] = station;
}

void tw_plan_advice(tw_joint_context *context, tw_joint_plan *plan, const char *text)
{
    tw_array_make_room(context->arena, &plan->order, plan->order_count, &plan->order_room, sizeof text);
    plan->order[plan->order_count++] = text;
}

void tw_plan_finding(tw_joint_context *context, tw_joint_plan *plan, tw_level level, const tw_amount *amount, const char *code,
                     const char *what, const char *remedy)
{
    tw_place place = amount && amount->given ? amount->place : plan->joint->place;
    tw_find(context->findings, level, place, code, plan->joint->name, what, remedy);
    if (amount) tw_plan_fix_proposed(context, plan, amount);
}

const char *tw_say(const tw_joint_context *context, double length_mm)
{
    return tw_length_text(context->arena, length_mm, context->job->figures);
}
