// SPDX-License-Identifier: GPL-3.0-or-later
/* Through dovetail: tails on one board, pins on the other, both seen at the corner. Here: what the job may say, the
 * proportions with their rules (common practice where no source is named), the tools.
 *
 *     slope     1:8 in hardwood, 1:6 in softwood; copied: the dovetail cutter's angle                            (3)
 *     tails     n = (W - 2 h + q) / (2 thinner board + q): a tail about twice as wide as the board is thick      (4)
 *     pin       by hand a third of the thinner board; copied, one pass of a dovetail cutter d wide at its tip:
 *               q = d - c/2 - 2 t s                                                                              (5)
 *     half pin  no less than a pin, and 6 mm: it is held on one side only                                        (6)
 *
 * The gaps between tails are cut from the end with the dovetail cutter, its tip at the roots. The sockets between pins are
 * straight along the grain of b, so a straight cutter cuts them from the end, along a template with slanting walls. */
#include "joint/dovetail.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/words.h"
#include "mech/mech.h"

/* ---- what the job may say ---- */

static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const by_words[] = { "copy", "saw", NULL };

#define AT(field) offsetof(tw_dovetail_spec, field)
static const tw_key keys[] = {
    { "tails", TW_KEY_PIECE, AT(tails), .required = true, .meaning = "The board that carries the tails: the one that is pulled, such as the side of a drawer.", .example = "side" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = tw_corner_end_words, .fallback = TW_CORNER_BOTH, .otherwise = "both", .meaning = "Which ends of it are joined.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The board that carries the pins. Both are of one width; the length of each counts to the outside of the other.", .example = "front" },
    { "into ends", TW_KEY_CHOICE, AT(into_ends), .choices = tw_corner_end_words, .fallback = TW_CORNER_BOTH, .otherwise = "both",
      .meaning = "Which ends of that board are joined. A right end meets a left end; where two alike ends meet, one board stands upside down.", .example = "both" },
    { "faces", TW_KEY_CHOICE, AT(faces), .choices = tw_corner_look_words, .fallback = 0, .otherwise = "out", .meaning = "Whether the faces of both boards look out of the box or into it.", .example = "out" },
    { "number", TW_KEY_COUNT, AT(number), .least = 1, .most = TW_COUNT_MOST, .otherwise = "so that tails are about twice as wide as the thinner board is thick", .meaning = "Of tails over the width.", .example = "4" },
    { "angle", TW_KEY_ANGLE, AT(angle), .least = TW_PI / 90.0, .most = TW_PI / 6.0, .otherwise = "the dovetail cutter's; by hand 1:8, in softwood 1:6", .meaning = "Of the walls of the tails, from the length; a slope serves too.", .example = "1:8" },
    { "pin", TW_KEY_LENGTH, AT(pin), .otherwise = "one pass of the dovetail cutter; by hand a third of the thinner board", .meaning = "A pin at its narrow side, which shows beside the ends of the tails.", .example = "6 mm" },
    { "half pin", TW_KEY_LENGTH, AT(half_pin), .otherwise = "as a pin, and no less than 6 mm, or 1/4 in", .meaning = "The pin at each edge, at its narrow side.", .example = "8 mm" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.1 mm glued, 0.2 mm dry", .meaning = "Socket less tail, both walls together.", .example = "0.1 mm" },
    { "proud", TW_KEY_LENGTH, AT(proud), .most = 10.0, .otherwise = "nothing: they come level",
      .meaning = "How far tails and pins stand out beyond the mate until they are planed level. It counts in the length of the pieces.", .example = "0.5 mm" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .fallback = 1, .otherwise = "glued", .meaning = "Glued stays; dry comes apart again.", .example = "glued" },
    { "by", TW_KEY_CHOICE, AT(by), .choices = by_words, .otherwise = "copy where the shop has a dovetail cutter long enough and the machine reaches over the width, else saw",
      .meaning = "Copied with two templates, or sawn and chiselled by hand.", .example = "saw" },
    { "dovetail cutter", TW_KEY_CUTTER, AT(dovetail_cutter), .otherwise = "the one whose single pass leaves a pin nearest to half of the thinner board", .meaning = "For the gaps between the tails.", .example = "dovetail 12.7" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the largest that goes into a socket", .meaning = "A straight one, for the sockets between the pins.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For both.", .example = "bush 16" },
};
#undef AT

/* ---- sizes ---- */

#define SAME_MM 1e-6
#define SAME_RAD 1e-4
#define NECK_LEAST_MM 3.0     // of a dovetail cutter, where it leaves the end of the board
#define PIN_BY_CUTTER_MM 3.0  // a single pass must leave so much
#define OVER_SHARE 0.75       // of the straight cutter's diameter: its round corners, up to r / tan(38 deg) long, lie past the faces
#define BESIDE_MM 1.0         // air between a dovetail cutter and the wood, where it starts

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }
static double thinner(const tw_dovetail *d) { return tw_min(d->k.a.size.thickness_mm, d->k.b.size.thickness_mm); }

double tw_dovetail_deep(const tw_dovetail *d, bool of_b) { return tw_corner_deep(&d->k, of_b ? &d->k.b : &d->k.a); }
double tw_dovetail_gap(const tw_dovetail *d) { return d->q + 2.0 * d->t * d->slope + d->c / 2.0; }
double tw_dovetail_socket_least(const tw_dovetail *d) { return d->root + d->c / 2.0 - 2.0 * d->over_pins * d->slope; }

double tw_dovetail_wall(const tw_dovetail *d, int tail, bool right, double u_mm)
{
    double rise = (d->t - u_mm) * d->slope, end = d->h + tail * (d->w + d->q);
    return right ? end + d->w - rise : end + rise;
}

static void share_width(tw_dovetail *d, int number)
{
    d->n = number;
    d->w = (d->k.wide - 2.0 * d->h - (number - 1) * d->q) / number;
    d->root = d->w - 2.0 * d->t * d->slope;
}

/* (4), (6), once slope and pin are known. */
static void lay_out(const tw_joint_context *context, tw_dovetail *d, double angle, double pin_mm)
{
    const tw_dovetail_spec *spec = d->spec;
    d->angle = angle;
    d->slope = tan(angle);
    d->q = spec->pin.given ? spec->pin.value : pin_mm;
    d->h = spec->half_pin.given ? spec->half_pin.value : tw_max(d->q, tw_customary(context, 6.0, 0.25));
    double tails = (d->k.wide - 2.0 * d->h + d->q) / (2.0 * thinner(d) + d->q);
    share_width(d, spec->number.given ? (int)spec->number.value : (int)tw_max(1.0, floor(tw_min(tails, 1e5) + 0.5)));
}

/* ---- copied ---- */

static void take_straight(const tw_shop *shop, tw_dovetail *d, int cutter)
{
    d->cutter = cutter;
    d->cutter_d = cutter >= 0 ? shop->cutters[cutter].d_mm : 0.0;
    d->over_pins = OVER_SHARE * d->cutter_d;
}

/* The largest straight cutter that goes into a socket, its overrun counted in. */
static int straight_for(const tw_shop *shop, tw_dovetail *d)
{
    int next = tw_cutter_for_trench(shop, tw_max(0.0, d->root + d->c / 2.0), tw_dovetail_deep(d, true));
    while (next >= 0) {
        take_straight(shop, d, next);
        if (d->cutter_d <= tw_dovetail_socket_least(d) + SAME_MM) return next;
        next = tw_cutter_for_trench(shop, d->cutter_d - 10.0 * SAME_MM, tw_dovetail_deep(d, true));
    }
    return -1;
}

static void choose_straight(const tw_shop *shop, tw_dovetail *d)
{
    take_straight(shop, d, d->spec->cutter.given ? tw_cutter_named(shop, d->spec->cutter.text) : straight_for(shop, d));
    while (!d->spec->cutter.given && !d->spec->number.given && d->cutter < 0 && d->n > 1) {
        share_width(d, d->n - 1);
        take_straight(shop, d, straight_for(shop, d));
    }
}

static bool machine_takes(const tw_machine *machine, const tw_dovetail *d)
{
    tw_size tails = { d->k.wide + 2.0 * d->over_tails, d->k.a.size.thickness_mm + 2.0 * d->over_tails, tw_dovetail_deep(d, false) };
    tw_size sockets = { d->k.wide, d->t + 2.0 * d->over_pins, tw_dovetail_deep(d, true) };
    return tw_corner_in_reach(machine, tails, d->dovetail_d) && tw_corner_in_reach(machine, sockets, d->cutter_d);
}

static bool may_cut(const tw_dovetail *d, const tw_cutter *cutter)
{
    if (d->spec->dovetail_cutter.given) return tw_text_is(tw_text_of(cutter->name), d->spec->dovetail_cutter.text);
    return !tw_cutter_is_straight(cutter) && (!d->spec->angle.given || fabs(cutter->dovetail.value - d->spec->angle.value) < SAME_RAD);
}

/* (5) */
static double pin_of_pass(const tw_dovetail *d, const tw_cutter *cutter) { return cutter->d_mm - d->c / 2.0 - 2.0 * d->t * tan(cutter->dovetail.value); }

static bool serves(const tw_dovetail *d, const tw_cutter *cutter)
{
    double deep = tw_dovetail_deep(d, false), neck = tw_cutter_diameter_at_mm(cutter, deep);
    if (tw_cutter_is_straight(cutter) || cutter->cutting_length.value < deep - SAME_MM || neck < NECK_LEAST_MM) return false;
    return d->spec->pin.given ? pin_of_pass(d, cutter) <= d->spec->pin.value + SAME_MM : pin_of_pass(d, cutter) >= PIN_BY_CUTTER_MM;
}

/* -1 when none may cut; a named one is taken, and refused for its own reason. */
static int dovetail_cutter_for(const tw_shop *shop, const tw_dovetail *d)
{
    int best = -1;
    double nearest = INFINITY, good = d->spec->pin.given ? d->spec->pin.value : thinner(d) / 2.0;
    for (int i = 0; i < shop->cutter_count; i++) {
        if (!may_cut(d, &shop->cutters[i]) || (!d->spec->dovetail_cutter.given && !serves(d, &shop->cutters[i]))) continue;
        double off = fabs(pin_of_pass(d, &shop->cutters[i]) - good);
        if (best >= 0 && off >= nearest) continue;
        best = i;
        nearest = off;
    }
    return best;
}

static bool try_copy(const tw_joint_context *context, tw_dovetail *d)
{
    const tw_shop *shop = context->shop;
    d->dovetail = dovetail_cutter_for(shop, d);
    if (d->dovetail < 0) return false;
    const tw_cutter *cutter = &shop->cutters[d->dovetail];
    d->dovetail_d = cutter->d_mm;
    d->over_tails = cutter->d_mm + BESIDE_MM;
    if (tw_cutter_is_straight(cutter)) return false;
    lay_out(context, d, cutter->dovetail.value, tw_max(PIN_BY_CUTTER_MM, pin_of_pass(d, cutter)));
    choose_straight(shop, d);
    return serves(d, cutter) && d->cutter >= 0 && d->cutter_d <= tw_dovetail_socket_least(d) + SAME_MM
        && (!d->spec->angle.given || fabs(cutter->dovetail.value - d->spec->angle.value) < SAME_RAD) && machine_takes(&shop->machine, d);
}

static void by_hand(const tw_joint_context *context, tw_dovetail *d)
{
    const tw_piece *piece = d->k.a.piece;
    const tw_timber *timber = piece->timber.given ? tw_timber_find(context->arena, piece->timber.text, NULL) : NULL;
    d->soft = timber && tw_text_is(tw_text_of(timber->group), "softwood");
    double pin = tw_max(tw_customary(context, 4.0, 3.0 / 16.0), tw_rounded_down(context, thinner(d) / 3.0));
    lay_out(context, d, d->spec->angle.given ? d->spec->angle.value : atan(d->soft ? 1.0 / 6.0 : 1.0 / 8.0), pin);
}

static void choose_way(const tw_joint_context *context, tw_dovetail *d)
{
    const tw_dovetail_spec *spec = d->spec;
    d->dovetail = d->cutter = -1;
    by_hand(context, d);
    d->sawn = spec->by.given && spec->by.value == 1;
    if (d->sawn) return;
    bool copies = try_copy(context, d), asked = spec->by.given || spec->dovetail_cutter.given || spec->cutter.given;
    if (copies || asked) return;
    *d = (tw_dovetail){ .spec = spec, .k = d->k, .t = d->t, .c = d->c, .sawn = true, .dovetail = -1, .cutter = -1 };
    by_hand(context, d);
}

/* ---- figures ---- */

static void note_walls(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d)
{
    tw_arena *arena = context->arena;
    const tw_dovetail_spec *spec = d->spec;
    const tw_cutter *cutter = d->sawn || d->dovetail < 0 ? NULL : &context->shop->cutters[d->dovetail];
    tw_plan_amount(context, plan, &spec->angle, "angle", "walls of the tails, from the length", "", TW_UNIT_RAD, d->angle,
        cutter ? tw_format(arena, "the cutter's: %s", cutter->name) : d->soft ? "1:6, softwood" : "1:8, hardwood",
        cutter ? "dovetail cutters of 7 to 14 degrees (common practice)" : "1:8 in hardwood, 1:6 in softwood (common practice)");
    tw_plan_amount(context, plan, &spec->pin, "pin", "pin, narrow side", "q", TW_UNIT_MM, d->q,
        cutter ? tw_format(arena, "cutter - c/2 - 2 x thickness x slope = %s - %s/2 - 2 x %s x %.3f", bare(context, cutter->d_mm), bare(context, d->c), bare(context, d->t), d->slope)
               : tw_format(arena, "1/3 x %s, down to a round figure, and no less than %s", bare(context, thinner(d)), bare(context, tw_customary(context, 4.0, 3.0 / 16.0))),
        cutter ? "one pass of the dovetail cutter" : "a chisel must go between (common practice)");
    tw_plan_amount(context, plan, &spec->half_pin, "half_pin", "half pin at each edge, narrow side", "h", TW_UNIT_MM, d->h,
        tw_format(arena, "no less than q = %s and %s", bare(context, d->q), bare(context, tw_customary(context, 6.0, 0.25))), "held on one side only: no weaker than a pin (common practice)");
    tw_plan_amount(context, plan, &spec->number, "number", "tails", "n", TW_UNIT_NONE, d->n,
        tw_format(arena, "about (width - 2h + q)/(2 x thinner board + q) = (%s - 2 x %s + %s)/(2 x %s + %s)", bare(context, d->k.wide), bare(context, d->h), bare(context, d->q), bare(context, thinner(d)), bare(context, d->q)),
        "a tail about twice as wide as the board is thick (common practice)");
}

static void note_sizes(tw_joint_context *context, tw_joint_plan *plan, const tw_dovetail *d)
{
    tw_arena *arena = context->arena;
    const char *thick = bare(context, d->t);
    double rise = d->t * d->slope;
    tw_note_length(context, plan, "tail", "tail at its end, on the outer side", d->w,
        tw_format(arena, "(width - 2h - (n - 1)q)/n = (%s - 2 x %s - %d x %s)/%d", bare(context, d->k.wide), bare(context, d->h), d->n - 1, bare(context, d->q), d->n), "");
    tw_note_length(context, plan, "tail_root", "tail at its root", d->root, tw_format(arena, "tail - 2 x thickness x slope = %s - 2 x %s x %.3f", bare(context, d->w), thick, d->slope), "");
    tw_note_length(context, plan, "pin_wide", "pin, wide side", d->q + 2.0 * rise, tw_format(arena, "q + 2 x thickness x slope = %s + 2 x %s x %.3f", bare(context, d->q), thick, d->slope), "");
    static const char *const tails[] = { "tails of ", ", long" }, *const sockets[] = { "sockets of ", ", deep" };
    tw_corner_note_sizes(context, plan, &d->k, tails, sockets);
}

/* ---- the plan ---- */

static tw_dovetail *work_out(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_dovetail_spec *spec = plan->joint->spec;
    tw_dovetail *d = TW_NEW(context->arena, tw_dovetail);
    d->spec = spec;
    d->k = tw_corner_of(context, spec->tails, spec->ends, spec->into, spec->into_ends, spec->faces, spec->fit.value == 1, spec->proud.value);
    d->t = d->k.b.size.thickness_mm;
    plan->count = d->k.joints;
    double clearance = d->k.glued ? tw_customary(context, 0.1, 0.004) : tw_customary(context, 0.2, 0.008);
    d->c = tw_plan_amount(context, plan, &spec->clearance, "clearance", "socket over tail", "c", TW_UNIT_MM, clearance, bare(context, clearance),
        d->k.glued ? "a few thousandths of an inch, for the glue (common practice)" : "what gets no glue is left slightly loose (common practice)");
    choose_way(context, d);
    note_walls(context, plan, d);
    note_sizes(context, plan, d);
    return d;
}

bool tw_dovetail_possible(const tw_dovetail *d)
{
    const double least = 0.1;
    bool sizes = d->n >= 1 && d->n <= TW_DOVETAILS_MOST && d->root - d->c / 2.0 > least && d->q - 2.0 * d->k.proud * d->slope - d->c / 2.0 > least
              && d->h - d->k.proud * d->slope - d->c / 4.0 > least;
    bool tools = d->sawn || (d->dovetail >= 0 && d->cutter >= 0 && d->dovetail_d <= tw_dovetail_gap(d) + SAME_MM && d->cutter_d <= tw_dovetail_socket_least(d) + SAME_MM);
    return tw_corner_possible(&d->k) && sizes && tools;
}

static void plan_dovetail(tw_joint_context *context, tw_joint_plan *plan)
{
    assert(context->shop && plan->joint->kind < TW_JOINT_KINDS_MOST);
    tw_dovetail *d = work_out(context, plan);
    plan->own = d;
    size_t halts = tw_findings_count(context->findings, TW_HALT);
    tw_dovetail_check(context, plan, d);
    if (!tw_dovetail_possible(d)) {
        assert(tw_findings_count(context->findings, TW_HALT) > halts);
        return;
    }
    tw_dovetail_cuts(context, plan, d);
    tw_corner_meetings(context, plan, &d->k);
    tw_dovetail_works(context, plan, d);
}

const tw_joint_kind tw_through_dovetail = {
    .format = { .kind = "through dovetail",
                .meaning = "Two boards of one width meet square at their ends, tails on one and pins on the other, both seen at the corner. The board with the tails "
                           "cannot be pulled off along its length. One joint with both ends of both boards makes all four corners of a box.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_dovetail_spec) },
    .plan = plan_dovetail,
    .draw = tw_dovetail_draw,
};
