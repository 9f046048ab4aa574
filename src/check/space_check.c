// SPDX-License-Identifier: GPL-3.0-or-later
/* What the placing in space finds: loops that stay open, pieces that stand in each other, nets apart, what cannot be put
 * together or taken apart. Findings that would be told of each of many alike pieces are told once for their kinds. */
#include "check/check.h"
#include "joint/fix.h"

#include <string.h>

#define NAMED_MOST 8     // pieces that one finding names
#define NETS_TOLD 4      // nets apart that are told one by one

static const char *piece_name(const tw_joint_context *context, const tw_space *space, int instance)
{
    return tw_instance_name(context->arena, context->job, &space->instances[instance]);
}

static const char *list_of(tw_joint_context *context, const tw_space *space, const int *items, int count, const char *between)
{
    const char *text = "";
    int shown = count > NAMED_MOST ? NAMED_MOST - 1 : count;
    for (int i = 0; i < shown; i++)
        text = tw_format(context->arena, "%s%s%s", text, i ? between : "", piece_name(context, space, items[i]));
    return shown < count ? tw_format(context->arena, "%s%sand %d more", text, between, count - shown) : text;
}

static double degrees_of(const tw_ring *ring) { return tw_degrees(ring->open_rad); }

static void fix_ring(tw_joint_context *context, const tw_joint_plan *plans, const tw_ring *ring)
{
    for (int i = 0; i < ring->mend_count; i++) {
        const tw_mend *mend = &ring->mends[i];
        if (mend->plan >= 0) tw_plan_fix_place_by(context, &plans[mend->plan], mend->place, mend->change_mm);
        else tw_piece_fix_size(context, mend->piece, "length", context->job->pieces[mend->piece].length.value + mend->change_mm,
            TW_ROUND_NOT);
    }
}

static void check_rings(tw_joint_context *context, const tw_joint_plan *plans, const tw_space *space)
{
    tw_arena *arena = context->arena;
    for (size_t i = 0; i < space->ring_count; i++) {
        const tw_ring *ring = &space->rings[i];
        bool by_angle = ring->open_rad > TW_LOOP_OPEN_RAD;
        if (ring->open_mm <= TW_LOOP_OPEN_MM && !by_angle) continue;
        const tw_joint *joint = plans[space->ties[ring->tie].plan].joint;
        const char *turned = by_angle ? tw_format(arena, " and turned by %.2f degrees", degrees_of(ring)) : "";
        tw_find(context->findings, TW_HALT, joint->place, "loop-open", joint->name,
            tw_format(arena, "the loop %s does not close: the last joint stands %s off%s", list_of(context, space, ring->around, ring->around_count, " - "),
                      tw_opening_words(arena, context->job, ring->open_mm), turned), ring->remedy);
        fix_ring(context, plans, ring);
    }
}

/* ---- clashes ---- */

static bool told_before(const tw_space *space, size_t index)
{
    const tw_clash *clash = &space->clashes[index];
    for (size_t i = 0; i < index; i++) {
        const tw_clash *other = &space->clashes[i];
        if (other->sure == clash->sure && space->instances[other->a].piece == space->instances[clash->a].piece &&
            space->instances[other->b].piece == space->instances[clash->b].piece) return true;
    }
    return false;
}

static void check_clashes(tw_joint_context *context, const tw_space *space)
{
    tw_arena *arena = context->arena;
    enum { LOOKED_AT = 200 };  // pairs: beyond that there is more amiss than a list could tell
    for (size_t i = 0; i < space->clash_count && i < LOOKED_AT; i++) {
        const tw_clash *clash = &space->clashes[i];
        if (told_before(space, i)) continue;
        const tw_piece *piece = &context->job->pieces[space->instances[clash->a].piece];
        const char *a = piece_name(context, space, clash->a), *b = piece_name(context, space, clash->b);
        if (clash->sure)
            tw_find(context->findings, TW_HALT, piece->place, "pieces-collide", piece->name,
                tw_format(arena, "%s and %s stand %s into each other, and no joint joins them", a, b, tw_say(context, clash->deep_mm)),
                "move a joint, change a length or a width, or join them");
        else
            tw_find(context->findings, TW_CARE, piece->place, "pieces-may-collide", piece->name,
                tw_format(arena, "%s and %s stand up to %s into each other unless a cut with curves makes room", a, b, tw_say(context, clash->deep_mm)),
                "lay them out on the rod at full size there");
    }
}

/* ---- parts of joints ---- */

static const char *part_words(const tw_joint_context *context, const tw_joint_plan *plans, const tw_space *space, int tie, int part)
{
    const tw_joint_plan *plan = &plans[space->ties[tie].plan];
    const char *name = plan->parts[part].name;
    return strstr(name, plan->joint->name) ? tw_format(context->arena, "the %s", name) : tw_format(context->arena, "the %s of %s", name, plan->joint->name);
}

/* The same part of the same joint, and the same kind of other. */
static bool hindrance_told(const tw_space *space, size_t index)
{
    const tw_hindrance *h = &space->hindrances[index];
    for (size_t i = 0; i < index; i++) {
        const tw_hindrance *o = &space->hindrances[i];
        if (o->way != h->way || space->ties[o->tie].plan != space->ties[h->tie].plan || o->part != h->part || (o->other < 0) != (h->other < 0)) continue;
        if (h->other >= 0 ? space->instances[o->other].piece == space->instances[h->other].piece
                          : space->ties[o->other_tie].plan == space->ties[h->other_tie].plan && o->other_part == h->other_part) return true;
    }
    return false;
}

static void check_hindrances(tw_joint_context *context, const tw_joint_plan *plans, const tw_space *space)
{
    tw_arena *arena = context->arena;
    enum { LOOKED_AT = 200 };
    for (size_t i = 0; i < space->hindrance_count && i < LOOKED_AT; i++) {
        const tw_hindrance *h = &space->hindrances[i];
        if (hindrance_told(space, i)) continue;
        const tw_joint *joint = plans[space->ties[h->tie].plan].joint;
        const char *part = part_words(context, plans, space, h->tie, h->part);
        const char *other = h->other >= 0 ? piece_name(context, space, h->other) : part_words(context, plans, space, h->other_tie, h->other_part);
        if (h->way)
            tw_find(context->findings, TW_CARE, joint->place, "part-way-barred", joint->name, tw_format(arena, "%s stands in the way by which %s goes in and comes out", other, part),
                tw_format(arena, "put %s on last and take it off first; or move one of the two joints", other));
        else
            tw_find(context->findings, TW_HALT, joint->place, "part-collides", joint->name,
                tw_format(arena, "%s and %s stand %s into each other", part, other, tw_say(context, h->deep_mm)), "move one of the two joints, or let the part stand out less or to another side");
    }
}

/* ---- nets ---- */

static const char *net_words(tw_joint_context *context, const tw_space *space, const tw_net *net)
{
    const char *name = piece_name(context, space, net->first);
    return net->count == 1 ? name : tw_format(context->arena, "%s and %d more", name, net->count - 1);
}

static void check_apart(tw_joint_context *context, const tw_space *space)
{
    if (space->net_count < 2 || space->tie_count == 0) return;
    tw_arena *arena = context->arena;
    const char *base = piece_name(context, space, space->nets[0].first), *others = "";
    int shown = space->net_count - 1 > NETS_TOLD ? NETS_TOLD - 1 : space->net_count - 1;
    for (int i = 1; i <= shown; i++) others = tw_format(arena, "%s%s%s", others, i > 1 ? "; " : "", net_words(context, space, &space->nets[i]));
    if (shown < space->net_count - 1) others = tw_format(arena, "%s; and %d more groups", others, space->net_count - 1 - shown);
    tw_find(context->findings, TW_NOTE, context->job->pieces[space->instances[space->nets[1].first].piece].place, "stands-apart", "",
        tw_format(arena, "no joint binds to %s: %s; drawn beside it", base, others), "");
}

static tw_place place_of(const tw_joint_context *context, const tw_space *space, int instance)
{
    return context->job->pieces[space->instances[instance].piece].place;
}

static void check_order(tw_joint_context *context, const tw_space *space, const tw_net *net)
{
    tw_arena *arena = context->arena;
    if (net->stuck_count > 0)
        tw_find(context->findings, TW_HALT, place_of(context, space, net->stuck[0]), "cannot-be-assembled", "",
            tw_format(arena, "%s can never be put together: none of them can come to the others the way its joints ask, past what stands",
                      list_of(context, space, net->stuck, net->stuck_count, ", ")),
            "let one of them come from another side, or join it with a loose part");
    else if (net->locked_count > 0)
        tw_find(context->findings, TW_CARE, place_of(context, space, net->locked[0]), "dry-joint-locked", "",
            tw_format(arena, "%s have dry joints that never come apart: the glued ones lock them in", list_of(context, space, net->locked, net->locked_count, ", ")),
            "leave one of the glued joints dry, or glue them all");
    if (!net->ordered && net->closed && net->clear && net->count > TW_ORDER_PIECES_MOST)
        tw_find(context->findings, TW_NOTE, place_of(context, space, net->first), "order-not-sought", "",
            tw_format(arena, "the order of taking apart is sought for at most %d pieces that hang together; here are %d", TW_ORDER_PIECES_MOST, net->count), "");
}

void tw_check_space(tw_joint_context *context, const tw_joint_plan *plans, const tw_space *space)
{
    if (space->too_many) {
        tw_find(context->findings, TW_NOTE, (tw_place){ 0 }, "not-placed", "",
            tw_format(context->arena, "a set of more than %d pieces is not placed in space", TW_INSTANCES_MOST), "");
        return;
    }
    check_rings(context, plans, space);
    check_clashes(context, space);
    check_hindrances(context, plans, space);
    check_apart(context, space);
    for (int i = 0; i < space->net_count; i++) check_order(context, space, &space->nets[i]);
}
