// SPDX-License-Identifier: GPL-3.0-or-later
/* A job and a shop from texts, read and planned: for tests of joints, setups and the whole. */
#ifndef TW_TESTS_PLANNED_H
#define TW_TESTS_PLANNED_H

#include "check.h"

#include "joint/joint.h"

typedef struct planned {
    tw_arena       arena;
    tw_findings    findings;
    const tw_job  *job;
    const tw_shop *shop;
    tw_joint_plan *plans;
} planned;

#define SHOP_MM \
    "shop: test\nunits: mm\nmachine:\n  ratio: 2\n  turns over: yes\n  travel across: 150\n  travel up: 90\n  travel in: 70\n" \
    "  holder across: 360\n  holder up: 220\n  table lowest: 110\n  table highest: 5\n  nut radius: 22\n  clamp zone: 40\n" \
    "  smallest piece: 120\n  top speed: 24000\n  low speed: 10000\n" \
    "cutters:\n  eight: {diameter: 8, cutting length: 32, shank: 8, plunges: yes}\n" \
    "  nine five: {diameter: 9.525, cutting length: 38, shank: 9.525, plunges: yes}\n" \
    "  long twelve: {diameter: 12.7, cutting length: 63, shank: 12.7, plunges: yes}\n" \
    "followers:\n  sixteen: {diameter: 16, length: 12}\n  nineteen: {diameter: 19.05, length: 12}\n" \
    "pins:\n  ten: {diameter: 10}\n  twenty: {diameter: 20}\n" \
    "spacers:\n  a: {size: 0.05, count: 1}\n  b: {size: 0.1, count: 2}\n  c: {size: 0.2, count: 2}\n  d: {size: 0.5, count: 1}\n" \
    "  e: {size: 1, count: 2}\n  f: {size: 2, count: 2}\n  g: {size: 5, count: 1}\n  h: {size: 10, count: 2}\n  i: {size: 20, count: 2}\n  j: {size: 50, count: 2}\n"

/// Reads and plans; a text that cannot be read fails the test with what was found.
static inline planned planned_of(const char *job, const char *shop)
{
    planned p = {0};
    p.findings.arena = &p.arena;
    p.shop = tw_shop_read(&p.arena, tw_text_of(shop), "shop.yaml", &p.findings);
    p.job = tw_job_read(&p.arena, tw_text_of(job), "job.yaml", tw_joint_formats(&p.arena), tw_joint_kind_count, &p.findings);
    if (!p.job || !p.shop) {
        tw_gather all = { .arena = &p.arena };
        tw_sink sink = tw_gather_sink(&all);
        tw_findings_put(&p.findings, TW_NOTE, &sink);
        fail_msg("not read:\n%s", tw_gathered(&all).bytes);
    }
    return p;
}

static inline void plan(planned *p)
{
    p->findings.arena = &p->arena;  // the struct may have moved
    tw_joint_context context = { .arena = &p->arena, .job = p->job, .shop = p->shop, .findings = &p->findings };
    p->plans = tw_joints_plan(&context);
}

static inline const tw_finding *finding(const planned *p, const char *code)
{
    for (size_t i = 0; i < p->findings.count; i++)
        if (strcmp(p->findings.items[i].code, code) == 0) return &p->findings.items[i];
    return NULL;
}

/// Fails unless the finding was made, with its level and with these parts of its text and remedy, at a place of the file.
static inline void expect_finding(const planned *p, const char *code, tw_level level, const char *what, const char *remedy)
{
    const tw_finding *found = finding(p, code);
    for (size_t i = 0; !found && i < p->findings.count; i++) print_error("%s: %s\n", p->findings.items[i].code, p->findings.items[i].what);
    if (!found) fail_msg("there is no finding %s", code);
    assert_int_equal(found->level, level);
    CHECK_HOLDS(found->what, what);
    CHECK_HOLDS(found->remedy, remedy);
    assert_true(found->place.line > 0);
}

/// A work of the first joint by its name; NULL when it has none.
static inline const tw_work *work_of(const planned *p, const char *name)
{
    for (size_t i = 0; i < p->plans[0].work_count; i++)
        if (strcmp(p->plans[0].works[i].name, name) == 0) return &p->plans[0].works[i];
    return NULL;
}

/// The same, which must be there.
static inline const tw_work *work_that_is(const planned *p, const char *name)
{
    const tw_work *work = work_of(p, name);
    if (!work) fail_msg("there is no work %s", name);
    return work;
}

/// The value of a figure; a key that is not there fails the test.
static inline double figure(const planned *p, int index, const char *key)
{
    const tw_figure *found = tw_plan_find(&p->plans[index], key);
    if (!found) fail_msg("there is no figure %s", key);
    return found->value;
}

#endif
