// SPDX-License-Identifier: GPL-3.0-or-later
/* Rounded end: corners of an end taken off as quarter circles, as seen on the face; with a radius of half the width the end
 * becomes a half circle. Wood that is taken at a corner: r^2 (1 - pi/4). */
#include "profile/profile.h"

#include "joint/fix.h"

#include <math.h>

#include "joint/words.h"

#define ROUTED_FROM 4    // as for arches: our own rule

static const char *const end_words[] = { "left", "right", "both", NULL };
static const char *const corner_words[] = { "both", "face edge", "back edge", NULL };
static const char *const ways[] = { "routed", "by hand", NULL };

#define AT(field) offsetof(tw_rounded_spec, field)
static const tw_key keys[] = {
    { .name = "piece", .kind = TW_KEY_PIECE, .offset = AT(piece), .required = true, .meaning = "The piece that is shaped.",
        .example = "shelf" },
    { .name = "ends", .kind = TW_KEY_CHOICE, .offset = AT(ends), .choices = end_words, .fallback = 2,
        .meaning = "The end that is rounded.", .example = "right" },
    { .name = "corners", .kind = TW_KEY_CHOICE, .offset = AT(corners), .choices = corner_words,
        .meaning = "The corners of that end: both, or that at one edge.", .example = "both" },
    { .name = "radius", .kind = TW_KEY_LENGTH, .offset = AT(radius),
        .otherwise = "half of the width: a half round end; of one corner alone a quarter of the width",
      .meaning = "The radius of the corners.", .example = "20 mm" },
    { .name = "made", .kind = TW_KEY_CHOICE, .offset = AT(made), .choices = ways,
        .otherwise = "from 4 ends on routed, else by hand",
      .meaning = "By a hand-held router with a bearing along a full-size template, or with bandsaw, block plane and file.",
          .example = "by hand" },
};
#undef AT

static const char *say(const tw_joint_context *context, double mm) { return tw_say(context, mm); }

/* ---- checks ---- */

static bool can_be_made(tw_joint_context *context, tw_joint_plan *plan, const tw_rounded *r)
{
    tw_arena *arena = context->arena;
    double most = r->low && r->high ? r->size.width_mm / 2.0 : r->size.width_mm;
    if (r->radius_mm > most + 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &r->spec->radius, "radius-over-width", tw_format(arena,
            "%s of %s do not go into the width of %s of %s", r->low && r->high ? "two corners" : "a corner",
            say(context, r->radius_mm), say(context, r->size.width_mm), r->piece->name), tw_format(arena,
                "a radius of %s at most%s", say(context, most), r->low && r->high ? ", which makes a half round end" : ""));
        tw_plan_fix(context, plan, &r->spec->radius, "Round them by", most, "", TW_ROUND_DOWN);
        return false;
    }
    double ends = r->left && r->right ? 2.0 : 1.0;
    if (ends * r->radius_mm > r->size.length_mm + 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &r->spec->radius, "radius-over-length", tw_format(arena,
            "rounded ends of %s do not go into the length of %s of %s", say(context, r->radius_mm), say(context,
            r->size.length_mm), r->piece->name),
            tw_format(arena, "a radius of %s at most", say(context, r->size.length_mm / ends)));
        tw_plan_fix(context, plan, &r->spec->radius, "Round them by", r->size.length_mm / ends, "", TW_ROUND_DOWN);
        return false;
    }
    return true;
}

/* ---- the plan ---- */

static void add_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_rounded *r)
{
    static const char *const words[] = { "left end and face edge", "right end and face edge", "right end and back edge",
        "left end and back edge" };
    const bool off[4] = { r->left && r->low, r->right && r->low, r->right && r->high, r->left && r->high };
    double l = r->size.length_mm, w = r->size.width_mm;
    for (tw_corner_at at = TW_CORNER_LOW_LEFT; at <= TW_CORNER_HIGH_LEFT; at++)
        if (off[at]) tw_profile_cut(context, plan, tw_format(context->arena, "rounded corner at %s", words[at]), TW_SIDE_FACE,
            tw_profile_corner(context->arena, l, w, at, r->radius_mm, true));
    plan->shapes[plan->shape_count++] = (tw_profile_shape){ TW_SIDE_FACE, tw_profile_corners_off(context->arena, l, w, off,
        r->radius_mm, true) };
}

static void plan_rounded(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_rounded_spec *spec = plan->joint->spec;
    const tw_piece *piece = &context->job->pieces[spec->piece.index];
    tw_rounded *r = TW_NEW(context->arena, tw_rounded);
    *r = (tw_rounded){ .spec = spec, .piece = piece, .size = tw_piece_size(piece), .left = spec->ends.value != 1, .right = spec->ends.value != 0, .low = spec->corners.value != 2,
                       .high = spec->corners.value != 1, .pieces = tw_profile_pieces(context, spec->piece.index) };
    plan->piece = spec->piece.index;
    plan->count = r->pieces;
    bool both = r->low && r->high;
    r->radius_mm = tw_plan_amount(context, plan, &spec->radius, "radius", "radius", "r", TW_UNIT_MM, r->size.width_mm / (both
        ? 2.0 : 4.0),
        tw_format(context->arena, "%s/%d", tw_bare_fine(context, r->size.width_mm), both ? 2 : 4), both
            ? "half of the width: a half round end" : "a quarter of the width: common practice");
    int ends = r->pieces * (r->left + r->right);
    r->made = spec->made.given ? (spec->made.value == 0 ? TW_MADE_ROUTED : TW_MADE_BY_HAND) : ends >= ROUTED_FROM
        ? TW_MADE_ROUTED : TW_MADE_BY_HAND;
    if (!can_be_made(context, plan, r)) return;
    plan->own = r;
    add_cuts(context, plan, r);
    tw_rounded_work(context, plan, r);
}

const tw_joint_kind tw_rounded_profile = {
    .format = { .kind = "rounded end",
        .meaning = "An end whose corners are rounded as seen on the face; with no radius given it becomes a half circle.",
        .keys = keys,
                .key_count = sizeof keys / sizeof keys[0], .spec_size = sizeof(tw_rounded_spec), .profile = true },
    .plan = plan_rounded,
    .draw = tw_rounded_draw,
};
