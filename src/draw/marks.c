// SPDX-License-Identifier: GPL-3.0-or-later
/* The display list: items are added at the end and stay in that order; later ones lie over earlier ones.
 *
 * An edge with bulge b and chord c is an arc of included angle 4 atan b and radius c (1 + b^2) / (4 |b|); its centre lies
 * c (1 - b^2) / (4 b) from the middle of the chord, to the left of the direction of travel (check 9-09). */
#include "draw/draw.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define STRAIGHT_MM 1e-9  // an arc that leaves its chord by less (b c / 2) is a line: its centre would be lost in rounding

tw_sheet *tw_sheet_new(tw_arena *arena, const char *name, const char *title, double width_mm, double height_mm)
{
    assert(width_mm > 0 && height_mm > 0 && isfinite(width_mm) && isfinite(height_mm));
    tw_sheet *sheet = TW_NEW(arena, tw_sheet);
    *sheet = (tw_sheet){ .arena = arena, .name = tw_text_copy(arena, tw_text_of(name)),
                         .title = tw_text_copy(arena, tw_text_of(title)), .width_mm = width_mm, .height_mm = height_mm };
    return sheet;
}

double tw_small_print(const tw_sheet *sheet, double size_mm) { return tw_max(size_mm, sheet->least_text_mm); }

static tw_item *add(tw_sheet *sheet, tw_item_kind kind, tw_role role)
{
    assert(role >= 0 && role < TW_ROLE_COUNT);
    tw_array_make_room(sheet->arena, &sheet->items, sheet->count, &sheet->room, sizeof *sheet->items);
    tw_item *item = &sheet->items[sheet->count++];
    *item = (tw_item){ .kind = kind, .role = role };
    return item;
}

static tw_source source_copy(tw_arena *arena, tw_source source)
{
    return (tw_source){ source.from ? tw_text_copy(arena, tw_text_of(source.from)) : NULL, source.why
        ? tw_text_copy(arena, tw_text_of(source.why)) : NULL };
}

void tw_draw_source(tw_sheet *sheet, tw_source source) { sheet->source = source_copy(sheet->arena, source); }

void tw_draw_line(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1)
{
    assert(isfinite(x0) && isfinite(y0) && isfinite(x1) && isfinite(y1));
    tw_item *item = add(sheet, TW_ITEM_LINE, role);
    item->from = (tw_point){ x0, y0 };
    item->to = (tw_point){ x1, y1 };
}

void tw_draw_arc(tw_sheet *sheet, tw_role role, double cx, double cy, double radius_mm, double start_rad, double sweep_rad)
{
    assert(isfinite(cx) && isfinite(cy) && isfinite(start_rad) && radius_mm > 0 && isfinite(radius_mm));
    assert(fabs(sweep_rad) <= 2 * TW_PI + 1e-9);
    tw_item *item = add(sheet, TW_ITEM_ARC, role);
    item->from = (tw_point){ cx, cy };
    item->radius_mm = radius_mm;
    item->start_rad = start_rad;
    item->sweep_rad = sweep_rad;
}

void tw_draw_circle(tw_sheet *sheet, tw_role role, double cx, double cy, double radius_mm)
{
    tw_draw_arc(sheet, role, cx, cy, radius_mm, 0.0, 2 * TW_PI);
}

void tw_draw_outline(tw_sheet *sheet, tw_role role, tw_outline outline)
{
    if (outline.count == 0) return;
    tw_item *item = add(sheet, TW_ITEM_OUTLINE, role);
    item->outline = tw_outline_copy(sheet->arena, outline);
}

void tw_draw_box(tw_sheet *sheet, tw_role role, double x0, double y0, double x1, double y1)
{
    assert(isfinite(x0) && isfinite(y0) && isfinite(x1) && isfinite(y1));
    tw_vertex corners[] = { { x0, y0, 0 }, { x1, y0, 0 }, { x1, y1, 0 }, { x0, y1, 0 } };
    tw_draw_outline(sheet, role, (tw_outline){ &(tw_loop){ corners, 4 }, 1 });
}

static void draw_text(tw_sheet *sheet, tw_point at, double size_mm, tw_anchor anchor, double turn_rad, bool bold, const char *text)
{
    assert(text && size_mm > 0 && isfinite(at.x) && isfinite(at.y) && isfinite(turn_rad));
    const char *shown = tw_text_shown(sheet->arena, bold, text);
    if (!*shown) return;
    tw_item *item = add(sheet, TW_ITEM_TEXT, TW_ROLE_TEXT);
    item->from = at;
    item->text = shown;
    item->size_mm = size_mm;
    item->anchor = anchor;
    item->turn_rad = turn_rad;
    item->bold = bold;
    item->source = sheet->source;
}

void tw_draw_text(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, const char *text)
{
    draw_text(sheet, (tw_point){ x, y }, size_mm, anchor, 0.0, false, text);
}

void tw_draw_bold(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, const char *text)
{
    draw_text(sheet, (tw_point){ x, y }, size_mm, anchor, 0.0, true, text);
}

void tw_draw_text_turned(tw_sheet *sheet, double x, double y, double size_mm, tw_anchor anchor, double turn_rad, const char *text)
{
    draw_text(sheet, (tw_point){ x, y }, size_mm, anchor, turn_rad, false, text);
}

void tw_draw_item(tw_sheet *sheet, const tw_item *item)
{
    tw_item *copy = add(sheet, item->kind, item->role);
    *copy = *item;
    if (item->kind == TW_ITEM_OUTLINE) copy->outline = tw_outline_copy(sheet->arena, item->outline);
    if (item->kind != TW_ITEM_TEXT) return;
    copy->text = tw_text_copy(sheet->arena, tw_text_of(item->text));
    copy->source = source_copy(sheet->arena, item->source);
}

static tw_point placed(tw_point p, double scale, double dx, double dy)
{
    return (tw_point){ p.x * scale + dx, p.y * scale + dy };
}

void tw_draw_sheet(tw_sheet *onto, const tw_sheet *marks, double scale, double dx, double dy)
{
    assert(scale > 0 && isfinite(scale) && isfinite(dx) && isfinite(dy) && onto != marks);
    for (size_t i = 0; i < marks->count; i++) {
        tw_draw_item(onto, &marks->items[i]);
        tw_item *item = &onto->items[onto->count - 1];
        item->from = placed(item->from, scale, dx, dy);
        item->to = placed(item->to, scale, dx, dy);
        item->radius_mm *= scale;
        item->size_mm *= scale;
        for (int k = 0; k < item->outline.count; k++)
            for (int v = 0; v < item->outline.loops[k].count; v++) {
                tw_vertex *vertex = &item->outline.loops[k].vertices[v];
                vertex->x = vertex->x * scale + dx;
                vertex->y = vertex->y * scale + dy;
            }
    }
}

/* ---- edges of outlines ---------------------------------------------------------------------------------------- */

tw_edge tw_edge_of(tw_vertex vertex, tw_vertex next)
{
    tw_edge edge = { .straight = true, .from = { vertex.x, vertex.y }, .to = { next.x, next.y } };
    double dx = next.x - vertex.x, dy = next.y - vertex.y, b = vertex.bulge;
    if (fabs(b) * hypot(dx, dy) < 2 * STRAIGHT_MM) return edge;
    double along = (1.0 - b * b) / (4.0 * b);
    edge.straight = false;
    edge.radius_mm = hypot(dx, dy) * (1.0 + b * b) / (4.0 * fabs(b));
    edge.centre = (tw_point){ (vertex.x + next.x) / 2 - dy * along, (vertex.y + next.y) / 2 + dx * along };
    edge.start_rad = atan2(vertex.y - edge.centre.y, vertex.x - edge.centre.x);
    edge.sweep_rad = 4.0 * atan(b);
    return edge;
}

tw_edge tw_loop_edge(tw_loop loop, int i)
{
    assert(i >= 0 && i < loop.count);
    return tw_edge_of(loop.vertices[i], loop.vertices[(i + 1) % loop.count]);
}
