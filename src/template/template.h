// SPDX-License-Identifier: GPL-3.0-or-later
/* template: from the cuts that joints want to the templates that the shop can make and use. */
#ifndef TW_TEMPLATE_H
#define TW_TEMPLATE_H

#include "joint/joint.h"
#include "template/copy.h"

/// What one follower of the shop makes of the cut with this template.
typedef struct tw_fit {
    int    follower;            // index into the shop's
    double width_change_mm;     // of the cut's width: positive wider
    bool   enters;              // it gets into the template's slot and round it
    double wall_change_mm;      // one guided wall alone, positive towards the wood that stays
} tw_fit;

/// A strip of a template glued up from straight stuff.
typedef struct tw_strip {
    const char *name;           // "left side strip", "lower filler"
    double length_mm, width_mm; // finished; for a tapered one width at its wide end
    double narrow_mm;           // width at its other end; equal to width_mm when parallel
    double angle_rad;           // of the ripped side to the other, 0 when parallel
    double end_angle_rad;       // of one end from square (the more leaning one), 0 when both are square
    double other_end_rad;       // of the other end from square
    double over_mm;             // to leave over in length and trim after gluing
    double over_width_mm;       // to leave over in width, on the border's side, and trim after gluing
    int    step;                // order of gluing, from 1
    const char *note;           // where its offcut serves again, or ""
    tw_outline shape;           // as it lies in the template's frame
} tw_strip;

/// A template: made once, used by one or more works (both hands, when it is turned over).
typedef struct tw_template {
    const char   *name;         // "T1"
    const char   *title;        // "stretcher to post: housing"
    int           joint;        // index into the job's
    tw_copy_ask   ask;          // in the frame of the cut as the first work sees it
    tw_copy       copy;
    int           cutter, follower;   // indices into the shop's
    int           other_cutter; // another that runs along the same path for a later work of the joint, -1 none
    tw_outline    board;        // border of the template's board, template frame (origin: the cut's origin, times ratio)
    tw_outline    view;         // the opening or body as the maker sees it at work (machine's view of it)
    tw_outline    board_view;
    bool          turned_over;  // used from both sides
    double        thickness_mm;
    const char   *across_sum, *up_sum, *thickness_sum;  // of the board, with the values put in
    tw_point     *holes;        // mounting holes, board_view frame: centres
    int           hole_count;
    double        hole_mm, counterbore_mm, counterbore_deep_mm;
    tw_fit       *fits;  int fit_count;
    bool          straight;     // can be glued up from strips: strips holds them
    tw_strip     *strips; int strip_count;
    const char   *guides;       // how two straight guides and stops do the same, or ""
    const char   *clearing;     // how the middle or the outside is cleared, or ""
    const char   *making;       // what the maker of the template needs to know: carrier, counterbores, thickness
    double        rim_mm;       // outside: clear width round the body to a rim on the carrier that keeps the follower in; 0 none
    int          *works; int work_count;   // pairs are flattened: plan index, work index
    bool         *turned;       // [work_count]: for that work the template is mounted with its other face outward
} tw_template;

/// A pair of cutter and follower in the shop with r d = b (within 0.1 mm): the template is then r times the cut.
typedef struct tw_tool_pair { int cutter, follower; double off_mm; } tw_tool_pair;

/// The template of one work.
typedef struct tw_template_use { int template_index; bool turned; int cutter; } tw_template_use;  // index -1: it has none

typedef struct tw_templates {
    tw_template *items; int count;
    tw_template_use **uses;     // [plan][work]
    tw_tool_pair     *pairs; int pair_count;
} tw_templates;

/// Makes the templates of all copied works. A cut that no owned pair of cutter and follower makes is a TW_HALT (and the work
/// has no template); a cutter or follower that the job names and the shop does not have is TW_WRONG.
tw_templates tw_templates_make(tw_arena *arena, const tw_job *job, const tw_shop *shop, const tw_joint_plan *plans,
                               int plan_count, tw_findings *findings);
/// The template of a work, NULL when it has none.
const tw_template *tw_template_of(const tw_templates *templates, int plan, int work);
/// The cutter of a work that has a template: index into the shop's.
int tw_template_cutter(const tw_templates *templates, int plan, int work);
/// Is the template mounted with its other face outward for that work? false when the work has none.
bool tw_template_turned(const tw_templates *templates, int plan, int work);
/// Strips for an opening of four straight sides, two of them level, in a rectangular board (both in one frame, tidy): full
/// height strips left and right, fillers above and below. Their shapes fill the board less the opening, without overlap.
/// Returns false, and leaves strips and count alone, when the opening is another shape or a strip would be narrower
/// than 10 mm. figures: how lengths in the notes are written.
bool tw_strips_make(tw_arena *arena, tw_outline opening, tw_outline board, tw_figures figures, tw_strip **strips, int *count);
/// The copying formula for one measure of the cut, across or up, with its values: "r(w - d) + b = 2 x (16.0 - 9.5) + 19.0".
const char *tw_template_width_sum(tw_arena *arena, tw_figures figures, const tw_template *t, double wanted_mm);
/// Does it give this measure of the template? It does not where walls lean or corners are cut off.
bool tw_template_sum_holds(const tw_template *t, double wanted_mm, double template_mm);
/// An outline as the maker sees it at the template: half a turn when the copy is turned, mirrored when seen from behind.
tw_outline tw_machine_view(tw_arena *arena, const tw_machine *machine, tw_outline outline);

#endif
