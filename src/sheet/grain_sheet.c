// SPDX-License-Identifier: GPL-3.0-or-later
/* The paper of the wood: each kind of piece with its fibres as lines, seen on its face and on its face edge, at the depth
 * where cuts part them most often; short grain shaded and numbered; its weight, centre of mass and weakest sections. */
#include "sheet/pages.h"

#include <math.h>

#include "joint/piece_wood.h"

#define LINE_EACH_MM 1.0      // between fibres on paper
#define VIEW_HIGH_MOST_MM 62.0
#define LABEL_MM 4.5          // above each view
#define NUMBERS_MOST 9        // regions that are numbered and told
#define MARK_MM 1.6           // radius of the mark of the centre of mass

typedef struct view {
    tw_wood *wood;
    tw_axis  up;              // y: seen on the face; z: seen on the face edge
    double   level_mm;        // of the other coordinate
    double   scale;           // paper per mm
    double   x0, y0;          // its lower left corner on the block
} view;

static tw_axis across_of(const view *v) { return v->up == TW_AXIS_Y ? TW_AXIS_Z : TW_AXIS_Y; }
static double high_of(const view *v) { return tw_extent_along(v->wood->size, v->up); }
static tw_spot spot_of(const view *v, double up, double level) { return v->up == TW_AXIS_Y ? (tw_spot){ 0, up, level } : (tw_spot){ 0, level, up }; }

/* ---- which fibres ---- */

/* How many runs there are at a level, and how much wood. */
typedef struct seen { int runs; double wood_mm; } seen;

static seen seen_at(const view *v, double level)
{
    enum { LINES = 24 };
    seen all = { 0 };
    for (int i = 0; i < LINES; i++) {
        int count;
        const tw_fibre_run *runs = tw_wood_runs(v->wood, TW_AXIS_X, spot_of(v, high_of(v) * (i + 0.5) / LINES, level), &count);
        for (int r = 0; r < count; r++) all.wood_mm += runs[r].to_mm - runs[r].from_mm;
        all.runs += count;
    }
    return all;
}

/* Half-way between two marks, where the fibres are parted most often; among such levels the one with most wood. */
static double level_of(const view *v)
{
    tw_marks marks = tw_marks_of_wood(v->wood, across_of(v));
    double level = 0.0;
    seen best = { 0 };
    for (size_t i = 0; i + 1 < marks.count; i++) {
        double at = (marks.at[i] + marks.at[i + 1]) / 2.0;
        seen here = seen_at(v, at);
        if (i > 0 && (here.runs < best.runs || (here.runs == best.runs && here.wood_mm <= best.wood_mm + 1e-6))) continue;
        best = here;
        level = at;
    }
    return level;
}

/* ---- drawing ---- */

static void draw_fibre(tw_sheet *sheet, const view *v, double up, double half)
{
    int count;
    const tw_fibre_run *runs = tw_wood_runs(v->wood, TW_AXIS_X, spot_of(v, up, v->level_mm), &count);
    double y = v->y0 + up * v->scale, length = v->wood->size.length_mm;
    for (int i = 0; i < count; i++) {
        double a = v->x0 + runs[i].from_mm * v->scale, b = v->x0 + runs[i].to_mm * v->scale;
        tw_draw_line(sheet, TW_ROLE_HATCH, a, y, b, y);
        if (runs[i].from_mm > 0.0) tw_draw_line(sheet, TW_ROLE_VISIBLE, a, y - half, a, y + half);
        if (runs[i].to_mm < length) tw_draw_line(sheet, TW_ROLE_VISIBLE, b, y - half, b, y + half);
    }
}

static void draw_patches(tw_sheet *sheet, const view *v, const tw_piece_wood *wood)
{
    for (int i = 0; i < wood->patch_count; i++) {
        const tw_grain_patch *p = &wood->patches[i];
        double from = v->up == TW_AXIS_Y ? p->y0_mm : p->z0_mm, to = v->up == TW_AXIS_Y ? p->y1_mm : p->z1_mm;
        double x0 = v->x0 + p->run.from_mm * v->scale, x1 = v->x0 + p->run.to_mm * v->scale, y0 = v->y0 + from * v->scale, y1 = v->y0 + to * v->scale;
        const tw_vertex box[] = { { x0, y0, 0 }, { x1, y0, 0 }, { x1, y1, 0 }, { x0, y1, 0 } };
        tw_draw_outline(sheet, TW_ROLE_SHADE, tw_outline_of_loop(sheet->arena, box, 4));
    }
}

static void draw_centre(tw_sheet *sheet, const view *v, tw_spot centre)
{
    double x = v->x0 + centre.x * v->scale, y = v->y0 + tw_along(centre, v->up) * v->scale;
    tw_draw_circle(sheet, TW_ROLE_VISIBLE, x, y, MARK_MM);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, x - 1.6 * MARK_MM, y, x + 1.6 * MARK_MM, y);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, x, y - 1.6 * MARK_MM, x, y + 1.6 * MARK_MM);
}

static void draw_view(tw_sheet *sheet, const view *v, const tw_piece_wood *wood)
{
    double high = high_of(v), wide = v->wood->size.length_mm * v->scale;
    int lines = (int)tw_max(2.0, floor(high * v->scale / LINE_EACH_MM));
    draw_patches(sheet, v, wood);
    for (int i = 0; i < lines; i++) draw_fibre(sheet, v, high * (i + 0.5) / lines, high * v->scale / lines / 2.0);
    tw_draw_box(sheet, TW_ROLE_FRAME, v->x0, v->y0, v->x0 + wide, v->y0 + high * v->scale);
    double weak = v->x0 + wood->bulk.least_area.x_mm * v->scale;
    tw_draw_line(sheet, TW_ROLE_CENTRE, weak, v->y0 - 2.0, weak, v->y0 + high * v->scale + 2.0);
    draw_centre(sheet, v, wood->bulk.centre);
}

/* A scale of ISO 5455 at which both views fit. */
static double scale_for(tw_size size, double width_mm, double *one_to)
{
    static const double scales[] = { 1, 2, 5, 10, 20, 50, 100 };
    size_t i = 0;
    while (i + 1 < sizeof scales / sizeof *scales && (size.length_mm / scales[i] > width_mm || (size.width_mm + size.thickness_mm) / scales[i] > VIEW_HIGH_MOST_MM)) i++;
    *one_to = scales[i];
    return 1.0 / scales[i];
}

/* ---- words ---- */

static const char *area_words(const tw_pages *pages, double area_mm2)
{
    if (pages->in->job->figures.style == TW_FIGURES_MM) return tw_format(pages->arena, "%.0f mm²", area_mm2);
    return tw_format(pages->arena, "%.2f in²", area_mm2 / (TW_MM_PER_INCH * TW_MM_PER_INCH));
}

static const char *weight_words(const tw_pages *pages, const tw_piece *piece, const tw_piece_wood *wood)
{
    if (!isfinite(wood->mass_kg)) return "not known: the job names no timber that the handbook has";
    int count = (int)piece->count.value;
    const char *one = tw_mass_words(pages->arena, wood->mass_kg, pages->in->job->figures);
    if (count == 1) return one;
    return tw_format(pages->arena, "%s each, %s for the %d of one set", one, tw_mass_words(pages->arena, wood->mass_kg * count, pages->in->job->figures), count);
}

static const char *run_words(const tw_pages *pages, const tw_piece_wood *wood)
{
    const tw_fibre_run *run = &wood->shortest;
    if (run->to_mm <= 0.0) return "no cut parts a fibre";
    return tw_format(pages->arena, "%s, between %s and %s", tw_paper_length(pages, run->to_mm - run->from_mm),
                     tw_bound_words(pages->arena, pages->in->job, wood->cuts.cuts, run->from_cut, true),
                     tw_bound_words(pages->arena, pages->in->job, wood->cuts.cuts, run->to_cut, false));
}

static const char *share_words(const tw_pages *pages, double x_mm, double part)
{
    return tw_format(pages->arena, "%s from the left end, with %.0f %% of the full section's stiffness", tw_paper_length(pages, x_mm), 100.0 * part);
}

static void add_facts(tw_pages *pages, const tw_piece *piece, const tw_piece_wood *wood)
{
    tw_arena *arena = pages->arena;
    tw_size size = tw_piece_size(piece);
    const tw_bulk *b = &wood->bulk;
    double area = size.width_mm * size.thickness_mm, flat = area * tw_square(size.thickness_mm) / 12.0, on_edge = area * tw_square(size.width_mm) / 12.0;
    const char *const cells[] = {
        "Weight", weight_words(pages, piece, wood),
        "Centre of mass", tw_format(arena, "%s from the left end, %s from the face edge, %s from the back", tw_paper_length(pages, b->centre.x), tw_paper_length(pages, b->centre.y), tw_paper_length(pages, b->centre.z)),
        "Weakest section", tw_format(arena, "%s from the left end: %s, %.0f %% of the full section", tw_paper_length(pages, b->least_area.x_mm), area_words(pages, b->least_area.area_mm2), 100.0 * b->least_area.area_mm2 / area),
        "Bends easiest flat", share_words(pages, b->least_about_y.x_mm, b->least_about_y.about_y_mm4 / flat),
        "Bends easiest on edge", share_words(pages, b->least_about_z.x_mm, b->least_about_z.about_z_mm4 / on_edge),
        "Shortest run of grain", run_words(pages, wood),
    };
    const tw_column columns[] = { { "What", 46, TW_ANCHOR_LEFT, true }, { "Where and how much", 142, TW_ANCHOR_LEFT, false } };
    tw_pages_table(pages, columns, 2, TW_SMALL_MM, cells, (int)(sizeof cells / sizeof *cells / 2));
}

static const char *between_words(tw_arena *arena, const tw_job *job, const tw_piece_wood *wood, const tw_short_grain *r)
{
    return tw_format(arena, "%s and %s", tw_bound_words(arena, job, wood->cuts.cuts, r->from_cut, true),
        tw_bound_words(arena, job, wood->cuts.cuts, r->to_cut, false));
}

static void add_regions(tw_pages *pages, const tw_piece_wood *wood)
{
    tw_arena *arena = pages->arena;
    int shown = wood->region_count < NUMBERS_MOST ? wood->region_count : NUMBERS_MOST;
    if (shown == 0) return;
    const tw_column columns[] = { { "Short grain", 20, TW_ANCHOR_MIDDLE, true }, { "Between", 84, TW_ANCHOR_LEFT, false }, { "Along the grain", 25, TW_ANCHOR_RIGHT, true },
                                  { "High", 22, TW_ANCHOR_RIGHT, false }, { "From the left end", 30, TW_ANCHOR_RIGHT, false } };
    const char **cells = TW_NEW_ARRAY(arena, const char *, (size_t)shown * 5);
    for (int i = 0; i < shown; i++) {
        const tw_short_grain *r = &wood->regions[i];
        const char **cell = cells + 5 * i;
        double along = r->volume_mm3 / r->area_mm2;
        cell[0] = tw_format(arena, "%d", i + 1);
        cell[1] = between_words(arena, pages->in->job, wood, r);
        cell[2] = tw_paper_bare(pages, along);
        cell[3] = tw_paper_bare(pages, along / r->hold);
        cell[4] = tw_paper_bare(pages, (r->box.least.x + r->box.most.x) / 2.0);
    }
    tw_pages_table(pages, columns, 5, TW_SMALL_MM, cells, shown);
    if (shown < wood->region_count) tw_pages_text(pages, TW_SMALL_MM, false, tw_format(arena, "And %d smaller ones: job.json has them.", wood->region_count - shown));
}

/* Numbers of the regions stand above the view, each over its region's middle; one that would touch the last is pushed on. */
static void draw_numbers(tw_sheet *sheet, const view *v, const tw_piece_wood *wood, double y)
{
    double free_from = -INFINITY, small = tw_small_print(sheet, TW_SMALL_MM);
    int shown = wood->region_count < NUMBERS_MOST ? wood->region_count : NUMBERS_MOST, order[NUMBERS_MOST];
    for (int i = 0; i < shown; i++) {
        int k = i;
        for (; k > 0 && wood->regions[order[k - 1]].box.least.x > wood->regions[i].box.least.x; k--) order[k] = order[k - 1];
        order[k] = i;
    }
    for (int i = 0; i < shown; i++) {
        const tw_block *box = &wood->regions[order[i]].box;
        double x = tw_max(v->x0 + (box->least.x + box->most.x) / 2.0 * v->scale, free_from);
        tw_draw_bold(sheet, x, y, small, TW_ANCHOR_MIDDLE, tw_format(sheet->arena, "%d", order[i] + 1));
        free_from = x + 2.5 * small;
    }
}

/* ---- a piece ---- */

/* Both views with a line of words above each, from y = 0 down; returns where they end. Words too long for a narrow drawing are
 * wrapped. */
static double draw_both(tw_sheet *block, const tw_job *job, const tw_piece *piece, const tw_piece_wood *wood, double width)
{
    tw_arena *arena = block->arena;
    double one_to, small = tw_small_print(block, TW_SMALL_MM);
    tw_size size = tw_piece_size(piece);
    tw_wood lines = tw_wood_make(arena, size, wood->cuts.cuts, wood->cuts.count);
    view face = { .wood = &lines, .up = TW_AXIS_Y, .scale = scale_for(size, width, &one_to) }, edge = { .wood = &lines, .up = TW_AXIS_Z, .scale = face.scale };
    double numbers = wood->region_count > 0 ? 2.0 * small + 1.0 : 0.0;
    face.level_mm = level_of(&face);
    edge.level_mm = level_of(&edge);
    const char *on_face = tw_format(arena, "1 : %g. Seen on the face: its fibres %s from the back", one_to,
        tw_length_text(arena, face.level_mm, job->figures));
    double y = tw_draw_paragraph(block, 0.0, -small, width, small, false, on_face) + TW_LEADING * small - LABEL_MM - numbers;
    draw_numbers(block, &face, wood, y - small + numbers / 2.0 + 1.0);
    face.y0 = y - size.width_mm * face.scale;
    draw_view(block, &face, wood);
    const char *on_edge = tw_format(arena, "Seen on the face edge: its fibres %s from the face edge",
        tw_length_text(arena, edge.level_mm, job->figures));
    y = tw_draw_paragraph(block, 0.0, face.y0 - 2.0 - LABEL_MM, width, small, false, on_edge) + TW_LEADING * small;
    edge.y0 = y - LABEL_MM - size.thickness_mm * edge.scale;
    draw_view(block, &edge, wood);
    return edge.y0;
}

static void add_picture(tw_pages *pages, const tw_piece *piece, const tw_piece_wood *wood)
{
    tw_sheet *block = tw_scratch(pages->arena);
    double y = draw_both(block, pages->in->job, piece, wood, pages->room.x1 - pages->room.x0);
    tw_pages_place(pages, block, 4.0 - y);
}

static void add_piece(tw_pages *pages, int index)
{
    const tw_piece *piece = &pages->in->job->pieces[index];
    tw_size size = tw_piece_size(piece);
    double one_to, scale = scale_for(size, pages->room.x1 - pages->room.x0, &one_to);
    if (pages->in->woods[index].cuts.count == 0) {
        tw_pages_heading(pages, piece->name, 10.0);
        tw_pages_text(pages, TW_SMALL_MM, false, tw_format(pages->arena, "No cuts: the whole section everywhere. Weight: %s.", weight_words(pages, piece, &pages->in->woods[index])));
        return;
    }
    tw_pages_heading(pages, piece->name, (size.width_mm + size.thickness_mm) * scale + 70.0);
    add_picture(pages, piece, &pages->in->woods[index]);
    add_regions(pages, &pages->in->woods[index]);
    add_facts(pages, piece, &pages->in->woods[index]);
}

tw_paper_pages tw_paper_grain(tw_arena *arena, const tw_paper_input *in)
{
    if (!in->woods || in->job->piece_count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "grain", "The wood of each piece", "Grain", "fibres and short grain, weight, centre of mass and weakest sections of each piece");
    tw_pages_new(&pages, "The wood of each piece", NULL);
    tw_pages_text(&pages, TW_BODY_MM, false,
                  "Thin lines are fibres: they end where a cut ends them. Grey is short grain: wood that is shorter along the grain than it is high, so that it splits off. "
                  "The ring with a cross is the centre of mass, the chain line the weakest section. Weights are those of mean wood of the timber at 12 % moisture; "
                  "a board is easily a tenth lighter or heavier.");
    double mass = tw_set_mass_kg(in->job, in->woods);
    if (isfinite(mass)) tw_pages_text(&pages, TW_BODY_MM, true, tw_format(pages.arena, "One set of pieces weighs about %s.", tw_mass_words(pages.arena, mass, in->job->figures)));
    for (int i = 0; i < in->job->piece_count; i++) add_piece(&pages, i);
    return tw_pages_finish(&pages);
}

/* ---- on the screen ---- */

tw_sheet *tw_grain_drawing(tw_arena *arena, const tw_paper_input *in, int piece, double wide_mm, double least_text_mm)
{
    if (!in->woods || in->woods[piece].cuts.count == 0) return NULL;
    const tw_piece_wood *wood = &in->woods[piece];
    tw_sheet *sheet = tw_scratch(arena);
    sheet->least_text_mm = least_text_mm;
    double y = draw_both(sheet, in->job, &in->job->pieces[piece], wood, wide_mm) - 4.0,
        small = tw_small_print(sheet, TW_SMALL_MM);
    int shown = wood->region_count < NUMBERS_MOST ? wood->region_count : NUMBERS_MOST;
    for (int i = 0; i < shown; i++) {
        const tw_short_grain *r = &wood->regions[i];
        tw_draw_bold(sheet, 0.0, y - small, small, TW_ANCHOR_LEFT, tw_format(arena, "%d", i + 1));
        y = tw_block_text(sheet, 3.0 * small, y, wide_mm - 3.0 * small, small, false,
                          tw_format(arena, "between %s: %s along the grain", between_words(arena, in->job, wood, r),
                              tw_length_text(arena, r->volume_mm3 / r->area_mm2, in->job->figures)));
    }
    return sheet;
}
