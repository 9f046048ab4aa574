// SPDX-License-Identifier: GPL-3.0-or-later
#include "piece/pose.h"

#include <assert.h>
#include <math.h>

#define RIGID 1e-9   // how far axes may be from unit length and right angles
#define SQUARE_MM 1e-9  // an edge of an outline that leans less than this is along its axis

tw_spot tw_spot_plus(tw_spot a, tw_spot b) { return (tw_spot){ a.x + b.x, a.y + b.y, a.z + b.z }; }
tw_spot tw_spot_less(tw_spot a, tw_spot b) { return (tw_spot){ a.x - b.x, a.y - b.y, a.z - b.z }; }
tw_spot tw_spot_times(tw_spot a, double factor) { return (tw_spot){ a.x * factor, a.y * factor, a.z * factor }; }

tw_spot tw_spot_cross(tw_spot a, tw_spot b)
{
    return (tw_spot){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

double tw_spot_product(tw_spot a, tw_spot b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
double tw_spot_size(tw_spot a) { return sqrt(tw_spot_product(a, a)); }

tw_pose tw_pose_home(void) { return (tw_pose){ { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 }, { 0, 0, 0 } }; }

tw_spot tw_pose_turn(tw_pose pose, tw_spot d)
{
    return (tw_spot){ d.x * pose.x.x + d.y * pose.y.x + d.z * pose.z.x, d.x * pose.x.y + d.y * pose.y.y + d.z * pose.z.y,
                      d.x * pose.x.z + d.y * pose.y.z + d.z * pose.z.z };
}

tw_spot tw_pose_apply(tw_pose pose, tw_spot spot) { return tw_spot_plus(pose.at, tw_pose_turn(pose, spot)); }

tw_pose tw_pose_compose(tw_pose outer, tw_pose inner)
{
    return (tw_pose){ tw_pose_turn(outer, inner.x), tw_pose_turn(outer, inner.y), tw_pose_turn(outer, inner.z), tw_pose_apply(outer, inner.at) };
}

tw_pose tw_pose_inverse(tw_pose p)
{
    assert(tw_pose_is_rigid(p));
    tw_pose back = { { p.x.x, p.y.x, p.z.x }, { p.x.y, p.y.y, p.z.y }, { p.x.z, p.y.z, p.z.z }, { 0, 0, 0 } };
    back.at = tw_spot_times(tw_pose_turn(back, p.at), -1.0);
    return back;
}

double tw_pose_distance_mm(tw_pose a, tw_pose b, tw_size size)
{
    double most = 0.0;
    for (int i = 0; i < 8; i++) {
        tw_spot corner = { i & 1 ? size.length_mm : 0.0, i & 2 ? size.width_mm : 0.0, i & 4 ? size.thickness_mm : 0.0 };
        most = tw_max(most, tw_spot_size(tw_spot_less(tw_pose_apply(a, corner), tw_pose_apply(b, corner))));
    }
    return most;
}

double tw_pose_angle_rad(tw_pose a, tw_pose b)
{
    tw_spot x = tw_spot_less(a.x, b.x), y = tw_spot_less(a.y, b.y), z = tw_spot_less(a.z, b.z);
    double all = tw_spot_product(x, x) + tw_spot_product(y, y) + tw_spot_product(z, z);
    return 2.0 * asin(tw_min(1.0, sqrt(all / 8.0)));
}

bool tw_pose_is_rigid(tw_pose p)
{
    const double off[] = { tw_spot_product(p.x, p.x) - 1.0, tw_spot_product(p.y, p.y) - 1.0, tw_spot_product(p.z, p.z) - 1.0, tw_spot_product(p.x, p.y),
                           tw_spot_product(p.y, p.z), tw_spot_product(p.z, p.x), tw_spot_product(tw_spot_cross(p.x, p.y), p.z) - 1.0 };
    for (int i = 0; i < 7; i++)
        if (!(fabs(off[i]) < RIGID)) return false;
    return isfinite(p.at.x) && isfinite(p.at.y) && isfinite(p.at.z);
}

/* ---- an end on a side ---- */

static tw_spot spot_on_side(tw_size other, const tw_end_stand *stand)
{
    switch (stand->from) {
    case TW_SIDE_FACE: return (tw_spot){ stand->at_mm, stand->across_mm, other.thickness_mm };
    case TW_SIDE_BACK: return (tw_spot){ stand->at_mm, stand->across_mm, 0.0 };
    case TW_SIDE_FACE_EDGE: return (tw_spot){ stand->at_mm, 0.0, stand->across_mm };
    default: return (tw_spot){ stand->at_mm, other.width_mm, stand->across_mm };
    }
}

static tw_spot unit(tw_spot a) { return tw_spot_times(a, 1.0 / tw_spot_size(a)); }

static bool leans(const tw_end_stand *stand) { return stand->rake_rad != 0.0 || stand->splay_rad != 0.0; }

/* The way out along which the piece stands. */
static tw_spot way_out(const tw_end_stand *stand)
{
    tw_spot out = tw_face_frame(stand->from).out, across = stand->from <= TW_SIDE_BACK ? (tw_spot){ 0, 1, 0 } : (tw_spot){ 0, 0, 1 };
    if (!leans(stand)) return out;
    tw_spot by = tw_spot_plus((tw_spot){ tan(stand->rake_rad), 0, 0 }, tw_spot_times(across, tan(stand->splay_rad)));
    return unit(tw_spot_plus(out, by));
}

/* The axis of the piece that runs along the grain of the other: the grain less what of it lies along the piece. */
static tw_spot along_grain(const tw_end_stand *stand, tw_spot out)
{
    tw_spot grain = { stand->reversed ? -1.0 : 1.0, 0, 0 };
    return leans(stand) ? unit(tw_spot_less(grain, tw_spot_times(out, tw_spot_product(grain, out)))) : grain;
}

tw_pose tw_end_pose(tw_size brought, tw_size other, const tw_end_stand *stand)
{
    assert(stand->end >= TW_SIDE_LEFT_END && stand->from < TW_SIDE_LEFT_END);
    bool right = stand->end == TW_SIDE_RIGHT_END;
    tw_spot out = way_out(stand), grain = along_grain(stand, out);
    tw_pose pose = { .x = right ? tw_spot_times(out, -1.0) : out };
    if (stand->along) {
        pose.y = grain;
        pose.z = tw_spot_cross(pose.x, pose.y);
    } else {
        pose.z = grain;
        pose.y = tw_spot_cross(pose.z, pose.x);
    }
    tw_spot mine = { right ? brought.length_mm - stand->inset_mm : stand->inset_mm, stand->middle_y, stand->middle_z };
    pose.at = tw_spot_less(spot_on_side(other, stand), tw_pose_turn(pose, mine));
    return pose;
}

/* ---- blocks ---- */

tw_block tw_piece_block(tw_size size) { return (tw_block){ { 0, 0, 0 }, { size.length_mm, size.width_mm, size.thickness_mm } }; }

static tw_box loop_bounds(const tw_cut *cut, int loop)
{
    assert(loop >= 0 && loop < cut->outline.count);
    return tw_outline_bounds((tw_outline){ &cut->outline.loops[loop], 1 });
}

static double within(double value, double most) { return tw_max(0.0, tw_min(most, value)); }

tw_block tw_cut_block(tw_size size, const tw_cut *cut, int loop)
{
    tw_box box = loop_bounds(cut, loop);
    double deep = tw_cut_depth_mm(size, cut);
    double right0 = cut->lean_right * cut->start_mm, right1 = cut->lean_right * deep;  // a leaning cut: the box around both its ends
    double up0 = cut->lean_up * cut->start_mm, up1 = cut->lean_up * deep;
    tw_spot a = tw_face_spot(size, cut->face, box.x0 + tw_min(right0, right1), box.y0 + tw_min(up0, up1), cut->start_mm);
    tw_spot b = tw_face_spot(size, cut->face, box.x1 + tw_max(right0, right1), box.y1 + tw_max(up0, up1), deep);
    return (tw_block){ { within(tw_min(a.x, b.x), size.length_mm), within(tw_min(a.y, b.y), size.width_mm), within(tw_min(a.z, b.z), size.thickness_mm) },
                       { within(tw_max(a.x, b.x), size.length_mm), within(tw_max(a.y, b.y), size.width_mm), within(tw_max(a.z, b.z), size.thickness_mm) } };
}

bool tw_cut_is_block(const tw_cut *cut, int loop)
{
    tw_loop l = cut->outline.loops[loop];
    if (l.count != 4 || cut->lean_right != 0.0 || cut->lean_up != 0.0) return false;
    for (int i = 0; i < 4; i++) {
        tw_vertex a = l.vertices[i], b = l.vertices[(i + 1) % 4];
        if (a.bulge != 0.0 || (fabs(a.x - b.x) > SQUARE_MM && fabs(a.y - b.y) > SQUARE_MM)) return false;
    }
    return true;
}
