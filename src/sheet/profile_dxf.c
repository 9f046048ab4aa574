// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/profile_dxf.h"

#define APART_MM 20.0

const char *tw_profile_file_name(tw_arena *arena, const tw_joint_plan *plan)
{
    char *name = tw_format(arena, "%s", plan->joint->name);
    for (char *at = name; *at; at++)
        if (*at == ' ') *at = '-';
    return name;
}

/* Places are counted from the middle of the curve; the vertex where its arc begins and the one where it ends lie about it. */
static void draw_stations(tw_sheet *sheet, const tw_joint_plan *plan, double high)
{
    if (plan->station_count == 0) return;
    const tw_figure *from = tw_plan_find(plan, "from"), *to = tw_plan_find(plan, "to");
    if (!from || !to) return;
    double middle = (from->value + to->value) / 2.0, chord = to->value - from->value;
    tw_loop loop = plan->shapes[0].outline.loops[0];
    bool at_top = false;
    for (int i = 0; i < loop.count; i++)
        if (loop.vertices[i].bulge != 0.0) at_top = loop.vertices[i].y > high / 2.0;
    for (size_t i = 0; i < plan->station_count; i++)
        for (int side = i == 0 ? 1 : -1; side <= 1; side += 2) {
            double x = middle + side * plan->stations[i].along_mm, deep = plan->stations[i].high_mm;
            if (plan->stations[i].along_mm < chord / 2.0) tw_draw_line(sheet, TW_ROLE_CENTRE, x, at_top ? high : 0.0, x, at_top ? high - deep : deep);
        }
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
        tw_size face = tw_face_extent(size, plan->shapes[i].face);
        tw_draw_outline(sheet, TW_ROLE_FAINT, tw_outline_rectangle(arena, 0.0, y, face.length_mm, y + face.width_mm));
        tw_draw_outline(sheet, TW_ROLE_CUT, tw_outline_moved(arena, plan->shapes[i].outline, 0.0, y));
        if (i == 0) draw_stations(sheet, plan, face.width_mm);
        y += face.width_mm + APART_MM;
    }
    return sheet;
}
