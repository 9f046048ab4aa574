// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt: a rail's end butts against a post; a bolt through the post and into the rail lengthwise pulls on a
 * cross dowel in the rail. Here: what the job may say, and the proportions with their rules (common practice where no source is
 * named; EN 1995-1-1 from memory).
 *
 *     hole        = bolt + 0.5 mm, + 1 mm from M8 on                                                       (1)
 *     counterbore k = head + washer + 1 mm, where half of the post is left under it                          (2)
 *     cross dowel s = 4 dd from the rail's end; its hole goes dl/2 past the bolt's axis, so that the tapped
 *                     hole lies on the axis when the dowel stands on the bottom                               (3)
 *     level       = D - k + washer + (s - h) + dd/2: the tip level with the dowel's far side                  (4)
 *     bolt L      = the next length sold from (4) + two threads, for the point is no thread                   (5)
 *     hole b      = s + dd/2 + (L - level) + room, from the rail's end                                        (6)
 *
 * Lengths of rails are finished lengths, what is let in included. */
#include "joint/cross_dowel.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/words.h"
#include "mech/mech.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const lies_words[] = { "along", "across", NULL };
static const char *const head_words[] = { "socket", "hexagon", NULL };

#define AT(field) offsetof(tw_bolted_spec, field)
static const tw_key keys[] = {
    { "rail", TW_KEY_PIECE, AT(rail), .required = true, .meaning = "The piece whose end is bolted on.", .example = "rail" },
    { "ends", TW_KEY_CHOICE, AT(ends), .required = true, .choices = ends_words, .meaning = "Which ends of it are bolted.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The piece that the bolt goes through, and against whose side the end stands.", .example = "post" },
    { "from", TW_KEY_CHOICE, AT(from), .required = true, .choices = tw_face_words, .meaning = "That side. A face or an edge, not an end; the bolt's head is on the side opposite.", .example = "face edge" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true, .meaning = "From the left end of that piece to the middle of the bolt; a list when one piece takes several rails.", .example = "[60, 640]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the bolt across that piece: from its face edge, or from its back where the side is an edge.", .example = "20 mm" },
    { "lies", TW_KEY_CHOICE, AT(lies), .choices = lies_words, .otherwise = "along", .meaning = "Whether the rail's width runs along the grain of that piece or across it.", .example = "along" },
    { "from edge", TW_KEY_LENGTH, AT(from_edge), .otherwise = "the middle", .meaning = "From the face edge of the rail to the middle of the bolt in its end.", .example = "50 mm" },
    { "from back", TW_KEY_LENGTH, AT(from_back), .otherwise = "the middle", .meaning = "From the back of the rail to the middle of the bolt in its end.", .example = "14 mm" },
    { "bolt", TW_KEY_LENGTH, AT(bolt), .least = 1.0, .most = 25.0, .otherwise = "the size sold nearest to a fifth of the rail's thickness: M6, M8 or M10; 1/4, 5/16 or 3/8 in", .meaning = "The bolt's diameter: 6 for M6.", .example = "6 mm" },
    { "bolt length", TW_KEY_LENGTH, AT(bolt_length), .least = 1.0, .most = 600.0, .otherwise = "the next length sold that goes through the cross dowel with two threads",
      .meaning = "Under its head.", .example = "90 mm" },
    { "head", TW_KEY_CHOICE, AT(head), .choices = head_words, .otherwise = "socket", .meaning = "What turns the bolt: a hexagon socket in its head, or a hexagon head that needs a socket spanner round it.", .example = "hexagon" },
    { "washer", TW_KEY_LENGTH, AT(washer), .least = 1.0, .most = 100.0, .otherwise = "the large series: three times the bolt", .meaning = "Across the washer under the head.", .example = "18 mm" },
    { "counterbore", TW_KEY_LENGTH, AT(counterbore), .most = 300.0, .otherwise = "head, washer and 1 mm, where half of the post is left; else none",
      .meaning = "How deep the washer is sunk on the side opposite; 0: head and washer stay on the surface.", .example = "9 mm" },
    { "counterbore width", TW_KEY_LENGTH, AT(counterbore_width), .least = 1.0, .most = 120.0, .otherwise = "the next bit sold over the washer, or over the spanner round a hexagon head", .meaning = "Diameter of the counterbore.", .example = "20 mm" },
    { "hole clearance", TW_KEY_LENGTH, AT(hole_clearance), .most = 5.0, .otherwise = "0.5 mm, 1 mm from M8 on; 1/32 in", .meaning = "Hole less bolt, in post and rail.", .example = "1 mm" },
    { "dowel", TW_KEY_LENGTH, AT(dowel), .least = 1.0, .most = 50.0, .otherwise = "as commonly sold with the bolt: 10 mm with M6, 12 mm with M8", .meaning = "Diameter of the cross dowel, and of its hole. Measure those you bought.", .example = "10 mm" },
    { "dowel length", TW_KEY_LENGTH, AT(dowel_length), .least = 1.0, .most = 200.0, .otherwise = "the longest sold that the rail hides, at most two and a half times its diameter", .meaning = "Of the cross dowel.", .example = "18 mm" },
    { "dowel from end", TW_KEY_LENGTH, AT(dowel_from_end), .otherwise = "four times the cross dowel's diameter", .meaning = "From the rail's end to the middle of the cross dowel.", .example = "40 mm" },
    { "dowel from", TW_KEY_CHOICE, AT(dowel_from), .choices = tw_face_words, .fallback = TW_SIDE_BACK, .otherwise = "back", .meaning = "Side of the rail from which the cross dowel's hole is bored: one that is not seen.", .example = "back" },
    { "let in", TW_KEY_LENGTH, AT(let_in), .most = 100.0, .otherwise = "none: the end butts", .meaning = "How deep the whole end stands in a shallow housing, so that it cannot turn and the bolt carries no load. Counts in the rail's length.", .example = "5 mm" },
    { "pegs", TW_KEY_COUNT, AT(pegs), .least = 0, .most = 2, .otherwise = "2; none where the end is let in", .meaning = "Wooden pegs beside the bolt, glued into the rail and loose in the post, so that the rail cannot turn: 0, 1 or 2. A single one stands towards the face edge.", .example = "2" },
    { "peg", TW_KEY_LENGTH, AT(peg), .least = 1.0, .most = 50.0, .otherwise = "the rod sold nearest to a third of the rail's thickness", .meaning = "Thickness of those pegs.", .example = "8 mm" },
    { "peg spacing", TW_KEY_LENGTH, AT(peg_spacing), .otherwise = "half of the rail's width", .meaning = "Between the middles of two pegs, the bolt halfway; a single one stands half of it from the bolt.", .example = "60 mm" },
    { "peg depth", TW_KEY_LENGTH, AT(peg_depth), .otherwise = "twice its thickness", .meaning = "How deep a peg goes into each piece; its holes are deeper by 2 mm (1/16 in).", .example = "16 mm" },
    { "peg timber", TW_KEY_TEXT, AT(peg_timber), .otherwise = "that of the rail", .meaning = "Of the pegs.", .example = "Beech, American" },
};
#undef AT

/* ---- proportions ---- */

#define BOLT_SHARE 0.2            // of the rail's thickness: common practice
#define DOWEL_FROM_END 4.0        // cross dowels thick: common practice; carpentry asks for seven (EN 1995-1-1, table 8.4)
#define UNDER_SURFACE_MM 1.0      // of the head: common practice
#define BIT_ROOM_MM 1.0           // about the washer
#define THREADS_PAST 2.0          // the point of a bolt is chamfered
#define DOWEL_LONG 2.5             // times as long as thick are sold: common practice
#define DOWEL_SUNK_MM 1.0         // below the side from which it is put in
#define DOWEL_FLOOR_MM 5.0        // under its hole
#define PEG_SHARE (1.0 / 3.0)     // of the rail's thickness: common practice
#define SOCKET_PER_SPANNER 1.4    // a socket spanner round a hexagon: from memory
#define DAMP_PERCENT 12.0         // an unheated room; a heated one: 8 percent
#define DRY_PERCENT 8.0

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }

static void propose_bolt(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    tw_arena *arena = context->arena;
    double wanted = BOLT_SHARE * j->a.thickness_mm;
    const tw_bolt_size *near_ = tw_bolt_nearest(wanted, context->job->inch_sizes);
    double d = tw_plan_amount(context, plan, &j->spec->bolt, "bolt", "bolt, diameter", "", TW_UNIT_MM, near_->diameter, tw_format(arena, "%s, nearest to %s / 5 = %s", near_->name, bare(context, j->a.thickness_mm), bare(context, wanted)),
        "about a fifth of the rail's thickness (common practice)");
    j->size = tw_bolt_size_of(arena, d, &j->size_sold);
    j->inch = j->size_sold ? j->size.inch : context->job->inch_sizes;
    j->head = j->spec->head.value == TW_HEAD_SOCKET ? j->size.socket_head : j->size.hexagon_head;
    double usual = j->inch ? TW_MM_PER_INCH / 32.0 : d < 7.0 ? 0.5 : 1.0;
    double clearance = tw_plan_amount(context, plan, &j->spec->hole_clearance, "hole_clearance", "hole less bolt", "", TW_UNIT_MM, usual, bare(context, usual),
        "0.5 mm to M6, 1 mm from M8 on, 1/32 in (common practice); at most 1 mm (EN 1995-1-1, 10.4.3, from memory)");
    j->hole = d + clearance;
    tw_note_length(context, plan, "hole", "hole for the bolt", j->hole, tw_format(arena, "%s + %s", bare(context, d), bare(context, clearance)), "");
    j->washer = tw_plan_amount(context, plan, &j->spec->washer, "washer", "washer, across", "", TW_UNIT_MM, j->size.washer, tw_format(arena, "large series for %s", j->size.name),
        "at least three times the bolt, or the head sinks into the wood (EN 1995-1-1, 10.4.3, from memory)");
}

/* Bits for round holes with a flat bottom, as sold: common practice. */
static double next_bit(const tw_bolted *j, double least)
{
    static const double sold[] = { 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0 };
    double eighth = TW_MM_PER_INCH / 8.0;
    if (j->inch) return ceil(least / eighth - 1e-9) * eighth;
    for (size_t i = 0; i < sizeof sold / sizeof *sold; i++)
        if (sold[i] >= least - 1e-9) return sold[i];
    return ceil(least / 5.0 - 1e-9) * 5.0;
}

static void propose_counterbore(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    tw_arena *arena = context->arena;
    double sunk = j->head + j->size.washer_thick + UNDER_SURFACE_MM, step = tw_customary(context, 0.5, 1.0 / 32.0);
    double wanted = ceil(sunk / step - 1e-9) * step;
    bool stout = j->d - wanted >= j->d / 2.0 - 1e-9;
    j->k = tw_plan_amount(context, plan, &j->spec->counterbore, "counterbore", "counterbore, deep", "k", TW_UNIT_MM, stout ? wanted : 0.0,
        stout ? tw_format(arena, "head + washer + %s = %s, rounded up", bare(context, UNDER_SURFACE_MM), bare(context, sunk)) : tw_format(arena, "%s would leave less than half of %s", bare(context, wanted), bare(context, j->d)),
        stout ? "the head lies below the surface (common practice)" : "the post keeps at least half of its thickness under the washer (common practice)");
    double round = j->spec->head.value == TW_HEAD_SOCKET ? j->washer : tw_max(j->washer, SOCKET_PER_SPANNER * j->size.spanner + 1.0);
    if (j->k > 0.0 || j->spec->counterbore_width.given)
        j->kw = tw_plan_amount(context, plan, &j->spec->counterbore_width, "counterbore_width", "counterbore, wide", "", TW_UNIT_MM, next_bit(j, round + BIT_ROOM_MM), tw_format(arena, "next bit over %s + %s", bare(context, round), bare(context, BIT_ROOM_MM)),
            j->spec->head.value == TW_HEAD_SOCKET ? "the washer must go in (common practice)" : "washer and spanner must go in (common practice)");
}

static double distance_to(const tw_bolted *j, tw_face side)
{
    switch (side) {
    case TW_SIDE_FACE: return j->a.thickness_mm - j->z;
    case TW_SIDE_BACK: return j->z;
    case TW_SIDE_FACE_EDGE: return j->y;
    default: return j->a.width_mm - j->y;
    }
}

bool tw_bolted_level(const tw_bolted *j) { return j->dowel_face <= TW_SIDE_BACK; }

static void place(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    tw_arena *arena = context->arena;
    const tw_bolted_spec *spec = j->spec;
    j->y = tw_plan_amount(context, plan, &spec->from_edge, "from_edge", "bolt from the rail's face edge", "", TW_UNIT_MM, j->a.width_mm / 2.0, tw_format(arena, "%s / 2", bare(context, j->a.width_mm)), "");
    j->z = tw_plan_amount(context, plan, &spec->from_back, "from_back", "bolt from the rail's back", "", TW_UNIT_MM, j->a.thickness_mm / 2.0, tw_format(arena, "%s / 2", bare(context, j->a.thickness_mm)), "");
    j->across = tw_plan_amount(context, plan, &spec->across, "across", tw_format(arena, "bolt from the %s of %s", tw_face_words[j->down], j->into->name), "", TW_UNIT_MM, j->e / 2.0, tw_format(arena, "%s / 2", bare(context, j->e)), "");
    j->h = 0.0;
    if (spec->let_in.given) j->h = tw_plan_amount(context, plan, &spec->let_in, "let_in", "end let in", "h", TW_UNIT_MM, 0.0, "", "");
}

static void propose_dowel(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    tw_arena *arena = context->arena;
    const tw_bolted_spec *spec = j->spec;
    j->dd = tw_plan_amount(context, plan, &spec->dowel, "dowel", "cross dowel, diameter", "dd", TW_UNIT_MM, j->size.dowel, tw_format(arena, "sold with %s", j->size.name), "as commonly sold (common practice): measure those you bought");
    j->dowel_face = (tw_face)spec->dowel_from.value;
    j->to_axis = distance_to(j, j->dowel_face);
    j->beyond = distance_to(j, tw_face_opposite(j->dowel_face));
    double most = tw_min(2.0 * tw_min(j->to_axis - DOWEL_SUNK_MM, j->beyond - DOWEL_FLOOR_MM), DOWEL_LONG * j->dd), sold = tw_cross_dowel_length_sold(j->dd, most, j->inch);
    j->dl = tw_plan_amount(context, plan, &spec->dowel_length, "dowel_length", "cross dowel, length", "dl", TW_UNIT_MM, sold > 0.0 ? sold : j->dd,
        sold > 0.0 ? tw_format(arena, "longest sold up to %s: twice the least of %s - %s and %s - %s, at most 2.5 dd", bare(context, most), bare(context, j->to_axis), bare(context, DOWEL_SUNK_MM), bare(context, j->beyond), bare(context, DOWEL_FLOOR_MM)) : "as long as it is thick: none sold is so short",
        "hidden in the rail, with wood left beyond it (common practice)");
    j->dowel_depth = j->to_axis + j->dl / 2.0;
    tw_note_length(context, plan, "dowel_depth", tw_format(arena, "its hole from the %s, deep", tw_face_words[j->dowel_face]), j->dowel_depth, tw_format(arena, "to the bolt %s + dl/2 %s", bare(context, j->to_axis), bare(context, j->dl / 2.0)),
        "on its bottom the dowel's thread lies on the bolt's axis");
    j->s = tw_plan_amount(context, plan, &spec->dowel_from_end, "dowel_from_end", "cross dowel from the rail's end", "s", TW_UNIT_MM, DOWEL_FROM_END * j->dd, tw_format(arena, "4 dd = 4 x %s", bare(context, j->dd)),
        "at least four times its diameter (common practice); carpentry that bears loads asks for seven (EN 1995-1-1, table 8.4, from memory)");
}

static void propose_length(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    tw_arena *arena = context->arena;
    j->flush = j->d - j->k + j->size.washer_thick + j->s - j->h + j->dd / 2.0;
    const char *sum = tw_format(arena, "D - k + washer + s - h + dd/2 = %s - %s + %s + %s - %s + %s", bare(context, j->d), bare(context, j->k), bare(context, j->size.washer_thick), bare(context, j->s), bare(context, j->h), bare(context, j->dd / 2.0));
    tw_note_length(context, plan, "bolt_level", "a bolt whose tip is level with the dowel's far side", j->flush, sum, "");
    double least = j->flush + THREADS_PAST * j->size.pitch, sold = tw_bolt_length_sold(least, j->inch), step = tw_customary(context, 5.0, 0.25);
    j->length = tw_plan_amount(context, plan, &j->spec->bolt_length, "bolt_length", "bolt, length under its head", "L", TW_UNIT_MM, sold > 0.0 ? sold : ceil(least / step) * step,
        tw_format(arena, "%s from %s + two threads = %s", sold > 0.0 ? "next length sold" : "rounded up", bare(context, j->flush), bare(context, least)), "through the cross dowel with two threads: the point is chamfered (common practice)");
    j->past = j->length - j->flush;
    double room = tw_customary(context, 10.0, 3.0 / 8.0);
    j->b_depth = j->s + j->dd / 2.0 + tw_max(j->past, 0.0) + room;
    tw_note_length(context, plan, "tip_past", "tip past the cross dowel", j->past, tw_format(arena, "%s - %s", bare(context, j->length), bare(context, j->flush)), "");
    tw_note_length(context, plan, "rail_hole_depth", "lengthwise hole in the rail, deep", j->b_depth, tw_format(arena, "s + dd/2 + past + room = %s + %s + %s + %s", bare(context, j->s), bare(context, j->dd / 2.0), bare(context, tw_max(j->past, 0.0)), bare(context, room)),
        "the bolt must never meet the bottom: dust, and a post that shrinks lets it go deeper (common practice)");
}

/* ---- pegs, season, figures of load ---- */

static double peg_sold(const tw_joint_context *context, double wanted)
{
    static const double mm[] = { 6.0, 8.0, 10.0, 12.0, 16.0 }, inch[] = { 0.25, 0.3125, 0.375, 0.5, 0.625 };
    double nearest = 0.0;
    for (int i = 0; i < 5; i++) {
        double d = tw_customary(context, mm[i], inch[i]);
        if (i == 0 || fabs(d - wanted) < fabs(nearest - wanted) - 1e-9) nearest = d;
    }
    return nearest;
}

static void propose_pegs(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    tw_arena *arena = context->arena;
    const tw_bolted_spec *spec = j->spec;
    j->pegs = (int)tw_plan_amount(context, plan, &spec->pegs, "pegs", "pegs beside the bolt", "", TW_UNIT_COUNT, spec->let_in.given ? 0.0 : 2.0, spec->let_in.given ? "the end is let in" : "2: the rail cannot turn", "a rail on a single bolt turns: two pegs, or an end let in (common practice)");
    if (j->pegs == 0) return;
    double third = PEG_SHARE * j->a.thickness_mm, room = tw_customary(context, 2.0, 1.0 / 16.0);
    j->peg = tw_plan_amount(context, plan, &spec->peg, "peg", "peg, thick", "", TW_UNIT_MM, peg_sold(context, third), tw_format(arena, "rod nearest to %s / 3 = %s", bare(context, j->a.thickness_mm), bare(context, third)), "about a third of the rail's thickness (common practice)");
    j->peg_spacing = tw_plan_amount(context, plan, &spec->peg_spacing, "peg_spacing", "between the pegs", "", TW_UNIT_MM, tw_rounded_down(context, j->a.width_mm / 2.0), tw_format(arena, "%s / 2, rounded down", bare(context, j->a.width_mm)), "the farther apart the less the rail can turn (common practice)");
    j->peg_depth = tw_plan_amount(context, plan, &spec->peg_depth, "peg_depth", "peg, deep in each piece", "", TW_UNIT_MM, 2.0 * j->peg, tw_format(arena, "2 x %s", bare(context, j->peg)), "a peg that only locates needs twice its thickness (common practice)");
    j->peg_hole = j->peg_depth + room;
    tw_note_length(context, plan, "peg_hole", "holes of the pegs, deep", j->peg_hole, tw_format(arena, "%s + %s", bare(context, j->peg_depth), bare(context, room)), "room for glue and shavings (common practice)");
}

int tw_bolted_peg_spots(const tw_bolted *j, double off[TW_BOLTED_PEGS_MOST])
{
    for (int i = 0; i < j->pegs; i++) off[i] = (i == 0 ? -0.5 : 0.5) * j->peg_spacing;
    return j->pegs;
}

static void reckon_slack(tw_joint_context *context, tw_joint_plan *plan, tw_bolted *j)
{
    const tw_timber *timber = j->into->timber.given ? tw_timber_find(context->arena, j->into->timber.text, NULL) : NULL;
    double change = 0.0;
    const char *caution = NULL, *why = NULL;
    if (!timber || !tw_movement_reckon(timber, j->d - j->k, false, DAMP_PERCENT, DRY_PERCENT, &change, &caution, &why)) return;
    j->slack = -change;
    tw_note_length(context, plan, "slack", "slack from damp to dry", j->slack, tw_format(context->arena, "(D - k) x %g x 4 percent = %s x %g", timber->change_tangential, bare(context, j->d - j->k), 4.0 * timber->change_tangential),
        tw_format(context->arena, "%s, flat sawn, from 12 to 8 percent of moisture (Wood Handbook, table 13-5)", timber->name));
}

/* Areas over which the pull of the bolt is spread, in square centimetres or square inches. */
static void note_areas(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j)
{
    bool inch = context->job->figures.style != TW_FIGURES_MM;
    double unit = inch ? tw_square(TW_MM_PER_INCH) : 100.0, hole = tw_min(j->hole, j->dl);
    tw_arena *arena = context->arena;
    const struct { const char *key, *label; double area; const char *sum; } areas[] = {
        { "relish_area", "wood that would shear out with the dowel", 2.0 * (j->s - j->dd / 2.0) * j->dl,
          tw_format(arena, "two planes: 2 x (s - dd/2) x dl = 2 x (%s - %s/2) x %s", bare(context, j->s), bare(context, j->dd), bare(context, j->dl)) },
        { "bearing_area", "end grain that the dowel bears on", j->dd * (j->dl - hole),
          tw_format(arena, "dd x (dl - hole) = %s x (%s - %s)", bare(context, j->dd), bare(context, j->dl), bare(context, hole)) },
        { "washer_area", "wood that the washer bears on", TW_PI / 4.0 * (tw_square(j->washer) - tw_square(j->hole)),
          tw_format(arena, "a circle of the washer less the hole = pi/4 x (%s x %s - %s x %s)", bare(context, j->washer), bare(context, j->washer),
                    bare(context, j->hole), bare(context, j->hole)) } };
    for (int i = 0; i < 3; i++)
        tw_plan_figure(context, plan, (tw_figure){ .key = tw_format(context->arena, "%s_%s", areas[i].key, inch ? "in2" : "cm2"),
            .label = tw_format(context->arena, "%s, %s", areas[i].label, inch ? "square inches" : "square centimetres"), .value = areas[i].area / unit, .unit = TW_UNIT_NONE,
            .sum = areas[i].sum, .rule = "to judge a load by: no proof of strength" });
}

/* ---- the plan ---- */

static tw_bolted *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_bolted_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_bolted *j = TW_NEW(context->arena, tw_bolted);
    j->spec = spec;
    j->rail = &job->pieces[spec->rail.index];
    j->into = &job->pieces[spec->into.index];
    j->a = tw_piece_size(j->rail);
    j->b = tw_piece_size(j->into);
    j->from = (tw_face)spec->from.value;
    j->far_ = tw_face_opposite(j->from);
    j->down = j->from <= TW_SIDE_BACK ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    tw_size extent = tw_face_extent(j->b, j->from);
    j->e = extent.width_mm;
    j->d = extent.thickness_mm;
    j->along = spec->lies.value == 0;
    j->ends = spec->ends.value == TW_BOLTED_BOTH ? 2 : 1;
    j->rail_pieces = (int)(j->rail->count.value * job->sets.value);
    j->into_pieces = (int)(j->into->count.value * job->sets.value);
    j->joints = plan->count = j->rail_pieces * j->ends;
    return j;
}

static bool end_is_possible(const tw_bolted *j)
{
    double half = tw_max(j->hole, tw_bolted_level(j) ? j->dd : 0.0) / 2.0, half_z = tw_max(j->hole, tw_bolted_level(j) ? 0.0 : j->dd) / 2.0;
    bool bolt = j->y > half && j->y < j->a.width_mm - half && j->z > half_z && j->z < j->a.thickness_mm - half_z;
    bool dowel = j->s > j->dd / 2.0 && j->dl > j->size.diameter && j->to_axis >= j->dl / 2.0 - 1e-9 && j->beyond > j->dl / 2.0;
    bool length = j->past > -j->dd && j->ends * j->b_depth < j->a.length_mm;
    return bolt && dowel && length && j->dd > j->size.diameter;
}

static bool pegs_are_possible(const tw_bolted *j)
{
    double off[TW_BOLTED_PEGS_MOST], radius = j->peg / 2.0;
    int count = tw_bolted_peg_spots(j, off);
    for (int i = 0; i < count; i++) {
        bool in_rail = j->y + off[i] > radius && j->y + off[i] < j->a.width_mm - radius && j->z > radius && j->z < j->a.thickness_mm - radius;
        bool clear = fabs(off[i]) > radius + j->hole / 2.0 && (fabs(off[i]) > radius + j->dd / 2.0 || !tw_bolted_level(j) || j->peg_hole < j->s - j->dd / 2.0);
        bool across = j->along ? j->across > radius && j->across < j->e - radius : j->across - fabs(off[i]) > radius && j->across + fabs(off[i]) < j->e - radius;
        if (!in_rail || !clear || !across || j->peg < 0.5 || j->h + j->peg_hole >= j->d) return false;
        if (j->k > 0.0 && j->h + j->peg_hole > j->d - j->k && fabs(off[i]) < radius + j->kw / 2.0) return false;
    }
    if (count > 0 && !tw_bolted_level(j) && j->peg_hole >= j->s - j->dd / 2.0) return false;  // the cross hole runs along them
    return !(count == 1 && !j->along && j->ends == 2);
}

/* The two ends of a rail look at each other: what runs across the post is mirrored. */
bool tw_bolted_one_sided(const tw_bolted *j)
{
    double middle = j->along ? j->z : j->y, size = j->along ? j->a.thickness_mm : j->a.width_mm;
    return j->h > 0.0 && j->ends == 2 && fabs(middle - size / 2.0) > 1e-6;
}

bool tw_bolted_possible(const tw_bolted *j)
{
    if (tw_bolted_one_sided(j)) return false;
    double half = tw_max(j->hole, j->k > 0.0 ? j->kw : 0.0) / 2.0, off[TW_BOLTED_PEGS_MOST];
    int pegs = tw_bolted_peg_spots(j, off);
    double reach_x = half, reach_up = half;
    if (pegs && j->along) reach_x = tw_max(half, j->peg_spacing / 2.0 + j->peg / 2.0);
    bool post = j->across > reach_up && j->across < j->e - reach_up && j->k >= 0.0 && j->k + j->h < j->d - 0.1 && (j->k <= 0.0 || j->kw > j->hole);
    for (int i = 0; i < j->spec->at.count; i++) post = post && j->spec->at.items[i].value > reach_x && j->spec->at.items[i].value < j->b.length_mm - reach_x;
    return post && end_is_possible(j) && pegs_are_possible(j);
}

static bool sides_can_be(tw_joint_context *context, const tw_joint_plan *plan, const tw_bolted_spec *spec)
{
    if (spec->from.value >= TW_SIDE_LEFT_END)
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name, "a bolt through the length of a piece is not worked out: the rail's end stands against a side", "a face or an edge of the other piece");
    if (spec->dowel_from.value >= TW_SIDE_LEFT_END)
        tw_find(context->findings, TW_HALT, spec->dowel_from.place, "dowel-from-end", plan->joint->name, "the cross dowel's hole is bored across the grain, square to the bolt: it cannot begin at an end", "a face or an edge of the rail that is not seen");
    return spec->from.value < TW_SIDE_LEFT_END && spec->dowel_from.value < TW_SIDE_LEFT_END;
}

static void plan_bolted(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_bolted_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (!sides_can_be(context, plan, spec)) return;
    tw_bolted *j = begin(context, plan);
    plan->own = j;
    propose_bolt(context, plan, j);
    propose_counterbore(context, plan, j);
    place(context, plan, j);
    propose_dowel(context, plan, j);
    propose_length(context, plan, j);
    propose_pegs(context, plan, j);
    reckon_slack(context, plan, j);
    note_areas(context, plan, j);
    tw_bolted_check(context, plan, j);
    if (!tw_bolted_possible(j)) return;  // a halt says why
    tw_bolted_cuts(context, plan, j);
    tw_bolted_works(context, plan, j);
    tw_bolted_shapes(context->arena, plan, j);
    tw_bolted_lodgings(context, plan, j);
}

const tw_joint_kind tw_cross_dowel = {
    .format = { .kind = "cross dowel and bolt",
                .meaning = "A rail's end stands against the side of a post; a bolt through the post goes into the rail lengthwise and screws into a cross dowel there. "
                           "Pegs or a shallow housing keep the rail from turning.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_bolted_spec) },
    .plan = plan_bolted,
    .draw = tw_bolted_draw,
};
