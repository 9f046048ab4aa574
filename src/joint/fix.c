// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/fix.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define SAME 1e-9

/* ---- where an amount stands ---- */

/* A key of the joint, and which item of its list; item 0: no list. */
typedef struct stand { const tw_key *row; int item; } stand;

static const void *field_of(const tw_joint_plan *plan, const tw_key *row)
{
    return (const char *)plan->joint->spec + row->offset;
}

static stand stand_of(const tw_joint_plan *plan, const tw_amount *amount)
{
    const tw_joint_format *format = &tw_joint_kinds[plan->joint->kind]->format;
    for (int i = 0; i < format->key_count; i++) {
        const tw_key *row = &format->keys[i];
        if (field_of(plan, row) == (const void *)amount) return (stand){ row, 0 };
        const tw_amounts *list = row->kind == TW_KEY_LENGTHS ? field_of(plan, row) : NULL;
        for (int j = 0; list && j < list->count; j++)
            if (&list->items[j] == amount) return (stand){ row, j + 1 };
    }
    return (stand){ NULL, 0 };
}

static const tw_key *row_named(const tw_joint_plan *plan, const char *key)
{
    const tw_joint_format *format = &tw_joint_kinds[plan->joint->kind]->format;
    for (int i = 0; i < format->key_count; i++)
        if (strcmp(format->keys[i].name, key) == 0) return &format->keys[i];
    return NULL;
}

/* ---- values ---- */

typedef struct offered { double value; const char *written, *shown; } offered;

static bool in_range(const tw_key *row, double value)
{
    bool own = row->least != 0.0 || row->most != 0.0;
    if (own) return value >= row->least - SAME && value <= row->most + SAME;
    switch (row->kind) {
    case TW_KEY_LENGTH: case TW_KEY_LENGTHS: return value >= TW_LENGTH_LEAST_MM && value <= TW_LENGTH_MOST_MM;
    case TW_KEY_ANGLE: return value >= 0.0 && value <= TW_PI / 2.0;
    case TW_KEY_COUNT: return value >= 1.0 && value <= TW_COUNT_MOST;
    default: return value >= 0.0;
    }
}

static offered offer(const tw_joint_context *context, tw_key_kind kind, double value, tw_rounding rounding)
{
    tw_arena *arena = context->arena;
    if (kind == TW_KEY_LENGTH || kind == TW_KEY_LENGTHS) {
        double rounded = tw_job_rounded_mm(context->job, value, rounding);
        return (offered){ rounded, tw_job_written_length(arena, context->job, value, rounding), tw_say(context, rounded) };
    }
    if (kind == TW_KEY_ANGLE) {
        const char *written = tw_job_written_angle(arena, value, rounding);
        double degrees = tw_degrees(value);
        tw_read_number(tw_text_of(written), &degrees);
        return (offered){ tw_radians(degrees), written, tw_angle_text(arena, tw_radians(degrees)) };
    }
    double rounded = kind == TW_KEY_COUNT ? round(value) : value;
    return (offered){ rounded, tw_format(arena, "%g", rounded), tw_format(arena, "%g", rounded) };
}

static const char *label_of(const tw_joint_context *context, const char *order, const char *shown, const char *after)
{
    return tw_format(context->arena, "%s %s%s%s", order, shown, after[0] ? " " : "", after);
}

/* ---- joints ---- */

/* section, name, key, and the item of a list. */
typedef struct path_of_four { const char *words[4]; size_t count; } path_of_four;

static path_of_four path_of(const tw_joint_context *context, const tw_joint_plan *plan, stand at)
{
    path_of_four path = { { plan->profile ? "profiles" : "joints", plan->joint->name, at.row->name, NULL }, 3 };
    if (at.item > 0) path.words[path.count++] = tw_format(context->arena, "%d", at.item);
    return path;
}

void tw_plan_fix(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *amount, const char *order, double value,
                 const char *after, tw_rounding rounding)
{
    stand at = stand_of(plan, amount);
    if (!at.row || !isfinite(value)) return;
    offered set = offer(context, at.row->kind, value, rounding);
    if (!in_range(at.row, set.value) || (amount->given && fabs(set.value - amount->value) < SAME)) return;
    path_of_four path = path_of(context, plan, at);
    tw_find_fix(context->findings, label_of(context, order, set.shown, after), TW_FILE_JOB, path.words, path.count, set.written);
}

void tw_plan_fix_word(tw_joint_context *context, const tw_joint_plan *plan, const char *key, const char *word, const char *order)
{
    const tw_key *row = row_named(plan, key);
    assert(row);
    path_of_four path = path_of(context, plan, (stand){ row, 0 });
    tw_find_fix(context->findings, order, TW_FILE_JOB, path.words, path.count, word);
}

static bool is_given(const tw_joint_plan *plan, const tw_key *row)
{
    const void *field = field_of(plan, row);
    switch (row->kind) {
    case TW_KEY_TEXT: case TW_KEY_CUTTER: case TW_KEY_FOLLOWER: return ((const tw_words *)field)->given;
    case TW_KEY_YES_NO: case TW_KEY_CHOICE: return ((const tw_choice *)field)->given;
    case TW_KEY_PIECE: return ((const tw_link *)field)->given;
    case TW_KEY_LENGTHS: return ((const tw_amounts *)field)->count > 0;
    case TW_KEY_FIGURES: return false;
    default: return ((const tw_amount *)field)->given;
    }
}

void tw_plan_fix_other_word(tw_joint_context *context, const tw_joint_plan *plan, const char *key)
{
    const tw_key *row = row_named(plan, key);
    if (!row || row->kind != TW_KEY_CHOICE) return;
    int now = ((const tw_choice *)field_of(plan, row))->value;
    for (int i = 0; row->choices[i]; i++)
        if (i != now) tw_plan_fix_word(context, plan, key, row->choices[i],
            tw_format(context->arena, "Write `%s: %s`", key, row->choices[i]));
}

const tw_amount *tw_plan_amount_of(const tw_joint_plan *plan, const char *key)
{
    const tw_key *row = row_named(plan, key);
    return row && (row->kind == TW_KEY_LENGTH || row->kind == TW_KEY_ANGLE) ? field_of(plan, row) : NULL;
}

static void take_out(tw_joint_context *context, const tw_joint_plan *plan, const tw_key *row, const char *order)
{
    path_of_four path = path_of(context, plan, (stand){ row, 0 });
    tw_find_fix_by(context->findings, order, TW_FILE_JOB, (tw_change){ .kind = TW_CHANGE_REMOVE, .path = path.words,
        .path_count = path.count });
}

void tw_plan_fix_leave(tw_joint_context *context, const tw_joint_plan *plan, const char *key)
{
    tw_plan_fix_without(context, plan, key, tw_format(context->arena, "Leave `%s` out", key));
}

void tw_plan_fix_without(tw_joint_context *context, const tw_joint_plan *plan, const char *key, const char *order)
{
    const tw_key *row = row_named(plan, key);
    assert(row);
    if (!row->required && is_given(plan, row)) take_out(context, plan, row, order);
}

static bool has_word(const tw_key *row, const char *word)
{
    for (int i = 0; row->kind == TW_KEY_CHOICE && row->choices[i]; i++)
        if (strcmp(row->choices[i], word) == 0) return true;
    return false;
}

/* A tool that the shop does not have: the one of the nearest name. */
static void name_nearest(tw_joint_context *context, const tw_joint_plan *plan, const tw_key *row)
{
    const tw_words *said = field_of(plan, row);
    const tw_shop *shop = context->shop;
    bool cutter = row->kind == TW_KEY_CUTTER;
    int count = cutter ? shop->cutter_count : shop->follower_count;
    const char **names = TW_NEW_ARRAY(context->arena, const char *, count);
    for (int i = 0; i < count; i++) names[i] = cutter ? shop->cutters[i].name : shop->followers[i].name;
    const char *near_ = said->given ? tw_nearest_word(said->text, names, (size_t)count) : NULL;
    if (!near_ || strcmp(near_, said->text) == 0) return;
    tw_plan_fix_word(context, plan, row->name, near_, tw_format(context->arena, "Write `%s: %s`", row->name, near_));
}

void tw_plan_fix_tools(tw_joint_context *context, const tw_joint_plan *plan)
{
    const tw_joint_format *format = &tw_joint_kinds[plan->joint->kind]->format;
    for (int i = 0; i < format->key_count; i++) {
        const tw_key *row = &format->keys[i];
        if (row->kind != TW_KEY_CUTTER && row->kind != TW_KEY_FOLLOWER) continue;
        name_nearest(context, plan, row);
        tw_plan_fix_leave(context, plan, row->name);
    }
    for (int i = 0; i < format->key_count; i++) {
        const tw_key *row = &format->keys[i];
        bool by = strcmp(row->name, "by") == 0 || strcmp(row->name, "tenon by") == 0 || strcmp(row->name, "slot by") == 0 ||
            strcmp(row->name, "made") == 0;
        const char *word = has_word(row, "saw") ? "saw" : has_word(row, "by hand") ? "by hand" : NULL;
        if (by && word) tw_plan_fix_word(context, plan, row->name, word,
            tw_format(context->arena, "Write `%s: %s`", row->name, word));
    }
}

#define CUTTERS_OFFERED 3

/* The smallest cutter that plunges and is larger than that; -1 when there is none. */
static int next_cutter(const tw_shop *shop, double than_mm)
{
    int next = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        if (!cutter->plunges.value || !tw_cutter_is_straight(cutter) || cutter->d_mm <= than_mm + SAME) continue;
        if (next < 0 || cutter->d_mm < shop->cutters[next].d_mm) next = i;
    }
    return next;
}

void tw_plan_fix_to_cutter(tw_joint_context *context, const tw_joint_plan *plan)
{
    const tw_amount *thickness = tw_plan_amount_of(plan, "tenon thickness");
    const tw_figure *now = tw_plan_find(plan, "tenon_thickness"), *clearance = tw_plan_find(plan, "clearance");
    if (!thickness || !now || !clearance) return;
    double wide = now->value + clearance->value;
    for (int i = 0; i < CUTTERS_OFFERED; i++) {
        int cutter = next_cutter(context->shop, wide);
        if (cutter < 0) return;
        wide = context->shop->cutters[cutter].d_mm;
        const char *after = tw_format(context->arena, "thick, for cutter %s", context->shop->cutters[cutter].name);
        tw_plan_fix(context, plan, thickness, "Make the tenon", wide - clearance->value, after, TW_ROUND_UP);
    }
}

static const tw_figure *figure_of(const tw_joint_plan *plan, const tw_key *row)
{
    for (size_t i = 0; i < plan->figure_count; i++)
        if (plan->figures[i].row == row) return &plan->figures[i];
    return NULL;
}

static const char *figure_text(const tw_joint_context *context, const tw_figure *figure)
{
    switch (figure->unit) {
    case TW_UNIT_MM: return tw_say(context, figure->proposed);
    case TW_UNIT_RAD: return tw_angle_text(context->arena, figure->proposed);
    default: return tw_format(context->arena, "%g", figure->proposed);
    }
}

void tw_plan_fix_proposed(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *amount)
{
    stand at = stand_of(plan, amount);
    if (!at.row || at.item > 0 || at.row->required || !amount->given) return;
    const tw_figure *figure = figure_of(plan, at.row);
    bool rule = figure && figure->has_proposed && in_range(at.row, figure->proposed) &&
        fabs(figure->proposed - amount->value) >= SAME;
    const char *shown = rule ? figure_text(context, figure) : "";
    take_out(context, plan, at.row, rule ? tw_format(context->arena, "Take the proposed %s, %s", figure->label, shown)
                                         : tw_format(context->arena, "Leave `%s` out", at.row->name));
}

/* ---- pieces ---- */

static const tw_amount *amount_of(const tw_piece *piece, const char *key)
{
    if (strcmp(key, "length") == 0) return &piece->length;
    if (strcmp(key, "width") == 0) return &piece->width;
    if (strcmp(key, "thickness") == 0) return &piece->thickness;
    assert(strcmp(key, "count") == 0);
    return &piece->count;
}

void tw_piece_fix(tw_joint_context *context, int piece, const char *key, const char *order, double value, const char *after,
    tw_rounding rounding)
{
    const tw_piece *of = &context->job->pieces[piece];
    const tw_amount *amount = amount_of(of, key);
    const tw_key row = { .kind = amount == &of->count ? TW_KEY_COUNT : TW_KEY_LENGTH };
    if (!isfinite(value)) return;
    offered set = offer(context, row.kind, value, rounding);
    if (!in_range(&row, set.value) || fabs(set.value - amount->value) < SAME) return;
    const char *const path[] = { "pieces", of->name, key };
    tw_find_fix(context->findings, label_of(context, order, set.shown, after), TW_FILE_JOB, path, 3, set.written);
}

void tw_piece_fix_size(tw_joint_context *context, int piece, const char *key, double value_mm, tw_rounding rounding)
{
    const char *after = strcmp(key, "length") == 0 ? "long" : strcmp(key, "width") == 0 ? "wide" : "thick";
    tw_piece_fix(context, piece, key, tw_format(context->arena, "Make %s", context->job->pieces[piece].name), value_mm, after,
        rounding);
}

/* count of `piece`, in one set, so that count * each comes to the other's total. */
static void match_count(tw_joint_context *context, int piece, int each, int total)
{
    if (each < 1 || total % each != 0) return;
    const char *name = context->job->pieces[piece].name;
    tw_piece_fix(context, piece, "count", "Make", total / each, tw_format(context->arena, "of %s", name), TW_ROUND_NEAREST);
}

void tw_plan_fix_counts(tw_joint_context *context, int mover, int ends, int base, int places)
{
    const tw_piece *pieces = context->job->pieces;
    match_count(context, base, places, (int)pieces[mover].count.value * ends);
    match_count(context, mover, ends, (int)pieces[base].count.value * places);
}

void tw_piece_fix_across(tw_joint_context *context, int piece, tw_face side, double value_mm, tw_rounding rounding)
{
    tw_piece_fix_size(context, piece, side <= TW_SIDE_BACK ? "width" : "thickness", value_mm, rounding);
}

void tw_piece_fix_depth(tw_joint_context *context, int piece, tw_face side, double value_mm, tw_rounding rounding)
{
    tw_piece_fix_size(context, piece, side <= TW_SIDE_BACK ? "thickness" : "width", value_mm, rounding);
}

/* ---- places ---- */

void tw_plan_fix_place(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *at, double least_mm, int piece)
{
    double length = context->job->pieces[piece].length.value;
    if (2.0 * least_mm > length) tw_piece_fix_size(context, piece, "length", 2.0 * least_mm, TW_ROUND_UP);
    else if (at->value < length / 2.0) tw_plan_fix(context, plan, at, "Put it", least_mm, "from the left end", TW_ROUND_UP);
    else tw_plan_fix(context, plan, at, "Put it", length - least_mm, "from the left end", TW_ROUND_DOWN);
}

void tw_plan_fix_place_by(tw_joint_context *context, const tw_joint_plan *plan, int place, double change_mm)
{
    const tw_joint_format *format = &tw_joint_kinds[plan->joint->kind]->format;
    for (int i = 0; i < format->key_count; i++) {
        const tw_key *row = &format->keys[i];
        if (row->kind != TW_KEY_LENGTHS || strcmp(row->name, "at") != 0) continue;
        const tw_amounts *list = field_of(plan, row);
        if (place >= list->count) return;
        const tw_amount *at = &list->items[place];
        const char *order = tw_format(context->arena, "Put place %d of %s", place + 1, plan->joint->name);
        tw_plan_fix(context, plan, at, order, at->value + change_mm, "from the left end", TW_ROUND_NOT);
    }
}

void tw_plan_fix_apart(tw_joint_context *context, const tw_joint_plan *plan, const tw_amount *at, double other_mm,
    double apart_mm, double length_mm)
{
    double up = other_mm + apart_mm, down = other_mm - apart_mm;
    bool can_up = up < length_mm, can_down = down > 0.0, wants_up = at->value >= other_mm;
    if (wants_up ? can_up : can_up && !can_down) tw_plan_fix(context, plan, at, "Put it", up, "from the left end", TW_ROUND_UP);
    else if (can_down) tw_plan_fix(context, plan, at, "Put it", down, "from the left end", TW_ROUND_DOWN);
}
