// SPDX-License-Identifier: GPL-3.0-or-later
/* What the machine refuses: the cutter meeting table, stop or shoulder, a plunge longer than the cutter, travel and
 * holder too small, wood too short to hold. Each says by how much, and what mends it. */
#include "joint/fix.h"
#include "setup/task.h"

#include <math.h>
#include <string.h>

#define NUT_CLEAR_MM 1.0     // between the collet nut and the wood
#define PLUNGE_CLEAR_MM 5.0  // above the wood, before the plunge

void tw_setup_finding(const tw_setup_task *task, tw_level level, const char *code, const char *what, const char *remedy)
{
    const tw_joint *joint = task->plan->joint;
    tw_find(task->findings, level, joint->place, code, joint->name, tw_format(task->arena, "%s: %s", task->work->name, what), remedy);
    if (level < TW_HALT) return;
    tw_joint_context context = { .arena = task->arena, .job = task->job, .shop = task->shop, .findings = task->findings };
    tw_plan_fix_tools(&context, task->plan);
    if (strcmp(code, "holder-narrow") == 0 || strcmp(code, "travel-across-short") == 0) tw_plan_fix_other_word(&context,
        task->plan, "set from");
}

static void check_table(const tw_setup_task *task)
{
    const tw_machine *machine = &task->shop->machine;
    double too_low = task->setup->table.value_mm - machine->table_lowest.value;
    if (machine->table_lowest.given && too_low > 1e-6)
        tw_setup_finding(task, TW_HALT, "table-too-high",
            tw_format(task->arena, "the table would have to stand %s below the cutter's centre, %s lower than it goes", tw_setup_say(task, task->setup->table.value_mm), tw_setup_say(task, too_low)),
            task->setup->packing_mm > 0.0 ? "lay another side down, so that the cutter leaves the wood above" : "lay another side down, or carry the piece beside the table");
    if (task->work->copy.overhang_low_mm > 0.0)
        tw_setup_finding(task, TW_CARE, "cutter-below-piece",
            tw_format(task->arena, "the cutter reaches %s below the piece and would meet the table", tw_setup_say(task, task->work->copy.overhang_low_mm)),
            tw_format(task->arena, "a sacrificial board of %s under it; the table height on the card counts it in", tw_setup_say(task, task->setup->packing_mm)));
}

static void check_depth(const tw_setup_task *task)
{
    tw_arena *arena = task->arena;
    const tw_machine *machine = &task->shop->machine;
    const tw_copy_want *want = &task->work->copy;
    double over = want->depth_mm - task->cutter->cutting_length.value;
    if (over > 1e-9)
        tw_setup_finding(task, TW_HALT, "plunge-too-deep",
            tw_format(arena, "the plunge of %s is %s more than the cutting length of %s", tw_setup_say(task, want->depth_mm), tw_setup_say(task, over), task->cutter->name),
            want->both_faces ? "a longer cutter" : "a longer cutter, or cut from both sides");
    double travel = want->depth_mm + PLUNGE_CLEAR_MM - machine->travel_in.value;
    if (machine->travel_in.given && travel > 1e-9)
        tw_setup_finding(task, TW_HALT, "travel-in-short",
            tw_format(arena, "the plunge of %s with its lead is %s more than the machine's travel", tw_setup_say(task, want->depth_mm), tw_setup_say(task, travel)), "cut from both sides, or less deep");
    bool under_nut = want->shoulder_mm > 0.0 && want->shoulder_away_mm < machine->nut_radius.value;
    double needed = want->depth_mm + want->shoulder_mm + NUT_CLEAR_MM, too_short = needed - task->cutter->cutting_length.value;
    if (under_nut && too_short > 1e-9)
        tw_setup_finding(task, TW_HALT, "nut-meets-shoulder",
            tw_format(arena, "the collet nut would meet the shoulder, which stands %s above the cut and %s from the cutter: the cutter is %s too short",
                      tw_setup_say(task, want->shoulder_mm), tw_setup_say(task, want->shoulder_away_mm), tw_setup_say(task, too_short)),
            tw_format(arena, "a cutter that stands out %s, or a shallower shoulder", tw_setup_say(task, needed)));
}

static void check_travel(const tw_setup_task *task)
{
    tw_arena *arena = task->arena;
    const tw_machine *machine = &task->shop->machine;
    tw_box path = tw_outline_bounds(task->template_->copy.cutter_path);
    if (task->setup->template_turned) {
        double left = -path.x1;
        path.x1 = -path.x0;
        path.x0 = left;
    }
    double across = tw_max(fabs(path.x0 + task->origin_x), fabs(path.x1 + task->origin_x)), up = tw_max(fabs(path.y0), fabs(path.y1));
    double over = across - machine->travel_across.value / 2.0;
    if (machine->travel_across.given && over > 1e-9)
        tw_setup_finding(task, TW_HALT, "travel-across-short",
            tw_format(arena, "the cutter must go %s from the machine's centre, %s farther than it can", tw_setup_say(task, across), tw_setup_say(task, over)),
            task->work->copy.stop_at_centre ? "set the piece from its other reference (`set from: end` or `shoulder`), or a shorter tenon" : "a smaller cut, or cut it in two setups");
    over = up - machine->travel_up.value / 2.0;
    if (machine->travel_up.given && over > 1e-9)
        tw_setup_finding(task, TW_HALT, "travel-up-short",
            tw_format(arena, "the cutter must go %s up and down from the machine's centre, %s farther than it can", tw_setup_say(task, up), tw_setup_say(task, over)),
            "lay the longer side of the cut across, or a smaller cut");
    tw_box board = tw_outline_bounds(task->template_->board_view);
    double reach = (board.x1 - board.x0) / 2.0 + fabs(task->r * task->origin_x);  // its middle ends r times the origin's place off
    over = reach - machine->holder_across.value / 2.0;
    if (machine->holder_across.given && over > 1e-9)
        tw_setup_finding(task, TW_HALT, "holder-narrow",
            tw_format(arena, "the template, shifted, reaches %s from the centre of its holder, %s too far", tw_setup_say(task, reach), tw_setup_say(task, over)),
            task->work->copy.stop_at_centre ? "set the piece from its other reference (`set from: end` or `shoulder`)" : "a reference pin nearer to the follower's size");
}

static void check_piece(tw_setup_task *task)
{
    tw_arena *arena = task->arena;
    const tw_machine *machine = &task->shop->machine;
    const tw_copy_want *want = &task->work->copy;
    double length = task->size.length_mm;
    if (machine->smallest_piece.given && length < machine->smallest_piece.value - 1e-9)
        tw_setup_finding(task, TW_HALT, "piece-too-short",
            tw_format(arena, "%s is %s long: %s too short to be held safely", task->work->piece >= 0 ? task->job->pieces[task->work->piece].name : task->work->part,
                      tw_setup_say(task, length), tw_setup_say(task, machine->smallest_piece.value - length)),
            "cut it while it is part of a longer stick");
    if (task->stop_side == 0 || want->stop_end < TW_SIDE_LEFT_END) return;
    tw_box cut = tw_outline_bounds(want->cut);
    double to_stop = task->stop_side > 0 ? cut.x1 : -cut.x0, inward = task->stop_side > 0 ? -cut.x0 : cut.x1;
    if (want->stop_to_origin_mm > 0.0) task->runs_past_end_mm = tw_max(0.0, to_stop - want->stop_to_origin_mm);
    double origin_from_end = want->stop_to_origin_mm;
    double clear = tw_max(length - origin_from_end - inward, origin_from_end - to_stop);
    if (machine->clamp_zone.given && want->stop_to_origin_mm > 0.0 && clear < machine->clamp_zone.value - 1e-9)
        tw_setup_finding(task, TW_HALT, "no-room-for-clamp",
            tw_format(arena, "beside the cut only %s are free for a clamp, %s too little", tw_setup_say(task, tw_max(0.0, clear)), tw_setup_say(task, machine->clamp_zone.value - clear)),
            "cut it while it is part of a longer stick, or screw it to a longer board");
}

static void check_speed(const tw_setup_task *task)
{
    const tw_machine *machine = &task->shop->machine;
    if (task->setup->speed_rpm <= 0.0)
        tw_setup_finding(task, TW_HALT, "cutter-too-large",
            tw_format(task->arena, "no published chart has a speed for a cutter of %s", tw_setup_say(task, task->d)), "a cutter of at most 88.9 mm (3 1/2 in)");
    else if (machine->low_speed.given && machine->low_speed.value > task->setup->speed_rpm)
        tw_setup_finding(task, TW_HALT, "too-fast",
            tw_format(task->arena, "%s may turn at %.0f rpm at most, the machine's lowest speed is %.0f", task->cutter->name, task->setup->speed_rpm, machine->low_speed.value),
            "a smaller cutter");
    const char *plunge_why = task->work->copy.inside && task->work->copy.dovetail_rad == 0.0 && task->cutter->plunges.value == 0 ? "its end does not cut" : NULL;
    if (plunge_why)
        tw_setup_finding(task, TW_HALT, "cutter-does-not-plunge", tw_format(task->arena, "%s cannot plunge into a pocket: %s", task->cutter->name, plunge_why), "a cutter whose end cuts");
}

void tw_setup_check(tw_setup_task *task)
{
    check_table(task);
    check_depth(task);
    check_travel(task);
    check_piece(task);
    check_speed(task);
}
