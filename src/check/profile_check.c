// SPDX-License-Identifier: GPL-3.0-or-later
/* What a profile does to the joints of its piece, and to the pieces that stand against it.
 *
 * A profile's cut is seen as the outline that it is, on the face that it is cut from; what it is held against (a joint's cut, a
 * mate's blank) as the block around it, which in that view is a rectangle and a range of depths. Where the ranges share
 * something, outline and rectangle either share an area, or lie apart by the least of
 *     the distances from the rectangle's corners to the outline,
 *     the distances from the outline's vertices, and the places where its arcs run level or upright, to the rectangle,
 * for nothing else of a line or an arc can be nearest to a rectangle's side. Round ends of mortises count as square. */
#include "check/check.h"
#include "joint/fix.h"

#include <math.h>
#include <stdlib.h>

#include "joint/words.h"

#define TOUCH_MM 0.05           // pieces nearer than this stand against each other
#define SHARED_LEAST_MM2 1e-3   // less than this only touches
#define STRAIGHT 1e-9           // a piece that lies square to the other, by the components of its axes
#define PAIRS_MOST 20000000     // as for cuts that meet

typedef struct joint_cut { int piece, plan, index; } joint_cut;

typedef struct profiles_check {
    tw_joint_context    *context;
    const tw_joint_plan *plans;
    int                  plan_count;
    joint_cut           *cuts; size_t cut_count;  // of joints, then of profiles, by piece and then by plan
    long                 pairs;
} profiles_check;

/* ---- what a profile is ---- */

static bool is_kind(const tw_joint_plan *plan,
    const char *kind) { return tw_text_is(tw_text_of(tw_joint_kinds[plan->joint->kind]->format.kind), kind); }
static bool is_arris(const tw_joint_plan *plan) { return is_kind(plan, "chamfer") || is_kind(plan, "round-over"); }

static bool has_tusks(const tw_joint_plan *plan)
{
    for (size_t i = 0; i < plan->part_count; i++)
        for (const char *at = plan->parts[i].name; *at; at++)
            if (at[0] == 't' && at[1] == 'u' && at[2] == 's' && at[3] == 'k') return true;
    return false;
}

/* ---- outline and block ---- */

typedef struct seen_block { tw_box box; double from_mm, to_mm; } seen_block;  // on a face, and how deep behind it

static seen_block see(tw_size size, tw_face face, tw_block block)
{
    tw_spot a = tw_face_place(size, face, block.least), b = tw_face_place(size, face, block.most);
    return (seen_block){ { tw_min(a.x, b.x), tw_min(a.y, b.y), tw_max(a.x, b.x), tw_max(a.y, b.y) }, tw_min(a.z, b.z),
        tw_max(a.z, b.z) };
}

static double from_box(tw_box box, tw_point p)
{
    double dx = tw_max(tw_max(box.x0 - p.x, p.x - box.x1), 0.0), dy = tw_max(tw_max(box.y0 - p.y, p.y - box.y1), 0.0);
    return hypot(dx, dy);
}

/* The places of an edge that can be nearest to a box: its start, and of an arc where it runs level or upright. */
static double edge_from_box(tw_box box, tw_vertex from, tw_vertex to)
{
    double least = from_box(box, (tw_point){ from.x, from.y });
    tw_edge edge = tw_edge_of(from, to);
    if (edge.straight) return least;
    for (int i = 0; i < 4; i++) {
        double angle = i * TW_PI / 2.0, sweep = edge.sweep_rad > 0.0 ? angle - edge.start_rad : edge.start_rad - angle;
        sweep -= 2.0 * TW_PI * floor(sweep / (2.0 * TW_PI));
        if (sweep > fabs(edge.sweep_rad)) continue;
        least = tw_min(least, from_box(box, (tw_point){ edge.centre.x + edge.radius_mm * cos(angle),
            edge.centre.y + edge.radius_mm * sin(angle) }));
    }
    return least;
}

static double apart_mm(tw_outline outline, tw_box box)
{
    double least = INFINITY;
    for (int i = 0; i < 4; i++) least = tw_min(least, tw_outline_distance(outline, (tw_point){ i % 2 ? box.x1 : box.x0, i / 2
        ? box.y1 : box.y0 }));
    for (int l = 0; l < outline.count; l++)
        for (int i = 0; i < outline.loops[l].count; i++)
            least = tw_min(least, edge_from_box(box, outline.loops[l].vertices[i],
                outline.loops[l].vertices[(i + 1) % outline.loops[l].count]));
    return least;
}

/* 0: they share wood; else how far apart they are as seen, infinity when they lie behind each other. */
static double between_mm(tw_arena *arena, tw_size size, const tw_cut *cut, tw_block block)
{
    seen_block b = see(size, cut->face, block);
    if (tw_min(b.to_mm, tw_cut_depth_mm(size, cut)) - tw_max(b.from_mm, cut->start_mm) <= 1e-6) return INFINITY;
    if (b.box.x1 - b.box.x0 <= 1e-6 || b.box.y1 - b.box.y0 <= 1e-6) return INFINITY;
    tw_outline rectangle = tw_outline_rectangle(arena, b.box.x0, b.box.y0, b.box.x1, b.box.y1);
    return tw_outline_common_area_mm2(arena, cut->outline, rectangle) > SHARED_LEAST_MM2 ? 0.0 : apart_mm(cut->outline, b.box);
}

/* ---- the joints of the piece ---- */

typedef struct nearest { double mm, at_mm; const tw_cut *profile, *other; } nearest;

static void look(profiles_check *c, const tw_joint_plan *profile, const tw_cut *other, nearest *best)
{
    tw_size size = tw_piece_size(&c->context->job->pieces[profile->piece]);
    for (size_t i = 0; i < profile->cut_count; i++)
        for (int loop = 0; loop < other->outline.count && ++c->pairs <= PAIRS_MOST; loop++) {
            tw_block block = tw_cut_block(size, other, loop);
            double mm = between_mm(c->context->arena, size, &profile->cuts[i], block);
            if (mm < best->mm) *best = (nearest){ mm, block.least.x, &profile->cuts[i], other };
        }
}

static const char *shorter_words(const tw_joint_plan *profile)
{
    if (is_arris(profile)) return "stop it short of the joint: `from` and `to`";
    if (is_kind(profile, "taper")) return "a shorter taper, that begins beyond the joint";
    if (is_kind(profile, "rounded end")) return "a smaller radius, or move the joint farther from the end";
    return "a lower or shorter arch, a shallower joint, or move the joint";
}

static double least_between_mm(const profiles_check *c) { return tw_customary(c->context, 6.0, 0.25); }  // common practice
static double bearing_mm(const profiles_check *c) { return tw_customary(c->context, 12.0, 0.5); }        // what a tusk's leg bears on: common practice

/* A lower arch. */
static void fix_rise(const profiles_check *c, const tw_joint_plan *profile, const nearest *n)
{
    const tw_amount *rise = tw_plan_amount_of(profile, "rise");
    if (rise) tw_plan_fix(c->context, profile, rise, "Let it rise", rise->value - (least_between_mm(c) - n->mm), "",
        TW_ROUND_DOWN);
}

static void say_of_joint(profiles_check *c, const tw_joint_plan *profile, const tw_joint_plan *joint, const nearest *n)
{
    tw_arena *arena = c->context->arena;
    const char *piece = c->context->job->pieces[profile->piece].name, *at = tw_say(c->context, n->at_mm);
    bool arris = is_arris(profile), tusk = arris && n->other->through && has_tusks(joint);
    if (n->mm <= 0.0) {
        tw_find(c->context->findings, arris ? TW_CARE : TW_HALT, profile->joint->place, arris ? "arris-meets-joint"
            : "profile-meets-joint", profile->joint->name,
            tw_format(arena, "in %s the %s meets the %s of %s, from about %s off the left end on%s", piece, n->profile->name,
                n->other->name, joint->joint->name, at,
                      arris ? ": a shoulder or a mouth there loses its sharp arris" : ""), shorter_words(profile));
        fix_rise(c, profile, n);
    } else if (tusk && n->mm < bearing_mm(c)) {
        tw_find(c->context->findings, TW_CARE, profile->joint->place, "arris-under-tusk", profile->joint->name,
            tw_format(arena, "in %s the %s leaves %s beside the %s of %s, where the tusk bears", piece, n->profile->name,
                tw_say(c->context, n->mm), n->other->name, joint->joint->name),
            tw_format(arena, "leave the arris sharp there (`from` and `to`), or keep %s", tw_say(c->context, bearing_mm(c))));
    } else if (!arris && n->mm < least_between_mm(c)) {
        tw_find(c->context->findings, TW_CARE, profile->joint->place, "profile-near-joint", profile->joint->name,
            tw_format(arena, "in %s only %s of wood is left between the %s and the %s of %s, which begins %s from the left end",
                piece, tw_say(c->context, n->mm), n->profile->name, n->other->name,
                      joint->joint->name, at), tw_format(arena, "leave %s: %s", tw_say(c->context, least_between_mm(c)),
                          shorter_words(profile)));
        fix_rise(c, profile, n);
    }
}

/* ---- other profiles of the piece ---- */

static bool share_wood(profiles_check *c, const tw_joint_plan *a, const tw_joint_plan *b)
{
    tw_size size = tw_piece_size(&c->context->job->pieces[a->piece]);
    for (size_t i = 0; i < a->cut_count; i++)
        for (size_t j = 0; j < b->cut_count && ++c->pairs <= PAIRS_MOST; j++) {
            const tw_cut *cut = &a->cuts[i], *other = &b->cuts[j];
            if (cut->face == other->face ? tw_outline_common_area_mm2(c->context->arena, cut->outline,
                other->outline) > SHARED_LEAST_MM2
                                         : between_mm(c->context->arena, size, cut, tw_cut_block(size, other,
                                             0)) <= 0.0) return true;
        }
    return false;
}

static void say_of_profile(profiles_check *c, const tw_joint_plan *profile, const tw_joint_plan *earlier)
{
    const tw_joint_plan *curve = is_arris(profile) ? earlier : profile, *arris = is_arris(profile) ? profile : earlier;
    tw_arena *arena = c->context->arena;
    const char *piece = c->context->job->pieces[profile->piece].name;
    if (is_arris(curve) || !share_wood(c, curve, arris)) return;
    if (is_arris(arris))
        tw_find(c->context->findings, TW_CARE, arris->joint->place, "arris-moved", arris->joint->name,
            tw_format(arena,
                "in %s %s takes the arris away along which %s runs: at the bench it follows the new arris, and drawings and volume show it on the old one",
                piece, curve->joint->name, arris->joint->name),
            "two profiles of the arris, before and after, or bear it in mind");
    else
        tw_find(c->context->findings, TW_CARE, profile->joint->place, "profiles-meet", profile->joint->name,
            tw_format(arena, "in %s %s and %s take the same wood in part", piece, profile->joint->name, earlier->joint->name),
                "see that the line that is left is the one you want, or part the two");
}

/* ---- pieces that stand against it ---- */

static bool lies_square(tw_pose pose)
{
    const tw_spot axes[] = { pose.x, pose.y, pose.z };
    for (int i = 0; i < 3; i++)
        if (tw_max(fabs(axes[i].x), tw_max(fabs(axes[i].y), fabs(axes[i].z))) < 1.0 - STRAIGHT) return false;
    return true;
}

static tw_block posed_block(tw_pose pose, tw_size size)
{
    tw_spot a = pose.at, b = tw_pose_apply(pose, (tw_spot){ size.length_mm, size.width_mm, size.thickness_mm });
    return (tw_block){ { tw_min(a.x, b.x) - TOUCH_MM, tw_min(a.y, b.y) - TOUCH_MM, tw_min(a.z, b.z) - TOUCH_MM },
                       { tw_max(a.x, b.x) + TOUCH_MM, tw_max(a.y, b.y) + TOUCH_MM, tw_max(a.z, b.z) + TOUCH_MM } };
}

static void check_standing(profiles_check *c, const tw_joint_plan *profile, const tw_joint_plan *joint)
{
    const tw_job *job = c->context->job;
    tw_size size = tw_piece_size(&job->pieces[profile->piece]);
    for (size_t m = 0; m < joint->meeting_count; m++) {
        const tw_meeting *meeting = &joint->meetings[m];
        bool base = meeting->base == profile->piece;
        if ((!base && meeting->mover != profile->piece) || !lies_square(meeting->pose)) continue;
        int other = base ? meeting->mover : meeting->base;
        tw_block block = posed_block(base ? meeting->pose : tw_pose_inverse(meeting->pose), tw_piece_size(&job->pieces[other]));
        for (size_t i = 0; i < profile->cut_count && ++c->pairs <= PAIRS_MOST; i++) {
            if (between_mm(c->context->arena, size, &profile->cuts[i], block) > 0.0) continue;
            bool slopes = is_kind(profile, "taper");
            tw_find(c->context->findings, slopes ? TW_HALT : TW_CARE, profile->joint->place, "profile-under-mate",
                profile->joint->name,
                tw_format(c->context->arena, "the %s of %s runs where %s stands against it (%s)%s", profile->cuts[i].name,
                    job->pieces[profile->piece].name, job->pieces[other].name, joint->joint->name,
                          slopes ? ": a shoulder does not close on a slope" : ": the joint shows a gap there"),
                              shorter_words(profile));
            return;
        }
    }
}

/* ---- the whole ---- */

static int by_piece(const void *left, const void *right)
{
    const joint_cut *a = left, *b = right;
    if (a->piece != b->piece) return a->piece < b->piece ? -1 : 1;
    if (a->plan != b->plan) return a->plan < b->plan ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static void gather(profiles_check *c)
{
    size_t most = 0;
    for (int p = 0; p < c->plan_count; p++) most += c->plans[p].cut_count;
    c->cuts = TW_NEW_ARRAY(c->context->arena, joint_cut, most + 1);
    for (int p = 0; p < c->plan_count; p++)
        for (size_t i = 0; i < c->plans[p].cut_count; i++) c->cuts[c->cut_count++] = (joint_cut){ c->plans[p].cuts[i].piece, p,
            (int)i };
    if (c->cut_count > 1) qsort(c->cuts, c->cut_count, sizeof *c->cuts, by_piece);
}

/* The first of the piece's cuts, by halving. */
static size_t first_of(const profiles_check *c, int piece)
{
    size_t low = 0, high = c->cut_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (c->cuts[middle].piece < piece) low = middle + 1;
        else high = middle;
    }
    return low;
}

static void check_profile(profiles_check *c, int index)
{
    const tw_joint_plan *profile = &c->plans[index];
    for (size_t i = first_of(c, profile->piece); i < c->cut_count && c->cuts[i].piece == profile->piece
        && c->cuts[i].plan < index;) {
        int other = c->cuts[i].plan;
        nearest n = { .mm = INFINITY };
        for (; i < c->cut_count && c->cuts[i].piece == profile->piece && c->cuts[i].plan == other; i++)
            if (!c->plans[other].profile) look(c, profile, &c->plans[other].cuts[c->cuts[i].index], &n);
        if (c->plans[other].profile) say_of_profile(c, profile, &c->plans[other]);
        else if (n.mm < INFINITY) say_of_joint(c, profile, &c->plans[other], &n);
        if (!c->plans[other].profile && n.mm > 0.0) check_standing(c, profile, &c->plans[other]);
    }
}

void tw_check_profiles(tw_joint_context *context, const tw_joint_plan *plans, int plan_count)
{
    if (context->job->profile_count == 0) return;
    profiles_check c = { .context = context, .plans = plans, .plan_count = plan_count };
    gather(&c);
    for (int p = 0; p < plan_count; p++)
        if (plans[p].profile && plans[p].cut_count > 0) check_profile(&c, p);
}
