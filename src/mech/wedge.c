// SPDX-License-Identifier: GPL-3.0-or-later
/* A wedge with one sloping face, between a flat face and a ramp.
 *
 * The flat face carries the draw F as its normal force and rubs with the friction angle f1 = atan mu1; the ramp leans
 * by a and rubs with f2 = atan mu2. Equilibrium of the wedge along the drive and along the draw gives, with no
 * small-angle shortening,
 *     drive    P  = F (tan f1 + tan(a + f2))        (1)
 *     release  P' = F (tan f1 + tan(f2 - a))        (2)   a push from the tip; negative: it springs out by itself
 * The wedge holds itself while P' > 0. That is the case just when a < f1 + f2, because tan f1 > tan(a - f2) when
 * f1 > a - f2. (1) has no answer from a + f2 = 90 degrees on: no force then drives it.
 *
 * Source: the statics of wedges as in any textbook; worked examples in tests/outside/wedges.tsv. */
#include "mech/mech.h"

#include <math.h>

#define MU_MOST 5.0  // far above any wood; a larger one is a slip of the pen

static const char *fault_of(double angle_rad, double mu_flat, double mu_ramp)
{
    if (!isfinite(angle_rad) || angle_rad <= 0.0) return "the wedge's angle must be more than nothing, such as 5 deg or 1:12";
    if (!(mu_flat >= 0.0 && mu_flat <= MU_MOST) || !(mu_ramp >= 0.0 && mu_ramp <= MU_MOST))
        return "a coefficient of friction lies between 0 and 5; dry planed wood on wood has about 0.3 to 0.5";
    if (angle_rad + atan(mu_ramp) >= TW_PI / 2.0 - 1e-9)
        return "no force drives a wedge so steep: its angle and the ramp's friction angle make 90 degrees or more together";
    return NULL;
}

bool tw_wedge_reckon(double angle_rad, double mu_flat, double mu_ramp, tw_wedge *wedge, const char **why)
{
    *why = fault_of(angle_rad, mu_flat, mu_ramp);
    if (*why) return false;
    double flat_rad = atan(mu_flat), ramp_rad = atan(mu_ramp);
    double margin_rad = flat_rad + ramp_rad - angle_rad;
    *wedge = (tw_wedge){
        .draw_mm_per_mm = tan(angle_rad),
        .draw_force_per_drive_force = 1.0 / (mu_flat + tan(angle_rad + ramp_rad)),
        .release_force_per_draw_force = mu_flat + tan(ramp_rad - angle_rad),
        .holds_itself = margin_rad > 0.0,
        .friction_angle_deg = tw_degrees(flat_rad + ramp_rad),
        .margin_deg = tw_degrees(margin_rad),
    };
    return true;
}
