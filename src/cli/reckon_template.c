// SPDX-License-Identifier: GPL-3.0-or-later
/* reckon template: the template for any outline, with the cut that it really gives. */
#include "cli/cli.h"
#include "cli/outline_file.h"
#include "template/copy.h"

#include <math.h>
#include <string.h>

#define DIAMETER_LEAST_MM 0.01
#define DIAMETER_MOST_MM 1000.0
#define RATIO_LEAST 0.05
#define RATIO_MOST 20.0

/* ---- JSON ---- */

static void put_loops(tw_sink *out, const char *key, tw_outline outline)
{
    tw_putf(out, "\"%s\": [", key);
    for (int i = 0; i < outline.count; i++) {
        tw_put_text(out, i == 0 ? "[" : ", [");
        for (int j = 0; j < outline.loops[i].count; j++) {
            const tw_vertex *vertex = &outline.loops[i].vertices[j];
            tw_put_text(out, j == 0 ? "[" : ", [");
            tw_put_json_number(out, vertex->x);
            tw_put_text(out, ", ");
            tw_put_json_number(out, vertex->y);
            tw_put_text(out, ", ");
            tw_put_json_number(out, vertex->bulge);
            tw_put_text(out, "]");
        }
        tw_put_text(out, "]");
    }
    tw_put_text(out, "], ");
}

static void put_figure(tw_sink *out, const char *key, double value)
{
    tw_putf(out, "\"%s\": ", key);
    tw_put_json_number(out, value);
    tw_put_text(out, ", ");
}

/* The notes; a template that cannot be has its reason and remedy first. */
static const char **notes_of(tw_arena *arena, const tw_copy *copy, int *count)
{
    const char **notes = TW_NEW_ARRAY(arena, const char *, (size_t)copy->note_count + 1);
    *count = 0;
    if (!copy->ok) notes[(*count)++] = *copy->remedy ? tw_format(arena, "%s; %s", copy->why, copy->remedy) : copy->why;
    for (int i = 0; i < copy->note_count; i++) notes[(*count)++] = copy->notes[i];
    return notes;
}

static void put_json(tw_cli *cli, const tw_copy *copy)
{
    tw_sink *out = cli->out;
    tw_put_text(out, "{");
    put_loops(out, "cutter_path", copy->cutter_path);
    put_loops(out, "template", copy->template_);
    put_loops(out, "achieved", copy->achieved);
    put_figure(out, "left_area_mm2", copy->left_area_mm2);
    put_figure(out, "lost_area_mm2", copy->lost_area_mm2);
    put_figure(out, "corner_radius_mm", copy->corner_radius_mm);
    put_figure(out, "lost_radius_mm", copy->lost_radius_mm);
    tw_put_text(out, "\"notes\": [");
    int count;
    const char **notes = notes_of(cli->arena, copy, &count);
    for (int i = 0; i < count; i++) {
        tw_put_text(out, i == 0 ? "" : ", ");
        tw_put_json_text(out, notes[i]);
    }
    tw_put_text(out, "]}\n");
}

/* ---- words ---- */

static double no_minus_nothing(double value, double shown) { return fabs(value) < shown / 2.0 ? 0.0 : value; }

static void put_outline_words(tw_sink *out, const char *name, tw_outline outline)
{
    if (outline.count == 0) return;
    tw_box box = tw_outline_bounds(outline);
    tw_putf(out, "\n%s: %.3f x %.3f mm, area %.2f mm²\n", name, box.x1 - box.x0, box.y1 - box.y0, tw_outline_area_mm2(outline));
    for (int i = 0; i < outline.count; i++) {
        tw_putf(out, "  loop %d\n           x          y      bulge\n", i + 1);
        for (int j = 0; j < outline.loops[i].count; j++) {
            const tw_vertex *vertex = &outline.loops[i].vertices[j];
            tw_putf(out, "  %10.3f %10.3f %10.6f\n", no_minus_nothing(vertex->x, 1e-3), no_minus_nothing(vertex->y, 1e-3),
                    no_minus_nothing(vertex->bulge, 1e-6));
        }
    }
}

/* Design section 5: r (w - d) + b for a slot, r (w + d) - b for a tenon; then multiplied out. */
static void put_sum(tw_sink *out, const tw_copy_ask *ask)
{
    double d = ask->cutter_mm, b = ask->follower_mm, r = ask->ratio;
    double rest = ask->inside ? b - r * d : r * d - b;
    tw_putf(out, "Cutter %g mm, follower %g mm, ratio %g, trace %s.\n", d, b, r, ask->inside ? "inside" : "outside");
    tw_putf(out, ask->inside ? "  A slot of width w wants a template slot %g x (w - %g) + %g = %g w %s %g mm wide.\n"
                             : "  A tenon of width w wants a template %g x (w + %g) - %g = %g w %s %g mm wide.\n",
            r, d, b, r, rest < 0.0 ? "-" : "+", fabs(rest));
}

static void put_differences(tw_sink *out, const tw_copy *copy)
{
    if (copy->left_area_mm2 > 0.0)
        tw_putf(out, "\nWood left in hollow corners: %.3f mm² (they keep a radius of %.3f mm).\n", copy->left_area_mm2, copy->corner_radius_mm);
    if (copy->lost_area_mm2 > 0.0)
        tw_putf(out, "\nWood lost at outward corners: %.3f mm² (rounded at %.3f mm).\n", copy->lost_area_mm2, copy->lost_radius_mm);
    if (copy->left_area_mm2 == 0.0 && copy->lost_area_mm2 == 0.0) tw_put_text(out, "\nThe cut comes out as it is wanted.\n");
}

static void put_words(tw_cli *cli, const tw_copy_ask *ask, const tw_copy *copy)
{
    tw_sink *out = cli->out;
    put_sum(out, ask);
    if (!copy->ok) tw_putf(out, "\nNo such cut or template: %s%s%s.\n", copy->why, *copy->remedy ? "; " : "", copy->remedy);
    put_outline_words(out, ask->inside ? "Template, the opening" : "Template, the body", copy->template_);
    put_outline_words(out, "Path of the cutter's centre", copy->cutter_path);
    put_outline_words(out, ask->inside ? "The cut that it gives" : "What it leaves standing", copy->achieved);
    if (copy->ok) put_differences(out, copy);
    for (int i = 0; i < copy->note_count; i++) tw_putf(out, "Note: %s.\n", copy->notes[i]);
    if (copy->ok) tw_put_text(out, "Prove it on scrap first: follower already inside its template, plunge in steps, hands clear of the cutter.\n");
}

/* ---- the command ---- */

static bool trace_given(tw_cli *cli, const char *text, bool *inside)
{
    *inside = strcmp(text, "inside") == 0;
    if (*inside || strcmp(text, "outside") == 0) return true;
    tw_refuse(cli, tw_format(cli->arena, "--trace \"%s\": a template is traced inside or outside", text),
              "write --trace inside for a pocket, --trace outside for what stays");
    return false;
}

static bool ask_given(tw_cli *cli, const tw_arguments *given, tw_copy_ask *ask)
{
    const char *ratio = tw_value_of(given, "ratio");
    ask->ratio = 1.0;
    return tw_length_given(cli, "--cutter", tw_value_of(given, "cutter"), DIAMETER_LEAST_MM, DIAMETER_MOST_MM, &ask->cutter_mm) &&
           tw_length_given(cli, "--follower", tw_value_of(given, "follower"), DIAMETER_LEAST_MM, DIAMETER_MOST_MM, &ask->follower_mm) &&
           (!ratio || tw_number_given(cli, "--ratio", ratio, "", RATIO_LEAST, RATIO_MOST, &ask->ratio)) &&
           trace_given(cli, tw_value_of(given, "trace"), &ask->inside);
}

static tw_exit reckon_template(tw_cli *cli, const tw_arguments *given)
{
    tw_copy_ask ask = {0};
    if (!ask_given(cli, given, &ask)) return TW_EXIT_WRONG;
    tw_text text;
    tw_place place;
    const char *path = tw_value_of(given, "outline"), *wrong, *right;
    tw_exit status = tw_file_given(cli, path, &text);
    if (status != TW_EXIT_DONE) return status;
    if (!tw_outline_read(cli->arena, text, path, &ask.cut, &place, &wrong, &right)) return tw_refuse_at(cli, place, wrong, right);
    tw_copy copy = tw_copy_reckon(cli->arena, ask);
    if (tw_has(given, "json")) put_json(cli, &copy);
    else put_words(cli, &ask, &copy);
    return copy.ok ? TW_EXIT_DONE : TW_EXIT_HALT;
}

const tw_command tw_reckon_template = {
    .words = "reckon template",
    .options = {
        { .name = "outline", .value = "FILE", .required = true, .meaning = "JSON with the wanted cut; - reads standard input" },
        { .name = "cutter", .value = "D", .required = true, .meaning = "diameter of the cutter" },
        { .name = "follower", .value = "D", .required = true, .meaning = "diameter of the follower (bearing, bush or pin)" },
        { .name = "ratio", .value = "R", .meaning = "template travel / cutter travel; 1 when not given, 2 for a machine that halves" },
        { .name = "trace", .value = "inside|outside", .required = true, .meaning = "inside: the outline is a pocket; outside: it is what stays" },
        { .name = "json", .meaning = "one JSON object on standard output" } },
    .meaning = "the template for an outline, and the cut that it really gives",
    .more = "FILE holds {\"loops\": [[[x, y, bulge], ...], ...]} in mm, the first loop outside, others holes. bulge is the tangent of a\n"
            "quarter of the arc's angle, positive counter-clockwise, 0 for a line; [x, y] is a line too. The template is given at its\n"
            "own size: ratio times the cut, and what cutter and follower add. The program ends with 1 when there is no such template.",
    .example = "tuskwright reckon template --outline slot.json --cutter 9.525 --follower 19.05 --ratio 2 --trace inside",
    .run = reckon_template,
};
