// SPDX-License-Identifier: GPL-3.0-or-later
/* Figures of templates and of the steps of the run, and the keys by which both are found again. */
#include "sheet/figures_own.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "job/path.h"
#include "sheet/cards.h"

/* ---- keys ---- */

/* "JOINT/WORK". Works of one joint that have one key are counted, in the order of the joint. */
const char *tw_work_key(tw_arena *arena, const tw_joint_plan *plan, int work)
{
    int same = 1;
    for (int i = 0; i < work; i++) same += strcmp(plan->works[i].key, plan->works[work].key) == 0;
    const char *key = plan->works[work].key;
    const char *words[] = { plan->joint->name, same > 1 ? tw_format(arena, "%s (%d)", key, same) : key };
    return tw_path_text(arena, words, 2);
}

const char *tw_template_key(tw_arena *arena, const tw_paper_input *in, int index)
{
    const tw_template *t = &in->templates->items[index];
    assert(t->work_count > 0);
    return tw_work_key(arena, &in->plans[t->works[0]], t->works[1]);
}

const char *tw_step_key(tw_arena *arena, const tw_paper_input *in, int index)
{
    const tw_step *step = &in->run->steps[index];
    if (step->plan >= 0) return tw_work_key(arena, &in->plans[step->plan], step->work);
    int same = 1;
    for (int i = 0; i < index; i++) same += in->run->steps[i].plan < 0 && strcmp(in->run->steps[i].name, step->name) == 0;
    const char *name = same > 1 ? tw_format(arena, "%s (%d)", step->name, same) : step->name;
    return tw_path_text(arena, &name, 1);
}

int tw_step_of_key(tw_arena *arena, const tw_paper_input *in, const char *key)
{
    for (int i = 0; i < in->run->count; i++)
        if (strcmp(tw_step_key(arena, in, i), key) == 0) return i;
    return -1;
}

/* ---- values of one owner ---- */

typedef tw_value_owner owner;

static void add_number(const owner *o, const char *key, const char *label, double number, const char *sum, const char *rule)
{
    tw_value value = tw_value_begin(o, key, label, sum, rule);
    tw_value_number(o->values, &value, number);
    tw_values_add(o->values, value);
}

static void add_area(const owner *o, const char *key, const char *label, double area_mm2, const char *rule)
{
    tw_value value = tw_value_begin(o, key, label, "wanted cut and cut that the template gives, one less the other", rule);
    tw_value_area(o->values, &value, area_mm2);
    tw_values_add(o->values, value);
}

/* A cutter or follower by its name, with its diameter beside it. */
static void add_tool(const owner *o, const char *key, const char *label, const char *name, double diameter_mm, tw_amount measured)
{
    tw_arena *arena = o->values->arena;
    tw_value value = tw_value_begin(o, key, label, "", "");
    tw_value_word(&value, name);
    value.shows = "word";
    tw_values_add(o->values, value);
    tw_value_add_length(o, tw_format(arena, "%s_diameter", key), tw_format(arena, "%s, diameter", label), diameter_mm,
               measured.given ? "as measured" : "as sold: it has not been measured", "");
}

static void add_cutter(const owner *o, const char *key, const char *label, int cutter)
{
    if (cutter < 0) return;
    const tw_cutter *c = &o->values->in->shop->cutters[cutter];
    add_tool(o, key, label, c->name, c->d_mm, c->measured);
}

static void add_follower(const owner *o, int follower)
{
    if (follower < 0) return;
    const tw_follower *f = &o->values->in->shop->followers[follower];
    add_tool(o, "follower", "follower", f->name, f->b_mm, f->measured);
}

/* ---- templates ---- */

/* One measure of the opening or body, and of the cut that it makes. */
static void add_measure(const owner *o, const tw_template *t, const char *way, double wanted_mm, double template_mm)
{
    tw_arena *arena = o->values->arena;
    const char *shape = t->ask.inside ? "opening" : "body";
    const char *first = t->ask.inside ? "shrunk" : "grown", *then = t->ask.inside ? "grown" : "shrunk";
    const char *sum = tw_template_sum_holds(t, wanted_mm, template_mm)
        ? tw_template_width_sum(arena, o->values->in->job->figures, t, wanted_mm)
        : tw_format(arena, "the cut's outline %s by d/2 = %s, times r = %g, then %s by b/2 = %s", first,
                    tw_value_say(o->values, t->ask.cutter_mm / 2.0), t->ask.ratio, then,
                    tw_value_say(o->values, t->ask.follower_mm / 2.0));
    tw_value_add_length(o, tw_format(arena, "cut_%s", way), tw_format(arena, "cut, %s", way), wanted_mm, "as the joint wants it", "");
    tw_value_add_length(o, way, tw_format(arena, "%s, %s", shape, way), template_mm, sum,
               "the template for a cut w: r(w - d) + b inside, r(w + d) - b outside; proved by running the follower round it");
}

static void add_shape(const owner *o, const tw_template *t)
{
    tw_arena *arena = o->values->arena;
    if (t->copy.template_.count == 0) return;  // it cannot be made: a halt says why
    tw_box cut = tw_outline_bounds(t->ask.cut), shape = tw_outline_bounds(t->copy.template_);
    const char *d = tw_value_say(o->values, t->ask.cutter_mm), *b = tw_value_say(o->values, t->ask.follower_mm);
    add_measure(o, t, "across", cut.x1 - cut.x0, shape.x1 - shape.x0);
    add_measure(o, t, "up", cut.y1 - cut.y0, shape.y1 - shape.y0);
    if (t->copy.left_area_mm2 > 0.0) {
        tw_value_add_length(o, "corner_radius", "radius that corners keep", t->copy.corner_radius_mm,
                   tw_format(arena, "d/2 = %s/2", d), "a cutter leaves wood in hollow corners");
        add_area(o, "left_area", "wood left", t->copy.left_area_mm2, "in hollow corners");
    }
    if (t->copy.lost_area_mm2 > 0.0) {
        tw_value_add_length(o, "lost_radius", "radius that outward corners come out with", t->copy.lost_radius_mm,
                   tw_format(arena, "(b - r d)/(2 r) = (%s - %g x %s)/(2 x %g)", b, t->ask.ratio, d, t->ask.ratio),
                   "a follower of at most r d loses nothing");
        add_area(o, "lost_area", "wood lost", t->copy.lost_area_mm2, "at outward corners");
    }
}

static void add_board(const owner *o, const tw_template *t)
{
    if (t->board_view.count == 0) return;
    tw_box board = tw_outline_bounds(t->board_view);
    tw_value_add_length(o, "board_across", "board, across", board.x1 - board.x0, t->across_sum,
               "room for the mounting holes; alike on both sides of the centre line, where the holder takes it");
    tw_value_add_length(o, "board_up", "board, up", board.y1 - board.y0, t->up_sum, "");
    tw_value_add_length(o, "thickness", "thickness", t->thickness_mm, t->thickness_sum, "");
    if (t->rim_mm > 0.0)
        tw_value_add_length(o, "rim", "rim, clear round the body", t->rim_mm, "b + r(waste - d + 2 mm), at least b + 2 mm",
                   "keeps the follower from straying beyond the waste");
}

void tw_values_of_template(tw_values *values, int index)
{
    const tw_template *t = &values->in->templates->items[index];
    const char *key = tw_template_key(values->arena, values->in, index);
    owner o = { .values = values, .id = tw_format(values->arena, "templates/%s", key),
                .where = tw_format(values->arena, "template %s: %s", t->name, t->title) };
    add_cutter(&o, "cutter", "cutter", t->cutter);
    add_follower(&o, t->follower);
    add_cutter(&o, "other_cutter", "cutter that runs along the same path later", t->other_cutter);
    add_number(&o, "ratio", "ratio", t->ask.ratio, "the machine's: template travel / cutter travel", "");
    add_shape(&o, t);
    add_board(&o, t);
}

/* ---- steps ---- */

static void add_setting(const owner *o, const char *key, const tw_setting *setting)
{
    if (setting->used) tw_value_add_length(o, key, setting->label, setting->value_mm, setting->sum, setting->between);
}

static void add_setup(const owner *o, const tw_setup *setup)
{
    tw_arena *arena = o->values->arena;
    add_cutter(o, "cutter", "cutter", setup->cutter);
    add_follower(o, setup->follower);
    tw_value_add_length(o, "stick_out", "cutter stands out", setup->stick_out_mm, setup->stick_out_sum,
               "beyond the collet nut, no more: a long reach chatters");
    add_number(o, "speed", "speed, turns a minute at most", setup->speed_rpm, setup->speed_sum, "");
    if (setup->packing_mm > 0.0) tw_value_add_length(o, "packing", "packing", setup->packing_mm, setup->packing_why, "");
    add_setting(o, "baseline", &setup->baseline);
    add_setting(o, "shift", &setup->shift);
    add_setting(o, "table", &setup->table);
    add_setting(o, "stop", &setup->stop);
    add_setting(o, "depth", &setup->depth);
    if (setup->passes > 1)
        tw_value_add_length(o, "pass", "each plunge", setup->pass_mm,
                   tw_format(arena, "depth / plunges = %s / %d", tw_value_say(o->values, setup->depth.value_mm), setup->passes),
                   "half of the cutter, 3.2 mm (1/8 in) at most");
}

/* The figure of the joint that is measured: the only one of that length; NULL when none or several are. */
static const tw_figure *figure_of_length(const tw_joint_plan *plan, double length_mm)
{
    const tw_figure *found = NULL;
    for (size_t i = 0; i < plan->figure_count; i++) {
        const tw_figure *figure = &plan->figures[i];
        if (figure->unit != TW_UNIT_MM || fabs(figure->value - length_mm) > 1e-9) continue;
        if (found && strcmp(found->key, figure->key) != 0) return NULL;
        found = figure;
    }
    return found;
}

static void add_limit(const owner *o, const char *key, const char *label, double length_mm, double differs_mm)
{
    tw_arena *arena = o->values->arena;
    tw_figures fine = tw_limit_figures(o->values->in->job->figures);
    const char *differs = tw_length_text(arena, fabs(differs_mm), fine), *sign = differs_mm < 0.0 ? "-" : "+";
    tw_value value = tw_value_begin(o, key, label, tw_format(arena, "wanted %s %s", sign, differs), "");
    tw_value_length(o->values, &value, length_mm + differs_mm);
    value.text = tw_length_text(arena, length_mm + differs_mm, fine);
    value.bare = tw_length_bare(arena, length_mm + differs_mm, fine);
    tw_values_add(o->values, value);
}

static void add_measured(const owner *o, const tw_joint_plan *plan, const tw_work *work)
{
    if (!*work->measure) return;
    const tw_figure *figure = figure_of_length(plan, work->measure_mm);
    const char *sum = figure ? tw_format(o->values->arena, "%s: %s", figure->label, figure->sum) : "as drawn";
    tw_value_add_length(o, "measure", work->measure, work->measure_mm, sum, figure ? figure->rule : "");
    if (work->measure_under_mm != 0.0) add_limit(o, "measure_least", "at least", work->measure_mm, work->measure_under_mm);
    if (work->measure_over_mm != 0.0) add_limit(o, "measure_most", "at most", work->measure_mm, work->measure_over_mm);
}

void tw_values_of_step(tw_values *values, int index)
{
    const tw_step *step = &values->in->run->steps[index];
    tw_card card = tw_card_of(values->in, step);
    owner o = { .values = values, .id = tw_format(values->arena, "steps/%s", tw_step_key(values->arena, values->in, index)),
                .where = tw_format(values->arena, "card %d: %s", step->number, step->name) };
    if (card.setup) add_setup(&o, card.setup);
    if (card.work) add_measured(&o, card.plan, card.work);
}
