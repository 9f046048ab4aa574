// SPDX-License-Identifier: GPL-3.0-or-later
/* Housed bridle: the forked end of one piece straddles another, each prong in a housing. Here: what the job may say, and the
 * proportions with their rules (common practice where no source is named).
 *
 *     depth     a third of the other piece between the housed sides, so that each prong and the web have a third       (1)
 *     web       q = T - 2 depth                                                                                        (2)
 *     slot      s = q + ease                                                                                           (3)
 *     prong     g = (split - s)/2       split: the forked piece across its slot                                        (4)
 *     housing   w = B + c               B: as wide as a prong is                                                       (5)
 *               H = E - stop            stopped short of the far side; E where it runs through                         (6)
 *     prong     S = H - room            so deep is the slot, whose bottom stands on the side that the fork comes over  (7)
 *     corners   the cutter leaves a radius R: the prong is rounded to R, or notched by R + 1 mm, or they are chopped   (8)
 *
 * Strength. At the housings a load along the fork bends a T: the web q x E, and the full thickness beyond the stop
 * (T - q) x stop. With A, c, I = b h^3 / 12 of the two rectangles about their own middles,
 *     m = sum(A c) / sum(A),   I = sum(I + A (c - m)^2),   Z = I / max(m, E - m),   kept = Z / (T E^2 / 6)             (9)
 * and for a housing that runs through kept = q / T.
 *
 * Grain. Along the other piece the web is w long, across its grain H high, or E where the housings run through. Stopped,
 * the full thickness of the piece holds its edge; run through, nothing does, and a fork that leans bends the web across its
 * grain: where it is higher than long it breaks along it.
 *
 * Lengths of pieces are finished lengths, prongs included: body = length - S for each forked end. */
#include "joint/bridle.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/trench.h"
#include "joint/words.h"
#include "piece/pose.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const prongs_words[] = { "faces", "edges", NULL };
static const char *const housings_words[] = { "stopped", "through", NULL };
static const char *const corners_words[] = { "rounded prong", "corner notch", "chisel", NULL };
static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const by_words[] = { "copy", "saw", NULL };

#define AT(field) offsetof(tw_bridle_spec, field)
static const tw_key keys[] = {
    { "forked", TW_KEY_PIECE, AT(forked), .required = true, .meaning = "The piece whose end is slotted to a fork of two "
        "prongs.", .example = "post" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = ends_words, .fallback = TW_FORKED_BOTH, .otherwise = "both",
        .meaning = "Which ends of it are forked.", .example = "left" },
    { "prongs", TW_KEY_CHOICE, AT(prongs), .choices = prongs_words, .fallback = 0, .otherwise = "faces",
        .meaning = "Which of its sides the prongs carry on: face and back (the slot is seen on the edges), or the two edges (the "
        "slot is seen on the face).", .example = "faces" },
    { "over", TW_KEY_PIECE, AT(over), .required = true, .meaning = "The piece that the fork rides over; a housing for each prong "
        "is cut in two of its sides.", .example = "beam" },
    { "from", TW_KEY_CHOICE, AT(from), .required = true, .choices = tw_face_words, .meaning = "The side of that piece that the "
        "fork comes over, and that its slot's bottom stands on. The housings lie in the two sides beside it. A face or an edge, "
        "not an end.", .example = "face edge" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true, .meaning = "From the left end of that piece to the middle of the fork; a "
        "list when it takes several.", .example = "[120, 560]" },
    { "housings", TW_KEY_CHOICE, AT(housings), .choices = housings_words, .fallback = 0, .otherwise = "stopped",
      .meaning = "Whether the housings stop short of the far side, or run through to it.", .example = "stopped" },
    { "stop short", TW_KEY_LENGTH, AT(stop_short), .otherwise = "a quarter of the piece there, at most 12 mm, or 1/2 in",
        .meaning = "How far short of the far side the housings stop.", .example = "12 mm" },
    { "depth", TW_KEY_LENGTH, AT(depth), .otherwise = "a third of the piece's thickness there",
        .meaning = "How deep each housing is; the web is what is left between the two.", .example = "12 mm" },
    { "corners", TW_KEY_CHOICE, AT(corners), .choices = corners_words, .fallback = TW_ANSWER_ROUNDED,
        .otherwise = "rounded prong", .meaning = "What answers for the round corners that the cutter leaves at the stops: the "
        "prong's corners are rounded to them, or notched past them, or they are chopped square.", .example = "corner notch" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .otherwise = "dry", .meaning = "Dry comes apart again; glued stays.",
        .example = "glued" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.2 mm dry, 0.1 mm glued",
        .meaning = "Housing less the prong's width, both walls together.", .example = "0.008 in" },
    { "ease", TW_KEY_LENGTH, AT(ease), .most = 5.0, .otherwise = "0.2 mm dry, 0.1 mm glued",
        .meaning = "Slot less the web, both sides together.", .example = "0.2 mm" },
    { "end room", TW_KEY_LENGTH, AT(end_room), .most = 10.0, .otherwise = "0.5 mm, or 1/64 in; none where the housings run "
        "through", .meaning = "How far the prong's end stays from the stop, so that the slot's bottom closes first, where it "
        "shows.", .example = "0.5 mm" },
    { "by", TW_KEY_CHOICE, AT(by), .choices = by_words, .otherwise = "copy where the machine takes it, else saw",
        .meaning = "Whether the housings are copied with a template, or sawn and chiselled.", .example = "copy" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the largest that is no wider than the housing",
        .meaning = "For the housings.", .example = "long 12.7" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For the housings.",
        .example = "bush 25.4" },
    { "slot by", TW_KEY_CHOICE, AT(slot_by), .choices = by_words, .fallback = 1, .otherwise = "saw",
        .meaning = "Whether the slot is copied with a template, or bandsawn and its bottom chopped.", .example = "copy" },
    { "slot cutter", TW_KEY_CUTTER, AT(slot_cutter), .otherwise = "the largest that is no wider than the slot",
        .meaning = "For the slot, where it is copied.", .example = "spiral 9.5" },
};
#undef AT

/* ---- proportions ---- */

#define NOTCH_ROOM_MM 1.0     // a notch goes so much past what it makes room for: common practice
#define SAME_MM 1e-6

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }

static void propose_web(tw_joint_context *context, tw_joint_plan *plan, tw_bridle *b)
{
    tw_arena *arena = context->arena;
    b->depth = tw_plan_amount(context, plan, &b->spec->depth, "depth", "each housing, deep", "", TW_UNIT_MM,
        tw_rounded_down(context, b->T / 3.0), tw_format(arena, "1/3 x %s, down to a round figure", bare(context, b->T)),
        "a third for each prong, a third for the web (common practice)");
    b->q = b->T - 2.0 * b->depth;
    tw_note_length(context, plan, "web", "web between the housings", b->q, tw_format(arena, "%s - 2 x %s", bare(context, b->T),
        bare(context, b->depth)), "");
    double usual = b->glued ? tw_customary(context, 0.1, 0.004) : tw_customary(context, 0.2, 0.008);
    const char *rule = b->glued ? "a few thousandths of an inch, for the glue (common practice)"
        : "what gets no glue is left slightly loose (common practice)";
    b->ease = tw_plan_amount(context, plan, &b->spec->ease, "ease", "slot over web", "", TW_UNIT_MM, usual,
        bare(context, usual), rule);
    b->s = b->q + b->ease;
    tw_note_length(context, plan, "slot", "slot, wide", b->s, tw_format(arena, "web + ease = %s + %s", bare(context, b->q),
        bare(context, b->ease)), "from the web's real thickness: measure it first");
    b->g = (b->split - b->s) / 2.0;
    tw_note_length(context, plan, "prong", "each prong, thick", b->g, tw_format(arena, "(%s - slot)/2 = (%s - %s)/2",
        b->forked->name, bare(context, b->split), bare(context, b->s)), "");
    b->c = tw_plan_amount(context, plan, &b->spec->clearance, "clearance", "housing over prong", "c", TW_UNIT_MM, usual,
        bare(context, usual), rule);
    b->w = b->B + b->c;
    tw_note_length(context, plan, "housing_width", "housing, wide", b->w, tw_format(arena, "prong's width + c = %s + %s",
        bare(context, b->B), bare(context, b->c)), "from the real width of the forked piece: measure it first");
}

static void propose_length(tw_joint_context *context, tw_joint_plan *plan, tw_bridle *b)
{
    tw_arena *arena = context->arena;
    if (b->stopped) {
        double usual = tw_min(tw_customary(context, 12.0, 0.5), tw_rounded_down(context, b->E / 4.0));
        b->stop = tw_plan_amount(context, plan, &b->spec->stop_short, "stop_short", "housings stop short by", "", TW_UNIT_MM,
            usual, tw_format(arena, "1/4 x %s, at most %s", bare(context, b->E), bare(context,
            tw_customary(context, 12.0, 0.5))), "the full thickness beyond the stop holds the web's edge (common practice)");
    }
    b->H = b->E - b->stop;
    tw_note_length(context, plan, "housing_length", "housing, from end to end", b->H, b->stopped ? tw_format(arena, "%s - %s",
        bare(context, b->E), bare(context, b->stop)) : tw_format(arena, "%s, right through", bare(context, b->E)), "");
    if (b->stopped) {
        double usual = tw_customary(context, 0.5, 1.0 / 64.0);
        b->room = tw_plan_amount(context, plan, &b->spec->end_room, "end_room", "room past the prong's end", "", TW_UNIT_MM,
            usual, bare(context, usual), "the slot's bottom closes first, where it shows");
    }
    b->S = b->H - b->room;
    tw_note_length(context, plan, "prong_length", "prongs, long (the slot so deep)", b->S,
        b->stopped ? tw_format(arena, "housing - room = %s - %s", bare(context, b->H), bare(context, b->room))
        : tw_format(arena, "%s, level with the far side", bare(context, b->H)), "");
    b->body = b->a.length_mm - b->ends * b->S;
    tw_note_length(context, plan, "body", b->ends == 2 ? "between the pieces it rides over" : "from the piece it rides over to "
        "the other end", b->body, tw_format(arena, "%s - %d x %s", bare(context, b->a.length_mm), b->ends, bare(context, b->S)),
        "lengths of pieces are finished lengths, prongs included");
}

/* ---- strength and grain ---- */

double tw_bridle_strength(const tw_bridle *b)
{
    double web_area = b->q * b->E, rim_area = (b->T - b->q) * b->stop, web_middle = b->E / 2.0, rim_middle = b->E - b->stop / 2.0;
    double middle = (web_area * web_middle + rim_area * rim_middle) / (web_area + rim_area);
    double moment = b->q * pow(b->E, 3.0) / 12.0 + web_area * tw_square(web_middle - middle) + (b->T - b->q) * pow(b->stop,
        3.0) / 12.0 + rim_area * tw_square(rim_middle - middle);
    return moment / tw_max(middle, b->E - middle) / (b->T * tw_square(b->E) / 6.0);
}

double tw_bridle_web_height(const tw_bridle *b, bool *free_edge)
{
    *free_edge = !b->stopped;
    return b->H;
}

static void note_grain(tw_joint_context *context, tw_joint_plan *plan, const tw_bridle *b)
{
    bool free_edge;
    double high = tw_bridle_web_height(b, &free_edge);
    tw_note_length(context, plan, "web_along", "web, along its grain", b->w, "as long as the housing is wide", "");
    tw_note_length(context, plan, "web_across", "web, across its grain", high, free_edge ? "from side to side" : "to the stop",
        free_edge ? "no thicker wood holds its edges" : "the full thickness beyond the stop holds its edge");
    if (!(b->q > 0.0 && b->stop >= 0.0 && b->stop < b->E)) return;
    tw_plan_figure(context, plan, (tw_figure){ .key = "strength", .label = "bending strength left there",
        .value = tw_bridle_strength(b), .unit = TW_UNIT_NONE, .sum = b->stopped ? tw_format(context->arena,
        "modulus of the web %s x %s and of %s x %s beyond the stop, over that of %s x %s", bare(context, b->q),
        bare(context, b->E), bare(context, b->T - b->q), bare(context, b->stop), bare(context, b->T),
        bare(context, b->E)) : tw_format(context->arena, "web / thickness = %s / %s", bare(context, b->q), bare(context, b->T)),
        .rule = "section modulus b h^2 / 6, of a T where it is stopped" });
}

/* ---- how it is cut ---- */

static bool machine_takes(const tw_machine *machine, const tw_bridle *b)
{
    return tw_trench_in_reach(machine, &(tw_trench_reach){ .from_mm = b->stopped ? b->stop : -b->cutter_d,
        .to_mm = b->E + b->cutter_d, .across_mm = b->E, .depth_mm = b->depth, .cutter_mm = b->cutter_d, .low_down = b->stopped });
}

static void take_cutter(const tw_shop *shop, tw_bridle *b, int cutter)
{
    b->cutter = cutter;
    b->cutter_d = cutter >= 0 ? shop->cutters[cutter].d_mm : 0.0;
}

/* The named cutter; or the largest with which the machine reaches along the housing; or the largest at all. */
static void choose_cutter(const tw_shop *shop, tw_bridle *b)
{
    if (b->spec->cutter.given) {
        take_cutter(shop, b, tw_cutter_named(shop, b->spec->cutter.text));
        return;
    }
    int largest = tw_cutter_for_trench(shop, b->w, b->depth);
    for (int next = largest; next >= 0; next = tw_cutter_for_trench(shop, b->cutter_d - SAME_MM * 10.0, b->depth)) {
        take_cutter(shop, b, next);
        if (machine_takes(&shop->machine, b)) return;
    }
    take_cutter(shop, b, largest);
}

static void choose_tools(const tw_joint_context *context, tw_bridle *b)
{
    const tw_bridle_spec *spec = b->spec;
    const tw_shop *shop = context->shop;
    choose_cutter(shop, b);
    bool takes = b->cutter >= 0 && machine_takes(&shop->machine, b);
    b->sawn = spec->by.given ? spec->by.value == 1 : !takes && !spec->cutter.given;
    if (b->sawn) b->cutter_d = 0.0;
    b->over_run = b->cutter_d;
    b->slot_copied = spec->slot_by.value == 0;
    b->slot_cutter = spec->slot_cutter.given ? tw_cutter_named(shop, spec->slot_cutter.text)
        : tw_cutter_for_trench(shop, b->s, b->B / 2.0 + TW_BRIDLE_BREAK_MM);
    b->slot_d = b->slot_cutter >= 0 ? shop->cutters[b->slot_cutter].d_mm : 0.0;
}

static void propose_corners(tw_joint_context *context, tw_joint_plan *plan, tw_bridle *b)
{
    tw_arena *arena = context->arena;
    b->answer = b->sawn || !b->stopped ? TW_ANSWER_CHISEL : (tw_bridle_answer)b->spec->corners.value;
    if (b->answer == TW_ANSWER_CHISEL) return;
    b->R = tw_min(b->cutter_d, b->w) / 2.0;
    tw_note_length(context, plan, "corner_radius", "radius left in the housing's corners", b->R,
        tw_format(arena, "cutter / 2 = %s / 2", bare(context, b->cutter_d)), "");
    double room = tw_customary(context, NOTCH_ROOM_MM, 1.0 / 32.0);
    b->answer_mm = b->answer == TW_ANSWER_NOTCH ? b->R + room : tw_min(b->R, b->B / 2.0);
    if (b->answer == TW_ANSWER_NOTCH)
        tw_note_length(context, plan, "corner_notch", "notch in each corner of a prong", b->answer_mm,
            tw_format(arena, "radius + %s = %s + %s", bare(context, room), bare(context, b->R), bare(context, room)),
            "goes past what the cutter leaves (common practice)");
    else
        tw_note_length(context, plan, "prong_radius", "radius of a prong's corners", b->answer_mm,
            "that of the housing's corners", "no smaller, or the corner stands on the wood that is left there");
}

/* ---- the plan ---- */

static tw_bridle *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_bridle_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_bridle *b = TW_NEW(context->arena, tw_bridle);
    *b = (tw_bridle){ .spec = spec, .forked = &job->pieces[spec->forked.index], .over = &job->pieces[spec->over.index], .from = (tw_face)spec->from.value };
    b->a = tw_piece_size(b->forked);
    b->b = tw_piece_size(b->over);
    bool from_broad = b->from <= TW_SIDE_BACK;
    b->sides[0] = from_broad ? TW_SIDE_FACE_EDGE : TW_SIDE_FACE;
    b->sides[1] = tw_face_opposite(b->sides[0]);
    tw_size extent = tw_face_extent(b->b, b->sides[0]);
    b->E = extent.width_mm;
    b->T = extent.thickness_mm;
    bool faces = spec->prongs.value == 0;
    b->split = faces ? b->a.thickness_mm : b->a.width_mm;
    b->B = faces ? b->a.width_mm : b->a.thickness_mm;
    b->stopped = spec->housings.value == 0;
    b->glued = spec->fit.value == 1;
    b->ends = spec->ends.value == TW_FORKED_BOTH ? 2 : 1;
    b->forked_pieces = (int)(b->forked->count.value * job->sets.value);
    b->over_pieces = (int)(b->over->count.value * job->sets.value);
    b->joints = plan->count = b->forked_pieces * b->ends;
    return b;
}

bool tw_bridle_has_end(const tw_bridle *b, tw_face end)
{
    return b->spec->ends.value == TW_FORKED_BOTH || b->spec->ends.value == (end == TW_SIDE_RIGHT_END ? TW_FORKED_RIGHT : TW_FORKED_LEFT);
}

bool tw_bridle_possible(const tw_bridle *b)
{
    const double least = 0.1;
    bool section = b->depth > least && b->q > least && b->g > least && b->ease >= 0.0 && b->c >= 0.0;
    bool length = (!b->stopped || b->stop > least) && b->H > b->R + least && b->S > b->answer_mm + least && b->body > least;
    bool prong = b->answer != TW_ANSWER_NOTCH || b->B > 2.0 * b->answer_mm + least;
    bool tools = b->sawn || (b->cutter >= 0 && b->cutter_d <= b->w + SAME_MM);
    for (int i = 0; i < b->spec->at.count; i++)
        section = section && b->spec->at.items[i].value > b->w / 2.0 && b->spec->at.items[i].value < b->b.length_mm - b->w / 2.0;
    return section && length && prong && tools && (!b->slot_copied || (b->slot_cutter >= 0 && b->slot_d <= b->s + SAME_MM));
}

static void plan_bridle(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_bridle_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name,
            "the fork rides over the side of a piece that runs past it; over an end it would meet end grain and split off what "
            "stands beside it", "a face or an edge of the piece");
        return;
    }
    tw_bridle *b = begin(context, plan);
    plan->own = b;
    propose_web(context, plan, b);
    propose_length(context, plan, b);
    choose_tools(context, b);
    propose_corners(context, plan, b);
    note_grain(context, plan, b);
    size_t halts = tw_findings_count(context->findings, TW_HALT);
    tw_bridle_check(context, plan, b);
    if (!tw_bridle_possible(b)) {
        assert(tw_findings_count(context->findings, TW_HALT) > halts);
        return;
    }
    tw_bridle_cuts(context, plan, b);
    tw_bridle_works(context, plan, b);
}

const tw_joint_kind tw_housed_bridle = {
    .format = { .kind = "housed bridle", .meaning = "The forked end of one piece rides over another: its two prongs sit in "
        "housings on two opposite sides, the web between these sits in its slot. The housings stop short of the far side.",
        .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_bridle_spec) },
    .plan = plan_bridle,
    .draw = tw_bridle_draw,
};
