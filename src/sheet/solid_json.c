// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/solid_json.h"

#include <assert.h>

#include "base/bytes.h"
#include "sheet/bodies.h"
#include "sheet/explode.h"
#include "sheet/json.h"

#define SAME_PLACE_MM 1e-6   // less than this nothing has moved
#define LOOSE UINT32_MAX       // no point of any triangle
#define SOURCES_MOST 65535   // of one kind: as 16 bits hold

typedef struct teller {
    tw_arena             *arena;
    const tw_paper_input *in;
    const tw_bodies      *bodies;
    tw_json               json;
    int                 **kind_of_part;   // [plan][part]: index into kinds
    tw_gather             bytes;          // of the list of numbers in hand
} teller;

/* ---- lists of numbers ---- */

static tw_sink begin_bytes(teller *t)
{
    t->bytes.count = 0;
    return tw_gather_sink(&t->bytes);
}

static void end_bytes(teller *t, const char *key)
{
    tw_gather text = { .arena = t->arena };
    tw_sink sink = tw_gather_sink(&text);
    tw_put_base64(&sink, tw_gathered(&t->bytes));
    tw_json_text(&t->json, key, tw_gathered(&text).bytes);
}

static void put_floats(tw_sink *sink, tw_spot spot)
{
    tw_put_float(sink, spot.x);
    tw_put_float(sink, spot.y);
    tw_put_float(sink, spot.z);
}

static void put_spot(tw_json *json, const char *key, tw_spot spot)
{
    tw_json_numbers(json, key, (const double[]){ spot.x, spot.y, spot.z }, 3);
}

/* ---- kinds ---- */

/* Writes the points that triangles have; a solid may hold others, where its faces were joined. The result is their new
 * numbers, LOOSE for the others. */
static const uint32_t *put_points(teller *t, const tw_solid *solid)
{
    uint32_t *numbers = TW_NEW_ARRAY(t->arena, uint32_t, (size_t)solid->point_count + 1), count = 0;
    bool *used = TW_NEW_ARRAY(t->arena, bool, (size_t)solid->point_count + 1);
    for (int i = 0; i < solid->triangle_count; i++)
        for (int k = 0; k < 3; k++) used[solid->triangles[i][k]] = true;
    tw_sink sink = begin_bytes(t);
    for (int i = 0; i < solid->point_count; i++) {
        numbers[i] = used[i] ? count++ : LOOSE;
        if (used[i]) put_floats(&sink, solid->points[i]);
    }
    end_bytes(t, "points");
    return numbers;
}

static void put_mesh(teller *t, const tw_solid *solid)
{
    const uint32_t *numbers = put_points(t, solid);
    tw_sink sink = begin_bytes(t);
    for (int i = 0; i < solid->triangle_count; i++)
        for (int k = 0; k < 3; k++) tw_put_u32(&sink, numbers[solid->triangles[i][k]]);
    end_bytes(t, "triangles");
    sink = begin_bytes(t);
    for (int i = 0; i < solid->crease_count; i++) {
        uint32_t from = numbers[solid->creases[i].from], to = numbers[solid->creases[i].to];
        if (solid->creases[i].smooth || from == LOOSE || to == LOOSE) continue;
        tw_put_u32(&sink, from);
        tw_put_u32(&sink, to);
    }
    end_bytes(t, "edges");
}

static void put_sources(teller *t, const tw_solid *solid, const tw_cut *cuts)
{
    tw_sink sink = begin_bytes(t);
    for (int i = 0; i < solid->triangle_count; i++) {
        int source = solid->facets[solid->facet_of[i]].source;
        assert(source < SOURCES_MOST);
        tw_put_u16(&sink, (uint16_t)(source < 0 ? 0 : source + 1));
    }
    end_bytes(t, "source");
    sink = begin_bytes(t);
    for (int i = 0; i < solid->triangle_count; i++) {
        int source = solid->facets[solid->facet_of[i]].source;
        tw_put(&sink, &(const char){ (char)(source < 0 ? -1 - source : (int)cuts[source].face) }, 1);
    }
    end_bytes(t, "face");
}

static void put_solid(teller *t, const tw_solid *solid, tw_size size, const tw_cut *cuts)
{
    tw_json_numbers(&t->json, "size", (const double[]){ size.length_mm, size.width_mm, size.thickness_mm }, 3);
    tw_json_yes_no(&t->json, "closed", solid->closed);
    put_mesh(t, solid);
    put_sources(t, solid, cuts);
}

static const char *short_words(const teller *t, const tw_piece_wood *wood, const tw_short_grain *r)
{
    double along = r->volume_mm3 / r->area_mm2;
    return tw_format(t->arena, "between %s and %s: %s along the grain but %s high, so it may split off",
                     tw_bound_words(t->arena, t->in->job, wood->cuts.cuts, r->from_cut, true),
                     tw_bound_words(t->arena, t->in->job, wood->cuts.cuts, r->to_cut, false),
                     tw_length_text(t->arena, along, t->in->job->figures),
                     tw_length_text(t->arena, along / r->hold, t->in->job->figures));
}

static void put_boxes(teller *t, const tw_piece_wood *wood, int region)
{
    tw_sink sink = begin_bytes(t);
    for (int i = 0; i < wood->patch_count; i++) {
        const tw_grain_patch *p = &wood->patches[i];
        if (p->region != region) continue;
        put_floats(&sink, (tw_spot){ p->run.from_mm, p->y0_mm, p->z0_mm });
        put_floats(&sink, (tw_spot){ p->run.to_mm, p->y1_mm, p->z1_mm });
    }
    end_bytes(t, "boxes");
}

static void put_short_grain(teller *t, const tw_piece_wood *wood)
{
    tw_json_open(&t->json, "short", '[');
    for (int i = 0; wood && i < wood->region_count; i++) {
        tw_json_open(&t->json, NULL, '{');
        tw_json_text(&t->json, "words", short_words(t, wood, &wood->regions[i]));
        tw_json_number(&t->json, "hold", wood->regions[i].hold);
        put_boxes(t, wood, i);
        tw_json_close(&t->json, '}');
    }
    tw_json_close(&t->json, ']');
}

static void put_piece(teller *t, int index)
{
    const tw_piece *piece = &t->in->job->pieces[index];
    const tw_piece_cuts *cuts = &t->bodies->cuts[index];
    tw_json_open(&t->json, NULL, '{');
    tw_json_text(&t->json, "name", piece->name);
    tw_json_text(&t->json, "piece", piece->name);
    put_solid(t, tw_body_of_piece(t->bodies, index), tw_piece_size(piece), cuts->cuts);
    tw_json_open(&t->json, "cuts", '[');
    for (int i = 0; i < cuts->count; i++) tw_json_text(&t->json, NULL, tw_bound_words(t->arena, t->in->job, cuts->cuts, i, true));
    tw_json_close(&t->json, ']');
    put_short_grain(t, t->in->woods ? &t->in->woods[index] : NULL);
    tw_json_close(&t->json, '}');
}

static void put_part(teller *t, const tw_joint_plan *plan, const tw_part *part, const tw_solid *solid)
{
    tw_json_open(&t->json, NULL, '{');
    tw_json_text(&t->json, "name", part->name);
    tw_json_text(&t->json, "part", part->name);
    tw_json_text(&t->json, "joint", plan->joint->name);
    tw_json_yes_no(&t->json, "bought", part->bought);
    put_solid(t, solid, tw_part_blank(part), part->cuts);
    tw_json_open(&t->json, "cuts", '[');
    for (int i = 0; i < part->cut_count; i++) tw_json_text(&t->json, NULL, part->cuts[i].name);
    tw_json_close(&t->json, ']');
    put_short_grain(t, NULL);
    tw_json_close(&t->json, '}');
}

static bool is_lodged(const tw_joint_plan *plan, int part)
{
    for (size_t i = 0; i < plan->lodging_count; i++)
        if (plan->lodgings[i].part == part) return true;
    return false;
}

/* Pieces in the job's order, then the parts of each joint that sit somewhere. */
static void put_kinds(teller *t)
{
    int kinds = t->in->job->piece_count;
    t->kind_of_part = TW_NEW_ARRAY(t->arena, int *, (size_t)t->in->plan_count + 1);
    tw_json_open(&t->json, "kinds", '[');
    for (int i = 0; i < t->in->job->piece_count; i++) put_piece(t, i);
    for (int p = 0; p < t->in->plan_count; p++) {
        const tw_joint_plan *plan = &t->in->plans[p];
        t->kind_of_part[p] = TW_NEW_ARRAY(t->arena, int, plan->part_count + 1);
        for (size_t k = 0; k < plan->part_count; k++) {
            if (!is_lodged(plan, (int)k)) continue;
            t->kind_of_part[p][k] = kinds++;
            put_part(t, plan, &plan->parts[k], tw_body_of_part(t->bodies, p, (int)k));
        }
    }
    tw_json_close(&t->json, ']');
}

/* ---- where they stand ---- */

/* How the steps of one group are counted through all of them. */
typedef struct group { const tw_net *net; int index, before; } group;

static bool moves(const tw_move *move, int instance)
{
    for (int i = 0; i < move->moved_count; i++)
        if (move->moved[i] == instance) return true;
    return false;
}

/* What step k does to a thing: to a piece, or to a part that is carried by it and, when its own joint is freed, leaves it by
 * `own`. */
typedef struct thing { int carrier, plan; tw_spot own; } thing;

static tw_spot step_by(const group *g, size_t k, const thing *of)
{
    const tw_move *move = &g->net->apart[k];
    if (move->frees) return move->plan == of->plan ? of->own : (tw_spot){ 0, 0, 0 };
    return moves(move, of->carrier) ? tw_apart_by(g->net, k) : (tw_spot){ 0, 0, 0 };
}

/* Writes "moves" and returns the first step, 0 when there is none. */
static int put_moves(teller *t, const group *g, const thing *of)
{
    int first = 0;
    tw_json_open(&t->json, "moves", '[');
    for (size_t k = 0; k < g->net->apart_count; k++) {
        tw_spot by = step_by(g, k, of);
        if (tw_spot_size(by) < SAME_PLACE_MM) continue;
        int step = g->before + (int)k + 1;
        tw_json_open(&t->json, NULL, '{');
        tw_json_number(&t->json, "step", step);
        put_spot(&t->json, "by", by);
        tw_json_close(&t->json, '}');
        if (first == 0) first = step;
    }
    tw_json_close(&t->json, ']');
    return first;
}

static tw_spot carried_by(const group *g, int instance)
{
    tw_spot all = { 0, 0, 0 };
    thing of = { instance, -1, { 0, 0, 0 } };
    for (size_t k = 0; k < g->net->apart_count; k++) all = tw_spot_plus(all, step_by(g, k, &of));
    return all;
}

static thing thing_of(const group *g, const tw_standing_list *home, int i, tw_spot apart)
{
    if (home->items[i].mark >= 0) return (thing){ home->items[i].mark, -1, { 0, 0, 0 } };
    const tw_tie *tie = home->ties[i];
    int carrier = home->lodgings[i]->in_mover ? tie->mover : tie->base;
    return (thing){ carrier, tie->plan, tw_spot_less(apart, carried_by(g, carrier)) };
}

static void put_matrix(tw_json *json, tw_pose pose)
{
    const double numbers[] = { pose.x.x, pose.x.y, pose.x.z, pose.y.x, pose.y.y, pose.y.z, pose.z.x, pose.z.y, pose.z.z,
                               pose.at.x, pose.at.y, pose.at.z };
    tw_json_numbers(json, "matrix", numbers, 12);
}

static void put_name(teller *t, const tw_standing_list *home, int i)
{
    int instance = home->items[i].mark;
    if (instance >= 0) {
        const tw_instance *of = &t->in->space->instances[instance];
        tw_json_number(&t->json, "kind", of->piece);
        tw_json_text(&t->json, "name", tw_instance_name(t->arena, t->in->job, of));
        tw_json_number(&t->json, "number", of->number);
        return;
    }
    int plan = home->ties[i]->plan, part = home->lodgings[i]->part;
    tw_json_number(&t->json, "kind", t->kind_of_part[plan][part]);
    tw_json_text(&t->json, "name", t->in->plans[plan].parts[part].name);
    tw_json_number(&t->json, "number", 0);
}

static void put_group(teller *t, const group *g)
{
    tw_standing_list home = tw_standing_of(t->arena, t->bodies, t->in->space, g->index, false);
    tw_standing_list apart = tw_standing_of(t->arena, t->bodies, t->in->space, g->index, true);
    assert(home.count == apart.count);
    for (int i = 0; i < home.count; i++) {
        tw_spot by = tw_spot_less(apart.items[i].pose.at, home.items[i].pose.at);
        thing of = thing_of(g, &home, i, by);
        tw_json_open(&t->json, NULL, '{');
        put_name(t, &home, i);
        tw_json_number(&t->json, "group", g->index + 1);
        put_matrix(&t->json, home.items[i].pose);
        put_spot(&t->json, "apart", by);
        int step = put_moves(t, g, &of);
        tw_json_number(&t->json, "step", step);
        tw_json_close(&t->json, '}');
    }
}

static void put_stood(teller *t)
{
    const tw_space *space = t->in->space;
    int before = 0;
    tw_json_open(&t->json, "stood", '[');
    for (int n = 0; space && n < space->net_count; n++) {
        put_group(t, &(group){ &space->nets[n], n, before });
        before += (int)space->nets[n].apart_count;
    }
    tw_json_close(&t->json, ']');
}

/* ---- the steps, the whole ---- */

static void put_steps(teller *t)
{
    const tw_space *space = t->in->space;
    tw_json_open(&t->json, "steps", '[');
    for (int n = 0; space && n < space->net_count; n++)
        for (size_t k = 0; k < space->nets[n].apart_count; k++) {
            tw_json_open(&t->json, NULL, '{');
            tw_json_number(&t->json, "number", (double)k + 1.0);
            tw_json_number(&t->json, "group", n + 1);
            tw_json_text(&t->json, "words", space->nets[n].apart[k].text);
            tw_json_close(&t->json, '}');
        }
    tw_json_close(&t->json, ']');
}

static void put_size(teller *t)
{
    const tw_space *space = t->in->space;
    tw_spot most = { 0, 0, 0 };
    for (int n = 0; space && n < space->net_count; n++) {
        tw_spot of = space->nets[n].most;
        most = (tw_spot){ tw_max(most.x, of.x), tw_max(most.y, of.y), tw_max(most.z, of.z) };
    }
    put_spot(&t->json, "size", most);
}

static const char *note_words(const teller *t)
{
    const tw_space *space = t->in->space;
    const char *note = "";
    if (!space || space->too_many) return "there are too many pieces to be placed: nothing stands together";
    for (int n = 0; n < space->net_count; n++)
        if (!space->nets[n].ordered && space->nets[n].count > 1)
            note = "no order of taking apart was found for all of it: what has none stays together";
    for (int i = 0; i < t->in->job->piece_count; i++)
        if (tw_body_of_piece(t->bodies, i)->triangle_count == 0)
            note = tw_format(t->arena, "nothing is left of %s", t->in->job->pieces[i].name);
    return note;
}

void tw_solids_json_put(tw_arena *arena, const tw_paper_input *in, double chord_mm, tw_sink *sink)
{
    assert(chord_mm > 0.0);
    teller t = { .arena = arena, .in = in, .json = { .sink = sink }, .bytes = { .arena = arena } };
    t.bodies = in->bodies && !in->bodies->to_look_at ? in->bodies : tw_bodies_begin(arena, in->job, in->plans, in->plan_count, chord_mm);
    tw_json_open(&t.json, NULL, '{');
    put_kinds(&t);
    put_stood(&t);
    put_steps(&t);
    put_size(&t);
    tw_json_text(&t.json, "note", note_words(&t));
    tw_json_close(&t.json, '}');
    tw_put_text(sink, "\n");
}
