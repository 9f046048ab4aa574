// SPDX-License-Identifier: GPL-3.0-or-later
/* The set of papers, file by file. Each file is made in an arena of its own and forgotten when it was taken. */
#include "print/paper_set.h"

#include <string.h>

#include "print/print.h"
#include "sheet/bodies.h"
#include "sheet/booklet.h"
#include "sheet/profile_dxf.h"
#include "sheet/template_dxf.h"
#include "sheet/template_solid.h"
#include "sheet/writers.h"

typedef struct maker {
    tw_arena             *arena;    // of the caller, for what outlives a file
    tw_arena              scratch;  // of one file
    const tw_result      *result;
    const tw_paper_taker *taker;
    size_t                done, of;
    const char           *what;
    const char           *why;      // NULL: nothing went wrong
} maker;

/* ---- progress ---- */

static bool fail(maker *m, const char *why)
{
    if (!m->why) m->why = why;
    return false;
}

/* One more part is begun. */
static bool go_on(maker *m)
{
    bool good = !m->taker->go_on || m->taker->go_on(m->taker->context, m->done, m->of, m->what);
    m->done++;
    return good || fail(m, "");
}

static bool go_on_with_page(void *context, int page)
{
    (void)page;
    return go_on(context);
}

static bool take(maker *m, tw_paper_file file)
{
    bool good = m->taker->take(m->taker->context, &file);
    tw_arena_finish(&m->scratch);
    return good || fail(m, "");
}

/* ---- pages ---- */

static bool make_pdf(maker *m, const char *name, const char *document, const tw_paper_pages *paper)
{
    tw_gather bytes = { .arena = &m->scratch };
    tw_sink sink = tw_gather_sink(&bytes);
    tw_print_watch watch = { go_on_with_page, m };
    const char *why;
    if (!tw_print_pdf_watched(paper->pages, paper->page_count, document, &sink, &watch, &why))
        return fail(m, why == tw_print_stopped ? "" : tw_format(m->arena, "cannot print %s: %s", name, why));
    return take(m, (tw_paper_file){ name, paper->title, paper->purpose, paper->page_count, paper->true_size,
                                    tw_gathered(&bytes) });
}

static bool make_svg(maker *m, const tw_sheet *page, bool true_size)
{
    tw_gather bytes = { .arena = &m->scratch };
    tw_sink sink = tw_gather_sink(&bytes);
    tw_svg_put(page, &sink);
    return take(m, (tw_paper_file){ tw_format(&m->scratch, "svg/%s.svg", page->name), page->title, "", 1, true_size,
                                    tw_gathered(&bytes) });
}

static bool make_paper(maker *m, const tw_paper_pages *paper)
{
    m->what = "printing the papers";
    bool good = make_pdf(m, tw_format(&m->scratch, "%s.pdf", paper->name), paper->title, paper);
    for (int i = 0; good && i < paper->page_count; i++) good = make_svg(m, paper->pages[i], paper->true_size);
    return good;
}

static bool make_booklet(maker *m, const tw_paper_pages *booklet)
{
    m->what = "printing the booklet";
    return make_pdf(m, "all-papers.pdf", m->result->job->title.text, booklet);
}

/* ---- outlines ---- */

static bool make_dxf(maker *m, const char *folder, const char *title, const tw_sheet *sheet)
{
    tw_gather bytes = { .arena = &m->scratch };
    tw_sink sink = tw_gather_sink(&bytes);
    tw_dxf_put(sheet, &sink);
    return take(m, (tw_paper_file){ tw_format(&m->scratch, "%s/%s.dxf", folder, sheet->name), title, "the outline with true arcs",
                                    0, true, tw_gathered(&bytes) });
}

static bool make_outlines(maker *m)
{
    const tw_result *result = m->result;
    m->what = "writing the outlines";
    if (!go_on(m)) return false;
    for (int i = 0; i < result->templates.count; i++) {
        const tw_template *t = &result->templates.items[i];
        if (!make_dxf(m, "templates", tw_format(m->arena, "Template %s: %s", t->name, t->title),
                      tw_template_dxf_sheet(&m->scratch, t))) return false;
    }
    for (int i = 0; i < tw_plan_count(result->job); i++) {
        const tw_joint_plan *plan = &result->plans[i];
        const tw_sheet *sheet = plan->profile ? tw_profile_dxf_sheet(&m->scratch, result->job, plan) : NULL;
        if (sheet && !make_dxf(m, "profiles", tw_format(m->arena, "Profile %s", plan->joint->name), sheet)) return false;
    }
    return true;
}

/* ---- solids ---- */

static void leave_out(maker *m, const tw_solid *solid, const char *title)
{
    if (!m->taker->leave_out) return;
    m->taker->leave_out(m->taker->context, tw_format(&m->scratch, "%s is left out of the solids: %s", title,
                                                     solid->triangle_count == 0 ? "nothing is left of it"
                                                         : "its skin does not close"));
}

static bool make_solid(maker *m, const tw_solid *solid, const char *name, const char *title)
{
    if (!solid->closed || solid->triangle_count == 0) {
        leave_out(m, solid, title);
        return true;
    }
    tw_gather bytes = { .arena = &m->scratch };
    tw_sink sink = tw_gather_sink(&bytes);
    tw_stl_put(solid, title, &sink);
    return take(m, (tw_paper_file){ tw_format(&m->scratch, "solids/%s.stl", name), title,
                                    "the solid, to turn on a screen or to print", 0, true, tw_gathered(&bytes) });
}

/* Names are words with one space between them. */
static const char *file_name(tw_arena *arena, const char *name)
{
    char *file = tw_format(arena, "piece-%s", name);
    for (char *c = file; *c; c++)
        if (*c == ' ') *c = '-';
    return file;
}

static bool make_solids(maker *m)
{
    const tw_result *result = m->result;
    const tw_job *job = result->job;
    tw_paper_input input = tw_result_input(result);
    tw_arena bodies_arena = { .out_of_memory = m->arena->out_of_memory };
    const tw_bodies *bodies = tw_bodies_begin(&bodies_arena, job, input.plans, input.plan_count, TW_SOLID_CHORD_MM);
    m->what = "making the solids";
    bool good = true;
    for (int i = 0; i < job->piece_count && good; i++)
        good = go_on(m) && make_solid(m, tw_body_of_piece(bodies, i), file_name(&m->scratch, job->pieces[i].name),
                                      job->pieces[i].name);
    for (int i = 0; i < result->templates.count && good; i++) {
        const tw_template *t = &result->templates.items[i];
        good = go_on(m) && make_solid(m, tw_template_solid(&bodies_arena, t), t->name, t->title);
    }
    tw_arena_finish(&bodies_arena);
    return good;
}

/* ---- figures ---- */

static bool make_output(maker *m, const char *name, const char *title, const char *purpose, tw_output output)
{
    tw_gather bytes = { .arena = &m->scratch };
    tw_sink sink = tw_gather_sink(&bytes);
    if (!tw_result_put(m->result, output, sink.write, sink.context)) return fail(m,
        tw_format(m->arena, "%s could not be written", name));
    return take(m, (tw_paper_file){ name, title, purpose, 0, false, tw_gathered(&bytes) });
}

static bool make_figures(maker *m)
{
    m->what = "writing the figures";
    return go_on(m) && make_output(m, "job.json", "Every figure", "every figure of the job, for other programs", TW_OUTPUT_JSON)
        && make_output(m, "cutting-list.csv", "Cutting list", "the cutting list as a table", TW_OUTPUT_CUTTING_CSV);
}

/* ---- the set ---- */

static size_t parts_of(const tw_result *result, const tw_paper_pages *booklet)
{
    size_t parts = (size_t)booklet->page_count + 2;
    for (int i = 0; i < result->papers.count; i++) parts += (size_t)result->papers.items[i].page_count;
    return parts + (size_t)result->job->piece_count + (size_t)result->templates.count;
}

bool tw_paper_set_make(tw_arena *arena, const tw_result *result, const tw_paper_taker *taker, const char **why)
{
    maker m = { .arena = arena, .scratch = { .out_of_memory = arena->out_of_memory }, .result = result, .taker = taker };
    tw_arena composing = { .out_of_memory = arena->out_of_memory };
    tw_paper_input input = tw_result_input(result);
    tw_paper_pages booklet = tw_booklet_make(&composing, &input, &result->papers);
    m.of = parts_of(result, &booklet);
    bool good = true;
    for (int i = 0; good && i < result->papers.count; i++) good = make_paper(&m, &result->papers.items[i]);
    good = good && make_booklet(&m, &booklet) && make_outlines(&m) && make_solids(&m) && make_figures(&m);
    tw_arena_finish(&composing);
    tw_arena_finish(&m.scratch);
    *why = m.why ? m.why : "";
    return good;
}
