// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/mortise_tenon.h"
const char *tw_mortise_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room)
{
    (void)context; (void)plan; (void)sheet; (void)room;
    return "not to scale";
}
