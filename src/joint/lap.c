// SPDX-License-Identifier: GPL-3.0-or-later
/* Laps: two pieces cross, each notched so that they lie in one plane (cross lap) or stand on edge in each other (edge lap).
 * Here: what the job may say, the proportions with their rules (common practice where no source is named), the cuts and
 * how the pieces stand.
 *
 *     depth   over + under = thinner + room        each takes half: half of the thinner piece and half of the room  (1)
 *     notch   w = the other piece's width + c      square across the notch                                         (2)
 *     span    = w / sin(angle)                     along the piece                                                 (3)
 *     reach   = span/2 + (width/2) |cot(angle)|    along the piece, to the notch's farthest corner                 (4)
 *     over stands proud by  thick - over depth - under depth + room                                                (5)
 *
 * A piece notched to a share s of its depth keeps s^2 of its bending strength there (section modulus b h^2 / 6).       (6) */
#include "joint/lap.h"

#include <assert.h>
#include <math.h>

#include "joint/kinds.h"
#include "joint/standing.h"
#include "joint/words.h"
#include "piece/pose.h"

/* ---- what the job may say ---- */

static const char *const broad_words[] = { "face", "back", NULL };
static const char *const edge_words[] = { "face edge", "back edge", NULL };
static const char *const fit_words[] = { "dry", "glued", NULL };
static const char *const by_words[] = { "copy", "saw", NULL };

#define ANGLE_LEAST (15.0 * TW_PI / 180.0)
#define ANGLE_MOST (165.0 * TW_PI / 180.0)

#define AT(field) offsetof(tw_lap_spec, field)
#define PIECE_ROWS(over_meaning, over_name, under_meaning, under_name) \
    { "over", TW_KEY_PIECE, AT(over), .required = true, .meaning = over_meaning, .example = over_name }, \
    { "over at", TW_KEY_LENGTHS, AT(over_at), .required = true, \
      .meaning = "From the left end of `over` to the middle of the crossing; a list when it crosses several.", .example = "[120, 360, 600]" }, \
    { "under", TW_KEY_PIECE, AT(under), .required = true, .meaning = under_meaning, .example = under_name }, \
    { "under at", TW_KEY_LENGTHS, AT(under_at), .required = true, \
      .meaning = "From the left end of `under` to the middle of the crossing; a list when it is crossed by several.", .example = "240 mm" }
#define OTHER_ROWS(room_otherwise) \
    { "angle", TW_KEY_ANGLE, AT(angle), .least = ANGLE_LEAST, .most = ANGLE_MOST, .preset = TW_PI / 2.0, .otherwise = "90 deg", \
      .meaning = "At which they cross: seen on the notched side of either piece, from its own length to the other's, counter-clockwise.", .example = "60 deg" }, \
    { "over depth", TW_KEY_LENGTH, AT(over_depth), .otherwise = "half of the thinner piece, and half of the room", .meaning = "Depth of the notch in `over`.", .example = "15 mm" }, \
    { "under depth", TW_KEY_LENGTH, AT(under_depth), .otherwise = "half of the thinner piece, and half of the room", .meaning = "Depth of the notch in `under`.", .example = "15 mm" }, \
    { "room", TW_KEY_LENGTH, AT(room), .most = 20.0, .otherwise = room_otherwise, .meaning = "Between the bottoms of the two notches when the sides lie level.", .example = "0.5 mm" }, \
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = fit_words, .otherwise = "dry", .meaning = "Dry comes apart again; glued stays.", .example = "glued" }, \
    { "clearance", TW_KEY_LENGTH, AT(clearance), .most = 5.0, .otherwise = "0.2 mm dry, 0.1 mm glued", .meaning = "Notch less what goes in, both walls together.", .example = "0.008 in" }, \
    { "by", TW_KEY_CHOICE, AT(by), .choices = by_words, .otherwise = "copy where a cutter is long enough and the machine takes it, else saw", \
      .meaning = "Whether the notches are copied with a template, or sawn and chiselled.", .example = "saw" }, \
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the largest that is no wider than the notch", .meaning = "For the notches.", .example = "long 12.7" }, \
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "one that loses nothing", .meaning = "For the notches.", .example = "bush 19" }

static const tw_key cross_keys[] = {
    PIECE_ROWS("The piece that lies over the other; it is notched from below.", "brace", "The piece that lies under it; it is notched from above.", "rail"),
    { "over side", TW_KEY_CHOICE, AT(over_side), .choices = broad_words, .fallback = 1, .otherwise = "back", .meaning = "The side of `over` that is notched.", .example = "back" },
    { "under side", TW_KEY_CHOICE, AT(under_side), .choices = broad_words, .fallback = 0, .otherwise = "face", .meaning = "The side of `under` that is notched.", .example = "face" },
    OTHER_ROWS("none: they bear on the bottoms of the notches"),
};
static const tw_key edge_keys[] = {
    PIECE_ROWS("The piece that comes from above; it is notched at its lower edge.", "divider", "The piece that stands below; it is notched at its upper edge.", "shelf"),
    { "over side", TW_KEY_CHOICE, AT(over_side), .choices = edge_words, .fallback = 0, .otherwise = "face edge", .meaning = "The edge of `over` that is notched.", .example = "face edge" },
    { "under side", TW_KEY_CHOICE, AT(under_side), .choices = edge_words, .fallback = 1, .otherwise = "back edge", .meaning = "The edge of `under` that is notched.", .example = "back edge" },
    OTHER_ROWS("0.5 mm, or 1/64 in, so that the edges come level"),
};
#undef AT

/* ---- proportions ---- */

#define BOARD_WALL_MM 25.0    // of a template board round its opening, as the template stage makes it
#define SAME_MM 1e-6

static const char *bare(const tw_joint_context *context, double length_mm) { return tw_bare_fine(context, length_mm); }
static bool square(const tw_lap *l) { return fabs(l->angle - TW_PI / 2.0) < 1e-9; }
static double cotangent(const tw_lap *l) { return square(l) ? 0.0 : cos(l->angle) / sin(l->angle); }

static tw_lap_part part_of(const tw_joint_context *context, tw_link link, tw_face side, const tw_amounts *at, const tw_amount *depth_key)
{
    tw_lap_part part = { .piece = &context->job->pieces[link.index], .index = link.index, .side = side, .at = at, .depth_key = depth_key, .cutter = -1 };
    part.size = tw_piece_size(part.piece);
    tw_size extent = tw_face_extent(part.size, side);
    part.wide = extent.width_mm;
    part.thick = extent.thickness_mm;
    part.pieces = (int)(part.piece->count.value * context->job->sets.value);
    return part;
}

static tw_lap *begin(tw_joint_context *context, tw_joint_plan *plan, bool edge)
{
    const tw_lap_spec *spec = plan->joint->spec;
    tw_lap *l = TW_NEW(context->arena, tw_lap);
    int first = edge ? TW_SIDE_FACE_EDGE : TW_SIDE_FACE;
    l->spec = spec;
    l->edge = edge;
    l->glued = spec->fit.value == 1;
    l->over = part_of(context, spec->over, (tw_face)(first + spec->over_side.value), &spec->over_at, &spec->over_depth);
    l->under = part_of(context, spec->under, (tw_face)(first + spec->under_side.value), &spec->under_at, &spec->under_depth);
    l->thinner = tw_min(l->over.thick, l->under.thick);
    l->joints = plan->count = l->over.pieces * spec->over_at.count;
    return l;
}

static void propose_crossing(tw_joint_context *context, tw_joint_plan *plan, tw_lap *l)
{
    const tw_lap_spec *spec = l->spec;
    l->angle = tw_plan_amount(context, plan, &spec->angle, "angle", "crossing at", "", TW_UNIT_RAD, TW_PI / 2.0, "square", "");
    double clearance = l->glued ? tw_customary(context, 0.1, 0.004) : tw_customary(context, 0.2, 0.008);
    l->c = tw_plan_amount(context, plan, &spec->clearance, "clearance", "notch over what goes in", "c", TW_UNIT_MM, clearance, bare(context, clearance),
        l->glued ? "a few thousandths of an inch, for the glue (common practice)" : "what gets no glue is left slightly loose (common practice)");
    double room = l->edge ? tw_customary(context, 0.5, 1.0 / 64.0) : 0.0;
    l->room = tw_plan_amount(context, plan, &spec->room, "room", "between the bottoms of the notches", "", TW_UNIT_MM, room, bare(context, room),
        l->edge ? "the edges come level before the bottoms meet (common practice)" : "they bear on the bottoms");
}

static void propose_depths(tw_joint_context *context, tw_joint_plan *plan, tw_lap *l)
{
    tw_arena *arena = context->arena;
    double half = (l->thinner + l->room) / 2.0;
    const char *sum = tw_format(arena, "(thinner + room)/2 = (%s + %s)/2", bare(context, l->thinner), bare(context, l->room));
    const char *rule = l->edge ? "each takes half of the height (common practice)" : "each takes half of the thinner piece (common practice)";
    double over = l->spec->under_depth.given && !l->spec->over_depth.given ? 2.0 * half - l->spec->under_depth.value : half;
    double under = l->spec->over_depth.given && !l->spec->under_depth.given ? 2.0 * half - l->spec->over_depth.value : half;
    const char *rest = tw_format(arena, "thinner + room, less the other's = %s + %s - %s", bare(context, l->thinner), bare(context, l->room),
        bare(context, l->spec->over_depth.given ? l->spec->over_depth.value : l->spec->under_depth.value));
    l->over.depth = tw_plan_amount(context, plan, &l->spec->over_depth, "over_depth", "notch in the piece over, deep", "", TW_UNIT_MM, over, over == half ? sum : rest, rule);
    l->under.depth = tw_plan_amount(context, plan, &l->spec->under_depth, "under_depth", "notch in the piece under, deep", "", TW_UNIT_MM, under, under == half ? sum : rest, rule);
    double overlap = l->over.depth + l->under.depth - l->room;
    l->top = l->over.thick - overlap;
    l->bottom = overlap - l->under.thick;
}

static void note_part(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l, tw_lap_part *part, const tw_lap_part *other, bool over)
{
    tw_arena *arena = context->arena;
    const char *key = over ? "over" : "under", *word = over ? "over" : "under";
    part->notch = other->wide + l->c;
    part->span = part->notch / sin(l->angle);
    part->reach = part->span / 2.0 + part->wide / 2.0 * fabs(cotangent(l));
    tw_note_length(context, plan, tw_format(arena, "%s_notch", key), tw_format(arena, "notch in the piece %s, wide", word), part->notch,
        tw_format(arena, "%s + c = %s + %s", other->piece->name, bare(context, other->wide), bare(context, l->c)), "from the other piece's real width: hold it there");
    if (!square(l))
        tw_note_length(context, plan, tw_format(arena, "%s_span", key), tw_format(arena, "notch in the piece %s, along it", word), part->span,
            tw_format(arena, "%s / sin %s", bare(context, part->notch), tw_angle_text(arena, l->angle)), "");
    tw_note_length(context, plan, tw_format(arena, "%s_left", key), tw_format(arena, "left in the piece %s", word), part->thick - part->depth,
        tw_format(arena, "%s - %s", bare(context, part->thick), bare(context, part->depth)), "");
    double share = tw_max(0.0, (part->thick - part->depth) / part->thick);
    tw_plan_figure(context, plan, (tw_figure){ .key = tw_format(arena, "%s_strength", key), .label = tw_format(arena, "bending strength left there, piece %s", word), .value = share * share,
        .unit = TW_UNIT_NONE, .sum = tw_format(arena, "(left / thick)^2 = (%s / %s)^2", bare(context, part->thick - part->depth), bare(context, part->thick)),
        .rule = "section modulus b h^2 / 6; the piece that lies in the notch bears only when it is pressed together" });
}

static void note_level(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l)
{
    tw_arena *arena = context->arena;
    tw_note_length(context, plan, "proud", "the piece over stands proud of the piece under", l->top,
        tw_format(arena, "%s - %s - %s + %s", bare(context, l->over.thick), bare(context, l->over.depth), bare(context, l->under.depth), bare(context, l->room)), "");
    tw_note_length(context, plan, "under_proud", "the piece under stands proud below", -l->bottom,
        tw_format(arena, "%s - %s - %s + %s", bare(context, l->under.thick), bare(context, l->under.depth), bare(context, l->over.depth), bare(context, l->room)), "");
}

/* ---- how it is cut ---- */

static bool machine_takes(const tw_machine *machine, const tw_lap *l, const tw_lap_part *part, double cutter_mm)
{
    double high = part->wide + 2.0 * cutter_mm, across = 2.0 * (part->reach + cutter_mm * fabs(cotangent(l)));
    bool travel = (!machine->travel_up.given || high - cutter_mm <= machine->travel_up.value + SAME_MM) &&
                  (!machine->travel_across.given || across - cutter_mm <= machine->travel_across.value + SAME_MM) &&
                  (!machine->travel_in.given || part->depth + 5.0 <= machine->travel_in.value);
    double ratio = machine->ratio.value;
    bool holder = (!machine->holder_up.given || ratio * high + 2.0 * BOARD_WALL_MM <= machine->holder_up.value) &&
                  (!machine->holder_across.given || ratio * across + 2.0 * BOARD_WALL_MM <= machine->holder_across.value);
    bool table = !machine->table_lowest.given || part->wide / 2.0 + cutter_mm + 3.0 <= machine->table_lowest.value;
    return travel && holder && table;
}

static void choose_way(const tw_joint_context *context, const tw_lap *l, tw_lap_part *part)
{
    const tw_lap_spec *spec = l->spec;
    const tw_shop *shop = context->shop;
    part->cutter = spec->cutter.given ? tw_cutter_named(shop, spec->cutter.text) : tw_cutter_for_trench(shop, part->notch, part->depth);
    bool takes = part->cutter >= 0 && shop->cutters[part->cutter].cutting_length.value >= part->depth - SAME_MM && machine_takes(&shop->machine, l, part, shop->cutters[part->cutter].d_mm);
    part->sawn = spec->by.given ? spec->by.value == 1 : !takes && !spec->cutter.given;
}

bool tw_lap_possible(const tw_lap *l)
{
    const tw_lap_part *const parts[] = { &l->over, &l->under };
    const double least = 0.1;
    for (int i = 0; i < 2; i++) {
        const tw_lap_part *p = parts[i];
        if (!(p->depth > least && p->depth < p->thick - least && p->notch > least && (p->sawn || p->cutter >= 0))) return false;
        for (int k = 0; k < p->at->count; k++)
            if (p->at->items[k].value <= p->reach || p->at->items[k].value >= p->size.length_mm - p->reach) return false;
    }
    return l->over.depth + l->under.depth > l->room + least;
}

/* ---- cuts ---- */

tw_outline tw_lap_notch(tw_arena *arena, const tw_lap *l, const tw_lap_part *part, double x, double y, double over)
{
    double rise = part->wide / 2.0 + over, lean = rise * cotangent(l), half = part->span / 2.0;
    const tw_vertex corners[] = { { x - lean - half, y - rise, 0 }, { x - lean + half, y - rise, 0 }, { x + lean + half, y + rise, 0 }, { x + lean - half, y + rise, 0 } };
    return tw_outline_of_loop(arena, corners, 4);
}

static void cut_part(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l, const tw_lap_part *part)
{
    for (int i = 0; i < part->at->count; i++)
        tw_plan_cut(context, plan, (tw_cut){ .piece = part->index, .name = "notch", .face = part->side, .depth_mm = part->depth,
            .outline = tw_lap_notch(context->arena, l, part, part->at->items[i].value, part->wide / 2.0, 0.0) });
}

/* ---- how they stand ---- */

/* On the notched side of `under`, seen from outside, the length of `over` runs at the angle counter-clockwise, and its notched
 * side looks down on it: with r, u, n right, up and out of that side,
 *     right' = cos r + sin u,   out' = -n,   up' = out' x right' = sin r - cos u */
static tw_meeting meeting_at(const tw_lap *l, int over_place, int under_place)
{
    tw_frame side = tw_face_frame(l->under.side);
    double c = square(l) ? 0.0 : cos(l->angle), s = sin(l->angle);
    tw_frame there = { .right = tw_spot_plus(tw_spot_times(side.right, c), tw_spot_times(side.up, s)),
                       .up = tw_spot_plus(tw_spot_times(side.right, s), tw_spot_times(side.up, -c)), .out = tw_spot_times(side.out, -1.0) };
    tw_spot mine = tw_face_spot(l->over.size, l->over.side, l->over.at->items[over_place].value, l->over.wide / 2.0, l->over.depth);
    tw_spot home = tw_face_spot(l->under.size, l->under.side, l->under.at->items[under_place].value, l->under.wide / 2.0, l->under.depth - l->room);
    return (tw_meeting){ .mover = l->over.index, .base = l->under.index, .end = l->over.side, .place = under_place, .mover_place = over_place,
        .pose = tw_pose_of(tw_face_frame(l->over.side), there, mine, home), .leaves = side.out, .travel_mm = l->over.depth + l->under.depth - l->room,
        .held_by = l->glued ? "glue" : "", .for_good = l->glued };
}

static void plan_meetings(tw_joint_context *context, tw_joint_plan *plan, const tw_lap *l)
{
    for (int j = 0; j < l->under.at->count; j++)
        for (int i = 0; i < l->over.at->count; i++) tw_plan_meeting(context, plan, meeting_at(l, i, j));
}

/* ---- the plan ---- */

static void plan_lap(tw_joint_context *context, tw_joint_plan *plan, bool edge)
{
    tw_lap *l = begin(context, plan, edge);
    assert(context->shop && l->over.at->count > 0 && l->under.at->count > 0);
    plan->own = l;
    propose_crossing(context, plan, l);
    propose_depths(context, plan, l);
    note_part(context, plan, l, &l->over, &l->under, true);
    note_part(context, plan, l, &l->under, &l->over, false);
    note_level(context, plan, l);
    choose_way(context, l, &l->over);
    choose_way(context, l, &l->under);
    size_t halts = tw_findings_count(context->findings, TW_HALT);
    tw_lap_check(context, plan, l);
    if (!tw_lap_possible(l)) {
        assert(tw_findings_count(context->findings, TW_HALT) > halts);
        return;
    }
    cut_part(context, plan, l, &l->over);
    cut_part(context, plan, l, &l->under);
    plan_meetings(context, plan, l);
    tw_lap_works(context, plan, l);
}

static void plan_cross_lap(tw_joint_context *context, tw_joint_plan *plan) { plan_lap(context, plan, false); }
static void plan_edge_lap(tw_joint_context *context, tw_joint_plan *plan) { plan_lap(context, plan, true); }

const tw_joint_kind tw_cross_lap = {
    .format = { .kind = "cross lap",
                .meaning = "Two pieces cross flat on each other, each notched by half of its thickness, so that they lie in one plane; square or at an angle.",
                .keys = cross_keys, .key_count = (int)(sizeof cross_keys / sizeof *cross_keys), .spec_size = sizeof(tw_lap_spec) },
    .plan = plan_cross_lap,
    .draw = tw_lap_draw,
};

const tw_joint_kind tw_edge_lap = {
    .format = { .kind = "edge lap",
                .meaning = "Two boards cross on edge, each notched by half of its width from one edge, as the dividers of a crate do; square or at an angle.",
                .keys = edge_keys, .key_count = (int)(sizeof edge_keys / sizeof *edge_keys), .spec_size = sizeof(tw_lap_spec) },
    .plan = plan_edge_lap,
    .draw = tw_lap_draw,
};
