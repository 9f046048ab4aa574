// SPDX-License-Identifier: GPL-3.0-or-later
/* Room on paper, from left to right, of one view: free border, outlines, then whichever is wider of the columns of upright
 * dimensions and the longest level text beside its arrows; from below: rows, border, outlines, border, and the longest
 * upright text beside its arrows, then the caption.
 *
 * Rows and columns: the shortest stands nearest, unless another order has fewer extension lines of farther ones running
 * through the texts of nearer ones between their arrows. A text beside its arrows stands out past such lines. */
#include "joint/views.h"

#include <assert.h>
#include <math.h>

#include "job/path.h"

#define ROW_MM 7.0
#define HATCH_MM 2.2
#define CAPTION_MM 10.0  // two lines and air
#define GAP_MM 6.0       // between the views

static const tw_view_scale paper_scales[] = {
    { 2.0, "2:1" }, { 1.0, "1:1" }, { 0.5, "1:2" }, { 0.2, "1:5" }, { 0.1, "1:10" }, { 0.05, "1:20" }, { 0.02, "1:50" },
        { 0.01, "1:100" }, { 0.0, NULL } };
static const tw_view_scale screen_scales[] = {
    { 2.0, "2:1" }, { 1.0, "1:1" }, { 1.0 / 1.5, "1:1.5" }, { 0.5, "1:2" }, { 0.4, "1:2.5" }, { 1.0 / 3.0, "1:3" },
        { 0.25, "1:4" }, { 0.2, "1:5" }, { 1.0 / 6.0, "1:6" }, { 0.125, "1:8" },
    { 0.1, "1:10" }, { 1.0 / 15.0, "1:15" }, { 0.05, "1:20" }, { 1.0 / 30.0, "1:30" }, { 0.02, "1:50" }, { 0.01, "1:100" },
        { 0.0, NULL } };

const tw_view_scale *tw_view_scales(const tw_sheet *sheet) { return sheet->least_text_mm > 0.0 ? screen_scales : paper_scales; }

/* ---- what is measured ---- */

static void add_measure(tw_view_measure *list, int *count, tw_view_measure added)
{
    assert(*count < TW_VIEW_MEASURES_MOST && added.to > added.from && added.text);
    int i = (*count)++;
    for (; i > 0 && list[i - 1].to - list[i - 1].from > added.to - added.from; i--) list[i] = list[i - 1];
    list[i] = added;  // shortest first
}

void tw_view_row(tw_joint_view *view, double from, double to, const char *text, tw_source source)
{
    add_measure(view->rows, &view->row_count, (tw_view_measure){ from, to, text, source });
}

void tw_view_column(tw_joint_view *view, double from, double to, const char *text, tw_source source)
{
    add_measure(view->columns, &view->column_count, (tw_view_measure){ from, to, text, source });
}

static double arrow_mm(void) { return 1.2 * TW_VIEW_TEXT_MM; }

/* A text between its arrows as tw_draw_dimension() sets it, with a little to spare. */
static bool fits_between(const tw_view_measure *m, double scale)
{
    double length = (m->to - m->from) * scale;
    return length > tw_text_width(TW_VIEW_TEXT_MM, false, m->text) + 1.1 * TW_VIEW_TEXT_MM && length > 2.5 * arrow_mm();
}

/* Does a line at `at` run through a text that begins at `from`, both on paper from where the joint's 0 is? */
static bool text_meets(const tw_view_measure *m, double from, double at)
{
    const double air = 0.5 * TW_VIEW_TEXT_MM;
    return at > from - air && at < from + tw_text_width(TW_VIEW_TEXT_MM, false, m->text) + air;
}

/* Where the text begins when nothing is in its way. */
static double usual_start(const tw_view_measure *m, double scale)
{
    double length = (m->to - m->from) * scale;
    if (fits_between(m, scale)) return m->from * scale + (length - tw_text_width(TW_VIEW_TEXT_MM, false, m->text)) / 2.0;
    return m->to * scale + arrow_mm() + 0.5 * TW_VIEW_TEXT_MM;
}

typedef struct line_order { int at[TW_VIEW_MEASURES_MOST]; } line_order;  // indices into the list, nearest first

static bool is_crossed(const tw_view_measure *list, int count, double scale, const line_order *order, int nth, double start)
{
    const tw_view_measure *m = &list[order->at[nth]];
    for (int far_ = nth + 1; far_ < count; far_++)
        if (text_meets(m, start, list[order->at[far_]].from * scale) || text_meets(m, start, list[order->at[far_]].to * scale)) return true;
    return false;
}

/* A text between its arrows stands in their middle, or as near to it as the extension lines of farther dimensions let it;
 * when they leave it no room there, in the middle. */
static double between_start(const tw_view_measure *list, int count, double scale, const line_order *order, int nth)
{
    const tw_view_measure *m = &list[order->at[nth]];
    double usual = usual_start(m, scale), wide = tw_text_width(TW_VIEW_TEXT_MM, false, m->text), air = 0.6 * TW_VIEW_TEXT_MM, best = INFINITY;
    if (!is_crossed(list, count, scale, order, nth, usual)) return usual;
    for (int far_ = nth + 1; far_ < count; far_++)
        for (int end = 0; end < 2; end++) {
            double at = (end ? list[order->at[far_]].to : list[order->at[far_]].from) * scale;
            double starts[2] = { at + air, at - air - wide };
            for (int i = 0; i < 2; i++) {
                bool within = starts[i] > m->from * scale + arrow_mm() && starts[i] + wide < m->to * scale - arrow_mm();
                if (within && fabs(starts[i] - usual) < fabs(best - usual) && !is_crossed(list, count, scale, order, nth, starts[i])) best = starts[i];
            }
        }
    return isfinite(best) ? best : usual;
}

/* How many texts of nearer dimensions, between their arrows, have extension lines of farther ones running through them. */
static int lines_through_texts(const tw_view_measure *list, int count, double scale, const line_order *order)
{
    int texts = 0;
    for (int i = 0; i < count; i++)
        texts += fits_between(&list[order->at[i]], scale) && is_crossed(list, count, scale, order, i, between_start(list, count, scale, order, i));
    return texts;
}

/* The next order in the way a dictionary has them; false after the last. */
static bool next_order(line_order *order, int count)
{
    int i = count - 2, j = count - 1;
    while (i >= 0 && order->at[i] > order->at[i + 1]) i--;
    if (i < 0) return false;
    while (order->at[j] < order->at[i]) j--;
    int swapped = order->at[i];
    order->at[i] = order->at[j];
    order->at[j] = swapped;
    for (int low = i + 1, high = count - 1; low < high; low++, high--) {
        swapped = order->at[low];
        order->at[low] = order->at[high];
        order->at[high] = swapped;
    }
    return true;
}

/* The first order with the fewest lines through texts; the shortest stands nearest wherever that costs none. At most 720. */
static line_order order_of(const tw_view_measure *list, int count, double scale)
{
    line_order order, best;
    for (int i = 0; i < TW_VIEW_MEASURES_MOST; i++) order.at[i] = i;
    best = order;
    int least = lines_through_texts(list, count, scale, &order);
    while (least > 0 && next_order(&order, count)) {
        int lines = lines_through_texts(list, count, scale, &order);
        if (lines >= least) continue;
        least = lines;
        best = order;
    }
    return best;
}

/* Where the text of the one that is nth from the outlines begins: beside its arrows it gives way to the extension lines of
 * farther ones. */
static double text_start(const tw_view_measure *list, int count, double scale, const line_order *order, int nth)
{
    const tw_view_measure *m = &list[order->at[nth]];
    if (fits_between(m, scale)) return between_start(list, count, scale, order, nth);
    double start = usual_start(m, scale);
    for (bool moved = true; moved;) {
        moved = false;
        for (int far_ = nth + 1; far_ < count; far_++)
            for (int end = 0; end < 2; end++) {
                double at = (end ? list[order->at[far_]].to : list[order->at[far_]].from) * scale;
                if (!text_meets(m, start, at)) continue;
                start = at + 0.6 * TW_VIEW_TEXT_MM;  // a little more than it asks: each step leaves that line behind
                moved = true;
            }
    }
    return start;
}

/* How far texts beside their arrows stand out past `edge`, on paper. */
static double standing_out(const tw_view_measure *list, int count, double scale, double edge)
{
    double most = 0.0;
    line_order order = order_of(list, count, scale);
    for (int i = 0; i < count; i++) {
        const tw_view_measure *m = &list[order.at[i]];
        if (fits_between(m, scale)) continue;
        most = tw_max(most, text_start(list, count, scale, &order, i) - edge * scale + tw_text_width(TW_VIEW_TEXT_MM, false, m->text) + 1.0);
    }
    return most;
}

/* Arrows turned outward have tails before the first point too. */
static double standing_before(const tw_view_measure *list, int count, double scale, double edge)
{
    double most = 0.0;
    for (int i = 0; i < count; i++)
        if (!fits_between(&list[i], scale)) most = tw_max(most, (edge - list[i].from) * scale + 2.0 * arrow_mm());
    return most;
}

/* ---- room ---- */

typedef struct need { double left, right, below, above, width, height; } need;  // around the outlines, and in all

/* Tails of columns whose arrows are turned outward hang below the outlines, where texts of rows that stand out would meet them:
 * then the rows begin below the tails. */
static double rows_drop(const tw_joint_view *view)
{
    bool out = standing_out(view->rows, view->row_count, view->scale, view->reach.x1) > view->round_mm;
    return out ? tw_max(0.0, standing_before(view->columns, view->column_count, view->scale, view->reach.y0) - view->round_mm - ROW_MM + 1.6 * TW_VIEW_TEXT_MM) : 0.0;
}

static need need_of(const tw_joint_view *view)
{
    double s = view->scale;
    need n = { .left = view->round_mm, .below = view->round_mm + view->row_count * ROW_MM + rows_drop(view) + 2.0 };
    n.left = tw_max(n.left, standing_before(view->rows, view->row_count, s, view->reach.x0));
    n.below = tw_max(n.below, standing_before(view->columns, view->column_count, s, view->reach.y0));
    double columns = view->column_count * ROW_MM + (view->column_count ? 2.0 : 0.0);
    n.right = view->round_mm + tw_max(tw_max(columns, view->right_mm), standing_out(view->rows, view->row_count, s, view->reach.x1));
    n.above = view->round_mm + tw_max(2.0, standing_out(view->columns, view->column_count, s, view->reach.y1)) + CAPTION_MM;
    n.width = n.left + (view->reach.x1 - view->reach.x0) * s + n.right;
    n.height = n.below + (view->reach.y1 - view->reach.y0) * s + n.above;
    return n;
}

static double caption_width(const tw_joint_view *v)
{
    return tw_max(tw_text_width(TW_VIEW_TEXT_MM, true, v->title) + tw_text_width(TW_VIEW_TEXT_MM, true, ", 1:100"), tw_text_width(TW_VIEW_TEXT_MM, false, v->whose)) + 2.0;
}

/* Each over its view; the right one begins farther left when it needs that and the left one leaves it. */
static void place_captions(tw_joint_view views[2], tw_box room)
{
    double left_end = tw_min(views[0].caption_x + caption_width(&views[0]), (room.x0 + room.x1) / 2.0);
    views[1].caption_x = tw_max(left_end + GAP_MM / 2.0, tw_min(views[1].caption_x, room.x1 - caption_width(&views[1])));
    views[0].caption_wide_mm = views[1].caption_x - GAP_MM / 2.0 - views[0].caption_x;
    views[1].caption_wide_mm = room.x1 - views[1].caption_x;
}

const char *tw_views_place(tw_joint_view views[2], tw_arena *arena, tw_box room)
{
    const tw_view_scale *scales = tw_view_scales(views[0].sheet);
    double width = room.x1 - room.x0, height = room.y1 - room.y0;
    if (width < TW_VIEW_STACKED_MM) return tw_views_stack(views, arena, room);
    int at[2] = { 0, 0 };
    need needs[2];
    for (;;) {
        for (int i = 0; i < 2; i++) {
            views[i].scale = scales[at[i]].factor;
            views[i].scale_text = scales[at[i]].text;
            needs[i] = need_of(&views[i]);
        }
        bool high[2] = { needs[0].height > height, needs[1].height > height }, wide = needs[0].width + GAP_MM + needs[1].width > width;
        if (!high[0] && !high[1] && !wide) break;
        int coarser = high[0] ? 0 : high[1] ? 1 : needs[0].width >= needs[1].width ? 0 : 1;
        if (scales[at[coarser] + 1].factor == 0.0) coarser = 1 - coarser;
        if (scales[at[coarser] + 1].factor == 0.0) break;
        at[coarser]++;
    }
    double spare = tw_max(0.0, width - needs[0].width - GAP_MM - needs[1].width), x = room.x0 + spare / 3.0;
    for (int i = 0; i < 2; i++) {
        tw_joint_view *v = &views[i];
        v->x = x + needs[i].left - v->reach.x0 * v->scale;
        v->y = room.y1 - needs[i].above - v->reach.y1 * v->scale;
        v->caption_x = x;
        v->caption_y = room.y1 - TW_VIEW_TEXT_MM - 1.0;
        x += needs[i].width + GAP_MM + spare / 3.0;
    }
    place_captions(views, room);
    return at[0] == at[1] ? scales[at[0]].text : tw_format(arena, "%s, %s", scales[at[0]].text, scales[at[1]].text);
}

tw_box tw_view_room(tw_box room, double most_high_mm)
{
    if (room.x1 - room.x0 >= TW_VIEW_STACKED_MM) room.y0 = tw_max(room.y0, room.y1 - most_high_mm);
    return room;
}

const char *tw_views_stack(tw_joint_view views[2], tw_arena *arena, tw_box room)
{
    const tw_view_scale *scales = tw_view_scales(views[0].sheet);
    double width = room.x1 - room.x0, height = room.y1 - room.y0 - GAP_MM, y = room.y1;
    int at[2] = { 0, 0 };
    need needs[2];
    for (;;) {
        int coarser = -1;
        for (int i = 0; i < 2; i++) {
            views[i].scale = scales[at[i]].factor;
            views[i].scale_text = scales[at[i]].text;
            needs[i] = need_of(&views[i]);
            if (needs[i].width > width) coarser = i;
        }
        if (coarser < 0 && needs[0].height + needs[1].height > height) coarser = needs[0].height >= needs[1].height ? 0 : 1;
        if (coarser < 0) break;
        if (scales[at[coarser] + 1].factor == 0.0) coarser = 1 - coarser;
        if (scales[at[coarser] + 1].factor == 0.0) break;
        at[coarser]++;
    }
    for (int i = 0; i < 2; i++) {
        tw_joint_view *v = &views[i];
        v->x = room.x0 + needs[i].left - v->reach.x0 * v->scale;
        v->y = y - needs[i].above - v->reach.y1 * v->scale;
        v->caption_x = room.x0;
        v->caption_y = y - TW_VIEW_TEXT_MM - 1.0;
        v->caption_wide_mm = width;
        y -= needs[i].height + GAP_MM;
    }
    return at[0] == at[1] ? scales[at[0]].text : tw_format(arena, "%s, %s", scales[at[0]].text, scales[at[1]].text);
}

/* ---- where a figure comes from ---- */

#define SAME_FIGURE 1e-6  // mm or radians: far finer than any figure is written

tw_source tw_figure_source(const tw_joint_context *context, const tw_joint_plan *plan, const char *key, double shown)
{
    const tw_figure *figure = tw_plan_find(plan, key);
    if (!figure || fabs(figure->value - shown) > SAME_FIGURE) return (tw_source){ 0 };
    const char *list = plan->profile ? "profiles" : "joints", *name = plan->joint->name;
    const char *said = figure->row ? tw_path_text(context->arena, (const char *const[]){ list, name, figure->row->name }, 3)
        : NULL;
    return (tw_source){ said, tw_path_text(context->arena, (const char *const[]){ list, name, key }, 3) };
}

tw_source tw_size_source(const tw_joint_context *context, const tw_piece *piece, double shown_mm)
{
    const struct { const char *key; double mm; } sizes[] =
        { { "length", piece->length.value }, { "width", piece->width.value }, { "thickness", piece->thickness.value } };
    const char *key = NULL;
    for (int i = 0; i < 3; i++) {
        if (fabs(sizes[i].mm - shown_mm) > SAME_FIGURE) continue;
        if (key) return (tw_source){ 0 };
        key = sizes[i].key;
    }
    if (!key) return (tw_source){ 0 };
    const char *path = tw_path_text(context->arena, (const char *const[]){ "pieces", piece->name, key }, 3);
    return (tw_source){ path, path };
}

/* ---- marks ---- */

tw_point tw_view_at(const tw_joint_view *view, double a, double b) { return (tw_point){ view->x + a * view->scale, view->y + b * view->scale }; }

void tw_view_line(const tw_joint_view *view, tw_role role, double a0, double b0, double a1, double b1)
{
    tw_point from = tw_view_at(view, a0, b0), to = tw_view_at(view, a1, b1);
    tw_draw_line(view->sheet, role, from.x, from.y, to.x, to.y);
}

void tw_view_hatch(const tw_joint_view *view, double a0, double b0, double a1, double b1, double angle_rad)
{
    tw_point low = tw_view_at(view, a0, b0), high = tw_view_at(view, a1, b1);
    if (high.x - low.x < 0.05 || high.y - low.y < 0.05) return;
    tw_draw_hatch(view->sheet, tw_outline_rectangle(view->sheet->arena, low.x, low.y, high.x, high.y), HATCH_MM, angle_rad);
}

void tw_view_path(const tw_joint_view *view, tw_role role, const tw_point *points, int count)
{
    for (int i = 0; i + 1 < count; i++) tw_view_line(view, role, points[i].x, points[i].y, points[i + 1].x, points[i + 1].y);
}

static void draw_rows(const tw_joint_view *v)
{
    line_order order = order_of(v->rows, v->row_count, v->scale);
    for (int i = 0; i < v->row_count; i++) {
        const tw_view_measure *m = &v->rows[order.at[i]];
        double text_from = text_start(v->rows, v->row_count, v->scale, &order, i) - m->from * v->scale;
        tw_draw_source(v->sheet, m->source);
        tw_draw_dimension_text_at(v->sheet, tw_view_at(v, m->from, v->reach.y0), tw_view_at(v, m->to, v->reach.y0), 0.0, -(i + 1) * ROW_MM - v->round_mm - rows_drop(v), TW_VIEW_TEXT_MM,
                                  m->text, text_from);
    }
}

static void draw_columns(const tw_joint_view *v)
{
    line_order order = order_of(v->columns, v->column_count, v->scale);
    for (int i = 0; i < v->column_count; i++) {
        const tw_view_measure *m = &v->columns[order.at[i]];
        double text_from = text_start(v->columns, v->column_count, v->scale, &order, i) - m->from * v->scale;
        tw_draw_source(v->sheet, m->source);
        tw_draw_dimension_text_at(v->sheet, tw_view_at(v, v->reach.x1, m->from), tw_view_at(v, v->reach.x1, m->to), TW_PI / 2.0, -(i + 1) * ROW_MM - v->round_mm, TW_VIEW_TEXT_MM,
                                  m->text, text_from);
    }
}

static void draw_caption(const tw_joint_view *v)
{
    tw_arena *arena = v->sheet->arena;
    const char *title = tw_format(arena, "%s, %s", v->title, v->scale_text);
    tw_draw_bold(v->sheet, v->caption_x, v->caption_y, TW_VIEW_TEXT_MM, TW_ANCHOR_LEFT, tw_text_fitted(arena, v->caption_wide_mm, TW_VIEW_TEXT_MM, true, title));
    tw_draw_text(v->sheet, v->caption_x, v->caption_y - 1.7 * TW_VIEW_TEXT_MM, TW_VIEW_TEXT_MM, TW_ANCHOR_LEFT,
                 tw_text_fitted(arena, v->caption_wide_mm, TW_VIEW_TEXT_MM, false, v->whose));
}

void tw_views_measure(const tw_joint_view views[2])
{
    for (int i = 0; i < 2; i++) {
        draw_rows(&views[i]);
        draw_columns(&views[i]);
        tw_draw_source(views[i].sheet, (tw_source){ 0 });
        draw_caption(&views[i]);
    }
}

const char *tw_view_none(tw_sheet *sheet, tw_box room)
{
    tw_draw_paragraph(sheet, room.x0 + 5.0, room.y1 - 10.0, room.x1 - room.x0 - 10.0, TW_VIEW_TEXT_MM, false,
                      "No drawing: the findings say why this joint cannot be made.");
    return "not to scale";
}
