// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: blind or through, dry or glued, single, twin or double, haunched. Here: what the job may say, and the
 * proportions with their rules (common practice where no source is named).
 *
 *     mortise width    tm = the owned cutter nearest to a third of the tenoned piece, so that one pass makes it   (1)
 *     tenon thickness  t  = tm - c            a part a few thousandths of an inch under what it goes into       (2)
 *     tenon width      w  = the piece less its shoulders, at most 6t; much wider pieces get a double tenon      (3)
 *     blind length     l  = 2/3 of the mortised piece's depth, as far as the cutter reaches                      (4)
 *     mortise          wm = w + cw,  depth = l + room                                                            (5)
 *
 * Lengths of pieces are finished lengths, tenons included: body = length - l for each tenon. */
#include "joint/mortise_tenon.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const lies_words[] = { "along", "across", NULL };
static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const tenons_words[] = { "single", "twin", "double", NULL };
static const char *const beside_words[] = { "width", "thickness", NULL };
static const char *const edge_words[] = { "face edge", "back edge", NULL };
static const char *const corner_words[] = { "round", "square", NULL };
static const char *const by_words[] = { "copy", "saw", NULL };

#define AT(field) offsetof(tw_mortise_spec, field)
static const tw_key keys[] = {
    { "tenon", TW_KEY_PIECE, AT(tenon), .required = true, .meaning = "The piece that carries the tenon.", .example = "rail" },
    { "ends", TW_KEY_CHOICE, AT(ends), .required = true, .choices = ends_words, .meaning = "Which ends of it carry a tenon.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The piece that is mortised.", .example = "leg" },
    { "from", TW_KEY_CHOICE, AT(from), .required = true, .choices = tw_face_words,
      .meaning = "The side of the mortised piece at which the tenon enters and the shoulder stands. A face or an edge, not an end.",
      .example = "face edge" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true,
      .meaning = "From the left end of the mortised piece to the middle of the tenon (of both, for a pair); a list when one piece takes several.",
      .example = "[60, 640]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the tenon across the mortised piece: from its face edge, or from its back where the tenon enters at an edge.",
      .example = "20 mm" },
    { "lies", TW_KEY_CHOICE, AT(lies), .choices = lies_words, .otherwise = "along",
      .meaning = "Whether the tenon's width runs along the grain of the mortised piece or across it.", .example = "along" },
    { "rake", TW_KEY_ANGLE, AT(rake), .least = -TW_PI / 3.0, .most = TW_PI / 3.0, .otherwise = "0 deg: square",
      .meaning = "By how much the tenoned piece leans along the grain of the mortised one, as a bevel shows it on the side that is mortised seen edge on: above 0 towards its right end, below 0 towards its left end.",
      .example = "10 deg" },
    { "splay", TW_KEY_ANGLE, AT(splay), .least = -TW_PI / 3.0, .most = TW_PI / 3.0, .otherwise = "0 deg: square",
      .meaning = "By how much it leans across the mortised piece, seen along that piece's grain: above 0 away from the side from which `across` is measured, below 0 towards it.",
      .example = "-5 deg" },
    { "half turn", TW_KEY_YES_NO, AT(half_turn), .otherwise = "no",
      .meaning = "Whether every second place under `at` is the first one turned half round: `across` then counts from the opposite side, and rake and splay go the other way. So two legs at opposite corners are one kind of piece, and the other two its mirror images.",
      .example = "yes" },
    { "through", TW_KEY_YES_NO, AT(through), .otherwise = "no", .meaning = "Whether the tenon goes through the mortised piece and shows on the far side.",
      .example = "yes" },
    { "depth", TW_KEY_LENGTH, AT(depth), .otherwise = "two thirds of the mortised piece, or what the cutter reaches",
      .meaning = "How deep a blind tenon goes in, from its shoulder; the mortise is deeper by the bottom room. Not with `through`.",
      .example = "40 mm" },
    { "proud", TW_KEY_LENGTH, AT(proud), .otherwise = "flush",
      .meaning = "How far a through tenon stands out on the far side.", .example = "3 mm" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .otherwise = "dry",
      .meaning = "Dry comes apart again and is left slightly loose; glued stays.", .example = "glued" },
    { "tenon thickness", TW_KEY_LENGTH, AT(tenon_thickness), .otherwise = "the owned cutter nearest to a third of the piece, less the clearance",
      .meaning = "Cheek to cheek of one tenon.", .example = "12 mm" },
    { "tenon width", TW_KEY_LENGTH, AT(tenon_width), .otherwise = "the piece's width less its shoulders, at most six times the thickness",
      .meaning = "Edge to edge of one tenon, without the haunch.", .example = "60 mm" },
    { "tenon from edge", TW_KEY_LENGTH, AT(tenon_from_edge), .otherwise = "the middle, or beside the haunch",
      .meaning = "From the face edge of the tenoned piece to the middle of the tenon.", .example = "30 mm" },
    { "tenon from back", TW_KEY_LENGTH, AT(tenon_from_back), .otherwise = "the middle",
      .meaning = "From the back of the tenoned piece to the middle of the tenon's thickness.", .example = "10 mm" },
    { "tenons", TW_KEY_CHOICE, AT(tenons), .choices = tenons_words, .otherwise = "single; double where one would have to be wider than six times its thickness",
      .meaning = "A single tenon; twin tenons, two side by side in the thickness of a thick piece; or a double tenon, two in line in the width of a wide one.", .example = "double" },
    { "beside", TW_KEY_CHOICE, AT(beside), .choices = beside_words, .otherwise = "not written any more",
      .meaning = "The old way to tell the two kinds of pairs apart: `tenons: double` is two in the width, `tenons: twin` two in the thickness.", .example = "thickness" },
    { "gap", TW_KEY_LENGTH, AT(gap), .otherwise = "a third of the whole, or a fifth of the thickness",
      .meaning = "Between the two tenons of a pair, twin or double.", .example = "30 mm" },
    { "haunch", TW_KEY_LENGTH, AT(haunch), .otherwise = "none",
      .meaning = "How deep the haunch goes in: the short part beside the tenon that keeps the rest of the piece from twisting.",
      .example = "10 mm" },
    { "haunch width", TW_KEY_LENGTH, AT(haunch_width), .otherwise = "a third of the piece's width",
      .meaning = "How wide the haunch is.", .example = "20 mm" },
    { "haunch at", TW_KEY_CHOICE, AT(haunch_at), .choices = edge_words, .otherwise = "face edge",
      .meaning = "At which edge of the tenoned piece the haunch is. In the mortised piece it lies towards the nearest end.", .example = "back edge" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.2 mm dry, 0.1 mm glued",
      .meaning = "Mortise less tenon in the thickness, both sides together.", .example = "0.008 in" },
    { "width clearance", TW_KEY_LENGTH, AT(width_clearance), .most = 10.0, .otherwise = "the clearance and a two-hundredth of the tenon's width",
      .meaning = "Mortise less tenon in the width, both sides together: room for the tenon to swell across its grain.", .example = "0.5 mm" },
    { "bottom room", TW_KEY_LENGTH, AT(bottom_room), .most = 50.0, .otherwise = "2 mm, or 1/16 in",
      .meaning = "How much deeper a blind mortise is than its tenon: for shavings, glue and a late movement.", .example = "2 mm" },
    { "mortise ends", TW_KEY_CHOICE, AT(mortise_ends), .choices = corner_words, .otherwise = "round with a copied tenon, square with a sawn or haunched one",
      .meaning = "Round: the mortise stays as the cutter leaves it and the tenon is rounded alike. Square: the mortise is chopped square.",
      .example = "square" },
    { "tenon by", TW_KEY_CHOICE, AT(tenon_by), .choices = by_words, .otherwise = "copy where a cutter is long enough, else saw",
      .meaning = "Whether the tenon is cut by copying on its end, or sawn.", .example = "saw" },
    { "chamfer", TW_KEY_LENGTH, AT(chamfer), .most = 20.0, .otherwise = "2 mm, or 1/16 in", .meaning = "Lead-in on the tenon's end.", .example = "2 mm" },
    { "peg", TW_KEY_LENGTH, AT(peg), .otherwise = "none; six tenths of the tenon's thickness where only `pegs` is given",
      .meaning = "Thickness of a drawbored peg through the cheeks and the tenon. The tenon must lie along.", .example = "8 mm" },
    { "pegs", TW_KEY_COUNT, AT(pegs), .least = 1, .most = 2, .otherwise = "with `peg`: 1, or 2 through a tenon wider than 60 mm (2-1/2 in)", .meaning = "How many go through each tenon.", .example = "2" },
    { "peg offset", TW_KEY_LENGTH, AT(peg_offset), .most = 10.0, .otherwise = "an eighth of the peg, at least 0.8 mm, at most 1.6 mm",
      .meaning = "How much nearer to the shoulder the tenon's hole is than the cheeks', so that the peg draws the shoulder home. 1/32 to 1/16 in is common practice.", .example = "1/32 in" },
    { "peg from shoulder", TW_KEY_LENGTH, AT(peg_from_shoulder), .otherwise = "a third of the tenon's length, at least one and a half pegs",
      .meaning = "From the side where the shoulder stands to the middle of the hole through the cheeks.", .example = "14 mm" },
    { "peg timber", TW_KEY_TEXT, AT(peg_timber), .otherwise = "that of the tenon's piece", .meaning = "Hard, straight-grained wood, split and not sawn.", .example = "Oak, white" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the largest that fits and is long enough", .meaning = "For the mortise.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For the mortise.", .example = "bush 16" },
    { "tenon cutter", TW_KEY_CUTTER, AT(tenon_cutter), .otherwise = "the largest that is long enough", .meaning = "For a copied tenon.", .example = "long 12.7" },
    { "tenon follower", TW_KEY_FOLLOWER, AT(tenon_follower), .otherwise = "one that loses nothing", .meaning = "For a copied tenon.", .example = "bush 19" },
};
#undef AT

/* ---- figures ---- */

static bool in_fractions(const tw_joint_context *context) { return context->job->figures.style == TW_FIGURES_FRACTION; }

const char *tw_mortise_bare(const tw_joint_context *context, double length_mm)
{
    if (in_fractions(context) && fabs(length_mm) < 1.5) return tw_format(context->arena, "%.3f", length_mm / TW_MM_PER_INCH);
    return tw_length_bare(context->arena, length_mm, context->job->figures);
}

const char *tw_mortise_say(const tw_joint_context *context, double length_mm)
{
    if (in_fractions(context) && fabs(length_mm) < 1.5)
        return tw_format(context->arena, "%.3f in", length_mm / TW_MM_PER_INCH);
    return tw_say(context, length_mm);
}

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_mortise_bare(context, length_mm); }

/* A customary size: in the maker's own unit it is a round figure. */
static double customary(const tw_joint_context *context, double mm, double inch)
{
    return context->job->inch_sizes ? inch * TW_MM_PER_INCH : mm;
}

static double rounded_down(const tw_joint_context *context, double length_mm)
{
    double step = customary(context, 0.5, 1.0 / 32.0);
    return floor(length_mm / step + 1e-9) * step;
}

static void note_length(tw_joint_context *context, tw_joint_plan *plan, const char *key, const char *label, const char *symbol,
                        double value_mm, const char *sum, const char *rule)
{
    tw_plan_figure(context, plan, (tw_figure){ .key = key, .label = label, .symbol = symbol, .value = value_mm, .unit = TW_UNIT_MM, .sum = sum, .rule = rule });
}

/* ---- cutters ---- */

static bool is_allowed(const tw_cutter *cutter, const tw_words *named)
{
    return !named->given || tw_text_is(tw_text_of(cutter->name), named->text);
}

/* Index of the cutter nearest to the target in diameter, within the limits, that plunges and reaches as deep as needed;
 * -1 if there is none. Of two as near, the first in the shop's list. */
static int nearest_cutter(const tw_shop *shop, const tw_words *named, double least, double most, double target, double need)
{
    int nearest = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        if (!cutter->plunges.value || !is_allowed(cutter, named)) continue;
        if (cutter->d_mm < least - 1e-9 || cutter->d_mm > most + 1e-9 || cutter->cutting_length.value < need - 1e-9) continue;
        if (nearest < 0 || fabs(cutter->d_mm - target) < fabs(shop->cutters[nearest].d_mm - target) - 1e-9) nearest = i;
    }
    return nearest;
}

/* The longest reach of the cutters that a slot of that width takes. */
static double longest_reach(const tw_shop *shop, const tw_words *named, double slot)
{
    double reach = 0.0;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        if (cutter->plunges.value && is_allowed(cutter, named) && cutter->d_mm <= slot + 1e-9)
            reach = tw_max(reach, cutter->cutting_length.value);
    }
    return reach;
}

/* The largest cutter that is long enough for the tenon and passes between the two of a pair; 0 if there is none. */
static double largest_tenon_cutter(const tw_shop *shop, const tw_mortise *m)
{
    double largest = 0.0;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        if (!tw_cutter_is_straight(cutter) || !is_allowed(cutter, &m->spec->tenon_cutter) || cutter->cutting_length.value < m->l - 1e-9) continue;
        if (m->pair && cutter->d_mm > m->gap + 1e-9) continue;
        largest = tw_max(largest, cutter->d_mm);
    }
    return largest;
}

/* ---- proportions ---- */

#define CLEARANCE_DRY_MM 0.2      // a tenon that gets no glue is left slightly loose: common practice
#define CLEARANCE_GLUED_MM 0.1    // a few thousandths of an inch under its housing: common practice
#define SWELLING_SHARE 0.005      // of the width across the grain: about 1.4 % of moisture in flat-sawn white oak at 0.00365 a percent
#define CROSS_CLEARANCE_MM 0.1    // more in the width than in the thickness, where both pieces move alike
#define BLIND_SHARE (2.0 / 3.0)   // of the mortised piece: common practice
#define WIDTH_PER_THICKNESS 6.0   // widest tenon: common practice
#define HAUNCH_ROOM_MM 1.0        // below the haunch of a through tenon, which has no bottom room of its own
#define WIDE_GLUED_MM 75.0        // 3 in: widest glued across the grain of its mate, common practice
#define SINGLE_SHARE (2.0 / 3.0)  // of the width: a single tenon that covers less of it becomes a double one

static void propose_clearance(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    double usual = m->glued ? CLEARANCE_GLUED_MM : CLEARANCE_DRY_MM;
    m->c = tw_plan_amount(context, plan, &m->spec->clearance, "clearance", "clearance in thickness", "c", TW_UNIT_MM, usual,
        tw_format(context->arena, "%s %s", bare(context, usual), m->glued ? "for a glued fit" : "for a dry fit"),
        m->glued ? "a part a few thousandths of an inch under what it goes into (common practice)"
                 : "a tenon that gets no glue is left slightly loose (common practice)");
    m->room = 0.0;
    if (!m->through)
        m->room = tw_plan_amount(context, plan, &m->spec->bottom_room, "bottom_room", "room below the tenon", "", TW_UNIT_MM,
            customary(context, 2.0, 1.0 / 16.0), bare(context, customary(context, 2.0, 1.0 / 16.0)),
            "shavings and glue must have somewhere to go, or the shoulder stands off (common practice)");
}

/* Least, most and wanted mortise width: a third of the thinner piece; up to half of the tenoned piece where the other is
 * thicker; a fifth for twins. */
typedef struct tw_range { double least, most, target; const char *share; double of; } tw_range;

static tw_range mortise_width_range(const tw_mortise *m)
{
    double thickness = m->a.thickness_mm;
    if (m->pair && !m->doubled) return (tw_range){ thickness / 7.0, thickness / 4.0, thickness / 5.0, "1/5", thickness };
    double thinner = m->along ? tw_min(thickness, m->e) : thickness;
    bool stout = m->along ? m->e > thickness + 1e-9 : m->d > thickness + 1e-9;
    return (tw_range){ thinner / 4.0, stout ? thickness / 2.0 : 0.4 * thinner, thinner / 3.0, "1/3", thinner };
}

static double depth_needed(const tw_mortise *m)
{
    if (m->through) return m->d / 2.0 + TW_THROUGH_OVER_MM;
    return (m->spec->depth.given ? m->spec->depth.value : BLIND_SHARE * m->d) + m->room;
}

static void propose_thickness(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_mortise_spec *spec = m->spec;
    tw_range range = mortise_width_range(m);
    int cutter = nearest_cutter(context->shop, &spec->cutter, range.least, range.most, range.target, depth_needed(m));
    if (cutter < 0) cutter = nearest_cutter(context->shop, &spec->cutter, range.least, range.most, range.target, 0.0);
    double slot = cutter >= 0 ? context->shop->cutters[cutter].d_mm : tw_max(rounded_down(context, range.target), range.target / 2.0);
    if (spec->tenon_thickness.given) slot = spec->tenon_thickness.value + m->c;
    const char *third = tw_format(arena, "%s x %s = %s", range.share, bare(context, range.of), bare(context, range.target));
    const char *sum = spec->tenon_thickness.given ? tw_format(arena, "t + c = %s + %s", bare(context, spec->tenon_thickness.value), bare(context, m->c))
                    : cutter >= 0 ? tw_format(arena, "cutter nearest to %s: %s", third, context->shop->cutters[cutter].name)
                                  : tw_format(arena, "%s, rounded down", third);
    note_length(context, plan, "mortise_width", "mortise, across its cheeks", "tm", slot, sum,
        spec->tenon_thickness.given ? "" : m->pair && !m->doubled
            ? "tenon, gap and shoulders a fifth of the thickness each (common practice)"
            : "about a third of the thinner piece, to the nearest cutter so that one pass makes the mortise; up to half where the mortised piece is thicker (common practice)");
    m->tm = slot;
    m->t = tw_plan_amount(context, plan, &spec->tenon_thickness, "tenon_thickness", "tenon thickness", "t", TW_UNIT_MM, slot - m->c,
        tw_format(arena, "tm - c = %s - %s", bare(context, slot), bare(context, m->c)), "the tenon is made to the mortise, never the other way round (common practice)");
    m->reach = longest_reach(context->shop, &spec->cutter, m->tm);
    if (spec->cutter.given) m->cutter = spec->cutter.text;
    else if (cutter >= 0 && !spec->tenon_thickness.given) m->cutter = context->shop->cutters[cutter].name;
    m->cutter_reach = cutter >= 0 ? context->shop->cutters[cutter].cutting_length.value : 0.0;
}

static void propose_length(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    if (m->through) {
        m->proud = m->spec->proud.given ? m->spec->proud.value : 0.0;
        m->l = m->depth = m->d;
        m->l += m->proud;
        note_length(context, plan, "tenon_length", "tenon length", "l", m->l, m->proud > 0.0
            ? tw_format(arena, "through %s and %s proud", bare(context, m->d), bare(context, m->proud))
            : tw_format(arena, "through %s", bare(context, m->d)), "");
        m->two_faced = m->depth + TW_THROUGH_OVER_MM > m->reach + 1e-9;
        return;
    }
    double wanted = BLIND_SHARE * m->d, reached = m->reach - m->room;
    bool short_cutter = wanted > reached + 1e-9 && reached > 2.0 * m->room;
    m->l = tw_plan_amount(context, plan, &m->spec->depth, "tenon_length", "tenon length", "l", TW_UNIT_MM,
        rounded_down(context, short_cutter ? reached : wanted),
        short_cutter ? tw_format(arena, "cutter's reach - room = %s - %s; 2/3 x %s = %s would be better", bare(context, m->reach), bare(context, m->room),
                                 bare(context, m->d), bare(context, wanted))
                     : tw_format(arena, "2/3 x %s = %s", bare(context, m->d), bare(context, wanted)),
        short_cutter ? "as deep as the cutter reaches" : "two thirds of the mortised piece (common practice)");
    m->depth = m->l + m->room;
}

/* ---- widths ---- */

static double edge_shoulder(const tw_joint_context *context, double width_mm)
{
    double usual = customary(context, 5.0, 3.0 / 16.0);
    return width_mm >= 8.0 * usual ? usual : width_mm / 8.0;
}

/* Across the grain of the mortised piece a mortise takes at most two thirds of it. */
static double width_room(const tw_mortise *m)
{
    double room = m->a.width_mm - 2.0 * m->edge_shoulder;
    return m->along ? room : tw_min(room, 2.0 / 3.0 * m->e);
}

static bool becomes_double(const tw_mortise *m)
{
    const tw_mortise_spec *spec = m->spec;
    if (spec->tenon_width.given || m->haunched || m->lean.leans) return false;
    return WIDTH_PER_THICKNESS * m->t < SINGLE_SHARE * width_room(m);
}

static double double_width(const tw_joint_context *context, const tw_mortise *m)
{
    return rounded_down(context, tw_min(width_room(m) / 3.0, WIDTH_PER_THICKNESS * m->t));
}

static void propose_pair(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    double room = width_room(m), least = m->t;
    if (m->doubled) {
        m->w = tw_plan_amount(context, plan, &m->spec->tenon_width, "tenon_width", "width of each tenon", "w", TW_UNIT_MM, double_width(context, m),
            tw_format(arena, "the least of %s/3 and 6 x %s, rounded down", bare(context, room), bare(context, m->t)),
            "a wide tenon is divided in three and the middle left out; a tenon is at most six times as wide as thick (common practice)");
        m->gap = tw_plan_amount(context, plan, &m->spec->gap, "gap", "gap between the tenons", "", TW_UNIT_MM, tw_max(room - 2.0 * m->w, least),
            room - 2.0 * m->w >= least ? tw_format(arena, "%s - 2 x %s", bare(context, room), bare(context, m->w)) : tw_format(arena, "t = %s", bare(context, m->t)),
            "a third of the whole, and at least as wide as the tenons are thick (common practice)");
        m->over_w = 2.0 * m->w + m->gap;
        m->over_t = m->t;
        return;
    }
    m->w = tw_plan_amount(context, plan, &m->spec->tenon_width, "tenon_width", "width of each tenon", "w", TW_UNIT_MM,
        rounded_down(context, tw_min(room, WIDTH_PER_THICKNESS * m->t)),
        tw_format(arena, "the least of %s and 6 x %s, rounded down", bare(context, room), bare(context, m->t)), "at most six times the thickness (common practice)");
    m->gap = tw_plan_amount(context, plan, &m->spec->gap, "gap", "gap between the tenons", "", TW_UNIT_MM, m->tm,
        tw_format(arena, "tm = %s", bare(context, m->tm)), "as wide as the mortise (common practice)");
    m->over_w = m->w;
    m->over_t = 2.0 * m->t + m->gap;
}

static void propose_haunch(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    m->haunch = tw_plan_amount(context, plan, &m->spec->haunch, "haunch_depth", "haunch, how deep", "", TW_UNIT_MM, 0.0, "", "");
    m->haunch_width = tw_plan_amount(context, plan, &m->spec->haunch_width, "haunch_width", "haunch, how wide", "", TW_UNIT_MM,
        rounded_down(context, m->a.width_mm / 3.0), tw_format(context->arena, "%s / 3, rounded down", bare(context, m->a.width_mm)),
        "a third of the piece's width (common practice)");
    m->groove_depth = m->haunch + (m->through ? HAUNCH_ROOM_MM : m->room);
    note_length(context, plan, "haunch_groove_depth", "groove of the haunch, how deep", "", m->groove_depth,
        tw_format(context->arena, "haunch + room = %s + %s", bare(context, m->haunch), bare(context, m->groove_depth - m->haunch)), "");
}

static void propose_single(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    double taken = m->haunched ? m->edge_shoulder + m->haunch_width : 2.0 * m->edge_shoulder;
    double room = m->haunched ? m->a.width_mm - taken : width_room(m), widest = WIDTH_PER_THICKNESS * m->t;
    const char *widest_why = tw_format(arena, "6 x %s", bare(context, m->t));
    if (m->glued && m->along && widest > WIDE_GLUED_MM) {
        widest = WIDE_GLUED_MM;
        widest_why = tw_format(arena, "%s for glue across the grain", bare(context, widest));
    }
    m->w = tw_plan_amount(context, plan, &m->spec->tenon_width, "tenon_width", "tenon width", "w", TW_UNIT_MM,
        rounded_down(context, tw_max(tw_min(room, widest), m->t / 2.0)),
        tw_format(arena, "the least of %s (%s less shoulders%s) and %s, rounded down", bare(context, room), bare(context, m->a.width_mm),
                  m->haunched ? " and haunch" : "", widest_why),
        "shoulders at both edges; a tenon is at most six times as wide as thick (common practice)");
    m->gap = 0.0;
    m->over_w = m->w;
    m->over_t = m->t;
}

static void propose_width_clearance(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    double more = m->along ? SWELLING_SHARE * m->w : CROSS_CLEARANCE_MM;
    double usual = floor((m->c + more) / 0.05 + 0.5) * 0.05;
    m->cw = tw_plan_amount(context, plan, &m->spec->width_clearance, "width_clearance", "clearance in width", "cw", TW_UNIT_MM, usual,
        m->along ? tw_format(context->arena, "c + w/200 = %s + %s", bare(context, m->c), bare(context, more))
                 : tw_format(context->arena, "c + %s", bare(context, more)),
        m->along ? "the tenon swells across its grain, the mortise along its own does not: about 1.4 % of moisture in flat-sawn white oak at 0.00365 a percent (Wood Handbook, table 13-5)"
                 : "a little more than in the thickness (common practice)");
    m->wm = m->w + m->cw;
    note_length(context, plan, "mortise_length", "mortise, along the tenon's width", "wm", m->wm,
        tw_format(context->arena, "w + cw = %s + %s", bare(context, m->w), bare(context, m->cw)), "");
    if (m->lean.leans) return;  // the depths follow from the angles
    note_length(context, plan, "mortise_depth", "mortise depth", "", m->depth,
        m->through ? tw_format(context->arena, "through: %s", bare(context, m->d)) : tw_format(context->arena, "l + room = %s + %s", bare(context, m->l), bare(context, m->room)), "");
    m->floor = m->d - m->depth;
    if (!m->through)
        note_length(context, plan, "floor", "wood left under the mortise", "", m->floor,
            tw_format(context->arena, "%s - %s", bare(context, m->d), bare(context, m->depth)), context->job->figures.style == TW_FIGURES_MM ? "at least 6 mm (common practice)" : "at least 1/4 in (common practice)");
}

/* ---- where the tenon stands ---- */

tw_haunch_groove tw_mortise_groove(const tw_mortise *m, double at_mm)
{
    tw_haunch_groove groove = { .left = at_mm <= m->b.length_mm / 2.0 };
    double from_end = groove.left ? at_mm : m->b.length_mm - at_mm;
    groove.start = from_end - m->wm / 2.0;
    groove.end = from_end - m->w / 2.0 - m->haunch_width - m->cw / 2.0;
    groove.open = groove.end < 0.5;
    if (groove.open) groove.end = 0.0;
    return groove;
}

/* A haunch whose groove runs out at the end of the piece goes to the edge; one that does not gets a shoulder too. */
static double haunch_inset(const tw_mortise *m)
{
    for (int i = 0; i < m->spec->at.count; i++)
        if (tw_mortise_groove(m, m->spec->at.items[i].value).open) return 0.0;
    return m->edge_shoulder;
}

static double middle_of_width(tw_mortise *m)
{
    if (!m->haunched) return m->a.width_mm / 2.0;
    double from_edge = m->haunch_inset + m->haunch_width + m->w / 2.0;
    return m->spec->haunch_at.value == 0 ? from_edge : m->a.width_mm - from_edge;
}

static void place_tenon(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    const tw_mortise_spec *spec = m->spec;
    double width = m->a.width_mm, thickness = m->a.thickness_mm;
    m->haunch_inset = m->haunched ? haunch_inset(m) : 0.0;
    m->y = tw_plan_amount(context, plan, &spec->tenon_from_edge, "tenon_from_edge", "middle of the tenon from the face edge", "", TW_UNIT_MM,
        middle_of_width(m), m->haunched ? "beside the haunch" : tw_format(context->arena, "%s / 2", bare(context, width)), "");
    m->z = tw_plan_amount(context, plan, &spec->tenon_from_back, "tenon_from_back", "middle of the tenon from the back", "", TW_UNIT_MM,
        thickness / 2.0, tw_format(context->arena, "%s / 2", bare(context, thickness)), "");
    double at_face_edge = m->y - m->over_w / 2.0, at_back_edge = width - m->y - m->over_w / 2.0;
    if (m->haunched && spec->haunch_at.value == 0) at_face_edge = m->haunch_inset = at_face_edge - m->haunch_width;
    if (m->haunched && spec->haunch_at.value == 1) at_back_edge = m->haunch_inset = at_back_edge - m->haunch_width;
    m->face_edge_shoulder = at_face_edge;
    m->back_edge_shoulder = at_back_edge;
    m->back_shoulder = m->z - m->over_t / 2.0;
    m->face_shoulder = thickness - m->z - m->over_t / 2.0;
    note_length(context, plan, "face_shoulder", "shoulder at the face", "", m->face_shoulder,
        tw_format(context->arena, "%s - %s - %s/2", bare(context, thickness), bare(context, m->z), bare(context, m->over_t)), "");
    note_length(context, plan, "back_shoulder", "shoulder at the back", "", m->back_shoulder,
        tw_format(context->arena, "%s - %s/2", bare(context, m->z), bare(context, m->over_t)), "");
    note_length(context, plan, "face_edge_shoulder", "shoulder at the face edge", "", at_face_edge,
        tw_format(context->arena, "%s - %s/2%s", bare(context, m->y), bare(context, m->over_w), m->haunched && spec->haunch_at.value == 0 ? " - haunch" : ""), "");
    note_length(context, plan, "back_edge_shoulder", "shoulder at the back edge", "", at_back_edge,
        tw_format(context->arena, "%s - %s - %s/2%s", bare(context, width), bare(context, m->y), bare(context, m->over_w),
                  m->haunched && spec->haunch_at.value == 1 ? " - haunch" : ""), "");
}

static void place_mortise(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    m->across = tw_plan_amount(context, plan, &m->spec->across, "across", tw_format(context->arena, "middle of the mortise from the %s", tw_face_words[m->down]),
        "", TW_UNIT_MM, m->e / 2.0, tw_format(context->arena, "%s / 2", bare(context, m->e)), "");
    double half = (m->along ? m->tm + m->over_t - m->t : m->wm + m->over_w - m->w) / 2.0;
    if (m->lean.leans) half = m->lean.mouth_up;
    note_length(context, plan, "wall_low", tw_format(context->arena, "wall towards the %s", tw_face_words[m->down]), "", m->across - half,
        tw_format(context->arena, "%s - %s", bare(context, m->across), bare(context, half)), "");
    note_length(context, plan, "wall_high", tw_format(context->arena, "wall towards the %s", tw_face_words[tw_face_opposite(m->down)]), "",
        m->e - m->across - half, tw_format(context->arena, "%s - %s - %s", bare(context, m->e), bare(context, m->across), bare(context, half)), "");
    m->body = m->a.length_mm - m->ends * m->l;
    note_length(context, plan, "body", m->ends == 2 ? "between the shoulders" : "from the shoulder to the other end", "", m->body,
        tw_format(context->arena, "%s - %d x %s", bare(context, m->a.length_mm), m->ends, bare(context, m->l)),
        "lengths of pieces are finished lengths, tenons included");
}

tw_mortise_site *tw_mortise_sites(tw_arena *arena, const tw_mortise *m, int *count)
{
    int tenons = m->pair ? 2 : 1;
    tw_mortise_site *sites = TW_NEW_ARRAY(arena, tw_mortise_site, (size_t)(m->spec->at.count * tenons));
    double pitch = !m->pair ? 0.0 : m->doubled ? m->w + m->gap : m->t + m->gap;
    bool along_x = m->doubled == m->along;  // twins stand one after the other along the mortised piece
    *count = 0;
    for (int i = 0; i < m->spec->at.count; i++)
        for (int j = 0; j < tenons; j++) {
            double off = m->pair ? (j - 0.5) * pitch : 0.0, up = m->across + (along_x ? 0.0 : off);
            bool turned = m->lean.half_turn && i % 2 == 1;
            sites[(*count)++] = (tw_mortise_site){ m->spec->at.items[i].value + (along_x ? off : 0.0), turned ? m->e - up : up, i, turned };
        }
    return sites;
}

/* ---- the plan ---- */

static tw_mortise *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_mortise_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_mortise *m = TW_NEW(context->arena, tw_mortise);
    m->spec = spec;
    m->tenon = &job->pieces[spec->tenon.index];
    m->into = &job->pieces[spec->into.index];
    m->a = tw_piece_size(m->tenon);
    m->b = tw_piece_size(m->into);
    m->from = (tw_face)spec->from.value;
    m->down = m->from <= TW_SIDE_BACK ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    tw_size extent = tw_face_extent(m->b, m->from);
    m->e = extent.width_mm;
    m->d = extent.thickness_mm;
    m->along = spec->lies.value == 0;
    m->through = spec->through.value == 1;
    m->glued = spec->fit.value == 1;
    m->haunched = spec->haunch.given;
    m->doubled = spec->tenons.value != TW_TENONS_TWIN;
    m->pair = spec->tenons.value != TW_TENONS_SINGLE && !m->haunched;
    m->ends = spec->ends.value == TW_TENON_BOTH ? 2 : 1;
    m->tenon_pieces = (int)(m->tenon->count.value * job->sets.value);
    m->into_pieces = (int)(m->into->count.value * job->sets.value);
    m->joints = plan->count = m->tenon_pieces * m->ends;
    tw_mortise_lean_begin(m);
    return m;
}

static void decide_how(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    const tw_mortise_spec *spec = m->spec;
    m->tenon_cutter = largest_tenon_cutter(context->shop, m);
    m->sawn = spec->tenon_by.given ? spec->tenon_by.value == 1 : m->lean.leans || m->tenon_cutter <= 0.0;
    m->round = !m->haunched && (spec->mortise_ends.given ? spec->mortise_ends.value == 0 : !m->sawn && !m->lean.leans);
    double lead_in = customary(context, 2.0, 1.0 / 16.0);
    m->chamfer = tw_plan_amount(context, plan, &spec->chamfer, "chamfer", "lead-in chamfer", "", TW_UNIT_MM, lead_in, bare(context, lead_in), "common practice");
}

static tw_mortise *work_out(tw_joint_context *context, tw_joint_plan *plan)
{
    tw_mortise *m = begin(context, plan);
    m->edge_shoulder = edge_shoulder(context, m->a.width_mm);
    propose_clearance(context, plan, m);
    propose_thickness(context, plan, m);
    if (!m->lean.leans) propose_length(context, plan, m);
    if (!m->spec->tenons.given && m->doubled) m->pair = becomes_double(m);
    tw_plan_figure(context, plan, (tw_figure){ .key = "tenons", .label = "tenons at each end", .value = m->pair ? 2.0 : 1.0, .unit = TW_UNIT_COUNT,
        .sum = m->spec->tenons.given ? tw_format(context->arena, "%s, given in the job", tenons_words[m->spec->tenons.value]) : m->pair ? "6t covers less than two thirds of the width" : "6t covers two thirds of the width or more",
        .rule = m->spec->tenons.given ? "" : "a tenon wider than six times its thickness becomes a double one (common practice)" });
    if (m->haunched) propose_haunch(context, plan, m);
    if (m->pair) propose_pair(context, plan, m);
    else propose_single(context, plan, m);
    propose_width_clearance(context, plan, m);
    if (m->lean.leans) tw_mortise_lean_sizes(context, plan, m);
    place_tenon(context, plan, m);
    place_mortise(context, plan, m);
    decide_how(context, plan, m);
    tw_mortise_peg_propose(context, plan, m);
    return m;
}

bool tw_mortise_possible(const tw_mortise *m)
{
    const double least = 0.1;
    bool tenon = m->t > least && m->w > least && m->l > least && m->tm > least && m->wm > least && m->body > 0.0 &&
                 m->face_shoulder > -1e-9 && m->back_shoulder > -1e-9 && m->face_edge_shoulder > -1e-9 && m->back_edge_shoulder > -1e-9;
    bool twins = !m->pair || m->gap > tw_max(m->c, m->cw) + least;
    bool haunch = !m->haunched || (m->haunch > least && m->haunch_width > least && m->haunch < m->l - least && m->along);
    double half_up = (m->along ? m->tm + m->over_t - m->t : m->wm + m->over_w - m->w) / 2.0;
    double half_x = (m->along ? m->wm + m->over_w - m->w : m->tm + m->over_t - m->t) / 2.0;
    bool mortise = m->across > half_up && m->across < m->e - half_up && (m->through || tw_mortise_deep_mm(m) < m->d);
    for (int i = 0; i < m->spec->at.count; i++)
        mortise = mortise && m->spec->at.items[i].value > half_x && m->spec->at.items[i].value < m->b.length_mm - half_x;
    for (int i = 0; m->lean.leans && i < m->spec->at.count; i++) {
        bool turned = m->lean.half_turn && i % 2 == 1;
        tw_box all = tw_mortise_reach(m, (tw_mortise_site){ m->spec->at.items[i].value, turned ? m->e - m->across : m->across, i, turned });
        mortise = mortise && all.x0 > 0.0 && all.x1 < m->b.length_mm && all.y0 > 0.0 && all.y1 < m->e;
    }
    return tenon && twins && haunch && mortise && tw_mortise_lean_possible(m);
}

static void plan_mortise_and_tenon(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_mortise_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name,
            "a mortise is not cut into an end: its walls would be short grain", "a face or an edge of the mortised piece");
        return;
    }
    tw_mortise *m = work_out(context, plan);
    plan->own = m;
    tw_mortise_check(context, plan, m);
    if (!tw_mortise_possible(m)) return;  // a halt says why
    tw_mortise_cuts(context, plan, m);
    tw_mortise_works(context, plan, m);
    tw_mortise_meetings(context, plan, m);
    tw_mortise_peg_lodgings(context, plan, m);
}

const tw_joint_kind tw_mortise_and_tenon = {
    .format = { .kind = "mortise and tenon",
                .meaning = "The end of one piece is reduced to a tenon that stands in a mortise in the other: blind or through, dry or glued, "
                           "single, twin or double, with a haunch or without, drawbored with pegs or not; square, or leaning by rake and splay.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_mortise_spec) },
    .plan = plan_mortise_and_tenon,
    .draw = tw_mortise_draw,
};
