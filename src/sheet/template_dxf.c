// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/template_dxf.h"

const tw_sheet *tw_template_dxf_sheet(tw_arena *arena, const tw_template *template_)
{
    tw_box board = tw_outline_bounds(template_->board_view);
    tw_sheet *sheet = tw_sheet_new(arena, template_->name, template_->title, board.x1 - board.x0, board.y1 - board.y0);
    tw_draw_outline(sheet, TW_ROLE_CUT, template_->view);
    tw_draw_outline(sheet, TW_ROLE_VISIBLE, template_->board_view);
    for (int i = 0; i < template_->hole_count; i++) {
        tw_point hole = template_->holes[i];
        tw_draw_outline(sheet, TW_ROLE_VISIBLE, tw_outline_circle(arena, hole, template_->hole_mm / 2.0));
        if (template_->counterbore_mm > template_->hole_mm)
            tw_draw_outline(sheet, TW_ROLE_HIDDEN, tw_outline_circle(arena, hole, template_->counterbore_mm / 2.0));
    }
    tw_draw_line(sheet, TW_ROLE_CENTRE, board.x0, 0.0, board.x1, 0.0);
    tw_draw_line(sheet, TW_ROLE_CENTRE, 0.0, board.y0, 0.0, board.y1);
    return sheet;
}
