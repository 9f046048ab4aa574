// SPDX-License-Identifier: GPL-3.0-or-later
/* Slip tenon: two equal mortises, one in the end of a piece and one in the side of another, and a loose tenon planed to
 * both. Here: what the job may say, and the proportions with their rules (common practice where no source is named).
 *
 *     mortise across its cheeks  tm = the owned cutter nearest to a third of the thinner piece        (1)
 *     loose tenon                t = tm - c,  w = what the end leaves between its walls, at most 6t   (2)
 *     deep in each               l = 2/3 of the other piece, as far as the cutter reaches             (3)
 *     mortises                   wm = w + cw,  depth = l + room;  tenon L = 2 l                       (4)  */
#include "joint/slip_tenon.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/words.h"

/* ---- what the job may say ---- */

static const char *const ends_words[] = { "left", "right", "both", NULL };
static const char *const lies_words[] = { "along", "across", NULL };
static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const corner_words[] = { "round", "square", NULL };

#define AT(field) offsetof(tw_slip_spec, field)
static const tw_key keys[] = {
    { "piece", TW_KEY_PIECE, AT(piece), .required = true, .meaning = "The piece whose end is joined.", .example = "rail" },
    { "ends", TW_KEY_CHOICE, AT(ends), .required = true, .choices = ends_words, .meaning = "Which ends of it are joined.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "The piece whose side the end stands against.", .example = "leg" },
    { "from", TW_KEY_CHOICE, AT(from), .required = true, .choices = tw_face_words, .meaning = "That side. A face or an edge, not an end.", .example = "face edge" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true,
      .meaning = "From the left end of that piece to the middle of the tenon; a list when one piece takes several.", .example = "[60, 640]" },
    { "across", TW_KEY_LENGTH, AT(across), .otherwise = "the middle",
      .meaning = "To the middle of the tenon across that piece: from its face edge, or from its back where the side is an edge.", .example = "20 mm" },
    { "lies", TW_KEY_CHOICE, AT(lies), .choices = lies_words, .otherwise = "along",
      .meaning = "Whether the tenon's width runs along the grain of that piece or across it.", .example = "along" },
    { "depth", TW_KEY_LENGTH, AT(depth), .otherwise = "two thirds of that piece, or what the cutter reaches",
      .meaning = "How deep the loose tenon goes into each piece; both mortises are deeper by the bottom room.", .example = "35 mm" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .fallback = 1, .otherwise = "glued", .meaning = "Glued stays; dry comes apart again, and something else must hold it.", .example = "glued" },
    { "tenon thickness", TW_KEY_LENGTH, AT(tenon_thickness), .otherwise = "the owned cutter nearest to a third of the thinner piece, less the clearance",
      .meaning = "Of the loose tenon, cheek to cheek.", .example = "9.9 mm" },
    { "tenon width", TW_KEY_LENGTH, AT(tenon_width), .otherwise = "the piece's width less a wall of a sixth at each edge, at most six times the thickness",
      .meaning = "Of the loose tenon, edge to edge.", .example = "40 mm" },
    { "from edge", TW_KEY_LENGTH, AT(from_edge), .otherwise = "the middle", .meaning = "From the face edge of the piece to the middle of the tenon in its end.", .example = "30 mm" },
    { "from back", TW_KEY_LENGTH, AT(from_back), .otherwise = "the middle", .meaning = "From the back of the piece to the middle of the tenon's thickness.", .example = "10 mm" },
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.1 mm glued, 0.2 mm dry", .meaning = "Mortise less tenon in the thickness, both sides together.", .example = "0.004 in" },
    { "width clearance", TW_KEY_LENGTH, AT(width_clearance), .most = 10.0, .otherwise = "1 mm, or 1/32 in",
      .meaning = "Mortise less tenon in the width, both sides together: the end can be moved a little along the other piece before the glue takes.", .example = "1 mm" },
    { "bottom room", TW_KEY_LENGTH, AT(bottom_room), .most = 50.0, .otherwise = "2 mm, or 1/16 in", .meaning = "How much deeper each mortise is than the tenon goes in: for glue and shavings.", .example = "2 mm" },
    { "mortise ends", TW_KEY_CHOICE, AT(mortise_ends), .choices = corner_words, .otherwise = "round",
      .meaning = "Round: the mortises stay as the cutter leaves them and the loose tenon's edges are rounded alike. Square: they are chopped square.", .example = "round" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the one nearest to a third of the thinner piece that is long enough", .meaning = "For both mortises.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For both mortises.", .example = "bush 16" },
    { "tenon timber", TW_KEY_TEXT, AT(tenon_timber), .otherwise = "that of the piece", .meaning = "Of the loose tenon: straight-grained, no softer than the pieces.", .example = "Ash, white" },
};
#undef AT

/* ---- proportions ---- */

#define CLEARANCE_GLUED_MM 0.1   // a few thousandths of an inch under what it goes into: common practice
#define CLEARANCE_DRY_MM 0.2     // a tenon that gets no glue is left slightly loose: common practice
#define THIRD (1.0 / 3.0)
#define BLIND_SHARE (2.0 / 3.0)  // of the other piece: common practice
#define WIDTH_PER_THICKNESS 6.0  // widest tenon: common practice
#define WALL_SHARE (1.0 / 6.0)   // of the piece's width at each edge of its end: common practice

/* Of the cutters that plunge, within the limits and long enough, the one nearest in diameter; -1 if there is none. */
static int nearest_cutter(const tw_shop *shop, const tw_words *named, double least, double most, double wanted, double need)
{
    int nearest = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        bool allowed = !named->given || tw_text_is(tw_text_of(cutter->name), named->text);
        if (!allowed || !cutter->plunges.value || cutter->d_mm < least - 1e-9 || cutter->d_mm > most + 1e-9 || cutter->cutting_length.value < need - 1e-9) continue;
        if (nearest < 0 || fabs(cutter->d_mm - wanted) < fabs(shop->cutters[nearest].d_mm - wanted) - 1e-9) nearest = i;
    }
    return nearest;
}

static double longest_reach(const tw_shop *shop, const tw_words *named, double slot)
{
    double reach = 0.0;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *cutter = &shop->cutters[i];
        bool allowed = !named->given || tw_text_is(tw_text_of(cutter->name), named->text);
        if (allowed && cutter->plunges.value && cutter->d_mm <= slot + 1e-9) reach = tw_max(reach, cutter->cutting_length.value);
    }
    return reach;
}

static void propose_clearance(tw_joint_context *context, tw_joint_plan *plan, tw_slip *s)
{
    double usual = s->glued ? CLEARANCE_GLUED_MM : CLEARANCE_DRY_MM, wide = tw_customary(context, 1.0, 1.0 / 32.0), room = tw_customary(context, 2.0, 1.0 / 16.0);
    s->c = tw_plan_amount(context, plan, &s->spec->clearance, "clearance", "clearance in thickness", "c", TW_UNIT_MM, usual,
        tw_format(context->arena, "%s %s", tw_bare_fine(context, usual), s->glued ? "for a glued fit" : "for a dry fit"),
        s->glued ? "a part a few thousandths of an inch under what it goes into (common practice)" : "a tenon that gets no glue is left slightly loose (common practice)");
    s->cw = tw_plan_amount(context, plan, &s->spec->width_clearance, "width_clearance", "clearance in width", "cw", TW_UNIT_MM, wide, tw_bare_fine(context, wide),
        "the cheeks hold; the width is left free for aligning the pieces (common practice)");
    s->room = tw_plan_amount(context, plan, &s->spec->bottom_room, "bottom_room", "room below the tenon, each", "", TW_UNIT_MM, room, tw_bare_fine(context, room),
        "glue and shavings must have somewhere to go, or the joint stands open (common practice)");
}

static void propose_thickness(tw_joint_context *context, tw_joint_plan *plan, tw_slip *s)
{
    tw_arena *arena = context->arena;
    const tw_slip_spec *spec = s->spec;
    double thinner = s->along ? tw_min(s->a.thickness_mm, s->e) : s->a.thickness_mm, wanted = THIRD * thinner;
    double need = (spec->depth.given ? spec->depth.value : BLIND_SHARE * s->d) + s->room;
    int cutter = nearest_cutter(context->shop, &spec->cutter, thinner / 4.0, 0.4 * thinner, wanted, need);
    if (cutter < 0) cutter = nearest_cutter(context->shop, &spec->cutter, thinner / 5.0, thinner / 2.0, wanted, 0.0);
    double slot = cutter >= 0 ? context->shop->cutters[cutter].d_mm : tw_max(tw_rounded_down(context, wanted), wanted / 2.0);
    s->tm = spec->tenon_thickness.given ? spec->tenon_thickness.value + s->c : slot;
    tw_plan_figure(context, plan, (tw_figure){ .key = "mortise_width", .label = "mortises, across their cheeks", .symbol = "tm", .value = s->tm, .unit = TW_UNIT_MM,
        .sum = spec->tenon_thickness.given ? tw_format(arena, "t + c = %s + %s", tw_bare_fine(context, spec->tenon_thickness.value), tw_bare_fine(context, s->c))
             : cutter >= 0 ? tw_format(arena, "cutter nearest to %s / 3 = %s: %s", tw_bare_fine(context, thinner), tw_bare_fine(context, wanted), context->shop->cutters[cutter].name)
                           : tw_format(arena, "%s / 3, rounded down", tw_bare_fine(context, thinner)),
        .rule = spec->tenon_thickness.given ? "" : "a third of the thinner piece, to the nearest cutter so that one pass makes both mortises (common practice)" });
    s->t = tw_plan_amount(context, plan, &spec->tenon_thickness, "tenon_thickness", "loose tenon, thickness", "t", TW_UNIT_MM, s->tm - s->c,
        tw_format(arena, "tm - c = %s - %s", tw_bare_fine(context, s->tm), tw_bare_fine(context, s->c)), "the tenon is planed to its mortises (common practice)");
    s->reach = longest_reach(context->shop, &spec->cutter, s->tm);
    bool serves = cutter >= 0 && !spec->tenon_thickness.given && context->shop->cutters[cutter].cutting_length.value >= s->reach - 1e-9;
    s->cutter = spec->cutter.given ? spec->cutter.text : serves ? context->shop->cutters[cutter].name : NULL;
}

static void propose_length(tw_joint_context *context, tw_joint_plan *plan, tw_slip *s)
{
    tw_arena *arena = context->arena;
    double wanted = BLIND_SHARE * s->d, reached = s->reach - s->room;
    bool short_cutter = wanted > reached + 1e-9 && reached > 2.0 * s->room;
    s->l = tw_plan_amount(context, plan, &s->spec->depth, "tenon_in_each", "loose tenon, deep in each piece", "l", TW_UNIT_MM, tw_rounded_down(context, short_cutter ? reached : wanted),
        short_cutter ? tw_format(arena, "cutter's reach - room = %s - %s; 2/3 x %s = %s would be better", tw_bare_fine(context, s->reach), tw_bare_fine(context, s->room), tw_bare_fine(context, s->d), tw_bare_fine(context, wanted))
                     : tw_format(arena, "2/3 x %s = %s", tw_bare_fine(context, s->d), tw_bare_fine(context, wanted)),
        short_cutter ? "as deep as the cutter reaches" : "two thirds of the piece that it goes into, and as deep in the end (common practice)");
    s->depth = s->l + s->room;
    s->long_mm = 2.0 * s->l;
    tw_note_length(context, plan, "mortise_depth", "mortises, depth", s->depth, tw_format(arena, "l + room = %s + %s", tw_bare_fine(context, s->l), tw_bare_fine(context, s->room)), "");
    tw_note_length(context, plan, "tenon_length", "loose tenon, length", s->long_mm, tw_format(arena, "2 l = 2 x %s", tw_bare_fine(context, s->l)), "");
    tw_note_length(context, plan, "floor", "wood left under the mortise in the side", s->d - s->depth, tw_format(arena, "%s - %s", tw_bare_fine(context, s->d), tw_bare_fine(context, s->depth)), "at least 6 mm or 1/4 in (common practice)");
}

static void propose_width(tw_joint_context *context, tw_joint_plan *plan, tw_slip *s)
{
    tw_arena *arena = context->arena;
    double wall = WALL_SHARE * s->a.width_mm, room = s->a.width_mm - 2.0 * wall, widest = WIDTH_PER_THICKNESS * s->t;
    if (!s->along) room = tw_min(room, 2.0 / 3.0 * s->e);
    s->w = tw_plan_amount(context, plan, &s->spec->tenon_width, "tenon_width", "loose tenon, width", "w", TW_UNIT_MM, tw_rounded_down(context, tw_max(tw_max(tw_min(room, widest) - s->cw, s->t / 2.0), 0.0)),
        tw_format(arena, "the least of %s and 6 x %s, less the clearance, rounded down", tw_bare_fine(context, room), tw_bare_fine(context, s->t)),
        "a wall of a sixth of the width at each edge of the end; at most six times as wide as thick (common practice)");
    s->wm = s->w + s->cw;
    tw_note_length(context, plan, "mortise_length", "mortises, along the tenon's width", s->wm, tw_format(arena, "w + cw = %s + %s", tw_bare_fine(context, s->w), tw_bare_fine(context, s->cw)), "");
}

static void place(tw_joint_context *context, tw_joint_plan *plan, tw_slip *s)
{
    tw_arena *arena = context->arena;
    const tw_slip_spec *spec = s->spec;
    s->y = tw_plan_amount(context, plan, &spec->from_edge, "from_edge", "middle of the tenon from the face edge", "", TW_UNIT_MM, s->a.width_mm / 2.0, tw_format(arena, "%s / 2", tw_bare_fine(context, s->a.width_mm)), "");
    s->z = tw_plan_amount(context, plan, &spec->from_back, "from_back", "middle of the tenon from the back", "", TW_UNIT_MM, s->a.thickness_mm / 2.0, tw_format(arena, "%s / 2", tw_bare_fine(context, s->a.thickness_mm)), "");
    s->across = tw_plan_amount(context, plan, &spec->across, "across", tw_format(arena, "middle of the mortise from the %s", tw_face_words[s->down]), "", TW_UNIT_MM, s->e / 2.0, tw_format(arena, "%s / 2", tw_bare_fine(context, s->e)), "");
    double half = (s->along ? s->tm : s->wm) / 2.0;
    tw_note_length(context, plan, "end_wall", "wall of the mortise in the end, cheek", tw_min(s->z, s->a.thickness_mm - s->z) - s->tm / 2.0, tw_format(arena, "to the nearer of face and back - half of the mortise = %s - %s",
        tw_bare_fine(context, tw_min(s->z, s->a.thickness_mm - s->z)), tw_bare_fine(context, s->tm / 2.0)), "");
    tw_note_length(context, plan, "side_wall", "wall of the mortise in the side", tw_min(s->across, s->e - s->across) - half, tw_format(arena, "to the nearer side - half of the mortise = %s - %s",
        tw_bare_fine(context, tw_min(s->across, s->e - s->across)), tw_bare_fine(context, half)), "");
}

/* ---- the plan ---- */

static tw_slip *begin(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_slip_spec *spec = plan->joint->spec;
    const tw_job *job = context->job;
    tw_slip *s = TW_NEW(context->arena, tw_slip);
    s->spec = spec;
    s->piece = &job->pieces[spec->piece.index];
    s->into = &job->pieces[spec->into.index];
    s->a = tw_piece_size(s->piece);
    s->b = tw_piece_size(s->into);
    s->from = (tw_face)spec->from.value;
    s->down = s->from <= TW_SIDE_BACK ? TW_SIDE_FACE_EDGE : TW_SIDE_BACK;
    tw_size extent = tw_face_extent(s->b, s->from);
    s->e = extent.width_mm;
    s->d = extent.thickness_mm;
    s->along = spec->lies.value == 0;
    s->glued = spec->fit.value == 1;
    s->round = spec->mortise_ends.value == 0;
    s->ends = spec->ends.value == TW_SLIP_BOTH ? 2 : 1;
    s->pieces = (int)(s->piece->count.value * job->sets.value);
    s->into_pieces = (int)(s->into->count.value * job->sets.value);
    s->joints = plan->count = s->pieces * s->ends;
    return s;
}

bool tw_slip_possible(const tw_slip *s)
{
    const double least = 0.1;
    bool tenon = s->t > least && s->w > least && s->l > least && s->depth < s->d && s->ends * s->depth < s->a.length_mm;
    bool end = s->y > s->wm / 2.0 && s->y < s->a.width_mm - s->wm / 2.0 && s->z > s->tm / 2.0 && s->z < s->a.thickness_mm - s->tm / 2.0;
    double half_up = (s->along ? s->tm : s->wm) / 2.0, half_x = (s->along ? s->wm : s->tm) / 2.0;
    bool side = s->across > half_up && s->across < s->e - half_up;
    for (int i = 0; i < s->spec->at.count; i++) side = side && s->spec->at.items[i].value > half_x && s->spec->at.items[i].value < s->b.length_mm - half_x;
    return tenon && end && side;
}

static void plan_slip_tenon(tw_joint_context *context, tw_joint_plan *plan)
{
    const tw_slip_spec *spec = plan->joint->spec;
    assert(context->shop && spec->at.count > 0);
    if (spec->from.value >= TW_SIDE_LEFT_END) {
        tw_find(context->findings, TW_HALT, spec->from.place, "from-end", plan->joint->name, "a slip tenon joins an end to a side: end grain against end grain holds nothing", "a face or an edge of the other piece");
        return;
    }
    tw_slip *s = begin(context, plan);
    plan->own = s;
    propose_clearance(context, plan, s);
    propose_thickness(context, plan, s);
    propose_length(context, plan, s);
    propose_width(context, plan, s);
    place(context, plan, s);
    tw_slip_check(context, plan, s);
    if (!tw_slip_possible(s)) return;  // a halt says why
    tw_slip_cuts(context, plan, s);
    tw_slip_works(context, plan, s);
    tw_slip_lodgings(context, plan, s);
}

const tw_joint_kind tw_slip_tenon = {
    .format = { .kind = "slip tenon",
                .meaning = "Two equal mortises, one in the end of a piece and one in the side of another, and a loose tenon planed to fit both.",
                .keys = keys, .key_count = (int)(sizeof keys / sizeof *keys), .spec_size = sizeof(tw_slip_spec) },
    .plan = plan_slip_tenon,
    .draw = tw_slip_draw,
};
