// SPDX-License-Identifier: GPL-3.0-or-later
/* The paper "pieces": a setting-out drawing of each kind of piece, and tables of its cuts and holes.
 *
 * The lengthwise views stand one above the other, unfolded: in third angle the face edge below the face, in first angle above
 * it. The ends stand beside the face edge on the sides that the way of projection asks for when there is room, else with the
 * sections below, named like them. The scale is the largest of ISO 5455 at which all of it fits on the page with no text
 * touched; the length is broken where plain wood can be left out. */
#include "sheet/setting_out.h"

#include <math.h>
#include <string.h>

#include "draw/labels.h"
#include "sheet/space_views.h"

#define PIECES_MOST 150       // kinds that are drawn
#define GAP_MM 5.0            // between views
#define ENDS_GAP_MM 8.0
#define SYMBOL_HIGH_MM 12.0
#define SYMBOL_WIDE_MM 47.0
#define HEAD_GAP_MM 2.0
#define SAME_MM 0.01
#define SCREEN_NARROW_HIGH_MM 340.0  // on the screen a drawing is not cut into pages, but it should not be endless
#define SCREEN_LEAST_HIGH_MM 240.0
#define SCREEN_HIGH_PER_WIDE 1.2
#define SCREEN_LETTERS_MORE_MM 4.0   // by which the symbol's words are longer there

typedef struct scale { double factor; const char *text; } scale;
typedef struct scale_list { const scale *items; int count; } scale_list;

/* Of ISO 5455 on paper; on the screen, where nothing is measured with a rule, more of them. */
static scale_list scales_of(const tw_drawn_piece *of)
{
    static const scale paper[] = { { 1.0, "1 : 1" }, { 0.5, "1 : 2" }, { 0.2, "1 : 5" }, { 0.1, "1 : 10" }, { 0.05, "1 : 20" },
        { 0.02, "1 : 50" }, { 0.01, "1 : 100" },
                                   { 0.005, "1 : 200" }, { 0.002, "1 : 500" } };
    static const scale screen[] = { { 1.0, "1 : 1" }, { 0.5, "1 : 2" }, { 1.0 / 3.0, "1 : 3" }, { 0.2, "1 : 5" },
        { 1.0 / 7.0, "1 : 7" }, { 0.1, "1 : 10" }, { 1.0 / 15.0, "1 : 15" },
                                    { 0.05, "1 : 20" }, { 1.0 / 30.0, "1 : 30" }, { 0.02, "1 : 50" }, { 0.01, "1 : 100" },
                                        { 0.005, "1 : 200" }, { 0.002, "1 : 500" } };
    if (of->least_text_mm > 0.0) return (scale_list){ screen, (int)(sizeof screen / sizeof *screen) };
    return (scale_list){ paper, (int)(sizeof paper / sizeof *paper) };
}

/* ---- arranging the views ---- */

typedef struct drawn { tw_sheet *sheet; tw_box ink; } drawn;

typedef struct plan {
    const tw_piece_view *views;
    drawn    *drawn;
    int       count, lengthwise;
    scale_list scales;
    bool      third;
    double    wide, high;       // room on the page
    bool      ends_beside;      // the face edge; else with the sections
    bool      in_column;        // sections stand right of the lengthwise views where there is room; else all below
    tw_sheet *sheet;            // all of it, its top at y = 0
    double    x, y;             // left of the lengthwise views; top of what is free
    double    widest;
    int       faults;
} plan;

static double width_of(const drawn *d) { return d->ink.x1 - d->ink.x0; }
static double height_of(const drawn *d) { return d->ink.y1 - d->ink.y0; }

/* Lengthwise views from the top down: back edge, face, face edge, back unfold in third angle; first angle turns the order round. */
static int in_order(const plan *p, int place)
{
    static const tw_face down[] = { TW_SIDE_BACK_EDGE, TW_SIDE_FACE, TW_SIDE_FACE_EDGE, TW_SIDE_BACK };
    tw_face wanted = down[p->third ? place : 3 - place];
    for (int i = 0; i < p->lengthwise; i++)
        if (p->views[i].face == wanted) return i;
    return -1;
}

/* In third angle an end's view stands on the side of that end, in first angle on the other. */
static bool is_beside(const plan *p, int i) { return p->ends_beside && !p->views[i].lengthwise && !p->views[i].slice; }
static bool stands_left(const plan *p, int i) { return (p->views[i].face == TW_SIDE_LEFT_END) == p->third; }

static double room_beside(const plan *p, bool left)
{
    double room = 0.0;
    for (int i = 0; i < p->count; i++)
        if (is_beside(p, i) && stands_left(p, i) == left) room += width_of(&p->drawn[i]) + ENDS_GAP_MM;
    return room;
}

static void put(plan *p, int i, double x, double y) { tw_draw_sheet(p->sheet, p->drawn[i].sheet, 1.0, x, y); }

static void put_lengthwise(plan *p, int i, double left, double right)
{
    const drawn *d = &p->drawn[i];
    double top = d->ink.y1, bottom = d->ink.y0;
    bool with_ends = p->views[i].face == TW_SIDE_FACE_EDGE;
    for (int k = 0; k < p->count && with_ends; k++)
        if (is_beside(p, k)) { top = tw_max(top, p->drawn[k].ink.y1); bottom = tw_min(bottom, p->drawn[k].ink.y0); }
    double y = p->y - top;
    put(p, i, p->x, y);
    for (int k = 0; k < p->count && with_ends; k++)
        if (is_beside(p, k)) put(p, k, stands_left(p, k) ? p->x - left - ENDS_GAP_MM - p->drawn[k].ink.x1
                                                         : p->x + right + ENDS_GAP_MM - p->drawn[k].ink.x0, y);
    p->y = y + bottom - GAP_MM;
}

static void put_column(plan *p)
{
    double left = 0.0, right = 0.0;
    for (int i = 0; i < p->lengthwise; i++) {
        left = tw_max(left, -p->drawn[i].ink.x0);
        right = tw_max(right, p->drawn[i].ink.x1);
    }
    p->x = room_beside(p, true) + left;
    p->widest = p->x + right + room_beside(p, false);
    for (int place = 0; place < 4; place++) {
        int i = in_order(p, place);
        if (i >= 0) put_lengthwise(p, i, left, right);
    }
}

/* Views from number `from` on, in lines between two borders from y down to a floor. Returns the first that found no room; p->y
 * is set to what is free below, *x to where the last line ended. */
static int put_lines(plan *p, int from, double left, double floor_, double *x)
{
    double lowest = p->y;
    *x = left;
    for (int i = from; i < p->count; i++) {
        if (is_beside(p, i)) continue;
        const drawn *d = &p->drawn[i];
        bool wraps = *x > left && *x + width_of(d) > p->wide;
        double top = wraps ? lowest - GAP_MM : p->y, start = wraps ? left : *x;
        if (start + width_of(d) > p->wide + (left == 0.0 ? INFINITY : 0.0) || top - height_of(d) < floor_) { p->y = lowest; return i; }
        p->y = top;
        put(p, i, start - d->ink.x0, top - d->ink.y1);
        *x = start + width_of(d) + ENDS_GAP_MM;
        p->widest = tw_max(p->widest, *x - ENDS_GAP_MM);
        lowest = tw_min(lowest, top - height_of(d));
    }
    p->y = lowest;
    return p->count;
}

/* The symbol of the projection, in a free corner of the drawing, else below it. */
static void put_symbol(plan *p)
{
    const double step = 4.0, symbol = SYMBOL_WIDE_MM + (p->sheet->least_text_mm > 0.0 ? SCREEN_LETTERS_MORE_MM : 0.0);
    tw_point middle = { symbol / 2.0, p->y - GAP_MM - SYMBOL_HIGH_MM / 2.0 };
    tw_box within = { 0.0, p->y, p->wide, 0.0 };
    bool found = false;
    for (double y = p->y + SYMBOL_HIGH_MM / 2.0; !found && y < 0.0; y += step)
        for (int right = 1; !found && right >= 0; right--)
            found = tw_sheet_free_place(p->sheet, (tw_point){ right ? p->wide - symbol / 2.0 : symbol / 2.0, y }, symbol,
                SYMBOL_HIGH_MM, 2.0, 0.0, within, &middle);
    if (!found) p->y -= GAP_MM + SYMBOL_HIGH_MM;
    tw_draw_projection(p->sheet, middle.x - symbol / 2.0 + 1.0, middle.y, p->third);
}

static void put_rest(plan *p)
{
    double below = p->y, x = 0.0;
    int next = p->lengthwise;
    if (p->in_column) {
        p->y = 0.0;
        next = put_lines(p, next, p->widest + ENDS_GAP_MM, below, &x);
        p->y = below;
    }
    put_lines(p, next, 0.0, -INFINITY, &x);
}

static int faults_of(const tw_sheet *sheet)
{
    int overlaps, crossed;
    tw_sheet_overlaps(sheet, sheet->arena, &overlaps);
    tw_sheet_crossed_texts(sheet, sheet->arena, &crossed);
    return overlaps + crossed;
}

static void arrange(plan *p)
{
    p->sheet = tw_scratch(p->views->of->arena);
    p->sheet->least_text_mm = p->views->of->least_text_mm;
    p->x = p->y = p->widest = 0.0;
    put_column(p);
    double start = p->y;
    put_rest(p);
    if (p->y > start - 1e-9) p->y = start + GAP_MM;  // nothing stands below
    put_symbol(p);
}

static bool fits(const plan *p) { return p->widest <= p->wide + 1e-6 && -p->y <= p->high + 1e-6; }

/* ---- choosing the scales ---- */

typedef struct chosen { tw_sheet *sheet; double high; int scale; bool broken, fits; int faults; } chosen;

typedef struct trial { int scale, across; bool broken; tw_breaks breaks; } trial;  // scale of the lengthwise views, of the rest

/* Draws the views at the trial's scales; the rest says its scale when it is another. */
static void draw_views(plan *p, const trial *t, bool rough)
{
    for (int i = 0; i < p->count; i++) {
        int at = i < p->lengthwise ? t->scale : t->across;
        const char *told = at != t->scale ? p->scales.items[at].text : NULL;
        p->drawn[i].sheet = tw_piece_view_draw(&p->views[i], &t->breaks, p->scales.items[at].factor, told, rough,
            &p->drawn[i].ink);
    }
}

static bool better(const chosen *a, const chosen *b)
{
    if (!b->sheet) return true;
    if (a->fits != b->fits) return a->fits;
    return a->faults < b->faults;
}

/* Ways of arranging: ends beside the face edge (only at its own scale) or with the sections; sections in a column or below. */
static void take_way(plan *p, int way)
{
    p->ends_beside = way < 2;
    p->in_column = way % 2 == 0;
    arrange(p);
}

/* Looks roughly which ways fit, then draws the first that does in full. True when it is without fault. */
static bool try_scales(plan *p, chosen *best, const trial *t, bool last)
{
    int way = t->scale == t->across ? 0 : 2;
    draw_views(p, t, true);
    for (take_way(p, way); !fits(p) && way < 3; ) take_way(p, ++way);
    if (!fits(p) && !last) return false;
    draw_views(p, t, false);
    for (; way < 4; way++) {
        take_way(p, way);
        if (best->sheet && !fits(p)) continue;
        p->faults = faults_of(p->sheet);
        chosen c = { p->sheet, -p->y, t->scale, t->broken, fits(p), p->faults };
        if (better(&c, best)) *best = c;
        if (best->fits && best->faults == 0) return true;
    }
    return false;
}

/* The largest scale of the lengthwise views first, whole before broken; then the largest for what is seen across. Scales
 * after number `last` are not tried. */
static chosen choose(plan *p, const tw_drawn_piece *of, int last)
{
    chosen best = { 0 };
    for (int i = 0; i <= last; i++) {
        for (int broken = 0; broken < 2; broken++) {
            trial t = { i, 0, broken, tw_breaks_make(of, p->scales.items[i].factor, broken) };
            bool large = t.breaks.long_mm > p->wide || of->size.width_mm * p->scales.items[i].factor > p->high,
                end = i + 1 == p->scales.count;
            if ((broken && t.breaks.count == 1) || (large && !end)) continue;
            for (t.across = 0; t.across <= i; t.across++) {
                if (t.across < i && (of->size.width_mm * p->scales.items[t.across].factor > p->wide
                    || p->count == p->lengthwise)) continue;
                if (try_scales(p, &best, &t, end && t.across == i)) return best;
            }
        }
    }
    return best;
}

/* Views across the piece alone, each scale told once: by the page. */
static chosen choose_across(plan *p)
{
    chosen best = { 0 };
    for (int i = 0; i < p->scales.count; i++)
        if (try_scales(p, &best, &(trial){ .scale = i, .across = i }, i + 1 == p->scales.count)) break;
    return best;
}

/* One page for all, or the lengthwise views on one and the rest on the next where that more than doubles their scale. */
typedef struct drawing { chosen first, second; bool more; } drawing;

static drawing draw_piece(const tw_drawn_piece *of, double wide_mm, double high_mm, double whole_mm, double tables_mm)
{
    int count;
    tw_piece_view *views = tw_piece_views_make(of, &count);
    tw_piece_views_measure(views, count);
    plan p = { .views = views, .count = count, .drawn = TW_NEW_ARRAY(of->arena, drawn, (size_t)count), .scales = scales_of(of),
        .third = of->in->job->projection.value == 1,
               .wide = wide_mm, .high = high_mm };
    drawing d = { .more = of->more_slices };
    for (int i = 0; i < count; i++) {
        p.lengthwise += views[i].lengthwise;
        d.more = d.more || views[i].more_wishes;
    }
    d.first = choose(&p, of, p.scales.count - 1);
    if (d.first.high + tables_mm > high_mm && tables_mm < 0.5 * high_mm) {  // smaller sections, if then the tables come onto the page
        p.high = high_mm - tables_mm;
        chosen with_tables = choose(&p, of, d.first.scale);
        if (with_tables.sheet && with_tables.fits && with_tables.faults <= d.first.faults) d.first = with_tables;
        p.high = high_mm;
    }
    if (d.first.fits && d.first.faults == 0 && d.first.scale < 2) return d;
    plan alone = p, across = p;
    alone.count = p.lengthwise;
    chosen lengthwise = choose(&alone, of, p.scales.count - 1);
    if (d.first.fits && d.first.faults == 0 && lengthwise.scale + 1 >= d.first.scale) return d;
    across.views += p.lengthwise;
    across.count -= p.lengthwise;
    across.lengthwise = 0;
    across.high = whole_mm;
    d.first = lengthwise;
    d.second = choose_across(&across);
    return d;
}

/* ---- tables ---- */

static const char *bare(const tw_drawn_piece *of, double mm) { return tw_length_bare(of->arena, mm, of->in->job->figures); }

/* Where a cut lies along the piece, from the left end: its near wall, or the middle of a hole. */
static const char *place_along(const tw_drawn_piece *of, int cut)
{
    const tw_block *r = &of->reaches[cut];
    bool at_left = r->least.x < SAME_MM, at_right = r->most.x > of->size.length_mm - SAME_MM;
    if (at_left) return at_right ? "all along" : "left end";
    if (at_right) return tw_cut_axis(&of->cuts[cut]) == 0 ? "right end" : tw_format(of->arena, "%s to the right end", bare(of, r->least.x));
    return bare(of, tw_cut_is_hole(&of->cuts[cut]) ? (r->least.x + r->most.x) / 2.0 : r->least.x);
}

/* The same of all cuts of a mark. */
static const char *places_along(const tw_drawn_piece *of, const tw_cut_mark *mark)
{
    const char *all = "";
    int told = 0;
    for (int i = 0; i < mark->count; i++) {
        const char *place = place_along(of, mark->cuts[i]);
        if (told++ == 12) return tw_format(of->arena, "%s and so on, %d in all", all, mark->count);
        all = tw_format(of->arena, "%s%s%s", all, i ? "; " : "", place);
    }
    return all;
}

/* Where it lies across: from the face edge, or, on an edge, from the face. */
static const char *place_across(const tw_drawn_piece *of, const tw_cut_mark *mark)
{
    const tw_block *r = &of->reaches[mark->cuts[0]];
    const tw_cut *cut = &of->cuts[mark->cuts[0]];
    double width = of->size.width_mm, thickness = of->size.thickness_mm, y = mark->hole ? (r->least.y + r->most.y) / 2.0 : r->least.y;
    double z = thickness - (mark->hole ? (r->least.z + r->most.z) / 2.0 : r->most.z);
    bool all_y = !mark->hole && r->least.y < SAME_MM && r->most.y > width - SAME_MM, all_z = !mark->hole && r->least.z < SAME_MM && r->most.z > thickness - SAME_MM;
    const char *from_edge = all_y ? "full width" : y < SAME_MM ? "from the face edge on" : tw_format(of->arena, "%s from the face edge", bare(of, y));
    const char *from_face = all_z ? "full thickness" : z < SAME_MM ? "from the face on" : tw_format(of->arena, "%s from the face", bare(of, z));
    switch (tw_cut_axis(cut)) {
    case 2: return from_edge;
    case 1: return from_face;
    default: return tw_format(of->arena, "%s, %s", from_edge, from_face);
    }
}

static const char *depth_words(const tw_drawn_piece *of, const tw_cut *cut)
{
    if (cut->through && cut->start_mm < SAME_MM) return "through";
    const char *to = cut->through ? "the far side" : bare(of, cut->depth_mm);
    return cut->start_mm < SAME_MM ? to : tw_format(of->arena, "from %s to %s", bare(of, cut->start_mm), to);
}

static const char *joint_words(const tw_drawn_piece *of, const tw_cut *cut) { return of->in->job->joints[cut->joint].name; }

static double rounding_radius(const tw_cut *cut)
{
    for (int i = 0; i < cut->outline.count; i++)
        for (int k = 0; k < cut->outline.loops[i].count; k++)
            if (cut->outline.loops[i].vertices[k].bulge < -1e-6) return tw_loop_edge(cut->outline.loops[i], k).radius_mm;
    return 0.0;
}

/* Along the piece x across it, of the wood taken; on an end: width x thickness. */
static const char *size_words(const tw_drawn_piece *of, const tw_cut_mark *mark)
{
    const tw_cut *cut = &of->cuts[mark->cuts[0]];
    const tw_block *r = &of->reaches[mark->cuts[0]];
    if (tw_cut_is_rounding(cut)) return tw_format(of->arena, "round corners of %s", bare(of, rounding_radius(cut)));
    const char *x = bare(of, r->most.x - r->least.x), *y = bare(of, r->most.y - r->least.y), *z = bare(of, r->most.z - r->least.z);
    int axis = tw_cut_axis(cut);
    const char *size = tw_format(of->arena, "%s \xC3\x97 %s", axis == 0 ? y : x, axis == 2 ? y : z);
    double lean = hypot(cut->lean_right, cut->lean_up);
    return lean == 0.0 ? size : tw_format(of->arena, "%s over its lean of %s", size, tw_angle_text(of->arena, atan(lean)));
}

static bool on_blank(const tw_drawn_piece *of, tw_face face, double x, double y)
{
    tw_size extent = tw_face_extent(of->size, face);
    return x > SAME_MM && y > SAME_MM && x < extent.length_mm - SAME_MM && y < extent.width_mm - SAME_MM;
}

/* The least radius of the corners of what is taken; 0 where two straight walls meet in wood. Corners on the rim of the blank
 * and beyond it are none. Infinity: no corner. */
static double corner_radius(const tw_drawn_piece *of, const tw_cut *cut)
{
    double least = INFINITY;
    for (int i = 0; i < cut->outline.count; i++) {
        tw_loop loop = cut->outline.loops[i];
        for (int k = 0; k < loop.count; k++) {
            tw_edge edge = tw_loop_edge(loop, k), before = tw_loop_edge(loop, (k + loop.count - 1) % loop.count);
            double half = edge.start_rad + edge.sweep_rad / 2.0;
            if (!edge.straight && edge.sweep_rad > 0.0 && on_blank(of, cut->face, edge.centre.x + edge.radius_mm * cos(half), edge.centre.y + edge.radius_mm * sin(half)))
                least = tw_min(least, edge.radius_mm);
            if (edge.straight && before.straight && on_blank(of, cut->face, edge.from.x, edge.from.y)) least = 0.0;
        }
    }
    return least;
}

static const char *corner_words(const tw_drawn_piece *of, const tw_cut *cut)
{
    double radius = tw_cut_is_rounding(cut) ? INFINITY : corner_radius(of, cut);
    return !isfinite(radius) ? "\xE2\x80\x93" : radius < SAME_MM ? "square" : bare(of, radius);
}

static void fill_cut(const tw_drawn_piece *of, const tw_cut_mark *mark, const char **cell)
{
    const tw_cut *cut = &of->cuts[mark->cuts[0]];
    cell[0] = mark->letter;
    cell[1] = mark->count > 1 ? tw_format(of->arena, "%s, %d", cut->name, mark->count) : cut->name;
    cell[2] = joint_words(of, cut);
    cell[3] = tw_face_words[cut->face];
    cell[4] = places_along(of, mark);
    cell[5] = place_across(of, mark);
    cell[6] = size_words(of, mark);
    cell[7] = depth_words(of, cut);
    cell[8] = corner_words(of, cut);
}

static void fill_hole(const tw_drawn_piece *of, const tw_cut_mark *mark, const char **cell)
{
    const tw_cut *cut = &of->cuts[mark->cuts[0]];
    tw_box box = tw_outline_bounds(cut->outline);
    cell[0] = mark->letter;
    cell[1] = mark->count > 1 ? tw_format(of->arena, "%s, %d", cut->name, mark->count) : cut->name;
    cell[2] = joint_words(of, cut);
    cell[3] = tw_face_words[cut->face];
    cell[4] = places_along(of, mark);
    cell[5] = place_across(of, mark);
    cell[6] = bare(of, box.x1 - box.x0);
    cell[7] = depth_words(of, cut);
}

static int marks_that(const tw_drawn_piece *of, bool hole)
{
    int count = 0;
    for (int i = 0; i < of->mark_count; i++) count += of->marks[i].hole == hole;
    return count;
}

typedef struct listing { const char *title; const tw_column *columns; const char **cells; int column_count, rows; } listing;

static listing list_of(const tw_drawn_piece *of, bool holes)
{
    static const tw_column cuts[] = { { "Mark", 12, TW_ANCHOR_LEFT, true }, { "Cut", 24, TW_ANCHOR_LEFT, false }, { "Belongs to", 28, TW_ANCHOR_LEFT, false },
                                      { "On the", 16, TW_ANCHOR_LEFT, false }, { "From the left end", 28, TW_ANCHOR_LEFT, false }, { "Across", 28, TW_ANCHOR_LEFT, false },
                                      { "Size along \xC3\x97 across", 26, TW_ANCHOR_LEFT, false }, { "Deep", 16, TW_ANCHOR_LEFT, false }, { "Corner radius", 14, TW_ANCHOR_LEFT, false } };
    static const tw_column drilled[] = { { "Mark", 12, TW_ANCHOR_LEFT, true }, { "Hole", 30, TW_ANCHOR_LEFT, false }, { "Belongs to", 32, TW_ANCHOR_LEFT, false },
                                         { "On the", 18, TW_ANCHOR_LEFT, false }, { "Middle from the left end", 32, TW_ANCHOR_LEFT, false },
                                         { "Middle across", 32, TW_ANCHOR_LEFT, false }, { "Diameter", 16, TW_ANCHOR_LEFT, false }, { "Deep", 20, TW_ANCHOR_LEFT, false } };
    listing l = { holes ? "Holes" : "Cuts", holes ? drilled : cuts, NULL, holes ? 8 : 9, 0 };
    l.cells = TW_NEW_ARRAY(of->arena, const char *, (size_t)(marks_that(of, holes) * l.column_count));
    for (int i = 0; i < of->mark_count; i++)
        if (of->marks[i].hole == holes) (holes ? fill_hole : fill_cut)(of, &of->marks[i], l.cells + (size_t)(l.rows++ * l.column_count));
    return l;
}

/* What a listing takes of a page, about: a line of its heading, its titles and rows. */
static double high_of(const tw_pages *pages, const listing *l, tw_arena *arena)
{
    if (l->rows == 0) return 0.0;
    tw_column *fitted = TW_NEW_ARRAY(arena, tw_column, (size_t)l->column_count);
    tw_table table = { .columns = fitted, .column_count = l->column_count, .size_mm = TW_SMALL_MM };
    memcpy(fitted, l->columns, (size_t)l->column_count * sizeof *fitted);
    double share = (pages->room.x1 - pages->room.x0) / tw_table_width(&table), high = TW_LOUD_MM * TW_LEADING + 7.0;
    for (int i = 0; i < l->column_count; i++) fitted[i].width_mm *= share;
    high += tw_table_titles_height(&table);
    for (int i = 0; i < l->rows; i++) high += tw_table_row_height(&table, l->cells + (size_t)(i * l->column_count));
    return high;
}

static void add_listing(tw_pages *pages, const listing *l)
{
    if (l->rows == 0) return;
    listing first_row = *l;
    first_row.rows = 1;
    tw_pages_heading(pages, l->title, high_of(pages, &first_row, pages->arena));
    tw_pages_table(pages, l->columns, l->column_count, TW_SMALL_MM, l->cells, l->rows);
}

/* ---- pages ---- */

static const char *head_words(const tw_drawn_piece *of)
{
    const tw_job *job = of->in->job;
    const tw_piece *piece = &job->pieces[of->piece];
    int count = (int)(piece->count.value * job->sets.value + 0.5);
    const char *timber = piece->timber.text && *piece->timber.text ? tw_format(of->arena, ", %s", piece->timber.text) : "";
    return tw_format(of->arena, "%s%s. Finished %s \xC3\x97 %s \xC3\x97 %s long, wide and thick, tenons included.", tw_count_words(of->arena, count, "piece", "pieces"), timber,
                     tw_length_text(of->arena, of->size.length_mm, job->figures), tw_length_text(of->arena, of->size.width_mm, job->figures),
                     tw_length_text(of->arena, of->size.thickness_mm, job->figures));
}

/* What stands under the piece's name; told again when it is known what the drawing leaves out. */
static const char *small_words(const tw_drawn_piece *of, bool broken, bool more)
{
    return tw_format(of->arena, "Set out from the left end, the face edge (caret) and the face (loop).%s%s", broken ? " Plain wood between zigzag lines is left out." : "",
                     more ? " What finds no room here stands in the tables." : "");
}

static double text_high(const tw_pages *pages, double size_mm, bool bold, const char *text)
{
    return tw_text_lines(pages->room.x1 - pages->room.x0, size_mm, bold, text) * TW_LEADING * size_mm;
}

static void add_head(tw_pages *pages, const char *name, const char *head, const char *small)
{
    tw_pages_text(pages, TW_TITLE_MM, true, name);
    tw_pages_text(pages, TW_BODY_MM, false, head);
    tw_pages_text(pages, TW_SMALL_MM, false, small);
    tw_pages_gap(pages, HEAD_GAP_MM);
}

static void add_piece(tw_pages *pages, int piece)
{
    tw_arena arena = tw_arena_beside(pages->arena);
    tw_drawn_piece of = tw_drawn_piece_make(&arena, pages->in, piece);
    const char *name = pages->in->job->pieces[piece].name, *head = head_words(&of);
    listing cuts = list_of(&of, false), holes = list_of(&of, true);
    double used = text_high(pages, TW_TITLE_MM, true, name) + text_high(pages, TW_BODY_MM, false, head)
                + text_high(pages, TW_SMALL_MM, false, small_words(&of, true, true));
    double whole = pages->room.y1 - pages->room.y0, tables = high_of(pages, &cuts, &arena) + high_of(pages, &holes, &arena);
    drawing d = draw_piece(&of, pages->room.x1 - pages->room.x0, whole - used - HEAD_GAP_MM, whole, tables);
    tw_pages_new(pages, name, scales_of(&of).items[d.first.scale].text);
    add_head(pages, name, head, small_words(&of, d.first.broken, d.more));
    tw_pages_place(pages, d.first.sheet, d.first.high);
    if (d.second.sheet) {
        tw_pages_new(pages, tw_format(&arena, "%s, across", name), scales_of(&of).items[d.second.scale].text);
        tw_pages_place(pages, d.second.sheet, d.second.high);
    }
    add_listing(pages, &cuts);
    add_listing(pages, &holes);
    tw_arena_finish(&arena);
}

tw_paper_pages tw_paper_pieces(tw_arena *arena, const tw_paper_input *in)
{
    tw_pages pages = tw_pages_begin(arena, in, "pieces", "Pieces", "Setting-out drawing",
                                    "each kind of piece with all its cuts, their places, sizes and depths");
    int count = in->job->piece_count < PIECES_MOST ? in->job->piece_count : PIECES_MOST;
    for (int i = 0; i < count; i++) add_piece(&pages, i);
    if (count < in->job->piece_count)
        tw_pages_text(&pages, TW_BODY_MM, false, tw_format(pages.arena, "And %d more kinds of piece: job.json has their cuts.", in->job->piece_count - count));
    return tw_pages_finish(&pages);
}

/* ---- on the screen ---- */

#define LEGEND_COLUMN_MM 85.0   // at least so wide
#define LEGEND_LETTER_MM 7.0

static bool one_joint(const tw_drawn_piece *of)
{
    for (int i = 1; i < of->cut_count; i++)
        if (of->cuts[i].joint != of->cuts[0].joint) return false;
    return true;
}

static const char *mark_words(const tw_drawn_piece *of, const tw_cut_mark *mark)
{
    const tw_cut *cut = &of->cuts[mark->cuts[0]];
    const char *count = mark->count > 1 ? tw_format(of->arena, ", %d", mark->count) : "";
    const char *joint = one_joint(of) ? "" : tw_format(of->arena, ", of %s", joint_words(of, cut));
    return tw_format(of->arena, "%s%s%s: on the %s, %s%s", cut->name, count, joint, tw_face_words[cut->face],
        depth_words(of, cut),
                     cut->through && cut->start_mm < SAME_MM ? "" : " deep");
}

/* What the letters mean, in columns from y down. */
static void put_legend(tw_sheet *sheet, const tw_drawn_piece *of, double y, double wide_mm)
{
    int columns = (int)tw_max(1.0, floor(wide_mm / LEGEND_COLUMN_MM)), rows = (of->mark_count + columns - 1) / columns;
    double wide = wide_mm / columns, small = tw_small_print(sheet, TW_SMALL_MM);
    for (int c = 0, i = 0; c < columns; c++) {
        double top = y;
        for (int r = 0; r < rows && i < of->mark_count; r++, i++) {
            tw_draw_bold(sheet, c * wide, top - small, small, TW_ANCHOR_LEFT, of->marks[i].letter);
            top = tw_block_text(sheet, c * wide + LEGEND_LETTER_MM, top, wide - LEGEND_LETTER_MM - 3.0, small, false,
                mark_words(of, &of->marks[i]));
        }
    }
}

tw_sheet *tw_piece_drawing(tw_arena *arena, const tw_paper_input *in, int piece, double wide_mm, double least_text_mm)
{
    const double high = wide_mm < TW_NARROW_MM ? SCREEN_NARROW_HIGH_MM
        : tw_max(SCREEN_LEAST_HIGH_MM, SCREEN_HIGH_PER_WIDE * wide_mm);
    tw_drawn_piece of = tw_drawn_piece_make(arena, in, piece);
    of.least_text_mm = least_text_mm;
    of.nudges = tw_piece_nudges_make(&of);
    drawing d = draw_piece(&of, wide_mm, high, high, 0.0);
    tw_sheet *sheet = tw_scratch(arena);
    tw_draw_sheet(sheet, d.first.sheet, 1.0, 0.0, 0.0);
    if (d.second.sheet) tw_draw_sheet(sheet, d.second.sheet, 1.0, 0.0, -d.first.high - GAP_MM);
    sheet->least_text_mm = least_text_mm;
    put_legend(sheet, &of, tw_sheet_reach(sheet).y0 - GAP_MM, wide_mm);
    return sheet;
}
