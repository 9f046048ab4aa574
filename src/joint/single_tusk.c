// SPDX-License-Identifier: GPL-3.0-or-later
/* Single tusk: a tenon goes through a piece; behind it one tusk stands in a mortise through the tenon, and draws the
 * shoulder home as it is driven. Here: what the job may say, and the proportions with their rules.
 *
 *     open at the tip's side   lo = c + k - (D/2) tan a                                               (1)
 *     open at the head's side  hi = c + k + (D/2) tan a                                               (2)
 *     k >= mb - c + (D/2) tan a           so that the cutter, as wide as the mortise, enters at all   (3)
 *     relish = p - k - (D/2) tan a - chamfer                                                        (4)
 *     tusk: length tip + D + z + head;  tip k - (D/2 + tip) tan a;  stick k + (D/2 + z + head) tan a  (5)
 *
 * The straight wall is never touched: it lies inside the mortised piece by c, so that the tusk bears on the surface. */
#include "joint/single_tusk.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/words.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const lies_words[] = { "along", "across", NULL };
static const char *const stands_words[] = { "upright", "level", NULL };
static const char *const heads_words[] = { "face", "back", "face edge", "back edge", NULL };  // in the order of tw_face
static const char *const set_words[] = { "end", "shoulder", NULL };
static const char *const wall_words[] = { "chisel", "cradle", NULL };
static const char *const corner_words[] = { "square", "round", NULL };

#define AT(field) offsetof(tw_single_spec, field)
static const tw_key keys[] = {
    { "tenon", TW_KEY_PIECE, AT(tenon), .required = true, .meaning = "The piece that carries the tenon.", .example = "stretcher" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = ends_words, .fallback = TW_SINGLE_BOTH, .otherwise = "both",
      .meaning = "Which ends of it carry a tenon.", .example = "both" },
    { "through", TW_KEY_PIECE, AT(through), .required = true, .meaning = "The piece that the tenon goes through.", .example = "post" },
    { "from", TW_KEY_CHOICE, AT(from), .choices = tw_face_words, .fallback = TW_SIDE_BACK, .otherwise = "back",
      .meaning = "The side of the mortised piece at which the tenon enters; the shoulder stands against it, the tusk bears on the opposite one. A face or an edge, not an end.",
      .example = "back" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true,
      .meaning = "From the left end of the mortised piece to the middle of the tenon; a list when one piece takes several.", .example = "[190, 480]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the tenon across the mortised piece: from its face edge, or from its back where the tenon enters at an edge.", .example = "55 mm" },
    { "lies", TW_KEY_CHOICE, AT(lies), .choices = lies_words, .otherwise = "along",
      .meaning = "Whether the tenon's width runs along the grain of the mortised piece or across it.", .example = "along" },
    { "tusk stands", TW_KEY_CHOICE, AT(stands), .choices = stands_words, .otherwise = "upright",
      .meaning = "Upright: the tusk goes through the tenon's width, from edge to edge. Level: it goes through the tenon's thickness, from face to back.", .example = "level" },
    { "heads to", TW_KEY_CHOICE, AT(heads_to), .choices = heads_words, .otherwise = "back edge for an upright tusk, face for a level one",
      .meaning = "Towards which side of the tenoned piece the head of the tusk points: an edge for an upright tusk, face or back for a level one.", .example = "back edge" },
    { "tenon thickness", TW_KEY_LENGTH, AT(tenon_thickness), .otherwise = "two thirds of the piece's thickness for an upright tusk, half of it for a level one",
      .meaning = "Cheek to cheek.", .example = "3/4 in" },
    { "tenon width", TW_KEY_LENGTH, AT(tenon_width), .otherwise = "six tenths of the piece's width", .meaning = "Edge to edge of the tenon.", .example = "40 mm" },
    { "beyond", TW_KEY_LENGTH, AT(beyond), .otherwise = "what the tusk and a relish of one and a half tenon thicknesses need",
      .meaning = "How far the tenon stands out past the mortised piece.", .example = "52 mm" },
    { "tusk breadth", TW_KEY_LENGTH, AT(tusk_breadth), .otherwise = "the owned cutter nearest to a third of the tenon there, less the ease",
      .meaning = "Of the tusk across its own thickness: along the tenon's thickness when it stands upright, along its width when it lies level.", .example = "8 mm" },
    { "ease", TW_KEY_LENGTH, AT(ease), .most = 5.0, .otherwise = "0.4 mm", .meaning = "How much wider the tusk's mortise is than the tusk's breadth.", .example = "1/64 in" },
    { "angle", TW_KEY_ANGLE, AT(angle), .least = 0.01, .most = 0.8, .otherwise = "5 deg",
      .meaning = "Of the ramp to the straight side. Wedges of 4 to 5 degrees are common practice.", .example = "1:12" },
    { "draw allowance", TW_KEY_LENGTH, AT(draw_allowance), .otherwise = "1.6 mm",
      .meaning = "How far inside the outer surface of the mortised piece the tusk's mortise starts, so that the tusk bears on that surface and can pull.", .example = "1/16 in" },
    { "tusk thickness", TW_KEY_LENGTH, AT(tusk_thickness), .otherwise = "a third of what it goes through, at least 10 mm, and what cutter and tip need",
      .meaning = "Of the seated tusk, at the middle of the tenon.", .example = "14 mm" },
    { "reserve", TW_KEY_LENGTH, AT(reserve), .otherwise = "1 mm of draw: 1/tan(angle)",
      .meaning = "How much farther the tusk must be able to go when everything has dried.", .example = "12 mm" },
    { "head proud", TW_KEY_LENGTH, AT(head_proud), .otherwise = "15 mm, or 5/8 in",
      .meaning = "How far the head stands above the tenon when the tusk has used all of its reserve.", .example = "16 mm" },
    { "tip proud", TW_KEY_LENGTH, AT(tip_proud), .otherwise = "0.5 mm of swelling at the angle, and 6 mm",
      .meaning = "How far the tip stands out of the tenon when the tusk is seated.", .example = "12 mm" },
    { "chamfer", TW_KEY_LENGTH, AT(chamfer), .most = 20.0, .otherwise = "3 mm, or 1/8 in", .meaning = "Lead-in on the tenon's end.", .example = "3 mm" },
    { "mortise clearance", TW_KEY_LENGTH, AT(mortise_clearance), .most = 5.0, .otherwise = "0.2 mm",
      .meaning = "How much larger the mortise is than the tenon, in thickness and in width; a tenon without glue is left slightly loose.", .example = "0.008 in" },
    { "mortise corners", TW_KEY_CHOICE, AT(mortise_corners), .choices = corner_words, .otherwise = "square",
      .meaning = "Whether the round corners of the tenon's mortise are chopped square, or stay and the tenon's arrises are rounded to them.", .example = "round" },
    { "set from", TW_KEY_CHOICE, AT(set_from), .choices = set_words, .otherwise = "end",
      .meaning = "What touches the stop when the tusk's mortise is cut: the end of the tenon, or its shoulder (then the tenon's length does not matter).", .example = "shoulder" },
    { "wall by", TW_KEY_CHOICE, AT(wall_by), .choices = wall_words, .otherwise = "chisel",
      .meaning = "How the leaning wall is made: pared with a chisel, or copied with the piece in a cradle that leans by the wedge's angle (its corners are pared all the same).",
      .example = "cradle" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the one nearest to a third of the tenon there", .meaning = "For the tusk's mortise.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For the tusk's mortise.", .example = "bush 16" },
    { "wall cutter", TW_KEY_CUTTER, AT(wall_cutter), .otherwise = "the largest of at most two thirds of the mortise that reaches", .meaning = "For a leaning wall cut in the cradle.", .example = "spiral 6" },
    { "mortise cutter", TW_KEY_CUTTER, AT(mortise_cutter), .otherwise = "the largest that the mortise takes", .meaning = "For the tenon's mortise.", .example = "long 12.7" },
    { "tusk timber", TW_KEY_TEXT, AT(tusk_timber), .otherwise = "that of the tenon's piece", .meaning = "Hard, straight-grained wood.", .example = "Ash, white" },
};
#undef AT

/* ---- proportions ---- */

#define UPRIGHT_SHARE (2.0 / 3.0)  // of the piece's thickness: a cheek, the tusk and a cheek stand side by side in it: common practice
#define LEVEL_SHARE 0.5            // a third to a half: common practice
#define WIDTH_SHARE 0.6            // shoulders at both edges: common practice
#define BREADTH_SHARE (1.0 / 3.0)  // of the tenon across the tusk: common practice
#define EASE_MM 0.4                // 1/64 in: it slides, and does not rattle: common practice
#define ANGLE_DEG 5.0              // 4 to 5 degrees: common practice
#define DRAW_MM 1.6                // 1/16 in: common practice
#define THICK_SHARE (1.0 / 3.0)    // of the tenon along the tusk: common practice
#define THICK_LEAST_MM 10.0        // 3/8 in: common practice
#define TIP_GOOD_MM 5.0            // thinner than this a tip splinters when it is knocked out: common practice
#define SWELLING_MM 0.5            // of the mortised piece and the tusk, until the season is reckoned
#define RELISH_SHARE 1.5           // tenon thicknesses: common practice
#define RELISH_LEAST_MM 20.0

static double rounded(double value, double step) { return floor(value / step + 0.5) * step; }
static double rounded_up(double value, double step) { return ceil(value / step - 1e-9) * step; }
static double fine_step(const tw_joint_context *context) { return tw_customary(context, 0.5, 1.0 / 64.0); }
static double rule_step(const tw_joint_context *context) { return tw_customary(context, 1.0, 1.0 / 16.0); }  // measured with a rule

/* The owned cutter nearest to the breadth wanted among those that plunge and leave cheeks; of two as near, the first. */
static int nearest_cutter(const tw_shop *shop, double wanted_mm, double most_mm)
{
    int nearest = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        double d = shop->cutters[i].d_mm;
        if (!shop->cutters[i].plunges.value || d > most_mm + 1e-9) continue;
        if (nearest < 0 || fabs(d - wanted_mm) < fabs(shop->cutters[nearest].d_mm - wanted_mm) - 1e-9) nearest = i;
    }
    return nearest;
}

static void propose_tenon(tw_joint_context *context, tw_joint_plan *plan, tw_single *s)
{
    tw_arena *arena = context->arena;
    const tw_single_spec *spec = s->spec;
    s->t = tw_plan_amount(context, plan, &spec->tenon_thickness, "tenon_thickness", "tenon thickness", "t", TW_UNIT_MM,
        rounded((s->upright ? UPRIGHT_SHARE : LEVEL_SHARE) * s->a.thickness_mm, fine_step(context)),
        tw_format(arena, "%s x %s", s->upright ? "2/3" : "1/2", tw_say(context, s->a.thickness_mm)),
        s->upright ? "a cheek, the tusk and a cheek stand side by side in it (common practice)" : "a third to a half of the piece (common practice)");
    s->w = tw_plan_amount(context, plan, &spec->tenon_width, "tenon_width", "tenon width", "w", TW_UNIT_MM,
        rounded(WIDTH_SHARE * s->a.width_mm, fine_step(context)), tw_format(arena, "0.6 x %s", tw_say(context, s->a.width_mm)), "shoulders at both edges (common practice)");
    s->clearance = tw_plan_amount(context, plan, &spec->mortise_clearance, "mortise_clearance", "mortise over tenon", "", TW_UNIT_MM,
        0.2, tw_say_fine(context, 0.2), "a tenon that gets no glue is left slightly loose (common practice)");
    double lead_in = tw_customary(context, 3.0, 1.0 / 8.0);
    s->chamfer = tw_plan_amount(context, plan, &spec->chamfer, "chamfer", "lead-in chamfer", "", TW_UNIT_MM, lead_in, tw_say(context, lead_in), "common practice");
    s->D = s->upright ? s->w : s->t;
    s->B = s->upright ? s->t : s->w;
}

static void propose_breadth(tw_joint_context *context, tw_joint_plan *plan, tw_single *s)
{
    tw_arena *arena = context->arena;
    const tw_single_spec *spec = s->spec;
    double third = BREADTH_SHARE * s->B;
    s->ease = tw_plan_amount(context, plan, &spec->ease, "ease", "ease of the tusk in its mortise", "", TW_UNIT_MM, EASE_MM, tw_say_fine(context, EASE_MM), "1/64 in (common practice)");
    s->cutter = spec->cutter.given ? tw_cutter_named(context->shop, spec->cutter.text) : nearest_cutter(context->shop, spec->tusk_breadth.given ? spec->tusk_breadth.value + s->ease : third, s->B / 2.0);
    double mortise = s->cutter >= 0 ? context->shop->cutters[s->cutter].d_mm : rounded(third, fine_step(context));
    s->mb = spec->tusk_breadth.given ? spec->tusk_breadth.value + s->ease : mortise;
    s->b = tw_plan_amount(context, plan, &spec->tusk_breadth, "tusk_breadth", "tusk, breadth", "b", TW_UNIT_MM, s->mb - s->ease,
        tw_format(arena, "mb - ease = %s - %s", tw_say(context, s->mb), tw_say_fine(context, s->ease)), "the tusk is made to its mortise");
    tw_plan_figure(context, plan, (tw_figure){ .key = "tusk_mortise_breadth", .label = "mortise of the tusk, across it",
        .symbol = "mb", .value = s->mb, .unit = TW_UNIT_MM,
        .sum = spec->tusk_breadth.given ? "b + ease" : s->cutter >= 0 ? tw_format(arena, "cutter nearest to %s / 3 = %s: %s",
            tw_say(context, s->B), tw_say(context, third), context->shop->cutters[s->cutter].name)
                                               : tw_format(arena, "%s / 3", tw_say(context, s->B)),
        .rule = "a third of the tenon, in one pass of a cutter (common practice)" });
    s->cheek = (s->B - s->mb) / 2.0;
    tw_plan_figure(context, plan, (tw_figure){ .key = "cheek", .label = "wood on each side of the tusk", .value = s->cheek,
        .unit = TW_UNIT_MM,
        .sum = tw_format(arena, "(%s - %s)/2", tw_say(context, s->B), tw_say(context, s->mb)) });
}

static void propose_wedge(tw_joint_context *context, tw_joint_plan *plan, tw_single *s)
{
    tw_arena *arena = context->arena;
    const tw_single_spec *spec = s->spec;
    s->alpha = tw_plan_amount(context, plan, &spec->angle, "wedge_angle", "wedge angle", "", TW_UNIT_RAD, tw_radians(ANGLE_DEG), "5 degrees", "wedges of 4 to 5 degrees (common practice)");
    s->c = tw_plan_amount(context, plan, &spec->draw_allowance, "draw_allowance", "draw allowance", "c", TW_UNIT_MM, tw_customary(context, DRAW_MM, 1.0 / 16.0),
        tw_say(context, tw_customary(context, DRAW_MM, 1.0 / 16.0)), "1/16 in; more than the mortised piece can shrink and the saw can err (common practice)");
    double tan_a = tan(s->alpha), fall = s->D / 2.0 * tan_a;
    s->tip = tw_plan_amount(context, plan, &spec->tip_proud, "tip_proud", "tip proud", "", TW_UNIT_MM,
        rounded_up(SWELLING_MM / tan_a + 6.0, rule_step(context)), tw_format(arena, "%s of swelling / tan a + %s", tw_say(context, SWELLING_MM), tw_say(context, 6.0)), "it can be knocked out at its highest seat");
    s->k_least = s->mb - s->c + fall;
    tw_plan_figure(context, plan, (tw_figure){ .key = "tusk_thickness_least", .label = "least tusk thickness there",
        .value = s->k_least, .unit = TW_UNIT_MM, .sum = tw_format(arena, "mb - c + (D/2) tan a = %s - %s + %s",
            tw_say(context, s->mb), tw_say(context, s->c), tw_say(context, fall)), .rule = "the cutter must enter at the tip's side" });
    double third = THICK_SHARE * s->D, for_tip = TIP_GOOD_MM + fall + s->tip * tan_a;
    double wanted = tw_max(tw_max(third, tw_customary(context, THICK_LEAST_MM, 3.0 / 8.0)), tw_max(for_tip, s->k_least + 0.5));
    s->k = tw_plan_amount(context, plan, &spec->tusk_thickness, "tusk_thickness", "tusk thickness at the tenon's middle", "k", TW_UNIT_MM, rounded_up(wanted, fine_step(context)),
        tw_format(arena, "the most of D/3 = %s, %s, what leaves a tip of %s: %s, and what the cutter needs", tw_say(context, third), tw_say(context, tw_customary(context, THICK_LEAST_MM, 3.0 / 8.0)),
                  tw_say(context, TIP_GOOD_MM), tw_say(context, for_tip)), "a third of what it goes through (common practice)");
    s->z = tw_plan_amount(context, plan, &spec->reserve, "reserve", "reserve of driving", "z", TW_UNIT_MM, rounded_up(1.0 / tan_a, rule_step(context)),
        tw_format(arena, "%s of draw / tan a", tw_say(context, 1.0)), "until the season is reckoned: drying and wear");
    s->open_low = s->c + s->k - fall;
    s->open_high = s->c + s->k + fall;
}

static void propose_lengths(tw_joint_context *context, tw_joint_plan *plan, tw_single *s)
{
    const tw_single_spec *spec = s->spec;
    double tan_a = tan(s->alpha), fall = s->D / 2.0 * tan_a, head = tw_customary(context, 15.0, 5.0 / 8.0);
    s->head_proud = tw_plan_amount(context, plan, &spec->head_proud, "head_proud", "head proud", "", TW_UNIT_MM, head, tw_say(context, head), "wood for the mallet when all reserve is used (common practice)");
    double relish = tw_max(RELISH_SHARE * s->t, RELISH_LEAST_MM);
    s->p = tw_plan_amount(context, plan, &spec->beyond, "beyond", "tenon beyond the mortised piece", "p", TW_UNIT_MM,
        rounded_up(s->k + fall + s->chamfer + relish, rule_step(context)),
        tw_format(context->arena, "k + (D/2) tan a + chamfer + relish, rounded up = %s + %s + %s + %s", tw_say(context, s->k), tw_say(context, fall),
                  tw_say(context, s->chamfer), tw_say(context, relish)), "a relish of one and a half tenon thicknesses (common practice)");
    s->relish = s->p - s->k - fall - s->chamfer;
    s->tusk_length = s->tip + s->D + s->z + s->head_proud;
    s->tip_thickness = s->k - fall - s->tip * tan_a;
    s->stick_thickness = s->k + fall + (s->z + s->head_proud) * tan_a;
}

static void note_figures(tw_joint_context *context, tw_joint_plan *plan, const tw_single *s)
{
    tw_arena *arena = context->arena;
    double fall = s->D / 2.0 * tan(s->alpha);
    const char *slope = tw_angle_text(arena, s->alpha), *half = tw_say(context, s->D / 2.0), *k = tw_say(context, s->k);
    const struct { const char *key, *label; double length_mm; const char *sum, *rule; } lengths[] = {
        { "open_low", "mortise of the tusk, open at the tip's side", s->open_low,
          tw_format(arena, "c + k - (D/2) tan a = %s + %s - %s", tw_say(context, s->c), k, tw_say(context, fall)), "" },
        { "open_high", "open at the head's side", s->open_high,
          tw_format(arena, "c + k + (D/2) tan a = %s + %s + %s", tw_say(context, s->c), k, tw_say(context, fall)), "" },
        { "relish", "relish, least", s->relish,
          tw_format(arena, "p - k - (D/2) tan a - chamfer = %s - %s - %s - %s", tw_say(context, s->p), k, tw_say(context, fall),
                    tw_say(context, s->chamfer)), "" },
        { "tusk_length", "tusk, length", s->tusk_length,
          tw_format(arena, "tip proud + D + z + head proud = %s + %s + %s + %s", tw_say(context, s->tip), tw_say(context, s->D),
                    tw_say(context, s->z), tw_say(context, s->head_proud)), "" },
        { "tip_thickness", "tusk, thickness at the tip", s->tip_thickness,
          tw_format(arena, "k - (D/2 + tip proud) tan a = %s - (%s + %s) x tan %s", k, half, tw_say(context, s->tip), slope), "" },
        { "head_thickness", "tusk, thickness at the head's end", s->stick_thickness,
          tw_format(arena, "k + (D/2 + z + head proud) tan a = %s + (%s + %s + %s) x tan %s", k, half, tw_say(context, s->z),
                    tw_say(context, s->head_proud), slope), "the stick is at least this thick" },
    };
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++)
        tw_note_length(context, plan, lengths[i].key, lengths[i].label, lengths[i].length_mm, lengths[i].sum, lengths[i].rule);
    tw_plan_figure(context, plan, (tw_figure){ .key = "draw_ratio", .label = "draw, for what is driven", .value = tan(s->alpha),
        .unit = TW_UNIT_NONE, .sum = tw_format(arena, "tan a = tan %s", slope) });
    tw_plan_figure(context, plan, (tw_figure){ .key = "seat_ratio", .label = "seat, for an error of the wall", .value = 1.0 / tan(s->alpha),
        .unit = TW_UNIT_NONE, .sum = tw_format(arena, "1 / tan a = 1 / tan %s", slope), .rule = "number the tusks to their places" });
}

/* The largest cutter of at most two thirds of the mortise that reaches along the leaning wall. */
static int wall_cutter(const tw_shop *shop, const tw_single *s)
{
    int best = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        bool fits = cutter->plunges.value && cutter->d_mm <= s->mb * 2.0 / 3.0 + 1e-9 && cutter->cutting_length.value >= s->D / cos(s->alpha) + 1.0 - 1e-9;
        if (fits && (best < 0 || cutter->d_mm > shop->cutters[best].d_mm)) best = i;
    }
    return best;
}

/* ---- the plan ---- */

static tw_single *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_single_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_single *s = TW_NEW(context->arena, tw_single);
    s->spec = spec;
    s->tenon = &job->pieces[spec->tenon.index];
    s->through = &job->pieces[spec->through.index];
    s->a = tw_piece_size(s->tenon);
    s->post = tw_piece_size(s->through);
    s->from = (tw_face)spec->from.value;
    s->upright = spec->stands.value == 0;
    s->along = spec->lies.value == 0;
    s->head = spec->heads_to.given ? (tw_face)spec->heads_to.value : s->upright ? TW_SIDE_BACK_EDGE : TW_SIDE_FACE;
    tw_size extent = tw_face_extent(s->post, s->from);
    s->T = extent.thickness_mm;
    s->across = spec->across.given ? spec->across.value : extent.width_mm / 2.0;
    s->ends = spec->ends.value == TW_SINGLE_BOTH ? 2 : 1;
    s->tenon_pieces = (int)(s->tenon->count.value * job->sets.value);
    s->through_pieces = (int)(s->through->count.value * job->sets.value);
    plan->count = s->tenon_pieces * s->ends;
    return s;
}

double tw_single_head_shoulder(const tw_single *s) { return (s->upright ? s->a.width_mm - s->w : s->a.thickness_mm - s->t) / 2.0; }

bool tw_single_possible(const tw_single *s)
{
    bool tenon = s->t > 0.1 && s->w > 0.1 && s->t <= s->a.thickness_mm + 1e-9 && s->w <= s->a.width_mm + 1e-9 && s->ends * (s->T + s->p) < s->a.length_mm;
    bool tusk = s->mb > 0.1 && s->b > 0.1 && s->cheek > 0.1 && s->k >= s->k_least - 1e-9 && s->c > 0.0 && s->tip_thickness > 0.1 && s->relish > 0.1;
    bool head = s->upright == (s->head >= TW_SIDE_FACE_EDGE);
    tw_size extent = tw_face_extent(s->post, s->from);
    double half_x = ((s->along ? s->w : s->t) + s->clearance) / 2.0, half_up = ((s->along ? s->t : s->w) + s->clearance) / 2.0;
    bool mortise = s->across > half_up && s->across < extent.width_mm - half_up;
    for (int i = 0; i < s->spec->at.count; i++)
        mortise = mortise && s->spec->at.items[i].value > half_x && s->spec->at.items[i].value < s->post.length_mm - half_x;
    return tenon && tusk && head && mortise;
}

static void plan_single_tusk(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_single_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name,
            "a mortise is not cut into an end: the wedge would split it", "a face or an edge of the mortised piece");
        return;
    }
    tw_single *s = begin(context, plan);
    plan->own = s;
    propose_tenon(context, plan, s);
    propose_breadth(context, plan, s);
    propose_wedge(context, plan, s);
    propose_lengths(context, plan, s);
    note_figures(context, plan, s);
    s->wall_cutter = spec->wall_cutter.given ? tw_cutter_named(context->shop, spec->wall_cutter.text) : wall_cutter(context->shop, s);
    tw_single_check(context, plan, s);
    if (!tw_single_possible(s)) return;  // a halt says why
    tw_single_cuts(context, plan, s);
    tw_single_works(context, plan, s);
    tw_single_lodgings(context, plan, s);
}

const tw_joint_kind tw_single_tusk = {
    .format = { .kind = "single tusk",
                .meaning = "A tenon goes through a piece and is drawn home by one removable tusk that stands in a mortise through the tenon, upright "
                           "or level. No glue; it comes apart with a few blows on the tip.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_single_spec) },
    .plan = plan_single_tusk,
    .draw = tw_single_draw,
};
