// SPDX-License-Identifier: GPL-3.0-or-later
/* From the copied works of all joints to the fewest templates: works whose wanted cut is the same share one, and so do
 * mirror images where the machine takes a template either face outward (the second hand uses it from the other side).
 *
 * Works that say that they share their path do so too where cutter and cut differ but the template comes out the same: a
 * straight cutter that clears the waste, and the dovetail cutter after it.
 *
 * Two cuts are the same when their borders lie within SAME_MM of each other. Templates are kept in a table by the size of
 * the cut, rounded to CELL_MM; sizes within SAME_MM of a rounding border are looked up in both cells, so no pair is missed and
 * the time grows with the number of works, not with its square. */
#include "template/parts.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define SAME_MM 1e-6
#define CELL_MM 0.01
#define BUCKETS_LEAST 64

typedef struct entry {
    tw_template t;
    int    plan, work;      // whose choice made it: the first
    tw_box box;
    int    next;            // in its bucket, -1 at the end
    int    mirror_of;       // a template that it is the mirror image of, -1 none
    size_t works_room, turned_room;
} entry;

typedef struct collection {
    const tw_template_context *context;
    entry  *entries; size_t count, room;
    int    *buckets; size_t bucket_count;
    tw_template_use **uses;
} collection;

/* ---- the table ---- */

static size_t bucket_of(const collection *all, double across_cell, double up_cell)
{
    uint64_t hash = (uint64_t)(int64_t)across_cell * UINT64_C(0x9E3779B97F4A7C15) ^ (uint64_t)(int64_t)up_cell * UINT64_C(0xC2B2AE3D27D4EB4F);
    return (size_t)((hash ^ hash >> 31) & (all->bucket_count - 1));
}

static double cell_of(double size_mm) { return floor(size_mm / CELL_MM); }

static void put_in_table(collection *all, int index)
{
    tw_box box = all->entries[index].box;
    size_t bucket = bucket_of(all, cell_of(box.x1 - box.x0), cell_of(box.y1 - box.y0));
    all->entries[index].next = all->buckets[bucket];
    all->buckets[bucket] = index;
}

/* ---- the same cut ---- */

static bool near(double a, double b) { return fabs(a - b) <= SAME_MM; }

static bool same_box(tw_box a, tw_box b) { return near(a.x0, b.x0) && near(a.x1, b.x1) && near(a.y0, b.y0) && near(a.y1, b.y1); }

/* Vertex by vertex from the same start: quick, and true for most works that share. */
static bool same_vertices(tw_outline a, tw_outline b)
{
    if (a.count != b.count) return false;
    for (int i = 0; i < a.count; i++) {
        if (a.loops[i].count != b.loops[i].count) return false;
        for (int j = 0; j < a.loops[i].count; j++) {
            tw_vertex v = a.loops[i].vertices[j], w = b.loops[i].vertices[j];
            if (!near(v.x, w.x) || !near(v.y, w.y) || !near(v.bulge, w.bulge)) return false;
        }
    }
    return true;
}

static bool same_outline(tw_arena *arena, tw_outline a, tw_outline b)
{
    if (!same_box(tw_outline_bounds(a), tw_outline_bounds(b))) return false;
    return same_vertices(a, b) || tw_outline_difference_mm(arena, a, b) <= SAME_MM;
}

static bool same_name(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

/* Everything that the choice of cutter and follower looks at, but for the outline. */
static bool chosen_alike(const tw_copy_want *a, const tw_copy_want *b)
{
    return a->inside == b->inside && same_name(a->cutter, b->cutter) && same_name(a->follower, b->follower) &&
           near(a->depth_mm, b->depth_mm) && a->dovetail_rad == b->dovetail_rad && near(a->cutter_most_mm, b->cutter_most_mm) && near(a->corner_most_mm, b->corner_most_mm);
}

typedef enum cut_likeness { UNLIKE, ALIKE, MIRRORED } cut_likeness;

static cut_likeness compare(const collection *all, const entry *e, const tw_copy_want *want)
{
    tw_arena *arena = all->context->arena;
    tw_box box = tw_outline_bounds(want->cut), mirrored = { -box.x1, box.y0, -box.x0, box.y1 };
    if (e->t.ask.inside != want->inside) return UNLIKE;
    if (same_box(box, e->box) && same_outline(arena, e->t.ask.cut, want->cut)) return ALIKE;
    if (!same_box(mirrored, e->box)) return UNLIKE;
    return same_outline(arena, e->t.ask.cut, tw_outline_mirrored(arena, want->cut)) ? MIRRORED : UNLIKE;
}

/* ---- finding one that serves ---- */

typedef struct found_template { int index; cut_likeness likeness; int mirror; } found_template;

/* made NULL: only templates whose choice must come out alike; else those of the same cutter and follower. */
static bool serves(const collection *all, const entry *e, const tw_copy_want *want, const tw_choice_made *made)
{
    if (made) return e->t.cutter == made->cutter && e->t.follower == made->follower;
    return chosen_alike(&tw_template_work(all->context, e->plan, e->work)->copy, want);
}

static void look_in_bucket(const collection *all, size_t bucket, const tw_copy_want *want, const tw_choice_made *made, found_template *best)
{
    bool turns = all->context->shop->machine.turns_over.value == 1;
    for (int i = all->buckets[bucket]; i >= 0; i = all->entries[i].next) {
        const entry *e = &all->entries[i];
        if (!serves(all, e, want, made)) continue;
        cut_likeness likeness = compare(all, e, want);
        if (likeness == UNLIKE) continue;
        if (likeness == MIRRORED && !turns) {
            if (best->mirror < 0 || i < best->mirror) best->mirror = i;
        } else if (best->index < 0 || likeness < best->likeness || (likeness == best->likeness && i < best->index)) {
            best->index = i, best->likeness = likeness;
        }
    }
}

static found_template look_up(const collection *all, const tw_copy_want *want, const tw_choice_made *made)
{
    tw_box box = tw_outline_bounds(want->cut);
    double across = box.x1 - box.x0, up = box.y1 - box.y0;
    found_template best = { -1, UNLIKE, -1 };
    size_t seen[4];
    int count = 0;
    for (int i = 0; i < 4; i++) {
        size_t bucket = bucket_of(all, cell_of(across + (i % 2 ? 2.0 : -2.0) * SAME_MM), cell_of(up + (i / 2 ? 2.0 : -2.0) * SAME_MM));
        bool again = false;
        for (int j = 0; j < count; j++) again = again || seen[j] == bucket;
        if (again) continue;
        seen[count++] = bucket;
        look_in_bucket(all, bucket, want, made, &best);
    }
    return best;
}

/* ---- one work after the other ---- */

static void use(collection *all, int index, int plan, int work, bool turned, int cutter)
{
    entry *e = &all->entries[index];
    tw_arena *arena = all->context->arena;
    size_t count = (size_t)e->t.work_count;
    tw_array_make_room(arena, &e->t.works, count, &e->works_room, 2 * sizeof(int));
    tw_array_make_room(arena, &e->t.turned, count, &e->turned_room, sizeof(bool));
    e->t.works[2 * count] = plan;
    e->t.works[2 * count + 1] = work;
    e->t.turned[count] = turned;
    e->t.turned_over = e->t.turned_over || turned;
    e->t.work_count++;
    if (cutter != e->t.cutter) e->t.other_cutter = cutter;
    all->uses[plan][work] = (tw_template_use){ index, turned, cutter };
}

static void add_template(collection *all, int plan, int work, const tw_choice_made *made, int mirror_of)
{
    tw_arena *arena = all->context->arena;
    tw_array_make_room(arena, &all->entries, all->count, &all->room, sizeof *all->entries);
    int index = (int)all->count++;
    all->entries[index] = (entry){ .plan = plan, .work = work, .box = tw_outline_bounds(made->ask.cut), .mirror_of = mirror_of,
        .t = { .name = tw_format(arena, "T%d", index + 1), .joint = all->context->plans[plan].index, .ask = made->ask,
               .copy = made->copy, .cutter = made->cutter, .follower = made->follower, .other_cutter = -1 } };
    put_in_table(all, index);
    use(all, index, plan, work, false, made->cutter);
}

/* A template whose path this work shares with another cutter; -1 when there is none. */
static int with_same_path(const collection *all, const tw_choice_made *made)
{
    for (size_t i = 0; i < all->count; i++) {
        const entry *e = &all->entries[i];
        bool shares = tw_template_work(all->context, e->plan, e->work)->copy.path_shared;
        if (!shares || e->t.follower != made->follower || e->t.ask.inside != made->ask.inside) continue;
        if (same_outline(all->context->arena, e->t.copy.template_, made->copy.template_)) return (int)i;
    }
    return -1;
}

static void provide(collection *all, int plan, int work)
{
    const tw_copy_want *want = &tw_template_work(all->context, plan, work)->copy;
    found_template found = look_up(all, want, NULL);
    if (found.index < 0) {
        tw_choice_made made = tw_template_choose(all->context, plan, work);
        if (!made.ok) return;
        found = look_up(all, want, &made);
        int path = found.index < 0 && want->path_shared ? with_same_path(all, &made) : -1;
        if (path >= 0) {
            use(all, path, plan, work, false, made.cutter);
            return;
        }
        if (found.index < 0) {
            add_template(all, plan, work, &made, found.mirror);
            return;
        }
    }
    use(all, found.index, plan, work, found.likeness == MIRRORED, all->entries[found.index].t.cutter);
}

/* ---- the whole ---- */

static collection collect(const tw_template_context *context)
{
    collection all = { .context = context, .bucket_count = BUCKETS_LEAST };
    size_t works = 0;
    for (int p = 0; p < context->plan_count; p++) works += context->plans[p].work_count;
    while (all.bucket_count < works) all.bucket_count *= 2;
    all.buckets = TW_NEW_ARRAY(context->arena, int, all.bucket_count);
    for (size_t i = 0; i < all.bucket_count; i++) all.buckets[i] = -1;
    all.uses = TW_NEW_ARRAY(context->arena, tw_template_use *, (size_t)context->plan_count + 1);
    for (int p = 0; p < context->plan_count; p++) {
        int count = (int)context->plans[p].work_count;
        all.uses[p] = TW_NEW_ARRAY(context->arena, tw_template_use, (size_t)count + 1);
        for (int w = 0; w < count; w++) {
            all.uses[p][w] = (tw_template_use){ -1, false, -1 };
            if (context->plans[p].works[w].copied) provide(&all, p, w);
        }
    }
    return all;
}

tw_templates tw_templates_make(tw_arena *arena, const tw_job *job, const tw_shop *shop, const tw_joint_plan *plans,
                               int plan_count, tw_findings *findings)
{
    assert(job && shop && findings && shop->machine.ratio.value > 0.0);
    tw_template_context context = { arena, job, shop, plans, plan_count, findings };
    collection all = collect(&context);
    tw_templates made = { .items = TW_NEW_ARRAY(arena, tw_template, all.count + 1), .count = (int)all.count, .uses = all.uses };
    for (int i = 0; i < made.count; i++) {
        tw_template *t = &made.items[i];
        *t = all.entries[i].t;
        tw_template_board(&context, t);
        tw_template_words(&context, t, all.entries[i].mirror_of >= 0 ? all.entries[all.entries[i].mirror_of].t.name : NULL);
        t->straight = t->ask.inside && tw_strips_make(arena, t->copy.template_, t->board, job->figures, &t->strips, &t->strip_count);
    }
    tw_template_followers(&context, made.items, made.count);
    made.pairs = tw_template_pairs(arena, shop, &made.pair_count);
    return made;
}

const tw_template *tw_template_of(const tw_templates *templates, int plan, int work)
{
    int index = templates->uses[plan][work].template_index;
    return index < 0 ? NULL : &templates->items[index];
}

int tw_template_cutter(const tw_templates *templates, int plan, int work) { return templates->uses[plan][work].cutter; }

bool tw_template_turned(const tw_templates *templates, int plan, int work) { return templates->uses[plan][work].turned; }
