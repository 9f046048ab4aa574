// SPDX-License-Identifier: GPL-3.0-or-later
/* The views of one piece, each drawn on a sheet of its own.
 *
 * Along the piece only what lies within a margin of some cut, section or end need be seen: the plain wood between is left out
 * between two break lines when that lets the rest be drawn larger. Figures are always those of the whole piece. */
#include "sheet/setting_out.h"

#include <math.h>
#include <stdlib.h>

#include "draw/labels.h"

#define LETTERS_MM 2.5
#define NOTE_MM 2.0
#define PLANE_BAND_MM 7.5     // along a view, for the ends of cutting planes and their letters
#define HATCH_MM 1.8
#define KEPT_ROUND_MM 7.0     // of wood, on paper, that is kept beside what is told
#define BREAK_MM 6.0          // between break lines
#define BREAK_SAVES_MM 8.0    // a break that would save less is none
#define CENTRE_OVER_MM 2.0    // centre lines run past the outline
#define MARK_MOST_MM 22.0     // a letter is never farther from its cut
#define CORNER_MM 3.0         // columns beside a view reach this far below it
#define HANGS_CLEAR_MM 0.8    // between what hangs below the view from there and the first row's figures
#define UPWARD_MM 1000.0
#define SAME_MM 0.01
#define SCREEN_CHORD_MM 0.05  // arcs are drawn as arcs again; it shows only where another edge crosses one

/* ---- which ---- */

static bool opens_on(const tw_drawn_piece *of, tw_face face)
{
    for (int i = 0; i < of->cut_count; i++)
        if (of->cuts[i].face == face && of->cuts[i].start_mm < SAME_MM) return true;
    return false;
}

/* Something on the far side that the near one does not have in the same place. */
static bool shows_more(const tw_drawn_piece *of, tw_face far_, tw_face near_)
{
    int axis = far_ == TW_SIDE_BACK ? 2 : 1;
    for (int i = 0; i < of->cut_count; i++) {
        const tw_cut *cut = &of->cuts[i];
        const tw_block *r = &of->reaches[i];
        bool right_through = axis == 2 ? r->least.z < SAME_MM && r->most.z > of->size.thickness_mm - SAME_MM : r->least.y < SAME_MM && r->most.y > of->size.width_mm - SAME_MM;
        if (cut->face != far_ || cut->start_mm > SAME_MM || right_through) continue;
        bool met = false;
        for (int k = 0; k < of->cut_count && !met; k++) {
            const tw_block *q = &of->reaches[k];
            bool across = axis == 2 ? fabs(q->least.y - r->least.y) < SAME_MM && fabs(q->most.y - r->most.y) < SAME_MM
                                    : fabs(q->least.z - r->least.z) < SAME_MM && fabs(q->most.z - r->most.z) < SAME_MM;
            met = of->cuts[k].face == near_ && across && fabs(q->least.x - r->least.x) < SAME_MM && fabs(q->most.x - r->most.x) < SAME_MM;
        }
        if (!met) return true;
    }
    return false;
}

static bool ends_look_alike(const tw_drawn_piece *of)
{
    if (opens_on(of, TW_SIDE_LEFT_END) || opens_on(of, TW_SIDE_RIGHT_END)) return false;
    const tw_across *a = &of->ends[0], *b = &of->ends[1];
    if (a->count != b->count) return false;
    for (int i = 0; i < a->count; i++) {
        const tw_block *p = &of->reaches[a->cuts[i]], *q = &of->reaches[b->cuts[i]];
        if (fabs(p->least.y - q->least.y) + fabs(p->most.y - q->most.y) + fabs(p->least.z - q->least.z) + fabs(p->most.z - q->most.z) > SAME_MM) return false;
    }
    return true;
}

/* ---- what is seen ---- */

static bool on_screen(const tw_drawn_piece *of) { return of->least_text_mm > 0.0; }
static double chord_mm(const tw_drawn_piece *of) { return on_screen(of) ? SCREEN_CHORD_MM : TW_SOLID_CHORD_MM; }

/* Strokes of a solid in the mm of a face: 0, 0 is the blank's lower left corner as seen. */
static tw_strokes strokes_of(const tw_drawn_piece *of, const tw_solid *solid, tw_face face, bool with_hidden)
{
    tw_sight sight = tw_sight_of_face(face);
    tw_stood stood = { .solid = solid, .pose = tw_pose_home() };
    tw_strokes strokes = tw_view_make(of->arena, sight, &stood, 1, with_hidden);
    tw_point corner = tw_sight_place(sight, tw_face_spot(of->size, face, 0.0, 0.0, 0.0));
    for (size_t i = 0; i < strokes.count; i++) {
        tw_stroke *s = &strokes.items[i];
        s->from = (tw_point){ s->from.x - corner.x, s->from.y - corner.y };
        s->to = (tw_point){ s->to.x - corner.x, s->to.y - corner.y };
    }
    return strokes;
}

static tw_piece_view view_of(const tw_drawn_piece *of, const tw_solid *solid, tw_face face, const char *title, const char *note)
{
    tw_size extent = tw_face_extent(of->size, face);
    tw_piece_view v = { .of = of, .face = face, .title = title, .note = note, .wide_mm = extent.length_mm, .high_mm = extent.width_mm };
    v.lengthwise = face != TW_SIDE_LEFT_END && face != TW_SIDE_RIGHT_END;
    v.labelled[face] = true;
    if (solid) v.strokes = strokes_of(of, solid, face, true);
    return v;
}

static double in_from(const tw_drawn_piece *of, tw_face end, double at_mm)
{
    return end == TW_SIDE_LEFT_END ? at_mm : of->size.length_mm - at_mm;
}

/* What is left of the wood at a slice, across the piece as seen from the face given: an end. */
static tw_solid *open_at(const tw_drawn_piece *of, tw_face end, double at_mm, tw_outline *wood)
{
    return tw_solid_cut_open(of->arena, of->size, of->cuts, of->cut_count, end, in_from(of, end, at_mm), chord_mm(of),
        on_screen(of), wood);
}

static tw_piece_view end_of(const tw_drawn_piece *of, const tw_solid *solid, tw_face end, const char *title)
{
    tw_piece_view v = view_of(of, solid, end, title, end == TW_SIDE_LEFT_END ? "face up, face edge right" : "face up, face edge left");
    const tw_across *near_end = &of->ends[end == TW_SIDE_RIGHT_END];
    if (near_end->count > 0 && on_screen(of)) v.wood =
        tw_solid_section(of->arena, of->size, of->cuts, of->cut_count, end, in_from(of, end, near_end->at_mm), chord_mm(of));
    else if (near_end->count > 0) open_at(of, end, near_end->at_mm, &v.wood);
    return v;
}

static tw_piece_view section_of(const tw_drawn_piece *of, const tw_across *slice)
{
    tw_piece_view v = view_of(of, NULL, TW_SIDE_RIGHT_END, tw_format(of->arena, "%s\xE2\x80\x93%s", slice->letter, slice->letter), "face up, face edge left");
    v.strokes = strokes_of(of, open_at(of, TW_SIDE_RIGHT_END, slice->at_mm, &v.wood), TW_SIDE_RIGHT_END, false);
    v.slice = slice;
    v.labelled[TW_SIDE_RIGHT_END] = false;
    return v;
}

tw_piece_view *tw_piece_views_make(const tw_drawn_piece *of, int *count)
{
    tw_piece_view *views = TW_NEW_ARRAY(of->arena, tw_piece_view, 6 + (size_t)of->slice_count);
    const tw_solid *solid = (on_screen(of) ? tw_solid_make_to_look_at : tw_solid_make)(of->arena, of->size, of->cuts,
        of->cut_count, chord_mm(of));
    int n = 0;
    views[n++] = view_of(of, solid, TW_SIDE_FACE, "Face", "");
    views[n++] = view_of(of, solid, TW_SIDE_FACE_EDGE, "Face edge", "");
    bool back = shows_more(of, TW_SIDE_BACK, TW_SIDE_FACE), back_edge = shows_more(of, TW_SIDE_BACK_EDGE, TW_SIDE_FACE_EDGE);
    if (back) views[n++] = view_of(of, solid, TW_SIDE_BACK, "Back", "turned over about its length");
    else views[0].labelled[TW_SIDE_BACK] = true;
    if (back_edge) views[n++] = view_of(of, solid, TW_SIDE_BACK_EDGE, "Back edge", "face down");
    else views[1].labelled[TW_SIDE_BACK_EDGE] = true;
    bool alike = ends_look_alike(of);
    views[n++] = end_of(of, solid, TW_SIDE_LEFT_END, alike ? "Left end, right end alike" : "Left end");
    if (!alike) views[n++] = end_of(of, solid, TW_SIDE_RIGHT_END, "Right end");
    views[0].shows_planes = true;
    for (int i = 0; i < of->slice_count; i++) views[n++] = section_of(of, &of->slices[i]);
    *count = n;
    return views;
}

/* ---- breaks ---- */

static int by_start(const void *left, const void *right)
{
    const tw_kept_part *a = left, *b = right;
    return (a->from_mm > b->from_mm) - (a->from_mm < b->from_mm);
}

static void keep(tw_breaks *b, double from, double to, double round, double length)
{
    b->parts[b->count++] = (tw_kept_part){ tw_max(0.0, from - round), tw_min(length, to + round), 0.0 };
}

/* Kept parts that lie near each other become one. */
static void join_parts(tw_breaks *b, double scale)
{
    qsort(b->parts, (size_t)b->count, sizeof *b->parts, by_start);
    int n = 0;
    for (int i = 1; i < b->count; i++) {
        if ((b->parts[i].from_mm - b->parts[n].to_mm) * scale < BREAK_MM + BREAK_SAVES_MM) b->parts[n].to_mm = tw_max(b->parts[n].to_mm, b->parts[i].to_mm);
        else b->parts[++n] = b->parts[i];
    }
    b->count = n + 1;
}

tw_breaks tw_breaks_make(const tw_drawn_piece *of, double scale, bool broken)
{
    double length = of->size.length_mm, round = KEPT_ROUND_MM / scale;
    tw_breaks b = { .parts = TW_NEW_ARRAY(of->arena, tw_kept_part, (size_t)of->cut_count + TW_SECTIONS_MOST + 2) };
    if (broken) {
        keep(&b, 0.0, 0.0, 2.0 * round, length);
        keep(&b, length, length, 2.0 * round, length);
        for (int i = 0; i < of->cut_count; i++) {
            double from = of->reaches[i].least.x, to = of->reaches[i].most.x;
            if (to - from > 0.8 * length) continue;  // along all of it: a break hides nothing of it
            keep(&b, from, to, round, length);
        }
        for (int i = 0; i < of->slice_count; i++) keep(&b, of->slices[i].at_mm, of->slices[i].at_mm, round, length);
        join_parts(&b, scale);
    } else {
        keep(&b, 0.0, length, 0.0, length);
    }
    for (int i = 0; i < b.count; i++) {
        b.parts[i].at = b.long_mm + (i ? BREAK_MM : 0.0);
        b.long_mm = b.parts[i].at + (b.parts[i].to_mm - b.parts[i].from_mm) * scale;
    }
    return b;
}

double tw_breaks_at(const tw_breaks *b, double scale, double mm)
{
    for (int i = 0; i < b->count; i++) {
        const tw_kept_part *k = &b->parts[i];
        if (mm < k->from_mm) return k->at - BREAK_MM * (i ? (k->from_mm - mm) / (k->from_mm - b->parts[i - 1].to_mm) : 0.0);
        if (mm <= k->to_mm) return k->at + (mm - k->from_mm) * scale;
    }
    return b->long_mm;
}

/* ---- drawing one view ---- */

typedef struct canvas {
    const tw_piece_view *view;
    tw_breaks breaks;
    double    scale, wide, high;  // of the view on paper
    tw_sheet *sheet;
} canvas;

static double at_u(const canvas *c, double u) { return tw_breaks_at(&c->breaks, c->scale, u); }
static double at_v(const canvas *c, double v) { return v * c->scale; }

/* What of a stroke lies in a part of the length. */
static bool clipped(const tw_stroke *stroke, const tw_kept_part *part, tw_stroke *out)
{
    double from = 0.0, to = 1.0, a = stroke->from.x, way = stroke->to.x - a;
    const double low = part->from_mm - SAME_MM, high = part->to_mm + SAME_MM;
    if (fabs(way) < 1e-12) {
        if (a < low || a > high) return false;
    } else {
        double t0 = (low - a) / way, t1 = (high - a) / way;
        from = tw_max(from, tw_min(t0, t1));
        to = tw_min(to, tw_max(t0, t1));
        if (from >= to) return false;
    }
    *out = *stroke;
    out->from = (tw_point){ a + from * way, stroke->from.y + from * (stroke->to.y - stroke->from.y) };
    out->to = (tw_point){ a + to * way, stroke->from.y + to * (stroke->to.y - stroke->from.y) };
    return true;
}

static void draw_strokes(const canvas *c)
{
    tw_arena *arena = c->sheet->arena;
    const tw_strokes *all = &c->view->strokes;
    for (int i = 0; i < c->breaks.count; i++) {
        const tw_kept_part *part = &c->breaks.parts[i];
        tw_strokes some = { .items = TW_NEW_ARRAY(arena, tw_stroke, all->count) };
        for (size_t k = 0; k < all->count; k++) some.count += clipped(&all->items[k], part, &some.items[some.count]);
        tw_view_draw(c->sheet, &some, c->scale, (tw_point){ part->at - part->from_mm * c->scale, 0.0 }, TW_ROLE_VISIBLE, TW_ROLE_HIDDEN);
        if (i + 1 < c->breaks.count) tw_draw_break(c->sheet, at_u(c, part->to_mm), 0.0, c->high);
        if (i > 0) tw_draw_break(c->sheet, part->at, 0.0, c->high);
    }
}

static void draw_wood(const canvas *c)
{
    if (!c->view->slice || c->view->wood.count == 0) return;
    tw_outline wood = tw_outline_scaled(c->sheet->arena, c->view->wood, c->scale);
    tw_draw_hatch(c->sheet, wood, HATCH_MM, TW_PI / 4.0);
    tw_draw_outline(c->sheet, TW_ROLE_CUT, wood);
}

/* ---- centre lines ---- */

static void centre_cross(const canvas *c, tw_box box)
{
    tw_point m = { (box.x0 + box.x1) / 2.0, (box.y0 + box.y1) / 2.0 };
    tw_draw_line(c->sheet, TW_ROLE_CENTRE, box.x0 - CENTRE_OVER_MM, m.y, box.x1 + CENTRE_OVER_MM, m.y);
    tw_draw_line(c->sheet, TW_ROLE_CENTRE, m.x, box.y0 - CENTRE_OVER_MM, m.x, box.y1 + CENTRE_OVER_MM);
}

/* The middle of a cut that is the same on both sides of it: a hole, a mortise that lies all within the piece. */
static bool has_centre(const tw_drawn_piece *of, int i)
{
    const tw_cut *cut = &of->cuts[i];
    tw_box box = tw_outline_bounds(cut->outline);
    tw_size extent = tw_face_extent(of->size, cut->face);
    bool inside = box.x0 > SAME_MM && box.y0 > SAME_MM && box.x1 < extent.length_mm - SAME_MM && box.y1 < extent.width_mm - SAME_MM;
    return tw_cut_is_hole(cut) || (inside && cut->lean_right == 0.0 && cut->lean_up == 0.0);
}

/* The box of a cut in the view, on paper. */
static tw_box box_of(const canvas *c, int i)
{
    const tw_drawn_piece *of = c->view->of;
    tw_spot a = tw_face_place(of->size, c->view->face, of->reaches[i].least), b = tw_face_place(of->size, c->view->face, of->reaches[i].most);
    return (tw_box){ at_u(c, tw_min(a.x, b.x)), at_v(c, tw_min(a.y, b.y)), at_u(c, tw_max(a.x, b.x)), at_v(c, tw_max(a.y, b.y)) };
}

static void draw_centres(const canvas *c)
{
    const tw_drawn_piece *of = c->view->of;
    for (int i = 0; i < of->cut_count && !c->view->slice; i++)
        if (of->cuts[i].face == c->view->face && has_centre(of, i)) centre_cross(c, box_of(c, i));
}

/* ---- dimensions, planes, letters ---- */

static tw_rows rows_of(const canvas *c, tw_rows_side side)
{
    const tw_piece_view *v = c->view;
    bool level = side == TW_ROWS_BELOW || side == TW_ROWS_ABOVE, planes = v->shows_planes && v->of->slice_count > 0;
    tw_rows rows = { .arena = c->sheet->arena, .side = side, .size_mm = LETTERS_MM, .first_mm = TW_ROWS_FIRST_MM };
    rows.border = side == TW_ROWS_ABOVE ? c->high : side == TW_ROWS_RIGHT ? c->wide : 0.0;
    if (level && planes) rows.first_mm += PLANE_BAND_MM;
    if (!level) { rows.least = -CORNER_MM; rows.most = c->high + UPWARD_MM; }  // the corner below is the rows'
    for (size_t i = 0; i < v->wish_count; i++) {
        const tw_wish *w = &v->wishes[i];
        if (w->side != side) continue;
        double from = level ? at_u(c, w->from) : at_v(c, w->from), to = level ? at_u(c, w->to) : at_v(c, w->to);
        if (w->stop) tw_rows_stop_of(&rows, to, rows.border, w->text, w->source);
        else tw_rows_measure_of(&rows, from, to, rows.border, rows.border, w->text, w->source);
    }
    return rows;
}

/* The run begins at the piece's end, wherever its 0 was added. */
static void origin_first(tw_rows *rows)
{
    for (size_t i = 1; i < rows->stop_count; i++)
        if (rows->stops[i].at < rows->stops[0].at) {
            tw_run_stop s = rows->stops[0];
            rows->stops[0] = rows->stops[i];
            rows->stops[i] = s;
        }
}

/* Columns beside the view first: rows below keep clear of what hangs down from them. */
static void draw_dimensions(const canvas *c)
{
    tw_rows right = rows_of(c, TW_ROWS_RIGHT), below = rows_of(c, TW_ROWS_BELOW), above = rows_of(c, TW_ROWS_ABOVE);
    double least = INFINITY, most;
    tw_rows_place(&right);
    tw_rows_reach(&right, &least, &most);
    if (right.count > 0) below.first_mm = tw_max(below.first_mm, 1.6 * LETTERS_MM + HANGS_CLEAR_MM - least);
    above.least = -UPWARD_MM;
    above.most = c->wide + CORNER_MM;
    origin_first(&above);
    tw_rows_place(&below);
    tw_rows_place(&above);
    tw_rows_draw(&right, c->sheet);
    tw_rows_draw(&below, c->sheet);
    tw_rows_draw(&above, c->sheet);
}

static void draw_planes(const canvas *c)
{
    const tw_drawn_piece *of = c->view->of;
    tw_plane planes[TW_SECTIONS_MOST];
    for (int i = 0; i < of->slice_count; i++) planes[i] = (tw_plane){ at_u(c, of->slices[i].at_mm), of->slices[i].letter };
    if (c->view->shows_planes) tw_draw_planes(c->sheet, planes, of->slice_count, 0.0, c->high);
}

/* Where a letter may point to: the middle of a cut in the face that is seen, off the middle of one behind it, so that two
 * that lie behind one another can both be told. */
static void draw_letter(const canvas *c, tw_box box, bool behind, const char *letter)
{
    static const tw_point spots[] = { { 0.5, 0.5 }, { 0.8, 0.75 }, { 0.2, 0.75 }, { 0.8, 0.25 }, { 0.2, 0.25 } };
    const int count = (int)(sizeof spots / sizeof *spots);
    for (int i = 0; i < count; i++) {
        tw_point at = spots[(i + behind) % count];
        tw_point on = { box.x0 + at.x * (box.x1 - box.x0), box.y0 + at.y * (box.y1 - box.y0) };
        if (tw_draw_label(c->sheet, on, LETTERS_MM, true, MARK_MOST_MM, (tw_box){ 1, 1, 0, 0 }, letter)) return;
    }
}

static void draw_letters(const canvas *c)
{
    const tw_drawn_piece *of = c->view->of;
    for (int i = 0; i < of->cut_count; i++)
        if (c->view->labelled[of->cuts[i].face] && !c->view->slice)
            draw_letter(c, box_of(c, i), of->cuts[i].face != c->view->face, of->marks[of->mark_of[i]].letter);
}

/* ---- caption ---- */

static void draw_grain(tw_sheet *sheet, double x, double y)
{
    const double size = tw_small_print(sheet, NOTE_MM), word = tw_text_width(size, false, "grain");
    tw_draw_text(sheet, x, y, size, TW_ANCHOR_LEFT, "grain");
    double from = x + word + 2.0, to = from + 16.0, middle = (from + to) / 2.0;
    tw_draw_arrow(sheet, TW_ROLE_DIMENSION, middle, y + 0.9, to, y + 0.9);
    tw_draw_arrow(sheet, TW_ROLE_DIMENSION, middle, y + 0.9, from, y + 0.9);
}

static void draw_caption(const canvas *c, const char *scale)
{
    const tw_piece_view *v = c->view;
    const char *title = scale ? tw_format(c->sheet->arena, "%s, %s", v->title, scale) : v->title;
    double y = tw_max(tw_sheet_reach(c->sheet).y1, c->high) + 2.5, x = tw_text_width(LETTERS_MM, true, title) + 3.0,
        note = tw_small_print(c->sheet, NOTE_MM);
    if (*v->note && !v->lengthwise) {
        tw_draw_text(c->sheet, 0.0, y, note, TW_ANCHOR_LEFT, v->note);
        y += 4.0;
    }
    tw_draw_bold(c->sheet, 0.0, y, LETTERS_MM, TW_ANCHOR_LEFT, title);
    if (*v->note && v->lengthwise) tw_draw_text(c->sheet, x, y, note, TW_ANCHOR_LEFT, v->note);
    if (v->face == TW_SIDE_FACE) draw_grain(c->sheet, x, y);
}

/* All that needs the rest to be there. */
static void draw_details(const canvas *c)
{
    draw_centres(c);
    draw_planes(c);
    draw_letters(c);
    tw_box inside = { 1.0, 0.8, c->wide - 1.0, c->high - 0.8 };
    if (c->view->face == TW_SIDE_FACE) tw_draw_face_mark(c->sheet, inside);
    if (c->view->face == TW_SIDE_FACE_EDGE) tw_draw_edge_mark(c->sheet, inside);
}

tw_sheet *tw_piece_view_draw(const tw_piece_view *view, const tw_breaks *breaks, double scale, const char *scale_text, bool rough, tw_box *ink)
{
    canvas c = { .view = view, .scale = scale, .high = view->high_mm * scale, .sheet = tw_scratch(view->of->arena) };
    tw_kept_part whole = { 0.0, view->wide_mm, 0.0 };
    c.breaks = view->lengthwise ? *breaks : (tw_breaks){ &whole, 1, view->wide_mm * scale };
    c.wide = c.breaks.long_mm;
    c.sheet->least_text_mm = view->of->least_text_mm;
    if (rough) {
        tw_draw_box(c.sheet, TW_ROLE_VISIBLE, 0.0, 0.0, c.wide, c.high);
    } else {
        draw_wood(&c);
        draw_strokes(&c);
    }
    draw_dimensions(&c);
    if (!rough) draw_details(&c);
    draw_caption(&c, scale_text);
    *ink = tw_sheet_reach(c.sheet);
    return c.sheet;
}
