// SPDX-License-Identifier: GPL-3.0-or-later
/* two_up: pages of A4 two to a lying sheet of A3 (ISO 216: 420 = 2 x 210, 297), to be folded or cut in the middle. Private to
 * the papers. */
#ifndef TW_TWO_UP_H
#define TW_TWO_UP_H

#include "sheet/papers.h"

/// The same paper on half as many sheets (one half stays empty when its pages are odd). They live in the arena.
/// A sheet has the titles of both its pages.
tw_paper_pages tw_two_to_a_sheet(tw_arena *arena, tw_paper_pages paper);

/// Does a page with that title only go on with the one before it ("foot, continued")?
bool tw_title_goes_on(const char *title);

#endif
