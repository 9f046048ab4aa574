// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon out of square: what the works say of it. The cradle of the mortised piece, the slanted lines of the mouth
 * and of the shoulders, the saw's mitre and tilt, and which of two mirror images a piece is. */
#include "joint/mortise_tenon.h"

#include <math.h>

#include "joint/words.h"

#define NONE_RAD (0.02 * TW_PI / 180.0)  // less is not set on any machine

static const char *angle(const tw_joint_context *context, double rad) { return tw_angle_text(context->arena, fabs(rad)); }
static const char *say(const tw_joint_context *context, double length_mm) { return tw_say_fine(context, length_mm); }

/* +1 when the right end of the mortised piece lies to the right of one who looks at the mortised side, `down` below; else -1. */
static double right_end_side(const tw_mortise *m)
{
    tw_spot up = tw_spot_times(tw_face_frame(m->down).out, -1.0);
    return tw_spot_cross(up, tw_face_frame(m->from).out).x;
}

tw_cradle tw_mortise_cradle(const tw_joint_context *context, const tw_mortise *m)
{
    if (!m->lean.leans) return (tw_cradle){ .words = "" };
    tw_arena *arena = context->arena;
    tw_cradle c = { .used = true, .roll_rad = m->lean.roll, .swing_rad = m->lean.swing * right_end_side(m),
        .tilt_rad = m->lean.tilt };
    bool rolled = fabs(c.roll_rad) > NONE_RAD, swung = fabs(c.swing_rad) > NONE_RAD;
    const char *roll = rolled ? tw_format(arena, "rolled by %s, its top %s the cutter", angle(context, c.roll_rad),
        c.roll_rad > 0.0 ? "towards" : "away from") : "not rolled";
    const char *swing = swung ? tw_format(arena, "swung by %s, its %s end as you look at it towards the cutter", angle(context,
        c.swing_rad), c.swing_rad > 0.0 ? "right" : "left") : "not swung";
    c.words = tw_format(arena, "%s; %s", roll, swing);
    return c;
}

tw_hand tw_mortise_lean_hand(const tw_mortise *m)
{
    double both = m->lean.slope_y * m->lean.slope_z;
    if (!m->lean.leans || fabs(both) < 1e-12) return TW_HAND_NONE;
    return both > 0.0 ? TW_HAND_LEFT : TW_HAND_RIGHT;
}

/* ---- marking ---- */

const char *tw_mortise_lean_mouth_words(const tw_joint_context *context, const tw_mortise *m)
{
    if (!m->lean.leans) return "";
    tw_arena *arena = context->arena;
    const char *turned = m->lean.half_turn ? tw_format(arena,
        " Every second place is turned half round: gauge it from the %s instead.", tw_face_words[tw_face_opposite(m->down)]) : "";
    return tw_format(arena,
        "%s The mouth is %s along the grain and %s across, corner to corner: the cutter finds it from the middle.", turned,
        say(context, 2.0 * m->lean.mouth_x), say(context, 2.0 * m->lean.mouth_up));
}

/* From the end to the shoulder on the middle of the face or of the back. */
static double from_end(const tw_mortise *m, bool right_end, double z)
{
    double k = m->along || !right_end ? m->lean.slope_z : -m->lean.slope_z;
    return right_end ? m->l - k * (z - m->z) : m->l + k * (z - m->z);
}

static const char *end_words(const tw_joint_context *context, const tw_mortise *m, bool right_end)
{
    tw_arena *arena = context->arena;
    const char *end = tw_face_words[right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END];
    double k = m->along && right_end ? -m->lean.slope_y : m->lean.slope_y, face = from_end(m, right_end, m->a.thickness_mm),
        back = from_end(m, right_end, 0.0);
    const char *nearer = tw_face_words[(right_end ? k < 0.0 : k > 0.0) ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK_EDGE];
    const char *where = fabs(face - back) < 0.05
        ? tw_format(arena, "%s from the %s in the tenon's middle", say(context, face), end)
        : tw_format(arena, "%s from the %s in the tenon's middle on the face and %s on the back", say(context, face), end,
            say(context, back));
    return m->lean.mitre > NONE_RAD ? tw_format(arena, "%s, nearer to the end at the %s", where, nearer) : where;
}

const char *tw_mortise_lean_shoulder_words(const tw_joint_context *context, const tw_mortise *m)
{
    if (!m->lean.leans) return "";
    tw_arena *arena = context->arena;
    const char *ends = m->spec->ends.value == TW_TENON_BOTH ? tw_format(arena, "%s; %s", end_words(context, m, false),
        end_words(context, m, true))
                                                            : end_words(context, m, m->spec->ends.value == TW_TENON_RIGHT);
    return tw_format(arena,
        "Strike the slanted shoulder with a knife all round: face and back with a bevel set %s off square, both edges with one set %s off square; the four lines must meet at the arrises. %s.",
        angle(context, m->lean.mitre), angle(context, m->lean.edge_mitre), ends);
}

/* ---- sawing ---- */

static const char *pair_words(const tw_joint_context *context, double mitre, double tilt)
{
    tw_arena *arena = context->arena;
    const char *gauge = mitre > NONE_RAD ? tw_format(arena, "the gauge set %s off square", angle(context, mitre))
        : "the gauge square";
    return tw_format(arena, "%s, %s", gauge, tilt > NONE_RAD ? tw_format(arena, "the blade tilted by %s", angle(context, tilt))
        : "the blade upright");
}

const char *tw_mortise_lean_saw_words(const tw_joint_context *context, const tw_mortise *m)
{
    if (!m->lean.leans) return "";
    const tw_lean *lean = &m->lean;
    bool edges = m->face_edge_shoulder > 1e-6 || m->back_edge_shoulder > 1e-6;
    const char *second = edges ? tw_format(context->arena, " The edges: %s.", pair_words(context, lean->edge_mitre,
        lean->edge_bevel)) : "";
    return tw_format(context->arena,
        " Face and back: %s.%s For the opposite side roll the piece over and lay its end to the other side of the blade, the gauge turned to the other hand; "
        "the tilt stays. Set all on an offcut against the bevels first; by hand, saw to the knife lines.",
        pair_words(context, lean->mitre, lean->bevel), second);
}
double tw_mortise_lean_face_mm(const tw_mortise *m)
{
    return from_end(m, m->spec->ends.value == TW_TENON_RIGHT, m->a.thickness_mm);
}

/* ---- in the cradle ---- */

/* A cutter of radius c stands off a side that leans by t by c tan t; half of the mortise is no less than its radius. */
double tw_mortise_lean_touch_mm(const tw_mortise *m) { return tw_min(m->tm, m->wm) / 2.0 * tan(m->lean.tilt); }

/* Rolled towards the cutter the piece stands on the arris at the mortised side; rolled away on the arris behind it, and the
 * first is lifted by d sin(roll). */
void tw_mortise_lean_in_cradle(const tw_joint_context *context, const tw_mortise *m, tw_work *work)
{
    double roll = m->lean.roll;
    work->cradle = tw_mortise_cradle(context, m);
    work->hand = work->hand == TW_HAND_NONE ? tw_mortise_lean_hand(m) : work->hand;
    work->copy.down_to_origin_mm = work->copy.down_to_origin_mm * cos(roll) + (roll < 0.0 ? -m->d * sin(roll) : 0.0);
    work->copy.overhang_low_mm = 0.0;
    work->copy.zero_word = tw_format(context->arena, "%s at the first touch of its rim, over the middle of the mortise",
        tw_face_words[work->face]);
    work->cautions = tw_format(context->arena,
        "%s%sThe cradle is screwed to the table, the piece clamped in it at two places: nothing rocks.\n"
        "The high side of the mouth is met first: light plunges there, the shank clear of it.",
        work->cautions, work->cautions[0] ? "\n" : "");
}
