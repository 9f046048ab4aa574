// SPDX-License-Identifier: GPL-3.0-or-later
/* Turns each net so that up is up, with its longer level extent from left to right, and sets the nets beside each other.
 *
 * Up is what the job says of the base piece. Else, of the first piece of a net:
 *   a foot: others stand in it, all at one side, and none
 *   of them has the same joint at both of its ends            that side
 *   a rail: the same joint at both of its ends                its back edge
 *   a post or a leg: any other                                its right end
 *   a piece alone                                             its face
 * Nothing in the joints tells the side of a case from a foot, or a bed from a table on its side: the job's key does. */
#include <assert.h>
#include <math.h>

#include "space/parts.h"

#define BETWEEN_NETS_MM 200.0

static tw_spot face_way(tw_face face) { return tw_face_frame(face).out; }

/* What makes a rail. */
static bool has_at_both_ends(const tw_placing *p, int instance, int plan)
{
    bool left = false, right = false;
    for (int i = 0; i < p->ties_at_count[instance]; i++) {
        const tw_tie *tie = &p->space->ties[p->ties_at[instance][i]];
        if (tie->mover != instance || tie->plan != plan) continue;
        left = left || tie->meeting->end == TW_SIDE_LEFT_END;
        right = right || tie->meeting->end == TW_SIDE_RIGHT_END;
    }
    return left && right;
}

/* The side of the first piece at which all others enter, none of them a rail; TW_FACE_COUNT when there is none such. */
static int only_side(const tw_placing *p, int first)
{
    int side = TW_FACE_COUNT;
    for (int i = 0; i < p->ties_at_count[first]; i++) {
        const tw_tie *tie = &p->space->ties[p->ties_at[first][i]];
        if (tie->base != first || has_at_both_ends(p, tie->mover, tie->plan)) return TW_FACE_COUNT;
        for (int f = 0; f < TW_FACE_COUNT; f++) {
            if (tw_spot_product(face_way((tw_face)f), tie->meeting->leaves) < cos(TW_SAME_WAY_RAD)) continue;
            if (side != TW_FACE_COUNT && side != f) return TW_FACE_COUNT;
            side = f;
        }
    }
    return side;
}

static bool is_rail(const tw_placing *p, int first)
{
    for (int i = 0; i < p->ties_at_count[first]; i++)
        if (has_at_both_ends(p, first, p->space->ties[p->ties_at[first][i]].plan)) return true;
    return false;
}

static void choose_up(const tw_placing *p, tw_net *net, bool of_base)
{
    int side = only_side(p, net->first);
    bool rail = is_rail(p, net->first);
    if (of_base && p->job->up.given) { net->up = (tw_face)p->job->up.value; net->up_why = "given in the job"; }
    else if (net->count == 1) { net->up = TW_SIDE_FACE; net->up_why = "it stands alone"; }
    else if (side != TW_FACE_COUNT && side < TW_SIDE_LEFT_END) { net->up = (tw_face)side; net->up_why = "the others stand in it there"; }
    else if (rail) { net->up = TW_SIDE_BACK_EDGE; net->up_why = "it is a rail"; }
    else { net->up = TW_SIDE_RIGHT_END; net->up_why = "it stands on its left end"; }
}

/* ---- turning ---- */

typedef struct members { const int *items; int count; } members;

static tw_block around(const tw_placing *p, members all)
{
    tw_block box = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };
    for (int i = 0; i < all.count; i++) {
        tw_block b = tw_instance_block(p->space, all.items[i]);
        box.least = (tw_spot){ tw_min(box.least.x, b.least.x), tw_min(box.least.y, b.least.y), tw_min(box.least.z, b.least.z) };
        box.most = (tw_spot){ tw_max(box.most.x, b.most.x), tw_max(box.most.y, b.most.y), tw_max(box.most.z, b.most.z) };
    }
    return box;
}

static void move(const tw_placing *p, members all, tw_pose by)
{
    for (int i = 0; i < all.count; i++) {
        tw_instance *instance = &p->space->instances[all.items[i]];
        instance->pose = tw_pose_compose(by, instance->pose);
    }
}

static void turn_rings(const tw_placing *p, int net, tw_pose by)
{
    for (size_t i = 0; i < p->space->ring_count; i++)
        if (p->space->rings[i].net == net) p->space->rings[i].open = tw_pose_turn(by, p->space->rings[i].open);
}

/* The frame in which `right` and `up` are x and z, seen from the frame in which they are given. */
static tw_pose frame_of(tw_spot right, tw_spot up)
{
    tw_pose frame = { .x = right, .y = tw_spot_cross(up, right), .z = up };
    return tw_pose_inverse(frame);
}

static double stand(const tw_placing *p, int index, members all, double left)
{
    tw_net *net = &p->space->nets[index];
    tw_spot up = face_way(net->up), right = fabs(up.x) > 0.5 ? (tw_spot){ 0, 1, 0 } : (tw_spot){ 1, 0, 0 };
    tw_pose turn = frame_of(right, up);
    move(p, all, turn);
    tw_block box = around(p, all);
    if (box.most.y - box.least.y > box.most.x - box.least.x + TW_TOUCH_MM) {
        tw_pose quarter = { { 0, -1, 0 }, { 1, 0, 0 }, { 0, 0, 1 }, { 0, 0, 0 } };
        move(p, all, quarter);
        turn = tw_pose_compose(quarter, turn);
        box = around(p, all);
    }
    turn_rings(p, index, turn);
    tw_pose shift = tw_pose_home();
    shift.at = (tw_spot){ left - box.least.x, -box.least.y, -box.least.z };
    move(p, all, shift);
    net->least = (tw_spot){ left, 0, 0 };
    net->most = tw_spot_plus(net->least, tw_spot_less(box.most, box.least));
    return net->most.x;
}

void tw_space_stand(tw_placing *p)
{
    double left = 0.0;
    for (int i = 0; i < p->space->net_count; i++) {
        tw_net *net = &p->space->nets[i];
        choose_up(p, net, i == 0);
        left = stand(p, i, (members){ p->by_net + p->net_start[i], net->count }, left) + BETWEEN_NETS_MM;
    }
}
