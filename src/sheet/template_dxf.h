// SPDX-License-Identifier: GPL-3.0-or-later
/* template_dxf: the outlines of one template alone, for a cutting machine or another drawing. */
#ifndef TW_TEMPLATE_DXF_H
#define TW_TEMPLATE_DXF_H

#include "template/template.h"

/// A sheet with the template as the maker sees it, true to size, origin at its centre lines: its edge and its holes as
/// outlines to be cut, the counterbores, the centre lines.
const tw_sheet *tw_template_dxf_sheet(tw_arena *arena, const tw_template *template_);

#endif
