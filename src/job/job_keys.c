// SPDX-License-Identifier: GPL-3.0-or-later
/* The keys of a job. Pages and errors are printed from these rows. */
#include "job/job.h"
#include "job/reader.h"
#include "job/tables.h"

static const char *const papers[] = { "A4", "A3", "Letter", NULL };

static const char *const sides[] = { "face", "back", "face edge", "back edge", "left end", "right end", NULL };
static const char *const projections[] = { "first angle", "third angle", NULL };

/* `base` names a piece: it stands last, since it is read when the pieces are known (job.c). */
static const tw_key job_keys[] = {
    { .name = "job", .kind = TW_KEY_TEXT, .offset = offsetof(tw_job, title), .required = true,
      .meaning = "What is made, as it stands at the head of every paper.", .example = "Reading table" },
    { .name = "revision", .kind = TW_KEY_TEXT, .offset = offsetof(tw_job, revision), .most = 20, .otherwise = "1",
      .meaning = "Stands on every template and card, so that papers of two states are not mixed up.", .example = "\"2\"" },
    { .name = "units", .kind = TW_KEY_CHOICE, .offset = offsetof(tw_job, units), .choices = tw_unit_words,
      .meaning = "The unit of lengths that are written without one.", .example = "mm" },
    { .name = "figures", .kind = TW_KEY_FIGURES, .offset = offsetof(tw_job, figures),
      .otherwise = "mm 0.1; with units in or ft: in 1/64",
      .meaning = "How lengths are written on the papers: the unit, and the step to which they are rounded.", .example = "mm 0.1" },
    { .name = "paper", .kind = TW_KEY_CHOICE, .offset = offsetof(tw_job, paper), .choices = papers,
      .meaning = "The paper to print on.", .example = "A4" },
    { .name = "sets", .kind = TW_KEY_COUNT, .offset = offsetof(tw_job, sets), .least = 1, .most = 1000, .preset = 1,
      .meaning = "How many of the whole are made.", .example = "4" },
    { .name = "shop", .kind = TW_KEY_TEXT, .offset = offsetof(tw_job, shop), .otherwise = "named on the command line",
      .meaning = "The file that describes the shop, seen from the job's file.", .example = "shop.yaml" },
    { .name = "note", .kind = TW_KEY_TEXT, .offset = offsetof(tw_job, note), .most = TW_NOTE_MOST, .otherwise = "none",
      .meaning = "A remark for the papers.", .example = "For the travelling library." },
    { .name = "up", .kind = TW_KEY_CHOICE, .offset = offsetof(tw_job, up), .choices = sides,
      .otherwise = "of a foot, the side at which others stand in it; of a rail, which has the same joint at both ends, its back edge; else its right end",
      .meaning = "Which side or end of the base piece looks up when the furniture stands.", .example = "right end" },
    { .name = "projection", .kind = TW_KEY_CHOICE, .offset = offsetof(tw_job, projection), .choices = projections,
      .meaning = "How the views of a drawing stand to each other: from above below and from the left on the right (first angle), or the other way round (third angle).",
      .example = "third angle" },
    { .name = "base", .kind = TW_KEY_PIECE, .offset = offsetof(tw_job, base), .otherwise = "the first piece that is in a joint",
      .meaning = "The piece from which the others are placed in space.", .example = "foot" },
};

static const tw_key piece_keys[] = {
    { .name = "count", .kind = TW_KEY_COUNT, .offset = offsetof(tw_piece, count), .preset = 1,
      .meaning = "How many alike are in one set.", .example = "2" },
    { .name = "length", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_piece, length), .required = true,
      .meaning = "Along the grain, finished, with the tenons at its ends.", .example = "640 mm" },
    { .name = "width", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_piece, width), .required = true,
      .meaning = "Across the grain, from back edge to face edge, finished.", .example = "75 mm" },
    { .name = "thickness", .kind = TW_KEY_LENGTH, .offset = offsetof(tw_piece, thickness), .required = true,
      .meaning = "From back to face, finished.", .example = "60 mm" },
    { .name = "timber", .kind = TW_KEY_TEXT, .offset = offsetof(tw_piece, timber), .most = TW_NAME_MOST, .otherwise = "not known: nothing is said of strength and movement",
      .meaning = "The timber, by its name in the table of timbers.", .example = "Oak, white" },
    { .name = "note", .kind = TW_KEY_TEXT, .offset = offsetof(tw_piece, note), .most = TW_NOTE_MOST, .otherwise = "none",
      .meaning = "A remark for the papers.", .example = "quarter sawn" },
};

const tw_key tw_joint_common_keys[TW_JOINT_COMMON_KEYS] = {
    { .name = "kind", .kind = TW_KEY_CHOICE, .required = true,
      .meaning = "Which joint or profile it is; the other keys follow from it.", .example = "forked tusks" },
    { .name = "note", .kind = TW_KEY_TEXT, .offset = offsetof(tw_joint, note), .most = TW_NOTE_MOST, .otherwise = "none",
      .meaning = "A remark for the papers.", .example = "number the tusks" },
};

static const tw_section sections[] = {
    { .name = "amounts", .entry = "amount",
      .meaning = "Amounts with a name of their own, to be used in other amounts.",
      .example = "amounts:\n  gap: 12 mm\n  overhang: 2 * gap" },
    { .name = "pieces", .entry = "piece", .required = true, .keys = piece_keys, .count = sizeof piece_keys / sizeof piece_keys[0],
      .meaning = "The wooden parts, each under its name.",
      .example = "pieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45, timber: \"Oak, white\"}" },
    { .name = "joints", .entry = "joint",
      .meaning = "How the pieces meet, each joint under its name." },
    { .name = "profiles", .entry = "profile",
      .meaning = "How edges and ends of pieces are shaped beside the joints, each profile under its name.",
      .example = "profiles:\n  arch of the foot: {kind: arch, piece: foot, edge: back edge, from: 90 mm, rise: 22 mm}" },
};

const tw_layout tw_job_layout = { job_keys, sizeof job_keys / sizeof job_keys[0], sections, sizeof sections / sizeof sections[0] };
