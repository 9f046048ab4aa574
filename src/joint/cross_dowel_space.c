// SPDX-License-Identifier: GPL-3.0-or-later
/* Cross dowel and bolt: the parts themselves, and where they sit.
 *
 *     depth behind the far side:   0 ... k          counterbore; on its bottom the washer, on that the bolt's head
 *     tip of the bolt              k - washer + L
 *     cross dowel                  in the rail, s from its end, its middle on the bolt's axis
 *     pegs                         in the rail's end, peg_depth deep and as much proud
 *
 * From memory, for pictures only: a socket head 1.6 d across, its key 0.8 d wide and d/2 deep; a washer's hole 0.4 mm over the
 * bolt (ISO 4762, ISO 7093-1, nearly). Threads are not drawn. */
#include "joint/cross_dowel.h"

#include <math.h>
#include <string.h>

#include "joint/lodge.h"
#include "piece/pose.h"

#define SOCKET_HEAD 1.6      // across, in bolts
#define SOCKET_KEY 0.8       // from flat to flat
#define SOCKET_DEEP 0.5
#define WASHER_PLAY_MM 0.4
#define SLOT_WIDE (1.0 / 6.0)    // of the cross dowel, for the screwdriver: common practice
#define SLOT_DEEP (1.0 / 8.0)

static tw_outline circle(tw_arena *arena, double across_mm)
{
    return tw_outline_circle(arena, (tw_point){ 0, 0 }, across_mm / 2.0);
}

static tw_cut hole(const char *name, tw_face face, double depth_mm, tw_outline outline)
{
    return (tw_cut){ .piece = -1, .joint = -1, .name = name, .face = face, .depth_mm = depth_mm, .outline = outline };
}

/* ---- shapes ---- */

static void round_rod(tw_arena *arena, tw_part *part)
{
    tw_size rod = part->finished;
    tw_cut outside = tw_lodge_turned(arena, rod, TW_SIDE_LEFT_END, rod.length_mm, circle(arena, rod.width_mm));
    tw_lodge_cuts(arena, part, &outside, 1);
}

/* From the tip: the shank, L long; from the other end the head. */
static void bolt(tw_arena *arena, const tw_bolted *j, tw_part *part)
{
    bool socket = j->spec->head.value == TW_HEAD_SOCKET;
    double d = j->size.diameter, corners = 2.0 / sqrt(3.0) * j->size.spanner, round = SOCKET_HEAD * d;
    tw_size blank = { j->length + j->head, socket ? round : corners, socket ? round : j->size.spanner };
    tw_outline head = socket ? circle(arena, round) : tw_lodge_hexagon(arena, j->size.spanner);
    tw_outline key = tw_outline_moved(arena, tw_lodge_hexagon(arena, SOCKET_KEY * d), blank.width_mm / 2.0, blank.thickness_mm / 2.0);
    const tw_cut cuts[] = {
        tw_lodge_turned(arena, blank, TW_SIDE_LEFT_END, j->length, circle(arena, d)),
        tw_lodge_turned(arena, blank, TW_SIDE_RIGHT_END, j->head, head),
        hole("socket", TW_SIDE_RIGHT_END, SOCKET_DEEP * d, key) };
    part->blank = blank;
    tw_lodge_cuts(arena, part, cuts, socket ? 3 : 2);
}

static void washer(tw_arena *arena, const tw_bolted *j, tw_part *part)
{
    double middle = j->washer / 2.0, thick = part->finished.length_mm;
    tw_outline around = circle(arena, j->size.diameter + WASHER_PLAY_MM);
    tw_cut cuts[] = {
        tw_lodge_turned(arena, part->finished, TW_SIDE_LEFT_END, thick, circle(arena, j->washer)),
        hole("hole", TW_SIDE_LEFT_END, thick, tw_outline_moved(arena, around, middle, middle)) };
    cuts[1].through = true;
    tw_lodge_cuts(arena, part, cuts, 2);
}

/* Its thread goes from face to back, across its middle; the slot at its outer end runs the same way. */
static void cross_dowel(tw_arena *arena, const tw_bolted *j, tw_part *part)
{
    double middle = j->dd / 2.0, half = SLOT_WIDE * j->dd / 2.0;
    tw_cut cuts[] = {
        tw_lodge_turned(arena, part->finished, TW_SIDE_LEFT_END, j->dl, circle(arena, j->dd)),
        hole("thread", TW_SIDE_FACE, j->dd, tw_outline_moved(arena, circle(arena, j->size.diameter), j->dl / 2.0, middle)),
        hole("slot", TW_SIDE_RIGHT_END, SLOT_DEEP * j->dd,
             tw_outline_rectangle(arena, middle - half, -1.0, middle + half, j->dd + 1.0)) };
    cuts[1].through = true;
    tw_lodge_cuts(arena, part, cuts, 3);
}

void tw_bolted_shapes(tw_arena *arena, tw_joint_plan *plan, const tw_bolted *j)
{
    for (size_t i = 0; i < plan->part_count; i++) {
        tw_part *part = &plan->parts[i];
        if (strcmp(part->name, "bolt") == 0) bolt(arena, j, part);
        else if (strcmp(part->name, "washer") == 0) washer(arena, j, part);
        else if (strcmp(part->name, "cross dowel") == 0) cross_dowel(arena, j, part);
        else round_rod(arena, part);
    }
}

/* ---- where they sit ---- */

typedef struct site { tw_joint_context *context; tw_joint_plan *plan; const tw_bolted *j; int meeting; } site;

static void lodge(const site *at, const char *name, tw_lodging lodging)
{
    lodging.part = tw_lodge_part(at->plan, name);
    lodging.meeting = at->meeting;
    if (lodging.part >= 0) tw_plan_lodging(at->context, at->plan, lodging);
}

static tw_size blank_of(const site *at, const char *name)
{
    int part = tw_lodge_part(at->plan, name);
    return part < 0 ? (tw_size){ 0 } : tw_part_blank(&at->plan->parts[part]);
}

static const tw_meeting *meeting_of(const site *at) { return &at->plan->meetings[at->meeting]; }

static double rail_end(const site *at) { return meeting_of(at)->end == TW_SIDE_RIGHT_END ? at->j->a.length_mm : 0.0; }

/* Bolt and washer come out at the far side of the post; the bolt goes on until it is clear of the washer. */
static void lodge_bolt(const site *at)
{
    const tw_bolted *j = at->j;
    tw_frame frame = tw_face_frame(j->far_);
    tw_spot axis = tw_face_place(j->b, j->far_, tw_pose_apply(meeting_of(at)->pose, (tw_spot){ rail_end(at), j->y, j->z }));
    double deep = j->k - j->size.washer_thick + j->length;
    tw_spot tip = tw_face_spot(j->b, j->far_, axis.x, axis.y, deep), bottom = tw_face_spot(j->b, j->far_, axis.x, axis.y, j->k);
    lodge(at, "bolt", (tw_lodging){ .pose = tw_lodge_pose(blank_of(at, "bolt"), tip, frame.out, frame.up), .leaves = frame.out,
        .travel_mm = deep + j->washer });
    lodge(at, "washer", (tw_lodging){ .pose = tw_lodge_pose(blank_of(at, "washer"), bottom, frame.out, frame.up), .leaves = frame.out,
        .travel_mm = j->k });
}

static void lodge_dowel(const site *at)
{
    const tw_bolted *j = at->j;
    tw_pose rail = meeting_of(at)->pose;
    tw_spot out = tw_face_frame(j->dowel_face).out, middle = { fabs(rail_end(at) - j->s), j->y, j->z };
    tw_spot bottom = tw_spot_less(middle, tw_spot_times(out, j->dl / 2.0));
    tw_pose in_rail = tw_lodge_pose(blank_of(at, "cross dowel"), bottom, out, (tw_spot){ 1, 0, 0 });
    lodge(at, "cross dowel", (tw_lodging){ .pose = tw_pose_compose(rail, in_rail), .leaves = tw_pose_turn(rail, out),
        .travel_mm = j->dowel_depth, .in_mover = true });
}

static void lodge_pegs(const site *at)
{
    const tw_bolted *j = at->j;
    const tw_meeting *meeting = meeting_of(at);
    double off[TW_BOLTED_PEGS_MOST];
    int pegs = tw_bolted_peg_spots(j, off);
    for (int i = 0; i < pegs; i++) {
        tw_spot from = { rail_end(at) - j->peg_depth, j->y + off[i], j->z };
        tw_pose in_rail = tw_lodge_pose(blank_of(at, "peg"), from, (tw_spot){ 1, 0, 0 }, (tw_spot){ 0, 0, 1 });
        lodge(at, "peg", (tw_lodging){ .pose = tw_pose_compose(meeting->pose, in_rail),
            .leaves = tw_spot_times(meeting->leaves, -1.0), .travel_mm = j->peg_depth, .in_mover = true, .fast = true });
    }
}

void tw_bolted_lodgings(tw_joint_context *context, tw_joint_plan *plan, const tw_bolted *j)
{
    for (size_t i = 0; i < plan->meeting_count; i++) {
        site at = { context, plan, j, (int)i };
        lodge_bolt(&at);
        lodge_dowel(&at);
        lodge_pegs(&at);
    }
}
