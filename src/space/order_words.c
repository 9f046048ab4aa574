// SPDX-License-Identifier: GPL-3.0-or-later
/* The steps in words. Taking apart: first what holds the joints is knocked out, then one removal after the other; removals
 * that follow each other and are alike are one step. Putting together is the same backwards, what is glued first. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "space/parts.h"

#define NAMED_MOST 6    // pieces that one list names
#define ALIKE_MOST 4    // alike removals that one step tells

typedef struct teller { tw_placing *p; tw_net *net; int index; } teller;

static int by_number(const void *left, const void *right)
{
    int a = *(const int *)left, b = *(const int *)right;
    return (a > b) - (a < b);
}

static const char *names(const teller *t, int *items, int count)
{
    const char *text = "";
    qsort(items, (size_t)count, sizeof *items, by_number);
    int shown = count > NAMED_MOST ? NAMED_MOST - 1 : count;
    for (int i = 0; i < shown; i++) {
        bool last = i == count - 1;
        text = tw_format(t->p->arena, "%s%s%s", text, i == 0 ? "" : last ? " and " : ", ",
                         tw_instance_name(t->p->arena, t->p->job, &t->p->space->instances[items[i]]));
    }
    return shown < count ? tw_format(t->p->arena, "%s and %d more", text, count - shown) : text;
}

static const char *travel_words(const teller *t, double travel_mm)
{
    return tw_length_text(t->p->arena, travel_mm, t->p->job->figures);
}

/* ---- what holds ---- */

/* A joint of the net that is held by something that can be knocked out, and how many of them there are. */
typedef struct holding { int plan, ties; const char *held_by; } holding;

static void count_tie(holding *all, int *count, const tw_tie *tie)
{
    int at = *count;
    while (at > 0 && all[at - 1].plan > tie->plan) at--;
    if (at > 0 && all[at - 1].plan == tie->plan) {
        all[at - 1].ties++;
        return;
    }
    for (int i = (*count)++; i > at; i--) all[i] = all[i - 1];
    all[at] = (holding){ tie->plan, 1, tie->meeting->held_by };
}

/* In the order of the job. */
static holding *holdings_of(const teller *t, int *count)
{
    const tw_placing *p = t->p;
    const int *members = p->by_net + p->net_start[t->index];
    int most = 0;
    for (int i = 0; i < t->net->count; i++) most += p->ties_at_count[members[i]];
    holding *all = TW_NEW_ARRAY(p->arena, holding, (size_t)most);
    *count = 0;
    for (int i = 0; i < t->net->count; i++)
        for (int k = 0; k < p->ties_at_count[members[i]]; k++) {
            const tw_tie *tie = &p->space->ties[p->ties_at[members[i]][k]];
            if (tie->mover == members[i] && !tie->meeting->for_good && tie->meeting->held_by[0]) count_tie(all, count, tie);
        }
    return all;
}

static tw_move freeing(const teller *t, const holding *held, bool out)
{
    const tw_joint_plan *joint = &t->p->plans[held->plan];
    int count = held->ties, length = (int)strlen(held->held_by);
    if (joint->part_count == 1 && joint->count > 0) count = held->ties * joint->parts[0].count / joint->count;
    tw_move m = { .frees = true, .plan = held->plan, .count = count };
    bool screwed = strcmp(held->held_by, "bolts") == 0;
    const char *verb = screwed ? (out ? "unscrew" : "tighten") : out ? "knock out" : "drive";
    if (count == 1 && held->held_by[length - 1] == 's') length--;  // one of them
    const char *number = count == 1 ? "" : tw_format(t->p->arena, "%d ", count);
    m.text = tw_format(t->p->arena, "%s the %s%.*s of %s", verb, number, length, held->held_by, joint->joint->name);
    return m;
}

/* ---- removals ---- */

static bool same_kinds(const teller *t, const int *a, int a_count, const int *b, int b_count)
{
    if (a_count != b_count) return false;
    for (int i = 0; i < a_count; i++)
        if (t->p->space->instances[a[i]].piece != t->p->space->instances[b[i]].piece) return false;
    return true;
}

static bool are_alike(const teller *t, const tw_removal *a, const tw_removal *b)
{
    return a->plan == b->plan && a->glued == b->glued && a->travel_mm == b->travel_mm && tw_spot_product(a->way, b->way) > 0.9998 &&
           same_kinds(t, a->moved, a->moved_count, b->moved, b->moved_count) && same_kinds(t, a->from, a->from_count, b->from, b->from_count);
}

static void sort_items(const tw_removal *removals, int count)
{
    for (int i = 0; i < count; i++) {
        qsort(removals[i].moved, (size_t)removals[i].moved_count, sizeof *removals[i].moved, by_number);
        qsort(removals[i].from, (size_t)removals[i].from_count, sizeof *removals[i].from, by_number);
    }
}

static const char *pair_words(const teller *t, const tw_removal *r, const char *between)
{
    return tw_format(t->p->arena, "%s%s %s %s", names(t, r->moved, r->moved_count), r->moved_count > 1 ? " together" : "", between,
                     names(t, r->from, r->from_count));
}

static tw_move moving(const teller *t, const tw_removal *alike, int count, bool apart, bool glue)
{
    const tw_removal *r = &alike[0];
    const char *between = apart ? "off" : "onto", *text = apart ? "draw" : glue ? "glue" : "put";
    tw_move m = { .plan = r->plan, .count = count, .way = apart ? r->way : tw_spot_times(r->way, -1.0), .travel_mm = r->travel_mm };
    for (int i = 0; i < count; i++) {
        m.moved_count += alike[i].moved_count;
        if (i < ALIKE_MOST) text = tw_format(t->p->arena, "%s%s %s", text, i ? ";" : "", pair_words(t, &alike[apart ? i : count - 1 - i], between));
    }
    if (count > ALIKE_MOST) text = tw_format(t->p->arena, "%s; and %d more likewise", text, count - ALIKE_MOST);
    m.text = tw_format(t->p->arena, "%s%s %s%s", text, count > 1 ? ":" : ",", tw_direction_words(t->p->arena, m.way),
                       apart ? tw_format(t->p->arena, ", at least %s", travel_words(t, r->travel_mm)) : "");
    m.moved = TW_NEW_ARRAY(t->p->arena, int, (size_t)m.moved_count);
    m.moved_count = 0;
    for (int i = 0; i < count; i++)
        for (int k = 0; k < alike[i].moved_count; k++) m.moved[m.moved_count++] = alike[i].moved[k];
    return m;
}

static void push_apart(const teller *t, tw_move m)
{
    tw_array_make_room(t->p->arena, &t->net->apart, t->net->apart_count, &t->net->apart_room, sizeof m);
    t->net->apart[t->net->apart_count++] = m;
}

static void push_together(const teller *t, tw_move m)
{
    tw_array_make_room(t->p->arena, &t->net->together, t->net->together_count, &t->net->together_room, sizeof m);
    t->net->together[t->net->together_count++] = m;
}

static void tell_apart(const teller *t, const tw_removal *removals, int count)
{
    for (int i = 0, next; i < count; i = next) {
        for (next = i + 1; next < count && are_alike(t, &removals[i], &removals[next]); next++) {}
        push_apart(t, moving(t, &removals[i], next - i, true, false));
    }
}

static void tell_together(const teller *t, const tw_removal *removals, int count)
{
    for (int i = count, next; i > 0; i = next) {
        for (next = i - 1; next > 0 && are_alike(t, &removals[i - 1], &removals[next - 1]); next--) {}
        push_together(t, moving(t, &removals[next], i - next, false, removals[i - 1].glued));
    }
}

void tw_order_tell(tw_placing *p, tw_net *net, int net_index, const tw_removal *removals, int count, const tw_removal *gluings, int gluing_count)
{
    teller t = { p, net, net_index };
    bool loose = gluing_count < 0;  // the glued ones cannot be glued up before: all of it in one order
    int held_count;
    const holding *held = holdings_of(&t, &held_count);
    sort_items(removals, count);
    sort_items(gluings, loose ? -gluing_count : gluing_count);
    for (int i = 0; i < held_count; i++) push_apart(&t, freeing(&t, &held[i], true));
    tell_apart(&t, removals, count);
    tell_together(&t, gluings, loose ? -gluing_count : gluing_count);
    if (!loose) tell_together(&t, removals, count);
    for (int i = 0; i < held_count; i++) push_together(&t, freeing(&t, &held[i], false));
}
