// SPDX-License-Identifier: GPL-3.0-or-later
/* The sums of mechanics and moisture against published cases (tests/outside) and the handbook's tables (data). */
#include "tables.h"

#include "mech/mech.h"

static tw_wedge wedge_of(double angle_rad, double mu_flat, double mu_ramp)
{
    tw_wedge wedge = {0};
    const char *why = "";
    if (!tw_wedge_reckon(angle_rad, mu_flat, mu_ramp, &wedge, &why)) fail_msg("%s", why);
    return wedge;
}

static bool wedge_is_refused(double angle_rad, double mu_flat, double mu_ramp)
{
    tw_wedge wedge;
    const char *why = NULL;
    bool reckoned = tw_wedge_reckon(angle_rad, mu_flat, mu_ramp, &wedge, &why);
    assert_true(reckoned == (why == NULL));
    return !reckoned;
}

static void check_percent(const char *id, double got, double want, double percent)
{
    if (fabs(got - want) <= fabs(want) * percent / 100.0) return;
    fail_msg("check %s: got %.8g, published %.8g", id, got, want);
}

/* ---- wedges: every published kind is put together from the one-ramp wedge ---- */

typedef struct { double load, angle_rad, mu_flat, mu_ramp, mu_wall, extra; } wedge_case;

/* What the ramp carries along the draw: the load, less or more what a rubbing wall holds (B).
 * tan(angle +- friction) of the ramp is got back from the force itself. */
static double ramp_load(const wedge_case *given, bool driving)
{
    tw_wedge wedge = wedge_of(given->angle_rad, given->mu_flat, given->mu_ramp);
    if (driving) return given->load / (1.0 - given->mu_wall * (1.0 / wedge.draw_force_per_drive_force - given->mu_flat));
    return given->load / (1.0 + given->mu_wall * fabs(wedge.release_force_per_draw_force - given->mu_flat));
}

static double two_faced(const wedge_case *given, const char *quantity)
{
    tw_wedge wedge = wedge_of(given->angle_rad, given->mu_flat, given->mu_ramp);
    double drive = ramp_load(given, true), release = ramp_load(given, false);
    double friction_rad = atan(given->mu_ramp);
    if (strcmp(quantity, "drive") == 0) return drive / wedge.draw_force_per_drive_force + given->mu_flat * given->extra;
    if (strcmp(quantity, "release") == 0) return release * wedge.release_force_per_draw_force;
    if (strcmp(quantity, "ramp out") == 0) return release / cos(given->angle_rad - friction_rad);
    double resultant = drive / cos(given->angle_rad + friction_rad);
    return given->mu_wall > 0.0 ? resultant : resultant * cos(friction_rad);  // A is published by its normal part
}

/* A symmetric wedge is two wedges back to back, whose flat faces do not rub. */
static double symmetric(const wedge_case *given, const char *quantity)
{
    tw_wedge half = wedge_of(given->angle_rad, 0.0, given->mu_ramp);
    double b = given->angle_rad, mu = given->mu_ramp;
    if (strcmp(quantity, "side") == 0) return given->load / 2.0 * half.draw_force_per_drive_force;
    if (strcmp(quantity, "ramp") == 0) return given->load / 2.0 * half.draw_force_per_drive_force / cos(b + atan(mu));
    if (strcmp(quantity, "drive") == 0) return 2.0 * given->load * (cos(b) - mu * sin(b)) / half.draw_force_per_drive_force;
    return 2.0 * given->load * (cos(b) + mu * sin(b)) * half.release_force_per_draw_force;
}

static void wedges_take_the_published_forces(void **state)
{
    (void)state;
    table all = table_read("tests/outside/wedges.tsv");
    for (int row = 1; row < all.rows; row++) {
        wedge_case given = {
            .load = table_number(&all, row, "load"), .angle_rad = tw_radians(table_number(&all, row, "angle_deg")),
            .mu_flat = table_number(&all, row, "mu_flat"), .mu_ramp = table_number(&all, row, "mu_ramp"),
            .mu_wall = table_number(&all, row, "mu_wall"), .extra = table_number(&all, row, "extra"),
        };
        const char *quantity = table_text(&all, row, "quantity");
        bool is_symmetric = *table_text(&all, row, "model") == 'C';
        check_percent(table_text(&all, row, "id"), is_symmetric ? symmetric(&given, quantity) : two_faced(&given, quantity),
                      table_number(&all, row, "expected"), table_number(&all, row, "tolerance_percent"));
    }
    assert_true(all.rows == 17);
    table_finish(&all);
}

static void wedges_hold_themselves_up_to_the_published_angle(void **state)
{
    (void)state;
    table all = table_read("tests/outside/wedge-limits.tsv");
    for (int row = 1; row < all.rows; row++) {
        double mu_flat = table_number(&all, row, "mu_flat"), mu_ramp = table_number(&all, row, "mu_ramp");
        double angle = table_number(&all, row, "angle_deg"), tolerance = table_number(&all, row, "tolerance_deg");
        assert_true(wedge_of(tw_radians(angle - tolerance), mu_flat, mu_ramp).holds_itself);
        assert_false(wedge_of(tw_radians(angle + tolerance), mu_flat, mu_ramp).holds_itself);
        CHECK_NEAR(wedge_of(tw_radians(angle), mu_flat, mu_ramp).margin_deg, 0.0, tolerance);
        CHECK_NEAR(wedge_of(tw_radians(3.0), mu_flat, mu_ramp).friction_angle_deg, angle, tolerance);
    }
    assert_true(all.rows == 6);
    table_finish(&all);
}

static double torque_of(const table *all, int row, const char *quantity)
{
    double radius = table_number(all, row, "mean_diameter") / 2.0;
    tw_wedge thread = wedge_of(atan(table_number(all, row, "lead") / (2.0 * TW_PI * radius)), 0.0, table_number(all, row, "mu"));
    double load = table_number(all, row, "load");
    double collar = load * table_number(all, row, "collar_mu") * table_number(all, row, "collar_diameter") / 2.0;
    if (strcmp(quantity, "grip") == 0) return load / radius * thread.draw_force_per_drive_force;
    double force = strcmp(quantity, "raise") == 0 ? load / thread.draw_force_per_drive_force : load * thread.release_force_per_draw_force;
    return force * radius + collar;
}

static void square_threads_take_the_published_torques(void **state)
{
    (void)state;
    table all = table_read("tests/outside/threads.tsv");
    for (int row = 1; row < all.rows; row++)
        check_percent(table_text(&all, row, "id"), torque_of(&all, row, table_text(&all, row, "quantity")),
                      table_number(&all, row, "expected"), table_number(&all, row, "tolerance_percent"));
    assert_true(all.rows == 7);
    table_finish(&all);
}

/* By hand, from tan(f +- a) = (tan f +- tan a) / (1 -+ tan f tan a) with tan a = 0.0874887 (a table of tangents):
 * tan(f + a) = 0.4874887 / 0.9650045 = 0.5051672, tan(f - a) = 0.3125113 / 1.0349955 = 0.3019446; atan 0.4 = 21.801409. */
static void wedge_of_five_degrees_on_dry_wood_is_as_by_hand(void **state)
{
    (void)state;
    tw_wedge wedge = wedge_of(tw_radians(5.0), 0.4, 0.4);
    CHECK_NEAR(wedge.draw_mm_per_mm, 0.0874887, 1e-7);
    CHECK_NEAR(wedge.draw_force_per_drive_force, 1.0 / 0.9051672, 2e-7);
    CHECK_NEAR(wedge.release_force_per_draw_force, 0.7019446, 1e-7);
    CHECK_NEAR(wedge.friction_angle_deg, 43.602818, 2e-6);
    CHECK_NEAR(wedge.margin_deg, 38.602818, 2e-6);
    assert_true(wedge.holds_itself);
}

static void wedge_without_friction_is_a_plain_lever_and_springs_out(void **state)
{
    (void)state;
    tw_wedge wedge = wedge_of(tw_radians(45.0), 0.0, 0.0);
    CHECK_NEAR(wedge.draw_force_per_drive_force, 1.0, 1e-12);
    CHECK_NEAR(wedge.release_force_per_draw_force, -1.0, 1e-12);
    assert_false(wedge.holds_itself);
}

static void wedge_that_cannot_be_is_refused(void **state)
{
    (void)state;
    assert_true(wedge_is_refused(0.0, 0.3, 0.3));
    assert_true(wedge_is_refused(-0.1, 0.3, 0.3));
    assert_true(wedge_is_refused(NAN, 0.3, 0.3));
    assert_true(wedge_is_refused(INFINITY, 0.3, 0.3));
    assert_true(wedge_is_refused(0.1, -0.01, 0.3));
    assert_true(wedge_is_refused(0.1, 0.3, 5.01));
    assert_true(wedge_is_refused(0.1, NAN, 0.3));
    assert_true(wedge_is_refused(0.1, 0.3, NAN));
}

static void wedge_that_no_force_drives_is_refused(void **state)
{
    (void)state;
    assert_true(wedge_is_refused(tw_radians(45.0), 0.1, 1.0));  // 45 and 45 degrees
    assert_true(wedge_is_refused(tw_radians(90.0), 0.0, 0.0));
    assert_false(wedge_is_refused(tw_radians(44.9), 0.1, 1.0));
}

/* ---- moisture ---- */

static double moisture_of(double temperature_c, double humidity_percent)
{
    double percent = NAN;
    const char *why = "";
    if (!tw_moisture_reckon(temperature_c, humidity_percent, &percent, &why)) fail_msg("%s", why);
    return percent;
}

static void moisture_follows_the_handbook_over_its_whole_table(void **state)
{
    (void)state;
    table all = table_read("data/emc.tsv");
    double largest = 0.0;
    for (int row = 1; row < all.rows; row++) {
        double got = moisture_of(table_number(&all, row, "temperature_c"), table_number(&all, row, "relative_humidity_percent"));
        largest = tw_max(largest, fabs(got - table_number(&all, row, "emc_percent")));
    }
    assert_true(all.rows == 343);
    CHECK_NEAR(largest, 0.057, 0.0005);  // the labels are rounded: data/README.md
    table_finish(&all);
}

/* The same equation worked through apart, in another language, in double precision. */
static void moisture_is_as_worked_through_apart(void **state)
{
    (void)state;
    CHECK_NEAR(moisture_of(20.0, 65.0), 11.99626722, 1e-7);
    CHECK_NEAR(moisture_of(60.0, 30.0), 5.02246064, 1e-7);
    CHECK_NEAR(moisture_of(0.0, 90.0), 21.02569539, 1e-7);
}

static void moisture_of_dry_air_is_none(void **state)
{
    (void)state;
    CHECK_NEAR(moisture_of(20.0, 0.0), 0.0, 1e-12);
}

static bool moisture_is_refused(double temperature_c, double humidity_percent)
{
    double percent = NAN;
    const char *why = NULL;
    bool reckoned = tw_moisture_reckon(temperature_c, humidity_percent, &percent, &why);
    assert_true(reckoned == (why == NULL));
    return !reckoned;
}

static void moisture_outside_of_the_table_is_refused(void **state)
{
    (void)state;
    assert_false(moisture_is_refused(-10.0 / 9.0, 50.0));  // 30 F
    assert_false(moisture_is_refused(840.0 / 9.0, 50.0));  // 200 F
    assert_true(moisture_is_refused(-1.2, 50.0));
    assert_true(moisture_is_refused(93.4, 50.0));
    assert_true(moisture_is_refused(20.0, -0.1));
    assert_true(moisture_is_refused(20.0, 100.0));
    assert_true(moisture_is_refused(NAN, 50.0));
    assert_true(moisture_is_refused(20.0, NAN));
}

/* ---- timber and movement ---- */

static const tw_timber *timber(const char *name, const char **nearest)
{
    tw_arena arena = {0};
    const tw_timber *found = tw_timber_find(&arena, name, nearest);
    tw_arena_finish(&arena);
    return found;
}

static double movement_of(const char *name, double size, bool quarter, double from, double to)
{
    const tw_timber *found = timber(name, NULL);
    double change = NAN;
    const char *caution, *why = "no such timber";
    if (!found || !tw_movement_reckon(found, size, quarter, from, to, &change, &caution, &why)) fail_msg("%s: %s", name, why);
    return change;
}

static void movement_is_as_published(void **state)
{
    (void)state;
    table all = table_read("tests/outside/movement.tsv");
    for (int row = 1; row < all.rows; row++) {
        bool is_coefficient = *table_text(&all, row, "size") == '\0';
        double size = is_coefficient ? 1.0 : table_number(&all, row, "size");
        double from = is_coefficient ? 8.0 : table_number(&all, row, "from"), to = is_coefficient ? 9.0 : table_number(&all, row, "to");
        CHECK_NEAR(movement_of(table_text(&all, row, "timber"), size, strcmp(table_text(&all, row, "sawn"), "quarter") == 0, from, to),
                   table_number(&all, row, "expected"), table_number(&all, row, "tolerance"));
    }
    assert_true(all.rows == 20);
    table_finish(&all);
}

static void drying_shrinks_as_much_as_wetting_swells(void **state)
{
    (void)state;
    CHECK_NEAR(movement_of("Oak, white", 100.0, false, 12.0, 8.0), -1.46, 1e-9);  // 100 * 0.00365 * -4
    CHECK_NEAR(movement_of("Oak, white", 100.0, false, 8.0, 12.0), 1.46, 1e-9);
}

static void movement_beyond_the_span_of_the_coefficients_is_cautioned(void **state)
{
    (void)state;
    double change;
    const char *caution, *why;
    assert_true(tw_movement_reckon(timber("Oak, white", NULL), 100.0, false, 6.0, 14.0, &change, &caution, &why));
    assert_null(caution);
    assert_true(tw_movement_reckon(timber("Oak, white", NULL), 100.0, false, 5.9, 14.0, &change, &caution, &why));
    CHECK_HOLDS(caution, "between 6 and 14 %");
    assert_true(tw_movement_reckon(timber("Oak, white", NULL), 100.0, false, 6.0, 14.1, &change, &caution, &why));
    CHECK_HOLDS(caution, "between 6 and 14 %");
}

static bool movement_is_refused(const char *name, double size, bool quarter, double from, double to, const char *part)
{
    double change;
    const char *caution, *why;
    if (tw_movement_reckon(timber(name, NULL), size, quarter, from, to, &change, &caution, &why)) return false;
    CHECK_HOLDS(why, part);
    return true;
}

static void movement_without_sense_is_refused(void **state)
{
    (void)state;
    assert_true(movement_is_refused("Oak, white", -1.0, false, 8.0, 12.0, "size"));
    assert_true(movement_is_refused("Oak, white", INFINITY, false, 8.0, 12.0, "size"));
    assert_true(movement_is_refused("Oak, white", 100.0, false, -0.5, 12.0, "0 and 30"));
    assert_true(movement_is_refused("Oak, white", 100.0, false, 8.0, 31.0, "0 and 30"));
    assert_true(movement_is_refused("Oak, white", 100.0, false, NAN, 12.0, "0 and 30"));
}

static void movement_of_a_timber_without_coefficient_is_refused(void **state)
{
    (void)state;
    assert_true(movement_is_refused("Balsa", 100.0, false, 8.0, 12.0, "tangential"));
    assert_true(movement_is_refused("Hickory, shellbark", 100.0, true, 8.0, 12.0, "radial"));
    assert_false(movement_is_refused("Hickory, shellbark", 100.0, false, 8.0, 12.0, ""));
}

static void timbers_are_found_by_the_names_that_makers_use(void **state)
{
    (void)state;
    assert_string_equal(timber("Oak, white", NULL)->name, "Oak, white");
    assert_string_equal(timber("oak,  WHITE ", NULL)->name, "Oak, white");
    assert_string_equal(timber("white oak", NULL)->name, "Oak, white");
    assert_string_equal(timber("Northern Red Oak", NULL)->name, "Oak, northern red");
    assert_string_equal(timber("western redcedar", NULL)->name, "Cedar, western redcedar");
    assert_string_equal(timber("coast douglas-fir", NULL)->name, "Douglas-fir, coast");
    assert_string_equal(timber("teak", NULL)->name, "Teak");
}

static void unknown_timber_gives_the_nearest_name_or_none(void **state)
{
    (void)state;
    const char *nearest = NULL;
    assert_null(timber("Oak, whit", &nearest));
    assert_string_equal(nearest, "Oak, white");
    assert_null(timber("wite oak", &nearest));
    assert_string_equal(nearest, "Oak, white");
    assert_null(timber("granite of the hills", &nearest));
    assert_null(nearest);
    assert_null(timber("black", &nearest));  // of a dozen timbers
    assert_null(timber("", &nearest));
    assert_null(nearest);
    assert_null(timber("oak", &nearest));  // of many timbers; by its letters teak would be the nearest
    assert_int_equal(strncmp(nearest, "Oak, ", 5), 0);
    assert_null(timber("teakwood", &nearest));
}

static bool same_figure(double got, double want) { return isnan(want) ? isnan(got) : got == want; }

static void compiled_timbers_are_the_table(void **state)
{
    (void)state;
    table all = table_read("data/wood.tsv");
    assert_true((size_t)all.rows - 1 == tw_timber_count);
    for (int row = 1; row < all.rows; row++) {
        const tw_timber *here = &tw_timbers[row - 1];
        assert_string_equal(here->name, table_text(&all, row, "name"));
        assert_string_equal(here->group, table_text(&all, row, "group"));
#define SAME(column) assert_true(same_figure(here->column, table_number(&all, row, #column)))
        SAME(specific_gravity_12); SAME(mor_mpa); SAME(moe_mpa); SAME(compression_parallel_mpa);
        SAME(compression_perpendicular_mpa); SAME(shear_parallel_mpa); SAME(tension_perpendicular_mpa); SAME(hardness_n);
        SAME(change_radial); SAME(change_tangential);
#undef SAME
    }
    table_finish(&all);
}

static void density_at_twelve_percent_is_1120_times_the_specific_gravity(void **state)
{
    (void)state;
    CHECK_NEAR(tw_density_kg_m3(0.68, 12.0), 761.6, 1e-9);  // GTR-282, equation 4-14
    CHECK_NEAR(tw_density_kg_m3(0.68, 0.0), 680.0, 1e-9);
}

/* ---- speeds ---- */

static void router_speed_is_the_lowest_of_the_published_charts(void **state)
{
    (void)state;
    table all = table_read("tests/outside/speeds.tsv");
    for (double diameter_in = 0.125; diameter_in <= 3.5; diameter_in += 0.125) {
        double lowest[3] = { INFINITY, INFINITY, INFINITY };
        for (int row = all.rows - 1; row > 0; row--) {  // from the widest bracket to the narrowest
            int chart = table_text(&all, row, "id")[3] - '1';
            if (strcmp(table_text(&all, row, "kind"), "chart") == 0 && diameter_in <= table_number(&all, row, "diameter_in"))
                lowest[chart] = table_number(&all, row, "rpm");
        }
        CHECK_NEAR(tw_router_speed_most_rpm(diameter_in * 25.4), tw_min(lowest[0], tw_min(lowest[1], lowest[2])), 0.0);
    }
    table_finish(&all);
}

static void cutter_beyond_every_chart_has_no_speed(void **state)
{
    (void)state;
    assert_true(tw_router_speed_most_rpm(3.5 * 25.4) == 8000.0);
    assert_true(tw_router_speed_most_rpm(3.6 * 25.4) == 0.0);
}

static double in_unit(double m_s, const char *unit)
{
    if (strcmp(unit, "ft/min") == 0) return m_s / 0.3048 * 60.0;
    if (strcmp(unit, "ft/s") == 0) return m_s / 0.3048;
    return strcmp(unit, "mph") == 0 ? m_s * 3600.0 / 1609.344 : m_s;
}

static void rim_speeds_are_as_published(void **state)
{
    (void)state;
    table all = table_read("tests/outside/speeds.tsv");
    int rims = 0;
    for (int row = 1; row < all.rows; row++) {
        if (strcmp(table_text(&all, row, "kind"), "rim") != 0) continue;
        rims++;
        double speed = tw_rim_speed_m_s(table_number(&all, row, "diameter_in") * 25.4, table_number(&all, row, "rpm"));
        check_percent(table_text(&all, row, "id"), in_unit(speed, table_text(&all, row, "unit")), table_number(&all, row, "expected"),
                      table_number(&all, row, "tolerance_percent"));
    }
    assert_true(rims == 14);
    table_finish(&all);
}

/* ---- fractions ---- */

static void fractions_of_an_inch_are_as_published(void **state)
{
    (void)state;
    table all = table_read("tests/outside/fractions.tsv");
    for (int row = 1; row < all.rows; row++) {
        double amount_in = table_number(&all, row, "amount_in");
        tw_fraction got = tw_fraction_of(amount_in * 25.4, (int)table_number(&all, row, "parts"));
        assert_int_equal(got.whole, (long)table_number(&all, row, "whole"));
        assert_int_equal(got.numerator, (long)table_number(&all, row, "numerator"));
        assert_int_equal(got.denominator, (long)table_number(&all, row, "denominator"));
        CHECK_NEAR(-got.remainder_mm / 25.4, table_number(&all, row, "error_in"), 1e-12);
    }
    assert_true(all.rows == 13);
    table_finish(&all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wedges_take_the_published_forces),
        cmocka_unit_test(wedges_hold_themselves_up_to_the_published_angle),
        cmocka_unit_test(square_threads_take_the_published_torques),
        cmocka_unit_test(wedge_of_five_degrees_on_dry_wood_is_as_by_hand),
        cmocka_unit_test(wedge_without_friction_is_a_plain_lever_and_springs_out),
        cmocka_unit_test(wedge_that_cannot_be_is_refused),
        cmocka_unit_test(wedge_that_no_force_drives_is_refused),
        cmocka_unit_test(moisture_follows_the_handbook_over_its_whole_table),
        cmocka_unit_test(moisture_is_as_worked_through_apart),
        cmocka_unit_test(moisture_of_dry_air_is_none),
        cmocka_unit_test(moisture_outside_of_the_table_is_refused),
        cmocka_unit_test(movement_is_as_published),
        cmocka_unit_test(drying_shrinks_as_much_as_wetting_swells),
        cmocka_unit_test(movement_beyond_the_span_of_the_coefficients_is_cautioned),
        cmocka_unit_test(movement_without_sense_is_refused),
        cmocka_unit_test(movement_of_a_timber_without_coefficient_is_refused),
        cmocka_unit_test(timbers_are_found_by_the_names_that_makers_use),
        cmocka_unit_test(unknown_timber_gives_the_nearest_name_or_none),
        cmocka_unit_test(compiled_timbers_are_the_table),
        cmocka_unit_test(density_at_twelve_percent_is_1120_times_the_specific_gravity),
        cmocka_unit_test(router_speed_is_the_lowest_of_the_published_charts),
        cmocka_unit_test(cutter_beyond_every_chart_has_no_speed),
        cmocka_unit_test(rim_speeds_are_as_published),
        cmocka_unit_test(fractions_of_an_inch_are_as_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
