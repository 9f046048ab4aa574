// SPDX-License-Identifier: GPL-3.0-or-later
/* Space in job.json: where each piece of one set stands, loops, size, clashes, and the orders of taking apart and together. */
#include "sheet/space_json.h"

static void put_spot(tw_json *json, const char *key, tw_spot spot)
{
    tw_json_open(json, key, '[');
    tw_json_number(json, NULL, spot.x);
    tw_json_number(json, NULL, spot.y);
    tw_json_number(json, NULL, spot.z);
    tw_json_close(json, ']');
}

static void put_name(tw_json *json, tw_arena *arena, const tw_paper_input *in, const char *key, int instance)
{
    tw_json_text(json, key, tw_instance_name(arena, in->job, &in->space->instances[instance]));
}

static void put_names(tw_json *json, tw_arena *arena, const tw_paper_input *in, const char *key, const int *items, int count)
{
    tw_json_open(json, key, '[');
    for (int i = 0; i < count; i++) put_name(json, arena, in, NULL, items[i]);
    tw_json_close(json, ']');
}

static void put_size(tw_json *json, const tw_net *net)
{
    tw_json_number(json, "width_mm", net->most.x - net->least.x);
    tw_json_number(json, "depth_mm", net->most.y - net->least.y);
    tw_json_number(json, "height_mm", net->most.z - net->least.z);
}

static void put_instances(tw_json *json, tw_arena *arena, const tw_paper_input *in)
{
    tw_json_open(json, "pieces", '[');
    for (int i = 0; i < in->space->instance_count; i++) {
        const tw_instance *instance = &in->space->instances[i];
        tw_json_open(json, NULL, '{');
        put_name(json, arena, in, "name", i);
        tw_json_text(json, "piece", in->job->pieces[instance->piece].name);
        tw_json_number(json, "number", instance->number);
        tw_json_number(json, "group", instance->net + 1);
        put_spot(json, "at_mm", instance->pose.at);
        put_spot(json, "x_axis", instance->pose.x);
        put_spot(json, "y_axis", instance->pose.y);
        put_spot(json, "z_axis", instance->pose.z);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_joints(tw_json *json, tw_arena *arena, const tw_paper_input *in)
{
    tw_json_open(json, "joints", '[');
    for (size_t i = 0; i < in->space->tie_count; i++) {
        const tw_tie *tie = &in->space->ties[i];
        tw_json_open(json, NULL, '{');
        tw_json_text(json, "joint", in->plans[tie->plan].joint->name);
        put_name(json, arena, in, "brought", tie->mover);
        tw_json_text(json, "end", tw_face_words[tie->meeting->end]);
        put_name(json, arena, in, "into", tie->base);
        tw_json_number(json, "place", tie->meeting->place + 1);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_loops(tw_json *json, tw_arena *arena, const tw_paper_input *in)
{
    tw_json_open(json, "loops", '[');
    for (size_t i = 0; i < in->space->ring_count; i++) {
        const tw_ring *ring = &in->space->rings[i];
        tw_json_open(json, NULL, '{');
        put_names(json, arena, in, "around", ring->around, ring->around_count);
        tw_json_text(json, "closed_by", in->plans[in->space->ties[ring->tie].plan].joint->name);
        tw_json_number(json, "open_mm", ring->open_mm);
        tw_json_number(json, "open_deg", tw_degrees(ring->open_rad));
        tw_json_text(json, "remedy", ring->remedy);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
    tw_json_open(json, "clashes", '[');
    for (size_t i = 0; i < in->space->clash_count; i++) {
        const int both[] = { in->space->clashes[i].a, in->space->clashes[i].b };
        tw_json_open(json, NULL, '{');
        put_names(json, arena, in, "pieces", both, 2);
        tw_json_number(json, "deep_mm", in->space->clashes[i].deep_mm);
        tw_json_yes_no(json, "sure", in->space->clashes[i].sure);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_moves(tw_json *json, tw_arena *arena, const tw_paper_input *in, const char *key, const tw_move *moves, size_t count)
{
    tw_json_open(json, key, '[');
    for (size_t i = 0; i < count; i++) {
        const tw_move *m = &moves[i];
        tw_json_open(json, NULL, '{');
        tw_json_number(json, "number", (double)i + 1.0);
        tw_json_text(json, "text", m->text);
        tw_json_text(json, "joint", in->plans[m->plan].joint->name);
        tw_json_number(json, "count", m->count);
        put_names(json, arena, in, "moved", m->moved, m->moved_count);
        tw_json_text(json, "way", m->frees ? "" : tw_direction_words(arena, m->way));
        tw_json_number(json, "travel_mm", m->travel_mm);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

static void put_groups(tw_json *json, tw_arena *arena, const tw_paper_input *in)
{
    tw_json_open(json, "groups", '[');
    for (int i = 0; i < in->space->net_count; i++) {
        const tw_net *net = &in->space->nets[i];
        tw_json_open(json, NULL, '{');
        put_name(json, arena, in, "base", net->first);
        tw_json_number(json, "count", net->count);
        tw_json_text(json, "up", tw_face_words[net->up]);
        tw_json_text(json, "up_why", net->up_why);
        put_size(json, net);
        put_moves(json, arena, in, "taken_apart", net->apart, net->apart_count);
        put_moves(json, arena, in, "put_together", net->together, net->together_count);
        tw_json_close(json, '}');
    }
    tw_json_close(json, ']');
}

void tw_json_space(tw_json *json, tw_arena *arena, const tw_paper_input *in)
{
    const tw_space *space = in->space;
    if (!space || space->net_count == 0) return;
    tw_json_open(json, "space", '{');
    put_name(json, arena, in, "base", space->nets[0].first);
    tw_json_text(json, "up", tw_face_words[space->nets[0].up]);
    put_size(json, &space->nets[0]);
    put_instances(json, arena, in);
    put_joints(json, arena, in);
    put_loops(json, arena, in);
    put_groups(json, arena, in);
    tw_json_close(json, '}');
}
