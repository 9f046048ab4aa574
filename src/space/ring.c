// SPDX-License-Identifier: GPL-3.0-or-later
/* Loops: which pieces lie around one, by how much it stays open, and which one length would close it.
 *
 * Around the loop each piece q is entered at one joint and left at another. Where a joint sits along q is
 *     left end 0,  right end L_q,  a place of q: its `at`                                                  (1)
 * so a piece kind made longer by d shifts what follows by d times
 *     E = sum over its pieces around the loop of x_q (1 where it is left by its right end, -1 where entered)  (2)
 * and a place moved by d towards the right end by d times
 *     F = sum of x_q (1 where q is left by that place, -1 where entered)                                    (3)
 * With c the way by which the loop ends up off its start, d = -c.E / E.E mends it if c + d E is nothing. */
#include <math.h>
#include <string.h>

#include "space/parts.h"

#define MENDED_MM 0.05     // what may stay open after the remedy
#define IDLE 1e-6          // an effect smaller than this is none
#define REMEDIES_MOST 3    // that are told
#define KINDS_MOST 64      // different lengths and places of one loop that are tried

/* ---- who lies around ---- */

void tw_ring_add(tw_placing *p, int tie, int again, tw_pose reached)
{
    tw_space *space = p->space;
    int down = tw_tie_other(&space->ties[tie], again), up = again;
    int length = p->depth[down] + p->depth[again] + 2, head = 0, tail = length;
    int *around = TW_NEW_ARRAY(p->arena, int, (size_t)length), *rest = TW_NEW_ARRAY(p->arena, int, (size_t)length);
    while (down != up) {  // the deeper of the two climbs, until both meet
        bool climbs_down = p->depth[down] >= p->depth[up];
        if (climbs_down) rest[--tail] = down;
        else around[head++] = up;
        int *climber = climbs_down ? &down : &up;
        *climber = tw_tie_other(&space->ties[p->tie_of[*climber]], *climber);
    }
    tw_ring ring = { .tie = tie, .net = space->instances[again].net, .around = TW_NEW_ARRAY(p->arena, int, (size_t)length), .remedy = "" };
    ring.around[ring.around_count++] = down;
    for (int i = tail; i < length; i++) ring.around[ring.around_count++] = rest[i];
    for (int i = 0; i < head; i++) ring.around[ring.around_count++] = around[i];
    tw_pose stands = space->instances[again].pose;
    ring.open_mm = tw_pose_distance_mm(reached, stands, tw_instance_size(p, again));
    ring.open_rad = tw_pose_angle_rad(reached, stands);
    ring.open = tw_spot_less(reached.at, stands.at);
    if (ring.open_mm > TW_LOOP_OPEN_MM || ring.open_rad > TW_LOOP_OPEN_RAD) space->nets[ring.net].closed = false;
    tw_array_make_room(p->arena, &space->rings, space->ring_count, &space->ring_room, sizeof ring);
    space->rings[space->ring_count++] = ring;
}

/* ---- what would close it ---- */

/* A length of a piece kind (plan -1), or a place of a joint in its mortised piece. */
typedef struct lever { int piece, plan, place; tw_spot effect; } lever;
typedef struct levers { lever items[KINDS_MOST]; int count; } levers;

static void push(levers *all, int piece, int plan, int place, tw_spot effect)
{
    int i = 0;
    while (i < all->count && (all->items[i].piece != piece || all->items[i].plan != plan || all->items[i].place != place)) i++;
    if (i == KINDS_MOST) return;
    if (i == all->count) all->items[all->count++] = (lever){ piece, plan, place, { 0, 0, 0 } };
    all->items[i].effect = tw_spot_plus(all->items[i].effect, effect);
}

/* Piece q is left (sign 1) or entered (sign -1) by a tie. */
static void push_crossing(const tw_placing *p, levers *all, int q, const tw_tie *tie, double sign)
{
    const tw_instance *piece = &p->space->instances[q];
    tw_spot effect = tw_spot_times(piece->pose.x, sign);
    if (tie->mover == q && tie->meeting->end == TW_SIDE_RIGHT_END) push(all, piece->piece, -1, -1, effect);
    if (tie->base == q) push(all, piece->piece, tie->plan, tie->meeting->place, effect);
}

/* The tie between two neighbours around the loop. */
static const tw_tie *tie_between(const tw_placing *p, const tw_ring *ring, int a, int b)
{
    const tw_tie *ties = p->space->ties, *closing = &ties[ring->tie];
    if ((closing->mover == a && closing->base == b) || (closing->mover == b && closing->base == a)) return closing;
    int of_a = p->tie_of[a], of_b = p->tie_of[b];
    return of_a >= 0 && tw_tie_other(&ties[of_a], a) == b ? &ties[of_a] : &ties[of_b];
}

/* Two pieces with two joints between them: the one that is not the closing one. */
static const tw_tie *tree_tie(const tw_placing *p, int a, int b)
{
    int of_a = p->tie_of[a], of_b = p->tie_of[b];
    return of_a >= 0 && tw_tie_other(&p->space->ties[of_a], a) == b ? &p->space->ties[of_a] : &p->space->ties[of_b];
}

static levers levers_of(const tw_placing *p, const tw_ring *ring)
{
    levers all = { .count = 0 };
    int n = ring->around_count;
    for (int i = 0; i < n; i++) {
        int q = ring->around[i], before = ring->around[(i + n - 1) % n], after = ring->around[(i + 1) % n];
        const tw_tie *entered = tie_between(p, ring, before, q), *left = tie_between(p, ring, q, after);
        if (n == 2 && i == 0) left = tree_tie(p, q, after);
        if (n == 2 && i == 1) entered = tree_tie(p, before, q);
        push_crossing(p, &all, q, entered, -1.0);
        push_crossing(p, &all, q, left, 1.0);
    }
    return all;
}

static const char *say(const tw_placing *p, double length_mm) { return tw_length_text(p->arena, length_mm, p->job->figures); }

static const char *told(const tw_placing *p, const lever *l, double change)
{
    const tw_piece *piece = &p->job->pieces[l->piece];
    if (l->plan < 0)
        return tw_format(p->arena, "make %s %s %s, to %s", piece->name, say(p, fabs(change)), change > 0.0 ? "longer" : "shorter",
                         say(p, piece->length.value + change));
    return tw_format(p->arena, "move place %d of %s in %s by %s towards its %s end", l->place + 1, p->plans[l->plan].joint->name, piece->name,
                     say(p, fabs(change)), change > 0.0 ? "right" : "left");
}

/* Where a joint's place lies along its mortised piece, by the middle of the piece that is brought there. */
static double place_mm(const tw_placing *p, int plan, int place)
{
    const tw_joint_plan *of = &p->plans[plan];
    for (size_t i = 0; i < of->meeting_count; i++) {
        const tw_meeting *m = &of->meetings[i];
        const tw_piece *mover = &p->job->pieces[m->mover];
        if (m->place == place)
            return tw_pose_apply(m->pose, (tw_spot){ m->end == TW_SIDE_RIGHT_END ? mover->length.value : 0.0, mover->width.value / 2.0, mover->thickness.value / 2.0 }).x;
    }
    return NAN;
}

static bool is_on_piece(const tw_placing *p, const lever *l, double change)
{
    double to = place_mm(p, l->plan, l->place) + change;
    return !(to < 0.0 || to > p->job->pieces[l->piece].length.value);  // a place that is not known may be anywhere
}

/* Two places along one piece that close the loop when they change with each other. */
static const char *swap_words(const tw_placing *p, const tw_ring *ring, const levers *all)
{
    for (int i = 0; i < all->count; i++)
        for (int j = i + 1; j < all->count; j++) {
            const lever *a = &all->items[i], *b = &all->items[j];
            if (a->plan < 0 || b->plan < 0 || a->piece != b->piece) continue;
            double apart = place_mm(p, b->plan, b->place) - place_mm(p, a->plan, a->place);
            tw_spot moved = tw_spot_times(tw_spot_less(a->effect, b->effect), apart);
            if (!(tw_spot_size(tw_spot_plus(ring->open, moved)) <= MENDED_MM)) continue;
            const char *one = p->plans[a->plan].joint->name, *other = p->plans[b->plan].joint->name;
            return a->plan == b->plan ? tw_format(p->arena, "write places %d and %d of %s in the other order", a->place + 1, b->place + 1, one)
                                      : tw_format(p->arena, "let %s and %s change places in %s, or join both from the opposite sides", one, other, p->job->pieces[a->piece].name);
        }
    return NULL;
}

static void keep_mend(tw_ring *ring, const lever *l, double change)
{
    ring->mends[ring->mend_count++] = (tw_mend){ l->piece, l->plan, l->place, change };
}

static const char *remedy_of(const tw_placing *p, tw_ring *ring)
{
    if (fabs(ring->open_rad - TW_PI) < TW_LOOP_OPEN_RAD)
        return "one of the alike pieces would have to stand turned half round: write it as two pieces, a left and a right one, joined from opposite sides; "
               "or `half turn: yes` where a mortise and tenon has two places for it";
    if (ring->open_rad > TW_LOOP_OPEN_RAD)
        return "no length mends an angle: look at `from`, `lies` and the ends of these joints";
    levers all = levers_of(p, ring);
    const char *swapped = swap_words(p, ring, &all);
    if (swapped) return swapped;
    const char *text = "";
    int found = 0;
    ring->mends = TW_NEW_ARRAY(p->arena, tw_mend, REMEDIES_MOST);
    for (int of_places = 0; of_places < 2; of_places++)  // lengths first
        for (int i = 0; i < all.count && found < REMEDIES_MOST; i++) {
            const lever *l = &all.items[i];
            double square = tw_spot_product(l->effect, l->effect);
            if ((l->plan >= 0) != (of_places == 1) || square < IDLE) continue;
            double change = -tw_spot_product(ring->open, l->effect) / square;
            if (tw_spot_size(tw_spot_plus(ring->open, tw_spot_times(l->effect, change))) > MENDED_MM) continue;
            if (l->plan < 0 ? p->job->pieces[l->piece].length.value + change <= 0.0 : !is_on_piece(p, l, change)) continue;
            text = tw_format(p->arena, "%s%s%s", text, found++ ? "; or " : "", told(p, l, change));
            keep_mend(ring, l, change);
        }
    if (found) return text;
    return tw_format(p->arena, "no one length mends it: the way around ends up %s across, %s deep and %s in height off its start",
                     say(p, fabs(ring->open.x)), say(p, fabs(ring->open.y)), say(p, fabs(ring->open.z)));
}

void tw_rings_remedy(tw_placing *p)
{
    for (size_t i = 0; i < p->space->ring_count; i++) {
        tw_ring *ring = &p->space->rings[i];
        if (ring->open_mm > TW_LOOP_OPEN_MM || ring->open_rad > TW_LOOP_OPEN_RAD) ring->remedy = remedy_of(p, ring);
    }
}
