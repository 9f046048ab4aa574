// SPDX-License-Identifier: GPL-3.0-or-later
/* reckon spacers: the best stack of the shop's own spacers for a length, or the list of what it owns. */
#include "cli/cli.h"
#include "job/job.h"
#include "setup/spacers.h"

#include <math.h>
#include <string.h>

typedef struct { const tw_shop *shop; double wanted_mm, tolerance_mm; tw_stack_side side; tw_stack stack; } question;

static tw_exit read_shop(tw_cli *cli, const char *path, const tw_shop **shop)
{
    tw_text text;
    tw_exit status = tw_file_given(cli, path, &text);
    if (status != TW_EXIT_DONE) return status;
    tw_findings findings = { .arena = cli->arena };
    *shop = tw_shop_read(cli->arena, text, path, &findings);
    tw_findings_put(&findings, TW_CARE, cli->err);
    return *shop ? TW_EXIT_DONE : TW_EXIT_WRONG;
}

static bool measures_in_inches(const tw_shop *shop)
{
    const char *unit = tw_unit_words[shop->units.value];
    return strcmp(unit, "in") == 0 || strcmp(unit, "ft") == 0;
}

/* "   2 x block 1/2      25.4000 mm", and in inches too where the shop measures so. */
static void put_line(tw_sink *out, const tw_shop *shop, int count, const char *name, double length_mm)
{
    tw_putf(out, "%4d x %-30s %10.4f mm", count, name, length_mm);
    if (measures_in_inches(shop)) tw_putf(out, " %9.4f in", length_mm / TW_MM_PER_INCH);
    tw_put_text(out, "\n");
}

/* ---- the list ---- */

static void put_spacer_json(tw_sink *out, const tw_spacer *spacer, int count)
{
    tw_put_text(out, "{\"name\": ");
    tw_put_json_text(out, spacer->name);
    tw_put_text(out, ", \"size_mm\": ");
    tw_put_json_number(out, spacer->size.value);
    tw_putf(out, ", \"count\": %d}", count);
}

static void put_list(tw_sink *out, const tw_shop *shop, bool json)
{
    if (json) tw_put_text(out, "{\"spacers\": [");
    for (int i = 0; i < shop->spacer_count; i++) {
        const tw_spacer *spacer = &shop->spacers[i];
        int count = (int)spacer->count.value;
        if (json) tw_put_text(out, i == 0 ? "" : ", ");
        if (json) put_spacer_json(out, spacer, count);
        else put_line(out, shop, count, spacer->name, spacer->size.value);
    }
    if (json) tw_put_text(out, "]}\n");
    else if (shop->spacer_count == 0) tw_put_text(out, "The shop owns no spacers.\n");
}

/* ---- one stack ---- */

static void put_stack_json(tw_sink *out, const tw_shop *shop, const tw_stack *stack)
{
    tw_put_text(out, "[");
    for (int i = 0; i < stack->part_count; i++) {
        tw_put_text(out, i == 0 ? "" : ", ");
        put_spacer_json(out, &shop->spacers[stack->parts[i].spacer], stack->parts[i].count);
    }
    tw_put_text(out, "]");
}

/* The stack that makes just this total; there is one. */
static tw_stack stack_making(tw_cli *cli, const question *asked, double total_mm)
{
    return tw_stack_find(cli->arena, asked->shop->spacers, asked->shop->spacer_count, total_mm, 0.0, TW_STACK_NEAREST);
}

static void put_neighbour_json(tw_cli *cli, const question *asked, const char *name, bool has, double total_mm)
{
    tw_putf(cli->out, ", \"%s_mm\": ", name);
    if (has) tw_put_json_number(cli->out, total_mm);
    else tw_put_text(cli->out, "null");
    tw_putf(cli->out, ", \"%s_stack\": ", name);
    tw_stack stack = {0};
    if (has) stack = stack_making(cli, asked, total_mm);
    put_stack_json(cli->out, asked->shop, &stack);
}

static void put_answer_json(tw_cli *cli, const question *asked)
{
    tw_sink *out = cli->out;
    const tw_stack *stack = &asked->stack;
    tw_put_text(out, "{\"wanted_mm\": ");
    tw_put_json_number(out, asked->wanted_mm);
    tw_put_text(out, ", \"stack\": ");
    put_stack_json(out, asked->shop, stack);
    if (stack->ok) {
        tw_put_text(out, ", \"total_mm\": ");
        tw_put_json_number(out, stack->total_mm);
        tw_put_text(out, ", \"error_mm\": ");
        tw_put_json_number(out, stack->error_mm);
    } else {
        tw_put_text(out, ", \"total_mm\": null, \"error_mm\": null");
        put_neighbour_json(cli, asked, "below", stack->has_below, stack->below_mm);
        put_neighbour_json(cli, asked, "above", stack->has_above, stack->above_mm);
    }
    if (!stack->proved) tw_put_text(out, ", \"proved\": false");
    tw_put_text(out, "}\n");
}

static void put_parts(tw_sink *out, const tw_shop *shop, const tw_stack *stack)
{
    for (int i = 0; i < stack->part_count; i++) {
        const tw_spacer *spacer = &shop->spacers[stack->parts[i].spacer];
        put_line(out, shop, stack->parts[i].count, spacer->name, stack->parts[i].count * spacer->size.value);
    }
}

static const char *side_words(tw_stack_side side)
{
    return side == TW_STACK_NO_LESS ? ", no less" : side == TW_STACK_NO_MORE ? ", no more" : "";
}

static void put_neighbour(tw_cli *cli, const question *asked, const char *name, bool has, double total_mm)
{
    if (!has) {
        tw_putf(cli->out, "  Nearest %s: none; all the spacers together do not reach so far.\n", name);
        return;
    }
    tw_stack stack = stack_making(cli, asked, total_mm);
    tw_putf(cli->out, "  Nearest %s: %.4f mm (%s).\n", name, total_mm, tw_stack_text(cli->arena, asked->shop->spacers, &stack));
}

static void put_answer(tw_cli *cli, const question *asked)
{
    const tw_stack *stack = &asked->stack;
    if (stack->ok) {
        tw_putf(cli->out, "For %.4f mm%s:\n", asked->wanted_mm, side_words(asked->side));
        put_parts(cli->out, asked->shop, stack);
        tw_putf(cli->out, "  total %.4f mm, ", stack->total_mm);
        if (stack->error_mm == 0.0) tw_put_text(cli->out, "exact\n");
        else tw_putf(cli->out, "%.4f mm %s\n", fabs(stack->error_mm), stack->error_mm > 0.0 ? "heavy" : "light");
    } else {
        tw_putf(cli->out, "No stack of these spacers comes within %g mm of %.4f mm%s.\n", asked->tolerance_mm, asked->wanted_mm,
                side_words(asked->side));
        put_neighbour(cli, asked, "below", stack->has_below, stack->below_mm);
        put_neighbour(cli, asked, "above", stack->has_above, stack->above_mm);
    }
    if (!stack->proved) tw_put_text(cli->out, "The search was cut short: there may be a better stack.\n");
}

static tw_exit ask_for_stack(tw_cli *cli, const tw_arguments *given, const tw_shop *shop)
{
    question asked = { .shop = shop, .tolerance_mm = shop->machine.spacer_tolerance.value };
    const char *tolerance = tw_value_of(given, "tolerance");
    if (!tw_length_given(cli, "LENGTH", given->operand, 0.0, TW_STACK_MOST_MM, &asked.wanted_mm)) return TW_EXIT_WRONG;
    if (tolerance && !tw_length_given(cli, "--tolerance", tolerance, 0.0, TW_STACK_MOST_MM, &asked.tolerance_mm)) return TW_EXIT_WRONG;
    asked.side = tw_has(given, "no-less") ? TW_STACK_NO_LESS : tw_has(given, "no-more") ? TW_STACK_NO_MORE : TW_STACK_NEAREST;
    asked.stack = tw_stack_find(cli->arena, shop->spacers, shop->spacer_count, asked.wanted_mm, asked.tolerance_mm, asked.side);
    if (tw_has(given, "json")) put_answer_json(cli, &asked);
    else put_answer(cli, &asked);
    return asked.stack.ok ? TW_EXIT_DONE : TW_EXIT_HALT;
}

static tw_exit reckon_spacers(tw_cli *cli, const tw_arguments *given)
{
    bool list = tw_has(given, "list");
    if (!list && !given->operand)
        return tw_refuse(cli, "reckon spacers needs LENGTH", tw_format(cli->arena, "for example: %s", given->command->example));
    if (list && (given->operand || tw_has(given, "tolerance") || tw_has(given, "no-less") || tw_has(given, "no-more")))
        return tw_refuse(cli, "--list stands alone", "leave out the length, the tolerance and the side, or leave out --list");
    if (tw_has(given, "no-less") && tw_has(given, "no-more"))
        return tw_refuse(cli, "--no-less and --no-more together leave no side", "give one of them, or neither for the nearest");
    const tw_shop *shop;
    tw_exit status = read_shop(cli, tw_value_of(given, "shop"), &shop);
    if (status != TW_EXIT_DONE) return status;
    if (!list) return ask_for_stack(cli, given, shop);
    put_list(cli->out, shop, tw_has(given, "json"));
    return TW_EXIT_DONE;
}

const tw_command tw_reckon_spacers = {
    .words = "reckon spacers", .operand = "LENGTH",
    .options = {
        { .name = "shop", .value = "SHOP", .required = true, .meaning = "the shop file with the spacers" },
        { .name = "tolerance", .value = "T", .meaning = "how near the stack must come; the shop's spacer tolerance when not given" },
        { .name = "no-less", .meaning = "the stack may be heavy, not light" },
        { .name = "no-more", .meaning = "the stack may be light, not heavy" },
        { .name = "list", .meaning = "every spacer owned, instead of a stack" },
        { .name = "json", .meaning = "one JSON object on standard output" } },
    .meaning = "a stack of the shop's spacers for a length",
    .more = "The smallest error wins, then the fewest pieces, then the largest pieces. No spacer is used more often than it is owned.\n"
            "Bare numbers are millimetres, whatever the shop's own unit is. The program ends with 1 when nothing lies within the\n"
            "tolerance, and gives the nearest stacks below and above.",
    .example = "tuskwright reckon spacers \"1-1/2 in\" --shop shop.yaml --no-less",
    .run = reckon_spacers,
};
