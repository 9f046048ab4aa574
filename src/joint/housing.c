// SPDX-License-Identifier: GPL-3.0-or-later
/* Housing: the end of one piece is let into a trench across the grain of another, through or stopped. Here: what the job
 * may say, and the proportions with their rules (common practice where no source is named).
 *
 *     housing     w = t + c                  a part a few thousandths of an inch under what it goes into        (1)
 *     depth       = a third of the piece it is cut in, or less                                                  (2)
 *     housed      l = depth - room           room only where a notch closes the joint at a stop                 (3)
 *     notch       n = stop + radius + 1 mm - edge    of the housed piece, over the stop; the radius is what the
 *                                            cutter leaves, 0 where it is chopped square                        (4)
 *     guides      gap = w - cutter + bush    two straight guides, router moved by hand at a ratio of 1          (5)
 *
 * Lengths of pieces are finished lengths, what is housed included: body = length - l for each end. */
#include "joint/housing.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/trench.h"
#include "joint/words.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const end_words[] = { "left end", "right end", NULL };
static const char *const stop_words[] = { "none", "face", "back", "face edge", "back edge", "both", NULL };
static const char *const stopped_words[] = { "notch", "chisel", NULL };
static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const by_words[] = { "copy", "guides", "saw", NULL };

#define AT(field) offsetof(tw_housing_spec, field)
static const tw_key keys[] = {
    { "housed", TW_KEY_PIECE, AT(housed), .required = true, .meaning = "The piece whose end is let in with its whole thickness: a shelf, a rail.", .example = "shelf" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = ends_words, .fallback = TW_HOUSED_BOTH, .otherwise = "both", .meaning = "Which ends of it are housed.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The piece that the housing is cut in.", .example = "side" },
    { "from", TW_KEY_CHOICE, AT(from), .required = true, .choices = tw_face_words,
      .meaning = "The side of that piece that carries the housing. A face or an edge, not an end.", .example = "face" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true, .meaning = "From the left end of that piece to the middle of the housing; a list when it takes several.",
      .example = "[40, 320, 600]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the housed piece's width across that side: from the face edge, or from the back where the housing is cut in an edge.", .example = "110 mm" },
    { "face to", TW_KEY_CHOICE, AT(face_to), .choices = end_words, .fallback = 1, .otherwise = "right end",
      .meaning = "Towards which end of that piece the face of the housed piece looks: it settles at which edge a notch lies.", .example = "right end" },
    { "depth", TW_KEY_LENGTH, AT(depth), .otherwise = "a third of the piece's thickness there", .meaning = "How deep the housing is.", .example = "6 mm" },
    { "stop", TW_KEY_CHOICE, AT(stop), .choices = stop_words, .fallback = TW_STOP_NONE, .otherwise = "none: the housing runs through",
      .meaning = "The side of the piece short of which the housing stops, so that it does not show there.", .example = "face edge" },
    { "stop short", TW_KEY_LENGTH, AT(stop_short), .otherwise = "12 mm, or 1/2 in", .meaning = "How far short of that side the housing stops.", .example = "12 mm" },
    { "stopped end", TW_KEY_CHOICE, AT(stopped_end), .choices = stopped_words, .fallback = 0, .otherwise = "notch",
      .meaning = "What answers for the round corners that the cutter leaves at a stop: the housed piece's notch goes past them, or they are chopped square.",
      .example = "chisel" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .otherwise = "dry", .meaning = "Dry comes apart again; glued stays.", .example = "glued" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.2 mm dry, 0.1 mm glued",
      .meaning = "Housing less the housed piece's thickness, both sides together.", .example = "0.008 in" },
    { "bottom room", TW_KEY_LENGTH, AT(bottom_room), .most = 10.0, .otherwise = "none; 0.5 mm, or 1/64 in, where a notch closes over a stop",
      .meaning = "How far the end stays from the bottom of the housing, so that a notch closes first where it shows.", .example = "0.5 mm" },
    { "by", TW_KEY_CHOICE, AT(by), .choices = by_words, .otherwise = "copy where the machine takes it, else guides, else saw",
      .meaning = "Copied with a template, routed by hand between two straight guides, or sawn and chiselled.", .example = "guides" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the largest that is no wider than the housing", .meaning = "For the housing.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing; for guides the smallest that the cutter passes", .meaning = "For the housing.",
      .example = "bush 16" },
};
#undef AT

/* ---- proportions ---- */

#define NOTCH_ROOM_MM 1.0     // a notch is so much longer than what it goes over, to let the edges come level: common practice
#define SAME_MM 1e-6

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }

static void propose_section(tw_joint_context *context, tw_joint_plan *plan, tw_housing *h)
{
    tw_arena *arena = context->arena;
    const tw_housing_spec *spec = h->spec;
    double clearance = h->glued ? tw_customary(context, 0.1, 0.004) : tw_customary(context, 0.2, 0.008);
    h->c = tw_plan_amount(context, plan, &spec->clearance, "clearance", "housing over housed piece", "c", TW_UNIT_MM, clearance, bare(context, clearance),
        h->glued ? "a few thousandths of an inch, for the glue (common practice)" : "a part that gets no glue is left slightly loose (common practice)");
    h->w = h->t + h->c;
    tw_note_length(context, plan, "housing_width", "housing, wide", h->w, tw_format(arena, "thickness + c = %s + %s", bare(context, h->t), bare(context, h->c)),
        "from the real thickness of the housed piece: measure it first");
    h->depth = tw_plan_amount(context, plan, &spec->depth, "depth", "housing, deep", "", TW_UNIT_MM, tw_rounded_down(context, h->d / 3.0),
        tw_format(arena, "1/3 x %s, down to a round figure", bare(context, h->d)), "a third of the piece it is cut in, or less (common practice)");
    tw_note_length(context, plan, "left_under", "left under the housing", h->d - h->depth, tw_format(arena, "%s - %s", bare(context, h->d), bare(context, h->depth)), "");
}

/* Where the housing ends, v from the low side. */
static void propose_stops(tw_joint_context *context, tw_joint_plan *plan, tw_housing *h)
{
    const tw_housing_spec *spec = h->spec;
    tw_arena *arena = context->arena;
    h->across = tw_plan_amount(context, plan, &spec->across, "across", tw_format(arena, "middle of the housed piece, from the %s", tw_face_words[h->low]), "", TW_UNIT_MM,
        h->e / 2.0, tw_format(arena, "%s / 2", bare(context, h->e)), "");
    h->v0 = 0.0;
    h->v1 = h->e;
    if (!h->low_stopped && !h->high_stopped) return;
    double usual = tw_customary(context, 12.0, 0.5);
    double short_mm = tw_plan_amount(context, plan, &spec->stop_short, "stop_short", "housing stops short by", "", TW_UNIT_MM, usual, bare(context, usual), "common practice");
    if (h->low_stopped) h->v0 = short_mm;
    if (h->high_stopped) h->v1 = h->e - short_mm;
}

/* ---- how it is cut ---- */

static double path_low(const tw_housing *h) { return h->low_stopped ? h->v0 : -h->over; }
static double path_high(const tw_housing *h) { return h->high_stopped ? h->v1 : h->e + h->over; }

static bool machine_takes(const tw_machine *machine, const tw_housing *h)
{
    return tw_trench_in_reach(machine, &(tw_trench_reach){ .from_mm = path_low(h), .to_mm = path_high(h), .across_mm = h->e, .depth_mm = h->depth,
        .cutter_mm = h->cutter_d, .low_down = h->low_stopped && !h->high_stopped });
}

static void take_cutter(const tw_shop *shop, tw_housing *h, int cutter)
{
    h->cutter = cutter;
    h->over = h->cutter_d = cutter >= 0 ? shop->cutters[cutter].d_mm : 0.0;
}

/* The named cutter; or the largest with which the machine reaches along the housing; or the largest at all. */
static void choose_cutter(const tw_shop *shop, tw_housing *h)
{
    if (h->spec->cutter.given) {
        take_cutter(shop, h, tw_cutter_named(shop, h->spec->cutter.text));
        return;
    }
    int largest = tw_cutter_for_trench(shop, h->w, h->depth);
    for (int next = largest; next >= 0; next = tw_cutter_for_trench(shop, h->cutter_d - SAME_MM * 10.0, h->depth)) {
        take_cutter(shop, h, next);
        if (machine_takes(&shop->machine, h)) return;
    }
    take_cutter(shop, h, largest);
}

static void choose_tools(tw_joint_context *context, tw_housing *h)
{
    const tw_housing_spec *spec = h->spec;
    const tw_shop *shop = context->shop;
    choose_cutter(shop, h);
    h->follower = spec->follower.given ? tw_follower_named(shop, spec->follower.text) : tw_bush_for(shop, h->cutter_d);
    if (spec->by.given) h->way = (tw_housing_way)spec->by.value;
    else if (h->cutter < 0) h->way = spec->cutter.given ? TW_HOUSING_COPY : TW_HOUSING_SAW;  // an unknown name is refused
    else h->way = machine_takes(&shop->machine, h) ? TW_HOUSING_COPY : h->follower >= 0 ? TW_HOUSING_GUIDES : TW_HOUSING_SAW;
    if (h->way == TW_HOUSING_SAW) h->over = h->cutter_d = 0.0;
    bool stays_round = h->way != TW_HOUSING_SAW && spec->stopped_end.value == 0 && (h->low_stopped || h->high_stopped);
    h->radius = stays_round ? tw_min(h->cutter_d, h->w) / 2.0 : 0.0;
}

static void note_guides(tw_joint_context *context, tw_joint_plan *plan, tw_housing *h)
{
    if (h->way != TW_HOUSING_GUIDES || h->follower < 0 || h->cutter < 0) return;
    tw_arena *arena = context->arena;
    const tw_follower *bush = &context->shop->followers[h->follower];
    h->guide_gap = h->w - h->cutter_d + bush->b_mm;
    tw_note_length(context, plan, "guides_gap", "between the two guides", h->guide_gap,
        tw_format(arena, "w - cutter + bush = %s - %s + %s (%s, %s)", bare(context, h->w), bare(context, h->cutter_d), bare(context, bush->b_mm),
                  context->shop->cutters[h->cutter].name, bush->name), "router moved by hand, ratio 1");
    h->guide_stop = (bush->b_mm - h->cutter_d) / 2.0;
    if (h->low_stopped || h->high_stopped)
        tw_note_length(context, plan, "guides_stop", "stop block beyond the housing's end", h->guide_stop,
            tw_format(arena, "(bush - cutter)/2 = (%s - %s)/2", bare(context, bush->b_mm), bare(context, h->cutter_d)), "");
}

/* ---- the housed piece ---- */

static void propose_end(tw_joint_context *context, tw_joint_plan *plan, tw_housing *h)
{
    tw_arena *arena = context->arena;
    double room = NOTCH_ROOM_MM, low_edge = h->across - h->wide / 2.0, high_edge = h->across + h->wide / 2.0;
    if (context->job->inch_sizes) room = TW_MM_PER_INCH / 32.0;
    if (h->low_stopped) h->notch_low = tw_max(0.0, h->v0 + h->radius + room - low_edge);
    if (h->high_stopped) h->notch_high = tw_max(0.0, high_edge - (h->v1 - h->radius - room));
    double notch = tw_max(h->notch_low, h->notch_high);
    if (notch > 0.0)
        tw_note_length(context, plan, "notch", "notch of the housed piece", notch,
            tw_format(arena, "stop %s + radius %s + %s, from its edge", bare(context, h->low_stopped ? h->v0 : h->e - h->v1), bare(context, h->radius), bare(context, room)),
            "goes over the stop and what the cutter leaves there (common practice)");
    double usual = notch > 0.0 ? tw_customary(context, 0.5, 1.0 / 64.0) : 0.0;
    h->room = tw_plan_amount(context, plan, &h->spec->bottom_room, "bottom_room", "room below the end", "", TW_UNIT_MM, usual, bare(context, usual),
        notch > 0.0 ? "the notch's shoulder closes first, where it shows" : "the end stands on the bottom");
    h->l = h->depth - h->room;
    tw_note_length(context, plan, "housed", "housed, each end", h->l, tw_format(arena, "depth - room = %s - %s", bare(context, h->depth), bare(context, h->room)), "");
    h->body = h->a.length_mm - h->ends * h->l;
    tw_note_length(context, plan, "body", h->ends == 2 ? "between the pieces it stands in" : "from the piece it stands in to the other end", h->body,
        tw_format(arena, "%s - %d x %s", bare(context, h->a.length_mm), h->ends, bare(context, h->l)), "lengths of pieces are finished lengths, what is housed included");
    tw_note_length(context, plan, "housing_length", "housing, from end to end", h->v1 - h->v0, tw_format(arena, "%s - %s", bare(context, h->v1), bare(context, h->v0)), "");
}

/* ---- the plan ---- */

static bool stops_at(const tw_housing_spec *spec, tw_face side)
{
    return spec->stop.value == TW_STOP_BOTH || (spec->stop.value != TW_STOP_NONE && spec->stop.value - TW_STOP_FACE == (int)side);
}

static tw_housing *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_housing_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_housing *h = TW_NEW(context->arena, tw_housing);
    h->spec = spec;
    h->housed = &job->pieces[spec->housed.index];
    h->into = &job->pieces[spec->into.index];
    h->a = tw_piece_size(h->housed);
    h->b = tw_piece_size(h->into);
    h->from = (tw_face)spec->from.value;
    h->low = h->from <= TW_SIDE_BACK ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    h->high = tw_face_opposite(h->low);
    tw_size extent = tw_face_extent(h->b, h->from);
    h->e = extent.width_mm;
    h->d = extent.thickness_mm;
    h->t = h->a.thickness_mm;
    h->wide = h->a.width_mm;
    h->low_stopped = stops_at(spec, h->low);
    h->high_stopped = stops_at(spec, h->high);
    h->glued = spec->fit.value == 1;
    h->ends = spec->ends.value == TW_HOUSED_BOTH ? 2 : 1;
    h->housed_pieces = (int)(h->housed->count.value * job->sets.value);
    h->into_pieces = (int)(h->into->count.value * job->sets.value);
    h->joints = plan->count = h->housed_pieces * h->ends;
    return h;
}

static tw_housing *work_out(tw_joint_context *context, tw_joint_plan *plan)
{
    tw_housing *h = begin(context, plan);
    propose_section(context, plan, h);
    propose_stops(context, plan, h);
    choose_tools(context, h);
    note_guides(context, plan, h);
    propose_end(context, plan, h);
    h->handed = h->low_stopped != h->high_stopped || fabs(h->across - h->e / 2.0) > SAME_MM;
    return h;
}

bool tw_housing_places_symmetric(const tw_housing *h)
{
    const tw_amounts *at = &h->spec->at;
    for (int i = 0; i < at->count; i++) {
        bool found = false;
        for (int k = 0; k < at->count; k++) found = found || fabs(at->items[i].value + at->items[k].value - h->b.length_mm) < 0.01;
        if (!found) return false;
    }
    return true;
}

bool tw_housing_possible(const tw_housing *h)
{
    const double least = 0.1;
    bool housing = h->depth > least && h->depth < h->d - least && h->v1 - h->v0 > tw_max(h->w, 2.0 * h->radius) + least;
    bool end = h->l > least && h->body > least && h->notch_low + h->notch_high < h->wide - least;
    bool over = h->across + h->wide / 2.0 > h->v0 && h->across - h->wide / 2.0 < h->v1;
    for (int i = 0; i < h->spec->at.count; i++)
        housing = housing && h->spec->at.items[i].value > h->w / 2.0 && h->spec->at.items[i].value < h->b.length_mm - h->w / 2.0;
    bool tools = h->way == TW_HOUSING_SAW || (h->cutter >= 0 && h->cutter_d <= h->w + SAME_MM);
    return housing && end && over && tools && (h->way != TW_HOUSING_GUIDES || (h->follower >= 0 && h->guide_gap > h->w - SAME_MM));
}

static void plan_housing(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_housing_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name,
            "a housing lies across the grain of a face or an edge; in an end its walls would be short grain", "a face or an edge of the piece");
        return;
    }
    tw_housing *h = work_out(context, plan);
    plan->own = h;
    size_t halts = tw_findings_count(context->findings, TW_HALT);
    tw_housing_check(context, plan, h);
    if (!tw_housing_possible(h)) {
        assert(tw_findings_count(context->findings, TW_HALT) > halts);
        return;
    }
    tw_housing_cuts(context, plan, h);
    tw_housing_meetings(context, plan, h);
    tw_housing_works(context, plan, h);
}

const tw_joint_kind tw_housing_joint = {
    .format = { .kind = "housing",
                .meaning = "The end of one piece, with its whole thickness, is let into a trench across the grain of another: a shelf into a side. "
                           "Through, or stopped short of an edge so that it does not show there.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_housing_spec) },
    .plan = plan_housing,
    .draw = tw_housing_draw,
};
