// SPDX-License-Identifier: GPL-3.0-or-later
/* Two kinds of joint for the tests of the reader, with a key of every kind. The real kinds are tested with their stage. */
#ifndef TW_TESTS_FORMATS_H
#define TW_TESTS_FORMATS_H

#include "job/job.h"

typedef struct test_mortise {
    tw_link    tenon, into;
    tw_choice  ends, from, through;
    tw_amounts at;
    tw_amount  depth, shoulder, tenons, share;
    tw_choice  fit;
    tw_words   cutter, follower, glue;
} test_mortise;

typedef struct test_tusks { tw_link tenon, through; tw_amounts at; tw_amount tenon_width, beyond, angle, reserve; tw_choice ends, from; } test_tusks;

static const char *const test_ends[] = { "left", "right", "both", NULL };
static const char *const test_sides[] = { "face", "back", "face edge", "back edge", NULL };
static const char *const test_fits[] = { "dry", "glued", NULL };

#define AT(field) offsetof(test_mortise, field)
static const tw_key test_mortise_keys[] = {
    { "tenon", TW_KEY_PIECE, AT(tenon), .required = true, .meaning = "Carries the tenon.", .example = "rail" },
    { "ends", TW_KEY_CHOICE, AT(ends), .required = true, .choices = test_ends, .meaning = "Which ends.", .example = "both" },
    { "into", TW_KEY_PIECE, AT(into), .required = true, .meaning = "Is mortised.", .example = "leg" },
    { "from", TW_KEY_CHOICE, AT(from), .choices = test_sides, .fallback = 2, .otherwise = "face edge", .meaning = "Where it enters.", .example = "back" },
    { "through", TW_KEY_YES_NO, AT(through), .meaning = "Goes through.", .example = "yes" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true, .meaning = "Places.", .example = "[60, 640]" },
    { "depth", TW_KEY_LENGTH, AT(depth), .preset = 40, .meaning = "How deep.", .example = "40 mm" },
    { "shoulder", TW_KEY_LENGTH, AT(shoulder), .least = 0, .most = 100, .meaning = "How far in.", .example = "5 mm" },
    { "tenons", TW_KEY_COUNT, AT(tenons), .least = 1, .most = 2, .preset = 1, .meaning = "One or twins.", .example = "2" },
    { "share", TW_KEY_NUMBER, AT(share), .least = 0.1, .most = 0.9, .preset = 0.5, .meaning = "Of the thickness.", .example = "1/3" },
    { "fit", TW_KEY_CHOICE, AT(fit), .choices = test_fits, .otherwise = "dry", .meaning = "Dry or glued.", .example = "glued" },
    { "cutter", TW_KEY_CUTTER, AT(cutter), .otherwise = "the nearest", .meaning = "For the mortise.", .example = "spiral 8" },
    { "follower", TW_KEY_FOLLOWER, AT(follower), .otherwise = "the nearest", .meaning = "For the mortise.", .example = "bush 16" },
    { "glue", TW_KEY_TEXT, AT(glue), .most = 30, .otherwise = "none", .meaning = "Which glue.", .example = "hide glue" },
};
#undef AT
#define AT(field) offsetof(test_tusks, field)
static const tw_key test_tusks_keys[] = {
    { "tenon", TW_KEY_PIECE, AT(tenon), .required = true, .meaning = "Carries the tenon.", .example = "stretcher" },
    { "ends", TW_KEY_CHOICE, AT(ends), .choices = test_ends, .fallback = 2, .otherwise = "both", .meaning = "Which ends.", .example = "both" },
    { "through", TW_KEY_PIECE, AT(through), .required = true, .meaning = "Is mortised.", .example = "post" },
    { "from", TW_KEY_CHOICE, AT(from), .choices = test_sides, .fallback = 1, .otherwise = "back", .meaning = "Where it enters.", .example = "back" },
    { "at", TW_KEY_LENGTHS, AT(at), .required = true, .meaning = "Places.", .example = "[190, 480]" },
    { "tenon width", TW_KEY_LENGTH, AT(tenon_width), .otherwise = "six tenths", .meaning = "Edge to edge.", .example = "38 mm" },
    { "beyond", TW_KEY_LENGTH, AT(beyond), .otherwise = "as needed", .meaning = "Past the post.", .example = "58 mm" },
    { "angle", TW_KEY_ANGLE, AT(angle), .least = 0.01, .most = 0.8, .preset = 5.0 * TW_PI / 180.0, .meaning = "Of the ramp.", .example = "1:12" },
    { "reserve", TW_KEY_LENGTH, AT(reserve), .otherwise = "1 mm of draw", .meaning = "Further driving.", .example = "12 mm" },
};
#undef AT

static const tw_joint_format test_mortise_format = { .kind = "mortise and tenon", .meaning = "A tenon in a mortise.", .keys = test_mortise_keys,
    .key_count = sizeof test_mortise_keys / sizeof test_mortise_keys[0], .spec_size = sizeof(test_mortise) };
static const tw_joint_format test_tusks_format = { .kind = "forked tusks", .meaning = "A through tenon held by forked tusks.", .keys = test_tusks_keys,
    .key_count = sizeof test_tusks_keys / sizeof test_tusks_keys[0], .spec_size = sizeof(test_tusks) };
static const tw_joint_format *const test_formats[] = { &test_mortise_format, &test_tusks_format };
enum { TEST_FORMATS = 2 };

#endif
