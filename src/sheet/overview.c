// SPDX-License-Identifier: GPL-3.0-or-later
/* The first page: what the job is, what stands against it, what lies in the folder, how to print, and the cautions. */
#include "sheet/pages.h"

#include <math.h>
#include <string.h>

#define FINDINGS_SHOWN 6
#define LIST_MM 2.3

static void add_head(tw_pages *pages)
{
    const tw_job *job = pages->in->job;
    tw_arena *arena = pages->arena;
    tw_pages_text(pages, 6.0, true, job->title.text);
    int sets = (int)job->sets.value;
    const char *shop = pages->in->shop && pages->in->shop->name.text ? pages->in->shop->name.text : "";
    tw_pages_text(pages, TW_BODY_MM, false,
                  tw_format(arena, "Revision %s. %s to make.%s%s%s Figures in %s.", job->revision.text,
                            tw_count_words(arena, sets, "set", "sets"), *shop ? " Reckoned for: " : "", shop, *shop ? "." : "",
                            tw_paper_unit_word(job->figures)));
    if (job->note.text && *job->note.text) tw_pages_text(pages, TW_BODY_MM, false, job->note.text);
}

/* ---- what stands against it ---- */

/* Findings of one code are told once, with how many are alike: the findings' own paper has them all. */
typedef struct told { const tw_finding *first[FINDINGS_SHOWN]; size_t alike[FINDINGS_SHOWN]; size_t count, all; } told;

static told gather_kinds(const tw_findings *findings, tw_level level)
{
    told kinds = { .count = 0 };
    for (size_t i = 0; i < findings->count; i++) {
        const tw_finding *finding = &findings->items[i];
        if (finding->level != level) continue;
        size_t k = 0;
        while (k < kinds.count && strcmp(kinds.first[k]->code, finding->code) != 0) k++;
        kinds.all++;
        if (k == FINDINGS_SHOWN) continue;
        if (k == kinds.count) kinds.first[kinds.count++] = finding;
        kinds.alike[k]++;
    }
    return kinds;
}

static double draw_findings(tw_sheet *sheet, double top, double width, const tw_findings *findings, tw_level level)
{
    tw_arena *arena = sheet->arena;
    told kinds = gather_kinds(findings, level);
    size_t rest = kinds.all;
    for (size_t k = 0; k < kinds.count; k++) {
        const tw_finding *f = kinds.first[k];
        bool about = f->about && *f->about;
        rest -= kinds.alike[k];
        tw_draw_tick_box(sheet, 2.0, top - 3.0, 3.0);
        const char *more = kinds.alike[k] > 1 ? tw_format(arena, " (and %zu more of this kind)", kinds.alike[k] - 1) : "";
        top = tw_block_text(sheet, 7.0, top, width - 9.0, TW_BODY_MM, false,
                            tw_format(arena, "%s%s%s%s.", about ? f->about : "", about ? ": " : "", f->what, more));
    }
    return tw_block_text(sheet, 7.0, top, width - 9.0, TW_BODY_MM, true,
                         tw_format(arena, "%sThe paper \"findings\" has each with its remedy.", rest > 0 ? tw_format(arena, "And %zu more. ", rest) : ""));
}

static void add_level(tw_pages *pages, tw_level level, const char *title, tw_role border)
{
    const tw_findings *findings = pages->in->findings;
    if (tw_findings_count(findings, level) == 0) return;
    double width = pages->room.x1 - pages->room.x0;
    tw_sheet *block = tw_scratch(pages->arena);
    double y = tw_block_text(block, 2.0, -2.0, width - 4.0, TW_LOUD_MM, true, title);
    y = draw_findings(block, y, width, findings, level);
    tw_draw_box(block, border, 0.0, y, width, 0.0);
    tw_pages_gap(pages, 1.0);
    tw_pages_place(pages, block, 2.0 - y);
}

static void add_standing(tw_pages *pages)
{
    add_level(pages, TW_HALT, "HALT: do not cut until these are mended", TW_ROLE_CUT);
    add_level(pages, TW_CARE, "Care: think before you cut", TW_ROLE_FRAME);
    if (!tw_findings_have(pages->in->findings, TW_HALT) && !tw_findings_have(pages->in->findings, TW_CARE))
        tw_pages_text(pages, TW_BODY_MM, false, "No halt and no care stands against this job.");
}

/* ---- what there is ---- */

static void add_papers(tw_pages *pages, const tw_papers *others)
{
    const tw_column columns[] = { { "Paper", 36, TW_ANCHOR_LEFT, true }, { "Pages", 16, TW_ANCHOR_MIDDLE, false }, { "What it is for", 128, TW_ANCHOR_LEFT, false } };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)others->count * 3 + 1);
    for (int i = 0; i < others->count; i++) {
        const tw_paper_pages *paper = &others->items[i];
        cells[3 * i] = tw_format(pages->arena, "%s.pdf", paper->name);
        cells[3 * i + 1] = tw_format(pages->arena, "%d", paper->page_count);
        cells[3 * i + 2] = paper->true_size ? tw_format(pages->arena, "%s (print at 100 %%)", paper->purpose) : paper->purpose;
    }
    tw_pages_heading(pages, "In this folder", 16.0);
    tw_pages_table(pages, columns, 3, LIST_MM, cells, others->count);
    tw_pages_text(pages, LIST_MM, false,
                  pages->in->templates->count > 0
                      ? "Besides: all-papers.pdf, the booklet of them all, with contents and page numbers; templates/T1.dxf and so on, the outlines with true arcs; svg, each page as a picture; "
                        "cutting-list.csv; job.json, every figure."
                      : "Besides: all-papers.pdf, the booklet of them all, with contents and page numbers; svg, each page as a picture; cutting-list.csv; job.json, every figure.");
}

static void add_pieces(tw_pages *pages)
{
    const tw_job *job = pages->in->job;
    const tw_column columns[] = { { "Piece", 44, TW_ANCHOR_LEFT, true }, { "Count", 17, TW_ANCHOR_MIDDLE, false },
                                  { "Length", 24, TW_ANCHOR_RIGHT, false }, { "Width", 24, TW_ANCHOR_RIGHT, false },
                                  { "Thickness", 24, TW_ANCHOR_RIGHT, false }, { "Timber", 40, TW_ANCHOR_LEFT, false } };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)job->piece_count * 6 + 1);
    for (int i = 0; i < job->piece_count; i++) {
        const tw_piece *piece = &job->pieces[i];
        tw_size size = tw_piece_size(piece);
        const char **cell = cells + 6 * i;
        cell[0] = piece->name;
        cell[1] = tw_format(pages->arena, "%d", (int)piece->count.value * (int)job->sets.value);
        cell[2] = tw_paper_bare(pages, size.length_mm);
        cell[3] = tw_paper_bare(pages, size.width_mm);
        cell[4] = tw_paper_bare(pages, size.thickness_mm);
        cell[5] = piece->timber.text ? piece->timber.text : "";
    }
    tw_pages_heading(pages, "Pieces", 16.0);
    tw_pages_table(pages, columns, 6, TW_BODY_MM, cells, job->piece_count);
    double mass = pages->in->woods ? tw_set_mass_kg(job, pages->in->woods) : NAN;
    if (isfinite(mass)) tw_pages_text(pages, TW_BODY_MM, false, tw_format(pages->arena, "One set of pieces weighs about %s at 12 %% moisture.", tw_mass_words(pages->arena, mass, job->figures)));
}

/* "Joints: A (housing, 2); B (cross lap, 1)." and the profiles likewise. */
static void add_plans(tw_pages *pages, const char *title, bool profiles)
{
    const tw_paper_input *in = pages->in;
    const char *text = "";
    for (int i = 0; i < in->plan_count; i++)
        if (in->plans[i].profile == profiles)
            text = tw_format(pages->arena, "%s%s%s (%s, %d)", text, *text ? "; " : "", in->plans[i].joint->name,
                             tw_joint_kinds[in->plans[i].joint->kind]->format.kind, in->plans[i].count);
    if (*text) tw_pages_text(pages, TW_BODY_MM, false, tw_format(pages->arena, "%s: %s.", title, text));
}

/* ---- printing, and the cautions ---- */

static void add_list(tw_pages *pages, const char *title, const char *const *lines, int count)
{
    double width = pages->room.x1 - pages->room.x0;
    tw_pages_heading(pages, title, 12.0);
    for (int i = 0; i < count; i++) {
        tw_sheet *block = tw_scratch(pages->arena);
        tw_draw_circle(block, TW_ROLE_SOLID, 1.5, -LIST_MM / 2.0, 0.6);
        double y = tw_block_text(block, 5.0, 0.0, width - 5.0, LIST_MM, false, lines[i]);
        tw_pages_place(pages, block, -y);
    }
}

static void add_printing(tw_pages *pages)
{
    const char *const lines[] = {
        "Print the templates at 100 %, with no fitting to the page.",
        tw_format(pages->arena, "Then lay a steel rule on both scale bars: when either is out by more than %s, do not use the sheet.",
                  pages->in->job->figures.style == TW_FIGURES_MM ? "0.3 mm" : "1/64 in"),
        "Paper moves with the weather: glue the sheet down soon after printing, and check the bars again on the board.",
        "On templates over several pages the crosses must fall on each other; cut along the thin lines, and go by the page map.",
        "The printed line is the guide to saw and file by; the follower runs on wood. Check the finished template against the sizes on its sheet.",
    };
    add_list(pages, "Before you print", lines, (int)(sizeof lines / sizeof *lines));
}

static void add_cautions(tw_pages *pages)
{
    static const char *const lines[] = {
        "Eyes: glasses or a shield at every machine. Ears: muffs or plugs at router and saw. Lungs: draw off the dust, and wear a mask when sanding.",
        "Hands: never nearer to a turning cutter or blade than a hand's width; clamp the piece, or use push blocks, cradles and sticks long enough to hold.",
        "Unplug the machine before you change a cutter, a follower or the table. Turn the spindle by hand through the whole path before you switch on.",
        "Feed against the turn of the cutter; plunge in the steps that the card gives, and never before the follower is where the card wants it.",
        "Cut the test piece first, and measure it; then the first piece, and measure it; then the batch.",
        "What is reckoned here is an estimate for a maker's judgement, from clean wood and sharp tools.",
        "Where people stand, sit or sleep on it, local codes and the advice of a licensed engineer come before these papers.",
    };
    add_list(pages, "Before you cut", lines, (int)(sizeof lines / sizeof *lines));
}

tw_paper_pages tw_paper_overview(tw_arena *arena, const tw_paper_input *in, const tw_papers *others)
{
    tw_pages pages = tw_pages_begin(arena, in, "overview", "Overview", "Overview", "what is in the folder, what stands against the job, how to print, cautions");
    tw_pages_new(&pages, "Overview", NULL);
    add_head(&pages);
    add_standing(&pages);
    add_papers(&pages, others);
    add_pieces(&pages);
    add_plans(&pages, "Joints", false);
    add_plans(&pages, "Profiles", true);
    add_cautions(&pages);
    add_printing(&pages);
    return tw_pages_finish(&pages);
}
