// SPDX-License-Identifier: GPL-3.0-or-later
/* The stage as a whole: instances, walk, stand, clear, order. */
#include "space/space.h"

#include <math.h>

#include "space/parts.h"

static bool make_instances(tw_placing *p)
{
    const tw_job *job = p->job;
    double all = 0.0;
    for (int i = 0; i < job->piece_count; i++) all += job->pieces[i].count.value;
    p->space->too_many = all > TW_INSTANCES_MOST;
    if (p->space->too_many || all < 1.0) return false;
    p->first_of = TW_NEW_ARRAY(p->arena, int, (size_t)job->piece_count + 1);
    p->space->instances = TW_NEW_ARRAY(p->arena, tw_instance, (size_t)all);
    for (int i = 0; i < job->piece_count; i++) {
        p->first_of[i] = p->space->instance_count;
        for (int k = 0; k < (int)job->pieces[i].count.value; k++)
            p->space->instances[p->space->instance_count++] = (tw_instance){ .piece = i, .number = k + 1, .net = -1, .pose = tw_pose_home() };
    }
    p->first_of[job->piece_count] = p->space->instance_count;
    p->tie_of = TW_NEW_ARRAY(p->arena, int, (size_t)p->space->instance_count);
    p->depth = TW_NEW_ARRAY(p->arena, int, (size_t)p->space->instance_count);
    for (int i = 0; i < p->space->instance_count; i++) p->tie_of[i] = -1;
    return true;
}

static void list_ties(tw_placing *p)
{
    const tw_space *space = p->space;
    size_t all = (size_t)space->instance_count;
    p->ties_at = TW_NEW_ARRAY(p->arena, int *, all);
    p->ties_at_count = TW_NEW_ARRAY(p->arena, int, all);
    int *room = TW_NEW_ARRAY(p->arena, int, 2 * space->tie_count + 1);
    for (size_t i = 0; i < space->tie_count; i++) {
        p->ties_at_count[space->ties[i].mover]++;
        p->ties_at_count[space->ties[i].base]++;
    }
    for (size_t i = 0; i < all; i++) {
        p->ties_at[i] = room;
        room += p->ties_at_count[i];
        p->ties_at_count[i] = 0;
    }
    for (size_t i = 0; i < space->tie_count; i++) {
        int ends[2] = { space->ties[i].mover, space->ties[i].base };
        for (int k = 0; k < 2; k++) p->ties_at[ends[k]][p->ties_at_count[ends[k]]++] = (int)i;
    }
}

static void list_nets(tw_placing *p)
{
    const tw_space *space = p->space;
    p->by_net = TW_NEW_ARRAY(p->arena, int, (size_t)space->instance_count);
    p->net_start = TW_NEW_ARRAY(p->arena, int, (size_t)space->net_count + 1);
    for (int i = 0; i + 1 < space->net_count; i++) p->net_start[i + 1] = p->net_start[i] + space->nets[i].count;
    int *next = TW_NEW_ARRAY(p->arena, int, (size_t)space->net_count);
    for (int i = 0; i < space->instance_count; i++) {
        int net = space->instances[i].net;
        p->by_net[p->net_start[net] + next[net]++] = i;
    }
}

tw_space tw_space_make(tw_arena *arena, const tw_job *job, const tw_joint_plan *plans, int plan_count)
{
    tw_space space = { .net_count = 0 };
    tw_placing p = { .arena = arena, .job = job, .plans = plans, .plan_count = plan_count, .space = &space };
    if (!make_instances(&p)) return space;
    tw_space_walk(&p);
    list_ties(&p);
    list_nets(&p);
    tw_shapes_make(&p);
    tw_space_stand(&p);
    tw_rings_remedy(&p);
    tw_space_clear(&p);
    tw_space_fitted(&p);
    tw_space_order(&p);
    return space;
}

const char *tw_instance_name(tw_arena *arena, const tw_job *job, const tw_instance *instance)
{
    const tw_piece *piece = &job->pieces[instance->piece];
    return piece->count.value > 1.5 ? tw_format(arena, "%s %d", piece->name, instance->number) : piece->name;
}

const char *tw_opening_words(tw_arena *arena, const tw_job *job, double open_mm)
{
    if (job->figures.style == TW_FIGURES_MM) return tw_format(arena, "%.2f mm", open_mm);
    return tw_format(arena, "%.4f in", open_mm / TW_MM_PER_INCH);
}

const char *tw_direction_words(tw_arena *arena, tw_spot way)
{
    static const char *const words[] = { "to the right", "to the left", "to the back", "to the front", "up", "down" };
    const double along[] = { way.x, -way.x, way.y, -way.y, way.z, -way.z };
    int first = 0, second = -1;
    for (int i = 1; i < 6; i++)
        if (along[i] > along[first]) first = i;
    for (int i = 0; i < 6; i++)
        if (i != first && along[i] > sin(TW_SAME_WAY_RAD) && (second < 0 || along[i] > along[second])) second = i;
    return second < 0 ? words[first] : tw_format(arena, "%s and %s", words[first], words[second]);
}
