// SPDX-License-Identifier: GPL-3.0-or-later
/* Cuts as sets of points, for laws about them: which points of a piece a cut takes, and how much wood. Written from the words
 * of piece.h alone. */
#ifndef TW_TESTS_CUT_LAW_H
#define TW_TESTS_CUT_LAW_H

#include "check.h"

#include "joint/joint.h"

/// A spot of the piece as a face sees it: right and up from the face's lower left corner, and deep below the face.
static inline tw_spot cut_law_seen(tw_size size, tw_face face, tw_spot p)
{
    double l = size.length_mm, w = size.width_mm, t = size.thickness_mm;
    switch (face) {
    case TW_SIDE_FACE: return (tw_spot){ p.x, p.y, t - p.z };
    case TW_SIDE_BACK: return (tw_spot){ p.x, w - p.y, p.z };
    case TW_SIDE_FACE_EDGE: return (tw_spot){ p.x, p.z, p.y };
    case TW_SIDE_BACK_EDGE: return (tw_spot){ p.x, t - p.z, w - p.y };
    case TW_SIDE_LEFT_END: return (tw_spot){ w - p.y, p.z, p.x };
    case TW_SIDE_RIGHT_END: return (tw_spot){ p.y, p.z, l - p.x };
    }
    return (tw_spot){ 0 };
}

static inline bool cut_law_takes(tw_size size, const tw_cut *cut, tw_spot p)
{
    tw_spot seen = cut_law_seen(size, cut->face, p);
    if (seen.z < cut->start_mm || (!cut->through && seen.z > cut->depth_mm)) return false;
    return tw_outline_side(cut->outline, (tw_point){ seen.x - cut->lean_right * seen.z, seen.y - cut->lean_up * seen.z }) >= 0;
}

/// How many cuts of the plan on that piece take the spot.
static inline int cut_law_count(const tw_joint_plan *plan, int piece, tw_size size, tw_spot p)
{
    int count = 0;
    for (size_t i = 0; i < plan->cut_count; i++)
        if (plan->cuts[i].piece == piece) count += cut_law_takes(size, &plan->cuts[i], p);
    return count;
}

/// Volume of the cuts of a piece, one by one, mm3; only those of that name when one is given.
static inline double cut_law_volume(const tw_joint_plan *plan, int piece, tw_size size, const char *name)
{
    double volume = 0.0;
    for (size_t i = 0; i < plan->cut_count; i++) {
        const tw_cut *cut = &plan->cuts[i];
        if (cut->piece != piece || (name && strcmp(cut->name, name) != 0)) continue;
        double deep = cut->through ? tw_face_extent(size, cut->face).thickness_mm : cut->depth_mm;
        volume += tw_outline_area_mm2(cut->outline) * (deep - cut->start_mm);
    }
    return volume;
}

static inline tw_spot cut_law_moved(tw_pose pose, tw_spot p)
{
    return (tw_spot){ pose.at.x + p.x * pose.x.x + p.y * pose.y.x + p.z * pose.z.x, pose.at.y + p.x * pose.x.y + p.y * pose.y.y + p.z * pose.z.y,
                      pose.at.z + p.x * pose.x.z + p.y * pose.y.z + p.z * pose.z.z };
}

static inline bool cut_law_within(tw_size size, tw_spot p)
{
    return p.x >= 0.0 && p.x <= size.length_mm && p.y >= 0.0 && p.y <= size.width_mm && p.z >= 0.0 && p.z <= size.thickness_mm;
}

/// Counts, over spots of the mover within the box, those that are wood there and lie in wood of the base too.
static inline int cut_law_clashes(const tw_joint_plan *plan, const tw_meeting *meeting, tw_size mover, tw_size base, tw_spot least, tw_spot most, int tries, check_seed *seed)
{
    int clashes = 0;
    for (int i = 0; i < tries; i++) {
        tw_spot p = { check_between(seed, least.x, most.x), check_between(seed, least.y, most.y), check_between(seed, least.z, most.z) };
        if (!cut_law_within(mover, p) || cut_law_count(plan, meeting->mover, mover, p) > 0) continue;
        tw_spot q = cut_law_moved(meeting->pose, p);
        clashes += cut_law_within(base, q) && cut_law_count(plan, meeting->base, base, q) == 0;
    }
    return clashes;
}

#endif
