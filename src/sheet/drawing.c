// SPDX-License-Identifier: GPL-3.0-or-later
/* One drawing for the screen: the papers' own drawings, each alone, cropped to its ink. */
#include "sheet/drawing.h"

#include <string.h>

#include "sheet/bodies.h"
#include "sheet/figures.h"
#include "sheet/pages.h"
#include "sheet/setting_out.h"

#define BORDER_MM 1.0         // air round the ink
#define BODIES_CHORD_MM 0.1   // as in the papers

typedef struct canvas {
    tw_arena             *arena;    // for composing
    const tw_paper_input *in;
    const char           *name;
    int                   number;
    double                wide_mm;  // of the ink
} canvas;

typedef struct drawn { tw_sheet *sheet; const char *title; } drawn;

/* ---- what is asked for ---- */

static int piece_named(const tw_job *job, const char *name)
{
    for (int i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].name, name) == 0) return i;
    return -1;
}

static int plan_named(const tw_paper_input *in, const char *name, bool profile)
{
    for (int i = 0; i < in->plan_count; i++)
        if (in->plans[i].profile == profile && strcmp(in->plans[i].joint->name, name) == 0) return i;
    return -1;
}

static int template_named(const tw_templates *templates, const char *name)
{
    for (int i = 0; i < templates->count; i++)
        if (strcmp(templates->items[i].name, name) == 0) return i;
    return -1;
}

/* ---- one kind each ---- */

static drawn draw_piece(const canvas *c)
{
    int piece = piece_named(c->in->job, c->name);
    if (piece < 0) return (drawn){ 0 };
    return (drawn){ tw_piece_drawing(c->arena, c->in, piece, c->wide_mm, TW_DRAWING_TEXT_MM),
        tw_format(c->arena, "Setting-out drawing of %s", c->name) };
}

static drawn draw_plan(const canvas *c, bool profile)
{
    int plan = plan_named(c->in, c->name, profile);
    if (plan < 0) return (drawn){ 0 };
    return (drawn){ tw_joint_drawing(c->arena, c->in, plan, c->wide_mm, TW_DRAWING_TEXT_MM),
        tw_format(c->arena, "%s %s", profile ? "Profile" : "Joint", c->name) };
}

static drawn draw_joint(const canvas *c) { return draw_plan(c, false); }
static drawn draw_profile(const canvas *c) { return draw_plan(c, true); }

static drawn draw_whole(const canvas *c)
{
    int net = tw_group_net(c->in, c->number);
    if (net < 0) return (drawn){ 0 };
    return (drawn){ tw_whole_drawing(c->arena, c->in, net, c->wide_mm, TW_DRAWING_TEXT_MM), "The whole from three sides" };
}

static drawn draw_standing(const canvas *c, bool apart)
{
    int net = tw_group_net(c->in, c->number);
    if (net < 0) return (drawn){ 0 };
    return (drawn){ tw_whole_picture(c->arena, c->in, net, apart, c->wide_mm, TW_DRAWING_TEXT_MM),
                    apart ? "Drawn apart, with the steps of taking apart" : "The whole as it stands" };
}

static drawn draw_picture(const canvas *c) { return draw_standing(c, false); }
static drawn draw_apart(const canvas *c) { return draw_standing(c, true); }

static drawn draw_grain(const canvas *c)
{
    int piece = piece_named(c->in->job, c->name);
    if (piece < 0) return (drawn){ 0 };
    return (drawn){ tw_grain_drawing(c->arena, c->in, piece, c->wide_mm, TW_DRAWING_TEXT_MM),
        tw_format(c->arena, "Fibres of %s", c->name) };
}

static drawn draw_template(const canvas *c)
{
    int index = template_named(c->in->templates, c->name);
    if (index < 0) return (drawn){ 0 };
    return (drawn){ tw_template_drawing(c->arena, c->in, index, c->wide_mm, TW_DRAWING_TEXT_MM),
        tw_format(c->arena, "Template %s, not true to size", c->name) };
}

static drawn draw_card(const canvas *c)
{
    int step = tw_step_of_key(c->arena, c->in, c->name);
    if (step < 0) return (drawn){ 0 };
    return (drawn){ tw_card_drawing(c->arena, c->in, step, c->wide_mm, TW_DRAWING_TEXT_MM),
        tw_format(c->arena, "On the table: %s", c->in->run->steps[step].name) };
}

/* ---- the drawing ---- */

/* As wide as asked, its ink at the left. */
static const tw_sheet *cropped(tw_arena *arena, const tw_sheet *ink, const char *name, const char *title, double wide_mm)
{
    tw_box box = tw_sheet_reach(ink);
    if (box.x0 > box.x1) return NULL;
    tw_sheet *sheet = tw_sheet_new(arena, name, title, tw_max(wide_mm, box.x1 - box.x0 + 2.0 * BORDER_MM),
        box.y1 - box.y0 + 2.0 * BORDER_MM);
    tw_draw_sheet(sheet, ink, 1.0, BORDER_MM - box.x0, BORDER_MM - box.y0);
    return sheet;
}

static const struct { const char *what; drawn (*draw)(const canvas *c); } kinds[] = {
    { "whole", draw_whole }, { "picture", draw_picture }, { "apart", draw_apart }, { "piece", draw_piece },
        { "joint", draw_joint },
    { "profile", draw_profile }, { "template", draw_template }, { "grain", draw_grain }, { "card", draw_card },
};

const tw_sheet *tw_drawing_make(tw_arena *arena, const tw_paper_input *input, tw_drawing_ask ask)
{
    double wide = tw_min(tw_max(ask.width_mm, TW_DRAWING_LEAST_MM), TW_DRAWING_MOST_MM);
    tw_arena composing = tw_arena_beside(arena);
    tw_paper_input in = *input;
    if (!in.bodies) in.bodies = tw_bodies_to_look_at(&composing, in.job, in.plans, in.plan_count, BODIES_CHORD_MM);
    canvas c = { .arena = &composing, .in = &in, .name = ask.name ? ask.name : "", .number = ask.number > 0 ? ask.number : 1,
        .wide_mm = wide - 2.0 * BORDER_MM };
    const tw_sheet *sheet = NULL;
    for (size_t i = 0; ask.what && i < sizeof kinds / sizeof *kinds; i++) {
        if (strcmp(kinds[i].what, ask.what) != 0) continue;
        drawn d = kinds[i].draw(&c);
        if (d.sheet) sheet = cropped(arena, d.sheet, ask.what, d.title, wide);
    }
    tw_arena_finish(&composing);
    return sheet;
}
