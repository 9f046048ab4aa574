// SPDX-License-Identifier: GPL-3.0-or-later
/* Roles and papers.
 *
 * Line widths are members of the series 0.13, 0.18, 0.25, 0.35, 0.5, 0.7 of ISO 128 (wide to narrow 2 to 1). Dashes are
 * given there in widths d of the line: dash 12 d, long dash 24 d, gap 3 d, dot at most 0.5 d. The dots here are 2 d
 * long instead: at 0.25 mm a dot of 0.12 mm is lost on a common printer. The only grey is of what may be overlooked.
 * Paper sizes: ISO 216 (A4, A3) and ANSI/ASME Y14.1 size A (Letter); checks 9-01 and 9-02. */
#include "draw/draw.h"

#include <assert.h>

#define NARROW 0.25

static const tw_role_look looks[TW_ROLE_COUNT] = {
    [TW_ROLE_VISIBLE] = { "visible", 0.5, 0, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_CUT] = { "cut", 0.7, 0, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_HIDDEN] = { "hidden", NARROW, 0, { 12 * NARROW, 3 * NARROW }, 2, false, "TW_DASHED" },
    [TW_ROLE_CENTRE] = { "centre", NARROW, 0, { 24 * NARROW, 3 * NARROW, 2 * NARROW, 3 * NARROW }, 4, false, "TW_CHAIN" },
    [TW_ROLE_DIMENSION] = { "dimension", NARROW, 0, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_HATCH] = { "hatch", 0.18, 0, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_PATH] = { "path", NARROW, 0, { 24 * NARROW, 3 * NARROW, 2 * NARROW, 3 * NARROW, 2 * NARROW, 3 * NARROW }, 6, false,
                       "TW_DOUBLE_CHAIN" },
    [TW_ROLE_FRAME] = { "frame", 0.35, 0, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_FAINT] = { "faint", 0.18, 0.5, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_TEXT] = { "text", NARROW, 0, { 0 }, 0, false, "CONTINUOUS" },
    [TW_ROLE_SHADE] = { "shade", 0.18, 0.85, { 0 }, 0, true, "CONTINUOUS" },
    [TW_ROLE_SOLID] = { "solid", NARROW, 0, { 0 }, 0, true, "CONTINUOUS" },
};

const tw_role_look *tw_role_look_of(tw_role role)
{
    assert(role >= 0 && role < TW_ROLE_COUNT);
    return &looks[role];
}

tw_paper_size tw_paper_size_of(tw_paper paper)
{
    static const tw_paper_size sizes[] = {
        [TW_PAPER_A4] = { "A4", 210.0, 297.0 },
        [TW_PAPER_A3] = { "A3", 297.0, 420.0 },
        [TW_PAPER_LETTER] = { "Letter", 8.5 * TW_MM_PER_INCH, 11.0 * TW_MM_PER_INCH },
    };
    assert((size_t)paper < sizeof sizes / sizeof *sizes);
    return sizes[paper];
}
