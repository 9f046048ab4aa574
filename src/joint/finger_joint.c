// SPDX-License-Identifier: GPL-3.0-or-later
/* Finger joint: two boards meet square at their ends with straight fingers that go between each other. Here: what the job
 * may say, the proportions with their rules (common practice where no source is named), the cuts.
 *
 *     copied, sawn      n = the odd number nearest to width / thinner board; all places alike: p = W/n            (3)
 *     with a stepping jig  p = d - c/2, the cutter making the gap; n so that p/2 < e <= p                           (4)
 *     finger given      p = it; n the least odd number with e <= 3p/2                                              (5)
 *     strips of the jig    pin to the edge of a: p - e - c/4;  of b: one place more                                (6)
 *
 * (6): the pin is as wide as the gap, and its near side stands one finger, p - c/2, from the cutter's near flank. The first
 * gap of a begins e - c/4 from its edge; the edge gap of b ends e + c/4 from its edge, at the cutter's far flank.
 *
 * All gaps are cut from the end, as deep as the mate is thick, so bottoms and walls come out square and no corner stays
 * round in the wood. The length of a piece is the outside size of the box, and what stands proud of it at first. */
#include "joint/finger_joint.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/words.h"

/* ---- what the job may say ---- */

static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const by_words[] = { "copy", "step", "saw", NULL };

#define AT(field) offsetof(tw_finger_spec, field)
static const tw_key keys[] = {
    { "fingers", TW_KEY_PIECE, AT(fingers), .required = true, .meaning = "The board that has a finger at its face edge; with an odd number of places at both edges.", .example = "long side" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = tw_corner_end_words, .fallback = TW_CORNER_BOTH, .otherwise = "both", .meaning = "Which ends of it are joined.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The board that has a gap there. Both are of one width; the length of each counts to the outside of the other.",
      .example = "short side" },
    { "into ends", TW_KEY_CHOICE, AT(into_ends), .choices = tw_corner_end_words, .fallback = TW_CORNER_BOTH, .otherwise = "both",
      .meaning = "Which ends of that board are joined. A right end meets a left end; where two alike ends meet, one board stands upside down.", .example = "both" },
    { "faces", TW_KEY_CHOICE, AT(faces), .choices = tw_corner_look_words, .fallback = 0, .otherwise = "out", .meaning = "Whether the faces of both boards look out of the box or into it.", .example = "out" },
    { "number", TW_KEY_COUNT, AT(number), .least = 1, .most = TW_COUNT_MOST, .otherwise = "odd, so that places are about as wide as the thinner board is thick; with a stepping jig as the cutter gives it",
      .meaning = "Fingers and gaps over the width, both together. Odd: both edges alike.", .example = "9" },
    { "finger", TW_KEY_LENGTH, AT(finger), .otherwise = "the width shared evenly; with a stepping jig the cutter less half of the clearance",
      .meaning = "Width of an inner place, between finger and gap; what remains of the board's width is shared by the two edge places.", .example = "12 mm" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.1 mm glued, 0.2 mm dry", .meaning = "Gap less finger, both walls together.", .example = "0.1 mm" },
    { "proud", TW_KEY_LENGTH, AT(proud), .most = 10.0, .otherwise = "nothing: they come level",
      .meaning = "How far fingers stand out beyond the mate until they are planed level. It counts in the length of the pieces.", .example = "0.5 mm" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .fallback = 1, .otherwise = "glued", .meaning = "Glued stays; dry comes apart again.", .example = "glued" },
    { "by", TW_KEY_CHOICE, AT(by), .choices = by_words, .otherwise = "copy where the machine reaches over the width, else step where a cutter is long enough, else saw",
      .meaning = "Copied with a comb template; cut one gap after the other at a router table with a stepping jig; or sawn and chiselled by hand.", .example = "step" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "copied: the largest that goes into a gap; stepped: the largest that is no wider than the thinner board is thick",
      .meaning = "For the gaps.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For copied gaps.", .example = "bush 16" },
};
#undef AT

/* ---- proportions ---- */

#define SAME_MM 1e-6
#define HUGE_NUMBER 100000.0

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }
static double thinner(const tw_finger *f) { return tw_min(f->k.a.size.thickness_mm, f->k.b.size.thickness_mm); }
static double thicker(const tw_finger *f) { return tw_max(f->k.a.size.thickness_mm, f->k.b.size.thickness_mm); }
static double plunge_most(const tw_finger *f) { return thicker(f) + f->k.proud; }

/* The odd whole number nearest to a value, at least 3. */
static int odd_near(double value) { return 2 * (int)floor(tw_max(1.0, tw_min(value, HUGE_NUMBER) / 2.0)) + 1; }

static void lay_out(tw_finger *f, double place_mm, int number)
{
    f->p = place_mm;
    f->n = number;
    f->e = (f->k.wide - (number - 2) * place_mm) / 2.0;
    f->gap = f->p + f->c / 2.0;
    f->wide = f->p - f->c / 2.0;
}

/* (5): the least odd number of inner places that leaves edge places of at most one and a half. */
static int number_for(double wide_mm, double place_mm)
{
    int inner = (int)tw_max(1.0, ceil(tw_min(wide_mm / place_mm, HUGE_NUMBER) - 3.0 - SAME_MM));
    return 2 + inner + (inner % 2 == 0);
}

/* (3), (5); a number and a finger that are given are kept. Fewer, wider places where no cutter goes into so narrow a gap. */
static void lay_out_evenly(const tw_joint_context *context, tw_finger *f)
{
    const tw_finger_spec *spec = f->spec;
    double wide = f->k.wide, finger = spec->finger.value;
    int number = spec->number.given ? (int)spec->number.value : spec->finger.given ? number_for(wide, finger) : odd_near(wide / thinner(f));
    lay_out(f, spec->finger.given ? finger : wide / number, number);
    if (spec->number.given || spec->finger.given || spec->cutter.given) return;
    while (f->n > 3 && tw_cutter_for_trench(context->shop, f->gap, plunge_most(f)) < 0) lay_out(f, wide / (f->n - 2), f->n - 2);
}

/* ---- how it is cut ---- */

static bool machine_takes(const tw_machine *machine, const tw_finger *f)
{
    return tw_corner_in_reach(machine, (tw_size){ f->k.wide + 2.0 * f->over, thicker(f) + 2.0 * f->over, plunge_most(f) }, f->cutter_d);
}

static void take_cutter(const tw_shop *shop, tw_finger *f, int cutter)
{
    f->cutter = cutter;
    f->cutter_d = f->over = cutter >= 0 ? shop->cutters[cutter].d_mm : 0.0;
    f->straight = cutter >= 0 && tw_cutter_is_straight(&shop->cutters[cutter]);
}

/* The largest cutter that is long enough and no wider than most_mm; it comes in from the side, so its end need not cut. */
static int cutter_for_step(const tw_shop *shop, double most_mm, double deep_mm)
{
    int best = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        if (!tw_cutter_is_straight(cutter) || cutter->d_mm > most_mm + SAME_MM || cutter->cutting_length.value < deep_mm - SAME_MM) continue;
        if (best < 0 || cutter->d_mm > shop->cutters[best].d_mm) best = i;
    }
    return best;
}

static bool try_copy(const tw_shop *shop, tw_finger *f)
{
    if (f->spec->cutter.given) take_cutter(shop, f, tw_cutter_named(shop, f->spec->cutter.text));
    else take_cutter(shop, f, tw_cutter_for_trench(shop, f->gap, plunge_most(f)));
    return f->cutter >= 0 && shop->cutters[f->cutter].plunges.value && f->cutter_d <= f->gap + SAME_MM
        && shop->cutters[f->cutter].cutting_length.value >= plunge_most(f) - SAME_MM && machine_takes(&shop->machine, f);
}

/* (4), (6). With a finger given the cutter must make its gap: the nearest is taken, and checked. */
static bool try_step(const tw_shop *shop, tw_finger *f)
{
    const tw_finger_spec *spec = f->spec;
    double most = spec->finger.given ? spec->finger.value + f->c / 2.0 : thinner(f);
    take_cutter(shop, f, spec->cutter.given ? tw_cutter_named(shop, spec->cutter.text) : cutter_for_step(shop, most, plunge_most(f)));
    if (f->cutter < 0) return false;
    double place = spec->finger.given ? spec->finger.value : f->cutter_d - f->c / 2.0;
    if (place <= SAME_MM) return false;
    double inner = ceil(tw_min(f->k.wide / place, HUGE_NUMBER) - 2.0 - SAME_MM);
    lay_out(f, place, spec->number.given ? (int)spec->number.value : 2 + (int)tw_max(1.0, inner));
    f->strip_a = f->p - f->e - f->c / 4.0;
    f->strip_b = f->strip_a + f->p;
    return shop->cutters[f->cutter].cutting_length.value >= plunge_most(f) - SAME_MM;
}

static void choose_way(const tw_joint_context *context, tw_finger *f)
{
    const tw_finger_spec *spec = f->spec;
    const tw_shop *shop = context->shop;
    lay_out_evenly(context, f);
    bool copies = try_copy(shop, f);
    f->way = spec->by.given ? (tw_finger_way)spec->by.value : copies ? TW_FINGER_COPY : spec->cutter.given ? TW_FINGER_COPY : TW_FINGER_STEP;
    if (f->way == TW_FINGER_COPY) {
        if (copies || spec->by.given) return;
        f->way = TW_FINGER_STEP;
    }
    if (f->way == TW_FINGER_STEP) {
        bool steps = try_step(shop, f);
        if (steps || spec->by.given || spec->cutter.given) return;
        lay_out_evenly(context, f);
        f->way = TW_FINGER_SAW;
    }
    take_cutter(shop, f, -1);
}

/* ---- figures ---- */

static void note_places(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f)
{
    tw_arena *arena = context->arena;
    const tw_finger_spec *spec = f->spec;
    const char *wide = bare(context, f->k.wide), *c = bare(context, f->c);
    bool stepped = f->way == TW_FINGER_STEP, even = !stepped && !spec->finger.given;
    tw_plan_amount(context, plan, &spec->number, "number", "fingers and gaps over the width", "n", TW_UNIT_NONE, f->n,
        even ? tw_format(arena, "odd, about width / thinner board = %s / %s", wide, bare(context, thinner(f)))
             : tw_format(arena, stepped ? "2 + what the width takes of inner places: %s / %s - 2, up" : "odd: 2 + what the width takes of inner places, %s / %s - 3, up", wide, bare(context, f->p)),
        even ? "a finger about as wide as the board is thick (common practice); odd, so that both edges are alike" : "edge places near the inner ones in width");
    tw_plan_amount(context, plan, &spec->finger, "finger", "inner place, between finger and gap", "p", TW_UNIT_MM, f->p,
        stepped ? tw_format(arena, "cutter - c/2 = %s - %s/2", bare(context, f->cutter_d), c) : tw_format(arena, "width / n = %s / %d", wide, f->n),
        stepped ? "the cutter makes the gap (common practice)" : "all places alike");
    tw_note_length(context, plan, "edge_place", "place at each edge", f->e, tw_format(arena, "(width - (n - 2) p)/2 = (%s - %d x %s)/2", wide, f->n - 2, bare(context, f->p)),
        "what remains of the width is shared by both edges");
    tw_note_length(context, plan, "gap", "gap", f->gap, tw_format(arena, "p + c/2 = %s + %s/2", bare(context, f->p), c), "each of its two walls a quarter of c back");
    tw_note_length(context, plan, "finger_width", "finger", f->wide, tw_format(arena, "p - c/2 = %s - %s/2", bare(context, f->p), c), "");
}

static void note_jig(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f)
{
    if (f->way != TW_FINGER_STEP || f->cutter < 0) return;
    tw_arena *arena = context->arena;
    const char *p = bare(context, f->p), *e = bare(context, f->e), *c = bare(context, f->c);
    tw_note_length(context, plan, "pin_wide", "pin of the jig, wide", f->gap, "as wide as the gap, so that gaps just slide over it", "");
    tw_note_length(context, plan, "pin_to_cutter", "from the pin's near side to the cutter's near flank", f->wide, "one finger", "");
    if (f->strip_a > SAME_MM)
        tw_note_length(context, plan, "strip", tw_format(arena, "strip between pin and edge, first cut of %s", f->k.a.piece->name), f->strip_a,
            tw_format(arena, "p - e - c/4 = %s - %s - %s/4", p, e, c), "the edge finger is narrower by so much");
    if (f->strip_b > SAME_MM)
        tw_note_length(context, plan, "into_strip", tw_format(arena, "strip between pin and edge, first cut of %s", f->k.b.piece->name), f->strip_b,
            tw_format(arena, "2p - e - c/4 = 2 x %s - %s - %s/4", p, e, c), "");
}

/* ---- the plan ---- */

static tw_finger *work_out(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_finger_spec *spec = plan->joint->spec;
    tw_finger *f = TW_NEW(context->arena, tw_finger);
    f->spec = spec;
    f->k = tw_corner_of(context, spec->fingers, spec->ends, spec->into, spec->into_ends, spec->faces, spec->fit.value == 1, spec->proud.value);
    plan->count = f->k.joints;
    double clearance = f->k.glued ? tw_customary(context, 0.1, 0.004) : tw_customary(context, 0.2, 0.008);
    f->c = tw_plan_amount(context, plan, &spec->clearance, "clearance", "gap over finger", "c", TW_UNIT_MM, clearance, bare(context, clearance),
        f->k.glued ? "a few thousandths of an inch, for the glue (common practice)" : "what gets no glue is left slightly loose (common practice)");
    tw_plan_amount(context, plan, &spec->proud, "proud", "fingers stand proud by", "", TW_UNIT_MM, 0.0, "none", "they come level");
    choose_way(context, f);
    note_places(context, plan, f);
    static const char *const gaps[] = { "gaps of ", ", deep" };
    tw_corner_note_sizes(context, plan, &f->k, gaps, gaps);
    note_jig(context, plan, f);
    return f;
}

bool tw_finger_possible(const tw_finger *f)
{
    const double least = 0.1;
    bool places = f->n >= 3 && f->n <= TW_FINGER_PLACES_MOST && f->wide > least && f->e - f->c / 4.0 > least;
    bool tools = f->way == TW_FINGER_SAW || (f->cutter >= 0 && f->straight && f->cutter_d <= f->gap + SAME_MM);
    bool jig = f->way != TW_FINGER_STEP || (f->strip_a > -SAME_MM && fabs(f->cutter_d - f->gap) < 0.05);
    return tw_corner_possible(&f->k) && places && tools && jig;
}

int tw_finger_gaps(const tw_finger *f, bool of_b) { return of_b ? (f->n + 1) / 2 : f->n / 2; }

double tw_finger_deep(const tw_finger *f, bool of_b) { return tw_corner_deep(&f->k, of_b ? &f->k.b : &f->k.a); }

/* Line k, from 0 (the face edge) to n (the back edge). */
static double line_mm(const tw_finger *f, int k) { return k == 0 ? 0.0 : k == f->n ? f->k.wide : f->e + (k - 1) * f->p; }

void tw_finger_gap(const tw_finger *f, bool of_b, int which, double past_mm, double *from_mm, double *to_mm)
{
    int place = 2 * which + (of_b ? 0 : 1);
    assert(place < f->n);
    *from_mm = line_mm(f, place) - (place == 0 ? past_mm : f->c / 4.0);
    *to_mm = line_mm(f, place + 1) + (place == f->n - 1 ? past_mm : f->c / 4.0);
}

/* In b, y is counted from its own face edge: the other one where it stands upside down. */
static void cut_end(tw_joint_context *context, tw_joint_plan *plan, const tw_finger *f, bool of_b, tw_face end)
{
    const tw_corner_board *board = of_b ? &f->k.b : &f->k.a;
    if (!tw_corner_has_end(board, end)) return;
    for (int i = 0; i < tw_finger_gaps(f, of_b); i++) {
        double from, to;
        tw_finger_gap(f, of_b, i, 0.0, &from, &to);
        if (of_b && f->k.turned) { double low = f->k.wide - to; to = f->k.wide - from; from = low; }
        double x0 = tw_corner_end_x(board, end, from), x1 = tw_corner_end_x(board, end, to);
        tw_plan_cut(context, plan, (tw_cut){ .piece = board->index, .name = "gap", .face = end, .depth_mm = tw_finger_deep(f, of_b),
            .outline = tw_outline_rectangle(context->arena, tw_min(x0, x1), 0.0, tw_max(x0, x1), board->size.thickness_mm) });
    }
}

static void plan_finger_joint(tw_joint_context *context, tw_joint_plan *plan)
{
    assert(context->shop && plan->joint->kind < TW_JOINT_KINDS_MOST);
    tw_finger *f = work_out(context, plan);
    plan->own = f;
    size_t halts = tw_findings_count(context->findings, TW_HALT);
    tw_finger_check(context, plan, f);
    if (!tw_finger_possible(f)) {
        assert(tw_findings_count(context->findings, TW_HALT) > halts);
        return;
    }
    for (int b = 0; b < 2; b++) {
        cut_end(context, plan, f, b == 1, TW_SIDE_LEFT_END);
        cut_end(context, plan, f, b == 1, TW_SIDE_RIGHT_END);
    }
    tw_corner_meetings(context, plan, &f->k);
    tw_finger_works(context, plan, f);
}

const tw_joint_kind tw_finger_joint = {
    .format = { .kind = "finger joint",
                .meaning = "Two boards of one width meet square at their ends with straight fingers that go between each other: the corners of a box. "
                           "One joint with both ends of both boards makes all four corners.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_finger_spec) },
    .plan = plan_finger_joint,
    .draw = tw_finger_draw,
};
