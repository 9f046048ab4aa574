// SPDX-License-Identifier: GPL-3.0-or-later
/* A template is a blank less cuts, like a piece:
 *
 *   inside                                   outside (seen from the edge)
 *   +-----------------+  opening, holes        rim    body    rim
 *   |  o   ____    o  |  through; counter-    |##|   |####|   |##|   the room round the body is cut from the face,
 *   |     /____\      |  bores from the face  |##|___|####|___|##|   as deep as the body is thick
 *   |  o           o  |                       |__________________|   carrier */
#include "sheet/template_solid.h"

#include <assert.h>

#define OVER_MM 1.0   // how far a cut that clears all runs past the border

typedef struct making { tw_arena *arena; const tw_template *t; tw_box board; tw_size size; tw_cut *cuts; int count; } making;

/* From the view's frame to the face's. */
static tw_outline on_face(const making *m, tw_outline outline) { return tw_outline_moved(m->arena, outline, -m->board.x0, -m->board.y0); }

static void add(making *m, tw_face face, tw_outline outline, double depth_mm, bool through)
{
    m->cuts[m->count++] = (tw_cut){ .piece = -1, .joint = -1, .name = "template", .face = face, .outline = outline, .depth_mm = depth_mm, .through = through };
}

static tw_loop reversed(tw_arena *arena, tw_loop loop)
{
    tw_loop back = { TW_NEW_ARRAY(arena, tw_vertex, (size_t)loop.count), loop.count };
    for (int i = 0; i < loop.count; i++) {
        tw_vertex from = loop.vertices[(loop.count - i) % loop.count], edge = loop.vertices[loop.count - 1 - i];
        back.vertices[i] = (tw_vertex){ from.x, from.y, -edge.bulge };
    }
    return back;
}

/* What the body leaves free: all the board, or up to the rim. */
static tw_outline room_round_body(const making *m)
{
    const tw_template *t = m->t;
    tw_outline body = on_face(m, t->view);
    tw_outline far = t->rim_mm > 0.0 ? tw_outline_offset(m->arena, body, t->rim_mm)
        : tw_outline_rectangle(m->arena, -OVER_MM, -OVER_MM, m->size.length_mm + OVER_MM, m->size.width_mm + OVER_MM);
    tw_outline room = { TW_NEW_ARRAY(m->arena, tw_loop, (size_t)(far.count + body.count)), 0 };
    for (int i = 0; i < far.count; i++) room.loops[room.count++] = far.loops[i];
    for (int i = 0; i < body.count; i++) room.loops[room.count++] = reversed(m->arena, body.loops[i]);
    return room;
}

static void add_holes(making *m, double face_at_mm)
{
    const tw_template *t = m->t;
    for (int i = 0; i < t->hole_count; i++) {
        tw_point at = { t->holes[i].x - m->board.x0, t->holes[i].y - m->board.y0 }, behind = { at.x, m->size.width_mm - at.y };
        add(m, TW_SIDE_FACE, tw_outline_circle(m->arena, at, t->hole_mm / 2.0), 0.0, true);
        if (t->counterbore_mm <= t->hole_mm) continue;
        add(m, TW_SIDE_FACE, tw_outline_circle(m->arena, at, t->counterbore_mm / 2.0), face_at_mm + t->counterbore_deep_mm, false);
        if (t->turned_over) add(m, TW_SIDE_BACK, tw_outline_circle(m->arena, behind, t->counterbore_mm / 2.0), t->counterbore_deep_mm, false);
    }
}

tw_solid *tw_template_solid(tw_arena *arena, const tw_template *template_)
{
    assert(template_->thickness_mm > 0.0);
    bool inside = template_->ask.inside;
    making m = { .arena = arena, .t = template_, .board = tw_outline_bounds(template_->board_view),
                 .cuts = TW_NEW_ARRAY(arena, tw_cut, (size_t)template_->hole_count * 3 + 1) };
    m.size = (tw_size){ m.board.x1 - m.board.x0, m.board.y1 - m.board.y0, template_->thickness_mm * (inside ? 1.0 : 2.0) };
    if (inside) add(&m, TW_SIDE_FACE, on_face(&m, template_->view), 0.0, true);
    else add(&m, TW_SIDE_FACE, room_round_body(&m), template_->thickness_mm, false);
    bool on_carrier = !inside && template_->rim_mm <= 0.0;   // the holes then begin at the carrier
    add_holes(&m, on_carrier ? template_->thickness_mm : 0.0);
    return tw_solid_make(arena, m.size, m.cuts, m.count, TW_SOLID_CHORD_MM);
}
