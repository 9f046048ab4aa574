// SPDX-License-Identifier: GPL-3.0-or-later
/* reckon wedge, fraction, moisture, movement: one sum each, in words with the sum shown, or as one JSON object. */
#include "cli/cli.h"
#include "mech/mech.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define JSON { .name = "json", .meaning = "one JSON object on standard output" }

/* ,"key": number -- the first key without its comma */
static void put_number(tw_sink *out, const char *before, const char *key, double value)
{
    tw_putf(out, "%s\"%s\": ", before, key);
    tw_put_json_number(out, value);
}

/* ---- wedge ---- */

#define STEEP_DEG 5.0  // common practice: wedges of 4 to 5 degrees

static void put_wedge_json(tw_sink *out, const tw_wedge *wedge)
{
    put_number(out, "{", "draw_mm_per_mm", wedge->draw_mm_per_mm);
    put_number(out, ", ", "draw_force_per_drive_force", wedge->draw_force_per_drive_force);
    put_number(out, ", ", "release_force_per_draw_force", wedge->release_force_per_draw_force);
    tw_putf(out, ", \"holds_itself\": %s", wedge->holds_itself ? "true" : "false");
    put_number(out, ", ", "friction_angle_deg", wedge->friction_angle_deg);
    put_number(out, ", ", "margin_deg", wedge->margin_deg);
    tw_put_text(out, "}\n");
}

static void put_wedge_words(tw_sink *out, const tw_wedge *wedge, double angle_deg, double mu_flat, double mu_ramp)
{
    double flat = tw_degrees(atan(mu_flat)), ramp = tw_degrees(atan(mu_ramp));
    tw_putf(out, "A wedge with one face sloping %.2f° (1:%.1f). Friction %g on its flat face (%.2f°), %g on its ramp (%.2f°).\n\n",
            angle_deg, 1.0 / wedge->draw_mm_per_mm, mu_flat, flat, mu_ramp, ramp);
    tw_putf(out, "  For each mm it is driven it draws %.4f mm.\n      tan %.2f° = %.4f\n", wedge->draw_mm_per_mm, angle_deg,
            wedge->draw_mm_per_mm);
    tw_putf(out, "  A push of 1 N on its head draws with %.3f N.\n      1 / (tan %.2f° + tan(%.2f° + %.2f°)) = %.3f\n",
            wedge->draw_force_per_drive_force, flat, angle_deg, ramp, wedge->draw_force_per_drive_force);
    if (wedge->holds_itself) {
        tw_putf(out, "  For each N that it holds, a push of %.3f N on its tip frees it.\n", wedge->release_force_per_draw_force);
        tw_putf(out, "      tan %.2f° + tan(%.2f° - %.2f°) = %.3f\n", flat, ramp, angle_deg, wedge->release_force_per_draw_force);
        tw_putf(out, "  It holds itself: it would spring out only beyond %.2f° + %.2f° = %.2f°, which is %.2f° away.\n", flat, ramp,
                wedge->friction_angle_deg, wedge->margin_deg);
    } else {
        tw_putf(out, "  It does not hold itself: it springs out from %.2f° + %.2f° = %.2f° on, and stands %.2f° beyond.\n", flat, ramp,
                wedge->friction_angle_deg, -wedge->margin_deg);
    }
    tw_put_text(out, "\nWaxed or shaken wood has less friction: reckon again with the lowest that you expect.\n");
    if (angle_deg > STEEP_DEG + 1e-9)
        tw_put_text(out, "Take care: wedges of 4 to 5 degrees are common practice; "
                         "a steeper one draws faster, but holds less and works loose sooner.\n");
}

static tw_exit reckon_wedge(tw_cli *cli, const tw_arguments *given)
{
    double angle_rad, mu_flat, mu_ramp;
    const char *flat = tw_value_of(given, "friction"), *ramp = tw_value_of(given, "friction-ramp"), *why;
    if (!tw_angle_given(cli, "--angle", tw_value_of(given, "angle"), &angle_rad)) return TW_EXIT_WRONG;
    if (!tw_number_given(cli, "--friction", flat, "", 0.0, 5.0, &mu_flat)) return TW_EXIT_WRONG;
    mu_ramp = mu_flat;
    if (ramp && !tw_number_given(cli, "--friction-ramp", ramp, "", 0.0, 5.0, &mu_ramp)) return TW_EXIT_WRONG;
    tw_wedge wedge;
    if (!tw_wedge_reckon(angle_rad, mu_flat, mu_ramp, &wedge, &why)) return tw_refuse(cli, why, "");
    if (tw_has(given, "json")) put_wedge_json(cli->out, &wedge);
    else put_wedge_words(cli->out, &wedge, tw_degrees(angle_rad), mu_flat, mu_ramp);
    return TW_EXIT_DONE;
}

const tw_command tw_reckon_wedge = {
    .words = "reckon wedge",
    .options = {
        { .name = "angle", .value = "A", .required = true, .meaning = "slope of its one sloping face: 5, \"5 deg\" or 1:12" },
        { .name = "friction", .value = "MU", .required = true,
          .meaning = "coefficient of friction, of both faces; dry planed wood: 0.3 to 0.5" },
        { .name = "friction-ramp", .value = "MU", .meaning = "of the sloping face alone, where it differs" },
        JSON },
    .meaning = "what a wedge draws, whether it holds itself, and what frees it",
    .more = "",
    .example = "tuskwright reckon wedge --angle \"5 deg\" --friction 0.4",
    .run = reckon_wedge,
};

/* ---- fraction ---- */

static bool parts_given(tw_cli *cli, const char *text, int *parts)
{
    double value = 64.0;
    if (text && !tw_number_given(cli, "--parts", text, "", 1.0, 1024.0, &value)) return false;
    *parts = (int)value;
    if (*parts == value && (*parts & (*parts - 1)) == 0) return true;
    tw_refuse(cli, tw_format(cli->arena, "--parts \"%s\": an inch is not parted so", text), "2, 4, 8, 16, 32 or 64 would do");
    return false;
}

static tw_exit reckon_fraction(tw_cli *cli, const tw_arguments *given)
{
    double length_mm;
    int parts;
    if (!tw_length_given(cli, "LENGTH", given->operand, -1e6, 1e6, &length_mm)) return TW_EXIT_WRONG;
    if (!parts_given(cli, tw_value_of(given, "parts"), &parts)) return TW_EXIT_WRONG;
    tw_fraction fraction = tw_fraction_of(length_mm, parts);
    const char *text = tw_fraction_text(cli->arena, fraction);
    int sign = fraction.negative ? -1 : 1;
    if (tw_has(given, "json")) {
        tw_putf(cli->out, "{\"whole\": %ld, \"numerator\": %ld, \"denominator\": %ld", sign * fraction.whole, sign * fraction.numerator,
                fraction.denominator);
        put_number(cli->out, ", ", "remainder_mm", fraction.remainder_mm);
        tw_put_text(cli->out, ", \"text\": ");
        tw_put_json_text(cli->out, text);
        tw_put_text(cli->out, "}\n");
        return TW_EXIT_DONE;
    }
    double fraction_mm = length_mm - fraction.remainder_mm;
    tw_figures figures = { .style = TW_FIGURES_FRACTION, .parts = parts };
    tw_putf(cli->out, "%g mm is %s, to the nearest 1/%d.\n", length_mm, tw_length_text(cli->arena, length_mm, figures), parts);
    tw_putf(cli->out, "  %g mm / 25.4 = %.5f in; the fraction is %.4f mm, and %g - %.4f = %.4f mm.\n", length_mm, length_mm / TW_MM_PER_INCH,
            fraction_mm, length_mm, fraction_mm, fraction.remainder_mm);
    return TW_EXIT_DONE;
}

const tw_command tw_reckon_fraction = {
    .words = "reckon fraction", .operand = "LENGTH", .operand_required = true,
    .options = { { .name = "parts", .value = "64",
                   .meaning = "into how many parts the inch is divided: 2, 4, 8, 16, 32, 64 (if not given)" }, JSON },
    .meaning = "a length as a fraction of an inch, heavy or light",
    .more = "The remainder is the amount less the fraction: positive is heavy, negative is light. A tie goes away from zero.\n"
            "In JSON a negative amount has its sign on whole and numerator both.",
    .example = "tuskwright reckon fraction 9.6 --parts 64",
    .run = reckon_fraction,
};

/* ---- moisture ---- */

/* "20", "20 C", "68 F", with or without the ring. */
static bool temperature_given(tw_cli *cli, const char *text, double *temperature_c)
{
    double value;
    size_t read = tw_read_number(tw_text_of(text), &value);
    const char *unit = text + read;
    unit += strspn(unit, " ");
    if (strncmp(unit, "°", strlen("°")) == 0) unit += strlen("°");
    else if (strncmp(unit, "deg", 3) == 0) unit += 3;
    unit += strspn(unit, " ");
    bool fahrenheit = strcmp(unit, "F") == 0 || strcmp(unit, "f") == 0;
    if (read == 0 || !(fahrenheit || *unit == '\0' || strcmp(unit, "C") == 0 || strcmp(unit, "c") == 0)) {
        tw_refuse(cli, tw_format(cli->arena, "--temperature \"%s\": this is no temperature", text), "20, \"20 C\" or \"68 F\" would do");
        return false;
    }
    *temperature_c = fahrenheit ? (value - 32.0) / 1.8 : value;
    return true;
}

static tw_exit reckon_moisture(tw_cli *cli, const tw_arguments *given)
{
    double temperature_c, humidity, moisture;
    const char *why;
    if (!temperature_given(cli, tw_value_of(given, "temperature"), &temperature_c)) return TW_EXIT_WRONG;
    if (!tw_number_given(cli, "--humidity", tw_value_of(given, "humidity"), "%", 0.0, 100.0, &humidity)) return TW_EXIT_WRONG;
    if (!tw_moisture_reckon(temperature_c, humidity, &moisture, &why)) return tw_refuse(cli, why, "");
    if (tw_has(given, "json")) {
        put_number(cli->out, "{", "moisture_percent", moisture);
        tw_put_text(cli->out, "}\n");
        return TW_EXIT_DONE;
    }
    tw_putf(cli->out, "In air of %.1f °C (%.1f °F) and %g %% relative humidity wood settles at %.1f %% of moisture.\n", temperature_c,
            temperature_c * 1.8 + 32.0, humidity, moisture);
    tw_put_text(cli->out, "  Wood Handbook (FPL-GTR-190), equation 4-5. An average of all timbers; a thick piece takes weeks to get there.\n");
    return TW_EXIT_DONE;
}

const tw_command tw_reckon_moisture = {
    .words = "reckon moisture",
    .options = {
        { .name = "temperature", .value = "T", .required = true,
          .meaning = "of the air: 20, \"20 C\" or \"68 F\"; -1.1 to 93.3 degrees Celsius" },
        { .name = "humidity", .value = "H", .required = true, .meaning = "relative humidity in percent: 65 or \"65 %\"" },
        JSON },
    .meaning = "the moisture at which wood settles in air",
    .more = "",
    .example = "tuskwright reckon moisture --temperature 20 --humidity 65",
    .run = reckon_moisture,
};

/* ---- movement ---- */

#define NAMES_SHOWN 12

static const char *in_small_letters(tw_arena *arena, const char *text)
{
    char *copy = tw_text_copy(arena, tw_text_of(text));
    for (char *at = copy; *at; at++)
        if (*at >= 'A' && *at <= 'Z') *at = (char)(*at - 'A' + 'a');
    return copy;
}

/* The timbers whose names hold the word: "Maple, black; Maple, red; ...", the first of them when there are many; "" when none. */
static const char *timbers_holding(tw_arena *arena, const char *word)
{
    const char *list = "";
    int shown = 0;
    const char *wanted = in_small_letters(arena, word);
    for (size_t i = 0; i < tw_timber_count; i++) {
        if (!strstr(in_small_letters(arena, tw_timbers[i].name), wanted)) continue;
        if (++shown > NAMES_SHOWN) continue;
        list = tw_format(arena, "%s%s%s", list, shown == 1 ? "" : "; ", tw_timbers[i].name);
    }
    return shown > NAMES_SHOWN ? tw_format(arena, "%s, and %d more", list, shown - NAMES_SHOWN) : list;
}

static tw_exit refuse_timber(tw_cli *cli, const char *name, const char *nearest)
{
    const char *holding = *name ? timbers_holding(cli->arena, name) : "";
    const char *right = *holding ? tw_format(cli->arena, "of that name there are: %s", holding)
                      : nearest ? tw_format(cli->arena, "the nearest is \"%s\"", nearest)
                                : "the names are those of the Wood Handbook, such as \"Oak, white\"";
    return tw_refuse(cli, tw_format(cli->arena, "--timber \"%s\": no single timber has this name", name), right);
}

static bool sawn_given(tw_cli *cli, const char *text, bool *quarter)
{
    *quarter = strcmp(text, "quarter") == 0;
    if (*quarter || strcmp(text, "flat") == 0) return true;
    tw_refuse(cli, tw_format(cli->arena, "--sawn \"%s\": a board is sawn flat or quarter", text), "write --sawn flat or --sawn quarter");
    return false;
}

static void put_movement_words(tw_sink *out, const tw_timber *timber, double size_mm, bool quarter, double from, double to, double change_mm)
{
    double coefficient = quarter ? timber->change_radial : timber->change_tangential;
    const char *verb = change_mm > 0.0 ? "swells" : change_mm < 0.0 ? "shrinks" : "stays as it is:";
    tw_putf(out, "%g mm of %s, %s sawn, %s %.2f mm from %g %% to %g %% of moisture.\n", size_mm, timber->name, quarter ? "quarter" : "flat",
            verb, fabs(change_mm), from, to);
    tw_putf(out, "  %g mm x %.5f x (%g - %g) = %.3f mm   (Wood Handbook, table 13-5, across the grain)\n", size_mm, coefficient, to, from,
            change_mm);
}

static tw_exit reckon_movement(tw_cli *cli, const tw_arguments *given)
{
    double size_mm, from, to, change_mm;
    bool quarter;
    const char *nearest, *caution, *why, *name = tw_value_of(given, "timber");
    const tw_timber *timber = tw_timber_find(cli->arena, name, &nearest);
    if (!timber) return refuse_timber(cli, name, nearest);
    if (!tw_length_given(cli, "--size", tw_value_of(given, "size"), 0.0, 1e6, &size_mm)) return TW_EXIT_WRONG;
    if (!sawn_given(cli, tw_value_of(given, "sawn"), &quarter)) return TW_EXIT_WRONG;
    if (!tw_number_given(cli, "--from", tw_value_of(given, "from"), "%", 0.0, 30.0, &from)) return TW_EXIT_WRONG;
    if (!tw_number_given(cli, "--to", tw_value_of(given, "to"), "%", 0.0, 30.0, &to)) return TW_EXIT_WRONG;
    if (!tw_movement_reckon(timber, size_mm, quarter, from, to, &change_mm, &caution, &why))
        return tw_refuse(cli, tw_format(cli->arena, "%s: %s", timber->name, why), "");
    if (!tw_has(given, "json")) {
        put_movement_words(cli->out, timber, size_mm, quarter, from, to, change_mm);
        if (caution) tw_putf(cli->out, "Take care: %s.\n", caution);
        return TW_EXIT_DONE;
    }
    put_number(cli->out, "{", "change_mm", change_mm);
    if (caution) {
        tw_put_text(cli->out, ", \"caution\": ");
        tw_put_json_text(cli->out, caution);
    }
    tw_put_text(cli->out, "}\n");
    return TW_EXIT_DONE;
}

const tw_command tw_reckon_movement = {
    .words = "reckon movement",
    .options = {
        { .name = "timber", .value = "NAME", .required = true, .meaning = "as in the Wood Handbook: \"Oak, white\" or \"white oak\"" },
        { .name = "size", .value = "L", .required = true, .meaning = "width or thickness across the grain" },
        { .name = "sawn", .value = "flat|quarter", .required = true,
          .meaning = "flat: across the face of a flat-sawn board; quarter: of a quarter-sawn one" },
        { .name = "from", .value = "MC", .required = true, .meaning = "moisture content before, in percent" },
        { .name = "to", .value = "MC", .required = true, .meaning = "moisture content after, in percent" },
        JSON },
    .meaning = "how far a board moves across its grain when its moisture changes",
    .more = "The coefficients hold from 6 to 14 % of moisture; outside of that the answer carries a caution.",
    .example = "tuskwright reckon movement --timber \"Oak, white\" --size 100 --sawn flat --from 8 --to 12",
    .run = reckon_movement,
};
