// SPDX-License-Identifier: GPL-3.0-or-later
/* The piece on the table, seen as the cutter looks at it: along the plunge, with the side that lies down on the table.
 *
 * The view's frame comes from the piece's: up = away from the side that lies down, out = out of the face that is cut,
 * right = up x out. Lengths stand in the cut's frame (origin at the cut's own reference point), so the piece lies
 *     from y = -down_to_origin up by its size, and sideways from the stop's face at x = -+stop_to_origin,
 * unless the plan's list of cuts has this very cut on this face: then from there. Other cuts of the same joint that go
 * through the whole of what is seen (a tenon's edges, a mortise) are left out of the piece. Only the part about the cut is
 * drawn when the piece is long; a zigzag says where it goes on. */
#include "sheet/cards.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define ABOUT_CUT_MM 25.0    // of the piece, shown beside the cut at least
#define STOP_SEEN_MM 160.0   // a stop farther from the cut than this is drawn at the picture's border
#define STOP_THICK_MM 7.0    // on paper
#define SCALE_MOST 1.5

/* ---- the view ---- */

static tw_spot cross(tw_spot a, tw_spot b)
{
    return (tw_spot){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static double dot(tw_spot a, tw_spot b) { return a.x * b.x + a.y * b.y + a.z * b.z; }

tw_view tw_view_of(tw_face face, tw_face down)
{
    tw_frame own = tw_face_frame(face);
    tw_spot below = tw_face_frame(down).out;
    if (fabs(dot(own.out, below)) > 0.5) return (tw_view){ own.right, own.up, own.out };  // plunged from above: as the face lies
    tw_spot up = { -below.x, -below.y, -below.z };
    return (tw_view){ cross(up, own.out), up, own.out };
}

tw_sense tw_view_sense(tw_view view, tw_face side)
{
    tw_spot out = tw_face_frame(side).out;
    return (tw_sense){ (int)lround(dot(out, view.right)), (int)lround(dot(out, view.up)) };
}

tw_face tw_view_side(tw_view view, int x, int y)
{
    for (int side = 0; side < TW_FACE_COUNT; side++) {
        tw_sense sense = tw_view_sense(view, (tw_face)side);
        if (sense.x == x && sense.y == y) return (tw_face)side;
    }
    assert(false);
    return TW_SIDE_FACE;
}

static double extent(tw_size size, tw_spot along)
{
    return fabs(along.x) * size.length_mm + fabs(along.y) * size.width_mm + fabs(along.z) * size.thickness_mm;
}

/* ---- what is seen, in the cut's frame ---- */

#define GAPS_MOST 12

typedef struct seen {
    tw_box piece, cut, window;   // window: what the room shows
    tw_box gaps[GAPS_MOST];      // where wood is gone already
    int    gap_count;
    double table_y, centre_x, centre_y, stop_x;
    int    stop_side;            // -1 left, +1 right, 0 none seen
    double scale;
    tw_point middle, paper;      // middle of the window, and where it falls on paper
} seen;

static tw_size size_of_work(const tw_card *card)
{
    if (card->work->piece >= 0) return tw_piece_size(&card->in->job->pieces[card->work->piece]);
    if (card->plan->part_count > 0) return card->plan->parts[0].stick;
    tw_box box = tw_outline_bounds(card->work->copy.cut);
    return (tw_size){ box.x1 - box.x0, box.y1 - box.y0, box.y1 - box.y0 };
}

/* A point of a face's frame, at a depth behind it, in the piece's own frame. */
static tw_spot spot_on_face(tw_size size, tw_face face, double right, double up, double depth)
{
    tw_frame f = tw_face_frame(face);
    double ox = f.right.x + f.up.x < 0.0 || f.out.x > 0.5 ? size.length_mm : 0.0;
    double oy = f.right.y + f.up.y < 0.0 || f.out.y > 0.5 ? size.width_mm : 0.0;
    double oz = f.right.z + f.up.z < 0.0 || f.out.z > 0.5 ? size.thickness_mm : 0.0;
    return (tw_spot){ ox + right * f.right.x + up * f.up.x - depth * f.out.x, oy + right * f.right.y + up * f.up.y - depth * f.out.y,
                      oz + right * f.right.z + up * f.up.z - depth * f.out.z };
}

/* How far the piece lies to the right of, or above, the least coordinate along a direction. */
static double along_from_least(tw_size size, tw_spot direction, tw_spot at)
{
    double least = tw_min(0.0, direction.x * size.length_mm) + tw_min(0.0, direction.y * size.width_mm) + tw_min(0.0, direction.z * size.thickness_mm);
    return dot(direction, at) - least;
}

typedef struct block { double x0, y0, x1, y1, z0, z1; } block;  // as seen: right, up, towards the eye; from the piece's corner

static block block_of_cut(tw_size size, tw_view view, const tw_cut *cut)
{
    tw_box box = tw_outline_bounds(cut->outline);
    double depth = cut->through ? tw_face_extent(size, cut->face).thickness_mm : cut->depth_mm;
    tw_spot a = spot_on_face(size, cut->face, box.x0, box.y0, cut->start_mm), b = spot_on_face(size, cut->face, box.x1, box.y1, depth);
    double ax = along_from_least(size, view.right, a), bx = along_from_least(size, view.right, b);
    double ay = along_from_least(size, view.up, a), by = along_from_least(size, view.up, b);
    double az = along_from_least(size, view.out, a), bz = along_from_least(size, view.out, b);
    return (block){ tw_min(ax, bx), tw_min(ay, by), tw_max(ax, bx), tw_max(ay, by), tw_min(az, bz), tw_max(az, bz) };
}

static bool same_size(block b, tw_box box)
{
    return fabs(b.x1 - b.x0 - (box.x1 - box.x0)) < 1e-6 && fabs(b.y1 - b.y0 - (box.y1 - box.y0)) < 1e-6;
}

/* The plan's cut that this work makes: on its face, of its size, and as far from the stop as the work says (several may be
 * alike: twins, places in a row). -1 when the list does not have it. */
static int own_cut(const tw_card *card, tw_size size, tw_view view, int stop_side, tw_box cut)
{
    int own = -1;
    double nearest = INFINITY, wide = extent(size, view.right), reach = card->work->copy.stop_to_origin_mm;
    double wanted = stop_side > 0 ? reach - cut.x1 : reach + cut.x0;
    for (size_t i = 0; i < card->plan->cut_count; i++) {
        const tw_cut *c = &card->plan->cuts[i];
        if (c->piece != card->work->piece || c->face != card->work->face) continue;
        block b = block_of_cut(size, view, c);
        double off = fabs((stop_side > 0 ? wide - b.x1 : b.x0) - wanted);
        if (!same_size(b, cut) || off >= nearest || (reach > 0.0 && off > 1e-3)) continue;  // at a shoulder the stop says nothing of the end
        nearest = off;
        own = (int)i;
    }
    return own;
}

/* The wood that other cuts of the joint have taken right through what is seen. */
static void note_gaps(seen *s, const tw_card *card, tw_size size, tw_view view, int own)
{
    double deep = extent(size, view.out);
    for (size_t i = 0; i < card->plan->cut_count && s->gap_count < GAPS_MOST; i++) {
        const tw_cut *c = &card->plan->cuts[i];
        if ((int)i == own || c->piece != card->work->piece) continue;
        block b = block_of_cut(size, view, c);
        if (b.z0 > 1e-6 || b.z1 < deep - 1e-6 || (own >= 0 && c->face == card->work->face && same_size(b, s->cut))) continue;
        s->gaps[s->gap_count++] = (tw_box){ s->piece.x0 + b.x0, s->piece.y0 + b.y0, s->piece.x0 + b.x1, s->piece.y0 + b.y1 };
    }
}

static void place_piece(seen *s, const tw_card *card, tw_view view)
{
    const tw_copy_want *want = &card->work->copy;
    tw_size size = size_of_work(card);
    double wide = extent(size, view.right), high = extent(size, view.up);
    s->stop_side = tw_view_sense(view, want->stop_end).x;
    s->stop_x = s->stop_side * want->stop_to_origin_mm;
    s->piece.x0 = s->stop_side < 0 ? s->stop_x : s->stop_side > 0 ? s->stop_x - wide : -wide / 2.0;
    s->piece.y0 = -want->down_to_origin_mm;
    int own = card->work->piece >= 0 ? own_cut(card, size, view, s->stop_side, s->cut) : -1;
    if (own >= 0) s->piece.x0 = s->cut.x0 - block_of_cut(size, view, &card->plan->cuts[own]).x0;
    s->piece.x1 = s->piece.x0 + wide;
    s->piece.y1 = s->piece.y0 + high;
    if (card->work->piece >= 0) note_gaps(s, card, size, view, own);
    s->table_y = s->piece.y0 - card->setup->packing_mm;
    s->centre_x = want->stop_at_centre ? s->stop_x : 0.0;
    s->centre_y = card->setup->table.used ? s->table_y + card->setup->table.value_mm : 0.0;
}

static void choose_window(seen *s, tw_box room)
{
    tw_box w = { tw_min(s->cut.x0, 0.0), s->table_y - 4.0, tw_max(s->cut.x1, 0.0), s->cut.y1 };
    w.x0 = tw_min(w.x0, s->centre_x);
    w.x1 = tw_max(w.x1, s->centre_x);
    w.y1 = tw_max(w.y1, s->centre_y);
    double beside = tw_max(ABOUT_CUT_MM, 0.4 * (w.x1 - w.x0));
    w.x0 = tw_max(w.x0 - beside, tw_min(w.x0 - 8.0, s->piece.x0 - 12.0));
    w.x1 = tw_min(w.x1 + beside, tw_max(w.x1 + 8.0, s->piece.x1 + 12.0));
    if (s->stop_side && fabs(s->stop_x) <= STOP_SEEN_MM) {
        w.x0 = tw_min(w.x0, s->stop_x - 12.0);
        w.x1 = tw_max(w.x1, s->stop_x + 12.0);
    }
    w.y1 = tw_min(w.y1 + ABOUT_CUT_MM, tw_max(w.y1 + 4.0, s->piece.y1 + 4.0));
    s->scale = tw_min(SCALE_MOST, tw_min((room.x1 - room.x0) / (w.x1 - w.x0), (room.y1 - room.y0) / (w.y1 - w.y0)));
    double more = ((room.x1 - room.x0) / s->scale - (w.x1 - w.x0)) / 2.0;  // show as much sideways as the room has
    w.x0 -= more;
    w.x1 += more;
    s->window = w;
    s->middle = (tw_point){ (w.x0 + w.x1) / 2.0, (w.y0 + w.y1) / 2.0 };
    s->paper = (tw_point){ (room.x0 + room.x1) / 2.0, (room.y0 + room.y1) / 2.0 };
}

static double paper_x(const seen *s, double x) { return s->paper.x + (x - s->middle.x) * s->scale; }
static double paper_y(const seen *s, double y) { return s->paper.y + (y - s->middle.y) * s->scale; }

/* ---- drawing ---- */

static tw_outline on_paper(tw_sheet *sheet, const seen *s, tw_outline outline)
{
    tw_outline scaled = tw_outline_scaled(sheet->arena, outline, s->scale);
    return tw_outline_moved(sheet->arena, scaled, paper_x(s, 0.0), paper_y(s, 0.0));
}

/* A border of the piece, or the zigzag of a break when the piece goes on beyond the window. */
static void draw_side(tw_sheet *sheet, double x0, double y0, double x1, double y1, bool broken)
{
    if (!broken) { tw_draw_line(sheet, TW_ROLE_VISIBLE, x0, y0, x1, y1); return; }
    double mx = (x0 + x1) / 2.0, my = (y0 + y1) / 2.0, length = hypot(x1 - x0, y1 - y0);
    if (length < 1e-6) return;
    double ux = (x1 - x0) / length, uy = (y1 - y0) / length, z = tw_min(2.5, length / 6.0);
    const tw_point p[] = { { x0, y0 }, { mx - z * ux, my - z * uy }, { mx - z * ux / 2 - z * uy, my - z * uy / 2 + z * ux },
                           { mx + z * ux / 2 + z * uy, my + z * uy / 2 - z * ux }, { mx + z * ux, my + z * uy }, { x1, y1 } };
    for (int i = 0; i < 5; i++) tw_draw_line(sheet, TW_ROLE_DIMENSION, p[i].x, p[i].y, p[i + 1].x, p[i + 1].y);
}

#define BREAK_MM 3.0   // on paper: from the window's border to a break
#define FAR_END_MM 20.0 // on paper: room of a far stop and of the piece's end before it, beyond the break

static bool stop_is_far(const seen *s) { return s->stop_side && (s->stop_x < s->window.x0 || s->stop_x > s->window.x1); }

static tw_box shown_piece(const seen *s)
{
    double left = stop_is_far(s) && s->stop_side < 0 ? FAR_END_MM : BREAK_MM, right = stop_is_far(s) && s->stop_side > 0 ? FAR_END_MM : BREAK_MM;
    tw_box box = { tw_max(s->piece.x0, s->window.x0 + left / s->scale), s->piece.y0,
                   tw_min(s->piece.x1, s->window.x1 - right / s->scale), tw_min(s->piece.y1, s->window.y1) };
    return box;
}

/* ---- the piece: a grid of cells between all borders, some of them gone; a line wherever wood meets air ---- */

#define LINES_MOST (2 * GAPS_MOST + 2)

typedef struct lines { double at[LINES_MOST]; int count; } lines;

static void add_line(lines *all, double at, double low, double high)
{
    if (at <= low + 1e-9 || at >= high - 1e-9) return;
    int i = all->count;
    while (i > 0 && all->at[i - 1] > at) i--;
    if (i > 0 && at - all->at[i - 1] < 1e-9) return;
    memmove(&all->at[i + 1], &all->at[i], (size_t)(all->count - i) * sizeof all->at[0]);
    all->at[i] = at;
    all->count++;
}

static lines lines_between(const seen *s, bool across, double low, double high)
{
    lines all = { .at = { low, high }, .count = 2 };
    for (int i = 0; i < s->gap_count; i++) {
        add_line(&all, across ? s->gaps[i].x0 : s->gaps[i].y0, low, high);
        add_line(&all, across ? s->gaps[i].x1 : s->gaps[i].y1, low, high);
    }
    return all;
}

/* Is there wood in cell (i, k)? Outside of the grid there is none. */
static bool wood(const seen *s, const lines *x, const lines *y, int i, int k)
{
    if (i < 0 || k < 0 || i + 1 >= x->count || k + 1 >= y->count) return false;
    double px = (x->at[i] + x->at[i + 1]) / 2.0, py = (y->at[k] + y->at[k + 1]) / 2.0;
    for (int g = 0; g < s->gap_count; g++)
        if (px > s->gaps[g].x0 && px < s->gaps[g].x1 && py > s->gaps[g].y0 && py < s->gaps[g].y1) return false;
    return true;
}

static void draw_piece(tw_sheet *sheet, const seen *s)
{
    tw_box b = shown_piece(s);
    lines x = lines_between(s, true, b.x0, b.x1), y = lines_between(s, false, b.y0, b.y1);
    bool left = b.x0 > s->piece.x0 + 1e-9, right = b.x1 < s->piece.x1 - 1e-9, top = b.y1 < s->piece.y1 - 1e-9;
    for (int k = 0; k < y.count; k++)
        for (int i = 0; i < x.count; i++) {
            bool here = wood(s, &x, &y, i, k);
            double px = paper_x(s, x.at[i]), py = paper_y(s, y.at[k]);
            if (k + 1 < y.count && here != wood(s, &x, &y, i - 1, k))
                draw_side(sheet, px, paper_y(s, y.at[k + 1]), px, py, (i == 0 && left) || (i + 1 == x.count && right));
            if (i + 1 < x.count && here != wood(s, &x, &y, i, k - 1))
                draw_side(sheet, px, py, paper_x(s, x.at[i + 1]), py, k + 1 == y.count && top);
        }
}

/* The wood that is cut away is shaded: the pocket, or the piece around what stays. */
static void draw_cut(tw_sheet *sheet, const seen *s, const tw_copy_want *want)
{
    tw_outline cut = on_paper(sheet, s, want->cut);
    if (want->inside) {
        tw_draw_outline(sheet, TW_ROLE_SHADE, cut);
    } else {
        tw_box b = shown_piece(s);
        tw_outline ring = { TW_NEW_ARRAY(sheet->arena, tw_loop, (size_t)cut.count + 1), cut.count + 1 };
        ring.loops[0] = tw_outline_rectangle(sheet->arena, paper_x(s, b.x0), paper_y(s, b.y0), paper_x(s, b.x1), paper_y(s, b.y1)).loops[0];
        for (int i = 0; i < cut.count; i++) {  // the other way round: a hole
            tw_loop from = cut.loops[i], *to = &ring.loops[i + 1];
            *to = (tw_loop){ TW_NEW_ARRAY(sheet->arena, tw_vertex, (size_t)from.count), from.count };
            for (int k = 0; k < from.count; k++) {
                tw_vertex v = from.vertices[from.count - 1 - k];
                v.bulge = -from.vertices[(2 * from.count - 2 - k) % from.count].bulge;
                to->vertices[k] = v;
            }
        }
        tw_draw_outline(sheet, TW_ROLE_SHADE, ring);
    }
    tw_draw_outline(sheet, TW_ROLE_CUT, cut);
}

static void draw_table(tw_sheet *sheet, const seen *s, tw_box room, double packing_mm)
{
    double y = paper_y(s, s->table_y);
    tw_draw_line(sheet, TW_ROLE_CUT, room.x0, y, room.x1, y);
    tw_outline under = tw_outline_rectangle(sheet->arena, room.x0, y - 2.2, room.x1, y);
    tw_draw_hatch(sheet, under, 2.0, tw_radians(45.0));
    if (packing_mm <= 0.0) return;
    tw_box b = shown_piece(s);
    tw_draw_box(sheet, TW_ROLE_SHADE, paper_x(s, b.x0), y, paper_x(s, b.x1), paper_y(s, b.y0));
    tw_draw_box(sheet, TW_ROLE_FRAME, paper_x(s, b.x0), y, paper_x(s, b.x1), paper_y(s, b.y0));
}

/* The end of the piece at a far stop, beyond the break. */
static void draw_far_end(tw_sheet *sheet, const seen *s, double face)
{
    double y0 = paper_y(s, s->piece.y0), y1 = paper_y(s, shown_piece(s).y1), from = face - s->stop_side * (FAR_END_MM - STOP_THICK_MM - 4.0);
    draw_side(sheet, from, y0, face, y0, false);
    draw_side(sheet, face, y0, face, y1, false);
    draw_side(sheet, face, y1, from, y1, s->piece.y1 > s->window.y1 + 1e-9);
    draw_side(sheet, from, y1, from, y0, true);
}

static void draw_stop(tw_sheet *sheet, const seen *s, tw_box room)
{
    if (s->stop_side == 0) return;
    double y0 = paper_y(s, s->table_y), high = tw_max(6.0, tw_min(26.0, (s->piece.y1 - s->table_y) * s->scale * 0.8));
    double face = paper_x(s, s->stop_x);
    if (stop_is_far(s)) {
        face = s->stop_side < 0 ? room.x0 + STOP_THICK_MM : room.x1 - STOP_THICK_MM;
        draw_far_end(sheet, s, face);
    }
    double back = face + s->stop_side * STOP_THICK_MM;
    double x0 = tw_min(face, back), x1 = tw_max(face, back);
    tw_draw_box(sheet, TW_ROLE_SHADE, x0, y0, x1, y0 + high);
    tw_draw_box(sheet, TW_ROLE_VISIBLE, x0, y0, x1, y0 + high);
    double small = tw_small_print(sheet, TW_SMALL_MM);
    tw_draw_text_turned(sheet, (x0 + x1) / 2.0 + small / 2.0, y0 + 1.0, small, TW_ANCHOR_LEFT, TW_PI / 2.0, high > 9.0 ? "stop"
        : "");
}

/* over: how far the upright one stands above the room. */
static void draw_centres(tw_sheet *sheet, const seen *s, tw_box room, double over)
{
    double x = paper_x(s, s->centre_x), y = paper_y(s, s->centre_y);
    tw_draw_line(sheet, TW_ROLE_CENTRE, x, room.y0, x, room.y1 + over);
    if (y < room.y1 + 2.0) tw_draw_line(sheet, TW_ROLE_CENTRE, room.x0, y, room.x1, y);
}

/* Names of the sides that are seen, upright beside the piece where there is air, clear of the level centre line. */
static void draw_side_names(tw_sheet *sheet, const seen *s, tw_view view, tw_box room)
{
    double y1 = paper_y(s, tw_min(s->piece.y1, s->window.y1)), centre = paper_y(s, s->centre_y),
        small = tw_small_print(sheet, TW_SMALL_MM);
    for (int side = -1; side <= 1; side += 2) {
        if (stop_is_far(s) && s->stop_side == side) continue;
        const char *name = tw_face_words[tw_view_side(view, side, 0)];
        double long_mm = tw_text_width(small, false, name), low = paper_y(s, s->piece.y0) + 1.0;
        if (low - 1.0 < centre && low + long_mm + 1.0 > centre) low = tw_min(centre + 1.2, tw_max(y1 - long_mm, centre + 1.2));
        double past = (side < 0 ? s->piece.x0 - s->cut.x0 : s->cut.x1 - s->piece.x1) * s->scale;   // how far the cut runs out there
        double away = tw_max(s->stop_side == side ? STOP_THICK_MM + 2.0 : 1.5, past + 1.5);
        double out = paper_x(s, side < 0 ? s->piece.x0 : s->piece.x1) + side * away;
        if (out + side * small * 1.4 < room.x0 || out + side * small * 1.4 > room.x1 || low + long_mm > room.y1 - 5.0) continue;
        tw_draw_text_turned(sheet, side < 0 ? out : out + small, low, small, TW_ANCHOR_LEFT, TW_PI / 2.0, name);
    }
}

/* Which way the template goes, as the maker sees it, under the captions at the top. */
static void draw_shift(tw_sheet *sheet, const tw_setting *shift, tw_box room)
{
    if (!shift->used || shift->value_mm < 1e-9 || (!shift->direction_x && !shift->direction_y)) return;
    double small = tw_small_print(sheet, TW_SMALL_MM), y = room.y1 - 2.0 * TW_BODY_MM - 2.0, x = room.x1 - 14.0,
        middle = y + small / 2.0;
    tw_draw_text(sheet, x - 2.0, y, small, TW_ANCHOR_RIGHT, "template");
    if (shift->direction_x) tw_draw_arrow(sheet, TW_ROLE_DIMENSION, shift->direction_x > 0 ? x : room.x1, middle, shift->direction_x > 0 ? room.x1 : x, middle);
    else tw_draw_arrow(sheet, TW_ROLE_DIMENSION, x + 4.0, middle - shift->direction_y * 3.0, x + 4.0, middle + shift->direction_y * 3.0);
}

static const char *face_words(tw_arena *arena, const tw_work *work)
{
    return tw_format(arena, "you look at the %s, as the cutter does; grey wood goes", tw_face_words[work->face]);
}

/* How many lines more than one the words on the face take: one on paper, where they are cut to fit. */
static double face_words_more(const tw_sheet *sheet, const tw_work *work, double wide)
{
    double small = tw_small_print(sheet, TW_SMALL_MM);
    return sheet->least_text_mm > 0.0 ? TW_LEADING * small * (tw_text_lines(wide, small, false,
        face_words(sheet->arena, work)) - 1) + small - TW_SMALL_MM : 0.0;
}

static void draw_captions(tw_sheet *sheet, const tw_card *card, tw_view view, tw_box room)
{
    const tw_work *work = card->work;
    tw_arena *arena = sheet->arena;
    double wide = room.x1 - room.x0, small = tw_small_print(sheet, TW_SMALL_MM), more = face_words_more(sheet, work, wide);
    const char *above = tw_format(arena, "%s above", tw_face_words[tw_view_side(view, 0, 1)]),
        *chain = "chain lines: machine's centre";
    if (tw_text_width(TW_BODY_MM, false, above) + tw_text_width(TW_BODY_MM, false, chain) + 3.0 > wide) chain =
        "chain lines: centre";
    tw_draw_text(sheet, room.x0, room.y1 - TW_BODY_MM, TW_BODY_MM, TW_ANCHOR_LEFT, above);
    tw_draw_text(sheet, room.x1, room.y1 - TW_BODY_MM, TW_BODY_MM, TW_ANCHOR_RIGHT, chain);
    const char *down = tw_format(arena, "%s DOWN %s", tw_face_words[work->down], work->cradle.used ? "in the cradle" : card->setup->packing_mm > 0.0 ? "on the packing" : "on the table");
    tw_draw_bold(sheet, room.x0, room.y0 + 4.6 + more, TW_BODY_MM, TW_ANCHOR_LEFT,
        tw_text_fitted(arena, wide, TW_BODY_MM, true, down));
    const char *face = face_words(arena, work);
    if (sheet->least_text_mm > 0.0) tw_block_text(sheet, room.x0, room.y0 + 4.6 + more - 1.3, wide, small, false, face);
    else tw_draw_text(sheet, room.x0, room.y0 + 0.8, small, TW_ANCHOR_LEFT, tw_text_fitted(arena, wide, small, false, face));
}

void tw_card_picture(tw_sheet *sheet, tw_box room, const tw_card *card)
{
    assert(card->work && card->setup && card->work->copied);
    tw_view view = tw_view_of(card->work->face, card->work->down);
    tw_box drawing = { room.x0, room.y0 + 11.5 + face_words_more(sheet, card->work, room.x1 - room.x0), room.x1, room.y1 - 8.0 };
    seen s = { .cut = tw_outline_bounds(card->work->copy.cut) };
    place_piece(&s, card, view);
    choose_window(&s, drawing);
    draw_cut(sheet, &s, &card->work->copy);
    draw_piece(sheet, &s);
    draw_table(sheet, &s, room, card->setup->packing_mm);
    draw_stop(sheet, &s, room);
    bool shifted = card->setup->shift.used && card->setup->shift.value_mm >= 1e-9;
    draw_centres(sheet, &s, drawing, shifted ? 0.0 : 3.0);  // "template" stands there
    draw_side_names(sheet, &s, view, room);
    draw_captions(sheet, card, view, room);
    draw_shift(sheet, &card->setup->shift, room);
}
