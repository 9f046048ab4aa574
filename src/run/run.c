// SPDX-License-Identifier: GPL-3.0-or-later
/* The run: steps for the whole job first, the ordered works, steps for the whole job at the end; and what is to be said
 * between neighbours.
 *
 * A machine keeps its settings while the maker works elsewhere, so `change` compares a step with the last one at the same
 * machine, and `keeps` with the next one there. */
#include "run/run.h"

#include <assert.h>
#include <string.h>

#include "run/order.h"

typedef struct run_context {
    tw_arena            *arena;
    const tw_job        *job;
    const tw_joint_plan *plans;
    int                  plan_count;
    tw_setups           *setups;
    tw_run              *run;
} run_context;

/* ---- words put together ---- */

static const char *add_word(tw_arena *arena, const char *list, const char *word)
{
    return *list ? tw_format(arena, "%s, %s", list, word) : word;
}

/* Names of the things that change (or, changing = false, stay) from one operation to the next at the same machine. */
static const char *kept_words(tw_arena *arena, const tw_operation *before, const tw_operation *after, bool changing)
{
    const char *list = "";
    for (int k = 0; k < TW_KEPT_COUNT; k++) {
        if (after->kept[k] == TW_KEPT_NONE || (k == TW_KEPT_DOWN && !changing)) continue;  // a side is laid, not left set
        bool changes = !before || before->kept[k] != after->kept[k];
        bool side_goes_with_template = k == TW_KEPT_TEMPLATE_SIDE && (!before || !changing ||
            before->kept[TW_KEPT_TEMPLATE] != after->kept[TW_KEPT_TEMPLATE]);
        if (changes == changing && !side_goes_with_template) list = add_word(arena, list, tw_kept_words[k]);
    }
    return list;
}

static const char *change_words(tw_arena *arena, const tw_operation *standing, const tw_operation *before,
                                const tw_operation *now)
{
    bool walks = !before || before->way != now->way;
    if (!standing) return *kept_words(arena, NULL, now, true)
        ? tw_format(arena, "%s: %s", tw_way_words[now->way], kept_words(arena, NULL, now, true)) : tw_way_words[now->way];
    const char *list = kept_words(arena, standing, now, true);
    if (!walks) return list;
    return *list ? tw_format(arena, "back to the %s: %s", tw_way_words[now->way], list)
                 : tw_format(arena, "%s", tw_way_words[now->way]);
}

/* "right end, face; left end, back" with 4 cuts: "4 cuts: right end, face (2); left end, back (2)". */
static const char *tally_words(tw_arena *arena, const tw_work *work)
{
    const char *cuts = tw_format(arena, "%d %s", work->count, work->count == 1 ? "cut" : "cuts");
    if (work->way > TW_WAY_DRILL) cuts = tw_format(arena, "%d times", work->count);
    if (work->way > TW_WAY_DRILL && work->count == 1) cuts = "once";
    if (!work->places || !*work->places) return cuts;
    int places = 1;
    for (const char *at = work->places; *at; at++) places += *at == ';';
    bool counted = strchr(work->places, '(') != NULL;  // the joint has said how many go where
    if (counted || places == 1 || work->count % places != 0) return tw_format(arena, "%s: %s", cuts, work->places);
    const char *list = tw_format(arena, "%s:", cuts), *from = work->places;
    for (int i = 0; i < places; i++) {
        const char *end = strchr(from, ';');
        size_t length = end ? (size_t)(end - from) : strlen(from);
        list = tw_format(arena, "%s %.*s (%d)%s", list, (int)length, from, work->count / places, end ? ";" : "");
        from += length + 1;
        while (end && *from == ' ') from++;
    }
    return list;
}

/* ---- steps of the whole job ---- */

static int pieces_in_all(const tw_job *job)
{
    double pieces = 0.0;
    for (int i = 0; i < job->piece_count; i++) pieces += job->pieces[i].count.value * job->sets.value;
    return (int)pieces;
}

static int parts_in_all(const run_context *context, const char *word)
{
    int count = 0;
    for (int p = 0; p < context->plan_count; p++)
        for (size_t i = 0; i < context->plans[p].part_count; i++)
            if (strstr(context->plans[p].parts[i].name, word)) count += context->plans[p].parts[i].count;
    return count;
}

static bool has_way(const run_context *context, tw_way way)
{
    for (int p = 0; p < context->plan_count; p++)
        for (size_t w = 0; w < context->plans[p].work_count; w++)
            if (context->plans[p].works[w].way == way) return true;
    return false;
}

static void add_step(run_context *context, tw_step step)
{
    step.number = context->run->count + 1;
    if (!step.change) step.change = "";
    if (!step.keeps) step.keeps = "";
    if (!step.cautions) step.cautions = "";
    context->run->steps[context->run->count++] = step;
}

static void add_whole(run_context *context, const char *name, const char *what, const char *cautions, const char *unit, int boxes)
{
    add_step(context, (tw_step){ .plan = -1, .work = -1, .setup = -1, .name = name, .what = what, .boxes = boxes, .cautions = cautions,
                                 .tally = tw_format(context->arena, "%d %s%s", boxes, unit, boxes == 1 ? "" : "s") });
}

#define WHOLE_STEPS_MOST 8

/* Cautions of the whole job's steps (common practice). */
static const char saw_cautions[] =
    "Riving knife and guard on; push stick in hand; stand beside the line of the cut, never behind it.\n"
    "Crosscut with the mitre gauge or a sled, no fence beside the blade. Eyes and ears covered, dust drawn off.";
static const char planer_cautions[] =
    "Push blocks at the surface planer, hands never over the knives; guard over what the wood does not cover.\n"
    "No piece goes through a planer that is shorter than the distance of its rollers, or than the maker of the machine allows: "
    "plane it as part of a longer one. Eyes and ears covered, dust drawn off.";
static const char finish_cautions[] =
    "Air moving; rags with oil spread flat outdoors or kept under water: in a heap they can take fire by themselves.";

static void add_stock_steps(run_context *context)
{
    int pieces = pieces_in_all(context->job);
    if (pieces == 0) return;
    add_whole(context, "Saw the stock over size",
              "Crosscut over length and rip over width, the short pieces as sticks long enough to hold; let the wood rest before it "
              "is planed; saw one more of each size for the trial cuts", saw_cautions, "piece", pieces);
    add_whole(context, "Plane to thickness and width",
              "Plane face and face edge true, then all pieces of one size to thickness and to width in one setting, the trial "
              "pieces with them", planer_cautions, "piece", pieces);
    add_whole(context, "Mark face and edge",
              "Mark face, face edge, ends and joint numbers on every piece; every later setting is taken from these marks",
              "", "piece", pieces);
    add_whole(context, "Crosscut to length",
              "Crosscut square to the finished length, all pieces of one length against one stop: what a stop locates later is then "
              "alike on all of them", saw_cautions, "piece", pieces);
}

static void add_finish_steps(run_context *context)
{
    int pieces = pieces_in_all(context->job), tusks = parts_in_all(context, "tusk");
    if (pieces > 0 && !has_way(context, TW_WAY_FINISH))
        add_whole(context, "Finish",
                  "Break the arrises but for those that bear, finish, keep the finish off the bearing faces or allow for it, and "
                  "let it harden before anything is put together", finish_cautions, "piece", pieces);
    if (tusks == 0) return;
    add_whole(context, "Wax the tusks", "Wax ramp and flat face of every tusk, and try it in its seat: it must hold, and come out "
              "by a blow from the tip", "", "tusk", tusks);
    add_whole(context, "Tie and number the tusks", "Number each tusk and its joint alike, and tie it to its piece for storage "
              "and carrying", "", "tusk", tusks);
}

/* ---- steps of the works ---- */

static const tw_work *work_of(const run_context *context, const tw_operation *operation)
{
    return &context->plans[operation->plan].works[operation->work];
}

static void add_work_step(run_context *context, const tw_operation *operation, const char *change)
{
    const tw_joint_plan *plan = &context->plans[operation->plan];
    const tw_work *work = work_of(context, operation);
    const char *joint = plan->joint ? plan->joint->name : "";
    add_step(context, (tw_step){
        .plan = operation->plan, .work = operation->work, .setup = operation->setup,
        .name = *joint ? tw_format(context->arena, "%s: %s", joint, work->name) : work->name,
        .what = work->what, .tally = tally_words(context->arena, work),
        .boxes = work->pieces > 0 ? work->pieces : work->count, .change = change });
}

/* What stays for the next step at the same machine; said of the step, and of its setup. */
static void say_keeps(run_context *context, tw_step *step, const tw_operation *now, const tw_step *next_step,
                      const tw_operation *next)
{
    const char *list = kept_words(context->arena, now, next, false);
    if (*list && next_step->number != step->number + 1)
        list = tw_format(context->arena, "%s (for card %d)", list, next_step->number);
    step->keeps = list;
    if (now->setup >= 0) context->setups->items[now->setup].keeps = list;
}

static void add_work_steps(run_context *context, const tw_operations *operations, const int *order)
{
    struct { const tw_operation *operation; int step; } last[TW_WAY_COUNT] = { 0 };
    const tw_operation *before = NULL;
    for (int i = 0; i < operations->count; i++) {
        const tw_operation *now = &operations->items[order[i]];
        const tw_operation *standing = last[now->way].operation;
        add_work_step(context, now, change_words(context->arena, standing, before, now));
        tw_step *step = &context->run->steps[context->run->count - 1];
        if (standing) say_keeps(context, &context->run->steps[last[now->way].step], standing, step, now);
        if (now->setup >= 0) context->setups->items[now->setup].keeps = "";
        last[now->way].operation = before = now;
        last[now->way].step = context->run->count - 1;
    }
}

tw_run tw_run_make(tw_arena *arena, const tw_job *job, const tw_shop *shop, const tw_joint_plan *plans, int plan_count,
                   const tw_templates *templates, tw_setups *setups, tw_findings *findings)
{
    (void)shop, (void)templates, (void)findings;  // nothing of them is wanted for the simple order
    assert(job && plan_count >= 0);
    tw_operations operations = tw_operations_of(arena, plans, plan_count, setups);
    tw_run run = { .steps = TW_NEW_ARRAY(arena, tw_step, (size_t)operations.count + WHOLE_STEPS_MOST) };
    int *order = tw_order_find(arena, &operations, &run.plain_changes);
    run.changes = tw_order_changes(&operations, order);
    run_context context = { arena, job, plans, plan_count, setups, &run };
    add_stock_steps(&context);
    add_work_steps(&context, &operations, order);
    add_finish_steps(&context);
    return run;
}
