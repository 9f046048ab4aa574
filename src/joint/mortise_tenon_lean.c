// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon out of square: rake and splay, and what follows from them.
 *
 * The tenon stays in line with its own piece, along the grain; the mortise goes in along the tenon's axis; the shoulder lies
 * on the side of the mortised piece, which is at a compound angle to the tenoned one. Seen square on, from the side, the piece
 * leans along the grain of the mortised one by the rake r; seen along that grain it leans across it by the splay s (both as
 * a bevel shows them on the front and on the side view, positive towards the right end, and towards the back edge from a face
 * or the face from an edge). With the normal of the side upright its axis is
 *     a = (tan r, tan s, 1) / N,    N = sqrt(1 + tan^2 r + tan^2 s)                                        (1)
 *     resultant     cos t = 1 / N,  in plan towards  atan2(tan s, tan r)  from the grain: the sight line     (2)
 * The cradle rolls the mortised piece about its own length until the axis is level with it, then swings it in plan:
 *     roll = s      tan(swing) = tan r cos s      cos t = cos(roll) cos(swing)                                (3)
 * What runs along the grain stays in a plane with it, so in the cradle the mortise stands square to the machine's axes and its
 * template is the plain one. With n the normal of the side in the frame of the tenoned piece, the shoulder is
 *     x = x0 - (n_y/n_x)(y - y0) - (n_z/n_x)(z - z0)                                                          (4)
 *     mitre on the face = atan |n_y/n_x|     tilt of the blade, face down = asin |n_z|                         (5)
 *     mitre on an edge  = atan |n_z/n_x|     tilt, edge down = asin |n_y|                                      (6)
 * For a tenon that lies along: mitre on the face = swing, tilt = roll: the saw takes the cradle's own two angles. */
#include "joint/fix.h"
#include "joint/mortise_tenon.h"

#include <math.h>

#include "joint/words.h"
#include "piece/pose.h"

#define BLIND_SHARE (2.0 / 3.0)   // of the mortised piece, for the deepest corner: common practice
#define STEEP_RAD (30.0 * TW_PI / 180.0)   // more, and the lip of the mortise is a feather: common practice
#define SHORT_RAD (20.0 * TW_PI / 180.0)
#define HAIR_MM 1e-6
#define LEAST_RAD 1e-9

static const char *angle(const tw_joint_context *context, double rad) { return tw_angle_text(context->arena, rad); }
static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }
static const char *say(const tw_joint_context *context, double length_mm) { return tw_say_fine(context, length_mm); }

/* ---- how it stands ---- */

tw_pose tw_mortise_pose(const tw_mortise *m, tw_face end, tw_mortise_site site, bool reversed)
{
    bool turned = site.turned;
    tw_end_stand stand = { .end = end, .inset_mm = m->l, .middle_y = m->y, .middle_z = m->z, .from = m->from, .at_mm = site.x,
        .across_mm = site.up,
        .along = m->along, .reversed = reversed != turned, .rake_rad = turned ? -m->lean.rake : m->lean.rake,
        .splay_rad = turned ? -m->lean.splay : m->lean.splay };
    return tw_end_pose(m->a, m->b, &stand);
}

/* The pose of the left end at a place that is not turned: all that is asked of it are directions. */
static tw_pose plain_pose(const tw_mortise *m)
{
    return tw_mortise_pose(m, TW_SIDE_LEFT_END, (tw_mortise_site){ .x = 0.0, .up = 0.0 }, false);
}

static tw_spot across_of(const tw_mortise *m) { return m->from <= TW_SIDE_BACK ? (tw_spot){ 0, 1, 0 } : (tw_spot){ 0, 0, 1 }; }

void tw_mortise_lean_begin(tw_mortise *m)
{
    tw_lean *lean = &m->lean;
    lean->rake = m->spec->rake.value;
    lean->splay = m->spec->splay.value;
    lean->leans = fabs(lean->rake) > LEAST_RAD || fabs(lean->splay) > LEAST_RAD;
    lean->half_turn = m->spec->half_turn.value == 1;
    if (!lean->leans) { lean->rake = lean->splay = 0.0; return; }
    double r = tan(lean->rake), s = tan(lean->splay);
    lean->tilt = atan(hypot(r, s));
    lean->sight = atan2(s, r);
    lean->roll = lean->splay;
    lean->swing = atan(r * cos(lean->splay));
}

/* ---- sizes that follow ---- */

/* How a length along a direction of the tenon shows on the side of the mortised piece when it is moved there along the axis. */
static tw_point on_side(const tw_mortise *m, tw_pose pose, tw_spot direction)
{
    tw_spot out = tw_face_frame(m->from).out;
    double off = tw_spot_product(direction, out) / tw_spot_product(pose.x, out);
    tw_spot there = tw_spot_less(direction, tw_spot_times(pose.x, off));
    return (tw_point){ there.x, tw_spot_product(there, across_of(m)) };
}

static void find_mouth(tw_mortise *m)
{
    tw_lean *lean = &m->lean;
    tw_pose pose = plain_pose(m);
    tw_spot out = tw_face_frame(m->from).out;
    double n_x = tw_spot_product(pose.x, out), n_y = tw_spot_product(pose.y, out), n_z = tw_spot_product(pose.z, out);
    tw_point y = on_side(m, pose, pose.y), z = on_side(m, pose, pose.z);
    lean->mouth_x = (m->wm * fabs(y.x) + m->tm * fabs(z.x)) / 2.0;
    lean->mouth_up = (m->wm * fabs(y.y) + m->tm * fabs(z.y)) / 2.0;
    lean->corner = (m->wm * fabs(n_y) + m->tm * fabs(n_z)) / 2.0;
    lean->end_corner = (m->w * fabs(n_y) + m->t * fabs(n_z)) / 2.0 / n_x;
    lean->slope_y = -n_y / n_x;
    lean->slope_z = -n_z / n_x;
    lean->mitre = atan(fabs(lean->slope_y));
    lean->bevel = asin(tw_min(1.0, fabs(n_z)));
    lean->edge_mitre = atan(fabs(lean->slope_z));
    lean->edge_bevel = asin(tw_min(1.0, fabs(n_y)));
}

static void note_angle(tw_joint_context *context, tw_joint_plan *plan, const char *key, const char *label, double rad,
    const char *sum, const char *rule)
{
    tw_plan_figure(context, plan, (tw_figure){ .key = key, .label = label, .symbol = "", .value = rad, .unit = TW_UNIT_RAD,
        .sum = sum, .rule = rule });
}

static void note_angles(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_lean *lean = &m->lean;
    const tw_mortise_spec *spec = m->spec;
    const char *rake = angle(context, lean->rake), *splay = angle(context, lean->splay);
    note_angle(context, plan, "rake", "rake, towards the right end", lean->rake, spec->rake.given ? "given in the job" : "square",
        "");
    note_angle(context, plan, "splay", tw_format(arena, "splay, towards the %s", tw_face_words[tw_face_opposite(m->down)]),
        lean->splay, spec->splay.given ? "given in the job" : "square", "");
    note_angle(context, plan, "tilt", "resultant: the tenon against square", lean->tilt,
        tw_format(arena, "tan t = sqrt(tan^2 %s + tan^2 %s)", rake, splay),
            "rake and splay as seen square on, in two views (common practice)");
    note_angle(context, plan, "sight_line", "sight line: which way it leans, from the grain", lean->sight,
        tw_format(arena, "tan = tan %s / tan %s", splay, rake), "");
    note_angle(context, plan, "cradle_roll", "cradle: rolled about the length by", fabs(lean->roll),
        tw_format(arena, "the splay, %s", splay), "");
    note_angle(context, plan, "cradle_swing", "cradle: swung in plan by", fabs(lean->swing),
        tw_format(arena, "tan = tan %s x cos %s", rake, splay), "");
    note_angle(context, plan, "shoulder_mitre", "shoulder's mitre on the face", lean->mitre,
        m->along ? "the cradle's swing"
                 : tw_format(arena, "tan = tan %s / cos of the swing, %s", splay, angle(context, fabs(lean->swing))), "");
    note_angle(context, plan, "shoulder_bevel", "blade's tilt, the face down", lean->bevel,
        m->along ? "the cradle's roll"
                 : tw_format(arena, "sin = sin of the swing, %s, x cos %s", angle(context, fabs(lean->swing)), splay), "");
}

static void propose_through(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    double c = cos(m->lean.tilt), straight = m->d / c;
    m->proud = m->spec->proud.given ? m->spec->proud.value : 0.0;
    bool flush = m->proud <= 0.0;
    m->l = straight + (flush ? m->lean.end_corner : m->proud);
    tw_note_length(context, plan, "tenon_length", "tenon length, along its middle, as sawn", m->l,
        tw_format(arena, "through %s / cos %s, and %s %s", bare(context, m->d), angle(context, m->lean.tilt),
                  bare(context, m->l - straight), flush ? "so that its short corner comes out too" : "proud"),
        flush ? "its end is planed flush after the joint is together (common practice)" : "");
    m->depth = straight + m->lean.corner / c;
    m->two_faced = false;
    m->floor = 0.0;
    tw_note_length(context, plan, "mortise_depth", "mortise depth", m->depth,
        "through, along the tenon, from the middle of its mouth", "");
}

static void propose_blind(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    double c = cos(m->lean.tilt), wanted = (BLIND_SHARE * m->d - m->lean.corner) / c,
        reached = m->reach - m->room - m->lean.corner / c;
    bool short_cutter = wanted > reached + 1e-9 && reached > 2.0 * m->room;
    double proposed = tw_rounded_down(context, tw_max(0.0, short_cutter ? reached : wanted));
    m->l = tw_plan_amount(context, plan, &m->spec->depth, "tenon_length", "tenon length, along its middle", "l", TW_UNIT_MM,
        proposed,
        short_cutter ? tw_format(arena, "cutter's reach - room - high side of the mouth = %s - %s - %s", bare(context, m->reach),
            bare(context, m->room), bare(context, m->lean.corner / c))
                     : tw_format(arena, "(2/3 x %s - deepest corner %s) / cos %s", bare(context, m->d),
                                 bare(context, m->lean.corner), angle(context, m->lean.tilt)),
        short_cutter ? "as deep as the cutter reaches"
            : "two thirds of the mortised piece for the deepest corner (common practice)");
    m->depth = m->l + m->room;
    tw_note_length(context, plan, "mortise_depth", "mortise depth", m->depth,
        tw_format(arena, "l + room = %s + %s, along the tenon, from the middle of its mouth", bare(context, m->l),
                  bare(context, m->room)), "");
    m->floor = m->d - m->depth * c - m->lean.corner;
    tw_note_length(context, plan, "floor", "wood left under the mortise's deepest corner", m->floor,
        tw_format(arena, "%s - %s x cos %s - %s", bare(context, m->d), bare(context, m->depth), angle(context, m->lean.tilt),
            bare(context, m->lean.corner)),
        context->job->figures.style == TW_FIGURES_MM ? "at least 6 mm (common practice)" : "at least 1/4 in (common practice)");
}

void tw_mortise_lean_sizes(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    find_mouth(m);
    note_angles(context, plan, m);
    if (m->through) propose_through(context, plan, m);
    else propose_blind(context, plan, m);
    double deep = tw_mortise_deep_mm(m);
    m->lean.shift_x = -tan(m->lean.rake) * deep;
    m->lean.shift_up = -tan(m->lean.splay) * deep;
}

double tw_mortise_deep_mm(const tw_mortise *m)
{
    if (m->through) return m->d;
    return m->lean.leans ? m->depth * cos(m->lean.tilt) + m->lean.corner : m->depth;
}

tw_box tw_mortise_reach(const tw_mortise *m, tw_mortise_site site)
{
    double half_x = (m->along ? m->wm : m->tm) / 2.0, half_up = (m->along ? m->tm : m->wm) / 2.0, sign = site.turned ? -1.0 : 1.0;
    if (!m->lean.leans) return (tw_box){ site.x - half_x, site.up - half_up, site.x + half_x, site.up + half_up };
    double dx = sign * m->lean.shift_x, dup = sign * m->lean.shift_up;
    return (tw_box){ site.x - m->lean.mouth_x + tw_min(0.0, dx), site.up - m->lean.mouth_up + tw_min(0.0, dup),
                     site.x + m->lean.mouth_x + tw_max(0.0, dx), site.up + m->lean.mouth_up + tw_max(0.0, dup) };
}

/* ---- checks ---- */

double tw_mortise_shoulder_room(const tw_mortise *m)
{
    double along_y = tw_max(m->y, m->a.width_mm - m->y), along_z = tw_max(m->z, m->a.thickness_mm - m->z);
    return m->l - fabs(m->lean.slope_y) * along_y - fabs(m->lean.slope_z) * along_z;
}

static void check_steep(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_amount *at = fabs(m->lean.rake) >= fabs(m->lean.splay) ? &m->spec->rake : &m->spec->splay;
    const char *tilt = angle(context, m->lean.tilt);
    if (m->lean.tilt > STEEP_RAD + 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, at, "lean-steep",
            tw_format(arena, "%s leans %s out of square to %s: the lip of the mortise is a feather, and the shoulder slides",
                m->tenon->name, tilt, m->into->name),
            "at most 30 degrees in all; for more, a lap at an angle");
        tw_plan_fix(context, plan, at, "Let it lean by", at->value > 0.0 ? tw_radians(15.0) : -tw_radians(15.0), "",
            TW_ROUND_NEAREST);
    } else if (m->lean.tilt > SHORT_RAD + 1e-9) {
        tw_plan_finding(context, plan, TW_CARE, at, "lean-short-grain",
            tw_format(arena, "%s leans %s out of square: the lip of the mortise on its acute side is short grain and may break off", m->tenon->name, tilt),
            "at most 20 degrees in all, or a mortised piece of dense wood, its lip left standing until the joint is together");
        tw_plan_fix(context, plan, at, "Let it lean by", at->value > 0.0 ? tw_radians(14.0) : -tw_radians(14.0), "",
            TW_ROUND_NEAREST);
    }
}

/* key: with the word that mends it; NULL: the key is to go. */
static void refuse(tw_joint_context *context, tw_joint_plan *plan, const tw_amount *at, const char *what, const char *remedy,
    const char *key, const char *word)
{
    tw_plan_finding(context, plan, TW_HALT, at, "lean-not-with", what, remedy);
    if (word) tw_plan_fix_word(context, plan, key, word, tw_format(context->arena, "Write `%s: %s`", key, word));
    else tw_plan_fix_without(context, plan, key, tw_format(context->arena, "Leave `%s` out", key));
}

/* What is not worked out for a tenon that leans. */
static void check_company(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    const tw_mortise_spec *spec = m->spec;
    if (m->pair) refuse(context, plan, &(tw_amount){ .given = true, .place = spec->tenons.place },
        "twin or double tenons that lean are not worked out", "write `tenons: single`, or leave `rake` and `splay` out", "tenons",
            "single");
    if (m->haunched) refuse(context, plan, &spec->haunch, "a haunch on a tenon that leans is not worked out",
        "leave `haunch` out, or `rake` and `splay`", "haunch", NULL);
    if (m->pegged) refuse(context, plan, &spec->peg, "pegs through a tenon that leans are not worked out",
        "leave `peg` and `pegs` out, or `rake` and `splay`", "peg", NULL);
    if (m->round) refuse(context, plan, NULL, "a tenon that leans is sawn, and its mortise is set out square",
        "write `mortise ends: square`, or leave it out", "mortise ends", "square");
    if (!m->sawn) refuse(context, plan, NULL, "copying on the end leaves a shoulder square to the piece, but this one leans",
        "write `tenon by: saw`, or leave it out", "tenon by", "saw");
}

static void check_shoulder(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    double room = tw_mortise_shoulder_room(m);
    if (room > HAIR_MM) return;
    tw_plan_finding(context, plan, TW_HALT, m->spec->depth.given ? &m->spec->depth : NULL, "shoulder-off-blank",
        tw_format(context->arena,
            "the slanted shoulder of %s runs %s past the end of its tenon: the piece is not long enough there", m->tenon->name,
            say(context, -room)),
        tw_format(context->arena, "a tenon at least %s long, a narrower piece, or less rake and splay",
                  say(context, tw_rounded_down(context, m->l - room) + 1.0)));
    tw_plan_fix(context, plan, &m->spec->depth, "Make the tenon", m->l - room + 1.0, "long", TW_ROUND_UP);
}

static void check_out(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    tw_arena *arena = context->arena;
    double c = cos(m->lean.tilt), need = m->depth + m->lean.corner / c;
    if (need > m->reach + HAIR_MM) {
        tw_plan_finding(context, plan, TW_HALT, m->through ? NULL : &m->spec->depth, "lean-reach",
            tw_format(arena, "from the high side of its mouth the mortise is %s deep along the tenon, and the longest cutter reaches %s", say(context, need), say(context, m->reach)),
            m->through ? "a longer cutter, or a blind tenon" : "a longer cutter, or a shorter tenon");
        if (!m->through) tw_plan_fix(context, plan, &m->spec->depth, "Make the tenon", m->l - (need - m->reach), "long",
            TW_ROUND_DOWN);
        else tw_plan_fix_word(context, plan, "through", "no", "Let the tenon end inside");
    }
    if (m->through && m->proud > 0.0 && m->proud < m->lean.end_corner - HAIR_MM)
        tw_plan_finding(context, plan, TW_CARE, &m->spec->proud, "proud-slanted",
            tw_format(arena, "the end of the tenon leans with it: %s proud in the middle, its short corner stays %s below the surface", say(context, m->proud),
                      say(context, m->lean.end_corner - m->proud)),
            tw_format(arena, "at least %s, or leave `proud` out: it is then planed flush", say(context, m->lean.end_corner)));
}

void tw_mortise_lean_check(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    if (m->lean.half_turn && m->spec->at.count < 2)
        tw_find(context->findings, TW_CARE, m->spec->half_turn.place, "key-idle", plan->joint->name,
            "`half turn` turns every second place, but there is only one",
                "leave `half turn` out, or give a second place under `at`");
    if (m->lean.half_turn && m->haunched)
        tw_find(context->findings, TW_HALT, m->spec->half_turn.place, "half-turn-haunch", plan->joint->name,
            "a haunch lies towards the nearest end, and cannot be turned by the place", "leave `half turn` out");
    if (!m->lean.leans) return;
    check_steep(context, plan, m);
    check_company(context, plan, m);
    check_shoulder(context, plan, m);
    check_out(context, plan, m);
}

bool tw_mortise_lean_possible(const tw_mortise *m)
{
    if (m->lean.half_turn && m->haunched) return false;
    if (!m->lean.leans) return true;
    return m->lean.tilt < STEEP_RAD + 1e-9 && !m->pair && !m->haunched && !m->pegged && !m->round && m->sawn
        && tw_mortise_shoulder_room(m) > 0.0;
}
