// SPDX-License-Identifier: GPL-3.0-or-later
/* Pictures with numbers at both sides.
 *
 *      (2)-----o  the wood   o-----(1)     each ring stands at the side that is nearer to what it names; the rings of a side
 *      (3)--o                  o---(4)     keep the order of their places from top to bottom, so that no two lines cross,
 *                                          and are spread so that they do not touch */
#include "sheet/picture.h"

#include <math.h>
#include <stdlib.h>

#define RING_MM 3.6          // radius: two figures of 2.5 mm fit in
#define RING_APART_MM 8.6    // between the middles of two rings of a side
#define SIDE_MM 14.0         // of paper at each side for the rings
#define DOT_MM 0.5
#define NUMBER_MM 2.4

typedef struct target { int mark; tw_point at; bool left; double y; } target;

static double longest_of(const tw_strokes *strokes, int stood, tw_point *middle)
{
    double best = 0.0;
    for (size_t i = 0; i < strokes->count; i++) {
        const tw_stroke *s = &strokes->items[i];
        double length = hypot(s->to.x - s->from.x, s->to.y - s->from.y);
        if (s->stood != stood || s->hidden || length <= best + 1e-6) continue;
        best = length;
        *middle = (tw_point){ (s->from.x + s->to.x) / 2.0, (s->from.y + s->to.y) / 2.0 };
    }
    return best;
}

static int from_above(const void *left, const void *right)
{
    const target *a = left, *b = right;
    if (a->at.y != b->at.y) return a->at.y > b->at.y ? -1 : 1;
    return (a->mark > b->mark) - (a->mark < b->mark);
}

/* Rings of one side, from the top: each as near to the height of its place as the one above leaves it; then pushed up again
 * from the bottom where the room ends. */
static void spread(target *list, int count, tw_box room)
{
    double top = room.y1 - RING_MM, bottom = room.y0 + RING_MM;
    for (int i = 0; i < count; i++) list[i].y = tw_min(list[i].at.y, i == 0 ? top : list[i - 1].y - RING_APART_MM);
    for (int i = count - 1; i >= 0; i--) list[i].y = tw_max(list[i].y, i == count - 1 ? bottom : list[i + 1].y + RING_APART_MM);
}

static void draw_ring(tw_sheet *sheet, const tw_picture *picture, const target *t, double x)
{
    double way = t->left ? 1.0 : -1.0;
    tw_draw_circle(sheet, TW_ROLE_DIMENSION, x, t->y, RING_MM);
    double size = tw_small_print(sheet, NUMBER_MM);
    tw_draw_bold(sheet, x, t->y - size / 2.0, size, TW_ANCHOR_MIDDLE, picture->marks[t->mark].text);
    tw_draw_line(sheet, TW_ROLE_DIMENSION, x + way * RING_MM, t->y, t->at.x, t->at.y);
    tw_draw_outline(sheet, TW_ROLE_SOLID, tw_outline_circle(sheet->arena, t->at, DOT_MM));
}

static void draw_rings(tw_sheet *sheet, const tw_picture *picture, const tw_strokes *strokes, double scale, tw_point at, tw_box room)
{
    target *list = TW_NEW_ARRAY(sheet->arena, target, (size_t)picture->mark_count + 1);
    for (int side = 0; side < 2; side++) {
        int count = 0;
        for (int i = 0; i < picture->mark_count; i++) {
            tw_point middle;
            if (longest_of(strokes, picture->marks[i].stood, &middle) <= 0.0) continue;
            tw_point on = { at.x + scale * middle.x, at.y + scale * middle.y };
            bool left = on.x < (room.x0 + room.x1) / 2.0;
            if (left == (side == 0)) list[count++] = (target){ i, on, left, 0.0 };
        }
        qsort(list, (size_t)count, sizeof *list, from_above);
        spread(list, count, room);
        for (int i = 0; i < count; i++) draw_ring(sheet, picture, &list[i], side == 0 ? room.x0 + RING_MM : room.x1 - RING_MM);
    }
}

static bool is_thin(const tw_picture *picture, const tw_stroke *s)
{
    if (!picture->thin_source || picture->thin_source[s->stood] < 0) return false;
    const tw_solid *solid = picture->list[s->stood].solid;
    int thin = picture->thin_source[s->stood];   // this source and all after it
    return solid->facets[s->left].source >= thin || solid->facets[s->right].source >= thin;
}

static tw_strokes part_of(tw_arena *arena, const tw_picture *picture, const tw_strokes *all, bool thin, double least_mm)
{
    tw_strokes part = { TW_NEW_ARRAY(arena, tw_stroke, all->count + 1), 0, 0 };
    for (size_t i = 0; i < all->count; i++) {
        const tw_stroke *s = &all->items[i];
        if (is_thin(picture, s) != thin || (!s->curved && hypot(s->to.x - s->from.x, s->to.y - s->from.y) < least_mm)) continue;
        part.items[part.count++] = *s;
    }
    return part;
}

double tw_picture_draw(tw_sheet *sheet, const tw_picture *picture, tw_box room)
{
    tw_box reach = tw_view_reach(picture->sight, picture->list, picture->count);
    if (!(reach.x1 > reach.x0) || !(reach.y1 > reach.y0)) return 0.0;
    double side = picture->mark_count > 0 ? SIDE_MM : 0.0;
    double scale = tw_min((room.x1 - room.x0 - 2.0 * side) / (reach.x1 - reach.x0), (room.y1 - room.y0) / (reach.y1 - reach.y0));
    tw_point at = { (room.x0 + room.x1) / 2.0 - scale * (reach.x0 + reach.x1) / 2.0, (room.y0 + room.y1) / 2.0 - scale * (reach.y0 + reach.y1) / 2.0 };
    tw_strokes all = tw_view_make(sheet->arena, picture->sight, picture->list, picture->count, false);
    const double least = 0.1 / scale;   // what is shorter on paper is a dot
    tw_strokes firm = part_of(sheet->arena, picture, &all, false, least), thin = part_of(sheet->arena, picture, &all, true, least);
    tw_view_draw(sheet, &thin, scale, at, TW_ROLE_FAINT, TW_ROLE_FAINT);
    tw_view_draw(sheet, &firm, scale, at, picture->role, picture->role);
    draw_rings(sheet, picture, &all, scale, at, room);
    return scale;
}
