// SPDX-License-Identifier: GPL-3.0-or-later
/* Walks the net of joints from one piece on, breadth first.
 *
 * A bond is all that one joint of the job says of one pair of kinds: E ends, K places, and a meeting for each end in each
 * place. (Of a lap, the ends are the places of the piece that lies over.) Each mover has E free ends, each base K free places. When a free end is looked at, its place is sought in this order:
 *   1  the place that the rule of counts gives (space.h), if its piece stands already and all but right (NEAR_MM)
 *   2  a free place of a piece that stands all but right, the nearest first
 *   3  the place by the rule, if its piece is not placed yet; then that of the first piece that is not
 *   4  the place by the rule, however far off; then the nearest free place
 * and likewise for the free ends when a free place is looked at. Where 1, 2 or 4 meet a piece that stands, a loop closes. */
#include <assert.h>
#include <math.h>

#include "space/parts.h"

#define NEAR_MM 50.0          // a wrong length is seldom worse: beyond it another of the alike pieces is meant
#define LOOKED_AT_MOST 4000   // pieces of a net among which a place is sought

typedef struct bond {
    int         plan, mover, base;      // pieces
    struct { tw_face end; int place; } ends[TW_PLACES_MOST];  // an end of the mover, or one of its own places
    int         end_count;
    int         places[TW_PLACES_MOST];
    int         place_count;
    const tw_meeting **met;             // [end_count * place_count]
    int        *mover_tie, *base_tie;   // [movers * end_count], [bases * place_count]: -1 free
} bond;

typedef struct walker {
    tw_placing *p;
    bond       *bonds;
    size_t      bond_count, bond_room;
    int        *bonds_of, *bonds_start; // bonds of piece k: bonds_of[bonds_start[k]] to bonds_of[bonds_start[k + 1] - 1]
    int        *queue, queue_count;     // instances of the net in hand, in the order in which they were reached
} walker;

static int count_of(const walker *w, int piece) { return w->p->first_of[piece + 1] - w->p->first_of[piece]; }

/* ---- bonds ---- */

static int index_of(const int *items, int count, int item)
{
    for (int i = 0; i < count; i++)
        if (items[i] == item) return i;
    return -1;
}

static int end_index(const bond *b, const tw_meeting *m)
{
    for (int i = 0; i < b->end_count; i++)
        if (b->ends[i].end == m->end && b->ends[i].place == m->mover_place) return i;
    return -1;
}

/* The left end first, then in the order of the job's list. */
static bool add_end(bond *b, const tw_meeting *m)
{
    if (end_index(b, m) >= 0) return true;
    if (b->end_count == TW_PLACES_MOST) return false;
    int at = b->end_count++;
    for (; at > 0 && (b->ends[at - 1].end > m->end || (b->ends[at - 1].end == m->end && b->ends[at - 1].place > m->mover_place)); at--)
        b->ends[at] = b->ends[at - 1];
    b->ends[at].end = m->end;
    b->ends[at].place = m->mover_place;
    return true;
}

static bool has_bond(const walker *w, int plan, const tw_meeting *m)
{
    for (size_t i = w->bond_count; i > 0 && w->bonds[i - 1].plan == plan; i--)
        if (w->bonds[i - 1].mover == m->mover && w->bonds[i - 1].base == m->base) return true;
    return false;
}

static bool gather(tw_arena *arena, bond *b, const tw_joint_plan *plan)
{
    for (size_t i = 0; i < plan->meeting_count; i++) {
        const tw_meeting *m = &plan->meetings[i];
        if (m->mover != b->mover || m->base != b->base) continue;
        assert(m->end < TW_FACE_COUNT && tw_pose_is_rigid(m->pose));
        if (!add_end(b, m)) return false;
        if (index_of(b->places, b->place_count, m->place) >= 0) continue;
        if (b->place_count == TW_PLACES_MOST) return false;
        b->places[b->place_count++] = m->place;
    }
    b->met = TW_NEW_ARRAY(arena, const tw_meeting *, (size_t)(b->end_count * b->place_count));
    for (size_t i = 0; i < plan->meeting_count; i++) {
        const tw_meeting *m = &plan->meetings[i];
        if (m->mover != b->mover || m->base != b->base) continue;
        b->met[end_index(b, m) * b->place_count + index_of(b->places, b->place_count, m->place)] = m;
    }
    for (int i = 0; i < b->end_count * b->place_count; i++)
        if (!b->met[i]) return false;
    return true;
}

static int *all_free(tw_arena *arena, int count)
{
    int *ties = TW_NEW_ARRAY(arena, int, (size_t)count);
    for (int i = 0; i < count; i++) ties[i] = -1;
    return ties;
}

/* A joint whose counts do not agree has a halt of its own: nothing of it is placed. */
static void add_bond(walker *w, int plan, const tw_meeting *m)
{
    tw_arena *arena = w->p->arena;
    bond b = { .plan = plan, .mover = m->mover, .base = m->base };
    if (!gather(arena, &b, &w->p->plans[plan])) return;
    int ends = count_of(w, b.mover) * b.end_count, places = count_of(w, b.base) * b.place_count;
    if (ends != places) return;
    b.mover_tie = all_free(arena, ends);
    b.base_tie = all_free(arena, places);
    tw_array_make_room(arena, &w->bonds, w->bond_count, &w->bond_room, sizeof b);
    w->bonds[w->bond_count++] = b;
}

static void sort_bonds_by_piece(walker *w)
{
    int pieces = w->p->job->piece_count;
    w->bonds_start = TW_NEW_ARRAY(w->p->arena, int, (size_t)pieces + 2);
    w->bonds_of = TW_NEW_ARRAY(w->p->arena, int, 2 * w->bond_count + 1);
    for (size_t i = 0; i < w->bond_count; i++) {
        w->bonds_start[w->bonds[i].mover + 2]++;
        w->bonds_start[w->bonds[i].base + 2]++;
    }
    for (int k = 2; k < pieces + 2; k++) w->bonds_start[k] += w->bonds_start[k - 1];
    for (size_t i = 0; i < w->bond_count; i++) {
        w->bonds_of[w->bonds_start[w->bonds[i].mover + 1]++] = (int)i;
        w->bonds_of[w->bonds_start[w->bonds[i].base + 1]++] = (int)i;
    }
}

/* ---- ties ---- */

/* A free end in a free place: indices among the bond's movers and bases, from 0. */
typedef struct choice { int mover, end, base, place; } choice;

static int *tie_at_end(const bond *b, choice c) { return &b->mover_tie[c.mover * b->end_count + c.end]; }
static int *tie_at_place(const bond *b, choice c) { return &b->base_tie[c.base * b->place_count + c.place]; }
static bool is_free(const bond *b, choice c) { return *tie_at_end(b, c) < 0 && *tie_at_place(b, c) < 0; }
static const tw_meeting *met_of(const bond *b, choice c) { return b->met[c.end * b->place_count + c.place]; }

/* The pose that the meeting gives the one, the other standing where it stands. */
static tw_pose pose_by(const walker *w, const bond *b, choice c, bool of_mover)
{
    const tw_space *space = w->p->space;
    const tw_meeting *met = met_of(b, c);
    if (of_mover) return tw_pose_compose(space->instances[w->p->first_of[b->base] + c.base].pose, met->pose);
    return tw_pose_compose(space->instances[w->p->first_of[b->mover] + c.mover].pose, tw_pose_inverse(met->pose));
}

static void tie(walker *w, int bond_index, choice c, bool reaches_mover)
{
    tw_placing *p = w->p;
    tw_space *space = p->space;
    bond *b = &w->bonds[bond_index];
    int mover = p->first_of[b->mover] + c.mover, base = p->first_of[b->base] + c.base, index = (int)space->tie_count;
    int from = reaches_mover ? base : mover, to = reaches_mover ? mover : base;
    tw_pose pose = pose_by(w, b, c, reaches_mover);
    bool placed = space->instances[to].net >= 0;
    tw_array_make_room(p->arena, &space->ties, space->tie_count, &space->tie_room, sizeof *space->ties);
    space->ties[space->tie_count++] = (tw_tie){ .plan = b->plan, .meeting = met_of(b, c), .mover = mover, .base = base, .closes = placed };
    *tie_at_end(b, c) = *tie_at_place(b, c) = index;
    if (placed) {
        tw_ring_add(p, index, to, pose);
        return;
    }
    space->instances[to].net = space->instances[from].net;
    space->instances[to].pose = pose;
    p->tie_of[to] = index;
    p->depth[to] = p->depth[from] + 1;
    w->queue[w->queue_count++] = to;
}

/* ---- which with which ---- */

/* One free end (of_mover false: its place is sought) or one free place (of_mover true: the end for it). */
typedef struct search { const walker *w; const bond *b; choice known; bool of_mover; int net; } search;

static int sought_piece(const search *s) { return s->of_mover ? s->b->mover : s->b->base; }

static choice with(const search *s, int item, int slot)
{
    choice c = s->known;
    if (s->of_mover) { c.mover = item; c.end = slot; }
    else { c.base = item; c.place = slot; }
    return c;
}

static choice by_rule(const search *s)
{
    int ends = s->b->end_count, places = s->b->place_count;
    if (s->of_mover) return with(s, s->known.base / ends * places + s->known.place, s->known.base % ends);
    return with(s, s->known.mover / places * ends + s->known.end, s->known.mover % places);
}

static const tw_instance *sought(const search *s, choice c)
{
    return &s->w->p->space->instances[s->w->p->first_of[sought_piece(s)] + (s->of_mover ? c.mover : c.base)];
}

static double off_mm(const search *s, choice c)
{
    tw_size size = tw_piece_size(&s->w->p->job->pieces[sought_piece(s)]);
    return tw_pose_distance_mm(pose_by(s->w, s->b, c, s->of_mover), sought(s, c)->pose, size);
}

/* The free one among the pieces of the net that stands nearest to right; its distance, infinity when there is none. */
static double nearest_placed(const search *s, choice *nearest)
{
    double least = INFINITY;
    int slots = s->of_mover ? s->b->end_count : s->b->place_count;
    int first = s->w->p->first_of[sought_piece(s)], next = s->w->p->first_of[sought_piece(s) + 1];
    for (int i = 0; i < s->w->queue_count && i < LOOKED_AT_MOST; i++) {
        if (s->w->queue[i] < first || s->w->queue[i] >= next) continue;
        for (int slot = 0; slot < slots; slot++) {
            choice c = with(s, s->w->queue[i] - first, slot);
            double off = is_free(s->b, c) ? off_mm(s, c) : INFINITY;
            if (off < least) { least = off; *nearest = c; }
        }
    }
    return least;
}

static bool first_not_placed(const search *s, choice *found)
{
    choice rule = by_rule(s);
    for (int i = 0; i < count_of(s->w, sought_piece(s)); i++) {
        choice c = with(s, i, s->of_mover ? rule.end : rule.place);
        if (sought(s, c)->net >= 0 || !is_free(s->b, c)) continue;
        *found = c;
        return true;
    }
    return false;
}

static bool find(const search *s, choice *found)
{
    choice rule = by_rule(s), nearest = rule;
    bool free_by_rule = is_free(s->b, rule), stands = sought(s, rule)->net == s->net;
    *found = rule;
    if (free_by_rule && stands && off_mm(s, rule) <= NEAR_MM) return true;
    double least = nearest_placed(s, &nearest);
    if (least <= NEAR_MM) { *found = nearest; return true; }
    if (free_by_rule && sought(s, rule)->net < 0) return true;
    if (first_not_placed(s, found)) return true;
    *found = rule;
    if (free_by_rule && stands) return true;
    *found = nearest;
    return least < INFINITY;
}

static void look_from(walker *w, int instance)
{
    const tw_instance *here = &w->p->space->instances[instance];
    for (int k = w->bonds_start[here->piece]; k < w->bonds_start[here->piece + 1]; k++) {
        const bond *b = &w->bonds[w->bonds_of[k]];
        bool mover = b->mover == here->piece;
        for (int slot = 0; slot < (mover ? b->end_count : b->place_count); slot++) {
            choice known = mover ? (choice){ here->number - 1, slot, 0, 0 } : (choice){ 0, 0, here->number - 1, slot }, found;
            if ((mover ? *tie_at_end(b, known) : *tie_at_place(b, known)) >= 0) continue;
            search s = { w, b, known, !mover, here->net };
            if (find(&s, &found)) tie(w, w->bonds_of[k], found, !mover);
        }
    }
}

static void walk_net(walker *w, int first)
{
    tw_space *space = w->p->space;
    w->queue_count = 0;
    w->queue[w->queue_count++] = first;
    tw_net *net = &space->nets[space->net_count];
    *net = (tw_net){ .first = first, .closed = true, .clear = true };
    space->instances[first].net = space->net_count++;
    space->instances[first].pose = tw_pose_home();
    for (int i = 0; i < w->queue_count; i++) look_from(w, w->queue[i]);
    net->count = w->queue_count;
}

/* The job's base piece; else the first piece that has a bond; else the first. */
static int base_piece(const walker *w)
{
    const tw_job *job = w->p->job;
    if (job->base.index >= 0) return job->base.index;
    for (int k = 0; k < job->piece_count; k++)
        if (w->bonds_start[k + 1] > w->bonds_start[k]) return k;
    return 0;
}

void tw_space_walk(tw_placing *p)
{
    walker w = { .p = p };
    tw_space *space = p->space;
    for (int i = 0; i < p->plan_count; i++)
        for (size_t m = 0; m < p->plans[i].meeting_count; m++)
            if (!has_bond(&w, i, &p->plans[i].meetings[m])) add_bond(&w, i, &p->plans[i].meetings[m]);
    sort_bonds_by_piece(&w);
    w.queue = TW_NEW_ARRAY(p->arena, int, (size_t)space->instance_count);
    space->nets = TW_NEW_ARRAY(p->arena, tw_net, (size_t)space->instance_count);
    walk_net(&w, p->first_of[base_piece(&w)]);
    for (int i = 0; i < space->instance_count; i++)
        if (space->instances[i].net < 0) walk_net(&w, i);
}
