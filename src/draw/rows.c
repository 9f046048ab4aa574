// SPDX-License-Identifier: GPL-3.0-or-later
/* How measures come into rows.
 *
 *       |     |<- 40 ->|        |      row 0      A measure in row r has extension lines that run through all rows nearer
 *       |<------ 90 ---|------->|      row 1      than r, and its own; its text must avoid those of every measure in row r
 *                                                 or farther, and what else stands in row r.
 *
 * Measures are taken shortest first. One may stand in any row beyond those of the shorter ones whose spans overlap its own
 * (so longer ones lie outside and extension lines seldom cross dimension lines). Its text keeps clear of the extension lines
 * of all measures not yet taken, whatever row they will have, and of those taken that stand in its row or farther out. So
 * whatever comes later finds its way out free, and a new row always has room, beside the outermost extension line if nowhere
 * nearer: the first way down the tree of choices never fails. The rest is branch and bound on the cost
 *
 *     2 per row in use + 0.5 row + [1 a text beside its arrows] + 0.02 way of the text from its usual place
 *     + 0.5 each dimension line crossed by an extension line + 4 and 1 per mm that leave the room
 *
 * summed over the measures, with a limit on the number of steps. The same measures give the same rows. */
#include "draw/rows.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define SAME_MM 0.01
#define STEPS_MOST 4000      // of the search, over all rows looked at; beyond it the best so far is kept
#define HEAD_LEAST_MM 1.2    // an arrow head of a run is never shorter
#define OVER_MM 2.0          // extension lines pass the dimension line by this
#define JOG_MM 3.0           // length of the bent part of a run's extension line
#define LETTERS_APART 1.5    // figures of a run stand apart by this times the lettering: ink is at most 1.35 high
#define LETTERS_HALF 0.8     // and reach this far from their middle, with what hangs below the line
#define HANGS 0.2            // ink this much of the lettering below the line of writing hangs
#define ORIGIN_RADIUS_MM 1.5 // ISO 129-1, from memory

#define COST_ROW 2.0
#define COST_OUT 0.5
#define COST_BESIDE 1.0
#define COST_BEFORE 1.1      // the usual side is beyond the last arrow
#define COST_WAY 0.02
#define COST_CROSSING 0.5
#define COST_LEAVES 4.0

/* ---- adding ---- */

void tw_rows_measure_of(tw_rows *rows, double from, double to, double from_root, double to_root, const char *text,
    tw_source source)
{
    assert(isfinite(from) && isfinite(to) && rows->count < TW_ROWS_MOST && text);
    tw_measure m = from < to ? (tw_measure){ from, to, from_root, to_root, text, 0, 0.0, source }
                           : (tw_measure){ to, from, to_root, from_root, text, 0, 0.0, source };
    if (m.to - m.from < SAME_MM) return;
    for (size_t i = 0; i < rows->count; i++)
        if (fabs(rows->measures[i].from - m.from) < SAME_MM && fabs(rows->measures[i].to - m.to) < SAME_MM) return;
    tw_array_make_room(rows->arena, &rows->measures, rows->count, &rows->room, sizeof *rows->measures);
    rows->measures[rows->count++] = m;
}

void tw_rows_measure(tw_rows *rows, double from, double to, double from_root, double to_root, const char *text)
{
    tw_rows_measure_of(rows, from, to, from_root, to_root, text, (tw_source){ 0 });
}

void tw_rows_stop_of(tw_rows *rows, double at, double root, const char *text, tw_source source)
{
    assert(isfinite(at) && text);
    for (size_t i = 0; i < rows->stop_count; i++)
        if (fabs(rows->stops[i].at - at) < SAME_MM) return;
    tw_array_make_room(rows->arena, &rows->stops, rows->stop_count, &rows->stop_room, sizeof *rows->stops);
    rows->stops[rows->stop_count++] = (tw_run_stop){ at, root, text, at, source };
}

void tw_rows_stop(tw_rows *rows, double at, double root, const char *text)
{
    tw_rows_stop_of(rows, at, root, text, (tw_source){ 0 });
}

/* ---- what stands where ---- */

typedef struct stand { int row; double text_at, from, to; } stand;  // of one measure: its row; its text; all of its line

typedef struct search {
    const tw_rows *rows;
    int     count;
    int    *order;        // measures, shortest first
    stand  *stands, *best;  // by place in that order
    double  best_cost;
    long    steps, steps_most;
    bool    found;
} search;

static const tw_measure *taken(const search *s, int place) { return &s->rows->measures[s->order[place]]; }

static bool spans_overlap(const tw_measure *a, const tw_measure *b)
{
    return tw_max(a->from, b->from) < tw_min(a->to, b->to) - SAME_MM;
}

static bool near_line(double line, double from, double to, double air) { return line > from - air && line < to + air; }

/* A line that a text of the measure at `place` in that row must avoid and that comes too near, or NULL. */
static const double *line_in_way(const search *s, int place, int row, double from, double to, double air)
{
    for (int i = 0; i < s->count; i++) {
        if (i == place || (i < place && s->stands[i].row < row)) continue;
        const tw_measure *m = taken(s, i);
        if (near_line(m->from, from, to, air)) return &m->from;
        if (near_line(m->to, from, to, air)) return &m->to;
    }
    for (size_t i = 0; i < s->rows->stop_count; i++)
        if (near_line(s->rows->stops[i].at, from, to, air)) return &s->rows->stops[i].at;
    return NULL;
}

/* Nothing else of the row may lie between from and to. */
static bool row_is_free(const search *s, int place, int row, double from, double to)
{
    for (int i = 0; i < place; i++)
        if (s->stands[i].row == row && tw_max(s->stands[i].from, from) < tw_min(s->stands[i].to, to) - SAME_MM) return false;
    return true;
}

/* ---- places of a text ---- */

/* The first place at or beyond `at`, going by `way` (1 or -1), where a text is free of lines. It comes to an end: every step
 * passes one line for good. */
static double free_from(const search *s, int place, int row, double at, double wide, double air, int way)
{
    for (const double *line; (line = line_in_way(s, place, row, at, at + wide, air));)
        at = way > 0 ? *line + air + 1e-9 : *line - air - wide - 1e-9;
    return at;
}

typedef struct choice { double text_at, from, to, cost; bool good; } choice;

static double leaving(const tw_rows *rows, double from, double to)
{
    if (rows->least >= rows->most) return 0.0;
    return tw_max(0.0, rows->least - from) + tw_max(0.0, to - rows->most);
}

static choice finished(const search *s, int place, int row, const tw_measure *m, const tw_dimension_fit *fit, double text_at, double cost)
{
    choice c = { text_at, tw_min(m->from - fit->tail_mm, text_at), tw_max(m->to + fit->tail_mm, text_at + fit->wide_mm), cost, false };
    double out = leaving(s->rows, c.from, c.to);
    if (out > 0.0) c.cost += COST_LEAVES + out;
    c.good = row_is_free(s, place, row, c.from, c.to);
    return c;
}

static choice better(choice a, choice b) { return !a.good || (b.good && b.cost < a.cost - 1e-12) ? b : a; }

/* Room between a text and the ends of its own span: letters that hang below the line of writing keep clear of arrow heads. */
static double end_air(const tw_rows *rows, const tw_measure *m, const tw_dimension_fit *fit)
{
    tw_box ink = tw_text_ink(&(tw_item){ .kind = TW_ITEM_TEXT, .text = m->text, .size_mm = rows->size_mm });
    return fit->arrows_inside && ink.y0 < -HANGS * rows->size_mm ? fit->arrow_mm : fit->air_mm;
}

/* The best place for the text of a measure in a row: between its arrows, beyond or before them. */
static choice text_in_row(const search *s, int place, int row)
{
    const tw_measure *m = taken(s, place);
    tw_dimension_fit fit = tw_dimension_fit_of(m->to - m->from, s->rows->size_mm, m->text);
    double air = fit.air_mm, wide = fit.wide_mm;
    choice best = { 0 };
    if (fit.text_inside) {
        double middle = m->from + fit.text_from_mm;
        double right = free_from(s, place, row, middle, wide, air, 1), left = free_from(s, place, row, middle, wide, air, -1);
        double ends = end_air(s->rows, m, &fit);
        if (right + wide + ends <= m->to + 1e-9) best = better(best, finished(s, place, row, m, &fit, right, COST_WAY * (right - middle)));
        if (left - ends >= m->from - 1e-9) best = better(best, finished(s, place, row, m, &fit, left, COST_WAY * (middle - left)));
    }
    double head = fit.arrows_inside ? 0.0 : fit.arrow_mm, beyond = m->to + head + air, before = m->from - head - air - wide;
    double right = free_from(s, place, row, beyond, wide, air, 1), left = free_from(s, place, row, before, wide, air, -1);
    best = better(best, finished(s, place, row, m, &fit, right, COST_BESIDE + COST_WAY * (right - beyond)));
    return better(best, finished(s, place, row, m, &fit, left, COST_BEFORE + COST_WAY * (before - left)));
}

/* ---- the search ---- */

static bool inside(double line, double from, double to) { return line > from + SAME_MM && line < to - SAME_MM; }

/* Dimension lines of those taken before that the new one's extension lines cross, and the other way round. */
static int crossings(const search *s, int place, int row, const choice *c)
{
    const tw_measure *m = taken(s, place);
    int count = 0;
    for (int i = 0; i < place; i++) {
        const tw_measure *other = taken(s, i);
        const stand *at = &s->stands[i];
        if (at->row < row) count += inside(m->from, at->from, at->to) + inside(m->to, at->from, at->to);
        if (at->row > row) count += inside(other->from, c->from, c->to) + inside(other->to, c->from, c->to);
    }
    return count;
}

static int nearest_row(const search *s, int place)
{
    int row = 0;
    for (int i = 0; i < place; i++)
        if (spans_overlap(taken(s, i), taken(s, place)) && s->stands[i].row >= row) row = s->stands[i].row + 1;
    return row;
}

static void keep_best(search *s, double cost)
{
    for (int i = 0; i < s->count; i++) s->best[i] = s->stands[i];
    s->best_cost = cost;
    s->found = true;
}

/* Rows are tried from the nearest on: the first way down is the greedy one. */
static void search_from(search *s, int place, int rows_used, double cost)
{
    if (s->found && cost >= s->best_cost - 1e-9) return;
    if (place == s->count) { keep_best(s, cost); return; }
    for (int row = nearest_row(s, place); row <= rows_used; row++) {
        if (s->found && s->steps >= s->steps_most) return;
        s->steps++;
        choice c = text_in_row(s, place, row);
        if (!c.good) continue;
        double more = c.cost + COST_OUT * row + COST_CROSSING * crossings(s, place, row, &c) + (row == rows_used ? COST_ROW : 0.0);
        s->stands[place] = (stand){ row, c.text_at, c.from, c.to };
        search_from(s, place + 1, row == rows_used ? rows_used + 1 : rows_used, cost + more);
    }
}

/* Shortest first; of equal ones that nearer to the start, then as they were added. */
static int *by_length(const tw_rows *rows)
{
    int *order = TW_NEW_ARRAY(rows->arena, int, rows->count);
    for (int i = 0; i < (int)rows->count; i++) {
        const tw_measure *m = &rows->measures[i];
        int k = i;
        for (; k > 0; k--) {
            const tw_measure *p = &rows->measures[order[k - 1]];
            double longer = (p->to - p->from) - (m->to - m->from);
            if (longer < -SAME_MM || (longer <= SAME_MM && p->from <= m->from)) break;
            order[k] = order[k - 1];
        }
        order[k] = i;
    }
    return order;
}

static void place_measures(tw_rows *rows)
{
    search s = { .rows = rows, .count = (int)rows->count, .order = by_length(rows), .stands = TW_NEW_ARRAY(rows->arena, stand, rows->count),
                 .best = TW_NEW_ARRAY(rows->arena, stand, rows->count), .steps_most = STEPS_MOST / (1 + (long)rows->count / 10) };
    search_from(&s, 0, 0, 0.0);
    assert(s.found);
    rows->proved = s.steps < s.steps_most;
    for (int i = 0; i < s.count; i++) {
        tw_measure *m = &rows->measures[s.order[i]];
        m->row = s.best[i].row;
        m->text_at = s.best[i].text_at;
        if (m->row >= rows->row_count) rows->row_count = m->row + 1;
        rows->overrun_mm = tw_max(rows->overrun_mm, leaving(rows, s.best[i].from, s.best[i].to));
    }
}

/* ---- the run ---- */

/* With b_i = at_i - i * apart the wish is b ascending: the nearest such sequence is found by putting neighbours that are out
 * of order together in groups, each at the mean of its wishes (pool adjacent violators). The limits then cut it off, which
 * keeps it the nearest. */
void tw_spread(tw_arena *arena, const double at[], int count, double apart_mm, double least, double most, double out[])
{
    double *mean = TW_NEW_ARRAY(arena, double, (size_t)count);
    int *size = TW_NEW_ARRAY(arena, int, (size_t)count), groups = 0;
    for (int i = 0; i < count; i++) {
        mean[groups] = at[i] - i * apart_mm;
        size[groups++] = 1;
        while (groups > 1 && mean[groups - 2] > mean[groups - 1]) {
            int both = size[groups - 2] + size[groups - 1];
            mean[groups - 2] = (mean[groups - 2] * size[groups - 2] + mean[groups - 1] * size[groups - 1]) / both;
            size[groups-- - 2] = both;
        }
    }
    double top = most - (count - 1) * apart_mm;
    bool limited = least < most && top >= least;
    for (int g = 0, i = 0; g < groups; g++)
        for (int k = 0; k < size[g]; k++, i++) out[i] = (limited ? tw_min(tw_max(mean[g], least), top) : mean[g]) + i * apart_mm;
}

static int *stops_in_order(const tw_rows *rows)
{
    int *order = TW_NEW_ARRAY(rows->arena, int, rows->stop_count);
    for (int i = 0; i < (int)rows->stop_count; i++) {
        int k = i;
        for (; k > 0 && rows->stops[order[k - 1]].at > rows->stops[i].at; k--) order[k] = order[k - 1];
        order[k] = i;
    }
    return order;
}

static void place_stops(tw_rows *rows)
{
    int count = (int)rows->stop_count, *order = stops_in_order(rows);
    double *at = TW_NEW_ARRAY(rows->arena, double, rows->stop_count), *out = TW_NEW_ARRAY(rows->arena, double, rows->stop_count);
    double half = LETTERS_HALF * rows->size_mm;
    for (int i = 0; i < count; i++) at[i] = rows->stops[order[i]].at;
    tw_spread(rows->arena, at, count, LETTERS_APART * rows->size_mm, rows->least + half, rows->most - half, out);
    for (int i = 0; i < count; i++) {
        rows->stops[order[i]].text_at = out[i];
        rows->overrun_mm = tw_max(rows->overrun_mm, leaving(rows, out[i] - half, out[i] + half));
    }
}

void tw_rows_place(tw_rows *rows)
{
    assert(rows->size_mm > 0.0 && rows->size_mm <= 3.0);  // larger lettering wants a wider pitch
    rows->row_count = 0;
    rows->overrun_mm = 0.0;
    rows->proved = true;
    if (rows->count > 0) place_measures(rows);
    if (rows->stop_count > 0) place_stops(rows);
}

/* ---- what it takes of the paper ---- */

static double run_out(const tw_rows *rows) { return rows->first_mm + rows->row_count * TW_ROWS_PITCH_MM; }

double tw_rows_depth_mm(const tw_rows *rows)
{
    double rise = 1.6 * rows->size_mm, wide = 0.0;  // text that stands beyond its line: lift, capital and a little more
    bool beyond = rows->side == TW_ROWS_ABOVE || rows->side == TW_ROWS_LEFT;
    if (rows->stop_count == 0) return rows->row_count == 0 ? 0.0 : run_out(rows) - TW_ROWS_PITCH_MM + (beyond ? tw_max(rise, OVER_MM) : OVER_MM);
    for (size_t i = 0; i < rows->stop_count; i++) wide = tw_max(wide, tw_text_width(rows->size_mm, false, rows->stops[i].text));
    return run_out(rows) + OVER_MM + JOG_MM + 1.0 + wide;
}

void tw_rows_reach(const tw_rows *rows, double *least, double *most)
{
    *least = INFINITY;
    *most = -INFINITY;
    for (size_t i = 0; i < rows->count; i++) {
        const tw_measure *m = &rows->measures[i];
        tw_dimension_fit fit = tw_dimension_fit_of(m->to - m->from, rows->size_mm, m->text);
        *least = tw_min(*least, tw_min(m->from - fit.tail_mm, m->text_at));
        *most = tw_max(*most, tw_max(m->to + fit.tail_mm, m->text_at + fit.wide_mm));
    }
    for (size_t i = 0; i < rows->stop_count; i++) {
        double half = LETTERS_HALF * rows->size_mm;
        *least = tw_min(*least, tw_min(rows->stops[i].at, rows->stops[i].text_at - half));
        *most = tw_max(*most, tw_max(rows->stops[i].at, rows->stops[i].text_at + half));
    }
}

/* ---- drawing ---- */

static bool level(const tw_rows *rows) { return rows->side == TW_ROWS_BELOW || rows->side == TW_ROWS_ABOVE; }
static double outward(const tw_rows *rows) { return rows->side == TW_ROWS_ABOVE || rows->side == TW_ROWS_RIGHT ? 1.0 : -1.0; }
static double across_of(const tw_rows *rows, double out) { return rows->border + outward(rows) * out; }

static tw_point spot(const tw_rows *rows, double along, double across)
{
    return level(rows) ? (tw_point){ along, across } : (tw_point){ across, along };
}

static void draw_measure(const tw_rows *rows, tw_sheet *sheet, const tw_measure *m)
{
    double line = across_of(rows, rows->first_mm + m->row * TW_ROWS_PITCH_MM);
    double off = level(rows) ? line - m->from_root : m->from_root - line;
    tw_draw_source(sheet, m->source);
    tw_draw_dimension_text_at(sheet, spot(rows, m->from, m->from_root), spot(rows, m->to, m->to_root), level(rows) ? 0.0 : TW_PI / 2.0, off,
                              rows->size_mm, m->text, m->text_at - m->from);
}

static void draw_part(const tw_rows *rows, tw_sheet *sheet, double along0, double across0, double along1, double across1)
{
    tw_point a = spot(rows, along0, across0), b = spot(rows, along1, across1);
    tw_draw_line(sheet, TW_ROLE_DIMENSION, a.x, a.y, b.x, b.y);
}

/* The extension line of a stop, bent beyond the run's line to where its figure has room, and the figure. */
static void draw_stop(const tw_rows *rows, tw_sheet *sheet, const tw_run_stop *stop)
{
    double way = outward(rows), line = across_of(rows, run_out(rows)), over = line + way * OVER_MM, end = over + way * JOG_MM;
    if (way * (line - stop->root) > 1.0) draw_part(rows, sheet, stop->at, stop->root + way, stop->at, over);
    draw_part(rows, sheet, stop->at, over, stop->text_at, end);
    tw_point at = spot(rows, stop->text_at, end + way);
    tw_anchor anchor = way > 0.0 ? TW_ANCHOR_LEFT : TW_ANCHOR_RIGHT;
    tw_draw_source(sheet, stop->source);
    if (level(rows)) tw_draw_text_turned(sheet, at.x + 0.5 * rows->size_mm, at.y, rows->size_mm, anchor, TW_PI / 2.0, stop->text);
    else tw_draw_text(sheet, at.x, at.y - 0.5 * rows->size_mm, rows->size_mm, anchor, stop->text);
}

static void draw_run(const tw_rows *rows, tw_sheet *sheet)
{
    const int *order = stops_in_order(rows);
    int count = (int)rows->stop_count;
    double line = across_of(rows, run_out(rows)), origin = rows->stops[0].at, arrow = tw_dimension_fit_of(1.0, rows->size_mm, "").arrow_mm;
    draw_part(rows, sheet, rows->stops[order[0]].at, line, rows->stops[order[count - 1]].at, line);
    for (int i = 0; i < count; i++) {
        const tw_run_stop *stop = &rows->stops[order[i]];
        draw_stop(rows, sheet, stop);
        tw_point tip = spot(rows, stop->at, line);
        if (stop == &rows->stops[0]) { tw_draw_circle(sheet, TW_ROLE_DIMENSION, tip.x, tip.y, ORIGIN_RADIUS_MM); continue; }
        double way = stop->at > origin ? 1.0 : -1.0, before = rows->stops[order[way > 0.0 ? i - 1 : i + 1]].at;
        double head = tw_max(HEAD_LEAST_MM, tw_min(arrow, fabs(stop->at - before)));
        tw_draw_arrow_head(sheet, tip.x, tip.y, (level(rows) ? 0.0 : TW_PI / 2.0) + (way > 0.0 ? 0.0 : TW_PI), head);
    }
}

void tw_rows_draw(const tw_rows *rows, tw_sheet *sheet)
{
    for (size_t i = 0; i < rows->count; i++) draw_measure(rows, sheet, &rows->measures[i]);
    if (rows->stop_count > 0) draw_run(rows, sheet);
    tw_draw_source(sheet, (tw_source){ 0 });
}
