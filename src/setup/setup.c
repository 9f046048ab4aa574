// SPDX-License-Identifier: GPL-3.0-or-later
/* Setups of the copied cuts. The machine's frame: looking along the plunge, x to the right and y up, 0 at the machine's
 * centre. The cut's origin lies at X0 in it; the table lies below the centre; the stop left or right.
 *
 *     there  = (g - b)/(2r) + d/2      flank of the cutter, from the centre towards the edge, with the pin's baseline  (1)
 *     shift  = r (wanted - there)      of the template, towards the edge's side when positive                         (2)
 *
 * g reference pin, b follower, d cutter, r ratio; wanted: where the wall is to come, from the centre towards the edge. */
#include "setup/setup.h"

#include <assert.h>
#include <math.h>

#include "mech/mech.h"
#include "setup/task.h"

#define PASS_MM 3.2        // depth of one plunge: about 1/8 in (advisory, check 8-10 of the published ones)
#define OVER_DEPTH_MM 3.0  // room of the cutter's end above and below what it cuts
#define RULE_OVER_MM 150.0 // stops farther away are set with a rule: no drawer has such stacks, and a place along a piece needs none
#define UNDER_CUT_MM 3.0   // left of a sacrificial board below the cutter

double tw_flank_at_baseline_mm(double pin_mm, double follower_mm, double cutter_mm, double ratio)
{
    assert(ratio > 0.0);
    return (pin_mm - follower_mm) / (2.0 * ratio) + cutter_mm / 2.0;
}

double tw_shift_mm(double wanted_flank_mm, double pin_mm, double follower_mm, double cutter_mm, double ratio)
{
    return ratio * (wanted_flank_mm - tw_flank_at_baseline_mm(pin_mm, follower_mm, cutter_mm, ratio));
}

const char *tw_setup_say(const tw_setup_task *task, double length_mm) { return tw_length_text(task->arena, length_mm, task->job->figures); }

/* ---- where things lie ---- */

static double dot(tw_spot a, tw_spot b) { return a.x * b.x + a.y * b.y + a.z * b.z; }

static tw_spot cross(tw_spot a, tw_spot b)
{
    return (tw_spot){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

/* +1 when the side `end` of the piece lies to the right of one who looks at `face` with `down` on the table, -1 left, 0 neither. */
int tw_side_of(tw_face face, tw_face down, tw_face end)
{
    tw_spot below = tw_face_frame(down).out, out = tw_face_frame(face).out;
    tw_spot right = cross((tw_spot){ -below.x, -below.y, -below.z }, out);
    double side = dot(right, tw_face_frame(end).out);
    return side > 0.5 ? 1 : side < -0.5 ? -1 : 0;
}

tw_size tw_work_size(const tw_job *job, const tw_joint_plan *plan, const tw_work *work)
{
    if (work->piece >= 0) return tw_piece_size(&job->pieces[work->piece]);
    for (size_t i = 0; i < plan->part_count; i++)
        if (tw_text_is(tw_text_of(plan->parts[i].name), work->part)) return plan->parts[i].stick;
    return (tw_size){ 0 };
}

static void place(tw_setup_task *task)
{
    const tw_copy_want *want = &task->work->copy;
    task->stop_side = tw_side_of(task->work->face, task->work->down, want->stop_end);
    task->origin_x = want->stop_at_centre ? -task->stop_side * want->stop_to_origin_mm : 0.0;
    task->stop_x = want->stop_at_centre ? 0.0 : task->stop_side * want->stop_to_origin_mm;
    task->size = tw_work_size(task->job, task->plan, task->work);
}

/* ---- baseline and shift ---- */

/* The straight wall that the baseline is found with: the work's own, or for a centred cut its leftmost upright wall
 * (pocket), its rightmost (tenon: the pin touches the body from the right). Returns false when the cut has none. */
static bool baseline_wall(const tw_setup_task *task, double *x, int *side)
{
    const tw_copy_want *want = &task->work->copy;
    if (want->locate == TW_LOCATE_BASELINE) { *x = want->edge_x_mm; *side = want->edge_side; return true; }
    bool found = false;
    if (want->cut.count == 0) return false;
    tw_loop loop = want->cut.loops[0];
    for (int i = 0; i < loop.count; i++) {
        tw_vertex a = loop.vertices[i], b = loop.vertices[(i + 1) % loop.count];
        if (a.bulge != 0.0 || fabs(a.x - b.x) > 1e-9 || fabs(a.y - b.y) < 5.0) continue;
        if (!found || (want->inside ? a.x < *x : a.x > *x)) *x = a.x;
        found = true;
    }
    *side = -1;
    return found;
}

/* Largest pin of the shop that goes into the template's opening; -1 if none does. */
static int pin_for(const tw_setup_task *task)
{
    int best = -1;
    for (int i = 0; i < task->shop->pin_count; i++) {
        double g = task->shop->pins[i].diameter.value;
        if (best >= 0 && g <= task->shop->pins[best].diameter.value) continue;
        if (task->work->copy.inside &&
            tw_outline_offset(task->arena, task->template_->copy.template_, -g / 2.0).count == 0) continue;
        best = i;
    }
    return best;
}

void tw_as_maker_sees(const tw_machine *machine, int *x, int *y)
{
    if (machine->copy.value == 1) { *x = -*x; *y = -*y; }
    if (machine->seen_from.value == 1) *x = -*x;
}

static void stack_up(const tw_setup_task *task, tw_setting *setting, double size_mm, const char *between)
{
    const tw_shop *shop = task->shop;
    setting->between = between;
    if (size_mm < 0.0 || shop->spacer_count == 0) return;
    if (size_mm > TW_STACK_MOST_MM) {  // a slip in the job, or far out of the machine's reach
        tw_setup_finding(task, TW_CARE, "no-stack",
            tw_format(task->arena, "%s: a stack of %s is longer than any machine", setting->label, tw_setup_say(task, size_mm)),
            tw_format(task->arena, "look at the lengths of this joint: %s at most", tw_setup_say(task, TW_STACK_MOST_MM)));
        return;
    }
    setting->stack = tw_stack_find(task->arena, shop->spacers, shop->spacer_count, size_mm, shop->machine.spacer_tolerance.value, TW_STACK_NEAREST);
    setting->stacked = setting->stack.ok;
    if (setting->stack.ok) return;
    tw_setup_finding(task, TW_CARE, "no-stack",
        tw_format(task->arena, "%s: the shop's spacers make no stack of %s%s%s", setting->label, tw_setup_say(task, size_mm),
                  setting->stack.has_below ? tw_format(task->arena, "; the nearest below is %s", tw_setup_say(task, setting->stack.below_mm)) : "",
                  setting->stack.has_above ? tw_format(task->arena, "; the nearest above is %s", tw_setup_say(task, setting->stack.above_mm)) : ""),
        "set it with a rule or a caliper, or add a spacer to the shop");
}

static void set_baseline(tw_setup_task *task)
{
    tw_arena *arena = task->arena;
    tw_setup *setup = task->setup;
    double wall_x = 0.0;
    int side = -1;
    if (!baseline_wall(task, &wall_x, &side)) return;
    setup->pin = pin_for(task);
    if (setup->pin < 0) {
        tw_setup_finding(task, TW_CARE, "no-pin", "the shop has no reference pin that goes into this template: its baseline cannot be found by touch",
            "a pin (or a drill's shank) smaller than the opening, or set the template by its centre lines");
        return;
    }
    const tw_pin *pin = &task->shop->pins[setup->pin];
    double g = pin->diameter.value, b = task->b, d = task->d, r = task->r;
    double wanted = side * (task->origin_x + wall_x), there = tw_flank_at_baseline_mm(g, b, d, r), shift = tw_shift_mm(wanted, g, b, d, r);
    int edge_x = side, none = 0;
    tw_as_maker_sees(&task->shop->machine, &edge_x, &none);
    bool inside = task->work->copy.inside;
    const char *wall = task->work->copy.wall_word && task->work->copy.wall_word[0] ? task->work->copy.wall_word
                     : inside ? (edge_x < 0 ? "left wall" : "right wall") : edge_x < 0 ? "right side" : "left side";
    setup->baseline = (tw_setting){ .used = true, .label = "baseline", .value_mm = g / 2.0, .direction_x = edge_x,
        .sum = tw_format(arena, "Let the %s of the template touch %s at the machine's centre, the pin %s: that edge is then %s/2 = %s from the centre.",
            wall, pin->name, inside ? "inside the opening" : "outside the body", tw_setup_say(task, g), tw_setup_say(task, g / 2.0)),
        .between = "" };
    setup->shift = (tw_setting){ .used = true, .label = "shift", .value_mm = fabs(shift), .direction_x = shift < 0.0 ? -edge_x : edge_x,
        .sum = tw_format(arena, "The flank wanted at %s from the centre; with the baseline it stands at (pin - follower)/(2 x ratio) + cutter/2 = (%s - %s)/%g + %s/2 = %s. "
            "Shift = ratio x (wanted - there) = %g x (%s - %s) = %s.",
            tw_setup_say(task, wanted), tw_setup_say(task, g), tw_setup_say(task, b), 2.0 * r, tw_setup_say(task, d), tw_setup_say(task, there),
            r, tw_setup_say(task, wanted), tw_setup_say(task, there), tw_setup_say(task, shift)) };
    stack_up(task, &setup->shift, fabs(shift),
        "between the fixed stop of the template holder and the template's edge: first the template against the pin, stop up to it and locked; then the stack between, template up to it and locked");
}

/* ---- table, stop, depth ---- */

/* What a cradle's wedge is fixed on: a board in the maker's own round size. */
static double cradle_board_mm(const tw_setup_task *task)
{
    return task->job->inch_sizes ? 0.75 * TW_MM_PER_INCH : 18.0;
}

static void set_table(tw_setup_task *task)
{
    tw_arena *arena = task->arena;
    const tw_machine *machine = &task->shop->machine;
    const tw_copy_want *want = &task->work->copy;
    tw_setup *setup = task->setup;
    bool cradled = task->work->cradle.used;
    double height = want->down_to_origin_mm, packing = cradled ? cradle_board_mm(task) : 0.0;
    const char *why = cradled ? "the cradle's own board" : "";
    if (want->overhang_low_mm > 0.0) {
        packing = want->overhang_low_mm + UNDER_CUT_MM;
        why = tw_format(arena, "the cutter reaches %s below the piece: a sacrificial board", tw_setup_say(task, want->overhang_low_mm));
    }
    if (height + packing < machine->table_highest.value) {
        packing = machine->table_highest.value - height;
        why = cradled ? why : "the table does not come up so far";
    }
    if (machine->table_step.value > 0.0) {
        double stepped = ceil((height + packing) / machine->table_step.value - 1e-9) * machine->table_step.value;
        if (stepped - height - packing > 1e-6) why = packing > 0.0 ? why : "the table goes in steps";
        packing = stepped - height;
    }
    setup->packing_mm = packing > 1e-6 ? packing : 0.0;
    setup->packing_why = setup->packing_mm > 0.0 ? why : "";
    double table = height + setup->packing_mm, shank = task->cutter->shank.given ? task->cutter->shank.value : 0.0;
    setup->table = (tw_setting){ .used = true, .label = "table height", .value_mm = table, .direction_y = -1,
        .sum = cradled
            ? tw_format(arena, "In the cradle the middle of the cut is %s above the lowest arris of the side that lies down, on a board of %s: together %s below the cutter's centre; with another board by the difference.",
                  tw_setup_say(task, height), tw_setup_say(task, setup->packing_mm), tw_setup_say(task, table))
            : setup->packing_mm > 0.0
            ? tw_format(arena, "The middle of the cut is %s above the side that lies down, and %s of packing: the table is %s below the cutter's centre.",
                  tw_setup_say(task, height), tw_setup_say(task, setup->packing_mm), tw_setup_say(task, table))
            : tw_format(arena, "The middle of the cut is %s above the side that lies down: the table lies so far below the cutter's centre.", tw_setup_say(task, table)) };
    if (shank > 0.0 && table - shank / 2.0 > 0.0) {
        setup->table.sum = tw_format(arena, "%s Under a shank of %s the stack is %s - %s/2 = %s.", setup->table.sum, tw_setup_say(task, shank),
            tw_setup_say(task, table), tw_setup_say(task, shank), tw_setup_say(task, table - shank / 2.0));
        stack_up(task, &setup->table, table - shank / 2.0, "between the table and the under side of the cutter's shank, with the carriage locked at the machine's centre");
    }
}

static void set_stop(tw_setup_task *task)
{
    tw_arena *arena = task->arena;
    const tw_copy_want *want = &task->work->copy;
    tw_setup *setup = task->setup;
    double away = fabs(task->stop_x), shank = task->cutter->shank.given ? task->cutter->shank.value : 0.0;
    if (task->stop_side == 0) return;
    const char *way = task->stop_x > 0.0 || (away == 0.0 && task->stop_side > 0) ? "right" : "left";
    setup->stop = (tw_setting){ .used = true, .label = "stop", .value_mm = away, .direction_x = task->stop_x > 0.0 ? 1 : task->stop_x < 0.0 ? -1 : task->stop_side,
        .sum = want->stop_at_centre
            ? tw_format(arena, "The face of the stop lies on the machine's centre line; it holds the %s, on the %s.", want->stop_word, way)
            : tw_format(arena, "The face of the stop is %s to the %s of the machine's centre; it holds the %s.", tw_setup_say(task, away), way, want->stop_word) };
    if (task->work->cradle.used) {
        setup->stop.sum = tw_format(arena, "The stop is fixed to the cradle, %s along it from the middle of the cut; it holds the %s, on the %s.", tw_setup_say(task, away), want->stop_word, way);
        setup->stop.between = "along the cradle, with a steel rule";
    } else if (want->stop_at_centre)
        setup->stop.between = shank > 0.0
            ? tw_format(arena, "bring the stop's face up to the cutter's shank, with the carriage locked at the machine's centre; then half of the shank (%s) farther, so that it lies on the centre", tw_setup_say(task, shank / 2.0))
            : "bring the stop's face up to the reference pin at the machine's centre, then half of the pin farther, so that it lies on the centre";
    else if (away > RULE_OVER_MM)
        setup->stop.between = "with a steel rule from the machine's centre line, to the limits of the joint's place on the piece";
    else if (away - shank / 2.0 > 0.0)
        stack_up(task, &setup->stop, away - shank / 2.0, tw_format(arena, "between the stop and the flank of the cutter's shank (%s less half of the shank), with the carriage locked at the machine's centre",
            tw_setup_say(task, away)));
}

static void set_depth(tw_setup_task *task)
{
    const tw_copy_want *want = &task->work->copy;
    tw_setup *setup = task->setup;
    setup->depth = (tw_setting){ .used = true, .label = "depth", .value_mm = want->depth_mm,
        .sum = tw_format(task->arena, want->dovetail_rad > 0.0 ? "Zero the cutter's tip on the %s itself, then, beside the wood, set it %s deeper%s."
            : "Zero the cutter on the %s itself, then plunge %s%s.", want->zero_word ? want->zero_word : tw_face_words[task->work->face], tw_setup_say(task, want->depth_mm),
            want->both_faces ? " from each side" : "") };
    stack_up(task, &setup->depth, want->depth_mm, "between the depth stop and its block, the cutter's end touching the zeroed face");
    double pass = want->dovetail_rad > 0.0 ? want->depth_mm : tw_min(PASS_MM, task->d / 2.0);  // a dovetail cutter: in one pass
    setup->passes = (int)ceil(want->depth_mm / pass - 1e-9);
    setup->pass_mm = want->depth_mm / setup->passes;
    bool near_shoulder = want->shoulder_mm > 0.0 && want->shoulder_away_mm < task->shop->machine.nut_radius.value;
    setup->stick_out_mm = want->depth_mm + (near_shoulder ? want->shoulder_mm : 0.0) + OVER_DEPTH_MM;
    setup->stick_out_sum = tw_format(task->arena, "depth%s + %s to spare = %s%s + %s", near_shoulder ? " + the shoulder that the nut must clear" : "",
        tw_setup_say(task, OVER_DEPTH_MM), tw_setup_say(task, want->depth_mm),
        near_shoulder ? tw_format(task->arena, " + %s", tw_setup_say(task, want->shoulder_mm)) : "", tw_setup_say(task, OVER_DEPTH_MM));
}

/* ---- feed and cautions ---- */

/* How the cutter comes into the wood. Inside: down, within the template. Outside: a rim leaves no room beside the wood, so that a
 * cutter whose end cuts goes down into the waste; another must come in from the side. */
static const char *entry_words(const tw_setup_task *task)
{
    if (task->work->copy.dovetail_rad > 0.0)
        return "A dovetail cutter is set to its full depth beside the wood, with the motor off; it goes in and comes out at an open edge, the motor running: "
               "never plunge it, and never lift it over the wood, for its tip is wider than the cut above it";
    if (task->work->copy.inside) return "Cutter that cuts at its end; follower inside the template before the plunge";
    bool rim = task->template_->rim_mm > 0.0;
    if (task->cutter->plunges.value)
        return rim ? "Plunge into the waste, the follower out at the rim and off the body, then work inward"
                   : "Plunge beside the wood or into the waste, the follower off the body, then work inward";
    return rim ? "This cutter does not cut at its end: leave the rim open at one side, go down beside the wood there and come in from the outside"
               : "This cutter does not cut at its end: go down beside the wood, the follower off the body, and come in from the outside";
}

static const char *pass_words(const tw_setup_task *task)
{
    const tw_setup *setup = task->setup;
    if (task->work->copy.dovetail_rad > 0.0) return "";
    return tw_format(task->arena, "; %d plunge%s of %s at most", setup->passes, setup->passes == 1 ? "" : "s", tw_setup_say(task, setup->pass_mm));
}

static void set_feed(tw_setup_task *task)
{
    tw_setup *setup = task->setup;
    const char *hand = task->job->figures.style == TW_FIGURES_MM ? "100 mm" : "4 in";
    bool inside = task->work->copy.inside, seen_back = task->shop->machine.seen_from.value == 1;
    setup->feed_clockwise = inside != seen_back;
    setup->feed = tw_format(task->arena, "Follower round the %s of the template %s, as you see it: against the turn of the cutter.", inside ? "inside" : "outside",
        setup->feed_clockwise ? "clockwise" : "counter-clockwise");
    tw_box cut = tw_outline_bounds(task->work->copy.cut);
    tw_size extent = tw_face_extent(task->size, task->work->face);
    bool leaves = cut.y1 - cut.y0 > extent.width_mm || task->work->copy.overhang_low_mm > 0.0 || task->runs_past_end_mm > 0.0 || task->work->copy.edge_side != 0;
    bool through = task->work->copy.inside && task->work->copy.depth_mm >= extent.thickness_mm;
    setup->breakout = !inside ? "The cutter leaves the wood at its sides: clamp a strip against the side where it comes out, level with the end."
        : through ? "The cutter comes out behind: clamp a backing board there, fresh wood for each new place."
        : leaves ? "The cutter leaves the wood at its edges: clamp a strip against the edge where it comes out, level with what is cut."
        : "The cutter stays inside the wood.";
    setup->cautions = tw_format(task->arena,
        "%s%s%s%s.\n"
        "Both hands on the handles, never within %s of the cutter; the piece is clamped, not held.\n"
        "Eyes, ears and dust; the plug is out while a cutter is changed; not over %.0f rpm.",
        task->work->cautions, task->work->cautions[0] ? "\n" : "",
        entry_words(task), pass_words(task), hand, setup->speed_rpm);
    if (task->runs_past_end_mm > 0.0)
        setup->cautions = tw_format(task->arena, "The cutter runs %s past the stop: swing the stop away when the piece is clamped, before the motor is on.\n%s",
            tw_setup_say(task, task->runs_past_end_mm), setup->cautions);
}

static void set_speed(tw_setup_task *task)
{
    double speed = tw_router_speed_most_rpm(task->d);
    const tw_machine *machine = &task->shop->machine;
    const char *sum = speed > 0.0 ? tw_format(task->arena, "the least of %.0f advised for a cutter of %s", speed, tw_setup_say(task, task->d))
                                  : tw_format(task->arena, "no speed is advised for a cutter of %s: it is too large", tw_setup_say(task, task->d));
    if (task->cutter->top_speed.given) {
        speed = tw_min(speed, task->cutter->top_speed.value);
        sum = tw_format(task->arena, "%s, the cutter's %.0f", sum, task->cutter->top_speed.value);
    }
    if (machine->top_speed.given) {
        speed = tw_min(speed, machine->top_speed.value);
        sum = tw_format(task->arena, "%s, the machine's %.0f", sum, machine->top_speed.value);
    }
    task->setup->speed_sum = sum;
    task->setup->speed_rpm = speed;
}

/* ---- all of them ---- */

static void set_up(tw_setup_task *task)
{
    task->setup->pin = -1;
    place(task);
    set_speed(task);
    set_baseline(task);
    set_table(task);
    set_stop(task);
    set_depth(task);
    tw_setup_check(task);
    set_feed(task);
}

tw_setups tw_setups_make(tw_arena *arena, const tw_job *job, const tw_shop *shop, const tw_joint_plan *plans, int plan_count,
                         const tw_templates *templates, tw_findings *findings)
{
    tw_setups setups = { 0 };
    size_t most = 0;
    for (int i = 0; i < plan_count; i++) most += plans[i].work_count;
    setups.items = TW_NEW_ARRAY(arena, tw_setup, most);
    for (int i = 0; i < plan_count; i++)
        for (size_t j = 0; j < plans[i].work_count; j++) {
            const tw_template *template_ = tw_template_of(templates, i, (int)j);
            if (!plans[i].works[j].copied || !template_) continue;
            int cutter = tw_template_cutter(templates, i, (int)j);
            tw_setup *setup = &setups.items[setups.count++];
            *setup = (tw_setup){ .name = tw_format(arena, "S%d", setups.count), .plan = i, .work = (int)j,
                .template_index = (int)(template_ - templates->items), .cutter = cutter, .follower = template_->follower,
                .template_turned = tw_template_turned(templates, i, (int)j), .packing_why = "", .feed = "", .breakout = "", .keeps = "", .cautions = "" };
            tw_setup_task task = { .arena = arena, .job = job, .shop = shop, .plan = &plans[i], .work = &plans[i].works[j], .template_ = template_,
                .setup = setup, .findings = findings, .cutter = &shop->cutters[cutter], .d = shop->cutters[cutter].d_mm,
                .b = shop->followers[template_->follower].b_mm + template_->copy.play_mm, .r = shop->machine.ratio.value };
            set_up(&task);
        }
    return setups;
}
