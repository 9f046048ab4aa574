// SPDX-License-Identifier: GPL-3.0-or-later
/* Where pieces stand in a picture. Step k of taking apart moves its pieces along its way; in the picture they go
 *     travel_k + gap + sum over later steps j the same way of (travel_j + gap)                                  (1)
 * so that what comes off first is farthest out. */
#include "sheet/explode.h"

#define GAP_OF_WHOLE 0.06    // the gap, as a part of the diagonal of the whole
#define GAP_LEAST_MM 15.0

static double gap_of(const tw_net *net)
{
    return tw_max(GAP_LEAST_MM, GAP_OF_WHOLE * tw_spot_size(tw_spot_less(net->most, net->least)));
}

static double distance_of(const tw_net *net, size_t step, double gap)
{
    double distance = net->apart[step].travel_mm + gap;
    for (size_t j = step + 1; j < net->apart_count; j++)
        if (!net->apart[j].frees && tw_same_way(net->apart[j].way, net->apart[step].way)) distance += net->apart[j].travel_mm + gap;
    return distance;
}

tw_spot tw_apart_by(const tw_net *net, size_t step)
{
    const tw_move *move = &net->apart[step];
    return move->frees ? (tw_spot){ 0, 0, 0 } : tw_spot_times(move->way, distance_of(net, step, gap_of(net)));
}

/* How far each instance has gone in the end, and in which step it went first. */
static void displace(const tw_net *net, tw_spot *moved, int *step_of)
{
    for (size_t k = 0; k < net->apart_count; k++) {
        const tw_move *move = &net->apart[k];
        if (move->frees) continue;
        tw_spot by = tw_apart_by(net, k);
        for (int i = 0; i < move->moved_count; i++) {
            int instance = move->moved[i];
            moved[instance] = tw_spot_plus(moved[instance], by);
            if (step_of[instance] == 0) step_of[instance] = (int)k + 1;
        }
    }
}

static int freed_in_step(const tw_net *net, int plan)
{
    for (size_t k = 0; k < net->apart_count; k++)
        if (net->apart[k].frees && net->apart[k].plan == plan) return (int)k + 1;
    return 0;
}

/* What is being put together, and what it is put together of. */
typedef struct standing {
    tw_arena         *arena;
    const tw_bodies    *bodies;
    const tw_space   *space;
    const tw_net     *net;
    const tw_spot    *moved;     // [instances]
    bool              apart;
    tw_standing_list  all;
    size_t            room[4];
} standing;

static void put(standing *s, tw_stood stood, int step, const tw_tie *tie, const tw_lodging *lodging)
{
    tw_array_make_room(s->arena, &s->all.items, (size_t)s->all.count, &s->room[0], sizeof stood);
    tw_array_make_room(s->arena, &s->all.step_of, (size_t)s->all.count, &s->room[1], sizeof step);
    tw_array_make_room(s->arena, &s->all.ties, (size_t)s->all.count, &s->room[2], sizeof(const tw_tie *));
    tw_array_make_room(s->arena, &s->all.lodgings, (size_t)s->all.count, &s->room[3], sizeof(const tw_lodging *));
    s->all.items[s->all.count] = stood;
    s->all.ties[s->all.count] = tie;
    s->all.lodgings[s->all.count] = lodging;
    s->all.step_of[s->all.count++] = step;
}

/* What holds the joint is drawn out of it, the first with the number of its step; what only sits in it stays. */
static void put_parts_of_tie(standing *s, const tw_tie *tie)
{
    const tw_joint_plan *plan = &s->bodies->plans[tie->plan];
    int meeting = (int)(tie->meeting - plan->meetings), step = s->apart ? freed_in_step(s->net, tie->plan) : 0;
    bool numbered = false;
    for (size_t i = 0; i < plan->lodging_count; i++) {
        const tw_lodging *lodging = &plan->lodgings[i];
        if (lodging->meeting != meeting) continue;
        tw_pose base = s->space->instances[tie->base].pose;
        base.at = tw_spot_plus(base.at, s->moved[lodging->in_mover ? tie->mover : tie->base]);
        tw_pose pose = tw_pose_compose(base, lodging->pose);
        bool out = step > 0 && !tie->meeting->for_good && !lodging->fast;
        double far = lodging->travel_mm + gap_of(s->net) / 2.0;
        if (out) pose.at = tw_spot_plus(pose.at, tw_spot_times(tw_pose_turn(base, lodging->leaves), far));
        put(s, (tw_stood){ tw_body_of_part(s->bodies, tie->plan, lodging->part), pose, -1 }, out && !numbered ? step : 0, tie, lodging);
        numbered = numbered || out;
    }
}

tw_standing_list tw_standing_of(tw_arena *arena, const tw_bodies *bodies, const tw_space *space, int net, bool apart)
{
    tw_spot *moved = TW_NEW_ARRAY(arena, tw_spot, (size_t)space->instance_count);
    int *step_of = TW_NEW_ARRAY(arena, int, (size_t)space->instance_count);
    standing s = { .arena = arena, .bodies = bodies, .space = space, .net = &space->nets[net], .moved = moved, .apart = apart };
    if (apart) displace(s.net, moved, step_of);
    for (int i = 0; i < space->instance_count; i++) {
        if (space->instances[i].net != net) continue;
        tw_pose pose = space->instances[i].pose;
        pose.at = tw_spot_plus(pose.at, moved[i]);
        put(&s, (tw_stood){ tw_body_of_piece(bodies, space->instances[i].piece), pose, i }, step_of[i], NULL, NULL);
    }
    for (size_t i = 0; i < space->tie_count; i++)
        if (space->instances[space->ties[i].base].net == net) put_parts_of_tie(&s, &space->ties[i]);
    return s.all;
}
