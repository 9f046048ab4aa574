// SPDX-License-Identifier: GPL-3.0-or-later
/* copy: the copying geometry (design section 5), for any outline, cutter, follower and ratio.
 *
 *   pocket, trace inside:   P = C shrunk by d/2,  F = r P,  template = F grown by b/2
 *   island, trace outside:  P = C grown by d/2,   F = r P,  template = F shrunk by b/2
 *
 * and back again from the template as it will be cut: follower path, cutter path, achieved cut. The template's corners
 * that the follower runs into are drawn square (an arc of exactly b/2 would bind it); where a square corner would run
 * far out (over 120 degrees of turn) it is cut off square, touching the follower. */
#ifndef TW_COPY_H
#define TW_COPY_H

#include "base/base.h"
#include "outline/outline.h"

typedef struct tw_copy_ask {
    tw_outline cut;             // tidy; the pocket, or what is to stay
    bool       inside;          // trace inside (pocket) or outside (island)
    double     cutter_mm, follower_mm;  // diameters, over 0
    double     ratio;           // template travel / cutter travel, over 0
    double     play_mm;         // given to the follower where a slot would be as narrow as itself; 0: none
    const tw_figures *figures;  // how notes, why and remedy write lengths; NULL: mm, with as many decimals as they need
} tw_copy_ask;

typedef struct tw_copy {
    bool        ok;             // false: no such cut or template; why and remedy say so, outlines are as far as they got
    tw_outline  cutter_path;    // wanted path of the cutter's centre
    tw_outline  follower_path;  // wanted path of the follower's centre: ratio * cutter_path
    tw_outline  template_;      // opening (inside) or body (outside), true size
    tw_outline  achieved;       // pocket, or what stays, reckoned back from the template
    double      left_area_mm2, lost_area_mm2;
    tw_patch   *left, *lost;    // the places
    int         left_count, lost_count;
    double      corner_radius_mm;   // that hollow corners keep: d/2
    double      lost_radius_mm;     // that outward corners come out with: (b - r d)/(2 r), 0 when b <= r d
    double      error_mm;       // greatest distance between the path reckoned back and the wanted one (with its stated rounding)
    const char **notes;         // sentences for the maker
    int         note_count;
    const char *why, *remedy;   // when not ok
    double      cutter_most_mm, follower_most_mm;  // largest that would do, when not ok and one would; else 0
    bool        tight;          // a slot of the template is as narrow as the follower: it needs play
    double      play_mm;        // play that the template gives (ask.play_mm when tight, else 0): the cut may come play/ratio wider
} tw_copy;

#define TW_COPY_TRUE_MM 1e-3  // a template is good when its simulated path is this near to the wanted one

/// Reckons the template and proves it. Never fails for a tidy outline; see ok. The result lives in the arena.
tw_copy tw_copy_reckon(tw_arena *arena, tw_copy_ask ask);

/// Width of the template for a slot or tenon of width w (design section 5): r(w - d) + b, or r(w + d) - b.
double tw_copy_width_mm(double width_mm, bool inside, double cutter_mm, double follower_mm, double ratio);
/// What a follower of another diameter does to the width cut with the same template: (b_template - b_used)/r for a
/// pocket, the opposite for a tenon.
double tw_copy_fit_mm(bool inside, double template_follower_mm, double used_follower_mm, double ratio);

#endif
