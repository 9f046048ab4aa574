// SPDX-License-Identifier: GPL-3.0-or-later
/* Jobs that the tests of the papers set out: a small piece of furniture with all joint kinds, in mm or inches, with short
 * names or the longest that a job may have, on any paper; and their shops. */
#ifndef TW_TESTS_PAPERS_JOBS_H
#define TW_TESTS_PAPERS_JOBS_H

#include "base/base.h"
#include "whole.h"

typedef struct sample_job {
    const char *paper;     // "A4", "A3", "Letter"
    const char *figures;   // "mm 0.1", "in 1/64", ...
    bool        long_names, turned;  // turned: template turned and seen from the back
    const char *more;      // further lines of the joint of forked tusks, each "    key: value\n"
    bool        joints;    // false: pieces alone
    int         count;     // of each piece; 0 means 2
} sample_job;

#define SIXTY(word) word " of the trestle that stands nearest to the window sill"  // word: 6 letters; 60 in all, TW_NAME_MOST

typedef struct sample_names { const char *title, *post, *foot, *rail, *post_to_foot, *rail_to_post; } sample_names;

static const sample_names sample_short = { "Seed table", "post", "foot", "rail", "post to foot", "rail to post" };
static const sample_names sample_long = {
    "A reading table for the travelling library that leaves the van in six bundles and stands on any village green by noon ok",
    SIXTY("uprigh"), SIXTY("ground"), SIXTY("bearer"), SIXTY("lowerr"), SIXTY("longer"),
};

static const char *sample_job_text(tw_arena *arena, sample_job job)
{
    const sample_names *n = job.long_names ? &sample_long : &sample_short;
    const char *joints = tw_format(arena,
        "joints:\n  %s:\n    kind: mortise and tenon\n    tenon: %s\n    ends: left\n    into: %s\n    from: back edge\n    at: 320 mm\n"
        "    depth: 50 mm\n    fit: dry\n  %s:\n    kind: forked tusks\n    tenon: %s\n    ends: both\n    through: %s\n    from: back\n"
        "    at: [190 mm, 480 mm]\n    tenon width: 38 mm\n    beyond: 58 mm\n    angle: 5 deg\n    reserve: 12 mm\n%s",
        n->post_to_foot, n->post, n->foot, n->rail_to_post, n->rail, n->post, job.more ? job.more : "");
    int count = job.count ? job.count : 2;
    return tw_format(arena,
        "job: %s\nrevision: \"2b\"\nunits: mm\nfigures: %s\npaper: %s\nnote: Say so when it is, \"done\"; it is loaned, not sold.\npieces:\n"
        "  %s: {count: %d, length: 655, width: 110, thickness: 45, timber: \"Oak, white\", note: \"=straight grain, no sapwood\"}\n"
        "  %s: {count: %d, length: 640, width: 75, thickness: 60, timber: \"Oak, white\"}\n"
        "  %s: {count: %d, length: 1210, width: 70, thickness: 28, timber: \"Ash, white\"}\n%s",
        n->title, job.figures, job.paper, n->post, count, n->foot, count, n->rail, count, job.joints ? joints : "");
}

static const char *sample_shop_text(tw_arena *arena, sample_job job)
{
    return tw_format(arena,
        "shop: The shop behind the reading room\nunits: mm\nmachine: {name: copying router, ratio: 2, copy: %s, seen from: %s, turns over: %s, "
        "travel across: 150, travel up: 90, travel in: 70, holder across: 360, holder up: 220, table lowest: 110, table highest: 5, "
        "nut radius: 22, clamp zone: 40, smallest piece: 120, top speed: 24000, low speed: 10000, spacer tolerance: 0.05}\n"
        "saw: {kerf: 3, strip thickness: 12}\n"
        "cutters:\n  spiral 8: {diameter: 8, cutting length: 32, shank: 8, plunges: yes}\n"
        "  long 12.7: {diameter: 12.7, cutting length: 63, shank: 12.7, plunges: yes}\n"
        "followers:\n  bush 16: {diameter: 16, length: 10}\n  bush 19: {diameter: 19, length: 10}\n  bush 25.4: {diameter: 25.4, length: 10}\n"
        "pins:\n  pin 10: {diameter: 10}\n  pin 20: {diameter: 20}\n"
        "spacers:\n  leaf 0.05: {size: 0.05, count: 1}\n  leaf 0.1: {size: 0.1, count: 2}\n  leaf 0.2: {size: 0.2, count: 2}\n"
        "  leaf 0.5: {size: 0.5, count: 2}\n  block 1: {size: 1, count: 2}\n  block 2: {size: 2, count: 2}\n  block 5: {size: 5, count: 2}\n"
        "  block 10: {size: 10, count: 2}\n  block 20: {size: 20, count: 2}\n  block 50: {size: 50, count: 8}\n",
        job.turned ? "turned" : "upright", job.turned ? "back" : "front", job.turned ? "no" : "yes");
}

/// Sets the job out, with papers or without. The result is the caller's, to tw_result_free().
static inline tw_result *sample_figures(sample_job sample, bool papers)
{
    tw_arena arena = {0};
    const char *job = sample_job_text(&arena, sample), *shop = sample_shop_text(&arena, sample);
    tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = tw_text_of(job).length, .job_name = "job.yaml", .shop = shop,
                                                  .shop_bytes = tw_text_of(shop).length, .shop_name = "shop.yaml", .papers = papers });
    tw_arena_finish(&arena);
    return result;
}

static inline tw_result *sample_set_out(sample_job sample) { return sample_figures(sample, true); }

#endif
