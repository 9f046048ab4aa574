// SPDX-License-Identifier: GPL-3.0-or-later
/* Forked tusks: a tenon goes through a piece and carries a tapered housing in each cheek; a tusk with a slot straddles
 * the web between the housings and is driven across, so that its legs bear on the mortised piece and draw the shoulder
 * home. Here: what the job may say, the proportions with their rules, and the checks.
 *
 * The sums, by the letters of design section 7.1:
 *     q = t - 2e,  e = (t - slot + s)/2                                                             (1)
 *     k >= (d/2)(1 + 1/cos a) - c + (w/2 + o - d/2) tan a     so that the cutter passes the housing   (2)
 *     relish = p - k - (w/2) tan a - chamfer                                                        (3)
 *     tusk: length tip + w + z + head; slot tip + w + z + slot/2; stick k + (w/2 + z + head) tan a    (4) */
#include "joint/fix.h"
#include "joint/forked_tusks.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/words.h"
#include "mech/mech.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const lies_words[] = { "along", "across", NULL };
static const char *const edge_words[] = { "face edge", "back edge", NULL };
static const char *const set_words[] = { "end", "shoulder", NULL };
static const char *const corner_words[] = { "square", "round", NULL };

#define AT(field) offsetof(tw_forked_spec, field)
static const tw_key keys[] = {
    { "tenon", TW_KEY_PIECE, AT(tenon), .required = true, .meaning = "The piece that carries the tenon.", .example = "stretcher" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = ends_words, .fallback = TW_ENDS_BOTH, .otherwise = "both",
      .meaning = "Which ends of it carry a tenon.", .example = "both" },
    { "through", TW_KEY_PIECE, AT(through), .required = true, .meaning = "The piece that the tenon goes through.", .example = "post" },
    { "from", TW_KEY_CHOICE, AT(from), .choices = tw_face_words, .fallback = TW_SIDE_BACK, .otherwise = "back",
      .meaning = "The side of the mortised piece at which the tenon enters; the shoulder stands against it, the tusk bears on the opposite one. A face or an edge, not an end.",
      .example = "back" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true,
      .meaning = "From the left end of the mortised piece to the middle of the tenon; a list when one piece takes several.", .example = "[190, 480]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the tenon across the mortised piece: from its face edge, or from its back where the tenon enters at an edge.", .example = "55 mm" },
    { "lies", TW_KEY_CHOICE, AT(lies), .choices = lies_words, .fallback = 0, .otherwise = "along",
      .meaning = "Whether the tenon's width runs along the grain of the mortised piece or across it.", .example = "along" },
    { "tenon thickness", TW_KEY_LENGTH, AT(tenon_thickness), .otherwise = "half of the piece's thickness, to the nearest 0.5 mm",
      .meaning = "Cheek to cheek.", .example = "1/2 in" },
    { "tenon width", TW_KEY_LENGTH, AT(tenon_width), .otherwise = "six tenths of the piece's width",
      .meaning = "Edge to edge of the tenon.", .example = "38 mm" },
    { "beyond", TW_KEY_LENGTH, AT(beyond), .otherwise = "what the tusk and a relish of two tenon thicknesses need",
      .meaning = "How far the tenon stands out past the mortised piece.", .example = "58 mm" },
    { "housing depth", TW_KEY_LENGTH, AT(housing_depth), .otherwise = "(tenon thickness - slot + ease)/2",
      .meaning = "How deep the tapered housing goes into each cheek.", .example = "5/64 in" },
    { "slot", TW_KEY_LENGTH, AT(slot), .otherwise = "the diameter of the owned cutter nearest to half of the tenon's thickness plus the ease",
      .meaning = "Width of the tusk's slot; best the diameter of a cutter.", .example = "3/8 in" },
    { "ease", TW_KEY_LENGTH, AT(ease), .otherwise = "0.8 mm", .meaning = "How much wider the slot is than the web that it straddles.", .example = "1/32 in" },
    { "angle", TW_KEY_ANGLE, AT(angle), .least = 0.01, .most = 0.8, .otherwise = "5 deg",
      .meaning = "Of the ramp to the straight side. Wedges of 4 to 5 degrees are common practice.", .example = "1:12" },
    { "draw allowance", TW_KEY_LENGTH, AT(draw_allowance), .otherwise = "1.6 mm",
      .meaning = "How far inside the outer surface of the mortised piece the housing starts, so that the tusk bears on that surface and can pull.", .example = "1/16 in" },
    { "tusk thickness", TW_KEY_LENGTH, AT(tusk_thickness), .otherwise = "the least that lets the cutter through the housing, and 0.5 mm more",
      .meaning = "Of the seated tusk, at the middle of the tenon.", .example = "12 mm" },
    { "overrun", TW_KEY_LENGTH, AT(overrun), .otherwise = "the diameter of the cutter",
      .meaning = "How far the housing's outline runs past the edges of the tenon, so that the cutter leaves the wood.", .example = "10 mm" },
    { "reserve", TW_KEY_LENGTH, AT(reserve), .otherwise = "1 mm of draw: 1/tan(angle)",
      .meaning = "How much farther the tusk must be able to go when everything has dried.", .example = "12 mm" },
    { "head proud", TW_KEY_LENGTH, AT(head_proud), .otherwise = "half of the slot and a bridge of 12 mm, rounded up",
      .meaning = "How far the head stands above the tenon when the tusk has used all of its reserve.", .example = "18 mm" },
    { "tip proud", TW_KEY_LENGTH, AT(tip_proud), .otherwise = "0.5 mm of swelling at the angle, and 6 mm",
      .meaning = "How far the tip stands below the tenon when the tusk is seated.", .example = "12 mm" },
    { "bears", TW_KEY_LENGTH, AT(bears), .otherwise = "a third of the tenon's thickness, at least 5 mm",
      .meaning = "How wide each leg of the tusk bears on the mortised piece, beside the tenon.", .example = "6 mm" },
    { "chamfer", TW_KEY_LENGTH, AT(chamfer), .otherwise = "3 mm", .meaning = "Lead-in on the tenon's end.", .example = "3 mm" },
    { "mortise clearance", TW_KEY_LENGTH, AT(mortise_clearance), .otherwise = "0.2 mm",
      .meaning = "How much larger the mortise is than the tenon, in thickness and in width; a tenon without glue is left slightly loose.", .example = "0.008 in" },
    { "mortise corners", TW_KEY_CHOICE, AT(mortise_corners), .choices = corner_words, .fallback = 0, .otherwise = "square",
      .meaning = "Whether the round corners that the cutter leaves are chopped square, or stay and the tenon's arrises are rounded to them.", .example = "round" },
    { "heads to", TW_KEY_CHOICE, AT(heads_to), .choices = edge_words, .fallback = 1, .otherwise = "back edge",
      .meaning = "Towards which edge of the tenoned piece the heads of the tusks point.", .example = "back edge" },
    { "set from", TW_KEY_CHOICE, AT(set_from), .choices = set_words, .fallback = 0, .otherwise = "end",
      .meaning = "What touches the stop when the housings are cut: the end of the tenon, or its shoulder (then the tenon's length does not matter).", .example = "shoulder" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the cutter nearest to the slot", .meaning = "For the housings.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For the housings.", .example = "bush 16" },
    { "mortise cutter", TW_KEY_CUTTER, AT(mortise_cutter), .otherwise = "the largest that the mortise takes", .meaning = "For the mortise.", .example = "long 12.7" },
    { "tusk timber", TW_KEY_TEXT, AT(tusk_timber), .otherwise = "that of the tenon's piece", .meaning = "Hard, straight-grained wood.", .example = "Ash, white" },
};
#undef AT

/* ---- proportions ---- */

#define TENON_SHARE 0.5       // of the piece's thickness: common practice is a third to a half; the housings take wood, so the half
#define WIDTH_SHARE 0.6       // of the piece's width, leaving shoulders at both edges: common practice
#define EASE_MM 0.8           // 1/32 in, common practice
#define DRAW_MM 1.6           // 1/16 in, common practice
#define ANGLE_DEG 5.0         // common practice: 4 to 5 degrees
#define BRIDGE_MM 12.0        // solid wood between the slot and the head's end: common practice
#define BRIDGE_LEAST_MM 5.0
#define TIP_LEAST_MM 5.0      // thinner than this a tip splinters when it is knocked out: common practice
#define SWELLING_MM 0.5       // of the mortised piece and the tusk, until the season is reckoned (issue of seasons)
#define WAXED_FRICTION 0.2    // lowest to be expected of a waxed tusk: from memory; the handbook gives 0.3 to 0.5 for dry wood

static double rounded(double value, double step) { return floor(value / step + 0.5) * step; }
static double rounded_up(double value, double step) { return ceil(value / step - 1e-9) * step; }

static double step_mm(const tw_joint_context *context)
{
    return context->job->inch_sizes ? TW_MM_PER_INCH / 64.0 : 0.5;
}

/* The coarser step, for what is measured with a rule. */
static double rule_step_mm(const tw_joint_context *context)
{
    return context->job->inch_sizes ? TW_MM_PER_INCH / 16.0 : 1.0;
}

/* A customary small length in the job's measure: "0.8 mm", "0.031 in". */
static const char *small(const tw_joint_context *context, double length_mm)
{
    return context->job->figures.style == TW_FIGURES_MM ? tw_format(context->arena, "%g mm", length_mm)
                                                        : tw_format(context->arena, "%.3f in", length_mm / TW_MM_PER_INCH);
}

/* Index of the owned cutter nearest in diameter, among those that plunge; -1 if there is none. */
static int nearest_cutter(const tw_shop *shop, double diameter_mm)
{
    int nearest = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        if (!shop->cutters[i].plunges.value) continue;
        if (nearest < 0 || fabs(shop->cutters[i].d_mm - diameter_mm) < fabs(shop->cutters[nearest].d_mm - diameter_mm)) nearest = i;
    }
    return nearest;
}

static int named_cutter(const tw_shop *shop, const tw_words *name)
{
    for (int i = 0; i < shop->cutter_count; i++)
        if (tw_text_is(tw_text_of(shop->cutters[i].name), name->text)) return i;
    return -1;
}

static void propose_tenon(tw_joint_context *context, tw_joint_plan *plan, tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    f->t = tw_plan_amount(context, plan, &spec->tenon_thickness, "tenon_thickness", "tenon thickness", "t", TW_UNIT_MM,
        rounded(TENON_SHARE * f->tenon_size.thickness_mm, step_mm(context)),
        tw_format(arena, "%s / 2", tw_say(context, f->tenon_size.thickness_mm)),
        "a third to a half of the piece; the half, since the housings take wood from it (common practice)");
    f->w = tw_plan_amount(context, plan, &spec->tenon_width, "tenon_width", "tenon width", "w", TW_UNIT_MM,
        rounded(WIDTH_SHARE * f->tenon_size.width_mm, step_mm(context)),
        tw_format(arena, "0.6 x %s", tw_say(context, f->tenon_size.width_mm)), "shoulders at both edges (common practice)");
    f->clearance = tw_plan_amount(context, plan, &spec->mortise_clearance, "mortise_clearance", "mortise over tenon", "", TW_UNIT_MM,
        0.2, small(context, 0.2), "a tenon that gets no glue is left slightly loose (common practice)");
    f->chamfer = tw_plan_amount(context, plan, &spec->chamfer, "chamfer", "lead-in chamfer", "", TW_UNIT_MM, 3.0, small(context, 3.0), "common practice");
}

static void propose_web(tw_joint_context *context, tw_joint_plan *plan, tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    const tw_shop *shop = context->shop;
    f->s = tw_plan_amount(context, plan, &spec->ease, "ease", "ease of the slot", "s", TW_UNIT_MM, EASE_MM, small(context, EASE_MM), "common practice");
    int nearest = nearest_cutter(shop, f->t / 2.0 + f->s);
    double slot = nearest >= 0 ? shop->cutters[nearest].d_mm : f->t / 2.0 + f->s;
    if (!spec->slot.given && spec->housing_depth.given) slot = f->t - 2.0 * spec->housing_depth.value + f->s;
    f->slot = tw_plan_amount(context, plan, &spec->slot, "slot", "slot of the tusk", "", TW_UNIT_MM, slot,
        spec->housing_depth.given ? "t - 2e + s" : tw_format(arena, "cutter nearest to t/2 + s = %s", tw_say(context, f->t / 2.0 + f->s)),
        "a web of about half of the tenon's thickness; the slot in one pass of a cutter");
    f->e = tw_plan_amount(context, plan, &spec->housing_depth, "housing_depth", "housing depth", "e", TW_UNIT_MM,
        (f->t - f->slot + f->s) / 2.0,
        tw_format(arena, "(t - slot + s)/2 = (%s - %s + %s)/2", tw_say(context, f->t), tw_say(context, f->slot), tw_say(context, f->s)),
        "the slot passes the web with its ease");
    f->q = f->t - 2.0 * f->e;
    tw_plan_figure(context, plan, (tw_figure){ .key = "web", .label = "web", .symbol = "q", .value = f->q, .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "t - 2e = %s - 2 x %s", tw_say(context, f->t), tw_say(context, f->e)) });
    f->s = f->slot - f->q;  // what the slot really gives over the web
    f->bearing = f->e - f->s / 2.0;
    tw_plan_figure(context, plan, (tw_figure){ .key = "bearing_depth", .label = "bearing depth in each cheek",
        .value = f->bearing, .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "e - s/2 = %s - %s/2; least, when the tusk leans to one side: %s",
            tw_say(context, f->e), tw_say(context, f->s),
                  tw_say(context, f->e - f->s)), .rule = "this carries the load, not the whole depth" });
    f->cutter = spec->cutter.given ? named_cutter(shop, &spec->cutter) : nearest_cutter(shop, f->slot);
    f->d = f->cutter >= 0 ? shop->cutters[f->cutter].d_mm : f->slot;
}

static void propose_wedge(tw_joint_context *context, tw_joint_plan *plan, tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    f->alpha = tw_plan_amount(context, plan, &spec->angle, "wedge_angle", "wedge angle", "", TW_UNIT_RAD, tw_radians(ANGLE_DEG),
        "5 degrees", "wedges of 4 to 5 degrees (common practice)");
    f->c = tw_plan_amount(context, plan, &spec->draw_allowance, "draw_allowance", "draw allowance", "c", TW_UNIT_MM, DRAW_MM, small(context, DRAW_MM),
        "more than the mortised piece can shrink and the saw can err (common practice)");
    f->o = tw_plan_amount(context, plan, &spec->overrun, "overrun", "overrun of the housing", "o", TW_UNIT_MM, f->d,
        tw_format(arena, "d = %s", tw_say(context, f->d)), "the cutter leaves the wood at both edges");
    double tan_a = tan(f->alpha);
    f->k_least = f->d / 2.0 * (1.0 + 1.0 / cos(f->alpha)) - f->c + (f->w / 2.0 + f->o - f->d / 2.0) * tan_a;
    const char *least = tw_format(arena, "(d/2)(1 + 1/cos a) - c + (w/2 + o - d/2) tan a = %s, and %s more", tw_say(context, f->k_least), small(context, 0.5));
    f->k = tw_plan_amount(context, plan, &spec->tusk_thickness, "tusk_thickness", "tusk thickness at the tenon's middle", "k", TW_UNIT_MM,
        rounded_up(f->k_least + 0.5, step_mm(context)), least, "the cutter must pass the narrow end of the housing");
    tw_plan_figure(context, plan, (tw_figure){ .key = "tusk_thickness_least", .label = "least tusk thickness there",
        .value = f->k_least, .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "(d/2)(1 + 1/cos a) - c + (w/2 + o - d/2) tan a, d = %s, c = %s, w = %s, o = %s, a = %s",
            tw_say(context, f->d),
            tw_say(context, f->c), tw_say(context, f->w), tw_say(context, f->o), tw_angle_text(arena, f->alpha)) });
    f->z = tw_plan_amount(context, plan, &spec->reserve, "reserve", "reserve of driving", "z", TW_UNIT_MM, rounded_up(1.0 / tan_a, rule_step_mm(context)),
        tw_format(arena, "%s of draw / tan a", small(context, 1.0)), "for drying and wear, where the season is not reckoned");
}

static void propose_tusk(tw_joint_context *context, tw_joint_plan *plan, tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    double tan_a = tan(f->alpha);
    f->head = tw_plan_amount(context, plan, &spec->head_proud, "head_proud", "head proud", "", TW_UNIT_MM,
        rounded_up(f->slot / 2.0 + BRIDGE_MM, rule_step_mm(context)), tw_format(arena, "(q + s)/2 + bridge = %s/2 + %s", tw_say(context, f->slot), small(context, BRIDGE_MM)),
        "a bridge of solid wood, or the mallet splits the head (common practice)");
    f->tip = tw_plan_amount(context, plan, &spec->tip_proud, "tip_proud", "tip proud", "", TW_UNIT_MM,
        rounded_up(SWELLING_MM / tan_a + 6.0, rule_step_mm(context)), tw_format(arena, "%s of swelling / tan a + %s", small(context, SWELLING_MM), small(context, 6.0)), "it can be knocked out at its highest seat");
    f->m = tw_plan_amount(context, plan, &spec->bears, "bears", "bearing of each leg beside the tenon", "m", TW_UNIT_MM,
        rounded_up(tw_max(5.0, f->t / 3.0) - 0.25, step_mm(context)), tw_format(arena, "t/3, at least %s", small(context, 5.0)), "common practice");
    f->p = tw_plan_amount(context, plan, &spec->beyond, "beyond", "tenon beyond the mortised piece", "p", TW_UNIT_MM,
        rounded_up(f->k + f->w / 2.0 * tan_a + f->chamfer + 2.0 * f->t, rule_step_mm(context)), "k + (w/2) tan a + chamfer + 2t",
        "a relish of two tenon thicknesses (common practice)");
    f->relish = f->p - f->k - f->w / 2.0 * tan_a - f->chamfer;
    f->tusk_length = f->tip + f->w + f->z + f->head;
    f->slot_length = f->tip + f->w + f->z + f->slot / 2.0;
    f->bridge = f->head - f->slot / 2.0;
    f->tusk_width = f->t + 2.0 * f->m;
    f->tip_thickness = f->k - (f->w / 2.0 + f->tip) * tan_a;
    f->stick_thickness = f->k + (f->w / 2.0 + f->z + f->head) * tan_a;
}

static void note_tusk(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    const char *slope = tw_angle_text(arena, f->alpha), *half = tw_say(context, f->w / 2.0), *k = tw_say(context, f->k);
    const struct { const char *key, *label; double length_mm; const char *sum, *rule; } lengths[] = {
        { "relish", "relish, least", f->relish,
          tw_format(arena, "p - k - (w/2) tan a - chamfer = %s - %s - %s - %s", tw_say(context, f->p), k,
                    tw_say(context, f->w / 2.0 * tan(f->alpha)), tw_say(context, f->chamfer)), "" },
        { "tusk_length", "tusk, length", f->tusk_length,
          tw_format(arena, "tip proud + w + z + head proud = %s + %s + %s + %s", tw_say(context, f->tip), tw_say(context, f->w),
                    tw_say(context, f->z), tw_say(context, f->head)), "" },
        { "tusk_width", "tusk, width over both legs", f->tusk_width,
          tw_format(arena, "t + 2m = %s + 2 x %s", tw_say(context, f->t), tw_say(context, f->m)), "" },
        { "slot_length", "slot, from the tip to its round end", f->slot_length,
          tw_format(arena, "tip proud + w + z + slot/2 = %s + %s + %s + %s/2", tw_say(context, f->tip), tw_say(context, f->w),
                    tw_say(context, f->z), tw_say(context, f->slot)), "" },
        { "tip_thickness", "tusk, thickness at the tip", f->tip_thickness,
          tw_format(arena, "k - (w/2 + tip proud) tan a = %s - (%s + %s) x tan %s", k, half, tw_say(context, f->tip), slope),
              "" },
        { "head_thickness", "tusk, thickness at the head's end", f->stick_thickness,
          tw_format(arena, "k + (w/2 + z + head proud) tan a = %s + (%s + %s + %s) x tan %s", k, half, tw_say(context, f->z),
                    tw_say(context, f->head), slope), "the stick is at least this thick" },
        { "leg_thickness", "each leg of the tusk", f->bearing + f->m,
          tw_format(arena, "e - s/2 + m = %s + %s", tw_say(context, f->bearing), tw_say(context, f->m)), "" },
    };
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++)
        tw_note_length(context, plan, lengths[i].key, lengths[i].label, lengths[i].length_mm, lengths[i].sum, lengths[i].rule);
    tw_plan_figure(context, plan, (tw_figure){ .key = "draw_per_mm", .label = "draw for each 1 driven", .value = tan(f->alpha),
        .unit = TW_UNIT_NONE, .sum = tw_format(arena, "tan a = tan %s", slope) });
    tw_note_length(context, plan, "seat_spread", tw_format(arena, "height of the seat for %s at the wall", small(context, 0.1)),
        0.1 / tan(f->alpha), tw_format(arena, "%s / tan a = %s / tan %s", small(context, 0.1), small(context, 0.1), slope),
        "number the tusks to their places, or size the housings alike");
}

/* ---- checks ---- */

static void check_angle(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_amount *angle = &f->spec->angle;
    tw_wedge wedge;
    const char *why;
    if (!tw_wedge_reckon(f->alpha, WAXED_FRICTION, WAXED_FRICTION, &wedge, &why) || !wedge.holds_itself) {
        tw_plan_finding(context, plan, TW_HALT, angle, "wedge-springs-out",
            tw_format(arena, "a wedge of %s springs out by itself when it is waxed (friction 0.2)", tw_angle_text(arena, f->alpha)),
            "4 to 5 degrees");
        tw_plan_fix(context, plan, angle, "Lean the wedge by", tw_radians(5.0), "", TW_ROUND_DOWN);
    } else if (f->alpha > tw_radians(5.0) + 1e-9) {
        tw_plan_finding(context, plan, TW_CARE, angle, "wedge-steep",
            tw_format(arena, "a wedge of %s is steeper than the common 4 to 5 degrees: a waxed one that is shaken has %.1f degrees left before it slips",
                      tw_angle_text(arena, f->alpha), wedge.margin_deg),
            "5 degrees, or leave the ramp unwaxed and look at it after the first weeks");
        tw_plan_fix(context, plan, angle, "Lean the wedge by", tw_radians(5.0), "", TW_ROUND_DOWN);
    } else if (f->alpha < tw_radians(3.0)) {
        tw_plan_finding(context, plan, TW_CARE, angle, "wedge-slender",
            tw_format(arena, "a wedge of %s draws only 1 for each %.0f driven and asks for a long reserve", tw_angle_text(arena, f->alpha),
                      1.0 / tan(f->alpha)), "4 to 5 degrees");
        tw_plan_fix(context, plan, angle, "Lean the wedge by", tw_radians(4.0), "", TW_ROUND_UP);
    }
}

static void check_housing(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    if (f->q < f->t / 4.0) {
        tw_plan_finding(context, plan, TW_HALT, &spec->housing_depth, "web-thin",
            tw_format(arena, "the housings leave a web of %s in a tenon of %s", tw_say(context, f->q), tw_say(context, f->t)),
            tw_format(arena, "housings at most %s deep", tw_say(context, f->t * 0.375)));
        tw_plan_fix(context, plan, &spec->slot, "Make the slot", f->t / 2.0 + EASE_MM, "wide", TW_ROUND_UP);
        tw_plan_fix(context, plan, &spec->housing_depth, "Make the housings", f->t * 0.25, "deep", TW_ROUND_DOWN);
    } else if (f->q < 0.4 * f->t) {
        tw_plan_finding(context, plan, TW_CARE, &spec->housing_depth, "web-thin",
            tw_format(arena, "the web of %s is less than the usual half of the tenon's %s", tw_say(context, f->q), tw_say(context, f->t)),
            "shallower housings or a thicker tenon");
        tw_plan_fix(context, plan, &spec->slot, "Make the slot", f->t / 2.0 + EASE_MM, "wide", TW_ROUND_UP);
        tw_plan_fix(context, plan, &spec->housing_depth, "Make the housings", f->t * 0.25, "deep", TW_ROUND_DOWN);
    }
    if (f->s < 0.0) {
        tw_plan_finding(context, plan, TW_HALT, spec->slot.given ? &spec->slot : &spec->housing_depth, "slot-narrow",
            tw_format(arena, "the slot of %s does not pass over the web of %s", tw_say(context, f->slot), tw_say(context, f->q)),
            tw_format(arena, "housings %s deep, or a slot of %s", tw_say(context, (f->t - f->slot + EASE_MM) / 2.0), tw_say(context, f->q + EASE_MM)));
        tw_plan_fix(context, plan, &spec->housing_depth, "Make the housings", (f->t - f->slot + EASE_MM) / 2.0, "deep",
            TW_ROUND_UP);
        tw_plan_fix(context, plan, &spec->slot, "Make the slot", f->q + EASE_MM, "wide", TW_ROUND_UP);
    } else if (f->e - f->s <= 0.3) {
        tw_plan_finding(context, plan, TW_HALT, &spec->housing_depth, "bearing-small",
            tw_format(arena, "a tusk that leans to one side bears on only %s of the other cheek's housing", tw_say(context, tw_max(0.0, f->e - f->s))),
            tw_format(arena, "housings at least %s deep, or less ease", tw_say(context, f->s + 0.8)));
        tw_plan_fix(context, plan, &spec->housing_depth, "Make the housings", f->t - f->slot - 0.8, "deep", TW_ROUND_DOWN);
        tw_plan_fix(context, plan, &spec->tenon_thickness, "Make the tenon", f->slot + EASE_MM + 1.6, "thick", TW_ROUND_UP);
        tw_plan_fix(context, plan, &spec->housing_depth, "Make the housings", f->s + 0.8, "deep", TW_ROUND_UP);
    }
    if (f->c <= 0.0) {
        tw_plan_finding(context, plan, TW_HALT, &spec->draw_allowance, "no-draw",
            "the housing does not start inside the surface: the tusk would bear on its wall and pull nothing", tw_format(arena, "a draw allowance of %s", small(context, DRAW_MM)));
        tw_plan_fix(context, plan, &spec->draw_allowance, "Leave a draw allowance of", DRAW_MM, "", TW_ROUND_UP);
    } else if (f->c < 0.8) {
        tw_plan_finding(context, plan, TW_CARE, &spec->draw_allowance, "draw-small",
            tw_format(arena, "a draw allowance of %s is used up by a little drying, or where %s is planed light", tw_say(context, f->c), f->through->name), small(context, DRAW_MM));
        tw_plan_fix(context, plan, &spec->draw_allowance, "Leave a draw allowance of", DRAW_MM, "", TW_ROUND_UP);
    }
    if (f->k < f->k_least - 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &spec->tusk_thickness, "tusk-thin",
            tw_format(arena, "at the narrow end of the housing the cutter of %s does not pass: the tusk is %s thick at the tenon's middle, at least %s is needed",
                      tw_say(context, f->d), tw_say(context, f->k), tw_say(context, f->k_least)),
            tw_format(arena, "a tusk %s thick, or a smaller cutter", tw_say(context, rounded_up(f->k_least + 0.5, step_mm(context)))));
        tw_plan_fix(context, plan, &spec->tusk_thickness, "Make the tusk", rounded_up(f->k_least + 0.5, step_mm(context)),
            "thick", TW_ROUND_UP);
    }
    if (f->o < f->d - 1e-9) {
        tw_plan_finding(context, plan, f->o < f->d / 2.0 * (1.0 + sin(f->alpha)) ? TW_HALT : TW_CARE, &spec->overrun, "overrun-short",
            tw_format(arena, "the housing runs only %s past the tenon's edge: the cutter of %s does not leave the wood", tw_say(context, f->o), tw_say(context, f->d)),
            tw_format(arena, "an overrun of %s", tw_say(context, f->d)));
        tw_plan_fix(context, plan, &spec->overrun, "Let the housing run", f->d, "past the tenon", TW_ROUND_UP);
    }
}

static void check_tusk(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    double short_by = 1.5 * f->t - f->relish;
    if (short_by > 1e-9) {
        tw_plan_finding(context, plan, f->relish < 0.75 * f->t ? TW_HALT : TW_CARE, &spec->beyond, "relish-short",
            tw_format(arena, "the relish between the tusk and the tenon's end is %s: it may shear out", tw_say(context, f->relish)),
            tw_format(arena, "a tenon %s beyond the mortised piece", tw_say(context, rounded_up(f->p + short_by, rule_step_mm(context)))));
        tw_plan_fix(context, plan, &spec->beyond, "Let the tenon stand", rounded_up(f->p + short_by, rule_step_mm(context)),
            "beyond the mortised piece", TW_ROUND_UP);
    }
    if (f->tip_thickness < TIP_LEAST_MM) {
        tw_plan_finding(context, plan, f->tip_thickness < 2.0 ? TW_HALT : TW_CARE, &spec->tusk_thickness, "tip-thin",
            tw_format(arena, "the tusk's tip is only %s thick", tw_say(context, f->tip_thickness)),
            tw_format(arena, "a tusk %s thick at the tenon's middle", tw_say(context, rounded_up(f->k + TIP_LEAST_MM - f->tip_thickness, step_mm(context)))));
        tw_plan_fix(context, plan, &spec->tusk_thickness, "Make the tusk",
            rounded_up(f->k + TIP_LEAST_MM - f->tip_thickness, step_mm(context)), "thick", TW_ROUND_UP);
    }
    if (f->bridge < BRIDGE_LEAST_MM + 3.0) {
        tw_plan_finding(context, plan, f->bridge < BRIDGE_LEAST_MM ? TW_HALT : TW_CARE, &spec->head_proud, "bridge-short",
            tw_format(arena, "only %s of solid wood stands over the slot: the mallet splits the head", tw_say(context, f->bridge)),
            tw_format(arena, "a head %s proud", tw_say(context, rounded_up(f->slot / 2.0 + BRIDGE_MM, rule_step_mm(context)))));
        tw_plan_fix(context, plan, &spec->head_proud, "Let the head stand",
            rounded_up(f->slot / 2.0 + BRIDGE_MM, rule_step_mm(context)), "proud", TW_ROUND_UP);
    }
}

static void check_tenon(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    if (f->t > f->tenon_size.thickness_mm + 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &spec->tenon_thickness, "tenon-thick",
            tw_format(arena, "the tenon is %s thick, its piece only %s", tw_say(context, f->t), tw_say(context, f->tenon_size.thickness_mm)),
            tw_format(arena, "%s or less", tw_say(context, f->tenon_size.thickness_mm)));
        tw_piece_fix_size(context, spec->tenon.index, "thickness", 2.0 * f->t, TW_ROUND_UP);
        tw_plan_fix(context, plan, &spec->tenon_thickness, "Make the tenon", f->tenon_size.thickness_mm, "thick", TW_ROUND_DOWN);
    }
    if (f->w > f->tenon_size.width_mm + 1e-9) {
        tw_plan_finding(context, plan, TW_HALT, &spec->tenon_width, "tenon-wide",
            tw_format(arena, "the tenon is %s wide, its piece only %s", tw_say(context, f->w), tw_say(context, f->tenon_size.width_mm)),
            tw_format(arena, "%s or less", tw_say(context, f->tenon_size.width_mm)));
        tw_plan_fix(context, plan, &spec->tenon_width, "Make the tenon", f->tenon_size.width_mm, "wide", TW_ROUND_DOWN);
    }
    double no_shoulder_mm = 1.0;
    if (f->tenon_size.thickness_mm - f->t < no_shoulder_mm && f->tenon_size.width_mm - f->w < no_shoulder_mm) {
        tw_plan_finding(context, plan, TW_HALT, &spec->tenon_thickness, "no-shoulder", "the tenon is as large as its piece: there is no shoulder to draw against",
            "a thinner or narrower tenon");
        tw_plan_fix(context, plan, &spec->tenon_width, "Make the tenon", f->tenon_size.width_mm * 0.6, "wide", TW_ROUND_DOWN);
        tw_plan_fix(context, plan, &spec->tenon_thickness, "Make the tenon", f->tenon_size.thickness_mm / 2.0, "thick",
            TW_ROUND_DOWN);
    }
    double both_mm = f->ends * (f->T + f->p);
    if (both_mm > f->tenon_size.length_mm - 10.0) {
        tw_plan_finding(context, plan, TW_HALT, NULL, "tenons-meet",
            tw_format(arena, "%d tenon%s of %s leave%s no body in a piece %s long", f->ends, f->ends == 1 ? "" : "s", tw_say(context, f->T + f->p),
                      f->ends == 1 ? "s" : "", tw_say(context, f->tenon_size.length_mm)),
            tw_format(arena, "a length over %s: it is measured with the tenons", tw_say(context, both_mm + 10.0)));
        tw_piece_fix_size(context, spec->tenon.index, "length", both_mm + 10.0, TW_ROUND_UP);
    }
}

static void check_place(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f, const tw_amount *at)
{
    tw_arena *arena = context->arena;
    const tw_forked_spec *spec = f->spec;
    bool along = spec->lies.value == 0;
    double half_along = (along ? f->w : f->t) / 2.0, half_across = (along ? f->t : f->w) / 2.0;
    tw_size extent = tw_face_extent(f->through_size, (tw_face)spec->from.value);
    double wall_along = tw_min(at->value, extent.length_mm - at->value) - half_along;
    double wall_across = tw_min(f->across, extent.width_mm - f->across) - half_across;
    if (wall_along < 0.0 || wall_across < 0.0) {
        double least = half_along + f->t;
        tw_plan_finding(context, plan, TW_HALT, wall_along < 0.0 ? at : &spec->across, "mortise-off-piece",
            tw_format(arena, "the mortise does not lie within the piece %s", f->through->name),
            wall_along >= 0.0 ? tw_format(arena, "the middle at %s", tw_say(context, extent.width_mm / 2.0))
            : 2.0 * least <= extent.length_mm ? tw_format(arena, "a place between %s and %s", tw_say(context, least), tw_say(context, extent.length_mm - least))
                                              : tw_format(arena, "a piece at least %s long, or a smaller tenon", tw_say(context, 2.0 * least)));
        if (wall_along < 0.0) tw_plan_fix_place(context, plan, at, least, spec->through.index);
        else tw_plan_fix(context, plan, &spec->across, "Put the middle at", extent.width_mm / 2.0, "across", TW_ROUND_NEAREST);
        return;
    }
    if (wall_across < f->t * 0.75) {
        tw_plan_finding(context, plan, TW_CARE, NULL, "mortise-wall-thin",
            tw_format(arena, "the wall beside the mortise in %s is %s thick", f->through->name, tw_say(context, wall_across)), "a wider piece or a thinner tenon");
        tw_piece_fix_across(context, spec->through.index, (tw_face)spec->from.value, 2.0 * (half_across + f->t * 0.75),
            TW_ROUND_UP);
        if (along) tw_plan_fix(context, plan, &spec->tenon_thickness, "Make the tenon", extent.width_mm / 2.5, "thick",
            TW_ROUND_DOWN);
    }
    if (wall_along < 1.5 * f->w) {
        tw_plan_finding(context, plan, TW_CARE, at, "mortise-near-end",
            tw_format(arena, "only %s of %s stands between the mortise and its end: it may split when the tusk is driven", tw_say(context, wall_along), f->through->name),
            tw_format(arena, "at least %s", tw_say(context, 1.5 * f->w)));
        tw_plan_fix_place(context, plan, at, half_along + 1.5 * f->w, spec->through.index);
    }
    double leg = along ? f->t / 2.0 + f->m : f->w / 2.0;
    if (tw_min(f->across, extent.width_mm - f->across) < leg - 1e-9) {
        tw_plan_finding(context, plan, TW_CARE, &spec->bears, "leg-overhangs",
            tw_format(arena, "the tusk's leg hangs over the edge of %s", f->through->name), "legs that bear less, or a wider piece");
        tw_piece_fix_across(context, spec->through.index, (tw_face)spec->from.value, 2.0 * leg, TW_ROUND_UP);
        if (along) tw_plan_fix(context, plan, &spec->bears, "Let each leg bear",
            tw_min(f->across, extent.width_mm - f->across) - f->t / 2.0, "", TW_ROUND_DOWN);
    }
}

/* Two places in one piece: the tenoned pieces side by side, and their tusks, which all point the same way. */
static void check_apart(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    const tw_amounts *at = &f->spec->at;
    bool along = f->spec->lies.value == 0;
    double body_mm = along ? f->tenon_size.width_mm : f->tenon_size.thickness_mm, tusk_mm = along ? f->tusk_length : f->tusk_width;
    double need_mm = tw_max(body_mm, tusk_mm);
    for (int i = 1; i < at->count; i++)
        for (int j = 0; j < i; j++) {
            double apart_mm = fabs(at->items[i].value - at->items[j].value);
            if (apart_mm >= need_mm - 1e-9) continue;
            tw_plan_finding(context, plan, TW_HALT, &at->items[i], "places-too-near",
                tw_format(context->arena, "in %s the tenon at %s runs into the one at %s, or its tusk does: they stand %s apart", f->through->name,
                          tw_say(context, at->items[i].value), tw_say(context, at->items[j].value), tw_say(context, apart_mm)),
                tw_format(context->arena, "places at least %s apart", tw_say(context, need_mm)));
            tw_plan_fix_apart(context, plan, &at->items[i], at->items[j].value, need_mm,
                tw_face_extent(f->through_size, (tw_face)f->spec->from.value).length_mm);
            break;
        }
}

static void check_count(tw_joint_context *context, tw_joint_plan *plan, const tw_forked *f)
{
    int tenons = f->tenon_pieces * f->ends, places = f->through_pieces * f->spec->at.count;
    if (tenons == places) return;
    tw_arena *arena = context->arena;
    tw_plan_finding(context, plan, TW_HALT, NULL, "counts-differ",
        tw_format(arena, "the count of tenons is %d (%d x %s, %d end%s each), of mortises %d (%d x %s, %d each)", tenons, f->tenon_pieces, f->tenon->name,
                  f->ends, f->ends == 1 ? "" : "s", places, f->through_pieces, f->through->name, f->spec->at.count),
        "as many of one as of the other: look at the counts, `ends` and `at`");
    tw_plan_fix_counts(context, f->spec->tenon.index, f->ends, f->spec->through.index, f->spec->at.count);
}

/* ---- the plan ---- */

static tw_forked *work_out(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_forked_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_forked *f = TW_NEW(context->arena, tw_forked);
    f->spec = spec;
    f->tenon = &job->pieces[spec->tenon.index];
    f->through = &job->pieces[spec->through.index];
    f->tenon_size = tw_piece_size(f->tenon);
    f->through_size = tw_piece_size(f->through);
    tw_size extent = tw_face_extent(f->through_size, (tw_face)spec->from.value);
    f->T = extent.thickness_mm;
    f->across = spec->across.given ? spec->across.value : extent.width_mm / 2.0;
    f->ends = spec->ends.value == TW_ENDS_BOTH ? 2 : 1;
    int sets = (int)job->sets.value;
    f->tenon_pieces = (int)f->tenon->count.value * sets;
    f->through_pieces = (int)f->through->count.value * sets;
    plan->count = f->tenon_pieces * f->ends;
    propose_tenon(context, plan, f);
    propose_web(context, plan, f);
    propose_wedge(context, plan, f);
    propose_tusk(context, plan, f);
    note_tusk(context, plan, f);
    return f;
}

static bool sound_enough(const tw_forked *f)
{
    return f->t > 0.0 && f->w > 0.0 && f->e > 0.0 && f->q > 0.0 && f->c > 0.0 && f->k >= f->k_least - 1e-9 && f->tusk_length > 0.0 &&
           f->t <= f->tenon_size.thickness_mm + 1e-9 && f->w <= f->tenon_size.width_mm + 1e-9 && f->tip_thickness > 0.0;
}

static void plan_forked_tusks(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_forked_spec *spec = plan->joint->spec;
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name,
            "a mortise is not cut into an end: the wedge would split it", "a face or an edge of the mortised piece");
        return;
    }
    tw_forked *f = work_out(context, plan);
    plan->own = f;
    check_angle(context, plan, f);
    check_housing(context, plan, f);
    check_tusk(context, plan, f);
    check_tenon(context, plan, f);
    check_count(context, plan, f);
    check_apart(context, plan, f);
    for (int i = 0; i < spec->at.count; i++) check_place(context, plan, f, &spec->at.items[i]);
    if (spec->cutter.given && f->cutter < 0)
        tw_find(context->findings, TW_HALT, spec->cutter.place, "cutter-unknown", plan->joint->name,
            tw_format(context->arena, "the shop has no cutter named %s", spec->cutter.text), "a name from the shop's list of cutters");
    if (!sound_enough(f)) return;  // a halt above says why
    tw_forked_cuts(context, plan, f);
    tw_forked_works(context, plan, f);
    tw_forked_meetings(context, plan, f);
    tw_forked_lodgings(context, plan, f);
}

tw_outline tw_forked_housing(tw_arena *arena, const tw_forked *f)
{
    double reach = f->w / 2.0 + f->o, lean = reach * tan(f->alpha);
    const tw_vertex corners[] = { { -f->c, -reach, 0 }, { f->k - lean, -reach, 0 }, { f->k + lean, reach, 0 }, { -f->c, reach, 0 } };
    return tw_outline_of_loop(arena, corners, 4);
}

const tw_joint_kind tw_forked_tusks = {
    .format = { .kind = "forked tusks",
                .meaning = "A tenon goes through a piece and is drawn home by a removable tusk whose slot straddles the tenon: a tapered "
                           "housing in each cheek takes the tusk's legs. No glue; it comes apart with a few blows from below.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_forked_spec) },
    .plan = plan_forked_tusks,
    .draw = tw_forked_draw,
};
