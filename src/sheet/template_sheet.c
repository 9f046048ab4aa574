// SPDX-License-Identifier: GPL-3.0-or-later
/* Template sheets, true to size: the edge to cut to, the follower's path, centre lines, baseline edge, holes, and below
 * the board what the template is for. All of it stands on one canvas, which is cut into pages where the paper is too small.
 *
 * The canvas is drawn as the maker sees the template at work. A point (x, y) of the template's frame (ratio times the
 * cut's frame) comes there through tw_machine_view(), point by point as a loop of its own. */
#include "sheet/pages.h"

#include "draw/labels.h"
#include "draw/rows.h"
#include "sheet/figures.h"
#include "sheet/tile.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define EDGE_MM 3.0          // between the canvas' border and the board
#define BASELINE_OUT_MM 1.5  // the words stand so far off the baseline edge
#define WORDS_MM 2.2
#define LEAST_WORDS_MM 1.8
#define MARKS_MOST 40        // places of wood left or lost that are marked
#define SCREEN_LEFT_MM 4.0   // on the screen: beside and above the board, for centre lines, words and dimensions
#define SCREEN_BESIDE_MM 30.0
#define SCREEN_ABOVE_MM 8.0
#define SCREEN_HIGH_PER_WIDE 0.8

typedef struct canvas {
    tw_arena             *arena;   // for composing
    tw_arena             *keep;    // where the finished pages live
    const tw_paper_input *in;
    const tw_template    *t;
    int                   number;  // of the template, from 1
    tw_sheet             *sheet;
    double                dx, dy;  // from the template as the maker sees it to the canvas
    tw_box                board;   // on the canvas
    bool                  bare;    // without words: they are set beside it
} canvas;

/* ---- from the template's frame ---- */

static tw_outline to_canvas(const canvas *c, tw_outline seen) { return tw_outline_moved(c->arena, seen, c->dx, c->dy); }

/* A point of the template's frame as the maker sees it, on the canvas. */
static tw_point point_on_canvas(const canvas *c, double x, double y)
{
    tw_vertex corners[] = { { x, y, 0.0 }, { x + 2.0, y, 0.0 }, { x + 2.0, y + 2.0, 0.0 }, { x, y + 2.0, 0.0 } };
    tw_box low = tw_outline_bounds(tw_machine_view(c->arena, &c->in->shop->machine, tw_outline_of_loop(c->arena, corners, 4)));
    for (int i = 0; i < 4; i++) { corners[i].x -= 2.0; corners[i].y -= 2.0; }
    tw_box high = tw_outline_bounds(tw_machine_view(c->arena, &c->in->shop->machine, tw_outline_of_loop(c->arena, corners, 4)));
    return (tw_point){ (low.x0 + low.x1 + high.x0 + high.x1) / 4.0 + c->dx, (low.y0 + low.y1 + high.y0 + high.y1) / 4.0 + c->dy };
}

static const tw_work *first_work(const canvas *c)
{
    return c->t->work_count > 0 ? &c->in->plans[c->t->works[0]].works[c->t->works[1]] : NULL;
}

/* ---- the drawing ---- */

/* The name stands in the clear above the opening, between the holes. */
typedef struct name_place { bool there; double x, base, wide; } name_place;

static name_place place_of_name(const canvas *c)
{
    tw_box opening = tw_outline_bounds(to_canvas(c, c->t->view)), b = c->board;
    double hole = c->t->hole_count > 0 ? 25.0 : 3.0;
    name_place place = { .x = b.x0 + hole, .base = b.y1 - 4.0 - TW_LOUD_MM, .wide = b.x1 - b.x0 - 2.0 * hole };
    place.there = !c->bare && place.wide >= 20.0 && place.base - 5.0 > opening.y1 + 2.0;
    return place;
}

static void draw_centre_lines(const canvas *c)
{
    tw_box b = c->board;
    tw_point o = point_on_canvas(c, 0.0, 0.0);
    name_place name = place_of_name(c);
    double below_name = name.there ? name.base - 6.0 : b.y1 + 2.0;
    if (o.x > b.x0 && o.x < b.x1) {
        double low = name.there ? b.y0 + 9.0 : b.y0;  // the words below the opening stand there
        tw_draw_line(c->sheet, TW_ROLE_CENTRE, o.x, name.there ? low + TW_SMALL_MM + 1.0 : b.y0 - 2.0, o.x, below_name);
        if (name.there) tw_draw_line(c->sheet, TW_ROLE_CENTRE, o.x, b.y0 - 2.0, o.x, low - 1.2);
        if (name.there) tw_draw_line(c->sheet, TW_ROLE_CENTRE, o.x, name.base + TW_LOUD_MM + 1.0, o.x, b.y1 + 2.0);
    }
    if (o.y > b.y0 && o.y < b.y1) tw_draw_line(c->sheet, TW_ROLE_CENTRE, b.x0 - 2.0, o.y, b.x1 + 2.0, o.y);
}

/* Is there a straight edge that a reference pin touches, and is it the opening's left one? */
static bool has_baseline(const canvas *c, bool *left)
{
    const tw_work *work = first_work(c);
    if (!work || work->copy.locate != TW_LOCATE_BASELINE) return false;
    tw_box opening = tw_outline_bounds(to_canvas(c, c->t->view));
    double x = point_on_canvas(c, c->t->ask.ratio * work->copy.edge_x_mm, 0.0).x;
    *left = fabs(x - opening.x0) <= fabs(x - opening.x1);
    return true;
}

/* The upright wall that the reference pin touches, named along it on the wood's side. */
static void draw_baseline(const canvas *c)
{
    bool left;
    if (c->bare || !has_baseline(c, &left)) return;
    tw_box opening = tw_outline_bounds(to_canvas(c, c->t->view));
    double x = left ? opening.x0 : opening.x1, centre = point_on_canvas(c, 0.0, 0.0).y;
    double at = left ? x - BASELINE_OUT_MM : x + BASELINE_OUT_MM + TW_SMALL_MM;
    const char *words = "baseline edge: the reference pin touches here";
    double low = tw_max(opening.y0, centre) + BASELINE_OUT_MM;  // clear of the level centre line
    if (tw_text_width(TW_SMALL_MM, false, words) > opening.y1 - low) words = "baseline edge";
    tw_draw_text_turned(c->sheet, at, low, TW_SMALL_MM, TW_ANCHOR_LEFT, TW_PI / 2.0, words);
}

static void draw_holes(const canvas *c)
{
    const tw_template *t = c->t;
    for (int i = 0; i < t->hole_count; i++) {
        double x = t->holes[i].x + c->dx, y = t->holes[i].y + c->dy, arm = t->counterbore_mm / 2.0 + 2.0;
        if (t->hole_mm > 0.0) tw_draw_circle(c->sheet, TW_ROLE_VISIBLE, x, y, t->hole_mm / 2.0);
        if (t->counterbore_mm > t->hole_mm) tw_draw_circle(c->sheet, TW_ROLE_VISIBLE, x, y, t->counterbore_mm / 2.0);
        tw_draw_line(c->sheet, TW_ROLE_CENTRE, x - arm, y, x + arm, y);
        tw_draw_line(c->sheet, TW_ROLE_CENTRE, x, y - arm, x, y + arm);
    }
}

/* A small ring where the cutter leaves wood or takes too much. */
static void mark_patches(const canvas *c, const tw_patch *patches, int count)
{
    for (int i = 0; i < count && i < MARKS_MOST; i++) {
        tw_point p = point_on_canvas(c, patches[i].middle.x * c->t->ask.ratio, patches[i].middle.y * c->t->ask.ratio);
        tw_draw_circle(c->sheet, TW_ROLE_DIMENSION, p.x, p.y, 2.5);
    }
}

static void draw_template(const canvas *c)
{
    const tw_template *t = c->t;
    tw_outline path = to_canvas(c, tw_machine_view(c->arena, &c->in->shop->machine, t->copy.follower_path));
    tw_draw_outline(c->sheet, TW_ROLE_FAINT, path);
    tw_draw_outline(c->sheet, TW_ROLE_VISIBLE, to_canvas(c, t->board_view));
    tw_draw_outline(c->sheet, TW_ROLE_CUT, to_canvas(c, t->view));
    if (t->rim_mm > 0.0) tw_draw_outline(c->sheet, TW_ROLE_HIDDEN, to_canvas(c, tw_outline_offset(c->arena, t->view, t->rim_mm)));
    draw_centre_lines(c);
    draw_holes(c);
    mark_patches(c, t->copy.left, t->copy.left_count);
    mark_patches(c, t->copy.lost, t->copy.lost_count);
    draw_baseline(c);
}

/* Name, job and side on the board itself, where they stay when the paper is glued on. */
static void draw_name(const canvas *c)
{
    name_place p = place_of_name(c);
    if (!p.there) return;
    tw_draw_bold(c->sheet, p.x, p.base, TW_LOUD_MM, TW_ANCHOR_LEFT, tw_text_fitted(c->arena, p.wide, TW_LOUD_MM, true, c->t->name));
    double name = tw_text_width(TW_LOUD_MM, true, c->t->name) + 3.0;
    if (p.wide - name > 10.0)
        tw_draw_text(c->sheet, p.x + name, p.base, TW_SMALL_MM, TW_ANCHOR_LEFT,
                     tw_text_fitted(c->arena, p.wide - name, TW_SMALL_MM, false, "this side faces you"));
    const char *copied = tw_format(c->arena, "%s, %s, ratio %g, %s", c->in->shop->cutters[c->t->cutter].name,
                                   c->in->shop->followers[c->t->follower].name, c->t->ask.ratio, c->t->ask.inside ? "inside" : "outside");
    double low = c->board.y0 + 9.0;
    if (low + TW_SMALL_MM + 2.0 < tw_outline_bounds(to_canvas(c, c->t->view)).y0)
        tw_draw_text(c->sheet, p.x, low, TW_SMALL_MM, TW_ANCHOR_LEFT, tw_text_fitted(c->arena, p.wide, TW_SMALL_MM, false, copied));
    const char *job = tw_format(c->arena, "%s, revision %s", c->in->job->title.text, c->in->job->revision.text);
    tw_draw_text(c->sheet, p.x, p.base - 4.0, TW_SMALL_MM, TW_ANCHOR_LEFT, tw_text_fitted(c->arena, p.wide, TW_SMALL_MM, false, job));
}

/* ---- what is said below the board ---- */

static const char *size_of_edge(const canvas *c)
{
    tw_figures figures = c->in->job->figures;
    tw_box b = tw_outline_bounds(c->t->view);
    return tw_format(c->arena, "%s %s across, %s up", c->t->ask.inside ? "Opening" : "Body", tw_length_text(c->arena, b.x1 - b.x0, figures),
                     tw_length_text(c->arena, b.y1 - b.y0, figures));
}

static const char *serves_words(const canvas *c)
{
    const char *text = "";
    for (int i = 0; i < c->t->work_count; i++) {
        const tw_joint_plan *plan = &c->in->plans[c->t->works[2 * i]];
        const tw_work *work = &plan->works[c->t->works[2 * i + 1]];
        bool turned = c->t->turned && c->t->turned[i];
        text = tw_format(c->arena, "%s%s%s (%s)%s", text, i ? "; " : "", work->name, tw_works_piece_name(c->in, work), turned ? ", TURNED OVER" : "");
    }
    return text;
}

static const char *side_words(const canvas *c)
{
    if (!c->t->turned_over) return "Used from one side: the side printed here faces you.";
    return "Used from both sides, one for each hand: counterbore the holes on both faces, and write on the other face \"turned over\".";
}

static const char *copied_words(const canvas *c)
{
    const tw_shop *shop = c->in->shop;
    const tw_template *t = c->t;
    const char *cutter = shop->cutters[t->cutter].name, *follower = shop->followers[t->follower].name;
    tw_figures figures = c->in->job->figures;
    const char *other = t->other_cutter < 0 ? "" : tw_format(c->arena, " and after it, along the same path, %s (%s%s)", shop->cutters[t->other_cutter].name,
        tw_length_text(c->arena, shop->cutters[t->other_cutter].d_mm, figures), tw_cutter_is_straight(&shop->cutters[t->other_cutter]) ? "" : " at its tip");
    return tw_format(c->arena, "Cutter %s (%s)%s, follower %s (%s), ratio %g, trace %s. Board %s thick.", cutter,
                     tw_length_text(c->arena, t->ask.cutter_mm, figures), other, follower, tw_length_text(c->arena, t->ask.follower_mm, figures),
                     t->ask.ratio, t->ask.inside ? "inside" : "outside", tw_length_text(c->arena, t->thickness_mm, figures));
}

static double say(tw_sheet *block, double y, double width, double size, const char *text)
{
    return text && *text ? tw_block_text(block, 0.0, y, width, size, false, tw_sentence(block->arena, text)) : y;
}

/* What each follower of the shop makes of the cut, for those that change it little. */
static const char *fits_words(const canvas *c)
{
    const char *text = "";
    for (int i = 0; i < c->t->fit_count; i++) {
        const tw_fit *fit = &c->t->fits[i];
        if (!fit->enters || fit->follower == c->t->follower || fabs(fit->width_change_mm) > 1.0) continue;
        bool mm = c->in->job->figures.style == TW_FIGURES_MM;
        double by = fabs(fit->width_change_mm) / (mm ? 1.0 : TW_MM_PER_INCH);
        const char *size = tw_format(c->arena, "%.*f %s %s", mm ? 3 : 4, by, mm ? "mm" : "in", fit->width_change_mm > 0.0 ? "wider" : "narrower");
        text = tw_format(c->arena, "%s%s%s makes the cut %s", text, *text ? "; " : "", c->in->shop->followers[fit->follower].name, size);
    }
    return *text ? tw_format(c->arena, "Fine adjustment with the followers you own: %s.", text) : "";
}

/* What the joint says of round corners; NULL: the template's own note must do. */
static const char *corner_word(const canvas *c) { return first_work(c) ? first_work(c)->copy.corner_word : NULL; }

static const char *rings_words(const canvas *c)
{
    int left = c->t->copy.left_count, lost = c->t->copy.lost_count;
    const char *is_left = left > 0 ? tw_format(c->arena, "%d round corner%s where wood is left", left, left == 1 ? "" : "s") : "";
    const char *is_lost = lost > 0 ? tw_format(c->arena, "%d place%s where wood is lost", lost, lost == 1 ? "" : "s") : "";
    const char *become = left > 0 && corner_word(c) ? tw_format(c->arena, " (radius %s): %s", tw_length_text(c->arena, c->t->copy.corner_radius_mm, c->in->job->figures), corner_word(c)) : "";
    return tw_format(c->arena, "Rings: %s%s%s%s.", is_lost, left > 0 && lost > 0 ? ", " : "", is_left, become);
}

static double draw_words(const canvas *c, tw_sheet *block, double width, double size)
{
    const tw_template *t = c->t;
    double y = tw_block_text(block, 0.0, 0.0, width, TW_LOUD_MM, true, tw_format(c->arena, "%s  %s", t->name, t->title));
    const char *halt = tw_halt_words(c->arena, c->in->findings);
    if (halt) y = tw_block_text(block, 0.0, y, width, TW_BODY_MM, true, halt);
    y = tw_block_text(block, 0.0, y, width, size, true,
                      tw_format(c->arena, "%s. Thick line: the edge to work to; thin grey: the follower's path; chain lines: the centre%s.", size_of_edge(c), t->rim_mm > 0.0 ? "; dashed: the rim" : ""));
    y = say(block, y, width, size, copied_words(c));
    y = say(block, y, width, size, tw_format(c->arena, "Serves: %s.", serves_words(c)));
    y = say(block, y, width, size, side_words(c));
    y = say(block, y, width, size, t->making);
    if (t->copy.left_count + t->copy.lost_count > 0)
        y = say(block, y, width, size, rings_words(c));
    for (int i = 0; i < t->copy.note_count; i++)
        if (!corner_word(c) || strncmp(t->copy.notes[i], "wood is left", 12) != 0) y = say(block, y, width, size, t->copy.notes[i]);
    y = say(block, y, width, size, t->clearing);
    y = say(block, y, width, size, t->guides);
    return say(block, y, width, size, fits_words(c));
}

/* ---- pages ---- */

/* The same canvas with a sheet of its own: the board above room for words; words_high 0: the board alone. */
static canvas with_board(canvas c, double words_wide, double words_high)
{
    tw_box seen = tw_outline_bounds(c.t->board_view);
    double wide = seen.x1 - seen.x0 + 2.0 * EDGE_MM, high = seen.y1 - seen.y0 + 2.0 * EDGE_MM;
    c.dx = EDGE_MM - seen.x0 + tw_max(0.0, (words_wide - wide) / 2.0);
    c.dy = EDGE_MM + words_high - seen.y0;
    c.board = (tw_box){ seen.x0 + c.dx, seen.y0 + c.dy, seen.x1 + c.dx, seen.y1 + c.dy };
    c.sheet = tw_sheet_new(c.arena, tw_format(c.arena, "templates-%d", c.number), tw_format(c.arena, "%s: %s", c.t->name, c.t->title),
                           tw_max(wide, words_wide), high + words_high);
    return c;
}

static tw_sheet **tile(const canvas *c, int *count)
{
    tw_tiling tiling = tw_tiling_default((tw_paper)c->in->job->paper.value);
    tiling.footer = tw_format(c->arena, "%s · %s · revision %s · %s", c->t->name, c->t->title, c->in->job->revision.text, c->in->job->title.text);
    return tw_sheet_tile(c->keep, c->sheet, tiling, count);
}

typedef struct template_list { const tw_sheet **pages; size_t count, room; } template_list;

static void add_pages(tw_arena *keep, template_list *list, tw_sheet **pages, int count)
{
    for (int i = 0; i < count; i++) {
        tw_array_make_room(keep, &list->pages, list->count, &list->room, sizeof(tw_sheet *));
        list->pages[list->count++] = pages[i];
    }
}

static tw_sheet **board_pages(canvas c, double wide, const tw_sheet *words, double words_high, int *count)
{
    c = with_board(c, wide, words_high);
    draw_template(&c);
    draw_name(&c);
    if (words) tw_draw_sheet(c.sheet, words, 1.0, EDGE_MM, words_high - 1.0);
    return tile(&c, count);
}

static tw_sheet **words_pages(canvas c, double wide, const tw_sheet *words, double words_high, int *count)
{
    c.sheet = tw_sheet_new(c.arena, tw_format(c.arena, "templates-%d-words", c.number), tw_format(c.arena, "%s: %s", c.t->name, c.t->title), wide, words_high);
    tw_draw_sheet(c.sheet, words, 1.0, EDGE_MM, words_high - 1.0);
    return tile(&c, count);
}

/* Would board and words be one page? Asked of the tiling itself, with an empty canvas of that size. */
static bool fits_one_page(const canvas *c, double words_wide, double words_high)
{
    canvas empty = with_board(*c, words_wide, words_high);
    int count;
    empty.keep = c->arena;
    tile(&empty, &count);
    return count == 1;
}

/* The words stand under the board, as wide as the paper lets them be; where the two are more than a page, on a page of their
 * own, so that the board falls on no more pages than it needs and no line is cut. */
static void add_template(canvas c, template_list *list)
{
    tw_box seen = tw_outline_bounds(c.t->board_view);
    tw_paper_size paper = tw_paper_size_of((tw_paper)c.in->job->paper.value);
    double board = seen.x1 - seen.x0 + 2.0 * EDGE_MM, upright = paper.width_mm - 2.0 * TW_PAGE_MARGIN_MM, lying = paper.height_mm - 2.0 * TW_PAGE_MARGIN_MM;
    double wide = board <= upright ? upright : board <= lying ? lying : board, words_wide = tw_min(wide, lying);
    tw_sheet *words = NULL, **pages = NULL;
    double words_high = 0.0;
    int count = 0;
    for (double size = WORDS_MM; size > LEAST_WORDS_MM - 1e-9 && count != 1; size -= 0.2) {
        words = tw_scratch(c.arena);
        words_high = 4.0 - draw_words(&c, words, words_wide - 2.0 * EDGE_MM, size);
        if (fits_one_page(&c, wide, words_high)) pages = board_pages(c, wide, words, words_high, &count);
    }
    if (count != 1) {
        pages = board_pages(c, 0.0, NULL, 0.0, &count);
        add_pages(c.keep, list, pages, count);
        words = tw_scratch(c.arena);
        words_high = 4.0 - draw_words(&c, words, words_wide - 2.0 * EDGE_MM, WORDS_MM);
        pages = words_pages(c, words_wide, words, words_high, &count);
    }
    add_pages(c.keep, list, pages, count);
}

tw_paper_pages tw_paper_templates(tw_arena *arena, const tw_paper_input *in)
{
    template_list list = { 0 };
    for (int i = 0; i < in->templates->count; i++) {
        if (in->templates->items[i].board_view.count == 0) continue;  // it could not be made: a halt says why
        tw_arena composing = tw_arena_beside(arena);
        add_template((canvas){ .arena = &composing, .keep = arena, .in = in, .t = &in->templates->items[i], .number = i + 1 }, &list);
        tw_arena_finish(&composing);
    }
    return (tw_paper_pages){ .name = "templates", .title = "Templates, true to size", .true_size = true, .pages = list.pages, .page_count = (int)list.count,
                             .purpose = "the templates to saw and file to, true to size" };
}

/* ---- on the screen ---- */

/* A template's sizes are all reckoned: each leads to its sum. */
static tw_source why(const canvas *c, const char *key)
{
    return (tw_source){ NULL, tw_format(c->arena, "templates/%s/%s", tw_template_key(c->arena, c->in, c->number - 1), key) };
}

/* Sizes of the opening (or the body) and of the board: rows below it, columns at its right. */
static void measure_board(tw_sheet *sheet, const canvas *c, tw_box board, tw_box edge, double wide_mm)
{
    tw_figures figures = c->in->job->figures;
    tw_box true_edge = tw_outline_bounds(c->t->view), true_board = tw_outline_bounds(c->t->board_view);
    tw_rows below = { .arena = sheet->arena, .side = TW_ROWS_BELOW, .border = board.y0, .first_mm = TW_ROWS_FIRST_MM,
        .size_mm = TW_BODY_MM };
    tw_rows right = { .arena = sheet->arena, .side = TW_ROWS_RIGHT, .border = board.x1, .first_mm = TW_ROWS_FIRST_MM,
        .size_mm = TW_BODY_MM };
    below.most = wide_mm;
    tw_rows_measure_of(&below, edge.x0, edge.x1, edge.y0, edge.y0,
        tw_length_bare(sheet->arena, true_edge.x1 - true_edge.x0, figures), why(c, "across"));
    tw_rows_measure_of(&below, board.x0, board.x1, board.y0, board.y0,
        tw_length_bare(sheet->arena, true_board.x1 - true_board.x0, figures), why(c, "board_across"));
    tw_rows_measure_of(&right, edge.y0, edge.y1, edge.x1, edge.x1,
        tw_length_bare(sheet->arena, true_edge.y1 - true_edge.y0, figures), why(c, "up"));
    tw_rows_measure_of(&right, board.y0, board.y1, board.x1, board.x1,
        tw_length_bare(sheet->arena, true_board.y1 - true_board.y0, figures), why(c, "board_up"));
    tw_rows_place(&below);
    tw_rows_place(&right);
    tw_rows_draw(&below, sheet);
    tw_rows_draw(&right, sheet);
}

static tw_box box_scaled(tw_box b, double scale, double dx, double dy)
{
    return (tw_box){ dx + b.x0 * scale, dy + b.y0 * scale, dx + b.x1 * scale, dy + b.y1 * scale };
}

static tw_sheet *on_screen(const canvas *c, double scale, double wide_mm, double least_text_mm)
{
    tw_sheet *sheet = tw_scratch(c->arena);
    sheet->least_text_mm = least_text_mm;
    double dx = SCREEN_LEFT_MM - c->board.x0 * scale, dy = -SCREEN_ABOVE_MM - c->board.y1 * scale;
    tw_draw_sheet(sheet, c->sheet, scale, dx, dy);
    tw_box board = box_scaled(c->board, scale, dx, dy),
        edge = box_scaled(tw_outline_bounds(to_canvas(c, c->t->view)), scale, dx, dy);
    measure_board(sheet, c, board, edge, wide_mm);
    tw_draw_bold(sheet, 0.0, -TW_BODY_MM, TW_BODY_MM, TW_ANCHOR_LEFT,
        tw_text_fitted(c->arena, wide_mm, TW_BODY_MM, true, tw_format(c->arena, "%s, this side faces you", c->t->name)));
    bool left;
    const char *words = "baseline edge";
    double low = tw_max(edge.y0, dy + point_on_canvas(c, 0.0, 0.0).y * scale) + BASELINE_OUT_MM;
    if (!has_baseline(c, &left)) return sheet;
    if (tw_text_width(TW_BODY_MM, false, words) <= edge.y1 - low)
        tw_draw_text_turned(sheet, left ? edge.x0 - BASELINE_OUT_MM : edge.x1 + BASELINE_OUT_MM + TW_BODY_MM, low, TW_BODY_MM,
            TW_ANCHOR_LEFT, TW_PI / 2.0, words);
    else
        tw_draw_label(sheet, (tw_point){ left ? edge.x0 : edge.x1, edge.y0 + 0.25 * (edge.y1 - edge.y0) }, TW_BODY_MM, false,
            60.0, (tw_box){ board.x0, board.y0, wide_mm, board.y1 }, words);
    return sheet;
}

tw_sheet *tw_template_drawing(tw_arena *arena, const tw_paper_input *in, int index, double wide_mm, double least_text_mm)
{
    const tw_template *t = &in->templates->items[index];
    if (t->board_view.count == 0) return NULL;
    canvas c = with_board((canvas){ .arena = arena, .keep = arena, .in = in, .t = t, .number = index + 1, .bare = true }, 0.0,
        0.0);
    draw_template(&c);
    double wide = c.board.x1 - c.board.x0, high = c.board.y1 - c.board.y0, beside = SCREEN_BESIDE_MM;
    tw_sheet *sheet = NULL;
    // figures that stand out beyond the board take what they need
    for (double over = 1.0; over > 0.0 && beside < wide_mm / 2.0; beside += over) {
        double scale = tw_min(1.0, tw_min((wide_mm - beside) / wide, SCREEN_HIGH_PER_WIDE * wide_mm / high));
        sheet = on_screen(&c, scale, wide_mm, least_text_mm);
        tw_box ink = tw_sheet_reach(sheet);
        over = ink.x1 - ink.x0 - wide_mm;
    }
    return sheet;
}
