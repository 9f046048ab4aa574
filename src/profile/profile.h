// SPDX-License-Identifier: GPL-3.0-or-later
/* profile: shaped edges and ends of one piece: arch, taper, chamfer, round-over, rounded end. Each is an outline of lines and
 * arcs, a cut as any joint's, with its own way of making.
 *
 * A profile on one of the four long sides is seen on the face or edge beside that side (`seen`), `along` from the left end and
 * `in` from the side into the wood:
 *
 *     side          seen on      along, in  ->  right, up on that face
 *     face edge     face         along, in                                a low side
 *     back edge     face         along, width - in                        a high side
 *     back          face edge    along, in                                a low side
 *     face          face edge    along, thickness - in                    a high side
 *
 * The kinds stand in the table of joint/joint.c; the files of this folder are part of that library. */
#ifndef TW_PROFILE_H
#define TW_PROFILE_H

#include "joint/joint.h"

/* ---- sides ---- */

typedef struct tw_profile_side {
    tw_face side, seen;         // what is shaped, and where it is seen
    bool    high;               // it is the upper border of what is seen
    double  long_mm, wide_mm;   // of what is seen: length of the piece, and the size that the profile goes into
    double  deep_mm;            // through the piece, behind what is seen
} tw_profile_side;

/// side: face, back, face edge or back edge.
tw_profile_side tw_profile_side_of(tw_size size, tw_face side);
tw_point tw_profile_point(const tw_profile_side *side, double along_mm, double in_mm);
/// How many pieces get the profile: of all sets.
int tw_profile_pieces(const tw_joint_context *context, int piece);
/// Adds a prism of wood right through, as seen on `seen`.
void tw_profile_cut(tw_joint_context *context, tw_joint_plan *plan, const char *name, tw_face seen, tw_outline outline);

/* ---- corners of a rectangle: rounded ends, and arrises seen along ---- */

/// Counter-clockwise from where 0, 0 lies.
typedef enum tw_corner_at { TW_CORNER_LOW_LEFT, TW_CORNER_LOW_RIGHT, TW_CORNER_HIGH_RIGHT, TW_CORNER_HIGH_LEFT } tw_corner_at;

/// What is taken at one corner of a rectangle from 0, 0 to wide, high: a triangle with two sides of `size_mm`, or the same with
/// a quarter circle that bends into it (round).
tw_outline tw_profile_corner(tw_arena *arena, double wide_mm, double high_mm, tw_corner_at at, double size_mm, bool round);
/// What is left of the rectangle when that is taken at the corners named. Two sizes must go into each side.
tw_outline tw_profile_corners_off(tw_arena *arena, double wide_mm, double high_mm, const bool off[4], double size_mm, bool round);

/* ---- a segment of a circle (the arch) ---- */

/// half_rad: half of the angle that the arc spans, from its centre.
typedef struct tw_segment { double chord_mm, rise_mm, radius_mm, half_rad; } tw_segment;

/// Chord c and rise h, 0 < h <= c / 2:  r = (c^2/4 + h^2) / (2 h),  half angle = 2 atan(2 h / c).
tw_segment tw_segment_of(double chord_mm, double rise_mm);
/// Height above the chord at a place counted from its middle, 0 beyond its ends: sqrt(r^2 - x^2) - (r - h).
double tw_segment_height_mm(tw_segment segment, double from_middle_mm);
/// r^2 (half - sin half cos half).
double tw_segment_area_mm2(tw_segment segment);

/* ---- least sizes: common practice ---- */

#define TW_PROFILE_BREAK_MM 1.0  // of a copied cut: how far the cutter comes out on the other side
#define TW_PROFILE_OVER_MM 1.0   // of a copied cut: how far more than a cutter's width it runs out beyond the side

/// Wood that must stay behind a profile: below this it is a HALT.
double tw_profile_least_mm(const tw_joint_context *context);

/* ---- what each kind's drawing needs; NULL in plan->own when it cannot be made ---- */

typedef enum tw_made { TW_MADE_COPIED, TW_MADE_ROUTED, TW_MADE_BY_HAND } tw_made;

typedef struct tw_arch_spec { tw_link piece; tw_choice edge; tw_amount from, to, rise; tw_choice made; tw_words cutter,
    follower; } tw_arch_spec;
typedef struct tw_arch {
    const tw_arch_spec *spec;
    const tw_piece     *piece;
    tw_profile_side     side;
    tw_segment          segment;
    double              from_mm, to_mm, left_mm;  // left: wood behind the middle of the arch
    tw_made             made;
    int                 cutter, pieces;           // cutter: of the shop, for copying; -1 none
} tw_arch;
/// The arch as the copying machine sees it: its middle under the side at 0, 0 and the shaped side up; the walls run on
/// over_mm beyond the side in straight lines.
tw_outline tw_arch_pocket(tw_arena *arena, tw_segment segment, double over_mm);
/// Does the machine take the arch with that cutter of the shop? Travel, holder, table and clamp are looked at.
bool tw_arch_machine_takes(const tw_joint_context *context, const tw_arch *arch, int cutter);
/// The largest cutter that follows the arch and reaches through from one face or from both; -1 when the shop has none.
int tw_arch_cutter(const tw_joint_context *context, const tw_arch *arch);
void tw_arch_work(tw_joint_context *context, tw_joint_plan *plan, const tw_arch *arch);
const char *tw_arch_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

typedef struct tw_taper_spec { tw_link piece; tw_choice sides, end; tw_amount length, by; } tw_taper_spec;
typedef struct tw_taper {
    const tw_taper_spec *spec;
    const tw_piece      *piece;
    tw_size              size;
    bool                 shaped[4];     // face, back, face edge, back edge, as tw_face counts
    double               long_mm, by_mm, angle_rad;
    int                  pieces, sides;
} tw_taper;
void tw_taper_work(tw_joint_context *context, tw_joint_plan *plan, const tw_taper *taper);
const char *tw_taper_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

/// The twelve arrises of a piece: the two sides that meet there, and the face on which the arris is seen as a point.
#define TW_ARRIS_COUNT 12
typedef struct tw_arris_at { tw_face a, b, seen; tw_corner_at corner; } tw_arris_at;
extern const tw_arris_at tw_arrises[TW_ARRIS_COUNT];  // the first four run along the grain, seen on the left end

/// Chamfers and round-overs: `size` is the width of the chamfer on each face, or the radius.
typedef struct tw_arris_spec { tw_link piece; tw_choice arrises; tw_amount size, from, to; tw_choice made; } tw_arris_spec;
typedef struct tw_arris {
    const tw_arris_spec *spec;
    const tw_piece      *piece;
    tw_size              size;
    bool                 round;
    const bool          *which;         // [TW_ARRIS_COUNT]
    double               size_mm, from_mm, to_mm;
    bool                 stopped;
    tw_made              made;
    int                  pieces, long_count, end_count;
} tw_arris;
void tw_arris_work(tw_joint_context *context, tw_joint_plan *plan, const tw_arris *arris);
const char *tw_arris_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

typedef struct tw_rounded_spec { tw_link piece; tw_choice ends, corners; tw_amount radius; tw_choice made; } tw_rounded_spec;
typedef struct tw_rounded {
    const tw_rounded_spec *spec;
    const tw_piece        *piece;
    tw_size                size;
    bool                   left, right, low, high;  // ends; corners at the face edge and at the back edge
    double                 radius_mm;
    tw_made                made;
    int                    pieces;
} tw_rounded;
void tw_rounded_work(tw_joint_context *context, tw_joint_plan *plan, const tw_rounded *rounded);
const char *tw_rounded_draw(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);

#endif
