// SPDX-License-Identifier: GPL-3.0-or-later
/* The equations are those of trial.h. The machine's frame is that of setup.c: looking along the plunge, x to the right, y up. */
#include "setup/trial.h"

#include "setup/task.h"

#include <math.h>

#define NEAR_MM 0.1        // depth and place of a cut, where no work sets its own limits: common practice
#define CENTRED_MM 0.05    // a cut counts as centred within this: half of the usual clearance of a dry tenon, common practice
#define SAME_MM 1e-6
#define STACK_PART 0.2     // a stack for a small move may be off by this part of it

typedef struct trial {
    tw_arena            *arena;
    const tw_trial_ask  *ask;
    const tw_work       *work;   // NULL: a step of the whole job
    const tw_copy_want  *want;   // NULL: not copied
    const tw_template   *template_;
    const tw_setup      *setup;  // NULL: none
    const tw_cutter     *cutter;
    const tw_follower   *follower;
    double               r;
    tw_trial             made;
} trial;

static trial trial_begin(tw_arena *arena, const tw_trial_ask *ask)
{
    trial t = { .arena = arena, .ask = ask, .r = ask->shop->machine.ratio.value };
    if (ask->plan < 0 || ask->work < 0) return t;
    t.work = &ask->plans[ask->plan].works[ask->work];
    if (t.work->copied) t.want = &t.work->copy;
    t.template_ = tw_template_of(ask->templates, ask->plan, ask->work);
    if (ask->setup >= 0) t.setup = &ask->setups->items[ask->setup];
    if (t.setup && t.setup->cutter >= 0) t.cutter = &ask->shop->cutters[t.setup->cutter];
    if (t.setup && t.setup->follower >= 0) t.follower = &ask->shop->followers[t.setup->follower];
    return t;
}

/* ---- words ---- */

/* Errors are small: one figure finer than the job writes. */
static const char *say(const trial *t, double length_mm)
{
    tw_figures fine = t->ask->job->figures;
    if (fine.style == TW_FIGURES_FRACTION) fine = (tw_figures){ TW_FIGURES_INCH, 3, 64 };
    else if (fine.style == TW_FIGURES_MM && fine.decimals < 2) fine.decimals = 2;
    return tw_length_text(t->arena, length_mm, fine);
}

static void note(trial *t, const char *words)
{
    tw_array_make_room(t->arena, &t->made.notes, t->made.note_count, &t->made.note_room, sizeof *t->made.notes);
    t->made.notes[t->made.note_count++] = words;
}

static tw_trial refuse(trial *t, const char *words)
{
    note(t, words);
    t->made.ok = false;
    return t->made;
}

/* ---- what can be measured ---- */

/* A distance to the side of the cut that is nearer; to the farther one where the cut runs out past where it is measured from. */
typedef struct reach { double mm; bool far; } reach;

static reach reach_of(double one_mm, double other_mm)
{
    double near_ = tw_min(one_mm, other_mm);
    return near_ > SAME_MM ? (reach){ near_, false } : (reach){ tw_max(one_mm, other_mm), true };
}

static reach along_of(const trial *t)
{
    tw_box cut = tw_outline_bounds(t->want->cut);
    int side = tw_side_of(t->work->face, t->work->down, t->want->stop_end);
    double stop = t->want->stop_to_origin_mm, way = stop < 0.0 ? -1.0 : 1.0;
    return reach_of(way * (stop - side * cut.x1), way * (stop - side * cut.x0));
}

/* From the stop on the machine's centre to the straight wall of the baseline, signed towards the edge's side. */
static double wall_mm(const trial *t)
{
    int side = tw_side_of(t->work->face, t->work->down, t->want->stop_end);
    return t->want->edge_side * (t->want->edge_x_mm - side * t->want->stop_to_origin_mm);
}

static bool by_template(const trial *t) { return t->want->stop_at_centre && t->want->locate == TW_LOCATE_BASELINE; }

static reach up_of(const trial *t)
{
    tw_box cut = tw_outline_bounds(t->want->cut);
    return reach_of(t->want->down_to_origin_mm + cut.y0, t->want->down_to_origin_mm + cut.y1);
}

static bool is_own(const trial *t, tw_moves_by by) { return t->work->answer.by == by && t->work->answer.grows > 0.0; }

typedef struct dimensions { tw_trial_dimension items[4]; size_t count; } dimensions;

static void add_dimension(dimensions *all, tw_trial_of of, const char *what, double wanted, double under, double over)
{
    all->items[all->count++] = (tw_trial_dimension){ of, what, wanted, wanted + under, wanted + over };
}

static void add_own(const trial *t, dimensions *all)
{
    const tw_work *work = t->work;
    bool figure = work->measure && work->measure[0] && (work->measure_under_mm != 0.0 || work->measure_over_mm != 0.0);
    if (figure) add_dimension(all, TW_TRIAL_MEASURE, work->measure, work->measure_mm, work->measure_under_mm,
        work->measure_over_mm);
}

/* A cut that goes right through, or is made from both sides, has no depth to measure. */
static void add_depth(const trial *t, dimensions *all)
{
    tw_size extent = tw_face_extent(tw_work_size(t->ask->job, &t->ask->plans[t->ask->plan], t->work), t->work->face);
    if (is_own(t, TW_BY_DEPTH) || t->want->both_faces || t->want->depth_mm > extent.thickness_mm - SAME_MM) return;
    const char *zero = t->want->zero_word ? t->want->zero_word : tw_face_words[t->work->face];
    add_dimension(all, TW_TRIAL_DEPTH, tw_format(t->arena, "depth from the %s", zero), t->want->depth_mm, -NEAR_MM, NEAR_MM);
}

static const char *side_word(const trial *t, reach reached)
{
    if (!t->want->inside) return reached.far ? "farther cheek" : "nearer cheek";
    return reached.far ? "farther end of the cut" : "nearer wall of the cut";
}

static void add_along(const trial *t, dimensions *all)
{
    if (!t->setup->stop.used || t->work->cradle.used || is_own(t, TW_BY_STOP) || t->work->answer.by == TW_BY_STOP) return;
    if (by_template(t)) {
        const char *wall = t->want->wall_word && t->want->wall_word[0] ? t->want->wall_word
            : "wall that the baseline was found with";
        add_dimension(all, TW_TRIAL_ALONG, tw_format(t->arena, "from the %s to the %s", t->want->stop_word, wall),
            fabs(wall_mm(t)), -NEAR_MM, NEAR_MM);
    } else if (fabs(t->want->stop_to_origin_mm) > SAME_MM && along_of(t).mm > SAME_MM) {
        const char *what = tw_format(t->arena, "from the %s to the %s", t->want->stop_word, side_word(t, along_of(t)));
        add_dimension(all, TW_TRIAL_ALONG, what, along_of(t).mm, -NEAR_MM, NEAR_MM);
    }
}

static void add_up(const trial *t, dimensions *all)
{
    if (!t->setup->table.used || t->work->cradle.used || t->work->answer.by == TW_BY_TABLE || !(up_of(t).mm > SAME_MM)) return;
    const char *what = tw_format(t->arena, "from the %s, which lies down, to the %s", tw_face_words[t->work->down],
        side_word(t, up_of(t)));
    add_dimension(all, TW_TRIAL_UP, what, up_of(t).mm, -NEAR_MM, NEAR_MM);
}

static dimensions dimensions_of(const trial *t)
{
    dimensions all = { .count = 0 };
    if (!t->work) return all;
    add_own(t, &all);
    if (!t->want || !t->setup) return all;
    add_depth(t, &all);
    add_along(t, &all);
    add_up(t, &all);
    return all;
}

tw_trial_dimension *tw_trial_dimensions(tw_arena *arena, const tw_trial_ask *ask, size_t *count)
{
    trial t = trial_begin(arena, ask);
    dimensions all = dimensions_of(&t);
    tw_trial_dimension *items = TW_NEW_ARRAY(arena, tw_trial_dimension, all.count);
    for (size_t i = 0; i < all.count; i++) items[i] = all.items[i];
    *count = all.count;
    return items;
}

/* ---- moves ---- */

static tw_trial_move *add_move(trial *t, const char *stop, const char *way, double by_mm, const char *sum)
{
    tw_array_make_room(t->arena, &t->made.moves, t->made.move_count, &t->made.move_room, sizeof *t->made.moves);
    tw_trial_move *move = &t->made.moves[t->made.move_count++];
    *move = (tw_trial_move){ .stop = stop, .way = way, .by_mm = by_mm, .by = say(t, by_mm), .sum = sum, .stack_text = "",
        .setting = "", .setting_stack = "" };
    return move;
}

static void stack_the_move(const trial *t, tw_trial_move *move)
{
    const tw_shop *shop = t->ask->shop;
    if (shop->spacer_count == 0 || move->by_mm > TW_STACK_MOST_MM) return;
    double tolerance = tw_min(shop->machine.spacer_tolerance.value, STACK_PART * move->by_mm);
    move->stack = tw_stack_find(t->arena, shop->spacers, shop->spacer_count, move->by_mm, tolerance, TW_STACK_NEAREST);
    move->stacked = move->stack.ok && move->stack.part_count > 0;
    if (move->stacked) move->stack_text = tw_stack_text(t->arena, shop->spacers, &move->stack);
}

/* The stop has a figure on the card, and perhaps a stack: both for what it is from now on. grown: its figure grows by that. */
static void reset(const trial *t, tw_trial_move *move, const tw_setting *setting, double grown_mm)
{
    const tw_shop *shop = t->ask->shop;
    stack_the_move(t, move);
    if (!setting->used || setting->value_mm + grown_mm < 0.0) return;
    move->has_setting = true;
    move->setting_mm = setting->value_mm + grown_mm;
    move->setting = say(t, move->setting_mm);
    double length = setting->stack.wanted_mm + grown_mm;
    if (!setting->stacked || length <= 0.0 || length > TW_STACK_MOST_MM) return;
    tw_stack stack = tw_stack_find(t->arena, shop->spacers, shop->spacer_count, length, shop->machine.spacer_tolerance.value,
        TW_STACK_NEAREST);
    if (stack.ok) move->setting_stack = tw_stack_text(t->arena, shop->spacers, &stack);
}

static const char *plain_sum(const trial *t, double grows)
{
    const tw_trial *made = &t->made;
    const char *got = say(t, made->dimension.wanted_mm + made->error_mm), *wanted = say(t, made->dimension.wanted_mm);
    double by = made->error_mm / grows;
    if (fabs(fabs(grows) - 1.0) < SAME_MM) return tw_format(t->arena, "got - wanted = %s - %s = %s", got, wanted,
        say(t, made->error_mm));
    return tw_format(t->arena, "(got - wanted) / %g = (%s - %s) / %g = %s", fabs(grows), got, wanted, fabs(grows),
        say(t, fabs(by) * (made->error_mm < 0.0 ? -1.0 : 1.0)));
}

static void move_depth(trial *t, double grows)
{
    double deeper = -t->made.error_mm / grows;
    tw_trial_move *move = add_move(t, "depth stop", deeper > 0.0 ? "deeper" : "less deep", fabs(deeper), plain_sum(t, grows));
    tw_setting none = { .used = false };
    reset(t, move, t->setup ? &t->setup->depth : &none, deeper);
    if (fabs(grows) > 1.0 + SAME_MM) note(t, "Both cuts are made with the same depth, so each takes its half.");
}

/* raised: of the table, mm. A table that goes in steps is left: packing takes the difference. */
static void raise(trial *t, double raised_mm, const char *sum)
{
    const tw_machine *machine = &t->ask->shop->machine;
    if (machine->table_step.value > 0.0) {
        tw_trial_move *move = add_move(t, "packing under the piece", raised_mm > 0.0 ? "thicker" : "thinner", fabs(raised_mm),
            sum);
        stack_the_move(t, move);
        note(t, tw_format(t->arena, "The table goes in steps of %s: the packing takes the difference.",
            say(t, machine->table_step.value)));
        return;
    }
    tw_trial_move *move = add_move(t, "table", raised_mm > 0.0 ? "up" : "down", fabs(raised_mm), sum);
    reset(t, move, &t->setup->table, -raised_mm);
}

/* farther: from the machine's centre, mm. */
static void move_stop(trial *t, double farther_mm, const char *sum)
{
    int side = t->setup->stop.direction_x != 0 ? t->setup->stop.direction_x : 1;
    bool right = (farther_mm > 0.0) == (side > 0);
    tw_trial_move *move = add_move(t, "stop", right ? "to the right" : "to the left", fabs(farther_mm), sum);
    reset(t, move, &t->setup->stop, farther_mm);
}

/* The way of the cutter, as the maker sees the template go. */
static const char *template_way(const trial *t, int x, int y)
{
    tw_as_maker_sees(&t->ask->shop->machine, &x, &y);
    return x > 0 ? "to the right" : x < 0 ? "to the left" : y > 0 ? "up" : "down";
}

static const char *ratio_sum(const trial *t)
{
    const tw_trial *made = &t->made;
    return tw_format(t->arena, "ratio x (got - wanted) = %g x (%s - %s) = %s", t->r,
        say(t, made->dimension.wanted_mm + made->error_mm), say(t, made->dimension.wanted_mm),
        say(t, t->r * made->error_mm));
}

/* The straight wall lies the error off: the template goes back by r times it. */
static void shift_template(trial *t)
{
    double wall = wall_mm(t), towards_edge = -t->made.error_mm * (wall < 0.0 ? -1.0 : 1.0), by = t->r * towards_edge;
    int x = t->want->edge_side * (towards_edge > 0.0 ? 1 : -1);
    tw_trial_move *move = add_move(t, "template", template_way(t, x, 0), fabs(by), ratio_sum(t));
    int edge_x = t->want->edge_side, none = 0;
    tw_as_maker_sees(&t->ask->shop->machine, &edge_x, &none);
    bool towards = t->setup->shift.direction_x == edge_x;
    reset(t, move, &t->setup->shift, towards ? by : -by);
}

/* ---- widths ---- */

static bool within(const tw_trial_dimension *dimension, double value_mm)
{
    return value_mm >= dimension->least_mm - SAME_MM && value_mm <= dimension->most_mm + SAME_MM;
}

static double got_mm(const trial *t) { return t->made.dimension.wanted_mm + t->made.error_mm; }

/* (4), for a follower of the shop. */
static double with_follower_mm(const trial *t, const tw_follower *other)
{
    double larger = other->b_mm - t->follower->b_mm;
    return got_mm(t) + (t->want->inside ? -larger : larger) / t->r;
}

/* The owned follower that comes nearest; -1 when none comes within the limits. */
static int best_follower(const trial *t)
{
    int best = -1;
    double best_off = 0.0;
    for (int i = 0; t->template_ && i < t->template_->fit_count; i++) {
        const tw_fit *fit = &t->template_->fits[i];
        const tw_follower *other = &t->ask->shop->followers[fit->follower];
        double width = with_follower_mm(t, other), off = fabs(width - t->made.dimension.wanted_mm);
        if (!fit->enters || other == t->follower || !within(&t->made.dimension, width)) continue;
        if (best >= 0 && off >= best_off) continue;
        best = fit->follower;
        best_off = off;
    }
    return best;
}

static void use_follower(trial *t, int follower)
{
    const tw_follower *other = &t->ask->shop->followers[follower];
    double larger = other->b_mm - t->follower->b_mm;
    bool adds = t->want->inside != (larger > 0.0);
    add_move(t, tw_format(t->arena, "follower %s in the place of %s", other->name, t->follower->name), larger > 0.0 ? "larger"
        : "smaller", fabs(larger),
        tw_format(t->arena, "got %s (difference of the followers) / ratio = %s %s %s / %g = %s", adds ? "+" : "-",
            say(t, got_mm(t)), adds ? "+" : "-", say(t, fabs(larger)), t->r,
            say(t, with_follower_mm(t, other))));
}

static int best_cutter(const trial *t, double larger_mm)
{
    const tw_shop *shop = t->ask->shop;
    double limit = tw_max(t->made.dimension.most_mm - t->made.dimension.wanted_mm,
        t->made.dimension.wanted_mm - t->made.dimension.least_mm);
    int best = -1;
    for (int i = 0; i < shop->cutter_count; i++) {
        const tw_cutter *other = &shop->cutters[i];
        double off = fabs(other->d_mm - t->cutter->d_mm - larger_mm);
        bool alike = tw_cutter_is_straight(other) == tw_cutter_is_straight(t->cutter) &&
            other->plunges.value >= t->cutter->plunges.value &&
                     other->cutting_length.value >= t->want->depth_mm;
        if (other == t->cutter || !alike || off > limit) continue;
        if (best < 0 || off < fabs(shop->cutters[best].d_mm - t->cutter->d_mm - larger_mm)) best = i;
    }
    return best;
}

/* Of the shop's cutters; where none serves and nothing else is left, the one that would. */
static void use_cutter(trial *t, bool alone)
{
    double larger = t->want->inside ? -t->made.error_mm : t->made.error_mm;
    int owned = best_cutter(t, larger);
    if (owned < 0 && !alone) return;
    if (owned < 0 && t->cutter->d_mm + larger <= 0.0) {
        note(t, "No cutter brings that about: look whether both sizes are what you meant, and in one unit.");
        return;
    }
    const char *stop = owned >= 0 ? tw_format(t->arena, "cutter %s in the place of %s", t->ask->shop->cutters[owned].name,
        t->cutter->name) : "cutter";
    double by = owned >= 0 ? fabs(t->ask->shop->cutters[owned].d_mm - t->cutter->d_mm) : fabs(larger);
    add_move(t, stop, larger > 0.0 ? "larger" : "smaller", by, plain_sum(t, 1.0));
    if (owned < 0) note(t, tw_format(t->arena, "The shop has no cutter of %s.", say(t, t->cutter->d_mm + larger)));
}

static void mend_width(trial *t)
{
    double wider = -t->made.error_mm, opened = t->r * wider;
    int owned = best_follower(t);
    if (owned >= 0) use_follower(t, owned);
    tw_trial_move *template_ = add_move(t, t->want->inside ? "template's opening" : "template's body", opened > 0.0 ? "wider"
        : "narrower", fabs(opened), ratio_sum(t));
    stack_the_move(t, template_);
    if (owned < 0) {
        bool larger = t->want->inside == (wider < 0.0);
        add_move(t, "follower", larger ? "larger" : "smaller", fabs(opened), ratio_sum(t));
        note(t, tw_format(t->arena,
            "The shop has no follower of %s; with the owned ones the width does not come within its limits.",
            say(t, t->follower->b_mm + (larger ? 1.0 : -1.0) * fabs(opened))));
    }
    bool added = (opened < 0.0) == t->want->inside;
    note(t, added ? "Tape or shims add it to the template and come off again: half on each side, so that the middle stays."
                  : "Plane it off the template: half on each side, so that the middle stays.");
    if (t->cutter && tw_cutter_is_straight(t->cutter)) use_cutter(t, false);
    note(t, "Measure cutter and follower before the template is changed: where one is not as large as was thought, "
            "enter it, and all figures follow.");
}

static void mend_cutter(trial *t)
{
    use_cutter(t, true);
    note(t, "It is as wide as its cutter: no stop moves it. Measure the cutter; where it is not as large as was thought, "
            "enter it, and all figures follow.");
}

/* ---- the card's own dimension ---- */

static void move_fence(trial *t, const char *what, double grows)
{
    bool larger = t->made.error_mm < 0.0;
    tw_trial_move *move = add_move(t, what, larger ? "so that it comes out larger" : "so that it comes out smaller",
        fabs(t->made.error_mm / grows), plain_sum(t, grows));
    stack_the_move(t, move);
}

static void mend_own(trial *t)
{
    tw_answer answer = t->work->answer;
    bool set = t->setup != NULL;
    switch (answer.by) {
    case TW_BY_WIDTH: if (set && t->follower) mend_width(t); break;
    case TW_BY_CUTTER: if (set && t->cutter) mend_cutter(t); break;
    case TW_BY_DEPTH: move_depth(t, answer.grows); break;
    case TW_BY_STOP: if (set) move_stop(t, -t->made.error_mm / answer.grows, plain_sum(t, answer.grows)); break;
    case TW_BY_TABLE: if (set) raise(t, -t->made.error_mm / answer.grows, plain_sum(t, answer.grows)); break;
    case TW_BY_FENCE: move_fence(t, "fence or stop block", answer.grows); break;
    case TW_BY_GUIDES: move_fence(t, "both spacers between the guides", answer.grows); break;
    case TW_BY_NOTHING: break;
    }
    if (t->work->if_off && t->work->if_off[0]) note(t, tw_format(t->arena, "The card says: %s.", t->work->if_off));
}

static void mend(trial *t)
{
    switch (t->made.dimension.of) {
    case TW_TRIAL_MEASURE: mend_own(t); break;
    case TW_TRIAL_DEPTH: move_depth(t, 1.0); break;
    case TW_TRIAL_ALONG:
        if (by_template(t)) shift_template(t);
        else move_stop(t, -t->made.error_mm, plain_sum(t, 1.0));
        note(t, "See to the width first: half of what it is off shows here too.");
        break;
    case TW_TRIAL_UP:
        raise(t, t->made.error_mm, plain_sum(t, 1.0));
        note(t, "See to the width first: half of what it is off shows here too.");
        break;
    }
}

tw_trial tw_trial_made(tw_arena *arena, const tw_trial_ask *ask, const double *wanted_mm, double got)
{
    trial t = trial_begin(arena, ask);
    dimensions all = dimensions_of(&t);
    const tw_trial_dimension *dimension = NULL;
    for (size_t i = 0; i < all.count; i++)
        if (all.items[i].of == ask->of) dimension = &all.items[i];
    if (!dimension) return refuse(&t, "There is no such dimension to measure at this step.");
    t.made.dimension = *dimension;
    bool sound = isfinite(got) && got >= 0.0 && got <= TW_LENGTH_MOST_MM &&
        (!wanted_mm || (isfinite(*wanted_mm) && fabs(*wanted_mm) <= TW_LENGTH_MOST_MM));
    if (!sound) return refuse(&t, "That is no length: write what the rule or the caliper shows.");
    if (wanted_mm) {
        double moved = *wanted_mm - dimension->wanted_mm;
        t.made.dimension.wanted_mm = *wanted_mm;
        t.made.dimension.least_mm += moved;
        t.made.dimension.most_mm += moved;
    }
    t.made.ok = true;
    t.made.error_mm = got - t.made.dimension.wanted_mm;
    t.made.good = within(&t.made.dimension, got);
    if (!t.made.good) mend(&t);
    return t.made;
}

/* ---- centring ---- */

/* How far the side at the bottom, or at the stop, is from the one opposite. */
static double across_mm(const trial *t, tw_face side)
{
    tw_size size = tw_work_size(t->ask->job, &t->ask->plans[t->ask->plan], t->work);
    return tw_face_extent(size, side).thickness_mm;
}

static void centre(trial *t, double off_mm, bool along, const char *sum)
{
    const char *doubled = tw_format(t->arena, "%s; at the template ratio x that = %g x %s = %s", sum, t->r, say(t, fabs(off_mm)),
        say(t, t->r * fabs(off_mm)));
    int side = tw_side_of(t->work->face, t->work->down, t->want->stop_end), back = off_mm > 0.0 ? 1 : -1;
    if (along) move_stop(t, -off_mm, sum);
    else raise(t, off_mm, sum);
    tw_trial_move *template_ = add_move(t, "template", along ? template_way(t, side * back, 0) : template_way(t, 0, -back),
        t->r * fabs(off_mm), doubled);
    stack_the_move(t, template_);
    note(t, "Either of the two is enough. Cut the test again, both ways round, to be sure.");
}

tw_trial tw_trial_flip(tw_arena *arena, const tw_trial_ask *ask, double first_mm, double second_mm, bool along)
{
    trial t = trial_begin(arena, ask);
    if (!t.want || !t.setup || t.work->cradle.used || (along && (!t.setup->stop.used || t.want->stop_at_centre)))
        return refuse(&t, "There is nothing to centre at this step.");
    if (!isfinite(first_mm) || !isfinite(second_mm) || first_mm < 0.0 || second_mm < 0.0 ||
        tw_max(first_mm, second_mm) > TW_LENGTH_MOST_MM)
        return refuse(&t, "That is no length: write what the rule or the caliper shows.");
    tw_face side = along ? t.want->stop_end : t.work->down;
    double place = along ? t.want->stop_to_origin_mm : t.want->down_to_origin_mm, middle = across_mm(&t, side) / 2.0;
    if (fabs(place - middle) > CENTRED_MM)
        return refuse(&t, tw_format(arena,
            "This cut is not to lie in the middle: its own lies %s from the %s, the piece's %s. Measure from one side instead.",
            say(&t, place), tw_face_words[side], say(&t, middle)));
    double off = (first_mm - second_mm) / 2.0;
    t.made.ok = true;
    t.made.dimension = (tw_trial_dimension){ along ? TW_TRIAL_ALONG : TW_TRIAL_UP, "how far the cut lies off the middle", 0.0,
        -CENTRED_MM, CENTRED_MM };
    t.made.error_mm = off;
    t.made.good = within(&t.made.dimension, off);
    if (!t.made.good) centre(&t, off, along, tw_format(arena, "(first - second) / 2 = (%s - %s) / 2 = %s", say(&t, first_mm),
        say(&t, second_mm), say(&t, off)));
    return t.made;
}
