// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk: the checks. Limits are common practice, from memory, unless a comment names something better. A halt stands
 * where the joint cannot be cut or would break; a care where makers would think twice. */
#include "joint/fix.h"
#include "joint/single_tusk.h"

#include <math.h>

#include "joint/words.h"
#include "mech/mech.h"

#define HAIR_MM 1e-6
#define WAXED_FRICTION 0.2    // lowest to be expected of a waxed tusk: from memory; the handbook gives 0.3 to 0.5 for dry wood
#define DRAW_GOOD_MM 0.8      // 1/32 in
#define CHEEK_LEAST 6.0       // parts of the tenon: thinner and it breaks beside the tusk
#define CHEEK_GOOD 4.0
#define RELISH_LEAST 0.6      // tenon thicknesses
#define RELISH_GOOD 1.0
#define TIP_LEAST_MM 2.0
#define TIP_GOOD_MM 5.0
#define HEAD_LEAST_MM 5.0
#define HEAD_GOOD_MM 10.0
#define TUSK_LEAST_MM 2.0      // broad
#define TUSK_GOOD_MM 4.0
#define BODY_LEAST_MM 10.0
#define SHOULDER_LEAST_MM 1.0

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_single *s; } checker;

static const char *say(const checker *c, double length_mm) { return tw_say(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void find_at(const checker *c, tw_level level, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(c->context->findings, level, place, code, c->plan->joint->name, what, remedy);
}

/* ---- what the job says ---- */

static void check_heads(const checker *c)
{
    const tw_single *s = c->s;
    if (s->upright == (s->head >= TW_SIDE_FACE_EDGE)) return;
    find_at(c, TW_HALT, s->spec->heads_to.place, "heads-askew",
        tw_format(c->context->arena, "a tusk that stands %s goes from %s: its head cannot point to the %s", s->upright ? "upright" : "level",
                  s->upright ? "edge to edge" : "face to back", tw_face_words[s->head]),
        s->upright ? "`heads to: back edge` or `face edge`, or `tusk stands: level`" : "`heads to: face` or `back`, or `tusk stands: upright`");
    tw_plan_fix_leave(c->context, c->plan, "heads to");
    tw_plan_fix_word(c->context, c->plan, "heads to", s->upright ? "back edge" : "face", s->upright
        ? "Point the heads to the back edge" : "Point the heads to the face");
}

static void check_names(const checker *c)
{
    const tw_single_spec *spec = c->s->spec;
    const tw_words *names[] = { &spec->cutter, &spec->wall_cutter };
    for (int i = 0; i < 2; i++)
        if (names[i]->given && tw_cutter_named(c->context->shop, names[i]->text) < 0) {
            find_at(c, TW_HALT, names[i]->place, "cutter-unknown", tw_format(c->context->arena, "the shop has no cutter named %s", names[i]->text), "a name from the shop's list of cutters");
            tw_plan_fix_leave(c->context, c->plan, i == 0 ? "cutter" : "wall cutter");
        }
}

static void check_count(const checker *c)
{
    const tw_single *s = c->s;
    int tenons = s->tenon_pieces * s->ends, places = s->through_pieces * s->spec->at.count;
    if (tenons == places) return;
    find(c, TW_HALT, NULL, "counts-differ",
        tw_format(c->context->arena, "the count of tenons is %d (%d x %s, %d end%s each), of mortises %d (%d x %s, %d each)", tenons, s->tenon_pieces, s->tenon->name, s->ends,
                  s->ends == 1 ? "" : "s", places, s->through_pieces, s->through->name, s->spec->at.count), "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(c->context, s->spec->tenon.index, s->ends, s->spec->through.index, s->spec->at.count);
}

/* ---- the wedge ---- */

static void check_angle(const checker *c)
{
    tw_arena *arena = c->context->arena;
    double alpha = c->s->alpha;
    const tw_amount *at = &c->s->spec->angle;
    tw_wedge wedge;
    const char *why;
    if (!tw_wedge_reckon(alpha, WAXED_FRICTION, WAXED_FRICTION, &wedge, &why) || !wedge.holds_itself) {
        find(c, TW_HALT, at, "wedge-springs-out", tw_format(arena, "a wedge of %s springs out by itself when it is waxed (friction 0.2)", tw_angle_text(arena, alpha)), "4 to 5 degrees");
        tw_plan_fix(c->context, c->plan, at, "Lean the wedge by", tw_radians(5.0), "", TW_ROUND_DOWN);
    } else if (alpha > tw_radians(5.0) + 1e-9) {
        find(c, TW_CARE, at, "wedge-steep", tw_format(arena, "a wedge of %s is steeper than the common 4 to 5 degrees: a waxed one that is shaken has %.1f degrees left before it slips",
             tw_angle_text(arena, alpha), wedge.margin_deg), "5 degrees, or leave the ramp unwaxed and look at it after the first weeks");
        tw_plan_fix(c->context, c->plan, at, "Lean the wedge by", tw_radians(5.0), "", TW_ROUND_DOWN);
    } else if (alpha < tw_radians(3.0)) {
        find(c, TW_CARE, at, "wedge-slender", tw_format(arena, "a wedge of %s draws only 1/%.0f of what it is driven and asks for a long reserve", tw_angle_text(arena, alpha), 1.0 / tan(alpha)), "4 to 5 degrees");
        tw_plan_fix(c->context, c->plan, at, "Lean the wedge by", tw_radians(4.0), "", TW_ROUND_UP);
    }
}

static void check_draw(const checker *c)
{
    const tw_single *s = c->s;
    const char *usual = "a draw allowance of 1.6 mm (1/16 in)";
    if (s->c < 0.05) {
        find(c, TW_HALT, &s->spec->draw_allowance, "no-draw", "the tusk's mortise does not start inside the surface: the tusk would bear on its wall and pull nothing", usual);
        tw_plan_fix(c->context, c->plan, &s->spec->draw_allowance, "Leave a draw allowance of", 1.6, "", TW_ROUND_NEAREST);
    } else if (s->c < DRAW_GOOD_MM - 0.01) {
        find(c, TW_CARE, &s->spec->draw_allowance, "draw-small", tw_format(c->context->arena, "a draw allowance of %s is used up by a little drying or a mortised piece planed light", tw_say_fine(c->context, s->c)), usual);
        tw_plan_fix(c->context, c->plan, &s->spec->draw_allowance, "Leave a draw allowance of", 1.6, "", TW_ROUND_NEAREST);
    }
}

/* ---- the tusk and the wood about it ---- */

static void check_tusk(const checker *c)
{
    const tw_single *s = c->s;
    tw_arena *arena = c->context->arena;
    if (s->k < s->k_least - HAIR_MM) {
        find(c, TW_HALT, &s->spec->tusk_thickness, "tusk-thin",
            tw_format(arena, "on the tip's side the mortise would be open %s, too little for a cutter of %s: the tusk is %s thick at the tenon's middle, at least %s is needed", say(c, tw_max(s->open_low, 0.0)),
                      say(c, s->mb), say(c, s->k), say(c, s->k_least)), tw_format(arena, "a tusk %s thick, or a smaller cutter", say(c, s->k_least + 0.5)));
        tw_plan_fix(c->context, c->plan, &s->spec->tusk_thickness, "Make the tusk", s->k_least + 0.5, "thick", TW_ROUND_UP);
    }
    if (s->tip_thickness < TIP_GOOD_MM - HAIR_MM) {
        find(c, s->tip_thickness < TIP_LEAST_MM ? TW_HALT : TW_CARE, &s->spec->tusk_thickness, "tip-thin", tw_format(arena, "the tusk's tip is only %s thick", say(c, tw_max(s->tip_thickness, 0.0))),
             tw_format(arena, "a tusk %s thick at the tenon's middle", say(c, s->k + TIP_GOOD_MM - s->tip_thickness)));
        tw_plan_fix(c->context, c->plan, &s->spec->tusk_thickness, "Make the tusk", s->k + TIP_GOOD_MM - s->tip_thickness,
            "thick", TW_ROUND_UP);
    }
    if (s->head_proud < HEAD_GOOD_MM - HAIR_MM) {
        find(c, s->head_proud < HEAD_LEAST_MM ? TW_HALT : TW_CARE, &s->spec->head_proud, "head-short", tw_format(arena, "a head of %s above the tenon leaves nothing for the mallet when the reserve is used", say(c, s->head_proud)),
             tw_format(arena, "a head %s proud", say(c, 15.0)));
        tw_plan_fix(c->context, c->plan, &s->spec->head_proud, "Let the head stand", 15.0, "proud", TW_ROUND_UP);
    }
    if (s->b < TUSK_GOOD_MM) {
        find(c, s->b < TUSK_LEAST_MM ? TW_HALT : TW_CARE, &s->spec->tusk_breadth, "tusk-narrow", tw_format(arena, "a tusk %s broad bends and crushes the surface that it bears on", say(c, tw_max(s->b, 0.0))),
             tw_format(arena, "about a third of the tenon: %s", say(c, s->B / 3.0)));
        tw_plan_fix(c->context, c->plan, &s->spec->tusk_breadth, "Make the tusk", s->B / 3.0, "broad", TW_ROUND_DOWN);
    }
}

static void check_cheeks(const checker *c)
{
    const tw_single *s = c->s;
    tw_arena *arena = c->context->arena;
    const tw_amount *at = s->spec->tusk_breadth.given ? &s->spec->tusk_breadth : s->upright ? &s->spec->tenon_thickness : &s->spec->tenon_width;
    double good = s->B / CHEEK_GOOD;
    if (s->cheek >= good - HAIR_MM) return;
    find(c, s->cheek < s->B / CHEEK_LEAST ? TW_HALT : TW_CARE, at, "cheek-thin",
        tw_format(arena, "only %s of the tenon's %s stands on each side of the tusk: it breaks there", say(c, tw_max(s->cheek, 0.0)), say(c, s->B)),
        tw_format(arena, "a mortise of at most %s, or a tenon of %s", say(c, s->B / 2.0), say(c, 3.0 * s->mb)));
    tw_plan_fix(c->context, c->plan, &s->spec->tusk_breadth, "Make the tusk", s->B / 3.0, "broad", TW_ROUND_DOWN);
    tw_plan_fix(c->context, c->plan, s->upright ? &s->spec->tenon_thickness : &s->spec->tenon_width, "Make the tenon",
        3.0 * s->mb, s->upright ? "thick" : "wide", TW_ROUND_UP);
}

static void check_relish(const checker *c)
{
    const tw_single *s = c->s;
    double short_by = RELISH_GOOD * s->t - s->relish;
    if (short_by <= HAIR_MM) return;
    find(c, s->relish < RELISH_LEAST * s->t ? TW_HALT : TW_CARE, &s->spec->beyond, "relish-short",
        tw_format(c->context->arena, "the relish between the tusk and the tenon's end is %s: it may shear out", say(c, tw_max(s->relish, 0.0))),
        tw_format(c->context->arena, "a tenon %s beyond the mortised piece", say(c, s->p + short_by)));
    tw_plan_fix(c->context, c->plan, &s->spec->beyond, "Let the tenon stand", s->p + short_by, "beyond the mortised piece",
        TW_ROUND_UP);
}

static void check_wall(const checker *c)
{
    const tw_single *s = c->s;
    if (s->spec->wall_by.value == 0 || s->wall_cutter >= 0 || s->spec->wall_cutter.given) return;
    find_at(c, TW_HALT, s->spec->wall_by.place, "wall-cutter", tw_format(c->context->arena, "no cutter of at most %s reaches %s along the leaning wall: a thicker one leaves it round", say(c, s->mb * 2.0 / 3.0),
            say(c, s->D / cos(s->alpha) + 1.0)), "write `wall by: chisel`, or add a slimmer, longer cutter to the shop");
    tw_plan_fix_word(c->context, c->plan, "wall by", "chisel", "Pare the leaning wall with a chisel");
}

/* ---- the tenon in both pieces ---- */

static void check_tenon(const checker *c)
{
    const tw_single *s = c->s;
    tw_arena *arena = c->context->arena;
    const tw_single_spec *spec = s->spec;
    if (s->t > s->a.thickness_mm + 1e-9) {
        find(c, TW_HALT, &spec->tenon_thickness, "tenon-thick", tw_format(arena, "the tenon is %s thick, its piece only %s", say(c, s->t), say(c, s->a.thickness_mm)), tw_format(arena, "%s or less", say(c, s->a.thickness_mm)));
        tw_plan_fix(c->context, c->plan, &spec->tenon_thickness, "Make the tenon", s->a.thickness_mm, "thick", TW_ROUND_DOWN);
    }
    if (s->w > s->a.width_mm + 1e-9) {
        find(c, TW_HALT, &spec->tenon_width, "tenon-wide", tw_format(arena, "the tenon is %s wide, its piece only %s", say(c, s->w), say(c, s->a.width_mm)), tw_format(arena, "%s or less", say(c, s->a.width_mm)));
        tw_plan_fix(c->context, c->plan, &spec->tenon_width, "Make the tenon", s->a.width_mm, "wide", TW_ROUND_DOWN);
    }
    if (s->a.thickness_mm - s->t < 2.0 * SHOULDER_LEAST_MM && s->a.width_mm - s->w < 2.0 * SHOULDER_LEAST_MM) {
        find(c, TW_HALT, &spec->tenon_thickness, "no-shoulder", "the tenon is as large as its piece: there is no shoulder to draw against", "a thinner or narrower tenon");
        tw_plan_fix(c->context, c->plan, &spec->tenon_width, "Make the tenon", s->a.width_mm * 0.6, "wide", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &spec->tenon_thickness, "Make the tenon", s->a.thickness_mm / 2.0, "thick",
            TW_ROUND_DOWN);
    }
    double taken = s->ends * (s->T + s->p);
    if (taken > s->a.length_mm - BODY_LEAST_MM + HAIR_MM) {
        find(c, TW_HALT, NULL, "tenons-meet", tw_format(arena, "%d tenon%s of %s leave%s no body in a piece %s long", s->ends, s->ends == 1 ? "" : "s", say(c, s->T + s->p), s->ends == 1 ? "s" : "", say(c, s->a.length_mm)),
             tw_format(arena, "a length of at least %s: it is measured with the tenons", say(c, taken + BODY_LEAST_MM)));
        tw_piece_fix_size(c->context, spec->tenon.index, "length", taken + BODY_LEAST_MM, TW_ROUND_UP);
    }
}

static void check_place(const checker *c, const tw_amount *at)
{
    const tw_single *s = c->s;
    tw_arena *arena = c->context->arena;
    double half_along = ((s->along ? s->w : s->t) + s->clearance) / 2.0, half_across = ((s->along ? s->t : s->w) + s->clearance) / 2.0;
    tw_size extent = tw_face_extent(s->post, s->from);
    double end = tw_min(at->value, extent.length_mm - at->value) - half_along, side = tw_min(s->across, extent.width_mm - s->across) - half_across;
    if (end <= HAIR_MM || side <= HAIR_MM) {
        find(c, TW_HALT, end <= HAIR_MM ? at : &s->spec->across, "mortise-off-piece", tw_format(arena, "the mortise does not lie within the piece %s", s->through->name),
             end <= HAIR_MM ? tw_format(arena, "a place between %s and %s", say(c, half_along + s->t), say(c, extent.length_mm - half_along - s->t)) : tw_format(arena, "the middle at %s", say(c, extent.width_mm / 2.0)));
        if (end <= HAIR_MM) tw_plan_fix_place(c->context, c->plan, at, half_along + s->t, s->spec->through.index);
        else tw_plan_fix(c->context, c->plan, &s->spec->across, "Put the middle at", extent.width_mm / 2.0, "across",
            TW_ROUND_NEAREST);
        return;
    }
    if (side < s->t * 0.75) {
        find(c, side < s->t / 4.0 ? TW_HALT : TW_CARE, &s->spec->across, "mortise-wall-thin", tw_format(arena, "the wall beside the mortise in %s is %s thick", s->through->name, say(c, side)), "a wider piece or a thinner tenon");
        tw_piece_fix_across(c->context, s->spec->through.index, s->from, 2.0 * (half_across + s->t * 0.75), TW_ROUND_UP);
        if (s->along) tw_plan_fix(c->context, c->plan, &s->spec->tenon_thickness, "Make the tenon",
            (extent.width_mm - s->clearance) / 2.5, "thick", TW_ROUND_DOWN);
        tw_plan_fix(c->context, c->plan, &s->spec->across, "Put the middle at", extent.width_mm / 2.0, "across",
            TW_ROUND_NEAREST);
    }
    if (end < 1.5 * (s->along ? s->w : s->t)) {
        find(c, TW_CARE, at, "mortise-near-end", tw_format(arena, "only %s of %s stands between the mortise and its end: it may split when the tusk is driven", say(c, end), s->through->name),
             tw_format(arena, "at least %s", say(c, 1.5 * (s->along ? s->w : s->t))));
        tw_plan_fix_place(c->context, c->plan, at, half_along + 1.5 * (s->along ? s->w : s->t), s->spec->through.index);
    }
}

/* The tusk must find wood to bear on beyond both sides of the mortise, along its own length. */
static void check_bearing(const checker *c)
{
    const tw_single *s = c->s;
    if (s->upright == s->along) return;  // it bears along the mortised piece: the places see to that
    tw_size extent = tw_face_extent(s->post, s->from);
    double wood = tw_min(s->across, extent.width_mm - s->across) - (s->D + s->clearance) / 2.0;
    if (wood >= s->tip / 2.0 - HAIR_MM) return;
    find(c, TW_CARE, &s->spec->across, "tusk-overhangs", tw_format(c->context->arena, "the tusk bears on only %s of %s beside the mortise; its tip stands %s out", say(c, tw_max(wood, 0.0)), s->through->name, say(c, s->tip)),
         s->upright ? "a wider mortised piece, a narrower tenon, or `lies: along`" : "a wider mortised piece, or an upright tusk");
    tw_piece_fix_across(c->context, s->spec->through.index, s->from, s->tip + s->D + s->clearance, TW_ROUND_UP);
    if (s->upright) tw_plan_fix_word(c->context, c->plan, "lies", "along", "Lay the tenon along the mortised piece");
    else tw_plan_fix_word(c->context, c->plan, "tusk stands", "upright", "Let the tusk stand upright");
}

/* Whatever cannot be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    if (tw_single_possible(c->s) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "a tenon %s thick and %s wide with a tusk %s broad is too small to be cut", say(c, c->s->t), say(c, c->s->w), say(c, c->s->b)),
         "sizes that a cutter can make: some millimetres each way");
}

void tw_single_check(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s)
{
    const checker c = { context, plan, s };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_heads(&c);
    check_names(&c);
    check_count(&c);
    check_angle(&c);
    check_draw(&c);
    check_tusk(&c);
    check_cheeks(&c);
    check_relish(&c);
    check_wall(&c);
    check_tenon(&c);
    for (int i = 0; i < s->spec->at.count; i++) check_place(&c, &s->spec->at.items[i]);
    check_bearing(&c);
    check_size(&c, halts_before);
}
