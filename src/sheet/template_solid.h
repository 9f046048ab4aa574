// SPDX-License-Identifier: GPL-3.0-or-later
/* template_solid: a template as a solid, ready to be printed in three dimensions. */
#ifndef TW_TEMPLATE_SOLID_H
#define TW_TEMPLATE_SOLID_H

#include "solid/solid.h"
#include "template/template.h"

/// The template as the maker sees it at work: x right, y up, z towards the maker; its back at z = 0. Inside: the board with its
/// opening. Outside: body, rim and carrier in one, the carrier as thick as the body. With mounting holes and counterbores, on both
/// faces when it is turned over.
tw_solid *tw_template_solid(tw_arena *arena, const tw_template *template_);

#endif
