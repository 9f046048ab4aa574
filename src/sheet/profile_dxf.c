// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/profile_dxf.h"

#define APART_MM 20.0
#define BESIDE_MM 30.0   // of the piece that is shown beside a curve, to lay it on by

const char *tw_profile_file_name(tw_arena *arena, const tw_joint_plan *plan)
{
    char *name = tw_format(arena, "%s", plan->joint->name);
    for (char *at = name; *at; at++)
        if (*at == ' ') *at = '-';
    return name;
}

/* Does the curve lie at the upper border of what is seen? */
static bool lies_high(const tw_joint_plan *plan, double high)
{
    tw_loop loop = plan->shapes[0].outline.loops[0];
    for (int i = 0; i < loop.count; i++)
        if (loop.vertices[i].bulge != 0.0) return loop.vertices[i].y > high / 2.0;
    return false;
}

/* Places are counted from the middle of the curve to both sides. */
static void draw_stations(tw_sheet *sheet, const tw_joint_plan *plan, double high, double dx, double dy)
{
    const tw_figure *from = tw_plan_find(plan, "from"), *to = tw_plan_find(plan, "to");
    if (plan->station_count == 0 || !from || !to) return;
    double middle = (from->value + to->value) / 2.0, half = (to->value - from->value) / 2.0, base = lies_high(plan, high) ? high
        : 0.0, sense = base > 0.0 ? -1.0 : 1.0;
    for (size_t i = 0; i < plan->station_count; i++)
        for (int side = i == 0 ? 1 : -1; side <= 1; side += 2) {
            double x = dx + middle + side * plan->stations[i].along_mm;
            if (plan->stations[i].along_mm < half) tw_draw_line(sheet, TW_ROLE_CENTRE, x, dy + base, x,
                dy + base + sense * plan->stations[i].high_mm);
        }
}

void tw_profile_outline_draw(tw_sheet *sheet, const tw_job *job, const tw_joint_plan *plan, int shape, double dx, double dy)
{
    tw_size face = tw_face_extent(tw_piece_size(&job->pieces[plan->piece]), plan->shapes[shape].face);
    tw_draw_outline(sheet, TW_ROLE_FAINT, tw_outline_rectangle(sheet->arena, dx, dy, dx + face.length_mm, dy + face.width_mm));
    tw_draw_outline(sheet, TW_ROLE_CUT, tw_outline_moved(sheet->arena, plan->shapes[shape].outline, dx, dy));
    if (shape == 0) draw_stations(sheet, plan, face.width_mm, dx, dy);
}

/* What is worth a full-size print: an arch with its edge, an end with its corners. Empty for straight profiles and arrises. */
tw_box tw_profile_print_box(const tw_job *job, const tw_joint_plan *plan)
{
    tw_box none = { 1.0, 0.0, 0.0, 0.0 };
    const char *kind = tw_joint_kinds[plan->joint->kind]->format.kind;
    bool arch = tw_text_is(tw_text_of(kind), "arch"), rounded = tw_text_is(tw_text_of(kind), "rounded end");
    if (plan->shape_count == 0 || (!arch && !rounded)) return none;
    tw_size face = tw_face_extent(tw_piece_size(&job->pieces[plan->piece]), plan->shapes[0].face);
    const tw_figure *from = tw_plan_find(plan, "from"), *to = tw_plan_find(plan, "to"), *rise = tw_plan_find(plan, "rise"),
        *radius = tw_plan_find(plan, "radius");
    if (arch && rise && from && to) {
        double deep = tw_min(rise->value + BESIDE_MM, face.width_mm);
        bool high = lies_high(plan, face.width_mm);
        return (tw_box){ tw_max(0.0, from->value - BESIDE_MM), high ? face.width_mm - deep : 0.0, tw_min(face.length_mm,
            to->value + BESIDE_MM), high ? face.width_mm : deep };
    }
    tw_loop loop = plan->shapes[0].outline.loops[0];
    bool left = false;
    for (int i = 0; i < loop.count; i++)
        if (loop.vertices[i].bulge != 0.0) left = left || loop.vertices[i].x < face.length_mm / 2.0;
    if (!radius) return none;
    double shown = tw_min(face.length_mm, 2.0 * radius->value + BESIDE_MM);  // both ends are alike
    return (tw_box){ left ? 0.0 : face.length_mm - shown, 0.0, left ? shown : face.length_mm, face.width_mm };
}

const tw_sheet *tw_profile_dxf_sheet(tw_arena *arena, const tw_job *job, const tw_joint_plan *plan)
{
    if (plan->shape_count == 0) return NULL;
    tw_size size = tw_piece_size(&job->pieces[plan->piece]);
    double wide = 0.0, high = 0.0;
    for (int i = 0; i < plan->shape_count; i++) {
        tw_size face = tw_face_extent(size, plan->shapes[i].face);
        wide = tw_max(wide, face.length_mm);
        high += face.width_mm + (i ? APART_MM : 0.0);
    }
    tw_sheet *sheet = tw_sheet_new(arena, tw_profile_file_name(arena, plan), plan->joint->name, wide, high);
    double y = 0.0;
    for (int i = 0; i < plan->shape_count; i++) {
        tw_profile_outline_draw(sheet, job, plan, i, 0.0, y);
        y += tw_face_extent(size, plan->shapes[i].face).width_mm + APART_MM;
    }
    return sheet;
}
