// SPDX-License-Identifier: GPL-3.0-or-later
/* Which dimensions a piece's drawing has.
 *
 * Along each axis a cut takes a stretch from a to b of a blank that is L long, the datum at 0:
 *
 *     a = 0, b = L     nothing is told: it takes all
 *     a = 0            its size b            (a shoulder from the left end, a depth from the face)
 *     b = L            its size L - a
 *     else             its place a, from the datum outward, and its size b - a
 *
 * A hole is told by its middle instead, but along its own axis. Where cuts come from both sides, what is left between the
 * deepest of them (a tenon's thickness, a web, from shoulder to shoulder) is told, and the depth on the far side of the
 * datum is left to follow from it: no dimension is told twice. An end of a stretch that lies in the air, where other cuts
 * have taken the wood, is not told: there is nothing to measure to. A wall that slants is told by the places of its two ends.
 * Along the piece places stand on a run from the left end; in
 * sections and ends they are few and stand as single dimensions. */
#include "sheet/setting_out.h"

#include <math.h>
#include <string.h>

#define SAME_MM 0.01
#define ON_WOOD_MM 0.06  // chords leave their arc by less than this
#define SLANTS_MM 0.2    // an edge that moves by more than this both ways slants
#define WISHES_MOST 28   // of one side: more would not be read; the tables have them all

typedef struct stretch { double from, to; bool hole; } stretch;  // from the datum

/* ---- adding ---- */

static int wishes_of(const tw_piece_view *view, tw_rows_side side, bool stop)
{
    int count = 0;
    for (size_t i = 0; i < view->wish_count; i++) count += view->wishes[i].side == side && view->wishes[i].stop == stop;
    return count;
}

static bool wished(const tw_piece_view *view, tw_wish wish)
{
    for (size_t i = 0; i < view->wish_count; i++) {
        const tw_wish *w = &view->wishes[i];
        bool same = fabs(w->from - wish.from) < SAME_MM && fabs(w->to - wish.to) < SAME_MM;
        bool turned = fabs(w->from - wish.to) < SAME_MM && fabs(w->to - wish.from) < SAME_MM;
        if (w->side == wish.side && w->stop == wish.stop && (same || turned)) return true;
    }
    return false;
}

/* Places in the view as places along an axis of the piece. */
static tw_source source_of(const tw_piece_view *view, tw_rows_side side, bool stop, double from, double to)
{
    tw_frame frame = tw_face_frame(view->face);
    tw_spot way = side == TW_ROWS_BELOW || side == TW_ROWS_ABOVE ? frame.right : frame.up;
    tw_axis axis = way.x != 0.0 ? TW_AXIS_X : way.y != 0.0 ? TW_AXIS_Y : TW_AXIS_Z;
    double extent = tw_extent_along(view->of->size, axis);
    bool onward = tw_along(way, axis) > 0.0;
    return tw_piece_source(view->of, view->met, axis, onward ? from : extent - from, onward ? to : extent - to, stop);
}

static void wish(tw_piece_view *view, tw_rows_side side, bool stop, double from, double to)
{
    const char *text = stop && to == from ? "0" : tw_length_bare(view->of->arena, fabs(to - from), view->of->figures);
    tw_wish w = { side, stop, from, to, text, { 0 } };
    if ((!stop && fabs(to - from) < SAME_MM) || wished(view, w)) return;
    if (wishes_of(view, side, stop) >= WISHES_MOST) { view->more_wishes = true; return; }
    if (from != to) w.source = source_of(view, side, stop, from, to);
    tw_array_make_room(view->of->arena, &view->wishes, view->wish_count, &view->wish_room, sizeof *view->wishes);
    view->wishes[view->wish_count++] = w;
}

/* ---- along the piece ---- */

static bool along_of_edges(const tw_cut *cut) { return tw_cut_axis(cut) == 1; }

static double length_of(const tw_piece_view *view) { return view->of->size.length_mm; }

static bool takes_place_elsewhere(const tw_piece_view *view, const tw_piece_view *first, stretch s)
{
    if (view == first) return false;
    tw_wish size = { TW_ROWS_BELOW, false, s.from, s.to, "", { 0 } },
        middle = { TW_ROWS_ABOVE, true, 0.0, (s.from + s.to) / 2.0, "", { 0 } };
    return wished(first, size) || (s.hole && wished(first, middle));
}

/* Does some edge of the wood, seen or hidden, begin or end at that place along the piece, or bend there? */
static bool on_wood(const tw_piece_view *view, double u)
{
    for (size_t i = 0; i < view->strokes.count; i++) {
        const tw_stroke *s = &view->strokes.items[i];
        if (fabs(s->from.x - u) < ON_WOOD_MM || fabs(s->to.x - u) < ON_WOOD_MM) return true;
    }
    return false;
}

static void wish_along(tw_piece_view *view, const tw_piece_view *first, stretch s)
{
    double length = length_of(view);
    bool at_left = s.from < SAME_MM, at_right = s.to > length - SAME_MM;
    if ((at_left && at_right) || takes_place_elsewhere(view, first, s)) return;
    if (s.hole) { wish(view, TW_ROWS_ABOVE, true, 0.0, (s.from + s.to) / 2.0); return; }
    bool from_told = at_left || on_wood(view, s.from), to_told = at_right || on_wood(view, s.to);
    if (from_told && !at_left && !at_right) wish(view, TW_ROWS_ABOVE, true, 0.0, s.from);
    if (from_told && to_told) wish(view, TW_ROWS_BELOW, false, s.from, s.to);
    else if (to_told) wish(view, TW_ROWS_ABOVE, true, 0.0, s.to);
}

static bool slants(tw_point a, tw_point b) { return fabs(a.x - b.x) > SLANTS_MM && fabs(a.y - b.y) > SLANTS_MM; }

static bool leans(const tw_cut *cut) { return cut->lean_right != 0.0 || cut->lean_up != 0.0; }

static bool has_slant(const tw_cut *cut)
{
    if (leans(cut)) return false;
    for (int i = 0; i < cut->outline.count; i++)
        for (int k = 0; k < cut->outline.loops[i].count; k++) {
            tw_edge edge = tw_loop_edge(cut->outline.loops[i], k);
            if (edge.straight && slants(edge.from, edge.to)) return true;
        }
    return false;
}

/* The ends of slanting edges of the wood within a cut, on the run. */
static void wish_slants(tw_piece_view *view, int cut)
{
    const tw_block *r = &view->of->reaches[cut];
    if (!has_slant(&view->of->cuts[cut])) return;
    for (size_t i = 0; i < view->strokes.count; i++) {
        const tw_stroke *s = &view->strokes.items[i];
        bool within = tw_min(s->from.x, s->to.x) > r->least.x - ON_WOOD_MM && tw_max(s->from.x, s->to.x) < r->most.x + ON_WOOD_MM;
        if (s->curved || !within || !slants(s->from, s->to)) continue;
        wish(view, TW_ROWS_ABOVE, true, 0.0, s->from.x);
        wish(view, TW_ROWS_ABOVE, true, 0.0, s->to.x);
    }
}

/* Between the deepest shoulders of the two ends. */
static void wish_between_shoulders(tw_piece_view *view)
{
    const tw_drawn_piece *of = view->of;
    double left = 0.0, right = length_of(view), middle = right / 2.0;
    for (int i = 0; i < of->cut_count; i++) {
        if (tw_cut_axis(&of->cuts[i]) == 0) continue;
        const tw_block *r = &of->reaches[i];
        if (r->least.x < SAME_MM && r->most.x < middle) left = tw_max(left, r->most.x);
        if (r->most.x > length_of(view) - SAME_MM && r->least.x > middle) right = tw_min(right, r->least.x);
    }
    if (left > SAME_MM && right < length_of(view) - SAME_MM) wish(view, TW_ROWS_BELOW, false, left, right);
}

/* Of which cuts a lengthwise view tells the places: of those that enter its face; the first two views also of those whose own
 * face has no view; the first also of cuts in the ends. */
static bool tells(const tw_piece_view *views, int view, int lengthwise, const tw_cut *cut)
{
    for (int i = 0; i < lengthwise; i++)
        if (views[i].face == cut->face) return i == view;
    return view == (along_of_edges(cut) ? 1 : 0);
}

/* From where to where a cut goes along the piece; one that leans, on the face where it is marked out. */
static stretch stretch_along(const tw_drawn_piece *of, int i)
{
    const tw_cut *cut = &of->cuts[i];
    bool hole = tw_cut_is_hole(cut) && tw_cut_axis(cut) != 0;
    if (!leans(cut) || tw_cut_axis(cut) == 0) return (stretch){ of->reaches[i].least.x, of->reaches[i].most.x, hole };
    tw_box box = tw_outline_bounds(cut->outline);  // right is along the piece on all four sides
    return (stretch){ tw_max(0.0, box.x0), tw_min(of->size.length_mm, box.x1), hole };
}

static void measure_along(tw_piece_view *views, int view, int lengthwise)
{
    tw_piece_view *v = &views[view];
    const tw_drawn_piece *of = v->of;
    for (int i = 0; i < of->cut_count; i++) {
        const tw_cut *cut = &of->cuts[i];
        if (!tells(views, view, lengthwise, cut) || tw_cut_is_rounding(cut)) continue;
        wish_slants(v, i);
        wish_along(v, &views[0], stretch_along(of, i));
    }
    if (wishes_of(v, TW_ROWS_ABOVE, true) > 0) wish(v, TW_ROWS_ABOVE, true, 0.0, 0.0);
    if (view == 0) {
        wish_between_shoulders(v);
        wish(v, TW_ROWS_BELOW, false, 0.0, length_of(v));
    }
    if (view < 2) wish(v, TW_ROWS_RIGHT, false, 0.0, v->high_mm);
}

/* ---- across the piece ---- */

typedef struct across {
    tw_piece_view *view;
    tw_rows_side   side;
    bool           level;           // u of the view; else v
    double         size, at_zero, way;  // of the blank; where the datum lies in the view, and which way from it
} across;

/* Is there a corner or bend of the wood at that place across? */
static bool met_by_wood(const across *a, double at)
{
    double place = a->at_zero + a->way * at;
    for (int i = 0; i < a->view->wood.count; i++)
        for (int k = 0; k < a->view->wood.loops[i].count; k++) {
            const tw_vertex *v = &a->view->wood.loops[i].vertices[k];
            if (fabs((a->level ? v->x : v->y) - place) < ON_WOOD_MM) return true;
        }
    return false;
}

/* A side of the blank, or a place on the wood. */
static bool told(const across *a, double at) { return at < SAME_MM || at > a->size - SAME_MM || met_by_wood(a, at); }

static void wish_across(const across *a, double from, double to)
{
    if (told(a, from) && told(a, to)) wish(a->view, a->side, false, a->at_zero + a->way * from, a->at_zero + a->way * to);
}

/* From both sides: the deepest of either, and what is left between them. */
static void wish_between(const across *a, const stretch *list, int count, double *far_told)
{
    double near_end = 0.0, far_start = a->size;
    for (int i = 0; i < count; i++) {
        bool at_datum = list[i].from < SAME_MM, at_far = list[i].to > a->size - SAME_MM;
        if (list[i].hole || at_datum == at_far) continue;
        if (at_datum) near_end = tw_max(near_end, list[i].to);
        else far_start = tw_min(far_start, list[i].from);
    }
    *far_told = INFINITY;
    if (near_end < SAME_MM || far_start > a->size - SAME_MM || far_start - near_end < SAME_MM) return;
    wish_across(a, near_end, far_start);
    *far_told = far_start;
}

static void measure_axis(const across *a, const stretch *list, int count)
{
    double far_told;
    wish_between(a, list, count, &far_told);
    for (int i = 0; i < count; i++) {
        const stretch *s = &list[i];
        bool at_datum = s->from < SAME_MM, at_far = s->to > a->size - SAME_MM;
        if ((at_datum && at_far) || (at_far && fabs(s->from - far_told) < SAME_MM)) continue;
        if (s->hole) { wish(a->view, a->side, false, a->at_zero, a->at_zero + a->way * (s->from + s->to) / 2.0); continue; }
        if (!at_datum && !at_far) wish_across(a, 0.0, s->from);
        wish_across(a, s->from, s->to);
    }
}

/* The datum in width is the face edge, in thickness the face: thickness is told from the top of the view down. */
static void measure_across(tw_piece_view *view, const tw_across *slice)
{
    const tw_drawn_piece *of = view->of;
    stretch *in_width = TW_NEW_ARRAY(of->arena, stretch, (size_t)slice->count), *in_thickness = TW_NEW_ARRAY(of->arena, stretch, (size_t)slice->count);
    int count = 0;
    view->met = slice;
    for (int i = 0; i < slice->count; i++) {
        const tw_cut *cut = &of->cuts[slice->cuts[i]];
        const tw_block *r = &of->reaches[slice->cuts[i]];
        bool hole = tw_cut_is_hole(cut);
        if (tw_cut_is_rounding(cut)) continue;
        in_width[count] = (stretch){ r->least.y, r->most.y, hole && tw_cut_axis(cut) != 1 };
        in_thickness[count++] = (stretch){ of->size.thickness_mm - r->most.z, of->size.thickness_mm - r->least.z, hole && tw_cut_axis(cut) != 2 };
    }
    double edge = tw_face_place(of->size, view->face, (tw_spot){ 0.0, 0.0, 0.0 }).x;
    across width = { view, TW_ROWS_BELOW, true, of->size.width_mm, edge, edge > 0.0 ? -1.0 : 1.0 };
    across thickness = { view, TW_ROWS_RIGHT, false, of->size.thickness_mm, of->size.thickness_mm, -1.0 };
    measure_axis(&width, in_width, count);
    measure_axis(&thickness, in_thickness, count);
}

void tw_piece_views_measure(tw_piece_view *views, int count)
{
    int lengthwise = 0;
    while (lengthwise < count && views[lengthwise].lengthwise) lengthwise++;
    for (int i = 0; i < lengthwise; i++) measure_along(views, i, lengthwise);
    for (int i = lengthwise; i < count; i++) {
        const tw_drawn_piece *of = views[i].of;
        measure_across(&views[i], views[i].slice ? views[i].slice : &of->ends[views[i].face == TW_SIDE_RIGHT_END]);
    }
}
