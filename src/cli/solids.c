// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/solids.h"

#include <stdio.h>

#include "sheet/bodies.h"
#include "sheet/template_solid.h"

static bool write_solid(tw_out_folder *out, const tw_solid *solid, const char *name, const char *title)
{
    if (!solid->closed || solid->triangle_count == 0) {
        fprintf(stderr, "tuskwright: %s is left out of the solids: %s\n", title, solid->triangle_count == 0 ? "nothing is left of it" : "its skin does not close");
        return true;
    }
    tw_gather bytes = { .arena = out->arena };
    tw_sink sink = tw_gather_sink(&bytes);
    tw_stl_put(solid, title, &sink);
    return tw_out_write(out, tw_format(out->arena, "solids/%s.stl", name), tw_gathered(&bytes));
}

/* Names are words with one space between them. */
static const char *file_name(tw_arena *arena, const char *name)
{
    char *file = tw_format(arena, "piece-%s", name);
    for (char *c = file; *c; c++)
        if (*c == ' ') *c = '-';
    return file;
}

bool tw_solids_write(tw_out_folder *out, const tw_result *result)
{
    tw_arena arena = { .out_of_memory = out->arena->out_of_memory };
    const tw_job *job = result->job;
    tw_paper_input input = tw_result_input(result);
    const tw_bodies *bodies = tw_bodies_make(&arena, job, input.plans, input.plan_count, TW_SOLID_CHORD_MM);
    bool good = true;
    for (int i = 0; i < job->piece_count && good; i++)
        good = write_solid(out, bodies->pieces[i], file_name(out->arena, job->pieces[i].name), job->pieces[i].name);
    for (int i = 0; i < result->templates.count && good; i++) {
        const tw_template *t = &result->templates.items[i];
        good = write_solid(out, tw_template_solid(&arena, t), t->name, t->title);
    }
    tw_arena_finish(&arena);
    return good;
}
