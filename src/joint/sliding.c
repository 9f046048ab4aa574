// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: the end of one piece carries a tongue that is wider at its end, and slides into a housing of the same
 * shape across the grain of another, from an edge. It cannot be pulled out, only slid. Here: what the job may say, and
 * the plan in its steps. Proportions are in sliding_sizes.c. */
#include "joint/sliding_parts.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/trench.h"
#include "piece/pose.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const end_words[] = { "left end", "right end", NULL };
static const char *const sides_words[] = { "both", "face", "back", NULL };
static const char *const stop_words[] = { "none", "face", "back", "face edge", "back edge", NULL };
static const char *const stopped_words[] = { "notch", "chisel", NULL };
static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const by_words[] = { "copy", "guides", "saw", NULL };
static const char *const tongue_words[] = { "table", "copy", "saw", NULL };

#define AT(field) offsetof(tw_sliding_spec, field)
static const tw_key keys[] = {
    { "housed", TW_KEY_PIECE, AT(housed), .required = true, .meaning = "The piece whose end carries the dovetailed tongue: a shelf, a rail, a divider.", .example = "shelf" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = ends_words, .fallback = TW_SLIDING_BOTH, .otherwise = "both", .meaning = "Which ends of it carry one.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The piece that the housing is cut in.", .example = "side" },
    { "from", TW_KEY_CHOICE, AT(from), .required = true, .choices = tw_face_words,
      .meaning = "The side of that piece that carries the housing. A face or an edge, not an end.", .example = "face" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true, .meaning = "From the left end of that piece to the middle of the housed piece; a list when it takes several.",
      .example = "[40, 320, 600]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the housed piece's width across that side: from the face edge, or from the back where the housing is cut in an edge.", .example = "110 mm" },
    { "face to", TW_KEY_CHOICE, AT(face_to), .choices = end_words, .fallback = 1, .otherwise = "right end",
      .meaning = "Towards which end of that piece the face of the housed piece looks.", .example = "right end" },
    { "sides", TW_KEY_CHOICE, AT(sides), .choices = sides_words, .otherwise = "both",
      .meaning = "Which cheeks of the tongue are dovetailed: both; or one alone, at the face or the back of the housed piece, and the other stays bare.", .example = "back" },
    { "depth", TW_KEY_LENGTH, AT(depth), .otherwise = "a third of the piece's thickness there, at most as deep as the cutter cuts", .meaning = "How deep the housing is.", .example = "6 mm" },
    { "angle", TW_KEY_ANGLE, AT(angle), .least = TW_PI / 90.0, .most = TW_PI / 6.0, .otherwise = "the dovetail cutter's; by hand 1:8, in softwood 1:6",
      .meaning = "How far the dovetailed cheeks lean from square. Only cutters of this angle are then taken.", .example = "14 deg" },
    { "neck", TW_KEY_LENGTH, AT(neck), .otherwise = "about half of the housed piece's thickness, so that one pass of the dovetail cutter makes the housing",
      .meaning = "Thickness of the tongue where it is thinnest, at its shoulder.", .example = "9 mm" },
    { "stop", TW_KEY_CHOICE, AT(stop), .choices = stop_words, .otherwise = "none: the housing runs through",
      .meaning = "The side of the piece short of which the housing stops, so that it does not show there. The tongue comes in from the other side.", .example = "face edge" },
    { "stop short", TW_KEY_LENGTH, AT(stop_short), .otherwise = "12 mm, or 1/2 in", .meaning = "How far short of that side the housing stops.", .example = "12 mm" },
    { "stopped end", TW_KEY_CHOICE, AT(stopped_end), .choices = stopped_words, .fallback = 0, .otherwise = "notch",
      .meaning = "What answers for the round end that the cutter leaves at a stop: the tongue is cut back past it, or it is chopped square.", .example = "chisel" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .otherwise = "dry", .meaning = "Dry comes apart again; glued stays.", .example = "glued" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.1 mm, or 0.004 in", .meaning = "Housing less tongue, across, both sides together.", .example = "0.004 in" },
    { "bottom room", TW_KEY_LENGTH, AT(bottom_room), .most = 10.0, .otherwise = "0.2 mm, or 0.008 in",
      .meaning = "How far the tongue stays from the bottom of the housing, so that its shoulder closes first.", .example = "0.2 mm" },
    { "by", TW_KEY_CHOICE, AT(by), .choices = by_words, .otherwise = "copy where the machine takes it, else guides; saw where the shop has no dovetail cutter that serves",
      .meaning = "The housing: copied with a template, routed by hand between two straight guides, or sawn and chiselled.", .example = "guides" },
    { "tongue by", TW_KEY_CHOICE, AT(tongue_by), .choices = tongue_words, .otherwise = "table; saw where no dovetail cutter serves",
      .meaning = "The tongue: at a router table along a fence, copied round the outside of a template, or sawn and planed.", .example = "copy" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the one whose single pass leaves a neck nearest to half of the piece", .meaning = "The dovetail cutter, for housing and tongue.",
      .example = "dovetail 12.7" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing; for guides the smallest that the cutter passes", .meaning = "For the housing.", .example = "bush 16" },
};
#undef AT

#define SAME_MM 1e-6

/* ---- where things stand ---- */

int tw_sliding_face_way(const tw_sliding *s, bool right_end)
{
    bool turned = right_end && s->ends == 2 && s->handed;
    return (s->spec->face_to.value == 1) != turned ? 1 : -1;
}

bool tw_sliding_notch_at_face_edge(const tw_sliding *s, bool low, bool right_end)
{
    tw_frame axes = tw_housed_axes(s->from, right_end, tw_sliding_face_way(s, right_end) > 0);
    return (tw_spot_product(axes.up, tw_trench_along(s->from, s->low)) > 0.0) == low;
}

bool tw_sliding_places_symmetric(const tw_sliding *s)
{
    const tw_amounts *at = &s->spec->at;
    for (int i = 0; i < at->count; i++) {
        bool found = false;
        for (int k = 0; k < at->count; k++) found = found || fabs(at->items[i].value + at->items[k].value - s->b.length_mm) < 0.01;
        if (!found) return false;
    }
    return true;
}

bool tw_sliding_possible(const tw_sliding *s)
{
    const double least = 0.1;
    bool section = s->angle > 0.01 && s->depth > least && s->depth < s->d - least && s->l > least && s->neck > least && s->tip <= s->t + SAME_MM && s->shoulder > 0.0;
    bool housing = s->v1 - s->v0 > tw_max(least, 2.0 * s->radius + least);
    bool end = s->body > least && s->notch_low + s->notch_high < s->wide - least;
    bool over = s->across + s->wide / 2.0 - s->notch_high > s->v0 && s->across - s->wide / 2.0 + s->notch_low < s->v1;
    double reach = tw_max(-s->q0, s->q1) + s->c + s->depth * tan(s->angle);
    for (int i = 0; i < s->spec->at.count; i++) housing = housing && s->spec->at.items[i].value > reach && s->spec->at.items[i].value < s->b.length_mm - reach;
    bool router = s->cutter >= 0 && s->cutter_d <= s->w + SAME_MM && s->face_d > least && (s->cheeks == 2 || s->clear >= 0) && (s->way != TW_SLIDING_GUIDES || s->follower >= 0);
    bool tools = (s->way == TW_SLIDING_SAW || router) && (s->tongue_way == TW_TONGUE_SAW || s->cutter >= 0);
    return section && housing && end && over && tools;
}

/* ---- the plan ---- */

static bool stops_at(const tw_sliding_spec *spec, tw_face side) { return spec->stop.value != 0 && spec->stop.value - 1 == (int)side; }

static tw_sliding *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_sliding_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_sliding *s = TW_NEW(context->arena, tw_sliding);
    s->spec = spec;
    s->housed = &job->pieces[spec->housed.index];
    s->into = &job->pieces[spec->into.index];
    s->a = tw_piece_size(s->housed);
    s->b = tw_piece_size(s->into);
    s->from = (tw_face)spec->from.value;
    s->low = s->from <= TW_SIDE_BACK ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    s->high = tw_face_opposite(s->low);
    tw_size extent = tw_face_extent(s->b, s->from);
    s->e = extent.width_mm;
    s->d = extent.thickness_mm;
    s->t = s->a.thickness_mm;
    s->wide = s->a.width_mm;
    s->cheeks = spec->sides.value == TW_SLIDING_SIDES_BOTH ? 2 : 1;
    s->low_stopped = stops_at(spec, s->low);
    s->high_stopped = stops_at(spec, s->high);
    s->glued = spec->fit.value == 1;
    s->ends = spec->ends.value == TW_SLIDING_BOTH ? 2 : 1;
    s->housed_pieces = (int)(s->housed->count.value * job->sets.value);
    s->into_pieces = (int)(s->into->count.value * job->sets.value);
    s->joints = plan->count = s->housed_pieces * s->ends;
    return s;
}

static tw_sliding *work_out(tw_joint_context *context, tw_joint_plan *plan)
{
    tw_sliding *s = begin(context, plan);
    tw_sliding_propose(context, plan, s);
    tw_sliding_propose_stops(context, plan, s);
    tw_sliding_choose_tools(context, plan, s);
    tw_sliding_propose_end(context, plan, s);
    s->handed = s->low_stopped != s->high_stopped || fabs(s->across - s->e / 2.0) > SAME_MM;
    return s;
}

static void plan_sliding(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_sliding_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name,
            "a dovetailed housing lies across the grain of a face or an edge; in an end its walls would be short grain", "a face or an edge of the piece");
        return;
    }
    tw_sliding *s = work_out(context, plan);
    plan->own = s;
    size_t halts = tw_findings_count(context->findings, TW_HALT);
    tw_sliding_check(context, plan, s);
    if (!tw_sliding_possible(s)) {
        assert(tw_findings_count(context->findings, TW_HALT) > halts);
        return;
    }
    tw_sliding_cuts(context, plan, s);
    tw_sliding_meetings(context, plan, s);
    tw_sliding_works(context, plan, s);
}

const tw_joint_kind tw_sliding_dovetail = {
    .format = { .kind = "sliding dovetail",
                .meaning = "The end of one piece carries a tongue that widens towards its end, and slides from an edge into a housing of the same shape across the grain of another: "
                           "it holds the two together, also dry. Through, or stopped short of an edge; dovetailed on both cheeks or on one.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_sliding_spec) },
    .plan = plan_sliding,
    .draw = tw_sliding_draw,
};
