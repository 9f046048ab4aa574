// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon, drawn: on the left a section along the tenon, through the middle of its thickness; on the right the
 * end of the tenoned piece against the mortised one, both at one standard scale and level with each other.
 *
 *      body | B B B B B |               left view: u to the right, from the shoulder into the mortised piece;
 *     A A A |----+  B B |    +-----+               y up, from the face edge of the tenoned piece
 *     A A A  A A |  B B |    | +-+ |    right view: z to the right, y up
 *     A A A |----+  B B |    | +-+ |
 *      body | B B B B B |    +-----+
 *
 * Dimensions whose text may have to stand beside its arrows each have a row of their own below the views, upright ones
 * a column of their own to the right of the view, so that no texts meet. */
#include "joint/mortise_tenon.h"

#include <assert.h>
#include <math.h>

#include "joint/views.h"

#define TEXT_MM 2.5
#define SMALL_MM 1.8
#define ROW_MM 7.0       // between dimension lines
#define BODY_MM 14.0     // of paper: how much of the tenoned piece is shown behind its shoulder
#define BREAK_MM 8.0     // of paper: how much of the mortised piece is shown past the tenoned one
#define HATCH_MM 2.2
#define CAPTION_MM 9.0   // height of the two lines above a view

typedef struct span { double low, high, deep; } span;  // of y, and how deep it goes

/* What is drawn, in mm of the joint, and where. */
typedef struct drawing {
    const tw_joint_context *context;
    const tw_joint_plan *plan;
    const tw_mortise *m;
    tw_sheet *sheet;
    double scale, x, y;              // paper: of u = 0, y = 0 in the left view
    double right_x, right_y;         // paper: of z = 0, y = 0 in the right view
    bool   stacked;                  // the right view stands below the left one: in a narrow room
    double low, high;                // y of the mortised piece as shown
    bool   low_real, high_real;      // that side is really its side or end, not a break
    span   tenons[3], mortises[3];   // ascending; the haunch and its groove among them
    int    count;
    double widest_left, widest_right;  // paper: longest text of a dimension of each view
} drawing;

static const char *figure(const drawing *d, const char *word, double length_mm)
{
    const char *bare = tw_mortise_bare(d->context, length_mm);
    return word[0] ? tw_format(d->context->arena, "%s %s", word, bare) : bare;
}

static tw_source of(const drawing *d, const char *key, double shown) { return tw_figure_source(d->context, d->plan, key, shown); }
static tw_source size(const drawing *d, const tw_piece *piece, double shown_mm)
{
    return tw_size_source(d->context, piece, shown_mm);
}

/* ---- what is there ---- */

static void add_span(drawing *d, double middle, double wide, double mortise_wide, double deep, double mortise_deep)
{
    d->tenons[d->count] = (span){ middle - wide / 2.0, middle + wide / 2.0, deep };
    d->mortises[d->count] = (span){ middle - mortise_wide / 2.0, middle + mortise_wide / 2.0, mortise_deep };
    d->count++;
}

static void add_haunch(drawing *d, bool at_face_edge)
{
    const tw_mortise *m = d->m;
    double side = at_face_edge ? -1.0 : 1.0, inner = m->y + side * m->w / 2.0, outer = inner + side * m->haunch_width;
    double at = m->spec->at.items[0].value;
    tw_haunch_groove groove = tw_mortise_groove(m, at);
    double from_end = groove.left ? at : m->b.length_mm - at;
    double mortise_inner = m->y + side * m->wm / 2.0, groove_outer = m->y + side * (from_end - groove.end);
    d->tenons[d->count] = (span){ tw_min(inner, outer), tw_max(inner, outer), m->haunch };
    d->mortises[d->count] = (span){ tw_min(mortise_inner, groove_outer), tw_max(mortise_inner, groove_outer), m->groove_depth };
    d->count++;
}

static void gather_spans(drawing *d)
{
    const tw_mortise *m = d->m;
    bool haunch_low = m->haunched && m->spec->haunch_at.value == 0;
    if (haunch_low) add_haunch(d, true);
    if (m->pair && m->doubled)
        for (int i = -1; i <= 1; i += 2) add_span(d, m->y + i * (m->w + m->gap) / 2.0, m->w, m->wm, m->l, m->depth);
    else add_span(d, m->y, m->w, m->wm, m->l, m->depth);
    if (m->haunched && !haunch_low) add_haunch(d, false);
}

/* How much of the mortised piece stands below and above: its sides when the tenon lies across it, its end beside a
 * haunch, else a break. */
static void find_extent(drawing *d)
{
    const tw_mortise *m = d->m;
    double past = BREAK_MM / d->scale;
    d->low = tw_min(0.0, d->mortises[0].low) - past;
    d->high = tw_max(m->a.width_mm, d->mortises[d->count - 1].high) + past;
    d->low_real = d->high_real = !m->along;
    if (!m->along) {
        d->low = m->y - m->across;
        d->high = d->low + m->e;
    } else if (m->haunched) {
        double at = m->spec->at.items[0].value, from_end = tw_min(at, m->b.length_mm - at);
        bool low = m->spec->haunch_at.value == 0;
        double end = m->y + (low ? -from_end : from_end);
        if (low && end > d->low) { d->low = end; d->low_real = true; }
        if (!low && end < d->high) { d->high = end; d->high_real = true; }
    }
}

/* ---- paper ---- */

static tw_point left_at(const drawing *d, double u, double y) { return (tw_point){ d->x + u * d->scale, d->y + y * d->scale }; }
static tw_point right_at(const drawing *d, double z, double y)
{
    return (tw_point){ d->right_x + z * d->scale, d->right_y + y * d->scale };
}

static void line(const drawing *d, tw_role role, tw_point a, tw_point b) { tw_draw_line(d->sheet, role, a.x, a.y, b.x, b.y); }

static void hatch_box(const drawing *d, double u0, double y0, double u1, double y1, double angle_rad)
{
    tw_point a = left_at(d, u0, y0), b = left_at(d, u1, y1);
    if (b.x - a.x < 0.05 || b.y - a.y < 0.05) return;
    tw_draw_hatch(d->sheet, tw_outline_rectangle(d->sheet->arena, a.x, a.y, b.x, b.y), HATCH_MM, angle_rad);
}

/* A stepped border that runs up from y = low to high: at `base`, and at each span's depth within it. */
static void stepped_border(const drawing *d, const span *spans, double low, double high, double base)
{
    double y = low, u = base;
    for (int i = 0; i < d->count; i++) {
        double enter = tw_max(spans[i].low, y), leave = tw_min(spans[i].high, high);
        if (leave <= enter) continue;
        if (enter > y + 1e-9) {
            line(d, TW_ROLE_CUT, left_at(d, u, y), left_at(d, base, y));
            line(d, TW_ROLE_CUT, left_at(d, base, y), left_at(d, base, enter));
            u = base;
        }
        line(d, TW_ROLE_CUT, left_at(d, u, enter), left_at(d, spans[i].deep, enter));
        bool open = spans == d->mortises && spans[i].deep >= d->m->d;  // it comes out: nothing closes it
        if (!open) line(d, TW_ROLE_CUT, left_at(d, spans[i].deep, enter), left_at(d, spans[i].deep, leave));
        y = leave;
        u = spans[i].deep;
    }
    if (high > y + 1e-9) {
        line(d, TW_ROLE_CUT, left_at(d, u, y), left_at(d, base, y));
        line(d, TW_ROLE_CUT, left_at(d, base, y), left_at(d, base, high));
    }
}

/* ---- the left view ---- */

/* The far side of the mortised piece, open where a mortise comes out. */
static void draw_far_side(const drawing *d)
{
    double deep = d->m->d, y = d->low;
    for (int i = 0; i < d->count; i++) {
        if (d->mortises[i].deep < deep) continue;
        if (d->mortises[i].low > y) line(d, TW_ROLE_CUT, left_at(d, deep, y), left_at(d, deep, d->mortises[i].low));
        y = tw_max(y, d->mortises[i].high);
    }
    if (d->high > y) line(d, TW_ROLE_CUT, left_at(d, deep, y), left_at(d, deep, d->high));
}

static void draw_mortised(const drawing *d)
{
    const tw_mortise *m = d->m;
    double y = d->low, deep = m->d, angle = TW_PI / 4.0;
    for (int i = 0; i < d->count; i++) {
        double from = tw_max(d->mortises[i].low, d->low), to = tw_min(d->mortises[i].high, d->high);
        hatch_box(d, 0.0, y, deep, from, angle);
        hatch_box(d, d->mortises[i].deep, from, deep, to, angle);
        y = to;
    }
    hatch_box(d, 0.0, y, deep, d->high, angle);
    stepped_border(d, d->mortises, d->low, d->high, 0.0);
    draw_far_side(d);
    bool opens_low = d->mortises[0].low <= d->low + 1e-9, opens_high = d->mortises[d->count - 1].high >= d->high - 1e-9;
    line(d, d->low_real ? TW_ROLE_CUT : TW_ROLE_FAINT, left_at(d, opens_low ? d->mortises[0].deep : 0.0, d->low), left_at(d, deep, d->low));
    line(d, d->high_real ? TW_ROLE_CUT : TW_ROLE_FAINT, left_at(d, opens_high ? d->mortises[d->count - 1].deep : 0.0, d->high), left_at(d, deep, d->high));
}

static void draw_tenoned(const drawing *d)
{
    const tw_mortise *m = d->m;
    double body = BODY_MM / d->scale, width = m->a.width_mm;
    hatch_box(d, -body, 0.0, 0.0, width, -TW_PI / 4.0);
    for (int i = 0; i < d->count; i++) hatch_box(d, 0.0, d->tenons[i].low, d->tenons[i].deep, d->tenons[i].high, -TW_PI / 4.0);
    stepped_border(d, d->tenons, 0.0, width, 0.0);
    line(d, TW_ROLE_CUT, left_at(d, -body, 0.0), left_at(d, 0.0, 0.0));
    line(d, TW_ROLE_CUT, left_at(d, -body, width), left_at(d, 0.0, width));
    line(d, TW_ROLE_FAINT, left_at(d, -body, 0.0), left_at(d, -body, width));
    double reach = tw_max(m->d, m->l) + 3.0 / d->scale;
    line(d, TW_ROLE_CENTRE, left_at(d, -body - 2.0 / d->scale, m->y), left_at(d, reach, m->y));
    tw_point low = left_at(d, -body, 0.0), high = left_at(d, -body, width);
    double small = tw_small_print(d->sheet, SMALL_MM), wide = tw_text_width(small, false, "back edge");
    double left = tw_min(low.x, left_at(d, 0.0, 0.0).x - wide - 1.0);  // clear of the shoulder
    tw_draw_text(d->sheet, left, low.y - 1.2 - small, small, TW_ANCHOR_LEFT, "face edge");
    tw_draw_text(d->sheet, left, high.y + 1.2, small, TW_ANCHOR_LEFT, "back edge");
}

/* Holes of the pegs: the cheeks' behind the section, the tenon's in it, nearer to the shoulder. */
static void draw_pegs(const drawing *d)
{
    const tw_mortise *m = d->m;
    if (!tw_mortise_peg_possible(m)) return;
    double along[TW_MORTISE_PEGS_MOST], radius = m->peg / 2.0 * d->scale;
    int count = tw_mortise_peg_spots(m, along);
    for (int i = 0; i < count; i++) {
        tw_point cheek = left_at(d, m->peg_from, m->y + along[i]), tenon = left_at(d, m->peg_from - m->peg_offset, m->y + along[i]);
        tw_outline hole = tw_outline_circle(d->sheet->arena, tenon, radius);
        tw_draw_outline(d->sheet, TW_ROLE_SHADE, hole);
        tw_draw_outline(d->sheet, TW_ROLE_CUT, hole);
        tw_draw_circle(d->sheet, TW_ROLE_HIDDEN, cheek.x, cheek.y, radius);
        line(d, TW_ROLE_CENTRE, (tw_point){ cheek.x, cheek.y - radius - 2.0 }, (tw_point){ cheek.x, cheek.y + radius + 2.0 });
        double past = 2.0 / d->scale, low = tw_min(0.0, m->z - m->across), high = tw_max(m->a.thickness_mm, m->z - m->across + m->e);
        line(d, TW_ROLE_CENTRE, right_at(d, low - past, m->y + along[i]), right_at(d, high + past, m->y + along[i]));
    }
}

static double drawn_low(const drawing *d) { return tw_min(d->low, 0.0); }
static double drawn_high(const drawing *d) { return tw_max(d->high, d->m->a.width_mm); }

static void upright(const drawing *d, tw_point a, tw_point b, int column, const char *text, tw_source source)
{
    tw_draw_source(d->sheet, source);
    tw_draw_dimension(d->sheet, a, b, TW_PI / 2.0, -column * ROW_MM, TEXT_MM, text);
}

/* Level dimensions below a view, each in its row, the shortest nearest. Where not all texts fit between their arrows they stand
 * in one column to the right of all, so that no extension line runs through one. */
#define ROWS_MOST 6
typedef struct row { double from, to; const char *text; tw_source source; } row;
typedef struct rows { row items[ROWS_MOST]; int count; bool all_fit; } rows;

static void add_row(rows *r, double from, double to, const char *text, tw_source source)
{
    assert(r->count < ROWS_MOST);
    double length = to - from;
    if (r->count == 0) r->all_fit = true;
    r->all_fit = r->all_fit && length > tw_text_width(TEXT_MM, false, text) + TEXT_MM && length > 3.0 * TEXT_MM;
    int i = r->count++;
    for (; i > 0 && r->items[i - 1].to - r->items[i - 1].from > length; i--) r->items[i] = r->items[i - 1];
    r->items[i].from = from;
    r->items[i].to = to;
    r->items[i].text = text;
    r->items[i].source = source;
}

static void draw_rows(const drawing *d, const rows *r, double y)
{
    double column = -INFINITY;
    for (int i = 0; i < r->count; i++) column = tw_max(column, r->items[i].to + 1.2 * TEXT_MM + 0.5 * TEXT_MM);
    for (int i = 0; i < r->count; i++) {
        double off = (i + 1) * ROW_MM, to = r->items[i].to;
        const char *text = r->items[i].text;
        tw_draw_source(d->sheet, r->items[i].source);
        tw_draw_dimension(d->sheet, (tw_point){ r->items[i].from, y }, (tw_point){ to, y }, 0.0, -off, TEXT_MM, r->all_fit ? text : "");
        if (r->all_fit) continue;
        tw_draw_line(d->sheet, TW_ROLE_DIMENSION, to, y - off, column + tw_text_width(TEXT_MM, false, text), y - off);
        tw_draw_text(d->sheet, column, y - off + 0.4 * TEXT_MM, TEXT_MM, TW_ANCHOR_LEFT, text);
    }
}

/* Of a tenon, else of its haunch. */
static tw_source width_of(const drawing *d, double shown_mm)
{
    tw_source source = of(d, "tenon_width", shown_mm);
    return source.why ? source : of(d, "haunch_width", shown_mm);
}

static void measure_left(const drawing *d)
{
    const tw_mortise *m = d->m;
    double side = tw_max(m->d, m->l), low = left_at(d, 0.0, drawn_low(d)).y, s = d->scale;
    rows r = { .count = 0 };
    if (m->haunched) add_row(&r, d->x, d->x + m->haunch * s, figure(d, "haunch", m->haunch), of(d, "haunch_depth", m->haunch));
    if (tw_mortise_peg_possible(m)) add_row(&r, d->x, d->x + m->peg_from * s, figure(d, "peg", m->peg_from),
        of(d, "peg_from_shoulder", m->peg_from));
    add_row(&r, d->x, d->x + m->l * s, figure(d, "tenon", m->l), of(d, "tenon_length", m->l));
    if (!m->through) add_row(&r, d->x, d->x + m->depth * s, figure(d, "mortise", m->depth), of(d, "mortise_depth", m->depth));
    if (!m->through || m->proud > 0.0) add_row(&r, d->x, d->x + m->d * s, figure(d, "piece", m->d), size(d, m->into, m->d));
    draw_rows(d, &r, low);
    int column = 0;
    for (int i = 0; i < d->count; i++)  // the haunch and each tenon in a column of its own
        upright(d, left_at(d, side, d->tenons[i].low), left_at(d, side, d->tenons[i].high), ++column,
            figure(d, "", d->tenons[i].high - d->tenons[i].low), width_of(d, d->tenons[i].high - d->tenons[i].low));
    if (m->pair && m->doubled)
        upright(d, left_at(d, side, d->tenons[0].high), left_at(d, side, d->tenons[1].low), ++column, figure(d, "", m->gap),
            of(d, "gap", m->gap));
    double body = -BODY_MM / d->scale;
    upright(d, left_at(d, body, 0.0), left_at(d, body, m->a.width_mm), -1, figure(d, "", m->a.width_mm),
        size(d, m->tenon, m->a.width_mm));
}

/* ---- the right view ---- */

static void draw_tenon_end(const drawing *d, double y, double z)
{
    const tw_mortise *m = d->m;
    tw_point low = right_at(d, z - m->t / 2.0, y - m->w / 2.0), high = right_at(d, z + m->t / 2.0, y + m->w / 2.0);
    double radius = m->round ? tw_min(m->t, m->w) / 2.0 * d->scale : 0.0;
    tw_outline end = tw_outline_rounded(d->sheet->arena, low.x, low.y, high.x, high.y, radius);
    tw_draw_hatch(d->sheet, end, HATCH_MM, -TW_PI / 4.0);
    tw_draw_outline(d->sheet, TW_ROLE_CUT, end);
}

static double side_low(const tw_mortise *m) { return m->along ? m->z - m->across : 0.0; }
static double side_high(const tw_mortise *m) { return m->along ? m->z - m->across + m->e : m->a.thickness_mm; }

static void draw_right(const drawing *d)
{
    const tw_mortise *m = d->m;
    tw_point a = right_at(d, 0.0, 0.0), b = right_at(d, m->a.thickness_mm, m->a.width_mm);
    tw_draw_box(d->sheet, TW_ROLE_VISIBLE, a.x, a.y, b.x, b.y);
    double dy = m->pair && m->doubled ? (m->w + m->gap) / 2.0 : 0.0, dz = m->pair && !m->doubled ? (m->t + m->gap) / 2.0 : 0.0;
    draw_tenon_end(d, m->y - dy, m->z - dz);
    if (m->pair) draw_tenon_end(d, m->y + dy, m->z + dz);
    if (m->haunched) {
        const span *haunch = m->spec->haunch_at.value == 0 ? &d->tenons[0] : &d->tenons[d->count - 1];
        tw_point low = right_at(d, m->z - m->t / 2.0, haunch->low), high = right_at(d, m->z + m->t / 2.0, haunch->high);
        tw_draw_box(d->sheet, TW_ROLE_VISIBLE, low.x, low.y, high.x, high.y);
    }
    if (m->along) {
        line(d, TW_ROLE_FAINT, right_at(d, side_low(m), d->low), right_at(d, side_low(m), d->high));
        line(d, TW_ROLE_FAINT, right_at(d, side_high(m), d->low), right_at(d, side_high(m), d->high));
    } else {
        double past = BREAK_MM / 2.0 / d->scale;
        line(d, TW_ROLE_FAINT, right_at(d, -past, d->low), right_at(d, m->a.thickness_mm + past, d->low));
        line(d, TW_ROLE_FAINT, right_at(d, -past, d->high), right_at(d, m->a.thickness_mm + past, d->high));
    }
    double past = 3.0 / d->scale;
    line(d, TW_ROLE_CENTRE, right_at(d, m->z, drawn_low(d) - past), right_at(d, m->z, drawn_high(d) + past));
}

static double half_across(const tw_mortise *m) { return (m->along ? m->tm + m->over_t - m->t : m->wm + m->over_w - m->w) / 2.0; }
static bool walls_alike(const tw_mortise *m) { return fabs(2.0 * m->across - m->e) < 1e-6; }

static void measure_walls(const drawing *d, rows *r)
{
    const tw_mortise *m = d->m;
    double half = half_across(m), low_wall = m->across - half, high_wall = m->e - m->across - half;
    if (m->along) {
        add_row(r, right_at(d, side_low(m), 0.0).x, right_at(d, m->z - half, 0.0).x,
            figure(d, walls_alike(m) ? "each wall" : "wall", low_wall), of(d, "wall_low", low_wall));
        if (!walls_alike(m)) add_row(r, right_at(d, m->z + half, 0.0).x, right_at(d, side_high(m), 0.0).x,
            figure(d, "wall", high_wall), of(d, "wall_high", high_wall));
        double high = drawn_high(d);
        tw_draw_source(d->sheet, size(d, m->into, m->e));
        tw_draw_dimension(d->sheet, right_at(d, side_low(m), high), right_at(d, side_high(m), high), 0.0, ROW_MM, TEXT_MM, figure(d, "piece", m->e));
        return;
    }
    double side = m->a.thickness_mm + BREAK_MM / 2.0 / d->scale;
    upright(d, right_at(d, side, d->low), right_at(d, side, m->y - half), 1, figure(d, "", low_wall),
        of(d, "wall_low", low_wall));
    upright(d, right_at(d, side, m->y + half), right_at(d, side, d->high), 2, figure(d, "", high_wall),
        of(d, "wall_high", high_wall));
    upright(d, right_at(d, side, d->low), right_at(d, side, d->high), 3, figure(d, "", m->e), size(d, m->into, m->e));
}

static void measure_right(const drawing *d)
{
    const tw_mortise *m = d->m;
    double first = m->z - (m->pair && !m->doubled ? (m->t + m->gap) / 2.0 : 0.0);
    rows r = { .count = 0 };
    add_row(&r, right_at(d, first - m->t / 2.0, 0.0).x, right_at(d, first + m->t / 2.0, 0.0).x,
        figure(d, m->pair && !m->doubled ? "each tenon" : "tenon", m->t), of(d, "tenon_thickness", m->t));
    if (m->pair && !m->doubled) add_row(&r, right_at(d, first + m->t / 2.0, 0.0).x,
        right_at(d, first + m->t / 2.0 + m->gap, 0.0).x, figure(d, "gap", m->gap), of(d, "gap", m->gap));
    add_row(&r, right_at(d, 0.0, 0.0).x, right_at(d, m->a.thickness_mm, 0.0).x, figure(d, "piece", m->a.thickness_mm),
        size(d, m->tenon, m->a.thickness_mm));
    measure_walls(d, &r);
    draw_rows(d, &r, right_at(d, 0.0, drawn_low(d)).y);
}

/* ---- layout ---- */

/* The longest text that any dimension of a view may have, and air. */
static double widest_of(const char *const texts[], size_t count)
{
    double widest = 0.0;
    for (size_t i = 0; i < count; i++) widest = tw_max(widest, tw_text_width(TEXT_MM, false, texts[i]));
    return widest + TEXT_MM;
}

static double widest_left(const drawing *d)
{
    const tw_mortise *m = d->m;
    const char *const texts[] = { figure(d, "tenon", m->l), figure(d, m->through ? "" : "mortise", m->depth), figure(d, "piece", m->d),
                                  figure(d, m->haunched ? "haunch" : "", m->haunch), figure(d, m->pegged ? "peg" : "", m->peg_from) };
    return widest_of(texts, sizeof texts / sizeof *texts);
}

static double widest_right(const drawing *d)
{
    const tw_mortise *m = d->m;
    double half = half_across(m);
    bool above = m->pair && !m->doubled;
    const char *const texts[] = { figure(d, above ? "each tenon" : "tenon", m->t), figure(d, "gap", m->gap), figure(d, "piece", m->a.thickness_mm),
        figure(d, walls_alike(m) ? "each wall" : "wall", m->across - half), figure(d, "wall", m->e - m->across - half), figure(d, "piece", m->e) };
    return widest_of(texts, sizeof texts / sizeof *texts);
}

// second: from one view down to a stacked one
typedef struct layout { double width, height, left, gap, right_view, up_from_low, second; } layout;

/* Sizes on paper at the drawing's scale. A text beside its arrows starts one arrow past the far end. */
static layout lay_out(const drawing *d)
{
    const tw_mortise *m = d->m;
    double arrow = 1.2 * TEXT_MM, beside = d->widest_left + 1.5 * arrow, beside_right = d->widest_right + 1.5 * arrow, columns = (d->count + 1) * ROW_MM;
    layout l = { .left = BODY_MM + 2.0 * ROW_MM };
    double section = tw_max(m->d, m->l) * d->scale, past = m->along ? 0.0 : BREAK_MM / 2.0;
    double before = -tw_min(0.0, side_low(m)) * d->scale + past;
    l.gap = tw_max(columns, beside) + before + 2.0 * arrow + 1.0;  // and the tails of outside arrows of the right view
    l.right_view = tw_max(side_high(m), m->a.thickness_mm) * d->scale + past + (m->along ? beside_right : tw_max(beside_right, 3.0 * ROW_MM + TEXT_MM));
    l.width = l.left + section + l.gap + l.right_view;
    int right_rows = 2 + (m->pair && !m->doubled) + (m->along ? (walls_alike(m) ? 1 : 2) : 0), left_rows = 3 + m->haunched + m->pegged - m->through;
    l.up_from_low = tw_max(left_rows, right_rows) * ROW_MM + 3.0;
    double above = CAPTION_MM + (m->along ? ROW_MM + TEXT_MM + 1.0 : beside_right);
    l.height = l.up_from_low + (drawn_high(d) - drawn_low(d)) * d->scale + above;
    if (d->stacked) {
        l.gap = before + 2.0 * arrow + 1.0;  // the tails alone, from the left border
        l.second = l.height;
        l.width = tw_max(l.left + section + tw_max(columns, beside), l.gap + l.right_view);
        l.height = 2.0 * l.second;
    }
    return l;
}

static void caption(const drawing *d, double x, double y, double width_mm, const char *what, const char *whose)
{
    tw_arena *arena = d->sheet->arena;
    tw_draw_bold(d->sheet, x, y, TEXT_MM, TW_ANCHOR_LEFT, tw_text_fitted(arena, width_mm, TEXT_MM, true, what));
    tw_draw_text(d->sheet, x, y - 1.7 * TEXT_MM, TEXT_MM, TW_ANCHOR_LEFT, tw_text_fitted(arena, width_mm, TEXT_MM, false, whose));
}

static void draw_captions(const drawing *d, const layout *l, tw_box room)
{
    const tw_mortise *m = d->m;
    tw_arena *arena = d->context->arena;
    double top = room.y1 - TEXT_MM - 1.0, left = room.x0 + 1.0, right = d->right_x - (l->gap - ROW_MM) / 2.0;
    right = d->stacked ? left : tw_max(right, left + 30.0);
    caption(d, left, top, d->stacked ? room.x1 - left : right - left - 4.0, "Section along the tenon",
        tw_format(arena, "%s into %s", m->tenon->name, m->into->name));
    caption(d, right, top - l->second, room.x1 - right - 1.0,
        m->pair ? (m->doubled ? "Ends of the double tenon" : "Ends of the twin tenons") : "End of the tenon",
        tw_format(arena, "against %s", m->into->name));
}

const char *tw_mortise_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    const tw_mortise *m = plan->own;
    if (!m || !tw_mortise_possible(m)) {
        tw_draw_paragraph(sheet, room.x0 + 5.0, room.y1 - 10.0, room.x1 - room.x0 - 10.0, TEXT_MM, false, "No drawing: the findings say why this joint cannot be made.");
        return "not to scale";
    }
    if (m->lean.leans) return tw_mortise_lean_draw(context, m, sheet, room);
    drawing d = { .context = context, .plan = plan, .m = m, .sheet = sheet, .stacked = room.x1 - room.x0 < TW_VIEW_STACKED_MM };
    gather_spans(&d);
    d.widest_left = widest_left(&d);
    d.widest_right = widest_right(&d);
    layout l = { 0 };
    const tw_view_scale *scale = tw_view_scales(sheet);
    for (;; scale++) {
        d.scale = scale->factor;
        find_extent(&d);
        l = lay_out(&d);
        if ((l.width <= room.x1 - room.x0 && l.height <= room.y1 - room.y0) || scale[1].factor == 0.0) break;
    }
    d.x = room.x0 + tw_max(0.0, (room.x1 - room.x0 - l.width) / 2.0) + l.left;
    d.y = room.y0 + tw_max(0.0, (room.y1 - room.y0 - l.height) / 2.0) + l.up_from_low - drawn_low(&d) * d.scale;
    d.right_x = d.x + tw_max(m->d, m->l) * d.scale + l.gap;
    d.right_y = d.y;
    if (d.stacked) {
        d.y = room.y1 - l.second + l.up_from_low - drawn_low(&d) * d.scale;
        d.right_y = d.y - l.second;
        d.right_x = room.x0 + l.gap;
    }
    draw_mortised(&d);
    draw_tenoned(&d);
    measure_left(&d);
    draw_right(&d);
    draw_pegs(&d);
    measure_right(&d);
    tw_draw_source(sheet, (tw_source){ 0 });
    draw_captions(&d, &l, room);
    return scale->text;
}
