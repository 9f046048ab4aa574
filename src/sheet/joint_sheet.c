// SPDX-License-Identifier: GPL-3.0-or-later
/* Joint sheets, and the like sheets of profiles: each joint in section with its dimensions, its figures with their sums and rules, and the advice that
 * makers keep. The drawing is the kind's own; it is drawn on a sheet of its own first, because it tells its scale. */
#include "sheet/pages.h"

#include <string.h>

#include "sheet/joint_picture.h"

#define DRAWING_HIGH_MM 118.0
#define DRAWING_MOST_MM 190.0
#define PICTURE_HIGH_MM 72.0
#define SCREEN_HIGH_PER_WIDE 0.6  // on the screen: of a drawing's width, as the two above
#define SCREEN_MOST_PER_WIDE 1.0
#define SCREEN_GAP_MM 6.0         // between section and picture

static const char *value_words(const tw_pages *pages, const tw_figure *figure)
{
    switch (figure->unit) {
    case TW_UNIT_MM: return tw_paper_length(pages, figure->value);
    case TW_UNIT_RAD: return tw_angle_text(pages->arena, figure->value);
    case TW_UNIT_COUNT: return tw_format(pages->arena, "%.0f", figure->value);
    case TW_UNIT_NONE: return tw_format(pages->arena, "%.3f", figure->value);
    }
    return "";
}

static void add_figures(tw_pages *pages, const tw_joint_plan *plan)
{
    if (plan->figure_count == 0) return;
    const tw_column columns[] = { { "Figure", 44, TW_ANCHOR_LEFT, false }, { "Sign", 11, TW_ANCHOR_LEFT, false },
                                  { "Size", 30, TW_ANCHOR_LEFT, true }, { "Sum", 50, TW_ANCHOR_LEFT, false },
                                  { "Rule", 55, TW_ANCHOR_LEFT, false } };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, plan->figure_count * 5);
    for (size_t i = 0; i < plan->figure_count; i++) {
        const tw_figure *figure = &plan->figures[i];
        cells[5 * i] = figure->label;
        cells[5 * i + 1] = figure->symbol;
        cells[5 * i + 2] = value_words(pages, figure);
        cells[5 * i + 3] = figure->sum;
        cells[5 * i + 4] = figure->rule;
    }
    tw_pages_heading(pages, "Figures", 16.0);
    tw_pages_table(pages, columns, 5, TW_SMALL_MM, cells, (int)plan->figure_count);
}

/* Places of a curve, PAIRS in a row, to be marked out and joined with a bent lath. */
static void add_stations(tw_pages *pages, const tw_joint_plan *plan)
{
    enum { PAIRS = 6, CELLS = 2 * PAIRS };
    if (plan->station_count == 0) return;
    tw_column columns[CELLS];
    for (int i = 0; i < CELLS; i++) columns[i] = (tw_column){ i % 2 ? "high" : "along", i % 2 ? 13 : 18, TW_ANCHOR_RIGHT, i % 2 != 0 };
    size_t rows = (plan->station_count + PAIRS - 1) / PAIRS, wide = 2 * ((plan->station_count + rows - 1) / rows);
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, rows * CELLS);
    for (size_t i = 0; i < plan->station_count; i++) {  // down the columns
        size_t at = i % rows * wide + 2 * (i / rows);
        cells[at] = tw_paper_bare(pages, plan->stations[i].along_mm);
        cells[at + 1] = tw_paper_bare(pages, plan->stations[i].high_mm);
    }
    tw_pages_heading(pages, "Places to mark the curve out", 16.0);
    tw_pages_text(pages, TW_BODY_MM, false, plan->stations_from);
    tw_pages_table(pages, columns, (int)wide, TW_BODY_MM, cells, (int)rows);
}

static void add_advice(tw_pages *pages, const tw_joint_plan *plan)
{
    if (plan->order_count == 0) return;
    double width = pages->room.x1 - pages->room.x0;
    tw_pages_heading(pages, "The order that makers keep", 10.0);
    for (size_t i = 0; i < plan->order_count; i++) {
        tw_sheet *block = tw_scratch(pages->arena);
        tw_draw_bold(block, 0.0, -TW_BODY_MM, TW_BODY_MM, TW_ANCHOR_LEFT, tw_format(pages->arena, "%zu", i + 1));
        double y = tw_block_text(block, 8.0, 0.0, width - 8.0, TW_BODY_MM, false, plan->order[i]);
        tw_pages_place(pages, block, -y);
    }
}

/* Leaders and dimensions may stand beyond the room that a kind was given: the whole is moved back into it, as far as it goes. */
static tw_sheet *moved_into(tw_arena *arena, const tw_sheet *drawing, double width, double *height)
{
    tw_box ink = tw_sheet_reach(drawing);
    tw_sheet *moved = tw_scratch(arena);
    double left = ink.x0 < 0.0 ? -ink.x0 : ink.x1 > width ? tw_max(width - ink.x1, -ink.x0) : 0.0;
    tw_draw_sheet(moved, drawing, 1.0, left, -ink.y1);
    *height = ink.y1 - ink.y0;
    return moved;
}

typedef struct drawing { tw_sheet *sheet; const char *scale; int overlaps; } drawing;

/* high: usually; most: where that lets the scale be larger. */
typedef struct room_given { double width, high, most, least_text_mm; } room_given;

static drawing draw_once(tw_arena *arena, const tw_paper_input *in, const tw_joint_plan *plan, const tw_job *job, room_given room,
    double height)
{
    tw_findings unheard = { .arena = arena };  // drawing finds nothing new
    tw_joint_context context = { .arena = arena, .job = job, .shop = in->shop, .findings = &unheard };
    drawing d = { .sheet = tw_scratch(arena) };
    d.sheet->least_text_mm = room.least_text_mm;
    d.scale = tw_joint_kinds[plan->joint->kind]->draw(&context, plan, d.sheet, (tw_box){ 0.0, -height, room.width, 0.0 });
    tw_sheet_overlaps(d.sheet, arena, &d.overlaps);
    return d;
}

/* The kind's own drawing, in more room where that gives a larger scale. Should texts lie on each other all the same, it is
 * dimensioned in thousandths of an inch, which are shorter than fractions that are heavy or light. */
static drawing draw_joint(tw_arena *arena, const tw_paper_input *in, const tw_joint_plan *plan, room_given room)
{
    const tw_job *job = in->job;
    drawing usual = draw_once(arena, in, plan, job, room, room.high), high = draw_once(arena, in, plan, job, room, room.most);
    drawing best = high.overlaps < usual.overlaps || (high.overlaps == usual.overlaps && strcmp(high.scale, usual.scale) != 0) ? high : usual;
    if (best.overlaps == 0 || job->figures.style != TW_FIGURES_FRACTION) return best;
    tw_job decimal = *job;
    decimal.figures = (tw_figures){ TW_FIGURES_INCH, 3, decimal.figures.parts };
    drawing shorter = draw_once(arena, in, plan, &decimal, room, room.most);
    return shorter.overlaps < best.overlaps ? shorter : best;
}

static void add_picture(tw_pages *pages, int plan)
{
    if (!pages->in->bodies) return;
    tw_sheet *block = tw_scratch(pages->arena);
    double width = pages->room.x1 - pages->room.x0;
    if (tw_joint_picture_draw(block, pages->in->bodies, pages->in->space, plan, (tw_box){ 0.0, -PICTURE_HIGH_MM, width, 0.0 }))
        tw_pages_place(pages, block, PICTURE_HIGH_MM + 3.0);
}

static void add_joint(tw_pages *pages, const tw_joint_plan *plan)
{
    tw_arena *arena = pages->arena;
    const tw_joint_kind *kind = tw_joint_kinds[plan->joint->kind];
    double width = pages->room.x1 - pages->room.x0;
    drawing drawn = kind->draw ? draw_joint(arena, pages->in, plan, (room_given){ width, DRAWING_HIGH_MM, DRAWING_MOST_MM, 0.0 })
        : (drawing){ .sheet = tw_scratch(arena) };
    tw_pages_new(pages, plan->joint->name, drawn.scale);
    tw_pages_text(pages, TW_TITLE_MM, true, plan->joint->name);
    tw_pages_text(pages, TW_BODY_MM, false, tw_format(arena, "%s, %s in all.", kind->format.kind,
        plan->profile ? tw_format(arena, "of %s, %s", pages->in->job->pieces[plan->piece].name, tw_count_words(arena, plan->count, "piece", "pieces"))
                      : tw_count_words(arena, plan->count, "joint", "joints")));
    if (plan->joint->note.text && *plan->joint->note.text) tw_pages_text(pages, TW_BODY_MM, false, plan->joint->note.text);
    if (drawn.sheet->count > 0) {
        double height;
        tw_sheet *moved = moved_into(arena, drawn.sheet, width, &height);
        tw_pages_gap(pages, 3.0);
        tw_pages_place(pages, moved, height + 3.0);
    }
    add_picture(pages, (int)(plan - pages->in->plans));
    add_figures(pages, plan);
    add_stations(pages, plan);
    add_advice(pages, plan);
}

tw_paper_pages tw_paper_joints(tw_arena *arena, const tw_paper_input *in)
{
    if (in->job->joint_count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "joints", "Joints", "Joint",
                                    "each joint in section, its figures with their sums and rules");
    for (int i = 0; i < in->plan_count; i++)
        if (!in->plans[i].profile) add_joint(&pages, &in->plans[i]);
    return tw_pages_finish(&pages);
}

tw_paper_pages tw_paper_profiles(tw_arena *arena, const tw_paper_input *in)
{
    if (in->job->profile_count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "profiles", "Profiles", "Profile",
                                    "each shaped edge with its figures, and the places to mark a curve out by");
    for (int i = 0; i < in->plan_count; i++)
        if (in->plans[i].profile) add_joint(&pages, &in->plans[i]);
    return tw_pages_finish(&pages);
}

/* ---- on the screen ---- */

tw_sheet *tw_joint_drawing(tw_arena *arena, const tw_paper_input *in, int plan, double wide_mm, double least_text_mm)
{
    const tw_joint_kind *kind = tw_joint_kinds[in->plans[plan].joint->kind];
    if (!kind->draw) return NULL;
    room_given room = { wide_mm, tw_max(DRAWING_HIGH_MM, SCREEN_HIGH_PER_WIDE * wide_mm),
        tw_max(DRAWING_MOST_MM, SCREEN_MOST_PER_WIDE * wide_mm), least_text_mm };
    drawing d = draw_joint(arena, in, &in->plans[plan], room);
    double height;
    tw_sheet *sheet = moved_into(arena, d.sheet, wide_mm, &height);
    sheet->least_text_mm = least_text_mm;
    double high = wide_mm < TW_NARROW_MM ? 1.5 * wide_mm : tw_min(PICTURE_HIGH_MM, 0.45 * wide_mm), top = -height - SCREEN_GAP_MM;
    if (in->bodies && !in->plans[plan].profile) tw_joint_picture_draw(sheet, in->bodies, in->space, plan,
        (tw_box){ 0.0, top - high, wide_mm, top });
    return sheet;
}
