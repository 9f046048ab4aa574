// SPDX-License-Identifier: GPL-3.0-or-later
/* writers: one sheet -> the bytes of a file. Bytes leave through a sink; look at sink->failed once, at the end.
 * The same sheet gives the same bytes. Numbers carry at most 6 decimals of a millimetre. */
#ifndef TW_WRITERS_H
#define TW_WRITERS_H

#include "draw/draw.h"

/// SVG 1.1, true to size: width and height in mm, one unit of the drawing = 1 mm. Presentation attributes only: no style
/// sheets and no scripts, so that it passes a strict content security policy.
void tw_svg_put(const tw_sheet *sheet, tw_sink *sink);

/// The same for a page on the screen, to stand within HTML: no size of its own (it fills what holds it), no ground. Each group
/// carries its role as a class, "r-visible", for style sheets; the attributes stay for readers without one. A text that shows
/// an amount has the class "t-from" (or, when no amount changes it, "t-why"), data-from and data-why, and is a button by role,
/// named in words: "45.0, thickness of post". Nothing else of it can be reached by keyboard.
void tw_svg_put_screen(const tw_sheet *sheet, tw_sink *sink);

/// DXF R2000 (AC1015), millimetres, ASCII. Each role is a layer with its line width. Outlines: one closed LWPOLYLINE with
/// bulges for each loop (filled ones: one solid HATCH); other marks: LINE, ARC, CIRCLE, TEXT. x, y as on the sheet.
/// To hand over outlines alone, put them on a sheet of their own.
void tw_dxf_put(const tw_sheet *sheet, tw_sink *sink);

#endif
