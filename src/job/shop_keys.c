// SPDX-License-Identifier: GPL-3.0-or-later
/* The keys of a shop. Ranges are wide on purpose: they keep slips of the decimal point out, not unusual machines.
 * Defaults are common practice where no row says otherwise. */
#include "job/job.h"
#include "job/tables.h"

static const char *const copies[] = { "upright", "turned", NULL };
static const char *const sides[] = { "front", "back", NULL };

static const tw_key shop_keys[] = {
    { .name = "shop", .kind = TW_KEY_TEXT, .offset = offsetof(tw_shop, name), .required = true,
      .meaning = "What the shop is called on the papers.", .example = "The shop behind the reading room" },
    { .name = "units", .kind = TW_KEY_CHOICE, .offset = offsetof(tw_shop, units), .choices = tw_unit_words,
      .meaning = "The unit of lengths that are written without one.", .example = "mm" },
};

#define MACHINE(field) offsetof(tw_machine, field)
static const tw_key machine_keys[] = {
    { .name = "name", .kind = TW_KEY_TEXT, .offset = MACHINE(name), .otherwise = "none",
      .meaning = "What the machine is called on the cards.", .example = "copying router" },
    { .name = "ratio", .kind = TW_KEY_NUMBER, .offset = MACHINE(ratio), .required = true, .least = 0.2, .most = 10,
      .meaning = "How far the template travels for a travel of 1 at the cutter: 2 for a template twice the size of the cut, 1 for a "
                 "router guided by hand with a bush or bearing.", .example = "2" },
    { .name = "copy", .kind = TW_KEY_CHOICE, .offset = MACHINE(copy), .choices = copies,
      .meaning = "Whether the cut stands as the template does, or turned by half a turn.", .example = "upright" },
    { .name = "seen from", .kind = TW_KEY_CHOICE, .offset = MACHINE(seen_from), .choices = sides,
      .meaning = "From which side the maker sees the template at work; arrows on the cards are drawn as that maker sees them.",
      .example = "front" },
    { .name = "turns over", .kind = TW_KEY_YES_NO, .offset = MACHINE(turns_over),
      .meaning = "Whether a template can be mounted with either face outward, so that one template serves both hands.", .example = "yes" },
    { .name = "travel across", .kind = TW_KEY_LENGTH, .offset = MACHINE(travel_across), .required = true, .least = 1, .most = 5000,
      .meaning = "How far the cutter can travel from side to side.", .example = "150 mm" },
    { .name = "travel up", .kind = TW_KEY_LENGTH, .offset = MACHINE(travel_up), .required = true, .least = 1, .most = 5000,
      .meaning = "How far the cutter can travel up and down.", .example = "90 mm" },
    { .name = "travel in", .kind = TW_KEY_LENGTH, .offset = MACHINE(travel_in), .required = true, .least = 1, .most = 1000,
      .meaning = "How far the cutter can plunge.", .example = "70 mm" },
    { .name = "holder across", .kind = TW_KEY_LENGTH, .offset = MACHINE(holder_across), .required = true, .least = 1, .most = 10000,
      .meaning = "The widest template that the holder takes.", .example = "360 mm" },
    { .name = "holder up", .kind = TW_KEY_LENGTH, .offset = MACHINE(holder_up), .required = true, .least = 1, .most = 10000,
      .meaning = "The tallest template that the holder takes.", .example = "220 mm" },
    { .name = "table lowest", .kind = TW_KEY_LENGTH, .offset = MACHINE(table_lowest), .required = true, .least = 0, .most = 2000,
      .meaning = "How far the table lies below the cutter's centre at its lowest.", .example = "110 mm" },
    { .name = "table highest", .kind = TW_KEY_LENGTH, .offset = MACHINE(table_highest), .required = true, .least = -500, .most = 2000,
      .meaning = "How far the table lies below the cutter's centre at its highest; less than 0 when it rises above the centre.", .example = "5 mm" },
    { .name = "table step", .kind = TW_KEY_LENGTH, .offset = MACHINE(table_step), .least = 0, .most = 100, .otherwise = "0: the table stays at any height",
      .meaning = "The step between two heights at which the table stays.", .example = "0" },
    { .name = "nut radius", .kind = TW_KEY_LENGTH, .offset = MACHINE(nut_radius), .required = true, .least = 1, .most = 200,
      .meaning = "Half of the collet nut's diameter: what must not meet a shoulder.", .example = "22 mm" },
    { .name = "clamp zone", .kind = TW_KEY_LENGTH, .offset = MACHINE(clamp_zone), .least = 0, .most = 1000, .preset = 40,
      .meaning = "The wood beside a cut that the clamps need.", .example = "40 mm" },
    { .name = "smallest piece", .kind = TW_KEY_LENGTH, .offset = MACHINE(smallest_piece), .least = 1, .most = 5000, .preset = 150,
      .meaning = "The shortest piece that is safe to hold at the machine. A shorter one is cut from a stick.", .example = "120 mm" },
    { .name = "top speed", .kind = TW_KEY_NUMBER, .offset = MACHINE(top_speed), .required = true, .least = 100, .most = 100000,
      .meaning = "The highest speed of the spindle, turns per minute.", .example = "24000" },
    { .name = "low speed", .kind = TW_KEY_NUMBER, .offset = MACHINE(low_speed), .least = 100, .most = 100000, .otherwise = "the top speed: one speed only",
      .meaning = "The lowest speed of the spindle, turns per minute. Large cutters need a low one.", .example = "10000" },
    { .name = "spacer tolerance", .kind = TW_KEY_LENGTH, .offset = MACHINE(spacer_tolerance), .least = 0.0001, .most = 5, .preset = 0.05,
      .meaning = "How near a stack of spacers must come to the length that is wanted.", .example = "0.05 mm" },
    { .name = "play", .kind = TW_KEY_LENGTH, .offset = MACHINE(play), .least = 0, .most = 5, .preset = 0.1,
      .meaning = "How much wider than the follower a slot of its own width is made, so that it runs.", .example = "0.1 mm" },
};

static const tw_key saw_keys[] = {
    { .name = "kerf", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_shop, saw_kerf), .least = 0.1, .most = 20, .preset = 3,
      .meaning = "What the table saw's blade takes away.", .example = "3 mm" },
    { .name = "strip thickness", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_shop, strip_thickness), .least = 1, .most = 100, .preset = 12,
      .meaning = "How thick the stock is from which templates are made.", .example = "12 mm" },
};

static const tw_key cutter_keys[] = {
    { .name = "diameter", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_cutter, diameter), .required = true, .least = 0.5, .most = 150,
      .meaning = "The diameter as sold.", .example = "9.525 mm" },
    { .name = "measured", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_cutter, measured), .least = 0.5, .most = 150, .otherwise = "the diameter as sold",
      .meaning = "The diameter as measured; all templates are reckoned with it.", .example = "9.52 mm" },
    { .name = "cutting length", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_cutter, cutting_length), .required = true, .least = 1, .most = 300,
      .meaning = "How long the cutting edges are: no plunge is deeper.", .example = "38 mm" },
    { .name = "shank", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_cutter, shank), .least = 1, .most = 50, .otherwise = "the diameter as sold",
      .meaning = "The diameter of the shank.", .example = "9.525 mm" },
    { .name = "top speed", .kind = TW_KEY_NUMBER, .offset = offsetof(tw_cutter, top_speed), .least = 100, .most = 100000,
      .otherwise = "by the cutter's diameter alone",
      .meaning = "The highest speed that its maker allows, turns per minute.", .example = "24000" },
    { .name = "plunges", .kind = TW_KEY_YES_NO, .offset = offsetof(tw_cutter, plunges),
      .meaning = "Whether its end cuts to the centre, so that it can go straight into the wood.", .example = "yes" },
    { .name = "dovetail", .kind = TW_KEY_ANGLE, .offset = offsetof(tw_cutter, dovetail), .least = TW_PI / 90.0, .most = TW_PI / 6.0, .otherwise = "a straight cutter",
      .meaning = "For a dovetail cutter, widest at its tip: the angle between its side and its axis. Its diameter is measured at the tip. "
                 "It does not plunge, it comes in from an edge of the wood; only joints with dovetails take it.", .example = "14 deg" },
};

static const tw_key follower_keys[] = {
    { .name = "diameter", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_follower, diameter), .required = true, .least = 0.5, .most = 300,
      .meaning = "The diameter of the bearing, bush or pin that runs along the template, as sold.", .example = "19.05 mm" },
    { .name = "measured", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_follower, measured), .least = 0.5, .most = 300, .otherwise = "the diameter as sold",
      .meaning = "The diameter as measured; all templates are reckoned with it.", .example = "19.04 mm" },
    { .name = "length", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_follower, length), .least = 1, .most = 200,
      .otherwise = "the strip thickness of the saw", .meaning = "How long its running face is: a template is no thicker.", .example = "12 mm" },
};

static const tw_key pin_keys[] = {
    { .name = "diameter", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_pin, diameter), .required = true, .least = 0.5, .most = 300,
      .meaning = "The diameter of a reference pin that stands at the machine's centre.", .example = "20 mm" },
};

static const tw_key spacer_keys[] = {
    { .name = "size", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_spacer, size), .required = true, .least = 0.001, .most = 2000,
      .meaning = "Its thickness as measured: a block, a drill's shank, a feeler leaf, a brass shim.", .example = "0.5 mm" },
    { .name = "count", .kind = TW_KEY_COUNT, .offset = offsetof(tw_spacer, count), .least = 1, .most = 1000, .preset = 1,
      .meaning = "How many of this size there are.", .example = "2" },
};

#define ROWS(table) .keys = table, .count = sizeof table / sizeof table[0]
static const tw_section sections[] = {
    { .name = "machine", .required = true, ROWS(machine_keys), .meaning = "The router that copies the template." },
    { .name = "saw", ROWS(saw_keys), .meaning = "The table saw, and the stock of which templates are glued up." },
    { .name = "cutters", .entry = "cutter", .required = true, ROWS(cutter_keys), .meaning = "The router cutters, each under its name.",
      .example = "cutters:\n  spiral 9.5: {diameter: 9.525, measured: 9.52, cutting length: 38, plunges: yes}" },
    { .name = "followers", .entry = "follower", .required = true, ROWS(follower_keys), .meaning = "The bearings, bushes or pins that run along a template.",
      .example = "followers:\n  bush 19.05: {diameter: 19.05, length: 12}" },
    { .name = "pins", .entry = "pin", ROWS(pin_keys), .meaning = "The reference pins with which a template's baseline is found.",
      .example = "pins:\n  pin 20: {diameter: 20}" },
    { .name = "spacers", .entry = "spacer", ROWS(spacer_keys), .meaning = "The gauge pieces of known size from which stacks are put together.",
      .example = "spacers:\n  block 10: {size: 10, count: 2}" },
};

const tw_layout tw_shop_layout = { shop_keys, sizeof shop_keys / sizeof shop_keys[0], sections, sizeof sections / sizeof sections[0] };
